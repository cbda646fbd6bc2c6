// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a ray has in common with an area. The ray is shifted by nothing at all to its left, then to its right: vertices on it
 * count as lying on its right, then on its left. Each shifted ray meets no vertex, so its crossings and their
 * winding numbers are plain; the union of both is what the ray has in common with the closed area, edges run along included.
 */
#include "geometry-private.h"

#include <float.h>

/* A vertex nearer to the ray than this is on it, a stretch shorter is a touch; far above rounding, far below any survey. */
#define TOUCH_M 1e-9
/* Beyond some 1e6 m a nanometre is less than rounding: this much of the coordinates then, a few units in the last place. */
#define TOUCH_SHARE (8 * DBL_EPSILON)

typedef struct
{
  double at_m;
  int turn; /* change of the winding number going outwards */
} Crossing;

typedef struct
{
  Crossing *items;
  size_t n_items, capacity;
} CrossingList;

/* The outline's vertices as seen along the ray: x outwards, y to the left; y of vertices on the ray is 0. */
static Vec2 *
points_along (const Outline *outline, Vec2 origin, Vec2 direction)
{
  Vec2 *along = geometry_resize (NULL, outline->n_points, sizeof *along);
  double reach = 0;
  for (size_t i = 0; i < outline->n_points; i++)
    {
      Vec2 from_origin = vec2_sub (outline->points[i], origin);
      along[i] = vec2 (vec2_dot (direction, from_origin), vec2_cross (direction, from_origin));
      reach = fmax (reach, fmax (fabs (from_origin.x), fabs (from_origin.y)));
    }
  double touch = fmax (TOUCH_M, TOUCH_SHARE * reach);
  for (size_t i = 0; i < outline->n_points; i++)
    if (fabs (along[i].y) <= touch)
      along[i].y = 0;
  return along;
}

/* The edge a-b against the ray shifted to its left (vertices on it are right of it) or to its right. */
static void
add_crossing (CrossingList *list, Vec2 a, Vec2 b, bool shifted_left)
{
  bool a_is_left = shifted_left ? a.y > 0 : a.y >= 0;
  bool b_is_left = shifted_left ? b.y > 0 : b.y >= 0;
  if (a_is_left == b_is_left)
    return;
  double t = a.y / (a.y - b.y);
  double at = a.y == 0 ? a.x : b.y == 0 ? b.x : a.x + (b.x - a.x) * t;
  at = fmin (fmax (at, fmin (a.x, b.x)), fmax (a.x, b.x));
  list->items = geometry_make_room (list->items, list->n_items, &list->capacity, sizeof *list->items);
  /* Crossing an edge that goes from right to left, a traveller leaves its left side, where the winding is one more. */
  list->items[list->n_items++] = (Crossing){ at, b_is_left ? -1 : 1 };
}

static int
compare_crossings (const void *pa, const void *pb)
{
  const Crossing *a = pa, *b = pb;
  return (a->at_m > b->at_m) - (a->at_m < b->at_m);
}

static void
add_interval (IntervalList *list, double enter_m, double leave_m)
{
  list->items = geometry_make_room (list->items, list->n_items, &list->capacity, sizeof *list->items);
  list->items[list->n_items++] = (Interval){ enter_m, leave_m };
}

/* Appends the stretches inside, cut to 0..length_m, that one shifted ray has. */
static void
add_stretches (const Outline *outline, const Vec2 *along, double length_m, bool shifted_left, CrossingList *crossings,
               IntervalList *list)
{
  crossings->n_items = 0;
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t start = outline->ring_starts[r], end = outline->ring_starts[r + 1];
      for (size_t i = start, before = end - 1; i < end; before = i++)
        add_crossing (crossings, along[before], along[i], shifted_left);
    }
  if (crossings->n_items == 0)
    return;
  qsort (crossings->items, crossings->n_items, sizeof *crossings->items, compare_crossings);
  int winding = 0;
  for (size_t i = 0; i + 1 < crossings->n_items; i++)
    {
      winding += crossings->items[i].turn;
      double enter = fmax (0, crossings->items[i].at_m), leave = fmin (length_m, crossings->items[i + 1].at_m);
      if (winding_is_inside (outline->even_odd, winding) && enter < leave)
        add_interval (list, enter, leave);
    }
}

static int
compare_intervals (const void *pa, const void *pb)
{
  const Interval *a = pa, *b = pb;
  return (a->enter_m > b->enter_m) - (a->enter_m < b->enter_m);
}

/* Sorts, joins what overlaps or touches, and drops what is but a touch. */
static void
join_intervals (IntervalList *list, double touch_m)
{
  if (list->n_items == 0)
    return;
  qsort (list->items, list->n_items, sizeof *list->items, compare_intervals);
  size_t n = 0;
  for (size_t i = 1; i < list->n_items; i++)
    if (list->items[i].enter_m <= list->items[n].leave_m + touch_m)
      list->items[n].leave_m = fmax (list->items[n].leave_m, list->items[i].leave_m);
    else
      list->items[++n] = list->items[i];
  size_t kept = 0;
  for (size_t i = 0; i <= n; i++)
    if (list->items[i].leave_m - list->items[i].enter_m > touch_m)
      list->items[kept++] = list->items[i];
  list->n_items = kept;
}

void
interval_list_clear (IntervalList *list)
{
  free (list->items);
  *list = (IntervalList){ 0 };
}

void
outline_crossings (const Outline *outline, Vec2 origin, Vec2 direction, double length_m, IntervalList *list)
{
  list->n_items = 0;
  if (!vec2_is_finite (origin) || !vec2_is_finite (direction) || !(length_m > 0) || outline->n_points == 0)
    return;
  if (direction.x == 0 && direction.y == 0)
    return;
  Vec2 *along = points_along (outline, origin, direction);
  CrossingList crossings = { 0 };
  add_stretches (outline, along, length_m, true, &crossings, list);
  add_stretches (outline, along, length_m, false, &crossings, list);
  join_intervals (list, TOUCH_M);
  free (crossings.items);
  free (along);
}
