// SPDX-License-Identifier: GPL-3.0-or-later
/* The plans of a course's holes as a table, a row a hole. */
#include "plan-course.h"
#include "plan-private.h"
#include "svg.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Over par is what the length, and all that strokes are lost to, add up to. */
static const Column hole_columns[] = {
  { "hole", COLUMN_TEXT },         { "par", COLUMN_COUNT },
  { "club", COLUMN_TEXT },         { "expected_score", COLUMN_STROKES },
  { "over_par", COLUMN_STROKES },  { "length", COLUMN_STROKES },
  { "penalty", COLUMN_STROKES },   { "sand", COLUMN_STROKES },
  { "trees", COLUMN_STROKES },     { "rough", COLUMN_STROKES },
  { "good_lies", COLUMN_STROKES },
};

typedef struct
{
  const char *path; /* the course's */
  Hole *hole;
  Conditions conditions;
  PlanCourseHole asked;
} CourseHole;

typedef struct
{
  const Options *options;
  const Bag *bag;
  CourseHole *holes;
  size_t n_holes;
  Progress progress;
} CourseRun;

static void
on_told (double share, const PlanCourseHole *answered, void *data)
{
  progress_tell (data, share);
}

static double
area_m2 (const PlanCourseHole *asked)
{
  if (asked->hole == NULL)
    return 0;
  Box box = hole_extent (asked->hole);
  return (box.x1 - box.x0) * (box.y1 - box.y0);
}

static int
compare_sizes (const void *a, const void *b)
{
  double first = area_m2 (*(PlanCourseHole *const *)a), second = area_m2 (*(PlanCourseHole *const *)b);
  return (first < second) - (first > second);
}

/* The largest first, so that no thread is left with one. */
static void
plan_holes (CourseRun *run)
{
  g_autofree PlanCourseHole **by_size = g_new (PlanCourseHole *, run->n_holes + 1);
  for (size_t i = 0; i < run->n_holes; i++)
    by_size[i] = &run->holes[i].asked;
  qsort (by_size, run->n_holes, sizeof (PlanCourseHole *), compare_sizes);
  plan_course (by_size, run->n_holes, run->bag, NULL, on_told, &run->progress);
}

static void
read_holes (CourseRun *run, const Course *course, FILE *err)
{
  for (size_t i = 0; i < course->n_holes; i++)
    {
      CourseHole *hole = &run->holes[i];
      hole->path = course->hole_files[i];
      hole->hole = plan_read_hole (run->options, hole->path, &hole->conditions, err, &hole->asked.error);
      hole->asked.hole = hole->hole;
      hole->asked.tee = run->options->tee;
      hole->asked.hole_name = run->options->hole;
      hole->asked.conditions = &hole->conditions;
    }
}

/* ---- the table ---- */

/* Of the holes that have a plan. */
typedef struct
{
  double strokes, par, open; /* par is NAN where a hole has none */
  double lost[N_PLAN_LOSSES];
  size_t n_planned;
} Sum;

static void
add_course_row (Table *table, const char *name, const char *club, const Sum *sum)
{
  table_add_text (table, name);
  table_add_number (table, sum->par);
  table_add_text (table, club);
  table_add_number (table, sum->strokes);
  table_add_number (table, sum->strokes - sum->par);
  table_add_number (table, sum->open - sum->par);
  for (int loss = 0; loss < N_PLAN_LOSSES; loss++)
    table_add_number (table, sum->lost[loss]);
}

static void
add_hole (Table *table, const CourseHole *hole, Sum *sum)
{
  const HoleInfo *info = hole_info (hole->hole);
  g_autofree char *base = g_path_get_basename (hole->path);
  const PlanCourseHole *answer = &hole->asked;
  Sum one = { .strokes = answer->plan->strokes, .par = info->par > 0 ? info->par : NAN, .open = answer->losses.open_strokes };
  memcpy (one.lost, answer->losses.lost, sizeof one.lost);
  add_course_row (table, info->title != NULL ? info->title : base, answer->plan->shots[0].shot.club->name, &one);
  sum->strokes += one.strokes;
  sum->par += one.par;
  sum->open += one.open;
  for (int loss = 0; loss < N_PLAN_LOSSES; loss++)
    sum->lost[loss] += one.lost[loss];
  sum->n_planned++;
}

/* What could not be read names its file itself. */
static void
tell_failure (CourseHole *hole, FILE *err)
{
  if (hole->hole != NULL)
    g_prefix_error (&hole->asked.error, "%s:1: ", hole->path);
  message_print (err, hole->asked.error->message);
}

/* A hole without a plan is named, and the others are planned all the same. */
static bool
write_holes (CourseRun *run, const Course *course, FILE *out, FILE *err, GError **error)
{
  read_holes (run, course, err);
  progress_init (&run->progress, err, "solving the holes");
  plan_holes (run);
  progress_end (&run->progress);
  g_autoptr (Table) table
      = table_new ("holes", "Each hole's plan from the tee, and to what strokes over par are lost; the last row is the course",
                   hole_columns, G_N_ELEMENTS (hole_columns));
  Sum sum = { 0 };
  for (size_t i = 0; i < run->n_holes; i++)
    if (run->holes[i].asked.plan != NULL)
      add_hole (table, &run->holes[i], &sum);
    else
      tell_failure (&run->holes[i], err);
  const char *folder = run->options->files[0];
  if (sum.n_planned == 0)
    {
      g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT, "%s: no hole of the course has a plan", folder);
      return false;
    }
  add_course_row (table, course->name != NULL ? course->name : "course", NULL, &sum);
  Table *tables[] = { table };
  if (!tables_write (tables, 1, 0, run->options, out, error))
    return false;
  if (sum.n_planned == course->n_holes)
    return true;
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT, "%s: %zu of %zu holes have no plan and are not in the sum", folder,
               course->n_holes - sum.n_planned, course->n_holes);
  return false;
}

bool
plan_write_course (const Options *options, FILE *out, FILE *err, GError **error)
{
  const char *path = options->files[0];
  g_autoptr (Course) course = svg_read_course (path, error);
  if (course == NULL)
    return false;
  g_autoptr (Bag) bag = input_bag (options, course->folder, true, err, error);
  if (bag == NULL)
    return false;
  g_autofree CourseHole *holes = g_new0 (CourseHole, course->n_holes);
  CourseRun run = { .options = options, .bag = bag, .holes = holes, .n_holes = course->n_holes };
  bool is_written = write_holes (&run, course, out, err, error);
  for (size_t i = 0; i < course->n_holes; i++)
    {
      g_clear_pointer (&holes[i].hole, hole_unref);
      plan_course_clear (&holes[i].asked);
    }
  return is_written;
}
