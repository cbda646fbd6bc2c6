// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The cutting of faces. Every ring is gone along once, with the areas that lie over and under it counted from crossing to crossing. A piece of a ring over which nothing lies
 * is seen: it has its own area on one side, and on the other the topmost one under it. An area's face lies between all pieces that have it on a side.
 */
#include "faces-private.h"

#include <stdlib.h>

/* Less is no ring but two edges that nearly coincide. */
#define SPECK_M2 1e-9
#define NONE -1

static bool
is_same (Vec2 a, Vec2 b)
{
  return a.x == b.x && a.y == b.y;
}

/* A seen piece of a ring as a side of a face: its places, gone along so that the face is on the left. */
typedef struct
{
  int face;
  size_t first, n_places;
  bool is_backward, is_closed, is_used;
} Side;

typedef struct
{
  const Layout *layout;
  const bool *is_wanted; /* by shape */
  const Meeting *meetings;
  size_t n_meetings;
  size_t *first_meeting; /* by corner, and their end */
  /* Along the ring in hand: */
  uint32_t shape;
  size_t *near; /* shapes whose boxes meet its own, from below */
  size_t n_near;
  int *cover; /* by shape: above 0 where it lies over or under the place */
  size_t n_over;
  GArray *places; /* Vec2 */
  GArray *sides;  /* Side */
} Walker;

/* ---- along one ring ---- */

static void
find_near (Walker *walker)
{
  const Layout *layout = walker->layout;
  walker->n_near = 0;
  for (size_t s = 0; s < layout->n_shapes; s++)
    if (s != walker->shape && box_overlaps (layout->shapes[s].box, layout->shapes[walker->shape].box))
      walker->near[walker->n_near++] = s;
}

static void
find_cover (Walker *walker, uint32_t corner)
{
  const Layout *layout = walker->layout;
  walker->n_over = 0;
  for (size_t i = 0; i < walker->n_near; i++)
    {
      size_t s = walker->near[i];
      Box box = layout->shapes[s].box;
      Vec2 at = layout->places[corner];
      bool is_near = at.x >= box.x0 && at.x <= box.x1 && at.y >= box.y0 && at.y <= box.y1;
      walker->cover[s] = is_near ? layout_cover (layout, s, corner) : 0;
      walker->n_over += s > walker->shape && walker->cover[s] > 0;
    }
}

static void
pass (Walker *walker, const Meeting *meeting)
{
  size_t other = walker->layout->shape_of[meeting->other];
  int *cover = &walker->cover[other];
  bool was_there = *cover > 0;
  *cover += meeting->step * walker->layout->inside[meeting->other];
  if (other > walker->shape)
    walker->n_over += (size_t)(*cover > 0) - (size_t)was_there;
}

static int
topmost_under (const Walker *walker)
{
  int top = NONE;
  for (size_t i = 0; i < walker->n_near && walker->near[i] < walker->shape; i++)
    if (walker->cover[walker->near[i]] > 0)
      top = (int)walker->near[i];
  return top;
}

static void
add_side (Walker *walker, int face, Side side)
{
  if (face == NONE || !walker->is_wanted[face])
    return;
  side.face = face;
  g_array_append_val (walker->sides, side);
}

/* The places since `first` are a piece that ends here; nothing is kept of one that is not seen, or has no length. */
static void
end_piece (Walker *walker, size_t first, bool is_left, bool is_closed)
{
  const Vec2 *places = &g_array_index (walker->places, Vec2, first);
  size_t n = walker->places->len - first, n_kept = walker->sides->len;
  bool has_length = false;
  for (size_t i = 1; i < n && !has_length; i++)
    has_length = !is_same (places[0], places[i]);
  if (walker->n_over == 0 && has_length)
    {
      add_side (walker, (int)walker->shape, (Side){ 0, first, n, !is_left, is_closed, false });
      add_side (walker, topmost_under (walker), (Side){ 0, first, n, is_left, is_closed, false });
    }
  if (walker->sides->len == n_kept)
    g_array_set_size (walker->places, (guint)first);
}

/* Goes once round from the first of its corners. The piece on which it begins is cut there, which does no harm. */
static void
walk_ring (Walker *walker, uint32_t start)
{
  const Layout *layout = walker->layout;
  bool is_left = layout->inside[start] > 0, is_whole = true;
  size_t first = walker->places->len;
  uint32_t corner = start;
  find_cover (walker, start);
  do
    {
      g_array_append_val (walker->places, layout->places[corner]);
      for (size_t i = walker->first_meeting[corner]; i < walker->first_meeting[corner + 1]; i++)
        {
          const Meeting *meeting = &walker->meetings[i];
          if (layout->inside[meeting->other] == 0)
            continue;
          is_whole = false;
          g_array_append_val (walker->places, meeting->at);
          end_piece (walker, first, is_left, false);
          first = walker->places->len;
          g_array_append_val (walker->places, meeting->at);
          pass (walker, meeting);
        }
      corner = layout->next[corner];
    }
  while (corner != start);
  if (!is_whole)
    g_array_append_val (walker->places, layout->places[start]);
  end_piece (walker, first, is_left, is_whole);
}

