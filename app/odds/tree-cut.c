// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Cutting a canopy across the shot line into columns. Between the columns its edge is straight.
 */
#include "tree-private.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Columns stand no farther apart than this, nor nearer together. */
#define COLUMNS_EVERY_M 1.5
#define COLUMNS_APART_M 0.02
/* A corner of more than 15 degrees is one; less is a curve drawn with edges. */
#define SHARP_COSINE 0.966
/* A tree's disc is cut this often: its edge is off the circle by 0.1 % of its radius. */
#define DISC_COLUMNS 24

/* Is the track below such a top there, or a little over it, for any of the stretches? It rises and falls once. */
static bool
may_be_hit (const Track *track, double at_m, double top_m, Interval stretches)
{
  double low_m, high_m, side_m;
  track_at (track, at_m / stretches.leave_m, &side_m, &low_m);
  track_at (track, at_m / stretches.enter_m, &side_m, &high_m);
  return fmin (low_m, high_m) < top_m + COLUMNS_EVERY_M;
}

/* ---- cutting ---- */

static int
compare_places (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return x < y ? -1 : x > y ? 1 : 0;
}

static Vec2
in_line (const ShotLine *line, Vec2 at)
{
  Vec2 from = vec2_sub (at, line->ball);
  return vec2 (vec2_dot (line->along, from), vec2_cross (line->along, from));
}

/* An area's outline in the frame of the shot line, ring after ring. */
static Vec2 *
corners_in_line (const ShotLine *line, const Outline *outline)
{
  Vec2 *corners = g_new (Vec2, outline->n_points + 1);
  for (size_t i = 0; i < outline->n_points; i++)
    corners[i] = in_line (line, outline->points[i]);
  return corners;
}

/* Does the outline turn sharply at corner i of the ring from `first` to before `last`? */
static bool
is_sharp (const Vec2 *corners, size_t first, size_t last, size_t i)
{
  Vec2 before = vec2_sub (corners[i], corners[i > first ? i - 1 : last - 1]);
  Vec2 after = vec2_sub (corners[i + 1 < last ? i + 1 : first], corners[i]);
  double dot = vec2_dot (before, after);
  return dot <= 0 || dot * dot < SHARP_COSINE * SHARP_COSINE * vec2_dot (before, before) * vec2_dot (after, after);
}

/* Where to cut: at every sharp corner and at both ends, a hair to either side - an edge may run straight across -, and in between. */
static GArray *
places_of (const Vec2 *corners, const Outline *outline, double far_m)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  double low_m = INFINITY, high_m = -INFINITY;
  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t i = outline->ring_starts[r]; i < outline->ring_starts[r + 1]; i++)
      {
        low_m = fmin (low_m, corners[i].x);
        high_m = fmax (high_m, corners[i].x);
        const double beside[] = { corners[i].x - COLUMNS_APART_M / 2, corners[i].x + COLUMNS_APART_M / 2 };
        if (is_sharp (corners, outline->ring_starts[r], outline->ring_starts[r + 1], i))
          g_array_append_vals (places, beside, G_N_ELEMENTS (beside));
      }
  /* At a round end the width grows with the root of the distance from it. */
  for (double step_m = COLUMNS_APART_M / 2; step_m < COLUMNS_EVERY_M; step_m *= 3)
    {
      const double ends[] = { low_m + step_m, high_m - step_m };
      g_array_append_vals (places, ends, G_N_ELEMENTS (ends));
    }
  for (double at_m = fmax (low_m, 0); at_m < fmin (high_m, far_m); at_m += COLUMNS_EVERY_M)
    g_array_append_val (places, at_m);
  g_array_sort (places, compare_places);
  guint n = 0;
  for (guint i = 0; i < places->len; i++)
    {
      double at_m = g_array_index (places, double, i);
      if (at_m >= 0 && at_m <= far_m && (n == 0 || at_m - g_array_index (places, double, n - 1) > COLUMNS_APART_M / 4))
        g_array_index (places, double, n++) = at_m;
    }
  g_array_set_size (places, n);
  return places;
}

