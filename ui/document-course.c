// SPDX-License-Identifier: GPL-3.0-or-later
/* document-course - changes of the course that is open: on disk first, and only then of what is shown, so that a failure leaves all as it was. */
#include "document-private.h"

#include <glib/gi18n.h>

/* ---- holes in their places ---- */

Hole *
hw_document_peek_hole (HwDocument *self, size_t i, GError **error)
{
  HwSheet *sheet = g_ptr_array_index (self->sheets, i);
  if (sheet != NULL)
    return history_current (sheet->history);
  if (g_ptr_array_index (self->peeks, i) == NULL)
    self->peeks->pdata[i] = svg_read_file (self->course->hole_files[i], NULL, error);
  return g_ptr_array_index (self->peeks, i);
}

void
hw_document_forget_peek (HwDocument *self, size_t i)
{
  Hole *peek = g_ptr_array_index (self->peeks, i);
  self->peeks->pdata[i] = NULL;
  g_clear_pointer (&peek, hole_unref);
}

bool
hw_document_is_hole_modified (HwDocument *self, size_t i)
{
  HwSheet *sheet = g_ptr_array_index (self->sheets, i);
  return sheet != NULL && hw_sheet_is_modified (sheet);
}

void
hw_document_insert_place (HwDocument *self, size_t i, HwSheet *sheet)
{
  g_ptr_array_insert (self->sheets, (int)i, sheet);
  g_ptr_array_insert (self->peeks, (int)i, NULL);
  if (i <= self->current)
    self->current++;
}

HwSheet *
hw_document_remove_place (HwDocument *self, size_t i)
{
  hw_document_forget_peek (self, i);
  g_ptr_array_remove_index (self->peeks, (guint)i);
  if (i < self->current)
    self->current--;
  return g_ptr_array_steal_index (self->sheets, (guint)i);
}

void
hw_document_move_place (HwDocument *self, size_t from, size_t to)
{
  g_ptr_array_insert (self->sheets, (int)to, g_ptr_array_steal_index (self->sheets, (guint)from));
  g_ptr_array_insert (self->peeks, (int)to, g_ptr_array_steal_index (self->peeks, (guint)from));
  if (self->current == from)
    self->current = to;
  else if (from < self->current && to >= self->current)
    self->current--;
  else if (from > self->current && to <= self->current)
    self->current++;
}

bool
hw_document_leave (HwDocument *self, size_t i, GError **error)
{
  size_t n = self->sheets->len;
  if (i != self->current || n < 2)
    return true;
  /* The next one, else one before it; any that can be opened. */
  for (size_t step = 1; step < n; step++)
    {
      size_t to = i + step < n ? i + step : n - 1 - step;
      if (hw_document_open_hole (self, to, step + 1 < n ? NULL : error))
        return true;
    }
  return false;
}

/* ---- before and after every change ---- */

bool
hw_document_can_change_course (HwDocument *self)
{
  return self->course != NULL && !hw_document_is_example (self);
}

bool
hw_document_may_change_course (HwDocument *self, GError **error)
{
  hw_document_drag_cancel (self);
  if (hw_document_can_change_course (self))
    return true;
  g_set_error (error, SVG_ERROR, SVG_ERROR_WRITE, "%s",
               self->course == NULL ? _ ("No course is open; open one or make a new one.")
                                    : _ ("The example course stays as it is; make a course of your own with New Course."));
  return false;
}

void
hw_document_course_changed (HwDocument *self)
{
  hw_document_emit (self, HW_DOCUMENT_COURSE_CHANGED);
  hw_document_emit (self, HW_DOCUMENT_RESULTS_CHANGED);
}

CourseStep *
course_step_new (CourseStepKind kind, const char *label, size_t from, size_t to)
{
  CourseStep *step = g_new0 (CourseStep, 1);
  *step = (CourseStep){ .kind = kind, .label = label, .from = from, .to = to };
  return step;
}

