// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solve-run-private - where balls come to rest that come down in the middle of a cell: they bounce and roll over the grid as a ball of the odds does over the ground, are
 * slowed by what lies there and drawn by its slope.
 *
 * What a ball does depends on how it comes down: by the length that it would run on a level fairway, and by its way. So nothing of it depends on what a place is worth, and
 * all of it is found once, tile by tile, when it is first asked for.
 */
#ifndef HOLEWRIGHT_SOLVE_RUN_PRIVATE_H
#define HOLEWRIGHT_SOLVE_RUN_PRIVATE_H

#include "solve-private.h"

typedef struct _Runs Runs;
/* The grid must outlive it. `conditions` and the `swings` of that day are borrowed for the call only. */
Runs *runs_new (const SolveGrid *grid, const Conditions *conditions, const RunSwings *swings);
void runs_free (Runs *runs);
/* From a cell's middle to where a share of the balls rests that come down in the cell where it does not keep them, in cells. */
typedef struct
{
  Vec2 to;
  double share;
} RunRest;
#define MOST_RESTS 2
/* Of balls that run worth_runs_m[run] on a level fairway and go the way of a sector. Returns how many rests there are: 1 or 2. */
int runs_rest (Runs *runs, int run, int sector, size_t cell, RunRest rests[MOST_RESTS]);
/* The same of the cells of a tile, by rows of TILE: in RUN_PARTS of a cell, x and y from its middle to that of the part; and how much has the second rest: [cell] of the grid. */
#define RUN_PARTS 64
typedef const gint16 (*RestsOfTile)[2];
void runs_rests (Runs *runs, int run, int sector, int tile, RestsOfTile rests[MOST_RESTS], const float **second_share);
/* The sector to the right of a way, and how far that is on the way to the next. */
int runs_sector (Vec2 way, double *share);
/* Balls between two lengths and two sectors: those of the four, and how much of each where `shorter` is the share of the shorter length and `right` that of the first sector. */
void runs_between (int length, int sector, double shorter, double right, RunShare shares[4]);
/* Asks from now on about what others were asked about too, on the same day in the same cells, and takes over what is the same; lets go of them. */
void runs_follow (Runs *runs, const Runs *before);
void runs_let_go (Runs *runs);
/* Is all that balls of a tile come to as it was before, where others are followed? */
bool runs_is_same (const Runs *runs, int run, int sector, int tile);
/* Of all that were asked about so far the farthest from where it came down, in cells; how far those of one sector came each way. */
int runs_farthest (const Runs *runs, int run);
CellBox runs_extent (const Runs *runs, int run, int sector);
/* The cells of a tile that was asked about, and all between which its balls rest. */
CellBox runs_rest_box (const Runs *runs, int run, int sector, int tile);
/* How such a ball comes down that goes along +x. */
Impact runs_impact (const Runs *runs, int run);
/* How steeply such a ball comes down: the tangent. */
double runs_descent (const Runs *runs, double run);

#endif
