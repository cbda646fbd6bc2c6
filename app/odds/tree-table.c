// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The trees in a ball's way, and the chance to get past them: over the length of the ball integrated by trapezes that are halved where it matters, over
 * its side exactly.
 */
#include "tree-private.h"

#include <math.h>
#include <stdlib.h>

/* Lengths further off the mean than these deviations are left out: 6 in 100 000. */
#define MOST_DEVIATIONS 4.0
/* Trapezes to begin with, how much a half may differ from the whole in chance, and how often they are halved at most. */
#define TRAPEZES 16
#define HALVE_CHANCE 5e-5
#define MOST_HALVINGS 8

typedef struct
{
  const Track *track;
  const Canopy *canopies;
  size_t n_canopies;
  double long_sd_m;            /* of the length */
  double side_sd_m, side_by_m; /* of the side at a given length, and its mean per metre of length */
  GArray *edges;               /* of double: scratch */
  Stretches *hits;             /* one for each canopy: scratch */
  double *sums;                /* the same integrated */
} Integral;

/* ---- over the side, at one length ---- */

static int
compare_numbers (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return x < y ? -1 : x > y ? 1 : 0;
}

/* Chance that the side offset is below y. */
static double
below (const Integral *integral, double mean_m, double y)
{
  if (!(integral->side_sd_m > 0))
    return y > mean_m ? 1 : 0;
  return normal_below ((y - mean_m) / integral->side_sd_m);
}

static bool
is_hit (const Stretches *hits, double y)
{
  for (size_t i = 0; i < hits->n_items; i++)
    if (y > hits->items[i].low && y < hits->items[i].high)
      return true;
  return false;
}

/* Chance to get past each canopy, and past all, of a ball this many deviations longer than the mean: into `past`. */
static void
past_at (Integral *integral, double deviations, double *past)
{
  double more_m = deviations * integral->long_sd_m, mean_m = integral->side_by_m * more_m;
  double stretch = fmax (LEAST_STRETCH, 1 + more_m / integral->track->line.landing_m);
  g_array_set_size (integral->edges, 0);
  for (size_t c = 0; c < integral->n_canopies; c++)
    {
      Stretches *hits = &integral->hits[c];
      canopy_hits (&integral->canopies[c], integral->track, stretch, hits);
      past[c] = 1;
      for (size_t i = 0; i < hits->n_items; i++)
        {
          past[c] -= integral->canopies[c].density
                     * (below (integral, mean_m, hits->items[i].high) - below (integral, mean_m, hits->items[i].low));
          g_array_append_vals (integral->edges, &hits->items[i], 2);
        }
    }
  g_array_sort (integral->edges, compare_numbers);
  double all = 0, done = 0;
  for (guint i = 0; i <= integral->edges->len; i++)
    {
      double low = i > 0 ? g_array_index (integral->edges, double, i - 1) : -INFINITY;
      double high = i < integral->edges->len ? g_array_index (integral->edges, double, i) : INFINITY;
      double until = isinf (high) ? 1 : below (integral, mean_m, high);
      double through = 1, y = isinf (low) || isinf (high) ? (isinf (low) ? high - 1 : low + 1) : 0.5 * (low + high);
      for (size_t c = 0; c < integral->n_canopies && integral->edges->len > 0; c++)
        if (is_hit (&integral->hits[c], y))
          through *= 1 - integral->canopies[c].density;
      all += through * (until - done);
      done = until;
    }
  past[integral->n_canopies] = all;
}

/* ---- over the length ---- */

static void
add_trapeze (Integral *integral, double from, double to, const double *past_from, const double *past_to, int depth)
{
  size_t n = integral->n_canopies + 1;
  double mass = normal_below (to) - normal_below (from), middle = 0.5 * (from + to);
  g_autofree double *past = g_new (double, n);
  past_at (integral, middle, past);
  double worst = 0;
  for (size_t i = 0; i < n; i++)
    worst = fmax (worst, fabs (past[i] - 0.5 * (past_from[i] + past_to[i])));
  if (depth < MOST_HALVINGS && worst * mass > HALVE_CHANCE)
    {
      add_trapeze (integral, from, middle, past_from, past, depth + 1);
      add_trapeze (integral, middle, to, past, past_to, depth + 1);
      return;
    }
  /* Simpson's weights, the normal's density within the trapeze aside. */
  for (size_t i = 0; i < n; i++)
    integral->sums[i] += mass * (past_from[i] + 4 * past[i] + past_to[i]) / 6;
}

