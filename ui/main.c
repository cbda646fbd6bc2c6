// SPDX-License-Identifier: GPL-3.0-or-later
/* main - a first word that is a command runs without a display; everything else is the desktop program. */
#include "application.h"

#include "command.h"
#include "memory.h"
#include "urgency.h"

#include <glib/gi18n.h>
#include <locale.h>
#include <signal.h>
#include <stdlib.h>

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

int
main (int argc, char **argv)
{
  /* A limit on the size of files is an error to be told, as a full disk is, and no reason to die with unsaved work. */
  signal (SIGXFSZ, SIG_IGN);
  hw_memory_keep ();
  if (argc > 1 && command_is (argv[1]))
    {
      if (argc > 2)
        hw_memory_map ();
      return command_run (argc, argv, stdout, stderr);
    }
  start_translations ();
  g_set_application_name ("Holewright");
  gtk_window_set_default_icon_name ("org.holewright.Holewright");
  g_autoptr (HwApplication) application = hw_application_new ();
  hw_urgency_be_prompt ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
