// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-job - what the planner's workers do: a hole solved with its plans and their reasons, and the golfer's own plan valued. */
#ifndef HW_PLAN_JOB_H
#define HW_PLAN_JOB_H

#include "planner.h"
#include "worker.h"

/* What a suggestion is for, all of it held. */
typedef struct
{
  Hole *hole;
  Bag *bag;
  char *tee, *hole_name; /* the plan's; NULL: those in use */
  Conditions conditions;
} HwPlanQuestion;

void hw_plan_question_clear (HwPlanQuestion *question);

typedef struct
{
  HwPlanQuestion question;
  PlanSolution *near; /* to start from; may be NULL */
  bool has_told;      /* a first answer */
  unsigned stamp;     /* that of no other job */

  /* The answer; no suggestion, then with an error. */
  PlanSolution *solution;
  HwSuggestion *suggestion;
  PlanMap *map;
  GError *error;
} HwPlanJob;

void hw_plan_job_free (gpointer job);
/* For HwWork. */
void hw_plan_job_work (gpointer job, HwRun *run);

typedef struct
{
  PlanSolution *solution;
  Hole *hole;
  const Part *plan; /* of the hole */
  Plan suggested;
  bool is_valued;
  HwOwnPlan own;
} HwOwnJob;

/* Of a plan part of the hole, beside what a job has found. */
HwOwnJob *hw_own_job_new (const HwPlanJob *done, Hole *hole, const Part *plan);
void hw_own_job_free (gpointer job);
void hw_own_job_work (gpointer job, HwRun *run);

#endif