static void
walk_shape (Walker *walker, uint32_t number)
{
  const Layout *layout = walker->layout;
  const Shape *shape = &layout->shapes[number];
  walker->shape = number;
  find_near (walker);
  for (size_t i = shape->first; i < shape->first + shape->n_corners;)
    {
      size_t start = i;
      if (layout->inside[start] != 0)
        walk_ring (walker, (uint32_t)start);
      while (layout->next[i] > i)
        i++;
      i++;
    }
}

/* ---- putting together ---- */

static Vec2
place_of (const Walker *walker, const Side *side, size_t i)
{
  return g_array_index (walker->places, Vec2, side->first + (side->is_backward ? side->n_places - 1 - i : i));
}

/* A side by where it begins. */
typedef struct
{
  Vec2 at;
  Side *side;
} Start;

static int
compare_places (Vec2 a, Vec2 b)
{
  return a.x != b.x ? (a.x > b.x) - (a.x < b.x) : (a.y > b.y) - (a.y < b.y);
}

static int
compare_starts (const void *a, const void *b)
{
  return compare_places (((const Start *)a)->at, ((const Start *)b)->at);
}

static int
compare_sides (const void *a, const void *b)
{
  return ((const Side *)a)->face - ((const Side *)b)->face;
}

/* A side that goes on from a place. Where none begins at just that place, for three edges cross in nearly one, the nearest, if it is nearer than where the ring began. */
static Side *
find_next (const Start *starts, size_t n, Vec2 from, Vec2 begun)
{
  size_t low = 0, high = n;
  while (low < high)
    {
      size_t middle = (low + high) / 2;
      if (compare_places (starts[middle].at, from) < 0)
        low = middle + 1;
      else
        high = middle;
    }
  for (; low < n && is_same (starts[low].at, from); low++)
    if (!starts[low].side->is_used)
      return starts[low].side;
  double least_m = vec2_distance (begun, from);
  Side *nearest = NULL;
  for (size_t i = 0; i < n && least_m > 0; i++)
    if (!starts[i].side->is_used && vec2_distance (starts[i].at, from) < least_m)
      {
        least_m = vec2_distance (starts[i].at, from);
        nearest = starts[i].side;
      }
  return nearest;
}

static double
twice_area (const Vec2 *points, size_t n)
{
  double twice = 0;
  for (size_t i = 1; i + 1 < n; i++)
    twice += vec2_cross (vec2_sub (points[i], points[0]), vec2_sub (points[i + 1], points[0]));
  return twice;
}

/* Adds the ring that begins with a side to the rings in hand, unless it is no more than a speck. */
static void
add_ring (const Walker *walker, const Start *starts, size_t n, Side *side, GArray *points, GArray *sizes)
{
  size_t first = points->len;
  Vec2 begun = place_of (walker, side, 0), at = begun;
  while (side != NULL)
    {
      side->is_used = true;
      for (size_t i = 0; i < side->n_places; i++)
        {
          at = place_of (walker, side, i);
          if (points->len == first || !is_same (at, g_array_index (points, Vec2, points->len - 1)))
            g_array_append_val (points, at);
        }
      side = side->is_closed || is_same (at, begun) ? NULL : find_next (starts, n, at, begun);
    }
  size_t n_points = points->len - first;
  if (n_points > 1 && is_same (at, begun))
    n_points--;
  if (n_points < 3 || !(fabs (twice_area (&g_array_index (points, Vec2, first), n_points)) >= 2 * SPECK_M2))
    n_points = 0;
  g_array_set_size (points, (guint)(first + n_points));
  if (n_points > 0)
    g_array_append_val (sizes, n_points);
}

/* The face between these sides. */
static Outline *
make_face (const Walker *walker, Side *sides, size_t n)
{
  g_autofree Start *starts = g_new (Start, n + 1);
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (Vec2)), sizes = g_array_new (FALSE, FALSE, sizeof (size_t));
  size_t n_starts = 0;
  for (size_t i = 0; i < n; i++)
    if (!sides[i].is_closed)
      starts[n_starts++] = (Start){ place_of (walker, &sides[i], 0), &sides[i] };
  qsort (starts, n_starts, sizeof *starts, compare_starts);
  for (size_t i = 0; i < n; i++)
    if (!sides[i].is_used)
      add_ring (walker, starts, n_starts, &sides[i], points, sizes);
  return outline_new ((const Vec2 *)(const void *)points->data, (const size_t *)(const void *)sizes->data, sizes->len, false);
}

