// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Balls side by side in vectors, each with steps of its own length; where one lands, the next takes its lane. This source is compiled once for each kind of
 * machine: lanes*.c say how wide its vectors are and how it takes their root, and name the function.
 *
 *     N_LANES        balls in a vector
 *     N_GROUPS       vectors that take turns within each stage, because one alone would wait for its own root and quotient
 *     ROOT_OF_LANES  as in geometry-lanes.h
 *     LANES_FLY      the function's name, declared in lanes-private.h
 */
#include "geometry-lanes.h"
#include "lanes-private.h"
#include "forces-private.h"
#include "step-private.h"

#include <math.h>
#include <string.h>

#define N_BALLS (N_LANES * N_GROUPS)

/* A step that ends this near the ground is the last: a parabola does the rest. */
#define NEAR_GROUND_M 0.02
/* Newton's steps towards the moment of landing within a step. */
#define LANDING_NEWTONS 6

/* Binary exponent and mantissa between sqrt (1/2) and sqrt (2) of a positive number, and their logarithm, true to 1e-9. */
LANES_INLINE Lanes
logarithm (Lanes a)
{
  const Lanes whole = lanes_all (0x1p52);
  Masks bits = (Masks)a;
  Masks raised = bits + (ONE_BITS - ROOT_HALF_BITS);
  Lanes exponent = (Lanes)((raised >> 52) | (Masks)whole) - whole - 1023;
  Lanes mantissa = (Lanes)((raised & MANTISSA_BITS) + ROOT_HALF_BITS);
  Lanes s = (mantissa - 1) / (mantissa + 1), q = s * s;
  Lanes series = 2 * s * (1 + q * (1.0 / 3 + q * (1.0 / 5 + q * (1.0 / 7 + q * (1.0 / 9)))));
  return exponent * LOG_2 + series;
}

/* e to the power of a, |a| < 200, to a thousandth: for lengths of steps only. */
LANES_INLINE Lanes
rough_power (Lanes a)
{
  const Lanes magic = lanes_all (0x1.8p52);
  Lanes twos = a * 1.44269504088896340736, shifted = twos + magic;
  Lanes f = (twos - (shifted - magic)) * LOG_2;
  Masks exponent = ((Masks)shifted << 52) + (int64_t)ONE_BITS;
  return (Lanes)exponent * (1 + f * (1 + f * (0.5 + f * (1.0 / 6 + f * (1.0 / 24)))));
}

/* ---- the forces, as in flight_rates ---- */

/* What stays the same during the flights. */
typedef struct
{
  Lanes force_per_m, wind_x, wind_y;
  Lanes wind_base, wind_log; /* the wind's share is base + log * logarithm (h^2 + WIND_LEAST_HEIGHT_M^2) */
  Lanes axis[3];
} Mediums;

/* Places along the level are not felt by any force, so that they need no stages of their own. */
enum
{
  Z,
  VX,
  VY,
  VZ,
  W,
  N_FELT
};

LANES_INLINE void
lane_rates (const Mediums *medium, const Lanes at[N_FELT], Lanes rates[N_FELT])
{
  Lanes share = medium->wind_base + medium->wind_log * logarithm (at[Z] * at[Z] + WIND_LEAST_HEIGHT_M * WIND_LEAST_HEIGHT_M);
  Lanes x = at[VX] - share * medium->wind_x, y = at[VY] - share * medium->wind_y, z = at[VZ];
  Lanes squared = x * x + y * y + z * z + STILL_MPS * STILL_MPS;
  Lanes speed = lanes_root (squared), spin_ratio = at[W] * BALL_RADIUS_M * speed * (1 / squared);
  Lanes s = lanes_least (lanes_most (spin_ratio, lanes_all (OUTDOOR_LEAST_SPIN_RATIO)), lanes_all (OUTDOOR_MOST_SPIN_RATIO));
  Lanes fade = lanes_least (lanes_most (spin_ratio, lanes_all (0)), lanes_all (OUTDOOR_LEAST_SPIN_RATIO))
               * (1 / OUTDOOR_LEAST_SPIN_RATIO);
  Lanes push = medium->force_per_m * speed;
  Lanes slow = push * (OUTDOOR_CD0 + s * (OUTDOOR_CD1 + s * OUTDOOR_CD2));
  Lanes turn = push * fade * (OUTDOOR_CL0 + s * (OUTDOOR_CL1 + s * OUTDOOR_CL2));
  const Lanes *axis = medium->axis;
  rates[Z] = at[VZ];
  rates[VX] = turn * (axis[1] * z - axis[2] * y) - slow * x;
  rates[VY] = turn * (axis[2] * x - axis[0] * z) - slow * y;
  rates[VZ] = turn * (axis[0] * y - axis[1] * x) - slow * z - GRAVITY_MPS2;
  rates[W] = -SPIN_LOSS_PER_M * speed * at[W];
}

