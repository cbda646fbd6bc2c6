// SPDX-License-Identifier: GPL-3.0-or-later
/* window-bag - leads from the window to the bag's. */
#include "window-private.h"

#include "bag-window.h"

static void
on_bag_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = window;
  gtk_window_present (hw_bag_window_new (GTK_WINDOW (self), self->document));
}

void
hw_window_add_bag (HwWindow *self)
{
  static const GActionEntry entries[] = { { .name = "bag", .activate = on_bag_cb } };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
