// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where a solution begins: with what larger cells say, or with what was found for nearly the same question; and which states are to be worked out.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* Places that near-best play comes to less often than this are left as the larger cells say. */
#define LEAST_REACH 5e-4
/* So often a place is come to that its value counts in full: it is a twentieth of all balls. */
#define CHANCE_WEIGHT 20

/* What larger cells say of a swing whose pattern is too narrow for them may be too much by as much as WIDENED_MOST: it is looked at as if it cost no more than WIDENED_OVER more than the best. */
#define WIDENED_MOST 1.0
#define WIDENED_OVER 0.25

double
solve_begin_strokes (const PlanSolution *solution, Lie lie, double hole_m)
{
  double strokes = strokes_to_hole (solution->table, lie, hole_m),
         swings = (hole_m - PLAN_TABLE_M) / solution->flights->most_reach_m;
  return swings > 0 ? fmax (strokes, strokes_to_hole (solution->table, LIE_FAIRWAY, PLAN_TABLE_M) + swings) : strokes;
}

/* ---- from other cells ---- */

/* Value of a lie about a place, between the four cells' middles that have it, over what is begun with there; NAN: none has it. */
static double
over_first (const PlanSolution *solution, Lie lie, Vec2 at)
{
  const SolveGrid *grid = solution->grid;
  if (grid->state_at[lie] == NULL)
    return NAN;
  double x = fmax (0, fmin (grid->nx - 1.001, (at.x - grid->origin.x) / grid->cell_m));
  double y = fmax (0, fmin (grid->ny - 1.001, (at.y - grid->origin.y) / grid->cell_m));
  int i = (int)x, j = (int)y;
  double sum = 0, weights = 0;
  for (int k = 0; k < 4; k++)
    {
      int column = MIN (i + k % 2, grid->nx - 1), row = MIN (j + k / 2, grid->ny - 1),
          state = grid->state_at[lie][row * grid->nx + column];
      double weight = (k % 2 ? x - i : 1 - x + i) * (k / 2 ? y - j : 1 - y + j) + 1e-6;
      if (state < 0 || grid->state_ends[state])
        continue;
      Vec2 middle = solve_grid_centre (grid, grid->state_cell[state]);
      sum += weight * (solution->value[state] - solve_begin_strokes (solution, lie, vec2_distance (middle, grid->target)));
      weights += weight;
    }
  return weights > 0 ? sum / weights : NAN;
}

/* Is the pattern made wider there than it is, so that it does not fall between cells? */
static bool
is_widened (const PlanSolution *solution, const SwingAims *aims)
{
  double cell_m = solution->grid->cell_m;
  return aims != NULL && (double)aims->least_variance < solution->least_var * cell_m * cell_m;
}

void
solve_start_from (PlanSolution *solution, const PlanSolution *other)
{
  const SolveGrid *grid = solution->grid, *old = other->grid;
  size_t n_swings = solution->fleet->n_swings;
  bool is_same_fleet = other->fleet->n_swings == n_swings;
  for (size_t i = 0; i < solution->n_active; i++)
    {
      size_t state = solution->active[i];
      Lie lie = grid->state_lie[state];
      Vec2 at = solve_grid_centre (grid, grid->state_cell[state]);
      double over = over_first (other, lie, at);
      if (isnan (over))
        continue;
      solution->value[state] += over;
      int from = old->state_at[lie][solve_grid_cell (old, at)];
      if (from < 0 || old->state_ends[from] || !is_same_fleet)
        continue;
      for (size_t swing = 0; swing < n_swings; swing++)
        {
          size_t to = state * n_swings + swing, of = (size_t)from * n_swings + swing;
          double dearer = (double)other->cost[of] - other->value[from];
          if (dearer < WIDENED_MOST && is_widened (other, solution->aims[swing * N_LIES + (size_t)lie]))
            dearer = fmin (dearer, WIDENED_OVER);
          solution->cost[to] = (float)(solution->value[state] + dearer);
          solution->aim[to] = other->aim[of];
        }
    }
}

/* ---- from the same cells ---- */

const PlanSolution *
solve_part_like (const PlanSolution *other, double cell_m)
{
  while (other != NULL && fabs (other->grid->cell_m - cell_m) > 1e-6 * cell_m)
    other = other->coarser;
  return other;
}

bool
solve_is_like (const PlanSolution *solution, const PlanSolution *near)
{
  return near != NULL && near->worth != NULL && near->flights == solution->flights
         && solve_grid_lies_as (solution->grid, near->grid);
}

/* What the solution `near` says of the same state; -1: it has none, or another kind of state. */
static int
same_state (const PlanSolution *solution, const PlanSolution *near, size_t state)
{
  const int *states = near->grid->state_at[solution->grid->state_lie[state]];
  int other = states != NULL ? states[solution->grid->state_cell[state]] : -1;
  return other >= 0 && near->grid->state_ends[other] == solution->grid->state_ends[state] ? other : -1;
}

