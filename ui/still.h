// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * still - overlays that stay while an aim is dragged, painted once and kept: the map of aims and that of the whole hole.
 *
 * Painting one takes longer than a frame. While something is dragged it is painted by a thread of its own, and what was there before is shown until it is there.
 */
#ifndef HW_STILL_H
#define HW_STILL_H

#include "drawing.h"

typedef struct _HwStillJob HwStillJob;

/* What is painted. */
typedef struct
{
  AimMap *aims; /* counted, as is the map of the whole hole; both NULL: nothing */
  PlanMap *map;
  cairo_surface_t *under; /* the picture of the hole; NULL: they are by themselves */
  RenderView view;
  unsigned mask;
  int scale;
} HwStillKey;

typedef struct
{
  HwStillKey key;
  GskRenderNode *node;    /* by themselves; NULL: nothing of them is on the drawing */
  cairo_surface_t *image; /* on the picture of the hole; NULL: not painted so */
  HwStillJob *job;        /* what is being painted; NULL: nothing is */
} HwStill;

void hw_still_clear (HwStill *still);
/* Adds those of the scene, painted afresh when map, mask or view are others. */
void hw_still_snapshot (HwStill *still, GtkWidget *widget, GtkSnapshot *snapshot, const PlanScene *scene,
                        const RenderView *view, unsigned mask);
/*
 * The kept picture of the hole with those of the scene on it, as an image that is not changed any more; borrowed until the next call. With `later`, a widget, what is
 * not painted yet is painted beside, and the widget drawn again when it is; NULL: it is waited for.
 */
cairo_surface_t *hw_still_on (HwStill *still, const HwDrawing *drawing, const PlanScene *scene, unsigned mask, Bag *bag,
                              GtkWidget *later);

#endif
