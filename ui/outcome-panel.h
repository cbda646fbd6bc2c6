// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * outcome-panel - what becomes of the shot in hand: where it ends up and how likely, at every frame; strokes to hole out, what this aim costs, every
 * club at its own best aim and the number to play, as soon as the solver knows.
 */
#ifndef HW_OUTCOME_PANEL_H
#define HW_OUTCOME_PANEL_H

#include "solver.h"

#include <gtk/gtk.h>

#define HW_TYPE_OUTCOME_PANEL (hw_outcome_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwOutcomePanel, hw_outcome_panel, HW, OUTCOME_PANEL, GtkWidget)

void hw_outcome_panel_set_document (HwOutcomePanel *self, HwDocument *document, HwSolver *solver);

#endif
