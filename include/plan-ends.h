// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-ends - where a shot may end, as golfers are told it: a short list, what hurts most first.
 *
 * A pure function of its arguments; any thread may call it.
 */
#ifndef HOLEWRIGHT_PLAN_ENDS_H
#define HOLEWRIGHT_PLAN_ENDS_H

#include "plan.h"

/* For PlanInput.lost_chance: one ball in five among trees is not found in the three minutes of Rule 18.2 (common practice). */
#define PLAN_LOST_CHANCE 0.2

/* One kind of ground that the ball may rest on. */
typedef struct
{
  Kind kind;
  double chance; /* 0..1 */
  double
      cost_strokes; /* chance x what a ball there costs more than one on the fairway as far from the hole; 0 for less than ENDS_LEAST_COST_STROKES */
} ShotEnd;

/* Ends that are less likely are left out; of costs that differ by less nobody is told. */
#define ENDS_LEAST_CHANCE 0.0005
#define ENDS_LEAST_COST_STROKES 0.005

/*
 * The ends of a shot that leaves `left_m` to the hole (NAN: nothing to play to, as none), from its odds at rest: largest cost first, of those that cost nothing the likeliest. `ends`
 * has room for N_KINDS; returns how many there are. Costs are those of the table at that one distance, penalties as strokes_to_hole says: for the order of a list, and good to
 * some hundredths of a stroke; plan_shot_strokes knows better.
 */
size_t plan_ends (const OddsTable *odds, const StrokesTable *table, double left_m, ShotEnd *ends);

#endif
