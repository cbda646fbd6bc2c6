// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A place to play from, and what there is to aim at.
 */
#include "plan-private.h"

#include <math.h>

G_DEFINE_QUARK (holewright - plan - error, plan_error)

/* Nearer to the hole than this there is nothing to aim; a ball's width. */
#define LEAST_DISTANCE_M 0.05

bool
place_is_cancelled (const Place *place, GError **error)
{
  if (place->input.cancelled == NULL || !g_atomic_int_get (place->input.cancelled))
    return false;
  g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_CANCELLED, "stopped before it was done");
  return true;
}

/* ---- what there is to aim at ---- */

static double
direction_of (Vec2 from, Vec2 to)
{
  return atan2 (to.y - from.y, to.x - from.x);
}

/* Directions to the hole and, where the line of play bends ahead of the ball, to the bend. */
static void
find_directions (Place *place)
{
  Vec2 ball = place->input.ball;
  double hole_rad = direction_of (ball, place->target), bend_rad = hole_rad;
  g_autofree Vec2 *line = NULL;
  size_t n = hole_measured_line (place->input.hole, NULL, &line);
  double hole_m = vec2_distance (ball, place->target);
  for (size_t i = 1; i + 1 < n; i++)
    if (vec2_distance (line[i], place->target) < hole_m && vec2_distance (ball, line[i]) > LEAST_DISTANCE_M)
      {
        bend_rad = direction_of (ball, line[i]);
        break;
      }
  double turn = remainder (bend_rad - hole_rad, 2 * PI);
  place->first_rad = hole_rad + fmin (0, turn) - AIM_MOST_TURN_RAD;
  place->last_rad = hole_rad + fmax (0, turn) + AIM_MOST_TURN_RAD;
}

/* ---- all of it ---- */

bool
place_init (Place *place, const PlanInput *input, GError **error)
{
  *place = (Place){ .input = *input };
  if (!isfinite (input->ball.x) || !isfinite (input->ball.y))
    {
      g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_BALL, "the ball is not at a place on the hole; put it on the drawing");
      return false;
    }
  if (!hole_target (input->hole, input->hole_name, &place->target))
    {
      g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_TARGET,
                           "there is nothing to play to; draw a green or put a hole location on the hole");
      return false;
    }
  if (!(vec2_distance (input->ball, place->target) > LEAST_DISTANCE_M))
    {
      g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_TARGET, "the ball lies in the hole; put it where it is played from");
      return false;
    }
  place->conditions = input->conditions != NULL ? *input->conditions : conditions_standard ();
  for (int lie = 0; lie < N_LIES; lie++)
    place->stops[lie] = odds_surface ((Lie)lie, &place->conditions).stops;
  place->lie = odds_lie (input->hole, input->ball);
  place->again_strokes = strokes_to_hole (input->table, place->lie, vec2_distance (input->ball, place->target));
  find_directions (place);
  place_find_trees (place);
  place->kept = kept_new ();
  return true;
}

void
place_clear (Place *place)
{
  g_clear_pointer (&place->ray_starts, g_free);
  g_clear_pointer (&place->canopies, g_free);
  g_clear_pointer (&place->kept, kept_free);
}
