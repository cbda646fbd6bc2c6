// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One shot: sent off, flown, and run to rest.
 */
#include "fly-private.h"
#include "odds-private.h"

#include <math.h>

G_DEFINE_QUARK (holewright - odds - error, odds_error)

/* Two club-lengths, of a longest club of 48 in: how deep a teeing area is (Rules of Golf, Definitions: Teeing area). */
#define TEEING_AREA_M 2.44

static bool
is_finite (Vec2 point)
{
  return isfinite (point.x) && isfinite (point.y);
}

static bool
check_input (const ShotInput *input, GError **error)
{
  const char *wrong = NULL;
  OddsError code = ODDS_ERROR_AIM;
  if (!is_finite (input->ball) || !is_finite (input->aim))
    wrong = "the ball or the aim is not at a place on the hole; put both on the drawing";
  else if (!(vec2_distance (input->ball, input->aim) >= SAME_POINT_M))
    wrong = "the aim lies on the ball; put the aim where the shot should go";
  else if (input->club == NULL)
    wrong = "no club is chosen; name a club that is in the bag", code = ODDS_ERROR_CLUB;
  else if (!(input->swing > 0 && input->swing <= 1))
    wrong = "the swing is not a share of a full one; give more than 0 and at most 1", code = ODDS_ERROR_CLUB;
  else if (isinf (input->curve_m))
    wrong = "the curve is not a length; say how far the ball curves, or leave it out", code = ODDS_ERROR_CLUB;
  if (wrong != NULL)
    g_set_error_literal (error, ODDS_ERROR, code, wrong);
  return wrong == NULL;
}

Lie
odds_lie (const Hole *hole, Vec2 ball)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind == KIND_TEE_MARKER && vec2_distance (part->at, ball) <= TEEING_AREA_M)
        return LIE_TEE;
    }
  return hole_lie_at (hole, ball);
}

/* ---- where it comes to rest ---- */

/* Where the ball stops that comes down `by` from the mean one, at the same speed. */
static bool
rest_beside (const Ground *ground, const FlightPoint *landing, Vec2 by, Vec2 *rest, GError **error)
{
  FlightPoint moved = *landing;
  Run run;
  moved.at = vec2_add (landing->at, by);
  if (!run_solve (&moved, ground_surface, ground, &run, error))
    return false;
  *rest = run.rest;
  return true;
}

/* Half of how far two balls stop apart that come down one deviation to either side of the mean one. */
static bool
spread_at_rest (const Ground *ground, const FlightPoint *landing, Vec2 deviation, Vec2 *half, GError **error)
{
  Vec2 one, other;
  if (!rest_beside (ground, landing, deviation, &one, error)
      || !rest_beside (ground, landing, vec2_scale (deviation, -1), &other, error))
    return false;
  *half = vec2_scale (vec2_sub (one, other), 0.5);
  return true;
}

/* The landing pattern carried through the run. */
static bool
run_pattern (const Ground *ground, const FlightPoint *landing, const Pattern *from, Vec2 rest, Pattern *to, GError **error)
{
  Vec2 side = vec2_scale (vec2_left (from->along), -1), l, s;
  if (!spread_at_rest (ground, landing, vec2_scale (from->along, from->long_sd_m), &l, error)
      || !spread_at_rest (ground, landing, vec2_scale (side, from->side_sd_m), &s, error))
    return false;
  double r = from->correlation;
  double l0 = vec2_dot (l, from->along), l1 = vec2_dot (l, side), s0 = vec2_dot (s, from->along), s1 = vec2_dot (s, side);
  double along2 = l0 * l0 + s0 * s0 + 2 * r * l0 * s0, across2 = l1 * l1 + s1 * s1 + 2 * r * l1 * s1;
  double both = l0 * l1 + s0 * s1 + r * (l0 * s1 + s0 * l1);
  *to = (Pattern){ .mean = rest, .along = from->along };
  to->long_sd_m = sqrt (fmax (0, along2));
  to->side_sd_m = sqrt (fmax (0, across2));
  double product = to->long_sd_m * to->side_sd_m;
  to->correlation = product > 0 ? fmax (-1, fmin (1, both / product)) : 0;
  return true;
}

/* ---- the whole shot ---- */

