// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-bar - painted through render; all bars are as wide as each other, so all have the same axis. */
#include "bag-bar.h"

#include "appearance.h"
#include "bag-columns.h"
#include "render.h"

#include <glib/gi18n.h>
#include <math.h>

#define RULER_HEIGHT_PX 24
#define LEAST_WIDTH_PX 140
/* No club, but the ruler over all of them. */
#define RULER ((size_t)-1)

struct _HwBagBar
{
  GtkWidget parent_instance;
  Bag *bag;
  size_t club;
  LengthUnit units;
  char *range, *gap;
};

G_DEFINE_FINAL_TYPE (HwBagBar, hw_bag_bar, GTK_TYPE_WIDGET)

static void
hw_bag_bar_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwBagBar *self = HW_BAG_BAR (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  if (self->bag == NULL || width < 1 || height < 1)
    return;
  RenderAxis axis = render_bag_axis (self->bag, width, 1, self->units);
  axis.is_dark = hw_appearance_is_dark (widget);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  if (self->club == RULER)
    render_ruler (cr, &axis, NULL, height);
  else
    render_bag_row (cr, &axis, self->bag, self->club, self->range, self->gap, PAINT_COLOUR);
  cairo_destroy (cr);
}

static void
hw_bag_bar_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                    int *minimum_baseline, int *natural_baseline)
{
  HwBagBar *self = HW_BAG_BAR (widget);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = *natural = LEAST_WIDTH_PX;
  else if (self->bag == NULL || self->club == RULER)
    *minimum = *natural = RULER_HEIGHT_PX;
  else
    *minimum = *natural = (int)ceil (render_bag_row_height (self->bag, self->club));
}

static void
take (HwBagBar *self, Bag *bag, size_t i, LengthUnit units)
{
  bag_ref (bag);
  g_clear_pointer (&self->bag, bag_unref);
  g_clear_pointer (&self->range, g_free);
  g_clear_pointer (&self->gap, g_free);
  self->bag = bag;
  self->club = i;
  self->units = units;
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_bag_bar_show (HwBagBar *self, Bag *bag, size_t i, LengthUnit units)
{
  take (self, bag, i, units);
  self->range = hw_bag_range_words (bag_club (bag, i), units);
  self->gap = hw_bag_gap_words (bag, i, units);
  g_autofree char *name = g_strdup_printf (_ ("Two of three shots with %s carry %s %s"), bag_club (bag, i)->name, self->range,
                                           unit_suffix (units));
  g_autofree char *spoken
      = self->gap != NULL ? g_strdup_printf (_ ("%s; %s to the next club"), name, self->gap) : g_strdup (name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

void
hw_bag_bar_show_ruler (HwBagBar *self, Bag *bag, LengthUnit units)
{
  take (self, bag, RULER, units);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  units == UNIT_YARDS ? _ ("Distances in yards") : _ ("Distances in metres"), -1);
}

static void
hw_bag_bar_finalize (GObject *object)
{
  HwBagBar *self = HW_BAG_BAR (object);
  g_clear_pointer (&self->bag, bag_unref);
  g_free (self->range);
  g_free (self->gap);
  G_OBJECT_CLASS (hw_bag_bar_parent_class)->finalize (object);
}

static void
hw_bag_bar_class_init (HwBagBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = hw_bag_bar_finalize;
  widget_class->snapshot = hw_bag_bar_snapshot;
  widget_class->measure = hw_bag_bar_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_bag_bar_init (HwBagBar *self)
{
  self->club = RULER;
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
}

GtkWidget *
hw_bag_bar_new (void)
{
  return g_object_new (HW_TYPE_BAG_BAR, NULL);
}
