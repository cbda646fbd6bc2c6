// SPDX-License-Identifier: GPL-3.0-or-later
/* What coming down in each cell is worth to the whole-hole solver, where balls run from there, and what of it has come to be better. */
#ifndef HOLEWRIGHT_SOLVE_WORTH_PRIVATE_H
#define HOLEWRIGHT_SOLVE_WORTH_PRIVATE_H

#include "solve-cells-private.h"

/* ---- what landing is worth ---- */

/* So many run lengths on a fairway are told apart; what lies between two of them is taken straight between their fields. */
#define N_RUNS 11
extern const double worth_runs_m[N_RUNS];

/* How balls come down that run so far on a level fairway, on a day. */
typedef struct
{
  Impact landings[N_RUNS]; /* along +x */
  double stretch[N_RUNS];  /* of the way that they run */
  double descents[N_RUNS]; /* tangents of the angles at which they come down */
} RunSwings;
void run_swings_find (const Conditions *conditions, RunSwings *swings);

/*
 * Balls between two lengths, and between two sectors, run as those of the two do: some too far or too much to the left, and some too little. They would rest farther apart than they
 * come down; so those that run too far come down shorter, by half of it, and so to the sides: what goes wrong is shared between where they come down and where they rest, as on a
 * level fairway. To that end shares change straight across the pattern, and on the whole none comes down anywhere else: the shorter length has more by `along` times the weight's
 * fall, by its own weight, along the way, and the sector to the right has more by `left` times that to the left. In cells.
 */
typedef struct
{
  double along, left;
} RunMoves;
#define RUN_MOVED 0.5
/* Of a pattern whose square deviation in cells is nowhere less than `least_variance`; a narrow one is moved by no more than MOST_MOVED_SDS of that. */
#define MOST_MOVED_SDS 0.7
static inline RunMoves
worth_run_moves (double cell_m, double run, double share, double least_variance)
{
  int first = run < N_RUNS - 2 ? (int)run : N_RUNS - 2;
  double further = run - first, longer = (worth_runs_m[first + 1] - worth_runs_m[first]) / cell_m,
         wide = (worth_runs_m[first] / cell_m + further * longer) * (2 * PI / N_SECTORS);
  double far = (further > 0.5 ? further : 1 - further) * longer, aside = (share > 0.5 ? share : 1 - share) * wide;
  double square = RUN_MOVED * RUN_MOVED * (far * far + aside * aside), most = MOST_MOVED_SDS * MOST_MOVED_SDS * least_variance;
  double moved = square > most ? RUN_MOVED * __builtin_sqrt (most / square) : RUN_MOVED;
  return (RunMoves){ moved * longer * further * (1 - further), moved * wide * share * (1 - share) };
}
/* No more than the square deviation of a pattern in any direction. */
static inline double
worth_least_variance (double xx, double xy, double yy)
{
  return (xx * yy - xy * xy) / (xx + yy);
}

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

/* So many versions back it is known in which box all lies that has changed. */
#define WORTH_AGES 6

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
  double *open_now, *staying_now; /* [cell] room for both while values are taken over */
  double *staying_share;          /* [cell] how much of the cell that is, penalty areas and out of bounds included */
  guint8 *to_staying, *to_canopy; /* [cell] no such cell is nearer than so many cells; NULL: there are none */
  guint8 *plain;                  /* [cell] bits WORTH_KEEPS_NONE and the others */
  double *dropped[N_SECTORS];     /* [penalty_of] strokes after relief, times its share */
  Vec2 ways[N_SECTORS];           /* unit vectors */
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
  /* [stirred, leapt, fell][versions back] patches about all that changed since then (x1 < x0: none has) */
  CellBox changed[3][WORTH_AGES];
  double *leapt_open,
      *leapt_above; /* [cell] at its last leap: what is played from there; what its canopy catches, NULL: there are none */
  guint8 *ready;    /* as making: 0, or TILE_IS_READY with TILE_IS_LOST where anything of it is lost. Looked at atomically. */
  /* [run][sector][row of tiles] bits of those that are ready, and of those of which anything is lost; NULL: a row has more tiles than bits. Looked at atomically. */
  guint64 *ready_rows, *lost_rows;
  int tiles_y;
  /* as making: of a tile's cells, found with it when it is first made; NULL: nothing yet */
  const Caught **caught;
  gint version;                /* of the states' values */
  const struct _Worth *before; /* of a hole that differs in little, for tiles that are the same; NULL: there is none */
  bool is_same_above;          /* nor have its canopies and heights changed */
  guint8 *moved, *moved_since; /* [cell] of another value since the last version; since `before` */
  guint8 *moved_above,
      *other_above;   /* likewise what its canopy catches; since `before` also where canopies or heights have changed */
  gint stirred_above; /* the last version in which what any canopy catches was of another value */
  Marked *marked_since, *marked_above; /* moved_since; other_above. NULL without `before` */
  Fall *falls;                         /* [square of so many cells a side] */
  int fall_cells, falls_x, n_falls;
  const Fall *fallen[MOST_FALLS]; /* of them those where anything has, and the most that all can make a swing better */
  int n_fallen;
  double most_fallen, all_fallen; /* and the strokes of all of them */
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

Worth *worth_new (const SolveGrid *grid, const Conditions *conditions, const RunSwings *swings);
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
/* What of them a canopy before the place, in cells, has caught; they end under it. */
double worth_end_in_canopies (Ending *ending, double x, double y, double share);
/* They end on that part of a cell which keeps what comes in. */
void worth_end_kept (Ending *ending, size_t cell, double share);
/* They rest at a place, in cells: on the lie there. */
void worth_end_at (Ending *ending, double x, double y, double share);
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
  float share;   /* on the way from the sector to the next */
  float further; /* by which the spread was multiplied: how much farther the ball flies than from level ground over such */
} Landing;

/* Means over a landing of what it is worth and of what is lost; the field at a cell stands for the whole of it, and beyond the edge is as at it. */
void worth_mean (const Worth *worth, const Landing *landing, float *value, float *lost);
/* The same to a hundredth, for less than half of the time. */
void worth_rough_mean (const Worth *worth, const Landing *landing, float *value, float *lost);
/* Has the value of a cell changed since that version in which balls end that come down there, `sds` deviations and `beside` cells around? `versions`: by how much, as
   `stirred` and the others of the worth say. */
bool worth_is_changed (const Worth *worth, const gint *versions, const Landing *landing, Vec2 way, double sds, double beside,
                       gint since);
/* The tiles of a field in columns and rows `tiles`, made if they were not; is anything lost there? */
bool worth_look (const Worth *worth, int run, int sector, CellBox tiles);
/* The columns and rows of tiles that hold a box of cells; for what lies beyond the edge those at it. */
CellBox worth_tiles_of (const Worth *worth, CellBox cells);
/* A tile is to be made anew. */
void worth_drop_tile (Worth *worth, int run, int sector, int tile);
/* The field, or what is lost; by cells where `size` is 0, else by the blocks of that size. */
float *worth_blocks (const Worth *worth, int size, int run, int sector, bool is_lost);

/* ---- what has come to be better ---- */

void worth_note_fall (Worth *worth, size_t cell, double strokes);
/* All of this version were noted. */
void worth_gather_falls (Worth *worth);
void worth_forget_falls (Worth *worth);

#endif
