// SPDX-License-Identifier: GPL-3.0-or-later
/* planner - a job holds the question with all that it speaks of; the newest that was answered stays, to be shown and to start the next from. */
#include "planner.h"

#include "plan-job.h"
#include "sentence.h"

#include <glib/gi18n.h>

/* After a change it waits so long for the next. */
#define REST_MS 400
/* Nothing else is asked for: it begins at once. */
#define NO_REST_MS 0

struct _HwPlanner
{
  GObject parent_instance;
  HwDocument *document;
  HwWorker *worker;
  bool is_shown; /* the suggestion */
  bool is_map_shown, is_compared;
  unsigned n_jobs; /* so many were made */
  double share;
  HwPlanJob *working;          /* the worker's, as long as it is not given up; else NULL */
  HwSuggestion *first;         /* of that job, better than none; else NULL */
  HwPlanJob *done;             /* the newest that came to an answer */
  HwPlanJob *failed;           /* the newest, when it came to none */
  char *trouble;               /* what that said */
  bool is_current;             /* `done` is of the document as it is */
  char *names[N_PLAN_CHOICES]; /* of its plans on the drawing */
  PlanTrack tracks[N_PLAN_CHOICES];
  size_t n_tracks;
  HwWorker *own_worker;
  HwOwnJob *own; /* the newest that was valued, of `done`; else NULL */
};

G_DEFINE_FINAL_TYPE (HwPlanner, hw_planner, G_TYPE_OBJECT)

static guint changed;

/* ---- before and after ---- */

/* The question as it is now; false where there is nothing to ask about. */
static bool
ask_now (HwPlanner *self, HwPlanQuestion *question)
{
  Hole *hole = hw_document_get_hole (self->document);
  Bag *bag = hw_document_get_bag (self->document);
  const Part *plan = hw_document_get_plan (self->document);
  *question = (HwPlanQuestion){ 0 };
  if (hole == NULL || bag == NULL || !conditions_of_day (hole, plan != NULL ? &plan->day : NULL, &question->conditions, NULL))
    return false;
  question->hole = hole_ref (hole);
  question->bag = bag_ref (bag);
  question->tee = g_strdup (plan != NULL ? plan->tee : NULL);
  question->hole_name = g_strdup (plan != NULL ? plan->hole_name : NULL);
  return true;
}

static bool
same_question (const HwPlanQuestion *a, const HwPlanQuestion *b)
{
  return a->bag == b->bag && g_strcmp0 (a->tee, b->tee) == 0 && g_strcmp0 (a->hole_name, b->hole_name) == 0
         && conditions_equal (&a->conditions, &b->conditions) && hw_same_ground (a->hole, b->hole);
}

static bool
is_of_now (HwPlanner *self, const HwPlanQuestion *question)
{
  HwPlanQuestion now;
  bool is_same = ask_now (self, &now) && same_question (question, &now);
  hw_plan_question_clear (&now);
  return is_same;
}

static gpointer
make_job (gpointer planner)
{
  HwPlanner *self = planner;
  HwPlanJob *job = g_new0 (HwPlanJob, 1);
  if (!ask_now (self, &job->question))
    {
      hw_plan_job_free (job);
      return NULL;
    }
  if (self->done != NULL && self->done->question.bag == job->question.bag)
    job->near = plan_solution_ref (self->done->solution);
  self->share = 0;
  job->stamp = ++self->n_jobs;
  self->working = job;
  return job;
}

static void
take_share (gpointer planner, double share, gpointer first)
{
  HwPlanner *self = planner;
  self->share = MAX (self->share, share);
  if (first != NULL)
    {
      g_free (self->first);
      self->first = first;
    }
  g_signal_emit (self, changed, 0);
}

static void
forget_failure (HwPlanner *self)
{
  g_clear_pointer (&self->failed, hw_plan_job_free);
  g_clear_pointer (&self->trouble, g_free);
}

static void
fail (HwPlanner *self, HwPlanJob *job)
{
  self->failed = job;
  self->trouble = g_error_matches (job->error, PLAN_ERROR, PLAN_ERROR_TARGET)
                      ? g_strdup (_ ("A suggestion needs a tee marker to play from and a green to play to; draw them in Draw."))
                      : hw_sentence (job->error->message);
}

