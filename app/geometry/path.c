// SPDX-License-Identifier: GPL-3.0-or-later
/* Paths: growing, copying, transforming and bounding lists of lines and cubic Bezier curves. */
#include "geometry-private.h"

static void
path_append (Path *path, PathSeg seg)
{
  path->segs = geometry_make_room (path->segs, path->n_segs, &path->capacity, sizeof *path->segs);
  path->segs[path->n_segs++] = seg;
}

/* A path drawn into without a move begins at the pen's first place, (0,0), and says so. */
static void
path_begin (Path *path)
{
  if (path->n_segs == 0)
    path_move_to (path, vec2 (0, 0));
}

/* Where in (0,1) one coordinate of a cubic stands still: up to two roots of its derivative; returns how many. */
static int
cubic_extrema (double p0, double p1, double p2, double p3, double roots[2])
{
  double a = p3 - 3 * p2 + 3 * p1 - p0, b = 2 * (p2 - 2 * p1 + p0), c = p1 - p0; /* derivative / 3 */
  double discriminant = b * b - 4 * a * c;
  if (!(discriminant >= 0))
    return 0;
  /* The sum that does not cancel; the other root by Vieta. Division by a zero gives a root outside (0,1). */
  double q = -(b + copysign (sqrt (discriminant), b)) / 2;
  double candidates[2] = { q / a, c / q };
  int n = 0;
  for (int i = 0; i < 2; i++)
    if (candidates[i] > 0 && candidates[i] < 1)
      roots[n++] = candidates[i];
  return n;
}

static Box
box_with_cubic (Box box, const Vec2 p[4])
{
  box = box_with_point (box, p[3]);
  if (box_contains (box, p[1]) && box_contains (box, p[2]))
    return box; /* the curve stays within its control points */
  double roots[2];
  int n = cubic_extrema (p[0].x, p[1].x, p[2].x, p[3].x, roots);
  for (int i = 0; i < n; i++)
    box = box_with_point (box, cubic_at (p, roots[i]));
  n = cubic_extrema (p[0].y, p[1].y, p[2].y, p[3].y, roots);
  for (int i = 0; i < n; i++)
    box = box_with_point (box, cubic_at (p, roots[i]));
  return box;
}

void
path_clear (Path *path)
{
  free (path->segs);
  *path = (Path){ 0 };
}

void
path_copy (const Path *from, Path *to)
{
  Path copy = { 0 };
  if (from->n_segs > 0)
    {
      copy.segs = geometry_resize (NULL, from->n_segs, sizeof *copy.segs);
      memcpy (copy.segs, from->segs, from->n_segs * sizeof *copy.segs);
      copy.n_segs = copy.capacity = from->n_segs;
    }
  *to = copy;
}

bool
path_equal (const Path *a, const Path *b)
{
  if (a->n_segs != b->n_segs)
    return false;
  for (size_t i = 0; i < a->n_segs; i++)
    {
      const PathSeg *p = &a->segs[i], *q = &b->segs[i];
      if (p->kind != q->kind || !vec2_equal (p->to, q->to))
        return false;
      if (p->kind == SEG_CUBIC && (!vec2_equal (p->c1, q->c1) || !vec2_equal (p->c2, q->c2)))
        return false;
    }
  return true;
}

void
path_move_to (Path *path, Vec2 to)
{
  path_append (path, (PathSeg){ .kind = SEG_MOVE, .to = to });
}

void
path_line_to (Path *path, Vec2 to)
{
  path_begin (path);
  path_append (path, (PathSeg){ .kind = SEG_LINE, .to = to });
}

void
path_cubic_to (Path *path, Vec2 c1, Vec2 c2, Vec2 to)
{
  path_begin (path);
  path_append (path, (PathSeg){ .kind = SEG_CUBIC, .c1 = c1, .c2 = c2, .to = to });
}

void
path_quadratic_to (Path *path, Vec2 c, Vec2 to)
{
  Vec2 from = path_current (path);
  path_cubic_to (path, vec2_lerp (from, c, 2.0 / 3.0), vec2_lerp (to, c, 2.0 / 3.0), to);
}

void
path_close (Path *path)
{
  if (path->n_segs == 0 || path->segs[path->n_segs - 1].kind == SEG_CLOSE)
    return;
  size_t i = path->n_segs;
  while (i > 0 && path->segs[i - 1].kind != SEG_MOVE && path->segs[i - 1].kind != SEG_CLOSE)
    i--;
  path_append (path, (PathSeg){ .kind = SEG_CLOSE, .to = path->segs[i - 1].to });
}

void
path_transform (Path *path, Affine t)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      PathSeg *seg = &path->segs[i];
      seg->to = affine_apply (t, seg->to);
      if (seg->kind == SEG_CUBIC)
        {
          seg->c1 = affine_apply (t, seg->c1);
          seg->c2 = affine_apply (t, seg->c2);
        }
    }
}

Vec2
path_current (const Path *path)
{
  return path->n_segs > 0 ? path->segs[path->n_segs - 1].to : vec2 (0, 0);
}

Box
path_bounds (const Path *path)
{
  Box box = box_empty ();
  Vec2 pen = vec2 (0, 0);
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      if (seg->kind == SEG_CUBIC)
        box = box_with_cubic (box, (Vec2[4]){ pen, seg->c1, seg->c2, seg->to });
      else
        box = box_with_point (box, seg->to);
      pen = seg->to;
    }
  return box;
}

bool
path_is_finite (const Path *path)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      if (!vec2_is_finite (seg->to))
        return false;
      if (seg->kind == SEG_CUBIC && (!vec2_is_finite (seg->c1) || !vec2_is_finite (seg->c2)))
        return false;
    }
  return true;
}
