// SPDX-License-Identifier: GPL-3.0-or-later
/* suggest-panel - the suggested plan of the hole: how far it is worked out, its shots, what it is expected to score, and the chance of each score. */
#ifndef HW_SUGGEST_PANEL_H
#define HW_SUGGEST_PANEL_H

#include "planner.h"

#include <gtk/gtk.h>

#define HW_TYPE_SUGGEST_PANEL (hw_suggest_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwSuggestPanel, hw_suggest_panel, HW, SUGGEST_PANEL, GtkWidget)

void hw_suggest_panel_set_document (HwSuggestPanel *self, HwDocument *document, HwPlanner *planner);

#endif