/* A shot as far as its landing pattern, and what it was flown from. */
typedef struct
{
  ShotResult shot;
  Sendoff sendoff;
  Ground ground;
} Making;

static bool
fly_shot (Making *making, GError **error)
{
  ShotResult *shot = &making->shot;
  const Sendoff *sendoff = &making->sendoff;
  const Club *club = sendoff->club;
  if (!sendoff_fly (sendoff, &shot->conditions, &making->ground, &shot->flight, &shot->landing, error))
    return false;
  shot->rise_m = flight_landing (&shot->flight).z_m - shot->flight.points[0].z_m;
  shot->apex_m = shot->flight.apex_m;
  shot->carry_m = vec2_distance (shot->ball, shot->landing);
  shot->beyond_aim_m = shot->carry_m - shot->aim_m;

  double scale = sendoff->swing * shot->carry_m / sendoff->meant_m;
  shot->pattern = (Pattern){ .mean = shot->landing,
                             .along = sendoff->along,
                             .long_sd_m = scale * sendoff->effect.long_factor * club->carry_sd_m,
                             .side_sd_m = scale * sendoff->effect.side_factor * club->side_sd_m,
                             .correlation = club->correlation };
  return true;
}

static bool
make_landing (const Hole *hole, const ShotInput *input, Making *making, GError **error)
{
  if (!check_input (input, error))
    return false;
  making->shot = (ShotResult){
    .ball = input->ball, .aim = input->aim, .club = input->club, .swing = input->swing, .shape = input->shape, .left_m = NAN
  };
  ShotResult *shot = &making->shot;
  Sendoff *sendoff = &making->sendoff;
  shot->conditions = input->conditions != NULL ? *input->conditions : conditions_standard ();
  shot->aim_m = vec2_distance (input->ball, input->aim);
  shot->lie = odds_lie (hole, input->ball);
  Vec2 along = vec2_unit (vec2_sub (input->aim, input->ball));
  double curve_m = usual_curve (input->club, input->shape, input->curve_m);
  shot->effect = lie_effect_at (hole, input->lies, input->ball, input->club);
  if (!sendoff_make (input->club, &shot->effect, input->swing, input->ball, along, curve_m, sendoff, error))
    return false;
  shot->curve_m = sendoff->curve_m;

  ground_init (&making->ground, hole, &shot->conditions);
  shot->start = sendoff_input (sendoff, &shot->conditions, &making->ground).direction;
  Vec2 slope = ground_slope (&making->ground, shot->ball);
  shot->stance_up_rad = atan (vec2_dot (slope, along));
  shot->stance_right_rad = atan (-vec2_cross (along, slope));
  return fly_shot (making, error);
}

static bool
run_shot (Making *making, GError **error)
{
  ShotResult *shot = &making->shot;
  FlightPoint landing = flight_landing (&shot->flight);
  landing.at = shot->landing;
  if (!run_solve (&landing, ground_surface, &making->ground, &shot->run, error))
    return false;
  shot->rest = shot->run.rest;
  shot->run_m = shot->run.run_m;
  return run_pattern (&making->ground, &landing, &shot->pattern, shot->rest, &shot->rest_pattern, error);
}

bool
odds_shot_landing (const Hole *hole, const ShotInput *input, ShotResult *result, GError **error)
{
  Making making;
  if (!make_landing (hole, input, &making, error))
    return false;
  *result = making.shot;
  return true;
}

bool
odds_shot (const Hole *hole, const char *hole_name, const ShotInput *input, ShotResult *result, GError **error)
{
  Making making;
  if (!make_landing (hole, input, &making, error))
    return false;
  ShotResult *shot = &making.shot;
  shot->plays_m = sendoff_plays (&making.sendoff, &shot->conditions, &making.ground, &shot->flight, shot->aim_m, shot->carry_m);
  if (!run_shot (&making, error))
    return false;
  Vec2 target;
  if (hole_target (hole, hole_name, &target))
    shot->left_m = vec2_distance (shot->rest, target);
  shot->has_green = odds_green_numbers (hole, hole_name, shot->rest, &shot->left);
  *result = *shot;
  return true;
}

double
odds_fit_swing (const Club *club, double plays_m)
{
  return fmin (1, fmax (0, plays_m / club->carry_m));
}