/* ---- steps ---- */

typedef struct
{
  Mediums medium;
  Lanes x, y, felt[N_FELT], rates[N_FELT];
  Lanes t_s, length_s;
} Flock;

/* What a step would come to. */
typedef struct
{
  Lanes x, y, felt[N_FELT], rates[N_FELT];
  Lanes error;
} Tried;

LANES_INLINE Lanes
weighted (const double *weights, Lanes slopes[7][N_FELT], int item, int n)
{
  Lanes sum = weights[0] * slopes[0][item];
#pragma GCC unroll 8
  for (int k = 1; k < n; k++)
    if (weights[k] != 0)
      sum += weights[k] * slopes[k][item];
  return sum;
}

/* Which piece of the coefficients the balls are on, as in step.c. */
LANES_INLINE Masks
piece_of (const Lanes felt[N_FELT], const Lanes rates[N_FELT])
{
  Lanes at_one = SPIN_LOSS_PER_M * BALL_RADIUS_M * felt[W] * felt[W];
  return (at_one > -OUTDOOR_LEAST_SPIN_RATIO * rates[W]) + (at_one > -OUTDOOR_MOST_SPIN_RATIO * rates[W]);
}

LANES_INLINE void
measure_error (const Flock *flock, Tried *tried, Lanes slopes[7][N_FELT], Lanes off_x, Lanes off_y)
{
  Lanes z = lanes_most (flock->felt[Z], lanes_all (0)), vz = flock->felt[VZ];
  Lanes left_s = (vz + lanes_root (vz * vz + 2 * GRAVITY_MPS2 * z)) * (1 / GRAVITY_MPS2) + LEAST_LEFT_S;
  Lanes worst = lanes_size (off_x) + left_s * lanes_size (weighted (dp_error, slopes, VX, 7));
  worst = lanes_most (worst, lanes_size (off_y) + left_s * lanes_size (weighted (dp_error, slopes, VY, 7)));
  worst = lanes_most (worst, lanes_size (weighted (dp_error, slopes, Z, 7))
                                 + left_s * lanes_size (weighted (dp_error, slopes, VZ, 7)));
  Masks crosses = piece_of (flock->felt, slopes[0]) ^ piece_of (tried->felt, slopes[6]);
  tried->error = flock->length_s * worst * (1 / STEP_TOLERANCE_M)
                 * lanes_either (crosses != 0, lanes_all (CORNER_FACTOR), lanes_all (1));
}

LANES_INLINE void
finish_step (const Flock *flock, Tried *tried, Lanes slopes[7][N_FELT], const Lanes vx[7], const Lanes vy[7])
{
  Lanes h = flock->length_s, along_x = lanes_all (0), along_y = lanes_all (0), off_x = lanes_all (0), off_y = lanes_all (0);
#pragma GCC unroll 8
  for (int k = 0; k < 7; k++)
    {
      if (k < 6)
        along_x += dp_stage[5][k] * vx[k], along_y += dp_stage[5][k] * vy[k];
      off_x += dp_error[k] * vx[k], off_y += dp_error[k] * vy[k];
    }
  tried->x = flock->x + h * along_x;
  tried->y = flock->y + h * along_y;
  measure_error (flock, tried, slopes, off_x, off_y);
#pragma GCC unroll 8
  for (int i = 0; i < N_FELT; i++)
    tried->rates[i] = slopes[6][i];
}

