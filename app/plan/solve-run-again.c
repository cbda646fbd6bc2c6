// SPDX-License-Identifier: GPL-3.0-or-later
/* Balls of a hole that differs in little from one whose balls were followed: those rest as they did that come to none of what has changed. */
#include "solve-run-parts-private.h"

#include <math.h>
#include <string.h>

/* Cells beyond the way that a ball came at the most: it may stray a little, and a cell's turf is mixed by its neighbours'. */
#define BESIDE 3

static bool
is_same_lie (const SolveGrid *grid, const SolveGrid *before, int x, int y)
{
  int n = grid->lies_per_cell, x1 = MIN ((x + 1) * n, grid->lies_nx), y1 = MIN ((y + 1) * n, grid->lies_ny);
  for (int j = y * n; j < y1 && x * n < x1; j++)
    {
      size_t at = (size_t)j * (size_t)grid->lies_nx + (size_t)(x * n);
      if (memcmp (&grid->lies[at], &before->lies[at], (size_t)(x1 - x * n)) != 0)
        return false;
    }
  return true;
}

static float
slope_at (const float *slopes, size_t cell)
{
  return slopes != NULL ? slopes[cell] : 0;
}

/* Do balls find the same in the cell as on the hole before? */
static bool
is_same_cell (const Runs *runs, const Runs *before, size_t cell)
{
  const SolveGrid *grid = runs->grid, *old = before->grid;
  for (int part = 0; part < MOST_RESTS; part++)
    if (runs->start_x[part][cell] != before->start_x[part][cell] || runs->start_y[part][cell] != before->start_y[part][cell])
      return false;
  return runs->second_share[cell] == before->second_share[cell]
         && slope_at (grid->slope_x, cell) == slope_at (old->slope_x, cell)
         && slope_at (grid->slope_y, cell) == slope_at (old->slope_y, cell)
         && is_same_lie (grid, old, (int)(cell % (size_t)grid->nx), (int)(cell / (size_t)grid->nx));
}

/* Tiles from which balls may come to the cell have other balls now. */
static void
note_other (Runs *runs, size_t cell)
{
  int x = (int)(cell % (size_t)runs->grid->nx), y = (int)(cell / (size_t)runs->grid->nx);
  int tiles_y = runs->n_tiles / runs->tiles_x;
  for (int run = 0; run < N_RUNS; run++)
    {
      /* Of balls whose way is shortened at last it was longer. */
      int reach = (int)ceil (runs_farthest (runs, run) / fmin (1, runs->stretch[run])) + BESIDE;
      int i1 = MIN ((x + reach) / TILE, runs->tiles_x - 1), j1 = MIN ((y + reach) / TILE, tiles_y - 1);
      for (int j = MAX (y - reach, 0) / TILE; j <= j1; j++)
        for (int i = MAX (x - reach, 0) / TILE; i <= i1; i++)
          runs->is_same[(size_t)run * (size_t)runs->n_tiles + (size_t)(j * runs->tiles_x + i)] = false;
    }
}

void
runs_follow (Runs *runs, const Runs *before)
{
  size_t n = N_RUNS * (size_t)runs->n_tiles;
  for (int run = 0; run < N_RUNS; run++)
    runs_note_farthest (runs, run, runs_farthest (before, run));
  runs->before = before;
  runs->is_same = g_new (bool, n);
  memset (runs->is_same, true, n * sizeof *runs->is_same);
  for (size_t cell = 0; cell < runs->grid->n_cells; cell++)
    if (!is_same_cell (runs, before, cell))
      note_other (runs, cell);
}

void
runs_let_go (Runs *runs)
{
  runs->before = NULL;
  g_clear_pointer (&runs->is_same, g_free);
}

bool
runs_take_tile (Runs *runs, int run, int sector, int tile)
{
  const Runs *before = runs->before;
  size_t field = (size_t)(run * N_SECTORS + sector);
  if (before == NULL || !runs->is_same[(size_t)run * (size_t)runs->n_tiles + (size_t)tile]
      || g_atomic_int_get (&before->made[field * (size_t)runs->n_tiles + (size_t)tile]) != TILE_IS_MADE)
    return false;
  const SolveGrid *grid = runs->grid;
  int x0 = tile % runs->tiles_x * TILE, y0 = tile / runs->tiles_x * TILE;
  int x1 = MIN (x0 + TILE, grid->nx), y1 = MIN (y0 + TILE, grid->ny);
  for (int part = 0; part < MOST_RESTS; part++)
    for (int y = y0; y < y1; y++)
      {
        size_t at = (field * grid->n_cells + (size_t)y * (size_t)grid->nx + (size_t)x0) * 2;
        memcpy (&runs->rests[part][at], &before->rests[part][at], (size_t)(x1 - x0) * 2 * sizeof (gint16));
      }
  return true;
}
