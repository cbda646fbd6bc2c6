// SPDX-License-Identifier: GPL-3.0-or-later
/* tools - the plan tool and the hand that moves the paper. */
#include "tools.h"

/* How near the pointer must come to take hold of an aim or a ball, px: half of a comfortable touch target (common practice, 44 px). */
#define GRIP_RADIUS_PX 22.0
/* Shift makes a nudge this many times longer. */
#define NUDGE_LONG 10.0

/* ---- the plan ---- */

static void
find_nearer (HwGrip *grip, double *nearest_px, HwGripKind kind, size_t shot, Vec2 thing_px, Vec2 at_px)
{
  double distance_px = vec2_distance (thing_px, at_px);
  if (distance_px >= *nearest_px)
    return;
  *nearest_px = distance_px;
  *grip = (HwGrip){ .kind = kind, .shot = shot, .offset_px = vec2_sub (at_px, thing_px) };
}

static HwGrip
plan_find (HwCanvas *canvas, Vec2 at_px)
{
  HwGrip grip = { .kind = HW_GRIP_NONE };
  HwDocument *document = hw_canvas_get_document (canvas);
  const Part *plan = hw_document_get_plan (document);
  const RenderView *view = hw_canvas_get_view (canvas);
  double nearest_px = GRIP_RADIUS_PX;
  if (plan == NULL || plan->n_shots == 0)
    return grip;
  /* The shot in hand first: where its aim lies on the next ball, the aim is what is meant. */
  size_t current = MIN (hw_document_get_shot (document), plan->n_shots - 1);
  find_nearer (&grip, &nearest_px, HW_GRIP_AIM, current, view_point (view, plan->shots[current].aim), at_px);
  find_nearer (&grip, &nearest_px, HW_GRIP_BALL, current, view_point (view, plan->shots[current].from), at_px);
  if (grip.kind != HW_GRIP_NONE)
    return grip;
  for (size_t i = 0; i < plan->n_shots; i++)
    {
      find_nearer (&grip, &nearest_px, HW_GRIP_AIM, i, view_point (view, plan->shots[i].aim), at_px);
      find_nearer (&grip, &nearest_px, HW_GRIP_BALL, i, view_point (view, plan->shots[i].from), at_px);
    }
  return grip;
}

static bool
plan_press (HwCanvas *canvas, Vec2 at_px)
{
  HwGrip grip = plan_find (canvas, at_px);
  *hw_canvas_get_grip (canvas) = grip;
  if (grip.kind == HW_GRIP_NONE)
    return false;
  hw_document_set_shot (hw_canvas_get_document (canvas), grip.shot);
  return true;
}

static void
plan_drag (HwCanvas *canvas, Vec2 at_px)
{
  const HwGrip *grip = hw_canvas_get_grip (canvas);
  Vec2 to = view_unproject (hw_canvas_get_view (canvas), vec2_sub (at_px, grip->offset_px));
  if (grip->kind == HW_GRIP_AIM)
    hw_document_drag_aim (hw_canvas_get_document (canvas), to);
  else
    hw_document_drag_ball (hw_canvas_get_document (canvas), to);
}

static void
plan_release (HwCanvas *canvas)
{
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  hw_document_drag_end (hw_canvas_get_document (canvas));
  hw_canvas_settle (canvas);
}

static void
plan_cancel (HwCanvas *canvas)
{
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  hw_document_drag_cancel (hw_canvas_get_document (canvas));
  hw_canvas_settle (canvas);
}

bool
hw_tool_arrow (guint keyval, Vec2 *direction_px)
{
  static const struct
  {
    guint key, keypad;
    double x, y;
  } arrows[] = {
    { GDK_KEY_Left, GDK_KEY_KP_Left, -1, 0 },
    { GDK_KEY_Right, GDK_KEY_KP_Right, 1, 0 },
    { GDK_KEY_Up, GDK_KEY_KP_Up, 0, -1 },
    { GDK_KEY_Down, GDK_KEY_KP_Down, 0, 1 },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (arrows); i++)
    if (keyval == arrows[i].key || keyval == arrows[i].keypad)
      {
        *direction_px = vec2 (arrows[i].x, arrows[i].y);
        return true;
      }
  return false;
}

static bool
plan_key (HwCanvas *canvas, guint keyval, GdkModifierType modifiers)
{
  Vec2 direction_px;
  HwDocument *document = hw_canvas_get_document (canvas);
  if (!hw_tool_arrow (keyval, &direction_px) || hw_document_is_dragging (document))
    return false;
  double length_m = unit_to_metres (hw_document_get_units (document), modifiers & GDK_SHIFT_MASK ? NUDGE_LONG : 1);
  Vec2 by_m = view_step (hw_canvas_get_view (canvas), direction_px, length_m);
  unsigned gesture = hw_canvas_nudge_gesture (canvas);
  if (modifiers & GDK_CONTROL_MASK)
    hw_document_move_ball (document, by_m, gesture);
  else
    hw_document_move_aim (document, by_m, gesture);
  return true;
}

static void
plan_draw (HwCanvas *canvas, GtkSnapshot *snapshot, const HwGrip *under)
{
  const Part *plan = hw_document_get_plan (hw_canvas_get_document (canvas));
  if (plan == NULL || under->shot >= plan->n_shots || (under->kind != HW_GRIP_AIM && under->kind != HW_GRIP_BALL))
    return;
  const Shot *shot = &plan->shots[under->shot];
  Vec2 at = view_point (hw_canvas_get_view (canvas), under->kind == HW_GRIP_AIM ? shot->aim : shot->from);
  GskRoundedRect ring;
  float radius = (float)GRIP_RADIUS_PX;
  gsk_rounded_rect_init_from_rect (
      &ring, &GRAPHENE_RECT_INIT ((float)at.x - radius, (float)at.y - radius, 2 * radius, 2 * radius), radius);
  GdkRGBA accent = { 0x8a / 255.f, 0x2f / 255.f, 0x6b / 255.f, 0.55f };
  gtk_snapshot_append_border (snapshot, &ring, (float[4]){ 2, 2, 2, 2 }, (GdkRGBA[4]){ accent, accent, accent, accent });
}

const HwTool hw_tool_plan
    = { "plan", "grabbing", plan_find, plan_press, plan_drag, plan_release, plan_cancel, plan_key, plan_draw, NULL, NULL };

/* ---- the paper ---- */

static HwGrip
pan_find (HwCanvas *canvas, Vec2 at_px)
{
  return (HwGrip){ .kind = HW_GRIP_PAPER, .offset_px = at_px };
}

static bool
pan_press (HwCanvas *canvas, Vec2 at_px)
{
  *hw_canvas_get_grip (canvas) = pan_find (canvas, at_px);
  return true;
}

static void
pan_drag (HwCanvas *canvas, Vec2 at_px)
{
  HwGrip *grip = hw_canvas_get_grip (canvas);
  hw_canvas_pan (canvas, vec2_sub (at_px, grip->offset_px));
  grip->offset_px = at_px;
}

static void
pan_release (HwCanvas *canvas)
{
  hw_canvas_get_grip (canvas)->kind = HW_GRIP_NONE;
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

const HwTool hw_tool_pan
    = { "pan", "grabbing", pan_find, pan_press, pan_drag, pan_release, pan_release, NULL, NULL, NULL, NULL };
