// SPDX-License-Identifier: GPL-3.0-or-later
/* Outlines: making them, winding numbers, and the distance to the nearest edge. */
#include "geometry-private.h"

/* Only finite points bound an area. */
static bool
points_are_finite (const Vec2 *points, size_t n_points)
{
  for (size_t i = 0; i < n_points; i++)
    if (!vec2_is_finite (points[i]))
      return false;
  return true;
}

Outline *
outline_of (Vec2 *points, const size_t *ring_sizes, size_t n_rings, bool even_odd)
{
  Outline *outline = geometry_resize (NULL, 1, sizeof *outline);
  *outline = (Outline){ .even_odd = even_odd, .bounds = box_empty () };
  outline->ring_starts = geometry_resize (NULL, n_rings + 1, sizeof *outline->ring_starts);
  outline->ring_starts[0] = 0;
  const Vec2 *ring = points;
  for (size_t r = 0; r < n_rings; ring += ring_sizes[r++])
    {
      if (ring_sizes[r] == 0 || !points_are_finite (ring, ring_sizes[r]))
        continue;
      if (ring != points + outline->n_points)
        memmove (points + outline->n_points, ring, ring_sizes[r] * sizeof *ring);
      outline->n_points += ring_sizes[r];
      outline->ring_starts[++outline->n_rings] = outline->n_points;
    }
  outline->points = points;
  Box bounds = box_empty ();
  for (size_t i = 0; i < outline->n_points; i++)
    bounds = box_with_point (bounds, outline->points[i]);
  outline->bounds = bounds;
  return outline;
}

Outline *
outline_new (const Vec2 *points, const size_t *ring_sizes, size_t n_rings, bool even_odd)
{
  size_t n_given = 0;
  for (size_t r = 0; r < n_rings; r++)
    n_given += ring_sizes[r];
  Vec2 *own = geometry_resize (NULL, n_given, sizeof *own);
  if (n_given > 0)
    memcpy (own, points, n_given * sizeof *own);
  return outline_of (own, ring_sizes, n_rings, even_odd);
}

void
outline_free (Outline *outline)
{
  if (outline == NULL)
    return;
  free (outline->points);
  free (outline->ring_starts);
  free (outline);
}

int
outline_winding (const Outline *outline, Vec2 point)
{
  if (!box_contains (outline->bounds, point))
    return 0;
  int winding = 0;
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t start = outline->ring_starts[r], end = outline->ring_starts[r + 1];
      for (size_t i = start, before = end - 1; i < end; before = i++)
        winding += edge_winding (outline->points[before], outline->points[i], point);
    }
  return winding;
}

bool
outline_contains (const Outline *outline, Vec2 point)
{
  return winding_is_inside (outline->even_odd, outline_winding (outline, point));
}

double
segment_distance (Vec2 a, Vec2 b, Vec2 point, double *t)
{
  Vec2 along = vec2_sub (b, a);
  double squared = vec2_dot (along, along);
  double place = squared > 0 ? vec2_dot (vec2_sub (point, a), along) / squared : 0;
  place = place > 0 ? fmin (place, 1) : 0;
  if (t != NULL)
    *t = place;
  return vec2_distance (vec2_lerp (a, b, place), point);
}

double
outline_distance (const Outline *outline, Vec2 point, Vec2 *nearest)
{
  double least = INFINITY;
  Vec2 best = point;
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t start = outline->ring_starts[r], end = outline->ring_starts[r + 1];
      for (size_t i = start, before = end - 1; i < end; before = i++)
        {
          double t;
          double distance = segment_distance (outline->points[before], outline->points[i], point, &t);
          if (distance < least)
            {
              least = distance;
              best = vec2_lerp (outline->points[before], outline->points[i], t);
            }
        }
    }
  if (nearest != NULL)
    *nearest = best;
  return least;
}
