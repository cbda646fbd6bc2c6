// SPDX-License-Identifier: GPL-3.0-or-later
/* What is suspect about a hole that reads well: one function a question, in the order a golfer would ask. */
#include "findings-private.h"
#include "units.h"

#include <string.h>

/* How far outside its area a marker may stand before it is worth a word: its own size and a careless click. */
#define MARKER_SLACK_M 1.0
/* How far from every tee marker a line of play may begin: a marker is moved about within the teeing ground. Common practice. */
#define TEE_SLACK_M 30.0
/* A shot shorter than this has no direction to speak of. */
#define SHORTEST_SHOT_M 0.5
/* Pairs of edges compared in search of crossings, a tenth of a second: twenty times a rich hole's. What is left then is not searched. */
#define MOST_PAIRS 5e7

typedef struct
{
  const Hole *hole;
  GPtrArray *findings;
  double pairs_left;
} Check;

/* Notes something about part `part` (-1: the hole as a whole), which edit_mend can mend in this way. */
static void G_GNUC_PRINTF (7, 8) note (Check *check, Found about, FindingSeverity severity, int part, Mend mend_kind,
                                       const char *mend, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  unsigned line = part >= 0 ? hole_part (check->hole, (size_t)part)->line : 0;
  Finding *finding = findings_add (check->findings, severity, line, g_strdup_vprintf (format, arguments), mend);
  va_end (arguments);
  if (!finding)
    return;
  finding->about = about;
  finding->part = part;
  finding->mend_kind = mend_kind;
}

/* The next part of a kind from index `i` on, which is moved behind it; NULL after the last. */
static const Part *
next_part (const Hole *hole, Kind kind, size_t *i)
{
  while (*i < hole_n_parts (hole))
    {
      const Part *part = hole_part (hole, (*i)++);
      if (part->kind == kind)
        return part;
    }
  return NULL;
}

static size_t
count_kind (const Hole *hole, Kind kind)
{
  size_t i = 0, n = 0;
  while (next_part (hole, kind, &i))
    n++;
  return n;
}

/* Index of the first part of a kind, -1 if there is none. */
static int
first_part (const Hole *hole, Kind kind)
{
  size_t i = 0;
  return next_part (hole, kind, &i) ? (int)i - 1 : -1;
}

/* In an area of the kind, or so near to one. */
static bool
is_on (const Hole *hole, Kind kind, Vec2 point, double slack_m)
{
  size_t i = 0;
  for (const Part *area = next_part (hole, kind, &i); area; area = next_part (hole, kind, &i))
    if (outline_contains (area->outline, point) || outline_distance (area->outline, point, NULL) <= slack_m)
      return true;
  return false;
}

/* ---- what a hole needs ---- */

static void
check_essentials (Check *check)
{
  bool has_green = count_kind (check->hole, KIND_GREEN) > 0;
  int tee = first_part (check->hole, KIND_TEE);
  if (!has_green)
    note (check, FOUND_NO_GREEN, FINDING_ERROR, -1, MEND_NONE, "draw it and give the shape hw:kind=\"green\"",
          "the hole has no green");
  if (count_kind (check->hole, KIND_TEE_MARKER) == 0)
    note (check, FOUND_NO_TEE_MARKER, FINDING_ERROR, tee, tee >= 0 ? MEND_ADD_TEE_MARKER : MEND_NONE,
          "add a circle with hw:kind=\"tee-marker\"", "the hole has no tee marker");
  if (count_kind (check->hole, KIND_HOLE_LOCATION) == 0)
    note (check, FOUND_NO_HOLE_LOCATION, FINDING_WARNING, hole_green (check->hole, NULL),
          has_green ? MEND_ADD_HOLE_LOCATION : MEND_NONE,
          "add a circle with hw:kind=\"hole-location\"; until then the middle of the green serves",
          "the green has no hole location");
  if (count_kind (check->hole, KIND_LINE_OF_PLAY) == 0)
    note (check, FOUND_NO_LINE_OF_PLAY, FINDING_NOTE, -1, MEND_NONE,
          "add a polyline with hw:kind=\"line-of-play\"; until then the hole is measured straight",
          "the hole has no line of play");
  if (hole_info (check->hole)->par == 0)
    note (check, FOUND_NO_PAR, FINDING_NOTE, -1, MEND_NONE, "add hw:par to the root", "the hole has no par");
}

static void
check_shapes_without_kind (Check *check)
{
  size_t n = count_kind (check->hole, KIND_NONE);
  int first = first_part (check->hole, KIND_NONE);
  if (n == 1)
    note (check, FOUND_NO_KIND, FINDING_NOTE, first, MEND_NONE, "give it hw:kind, or leave it as decoration",
          "a shape has no kind");
  if (n > 1)
    note (check, FOUND_NO_KIND, FINDING_NOTE, first, MEND_NONE, "give them hw:kind, or leave them as decoration",
          "%zu shapes have no kind, the first of them here", n);
}

/* ---- things in their places ---- */

