// SPDX-License-Identifier: GPL-3.0-or-later
/* course-window - puts the tables, the details of the selected hole and the notes together; the line at the foot says what was done, beside Undo. */
#include "course-window.h"

#include "course-holes.h"
#include "course-summary.h"
#include "course-tees.h"
#include "hole-facts.h"
#include "keys.h"
#include "svg.h"

#include <glib/gi18n.h>

/* Its size, px, where the window it belongs to is that wide. */
#define USUAL_WIDTH_PX 860
#define USUAL_HEIGHT_PX 600
#define LEAST_WIDTH_PX 360
/* Widths in px below which the details stand under the table, and below which the table leaves lengths out. */
#define STACKED_PX 700
#define NARROW_PX 520
#define DETAILS_WIDTH_PX 300

struct _HwCourseWindow
{
  GtkWindow parent_instance;
  HwDocument *document;
  GActionMap *actions;
  GtkBox *holes_page, *notes;
  GtkWidget *details, *foot;
  HwCourseHoles *holes;
  HwCourseTees *tees;
  HwCourseSummary *summary;
  HwHoleFacts *facts;
  GtkEntry *file, *name;
  GtkLabel *title, *folder, *said;
  GtkWidget *undo_button;
  GtkSizeGroup *captions;
  int width; /* for which it is laid out, px */
  bool is_showing;
};

G_DEFINE_FINAL_TYPE (HwCourseWindow, hw_course_window, GTK_TYPE_WINDOW)

static guint add_signal, show_signal;

/* ---- the line at the foot ---- */

static void
say (HwCourseWindow *self, const char *text, bool is_failure)
{
  gtk_label_set_text (self->said, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->said), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  if (is_failure)
    gtk_widget_add_css_class (self->foot, "failed");
  else
    gtk_widget_remove_css_class (self->foot, "failed");
}

static void
on_failed_cb (HwCourseWindow *self, const char *text)
{
  say (self, text, true);
}

/* Says what was done, or what went wrong. Frees the error. */
static void
say_done (HwCourseWindow *self, bool done, const char *text, GError *error)
{
  if (done)
    say (self, text, false);
  else if (error != NULL)
    say (self, error->message, true);
  g_clear_error (&error);
}

/* ---- following the document ---- */

static size_t
selected (HwCourseWindow *self)
{
  return MIN (hw_course_holes_get_selected (self->holes), hw_document_get_n_holes (self->document) - 1);
}

/* What the golfer calls hole `i`. */
static char *
hole_name (HwCourseWindow *self, size_t i)
{
  Hole *hole = hw_document_peek_hole (self->document, i, NULL);
  if (hole != NULL && hole_info (hole)->title != NULL)
    return g_strdup (hole_info (hole)->title);
  return g_path_get_basename (hw_document_get_course (self->document)->hole_files[i]);
}

static void
show_notes (HwCourseWindow *self)
{
  size_t n = hw_document_get_n_holes (self->document);
  g_autofree const Hole **holes = g_new0 (const Hole *, n);
  for (size_t i = 0; i < n; i++)
    holes[i] = hw_document_peek_hole (self->document, i, NULL);
  g_autoptr (GPtrArray) findings = svg_check_course (holes, n);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (self->notes))) != NULL;)
    gtk_box_remove (self->notes, child);
  for (guint i = 0; i < findings->len; i++)
    {
      const Finding *finding = g_ptr_array_index (findings, i);
      g_autofree char *text = g_strdup_printf ("%s; %s.", finding->what, finding->mend);
      text[0] = g_ascii_toupper (text[0]);
      GtkWidget *label = gtk_label_new (text);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_widget_add_css_class (label, "note");
      gtk_box_append (self->notes, label);
    }
}

static void
show_details (HwCourseWindow *self)
{
  if (self->document == NULL || hw_document_get_course (self->document) == NULL)
    return;
  size_t i = selected (self);
  g_autofree char *file = g_path_get_basename (hw_document_get_course (self->document)->hole_files[i]);
  g_autofree char *name = hole_name (self, i);
  self->is_showing = true;
  gtk_label_set_text (self->title, name);
  gtk_editable_set_text (GTK_EDITABLE (self->file), file);
  hw_hole_facts_set_hole (self->facts, hw_document_peek_hole (self->document, i, NULL));
  self->is_showing = false;
}