const char *
hw_plan_choice_words (PlanChoice choice)
{
  static const char *const words[N_PLAN_CHOICES]
      = { [PLAN_SUGGESTED] = N_ ("suggested"), [PLAN_LAY_UP] = N_ ("lay-up"), [PLAN_ALL_OUT] = N_ ("all-out") };
  return _ (words[choice]);
}

static void
name_tracks (HwPlanner *self, const HwSuggestion *suggestion)
{
  self->n_tracks = 0;
  for (int choice = 0; choice < N_PLAN_CHOICES; choice++)
    {
      g_clear_pointer (&self->names[choice], g_free);
      if (!suggestion->has_plan[choice])
        continue;
      self->names[choice]
          = g_strdup_printf ("%s %.2f", hw_plan_choice_words ((PlanChoice)choice), suggestion->plans[choice].strokes);
      self->tracks[self->n_tracks++] = (PlanTrack){ &suggestion->plans[choice], self->names[choice] };
    }
}

/* ---- the golfer's own plan ---- */

static gpointer
make_own_job (gpointer planner)
{
  HwPlanner *self = planner;
  Hole *hole = hw_document_get_hole (self->document);
  const Part *plan = hw_document_get_plan (self->document);
  if (!self->is_shown || !self->is_current || self->done == NULL || plan == NULL)
    return NULL;
  return hw_own_job_new (self->done, hole, plan);
}

static void
take_own (gpointer planner, gpointer job)
{
  HwPlanner *self = planner;
  g_clear_pointer (&self->own, hw_own_job_free);
  self->own = job;
  g_signal_emit (self, changed, 0);
}

static const HwWork own_work = { make_own_job, hw_own_job_work, NULL, take_own, hw_own_job_free, NULL };

static void
forget_own (HwPlanner *self)
{
  hw_worker_stop (self->own_worker);
  g_clear_pointer (&self->own, hw_own_job_free);
}

static void
follow_own (HwPlanner *self)
{
  if (self->is_shown && self->is_current && self->done != NULL)
    hw_worker_follow (self->own_worker);
  else
    forget_own (self);
}

/* ---- answers ---- */

static void
take_answer (gpointer planner, gpointer data)
{
  HwPlanner *self = planner;
  HwPlanJob *job = data;
  self->working = NULL;
  g_clear_pointer (&self->first, g_free);
  g_clear_pointer (&self->done, hw_plan_job_free);
  forget_failure (self);
  forget_own (self);
  self->n_tracks = 0;
  if (job->suggestion != NULL)
    {
      self->done = job;
      name_tracks (self, job->suggestion);
    }
  else
    fail (self, job);
  self->is_current = self->done != NULL;
  follow_own (self);
  g_signal_emit (self, changed, 0);
}

static const HwWork hole_work = { make_job, hw_plan_job_work, take_share, take_answer, hw_plan_job_free, g_free };

/* Gives up what is worked on. */
static void
stop (HwPlanner *self)
{
  self->working = NULL;
  g_clear_pointer (&self->first, g_free);
  hw_worker_stop (self->worker);
}

static void
ask (HwPlanner *self, guint rest_ms)
{
  stop (self);
  forget_failure (self);
  self->share = 0;
  hw_worker_ask (self->worker, rest_ms);
}

static bool
is_wanted (HwPlanner *self)
{
  return self->is_shown || self->is_map_shown;
}

static bool
is_job_of_now (HwPlanner *self, const HwPlanJob *job)
{
  return job != NULL && is_of_now (self, &job->question);
}

/* Asks, unless what is asked for is there, or on its way, or known not to be had. */
static void
ask_where_needed (HwPlanner *self, guint rest_ms)
{
  self->is_current = is_job_of_now (self, self->done);
  if (self->is_current && hw_worker_is_busy (self->worker)) // an undo, say
    stop (self);
  if (!self->is_current && !is_job_of_now (self, self->working) && !is_job_of_now (self, self->failed))
    ask (self, rest_ms);
}

static void
on_results_changed_cb (HwPlanner *self)
{
  bool was_wanted = is_wanted (self);
  self->is_map_shown = overlay_needs (hw_settings_get_overlays (hw_document_get_settings (self->document))) & SCENE_NEEDS_MAP;
  if (is_wanted (self))
    ask_where_needed (self, REST_MS);
  else if (was_wanted)
    stop (self);
  follow_own (self);
  if (was_wanted || is_wanted (self))
    g_signal_emit (self, changed, 0);
}

/* ---- what the golfer asks for ---- */

