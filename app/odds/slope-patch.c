// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Slopes of the ground where thousands of balls run: asked for once at nodes of a grid, when they are first needed, and filled in between. Wider than the grid of one shot, for what a
 * chance needs: heights are measured tens of metres apart.
 */
#include "rest-private.h"

#include <math.h>

#define PATCH_M 4.0
/* A wider patch than that is looked up as one shot's ground is. */
#define MOST_NODES 256

void
slope_patch_init (SlopePatch *patch, const Ground *ground, Box box)
{
  *patch = (SlopePatch){ .ground = ground };
  double columns = ceil ((box.x1 - box.x0) / PATCH_M) + 2, rows = ceil ((box.y1 - box.y0) / PATCH_M) + 2;
  if (ground->terrain == NULL || !(columns <= MOST_NODES && rows <= MOST_NODES))
    return;
  patch->origin = vec2 (PATCH_M * floor (box.x0 / PATCH_M), PATCH_M * floor (box.y0 / PATCH_M));
  patch->n_columns = (int)columns;
  patch->n_rows = (int)rows;
  size_t n = (size_t)patch->n_columns * (size_t)patch->n_rows;
  patch->slopes = g_new (Vec2, n);
  for (size_t i = 0; i < n; i++)
    patch->slopes[i].x = NAN;
}

void
slope_patch_clear (SlopePatch *patch)
{
  g_clear_pointer (&patch->slopes, g_free);
}

static Vec2
slope_at_node (const SlopePatch *patch, int column, int row)
{
  Vec2 *slope = &patch->slopes[row * patch->n_columns + column];
  if (isnan (slope->x))
    *slope = terrain_slope (patch->ground->terrain, vec2_add (patch->origin, vec2 (column * PATCH_M, row * PATCH_M)));
  return *slope;
}

Surface
slope_patch_surface (const SlopePatch *patch, Lie lie, Vec2 at)
{
  const Ground *ground = patch->ground;
  if (ground->terrain == NULL)
    return ground->surfaces[lie];
  double x = (at.x - patch->origin.x) / PATCH_M, y = (at.y - patch->origin.y) / PATCH_M;
  if (patch->slopes == NULL || !(x >= 0 && y >= 0 && x < patch->n_columns - 1 && y < patch->n_rows - 1))
    return ground_surface_of (ground, lie, at);
  Surface surface = ground->surfaces[lie];
  int column = (int)x, row = (int)y;
  Vec2 below = vec2_lerp (slope_at_node (patch, column, row), slope_at_node (patch, column + 1, row), x - column);
  Vec2 above = vec2_lerp (slope_at_node (patch, column, row + 1), slope_at_node (patch, column + 1, row + 1), x - column);
  surface.slope = vec2_lerp (below, above, y - row);
  return surface;
}
