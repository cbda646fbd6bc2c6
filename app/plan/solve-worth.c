// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What coming down in each cell is worth, tile by tile as it is looked at, and what of that never changes.
 */
#include "solve-run-private.h"

#include <math.h>
#include <string.h>

/* A row of sixteen cells may be read beyond the last one. */
#define FIELD_END 16
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
      double stays = 0;
      for (int lie = 0; lie < N_LIES; lie++)
        stays += solve_lie_stops ((Lie)lie) ? cover_at (grid, (Lie)lie, cell) : 0;
      worth->staying_share[cell] = stays > 1 - 1e-9 ? 1 : stays;
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
    for (int k = 0; k < ny; k++)
      {
        int by = pass == 0 ? -1 : 1, y = pass == 0 ? k : ny - 1 - k;
        guint8 *row = &steps[y * nx];
        if (y + by >= 0 && y + by < ny)
          for (int x = 0; x < nx; x++)
            {
              const guint8 *other = &steps[(y + by) * nx];
              int least = MIN (other[x], MIN (other[MAX (x - 1, 0)], other[MIN (x + 1, nx - 1)]));
              row[x] = (guint8)MIN (row[x], least + 1);
            }
        for (int n = 1; n < nx; n++)
          {
            int x = pass == 0 ? n : nx - 1 - n;
            row[x] = (guint8)MIN (row[x], row[x + by] + 1);
          }
      }
  return steps;
}

const double worth_runs_m[N_RUNS] = { 0, 2, 4.5, 7.5, 11, 15, 20, 26, 34, 46, 64 };

double
worth_run (double run_m)
{
  int run = 0;
  while (run < N_RUNS - 2 && run_m > worth_runs_m[run + 1])
    run++;
  return fmin (N_RUNS - 1, run + (run_m - worth_runs_m[run]) / (worth_runs_m[run + 1] - worth_runs_m[run]));
}

/* Where the ways a ball ends are few. */
static void
look_for_plain (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  worth->plain = g_new0 (guint8, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      size_t x = cell % (size_t)grid->nx, y = cell / (size_t)grid->nx, above = cell + (size_t)grid->nx;
      guint8 lie = grid->only[cell];
      if (!(worth->staying_share[cell] > 0))
        worth->plain[cell] |= WORTH_KEEPS_NONE;
      if (x + 1 < (size_t)grid->nx && y + 1 < (size_t)grid->ny && lie < N_LIES && grid->state_at[lie] != NULL
          && !solve_lie_stops ((Lie)lie) && grid->only[cell + 1] == lie && grid->only[above] == lie
          && grid->only[above + 1] == lie)
        worth->plain[cell] |= WORTH_RESTS_ALIKE;
    }
}

/* ---- all of them ---- */

/* Changes are told apart by squares of about this side, and what came to be better by such of four of them a side, or larger ones on a large hole. */
#define PATCH_M 8.0
#define LEAST_FALL_M 32.0

static void
look_for_squares (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  int side = (int)fmax (1, floor (LEAST_FALL_M / grid->cell_m + 0.5));
  while (((grid->nx - 1) / side + 1) * ((grid->ny - 1) / side + 1) > MOST_FALLS)
    side++;
  worth->fall_cells = side;
  worth->falls_x = (grid->nx - 1) / side + 1;
  worth->n_falls = worth->falls_x * ((grid->ny - 1) / side + 1);
  worth->falls = g_new (Fall, worth->n_falls);
}

/* All of one piece. */
static void
make_fields (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  size_t begins[1 + N_BLOCKS], n_fields = (size_t)N_RUNS * N_SECTORS * 2, n = 0;
  for (int size = 0; size <= N_BLOCKS; size++)
    {
      worth->width[size] = size == 0 ? grid->nx : (worth->width[size - 1] + 1) / 2;
      worth->height[size] = size == 0 ? grid->ny : (worth->height[size - 1] + 1) / 2;
      begins[size] = n;
      n += n_fields * (size_t)worth->width[size] * (size_t)worth->height[size] + FIELD_END;
    }
  void *from;
  worth->pages = pages_new (n * sizeof (float), &from);
  for (int size = 0; size <= N_BLOCKS; size++)
    worth->fields[size] = (float *)from + begins[size];
}