static void
check_markers_stand_on (Check *check, Kind marker_kind, Kind area_kind, const char *mend)
{
  char buffer[64];
  size_t i = 0;
  if (count_kind (check->hole, area_kind) == 0)
    return;
  for (const Part *part = next_part (check->hole, marker_kind, &i); part; part = next_part (check->hole, marker_kind, &i))
    if (!is_on (check->hole, area_kind, part->at, MARKER_SLACK_M))
      note (check, FOUND_OFF_ITS_AREA, FINDING_WARNING, (int)i - 1, MEND_MOVE_ONTO_AREA, mend,
            "the %s \"%s\" does not stand on a %s", kind_info (marker_kind)->label, part_label (part, buffer, sizeof buffer),
            kind_info (area_kind)->label);
}

static void
check_markers (Check *check)
{
  check_markers_stand_on (check, KIND_TEE_MARKER, KIND_TEE, "move it, or draw the tee under it");
  check_markers_stand_on (check, KIND_HOLE_LOCATION, KIND_GREEN, "move it onto the green");
}

static void
check_line_of_play (Check *check)
{
  size_t i = 0;
  bool has_green = count_kind (check->hole, KIND_GREEN) > 0;
  for (const Part *line = next_part (check->hole, KIND_LINE_OF_PLAY, &i); line;
       line = next_part (check->hole, KIND_LINE_OF_PLAY, &i))
    {
      Vec2 start = line->path.segs[0].to, end = path_current (&line->path);
      size_t k = 0;
      bool starts_well = count_kind (check->hole, KIND_TEE_MARKER) == 0;
      for (const Part *tee = next_part (check->hole, KIND_TEE_MARKER, &k); tee;
           tee = next_part (check->hole, KIND_TEE_MARKER, &k))
        starts_well = starts_well || vec2_distance (tee->at, start) <= TEE_SLACK_M;
      if (!starts_well)
        note (check, FOUND_LINE_OFF_TEE, FINDING_WARNING, (int)i - 1, has_green ? MEND_LINE_TO_GREEN : MEND_NONE,
              "begin it at a tee marker", "the line of play does not begin at a tee");
      if (has_green && !is_on (check->hole, KIND_GREEN, end, MARKER_SLACK_M))
        note (check, FOUND_LINE_OFF_GREEN, FINDING_WARNING, (int)i - 1, MEND_LINE_TO_GREEN, "end it at the centre of the green",
              "the line of play does not end on the green");
    }
}

static void
check_view_box (Check *check)
{
  char buffer[64];
  Box view = hole_info (check->hole)->view_box;
  if (box_is_empty (view))
    {
      note (check, FOUND_NO_SHEET, FINDING_NOTE, -1, MEND_GROW_SHEET, "add viewBox=\"left top width height\" in metres",
            "the drawing has no viewBox");
      return;
    }
  for (size_t i = 0; i < hole_n_parts (check->hole); i++)
    {
      const Part *part = hole_part (check->hole, i);
      if (!box_is_empty (part->bounds) && !box_overlaps (view, part->bounds))
        note (check, FOUND_OFF_SHEET, FINDING_WARNING, (int)i, MEND_GROW_SHEET, "move it, or make the viewBox larger",
              "the %s \"%s\" lies outside the viewBox", kind_info (part->kind)->label,
              part_label (part, buffer, sizeof buffer));
    }
}

/* ---- outlines ---- */

/* Do the segments a-b and c-d cross, each passing from one side of the other to its other side? */
static bool
segments_cross (Vec2 a, Vec2 b, Vec2 c, Vec2 d)
{
  Vec2 ab = vec2_sub (b, a), cd = vec2_sub (d, c);
  double c_side = vec2_cross (ab, vec2_sub (c, a)), d_side = vec2_cross (ab, vec2_sub (d, a));
  double a_side = vec2_cross (cd, vec2_sub (a, c)), b_side = vec2_cross (cd, vec2_sub (b, c));
  return ((c_side > 0 && d_side < 0) || (c_side < 0 && d_side > 0))
         && ((a_side > 0 && b_side < 0) || (a_side < 0 && b_side > 0));
}

static bool
ring_crosses_itself (Check *check, const Vec2 *points, size_t n)
{
  check->pairs_left -= (double)n * (double)n / 2;
  if (check->pairs_left < 0)
    return false;
  for (size_t i = 0; i + 1 < n; i++)
    for (size_t k = i + 2; k < n; k++)
      if (segments_cross (points[i], points[i + 1], points[k], points[k + 1 < n ? k + 1 : 0]))
        return true;
  return false;
}

static void
check_outlines (Check *check)
{
  char buffer[64];
  for (size_t i = 0; i < hole_n_parts (check->hole); i++)
    {
      const Part *part = hole_part (check->hole, i);
      const Outline *outline = part->outline;
      for (size_t r = 0; outline && part->kind != KIND_NONE && r < outline->n_rings; r++)
        if (ring_crosses_itself (check, outline->points + outline->ring_starts[r],
                                 outline->ring_starts[r + 1] - outline->ring_starts[r]))
          {
            note (check, FOUND_CROSSING, FINDING_WARNING, (int)i, MEND_UNCROSS, "move the points of the loop apart",
                  "the outline of the %s \"%s\" crosses itself", kind_info (part->kind)->label,
                  part_label (part, buffer, sizeof buffer));
            break;
          }
    }
}

