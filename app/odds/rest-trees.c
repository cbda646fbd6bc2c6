// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Trees on the way of balls whose rest is asked for. The model is that of tree_table_new; what canopies cover of the landing places is found along some lines across the pattern, and a
 * ball takes that of the nearest line.
 */
#include "rest-private.h"

#include <math.h>
#include <stdlib.h>

/* Balls further off the mean than these deviations fly as those that far. */
#define MOST_DEVIATIONS 4.0
/* Lines across all patterns: some quarter of a deviation apart. */
#define N_LINES 64

/* On one line, what a canopy covers of the offsets to the left. */
typedef struct
{
  double low, high;
  uint32_t canopy;
} Hit;

struct _Woods
{
  Track track;
  GArray *canopies; /* nearest first */
  Interval stretches;
  GArray *lines[N_LINES]; /* of Hit; NULL: not asked for yet */
};

/* ---- which there are ---- */

static int
compare_canopies (const void *a, const void *b)
{
  const Canopy *x = a, *y = b;
  double near_x = x->columns[0].at_m, near_y = y->columns[0].at_m;
  return near_x != near_y ? (near_x > near_y) - (near_x < near_y) : (x->part > y->part) - (x->part < y->part);
}

/* A pattern's extent along a line and across it. */
static TreeReach
reach_of (const ShotLine *line, const Pattern *pattern)
{
  Normal normal = pattern_normal (pattern);
  double along_sd_m = hypot (vec2_dot (line->along, normal.a), vec2_dot (line->along, normal.b));
  double across_sd_m = hypot (vec2_cross (line->along, normal.a), vec2_cross (line->along, normal.b));
  Vec2 mean = vec2_sub (pattern->mean, line->ball);
  double mean_m = fmax (LEAST_STRETCH * line->landing_m, vec2_dot (line->along, mean));
  double off_m = MOST_DEVIATIONS * along_sd_m;
  return (TreeReach){
    .far_m = mean_m + off_m,
    .fan_m = mean_m + off_m,
    .fan_slope = (fabs (vec2_cross (line->along, mean)) + MOST_DEVIATIONS * across_sd_m) / mean_m,
    .stretches = { fmax (LEAST_STRETCH, (mean_m - off_m) / line->landing_m), (mean_m + off_m) / line->landing_m },
    .are_low = true,
  };
}

static TreeReach
reach_of_all (const ShotLine *line, const Strike *strikes, size_t n_strikes)
{
  TreeReach all = reach_of (line, &strikes[0].pattern);
  for (size_t i = 1; i < n_strikes; i++)
    {
      TreeReach more = reach_of (line, &strikes[i].pattern);
      all.far_m = fmax (all.far_m, more.far_m);
      all.fan_m = fmax (all.fan_m, more.fan_m);
      all.fan_slope = fmax (all.fan_slope, more.fan_slope);
      all.stretches.enter_m = fmin (all.stretches.enter_m, more.stretches.enter_m);
      all.stretches.leave_m = fmax (all.stretches.leave_m, more.stretches.leave_m);
    }
  return all;
}

/* Those of which nothing is left to fly into go. */
static void
drop_high (GArray *canopies)
{
  for (guint i = canopies->len; i-- > 0;)
    {
      const Canopy *canopy = &g_array_index (canopies, Canopy, i);
      bool has_any = false;
      for (size_t k = 0; k < canopy->n_columns && !has_any; k++)
        has_any = canopy->columns[k].n_stretches > 0;
      if (!has_any)
        g_array_remove_index_fast (canopies, i);
    }
}

Woods *
woods_new (const Ground *ground, const ShotResult *shot, const Strike *strikes, size_t n_strikes)
{
  Woods *woods = g_new0 (Woods, 1);
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (TreeRow));
  woods->canopies = g_array_new (FALSE, FALSE, sizeof (Canopy));
  g_array_set_clear_func (woods->canopies, (GDestroyNotify)canopy_clear);
  track_make (shot, &woods->track);
  if (woods->track.line.landing_m > 0)
    {
      TreeReach reach = reach_of_all (&woods->track.line, strikes, n_strikes);
      woods->stretches = reach.stretches;
      canopies_find (ground->hole, &woods->track, ground, &reach, woods->canopies, rows);
      drop_high (woods->canopies);
    }
  if (woods->canopies->len == 0)
    g_clear_pointer (&woods, woods_free);
  else
    g_array_sort (woods->canopies, compare_canopies);
  return woods;
}

