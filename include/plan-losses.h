// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-losses - where a golfer's strokes are lost on a hole: what a plan is expected to score beyond an open hole of that length, parted by what it is lost to.
 *
 * A pure function of a solution; any thread may call it. Words come from a function of their own, `translate` as for sight_words.
 */
#ifndef HOLEWRIGHT_PLAN_LOSSES_H
#define HOLEWRIGHT_PLAN_LOSSES_H

#include "plan.h"

typedef enum
{
  PLAN_LOSS_PENALTY,   /* penalty areas, out of bounds: their strokes, and what is played from a drop or again */
  PLAN_LOSS_SAND,      /* bunkers and waste areas */
  PLAN_LOSS_TREES,     /* trees and buildings */
  PLAN_LOSS_ROUGH,     /* first cut, rough, deep rough */
  PLAN_LOSS_GOOD_LIES, /* from tee and fairway: what the shots there cost more than on an open hole, such as carries, corners, narrow ways; less than 0 where they are easier */
  N_PLAN_LOSSES
} PlanLoss;

/* "penalty", "sand", "trees", "rough", "good-lies". */
const char *plan_loss_token (PlanLoss loss);
/* "penalties", "sand", "trees", "rough", "tee and fairway shots". */
const char *plan_loss_words (PlanLoss loss, Translate translate);

/*
 * Expected strokes are the same as `open_strokes` and all that is lost: strokes = open_strokes + sum of lost. With the length's own share, open_strokes - par, they
 * account for all that is over par.
 */
typedef struct
{
  double
      open_strokes; /* what the golfer's table has for a tee as far from the hole as the hole is long, measured: nothing in the way */
  double strokes; /* expected, with the plan's tee shot and best play after it */
  double lost[N_PLAN_LOSSES];
} PlanLosses;

/*
 * Every place is held against a fairway as far from the hole, as the golfer's table has it: what a ball costs more there is its excess, that of the tee counted
 * against open_strokes. The balls are carried forward, shot by shot. The excess of a place is parted: what the penalties of its shot cost is lost to them, up to
 * the hole; what its other balls have for an excess goes on with those, but for balls on the green, whose excess - a putt instead of a pitch - is the
 * shot's own; what then remains was lost by what the ball was played from. Where strokes come from the table, all of the excess is. So nothing is counted
 * twice and nothing is left out. Balls of a lie within some metres are taken together; fewer of them than one in a thousand are not carried further.
 *
 * Some tenths of a second at most. False with PLAN_ERROR_CLUB where the tee shot is not of the solution, and PLAN_ERROR_CANCELLED (`cancel` may be NULL).
 */
bool plan_losses (const PlanSolution *solution, const Plan *plan, const gint *cancel, PlanLosses *losses, GError **error);

#endif
