// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The ways a ball ends that comes down in a cell: it is caught by canopies on its way down, stays where ground keeps it, else runs on in its
 * direction; then the Rules.
 */
#include "solve-private.h"

#include <math.h>

/* Uphill a ball runs less far, as turf that slows it by this much more would make it: the roll of a fairway of medium firmness (app/flight/run.c). */
#define RUN_DECEL_MPS2 2.0
#define LEAST_SLOPE_SHARE 0.3
#define MOST_SLOPE_SHARE 3.0

static double
cover_at (const SolveGrid *grid, Lie lie, size_t cell)
{
  return grid->cover[lie] != NULL ? grid->cover[lie][cell] : 0;
}

/* How much less far a ball runs on in a direction that rises. */
static double
slope_share (const Worth *worth, size_t cell, Vec2 way)
{
  double rise = worth->slope_x[cell] * way.x + worth->slope_y[cell] * way.y, decel = RUN_DECEL_MPS2 + GRAVITY_MPS2 * rise;
  return decel > 0 ? fmin (MOST_SLOPE_SHARE, fmax (LEAST_SLOPE_SHARE, RUN_DECEL_MPS2 / decel)) : MOST_SLOPE_SHARE;
}

double
worth_most_share (const Worth *worth)
{
  double most = 0;
  for (size_t cell = 0; cell < worth->grid->n_cells; cell++)
    {
      double share = worth->run_share[cell], steep;
      if (worth->slope_x != NULL && (steep = hypot (worth->slope_x[cell], worth->slope_y[cell])) > 0)
        share *= slope_share (worth, cell, vec2 (-worth->slope_x[cell] / steep, -worth->slope_y[cell] / steep));
      most = fmax (most, share);
    }
  return most;
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
  const Relief *relief = &grid->reliefs[ending->drop_sector][grid->penalty_of[cell]];
  if (relief->n_drops == 0)
    {
      ending->lost += share;
      return;
    }
  double strokes = worth_best_drop (ending->worth, relief);
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

/* `share` of the balls ends on that part of a cell which keeps what comes in. */
static void
end_kept (Ending *ending, size_t cell, double share)
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

/* All of `share` ends in the cell, of which `kept` was so far the most of a cell on the way that keeps balls. */
static void
end_here (Ending *ending, size_t cell, double share, double kept)
{
  double stays = ending->worth->staying_share[cell];
  if (!(stays > 0) && ending->visit == NULL)
    {
      ending->value += share * ending->worth->open[cell];
      return;
    }
  /* A ball that has come past an edge is on its open side: only what keeps more of a cell than before keeps more balls. */
  if (stays > kept)
    {
      end_kept (ending, cell, share * (stays - kept) / (1 - kept));
      share *= (1 - stays) / (1 - kept);
    }
  if (share > 0)
    end_rolling (ending, cell, share);
}

/* Between the four cells about a place. */
static void
end_between (Ending *ending, double x, double y, double share, double kept)
{
  const SolveGrid *grid = ending->worth->grid;
  double most_x = grid->nx - 1.0001, most_y = grid->ny - 1.0001;
  x = x < 0 ? 0 : (x > most_x ? most_x : x);
  y = y < 0 ? 0 : (y > most_y ? most_y : y);
  int i = (int)x, j = (int)y;
  double u = x - i, v = y - j;
  size_t cell = (size_t)j * (size_t)grid->nx + (size_t)i;
  end_here (ending, cell, share * (1 - u) * (1 - v), kept);
  end_here (ending, cell + 1, share * u * (1 - v), kept);
  end_here (ending, cell + (size_t)grid->nx, share * (1 - u) * v, kept);
  end_here (ending, cell + (size_t)grid->nx + 1, share * u * v, kept);
}

static inline size_t
cell_at (const SolveGrid *grid, double x, double y)
{
  int i = x < 0 ? 0 : (int)(x + 0.5), j = y < 0 ? 0 : (int)(y + 0.5);
  i = i < grid->nx ? i : grid->nx - 1;
  j = j < grid->ny ? j : grid->ny - 1;
  return (size_t)j * (size_t)grid->nx + (size_t)i;
}

static void
note_caught (Caught *finding, size_t cell, double share)
{
  if (finding != NULL)
    *finding = (Caught){ finding->cell == CAUGHT_NOWHERE ? (int)cell : CAUGHT_WIDELY, (float)share };
}

/* Share of the balls coming down in a cell that a canopy before it has caught; they end under it. */
static double
end_in_canopies (Ending *ending, double x, double y, double weight)
{
  const Caught *known = ending->caught;
  if (known != NULL && known->cell == CAUGHT_NOWHERE)
    return 0;
  if (known != NULL && known->cell >= 0)
    {
      double share = weight * (double)known->share;
      end_here (ending, (size_t)known->cell, share, 0);
      return share;
    }
  const SolveGrid *grid = ending->worth->grid;
  double descent_m = ending->descent * grid->cell_m, through = weight, stretch = 0;
  double ground_m = grid->height_m != NULL ? grid->height_m[cell_at (grid, x, y)] : 0;
  for (int i = 1; i * descent_m < grid->highest_canopy_m; i++)
    {
      size_t cell = cell_at (grid, x - i * ending->way.x, y - i * ending->way.y);
      if (ending->worth->to_canopy[cell] > 1)
        {
          i += ending->worth->to_canopy[cell] - 2;
          stretch = 0;
          continue;
        }
      double top_m = grid->canopy_m[cell] + (grid->height_m != NULL ? grid->height_m[cell] - ground_m : 0);
      double density = i * descent_m < top_m ? grid->canopy[cell] : 0;
      /* One stretch of canopy stops a ball once: only what is denser than the stretch so far adds to it. */
      if (density > stretch)
        {
          double caught = through * (density - stretch) / (1 - stretch + 1e-12);
          end_here (ending, cell, caught, 0);
          note_caught (ending->finding, cell, caught / weight);
          through -= caught;
          stretch = density;
        }
      else if (density == 0)
        stretch = 0;
    }
  return weight - through;
}

/* The balls that run on from a cell, `kept` of which keeps them, and what keeps them on their way. */
static void
run_on (Ending *ending, double x, double y, double run, double share, double kept)
{
  const Worth *worth = ending->worth;
  for (int i = 1; i < run - 0.5 && share > 0 && worth->to_staying != NULL; i++)
    {
      size_t over = cell_at (worth->grid, x + i * ending->way.x, y + i * ending->way.y);
      double stays = worth->staying_share[over];
      if (worth->to_staying[over] > 1)
        i += worth->to_staying[over] - 2;
      else if (stays > kept)
        {
          end_kept (ending, over, share * (stays - kept) / (1 - kept));
          share *= (1 - stays) / (1 - kept);
          kept = stays;
        }
    }
  if (share > 0)
    end_between (ending, x + run * ending->way.x, y + run * ending->way.y, share, kept);
}

void
worth_end_ball (Ending *ending, size_t cell, double weight)
{
  const Worth *worth = ending->worth;
  const SolveGrid *grid = worth->grid;
  double x = (double)(cell % (size_t)grid->nx), y = (double)(cell / (size_t)grid->nx), share = weight;
  double stays = worth->staying_share[cell];
  if (grid->canopy != NULL && !ending->is_open)
    share -= end_in_canopies (ending, x, y, weight);
  if (stays > 0)
    end_kept (ending, cell, share * stays);
  share *= 1 - stays;
  double slope = grid->height_m != NULL ? slope_share (worth, cell, ending->way) : 1;
  if (share > 0)
    run_on (ending, x, y, ending->run_m * worth->run_share[cell] * slope / grid->cell_m, share, stays);
}
