// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What of the values is another than before, and which tiles of the fields that makes others.
 */
#include "solve-run-private.h"

#include <math.h>
#include <string.h>

static double
cover_at (const SolveGrid *grid, Lie lie, size_t cell)
{
  return grid->cover[lie] != NULL ? grid->cover[lie][cell] : 0;
}

/* ---- values ---- */

/* A value that changes by less changes no field. */
#define LEAST_CHANGE 3e-6
/* ... where most of what there is was settled before. */
#define LEAST_CHANGE_AGAIN 6e-5
/* What is not lost any more is worth less than so many strokes more, or was (common practice: a hole from its tee). */
#define LOST_STROKES 8.0
/* One that changes by more may make other aims the best. */
#define LEAST_LEAP 2e-3

static double
least_change (const Worth *worth)
{
  return worth->before != NULL ? LEAST_CHANGE_AGAIN : LEAST_CHANGE;
}

static size_t
patch_of (const Worth *worth, size_t cell)
{
  int x = (int)(cell % (size_t)worth->grid->nx), y = (int)(cell / (size_t)worth->grid->nx);
  return (size_t)(y / worth->patch * worth->patches_x + x / worth->patch);
}

/* The cell's value is another in the next version. */
static void
mark_cell (Worth *worth, size_t cell)
{
  worth->stirred[patch_of (worth, cell)] = worth->version + 1;
  worth->moved[cell] = 1;
}

/* The state that a canopy over the cell leaves balls in; -1: there is none. */
static int
state_above (const SolveGrid *grid, size_t cell)
{
  return grid->canopy != NULL && grid->canopy[cell] > 0 ? grid->state_at[LIE_TREES][cell] : -1;
}

/* What the cell's canopy catches is of another value in the next version: that of balls which come down behind it. */
static void
mark_above (Worth *worth, size_t cell)
{
  worth->stirred_above = worth->version + 1;
  worth->moved_above[cell] = 1;
}

/* Takes over the values of cells any state of which changed enough, at last all of them; marks the cells of the former. */
static void
take_values (Worth *worth, const double *value, bool is_last)
{
  const SolveGrid *grid = worth->grid;
  double *open = worth->open_now, *staying = worth->staying_now;
  memset (open, 0, grid->n_cells * sizeof *open);
  memset (staying, 0, grid->n_cells * sizeof *staying);
  memset (worth->moved_above, 0, grid->n_cells);
  for (size_t state = 0; state < grid->n_states; state++)
    {
      size_t cell = (size_t)grid->state_cell[state];
      Lie lie = grid->state_lie[state];
      double part = grid->cover[lie][cell] * value[state];
      open[cell] += part;
      if (solve_lie_stops (lie))
        staying[cell] += part;
      if (!(fabs (value[state] - worth->value[state]) > least_change (worth)))
        continue;
      worth->moved[cell] = 1;
      if ((int)state == state_above (grid, cell))
        mark_above (worth, cell);
    }
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      bool is_changed
          = worth->moved[cell] != 0
            || fabs (open[cell] - worth->open[cell]) + fabs (staying[cell] - worth->staying[cell]) > least_change (worth);
      if (!is_changed && !is_last)
        continue;
      worth->open[cell] = open[cell];
      worth->staying[cell] = staying[cell];
      if (is_changed)
        mark_cell (worth, cell);
    }
  for (size_t state = 0; state < grid->n_states; state++)
    if (is_last || worth->moved[grid->state_cell[state]] != 0)
      worth->value[state] = value[state];
}

static void
take_drops (Worth *worth, bool is_last)
{
  const SolveGrid *grid = worth->grid;
  for (size_t cell = 0; cell < grid->n_cells && grid->n_penalty > 0; cell++)
    for (int sector = 0; sector < N_SECTORS && grid->penalty_of[cell] >= 0; sector++)
      {
        int penalty = grid->penalty_of[cell];
        const Relief *relief = &grid->reliefs[sector][penalty];
        double dropped = relief->n_drops > 0 ? grid->cover[LIE_PENALTY][cell] * worth_best_drop (worth, relief) : 0;
        bool is_changed = fabs (dropped - worth->dropped[sector][penalty]) > least_change (worth);
        if (is_changed || is_last)
          worth->dropped[sector][penalty] = dropped;
        if (is_changed)
          mark_cell (worth, cell);
      }
}

/* ---- where balls come from ---- */

