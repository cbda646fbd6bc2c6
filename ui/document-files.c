// SPDX-License-Identifier: GPL-3.0-or-later
/* document-files - opening and saving: everything new is read first and only then put in the place of what was open. */
#include "document-private.h"

#include "svg.h"

#include <glib/gi18n.h>

/* The name that makes a folder a course. */
#define COURSE_FILE "course.xml"

/* ---- opening ---- */

static void
hole_unref_or_null (gpointer hole)
{
  if (hole != NULL)
    hole_unref (hole);
}

int
hw_course_find (const Course *course, const char *path)
{
  for (size_t i = 0; i < course->n_holes; i++)
    if (g_strcmp0 (course->hole_files[i], path) == 0)
      return (int)i;
  return -1;
}

/* The course whose folder holds this hole file and which lists it; NULL if there is none, `error` set if it is there and cannot be read. */
static Course *
course_around (const char *path, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *file = g_build_filename (folder, COURSE_FILE, NULL);
  if (!g_file_test (file, G_FILE_TEST_EXISTS))
    return NULL;
  g_autoptr (Course) course = svg_read_course (folder, error);
  if (course == NULL || hw_course_find (course, path) < 0)
    return NULL;
  return g_steal_pointer (&course);
}

static bool
is_course (const char *path)
{
  g_autofree char *name = g_path_get_basename (path);
  return g_file_test (path, G_FILE_TEST_IS_DIR) || g_strcmp0 (name, COURSE_FILE) == 0;
}

static void
document_say_findings (HwDocument *self, const char *path, GPtrArray *findings)
{
  if (findings == NULL || findings->len == 0)
    return;
  const Finding *first = g_ptr_array_index (findings, 0);
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *text = findings->len == 1
                              ? g_strdup_printf (_ ("%s, line %u: %s; %s."), name, first->line, first->what, first->mend)
                              : g_strdup_printf (g_dngettext (NULL, "%s, line %u: %s; %s. And %u more like it.",
                                                              "%s, line %u: %s; %s. And %u more like it.", findings->len - 1),
                                                 name, first->line, first->what, first->mend, findings->len - 1);
  hw_document_say (self, text);
}

void
hw_document_opened (HwDocument *self)
{
  g_clear_pointer (&self->bag_failed, g_free);
  hw_document_load_bag (self);
  hw_document_emit (self, HW_DOCUMENT_OPENED);
  hw_document_refresh (self);
}

void
hw_document_take (HwDocument *self, Course *course, size_t i, HwSheet *sheet)
{
  g_clear_pointer (&self->dragged, hole_unref);
  g_clear_pointer (&self->begun, hole_unref);
  g_clear_pointer (&self->course, course_free);
  g_ptr_array_unref (self->sheets);
  g_ptr_array_unref (self->peeks);
  g_ptr_array_set_size (self->course_steps, 0);
  self->course = course;
  self->current = i;
  self->sheets = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_sheet_free);
  self->peeks = g_ptr_array_new_with_free_func (hole_unref_or_null);
  self->is_drawing = false;
  g_ptr_array_set_size (self->sheets, course != NULL ? (int)course->n_holes : 1);
  g_ptr_array_set_size (self->peeks, (int)self->sheets->len);
  self->sheets->pdata[i] = sheet;
}

/* Says which files of the course are missing. */
static void
document_say_missing (HwDocument *self)
{
  const char *first = NULL;
  unsigned n = 0;
  for (size_t i = 0; self->course != NULL && i < self->course->n_holes; i++)
    if (!g_file_test (self->course->hole_files[i], G_FILE_TEST_EXISTS))
      {
        first = first != NULL ? first : self->course->hole_files[i];
        n++;
      }
  if (n == 0)
    return;
  g_autofree char *name = g_path_get_basename (first);
  g_autofree char *text
      = n == 1
            ? g_strdup_printf (_ ("%s is missing from the course’s folder; put it back, or take its row out with Course…"),
                               name)
            : g_strdup_printf (g_dngettext (NULL,
                                            "%s and %u more file are missing from the course’s folder; put them back, or take "
                                            "their rows out with Course…",
                                            "%s and %u more files are missing from the course’s folder; put them back, or take "
                                            "their rows out with Course…",
                                            n - 1),
                               name, n - 1);
  hw_document_say (self, text);
}

/* The first hole of the course that can be opened; `*why` says why not the very first, if not that. */
static HwSheet *
open_any_hole (const Course *course, GPtrArray **findings, GError **why)
{
  HwSheet *sheet = NULL;
  for (size_t i = 0; sheet == NULL && i < course->n_holes; i++)
    sheet = hw_sheet_open (course->hole_files[i], findings, i == 0 ? why : NULL);
  return sheet;
}

