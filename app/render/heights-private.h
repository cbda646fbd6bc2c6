// SPDX-License-Identifier: GPL-3.0-or-later
/* The heights and slopes of a small drawing: as many as can be read. */
#ifndef HOLEWRIGHT_HEIGHTS_PRIVATE_H
#define HOLEWRIGHT_HEIGHTS_PRIVATE_H

#include "painter-private.h"

/* A height or a slope that has found room, the figure placed. */
typedef struct
{
  size_t part;
  Name name;
} HeightShown;

/*
 * Slopes first, each kind from `middle` outwards. What is left out: a height whose mark or figure would touch another mark or figure, a hole location or the flag; a slope whose figure
 * would; whatever is not wholly within the drawing. An array of HeightShown, which clears them.
 */
GArray *heights_choose (Painter *painter, Vec2 middle);
/* Paints them, and the hole locations over them. */
void render_few_heights (cairo_t *cr, const Hole *hole, const RenderView *view, Vec2 middle, PaintInk ink);

#endif
