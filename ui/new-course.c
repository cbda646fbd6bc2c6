// SPDX-License-Identifier: GPL-3.0-or-later
/* new-course - each hole begins as the usual first drawing of a par 4, its tee markers called as the course calls its tees; the dialog stays until it is made. */
#include "new-course.h"

#include "course-tees.h"
#include "edit.h"
#include "svg.h"

#include <glib/gi18n.h>

struct _HwNewCourse
{
  GtkWindow parent_instance;
  GtkEntry *name, *folder, *tees;
  GtkSpinButton *holes;
  GtkLabel *reason;
  GtkButton *choose_button, *make_button, *cancel_button;
  char *parent_folder;  /* in which the course's folder is offered */
  char *offered_folder; /* what the folder's field was last filled with */
};

G_DEFINE_FINAL_TYPE (HwNewCourse, hw_new_course, GTK_TYPE_WINDOW)

static guint made_signal;

static void
show_reason (HwNewCourse *self, const char *text)
{
  gtk_label_set_text (self->reason, text);
  gtk_widget_set_visible (GTK_WIDGET (self->reason), TRUE);
}

static char *
typed (GtkEntry *entry)
{
  return g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));
}

/* ---- the folder follows the name until it is typed ---- */

static void
offer_folder (HwNewCourse *self)
{
  g_autofree char *name = typed (self->name), *now = typed (self->folder);
  if (g_strcmp0 (now, self->offered_folder) != 0)
    return;
  g_strdelimit (name, "/", '-');
  g_free (self->offered_folder);
  self->offered_folder
      = g_build_filename (self->parent_folder, name[0] != '\0' && name[0] != '.' ? name : _ ("New Course"), NULL);
  gtk_editable_set_text (GTK_EDITABLE (self->folder), self->offered_folder);
}

static void
on_folder_chosen_cb (GtkNativeDialog *dialog, int response, HwNewCourse *self)
{
  g_autoptr (GFile) file = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog)) : NULL;
  char *path = file != NULL ? g_file_get_path (file) : NULL;
  g_object_unref (dialog);
  if (path == NULL)
    return;
  g_free (self->parent_folder);
  self->parent_folder = path;
  g_clear_pointer (&self->offered_folder, g_free);
  self->offered_folder = typed (self->folder);
  offer_folder (self);
}

static void
on_choose_cb (HwNewCourse *self)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ ("Make the Course’s Folder In"), GTK_WINDOW (self),
                                     GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _ ("_Choose"), _ ("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_folder_chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

/* ---- making ---- */

/* The names between commas, each once; empty when there are none. */
static GPtrArray *
read_tees (HwNewCourse *self)
{
  g_autofree char *text = typed (self->tees);
  g_auto (GStrv) names = g_strsplit (text, ",", -1);
  GPtrArray *tees = g_ptr_array_new_with_free_func (g_free);
  for (char **name = names; *name != NULL; name++)
    if (g_strstrip (*name)[0] != '\0' && !g_ptr_array_find_with_equal_func (tees, *name, g_str_equal, NULL))
      g_ptr_array_add (tees, g_strdup (*name));
  return tees;
}

/* The drawing with its tee markers called as the course's tees, front ones left out where there are fewer. */
static Hole *
hole_with_tees (const Hole *hole, const GPtrArray *tees)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  guint tee = 0;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind != KIND_TEE_MARKER || tees->len == 0)
        g_ptr_array_add (parts, (gpointer)part_ref (part));
      else if (tee < tees->len)
        {
          Part *marker = part_copy (part);
          g_free (marker->name);
          marker->name = g_strdup (g_ptr_array_index (tees, tee++));
          g_ptr_array_add (parts, (gpointer)part_seal (marker));
        }
    }
  return hole_with_parts (hole, (const Part *const *)parts->pdata, parts->len);
}

static Hole *
first_drawing (int number, const GPtrArray *tees, GError **error)
{
  HoleSketch sketch;
  hole_sketch_init (&sketch);
  sketch.number = number;
  g_autoptr (Hole) hole = edit_sketch_hole (&sketch, error);
  return hole != NULL ? hole_with_tees (hole, tees) : NULL;
}

