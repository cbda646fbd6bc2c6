// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The whole hole solved: value iteration over its cells, coarse first, then only what may still be best, then a look at everything.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* A swing that comes within this of the best is kept in the first sweeps, and in the later ones. */
#define FIRST_MARGIN 0.25
#define LATER_MARGIN 0.06
/* Sweeps that follow the first at the wide margin. */
#define N_FIRST_SWEEPS 2
/* Looks at everything; what is found after the second changes nothing that can be told. */
#define MOST_CERTIFICATES 3
/* What a look at everything finds is passed on to other states; where that changes them by less than this, none of them chooses anew. */
#define CERTAIN 1e-2
/* A sweep is never trusted to change less than this share of what the one before it did, where nothing is known of it. */
#define MOST_SHARE 0.9
/* Aims next to the best that a sweep looks at: 4 is 1.4 degrees. */
#define WIDE_STEP 4
#define FINE_STEP 1
#define LONGEST_PUTT_M 60.0 /* a green further off than this is not the one in play */

static bool
fail (GError **error, PlanError code, const char *sentence)
{
  g_set_error_literal (error, PLAN_ERROR, code, sentence);
  return false;
}

/* ---- making ready ---- */

static bool
find_places (PlanSolution *solution, Vec2 *target, GError **error)
{
  int tee = hole_tee (solution->hole, solution->tee_name);
  if (tee < 0)
    return fail (error, PLAN_ERROR_TARGET,
                 "the hole has no such tee marker to play from; draw a circle with hw:kind=\"tee-marker\"");
  solution->tee = hole_part (solution->hole, (size_t)tee)->at;
  if (hole_green (solution->hole, solution->hole_name) < 0 || !hole_target (solution->hole, solution->hole_name, target))
    return fail (error, PLAN_ERROR_TARGET, "the hole has no green to play to; draw an area with hw:kind=\"green\"");
  if (vec2_distance (solution->tee, *target) < 1)
    return fail (error, PLAN_ERROR_TARGET, "the tee marker stands at the hole; move one of them");
  return true;
}

/* Lies whose strokes come from the table: near the hole all, and everywhere those of which no shot is worked out. */
static void
look_for_ends (PlanSolution *solution)
{
  SolveGrid *grid = solution->grid;
  grid->state_ends = g_new0 (bool, grid->n_states);
  for (size_t state = 0; state < grid->n_states; state++)
    {
      Lie lie = grid->state_lie[state];
      double hole_m = vec2_distance (solve_grid_centre (grid, grid->state_cell[state]), grid->target);
      bool is_green = lie == LIE_GREEN && hole_m <= LONGEST_PUTT_M;
      grid->state_ends[state] = hole_m <= PLAN_TABLE_M || is_green || lie == LIE_TREES;
      solution->value[state] = strokes_to_hole (solution->table, lie, hole_m);
    }
}

static bool
make_fleet (PlanSolution *solution, GError **error)
{
  SolveGrid *grid = solution->grid;
  bool is_needed[N_LIES];
  for (int lie = 0; lie < N_LIES; lie++)
    is_needed[lie] = grid->lie_begins[lie + 1] > grid->lie_begins[lie];
  solution->fleet = fleet_new (solution->bag, &solution->lies, &solution->conditions, is_needed, solution->n_threads);
  solution->worth = worth_new (grid, solution->fleet);
  size_t n = solution->fleet->n_swings * N_LIES, n_played = 0;
  solution->aims = g_new0 (SwingAims *, n);
  solution->least_reach_m = INFINITY;
  for (size_t i = 0; i < n; i++)
    {
      Lie lie = (Lie)(i % N_LIES);
      if (!is_needed[lie] && lie != LIE_TEE)
        continue;
      SwingAims *aims = swing_aims_new (grid, solution->fleet, i / N_LIES, lie);
      solution->aims[i] = aims;
      n_played += aims != NULL;
      if (aims != NULL && lie == LIE_FAIRWAY)
        solution->least_reach_m = fmin (solution->least_reach_m, aims->reach_m);
    }
  if (n_played == 0)
    return fail (error, PLAN_ERROR_CLUB, "the bag has no club that flies on this day; give it one with a carry");
  return true;
}

/* Starts from the values of another solution of the same hole drawn a little otherwise. */
static void
start_near (PlanSolution *solution, const PlanSolution *near)
{
  SolveGrid *grid = solution->grid;
  const SolveGrid *old = near->grid;
  bool is_same_fleet = near->fleet->n_swings == solution->fleet->n_swings;
  for (size_t state = 0; state < grid->n_states; state++)
    {
      Lie lie = grid->state_lie[state];
      int from = old->state_at[lie] != NULL
                     ? old->state_at[lie][solve_grid_cell (old, solve_grid_centre (grid, grid->state_cell[state]))]
                     : -1;
      if (from < 0 || grid->state_ends[state] || old->state_ends[from])
        continue;
      solution->value[state] = near->value[from];
      for (size_t swing = 0; is_same_fleet && swing < solution->fleet->n_swings; swing++)
        {
          solution->cost[swing * grid->n_states + state] = near->cost[swing * old->n_states + (size_t)from];
          solution->aim[swing * grid->n_states + state] = near->aim[swing * old->n_states + (size_t)from];
        }
    }
}

