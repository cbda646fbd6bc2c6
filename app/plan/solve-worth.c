// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What coming down in each cell is worth: the ball is caught by canopies on its way down, stays where ground keeps it, else runs on in its
 * direction; then the Rules.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* Uphill a ball runs less far, as turf that slows it by this much more would make it: the roll of a fairway of medium firmness (app/flight/run.c). */
#define RUN_DECEL_MPS2 2.0
#define LEAST_SLOPE_SHARE 0.3
#define MOST_SLOPE_SHARE 3.0

/* ---- what never changes ---- */

static double
cover_at (const SolveGrid *grid, Lie lie, size_t cell)
{
  return grid->cover[lie] != NULL ? grid->cover[lie][cell] : 0;
}

static void
look_at_ground (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      double stays = 0, rolls = 0, share = 0;
      for (int lie = 0; lie < N_LIES; lie++)
        {
          double cover = cover_at (grid, (Lie)lie, cell);
          if (solve_lie_stops ((Lie)lie))
            stays += cover;
          else
            {
              rolls += cover;
              share += cover * worth->fleet->run_share[lie];
            }
        }
      worth->staying_share[cell] = stays > 1 - 1e-9 ? 1 : stays;
      worth->run_share[cell] = rolls > 0 ? share / rolls : 0;
    }
  for (int sector = 0; sector < N_SECTORS; sector++)
    for (size_t cell = 0; cell < grid->n_cells; cell++)
      {
        double lost = cover_at (grid, LIE_OUT_OF_BOUNDS, cell);
        if (grid->penalty_of != NULL && grid->penalty_of[cell] >= 0
            && grid->reliefs[sector][grid->penalty_of[cell]].n_drops == 0)
          lost += grid->cover[LIE_PENALTY][cell];
        worth->lost_share[sector][cell] = lost;
        worth->is_anything_lost |= lost > 0;
      }
}

/* Steps of a king from each cell to the nearest one that is marked, 254 at most (Rosenfeld and Pfaltz 1966, J. ACM 13:471). */
#define FARTHEST 254

static guint8 *
steps_to (const SolveGrid *grid, const double *marks)
{
  guint8 *steps = g_new (guint8, grid->n_cells);
  int nx = grid->nx, ny = grid->ny;
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    steps[cell] = marks[cell] > 0 ? 0 : FARTHEST;
  for (int pass = 0; pass < 2; pass++)
    for (int n = 0; n < nx * ny; n++)
      {
        int cell = pass == 0 ? n : nx * ny - 1 - n, x = cell % nx, y = cell / nx, by = pass == 0 ? -1 : 1;
        for (int dx = -1; dx <= 1; dx++)
          if (y + by >= 0 && y + by < ny && x + dx >= 0 && x + dx < nx)
            steps[cell] = (guint8)MIN (steps[cell], steps[cell + by * nx + dx] + 1);
        if (x + by >= 0 && x + by < nx)
          steps[cell] = (guint8)MIN (steps[cell], steps[cell + by] + 1);
      }
  return steps;
}

/* How much less far a ball runs on in a direction that rises. */
static double
slope_share (const SolveGrid *grid, size_t cell, Vec2 way)
{
  Vec2 at = solve_grid_centre (grid, (int)cell);
  double up_m = solve_grid_height (grid, vec2_add (at, vec2_scale (way, grid->cell_m)))
                - solve_grid_height (grid, vec2_add (at, vec2_scale (way, -grid->cell_m)));
  double decel = RUN_DECEL_MPS2 + GRAVITY_MPS2 * up_m / (2 * grid->cell_m);
  return decel > 0 ? fmin (MOST_SLOPE_SHARE, fmax (LEAST_SLOPE_SHARE, RUN_DECEL_MPS2 / decel)) : MOST_SLOPE_SHARE;
}

static void
look_at_slopes (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  for (int sector = 0; sector < N_SECTORS && grid->height_m != NULL; sector++)
    {
      worth->slope_share[sector] = g_new (float, grid->n_cells);
      for (size_t cell = 0; cell < grid->n_cells; cell++)
        worth->slope_share[sector][cell] = (float)slope_share (grid, cell, solve_sector_unit (sector));
    }
}

