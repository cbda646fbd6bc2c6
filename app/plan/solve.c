// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The whole hole solved: value iteration over its cells, coarse first, then only what may still be best, then a look at everything.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* A swing that comes within this of the best is kept in the first sweeps over cells of a size, after the tables and after other values, and in the later ones. */
#define FIRST_MARGIN 0.25
#define BEGUN_MARGIN 0.3
#define LATER_MARGIN 0.06
/* Sweeps that follow a look at everything at the wide margin. */
#define N_FIRST_SWEEPS 2
/* Looks at everything; what is found after the second changes nothing that can be told. */
#define MOST_CERTIFICATES 3
/* What a look at everything finds is passed on to other states; where that changes them by less than this, none of them chooses anew. */
#define CERTAIN 1e-2
/* A sweep is never trusted to change less than this share of what the one before it did, where nothing is known of it. */
#define MOST_SHARE 0.9
/* The first look at everything leaves out what cannot come this near the best, as far as the tables know. */
#define FIRST_SLACK 0.15
/* Aims next to the best that a sweep looks at, and at half as far: 4 is 1.4 degrees. Farther where larger cells have shown the best. */
#define WIDE_STEP 4
#define BEGUN_STEP 8
#define FINE_STEP 2
/* Small cells begin with what such show that are larger by a whole number, and no larger than this. */
#define LARGEST_CELL_M 8.5
/* Shares of the time that it all takes: up to the grid, the flights, the first answer, and the larger cells. */
#define SHARE_GRID 0.05
#define SHARE_FLIGHTS 0.12
#define SHARE_FIRST 0.3
#define SHARE_LARGER 0.4
/* Larger cells only show the smaller ones where to begin. */
#define COARSE_TOLERANCE 3e-3
#define COARSE_SWEEPS 5
#define COARSE_LAST_SWEEPS 2
/* ... but as long as values change by more, the hole's end is not known everywhere yet: a short bag needs a sweep for every shot. */
#define COARSE_CHANGE 0.2
/* Where play may come is not looked for again when no value that counts has changed by more: it is what costs less than a twentieth of a stroke. */
#define REACH_MOVES 0.02
/* A look at everything again: swings that were known to cost this much more than the best need none. */
#define CERTIFY_KNOWN 0.4
/* Square cells by which means over cells, and places between them where balls come to rest, spread what is there. The first is taken off the patterns; the second is not, for
   what stays where it comes down is not spread by it. Larger cells take both off, but for what the small ones spread themselves. */
#define WIDER_MEANS (1 / 12.0)
#define WIDER_RESTS (1 / 6.0)
/* No pattern is narrower than this many cells, between which it would fall. */
#define LEAST_SD_CELLS 0.6
#define LONGEST_PUTT_M 60.0 /* a green further off than this is not the one in play */

static bool
fail (GError **error, PlanError code, const char *sentence)
{
  g_set_error_literal (error, PLAN_ERROR, code, sentence);
  return false;
}

static bool
give_up (GError **error)
{
  return fail (error, PLAN_ERROR_CANCELLED, "the plan was given up");
}

static void
tell (const PlanQuestion *question, double share, const PlanSolution *solution)
{
  if (question->progress != NULL)
    question->progress (share, solution, question->data);
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

/* Lies whose strokes come from the table: near the hole all, and everywhere those of which no shot is worked out, to begin with. */
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
      solution->value[state] = solve_begin_strokes (solution, lie, hole_m);
    }
}

static bool
find_flights (PlanSolution *solution, const PlanQuestion *question, GError **error)
{
  const SolveGrid *grid = solution->grid;
  bool is_needed[N_LIES];
  for (int lie = 0; lie < N_LIES; lie++)
    is_needed[lie] = grid->lie_begins[lie + 1] > grid->lie_begins[lie];
  solution->flights = flights_for (solution, question->near, is_needed, question->cancel);
  if (solution->flights == NULL)
    return give_up (error);
  if (solution->flights->n_played == 0)
    return fail (error, PLAN_ERROR_CLUB, "the bag has no club that flies on this day; give it one with a carry");
  solution->fleet = solution->flights->fleet;
  solution->aims = solution->flights->aims;
  solution->least_reach_m = solution->flights->least_reach_m;
  return true;
}