static bool
make_ready (PlanSolution *solution, const PlanQuestion *question, GError **error)
{
  Vec2 target;
  if (bag_n_clubs (solution->bag) == 0)
    return fail (error, PLAN_ERROR_CLUB, "the bag is empty; give it a club with its carry");
  if (!find_places (solution, &target, error))
    return false;
  solution->grid = solve_grid_new (solution->hole, target, question->cell_m > 0 ? question->cell_m : PLAN_CELL_M);
  SolveGrid *grid = solution->grid;
  solution->value = g_new (double, grid->n_states);
  look_for_ends (solution);
  if (!make_fleet (solution, error))
    return false;
  size_t n = solution->fleet->n_swings * grid->n_states;
  solution->cost = g_new (float, n);
  solution->aim = g_new (gint16, n);
  solution->best = g_new0 (guint8, grid->n_states);
  solution->n_beyond = (size_t)(grid->cell_m * hypot (grid->nx, grid->ny)) + 2;
  solution->least_beyond = g_new (float, solution->n_beyond);
  for (size_t i = 0; i < n; i++)
    {
      solution->cost[i] = INFINITY;
      solution->aim[i] = -1;
    }
  if (question->near != NULL)
    start_near (solution, question->near);
  return true;
}

/* ---- solving ---- */

static void
tell (const PlanQuestion *question, double share, const PlanSolution *solution)
{
  if (question->progress != NULL)
    question->progress (share, solution, question->data);
}

/* Sweeps over what is left until the next would change nothing: each changes the share of the one before that the two last did. */
static bool
settle (PlanSolution *solution, const PlanQuestion *question, double before, double from, double to, double *first)
{
  *first = NAN;
  for (int i = 0; solution->n_sweeps < PLAN_MOST_SWEEPS; i++)
    {
      bool is_early = i < N_FIRST_SWEEPS && isnan (before);
      double change = solve_sweep (solution, SWEEP_LEFT, is_early ? WIDE_STEP : FINE_STEP,
                                   is_early ? FIRST_MARGIN : LATER_MARGIN, question->cancel);
      if (isnan (change))
        return false;
      if (i == 0)
        *first = change;
      tell (question, from + (to - from) * (i + 1.0) / (i + 2.0), solution);
      double share = before > 0 ? fmin (MOST_SHARE, change / before) : MOST_SHARE;
      if (change * share / (1 - share) < PLAN_TOLERANCE && (i > 0 || !isnan (before)))
        return true;
      before = change;
    }
  return true;
}

static bool
solve (PlanSolution *solution, const PlanQuestion *question)
{
  if (question->near == NULL && isnan (solve_sweep (solution, SWEEP_FIRST, 0, 0, question->cancel)))
    return false;
  tell (question, 0.3, solution);
  double first;
  if (!settle (solution, question, NAN, 0.3, 0.6, &first))
    return false;
  for (int i = 0; i < MOST_CERTIFICATES && solution->n_sweeps < PLAN_MOST_SWEEPS; i++)
    {
      double change = solve_sweep (solution, SWEEP_CERTIFY, 0, 0, question->cancel);
      if (isnan (change))
        return false;
      tell (question, 0.8, solution);
      if (change < PLAN_TOLERANCE)
        break;
      if (!settle (solution, question, change, 0.8, 1, &first))
        return false;
      if (first < CERTAIN)
        break;
    }
  worth_update (solution->worth, solution->value, solution->n_threads);
  tell (question, 1, solution);
  return true;
}

PlanSolution *
plan_solve (const Hole *hole, const Bag *bag, const PlanQuestion *question, GError **error)
{
  g_autoptr (PlanSolution) solution = g_new0 (PlanSolution, 1);
  solution->ref_count = 1;
  solution->hole = hole_ref ((Hole *)hole);
  solution->bag = bag_ref ((Bag *)bag);
  solution->tee_name = g_strdup (question->tee);
  solution->hole_name = g_strdup (question->hole_name);
  solution->conditions = question->conditions != NULL ? *question->conditions : conditions_standard ();
  solution->lies = question->lies != NULL ? *question->lies : lie_table_usual ();
  solution->table = strokes_table_new (bag_level (bag));
  solution->n_threads = question->n_threads > 0 ? question->n_threads : 2;
  if (!make_ready (solution, question, error))
    return NULL;
  if (!solve (solution, question))
    {
      fail (error, PLAN_ERROR_CANCELLED, "the plan was given up");
      return NULL;
    }
  return g_steal_pointer (&solution);
}

PlanSolution *
plan_solution_ref (PlanSolution *solution)
{
  g_atomic_int_inc (&solution->ref_count);
  return solution;
}

void
plan_solution_unref (PlanSolution *solution)
{
  if (solution == NULL || !g_atomic_int_dec_and_test (&solution->ref_count))
    return;
  for (size_t i = 0; solution->aims != NULL && i < solution->fleet->n_swings * N_LIES; i++)
    g_free (solution->aims[i]);
  g_free (solution->aims);
  worth_free (solution->worth);
  fleet_free (solution->fleet);
  solve_grid_free (solution->grid);
  strokes_table_free (solution->table);
  g_free (solution->value);
  g_free (solution->cost);
  g_free (solution->aim);
  g_free (solution->best);
  g_free (solution->least_beyond);
  g_free (solution->tee_name);
  g_free (solution->hole_name);
  bag_unref (solution->bag);
  hole_unref (solution->hole);
  g_free (solution);
}

/* ---- questions ---- */

double
plan_strokes_at (const PlanSolution *solution, Vec2 at)
{
  const SolveGrid *grid = solution->grid;
  int cell = solve_grid_cell (grid, at);
  double sum = 0, share = 0;
  for (int lie = 0; lie < N_LIES; lie++)
    {
      int state = grid->state_at[lie] != NULL ? grid->state_at[lie][cell] : -1;
      if (state < 0)
        continue;
      share += grid->cover[lie][cell];
      sum += grid->cover[lie][cell] * solution->value[state];
    }
  return share > 0 ? sum / share : NAN;
}

PlanGrid
plan_grid (const PlanSolution *solution)
{
  const SolveGrid *grid = solution->grid;
  return (PlanGrid){ grid->origin, grid->cell_m, grid->nx, grid->ny };
}