const double worth_runs_m[N_RUNS] = { 0, 1.5, 3, 5, 7, 9, 11, 13.5, 16, 19, 23, 30 };

int
worth_run (double run_m)
{
  int best = 0;
  for (int run = 1; run < N_RUNS; run++)
    if (fabs (worth_runs_m[run] - run_m) < fabs (worth_runs_m[best] - run_m))
      best = run;
  return best;
}

/* How steeply the swings of each run length come down. */
static void
look_at_swings (Worth *worth)
{
  const Fleet *fleet = worth->fleet;
  double sum[N_RUNS] = { 0 };
  int count[N_RUNS] = { 0 };
  for (size_t i = 0; i < fleet->n_swings * N_LIES * (size_t)fleet->n_headings; i++)
    if (fleet->flown[i].along_m > 0)
      {
        int run = worth_run (fleet->flown[i].run_m);
        sum[run] += fleet->flown[i].descent;
        count[run]++;
      }
  for (int run = 0; run < N_RUNS; run++)
    worth->descent[run] = count[run] > 0 ? sum[run] / count[run] : NAN;
}

/* ---- one ball ---- */

/* Fewest strokes after a drop in one of the places, the stroke of penalty included. */
static double
best_drop (const Worth *worth, const Relief *relief)
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

/* What a drop costs for a ball that came exactly along the ending's way into a penalty area, times its share; or it is lost. */
static void
look_for_drop (Ending *ending, size_t cell, double share)
{
  Relief relief;
  if (!(share > 0))
    return;
  if (!solve_relief (ending->worth->grid, (int)cell, ending->way, &relief))
    {
      ending->lost += share;
      return;
    }
  double strokes = best_drop (ending->worth, &relief);
  ending->value += share * strokes;
  if (ending->visit != NULL)
    ending->visit (ending->data, cell, LIE_PENALTY, share, strokes);
}

