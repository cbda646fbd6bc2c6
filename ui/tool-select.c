// SPDX-License-Identifier: GPL-3.0-or-later
/* tool-select - picks things by click or box, moves, scales and turns them, and moves the nodes and handles of the one selected. */
#include "tool-draw.h"

#include <glib/gi18n.h>

/* Shift turns by steps of this. */
#define TURN_STEP_RAD (15 * PI / 180)
/* A frame is not scaled below this part of its size. */
#define LEAST_SCALE 0.02

/* ---- what is under the pointer ---- */

static bool
has_outline (const Part *part)
{
  PartShape shape = kind_info (part->kind)->shape;
  return shape == SHAPE_AREA || shape == SHAPE_LINE;
}

static bool
find_node (HwCanvas *canvas, Vec2 at, double reach_m, HwGrip *grip)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  Hole *hole = hw_desk_get_hole (desk);
  int part = hw_desk_get_selected (desk);
  if (part < 0 || !has_outline (hole_part (hole, (size_t)part)))
    return false;
  size_t node;
  NodeGrip which;
  if (!edit_pick_node (hole, (size_t)part, at, reach_m, &node, &which))
    return false;
  if (which != NODE_AT && (int)node != hw_desk_get_node (desk))
    return false;
  *grip = (HwGrip){ .kind = HW_GRIP_NODE, .shot = (size_t)part, .node = node, .which = (int)which };
  return true;
}

static bool
find_frame (HwCanvas *canvas, Vec2 at_px, HwGrip *grip)
{
  Box frame = hw_tool_frame (canvas);
  for (int corner = 0; !box_is_empty (frame) && corner <= 4; corner++)
    if (vec2_distance (hw_tool_frame_grip (frame, corner), at_px) <= HW_REACH_PX)
      {
        *grip = (HwGrip){ .kind = corner == 4 ? HW_GRIP_TURN : HW_GRIP_SCALE, .which = corner };
        return true;
      }
  return false;
}

static HwGrip
select_find (HwCanvas *canvas, Vec2 at_px)
{
  HwGrip grip = { .kind = HW_GRIP_NONE };
  HwDesk *desk = hw_canvas_get_desk (canvas);
  Hole *hole = hw_desk_get_hole (desk);
  if (hole == NULL)
    return grip;
  Vec2 at = view_unproject (hw_canvas_get_view (canvas), at_px);
  double reach_m = hw_tool_metres (canvas, HW_REACH_PX);
  if (find_node (canvas, at, reach_m, &grip) || find_frame (canvas, at_px, &grip))
    return grip;
  size_t n;
  const size_t *without = hw_desk_get_untouchable (desk, &n);
  int part = edit_pick (hole, at, reach_m, without, n);
  if (part >= 0)
    grip = (HwGrip){ .kind = HW_GRIP_THING, .shot = (size_t)part };
  return grip;
}

/* ---- press ---- */

/* A second click: on a node it becomes smooth or a corner, on the edge of the one thing selected a node is added. */
static bool
second_click (HwCanvas *canvas, const HwGrip *grip, Vec2 at)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  const Hole *hole = hw_document_get_kept (hw_desk_get_document (desk));
  int part = hw_desk_get_selected (desk);
  g_autoptr (GError) error = NULL;
  if (part < 0 || !has_outline (hole_part (hole, (size_t)part)))
    return false;
  const Part *thing = hole_part (hole, (size_t)part);
  if (grip->kind == HW_GRIP_NODE && grip->which == NODE_AT)
    {
      PathNode *nodes = NULL;
      size_t n = path_nodes (&thing->path, &nodes);
      bool is_smooth = grip->node < n && nodes[grip->node].is_smooth;
      free (nodes);
      return hw_desk_edit (desk, edit_smooth_node (hole, (size_t)part, grip->node, !is_smooth, &error),
                           is_smooth ? _ ("make corner") : _ ("make smooth"), 0, &error);
    }
  size_t seg, node = 0;
  double t, distance_m;
  if (!path_nearest (&thing->path, at, &seg, &t, &distance_m) || distance_m > hw_tool_metres (canvas, HW_REACH_PX))
    return false;
  if (!hw_desk_edit (desk, edit_add_node (hole, (size_t)part, at, &node, &error), _ ("add node"), 0, &error))
    return false;
  hw_desk_set_node (desk, (int)node);
  return true;
}

