// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Areas as rings on whole numbers, and the two questions that are answered exactly about them: on which side of an edge a corner lies, and how often rings wind about it.
 */
#include "faces-private.h"

#include <math.h>

/* Coordinates reach to 2^50, their differences to 2^51, products of two of those to 2^102. */
#define EXTENT_BITS 50
/* A sum of two products of doubles is off by less than this share of both. */
#define ROUNDED_SHARE 0x1p-51

__extension__ typedef __int128 Wide;

/* ---- making ---- */

/* From a drawing to whole numbers. */
typedef struct
{
  Vec2 centre;
  double per_m;
} Scale;

static Scale
scale_over (Box box)
{
  double half = fmax (box.x1 - box.x0, box.y1 - box.y0) / 2;
  int exponent = 0;
  frexp (half, &exponent);
  return (Scale){ box_centre (box), half > 0 ? ldexp (1, EXTENT_BITS - exponent) : 0 };
}

static Spot
to_spot (Scale scale, Vec2 at)
{
  Vec2 from = vec2_scale (vec2_sub (at, scale.centre), scale.per_m);
  return (Spot){ llrint (from.x), llrint (from.y) };
}

static bool
is_same (Spot a, Spot b)
{
  return a.x == b.x && a.y == b.y;
}

/* One ring without repeated corners; none with fewer than three. */
static void
add_ring (Layout *layout, uint32_t shape, Scale scale, const Vec2 *points, size_t n_points)
{
  size_t first = layout->n_corners, n = first;
  for (size_t i = 0; i < n_points; i++)
    {
      Spot spot = to_spot (scale, points[i]);
      if (n > first && is_same (layout->spots[n - 1], spot))
        continue;
      layout->spots[n] = spot;
      layout->places[n] = points[i];
      layout->shape_of[n] = shape;
      layout->next[n] = (uint32_t)n + 1;
      layout->inside[n] = 1;
      n++;
    }
  while (n > first && is_same (layout->spots[n - 1], layout->spots[first]))
    n--;
  if (n < first + 3)
    return;
  layout->next[n - 1] = (uint32_t)first;
  layout->n_corners = n;
}

Layout *
layout_new (const Part *const *parts, const Outline *const *outlines, size_t n_parts)
{
  Layout *layout = g_new0 (Layout, 1);
  Box box = box_empty ();
  size_t n = 1;
  for (size_t s = 0; s < n_parts; s++)
    {
      const Outline *outline = outlines[s] != NULL ? outlines[s] : parts[s]->outline;
      box = box_union (box, outline->bounds);
      n += outline->n_points;
    }
  Scale scale = scale_over (box);
  layout->shapes = g_new0 (Shape, n_parts + 1);
  layout->n_shapes = n_parts;
  layout->spots = g_new (Spot, n);
  layout->places = g_new (Vec2, n);
  layout->next = g_new (uint32_t, n);
  layout->shape_of = g_new (uint32_t, n);
  layout->inside = g_new (int8_t, n);
  for (size_t s = 0; s < n_parts; s++)
    {
      const Outline *outline = outlines[s] != NULL ? outlines[s] : parts[s]->outline;
      Shape *shape = &layout->shapes[s];
      *shape = (Shape){ .part = parts[s], .first = layout->n_corners, .box = outline->bounds, .is_raw = outlines[s] == NULL };
      for (size_t r = 0; r < outline->n_rings; r++)
        add_ring (layout, (uint32_t)s, scale, outline->points + outline->ring_starts[r],
                  outline->ring_starts[r + 1] - outline->ring_starts[r]);
      shape->n_corners = layout->n_corners - shape->first;
    }
  return layout;
}

void
layout_free (Layout *layout)
{
  if (layout == NULL)
    return;
  g_free (layout->shapes);
  g_free (layout->spots);
  g_free (layout->places);
  g_free (layout->next);
  g_free (layout->shape_of);
  g_free (layout->inside);
  g_free (layout);
}

/* ---- sides ---- */

