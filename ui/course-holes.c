// SPDX-License-Identifier: GPL-3.0-or-later
/* course-holes - rows are kept and filled anew, so that the keyboard stays where it is; a column of facts is one row of a table here. */
#include "course-holes.h"

#include <glib/gi18n.h>

/* Tees whose lengths are shown; more than any course marks. */
#define MOST_TEES 6

typedef enum
{
  CELL_NUMBER,
  CELL_NAME,
  CELL_PAR,
  CELL_STROKE_INDEX,
  N_CELLS
} CellKind;

/* A column that is typed into; the bounds of numbers are those of the file. */
typedef struct
{
  const char *head, *what, *fault;
  int most, width_chars;
  size_t offset; /* of the int in HoleInfo; the name is none */
} Cell;

static const Cell cells[N_CELLS] = {
  { N_ ("No."), N_ ("Number of the hole at place %u"), N_ ("“%s” is no number of a hole; type 1 to %d, or nothing."), 999, 3,
    G_STRUCT_OFFSET (HoleInfo, number) },
  { N_ ("Name"), N_ ("Name of the hole at place %u"), NULL, 0, 8, 0 },
  { N_ ("Par"), N_ ("Par of the hole at place %u"), N_ ("“%s” is no par; type 1 to %d, or nothing."), 9, 2,
    G_STRUCT_OFFSET (HoleInfo, par) },
  { N_ ("S.I."), N_ ("Stroke index of the hole at place %u"), N_ ("“%s” is no stroke index; type 1 to %d, or nothing."), 99, 2,
    G_STRUCT_OFFSET (HoleInfo, stroke_index) },
};

struct _HwCourseHoles
{
  GtkWidget parent_instance;
  HwDocument *document;
  GtkListBox *list;
  GtkLabel *tee_heads[MOST_TEES];
  GtkSizeGroup *grips, *columns[N_CELLS], *tee_columns[MOST_TEES];
  bool is_narrow, is_showing;
  int column; /* that the keyboard is in */
};

G_DEFINE_FINAL_TYPE (HwCourseHoles, hw_course_holes, GTK_TYPE_WIDGET)

static guint selected_signal, failed_signal;

typedef struct
{
  HwCourseHoles *owner;
  GtkListBoxRow *widget;
  GtkEditable *cells[N_CELLS];
  GtkLabel *lengths[MOST_TEES];
} Row;

static Row *
row_at (HwCourseHoles *self, int i)
{
  GtkListBoxRow *widget = i >= 0 ? gtk_list_box_get_row_at_index (self->list, i) : NULL;
  return widget != NULL ? g_object_get_data (G_OBJECT (widget), "row") : NULL;
}

static void
fail (HwCourseHoles *self, const char *text)
{
  g_signal_emit (self, failed_signal, 0, text);
}

/* ---- what a cell holds ---- */

static char *
cell_text (const HoleInfo *info, CellKind kind)
{
  if (kind == CELL_NAME)
    return g_strdup (info->title != NULL ? info->title : "");
  int value = G_STRUCT_MEMBER (int, info, cells[kind].offset);
  return value > 0 ? g_strdup_printf ("%d", value) : g_strdup ("");
}

/* Whole numbers in ASCII digits within the bounds; nothing is 0. */
static bool
read_number (const char *text, int most, int *value)
{
  guint64 number = 0;
  *value = 0;
  if (text[0] == '\0')
    return true;
  if (!g_ascii_string_to_unsigned (text, 10, 1, (guint64)most, &number, NULL))
    return false;
  *value = (int)number;
  return true;
}

