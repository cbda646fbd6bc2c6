// SPDX-License-Identifier: GPL-3.0-or-later
/* The grid of balls over a strike's pattern: what rest.c sums up by areas, and rest-places.c tells place by place. */
#ifndef HOLEWRIGHT_REST_GRID_PRIVATE_H
#define HOLEWRIGHT_REST_GRID_PRIVATE_H

#include "odds-rests.h"
#include "rest-private.h"

/* The pattern as far as these deviations; what is beyond goes with the squares at the rim. */
#define FARTHEST_SDS 3.6
/* Squares across it at first; each is quartered so often at most. */
#define N_SQUARES 6
#define N_QUARTERINGS 4
/* Widths are told in halves of the smallest square: of one that would be quartered once more the ball at its centre stands for the half. */
#define SMALLEST 2
#define LARGEST (SMALLEST << N_QUARTERINGS)
#define N_PLACES (N_SQUARES * LARGEST + 1)

/* Balls that land on one area and rest on another, unless trees on the way stop them: areas by their order, the ground last. */
typedef struct
{
  size_t lands, rests;
  TreeStops stops;
  double share;
} Fate;

/* A square of the grid from a place on. */
typedef struct
{
  int i, j;
} Square;

/* The balls of a square: so many go the way of each corner, the rest that of the ball in its middle. */
typedef struct
{
  Square square;
  int size;
  double share, of_corner;
} Portion;

/* One ball of the grid, kept for those who ask where it rests. */
typedef struct
{
  Vec2 landing, rest;
  double share; /* that it stands for by itself, of those that come down as it does */
  uint16_t fate;
} KeptBall;

/* What is kept of the grid for rest_visit. */
typedef struct
{
  uint16_t *ball_at; /* by place, of `balls` */
  GArray *balls;     /* KeptBall */
  GArray *portions;  /* Portion */
} Traces;

typedef struct
{
  const Ends *ends;
  SlopePatch patch;
  const Strike *strike;
  Normal normal;
  uint16_t *known;        /* fate at each place of the grid */
  double below[N_PLACES]; /* chance below each place, along or across */
  GArray *fates;
  uint16_t latest; /* of the fates */
  Traces *traces;  /* NULL: nobody asks where */
} Carrier;

/* Deviations from the mean of a place of the grid. */
static inline double
grid_deviation (int place)
{
  return FARTHEST_SDS * (2.0 * place / (N_PLACES - 1) - 1);
}

static inline size_t
grid_index (int i, int j)
{
  return (size_t)i * N_PLACES + (size_t)j;
}

void traces_init (Traces *traces);
void traces_clear (Traces *traces);
/* What becomes of a ball: at `place` of the grid it lands there and rests there. */
void traces_keep (Traces *traces, Square place, Vec2 landing, Vec2 rest, uint16_t fate);
void traces_share_out (Traces *traces, Square square, int size, double share, double of_corner);
/* Tells all of a strike's balls; of those that land on area k, landing[k] of all do. */
void traces_tell (Carrier *carrier, const double *landing, RestVisit visit, void *data);

#endif