Worth *
worth_new (const SolveGrid *grid, const Conditions *conditions, const RunSwings *swings)
{
  Worth *worth = g_new0 (Worth, 1);
  worth->grid = grid;
  worth->runs = runs_new (grid, conditions, swings);
  worth->value = g_new0 (double, grid->n_states);
  worth->open = g_new0 (double, grid->n_cells);
  worth->staying = g_new0 (double, grid->n_cells);
  worth->open_now = g_new (double, grid->n_cells);
  worth->staying_now = g_new (double, grid->n_cells);
  worth->staying_share = g_new0 (double, grid->n_cells);
  for (int sector = 0; sector < N_SECTORS && grid->n_penalty > 0; sector++)
    worth->dropped[sector] = g_new0 (double, grid->n_penalty);
  for (int sector = 0; sector < N_SECTORS; sector++)
    worth->ways[sector] = solve_sector_unit (sector);
  look_at_ground (worth);
  look_for_plain (worth);
  bool is_any_staying = false;
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    is_any_staying |= worth->staying_share[cell] > 0;
  worth->to_staying = is_any_staying ? steps_to (grid, worth->staying_share) : NULL;
  worth->to_canopy = grid->canopy != NULL ? steps_to (grid, grid->canopy) : NULL;
  worth->tiles_x = (grid->nx + TILE - 1) / TILE;
  worth->tiles_y = (grid->ny + TILE - 1) / TILE;
  worth->n_tiles = (size_t)worth->tiles_x * (size_t)worth->tiles_y;
  make_fields (worth);
  worth->making = g_new0 (gint, N_RUNS * N_SECTORS * worth->n_tiles);
  worth->moved = g_new0 (guint8, grid->n_cells);
  worth->moved_above = g_new0 (guint8, grid->n_cells);
  look_for_squares (worth);
  worth_forget_falls (worth);
  worth->patch = (int)fmax (1, floor (PATCH_M / grid->cell_m + 0.5));
  worth->patches_x = (grid->nx + worth->patch - 1) / worth->patch;
  worth->patches_y = (grid->ny + worth->patch - 1) / worth->patch;
  size_t n_patches = (size_t)worth->patches_x * (size_t)worth->patches_y;
  worth->stirred = g_new0 (gint, n_patches);
  worth->leapt = g_new0 (gint, n_patches);
  worth->fell = g_new0 (gint, n_patches);
  worth->leapt_open = g_new0 (double, grid->n_cells);
  worth->leapt_above = grid->canopy != NULL ? g_new0 (double, grid->n_cells) : NULL;
  worth->ready = g_new0 (guint8, N_RUNS * N_SECTORS * worth->n_tiles);
  if (worth->tiles_x <= 64)
    {
      worth->ready_rows = g_new0 (guint64, N_RUNS * N_SECTORS * (size_t)worth->tiles_y);
      worth->lost_rows = g_new0 (guint64, N_RUNS * N_SECTORS * (size_t)worth->tiles_y);
    }
  worth->caught = g_new0 (const Caught *, N_RUNS *N_SECTORS * worth->n_tiles);
  return worth;
}

void
worth_free (Worth *worth)
{
  if (worth == NULL)
    return;
  for (int sector = 0; sector < N_SECTORS; sector++)
    g_free (worth->dropped[sector]);
  worth_let_go (worth);
  runs_free (worth->runs);
  pages_free (worth->pages);
  g_free (worth->making);
  g_free (worth->moved);
  g_free (worth->moved_above);
  g_free (worth->falls);
  g_free (worth->stirred);
  g_free (worth->leapt);
  g_free (worth->fell);
  g_free (worth->leapt_open);
  g_free (worth->leapt_above);
  worth_free_caught (worth);
  g_free (worth->ready);
  g_free (worth->ready_rows);
  g_free (worth->lost_rows);
  g_free (worth->value);
  g_free (worth->open);
  g_free (worth->staying);
  g_free (worth->open_now);
  g_free (worth->staying_now);
  g_free (worth->staying_share);
  g_free (worth->to_staying);
  g_free (worth->to_canopy);
  g_free (worth->plain);
  g_free (worth);
}
