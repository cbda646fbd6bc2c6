// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * layer - a picture that is drawn anew in every frame, into an image just large enough.
 *
 * Drawing it through the snapshot would record it first and draw it later, words and all. How large it is shows only when it is drawn, so the
 * image is as large as the last, with some room; where that was too small it is drawn once more.
 */
#ifndef HW_LAYER_H
#define HW_LAYER_H

#include "render.h"

#include <gtk/gtk.h>

typedef struct
{
  Box room; /* of the image, whole px */
  cairo_surface_t *image;
  RenderWords *words; /* kept from frame to frame */
} HwLayer;

void hw_layer_clear (HwLayer *layer);
/* An empty image to draw on, at least 1 px, within `whole` and as fine as the widget's screen. */
cairo_t *hw_layer_begin (HwLayer *layer, GtkWidget *widget, Box whole);
/* Ends the drawing, which reached as far as `inked`, and adds it. False if it did not fit and is to be drawn again. */
bool hw_layer_end (HwLayer *layer, cairo_t *cr, GtkWidget *widget, GtkSnapshot *snapshot, Box inked);

#endif
