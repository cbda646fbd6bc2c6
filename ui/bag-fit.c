// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-fit - reads and fits in a thread, for a file may hold a million shots; the rows are made when that is done. */
#include "bag-fit.h"

#include "bag-fit-row.h"
#include "sentence.h"

#include <glib/gi18n.h>

/* Its size, px, where the window it belongs to is that wide. */
#define USUAL_WIDTH_PX 860
#define USUAL_HEIGHT_PX 560

/* What came of a file. */
typedef struct
{
  ShotLog *log;
  ClubFit *fits; /* one for each club of the log, whose names they borrow */
  size_t n_fits, n_shots;
} Fitted;

struct _HwBagFit
{
  GtkWindow parent_instance;
  HwBagDesk *desk;
  Fitted *fitted;            /* NULL until a file was read */
  GCancellable *cancellable; /* of the file that is being read */
  char *path;
  GtkLabel *file, *failed;
  GtkListBox *list;
  GtkCheckButton *all;
  GtkWidget *choose_button, *cancel_button, *take_button;
  bool is_showing;
};

G_DEFINE_FINAL_TYPE (HwBagFit, hw_bag_fit, GTK_TYPE_WINDOW)

static guint fitted_signal;

static void
fitted_free (gpointer data)
{
  Fitted *fitted = data;
  if (fitted == NULL)
    return;
  shot_log_free (fitted->log);
  g_free (fitted->fits);
  g_free (fitted);
}

static void
fail (HwBagFit *self, const char *message)
{
  g_autofree char *sentence = message != NULL ? hw_sentence (message) : g_strdup ("");
  gtk_label_set_text (self->failed, sentence);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->failed), GTK_ACCESSIBLE_PROPERTY_LABEL, sentence, -1);
  gtk_widget_set_visible (GTK_WIDGET (self->failed), message != NULL);
}

/* ---- the rows ---- */

static HwBagFitRow *
row_at (HwBagFit *self, size_t i)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int)i);
  return row != NULL ? HW_BAG_FIT_ROW (row) : NULL;
}

static size_t
count_ticked (HwBagFit *self)
{
  size_t n = 0;
  HwBagFitRow *row;
  for (size_t i = 0; (row = row_at (self, i)) != NULL; i++)
    n += hw_bag_fit_row_is_ticked (row);
  return n;
}

static void
on_ticked_cb (HwBagFit *self)
{
  if (self->is_showing || self->fitted == NULL)
    return;
  size_t n = count_ticked (self);
  self->is_showing = true;
  gtk_check_button_set_active (self->all, n == self->fitted->n_fits);
  gtk_check_button_set_inconsistent (self->all, n > 0 && n < self->fitted->n_fits);
  gtk_widget_set_sensitive (self->take_button, n > 0);
  self->is_showing = false;
}

static void
on_all_cb (HwBagFit *self)
{
  HwBagFitRow *row;
  if (self->is_showing)
    return;
  self->is_showing = true;
  for (size_t i = 0; (row = row_at (self, i)) != NULL; i++)
    hw_bag_fit_row_tick (row, gtk_check_button_get_active (self->all));
  self->is_showing = false;
  on_ticked_cb (self);
}

static void
show_fitted (HwBagFit *self)
{
  const Bag *bag = hw_bag_desk_get_bag (self->desk);
  GtkListBoxRow *old;
  self->is_showing = true;
  while ((old = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (old));
  for (size_t i = 0; i < self->fitted->n_fits; i++)
    {
      const ClubFit *fit = &self->fitted->fits[i];
      GtkWidget *row = hw_bag_fit_row_new (fit, bag_find (bag, fit->club), hw_bag_desk_get_units (self->desk));
      g_signal_connect_object (row, "ticked", G_CALLBACK (on_ticked_cb), self, G_CONNECT_SWAPPED);
      gtk_list_box_append (self->list, row);
    }
  self->is_showing = false;
  g_autofree char *name = g_filename_display_basename (self->path);
  g_autofree char *shots
      = g_strdup_printf (g_dngettext (NULL, "%zu shot", "%zu shots", self->fitted->n_shots), self->fitted->n_shots);
  g_autofree char *clubs
      = g_strdup_printf (g_dngettext (NULL, "%zu club", "%zu clubs", self->fitted->n_fits), self->fitted->n_fits);
  g_autofree char *text = g_strdup_printf (_ ("%s: %s of %s. After ± stands the standard error."), name, shots, clubs);
  gtk_label_set_text (self->file, text);
  on_ticked_cb (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->list));
}

/* ---- reading ---- */

