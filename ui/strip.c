// SPDX-License-Identifier: GPL-3.0-or-later
/* strip - paints ruler and clubs through render and turns clicks and keys into the choice of a club. */
#include "strip.h"

#include "appearance.h"
#include "beside.h"
#include "layer.h"

#include <glib/gi18n.h>

#define RULER_HEIGHT_PX 26
/* Bars that would move less stay as they are. */
#define BARS_SEEN_PX 0.5
/* The height is that of the bag on an axis of this width, its longest club this far along: it stays whatever the view, or zooming would shake the window. */
#define USUAL_WIDTH_PX 900.0
#define USUAL_REACH_SHARE 0.75
/* The same in a window as narrow as a phone, where the whole hole is in view. */
#define PHONE_WIDTH_PX 360.0
#define PHONE_REACH_SHARE 0.5

struct _HwStrip
{
  GtkWidget parent_instance;
  HwDocument *document;
  RenderView view;
  RenderAxis axis;
  bool has_axis;
  bool is_phone;
  int clubs_height_px;
  Bag *measured_bag; /* the bag of that height, and its text */
  double measured_unit_px;

  HwLayer layer;
  GdkFrameClock *clock;
  bool is_due; /* the results are others since the last frame */
  /* Painted beside the main thread, and what for: borrowed results of the frame at work. */
  HwShare share;
  PlanScene scene;
  const Bag *bag;
  int width_px, painted_px, scale; /* `painted_px` is the height, 0: not painted */
  /* The clubs' bars, kept while an aim is dragged, and what they were painted for. */
  cairo_surface_t *bars;
  RenderAxis bars_axis;
  int bars_height_px, bars_scale;
  char *bars_club;
  ClubToday *bars_clubs; /* what they carried then */
  size_t n_bars_clubs;
};

G_DEFINE_FINAL_TYPE (HwStrip, hw_strip, GTK_TYPE_WIDGET)

/* As on the drawing, which follows the size of the desktop's text. */
static double
unit_px (HwStrip *self)
{
  return self->view.unit_px > 0 ? self->view.unit_px : 1;
}

static int
ruler_px (HwStrip *self)
{
  return (int)ceil (RULER_HEIGHT_PX * unit_px (self));
}

static const ShotResult *
strip_shot (HwStrip *self)
{
  const PlanScene *scene = self->document != NULL ? hw_document_get_scene (self->document) : NULL;
  return scene != NULL && scene->n_shots > 0 ? &scene->shots[scene->current] : NULL;
}

static void
strip_update_axis (HwStrip *self)
{
  const ShotResult *shot = strip_shot (self);
  self->has_axis = shot != NULL && self->view.width_px > 0;
  if (!self->has_axis)
    return;
  self->axis = axis_of_view (&self->view, shot->ball);
  self->axis.units = hw_document_get_units (self->document);
  self->axis.is_dark = hw_appearance_is_dark (GTK_WIDGET (self));
}

static bool
same_axis (const RenderAxis *a, const RenderAxis *b)
{
  return a->zero_px == b->zero_px && a->px_per_m == b->px_per_m && a->width_px == b->width_px && a->units == b->units
         && a->is_dark == b->is_dark && a->unit_px == b->unit_px;
}

static void
forget_bars (HwStrip *self)
{
  g_clear_pointer (&self->bars, cairo_surface_destroy);
  g_clear_pointer (&self->bars_club, g_free);
  g_clear_pointer (&self->bars_clubs, g_free);
}

/* Would the bars stand where they stand now, to within what is seen? */
static bool
same_clubs (HwStrip *self, const ClubToday *clubs, size_t n_clubs)
{
  if (clubs == NULL || self->bars_clubs == NULL || n_clubs != self->n_bars_clubs)
    return clubs == NULL && self->bars_clubs == NULL;
  double seen_m = BARS_SEEN_PX / self->axis.px_per_m;
  for (size_t i = 0; i < n_clubs; i++)
    if (!(fabs (clubs[i].low_m - self->bars_clubs[i].low_m) < seen_m
          && fabs (clubs[i].high_m - self->bars_clubs[i].high_m) < seen_m))
      return false;
  return true;
}

/* As the rest of the painting, perhaps beside the main thread. */
static void
keep_bars (HwStrip *self, const Club *chosen, int height_px)
{
  const ClubToday *clubs = self->scene.clubs;
  size_t n_clubs = bag_n_clubs (self->bag);
  if (self->bars != NULL && same_axis (&self->axis, &self->bars_axis) && height_px == self->bars_height_px
      && self->scale == self->bars_scale && g_strcmp0 (chosen->name, self->bars_club) == 0 && same_clubs (self, clubs, n_clubs))
    return;
  forget_bars (self);
  self->bars = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, self->width_px * self->scale, height_px * self->scale);
  cairo_surface_set_device_scale (self->bars, self->scale, self->scale);
  cairo_t *cr = cairo_create (self->bars);
  render_club_bars (cr, &self->axis, &self->scene, self->bag, chosen, height_px);
  cairo_destroy (cr);
  self->bars_axis = self->axis;
  self->bars_height_px = height_px;
  self->bars_scale = self->scale;
  self->bars_club = g_strdup (chosen->name);
  self->bars_clubs = clubs != NULL ? g_memdup2 (clubs, n_clubs * sizeof *clubs) : NULL;
  self->n_bars_clubs = n_clubs;
}

