// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * sketch - a small picture that is kept as pixels.
 *
 * What GTK's drawing area draws is recorded as strokes, which the cairo renderer draws again whenever anything near it is painted: for a hatched corner of a panel that is painted
 * in every frame, as often.
 */
#ifndef HW_SKETCH_H
#define HW_SKETCH_H

#include <gtk/gtk.h>

#define HW_TYPE_SKETCH (hw_sketch_get_type ())
G_DECLARE_FINAL_TYPE (HwSketch, hw_sketch, HW, SKETCH, GtkWidget)

/* Draws a picture of so many px on a clear ground. */
typedef void (*HwSketchDraw) (HwSketch *self, cairo_t *cr, int width, int height, gpointer user_data);

/* In a template the sketch takes a width-request and a height-request, its least size. */
void hw_sketch_set_draw (HwSketch *self, HwSketchDraw draw, gpointer user_data);

#endif
