// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the cells of a hole are covered with, how high they are, what canopy stands over them and which stakes; of a hole that was changed a little only
 * where it was.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* A cell is looked at in its corners, the middles of its sides and its own, all shared with the cells beside it; where they are not alike, at so many places along each side. */
#define N_LOOKS 10
/* Rows of cells that a thread takes at a time. */
#define BAND 8
#define MIXED 0xff

typedef struct
{
  SolveGrid *grid;
  const Hole *hole;
  Box sheet;              /* beyond it all is as at its edge */
  const guint8 *lies;     /* [area + 1] to play from */
  const guint8 *is_stale; /* [cell] to be looked at; NULL: all are */
  gint is_used[N_LIES];   /* atomic: some cell has that lie */
} Ground;

/* ---- covers ---- */

/* So far within the sheet lies what is at its edge. */
#define WITHIN_EDGE_M 0.01

/* The place on the sheet that is nearest to one. */
static Vec2
on_sheet (const Ground *ground, Vec2 at)
{
  const Box *sheet = &ground->sheet;
  return vec2 (CLAMP (at.x, sheet->x0 + WITHIN_EDGE_M, sheet->x1 - WITHIN_EDGE_M),
               CLAMP (at.y, sheet->y0 + WITHIN_EDGE_M, sheet->y1 - WITHIN_EDGE_M));
}

/* Places that are looked up together, in cells from the middle of the first, and where their lies go. */
#define N_TOGETHER 64
typedef struct
{
  const Ground *ground;
  double x_m[N_TOGETHER], y_m[N_TOGETHER];
  guint8 *to[N_TOGETHER];
  size_t n;
} Looks;

static void
begin_looks (Looks *looks, const Ground *ground)
{
  looks->ground = ground;
  looks->n = 0;
}

static void
look_up (Looks *looks)
{
  int areas[N_TOGETHER];
  hole_areas_at (looks->ground->hole, looks->x_m, looks->y_m, looks->n, areas);
  for (size_t i = 0; i < looks->n; i++)
    *looks->to[i] = looks->ground->lies[areas[i] + 1];
  looks->n = 0;
}

/* What is asked for last is there once look_up was called. */
static void
ask_lie (Looks *looks, double x, double y, guint8 *to)
{
  const SolveGrid *grid = looks->ground->grid;
  Vec2 at = on_sheet (looks->ground, vec2_add (grid->origin, vec2 (x * grid->cell_m, y * grid->cell_m)));
  looks->x_m[looks->n] = at.x;
  looks->y_m[looks->n] = at.y;
  looks->to[looks->n++] = to;
  if (looks->n == N_TOGETHER)
    look_up (looks);
}

static void
add_cover (Ground *ground, size_t cell, Lie lie, double share)
{
  ground->grid->cover[lie][cell] += share;
  g_atomic_int_set (&ground->is_used[lie], 1);
}

static void
look_at_mixed_cell (Ground *ground, size_t cell, int x, int y)
{
  Looks looks;
  begin_looks (&looks, ground);
  guint8 lies[N_LOOKS * N_LOOKS];
  double shares[N_LIES] = { 0 };
  for (int k = 0; k < N_LOOKS * N_LOOKS; k++)
    {
      double u = (k % N_LOOKS + 0.5) / N_LOOKS - 0.5, v = (k / N_LOOKS + 0.5) / N_LOOKS - 0.5;
      ask_lie (&looks, x + u, y + v, &lies[k]);
    }
  look_up (&looks);
  for (int k = 0; k < N_LOOKS * N_LOOKS; k++)
    shares[lies[k]] += 1.0 / (N_LOOKS * N_LOOKS);
  for (int lie = 0; lie < N_LIES; lie++)
    if (shares[lie] > 0)
      add_cover (ground, cell, (Lie)lie, shares[lie]);
}

/* The places half a cell apart along a line; `row` counts them upwards from the lowest edge. */
static void
look_along (const Ground *ground, int row, const guint8 *is_wanted, guint8 *lies)
{
  Looks looks;
  begin_looks (&looks, ground);
  for (int i = 0; i < 2 * ground->grid->nx + 1; i++)
    if (is_wanted[i])
      ask_lie (&looks, i / 2.0 - 0.5, row / 2.0 - 0.5, &lies[i]);
  look_up (&looks);
}

