// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a club does from a place: where its full swing lands in each direction, how high it flies there, how it comes down.
 */
#include "plan-private.h"
#include "odds-stance.h"

#include <math.h>

/* How far off an aim is put; only its direction counts. */
#define AIM_M 100.0

static Vec2
unit_of (double direction_rad)
{
  return vec2 (cos (direction_rad), sin (direction_rad));
}

/* ---- coming down ---- */

/* A ball that lands no farther than these deviations short of the full swing's mean is taken for one of those. */
#define FULL_SDS 2.0
/* But so much of the range of part swings is left to them. */
#define LEAST_PART 0.5

/* 0 for the part swing, 1 for the full one. */
static double
fullness (const Response *response, double landing_m)
{
  double range_m = response->full.carry_m - response->part.carry_m;
  double rise_m = fmax (LEAST_PART * range_m, range_m - FULL_SDS * response->long_sd_m);
  return rise_m > 0 ? fmin (1, fmax (0, (landing_m - response->part.carry_m) / rise_m)) : 1;
}

static double
mix (double part, double full, double t)
{
  return part + t * (full - part);
}

FlightPoint
response_landing (const Response *response, Vec2 ball, Vec2 landing)
{
  const Impact *part = &response->part.impact, *full = &response->full.impact;
  Vec2 way = vec2_sub (landing, ball);
  double landing_m = length_of (way), t = fullness (response, landing_m);
  Vec2 along = landing_m > 0 ? vec2_scale (way, 1 / landing_m) : unit_of (response->middle_rad);
  double ahead_mps = mix (part->v_mps.x, full->v_mps.x, t), left_mps = mix (part->v_mps.y, full->v_mps.y, t);
  return (FlightPoint){ .at = landing,
                        .v_mps = vec2_add (vec2_scale (along, ahead_mps), vec2_scale (vec2_left (along), left_mps)),
                        .vz_mps = mix (part->vz_mps, full->vz_mps, t),
                        .spin_radps = mix (part->spin_radps, full->spin_radps, t) };
}

double
response_landing_mps (const Response *response)
{
  return fmax (vec2_length (response->part.impact.v_mps), vec2_length (response->full.impact.v_mps));
}

/* ---- flight ---- */

static Stroke
stroke_of_shot (const ShotResult *shot)
{
  Vec2 flown = vec2_sub (shot->landing, shot->ball), along = vec2_unit (vec2_sub (shot->aim, shot->ball));
  Vec2 towards = vec2_unit (flown);
  Stroke stroke = { .swing = shot->swing, .carry_m = vec2_dot (flown, along), .side_m = -vec2_cross (along, flown) };
  for (int i = 0; i < N_HEIGHTS; i++)
    {
      FlightPoint point = flight_at_distance (&shot->flight, towards, shot->carry_m * i / (N_HEIGHTS - 1));
      stroke.heights_m[i] = point.z_m - shot->flight.points[0].z_m;
    }
  stroke.run_m = vec2_dot (vec2_sub (shot->rest, shot->landing), towards);
  FlightPoint landing = flight_landing (&shot->flight);
  stroke.impact = (Impact){ vec2 (vec2_dot (towards, landing.v_mps), vec2_cross (towards, landing.v_mps)), landing.vz_mps,
                            landing.spin_radps };
  return stroke;
}

void
response_of_shot (Response *response, const ShotResult *shot)
{
  Vec2 along = vec2_unit (vec2_sub (shot->aim, shot->ball));
  *response = (Response){ .club = shot->club,
                          .middle_rad = atan2 (along.y, along.x),
                          .full = stroke_of_shot (shot),
                          .long_sd_m = shot->pattern.long_sd_m,
                          .side_sd_m = shot->pattern.side_sd_m,
                          .correlation = shot->pattern.correlation };
  response->part = response->full;
}

static bool
is_same_everywhere (const Place *place)
{
  Vec2 wind = place->conditions.wind.to_mps, slope;
  return wind.x == 0 && wind.y == 0 && hole_terrain (place->input.hole) == NULL
         && !odds_stance_arrow (place->input.hole, place->input.ball, &slope);
}

/* Slope and bend of the parabola through a value at -turn, 0 and +turn. */
static void
fit_parabola (double turn, double before, double middle, double after, double *slope, double *bend)
{
  *slope = (after - before) / (2 * turn);
  *bend = (after + before - 2 * middle) / (2 * turn * turn);
}

static bool
land_beside (const Place *place, const Club *club, double direction_rad, double *carry_m, double *side_m)
{
  ClubToday today;
  Vec2 aim = vec2_add (place->input.ball, vec2_scale (unit_of (direction_rad), AIM_M));
  if (!odds_club_today (place->input.hole, place->input.ball, aim, club, place->input.lies, &place->conditions, &today))
    return false;
  /* `carry_m` is from ball to landing; what is wanted is along the aim. */
  *side_m = today.side_m;
  *carry_m = sqrt (fmax (0, today.carry_m * today.carry_m - today.side_m * today.side_m));
  return true;
}

static void
find_turns (Response *response, const Place *place)
{
  double turn = 0.5 * (place->last_rad - place->first_rad), carries_m[2], sides_m[2];
  const Stroke *full = &response->full;
  if (is_same_everywhere (place)
      || !land_beside (place, response->club, response->middle_rad - turn, &carries_m[0], &sides_m[0])
      || !land_beside (place, response->club, response->middle_rad + turn, &carries_m[1], &sides_m[1]))
    return;
  fit_parabola (turn, carries_m[0], full->carry_m, carries_m[1], &response->carry_slope_m, &response->carry_bend_m);
  fit_parabola (turn, sides_m[0], full->side_m, sides_m[1], &response->side_slope_m, &response->side_bend_m);
}