static void
integrate (Integral *integral)
{
  size_t n = integral->n_canopies + 1;
  g_autofree double *from = g_new (double, n), *to = g_new (double, n);
  past_at (integral, -MOST_DEVIATIONS, from);
  for (int i = 0; i < TRAPEZES; i++)
    {
      double width = 2 * MOST_DEVIATIONS / TRAPEZES, a = -MOST_DEVIATIONS + i * width;
      past_at (integral, a + width, to);
      add_trapeze (integral, a, a + width, from, to, 0);
      double *swapped = from;
      from = to;
      to = swapped;
    }
  double whole = normal_below (MOST_DEVIATIONS) - normal_below (-MOST_DEVIATIONS);
  for (size_t i = 0; i < n; i++)
    integral->sums[i] = fmax (0, fmin (1, integral->sums[i] / whole));
}

/* ---- the rows ---- */

/* Does a column reach into the fan round the mean track? */
static bool
reaches_fan (const Track *track, const Column *column, double fan_slope)
{
  double side_m, height_m;
  track_at (track, column->at_m, &side_m, &height_m);
  double wide_m = fan_slope * column->at_m;
  for (size_t i = 0; i < column->n_stretches; i++)
    if (column->stretches[i].enter_m < side_m + wide_m && column->stretches[i].leave_m > side_m - wide_m)
      return true;
  return false;
}

/* What the mean ball does about a canopy; false when it is not in the fan. */
static bool
row_of (const Canopy *canopy, const Track *track, double fan_slope, double fan_m, TreeRow *row)
{
  double landing_m = track->line.landing_m;
  TreeRow over = { canopy->part, INFINITY, -INFINITY, INFINITY, 1 }, beside = over;
  for (size_t i = 0; i < canopy->n_columns; i++)
    {
      const Column *column = &canopy->columns[i];
      double at_m = column->at_m, side_m, height_m;
      if (at_m <= fan_m && reaches_fan (track, column, fan_slope))
        {
          beside.near_m = fmin (beside.near_m, at_m);
          beside.far_m = fmax (beside.far_m, at_m);
        }
      if (at_m > landing_m)
        continue;
      track_at (track, at_m, &side_m, &height_m);
      for (size_t k = 0; k < column->n_stretches; k++)
        if (column->stretches[k].enter_m <= side_m && column->stretches[k].leave_m >= side_m)
          {
            over.near_m = fmin (over.near_m, at_m);
            over.far_m = fmax (over.far_m, at_m);
            over.clearance_m = fmin (over.clearance_m, height_m - column->top_m);
          }
    }
  *row = isfinite (over.near_m) ? over : beside;
  if (!isfinite (over.near_m))
    row->clearance_m = NAN;
  return isfinite (row->near_m);
}

static bool
is_trees (const Part *part)
{
  return part->kind == KIND_TREE ? part->radius_m > 0 : part->kind == KIND_TREES && !box_is_empty (part->outline->bounds);
}

static Box
box_of (const Part *part)
{
  return part->kind == KIND_TREE ? box_grown ((Box){ part->at.x, part->at.y, part->at.x, part->at.y }, part->radius_m)
                                 : part->outline->bounds;
}

/* Is any of it within reach of the fan? A first, quick look, in the frame of the line. */
static bool
is_near (const Track *track, const Part *part, const TreeReach *reach, double bulge_m)
{
  const ShotLine *line = &track->line;
  Box box = box_of (part);
  Vec2 middle = vec2_sub (box_centre (box), line->ball);
  double width_m = 0.5 * (box.x1 - box.x0), height_m = 0.5 * (box.y1 - box.y0);
  double along_m = fabs (line->along.x) * width_m + fabs (line->along.y) * height_m,
         across_m = fabs (line->along.y) * width_m + fabs (line->along.x) * height_m;
  double at_m = vec2_dot (line->along, middle), far_m = fmin (reach->far_m, at_m + along_m);
  return at_m - along_m <= reach->far_m && at_m + along_m >= 0
         && fabs (vec2_cross (line->along, middle)) - across_m <= bulge_m + reach->fan_slope * far_m;
}

static int
compare_rows (const void *a, const void *b)
{
  const TreeRow *x = a, *y = b;
  int order = compare_numbers (&x->near_m, &y->near_m);
  return order != 0 ? order : x->part < y->part ? -1 : x->part > y->part;
}

