// SPDX-License-Identifier: GPL-3.0-or-later
/* course-tees - every row is read and all of them written at once; a tee is told apart by its name, so two alike are refused. */
#include "course-tees.h"

#include <glib/gi18n.h>

/* Bounds of the ratings: a Slope Rating is 55 to 155 (Rules of Handicapping, World Handicap System); 100 is above any Course Rating. */
#define LEAST_SLOPE 55
#define MOST_SLOPE 155
#define LEAST_RATING 1.0
#define MOST_RATING 100.0

/* Usual names of tees and their paint (common practice), in the order in which they are offered. */
static const struct
{
  const char *name, *colour;
} usual[] = { { "white", "#ffffff" }, { "yellow", "#f2c230" }, { "red", "#c62f2f" },   { "blue", "#2f5fa8" },
              { "black", "#22303c" }, { "green", "#3f8a4a" },  { "orange", "#e07b28" } };

struct _HwCourseTees
{
  GtkWidget parent_instance;
  HwDocument *document;
  GtkListBox *list;
  GtkSizeGroup *columns[5];
  GtkWidget *heads;
  bool is_showing;
};

G_DEFINE_FINAL_TYPE (HwCourseTees, hw_course_tees, GTK_TYPE_WIDGET)

static guint failed_signal;

typedef struct
{
  HwCourseTees *owner;
  GtkListBoxRow *widget;
  GtkEditable *name, *rating, *slope;
  GtkColorChooser *colour;
  char *colour_text; /* as the file has it; NULL: none */
} Row;

static void
row_free (Row *row)
{
  g_free (row->colour_text);
  g_free (row);
}

const char *
hw_tee_usual_colour (const char *name)
{
  for (size_t i = 0; i < G_N_ELEMENTS (usual); i++)
    if (g_ascii_strcasecmp (usual[i].name, name) == 0)
      return usual[i].colour;
  return NULL;
}

static Row *
row_at (HwCourseTees *self, int i)
{
  GtkListBoxRow *widget = gtk_list_box_get_row_at_index (self->list, i);
  return widget != NULL ? g_object_get_data (G_OBJECT (widget), "row") : NULL;
}

/* ---- reading the rows ---- */

static void
tee_clear (gpointer tee)
{
  g_free (((CourseTee *)tee)->name);
  g_free (((CourseTee *)tee)->colour);
}

static bool refuse (HwCourseTees *self, GtkEditable *entry, const char *format, ...) G_GNUC_PRINTF (3, 4);

static bool
refuse (HwCourseTees *self, GtkEditable *entry, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
  g_signal_emit (self, failed_signal, 0, text);
  return false;
}

static char *
typed (GtkEditable *entry)
{
  gtk_widget_remove_css_class (GTK_WIDGET (entry), "error");
  return g_strstrip (g_strdup (gtk_editable_get_text (entry)));
}

/* A number typed with a point or a comma; nothing is `none`. */
static bool
read_rating (const char *text, double *rating)
{
  double value;
  *rating = NAN;
  if (text[0] == '\0')
    return true;
  g_autofree char *plain = g_strdelimit (g_strdup (text), ",", '.');
  if (!units_parse_number (plain, &value) || value < LEAST_RATING || value > MOST_RATING)
    return false;
  *rating = value;
  return true;
}

static bool
read_slope (const char *text, int *slope)
{
  guint64 value = 0;
  if (text[0] != '\0' && !g_ascii_string_to_unsigned (text, 10, LEAST_SLOPE, MOST_SLOPE, &value, NULL))
    return false;
  *slope = (int)value;
  return true;
}

