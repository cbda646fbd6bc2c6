// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solve-mean-rows-kernel-private - rows of cells under a pattern, N_LANES of them at a time. To be included once by a file that says how wide vectors are and how the
 * function is called (ADD_ROWS). Where the machine has instructions for it: the nearest whole numbers (WHOLE_OF_LANE), and numbers times two to the power of others (SCALED_BY_POWER).
 */
#include "solve-mean-rows-private.h"

#include <glib.h>
#include <string.h>

typedef float Lane __attribute__ ((vector_size (4 * N_LANES), aligned (4), may_alias));
typedef int Whole __attribute__ ((vector_size (4 * N_LANES), aligned (4), may_alias));

static const float counted[] = { 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15 };

/* 2^t for t <= 0, to 3e-6 of it: Taylor's series about the middle between whole numbers, or about a whole one where the machine scales by their powers. */
#ifdef SCALED_BY_POWER
static inline Lane
power_of_two (Lane t)
{
  Lane whole = WHOLE_OF_LANE (t), g = (t - whole) * 0.69314718f;
  Lane series = 1 + g * (1 + g * (0.5f + g * (1 / 6.0f + g * (1 / 24.0f + g * (1 / 120.0f)))));
  return SCALED_BY_POWER (series, whole);
}
#else
static inline Lane
power_of_two (Lane t)
{
  Whole whole = __builtin_convertvector(t, Whole);
  Lane g = (t - __builtin_convertvector(whole, Lane) + 0.5f) * 0.69314718f;
  Lane series = 1 + g * (1 + g * (0.5f + g * (1 / 6.0f + g * (1 / 24.0f + g * (1 / 120.0f)))));
  Whole bits = (whole + 127) << 23;
  Lane power;
  memcpy (&power, &bits, sizeof power);
  return power * series * 0.70710678f;
}
#endif

/* Cells of a field from there on. Those beyond the stretch weigh nothing: another thread may just be writing them, but what stands there is a number. */
static inline Lane __attribute__ ((always_inline)) lanes_at (const float *field, int step)
{
  if (step > 0)
    return *(const Lane *)(const void *)field;
  return *field + (Lane){ 0 };
}

static inline Lane __attribute__ ((always_inline)) share_at (const MeanShare *share, Lane dx, float dy)
{
  return share->middle + share->by_y * dy + share->by_x * dx;
}

/* Cells of two or four fields, so much of the first run and of the first sector; of none nothing. */
static inline Lane __attribute__ ((always_inline))
mixed (const float *const *fields, int n, Lane run, Lane sector, size_t at, int step)
{
  Lane runs[2] = { { 0 } };
  for (int k = 0; 2 * k < n; k++)
    {
      Lane first = lanes_at (fields[2 * k] + at, step), next = lanes_at (fields[2 * k + 1] + at, step);
      runs[k] = next + sector * (first - next);
    }
  if (n < 4)
    return runs[0];
  return runs[1] + run * (runs[0] - runs[1]);
}

/* A stretch of a row, `at` is where its first cell lies in the fields; `step` 0: all of it is as that cell is. */
static inline void __attribute__ ((always_inline))
add_stretch (const Sum *sum, int n_worth, int n_lost, int x0, int x1, float middle, float row, float dy, size_t at, int step,
             Lane total[3])
{
  Lane dx = *(const Lane *)(const void *)counted + ((float)x0 - middle);
  float end = (float)x1 - middle + 0.5f;
  for (int x = x0; x <= x1; x += N_LANES, at += (size_t)(N_LANES * step), dx += N_LANES)
    {
      Lane normal = power_of_two (row + sum->across * dx * dx);
      Lane weight = (Lane)((Whole)normal & (dx < end));
      Lane run = share_at (&sum->run, dx, dy), sector = share_at (&sum->sector, dx, dy);
      Lane here = mixed (sum->fields, n_worth, run, sector, at, step);
      Lane gone = mixed (sum->fields + n_worth, n_lost, run, sector, at, step);
      total[0] += weight;
      total[1] += weight * here;
      if (n_lost > 0)
        total[2] += weight * gone;
    }
}

/* Square root of a number, of zero for negative ones; without a look at the error that it does not raise. */
static inline float
root (float x)
{
  return __builtin_sqrtf (x > 0 ? x : 0);
}

/* Every row with the number of fields known, so that the compiler unrolls over them. Beyond an edge a row, or the whole of them, is as at it. */
static inline void __attribute__ ((always_inline)) add_rows (Sum *sum, int n_worth, int n_lost)
{
  float half_y = root (sum->half_y2), by_half_y2 = 1 / sum->half_y2;
  int y0 = mean_above (sum->y - half_y), y1 = mean_below (sum->y + half_y), last = sum->nx - 1;
  Lane total[3] = { { 0 } };
  for (int y = y0; y <= y1; y++)
    {
      float dy = (float)y - sum->y, middle = sum->x + sum->lean * dy, row = sum->along * dy * dy;
      float half = root (sum->half_x2 * (1 - dy * dy * by_half_y2));
      int x0 = mean_above (middle - half), x1 = mean_below (middle + half);
      size_t at = (size_t)(y < 0 ? 0 : (y < sum->ny ? y : sum->ny - 1)) * (size_t)sum->nx;
      if (x0 >= 0 && x1 <= last)
        {
          add_stretch (sum, n_worth, n_lost, x0, x1, middle, row, dy, at + (size_t)x0, 1, total);
          continue;
        }
      if (x0 < 0)
        add_stretch (sum, n_worth, n_lost, x0, MIN (x1, -1), middle, row, dy, at, 0, total);
      int from = MAX (x0, 0), to = MIN (x1, last);
      if (from <= to)
        add_stretch (sum, n_worth, n_lost, from, to, middle, row, dy, at + (size_t)from, 1, total);
      if (x1 > last)
        add_stretch (sum, n_worth, n_lost, MAX (x0, last + 1), x1, middle, row, dy, at + (size_t)last, 0, total);
    }
  for (int i = 0; i < N_LANES; i++)
    {
      sum->weight += total[0][i];
      sum->value += total[1][i];
      sum->lost += total[2][i];
    }
}

void
ADD_ROWS (Sum *sum, bool is_lost)
{
  if (sum->n_fields == 4 && is_lost)
    add_rows (sum, 4, 4);
  else if (sum->n_fields == 4)
    add_rows (sum, 4, 0);
  else if (is_lost)
    add_rows (sum, 2, 2);
  else
    add_rows (sum, 2, 0);
}
