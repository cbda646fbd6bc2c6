// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One ball from the club to the ground, and what it passes on its way.
 */
#include "step-private.h"

#include <math.h>
#include <string.h>

/* A cubic through two kept places may be off the true track by this much in each direction where it is worst; what is left of the centimetre promised is for
   the step. */
#define TRACK_TOLERANCE_M 0.004
/* Secants towards the moment at which the climb ends: the climb is nearly a line in time. */
#define TOP_SECANTS 3
/* A falling ball's step goes so much further than to where it should come down: a parabola is off by less. */
#define BEYOND_GROUND 1.03
#define BEYOND_GROUND_S 0.01
/* A step's heights over ground, with that below which the wind no longer changes, are to each other as this at most. */
#define MOST_HEIGHTS 2.5
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

/* In how many pieces a step is kept so that cubics between them are true: their error falls with the fourth power. Mostly one or two, and then known
   without a root to wait for. */
static int
pieces_of (const Step *step, double share)
{
  double off = share * share * share * share * bulge (step) * (1 / TRACK_TOLERANCE_M);
  if (off < 1)
    return 1;
  if (off < 2 * 2 * 2 * 2)
    return 2;
  int n_pieces = 1 + (int)sqrt (sqrt (off));
  return n_pieces < MOST_PIECES ? n_pieces : MOST_PIECES;
}

/* Keeps the step up to a share of it. */
static void
keep_step (Flight *flight, const Step *step, double share)
{
  int n_pieces = pieces_of (step, share);
  for (int i = 1; i <= n_pieces; i++)
    {
      double at = share * i / n_pieces;
      State state = at == 1 ? step->to : step_at (step, at);
      keep_point (flight, &state, step->t_s + at * step->length_s);
    }
}

/* The highest place of a step up to a share of it: where the climb ends, found on the line between a share of climb and one of fall. Its height is hardly
   touched by what is left of the search. */
static double
highest (const Step *step, double share)
{
  double end_m = share < 1 ? step_item_at (step, AT_Z, share) : step->to.item[AT_Z];
  double top_m = larger (step->from.item[AT_Z], end_m);
  double low = 0, high = 1, climb = step->from.item[V_Z], fall = step->to.item[V_Z];
  if (!(climb > 0 && fall < 0))
    return top_m;
  for (int i = 0; i < TOP_SECANTS; i++)
    {
      double at = low + (high - low) * climb / (climb - fall), vz = step_item_at (step, V_Z, at);
      if (vz > 0)
        low = at, climb = vz;
      else
        high = at, fall = vz;
    }
  double top = low + (high - low) * climb / (climb - fall);
  return top < share ? larger (top_m, step_item_at (step, AT_Z, top)) : top_m;
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

/*
 * The longest step to try next. A falling ball's ends at the ground that lies under it: below it a step finds only what no ball meets. And where the wind
 * changes with the logarithm of the height, near the ground, a step passes few heights: its own estimate of its error sees little of that.
 */
static double
longest_step (const Medium *medium, const Step *step)
{
  double vz = step->to.item[V_Z], az = step->to_rates.item[V_Z], longest_s = LONGEST_STEP_S;
  bool is_windy = medium->wind_log > 0;
  if (!(vz < 0) && !is_windy)
    return longest_s;
  double height_m = larger (ground_clearance (medium, &step->to), 0), felt_m = height_m + WIND_LEAST_HEIGHT_M;
  if (vz < 0)
    longest_s = BEYOND_GROUND * 2 * height_m / (sqrt (larger (vz * vz - 2 * az * height_m, 0)) - vz) + BEYOND_GROUND_S;
  if (vz < 0 && felt_m > MOST_HEIGHTS * WIND_LEAST_HEIGHT_M && is_windy)
    longest_s = smaller (longest_s, (felt_m - felt_m / MOST_HEIGHTS) / -vz);
  else if (vz > 0)
    longest_s = smaller (longest_s, felt_m * (MOST_HEIGHTS - 1) / vz);
  return longest_s;
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
      next_s = smaller (next_s, longest_step (&medium, &step));
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