/* Room for the values of a grid, and the tables' values; all states that do not end are active. */
static void
make_room (PlanSolution *solution)
{
  const SolveGrid *grid = solution->grid;
  size_t n = solution->fleet->n_swings * grid->n_states;
  solution->value = g_new (double, grid->n_states);
  look_for_ends (solution);
  solution->thicket = thicket_new (solution);
  solution->worth = worth_new (grid, &solution->conditions, &solution->flights->runs);
  void *from;
  solution->pages = pages_new (n * (sizeof (float) + sizeof (gint16) + 2 * sizeof (guint16)), &from);
  solution->cost = from;
  solution->aim = (gint16 *)(solution->cost + n);
  solution->seen = (guint16 *)(solution->aim + n);
  solution->looked = solution->seen + n;
  solution->certified_value = g_new0 (float, grid->n_states);
  solution->best = g_new0 (guint8, grid->n_states);
  solution->n_beyond = (size_t)(grid->cell_m * hypot (grid->nx, grid->ny)) + 2;
  solution->least_beyond = g_new (float, solution->n_beyond);
  for (size_t i = 0; i < n; i++)
    {
      solution->cost[i] = INFINITY;
      solution->aim[i] = -1;
    }
  solution->active = g_new (size_t, grid->n_states);
  for (size_t state = 0; state < grid->n_states; state++)
    if (!grid->state_ends[state])
      solution->active[solution->n_active++] = state;
}

/* ---- solving ---- */

/* Sweeps over what is left until the next would change nothing: each changes the share of the one before that the two last did. */
static bool
settle (PlanSolution *solution, const PlanQuestion *question, double before, bool is_begun, double *first)
{
  bool is_again = solution->certified > 0;
  double tolerance = solution->is_part ? COARSE_TOLERANCE : PLAN_TOLERANCE;
  int most = !solution->is_part ? PLAN_MOST_SWEEPS : (isnan (before) ? COARSE_SWEEPS : COARSE_LAST_SWEEPS);
  *first = NAN;
  for (int i = 0; (i < most || before > COARSE_CHANGE) && solution->n_sweeps < PLAN_MOST_SWEEPS; i++)
    {
      bool is_early = i < (is_begun ? 1 : N_FIRST_SWEEPS) && isnan (before) && !is_again;
      double margin = !is_early ? LATER_MARGIN : (is_begun ? BEGUN_MARGIN : FIRST_MARGIN);
      /* Larger cells whose aims are known show well enough with those where to begin. */
      bool is_shown = solution->is_part && solution->worth->before != NULL;
      int early = is_begun ? BEGUN_STEP : WIDE_STEP, later = i == 0 && !is_shown ? FINE_STEP : 0;
      SweepPlan plan = { SWEEP_LEFT, is_early ? early : later, margin, 0 };
      double change = solve_sweep (solution, plan, question->cancel);
      if (isnan (change))
        return false;
      if (i == 0)
        *first = change;
      double share = before > 0 ? fmin (MOST_SHARE, change / before) : MOST_SHARE;
      if (change * share / (1 - share) < tolerance && (i > 0 || !isnan (before)))
        return true;
      before = change;
    }
  return true;
}

/* All of what was found. */
static void
take_values (PlanSolution *solution)
{
  solve_value_trees (solution);
  worth_update (solution->worth, solution->value, true);
}

/* The values that are begun with are the tables', the larger cells' or another solution's. */
static bool
solve (PlanSolution *solution, const PlanQuestion *question, bool is_begun)
{
  double first, known = is_begun ? CERTIFY_KNOWN : INFINITY;
  if (!is_begun && isnan (solve_sweep (solution, (SweepPlan){ SWEEP_FIRST, 0, FIRST_SLACK, 0 }, question->cancel)))
    return false;
  if (!settle (solution, question, NAN, is_begun, &first))
    return false;
  if (solution->is_part)
    {
      /* The first answer, with which one can do something while the others are worked out. */
      take_values (solution);
      tell (question, SHARE_FIRST, solution);
    }
  for (int i = 0; i < (solution->is_part ? 1 : MOST_CERTIFICATES) && solution->n_sweeps < PLAN_MOST_SWEEPS; i++)
    {
      double change = solve_sweep (solution, (SweepPlan){ SWEEP_CERTIFY, 0, known, SOLVE_CERTIFY_WEIGHT }, question->cancel);
      if (isnan (change))
        return false;
      if (change < PLAN_TOLERANCE)
        break;
      if (!settle (solution, question, change, true, &first))
        return false;
      if (first < CERTAIN)
        break;
    }
  take_values (solution);
  return true;
}

/* The same question for larger cells; NULL when cancelled. */
static PlanSolution *
make_part (const PlanSolution *whole, const PlanQuestion *question)
{
  int factor = (int)(LARGEST_CELL_M / whole->grid->cell_m);
  const PlanSolution *near = solve_part_like (question->near, factor * whole->grid->cell_m);
  SolveGrid *grid
      = solve_grid_coarser (whole->grid, factor, near != NULL ? near->grid : NULL, whole->n_threads, question->cancel);
  if (grid == NULL)
    return NULL;
  PlanSolution *part = g_memdup2 (whole, sizeof *part);
  part->ref_count = 1;
  part->is_part = true;
  part->n_active = 0;
  part->n_sweeps = 0;
  part->certified = 0;
  part->reached = NULL;
  part->widen = -WIDER_MEANS - WIDER_RESTS + WIDER_RESTS / (factor * factor);
  part->hole = hole_ref (whole->hole);
  part->bag = bag_ref (whole->bag);
  part->tee_name = g_strdup (whole->tee_name);
  part->hole_name = g_strdup (whole->hole_name);
  part->grid = grid;
  make_room (part);
  return part;
}