/* The course with one more hole; NULL as the engine says. Takes `course`, which is NULL for the first. */
static Course *
with_hole (HwNewCourse *self, Course *course, int number, const GPtrArray *tees, GError **error)
{
  g_autoptr (Course) before = course;
  g_autofree char *folder = typed (self->folder), *name = typed (self->name);
  g_autoptr (Hole) hole = first_drawing (number, tees, error);
  if (hole == NULL)
    return NULL;
  return before == NULL ? svg_course_create (folder, name, hole, error)
                        : svg_course_add_hole (before, before->n_holes, hole, error);
}

static Course *
with_tees (Course *course, const GPtrArray *names, GError **error)
{
  g_autoptr (Course) before = course;
  g_autofree CourseTee *tees = g_new0 (CourseTee, names->len + 1);
  for (guint i = 0; i < names->len; i++)
    {
      char *name = g_ptr_array_index (names, i);
      tees[i] = (CourseTee){ name, (char *)hw_tee_usual_colour (name), NAN, 0 };
    }
  return svg_course_set_tees (before, tees, names->len, error);
}

static void
on_make_cb (HwNewCourse *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) tees = read_tees (self);
  g_autofree char *name = typed (self->name), *folder = typed (self->folder);
  gtk_spin_button_update (self->holes); /* takes what is typed and not yet entered */
  int n = gtk_spin_button_get_value_as_int (self->holes);
  if (name[0] == '\0' || !g_path_is_absolute (folder))
    {
      show_reason (self, name[0] == '\0'
                             ? _ ("A course needs a name; type one.")
                             : _ ("The folder must begin with /, as in /home/me/Courses; type it so, or choose one."));
      gtk_widget_grab_focus (GTK_WIDGET (name[0] == '\0' ? self->name : self->folder));
      return;
    }
  Course *course = with_hole (self, NULL, 1, tees, &error);
  if (course != NULL)
    course = with_tees (course, tees, &error);
  for (int number = 2; number <= n && course != NULL; number++)
    course = with_hole (self, course, number, tees, &error);
  if (course == NULL)
    {
      show_reason (self, error->message);
      return;
    }
  g_signal_emit (self, made_signal, 0, course->folder);
  course_free (course);
  gtk_window_destroy (GTK_WINDOW (self));
}

/* ---- the dialog ---- */

static void
hw_new_course_finalize (GObject *object)
{
  g_free (HW_NEW_COURSE (object)->parent_folder);
  g_free (HW_NEW_COURSE (object)->offered_folder);
  G_OBJECT_CLASS (hw_new_course_parent_class)->finalize (object);
}

static void
hw_new_course_class_init (HwNewCourseClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = hw_new_course_finalize;
  made_signal
      = g_signal_new ("made", HW_TYPE_NEW_COURSE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/new-course.ui");
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, name);
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, folder);
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, tees);
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, holes);
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, reason);
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, choose_button);
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, make_button);
  gtk_widget_class_bind_template_child (widget_class, HwNewCourse, cancel_button);
}

static void
hw_new_course_init (HwNewCourse *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  const char *documents = g_get_user_special_dir (G_USER_DIRECTORY_DOCUMENTS);
  self->parent_folder = g_strdup (documents != NULL ? documents : g_get_home_dir ());
  self->offered_folder = g_strdup ("");
  offer_folder (self);
  g_signal_connect_swapped (self->name, "changed", G_CALLBACK (offer_folder), self);
  g_signal_connect_swapped (self->choose_button, "clicked", G_CALLBACK (on_choose_cb), self);
  g_signal_connect_swapped (self->make_button, "clicked", G_CALLBACK (on_make_cb), self);
  g_signal_connect_swapped (self->cancel_button, "clicked", G_CALLBACK (gtk_window_destroy), self);
}

GtkWindow *
hw_new_course_new (GtkWindow *parent)
{
  return g_object_new (HW_TYPE_NEW_COURSE, "transient-for", parent, NULL);
}