/* Tries a step of every group. */
LANES_INLINE void
try_step (const Flock flocks[N_GROUPS], Tried tried[N_GROUPS])
{
  Lanes slopes[N_GROUPS][7][N_FELT], vx[N_GROUPS][7], vy[N_GROUPS][7];
  for (int g = 0; g < N_GROUPS; g++)
    {
      for (int i = 0; i < N_FELT; i++)
        slopes[g][0][i] = flocks[g].rates[i];
      vx[g][0] = flocks[g].felt[VX], vy[g][0] = flocks[g].felt[VY];
    }
#pragma GCC unroll 8
  for (int k = 1; k < 7; k++)
#pragma GCC unroll 8
    for (int g = 0; g < N_GROUPS; g++)
      {
#pragma GCC unroll 8
        for (int i = 0; i < N_FELT; i++)
          tried[g].felt[i] = flocks[g].felt[i] + flocks[g].length_s * weighted (dp_stage[k - 1], slopes[g], i, k);
        vx[g][k] = tried[g].felt[VX], vy[g][k] = tried[g].felt[VY];
        lane_rates (&flocks[g].medium, tried[g].felt, slopes[g][k]);
      }
#pragma GCC unroll 8
  for (int g = 0; g < N_GROUPS; g++)
    finish_step (&flocks[g], &tried[g], slopes[g], vx[g], vy[g]);
}

/* Goes where the masks say so, and chooses the next lengths. */
LANES_INLINE void
go_on (Flock *flock, const Tried *tried, Masks goes)
{
  flock->t_s += lanes_either (goes, flock->length_s, lanes_all (0));
  flock->x = lanes_either (goes, tried->x, flock->x);
  flock->y = lanes_either (goes, tried->y, flock->y);
  for (int i = 0; i < N_FELT; i++)
    {
      flock->felt[i] = lanes_either (goes, tried->felt[i], flock->felt[i]);
      flock->rates[i] = lanes_either (goes, tried->rates[i], flock->rates[i]);
    }
  Lanes factor = SAFETY * rough_power (-0.2 * logarithm (lanes_most (tried->error, lanes_all (1e-30))));
  factor = lanes_most (lanes_least (factor, lanes_either (goes, lanes_all (MOST_FACTOR), lanes_all (1))),
                       lanes_all (LEAST_FACTOR));
  flock->length_s = lanes_least (flock->length_s * factor, lanes_all (LONGEST_STEP_S));
}

/* ---- lanes ---- */

static void
board (Flock *flock, int lane, const Medium *medium, const State *state)
{
  flock->medium.force_per_m[lane] = medium->force_per_m;
  flock->medium.wind_x[lane] = medium->wind.to_mps.x;
  flock->medium.wind_y[lane] = medium->wind.to_mps.y;
  flock->medium.wind_base[lane] = medium->wind_base;
  flock->medium.wind_log[lane] = medium->wind_log;
  for (int i = 0; i < 3; i++)
    flock->medium.axis[i][lane] = medium->axis[i];
  State rates;
  flight_rates (medium, state, &rates);
  flock->x[lane] = state->item[AT_X];
  flock->y[lane] = state->item[AT_Y];
  static const StateItem felt[N_FELT] = { AT_Z, V_X, V_Y, V_Z, SPIN };
  for (int i = 0; i < N_FELT; i++)
    {
      flock->felt[i][lane] = state->item[felt[i]];
      flock->rates[i][lane] = rates.item[felt[i]];
    }
  flock->t_s[lane] = 0;
  flock->length_s[lane] = fmin (FIRST_STEP_S, 0.5 * state->item[V_Z] / GRAVITY_MPS2);
}

/* The share of a step at which a cubic by height and climb comes down to the ground. */
static double
share_above (const Flock *flock, const Tried *tried, int lane)
{
  double h = flock->length_s[lane], z0 = flock->felt[Z][lane], a = h * flock->felt[VZ][lane];
  double change = tried->felt[Z][lane] - z0, b = h * tried->felt[VZ][lane];
  double square = 3 * change - 2 * a - b, cube = a + b - 2 * change, low = 0, high = 1;
  double at = z0 / (z0 - tried->felt[Z][lane]);
  for (int i = 0; i < LANDING_NEWTONS; i++)
    {
      double z = z0 + at * (a + at * (square + at * cube)), slope = a + at * (2 * square + 3 * at * cube);
      if (z > 0)
        low = at;
      else
        high = at;
      double next = at - z / slope;
      at = next > low && next < high ? next : 0.5 * (low + high);
    }
  return at;
}

