// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One step of the integrator: Dormand and Prince 1980, J. Comput. Appl. Math. 6:19, RK5(4)7M, with the continuous extension of order four of Hairer,
 * Norsett and Wanner, Solving Ordinary Differential Equations I, II.6. Compiled once for any machine and once for those that multiply and add in one;
 * STEP_TAKE is the function's name.
 */
#include "forces-private.h"
#include "step-private.h"

#include <math.h>

/* A ball's way through one step: velocity and spin at each stage, which are the rates of its place, and their own rates. */
typedef struct
{
  Four motions[7], rates[7];
} Stages;

/* The sum of weights * slopes; the number of slopes is known where this is compiled into. */
static inline __attribute__ ((always_inline)) Four
weighted (const double *weights, const Four *slopes, int n_slopes)
{
  Four sum = weights[0] * slopes[0];
#pragma GCC unroll 8
  for (int k = 1; k < n_slopes; k++)
    if (weights[k] != 0)
      sum += weights[k] * slopes[k];
  return sum;
}

/* Moved on from the base: the newest slope comes last, with the least left to do. */
static inline __attribute__ ((always_inline)) Four
advanced (Four base, double length, const double *weights, const Four *slopes, int n_slopes)
{
  if (n_slopes > 1)
    base += length * weighted (weights, slopes, n_slopes - 1);
  return base + length * weights[n_slopes - 1] * slopes[n_slopes - 1];
}

static inline __attribute__ ((always_inline)) Four
half_of (const State *state, StateItem first)
{
  Four half;
  memcpy (&half, &state->item[first], sizeof half);
  return half;
}

static inline __attribute__ ((always_inline)) State
state_of (Four at, Four motion)
{
  State state;
  memcpy (&state.item[AT_X], &at, sizeof at);
  memcpy (&state.item[V_X], &motion, sizeof motion);
  return state;
}

/* By how much the ball's spin ratio is beyond a corner of the coefficients, times the air speed: that is taken from the spin's loss. */
static inline __attribute__ ((always_inline)) double
past_corner (Four motion, Four rates, double spin_ratio)
{
  double spin = motion[3];
  return SPIN_LOSS_PER_M * BALL_RADIUS_M * spin * spin + spin_ratio * rates[3];
}

/*
 * Where in a step that was tried a corner of the coefficients is crossed first, as a share of it: on the parabola through its begin, its third stage and its
 * end. 1 when it crosses none.
 */
static inline __attribute__ ((always_inline)) double
corner_at (const Stages *stages, double spin_ratio)
{
  double begin = past_corner (stages->motions[0], stages->rates[0], spin_ratio);
  double middle = past_corner (stages->motions[2], stages->rates[2], spin_ratio);
  double end = past_corner (stages->motions[6], stages->rates[6], spin_ratio);
  /* begin + share * (slope + share * bend) */
  double to_middle = (middle - begin) * (1 / DP_THIRD_STAGE), bend = (end - begin - to_middle) * (1 / (1 - DP_THIRD_STAGE));
  double slope = end - begin - bend, squared = slope * slope - 4 * bend * begin;
  bool is_there_and_back = slope * bend < 0 && fabs (slope) < 2 * fabs (bend) && squared > 0;
  if ((begin < 0) == (end < 0) && !is_there_and_back)
    return 1;
  double sign = begin < 0 ? -1 : 1, share = 2 * sign * begin / (sqrt (squared) - sign * slope);
  return share > 0 && share < 1 ? share : 1;
}

/* How long the ball would stay up without air, and a little more: as long as a shift of its speed lasts. */
static inline __attribute__ ((always_inline)) double
left_s (Four at, Four motion)
{
  double z = larger (at[AT_Z], 0), vz = motion[2];
  return (vz + sqrt (vz * vz + 2 * GRAVITY_MPS2 * z)) * (1 / GRAVITY_MPS2) + LEAST_LEFT_S;
}

/* Estimated error of the step over what is allowed: of the place, and of the speed for as long as it lasts. Not a number when anything is none. */
static inline __attribute__ ((always_inline)) double
error_of (const Stages *stages, double length, double lasts_s)
{
  Four off_at = weighted (dp_error, stages->motions, 7), off_motion = weighted (dp_error, stages->rates, 7);
  double sum = 0;
#pragma GCC unroll 8
  for (int i = 0; i < 3; i++)
    sum += fabs (off_at[i]) + lasts_s * fabs (off_motion[i]);
  return length * sum * (1 / LONE_STEP_TOLERANCE_M);
}

