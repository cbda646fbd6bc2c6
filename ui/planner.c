// SPDX-License-Identifier: GPL-3.0-or-later
/* planner - a job holds the question with all that it speaks of; the newest that was answered stays, to be shown and to start the next from. */
#include "planner.h"

#include "sentence.h"
#include "worker.h"

#include <glib/gi18n.h>

/* After a change it waits so long for the next. */
#define REST_MS 400
/* Nothing else is asked for: it begins at once. */
#define NO_REST_MS 0

/* What a suggestion is for, all of it held. */
typedef struct
{
  Hole *hole;
  Bag *bag;
  char *tee, *hole_name; /* the plan's; NULL: those in use */
  Conditions conditions;
} Question;

typedef struct
{
  Question question;
  PlanSolution *near; /* to start from; may be NULL */
  bool has_told;      /* a first answer */
  PlanSolution *solution;
  HwSuggestion *suggestion;
  GError *error;
} Job;

struct _HwPlanner
{
  GObject parent_instance;
  HwDocument *document;
  HwWorker *worker;
  bool is_shown;
  double share;
  Job *done;           /* the newest that came to an answer */
  HwSuggestion *first; /* of the job at work, better than none; else NULL */
  char *trouble;
  bool is_current; /* `done` is of the document as it is */
};

G_DEFINE_FINAL_TYPE (HwPlanner, hw_planner, G_TYPE_OBJECT)

static guint changed;

static void
question_clear (Question *question)
{
  g_clear_pointer (&question->hole, hole_unref);
  g_clear_pointer (&question->bag, bag_unref);
  g_free (question->tee);
  g_free (question->hole_name);
}

static void
job_free (gpointer data)
{
  Job *job = data;
  question_clear (&job->question);
  g_clear_pointer (&job->near, plan_solution_unref);
  g_clear_pointer (&job->solution, plan_solution_unref);
  g_free (job->suggestion);
  g_clear_error (&job->error);
  g_free (job);
}

/* ---- in the worker ---- */

/* NULL with `error` when there is no plan. */
static HwSuggestion *
make_plans (const PlanSolution *solution, bool is_first, GError **error)
{
  HwSuggestion *suggestion = g_new0 (HwSuggestion, 1);
  suggestion->is_first = is_first;
  for (int choice = 0; choice < (is_first ? 1 : N_PLAN_CHOICES); choice++)
    {
      GError **told = choice == PLAN_SUGGESTED ? error : NULL;
      suggestion->has_plan[choice] = plan_make (solution, (PlanChoice)choice, &suggestion->plans[choice], told);
    }
  if (suggestion->has_plan[PLAN_SUGGESTED])
    return suggestion;
  g_free (suggestion);
  return NULL;
}

typedef struct
{
  Job *job;
  HwRun *run;
} Telling;

static void
tell (double share, const PlanSolution *so_far, void *data)
{
  Telling *telling = data;
  HwSuggestion *first = NULL;
  if (so_far != NULL && !telling->job->has_told)
    first = make_plans (so_far, true, NULL);
  telling->job->has_told |= first != NULL;
  hw_run_tell (telling->run, share, first);
}

static void
work (gpointer data, HwRun *run)
{
  Job *job = data;
  Telling telling = { job, run };
  PlanQuestion question = { .tee = job->question.tee,
                            .hole_name = job->question.hole_name,
                            .conditions = &job->question.conditions,
                            .lies = bag_lies (job->question.bag),
                            .n_threads = MAX (1, (int)g_get_num_processors () - 1), // one is for the frames
                            .near = job->near,
                            .cancel = hw_run_cancelled (run),
                            .progress = tell,
                            .data = &telling };
  job->solution = plan_solve (job->question.hole, job->question.bag, &question, &job->error);
  if (job->solution != NULL)
    job->suggestion = make_plans (job->solution, false, &job->error);
}

/* ---- before and after ---- */

/* The question as it is now; false where there is nothing to ask about. */
static bool
ask_now (HwPlanner *self, Question *question)
{
  Hole *hole = hw_document_get_hole (self->document);
  Bag *bag = hw_document_get_bag (self->document);
  const Part *plan = hw_document_get_plan (self->document);
  *question = (Question){ 0 };
  if (hole == NULL || bag == NULL || !conditions_of_day (hole, plan != NULL ? &plan->day : NULL, &question->conditions, NULL))
    return false;
  question->hole = hole_ref (hole);
  question->bag = bag_ref (bag);
  question->tee = g_strdup (plan != NULL ? plan->tee : NULL);
  question->hole_name = g_strdup (plan != NULL ? plan->hole_name : NULL);
  return true;
}