static void
enable (HwCourseWindow *self, const char *name, bool enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (self->actions, name)), enabled);
}

static void
show_course (HwCourseWindow *self)
{
  const Course *course = hw_document_get_course (self->document);
  const char *label = hw_document_course_undo_label (self->document);
  if (course == NULL)
    return;
  bool can = hw_document_can_change_course (self->document);
  /* What failed before has been done since. */
  if (gtk_widget_has_css_class (self->foot, "failed"))
    say (self, "", false);
  g_autofree char *title = g_strdup_printf (_ ("%s – Course"), course->name);
  g_autofree char *tip = label != NULL ? g_strdup_printf (_ ("Undo %s"), label) : NULL;
  gtk_window_set_title (GTK_WINDOW (self), title);
  gtk_editable_set_text (GTK_EDITABLE (self->name), course->name);
  gtk_label_set_text (self->folder, course->folder);
  gtk_widget_set_sensitive (GTK_WIDGET (self->name), can);
  gtk_widget_set_sensitive (GTK_WIDGET (self->tees), can);
  gtk_widget_set_sensitive (GTK_WIDGET (self->file), can);
  gtk_widget_set_tooltip_text (self->undo_button, tip);
  enable (self, "add", can);
  enable (self, "duplicate", can);
  enable (self, "up", can);
  enable (self, "down", can);
  enable (self, "delete", can && course->n_holes > 1);
  enable (self, "add-tee", can);
  enable (self, "undo", label != NULL);
  show_details (self);
  show_notes (self);
}

/* ---- commands ---- */

static void
on_edited_cb (HwCourseWindow *self)
{
  HoleInfo info;
  g_autoptr (GError) error = NULL;
  if (self->is_showing || hw_document_get_course (self->document) == NULL || !hw_hole_facts_read (self->facts, &info))
    return;
  if (!hw_document_set_facts (self->document, selected (self), &info, &error))
    say (self, error->message, true);
}

static void
on_file_cb (HwCourseWindow *self)
{
  GError *error = NULL;
  size_t i = selected (self);
  if (self->is_showing || !hw_document_can_change_course (self->document))
    return;
  g_autofree char *before = g_path_get_basename (hw_document_get_course (self->document)->hole_files[i]);
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->file))));
  if (g_str_equal (before, name))
    return;
  bool done = hw_document_rename_hole (self->document, i, name, &error);
  g_autofree char *after = g_path_get_basename (hw_document_get_course (self->document)->hole_files[i]);
  g_autofree char *text = g_strdup_printf (_ ("%s is called %s now."), before, after);
  say_done (self, done, text, error);
}

static void
on_name_cb (HwCourseWindow *self)
{
  GError *error = NULL;
  /* The keyboard also leaves when the window goes. */
  const Course *course = self->is_showing ? NULL : hw_document_get_course (self->document);
  if (course == NULL)
    return;
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));
  if (g_str_equal (name, course->name))
    return;
  g_autofree char *text = g_strdup_printf (_ ("The course is called %s now."), name);
  say_done (self, hw_document_name_course (self->document, name, &error), text, error);
}

static void
commit (HwCourseWindow *self)
{
  hw_course_holes_commit (self->holes);
  on_edited_cb (self);
}

static void
on_add_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  commit (window);
  g_signal_emit (window, add_signal, 0);
}

static void
on_show_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwCourseWindow *self = window;
  guint i = (guint)selected (self);
  commit (self);
  g_signal_emit (self, show_signal, 0, i);
  gtk_window_close (GTK_WINDOW (self));
}

static void
on_duplicate_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwCourseWindow *self = window;
  GError *error = NULL;
  commit (self);
  size_t i = selected (self);
  g_autofree char *name = hole_name (self, i);
  g_autofree char *text = g_strdup_printf (_ ("“%s” was duplicated."), name);
  bool done = hw_document_duplicate_hole (self->document, i, &error);
  if (done)
    hw_course_holes_select (self->holes, i + 1);
  say_done (self, done, text, error);
}

