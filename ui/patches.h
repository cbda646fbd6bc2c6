// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * patches - where a picture changed, as few rectangles.
 *
 * What is told to be painted anew is kept by GTK in bands across the window, each with its stretches, and given up for the whole of it beyond some thirty of them:
 * so a change is told by stretches in few bands of its own, as tight as so few can be.
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

/* Stretches in a band. */
#define HW_PATCHES_ABREAST 2

/*
 * Rectangles that hold every cell that is set, of a grid row by row; those of a band share its rows, and no two meet. A band counts for its stretches and one more:
 * all together count no more than `most`, at least 2. Writes to `patches`, which has room for `most`, and returns how many: none if no cell is set.
 */
size_t hw_patches_find (const bool *cells, int columns, int rows, int most, HwPatch *patches);

#endif