static bool
same_question (const Question *a, const Question *b)
{
  return a->bag == b->bag && g_strcmp0 (a->tee, b->tee) == 0 && g_strcmp0 (a->hole_name, b->hole_name) == 0
         && conditions_equal (&a->conditions, &b->conditions) && hw_same_ground (a->hole, b->hole);
}

static bool
is_of_now (HwPlanner *self, const Question *question)
{
  Question now;
  bool is_same = ask_now (self, &now) && same_question (question, &now);
  question_clear (&now);
  return is_same;
}

static gpointer
make_job (gpointer planner)
{
  HwPlanner *self = planner;
  Job *job = g_new0 (Job, 1);
  if (!ask_now (self, &job->question))
    {
      job_free (job);
      return NULL;
    }
  if (self->done != NULL && self->done->question.bag == job->question.bag)
    job->near = plan_solution_ref (self->done->solution);
  self->share = 0;
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
take_answer (gpointer planner, gpointer data)
{
  HwPlanner *self = planner;
  Job *job = data;
  g_clear_pointer (&self->first, g_free);
  g_clear_pointer (&self->done, job_free);
  g_clear_pointer (&self->trouble, g_free);
  if (job->suggestion != NULL)
    self->done = job;
  else
    {
      self->trouble
          = g_error_matches (job->error, PLAN_ERROR, PLAN_ERROR_TARGET)
                ? g_strdup (_ ("A suggestion needs a tee marker to play from and a green to play to; draw them in Draw."))
                : hw_sentence (job->error->message);
      job_free (job);
    }
  self->is_current = true;
  g_signal_emit (self, changed, 0);
}

static const HwWork hole_work = { make_job, work, take_share, take_answer, job_free, g_free };

static void
ask (HwPlanner *self, guint rest_ms)
{
  g_clear_pointer (&self->first, g_free);
  g_clear_pointer (&self->trouble, g_free);
  self->share = 0;
  hw_worker_ask (self->worker, rest_ms);
}

static void
on_results_changed_cb (HwPlanner *self)
{
  if (!self->is_shown)
    return;
  if (self->done != NULL && is_of_now (self, &self->done->question))
    {
      if (!self->is_current) // an undo, say
        hw_worker_stop (self->worker);
      self->is_current = true;
    }
  else
    {
      self->is_current = false;
      ask (self, REST_MS);
    }
  g_signal_emit (self, changed, 0);
}

/* ---- what the golfer asks for ---- */

void
hw_planner_suggest (HwPlanner *self)
{
  self->is_shown = true;
  self->is_current = self->done != NULL && is_of_now (self, &self->done->question);
  if (!self->is_current && !hw_worker_is_busy (self->worker))
    ask (self, NO_REST_MS);
  g_signal_emit (self, changed, 0);
}

void
hw_planner_cancel (HwPlanner *self)
{
  hw_worker_stop (self->worker);
  g_clear_pointer (&self->first, g_free);
  self->is_shown = self->done != NULL;
  g_signal_emit (self, changed, 0);
}

void
hw_planner_leave (HwPlanner *self)
{
  if (!self->is_shown)
    return;
  hw_worker_stop (self->worker);
  self->is_shown = false;
  g_clear_pointer (&self->first, g_free);
  g_clear_pointer (&self->trouble, g_free);
  g_signal_emit (self, changed, 0);
}

/* Another hole is not planned for unasked. The same one under another name is still that hole. */
static void
on_opened_cb (HwPlanner *self)
{
  if (self->done != NULL && !is_of_now (self, &self->done->question))
    g_clear_pointer (&self->done, job_free);
  if (self->done == NULL)
    hw_planner_leave (self);
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

const char *
hw_planner_get_trouble (HwPlanner *self)
{
  return self->is_shown ? self->trouble : NULL;
}

/* ---- the object ---- */

static void
hw_planner_dispose (GObject *object)
{
  HwPlanner *self = HW_PLANNER (object);
  hw_worker_close (self->worker);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_planner_parent_class)->dispose (object);
}

static void
hw_planner_finalize (GObject *object)
{
  HwPlanner *self = HW_PLANNER (object);
  hw_worker_free (self->worker);
  g_clear_pointer (&self->done, job_free);
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
