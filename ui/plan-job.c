// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-job - jobs own all that they read: holes, bags and solutions are immutable and counted. */
#include "plan-job.h"

void
hw_plan_question_clear (HwPlanQuestion *question)
{
  g_clear_pointer (&question->hole, hole_unref);
  g_clear_pointer (&question->bag, bag_unref);
  g_free (question->tee);
  g_free (question->hole_name);
}

void
hw_plan_job_free (gpointer data)
{
  HwPlanJob *job = data;
  hw_plan_question_clear (&job->question);
  g_clear_pointer (&job->near, plan_solution_unref);
  g_clear_pointer (&job->solution, plan_solution_unref);
  g_free (job->suggestion);
  plan_map_unref (job->map);
  g_clear_error (&job->error);
  g_free (job);
}

/* ---- the suggestion ---- */

/* NULL with `error` when there is no plan. */
static HwSuggestion *
suggest (const PlanSolution *solution, GError **error)
{
  HwSuggestion *suggestion = g_new0 (HwSuggestion, 1);
  suggestion->has_plan[PLAN_SUGGESTED] = plan_make (solution, PLAN_SUGGESTED, &suggestion->plans[PLAN_SUGGESTED], error);
  if (suggestion->has_plan[PLAN_SUGGESTED])
    return suggestion;
  g_free (suggestion);
  return NULL;
}

static void
add_reasons (HwSuggestion *suggestion, const PlanSolution *solution)
{
  const Plan *plan = &suggestion->plans[PLAN_SUGGESTED];
  for (size_t i = 0; i < plan->n_shots; i++)
    suggestion->has_reason[i] = plan_reason (solution, &plan->shots[i], &suggestion->reasons[i], NULL);
  suggestion->is_sure_known = plan_sureness (solution, &plan->shots[0], &suggestion->sure, NULL);
}

static void
add_others (HwSuggestion *suggestion, const PlanSolution *solution)
{
  const Plan *best = &suggestion->plans[PLAN_SUGGESTED];
  for (int choice = PLAN_SUGGESTED + 1; choice < N_PLAN_CHOICES; choice++)
    {
      Plan *plan = &suggestion->plans[choice];
      suggestion->has_plan[choice] = plan_make (solution, (PlanChoice)choice, plan, NULL)
                                     && plan_is_apart (solution, best, plan)
                                     && plan_difference (solution, best, plan, &suggestion->differences[choice], NULL);
    }
}

typedef struct
{
  HwPlanJob *job;
  HwRun *run;
} Telling;

static void
tell (double share, const PlanSolution *so_far, void *data)
{
  Telling *telling = data;
  HwSuggestion *first = NULL;
  if (so_far != NULL && !telling->job->has_told)
    first = suggest (so_far, NULL);
  if (first != NULL)
    first->is_first = telling->job->has_told = true;
  hw_run_tell (telling->run, share, first);
}

void
hw_plan_job_work (gpointer data, HwRun *run)
{
  HwPlanJob *job = data;
  Telling telling = { job, run };
  PlanQuestion question = { .tee = job->question.tee,
                            .hole_name = job->question.hole_name,
                            .conditions = &job->question.conditions,
                            .lies = bag_lies (job->question.bag),
                            .n_threads = (int)g_get_num_processors (), // they give way to the frames
                            .near = job->near,
                            .cancel = hw_run_cancelled (run),
                            .progress = tell,
                            .data = &telling };
  job->solution = plan_solve (job->question.hole, job->question.bag, &question, &job->error);
  if (job->solution == NULL)
    return;
  job->map = plan_map_new (job->solution);
  job->suggestion = suggest (job->solution, &job->error);
  if (job->suggestion == NULL || g_atomic_int_get (hw_run_cancelled (run)))
    return;
  job->suggestion->solution = job->solution;
  add_reasons (job->suggestion, job->solution);
  if (!g_atomic_int_get (hw_run_cancelled (run)))
    add_others (job->suggestion, job->solution);
}

/* ---- the golfer's own plan ---- */

HwOwnJob *
hw_own_job_new (const HwPlanJob *done, Hole *hole, const Part *plan)
{
  HwOwnJob *job = g_new0 (HwOwnJob, 1);
  job->solution = plan_solution_ref (done->solution);
  job->hole = hole_ref (hole);
  job->plan = plan;
  job->suggested = done->suggestion->plans[PLAN_SUGGESTED];
  return job;
}

void
hw_own_job_free (gpointer data)
{
  HwOwnJob *job = data;
  plan_solution_unref (job->solution);
  hole_unref (job->hole);
  g_free (job);
}

void
hw_own_job_work (gpointer data, HwRun *run)
{
  HwOwnJob *job = data;
  job->is_valued = plan_make_own (job->solution, job->plan, hw_run_cancelled (run), &job->own.own, NULL)
                   && plan_difference (job->solution, &job->suggested, &job->own.own.plan, &job->own.difference, NULL);
}