static bool
is_stale (const Ground *ground, size_t cell)
{
  return ground->is_stale == NULL || ground->is_stale[cell];
}

/* Places of a line that a stale cell of the rows above and below it has. */
static void
mark_wanted (const Ground *ground, int row, guint8 *is_wanted)
{
  const SolveGrid *grid = ground->grid;
  memset (is_wanted, 0, (size_t)(2 * grid->nx + 1));
  for (int y = (row - 1) / 2; y <= row / 2; y++)
    for (int x = 0; y >= 0 && y < grid->ny && x < grid->nx; x++)
      if (is_stale (ground, (size_t)(y * grid->nx + x)))
        memset (&is_wanted[2 * x], 1, 3);
}

static void
look_at_band (void *data, size_t band)
{
  Ground *ground = data;
  const SolveGrid *grid = ground->grid;
  size_t n = (size_t)(2 * grid->nx + 1);
  g_autofree guint8 *buffer = g_new (guint8, 4 * n);
  guint8 *lines[3] = { buffer, buffer + n, buffer + 2 * n }, *is_wanted = buffer + 3 * n;
  int first = (int)band * BAND;
  for (int y = first; y < first + BAND && y < grid->ny; y++)
    {
      /* The upper line of a row is the lower one of the next. */
      for (int k = y == first ? 0 : 1; k < 3; k++)
        {
          mark_wanted (ground, 2 * y + k, is_wanted);
          look_along (ground, 2 * y + k, is_wanted, lines[k]);
        }
      for (int x = 0; x < grid->nx; x++)
        {
          size_t cell = (size_t)(y * grid->nx + x);
          guint8 lie = lines[0][2 * x];
          if (!is_stale (ground, cell))
            continue;
          for (int k = 1; k < 9; k++)
            if (lines[k / 3][2 * x + k % 3] != lie)
              lie = MIXED;
          if (lie != MIXED)
            add_cover (ground, cell, (Lie)lie, 1);
          else
            look_at_mixed_cell (ground, cell, x, y);
        }
      guint8 *lowest = lines[0];
      lines[0] = lines[2];
      lines[2] = lowest;
    }
}

static bool
look_at_covers (Ground *ground, const SolveGrid *old, int n_threads, const gint *cancel)
{
  SolveGrid *grid = ground->grid;
  for (int lie = 0; lie < N_LIES; lie++)
    {
      grid->cover[lie] = g_new0 (double, grid->n_cells);
      for (size_t cell = 0; old != NULL && old->cover[lie] != NULL && cell < grid->n_cells; cell++)
        if (!is_stale (ground, cell) && old->cover[lie][cell] > 0)
          {
            grid->cover[lie][cell] = old->cover[lie][cell];
            ground->is_used[lie] = 1;
          }
    }
  bool is_done = solve_crew (n_threads, ((size_t)grid->ny + BAND - 1) / BAND, look_at_band, ground, cancel);
  for (int lie = 0; lie < N_LIES; lie++)
    if (!ground->is_used[lie])
      g_clear_pointer (&grid->cover[lie], g_free);
  return is_done;
}

/* ---- finer places ---- */

/* They lie about so far apart, and so many along a side of a cell at least and at most. */
#define FINE_LIES_M 0.5
#define LEAST_FINE_LIES 4
#define MOST_FINE_LIES 16

static bool
is_one_lie (const SolveGrid *grid, size_t cell, Lie *lie)
{
  for (int i = 0; i < N_LIES; i++)
    if (grid->cover[i] != NULL && grid->cover[i][cell] >= 1)
      {
        *lie = (Lie)i;
        return true;
      }
  return false;
}

