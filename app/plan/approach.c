// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The approach: which distance to play and on which side of the hole to miss.
 */
#include "aims-private.h"

/* Swings looked at about the nearest club, and how finely: then about the best of them. */
#define LEAST_APPROACH_SWING 0.85
/* A pitch: nearer than the least swing of the shortest club, from this share of the way to the hole, but no softer than this. */
#define NEARER_SHARE 0.4
#define NEAREST_SWING 0.05
#define N_SWINGS 31
#define N_TURNS 41
#define N_FINE 8
/* Steps towards a shot that rests at the hole; the first is good to some metres. */
#define N_CORRECTIONS 4
/* Directions looked at to either side of the hole; a number is played nearly at it. */
#define MOST_TURN_RAD (8 * PI / 180)
/* Clubs beside the nearest that are weighed for the one that fits. */
#define N_BESIDE 2

const char *
miss_token (Miss miss)
{
  static const char *const tokens[N_MISSES]
      = { [MISS_SHORT] = "short", [MISS_LONG] = "long", [MISS_LEFT] = "left", [MISS_RIGHT] = "right" };
  g_assert ((unsigned)miss < N_MISSES);
  return tokens[miss];
}

/* ---- which clubs ---- */

/* Index of the club whose full carry and run come nearest the hole, among those that can be played; bag_n_clubs when there is none. */
static size_t
nearest_club (const Place *place, const Bag *bag, double *farthest_m)
{
  size_t n = bag_n_clubs (bag), nearest = n;
  g_autofree ClubToday *today = g_new (ClubToday, n + 1);
  odds_clubs_today (place->input.hole, place->input.ball, place->target, bag, &place->conditions, today);
  double hole_m = vec2_distance (place->input.ball, place->target), nearest_m = INFINITY;
  *farthest_m = 0;
  for (size_t i = 0; i < n; i++)
    {
      double carry_m = today[i].carry_m;
      if (!isfinite (carry_m) || (today[i].club->tee_only && place->lie != LIE_TEE))
        continue;
      *farthest_m = fmax (*farthest_m, carry_m + today[i].run_m);
      if (fabs (carry_m - hole_m) < nearest_m)
        {
          nearest_m = fabs (carry_m - hole_m);
          nearest = i;
        }
    }
  return nearest;
}

/* The club that fits and its neighbours, each at its own best aim. */
static bool
bracket (const Place *place, const Bag *bag, size_t nearest, Approach *approach, double *again_strokes, GError **error)
{
  size_t first = nearest > N_BESIDE ? nearest - N_BESIDE : 0, end = MIN (bag_n_clubs (bag), nearest + N_BESIDE + 1);
  Aims aims[2 * N_BESIDE + 1];
  size_t n = aims_of_bag (place, bag, first, end, aims, error), best = 0;
  if (n == 0)
    return false;
  for (size_t i = 1; i < n; i++)
    if (aims_rank (&aims[i].map->best) < aims_rank (&aims[best].map->best))
      best = i;
  approach->club = aims[best].map->club;
  approach->club_strokes = aims[best].map->best.strokes;
  approach->longer = best > 0 ? aims[best - 1].map->club : NULL;
  approach->longer_strokes = best > 0 ? aims[best - 1].map->best.strokes : NAN;
  approach->shorter = best + 1 < n ? aims[best + 1].map->club : NULL;
  approach->shorter_strokes = best + 1 < n ? aims[best + 1].map->best.strokes : NAN;
  *again_strokes = aims[best].map->again_strokes;
  aims_clear_all (aims, n);
  return true;
}

/* ---- the number ---- */

typedef struct
{
  const Place *place;
  const Response *response;
  Field field;
  double least_swing, again_strokes;
} Number;

static AimStrokes
look (const Number *number, double direction_rad, double swing)
{
  Vec2 ball = number->place->input.ball, along = vec2 (cos (direction_rad), sin (direction_rad));
  Value value = aim_mean (&number->field, number->response, ball, direction_rad, swing);
  Pattern pattern = response_pattern (number->response, ball, direction_rad, swing);
  return (AimStrokes){ .aim = vec2_add (ball, vec2_scale (along, vec2_dot (vec2_sub (pattern.mean, ball), along))),
                       .swing = swing,
                       .landing = pattern.mean,
                       .strokes = fmin (PLAN_MOST_STROKES, 1 + value.strokes + value.again * number->again_strokes),
                       .again_chance = value.again };
}

/* Where the balls of a shot rest on average. */
static Vec2
rest_of (const Number *number, const AimStrokes *shot)
{
  Vec2 ball = number->place->input.ball, way = vec2_sub (shot->aim, ball);
  Pattern pattern = response_pattern (number->response, ball, atan2 (way.y, way.x), shot->swing);
  return mean_rest_of (number->place, number->response, &pattern);
}

