// SPDX-License-Identifier: GPL-3.0-or-later
/* canvas-input - pointer, wheel, touch and keys: who gets them, tool or paper. */
#include "canvas-private.h"

#include "tool-draw.h"
#include "trace.h"

/* One notch of the wheel, one press of a zoom key (common practice). */
#define ZOOM_STEP 1.2
/* Two-finger scrolling of this many px zooms as one notch. */
#define SCROLL_PX_PER_STEP 30.0
/* Nudges further apart than this are separate steps of undo. */
#define NUDGE_PAUSE_US (900 * 1000)

/* ---- dragging ---- */

void
hw_canvas_cancel_drag (HwCanvas *self)
{
  const HwTool *holding = self->holding;
  self->holding = NULL;
  if (holding == NULL)
    return;
  gtk_gesture_set_state (self->drag_gesture, GTK_EVENT_SEQUENCE_DENIED);
  holding->cancel (self);
}

static void
set_cursor (HwCanvas *self)
{
  const char *name = NULL;
  if (self->holding != NULL)
    name = self->holding->cursor;
  else if (self->is_space_down)
    name = "grab";
  else if (self->under.kind == HW_GRIP_NEW)
    name = "crosshair";
  else if (self->under.kind == HW_GRIP_THING)
    name = "pointer";
  else if (self->under.kind != HW_GRIP_NONE)
    name = "grab";
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), name);
}

/* The other end of the pen rubs out, in Draw. */
static const HwTool *
tool_in_hand (HwCanvas *self)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (self->drag_gesture));
  GdkDeviceTool *pen = event != NULL ? gdk_event_get_device_tool (event) : NULL;
  bool is_turned = pen != NULL && gdk_device_tool_get_tool_type (pen) == GDK_DEVICE_TOOL_TYPE_ERASER;
  return is_turned && self->is_drawing ? &hw_tool_erase : self->tool;
}

static void
on_drag_begin_cb (GtkGestureDrag *gesture, double x, double y, HwCanvas *self)
{
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture));
  if (hw_document_get_hole (self->document) == NULL || button > GDK_BUTTON_MIDDLE || self->is_pinching)
    {
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  gtk_widget_grab_focus (GTK_WIDGET (self));
  hw_canvas_stop_motion (self);
  hw_canvas_count_press (self, vec2 (x, y));
  self->press_px = vec2 (x, y);
  bool paper = button == GDK_BUTTON_MIDDLE || self->is_space_down;
  const HwTool *tool = tool_in_hand (self);
  self->holding = !paper && tool->press (self, self->press_px) ? tool : &hw_tool_pan;
  if (self->holding == &hw_tool_pan)
    hw_tool_pan.press (self, self->press_px);
  self->under = self->grip;
  set_cursor (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_drag_update_cb (GtkGestureDrag *gesture, double offset_x, double offset_y, HwCanvas *self)
{
  if (self->holding == NULL)
    return;
  gint64 start_us = g_get_monotonic_time (), busy_us = hw_trace_busy_us ();
  self->holding->drag (self, vec2_add (self->press_px, vec2 (offset_x, offset_y)));
  self->edit_us += g_get_monotonic_time () - start_us;
  self->edit_busy_us += hw_trace_busy_us () - busy_us;
}

static void
on_drag_end_cb (GtkGestureDrag *gesture, double offset_x, double offset_y, HwCanvas *self)
{
  const HwTool *holding = self->holding;
  self->holding = NULL;
  if (holding != NULL)
    holding->release (self);
  self->under.kind = HW_GRIP_NONE;
  set_cursor (self);
}

static void
on_drag_cancel_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwCanvas *self)
{
  hw_canvas_cancel_drag (self);
}

/* ---- pinching: it begins as a drag of one finger, which is taken back ---- */

/* The middle of the two fingers; false when they are not both there. */
static bool
pinch_middle (GtkGesture *gesture, Vec2 *middle_px)
{
  return gtk_gesture_get_bounding_box_center (gesture, &middle_px->x, &middle_px->y);
}

static void
on_pinch_begin_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwCanvas *self)
{
  Vec2 middle_px;
  hw_canvas_cancel_drag (self);
  hw_canvas_stop_motion (self);
  if (hw_document_get_hole (self->document) == NULL || !pinch_middle (gesture, &middle_px))
    return;
  self->is_pinching = true;
  self->is_fitted = false;
  self->pinch_scale = 1;
  self->pinch_place = view_unproject (&self->view, middle_px);
}

/* What was between the fingers when they came down stays there. */
static void
on_pinch_update_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwCanvas *self)
{
  Vec2 middle_px;
  double scale = gtk_gesture_zoom_get_scale_delta (GTK_GESTURE_ZOOM (gesture));
  if (!self->is_pinching || !(scale > 0) || !pinch_middle (gesture, &middle_px))
    return;
  view_zoom (&self->view, scale / self->pinch_scale, middle_px);
  self->pinch_scale = scale;
  hw_canvas_pan (self, vec2_sub (middle_px, view_point (&self->view, self->pinch_place)));
}