/* Does every ball fly over all of it? A quick look, before it is cut: the track rises and falls once, so that over a stretch of the line it is lowest at an end. */
static bool
is_flown_over (const Track *track, const Part *part, const TreeReach *reach, double rise_m)
{
  const ShotLine *line = &track->line;
  Box box = box_of (part);
  Vec2 middle = vec2_sub (box_centre (box), line->ball);
  double half_m = 0.5 * (fabs (line->along.x) * (box.x1 - box.x0) + fabs (line->along.y) * (box.y1 - box.y0));
  double at_m = vec2_dot (line->along, middle), near_z_m, far_z_m, side_m;
  track_at (track, (at_m - half_m) / reach->stretches.leave_m, &side_m, &near_z_m);
  track_at (track, (at_m + half_m) / reach->stretches.enter_m, &side_m, &far_z_m);
  return fmin (near_z_m, far_z_m) > (isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M) + rise_m;
}

void
canopies_find (const Hole *hole, const Track *track, const Ground *ground, const TreeReach *reach, GArray *canopies,
               GArray *rows)
{
  double bulge_m = 0;
  for (int i = 0; i <= TRACK_STEPS; i++)
    bulge_m = fmax (bulge_m, fabs (track->side_m[i]));
  double rise_m = reach->are_low ? ground_rise (ground, track->line.ball) : 0;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      Canopy canopy;
      TreeRow row;
      if (!is_trees (part) || !is_near (track, part, reach, bulge_m)
          || (reach->are_low && is_flown_over (track, part, reach, rise_m)))
        continue;
      if (canopy_cut (track, ground, i, reach, rise_m, &canopy)
          && row_of (&canopy, track, reach->fan_slope, reach->fan_m, &row))
        {
          canopy_prune (&canopy, track, reach->stretches);
          g_array_append_val (canopies, canopy);
          g_array_append_val (rows, row);
        }
      else
        canopy_clear (&canopy);
    }
}

static TreeReach
reach_of (const ShotLine *line)
{
  double long_sd_m = sqrt (line->xx), off = MOST_DEVIATIONS * long_sd_m / line->landing_m;
  return (TreeReach){ .far_m = line->landing_m + MOST_DEVIATIONS * long_sd_m,
                      .fan_m = line->landing_m + TOUCH_SDS * long_sd_m,
                      .fan_slope = TOUCH_SDS * sqrt (line->yy) / line->landing_m,
                      .stretches = { fmax (LEAST_STRETCH, 1 - off), 1 + off } };
}

TreeTable *
tree_table_new (const Hole *hole, const ShotResult *shot)
{
  Track *track = g_new (Track, 1);
  Ground ground;
  g_autoptr (GArray) canopies = g_array_new (FALSE, FALSE, sizeof (Canopy)),
                     rows = g_array_new (FALSE, FALSE, sizeof (TreeRow));
  g_array_set_clear_func (canopies, (GDestroyNotify)canopy_clear);
  track_make (shot, track);
  ground_init (&ground, hole, &shot->conditions);
  TreeReach reach = reach_of (&track->line);
  canopies_find (hole, track, &ground, &reach, canopies, rows);

  size_t n = canopies->len;
  TreeTable *table = g_new0 (TreeTable, 1);
  table->chance = 1;
  if (n > 0)
    {
      const ShotLine *line = &track->line;
      g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (double));
      g_autofree Stretches *hits = g_new (Stretches, n);
      g_autofree double *sums = g_new0 (double, n + 1);
      double by = line->xx > 0 ? line->xy / line->xx : 0;
      Integral integral = { .track = track,
                            .canopies = (const Canopy *)(const void *)canopies->data,
                            .n_canopies = n,
                            .long_sd_m = sqrt (line->xx),
                            .side_sd_m = sqrt (fmax (0, line->yy - by * line->xy)),
                            .side_by_m = by,
                            .edges = edges,
                            .hits = hits,
                            .sums = sums };
      integrate (&integral);
      for (size_t i = 0; i < n; i++)
        g_array_index (rows, TreeRow, i).chance = sums[i];
      table->chance = sums[n];
    }
  g_free (track);
  g_array_sort (rows, compare_rows);
  table->n_rows = n;
  table->rows = (TreeRow *)(void *)g_array_free (g_steal_pointer (&rows), FALSE);
  return table;
}

bool
tree_row_is_telling (const TreeRow *row)
{
  return row->chance < MOST_CHANCE_SHOWN || row->clearance_m < TREE_NEAR_M;
}

void
tree_table_free (TreeTable *table)
{
  if (table == NULL)
    return;
  g_free (table->rows);
  g_free (table);
}
