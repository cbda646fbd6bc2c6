// SPDX-License-Identifier: GPL-3.0-or-later
/* tool-draw - helpers of the tools of Draw, and drawing by keys: a pen moved by arrows that presses the tool as the pointer would. */
#include "tool-draw.h"

#include <glib/gi18n.h>

/* Round distances from the tee that attract, in the unit of the labels. */
#define ROUND_UNITS 10.0
/* How far a snap reaches, px. */
#define SNAP_PX 7.0
/* Shift and Alt change a nudge by these factors. */
#define NUDGE_LONG 10.0
#define NUDGE_SHORT 0.1
/* How often a gesture that goes on is handed over to be kept: with the keeper's own wait still within the promised three seconds. */
#define KEEP_EVERY_MS 250

const HwTool *
hw_way_tool (HwWay way)
{
  static const HwTool *const tools[HW_N_WAYS] = {
    [HW_WAY_SELECT] = &hw_tool_select, [HW_WAY_FREEHAND] = &hw_tool_freehand,    [HW_WAY_POINTS] = &hw_tool_points,
    [HW_WAY_CIRCLE] = &hw_tool_circle, [HW_WAY_PLACE] = &hw_tool_place,          [HW_WAY_SCATTER] = &hw_tool_scatter,
    [HW_WAY_CUT] = &hw_tool_cut,       [HW_WAY_ARROW] = &hw_tool_arrow_downhill,
  };
  return tools[way];
}

double
hw_tool_metres (HwCanvas *canvas, double length_px)
{
  return length_px / hw_canvas_get_view (canvas)->px_per_m;
}

Vec2
hw_tool_snap (HwCanvas *canvas, Vec2 at, const size_t *without, size_t n_without)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  gesture->snap.kind = SNAP_NONE;
  if (gesture->is_pen || hw_canvas_get_modifiers (canvas) & GDK_CONTROL_MASK)
    return at;
  Hole *hole = hw_document_get_kept (hw_desk_get_document (desk));
  double round_m = unit_to_metres (hw_document_get_units (hw_desk_get_document (desk)), ROUND_UNITS);
  gesture->snap = edit_snap (hole, at, hw_tool_metres (canvas, SNAP_PX), round_m, without, n_without);
  return gesture->snap.kind == SNAP_NONE ? at : gesture->snap.at;
}

Vec2
hw_tool_at (HwCanvas *canvas, Vec2 at_px, const size_t *without, size_t n_without)
{
  return hw_tool_snap (canvas, view_unproject (hw_canvas_get_view (canvas), at_px), without, n_without);
}

/* Goes on until the gesture is over; what was kept of one that was taken back is then dropped. */
static gboolean
on_keep_cb (gpointer user_data)
{
  HwCanvas *canvas = user_data;
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDocument *document = hw_canvas_get_document (canvas);
  const HwTool *tool = hw_way_tool (hw_desk_get_way (hw_canvas_get_desk (canvas)));
  if (gesture->shape == HW_SHAPE_NONE)
    {
      gesture->timer = 0;
      hw_document_keep_begun (document, NULL, 0);
      return G_SOURCE_REMOVE;
    }
  bool is_kept = gesture->since_us == 0 && hw_document_holds_begun (document);
  Hole *hole = !is_kept && tool->so_far != NULL ? tool->so_far (canvas) : NULL;
  if (hole != NULL)
    {
      hw_document_keep_begun (document, hole, gesture->since_us);
      gesture->since_us = 0;
    }
  return G_SOURCE_CONTINUE;
}

void
hw_tool_grew (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  if (gesture->since_us == 0)
    gesture->since_us = g_get_monotonic_time ();
  if (gesture->timer == 0)
    gesture->timer = g_timeout_add (KEEP_EVERY_MS, on_keep_cb, canvas);
}

void
hw_tool_clear (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  hw_document_forget_begun (hw_canvas_get_document (canvas), gesture->since_us);
  gesture->since_us = 0;
  g_clear_pointer (&gesture->base, hole_unref);
  g_array_set_size (gesture->points, 0);
  g_array_set_size (gesture->nodes, 0);
  g_array_set_size (gesture->struck, 0);
  g_array_set_size (gesture->spared, 0);
  gesture->shape = HW_SHAPE_NONE;
  gesture->snap.kind = SNAP_NONE;
  gesture->has_moved = gesture->is_picture = false;
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

void
hw_tool_finish (HwCanvas *canvas, Hole *hole, Kind kind, size_t part, GError *error)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  g_autofree char *label = g_strdup_printf (_ ("draw %s"), _ (kind_info (kind)->label));
  hw_tool_clear (canvas);
  if (hw_desk_edit (desk, hole, label, 0, &error))
    hw_desk_select_one (desk, part);
}