/* How far balls came that were followed so far, by what lies between run lengths and sectors. */
static void
note_extents (Worth *worth)
{
  for (int run = 0; run < N_RUNS; run++)
    {
      int further = MIN (run + 1, N_RUNS - 1),
          reach = MAX (runs_farthest (worth->runs, run), runs_farthest (worth->runs, further));
      worth->reaches[run] = reach;
      for (int sector = 0; sector < N_SECTORS; sector++)
        {
          /* Those of a sector that were followed may not have come as far as others do. */
          CellBox all = cell_box_swept ((CellBox){ 0, 0, 0, 0 }, vec2_scale (solve_sector_unit (sector), reach), 1);
          for (int k = 0; k < 4; k++)
            {
              CellBox one = runs_extent (worth->runs, k < 2 ? run : further, (sector + k % 2) % N_SECTORS);
              all = (CellBox){ MIN (all.x0, one.x0), MIN (all.y0, one.y0), MAX (all.x1, one.x1), MAX (all.y1, one.y1) };
            }
          worth->extents[run][sector] = all;
        }
    }
}

/* All cells whose canopies may catch a tile's balls on their way down. */
static CellBox
box_above (const Worth *worth, int run, int sector, int tile, double highest_m)
{
  const SolveGrid *grid = worth->grid;
  Vec2 back = vec2_scale (solve_sector_unit (sector), -highest_m / (runs_descent (worth->runs, run) * grid->cell_m));
  return cell_box_swept (cell_box_of_tile (grid, tile), back, 1);
}

/* Tiles are to be made anew whose balls rest where anything has moved, or are caught there. */
static void
drop_tiles (Worth *worth)
{
  const SolveGrid *grid = worth->grid;
  bool is_above = worth->stirred_above == worth->version;
  g_autoptr (Marked) moved = marked_new (grid, worth->moved);
  g_autoptr (Marked) above = is_above ? marked_new (grid, worth->moved_above) : NULL;
  for (int run = 0; run < N_RUNS; run++)
    for (int sector = 0; sector < N_SECTORS; sector++)
      for (size_t tile = 0; tile < worth->n_tiles; tile++)
        {
          bool is_ready = worth->ready[(size_t)(run * N_SECTORS + sector) * worth->n_tiles + tile] != 0;
          if (is_ready
              && (marked_any (moved, runs_rest_box (worth->runs, run, sector, (int)tile))
                  || (is_above && marked_any (above, box_above (worth, run, sector, (int)tile, grid->highest_canopy_m)))))
            worth_drop_tile (worth, run, sector, (int)tile);
        }
}

/* What has moved since the values that others were made of. */
static void
note_moved_since (Worth *worth)
{
  if (worth->before == NULL)
    return;
  for (size_t cell = 0; cell < worth->grid->n_cells; cell++)
    {
      worth->moved_since[cell] |= worth->moved[cell];
      worth->other_above[cell] |= worth->moved_above[cell];
    }
  g_clear_pointer (&worth->marked_since, marked_free);
  worth->marked_since = marked_new (worth->grid, worth->moved_since);
  g_clear_pointer (&worth->marked_above, marked_free);
  worth->marked_above = marked_new (worth->grid, worth->other_above);
}

bool
worth_is_as_before (const Worth *worth, int run, int sector, int tile)
{
  const Worth *before = worth->before;
  if (before == NULL || !runs_is_same (worth->runs, run, sector, tile)
      || marked_any (worth->marked_since, runs_rest_box (before->runs, run, sector, tile)))
    return false;
  double highest_m = fmax (worth->grid->highest_canopy_m, before->grid->highest_canopy_m);
  return !marked_any (worth->marked_above, box_above (worth, run, sector, tile, highest_m));
}

/* ---- much has changed ---- */

/* A cell has changed much, for the better by so many strokes. */
static void
mark_leap (Worth *worth, size_t cell, double fallen)
{
  worth->leapt[patch_of (worth, cell)] = worth->version + 1;
  if (!(fallen > 0))
    return;
  worth->fell[patch_of (worth, cell)] = worth->version + 1;
  worth_note_fall (worth, cell, fallen);
}

/* What a canopy catches comes down in any of the cells behind it. */
static void
find_leap_above (Worth *worth, size_t cell)
{
  const SolveGrid *grid = worth->grid;
  int above = state_above (grid, cell);
  if (above < 0)
    return;
  double caught = grid->canopy[cell] * worth->value[above], fallen = worth->leapt_above[cell] - caught;
  if (fabs (fallen) <= LEAST_LEAP)
    return;
  mark_leap (worth, cell, fallen * (1 + grid->canopy_m[cell] / (runs_descent (worth->runs, N_RUNS - 1) * grid->cell_m)));
  worth->leapt_above[cell] = caught;
}

