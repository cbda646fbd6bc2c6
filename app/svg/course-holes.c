// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The holes of a course on disk. Files are made before course.xml names them and put away after it names them no more, so that at any moment every
 * hole it names is there.
 */
#include "course-private.h"
#include "write-private.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

/* A new course, before its name and its hole are set. */
#define NEW_COURSE "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<course xmlns=\"" SVG_COURSE_NAMESPACE "\">\n</course>\n"

/* ---- naming and unnaming files ---- */

/* The file as course.xml names it. */
static const char *
name_in_course (const CourseEdit *edit, const char *path)
{
  size_t length = strlen (edit->file) - strlen (COURSE_FILE);
  return path + length;
}

/* Names a file as hole `at`. */
static Course *
name_file (CourseEdit *edit, size_t at, const char *path)
{
  xmlNode *element = course_edit_new (edit, "hole");
  xml_set (element, "file", name_in_course (edit, path));
  course_edit_insert (edit, edit->holes, at, element, NULL);
  return course_edit_end (edit);
}

/* Names a new file; if that fails the file goes again. Takes the path. */
static Course *
add_file (CourseEdit *edit, size_t at, char *path)
{
  Course *course = name_file (edit, at, path);
  if (!course && course_edit_may_undo (edit))
    g_unlink (path);
  g_free (path);
  return course;
}

/* Name of the file without its ending. */
static char *
stem_of (const char *path)
{
  char *stem = g_path_get_basename (path);
  if (g_str_has_suffix (stem, ".svg"))
    stem[strlen (stem) - strlen (".svg")] = '\0';
  return stem;
}

/* ---- holes ---- */

Course *
svg_course_add_hole (const Course *course, size_t at, const Hole *hole, GError **error)
{
  g_return_val_if_fail (at <= course->n_holes, NULL);
  g_auto (CourseEdit) edit = { 0 };
  if (!course_edit_begin (&edit, course, error))
    return NULL;
  g_autoptr (GBytes) bytes = svg_write_bytes (hole, error);
  g_autofree char *stem = course_hole_stem (hole_info (hole), at);
  char *path = bytes ? course_make_file (course->folder, stem, bytes, error) : NULL;
  return path ? add_file (&edit, at, path) : NULL;
}

Course *
svg_course_duplicate_hole (const Course *course, size_t i, GError **error)
{
  g_return_val_if_fail (i < course->n_holes, NULL);
  g_auto (CourseEdit) edit = { 0 };
  if (!course_edit_begin (&edit, course, error))
    return NULL;
  g_autoptr (GBytes) bytes = svg_read_contents (course->hole_files[i], error);
  if (!bytes)
    return NULL;
  g_autofree char *folder = g_path_get_dirname (course->hole_files[i]), *stem = stem_of (course->hole_files[i]);
  char *path = course_make_file (folder, stem, bytes, error);
  return path ? add_file (&edit, i + 1, path) : NULL;
}

Course *
svg_course_move_hole (const Course *course, size_t from, size_t to, GError **error)
{
  g_return_val_if_fail (from < course->n_holes && to < course->n_holes, NULL);
  g_auto (CourseEdit) edit = { 0 };
  if (!course_edit_begin (&edit, course, error))
    return NULL;
  if (from == to)
    return course_read_document (edit.document, error);
  xmlNode *element = g_ptr_array_steal_index (edit.holes, (guint)from);
  xml_take_out (element);
  course_edit_insert (&edit, edit.holes, to, element, NULL);
  return course_edit_end (&edit);
}

/* Names `path` in course.xml wherever it names `old`. */
static void
rename_in_course (CourseEdit *edit, const Course *course, const char *old, const char *path)
{
  for (guint i = 0; i < edit->holes->len; i++)
    if (strcmp (course->hole_files[i], old) == 0)
      xml_set (edit->holes->pdata[i], "file", name_in_course (edit, path));
}

Course *
svg_course_rename_hole (const Course *course, size_t i, const char *name, GError **error)
{
  g_return_val_if_fail (i < course->n_holes, NULL);
  g_auto (CourseEdit) edit = { 0 };
  g_autofree char *base = course_check_name (name, error);
  if (!base || !course_edit_begin (&edit, course, error))
    return NULL;
  const char *old = course->hole_files[i];
  g_autofree char *folder = g_path_get_dirname (old), *path = g_build_filename (folder, base, NULL);
  if (strcmp (old, path) == 0)
    return course_read_document (edit.document, error);
  if (!course_add_name (old, path, error))
    return NULL;
  rename_in_course (&edit, course, old, path);
  Course *now = course_edit_end (&edit);
  if (now)
    g_unlink (old); /* if that fails the file keeps both names */
  else if (course_edit_may_undo (&edit))
    g_unlink (path);
  return now;
}

static bool
is_named_elsewhere (const Course *course, size_t i)
{
  for (size_t k = 0; k < course->n_holes; k++)
    if (k != i && strcmp (course->hole_files[k], course->hole_files[i]) == 0)
      return true;
  return false;
}

