// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The hole as cells for the whole-hole solver: how much of each cell is which lie, how high it is, what canopy stands over it, and where a ball that goes
 * into a penalty area there may be dropped.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* Places of a cell, along each side, at which its lie is looked at: first whether they are all alike, and where they are not, how many are which. */
#define N_GLANCES 3
#define N_LOOKS 10
/* Cells grow until a hole has no more of them than this, so that memory is bounded, 200 MB: 1000 x 390 m at 2 m. */
#define MOST_CELLS 98304
/* Round the drawing, so that what flies over its edge is still somewhere. */
#define MARGIN_M 10.0
/* A ball lies in a cell's penalty area when at least this much of the cell is one, as far as its way out is looked for. */
#define PENALTY_SHARE 0.5
/* Places back on the line, metres behind the crossing (Rule 17.1d(2) sets no limit; nobody walks back further, common practice). */
static const double back_m[] = { 2, 8, 16, 26, 38, 52, 70, 100 };
/* Lateral relief is within two club-lengths (Rule 17.1d(3)). */
#define LATERAL_M DROP_LATERAL_M

Lie
solve_lie (Lie lie)
{
  /* Whatever is mown short, and relief from what one need not play from (Rules 13.1f and 16.1). */
  static const Lie played[N_LIES]
      = { [LIE_NONE] = LIE_ROUGH,          [LIE_TEE] = LIE_FAIRWAY,     [LIE_FAIRWAY] = LIE_FAIRWAY,
          [LIE_FIRST_CUT] = LIE_FIRST_CUT, [LIE_ROUGH] = LIE_ROUGH,     [LIE_DEEP_ROUGH] = LIE_DEEP_ROUGH,
          [LIE_FRINGE] = LIE_FRINGE,       [LIE_GREEN] = LIE_GREEN,     [LIE_SAND] = LIE_SAND,
          [LIE_WASTE] = LIE_WASTE,         [LIE_PENALTY] = LIE_PENALTY, [LIE_OUT_OF_BOUNDS] = LIE_OUT_OF_BOUNDS,
          [LIE_TREES] = LIE_TREES,         [LIE_PATH] = LIE_PATH,       [LIE_BUILDING] = LIE_BUILDING };
  g_assert ((unsigned)lie < N_LIES);
  return played[lie];
}

bool
solve_lie_stops (Lie lie)
{
  return lie == LIE_SAND || lie == LIE_PENALTY || lie == LIE_OUT_OF_BOUNDS || lie == LIE_TREES || lie == LIE_BUILDING;
}

/* ---- places ---- */

Vec2
solve_grid_centre (const SolveGrid *grid, int cell)
{
  return vec2 (grid->origin.x + cell % grid->nx * grid->cell_m, grid->origin.y + cell / grid->nx * grid->cell_m);
}

int
solve_grid_cell (const SolveGrid *grid, Vec2 at)
{
  double x = floor ((at.x - grid->origin.x) / grid->cell_m + 0.5), y = floor ((at.y - grid->origin.y) / grid->cell_m + 0.5);
  return (int)fmax (0, fmin (grid->ny - 1, y)) * grid->nx + (int)fmax (0, fmin (grid->nx - 1, x));
}

double
solve_grid_height (const SolveGrid *grid, Vec2 at)
{
  if (grid->height_m == NULL)
    return 0;
  double x = fmax (0, fmin (grid->nx - 1.001, (at.x - grid->origin.x) / grid->cell_m));
  double y = fmax (0, fmin (grid->ny - 1.001, (at.y - grid->origin.y) / grid->cell_m));
  int i = (int)x, j = (int)y;
  double u = x - i, v = y - j;
  const double *row = &grid->height_m[j * grid->nx + i];
  return (1 - v) * ((1 - u) * row[0] + u * row[1]) + v * ((1 - u) * row[grid->nx] + u * row[grid->nx + 1]);
}

Vec2
solve_sector_unit (int sector)
{
  /* From the way up the hole, so that a mirrored hole has mirrored sectors. */
  double angle = PI / 2 + sector * (2 * PI / N_SECTORS);
  return vec2 (cos (angle), sin (angle));
}

int
solve_sector (Vec2 unit)
{
  double turn = (atan2 (unit.y, unit.x) - PI / 2) / (2 * PI / N_SECTORS);
  return ((int)floor (turn + 0.5) + 2 * N_SECTORS) % N_SECTORS;
}

