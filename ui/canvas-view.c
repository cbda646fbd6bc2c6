// SPDX-License-Identifier: GPL-3.0-or-later
/* canvas-view - where the hole lies on the drawing: fitting, turning, zooming, moving, and their animation. */
#include "canvas-private.h"

/* Length of the turn between the two ways of looking. */
#define TURN_US (150 * 1000)
/* A zoom step covers this share of its way in each of these spans: quick, and without a jerk (common practice). */
#define ZOOM_SPAN_US (35.0 * 1000)
/* The zoom is over when less than this part of a doubling is left. */
#define ZOOM_DONE 0.002
/* Room round the hole when all of it is shown. */
#define FIT_MARGIN_PX 28.0

void
hw_canvas_view_changed (HwCanvas *self)
{
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_signal_emit_by_name (self, "view-changed");
}

static bool
animations_are_on (HwCanvas *self)
{
  gboolean on = FALSE;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &on, NULL);
  return on && gtk_widget_get_mapped (GTK_WIDGET (self));
}

bool
hw_canvas_is_moving (HwCanvas *self)
{
  return self->turn_start_us != 0 || self->zoom_left != 0 || self->is_pinching || self->grip.kind == HW_GRIP_PAPER;
}

static void
step_turn (HwCanvas *self, gint64 now_us)
{
  double part = (double)(now_us - self->turn_start_us) / TURN_US;
  if (part >= 1)
    {
      self->view = self->turn_to;
      self->turn_start_us = 0;
      return;
    }
  double eased = 1 - (1 - part) * (1 - part) * (1 - part);
  self->view = view_between (&self->turn_from, &self->turn_to, fmax (0, eased));
}

static void
step_zoom (HwCanvas *self, gint64 now_us)
{
  double share = 1 - exp (-(double)(now_us - self->zoom_time_us) / ZOOM_SPAN_US);
  double step = fabs (self->zoom_left) < ZOOM_DONE ? self->zoom_left : self->zoom_left * share;
  self->zoom_time_us = now_us;
  self->zoom_left -= step;
  view_zoom (&self->view, exp (step), self->zoom_about_px);
}

static gboolean
on_tick_cb (GtkWidget *widget, GdkFrameClock *clock, gpointer user_data)
{
  HwCanvas *self = HW_CANVAS (widget);
  gint64 now_us = gdk_frame_clock_get_frame_time (clock);
  if (self->turn_start_us != 0)
    step_turn (self, now_us);
  else if (self->zoom_left != 0)
    step_zoom (self, now_us);
  hw_canvas_view_changed (self);
  if (self->turn_start_us != 0 || self->zoom_left != 0)
    return G_SOURCE_CONTINUE;
  self->tick = 0;
  return G_SOURCE_REMOVE;
}

static void
start_ticking (HwCanvas *self)
{
  if (self->tick == 0)
    self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), on_tick_cb, NULL, NULL);
}

/* Ends what is under way where it was going. */
void
hw_canvas_stop_motion (HwCanvas *self)
{
  if (self->turn_start_us != 0)
    self->view = self->turn_to;
  if (self->zoom_left != 0)
    view_zoom (&self->view, exp (self->zoom_left), self->zoom_about_px);
  self->turn_start_us = 0;
  self->zoom_left = 0;
}

/* The view as it should be now. */
static RenderView
wanted_view (HwCanvas *self)
{
  RenderView view = self->view;
  const PlanScene *scene = hw_document_get_scene (self->document);
  PlanGreen green;
  bool along = self->look != HW_LOOK_UP && scene->n_shots > 0;
  bool is_green = along && self->look == HW_LOOK_GREEN && hw_canvas_find_green (self, &green);
  view.units = hw_document_get_units (self->document);
  if (is_green)
    {
      PlanScene with_green = *scene;
      RenderView framed = view;
      with_green.green = &green;
      view_frame_green (&framed, &with_green);
      view.turn_rad = framed.turn_rad;
      if (self->is_fitted)
        view = framed;
    }
  else if (along && self->is_fitted)
    view_frame_shot (&view, scene);
  else
    view.turn_rad = along ? view_turn_along (scene->shots[scene->current].ball, scene->shots[scene->current].aim) : 0;
  if (!along && self->is_fitted)
    view_fit (&view, hole_extent (hw_document_get_hole (self->document)), FIT_MARGIN_PX * self->view.unit_px);
  return view;
}

