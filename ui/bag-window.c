// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-window - shows what is on the desk: which bag, its level, its warnings, its clubs; the line at the foot says what was done. */
#include "bag-window-private.h"

#include "sentence.h"
#include "speak.h"

#include <glib/gi18n.h>
#include <string.h>

/* Its size, px, where the window it belongs to is that wide. */
#define USUAL_WIDTH_PX 1080
#define USUAL_HEIGHT_PX 740
#define LEAST_WIDTH_PX 360
/* Widths in px below which only one group of columns is shown, and below which the bars stand under the figures. */
#define FULL_PX 900
#define BELOW_PX 560

G_DEFINE_FINAL_TYPE (HwBagWindow, hw_bag_window, GTK_TYPE_WINDOW)

/* ---- the line at the foot ---- */

void
hw_bag_window_say (HwBagWindow *self, const char *text, bool is_failure)
{
  g_autofree char *sentence = hw_sentence (text);
  gtk_label_set_text (self->said, sentence);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->said), GTK_ACCESSIBLE_PROPERTY_LABEL, sentence, -1);
  if (is_failure)
    gtk_widget_add_css_class (self->foot, "failed");
  else
    gtk_widget_remove_css_class (self->foot, "failed");
}

bool
hw_bag_window_commit (HwBagWindow *self)
{
  const char *mistake = NULL;
  if (hw_bag_table_commit (self->table, &mistake))
    return true;
  hw_bag_window_say (self, mistake, true);
  return false;
}

/* ---- following the desk ---- */

void
hw_bag_window_show_chooser (HwBagWindow *self)
{
  g_autoptr (GPtrArray) paths = hw_document_list_bags (hw_bag_desk_get_document (self->desk));
  g_autofree char *name = hw_bag_desk_get_name (self->desk);
  hw_bag_chooser_show (self->chooser, paths, hw_bag_desk_get_path (self->desk), name);
}

static void
show_title (HwBagWindow *self)
{
  g_autofree char *name = hw_bag_desk_get_name (self->desk);
  g_autofree char *title
      = g_strdup_printf (hw_bag_desk_is_modified (self->desk) ? _ ("%s (changed) – Bag") : _ ("%s – Bag"), name);
  gtk_window_set_title (GTK_WINDOW (self), title);
}

/* The warnings of the reader begin with the name of the file, which the title says. */
static void
show_note (HwBagWindow *self)
{
  Bag *bag = hw_bag_desk_get_bag (self->desk);
  g_autoptr (GString) text = g_string_new (NULL);
  for (const char *const *warning = bag_warnings (bag); *warning != NULL; warning++)
    {
      const char *bare = strstr (*warning, ": ");
      g_autofree char *sentence = hw_sentence (bare != NULL ? bare + 2 : *warning);
      g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", sentence);
    }
  if (bag_n_clubs (bag) == 0)
    g_string_append (text, _ ("There is no club in this bag yet; add one with Ctrl+Shift+N."));
  gtk_label_set_text (self->note, text->str);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->note), GTK_ACCESSIBLE_PROPERTY_LABEL, text->str, -1);
  gtk_widget_set_visible (GTK_WIDGET (self->note), text->len > 0);
}

static void
enable (HwBagWindow *self, const char *name, bool enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (self->actions, name)), enabled);
}

static void
name_step (GtkWidget *button, const char *format, const char *bare, const char *label)
{
  g_autofree char *text = label != NULL ? g_strdup_printf (format, label) : g_strdup (bare);
  gtk_widget_set_tooltip_text (button, text);
}

/* What failed before has been done since. */
static void
on_mended_cb (HwBagWindow *self)
{
  if (gtk_widget_has_css_class (self->foot, "failed"))
    hw_bag_window_say (self, "", false);
}

