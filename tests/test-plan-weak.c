// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: bags that need many shots, and what a ball costs among trees, from which no shot is worked out. */
#include "plan-holes.h"
#include "solved.h"

#include <math.h>
#include <stdlib.h>

#define ONE_WEDGE "wedge,36,3,3,56\n"
#define LENGTH_M 360.0

/* A fairway between two woods as deep as the sheet. */
static Hole *
wooded_hole (void)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -14, -10, 14, 345 }), rectangle (KIND_TREES, (Box){ -60, -10, -20, 330 }),
          rectangle (KIND_TREES, (Box){ 20, -10, 60, 330 }) };
  return hole_with (KIND_ROUGH, LENGTH_M, parts, G_N_ELEMENTS (parts));
}

static double
state_m (const PlanSolution *solution, size_t state)
{
  return vec2_distance (solve_grid_centre (solution->grid, solution->grid->state_cell[state]), solution->grid->target);
}

/* Strokes that a lie costs more than a fairway as far from the hole. */
static double
lie_adds (const PlanSolution *solution, Lie lie, double hole_m)
{
  return strokes_to_hole (solution->table, lie, hole_m) - strokes_to_hole (solution->table, LIE_FAIRWAY, hole_m);
}

static double
longest_from_trees_m (const PlanSolution *solution)
{
  double most_m = 0;
  for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
    {
      const SwingAims *aims = solution->aims[swing * N_LIES + LIE_TREES];
      if (aims != NULL)
        most_m = fmax (most_m, aims->far_m + aims->run_m);
    }
  return most_m;
}

/* ---- among trees ---- */

/* Way between the middles of two cells, straight and at half right angles only. */
static double
king_m (Vec2 a, Vec2 b)
{
  double x = fabs (a.x - b.x), y = fabs (a.y - b.y);
  return fmax (x, y) + (sqrt (2) - 1) * fmin (x, y);
}

static bool
is_by_trees (const SolveGrid *grid, int cell)
{
  for (size_t state = grid->lie_begins[LIE_TREES]; state < grid->lie_begins[LIE_TREES + 1]; state++)
    if (abs (grid->state_cell[state] % grid->nx - cell % grid->nx) <= 1
        && abs (grid->state_cell[state] / grid->nx - cell / grid->nx) <= 1)
      return true;
  return false;
}

/* The cheapest way out to open ground beside the trees, of all that there are. */
static double
way_out (const PlanSolution *solution, size_t state)
{
  const SolveGrid *grid = solution->grid;
  Vec2 at = solve_grid_centre (grid, grid->state_cell[state]);
  double best = INFINITY, reach_m = longest_from_trees_m (solution), hole_m = state_m (solution, state);
  for (size_t other = 0; other < grid->n_states; other++)
    {
      Vec2 to = solve_grid_centre (grid, grid->state_cell[other]);
      if (grid->state_lie[other] == LIE_TREES || (to.x > 0) != (at.x > 0) || !is_by_trees (grid, grid->state_cell[other]))
        continue;
      double fairway = solution->value[other] - lie_adds (solution, grid->state_lie[other], state_m (solution, other));
      best = fmin (best, fairway + king_m (at, to) / reach_m);
    }
  return best + lie_adds (solution, LIE_TREES, hole_m);
}

/* What is cheaper by less is not told anew. */
#define TREES_AGREE 2e-3
/* One of so many states is looked at. */
#define SOME 97

START_TEST (a_ball_among_trees_costs_the_way_out_of_them_and_what_trees_add)
{
  const char *bags[] = { ONE_WEDGE, FEW_CLUBS };
  g_autoptr (Hole) hole = wooded_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, bags[_i]);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  const SolveGrid *grid = solution->grid;
  size_t n = 0;
  for (size_t state = grid->lie_begins[LIE_TREES]; state < grid->lie_begins[LIE_TREES + 1]; state += SOME)
    if (state_m (solution, state) > PLAN_TABLE_M)
      {
        ck_assert_double_eq_tol (solution->value[state], way_out (solution, state), TREES_AGREE);
        n++;
      }
  ck_assert_uint_gt (n, 15);
}
END_TEST

/* As far as there is open ground on both sides of one, nearer the hole the table stands as it is. */
START_TEST (near_the_hole_trees_cost_what_the_table_says)
{
  const Part *parts[] = { rectangle (KIND_TREES, (Box){ -40, 300, -20, 380 }) };
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, LENGTH_M, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_read (FIGURES, ONE_WEDGE);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  const SolveGrid *grid = solution->grid;
  size_t n = 0;
  for (size_t state = grid->lie_begins[LIE_TREES]; state < grid->lie_begins[LIE_TREES + 1]; state++)
    if (state_m (solution, state) <= PLAN_TABLE_M)
      {
        ck_assert_double_eq (solution->value[state], strokes_to_hole (solution->table, LIE_TREES, state_m (solution, state)));
        n++;
      }
  ck_assert_uint_gt (n, 5);
}
END_TEST

