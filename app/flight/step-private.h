// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The coefficients of Dormand and Prince's method, shared by the flight of one ball and of several side by side.
 */
#ifndef HOLEWRIGHT_STEP_PRIVATE_H
#define HOLEWRIGHT_STEP_PRIVATE_H

#include "flight-private.h"

/* What a step may shift the landing by, by its own estimate: of balls side by side the most in one direction, of a lone ball the sum over all three. The
   estimate is of the lower order, so that all steps together land within a millimetre (tests/reference/test-flight-gsl.c). */
#define STEP_TOLERANCE_M 6e-5
#define LONE_STEP_TOLERANCE_M 2.5e-4
/* A shift of speed lasts as long as the ball would stay up without air, and this much longer. */
#define LEAST_LEFT_S 0.3
/* The estimate sees little of a corner in the coefficients. Side by side, a step across one is taken to be this much worse. */
#define CORNER_FACTOR 25
/* A lone ball's step ends at the corner, at most so much beyond it, unless its error is next to nothing. */
#define BEYOND_CORNER_S 5e-4
#define CORNER_ERROR 0.01

/* The usual controls of the length: aim below the tolerance, never grow or shrink too fast. */
#define SAFETY 0.9
#define LEAST_FACTOR 0.2
#define MOST_FACTOR 5.0
#define LEAST_ERROR 1e-9
#define SHORTEST_STEP_S 1e-9
#define LONGEST_STEP_S 2.0
/* The first try; a ball chipped at low speed is still rising after half the time to its top. */
#define FIRST_STEP_S 0.2

/* Row k - 1 makes stage k out of those before it; the last row is the step itself. */
static const double dp_stage[6][6] = {
  { 1.0 / 5 },
  { 3.0 / 40, 9.0 / 40 },
  { 44.0 / 45, -56.0 / 15, 32.0 / 9 },
  { 19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729 },
  { 9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656 },
  { 35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84 },
};
/* When the third stage is. */
#define DP_THIRD_STAGE 0.3
/* Fifth order less fourth. */
static const double dp_error[7] = { 71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40 };
/* The bend of the continuous extension. */
static const double dp_dense[7] = { -12715105075.0 / 11282082432,  0,
                                    87487479700.0 / 32700410799,   -10690763975.0 / 1880347072,
                                    701980252875.0 / 199316789632, -1453857185.0 / 822651844,
                                    69997945.0 / 29380423 };

#endif
