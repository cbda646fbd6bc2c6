// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Area and centroid of what is inside under the fill rule.
 *
 * The plane is cut into horizontal slabs at the heights of all vertices. Within a slab every edge runs from bottom to top;
 * sorted at the bottom and at the top, two edges cross where their order differs. An edge bounds the area where what lies on its
 * left and on its right differ, and adds there the integral of x dy (Green), with its sign. A wrong decision between edges that
 * nearly coincide costs no more than the sliver between them, so nothing has to be exact for the sum to be right.
 *
 * The work is the number of edges in a slab, summed over the slabs, and the number of crossings. So the outline is first turned, if
 * that helps, to have its long edges lie down.
 */
#include "geometry-private.h"

/* Strands and crossings gone over before giving up, besides so many for each edge: about a second. Only hostile tangles do. */
#define MOST_WORK 10000000
#define MOST_WORK_PER_EDGE 100
/* More strands than this starting at once are sorted in; fewer are pushed to their places one by one. */
#define FEW_STRANDS 8

typedef struct
{
  Vec2 low, high;
  int turn; /* change of the winding number passing it from left to right */
} Edge;

/* An edge within the slab: where it is at the bottom and at the top, and the winding number at the bottom on its left. */
typedef struct
{
  const Edge *edge;
  double bottom_x, top_x;
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
  size_t next_edge; /* the first that starts above the slab */
  Strand *strands;  /* from left to right at the bottom */
  size_t n_strands;
  Strand *spare;
  size_t *order; /* of the strands at the top */
  Swap *swaps;
  size_t n_swaps, swaps_capacity;
  size_t work, most_work;
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

/* A quarter turn to the right and back. */
static Vec2
lay_down (Vec2 v)
{
  return vec2 (v.y, -v.x);
}

static Vec2
stand_up (Vec2 v)
{
  return vec2 (-v.y, v.x);
}

/* Whether the edges run more up and down than across, as shares of the outline's height and width. */
static bool
is_upright (const Outline *outline)
{
  double across = 0, up = 0;
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t start = outline->ring_starts[r], end = outline->ring_starts[r + 1];
      for (size_t i = start, before = end - 1; i < end; before = i++)
        {
          Vec2 edge = vec2_sub (outline->points[i], outline->points[before]);
          across += fabs (edge.x);
          up += fabs (edge.y);
        }
    }
  Box box = outline->bounds;
  return up * (box.x1 - box.x0) > across * (box.y1 - box.y0);
}

static void
sweep_add_edge (Sweep *sweep, Vec2 a, Vec2 b)
{
  sweep->heights[sweep->n_heights++] = b.y;
  if (a.y < b.y)
    sweep->edges[sweep->n_edges++] = (Edge){ a, b, -1 };
  else if (a.y > b.y)
    sweep->edges[sweep->n_edges++] = (Edge){ b, a, 1 };
}

/* Edges and heights of the outline, moved so that `origin` is (0,0): keeps the moments of far-off outlines sharp. */
static void
sweep_load (Sweep *sweep, const Outline *outline, Vec2 origin, bool turned)
{
  sweep->edges = geometry_resize (NULL, outline->n_points, sizeof *sweep->edges);
  sweep->heights = geometry_resize (NULL, outline->n_points, sizeof *sweep->heights);
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t start = outline->ring_starts[r], end = outline->ring_starts[r + 1];
      for (size_t i = start, before = end - 1; i < end; before = i++)
        {
          Vec2 a = vec2_sub (outline->points[before], origin), b = vec2_sub (outline->points[i], origin);
          sweep_add_edge (sweep, turned ? lay_down (a) : a, turned ? lay_down (b) : b);
        }
    }
  qsort (sweep->edges, sweep->n_edges, sizeof *sweep->edges, compare_edges);
  qsort (sweep->heights, sweep->n_heights, sizeof *sweep->heights, compare_doubles);
  size_t n = 0;
  for (size_t i = 0; i < sweep->n_heights; i++)
    if (n == 0 || sweep->heights[i] > sweep->heights[n - 1])
      sweep->heights[n++] = sweep->heights[i];
  sweep->n_heights = n;
  sweep->strands = geometry_resize (NULL, sweep->n_edges, sizeof *sweep->strands);
  sweep->spare = geometry_resize (NULL, sweep->n_edges, sizeof *sweep->spare);
  sweep->order = geometry_resize (NULL, sweep->n_edges, sizeof *sweep->order);
}

static void
sweep_clear (Sweep *sweep)
{
  free (sweep->edges);
  free (sweep->heights);
  free (sweep->strands);
  free (sweep->spare);
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
  add_swap (sweep, (Swap){ left, t, r->edge->turn });
  add_swap (sweep, (Swap){ right, t, -l->edge->turn });
}

