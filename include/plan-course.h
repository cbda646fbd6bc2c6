// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-course - the plans of a course's holes, side by side: holes share nothing but the bag, and threads within a hole wait for one another, so each hole has
 * a thread to itself, or several where there are fewer holes than processors.
 */
#ifndef HOLEWRIGHT_PLAN_COURSE_H
#define HOLEWRIGHT_PLAN_COURSE_H

#include "plan-losses.h"

/* What is asked of a hole, and the answer. */
typedef struct
{
  const Hole *hole;             /* NULL: there is nothing to answer */
  const char *tee, *hole_name;  /* as in a PlanQuestion */
  const Conditions *conditions; /* NULL: the standard day */

  Plan *plan;        /* the suggested one, its clubs those of the bag; NULL: there is none */
  PlanLosses losses; /* of that plan */
  /* Why there is no plan, one sentence; NULL where there is one, and where it was cancelled before it was begun. Without a hole it stays as it is. */
  GError *error;
} PlanCourseHole;

/* Done so far, 0..1 of all holes, and the hole that has just got its answer or NULL. From any thread, never from two at a time. */
typedef void (*PlanCourseTold) (double share, const PlanCourseHole *answered, void *data);

/*
 * Answers `n_holes` holes, begun in the order given, by as many threads as there are processors, but no more than four, for each holds what plan_solve says it
 * does; where the system gives no thread the caller's does it all. Threads are as willing to wait as the caller's. The bag's own lies are used. `cancel` may be NULL;
 * once it is set holes in hand get PLAN_ERROR_CANCELLED, soon. Answers are freed with plan_course_clear.
 */
void plan_course (PlanCourseHole *const *holes, size_t n_holes, const Bag *bag, const gint *cancel, PlanCourseTold told,
                  void *data);
/* Frees a hole's answer; what was asked is the caller's. */
void plan_course_clear (PlanCourseHole *hole);

#endif
