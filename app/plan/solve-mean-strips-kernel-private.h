// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solve-mean-strips-kernel-private - cells under a pattern, by strips of N_LANES columns, each row by row. To be included once by a file that says how wide vectors are and how the
 * function is called (ADD_STRIPS). Where the machine has instructions for it: the nearest whole numbers (WHOLE_OF_LANE), and numbers times two to the power of others (SCALED_BY_POWER).
 */
#include "solve-mean-strips-private.h"

#include <glib.h>
#include <string.h>

typedef float Lane __attribute__ ((vector_size (4 * N_LANES), aligned (4), may_alias));
typedef int Whole __attribute__ ((vector_size (4 * N_LANES), aligned (4), may_alias));

static const float counted[] = { 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15 };

/* No exponent that matters is larger or smaller. */
#define MOST_POWER 126.0f

static inline Lane
chosen (Whole is_first, Lane first, Lane other)
{
  return (Lane)(((Whole)first & is_first) | ((Whole)other & ~is_first));
}

static inline Lane
within_powers (Lane t)
{
  const Lane most = MOST_POWER + (Lane){ 0 };
  t = chosen (t < -most, -most, t);
  return chosen (t > most, most, t);
}

/* 2^t to 2e-7 of it: Taylor's series about the nearest whole number. */
static inline Lane
power_of_two (Lane exponent)
{
  Lane t = within_powers (exponent);
#ifdef SCALED_BY_POWER
  Lane whole = WHOLE_OF_LANE (t);
#else
  /* The nearest one stands in the last bits of the sum. */
  const float last_bits = 12582912.0f; /* 1.5 times 2^23 */
  Lane whole = (t + last_bits) - last_bits;
#endif
  Lane g = (t - whole) * 0.69314718f;
  Lane series = 1 + g * (1 + g * (0.5f + g * (1 / 6.0f + g * (1 / 24.0f + g * (1 / 120.0f + g * (1 / 720.0f))))));
#ifdef SCALED_BY_POWER
  return SCALED_BY_POWER (series, whole);
#else
  Whole bits = (__builtin_convertvector(whole, Whole) + 127) << 23;
  Lane power;
  memcpy (&power, &bits, sizeof power);
  return power * series;
#endif
}

/* Cells of a field from there on. Those beyond the strip weigh nothing: another thread may just be writing them, but what stands there is a number. */
static inline Lane __attribute__ ((always_inline)) lanes_at (const float *field, bool is_one)
{
  if (!is_one)
    return *(const Lane *)(const void *)field;
  return *field + (Lane){ 0 };
}

/* Cells of two or four fields, so much of the first run and of the first sector; of none nothing. */
static inline Lane __attribute__ ((always_inline))
mixed (const float *const *fields, int n, Lane run, Lane sector, size_t at, bool is_one)
{
  Lane runs[2] = { { 0 } };
  for (int k = 0; 2 * k < n; k++)
    {
      Lane first = lanes_at (fields[2 * k] + at, is_one), next = lanes_at (fields[2 * k + 1] + at, is_one);
      runs[k] = next + sector * (first - next);
    }
  if (n < 4)
    return runs[0];
  return runs[1] + run * (runs[0] - runs[1]);
}

/* Square root of a number, of zero for negative ones; without a look at the error that it does not raise. */
static inline float
root (float x)
{
  return __builtin_sqrtf (x > 0 ? x : 0);
}

/* How far the pattern reaches up over columns so far right of its middle. */
static inline float
reach_up (const Sum *sum, float left, float right)
{
  if (left <= sum->highest_x && sum->highest_x <= right)
    return sum->half_y;
  float dx = sum->highest_x < left ? left : right;
  return sum->rise * dx + root (sum->upright2 * (1 - dx * dx / (sum->half_x * sum->half_x)));
}

/*
 * `n` columns from x0 on, which lie in the fields from `column` on; `is_one`: all of them are as that one is. The weight of each column grows from row to row by a ratio, and that by what
 * is the same for all.
 */
static inline void __attribute__ ((always_inline))
add_strip (const Sum *sum, int n_worth, int n_lost, int x0, int n, int column, bool is_one, Lane total[3])
{
  const Lane lanes = *(const Lane *)(const void *)counted;
  float left = (float)x0 - sum->x, right = left + (float)(n - 1);
  int y0 = mean_above (sum->y - reach_up (sum, -right, -left)), y1 = mean_below (sum->y + reach_up (sum, left, right));
  float dy = (float)y0 - sum->y;
  Lane dx = lanes + left, off = dx - sum->lean * dy;
  Lane normal = power_of_two (sum->along * dy * dy + sum->across * off * off);
  Lane weight = (Lane)((Whole)normal & (lanes < (float)n));
  Lane ratio = power_of_two (sum->along * (2 * dy + 1) + sum->across * sum->lean * (sum->lean - 2 * off));
  Lane run = sum->run.middle + sum->run.by_x * dx + sum->run.by_y * dy;
  Lane sector = sum->sector.middle + sum->sector.by_x * dx + sum->sector.by_y * dy;
  size_t at = (size_t)(y0 < 0 ? 0 : (y0 < sum->ny ? y0 : sum->ny - 1)) * (size_t)sum->nx + (size_t)column;
  for (int y = y0; y <= y1; y++)
    {
      Lane here = mixed (sum->fields, n_worth, run, sector, at, is_one);
      Lane gone = mixed (sum->fields + n_worth, n_lost, run, sector, at, is_one);
      total[0] += weight;
      total[1] += weight * here;
      if (n_lost > 0)
        total[2] += weight * gone;
      weight *= ratio;
      ratio *= sum->ratio_change;
      run += sum->run.by_y;
      sector += sum->sector.by_y;
      /* Beyond an edge a row is as at it. */
      at += y >= 0 && y + 1 < sum->ny ? (size_t)sum->nx : 0;
    }
}

/* Every strip with the number of fields known, so that the compiler unrolls over them. Beyond an edge all columns are as at it. */
static inline void __attribute__ ((always_inline)) add_strips (Sum *sum, int n_worth, int n_lost)
{
  int x1 = mean_below (sum->x + sum->half_x), last = sum->nx - 1;
  int most = sum->widest < N_LANES ? sum->widest : N_LANES;
  Lane total[3] = { { 0 } };
  for (int x = mean_above (sum->x - sum->half_x), next; x <= x1; x = next)
    {
      int end = x < 0 ? -1 : (x <= last ? last : x1);
      next = (x1 < end ? x1 : end) + 1;
      next = next - x > most ? x + most : next;
      if (x >= 0 && x <= last)
        add_strip (sum, n_worth, n_lost, x, next - x, x, false, total);
      else
        add_strip (sum, n_worth, n_lost, x, next - x, x < 0 ? 0 : last, true, total);
    }
  for (int i = 0; i < N_LANES; i++)
    {
      sum->weight += total[0][i];
      sum->value += total[1][i];
      sum->lost += total[2][i];
    }
}

void
ADD_STRIPS (Sum *sum, bool is_lost)
{
  if (sum->n_fields == 4 && is_lost)
    add_strips (sum, 4, 4);
  else if (sum->n_fields == 4)
    add_strips (sum, 4, 0);
  else if (is_lost)
    add_strips (sum, 2, 2);
  else
    add_strips (sum, 2, 0);
}
