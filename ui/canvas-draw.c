// SPDX-License-Identifier: GPL-3.0-or-later
/* canvas-draw - the canvas in Draw: the desk's tool in the place of the plan's, and bringing things into view. */
#include "canvas-private.h"

#include "appearance.h"
#include "tool-draw.h"

#include <glib/gi18n.h>

/* Bounds are shown with this much room round them, px. */
#define SHOW_ROOM_PX 60.0

void
hw_canvas_describe_selection (HwCanvas *self)
{
  size_t n;
  g_autofree char *text = NULL;
  int one = hw_desk_get_selected (self->desk);
  hw_desk_get_selection (self->desk, &n);
  if (one >= 0)
    {
      const Part *part = hole_part (hw_desk_get_hole (self->desk), (size_t)one);
      char buffer[96];
      g_autofree char *where = hw_desk_whereabouts (self->desk, part_position (part));
      text = g_strdup_printf (_ ("%s selected, %s"), part_label (part, buffer, sizeof buffer), where);
    }
  else
    text = n > 0 ? g_strdup_printf (_ ("%zu things selected"), n) : g_strdup (_ ("Nothing selected; Tab takes the next thing"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text, -1);
}

static void
on_took_cb (HwCanvas *self)
{
  hw_canvas_cancel_drag (self);
  self->gesture.is_pen = false;
  hw_tool_clear (self);
  self->under.kind = HW_GRIP_NONE;
  if (self->is_drawing)
    self->tool = hw_way_tool (hw_desk_get_way (self->desk));
}

static void
on_selected_cb (HwCanvas *self)
{
  if (self->is_drawing && !hw_document_is_dragging (self->document))
    hw_canvas_describe_selection (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_canvas_set_desk (HwCanvas *self, HwDesk *desk)
{
  self->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "took", G_CALLBACK (on_took_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "selected", G_CALLBACK (on_selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "marked", G_CALLBACK (on_selected_cb), self, G_CONNECT_SWAPPED);
}

HwDesk *
hw_canvas_get_desk (HwCanvas *self)
{
  return self->desk;
}

void
hw_canvas_set_drawing (HwCanvas *self, bool is_drawing)
{
  if (self->is_drawing == is_drawing)
    return;
  hw_canvas_cancel_drag (self);
  hw_tool_clear (self);
  self->under.kind = HW_GRIP_NONE;
  if (is_drawing)
    self->plan_look = self->look;
  self->is_drawing = is_drawing;
  self->drawing.more = is_drawing ? hw_draw_lines_of_play : NULL;
  self->tool = is_drawing ? hw_way_tool (hw_desk_get_way (self->desk)) : &hw_tool_plan;
  hw_canvas_set_look (self, is_drawing ? HW_LOOK_UP : self->plan_look);
  hw_canvas_describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit_by_name (self, "pointed");
}

bool
hw_canvas_get_drawing (HwCanvas *self)
{
  return self->is_drawing;
}

HwGesture *
hw_canvas_get_gesture (HwCanvas *self)
{
  return &self->gesture;
}

GdkModifierType
hw_canvas_get_modifiers (HwCanvas *self)
{
  return gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (self->drag_gesture));
}

int
hw_canvas_get_press_count (HwCanvas *self)
{
  return self->press_count;
}

void
hw_canvas_count_press (HwCanvas *self, Vec2 at_px)
{
  int time_ms = 0, distance_px = 0;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-double-click-time", &time_ms, "gtk-double-click-distance",
                &distance_px, NULL);
  gint64 now_us = g_get_monotonic_time ();
  bool again = now_us - self->press_time_us < (gint64)time_ms * 1000 && vec2_distance (at_px, self->press_px) <= distance_px;
  self->press_count = again ? self->press_count + 1 : 1;
  self->press_time_us = now_us;
}

/* ---- pictures ---- */

Hole *
hw_canvas_still_hole (HwCanvas *self)
{
  return self->is_drawing ? hw_desk_get_still (self->desk) : hw_document_get_hole (self->document);
}

/* ---- bringing things into view ---- */

void
hw_canvas_show_box (HwCanvas *self, Box box)
{
  if (box_is_empty (box))
    return;
  Box px = box_empty ();
  px = box_with_point (px, view_point (&self->view, vec2 (box.x0, box.y0)));
  px = box_with_point (px, view_point (&self->view, vec2 (box.x1, box.y1)));
  bool is_in = px.x0 >= 0 && px.y0 >= 0 && px.x1 <= self->view.width_px && px.y1 <= self->view.height_px;
  if (!is_in)
    {
      self->is_fitted = false;
      hw_canvas_stop_motion (self);
      self->view.centre = box_centre (box);
      bool is_larger = px.x1 - px.x0 > self->view.width_px || px.y1 - px.y0 > self->view.height_px;
      if (is_larger)
        view_fit (&self->view, box, SHOW_ROOM_PX);
      hw_canvas_view_changed (self);
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_canvas_show_place (HwCanvas *self, Vec2 at)
{
  hw_canvas_show_box (self, (Box){ at.x, at.y, at.x, at.y });
}
