// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Impacts side by side: what app/flight/bounce.c does, without branches. Included once for each kind of machine: bounce-many*.c say how wide its vectors are and how it takes their
 * root, and name the function.
 *
 *     N_LANES        impacts in one vector, a divisor of FLIGHT_GROUP
 *     ROOT_OF_LANES, INVERSE_ROOT_GUESS  as in geometry-lanes.h
 *     BOUNCE_MANY    name of the function
 */
#include "bounce-many-private.h"
#include "bounce-private.h"
#include "geometry-lanes.h"

/* The arc tangent of a quotient of two numbers of 0 or more, not both 0, to 2e-8 (Abramowitz and Stegun, Handbook of Mathematical Functions, 4.4.49). */
LANES_INLINE Lanes
arc_tangent (Lanes over, Lanes under)
{
  Masks is_steep = over > under;
  Lanes t = lanes_either (is_steep, under, over) / lanes_either (is_steep, over, under), x = t * t;
  Lanes sum = x * 0.0028662257 - 0.0161657367;
  sum = sum * x + 0.0429096138;
  sum = sum * x - 0.0752896400;
  sum = sum * x + 0.1065626393;
  sum = sum * x - 0.1420889944;
  sum = sum * x + 0.1999355085;
  sum = sum * x - 0.3333314528;
  Lanes angle = t + t * x * sum;
  return lanes_either (is_steep, PI / 2 - angle, angle);
}

/* Of an angle from 0 to a right one: series cut below 1e-8. */
LANES_INLINE void
sine_and_cosine (Lanes angle, Lanes *sine, Lanes *cosine)
{
  Lanes x = angle * angle;
  *sine
      = angle
        * (1
           - x * (1. / 6)
                 * (1
                    - x * (1. / 20) * (1 - x * (1. / 42) * (1 - x * (1. / 72) * (1 - x * (1. / 110) * (1 - x * (1. / 156)))))));
  *cosine = 1
            - x * 0.5
                  * (1
                     - x * (1. / 12)
                           * (1
                              - x * (1. / 30)
                                    * (1 - x * (1. / 56) * (1 - x * (1. / 90) * (1 - x * (1. / 132) * (1 - x * (1. / 182)))))));
}

/* Within the planes of flight, the ground level there: forward and upward speed and backspin. */
typedef struct
{
  Lanes forward, up, spin;
} PlaneImpacts;

LANES_INLINE PlaneImpacts
bounce_in_planes (PlaneImpacts in, Lanes bounce, Lanes friction, Lanes crater)
{
  Lanes down = -in.up, speed2 = in.forward * in.forward + down * down, speed = speed2 * lanes_inverse_root (speed2),
        come_in = arc_tangent (in.forward, down), c, s;
  Lanes dent = crater * (DENT_RAD / DENT_SPEED_MPS / DENT_ANGLE_RAD) * speed * come_in;
  sine_and_cosine (lanes_either (dent < come_in, dent, come_in), &s, &c);
  Lanes along = in.forward * c - down * s, into = in.forward * s + down * c;
  Lanes published = RESTITUTION_0 + into * (RESTITUTION_1 + into * RESTITUTION_2);
  Lanes e = lanes_either (into > FAST_MPS, lanes_all (FAST_RESTITUTION), published) * bounce;
  e = lanes_either (e < MOST_RESTITUTION, e, lanes_all (MOST_RESTITUTION));
  Lanes rub = along + BALL_RADIUS_M * in.spin, push = friction * into * (1 + e);
  Masks slides = 3.5 * push < lanes_size (rub);
  push = lanes_either (rub < 0, -push, push);
  Lanes rolling = (5 * along - 2 * BALL_RADIUS_M * in.spin) * (1. / 7);
  Lanes slowed = lanes_either (slides, along - push, rolling);
  Lanes up = slowed * s + e * into * c;
  return (PlaneImpacts){ slowed * c - e * into * s, lanes_either (up > 0, up, lanes_all (0)),
                         lanes_either (slides, in.spin - 2.5 / BALL_RADIUS_M * push, rolling * (-1 / BALL_RADIUS_M)) };
}

LANES_INLINE void
bounce_group (const Impacts *impacts, size_t i)
{
  Lanes vx = lanes_load (impacts->vx_mps + i), vy = lanes_load (impacts->vy_mps + i), vz = lanes_load (impacts->vz_mps + i),
        spin = lanes_load (impacts->spin_radps + i), sx = lanes_load (impacts->slope_x + i),
        sy = lanes_load (impacts->slope_y + i);
  Lanes flat = lanes_inverse_root (1 + sx * sx + sy * sy), nx = -sx * flat, ny = -sy * flat;
  Lanes up = vx * nx + vy * ny + vz * flat;
  Masks comes_down = up < 0;
  up = lanes_either (comes_down, up, lanes_all (-1));
  Lanes ax = vx - up * nx, ay = vy - up * ny, az = vz - up * flat, forward2 = ax * ax + ay * ay + az * az;
  Lanes by = lanes_either (forward2 > 0, lanes_inverse_root (forward2), lanes_all (0)), forward = forward2 * by;
  ax *= by;
  ay *= by;
  az *= by;
  /* Spin is told about the axis across the ball's level way; the way along a slope may be the other. */
  Lanes turned = lanes_either (ax * vx + ay * vy < 0, lanes_all (-1), lanes_all (1));
  PlaneImpacts out = bounce_in_planes ((PlaneImpacts){ forward, up, turned * spin }, lanes_load (impacts->bounce + i),
                                       lanes_load (impacts->friction + i), lanes_load (impacts->crater + i));
  Lanes x = ax * out.forward + nx * out.up, y = ay * out.forward + ny * out.up, z = az * out.forward + flat * out.up;
  out.spin = lanes_either (ax * x + ay * y < 0, -out.spin, out.spin);
  x = lanes_either (comes_down, x, vx);
  y = lanes_either (comes_down, y, vy);
  z = lanes_either (comes_down, z, vz);
  lanes_store (impacts->vx_mps + i, x);
  lanes_store (impacts->vy_mps + i, y);
  lanes_store (impacts->vz_mps + i, z);
  lanes_store (impacts->spin_radps + i, lanes_either (comes_down, out.spin, spin));
  lanes_store (impacts->off_mps + i, (z - x * sx - y * sy) * flat);
}

void
BOUNCE_MANY (const Impacts *impacts, size_t n)
{
  for (size_t i = 0; i < n; i += N_LANES)
    bounce_group (impacts, i);
}
