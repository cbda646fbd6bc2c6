// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * drawing - the part of the canvas that stays while an aim is dragged, painted once and kept as a render node.
 *
 * Painting a hole with all its hatches takes tens of milliseconds; a kept node costs a copy. Under the cairo renderer it is an image painted
 * by a cairo node, elsewhere a texture. The same node handed out again tells GTK that nothing there changed.
 */
#ifndef HW_DRAWING_H
#define HW_DRAWING_H

#include "render-labels.h"

#include <gtk/gtk.h>

/* How much of the paper's light is taken away in the dark style. */
#define HW_DARK_DIM_SHARE 0.22

typedef struct
{
  GskRenderNode *node;    /* in one piece, to be turned and stretched without seams */
  GskRenderNode *tiles;   /* where it stands still */
  cairo_surface_t *image; /* which they show */
  Hole *hole;
  RenderView view;
  int scale;
  bool is_dark;
  /* Draws more over the hole, for a picture with all there is to edit; may be NULL. Set freely: the picture follows. */
  void (*more) (cairo_t *cr, const Hole *hole, const RenderView *view);
  void (*painted_more) (cairo_t *cr, const Hole *hole, const RenderView *view); /* what the kept picture was painted with */
  GArray *words; /* of Box: what is written on it; NULL until somebody asks */
  unsigned n_redraws;                                                           /* how often the hole was painted in full */
} HwDrawing;

bool hw_same_view (const RenderView *a, const RenderView *b);
/* An image as a render node at `bounds`, made for the renderer that draws `widget`; the image is not to be changed any more. */
GskRenderNode *hw_image_node (GtkWidget *widget, cairo_surface_t *image, const graphene_rect_t *bounds, bool is_opaque);
bool hw_is_drawn_by_cairo (GtkWidget *widget);
/* The piece `bounds` of an image that starts at the origin, for the cairo renderer; the image is not to be changed while the node lives. */
GskRenderNode *hw_piece_node (cairo_surface_t *image, const graphene_rect_t *bounds, bool is_opaque);
/*
 * The part `part` of an image, whole px, in tiles, for the cairo renderer, which paints each node that the changed part of the window meets as a whole before it
 * adds it to the window.
 */
GskRenderNode *hw_tiled_node (cairo_surface_t *image, Box part, bool is_opaque);

void hw_drawing_clear (HwDrawing *drawing);
/* Would painting these now give another picture than the one kept? */
bool hw_drawing_is_stale (const HwDrawing *drawing, const Hole *hole, const RenderView *view, int scale, bool is_dark);
/* Paints the hole for this view and keeps it; where only areas changed since the picture kept, only there. */
void hw_drawing_paint (HwDrawing *drawing, GtkWidget *widget, Hole *hole, const RenderView *view, bool is_dark);
/* Adds the kept picture, moved, turned and stretched to where `view` would have it. */
void hw_drawing_snapshot (const HwDrawing *drawing, GtkSnapshot *snapshot, const RenderView *view);

/* Adds to `taken` (of Box) where the words of the kept picture stand on a view that shows it, moved or not. */
void hw_drawing_add_words (HwDrawing *drawing, const RenderView *view, GArray *taken);

/* What stands in the margin of the drawing, kept likewise. */
typedef struct
{
  GskRenderNode *node;
  RenderView view;
  double bearing_deg;
  int scale;
} HwMargin;

void hw_margin_clear (HwMargin *margin);
/* Adds to `taken` (of Box) where they stand. */
void hw_margin_add_boxes (const RenderView *view, double bearing_deg, GArray *taken);
/* Adds scale bar and north arrow, painted afresh when the view or the bearing, NAN for unknown, is another. */
void hw_margin_snapshot (HwMargin *margin, GtkWidget *widget, GtkSnapshot *snapshot, const RenderView *view,
                         double bearing_deg);

#endif
