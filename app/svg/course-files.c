// SPDX-License-Identifier: GPL-3.0-or-later
/* The files of a course's holes: made, copied, renamed and put away without ever taking the place of another file. */
#define _XOPEN_SOURCE 700
#include "course-private.h"

#include <errno.h>
#include <fcntl.h>
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#define HOLE_ENDING ".svg"
/* Letters of a title that go into a file name, and tries for a name nobody has. */
#define MOST_LETTERS 40
#define MOST_NAMES 1000
/* Ending of a file that was taken out of its course and could not go to the trash. */
#define PUT_AWAY "%s.deleted"
#define PUT_AWAY_MORE "%s.deleted-%d"

/* ---- names ---- */

/* Lower-case letters and digits, everything else as single hyphens; whatever the locale. */
static char *
slug_of (const char *title)
{
  g_autofree char *ascii = g_str_to_ascii (title, "C");
  GString *slug = g_string_new (NULL);
  for (const char *p = ascii; *p && slug->len < MOST_LETTERS; p++)
    if (g_ascii_isalnum (*p))
      g_string_append_c (slug, g_ascii_tolower (*p));
    else if (*p != '\'' && slug->len > 0 && slug->str[slug->len - 1] != '-')
      g_string_append_c (slug, '-');
  while (slug->len > 0 && slug->str[slug->len - 1] == '-')
    g_string_truncate (slug, slug->len - 1);
  return g_string_free (slug, FALSE);
}

char *
course_hole_stem (const HoleInfo *info, size_t place)
{
  g_autofree char *slug = slug_of (info->title ? info->title : "");
  int number = info->number > 0 ? info->number : (int)place + 1;
  return *slug ? g_strdup_printf ("%02d-%s", number, slug) : g_strdup_printf ("%02d", number);
}

/* Why it cannot be the name of a hole file; NULL if it can. */
static const char *
name_fault (const char *name)
{
  if (!g_utf8_validate (name, -1, NULL))
    return "is not written in UTF-8";
  for (const char *p = name; *p; p++)
    if (g_ascii_iscntrl (*p))
      return "holds a character that no name should have";
  if (*name == '\0' || *name == '.')
    return "has no name, or a hidden one";
  return strchr (name, '/') ? "names a folder" : NULL;
}

char *
course_check_name (const char *name, GError **error)
{
  const char *fault = name_fault (name);
  if (fault)
    {
      g_autofree char *shown = g_strescape (name, NULL);
      g_set_error (error, SVG_ERROR, SVG_ERROR_WRITE, "a file called \"%.80s\" %s; choose another name", shown, fault);
      return NULL;
    }
  return g_str_has_suffix (name, HOLE_ENDING) ? g_strdup (name) : g_strconcat (name, HOLE_ENDING, NULL);
}

/* ---- making ---- */

bool
course_reserve_file (const char *path, GError **error)
{
  int file = open (path, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
  if (file >= 0)
    return close (file) == 0;
  int number = errno;
  if (number == EEXIST)
    document_fault (path, 0, SVG_ERROR_WRITE, error, "there is a file of this name already; choose another name");
  else
    document_fault (path, 0, SVG_ERROR_WRITE, error, "the file cannot be made (%s); mend that or choose another folder",
                    g_strerror (number));
  errno = number;
  return false;
}

char *
course_make_file (const char *folder, const char *stem, GBytes *bytes, GError **error)
{
  for (int i = 1; i <= MOST_NAMES; i++)
    {
      g_autoptr (GError) problem = NULL;
      g_autofree char *name = i == 1 ? g_strconcat (stem, HOLE_ENDING, NULL) : g_strdup_printf ("%s-%d" HOLE_ENDING, stem, i);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (course_reserve_file (path, &problem))
        {
          if (svg_save_bytes (bytes, path, error))
            return g_steal_pointer (&path);
          g_unlink (path);
          return NULL;
        }
      if (errno != EEXIST || i == MOST_NAMES)
        {
          g_propagate_error (error, g_steal_pointer (&problem));
          return NULL;
        }
    }
  return NULL;
}

/* ---- another name for the same file ---- */

/* A second name by a hard link; where the file system has none, a copy. */
bool
course_add_name (const char *path, const char *more, GError **error)
{
  if (link (path, more) == 0)
    return true;
  if (errno == EEXIST)
    return course_reserve_file (more, error); /* fails, and says so */
  g_autoptr (GBytes) bytes = svg_read_contents (path, error);
  if (!bytes || !course_reserve_file (more, error))
    return false;
  if (svg_save_bytes (bytes, more, error))
    return true;
  g_unlink (more);
  return false;
}

/* ---- putting away ---- */

static bool
rename_away (const char *path, char **kept)
{
  for (int i = 1; i <= MOST_NAMES; i++)
    {
      g_autoptr (GError) problem = NULL;
      g_autofree char *other = i == 1 ? g_strdup_printf (PUT_AWAY, path) : g_strdup_printf (PUT_AWAY_MORE, path, i);
      if (course_add_name (path, other, &problem))
        {
          g_unlink (path); /* if that fails the file has two names, and neither is in the course */
          *kept = g_steal_pointer (&other);
          return true;
        }
      if (errno != EEXIST)
        return false;
    }
  return false;
}

char *
course_put_away (const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  char *kept = NULL;
  if (!g_file_test (path, G_FILE_TEST_EXISTS) || g_file_trash (file, NULL, NULL))
    return NULL;
  return rename_away (path, &kept) ? kept : g_strdup (path);
}