bool
hw_document_open (HwDocument *self, const char *path, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (GError) course_error = NULL;
  Course *course = NULL;
  HwSheet *sheet;
  if (is_course (absolute))
    {
      course = svg_read_course (absolute, error);
      if (course == NULL)
        return false;
      if (course->n_holes == 0)
        {
          g_set_error (error, SVG_ERROR, SVG_ERROR_FORMAT, _ ("%s: the course has no holes; list its hole files in %s"),
                       absolute, COURSE_FILE);
          course_free (course);
          return false;
        }
      sheet = open_any_hole (course, &findings, &course_error);
      if (sheet == NULL)
        g_propagate_error (error, g_steal_pointer (&course_error));
    }
  else
    sheet = hw_sheet_open (absolute, &findings, error);
  if (sheet == NULL)
    {
      g_clear_pointer (&course, course_free);
      return false;
    }
  if (course == NULL)
    course = course_around (sheet->path, &course_error);
  g_autofree char *file = g_strdup (sheet->path);
  int i = course != NULL ? hw_course_find (course, file) : 0;
  hw_document_take (self, course, (size_t)MAX (i, 0), sheet);
  hw_document_opened (self);
  document_say_findings (self, file, findings);
  if (course_error != NULL)
    hw_document_say (self, course_error->message);
  document_say_missing (self);
  if (!hw_document_is_example (self))
    hw_settings_add_recent (self->settings, absolute);
  return true;
}

bool
hw_document_open_hole (HwDocument *self, size_t i, GError **error)
{
  if (i >= self->sheets->len || i == self->current)
    return true;
  hw_document_drag_cancel (self);
  g_autoptr (GPtrArray) findings = NULL;
  if (g_ptr_array_index (self->sheets, i) == NULL)
    {
      HwSheet *sheet = hw_sheet_open (self->course->hole_files[i], &findings, error);
      if (sheet == NULL)
        return false;
      self->sheets->pdata[i] = sheet;
    }
  g_clear_pointer (&self->begun, hole_unref);
  self->current = i;
  hw_document_opened (self);
  document_say_findings (self, hw_document_sheet (self)->path, findings);
  return true;
}

bool
hw_document_has_hole (HwDocument *self)
{
  return hw_document_sheet (self) != NULL;
}

const Course *
hw_document_get_course (HwDocument *self)
{
  return self->course;
}

size_t
hw_document_get_n_holes (HwDocument *self)
{
  return self->sheets->len;
}

size_t
hw_document_get_hole_index (HwDocument *self)
{
  return self->current;
}

/* Name of the tee that the hole in hand is played from, so that every hole is measured from the same; NULL if it has none. */
static const char *
document_tee (HwDocument *self)
{
  int tee = self->shown != NULL ? hole_tee (self->shown, NULL) : -1;
  return tee >= 0 ? hole_part (self->shown, (size_t)tee)->name : NULL;
}

const HoleInfo *
hw_document_peek_info (HwDocument *self, size_t i, double *length_m)
{
  const Hole *hole = hw_document_peek_hole (self, i, NULL);
  if (hole == NULL)
    return NULL;
  if (!hole_measured_length (hole, document_tee (self), length_m) && !hole_measured_length (hole, NULL, length_m))
    *length_m = NAN;
  return hole_info (hole);
}

const char *
hw_document_get_path (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL ? sheet->path : NULL;
}

bool
hw_document_is_example (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  if (sheet == NULL || sheet->path == NULL || self->example == NULL)
    return false;
  g_autofree char *folder = g_path_get_dirname (sheet->path);
  return g_strcmp0 (folder, self->example) == 0;
}

/* ---- saving ---- */

bool
hw_document_is_modified (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL && hw_sheet_is_modified (sheet);
}

bool
hw_document_is_any_modified (HwDocument *self)
{
  for (guint i = 0; i < self->sheets->len; i++)
    {
      HwSheet *sheet = g_ptr_array_index (self->sheets, i);
      if (sheet != NULL && hw_sheet_is_modified (sheet))
        return true;
    }
  return false;
}

bool
hw_document_changed_on_disk (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL && hw_sheet_changed_on_disk (sheet);
}

bool
hw_document_save (HwDocument *self, const char *path, GError **error)
{
  HwSheet *sheet = hw_document_sheet (self);
  hw_document_drag_cancel (self);
  g_autofree char *absolute = path != NULL ? g_canonicalize_filename (path, NULL) : g_strdup (sheet->path);
  if (!hw_sheet_save (sheet, absolute, error))
    return false;
  if (path != NULL)
    hw_settings_add_recent (self->settings, absolute);
  hw_document_emit (self, HW_DOCUMENT_OPENED);
  hw_document_emit (self, HW_DOCUMENT_HOLE_CHANGED);
  return true;
}

bool
hw_document_save_all (HwDocument *self, GError **error)
{
  hw_document_drag_cancel (self);
  for (guint i = 0; i < self->sheets->len; i++)
    {
      HwSheet *sheet = g_ptr_array_index (self->sheets, i);
      if (sheet == NULL || !hw_sheet_is_modified (sheet))
        continue;
      bool is_changed = hw_sheet_changed_on_disk (sheet);
      if (is_changed)
        g_set_error (error, SVG_ERROR, SVG_ERROR_WRITE,
                     _ ("%s: not saved, the file changed on disk since it was opened; save this hole by itself"), sheet->path);
      if (is_changed || !hw_sheet_save (sheet, sheet->path, error))
        {
          hw_document_open_hole (self, i, NULL); /* it is open already: another place for it concerns this hole */
          return false;
        }
      hw_document_emit (self, HW_DOCUMENT_HOLE_CHANGED);
    }
  return true;
}
