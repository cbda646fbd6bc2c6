// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solver - what takes longer than a frame, found by a worker while the pointer rests: strokes of the shot in hand, the map of its club's aims, every club at its own
 * best aim, the number to play.
 *
 * It follows a document. A change cancels what is being worked on; the next answer is worked out on the hole as it then is, which nothing changes.
 * Emits "answered" when there is an answer to the document as it is now.
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
  AimMap *aims;        /* of its club */
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
 * there is none. Borrowed, until the next answer or change.
 */
const AimMap *hw_solver_get_aims (HwSolver *self);

#endif
