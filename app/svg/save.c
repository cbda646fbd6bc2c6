// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Saving without loss: the new bytes go to a hidden file beside the target, to the disk, and only then take the target's name. Whatever
 * fails before that leaves the old file as it was; a hidden file that a killed save left is removed by the next one. Only regular files are written: a device or pipe cannot be replaced by renaming.
 */
#define _XOPEN_SOURCE 700
#include "document-private.h"
#include "leftovers-private.h"
#include "write-private.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

/* As many links in a row as Linux follows. */
#define MOST_LINKS 40
/* Tries for a temporary name nobody else has. */
#define MOST_NAMES 100

typedef struct
{
  const char *path; /* as given, for messages */
  char *target;     /* the file itself, links resolved */
  int folder;       /* open, or -1 */
  char *base;       /* the target's name in it */
  bool exists;
  struct stat old;                    /* if it exists */
  char temporary[LEFTOVER_NAME_SIZE]; /* its name in the folder; empty while there is none */
  int held;                           /* the temporary file, open so that it stays locked, or -1 */
} Saving;

/* Of the file that was there, if there was one. */
static const char *
untouched (const Saving *saving)
{
  return saving->exists ? ", the file on disk is as it was" : "";
}

static bool
fail (const Saving *saving, const char *doing, int number, GError **error)
{
  document_fault (saving->path, 0, SVG_ERROR_WRITE, error, "not saved%s: %s failed (%s); mend that or save under another name",
                  untouched (saving), doing, g_strerror (number));
  return false;
}

static bool
refuse (const Saving *saving, GError **error, const char *why)
{
  document_fault (saving->path, 0, SVG_ERROR_WRITE, error, "not saved%s: %s", untouched (saving), why);
  return false;
}

/* Follows links from the path to the file they mean, which need not exist. No name is tidied: ".." counts from where a folder really is. */
static bool
resolve_links (Saving *saving, GError **error)
{
  saving->target = g_strdup (saving->path);
  for (int i = 0; i < MOST_LINKS; i++)
    {
      struct stat status;
      bool is_there = lstat (saving->target, &status) == 0;
      if (!is_there && errno != ENOENT)
        return fail (saving, "following the link", errno, error);
      if (!is_there || !S_ISLNK (status.st_mode))
        return true;
      g_autofree char *link = g_file_read_link (saving->target, NULL);
      if (!link)
        return fail (saving, "following the link", errno, error);
      g_autofree char *folder = g_path_get_dirname (saving->target);
      char *next = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
      g_free (saving->target);
      saving->target = next;
    }
  return fail (saving, "following the link", ELOOP, error);
}

static bool
look_at_target (Saving *saving, GError **error)
{
  if (g_str_has_suffix (saving->path, "/") || !*saving->path)
    return refuse (saving, error, "the name of a file is missing; add one");
  saving->exists = stat (saving->path, &saving->old) == 0;
  if (!saving->exists && errno != ENOENT)
    return fail (saving, "looking at the file", errno, error);
  if (saving->exists && !S_ISREG (saving->old.st_mode))
    return refuse (saving, error,
                   S_ISDIR (saving->old.st_mode) ? "this is a folder; add the name of a file"
                                                 : "this is a device or pipe, which cannot be written safely; name a file");
  if (saving->exists && faccessat (AT_FDCWD, saving->path, W_OK, AT_EACCESS) != 0)
    return refuse (saving, error, "the file is write-protected; unprotect it or save under another name");
  return resolve_links (saving, error);
}

