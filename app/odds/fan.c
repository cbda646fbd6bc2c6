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

/* Room for all the edges there are in the lists of them. */
static void
grow_lists (Fan *fan)
{
  if (fan->list_room >= fan->n_edges)
    return;
  fan->list_room = fan->edge_room;
  fan->active = g_renew (FanEdge *, fan->active, fan->list_room);
  fan->starts = g_renew (FanStart, fan->starts, fan->list_room);
  fan->spare = g_renew (FanStart, fan->spare, fan->list_room);
}

/* Room for so many pieces. */
static void
grow_pieces (Fan *fan, size_t n_most)
{
  fan->piece_room = n_most;
  fan->pieces = g_renew (FanPiece, fan->pieces, n_most);
}

void
fan_clear (Fan *fan)
{
  g_free (fan->edges);
  g_free (fan->active);
  g_free (fan->starts);
  g_free (fan->spare);
  g_free (fan->pieces);
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

/* Far edges first, judged in the middle of the step. Nearly sorted from one step to the next, which an insertion sort likes. */
static void
sort_active (Fan *fan, double to)
{
  FanEdge **edges = fan->active;
  for (size_t i = 0; i < fan->n_active; i++)
    {
      FanEdge *edge = edges[i];
      edge->q_to = edge_q (edge, to);
      size_t j = i;
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
  FanEdge *const *edges = fan->active;
  for (size_t i = 1; i < fan->n_active; i++)
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
  return &fan->pieces[i];
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

/* The next piece, beyond those there are. `near` is NULL for one that reaches to the fan's point. */
static FanPiece *
next_piece (Fan *fan, double s0, double s1, const FanEdge *near, const FanEdge *far)
{
  if (fan->n_pieces == fan->piece_room)
    grow_pieces (fan, MAX (64, 2 * fan->piece_room));
  FanPiece *p = &fan->pieces[fan->n_pieces];
  *p = (FanPiece){ .s0 = s0, .s1 = s1, .parent = fan->n_pieces };
  p->far0_m = edge_x (far, s0, far->q_from);
  p->far1_m = edge_x (far, s1, far->q_to);
  p->farthest2 = larger (squared_length (p->far0_m, s0), squared_length (p->far1_m, s1));
  if (near != NULL)
    {
      p->near0_m = edge_x (near, s0, near->q_from);
      p->near1_m = edge_x (near, s1, near->q_to);
      p->nearest2 = nearest_squared (p, near);
    }
  return p;
}

/* A piece without depth is none, and one that begins where the one behind it ends is grown out of that one. */
static void
add_or_grow_piece (Fan *fan, size_t first, double s0, double s1, const FanEdge *near, const FanEdge *far)
{
  const FanPiece *added = next_piece (fan, s0, s1, near, far);
  if (added->far0_m - added->near0_m <= TOUCH_M && added->far1_m - added->near1_m <= TOUCH_M)
    return;
  FanPiece *behind = fan->n_pieces > first ? piece (fan, fan->n_pieces - 1) : NULL;
  if (behind == NULL || behind->near0_m - added->far0_m > TOUCH_M || behind->near1_m - added->far1_m > TOUCH_M)
    {
      fan->n_pieces++;
      return;
    }
  behind->near0_m = added->near0_m;
  behind->near1_m = added->near1_m;
  behind->nearest2 = smaller (behind->nearest2, added->nearest2);
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
  size_t first = fan->n_pieces;
  int winding = 0;
  const FanEdge *far = NULL;
  for (size_t i = 0; i < fan->n_active; i++)
    {
      const FanEdge *edge = fan->active[i];
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
  size_t i = first, j = middle, end = fan->n_pieces;
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
      for (size_t i = 0; i < fan->n_active; i++)
        fan->active[i]->q_from = edge_q (fan->active[i], from);
      double end = to, crossing;
      sort_active (fan, end);
      while ((crossing = first_crossing (fan, from, end)) < end && !is_too_tangled (fan))
        {
          end = crossing;
          sort_active (fan, end);
        }
      size_t first = fan->n_pieces;
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
  FanEdge **edges = fan->active;
  size_t kept = 0;
  for (size_t i = 0; i < fan->n_active; i++)
    if (edges[i]->s1 > from)
      edges[kept++] = edges[i];
  for (; *next < fan->n_edges && starts[*next].s0 <= from; (*next)++)
    edges[kept++] = &fan->edges[starts[*next].edge];
  fan->n_active = kept;
  if (*next < fan->n_edges)
    to = smaller (to, starts[*next].s0);
  for (size_t i = 0; i < kept; i++)
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
  FanPiece all = { .near0_m = INFINITY, .nearest2 = INFINITY };
  for (size_t i = 0; i < fan->n_edges; i++)
    {
      const FanEdge *edge = &fan->edges[i];
      FanPiece p = { .s0 = edge->s0, .s1 = edge->s1, .near0_m = edge->x0, .near1_m = edge->x1 };
      all.near0_m = smaller (all.near0_m, smaller (edge->x0, edge->x1));
      all.far0_m = larger (all.far0_m, larger (edge->x0, edge->x1));
      all.nearest2 = smaller (all.nearest2, nearest_squared (&p, edge));
      all.farthest2 = larger (all.farthest2, larger (squared_length (edge->x0, edge->s0), squared_length (edge->x1, edge->s1)));
    }
  all.near1_m = all.near0_m;
  all.far1_m = all.far0_m;
  fan->n_pieces = 0;
  if (fan->piece_room < n_slopes)
    grow_pieces (fan, n_slopes);
  for (size_t k = 0; k + 1 < n_slopes; k++)
    {
      all.s0 = slopes[k];
      all.s1 = slopes[k + 1];
      fan->pieces[fan->n_pieces++] = all;
    }
}

void
fan_cut (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, const double *slopes, size_t n_slopes)
{
  fan->n_edges = fan->n_active = fan->n_pieces = 0;
  double low = slopes[0], high = slopes[n_slopes - 1];
  if (!(low < high))
    return;
  fan_add_edges (fan, area, origin, along, low, high);
  grow_lists (fan);
  fan->work = 0;
  if (fan->n_edges > 0)
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
