// SPDX-License-Identifier: GPL-3.0-or-later
/* What the whole-hole solver begins with: threads and room for its work, the hole as cells, and what the swings do on this day. */
#ifndef HOLEWRIGHT_SOLVE_CELLS_PRIVATE_H
#define HOLEWRIGHT_SOLVE_CELLS_PRIVATE_H

#include "plan.h"

#include <stdint.h>

/* ---- work for a few threads ---- */

typedef void (*SolveWork) (void *data, size_t i);
/*
 * Has pieces 0 to n - 1 done by `n_threads` threads, the caller's among them; they are as willing to wait for others as the caller's thread is (its nice value,
 * where the system keeps one for each thread). False when cancelled meanwhile: then some are not done.
 */
bool solve_crew (int n_threads, size_t n, SolveWork work, void *data, const gint *cancel);
/* `cancel` may be NULL. */
bool solve_is_cancelled (const gint *cancel);

/* ---- room ---- */

typedef struct _Pages Pages;
/* Room of so many bytes, all 0, which is in the machine's memory as far as it was written to. */
Pages *pages_new (size_t size, void **from);
void pages_free (Pages *pages);

/* ---- the hole as cells ---- */

/* Columns and rows x0, y0 to x1, y1, both ends included. */
typedef struct
{
  int x0, y0, x1, y1;
} CellBox;

/* Directions are told apart this finely where the way a ball comes in matters but little: how it runs, where it crossed into a penalty area. */
#define N_SECTORS 16
/* Places back on the line that are looked at for relief, besides the lateral ones. */
#define MOST_DROPS 11

typedef struct
{
  int drops[MOST_DROPS]; /* cells */
  int n_drops;           /* 0: only stroke and distance is left */
} Relief;

typedef struct
{
  double cell_m;
  Vec2 origin; /* centre of cell 0 */
  int nx, ny;
  size_t n_cells;
  Vec2 target;
  double *cover[N_LIES]; /* share of each cell that has this lie to play from; NULL: nowhere */
  /* The lie at finer places, so many a side of a cell, by rows of as many as all columns have; shared by grids of larger cells. */
  guint8 *lies;
  int lies_per_cell, lies_nx, lies_ny;
  guint8 *only;              /* [cell] the lie that covers all of it; N_LIES: there are several */
  double *height_m;          /* NULL: level */
  float *slope_x, *slope_y;  /* rise by metre to the east and north; NULL: level */
  double *canopy, *canopy_m; /* chance 0..1 that a canopy over the cell stops a ball, and its height; NULL: no trees */
  bool *is_red;              /* the stakes of each cell; NULL: no penalty areas */
  double highest_canopy_m;
  int *penalty_of; /* index into reliefs of each cell, -1: no penalty area there; NULL: none at all */
  Relief *reliefs[N_SECTORS];
  size_t n_penalty;

  /* The states, sorted by lie. */
  size_t n_states;
  int *state_cell;
  Lie *state_lie;
  bool *state_ends; /* its value comes from the tables, or that of trees from what is beside them */
  size_t lie_begins[N_LIES + 1];
  int *state_at[N_LIES]; /* state of a cell and lie, -1: none; NULL: the lie is nowhere */
} SolveGrid;

/* How an area is played from once the ball is there: paths give free relief, a green that is not in play as well, and a tee is mown. */
Lie solve_lie (Lie lie);
bool solve_lie_stops (Lie lie);
/* NULL when cancelled. `old`: of a hole that differs from this one in little, for what it has in common; NULL: there is none. */
SolveGrid *solve_grid_new (const Hole *hole, Vec2 target, double cell_m, const Hole *old_hole, const SolveGrid *old,
                           int n_threads, const gint *cancel);
/* ... all but where a ball may be dropped, which takes long and larger cells do without; taken from `like` where that has the same (NULL: there is none). False when cancelled. */
bool solve_grid_look_for_relief (SolveGrid *grid, const SolveGrid *like, int n_threads, const gint *cancel);
/* The same hole in cells `factor` times as large, of what this one says; `old` as before. */
SolveGrid *solve_grid_coarser (const SolveGrid *grid, int factor, const SolveGrid *old, int n_threads, const gint *cancel);
/* Covers, heights, canopies and stakes of the grid's cells; `old` lies as the grid. False when cancelled. */
bool solve_ground_look (SolveGrid *grid, const Hole *hole, const Hole *old_hole, const SolveGrid *old, int n_threads,
                        const gint *cancel);
void solve_grid_free (SolveGrid *grid);
Vec2 solve_grid_centre (const SolveGrid *grid, int cell);
/* The cell that holds a place; one at the edge for places beyond. */
int solve_grid_cell (const SolveGrid *grid, Vec2 at);
/* The nearest cell to a place in cells from the first one's middle. */
static inline size_t
solve_grid_cell_at (const SolveGrid *grid, double x, double y)
{
  int i = x < 0 ? 0 : (int)(x + 0.5), j = y < 0 ? 0 : (int)(y + 0.5);
  i = i < grid->nx ? i : grid->nx - 1;
  j = j < grid->ny ? j : grid->ny - 1;
  return (size_t)j * (size_t)grid->nx + (size_t)i;
}

