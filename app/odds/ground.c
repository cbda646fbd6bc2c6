// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The ground under one shot. A spline through fifty heights is dear to ask thousands of times, so its heights and slopes are taken from the nodes of the terrain's grid and filled in
 * between: heights are measured tens of metres apart, what that leaves out is a few millimetres.
 */
#include "ground-private.h"
#include "odds-stance.h"

#include <math.h>

/* The spline may rise over its highest height by a share of what the heights span. */
#define OVERSHOOT_SHARE 0.5
#define OVERSHOOT_M 1.0

/* ---- what a ball meets, by lie ---- */

/* Speed at which a ball leaves the stimpmeter: 6.00 ft/s (Holmes 1991, Am. J. Phys. 59:129; from memory). */
#define STIMPMETER_MPS 1.83
#define METRES_PER_FOOT 0.3048

/*
 * What a lie does to turf of the day's firmness: factors on the restitution and on the deceleration of a rolling ball. Common practice, but that balls stay
 * in sand, water, penalty areas, among trees and at buildings, which the plan must not count on being better than.
 */
static const struct
{
  double bounce, rolling;
  bool stops;
} lie_table[LIE_BUILDING + 1] = {
  [LIE_NONE] = { 0.7, 3, false },   [LIE_TEE] = { 1, 1, false },
  [LIE_FAIRWAY] = { 1, 1, false },  [LIE_FIRST_CUT] = { 0.9, 1.5, false },
  [LIE_ROUGH] = { 0.7, 3, false },  [LIE_DEEP_ROUGH] = { 0.4, 8, false },
  [LIE_FRINGE] = { 1, 0.8, false }, [LIE_GREEN] = { 1, 0, false }, /* rolls by the green's speed */
  [LIE_SAND] = { 0, 1, true },      [LIE_WASTE] = { 0.6, 3, false },
  [LIE_PENALTY] = { 0, 1, true },   [LIE_OUT_OF_BOUNDS] = { 0.7, 3, false },
  [LIE_TREES] = { 0, 1, true },     [LIE_PATH] = { 1.5, 0.6, false },
  [LIE_BUILDING] = { 0, 1, true },
};

Surface
odds_surface (Lie lie, const Conditions *conditions)
{
  g_assert ((unsigned)lie < N_LIES);
  Surface surface = surface_turf (conditions->firmness);
  surface.bounce *= lie_table[lie].bounce;
  surface.roll_decel_mps2 *= lie_table[lie].rolling;
  surface.stops = lie_table[lie].stops;
  if (lie == LIE_GREEN)
    surface.roll_decel_mps2 = STIMPMETER_MPS * STIMPMETER_MPS / (2 * conditions->green_speed_ft * METRES_PER_FOOT);
  return surface;
}

void
ground_init (Ground *ground, const Hole *hole, const Conditions *conditions)
{
  *ground = (Ground){ .hole = hole, .terrain = hole_terrain (hole), .conditions = conditions };
  for (int lie = 0; lie <= LIE_BUILDING; lie++)
    ground->surfaces[lie] = odds_surface ((Lie)lie, conditions);
}

/* ---- height and slope ---- */

/* The four nodes about a place weighed by nearness. Heights between them: half way between their mean and that of their tangents, exact where the ground is a
   quadratic. */
static void
look (const Ground *ground, Vec2 at, double *height_m, Vec2 *slope)
{
  double column = floor (at.x / TERRAIN_NODE_M), row = floor (at.y / TERRAIN_NODE_M);
  double u = at.x / TERRAIN_NODE_M - column, v = at.y / TERRAIN_NODE_M - row;
  TerrainNode nodes[4];
  terrain_cell (ground->terrain, (int)column, (int)row, nodes);
  *height_m = 0;
  *slope = vec2 (0, 0);
  for (int i = 0; i < 4; i++)
    {
      double weight = ((i & 1) ? u : 1 - u) * ((i >> 1) ? v : 1 - v);
      Vec2 from = vec2 (TERRAIN_NODE_M * (u - (i & 1)), TERRAIN_NODE_M * (v - (i >> 1)));
      *height_m += weight * (nodes[i].height_m + 0.5 * vec2_dot (nodes[i].slope, from));
      *slope = vec2_add (*slope, vec2_scale (nodes[i].slope, weight));
    }
}

/* Beyond this the grid's numbers would not fit; nothing on a hole is as far away. */
#define FARTHEST_M 1e7

double
ground_height (const void *data, Vec2 at)
{
  const Ground *ground = data;
  double height_m;
  Vec2 slope;
  if (ground->terrain == NULL || !(fabs (at.x) < FARTHEST_M && fabs (at.y) < FARTHEST_M))
    return 0;
  look (ground, at, &height_m, &slope);
  return height_m;
}

Vec2
ground_slope (const Ground *ground, Vec2 at)
{
  double height_m;
  Vec2 slope = { 0, 0 };
  if (ground->terrain != NULL && fabs (at.x) < FARTHEST_M && fabs (at.y) < FARTHEST_M)
    look (ground, at, &height_m, &slope);
  return slope;
}

Vec2
ground_stance (const Ground *ground, Vec2 ball)
{
  Vec2 slope;
  return odds_stance_arrow (ground->hole, ball, &slope) ? slope : ground_slope (ground, ball);
}

Surface
ground_surface_of (const Ground *ground, Lie lie, Vec2 at)
{
  Surface surface = ground->surfaces[lie];
  double height_m;
  if (ground->terrain != NULL && fabs (at.x) < FARTHEST_M && fabs (at.y) < FARTHEST_M)
    look (ground, at, &height_m, &surface.slope);
  return surface;
}

Surface
ground_surface (const void *data, Vec2 at)
{
  const Ground *ground = data;
  return ground_surface_of (ground, hole_lie_at (ground->hole, at), at);
}

double
ground_rise (const Ground *ground, Vec2 above)
{
  double low_m = INFINITY, high_m = -INFINITY;
  for (size_t i = 0; i < hole_n_parts (ground->hole); i++)
    {
      const Part *part = hole_part (ground->hole, i);
      if (part->kind != KIND_SPOT_HEIGHT || !isfinite (part->height_m))
        continue;
      low_m = fmin (low_m, part->height_m);
      high_m = fmax (high_m, part->height_m);
    }
  double here_m = ground_height (ground, above);
  return fmax (high_m, here_m) + OVERSHOOT_SHARE * fmax (high_m - low_m, fabs (high_m - here_m)) + OVERSHOOT_M - here_m;
}
