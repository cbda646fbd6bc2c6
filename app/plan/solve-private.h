// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of the whole-hole solver share.
 *
 *   hole --grid--> cells with lies, heights, relief     bag, day --fleet--> what each swing does in each direction
 *                    \                                   /
 *                     fields: what landing here is worth, run and Rules included, by run length and direction
 *                                       |  mean over each swing's pattern
 *                     sweep: every state's best swing and aim  --> values --> fields ...
 *
 * A state is a cell and one of the lies in it. Its value is the fewest expected strokes to hole out. All that is done for cells of 8 m first, then of 4 m, and
 * for the cells asked for only where play that is near the best may come.
 */
#ifndef HOLEWRIGHT_SOLVE_PRIVATE_H
#define HOLEWRIGHT_SOLVE_PRIVATE_H

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
  bool *state_ends; /* its value comes from the tables */
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

/* ---- what landing is worth ---- */

/* So many run lengths on a fairway are told apart; what lies between two of them is taken straight between their fields. */
#define N_RUNS 11
extern const double worth_runs_m[N_RUNS];
/* Fields are made by tiles of so many cells a side, as they are looked at. */
#define TILE 16
/* Sizes of blocks that fields are kept by besides cells, each twice as large as the one before: up to 8 cells a side. */
#define N_BLOCKS 3

/* The cells of a tile, of those of the grid that are counted by rows. */
CellBox cell_box_of_tile (const SolveGrid *grid, int tile);
/* All that the box comes to which is moved along a way, in cells, and so many cells beside it. */
CellBox cell_box_swept (CellBox box, Vec2 way, int beside);

/* What canopies catch of the balls that come down in a cell: where, and which share of them. CAUGHT_NOWHERE: nothing; CAUGHT_WIDELY: in more cells than one. */
#define CAUGHT_NOWHERE (-1)
#define CAUGHT_WIDELY (-2)
typedef struct
{
  int cell;
  float share;
} Caught;

/* What of a square of cells has come to be worth less, since all that was forgotten last: cells that hold it (x1 < x0: nothing has), strokes of all of them
   together and of the one that fell most. */
typedef struct
{
  CellBox box;
  double strokes, most;
} Fall;
/* No more squares than this are told apart. */
#define MOST_FALLS 128

/*
 * What coming down in each cell is worth, for each run length and sector: strokes to hole out of where the ball ends, the penalties of the Rules included; what
 * is lost and played again counts nothing there and stands in `lost`. Tiles of it are made when someone looks at them, by whichever thread that is.
 */
typedef struct _Worth
{
  const SolveGrid *grid;
  struct _Runs *runs;             /* where balls rest that come down in each cell */
  double *value;                  /* [state] */
  double *open;                   /* [cell] lies to play from, weighed */
  double *staying;                /* [cell] the part of it that keeps a ball that comes in */
  double *staying_share;          /* [cell] how much of the cell that is, penalty areas and out of bounds included */
  guint8 *to_staying, *to_canopy; /* [cell] no such cell is nearer than so many cells; NULL: there are none */
  guint8 *plain;                  /* [cell] bits WORTH_KEEPS_NONE and the others */
  double *dropped[N_SECTORS];     /* [penalty_of] strokes after relief, times its share */
  bool is_anything_lost;
  int tiles_x;
  size_t n_tiles;
  /* [run][sector][worth, lost][cell], the first of cells and each next one of blocks of two by two of those before, for wide patterns; and so many columns and rows */
  float *fields[1 + N_BLOCKS];
  Pages *pages; /* of all of them */
  int width[1 + N_BLOCKS], height[1 + N_BLOCKS];
  gint *making; /* [run][sector][tile] a thread is making it. Looked at atomically. */
  /* [patch] the last version in which the value of a cell of it was another one; ... by enough that other aims may be the best now; ... for the better. */
  gint *stirred, *leapt, *fell;
  int patch, patches_x, patches_y; /* cells a side; so many are there */
  double *leapt_open;
  guint8 *ready; /* as making: 0, or TILE_IS_READY with TILE_IS_LOST where anything of it is lost. Looked at atomically. */
  /* as making: of a tile's cells, found with it when it is first made; NULL: nothing yet */
  const Caught **caught;
  gint version;                        /* of the states' values */
  const struct _Worth *before;         /* of a hole that differs in little, for tiles that are the same; NULL: there is none */
  bool is_same_above;                  /* nor have its canopies and heights changed */
  guint8 *moved, *moved_since;         /* [cell] of another value since the last version; since `before` */
  Marked *marked_since, *marked_other; /* the latter; cells that are of another kind than before. NULL without `before` */
  Fall *falls;                         /* [square of so many cells a side] */
  int fall_cells, falls_x, n_falls;
  const Fall *fallen[MOST_FALLS]; /* of them those where anything has, and the most that all can make a swing better */
  int n_fallen;
  double most_fallen;
  /* [run][sector] worth_extent and [run] worth_reach of what was followed before this version */
  CellBox extents[N_RUNS][N_SECTORS];
  int reaches[N_RUNS];
} Worth;

