// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * layer - a picture that is drawn anew in every frame over the whole of a widget, and shown in tiles.
 *
 * Drawing it through the snapshot would record it first and draw it later, words and all, over all that it reaches. Here only tiles that changed since the last frame
 * are handed over anew, so that only there the window is painted anew, in pieces that fit the processor's cache; and the image is used again when GTK has shown it,
 * because memory fresh from the system is dear. What lies under it can be its ground: then both are put together while drawing, and the window is painted once.
 */
#ifndef HW_LAYER_H
#define HW_LAYER_H

#include "render.h"

#include <gtk/gtk.h>

typedef struct _HwPage HwPage;

/* One page is shown, one is drawn on; the third is for a frame that is not over yet. They take turns. */
#define HW_LAYER_PAGES 3

typedef struct
{
  HwPage *pages[HW_LAYER_PAGES];
  int turn;                /* of the page drawn on last */
  RenderWords *words;      /* kept from frame to frame */
  cairo_surface_t *ground; /* NULL: nothing */
  /* By tile, for the cairo renderer: of the ground alone, and as shown last; an empty node where there is nothing. */
  GskRenderNode **bare, **shown;
  int n_tiles;
  bool is_unseen; /* the page in turn has not been shown */
} HwLayer;

void hw_layer_clear (HwLayer *layer);
/* A clear image to draw on, this large in px, which are at least 1, and as fine as the widget's screen. */
cairo_t *hw_layer_begin (HwLayer *layer, GtkWidget *widget, int width_px, int height_px);
/* Ends the drawing and adds what there is of it. Its nodes show it until the layer has been drawn on HW_LAYER_PAGES - 1 times more: for the widget's own snapshot. */
void hw_layer_end (HwLayer *layer, cairo_t *cr, GtkWidget *widget, GtkSnapshot *snapshot);

/*
 * The same in steps, of which those that take long may be done in another thread: the main thread turns to a page, with `ground` under it unless that is NULL, an opaque
 * image of that size, which is not to be changed any more, for the cairo renderer only; whoever paints opens and closes it; the main thread shows it. What was painted
 * and never shown is painted over.
 */
void hw_layer_turn (HwLayer *layer, GtkWidget *widget, int width_px, int height_px, cairo_surface_t *ground);
cairo_t *hw_layer_open (HwLayer *layer);
void hw_layer_close (HwLayer *layer, cairo_t *cr);
void hw_layer_show (HwLayer *layer, GtkWidget *widget, GtkSnapshot *snapshot);

#endif
