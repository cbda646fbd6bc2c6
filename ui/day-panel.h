// SPDX-License-Identifier: GPL-3.0-or-later
/* day-panel - the day that the plan is made for: the wind on its rose, air and ground in entries, and the days kept with the hole. */
#ifndef HW_DAY_PANEL_H
#define HW_DAY_PANEL_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_DAY_PANEL (hw_day_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwDayPanel, hw_day_panel, HW, DAY_PANEL, GtkWidget)

void hw_day_panel_set_document (HwDayPanel *self, HwDocument *document);
/* Where the wind is seen and turned. */
GtkWidget *hw_day_panel_get_rose (HwDayPanel *self);
/* Is what each club does on the day in sight? It changes with every aim. */
bool hw_day_panel_shows_clubs (HwDayPanel *self);
/* How far the drawing is turned, anticlockwise: the rose lies as the drawing does. */
void hw_day_panel_set_turn (HwDayPanel *self, double turn_rad);

#endif
