// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-files - opening, saving and making bags; what is unsaved is asked about before another bag takes its place. */
#include "bag-window-private.h"

#include <glib/gi18n.h>

/* What goes on when the unsaved bag was dealt with. */
typedef void (*Then) (HwBagWindow *self, const char *path);

typedef struct
{
  HwBagWindow *window; /* held */
  Then then;
  char *path;
} Waiting;

static void
waiting_free (Waiting *waiting)
{
  g_object_unref (waiting->window);
  g_free (waiting->path);
  g_free (waiting);
}

static GtkFileChooserNative *
chooser_new (HwBagWindow *self, const char *title, GtkFileChooserAction action, const char *accept)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (title, GTK_WINDOW (self), action, accept, _ ("_Cancel"));
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, _ ("Bags of clubs (CSV)"));
  gtk_file_filter_add_pattern (filter, "*.csv");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  g_autofree char *beside = hw_document_get_bag_folder (hw_bag_desk_get_document (self->desk));
  const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
  g_autofree char *folder = hw_bag_desk_needs_place (self->desk) ? g_strdup (beside != NULL ? beside : documents)
                                                                 : g_path_get_dirname (hw_bag_desk_get_path (self->desk));
  if (folder != NULL)
    {
      g_autoptr (GFile) file = g_file_new_for_path (folder);
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (dialog), file, NULL);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  return dialog;
}

/* The path that was chosen, or NULL; the dialog goes. Free with g_free. */
static char *
chosen_path (GtkNativeDialog *dialog, int response)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_object_unref (dialog);
  return file != NULL ? g_file_get_path (file) : NULL;
}

/* ---- saving ---- */

static bool
save_to (HwBagWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  if (!hw_bag_desk_save (self->desk, path, &error))
    {
      hw_bag_window_say (self, error->message, true);
      return false;
    }
  g_autofree char *name = hw_bag_desk_get_name (self->desk);
  g_autofree char *text = g_strdup_printf (_ ("Saved as %s; the plan uses this bag"), name);
  hw_bag_window_say (self, text, false);
  return true;
}

static void
on_place_chosen_cb (GtkNativeDialog *dialog, int response, Waiting *waiting)
{
  g_autofree char *path = chosen_path (dialog, response);
  if (path != NULL && save_to (waiting->window, path) && waiting->then != NULL)
    waiting->then (waiting->window, waiting->path);
  else
    hw_bag_window_show_chooser (waiting->window);
  waiting_free (waiting);
}

/* Asks where to save, then goes on. Takes the waiting. */
static void
save_as (Waiting *waiting)
{
  HwBagWindow *self = waiting->window;
  GtkFileChooserNative *dialog = chooser_new (self, _ ("Save the Bag As"), GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"));
  g_autofree char *name = hw_bag_desk_get_path (self->desk) != NULL ? hw_bag_desk_get_name (self->desk) : g_strdup ("bag.csv");
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  g_signal_connect (dialog, "response", G_CALLBACK (on_place_chosen_cb), waiting);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static Waiting *
waiting_new (HwBagWindow *self, Then then, const char *path)
{
  Waiting *waiting = g_new0 (Waiting, 1);
  waiting->window = g_object_ref (self);
  waiting->then = then;
  waiting->path = g_strdup (path);
  return waiting;
}

static void
on_save_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  if (!hw_bag_window_commit (self))
    return;
  if (hw_bag_desk_needs_place (self->desk))
    save_as (waiting_new (self, NULL, NULL));
  else
    save_to (self, NULL);
}

static void
on_save_as_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  if (hw_bag_window_commit (window))
    save_as (waiting_new (window, NULL, NULL));
}

/* ---- what is unsaved ---- */

static void
on_answer_cb (GtkDialog *dialog, int response, Waiting *waiting)
{
  HwBagWindow *self = waiting->window;
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == GTK_RESPONSE_ACCEPT && !hw_bag_window_commit (self))
    response = GTK_RESPONSE_CANCEL;
  if (response == GTK_RESPONSE_ACCEPT && hw_bag_desk_needs_place (self->desk))
    {
      save_as (waiting);
      return;
    }
  if (response == GTK_RESPONSE_REJECT || (response == GTK_RESPONSE_ACCEPT && save_to (self, NULL)))
    waiting->then (self, waiting->path);
  else
    hw_bag_window_show_chooser (self);
  waiting_free (waiting);
}

