// SPDX-License-Identifier: GPL-3.0-or-later
/* Whole files into memory under the program's rules. */
#define _POSIX_C_SOURCE 200809L
#include "document-private.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#define CHUNK_BYTES 65536

static bool
refuse (const char *path, int number, GError **error)
{
  document_fault (path, 0, SVG_ERROR_READ, error, "the file cannot be read (%s); check its name and permissions",
                  g_strerror (number));
  return false;
}

/* Opens without waiting for the far end of a pipe; only a regular file of a size we take is kept open. */
static int
open_regular (const char *path, GError **error)
{
  struct stat status;
  int file = open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
  if (file < 0)
    {
      refuse (path, errno, error);
      return -1;
    }
  if (fstat (file, &status) != 0)
    refuse (path, errno, error);
  else if (!S_ISREG (status.st_mode))
    document_fault (path, 0, SVG_ERROR_READ, error, "this is a %s, not a file; name the file itself",
                    S_ISDIR (status.st_mode) ? "folder" : "device or pipe");
  else if (status.st_size > (off_t)SVG_MOST_BYTES)
    document_fault (path, 0, SVG_ERROR_LIMIT, error, "the file is larger than %u MiB; simplify it", SVG_MOST_BYTES >> 20);
  else
    return file;
  close (file);
  return -1;
}

/* Everything from an open file, one byte more than allowed at most. */
static bool
read_all (int file, const char *path, GByteArray *all, GError **error)
{
  g_autofree guint8 *chunk = g_malloc (CHUNK_BYTES); /* so much of the stack would be mapped for nothing else */
  while (all->len <= SVG_MOST_BYTES)
    {
      ssize_t n = read (file, chunk, CHUNK_BYTES);
      if (n == 0)
        return true;
      if (n > 0)
        g_byte_array_append (all, chunk, (guint)n);
      else if (errno != EINTR)
        return refuse (path, errno, error);
    }
  document_fault (path, 0, SVG_ERROR_LIMIT, error, "the file is larger than %u MiB; simplify it", SVG_MOST_BYTES >> 20);
  return false;
}

GBytes *
svg_read_contents (const char *path, GError **error)
{
  int file = open_regular (path, error);
  if (file < 0)
    return NULL;
  GByteArray *all = g_byte_array_new ();
  bool good = read_all (file, path, all, error);
  close (file);
  if (good && all->len >= 2 && all->data[0] == 0x1f && all->data[1] == 0x8b)
    {
      document_fault (path, 0, SVG_ERROR_FORMAT, error, "the file is compressed; unpack it with gunzip first");
      good = false;
    }
  if (good)
    return g_byte_array_free_to_bytes (all);
  g_byte_array_unref (all);
  return NULL;
}
