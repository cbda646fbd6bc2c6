// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The grid behind an AreaIndex, and why it answers exactly as the outlines do.
 *
 * Cells: a point's column and row are the rounded products column_of() and row_of(). Both never fall when the coordinate grows, so
 * comparing cells compares coordinates: a point in a row above a vertex's row is above the vertex, without any margin.
 * A point with no column or row is outside the box of all outlines; one just outside may still have them, and the edges of
 * its cell then answer for it as for any other.
 *
 * A cell that no edge comes near lies wholly inside or outside each area and holds the answer. Any other holds, from the top area
 * down, the edges near it and the winding number that the edges passing wholly on its right add up to:
 *
 *      row  +---------+      .  /       An edge a-b on the right adds [y >= a.y] - [y >= b.y]. At a vertex between two such edges
 *           |  point -|---->  \/        the terms cancel, so the sum is the same for the whole row, unless one of the two
 *           |      \  |       /         edges is near the cell and counted there: then the vertex's term stays, as a STEP.
 *           +-------\-+      /          It is kept like an edge that goes straight up from the vertex, far on the right.
 */
#ifndef HOLEWRIGHT_AREA_INDEX_PRIVATE_H
#define HOLEWRIGHT_AREA_INDEX_PRIVATE_H

#include "geometry-private.h"

/* One edge from its low end upwards, or a step. What is computed from it is what edge_winding() computes. */
typedef struct
{
  double low_y, high_y; /* counts for low_y <= y < high_y */
  double low_x, high_x; /* of the ends */
  int32_t turn;         /* 1 when the ring goes up along it, else -1 */
} IndexEdge;

/* One area in one cell. Entries of a cell follow each other from the top down. */
typedef struct
{
  int32_t answers[2];  /* [1] when the point is inside: the area; [0] when not, of use in the last entry only */
  int32_t winding;     /* of the edges wholly on the right */
  uint32_t first_edge; /* in `lists` */
  uint32_t n_edges;
  int32_t inside_bits; /* the point is inside when its winding number has any of these: all, or the lowest for even-odd */
  bool is_last;
} IndexEntry;

/* A cell: the topmost area wholly around it or -1; or, when less, where its entries start: at LISTED - cell. */
typedef int32_t IndexCell;
#define LISTED (-2)

/* The way from coordinates to cells. */
typedef struct
{
  Vec2 origin;
  double columns_per_m, rows_per_m;
  uint64_t n_columns, n_rows;
} IndexGrid;

struct _AreaIndex
{
  IndexGrid grid;
  IndexCell *cells; /* row after row */
  IndexEntry *entries;
  uint32_t *lists; /* of each entry's edges, which many cells share */
  IndexEdge *edges;
};

/* Added to a double of 0 to 2^31 or so this leaves the number, rounded to a whole one, in the sum's lowest bits. */
#define ROUNDER 0x1p52
#define ROUNDER_BITS UINT64_C (0x4330000000000000)

/* `x` rounded to a whole number; for what is negative, huge or NaN a number beyond any grid. */
static inline uint64_t
round_to_cell (double x)
{
  double sum = x + ROUNDER;
  uint64_t bits;
  memcpy (&bits, &sum, sizeof bits);
  return bits - ROUNDER_BITS;
}

static inline uint64_t
column_of (const IndexGrid *grid, double x)
{
  return round_to_cell ((x - grid->origin.x) * grid->columns_per_m);
}

static inline uint64_t
row_of (const IndexGrid *grid, double y)
{
  return round_to_cell ((y - grid->origin.y) * grid->rows_per_m);
}

#endif
