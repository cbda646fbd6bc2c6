// SPDX-License-Identifier: GPL-3.0-or-later
/* ask - the dialog stays open with the reason shown until the number can be used. */
#include "ask.h"

#include "keys.h"

#include <glib/gi18n.h>

typedef struct
{
  GtkWindow *window;
  GtkEntry *entry;
  GtkLabel *reason;
  HwAskRead read;
  HwAskThen then;
  gpointer user_data;
} Ask;

char *
hw_no_length (const char *text)
{
  return g_strdup_printf (_ ("“%s” is no length; type 152, 139 m or a sum such as 140+12 yd."), text);
}

char *
hw_no_angle (const char *text)
{
  return g_strdup_printf (_ ("“%s” is no angle; type degrees such as 12 or -3.5."), text);
}

static void
ask_free (Ask *ask)
{
  g_object_unref (ask->user_data);
  g_free (ask);
}

static void
on_done_cb (Ask *ask)
{
  double value;
  g_autofree char *error = NULL;
  if (!ask->read (gtk_editable_get_text (GTK_EDITABLE (ask->entry)), ask->user_data, &value, &error))
    {
      gtk_label_set_text (ask->reason, error);
      gtk_widget_set_visible (GTK_WIDGET (ask->reason), TRUE);
      gtk_widget_grab_focus (GTK_WIDGET (ask->entry));
      return;
    }
  ask->then (value, ask->user_data);
  gtk_window_destroy (ask->window);
}

static GtkWidget *
button_new (const char *label, GCallback clicked, gpointer user_data)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);
  g_signal_connect_swapped (button, "clicked", clicked, user_data);
  return button;
}

static GtkWidget *
content_new (Ask *ask, const char *label, const char *hint)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8);
  GtkWidget *caption = gtk_label_new_with_mnemonic (label);
  gtk_label_set_xalign (GTK_LABEL (caption), 0);
  ask->entry = GTK_ENTRY (gtk_entry_new ());
  gtk_label_set_mnemonic_widget (GTK_LABEL (caption), GTK_WIDGET (ask->entry));
  gtk_entry_set_placeholder_text (ask->entry, hint);
  gtk_entry_set_activates_default (ask->entry, TRUE);
  ask->reason = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, NULL));
  gtk_label_set_xalign (ask->reason, 0);
  gtk_label_set_wrap (ask->reason, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (ask->reason), "note");
  gtk_widget_set_visible (GTK_WIDGET (ask->reason), FALSE);
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_widget_set_halign (buttons, GTK_ALIGN_END);
  gtk_box_append (GTK_BOX (buttons), button_new (_ ("_Cancel"), G_CALLBACK (gtk_window_destroy), ask->window));
  GtkWidget *done = button_new (_ ("_Do It"), G_CALLBACK (on_done_cb), ask);
  gtk_widget_add_css_class (done, "ink");
  gtk_box_append (GTK_BOX (buttons), done);
  gtk_window_set_default_widget (ask->window, done);
  gtk_box_append (GTK_BOX (box), caption);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (ask->entry));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (ask->reason));
  gtk_box_append (GTK_BOX (box), buttons);
  gtk_widget_add_css_class (box, "preferences");
  return box;
}

void
hw_ask (GtkWindow *parent, const char *title, const char *label, const char *hint, HwAskRead read, HwAskThen then,
        gpointer user_data)
{
  Ask *ask = g_new0 (Ask, 1);
  ask->window = GTK_WINDOW (gtk_window_new ());
  ask->read = read;
  ask->then = then;
  ask->user_data = g_object_ref (user_data);
  gtk_window_set_title (ask->window, title);
  gtk_window_set_transient_for (ask->window, parent);
  gtk_window_set_modal (ask->window, TRUE);
  gtk_window_set_resizable (ask->window, FALSE);
  gtk_window_set_child (ask->window, content_new (ask, label, hint));
  g_object_set_data_full (G_OBJECT (ask->window), "ask", ask, (GDestroyNotify)ask_free);
  hw_keys_add (GTK_WIDGET (ask->window), &(HwKey){ "Escape", "window.close" }, 1, GTK_PHASE_BUBBLE);
  gtk_window_present (ask->window);
}
