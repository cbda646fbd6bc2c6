// SPDX-License-Identifier: GPL-3.0-or-later
/* window-bag - leads from the window to the bag's. */
#include "window-private.h"

#include "bag-desk.h"
#include "bag-window.h"
#include "sentence.h"

/* The bag's window; NULL where the bag in hand is none to type into, which is said. */
static GtkWindow *
bag_window_new (HwWindow *self)
{
  g_autoptr (GError) error = NULL;
  const Bag *bag = hw_document_get_bag (self->document);
  if (bag == NULL || hw_bag_desk_can_hold (bag, &error))
    return hw_bag_window_new (GTK_WINDOW (self), self->document);
  g_autofree char *text = hw_sentence (error->message);
  hw_window_say (self, GTK_MESSAGE_ERROR, text);
  return NULL;
}

static void
on_bag_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  GtkWindow *bag = bag_window_new (window);
  if (bag != NULL)
    gtk_window_present (bag);
}

void
hw_window_recover_bag (HwWindow *self, guint i)
{
  g_autoptr (GError) error = NULL;
  GtkWindow *bag = bag_window_new (self);
  if (bag == NULL)
    return;
  bool is_read = hw_bag_window_recover (HW_BAG_WINDOW (bag), hw_recovered_get (self->recovered, i), &error);
  /* The row goes either way: what cannot be read now never can. */
  hw_recovered_remove (self->recovered, i);
  if (is_read)
    {
      gtk_window_present (bag);
      return;
    }
  gtk_window_destroy (bag);
  g_autofree char *text = hw_sentence (error->message);
  hw_window_say (self, GTK_MESSAGE_ERROR, text);
}

void
hw_window_add_bag (HwWindow *self)
{
  static const GActionEntry entries[] = { { .name = "bag", .activate = on_bag_cb } };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
}