/* All that comes down in the cell runs on. */
#define WORTH_KEEPS_NONE 1
/* The cell, the next one, and the two above these are all of one lie, from which balls are played. */
#define WORTH_RESTS_ALIKE 2
/* The version that is taken over from other fields. */
#define WORTH_BEFORE 1
/* Begins with the values that others were made of, whose tiles are taken over where they are the same; lets go of them. */
void worth_follow (Worth *worth, const Worth *before);
void worth_let_go (Worth *worth);
/* The farthest that balls about such a run (worth_run) came to rest from where they came down, of all that were followed: in cells. */
static inline double
worth_reach (const Worth *worth, double run)
{
  return worth->reaches[(int)run];
}
/* ... those that go the way between a sector and the next: how far each way from there. */
static inline CellBox
worth_extent (const Worth *worth, double run, int sector)
{
  return worth->extents[(int)run][sector];
}
/* Is a tile as it was in the fields from before, as far as it was made there? */
bool worth_is_as_before (const Worth *worth, int run, int sector, int tile);

Worth *worth_new (const SolveGrid *grid, const Conditions *conditions);
/* solve-worth-tiles: frees what canopies were found to catch. */
void worth_free_caught (Worth *worth);
void worth_free (Worth *worth);
/* Where a run length lies among worth_runs_m, 0 .. N_RUNS - 1. */
double worth_run (double run_m);

/* A share of balls that ends in a cell on a lie; `strokes` of a drop from a penalty area, its stroke included, else NAN. */
typedef void (*EndingVisit) (void *data, size_t cell, Lie lie, double share, double strokes);

/* A share of balls that run as those of one length and sector. */
typedef struct
{
  int run, sector;
  double share;
} RunShare;

/* The ways a ball ends that comes down in a cell: what they are worth, what is lost. Values are added to. */
typedef struct
{
  const Worth *worth;
  const Caught *caught; /* what canopies catch where that is known; NULL: it is to be found */
  Caught *finding;      /* takes what is found; may be NULL */
  bool is_open;         /* no canopy catches any */
  int sector;           /* -1: exactly along `way`, told to `visit` (may be NULL) */
  int drop_sector;      /* then the sector that `way` lies in: relief is told apart no finer */
  Vec2 way;             /* unit vector */
  double run;           /* worth_run; a whole number where it goes the way of a sector */
  RunShare shares[4];   /* then what its run is made of */
  EndingVisit visit;
  void *data;
  double value, lost;
} Ending;
/* `share` of the balls come down in the cell. */
void worth_end_ball (Ending *ending, size_t cell, double share);
/* Fewest strokes after a drop in one of the places, the stroke of penalty included. */
double worth_best_drop (const Worth *worth, const Relief *relief);
/* Takes over the states' values, while a solution is looked for but those that changed by more than can matter; the fields of those are made anew as they are looked at. */
void worth_update (Worth *worth, const double *value, bool is_last);

