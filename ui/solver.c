// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solver - what its workers find of the shot in hand. A job owns all that it reads: the hole and the bag are immutable, the shot is a copy, the table of
 * strokes belongs to the solver, which is kept while a job runs. The map of aims is told as soon as it is there; choices and approach take longer.
 */
#include "solver.h"

#include "plan-ends.h"
#include "trace.h"
#include "worker.h"

/* A pointer that rests so long has come to rest. */
#define REST_MS 60

/* A shot, and what keeps it what it is. */
typedef struct
{
  Hole *hole;
  Bag *bag;
  ShotResult shot; /* its club is the bag's */
} Asked;

/* The map of the shot's club, as it is told. */
typedef struct
{
  Asked asked;
  AimMap *map;
} Mapped;

typedef struct
{
  Asked asked;
  const StrokesTable *table;
  HwAnswer answer;
} Job;

typedef struct
{
  Asked asked;
  HwFoundOdds odds;
} OddsJob;

struct _HwSolver
{
  GObject parent_instance;
  HwDocument *document;
  StrokesTable *tables[N_LEVELS]; /* made at the first use of a level; jobs read them */
  HwWorker *worker;
  Mapped *mapped; /* the newest map */
  Job *done;      /* the newest that came to its end */
  bool is_new;    /* `done` is of the document as it is */
  HwWorker *odds_worker;
  OddsJob *odds; /* the newest that were found */
};

G_DEFINE_FINAL_TYPE (HwSolver, hw_solver, G_TYPE_OBJECT)

static guint mapped, answered, odds_found;

/* The shot in hand; false where there is none. */
static bool
asked_init (Asked *asked, HwDocument *document)
{
  const PlanScene *scene = hw_document_get_scene (document);
  Bag *bag = hw_document_get_bag (document);
  if (scene->n_shots == 0 || bag == NULL)
    return false;
  *asked = (Asked){ hole_ref (hw_document_get_hole (document)), bag_ref (bag), scene->shots[scene->current] };
  return true;
}

static void
asked_clear (Asked *asked)
{
  hole_unref (asked->hole);
  bag_unref (asked->bag);
}

static void
mapped_free (gpointer data)
{
  Mapped *self = data;
  aim_map_unref (self->map);
  asked_clear (&self->asked);
  g_free (self);
}

static void
job_free (gpointer data)
{
  Job *job = data;
  g_free (job->answer.choices);
  asked_clear (&job->asked);
  g_free (job);
}

static void
odds_job_free (gpointer data)
{
  OddsJob *job = data;
  g_clear_pointer (&job->odds.table, odds_table_free);
  g_clear_error (&job->odds.error);
  asked_clear (&job->asked);
  g_free (job);
}

/* ---- in the worker ---- */

/* Tells the map; what playing again was taken to cost in it, NAN without one. */
static double
map_aims (const Job *job, const PlanInput *input, HwRun *run)
{
  AimMap *map = aim_map_new (input, job->asked.shot.club, NULL);
  if (map == NULL)
    return NAN;
  double again_strokes = map->again_strokes;
  Mapped *told = g_new (Mapped, 1);
  *told = (Mapped){ { hole_ref (job->asked.hole), bag_ref (job->asked.bag), job->asked.shot }, map };
  hw_run_tell (run, 0, told);
  return again_strokes;
}

/* What cannot be found - no green, no club that gets there - is left out: the panel says nothing of it. */
static void
work (gpointer data, HwRun *run)
{
  Job *job = data;
  HwAnswer *answer = &job->answer;
  const int *cancelled = hw_run_cancelled (run);
  const ShotResult *shot = &job->asked.shot;
  PlanInput input = { .hole = job->asked.hole,
                      .ball = shot->ball,
                      .table = job->table,
                      .conditions = &shot->conditions,
                      .lies = bag_lies (job->asked.bag),
                      .lost_chance = PLAN_LOST_CHANCE,
                      .cancelled = cancelled };
  double again = map_aims (job, &input, run);
  answer->has_strokes = !g_atomic_int_get (cancelled) && plan_shot_strokes (&input, shot, again, &answer->strokes, NULL);
  if (!g_atomic_int_get (cancelled))
    answer->choices = plan_clubs (&input, job->asked.bag, &answer->n_choices, NULL);
  if (!g_atomic_int_get (cancelled))
    answer->has_approach = plan_approach (&input, job->asked.bag, &answer->approach, NULL);
}

static void
work_odds (gpointer data, HwRun *run)
{
  OddsJob *job = data;
  gint64 start_us = hw_trace_busy_us ();
  job->odds.shot = job->asked.shot;
  job->odds.table = odds_table_new (job->asked.hole, &job->asked.shot, &job->odds.error);
  job->odds.took_us = hw_trace_busy_us () - start_us;
}

