// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-chooser - a drop-down that is filled anew only when the list is another, so that it stays open and still while it is used. */
#include "bag-chooser.h"

#include "speak.h"

#include <glib/gi18n.h>
#include <stdbool.h>
#include <string.h>

struct _HwBagChooser
{
  GtkWidget parent_instance;
  GtkWidget *choice;
  GPtrArray *paths; /* of char *; "" for a bag without a file */
  char *name;       /* of that bag */
  bool is_showing;
};

G_DEFINE_FINAL_TYPE (HwBagChooser, hw_bag_chooser, GTK_TYPE_WIDGET)

static guint chosen_signal;

/* "partner" for /home/me/partner.csv. Free with g_free. */
static char *
label_of (const char *path)
{
  char *name = g_filename_display_basename (path);
  char *ending = strrchr (name, '.');
  if (ending != NULL && ending != name)
    *ending = '\0';
  return name;
}

static bool
is_listed (HwBagChooser *self, GPtrArray *paths, const char *name)
{
  if (self->paths->len != paths->len || g_strcmp0 (self->name, name) != 0)
    return false;
  for (guint i = 0; i < paths->len; i++)
    if (!g_str_equal (self->paths->pdata[i], paths->pdata[i]))
      return false;
  return true;
}

static void
list (HwBagChooser *self, GPtrArray *paths, const char *name)
{
  g_autoptr (GtkStringList) labels = gtk_string_list_new (NULL);
  g_ptr_array_set_size (self->paths, 0);
  g_free (self->name);
  self->name = g_strdup (name);
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = paths->pdata[i];
      g_autofree char *label = path[0] != '\0' ? label_of (path) : g_strdup (name);
      gtk_string_list_append (labels, label);
      g_ptr_array_add (self->paths, g_strdup (path));
    }
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->choice), G_LIST_MODEL (labels));
}

void
hw_bag_chooser_show (HwBagChooser *self, GPtrArray *paths, const char *path, const char *name)
{
  const char *chosen = path != NULL ? path : "";
  guint i = 0;
  g_autoptr (GPtrArray) all = g_ptr_array_new ();
  for (guint k = 0; k < paths->len; k++)
    g_ptr_array_add (all, paths->pdata[k]);
  if (!g_ptr_array_find_with_equal_func (all, chosen, g_str_equal, &i))
    {
      i = all->len;
      g_ptr_array_add (all, (gpointer)chosen);
    }
  self->is_showing = true;
  if (!is_listed (self, all, name))
    list (self, all, name);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), i);
  self->is_showing = false;
}

static void
on_selected_cb (HwBagChooser *self)
{
  guint i = gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));
  if (self->is_showing || i >= self->paths->len)
    return;
  g_autofree char *path = g_strdup (self->paths->pdata[i]);
  if (path[0] != '\0')
    g_signal_emit (self, chosen_signal, 0, path);
}

static void
hw_bag_chooser_dispose (GObject *object)
{
  HwBagChooser *self = HW_BAG_CHOOSER (object);
  self->is_showing = true;
  g_clear_pointer (&self->choice, gtk_widget_unparent);
  G_OBJECT_CLASS (hw_bag_chooser_parent_class)->dispose (object);
}

static void
hw_bag_chooser_finalize (GObject *object)
{
  HwBagChooser *self = HW_BAG_CHOOSER (object);
  g_ptr_array_unref (self->paths);
  g_free (self->name);
  G_OBJECT_CLASS (hw_bag_chooser_parent_class)->finalize (object);
}

static void
hw_bag_chooser_class_init (HwBagChooserClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_bag_chooser_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_bag_chooser_finalize;
  chosen_signal
      = g_signal_new ("chosen", HW_TYPE_BAG_CHOOSER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
hw_bag_chooser_init (HwBagChooser *self)
{
  self->paths = g_ptr_array_new_with_free_func (g_free);
  self->choice = gtk_drop_down_new (NULL, NULL);
  gtk_widget_set_tooltip_text (self->choice, _ ("The bag that the plan uses"));
  gtk_widget_set_parent (self->choice, GTK_WIDGET (self));
  hw_speak_choice (GTK_DROP_DOWN (self->choice), _ ("Bag"));
  g_signal_connect_swapped (self->choice, "notify::selected", G_CALLBACK (on_selected_cb), self);
}
