// SPDX-License-Identifier: GPL-3.0-or-later
/* wind-rose - paints the rose through render, and turns drags and keys into the wind of the plan's day. */
#include "wind-rose.h"

#include "day-values.h"
#include "layer.h"
#include "trace.h"

#include <glib/gi18n.h>

#define SIZE_PX 132
#define MARGIN_PX 9
/* The wind at the rim: more than that is no day for golf (common practice: 40 mph). */
#define RIM_MPS 18.0
/* Steps of the wind while it is dragged or nudged, unless Control is held. */
#define STEP_DEG 5.0
#define LARGE_STEP_DEG 45.0
/* Nearer to the middle than this it is calm. */
#define CALM_PX 8.0

struct _HwWindRose
{
  GtkWidget parent_instance;
  HwDocument *document;
  double turn_rad;
  GtkGesture *drag;
  RenderRose drawn; /* as it was drawn last */
  HwLayer layer;
  /* The compass under the wind, and what it was drawn for. */
  cairo_surface_t *disc;
  RenderRose disc_rose;
  int disc_scale;
  bool is_fine;
  bool is_blown;        /* the tail is held */
  unsigned key_gesture; /* keys that follow each other quickly are one step of undo */
  gint64 key_time_us;
};

G_DEFINE_FINAL_TYPE (HwWindRose, hw_wind_rose, GTK_TYPE_WIDGET)

static const Day *
rose_day (HwWindRose *self)
{
  const Part *plan = self->document != NULL ? hw_document_get_plan (self->document) : NULL;
  return plan != NULL ? &plan->day : NULL;
}

/* Bearing of up the hole; NAN when it is not known. */
static double
rose_up_bearing_deg (HwWindRose *self)
{
  Hole *hole = self->document != NULL ? hw_document_get_hole (self->document) : NULL;
  return hole != NULL ? hole_info (hole)->up_bearing_deg : NAN;
}

static RenderRose
rose_now (HwWindRose *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  const Day *day = rose_day (self);
  return (RenderRose){ .centre_px = vec2 (width / 2, height / 2),
                       .radius_px = fmin (width, height) / 2 - MARGIN_PX,
                       .unit_px = 1,
                       .north_rad = units_direction_rad (0, rose_up_bearing_deg (self)) + self->turn_rad,
                       .wind_mps = day != NULL ? day->wind_mps : NAN,
                       .from_deg = day != NULL ? day->wind_from_deg : NAN,
                       .most_mps = RIM_MPS };
}

static bool
is_same_disc (const RenderRose *a, const RenderRose *b)
{
  return a->north_rad == b->north_rad && a->radius_px == b->radius_px && a->centre_px.x == b->centre_px.x
         && a->centre_px.y == b->centre_px.y;
}

/* Does it look the same? */
static bool
is_same_rose (const RenderRose *a, RenderRose b)
{
  bool same_wind = (a->wind_mps == b.wind_mps && a->from_deg == b.from_deg) || (isnan (a->wind_mps) && isnan (b.wind_mps));
  return same_wind && is_same_disc (a, &b);
}

static void
keep_disc (HwWindRose *self, const RenderRose *rose)
{
  GtkWidget *widget = GTK_WIDGET (self);
  int scale = gtk_widget_get_scale_factor (widget);
  if (self->disc != NULL && is_same_disc (&self->disc_rose, rose) && self->disc_scale == scale)
    return;
  g_clear_pointer (&self->disc, cairo_surface_destroy);
  self->disc = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, gtk_widget_get_width (widget) * scale,
                                           gtk_widget_get_height (widget) * scale);
  cairo_surface_set_device_scale (self->disc, scale, scale);
  cairo_t *cr = cairo_create (self->disc);
  render_rose_disc (cr, rose);
  cairo_destroy (cr);
  self->disc_rose = *rose;
  self->disc_scale = scale;
}

static void
hw_wind_rose_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwWindRose *self = HW_WIND_ROSE (widget);
  RenderRose rose = self->drawn = rose_now (self);
  if (isnan (rose.north_rad) || !(rose.radius_px > 0))
    return;
  cairo_t *cr = hw_layer_begin (&self->layer, widget, gtk_widget_get_width (widget), gtk_widget_get_height (widget));
  rose.words = self->layer.words;
  keep_disc (self, &rose);
  cairo_set_source_surface (cr, self->disc, 0, 0);
  cairo_paint (cr);
  render_rose_wind (cr, &rose);
  hw_layer_end (&self->layer, cr, widget, snapshot);
}

