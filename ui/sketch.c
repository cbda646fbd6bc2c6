// SPDX-License-Identifier: GPL-3.0-or-later
/* sketch - drawn straight on an image, and that is shown. */
#include "sketch.h"

#include "drawing.h"

struct _HwSketch
{
  GtkWidget parent_instance;
  HwSketchDraw draw; /* NULL: nothing */
  gpointer user_data;
};

G_DEFINE_FINAL_TYPE (HwSketch, hw_sketch, GTK_TYPE_WIDGET)

void
hw_sketch_set_draw (HwSketch *self, HwSketchDraw draw, gpointer user_data)
{
  self->draw = draw;
  self->user_data = user_data;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
hw_sketch_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwSketch *self = HW_SKETCH (widget);
  int scale = gtk_widget_get_scale_factor (widget), width = gtk_widget_get_width (widget),
      height = gtk_widget_get_height (widget);
  if (self->draw == NULL || width <= 0 || height <= 0)
    return;
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * scale, height * scale);
  cairo_surface_set_device_scale (image, scale, scale);
  cairo_t *cr = cairo_create (image);
  self->draw (self, cr, width, height, self->user_data);
  cairo_destroy (cr);
  g_autoptr (GskRenderNode) kept
      = hw_image_node (widget, image, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height), false);
  cairo_surface_destroy (image);
  gtk_snapshot_append_node (snapshot, kept);
}

static void
hw_sketch_class_init (HwSketchClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = hw_sketch_snapshot;
}

static void
hw_sketch_init (HwSketch *self)
{
}