double
hw_tool_nudge_m (HwCanvas *canvas, GdkModifierType modifiers)
{
  double factor = modifiers & GDK_SHIFT_MASK ? NUDGE_LONG : modifiers & GDK_ALT_MASK ? NUDGE_SHORT : 1;
  return unit_to_metres (hw_document_get_units (hw_canvas_get_document (canvas)), factor);
}

/* ---- the pen ---- */

static void
place_pen (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  if (gesture->is_pen)
    return;
  const RenderView *view = hw_canvas_get_view (canvas);
  Hole *hole = hw_document_get_kept (hw_canvas_get_document (canvas));
  int tee = hole_tee (hole, NULL);
  gesture->is_pen = true;
  if (gesture->shape == HW_SHAPE_NONE)
    gesture->at = tee >= 0 ? part_position (hole_part (hole, (size_t)tee)) : view->centre;
}

bool
hw_tool_pen_key (HwCanvas *canvas, guint keyval, GdkModifierType modifiers)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  const RenderView *view = hw_canvas_get_view (canvas);
  const HwTool *tool = hw_way_tool (hw_desk_get_way (hw_canvas_get_desk (canvas)));
  Vec2 direction_px;
  if (keyval == GDK_KEY_Escape)
    {
      bool was_going = gesture->shape != HW_SHAPE_NONE || gesture->is_pen;
      gesture->is_pen = false;
      hw_tool_clear (canvas);
      if (!was_going)
        hw_desk_take_way (hw_canvas_get_desk (canvas), HW_WAY_SELECT);
      return true;
    }
  if (hw_tool_arrow (keyval, &direction_px) && !(modifiers & GDK_CONTROL_MASK))
    {
      place_pen (canvas);
      gesture->at = vec2_add (gesture->at, view_step (view, direction_px, hw_tool_nudge_m (canvas, modifiers)));
      if (gesture->shape != HW_SHAPE_NONE && gesture->shape != HW_SHAPE_NODES)
        tool->drag (canvas, view_point (view, gesture->at));
      hw_canvas_show_place (canvas, gesture->at);
      return true;
    }
  if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter)
    {
      place_pen (canvas);
      Vec2 at_px = view_point (view, gesture->at);
      bool is_open = gesture->shape != HW_SHAPE_NONE && gesture->shape != HW_SHAPE_NODES;
      if (!is_open)
        tool->press (canvas, at_px);
      if (is_open || tool == &hw_tool_points || tool == &hw_tool_place)
        tool->release (canvas);
      gtk_widget_queue_draw (GTK_WIDGET (canvas));
      return true;
    }
  return false;
}

/* ---- the frame round the selection ---- */

Box
hw_tool_frame (HwCanvas *canvas)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  Hole *hole = hw_desk_get_hole (desk);
  size_t n;
  const size_t *selection = hw_desk_get_selection (desk, &n);
  Box box = box_empty ();
  bool has_extent = false;
  for (size_t i = 0; hole != NULL && i < n; i++)
    {
      const Part *part = hole_part (hole, selection[i]);
      PartShape shape = kind_info (part->kind)->shape;
      has_extent |= shape == SHAPE_AREA || shape == SHAPE_LINE;
      if (shape == SHAPE_POINT || shape == SHAPE_TEXT)
        box = box_with_point (box, part->at);
      else
        box = box_union (box, part->bounds);
    }
  if (box_is_empty (box) || (n < 2 && !has_extent))
    return box_empty ();
  const HwGesture *gesture = hw_canvas_get_gesture (canvas);
  const RenderView *view = hw_canvas_get_view (canvas);
  Box frame = box_empty ();
  for (int corner = 0; corner < 4; corner++)
    {
      Vec2 at = vec2 (corner & 1 ? box.x1 : box.x0, corner & 2 ? box.y1 : box.y0);
      frame = box_with_point (frame, view_point (view, gesture->is_picture ? affine_apply (gesture->moved, at) : at));
    }
  return box_grown (frame, HW_FRAME_ROOM_PX);
}

Vec2
hw_tool_frame_grip (Box frame, int corner)
{
  if (corner == 4)
    return vec2 ((frame.x0 + frame.x1) / 2, frame.y0 - HW_KNOB_ROOM_PX);
  return vec2 (corner & 1 ? frame.x1 : frame.x0, corner & 2 ? frame.y1 : frame.y0);
}
