// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A canopy cut across the shot line into columns. Between the columns its edge is straight, so that of a track all of the balls are found that fly into
 * it: those that pass through a column where the track is below the top.
 */
#include "tree-private.h"

#include <math.h>
#include <stdlib.h>

/* Columns stand no farther apart than this, nor nearer together. */
#define COLUMNS_EVERY_M 1.5
#define COLUMNS_APART_M 0.02
/* A corner of more than 15 degrees is one; less is a curve drawn with edges. */
#define SHARP_COSINE 0.966
/* A tree's disc is cut this often: its edge is off the circle by 0.1 % of its radius. */
#define DISC_COLUMNS 24

/* ---- the track ---- */

void
track_make (const ShotResult *shot, Track *track)
{
  track->line = shot_line (shot);
  const ShotLine *line = &track->line;
  track->step_m = line->landing_m / TRACK_STEPS;
  FlightPoint landing = flight_landing (&shot->flight), before = shot->flight.points[0];
  double z0_m = before.z_m, before_m = 0;
  int filled = 0;
  const int n_looks = 4 * TRACK_STEPS;
  for (int i = 0; i <= n_looks; i++)
    {
      FlightPoint point = flight_at (&shot->flight, landing.t_s * i / n_looks);
      double along_m = vec2_dot (line->along, vec2_sub (point.at, line->ball));
      /* What a wind blows back over its own way is left out; the last look is the landing whatever rounding says. */
      for (; filled <= TRACK_STEPS && (filled * track->step_m <= along_m || i == n_looks); filled++)
        {
          double share
              = along_m > before_m ? fmin (1, fmax (0, (filled * track->step_m - before_m) / (along_m - before_m))) : 1;
          Vec2 at = vec2_sub (vec2_lerp (before.at, point.at, share), line->ball);
          track->side_m[filled] = vec2_cross (line->along, at);
          track->height_m[filled] = before.z_m + share * (point.z_m - before.z_m) - z0_m;
        }
      before = point;
      before_m = along_m;
    }
}

