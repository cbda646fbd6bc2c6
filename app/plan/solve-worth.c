// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What coming down in each cell is worth, tile by tile as it is looked at, and what of that never changes.
 */
#include "solve-run-private.h"

#include <math.h>
#include <string.h>

/* A row of eight cells may be read beyond the last one. */
#define FIELD_END 64
/* ---- what never changes ---- */

static double
cover_at (const SolveGrid *grid, Lie lie, size_t cell)
{
  return grid->cover[lie] != NULL ? grid->cover[lie][cell] : 0;
}

static void
look_at_ground (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      double stays = 0;
      for (int lie = 0; lie < N_LIES; lie++)
        stays += solve_lie_stops ((Lie)lie) ? cover_at (grid, (Lie)lie, cell) : 0;
      worth->staying_share[cell] = stays > 1 - 1e-9 ? 1 : stays;
    }
  worth->is_anything_lost = grid->cover[LIE_OUT_OF_BOUNDS] != NULL;
  for (int sector = 0; sector < N_SECTORS; sector++)
    for (size_t i = 0; i < grid->n_penalty; i++)
      worth->is_anything_lost |= grid->reliefs[sector][i].n_drops == 0;
}

/* Steps of a king from each cell to the nearest one that is marked, 254 at most (Rosenfeld and Pfaltz 1966, J. ACM 13:471). */
#define FARTHEST 254

static guint8 *
steps_to (const SolveGrid *grid, const double *marks)
{
  guint8 *steps = g_new (guint8, grid->n_cells);
  int nx = grid->nx, ny = grid->ny;
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    steps[cell] = marks[cell] > 0 ? 0 : FARTHEST;
  for (int pass = 0; pass < 2; pass++)
    for (int n = 0; n < nx * ny; n++)
      {
        int cell = pass == 0 ? n : nx * ny - 1 - n, x = cell % nx, y = cell / nx, by = pass == 0 ? -1 : 1;
        for (int dx = -1; dx <= 1; dx++)
          if (y + by >= 0 && y + by < ny && x + dx >= 0 && x + dx < nx)
            steps[cell] = (guint8)MIN (steps[cell], steps[cell + by * nx + dx] + 1);
        if (x + by >= 0 && x + by < nx)
          steps[cell] = (guint8)MIN (steps[cell], steps[cell + by] + 1);
      }
  return steps;
}

const double worth_runs_m[N_RUNS] = { 0, 2, 4.5, 7.5, 11, 15, 20, 26, 34, 46, 64 };

double
worth_run (double run_m)
{
  int run = 0;
  while (run < N_RUNS - 2 && run_m > worth_runs_m[run + 1])
    run++;
  return fmin (N_RUNS - 1, run + (run_m - worth_runs_m[run]) / (worth_runs_m[run + 1] - worth_runs_m[run]));
}

/* Where the ways a ball ends are few. */
static void
look_for_plain (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  worth->plain = g_new0 (guint8, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      size_t x = cell % (size_t)grid->nx, y = cell / (size_t)grid->nx, above = cell + (size_t)grid->nx;
      guint8 lie = grid->only[cell];
      if (!(worth->staying_share[cell] > 0))
        worth->plain[cell] |= WORTH_KEEPS_NONE;
      if (x + 1 < (size_t)grid->nx && y + 1 < (size_t)grid->ny && lie < N_LIES && grid->state_at[lie] != NULL
          && !solve_lie_stops ((Lie)lie) && grid->only[cell + 1] == lie && grid->only[above] == lie
          && grid->only[above + 1] == lie)
        worth->plain[cell] |= WORTH_RESTS_ALIKE;
    }
}

/* ---- all of them ---- */

/* A value that changes by less changes no field. */
#define LEAST_CHANGE 3e-6
/* What is not lost any more is worth less than so many strokes more, or was (common practice: a hole from its tee). */
#define LOST_STROKES 8.0
/* Changes are told apart by squares of about this side. */
#define PATCH_M 8.0
/* One that changes by more may make other aims the best. */
#define LEAST_LEAP 1e-3

