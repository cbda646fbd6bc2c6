// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * rows - see rows.h. Where a row comes or goes the whole window is laid out anew, which asks the display where it stands and takes longer than all else in a frame. So a list
 * that is shown anew in frame after frame only grows; it is closed up when it rests.
 */
#include "rows.h"

#define SHOWN_KEY "hw-rows-shown"
#define REST_KEY "hw-rows-rest"
/* Shown again within this, it follows something that is being dragged. */
#define FRAMES_US 100000
#define REST_MS 250
/* A row that keeps its place unseen must still be laid out with the others. */
#define SEEN 1.0
#define UNSEEN 0.0

GtkListBoxRow *
hw_rows_at (GtkListBox *list, size_t i, GtkWidget *(*make) (void))
{
  if (gtk_list_box_get_row_at_index (list, (int)i) == NULL)
    gtk_list_box_append (list, make ());
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (list, (int)i);
  gtk_widget_set_visible (GTK_WIDGET (row), TRUE);
  gtk_widget_set_opacity (GTK_WIDGET (row), SEEN);
  return row;
}

static gboolean
close_up (gpointer data)
{
  GtkWidget *row = gtk_widget_get_first_child (data);
  g_object_set_data (data, REST_KEY, NULL);
  for (; row != NULL; row = gtk_widget_get_next_sibling (row))
    if (gtk_widget_get_opacity (row) == UNSEEN)
      gtk_widget_set_visible (row, FALSE);
  return G_SOURCE_REMOVE;
}

static void
rest (gpointer id)
{
  g_source_remove (GPOINTER_TO_UINT (id));
}

/* Was it shown just before? Now it is again. */
static bool
follows_drag (GtkListBox *list)
{
  gint64 now_us = g_get_monotonic_time (), *shown_us = g_object_get_data (G_OBJECT (list), SHOWN_KEY);
  if (shown_us == NULL)
    g_object_set_data_full (G_OBJECT (list), SHOWN_KEY, shown_us = g_new0 (gint64, 1), g_free);
  bool follows = now_us - *shown_us < FRAMES_US;
  *shown_us = now_us;
  return follows;
}

void
hw_rows_hide_from (GtkListBox *list, size_t i)
{
  bool has_held = false, holds = follows_drag (list);
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (list, (int)i)) != NULL; i++)
    {
      gtk_widget_set_opacity (GTK_WIDGET (row), UNSEEN);
      if (!holds)
        gtk_widget_set_visible (GTK_WIDGET (row), FALSE);
      has_held = has_held || gtk_widget_get_visible (GTK_WIDGET (row));
    }
  if (has_held)
    g_object_set_data_full (G_OBJECT (list), REST_KEY, GUINT_TO_POINTER (g_timeout_add (REST_MS, close_up, list)), rest);
}
