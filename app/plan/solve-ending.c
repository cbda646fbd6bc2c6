// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The ways a ball ends that comes down in a cell: it is caught by canopies on its way down, stays where ground keeps it, else runs on in its
 * direction; then the Rules.
 */
#include "solve-run-private.h"

#include <math.h>

static double
cover_at (const SolveGrid *grid, Lie lie, size_t cell)
{
  return grid->cover[lie] != NULL ? grid->cover[lie][cell] : 0;
}

double
worth_best_drop (const Worth *worth, const Relief *relief)
{
  const SolveGrid *grid = worth->grid;
  double best = INFINITY;
  for (int i = 0; i < relief->n_drops; i++)
    {
      size_t cell = (size_t)relief->drops[i];
      double playable = 1 - cover_at (grid, LIE_PENALTY, cell) - cover_at (grid, LIE_OUT_OF_BOUNDS, cell);
      best = fmin (best, worth->open[cell] / playable);
    }
  return best + DROP_PENALTY_STROKES;
}

/* What a drop costs for a ball that came into a penalty area, times its share; or it is lost. */
static void
look_for_drop (Ending *ending, size_t cell, double share)
{
  const SolveGrid *grid = ending->worth->grid;
  if (!(share > 0))
    return;
  int sector = ending->sector >= 0 ? ending->sector : ending->drop_sector, penalty = grid->penalty_of[cell];
  const Relief *relief = &grid->reliefs[sector][penalty];
  if (relief->n_drops == 0)
    {
      ending->lost += share;
      return;
    }
  double strokes = ending->sector < 0 ? worth_best_drop (ending->worth, relief)
                                      : ending->worth->dropped[sector][penalty] / grid->cover[LIE_PENALTY][cell];
  ending->value += share * strokes;
  if (ending->visit != NULL)
    ending->visit (ending->data, cell, LIE_PENALTY, share, strokes);
}

static void
visit_lie (Ending *ending, size_t cell, Lie lie, bool is_kept, double share)
{
  if (lie != LIE_PENALTY && solve_lie_stops (lie) == is_kept && share > 0)
    ending->visit (ending->data, cell, lie, share, NAN);
}

static void
visit_lies (Ending *ending, size_t cell, bool is_kept, double factor)
{
  const SolveGrid *grid = ending->worth->grid;
  if (ending->visit == NULL)
    return;
  if (grid->only[cell] < N_LIES)
    {
      visit_lie (ending, cell, (Lie)grid->only[cell], is_kept, factor);
      return;
    }
  for (int lie = 0; lie < N_LIES; lie++)
    visit_lie (ending, cell, (Lie)lie, is_kept, factor * cover_at (grid, (Lie)lie, cell));
}

void
worth_end_kept (Ending *ending, size_t cell, double share)
{
  const Worth *worth = ending->worth;
  double factor = share / worth->staying_share[cell];
  ending->value += factor * worth->staying[cell];
  if (ending->sector >= 0)
    {
      const SolveGrid *grid = worth->grid;
      int penalty = grid->penalty_of != NULL ? grid->penalty_of[cell] : -1;
      ending->lost += factor * cover_at (grid, LIE_OUT_OF_BOUNDS, cell);
      if (penalty < 0)
        return;
      ending->value += factor * worth->dropped[ending->sector][penalty];
      if (grid->reliefs[ending->sector][penalty].n_drops == 0)
        ending->lost += factor * grid->cover[LIE_PENALTY][cell];
      return;
    }
  ending->lost += factor * cover_at (worth->grid, LIE_OUT_OF_BOUNDS, cell);
  look_for_drop (ending, cell, factor * cover_at (worth->grid, LIE_PENALTY, cell));
  visit_lies (ending, cell, true, factor);
}

/* ... on the rest of it. */
static void
end_rolling (Ending *ending, size_t cell, double share)
{
  const Worth *worth = ending->worth;
  double factor = share / (1 - worth->staying_share[cell]);
  ending->value += factor * (worth->open[cell] - worth->staying[cell]);
  if (ending->sector < 0)
    visit_lies (ending, cell, false, factor);
}

/* All of `share` ends in the cell, on whatever lies there. */
static void
end_here (Ending *ending, size_t cell, double share)
{
  double stays = ending->worth->staying_share[cell];
  if (stays > 0)
    worth_end_kept (ending, cell, share * stays);
  if (stays < 1)
    end_rolling (ending, cell, share * (1 - stays));
}

/* What a canopy catches is among trees, wherever those stand: the golfer gets it out. */
static void
end_caught (Ending *ending, size_t cell, double share)
{
  int state = ending->worth->grid->state_at[LIE_TREES][cell];
  ending->value += share * ending->worth->value[state];
  if (ending->visit != NULL)
    ending->visit (ending->data, cell, LIE_TREES, share, NAN);
}

static void
note_caught (Caught *finding, size_t cell, double share)
{
  if (finding != NULL)
    *finding = (Caught){ finding->cell == CAUGHT_NOWHERE ? (int)cell : CAUGHT_WIDELY, (float)share };
}

