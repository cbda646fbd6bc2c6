// SPDX-License-Identifier: GPL-3.0-or-later
/* Hops and pieces of the roll of many balls, several of them side by side in the machine's vectors. */
#ifndef HOLEWRIGHT_ODDS_REST_LANES_PRIVATE_H
#define HOLEWRIGHT_ODDS_REST_LANES_PRIVATE_H

#include "flight-many.h"

/* As app/flight/run.c has them: what is no rebound, and when a ball is at rest. */
#define LEAST_REBOUND_MPS 0.3
#define REST_MPS 1e-6
/* Pieces of the roll in distance and time. */
#define PIECE_M 0.6
#define PIECE_S 0.4

/* Numbers of many balls: columns[COLUMN][i] is ball i's. */
typedef enum
{
  BALL_X,
  BALL_Y,
  BALL_VX,
  BALL_VY,
  BALL_VZ,
  BALL_SPIN,
  BALL_TIME,     /* since it came down */
  BALL_BOUNCE,   /* of the turf under it, as in Surface */
  BALL_FRICTION, /* */
  BALL_CRATER,   /* */
  BALL_HOLD,     /* its deceleration */
  N_BALL_KEPT,   /* what goes with a ball from one round to the next; the others are told anew in each */
  BALL_SLOPE_X = N_BALL_KEPT,
  BALL_SLOPE_Y,
  BALL_OFF, /* speed off the ground after an impact */
  BALL_OUT, /* how long a hop or a piece took, 0 for none */
  BALL_NEXT_X,
  BALL_NEXT_Y,
  BALL_NEXT_VX,
  BALL_NEXT_VY,
  N_BALL_COLUMNS
} BallColumn;

/* Columns have room for a whole number of groups of FLIGHT_GROUP. */
typedef struct
{
  /* After impacts: balls that go on hopping are moved on over the plane on which they hop. */
  void (*hop) (double *const *columns, size_t n);
  /* One piece of the roll: into the BALL_NEXT columns. */
  void (*roll) (double *const *columns, size_t n);
} RestLanes;

extern const RestLanes rest_lanes_plain, rest_lanes_avx2, rest_lanes_avx512;
/* Those of this machine. */
const RestLanes *rest_lanes (void);

#endif