/* The cells of a tile that have changed lie within these. */
typedef struct
{
  bool is_any;
  int x0, y0, x1, y1;
} Marks;

static size_t
patch_of (const Worth *worth, size_t cell)
{
  int x = (int)(cell % (size_t)worth->grid->nx), y = (int)(cell / (size_t)worth->grid->nx);
  return (size_t)(y / worth->patch * worth->patches_x + x / worth->patch);
}

/* The cell's value is another in the next version, and so its tile. */
static void
mark_cell (const Worth *worth, size_t cell, Marks *marks)
{
  worth->stirred[patch_of (worth, cell)] = worth->version + 1;
  int x = (int)(cell % (size_t)worth->grid->nx), y = (int)(cell / (size_t)worth->grid->nx);
  Marks *mark = &marks[y / TILE * worth->tiles_x + x / TILE];
  *mark = mark->is_any ? (Marks){ true, MIN (mark->x0, x), MIN (mark->y0, y), MAX (mark->x1, x), MAX (mark->y1, y) }
                       : (Marks){ true, x, y, x, y };
}

/* Is any of a cell's states worth something else than the fields have it? */
static bool
is_any_changed (const Worth *worth, const double *value, size_t cell)
{
  const SolveGrid *grid = worth->grid;
  for (int lie = 0; lie < N_LIES; lie++)
    {
      int state = grid->state_at[lie] != NULL ? grid->state_at[lie][cell] : -1;
      if (state >= 0 && fabs (value[state] - worth->value[state]) > LEAST_CHANGE)
        return true;
    }
  return false;
}

/* Takes over the states' values that changed enough, at last all of them; `marks` the tiles of the cells of the former. */
static void
take_values (Worth *worth, const double *value, bool is_last, Marks *marks)
{
  const SolveGrid *grid = worth->grid;
  g_autofree double *open = g_new0 (double, grid->n_cells), *staying = g_new0 (double, grid->n_cells);
  for (size_t state = 0; state < grid->n_states; state++)
    {
      size_t cell = (size_t)grid->state_cell[state];
      Lie lie = grid->state_lie[state];
      double part = grid->cover[lie][cell] * value[state];
      open[cell] += part;
      if (solve_lie_stops (lie))
        staying[cell] += part;
    }
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      bool is_changed = is_any_changed (worth, value, cell)
                        || fabs (open[cell] - worth->open[cell]) + fabs (staying[cell] - worth->staying[cell]) > LEAST_CHANGE;
      if (!is_changed && !is_last)
        continue;
      for (int lie = 0; lie < N_LIES; lie++)
        if (grid->state_at[lie] != NULL && grid->state_at[lie][cell] >= 0)
          worth->value[grid->state_at[lie][cell]] = value[grid->state_at[lie][cell]];
      worth->open[cell] = open[cell];
      worth->staying[cell] = staying[cell];
      if (is_changed)
        mark_cell (worth, cell, marks);
    }
}

static void
take_drops (Worth *worth, bool is_last, Marks *marks)
{
  const SolveGrid *grid = worth->grid;
  for (size_t cell = 0; cell < grid->n_cells && grid->n_penalty > 0; cell++)
    for (int sector = 0; sector < N_SECTORS && grid->penalty_of[cell] >= 0; sector++)
      {
        int penalty = grid->penalty_of[cell];
        const Relief *relief = &grid->reliefs[sector][penalty];
        double dropped = relief->n_drops > 0 ? grid->cover[LIE_PENALTY][cell] * worth_best_drop (worth, relief) : 0;
        bool is_changed = fabs (dropped - worth->dropped[sector][penalty]) > LEAST_CHANGE;
        if (is_changed || is_last)
          worth->dropped[sector][penalty] = dropped;
        if (is_changed)
          mark_cell (worth, cell, marks);
      }
}