double
worth_end_in_canopies (Ending *ending, double x, double y, double weight)
{
  const Caught *known = ending->caught;
  if (known != NULL && known->cell == CAUGHT_NOWHERE)
    return 0;
  if (known != NULL && known->cell >= 0)
    {
      double share = weight * (double)known->share;
      end_caught (ending, (size_t)known->cell, share);
      return share;
    }
  const SolveGrid *grid = ending->worth->grid;
  double descent_m = runs_descent (ending->worth->runs, ending->run) * grid->cell_m, through = weight, stretch = 0;
  double ground_m = grid->height_m != NULL ? grid->height_m[solve_grid_cell_at (grid, x, y)] : 0;
  for (int i = 1; i * descent_m < grid->highest_canopy_m; i++)
    {
      size_t cell = solve_grid_cell_at (grid, x - i * ending->way.x, y - i * ending->way.y);
      if (ending->worth->to_canopy[cell] > 1)
        {
          i += ending->worth->to_canopy[cell] - 2;
          stretch = 0;
          continue;
        }
      if (!(grid->canopy[cell] > 0))
        {
          stretch = 0;
          continue;
        }
      double top_m = grid->canopy_m[cell] + (grid->height_m != NULL ? grid->height_m[cell] - ground_m : 0);
      double density = i * descent_m < top_m ? grid->canopy[cell] : 0;
      /* One stretch of canopy stops a ball once: only what is denser than the stretch so far adds to it. */
      if (density > stretch)
        {
          double caught = through * (density - stretch) / (1 - stretch + 1e-12);
          end_caught (ending, cell, caught);
          note_caught (ending->finding, cell, caught / weight);
          through -= caught;
          stretch = density;
        }
      else if (density == 0)
        stretch = 0;
    }
  return weight - through;
}

/* Balls that rest on a lie from which they are played: between the states of that lie in the four cells about the place. False where there are none. */
static bool
rest_on (Ending *ending, Lie lie, double x, double y, double share)
{
  const Worth *worth = ending->worth;
  const SolveGrid *grid = worth->grid;
  const int *state_at = grid->state_at[lie];
  if (state_at == NULL)
    return false;
  double most_x = grid->nx - 1.0001, most_y = grid->ny - 1.0001, sum = 0, value = 0;
  x = x < 0 ? 0 : (x > most_x ? most_x : x);
  y = y < 0 ? 0 : (y > most_y ? most_y : y);
  int i = (int)x, j = (int)y;
  double u = x - i, v = y - j, weights[4] = { (1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v };
  size_t first = (size_t)j * (size_t)grid->nx + (size_t)i;
  const size_t cells[4] = { first, first + 1, first + (size_t)grid->nx, first + (size_t)grid->nx + 1 };
  for (int k = 0; k < 4; k++)
    if (state_at[cells[k]] >= 0)
      {
        sum += weights[k];
        value += weights[k] * worth->value[state_at[cells[k]]];
      }
  if (!(sum > 0))
    return false;
  ending->value += share * value / sum;
  for (int k = 0; k < 4 && ending->visit != NULL; k++)
    if (state_at[cells[k]] >= 0 && weights[k] > 0)
      ending->visit (ending->data, cells[k], lie, share * weights[k] / sum, NAN);
  return true;
}

void
worth_end_at (Ending *ending, double x, double y, double share)
{
  const SolveGrid *grid = ending->worth->grid;
  size_t cell = solve_grid_cell_at (grid, x, y);
  Lie lie = solve_grid_lie (grid, x, y);
  if (lie == LIE_OUT_OF_BOUNDS)
    {
      ending->lost += share;
      if (ending->visit != NULL)
        ending->visit (ending->data, cell, lie, share, NAN);
    }
  else if (lie == LIE_PENALTY && grid->penalty_of[cell] >= 0)
    look_for_drop (ending, cell, share);
  else if (lie == LIE_PENALTY || !rest_on (ending, lie, x, y, share))
    end_here (ending, cell, share); /* so little of the lie is there that it has no state */
}

static void
run_on (Ending *ending, size_t cell, int run, int sector, double share)
{
  const SolveGrid *grid = ending->worth->grid;
  RunRest rests[MOST_RESTS];
  int n = runs_rest (ending->worth->runs, run, sector, cell, rests);
  for (int k = 0; k < n; k++)
    worth_end_at (ending, (double)(cell % (size_t)grid->nx) + rests[k].to.x, (double)(cell / (size_t)grid->nx) + rests[k].to.y,
                  share * rests[k].share);
}

void
worth_end_ball (Ending *ending, size_t cell, double weight)
{
  const Worth *worth = ending->worth;
  const SolveGrid *grid = worth->grid;
  double x = (double)(cell % (size_t)grid->nx), y = (double)(cell / (size_t)grid->nx), share = weight;
  double stays = worth->staying_share[cell];
  if (grid->canopy != NULL)
    share -= worth_end_in_canopies (ending, x, y, weight);
  if (stays > 0)
    worth_end_kept (ending, cell, share * stays);
  share *= 1 - stays;
  if (share > 0 && ending->sector >= 0)
    run_on (ending, cell, (int)ending->run, ending->sector, share);
  for (int k = 0; k < 4 && share > 0 && ending->sector < 0; k++)
    if (ending->shares[k].share > 0)
      run_on (ending, cell, ending->shares[k].run, ending->shares[k].sector, share * ending->shares[k].share);
}
