// SPDX-License-Identifier: GPL-3.0-or-later
/* tool-stroke - tools that are one drag: freehand outline, trees along a stroke, circle, straight cut, slope, and a point put down. */
#include "tool-draw.h"

#include <glib/gi18n.h>

/* Points of a stroke nearer together than this say nothing more, px. */
#define STROKE_STEP_PX 2.0
/* A fitted outline may leave the hand's line by this much, px on the drawing and within limits in metres (common practice). */
#define FIT_PX 2.5
#define LEAST_FIT_M 0.15
#define MOST_FIT_M 1.5
/* Trees along a stroke: how far apart, how far to either side, and their canopy's radius (common practice). */
#define TREE_SPACING_M 8.0
#define TREE_SPREAD_M 3.0
#define TREE_RADIUS_M 3.5

static HwGrip
draw_find (HwCanvas *canvas, Vec2 at_px)
{
  return (HwGrip){ .kind = HW_GRIP_NEW };
}

static void
begin (HwCanvas *canvas, Vec2 at_px, HwGestureShape shape)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  Vec2 at = hw_tool_at (canvas, at_px, NULL, 0);
  bool is_pen = gesture->is_pen;
  hw_tool_clear (canvas);
  gesture->is_pen = is_pen;
  gesture->shape = shape;
  gesture->start = gesture->at = at;
  gesture->start_px = at_px;
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NEW;
}

static void
draw_cancel (HwCanvas *canvas)
{
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  hw_tool_clear (canvas);
}

/* ---- strokes ---- */

static bool
stroke_press (HwCanvas *canvas, Vec2 at_px)
{
  begin (canvas, at_px, HW_SHAPE_STROKE);
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  g_array_append_val (gesture->points, gesture->start);
  return true;
}

static void
stroke_drag (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  if (gesture->points->len == 0)
    return;
  gesture->at = view_unproject (hw_canvas_get_view (canvas), at_px);
  gesture->snap.kind = SNAP_NONE;
  Vec2 last = g_array_index (gesture->points, Vec2, gesture->points->len - 1);
  if (vec2_distance (last, gesture->at) >= hw_tool_metres (canvas, STROKE_STEP_PX))
    g_array_append_val (gesture->points, gesture->at);
  hw_tool_grew (canvas);
  gesture->has_moved |= vec2_distance (at_px, gesture->start_px) > HW_SLOP_PX;
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

static Hole *
hole_with_stroke (HwCanvas *canvas, size_t *part, GError **error)
{
  const GArray *points = hw_canvas_get_gesture (canvas)->points;
  double tolerance_m = CLAMP (hw_tool_metres (canvas, FIT_PX), LEAST_FIT_M, MOST_FIT_M);
  return edit_add_stroke (hw_document_get_kept (hw_canvas_get_document (canvas)),
                          hw_desk_get_kind (hw_canvas_get_desk (canvas)), (const Vec2 *)(const void *)points->data, points->len,
                          tolerance_m, part, error);
}

static Hole *
freehand_so_far (HwCanvas *canvas)
{
  size_t part;
  return hw_canvas_get_gesture (canvas)->has_moved ? hole_with_stroke (canvas, &part, NULL) : NULL;
}

static void
freehand_release (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  if (!gesture->has_moved)
    {
      hw_tool_clear (canvas);
      return;
    }
  size_t part = 0;
  GError *error = NULL;
  Hole *hole = hole_with_stroke (canvas, &part, &error);
  hw_tool_finish (canvas, hole, hw_desk_get_kind (hw_canvas_get_desk (canvas)), part, error);
}

static Hole *
hole_with_trees (HwCanvas *canvas, size_t *first, size_t *n, GError **error)
{
  const GArray *points = hw_canvas_get_gesture (canvas)->points;
  GRand *random = g_rand_new ();
  Hole *hole
      = edit_scatter_trees (hw_document_get_kept (hw_canvas_get_document (canvas)), (const Vec2 *)(const void *)points->data,
                            points->len, TREE_SPACING_M, TREE_SPREAD_M, TREE_RADIUS_M, random, first, n, error);
  g_rand_free (random);
  return hole;
}

static bool
is_long_enough (HwCanvas *canvas)
{
  const HwGesture *gesture = hw_canvas_get_gesture (canvas);
  return gesture->has_moved && gesture->points->len >= 2;
}

static Hole *
scatter_so_far (HwCanvas *canvas)
{
  size_t first, n;
  return is_long_enough (canvas) ? hole_with_trees (canvas, &first, &n, NULL) : NULL;
}

static void
scatter_release (HwCanvas *canvas)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  if (!is_long_enough (canvas))
    {
      hw_tool_clear (canvas);
      return;
    }
  size_t first = 0, n = 0;
  GError *error = NULL;
  Hole *hole = hole_with_trees (canvas, &first, &n, &error);
  hw_tool_clear (canvas);
  if (!hw_desk_edit (desk, hole, _ ("draw trees"), 0, &error))
    return;
  g_autofree size_t *parts = g_new (size_t, n + 1);
  for (size_t i = 0; i < n; i++)
    parts[i] = first + i;
  hw_desk_select (desk, parts, n);
}

