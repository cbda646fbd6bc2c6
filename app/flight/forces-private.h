// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The rate of change of a ball's place, velocity and spin, to be compiled into the integrator.
 */
#ifndef HOLEWRIGHT_FORCES_PRIVATE_H
#define HOLEWRIGHT_FORCES_PRIVATE_H

#include "flight-private.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Bits of one, of the root of one half, and of a mantissa. */
#define ONE_BITS 0x3ff0000000000000
#define ROOT_HALF_BITS 0x3fe6a09e667f3bcd
#define MANTISSA_BITS 0x000fffffffffffff
#define LOG_2 0.69314718055994530942

/* The logarithm of a positive number, true to 1e-9: far more than is known of the wind, and no call in the way. */
static inline double
near_log (double a)
{
  uint64_t bits;
  memcpy (&bits, &a, sizeof bits);
  bits += ONE_BITS - ROOT_HALF_BITS;
  double exponent = (double)(int)(bits >> 52) - 1023, mantissa;
  bits = (bits & MANTISSA_BITS) + ROOT_HALF_BITS;
  memcpy (&mantissa, &bits, sizeof mantissa);
  double s = (mantissa - 1) / (mantissa + 1), q = s * s;
  return exponent * LOG_2 + 2 * s * (1 + q * (1.0 / 3 + q * (1.0 / 5 + q * (1.0 / 7 + q * (1.0 / 9)))));
}

static inline void
outdoor_coefficients (double spin_ratio, double *drag, double *lift)
{
  double s = spin_ratio, fade = 1;
  if (s < OUTDOOR_LEAST_SPIN_RATIO)
    {
      fade = s > 0 ? s / OUTDOOR_LEAST_SPIN_RATIO : 0;
      s = OUTDOOR_LEAST_SPIN_RATIO;
    }
  else if (s > OUTDOOR_MOST_SPIN_RATIO)
    s = OUTDOOR_MOST_SPIN_RATIO;
  *drag = OUTDOOR_CD0 + s * (OUTDOOR_CD1 + s * OUTDOOR_CD2);
  *lift = fade * (OUTDOOR_CL0 + s * (OUTDOOR_CL1 + s * OUTDOOR_CL2));
}

static inline __attribute__ ((always_inline)) void
rates_of (const Medium *medium, const State *state, State *rates)
{
  const double *at = state->item;
  double share = medium->wind_base;
  if (medium->wind_log > 0)
    {
      double height_m = ground_clearance (medium, state);
      share += medium->wind_log * near_log (height_m * height_m + WIND_LEAST_HEIGHT_M * WIND_LEAST_HEIGHT_M);
    }
  double x = at[V_X] - share * medium->wind.to_mps.x, y = at[V_Y] - share * medium->wind.to_mps.y, z = at[V_Z];
  /* Root and quotient do not wait for each other. */
  double squared = x * x + y * y + z * z + STILL_MPS * STILL_MPS;
  double speed = sqrt (squared), spin_ratio = at[SPIN] * BALL_RADIUS_M * speed * (1 / squared);

  double drag, lift;
  if (medium->model == FLIGHT_OUTDOOR)
    outdoor_coefficients (spin_ratio, &drag, &lift);
  else
    flight_coefficients (medium->model, spin_ratio, medium->reynolds_per_mps * speed, &drag, &lift);
  double slow = medium->force_per_m * drag * speed, turn = medium->force_per_m * lift * speed;
  const double *axis = medium->axis;
  rates->item[AT_X] = at[V_X];
  rates->item[AT_Y] = at[V_Y];
  rates->item[AT_Z] = at[V_Z];
  rates->item[V_X] = turn * (axis[1] * z - axis[2] * y) - slow * x;
  rates->item[V_Y] = turn * (axis[2] * x - axis[0] * z) - slow * y;
  rates->item[V_Z] = turn * (axis[0] * y - axis[1] * x) - slow * z - GRAVITY_MPS2;
  rates->item[SPIN] = -SPIN_LOSS_PER_M * speed * at[SPIN];
}

#endif
