// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The sum over a spline's heights, several of them side by side. Before it includes this a source says
 *
 *     N_LANES       as in geometry-lanes.h
 *     TERRAIN_SUM   the name of the function
 */
#include "terrain-private.h"

#include "geometry-lanes.h"

/* Squares of lengths as small as that are none: their logarithm is not asked for. */
#define NO_LENGTH2 1e-300

SplineSum
TERRAIN_SUM (const SplineHeights *heights, Vec2 at)
{
  Lanes height = { 0 }, x = { 0 }, y = { 0 };
  for (size_t i = 0; i < heights->n_padded; i += N_LANES)
    {
      Lanes dx = at.x - lanes_load (heights->x + i), dy = at.y - lanes_load (heights->y + i);
      Lanes weight = lanes_load (heights->weights + i), r2 = dx * dx + dy * dy;
      Lanes ln = lanes_log (lanes_most (r2, lanes_all (NO_LENGTH2)));
      height += weight * r2 * ln;
      x += weight * dx * (ln + 1);
      y += weight * dy * (ln + 1);
    }
  SplineSum sum = { 0, { 0, 0 } };
  for (int i = 0; i < N_LANES; i++)
    {
      sum.height += 0.5 * height[i];
      sum.slope = vec2_add (sum.slope, vec2 (x[i], y[i]));
    }
  return sum;
}