static void
on_changed_cb (HwBagWindow *self)
{
  const char *undo = hw_bag_desk_undo_label (self->desk), *redo = hw_bag_desk_redo_label (self->desk);
  bool is_yards = hw_bag_desk_get_units (self->desk) == UNIT_YARDS,
       has_club = bag_n_clubs (hw_bag_desk_get_bag (self->desk)) > 0;
  self->is_showing = true;
  show_title (self);
  show_note (self);
  hw_bag_window_show_chooser (self);
  gtk_drop_down_set_selected (self->level, (guint)bag_level (hw_bag_desk_get_bag (self->desk)));
  gtk_label_set_text (self->units, is_yards ? _ ("lengths in yards") : _ ("lengths in metres"));
  enable (self, "undo", undo != NULL);
  enable (self, "redo", redo != NULL);
  enable (self, "duplicate", has_club);
  enable (self, "delete", has_club);
  /* "Undo carry of 7 iron" */
  name_step (self->undo_button, _ ("Undo %s"), _ ("Undo"), undo);
  name_step (self->redo_button, _ ("Redo %s"), _ ("Redo"), redo);
  on_mended_cb (self);
  self->is_showing = false;
}

static void
on_level_cb (HwBagWindow *self)
{
  Level level = (Level)gtk_drop_down_get_selected (self->level);
  if (self->is_showing || level >= N_LEVELS)
    return;
  if (hw_bag_window_commit (self))
    hw_settings_set_level (hw_document_get_settings (hw_bag_desk_get_document (self->desk)), level);
  else
    gtk_drop_down_set_selected (self->level, (guint)bag_level (hw_bag_desk_get_bag (self->desk)));
}

static void
on_chosen_cb (HwBagWindow *self, const char *path)
{
  if (!self->is_showing)
    hw_bag_window_open (self, path);
}

static void
on_trouble_cb (HwBagWindow *self, const char *text)
{
  hw_bag_window_say (self, text, true);
}

bool
hw_bag_window_recover (HwBagWindow *self, const RecoveryCopy *copy, GError **error)
{
  if (!hw_bag_desk_recover (self->desk, copy, error))
    return false;
  hw_bag_window_say (self,
                     hw_bag_desk_undo_label (self->desk) != NULL
                         ? _ ("This is your unsaved work. Save keeps it; Undo goes back to what the file holds.")
                     : hw_bag_desk_get_path (self->desk) != NULL
                         ? _ ("This is your unsaved work. Its file is gone; Save writes it anew.")
                         : _ ("This is your unsaved work. It has no file yet; Save asks where to keep it."),
                     false);
  return true;
}

/* ---- the window's width ---- */

static void
lay_out (HwBagWindow *self)
{
  bool is_full = self->width >= FULL_PX, is_below = self->width < BELOW_PX;
  gtk_widget_set_visible (self->groups, !is_full);
  gtk_widget_set_visible (GTK_WIDGET (self->units), !is_below);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->choices),
                                  is_below ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  hw_bag_table_lay_out (self->table, is_full ? HW_BAG_ALL : HW_BAG_ALWAYS | self->group, is_below);
}

static void
on_columns_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  HwBagWindow *self = window;
  const char *group = g_variant_get_string (state, NULL);
  self->group = g_str_equal (group, "flight") ? HW_BAG_FLIGHT : g_str_equal (group, "strike") ? HW_BAG_STRIKE : HW_BAG_SPREAD;
  g_simple_action_set_state (action, state);
  lay_out (self);
}

static gboolean
on_width_idle_cb (gpointer window)
{
  if (HW_BAG_WINDOW (window)->desk != NULL)
    lay_out (window);
  return G_SOURCE_REMOVE;
}

static void
hw_bag_window_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwBagWindow *self = HW_BAG_WINDOW (widget);
  bool is_other = (width < FULL_PX) != (self->width < FULL_PX) || (width < BELOW_PX) != (self->width < BELOW_PX);
  self->width = width;
  /* Sizes cannot change while they are given out. */
  if (is_other)
    g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_width_idle_cb, g_object_ref (self), g_object_unref);
  GTK_WIDGET_CLASS (hw_bag_window_parent_class)->size_allocate (widget, width, height, baseline);
}