static void
look_finely (void *data, size_t row)
{
  const Ground *ground = data;
  const SolveGrid *grid = ground->grid;
  int n = grid->lies_per_cell;
  Looks looks;
  begin_looks (&looks, ground);
  for (int x = 0; x < grid->nx; x++)
    {
      Lie lie = LIE_ROUGH;
      bool is_one = is_one_lie (grid, row * (size_t)grid->nx + (size_t)x, &lie);
      for (int k = 0; k < n * n; k++)
        {
          guint8 *to = &grid->lies[(row * (size_t)n + (size_t)(k / n)) * (size_t)grid->lies_nx + (size_t)(x * n + k % n)];
          if (is_one)
            *to = (guint8)lie;
          else
            ask_lie (&looks, x + (k % n + 0.5) / n - 0.5, (double)row + (k / n + 0.5) / n - 0.5, to);
        }
    }
  look_up (&looks);
}

static void
make_room_finely (SolveGrid *grid)
{
  grid->lies_per_cell = CLAMP ((int)(grid->cell_m / FINE_LIES_M + 0.5), LEAST_FINE_LIES, MOST_FINE_LIES);
  grid->lies_nx = grid->nx * grid->lies_per_cell;
  grid->lies_ny = grid->ny * grid->lies_per_cell;
  grid->lies = g_atomic_rc_box_alloc0 ((size_t)grid->lies_nx * (size_t)grid->lies_ny);
}

/* ---- heights ---- */

static bool
has_arrows (const Hole *hole)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (hole_part (hole, i)->kind == KIND_SLOPE)
      return true;
  return false;
}

static void
look_at_heights (void *data, size_t row)
{
  const Ground *ground = data;
  SolveGrid *grid = ground->grid;
  const Terrain *terrain = hole_terrain (ground->hole);
  for (size_t cell = row * (size_t)grid->nx; cell < (row + 1) * (size_t)grid->nx; cell++)
    grid->height_m[cell] = terrain_height (terrain, solve_grid_centre (grid, (int)cell));
}

/* ---- trees ---- */

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

/* Does the part's canopy hang over a place? `area` has its outline; NULL: it is a single tree. */
static bool
is_under (const Part *part, const AreaIndex *area, Vec2 at)
{
  if (area == NULL)
    return vec2_distance (part->at, at) <= part->radius_m;
  return area_index_top (area, at) >= 0;
}

static Box
canopy_box (const Part *part)
{
  if (part->kind != KIND_TREE)
    return part->bounds;
  return (Box){ part->at.x - part->radius_m, part->at.y - part->radius_m, part->at.x + part->radius_m,
                part->at.y + part->radius_m };
}

/* All of them, for they are soon looked at. */
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
      Box box = canopy_box (part);
      int first = solve_grid_cell (grid, vec2 (box.x0, box.y0)), last = solve_grid_cell (grid, vec2 (box.x1, box.y1));
      AreaIndex *area = part->kind == KIND_TREE ? NULL : area_index_new (&(const Outline *){ part->outline }, 1);
      for (int y = first / grid->nx; y <= last / grid->nx; y++)
        for (int x = first % grid->nx; x <= last % grid->nx; x++)
          if (is_under (part, area, solve_grid_centre (grid, y * grid->nx + x)))
            add_canopy (grid, (size_t)(y * grid->nx + x), density, height_m);
      area_index_free (area);
    }
}

/* ---- stakes ---- */

static void
look_for_stakes (const Ground *ground, const SolveGrid *old)
{
  SolveGrid *grid = ground->grid;
  const double *penalty = grid->cover[LIE_PENALTY];
  if (penalty == NULL)
    return;
  grid->is_red = g_new0 (bool, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      if (!(penalty[cell] > 0))
        continue;
      if (old != NULL && !is_stale (ground, cell))
        {
          grid->is_red[cell] = old->is_red[cell];
          continue;
        }
      int area = hole_area_at (ground->hole, on_sheet (ground, solve_grid_centre (grid, (int)cell)));
      bool is_penalty = area >= 0 && kind_info (hole_part (ground->hole, (size_t)area)->kind)->lie == LIE_PENALTY;
      grid->is_red[cell] = !is_penalty || hole_stakes (ground->hole, (size_t)area) == STAKES_RED;
    }
}

/* ---- what was changed ---- */

/* Areas only: of the rest nothing but the height of the ground counts here, which is looked at on its own. */
static bool
is_area (const Part *part)
{
  return kind_info (part->kind)->shape == SHAPE_AREA;
}