void
woods_free (Woods *woods)
{
  if (woods == NULL)
    return;
  for (size_t i = 0; i < N_LINES; i++)
    g_clear_pointer (&woods->lines[i], g_array_unref);
  g_array_unref (woods->canopies);
  g_free (woods);
}

size_t
woods_n_canopies (const Woods *woods)
{
  return woods != NULL ? woods->canopies->len : 0;
}

size_t
woods_canopy (const Woods *woods, size_t i, double *density)
{
  const Canopy *canopy = &g_array_index (woods->canopies, Canopy, i);
  *density = canopy->density;
  return canopy->part;
}

/* ---- which a ball meets ---- */

static GArray *
find_hits (const Woods *woods, double stretch)
{
  GArray *line = g_array_new (FALSE, FALSE, sizeof (Hit));
  for (guint c = 0; c < woods->canopies->len; c++)
    {
      Stretches hits;
      canopy_hits (&g_array_index (woods->canopies, Canopy, c), &woods->track, stretch, &hits);
      for (size_t i = 0; i < hits.n_items; i++)
        {
          Hit hit = { hits.items[i].low, hits.items[i].high, c };
          g_array_append_val (line, hit);
        }
    }
  return line;
}

void
woods_stops (Woods *woods, Vec2 landing, TreeStops *stops)
{
  const ShotLine *line = &woods->track.line;
  Vec2 from = vec2_sub (landing, line->ball);
  double low = woods->stretches.enter_m, step = (woods->stretches.leave_m - low) / (N_LINES - 1);
  double stretch = vec2_dot (line->along, from) / line->landing_m, left_m = vec2_cross (line->along, from);
  size_t i = step > 0 ? (size_t)fmin (N_LINES - 1, fmax (0, floor ((stretch - low) / step + 0.5))) : 0;
  if (woods->lines[i] == NULL)
    woods->lines[i] = find_hits (woods, low + (double)i * step);
  const Hit *hits = (const Hit *)(const void *)woods->lines[i]->data;
  stops->n = 0;
  for (guint k = 0; k < woods->lines[i]->len && stops->n < MOST_STOPS; k++)
    if (left_m > hits[k].low && left_m < hits[k].high && (stops->n == 0 || stops->canopies[stops->n - 1] != hits[k].canopy))
      stops->canopies[stops->n++] = hits[k].canopy;
}

Vec2
woods_place (const Woods *woods, Vec2 landing, uint32_t canopy)
{
  const ShotLine *line = &woods->track.line;
  Vec2 from = vec2_sub (landing, line->ball);
  double stretch = fmax (LEAST_STRETCH, vec2_dot (line->along, from) / line->landing_m);
  Vec2 entry
      = canopy_entry (&g_array_index (woods->canopies, Canopy, canopy), &woods->track, stretch, vec2_cross (line->along, from));
  return vec2_add (line->ball, vec2_add (vec2_scale (line->along, entry.x), vec2_scale (vec2_left (line->along), entry.y)));
}

/* ---- where balls may end ---- */

void
ends_init (Ends *ends, const Ground *ground, const ShotResult *shot, const Strike *strikes, size_t n_strikes)
{
  const Hole *hole = ground->hole;
  size_t n_areas = hole_n_areas (hole), n_canopies, n_trees = 0;
  *ends = (Ends){ .ground = ground, .woods = woods_new (ground, shot, strikes, n_strikes) };
  n_canopies = woods_n_canopies (ends->woods);
  g_autofree size_t *area_of_part = g_new (size_t, hole_n_parts (hole) + 1);
  ends->end_of_canopy = g_new (size_t, n_canopies + 1);
  ends->parts_of_trees = g_new (size_t, n_canopies + 1);
  for (size_t k = 0; k < n_areas; k++)
    area_of_part[hole_area_part (hole, k)] = k;
  for (size_t i = 0; i < n_canopies; i++)
    {
      double density;
      size_t part = woods_canopy (ends->woods, i, &density);
      if (hole_part (hole, part)->kind == KIND_TREES)
        ends->end_of_canopy[i] = area_of_part[part];
      else
        {
          ends->end_of_canopy[i] = n_areas + 1 + n_trees;
          ends->parts_of_trees[n_trees++] = part;
        }
    }
  ends->n_ends = n_areas + 1 + n_trees;
}

void
ends_clear (Ends *ends)
{
  g_clear_pointer (&ends->woods, woods_free);
  g_clear_pointer (&ends->end_of_canopy, g_free);
  g_clear_pointer (&ends->parts_of_trees, g_free);
}
