// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The hole as cells for the whole-hole solver: where they lie, where a ball that goes into a penalty area there may be dropped, and which states they have.
 */
#include "odds-stance.h"
#include "solve-private.h"

#include <math.h>
#include <string.h>

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

/* ---- slopes ---- */

static void
look_at_slopes (SolveGrid *grid)
{
  const double *height_m = grid->height_m;
  if (height_m == NULL)
    return;
  grid->slope_x = g_new (float, grid->n_cells);
  grid->slope_y = g_new (float, grid->n_cells);
  for (int y = 0; y < grid->ny; y++)
    for (int x = 0; x < grid->nx; x++)
      {
        int west = MAX (x - 1, 0), east = MIN (x + 1, grid->nx - 1), south = MAX (y - 1, 0), north = MIN (y + 1, grid->ny - 1);
        size_t cell = (size_t)(y * grid->nx + x);
        grid->slope_x[cell]
            = (float)((height_m[y * grid->nx + east] - height_m[y * grid->nx + west]) / (MAX (1, east - west) * grid->cell_m));
        grid->slope_y[cell] = (float)((height_m[north * grid->nx + x] - height_m[south * grid->nx + x])
                                      / (MAX (1, north - south) * grid->cell_m));
      }
}

/* Where no heights lie round a place its arrow says how it tilts. */
static void
tilt_by_arrows (SolveGrid *grid, const Hole *hole)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind != KIND_SLOPE)
        continue;
      Box box = box_grown (part->bounds, STANCE_ARROW_M);
      for (double y = box.y0; y < box.y1 + grid->cell_m; y += grid->cell_m)
        for (double x = box.x0; x < box.x1 + grid->cell_m; x += grid->cell_m)
          {
            Vec2 slope;
            int cell = solve_grid_cell (grid, vec2 (x, y));
            if (!odds_stance_arrow (hole, solve_grid_centre (grid, cell), &slope))
              continue;
            grid->slope_x[cell] = (float)slope.x;
            grid->slope_y[cell] = (float)slope.y;
          }
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

/* Is most of the cell about a place, counted in cells, penalty area? */
static bool
is_penalty (const SolveGrid *grid, double x, double y)
{
  return grid->cover[LIE_PENALTY][(int)(y + 0.5) * grid->nx + (int)(x + 0.5)] >= PENALTY_SHARE;
}

