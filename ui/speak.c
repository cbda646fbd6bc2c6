// SPDX-License-Identifier: GPL-3.0-or-later
/* speak - the button inside a drop-down has no name of its own in GTK 4.8 and would be read by the name of its class. */
#include "speak.h"

#include <glib/gi18n.h>

#define NAME_KEY "hw-spoken-name"

static void
say_choice (GtkDropDown *choice)
{
  const char *name = g_object_get_data (G_OBJECT (choice), NAME_KEY);
  gpointer item = gtk_drop_down_get_selected_item (choice);
  g_autofree char *spoken = GTK_IS_STRING_OBJECT (item)
                                ? g_strdup_printf (_ ("%s: %s"), name, gtk_string_object_get_string (item))
                                : g_strdup (name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (choice)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_TOGGLE_BUTTON (child))
      gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

void
hw_speak_choice (GtkDropDown *choice, const char *name)
{
  g_object_set_data_full (G_OBJECT (choice), NAME_KEY, g_strdup (name), g_free);
  g_signal_connect (choice, "notify::selected-item", G_CALLBACK (say_choice), NULL);
  say_choice (choice);
}
