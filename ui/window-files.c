// SPDX-License-Identifier: GPL-3.0-or-later
/* window-files - opening, saving and closing: nothing is lost, nothing is written over unasked, every failure is said. */
#include "window-private.h"

#include <glib/gi18n.h>

/* What waits for an answer in a dialog. */
typedef struct
{
  HwWindow *window; /* referenced */
  void (*then) (HwWindow *self, const char *path);
  char *path;
  int response;
} Waiting;

static Waiting *
waiting_new (HwWindow *self, void (*then) (HwWindow *self, const char *path), const char *path)
{
  Waiting *waiting = g_new0 (Waiting, 1);
  waiting->window = g_object_ref (self);
  waiting->then = then;
  waiting->path = g_strdup (path);
  return waiting;
}

static void
waiting_free (Waiting *waiting)
{
  g_object_unref (waiting->window);
  g_free (waiting->path);
  g_free (waiting);
}

static GtkMessageDialog *
question_new (HwWindow *self, const char *question, const char *details)
{
  GtkWidget *dialog = gtk_message_dialog_new (GTK_WINDOW (self), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                              GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, "%s", question);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", details);
  return GTK_MESSAGE_DIALOG (dialog);
}

/* ---- opening ---- */

static void
open_now (HwWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  gtk_info_bar_set_revealed (self->message_bar, FALSE);
  if (!hw_document_open (self->document, path, &error))
    {
      /* Never an empty window: the example stands below the message. */
      if (hw_window_is_empty (self) && self->example != NULL)
        hw_document_open (self->document, self->example, NULL);
      hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
      return;
    }
  hw_window_update_recent (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

void
hw_window_open (HwWindow *self, const char *path)
{
  hw_window_ask_then (self, open_now, path);
}

void
hw_window_open_example (HwWindow *self)
{
  if (self->example == NULL)
    {
      hw_window_say (self, GTK_MESSAGE_INFO,
                     _ ("The example course was not found. Open a hole or a course folder of your own with Ctrl+O."));
      return;
    }
  open_now (self, self->example);
  if (hw_window_is_empty (self))
    return;
  g_autofree char *text = g_strdup_printf (
      _ ("This is an example, %s, to try everything on. Saving asks where to keep your copy; Ctrl+O opens a hole of your own."),
      hw_document_get_course (self->document)->name);
  hw_window_say (self, GTK_MESSAGE_INFO, text);
}

static void
on_file_chosen_cb (GtkNativeDialog *dialog, int response, HwWindow *self)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_object_unref (dialog);
  if (path != NULL)
    hw_window_open (self, path);
}

static void
add_filter (GtkFileChooser *chooser, const char *name, const char *pattern)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_chooser_add_filter (chooser, filter);
}

