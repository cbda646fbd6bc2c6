// SPDX-License-Identifier: GPL-3.0-or-later
/* sketch - what the drawing area would show is drawn on an image once, and that is shown. */
#include "sketch.h"

#include "drawing.h"

struct _HwSketch
{
  GtkDrawingArea parent_instance;
};

G_DEFINE_FINAL_TYPE (HwSketch, hw_sketch, GTK_TYPE_DRAWING_AREA)

static void
hw_sketch_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  GtkSnapshot *strokes = gtk_snapshot_new ();
  GTK_WIDGET_CLASS (hw_sketch_parent_class)->snapshot (widget, strokes);
  g_autoptr (GskRenderNode) node = gtk_snapshot_free_to_node (strokes);
  if (node == NULL)
    return;
  if (!hw_is_drawn_by_cairo (widget))
    {
      gtk_snapshot_append_node (snapshot, node);
      return;
    }
  int scale = gtk_widget_get_scale_factor (widget), width = gtk_widget_get_width (widget),
      height = gtk_widget_get_height (widget);
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * scale, height * scale);
  cairo_surface_set_device_scale (image, scale, scale);
  cairo_t *cr = cairo_create (image);
  gsk_render_node_draw (node, cr);
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
