// SPDX-License-Identifier: GPL-3.0-or-later
/* The stack: a part moved up or down, past whatever lies over or under it. */
#include "edit-private.h"

Hole *
edit_reorder (const Hole *hole, size_t part, size_t to, GError **error)
{
  size_t n = hole_n_parts (hole);
  g_assert (part < n && to < n);
  if (part == to)
    return hole_ref ((Hole *)hole);
  g_autofree const Part **all = g_new (const Part *, n);
  for (size_t i = 0, next = 0; i < n; i++)
    {
      if (next == part)
        next++;
      all[i] = part_ref (i == to ? hole_part (hole, part) : hole_part (hole, next++));
    }
  return hole_with_parts (hole, all, n);
}

static bool
segments_meet (Vec2 a, Vec2 b, Vec2 c, Vec2 d)
{
  Vec2 ab = vec2_sub (b, a), cd = vec2_sub (d, c);
  double c_side = vec2_cross (ab, vec2_sub (c, a)), d_side = vec2_cross (ab, vec2_sub (d, a));
  double a_side = vec2_cross (cd, vec2_sub (a, c)), b_side = vec2_cross (cd, vec2_sub (b, c));
  return c_side * d_side <= 0 && a_side * b_side <= 0
         && box_overlaps (box_with_point (box_with_point (box_empty (), a), b),
                          box_with_point (box_with_point (box_empty (), c), d));
}

static Vec2
ring_next (const Outline *outline, size_t ring, size_t i)
{
  return outline->points[i + 1 < outline->ring_starts[ring + 1] ? i + 1 : outline->ring_starts[ring]];
}

/* Does an edge of one outline meet the edge p-q? */
static bool
edge_meets (const Outline *outline, Vec2 p, Vec2 q)
{
  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t i = outline->ring_starts[r]; i < outline->ring_starts[r + 1]; i++)
      if (segments_meet (p, q, outline->points[i], ring_next (outline, r, i)))
        return true;
  return false;
}

static bool
areas_overlap (const Outline *a, const Outline *b)
{
  if (a->n_points == 0 || b->n_points == 0)
    return false;
  if (outline_contains (a, b->points[0]) || outline_contains (b, a->points[0]))
    return true;
  for (size_t r = 0; r < a->n_rings; r++)
    for (size_t i = a->ring_starts[r]; i < a->ring_starts[r + 1]; i++)
      {
        Vec2 p = a->points[i], q = ring_next (a, r, i);
        if (box_overlaps (b->bounds, box_with_point (box_with_point (box_empty (), p), q)) && edge_meets (b, p, q))
          return true;
      }
  return false;
}

/* Areas by their outlines, everything else by its bounds. */
static bool
parts_overlap (const Part *a, const Part *b)
{
  if (box_is_empty (a->bounds) || box_is_empty (b->bounds) || !box_overlaps (a->bounds, b->bounds))
    return false;
  return !a->outline || !b->outline || areas_overlap (a->outline, b->outline);
}

Hole *
edit_raise (const Hole *hole, size_t part, int steps, size_t *to, GError **error)
{
  size_t n = hole_n_parts (hole);
  g_assert (part < n && (steps == 1 || steps == -1 || steps == 2 || steps == -2));
  size_t place = steps > 0 ? n - 1 : 0;
  if (steps == 1 || steps == -1)
    {
      size_t i = part;
      for (; i != place; i += (size_t)steps)
        if (parts_overlap (hole_part (hole, part), hole_part (hole, i + (size_t)steps)))
          break;
      if (i == place)
        return refuse (error, EDIT_ERROR_EMPTY, steps > 0 ? "nothing lies over it" : "nothing lies under it");
      place = i + (size_t)steps;
    }
  Hole *made = edit_reorder (hole, part, place, error);
  if (made && to)
    *to = place;
  return made;
}
