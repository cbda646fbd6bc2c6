// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * planner - the whole hole solved by a worker, for as long as the golfer wants to see the suggestion.
 *
 * It follows a document. Aims that are dragged do not matter to it; once the drawing, the day, the bag, the tee or the hole location is another, the suggestion
 * is out of date at once, and after a pause is worked out again, from where it stood. Emits "changed" when anything that it tells is another.
 */
#ifndef HW_PLANNER_H
#define HW_PLANNER_H

#include "document.h"

#include "plan.h"

#define HW_TYPE_PLANNER (hw_planner_get_type ())
G_DECLARE_FINAL_TYPE (HwPlanner, hw_planner, HW, PLANNER, GObject)

/* Plans for one hole, bag and day. Immutable. */
typedef struct
{
  bool has_plan[N_PLAN_CHOICES]; /* the bag may have no lay-up */
  Plan plans[N_PLAN_CHOICES];
  bool is_first; /* good but for a tenth of a stroke: the better one follows */
} HwSuggestion;

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
/* Why there is none, one sentence; NULL if that is not so. Borrowed. */
const char *hw_planner_get_trouble (HwPlanner *self);

#endif