static void
on_delete_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwCourseWindow *self = window;
  GError *error = NULL;
  commit (self);
  size_t i = selected (self);
  g_autofree char *name = hole_name (self, i), *kept = NULL;
  bool is_there = g_file_test (hw_document_get_course (self->document)->hole_files[i], G_FILE_TEST_EXISTS);
  bool done = hw_document_delete_hole (self->document, i, &kept, &error);
  g_autofree char *text = kept != NULL ? g_strdup_printf (_ ("“%s” was deleted; its file is kept as %s."), name, kept)
                          : is_there   ? g_strdup_printf (_ ("“%s” was deleted; its file is in the trash."), name)
                                       : g_strdup_printf (_ ("“%s” was taken out; its file is missing."), name);
  if (done)
    hw_course_holes_select (self->holes, selected (self));
  say_done (self, done, text, error);
}

static void
on_up_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_course_holes_move (HW_COURSE_WINDOW (window)->holes, -1);
}

static void
on_down_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_course_holes_move (HW_COURSE_WINDOW (window)->holes, 1);
}

static void
on_add_tee_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_course_tees_add (HW_COURSE_WINDOW (window)->tees);
}

static void
on_undo_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwCourseWindow *self = window;
  GError *error = NULL;
  commit (self);
  g_autofree char *text = g_strdup_printf (_ ("Undone: %s."), hw_document_course_undo_label (self->document));
  say_done (self, hw_document_undo_course (self->document, &error), text, error);
}

/* In the tables and the entries the keys come before the text's own, which would undo or delete words; notes keep theirs. */
static void
add_all_keys (HwCourseWindow *self)
{
  static const HwKey keys[] = { { "<Alt>Up", "course.up" },           { "<Alt>Down", "course.down" },
                                { "<Control>z", "course.undo" },      { "<Control><Shift>n", "course.add" },
                                { "<Control>Return", "course.show" }, { "Escape", "window.close" } };
  static const HwKey undo[] = { { "<Control>z", "course.undo" } };
  static const HwKey holes[] = { { "<Control>d", "course.duplicate" }, { "<Control>Delete", "course.delete" } };
  GtkWidget *with_undo[]
      = { GTK_WIDGET (self->holes), GTK_WIDGET (self->tees), GTK_WIDGET (self->file), GTK_WIDGET (self->name) };
  hw_keys_add (GTK_WIDGET (self), keys, G_N_ELEMENTS (keys), GTK_PHASE_BUBBLE);
  hw_keys_add (GTK_WIDGET (self->holes), holes, G_N_ELEMENTS (holes), GTK_PHASE_CAPTURE);
  for (size_t i = 0; i < G_N_ELEMENTS (with_undo); i++)
    hw_keys_add (with_undo[i], undo, G_N_ELEMENTS (undo), GTK_PHASE_CAPTURE);
}

/* ---- the window ---- */

static void
lay_out (HwCourseWindow *self)
{
  bool is_stacked = self->width < STACKED_PX;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->holes_page),
                                  is_stacked ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_widget_set_size_request (self->details, is_stacked ? -1 : DETAILS_WIDTH_PX, -1);
  gtk_widget_set_vexpand (self->details, is_stacked);
  hw_course_holes_set_narrow (self->holes, self->width < NARROW_PX);
}

static gboolean
on_width_idle_cb (gpointer window)
{
  HwCourseWindow *self = window;
  if (self->document != NULL && hw_document_get_course (self->document) != NULL)
    lay_out (self);
  return G_SOURCE_REMOVE;
}

static void
hw_course_window_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwCourseWindow *self = HW_COURSE_WINDOW (widget);
  bool is_other = (width < STACKED_PX) != (self->width < STACKED_PX) || (width < NARROW_PX) != (self->width < NARROW_PX);
  self->width = width;
  /* Sizes cannot change while they are given out. */
  if (is_other)
    g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_width_idle_cb, g_object_ref (self), g_object_unref);
  GTK_WIDGET_CLASS (hw_course_window_parent_class)->size_allocate (widget, width, height, baseline);
}

static gboolean
hw_course_window_close_request (GtkWindow *window)
{
  HwCourseWindow *self = HW_COURSE_WINDOW (window);
  commit (self);
  hw_course_tees_commit (self->tees);
  on_name_cb (self);
  return GTK_WINDOW_CLASS (hw_course_window_parent_class)->close_request (window);
}