/* Of the places where all balls fly over the canopy, none of it being higher than `most_top_m`, only the first of a run stays; `is_over` says which. */
static bool *
leave_out_high (const Track *track, Interval stretches, double most_top_m, GArray *places)
{
  bool *is_over = g_new (bool, places->len + 1);
  guint n = 0;
  for (guint i = 0; i < places->len; i++)
    {
      double at_m = g_array_index (places, double, i);
      bool is_high = !may_be_hit (track, at_m, most_top_m, stretches);
      if (is_high && n > 0 && is_over[n - 1])
        continue;
      is_over[n] = is_high;
      g_array_index (places, double, n++) = at_m;
    }
  g_array_set_size (places, n);
  return is_over;
}

static double
height_of (const Part *part)
{
  return isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M;
}

static double
top_at (const Track *track, const Ground *ground, const Part *part, double along_m, double left_m)
{
  const ShotLine *line = &track->line;
  Vec2 at = vec2_add (vec2_add (line->ball, vec2_scale (line->along, along_m)), vec2_scale (vec2_left (line->along), left_m));
  return ground_height (ground, at) - ground_height (ground, line->ball) + height_of (part);
}

/* The ground under a column is taken where the column is nearest the line. */
static void
add_column (GArray *columns, const Track *track, const Ground *ground, const Part *part, double at_m, const Interval *stretches,
            size_t n_stretches)
{
  Column column = { .at_m = at_m, .n_stretches = n_stretches, .stretches = g_new (Interval, n_stretches + 1) };
  double nearest_m = INFINITY;
  for (size_t i = 0; i < n_stretches; i++)
    {
      Interval s = column.stretches[i] = stretches[i];
      double near_m = s.enter_m > 0 ? s.enter_m : s.leave_m < 0 ? s.leave_m : 0;
      nearest_m = fabs (near_m) < fabs (nearest_m) ? near_m : nearest_m;
    }
  column.top_m = n_stretches > 0 ? top_at (track, ground, part, at_m, nearest_m) : -INFINITY;
  g_array_append_val (columns, column);
}

/* An edge of the outline where it crosses a column. */
typedef struct
{
  double left_m;
  int turn; /* +1 towards greater distances, -1 back */
} EdgeCrossing;

static int
compare_crossings (const void *a, const void *b)
{
  return compare_places (&((const EdgeCrossing *)a)->left_m, &((const EdgeCrossing *)b)->left_m);
}

/* First of the sorted places that is beyond `at_m`, looked for from `near` on, which is mostly it. */
static guint
place_beyond (const GArray *places, double at_m, guint near)
{
  const double *places_m = (const double *)(const void *)places->data;
  while (near > 0 && places_m[near - 1] > at_m)
    near--;
  while (near < places->len && places_m[near] <= at_m)
    near++;
  return near;
}

/* The outline's crossings with the columns, column after column: those of column c are items[starts[c]] .. items[starts[c + 1] - 1]. */
typedef struct
{
  EdgeCrossing *items;
  guint *starts;
} Crossings;

static void
crossings_clear (Crossings *crossings)
{
  g_free (crossings->items);
  g_free (crossings->starts);
}

/* One walk round the outline: counts each column's crossings in starts[column + 1], or puts them where `next` says. */
static void
walk_round (const Vec2 *corners, const Outline *outline, const GArray *places, Crossings *crossings, guint *next)
{
  const double *at_m = (const double *)(const void *)places->data;
  guint from = 0;
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t first = outline->ring_starts[r], last = outline->ring_starts[r + 1];
      from = place_beyond (places, corners[first].x, from);
      for (size_t i = first; i < last; i++)
        {
          Vec2 a = corners[i], b = corners[i + 1 < last ? i + 1 : first];
          guint to = place_beyond (places, b.x, from);
          for (guint c = MIN (from, to); c < MAX (from, to); c++)
            if (next == NULL)
              crossings->starts[c + 1]++;
            else
              crossings->items[next[c]++]
                  = (EdgeCrossing){ a.y + (at_m[c] - a.x) / (b.x - a.x) * (b.y - a.y), b.x > a.x ? 1 : -1 };
          from = to;
        }
    }
}

static void
crossings_find (Crossings *crossings, const Vec2 *corners, const Outline *outline, const GArray *places)
{
  crossings->starts = g_new0 (guint, places->len + 1);
  walk_round (corners, outline, places, crossings, NULL);
  for (guint c = 0; c < places->len; c++)
    crossings->starts[c + 1] += crossings->starts[c];
  crossings->items = g_new (EdgeCrossing, crossings->starts[places->len] + 1);
  g_autofree guint *next = g_new (guint, places->len + 1);
  memcpy (next, crossings->starts, sizeof *next * places->len);
  walk_round (corners, outline, places, crossings, next);
}

