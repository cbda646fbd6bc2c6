// SPDX-License-Identifier: GPL-3.0-or-later
/* wind-finder - its job holds the solution that it asks about. */
#include "wind-finder.h"

#include "worker.h"

/* The hole is solved some ten times: in larger cells, which change a club's strokes by a hundredth or two. */
#define CELL_M 8.0
/* Who still changes the day or the bag is not kept from the processor. */
#define REST_MS 1000

struct _HwWindFinder
{
  GObject parent_instance;
  HwPlanner *planner;
  HwWorker *worker;
  PlanSolution *solution; /* that is asked about; NULL: there is none */
  bool is_found, is_over;
  PlanWind wind;
};

G_DEFINE_FINAL_TYPE (HwWindFinder, hw_wind_finder, G_TYPE_OBJECT)

static guint changed;

/* ---- the worker ---- */

typedef struct
{
  PlanSolution *solution;
  bool is_found;
  PlanWind wind;
} WindJob;

static gpointer
make_job (gpointer finder)
{
  HwWindFinder *self = finder;
  WindJob *job = g_new0 (WindJob, 1);
  job->solution = plan_solution_ref (self->solution);
  return job;
}

static void
free_job (gpointer data)
{
  WindJob *job = data;
  plan_solution_unref (job->solution);
  g_free (job);
}

static void
work (gpointer data, HwRun *run)
{
  WindJob *job = data;
  PlanWindQuestion question = { .cell_m = CELL_M, .cancel = hw_run_cancelled (run) };
  job->is_found = plan_wind (job->solution, PLAN_WIND_ALONG, &question, &job->wind, NULL);
}

static void
take_wind (gpointer finder, gpointer data)
{
  HwWindFinder *self = finder;
  WindJob *job = data;
  self->is_over = true;
  self->is_found = job->is_found;
  self->wind = job->wind;
  free_job (job);
  g_signal_emit (self, changed, 0);
}

static const HwWork wind_work = { make_job, work, NULL, take_wind, free_job, NULL };

/* ---- what it follows ---- */

static const PlanSolution *
wanted_solution (HwWindFinder *self)
{
  const HwSuggestion *suggestion = hw_planner_get_suggestion (self->planner);
  return suggestion != NULL && !suggestion->is_first && hw_planner_is_current (self->planner) ? suggestion->solution : NULL;
}

static void
on_planner_changed_cb (HwWindFinder *self)
{
  const PlanSolution *wanted = wanted_solution (self);
  if (wanted == self->solution)
    return;
  hw_worker_stop (self->worker);
  g_clear_pointer (&self->solution, plan_solution_unref);
  self->is_found = self->is_over = false;
  if (wanted != NULL)
    {
      self->solution = plan_solution_ref ((PlanSolution *)wanted);
      hw_worker_ask (self->worker, REST_MS);
    }
  g_signal_emit (self, changed, 0);
}

const PlanWind *
hw_wind_finder_get (HwWindFinder *self)
{
  return self->is_found ? &self->wind : NULL;
}

bool
hw_wind_finder_is_busy (HwWindFinder *self)
{
  return self->solution != NULL && !self->is_over;
}

/* ---- the object ---- */

static void
hw_wind_finder_dispose (GObject *object)
{
  HwWindFinder *self = HW_WIND_FINDER (object);
  hw_worker_close (self->worker);
  g_clear_object (&self->planner);
  G_OBJECT_CLASS (hw_wind_finder_parent_class)->dispose (object);
}

static void
hw_wind_finder_finalize (GObject *object)
{
  HwWindFinder *self = HW_WIND_FINDER (object);
  hw_worker_free (self->worker);
  g_clear_pointer (&self->solution, plan_solution_unref);
  G_OBJECT_CLASS (hw_wind_finder_parent_class)->finalize (object);
}

static void
hw_wind_finder_class_init (HwWindFinderClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_wind_finder_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_wind_finder_finalize;
  changed = g_signal_new ("changed", HW_TYPE_WIND_FINDER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_wind_finder_init (HwWindFinder *self)
{
  self->worker = hw_worker_new (&wind_work, self);
}

HwWindFinder *
hw_wind_finder_new (HwPlanner *planner)
{
  HwWindFinder *self = g_object_new (HW_TYPE_WIND_FINDER, NULL);
  self->planner = g_object_ref (planner);
  g_signal_connect_object (planner, "changed", G_CALLBACK (on_planner_changed_cb), self, G_CONNECT_SWAPPED);
  return self;
}
