// SPDX-License-Identifier: GPL-3.0-or-later
/* window-bag - leads from the window to the bag's. */
#include "window-private.h"

#include "bag-desk.h"
#include "bag-window.h"
#include "sentence.h"

static void
on_bag_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = window;
  g_autoptr (GError) error = NULL;
  const Bag *bag = hw_document_get_bag (self->document);
  if (bag != NULL && !hw_bag_desk_can_hold (bag, &error))
    {
      g_autofree char *text = hw_sentence (error->message);
      hw_window_say (self, GTK_MESSAGE_ERROR, text);
      return;
    }
  gtk_window_present (hw_bag_window_new (GTK_WINDOW (self), self->document));
}

void
hw_window_add_bag (HwWindow *self)
{
  static const GActionEntry entries[] = { { .name = "bag", .activate = on_bag_cb } };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
