// SPDX-License-Identifier: GPL-3.0-or-later
/* document-course-tees - the tees of the course; one that is renamed takes the tee markers of its name on the holes along, in the same step. */
#include "document-private.h"

#include "edit.h"

#include <glib/gi18n.h>

/* The hole with its tee marker `from` called `to`; NULL if it has none, or another of that name already. */
static Hole *
rename_marker (const Hole *hole, const char *from, const char *to)
{
  int marker = hole_tee (hole, from), other = hole_tee (hole, to);
  return marker < 0 || (other >= 0 && other != marker) ? NULL : edit_rename (hole, (size_t)marker, to, NULL);
}

/* Renames the marker of hole `i`, which is open or in its file. The hole as it is then in `*changed`, NULL if nothing had to be done. */
static bool
change_hole (HwDocument *self, size_t i, const char *from, const char *to, Hole **changed, GError **error)
{
  bool is_open = g_ptr_array_index (self->sheets, i) != NULL;
  if (!is_open)
    hw_document_forget_peek (self, i); /* what is in the file now counts */
  Hole *hole = hw_document_peek_hole (self, i, NULL);
  *changed = hole != NULL ? rename_marker (hole, from, to) : NULL;
  if (*changed == NULL)
    return true;
  if (is_open)
    {
      hw_document_push_at (self, i, *changed, _ ("rename tee"));
      return true;
    }
  bool is_saved = hw_document_change_file (self->course->hole_files[i], hole, *changed, error);
  hw_document_forget_peek (self, i);
  if (!is_saved)
    g_clear_pointer (changed, hole_unref);
  return is_saved;
}

/* Which tee has another name now; -1 unless it is one alone. */
static int
find_renamed (const Course *course, const CourseTee *tees, size_t n_tees)
{
  int found = -1;
  if (n_tees != course->n_tees)
    return -1;
  for (size_t i = 0; i < n_tees; i++)
    if (g_strcmp0 (course->tees[i].name, tees[i].name) != 0)
      {
        if (found >= 0)
          return -1;
        found = (int)i;
      }
  return found;
}

/* The markers follow the tee that the step renamed. What cannot be done to all is done to none. */
static bool
rename_markers (HwDocument *self, CourseStep *step, GError **error)
{
  step->changed = g_ptr_array_new_with_free_func ((GDestroyNotify)hole_unref);
  step->changed_paths = g_ptr_array_new_with_free_func (g_free);
  for (size_t i = 0; i < self->course->n_holes; i++)
    {
      Hole *changed;
      if (!change_hole (self, i, step->tee_was, step->tee_is, &changed, error))
        {
          hw_document_undo_course (self, NULL);
          return false;
        }
      if (changed == NULL)
        continue;
      g_ptr_array_add (step->changed, changed);
      g_ptr_array_add (step->changed_paths, g_strdup (self->course->hole_files[i]));
    }
  return true;
}

bool
hw_document_set_tees (HwDocument *self, const CourseTee *tees, size_t n_tees, GError **error)
{
  if (!hw_document_may_change_course (self, error))
    return false;
  Course *now = svg_course_set_tees (self->course, tees, n_tees, error);
  if (now == NULL)
    return false;
  int renamed = find_renamed (self->course, tees, n_tees);
  CourseStep *step = course_step_new (COURSE_STEP_TEES, renamed >= 0 ? _ ("rename tee") : _ ("change tees"), 0, 0);
  step->tee_was = renamed >= 0 ? g_strdup (self->course->tees[renamed].name) : NULL;
  step->tee_is = renamed >= 0 ? g_strdup (tees[renamed].name) : NULL;
  hw_document_keep_step (self, step, now);
  if (renamed >= 0 && !rename_markers (self, step, error))
    return false;
  hw_document_course_changed (self);
  return true;
}

/* ---- taking it back ---- */

static bool
change_hole_back (HwDocument *self, const CourseStep *step, guint k, GError **error)
{
  int i = hw_course_find (self->course, step->changed_paths->pdata[k]);
  if (i < 0)
    return true;
  HwSheet *sheet = g_ptr_array_index (self->sheets, (guint)i);
  if (sheet != NULL && history_current (sheet->history) == step->changed->pdata[k] && history_undo (sheet->history))
    {
      if ((size_t)i == self->current)
        hw_document_refresh (self);
      return true;
    }
  Hole *changed;
  bool is_done = change_hole (self, (size_t)i, step->tee_is, step->tee_was, &changed, error);
  g_clear_pointer (&changed, hole_unref);
  return is_done;
}

bool
hw_document_undo_tees (HwDocument *self, CourseStep *step, GError **error)
{
  for (guint k = step->changed != NULL ? step->changed->len : 0; k > 0; k--)
    if (!change_hole_back (self, step, k - 1, error))
      return false;
  return hw_document_take_course (self, svg_course_set_tees (self->course, step->before->tees, step->before->n_tees, error));
}