void
hw_canvas_reframe (HwCanvas *self, bool animated)
{
  if (self->document == NULL || hw_document_get_hole (self->document) == NULL || self->view.width_px <= 0)
    return;
  self->needs_fit = false;
  hw_beside_finish (self->beside, &self->overlays_share); // it may be placing labels
  hw_written_forget (&self->written);
  hw_canvas_stop_motion (self);
  RenderView wanted = wanted_view (self);
  if (animated && animations_are_on (self))
    {
      self->turn_from = self->view;
      self->turn_to = wanted;
      self->turn_start_us = gdk_frame_clock_get_frame_time (gtk_widget_get_frame_clock (GTK_WIDGET (self)));
      start_ticking (self);
    }
  else
    self->view = wanted;
  hw_canvas_view_changed (self);
}

void
hw_canvas_resize (HwCanvas *self, int width, int height)
{
  if (self->view.width_px == width && self->view.height_px == height)
    return;
  hw_canvas_stop_motion (self);
  self->view.width_px = width;
  self->view.height_px = height;
  if (self->document == NULL || hw_document_get_hole (self->document) == NULL)
    return;
  if (!hw_document_is_dragging (self->document))
    self->view = wanted_view (self);
}

void
hw_canvas_zoom_about (HwCanvas *self, double factor, Vec2 about_px)
{
  self->is_fitted = false;
  if (self->turn_start_us != 0)
    hw_canvas_stop_motion (self);
  if (!animations_are_on (self))
    {
      view_zoom (&self->view, factor, about_px);
      hw_canvas_view_changed (self);
      return;
    }
  if (self->zoom_left == 0)
    self->zoom_time_us = gdk_frame_clock_get_frame_time (gtk_widget_get_frame_clock (GTK_WIDGET (self)));
  self->zoom_left += log (factor);
  self->zoom_about_px = about_px;
  start_ticking (self);
}

void
hw_canvas_zoom (HwCanvas *self, double factor)
{
  hw_canvas_zoom_about (self, factor, vec2 (self->view.width_px / 2, self->view.height_px / 2));
}

void
hw_canvas_pan (HwCanvas *self, Vec2 by_px)
{
  self->is_fitted = false;
  hw_canvas_stop_motion (self);
  view_pan (&self->view, by_px);
  hw_canvas_view_changed (self);
}

void
hw_canvas_fit (HwCanvas *self)
{
  self->is_fitted = true;
  hw_canvas_reframe (self, true);
}

bool
hw_canvas_is_fitted (HwCanvas *self)
{
  return self->is_fitted;
}

void
hw_canvas_show_view (HwCanvas *self, Vec2 centre, double px_per_m)
{
  self->is_fitted = false;
  hw_canvas_stop_motion (self);
  self->view.centre = centre;
  self->view.px_per_m = px_per_m;
  hw_canvas_reframe (self, false);
}

void
hw_canvas_settle (HwCanvas *self)
{
  hw_canvas_reframe (self, true);
}

static const char *const look_names[] = { [HW_LOOK_ALONG] = "along", [HW_LOOK_UP] = "up", [HW_LOOK_GREEN] = "green" };

const char *
hw_look_name (HwLook look)
{
  return look_names[look];
}

HwLook
hw_look_named (const char *name)
{
  for (unsigned look = 0; look < G_N_ELEMENTS (look_names); look++)
    if (g_str_equal (look_names[look], name))
      return (HwLook)look;
  return HW_LOOK_ALONG;
}

HwLook
hw_canvas_get_look (HwCanvas *self)
{
  return self->look;
}

void
hw_canvas_set_look (HwCanvas *self, HwLook look)
{
  if (self->look == look)
    return;
  self->look = look;
  self->is_fitted = true;
  hw_canvas_reframe (self, true);
  if (self->document != NULL && hw_document_get_hole (self->document) != NULL)
    hw_canvas_describe (self);
}

const RenderView *
hw_canvas_get_view (HwCanvas *self)
{
  return &self->view;
}