static bool
open_folder (Saving *saving, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (saving->target);
  saving->base = g_path_get_basename (saving->target);
  saving->folder = open (folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  return saving->folder >= 0 || fail (saving, "opening the folder", errno, error);
}

/* Creates the hidden file; returns it open and held, or -1. A new file's mode is what the umask leaves, an old one's is kept. */
static int
create_temporary (Saving *saving, GError **error)
{
  const mode_t mode = saving->exists ? S_IRUSR | S_IWUSR : S_IRUSR | S_IWUSR | S_IRGRP | S_IWGRP | S_IROTH | S_IWOTH;
  int number = EEXIST;
  for (int i = 0; i < MOST_NAMES && number == EEXIST; i++)
    {
      leftover_print_name (saving->temporary);
      int file = openat (saving->folder, saving->temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
      number = file >= 0 ? leftover_hold (file) : errno;
      if (number == 0)
        return file;
      if (file >= 0 && number != EEXIST) /* else another save took it for a leftover, and removes it */
        unlinkat (saving->folder, saving->temporary, 0);
      if (file >= 0)
        close (file);
    }
  fail (saving, "making a file beside it", number, error);
  saving->temporary[0] = '\0';
  return -1;
}

static bool
keep_mode (const Saving *saving, int file, GError **error)
{
  if (!saving->exists)
    return true;
  struct stat now;
  if (fstat (file, &now) != 0)
    return fail (saving, "looking at the new file", errno, error);
  mode_t mode = saving->old.st_mode & 07777;
  /* Only root can give a file away; where that is refused the file stays ours, without rights meant for another owner. */
  if ((now.st_uid != saving->old.st_uid || now.st_gid != saving->old.st_gid)
      && fchown (file, saving->old.st_uid, saving->old.st_gid) != 0)
    mode &= 0777;
  return fchmod (file, mode) == 0 || fail (saving, "keeping the file's permissions", errno, error);
}

static bool
write_all (const Saving *saving, int file, GBytes *bytes, GError **error)
{
  gsize left;
  const char *p = g_bytes_get_data (bytes, &left);
  while (left > 0)
    {
      ssize_t n = write (file, p, left);
      if (n < 0 && errno == EINTR)
        continue;
      if (n <= 0)
        return fail (saving, "writing", n < 0 ? errno : EIO, error);
      p += n;
      left -= (gsize)n;
    }
  return fsync (file) == 0 || fail (saving, "writing to the disk", errno, error);
}

static bool
fill_temporary (Saving *saving, GBytes *bytes, GError **error)
{
  int file = create_temporary (saving, error);
  if (file < 0)
    return false;
  bool good = keep_mode (saving, file, error) && write_all (saving, file, bytes, error);
  saving->held = dup (file); /* closing tells of late mistakes, and must not give the lock away */
  if (close (file) != 0 && good)
    good = fail (saving, "closing", errno, error);
  return good;
}

/* The new file takes the name; from here on the new content is what the name means. */
static bool
put_in_place (Saving *saving, GError **error)
{
  if (renameat (saving->folder, saving->temporary, saving->folder, saving->base) != 0)
    return fail (saving, "putting the new file in its place", errno, error);
  saving->temporary[0] = '\0';
  leftovers_clean (saving->folder);
  if (fsync (saving->folder) == 0 || errno == EINVAL || errno == ENOTSUP) /* some file systems cannot sync a folder */
    return true;
  document_fault (saving->path, 0, SVG_ERROR_WRITE, error, "saved, but the disk did not confirm it (%s); save again",
                  g_strerror (errno));
  return false;
}

bool
svg_save_bytes (GBytes *bytes, const char *path, GError **error)
{
  Saving saving = { .path = path, .folder = -1, .held = -1 };
  bool good = look_at_target (&saving, error) && open_folder (&saving, error) && fill_temporary (&saving, bytes, error)
              && put_in_place (&saving, error);
  if (saving.temporary[0])
    unlinkat (saving.folder, saving.temporary, 0);
  if (saving.held >= 0)
    close (saving.held);
  if (saving.folder >= 0)
    close (saving.folder);
  g_free (saving.target);
  g_free (saving.base);
  return good;
}

bool
svg_save_file (const Hole *hole, const char *path, GBytes **written, GError **error)
{
  g_autoptr (GError) objection = NULL;
  g_autoptr (GBytes) bytes = svg_write_bytes (hole, &objection);
  if (!bytes)
    {
      document_fault (path, 0, SVG_ERROR_WRITE, error, "not saved, because it cannot be written: %s", objection->message);
      return false;
    }
  g_autoptr (Hole) back = svg_read_bytes (bytes, path, NULL, &objection);
  if (!back)
    {
      document_fault (path, 0, SVG_ERROR_WRITE, error, "not saved, because what would be written does not read back: %s",
                      objection->message);
      return false;
    }
  g_autofree char *difference = write_difference (hole, back);
  if (difference)
    {
      document_fault (path, 0, SVG_ERROR_WRITE, error,
                      "not saved, because %s would not read back the same; undo its last change or report this", difference);
      return false;
    }
  if (!svg_save_bytes (bytes, path, error))
    return false;
  if (written)
    *written = g_steal_pointer (&bytes);
  return true;
}
