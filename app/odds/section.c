// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A shot seen from its side: the ground and what lies on it along the shot line, the flight over it, and how both ends of the flight are spread.
 */
#include "odds-private.h"
#include "section-private.h"

#include <math.h>

/* The line is followed at least so many deviations beyond the mean ball, and so far beyond hole and rest. */
#define LEAST_DEVIATIONS 4.0
#define LEAST_BEYOND_M 20.0
/* Points of the ground at most: on a drawing of kilometres they stand farther apart. */
#define MOST_GROUND 800
/* A ball that is topped does not fly backwards. */
#define LEAST_STRETCH 0.05
/* Shorter stretches are not seen. */
#define LEAST_STRETCH_M 0.05

static Vec2
on_line (const ShotLine *line, double at_m)
{
  return vec2_add (line->ball, vec2_scale (line->along, at_m));
}

static double
along_line (const ShotLine *line, Vec2 at)
{
  return vec2_dot (line->along, vec2_sub (at, line->ball));
}

/* ---- the ground ---- */

/* Where the line, followed from the ball by `direction` 1 or -1, leaves the box; 0 when the ball is not in it. */
static double
leaves_box (const ShotLine *line, Box box, double direction)
{
  if (!box_contains (box, line->ball))
    return 0;
  double x = direction * line->along.x, y = direction * line->along.y;
  double across = x > 0 ? (box.x1 - line->ball.x) / x : x < 0 ? (box.x0 - line->ball.x) / x : INFINITY;
  double up = y > 0 ? (box.y1 - line->ball.y) / y : y < 0 ? (box.y0 - line->ball.y) / y : INFINITY;
  return fmin (across, up);
}

static void
look_at_ground (const Ground *ground, const ShotLine *line, double from_m, double to_m, Section *section)
{
  double steps = ground->terrain != NULL ? fmin (MOST_GROUND - 1, ceil ((to_m - from_m) / SECTION_STEP_M)) : 1;
  double ball_m = ground_height (ground, line->ball);
  section->n_ground = (size_t)steps + 1;
  section->ground = g_new (SectionPoint, section->n_ground);
  for (size_t i = 0; i < section->n_ground; i++)
    {
      double at_m = from_m + (to_m - from_m) * (double)i / steps;
      section->ground[i] = (SectionPoint){ at_m, ground_height (ground, on_line (line, at_m)) - ball_m };
    }
}

double
section_ground (const Section *section, double at_m)
{
  const SectionPoint *ground = section->ground;
  size_t last = section->n_ground - 1;
  double step_m = (ground[last].at_m - ground[0].at_m) / (double)last;
  double place = fmax (0, fmin ((double)last, (at_m - ground[0].at_m) / step_m));
  size_t i = (size_t)fmin ((double)last - 1, place);
  double share = place - (double)i;
  return ground[i].height_m + share * (ground[i + 1].height_m - ground[i].height_m);
}

/* ---- what lies on it ---- */

/* One crossing of the line with an area. */
typedef struct
{
  double from_m, to_m;
  int part;
} Crossing;

static void
cross_behind (const Hole *hole, const ShotLine *line, double from_m, GArray *crossings)
{
  Vec2 back = vec2_scale (line->along, -1), end = on_line (line, from_m);
  Box reach = box_with_point (box_with_point (box_empty (), line->ball), end);
  IntervalList list = { 0 };
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (kind_info (part->kind)->shape != SHAPE_AREA || part->kind == KIND_NONE || !box_overlaps (reach, part->bounds))
        continue;
      outline_crossings (part->outline, line->ball, back, -from_m, &list);
      for (size_t k = 0; k < list.n_items; k++)
        {
          Crossing crossing = { -list.items[k].leave_m, -list.items[k].enter_m, (int)i };
          g_array_append_val (crossings, crossing);
        }
    }
  interval_list_clear (&list);
}

static int
compare_numbers (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return x < y ? -1 : x > y ? 1 : 0;
}

/* The last of the hole's areas that crosses there: the one on top. */
static int
top_at (const GArray *crossings, double at_m)
{
  int top = -1;
  for (guint i = 0; i < crossings->len; i++)
    {
      const Crossing *crossing = &g_array_index (crossings, Crossing, i);
      if (crossing->from_m < at_m && crossing->to_m > at_m)
        top = MAX (top, crossing->part);
    }
  return top;
}

static void
stack_stretches (const Hole *hole, const GArray *crossings, const GArray *edges, Section *section)
{
  GArray *stretches = g_array_new (FALSE, FALSE, sizeof (SectionStretch));
  for (guint i = 0; i + 1 < edges->len; i++)
    {
      double from_m = g_array_index (edges, double, i), to_m = g_array_index (edges, double, i + 1);
      int part = top_at (crossings, 0.5 * (from_m + to_m));
      SectionStretch *before = stretches->len > 0 ? &g_array_index (stretches, SectionStretch, stretches->len - 1) : NULL;
      if (before != NULL && (before->part == part || to_m - from_m < LEAST_STRETCH_M))
        before->to_m = to_m;
      else
        {
          Kind kind = part < 0 ? hole_info (hole)->ground : hole_part (hole, (size_t)part)->kind;
          SectionStretch stretch = { from_m, to_m, part, kind };
          g_array_append_val (stretches, stretch);
        }
    }
  section->n_stretches = stretches->len;
  section->stretches = (SectionStretch *)(void *)g_array_free (stretches, FALSE);
}