/* ---- facts ---- */

static void
check_heights (Check *check)
{
  size_t i = 0;
  for (const Part *part = next_part (check->hole, KIND_SPOT_HEIGHT, &i); part;
       part = next_part (check->hole, KIND_SPOT_HEIGHT, &i))
    if (isnan (part->height_m))
      note (check, FOUND_NO_HEIGHT, FINDING_WARNING, (int)i - 1, MEND_NONE, "give it hw:height_m",
            "a spot height has no height");
  i = 0;
  for (const Part *part = next_part (check->hole, KIND_SLOPE, &i); part; part = next_part (check->hole, KIND_SLOPE, &i))
    if (isnan (part->percent))
      note (check, FOUND_NO_FALL, FINDING_WARNING, (int)i - 1, MEND_NONE, "give it hw:percent", "a slope has no steepness");
}

static void
check_names (Check *check)
{
  static const Kind named[] = { KIND_TEE_MARKER, KIND_HOLE_LOCATION, KIND_MARK };
  for (size_t k = 0; k < G_N_ELEMENTS (named); k++)
    {
      g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
      size_t i = 0, n_today = 0;
      for (const Part *part = next_part (check->hole, named[k], &i); part; part = next_part (check->hole, named[k], &i))
        {
          if (part->name && !g_hash_table_add (seen, part->name))
            note (check, FOUND_SAME_NAME, FINDING_WARNING, (int)i - 1, MEND_NONE, "give each its own name",
                  "two of kind %s are called \"%s\"", kind_info (named[k])->label, part->name);
          if (part->today && n_today++ > 0)
            note (check, FOUND_TWO_TODAY, FINDING_WARNING, (int)i - 1, MEND_NONE, "leave hw:today=\"yes\" on one of them",
                  "two hole locations are today's");
        }
    }
}

static void
check_plan_names (Check *check, int i)
{
  const Part *plan = hole_part (check->hole, (size_t)i);
  if (plan->tee && hole_tee (check->hole, plan->tee) < 0)
    note (check, FOUND_NO_SUCH_TEE, FINDING_WARNING, i, MEND_NONE, "correct hw:tee",
          "a plan names the tee \"%s\", which is not there", plan->tee);
  if (plan->hole_name && hole_hole_location (check->hole, plan->hole_name) < 0)
    note (check, FOUND_NO_SUCH_HOLE, FINDING_WARNING, i, MEND_NONE, "correct hw:hole",
          "a plan names the hole location \"%s\", which is not there", plan->hole_name);
}

static void
check_plans (Check *check)
{
  size_t i = 0;
  for (const Part *plan = next_part (check->hole, KIND_PLAN, &i); plan; plan = next_part (check->hole, KIND_PLAN, &i))
    {
      check_plan_names (check, (int)i - 1);
      for (size_t k = 0; k < plan->n_shots; k++)
        if (vec2_distance (plan->shots[k].from, plan->shots[k].aim) < SHORTEST_SHOT_M)
          note (check, FOUND_AIM_ON_BALL, FINDING_WARNING, (int)i - 1, MEND_NONE, "move the aim away from the ball",
                "the aim of shot %zu is on the ball", k + 1);
    }
}

/* ---- par ---- */

static void
check_par_of (Check *check, int i, int par)
{
  const Part *tee = hole_part (check->hole, (size_t)i);
  double length_m;
  if (!tee->name || !hole_measured_length (check->hole, tee->name, &length_m))
    return;
  const char *fault = par_fault (hole_info (check->hole), par, length_m);
  if (fault)
    note (check, FOUND_ODD_PAR, FINDING_WARNING, i, MEND_NONE, "check the par, the scale and the line of play",
          "%.0f m (%.0f yd) from the tee marker \"%s\" is %s for a par %d", length_m, length_m / METRES_PER_YARD, tee->name,
          fault, par);
}

static void
check_par (Check *check)
{
  size_t i = 0;
  for (const Part *tee = next_part (check->hole, KIND_TEE_MARKER, &i); tee; tee = next_part (check->hole, KIND_TEE_MARKER, &i))
    check_par_of (check, (int)i - 1, tee->par > 0 ? tee->par : hole_info (check->hole)->par);
}

GPtrArray *
svg_check_hole (const Hole *hole)
{
  static void (*const questions[]) (Check *) = {
    check_essentials, check_shapes_without_kind,
    check_markers,    check_line_of_play,
    check_view_box,   check_outlines,
    check_heights,    check_names,
    check_plans,      check_par,
  };
  Check check = { hole, findings_new (), MOST_PAIRS };
  for (size_t i = 0; i < G_N_ELEMENTS (questions); i++)
    questions[i](&check);
  return check.findings;
}
