// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-panel - the numbers of the shot in hand, what it has to clear, what it leaves, its club, the shots of the plan, what the drawing shows. */
#ifndef HW_PLAN_PANEL_H
#define HW_PLAN_PANEL_H

#include "planner.h"
#include "solver.h"

#include <gtk/gtk.h>

#define HW_TYPE_PLAN_PANEL (hw_plan_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwPlanPanel, hw_plan_panel, HW, PLAN_PANEL, GtkWidget)

void hw_plan_panel_set_document (HwPlanPanel *self, HwDocument *document, HwSolver *solver, HwPlanner *planner);
/* How far the drawing above is turned, anticlockwise. */
void hw_plan_panel_set_turn (HwPlanPanel *self, double turn_rad);

#endif