/* Trees round which there is nothing but water: the table is all that is known, but for how far the clubs go. */
START_TEST (trees_without_open_ground_beside_them_cost_what_the_table_says_or_what_the_way_takes)
{
  const char *bags[] = { ONE_WEDGE, FEW_CLUBS };
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -14, -10, 14, 345 }), named (KIND_PENALTY_AREA, "mere", (Box){ 20, 100, 60, 200 }),
          rectangle (KIND_TREES, (Box){ 32, 124, 48, 176 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, LENGTH_M, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_read (FIGURES, bags[_i]);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  const SolveGrid *grid = solution->grid;
  ck_assert_uint_gt (grid->lie_begins[LIE_TREES + 1], grid->lie_begins[LIE_TREES]);
  for (size_t state = grid->lie_begins[LIE_TREES]; state < grid->lie_begins[LIE_TREES + 1]; state++)
    {
      double far_m = state_m (solution, state), usual = strokes_to_hole (solution->table, LIE_TREES, far_m);
      double swings = (far_m - PLAN_TABLE_M) / solution->flights->most_reach_m;
      double weak
          = strokes_to_hole (solution->table, LIE_FAIRWAY, PLAN_TABLE_M) + swings + lie_adds (solution, LIE_TREES, far_m);
      ck_assert_double_eq_tol (solution->value[state], fmax (usual, weak), TREES_AGREE);
      ck_assert (_i == 1 || weak > usual + 2);
    }
}
END_TEST

/* A field that is kept has what coming down is worth to this. */
#define FIELDS_AGREE 1e-4

static size_t
expect_tile_as_made_anew (const Worth *worth, int run, int sector, int tile)
{
  const float *field = worth_blocks (worth, 0, run, sector, false);
  CellBox box = cell_box_of_tile (worth->grid, tile);
  size_t n = 0;
  for (int y = box.y0; y <= box.y1; y++)
    for (int x = box.x0; x <= box.x1; x++, n++)
      {
        size_t cell = (size_t)y * (size_t)worth->grid->nx + (size_t)x;
        Ending ending = { .worth = worth, .sector = sector, .way = solve_sector_unit (sector), .run = run };
        worth_end_ball (&ending, cell, 1);
        ck_assert_double_eq_tol ((double)field[cell], ending.value, FIELDS_AGREE);
      }
  return n;
}

static void
expect_fields_as_made_anew (const PlanSolution *solution)
{
  const Worth *worth = solution->worth;
  size_t n = 0;
  for (int run = 0; run < N_RUNS; run++)
    for (int sector = 0; sector < N_SECTORS; sector++)
      for (size_t tile = 0; tile < worth->n_tiles; tile++)
        if (worth->ready[(size_t)(run * N_SECTORS + sector) * worth->n_tiles + tile] != 0)
          n += expect_tile_as_made_anew (worth, run, sector, (int)tile);
  ck_assert_uint_gt (n, 1000);
}

/* Two woods, and a row of trees on the fairway: what their canopies catch comes down behind them. */
static Hole *
hole_with_a_row_of_trees (double bunker_x)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -20, -10, 20, 345 }),
                          rectangle (KIND_TREES, (Box){ -60, 40, -24, 300 }),
                          rectangle (KIND_BUNKER, (Box){ bunker_x, 210, bunker_x + 14, 250 }),
                          tree (-12, 200, 5, 16),
                          tree (0, 202, 5, 16),
                          tree (11, 199, 5, 16) };
  return hole_with (KIND_ROUGH, LENGTH_M, parts, G_N_ELEMENTS (parts));
}

START_TEST (what_canopies_catch_is_worth_what_the_trees_under_them_are_now)
{
  const char *bags[] = { ONE_WEDGE, FEW_CLUBS };
  g_autoptr (Hole) hole = hole_with_a_row_of_trees (0), other = hole_with_a_row_of_trees (-10);
  g_autoptr (Bag) bag = bag_read (FIGURES, bags[_i]);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 2);
  expect_fields_as_made_anew (solution);
  g_autoptr (PlanSolution) again = plan_solve (other, bag, &(PlanQuestion){ .cell_m = 2, .near = solution }, NULL);
  ck_assert_ptr_nonnull (again);
  ck_assert_ptr_eq (again->flights, solution->flights);
  expect_fields_as_made_anew (again);
}
END_TEST

/* ---- weak bags ---- */

/* Near the hole the table is a golfer's of the level, who needs no more than this from PLAN_TABLE_M, and no less from a place that a full swing reaches from there. */
#define LEAST_STROKES 1.9
#define ROUNDED 0.1

/* A stroke for each full swing's length on the way, from everywhere. */
static void
expect_strokes_for_the_way (const PlanSolution *solution)
{
  double reach_m = solution->flights->most_reach_m;
  for (size_t state = 0; state < solution->grid->n_states; state++)
    {
      double swings = (state_m (solution, state) - PLAN_TABLE_M) / reach_m;
      if (swings > 0)
        ck_assert_double_ge (solution->value[state], swings + LEAST_STROKES - ROUNDED);
    }
}

