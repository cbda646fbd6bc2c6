// SPDX-License-Identifier: GPL-3.0-or-later
/* summary-job - holes and bag are immutable and held, so the worker reads them while the window goes on. */
#include "summary-job.h"

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
  double begun, share; /* of the course: done before this hole, and its own part */
} Telling;

static void
tell (double share, const PlanSolution *so_far, void *data)
{
  const Telling *telling = data;
  hw_run_tell (telling->run, telling->begun + share * telling->share, NULL);
}

static bool
plan_hole (const HwSummaryJob *job, const Hole *hole, HwHoleSummary *summary, const Telling *telling, GError **error)
{
  int written = hole_plan (hole);
  const Part *part = written >= 0 ? hole_part (hole, (size_t)written) : NULL;
  Conditions conditions;
  if (!conditions_of_day (hole, part != NULL ? &part->day : NULL, &conditions, error))
    return false;
  PlanQuestion question = { .tee = part != NULL ? part->tee : NULL,
                            .hole_name = part != NULL ? part->hole_name : NULL,
                            .conditions = &conditions,
                            .lies = bag_lies (job->bag),
                            .n_threads = (int)g_get_num_processors (), // they give way to the frames
                            .cancel = hw_run_cancelled (telling->run),
                            .progress = tell,
                            .data = (void *)telling };
  g_autoptr (PlanSolution) solution = plan_solve (hole, job->bag, &question, error);
  g_autofree Plan *plan = g_new0 (Plan, 1);
  if (solution == NULL || !plan_make (solution, PLAN_SUGGESTED, plan, error)
      || !plan_losses (solution, plan, hw_run_cancelled (telling->run), &summary->losses, error))
    return false;
  summary->strokes = plan->strokes;
  summary->club = g_strdup (plan->shots[0].shot.club->name);
  return true;
}

static HwHoleSummary *
summarise (const HwSummaryJob *job, size_t i, const Telling *telling)
{
  const Hole *hole = g_ptr_array_index (job->holes, i);
  HwHoleSummary *summary = g_new0 (HwHoleSummary, 1);
  g_autoptr (GError) error = NULL;
  summary->i = i;
  summary->strokes = NAN;
  if (hole == NULL)
    {
      summary->error = g_strdup (_ ("Its file cannot be read."));
      return summary;
    }
  summary->par = hole_info (hole)->par;
  if (!plan_hole (job, hole, summary, telling, &error))
    summary->error = g_error_matches (error, PLAN_ERROR, PLAN_ERROR_TARGET)
                         ? g_strdup (_ ("It needs a tee marker to play from and a green to play to."))
                         : hw_sentence (error->message);
  return summary;
}

void
hw_summary_job_work (gpointer data, HwRun *run)
{
  HwSummaryJob *job = data;
  double share = 1.0 / MAX (job->holes->len, 1u);
  for (size_t i = 0; i < job->holes->len && !g_atomic_int_get (hw_run_cancelled (run)); i++)
    {
      Telling telling = { run, share * (double)i, share };
      HwHoleSummary *summary = summarise (job, i, &telling);
      if (g_atomic_int_get (hw_run_cancelled (run)))
        hw_hole_summary_free (summary);
      else
        hw_run_tell (run, share * (double)(i + 1), summary);
    }
}
