// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of geometry share among themselves: allocation that aborts, points of a cubic, and the one decision of
 * which side of an edge a point lies on.
 */
#ifndef HOLEWRIGHT_GEOMETRY_PRIVATE_H
#define HOLEWRIGHT_GEOMETRY_PRIVATE_H

#include "geometry.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* `block` (or NULL) resized to `n` items of `size` bytes; aborts when there is no memory. Never NULL. */
static inline void *
geometry_resize (void *block, size_t n, size_t size)
{
  if (n > SIZE_MAX / 2 / size)
    abort ();
  void *resized = realloc (block, n > 0 ? n * size : 1);
  if (resized == NULL)
    abort ();
  return resized;
}

/* Room for one more than `used` items: returns the block, moved and doubled when it was full. */
static inline void *
geometry_make_room (void *block, size_t used, size_t *capacity, size_t size)
{
  if (used < *capacity)
    return block;
  *capacity = *capacity > 0 ? 2 * *capacity : 8;
  return geometry_resize (block, *capacity, size);
}

static inline bool
vec2_is_finite (Vec2 v)
{
  return isfinite (v.x) && isfinite (v.y);
}

static inline bool
vec2_equal (Vec2 a, Vec2 b)
{
  return a.x == b.x && a.y == b.y;
}

/* outline_new of points that become its own: a block of malloc. */
Outline *outline_of (Vec2 *points, const size_t *ring_sizes, size_t n_rings, bool even_odd);

/* The sum of four points, each with its weight. */
static inline Vec2
vec2_weigh (const Vec2 p[4], double w0, double w1, double w2, double w3)
{
  return vec2 (w0 * p[0].x + w1 * p[1].x + w2 * p[2].x + w3 * p[3].x, w0 * p[0].y + w1 * p[1].y + w2 * p[2].y + w3 * p[3].y);
}

/* The point of a cubic Bezier curve at parameter t, and its first and second derivative there. */
static inline Vec2
cubic_at (const Vec2 p[4], double t)
{
  double s = 1 - t;
  return vec2_weigh (p, s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t);
}
static inline Vec2
cubic_slope (const Vec2 p[4], double t)
{
  double s = 1 - t;
  return vec2_weigh (p, -3 * s * s, 3 * s * (s - 2 * t), 3 * t * (2 * s - t), 3 * t * t);
}
static inline Vec2
cubic_bend (const Vec2 p[4], double t)
{
  double s = 1 - t;
  return vec2_weigh (p, 6 * s, 6 * (t - 2 * s), 6 * (s - 2 * t), 6 * t);
}

/*
 * True when the edge between `low` and `high` (low.y <= point.y < high.y) passes to the right of `point`. The order of the ends is
 * by height, not along the ring, so that an edge run through both ways cancels to the last bit. A point beside
 * the edge's own x range is decided without arithmetic: thus a point outside an outline's box is never inside.
 */
static inline bool
edge_is_right_of (Vec2 low, Vec2 high, Vec2 point)
{
  if (point.x < low.x && point.x < high.x)
    return true;
  if (point.x > low.x && point.x > high.x)
    return false;
  return (high.x - low.x) * (point.y - low.y) > (high.y - low.y) * (point.x - low.x);
}

/* What the edge a-b adds to the winding number about `point`: 1 going up on its right, -1 going down, else 0. */
static inline int
edge_winding (Vec2 a, Vec2 b, Vec2 point)
{
  if (a.y <= point.y)
    return b.y > point.y && edge_is_right_of (a, b, point) ? 1 : 0;
  return b.y <= point.y && edge_is_right_of (b, a, point) ? -1 : 0;
}

/* Whether a winding number means inside. */
static inline bool
winding_is_inside (bool even_odd, int winding)
{
  return even_odd ? (winding & 1) != 0 : winding != 0;
}

#endif
