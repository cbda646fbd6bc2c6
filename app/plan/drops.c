// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Relief under the Rules of Golf: where the next ball may be played from after one has gone into a penalty area or out of bounds, and which of these
 * places leaves the fewest strokes.
 */
#include "plan-private.h"

#include <math.h>

/* How finely the way of a ball is looked at for the edge it crossed; a tongue of land thinner than this is missed. */
#define WAY_STEP_M 0.5
/* The way of a ball is looked at in no more steps than this. */
#define MOST_WAY_STEPS 4096
/* How exactly the crossing is found. */
#define CROSSING_TOLERANCE_M 0.01
/* Places looked at on the rim of the two club-lengths; they stay this much inside it, and the ball this much off the edge. */
#define N_RIM 24
#define RIM_SHARE 0.999
/* Back on the line: a place every step, so far beyond the area. Nobody walks back further (common practice). */
#define BACK_STEP_M 1.0
#define FARTHEST_BACK_M 100.0
/* A penalty area wider than this along the line is not gone round (no hole is longer). */
#define WIDEST_AREA_M 1000.0

const char *
drop_rule_token (DropRule rule)
{
  static const char *const tokens[N_DROP_RULES]
      = { [DROP_AGAIN] = "again", [DROP_BACK] = "back-on-line", [DROP_LATERAL] = "lateral" };
  g_assert ((unsigned)rule < N_DROP_RULES);
  return tokens[rule];
}

/* Can a ball be dropped there? */
static bool
is_playable (Lie lie)
{
  return lie != LIE_PENALTY && lie != LIE_OUT_OF_BOUNDS;
}

/* Where the straight way from `ball` to `rest` comes last into ground of `lie`, which it ends on. False when it was on it all the way. */
static bool
find_crossing (const Hole *hole, Lie lie, Vec2 ball, Vec2 rest, Vec2 *outside, Vec2 *inside)
{
  double length_m = vec2_distance (ball, rest);
  int n = (int)fmin (MOST_WAY_STEPS, ceil (length_m / WAY_STEP_M));
  for (int i = 1; i <= n; i++)
    {
      Vec2 out = vec2_lerp (rest, ball, (double)i / n), in = vec2_lerp (rest, ball, (i - 1.0) / n);
      if (hole_lie_at (hole, out) == lie)
        continue;
      while (vec2_distance (out, in) > CROSSING_TOLERANCE_M)
        {
          Vec2 middle = vec2_lerp (out, in, 0.5);
          if (hole_lie_at (hole, middle) == lie)
            in = middle;
          else
            out = middle;
        }
      *outside = out;
      *inside = in;
      return true;
    }
  return false;
}

/* Takes the place when it can be played from and is cheaper than what there is. */
static void
try_place (const Hole *hole, const StrokesTable *table, Vec2 target, Vec2 at, Drop *best)
{
  Lie lie = hole_lie_at (hole, at);
  if (!is_playable (lie))
    return;
  double strokes = DROP_PENALTY_STROKES + strokes_to_hole (table, lie, length_of (vec2_sub (at, target)));
  if (strokes < best->strokes)
    {
      best->at = at;
      best->lie = lie;
      best->strokes = strokes;
    }
}

/* Is nothing that lies so far from the hole or farther any cheaper? */
static bool
is_cheapest (const Drop *best, const double *least, double distance_m)
{
  double place = distance_m * (1 / STROKES_STEP_M);
  return least != NULL && place < STROKES_NODES - 2 && DROP_PENALTY_STROKES + least[(size_t)place] >= best->strokes;
}

static void
drop_lateral (const Hole *hole, const StrokesTable *table, const double *least, Vec2 target, Vec2 away, Drop *best)
{
  double hole_m = vec2_distance (best->crossing, target);
  for (int i = 0; i < N_RIM && !is_cheapest (best, least, hole_m); i++)
    {
      double angle = 2 * PI * i / N_RIM, c = cos (angle), s = sin (angle);
      Vec2 direction = vec2 (away.x * c - away.y * s, away.x * s + away.y * c);
      Vec2 at = vec2_add (best->crossing, vec2_scale (direction, RIM_SHARE * DROP_LATERAL_M));
      if (vec2_distance (at, target) >= hole_m)
        try_place (hole, table, target, at, best);
    }
}

static void
drop_back (const Hole *hole, const StrokesTable *table, const double *least, Vec2 target, Vec2 away, Drop *best)
{
  double first_m = INFINITY, hole_m = vec2_distance (best->crossing, target);
  for (double back_m = BACK_STEP_M; back_m <= fmin (WIDEST_AREA_M, first_m + FARTHEST_BACK_M); back_m += BACK_STEP_M)
    {
      if (is_cheapest (best, least, hole_m + back_m))
        return;
      try_place (hole, table, target, vec2_add (best->crossing, vec2_scale (away, back_m)), best);
      if (isinf (first_m) && isfinite (best->strokes))
        first_m = back_m;
    }
}

/* The stakes of the area just inside its edge; of ground that is all penalty area, red. */
static Stakes
stakes_at (const Hole *hole, Vec2 inside)
{
  int area = hole_area_at (hole, inside);
  return area >= 0 ? hole_stakes (hole, (size_t)area) : STAKES_RED;
}

static void
add_drop (Drop drops[N_DROP_RULES], size_t *n, Drop drop)
{
  if (!isfinite (drop.strokes))
    return;
  size_t i = (*n)++;
  for (; i > 0 && drops[i - 1].strokes > drop.strokes; i--)
    drops[i] = drops[i - 1];
  drops[i] = drop;
}

size_t
plan_drops (const Hole *hole, const StrokesTable *table, Vec2 target, Vec2 ball, Vec2 rest, double again_strokes,
            Drop drops[N_DROP_RULES])
{
  return drops_from (hole, table, NULL, target, ball, odds_lie (hole, ball), rest, again_strokes, drops);
}

size_t
drops_from (const Hole *hole, const StrokesTable *table, const double *least, Vec2 target, Vec2 ball, Lie from, Vec2 rest,
            double again_strokes, Drop drops[N_DROP_RULES])
{
  Lie lie = hole_lie_at (hole, rest);
  if (is_playable (lie))
    return 0;
  if (isnan (again_strokes))
    again_strokes = strokes_to_hole (table, from, vec2_distance (ball, target));
  size_t n = 0;
  Vec2 outside = ball, inside = rest;
  bool is_crossed = find_crossing (hole, lie, ball, rest, &outside, &inside);
  if (is_crossed && lie == LIE_PENALTY)
    {
      Vec2 away = vec2_unit (vec2_sub (outside, target));
      Drop back = { .rule = DROP_BACK, .crossing = outside, .strokes = INFINITY }, lateral = back;
      drop_back (hole, table, least, target, away, &back);
      add_drop (drops, &n, back);
      lateral.rule = DROP_LATERAL;
      if (stakes_at (hole, inside) == STAKES_RED)
        drop_lateral (hole, table, least, target, away, &lateral);
      add_drop (drops, &n, lateral);
    }
  add_drop (
      drops, &n,
      (Drop){
          .rule = DROP_AGAIN, .crossing = outside, .at = ball, .lie = from, .strokes = DROP_PENALTY_STROKES + again_strokes });
  return n;
}
