// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Means of fields over where a swing's balls come down: the normal's own weight in every cell.
 */
#include "solve-mean-strips-private.h"
#include "solve-run-private.h"

#include <math.h>
#include <string.h>

/* Cells out to so many deviations count; beyond lie 3e-4 of the balls. */
#define MEAN_SDS 4.0
/* A pattern whose narrowest deviation is no less than so many blocks is summed over blocks: that changes its mean by 3e-4 at most of what the field varies. */
#define WIDE_SD 1.3
/* The same for a rough mean: it tells a hundredth of a stroke. */
#define ROUGH_SDS 3.4
#define ROUGH_WIDE_SD 0.7
/* What is taken of a field for less than this share is left out. */
#define LEAST_SHARE 1e-3f

/* How finely a mean is taken. */
typedef struct
{
  float wide_sd, sds;
} Care;

static const Care fine = { (float)WIDE_SD, (float)MEAN_SDS };
static const Care rough = { (float)ROUGH_WIDE_SD, (float)ROUGH_SDS };

/* Which fields. Returns their count. */
static int
choose_fields (const Landing *landing, int runs[4], int sectors[4])
{
  int run = (int)landing->run, next = (landing->sector + 1) % N_SECTORS, n = 0;
  float further = landing->run - (float)run;
  for (int k = 0; k < 2; k++)
    {
      if ((k == 0 ? 1 - further : further) < LEAST_SHARE)
        continue;
      runs[n] = runs[n + 1] = run + k;
      sectors[n] = landing->sector;
      sectors[n + 1] = next;
      n += 2;
    }
  return n;
}

/* A share that grows so far to the side where the pattern falls along `way`. */
static MeanShare
moved_share (float share, double moved, Vec2 way, const Landing *at)
{
  double xx = (double)at->xx, xy = (double)at->xy, yy = (double)at->yy, scale = moved / (xx * yy - xy * xy);
  return (MeanShare){ share, (float)(scale * (yy * way.x - xy * way.y)), (float)(scale * (xx * way.y - xy * way.x)) };
}

/* How much is taken of the shorter run and of the sector to the right, across the pattern. */
static void
share_runs (const Worth *worth, const Landing *landing, const Landing *at, int level, Sum *sum)
{
  double xx = (double)landing->xx, xy = (double)landing->xy, yy = (double)landing->yy, scale = 1.0 / (1 << level);
  double share = (double)landing->share, further = (double)landing->run - (int)landing->run;
  RunMoves moves = worth_run_moves (worth->grid->cell_m, (double)landing->run, share, worth_least_variance (xx, xy, yy));
  Vec2 first = worth->ways[landing->sector], next = worth->ways[(landing->sector + 1) % N_SECTORS];
  Vec2 way = vec2_lerp (first, next, share);
  sum->run = moved_share ((float)(1 - further), scale * moves.along, way, at);
  sum->sector = moved_share ((float)(1 - share), scale * moves.left, vec2_left (way), at);
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
  /* From there they run on, and canopies before it catch them: that may be worth something else, or the canopies are others than before. */
  const SolveGrid *grid = worth->grid;
  CellBox extent = worth_extent (worth, (double)landing->run, landing->sector);
  double behind = since <= WORTH_BEFORE || since < worth->stirred_above
                      ? grid->highest_canopy_m / runs_descent (worth->runs, (double)landing->run) / grid->cell_m
                      : 0;
  double wide = sds * sqrt ((double)landing->xx) + beside + 1, high = sds * sqrt ((double)landing->yy) + beside + 1;
  double x = (double)landing->x, y = (double)landing->y;
  double x0 = x - wide + fmin (extent.x0, -behind * way.x), x1 = x + wide + fmax (extent.x1, -behind * way.x);
  double y0 = y - high + fmin (extent.y0, -behind * way.y), y1 = y + high + fmax (extent.y1, -behind * way.y);
  int first_x = (int)CLAMP (x0, 0, grid->nx - 1) / worth->patch, last_x = (int)CLAMP (x1, 0, grid->nx - 1) / worth->patch;
  int first_y = (int)CLAMP (y0, 0, grid->ny - 1) / worth->patch, last_y = (int)CLAMP (y1, 0, grid->ny - 1) / worth->patch;
  int age = worth->version - 1 - since;
  if (age >= 0 && age < WORTH_AGES)
    {
      const CellBox *box = &worth->changed[versions == worth->stirred ? 0 : (versions == worth->leapt ? 1 : 2)][age];
      first_x = MAX (first_x, box->x0);
      last_x = MIN (last_x, box->x1);
      first_y = MAX (first_y, box->y0);
      last_y = MIN (last_y, box->y1);
    }
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
find_fields (const Worth *worth, const Landing *landing, int level, Sum *sum)
{
  int runs[4], sectors[4], n = choose_fields (landing, runs, sectors);
  float wide = sum->half_x + 1, high = sum->half_y + 1, scale = (float)(1 << level);
  CellBox cells = { mean_below (scale * (sum->x - wide)), mean_below (scale * (sum->y - high)),
                    mean_above (scale * (sum->x + wide)), mean_above (scale * (sum->y + high)) };
  CellBox tiles = worth_tiles_of (worth, cells);
  bool is_lost = false;
  for (int k = 0; k < n; k++)
    is_lost |= worth_look (worth, runs[k], sectors[k], tiles);
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
  Landing at = *landing;
  int level = choose_blocks (care, &at);
  Sum sum = mean_sum (at.x, at.y, at.xx, at.xy, at.yy, care->sds);
  sum.nx = worth->width[level];
  sum.ny = worth->height[level];
  bool is_lost = find_fields (worth, landing, level, &sum);
  share_runs (worth, landing, &at, level, &sum);
  mean_add_strips (&sum, is_lost);
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
