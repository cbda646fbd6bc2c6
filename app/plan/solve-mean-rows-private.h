// SPDX-License-Identifier: GPL-3.0-or-later
/* The rows of cells under a pattern, summed up in the machine's vectors. */
#ifndef HOLEWRIGHT_SOLVE_MEAN_ROWS_PRIVATE_H
#define HOLEWRIGHT_SOLVE_MEAN_ROWS_PRIVATE_H

#include <stdbool.h>
#include <stddef.h>

/* Two runs, two sectors, what it is worth and what is lost. */
#define MOST_FIELDS 8

/* A share where the pattern lies in the middle, and by how much it grows by a cell to the right of its row's middle, and by one above the centre. */
typedef struct
{
  float middle, by_x, by_y;
} MeanShare;

/* The normal in cells: exp2 (row (y) + across * (x - middle (y))^2), where the middle leans with the row. */
typedef struct
{
  float x, y, lean, across, along;
  float half_x2, half_y2; /* squares of how far it reaches: in its own row, over rows */
  int nx, ny;
  int n_fields; /* of one run or two, each of two sectors: 2 or 4, and after them as many of what is lost */
  const float *fields[MOST_FIELDS];
  MeanShare run, sector;     /* of the first run, and of the first sector of each */
  float value, lost, weight; /* are added to */
} Sum;

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

/* Sums up every row; of what is lost too, if `is_lost`. In the widest vectors that this machine has. */
void mean_add_rows (Sum *sum, bool is_lost);
void mean_add_rows_plain (Sum *sum, bool is_lost);
void mean_add_rows_avx2 (Sum *sum, bool is_lost);
void mean_add_rows_avx512 (Sum *sum, bool is_lost);

#endif