static void
paint (gpointer strip, gpointer unused)
{
  HwStrip *self = strip;
  int ruler = ruler_px (self), clubs_px = self->painted_px - ruler;
  cairo_t *cr = hw_layer_open (&self->layer);
  render_ruler (cr, &self->axis, &self->scene, ruler);
  cairo_translate (cr, 0, ruler);
  render_clubs (cr, &self->axis, &self->scene, NULL, NULL, clubs_px);
  keep_bars (self, self->scene.shots[self->scene.current].club, clubs_px);
  cairo_set_source_surface (cr, self->bars, 0, 0);
  cairo_paint (cr);
  hw_layer_close (&self->layer, cr);
}

static void
finish_painting (HwStrip *self)
{
  if (self->document != NULL)
    hw_beside_finish (hw_document_get_beside (self->document), &self->share);
}

/* What a frame of this size shows; false where there is nothing to paint. */
static bool
prepare (HwStrip *self, int width_px, int height_px)
{
  finish_painting (self);
  self->painted_px = 0;
  strip_update_axis (self);
  if (!self->has_axis || width_px < 1 || height_px <= ruler_px (self))
    return false;
  hw_layer_turn (&self->layer, GTK_WIDGET (self), width_px, height_px, NULL);
  self->scene = *hw_document_get_scene (self->document);
  self->scene.words = self->layer.words;
  self->bag = hw_document_get_bag (self->document);
  self->scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  self->width_px = width_px;
  self->painted_px = height_px;
  return true;
}

/* Before the frame is laid out: after the canvas's overlays, which are begun just before. */
static void
on_before_paint_cb (HwStrip *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  self->painted_px = 0;
  if (self->is_due && gtk_widget_get_mapped (widget)
      && prepare (self, gtk_widget_get_width (widget), gtk_widget_get_height (widget)))
    hw_beside_begin (hw_document_get_beside (self->document), &self->share, paint, self);
  self->is_due = false;
}

static void
hw_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwStrip *self = HW_STRIP (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  finish_painting (self);
  bool is_painted = self->painted_px > 0 && self->painted_px == height && self->width_px == width;
  if (!is_painted && prepare (self, width, height))
    paint (self, NULL);
  if (self->painted_px > 0)
    hw_layer_show (&self->layer, widget, snapshot);
  self->painted_px = 0;
}

static void
hw_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                  int *minimum_baseline, int *natural_baseline)
{
  HwStrip *self = HW_STRIP (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = *natural = 0;
      return;
    }
  *minimum = *natural = ruler_px (self) + self->clubs_height_px;
}

static void
measure_bag (HwStrip *self)
{
  Bag *bag = hw_document_get_bag (self->document);
  if (bag == self->measured_bag && unit_px (self) == self->measured_unit_px)
    return;
  finish_painting (self);
  self->painted_px = 0;
  self->measured_unit_px = unit_px (self);
  g_clear_pointer (&self->measured_bag, bag_unref);
  self->measured_bag = bag != NULL ? bag_ref (bag) : NULL;
  forget_bars (self);
  self->clubs_height_px = 0;
  if (bag != NULL && bag_n_clubs (bag) > 0)
    {
      double width_px = self->is_phone ? PHONE_WIDTH_PX : USUAL_WIDTH_PX;
      double reach_px = width_px * (self->is_phone ? PHONE_REACH_SHARE : USUAL_REACH_SHARE);
      RenderAxis usual = { .px_per_m = reach_px / bag_club (bag, 0)->carry_m, .width_px = width_px, .unit_px = unit_px (self) };
      self->clubs_height_px = (int)ceil (render_clubs_height (bag, &usual));
    }
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

/* ---- choosing a club ---- */

static int
strip_club_at (HwStrip *self, double x, double y)
{
  const Bag *bag = hw_document_get_bag (self->document);
  if (bag == NULL || !self->has_axis || y < ruler_px (self))
    return -1;
  double height = gtk_widget_get_height (GTK_WIDGET (self)) - ruler_px (self);
  return render_clubs_pick (&self->axis, bag, hw_document_get_scene (self->document)->clubs, height,
                            vec2 (x, y - ruler_px (self)));
}

/* The club in hand is pinned by a first click; a click on the pinned one gives the choice back to the aim. */
static void
strip_choose (HwStrip *self, size_t club)
{
  const char *name = bag_club (hw_document_get_bag (self->document), club)->name;
  const Part *plan = hw_document_get_plan (self->document);
  const Shot *shot = &plan->shots[hw_document_get_shot (self->document)];
  bool is_pinned = shot->club != NULL && g_ascii_strcasecmp (shot->club, name) == 0;
  hw_document_choose_club (self->document, is_pinned ? NULL : name);
}

static void
on_click_cb (GtkGestureClick *gesture, int n_press, double x, double y, HwStrip *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  int club = strip_club_at (self, x, y);
  if (club >= 0)
    strip_choose (self, (size_t)club);
}

static void
on_motion_cb (GtkEventControllerMotion *controller, double x, double y, HwStrip *self)
{
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), strip_club_at (self, x, y) >= 0 ? "pointer" : NULL);
}