/* ---- what the cells are covered with ---- */

static double *
cover_of (SolveGrid *grid, Lie lie)
{
  if (grid->cover[lie] == NULL)
    grid->cover[lie] = g_new0 (double, grid->n_cells);
  return grid->cover[lie];
}

/* A lattice of n x n places of a cell, each counted as one of them. False as soon as they are not all alike where they are asked to be. */
static bool
look_at_cell (SolveGrid *grid, const Hole *hole, size_t cell, int n, bool must_be_alike)
{
  Vec2 centre = solve_grid_centre (grid, (int)cell);
  Lie first = LIE_NONE;
  for (int k = 0; k < n * n; k++)
    {
      /* A glance goes to the very corners. */
      double first_off = must_be_alike ? 0.5 : 0.5 - 0.5 / n, step = 2 * first_off / (n - 1);
      Vec2 off = vec2 (k % n * step - first_off, k / n * step - first_off);
      Lie lie = solve_lie (hole_lie_at (hole, vec2_add (centre, vec2_scale (off, grid->cell_m))));
      if (k == 0)
        first = lie;
      if (must_be_alike && lie != first)
        return false;
      if (!must_be_alike)
        cover_of (grid, lie)[cell] += 1.0 / (n * n);
    }
  if (must_be_alike)
    cover_of (grid, first)[cell] = 1;
  return true;
}

static void
look_at_cells (SolveGrid *grid, const Hole *hole)
{
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    if (!look_at_cell (grid, hole, cell, N_GLANCES, true))
      look_at_cell (grid, hole, cell, N_LOOKS, false);
}

static void
look_at_heights (SolveGrid *grid, const Hole *hole)
{
  const Terrain *terrain = hole_terrain (hole);
  if (terrain == NULL)
    return;
  grid->height_m = g_new (double, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    grid->height_m[cell] = terrain_height (terrain, solve_grid_centre (grid, (int)cell));
}

static void
add_canopy (SolveGrid *grid, size_t cell, double density, double height_m)
{
  if (grid->canopy == NULL)
    {
      grid->canopy = g_new0 (double, grid->n_cells);
      grid->canopy_m = g_new0 (double, grid->n_cells);
    }
  grid->canopy[cell] = 1 - (1 - grid->canopy[cell]) * (1 - density);
  grid->canopy_m[cell] = fmax (grid->canopy_m[cell], height_m);
  grid->highest_canopy_m = fmax (grid->highest_canopy_m, height_m);
}

/* Does the part's canopy hang over a place? */
static bool
is_under (const Part *part, Vec2 at)
{
  if (part->kind == KIND_TREE)
    return vec2_distance (part->at, at) <= part->radius_m;
  return box_contains (part->bounds, at) && outline_contains (part->outline, at);
}

static void
look_at_trees (SolveGrid *grid, const Hole *hole)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind != KIND_TREES && part->kind != KIND_TREE)
        continue;
      double height_m = isnan (part->height_m) ? TREES_HEIGHT_M : part->height_m;
      double density = part->kind == KIND_TREE ? TREES_DENSITY : part->density;
      for (size_t cell = 0; cell < grid->n_cells; cell++)
        if (is_under (part, solve_grid_centre (grid, (int)cell)))
          add_canopy (grid, cell, density, height_m);
    }
}

/* ---- relief ---- */

static double
cover_at (const SolveGrid *grid, Lie lie, int cell)
{
  return grid->cover[lie] != NULL ? grid->cover[lie][cell] : 0;
}

static bool
is_in (const SolveGrid *grid, Vec2 at)
{
  double x = (at.x - grid->origin.x) / grid->cell_m, y = (at.y - grid->origin.y) / grid->cell_m;
  return x >= -0.5 && y >= -0.5 && x < grid->nx - 0.5 && y < grid->ny - 0.5;
}

static bool
is_playable (const SolveGrid *grid, Vec2 at)
{
  if (!is_in (grid, at))
    return false;
  int cell = solve_grid_cell (grid, at);
  return cover_at (grid, LIE_PENALTY, cell) + cover_at (grid, LIE_OUT_OF_BOUNDS, cell) < PENALTY_SHARE;
}

static void
add_drop (const SolveGrid *grid, Vec2 at, Relief *relief)
{
  if (relief->n_drops < MOST_DROPS && is_playable (grid, at))
    relief->drops[relief->n_drops++] = solve_grid_cell (grid, at);
}