static bool
read_row (Row *row, GArray *tees)
{
  HwCourseTees *self = row->owner;
  g_autofree char *name = typed (row->name), *rating = typed (row->rating), *slope = typed (row->slope);
  CourseTee tee = { NULL, NULL, NAN, 0 };
  if (name[0] == '\0')
    return refuse (self, row->name, _ ("A tee needs a name; type one, or remove the tee."));
  for (guint i = 0; i < tees->len; i++)
    if (g_utf8_collate (g_array_index (tees, CourseTee, i).name, name) == 0)
      return refuse (self, row->name, _ ("There is a tee called “%s” already; give each its own name."), name);
  if (!read_rating (rating, &tee.rating))
    return refuse (self, row->rating, _ ("“%s” is no Course Rating; type strokes such as 71.4, or nothing."), rating);
  if (!read_slope (slope, &tee.slope))
    return refuse (self, row->slope, _ ("“%s” is no Slope Rating; type %d to %d, or nothing."), slope, LEAST_SLOPE, MOST_SLOPE);
  tee.name = g_steal_pointer (&name);
  tee.colour = g_strdup (row->colour_text);
  g_array_append_val (tees, tee);
  return true;
}

/* What all rows say; NULL when one of them says something that cannot be. */
static GArray *
read_rows (HwCourseTees *self)
{
  GArray *tees = g_array_new (FALSE, FALSE, sizeof (CourseTee));
  g_array_set_clear_func (tees, tee_clear);
  Row *row;
  for (int i = 0; (row = row_at (self, i)) != NULL; i++)
    if (!read_row (row, tees))
      {
        g_array_unref (tees);
        return NULL;
      }
  return tees;
}

/* Does a row show something else than the course says? */
static bool
is_changed (const Course *course, const GArray *tees)
{
  for (guint i = 0; i < tees->len && i < course->n_tees; i++)
    {
      const CourseTee *a = &g_array_index (tees, CourseTee, i), *b = &course->tees[i];
      if (g_strcmp0 (a->name, b->name) != 0 || g_strcmp0 (a->colour, b->colour) != 0 || a->slope != b->slope
          || (a->rating != b->rating && !(isnan (a->rating) && isnan (b->rating))))
        return true;
    }
  return tees->len != course->n_tees;
}

static bool
write_tees (HwCourseTees *self, GArray *tees)
{
  const Course *course = hw_document_get_course (self->document);
  g_autoptr (GError) error = NULL;
  if (!is_changed (course, tees)
      || hw_document_set_tees (self->document, (const CourseTee *)(const void *)tees->data, tees->len, &error))
    return true;
  g_signal_emit (self, failed_signal, 0, error->message);
  return false;
}

void
hw_course_tees_commit (HwCourseTees *self)
{
  if (self->is_showing || hw_document_get_course (self->document) == NULL)
    return;
  g_autoptr (GArray) tees = read_rows (self);
  if (tees != NULL)
    write_tees (self, tees);
}

/* ---- adding and removing ---- */

static bool
has_tee (const Course *course, const char *name)
{
  for (size_t i = 0; i < course->n_tees; i++)
    if (g_ascii_strcasecmp (course->tees[i].name, name) == 0)
      return true;
  return false;
}

void
hw_course_tees_add (HwCourseTees *self)
{
  const Course *course = hw_document_get_course (self->document);
  g_autoptr (GArray) tees = read_rows (self);
  if (tees == NULL)
    return;
  size_t next = 0;
  while (next < G_N_ELEMENTS (usual) && has_tee (course, usual[next].name))
    next++;
  CourseTee tee = { next < G_N_ELEMENTS (usual) ? g_strdup (usual[next].name) : g_strdup_printf (_ ("tee %u"), tees->len + 1),
                    next < G_N_ELEMENTS (usual) ? g_strdup (usual[next].colour) : NULL, NAN, 0 };
  g_array_append_val (tees, tee);
  int i = (int)tees->len - 1;
  if (write_tees (self, tees) && row_at (self, i) != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (row_at (self, i)->name));
}

