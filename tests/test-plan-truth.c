// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A plan's shots beside the same shots asked of the odds: where the balls end, and what they cost. The solver works with cells, the odds follow every ball
 * over the ground.
 */
#include "../app/plan/solve-run-private.h"
#include "example.h"
#include "strewn.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>

/* ---- the odds' own balls, and what the solution says of where they rest ---- */

#define N_BALLS 1024

typedef struct
{
  const PlanSolution *solution;
  const PlanShot *shot;
} Asked;

static double
cost_at_rest (const void *data, Vec2 rest)
{
  const Asked *asked = data;
  const PlanSolution *solution = asked->solution;
  const SolveGrid *grid = solution->grid;
  double again = asked->shot->strokes;
  Drop drops[N_DROP_RULES];
  Lie lie = solve_lie (hole_lie_at (solution->hole, rest));
  if (lie == LIE_OUT_OF_BOUNDS)
    return 1 + again;
  if (lie == LIE_PENALTY)
    {
      ck_assert_uint_gt (plan_drops (solution->hole, solution->table, grid->target, asked->shot->shot.ball, rest, again, drops),
                         0);
      return drops[0].strokes;
    }
  int state = grid->state_at[lie] != NULL ? grid->state_at[lie][solve_grid_cell (grid, rest)] : -1;
  if (state < 0 || grid->state_ends[state])
    return strokes_to_hole (solution->table, lie, vec2_distance (rest, grid->target));
  return solution->value[state];
}

/* Strokes of a shot whose balls the odds' own run follows, each over the hole itself. */
static double
strokes_of_balls (const PlanSolution *solution, const PlanShot *shot)
{
  return 1 + strewn_mean (solution->hole, &shot->shot, N_BALLS, cost_at_rest, &(Asked){ solution, shot });
}

/* A shot of a plan by both: the share that rests on the green, and strokes. */
typedef struct
{
  double plan_green, odds_green, plan_strokes, odds_strokes;
} Both;

static void
ask_both (const PlanSolution *solution, const PlanShot *shot, Both *both)
{
  GError *error = NULL;
  g_autoptr (OddsTable) odds = odds_table_new (solution->hole, &shot->shot, &error);
  ck_assert_msg (odds != NULL, "%s", error != NULL ? error->message : "");
  *both = (Both){ shot->green, odds->rest[KIND_GREEN], shot->strokes, strokes_of_balls (solution, shot) };
}

/* Every shot of the suggested plan, `most_green` and `most_strokes` apart at most. */
static void
compare_hole (size_t number, double most_green, double most_strokes)
{
  g_autoptr (Hole) hole = example_hole (number);
  g_autoptr (Bag) bag = example_bag ();
  GError *error = NULL;
  g_autoptr (PlanSolution) solution = plan_solve (hole, bag, &(PlanQuestion){ 0 }, &error);
  ck_assert_msg (solution != NULL, "%s", error != NULL ? error->message : "");
  Plan plan;
  ck_assert (plan_make (solution, PLAN_SUGGESTED, &plan, NULL));
  for (size_t i = 0; i < plan.n_shots; i++)
    {
      Both both;
      ask_both (solution, &plan.shots[i], &both);
      printf ("# %s, shot %zu, %s: green %.1f %%, odds %.1f %%; strokes %.3f, balls %.3f\n", example_names[number], i + 1,
              plan.shots[i].shot.club->name, 100 * both.plan_green, 100 * both.odds_green, both.plan_strokes,
              both.odds_strokes);
      fflush (stdout);
      ck_assert_double_eq_tol (both.plan_green, both.odds_green, most_green);
      ck_assert_double_eq_tol (both.plan_strokes, both.odds_strokes, most_strokes);
    }
}

/* ---- known answers ---- */

/* The green of Hogsback sheds half of the balls that come down on it. */
START_TEST (a_green_that_sheds_balls_keeps_as_many_in_the_plan_as_in_the_odds)
{
  compare_hole (7, 0.03, 0.02);
}
END_TEST

START_TEST (a_tee_shot_over_water_costs_what_its_balls_do)
{
  compare_hole (0, 0.05, 0.025);
}
END_TEST

/* At Rookery no heights are known, but an arrow tilts the green towards the ball. */
START_TEST (a_green_with_an_arrow_holds_as_many_in_the_plan_as_in_the_odds)
{
  compare_hole (4, 0.03, 0.02);
}
END_TEST

#define FARTHEST_CELLS 12
#define FARTHEST_RUN 6 /* 20 m: as far as a usual driver runs */

/* Balls that come down about the hole in the middle of cells, beside the run that the odds give the same ball. */
START_TEST (balls_rest_where_those_of_the_odds_do)
{
  g_autoptr (Hole) hole = example_hole (7);
  Conditions conditions = conditions_standard ();
  Vec2 target;
  ck_assert (hole_target (hole, NULL, &target));
  SolveGrid *grid = solve_grid_new (hole, target, 2, NULL, NULL, 1, NULL);
  RunSwings swings;
  run_swings_find (&conditions, &swings);
  Runs *runs = runs_new (grid, &conditions, &swings);
  for (int run = 1; run <= FARTHEST_RUN; run++)
    {
      double n = 0, apart_m = 0, same = 0;
      Impact impact = runs_impact (runs, run);
      for (int k = 0; k < (2 * FARTHEST_CELLS + 1) * (2 * FARTHEST_CELLS + 1); k++)
        {
          Vec2 off = vec2 (k % (2 * FARTHEST_CELLS + 1) - FARTHEST_CELLS, k / (2 * FARTHEST_CELLS + 1) - FARTHEST_CELLS);
          size_t cell = (size_t)solve_grid_cell (grid, vec2_add (grid->target, vec2_scale (off, grid->cell_m)));
          FlightPoint landing = { .at = solve_grid_centre (grid, (int)cell),
                                  .v_mps = vec2 (0, impact.v_mps.x),
                                  .vz_mps = impact.vz_mps,
                                  .spin_radps = impact.spin_radps };
          Vec2 rest, found;
          RunRest rests[MOST_RESTS];
          if (solve_lie_stops (hole_lie_at (hole, landing.at)) || runs_rest (runs, run, 0, cell, rests) > 1)
            continue;
          found = vec2_add (landing.at, vec2_scale (rests[0].to, grid->cell_m));
          ck_assert (odds_rest_of (hole, &conditions, &landing, &rest, NULL));
          apart_m += vec2_distance (rest, found);
          same += hole_lie_at (hole, rest) == hole_lie_at (hole, found);
          n++;
        }
      printf ("# running %.1f m on the level: %.2f m apart, %.1f %% on the same lie\n", worth_runs_m[run], apart_m / n,
              100 * same / n);
      ck_assert_double_gt (n, 400);
      ck_assert_double_lt (apart_m / n, 1.2);
      ck_assert_double_gt (same / n, 0.9);
    }
  runs_free (runs);
  solve_grid_free (grid);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-truth");
  TCase *known = tcase_create ("known answers");
  tcase_set_timeout (known, 0);
  tcase_add_test (known, a_green_that_sheds_balls_keeps_as_many_in_the_plan_as_in_the_odds);
  tcase_add_test (known, a_tee_shot_over_water_costs_what_its_balls_do);
  tcase_add_test (known, a_green_with_an_arrow_holds_as_many_in_the_plan_as_in_the_odds);
  tcase_add_test (known, balls_rest_where_those_of_the_odds_do);
  suite_add_tcase (suite, known);
  return suite;
}