/* One over the fifth root, to a hundredth, for lengths of steps only: a fifth of the bits, and one Newton step. */
static inline __attribute__ ((always_inline)) double
rough_fifth_root_under_one (double a)
{
  uint64_t bits;
  memcpy (&bits, &a, sizeof bits);
  bits = ONE_BITS / 5 * 6 - bits / 5;
  double guess, square;
  memcpy (&guess, &bits, sizeof guess);
  square = guess * guess;
  return guess * (1.2 - 0.2 * a * (square * square * guess));
}

/* How the length should change after a step with this error; not a number shrinks it. */
static inline __attribute__ ((always_inline)) double
length_factor (double error, bool was_refused)
{
  if (!(error < HUGE_VAL))
    return LEAST_FACTOR;
  double factor = SAFETY * rough_fifth_root_under_one (larger (error, LEAST_ERROR));
  return larger (LEAST_FACTOR, smaller (factor, was_refused ? 1 : MOST_FACTOR));
}

/* Half of the step's continuous extension. */
static inline __attribute__ ((always_inline)) void
extend (Step *step, StateItem first, const Four slopes[7])
{
  double h = step->length_s;
  Four change = half_of (&step->to, first) - half_of (&step->from, first), start = h * slopes[0] - change;
  Four dense[4] = { change, start, change - h * slopes[6] - start, h * weighted (dp_dense, slopes, 7) };
#pragma GCC unroll 8
  for (int i = 0; i < 4; i++)
    memcpy (&step->dense[i].item[first], &dense[i], sizeof dense[i]);
}

/* The stages of a step and where it ends. A stage's place follows from the motions before it, so that its wind is found while the forces of the stage
   before wait for their root. */
static inline __attribute__ ((always_inline)) void
try_step (const Medium *medium, Four at, double length, Stages *stages, Four *next_at)
{
  *next_at = advanced (at, length, dp_stage[0], stages->motions, 1);
  double share = wind_share (medium, *next_at);
#pragma GCC unroll 8
  for (int k = 1; k < 7; k++)
    {
      double share_here = share;
      stages->motions[k] = advanced (stages->motions[0], length, dp_stage[k - 1], stages->rates, k);
      if (k < 6)
        {
          *next_at = advanced (at, length, dp_stage[k], stages->motions, k + 1);
          share = wind_share (medium, *next_at);
        }
      stages->rates[k] = motion_rates (medium, share_here, stages->motions[k]);
    }
}

static inline __attribute__ ((always_inline)) bool
take (const Medium *medium, Step *step, double *next_length_s)
{
  double length = *next_length_s, t_s = step->t_s + step->length_s;
  State from = step->to;
  Four at = half_of (&from, AT_X), motion = half_of (&from, V_X), next_at;
  Stages stages;
  stages.motions[0] = motion;
  stages.rates[0] = half_of (&step->to_rates, V_X);
  double lasts_s = left_s (at, motion), past_corner_s = 0; /* the step to go on with beyond a corner */
  bool was_refused = false;
  while (length > SHORTEST_STEP_S)
    {
      try_step (medium, at, length, &stages, &next_at);
      double error = error_of (&stages, length, lasts_s), factor = length_factor (error, was_refused);
      double corner = smaller (corner_at (&stages, OUTDOOR_LEAST_SPIN_RATIO), corner_at (&stages, OUTDOOR_MOST_SPIN_RATIO));
      bool is_beyond = (1 - corner) * length > BEYOND_CORNER_S && error > CORNER_ERROR;
      if (error <= 1 && !is_beyond)
        {
          step->t_s = t_s;
          step->length_s = length;
          step->from = from;
          step->to = state_of (next_at, stages.motions[6]);
          step->to_rates = state_of (stages.motions[6], stages.rates[6]);
          extend (step, AT_X, stages.motions);
          extend (step, V_X, stages.rates);
          *next_length_s = smaller (larger (length * factor, past_corner_s), LONGEST_STEP_S);
          return true;
        }
      if (is_beyond)
        {
          past_corner_s = larger (past_corner_s, length * smaller (factor, 1));
          factor = smaller (factor, corner + 0.5 * BEYOND_CORNER_S / length);
        }
      was_refused = true;
      length *= factor;
    }
  return false;
}

/* Over level ground in the usual model nothing is called on the way, and everything stays where it is needed. */
bool
STEP_TAKE (const Medium *medium, Step *step, double *next_length_s)
{
  if (medium->model != FLIGHT_OUTDOOR || medium->ground != NULL)
    return take (medium, step, next_length_s);
  Medium level = *medium;
  level.model = FLIGHT_OUTDOOR;
  level.ground = NULL;
  return take (&level, step, next_length_s);
}