double
worth_reach (const Worth *worth, double run)
{
  int farthest = 0;
  for (int k = 0; k < 2; k++)
    {
      int length = MIN ((int)run + k, N_RUNS - 1);
      farthest = MAX (farthest, runs_farthest (worth->runs, length));
    }
  /* Balls rest between four cells. */
  return farthest + 1;
}

/* A tile is made of cells as far from it as its balls come to rest, between four of them, and as a canopy before it stands. */
static void
mark_changed (const Worth *worth, const Marks *marks)
{
  const SolveGrid *grid = worth->grid;
  int tiles_y = (int)worth->n_tiles / worth->tiles_x;
  for (int run = 0; run < N_RUNS; run++)
    {
      double before = grid->highest_canopy_m / runs_descent (worth->runs, run) / grid->cell_m;
      int reach = (int)ceil (fmax (worth_reach (worth, run), before) + 1);
      for (size_t k = 0; k < worth->n_tiles; k++)
        for (int j = MAX (marks[k].y0 - reach, 0) / TILE;
             marks[k].is_any && j <= MIN ((marks[k].y1 + reach) / TILE, tiles_y - 1); j++)
          for (int i = MAX (marks[k].x0 - reach, 0) / TILE; i <= MIN ((marks[k].x1 + reach) / TILE, worth->tiles_x - 1); i++)
            worth->changed[(size_t)run * worth->n_tiles + (size_t)(j * worth->tiles_x + i)] = worth->version;
    }
}

/* A cell has changed much, for the better by so many strokes. */
static void
mark_leap (Worth *worth, size_t cell, double fallen)
{
  int x = (int)(cell % (size_t)worth->grid->nx), y = (int)(cell / (size_t)worth->grid->nx);
  worth->leapt[patch_of (worth, cell)] = worth->version + 1;
  if (!(fallen > 0))
    return;
  worth->fallen += fallen;
  worth->most_fallen = fmax (worth->most_fallen, fallen);
  worth->fell[patch_of (worth, cell)] = worth->version + 1;
  worth->falls[0] = MIN (worth->falls[0], x);
  worth->falls[1] = MIN (worth->falls[1], y);
  worth->falls[2] = MAX (worth->falls[2], x);
  worth->falls[3] = MAX (worth->falls[3], y);
}

static void
find_leaps (Worth *worth)
{
  for (size_t cell = 0; cell < worth->grid->n_cells; cell++)
    if (fabs (worth->open[cell] - worth->leapt_open[cell]) > LEAST_LEAP)
      {
        mark_leap (worth, cell, worth->leapt_open[cell] - worth->open[cell]);
        worth->leapt_open[cell] = worth->open[cell];
      }
}

void
worth_forget_falls (Worth *worth)
{
  worth->falls[0] = worth->falls[1] = G_MAXINT;
  worth->falls[2] = worth->falls[3] = -1;
  worth->fallen = worth->most_fallen = 0;
}

static bool
is_other_slope (const SolveGrid *grid, const SolveGrid *before, size_t cell)
{
  float x = grid->slope_x != NULL ? grid->slope_x[cell] : 0, y = grid->slope_y != NULL ? grid->slope_y[cell] : 0;
  float was_x = before->slope_x != NULL ? before->slope_x[cell] : 0,
        was_y = before->slope_y != NULL ? before->slope_y[cell] : 0;
  return x != was_x || y != was_y;
}

/* Is a cell of another kind than it was? The value of what is played from there aside. */
static bool
is_other_ground (const SolveGrid *grid, const SolveGrid *before, size_t cell)
{
  for (int lie = 0; lie < N_LIES; lie++)
    if (cover_at (grid, (Lie)lie, cell) != cover_at (before, (Lie)lie, cell))
      return true;
  double canopy = grid->canopy != NULL ? grid->canopy[cell] : 0, was_canopy = before->canopy != NULL ? before->canopy[cell] : 0;
  double canopy_m = grid->canopy != NULL ? grid->canopy_m[cell] : 0,
         was_canopy_m = before->canopy != NULL ? before->canopy_m[cell] : 0;
  double height_m = grid->height_m != NULL ? grid->height_m[cell] : 0,
         was_height_m = before->height_m != NULL ? before->height_m[cell] : 0;
  return canopy != was_canopy || canopy_m != was_canopy_m || height_m != was_height_m || is_other_slope (grid, before, cell);
}

