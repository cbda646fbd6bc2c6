// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One step of the integrator: Dormand and Prince 1980, J. Comput. Appl. Math. 6:19, RK5(4)7M, with the continuous extension of order four of Hairer,
 * Norsett and Wanner, Solving Ordinary Differential Equations I, II.6.
 */
#include "step-private.h"

#include <math.h>

/* What a step may be off by, before its length is chosen anew; together they land within a millimetre (tests/reference/test-flight-gsl.c). */
#define PLACE_TOLERANCE_M 4e-6
#define SPEED_TOLERANCE_MPS 1.5e-6

/* The usual controls of the length: aim below the tolerance, never grow or shrink too fast. */
#define SAFETY 0.9
#define LEAST_FACTOR 0.2
#define MOST_FACTOR 5.0
#define SHORTEST_STEP_S 1e-9
#define LONGEST_STEP_S 2.0
/* The first try; a ball chipped at low speed is still rising after half the time to its top. */
#define FIRST_STEP_S 0.2

/* base + length * sum of weights * slopes. */
static State
advanced (const State *base, double length, const double *weights, const State *slopes, int n_slopes)
{
  State result;
  for (int i = 0; i < N_STATES; i++)
    {
      double sum = 0;
      for (int k = 0; k < n_slopes; k++)
        sum += weights[k] * slopes[k].item[i];
      result.item[i] = base->item[i] + length * sum;
    }
  return result;
}

/* Largest estimated error over what is allowed. */
static double
error_of (const State slopes[7], double length)
{
  double worst = 0;
  for (int i = AT_X; i <= V_Z; i++)
    {
      double sum = 0;
      for (int k = 0; k < 7; k++)
        sum += dp_error[k] * slopes[k].item[i];
      double off = fabs (length * sum) / (i <= AT_Z ? PLACE_TOLERANCE_M : SPEED_TOLERANCE_MPS);
      if (!(off <= worst))
        worst = off;
    }
  return worst;
}

/* How the length should change after a step with this error; not a number shrinks it. */
static double
length_factor (double error, bool was_refused)
{
  double most = was_refused ? 1 : MOST_FACTOR;
  if (!(error < HUGE_VAL))
    return LEAST_FACTOR;
  double factor = error > 0 ? SAFETY * pow (error, -0.2) : most;
  return fmax (LEAST_FACTOR, fmin (factor, most));
}

static void
extend (Step *step, const State slopes[7])
{
  for (int i = 0; i < N_STATES; i++)
    {
      double h = step->length_s, from = step->from.item[i], change = step->to.item[i] - from;
      double first = h * slopes[0].item[i] - change;
      double bend = 0;
      for (int k = 0; k < 7; k++)
        bend += dp_dense[k] * slopes[k].item[i];
      step->dense[0].item[i] = change;
      step->dense[1].item[i] = first;
      step->dense[2].item[i] = change - h * slopes[6].item[i] - first;
      step->dense[3].item[i] = h * bend;
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
      for (int k = 1; k < 7; k++)
        {
          next = advanced (&from, length, dp_stage[k - 1], slopes, k);
          flight_rates (medium, &next, &slopes[k]);
        }
      double error = error_of (slopes, length);
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