/* Where a swing's balls come down: the normal's centre and covariance in cells, between which fields. */
typedef struct
{
  float x, y, xx, xy, yy;
  float run; /* worth_run */
  int sector;
  float share; /* on the way from the sector to the next */
} Landing;

/* Means over a landing of what it is worth and of what is lost; the field at a cell stands for the whole of it, and beyond the edge is as at it. */
void worth_mean (const Worth *worth, const Landing *landing, float *value, float *lost);
/* The same to a hundredth, for less than half of the time. */
void worth_rough_mean (const Worth *worth, const Landing *landing, float *value, float *lost);
/* Has the value of a cell changed since that version in which balls end that come down there, `sds` deviations and `beside` cells around? `versions`: by how much, as
   `stirred` and the others of the worth say. */
bool worth_is_changed (const Worth *worth, const gint *versions, const Landing *landing, Vec2 way, double sds, double beside,
                       gint since);
/* The tiles under cells x0..x1, y0..y1 of a field, made if they were not; is anything lost there? */
bool worth_look (const Worth *worth, int run, int sector, int x0, int y0, int x1, int y1);
/* The field, or what is lost; by cells where `size` is 0, else by the blocks of that size. */
float *worth_blocks (const Worth *worth, int size, int run, int sector, bool is_lost);

/* ---- what has come to be better ---- */

void worth_note_fall (Worth *worth, size_t cell, double strokes);
/* All of this version were noted. */
void worth_gather_falls (Worth *worth);
void worth_forget_falls (Worth *worth);

/* ---- the sweep ---- */

/* Aims are told apart by 0.35 degrees: 1.4 m at the end of a long drive. */
#define N_AIMS 1024

/* One aim of one swing, seen from the ball. */
typedef struct
{
  float x_m, y_m;   /* where it comes down */
  float xx, xy, yy; /* covariance, m2 */
  float run;        /* worth_run; negative: it is not played there */
  float
      sector; /* of the way that it goes when it comes down: the sector to the right of it, and how far it is on the way to the next */
  float rise1, rise2; /* of the way, by a metre of rise and its square */
  float run_rise;     /* of `run`, by a metre of rise */
} SwingAim;

/* One swing from one lie, aim by aim. */
typedef struct _SwingAims
{
  SwingAim aims[N_AIMS];
  struct _SwingAims *poor; /* its poor strikes; NULL: it has none */
  float poor_share;        /* of the balls */
  float least_variance;    /* m2: of the narrowest */
  int step;                /* between coarse aims */
  double reach_m;          /* the least of carry and run */
  double far_m;            /* the most of carry */
  double run_m;            /* the most */
  double long_sd_m;        /* the most */
  /* What the ground under the ball adds, as in Flown; of the run in lengths as worth_run has them. */
  double up_along_m, up_along_m2, up_right_m, up_run, up_rise1, side_along_m, side_right_m;
} SwingAims;

/* NULL where the swing is not played from the lie. */
SwingAims *swing_aims_new (const Fleet *fleet, size_t swing, Lie lie);
void swing_aims_free (SwingAims *aims);
Vec2 solve_aim_unit (int aim);
int solve_aim (Vec2 unit);
/* No ball is expected to need more: where the Rules send it back for ever. */
#define MOST_STROKES 40.0

/* Shared by solutions for one bag, day and table of lies. */
typedef struct
{
  gint ref_count;
  bool is_needed[N_LIES]; /* as it was made for */
  Fleet *fleet;
  SwingAims **aims;     /* [swing * N_LIES + lie]; NULL: not played */
  size_t n_played;      /* of them */
  double least_reach_m; /* of the shortest swing */
} Flights;
/* Those of `near` (NULL: there is none), or new ones; NULL when cancelled. */
Flights *flights_for (const PlanSolution *solution, const PlanSolution *near, const bool is_needed[N_LIES], const gint *cancel);
void flights_unref (Flights *flights);