double solve_grid_height (const SolveGrid *grid, Vec2 at);
/* The lie at a place within the grid, in cells from the middle of the first. */
static inline Lie
solve_grid_lie (const SolveGrid *grid, double x, double y)
{
  int per = grid->lies_per_cell, i = (int)((x + 0.5) * per), j = (int)((y + 0.5) * per);
  i = i < 0 ? 0 : (i < grid->nx * per ? i : grid->nx * per - 1);
  j = j < 0 ? 0 : (j < grid->ny * per ? j : grid->ny * per - 1);
  return (Lie)grid->lies[(size_t)MIN (j, grid->lies_ny - 1) * (size_t)grid->lies_nx + (size_t)MIN (i, grid->lies_nx - 1)];
}
/* Unit vector of the middle of a sector; sector of a direction. */
Vec2 solve_sector_unit (int sector);
int solve_sector (Vec2 unit);
/* As large, as many and in the same places? */
bool solve_grid_lies_as (const SolveGrid *grid, const SolveGrid *other);
/* Where a ball that came to `cell` along `unit` may be dropped. False where only stroke and distance is left. */
bool solve_relief (const SolveGrid *grid, int cell, Vec2 unit, Relief *relief);

/* ---- what the swings do on this day ---- */

/* Landing seen along the aim: how far, how far right; spread; run on a fairway; how a rise of the ground moves the landing. */
typedef struct
{
  double along_m, right_m;
  double long_sd_m, side_sd_m, correlation;
  double run_m;
  double rise_m1, rise_m2; /* landing moves by rise_m1 h + rise_m2 h^2 when the ground there is h higher */
  /* How the ball comes down: over the ground, downwards, backspin; and how far right of the aim it goes then. */
  double land_mps, fall_mps, spin_radps, drift_rad;
  double run_rise; /* what a metre of rise adds to the run on a level fairway */
  /* What the ground under the ball adds, by metre that it rises in one along the aim (`..._m2`: and by its square) and to the right of it. */
  double up_along_m, up_along_m2, up_right_m, up_run_m, up_rise_m1, side_along_m, side_right_m;
  /* Poor strikes: their share of the balls, and how the mean one flies: so much of the way along, and of what is right of it, and so far right besides. */
  double poor_share, poor_reach, poor_right_m, poor_run_m, poor_rise_m1, poor_rise_m2, poor_drift_rad;
} Flown;

typedef struct
{
  const Club *club;
  double swing;
} Swing;

#define MOST_HEADINGS 16
/* More swings than this make no better plan; a bag of hundreds of clubs is a slip of the pen. */
#define MOST_SWINGS 96

typedef struct
{
  Swing *swings;
  size_t n_swings;
  bool is_tee_only_kept; /* clubs for the tee are not played elsewhere; not so in a bag of nothing else */
  int n_headings;        /* 1: the same in all directions */
  Flown *flown;          /* [swing][lie][heading]; along_m NAN where no ball leaves so */
} Fleet;

/* Flies them from the lies that are needed, besides fairway and tee; not all of them when cancelled. */
Fleet *fleet_new (const Bag *bag, const LieTable *lies, const Conditions *conditions, const bool is_needed[N_LIES],
                  int n_threads, const gint *cancel);
void fleet_free (Fleet *fleet);
/* Flies a swing of any shape (`swing`: its club, share, shape, curve and day) from a lie in a direction, as the fleet flies its own. */
bool fleet_fly (const ShotInput *swing, const LieTable *lies, Lie lie, Vec2 unit, Flown *flown);
/* Of a swing from a lie (LIE_TEE: off a peg) in a direction. False where the club is not played from there. */
bool fleet_flown (const Fleet *fleet, size_t swing, Lie lie, Vec2 unit, Flown *flown);
/* ... of which is told by what part of a full turn it lies to the left of the way up the hole. */
bool fleet_flown_turned (const Fleet *fleet, size_t swing, Lie lie, double turn, Flown *flown);

/* The same for its poor strikes alone. */
Flown flown_poor (const Flown *flown);

/* ---- marked cells ---- */

/* Cells of a grid that are marked, of which any box is looked at in no time. */
typedef struct _Marked Marked;
/* `marks`: [cell], 0 or not. */
Marked *marked_new (const SolveGrid *grid, const guint8 *marks);
void marked_free (Marked *marked);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Marked, marked_free)
/* Is any cell of the box marked? Of what lies beyond the grid, those at its edge. */
bool marked_any (const Marked *marked, CellBox box);

#endif
