// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * held - the picture of what is dragged, over the kept picture of the rest.
 *
 * A few things are painted anew in every frame, into an image no larger than they are: drawing them through the snapshot would record every
 * mark of their hatches first. Many things that are only moved, turned or stretched are painted once, and their picture is.
 */
#ifndef HW_HELD_H
#define HW_HELD_H

#include "desk.h"
#include "render.h"

#include <gtk/gtk.h>

typedef struct
{
  GskRenderNode *node; /* of what moves as a picture; NULL when nothing does */
  Hole *still;         /* the desk's picture of the rest that belongs to it */
  RenderView view;
  int scale;
  bool is_dark;
} HwHeld;

/* Where things of these bounds leave ink on the drawing, in whole px; empty if nowhere. */
Box hw_ink_box (Box bounds, const RenderView *view);

void hw_held_clear (HwHeld *held);
/*
 * Adds what the desk holds, if anything. With `moved` it is still where it was when it was taken, and its picture is shown where `moved` takes it;
 * with NULL it is painted as it is now.
 */
void hw_held_snapshot (HwHeld *held, GtkWidget *widget, GtkSnapshot *snapshot, HwDesk *desk, const RenderView *view,
                       const Affine *moved);

#endif