/* ---- the window ---- */

static gboolean
hw_bag_window_close_request (GtkWindow *window)
{
  HwBagWindow *self = HW_BAG_WINDOW (window);
  if (hw_bag_window_asks_to_close (self))
    return TRUE;
  self->is_showing = true;
  hw_bag_desk_leave (self->desk);
  return GTK_WINDOW_CLASS (hw_bag_window_parent_class)->close_request (window);
}

static void
hw_bag_window_dispose (GObject *object)
{
  HwBagWindow *self = HW_BAG_WINDOW (object);
  self->is_showing = true;
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_BAG_WINDOW);
  if (self->desk != NULL)
    hw_bag_desk_leave (self->desk);
  g_clear_object (&self->desk);
  g_clear_object (&self->actions);
  G_OBJECT_CLASS (hw_bag_window_parent_class)->dispose (object);
}

static void
hw_bag_window_class_init (HwBagWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_bag_window_dispose;
  widget_class->size_allocate = hw_bag_window_size_allocate;
  GTK_WINDOW_CLASS (klass)->close_request = hw_bag_window_close_request;
  g_type_ensure (HW_TYPE_BAG_CHOOSER);
  g_type_ensure (HW_TYPE_BAG_TABLE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/bag-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, chooser);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, table);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, level);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, choices);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, groups);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, foot);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, units);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, note);
  gtk_widget_class_bind_template_child (widget_class, HwBagWindow, said);
}

static void
hw_bag_window_init (HwBagWindow *self)
{
  static const GActionEntry entries[]
      = { { .name = "columns", .parameter_type = "s", .state = "'spread'", .change_state = on_columns_cb } };
  gtk_widget_init_template (GTK_WIDGET (self));
  self->group = HW_BAG_SPREAD;
  self->actions = G_ACTION_MAP (g_simple_action_group_new ());
  g_action_map_add_action_entries (self->actions, entries, G_N_ELEMENTS (entries), self);
  hw_bag_window_add_commands (self);
  hw_bag_window_add_files (self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "bag", G_ACTION_GROUP (self->actions));
  hw_speak_choice (self->level, _ ("Player level"));
}

GtkWindow *
hw_bag_window_new (GtkWindow *parent, HwDocument *document)
{
  HwBagWindow *self = g_object_new (HW_TYPE_BAG_WINDOW, "transient-for", parent, NULL);
  self->desk = hw_bag_desk_new (document);
  hw_bag_table_set_desk (self->table, self->desk);
  g_signal_connect_object (self->desk, "changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->desk, "trouble", G_CALLBACK (on_trouble_cb), self, G_CONNECT_SWAPPED);
  on_changed_cb (self);
  g_signal_connect_swapped (self->level, "notify::selected", G_CALLBACK (on_level_cb), self);
  g_signal_connect_swapped (self->table, "mended", G_CALLBACK (on_mended_cb), self);
  g_signal_connect_swapped (self->chooser, "chosen", G_CALLBACK (on_chosen_cb), self);
  self->width = MAX (LEAST_WIDTH_PX, MIN (USUAL_WIDTH_PX, gtk_widget_get_width (GTK_WIDGET (parent))));
  lay_out (self);
  gtk_window_set_default_size (GTK_WINDOW (self), self->width, USUAL_HEIGHT_PX);
  if (hw_bag_desk_get_path (self->desk) != NULL && hw_document_is_example_bag (document, hw_bag_desk_get_path (self->desk)))
    hw_bag_window_say (self, _ ("This is the example’s bag, to try everything on; saving asks where to keep yours"), false);
  hw_bag_table_select (self->table, 0, 1);
  return GTK_WINDOW (self);
}
