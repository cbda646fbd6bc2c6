// SPDX-License-Identifier: GPL-3.0-or-later
/* shot-row - one line of the plan: number, club, carry. */
#ifndef HW_SHOT_ROW_H
#define HW_SHOT_ROW_H

#include "odds.h"
#include "units.h"

#include <gtk/gtk.h>

#define HW_TYPE_SHOT_ROW (hw_shot_row_get_type ())
G_DECLARE_FINAL_TYPE (HwShotRow, hw_shot_row, HW, SHOT_ROW, GtkListBoxRow)

GtkWidget *hw_shot_row_new (void);
/* `written` is the shot as the plan says it, `result` what becomes of it. */
void hw_shot_row_show (HwShotRow *self, size_t number, const Shot *written, const ShotResult *result, LengthUnit units);

#endif
