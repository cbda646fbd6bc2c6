// SPDX-License-Identifier: GPL-3.0-or-later
/* course - threads take the next hole until none is left, and then help with those that are. */
#include "plan-course.h"

#include "solve-private.h"

/* Each hole that is being solved takes up to 200 MB, and each thread has one. */
#define MOST_THREADS 4

typedef struct
{
  PlanCourseHole *const *holes;
  size_t n_holes;
  const Bag *bag;
  const gint *cancel;
  PlanCourseTold told;
  void *data;
  int n_each;            /* threads within a hole */
  gint next;             /* atomic */
  gint n_helpers;        /* atomic: that a hole may have besides */
  GMutex lock;           /* for what is told, and the next two */
  int n_working, n_done; /* threads that take holes; those for which there were no more */
  double *shares;        /* of each hole, done */
} CourseRun;

typedef struct
{
  CourseRun *run;
  size_t i;
} HoleRun;

static void
tell (CourseRun *run, size_t i, double share, const PlanCourseHole *answered)
{
  double sum = 0;
  g_mutex_lock (&run->lock);
  run->shares[i] = share;
  for (size_t k = 0; k < run->n_holes; k++)
    sum += run->shares[k];
  if (run->told != NULL)
    run->told (sum / (double)run->n_holes, answered, run->data);
  g_mutex_unlock (&run->lock);
}

static void
on_progress (double share, const PlanSolution *so_far, void *data)
{
  const HoleRun *one = data;
  tell (one->run, one->i, share, NULL);
}

static void
answer (CourseRun *run, size_t i)
{
  PlanCourseHole *hole = run->holes[i];
  HoleRun one = { run, i };
  PlanQuestion question = { .tee = hole->tee,
                            .hole_name = hole->hole_name,
                            .conditions = hole->conditions,
                            .lies = bag_lies (run->bag),
                            .n_threads = run->n_each,
                            .n_helpers = &run->n_helpers,
                            .cancel = run->cancel,
                            .progress = on_progress,
                            .data = &one };
  g_autoptr (PlanSolution) solution = plan_solve (hole->hole, run->bag, &question, &hole->error);
  g_autofree Plan *plan = g_new0 (Plan, 1);
  if (solution != NULL && plan_make (solution, PLAN_SUGGESTED, plan, &hole->error)
      && plan_losses (solution, plan, run->cancel, &hole->losses, &hole->error))
    hole->plan = g_steal_pointer (&plan);
}

/* Threads more or less that take holes: those that have none left are shared out among the others. */
static void
count_workers (CourseRun *run, int change)
{
  g_mutex_lock (&run->lock);
  run->n_working += change;
  run->n_done += change < 0;
  g_atomic_int_set (&run->n_helpers, run->n_working > 0 ? run->n_done * run->n_each / run->n_working : 0);
  g_mutex_unlock (&run->lock);
}

static gpointer
work (gpointer data)
{
  CourseRun *run = data;
  for (;;)
    {
      size_t i = (size_t)g_atomic_int_add (&run->next, 1);
      if (i >= run->n_holes || solve_is_cancelled (run->cancel))
        {
          count_workers (run, -1);
          return NULL;
        }
      if (run->holes[i]->hole != NULL)
        answer (run, i);
      tell (run, i, 1, run->holes[i]);
    }
}

void
plan_course (PlanCourseHole *const *holes, size_t n_holes, const Bag *bag, const gint *cancel, PlanCourseTold told, void *data)
{
  g_autofree double *shares = g_new0 (double, n_holes);
  size_t n_threads = 0, n_processors = g_get_num_processors (), n_asked = 0;
  for (size_t i = 0; i < n_holes; i++)
    n_asked += holes[i]->hole != NULL;
  size_t wanted = MIN (n_processors, MIN ((size_t)MOST_THREADS, n_asked));
  CourseRun run
      = { .holes = holes, .n_holes = n_holes, .bag = bag, .cancel = cancel, .told = told, .data = data, .shares = shares };
  run.n_each = (int)MAX (n_processors / MAX (n_asked, 1u), 1u);
  GThread *threads[MOST_THREADS];
  g_mutex_init (&run.lock);
  count_workers (&run, 1);
  for (; n_threads + 1 < wanted; n_threads++)
    {
      count_workers (&run, 1);
      if ((threads[n_threads] = g_thread_try_new ("course", work, &run, NULL)) == NULL)
        {
          count_workers (&run, -1);
          break;
        }
    }
  work (&run);
  for (size_t i = 0; i < n_threads; i++)
    g_thread_join (threads[i]);
  g_mutex_clear (&run.lock);
}

void
plan_course_clear (PlanCourseHole *hole)
{
  g_clear_pointer (&hole->plan, g_free);
  g_clear_error (&hole->error);
}