/* Everything of one solution, for cells of one size. */
struct _PlanSolution
{
  gint ref_count;
  Hole *hole;
  Bag *bag;
  char *hole_name, *tee_name;
  Conditions conditions;
  LieTable lies;
  StrokesTable *table;
  Vec2 tee;
  SolveGrid *grid;
  Flights *flights;
  const Fleet *fleet; /* of the flights, both */
  SwingAims *const *aims;
  Worth *worth;
  int n_threads;
  double widen, least_var; /* square cells: what is added to a pattern's variance, and the least that comes of it */
  double *value;           /* [state] */
  Pages *pages;            /* of the next two, and of `seen` and `looked` */
  float *cost;             /* [state * n_swings + swing]: of its best aim so far */
  gint16 *aim;             /* likewise; -1: never played from there */
  guint8 *best;            /* [state] swing */
  float *certified_value;  /* [state] at the last look at everything */
  gint certified;          /* version of the fields at the last look at everything; 0: there was none */
  guint16 *seen,
      *looked;    /* as cost: version of the fields of which it was worked out, and when aims beside it were looked at */
  size_t *active; /* states that are worked out; the others keep what the larger cells say */
  size_t n_active;
  float *weight;        /* [active] 0..1, how much a change of its value counts; NULL: all alike */
  double least_reach_m; /* of the shortest swing */
  float *least_beyond;  /* [metre] least value of a state at least so far from the hole */
  size_t n_beyond;
  int n_sweeps;
  bool is_part; /* its fleet and aims are another's */
  float *
      reached; /* [cell] chance, 0 and up, that play which is near the best comes past; NULL: it was not looked for in these cells */
  PlanSolution *coarser; /* of larger cells, where this one began; NULL: there is none */
};

/* ---- where a solution begins ---- */

/* Cells smaller than this are worked out only where play may come; others than these and the largest only while nothing is known. */
#define FINE_M 3.0
#define MEDIUM_M 6.0

/* Of another solution that part which has cells of this size; NULL: none has. */
const PlanSolution *solve_part_like (const PlanSolution *other, double cell_m);
/* From the values of a solution of other cells, or of nearly the same question. */
void solve_start_from (PlanSolution *solution, const PlanSolution *other);
/* Has `near` (may be NULL) the same cells, swings and aims, and may its fields be taken over? */
bool solve_is_like (const PlanSolution *solution, const PlanSolution *near);
/* From all that such a one knows. It must outlive the solving. */
void solve_start_again (PlanSolution *solution, const PlanSolution *near);
/* The most by which the value of a state that both have is another. */
double solve_moved (const PlanSolution *solution, const PlanSolution *near);
/* States count by how often near-best play came to them before, where that is known of the same cells. */
void solve_weigh_reached (PlanSolution *solution, const PlanSolution *near);
/* Only states that near-best play may come to, as the larger cells say, stay active, and count by how often it does. */
void solve_keep_reached (PlanSolution *solution);

/* ---- what an aim costs ---- */

/* So sure a loss is no plan. */
#define MOST_LOST 0.98
/* Strokes when what is lost is played again from here: Q = 1 + A + P (1 + Q); MOST_STROKES at most. */
static inline double
solve_play_again (double value, double lost)
{
  double strokes = lost > MOST_LOST ? MOST_STROKES : (1 + value + lost) / (1 - lost);
  return strokes < MOST_STROKES ? strokes : MOST_STROKES;
}

/* How a swing comes down that is aimed so, from a ball at rest at a place on the grid. */
Landing solve_landing (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball, double height_m);
/* What it costs, with the best shots after it; MOST_STROKES at most. */
double solve_aim_cost (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball, double height_m);
/* The same to two hundredths of a stroke in what tells aims of a swing apart. */
double solve_rough_aim_cost (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball, double height_m);
/* No less does it cost, as far as can be told without looking at what it comes down on; to be asked once solve_find_least_beyond was. */
double solve_least_cost (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball);
/* What the best places cost so far from the hole, by the values as they are. */
void solve_find_least_beyond (PlanSolution *solution);

