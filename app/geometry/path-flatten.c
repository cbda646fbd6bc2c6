// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Curves to chords. A cubic is cut at equal steps of its parameter, as many as Wang's bound asks for: with
 * n = sqrt (3/4 m / tolerance), m the longer second difference of its control points, no chord is further than the tolerance
 * from its piece (G. Wang, 1984, in Goldman, "Pyramid Algorithms", 2003).
 */
#include "geometry-private.h"

/* Most points of one outline: 64 MiB. Only a hostile drawing wants more; its curves get fewer pieces than the tolerance asks. */
#define MOST_POINTS (1u << 22)

/* Points being gathered, and where each ring of them starts. */
typedef struct
{
  Vec2 *points;
  size_t n_points, points_capacity;
  size_t *sizes;
  size_t n_rings, sizes_capacity;
  size_t ring_start; /* of the ring being gathered */
  double tolerance_m;
  double most_pieces; /* of one curve */
} Rings;

static void
add_point (Rings *rings, Vec2 point)
{
  if (rings->n_points > rings->ring_start)
    {
      Vec2 last = rings->points[rings->n_points - 1];
      if (last.x == point.x && last.y == point.y)
        return;
    }
  rings->points = geometry_make_room (rings->points, rings->n_points, &rings->points_capacity, sizeof *rings->points);
  rings->points[rings->n_points++] = point;
}

static void
add_cubic (Rings *rings, Vec2 p0, const PathSeg *seg)
{
  Vec2 d1 = vec2_add (vec2_sub (p0, vec2_scale (seg->c1, 2)), seg->c2);
  Vec2 d2 = vec2_add (vec2_sub (seg->c1, vec2_scale (seg->c2, 2)), seg->to);
  double bend = sqrt (fmax (vec2_dot (d1, d1), vec2_dot (d2, d2)));
  double pieces = ceil (sqrt (0.75 * bend / rings->tolerance_m));
  size_t n = (size_t)fmax (1, fmin (pieces, rings->most_pieces));
  /* As a polynomial about its start: p0 + t (v + t (w + t u)). */
  Vec2 v = vec2_scale (vec2_sub (seg->c1, p0), 3), w = vec2_scale (d1, 3), u = vec2_sub (d2, d1);
  for (size_t i = 1; i < n; i++)
    {
      double t = (double)i / (double)n;
      add_point (rings, vec2 (p0.x + t * (v.x + t * (w.x + t * u.x)), p0.y + t * (v.y + t * (w.y + t * u.y))));
    }
  add_point (rings, seg->to);
}

/* Ends the ring: its first point is not repeated at the end; a ring of one point is dropped. */
static void
end_ring (Rings *rings)
{
  size_t start = rings->ring_start;
  Vec2 *p = rings->points;
  while (rings->n_points > start + 1 && p[rings->n_points - 1].x == p[start].x && p[rings->n_points - 1].y == p[start].y)
    rings->n_points--;
  size_t size = rings->n_points - start;
  if (size < 2)
    {
      rings->n_points = start;
      return;
    }
  rings->sizes = geometry_make_room (rings->sizes, rings->n_rings, &rings->sizes_capacity, sizeof *rings->sizes);
  rings->sizes[rings->n_rings++] = size;
  rings->ring_start = rings->n_points;
}

static Rings
rings_new (const Path *path, double tolerance_m)
{
  size_t n_curves = 1;
  for (size_t i = 0; i < path->n_segs; i++)
    n_curves += path->segs[i].kind == SEG_CUBIC;
  return (Rings){ .tolerance_m = tolerance_m, .most_pieces = (double)MOST_POINTS / (double)n_curves };
}

static void
rings_free (Rings *rings)
{
  free (rings->points);
  free (rings->sizes);
}

/* One segment from `pen`; a drawing segment that starts a ring brings its own start along. */
static void
add_segment (Rings *rings, Vec2 pen, const PathSeg *seg)
{
  if (seg->kind == SEG_MOVE || seg->kind == SEG_CLOSE)
    return;
  if (rings->n_points == rings->ring_start)
    add_point (rings, pen);
  if (seg->kind == SEG_CUBIC)
    add_cubic (rings, pen, seg);
  else
    add_point (rings, seg->to);
}

Outline *
path_flatten (const Path *path, bool even_odd, double tolerance_m)
{
  if (!path_is_finite (path))
    return outline_new (NULL, NULL, 0, even_odd);
  Rings rings = rings_new (path, tolerance_m);
  Vec2 pen = vec2 (0, 0);
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      if (seg->kind == SEG_MOVE || seg->kind == SEG_CLOSE)
        end_ring (&rings);
      add_segment (&rings, pen, seg);
      pen = seg->to;
    }
  end_ring (&rings);
  Outline *outline = outline_new (rings.points, rings.sizes, rings.n_rings, even_odd);
  rings_free (&rings);
  return outline;
}

size_t
path_flatten_line (const Path *path, double tolerance_m, Vec2 **points)
{
  Rings rings = rings_new (path, tolerance_m);
  Vec2 pen = vec2 (0, 0);
  size_t n_segs = path_is_finite (path) ? path->n_segs : 0;
  for (size_t i = 0; i < n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      if (seg->kind == SEG_MOVE && rings.n_points > 1)
        break;
      if (seg->kind == SEG_MOVE)
        rings.n_points = 0;
      if (seg->kind == SEG_CUBIC)
        add_cubic (&rings, pen, seg);
      else
        add_point (&rings, seg->to);
      if (seg->kind == SEG_CLOSE)
        break;
      pen = seg->to;
    }
  *points = rings.points != NULL ? rings.points : geometry_resize (NULL, 1, sizeof **points);
  free (rings.sizes);
  return rings.n_points;
}
