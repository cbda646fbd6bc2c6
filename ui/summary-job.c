// SPDX-License-Identifier: GPL-3.0-or-later
/* summary-job - holes and bag are immutable and held, so the worker reads them while the window goes on. */
#include "summary-job.h"

#include "plan-course.h"
#include "sentence.h"

#include <glib/gi18n.h>

HwSummaryJob *
hw_summary_job_new (HwDocument *document)
{
  Bag *bag = hw_document_get_bag (document);
  if (hw_document_get_course (document) == NULL || bag == NULL || bag_n_clubs (bag) == 0)
    return NULL;
  HwSummaryJob *job = g_new0 (HwSummaryJob, 1);
  job->bag = bag_ref (bag);
  job->holes = g_ptr_array_new ();
  for (size_t i = 0; i < hw_document_get_n_holes (document); i++)
    {
      Hole *hole = hw_document_peek_hole (document, i, NULL);
      g_ptr_array_add (job->holes, hole != NULL ? hole_ref (hole) : NULL);
    }
  return job;
}

void
hw_summary_job_free (gpointer data)
{
  HwSummaryJob *job = data;
  for (guint i = 0; i < job->holes->len; i++)
    g_clear_pointer ((Hole **)&g_ptr_array_index (job->holes, i), hole_unref);
  g_ptr_array_unref (job->holes);
  bag_unref (job->bag);
  g_free (job);
}

void
hw_hole_summary_free (gpointer data)
{
  HwHoleSummary *summary = data;
  g_free (summary->error);
  g_free (summary->club);
  g_free (summary);
}

/* ---- in the worker ---- */

typedef struct
{
  HwRun *run;
  const HwSummaryJob *job;
  const PlanCourseHole *asked;
} Telling;

static HwHoleSummary *
summary_new (const HwSummaryJob *job, size_t i, const PlanCourseHole *answered)
{
  const Hole *hole = g_ptr_array_index (job->holes, i);
  HwHoleSummary *summary = g_new0 (HwHoleSummary, 1);
  summary->i = i;
  summary->strokes = NAN;
  summary->par = hole != NULL ? hole_info (hole)->par : 0;
  summary->losses = answered->losses;
  if (hole == NULL)
    summary->error = g_strdup (_ ("Its file cannot be read."));
  else if (g_error_matches (answered->error, PLAN_ERROR, PLAN_ERROR_TARGET))
    summary->error = g_strdup (_ ("It needs a tee marker to play from and a green to play to."));
  else if (answered->error != NULL)
    summary->error = hw_sentence (answered->error->message);
  else
    {
      summary->strokes = answered->plan->strokes;
      summary->club = g_strdup (answered->plan->shots[0].shot.club->name);
    }
  return summary;
}

static void
tell (double share, const PlanCourseHole *answered, void *data)
{
  const Telling *telling = data;
  bool is_wanted = answered != NULL && !g_atomic_int_get (hw_run_cancelled (telling->run));
  hw_run_tell (telling->run, share,
               is_wanted ? summary_new (telling->job, (size_t)(answered - telling->asked), answered) : NULL);
}

/* What a hole's own day says, or why nobody can play on it. */
static void
ask (PlanCourseHole *asked, const Hole *hole, Conditions *conditions)
{
  int written = hole_plan (hole);
  const Part *part = written >= 0 ? hole_part (hole, (size_t)written) : NULL;
  if (part != NULL)
    *asked = (PlanCourseHole){ .tee = part->tee, .hole_name = part->hole_name };
  asked->conditions = conditions;
  if (conditions_of_day (hole, part != NULL ? &part->day : NULL, conditions, &asked->error))
    asked->hole = hole;
}

void
hw_summary_job_work (gpointer data, HwRun *run)
{
  HwSummaryJob *job = data;
  size_t n = job->holes->len;
  g_autofree PlanCourseHole *asked = g_new0 (PlanCourseHole, n);
  g_autofree PlanCourseHole **in_turn = g_new (PlanCourseHole *, n + 1);
  g_autofree Conditions *conditions = g_new (Conditions, n + 1);
  for (size_t i = 0; i < n; i++)
    {
      in_turn[i] = &asked[i];
      if (g_ptr_array_index (job->holes, i) != NULL)
        ask (&asked[i], g_ptr_array_index (job->holes, i), &conditions[i]);
    }
  Telling telling = { run, job, asked };
  plan_course (in_turn, n, job->bag, hw_run_cancelled (run), tell, &telling);
  for (size_t i = 0; i < n; i++)
    plan_course_clear (&asked[i]);
}