static void
visit_lies (Ending *ending, size_t cell, bool is_kept, double factor)
{
  for (int lie = 0; ending->visit != NULL && lie < N_LIES; lie++)
    if (lie != LIE_PENALTY && solve_lie_stops ((Lie)lie) == is_kept && cover_at (ending->worth->grid, (Lie)lie, cell) > 0)
      ending->visit (ending->data, cell, (Lie)lie, factor * ending->worth->grid->cover[lie][cell], NAN);
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
      ending->value += factor * worth->dropped[ending->sector][cell];
      ending->lost += factor * worth->lost_share[ending->sector][cell];
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

/* Share of the balls coming down in a cell that a canopy before it has caught; they end under it. */
static double
end_in_canopies (Ending *ending, double x, double y, double weight)
{
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
  if (grid->canopy != NULL)
    share -= end_in_canopies (ending, x, y, weight);
  if (stays > 0)
    end_kept (ending, cell, share * stays);
  share *= 1 - stays;
  double slope = grid->height_m == NULL ? 1
                 : ending->sector >= 0  ? worth->slope_share[ending->sector][cell]
                                        : slope_share (grid, cell, ending->way);
  if (share > 0)
    run_on (ending, x, y, ending->run_m * worth->run_share[cell] * slope / grid->cell_m, share, stays);
}

/* ---- all of them ---- */

typedef struct
{
  Worth *worth;
  bool is_first; /* what is lost is worked out once */
} Fields;

static void
make_field (gpointer item, gpointer data)
{
  const Fields *fields = data;
  Worth *worth = fields->worth;
  int i = GPOINTER_TO_INT (item) - 1, run = i / N_SECTORS, sector = i % N_SECTORS;
  Ending ending = { .worth = worth,
                    .sector = sector,
                    .way = solve_sector_unit (sector),
                    .run_m = worth_runs_m[run],
                    .descent = worth->descent[run] };
  for (size_t cell = 0; cell < worth->grid->n_cells; cell++)
    {
      ending.value = ending.lost = 0;
      worth_end_ball (&ending, cell, 1);
      worth->worth[run][sector][cell] = (float)ending.value;
      if (fields->is_first && worth->is_anything_lost)
        worth->lost[run][sector][cell] = (float)ending.lost;
    }
}

static void
make_fields (Worth *worth, bool is_first, int n_threads)
{
  Fields fields = { worth, is_first };
  GThreadPool *pool = g_thread_pool_new (make_field, &fields, n_threads, FALSE, NULL);
  for (int run = 0; run < N_RUNS; run++)
    for (int sector = 0; sector < N_SECTORS && !isnan (worth->descent[run]); sector++)
      g_thread_pool_push (pool, GINT_TO_POINTER (1 + run * N_SECTORS + sector), NULL);
  g_thread_pool_free (pool, FALSE, TRUE);
}

static void
take_values (Worth *worth, const double *value)
{
  const SolveGrid *grid = worth->grid;
  memset (worth->open, 0, grid->n_cells * sizeof *worth->open);
  memset (worth->staying, 0, grid->n_cells * sizeof *worth->staying);
  for (size_t state = 0; state < grid->n_states; state++)
    {
      size_t cell = (size_t)grid->state_cell[state];
      Lie lie = grid->state_lie[state];
      double part = grid->cover[lie][cell] * value[state];
      worth->open[cell] += part;
      if (solve_lie_stops (lie))
        worth->staying[cell] += part;
    }
  for (int sector = 0; sector < N_SECTORS && grid->n_penalty > 0; sector++)
    for (size_t cell = 0; cell < grid->n_cells; cell++)
      if (grid->penalty_of[cell] >= 0)
        {
          const Relief *relief = &grid->reliefs[sector][grid->penalty_of[cell]];
          worth->dropped[sector][cell] = relief->n_drops > 0 ? grid->cover[LIE_PENALTY][cell] * best_drop (worth, relief) : 0;
        }
}

void
worth_update (Worth *worth, const double *value, int n_threads)
{
  take_values (worth, value);
  make_fields (worth, !worth->is_lost_known, n_threads);
  worth->is_lost_known = true;
}

Worth *
worth_new (const SolveGrid *grid, const Fleet *fleet)
{
  Worth *worth = g_new0 (Worth, 1);
  worth->grid = grid;
  worth->fleet = fleet;
  worth->open = g_new0 (double, grid->n_cells);
  worth->staying = g_new0 (double, grid->n_cells);
  worth->staying_share = g_new0 (double, grid->n_cells);
  worth->run_share = g_new0 (double, grid->n_cells);
  for (int sector = 0; sector < N_SECTORS; sector++)
    {
      worth->lost_share[sector] = g_new0 (double, grid->n_cells);
      worth->dropped[sector] = g_new0 (double, grid->n_cells);
    }
  look_at_ground (worth);
  look_at_slopes (worth);
  bool is_any_staying = false;
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    is_any_staying |= worth->staying_share[cell] > 0;
  worth->to_staying = is_any_staying ? steps_to (grid, worth->staying_share) : NULL;
  worth->to_canopy = grid->canopy != NULL ? steps_to (grid, grid->canopy) : NULL;
  look_at_swings (worth);
  for (int run = 0; run < N_RUNS; run++)
    for (int sector = 0; sector < N_SECTORS && !isnan (worth->descent[run]); sector++)
      {
        worth->worth[run][sector] = g_new0 (float, grid->n_cells);
        if (worth->is_anything_lost)
          worth->lost[run][sector] = g_new0 (float, grid->n_cells);
      }
  return worth;
}

void
worth_free (Worth *worth)
{
  if (worth == NULL)
    return;
  for (int sector = 0; sector < N_SECTORS; sector++)
    {
      g_free (worth->lost_share[sector]);
      g_free (worth->dropped[sector]);
      g_free (worth->slope_share[sector]);
      for (int run = 0; run < N_RUNS; run++)
        {
          g_free (worth->worth[run][sector]);
          g_free (worth->lost[run][sector]);
        }
    }
  g_free (worth->open);
  g_free (worth->staying);
  g_free (worth->staying_share);
  g_free (worth->run_share);
  g_free (worth->to_staying);
  g_free (worth->to_canopy);
  g_free (worth);
}
