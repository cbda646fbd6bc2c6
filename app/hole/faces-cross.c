// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where edges cross: pairs whose boxes overlap are found along the drawing's longer axis, and told to cross by the sides on which their ends lie.
 */
#include "faces-private.h"

#include <math.h>
#include <stdlib.h>

/* An edge's extent along the axis that is gone along, and across it. */
typedef struct
{
  int64_t low, high, across_low, across_high;
  uint32_t corner;
} Span;

typedef struct
{
  Layout *layout;
  Span *spans; /* by bin */
  size_t n_spans, n_looks;
  uint32_t *starts; /* of bins among the spans, and their end */
  size_t n_bins;
  int64_t low;
  double bins_per_unit;
  GArray *meetings;
} Crosser;

static Span
span_of (const Layout *layout, uint32_t corner, bool is_along_x)
{
  Spot a = layout->spots[corner], b = layout->spots[layout->next[corner]];
  Span x = { MIN (a.x, b.x), MAX (a.x, b.x), MIN (a.y, b.y), MAX (a.y, b.y), corner };
  return is_along_x ? x : (Span){ x.across_low, x.across_high, x.low, x.high, corner };
}

static size_t
bin_of (const Crosser *crosser, int64_t at)
{
  size_t bin = (size_t)((double)(at - crosser->low) * crosser->bins_per_unit);
  return MIN (bin, crosser->n_bins - 1);
}

/* Counts spans into bins by their low ends, as many bins as spans. */
static void
lay_out_spans (Crosser *crosser)
{
  const Layout *layout = crosser->layout;
  size_t n = layout->n_corners;
  int64_t low_x = INT64_MAX, high_x = INT64_MIN, low_y = INT64_MAX, high_y = INT64_MIN;
  for (size_t i = 0; i < n; i++)
    {
      Spot spot = layout->spots[i];
      low_x = MIN (low_x, spot.x);
      high_x = MAX (high_x, spot.x);
      low_y = MIN (low_y, spot.y);
      high_y = MAX (high_y, spot.y);
    }
  bool is_along_x = n > 0 && high_x - low_x > high_y - low_y;
  int64_t extent = n == 0 ? 1 : is_along_x ? high_x - low_x : high_y - low_y;
  crosser->n_bins = n + 1;
  crosser->low = is_along_x ? low_x : low_y;
  crosser->bins_per_unit = (double)crosser->n_bins / (double)MAX (extent, 1);
  crosser->starts = g_new0 (uint32_t, crosser->n_bins + 2);
  crosser->spans = g_new (Span, n + 1);
  crosser->n_spans = n;
  for (size_t i = 0; i < n; i++)
    crosser->starts[bin_of (crosser, span_of (layout, (uint32_t)i, is_along_x).low) + 2]++;
  for (size_t bin = 2; bin < crosser->n_bins + 2; bin++)
    crosser->starts[bin] += crosser->starts[bin - 1];
  for (size_t i = 0; i < n; i++)
    {
      Span span = span_of (layout, (uint32_t)i, is_along_x);
      crosser->spans[crosser->starts[bin_of (crosser, span.low) + 1]++] = span;
    }
}

/* ---- one pair ---- */

/* Twice the area of a triangle, as a number: what counts is its share of another. */
static double
off_line (const Layout *layout, uint32_t edge, uint32_t corner)
{
  Spot a = layout->spots[edge], b = layout->spots[layout->next[edge]], p = layout->spots[corner];
  return (double)((long double)(b.x - a.x) * (long double)(p.y - a.y) - (long double)(b.y - a.y) * (long double)(p.x - a.x));
}

/* Place along an edge where it crosses the line of another, 0..1. */
static double
share_along (const Layout *layout, uint32_t edge, uint32_t line)
{
  double from = fabs (off_line (layout, line, edge)), to = fabs (off_line (layout, line, layout->next[edge]));
  return from + to > 0 ? from / (from + to) : 0.5;
}

/* Where two edges cross: at a corner of either when that lies on the other, so that all who meet there name one place. */
static Vec2
crossing_of (const Layout *layout, uint32_t e, uint32_t f)
{
  double t = share_along (layout, e, f), u = share_along (layout, f, e);
  uint32_t e_end = layout->next[e], f_end = layout->next[f];
  if (t == 0 || t == 1)
    return layout->places[t == 0 ? e : e_end];
  if (u == 0 || u == 1)
    return layout->places[u == 0 ? f : f_end];
  return vec2_lerp (layout->places[e], layout->places[e_end], t);
}

static void
add_meeting (Crosser *crosser, uint32_t edge, uint32_t other, int step, Vec2 at)
{
  Meeting meeting = { edge, other, step, share_along (crosser->layout, edge, other), at };
  g_array_append_val (crosser->meetings, meeting);
}