/* The rest of the way to the ground, or back up to it, on a parabola. */
static FlightPoint
land (const Flock *flock, const Tried *tried, int lane)
{
  double z = tried->felt[Z][lane], vz = tried->felt[VZ][lane], az = tried->rates[VZ][lane];
  double dt = -2 * z / (vz - sqrt (fmax (0, vz * vz - 2 * az * z)));
  double ax = tried->rates[VX][lane], ay = tried->rates[VY][lane], vx = tried->felt[VX][lane], vy = tried->felt[VY][lane];
  return (FlightPoint){ .t_s = flock->t_s[lane] + flock->length_s[lane] + dt,
                        .at = vec2 (tried->x[lane] + dt * (vx + 0.5 * dt * ax), tried->y[lane] + dt * (vy + 0.5 * dt * ay)),
                        .z_m = 0,
                        .v_mps = vec2 (vx + dt * ax, vy + dt * ay),
                        .vz_mps = vz + dt * az,
                        .spin_radps = tried->felt[W][lane] + dt * tried->rates[W][lane] };
}

/* The next input into a lane; one of the other model is flown by itself on the way. */
static bool
fill (LanesQueue *queue, Flock *flocks, int ball)
{
  for (queue->flown[ball] = queue->n_inputs; queue->next < queue->n_inputs; queue->next++)
    {
      FlightInput input = queue->inputs[queue->next];
      input.ground = NULL;
      Medium medium;
      State state;
      if (input.model != FLIGHT_OUTDOOR)
        {
          if (!flight_fly (&input, NULL, &queue->landings[queue->next], NULL, queue->error))
            return false;
          continue;
        }
      if (!flight_prepare (&input, &medium, &state, queue->error))
        return false;
      board (&flocks[ball / N_LANES], ball % N_LANES, &medium, &state);
      queue->flown[ball] = queue->next++;
      queue->n_up++;
      return true;
    }
  return true;
}

/* A ball that came down within its step: a shorter step, or the landing and the next ball. False with an error. */
static bool
come_down (LanesQueue *queue, Flock *flocks, const Tried *tried, int ball, double tried_length)
{
  Flock *flock = &flocks[ball / N_LANES];
  int lane = ball % N_LANES;
  flock->length_s[lane] = tried_length;
  if (tried->felt[Z][lane] < -NEAR_GROUND_M)
    {
      flock->length_s[lane] *= share_above (flock, tried, lane);
      return true;
    }
  queue->landings[queue->flown[ball]] = land (flock, tried, lane);
  queue->n_up--;
  return fill (queue, flocks, ball);
}

/* Balls of a group for which this step is not one of many. False with an error. */
static bool
look_after (LanesQueue *queue, Flock *flocks, const Tried *tried, int group, const Masks *is_down, const Lanes *tried_length)
{
  for (int lane = 0; lane < N_LANES; lane++)
    {
      int ball = group * N_LANES + lane;
      if (queue->flown[ball] == queue->n_inputs)
        continue;
      if (!(flocks[group].t_s[lane] <= FLIGHT_LONGEST_S) || !(flocks[group].length_s[lane] > SHORTEST_STEP_S))
        return flight_not_down (queue->error);
      if ((*is_down)[lane] && !come_down (queue, flocks, tried, ball, (*tried_length)[lane]))
        return false;
    }
  return true;
}

bool
LANES_FLY (LanesQueue *queue)
{
  Flock flocks[N_GROUPS];
  memset (flocks, 0, sizeof flocks);
  for (int ball = 0; ball < N_BALLS; ball++)
    if (!fill (queue, flocks, ball))
      return false;
  while (queue->n_up > 0)
    {
      Tried tried[N_GROUPS];
      try_step (flocks, tried);
      for (int g = 0; g < N_GROUPS; g++)
        {
          Masks is_good = tried[g].error <= 1;
          Masks is_down = is_good & (tried[g].felt[Z] <= NEAR_GROUND_M) & (tried[g].felt[VZ] < 0);
          Lanes length_s = flocks[g].length_s;
          go_on (&flocks[g], &tried[g], is_good & ~is_down);
          Masks is_odd = is_down | ~(flocks[g].t_s <= FLIGHT_LONGEST_S) | ~(flocks[g].length_s > SHORTEST_STEP_S);
          if (lanes_any (is_odd) && !look_after (queue, flocks, &tried[g], g, &is_down, &length_s))
            return false;
        }
    }
  return true;
}
