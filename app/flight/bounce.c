// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One impact of a ball on turf: Penner 2002. The ball dents the ground, so that it meets a surface tilted towards it; off that it rebounds, sliding or
 * rolling at release.
 */
#include "bounce-private.h"

#include <math.h>

typedef struct
{
  double x, y, z;
} Vec3;

static double
dot3 (Vec3 a, Vec3 b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

static Vec3
sum3 (Vec3 a, double p, Vec3 b, double q)
{
  return (Vec3){ p * a.x + q * b.x, p * a.y + q * b.y, p * a.z + q * b.z };
}

static double
restitution (double into_mps, double bounce)
{
  double published
      = into_mps > FAST_MPS ? FAST_RESTITUTION : RESTITUTION_0 + into_mps * (RESTITUTION_1 + into_mps * RESTITUTION_2);
  double today = published * bounce;
  return today < MOST_RESTITUTION ? today : MOST_RESTITUTION;
}

/* Within the plane of flight, the ground level there: forward and upward speed and backspin, before and after. */
typedef struct
{
  double forward, up, spin;
} PlaneImpact;

/* Sine and cosine of an angle of 0 or more. Dents are mostly small, and balls bounce by the thousand: up to SMALL_RAD by series that are cut below 1e-16. */
#define SMALL_RAD 0.25
static void
sine_and_cosine (double angle, double *sine, double *cosine)
{
  if (!(angle <= SMALL_RAD))
    {
      *sine = sin (angle);
      *cosine = cos (angle);
      return;
    }
  double x = angle * angle;
  *sine = angle * (1 - x * (1. / 6) * (1 - x * (1. / 20) * (1 - x * (1. / 42) * (1 - x * (1. / 72) * (1 - x * (1. / 110))))));
  *cosine
      = 1
        - x * 0.5
              * (1 - x * (1. / 12) * (1 - x * (1. / 30) * (1 - x * (1. / 56) * (1 - x * (1. / 90) * (1 - x * (1. / 132))))));
}

static PlaneImpact
plane_bounce (PlaneImpact in, const Surface *surface)
{
  double down = -in.up, speed = sqrt (in.forward * in.forward + down * down), come_in = atan (in.forward / down);
  double dent = surface->crater * (DENT_RAD / DENT_SPEED_MPS / DENT_ANGLE_RAD) * speed * come_in, c, s;
  /* The dent never turns the ball back by itself. */
  dent = dent < come_in ? dent : come_in;
  sine_and_cosine (dent, &s, &c);
  double along = in.forward * c - down * s, into = in.forward * s + down * c;

  double e = restitution (into, surface->bounce);
  double rub = along + BALL_RADIUS_M * in.spin; /* the speed at which the ball's lowest point slides */
  double grip = 2 * fabs (rub) / (7 * (1 + e) * into);
  PlaneImpact out;
  if (surface->friction < grip)
    {
      double push = copysign (surface->friction * into * (1 + e), rub);
      along -= push;
      out.spin = in.spin - 2.5 * push / BALL_RADIUS_M;
    }
  else
    {
      along = (5 * along - 2 * BALL_RADIUS_M * in.spin) / 7;
      out.spin = -along / BALL_RADIUS_M;
    }
  out.forward = along * c - e * into * s;
  double up = along * s + e * into * c;
  out.up = up > 0 ? up : 0;
  return out;
}

Impact
bounce_off (const Impact *impact, const Surface *surface)
{
  double steep = sqrt (1 + vec2_dot (surface->slope, surface->slope));
  Vec3 normal = { -surface->slope.x / steep, -surface->slope.y / steep, 1 / steep };
  Vec3 v = { impact->v_mps.x, impact->v_mps.y, impact->vz_mps };
  double up = dot3 (v, normal);
  if (!(up < 0))
    return *impact;
  Vec3 along = sum3 (v, 1, normal, -up);
  double forward = sqrt (dot3 (along, along));
  Vec3 way = forward > 0 ? sum3 (along, 1 / forward, normal, 0) : (Vec3){ 0, 0, 0 };

  /* Spin is told about the axis across the ball's level way; the way along a slope may be the other. */
  double turned = vec2_dot (vec2 (way.x, way.y), impact->v_mps) < 0 ? -1 : 1;
  PlaneImpact out = plane_bounce ((PlaneImpact){ forward, up, turned * impact->spin_radps }, surface);
  Vec3 after = sum3 (way, out.forward, normal, out.up);
  turned = vec2_dot (vec2 (way.x, way.y), vec2 (after.x, after.y)) < 0 ? -1 : 1;
  return (Impact){ .v_mps = vec2 (after.x, after.y), .vz_mps = after.z, .spin_radps = turned * out.spin };
}
