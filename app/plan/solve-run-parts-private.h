// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solve-run-parts-private - what the files of solve-run.c share: what is known of the ground and of how balls come down, and the balls of a tile of cells.
 */
#ifndef HOLEWRIGHT_SOLVE_RUN_PARTS_PRIVATE_H
#define HOLEWRIGHT_SOLVE_RUN_PARTS_PRIVATE_H

#include "solve-run-private.h"

#include "flight-many.h"

/* Balls of a tile and of the row beyond it each way. */
#define SIDE (TILE + 1)
#define N_BALLS (SIDE * SIDE)

/* Where the balls of a tile rest. Never changes once made, and may be another hole's as well; counted (g_atomic_rc_box). */
typedef struct
{
  CellBox box;                              /* runs_rest_box */
  CellBox way;                              /* all cells that the balls came to, on their way as well */
  gint16 rests[MOST_RESTS][TILE * TILE][2]; /* the second only as far as the first, where no cell has it */
} RestTile;

struct _Runs
{
  const SolveGrid *grid;
  RunSwings swings;
  double friction, crater;
  float bounce[N_LIES], hold[N_LIES]; /* factor on the restitution; deceleration of a rolling ball */
  bool stays[N_LIES];                 /* what comes there is kept */
  /* [cell] where balls come down in it, in cells from its middle: in that part of it which keeps nothing, parted into its largest lie and the rest. */
  float *start_x[MOST_RESTS], *start_y[MOST_RESTS];
  float *second_share; /* [cell] of that rest */
  guint8 *is_mixed;    /* [cell] the turf is not the same all about it; NULL: every cell has its ball */
  int tiles_x, n_tiles;
  Marked *edges;                      /* cells where the turf is not the same all about them; NULL: the ground is not level */
  RestTile **tiles;                   /* [run][sector][tile] counted; of those that are made */
  gint *made;                         /* likewise: 0, 1 while it is made, TILE_IS_MADE. Looked at atomically. */
  gint extents[N_RUNS][N_SECTORS][4]; /* runs_extent. Looked at atomically. */
  const struct _Runs *before;         /* of a hole that differs in little; NULL: there is none */
  Marked *others;                     /* cells where balls find something else than before */
};
#define TILE_IS_MADE 2

typedef double Column[N_BALLS + FLIGHT_GROUP];

typedef struct
{
  Column vx, vy, vz, spin, slope_x, slope_y, bounce, friction, crater, off;
} Bounces;

typedef struct
{
  float x[N_BALLS], y[N_BALLS], vx[N_BALLS], vy[N_BALLS]; /* cells, metres by second */
  guint16 number[N_BALLS];
  int n;
} Rolling;

typedef struct
{
  Bounces bounces;
  float x[N_BALLS], y[N_BALLS];
  int lie[N_BALLS]; /* under them */
  guint16 number[N_BALLS];
  Rolling rolling;
  float least_x, least_y, most_x, most_y; /* of all places that they came to so far */
  float rest_x[N_BALLS], rest_y[N_BALLS]; /* by number */
} Balls;

/* Which cells of a tile, and of the row beyond it, have balls of their own. */
typedef bool Chosen[N_BALLS];

/* solve-run-ground: turf, where balls come down in each cell, and which cells have mixed turf about them. */
void runs_look_at_ground (Runs *runs, const Conditions *conditions);
/* solve-run-balls: balls come down in the chosen cells, or in such parts of them, on this way, and are followed to their rest. */
void runs_follow_balls (const Runs *runs, int run, Vec2 way, int x0, int y0, const Chosen chosen, int part, Balls *balls);
/* solve-run: such balls came so far. */
void runs_note_extent (Runs *runs, int run, int sector, CellBox far);
/* solve-run-again: a tile from before. NULL where it is another now, or was not made. */
RestTile *runs_take_tile (const Runs *runs, int run, int sector, int tile);
/* solve-run-bounce: the first `n` bounce until they rest or roll; in the widest vectors that this machine has. */
void runs_bounce_balls (const Runs *runs, Balls *balls, int n);
/* solve-run-roll: those that roll do so to their rest; in the widest vectors that this machine has. */
void runs_roll_balls (const Runs *runs, Balls *balls);

#endif
