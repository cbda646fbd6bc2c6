// SPDX-License-Identifier: GPL-3.0-or-later
/* day-panel - shows the plan's day and hands what is typed or chosen to the document. */
#include "day-panel.h"

#include "club-row.h"
#include "day-values.h"
#include "figure.h"
#include "speak.h"
#include "typed-entry.h"
#include "wind-rose.h"

#include <glib/gi18n.h>

/* While something is dragged the day is shown anew after so long. */
#define SHOWN_EACH_MS 60

struct _HwDayPanel
{
  GtkWidget parent_instance;
  HwDocument *document;
  bool is_showing; /* changes of the widgets come from the document, not from the golfer */
  Hole *listed;    /* the hole whose days are in the list */
  gint64 shown_us; /* when the day was shown */
  guint later;     /* timer of when it will be; 0: it is shown as it is */

  GtkWidget *content, *rose, *no_bearing, *kept_button, *keep_button;
  GtkPopover *kept_popover;
  GtkListBox *kept_list;
  GtkEntry *kept_name;
  HwFigure *words; /* changing its text does not lay out the window anew */
  GtkGrid *values;
  HwTypedEntry *entries[HW_N_DAY_VALUES];
  GtkDropDown *firmness;
  GtkWidget *clubs_box;
  GtkListBox *clubs;
};

G_DEFINE_FINAL_TYPE (HwDayPanel, hw_day_panel, GTK_TYPE_WIDGET)

static const Day *
panel_day (HwDayPanel *self)
{
  const Part *plan = self->document != NULL ? hw_document_get_plan (self->document) : NULL;
  return plan != NULL ? &plan->day : NULL;
}

static double
up_bearing_deg (HwDayPanel *self)
{
  Hole *hole = hw_document_get_hole (self->document);
  return hole != NULL ? hole_info (hole)->up_bearing_deg : NAN;
}

/* Has the plan made for this day, or tells why not. */
static bool
change_day (HwDayPanel *self, const Day *day)
{
  g_autoptr (GError) error = NULL;
  bool is_done = hw_document_set_day (self->document, day, 0, &error);
  if (!is_done && error != NULL)
    hw_document_say (self->document, error->message);
  return is_done;
}

/* ---- entries ---- */

static void show_entry (HwDayPanel *self, HwDayValue value);

static bool
take_value (gpointer owner, guint which, const char *text)
{
  HwDayPanel *self = owner;
  const Day *old = panel_day (self);
  if (text == NULL || old == NULL)
    {
      show_entry (self, which);
      return true;
    }
  g_autoptr (GError) error = NULL;
  Day day = *old; /* its word is borrowed */
  if (!hw_day_value_set (&day, which, hw_document_get_units (self->document), up_bearing_deg (self), text, &error))
    {
      hw_document_say (self->document, error->message);
      return false;
    }
  return change_day (self, &day);
}

static void
show_entry (HwDayPanel *self, HwDayValue value)
{
  char text[HW_DAY_TEXT_SIZE];
  hw_day_value_print (panel_day (self), value, hw_document_get_units (self->document), text, sizeof text);
  hw_typed_entry_show (self->entries[value], text, hw_day_value_hint (value));
}

static void
on_firmness_cb (HwDayPanel *self)
{
  if (self->is_showing || panel_day (self) == NULL)
    return;
  Day day = *panel_day (self);
  guint chosen = gtk_drop_down_get_selected (self->firmness);
  day.firmness = (char *)(chosen == FIRMNESS_MEDIUM ? NULL : firmness_token ((Firmness)chosen));
  change_day (self, &day);
}

static void
attach_value (HwDayPanel *self, int row, const char *caption, GtkWidget *widget)
{
  GtkWidget *label = gtk_label_new (caption);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "caption");
  gtk_grid_attach (self->values, label, 0, row, 1, 1);
  gtk_grid_attach (self->values, widget, 1, row, 1, 1);
}

static void
make_values (HwDayPanel *self)
{
  for (guint i = 0; i < HW_N_DAY_VALUES; i++)
    {
      GtkWidget *entry = hw_typed_entry_new (hw_day_value_name (i), take_value, self, i);
      self->entries[i] = HW_TYPED_ENTRY (entry);
      attach_value (self, (int)i, hw_day_value_caption (i), entry);
    }
  /* In the order of Firmness. */
  const char *const firmnesses[] = { _ ("soft"), _ ("medium"), _ ("firm"), NULL };
  self->firmness = GTK_DROP_DOWN (gtk_drop_down_new_from_strings (firmnesses));
  hw_speak_choice (self->firmness, _ ("Firmness of the ground"));
  g_signal_connect_object (self->firmness, "notify::selected", G_CALLBACK (on_firmness_cb), self, G_CONNECT_SWAPPED);
  attach_value (self, HW_N_DAY_VALUES, _ ("Ground"), GTK_WIDGET (self->firmness));
}

