// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What one shot costs and what can become of it, summed up over the places where the odds' balls rest; and what becomes of a pattern's balls that no flown shot has.
 */
#include "odds-rests.h"
#include "plan-private.h"

#include <math.h>

/* R2 sequence: 1 / g and 1 / g^2 for the real root g of g^3 = g + 1 (Roberts 2018, The unreasonable effectiveness of quasirandom sequences). */
#define R2_FIRST 0.7548776662466927
#define R2_SECOND 0.5698402909980532

/* Sums by what the balls end in. */
typedef struct
{
  double chance, fairway; /* what the same distances take from the fairway */
  Value value;
} Ending;

typedef struct
{
  const Place *place;
  Ending endings[N_LIES];
  double left_m, in_play; /* sum of distances to the hole; share of balls that count in it */
} Tally;

static void
end_at (Tally *tally, double share, Vec2 at, Lie lie)
{
  const Place *place = tally->place;
  double hole_m = length_of (vec2_sub (at, place->target));
  Ending *ending = &tally->endings[lie];
  ending->chance += share;
  ending->fairway += share * strokes_to_hole (place->input.table, LIE_FAIRWAY, hole_m);
  ending->value = value_add (ending->value, share, value_at_rest (place, at, lie));
  if (lie != LIE_PENALTY && lie != LIE_OUT_OF_BOUNDS)
    {
      tally->left_m += share * hole_m;
      tally->in_play += share;
    }
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

static void
end_balls (void *data, const RestBalls *balls)
{
  end_at (data, balls->share, balls->at, balls->lie);
}

bool
shot_strokes_of (const Place *place, const ShotResult *shot, double again_strokes, ShotStrokes *result, OddsTable **odds,
                 GError **error)
{
  Tally tally = { .place = place };
  if (!odds_rests (place->input.hole, shot, end_balls, &tally, odds, error))
    return false;
  sum_up (&tally, again_strokes, result);
  return true;
}

bool
plan_shot_strokes (const PlanInput *input, const ShotResult *shot, double again_strokes, ShotStrokes *result, GError **error)
{
  Place place;
  PlanInput from = *input;
  from.ball = shot->ball;
  from.conditions = &shot->conditions;
  if (!place_init (&place, &from, error))
    return false;
  bool is_found = shot_strokes_of (&place, shot, again_strokes, result, NULL, error);
  place_clear (&place);
  return is_found;
}

/* ---- a pattern's balls, followed one by one ---- */

typedef struct
{
  const Place *place;
  const Response *response;
  /* Ball i, or a share of it, comes to rest. */
  void (*end) (void *data, size_t i, double share, Vec2 at, Lie lie);
  void *data;
} Follower;

/* What trees on the way stop of ball i; returns what gets past. */
static double
pass_canopies (const Follower *follower, size_t i, Vec2 landing)
{
  double left = 1;
  const Canopy *canopies;
  Vec2 ball = follower->place->input.ball, way = vec2_sub (landing, ball);
  size_t n = place_canopies (follower->place, way, &canopies);
  for (size_t k = 0; k < n; k++)
    if (response_is_stopped (follower->response, length_of (way), &canopies[k]))
      {
        Vec2 at = vec2_add (ball, vec2_scale (way, canopies[k].near_m / length_of (way)));
        follower->end (follower->data, i, left * canopies[k].density, at, LIE_TREES);
        left *= 1 - canopies[k].density;
      }
  return left;
}

/* Balls that come down at these places. */
static void
follow_all (const Follower *follower, const Vec2 *places, size_t n)
{
  const Place *place = follower->place;
  g_autofree FlightPoint *landings = g_new (FlightPoint, n);
  g_autofree Vec2 *rests = g_new (Vec2, n);
  g_autofree int *lands = g_new (int, 2 * n);
  int *areas = lands + n;
  Box box = box_empty ();
  for (size_t i = 0; i < n; i++)
    {
      landings[i] = response_landing (follower->response, place->input.ball, places[i]);
      box = box_with_point (box, places[i]);
    }
  g_autoptr (RunGround) ground = run_ground_new (place->input.hole, &place->conditions, box);
  run_ground_follow (ground, landings, n, rests, lands, areas);
  for (size_t i = 0; i < n; i++)
    {
      double left = pass_canopies (follower, i, places[i]);
      if (left > 0)
        follower->end (follower->data, i, left, rests[i], hole_area_lie (place->input.hole, areas[i]));
    }
}

/* So many of the places over a pattern are enough for where its balls rest on average. */
#define N_MEAN 512

static void
add_rest (void *data, size_t i, double share, Vec2 at, Lie lie)
{
  (void)i;
  (void)lie;
  Vec2 *sum = data;
  *sum = vec2_add (*sum, vec2_scale (at, share));
}

Vec2
mean_rest_of (const Place *place, const Response *response, const Pattern *pattern)
{
  const Vec2 *spread = place_spread (place);
  Axes axes = axes_of (pattern);
  Vec2 sum = { 0, 0 }, places[N_MEAN];
  for (int i = 0; i < N_MEAN; i++)
    places[i] = place_in (&axes, spread[i]);
  follow_all (&(Follower){ place, response, add_rest, &sum }, places, N_MEAN);
  return vec2_scale (sum, 1.0 / N_MEAN);
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

typedef struct
{
  const Place *place;
  Miss misses[N_SPREAD]; /* by ball */
  Value sums[N_MISSES];
  double n[N_MISSES];
} MissTally;

static void
add_miss (void *data, size_t i, double share, Vec2 at, Lie lie)
{
  MissTally *tally = data;
  Miss miss = tally->misses[i];
  tally->sums[miss] = value_add (tally->sums[miss], share, value_at_rest (tally->place, at, lie));
  tally->n[miss] += share;
}

void
miss_strokes_of (const Place *place, const Response *response, const Pattern *pattern, double again_strokes,
                 double strokes[N_MISSES])
{
  g_autofree MissTally *tally = g_new0 (MissTally, 1);
  g_autofree Vec2 *places = g_new (Vec2, N_SPREAD);
  const Vec2 *spread = place_spread (place);
  Axes axes = axes_of (pattern);
  double r = pattern->correlation, rest = sqrt (fmax (0, 1 - r * r));
  size_t n = 0;
  tally->place = place;
  for (int i = 0; i < N_SPREAD; i++)
    if (is_miss (spread[i].x, r * spread[i].x + rest * spread[i].y, &tally->misses[n]))
      places[n++] = place_in (&axes, spread[i]);
  follow_all (&(Follower){ place, response, add_miss, tally }, places, n);
  for (int miss = 0; miss < N_MISSES; miss++)
    strokes[miss]
        = fmin (PLAN_MOST_STROKES, (tally->sums[miss].strokes + tally->sums[miss].again * again_strokes) / tally->n[miss]);
}