/* Solves for cells of one size, from the solution for larger ones and from what is known of nearly the same question. */
static bool
solve_size (PlanSolution *solution, const PlanQuestion *question)
{
  const PlanSolution *coarser = solution->coarser;
  const PlanSolution *near = solve_part_like (question->near, solution->grid->cell_m);
  bool is_again = solve_is_like (solution, near), is_same_fleet = near != NULL && near->flights == solution->flights;
  if (is_again)
    solve_start_again (solution, near);
  else if (is_same_fleet || coarser == NULL)
    {
      if (near != NULL)
        solve_start_from (solution, near);
    }
  else
    solve_start_from (solution, coarser);
  if (is_again && coarser == NULL)
    solve_weigh_reached (solution, near);
  solve_keep_reached (solution);
  if (is_again)
    solve_doubt_light (solution, near);
  /* On another day, or with other clubs, other swings may be the best by more than what is looked at again. */
  bool is_solved = solve (solution, question, coarser != NULL || is_same_fleet);
  worth_let_go (solution->worth);
  return is_solved;
}

/* Finds where play may come, unless hardly anything has changed since that was known. */
static void
find_reached (PlanSolution *part, const PlanQuestion *question)
{
  const PlanSolution *near = solve_part_like (question->near, part->grid->cell_m);
  if (solve_is_like (part, near) && near->reached != NULL && near->tee.x == part->tee.x && near->tee.y == part->tee.y
      && solve_moved (part, near) < REACH_MOVES)
    {
      part->reached = g_memdup2 (near->reached, part->grid->n_cells * sizeof *near->reached);
      return;
    }
  g_autofree float *chances = solve_reach (part, question->cancel);
  part->reached = g_new0 (float, part->grid->n_cells);
  for (size_t state = 0; state < part->grid->n_states; state++)
    part->reached[part->grid->state_cell[state]] += chances[state];
}

/* The rest of what the cells asked for need, which the larger ones do without. */
static bool
make_whole (PlanSolution *solution, const PlanQuestion *question)
{
  const SolveGrid *like = question->near != NULL ? question->near->grid : NULL;
  if (!solve_grid_look_for_relief (solution->grid, like, solution->n_threads, question->cancel))
    return false;
  make_room (solution);
  return true;
}

/* What larger cells show, and where play may come as they have it. */
static bool
solve_larger (PlanSolution *solution, const PlanQuestion *question)
{
  solution->coarser = make_part (solution, question);
  if (solution->coarser == NULL || !solve_size (solution->coarser, question))
    return false;
  tell (question, SHARE_LARGER, solution->coarser);
  find_reached (solution->coarser, question);
  return true;
}

/* Whole holes of large cells need none that are larger. */
static bool
solve_whole (PlanSolution *solution, const PlanQuestion *question)
{
  if (solution->grid->cell_m < FINE_M && !solve_larger (solution, question))
    return false;
  if (!make_whole (solution, question) || !solve_size (solution, question))
    return false;
  tell (question, 1, solution);
  return true;
}

static bool
make_ready (PlanSolution *solution, const PlanQuestion *question, GError **error)
{
  Vec2 target;
  if (bag_n_clubs (solution->bag) == 0)
    return fail (error, PLAN_ERROR_CLUB, "the bag is empty; give it a club with its carry");
  if (!find_places (solution, &target, error))
    return false;
  const PlanSolution *near = question->near;
  solution->grid = solve_grid_new (solution->hole, target, question->cell_m > 0 ? question->cell_m : PLAN_CELL_M,
                                   near != NULL ? near->hole : NULL, near != NULL ? near->grid : NULL, solution->n_threads,
                                   question->cancel);
  if (solution->grid == NULL)
    return give_up (error);
  tell (question, SHARE_GRID, NULL);
  solution->widen = -WIDER_MEANS;
  solution->least_var = LEAST_SD_CELLS * LEAST_SD_CELLS;
  if (!find_flights (solution, question, error))
    return false;
  tell (question, SHARE_FLIGHTS, NULL);
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
  solution->n_helpers = question->n_helpers;
  if (!make_ready (solution, question, error))
    return NULL;
  if (!solve_whole (solution, question))
    {
      give_up (error);
      return NULL;
    }
  for (PlanSolution *part = solution; part != NULL; part = part->coarser)
    part->n_helpers = NULL;
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
  worth_free (solution->worth);
  thicket_free (solution->thicket);
  solve_grid_free (solution->grid);
  if (!solution->is_part)
    {
      flights_unref (solution->flights);
      strokes_table_free (solution->table);
    }
  plan_solution_unref (solution->coarser);
  g_free (solution->value);
  pages_free (solution->pages);
  g_free (solution->certified_value);
  g_free (solution->best);
  g_free (solution->active);
  g_free (solution->weight);
  g_free (solution->reached);
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
