// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Cutting an area with a fan: edges are clipped to the fan, the slopes of their ends sorted, and from each slope to the next the
 * edges in between are taken in order from far to near, counting windings. Edges that cross split the step where they do.
 */
#include "fan-private.h"

#include <math.h>

/* Overlaps and gaps shorter than this are rounding. */
#define TOUCH_M 1e-9
/* Edges nearer to the point of the fan count as this near, so that 1 / x stays finite. */
#define LEAST_X_M 1e-9
/* A crossing this near the end of a step, as a share of it, is the end itself. */
#define STEP_SHARE 1e-9

typedef struct
{
  double s0, s1;       /* slopes at its ends, s0 < s1 */
  double q0, q1;       /* 1 / x at its ends */
  int turn;            /* +1 when the outline runs towards s1, else -1 */
  double foot, foot_m; /* slope and length of the perpendicular from the fan's point on the edge's line */
  double at;           /* q at the slope in hand, for sorting */
} FanEdge;

/* An end of an edge: a corner of the outline, or where it enters the fan. */
typedef struct
{
  double x, s;
} FanEnd;

static GArray *
emptied (GArray *array, size_t size)
{
  if (array == NULL)
    return g_array_new (FALSE, FALSE, (guint)size);
  return g_array_set_size (array, 0);
}

void
fan_clear (Fan *fan)
{
  GArray *arrays[] = { fan->edges, fan->active, fan->slopes, fan->pieces };
  for (size_t i = 0; i < G_N_ELEMENTS (arrays); i++)
    if (arrays[i] != NULL)
      g_array_unref (arrays[i]);
  *fan = (Fan){ 0 };
}

/* ---- clipping ---- */

static double
clamped (double value, double low, double high)
{
  return value < low ? low : value > high ? high : value;
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
  double dx = q.x - p.x, dy = q.y - p.y;
  FanEdge edge = { .turn = a.s < b.s ? 1 : -1, .foot = dy != 0 ? -dx / dy : INFINITY };
  edge.foot_m = fabs (p.x * q.y - p.y * q.x) / hypot (dx, dy);
  if (edge.turn < 0)
    {
      FanEnd swap = a;
      a = b;
      b = swap;
    }
  edge.s0 = a.s;
  edge.s1 = b.s;
  edge.q0 = 1 / fmax (a.x, LEAST_X_M);
  edge.q1 = 1 / fmax (b.x, LEAST_X_M);
  g_array_append_val (fan->edges, edge);
  g_array_append_val (fan->slopes, edge.s0);
  g_array_append_val (fan->slopes, edge.s1);
}

static void
add_edges (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, double low, double high)
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

/* ---- the sweep ---- */

static double
edge_q (const FanEdge *edge, double s)
{
  if (s <= edge->s0)
    return edge->q0;
  if (s >= edge->s1)
    return edge->q1;
  return edge->q0 + (edge->q1 - edge->q0) * ((s - edge->s0) / (edge->s1 - edge->s0));
}

static FanEdge *
active_edge (Fan *fan, guint i)
{
  return &g_array_index (fan->active, FanEdge, i);
}

/* Far edges first. Nearly sorted from one step to the next, which an insertion sort likes. */
static void
sort_active (Fan *fan, double s)
{
  for (guint i = 0; i < fan->active->len; i++)
    {
      FanEdge edge = *active_edge (fan, i);
      edge.at = edge_q (&edge, s);
      guint j = i;
      for (; j > 0 && active_edge (fan, j - 1)->at > edge.at; j--)
        *active_edge (fan, j) = *active_edge (fan, j - 1);
      *active_edge (fan, j) = edge;
    }
}

/* First slope inside `from`..`to` at which two neighbours of the order change places, `to` if none do. */
static double
first_crossing (Fan *fan, double from, double to)
{
  double first = to;
  for (guint i = 1; i < fan->active->len; i++)
    {
      const FanEdge *far = active_edge (fan, i - 1), *near = active_edge (fan, i);
      double at_from = edge_q (near, from) - edge_q (far, from), at_to = edge_q (near, to) - edge_q (far, to);
      if (at_from >= 0 && at_to >= 0)
        continue;
      double t = at_from / (at_from - at_to);
      if (t > STEP_SHARE && t < 1 - STEP_SHARE)
        first = fmin (first, from + t * (to - from));
    }
  return first;
}

static FanPiece *
piece (Fan *fan, size_t i)
{
  return &g_array_index (fan->pieces, FanPiece, i);
}

/* Distance along the ray of slope s to the x where it meets the edge. */
static double
ray_length (double x, double s)
{
  return x * sqrt (1 + s * s);
}

/* `near` is NULL for a piece that reaches to the fan's point. */
static void
add_piece (Fan *fan, double s0, double s1, const FanEdge *near, const FanEdge *far)
{
  FanPiece p
      = { .s0 = s0, .s1 = s1, .far0_m = 1 / edge_q (far, s0), .far1_m = 1 / edge_q (far, s1), .parent = fan->pieces->len };
  p.farthest_m = fmax (ray_length (p.far0_m, s0), ray_length (p.far1_m, s1));
  if (near != NULL)
    {
      p.near0_m = 1 / edge_q (near, s0);
      p.near1_m = 1 / edge_q (near, s1);
      p.nearest_m = fmin (ray_length (p.near0_m, s0), ray_length (p.near1_m, s1));
      if (near->foot > s0 && near->foot < s1)
        p.nearest_m = fmin (p.nearest_m, near->foot_m);
    }
  g_array_append_val (fan->pieces, p);
}

