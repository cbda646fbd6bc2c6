// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What one shot costs and what can become of it: the landing pattern looked at in many places, each ball followed to rest.
 */
#include "plan-private.h"

#include <math.h>

/* R2 sequence: 1 / g and 1 / g^2 for the real root g of g^3 = g + 1 (Roberts 2018, The unreasonable effectiveness of quasirandom sequences). */
#define R2_FIRST 0.7548776662466927
#define R2_SECOND 0.5698402909980532
/* Places looked at while a ball rolls. */
#define ROLL_STEPS 6

/* Sums by what the balls end in. */
typedef struct
{
  double chance, fairway; /* what the same distances take from the fairway */
  Value value;
} Ending;

typedef struct
{
  const Place *place;
  const Response *response;
  Ending endings[N_LIES];
  double left_m, in_play; /* sum of distances to the hole; share of balls that count in it */
  Vec2 rest;              /* sum of the places */
} Tally;

static void
end_at (Tally *tally, double share, Vec2 at, Lie lie)
{
  const Place *place = tally->place;
  double hole_m = length_of (vec2_sub (at, place->target));
  Ending *ending = &tally->endings[lie];
  ending->chance += share;
  tally->rest = vec2_add (tally->rest, vec2_scale (at, share));
  ending->fairway += share * strokes_to_hole (place->input.table, LIE_FAIRWAY, hole_m);
  ending->value = value_add (ending->value, share, value_at_rest (place, at, lie));
  if (lie != LIE_PENALTY && lie != LIE_OUT_OF_BOUNDS)
    {
      tally->left_m += share * hole_m;
      tally->in_play += share;
    }
}

/* From where it lands to where it stays. */
static void
follow (Tally *tally, double share, Vec2 landing)
{
  const Hole *hole = tally->place->input.hole;
  const Response *response = tally->response;
  Lie lie = hole_lie_at (hole, landing);
  Vec2 way = vec2_sub (landing, tally->place->input.ball), along = vec2_unit (way);
  double run_m, roll_m;
  response_run (response, length_of (way), lie, &run_m, &roll_m);
  Vec2 at = landing;
  if (!tally->place->stops[lie])
    for (int k = 0; k <= ROLL_STEPS; k++)
      {
        at = vec2_add (landing, vec2_scale (along, roll_m + (run_m - roll_m) * k / ROLL_STEPS));
        lie = hole_lie_at (hole, at);
        if (tally->place->stops[lie])
          break;
      }
  end_at (tally, share, at, lie);
}

static void
fall (Tally *tally, double share, Vec2 landing)
{
  double left = 1;
  const Canopy *canopies;
  Vec2 way = vec2_sub (landing, tally->place->input.ball);
  size_t n = place_canopies (tally->place, way, &canopies);
  for (size_t i = 0; i < n; i++)
    if (response_is_stopped (tally->response, length_of (way), &canopies[i]))
      {
        end_at (tally, share * left * canopies[i].density,
                vec2_add (tally->place->input.ball, vec2_scale (way, canopies[i].near_m / length_of (way))), LIE_TREES);
        left *= 1 - canopies[i].density;
      }
  if (left > 0)
    follow (tally, share * left, landing);
}

/* ---- places over a pattern ---- */

/* Box and Muller's transform of the sequence. */
static void
make_spread (Vec2 *spread)
{
  double u = 0.5, v = 0.5;
  for (int i = 0; i < N_SPREAD; i++)
    {
      double radius = sqrt (-2 * log1p (-u)), angle = 2 * PI * v;
      spread[i] = vec2 (radius * cos (angle), radius * sin (angle));
      u += R2_FIRST - (u + R2_FIRST >= 1);
      v += R2_SECOND - (v + R2_SECOND >= 1);
    }
}

const Vec2 *
place_spread (const Place *place)
{
  gsize *kept = &place->kept->spread;
  if (g_once_init_enter (kept))
    {
      Vec2 *spread = g_new (Vec2, N_SPREAD);
      make_spread (spread);
      g_once_init_leave (kept, GPOINTER_TO_SIZE (spread));
    }
  return GSIZE_TO_POINTER (*kept);
}

/* A pattern as the ways that deviations along it and across go. */
typedef struct
{
  Vec2 mean, along, across;
} Axes;

static Axes
axes_of (const Pattern *pattern)
{
  double r = pattern->correlation, rest = sqrt (fmax (0, 1 - r * r));
  Vec2 side = vec2_scale (vec2_left (pattern->along), -pattern->side_sd_m);
  return (Axes){ pattern->mean, vec2_add (vec2_scale (pattern->along, pattern->long_sd_m), vec2_scale (side, r)),
                 vec2_scale (side, rest) };
}

static Vec2
place_in (const Axes *axes, Vec2 deviations)
{
  return vec2_add (axes->mean, vec2_add (vec2_scale (axes->along, deviations.x), vec2_scale (axes->across, deviations.y)));
}

