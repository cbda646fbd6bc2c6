// SPDX-License-Identifier: GPL-3.0-or-later
/* disk-bar - watches the file of the hole in hand; what counts is always the bytes in it, the watch only says when to look. */
#include "disk-bar.h"

#include <glib/gi18n.h>

/* A program that writes a file in several steps is given this long to finish (common practice). */
#define SETTLE_MS 300

struct _HwDiskBar
{
  GtkWidget parent_instance;
  HwDocument *document;
  GFileMonitor *monitor;
  char *watched;
  guint timer;
  HwDisk shown; /* what the golfer last read here of the watched file */
  GtkWidget *content;
  GtkLabel *words;
  GtkWidget *load_button, *keep_button;
};

G_DEFINE_FINAL_TYPE (HwDiskBar, hw_disk_bar, GTK_TYPE_WIDGET)

/* ---- the bar ---- */

static void
show_words (HwDiskBar *self, HwDisk disk)
{
  g_autofree char *name = g_filename_display_basename (self->watched);
  g_autofree char *folder = g_path_get_dirname (self->watched);
  const char *format = _ ("Another program changed %s. What you have here was not touched.");
  if (disk == HW_DISK_GONE)
    format = g_file_test (folder, G_FILE_TEST_IS_DIR)
                 ? _ ("%s is no longer in its folder. Saving writes it there again.")
                 : _ ("%s and its folder are gone. What you have here was not touched; Save As keeps it elsewhere.");
  g_autofree char *text = g_strdup_printf (format, name);
  gtk_label_set_text (self->words, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->words), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  gtk_widget_set_visible (self->load_button, disk == HW_DISK_CHANGED);
}

void
hw_disk_bar_set_phone (HwDiskBar *self, bool is_phone)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->content),
                                  is_phone ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
}

void
hw_disk_bar_look (HwDiskBar *self)
{
  if (self->watched == NULL)
    return;
  HwDisk disk = hw_document_look_at_disk (self->document);
  if (disk == HW_DISK_SAME)
    gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  else if (disk != self->shown || disk == HW_DISK_CHANGED)
    {
      show_words (self, disk);
      gtk_widget_set_visible (GTK_WIDGET (self), TRUE);
    }
  self->shown = disk;
}

static void
on_load_cb (HwDiskBar *self)
{
  g_autoptr (GError) error = NULL;
  if (!hw_document_load_again (self->document, &error))
    hw_document_say (self->document, error->message);
  hw_disk_bar_look (self);
}

static void
on_keep_cb (HwDiskBar *self)
{
  if (self->shown == HW_DISK_CHANGED)
    hw_document_keep_mine (self->document);
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

/* ---- the watch ---- */

static gboolean
on_settled_cb (gpointer bar)
{
  HwDiskBar *self = bar;
  self->timer = 0;
  hw_disk_bar_look (self);
  return G_SOURCE_REMOVE;
}

static void
on_event_cb (HwDiskBar *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  self->timer = g_timeout_add (SETTLE_MS, on_settled_cb, self);
}

static void
stop_watching (HwDiskBar *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  if (self->monitor != NULL)
    g_signal_handlers_disconnect_by_data (self->monitor, self);
  g_clear_object (&self->monitor);
  g_clear_pointer (&self->watched, g_free);
}

/* Another hole, or another place for it. */
static void
on_opened_cb (HwDiskBar *self)
{
  const char *path = hw_document_get_path (self->document);
  if (g_strcmp0 (path, self->watched) != 0)
    {
      stop_watching (self);
      self->shown = HW_DISK_SAME;
      self->watched = g_strdup (path);
      g_autoptr (GFile) file = path != NULL ? g_file_new_for_path (path) : NULL;
      self->monitor = file != NULL ? g_file_monitor_file (file, G_FILE_MONITOR_WATCH_MOVES, NULL, NULL) : NULL;
      if (self->monitor != NULL)
        g_signal_connect_swapped (self->monitor, "changed", G_CALLBACK (on_event_cb), self);
    }
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  /* Not at once: whoever opened it has more to do before it may be called modified. */
  if (self->watched != NULL)
    on_event_cb (self);
}

void
hw_disk_bar_set_document (HwDiskBar *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "opened", G_CALLBACK (on_opened_cb), self, G_CONNECT_SWAPPED);
}

/* ---- the widget ---- */

static void
hw_disk_bar_dispose (GObject *object)
{
  HwDiskBar *self = HW_DISK_BAR (object);
  stop_watching (self);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_DISK_BAR);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_disk_bar_parent_class)->dispose (object);
}

static void
hw_disk_bar_class_init (HwDiskBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_disk_bar_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/disk-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, HwDiskBar, content);
  gtk_widget_class_bind_template_child (widget_class, HwDiskBar, words);
  gtk_widget_class_bind_template_child (widget_class, HwDiskBar, load_button);
  gtk_widget_class_bind_template_child (widget_class, HwDiskBar, keep_button);
}

static void
hw_disk_bar_init (HwDiskBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->load_button, "clicked", G_CALLBACK (on_load_cb), self);
  g_signal_connect_swapped (self->keep_button, "clicked", G_CALLBACK (on_keep_cb), self);
}
