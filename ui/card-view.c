// SPDX-License-Identifier: GPL-3.0-or-later
/* card-view - lays the card out again when hole or preferences changed and it is seen; draws it at the size of the paper. */
#include "card-view.h"

#include "appearance.h"

#include <glib/gi18n.h>

#define MM_PER_INCH 25.4
/* CSS pixels of an inch, where the screen does not say its size. */
#define CSS_PX_PER_INCH 96.0
/* A screen that says it has fewer or more px a millimetre than these is not believed (65 and 200 dots per inch). */
#define LEAST_PX_PER_MM 2.5
#define MOST_PX_PER_MM 8.0
/* Kept free on either side of a page that is wider than the view, px: the desk's edge at narrow widths, and the window's own. */
#define EDGE_PX 12
/* A view narrower than this share of the page is moved over it instead, as the smallest print would not be read. */
#define LEAST_SHARE 0.6
/* The desk's shade over the page in the dark style, as over the drawing. */
#define DARK_DIM_SHARE 0.22

struct _HwCardView
{
  GtkWidget parent_instance;
  HwDocument *document;
  GtkWidget *scroller;
  Card *card;
  bool is_stale;
  guint refit;  /* the idle call that follows the view's width; 0 when none waits */
  double share; /* of its size on paper at which the page is shown */
  GtkDrawingArea *page;
  GtkLabel *smaller;
  GtkLabel *trouble;
};

G_DEFINE_FINAL_TYPE (HwCardView, hw_card_view, GTK_TYPE_WIDGET)

/* True scale: as many px as the screen in use has on a millimetre. */
static double
px_per_mm (GtkWidget *widget)
{
  GdkSurface *surface = gtk_native_get_surface (gtk_widget_get_native (widget));
  GdkMonitor *monitor = gdk_display_get_monitor_at_surface (gtk_widget_get_display (widget), surface);
  if (monitor != NULL && gdk_monitor_get_width_mm (monitor) > 0)
    {
      GdkRectangle geometry;
      gdk_monitor_get_geometry (monitor, &geometry);
      double scale = (double)geometry.width / gdk_monitor_get_width_mm (monitor);
      if (scale >= LEAST_PX_PER_MM && scale <= MOST_PX_PER_MM)
        return scale;
    }
  return CSS_PX_PER_INCH / MM_PER_INCH;
}

/* True scale, unless the page is wider than the view. */
static double
fitting_share (HwCardView *self, double width_px)
{
  double room_px = gtk_widget_get_width (self->scroller) - 2 * EDGE_PX;
  return room_px > 0 && width_px > room_px ? fmax (room_px / width_px, LEAST_SHARE) : 1;
}

static void
draw_page (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwCardView *self = user_data;
  if (self->card == NULL)
    return;
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  card_draw (self->card, cr, self->share * px_per_mm (GTK_WIDGET (self)));
  if (!hw_appearance_is_dark (GTK_WIDGET (self)))
    return;
  cairo_set_source_rgba (cr, 0, 0, 0, DARK_DIM_SHARE);
  cairo_paint (cr);
}

static void
lay_out (HwCardView *self)
{
  self->is_stale = false;
  g_clear_pointer (&self->card, card_free);
  if (!hw_document_has_hole (self->document))
    return;
  g_autoptr (GError) error = NULL;
  self->card = hw_document_new_card (self->document, &error);
  gtk_widget_set_visible (GTK_WIDGET (self->page), self->card != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), self->card == NULL);
  if (self->card == NULL)
    {
      gtk_label_set_text (self->trouble, error->message);
      return;
    }
  double width_mm, height_mm, scale = px_per_mm (GTK_WIDGET (self));
  card_size_mm (self->card, &width_mm, &height_mm);
  self->share = fitting_share (self, width_mm * scale);
  scale *= self->share;
  gtk_widget_set_visible (GTK_WIDGET (self->smaller), self->share < 1);
  g_autofree char *smaller = g_strdup_printf (_ ("Shown at %.0f %% of its size on paper"), 100 * self->share);
  gtk_label_set_text (self->smaller, smaller);
  gtk_drawing_area_set_content_width (self->page, (int)ceil (width_mm * scale));
  gtk_drawing_area_set_content_height (self->page, (int)ceil (height_mm * scale));
  gtk_widget_queue_draw (GTK_WIDGET (self->page));
  g_autofree char *spoken
      = g_strdup_printf (_ ("Page %.0f by %.0f millimetres, drawing 1:%d"), width_mm, height_mm, card_scale (self->card));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->page), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, spoken, -1);
}

static void
on_changed_cb (HwCardView *self)
{
  self->is_stale = true;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    lay_out (self);
}

static gboolean
on_refit_cb (gpointer user_data)
{
  HwCardView *self = user_data;
  self->refit = 0;
  on_changed_cb (self);
  return G_SOURCE_REMOVE;
}

/* Sizes cannot change while they are given out. */
static void
on_width_cb (HwCardView *self)
{
  double width_mm, height_mm;
  if (self->card == NULL || self->refit != 0)
    return;
  card_size_mm (self->card, &width_mm, &height_mm);
  if (fitting_share (self, width_mm * px_per_mm (GTK_WIDGET (self))) != self->share)
    self->refit = g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_refit_cb, self, NULL);
}

static void
hw_card_view_map (GtkWidget *widget)
{
  HwCardView *self = HW_CARD_VIEW (widget);
  GTK_WIDGET_CLASS (hw_card_view_parent_class)->map (widget);
  if (self->is_stale)
    lay_out (self);
}

void
hw_card_view_set_document (HwCardView *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  self->is_stale = true;
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
}

static void
hw_card_view_dispose (GObject *object)
{
  HwCardView *self = HW_CARD_VIEW (object);
  g_clear_handle_id (&self->refit, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_CARD_VIEW);
  g_clear_pointer (&self->card, card_free);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_card_view_parent_class)->dispose (object);
}

static void
hw_card_view_class_init (HwCardViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_card_view_dispose;
  widget_class->map = hw_card_view_map;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/card-view.ui");
  gtk_widget_class_bind_template_child (widget_class, HwCardView, scroller);
  gtk_widget_class_bind_template_child (widget_class, HwCardView, page);
  gtk_widget_class_bind_template_child (widget_class, HwCardView, smaller);
  gtk_widget_class_bind_template_child (widget_class, HwCardView, trouble);
}

static void
hw_card_view_init (HwCardView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->share = 1;
  g_signal_connect_object (gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (self->scroller)), "notify::page-size",
                           G_CALLBACK (on_width_cb), self, G_CONNECT_SWAPPED);
  gtk_drawing_area_set_draw_func (self->page, draw_page, self, NULL);
}
