// SPDX-License-Identifier: GPL-3.0-or-later
/* carry-row - one line of the carry table: swatch, what it is, reach, carry, chance. */
#ifndef HW_CARRY_ROW_H
#define HW_CARRY_ROW_H

#include "render.h"

#include <gtk/gtk.h>

#define HW_TYPE_CARRY_ROW (hw_carry_row_get_type ())
G_DECLARE_FINAL_TYPE (HwCarryRow, hw_carry_row, HW, CARRY_ROW, GtkListBoxRow)

GtkWidget *hw_carry_row_new (void);
/* Its columns are as wide as all else in these groups. The head of its table, title and headings, has two lines where it has. */
void hw_carry_row_align (HwCarryRow *self, GtkBox *head, GtkSizeGroup *reach, GtkSizeGroup *carry, GtkSizeGroup *chance);
void hw_carry_row_show (HwCarryRow *self, const Hole *hole, const ShotResult *shot, const CarryRow *row, LengthUnit units);
/* A tree, or an area of them: where it stands, by how much the ball passes over it, the chance to get past. */
void hw_carry_row_show_trees (HwCarryRow *self, const Hole *hole, const TreeRow *row, LengthUnit units);

#endif
