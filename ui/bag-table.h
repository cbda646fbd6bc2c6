// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bag-table - the clubs of the bag on the desk, longest carry first, a row a club under one ruler. A row stays its club's when the order changes, and the keyboard with
 * it. Emits "mended" when what was typed wrong no longer is.
 */
#ifndef HW_BAG_TABLE_H
#define HW_BAG_TABLE_H

#include "bag-columns.h"
#include "bag-desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_BAG_TABLE (hw_bag_table_get_type ())
G_DECLARE_FINAL_TYPE (HwBagTable, hw_bag_table, HW, BAG_TABLE, GtkWidget)

void hw_bag_table_set_desk (HwBagTable *self, HwBagDesk *desk);
/* Which columns are shown, and whether the bars stand under them. */
void hw_bag_table_lay_out (HwBagTable *self, HwBagGroup groups, bool is_bar_below);
/* The club that the keyboard is or was in, or -1. */
int hw_bag_table_get_selected (HwBagTable *self);
/* Takes the keyboard to a club. */
void hw_bag_table_select (HwBagTable *self, size_t i, int column);
/* Takes what is typed; false, with a sentence, when something typed cannot be taken. Borrowed. */
bool hw_bag_table_commit (HwBagTable *self, const char **mistake);
/* Gives up what is typed where the keyboard is; false when nothing is. */
bool hw_bag_table_revert (HwBagTable *self);

#endif
