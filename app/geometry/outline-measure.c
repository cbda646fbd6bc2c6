// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Area and centroid of what is inside under the fill rule.
 *
 * The plane is cut into horizontal slabs at the heights of all vertices. Within a slab every edge runs from bottom to top; sorted at
 * the bottom and at the top, two edges cross where their order differs. An edge bounds the area where what lies on its
 * left and on its right differ, and adds there the integral of x dy (Green), with its sign. A wrong decision between edges that
 * nearly coincide costs no more than the sliver between them, so nothing has to be exact for the sum to be right.
 */
#include "geometry-private.h"

typedef struct
{
  Vec2 low, high;
  int turn; /* change of the winding number passing it from left to right */
} Edge;

/* An edge within the slab: where it is at the bottom and at the top, and the winding number at the bottom on its left. */
typedef struct
{
  double bottom_x, top_x;
  int turn;
  int winding;
} Strand;

/* Strand `strand` passes another at height fraction `t` of the slab; on its left the winding number then changes by `turn`. */
typedef struct
{
  size_t strand;
  double t;
  int turn;
} Swap;

typedef struct
{
  bool even_odd;
  Edge *edges; /* by the height of their low end */
  size_t n_edges;
  double *heights; /* of all vertices, sorted, each once */
  size_t n_heights;
  size_t *active; /* edges that reach through the slab */
  size_t n_active;
  Strand *strands;
  size_t *order; /* of the strands, being sorted from bottom order to top order */
  Swap *swaps;
  size_t n_swaps, swaps_capacity;
  double area, moment_x, moment_y;
} Sweep;

static int
compare_doubles (const void *pa, const void *pb)
{
  const double *a = pa, *b = pb;
  return (*a > *b) - (*a < *b);
}

static int
compare_edges (const void *pa, const void *pb)
{
  const Edge *a = pa, *b = pb;
  return (a->low.y > b->low.y) - (a->low.y < b->low.y);
}

static int
compare_strands (const void *pa, const void *pb)
{
  const Strand *a = pa, *b = pb;
  if (a->bottom_x != b->bottom_x)
    return a->bottom_x > b->bottom_x ? 1 : -1;
  return (a->top_x > b->top_x) - (a->top_x < b->top_x);
}

static int
compare_swaps (const void *pa, const void *pb)
{
  const Swap *a = pa, *b = pb;
  if (a->strand != b->strand)
    return a->strand > b->strand ? 1 : -1;
  return (a->t > b->t) - (a->t < b->t);
}

/* Edges and heights of the outline, moved so that `origin` is (0,0): keeps the moments of far-off outlines sharp. */
static void
sweep_load (Sweep *sweep, const Outline *outline, Vec2 origin)
{
  sweep->edges = geometry_resize (NULL, outline->n_points, sizeof *sweep->edges);
  sweep->heights = geometry_resize (NULL, outline->n_points, sizeof *sweep->heights);
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t start = outline->ring_starts[r], end = outline->ring_starts[r + 1];
      for (size_t i = start, before = end - 1; i < end; before = i++)
        {
          Vec2 a = vec2_sub (outline->points[before], origin), b = vec2_sub (outline->points[i], origin);
          sweep->heights[sweep->n_heights++] = b.y;
          if (a.y < b.y)
            sweep->edges[sweep->n_edges++] = (Edge){ a, b, -1 };
          else if (a.y > b.y)
            sweep->edges[sweep->n_edges++] = (Edge){ b, a, 1 };
        }
    }
  qsort (sweep->edges, sweep->n_edges, sizeof *sweep->edges, compare_edges);
  qsort (sweep->heights, sweep->n_heights, sizeof *sweep->heights, compare_doubles);
  size_t n = 0;
  for (size_t i = 0; i < sweep->n_heights; i++)
    if (n == 0 || sweep->heights[i] > sweep->heights[n - 1])
      sweep->heights[n++] = sweep->heights[i];
  sweep->n_heights = n;
  sweep->active = geometry_resize (NULL, sweep->n_edges, sizeof *sweep->active);
  sweep->strands = geometry_resize (NULL, sweep->n_edges, sizeof *sweep->strands);
  sweep->order = geometry_resize (NULL, sweep->n_edges, sizeof *sweep->order);
}

static void
sweep_clear (Sweep *sweep)
{
  free (sweep->edges);
  free (sweep->heights);
  free (sweep->active);
  free (sweep->strands);
  free (sweep->order);
  free (sweep->swaps);
}

static double
edge_x_at (const Edge *edge, double y)
{
  if (y == edge->low.y)
    return edge->low.x;
  if (y == edge->high.y)
    return edge->high.x;
  return edge->low.x + (edge->high.x - edge->low.x) * ((y - edge->low.y) / (edge->high.y - edge->low.y));
}

static void
add_swap (Sweep *sweep, Swap swap)
{
  sweep->swaps = geometry_make_room (sweep->swaps, sweep->n_swaps, &sweep->swaps_capacity, sizeof *sweep->swaps);
  sweep->swaps[sweep->n_swaps++] = swap;
}