static void
watch_leaving (HwCourseWindow *self, GtkEntry *entry, GCallback then)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect_swapped (focus, "leave", then, self);
  gtk_widget_add_controller (GTK_WIDGET (entry), focus);
  g_signal_connect_swapped (entry, "activate", then, self);
}

static void
hw_course_window_dispose (GObject *object)
{
  HwCourseWindow *self = HW_COURSE_WINDOW (object);
  self->is_showing = true;
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_COURSE_WINDOW);
  g_clear_object (&self->actions);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_course_window_parent_class)->dispose (object);
}

static void
hw_course_window_class_init (HwCourseWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_course_window_dispose;
  widget_class->size_allocate = hw_course_window_size_allocate;
  GTK_WINDOW_CLASS (klass)->close_request = hw_course_window_close_request;
  g_type_ensure (HW_TYPE_COURSE_HOLES);
  g_type_ensure (HW_TYPE_COURSE_TEES);
  g_type_ensure (HW_TYPE_COURSE_SUMMARY);
  g_type_ensure (HW_TYPE_HOLE_FACTS);
  add_signal = g_signal_new ("add-hole", HW_TYPE_COURSE_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  show_signal
      = g_signal_new ("show-hole", HW_TYPE_COURSE_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/course-window.ui");
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, holes_page);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, notes);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, details);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, foot);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, holes);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, tees);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, summary);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, facts);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, file);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, name);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, title);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, folder);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, said);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, HwCourseWindow, captions);
}

static void
hw_course_window_init (HwCourseWindow *self)
{
  static const GActionEntry entries[] = {
    { .name = "add", .activate = on_add_cb },
    { .name = "show", .activate = on_show_cb },
    { .name = "duplicate", .activate = on_duplicate_cb },
    { .name = "delete", .activate = on_delete_cb },
    { .name = "up", .activate = on_up_cb },
    { .name = "down", .activate = on_down_cb },
    { .name = "add-tee", .activate = on_add_tee_cb },
    { .name = "undo", .activate = on_undo_cb },
  };
  gtk_widget_init_template (GTK_WIDGET (self));
  self->actions = G_ACTION_MAP (g_simple_action_group_new ());
  g_action_map_add_action_entries (self->actions, entries, G_N_ELEMENTS (entries), self);
  gtk_widget_insert_action_group (GTK_WIDGET (self), "course", G_ACTION_GROUP (self->actions));
  hw_hole_facts_set_brief (self->facts, self->captions);
  add_all_keys (self);
}

GtkWindow *
hw_course_window_new (GtkWindow *parent, HwDocument *document)
{
  HwCourseWindow *self = g_object_new (HW_TYPE_COURSE_WINDOW, "transient-for", parent, NULL);
  self->document = g_object_ref (document);
  hw_course_holes_set_document (self->holes, document);
  hw_course_tees_set_document (self->tees, document);
  hw_course_summary_set_document (self->summary, document);
  g_signal_connect_swapped (self->holes, "selected", G_CALLBACK (show_details), self);
  g_signal_connect_swapped (self->holes, "failed", G_CALLBACK (on_failed_cb), self);
  g_signal_connect_swapped (self->tees, "failed", G_CALLBACK (on_failed_cb), self);
  g_signal_connect_swapped (self->facts, "edited", G_CALLBACK (on_edited_cb), self);
  g_signal_connect_object (document, "course-changed", G_CALLBACK (show_course), self, G_CONNECT_SWAPPED);
  watch_leaving (self, self->file, G_CALLBACK (on_file_cb));
  watch_leaving (self, self->name, G_CALLBACK (on_name_cb));
  show_course (self);
  self->width = MAX (LEAST_WIDTH_PX, MIN (USUAL_WIDTH_PX, gtk_widget_get_width (GTK_WIDGET (parent))));
  lay_out (self);
  gtk_window_set_default_size (GTK_WINDOW (self), self->width, USUAL_HEIGHT_PX);
  if (hw_document_is_example (document))
    say (self,
         _ ("This is the example. Its holes’ facts can be tried out and saved elsewhere; the course itself stays as it is."),
         false);
  hw_course_holes_select (self->holes, hw_document_get_hole_index (document));
  return GTK_WINDOW (self);
}