/* ---- what has come to be better ---- */

/* What a swing may come down on that has. */
typedef struct
{
  const Fall *falls[MOST_FALLS];
  int n;
  double most_gain; /* no aim of the swing is better now by more */
} FallsMet;

/* How far from a place the nearest and the farthest cells lie that hold what has. */
typedef struct
{
  float near_m[MOST_FALLS], far_m[MOST_FALLS];
} FallsSeen;

void solve_find_falls_seen (const PlanSolution *solution, Vec2 at, FallsSeen *seen);
/* Of balls that are played at that place. */
void solve_find_falls_met (const PlanSolution *solution, const SwingAims *aims, Vec2 at, const FallsSeen *seen, FallsMet *met);
/* By how much an aim of it can be better now. */
double solve_gain (const PlanSolution *solution, const SwingAims *aims, const FallsMet *met, int aim, Vec2 at);

/* ---- the sweep ---- */

typedef enum
{
  SWEEP_FIRST,  /* every swing, coarse aims */
  SWEEP_LEFT,   /* swings that may still be best, about their best aim, where anything under them has changed */
  SWEEP_CERTIFY /* every swing that may be best for all that is known, coarse aims */
} SweepKind;

typedef struct
{
  SweepKind kind;
  int step; /* SWEEP_LEFT: aims about the best that are looked at; 0: none but it */
  double
      margin; /* swings that were known to cost this much more than the best are left out; SWEEP_FIRST: that can come no nearer to it */
  double weight; /* states that count less are left out */
} SweepPlan;

/* One sweep over the active states. Returns the largest change of a value, by its weight; NAN when cancelled. */
double solve_sweep (PlanSolution *solution, SweepPlan plan, const gint *cancel);

/* ---- one shot from anywhere ---- */

/* A shot by a swing of the fleet. */
typedef struct
{
  Vec2 ball;
  Lie lie; /* LIE_TEE: off a peg */
  size_t swing;
  Vec2 way; /* unit vector to the aim */
} SolveShot;

/* Strokes to hole out from the ball with this shot and the best ones after it; MOST_STROKES at most. Every cell under the pattern, exactly in the shot's
   direction, told to `visit` (may be NULL). */
double solve_shot_exactly (const PlanSolution *solution, const SolveShot *shot, EndingVisit visit, void *data);
/* The same of a shot that flies so, which the fleet need not have. */
double solve_flown_exactly (const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown, EndingVisit visit,
                            void *data);

/* The best aim of one swing. */
typedef struct
{
  size_t swing;
  Vec2 way;
  double strokes; /* INFINITY: it is not played from there */
} SolveChoice;

/* The best aim of each swing of the fleet from a ball, cheapest swing first: `choices` has room for n_swings. */
void solve_choices (const PlanSolution *solution, Vec2 ball, Lie lie, SolveChoice *choices);
/* The same as the fields have it. */
void solve_rough_choices (const PlanSolution *solution, Vec2 ball, Lie lie, SolveChoice *choices);

/* The best shot from the middle of a state's cell. False where none is played. */
bool solve_best_shot (const PlanSolution *solution, size_t state, SolveShot *shot);
/* Chances of each score after a tee shot, as Plan has them; `flown`: how it flies where the fleet does not have it, else NULL. */
void solve_scores (const PlanSolution *solution, const SolveShot *tee_shot, const Flown *flown,
                   double chances[PLAN_MOST_SCORE + 1]);

/* Chance, 0 and up, that play which is near the best comes past each state: [state], free with g_free. */
float *solve_reach (const PlanSolution *solution, const gint *cancel);

#endif