/* Strands `left` and `right`, in this order at the bottom, change places on the way to the top. */
static void
add_crossing (Sweep *sweep, size_t left, size_t right)
{
  const Strand *l = &sweep->strands[left], *r = &sweep->strands[right];
  double gap_bottom = r->bottom_x - l->bottom_x, gap_top = l->top_x - r->top_x;
  double t = gap_bottom / (gap_bottom + gap_top);
  add_swap (sweep, (Swap){ left, t, r->turn });
  add_swap (sweep, (Swap){ right, t, -l->turn });
}

/* Insertion sort from bottom order to top order: each exchange of neighbours is one crossing. */
static void
find_crossings (Sweep *sweep)
{
  sweep->n_swaps = 0;
  for (size_t i = 0; i < sweep->n_active; i++)
    {
      size_t place = i;
      for (; place > 0 && sweep->strands[sweep->order[place - 1]].top_x > sweep->strands[i].top_x; place--)
        {
          add_crossing (sweep, sweep->order[place - 1], i);
          sweep->order[place] = sweep->order[place - 1];
        }
      sweep->order[place] = i;
    }
  if (sweep->n_swaps > 1)
    qsort (sweep->swaps, sweep->n_swaps, sizeof *sweep->swaps, compare_swaps);
}

/* Adds what the strand contributes between height fractions t0 and t1 with the winding number `winding` on its left. */
static void
add_piece (Sweep *sweep, const Strand *strand, double bottom, double height, double t0, double t1, int winding)
{
  bool left = winding_is_inside (sweep->even_odd, winding);
  bool right = winding_is_inside (sweep->even_odd, winding + strand->turn);
  if (left == right)
    return;
  double dy = (t1 - t0) * height * (left ? 1 : -1);
  double x0 = strand->bottom_x + (strand->top_x - strand->bottom_x) * t0, y0 = bottom + height * t0;
  double x1 = strand->bottom_x + (strand->top_x - strand->bottom_x) * t1, y1 = bottom + height * t1;
  sweep->area += dy * (x0 + x1) / 2;
  sweep->moment_x += dy * (x0 * x0 + x0 * x1 + x1 * x1) / 6;
  sweep->moment_y += dy * (y0 * (2 * x0 + x1) + y1 * (x0 + 2 * x1)) / 6;
}

static void
sweep_slab (Sweep *sweep, double bottom, double top)
{
  for (size_t i = 0; i < sweep->n_active; i++)
    {
      const Edge *edge = &sweep->edges[sweep->active[i]];
      sweep->strands[i] = (Strand){ edge_x_at (edge, bottom), edge_x_at (edge, top), edge->turn, 0 };
    }
  qsort (sweep->strands, sweep->n_active, sizeof *sweep->strands, compare_strands);
  int winding = 0;
  for (size_t i = 0; i < sweep->n_active; i++)
    {
      sweep->strands[i].winding = winding;
      winding += sweep->strands[i].turn;
    }
  find_crossings (sweep);
  size_t next = 0;
  for (size_t i = 0; i < sweep->n_active; i++)
    {
      const Strand *strand = &sweep->strands[i];
      double t = 0;
      winding = strand->winding;
      for (; next < sweep->n_swaps && sweep->swaps[next].strand == i; next++)
        {
          add_piece (sweep, strand, bottom, top - bottom, t, sweep->swaps[next].t, winding);
          t = sweep->swaps[next].t;
          winding += sweep->swaps[next].turn;
        }
      add_piece (sweep, strand, bottom, top - bottom, t, 1, winding);
    }
}

static void
sweep_run (Sweep *sweep)
{
  size_t next_edge = 0;
  for (size_t h = 0; h + 1 < sweep->n_heights; h++)
    {
      double bottom = sweep->heights[h], top = sweep->heights[h + 1];
      size_t kept = 0;
      for (size_t i = 0; i < sweep->n_active; i++)
        if (sweep->edges[sweep->active[i]].high.y > bottom)
          sweep->active[kept++] = sweep->active[i];
      while (next_edge < sweep->n_edges && sweep->edges[next_edge].low.y <= bottom)
        sweep->active[kept++] = next_edge++;
      sweep->n_active = kept;
      sweep_slab (sweep, bottom, top);
    }
}

bool
outline_measure (const Outline *outline, double *area_m2, Vec2 *centroid)
{
  Box bounds = outline->bounds;
  if (box_is_empty (bounds) || !vec2_is_finite (vec2 (bounds.x0, bounds.y0)) || !vec2_is_finite (vec2 (bounds.x1, bounds.y1)))
    return false;
  Vec2 origin = box_centre (bounds);
  Sweep sweep = { .even_odd = outline->even_odd };
  sweep_load (&sweep, outline, origin);
  sweep_run (&sweep);
  sweep_clear (&sweep);
  if (!(sweep.area > 0) || !isfinite (sweep.area))
    return false;
  Vec2 centre = vec2_add (origin, vec2 (sweep.moment_x / sweep.area, sweep.moment_y / sweep.area));
  if (!vec2_is_finite (centre))
    return false;
  if (area_m2 != NULL)
    *area_m2 = sweep.area;
  if (centroid != NULL)
    *centroid = centre;
  return true;
}
