// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The track of a flight between its kept places: cubics by place and velocity.
 */
#include "flight-private.h"
#include "flight-walk.h"

#include <math.h>

/* Looks within a piece of track for a distance that only its middle reaches: a ball that the wind turns back. */
#define LOOKS_IN_PIECE 8
#define HALVINGS 50

/* One coordinate of the cubic alone, and with its derivative. */
static inline double
cubic_place (double from, double v_from, double to, double v_to, double length_s, double share)
{
  double change = to - from, a = length_s * v_from, b = length_s * v_to;
  double square = 3 * change - 2 * a - b, cube = a + b - 2 * change;
  return from + share * (a + share * (square + share * cube));
}

static double
cubic (double from, double v_from, double to, double v_to, double length_s, double share, double *v)
{
  double change = to - from, a = length_s * v_from, b = length_s * v_to;
  double square = 3 * change - 2 * a - b, cube = a + b - 2 * change;
  *v = length_s > 0 ? (a + share * (2 * square + 3 * share * cube)) / length_s : v_from;
  return from + share * (a + share * (square + share * cube));
}

static FlightPoint
between (const FlightPoint *a, const FlightPoint *b, double share)
{
  double length_s = b->t_s - a->t_s;
  FlightPoint point
      = { .t_s = a->t_s + share * length_s, .spin_radps = a->spin_radps + share * (b->spin_radps - a->spin_radps) };
  point.at.x = cubic (a->at.x, a->v_mps.x, b->at.x, b->v_mps.x, length_s, share, &point.v_mps.x);
  point.at.y = cubic (a->at.y, a->v_mps.y, b->at.y, b->v_mps.y, length_s, share, &point.v_mps.y);
  point.z_m = cubic (a->z_m, a->vz_mps, b->z_m, b->vz_mps, length_s, share, &point.vz_mps);
  return point;
}

FlightPoint
flight_at (const Flight *flight, double t_s)
{
  const FlightPoint *points = flight->points;
  size_t last = flight->n_points - 1;
  if (!(t_s > points[0].t_s))
    return points[0];
  if (t_s >= points[last].t_s)
    return points[last];
  size_t low = 0, high = last;
  while (high - low > 1)
    {
      size_t middle = (low + high) / 2;
      if (points[middle].t_s <= t_s)
        low = middle;
      else
        high = middle;
    }
  return between (&points[low], &points[high], (t_s - points[low].t_s) / (points[high].t_s - points[low].t_s));
}

void
flight_walk_to (FlightWalk *walk, double t_s, Vec2 *at, double *z_m)
{
  const FlightPoint *points = walk->flight->points;
  size_t last = walk->flight->n_points - 1;
  if (!(t_s > points[0].t_s) || t_s >= points[last].t_s)
    {
      const FlightPoint *end = t_s > points[0].t_s ? &points[last] : &points[0];
      *at = end->at;
      *z_m = end->z_m;
      return;
    }
  while (points[walk->piece + 1].t_s <= t_s)
    walk->piece++;
  const FlightPoint *a = &points[walk->piece], *b = a + 1;
  double length_s = b->t_s - a->t_s, share = (t_s - a->t_s) / length_s;
  at->x = cubic_place (a->at.x, a->v_mps.x, b->at.x, b->v_mps.x, length_s, share);
  at->y = cubic_place (a->at.y, a->v_mps.y, b->at.y, b->v_mps.y, length_s, share);
  *z_m = cubic_place (a->z_m, a->vz_mps, b->z_m, b->vz_mps, length_s, share);
}

FlightPoint
flight_at_distance (const Flight *flight, Vec2 direction, double distance_m)
{
  const FlightPoint *points = flight->points;
  Vec2 from = points[0].at;
  if (!(distance_m > 0))
    return points[0];
  for (size_t i = 0; i + 1 < flight->n_points; i++)
    for (int look = 1; look <= LOOKS_IN_PIECE; look++)
      {
        double low = (look - 1.0) / LOOKS_IN_PIECE, high = (double)look / LOOKS_IN_PIECE;
        if (vec2_dot (vec2_sub (between (&points[i], &points[i + 1], high).at, from), direction) < distance_m)
          continue;
        for (int n = 0; n < HALVINGS; n++)
          {
            double middle = 0.5 * (low + high);
            if (vec2_dot (vec2_sub (between (&points[i], &points[i + 1], middle).at, from), direction) < distance_m)
              low = middle;
            else
              high = middle;
          }
        return between (&points[i], &points[i + 1], high);
      }
  return points[flight->n_points - 1];
}
