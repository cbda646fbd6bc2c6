// SPDX-License-Identifier: GPL-3.0-or-later
/* Balls of a hole that differs in little from one whose balls were followed: those rest as they did that come to none of what has changed. */
#include "solve-run-parts-private.h"

#include <math.h>
#include <string.h>

/* Cells beyond those that balls came to: pieces of their roll were tried a little farther, balls of the next tiles stand for some of its cells, and a cell's turf is mixed by its
   neighbours'. */
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

void
runs_follow (Runs *runs, const Runs *before)
{
  g_autofree guint8 *others = g_new (guint8, runs->grid->n_cells);
  for (size_t cell = 0; cell < runs->grid->n_cells; cell++)
    others[cell] = !is_same_cell (runs, before, cell);
  for (int run = 0; run < N_RUNS; run++)
    for (int sector = 0; sector < N_SECTORS; sector++)
      runs_note_extent (runs, run, sector, runs_extent (before, run, sector));
  runs->before = before;
  runs->others = marked_new (runs->grid, others);
}

void
runs_let_go (Runs *runs)
{
  runs->before = NULL;
  g_clear_pointer (&runs->others, marked_free);
}

bool
runs_is_same (const Runs *runs, int run, int sector, int tile)
{
  const Runs *before = runs->before;
  size_t at = (size_t)(run * N_SECTORS + sector) * (size_t)runs->n_tiles + (size_t)tile;
  if (before == NULL || g_atomic_int_get (&before->made[at]) != TILE_IS_MADE)
    return false;
  CellBox way = before->tiles[at]->way;
  return !marked_any (runs->others, (CellBox){ way.x0 - BESIDE, way.y0 - BESIDE, way.x1 + BESIDE, way.y1 + BESIDE });
}

RestTile *
runs_take_tile (const Runs *runs, int run, int sector, int tile)
{
  size_t at = (size_t)(run * N_SECTORS + sector) * (size_t)runs->n_tiles + (size_t)tile;
  return runs_is_same (runs, run, sector, tile) ? g_atomic_rc_box_acquire (runs->before->tiles[at]) : NULL;
}
