// SPDX-License-Identifier: GPL-3.0-or-later
/* club-row - one line of what the day does to each club: carry, by how much that is changed, run, side. */
#ifndef HW_CLUB_ROW_H
#define HW_CLUB_ROW_H

#include "odds.h"
#include "units.h"

#include <gtk/gtk.h>

#define HW_TYPE_CLUB_ROW (hw_club_row_get_type ())
G_DECLARE_FINAL_TYPE (HwClubRow, hw_club_row, HW, CLUB_ROW, GtkListBoxRow)

GtkWidget *hw_club_row_new (void);
void hw_club_row_show (HwClubRow *self, const ClubDay *day, LengthUnit units);

#endif