/* Makes what is typed in a cell the hole's fact; says so if it cannot be one. */
static bool
commit_cell (Row *row, CellKind kind)
{
  HwCourseHoles *self = row->owner;
  size_t i = (size_t)gtk_list_box_row_get_index (row->widget);
  g_autoptr (GError) error = NULL;
  Hole *hole = i < hw_document_get_n_holes (self->document) ? hw_document_peek_hole (self->document, i, NULL) : NULL;
  if (hole == NULL)
    return true;
  g_autofree char *shown = cell_text (hole_info (hole), kind);
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (row->cells[kind])));
  HoleInfo info = *hole_info (hole);
  gtk_widget_remove_css_class (GTK_WIDGET (row->cells[kind]), "error");
  if (g_str_equal (text, shown))
    return true;
  if (kind == CELL_NAME)
    info.title = text[0] != '\0' ? text : NULL;
  else if (!read_number (text, cells[kind].most, &G_STRUCT_MEMBER (int, &info, cells[kind].offset)))
    {
      g_autofree char *reason = g_strdup_printf (_ (cells[kind].fault), text, cells[kind].most);
      gtk_widget_add_css_class (GTK_WIDGET (row->cells[kind]), "error");
      fail (self, reason);
      return false;
    }
  if (hw_document_set_facts (self->document, i, &info, &error))
    return true;
  gtk_widget_add_css_class (GTK_WIDGET (row->cells[kind]), "error");
  fail (self, error->message);
  return false;
}

void
hw_course_holes_commit (HwCourseHoles *self)
{
  Row *row;
  for (int i = 0; (row = row_at (self, i)) != NULL; i++)
    for (CellKind kind = 0; kind < N_CELLS; kind++)
      commit_cell (row, kind);
}

/* ---- filling rows ---- */

static void
show_length (HwCourseHoles *self, GtkLabel *label, const Hole *hole, size_t tee)
{
  const Course *course = hw_document_get_course (self->document);
  bool is_used = tee < MAX (course->n_tees, 1) && !self->is_narrow;
  char text[UNITS_TEXT_SIZE] = "";
  double length_m;
  gtk_widget_set_visible (GTK_WIDGET (label), is_used);
  if (is_used && hole != NULL && hole_measured_length (hole, course->n_tees > 0 ? course->tees[tee].name : NULL, &length_m))
    units_print_whole (length_m, hw_document_get_units (self->document), text, sizeof text);
  gtk_label_set_text (label, text);
}

static void
show_row (Row *row)
{
  HwCourseHoles *self = row->owner;
  size_t i = (size_t)gtk_list_box_row_get_index (row->widget);
  const Course *course = hw_document_get_course (self->document);
  Hole *hole = hw_document_peek_hole (self->document, i, NULL);
  g_autofree char *file = g_path_get_basename (course->hole_files[i]);
  bool is_there = hole != NULL || g_file_test (course->hole_files[i], G_FILE_TEST_EXISTS);
  g_autofree char *missing = g_strdup_printf (is_there ? _ ("%s cannot be read") : _ ("%s is missing"), file);
  g_autoptr (GString) spoken = g_string_new (NULL);
  g_string_append_printf (spoken, _ ("Place %zu: "), i + 1);
  for (CellKind kind = 0; kind < N_CELLS; kind++)
    {
      g_autofree char *text = hole != NULL ? cell_text (hole_info (hole), kind) : g_strdup (kind == CELL_NAME ? missing : "");
      g_autofree char *name = g_strdup_printf (_ (cells[kind].what), (unsigned)i + 1);
      GtkWidget *entry = GTK_WIDGET (row->cells[kind]);
      if (g_strcmp0 (gtk_editable_get_text (row->cells[kind]), text) != 0)
        gtk_editable_set_text (row->cells[kind], text);
      gtk_widget_remove_css_class (entry, "error");
      /* What cannot be read can be gone to, to be taken out, but not typed into. */
      gtk_editable_set_editable (row->cells[kind], hole != NULL);
      if (hole == NULL)
        gtk_widget_add_css_class (entry, "missing");
      else
        gtk_widget_remove_css_class (entry, "missing");
      gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
      if (text[0] != '\0')
        g_string_append_printf (spoken, "%s %s, ", _ (cells[kind].head), text);
    }
  for (size_t tee = 0; tee < MOST_TEES; tee++)
    {
      show_length (self, row->lengths[tee], hole, tee);
      const char *text = gtk_label_get_text (row->lengths[tee]);
      if (text[0] != '\0')
        g_string_append_printf (spoken, "%s %s, ", course->n_tees > 0 ? course->tees[tee].name : _ ("length"), text);
    }
  if (hw_document_is_hole_modified (self->document, i))
    g_string_append (spoken, _ ("not saved, "));
  g_string_truncate (spoken, spoken->len - strlen (", "));
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->widget), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken->str, -1);
}