static void
take_hold (HwCanvas *canvas, const HwGrip *grip)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  if (grip->kind == HW_GRIP_NODE)
    hw_desk_set_node (desk, (int)grip->node);
  else if (grip->kind == HW_GRIP_THING && gesture->keeps)
    hw_desk_toggle (desk, grip->shot);
  else if (grip->kind == HW_GRIP_THING && !hw_desk_is_selected (desk, grip->shot))
    hw_desk_select_one (desk, grip->shot);
  else if (grip->kind == HW_GRIP_NONE)
    gesture->shape = HW_SHAPE_BOX;
}

static bool
select_press (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  HwGrip grip = select_find (canvas, at_px);
  hw_tool_clear (canvas);
  gesture->is_pen = false;
  gesture->start_px = at_px;
  gesture->start = gesture->at = view_unproject (hw_canvas_get_view (canvas), at_px);
  gesture->keeps = hw_canvas_get_modifiers (canvas) & GDK_SHIFT_MASK;
  if (hw_canvas_get_press_count (canvas) == 2 && second_click (canvas, &grip, gesture->start))
    grip.kind = HW_GRIP_NEW;
  else
    take_hold (canvas, &grip);
  gesture->base = hole_ref (hw_document_get_kept (hw_desk_get_document (desk)));
  *hw_canvas_get_grip (canvas) = grip;
  return true;
}

/* ---- drag: each tells where the selection goes from where it was ---- */

static bool
find_shift (HwCanvas *canvas, Vec2 at, Affine *moved)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  size_t n;
  const size_t *parts = hw_desk_get_selection (hw_canvas_get_desk (canvas), &n);
  if (n == 0)
    return false;
  Vec2 by = vec2_sub (at, gesture->start);
  if (hw_canvas_get_modifiers (canvas) & GDK_SHIFT_MASK)
    by = fabs (by.x) > fabs (by.y) ? vec2 (by.x, 0) : vec2 (0, by.y);
  gesture->snap.kind = SNAP_NONE;
  if (n == 1)
    {
      const Part *part = hole_part (gesture->base, parts[0]);
      Vec2 from = part_position (part), to = vec2_add (from, by);
      Vec2 snapped = hw_tool_snap (canvas, to, parts, n);
      bool fits = !has_outline (part) || gesture->snap.kind == SNAP_LINE || gesture->snap.kind == SNAP_DISTANCE;
      if (fits)
        by = vec2_sub (snapped, from);
      else
        gesture->snap.kind = SNAP_NONE;
    }
  *moved = affine_translation (by.x, by.y);
  return true;
}

/* About the opposite corner of the frame as it was; alike both ways unless Shift is held. */
static bool
find_scale (HwCanvas *canvas, Vec2 at, int corner, Affine *moved)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  Vec2 anchor = view_unproject (hw_canvas_get_view (canvas), hw_tool_frame_grip (gesture->frame, 3 - corner));
  Vec2 was = vec2_sub (gesture->start, anchor), is = vec2_sub (at, anchor);
  double sx = is.x / was.x, sy = is.y / was.y;
  if (!(hw_canvas_get_modifiers (canvas) & GDK_SHIFT_MASK))
    sx = sy = vec2_dot (is, was) / vec2_dot (was, was);
  if (!(fabs (sx) > LEAST_SCALE) || !(fabs (sy) > LEAST_SCALE))
    return false;
  *moved = affine_then (affine_then (affine_translation (-anchor.x, -anchor.y), affine_scaling (sx, sy)),
                        affine_translation (anchor.x, anchor.y));
  return true;
}

static bool
find_turn (HwCanvas *canvas, Vec2 at, Affine *moved)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  Vec2 middle = view_unproject (hw_canvas_get_view (canvas), box_centre (gesture->frame));
  Vec2 was = vec2_sub (gesture->start, middle), is = vec2_sub (at, middle);
  double angle_rad = atan2 (vec2_cross (was, is), vec2_dot (was, is));
  if (hw_canvas_get_modifiers (canvas) & GDK_SHIFT_MASK)
    angle_rad = round (angle_rad / TURN_STEP_RAD) * TURN_STEP_RAD;
  *moved = affine_then (affine_then (affine_translation (-middle.x, -middle.y), affine_rotation (angle_rad)),
                        affine_translation (middle.x, middle.y));
  return true;
}

static bool
find_moved (HwCanvas *canvas, Vec2 at, const HwGrip *grip, Affine *moved)
{
  switch (grip->kind)
    {
    case HW_GRIP_THING:
      return find_shift (canvas, at, moved);
    case HW_GRIP_SCALE:
      return find_scale (canvas, at, grip->which, moved);
    case HW_GRIP_TURN:
      return find_turn (canvas, at, moved);
    default:
      return false;
    }
}