/* Edges of two areas. */
static void
cross (Crosser *crosser, uint32_t e, uint32_t f)
{
  const Layout *layout = crosser->layout;
  uint32_t e_end = layout->next[e], f_end = layout->next[f];
  int e_to = layout_side (layout, f, e_end), f_to = layout_side (layout, e, f_end);
  if (layout_side (layout, f, e) == e_to || layout_side (layout, e, f) == f_to)
    return;
  Vec2 at = crossing_of (layout, e, f);
  add_meeting (crosser, e, f, e_to, at);
  add_meeting (crosser, f, e, f_to, at);
}

static bool
is_on_box (Spot a, Spot b, Spot p)
{
  return p.x >= MIN (a.x, b.x) && p.x <= MAX (a.x, b.x) && p.y >= MIN (a.y, b.y) && p.y <= MAX (a.y, b.y);
}

/* Do edges of one area meet elsewhere than where the one ends and the other goes on? */
static bool
meet (const Layout *layout, uint32_t e, uint32_t f)
{
  uint32_t e_end = layout->next[e], f_end = layout->next[f];
  Spot a = layout->spots[e], b = layout->spots[e_end], c = layout->spots[f], d = layout->spots[f_end];
  if (e_end == f || f_end == e)
    {
      /* Only one that turns back along the other meets it. */
      uint32_t before = e_end == f ? e : f, after = e_end == f ? f_end : e_end;
      Spot corner = e_end == f ? b : a, from = layout->spots[before], to = layout->spots[after];
      Vec2 in = vec2 ((double)(corner.x - from.x), (double)(corner.y - from.y)),
           out = vec2 ((double)(to.x - corner.x), (double)(to.y - corner.y));
      return vec2_dot (in, out) < 0 && layout_turn (from, corner, to) == 0;
    }
  int e_from = layout_turn (c, d, a), e_to = layout_turn (c, d, b), f_from = layout_turn (a, b, c),
      f_to = layout_turn (a, b, d);
  if (e_from * e_to < 0 && f_from * f_to < 0)
    return true;
  return (e_from == 0 && is_on_box (c, d, a)) || (e_to == 0 && is_on_box (c, d, b)) || (f_from == 0 && is_on_box (a, b, c))
         || (f_to == 0 && is_on_box (a, b, d));
}

/* All asked at once: which of it parts two boxes no processor could foresee. */
static inline bool
are_apart (const Span *one, const Span *other)
{
  return (other->low > one->high) | (one->low > other->high) | (other->across_low > one->across_high)
         | (one->across_low > other->across_high);
}

static void
look_at_pair (Crosser *crosser, const Span *one, const Span *other)
{
  Layout *layout = crosser->layout;
  uint32_t shape = layout->shape_of[one->corner];
  if (layout->shape_of[other->corner] != shape)
    cross (crosser, one->corner, other->corner);
  else if (layout->shapes[shape].is_raw && !layout->shapes[shape].is_tangled && meet (layout, one->corner, other->corner))
    layout->shapes[shape].is_tangled = true;
}

/* ---- all of them ---- */

static int
compare_meetings (const void *a, const void *b)
{
  const Meeting *one = a, *other = b;
  if (one->corner != other->corner)
    return one->corner < other->corner ? -1 : 1;
  return (one->t > other->t) - (one->t < other->t);
}

/* All pairs with this span of which it is the first; false when there were too many. */
static bool
look_from (Crosser *crosser, size_t i)
{
  const Span span = crosser->spans[i], *spans = crosser->spans;
  size_t end = crosser->starts[bin_of (crosser, span.high) + 1];
  crosser->n_looks += end - i;
  for (size_t j = i + 1; j < end; j++)
    if (!are_apart (&span, &spans[j]))
      look_at_pair (crosser, &span, &spans[j]);
  return crosser->n_looks <= MOST_LOOKS && crosser->meetings->len <= MOST_CROSSINGS;
}

GArray *
layout_meetings (Layout *layout, GError **error)
{
  Crosser crosser = { .layout = layout, .meetings = g_array_new (FALSE, FALSE, sizeof (Meeting)) };
  lay_out_spans (&crosser);
  size_t i = 0;
  while (i < crosser.n_spans && look_from (&crosser, i))
    i++;
  if (i < crosser.n_spans)
    {
      cutter_refuse (error, layout->shapes[layout->shape_of[crosser.spans[i].corner]].part,
                     "too many areas lie over each other there; unite those of a kind before asking for chances");
      g_clear_pointer (&crosser.meetings, g_array_unref);
    }
  else
    g_array_sort (crosser.meetings, compare_meetings);
  g_free (crosser.spans);
  g_free (crosser.starts);
  return crosser.meetings;
}
