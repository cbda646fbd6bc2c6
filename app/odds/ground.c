// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The ground under one shot. A spline through fifty heights is dear to ask thousands of times, so its heights and slopes are asked for at nodes of a
 * grid when they are first needed, and filled in between.
 */
#include "ground-private.h"
#include "odds-stance.h"

#include <math.h>

/* Width of the grid. Heights are measured tens of metres apart; what the filling in leaves out is a few millimetres. */
#define GRID_M 4.0
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
  if (ground->terrain != NULL)
    ground->nodes = g_new0 (GroundNode, GROUND_NODES);
}

void
ground_clear (Ground *ground)
{
  g_clear_pointer (&ground->nodes, g_free);
}

/* ---- height and slope ---- */

/* Mixes column and row so that neighbours fall apart (Teschner and others 2003, Optimized spatial hashing for collision detection). */
static size_t
slot_of (int column, int row)
{
  return (((unsigned)column * 73856093u) ^ ((unsigned)row * 19349663u)) % GROUND_NODES;
}

/* The node, asked for when it is not known; another that hashes alike gives way. */
static GroundNode
node_at (const Ground *ground, int column, int row)
{
  GroundNode *node = &ground->nodes[slot_of (column, row)];
  if (!node->is_known || node->column != column || node->row != row)
    {
      Vec2 at = vec2 (column * GRID_M, row * GRID_M);
      *node = (GroundNode){ column, row, true, terrain_height (ground->terrain, at), terrain_slope (ground->terrain, at) };
    }
  return *node;
}

/* The four nodes about a place weighed by nearness. Heights between them: half way between their mean and that of their tangents, exact where the ground is a
   quadratic. */
static void
look (const Ground *ground, Vec2 at, double *height_m, Vec2 *slope)
{
  double column = floor (at.x / GRID_M), row = floor (at.y / GRID_M);
  double u = at.x / GRID_M - column, v = at.y / GRID_M - row;
  *height_m = 0;
  *slope = vec2 (0, 0);
  for (int i = 0; i < 4; i++)
    {
      GroundNode node = node_at (ground, (int)column + (i & 1), (int)row + (i >> 1));
      double weight = ((i & 1) ? u : 1 - u) * ((i >> 1) ? v : 1 - v);
      Vec2 from = vec2_sub (at, vec2 (node.column * GRID_M, node.row * GRID_M));
      *height_m += weight * (node.height_m + 0.5 * vec2_dot (node.slope, from));
      *slope = vec2_add (*slope, vec2_scale (node.slope, weight));
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