/* Asks, when something is unsaved, then does `then` unless the golfer thinks better of it. */
static void
ask_then (HwBagWindow *self, Then then, const char *path)
{
  const char *mistake = NULL;
  bool has_mistake = !hw_bag_table_commit (self->table, &mistake);
  if (!has_mistake && !hw_bag_desk_is_modified (self->desk))
    {
      then (self, path);
      return;
    }
  g_autofree char *name = hw_bag_desk_get_name (self->desk);
  GtkWidget *dialog = gtk_message_dialog_new (GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                              GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, _ ("Save the changes to %s?"), name);
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s", has_mistake ? mistake : _ ("Without saving, what was changed in this bag is lost."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Discard"), GTK_RESPONSE_REJECT, _ ("_Cancel"), GTK_RESPONSE_CANCEL,
                          _ ("_Save"), GTK_RESPONSE_ACCEPT, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT);
  g_signal_connect (dialog, "response", G_CALLBACK (on_answer_cb), waiting_new (self, then, path));
  gtk_window_present (GTK_WINDOW (dialog));
}

static gboolean
on_close_idle_cb (gpointer window)
{
  gtk_window_close (window);
  return G_SOURCE_REMOVE;
}

/* The dialog that was answered goes first: it is still dealing with the key or click, and stands on this window. */
static void
close_now (HwBagWindow *self, const char *path)
{
  self->is_closing = true;
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, on_close_idle_cb, g_object_ref (self), g_object_unref);
}

bool
hw_bag_window_asks_to_close (HwBagWindow *self)
{
  const char *mistake;
  if (self->is_closing || (hw_bag_table_commit (self->table, &mistake) && !hw_bag_desk_is_modified (self->desk)))
    return false;
  ask_then (self, close_now, NULL);
  return true;
}

/* ---- other bags ---- */

static void
open_now (HwBagWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  if (hw_bag_desk_open (self->desk, path, &error))
    {
      g_autofree char *name = hw_bag_desk_get_name (self->desk);
      g_autofree char *text = g_strdup_printf (_ ("The plan uses %s now"), name);
      hw_bag_window_say (self, text, false);
      return;
    }
  hw_bag_window_show_chooser (self);
  hw_bag_window_say (self, error->message, true);
}

void
hw_bag_window_open (HwBagWindow *self, const char *path)
{
  ask_then (self, open_now, path);
}

static void
on_file_chosen_cb (GtkNativeDialog *dialog, int response, HwBagWindow *self)
{
  g_autofree char *path = chosen_path (dialog, response);
  if (path != NULL)
    hw_bag_window_open (self, path);
}

static void
on_open_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  GtkFileChooserNative *dialog = chooser_new (window, _ ("Open a Bag"), GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"));
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_file_chosen_cb), window, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
start_usual (HwBagWindow *self, const char *path)
{
  Level level = bag_level (hw_bag_desk_get_bag (self->desk));
  hw_bag_desk_start (self->desk, bag_new_usual (_ ("new bag"), hw_bag_desk_get_units (self->desk), level));
  g_autofree char *text
      = g_strdup_printf (_ ("A usual bag of the level %s; saving asks where to keep it"), hw_bag_level_words (level));
  hw_bag_window_say (self, text, false);
}

static void
on_new_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  ask_then (window, start_usual, NULL);
}

/* A copy of the bag as it is, changes and all, which then belong to the copy. */
static void
on_copy_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwBagWindow *self = window;
  if (!hw_bag_window_commit (self))
    return;
  hw_bag_desk_start (self->desk, bag_ref (hw_bag_desk_get_bag (self->desk)));
  hw_bag_window_say (self, _ ("A copy of the bag; saving asks where to keep it"), false);
}

void
hw_bag_window_add_files (HwBagWindow *self)
{
  static const GActionEntry entries[] = { { .name = "new", .activate = on_new_cb },
                                          { .name = "copy", .activate = on_copy_cb },
                                          { .name = "open", .activate = on_open_cb },
                                          { .name = "save", .activate = on_save_cb },
                                          { .name = "save-as", .activate = on_save_as_cb } };
  g_action_map_add_action_entries (self->actions, entries, G_N_ELEMENTS (entries), self);
}
