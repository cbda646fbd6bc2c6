// SPDX-License-Identifier: GPL-3.0-or-later
/* draw-panel - the palette, the fields of the thing selected, everything on the hole, and what is not right with it yet. */
#ifndef HW_DRAW_PANEL_H
#define HW_DRAW_PANEL_H

#include "desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_DRAW_PANEL (hw_draw_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwDrawPanel, hw_draw_panel, HW, DRAW_PANEL, GtkWidget)

void hw_draw_panel_set_desk (HwDrawPanel *self, HwDesk *desk);

#endif