static const char *
drag_label (HwDesk *desk, HwGripKind kind)
{
  return hw_desk_label (desk, kind == HW_GRIP_THING   ? _ ("move %s")
                              : kind == HW_GRIP_SCALE ? _ ("scale %s")
                              : kind == HW_GRIP_TURN  ? _ ("turn %s")
                                                      : _ ("reshape %s"));
}

/* The selection as it would be. */
static Hole *
moved_hole (HwCanvas *canvas, Affine moved, GError **error)
{
  size_t n;
  const size_t *parts = hw_desk_get_selection (hw_canvas_get_desk (canvas), &n);
  return edit_transform (hw_canvas_get_gesture (canvas)->base, parts, n, moved, error);
}

static void
drag_selection (HwCanvas *canvas, const HwGrip *grip)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  HwDocument *document = hw_desk_get_document (desk);
  Affine moved;
  size_t n;
  if (!find_moved (canvas, gesture->at, grip, &moved))
    return;
  hw_desk_get_selection (desk, &n);
  if (!hw_document_is_dragging (document))
    {
      hw_desk_hold (desk);
      gesture->is_picture = n > HW_MOST_MOVING && hw_desk_holds_topmost (desk);
    }
  if (!gesture->is_picture)
    {
      Hole *hole = moved_hole (canvas, moved, NULL);
      if (hole != NULL)
        hw_document_drag_hole (document, hole, drag_label (desk, grip->kind));
      return;
    }
  gesture->moved = moved;
  if (!hw_document_is_dragging (document))
    hw_document_drag_hole (document, hole_ref (gesture->base), drag_label (desk, grip->kind));
}

static void
drag_node (HwCanvas *canvas, const HwGrip *grip)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  Vec2 to = grip->which == NODE_AT ? hw_tool_snap (canvas, gesture->at, &grip->shot, 1) : gesture->at;
  Hole *hole = edit_move_node (gesture->base, grip->shot, grip->node, (NodeGrip)grip->which, to, NULL);
  if (hole == NULL)
    return;
  hw_desk_hold (desk);
  hw_document_drag_hole (hw_desk_get_document (desk), hole, drag_label (desk, grip->kind));
}

static void
select_drag (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  const HwGrip *grip = hw_canvas_get_grip (canvas);
  gesture->at = view_unproject (hw_canvas_get_view (canvas), at_px);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
  if (!gesture->has_moved)
    {
      gesture->has_moved = vec2_distance (at_px, gesture->start_px) > HW_SLOP_PX;
      if (!gesture->has_moved)
        return;
      gesture->frame = hw_tool_frame (canvas);
    }
  if (grip->kind == HW_GRIP_NODE)
    drag_node (canvas, grip);
  else
    drag_selection (canvas, grip);
}

/* ---- release ---- */

static void
select_box (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  g_autofree size_t *found = NULL;
  Box box = box_with_point (box_with_point (box_empty (), gesture->start), gesture->at);
  size_t n = gesture->has_moved ? edit_pick_box (gesture->base, box, &found) : 0, n_before;
  const size_t *before = hw_desk_get_selection (desk, &n_before);
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (size_t));
  for (size_t i = 0; i < n; i++)
    if (!hw_desk_is_locked (desk, found[i]) && !hw_desk_is_hidden (desk, found[i]))
      g_array_append_val (all, found[i]);
  if (gesture->keeps)
    g_array_append_vals (all, before, (guint)n_before);
  hw_desk_select (desk, (const size_t *)all->data, all->len);
}

/* What moved as a picture now goes where the picture is. */
static void
drop_picture (HwCanvas *canvas, HwGripKind kind)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  HwDocument *document = hw_desk_get_document (desk);
  const char *label = drag_label (desk, kind);
  GError *error = NULL;
  Hole *hole = moved_hole (canvas, gesture->moved, &error);
  gesture->is_picture = false;
  hw_desk_let_go (desk);
  hw_document_drag_cancel (document);
  hw_desk_edit (desk, hole, label, 0, &error);
}

