// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-chooser - the hole in hand, and the course's holes in columns; these are read when the list is opened, not before. */
#include "hole-chooser.h"

#include <glib/gi18n.h>

/* Characters of a long name that are shown in the list. */
#define MOST_NAME_CHARS 22

/* Columns of the list beside the names. */
typedef enum
{
  COLUMN_NUMBER,
  COLUMN_PAR,
  COLUMN_LENGTH,
  N_COLUMNS
} Column;

struct _HwHoleChooser
{
  GtkWidget parent_instance;
  HwDocument *document;
  GtkWidget *button, *arrow, *course_button;
  GtkLabel *number, *title, *facts, *course;
  GtkPopover *popover;
  GtkScrolledWindow *scroller;
  GtkListBox *list;
  GtkSizeGroup *columns[N_COLUMNS];
};

G_DEFINE_FINAL_TYPE (HwHoleChooser, hw_hole_chooser, GTK_TYPE_WIDGET)

static char *
print_par (const HoleInfo *info)
{
  return info->par > 0 ? g_strdup_printf (_ ("par %d"), info->par) : g_strdup ("");
}

static char *
print_length (double length_m, LengthUnit units)
{
  char length[UNITS_TEXT_SIZE] = "";
  if (!isnan (length_m))
    units_print_whole (length_m, units, length, sizeof length);
  return g_strdup (length);
}

/* "par 4 · 398"; either may be empty. Takes both. */
static char *
join_facts (char *par, char *length)
{
  char *facts = g_strconcat (par, par[0] != '\0' && length[0] != '\0' ? " · " : "", length, NULL);
  g_free (par);
  g_free (length);
  return facts;
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

/* A label at the end of the row, flush right, as wide as the others of its column. */
static void
add_cell (HwHoleChooser *self, GtkWidget *box, Column column, const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_widget_add_css_class (label, class);
  gtk_widget_add_css_class (label, "figures");
  gtk_size_group_add_widget (self->columns[column], label);
  gtk_box_append (GTK_BOX (box), label);
}

static void
add_name (GtkWidget *box, const char *title)
{
  GtkWidget *name = gtk_label_new (title);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (name), 8);
  gtk_label_set_max_width_chars (GTK_LABEL (name), MOST_NAME_CHARS);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_box_append (GTK_BOX (box), name);
}

static void
add_hole (HwHoleChooser *self, size_t i)
{
  const Course *course = hw_document_get_course (self->document);
  double length_m = NAN;
  const HoleInfo *info = hw_document_peek_info (self->document, i, &length_m);
  g_autofree char *number = info != NULL ? print_number (info) : g_strdup ("");
  g_autofree char *title = print_title (info, course->hole_files[i]);
  g_autofree char *par = info != NULL ? print_par (info) : g_strdup (_ ("cannot be read"));
  g_autofree char *length = print_length (length_m, hw_document_get_units (self->document));
  g_autofree char *facts = join_facts (g_strdup (par), g_strdup (length));
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  add_cell (self, box, COLUMN_NUMBER, number, "strong");
  add_name (box, title);
  add_cell (self, box, COLUMN_PAR, par, "caption");
  add_cell (self, box, COLUMN_LENGTH, length, "caption");
  gtk_list_box_append (self->list, box);
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int)i);
  g_autofree char *spoken = g_strdup_printf ("%s %s, %s", number, title, facts);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  if (i == hw_document_get_hole_index (self->document))
    {
      gtk_list_box_select_row (self->list, row);
      gtk_widget_grab_focus (GTK_WIDGET (row));
    }
}

/* Brings the hole in hand to the middle of the list as soon as its row has a place. */
static gboolean
scroll_to_selected_cb (GtkWidget *list, GdkFrameClock *clock, gpointer chooser)
{
  HwHoleChooser *self = chooser;
  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->list);
  graphene_rect_t place;
  if (row == NULL || !gtk_widget_compute_bounds (GTK_WIDGET (row), list, &place))
    return G_SOURCE_REMOVE;
  if (gtk_widget_get_height (GTK_WIDGET (row)) == 0)
    return G_SOURCE_CONTINUE;
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (self->scroller);
  gtk_adjustment_set_value (adjustment, graphene_rect_get_y (&place) + graphene_rect_get_height (&place) / 2
                                            - gtk_adjustment_get_page_size (adjustment) / 2);
  return G_SOURCE_REMOVE;
}

static void
on_popover_shown_cb (HwHoleChooser *self)
{
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (size_t i = 0; i < hw_document_get_n_holes (self->document); i++)
    add_hole (self, i);
  gtk_widget_add_tick_callback (GTK_WIDGET (self->list), scroll_to_selected_cb, self, NULL);
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
  g_autofree char *facts = join_facts (print_par (info), print_length (length_m, hw_document_get_units (self->document)));
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
  for (Column column = 0; column < N_COLUMNS; column++)
    g_clear_object (&self->columns[column]);
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
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, scroller);
  gtk_widget_class_bind_template_child (widget_class, HwHoleChooser, course_button);
}

static void
hw_hole_chooser_init (HwHoleChooser *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  for (Column column = 0; column < N_COLUMNS; column++)
    self->columns[column] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  g_signal_connect_swapped (self->course_button, "clicked", G_CALLBACK (gtk_popover_popdown), self->popover);
  g_signal_connect_swapped (self->popover, "show", G_CALLBACK (on_popover_shown_cb), self);
  g_signal_connect_swapped (self->list, "row-activated", G_CALLBACK (on_row_activated_cb), self);
}
