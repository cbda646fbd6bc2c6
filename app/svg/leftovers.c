// SPDX-License-Identifier: GPL-3.0-or-later
/* Hidden files of saves: named, held and, when their process was killed, removed by the next save in the folder. */
#define _DEFAULT_SOURCE /* flock */
#include "leftovers-private.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <glib.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define BEGINNING ".holewright-"
#define ENDING ".tmp"
#define N_DIGITS 16

/* The process is part of it: one that was forked off goes on with its parent's random numbers. */
void
leftover_print_name (char name[LEFTOVER_NAME_SIZE])
{
  snprintf (name, LEFTOVER_NAME_SIZE, BEGINNING "%08x%08x" ENDING, (unsigned)getpid (), g_random_int ());
}

static bool
is_hidden_name (const char *name)
{
  size_t start = strlen (BEGINNING);
  return strncmp (name, BEGINNING, start) == 0 && strspn (name + start, "0123456789abcdef") == N_DIGITS
         && strcmp (name + start + N_DIGITS, ENDING) == 0;
}

int
leftover_hold (int file)
{
  struct stat status;
  if (flock (file, LOCK_EX | LOCK_NB) != 0)
    return errno == EWOULDBLOCK ? EEXIST : 0;
  if (fstat (file, &status) != 0)
    return errno;
  return status.st_nlink > 0 ? 0 : EEXIST;
}

static void
clean_one (int folder, const char *name)
{
  struct stat status;
  int file = openat (folder, name, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
  if (file < 0)
    return;
  if (fstat (file, &status) == 0 && S_ISREG (status.st_mode) && status.st_uid == geteuid ()
      && flock (file, LOCK_EX | LOCK_NB) == 0)
    unlinkat (folder, name, 0);
  close (file);
}

void
leftovers_clean (int folder)
{
  int copy = dup (folder);
  DIR *dir = copy >= 0 ? fdopendir (copy) : NULL;
  if (!dir)
    {
      if (copy >= 0)
        close (copy);
      return;
    }
  rewinddir (dir);
  for (const struct dirent *entry = readdir (dir); entry; entry = readdir (dir))
    if (is_hidden_name (entry->d_name))
      clean_one (folder, entry->d_name);
  closedir (dir);
}