bool
solve_relief (const SolveGrid *grid, int cell, Vec2 unit, Relief *relief)
{
  relief->n_drops = 0;
  double step_m = grid->cell_m / 2, x = cell % grid->nx, y = cell / grid->nx, last_x = grid->nx - 0.5, last_y = grid->ny - 0.5;
  /* Half a cell at a time, the first time a quarter: along an axis no step ends on an edge, so that a mirrored hole has the mirrored relief. */
  double step = 0.25;
  bool is_inside = true;
  while (is_inside && is_penalty (grid, x, y))
    {
      x -= step * unit.x;
      y -= step * unit.y;
      step = 0.5;
      is_inside = x >= -0.5 && y >= -0.5 && x < last_x && y < last_y;
    }
  if (!is_inside)
    return false;
  Vec2 at = vec2_add (grid->origin, vec2 (x * grid->cell_m, y * grid->cell_m));
  if (grid->penalty_of[cell] >= 0 && grid->is_red[cell])
    {
      /* Two club-lengths off the edge, not nearer the hole; straight back where the ball came from is the usual place. */
      Vec2 side = vec2_left (unit);
      const Vec2 ways[] = { vec2_scale (unit, -1), side, vec2_scale (side, -1) };
      double hole_m = vec2_distance (at, grid->target);
      for (size_t i = 0; i < G_N_ELEMENTS (ways); i++)
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

typedef struct
{
  SolveGrid *grid;
  const gint *cancel;
} Search;

static void
look_one_way (void *data, size_t sector)
{
  const Search *search = data;
  SolveGrid *grid = search->grid;
  Vec2 unit = solve_sector_unit ((int)sector);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    if (grid->penalty_of[cell] >= 0)
      solve_relief (grid, (int)cell, unit, &grid->reliefs[sector][grid->penalty_of[cell]]);
}

static bool
is_alike (const double *a, const double *b, size_t n)
{
  return (a == NULL) == (b == NULL) && (a == NULL || memcmp (a, b, n * sizeof *a) == 0);
}

bool
solve_grid_lies_as (const SolveGrid *grid, const SolveGrid *other)
{
  return grid->cell_m == other->cell_m && grid->nx == other->nx && grid->ny == other->ny && grid->origin.x == other->origin.x
         && grid->origin.y == other->origin.y && grid->target.x == other->target.x && grid->target.y == other->target.y;
}

/* May a ball be dropped where it could on the other grid, which lies as this one? */
static bool
has_same_relief (const SolveGrid *grid, const SolveGrid *other)
{
  return is_alike (grid->cover[LIE_PENALTY], other->cover[LIE_PENALTY], grid->n_cells)
         && is_alike (grid->cover[LIE_OUT_OF_BOUNDS], other->cover[LIE_OUT_OF_BOUNDS], grid->n_cells)
         && (grid->is_red == NULL || memcmp (grid->is_red, other->is_red, grid->n_cells * sizeof *grid->is_red) == 0);
}

bool
solve_grid_look_for_relief (SolveGrid *grid, const SolveGrid *like, int n_threads, const gint *cancel)
{
  const double *penalty = grid->cover[LIE_PENALTY];
  if (penalty == NULL)
    return true;
  grid->penalty_of = g_new (int, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    grid->penalty_of[cell] = penalty[cell] > 0 ? (int)grid->n_penalty++ : -1;
  bool is_known = like != NULL && solve_grid_lies_as (grid, like) && has_same_relief (grid, like);
  for (int sector = 0; sector < N_SECTORS; sector++)
    grid->reliefs[sector]
        = is_known ? g_memdup2 (like->reliefs[sector], grid->n_penalty * sizeof (Relief)) : g_new0 (Relief, grid->n_penalty);
  Search search = { grid, cancel };
  return is_known || solve_crew (n_threads, N_SECTORS, look_one_way, &search, cancel);
}

/* ---- states ---- */

static bool
has_state (Lie lie)
{
  return lie != LIE_PENALTY && lie != LIE_OUT_OF_BOUNDS;
}

static void
look_for_only (SolveGrid *grid)
{
  grid->only = g_new (guint8, grid->n_cells);
  memset (grid->only, N_LIES, grid->n_cells);
  for (int lie = 0; lie < N_LIES; lie++)
    for (size_t cell = 0; grid->cover[lie] != NULL && cell < grid->n_cells; cell++)
      if (grid->cover[lie][cell] == 1)
        grid->only[cell] = (guint8)lie;
}

/* Is there a state of the lie in a cell? Under every canopy there is one of trees, for what that catches. */
static bool
is_state (const SolveGrid *grid, Lie lie, size_t cell)
{
  return grid->cover[lie][cell] > 0 || (lie == LIE_TREES && grid->canopy != NULL && grid->canopy[cell] > 0);
}

static void
count_states (SolveGrid *grid)
{
  if (grid->canopy != NULL && grid->cover[LIE_TREES] == NULL)
    grid->cover[LIE_TREES] = g_new0 (double, grid->n_cells);
  look_for_only (grid);
  for (int lie = 0; lie < N_LIES; lie++)
    {
      grid->lie_begins[lie] = grid->n_states;
      if (grid->cover[lie] == NULL || !has_state ((Lie)lie))
        continue;
      grid->state_at[lie] = g_new (int, grid->n_cells);
      for (size_t cell = 0; cell < grid->n_cells; cell++)
        grid->state_at[lie][cell] = is_state (grid, (Lie)lie, cell) ? (int)grid->n_states++ : -1;
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
solve_grid_new (const Hole *hole, Vec2 target, double cell_m, const Hole *old_hole, const SolveGrid *old, int n_threads,
                const gint *cancel)
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
  if (old != NULL && !solve_grid_lies_as (grid, old))
    old = NULL;
  if (!solve_ground_look (grid, hole, old_hole, old, n_threads, cancel))
    {
      solve_grid_free (grid);
      return NULL;
    }
  look_at_slopes (grid);
  tilt_by_arrows (grid, hole);
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

static float *
slopes_of_blocks (const SolveGrid *grid, const float *slopes, const SolveGrid *coarser, int factor)
{
  if (slopes == NULL)
    return NULL;
  g_autofree double *fine = g_new (double, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    fine[cell] = (double)slopes[cell];
  g_autofree double *means = mean_of_blocks (grid, fine, coarser, factor);
  float *blocks = g_new (float, coarser->n_cells);
  for (size_t cell = 0; cell < coarser->n_cells; cell++)
    blocks[cell] = (float)means[cell];
  return blocks;
}

SolveGrid *
solve_grid_coarser (const SolveGrid *grid, int factor, const SolveGrid *old, int n_threads, const gint *cancel)
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
  coarser->lies = g_atomic_rc_box_acquire (grid->lies);
  coarser->lies_per_cell = factor * grid->lies_per_cell;
  coarser->lies_nx = grid->lies_nx;
  coarser->lies_ny = grid->lies_ny;
  coarser->height_m = mean_of_blocks (grid, grid->height_m, coarser, factor);
  coarser->slope_x = slopes_of_blocks (grid, grid->slope_x, coarser, factor);
  coarser->slope_y = slopes_of_blocks (grid, grid->slope_y, coarser, factor);
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
  if (!solve_grid_look_for_relief (coarser, old, n_threads, cancel))
    {
      solve_grid_free (coarser);
      return NULL;
    }
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
  g_free (grid->only);
  if (grid->lies != NULL)
    g_atomic_rc_box_release (grid->lies);
  g_free (grid->height_m);
  g_free (grid->slope_x);
  g_free (grid->slope_y);
  g_free (grid->canopy);
  g_free (grid->canopy_m);
  g_free (grid->penalty_of);
  g_free (grid->is_red);
  g_free (grid->state_cell);
  g_free (grid->state_lie);
  g_free (grid->state_ends);
  g_free (grid);
}
