// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Means of fields over where a swing's balls come down: the normal's own weight in every cell, row by row, eight cells at a time.
 */
#include "solve-run-private.h"

#include <math.h>
#include <string.h>

/* Cells out to so many deviations count; beyond lie 3e-4 of the balls. */
#define MEAN_SDS 4.0
/* A pattern whose narrowest deviation is no less than so many blocks is summed over blocks: that changes its mean by 3e-4 at most of what the field varies. */
#define WIDE_SD 1.3
/* The same for a rough mean: it tells a hundredth of a stroke. */
#define ROUGH_SDS 3.4
#define ROUGH_WIDE_SD 0.85
/* Two runs, two sectors, what it is worth and what is lost. */
#define MOST_FIELDS 8
/* What is taken of a field for less than this share is left out. */
#define LEAST_SHARE 1e-3f

typedef float Lane __attribute__ ((vector_size (32), aligned (4), may_alias));
typedef int Whole __attribute__ ((vector_size (32), aligned (4), may_alias));
#define LANES 8

/* The normal in cells: exp2 (row (y) + across * (x - middle (y))^2), where the middle leans with the row. */
typedef struct
{
  float x, y, lean, across, along;
  float half_x2, half_y2; /* squares of how far it reaches: in its own row, over rows */
  int nx, ny, n_fields;
  const float *fields[MOST_FIELDS];
  float shares[MOST_FIELDS];
  float value, lost, weight;
} Sum;

/* 2^t for t <= 0, to 3e-6 of it: Taylor's series about -0.5 for what is left of a whole number. */
static inline Lane __attribute__ ((always_inline)) power_of_two (Lane t)
{
  Whole whole = __builtin_convertvector(t, Whole);
  Lane g = (t - __builtin_convertvector(whole, Lane) + 0.5f) * 0.69314718f;
  Lane series = 1 + g * (1 + g * (0.5f + g * (1 / 6.0f + g * (1 / 24.0f + g * (1 / 120.0f)))));
  Whole bits = (whole + 127) << 23;
  Lane power;
  memcpy (&power, &bits, sizeof power);
  return power * series * 0.70710678f;
}

static inline Lane __attribute__ ((always_inline)) eight_at (const float *field, int step)
{
  if (step > 0)
    return *(const Lane *)(const void *)field;
  return *field + (Lane){ 0 };
}

/* A stretch of a row, `at` is where its first cell lies in the fields; `step` 0: all of it is as that cell is. */
static inline void __attribute__ ((always_inline)) add_stretch (const Sum *sum, int n_worth, int n_lost, int x0, int x1,
                                                                float middle, float row, size_t at, int step, Lane total[3])
{
  const Lane count = { 0, 1, 2, 3, 4, 5, 6, 7 };
  Lane dx = count + ((float)x0 - middle);
  float end = (float)x1 - middle + 0.5f;
  for (int x = x0; x <= x1; x += LANES, at += (size_t)(LANES * step), dx += LANES)
    {
      Lane normal = power_of_two (row + sum->across * dx * dx);
      Lane weight = (Lane)((Whole)normal & (dx < end)), here = { 0 }, gone = { 0 };
      for (int k = 0; k < n_worth; k++)
        here += sum->shares[k] * eight_at (sum->fields[k] + at, step);
      for (int k = 0; k < n_lost; k++)
        gone += sum->shares[k] * eight_at (sum->fields[n_worth + k] + at, step);
      total[0] += weight;
      total[1] += weight * here;
      if (n_lost > 0)
        total[2] += weight * gone;
    }
}

/* The whole numbers on either side of a number that is not too large for them. */
static inline int __attribute__ ((always_inline)) below (float x)
{
  int i = (int)x;
  return i - (x < (float)i);
}

static inline int __attribute__ ((always_inline)) above (float x)
{
  return -below (-x);
}

/* Square root of a number, of zero for negative ones; without a look at the error that it does not raise. */
static inline float __attribute__ ((always_inline)) root (float x)
{
  return __builtin_sqrtf (x > 0 ? x : 0);
}

