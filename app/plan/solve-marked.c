// SPDX-License-Identifier: GPL-3.0-or-later
/* Marked cells of a grid, counted so that any box of cells is known to hold some or none at once (Crow 1984, SIGGRAPH 18:207). */
#include "solve-private.h"

#include <math.h>

struct _Marked
{
  int nx, ny;
  int *below; /* [ny + 1][nx + 1] marked cells in the rows and columns before */
};

Marked *
marked_new (const SolveGrid *grid, const guint8 *marks)
{
  Marked *marked = g_new (Marked, 1);
  int nx = grid->nx, ny = grid->ny, width = nx + 1;
  *marked = (Marked){ nx, ny, g_new0 (int, (size_t)width *(size_t)(ny + 1)) };
  for (int y = 0; y < ny; y++)
    for (int x = 0, row = 0; x < nx; x++)
      {
        row += marks[y * nx + x] != 0;
        marked->below[(y + 1) * width + x + 1] = marked->below[y * width + x + 1] + row;
      }
  return marked;
}

void
marked_free (Marked *marked)
{
  if (marked == NULL)
    return;
  g_free (marked->below);
  g_free (marked);
}

bool
marked_any (const Marked *marked, CellBox box)
{
  int width = marked->nx + 1, x0 = CLAMP (box.x0, 0, marked->nx - 1), x1 = CLAMP (box.x1, 0, marked->nx - 1) + 1;
  int y0 = CLAMP (box.y0, 0, marked->ny - 1), y1 = CLAMP (box.y1, 0, marked->ny - 1) + 1;
  const int *low = &marked->below[y0 * width], *high = &marked->below[y1 * width];
  return high[x1] - high[x0] - low[x1] + low[x0] > 0;
}

CellBox
cell_box_of_tile (const SolveGrid *grid, int tile)
{
  int tiles_x = (grid->nx + TILE - 1) / TILE, x0 = tile % tiles_x * TILE, y0 = tile / tiles_x * TILE;
  return (CellBox){ x0, y0, MIN (x0 + TILE, grid->nx) - 1, MIN (y0 + TILE, grid->ny) - 1 };
}

CellBox
cell_box_swept (CellBox box, Vec2 way, int beside)
{
  return (CellBox){ box.x0 + (int)floor (fmin (0, way.x)) - beside, box.y0 + (int)floor (fmin (0, way.y)) - beside,
                    box.x1 + (int)ceil (fmax (0, way.x)) + beside, box.y1 + (int)ceil (fmax (0, way.y)) + beside };
}
