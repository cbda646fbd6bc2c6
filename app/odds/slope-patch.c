// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Slopes of the ground where thousands of balls run: asked for once at nodes of a grid, when they are first needed, and filled in between. Wider than the grid of one shot, for what a
 * chance needs: heights are measured tens of metres apart.
 */
#include "odds-stance.h"
#include "rest-private.h"

#include <math.h>
#include <string.h>

/* A wider patch than that is looked up as one shot's ground is. */
#define MOST_NODES 256
/* So is one that lies farther away than anything on a hole. */
#define FARTHEST_M 1e7

/* Do the heights lie round all of a cell? Then no arrow speaks there. */
static bool
is_covered (const SlopePatch *patch, double column, double row)
{
  const Terrain *terrain = patch->ground->terrain;
  bool is_all = terrain != NULL;
  for (int k = 0; k < 4 && is_all; k++)
    is_all = terrain_covers (
        terrain, vec2 ((patch->column + column + (k & 1)) * TERRAIN_NODE_M, (patch->row + row + (k >> 1)) * TERRAIN_NODE_M));
  return is_all;
}

/* Cells, by their first nodes, with places that an arrow may speak for. */
static void
mark_arrows (SlopePatch *patch)
{
  const Ground *ground = patch->ground;
  patch->is_by_arrow = g_new0 (bool, (size_t)patch->n_columns *(size_t)patch->n_rows);
  patch->arrows = g_array_new (FALSE, FALSE, sizeof (Arrow));
  for (size_t i = ground->arrows.first; i < ground->arrows.end; i++)
    {
      Arrow arrow;
      if (!arrow_of (hole_part (ground->hole, i), &arrow))
        continue;
      Box reach = arrow_reach (&arrow);
      double column0 = fmax (0, floor (reach.x0 / TERRAIN_NODE_M) - patch->column);
      double row0 = fmax (0, floor (reach.y0 / TERRAIN_NODE_M) - patch->row);
      double column1 = fmin (patch->n_columns - 1, floor (reach.x1 / TERRAIN_NODE_M) - patch->column);
      double row1 = fmin (patch->n_rows - 1, floor (reach.y1 / TERRAIN_NODE_M) - patch->row);
      for (double row = row0; row <= row1; row++)
        for (double column = column0; column <= column1; column++)
          if (!is_covered (patch, column, row))
            patch->is_by_arrow[(size_t)row * (size_t)patch->n_columns + (size_t)column] = true;
      if (column0 <= column1 && row0 <= row1)
        g_array_append_val (patch->arrows, arrow);
    }
}

/* As arrow_slope, among those that reach the box. */
static bool
slope_by_arrow (const SlopePatch *patch, Vec2 at, Vec2 *slope)
{
  const Arrow *found = arrow_nearest ((const Arrow *)(const void *)patch->arrows->data, patch->arrows->len, at);
  if (found == NULL || terrain_covers (patch->ground->terrain, at))
    return false;
  *slope = found->slope;
  return true;
}

static bool
is_level (const Ground *ground)
{
  return ground->terrain == NULL && ground->arrows.end == 0;
}

void
slope_patch_init (SlopePatch *patch, const Ground *ground, Box box)
{
  *patch = (SlopePatch){ .ground = ground };
  double columns = ceil ((box.x1 - box.x0) / TERRAIN_NODE_M) + 2, rows = ceil ((box.y1 - box.y0) / TERRAIN_NODE_M) + 2;
  bool is_near = fabs (box.x0) < FARTHEST_M && fabs (box.y0) < FARTHEST_M && columns <= MOST_NODES && rows <= MOST_NODES;
  if (is_level (ground) || !is_near)
    return;
  patch->column = (int)floor (box.x0 / TERRAIN_NODE_M);
  patch->row = (int)floor (box.y0 / TERRAIN_NODE_M);
  patch->n_columns = (int)columns;
  patch->n_rows = (int)rows;
  if (ground->arrows.end > 0)
    mark_arrows (patch);
  if (ground->terrain == NULL)
    return;
  size_t n = (size_t)patch->n_columns * (size_t)patch->n_rows;
  patch->slopes = g_new (Vec2, n);
  patch->is_known = g_new0 (bool, n);
}

void
slope_patch_clear (SlopePatch *patch)
{
  g_clear_pointer (&patch->slopes, g_free);
  g_clear_pointer (&patch->is_by_arrow, g_free);
  g_clear_pointer (&patch->arrows, g_array_unref);
  g_clear_pointer (&patch->is_known, g_free);
  g_clear_pointer (&patch->room, g_free);
}

/* Asks for a cell's four nodes. */
static void
know_cell (const SlopePatch *patch, size_t column, size_t row)
{
  size_t first = row * (size_t)patch->n_columns + column;
  TerrainNode nodes[4];
  terrain_cell (patch->ground->terrain, patch->column + (int)column, patch->row + (int)row, nodes);
  for (size_t k = 0; k < 4; k++)
    patch->slopes[first + (k >> 1) * (size_t)patch->n_columns + (k & 1)] = nodes[k].slope;
  patch->is_known[first] = true;
}

/* Both numbers of a slope at once. */
typedef double Pair __attribute__ ((vector_size (2 * sizeof (double))));

static inline Pair
pair_of (const Vec2 *slope)
{
  Pair pair;
  memcpy (&pair, slope, sizeof pair);
  return pair;
}

static inline Vec2
slope_at (const SlopePatch *patch, Vec2 at)
{
  const Ground *ground = patch->ground;
  double x = at.x * (1 / TERRAIN_NODE_M) - patch->column, y = at.y * (1 / TERRAIN_NODE_M) - patch->row;
  if (!(x >= 0 && y >= 0 && x < patch->n_columns - 1 && y < patch->n_rows - 1))
    return ground_slope (ground, at);
  int column = (int)x, row = (int)y;
  size_t first = (size_t)row * (size_t)patch->n_columns + (size_t)column;
  Vec2 slope = { 0, 0 };
  if (patch->is_by_arrow != NULL && patch->is_by_arrow[first] && slope_by_arrow (patch, at, &slope))
    return slope;
  if (patch->slopes == NULL)
    return slope;
  if (!patch->is_known[first])
    know_cell (patch, (size_t)column, (size_t)row);
  const Vec2 *below = &patch->slopes[first], *above = below + patch->n_columns;
  double u = x - column, v = y - row;
  Pair left = pair_of (below) + v * (pair_of (above) - pair_of (below)),
       right = pair_of (below + 1) + v * (pair_of (above + 1) - pair_of (below + 1)), between = left + u * (right - left);
  return vec2 (between[0], between[1]);
}

void
slope_patch_slopes (const SlopePatch *patch, const double *x_m, const double *y_m, size_t n, double *slope_x, double *slope_y)
{
  if (is_level (patch->ground))
    {
      memset (slope_x, 0, n * sizeof *slope_x);
      memset (slope_y, 0, n * sizeof *slope_y);
      return;
    }
  for (size_t i = 0; i < n; i++)
    {
      Vec2 slope = slope_at (patch, vec2 (x_m[i], y_m[i]));
      slope_x[i] = slope.x;
      slope_y[i] = slope.y;
    }
}
