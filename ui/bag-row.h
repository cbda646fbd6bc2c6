// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-row - one club in the bag's table: its cells, its bar, how well it is known, and what is wrong with what was typed. Emits "mended" when nothing is any more. */
#ifndef HW_BAG_ROW_H
#define HW_BAG_ROW_H

#include "bag-columns.h"
#include "bag-desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_BAG_ROW (hw_bag_row_get_type ())
G_DECLARE_FINAL_TYPE (HwBagRow, hw_bag_row, HW, BAG_ROW, GtkListBoxRow)

/* `columns`: a size group for each column. */
GtkWidget *hw_bag_row_new (HwBagDesk *desk, GtkSizeGroup *const *columns);
/* Shows club `i` of the desk's bag; a cell with a mistake keeps what was typed as long as the row is the same club's. */
void hw_bag_row_show (HwBagRow *self, size_t i);
/* Which columns are shown, and whether the bar stands under them. */
void hw_bag_row_lay_out (HwBagRow *self, HwBagGroup groups, bool is_bar_below);
size_t hw_bag_row_get_index (HwBagRow *self);
/* Of the club. Borrowed. */
const char *hw_bag_row_get_name (HwBagRow *self);
/* Takes what is typed; false when something typed cannot be taken. */
bool hw_bag_row_commit (HwBagRow *self);
/* Gives up what is typed in the cell that has the keyboard; false when nothing is. */
bool hw_bag_row_revert (HwBagRow *self);
/* What is wrong with what was typed, or NULL. Borrowed. */
const char *hw_bag_row_get_mistake (HwBagRow *self);
/* The column that has the keyboard, or -1; hands it over. */
int hw_bag_row_get_column (HwBagRow *self);
void hw_bag_row_focus (HwBagRow *self, int column);

#endif
