// SPDX-License-Identifier: GPL-3.0-or-later
/* window-card - the card's ways out of the window: the print dialog, and a file. */
#include "window-private.h"

#include "svg.h"

#include <glib/gi18n.h>

#define POINTS_PER_MM (72.0 / 25.4)

/* ---- printing ---- */

static void
on_draw_page_cb (GtkPrintOperation *operation, GtkPrintContext *context, int page, Card *card)
{
  card_draw (card, gtk_print_context_get_cairo_context (context), POINTS_PER_MM);
}

static void
on_print_done_cb (GtkPrintOperation *operation, GtkPrintOperationResult result, HwWindow *self)
{
  g_autoptr (GError) error = NULL;
  if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
    return;
  gtk_print_operation_get_error (operation, &error);
  g_autofree char *text = g_strdup_printf (_ ("Not printed: %s"), error->message);
  hw_window_say (self, GTK_MESSAGE_ERROR, text);
}

/* The card's own page as the paper, so that a printer that has it, or a PDF, comes out at that size; larger paper keeps the scale. */
static GtkPageSetup *
page_setup_of (HwWindow *self, const Card *card)
{
  double width_mm, height_mm;
  card_size_mm (card, &width_mm, &height_mm);
  const CardPageInfo *info = card_page_info (hw_settings_get_card_page (self->settings));
  g_autoptr (GtkPaperSize) paper = gtk_paper_size_new_custom (info->token, _ (info->label), width_mm, height_mm, GTK_UNIT_MM);
  GtkPageSetup *setup = gtk_page_setup_new ();
  gtk_page_setup_set_paper_size (setup, paper);
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_MM);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_MM);
  return setup;
}

void
hw_window_print (HwWindow *self)
{
  g_autoptr (GError) error = NULL;
  Card *card = hw_document_new_card (self->document, &error);
  if (card == NULL)
    {
      hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
      return;
    }
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = page_setup_of (self, card);
  g_autofree char *name = hw_document_get_file_name (self->document);
  gtk_print_operation_set_job_name (operation, name);
  gtk_print_operation_set_n_pages (operation, 1);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_default_page_setup (operation, setup);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  g_object_set_data_full (G_OBJECT (operation), "hw-card", card, (GDestroyNotify)card_free);
  g_signal_connect (operation, "draw-page", G_CALLBACK (on_draw_page_cb), card);
  g_signal_connect_object (operation, "done", G_CALLBACK (on_print_done_cb), self, 0);
  GtkPrintOperationResult result
      = gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW (self), &error);
  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    {
      g_autofree char *text = g_strdup_printf (_ ("Not printed: %s"), error->message);
      hw_window_say (self, GTK_MESSAGE_ERROR, text);
    }
}

/* ---- a file ---- */

static bool
export_to (HwWindow *self, const char *path, GError **error)
{
  const char *format = card_format_of (path, error);
  if (format == NULL)
    return false;
  g_autoptr (Card) card = hw_document_new_card (self->document, error);
  if (card == NULL)
    return false;
  g_autoptr (GBytes) bytes = card_bytes (card, format, error);
  return bytes != NULL && svg_save_bytes (bytes, path, error);
}

static void
on_export_cb (GtkNativeDialog *dialog, int response, HwWindow *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_object_unref (dialog);
  if (path == NULL)
    return;
  bool done = export_to (self, path, &error);
  g_autofree char *text
      = done ? g_strdup_printf (_ ("The card is in %s."), path) : g_strdup_printf (_ ("Not exported: %s"), error->message);
  hw_window_say (self, done ? GTK_MESSAGE_INFO : GTK_MESSAGE_ERROR, text);
}

void
hw_window_export (HwWindow *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (_ ("Export the Card"), GTK_WINDOW (self),
                                                              GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Export"), _ ("_Cancel"));
  g_autofree char *name = hw_document_get_file_name (self->document);
  char *dot = strrchr (name, '.');
  if (dot != NULL)
    *dot = '\0';
  g_autofree char *suggested = g_strconcat (name, "-card.pdf", NULL);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), suggested);
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, _ ("PDF, SVG or PNG, by the name's ending"));
  gtk_file_filter_add_pattern (filter, "*.pdf");
  gtk_file_filter_add_pattern (filter, "*.svg");
  gtk_file_filter_add_pattern (filter, "*.png");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect (dialog, "response", G_CALLBACK (on_export_cb), self);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