/* Every row with the number of fields known, so that the compiler unrolls over them. Beyond an edge a row, or the whole of them, is as at it. */
static inline void __attribute__ ((always_inline)) add_rows (Sum *sum, int n_worth, int n_lost)
{
  float half_y = root (sum->half_y2), by_half_y2 = 1 / sum->half_y2;
  int y0 = above (sum->y - half_y), y1 = below (sum->y + half_y), last = sum->nx - 1;
  Lane total[3] = { { 0 } };
  for (int y = y0; y <= y1; y++)
    {
      float dy = (float)y - sum->y, middle = sum->x + sum->lean * dy, row = sum->along * dy * dy;
      float half = root (sum->half_x2 * (1 - dy * dy * by_half_y2));
      int x0 = above (middle - half), x1 = below (middle + half);
      size_t at = (size_t)(y < 0 ? 0 : (y < sum->ny ? y : sum->ny - 1)) * (size_t)sum->nx;
      if (x0 >= 0 && x1 <= last)
        {
          add_stretch (sum, n_worth, n_lost, x0, x1, middle, row, at + (size_t)x0, 1, total);
          continue;
        }
      if (x0 < 0)
        add_stretch (sum, n_worth, n_lost, x0, MIN (x1, -1), middle, row, at, 0, total);
      int from = MAX (x0, 0), to = MIN (x1, last);
      if (from <= to)
        add_stretch (sum, n_worth, n_lost, from, to, middle, row, at + (size_t)from, 1, total);
      if (x1 > last)
        add_stretch (sum, n_worth, n_lost, MAX (x0, last + 1), x1, middle, row, at + (size_t)last, 0, total);
    }
  for (int i = 0; i < LANES; i++)
    {
      sum->weight += total[0][i];
      sum->value += total[1][i];
      sum->lost += total[2][i];
    }
}

#define CLONES __attribute__ ((target_clones ("avx2", "default")))

CLONES static void
add_four (Sum *sum)
{
  add_rows (sum, 4, 0);
}

CLONES static void
add_four_lost (Sum *sum)
{
  add_rows (sum, 4, 4);
}

CLONES static void
add_two (Sum *sum)
{
  add_rows (sum, 2, 0);
}

CLONES static void
add_two_lost (Sum *sum)
{
  add_rows (sum, 2, 2);
}

/* How finely a mean is taken. */
typedef struct
{
  float wide_sd, sds;
} Care;

static const Care fine = { (float)WIDE_SD, (float)MEAN_SDS };
static const Care rough = { (float)ROUGH_WIDE_SD, (float)ROUGH_SDS };

/* Which fields, and how much of each. Returns their count. */
static int
choose_fields (const Landing *landing, int runs[4], int sectors[4], float shares[4])
{
  int run = (int)landing->run, next = (landing->sector + 1) % N_SECTORS, n = 0;
  float further = landing->run - (float)run;
  for (int k = 0; k < 2; k++)
    {
      float share = k == 0 ? 1 - further : further;
      if (share < LEAST_SHARE)
        continue;
      runs[n] = runs[n + 1] = run + k;
      sectors[n] = landing->sector;
      sectors[n + 1] = next;
      shares[n] = share * (1 - landing->share);
      shares[n + 1] = share * landing->share;
      n += 2;
    }
  return n;
}

/* Over blocks of two by two instead, whose means lie a quarter of a cell's square wider than the cells themselves. */
static Landing
in_blocks (const Landing *landing)
{
  Landing blocks = *landing;
  blocks.x = (landing->x - 0.5f) / 2;
  blocks.y = (landing->y - 0.5f) / 2;
  blocks.xx = (landing->xx - 0.25f) / 4;
  blocks.xy = landing->xy / 4;
  blocks.yy = (landing->yy - 0.25f) / 4;
  return blocks;
}

/* Is the pattern so wide everywhere that blocks of two by two serve it as well? */
static bool
is_wide (const Landing *landing, float wide_sd)
{
  float half = (landing->xx - landing->yy) / 2, most = (landing->xx + landing->yy) / 2 - 4 * wide_sd * wide_sd;
  return most >= 0 && most * most >= half * half + landing->xy * landing->xy;
}