void
track_at (const Track *track, double at_m, double *side_m, double *height_m)
{
  double place = fmax (0, fmin (TRACK_STEPS, at_m / track->step_m));
  int i = (int)fmin (TRACK_STEPS - 1, place);
  double share = place - i;
  *side_m = track->side_m[i] + share * (track->side_m[i + 1] - track->side_m[i]);
  *height_m = track->height_m[i] + share * (track->height_m[i + 1] - track->height_m[i]);
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
  return vec2_dot (before, after) < SHARP_COSINE * vec2_length (before) * vec2_length (after);
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

static double
top_at (const Track *track, const Ground *ground, const Part *part, double along_m, double left_m)
{
  const ShotLine *line = &track->line;
  Vec2 at = vec2_add (vec2_add (line->ball, vec2_scale (line->along, along_m)), vec2_scale (vec2_left (line->along), left_m));
  double height_m = isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M;
  return ground_height (ground, at) - ground_height (ground, line->ball) + height_m;
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

/* First of the sorted places that is beyond `at_m`. */
static guint
place_beyond (const GArray *places, double at_m)
{
  guint low = 0, high = places->len;
  while (low < high)
    {
      guint middle = (low + high) / 2;
      if (g_array_index (places, double, middle) > at_m)
        high = middle;
      else
        low = middle + 1;
    }
  return low;
}

/* All crossings of the outline with the columns, in one walk round it. */
static GArray **
cross_columns (const Vec2 *corners, const Outline *outline, const GArray *places)
{
  GArray **crossings = g_new (GArray *, places->len + 1);
  for (guint i = 0; i < places->len; i++)
    crossings[i] = g_array_new (FALSE, FALSE, sizeof (EdgeCrossing));
  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t i = outline->ring_starts[r], last = outline->ring_starts[r + 1]; i < last; i++)
      {
        Vec2 a = corners[i], b = corners[i + 1 < last ? i + 1 : outline->ring_starts[r]];
        for (guint c = place_beyond (places, fmin (a.x, b.x));
             c < places->len && g_array_index (places, double, c) <= fmax (a.x, b.x); c++)
          {
            EdgeCrossing crossing
                = { a.y + (g_array_index (places, double, c) - a.x) / (b.x - a.x) * (b.y - a.y), b.x > a.x ? 1 : -1 };
            g_array_append_val (crossings[c], crossing);
          }
      }
  return crossings;
}

/* The stretches that are inside by the outline's fill rule. */
static void
fill_stretches (GArray *crossings, bool even_odd, GArray *stretches)
{
  g_array_set_size (stretches, 0);
  g_array_sort (crossings, compare_crossings);
  int winding = 0;
  for (guint i = 0; i < crossings->len; i++)
    {
      const EdgeCrossing *crossing = &g_array_index (crossings, EdgeCrossing, i);
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
cut_area (GArray *columns, const Track *track, const Ground *ground, const Part *part, double far_m)
{
  g_autofree Vec2 *corners = corners_in_line (&track->line, part->outline);
  g_autoptr (GArray) places = places_of (corners, part->outline, far_m);
  g_autofree GArray **crossings = cross_columns (corners, part->outline, places);
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (Interval));
  for (guint i = 0; i < places->len; i++)
    {
      fill_stretches (crossings[i], part->even_odd, stretches);
      add_column (columns, track, ground, part, g_array_index (places, double, i),
                  (const Interval *)(const void *)stretches->data, stretches->len);
      g_array_unref (crossings[i]);
    }
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
canopy_cut (const Track *track, const Ground *ground, size_t part, double far_m, Canopy *canopy)
{
  const Part *trees = hole_part (ground->hole, part);
  GArray *columns = g_array_new (FALSE, FALSE, sizeof (Column));
  if (trees->kind == KIND_TREE)
    cut_disc (columns, track, ground, trees, far_m);
  else
    cut_area (columns, track, ground, trees, far_m);
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

/* Is the track below the top of this column, or a little over it, for any of the stretches? It rises and falls once. */
static bool
may_be_hit (const Track *track, const Column *column, Interval stretches)
{
  double low_m, high_m, side_m;
  track_at (track, column->at_m / stretches.leave_m, &side_m, &low_m);
  track_at (track, column->at_m / stretches.enter_m, &side_m, &high_m);
  return fmin (low_m, high_m) < column->top_m + COLUMNS_EVERY_M;
}

void
canopy_prune (Canopy *canopy, const Track *track, Interval stretches)
{
  size_t n = 0;
  for (size_t i = 0; i < canopy->n_columns; i++)
    if (canopy->columns[i].n_stretches == 0 || may_be_hit (track, &canopy->columns[i], stretches))
      canopy->columns[n++] = canopy->columns[i];
    else
      g_free (canopy->columns[i].stretches);
  canopy->n_columns = n;
}

/* ---- flying into it ---- */

/* Puts one more stretch in, as one with all that it meets; when there is no room the last one grows over it. */
static void
add_stretch (Stretches *hits, Offsets more)
{
  size_t n = 0;
  for (size_t i = 0; i < hits->n_items; i++)
    {
      Offsets had = hits->items[i];
      if (had.low <= more.high && had.high >= more.low)
        more = (Offsets){ fmin (had.low, more.low), fmax (had.high, more.high) };
      else
        hits->items[n++] = had;
    }
  if (n == MOST_STRETCHES)
    {
      n--;
      more = (Offsets){ fmin (hits->items[n].low, more.low), fmax (hits->items[n].high, more.high) };
    }
  hits->items[n++] = more;
  hits->n_items = n;
}

/* Where a column, or a cut between two, stands on the track of one stretch. */
typedef struct
{
  double own_m;  /* along the mean ball's own track */
  double side_m; /* of that track there */
  double top_m;  /* of the canopy there, and the track's room over it */
  double room_m;
  const Interval *stretches;
} Passage;

/* Landing offsets of the balls that pass between two sides there: the shear grows in proportion to how far along the ball is. */
static Offsets
offsets_of (const Passage *passage, size_t k, double landing_m)
{
  double by = landing_m / fmax (passage->own_m, SAME_POINT_M);
  Interval sides = passage->stretches[k];
  return (Offsets){ (sides.enter_m - passage->side_m) * by, (sides.leave_m - passage->side_m) * by };
}

/* All that the canopy covers from one passage to the next, its edges being straight between them. */
static void
add_between (Stretches *hits, const Passage *a, const Passage *b, size_t n_stretches, double landing_m)
{
  for (size_t k = 0; k < n_stretches; k++)
    {
      Offsets x = offsets_of (a, k, landing_m), y = offsets_of (b, k, landing_m);
      add_stretch (hits, (Offsets){ fmin (x.low, y.low), fmax (x.high, y.high) });
    }
}

/* The passage at a share of the way from one to the next, whose edges are straight; `sides` has room for its stretches. */
static Passage
passage_between (const Track *track, const Passage *a, const Passage *b, double share, size_t n_stretches, Interval *sides)
{
  double height_m;
  for (size_t k = 0; k < n_stretches; k++)
    {
      Interval x = a->stretches[k], y = b->stretches[k];
      sides[k] = (Interval){ x.enter_m + share * (y.enter_m - x.enter_m), x.leave_m + share * (y.leave_m - x.leave_m) };
    }
  Passage between = { .own_m = a->own_m + share * (b->own_m - a->own_m),
                      .top_m = a->top_m + share * (b->top_m - a->top_m),
                      .stretches = sides };
  track_at (track, between.own_m, &between.side_m, &height_m);
  between.room_m = height_m - between.top_m;
  return between;
}

/* What lies below the top from one passage to the next, which go on from one another. */
static void
add_passages (Stretches *hits, const Track *track, const Passage *before, const Passage *here, size_t n_stretches)
{
  double landing_m = track->line.landing_m;
  Interval sides[MOST_STRETCHES];
  if (before->room_m < 0 && here->room_m < 0)
    add_between (hits, before, here, n_stretches, landing_m);
  else if (before->room_m < 0 || here->room_m < 0)
    {
      double share = before->room_m / (before->room_m - here->room_m);
      Passage through = passage_between (track, before, here, share, n_stretches, sides);
      add_between (hits, &through, here->room_m < 0 ? here : before, n_stretches, landing_m);
    }
}

void
canopy_hits (const Canopy *canopy, const Track *track, double stretch, Stretches *hits)
{
  hits->n_items = 0;
  double landing_m = track->line.landing_m;
  Passage before = { .room_m = NAN };
  size_t n_before = 0;
  for (size_t i = 0; i < canopy->n_columns; i++)
    {
      const Column *column = &canopy->columns[i];
      Passage here = { .own_m = column->at_m / stretch, .top_m = column->top_m, .stretches = column->stretches };
      bool is_joined = i > 0 && n_before == column->n_stretches && n_before <= MOST_STRETCHES;
      double height_m;
      if (here.own_m > landing_m && is_joined)
        {
          /* The ball is down before it comes to this column. */
          Interval sides[MOST_STRETCHES];
          double share = (landing_m - before.own_m) / (here.own_m - before.own_m);
          Passage end = passage_between (track, &before, &here, share, n_before, sides);
          add_passages (hits, track, &before, &end, n_before);
        }
      if (here.own_m > landing_m)
        break;
      track_at (track, here.own_m, &here.side_m, &height_m);
      here.room_m = height_m - column->top_m;
      if (is_joined)
        add_passages (hits, track, &before, &here, n_before);
      else if (here.room_m < 0)
        add_between (hits, &here, &here, column->n_stretches, landing_m);
      before = here;
      n_before = column->n_stretches;
    }
}
