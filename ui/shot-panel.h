// SPDX-License-Identifier: GPL-3.0-or-later
/* shot-panel - how the shot in hand is played: club, shape and curve, swing; each an edit of the plan. */
#ifndef HW_SHOT_PANEL_H
#define HW_SHOT_PANEL_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_SHOT_PANEL (hw_shot_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwShotPanel, hw_shot_panel, HW, SHOT_PANEL, GtkWidget)

void hw_shot_panel_set_document (HwShotPanel *self, HwDocument *document);

#endif
