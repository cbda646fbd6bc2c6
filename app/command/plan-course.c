// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The plans of a course's holes, one hole to a thread: holes share nothing but the bag, and threads within a hole wait for one another.
 */
#include "plan-losses.h"
#include "plan-private.h"
#include "svg.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Each hole that is being solved takes up to 200 MB, and each thread has one. */
#define MOST_WORKERS 4

/* Over par is what the length, and all that strokes are lost to, add up to. */
static const Column hole_columns[] = {
  { "hole", COLUMN_TEXT },        { "par", COLUMN_COUNT },
  { "club", COLUMN_TEXT },        { "expected_score", COLUMN_NUMBER },
  { "over_par", COLUMN_NUMBER },  { "length", COLUMN_NUMBER },
  { "penalty", COLUMN_NUMBER },   { "sand", COLUMN_NUMBER },
  { "trees", COLUMN_NUMBER },     { "rough", COLUMN_NUMBER },
  { "good_lies", COLUMN_NUMBER },
};

typedef struct
{
  const char *path; /* the course's */
  Hole *hole;
  Conditions conditions;
  double share; /* 0..1, done */
  Plan *plan;   /* NULL: it has none, then with an error */
  PlanLosses losses;
  GError *error;
} CourseHole;

typedef struct
{
  const Options *options;
  const Bag *bag;
  CourseHole *holes;
  size_t n_holes;
  CourseHole **by_size; /* the largest first, so that no thread is left with one */
  gint next;            /* atomic */
  GMutex lock;          /* for the progress */
  Progress progress;
} CourseRun;

typedef struct
{
  CourseRun *run;
  CourseHole *hole;
} Teller;

/* From any thread. */
static void
tell_hole (double share, const PlanSolution *so_far, void *data)
{
  const Teller *teller = data;
  CourseRun *run = teller->run;
  double sum = 0;
  g_mutex_lock (&run->lock);
  teller->hole->share = share;
  for (size_t i = 0; i < run->n_holes; i++)
    sum += run->holes[i].share;
  progress_tell (&run->progress, sum / (double)run->n_holes);
  g_mutex_unlock (&run->lock);
}

static void
plan_hole (CourseRun *run, CourseHole *hole)
{
  Teller teller = { run, hole };
  PlanQuestion question = { .tee = run->options->tee,
                            .hole_name = run->options->hole,
                            .conditions = &hole->conditions,
                            .lies = bag_lies (run->bag),
                            .n_threads = 1,
                            .progress = tell_hole,
                            .data = &teller };
  g_autoptr (PlanSolution) solution = plan_solve (hole->hole, run->bag, &question, &hole->error);
  g_autofree Plan *plan = g_new0 (Plan, 1);
  if (solution != NULL && plan_make (solution, PLAN_SUGGESTED, plan, &hole->error)
      && plan_losses (solution, plan, NULL, &hole->losses, &hole->error))
    hole->plan = g_steal_pointer (&plan);
  else
    g_prefix_error (&hole->error, "%s:1: ", hole->path);
}

static gpointer
work (gpointer data)
{
  CourseRun *run = data;
  for (;;)
    {
      gint i = g_atomic_int_add (&run->next, 1);
      if ((size_t)i >= run->n_holes)
        return NULL;
      if (run->by_size[i]->hole != NULL)
        plan_hole (run, run->by_size[i]);
    }
}

static double
area_m2 (const CourseHole *hole)
{
  if (hole->hole == NULL)
    return 0;
  Box box = hole_extent (hole->hole);
  return (box.x1 - box.x0) * (box.y1 - box.y0);
}

static int
compare_sizes (const void *a, const void *b)
{
  double first = area_m2 (*(CourseHole *const *)a), second = area_m2 (*(CourseHole *const *)b);
  return (first < second) - (first > second);
}

/* This thread works as well; where the system gives no others, it does it all. */
static void
plan_holes (CourseRun *run)
{
  GThread *threads[MOST_WORKERS];
  size_t n_threads = 0, wanted = MIN ((size_t)g_get_num_processors (), MIN ((size_t)MOST_WORKERS, run->n_holes));
  for (; n_threads + 1 < wanted; n_threads++)
    if ((threads[n_threads] = g_thread_try_new ("plans", work, run, NULL)) == NULL)
      break;
  work (run);
  for (size_t i = 0; i < n_threads; i++)
    g_thread_join (threads[i]);
}

static void
read_holes (CourseRun *run, const Course *course, FILE *err)
{
  for (size_t i = 0; i < course->n_holes; i++)
    {
      CourseHole *hole = &run->holes[i];
      hole->path = course->hole_files[i];
      hole->hole = plan_read_hole (run->options, hole->path, &hole->conditions, err, &hole->error);
      run->by_size[i] = hole;
    }
  qsort (run->by_size, run->n_holes, sizeof (CourseHole *), compare_sizes);
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
  Sum one = { .strokes = hole->plan->strokes, .par = info->par > 0 ? info->par : NAN, .open = hole->losses.open_strokes };
  memcpy (one.lost, hole->losses.lost, sizeof one.lost);
  add_course_row (table, info->title != NULL ? info->title : base, hole->plan->shots[0].shot.club->name, &one);
  sum->strokes += one.strokes;
  sum->par += one.par;
  sum->open += one.open;
  for (int loss = 0; loss < N_PLAN_LOSSES; loss++)
    sum->lost[loss] += one.lost[loss];
  sum->n_planned++;
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
    if (run->holes[i].plan != NULL)
      add_hole (table, &run->holes[i], &sum);
    else
      message_print (err, run->holes[i].error->message);
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
  g_autofree CourseHole **by_size = g_new0 (CourseHole *, course->n_holes);
  CourseRun run = { .options = options, .bag = bag, .holes = holes, .n_holes = course->n_holes, .by_size = by_size };
  g_mutex_init (&run.lock);
  bool is_written = write_holes (&run, course, out, err, error);
  g_mutex_clear (&run.lock);
  for (size_t i = 0; i < course->n_holes; i++)
    {
      g_clear_pointer (&holes[i].hole, hole_unref);
      g_clear_error (&holes[i].error);
      g_free (holes[i].plan);
    }
  return is_written;
}
