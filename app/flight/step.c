// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The steps of a flight on any machine: the first, the next, and what lies within one.
 */
#define STEP_TAKE step_take_anywhere
#include "step-kernel-private.h"

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
  return medium->take (medium, step, next_length_s);
}

StepTake
step_taker (void)
{
#if defined __x86_64__
  if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    return step_take_fma;
#endif
  return step_take_anywhere;
}

State
step_at (const Step *step, double share)
{
  State state;
  for (int i = 0; i < N_STATES; i++)
    state.item[i] = step_item_at (step, (StateItem)i, share);
  return state;
}
