// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * command-runner - what the tests of the command line share: a folder with a small hole and a bag, and a command run in it with what it said.
 */
#ifndef HOLEWRIGHT_TESTS_COMMAND_RUNNER_H
#define HOLEWRIGHT_TESTS_COMMAND_RUNNER_H

#include "command.h"
#include "suite.h"
#include "units.h"

#include <glib.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- a folder with a hole and a bag, and what a command said ---- */

/*
 * Straight up: from the tee at (0,0) the line to the hole at (0,200) crosses the sand from 100 to 110 m and the green, a square of 20 m,
 * from 190 m; the pond lies 8 m left of the line between 150 and 160 m.
 */
static const char hole_text[]
    = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1' viewBox='-50 -250 100 260'"
      " hw:number='5' hw:par='3'><title>Short &amp; Sweet</title>"
      "<rect id='sand' hw:kind='bunker' x='-10' y='-110' width='20' height='10'/>"
      "<rect id='pond' hw:kind='water' x='-28' y='-160' width='20' height='10'/>"
      "<rect hw:name='table, &quot;top&quot;' hw:kind='green' x='-10' y='-210' width='20' height='20'/>"
      "<circle hw:kind='tee-marker' hw:name='white' cx='0' cy='0' r='1'/>"
      "<circle hw:kind='tee-marker' hw:name='red' cx='0' cy='-50' r='1'/>"
      "<circle hw:kind='hole-location' hw:name='middle' cx='0' cy='-200' r='0.5'/>"
      "<circle hw:kind='hole-location' hw:name='back' cx='4' cy='-205' r='0.5'/>"
      "<g hw:kind='plan'><line hw:kind='shot' hw:club='seven' hw:swing='0.5' x1='0' y1='0' x2='5' y2='-90'/></g></svg>";

static const char bag_text[] = "club,carry_m,carry_sd_m,side_sd_m\nfive,200,10,4\nseven,120,10,4\nwedge,80,5,3\n";

typedef struct
{
  int status;
  char *out, *err;
} Said;

/* The folder of the test in hand. */
static char *folder;

static inline char *
path_of (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static inline void
write_file (const char *name, const char *text)
{
  g_autofree char *path = path_of (name);
  ck_assert (g_file_set_contents (path, text, -1, NULL));
}

static inline void
set_up (void)
{
  folder = g_dir_make_tmp ("holewright-command-XXXXXX", NULL);
  ck_assert_ptr_nonnull (folder);
  write_file ("hole.svg", hole_text);
  write_file ("bag.csv", bag_text);
}

static inline void
tear_down (void)
{
  GDir *dir = g_dir_open (folder, 0, NULL);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autofree char *path = path_of (name);
      g_unlink (path);
    }
  g_dir_close (dir);
  g_rmdir (folder);
  g_clear_pointer (&folder, g_free);
}

/* Runs "COMMAND ..." as the shell would split it; %s is the folder. */
static inline Said
run (const char *line)
{
  Said said = { 0 };
  g_auto (GStrv) parts = g_strsplit (line, "%s", -1);
  g_autofree char *whole = g_strjoinv (folder, parts);
  g_autofree char *command = g_strconcat ("holewright ", whole, NULL);
  g_auto (GStrv) argv = NULL;
  int argc;
  size_t out_size, err_size;
  ck_assert (g_shell_parse_argv (command, &argc, &argv, NULL));
  FILE *out = open_memstream (&said.out, &out_size), *err = open_memstream (&said.err, &err_size);
  said.status = command_run (argc, argv, out, err);
  fclose (out);
  fclose (err);
  return said;
}

static inline void
said_clear (Said *said)
{
  free (said->out);
  free (said->err);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Said, said_clear)

/* The command fails with this status and one line of message that holds `words` and a remedy after a semicolon; nothing on standard output. */
static inline void
assert_fails (const char *line, int status, const char *words)
{
  g_auto (Said) said = run (line);
  ck_assert_msg (said.status == status, "'%s' gave %d: %s", line, said.status, said.err);
  ck_assert_str_eq (said.out, "");
  ck_assert_msg (g_str_has_prefix (said.err, "holewright: "), "%s", said.err);
  ck_assert_msg (strstr (said.err, words) != NULL, "'%s' is not in: %s", words, said.err);
  ck_assert_msg (strstr (said.err, "; ") != NULL, "no remedy in: %s", said.err);
  ck_assert_ptr_eq (strchr (said.err, '\n'), said.err + strlen (said.err) - 1);
}

/* Cell of a CSV without quotes, by row (0: the names) and column. Free with g_free. */
static inline char *
csv_cell (const char *csv, int row, int column)
{
  g_auto (GStrv) lines = g_strsplit (csv, "\r\n", -1);
  ck_assert_int_lt (row, (int)g_strv_length (lines));
  g_auto (GStrv) cells = g_strsplit (lines[row], ",", -1);
  ck_assert_int_lt (column, (int)g_strv_length (cells));
  return g_strdup (cells[column]);
}

static inline double
csv_number (const char *csv, int row, int column)
{
  g_autofree char *cell = csv_cell (csv, row, column);
  double value = NAN;
  ck_assert_msg (units_parse_number (cell, &value), "'%s' is no number", cell);
  return value;
}

/* A course of hole.svg and another. */
#define COURSE_TEXT                                                                                                            \
  "<course xmlns='urn:holewright:course:1' name='Fenwhistle'><hole file='hole.svg'/><hole file='other.svg'/></course>"

#endif