static void
make_faces (const Walker *walker, Outline **faces)
{
  g_array_sort (walker->sides, compare_sides);
  Side *sides = (Side *)(void *)walker->sides->data;
  size_t at = 0, n = walker->sides->len;
  for (size_t s = 0; s < walker->layout->n_shapes; s++)
    {
      size_t first = at;
      while (at < n && sides[at].face == (int)s)
        at++;
      if (walker->is_wanted[s])
        faces[s] = make_face (walker, sides + first, at - first);
    }
}

/* ---- all of it ---- */

static void
walk_all (const Layout *layout, const GArray *meetings, const bool *is_wanted, Outline **faces)
{
  Walker walker = { .layout = layout, .is_wanted = is_wanted, .meetings = (const Meeting *)(const void *)meetings->data };
  walker.n_meetings = meetings->len;
  walker.places = g_array_new (FALSE, FALSE, sizeof (Vec2));
  walker.sides = g_array_new (FALSE, FALSE, sizeof (Side));
  walker.near = g_new (size_t, layout->n_shapes + 1);
  walker.cover = g_new0 (int, layout->n_shapes + 1);
  walker.first_meeting = g_new (size_t, layout->n_corners + 1);
  for (size_t corner = 0, at = 0; corner <= layout->n_corners; corner++)
    {
      while (at < walker.n_meetings && walker.meetings[at].corner < corner)
        at++;
      walker.first_meeting[corner] = at;
    }
  for (size_t s = 0; s < layout->n_shapes; s++)
    walk_shape (&walker, (uint32_t)s);
  make_faces (&walker, faces);
  g_array_unref (walker.places);
  g_array_unref (walker.sides);
  g_free (walker.near);
  g_free (walker.cover);
  g_free (walker.first_meeting);
}

/* Replaces areas that meet themselves by what is inside of them; `*n_tangled` tells how many there were. */
static bool
untangle (const Layout *layout, Outline **outlines, size_t *n_tangled, GError **error)
{
  *n_tangled = 0;
  for (size_t s = 0; s < layout->n_shapes; s++)
    if (layout->shapes[s].is_tangled)
      {
        outlines[s] = faces_untangle (layout->shapes[s].part, error);
        if (outlines[s] == NULL)
          return false;
        ++*n_tangled;
      }
  return true;
}

static bool
cut (const Part *const *parts, Outline **outlines, size_t n, const bool *is_wanted, Outline **faces, GError **error)
{
  for (;;)
    {
      Layout *layout = layout_new (parts, (const Outline *const *)outlines, n);
      GArray *meetings = layout_meetings (layout, error);
      size_t n_tangled = 0;
      bool is_done = meetings != NULL && untangle (layout, outlines, &n_tangled, error);
      if (is_done && n_tangled == 0)
        {
          layout_orient (layout);
          walk_all (layout, meetings, is_wanted, faces);
        }
      g_clear_pointer (&meetings, g_array_unref);
      layout_free (layout);
      if (!is_done || n_tangled == 0)
        return is_done;
    }
}

/* Which areas take part: those wanted, and what comes near one of them from above. */
static size_t
find_needed (const Part *const *areas, size_t n_areas, const bool *is_wanted, size_t *needed)
{
  size_t n = 0;
  for (size_t k = 0; k < n_areas; k++)
    {
      bool is_needed = is_wanted[k];
      for (size_t j = 0; j < k && !is_needed; j++)
        is_needed = is_wanted[j] && box_overlaps (areas[j]->outline->bounds, areas[k]->outline->bounds);
      if (is_needed)
        needed[n++] = k;
    }
  return n;
}

bool
faces_cut (const Part *const *areas, size_t n_areas, const bool *is_wanted, Outline **faces, GError **error)
{
  g_autofree size_t *needed = g_new (size_t, n_areas + 1);
  size_t n = find_needed (areas, n_areas, is_wanted, needed);
  g_autofree const Part **parts = g_new (const Part *, n + 1);
  g_autofree bool *wanted = g_new (bool, n + 1);
  g_autofree Outline **outlines = g_new0 (Outline *, n + 1);
  g_autofree Outline **made = g_new0 (Outline *, n + 1);
  for (size_t i = 0; i < n; i++)
    {
      parts[i] = areas[needed[i]];
      wanted[i] = is_wanted[needed[i]];
    }
  bool is_done = cut (parts, outlines, n, wanted, made, error);
  for (size_t i = 0; i < n; i++)
    {
      if (wanted[i])
        faces[needed[i]] = made[i];
      outline_free (outlines[i]);
    }
  return is_done;
}