static void
on_remove_cb (Row *row)
{
  HwCourseTees *self = row->owner;
  int i = gtk_list_box_row_get_index (row->widget);
  g_autoptr (GArray) tees = read_rows (self);
  if (tees == NULL)
    return;
  g_array_remove_index (tees, (guint)i);
  write_tees (self, tees);
}

/* ---- rows ---- */

static void
on_leave_cb (GtkEventController *controller, Row *row)
{
  if (gtk_widget_get_mapped (gtk_event_controller_get_widget (controller)))
    hw_course_tees_commit (row->owner);
}

static void
on_colour_cb (Row *row)
{
  GdkRGBA rgba;
  gtk_color_chooser_get_rgba (row->colour, &rgba);
  g_free (row->colour_text);
  row->colour_text = g_strdup_printf ("#%02x%02x%02x", (unsigned)(rgba.red * 255 + 0.5F), (unsigned)(rgba.green * 255 + 0.5F),
                                      (unsigned)(rgba.blue * 255 + 0.5F));
  hw_course_tees_commit (row->owner);
}

static GtkEditable *
entry_new (Row *row, int width_chars, int most_chars, GtkSizeGroup *column)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), width_chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), most_chars);
  gtk_editable_set_enable_undo (GTK_EDITABLE (entry), FALSE);
  gtk_widget_add_css_class (entry, "cell");
  gtk_widget_add_css_class (entry, "figures");
  gtk_size_group_add_widget (column, entry);
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect (focus, "leave", G_CALLBACK (on_leave_cb), row);
  gtk_widget_add_controller (entry, focus);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (hw_course_tees_commit), row->owner);
  return GTK_EDITABLE (entry);
}

static Row *
row_new (HwCourseTees *self)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *colour = gtk_color_button_new (), *remove = gtk_button_new_from_icon_name ("list-remove-symbolic");
  row->owner = self;
  row->widget = GTK_LIST_BOX_ROW (gtk_list_box_row_new ());
  row->name = entry_new (row, 8, 20, self->columns[0]);
  row->rating = entry_new (row, 5, 5, self->columns[2]);
  row->slope = entry_new (row, 5, 5, self->columns[3]);
  row->colour = GTK_COLOR_CHOOSER (colour);
  gtk_widget_set_hexpand (GTK_WIDGET (row->name), TRUE);
  gtk_color_chooser_set_use_alpha (row->colour, FALSE);
  gtk_size_group_add_widget (self->columns[1], colour);
  gtk_size_group_add_widget (self->columns[4], remove);
  gtk_widget_set_tooltip_text (remove, _ ("Remove the tee"));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->name));
  gtk_box_append (GTK_BOX (box), colour);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->rating));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->slope));
  gtk_box_append (GTK_BOX (box), remove);
  g_signal_connect_swapped (colour, "color-set", G_CALLBACK (on_colour_cb), row);
  g_signal_connect_swapped (remove, "clicked", G_CALLBACK (on_remove_cb), row);
  gtk_list_box_row_set_child (row->widget, box);
  gtk_list_box_row_set_activatable (row->widget, FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (row->widget), FALSE);
  g_object_set_data (G_OBJECT (row->widget), "remove", remove);
  g_object_set_data_full (G_OBJECT (row->widget), "row", row, (GDestroyNotify)row_free);
  return row;
}

static void
set_text (GtkEditable *entry, const char *text)
{
  gtk_widget_remove_css_class (GTK_WIDGET (entry), "error");
  if (g_strcmp0 (gtk_editable_get_text (entry), text) != 0)
    gtk_editable_set_text (entry, text);
}