static void
show_heads (HwCourseHoles *self)
{
  const Course *course = hw_document_get_course (self->document);
  for (size_t tee = 0; tee < MOST_TEES; tee++)
    {
      gtk_widget_set_visible (GTK_WIDGET (self->tee_heads[tee]), tee < MAX (course->n_tees, 1) && !self->is_narrow);
      gtk_label_set_text (self->tee_heads[tee], tee < course->n_tees ? course->tees[tee].name : _ ("length"));
    }
}

/* ---- keys, pointer and focus ---- */

size_t
hw_course_holes_get_selected (HwCourseHoles *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->list);
  return row != NULL ? (size_t)gtk_list_box_row_get_index (row) : 0;
}

void
hw_course_holes_select (HwCourseHoles *self, size_t i)
{
  Row *row = row_at (self, (int)i);
  if (row == NULL)
    return;
  gtk_list_box_select_row (self->list, row->widget);
  gtk_widget_grab_focus (GTK_WIDGET (row->cells[self->column]));
}

static void
move_hole (HwCourseHoles *self, size_t from, size_t to)
{
  g_autoptr (GError) error = NULL;
  hw_course_holes_commit (self);
  if (hw_document_move_hole (self->document, from, to, &error))
    hw_course_holes_select (self, to);
  else
    fail (self, error->message);
}

void
hw_course_holes_move (HwCourseHoles *self, int step)
{
  size_t from = hw_course_holes_get_selected (self), n = hw_document_get_n_holes (self->document);
  if (step < 0 ? from > 0 : from + 1 < n)
    move_hole (self, from, step < 0 ? from - 1 : from + 1);
}

/* The row and column that the keyboard is in; NULL if it is in none. */
static Row *
focused (HwCourseHoles *self, CellKind *kind)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (self->list));
  Row *row = GTK_IS_LIST_BOX_ROW (child) ? g_object_get_data (G_OBJECT (child), "row") : NULL;
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (self));
  GtkWidget *focus = root != NULL ? gtk_root_get_focus (root) : NULL;
  for (*kind = 0; row != NULL && focus != NULL && *kind < N_CELLS; ++*kind)
    if (gtk_widget_is_ancestor (focus, GTK_WIDGET (row->cells[*kind])))
      return row;
  return NULL;
}