bool
response_init (Response *response, const Place *place, const Club *club, double least_swing, GError **error)
{
  double middle_rad = 0.5 * (place->first_rad + place->last_rad);
  ShotInput input = { .ball = place->input.ball,
                      .aim = vec2_add (place->input.ball, vec2_scale (unit_of (middle_rad), AIM_M)),
                      .club = club,
                      .swing = 1,
                      .curve_m = NAN,
                      .conditions = &place->conditions,
                      .lies = place->input.lies };
  ShotResult shot;
  if (!odds_shot (place->input.hole, place->input.hole_name, &input, &shot, error))
    return false;
  response_of_shot (response, &shot);
  if (!(response->full.carry_m > 0))
    {
      g_set_error (error, PLAN_ERROR, PLAN_ERROR_CLUB, "%s: the wind blows the ball back; choose another club", club->name);
      return false;
    }
  find_turns (response, place);
  input.swing = least_swing;
  if (least_swing < 1 && odds_shot (place->input.hole, place->input.hole_name, &input, &shot, NULL))
    response->part = stroke_of_shot (&shot);
  return true;
}

Pattern
response_pattern (const Response *response, Vec2 ball, double direction_rad, double swing)
{
  const Stroke *full = &response->full, *part = &response->part;
  double turn = remainder (direction_rad - response->middle_rad, 2 * PI);
  double carry_m = full->carry_m + turn * (response->carry_slope_m + turn * response->carry_bend_m);
  double side_m = full->side_m + turn * (response->side_slope_m + turn * response->side_bend_m);
  double share = swing;
  if (part->swing < full->swing)
    share = mix (part->carry_m / full->carry_m, 1, (swing - part->swing) / (full->swing - part->swing));
  Vec2 along = unit_of (direction_rad), right = vec2_scale (vec2_left (along), -1);
  double scale = share * fmax (0, carry_m / full->carry_m);
  return (Pattern){ .mean = vec2_add (ball, vec2_add (vec2_scale (along, share * carry_m), vec2_scale (right, share * side_m))),
                    .along = along,
                    .long_sd_m = scale * response->long_sd_m,
                    .side_sd_m = scale * response->side_sd_m,
                    .correlation = response->correlation };
}

/* Edges that balls run over are met so much farther out; where a ball stays as it lands, nothing is. Half of it is best for the example's shots. */
#define SPREADING 0.5

Pattern
response_narrowed (const Response *response, Vec2 ball, const Pattern *pattern)
{
  Pattern narrowed = *pattern;
  double landing_m = length_of (vec2_sub (pattern->mean, ball));
  double run_m = mix (response->part.run_m, response->full.run_m, fullness (response, landing_m));
  if (landing_m > 0 && run_m > 0)
    narrowed.side_sd_m *= landing_m / (landing_m + SPREADING * run_m);
  return narrowed;
}

bool
poor_pattern (const Club *club, const Pattern *good, Vec2 ball, Pattern *poor)
{
  if (!(club->mishit_chance > 0))
    return false;
  double share = isfinite (club->mishit_carry_share) ? club->mishit_carry_share : MISHIT_CARRY_SHARE;
  *poor = *good;
  poor->mean = vec2_lerp (ball, good->mean, share);
  poor->long_sd_m *= MISHIT_SPREAD;
  poor->side_sd_m *= MISHIT_SPREAD;
  poor->correlation = 0;
  return true;
}

/* ---- through the trees ---- */

static double
track_height (const Stroke *stroke, double place)
{
  int i = (int)fmin (N_HEIGHTS - 2, place);
  return mix (stroke->heights_m[i], stroke->heights_m[i + 1], place - i);
}

/* Height of the ball that lands `landing_m` away when it is `at_m` away: the mean ball's track, stretched. */
static double
height_at (const Response *response, double landing_m, double at_m)
{
  double place = fmin (1, at_m / landing_m) * (N_HEIGHTS - 1), t = fullness (response, landing_m);
  double full_m = track_height (&response->full, place);
  return t < 1 ? mix (track_height (&response->part, place), full_m, t) : full_m;
}

bool
response_is_stopped (const Response *response, double landing_m, const Canopy *canopy)
{
  /* Where it comes down among them the lie there says the rest. */
  if (canopy->near_m >= landing_m)
    return false;
  double lowest_m = height_at (response, landing_m, canopy->near_m);
  if (canopy->far_m < landing_m)
    lowest_m = fmin (lowest_m, height_at (response, landing_m, canopy->far_m));
  return lowest_m < canopy->top_m;
}

double
pass_trees (const Place *place, const Response *response, Vec2 landing, Value *stopped)
{
  *stopped = (Value){ 0, 0 };
  if (place->ray_starts == NULL)
    return 1;
  Vec2 way = vec2_sub (landing, place->input.ball);
  double landing_m = length_of (way), passed = 1;
  const Canopy *canopies;
  size_t n = place_canopies (place, way, &canopies);
  for (size_t i = 0; i < n && canopies[i].near_m < landing_m; i++)
    {
      const Canopy *canopy = &canopies[i];
      if (!response_is_stopped (response, landing_m, canopy))
        continue;
      Vec2 at = vec2_add (place->input.ball, vec2_scale (way, canopy->near_m / landing_m));
      double share = passed * canopy->density;
      *stopped = value_add (*stopped, share, value_at_rest (place, at, LIE_TREES));
      passed -= share;
    }
  return passed;
}