void
hw_window_choose_file (HwWindow *self, bool folder)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      folder ? _ ("Open a Course Folder") : _ ("Open a Hole"), GTK_WINDOW (self),
      folder ? GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER : GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  if (!folder)
    {
      add_filter (GTK_FILE_CHOOSER (dialog), _ ("Hole documents (SVG)"), "*.svg");
      add_filter (GTK_FILE_CHOOSER (dialog), _ ("All files"), "*");
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect (dialog, "response", G_CALLBACK (on_file_chosen_cb), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

/* ---- saving ---- */

static void
say_not_saved (HwWindow *self, const GError *error)
{
  g_autofree char *text = g_strconcat (error->message, ".", NULL);
  hw_window_say (self, GTK_MESSAGE_ERROR, text);
  gtk_widget_set_visible (self->save_elsewhere, TRUE);
}

static bool
save_to (HwWindow *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  if (hw_document_save (self->document, path, &error))
    {
      gtk_info_bar_set_revealed (self->message_bar, FALSE);
      hw_window_update_recent (self);
      return true;
    }
  say_not_saved (self, error);
  return false;
}

static void
on_save_as_cb (GtkNativeDialog *dialog, int response, HwWindow *self)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_object_unref (dialog);
  if (path != NULL)
    save_to (self, path);
}

void
hw_window_save_as (HwWindow *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (_ ("Save the Hole As"), GTK_WINDOW (self),
                                                              GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  GtkFileChooser *chooser = GTK_FILE_CHOOSER (dialog);
  add_filter (chooser, _ ("Hole documents (SVG)"), "*.svg");
  g_autofree char *name = hw_document_get_file_name (self->document);
  gtk_file_chooser_set_current_name (chooser, name);
  bool has_place = hw_document_get_path (self->document) != NULL && !hw_document_is_example (self->document);
  g_autofree char *folder = !has_place ? g_strdup (g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS))
                                       : g_path_get_dirname (hw_document_get_path (self->document));
  if (folder != NULL)
    {
      g_autoptr (GFile) file = g_file_new_for_path (folder);
      gtk_file_chooser_set_current_folder (chooser, file, NULL);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect (dialog, "response", G_CALLBACK (on_save_as_cb), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
on_overwrite_cb (GtkDialog *dialog, int response, HwWindow *self)
{
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == GTK_RESPONSE_ACCEPT)
    save_to (self, NULL);
  else if (response == GTK_RESPONSE_APPLY)
    hw_window_save_as (self);
}

void
hw_window_save (HwWindow *self)
{
  if (hw_document_is_example (self->document) || hw_document_get_path (self->document) == NULL)
    {
      hw_window_save_as (self);
      return;
    }
  if (!hw_document_changed_on_disk (self->document))
    {
      save_to (self, NULL);
      return;
    }
  g_autofree char *name = g_path_get_basename (hw_document_get_path (self->document));
  g_autofree char *question = g_strdup_printf (_ ("%s changed on disk since it was opened"), name);
  GtkMessageDialog *dialog
      = question_new (self, question, _ ("Saving here replaces what another program wrote into the file."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("Save _As…"), GTK_RESPONSE_APPLY,
                          _ ("_Replace"), GTK_RESPONSE_ACCEPT, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_APPLY);
  g_signal_connect (dialog, "response", G_CALLBACK (on_overwrite_cb), self);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* ---- unsaved work ---- */

/* After the dialog is gone for good: what follows may be the end of the window it belongs to. */
static gboolean
on_answered_cb (gpointer user_data)
{
  Waiting *waiting = user_data;
  HwWindow *self = waiting->window;
  g_autoptr (GError) error = NULL;
  if (waiting->response == GTK_RESPONSE_REJECT)
    waiting->then (self, waiting->path);
  else if (hw_document_is_example (self->document) || hw_document_get_path (self->document) == NULL)
    hw_window_save_as (self);
  else if (hw_document_save_all (self->document, &error))
    waiting->then (self, waiting->path);
  else
    say_not_saved (self, error);
  waiting_free (waiting);
  return G_SOURCE_REMOVE;
}

static void
on_unsaved_cb (GtkDialog *dialog, int response, Waiting *waiting)
{
  gtk_window_destroy (GTK_WINDOW (dialog));
  waiting->response = response;
  if (response == GTK_RESPONSE_REJECT || response == GTK_RESPONSE_ACCEPT)
    g_idle_add (on_answered_cb, waiting);
  else
    waiting_free (waiting);
}

void
hw_window_ask_then (HwWindow *self, void (*then) (HwWindow *self, const char *path), const char *path)
{
  if (!hw_document_is_any_modified (self->document))
    {
      then (self, path);
      return;
    }
  GtkMessageDialog *dialog
      = question_new (self, _ ("Save your changes first?"), _ ("What you changed is lost if you do not save it."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Discard"), GTK_RESPONSE_REJECT, _ ("_Cancel"), GTK_RESPONSE_CANCEL,
                          _ ("_Save"), GTK_RESPONSE_ACCEPT, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_ACCEPT);
  g_signal_connect (dialog, "response", G_CALLBACK (on_unsaved_cb), waiting_new (self, then, path));
  gtk_window_present (GTK_WINDOW (dialog));
}