static gboolean
on_key_cb (HwCourseHoles *self, guint keyval, guint keycode, GdkModifierType state)
{
  CellKind kind;
  Row *row = focused (self, &kind);
  int step = keyval == GDK_KEY_Up                                                               ? -1
             : keyval == GDK_KEY_Down || keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter ? 1
                                                                                                : 0;
  if (row == NULL || (state & (GDK_ALT_MASK | GDK_CONTROL_MASK | GDK_SHIFT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_Escape)
    {
      Hole *hole = hw_document_peek_hole (self->document, (size_t)gtk_list_box_row_get_index (row->widget), NULL);
      g_autofree char *shown = hole != NULL ? cell_text (hole_info (hole), kind) : NULL;
      if (hole == NULL || g_strcmp0 (shown, gtk_editable_get_text (row->cells[kind])) == 0)
        return GDK_EVENT_PROPAGATE;
      show_row (row);
      return GDK_EVENT_STOP;
    }
  if (step == 0)
    return GDK_EVENT_PROPAGATE;
  int to = gtk_list_box_row_get_index (row->widget) + step;
  if (commit_cell (row, kind) && row_at (self, to) != NULL)
    hw_course_holes_select (self, (size_t)to);
  return GDK_EVENT_STOP;
}

static void
on_cell_enter_cb (GtkEventController *controller, Row *row)
{
  GtkWidget *entry = gtk_event_controller_get_widget (controller);
  for (CellKind kind = 0; kind < N_CELLS; kind++)
    if (GTK_WIDGET (row->cells[kind]) == entry)
      row->owner->column = (int)kind;
  gtk_list_box_select_row (row->owner->list, row->widget);
}

static void
on_cell_leave_cb (GtkEventController *controller, Row *row)
{
  GtkWidget *entry = gtk_event_controller_get_widget (controller);
  for (CellKind kind = 0; kind < N_CELLS; kind++)
    if (GTK_WIDGET (row->cells[kind]) == entry && gtk_widget_get_mapped (entry))
      commit_cell (row, kind);
}

static void
on_row_selected_cb (HwCourseHoles *self)
{
  if (!self->is_showing)
    g_signal_emit (self, selected_signal, 0);
}

static GdkContentProvider *
on_drag_prepare_cb (GtkDragSource *source, double x, double y, Row *row)
{
  return gdk_content_provider_new_typed (G_TYPE_INT, gtk_list_box_row_get_index (row->widget));
}

static gboolean
on_drop_cb (GtkDropTarget *target, const GValue *value, double x, double y, Row *row)
{
  int from = g_value_get_int (value), to = gtk_list_box_row_get_index (row->widget);
  if (from == to || row_at (row->owner, from) == NULL)
    return FALSE;
  move_hole (row->owner, (size_t)from, (size_t)to);
  return TRUE;
}

/* ---- making rows ---- */

static GtkWidget *
grip_new (Row *row)
{
  GtkWidget *grip = gtk_image_new_from_icon_name ("list-drag-handle-symbolic");
  gtk_widget_set_tooltip_text (grip, _ ("Drag to another place, or press Alt with Up or Down"));
  gtk_widget_add_css_class (grip, "grip");
  gtk_widget_set_cursor_from_name (grip, "grab");
  GtkDragSource *source = gtk_drag_source_new ();
  g_signal_connect (source, "prepare", G_CALLBACK (on_drag_prepare_cb), row);
  gtk_widget_add_controller (grip, GTK_EVENT_CONTROLLER (source));
  return grip;
}

static GtkEditable *
cell_new (Row *row, CellKind kind)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), cells[kind].width_chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), cells[kind].width_chars);
  gtk_editable_set_enable_undo (GTK_EDITABLE (entry), FALSE);
  gtk_editable_set_alignment (GTK_EDITABLE (entry), kind == CELL_NAME ? 0 : 1);
  gtk_entry_set_input_purpose (GTK_ENTRY (entry), kind == CELL_NAME ? GTK_INPUT_PURPOSE_FREE_FORM : GTK_INPUT_PURPOSE_DIGITS);
  gtk_widget_set_hexpand (entry, kind == CELL_NAME);
  gtk_widget_add_css_class (entry, "cell");
  if (kind != CELL_NAME)
    gtk_widget_add_css_class (entry, "figures");
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect (focus, "enter", G_CALLBACK (on_cell_enter_cb), row);
  g_signal_connect (focus, "leave", G_CALLBACK (on_cell_leave_cb), row);
  gtk_widget_add_controller (entry, focus);
  gtk_size_group_add_widget (row->owner->columns[kind], entry);
  return GTK_EDITABLE (entry);
}

static GtkLabel *
figure_new (GtkSizeGroup *column, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_label_set_width_chars (GTK_LABEL (label), 4);
  gtk_widget_add_css_class (label, style);
  gtk_size_group_add_widget (column, label);
  return GTK_LABEL (label);
}

static Row *
row_new (HwCourseHoles *self)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  row->owner = self;
  row->widget = GTK_LIST_BOX_ROW (gtk_list_box_row_new ());
  GtkWidget *grip = grip_new (row);
  gtk_size_group_add_widget (self->grips, grip);
  gtk_box_append (GTK_BOX (box), grip);
  for (CellKind kind = 0; kind < N_CELLS; kind++)
    {
      row->cells[kind] = cell_new (row, kind);
      gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->cells[kind]));
    }
  for (size_t tee = 0; tee < MOST_TEES; tee++)
    {
      row->lengths[tee] = figure_new (self->tee_columns[tee], "figures");
      gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->lengths[tee]));
    }
  gtk_list_box_row_set_child (row->widget, box);
  gtk_list_box_row_set_activatable (row->widget, FALSE);
  /* Its cells have the keyboard, not the row. */
  gtk_widget_set_focusable (GTK_WIDGET (row->widget), FALSE);
  g_object_set_data_full (G_OBJECT (row->widget), "row", row, g_free);
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INT, GDK_ACTION_COPY);
  g_signal_connect (target, "drop", G_CALLBACK (on_drop_cb), row);
  gtk_widget_add_controller (GTK_WIDGET (row->widget), GTK_EVENT_CONTROLLER (target));
  return row;
}

