// SPDX-License-Identifier: GPL-3.0-or-later
/* The ground that balls of a plan come down on: the turf of the cells, and where in a cell of several lies. */
#include "solve-run-parts-private.h"

/* In cells up to this size balls come down in every second cell only, and between them straight, but where the turf about them is not one. */
#define LATTICE_M 3.0

static void
look_at_turf (Runs *runs, const Conditions *conditions)
{
  for (int lie = 0; lie < N_LIES; lie++)
    {
      Surface surface = odds_surface ((Lie)lie, conditions);
      runs->bounce[lie] = (float)surface.bounce;
      runs->hold[lie] = (float)surface.roll_decel_mps2;
      runs->stays[lie] = solve_lie_stops ((Lie)lie);
      runs->friction = surface.friction;
      runs->crater = surface.crater;
    }
}

/* A part of a cell: fine places, summed up. */
typedef struct
{
  double x, y;
  int n;
} Patch;

/* The cell's largest part of one lie that keeps nothing, and all else that keeps nothing. */
static void
look_at_patches (const Runs *runs, size_t cell, Patch patches[MOST_RESTS])
{
  const SolveGrid *grid = runs->grid;
  int n = grid->lies_per_cell, x = (int)(cell % (size_t)grid->nx), y = (int)(cell / (size_t)grid->nx), largest = 0;
  Patch by_lie[N_LIES] = { { 0, 0, 0 } };
  for (int k = 0; k < n * n; k++)
    {
      double off_x = (k % n + 0.5) / n - 0.5, off_y = (k / n + 0.5) / n - 0.5;
      Lie lie = solve_grid_lie (grid, x + off_x, y + off_y);
      if (runs->stays[lie])
        continue;
      by_lie[lie].x += off_x;
      by_lie[lie].y += off_y;
      by_lie[lie].n++;
      largest = by_lie[lie].n > by_lie[largest].n || (by_lie[lie].n == by_lie[largest].n && (int)lie < largest) ? (int)lie
                                                                                                                : largest;
    }
  for (int lie = 0; lie < N_LIES; lie++)
    {
      Patch *patch = &patches[lie != largest];
      patch->x += by_lie[lie].x;
      patch->y += by_lie[lie].y;
      patch->n += by_lie[lie].n;
    }
}

static void
look_for_starts (Runs *runs)
{
  const SolveGrid *grid = runs->grid;
  for (int k = 0; k < MOST_RESTS; k++)
    {
      runs->start_x[k] = g_new0 (float, grid->n_cells);
      runs->start_y[k] = g_new0 (float, grid->n_cells);
    }
  runs->second_share = g_new0 (float, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      Patch patches[MOST_RESTS] = { { 0, 0, 0 } };
      if (grid->only[cell] < N_LIES)
        continue;
      look_at_patches (runs, cell, patches);
      int n = patches[0].n + patches[1].n;
      runs->second_share[cell] = (float)(n > 0 ? (double)patches[1].n / n : 0);
      for (int k = 0; k < MOST_RESTS && patches[k].n > 0; k++)
        {
          runs->start_x[k][cell] = (float)(patches[k].x / patches[k].n);
          runs->start_y[k][cell] = (float)(patches[k].y / patches[k].n);
        }
    }
}

/* Is all of the cell one lie, and the same as in those about it? */
static bool
is_same_turf (const SolveGrid *grid, int x, int y)
{
  guint8 lie = grid->only[y * grid->nx + x];
  int x0 = MAX (x - 1, 0), x1 = MIN (x + 1, grid->nx - 1), y1 = MIN (y + 1, grid->ny - 1);
  for (int j = MAX (y - 1, 0); j <= y1; j++)
    for (int i = x0; i <= x1; i++)
      if (grid->only[j * grid->nx + i] != lie)
        return false;
  return lie < N_LIES;
}

static void
look_for_mixed (Runs *runs)
{
  const SolveGrid *grid = runs->grid;
  g_autofree guint8 *is_mixed = g_new0 (guint8, grid->n_cells);
  for (int y = 0; y < grid->ny; y++)
    for (int x = 0; x < grid->nx; x++)
      is_mixed[y * grid->nx + x] = !is_same_turf (grid, x, y);
  if (grid->slope_x == NULL)
    runs->edges = marked_new (grid, is_mixed);
  if (grid->cell_m <= LATTICE_M)
    runs->is_mixed = g_steal_pointer (&is_mixed);
}

void
runs_look_at_ground (Runs *runs, const Conditions *conditions)
{
  look_at_turf (runs, conditions);
  look_for_starts (runs);
  look_for_mixed (runs);
}
