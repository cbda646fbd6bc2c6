// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-fit-row - what recorded shots tell of one club, and whether the bag takes it over. Emits "ticked". */
#ifndef HW_BAG_FIT_ROW_H
#define HW_BAG_FIT_ROW_H

#include "bag.h"

#include <gtk/gtk.h>
#include <stdbool.h>

#define HW_TYPE_BAG_FIT_ROW (hw_bag_fit_row_get_type ())
G_DECLARE_FINAL_TYPE (HwBagFitRow, hw_bag_fit_row, HW, BAG_FIT_ROW, GtkListBoxRow)

/* `present`: the club of that name in the bag, NULL if it is new. Ticked from the first where the shots are enough for a spread. */
GtkWidget *hw_bag_fit_row_new (const ClubFit *fit, const Club *present, LengthUnit units);
bool hw_bag_fit_row_is_ticked (HwBagFitRow *self);
void hw_bag_fit_row_tick (HwBagFitRow *self, bool is_ticked);

#endif