static void
find_leaps (Worth *worth)
{
  for (size_t cell = 0; cell < worth->grid->n_cells; cell++)
    {
      if (fabs (worth->open[cell] - worth->leapt_open[cell]) > LEAST_LEAP)
        {
          mark_leap (worth, cell, worth->leapt_open[cell] - worth->open[cell]);
          worth->leapt_open[cell] = worth->open[cell];
        }
      find_leap_above (worth, cell);
    }
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
  worth->before = before;
  runs_follow (worth->runs, before->runs);
  worth->is_same_above = is_alike (grid->canopy, before->grid->canopy, grid->n_cells)
                         && is_alike (grid->canopy_m, before->grid->canopy_m, grid->n_cells)
                         && is_alike (grid->height_m, before->grid->height_m, grid->n_cells);
  worth->version = WORTH_BEFORE;
  worth->moved_since = g_new0 (guint8, grid->n_cells);
  worth->other_above = g_new0 (guint8, grid->n_cells);
  worth->stirred_above = WORTH_BEFORE;
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
  memcpy (worth->leapt_open, before->leapt_open, grid->n_cells * sizeof *worth->open);
  if (worth->leapt_above != NULL && before->leapt_above != NULL)
    memcpy (worth->leapt_above, before->leapt_above, grid->n_cells * sizeof *worth->leapt_above);
  bool is_same = grid->penalty_of != NULL && before->grid->penalty_of != NULL
                 && memcmp (grid->penalty_of, before->grid->penalty_of, grid->n_cells * sizeof *grid->penalty_of) == 0;
  for (int sector = 0; is_same && sector < N_SECTORS; sector++)
    memcpy (worth->dropped[sector], before->dropped[sector], grid->n_penalty * sizeof (double));
}

void
worth_let_go (Worth *worth)
{
  worth->before = NULL;
  g_clear_pointer (&worth->moved_since, g_free);
  g_clear_pointer (&worth->marked_since, marked_free);
  g_clear_pointer (&worth->other_above, g_free);
  g_clear_pointer (&worth->marked_above, marked_free);
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
mark_other_ground (Worth *worth)
{
  for (size_t cell = 0; cell < worth->grid->n_cells; cell++)
    if (is_other_ground (worth->grid, worth->before->grid, cell))
      {
        worth->other_above[cell] = !worth->is_same_above;
        mark_cell (worth, cell);
        mark_leap (worth, cell,
                   worth->before->open[cell] - worth->open[cell]
                       + LOST_STROKES * fabs (lost_at (worth->grid, cell) - lost_at (worth->before->grid, cell)));
      }
}

/* All that one of the arrays of versions has changed since each of the last versions. */
static void
find_changed (const Worth *worth, const gint *versions, CellBox boxes[WORTH_AGES])
{
  for (int age = 0; age < WORTH_AGES; age++)
    boxes[age] = (CellBox){ G_MAXINT, G_MAXINT, -1, -1 };
  for (int y = 0; y < worth->patches_y; y++)
    for (int x = 0; x < worth->patches_x; x++)
      for (int age = MAX (worth->version - versions[y * worth->patches_x + x], 0); age < WORTH_AGES; age++)
        boxes[age]
            = (CellBox){ MIN (boxes[age].x0, x), MIN (boxes[age].y0, y), MAX (boxes[age].x1, x), MAX (boxes[age].y1, y) };
}

void
worth_update (Worth *worth, const double *value, bool is_last)
{
  memset (worth->moved, 0, worth->grid->n_cells);
  take_values (worth, value, is_last);
  take_drops (worth, is_last);
  find_leaps (worth);
  if (worth->before != NULL && worth->version == WORTH_BEFORE)
    mark_other_ground (worth);
  worth->version++;
  for (int i = 0; worth->version == 1 && i < worth->patches_x * worth->patches_y; i++)
    worth->stirred[i] = worth->leapt[i] = worth->fell[i] = 1;
  find_changed (worth, worth->stirred, worth->changed[0]);
  find_changed (worth, worth->leapt, worth->changed[1]);
  find_changed (worth, worth->fell, worth->changed[2]);
  worth_gather_falls (worth);
  note_extents (worth);
  drop_tiles (worth);
  note_moved_since (worth);
}
