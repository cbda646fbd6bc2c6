// SPDX-License-Identifier: GPL-3.0-or-later
/* preferences - shows the settings and writes each change as it is made; a bag that cannot be read is not taken. */
#include "preferences.h"

#include "speak.h"

#include <glib/gi18n.h>

struct _HwPreferences
{
  GtkWindow parent_instance;
  HwSettings *settings;
  GtkDropDown *units, *level, *style;
  GtkWidget *choose_bag, *forget_bag;
  GtkLabel *bag, *failed;
};

G_DEFINE_FINAL_TYPE (HwPreferences, hw_preferences, GTK_TYPE_WINDOW)

static void
show_bag (HwPreferences *self)
{
  const char *path = hw_settings_get_bag (self->settings);
  g_autofree char *name = path != NULL ? g_filename_display_basename (path) : g_strdup (_ ("The one beside the hole"));
  gtk_label_set_text (self->bag, name);
  gtk_widget_set_sensitive (self->forget_bag, path != NULL);
  g_autofree char *spoken = g_strdup_printf (_ ("Bag: %s"), name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->choose_bag), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
on_units_cb (HwPreferences *self)
{
  hw_settings_set_units (self->settings, (LengthUnit)gtk_drop_down_get_selected (self->units));
}

static void
on_level_cb (HwPreferences *self)
{
  hw_settings_set_level (self->settings, (Level)gtk_drop_down_get_selected (self->level));
}

static void
on_style_cb (HwPreferences *self)
{
  hw_settings_set_style (self->settings, (HwStyle)gtk_drop_down_get_selected (self->style));
}

static void
on_forget_bag_cb (HwPreferences *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->failed), FALSE);
  hw_settings_set_bag (self->settings, NULL);
  show_bag (self);
}

static void
on_bag_chosen_cb (GtkNativeDialog *dialog, int response, HwPreferences *self)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_object_unref (dialog);
  if (path == NULL)
    return;
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = bag_read_file (path, hw_settings_get_level (self->settings), &error);
  gtk_widget_set_visible (GTK_WIDGET (self->failed), bag == NULL);
  if (bag == NULL)
    {
      gtk_label_set_text (self->failed, error->message);
      return;
    }
  hw_settings_set_bag (self->settings, path);
  show_bag (self);
}

static void
on_choose_bag_cb (HwPreferences *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (_ ("Choose a Bag"), GTK_WINDOW (self),
                                                              GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Choose"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  gtk_file_filter_set_name (filter, _ ("Bags of clubs (CSV)"));
  gtk_file_filter_add_pattern (filter, "*.csv");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_bag_chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
hw_preferences_dispose (GObject *object)
{
  HwPreferences *self = HW_PREFERENCES (object);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_PREFERENCES);
  g_clear_object (&self->settings);
  G_OBJECT_CLASS (hw_preferences_parent_class)->dispose (object);
}

static void
hw_preferences_class_init (HwPreferencesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_preferences_dispose;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/preferences.ui");
  gtk_widget_class_bind_template_child (widget_class, HwPreferences, units);
  gtk_widget_class_bind_template_child (widget_class, HwPreferences, level);
  gtk_widget_class_bind_template_child (widget_class, HwPreferences, style);
  gtk_widget_class_bind_template_child (widget_class, HwPreferences, choose_bag);
  gtk_widget_class_bind_template_child (widget_class, HwPreferences, forget_bag);
  gtk_widget_class_bind_template_child (widget_class, HwPreferences, bag);
  gtk_widget_class_bind_template_child (widget_class, HwPreferences, failed);
}

static void
hw_preferences_init (HwPreferences *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_speak_choice (self->units, _ ("Units"));
  hw_speak_choice (self->level, _ ("Player level"));
  hw_speak_choice (self->style, _ ("Style"));
}

GtkWindow *
hw_preferences_new (GtkWindow *parent, HwSettings *settings)
{
  HwPreferences *self = g_object_new (HW_TYPE_PREFERENCES, "transient-for", parent, NULL);
  self->settings = g_object_ref (settings);
  gtk_drop_down_set_selected (self->units, (guint)hw_settings_get_units (settings));
  gtk_drop_down_set_selected (self->level, (guint)hw_settings_get_level (settings));
  gtk_drop_down_set_selected (self->style, (guint)hw_settings_get_style (settings));
  show_bag (self);
  g_signal_connect_swapped (self->units, "notify::selected", G_CALLBACK (on_units_cb), self);
  g_signal_connect_swapped (self->level, "notify::selected", G_CALLBACK (on_level_cb), self);
  g_signal_connect_swapped (self->style, "notify::selected", G_CALLBACK (on_style_cb), self);
  g_signal_connect_swapped (self->choose_bag, "clicked", G_CALLBACK (on_choose_bag_cb), self);
  g_signal_connect_swapped (self->forget_bag, "clicked", G_CALLBACK (on_forget_bag_cb), self);
  return GTK_WINDOW (self);
}
