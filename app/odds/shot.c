// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One shot in still air on level ground, a plan's shots one after the other, and the line a shot flies along.
 */
#include "odds-private.h"

#include <math.h>

G_DEFINE_QUARK (holewright - odds - error, odds_error)

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
  if (wrong != NULL)
    g_set_error_literal (error, ODDS_ERROR, code, wrong);
  return wrong == NULL;
}

bool
odds_shot (const Hole *hole, const char *hole_name, const ShotInput *input, ShotResult *result, GError **error)
{
  if (!check_input (input, error))
    return false;
  const Club *club = input->club;
  double swing = input->swing;
  Vec2 along = vec2_unit (vec2_sub (input->aim, input->ball));
  Vec2 right = vec2_scale (vec2_left (along), -1);
  Vec2 flown = vec2_add (vec2_scale (along, swing * club->carry_m), vec2_scale (right, swing * club->side_bias_m));

  ShotResult shot = { .ball = input->ball, .aim = input->aim, .club = club, .swing = swing };
  shot.landing = vec2_add (input->ball, flown);
  shot.aim_m = vec2_distance (input->ball, input->aim);
  shot.carry_m = vec2_length (flown);
  shot.beyond_aim_m = shot.carry_m - shot.aim_m;
  shot.plays_m = shot.aim_m;
  shot.pattern = (Pattern){ .mean = shot.landing,
                            .along = along,
                            .long_sd_m = swing * club->carry_sd_m,
                            .side_sd_m = swing * club->side_sd_m,
                            .correlation = club->correlation };
  Vec2 target;
  shot.left_m = hole_target (hole, hole_name, &target) ? vec2_distance (shot.landing, target) : NAN;
  shot.has_green = odds_green_numbers (hole, hole_name, shot.landing, &shot.left);
  *result = shot;
  return true;
}

double
odds_fit_swing (const Club *club, double distance_m)
{
  return fmin (1, fmax (0, distance_m / club->carry_m));
}

/* ---- a plan ---- */

/* The club that a plan's shot is played with, and the swing. NULL with `error` set when the bag has none. */
static const Club *
plan_club (const Hole *hole, const Shot *shot, bool is_first, const Bag *bag, double *swing, GError **error)
{
  *swing = shot->swing;
  if (shot->club != NULL)
    {
      const Club *club = bag_find (bag, shot->club);
      if (club == NULL)
        g_set_error (error, ODDS_ERROR, ODDS_ERROR_CLUB, "the bag has no club called %s; choose one of its clubs", shot->club);
      return club;
    }
  double fitted;
  bool from_tee = is_first || hole_lie_at (hole, shot->from) == LIE_TEE;
  const Club *club = bag_choose (bag, vec2_distance (shot->from, shot->aim), from_tee, &fitted);
  if (club == NULL)
    g_set_error_literal (error, ODDS_ERROR, ODDS_ERROR_CLUB,
                         "the bag has no club for this lie; add one that is not for the tee only");
  else if (shot->swing >= 1 && fitted > 0)
    *swing = fitted;
  return club;
}

bool
odds_plan_shot (const Hole *hole, const Part *plan, size_t i, const Bag *bag, ShotResult *result, GError **error)
{
  const Shot *shot = &plan->shots[i];
  ShotInput input = { .ball = shot->from, .aim = shot->aim };
  input.club = plan_club (hole, shot, i == 0, bag, &input.swing, error);
  return input.club != NULL && odds_shot (hole, plan->hole_name, &input, result, error);
}

ShotResult *
odds_plan (const Hole *hole, size_t plan, const Bag *bag, GError **error)
{
  const Part *part = hole_part (hole, plan);
  g_assert (part->kind == KIND_PLAN);
  g_autofree ShotResult *results = g_new0 (ShotResult, MAX (part->n_shots, 1));
  for (size_t i = 0; i < part->n_shots; i++)
    if (!odds_plan_shot (hole, part, i, bag, &results[i], error))
      {
        g_prefix_error (error, "shot %zu: ", i + 1);
        return NULL;
      }
  return g_steal_pointer (&results);
}

/* ---- the shot line ---- */

double
normal_below (double z)
{
  return 0.5 * erfc (-z * sqrt (0.5));
}

ShotLine
shot_line (const ShotResult *shot)
{
  const Pattern *pattern = &shot->pattern;
  Vec2 flown = vec2_sub (shot->landing, shot->ball);
  ShotLine line = { .ball = shot->ball, .along = vec2_unit (flown), .landing_m = vec2_length (flown) };

  /* The pattern's long and side axes, scaled by their deviations, in the frame of the line. */
  Vec2 left = vec2_left (line.along), side = vec2_scale (vec2_left (pattern->along), -1);
  Vec2 l = vec2_scale (vec2 (vec2_dot (pattern->along, line.along), vec2_dot (pattern->along, left)), pattern->long_sd_m);
  Vec2 s = vec2_scale (vec2 (vec2_dot (side, line.along), vec2_dot (side, left)), pattern->side_sd_m);
  line.xx = l.x * l.x + s.x * s.x + 2 * pattern->correlation * l.x * s.x;
  line.yy = l.y * l.y + s.y * s.y + 2 * pattern->correlation * l.y * s.y;
  line.xy = l.x * l.y + s.x * s.y + pattern->correlation * (l.x * s.y + l.y * s.x);
  return line;
}

double
shot_line_beyond (const ShotLine *line, double distance_m)
{
  double short_m = distance_m - line->landing_m;
  if (!(line->xx > 0))
    return short_m < 0 ? 1 : 0;
  return normal_below (-short_m / sqrt (line->xx));
}
