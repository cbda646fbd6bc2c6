// SPDX-License-Identifier: GPL-3.0-or-later
/* rows - see rows.h. */
#include "rows.h"

GtkListBoxRow *
hw_rows_at (GtkListBox *list, size_t i, GtkWidget *(*make) (void))
{
  if (gtk_list_box_get_row_at_index (list, (int)i) == NULL)
    gtk_list_box_append (list, make ());
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (list, (int)i);
  gtk_widget_set_visible (GTK_WIDGET (row), TRUE);
  return row;
}

void
hw_rows_hide_from (GtkListBox *list, size_t i)
{
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (list, (int)i)) != NULL; i++)
    gtk_widget_set_visible (GTK_WIDGET (row), FALSE);
}
