// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Clipping an area's edges to a fan, and sorting them by the slope at which they begin.
 */
#include "fan-edges-private.h"

#include <math.h>

/* Edges nearer to the point of the fan count as this near, so that 1 / x stays finite. */
#define LEAST_X_M 1e-9

/* An end of an edge: a corner of the outline, or where it enters the fan. */
typedef struct
{
  double x, s;
} FanEnd;

/* ---- clipping ---- */

static inline double
clamped (double value, double low, double high)
{
  return smaller (larger (value, low), high);
}

/*
 * Clips p-q to the fan's slopes `low`..`high`; in their wedge x is never negative. False when nothing of it lies inside.
 * Ends that are corners take the corner's own slope, so that edges that share one agree on it to the last bit.
 */
static bool
clip_edge (Vec2 p, Vec2 q, double low, double high, FanEnd *start, FanEnd *end)
{
  double above_p = p.y - low * p.x, above_q = q.y - low * q.x;
  double below_p = high * p.x - p.y, below_q = high * q.x - q.y;
  if ((above_p < 0 && above_q < 0) || (below_p < 0 && below_q < 0))
    return false;
  double t0 = 0, t1 = 1;
  double s0 = p.x > 0 ? clamped (p.y / p.x, low, high) : NAN, s1 = q.x > 0 ? clamped (q.y / q.x, low, high) : NAN;
  if ((above_p < 0) != (above_q < 0))
    {
      double t = above_p / (above_p - above_q);
      if (above_p < 0)
        t0 = t, s0 = low;
      else
        t1 = t, s1 = low;
    }
  if ((below_p < 0) != (below_q < 0))
    {
      double t = below_p / (below_p - below_q);
      if (below_p < 0 && t > t0)
        t0 = t, s0 = high;
      else if (below_q < 0 && t < t1)
        t1 = t, s1 = high;
    }
  *start = (FanEnd){ p.x + t0 * (q.x - p.x), s0 };
  *end = (FanEnd){ p.x + t1 * (q.x - p.x), s1 };
  return t0 < t1;
}

/* Edges along a ray, and those that end in the fan's point, have no width among the rays and bound nothing. */
static void
add_edge (Fan *fan, Vec2 p, Vec2 q, double low, double high)
{
  FanEnd a, b;
  if (!clip_edge (p, q, low, high, &a, &b) || isnan (a.s) || isnan (b.s) || a.s == b.s)
    return;
  FanEdge edge = { .p = p, .d = vec2_sub (q, p), .turn = a.s < b.s ? 1 : -1 };
  FanEnd first = edge.turn > 0 ? a : b, last = edge.turn > 0 ? b : a;
  edge.s0 = first.s;
  edge.s1 = last.s;
  edge.q0 = 1 / larger (first.x, LEAST_X_M);
  edge.q1 = 1 / larger (last.x, LEAST_X_M);
  g_array_append_val (fan->edges, edge);
}

void
fan_add_edges (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, double low, double high)
{
  for (size_t r = 0; r < area->n_rings; r++)
    {
      size_t first = area->ring_starts[r], end = area->ring_starts[r + 1];
      if (first == end)
        continue;
      Vec2 d = vec2_sub (area->points[end - 1], origin);
      Vec2 p = vec2 (vec2_dot (along, d), vec2_cross (along, d));
      for (size_t i = first; i < end; i++)
        {
          d = vec2_sub (area->points[i], origin);
          Vec2 q = vec2 (vec2_dot (along, d), vec2_cross (along, d));
          add_edge (fan, p, q, low, high);
          p = q;
        }
    }
}

/* ---- sorting the edges by where they begin ---- */

/* End of the run of rising slopes that begins at `i`. */
static guint
run_end (const FanStart *starts, guint i, guint n)
{
  for (i++; i < n && starts[i - 1].s0 <= starts[i].s0; i++)
    ;
  return i;
}

static void
turn_round (FanStart *starts, guint i, guint end)
{
  for (; i + 1 < end; i++, end--)
    {
      FanStart swap = starts[i];
      starts[i] = starts[end - 1];
      starts[end - 1] = swap;
    }
}

/* Merges neighbouring runs of `from` pairwise into `to`; returns how many runs it met. */
static guint
merge_runs (const FanStart *from, FanStart *to, guint n)
{
  guint n_runs = 0;
  for (guint i = 0, middle, end; i < n; i = end)
    {
      middle = run_end (from, i, n);
      end = middle < n ? run_end (from, middle, n) : n;
      n_runs += middle < n ? 2 : 1;
      for (guint a = i, b = middle, k = i; k < end; k++)
        to[k] = b == end || (a < middle && from[a].s0 <= from[b].s0) ? from[a++] : from[b++];
    }
  return n_runs;
}

/*
 * The edges' starts by rising slope. Along an outline slopes rise or fall for long stretches, so falling ones are turned round and
 * the few rising ones merged.
 */
const FanStart *
fan_sorted_starts (Fan *fan)
{
  guint n = fan->edges->len;
  g_array_set_size (fan->starts, n);
  g_array_set_size (fan->spare, n);
  FanStart *starts = (FanStart *)(void *)fan->starts->data, *spare = (FanStart *)(void *)fan->spare->data;
  for (guint i = 0; i < n; i++)
    starts[i] = (FanStart){ g_array_index (fan->edges, FanEdge, i).s0, i };
  for (guint i = 0, end; i < n; i = end)
    {
      for (end = i + 1; end < n && starts[end - 1].s0 > starts[end].s0; end++)
        ;
      turn_round (starts, i, end);
    }
  while (merge_runs (starts, spare, n) > 1)
    {
      FanStart *swap = starts;
      starts = spare;
      spare = swap;
    }
  return starts;
}