/* Left and right take the club that carries less or more. The bag is sorted by carry, longest first. */
static gboolean
on_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, HwStrip *self)
{
  const Bag *bag = hw_document_get_bag (self->document);
  const ShotResult *shot = strip_shot (self);
  if (bag == NULL || shot == NULL || (keyval != GDK_KEY_Left && keyval != GDK_KEY_Right && keyval != GDK_KEY_Delete))
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_Delete)
    {
      hw_document_choose_club (self->document, NULL);
      return GDK_EVENT_STOP;
    }
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    if (bag_club (bag, i) == shot->club)
      {
        size_t other = keyval == GDK_KEY_Left ? i + 1 : i - 1;
        if (other < bag_n_clubs (bag))
          hw_document_choose_club (self->document, bag_club (bag, other)->name);
        return GDK_EVENT_STOP;
      }
  return GDK_EVENT_PROPAGATE;
}

static gboolean
on_query_tooltip_cb (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip, gpointer user_data)
{
  HwStrip *self = HW_STRIP (widget);
  int i = keyboard ? -1 : strip_club_at (self, x, y);
  if (i < 0)
    return FALSE;
  const Club *club = bag_club (hw_document_get_bag (self->document), (size_t)i);
  char carry[UNITS_TEXT_SIZE];
  const ClubToday *today = hw_document_get_scene (self->document)->clubs;
  units_print_length (today != NULL ? today[i].carry_m : club->carry_m, hw_document_get_units (self->document), carry,
                      sizeof carry);
  g_autofree char *text = g_strdup_printf (_ ("%s carries %s. Click to play the shot with it."), club->name, carry);
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

/* ---- following document and view ---- */

static void
on_results_changed_cb (HwStrip *self)
{
  measure_bag (self);
  self->is_due = true;
  const ShotResult *shot = strip_shot (self);
  if (shot != NULL && !hw_document_is_dragging (self->document))
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, shot->club->name, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_strip_set_document (HwStrip *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
}

void
hw_strip_set_view (HwStrip *self, const RenderView *view)
{
  finish_painting (self);
  self->painted_px = 0;
  self->view = *view;
  if (self->document != NULL)
    measure_bag (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* ---- the widget ---- */

static void
hw_strip_realize (GtkWidget *widget)
{
  HwStrip *self = HW_STRIP (widget);
  GTK_WIDGET_CLASS (hw_strip_parent_class)->realize (widget);
  self->clock = g_object_ref (gtk_widget_get_frame_clock (widget));
  g_signal_connect_data (self->clock, "before-paint", G_CALLBACK (on_before_paint_cb), self, NULL,
                         G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_swapped (self->clock, "after-paint", G_CALLBACK (finish_painting), self);
}

static void
hw_strip_unrealize (GtkWidget *widget)
{
  HwStrip *self = HW_STRIP (widget);
  g_signal_handlers_disconnect_by_data (self->clock, self);
  g_clear_object (&self->clock);
  finish_painting (self);
  self->painted_px = 0;
  forget_bars (self);
  hw_layer_clear (&self->layer);
  GTK_WIDGET_CLASS (hw_strip_parent_class)->unrealize (widget);
}

static void
hw_strip_dispose (GObject *object)
{
  HwStrip *self = HW_STRIP (object);
  finish_painting (self);
  forget_bars (self);
  hw_layer_clear (&self->layer);
  g_clear_pointer (&self->measured_bag, bag_unref);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_strip_parent_class)->dispose (object);
}

static void
hw_strip_class_init (HwStripClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_strip_dispose;
  widget_class->snapshot = hw_strip_snapshot;
  widget_class->measure = hw_strip_measure;
  widget_class->realize = hw_strip_realize;
  widget_class->unrealize = hw_strip_unrealize;
  gtk_widget_class_set_css_name (widget_class, "strip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_strip_init (HwStrip *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (on_query_tooltip_cb), NULL);
  GtkGesture *click = gtk_gesture_click_new ();
  g_signal_connect (click, "pressed", G_CALLBACK (on_click_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  GtkEventController *motion = gtk_event_controller_motion_new ();
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion_cb), self);
  gtk_widget_add_controller (widget, motion);
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key_cb), self);
  gtk_widget_add_controller (widget, keys);
}

void
hw_strip_set_phone (HwStrip *self, bool is_phone)
{
  if (self->is_phone == is_phone)
    return;
  self->is_phone = is_phone;
  g_clear_pointer (&self->measured_bag, bag_unref);
  if (self->document != NULL)
    measure_bag (self);
}
