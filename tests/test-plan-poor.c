// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Tests of plan: bags with poor strikes. What the solver makes of them beside what the odds do, and beside the same bag without them.
 */
#include "plan-holes.h"
#include "solved.h"
#include "strewn.h"

#include <math.h>
#include <stdio.h>

/* A club with its share of poor strikes, in hundredths, and their carry. */
static Bag *
bag_with_poor (const char *clubs, double poor_pct, double carry_pct)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (GStrv) rows = g_strsplit (clubs, "\n", -1);
  for (int i = 0; rows[i] != NULL; i++)
    if (rows[i][0] != '\0')
      g_string_append_printf (text, "%s,%g,%g\n", rows[i], poor_pct, carry_pct);
  return bag_read (FIGURES ",mishit_pct,mishit_carry_pct", text->str);
}

static PlanSolution *
solved_from (const Hole *hole, const Bag *bag, double cell_m, const PlanSolution *near)
{
  GError *error = NULL;
  PlanSolution *solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = cell_m, .near = near }, &error);
  ck_assert_msg (solution != NULL, "%s", error != NULL ? error->message : "");
  return solution;
}

static Hole *
hole_with_trouble (double length_m, double sand_from_m)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -16, 20, 16, length_m - 25 }),
                          rectangle (KIND_PENALTY_AREA, (Box){ 10, 90, 32, 150 }),
                          rectangle (KIND_BUNKER, (Box){ -26, sand_from_m, -8, sand_from_m + 18 }) };
  return hole_with (KIND_ROUGH, length_m, parts, G_N_ELEMENTS (parts));
}

/* ---- known answers ---- */

#define N_BALLS 4096

static double
table_cost (const void *data, Vec2 rest)
{
  const PlanSolution *solution = data;
  return strokes_to_hole (solution->table, solve_lie (hole_lie_at (solution->hole, rest)),
                          vec2_distance (rest, solution->grid->target));
}

/* Strokes of a shot whose every ball ends where the table tells what is left: the odds' own strikes, each ball run over the hole. */
static double
strokes_by_the_odds (const PlanSolution *solution, const ShotResult *shot)
{
  return 1 + strewn_mean (solution->hole, shot, N_BALLS, table_cost, solution);
}

/* A poor 8 iron carries 100 m of 125: all end within PLAN_TABLE_M of the hole, but one in a thousand. Cells run balls on as a usual bag's do that run so far, this club's balls run a
   little otherwise: both are off by that alike, and what the poor strikes add is not. */
START_TEST (a_hole_of_one_shot_costs_what_the_odds_say_of_good_and_poor_strikes)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -10, 20, 10, 120 }), rectangle (KIND_BUNKER, (Box){ -14, 84, 2, 100 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 130, parts, G_N_ELEMENTS (parts));
  double good = NAN, good_odds = NAN;
  for (double poor_pct = 0; poor_pct <= 40; poor_pct += 20)
    {
      g_autoptr (Bag) bag = bag_with_poor ("8 iron,125,7,7,37", poor_pct, 80);
      g_autoptr (PlanSolution) solution = solved_from (hole, bag, 2, NULL);
      Plan plan;
      ck_assert (plan_make (solution, PLAN_SUGGESTED, &plan, NULL));
      double odds = strokes_by_the_odds (solution, &plan.shots[0].shot);
      g_autoptr (OddsTable) table = odds_table_new (hole, &plan.shots[0].shot, NULL);
      if (poor_pct == 0)
        {
          good = plan.strokes;
          good_odds = odds;
        }
      printf ("# %g %% poor: plan %.4f, odds %.4f; on the green %.3f, odds %.3f\n", poor_pct, plan.strokes, odds,
              plan.shots[0].green, table->rest[KIND_GREEN]);
      fflush (stdout);
      ck_assert_double_eq_tol (plan.strokes, odds, 0.02);
      ck_assert_double_eq_tol (plan.strokes - good, odds - good_odds, 0.002);
      ck_assert_double_eq_tol (plan.shots[0].green, table->rest[KIND_GREEN], 0.035);
    }
}
END_TEST

/* The value of what the sweeps look at and the exact sum over cells are of the same balls. */
START_TEST (fields_and_cells_one_by_one_say_the_same_of_poor_strikes)
{
  g_autoptr (Hole) hole = hole_with_trouble (300, 110);
  g_autoptr (Bag) bag = bag_with_poor (FEW_CLUBS, 20, 60);
  g_autoptr (PlanSolution) solution = solved_from (hole, bag, 4, NULL);
  SolveShot shot = { .ball = solution->tee, .lie = LIE_TEE };
  for (shot.swing = 0; shot.swing < solution->fleet->n_swings; shot.swing++)
    {
      const SwingAims *aims = solution->aims[shot.swing * N_LIES + LIE_TEE];
      int aim = solve_aim (vec2 (0, 1));
      shot.way = solve_aim_unit (aim);
      ck_assert_ptr_nonnull (aims->poor);
      ck_assert_double_eq_tol (solve_aim_cost (solution, aims, aim, shot.ball, 0),
                               solve_shot_exactly (solution, &shot, NULL, NULL), 0.01);
    }
}
END_TEST

