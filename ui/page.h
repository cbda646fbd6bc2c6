// SPDX-License-Identifier: GPL-3.0-or-later
/* page - the pixels of a layer: in tiles, by which they are shown and made bare, and in cells, by which they are compared. */
#ifndef HW_PAGE_H
#define HW_PAGE_H

#include "layer.h"

#include <gtk/gtk.h>

/* Side of a tile, device px: 64 kB, which fit the processor's cache. */
#define HW_TILE_PX 128
/* Side of a cell, device px; a tile is whole cells. */
#define HW_CELL_PX 16

struct _HwPage
{
  int width, height, scale; /* device px; device px in a px */
  int columns, rows;        /* of tiles */
  size_t stride;
  guchar *data;
  bool *is_inked; /* by tile: it shows more than the ground */
  bool is_bare;   /* nothing was ever drawn on it, not even its ground */
};

HwPage *hw_page_new (int width, int height, int scale);
void hw_page_free (HwPage *page);
bool hw_page_is_of_size (const HwPage *page, int width, int height, int scale);
/* An image of it to draw on, or to paint from; it is valid as long as the page. */
cairo_surface_t *hw_page_image (const HwPage *page);
/* A copy of a tile's pixels, line after line. */
GBytes *hw_page_copy_tile (const HwPage *page, int column, int row);
/* The tile's place in the widget, px. */
graphene_rect_t hw_page_tile_bounds (const HwPage *page, int column, int row);

/* Takes away all but the ground, which is as large as the page, or NULL for none. */
void hw_page_make_bare (HwPage *page, cairo_surface_t *ground);
/* Looks which tiles show more than the ground. */
void hw_page_find_ink (HwPage *page, cairo_surface_t *ground);

/* Cells in a line of them, and lines. */
int hw_page_cell_columns (const HwPage *page);
int hw_page_cell_rows (const HwPage *page);
/* Makes `kept` show what `drawn` does, and sets the cells where it did not; with `everywhere` false only looks where one of them is inked. */
void hw_page_take_over (HwPage *kept, const HwPage *drawn, bool everywhere, bool *cells);

#endif