void
hw_document_keep_step (HwDocument *self, CourseStep *step, Course *now)
{
  step->before = self->course;
  self->course = now;
  g_ptr_array_add (self->course_steps, step);
}

/* Keeps the step when `now` is a course, else does nothing. */
static bool
document_done (HwDocument *self, Course *now, CourseStepKind kind, const char *label, size_t from, size_t to)
{
  if (now == NULL)
    return false;
  hw_document_keep_step (self, course_step_new (kind, label, from, to), now);
  return true;
}

/* ---- name ---- */

bool
hw_document_name_course (HwDocument *self, const char *name, GError **error)
{
  if (self->course != NULL && g_strcmp0 (name, self->course->name) == 0)
    return true;
  if (!hw_document_may_change_course (self, error)
      || !document_done (self, svg_course_set_name (self->course, name, error), COURSE_STEP_NAME, _ ("rename course"), 0, 0))
    return false;
  hw_document_course_changed (self);
  return true;
}

/* ---- holes ---- */

bool
hw_document_add_hole (HwDocument *self, size_t at, Hole *hole, GError **error)
{
  if (!hw_document_may_change_course (self, error)
      || !document_done (self, svg_course_add_hole (self->course, at, hole, error), COURSE_STEP_ADD, _ ("add hole"), at, at))
    return false;
  hw_document_insert_place (self, at, NULL);
  bool shown = hw_document_open_hole (self, at, error);
  hw_document_course_changed (self);
  return shown;
}

bool
hw_document_duplicate_hole (HwDocument *self, size_t i, GError **error)
{
  if (!hw_document_may_change_course (self, error))
    return false;
  Course *now = hw_document_is_hole_modified (self, i)
                    ? svg_course_add_hole (self->course, i + 1, hw_document_peek_hole (self, i, NULL), error)
                    : svg_course_duplicate_hole (self->course, i, error);
  if (!document_done (self, now, COURSE_STEP_ADD, _ ("duplicate hole"), i + 1, i + 1))
    return false;
  hw_document_insert_place (self, i + 1, NULL);
  hw_document_course_changed (self);
  return true;
}

bool
hw_document_move_hole (HwDocument *self, size_t from, size_t to, GError **error)
{
  if (from == to)
    return true;
  if (!hw_document_may_change_course (self, error)
      || !document_done (self, svg_course_move_hole (self->course, from, to, error), COURSE_STEP_MOVE, _ ("move hole"), from,
                         to))
    return false;
  hw_document_move_place (self, from, to);
  hw_document_course_changed (self);
  return true;
}

/* What is open of hole `i` belongs to the file that the course names now, if it did so before. */
static void
document_follow_file (HwDocument *self, size_t i, const char *before)
{
  HwSheet *sheet = g_ptr_array_index (self->sheets, i);
  if (sheet == NULL || g_strcmp0 (sheet->path, before) != 0 || g_strcmp0 (before, self->course->hole_files[i]) == 0)
    return;
  g_free (sheet->path);
  sheet->path = g_strdup (self->course->hole_files[i]);
  if (i == self->current)
    hw_document_emit (self, HW_DOCUMENT_OPENED);
}

void
hw_document_follow_files (HwDocument *self, const Course *before)
{
  for (size_t i = 0; i < self->course->n_holes && i < before->n_holes; i++)
    document_follow_file (self, i, before->hole_files[i]);
}

bool
hw_document_rename_hole (HwDocument *self, size_t i, const char *name, GError **error)
{
  if (!hw_document_may_change_course (self, error)
      || !document_done (self, svg_course_rename_hole (self->course, i, name, error), COURSE_STEP_RENAME, _ ("rename file"), i,
                         i))
    return false;
  hw_document_follow_files (self, ((CourseStep *)g_ptr_array_index (self->course_steps, self->course_steps->len - 1))->before);
  hw_document_course_changed (self);
  return true;
}