/* ---- invariants ---- */

/* Far from the hole: a ball that is topped from just beyond where the table begins may lie better than the shortest swing that the bag has leaves it. */
#define FAR_M 110.0

START_TEST (more_poor_strikes_never_save_strokes)
{
  g_autoptr (Hole) hole = hole_with_trouble (300, 110);
  double before = 0;
  static const double poor_pct[] = { 0, 5, 15, 30, 60 };
  PlanSolution *last = NULL;
  for (size_t i = 0; i < G_N_ELEMENTS (poor_pct); i++)
    {
      g_autoptr (Bag) bag = bag_with_poor (FEW_CLUBS, poor_pct[i], 70);
      PlanSolution *solution = solved_from (hole, bag, 4, NULL);
      double strokes = from_tee (solution);
      printf ("# %g %% poor: %.3f from the tee\n", poor_pct[i], strokes);
      fflush (stdout);
      ck_assert_double_gt (strokes, before + 0.02);
      for (size_t state = 0; last != NULL && state < solution->grid->n_states; state++)
        if (vec2_distance (solve_grid_centre (solution->grid, solution->grid->state_cell[state]), solution->grid->target)
            > FAR_M)
          ck_assert_double_ge (solution->value[state], last->value[state] - 2e-3);
      before = strokes;
      plan_solution_unref (last);
      last = solution;
    }
  plan_solution_unref (last);
}
END_TEST

START_TEST (a_bag_without_poor_strikes_is_solved_as_one_that_does_not_tell_of_them)
{
  g_autoptr (Hole) hole = hole_with_trouble (250, 110);
  g_autoptr (Bag) none = bag_with_poor (FEW_CLUBS, 0, 70);
  g_autoptr (Bag) silent = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) one = solved_from (hole, none, 4, NULL), other = solved_from (hole, silent, 4, NULL);
  ck_assert (memcmp (one->value, other->value, one->grid->n_states * sizeof *one->value) == 0);
}
END_TEST

/* Sand where only the poor strikes come down: sweeps that look only at what has changed must not miss it. */
START_TEST (what_changes_under_poor_strikes_is_told_as_by_solving_afresh)
{
  g_autoptr (Hole) hole = hole_with_trouble (225, 95);
  g_autoptr (Hole) other = hole_with_trouble (225, 75);
  g_autoptr (Bag) bag = bag_with_poor (FEW_CLUBS, 20, 45);
  g_autoptr (PlanSolution) near = solved_from (hole, bag, 2.1, NULL), again = solved_from (other, bag, 2.1, near),
                           afresh = solved_from (other, bag, 2.1, NULL);
  ck_assert_ptr_eq (again->flights, near->flights);
  ck_assert_double_gt (fabs (from_tee (afresh) - from_tee (near)), 1e-3);
  ck_assert_double_eq_tol (from_tee (again), from_tee (afresh), 1e-4);
  for (size_t i = 0; i < afresh->n_active; i++)
    if (afresh->weight[i] >= 1)
      ck_assert_double_eq_tol (again->value[afresh->active[i]], afresh->value[afresh->active[i]], 5e-3);
}
END_TEST

/* ---- edges ---- */

START_TEST (balls_that_are_always_topped_are_planned_too)
{
  g_autoptr (Hole) hole = hole_with_trouble (200, 110);
  static const double carry_pct[] = { 0, 1, 100 };
  for (size_t i = 0; i < G_N_ELEMENTS (carry_pct); i++)
    {
      g_autoptr (Bag) bag = bag_with_poor (FEW_CLUBS, 100, carry_pct[i]);
      g_autoptr (PlanSolution) solution = solved_from (hole, bag, 5, NULL);
      for (size_t state = 0; state < solution->grid->n_states; state++)
        ck_assert (isfinite (solution->value[state]) && solution->value[state] <= MOST_STROKES + 1e-4);
      ck_assert_int_le (solution->n_sweeps, PLAN_MOST_SWEEPS);
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-poor");
  TCase *known = tcase_create ("known answers");
  tcase_set_timeout (known, 0);
  tcase_add_test (known, a_hole_of_one_shot_costs_what_the_odds_say_of_good_and_poor_strikes);
  tcase_add_test (known, fields_and_cells_one_by_one_say_the_same_of_poor_strikes);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_set_timeout (invariants, 0);
  tcase_add_test (invariants, more_poor_strikes_never_save_strokes);
  tcase_add_test (invariants, a_bag_without_poor_strikes_is_solved_as_one_that_does_not_tell_of_them);
  tcase_add_test (invariants, what_changes_under_poor_strikes_is_told_as_by_solving_afresh);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_set_timeout (edges, 0);
  tcase_add_test (edges, balls_that_are_always_topped_are_planned_too);
  suite_add_tcase (suite, edges);
  return suite;
}