bool
solve_relief (const SolveGrid *grid, int cell, Vec2 unit, Relief *relief)
{
  relief->n_drops = 0;
  double step_m = grid->cell_m / 2;
  Vec2 at = solve_grid_centre (grid, cell), back = vec2_scale (unit, -step_m);
  while (is_in (grid, at) && cover_at (grid, LIE_PENALTY, solve_grid_cell (grid, at)) >= PENALTY_SHARE)
    at = vec2_add (at, back);
  if (!is_in (grid, at))
    return false;
  if (grid->penalty_of[cell] >= 0 && grid->is_red[cell])
    {
      /* Two club-lengths off the edge, not nearer the hole; straight back where the ball came from is the usual place. */
      Vec2 side = vec2_left (unit);
      const Vec2 ways[] = { vec2_scale (unit, -1), side, vec2_scale (side, -1) };
      double hole_m = vec2_distance (at, grid->target);
      for (size_t i = 0; i < G_N_ELEMENTS (ways) && relief->n_drops < 2; i++)
        {
          Vec2 place = vec2_add (at, vec2_scale (ways[i], LATERAL_M));
          if (vec2_distance (place, grid->target) >= hole_m - step_m)
            add_drop (grid, place, relief);
        }
    }
  Vec2 away = vec2_unit (vec2_sub (at, grid->target));
  for (size_t i = 0; i < G_N_ELEMENTS (back_m); i++)
    add_drop (grid, vec2_add (at, vec2_scale (away, back_m[i])), relief);
  return relief->n_drops > 0;
}

static void
look_for_stakes (SolveGrid *grid, const Hole *hole)
{
  const double *penalty = grid->cover[LIE_PENALTY];
  if (penalty == NULL)
    return;
  grid->is_red = g_new0 (bool, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      if (!(penalty[cell] > 0))
        continue;
      int area = hole_area_at (hole, solve_grid_centre (grid, (int)cell));
      bool is_penalty = area >= 0 && kind_info (hole_part (hole, (size_t)area)->kind)->lie == LIE_PENALTY;
      grid->is_red[cell] = !is_penalty || hole_stakes (hole, (size_t)area) == STAKES_RED;
    }
}