static void
on_pinch_end_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwCanvas *self)
{
  self->is_pinching = false;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* ---- wheel ---- */

static gboolean
on_scroll_cb (GtkEventControllerScroll *controller, double dx, double dy, HwCanvas *self)
{
  if (hw_document_get_hole (self->document) == NULL)
    return GDK_EVENT_PROPAGATE;
  bool in_px = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_SURFACE;
  double steps = in_px ? dy / SCROLL_PX_PER_STEP : dy;
  Vec2 middle_px = vec2 (self->view.width_px / 2, self->view.height_px / 2);
  hw_canvas_zoom_about (self, pow (ZOOM_STEP, -steps), self->is_pointed ? self->pointer_px : middle_px);
  return GDK_EVENT_STOP;
}

/* ---- the pointer ---- */

static void
on_motion_cb (GtkEventControllerMotion *controller, double x, double y, HwCanvas *self)
{
  self->is_pointed = true;
  self->pointer_px = vec2 (x, y);
  if (self->holding == NULL)
    {
      HwGrip before = self->under;
      self->under = self->tool->find (self, self->pointer_px);
      if (before.kind != self->under.kind || before.shot != self->under.shot || before.node != self->under.node)
        {
          set_cursor (self);
          gtk_widget_queue_draw (GTK_WIDGET (self));
        }
      if (self->tool->hover != NULL)
        self->tool->hover (self, self->pointer_px);
    }
  g_signal_emit_by_name (self, "pointed");
}

static void
on_leave_cb (GtkEventControllerMotion *controller, HwCanvas *self)
{
  self->is_pointed = false;
  if (self->holding == NULL && self->under.kind != HW_GRIP_NONE)
    {
      self->under.kind = HW_GRIP_NONE;
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
  g_signal_emit_by_name (self, "pointed");
}

/* ---- keys ---- */

unsigned
hw_canvas_nudge_gesture (HwCanvas *self)
{
  gint64 now_us = g_get_monotonic_time ();
  if (self->nudge_gesture == 0 || now_us - self->nudge_time_us > NUDGE_PAUSE_US)
    self->nudge_gesture = hw_document_new_gesture (self->document);
  self->nudge_time_us = now_us;
  return self->nudge_gesture;
}

static gboolean
on_key_pressed_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, HwCanvas *self)
{
  if (keyval == GDK_KEY_Escape && self->holding != NULL)
    {
      hw_canvas_cancel_drag (self);
      set_cursor (self);
      return GDK_EVENT_STOP;
    }
  if (keyval == GDK_KEY_space)
    {
      self->is_space_down = true;
      set_cursor (self);
      return GDK_EVENT_STOP;
    }
  if (self->tool->key == NULL || !self->tool->key (self, keyval, state))
    return GDK_EVENT_PROPAGATE;
  if (!self->is_drawing)
    hw_canvas_reframe (self, false);
  return GDK_EVENT_STOP;
}

static void
on_key_released_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, HwCanvas *self)
{
  if (keyval != GDK_KEY_space)
    return;
  self->is_space_down = false;
  set_cursor (self);
}

static void
on_focus_leave_cb (GtkEventControllerFocus *controller, HwCanvas *self)
{
  self->is_space_down = false;
  set_cursor (self);
}

void
hw_canvas_init_input (HwCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  self->tool = &hw_tool_plan;

  self->drag_gesture = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (self->drag_gesture), 0);
  g_signal_connect (self->drag_gesture, "drag-begin", G_CALLBACK (on_drag_begin_cb), self);
  g_signal_connect (self->drag_gesture, "drag-update", G_CALLBACK (on_drag_update_cb), self);
  g_signal_connect (self->drag_gesture, "drag-end", G_CALLBACK (on_drag_end_cb), self);
  g_signal_connect (self->drag_gesture, "cancel", G_CALLBACK (on_drag_cancel_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (self->drag_gesture));

  GtkGesture *pinch = gtk_gesture_zoom_new ();
  g_signal_connect (pinch, "begin", G_CALLBACK (on_pinch_begin_cb), self);
  g_signal_connect (pinch, "update", G_CALLBACK (on_pinch_update_cb), self);
  g_signal_connect (pinch, "end", G_CALLBACK (on_pinch_end_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));

  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll_cb), self);
  gtk_widget_add_controller (widget, scroll);

  GtkEventController *motion = gtk_event_controller_motion_new ();
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion_cb), self);
  g_signal_connect (motion, "leave", G_CALLBACK (on_leave_cb), self);
  gtk_widget_add_controller (widget, motion);

  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key_pressed_cb), self);
  g_signal_connect (keys, "key-released", G_CALLBACK (on_key_released_cb), self);
  gtk_widget_add_controller (widget, keys);

  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect (focus, "leave", G_CALLBACK (on_focus_leave_cb), self);
  gtk_widget_add_controller (widget, focus);
}