/* Nothing of a hole that is to be deleted stays unsaved. */
static bool
document_save_before_deleting (HwDocument *self, size_t i, GError **error)
{
  HwSheet *sheet = g_ptr_array_index (self->sheets, i);
  if (sheet == NULL || !hw_sheet_is_modified (sheet))
    return true;
  if (!hw_sheet_changed_on_disk (sheet))
    return hw_sheet_save (sheet, sheet->path, error);
  g_set_error (error, SVG_ERROR, SVG_ERROR_WRITE,
               _ ("%s changed on disk since it was opened, and has unsaved changes here; save that hole by itself first."),
               self->course->hole_files[i]);
  return false;
}

bool
hw_document_delete_hole (HwDocument *self, size_t i, char **kept, GError **error)
{
  CourseRemoved *removed = NULL;
  *kept = NULL;
  if (!hw_document_may_change_course (self, error) || !document_save_before_deleting (self, i, error)
      || !hw_document_leave (self, i, error))
    return false;
  if (!document_done (self, svg_course_delete_hole (self->course, i, &removed, error), COURSE_STEP_DELETE, _ ("delete hole"), i,
                      i))
    return false;
  CourseStep *step = g_ptr_array_index (self->course_steps, self->course_steps->len - 1);
  step->removed = removed;
  step->sheet = hw_document_remove_place (self, i);
  *kept = g_strdup (removed->kept);
  hw_document_course_changed (self);
  return true;
}

/* ---- facts ---- */

bool
hw_document_change_file (const char *path, Hole *expected, Hole *hole, GError **error)
{
  g_autoptr (Hole) now = svg_read_file (path, NULL, error);
  if (now == NULL)
    return false;
  if (hole_equal (now, expected))
    return svg_save_file (hole, path, NULL, error);
  g_set_error (error, SVG_ERROR, SVG_ERROR_WRITE,
               _ ("%s: not changed, because the file changed on disk meanwhile; try it again"), path);
  return false;
}

void
hw_document_push_at (HwDocument *self, size_t i, Hole *hole, const char *label)
{
  HwSheet *sheet = g_ptr_array_index (self->sheets, i);
  history_push (sheet->history, hole, label);
  if (i == self->current)
    hw_document_refresh (self);
}

/* The example's holes are never saved over: they are opened, and what changes waits to be saved elsewhere. */
static bool
document_open_for_facts (HwDocument *self, size_t i, GError **error)
{
  if (g_ptr_array_index (self->sheets, i) != NULL || !hw_document_is_example (self))
    return true;
  self->sheets->pdata[i] = hw_sheet_open (self->course->hole_files[i], NULL, error);
  return self->sheets->pdata[i] != NULL;
}

bool
hw_document_set_facts (HwDocument *self, size_t i, const HoleInfo *info, GError **error)
{
  const char *label = _ ("change the hole’s facts");
  hw_document_drag_cancel (self);
  Hole *hole = document_open_for_facts (self, i, error) ? hw_document_peek_hole (self, i, error) : NULL;
  if (hole == NULL)
    return false;
  if (hole_info_equal (info, hole_info (hole)))
    return true;
  HwSheet *sheet = g_ptr_array_index (self->sheets, i);
  const char *path = sheet != NULL ? sheet->path : self->course->hole_files[i];
  CourseStep *step = course_step_new (COURSE_STEP_FACTS, label, i, i);
  step->path = g_strdup (path);
  step->hole_was = hole_ref (hole);
  step->hole_is = hole_with_info (hole, info);
  if (sheet != NULL)
    hw_document_push_at (self, i, step->hole_is, label);
  else
    {
      bool saved = hw_document_change_file (path, step->hole_was, step->hole_is, error);
      hw_document_forget_peek (self, i);
      if (!saved)
        {
          course_step_free (step);
          return false;
        }
    }
  g_ptr_array_add (self->course_steps, step);
  hw_document_course_changed (self);
  return true;
}
