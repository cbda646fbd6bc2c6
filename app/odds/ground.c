// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The ground under one shot. A spline through fifty heights is dear to ask thousands of times, so its heights and slopes are taken from the nodes of the terrain's grid and filled in
 * between: heights are measured tens of metres apart, what that leaves out is a few millimetres.
 */
#include "ground-private.h"

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

static void
gather_slopes (Ground *ground)
{
  for (size_t i = 0; i < hole_n_parts (ground->hole); i++)
    {
      const Part *part = hole_part (ground->hole, i);
      Arrow arrow;
      if (part->kind == KIND_SPOT_HEIGHT && isfinite (part->height_m))
        {
          ground->low_m = fmin (ground->low_m, part->height_m);
          ground->high_m = fmax (ground->high_m, part->height_m);
        }
      if (!arrow_of (part, &arrow))
        continue;
      ground->arrows = (ArrowRange){ ground->n_arrows == 0 ? i : ground->arrows.first, i + 1 };
      ground->arrows_reach = box_union (ground->arrows_reach, arrow_reach (&arrow));
      if (ground->n_arrows < GROUND_MOST_ARROWS)
        ground->near_arrows[ground->n_arrows] = arrow;
      ground->n_arrows++;
    }
}

void
ground_init (Ground *ground, const Hole *hole, const Conditions *conditions)
{
  *ground = (Ground){ .hole = hole,
                      .terrain = hole_terrain (hole),
                      .conditions = conditions,
                      .arrows_reach = box_empty (),
                      .low_m = INFINITY,
                      .high_m = -INFINITY };
  gather_slopes (ground);
  for (int lie = 0; lie <= LIE_BUILDING; lie++)
    ground->surfaces[lie] = odds_surface ((Lie)lie, conditions);
}

/* ---- height and slope ---- */

/* A place within a cell of the terrain's grid: 0..1 from its lower left corner, the cell's number. */
typedef struct
{
  int column, row;
  double u, v;
} CellPlace;

static int
whole_below (double x)
{
  int whole = (int)x;
  return whole - (x < whole);
}

static CellPlace
cell_place (Vec2 at)
{
  double x = at.x * (1 / TERRAIN_NODE_M), y = at.y * (1 / TERRAIN_NODE_M);
  int column = whole_below (x), row = whole_below (y);
  return (CellPlace){ column, row, x - column, y - row };
}

/* Beyond this the grid's numbers would not fit; nothing on a hole is as far away. */
#define FARTHEST_M 1e7

static bool
is_on_grid (const Ground *ground, Vec2 at)
{
  return ground->terrain != NULL && fabs (at.x) < FARTHEST_M && fabs (at.y) < FARTHEST_M;
}

/* Half way between the mean of the corners' heights, weighed by nearness, and that of their tangents: exact where the ground is a quadratic. */
static double
tangent_height (const TerrainNode *corner, double from_u, double from_v)
{
  return corner->height_m + 0.5 * TERRAIN_NODE_M * (corner->slope.x * from_u + corner->slope.y * from_v);
}

double
ground_height (const void *data, Vec2 at)
{
  const Ground *ground = data;
  if (!is_on_grid (ground, at))
    return 0;
  TerrainNode room[4];
  CellPlace place = cell_place (at);
  TerrainCell cell = terrain_cell_at (ground->terrain, place.column, place.row, room);
  double u = place.u, v = place.v;
  double below_m = (1 - u) * tangent_height (&cell.below[0], u, v) + u * tangent_height (&cell.below[1], u - 1, v);
  double above_m = (1 - u) * tangent_height (&cell.above[0], u, v - 1) + u * tangent_height (&cell.above[1], u - 1, v - 1);
  return (1 - v) * below_m + v * above_m;
}

/* As arrow_slope. */
static bool
slope_by_arrow (const Ground *ground, Vec2 at, Vec2 *slope)
{
  if (ground->arrows.end == 0)
    return false;
  if (ground->n_arrows > GROUND_MOST_ARROWS)
    return arrow_slope (ground->hole, ground->arrows, at, slope);
  if (!box_contains (ground->arrows_reach, at))
    return false;
  const Arrow *found = arrow_nearest (ground->near_arrows, ground->n_arrows, at);
  if (found == NULL || terrain_covers (ground->terrain, at))
    return false;
  *slope = found->slope;
  return true;
}

Vec2
ground_slope (const Ground *ground, Vec2 at)
{
  Vec2 slope;
  if (slope_by_arrow (ground, at, &slope))
    return slope;
  if (!is_on_grid (ground, at))
    return vec2 (0, 0);
  TerrainNode room[4];
  CellPlace place = cell_place (at);
  TerrainCell cell = terrain_cell_at (ground->terrain, place.column, place.row, room);
  return vec2_lerp (vec2_lerp (cell.below[0].slope, cell.below[1].slope, place.u),
                    vec2_lerp (cell.above[0].slope, cell.above[1].slope, place.u), place.v);
}

Surface
ground_surface_of (const Ground *ground, Lie lie, Vec2 at)
{
  Surface surface = ground->surfaces[lie];
  surface.slope = ground_slope (ground, at);
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
  double here_m = ground_height (ground, above), low_m = ground->low_m, high_m = ground->high_m;
  return fmax (high_m, here_m) + OVERSHOOT_SHARE * fmax (high_m - low_m, fabs (high_m - here_m)) + OVERSHOOT_M - here_m;
}