static size_t
next_area (const Hole *hole, size_t i)
{
  while (i < hole_n_parts (hole) && !is_area (hole_part (hole, i)))
    i++;
  return i;
}

/* What reaches the edge of the sheet goes on beyond it. */
static Box
box_beyond (Box box, Box sheet)
{
  return (Box){ box.x0 > sheet.x0 ? box.x0 : -INFINITY, box.y0 > sheet.y0 ? box.y0 : -INFINITY,
                box.x1 < sheet.x1 ? box.x1 : INFINITY, box.y1 < sheet.y1 ? box.y1 : INFINITY };
}

static void
mark_box (const SolveGrid *grid, Box box, Box sheet, guint8 *is_stale)
{
  if (!(box.x0 <= box.x1))
    return;
  Box wide = box_beyond (box_grown (box, grid->cell_m), sheet);
  int first = solve_grid_cell (grid, vec2 (wide.x0, wide.y0)), last = solve_grid_cell (grid, vec2 (wide.x1, wide.y1));
  for (int y = first / grid->nx; y <= last / grid->nx; y++)
    memset (&is_stale[y * grid->nx + first % grid->nx], 1, (size_t)(last % grid->nx - first % grid->nx + 1));
}

/* The cells of areas that differ, one for one in their order; NULL: so much does that all are to be looked at. */
static guint8 *
find_stale (const SolveGrid *grid, const Hole *hole, const Hole *old)
{
  Box sheet = hole_extent (hole);
  if (hole_info (hole)->ground != hole_info (old)->ground)
    return NULL;
  g_autofree guint8 *is_stale = g_new0 (guint8, grid->n_cells);
  size_t i = next_area (hole, 0), k = next_area (old, 0);
  for (; i < hole_n_parts (hole) && k < hole_n_parts (old); i = next_area (hole, i + 1), k = next_area (old, k + 1))
    {
      const Part *part = hole_part (hole, i), *before = hole_part (old, k);
      if (part == before || part_equal (part, before))
        continue;
      mark_box (grid, part->bounds, sheet, is_stale);
      mark_box (grid, before->bounds, sheet, is_stale);
    }
  return i < hole_n_parts (hole) || k < hole_n_parts (old) ? NULL : g_steal_pointer (&is_stale);
}

static guint8 *
lies_of_areas (const Hole *hole)
{
  int n = (int)hole_n_areas (hole);
  guint8 *lies = g_new (guint8, (gsize)n + 1);
  for (int area = -1; area < n; area++)
    lies[area + 1] = (guint8)solve_lie (hole_area_lie (hole, area));
  return lies;
}

bool
solve_ground_look (SolveGrid *grid, const Hole *hole, const Hole *old_hole, const SolveGrid *old, int n_threads,
                   const gint *cancel)
{
  g_autofree guint8 *is_stale = old != NULL ? find_stale (grid, hole, old_hole) : NULL;
  g_autofree guint8 *lies = lies_of_areas (hole);
  Ground ground = { .grid = grid, .hole = hole, .sheet = hole_extent (hole), .lies = lies, .is_stale = is_stale };
  if (is_stale == NULL)
    old = NULL;
  make_room_finely (grid);
  if (!look_at_covers (&ground, old, n_threads, cancel)
      || !solve_crew (n_threads, (size_t)grid->ny, look_finely, &ground, cancel))
    return false;
  if (hole_terrain (hole) != NULL && old != NULL && hole_terrain (hole) == hole_terrain (old_hole))
    grid->height_m = g_memdup2 (old->height_m, grid->n_cells * sizeof *grid->height_m);
  else if (hole_terrain (hole) != NULL)
    {
      grid->height_m = g_new0 (double, grid->n_cells);
      if (!solve_crew (n_threads, (size_t)grid->ny, look_at_heights, &ground, cancel))
        return false;
    }
  else if (has_arrows (hole)) /* which tell how the ground tilts, not how high it lies */
    grid->height_m = g_new0 (double, grid->n_cells);
  look_at_trees (grid, hole);
  look_for_stakes (&ground, old);
  return true;
}
