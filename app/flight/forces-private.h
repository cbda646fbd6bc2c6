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

/* log (1 + t) for t from sqrt (1/2) - 1 to sqrt (2) - 1 as a polynomial: its Chebyshev expansion cut off after the eleventh power, true to 1.3e-10. */
static const double log_of_one_and[12] = {
  -3.662755685952109e-11, 1.000000003592964,   -0.4999999808806172,  0.3333326109744437,
  -0.25000118301276675,   0.20004135170486814, -0.16666560933857905, 0.1418883458791709,
  -0.12401233294962759,   0.12065297449852636, -0.11783935786453113, 0.06544358092847441,
};

/* The logarithm of a positive number, true to 2e-10: far more than is known of the wind, and neither a call nor a quotient to wait for. */
static inline __attribute__ ((always_inline)) double
near_log (double a)
{
  uint64_t bits;
  memcpy (&bits, &a, sizeof bits);
  bits += ONE_BITS - ROOT_HALF_BITS;
  double exponent = (double)(int)(bits >> 52) - 1023, mantissa;
  bits = (bits & MANTISSA_BITS) + ROOT_HALF_BITS;
  memcpy (&mantissa, &bits, sizeof mantissa);
  /* In pairs, and pairs of pairs: Estrin's scheme. */
  double t = mantissa - 1, t2 = t * t, t4 = t2 * t2, pair[6];
  const double *c = log_of_one_and;
#pragma GCC unroll 8
  for (int i = 0; i < 6; i++)
    pair[i] = c[2 * i] + t * c[2 * i + 1];
  return exponent * LOG_2 + (pair[0] + t2 * pair[1] + t4 * (pair[2] + t2 * pair[3] + t4 * (pair[4] + t2 * pair[5])));
}

/*
 * Drag and lift, times the air speed: slow_by_speed * speed + slow, and turn_by_speed * speed + turn. With a spin ratio S = spin_mps / speed, drag (S) = c0 + c1 S + c2 S^2
 * times the speed is (c0 + c2 S^2) speed + c1 spin_mps: what must wait for the root of the air speed is one product and one sum.
 */
typedef struct
{
  double slow_by_speed, slow;
  double turn_by_speed, turn;
} Pushes;

/* For a spin whose surface speed is `spin_mps`, at an air speed of which the square is given. */
static inline __attribute__ ((always_inline)) Pushes
outdoor_pushes (double spin_mps, double squared)
{
  const double least = OUTDOOR_LEAST_SPIN_RATIO, most = OUTDOOR_MOST_SPIN_RATIO;
  double spin_squared = spin_mps * spin_mps;
  if (spin_squared < least * least * squared)
    return (Pushes){ .slow_by_speed = OUTDOOR_CD0 + least * (OUTDOOR_CD1 + least * OUTDOOR_CD2),
                     .turn = larger (spin_mps, 0) * ((OUTDOOR_CL0 + least * (OUTDOOR_CL1 + least * OUTDOOR_CL2)) / least) };
  if (spin_squared >= most * most * squared)
    return (Pushes){ .slow_by_speed = OUTDOOR_CD0 + most * (OUTDOOR_CD1 + most * OUTDOOR_CD2),
                     .turn_by_speed = OUTDOOR_CL0 + most * (OUTDOOR_CL1 + most * OUTDOOR_CL2) };
  double ratio_squared = spin_squared / squared;
  return (Pushes){ .slow_by_speed = OUTDOOR_CD0 + OUTDOOR_CD2 * ratio_squared,
                   .slow = OUTDOOR_CD1 * spin_mps,
                   .turn_by_speed = OUTDOOR_CL0 + OUTDOOR_CL2 * ratio_squared,
                   .turn = OUTDOOR_CL1 * spin_mps };
}

/* Either half of a state: place and turn, velocity and spin. */
typedef double Four __attribute__ ((vector_size (4 * sizeof (double))));
typedef int64_t FourPlaces __attribute__ ((vector_size (4 * sizeof (int64_t))));

/* x, y, z moved on by one and by two; the fourth stays. */
static inline __attribute__ ((always_inline)) Four
moved_by_one (Four a)
{
  return __builtin_shuffle (a, (FourPlaces){ 1, 2, 0, 3 });
}

static inline __attribute__ ((always_inline)) Four
moved_by_two (Four a)
{
  return __builtin_shuffle (a, (FourPlaces){ 2, 0, 1, 3 });
}

/* The wind's share at a place: all that a ball feels of where it is. */
static inline __attribute__ ((always_inline)) double
wind_share (const Medium *medium, Four at)
{
  if (!(medium->wind_log > 0))
    return medium->wind_base;
  double height_m = at[AT_Z];
  if (medium->ground != NULL)
    height_m -= medium->ground (medium->ground_data, vec2 (at[AT_X], at[AT_Y]));
  return medium->wind_base + medium->wind_log * near_log (height_m * height_m + WIND_LEAST_HEIGHT_M * WIND_LEAST_HEIGHT_M);
}

/* The rate of change of velocity and spin in a share of the wind. */
static inline __attribute__ ((always_inline)) Four
motion_rates (const Medium *medium, double share, Four motion)
{
  Four air = motion - share * (Four){ medium->wind.to_mps.x, medium->wind.to_mps.y };
  double squared = STILL_MPS * STILL_MPS + air[0] * air[0] + air[1] * air[1] + air[2] * air[2];
  double speed = sqrt (squared), spin_mps = motion[3] * BALL_RADIUS_M;
  Pushes pushes;
  if (medium->model == FLIGHT_OUTDOOR)
    pushes = outdoor_pushes (spin_mps, squared);
  else
    {
      pushes = (Pushes){ 0 };
      flight_coefficients (medium->model, spin_mps / speed, medium->reynolds_per_mps * speed, &pushes.slow_by_speed,
                           &pushes.turn_by_speed);
    }
  double k = medium->force_per_m;
  double slow = k * pushes.slow_by_speed * speed + k * pushes.slow;
  double turn = k * pushes.turn_by_speed * speed + k * pushes.turn;
  const double *axis = medium->axis;
  Four first = { axis[1], axis[2], axis[0], 0 }, second = { axis[2], axis[0], axis[1], 0 };
  Four across = first * moved_by_two (air) - second * moved_by_one (air);
  Four free = (Four){ 0, 0, -GRAVITY_MPS2, 0 } - speed * (motion * (Four){ 0, 0, 0, SPIN_LOSS_PER_M });
  return free - slow * (air * (Four){ 1, 1, 1, 0 }) + turn * across;
}

#endif