static bool
is_alike (const double *a, const double *b, size_t n)
{
  return (a == NULL) == (b == NULL) && (a == NULL || memcmp (a, b, n * sizeof *a) == 0);
}

void
worth_follow (Worth *worth, const Worth *before)
{
  const SolveGrid *grid = worth->grid;
  size_t n = N_RUNS * worth->n_tiles;
  worth->before = before;
  runs_follow (worth->runs, before->runs);
  worth->is_same_above = is_alike (grid->canopy, before->grid->canopy, grid->n_cells)
                         && is_alike (grid->canopy_m, before->grid->canopy_m, grid->n_cells)
                         && is_alike (grid->height_m, before->grid->height_m, grid->n_cells);
  worth->version = WORTH_BEFORE;
  for (size_t i = 0; i < n; i++)
    worth->changed[i] = WORTH_BEFORE;
  for (int i = 0; i < worth->patches_x * worth->patches_y; i++)
    worth->stirred[i] = worth->leapt[i] = worth->fell[i] = WORTH_BEFORE;
  for (size_t state = 0; state < grid->n_states; state++)
    {
      const int *state_at = before->grid->state_at[grid->state_lie[state]];
      int was = state_at != NULL ? state_at[grid->state_cell[state]] : -1;
      worth->value[state] = was >= 0 ? before->value[was] : 0;
    }
  memcpy (worth->open, before->open, grid->n_cells * sizeof *worth->open);
  memcpy (worth->staying, before->staying, grid->n_cells * sizeof *worth->staying);
  memcpy (worth->leapt_open, before->open, grid->n_cells * sizeof *worth->open);
  bool is_same = grid->penalty_of != NULL && before->grid->penalty_of != NULL
                 && memcmp (grid->penalty_of, before->grid->penalty_of, grid->n_cells * sizeof *grid->penalty_of) == 0;
  for (int sector = 0; is_same && sector < N_SECTORS; sector++)
    memcpy (worth->dropped[sector], before->dropped[sector], grid->n_penalty * sizeof (double));
}

void
worth_let_go (Worth *worth)
{
  worth->before = NULL;
  worth->is_same_above = false;
  runs_let_go (worth->runs);
}

/* Share of a cell where a ball is lost or dropped from. */
static double
lost_at (const SolveGrid *grid, size_t cell)
{
  return cover_at (grid, LIE_PENALTY, cell) + cover_at (grid, LIE_OUT_OF_BOUNDS, cell);
}

/* Cells of another kind than before are as if their value had changed. */
static void
mark_other_ground (Worth *worth, Marks *marks)
{
  for (size_t cell = 0; cell < worth->grid->n_cells; cell++)
    if (is_other_ground (worth->grid, worth->before->grid, cell))
      {
        mark_cell (worth, cell, marks);
        mark_leap (worth, cell,
                   worth->before->open[cell] - worth->open[cell]
                       + LOST_STROKES * fabs (lost_at (worth->grid, cell) - lost_at (worth->before->grid, cell)));
      }
}

void
worth_update (Worth *worth, const double *value, bool is_last)
{
  g_autofree Marks *marks = g_new0 (Marks, worth->n_tiles);
  take_values (worth, value, is_last, marks);
  take_drops (worth, is_last, marks);
  find_leaps (worth);
  if (worth->before != NULL && worth->version == WORTH_BEFORE)
    mark_other_ground (worth, marks);
  worth->version++;
  if (worth->version == 1)
    {
      for (size_t i = 0; i < N_RUNS * worth->n_tiles; i++)
        worth->changed[i] = 1;
      for (int i = 0; i < worth->patches_x * worth->patches_y; i++)
        worth->stirred[i] = worth->leapt[i] = worth->fell[i] = 1;
    }
  mark_changed (worth, marks);
  for (size_t i = 0; i < N_RUNS * worth->n_tiles; i++)
    for (size_t sector = 0; sector < N_SECTORS && worth->changed[i] == worth->version; sector++)
      worth->ready[(i / worth->n_tiles * N_SECTORS + sector) * worth->n_tiles + i % worth->n_tiles] = 0;
}