static AimStrokes
best_about (const Number *number, double turn_rad, double half_turn_rad, double swing, double half_swing, int n_turns,
            int n_swings)
{
  AimStrokes best = { .strokes = INFINITY };
  for (int s = 0; s <= n_swings; s++)
    for (int t = 0; t <= n_turns; t++)
      {
        double at = swing + half_swing * (2.0 * s / n_swings - 1),
               direction = turn_rad + half_turn_rad * (2.0 * t / n_turns - 1);
        at = fmin (APPROACH_MOST_SWING, fmax (number->least_swing, at));
        AimStrokes here = look (number, direction, at);
        if (here.strokes < best.strokes)
          best = here;
      }
  return best;
}

static double
direction_of (const Place *place, Vec2 to)
{
  Vec2 way = vec2_sub (to, place->input.ball);
  return atan2 (way.y, way.x);
}

static AimStrokes
best_number (const Number *number)
{
  double hole_rad = direction_of (number->place, number->place->target);
  double least = number->least_swing, middle = 0.5 * (APPROACH_MOST_SWING + least), half = 0.5 * (APPROACH_MOST_SWING - least);
  AimStrokes coarse = best_about (number, hole_rad, MOST_TURN_RAD, middle, half, N_TURNS - 1, N_SWINGS - 1);
  return best_about (number, direction_of (number->place, coarse.aim), 2 * MOST_TURN_RAD / (N_TURNS - 1), coarse.swing,
                     2 * half / (N_SWINGS - 1), 2 * N_FINE, 2 * N_FINE);
}

/* The shot whose balls rest at the hole on average: the aim is moved by what is still off, a few times. */
static AimStrokes
shot_at_hole (const Number *number)
{
  const Place *place = number->place;
  Vec2 aim = place->target;
  AimStrokes shot = { 0 };
  for (int i = 0; i < N_CORRECTIONS; i++)
    {
      double swing = length_of (vec2_sub (aim, place->input.ball)) / number->response->full.carry_m;
      shot = look (number, direction_of (place, aim), fmin (APPROACH_MOST_SWING, fmax (number->least_swing, swing)));
      aim = vec2_add (aim, vec2_sub (place->target, rest_of (number, &shot)));
    }
  return shot;
}

/* Still, level, standard carry that lands as far away as the number on this day. */
static double
plays_of (const Place *place, const Club *club, const AimStrokes *best)
{
  ShotInput input = { .ball = place->input.ball,
                      .aim = vec2_add (place->input.ball, vec2_scale (vec2_unit (vec2_sub (best->aim, place->input.ball)),
                                                                      vec2_distance (place->input.ball, best->landing))),
                      .club = club,
                      .swing = 1,
                      .curve_m = NAN,
                      .conditions = &place->conditions,
                      .lies = place->input.lies };
  ShotResult shot;
  return odds_shot (place->input.hole, place->input.hole_name, &input, &shot, NULL)
             ? shot.plays_m
             : vec2_distance (place->input.ball, best->landing);
}

static bool
find_number (const Place *place, Approach *approach, double again_strokes, GError **error)
{
  Response response;
  double hole_m = vec2_distance (place->input.ball, place->target);
  Number number = { .place = place, .response = &response, .again_strokes = again_strokes };
  number.least_swing = fmax (NEAREST_SWING, fmin (LEAST_APPROACH_SWING, NEARER_SHARE * hole_m / approach->club->carry_m));
  if (!response_init (&response, place, approach->club, number.least_swing, error)
      || !field_init (&number.field, place, &response, number.least_swing, APPROACH_MOST_SWING, error))
    return false;
  approach->best = best_number (&number);
  AimStrokes at_hole = shot_at_hole (&number);
  approach->at_hole_strokes = at_hole.strokes;
  Vec2 along = vec2_unit (vec2_sub (place->target, place->input.ball));
  Vec2 off = vec2_sub (rest_of (&number, &approach->best), place->target);
  approach->past_m = vec2_dot (off, along);
  approach->right_m = -vec2_cross (along, off);
  approach->plays_m = plays_of (place, approach->club, &approach->best);
  Pattern pattern = response_pattern (&response, place->input.ball, direction_of (place, at_hole.aim), at_hole.swing);
  miss_strokes_of (place, &response, &pattern, again_strokes, approach->misses);
  field_clear (&number.field);
  return true;
}

bool
plan_approach (const PlanInput *input, const Bag *bag, Approach *approach, GError **error)
{
  Place place;
  if (!place_init (&place, input, error))
    return false;
  if (place.input.lies == NULL)
    place.input.lies = bag_lies (bag);
  Approach found = { 0 };
  double again_strokes, farthest_m, hole_m = vec2_distance (input->ball, place.target);
  size_t nearest = nearest_club (&place, bag, &farthest_m);
  bool is_found = false;
  if (nearest < bag_n_clubs (bag) && farthest_m < hole_m)
    g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_REACH,
                         "no club of the bag gets to the hole from here; play a shot nearer first");
  else if (bracket (&place, bag, nearest, &found, &again_strokes, error))
    is_found = find_number (&place, &found, again_strokes, error);
  place_clear (&place);
  if (!is_found)
    return false;
  for (int miss = 0; miss < N_MISSES; miss++)
    {
      if (found.misses[miss] < found.misses[found.safest])
        found.safest = (Miss)miss;
      if (found.misses[miss] > found.misses[found.dearest])
        found.dearest = (Miss)miss;
    }
  *approach = found;
  return true;
}
