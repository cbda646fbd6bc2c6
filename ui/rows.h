// SPDX-License-Identifier: GPL-3.0-or-later
/* rows - the rows of a list that is shown anew often: kept and hidden, not made again. */
#ifndef HW_ROWS_H
#define HW_ROWS_H

#include <gtk/gtk.h>
#include <stdbool.h>

/* Row `i` of a list, shown; made if it is the next one and not there yet. */
GtkListBoxRow *hw_rows_at (GtkListBox *list, size_t i, GtkWidget *(*make) (void));
void hw_rows_hide_from (GtkListBox *list, size_t i);

#endif