/* The stretches that are inside by the outline's fill rule. */
static void
fill_stretches (EdgeCrossing *crossings, guint n_crossings, bool even_odd, GArray *stretches)
{
  g_array_set_size (stretches, 0);
  qsort (crossings, n_crossings, sizeof *crossings, compare_crossings);
  int winding = 0;
  for (guint i = 0; i < n_crossings; i++)
    {
      const EdgeCrossing *crossing = &crossings[i];
      bool was_inside = even_odd ? i % 2 == 1 : winding != 0;
      winding += crossing->turn;
      bool is_inside = even_odd ? i % 2 == 0 : winding != 0;
      Interval begun = { crossing->left_m, crossing->left_m };
      if (!was_inside && is_inside)
        g_array_append_val (stretches, begun);
      else if (was_inside && stretches->len > 0)
        g_array_index (stretches, Interval, stretches->len - 1).leave_m = crossing->left_m;
    }
}

static void
cut_area (GArray *columns, const Track *track, const Ground *ground, const Part *part, const TreeReach *reach, double rise_m)
{
  g_autofree Vec2 *corners = corners_in_line (&track->line, part->outline);
  g_autoptr (GArray) places = places_of (corners, part->outline, reach->far_m);
  g_autofree bool *is_over
      = leave_out_high (track, reach->stretches, reach->are_low ? height_of (part) + rise_m : INFINITY, places);
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (Interval));
  Crossings crossings;
  crossings_find (&crossings, corners, part->outline, places);
  for (guint i = 0; i < places->len; i++)
    {
      /* Where all fly over it there is nothing to fly into, and nothing that goes on from the column before to the one after. */
      guint first = crossings.starts[i], n = is_over[i] ? 0 : crossings.starts[i + 1] - first;
      fill_stretches (crossings.items + first, n, part->even_odd, stretches);
      add_column (columns, track, ground, part, g_array_index (places, double, i),
                  (const Interval *)(const void *)stretches->data, stretches->len);
    }
  crossings_clear (&crossings);
}

static void
cut_disc (GArray *columns, const Track *track, const Ground *ground, const Part *part, double far_m)
{
  Vec2 centre = in_line (&track->line, part->at);
  for (int i = 0; i <= DISC_COLUMNS; i++)
    {
      double angle = PI * i / DISC_COLUMNS, at_m = centre.x - part->radius_m * cos (angle);
      if (at_m < 0 || at_m > far_m)
        continue;
      Interval chord = { centre.y - part->radius_m * sin (angle), centre.y + part->radius_m * sin (angle) };
      add_column (columns, track, ground, part, at_m, &chord, 1);
    }
}

bool
canopy_cut (const Track *track, const Ground *ground, size_t part, const TreeReach *reach, double rise_m, Canopy *canopy)
{
  const Part *trees = hole_part (ground->hole, part);
  GArray *columns = g_array_new (FALSE, FALSE, sizeof (Column));
  if (trees->kind == KIND_TREE)
    cut_disc (columns, track, ground, trees, reach->far_m);
  else
    cut_area (columns, track, ground, trees, reach, rise_m);
  *canopy = (Canopy){ .part = part, .density = trees->kind == KIND_TREE ? TREES_DENSITY : trees->density };
  canopy->n_columns = columns->len;
  canopy->columns = (Column *)(void *)g_array_free (columns, FALSE);
  return canopy->n_columns > 0;
}

void
canopy_clear (Canopy *canopy)
{
  for (size_t i = 0; i < canopy->n_columns; i++)
    g_free (canopy->columns[i].stretches);
  g_clear_pointer (&canopy->columns, g_free);
}

void
canopy_prune (Canopy *canopy, const Track *track, Interval stretches)
{
  size_t n = 0;
  for (size_t i = 0; i < canopy->n_columns; i++)
    if (canopy->columns[i].n_stretches == 0 || may_be_hit (track, canopy->columns[i].at_m, canopy->columns[i].top_m, stretches))
      canopy->columns[n++] = canopy->columns[i];
    else
      g_free (canopy->columns[i].stretches);
  canopy->n_columns = n;
}