const HwTool hw_tool_freehand
    = { "freehand",      "crosshair",          draw_find, stroke_press,   stroke_drag, freehand_release, draw_cancel,
        hw_tool_pen_key, hw_tool_draw_overlay, NULL,      freehand_so_far };
const HwTool hw_tool_scatter
    = { "scatter",       "crosshair",          draw_find, stroke_press,  stroke_drag, scatter_release, draw_cancel,
        hw_tool_pen_key, hw_tool_draw_overlay, NULL,      scatter_so_far };

/* ---- circle ---- */

static bool
circle_press (HwCanvas *canvas, Vec2 at_px)
{
  begin (canvas, at_px, HW_SHAPE_CIRCLE);
  return true;
}

static void
shape_drag (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  gesture->at = hw_tool_at (canvas, at_px, NULL, 0);
  hw_tool_grew (canvas);
  gesture->has_moved |= vec2_distance (at_px, gesture->start_px) > HW_SLOP_PX;
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

static Hole *
hole_with_circle (HwCanvas *canvas, size_t *part, GError **error)
{
  const HwGesture *gesture = hw_canvas_get_gesture (canvas);
  return edit_add_circle (hw_document_get_kept (hw_canvas_get_document (canvas)),
                          hw_desk_get_kind (hw_canvas_get_desk (canvas)), gesture->start,
                          vec2_distance (gesture->start, gesture->at), part, error);
}

static Hole *
circle_so_far (HwCanvas *canvas)
{
  size_t part;
  return hw_canvas_get_gesture (canvas)->has_moved ? hole_with_circle (canvas, &part, NULL) : NULL;
}

static void
circle_release (HwCanvas *canvas)
{
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  if (!hw_canvas_get_gesture (canvas)->has_moved)
    {
      hw_tool_clear (canvas);
      return;
    }
  size_t part = 0;
  GError *error = NULL;
  Hole *hole = hole_with_circle (canvas, &part, &error);
  hw_tool_finish (canvas, hole, hw_desk_get_kind (hw_canvas_get_desk (canvas)), part, error);
}

const HwTool hw_tool_circle
    = { "circle",        "crosshair",          draw_find, circle_press, shape_drag, circle_release, draw_cancel,
        hw_tool_pen_key, hw_tool_draw_overlay, NULL,      circle_so_far };

/* ---- a point ---- */

static bool
place_press (HwCanvas *canvas, Vec2 at_px)
{
  begin (canvas, at_px, HW_SHAPE_DOT);
  return true;
}

static void
place_release (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  const Hole *kept = hw_document_get_kept (hw_desk_get_document (desk));
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  size_t part = 0;
  GError *error = NULL;
  Kind kind = hw_desk_get_kind (desk);
  Hole *hole = kind == KIND_NOTE ? edit_add_note (kept, gesture->at, _ ("Note"), &part, &error)
                                 : edit_add_point (kept, kind, gesture->at, &part, &error);
  hw_tool_finish (canvas, hole, kind, part, error);
}

const HwTool hw_tool_place
    = { "place",         "crosshair",          draw_find, place_press, shape_drag, place_release, draw_cancel,
        hw_tool_pen_key, hw_tool_draw_overlay, NULL,      NULL };

/* ---- a cut, and other straight lines ---- */

static bool
line_press (HwCanvas *canvas, Vec2 at_px)
{
  begin (canvas, at_px, HW_SHAPE_LINE);
  return true;
}

static void
cut_release (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  Vec2 a = gesture->start, b = gesture->at;
  bool has_moved = gesture->has_moved;
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  hw_tool_clear (canvas);
  if (!has_moved)
    return;
  size_t n;
  GError *error = NULL;
  const size_t *parts = hw_desk_get_selection (desk, &n);
  Hole *hole = edit_cut (hw_document_get_kept (hw_desk_get_document (desk)), parts, n, a, b, &error);
  if (hw_desk_edit (desk, hole, hw_desk_label (desk, _ ("cut %s")), 0, &error))
    hw_desk_take_way (desk, HW_WAY_SELECT);
}

const HwTool hw_tool_cut = { "cut",           "crosshair",          draw_find, line_press, shape_drag, cut_release, draw_cancel,
                             hw_tool_pen_key, hw_tool_draw_overlay, NULL,      NULL };

/* ---- a slope ---- */

static void
arrow_release (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  Kind kind = hw_desk_get_kind (hw_canvas_get_desk (canvas));
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  if (!gesture->has_moved)
    {
      hw_tool_clear (canvas);
      return;
    }
  size_t part = 0;
  GError *error = NULL;
  Path path = { 0 };
  path_move_to (&path, gesture->start);
  path_line_to (&path, gesture->at);
  Hole *hole = edit_add_path (hw_document_get_kept (hw_canvas_get_document (canvas)), kind, &path, &part, &error);
  path_clear (&path);
  hw_tool_finish (canvas, hole, kind, part, error);
}

const HwTool hw_tool_arrow_downhill
    = { "arrow",         "crosshair",          draw_find, line_press, shape_drag, arrow_release, draw_cancel,
        hw_tool_pen_key, hw_tool_draw_overlay, NULL,      NULL };
