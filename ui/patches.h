// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * patches - where a picture changed, as few rectangles.
 *
 * What is told to be painted anew is kept by GTK in bands across the window, each with its stretches, and given up for the whole of it beyond some thirty of them:
 * so a change is told by stretches in few bands of its own, as tight as so few can be. GTK joins those of a frame and of the one before it, so bands are kept from
 * one to the next as long as they do.
 */
#ifndef HW_PATCHES_H
#define HW_PATCHES_H

#include <stdbool.h>
#include <stddef.h>

/* Columns x0 to x1, rows y0 to y1, the ends not included. */
typedef struct
{
  int x0, y0, x1, y1;
} HwPatch;

#define HW_MOST_BANDS 5
/* Stretches in a band. */
#define HW_PATCHES_ABREAST 2
#define HW_MOST_PATCHES (HW_MOST_BANDS * HW_PATCHES_ABREAST)

/* Bands lie between neighbouring edges, which ascend from 0 to the number of rows; all zero before there were any. */
typedef struct
{
  int n;
  int edges[HW_MOST_BANDS + 1];
} HwBands;

/*
 * Rectangles that hold every cell that is set, of a grid row by row; those of a band are as high as it, and no two meet. `bands`, of the same grid, are kept where
 * others would hold little less, else become others, no more than `most`, at least 1. Returns how many are written: none if no cell is set.
 */
size_t hw_patches_find (const bool *cells, int columns, int rows, int most, HwBands *bands, HwPatch patches[HW_MOST_PATCHES]);

#endif