static void
fit_in_thread (GTask *task, gpointer source, gpointer path, GCancellable *cancellable)
{
  GError *error = NULL;
  ShotLog *log = shot_log_read_file (path, &error);
  if (log == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  Fitted *fitted = g_new0 (Fitted, 1);
  fitted->log = log;
  fitted->n_fits = shot_log_n_clubs (log);
  fitted->fits = bag_fit (log);
  for (size_t i = 0; i < fitted->n_fits; i++)
    fitted->n_shots += fitted->fits[i].n_shots;
  g_task_return_pointer (task, fitted, fitted_free);
}

static void
on_fitted_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  HwBagFit *self = HW_BAG_FIT (source);
  g_autoptr (GError) error = NULL;
  Fitted *fitted = g_task_propagate_pointer (G_TASK (result), &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED) || self->desk == NULL)
    {
      fitted_free (fitted);
      return;
    }
  fail (self, error != NULL ? error->message : NULL);
  if (fitted == NULL)
    return;
  fitted_free (self->fitted);
  self->fitted = fitted;
  g_free (self->path);
  self->path = g_strdup (g_task_get_task_data (G_TASK (result)));
  show_fitted (self);
}

static void
read_shots (HwBagFit *self, const char *path)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  self->cancellable = g_cancellable_new ();
  GTask *task = g_task_new (self, self->cancellable, on_fitted_cb, NULL);
  g_task_set_task_data (task, g_strdup (path), g_free);
  g_task_run_in_thread (task, fit_in_thread);
  g_object_unref (task);
}

static void
on_file_chosen_cb (GtkNativeDialog *dialog, int response, HwBagFit *self)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_object_unref (dialog);
  if (path != NULL)
    read_shots (self, path);
}

static void
on_choose_cb (HwBagFit *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (_ ("Choose Recorded Shots"), GTK_WINDOW (self),
                                                              GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Choose"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, _ ("Recorded shots (CSV)"));
  gtk_file_filter_add_pattern (filter, "*.csv");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  const char *bag = hw_bag_desk_get_path (self->desk);
  if (bag != NULL)
    {
      g_autofree char *folder = g_path_get_dirname (bag);
      g_autoptr (GFile) beside = g_file_new_for_path (folder);
      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (dialog), beside, NULL);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_file_chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

/* ---- taking over ---- */

static void
on_take_cb (HwBagFit *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree ClubFit *chosen = g_new (ClubFit, self->fitted->n_fits);
  size_t n = 0;
  for (size_t i = 0; i < self->fitted->n_fits; i++)
    if (hw_bag_fit_row_is_ticked (row_at (self, i)))
      chosen[n++] = self->fitted->fits[i];
  Bag *bag = bag_with_fit (hw_bag_desk_get_bag (self->desk), chosen, n, &error);
  if (bag == NULL)
    {
      fail (self, error->message);
      return;
    }
  g_autofree char *label = n == 1 ? g_strdup_printf (_ ("fit of %s"), chosen[0].club)
                                  : g_strdup_printf (g_dngettext (NULL, "fit of %zu club", "fit of %zu clubs", n), n);
  hw_bag_desk_push (self->desk, bag, label);
  g_signal_emit (self, fitted_signal, 0, (guint)n);
  gtk_window_destroy (GTK_WINDOW (self));
}

/* ---- the window ---- */

static void
hw_bag_fit_dispose (GObject *object)
{
  HwBagFit *self = HW_BAG_FIT (object);
  self->is_showing = true;
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_BAG_FIT);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->fitted, fitted_free);
  g_clear_pointer (&self->path, g_free);
  G_OBJECT_CLASS (hw_bag_fit_parent_class)->dispose (object);
}

static void
hw_bag_fit_class_init (HwBagFitClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_bag_fit_dispose;
  fitted_signal = g_signal_new ("fitted", HW_TYPE_BAG_FIT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/bag-fit.ui");
  gtk_widget_class_bind_template_child (widget_class, HwBagFit, file);
  gtk_widget_class_bind_template_child (widget_class, HwBagFit, failed);
  gtk_widget_class_bind_template_child (widget_class, HwBagFit, list);
  gtk_widget_class_bind_template_child (widget_class, HwBagFit, all);
  gtk_widget_class_bind_template_child (widget_class, HwBagFit, choose_button);
  gtk_widget_class_bind_template_child (widget_class, HwBagFit, cancel_button);
  gtk_widget_class_bind_template_child (widget_class, HwBagFit, take_button);
}

static void
hw_bag_fit_init (HwBagFit *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->all, "toggled", G_CALLBACK (on_all_cb), self);
  g_signal_connect_swapped (self->choose_button, "clicked", G_CALLBACK (on_choose_cb), self);
  g_signal_connect_swapped (self->cancel_button, "clicked", G_CALLBACK (gtk_window_destroy), self);
  g_signal_connect_swapped (self->take_button, "clicked", G_CALLBACK (on_take_cb), self);
}

GtkWindow *
hw_bag_fit_new (GtkWindow *parent, HwBagDesk *desk)
{
  HwBagFit *self = g_object_new (HW_TYPE_BAG_FIT, "transient-for", parent, NULL);
  self->desk = g_object_ref (desk);
  gtk_window_set_default_size (GTK_WINDOW (self), MIN (USUAL_WIDTH_PX, gtk_widget_get_width (GTK_WIDGET (parent))),
                               USUAL_HEIGHT_PX);
  gtk_widget_grab_focus (self->choose_button);
  return GTK_WINDOW (self);
}
