// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Every system call of a save fails once, each in its turn, as on a dying disk. The linker puts the functions below in place of the C
 * library's (--wrap), so the very code of the program is tried.
 */
#define _XOPEN_SOURCE 700
#include "suite.h"
#include "svg.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Calls until one fails; 0: none does. State of this test program, not of the program tried. */
static int calls_left;
static const char *failed_call;

/* Is it this call's turn to fail? */
static bool
fails_now (const char *call)
{
  if (calls_left == 0 || --calls_left > 0)
    return false;
  failed_call = call;
  errno = EIO;
  return true;
}

/* The linker's names for the C library's functions, and ours that stand before them. */
int __real_open64 (const char *path, int flags, ...);
int __real_openat64 (int folder, const char *path, int flags, ...);
int __real_stat64 (const char *path, void *status);
int __real_lstat64 (const char *path, void *status);
int __real_fstat64 (int file, void *status);
int __real_fchmod (int file, mode_t mode);
ssize_t __real_write (int file, const void *bytes, size_t n);
int __real_fsync (int file);
int __real_close (int file);
int __real_renameat (int from_folder, const char *from, int to_folder, const char *to);

int __wrap_open64 (const char *path, int flags, mode_t mode);
int __wrap_openat64 (int folder, const char *path, int flags, mode_t mode);
int __wrap_stat64 (const char *path, void *status);
int __wrap_lstat64 (const char *path, void *status);
int __wrap_fstat64 (int file, void *status);
int __wrap_fchmod (int file, mode_t mode);
ssize_t __wrap_write (int file, const void *bytes, size_t n);
int __wrap_fsync (int file);
int __wrap_close (int file);
int __wrap_renameat (int from_folder, const char *from, int to_folder, const char *to);

int
__wrap_open64 (const char *path, int flags, mode_t mode)
{
  return fails_now ("open") ? -1 : __real_open64 (path, flags, mode);
}

int
__wrap_openat64 (int folder, const char *path, int flags, mode_t mode)
{
  return fails_now ("openat") ? -1 : __real_openat64 (folder, path, flags, mode);
}

int
__wrap_stat64 (const char *path, void *status)
{
  return fails_now ("stat") ? -1 : __real_stat64 (path, status);
}

int
__wrap_lstat64 (const char *path, void *status)
{
  return fails_now ("lstat") ? -1 : __real_lstat64 (path, status);
}

int
__wrap_fstat64 (int file, void *status)
{
  return fails_now ("fstat") ? -1 : __real_fstat64 (file, status);
}

int
__wrap_fchmod (int file, mode_t mode)
{
  return fails_now ("fchmod") ? -1 : __real_fchmod (file, mode);
}

/* A write that fails has written half. */
ssize_t
__wrap_write (int file, const void *bytes, size_t n)
{
  if (!fails_now ("write"))
    return __real_write (file, bytes, n);
  if (__real_write (file, bytes, n / 2) < 0)
    return -1;
  errno = ENOSPC;
  return -1;
}

int
__wrap_fsync (int file)
{
  return fails_now ("fsync") ? -1 : __real_fsync (file);
}

/* The descriptor is gone even where closing reports a mistake. */
int
__wrap_close (int file)
{
  bool fails = fails_now ("close");
  int result = __real_close (file);
  errno = EIO;
  return fails ? -1 : result;
}

int
__wrap_renameat (int from_folder, const char *from, int to_folder, const char *to)
{
  return fails_now ("renameat") ? -1 : __real_renameat (from_folder, from, to_folder, to);
}

/* More calls than a save makes. */
#define MOST_CALLS 50

static int
count_files (const char *folder)
{
  int n = 0;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  while (g_dir_read_name (dir))
    n++;
  return n;
}

/* What must hold when one call of a save has failed. */
static void
nothing_is_lost (const char *link, const char *file, const char *folder, const GError *error)
{
  g_autofree char *text = NULL;
  ck_assert_msg (g_error_matches (error, SVG_ERROR, SVG_ERROR_WRITE), "%s", failed_call);
  ck_assert (g_file_get_contents (file, &text, NULL, NULL));
  bool is_in_place = strstr (error->message, ": saved, but") != NULL;
  ck_assert_msg (strcmp (text, is_in_place ? "new content" : "old") == 0, "%s: %s, but holds %s", failed_call, error->message,
                 text);
  ck_assert_msg (count_files (folder) == 2, "%s leaves a file behind", failed_call);
  ck_assert (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
}

START_TEST (whichever_system_call_fails_nothing_is_lost)
{
  g_autofree char *folder = g_dir_make_tmp ("holewright-faults-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "hole.svg", NULL), *link = g_build_filename (folder, "link.svg", NULL);
  g_autoptr (GBytes) bytes = g_bytes_new_static ("new content", strlen ("new content"));
  g_autoptr (GHashTable) tried = g_hash_table_new (g_str_hash, g_str_equal);
  ck_assert_int_eq (symlink ("hole.svg", link), 0);
  bool saved = false;
  for (int call = 1; call <= MOST_CALLS && !saved; call++)
    {
      g_autoptr (GError) error = NULL;
      ck_assert (g_file_set_contents (file, "old", -1, NULL));
      calls_left = call;
      failed_call = NULL;
      saved = svg_save_bytes (bytes, link, &error);
      calls_left = 0;
      if (failed_call)
        g_hash_table_add (tried, (gpointer)failed_call);
      if (!saved)
        nothing_is_lost (link, file, folder, error);
      else if (failed_call)
        {
          ck_assert_str_eq (failed_call, "close"); /* of the folder, when all is done */
          saved = false;
        }
    }
  ck_assert (saved);
  ck_assert_uint_eq (g_hash_table_size (tried), 10); /* each of the functions above had its turn */
  g_unlink (file);
  g_unlink (link);
  g_rmdir (folder);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg save faults");
  TCase *faults = tcase_create ("faults");
  suite_add_tcase (suite, faults);
  tcase_add_test (faults, whichever_system_call_fails_nothing_is_lost);
  return suite;
}
