// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Cutting an area with a fan: from each slope where an edge begins or ends to the next such slope the edges in between are taken in
 * order from far to near, counting windings. Edges that cross split the step where they do.
 */
#include "fan-edges-private.h"

#include <math.h>

/* Overlaps and gaps shorter than this are rounding. */
#define TOUCH_M 1e-9
/* A crossing this near the end of a step, as a share of it, is the end itself. */
#define STEP_SHARE 1e-9

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
  GArray *arrays[] = { fan->edges, fan->active, fan->starts, fan->spare, fan->pieces };
  for (size_t i = 0; i < G_N_ELEMENTS (arrays); i++)
    if (arrays[i] != NULL)
      g_array_unref (arrays[i]);
  *fan = (Fan){ 0 };
}

static inline bool
is_too_tangled (const Fan *fan)
{
  return fan->work > FAN_MOST_WORK;
}

/* 1 / x where the ray of slope s meets the edge. */
static inline double
edge_q (const FanEdge *edge, double s)
{
  return edge->q0 + (smaller (s, edge->s1) - edge->s0) * edge->rise;
}

/* x there, to the last bit at its ends. */
static inline double
edge_x (const FanEdge *edge, double s, double q)
{
  return s <= edge->s0 ? edge->x0 : s >= edge->s1 ? edge->x1 : 1 / q;
}

static inline FanEdge **
active_edges (const Fan *fan)
{
  return (FanEdge **)(void *)fan->active->data;
}

/* Far edges first, judged in the middle of the step. Nearly sorted from one step to the next, which an insertion sort likes. */
static void
sort_active (Fan *fan, double to)
{
  FanEdge **edges = active_edges (fan);
  for (guint i = 0; i < fan->active->len; i++)
    {
      FanEdge *edge = edges[i];
      edge->q_to = edge_q (edge, to);
      guint j = i;
      for (; j > 0 && edges[j - 1]->q_from + edges[j - 1]->q_to > edge->q_from + edge->q_to; j--)
        edges[j] = edges[j - 1];
      edges[j] = edge;
      fan->work += 1 + i - j;
      if (is_too_tangled (fan))
        return;
    }
}

/* First slope inside `from`..`to` at which two neighbours of the order change places, `to` if none do. */
static double
first_crossing (const Fan *fan, double from, double to)
{
  double first = to;
  FanEdge *const *edges = active_edges (fan);
  for (guint i = 1; i < fan->active->len; i++)
    {
      const FanEdge *far = edges[i - 1], *near = edges[i];
      double at_from = near->q_from - far->q_from, at_to = near->q_to - far->q_to;
      if (at_from >= 0 && at_to >= 0)
        continue;
      double t = at_from / (at_from - at_to);
      if (t > STEP_SHARE && t < 1 - STEP_SHARE)
        first = smaller (first, from + t * (to - from));
    }
  return first;
}

static FanPiece *
piece (Fan *fan, size_t i)
{
  return &g_array_index (fan->pieces, FanPiece, i);
}

/* Square of the distance from the fan's point to where the ray of slope s has this x. */
static inline double
squared_length (double x, double s)
{
  return x * x * (1 + s * s);
}

/* Square of the distance of a near edge: to one of its ends, or to the foot of the perpendicular when that lies between them. */
static double
nearest_squared (const FanPiece *p, const FanEdge *near)
{
  double squared = smaller (squared_length (p->near0_m, p->s0), squared_length (p->near1_m, p->s1));
  double foot = -near->d.x / near->d.y; /* its slope; infinite for an edge along the axis */
  if (!(foot > p->s0 && foot < p->s1))
    return squared;
  double cross = vec2_cross (near->p, near->d);
  return smaller (squared, cross * cross / vec2_dot (near->d, near->d));
}

/* `near` is NULL for a piece that reaches to the fan's point. */
static void
add_piece (Fan *fan, double s0, double s1, const FanEdge *near, const FanEdge *far)
{
  FanPiece p = { .s0 = s0, .s1 = s1, .parent = fan->pieces->len };
  p.far0_m = edge_x (far, s0, far->q_from);
  p.far1_m = edge_x (far, s1, far->q_to);
  p.farthest_m = sqrt (larger (squared_length (p.far0_m, s0), squared_length (p.far1_m, s1)));
  if (near != NULL)
    {
      p.near0_m = edge_x (near, s0, near->q_from);
      p.near1_m = edge_x (near, s1, near->q_to);
      p.nearest_m = sqrt (nearest_squared (&p, near));
    }
  g_array_append_val (fan->pieces, p);
}

