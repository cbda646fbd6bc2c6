// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solver - one worker at a time. A job owns all that it reads, so nothing has to be locked: the hole and the bag are immutable, the shot is a copy, the
 * table of strokes belongs to the solver, which the running task keeps alive.
 */
#include "solver.h"

#include <gio/gio.h>

/* A pointer that rests so long has come to rest. */
#define REST_MS 60
/* Lost among trees: one ball in five is not found in the three minutes of the Rules (common practice). */
#define LOST_CHANCE 0.2

typedef struct
{
  Hole *hole;
  Bag *bag;
  ShotResult shot; /* its club is the bag's */
  const StrokesTable *table;
  int cancelled; /* atomic */
  HwAnswer answer;
} Job;

struct _HwSolver
{
  GObject parent_instance;
  HwDocument *document;
  StrokesTable *tables[N_LEVELS]; /* made at the first use of a level; jobs read them */
  guint timer;
  Job *running; /* belongs to its task; NULL when none works */
  Job *done;    /* the newest that came to its end */
  bool is_new;  /* `done` is of the document as it is */
};

G_DEFINE_FINAL_TYPE (HwSolver, hw_solver, G_TYPE_OBJECT)

static guint answered;

static void
job_free (Job *job)
{
  g_clear_pointer (&job->answer.aims, aim_map_free);
  g_free (job->answer.choices);
  hole_unref (job->hole);
  bag_unref (job->bag);
  g_free (job);
}

/* ---- in the worker ---- */

/* What cannot be found - no green, no club that gets there - is left out: the panel says nothing of it. */
static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  HwAnswer *answer = &job->answer;
  PlanInput input = { .hole = job->hole,
                      .ball = job->shot.ball,
                      .table = job->table,
                      .conditions = &job->shot.conditions,
                      .lost_chance = LOST_CHANCE,
                      .cancelled = &job->cancelled };
  answer->aims = aim_map_new (&input, job->shot.club, NULL);
  double again = answer->aims != NULL ? answer->aims->again_strokes : NAN;
  answer->has_strokes
      = !g_atomic_int_get (&job->cancelled) && plan_shot_strokes (&input, &job->shot, again, &answer->strokes, NULL);
  if (!g_atomic_int_get (&job->cancelled))
    answer->choices = plan_clubs (&input, job->bag, &answer->n_choices, NULL);
  if (!g_atomic_int_get (&job->cancelled))
    answer->has_approach = plan_approach (&input, job->bag, &answer->approach, NULL);
  g_task_return_boolean (task, TRUE);
}

/* ---- before and after ---- */

static void solve_later (HwSolver *self);

static void
on_worked_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwSolver *self = HW_SOLVER (source);
  Job *job = g_task_get_task_data (G_TASK (result));
  self->running = NULL;
  if (g_atomic_int_get (&job->cancelled))
    {
      job_free (job);
      if (self->document != NULL && self->timer == 0)
        solve_later (self);
      return;
    }
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

static gboolean
on_rest_cb (gpointer solver)
{
  HwSolver *self = solver;
  const PlanScene *scene = hw_document_get_scene (self->document);
  Bag *bag = hw_document_get_bag (self->document);
  self->timer = 0;
  if (self->running != NULL || scene->n_shots == 0 || bag == NULL)
    return G_SOURCE_REMOVE; // one that still works asks again when it has stopped
  Job *job = g_new0 (Job, 1);
  job->hole = hole_ref (hw_document_get_hole (self->document));
  job->bag = bag_ref (bag);
  job->shot = scene->shots[scene->current];
  job->table = table_of (self, hw_settings_get_level (hw_document_get_settings (self->document)));
  self->running = job;
  g_autoptr (GTask) task = g_task_new (self, NULL, on_worked_cb, NULL);
  g_task_set_task_data (task, job, NULL);
  g_task_run_in_thread (task, work);
  return G_SOURCE_REMOVE;
}

static void
solve_later (HwSolver *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  self->timer = g_timeout_add (REST_MS, on_rest_cb, self);
}

static void
on_results_changed_cb (HwSolver *self)
{
  self->is_new = false;
  if (self->running != NULL)
    g_atomic_int_set (&self->running->cancelled, 1);
  solve_later (self);
}

const HwAnswer *
hw_solver_get_answer (HwSolver *self)
{
  return self->is_new ? &self->done->answer : NULL;
}

/* Do the two holes hold the same parts, but for their plans? */
static bool
same_ground (const Hole *a, const Hole *b)
{
  if (a == b)
    return true;
  if (hole_n_parts (a) != hole_n_parts (b) || !hole_info_equal (hole_info (a), hole_info (b)))
    return false;
  for (size_t i = 0; i < hole_n_parts (a); i++)
    if (hole_part (a, i) != hole_part (b, i) && (hole_part (a, i)->kind != KIND_PLAN || hole_part (b, i)->kind != KIND_PLAN))
      return false;
  return true;
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
               && same_ground (scene->hole, self->done->hole);
  return holds ? self->done->answer.aims : NULL;
}

/* ---- the object ---- */

static void
hw_solver_dispose (GObject *object)
{
  HwSolver *self = HW_SOLVER (object);
  g_clear_handle_id (&self->timer, g_source_remove);
  if (self->running != NULL)
    g_atomic_int_set (&self->running->cancelled, 1);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_solver_parent_class)->dispose (object);
}

static void
hw_solver_finalize (GObject *object)
{
  HwSolver *self = HW_SOLVER (object);
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