static void
look_at_areas (const Hole *hole, const ShotLine *line, const CarryTable *carries, Section *section)
{
  double from_m = section->ground[0].at_m, to_m = section->ground[section->n_ground - 1].at_m;
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (Crossing));
  g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (double));
  cross_behind (hole, line, from_m, crossings);
  for (size_t i = 0; i < carries->n_rows; i++)
    {
      const CarryRow *row = &carries->rows[i];
      Crossing crossing = { row->reach_m, row->carry_m, (int)row->part };
      if (row->side == SIDE_ON)
        g_array_append_val (crossings, crossing);
    }
  const double ends[] = { from_m, to_m };
  g_array_append_vals (edges, ends, G_N_ELEMENTS (ends));
  for (guint i = 0; i < crossings->len; i++)
    {
      const Crossing *crossing = &g_array_index (crossings, Crossing, i);
      const double both[] = { fmax (from_m, fmin (to_m, crossing->from_m)), fmax (from_m, fmin (to_m, crossing->to_m)) };
      g_array_append_vals (edges, both, G_N_ELEMENTS (both));
    }
  g_array_sort (edges, compare_numbers);
  stack_stretches (hole, crossings, edges, section);
}

/* ---- the flight ---- */

/* The mean ball's track stretched to come down at `lands_m`, on the ground there. */
static void
stretch_track (const Section *section, const Track *track, double lands_m, SectionPoint *points)
{
  double landing_m = track->line.landing_m;
  double lift_m = lands_m == landing_m ? 0 : section_ground (section, lands_m) - section_ground (section, landing_m);
  for (int i = 0; i <= SECTION_TRACK_STEPS; i++)
    {
      double share = (double)i / SECTION_TRACK_STEPS, side_m, height_m;
      track_at (track, share * landing_m, &side_m, &height_m);
      points[i] = (SectionPoint){ share * lands_m, height_m + share * lift_m };
    }
}

static void
draw_tracks (const ShotResult *shot, const Track *track, Section *section)
{
  double landing_m = track->line.landing_m, off_m = SECTION_SPREAD_SDS * section->landing.sd_m;
  stretch_track (section, track, landing_m, section->track);
  stretch_track (section, track, fmax (LEAST_STRETCH * landing_m, landing_m - off_m), section->nearest);
  stretch_track (section, track, landing_m + off_m, section->farthest);
  section->apex = (SectionPoint){ 0, shot->apex_m };
  int highest = 0;
  for (int i = 1; i <= TRACK_STEPS; i++)
    if (track->height_m[i] > track->height_m[highest])
      highest = i;
  section->apex.at_m = highest * track->step_m;
}

/* A pattern's spread along the line. */
static SectionSpread
spread_along (const ShotLine *line, const Pattern *pattern)
{
  double l = vec2_dot (pattern->along, line->along) * pattern->long_sd_m;
  double s = vec2_cross (pattern->along, line->along) * -pattern->side_sd_m;
  double variance = l * l + s * s + 2 * pattern->correlation * l * s;
  return (SectionSpread){ along_line (line, pattern->mean), variance > 0 ? sqrt (variance) : 0 };
}

/* ---- the whole section ---- */

static void
look_ahead (const Hole *hole, const ShotResult *shot, const CarryTable *carries, Section *section)
{
  section->ahead = -1;
  section->ahead_m = NAN;
  for (size_t i = 0; i < carries->n_rows && section->ahead < 0; i++)
    if (carries->rows[i].side == SIDE_ON && carries->rows[i].reach_m > section->rest.mean_m
        && carry_row_is_telling (hole, shot, carries, i))
      {
        section->ahead = (int)i;
        section->ahead_m = carries->rows[i].reach_m - section->rest.mean_m;
      }
}

Section *
section_new (const Hole *hole, const char *hole_name, const ShotResult *shot, const CarryTable *carries, const TreeTable *trees)
{
  Section *section = g_new0 (Section, 1);
  g_autofree Track *track = g_new (Track, 1);
  Ground ground;
  Vec2 target;
  track_make (shot, track);
  const ShotLine *line = &track->line;
  section->landing = spread_along (line, &shot->pattern);
  section->rest = spread_along (line, &shot->rest_pattern);
  section->aim_m = shot->aim_m;
  section->hole_m = section->hole_left_m = NAN;
  if (hole_target (hole, hole_name, &target))
    {
      Vec2 to_aim = vec2_unit (vec2_sub (shot->aim, shot->ball)), to_hole = vec2_sub (target, shot->ball);
      section->hole_m = vec2_dot (to_aim, to_hole);
      section->hole_left_m = vec2_cross (to_aim, to_hole);
    }
  section->lands_on = hole_kind_at (hole, shot->landing);
  section->rests_on = hole_kind_at (hole, shot->rest);

  double from_m = -fmax (LEAST_BEYOND_M, leaves_box (line, hole_extent (hole), -1));
  double to_m = fmax (line->landing_m + LEAST_DEVIATIONS * section->landing.sd_m,
                      fmax (section->rest.mean_m, section->aim_m) + LEAST_BEYOND_M);
  to_m = fmax (fmax (to_m, section->hole_m + LEAST_BEYOND_M), leaves_box (line, hole_extent (hole), 1));
  ground_init (&ground, hole, &shot->conditions);
  look_at_ground (&ground, line, from_m, to_m, section);
  look_at_areas (hole, line, carries, section);
  draw_tracks (shot, track, section);
  if (trees != NULL)
    section_look_at_trees (hole, track, carries, trees, section);
  look_ahead (hole, shot, carries, section);
  return section;
}

void
section_free (Section *section)
{
  if (section == NULL)
    return;
  g_free (section->ground);
  g_free (section->stretches);
  g_free (section->trees);
  g_free (section);
}