/* ---- before and after ---- */

static void
take_map (gpointer solver, double share, gpointer draft)
{
  HwSolver *self = solver;
  g_clear_pointer (&self->mapped, mapped_free);
  self->mapped = draft;
  g_signal_emit (self, mapped, 0);
}

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
  Asked asked;
  if (!asked_init (&asked, self->document))
    return NULL;
  Job *job = g_new0 (Job, 1);
  job->asked = asked;
  job->table = table_of (self, hw_settings_get_level (hw_document_get_settings (self->document)));
  return job;
}

static const HwWork shot_work = { make_job, work, take_map, take_answer, job_free, mapped_free };

static gpointer
make_odds_job (gpointer solver)
{
  HwSolver *self = solver;
  Asked asked;
  if (!asked_init (&asked, self->document))
    return NULL;
  OddsJob *job = g_new0 (OddsJob, 1);
  job->asked = asked;
  return job;
}

static void
take_odds (gpointer solver, gpointer job)
{
  HwSolver *self = solver;
  g_clear_pointer (&self->odds, odds_job_free);
  self->odds = job;
  g_signal_emit (self, odds_found, 0);
}

static const HwWork odds_work = { make_odds_job, work_odds, NULL, take_odds, odds_job_free, NULL };

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

/* Was it asked from this ball, with this bag and on these areas, and on this day if that matters? */
static bool
is_of_this_ball (HwSolver *self, const Asked *asked, bool of_this_day)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  const ShotResult *now = &scene->shots[scene->current], *then = &asked->shot;
  return asked->bag == hw_document_get_bag (self->document) && vec2_distance (now->ball, then->ball) == 0
         && (!of_this_day || conditions_equal (&now->conditions, &then->conditions))
         && hw_same_ground (scene->hole, asked->hole);
}

/* The newest map, where it is of this ball and club on these areas, and of this day if that is asked for. */
static const AimMap *
map_that_holds (HwSolver *self, bool of_this_day)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  if (self->mapped == NULL || scene->n_shots == 0)
    return NULL;
  const Asked *asked = &self->mapped->asked;
  bool holds = scene->shots[scene->current].club == asked->shot.club && is_of_this_ball (self, asked, of_this_day);
  return holds ? self->mapped->map : NULL;
}

const Approach *
hw_solver_get_approach (HwSolver *self)
{
  bool is_known = self->done != NULL && self->done->answer.has_approach && hw_document_get_scene (self->document)->n_shots > 0;
  return is_known && is_of_this_ball (self, &self->done->asked, true) ? &self->done->answer.approach : NULL;
}

const AimMap *
hw_solver_get_aims (HwSolver *self)
{
  return map_that_holds (self, true);
}

const AimMap *
hw_solver_get_shown_aims (HwSolver *self)
{
  return map_that_holds (self, !hw_document_is_dragging (self->document));
}

void
hw_solver_want_odds (HwSolver *self)
{
  hw_worker_follow (self->odds_worker);
}

void
hw_solver_leave_odds (HwSolver *self)
{
  hw_worker_stop (self->odds_worker);
}

const HwFoundOdds *
hw_solver_get_odds (HwSolver *self)
{
  return self->odds != NULL ? &self->odds->odds : NULL;
}

/* ---- the object ---- */

static void
hw_solver_dispose (GObject *object)
{
  HwSolver *self = HW_SOLVER (object);
  hw_worker_close (self->worker);
  hw_worker_close (self->odds_worker);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_solver_parent_class)->dispose (object);
}

static void
hw_solver_finalize (GObject *object)
{
  HwSolver *self = HW_SOLVER (object);
  hw_worker_free (self->worker);
  hw_worker_free (self->odds_worker);
  g_clear_pointer (&self->mapped, mapped_free);
  g_clear_pointer (&self->done, job_free);
  g_clear_pointer (&self->odds, odds_job_free);
  for (int level = 0; level < N_LEVELS; level++)
    g_clear_pointer (&self->tables[level], strokes_table_free);
  G_OBJECT_CLASS (hw_solver_parent_class)->finalize (object);
}

static void
hw_solver_class_init (HwSolverClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_solver_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_solver_finalize;
  mapped = g_signal_new ("mapped", HW_TYPE_SOLVER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  odds_found = g_signal_new ("odds", HW_TYPE_SOLVER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  answered = g_signal_new ("answered", HW_TYPE_SOLVER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_solver_init (HwSolver *self)
{
  self->worker = hw_worker_new (&shot_work, self);
  self->odds_worker = hw_worker_new (&odds_work, self);
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