static void
hw_wind_rose_unrealize (GtkWidget *widget)
{
  hw_layer_clear (&HW_WIND_ROSE (widget)->layer);
  g_clear_pointer (&HW_WIND_ROSE (widget)->disc, cairo_surface_destroy);
  GTK_WIDGET_CLASS (hw_wind_rose_parent_class)->unrealize (widget);
}

static void
hw_wind_rose_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                      int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = SIZE_PX;
}

/* ---- the wind that is meant ---- */

static double
to_step (double value, double step)
{
  return step * floor (value / step + 0.5);
}

/* One unit of the wind's strength as the golfer reads it. */
static double
strength_step_mps (HwWindRose *self)
{
  return hw_wind_step_mps (hw_document_get_units (self->document));
}

/* The plan's day with another wind; calm for one too weak to tell. */
static Day
day_with_wind (HwWindRose *self, double wind_mps, double from_deg)
{
  Day day = *rose_day (self);
  if (!self->is_fine)
    {
      wind_mps = to_step (wind_mps, strength_step_mps (self));
      from_deg = to_step (from_deg, STEP_DEG);
    }
  from_deg -= 360 * floor (from_deg / 360);
  bool is_calm = !(wind_mps > 0);
  day.wind_mps = is_calm ? NAN : wind_mps;
  day.wind_from_deg = is_calm ? NAN : from_deg;
  return day;
}

static bool
can_blow (HwWindRose *self)
{
  return rose_day (self) != NULL && !isnan (rose_up_bearing_deg (self));
}

/* ---- dragging ---- */

/* What the tail is for need not be said while it is held. */
static void
hold (HwWindRose *self, bool is_blown)
{
  self->is_blown = is_blown;
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), !is_blown);
}

static void
blow_at (HwWindRose *self, Vec2 at_px)
{
  RenderRose rose = rose_now (self);
  double wind_mps = 0, from_deg = 0;
  if (vec2_distance (at_px, rose.centre_px) > CALM_PX)
    render_rose_pick (&rose, at_px, &wind_mps, &from_deg);
  Day day = day_with_wind (self, wind_mps, from_deg);
  gint64 start_us = g_get_monotonic_time (), busy_us = hw_trace_busy_us ();
  hw_document_drag_day (self->document, &day);
  if (hw_trace_is_on ())
    hw_trace_wind ((double)(g_get_monotonic_time () - start_us) / 1000.0, (double)(hw_trace_busy_us () - busy_us) / 1000.0);
}

static void
on_drag_update_cb (GtkGestureDrag *gesture, double offset_x, double offset_y, HwWindRose *self)
{
  double x, y;
  if (!self->is_blown || !can_blow (self) || !gtk_gesture_drag_get_start_point (gesture, &x, &y))
    return;
  GdkModifierType state = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  self->is_fine = (state & GDK_CONTROL_MASK) != 0;
  blow_at (self, vec2 (x + offset_x, y + offset_y));
}

