// SPDX-License-Identifier: GPL-3.0-or-later
/* suggest-row - one shot of a suggested plan: club, what it plays, by what to aim, what it leaves, where it may end, strokes to hole out. */
#ifndef HW_SUGGEST_ROW_H
#define HW_SUGGEST_ROW_H

#include "plan.h"

#include <gtk/gtk.h>

#define HW_TYPE_SUGGEST_ROW (hw_suggest_row_get_type ())
G_DECLARE_FINAL_TYPE (HwSuggestRow, hw_suggest_row, HW, SUGGEST_ROW, GtkListBoxRow)

GtkWidget *hw_suggest_row_new (void);
/* `hole_name` is that of the plan, NULL: the hole location in use; `reason` why the shot is so, NULL: not known (yet). */
void hw_suggest_row_show (HwSuggestRow *self, size_t number, const PlanShot *planned, const Hole *hole, const char *hole_name,
                          const char *reason, LengthUnit units);
/* Sentences under all that; "": none. They stay while the row shows another shot. */
void hw_suggest_row_show_more (HwSuggestRow *self, const char *more);

#endif
