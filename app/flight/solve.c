// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One ball from the club to the ground, and what it passes on its way.
 */
#include "flight-private.h"

#include <math.h>
#include <string.h>

/* A cubic through two kept places may be off the true track by this much in each direction where it is worst; what is left of the centimetre promised is for
   the step. */
#define TRACK_TOLERANCE_M 0.004
/* No step is kept in more pieces. */
#define MOST_PIECES 16

FlightPoint
flight_point (const State *state, double t_s)
{
  const double *item = state->item;
  return (FlightPoint){ .t_s = t_s,
                        .at = vec2 (item[AT_X], item[AT_Y]),
                        .z_m = item[AT_Z],
                        .v_mps = vec2 (item[V_X], item[V_Y]),
                        .vz_mps = item[V_Z],
                        .spin_radps = item[SPIN] };
}

/* Every other point goes when there is no room left, but the first. */
static void
keep_point (Flight *flight, const State *state, double t_s)
{
  if (flight->n_points == FLIGHT_MOST_POINTS)
    {
      flight->n_points = FLIGHT_MOST_POINTS / 2;
      for (size_t i = 1; i < flight->n_points; i++)
        flight->points[i] = flight->points[2 * i];
    }
  flight->points[flight->n_points++] = flight_point (state, t_s);
}

/* How far a cubic by place and velocity at both ends is off half way through the step, at most in one direction. */
static double
bulge (const Step *step)
{
  double worst = 0;
  for (int i = AT_X; i <= AT_Z; i++)
    {
      int v = i + (V_X - AT_X);
      double cubic
          = 0.5 * (step->from.item[i] + step->to.item[i]) + 0.125 * step->length_s * (step->from.item[v] - step->to.item[v]);
      worst = larger (worst, fabs (cubic - step_item_at (step, (StateItem)i, 0.5)));
    }
  return worst;
}

/* Keeps the step up to a share of it, in so many pieces that cubics between them are true: their error falls with the fourth power. */
static void
keep_step (Flight *flight, const Step *step, double share)
{
  int n_pieces = 1 + (int)(share * sqrt (sqrt (bulge (step) * (1 / TRACK_TOLERANCE_M))));
  n_pieces = n_pieces < MOST_PIECES ? n_pieces : MOST_PIECES;
  for (int i = 1; i <= n_pieces; i++)
    {
      double at = share * i / n_pieces;
      State state = at == 1 ? step->to : step_at (step, at);
      keep_point (flight, &state, step->t_s + at * step->length_s);
    }
}

/* The highest place of a step up to a share of it: where the climb ends, found by halving. */
static double
highest (const Step *step, double share)
{
  double end_m = share < 1 ? step_item_at (step, AT_Z, share) : step->to.item[AT_Z];
  double top_m = larger (step->from.item[AT_Z], end_m);
  if (!(step->from.item[V_Z] > 0 && step->to.item[V_Z] < 0))
    return top_m;
  double low = 0, high = share;
  for (int i = 0; i < 20; i++)
    {
      double middle = 0.5 * (low + high);
      if (step_item_at (step, V_Z, middle) > 0)
        low = middle;
      else
        high = middle;
    }
  return fmax (top_m, step_item_at (step, AT_Z, low));
}

bool
flight_not_down (GError **error)
{
  g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE,
                       "the ball does not come down; check its speed, its spin, the wind and the spot heights");
  return false;
}

/* The landing must be at a place with ground. */
static bool
has_ground (const Medium *medium, const State *landing, GError **error)
{
  double clear = ground_clearance (medium, landing);
  if (isfinite (clear) && isfinite (landing->item[AT_Z]))
    return true;
  g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE, "the ground has no height where the ball comes down");
  return false;
}

bool
flight_fly (const FlightInput *input, Flight *flight, FlightPoint *landing, double *apex_m, GError **error)
{
  Medium medium;
  State state;
  if (!flight_prepare (input, &medium, &state, error))
    return false;
  double from_z_m = state.item[AT_Z], top_m = from_z_m, share = 0;
  double clear_above_m = input->ground == NULL ? 0 : input->ground_rise_m > 0 ? from_z_m + input->ground_rise_m : INFINITY;
  if (flight != NULL)
    keep_point (flight, &state, 0);
  Step step;
  double next_s = step_begin (&medium, &state, &step);
  for (bool is_down = false; !is_down;)
    {
      if (step.t_s + step.length_s > FLIGHT_LONGEST_S || !step_take (&medium, &step, &next_s))
        return flight_not_down (error);
      is_down = ground_meets (&medium, &step, clear_above_m, &share);
      top_m = larger (top_m, highest (&step, is_down ? share : 1));
      if (flight != NULL)
        keep_step (flight, &step, is_down ? share : 1);
    }
  state = step_at (&step, share);
  if (!has_ground (&medium, &state, error))
    return false;
  *landing = flight_point (&state, step.t_s + share * step.length_s);
  if (apex_m != NULL)
    *apex_m = top_m - from_z_m;
  return true;
}

bool
flight_solve (const FlightInput *input, Flight *flight, GError **error)
{
  Flight found;
  FlightPoint landing;
  found.n_points = 0;
  if (!flight_fly (input, &found, &landing, &found.apex_m, error))
    return false;
  memcpy (flight->points, found.points, found.n_points * sizeof found.points[0]);
  flight->n_points = found.n_points;
  flight->apex_m = found.apex_m;
  return true;
}