static void
on_drag_begin_cb (GtkGestureDrag *gesture, double x, double y, HwWindRose *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (!can_blow (self))
    {
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  hold (self, true);
  on_drag_update_cb (gesture, 0, 0, self);
}

static void
on_drag_end_cb (GtkGestureDrag *gesture, double offset_x, double offset_y, HwWindRose *self)
{
  if (self->is_blown && hw_document_is_dragging (self->document))
    hw_document_drag_end (self->document);
  hold (self, false);
}

/* As if it had never been taken. Giving the gesture up ends it, so the tail is let go first. */
static void
let_go (HwWindRose *self)
{
  if (!self->is_blown)
    return;
  hold (self, false);
  hw_document_drag_cancel (self->document);
  gtk_gesture_set_state (self->drag, GTK_EVENT_SEQUENCE_DENIED);
}

static void
on_drag_cancel_cb (GtkGesture *gesture, GdkEventSequence *sequence, HwWindRose *self)
{
  let_go (self);
}

/* ---- keys ---- */

/* After a pause this long the next key begins a new step. */
#define KEY_PAUSE_US 1000000

static unsigned
next_key_gesture (HwWindRose *self)
{
  gint64 now_us = g_get_monotonic_time ();
  if (self->key_gesture == 0 || now_us - self->key_time_us > KEY_PAUSE_US)
    self->key_gesture = hw_document_new_gesture (self->document);
  self->key_time_us = now_us;
  return self->key_gesture;
}

typedef struct
{
  guint keyval;
  double turn, strength;
} RoseKey;

/* Left and right turn where it comes from, up and down make it stronger and weaker, Delete makes it calm. */
static const RoseKey rose_keys[] = {
  { GDK_KEY_Left, -1, 0 }, { GDK_KEY_Right, 1, 0 },          { GDK_KEY_Up, 0, 1 },
  { GDK_KEY_Down, 0, -1 }, { GDK_KEY_Delete, 0, -INFINITY },
};

static gboolean
on_key_cb (GtkEventControllerKey *controller, guint keyval, guint keycode, GdkModifierType state, HwWindRose *self)
{
  if (keyval == GDK_KEY_Escape && self->is_blown)
    {
      let_go (self);
      return GDK_EVENT_STOP;
    }
  for (size_t i = 0; i < G_N_ELEMENTS (rose_keys) && can_blow (self); i++)
    if (keyval == rose_keys[i].keyval)
      {
        const Day *day = rose_day (self);
        double wind_mps = isnan (day->wind_mps) ? 0 : day->wind_mps,
               from_deg = isnan (day->wind_from_deg) ? 0 : day->wind_from_deg;
        double turn_deg = (state & GDK_SHIFT_MASK) != 0 ? LARGE_STEP_DEG : STEP_DEG;
        self->is_fine = false;
        Day blown = day_with_wind (self, fmin (RIM_MPS, wind_mps + rose_keys[i].strength * strength_step_mps (self)),
                                   from_deg + rose_keys[i].turn * turn_deg);
        hw_document_set_day (self->document, &blown, next_key_gesture (self), NULL);
        return GDK_EVENT_STOP;
      }
  return GDK_EVENT_PROPAGATE;
}

/* ---- following document and drawing ---- */

static void
on_results_changed_cb (HwWindRose *self)
{
  const Day *day = rose_day (self);
  if (day != NULL && !hw_document_is_dragging (self->document))
    {
      g_autofree char *words = hw_wind_words (day, hw_document_get_units (self->document));
      gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, words, -1);
    }
  gtk_widget_set_visible (GTK_WIDGET (self), can_blow (self));
  if (!is_same_rose (&self->drawn, rose_now (self)))
    gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_wind_rose_set_document (HwWindRose *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  on_results_changed_cb (self);
}

void
hw_wind_rose_set_turn (HwWindRose *self, double turn_rad)
{
  if (self->turn_rad == turn_rad)
    return;
  self->turn_rad = turn_rad;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* ---- the widget ---- */

static void
hw_wind_rose_dispose (GObject *object)
{
  g_clear_object (&HW_WIND_ROSE (object)->document);
  G_OBJECT_CLASS (hw_wind_rose_parent_class)->dispose (object);
}

static void
hw_wind_rose_class_init (HwWindRoseClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_wind_rose_dispose;
  widget_class->snapshot = hw_wind_rose_snapshot;
  widget_class->measure = hw_wind_rose_measure;
  widget_class->unrealize = hw_wind_rose_unrealize;
  gtk_widget_class_set_css_name (widget_class, "wind-rose");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SLIDER);
}

static void
hw_wind_rose_init (HwWindRose *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  gtk_widget_set_focusable (widget, TRUE);
  self->drag = gtk_gesture_drag_new ();
  g_signal_connect (self->drag, "drag-begin", G_CALLBACK (on_drag_begin_cb), self);
  g_signal_connect (self->drag, "drag-update", G_CALLBACK (on_drag_update_cb), self);
  g_signal_connect (self->drag, "drag-end", G_CALLBACK (on_drag_end_cb), self);
  g_signal_connect (self->drag, "cancel", G_CALLBACK (on_drag_cancel_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (self->drag));
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_key_cb), self);
  gtk_widget_add_controller (widget, keys);
}