/* The same, but a piece that begins where the one behind it ends is grown out of that one. */
static void
add_or_grow_piece (Fan *fan, size_t first, double s0, double s1, const FanEdge *near, const FanEdge *far)
{
  add_piece (fan, s0, s1, near, far);
  size_t n = fan->pieces->len;
  if (n - first < 2)
    return;
  FanPiece *behind = piece (fan, n - 2), *added = piece (fan, n - 1);
  if (behind->near0_m - added->far0_m > TOUCH_M || behind->near1_m - added->far1_m > TOUCH_M)
    return;
  behind->near0_m = added->near0_m;
  behind->near1_m = added->near1_m;
  behind->nearest_m = fmin (behind->nearest_m, added->nearest_m);
  g_array_set_size (fan->pieces, (guint)n - 1);
}

static bool
is_filled (int winding, bool even_odd)
{
  return even_odd ? winding % 2 != 0 : winding != 0;
}

/* The pieces of one step, far ones first. */
static void
add_step (Fan *fan, double s0, double s1, bool even_odd)
{
  size_t first = fan->pieces->len;
  int winding = 0;
  const FanEdge *far = NULL;
  for (guint i = 0; i < fan->active->len; i++)
    {
      const FanEdge *edge = active_edge (fan, i);
      bool was_filled = is_filled (winding, even_odd);
      winding += edge->turn;
      bool now_filled = is_filled (winding, even_odd);
      if (!was_filled && now_filled)
        far = edge;
      else if (was_filled && !now_filled)
        add_or_grow_piece (fan, first, s0, s1, edge, far);
    }
  if (is_filled (winding, even_odd))
    add_or_grow_piece (fan, first, s0, s1, NULL, far);
}

/* Joins the pieces from `middle` on with those of the step before, from `first`, that share some of the ray between them. */
static void
join_steps (Fan *fan, size_t first, size_t middle)
{
  size_t i = first, j = middle, end = fan->pieces->len;
  while (i < middle && j < end)
    {
      const FanPiece *before = piece (fan, i), *after = piece (fan, j);
      if (fmin (before->far1_m, after->far0_m) - fmax (before->near1_m, after->near0_m) > TOUCH_M)
        fan_join (fan, i, j);
      if (before->near1_m > after->near0_m)
        i++;
      else
        j++;
    }
}

/* From one corner's slope to the next, split where edges cross. `*last` is the first piece of the step before. */
static void
sweep_step (Fan *fan, double from, double to, bool even_odd, size_t *last)
{
  while (from < to)
    {
      double end = to, crossing;
      sort_active (fan, (from + end) / 2);
      while ((crossing = first_crossing (fan, from, end)) < end)
        {
          end = crossing;
          sort_active (fan, (from + end) / 2);
        }
      size_t first = fan->pieces->len;
      add_step (fan, from, end, even_odd);
      join_steps (fan, *last, first);
      *last = first;
      from = end;
    }
}

static gint
by_slope (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return x < y ? -1 : x > y ? 1 : 0;
}

/* Edges begin with their s0, so the same comparison sorts them. */
G_STATIC_ASSERT (G_STRUCT_OFFSET (FanEdge, s0) == 0);

static void
sweep (Fan *fan, bool even_odd)
{
  g_array_sort (fan->slopes, by_slope);
  g_array_sort (fan->edges, by_slope);
  size_t last = 0;
  guint next = 0;
  for (guint k = 0; k + 1 < fan->slopes->len; k++)
    {
      double from = g_array_index (fan->slopes, double, k), to = g_array_index (fan->slopes, double, k + 1);
      if (from == to)
        continue;
      guint kept = 0;
      for (guint i = 0; i < fan->active->len; i++)
        if (active_edge (fan, i)->s1 > from)
          *active_edge (fan, kept++) = *active_edge (fan, i);
      g_array_set_size (fan->active, kept);
      for (; next < fan->edges->len && g_array_index (fan->edges, FanEdge, next).s0 <= from; next++)
        g_array_append_val (fan->active, g_array_index (fan->edges, FanEdge, next));
      sweep_step (fan, from, to, even_odd, &last);
    }
}

void
fan_cut (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, const double *slopes, size_t n_slopes)
{
  fan->edges = emptied (fan->edges, sizeof (FanEdge));
  fan->active = emptied (fan->active, sizeof (FanEdge));
  fan->slopes = emptied (fan->slopes, sizeof (double));
  fan->pieces = emptied (fan->pieces, sizeof (FanPiece));
  double low = slopes[0], high = slopes[n_slopes - 1];
  if (!(low < high))
    return;
  add_edges (fan, area, origin, along, low, high);
  if (fan->edges->len == 0)
    return;
  g_array_append_vals (fan->slopes, slopes, (guint)n_slopes);
  sweep (fan, area->even_odd);
}

size_t
fan_n_pieces (const Fan *fan)
{
  return fan->pieces->len;
}

const FanPiece *
fan_piece (const Fan *fan, size_t i)
{
  return &g_array_index (fan->pieces, FanPiece, i);
}

size_t
fan_group (const Fan *fan, size_t i)
{
  while (fan_piece (fan, i)->parent != i)
    i = fan_piece (fan, i)->parent;
  return i;
}

void
fan_join (Fan *fan, size_t i, size_t j)
{
  size_t a = fan_group (fan, i), b = fan_group (fan, j);
  piece (fan, MAX (a, b))->parent = MIN (a, b);
}
