// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-chooser - the hole in hand, and the course's holes; these are read when the list is opened, not before. */
#include "hole-chooser.h"

#include <glib/gi18n.h>

struct _HwHoleChooser
{
  GtkWidget parent_instance;
  HwDocument *document;
  GtkWidget *button, *arrow;
  GtkLabel *number, *title, *facts, *course;
  GtkPopover *popover;
  GtkListBox *list;
};

G_DEFINE_FINAL_TYPE (HwHoleChooser, hw_hole_chooser, GTK_TYPE_WIDGET)

/* "par 4 · 398" */
static char *
print_facts (const HoleInfo *info, double length_m, LengthUnit units)
{
  g_autoptr (GString) text = g_string_new (NULL);
  if (info->par > 0)
    g_string_append_printf (text, _ ("par %d"), info->par);
  if (!isnan (length_m))
    {
      char length[UNITS_TEXT_SIZE];
      units_print_whole (length_m, units, length, sizeof length);
      g_string_append_printf (text, text->len > 0 ? " · %s" : "%s", length);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
print_number (const HoleInfo *info)
{
  return info->number > 0 ? g_strdup_printf ("%d", info->number) : g_strdup ("");
}

static char *
print_title (const HoleInfo *info, const char *path)
{
  if (info != NULL && info->title != NULL && info->title[0] != '\0')
    return g_strdup (info->title);
  return g_path_get_basename (path);
}

static GtkWidget *
label_new (const char *text, const char *class, double xalign)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), (float)xalign);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  return label;
}

static void
add_hole (HwHoleChooser *self, size_t i)
{
  const Course *course = hw_document_get_course (self->document);
  double length_m = NAN;
  const HoleInfo *info = hw_document_peek_info (self->document, i, &length_m);
  g_autofree char *number = info != NULL ? print_number (info) : g_strdup ("");
  g_autofree char *title = print_title (info, course->hole_files[i]);
  g_autofree char *facts
      = info != NULL ? print_facts (info, length_m, hw_document_get_units (self->document)) : g_strdup (_ ("cannot be read"));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *figure = label_new (number, "strong", 1);
  gtk_label_set_width_chars (GTK_LABEL (figure), 2);
  gtk_box_append (GTK_BOX (box), figure);
  GtkWidget *name = label_new (title, NULL, 0);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), label_new (facts, "caption", 1));
  gtk_list_box_append (self->list, box);
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int)i);
  g_autofree char *spoken = g_strdup_printf ("%s %s, %s", number, title, facts);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  if (i == hw_document_get_hole_index (self->document))
    gtk_list_box_select_row (self->list, row);
}

static void
on_popover_shown_cb (HwHoleChooser *self)
{
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (size_t i = 0; i < hw_document_get_n_holes (self->document); i++)
    add_hole (self, i);
}

static void
on_row_activated_cb (HwHoleChooser *self, GtkListBoxRow *row)
{
  guint chosen = (guint)gtk_list_box_row_get_index (row);
  gtk_popover_popdown (self->popover);
  g_signal_emit_by_name (self, "chosen", chosen);
}

static void
on_hole_changed_cb (HwHoleChooser *self)
{
  Hole *hole = hw_document_get_hole (self->document);
  gtk_widget_set_visible (GTK_WIDGET (self), hole != NULL);
  if (hole == NULL || hw_document_is_dragging (self->document))
    return;
  const HoleInfo *info = hole_info (hole);
  const Course *course = hw_document_get_course (self->document);
  double length_m = NAN;
  if (!hole_measured_length (hole, NULL, &length_m))
    length_m = NAN;
  g_autofree char *number = print_number (info);
  g_autofree char *file = hw_document_get_file_name (self->document);
  g_autofree char *title = print_title (info, file);
  g_autofree char *facts = print_facts (info, length_m, hw_document_get_units (self->document));
  gtk_label_set_text (self->number, number);
  gtk_widget_set_visible (GTK_WIDGET (self->number), number[0] != '\0');
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->facts, facts);
  gtk_label_set_text (self->course, course != NULL ? course->name : "");
  gtk_widget_set_visible (self->arrow, course != NULL);
  gtk_widget_set_can_target (self->button, course != NULL);
  gtk_widget_set_can_focus (self->button, course != NULL);
  g_autofree char *spoken = g_strdup_printf (_ ("Hole %s %s, %s"), number, title, facts);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

void
hw_hole_chooser_set_document (HwHoleChooser *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "opened", G_CALLBACK (on_hole_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_hole_changed_cb), self, G_CONNECT_SWAPPED);
}

void
hw_hole_chooser_set_narrow (HwHoleChooser *self, bool is_narrow)
{
  gtk_widget_set_visible (GTK_WIDGET (self->facts), !is_narrow);
}

static void
hw_hole_chooser_dispose (GObject *object)
{
  HwHoleChooser *self = HW_HOLE_CHOOSER (object);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_HOLE_CHOOSER);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_hole_chooser_parent_class)->dispose (object);
}

static void
hw_hole_chooser_class_init (HwHoleChooserClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_hole_chooser_dispose;
  g_signal_new ("chosen", HW_TYPE_HOLE_CHOOSER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/hole-chooser.ui");
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, button);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, arrow);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, number);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, title);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, facts);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, course);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, popover);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, list);
}

static void
hw_hole_chooser_init (HwHoleChooser *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->popover, "show", G_CALLBACK (on_popover_shown_cb), self);
  g_signal_connect_swapped (self->list, "row-activated", G_CALLBACK (on_row_activated_cb), self);
}
