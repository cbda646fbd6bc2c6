// SPDX-License-Identifier: GPL-3.0-or-later
/* window-life - work that earlier runs left unsaved, opened in this window or, where other work stands in its way, in one of its own. */
#include "window-private.h"

#include <glib/gi18n.h>

/* The copy that is opened becomes work of this process; the row goes either way, since what cannot be read now never can. */
static void
recover_here (HwWindow *self, guint i)
{
  g_autoptr (GError) error = NULL;
  if (hw_document_recover (self->document, hw_recovered_get (self->recovered, i), &error))
    {
      hw_recovered_remove (self->recovered, i);
      hw_window_update_recent (self);
      hw_window_say (self, GTK_MESSAGE_INFO,
                     hw_document_get_path (self->document) != NULL
                         ? _ ("This is your unsaved work. Save keeps it; Undo goes back to what the file holds.")
                         : _ ("This is your unsaved work. It has no file yet; Save asks where to keep it."));
      gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
      return;
    }
  hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
  if (g_error_matches (error, SVG_ERROR, SVG_ERROR_READ))
    hw_recovered_remove (self->recovered, i);
}

static void
on_recovered_open_cb (HwWindow *self, guint i)
{
  const RecoveryCopy *copy = hw_recovered_get (self->recovered, i);
  if (copy->is_bag)
    {
      hw_window_recover_bag (self, i);
      return;
    }
  if (!hw_document_is_any_modified (self->document) || hw_document_holds (self->document, copy->original))
    {
      recover_here (self, i);
      return;
    }
  HwWindow *other = hw_window_new (gtk_window_get_application (GTK_WINDOW (self)), self->settings, self->example);
  hw_window_set_recovered (other, self->recovered);
  hw_window_set_session (other, self->session);
  recover_here (other, i);
  gtk_window_present (GTK_WINDOW (other));
}

void
hw_window_show_recovered (HwWindow *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->recovered_bar), hw_recovered_get_n (self->recovered) > 0);
  if (hw_recovered_get_trouble (self->recovered) != NULL)
    hw_window_say (self, GTK_MESSAGE_WARNING, hw_recovered_get_trouble (self->recovered));
}

static void
on_show_recovered_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_show_recovered (window);
}

static void
on_recovered_changed_cb (HwWindow *self)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "show-recovered");
  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), hw_recovered_get_n (self->recovered) > 0);
}

void
hw_window_set_recovered (HwWindow *self, HwRecovered *recovered)
{
  self->recovered = g_object_ref (recovered);
  hw_recovered_bar_set_recovered (self->recovered_bar, recovered);
  g_signal_connect_object (recovered, "changed", G_CALLBACK (on_recovered_changed_cb), self, G_CONNECT_SWAPPED);
  on_recovered_changed_cb (self);
}

/* Others may have written while the golfer was elsewhere. */
static void
on_active_cb (HwWindow *self)
{
  if (gtk_window_is_active (GTK_WINDOW (self)))
    hw_disk_bar_look (self->disk_bar);
}

void
hw_window_add_life (HwWindow *self)
{
  static const GActionEntry entries[] = { { .name = "show-recovered", .activate = on_show_recovered_cb } };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  hw_disk_bar_set_document (self->disk_bar, self->document);
  g_signal_connect_swapped (self->recovered_bar, "open", G_CALLBACK (on_recovered_open_cb), self);
  g_signal_connect (self, "notify::is-active", G_CALLBACK (on_active_cb), NULL);
}