static void
look_for_relief (SolveGrid *grid)
{
  const double *penalty = grid->cover[LIE_PENALTY];
  if (penalty == NULL)
    return;
  grid->penalty_of = g_new (int, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    grid->penalty_of[cell] = penalty[cell] > 0 ? (int)grid->n_penalty++ : -1;
  for (int sector = 0; sector < N_SECTORS; sector++)
    {
      grid->reliefs[sector] = g_new0 (Relief, grid->n_penalty);
      Vec2 unit = solve_sector_unit (sector);
      for (size_t cell = 0; cell < grid->n_cells; cell++)
        if (grid->penalty_of[cell] >= 0)
          solve_relief (grid, (int)cell, unit, &grid->reliefs[sector][grid->penalty_of[cell]]);
    }
}

/* ---- states ---- */

static bool
has_state (Lie lie)
{
  return lie != LIE_PENALTY && lie != LIE_OUT_OF_BOUNDS;
}

static void
count_states (SolveGrid *grid)
{
  for (int lie = 0; lie < N_LIES; lie++)
    {
      grid->lie_begins[lie] = grid->n_states;
      if (grid->cover[lie] == NULL || !has_state ((Lie)lie))
        continue;
      grid->state_at[lie] = g_new (int, grid->n_cells);
      for (size_t cell = 0; cell < grid->n_cells; cell++)
        grid->state_at[lie][cell] = grid->cover[lie][cell] > 0 ? (int)grid->n_states++ : -1;
    }
  grid->lie_begins[N_LIES] = grid->n_states;
  grid->state_cell = g_new (int, grid->n_states);
  grid->state_lie = g_new (Lie, grid->n_states);
  for (int lie = 0; lie < N_LIES; lie++)
    for (size_t cell = 0; grid->state_at[lie] != NULL && cell < grid->n_cells; cell++)
      if (grid->state_at[lie][cell] >= 0)
        {
          grid->state_cell[grid->state_at[lie][cell]] = (int)cell;
          grid->state_lie[grid->state_at[lie][cell]] = (Lie)lie;
        }
}

SolveGrid *
solve_grid_new (const Hole *hole, Vec2 target, double cell_m)
{
  SolveGrid *grid = g_new0 (SolveGrid, 1);
  Box box = box_grown (hole_extent (hole), MARGIN_M);
  double width_m = box.x1 - box.x0, height_m = box.y1 - box.y0;
  grid->cell_m = fmax (cell_m, sqrt (width_m * height_m / MOST_CELLS));
  grid->nx = (int)ceil (width_m / grid->cell_m) + 1;
  grid->ny = (int)ceil (height_m / grid->cell_m) + 1;
  grid->n_cells = (size_t)grid->nx * (size_t)grid->ny;
  grid->origin
      = vec2 ((box.x0 + box.x1 - (grid->nx - 1) * grid->cell_m) / 2, (box.y0 + box.y1 - (grid->ny - 1) * grid->cell_m) / 2);
  grid->target = target;
  look_at_cells (grid, hole);
  look_at_heights (grid, hole);
  look_at_trees (grid, hole);
  look_for_stakes (grid, hole);
  look_for_relief (grid);
  count_states (grid);
  return grid;
}

/* ---- larger cells ---- */

/* Mean of a block of small cells; the part of it that lies beyond the edge is as the rest. */
static double
mean_of_block (const SolveGrid *grid, const double *values, int x, int y, int factor)
{
  double sum = 0;
  int n = 0;
  for (int j = y * factor; j < (y + 1) * factor && j < grid->ny; j++)
    for (int i = x * factor; i < (x + 1) * factor && i < grid->nx; i++, n++)
      sum += values[j * grid->nx + i];
  return sum / n;
}

static double *
mean_of_blocks (const SolveGrid *grid, const double *values, const SolveGrid *coarser, int factor)
{
  if (values == NULL)
    return NULL;
  double *means = g_new (double, coarser->n_cells);
  for (int y = 0; y < coarser->ny; y++)
    for (int x = 0; x < coarser->nx; x++)
      means[y * coarser->nx + x] = mean_of_block (grid, values, x, y, factor);
  return means;
}

SolveGrid *
solve_grid_coarser (const SolveGrid *grid, int factor)
{
  SolveGrid *coarser = g_new0 (SolveGrid, 1);
  coarser->cell_m = factor * grid->cell_m;
  coarser->nx = (grid->nx + factor - 1) / factor;
  coarser->ny = (grid->ny + factor - 1) / factor;
  coarser->n_cells = (size_t)coarser->nx * (size_t)coarser->ny;
  double off_m = (factor - 1) * grid->cell_m / 2;
  coarser->origin = vec2_add (grid->origin, vec2 (off_m, off_m));
  coarser->target = grid->target;
  for (int lie = 0; lie < N_LIES; lie++)
    coarser->cover[lie] = mean_of_blocks (grid, grid->cover[lie], coarser, factor);
  coarser->height_m = mean_of_blocks (grid, grid->height_m, coarser, factor);
  coarser->canopy = mean_of_blocks (grid, grid->canopy, coarser, factor);
  coarser->canopy_m = mean_of_blocks (grid, grid->canopy_m, coarser, factor);
  coarser->highest_canopy_m = grid->highest_canopy_m;
  if (grid->is_red != NULL)
    {
      coarser->is_red = g_new (bool, coarser->n_cells);
      for (int y = 0; y < coarser->ny; y++)
        for (int x = 0; x < coarser->nx; x++)
          {
            int i = MIN (x * factor + factor / 2, grid->nx - 1), j = MIN (y * factor + factor / 2, grid->ny - 1);
            coarser->is_red[y * coarser->nx + x] = grid->is_red[j * grid->nx + i];
          }
    }
  look_for_relief (coarser);
  count_states (coarser);
  return coarser;
}

void
solve_grid_free (SolveGrid *grid)
{
  if (grid == NULL)
    return;
  for (int lie = 0; lie < N_LIES; lie++)
    {
      g_free (grid->cover[lie]);
      g_free (grid->state_at[lie]);
    }
  for (int sector = 0; sector < N_SECTORS; sector++)
    g_free (grid->reliefs[sector]);
  g_free (grid->height_m);
  g_free (grid->canopy);
  g_free (grid->canopy_m);
  g_free (grid->penalty_of);
  g_free (grid->is_red);
  g_free (grid->state_cell);
  g_free (grid->state_lie);
  g_free (grid->state_ends);
  g_free (grid);
}