/* Of a state that was not worked out: what was said of it, and what larger cells have changed in that since; of a new one, what they say. */
static double
value_by_others (const PlanSolution *solution, const PlanSolution *near, size_t state, int other)
{
  const PlanSolution *coarser = solution->coarser,
                     *old = coarser != NULL ? solve_part_like (near, coarser->grid->cell_m) : NULL;
  Lie lie = solution->grid->state_lie[state];
  Vec2 at = solve_grid_centre (solution->grid, solution->grid->state_cell[state]);
  double now = coarser != NULL ? over_first (coarser, lie, at) : NAN;
  if (other < 0)
    return isnan (now) ? solution->value[state] : solution->value[state] + now;
  double then = old != NULL ? over_first (old, lie, at) : NAN;
  return near->value[other] + (isnan (now) || isnan (then) ? 0 : now - then);
}

void
solve_start_again (PlanSolution *solution, const PlanSolution *near)
{
  const SolveGrid *grid = solution->grid;
  size_t n_swings = solution->fleet->n_swings;
  g_autofree bool *was_active = g_new0 (bool, near->grid->n_states);
  for (size_t i = 0; i < near->n_active; i++)
    was_active[near->active[i]] = true;
  for (size_t state = 0; state < grid->n_states; state++)
    {
      int other = same_state (solution, near, state);
      if (grid->state_ends[state])
        {
          if (other >= 0)
            solution->value[state] = near->value[other];
          continue;
        }
      if (other < 0 || !was_active[other])
        solution->value[state] = value_by_others (solution, near, state, other);
      else
        solution->value[state] = near->value[other];
      solution->certified_value[state] = other >= 0 && was_active[other] ? near->certified_value[other] : -INFINITY;
      if (other < 0)
        continue;
      size_t to = state * n_swings, of = (size_t)other * n_swings;
      memcpy (&solution->cost[to], &near->cost[of], n_swings * sizeof *near->cost);
      memcpy (&solution->aim[to], &near->aim[of], n_swings * sizeof *near->aim);
      solution->best[state] = near->best[other];
      for (size_t swing = 0; swing < n_swings && was_active[other]; swing++)
        solution->seen[to + swing] = solution->looked[to + swing] = WORTH_BEFORE;
    }
  solution->certified = WORTH_BEFORE;
  worth_follow (solution->worth, near->worth);
}

void
solve_doubt_light (PlanSolution *solution, const PlanSolution *near)
{
  g_autofree float *weights = g_new0 (float, near->grid->n_states);
  for (size_t i = 0; i < near->n_active; i++)
    weights[near->active[i]] = near->weight != NULL ? near->weight[i] : 1;
  for (size_t i = 0; i < solution->n_active; i++)
    {
      size_t state = solution->active[i], n_swings = solution->fleet->n_swings;
      int other = same_state (solution, near, state);
      double weight = solution->weight != NULL ? (double)solution->weight[i] : 1;
      if (other < 0 || weight < SOLVE_CERTIFY_WEIGHT || (double)weights[other] >= SOLVE_CERTIFY_WEIGHT)
        continue;
      solution->certified_value[state] = -INFINITY;
      /* What they cost is forgotten as well, or it would go on being the least. */
      for (size_t at = state * n_swings; at < (state + 1) * n_swings; at++)
        {
          solution->aim[at] = -1;
          solution->cost[at] = INFINITY;
        }
    }
}

double
solve_moved (const PlanSolution *solution, const PlanSolution *near)
{
  double most = 0;
  for (size_t i = 0; i < solution->n_active; i++)
    {
      int other = same_state (solution, near, solution->active[i]);
      double weight = solution->weight != NULL ? fmin (1, (double)solution->weight[i] / SOLVE_CERTIFY_WEIGHT) : 1;
      if (other >= 0)
        most = fmax (most, weight * fabs (solution->value[solution->active[i]] - near->value[other]));
    }
  return most;
}

/* ---- where play may come ---- */

/* The most that any cell about a place is come to. */
static float
most_reached (const PlanSolution *reached, Vec2 at)
{
  const SolveGrid *grid = reached->grid;
  int cell = solve_grid_cell (grid, at), x = cell % grid->nx, y = cell / grid->nx;
  float most = 0;
  for (int row = MAX (y - 1, 0); row <= MIN (y + 1, grid->ny - 1); row++)
    for (int column = MAX (x - 1, 0); column <= MIN (x + 1, grid->nx - 1); column++)
      most = fmaxf (most, reached->reached[row * grid->nx + column]);
  return most;
}

void
solve_weigh_reached (PlanSolution *solution, const PlanSolution *near)
{
  const SolveGrid *grid = solution->grid;
  if (near->reached == NULL)
    return;
  solution->weight = g_new (float, solution->n_active);
  for (size_t i = 0; i < solution->n_active; i++)
    {
      Vec2 at = solve_grid_centre (grid, grid->state_cell[solution->active[i]]);
      solution->weight[i] = fminf (1, CHANCE_WEIGHT * most_reached (near, at));
    }
}

void
solve_keep_reached (PlanSolution *solution)
{
  const PlanSolution *coarser = solution->coarser;
  if (coarser == NULL)
    return;
  const SolveGrid *grid = solution->grid;
  size_t n = 0;
  solution->weight = g_new (float, solution->n_active);
  for (size_t i = 0; i < solution->n_active; i++)
    {
      float most = most_reached (coarser, solve_grid_centre (grid, grid->state_cell[solution->active[i]]));
      if (!((double)most > LEAST_REACH))
        continue;
      solution->active[n] = solution->active[i];
      solution->weight[n++] = fminf (1, CHANCE_WEIGHT * most);
    }
  solution->n_active = n;
}
