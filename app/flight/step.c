// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One step of the integrator: Dormand and Prince 1980, J. Comput. Appl. Math. 6:19, RK5(4)7M, with the continuous extension of order four of Hairer,
 * Norsett and Wanner, Solving Ordinary Differential Equations I, II.6.
 */
#include "step-private.h"

#include <math.h>

/* The sum of weights * slopes; the number of slopes is known where this is compiled into. */
static inline __attribute__ ((always_inline)) State
weighted (const double *weights, const State *slopes, int n_slopes)
{
  State sum;
#pragma GCC unroll 8
  for (int i = 0; i < N_STATES; i++)
    {
      sum.item[i] = weights[0] * slopes[0].item[i];
#pragma GCC unroll 8
      for (int k = 1; k < n_slopes; k++)
        sum.item[i] += weights[k] * slopes[k].item[i];
    }
  return sum;
}

static inline __attribute__ ((always_inline)) State
advanced (const State *base, double length, const double *weights, const State *slopes, int n_slopes)
{
  State sum = weighted (weights, slopes, n_slopes);
#pragma GCC unroll 8
  for (int i = 0; i < N_STATES; i++)
    sum.item[i] = base->item[i] + length * sum.item[i];
  return sum;
}

/* Which piece of the coefficients a state is on: they have corners at both ends of the fitted spin ratios. Air speed is taken from the spin's loss. */
static int
piece_of (const State *state, const State *rates)
{
  double lost = -rates->item[SPIN], spin = state->item[SPIN];
  double at_one = SPIN_LOSS_PER_M * BALL_RADIUS_M * spin * spin; /* the loss at a spin ratio of one */
  return (at_one > OUTDOOR_LEAST_SPIN_RATIO * lost) + (at_one > OUTDOOR_MOST_SPIN_RATIO * lost);
}

/* Estimated error of the step over what is allowed: of the place, and of the speed for as long as the ball would stay up without air. */
static double
error_of (const State *from, const State slopes[7], double length)
{
  double z = fmax (from->item[AT_Z], 0), vz = from->item[V_Z];
  double left_s = (vz + sqrt (vz * vz + 2 * GRAVITY_MPS2 * z)) / GRAVITY_MPS2 + LEAST_LEFT_S, worst = 0;
  State off = weighted (dp_error, slopes, 7);
  for (int i = AT_X; i <= AT_Z; i++)
    {
      double landed = fabs (off.item[i]) + left_s * fabs (off.item[i + V_X - AT_X]);
      if (!(landed <= worst))
        worst = landed;
    }
  return fabs (length) * worst / STEP_TOLERANCE_M;
}

/* To a hundredth, for lengths of steps only: a straight line through the exponent and one Newton step. */
static double
rough_fifth_root (double a)
{
  int exponent;
  double mantissa = frexp (a, &exponent);
  /* a = mantissa * 2^(5 q + r) */
  static const double of_two[5] = { 1, 1.148698354997035, 1.3195079107728942, 1.515716566510398, 1.7411011265922482 };
  int q = (exponent + 5000) / 5 - 1000, r = exponent - 5 * q;
  double guess = 0.7486 + 0.2559 * mantissa, square = guess * guess;
  return ldexp ((guess - (guess - mantissa / (square * square)) / 5) * of_two[r], q);
}

/* How the length should change after a step with this error; not a number shrinks it. */
static double
length_factor (double error, bool was_refused)
{
  double most = was_refused ? 1 : MOST_FACTOR;
  if (!(error < HUGE_VAL))
    return LEAST_FACTOR;
  double factor = error > 0 ? SAFETY / rough_fifth_root (error) : most;
  return fmax (LEAST_FACTOR, fmin (factor, most));
}

static void
extend (Step *step, const State slopes[7])
{
  State bend = weighted (dp_dense, slopes, 7);
  double h = step->length_s;
  for (int i = 0; i < N_STATES; i++)
    {
      double change = step->to.item[i] - step->from.item[i], first = h * slopes[0].item[i] - change;
      step->dense[0].item[i] = change;
      step->dense[1].item[i] = first;
      step->dense[2].item[i] = change - h * slopes[6].item[i] - first;
      step->dense[3].item[i] = h * bend.item[i];
    }
}

double
step_begin (const Medium *medium, const State *state, Step *step)
{
  *step = (Step){ .from = *state, .to = *state };
  flight_rates (medium, state, &step->to_rates);
  return fmin (FIRST_STEP_S, 0.5 * state->item[V_Z] / GRAVITY_MPS2);
}

bool
step_take (const Medium *medium, Step *step, double *next_length_s)
{
  State slopes[7];
  double length = *next_length_s, t_s = step->t_s + step->length_s;
  State from = step->to;
  slopes[0] = step->to_rates;
  bool was_refused = false;
  while (length > SHORTEST_STEP_S)
    {
      State next = from;
#pragma GCC unroll 8
      for (int k = 1; k < 7; k++)
        {
          next = advanced (&from, length, dp_stage[k - 1], slopes, k);
          flight_rates (medium, &next, &slopes[k]);
        }
      double error = error_of (&from, slopes, length);
      if (piece_of (&from, &slopes[0]) != piece_of (&next, &slopes[6]))
        error *= CORNER_FACTOR;
      double factor = length_factor (error, was_refused);
      if (error <= 1)
        {
          *step = (Step){
            .t_s = t_s, .length_s = length, .from = from, .to = next, .from_rates = slopes[0], .to_rates = slopes[6]
          };
          extend (step, slopes);
          *next_length_s = fmin (length * factor, LONGEST_STEP_S);
          return true;
        }
      was_refused = true;
      length *= factor;
    }
  return false;
}

double
step_item_at (const Step *step, StateItem item, double share)
{
  double rest = 1 - share;
  double inner = step->dense[2].item[item] + rest * step->dense[3].item[item];
  return step->from.item[item] + share * (step->dense[0].item[item] + rest * (step->dense[1].item[item] + share * inner));
}

State
step_at (const Step *step, double share)
{
  State state;
  for (int i = 0; i < N_STATES; i++)
    state.item[i] = step_item_at (step, (StateItem)i, share);
  return state;
}
