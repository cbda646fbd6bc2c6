// SPDX-License-Identifier: GPL-3.0-or-later
/* tool-points - an outline or a line point by point: a press puts a point down, dragging from it bends the curve there. */
#include "tool-draw.h"

/* Fewest points of an area and of a line. */
#define AREA_POINTS 3
#define LINE_POINTS 2

static HwGesture *
gesture_of (HwCanvas *canvas)
{
  return hw_canvas_get_gesture (canvas);
}

static PathNode *
last_node (HwGesture *gesture)
{
  return gesture->nodes->len > 0 ? &g_array_index (gesture->nodes, PathNode, gesture->nodes->len - 1) : NULL;
}

static HwGrip
points_find (HwCanvas *canvas, Vec2 at_px)
{
  return (HwGrip){ .kind = HW_GRIP_NEW };
}

static bool
is_area (HwCanvas *canvas)
{
  return kind_info (hw_desk_get_kind (hw_canvas_get_desk (canvas)))->shape == SHAPE_AREA;
}

static bool
has_enough_points (HwCanvas *canvas)
{
  return gesture_of (canvas)->nodes->len >= (is_area (canvas) ? AREA_POINTS : LINE_POINTS);
}

/* The hole with the outline or line through the points put down. */
static Hole *
hole_with_points (HwCanvas *canvas, size_t *part, GError **error)
{
  HwGesture *gesture = gesture_of (canvas);
  Path path = { 0 };
  for (guint i = 0; i < gesture->nodes->len; i++)
    g_array_index (gesture->nodes, PathNode, i).is_closed = is_area (canvas);
  path_add_nodes (&path, (const PathNode *)gesture->nodes->data, gesture->nodes->len);
  Hole *hole = edit_add_path (hw_document_get_kept (hw_canvas_get_document (canvas)),
                              hw_desk_get_kind (hw_canvas_get_desk (canvas)), &path, part, error);
  path_clear (&path);
  return hole;
}

/* Two points enclose nothing: as on the drawing the pointer is the third. */
static Hole *
points_so_far (HwCanvas *canvas)
{
  HwGesture *gesture = gesture_of (canvas);
  size_t part;
  guint n = gesture->nodes->len;
  if (n < LINE_POINTS)
    return NULL;
  if (!has_enough_points (canvas))
    {
      PathNode pointer = { .at = gesture->at, .in = gesture->at, .out = gesture->at };
      g_array_append_val (gesture->nodes, pointer);
    }
  Hole *hole = hole_with_points (canvas, &part, NULL);
  g_array_set_size (gesture->nodes, n);
  return hole;
}

/* One point alone is nothing yet. */
static void
points_grew (HwCanvas *canvas)
{
  if (gesture_of (canvas)->nodes->len >= LINE_POINTS)
    hw_tool_grew (canvas);
}

static void
finish (HwCanvas *canvas)
{
  if (!has_enough_points (canvas))
    {
      hw_tool_clear (canvas);
      return;
    }
  size_t part = 0;
  GError *error = NULL;
  Hole *hole = hole_with_points (canvas, &part, &error);
  hw_tool_finish (canvas, hole, hw_desk_get_kind (hw_canvas_get_desk (canvas)), part, error);
}

/* Does this press end the outline: on its last point again, or on its first? */
static bool
is_ending (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = gesture_of (canvas);
  if (gesture->nodes->len == 0)
    return false;
  const RenderView *view = hw_canvas_get_view (canvas);
  const PathNode *first = &g_array_index (gesture->nodes, PathNode, 0);
  bool on_last = vec2_distance (view_point (view, last_node (gesture)->at), at_px) < HW_SLOP_PX;
  bool on_first = is_area (canvas) && gesture->nodes->len >= AREA_POINTS
                  && vec2_distance (view_point (view, first->at), at_px) < HW_REACH_PX;
  return on_last || on_first;
}

static bool
points_press (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = gesture_of (canvas);
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NEW;
  gesture->start_px = at_px;
  gesture->has_moved = false;
  if (is_ending (canvas, at_px))
    {
      finish (canvas);
      return true;
    }
  Vec2 at = hw_tool_at (canvas, at_px, NULL, 0);
  PathNode node = { .at = at, .in = at, .out = at, .starts = gesture->nodes->len == 0 };
  g_array_append_val (gesture->nodes, node);
  gesture->shape = HW_SHAPE_NODES;
  gesture->at = at;
  points_grew (canvas);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
  return true;
}

static void
points_drag (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = gesture_of (canvas);
  PathNode *node = last_node (gesture);
  if (node == NULL || gesture->shape != HW_SHAPE_NODES)
    return;
  gesture->has_moved |= vec2_distance (at_px, gesture->start_px) > HW_SLOP_PX;
  if (!gesture->has_moved)
    return;
  node->out = view_unproject (hw_canvas_get_view (canvas), at_px);
  node->in = vec2_sub (vec2_scale (node->at, 2), node->out);
  node->is_smooth = true;
  gesture->at = node->out;
  points_grew (canvas);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

static void
points_release (HwCanvas *canvas)
{
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
}

static void
points_cancel (HwCanvas *canvas)
{
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  hw_tool_clear (canvas);
}

static bool
points_key (HwCanvas *canvas, guint keyval, GdkModifierType modifiers)
{
  HwGesture *gesture = gesture_of (canvas);
  bool is_return = keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter;
  if (gesture->nodes->len > 0 && keyval == GDK_KEY_BackSpace)
    {
      g_array_set_size (gesture->nodes, gesture->nodes->len - 1);
      if (gesture->nodes->len == 0)
        gesture->shape = HW_SHAPE_NONE;
      points_grew (canvas);
      gtk_widget_queue_draw (GTK_WIDGET (canvas));
      return true;
    }
  if (is_return && gesture->nodes->len > 0 && !gesture->is_pen)
    {
      finish (canvas);
      return true;
    }
  return hw_tool_pen_key (canvas, keyval, modifiers);
}

static void
points_hover (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = gesture_of (canvas);
  if (gesture->shape != HW_SHAPE_NODES)
    return;
  gesture->is_pen = false;
  gesture->at = hw_tool_at (canvas, at_px, NULL, 0);
  if (!has_enough_points (canvas))
    points_grew (canvas);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

const HwTool hw_tool_points = { "points",      "crosshair", points_find,          points_press, points_drag,  points_release,
                                points_cancel, points_key,  hw_tool_draw_overlay, points_hover, points_so_far };
