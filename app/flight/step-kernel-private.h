// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One step of the integrator: Dormand and Prince 1980, J. Comput. Appl. Math. 6:19, RK5(4)7M, with the continuous extension of order four of Hairer,
 * Norsett and Wanner, Solving Ordinary Differential Equations I, II.6. Compiled once for any machine and once for those that multiply and add in one;
 * STEP_TAKE is the function's name.
 */
#include "forces-private.h"
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
        if (weights[k] != 0)
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
  double z = larger (from->item[AT_Z], 0), vz = from->item[V_Z];
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

/* To a hundredth, for lengths of steps only: a fifth of the bits, and one Newton step. */
static double
rough_fifth_root (double a)
{
  uint64_t bits;
  memcpy (&bits, &a, sizeof bits);
  bits = bits / 5 + (ONE_BITS - ONE_BITS / 5);
  double guess, square;
  memcpy (&guess, &bits, sizeof guess);
  square = guess * guess;
  return guess - (guess - a / (square * square)) * 0.2;
}

/* How the length should change after a step with this error; not a number shrinks it. */
static double
length_factor (double error, bool was_refused)
{
  double most = was_refused ? 1 : MOST_FACTOR;
  if (!(error < HUGE_VAL))
    return LEAST_FACTOR;
  double factor = error > 0 ? SAFETY / rough_fifth_root (error) : most;
  return larger (LEAST_FACTOR, smaller (factor, most));
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

bool
STEP_TAKE (const Medium *medium, Step *step, double *next_length_s)
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
          rates_of (medium, &next, &slopes[k]);
        }
      double error = error_of (&from, slopes, length);
      if (piece_of (&from, &slopes[0]) != piece_of (&next, &slopes[6]))
        error *= CORNER_FACTOR;
      double factor = length_factor (error, was_refused);
      if (error <= 1)
        {
          step->t_s = t_s;
          step->length_s = length;
          step->from = from;
          step->to = next;
          step->from_rates = slopes[0];
          step->to_rates = slopes[6];
          extend (step, slopes);
          *next_length_s = smaller (length * factor, LONGEST_STEP_S);
          return true;
        }
      was_refused = true;
      length *= factor;
    }
  return false;
}
