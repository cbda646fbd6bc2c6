// SPDX-License-Identifier: GPL-3.0-or-later
/* window-course - a new course, the course in one place, and the facts of the hole in hand, as actions of the window. */
#include "window-private.h"

#include "course-window.h"
#include "hole-properties.h"
#include "new-course.h"

#include <glib/gi18n.h>

/* ---- a new course ---- */

static void
on_made_cb (HwWindow *self, const char *folder)
{
  hw_window_open (self, folder);
}

static void
on_new_course_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  GtkWindow *dialog = hw_new_course_new (window);
  g_signal_connect_object (dialog, "made", G_CALLBACK (on_made_cb), window, G_CONNECT_SWAPPED);
  gtk_window_present (dialog);
}

/* ---- the course in one place ---- */

static void
on_add_hole_cb (HwWindow *self, GtkWindow *dialog)
{
  hw_window_new_hole (self, dialog);
}

static void
on_show_hole_cb (HwWindow *self, guint i)
{
  g_signal_emit_by_name (self->hole_chooser, "chosen", i);
}

static void
on_course_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = HW_WINDOW (window);
  GtkWindow *dialog = hw_course_window_new (GTK_WINDOW (self), self->document);
  g_signal_connect_object (dialog, "add-hole", G_CALLBACK (on_add_hole_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (dialog, "show-hole", G_CALLBACK (on_show_hole_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (dialog);
}

/* ---- the facts of the hole in hand ---- */

static void
on_properties_changed_cb (HwWindow *self, const HoleInfo *info)
{
  g_autoptr (GError) error = NULL;
  if (!hw_document_set_facts (self->document, hw_document_get_hole_index (self->document), info, &error))
    hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
}

static void
on_hole_properties_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = HW_WINDOW (window);
  GtkWindow *dialog = hw_hole_properties_new (GTK_WINDOW (self), hw_document_get_kept (self->document));
  g_signal_connect_object (dialog, "changed", G_CALLBACK (on_properties_changed_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (dialog);
}

/* ---- the window ---- */

void
hw_window_update_course_actions (HwWindow *self)
{
  GActionMap *map = G_ACTION_MAP (self);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (map, "course")),
                               hw_document_get_course (self->document) != NULL);
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (map, "hole-properties")),
                               hw_document_has_hole (self->document));
}

void
hw_window_add_course (HwWindow *self)
{
  static const GActionEntry entries[] = {
    { .name = "new-course", .activate = on_new_course_cb },
    { .name = "course", .activate = on_course_cb },
    { .name = "hole-properties", .activate = on_hole_properties_cb },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  hw_window_update_course_actions (self);
}
