// SPDX-License-Identifier: GPL-3.0-or-later
/* The cells under a pattern, summed up in the machine's vectors. */
#ifndef HOLEWRIGHT_SOLVE_MEAN_STRIPS_PRIVATE_H
#define HOLEWRIGHT_SOLVE_MEAN_STRIPS_PRIVATE_H

#include <stdbool.h>
#include <stddef.h>

/* Two runs, two sectors, what it is worth and what is lost. */
#define MOST_FIELDS 8
/* The most columns of a strip. */
#define MOST_LANES 16

/* A share where the pattern lies in the middle, and by how much it grows by a cell to the right and by one above. */
typedef struct
{
  float middle, by_x, by_y;
} MeanShare;

/* The normal in cells: exp2 (along * dy^2 + across * (dx - lean * dy)^2), out to an ellipse about the middle. */
typedef struct
{
  float x, y, lean, across, along;
  float half_x, half_y; /* the ellipse reaches so far to each side, and so far up and down */
  float highest_x;      /* it does that so far to the right of the middle */
  float rise;           /* by a cell to the right, of the middles of columns */
  float upright2;       /* square of how far it reaches up from there in its own column */
  float ratio_change;   /* from row to row a column's weight changes by a ratio, and that by this one */
  int widest;           /* strip whose weights can be told from each other in single precision */
  int nx, ny;
  int n_fields; /* of one run or two, each of two sectors: 2 or 4, and after them as many of what is lost */
  const float *fields[MOST_FIELDS];
  MeanShare run, sector;     /* of the first run, and of the first sector of each */
  float value, lost, weight; /* are added to */
} Sum;

/* A normal of such covariance, out to so many deviations. */
Sum mean_sum (float x, float y, float xx, float xy, float yy, float sds);

/* The whole numbers on either side of a number that is not too large for them. */
static inline int
mean_below (float x)
{
  int i = (int)x;
  return i - (x < (float)i);
}

static inline int
mean_above (float x)
{
  return -mean_below (-x);
}

/* Sums up all cells in the ellipse, and some about it; of what is lost too, if `is_lost`. In the widest vectors that this machine has. */
void mean_add_strips (Sum *sum, bool is_lost);
void mean_add_strips_plain (Sum *sum, bool is_lost);
void mean_add_strips_avx2 (Sum *sum, bool is_lost);
void mean_add_strips_avx512 (Sum *sum, bool is_lost);

#endif
