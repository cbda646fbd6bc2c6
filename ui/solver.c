// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solver - what its worker finds of the shot in hand. A job owns all that it reads: the hole and the bag are immutable, the shot is a copy, the table of
 * strokes belongs to the solver, which is kept while a job runs.
 */
#include "solver.h"

#include "plan-ends.h"
#include "worker.h"

/* A pointer that rests so long has come to rest. */
#define REST_MS 60

typedef struct
{
  Hole *hole;
  Bag *bag;
  ShotResult shot; /* its club is the bag's */
  const StrokesTable *table;
  HwAnswer answer;
} Job;

struct _HwSolver
{
  GObject parent_instance;
  HwDocument *document;
  StrokesTable *tables[N_LEVELS]; /* made at the first use of a level; jobs read them */
  HwWorker *worker;
  Job *done;   /* the newest that came to its end */
  bool is_new; /* `done` is of the document as it is */
};

G_DEFINE_FINAL_TYPE (HwSolver, hw_solver, G_TYPE_OBJECT)

static guint answered;

static void
job_free (gpointer data)
{
  Job *job = data;
  g_clear_pointer (&job->answer.aims, aim_map_free);
  g_free (job->answer.choices);
  hole_unref (job->hole);
  bag_unref (job->bag);
  g_free (job);
}

/* ---- in the worker ---- */

/* What cannot be found - no green, no club that gets there - is left out: the panel says nothing of it. */
static void
work (gpointer data, HwRun *run)
{
  Job *job = data;
  HwAnswer *answer = &job->answer;
  const int *cancelled = hw_run_cancelled (run);
  PlanInput input = { .hole = job->hole,
                      .ball = job->shot.ball,
                      .table = job->table,
                      .conditions = &job->shot.conditions,
                      .lies = bag_lies (job->bag),
                      .lost_chance = PLAN_LOST_CHANCE,
                      .cancelled = cancelled };
  answer->aims = aim_map_new (&input, job->shot.club, NULL);
  double again = answer->aims != NULL ? answer->aims->again_strokes : NAN;
  answer->has_strokes = !g_atomic_int_get (cancelled) && plan_shot_strokes (&input, &job->shot, again, &answer->strokes, NULL);
  if (!g_atomic_int_get (cancelled))
    answer->choices = plan_clubs (&input, job->bag, &answer->n_choices, NULL);
  if (!g_atomic_int_get (cancelled))
    answer->has_approach = plan_approach (&input, job->bag, &answer->approach, NULL);
}

/* ---- before and after ---- */

static void
take_answer (gpointer solver, gpointer job)
{
  HwSolver *self = solver;
  g_clear_pointer (&self->done, job_free);
  self->done = job;
  self->is_new = true;
  g_signal_emit (self, answered, 0);
}

static const StrokesTable *
table_of (HwSolver *self, Level level)
{
  if (self->tables[level] == NULL)
    self->tables[level] = strokes_table_new (level);
  return self->tables[level];
}

static gpointer
make_job (gpointer solver)
{
  HwSolver *self = solver;
  const PlanScene *scene = hw_document_get_scene (self->document);
  Bag *bag = hw_document_get_bag (self->document);
  if (scene->n_shots == 0 || bag == NULL)
    return NULL;
  Job *job = g_new0 (Job, 1);
  job->hole = hole_ref (hw_document_get_hole (self->document));
  job->bag = bag_ref (bag);
  job->shot = scene->shots[scene->current];
  job->table = table_of (self, hw_settings_get_level (hw_document_get_settings (self->document)));
  return job;
}

static const HwWork shot_work = { make_job, work, NULL, take_answer, job_free, NULL };

static void
on_results_changed_cb (HwSolver *self)
{
  self->is_new = false;
  hw_worker_ask (self->worker, REST_MS);
}

const HwAnswer *
hw_solver_get_answer (HwSolver *self)
{
  return self->is_new ? &self->done->answer : NULL;
}

const AimMap *
hw_solver_get_aims (HwSolver *self)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  if (self->done == NULL || self->done->answer.aims == NULL || scene->n_shots == 0)
    return NULL;
  const ShotResult *now = &scene->shots[scene->current], *then = &self->done->shot;
  bool holds = self->done->bag == hw_document_get_bag (self->document) && now->club == then->club
               && vec2_distance (now->ball, then->ball) == 0 && conditions_equal (&now->conditions, &then->conditions)
               && hw_same_ground (scene->hole, self->done->hole);
  return holds ? self->done->answer.aims : NULL;
}

/* ---- the object ---- */

static void
hw_solver_dispose (GObject *object)
{
  HwSolver *self = HW_SOLVER (object);
  hw_worker_close (self->worker);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_solver_parent_class)->dispose (object);
}

static void
hw_solver_finalize (GObject *object)
{
  HwSolver *self = HW_SOLVER (object);
  hw_worker_free (self->worker);
  g_clear_pointer (&self->done, job_free);
  for (int level = 0; level < N_LEVELS; level++)
    g_clear_pointer (&self->tables[level], strokes_table_free);
  G_OBJECT_CLASS (hw_solver_parent_class)->finalize (object);
}

static void
hw_solver_class_init (HwSolverClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_solver_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_solver_finalize;
  answered = g_signal_new ("answered", HW_TYPE_SOLVER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_solver_init (HwSolver *self)
{
  self->worker = hw_worker_new (&shot_work, self);
}

HwSolver *
hw_solver_new (HwDocument *document)
{
  HwSolver *self = g_object_new (HW_TYPE_SOLVER, NULL);
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  on_results_changed_cb (self);
  return self;
}
