// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The levels of golfers and the published Accuracy Table: how wide and how deep the area is that holds two of every three shots.
 * The table does not say what shape that area has; it is taken as an ellipse (see TWO_OF_THREE_ELLIPSE).
 */
#include "bag.h"
#include "units.h"

#include <string.h>

typedef struct
{
  double shot_yd, width_yd, depth_yd;
} AccuracyRow;

typedef struct
{
  const char *token;
  const AccuracyRow *rows;
  size_t n_rows;
} LevelInfo;

/* Source of the four tables: Course Rating System Manual, section 4.4, Accuracy Table. Length of the shot, width, depth in yards. */
static const AccuracyRow scratch_men[] = {
  { 90, 11, 14 },  { 110, 12, 15 }, { 130, 13, 15 }, { 150, 15, 16 }, { 170, 18, 17 },
  { 190, 23, 18 }, { 210, 29, 19 }, { 230, 35, 20 }, { 250, 41, 21 },
};
static const AccuracyRow scratch_women[] = {
  { 90, 12, 15 }, { 110, 14, 16 }, { 130, 17, 17 }, { 150, 20, 18 }, { 170, 26, 20 }, { 190, 30, 24 }, { 210, 34, 28 },
};
static const AccuracyRow bogey_men[] = {
  { 90, 16, 19 }, { 110, 17, 21 }, { 130, 18, 23 }, { 150, 20, 25 }, { 170, 24, 28 }, { 190, 29, 34 },
};
static const AccuracyRow bogey_women[] = {
  { 90, 17, 22 },
  { 110, 19, 24 },
  { 130, 21, 27 },
  { 150, 24, 30 },
};

static const LevelInfo levels[N_LEVELS] = {
  [LEVEL_SCRATCH_MEN] = { "scratch-men", scratch_men, G_N_ELEMENTS (scratch_men) },
  [LEVEL_SCRATCH_WOMEN] = { "scratch-women", scratch_women, G_N_ELEMENTS (scratch_women) },
  [LEVEL_BOGEY_MEN] = { "bogey-men", bogey_men, G_N_ELEMENTS (bogey_men) },
  [LEVEL_BOGEY_WOMEN] = { "bogey-women", bogey_women, G_N_ELEMENTS (bogey_women) },
};

/* The table's width and depth at a length, straight between its rows, in proportion to the length beyond its ends. */
static AccuracyRow
row_at (const LevelInfo *level, double shot_yd)
{
  const AccuracyRow *first = &level->rows[0], *last = &level->rows[level->n_rows - 1];
  const AccuracyRow *end = shot_yd <= first->shot_yd ? first : shot_yd >= last->shot_yd ? last : NULL;
  if (end != NULL)
    {
      double share = shot_yd / end->shot_yd;
      return (AccuracyRow){ shot_yd, end->width_yd * share, end->depth_yd * share };
    }
  const AccuracyRow *above = first + 1;
  while (above->shot_yd < shot_yd)
    above++;
  const AccuracyRow *below = above - 1;
  double t = (shot_yd - below->shot_yd) / (above->shot_yd - below->shot_yd);
  return (AccuracyRow){ shot_yd, below->width_yd + t * (above->width_yd - below->width_yd),
                        below->depth_yd + t * (above->depth_yd - below->depth_yd) };
}

const char *
level_token (Level level)
{
  g_assert ((unsigned)level < N_LEVELS);
  return levels[level].token;
}

bool
level_from_token (const char *token, Level *level)
{
  for (int i = 0; token != NULL && i < N_LEVELS; i++)
    if (strcmp (levels[i].token, token) == 0)
      {
        *level = (Level)i;
        return true;
      }
  return false;
}

void
accuracy_spread (Level level, double carry_m, double *side_sd_m, double *long_sd_m)
{
  g_assert ((unsigned)level < N_LEVELS);
  AccuracyRow row = row_at (&levels[level], carry_m / METRES_PER_YARD);
  *side_sd_m = row.width_yd / 2 / TWO_OF_THREE_ELLIPSE * METRES_PER_YARD;
  *long_sd_m = row.depth_yd / 2 / TWO_OF_THREE_ELLIPSE * METRES_PER_YARD;
}
