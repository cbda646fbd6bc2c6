// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * command - the table of commands, and what belongs to the program as a whole: usage, version, messages, exit status.
 */
#include "command.h"
#include "command-private.h"

#include <string.h>

const Command command_table[] = {
  { "check", "FILE|FOLDER...", "say what is in each document and everything suspect about it", command_check },
  { "carries", "FILE", "carry table of one shot: what it reaches, what it carries, what is left", command_carries },
  { "odds", "FILE", "how likely each area is for one shot: where the carry ends, where the ball rests", command_odds },
  { "plan", "FILE|FOLDER", "the whole hole: the best shots in order, the expected score; of a folder, each hole and the course",
    command_plan },
  { "bag", "FILE|--fit SHOTS", "each club's carry and spread; or a bag fitted to recorded shots", command_bag },
  { "card", "FILE|FOLDER -o OUT", "hole card as .pdf, .svg or .png by the ending of OUT; of a folder, a PDF of all its holes",
    command_card },
  { NULL, NULL, NULL, NULL },
};

G_DEFINE_QUARK (holewright - command - error - quark, command_error)

void
message_print (FILE *err, const char *message)
{
  fputs ("holewright: ", err);
  for (const char *c = message; *c != '\0'; c++)
    fputc (g_ascii_iscntrl (*c) ? '?' : *c, err);
  fputc ('\n', err);
}

int
message_fail (FILE *err, const GError *error)
{
  message_print (err, error->message);
  return g_error_matches (error, COMMAND_ERROR, COMMAND_ERROR_USAGE) ? STATUS_USAGE : STATUS_INPUT;
}

static void
print_usage (FILE *out)
{
  fputs ("Usage: holewright [FILE|FOLDER ...]          open holes or a course in the window\n"
         "       holewright COMMAND ... [options]      work without a display\n"
         "\n"
         "Commands:\n",
         out);
  for (const Command *command = command_table; command->name != NULL; command++)
    fprintf (out, "  %-8s %-20s %s\n", command->name, command->arguments, command->summary);
  fputs ("\n"
         "  --help     this text; 'holewright COMMAND --help' lists the options of a command\n"
         "  --version  the version\n"
         "\n"
         "Examples:\n"
         "  holewright check courses/fenwhistle\n"
         "  holewright carries 02-orchard.svg --club driver --aim -14,205 --format csv\n"
         "  holewright bag --fit range-session.csv --format csv -o bag.csv\n"
         "  holewright card 02-orchard.svg -o card.pdf\n"
         "\n"
         "Exit status: 0 done, 1 the input cannot be used, 2 wrong usage.\n",
         out);
}

static const Command *
find_command (const char *word)
{
  for (const Command *command = command_table; command->name != NULL; command++)
    if (strcmp (word, command->name) == 0)
      return command;
  return NULL;
}

bool
command_is (const char *word)
{
  return strcmp (word, "--help") == 0 || strcmp (word, "-h") == 0 || strcmp (word, "--version") == 0
         || find_command (word) != NULL;
}

int
command_run (int argc, char **argv, FILE *out, FILE *err)
{
  const char *word = argc > 1 ? argv[1] : "--help";
  if (strcmp (word, "--help") == 0 || strcmp (word, "-h") == 0)
    {
      print_usage (out);
      return STATUS_DONE;
    }
  if (strcmp (word, "--version") == 0)
    {
      fprintf (out, "holewright %s\n", HOLEWRIGHT_VERSION);
      return STATUS_DONE;
    }
  const Command *command = find_command (word);
  if (command == NULL)
    {
      g_autofree char *message = g_strdup_printf ("there is no command '%s'; see 'holewright --help'", word);
      message_print (err, message);
      return STATUS_USAGE;
    }
  return command->run (argc - 1, argv + 1, out, err);
}
