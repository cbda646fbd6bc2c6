// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * hatch - marks that tell kinds apart without colour. On pixels one small tile is repeated, on paper the marks are drawn as lines, so
 * that both are crisp. Marks keep their size on the drawing and are anchored to a point of the hole, so they move with it.
 */
#ifndef HOLEWRIGHT_HATCH_PRIVATE_H
#define HOLEWRIGHT_HATCH_PRIVATE_H

#include "palette-private.h"

/* What hatching needs to know of the context it draws on; tiles are made as they are wanted. */
typedef struct
{
  cairo_t *cr; /* borrowed */
  PaintInk ink;
  double unit_px;
  Vec2 anchor_px;            /* tiles meet here */
  bool is_raster;            /* else drawn as lines */
  double scale;              /* user units to device pixels, raster only */
  double origin_x, origin_y; /* device place of the user origin, raster only */
  cairo_pattern_t *tiles[N_HATCHES];
  unsigned tile_inks[N_HATCHES]; /* the tile's colour, 0xRRGGBB */
} HatchPen;

void hatch_pen_init (HatchPen *pen, cairo_t *cr, PaintInk ink, double unit_px, Vec2 anchor_px);
void hatch_pen_clear (HatchPen *pen);
/* Fills the current path of the context (under its fill rule) with marks, and clears the path. */
void hatch_fill (HatchPen *pen, Hatch hatch, unsigned rgb);

#endif