Worth *
worth_new (const SolveGrid *grid, const Conditions *conditions)
{
  Worth *worth = g_new0 (Worth, 1);
  worth->grid = grid;
  worth->runs = runs_new (grid, conditions);
  worth->value = g_new0 (double, grid->n_states);
  worth->open = g_new0 (double, grid->n_cells);
  worth->staying = g_new0 (double, grid->n_cells);
  worth->staying_share = g_new0 (double, grid->n_cells);
  for (int sector = 0; sector < N_SECTORS && grid->n_penalty > 0; sector++)
    worth->dropped[sector] = g_new0 (double, grid->n_penalty);
  look_at_ground (worth);
  look_for_plain (worth);
  bool is_any_staying = false;
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    is_any_staying |= worth->staying_share[cell] > 0;
  worth->to_staying = is_any_staying ? steps_to (grid, worth->staying_share) : NULL;
  worth->to_canopy = grid->canopy != NULL ? steps_to (grid, grid->canopy) : NULL;
  worth->tiles_x = (grid->nx + TILE - 1) / TILE;
  worth->n_tiles = (size_t)worth->tiles_x * (size_t)((grid->ny + TILE - 1) / TILE);
  /* Of one piece, which the system gives page by page as tiles are written. */
  size_t n_fields = (size_t)N_RUNS * N_SECTORS * 2;
  for (int size = 0; size <= N_BLOCKS; size++)
    {
      worth->width[size] = size == 0 ? grid->nx : (worth->width[size - 1] + 1) / 2;
      worth->height[size] = size == 0 ? grid->ny : (worth->height[size - 1] + 1) / 2;
      size_t n = (size_t)worth->width[size] * (size_t)worth->height[size];
      worth->fields[size] = g_malloc0 (n_fields * n * sizeof (float) + FIELD_END);
    }
  worth->making = g_new0 (gint, N_RUNS * N_SECTORS * worth->n_tiles);
  worth->changed = g_new0 (gint, N_RUNS * worth->n_tiles);
  worth_forget_falls (worth);
  worth->patch = (int)fmax (1, floor (PATCH_M / grid->cell_m + 0.5));
  worth->patches_x = (grid->nx + worth->patch - 1) / worth->patch;
  worth->patches_y = (grid->ny + worth->patch - 1) / worth->patch;
  size_t n_patches = (size_t)worth->patches_x * (size_t)worth->patches_y;
  worth->stirred = g_new0 (gint, n_patches);
  worth->leapt = g_new0 (gint, n_patches);
  worth->fell = g_new0 (gint, n_patches);
  worth->leapt_open = g_new0 (double, grid->n_cells);
  worth->ready = g_new0 (guint8, N_RUNS * N_SECTORS * worth->n_tiles);
  worth->caught = g_new0 (const Caught *, N_RUNS *N_SECTORS * worth->n_tiles);
  return worth;
}

void
worth_free (Worth *worth)
{
  if (worth == NULL)
    return;
  for (int sector = 0; sector < N_SECTORS; sector++)
    g_free (worth->dropped[sector]);
  runs_free (worth->runs);
  for (int size = 0; size <= N_BLOCKS; size++)
    g_free (worth->fields[size]);
  g_free (worth->making);
  g_free (worth->changed);
  g_free (worth->stirred);
  g_free (worth->leapt);
  g_free (worth->fell);
  g_free (worth->leapt_open);
  worth_free_caught (worth);
  g_free (worth->ready);
  g_free (worth->value);
  g_free (worth->open);
  g_free (worth->staying);
  g_free (worth->staying_share);
  g_free (worth->to_staying);
  g_free (worth->to_canopy);
  g_free (worth->plain);
  g_free (worth);
}
