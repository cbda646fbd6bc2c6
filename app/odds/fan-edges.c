// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Clipping an area's edges to a fan, and sorting them by the slope at which they begin.
 */
#include "fan-edges-private.h"

#include <math.h>

/* Edges nearer to the point of the fan count as this near, so that 1 / x stays finite. */
#define LEAST_X_M 1e-9

/* A corner of the outline in the fan's frame, or where an edge enters the fan. */
typedef struct
{
  Vec2 at;
  double above, below; /* not negative when it is above the lowest ray and below the highest */
  double s;            /* its slope, when it is in the fan */
  bool is_inside;
} FanCorner;

/* ---- clipping ---- */

/* In the fan x is never negative, because above + below = (high - low) x. The fan's own point has no slope and counts as outside. */
static FanCorner
corner_at (Vec2 point, Vec2 origin, Vec2 along, double low, double high)
{
  Vec2 d = vec2_sub (point, origin), at = vec2 (vec2_dot (along, d), vec2_cross (along, d));
  FanCorner corner = { .at = at, .above = at.y - low * at.x, .below = high * at.x - at.y };
  corner.is_inside = corner.above >= 0 && corner.below >= 0 && at.x > 0;
  if (corner.is_inside)
    corner.s = smaller (larger (at.y / at.x, low), high);
  return corner;
}

/* Where the edge from outside the fan at `from` towards `to` comes into it; false when it passes by. */
static bool
enter_fan (const FanCorner *from, const FanCorner *to, double low, double high, FanCorner *entry)
{
  double t_low = from->above < 0 ? from->above / (from->above - to->above) : 0;
  double t_high = from->below < 0 ? from->below / (from->below - to->below) : 0;
  double t = larger (t_low, t_high);
  *entry = (FanCorner){ .at = vec2_lerp (from->at, to->at, t), .s = t_low > t_high ? low : high, .is_inside = true };
  double above = from->above + t * (to->above - from->above), below = from->below + t * (to->below - from->below);
  return t > 0 && (t_low > t_high ? below : above) >= 0;
}

/*
 * Corners take part with their own slope, so that edges that share one agree on it to the last bit. Edges along a ray and those that
 * end in the fan's point have no width among the rays and bound nothing.
 */
static void
add_edge (Fan *fan, const FanCorner *p, const FanCorner *q, double low, double high)
{
  if ((p->above < 0 && q->above < 0) || (p->below < 0 && q->below < 0))
    return;
  FanCorner from = *p, to = *q;
  if ((!p->is_inside && !enter_fan (p, q, low, high, &from)) || (!q->is_inside && !enter_fan (q, p, low, high, &to))
      || from.s == to.s)
    return;
  if (fan->n_edges == fan->edge_room)
    {
      fan->edge_room = MAX (64, 2 * fan->edge_room);
      fan->edges = g_renew (FanEdge, fan->edges, fan->edge_room);
    }
  bool rises = from.s < to.s;
  const FanCorner *first = rises ? &from : &to, *last = rises ? &to : &from;
  FanEdge *edge = &fan->edges[fan->n_edges++];
  edge->p = p->at;
  edge->d = vec2_sub (q->at, p->at);
  edge->turn = rises ? 1 : -1;
  edge->s0 = first->s;
  edge->s1 = last->s;
  edge->x0 = larger (first->at.x, LEAST_X_M);
  edge->x1 = larger (last->at.x, LEAST_X_M);
  edge->q0 = 1 / edge->x0;
  edge->rise = (1 / edge->x1 - edge->q0) / (edge->s1 - edge->s0);
}

void
fan_add_edges (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, double low, double high)
{
  for (size_t r = 0; r < area->n_rings; r++)
    {
      size_t first = area->ring_starts[r], end = area->ring_starts[r + 1];
      if (first == end)
        continue;
      FanCorner p = corner_at (area->points[end - 1], origin, along, low, high);
      for (size_t i = first; i < end; i++)
        {
          FanCorner q = corner_at (area->points[i], origin, along, low, high);
          add_edge (fan, &p, &q, low, high);
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
  guint n = (guint)fan->n_edges;
  FanStart *starts = fan->starts, *spare = fan->spare;
  for (guint i = 0; i < n; i++)
    starts[i] = (FanStart){ fan->edges[i].s0, i };
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
