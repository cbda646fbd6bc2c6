// SPDX-License-Identifier: GPL-3.0-or-later
/* main - a first word that is a command runs without a display; everything else is the desktop program. */
#define _GNU_SOURCE
#include "application.h"

#include "command.h"
#include "urgency.h"

#include <glib/gi18n.h>
#include <locale.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif
#include <signal.h>
#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

/* From HOLEWRIGHT_LOCALE_DIR, or where they were installed. */
static void
start_translations (void)
{
  const char *elsewhere = g_getenv ("HOLEWRIGHT_LOCALE_DIR");
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, elsewhere != NULL ? elsewhere : HOLEWRIGHT_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}

/* Images as large as the window, of which GTK and cairo take and give back some in every frame. */
#define LARGEST_KEPT_BYTES (32 << 20)
#define MOST_KEPT_BYTES (96 << 20)

/* What is given back is kept, for the next frame or a command's next step: memory fresh from the system is mapped page by page, which takes longer than what is painted on it. */
static void
keep_memory (void)
{
#ifdef __GLIBC__
  mallopt (M_MMAP_THRESHOLD, LARGEST_KEPT_BYTES);
  mallopt (M_TRIM_THRESHOLD, MOST_KEPT_BYTES);
#endif
}

/* What a command that reads a hole takes (measured: 4 to 7 MB). */
#define COMMAND_BYTES (10 << 20)
/* Of a large page on most machines; where they are larger there are none for so little. */
#define LARGE_PAGE_BYTES (2 << 20)

/* Asks the system for a command's memory in large pages, and begins it where one does: small ones, one by one as each is first touched, take as long as some of the commands. */
static void
map_memory (void)
{
#if defined __GLIBC__ && defined MADV_HUGEPAGE
  /* Touched before the advice, it would be a small one: what malloc keeps before a block stays below. */
  const uintptr_t head = 2 * sizeof (size_t);
  uintptr_t past = ((uintptr_t)sbrk (0) + head) % LARGE_PAGE_BYTES;
  sbrk ((intptr_t)(LARGE_PAGE_BYTES - past)); /* refused: it begins among small ones */
  char *block = malloc (COMMAND_BYTES);
  if (block == NULL)
    return;
  uintptr_t before = -(uintptr_t)block % LARGE_PAGE_BYTES;
  /* Where there are none it is as it was. */
  madvise (block + before, COMMAND_BYTES - before, MADV_HUGEPAGE);
  free (block);
#endif
}

int
main (int argc, char **argv)
{
  /* A limit on the size of files is an error to be told, as a full disk is, and no reason to die with unsaved work. */
  signal (SIGXFSZ, SIG_IGN);
  keep_memory ();
  if (argc > 1 && command_is (argv[1]))
    {
      if (argc > 2)
        map_memory ();
      return command_run (argc, argv, stdout, stderr);
    }
  start_translations ();
  g_set_application_name ("Holewright");
  gtk_window_set_default_icon_name ("org.holewright.Holewright");
  g_autoptr (HwApplication) application = hw_application_new ();
  hw_urgency_be_prompt ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