/* The tee shot, full swings straight on, and the table: what the way from the tee takes at most when nothing is in it. */
static double
strokes_straight_on (const PlanSolution *solution)
{
  double left_m = LENGTH_M, reach_m = solution->flights->most_reach_m;
  int shots = 0;
  for (; left_m > PLAN_TABLE_M; left_m -= reach_m)
    shots++;
  return shots + strokes_to_hole (solution->table, LIE_FAIRWAY, fmax (0, left_m));
}

START_TEST (a_weak_bag_expects_a_stroke_for_each_full_swing_s_length)
{
  g_autoptr (Hole) hole = _i % 2 == 0 ? wooded_hole () : hole_with (KIND_ROUGH, LENGTH_M, NULL, 0);
  g_autoptr (Bag) bag = bag_read (FIGURES, ONE_WEDGE);
  g_autoptr (PlanSolution) solution = solved (hole, bag, _i < 2 ? 2 : 4);
  expect_strokes_for_the_way (solution);
  double swings = (LENGTH_M - PLAN_TABLE_M) / solution->flights->most_reach_m;
  ck_assert_double_ge (from_tee (solution), swings + LEAST_STROKES);
  ck_assert_double_le (from_tee (solution), strokes_straight_on (solution) + (_i % 2 == 0 ? 0.5 : 1.5));
}
END_TEST

START_TEST (a_weak_bag_plays_up_the_fairway_all_the_way)
{
  g_autoptr (Hole) hole = wooded_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, ONE_WEDGE);
  g_autoptr (PlanSolution) solution = solved (hole, bag, PLAN_CELL_M);
  Plan plan;
  GError *error = NULL;
  ck_assert_msg (plan_make (solution, PLAN_SUGGESTED, &plan, &error), "%s", error != NULL ? error->message : "");
  ck_assert_uint_gt (plan.n_shots, 6);
  for (size_t i = 0; i < plan.n_shots; i++)
    {
      Vec2 from = plan.shots[i].shot.ball, to = plan.shots[i].shot.rest;
      ck_assert_double_gt (to.y - from.y, 30);
      ck_assert_double_lt (fabs (to.x), 16);
      if (i > 0)
        ck_assert_double_eq_tol (plan.shots[i - 1].strokes, 1 + plan.shots[i].strokes, 0.2);
    }
}
END_TEST

/* A moat that the longest club hardly ever carries: rounds would be played to and fro before it. */
START_TEST (a_plan_that_gets_nowhere_is_refused_in_a_sentence)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -14, -10, 14, 345 }), named (KIND_PENALTY_AREA, "moat", (Box){ -60, 80, 60, 300 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, LENGTH_M, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, PLAN_CELL_M);
  g_autoptr (GError) error = NULL;
  Plan plan;
  ck_assert (!plan_make (solution, PLAN_SUGGESTED, &plan, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_REACH));
}
END_TEST

/* Thirty shots from the tee: more than the sweeps over larger cells that a usual bag needs. */
START_TEST (a_hole_of_thirty_shots_is_planned_as_well)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -14, -10, 14, 1345 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 1360, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_read (FIGURES, ONE_WEDGE);
  g_autoptr (PlanSolution) solution = solved (hole, bag, PLAN_CELL_M);
  double swings = (1360 - PLAN_TABLE_M) / solution->flights->most_reach_m;
  expect_strokes_for_the_way (solution);
  ck_assert_double_ge (from_tee (solution), swings + LEAST_STROKES);
  ck_assert_double_le (from_tee (solution), swings * 1.1 + 4);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-weak");
  TCase *trees = tcase_create ("trees");
  tcase_set_timeout (trees, 0);
  tcase_add_loop_test (trees, a_ball_among_trees_costs_the_way_out_of_them_and_what_trees_add, 0, 2);
  tcase_add_test (trees, near_the_hole_trees_cost_what_the_table_says);
  tcase_add_loop_test (trees, trees_without_open_ground_beside_them_cost_what_the_table_says_or_what_the_way_takes, 0, 2);
  tcase_add_loop_test (trees, what_canopies_catch_is_worth_what_the_trees_under_them_are_now, 0, 2);
  suite_add_tcase (suite, trees);
  TCase *weak = tcase_create ("weak bags");
  tcase_set_timeout (weak, 0);
  tcase_add_loop_test (weak, a_weak_bag_expects_a_stroke_for_each_full_swing_s_length, 0, 4);
  tcase_add_test (weak, a_weak_bag_plays_up_the_fairway_all_the_way);
  tcase_add_test (weak, a_plan_that_gets_nowhere_is_refused_in_a_sentence);
  tcase_add_test (weak, a_hole_of_thirty_shots_is_planned_as_well);
  suite_add_tcase (suite, weak);
  return suite;
}