bool
worth_is_changed (const Worth *worth, const gint *versions, const Landing *landing, Vec2 way, double sds, double beside,
                  gint since)
{
  /* From there they run on, and canopies before it catch them. */
  const SolveGrid *grid = worth->grid;
  double ahead = worth_reach (worth, (double)landing->run),
         behind = grid->highest_canopy_m / runs_descent (worth->runs, (double)landing->run) / grid->cell_m;
  double wide = sds * sqrt ((double)landing->xx) + beside + 1, high = sds * sqrt ((double)landing->yy) + beside + 1;
  double x = (double)landing->x, y = (double)landing->y;
  double x0 = x - wide + fmin (-ahead, -behind * way.x), x1 = x + wide + fmax (ahead, -behind * way.x);
  double y0 = y - high + fmin (-ahead, -behind * way.y), y1 = y + high + fmax (ahead, -behind * way.y);
  int first_x = (int)CLAMP (x0, 0, grid->nx - 1) / worth->patch, last_x = (int)CLAMP (x1, 0, grid->nx - 1) / worth->patch;
  int first_y = (int)CLAMP (y0, 0, grid->ny - 1) / worth->patch, last_y = (int)CLAMP (y1, 0, grid->ny - 1) / worth->patch;
  for (int j = first_y; j <= last_y; j++)
    for (int i = first_x; i <= last_x; i++)
      if (versions[j * worth->patches_x + i] > since)
        return true;
  return false;
}

/* The largest blocks that serve the pattern, which is then told in them; 0: cells. */
static int
choose_blocks (const Care *care, Landing *landing)
{
  int level = 0;
  for (; level < N_BLOCKS && is_wide (landing, care->wide_sd); level++)
    *landing = in_blocks (landing);
  return level;
}

/* Makes the tiles under the pattern and finds the fields to sum up. Returns whether anything is lost there. */
static bool
find_fields (const Worth *worth, const Care *care, const Landing *landing, const Landing *at, int level, Sum *sum)
{
  int runs[4], sectors[4], n = choose_fields (landing, runs, sectors, sum->shares);
  float wide = care->sds * root (at->xx) + 1, high = care->sds * root (at->yy) + 1;
  float scale = (float)(1 << level);
  int x0 = below (scale * (sum->x - wide)), x1 = above (scale * (sum->x + wide));
  int y0 = below (scale * (sum->y - high)), y1 = above (scale * (sum->y + high));
  bool is_lost = false;
  for (int k = 0; k < n; k++)
    is_lost |= worth_look (worth, runs[k], sectors[k], x0, y0, x1, y1);
  for (int k = 0; k < n; k++)
    {
      sum->fields[k] = worth_blocks (worth, level, runs[k], sectors[k], false);
      if (is_lost)
        sum->fields[n + k] = worth_blocks (worth, level, runs[k], sectors[k], true);
    }
  sum->n_fields = n;
  return is_lost;
}

static void
take_mean (const Worth *worth, const Care *care, const Landing *landing, float *value, float *lost)
{
  const float log2_e = 1.44269504f;
  Landing at = *landing;
  int level = choose_blocks (care, &at);
  float narrow = at.xx - at.xy * at.xy / at.yy;
  Sum sum = { .x = at.x,
              .y = at.y,
              .lean = at.xy / at.yy,
              .across = -0.5f * log2_e / narrow,
              .along = -0.5f * log2_e / at.yy,
              .half_x2 = care->sds * care->sds * narrow,
              .half_y2 = care->sds * care->sds * at.yy,
              .nx = worth->width[level],
              .ny = worth->height[level] };
  bool is_lost = find_fields (worth, care, landing, &at, level, &sum);
  if (sum.n_fields == 4)
    (is_lost ? add_four_lost : add_four) (&sum);
  else
    (is_lost ? add_two_lost : add_two) (&sum);
  *value = sum.value / sum.weight;
  *lost = sum.lost / sum.weight;
}

void
worth_mean (const Worth *worth, const Landing *landing, float *value, float *lost)
{
  take_mean (worth, &fine, landing, value, lost);
}

void
worth_rough_mean (const Worth *worth, const Landing *landing, float *value, float *lost)
{
  take_mean (worth, &rough, landing, value, lost);
}
