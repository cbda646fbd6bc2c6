// SPDX-License-Identifier: GPL-3.0-or-later
/* document-course-undo - takes changes of the course back, each by the opposite change on disk; one that fails stays to be tried again. */
#include "document-private.h"

void
course_step_free (CourseStep *step)
{
  if (step == NULL)
    return;
  g_clear_pointer (&step->before, course_free);
  g_clear_pointer (&step->removed, course_removed_free);
  g_clear_pointer (&step->sheet, hw_sheet_free);
  g_clear_pointer (&step->hole_was, hole_unref);
  g_clear_pointer (&step->hole_is, hole_unref);
  g_clear_pointer (&step->changed, g_ptr_array_unref);
  g_clear_pointer (&step->changed_paths, g_ptr_array_unref);
  g_free (step->tee_was);
  g_free (step->tee_is);
  g_free (step->path);
  g_free (step);
}

bool
hw_document_take_course (HwDocument *self, Course *now)
{
  if (now == NULL)
    return false;
  g_clear_pointer (&self->course, course_free);
  self->course = now;
  return true;
}

/* ---- one function a kind of step ---- */

static bool
undo_name (HwDocument *self, CourseStep *step, GError **error)
{
  return hw_document_take_course (self, svg_course_set_name (self->course, step->before->name, error));
}

static bool
undo_move (HwDocument *self, CourseStep *step, GError **error)
{
  if (!hw_document_take_course (self, svg_course_move_hole (self->course, step->to, step->from, error)))
    return false;
  hw_document_move_place (self, step->to, step->from);
  return true;
}

static bool
undo_rename (HwDocument *self, CourseStep *step, GError **error)
{
  g_autofree char *name = g_path_get_basename (step->before->hole_files[step->from]);
  Course *now = svg_course_rename_hole (self->course, step->from, name, error);
  if (now == NULL)
    return false;
  g_autoptr (Course) renamed = self->course;
  self->course = now;
  hw_document_follow_files (self, renamed);
  return true;
}

/* The file of the added hole goes to the trash; what was drawn in it and not saved is saved before. */
static bool
undo_add (HwDocument *self, CourseStep *step, GError **error)
{
  size_t i = step->from;
  HwSheet *sheet = g_ptr_array_index (self->sheets, i);
  if (sheet != NULL && hw_sheet_is_modified (sheet) && !hw_sheet_changed_on_disk (sheet)
      && !hw_sheet_save (sheet, sheet->path, error))
    return false;
  if (!hw_document_leave (self, i, error)
      || !hw_document_take_course (self, svg_course_delete_hole (self->course, i, NULL, error)))
    return false;
  hw_sheet_free (hw_document_remove_place (self, i));
  return true;
}

static bool
undo_delete (HwDocument *self, CourseStep *step, GError **error)
{
  if (!hw_document_take_course (self, svg_course_restore_hole (self->course, step->removed, error)))
    return false;
  size_t i = MIN (step->from, self->sheets->len);
  HwSheet *sheet = g_steal_pointer (&step->sheet);
  if (sheet != NULL)
    {
      g_free (sheet->path);
      sheet->path = g_strdup (self->course->hole_files[i]);
    }
  hw_document_insert_place (self, i, sheet);
  return true;
}

/* Index of the open hole or the file that the step changed, the course's order as it is now; -1 if it is gone. */
static int
find_changed (HwDocument *self, const CourseStep *step)
{
  if (self->course == NULL)
    return 0;
  for (size_t i = 0; i < self->course->n_holes; i++)
    if (g_strcmp0 (self->course->hole_files[i], step->path) == 0)
      return (int)i;
  return -1;
}

static bool
undo_facts (HwDocument *self, CourseStep *step, GError **error)
{
  int i = find_changed (self, step);
  if (i < 0)
    return true;
  HwSheet *sheet = g_ptr_array_index (self->sheets, (guint)i);
  if (sheet == NULL)
    {
      bool saved = hw_document_change_file (step->path, step->hole_is, step->hole_was, error);
      hw_document_forget_peek (self, (size_t)i);
      return saved;
    }
  if (history_current (sheet->history) == step->hole_is && history_undo (sheet->history))
    {
      if ((size_t)i == self->current)
        hw_document_refresh (self);
      return true;
    }
  g_autoptr (Hole) hole = hole_with_info (history_current (sheet->history), hole_info (step->hole_was));
  hw_document_push_at (self, (size_t)i, hole, step->label);
  return true;
}

/* ---- the newest step ---- */

const char *
hw_document_course_undo_label (HwDocument *self)
{
  guint n = self->course_steps->len;
  return n > 0 ? ((CourseStep *)g_ptr_array_index (self->course_steps, n - 1))->label : NULL;
}

bool
hw_document_undo_course (HwDocument *self, GError **error)
{
  static bool (*const undo[]) (HwDocument *, CourseStep *, GError **) = {
    [COURSE_STEP_NAME] = undo_name,   [COURSE_STEP_TEES] = hw_document_undo_tees,
    [COURSE_STEP_MOVE] = undo_move,   [COURSE_STEP_RENAME] = undo_rename,
    [COURSE_STEP_ADD] = undo_add,     [COURSE_STEP_DELETE] = undo_delete,
    [COURSE_STEP_FACTS] = undo_facts,
  };
  hw_document_drag_cancel (self);
  if (self->course_steps->len == 0)
    return false;
  CourseStep *step = g_ptr_array_index (self->course_steps, self->course_steps->len - 1);
  if (!undo[step->kind](self, step, error))
    return false;
  g_ptr_array_remove_index (self->course_steps, self->course_steps->len - 1);
  hw_document_course_changed (self);
  return true;
}
