// SPDX-License-Identifier: GPL-3.0-or-later
/* What the solver's own tests ask of a solution. */
#ifndef HOLEWRIGHT_TESTS_SOLVED_H
#define HOLEWRIGHT_TESTS_SOLVED_H

#include "../app/plan/solve-private.h"
#include "suite.h"

#include <math.h>

/* Strokes to hole out from the tee with the best shots. */
static inline double
from_tee (const PlanSolution *solution)
{
  g_autofree SolveChoice *choices = g_new (SolveChoice, solution->fleet->n_swings);
  solve_choices (solution, solution->tee, LIE_TEE, 0, choices);
  return choices[0].strokes;
}

/* A shot of the solution as the odds fly it: whatever lies in the middle of the cell, the ball lies on what the state says. */
static inline ShotResult
shot_by_odds (const PlanSolution *solution, const SolveShot *played)
{
  const Swing *swing = &solution->fleet->swings[played->swing];
  LieTable lies;
  for (int lie = 0; lie < N_LIES; lie++)
    lies.effects[lie] = solution->lies.effects[played->lie];
  ShotInput input = { .ball = played->ball,
                      .aim = vec2_add (played->ball, vec2_scale (played->way, swing->swing * swing->club->carry_m)),
                      .club = swing->club,
                      .swing = swing->swing,
                      .curve_m = NAN,
                      .conditions = &solution->conditions,
                      .lies = &lies };
  ShotResult shot;
  GError *error = NULL;
  ck_assert_msg (odds_shot (solution->hole, solution->hole_name, &input, &shot, &error), "%s",
                 error != NULL ? error->message : "");
  return shot;
}

#endif
