// SPDX-License-Identifier: GPL-3.0-or-later
/* How far the work has come, on a terminal. */
#define _GNU_SOURCE
#include "plan-private.h"

#include <unistd.h>

void
progress_init (Progress *progress, FILE *err, const char *what)
{
  int file = fileno (err);
  *progress = (Progress){ file >= 0 && isatty (file) ? err : NULL, what };
}

void
progress_tell (Progress *progress, double share)
{
  if (progress->err == NULL)
    return;
  fprintf (progress->err, "\r%s: %.0f %%\033[K", progress->what, 100 * share);
  fflush (progress->err);
}

void
progress_end (Progress *progress)
{
  if (progress->err == NULL)
    return;
  fputs ("\r\033[K", progress->err);
  fflush (progress->err);
}
