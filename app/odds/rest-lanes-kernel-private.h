// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Hops and pieces of the roll side by side. Included once for each kind of machine: rest-lanes*.c say how wide its vectors are and how it takes their root, and name what they make.
 *
 *     N_LANES        balls in one vector, a divisor of FLIGHT_GROUP
 *     ROOT_OF_LANES  as in geometry-lanes.h
 *     REST_LANES     name of the functions' table
 */
#include "geometry-lanes.h"
#include "rest-lanes-private.h"

/* The balls from number i on. */
LANES_INLINE Lanes
load_column (double *const *columns, BallColumn column, size_t i)
{
  return lanes_load (columns[column] + i);
}

LANES_INLINE void
store_column (double *const *columns, BallColumn column, size_t i, Lanes lanes)
{
  lanes_store (columns[column] + i, lanes);
}

/* ---- hops ---- */

LANES_INLINE void
hop_group (double *const *columns, size_t i)
{
  Lanes sx = load_column (columns, BALL_SLOPE_X, i), sy = load_column (columns, BALL_SLOPE_Y, i),
        off = load_column (columns, BALL_OFF, i);
  Lanes time = load_column (columns, BALL_TIME, i), hop = off * lanes_root (1 + sx * sx + sy * sy) * (2 / GRAVITY_MPS2);
  Masks goes = (off > LEAST_REBOUND_MPS) & (time + hop <= RUN_LONGEST_S);
  hop = lanes_either (goes, hop, lanes_all (0));
  store_column (columns, BALL_X, i, load_column (columns, BALL_X, i) + hop * load_column (columns, BALL_VX, i));
  store_column (columns, BALL_Y, i, load_column (columns, BALL_Y, i) + hop * load_column (columns, BALL_VY, i));
  store_column (columns, BALL_VZ, i, load_column (columns, BALL_VZ, i) - GRAVITY_MPS2 * hop);
  store_column (columns, BALL_TIME, i, time + hop);
  store_column (columns, BALL_OUT, i, hop);
}

static void
hop_all (double *const *columns, size_t n)
{
  for (size_t i = 0; i < n; i += N_LANES)
    hop_group (columns, i);
}

/* ---- pieces of the roll ---- */

/* Acceleration over the level as shares of the speed and of what the slope draws: a ball at rest is held unless the slope draws more. */
LANES_INLINE void
pull_on (Lanes speed, Lanes draw, Lanes hold, Lanes *of_speed, Lanes *of_draw)
{
  Masks moves = speed > REST_MPS;
  *of_speed = lanes_either (moves, -hold / speed, lanes_all (0));
  *of_draw = lanes_either (moves, lanes_all (1), lanes_either (draw <= hold, lanes_all (0), 1 - hold / draw));
}

LANES_INLINE void
roll_group (double *const *columns, size_t i)
{
  Lanes vx = load_column (columns, BALL_VX, i), vy = load_column (columns, BALL_VY, i);
  Lanes sx = load_column (columns, BALL_SLOPE_X, i), sy = load_column (columns, BALL_SLOPE_Y, i);
  Lanes flat = 1 / (1 + sx * sx + sy * sy), dx = -GRAVITY_MPS2 * flat * sx, dy = -GRAVITY_MPS2 * flat * sy;
  Lanes hold = load_column (columns, BALL_HOLD, i) * flat, draw = lanes_root (dx * dx + dy * dy),
        speed = lanes_root (vx * vx + vy * vy);
  Lanes of_speed, of_draw;
  pull_on (speed, draw, hold, &of_speed, &of_draw);
  Lanes ax = of_draw * dx + of_speed * vx, ay = of_draw * dy + of_speed * vy;
  Masks rests = (speed <= REST_MPS) & (ax == 0) & (ay == 0);
  Lanes piece = lanes_either (speed * PIECE_S > PIECE_M, PIECE_M / speed, lanes_all (PIECE_S));
  Lanes slowing = -(vx * ax + vy * ay);
  Masks stops = (slowing > 0) & (speed * speed <= slowing * piece);
  Lanes hx = vx + 0.5 * piece * ax, hy = vy + 0.5 * piece * ay;
  pull_on (lanes_root (hx * hx + hy * hy), draw, hold, &of_speed, &of_draw);
  Lanes mx = of_draw * dx + of_speed * hx, my = of_draw * dy + of_speed * hy, to_stop = 0.5 * speed * speed / slowing;
  Lanes by_x = lanes_either (stops, to_stop * vx, piece * (vx + 0.5 * piece * mx)),
        by_y = lanes_either (stops, to_stop * vy, piece * (vy + 0.5 * piece * my));
  store_column (columns, BALL_NEXT_X, i, load_column (columns, BALL_X, i) + by_x);
  store_column (columns, BALL_NEXT_Y, i, load_column (columns, BALL_Y, i) + by_y);
  store_column (columns, BALL_NEXT_VX, i, lanes_either (stops, lanes_all (0), vx + piece * mx));
  store_column (columns, BALL_NEXT_VY, i, lanes_either (stops, lanes_all (0), vy + piece * my));
  store_column (columns, BALL_OUT, i, lanes_either (rests, lanes_all (0), piece));
}

static void
roll_all (double *const *columns, size_t n)
{
  for (size_t i = 0; i < n; i += N_LANES)
    roll_group (columns, i);
}

const RestLanes REST_LANES = { hop_all, roll_all };
