// SPDX-License-Identifier: GPL-3.0-or-later
/* What the solver's own tests ask of a solution. */
#ifndef HOLEWRIGHT_TESTS_SOLVED_H
#define HOLEWRIGHT_TESTS_SOLVED_H

#include "../app/plan/solve-private.h"

/* Strokes to hole out from the tee with the best shots. */
static inline double
from_tee (const PlanSolution *solution)
{
  g_autofree SolveChoice *choices = g_new (SolveChoice, solution->fleet->n_swings);
  solve_choices (solution, solution->tee, LIE_TEE, choices);
  return choices[0].strokes;
}

#endif