/* Insertion sort from bottom order to top order: each exchange of neighbours is one crossing. Stops when there are too many. */
static void
find_crossings (Sweep *sweep)
{
  sweep->n_swaps = 0;
  for (size_t i = 0; i < sweep->n_strands && sweep->work <= sweep->most_work; i++)
    {
      size_t place = i;
      for (; place > 0 && sweep->strands[sweep->order[place - 1]].top_x > sweep->strands[i].top_x; place--)
        {
          add_crossing (sweep, sweep->order[place - 1], i);
          sweep->order[place] = sweep->order[place - 1];
        }
      sweep->order[place] = i;
      sweep->work += 1 + i - place;
    }
  if (sweep->n_swaps > 1)
    qsort (sweep->swaps, sweep->n_swaps, sizeof *sweep->swaps, compare_swaps);
}

/* Adds what the strand contributes between height fractions t0 and t1 with the winding number `winding` on its left. */
static void
add_piece (Sweep *sweep, const Strand *strand, double bottom, double height, double t0, double t1, int winding)
{
  bool left = winding_is_inside (sweep->even_odd, winding);
  bool right = winding_is_inside (sweep->even_odd, winding + strand->edge->turn);
  if (left == right)
    return;
  double dy = (t1 - t0) * height * (left ? 1 : -1);
  double x0 = strand->bottom_x + (strand->top_x - strand->bottom_x) * t0, y0 = bottom + height * t0;
  double x1 = strand->bottom_x + (strand->top_x - strand->bottom_x) * t1, y1 = bottom + height * t1;
  sweep->area += dy * (x0 + x1) / 2;
  sweep->moment_x += dy * (x0 * x0 + x0 * x1 + x1 * x1) / 6;
  sweep->moment_y += dy * (y0 * (2 * x0 + x1) + y1 * (x0 + 2 * x1)) / 6;
}

/* Strands of the slab above: those that go on, in the order they have now at the bottom, then those that start. */
static void
next_strands (Sweep *sweep, double bottom, double top)
{
  size_t n = 0;
  Strand *next = sweep->spare;
  for (size_t i = 0; i < sweep->n_strands; i++)
    {
      const Strand *strand = &sweep->strands[sweep->order[i]];
      if (strand->edge->high.y > bottom)
        next[n++] = (Strand){ strand->edge, strand->top_x, edge_x_at (strand->edge, top), 0 };
    }
  size_t n_going_on = n;
  for (; sweep->next_edge < sweep->n_edges && sweep->edges[sweep->next_edge].low.y <= bottom; sweep->next_edge++)
    {
      const Edge *edge = &sweep->edges[sweep->next_edge];
      next[n++] = (Strand){ edge, edge->low.x, edge_x_at (edge, top), 0 };
    }
  if (n - n_going_on > FEW_STRANDS)
    qsort (next, n, sizeof *next, compare_strands);
  for (size_t i = 1; i < n; i++)
    {
      Strand strand = next[i];
      size_t place = i;
      for (; place > 0 && compare_strands (&next[place - 1], &strand) > 0; place--)
        next[place] = next[place - 1];
      next[place] = strand;
    }
  sweep->spare = sweep->strands;
  sweep->strands = next;
  sweep->n_strands = n;
}

static void
sweep_slab (Sweep *sweep, double bottom, double top)
{
  int winding = 0;
  for (size_t i = 0; i < sweep->n_strands; i++)
    {
      sweep->strands[i].winding = winding;
      winding += sweep->strands[i].edge->turn;
    }
  find_crossings (sweep);
  size_t next = 0;
  for (size_t i = 0; i < sweep->n_strands; i++)
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

/* False when it would take too long. */
static bool
sweep_run (Sweep *sweep)
{
  sweep->most_work = MOST_WORK + MOST_WORK_PER_EDGE * sweep->n_edges;
  for (size_t h = 0; h + 1 < sweep->n_heights && sweep->work <= sweep->most_work; h++)
    {
      next_strands (sweep, sweep->heights[h], sweep->heights[h + 1]);
      sweep_slab (sweep, sweep->heights[h], sweep->heights[h + 1]);
    }
  return sweep->work <= sweep->most_work;
}

bool
outline_measure (const Outline *outline, double *area_m2, Vec2 *centroid)
{
  Box bounds = outline->bounds;
  if (box_is_empty (bounds) || !vec2_is_finite (vec2 (bounds.x0, bounds.y0)) || !vec2_is_finite (vec2 (bounds.x1, bounds.y1)))
    return false;
  Vec2 origin = box_centre (bounds);
  bool turned = is_upright (outline);
  Sweep sweep = { .even_odd = outline->even_odd };
  sweep_load (&sweep, outline, origin, turned);
  bool is_done = sweep_run (&sweep);
  sweep_clear (&sweep);
  if (!is_done || !(sweep.area > 0) || !isfinite (sweep.area))
    return false;
  Vec2 from_origin = vec2 (sweep.moment_x / sweep.area, sweep.moment_y / sweep.area);
  Vec2 centre = vec2_add (origin, turned ? stand_up (from_origin) : from_origin);
  if (!vec2_is_finite (centre))
    return false;
  if (area_m2 != NULL)
    *area_m2 = sweep.area;
  if (centroid != NULL)
    *centroid = centre;
  return true;
}