/* ---- kept days ---- */

static void
on_use_cb (HwDayPanel *self, GtkListBoxRow *row)
{
  size_t i = (size_t)gtk_list_box_row_get_index (row);
  const HoleInfo *info = hole_info (hw_document_get_hole (self->document));
  Day still;
  day_init (&still);
  gtk_popover_popdown (self->kept_popover);
  if (i == 0)
    change_day (self, &still);
  else if (i - 1 < info->n_days)
    change_day (self, &info->days[i - 1].day);
}

static void
on_keep_cb (HwDayPanel *self)
{
  g_autoptr (GError) error = NULL;
  if (hw_document_keep_day (self->document, gtk_editable_get_text (GTK_EDITABLE (self->kept_name)), &error))
    gtk_editable_set_text (GTK_EDITABLE (self->kept_name), "");
  else if (error != NULL)
    hw_document_say (self->document, error->message);
}

static void
on_forget_cb (GtkWidget *button, HwDayPanel *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_strdup (g_object_get_data (G_OBJECT (button), "day"));
  if (!hw_document_forget_day (self->document, name, &error) && error != NULL)
    hw_document_say (self->document, error->message);
}

/* A row with the day's name and what it is like; NULL for the still day, which is never forgotten. */
static void
add_kept (HwDayPanel *self, const NamedDay *kept)
{
  LengthUnit units = hw_document_get_units (self->document);
  g_autofree char *wind = kept != NULL ? hw_wind_words (&kept->day, units) : NULL;
  g_autofree char *text = kept != NULL ? g_strdup_printf ("%s · %s", kept->name, wind) : g_strdup (_ ("A still day of 20 °C"));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (box), label);
  if (kept != NULL)
    {
      GtkWidget *forget = gtk_button_new_from_icon_name ("edit-delete-symbolic");
      g_autofree char *what = g_strdup_printf (_ ("Forget %s"), kept->name);
      gtk_widget_set_tooltip_text (forget, what);
      gtk_accessible_update_property (GTK_ACCESSIBLE (forget), GTK_ACCESSIBLE_PROPERTY_LABEL, what, -1);
      gtk_widget_add_css_class (forget, "flat");
      g_object_set_data_full (G_OBJECT (forget), "day", g_strdup (kept->name), g_free);
      g_signal_connect_object (forget, "clicked", G_CALLBACK (on_forget_cb), self, 0);
      gtk_box_append (GTK_BOX (box), forget);
    }
  gtk_list_box_append (self->kept_list, box);
  GtkWidget *row = gtk_widget_get_parent (box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

static void
list_kept (HwDayPanel *self)
{
  Hole *hole = hw_document_get_hole (self->document);
  if (hole == self->listed)
    return;
  g_clear_pointer (&self->listed, hole_unref);
  self->listed = hole != NULL ? hole_ref (hole) : NULL;
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->kept_list, 0)) != NULL;)
    gtk_list_box_remove (self->kept_list, GTK_WIDGET (row));
  add_kept (self, NULL);
  for (size_t i = 0; hole != NULL && i < hole_info (hole)->n_days; i++)
    add_kept (self, &hole_info (hole)->days[i]);
}

static void
on_kept_shown_cb (HwDayPanel *self)
{
  if (gtk_widget_get_visible (GTK_WIDGET (self->kept_popover)))
    list_kept (self);
}

/* ---- the clubs ---- */

/* What the day does to each club. They are flown for a table that is looked at only. */
static void
show_clubs (HwDayPanel *self)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  Bag *bag = hw_document_get_bag (self->document);
  gtk_widget_set_visible (self->clubs_box, scene->n_shots > 0 && bag != NULL);
  if (scene->n_shots == 0 || bag == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self->clubs)))
    return;
  const ShotResult *shot = &scene->shots[scene->current];
  size_t n_clubs = bag_n_clubs (bag);
  g_autofree ClubDay *days = g_new0 (ClubDay, n_clubs + 1);
  odds_clubs_day (scene->hole, shot->ball, shot->aim, bag, &shot->conditions, days);
  for (size_t i = 0; i < n_clubs; i++)
    {
      if (gtk_list_box_get_row_at_index (self->clubs, (int)i) == NULL)
        gtk_list_box_append (self->clubs, hw_club_row_new ());
      hw_club_row_show (HW_CLUB_ROW (gtk_list_box_get_row_at_index (self->clubs, (int)i)), &days[i],
                        hw_document_get_units (self->document));
    }
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->clubs, (int)n_clubs)) != NULL;)
    gtk_list_box_remove (self->clubs, GTK_WIDGET (row));
}