int
layout_turn (Spot a, Spot b, Spot p)
{
  int64_t bx = b.x - a.x, by = b.y - a.y, px = p.x - a.x, py = p.y - a.y;
  double one = (double)bx * (double)py, other = (double)by * (double)px, cross = one - other;
  if (fabs (cross) > ROUNDED_SHARE * (fabs (one) + fabs (other)))
    return cross > 0 ? 1 : -1;
  Wide exact = (Wide)bx * py - (Wide)by * px;
  return exact > 0 ? 1 : exact < 0 ? -1 : 0;
}

/* Is the first of two areas' corners below the second, the direction in which areas are shifted being nearly along x? */
static bool
is_below (const Layout *layout, uint32_t a, uint32_t b)
{
  int64_t rise = layout->spots[b].y - layout->spots[a].y;
  return rise > 0 || (rise == 0 && layout->shape_of[a] < layout->shape_of[b]);
}

int
layout_side (const Layout *layout, uint32_t edge, uint32_t corner)
{
  Spot a = layout->spots[edge], b = layout->spots[layout->next[edge]];
  int side = layout_turn (a, b, layout->spots[corner]);
  if (side != 0)
    return side;
  int shift = layout->shape_of[corner] > layout->shape_of[edge] ? 1 : -1;
  return (b.y != a.y ? b.y < a.y : b.x > a.x) ? shift : -shift;
}

int
layout_cover (const Layout *layout, size_t shape, uint32_t corner)
{
  int cover = 0;
  for (size_t i = layout->shapes[shape].first, n = layout->shapes[shape].n_corners; n > 0; i++, n--)
    {
      uint32_t edge = (uint32_t)i;
      bool is_up = is_below (layout, edge, corner);
      if (is_up != is_below (layout, layout->next[i], corner) && layout_side (layout, edge, corner) == (is_up ? 1 : -1))
        cover += is_up ? layout->inside[i] : -layout->inside[i];
    }
  return cover;
}

/* ---- on which side the inside is ---- */

/* Exact but for its last bits: a ring that does not meet itself has more than that. */
static double
twice_area (const Layout *layout, size_t first, size_t n)
{
  double twice = 0;
  for (size_t i = 1; i + 1 < n; i++)
    twice += vec2_cross (vec2_sub (layout->places[first + i], layout->places[first]),
                         vec2_sub (layout->places[first + i + 1], layout->places[first]));
  return twice;
}

static size_t
ring_length (const Layout *layout, size_t first)
{
  size_t last = first;
  while (layout->next[last] > last)
    last++;
  return last + 1 - first;
}

/* How often the other rings of its area wind about a ring that none of them touches. */
static int
winding_of_others (const Layout *layout, const Shape *shape, size_t first, size_t n)
{
  int winding = 0;
  Spot at = layout->spots[first];
  for (size_t i = shape->first; i < shape->first + shape->n_corners; i++)
    {
      Spot a = layout->spots[i], b = layout->spots[layout->next[i]];
      bool is_up = a.y <= at.y;
      if ((i < first || i >= first + n) && is_up != (b.y <= at.y) && layout_turn (a, b, at) == (is_up ? 1 : -1))
        winding += is_up ? 1 : -1;
    }
  return winding;
}

static int8_t
inside_of_ring (const Layout *layout, const Shape *shape, size_t first, size_t n)
{
  int bits = shape->part->outline->even_odd ? 1 : -1;
  int outside = n < shape->n_corners ? winding_of_others (layout, shape, first, n) : 0;
  int left = twice_area (layout, first, n) > 0 ? outside + 1 : outside;
  return (int8_t)(((left & bits) != 0) - (((left - 1) & bits) != 0));
}

void
layout_orient (Layout *layout)
{
  for (size_t s = 0; s < layout->n_shapes; s++)
    {
      const Shape *shape = &layout->shapes[s];
      for (size_t first = shape->first, n; first < shape->first + shape->n_corners && shape->is_raw; first += n)
        {
          n = ring_length (layout, first);
          int8_t inside = inside_of_ring (layout, shape, first, n);
          for (size_t i = first; i < first + n; i++)
            layout->inside[i] = inside;
        }
    }
}