static void
set_name (gpointer widget, const char *format, const char *tee)
{
  g_autofree char *name = g_strdup_printf (format, tee);
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
show_row (Row *row, const CourseTee *tee)
{
  char rating[UNITS_TEXT_SIZE] = "", slope[16] = "";
  GdkRGBA rgba = { 0.5f, 0.5f, 0.5f, 1 };
  g_free (row->colour_text);
  row->colour_text = g_strdup (tee->colour);
  if (tee->colour != NULL && !gdk_rgba_parse (&rgba, tee->colour))
    rgba = (GdkRGBA){ 0.5f, 0.5f, 0.5f, 1 };
  gtk_color_chooser_set_rgba (row->colour, &rgba);
  if (!isnan (tee->rating))
    units_print_full (tee->rating, rating, sizeof rating);
  if (tee->slope > 0)
    g_snprintf (slope, sizeof slope, "%d", tee->slope);
  set_text (row->name, tee->name);
  set_text (row->rating, rating);
  set_text (row->slope, slope);
  set_name (row->name, _ ("Name of the tee %s"), tee->name);
  set_name (row->colour, _ ("Colour of the tee %s"), tee->name);
  set_name (row->rating, _ ("Course Rating from the tee %s"), tee->name);
  set_name (row->slope, _ ("Slope Rating from the tee %s"), tee->name);
  set_name (g_object_get_data (G_OBJECT (row->widget), "remove"), _ ("Remove the tee %s"), tee->name);
  set_name (row->widget, _ ("Tee %s"), tee->name);
}

static void
show_tees (HwCourseTees *self)
{
  const Course *course = hw_document_get_course (self->document);
  int n = course != NULL ? (int)course->n_tees : 0;
  self->is_showing = true;
  for (Row *row; (row = row_at (self, n)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row->widget));
  for (int i = 0; i < n; i++)
    {
      if (row_at (self, i) == NULL)
        gtk_list_box_append (self->list, GTK_WIDGET (row_new (self)->widget));
      show_row (row_at (self, i), &course->tees[i]);
    }
  gtk_widget_set_visible (self->heads, n > 0);
  self->is_showing = false;
}

void
hw_course_tees_set_document (HwCourseTees *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "course-changed", G_CALLBACK (show_tees), self, G_CONNECT_SWAPPED);
  show_tees (self);
}

/* ---- the widget ---- */

static GtkWidget *
heads_new (HwCourseTees *self)
{
  static const char *const heads[] = { N_ ("Tee"), N_ ("Colour"), N_ ("Rating"), N_ ("Slope"), "" };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_add_css_class (box, "course-heads");
  for (size_t i = 0; i < G_N_ELEMENTS (heads); i++)
    {
      GtkWidget *head = gtk_label_new (heads[i][0] != '\0' ? _ (heads[i]) : "");
      gtk_label_set_xalign (GTK_LABEL (head), 0);
      gtk_widget_set_hexpand (head, i == 0);
      gtk_widget_add_css_class (head, "caption");
      gtk_size_group_add_widget (self->columns[i], head);
      gtk_box_append (GTK_BOX (box), head);
    }
  return box;
}

static void
hw_course_tees_dispose (GObject *object)
{
  HwCourseTees *self = HW_COURSE_TEES (object);
  self->is_showing = true;
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&self->document);
  for (size_t i = 0; i < G_N_ELEMENTS (self->columns); i++)
    g_clear_object (&self->columns[i]);
  G_OBJECT_CLASS (hw_course_tees_parent_class)->dispose (object);
}

static void
hw_course_tees_class_init (HwCourseTeesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_course_tees_dispose;
  failed_signal
      = g_signal_new ("failed", HW_TYPE_COURSE_TEES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
hw_course_tees_init (HwCourseTees *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))), GTK_ORIENTATION_VERTICAL);
  for (size_t i = 0; i < G_N_ELEMENTS (self->columns); i++)
    self->columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  self->heads = heads_new (self);
  gtk_widget_set_parent (self->heads, GTK_WIDGET (self));
  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_NONE);
  gtk_widget_add_css_class (GTK_WIDGET (self->list), "course-holes");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Tees"), -1);
  gtk_widget_set_parent (GTK_WIDGET (self->list), GTK_WIDGET (self));
}
