// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * layer - a picture that is drawn anew in every frame over the whole of a widget, and shown where it changed.
 *
 * Drawing it through the snapshot would record it first and draw it later, words and all, over all that it reaches. Here it is drawn on one page and kept on another,
 * which the window is painted from: only what differs is taken over, and only there the window is painted anew. What lies under it can be its ground: then both are
 * put together while drawing, and the window is painted once.
 */
#ifndef HW_LAYER_H
#define HW_LAYER_H

#include "render.h"

#include <gtk/gtk.h>

typedef struct _HwPage HwPage;
typedef struct _HwChanges HwChanges;

typedef struct
{
  HwPage *drawn, *kept;    /* of the same size; NULL until first turned to */
  HwChanges *changes;      /* of what is kept, since it was shown */
  bool is_anew;            /* the ground is another, and so may be what is kept, everywhere */
  RenderWords *words;      /* kept from frame to frame */
  cairo_surface_t *ground; /* NULL: nothing */
  cairo_surface_t *shown;  /* what is kept, for the nodes of the cairo renderer to paint from; NULL until first shown by it */
  GskRenderNode **tiles;   /* of what is kept; NULL until first shown */
  GskRenderNode *painted;  /* as shown last, for the cairo renderer */
  unsigned n_changes;      /* so many times something else was shown */
} HwLayer;

void hw_layer_clear (HwLayer *layer);
/* A clear image to draw on, this large in px, which are at least 1, and as fine as the widget's screen. */
cairo_t *hw_layer_begin (HwLayer *layer, GtkWidget *widget, int width_px, int height_px);
/* Ends the drawing and adds what there is of it. Its nodes show what the layer shows, also later on: for the widget's own snapshot. */
void hw_layer_end (HwLayer *layer, cairo_t *cr, GtkWidget *widget, GtkSnapshot *snapshot);

/*
 * The same in steps, of which those that take long may be done in another thread: the main thread turns to a clear page, with `ground` under it unless that is NULL,
 * an opaque image of that size, which is not to be changed any more, for the cairo renderer only; whoever paints opens and closes it; the main thread shows it. What
 * was painted and never shown is painted over. Between opening and closing nothing may be shown.
 */
void hw_layer_turn (HwLayer *layer, GtkWidget *widget, int width_px, int height_px, cairo_surface_t *ground);
cairo_t *hw_layer_open (HwLayer *layer);
void hw_layer_close (HwLayer *layer, cairo_t *cr);
void hw_layer_show (HwLayer *layer, GtkWidget *widget, GtkSnapshot *snapshot);

#endif