static void
show_holes (HwCourseHoles *self)
{
  const Course *course = hw_document_get_course (self->document);
  int n = course != NULL ? (int)course->n_holes : 0;
  self->is_showing = true;
  for (Row *row; (row = row_at (self, n)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row->widget));
  for (int i = 0; i < n; i++)
    {
      if (row_at (self, i) == NULL)
        gtk_list_box_append (self->list, GTK_WIDGET (row_new (self)->widget));
      show_row (row_at (self, i));
    }
  if (n > 0)
    show_heads (self);
  if (n > 0 && gtk_list_box_get_selected_row (self->list) == NULL)
    gtk_list_box_select_row (self->list, row_at (self, MIN ((int)hw_document_get_hole_index (self->document), n - 1))->widget);
  self->is_showing = false;
  g_signal_emit (self, selected_signal, 0);
}

void
hw_course_holes_set_narrow (HwCourseHoles *self, bool is_narrow)
{
  self->is_narrow = is_narrow;
  show_holes (self);
}

void
hw_course_holes_set_document (HwCourseHoles *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "course-changed", G_CALLBACK (show_holes), self, G_CONNECT_SWAPPED);
  show_holes (self);
}

/* ---- the widget ---- */

static GtkWidget *
heads_new (HwCourseHoles *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *corner = gtk_label_new (NULL);
  gtk_widget_add_css_class (box, "course-heads");
  gtk_size_group_add_widget (self->grips, corner);
  gtk_box_append (GTK_BOX (box), corner);
  for (CellKind kind = 0; kind < N_CELLS; kind++)
    {
      GtkWidget *head = gtk_label_new (_ (cells[kind].head));
      gtk_label_set_xalign (GTK_LABEL (head), kind == CELL_NAME ? 0 : 1);
      gtk_widget_set_hexpand (head, kind == CELL_NAME);
      gtk_widget_add_css_class (head, "caption");
      gtk_size_group_add_widget (self->columns[kind], head);
      gtk_box_append (GTK_BOX (box), head);
    }
  for (size_t tee = 0; tee < MOST_TEES; tee++)
    {
      self->tee_heads[tee] = figure_new (self->tee_columns[tee], "caption");
      gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->tee_heads[tee]));
    }
  return box;
}

static void
hw_course_holes_dispose (GObject *object)
{
  HwCourseHoles *self = HW_COURSE_HOLES (object);
  self->is_showing = true;
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&self->document);
  g_clear_object (&self->grips);
  for (size_t i = 0; i < N_CELLS; i++)
    g_clear_object (&self->columns[i]);
  for (size_t i = 0; i < MOST_TEES; i++)
    g_clear_object (&self->tee_columns[i]);
  G_OBJECT_CLASS (hw_course_holes_parent_class)->dispose (object);
}

static void
hw_course_holes_class_init (HwCourseHolesClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_course_holes_dispose;
  selected_signal = g_signal_new ("selected", HW_TYPE_COURSE_HOLES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  failed_signal
      = g_signal_new ("failed", HW_TYPE_COURSE_HOLES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
hw_course_holes_init (HwCourseHoles *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))), GTK_ORIENTATION_VERTICAL);
  self->column = CELL_NAME;
  self->grips = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  for (size_t i = 0; i < N_CELLS; i++)
    self->columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  for (size_t i = 0; i < MOST_TEES; i++)
    self->tee_columns[i] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  gtk_widget_set_parent (heads_new (self), GTK_WIDGET (self));
  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_BROWSE);
  gtk_widget_add_css_class (GTK_WIDGET (self->list), "course-holes");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Holes in playing order"), -1);
  g_signal_connect_swapped (self->list, "row-selected", G_CALLBACK (on_row_selected_cb), self);
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_key_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->list));
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));
}
