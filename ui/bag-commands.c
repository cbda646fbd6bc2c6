// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-commands - what is done with the clubs of the bag, as actions with their keys; what is typed is taken first. */
#include "bag-window-private.h"

#include "bag-fit.h"
#include "keys.h"

#include <glib/gi18n.h>

/* Columns of the table that a new club takes the keyboard to. */
#define NAME_COLUMN 0
#define CARRY_COLUMN 1

static Bag *
bag_in (HwBagWindow *self)
{
  return hw_bag_desk_get_bag (self->desk);
}

/* Makes what came of an edit the next step, or says why nothing did. */
static bool
take (HwBagWindow *self, Bag *bag, const char *label, const GError *error)
{
  if (bag == NULL)
    {
      hw_bag_window_say (self, error->message, true);
      return false;
    }
  hw_bag_desk_push (self->desk, bag, label);
  return true;
}

static void
on_add_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  g_autoptr (GError) error = NULL;
  if (!hw_bag_window_commit (self))
    return;
  Club club;
  club_init (&club);
  g_autofree char *name = bag_free_name (bag_in (self), _ ("new club"));
  club.name = name;
  club.carry_m = bag_propose_carry_m (bag_in (self), hw_bag_desk_get_units (self->desk));
  if (take (self, bag_inserting_club (bag_in (self), &club, &error), _ ("add club"), error))
    hw_bag_table_select (self->table, (size_t)hw_bag_desk_find (self->desk, name), NAME_COLUMN);
}

static void
on_duplicate_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  g_autoptr (GError) error = NULL;
  int i = hw_bag_window_commit (self) ? hw_bag_table_get_selected (self->table) : -1;
  if (i < 0)
    return;
  g_autofree char *name = bag_free_name (bag_in (self), bag_club (bag_in (self), (size_t)i)->name);
  g_autofree char *label = g_strdup_printf (_ ("duplicate %s"), bag_club (bag_in (self), (size_t)i)->name);
  if (take (self, bag_duplicating_club (bag_in (self), (size_t)i, &error), label, error))
    hw_bag_table_select (self->table, (size_t)hw_bag_desk_find (self->desk, name), CARRY_COLUMN);
}

static void
on_delete_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  /* Whatever is typed in the club goes with it. */
  hw_bag_table_revert (self->table);
  int i = hw_bag_table_get_selected (self->table);
  if (i < 0)
    return;
  g_autofree char *label = g_strdup_printf (_ ("delete %s"), bag_club (bag_in (self), (size_t)i)->name);
  hw_bag_desk_push (self->desk, bag_without_club (bag_in (self), (size_t)i), label);
  size_t n = bag_n_clubs (bag_in (self));
  if (n > 0)
    hw_bag_table_select (self->table, MIN ((size_t)i, n - 1), CARRY_COLUMN);
}

/* What is only typed yet is given up first. */
static void
on_undo_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  if (hw_bag_table_revert (self->table))
    return;
  const char *undone = hw_bag_desk_undo_label (self->desk);
  g_autofree char *text = undone != NULL ? g_strdup_printf (_ ("Undone: %s"), undone) : NULL;
  hw_bag_desk_undo (self->desk);
  if (text != NULL)
    hw_bag_window_say (self, text, false);
}

static void
on_redo_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  const char *done = hw_bag_desk_redo_label (self->desk);
  g_autofree char *text = done != NULL ? g_strdup_printf (_ ("Done again: %s"), done) : NULL;
  hw_bag_desk_redo (self->desk);
  if (text != NULL)
    hw_bag_window_say (self, text, false);
}

static void
on_fitted_cb (HwBagWindow *self, guint n_clubs)
{
  g_autofree char *text = g_strdup_printf (
      g_dngettext (NULL, "The figures of %u club were taken over", "The figures of %u clubs were taken over", n_clubs),
      n_clubs);
  hw_bag_window_say (self, text, false);
}

static void
on_fit_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  if (!hw_bag_window_commit (self))
    return;
  GtkWindow *dialog = hw_bag_fit_new (GTK_WINDOW (self), self->desk);
  g_signal_connect_object (dialog, "fitted", G_CALLBACK (on_fitted_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (dialog);
}

void
hw_bag_window_add_commands (HwBagWindow *self)
{
  static const GActionEntry entries[]
      = { { .name = "add", .activate = on_add_cb },   { .name = "duplicate", .activate = on_duplicate_cb },
          { .name = "undo", .activate = on_undo_cb }, { .name = "delete", .activate = on_delete_cb },
          { .name = "redo", .activate = on_redo_cb }, { .name = "fit", .activate = on_fit_cb } };
  /* Before the cells, which would undo and delete words. */
  static const HwKey first[] = { { "<Control>z", "bag.undo" },       { "<Control><Shift>z|<Control>y", "bag.redo" },
                                 { "<Control>d", "bag.duplicate" },  { "<Control>Delete", "bag.delete" },
                                 { "<Control><Shift>n", "bag.add" }, { "<Control>f", "bag.fit" },
                                 { "<Control>n", "bag.new" },        { "<Control>o", "bag.open" },
                                 { "<Control>s", "bag.save" },       { "<Control><Shift>s", "bag.save-as" } };
  static const HwKey last[] = { { "Escape", "window.close" } };
  g_action_map_add_action_entries (self->actions, entries, G_N_ELEMENTS (entries), self);
  hw_keys_add (GTK_WIDGET (self), first, G_N_ELEMENTS (first), GTK_PHASE_CAPTURE);
  hw_keys_add (GTK_WIDGET (self), last, G_N_ELEMENTS (last), GTK_PHASE_BUBBLE);
}