static void
select_release (HwCanvas *canvas)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  HwDocument *document = hw_desk_get_document (desk);
  HwGrip grip = *hw_canvas_get_grip (canvas);
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  if (gesture->shape == HW_SHAPE_BOX)
    select_box (canvas);
  else if (gesture->is_picture)
    drop_picture (canvas, grip.kind);
  else if (hw_document_is_dragging (document))
    hw_document_drag_end (document);
  else if (grip.kind == HW_GRIP_THING && !gesture->keeps && !gesture->has_moved
           && hw_desk_get_selected (desk) != (int)grip.shot)
    hw_desk_select_one (desk, grip.shot);
  hw_desk_let_go (desk);
  hw_tool_clear (canvas);
}

static void
select_cancel (HwCanvas *canvas)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  hw_document_drag_cancel (hw_desk_get_document (desk));
  hw_desk_let_go (desk);
  hw_tool_clear (canvas);
}

/* ---- keys ---- */

static bool
nudge (HwCanvas *canvas, Vec2 direction_px, GdkModifierType modifiers)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  const Hole *kept = hw_document_get_kept (hw_desk_get_document (desk));
  Vec2 by = view_step (hw_canvas_get_view (canvas), direction_px, hw_tool_nudge_m (canvas, modifiers));
  int one = hw_desk_get_selected (desk), node = hw_desk_get_node (desk);
  size_t n;
  const size_t *parts = hw_desk_get_selection (desk, &n);
  g_autoptr (GError) error = NULL;
  if (n == 0)
    return false;
  unsigned gesture = hw_canvas_nudge_gesture (canvas);
  if (one < 0 || node < 0)
    {
      hw_desk_edit (desk, edit_transform (kept, parts, n, affine_translation (by.x, by.y), &error),
                    hw_desk_label (desk, _ ("move %s")), gesture, &error);
      return true;
    }
  PathNode *nodes = NULL;
  size_t n_nodes = path_nodes (&hole_part (kept, (size_t)one)->path, &nodes);
  if ((size_t)node < n_nodes)
    hw_desk_edit (desk, edit_move_node (kept, (size_t)one, (size_t)node, NODE_AT, vec2_add (nodes[node].at, by), &error),
                  hw_desk_label (desk, _ ("reshape %s")), gesture, &error);
  free (nodes);
  return true;
}

/* The next node of the one thing selected; past the last none. */
static bool
next_node (HwDesk *desk, int step)
{
  int one = hw_desk_get_selected (desk);
  if (one < 0 || !has_outline (hole_part (hw_desk_get_hole (desk), (size_t)one)))
    return false;
  PathNode *nodes = NULL;
  int n = (int)path_nodes (&hole_part (hw_desk_get_hole (desk), (size_t)one)->path, &nodes);
  free (nodes);
  int node = hw_desk_get_node (desk);
  node = node < 0 ? (step > 0 ? 0 : n - 1) : node + step;
  hw_desk_set_node (desk, node < 0 || node >= n ? -1 : node);
  return true;
}

static bool
step_back (HwDesk *desk)
{
  size_t n;
  hw_desk_get_selection (desk, &n);
  if (hw_desk_get_node (desk) >= 0)
    hw_desk_set_node (desk, -1);
  else if (n > 0)
    hw_desk_select_none (desk);
  else
    return false;
  return true;
}

static bool
select_key (HwCanvas *canvas, guint keyval, GdkModifierType modifiers)
{
  HwDesk *desk = hw_canvas_get_desk (canvas);
  Vec2 direction_px;
  if (hw_document_is_dragging (hw_desk_get_document (desk)) || hw_desk_get_hole (desk) == NULL)
    return false;
  if (hw_tool_arrow (keyval, &direction_px) && !(modifiers & GDK_CONTROL_MASK))
    return nudge (canvas, direction_px, modifiers);
  switch (keyval)
    {
    case GDK_KEY_Tab:
      return !(modifiers & GDK_CONTROL_MASK) && hw_desk_select_next (desk, +1);
    case GDK_KEY_ISO_Left_Tab:
      return !(modifiers & GDK_CONTROL_MASK) && hw_desk_select_next (desk, -1);
    case GDK_KEY_n:
      return !(modifiers & GDK_CONTROL_MASK) && next_node (desk, +1);
    case GDK_KEY_N:
      return !(modifiers & GDK_CONTROL_MASK) && next_node (desk, -1);
    case GDK_KEY_Escape:
      return step_back (desk);
    default:
      return false;
    }
}

const HwTool hw_tool_select = { "select",      "grabbing", select_find,          select_press, select_drag, select_release,
                                select_cancel, select_key, hw_tool_draw_overlay, NULL,         NULL };