Course *
svg_course_delete_hole (const Course *course, size_t i, CourseRemoved **removed, GError **error)
{
  g_return_val_if_fail (i < course->n_holes, NULL);
  g_auto (CourseEdit) edit = { 0 };
  if (!course_edit_begin (&edit, course, error))
    return NULL;
  if (course->n_holes == 1)
    {
      document_fault (edit.file, 0, SVG_ERROR_WRITE, error, "a course needs a hole, and this is its last; add another first");
      return NULL;
    }
  const char *path = course->hole_files[i];
  bool is_there = g_file_test (path, G_FILE_TEST_EXISTS);
  g_autoptr (GBytes) bytes = is_there ? svg_read_contents (path, error) : NULL;
  if (is_there && !bytes)
    return NULL;
  course_edit_remove (edit.holes, i);
  Course *now = course_edit_end (&edit);
  if (!now)
    return NULL;
  g_autofree char *kept = is_named_elsewhere (course, i) ? g_strdup (path) : course_put_away (path);
  if (removed)
    {
      *removed = g_new (CourseRemoved, 1);
      **removed = (CourseRemoved){ i,
                                   g_strdup (path),
                                   g_steal_pointer (&bytes),
                                   g_steal_pointer (&kept),
                                   g_bytes_ref (edit.source),
                                   g_bytes_ref (edit.written) };
    }
  return now;
}

/* ---- putting back ---- */

void
course_removed_free (CourseRemoved *removed)
{
  if (!removed)
    return;
  g_free (removed->path);
  g_free (removed->kept);
  g_clear_pointer (&removed->bytes, g_bytes_unref);
  g_bytes_unref (removed->before);
  g_bytes_unref (removed->after);
  g_free (removed);
}

static bool
file_holds (const char *path, GBytes *bytes)
{
  g_autoptr (GBytes) now = svg_read_contents (path, NULL);
  return now && g_bytes_equal (now, bytes);
}

/* The file with its bytes, under its own name unless that is taken by now; `*is_new` if it had to be made. */
static char *
restore_file (const CourseRemoved *removed, bool *is_new, GError **error)
{
  *is_new = removed->bytes && !file_holds (removed->path, removed->bytes);
  if (!*is_new)
    return g_strdup (removed->path);
  g_autofree char *folder = g_path_get_dirname (removed->path), *stem = stem_of (removed->path);
  return course_make_file (folder, stem, removed->bytes, error);
}

Course *
svg_course_restore_hole (const Course *course, const CourseRemoved *removed, GError **error)
{
  g_auto (CourseEdit) edit = { 0 };
  if (!course_edit_begin (&edit, course, error))
    return NULL;
  bool is_new;
  g_autofree char *path = restore_file (removed, &is_new, error);
  if (!path)
    return NULL;
  Course *now;
  if (strcmp (path, removed->path) == 0 && g_bytes_equal (edit.source, removed->after))
    now = course_edit_replace (&edit, removed->before);
  else
    now = name_file (&edit, MIN (removed->at, course->n_holes), path);
  if (!now && is_new && course_edit_may_undo (&edit))
    g_unlink (path);
  if (now && removed->kept && strcmp (removed->kept, path) != 0 && file_holds (removed->kept, removed->bytes))
    g_unlink (removed->kept); /* if that fails the same content is there twice */
  return now;
}

/* ---- a new course ---- */

/* Makes the folder unless it is there; `*is_new` says which. */
static bool
make_folder (const char *folder, bool *is_new, GError **error)
{
  *is_new = !g_file_test (folder, G_FILE_TEST_EXISTS);
  if (g_mkdir_with_parents (folder, 0777) == 0)
    return true;
  document_fault (folder, 0, SVG_ERROR_WRITE, error, "the folder cannot be made (%s); choose another place",
                  g_strerror (errno));
  return false;
}

static Course *
create_in (const char *folder, const char *name, const Hole *first, CourseEdit *edit)
{
  g_autoptr (GBytes) bytes = svg_write_bytes (first, edit->error);
  g_autofree char *stem = course_hole_stem (hole_info (first), 0);
  char *path = bytes ? course_make_file (folder, stem, bytes, edit->error) : NULL;
  if (!path)
    return NULL;
  if (!course_edit_take (edit, g_bytes_new_static (NEW_COURSE, strlen (NEW_COURSE))))
    {
      g_unlink (path);
      g_free (path);
      return NULL;
    }
  xml_set (edit->root, "name", *name ? name : NULL);
  return add_file (edit, 0, path);
}

Course *
svg_course_create (const char *folder, const char *name, const Hole *first, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (folder, NULL);
  g_auto (CourseEdit) edit = { .file = g_build_filename (absolute, COURSE_FILE, NULL), .error = error };
  bool is_new;
  if (!make_folder (absolute, &is_new, error))
    return NULL;
  if (g_file_test (edit.file, G_FILE_TEST_EXISTS))
    {
      document_fault (edit.file, 0, SVG_ERROR_WRITE, error,
                      "there is a course in this folder already; open it or choose another");
      return NULL;
    }
  Course *course = NULL;
  if (course_reserve_file (edit.file, error))
    {
      course = create_in (absolute, name, first, &edit);
      if (!course && course_edit_may_undo (&edit))
        g_unlink (edit.file);
    }
  if (!course && is_new)
    g_rmdir (absolute);
  return course;
}
