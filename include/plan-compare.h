// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-compare - plans beside one another: the golfer's own plan, valued as it is drawn and with best play, and where the difference of two plans comes from.
 *
 * Pure functions of a solution; any thread may call them.
 */
#ifndef HOLEWRIGHT_PLAN_COMPARE_H
#define HOLEWRIGHT_PLAN_COMPARE_H

#include "plan-reasons.h"

/* ---- the golfer's own plan ---- */

typedef struct
{
  /* The shots as they are drawn, from where they are drawn, each valued with best play after it; so the expected score is that of the first one, and the
     chances of each score are. */
  Plan plan;
  /* Expected score when each drawn shot is played in its turn from wherever the ball lies, and best play begins after the last. */
  double as_drawn;
  /* Strokes that each shot, played so, costs more than the best one from where the ball lies. Added to the best score from the tee
     (PLAN_SUGGESTED) they are `as_drawn`. */
  double given_away[PLAN_MOST_SHOTS];
} PlanOwn;

/*
 * The shots of a plan part, of the solution's hole or edited since: the first PLAN_MOST_SHOTS of them. A shot without a club is played with the one that carries
 * nearest to its aim, in its turn with the one that does so from there.
 *
 * As drawn: the chances of where the ball lies are carried forward shot by shot, balls of a lie within some metres taken together at their mean place. A drawn shot is left
 * out where it would be none: on the green and where strokes come from the table, and nearer to the hole than its aim is. What is lost is played again with the
 * same shot. Some tenths of a second. False with PLAN_ERROR_TARGET for a plan without shots, PLAN_ERROR_CLUB for a club that the bag does not have or
 * that does not fly, and PLAN_ERROR_CANCELLED (`cancel` may be NULL).
 */
bool plan_make_own (const PlanSolution *solution, const Part *plan, const gint *cancel, PlanOwn *own, GError **error);

/* ---- other plans ---- */

/* A tee shot that carries so much farther than the hole is away is none that a golfer weighs (common practice). */
#define PLAN_PAST_THE_HOLE 1.1

/*
 * Whether a plan of the solution (PLAN_LAY_UP, PLAN_ALL_OUT) is worth setting beside the suggested one: it begins with another shot, which is not longer than the
 * hole (PLAN_PAST_THE_HOLE).
 */
bool plan_is_apart (const PlanSolution *solution, const Plan *suggested, const Plan *other);

/* ---- where a difference comes from ---- */

/* What the second of two plans costs more, with best play after their first shots. */
typedef struct
{
  double strokes;    /* the second less the first */
  PlanCauses causes; /* of that, by what the first shots leave: they add up to it */
} PlanDifference;

/* Both of the same solution. False with PLAN_ERROR_CLUB as plan_reason. */
bool plan_difference (const PlanSolution *solution, const Plan *plan, const Plan *other, PlanDifference *difference,
                      GError **error);

/* "0.31 more: penalties +0.24, distance left +0.12, rough -0.05", largest first; what is below half a hundredth is not told. Free with g_free. */
char *plan_difference_words (const PlanDifference *difference, Translate translate);

#endif
