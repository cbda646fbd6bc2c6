// SPDX-License-Identifier: GPL-3.0-or-later
/* odds-row - one outcome of a shot: what it ends in, a bar as long as it is likely, the chance. */
#ifndef HW_ODDS_ROW_H
#define HW_ODDS_ROW_H

#include "render.h"

#include <gtk/gtk.h>

#define HW_TYPE_ODDS_ROW (hw_odds_row_get_type ())
G_DECLARE_FINAL_TYPE (HwOddsRow, hw_odds_row, HW, ODDS_ROW, GtkListBoxRow)

GtkWidget *hw_odds_row_new (void);
void hw_odds_row_show (HwOddsRow *self, Kind kind, double chance);

#endif
