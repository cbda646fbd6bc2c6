// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * planner - the whole hole solved by a worker, for as long as the golfer wants to see the suggestion or the map of strokes.
 *
 * It follows a document. Aims that are dragged do not matter to it; once the drawing, the day, the bag, the tee or the hole location is another, the suggestion
 * is out of date at once, and after a pause is worked out again, from where it stood. Emits "changed" when anything that it tells is another.
 */
#ifndef HW_PLANNER_H
#define HW_PLANNER_H

#include "document.h"

#include "plan-compare.h"

#define HW_TYPE_PLANNER (hw_planner_get_type ())
G_DECLARE_FINAL_TYPE (HwPlanner, hw_planner, HW, PLANNER, GObject)

/* Plans for one hole, bag and day. Immutable. */
typedef struct
{
  bool has_plan[N_PLAN_CHOICES]; /* the bag may have no lay-up, and what is not apart from the suggestion (plan_is_apart) is none */
  Plan plans[N_PLAN_CHOICES];
  bool is_first; /* good but for a tenth of a stroke: the better one follows, and with it all that stands below */
  const PlanSolution *solution;
  bool has_reason[PLAN_MOST_SHOTS];
  PlanReason reasons[PLAN_MOST_SHOTS]; /* of the suggested shots */
  bool is_sure_known;
  PlanSure sure;                              /* of the first one */
  PlanDifference differences[N_PLAN_CHOICES]; /* of each plan there is, to the suggested one */
} HwSuggestion;

/* The golfer's own plan beside it. */
typedef struct
{
  PlanOwn own;
  PlanDifference difference; /* to the suggested plan */
} HwOwnPlan;

HwPlanner *hw_planner_new (HwDocument *document);

/* Shows a suggestion, and works it out where there is none that holds. */
void hw_planner_suggest (HwPlanner *self);
/* Gives up what is being worked out. What was found before stays; where that is nothing, nothing is shown any more. */
void hw_planner_cancel (HwPlanner *self);
/* Shows no suggestion any more. */
void hw_planner_leave (HwPlanner *self);

/* Has a suggestion been asked for? */
bool hw_planner_is_shown (HwPlanner *self);
/* Is one being worked out, and how much of it is done, 0..1? */
bool hw_planner_is_busy (HwPlanner *self, double *share);
/* The newest that was found; NULL while there is none. Borrowed, until "changed". */
const HwSuggestion *hw_planner_get_suggestion (HwPlanner *self);
/* Is it of the hole, the bag and the day as they are? */
bool hw_planner_is_current (HwPlanner *self);
/* "suggested", "lay-up", "all-out", in the golfer's language. */
const char *hw_plan_choice_words (PlanChoice choice);
/* Have the plans been asked for side by side? */
void hw_planner_set_compared (HwPlanner *self, bool is_compared);
bool hw_planner_is_compared (HwPlanner *self);
/*
 * The golfer's own plan, valued against the newest solution while a current suggestion is shown; it follows what is dragged as fast as a worker values it. NULL while there is
 * none. Borrowed, until "changed".
 */
const HwOwnPlan *hw_planner_get_own (HwPlanner *self);
/*
 * Adds what the overlays of `mask` show of the whole hole: the map of strokes, which is worked out as long as its overlay is switched on, without a suggestion being
 * shown, and the tracks of plans that are compared. Returns a number that is another for everything else to be shown, 0 where there is nothing. Borrowed, until "changed".
 */
unsigned hw_planner_fill (HwPlanner *self, PlanScene *scene, unsigned mask);
/* Why there is none, one sentence; NULL if that is not so. Borrowed. */
const char *hw_planner_get_trouble (HwPlanner *self);

#endif