static void
on_clubs_map_cb (HwDayPanel *self)
{
  show_clubs (self);
}

/* ---- following the document ---- */

static void
show_day (HwDayPanel *self)
{
  const Day *day = panel_day (self);
  g_clear_handle_id (&self->later, g_source_remove);
  self->shown_us = g_get_monotonic_time ();
  gtk_widget_set_visible (self->content, day != NULL);
  if (day == NULL)
    return;
  g_autofree char *words = hw_wind_words (day, hw_document_get_units (self->document));
  hw_figure_set_text (self->words, words);
  for (guint i = 0; i < HW_N_DAY_VALUES; i++)
    show_entry (self, i);
  Firmness firmness = FIRMNESS_MEDIUM;
  if (day->firmness != NULL)
    firmness_from_token (day->firmness, &firmness);
  self->is_showing = true;
  gtk_drop_down_set_selected (self->firmness, firmness);
  self->is_showing = false;
  bool has_bearing = !isnan (up_bearing_deg (self));
  gtk_widget_set_visible (self->no_bearing, !has_bearing);
  gtk_widget_set_sensitive (GTK_WIDGET (self->entries[HW_DAY_WIND]), has_bearing);
  gtk_widget_set_sensitive (GTK_WIDGET (self->entries[HW_DAY_FROM]), has_bearing && !isnan (day->wind_mps));
  on_kept_shown_cb (self);
}

static gboolean
on_later_cb (gpointer panel)
{
  HwDayPanel *self = panel;
  self->later = 0;
  show_day (self);
  return G_SOURCE_REMOVE;
}

/* While something is dragged the entries show it a few times in a second, for GTK takes long to set one, and faster nobody reads figures. */
static void
on_results_changed_cb (HwDayPanel *self)
{
  gint64 shown_ms = (g_get_monotonic_time () - self->shown_us) / 1000;
  if (!hw_document_is_dragging (self->document) || shown_ms >= SHOWN_EACH_MS)
    show_day (self);
  else if (self->later == 0)
    self->later = g_timeout_add (SHOWN_EACH_MS, on_later_cb, self);
  if (panel_day (self) != NULL)
    show_clubs (self);
}

void
hw_day_panel_set_document (HwDayPanel *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  hw_wind_rose_set_document (HW_WIND_ROSE (self->rose), document);
  g_signal_connect_object (document, "results-told", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  on_results_changed_cb (self);
}

GtkWidget *
hw_day_panel_get_rose (HwDayPanel *self)
{
  return self->rose;
}

bool
hw_day_panel_shows_clubs (HwDayPanel *self)
{
  return gtk_widget_get_mapped (GTK_WIDGET (self->clubs));
}

void
hw_day_panel_set_turn (HwDayPanel *self, double turn_rad)
{
  hw_wind_rose_set_turn (HW_WIND_ROSE (self->rose), turn_rad);
}

/* ---- the widget ---- */

static void
hw_day_panel_dispose (GObject *object)
{
  HwDayPanel *self = HW_DAY_PANEL (object);
  g_clear_handle_id (&self->later, g_source_remove);
  g_clear_pointer (&self->listed, hole_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_DAY_PANEL);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_day_panel_parent_class)->dispose (object);
}

static void
hw_day_panel_class_init (HwDayPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_day_panel_dispose;
  g_type_ensure (HW_TYPE_FIGURE);
  g_type_ensure (HW_TYPE_WIND_ROSE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/day-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, content);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, rose);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, no_bearing);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, kept_button);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, keep_button);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, kept_popover);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, kept_list);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, kept_name);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, words);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, values);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, clubs_box);
  gtk_widget_class_bind_template_child (widget_class, HwDayPanel, clubs);
}

static void
hw_day_panel_init (HwDayPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_values (self);
  g_signal_connect_object (self->clubs, "map", G_CALLBACK (on_clubs_map_cb), self, G_CONNECT_SWAPPED | G_CONNECT_AFTER);
  g_signal_connect_object (self->kept_list, "row-activated", G_CALLBACK (on_use_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->keep_button, "clicked", G_CALLBACK (on_keep_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->kept_name, "activate", G_CALLBACK (on_keep_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->kept_popover, "notify::visible", G_CALLBACK (on_kept_shown_cb), self, G_CONNECT_SWAPPED);
}