/* The same, but a piece without depth is none, and one that begins where the one behind it ends is grown out of that one. */
static void
add_or_grow_piece (Fan *fan, size_t first, double s0, double s1, const FanEdge *near, const FanEdge *far)
{
  add_piece (fan, s0, s1, near, far);
  size_t n = fan->pieces->len;
  FanPiece *added = piece (fan, n - 1), *behind = n - first < 2 ? NULL : added - 1;
  if (added->far0_m - added->near0_m <= TOUCH_M && added->far1_m - added->near1_m <= TOUCH_M)
    {
      g_array_set_size (fan->pieces, (guint)n - 1);
      return;
    }
  if (behind == NULL || behind->near0_m - added->far0_m > TOUCH_M || behind->near1_m - added->far1_m > TOUCH_M)
    return;
  behind->near0_m = added->near0_m;
  behind->near1_m = added->near1_m;
  behind->nearest_m = smaller (behind->nearest_m, added->nearest_m);
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
      const FanEdge *edge = active_edges (fan)[i];
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
      if (smaller (before->far1_m, after->far0_m) - larger (before->near1_m, after->near0_m) > TOUCH_M)
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
  while (from < to && !is_too_tangled (fan))
    {
      for (guint i = 0; i < fan->active->len; i++)
        active_edges (fan)[i]->q_from = edge_q (active_edges (fan)[i], from);
      double end = to, crossing;
      sort_active (fan, end);
      while ((crossing = first_crossing (fan, from, end)) < end && !is_too_tangled (fan))
        {
          end = crossing;
          sort_active (fan, end);
        }
      size_t first = fan->pieces->len;
      add_step (fan, from, end, even_odd);
      join_steps (fan, *last, first);
      *last = first;
      from = end;
    }
}

/* Drops the edges that end at `from`, takes in those that begin there, and returns the next slope at which either happens, or `to`. */
static double
step_to (Fan *fan, const FanStart *starts, guint *next, double from, double to)
{
  FanEdge **edges = active_edges (fan);
  guint kept = 0;
  for (guint i = 0; i < fan->active->len; i++)
    if (edges[i]->s1 > from)
      edges[kept++] = edges[i];
  g_array_set_size (fan->active, kept);
  for (; *next < fan->edges->len && starts[*next].s0 <= from; (*next)++)
    {
      FanEdge *edge = &g_array_index (fan->edges, FanEdge, starts[*next].edge);
      g_array_append_val (fan->active, edge);
    }
  if (*next < fan->edges->len)
    to = smaller (to, starts[*next].s0);
  edges = active_edges (fan);
  for (guint i = 0; i < fan->active->len; i++)
    to = smaller (to, edges[i]->s1);
  return to;
}

/* `slopes` as in fan_cut: no step goes across one of them. */
static void
sweep (Fan *fan, const double *slopes, size_t n_slopes, bool even_odd)
{
  const FanStart *starts = fan_sorted_starts (fan);
  size_t last = 0;
  guint next = 0;
  double from = slopes[0];
  for (size_t k = 1; k < n_slopes; k++)
    while (from < slopes[k] && !is_too_tangled (fan))
      {
        double to = step_to (fan, starts, &next, from, slopes[k]);
        sweep_step (fan, from, to, even_odd, &last);
        from = to;
      }
}

/* One piece between each two slopes, from the nearest point of all edges to the farthest. */
static void
cover_all (Fan *fan, const double *slopes, size_t n_slopes)
{
  FanPiece all = { .near0_m = INFINITY, .nearest_m = INFINITY };
  for (guint i = 0; i < fan->edges->len; i++)
    {
      const FanEdge *edge = &g_array_index (fan->edges, FanEdge, i);
      FanPiece p = { .s0 = edge->s0, .s1 = edge->s1, .near0_m = edge->x0, .near1_m = edge->x1 };
      all.near0_m = smaller (all.near0_m, smaller (edge->x0, edge->x1));
      all.far0_m = larger (all.far0_m, larger (edge->x0, edge->x1));
      all.nearest_m = smaller (all.nearest_m, sqrt (nearest_squared (&p, edge)));
      all.farthest_m
          = larger (all.farthest_m, sqrt (larger (squared_length (edge->x0, edge->s0), squared_length (edge->x1, edge->s1))));
    }
  all.near1_m = all.near0_m;
  all.far1_m = all.far0_m;
  g_array_set_size (fan->pieces, 0);
  for (size_t k = 0; k + 1 < n_slopes; k++)
    {
      all.s0 = slopes[k];
      all.s1 = slopes[k + 1];
      g_array_append_val (fan->pieces, all);
    }
}

void
fan_cut (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, const double *slopes, size_t n_slopes)
{
  fan->edges = emptied (fan->edges, sizeof (FanEdge));
  fan->active = emptied (fan->active, sizeof (FanEdge *));
  fan->starts = emptied (fan->starts, sizeof (FanStart));
  fan->spare = emptied (fan->spare, sizeof (FanStart));
  fan->pieces = emptied (fan->pieces, sizeof (FanPiece));
  double low = slopes[0], high = slopes[n_slopes - 1];
  if (!(low < high))
    return;
  fan_add_edges (fan, area, origin, along, low, high);
  fan->work = 0;
  if (fan->edges->len > 0)
    sweep (fan, slopes, n_slopes, area->even_odd);
  if (is_too_tangled (fan))
    cover_all (fan, slopes, n_slopes);
}

void
fan_join (Fan *fan, size_t i, size_t j)
{
  size_t a = fan_group (fan, i), b = fan_group (fan, j), first = MIN (a, b);
  piece (fan, MAX (a, b))->parent = first;
  piece (fan, i)->parent = piece (fan, j)->parent = first; /* keeps the way to the group's number short */
}