void
hw_planner_suggest (HwPlanner *self)
{
  self->is_shown = true;
  ask_where_needed (self, NO_REST_MS);
  follow_own (self);
  g_signal_emit (self, changed, 0);
}

void
hw_planner_cancel (HwPlanner *self)
{
  stop (self);
  self->is_shown = self->is_shown && self->done != NULL;
  g_signal_emit (self, changed, 0);
}

void
hw_planner_leave (HwPlanner *self)
{
  self->is_shown = false;
  forget_own (self);
  if (!is_wanted (self))
    stop (self);
  g_signal_emit (self, changed, 0);
}

/* Another hole is not planned for unasked. The same one under another name is still that hole. */
static void
on_opened_cb (HwPlanner *self)
{
  if (is_job_of_now (self, self->done) || is_job_of_now (self, self->working))
    return;
  forget_own (self);
  self->n_tracks = 0;
  g_clear_pointer (&self->done, hw_plan_job_free);
  forget_failure (self);
  hw_planner_leave (self);
  on_results_changed_cb (self);
}

bool
hw_planner_is_shown (HwPlanner *self)
{
  return self->is_shown;
}

bool
hw_planner_is_busy (HwPlanner *self, double *share)
{
  *share = self->share;
  return hw_worker_is_busy (self->worker);
}

const HwSuggestion *
hw_planner_get_suggestion (HwPlanner *self)
{
  if (!self->is_shown)
    return NULL;
  if (self->first != NULL)
    return self->first;
  return self->done != NULL ? self->done->suggestion : NULL;
}

bool
hw_planner_is_current (HwPlanner *self)
{
  return self->first != NULL || (self->done != NULL && self->is_current);
}

void
hw_planner_set_compared (HwPlanner *self, bool is_compared)
{
  self->is_compared = is_compared;
  g_signal_emit (self, changed, 0);
}

bool
hw_planner_is_compared (HwPlanner *self)
{
  return self->is_compared;
}

const HwOwnPlan *
hw_planner_get_own (HwPlanner *self)
{
  return self->own != NULL && self->own->is_valued ? &self->own->own : NULL;
}

unsigned
hw_planner_fill (HwPlanner *self, PlanScene *scene, unsigned mask)
{
  bool has_map = overlay_needs (mask) & SCENE_NEEDS_MAP, has_tracks = self->is_shown && self->is_compared;
  if (self->done == NULL || !self->is_current || !(has_map || has_tracks))
    return 0;
  scene->map = has_map ? self->done->map : NULL;
  scene->tracks = self->tracks;
  scene->n_tracks = has_tracks ? self->n_tracks : 0;
  return self->done->stamp << 2 | (unsigned)has_map << 1 | (unsigned)has_tracks;
}

const char *
hw_planner_get_trouble (HwPlanner *self)
{
  return is_wanted (self) ? self->trouble : NULL;
}

/* ---- the object ---- */

static void
hw_planner_dispose (GObject *object)
{
  HwPlanner *self = HW_PLANNER (object);
  self->working = NULL;
  hw_worker_close (self->worker);
  hw_worker_close (self->own_worker);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_planner_parent_class)->dispose (object);
}

static void
hw_planner_finalize (GObject *object)
{
  HwPlanner *self = HW_PLANNER (object);
  hw_worker_free (self->worker);
  hw_worker_free (self->own_worker);
  g_clear_pointer (&self->own, hw_own_job_free);
  for (int choice = 0; choice < N_PLAN_CHOICES; choice++)
    g_free (self->names[choice]);
  g_clear_pointer (&self->done, hw_plan_job_free);
  g_clear_pointer (&self->failed, hw_plan_job_free);
  g_free (self->first);
  g_free (self->trouble);
  G_OBJECT_CLASS (hw_planner_parent_class)->finalize (object);
}

static void
hw_planner_class_init (HwPlannerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_planner_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_planner_finalize;
  changed = g_signal_new ("changed", HW_TYPE_PLANNER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_planner_init (HwPlanner *self)
{
  self->worker = hw_worker_new (&hole_work, self);
  self->own_worker = hw_worker_new (&own_work, self);
}

HwPlanner *
hw_planner_new (HwDocument *document)
{
  HwPlanner *self = g_object_new (HW_TYPE_PLANNER, NULL);
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "opened", G_CALLBACK (on_opened_cb), self, G_CONNECT_SWAPPED);
  return self;
}