static void
fall_as (Tally *tally, double share, const Pattern *pattern)
{
  const Vec2 *spread = place_spread (tally->place);
  Axes axes = axes_of (pattern);
  for (int i = 0; i < N_SPREAD; i++)
    fall (tally, share / N_SPREAD, place_in (&axes, spread[i]));
}

static void
sort_in (ShotStrokes *result, Outcome outcome)
{
  size_t i = result->n_outcomes++;
  for (; i > 0 && result->outcomes[i - 1].cost < outcome.cost; i--)
    result->outcomes[i] = result->outcomes[i - 1];
  result->outcomes[i] = outcome;
}

static void
sum_up (const Tally *tally, double again_strokes, ShotStrokes *result)
{
  Value all = { 0, 0 };
  for (int lie = 0; lie < N_LIES; lie++)
    all = value_add (all, 1, tally->endings[lie].value);
  if (isnan (again_strokes))
    again_strokes
        = (1 - all.again) * PLAN_MOST_STROKES > 1 + all.strokes ? (1 + all.strokes) / (1 - all.again) : PLAN_MOST_STROKES;
  *result = (ShotStrokes){ .strokes = fmin (PLAN_MOST_STROKES, 1 + all.strokes + all.again * again_strokes),
                           .again_strokes = again_strokes,
                           .left_m = tally->in_play > 0 ? tally->left_m / tally->in_play : NAN };
  for (int lie = 0; lie < N_LIES; lie++)
    {
      const Ending *ending = &tally->endings[lie];
      if (!(ending->chance > 0))
        continue;
      double strokes = ending->value.strokes + ending->value.again * again_strokes;
      sort_in (result, (Outcome){ .lie = (Lie)lie,
                                  .chance = ending->chance,
                                  .strokes = strokes / ending->chance,
                                  .cost = strokes - ending->fairway });
    }
}

void
shot_strokes_of (const Place *place, const Response *response, const Pattern *pattern, double again_strokes,
                 ShotStrokes *result)
{
  Tally tally = { .place = place, .response = response };
  Pattern poor;
  bool has_poor = poor_pattern (response->club, pattern, place->input.ball, &poor);
  double chance = has_poor ? response->club->mishit_chance : 0;
  fall_as (&tally, 1 - chance, pattern);
  if (has_poor)
    fall_as (&tally, chance, &poor);
  sum_up (&tally, again_strokes, result);
}

Vec2
mean_rest_of (const Place *place, const Response *response, const Pattern *pattern)
{
  Tally tally = { .place = place, .response = response };
  fall_as (&tally, 1, pattern);
  return tally.rest;
}

/* ---- misses ---- */

/* A ball counts as a miss in the worse half: beyond this many deviations, squared (the median of a Rayleigh distribution). */
#define HALF_SDS2 1.3862943611198906

/* The side of a ball by its deviations along the shot and right of it; false for one of the better half. */
static bool
is_miss (double along, double right, Miss *miss)
{
  if (along * along + right * right < HALF_SDS2)
    return false;
  if (fabs (along) >= fabs (right))
    *miss = along > 0 ? MISS_LONG : MISS_SHORT;
  else
    *miss = right > 0 ? MISS_RIGHT : MISS_LEFT;
  return true;
}

void
miss_strokes_of (const Place *place, const Response *response, const Pattern *pattern, double again_strokes,
                 double strokes[N_MISSES])
{
  Tally tallies[N_MISSES];
  for (int miss = 0; miss < N_MISSES; miss++)
    tallies[miss] = (Tally){ .place = place, .response = response };
  const Vec2 *spread = place_spread (place);
  Axes axes = axes_of (pattern);
  double r = pattern->correlation, rest = sqrt (fmax (0, 1 - r * r));
  for (int i = 0; i < N_SPREAD; i++)
    {
      Miss miss;
      if (is_miss (spread[i].x, r * spread[i].x + rest * spread[i].y, &miss))
        fall (&tallies[miss], 1, place_in (&axes, spread[i]));
    }
  for (int miss = 0; miss < N_MISSES; miss++)
    {
      Value all = { 0, 0 };
      double n = 0;
      for (int lie = 0; lie < N_LIES; lie++)
        {
          all = value_add (all, 1, tallies[miss].endings[lie].value);
          n += tallies[miss].endings[lie].chance;
        }
      strokes[miss] = fmin (PLAN_MOST_STROKES, (all.strokes + all.again * again_strokes) / n);
    }
}

bool
plan_shot_strokes (const PlanInput *input, const ShotResult *shot, double again_strokes, ShotStrokes *result, GError **error)
{
  Place place;
  Response response;
  PlanInput from = *input;
  from.ball = shot->ball;
  from.conditions = &shot->conditions;
  if (!place_init (&place, &from, error))
    return false;
  response_of_shot (&response, shot);
  shot_strokes_of (&place, &response, &shot->pattern, again_strokes, result);
  place_clear (&place);
  return true;
}
