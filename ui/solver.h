// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solver - what takes longer than a frame, found by a worker while the pointer rests: strokes of the shot in hand, the map of its club's aims, every club at its own
 * best aim, the number to play; and, for a panel that asks, the odds of the shot while it is dragged, where they take too long for a frame.
 *
 * It follows a document. A change cancels what is being worked on; the next answer is worked out on the hole as it then is, which nothing changes.
 * Emits "mapped" when there is another map of aims, "answered" when there is an answer to the document as it is now, "odds" when odds were found.
 */
#ifndef HW_SOLVER_H
#define HW_SOLVER_H

#include "document.h"

#include "plan.h"

#define HW_TYPE_SOLVER (hw_solver_get_type ())
G_DECLARE_FINAL_TYPE (HwSolver, hw_solver, HW, SOLVER, GObject)

/* What is known of one shot; what could not be found is NULL or not there. Immutable. */
typedef struct
{
  bool has_strokes;
  ShotStrokes strokes; /* of the shot at its aim */
  ClubChoice *choices; /* every club at its own best aim, the one to choose first */
  size_t n_choices;
  bool has_approach;
  Approach approach; /* where a club reaches the hole */
} HwAnswer;

HwSolver *hw_solver_new (HwDocument *document);
/* The answer to the document as it is; NULL while there is none yet. Borrowed, until the next change. */
const HwAnswer *hw_solver_get_answer (HwSolver *self);
/*
 * The newest map of aims that still holds: of the ball and the club in hand on the same areas and the same day, wherever the aim is dragged meanwhile. NULL where
 * there is none. Borrowed, until "mapped" or a change.
 */
const AimMap *hw_solver_get_aims (HwSolver *self);
/* The same, and while something is dragged also one that holds but for its day: the wind is being turned, and the map follows when it rests. */
const AimMap *hw_solver_get_shown_aims (HwSolver *self);
/* The number to play from the ball in hand to its green, wherever the aim is dragged meanwhile; NULL where none is known. Borrowed, until "answered" or a change. */
const Approach *hw_solver_get_approach (HwSolver *self);

/* Has the odds of the shot in hand found as it now is, without giving up those that are being found: so they follow the pointer. */
void hw_solver_want_odds (HwSolver *self);
/* They have been found otherwise meanwhile. */
void hw_solver_leave_odds (HwSolver *self);
/* The newest. NULL before there are any. Borrowed, until "odds". */
const HwFoundOdds *hw_solver_get_odds (HwSolver *self);

#endif
