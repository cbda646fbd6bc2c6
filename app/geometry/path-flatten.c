// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Curves to chords. A cubic is cut at equal steps of its parameter, as many as Wang's bound asks for: with
 * n = sqrt (3/4 m / tolerance), m the longer second difference of its control points, no chord is further than the tolerance
 * from its piece (G. Wang, 1984, in Goldman, "Pyramid Algorithms", 2003).
 */
#include "geometry-private.h"

/* Most points of one outline: 64 MiB. Only a hostile drawing wants more; its curves get fewer pieces than the tolerance asks. */
#define MOST_POINTS (1u << 22)

/* Points being gathered, and where each ring of them starts; room for all is made beforehand. */
typedef struct
{
  Vec2 *points;
  size_t n_points;
  size_t *sizes;
  size_t n_rings;
  size_t ring_start; /* of the ring being gathered */
  uint32_t *pieces;  /* of each segment: how many chords it becomes */
} Rings;

static void
add_point (Rings *rings, Vec2 point)
{
  if (rings->n_points > rings->ring_start && vec2_equal (rings->points[rings->n_points - 1], point))
    return;
  rings->points[rings->n_points++] = point;
}

/* Second differences of a cubic's control points. */
static void
take_differences (Vec2 p0, const PathSeg *seg, Vec2 *d1, Vec2 *d2)
{
  *d1 = vec2_add (vec2_sub (p0, vec2_scale (seg->c1, 2)), seg->c2);
  *d2 = vec2_add (vec2_sub (seg->c1, vec2_scale (seg->c2, 2)), seg->to);
}

static uint32_t
count_pieces (Vec2 p0, const PathSeg *seg, double tolerance_m, double most_pieces)
{
  Vec2 d1, d2;
  take_differences (p0, seg, &d1, &d2);
  double bend = sqrt (fmax (vec2_dot (d1, d1), vec2_dot (d2, d2)));
  double pieces = ceil (sqrt (0.75 * bend / tolerance_m));
  return (uint32_t)fmax (1, fmin (pieces, most_pieces));
}

static void
add_cubic (Rings *rings, Vec2 p0, const PathSeg *seg, uint32_t n)
{
  Vec2 d1, d2;
  take_differences (p0, seg, &d1, &d2);
  /* As a polynomial about its start: p0 + t (v + t (w + t u)). */
  Vec2 v = vec2_scale (vec2_sub (seg->c1, p0), 3), w = vec2_scale (d1, 3), u = vec2_sub (d2, d1);
  for (uint32_t i = 1; i < n; i++)
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
  rings->sizes[rings->n_rings++] = size;
  rings->ring_start = rings->n_points;
}

/* Room for what the path becomes, exactly: what is given back at its end would let the heap shrink and grow with each path of a drag. */
static Rings
rings_new (const Path *path, double tolerance_m)
{
  size_t n_curves = 1, n_points = 1, n_rings = 1;
  for (size_t i = 0; i < path->n_segs; i++)
    n_curves += path->segs[i].kind == SEG_CUBIC;
  double most_pieces = (double)MOST_POINTS / (double)n_curves;
  Rings rings = { .pieces = geometry_resize (NULL, path->n_segs, sizeof *rings.pieces) };
  Vec2 pen = vec2 (0, 0);
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      rings.pieces[i] = seg->kind == SEG_CUBIC ? count_pieces (pen, seg, tolerance_m, most_pieces) : 1;
      n_points += rings.pieces[i];
      n_rings += seg->kind == SEG_MOVE || seg->kind == SEG_CLOSE;
      pen = seg->to;
    }
  /* A ring brings its own start along. */
  rings.points = geometry_resize (NULL, n_points + n_rings, sizeof *rings.points);
  rings.sizes = geometry_resize (NULL, n_rings, sizeof *rings.sizes);
  return rings;
}

/* One segment from `pen`; a drawing segment that starts a ring brings its own start along. */
static void
add_segment (Rings *rings, Vec2 pen, const PathSeg *seg, uint32_t pieces)
{
  if (seg->kind == SEG_MOVE || seg->kind == SEG_CLOSE)
    return;
  if (rings->n_points == rings->ring_start)
    add_point (rings, pen);
  if (seg->kind == SEG_CUBIC)
    add_cubic (rings, pen, seg, pieces);
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
      add_segment (&rings, pen, seg, rings.pieces[i]);
      pen = seg->to;
    }
  end_ring (&rings);
  Outline *outline = outline_of (rings.points, rings.sizes, rings.n_rings, even_odd);
  free (rings.sizes);
  free (rings.pieces);
  return outline;
}

size_t
path_flatten_line (const Path *path, double tolerance_m, Vec2 **points)
{
  static const Path nothing = { 0 };
  if (!path_is_finite (path))
    path = &nothing;
  Rings rings = rings_new (path, tolerance_m);
  Vec2 pen = vec2 (0, 0);
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      if (seg->kind == SEG_MOVE && rings.n_points > 1)
        break;
      if (seg->kind == SEG_MOVE)
        rings.n_points = 0;
      if (seg->kind == SEG_CUBIC)
        add_cubic (&rings, pen, seg, rings.pieces[i]);
      else
        add_point (&rings, seg->to);
      if (seg->kind == SEG_CLOSE)
        break;
      pen = seg->to;
    }
  *points = rings.points;
  free (rings.sizes);
  free (rings.pieces);
  return rings.n_points;
}
