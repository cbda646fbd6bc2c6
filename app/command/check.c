// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * check - what is in each document, and everything suspect about it.
 */
#include "command-private.h"
#include "svg.h"

#include <stdlib.h>
#include <string.h>

static const Column columns[] = {
  { "file", COLUMN_TEXT }, { "line", COLUMN_COUNT }, { "severity", COLUMN_TEXT },
  { "what", COLUMN_TEXT }, { "mend", COLUMN_TEXT },
};

typedef struct
{
  const Options *options;
  Table *table;
  FILE *err;
  bool is_usable; /* false once one document cannot be used */
} Check;

static void
add_row (Check *check, const char *path, unsigned line, FindingSeverity severity, const char *what, const char *mend)
{
  static const char *const tokens[] = { [FINDING_ERROR] = "error", [FINDING_WARNING] = "warning", [FINDING_NOTE] = "note" };
  table_add_text (check->table, path);
  table_add_number (check->table, line > 0 ? line : NAN);
  table_add_text (check->table, tokens[severity]);
  table_add_text (check->table, what);
  table_add_text (check->table, mend);
  if (severity != FINDING_ERROR)
    return;
  check->is_usable = false;
  g_autofree char *place = line > 0 ? g_strdup_printf ("%s:%u", path, line) : g_strdup (path);
  g_autofree char *message = g_strdup_printf ("%s: %s%s%s", place, what, *mend != '\0' ? "; " : "", mend);
  message_print (check->err, message);
}

/* Takes "PATH:LINE: what; mend" apart; the line and the mend may be missing. */
static void
add_error (Check *check, const char *path, const GError *error)
{
  const char *what = error->message;
  unsigned line = 0;
  if (g_str_has_prefix (what, path) && what[strlen (path)] == ':')
    {
      what += strlen (path) + 1;
      char *end;
      unsigned long number = strtoul (what, &end, 10);
      if (g_ascii_isdigit (*what) && *end == ':')
        {
          line = (unsigned)number;
          what = end + 1;
        }
      while (*what == ' ')
        what++;
    }
  const char *cut = strstr (what, "; ");
  g_autofree char *first = cut != NULL ? g_strndup (what, (gsize)(cut - what)) : g_strdup (what);
  add_row (check, path, line, FINDING_ERROR, first, cut != NULL ? cut + 2 : "");
}

static int
compare_lines (gconstpointer a, gconstpointer b)
{
  const Finding *first = *(Finding *const *)a, *second = *(Finding *const *)b;
  return (first->line > second->line) - (first->line < second->line);
}

static void
add_findings (Check *check, const char *path, GPtrArray *findings)
{
  if (findings == NULL)
    return;
  g_ptr_array_sort (findings, compare_lines);
  for (guint i = 0; i < findings->len; i++)
    {
      const Finding *finding = g_ptr_array_index (findings, i);
      add_row (check, path, MAX (finding->line, 1), finding->severity, finding->what, finding->mend);
    }
}

/* ", white 398 yd, yellow 371 yd" */
static void
append_lengths (GString *text, const Hole *hole, LengthUnit units)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      double length_m;
      char number[32];
      if (part->kind == KIND_TEE_MARKER && part->name != NULL && hole_measured_length (hole, part->name, &length_m))
        g_string_append_printf (text, ", %s %s", part->name, units_print_length (length_m, units, number, sizeof number));
    }
}

/* "; 1 green, 3 bunker, 2 shots planned" */
static void
append_counts (GString *text, const Hole *hole)
{
  size_t counts[N_KINDS] = { 0 };
  const char *separator = ": ";
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    counts[hole_part (hole, i)->kind]++;
  for (int kind = KIND_NONE + 1; kind < N_KINDS; kind++)
    if (counts[kind] > 0)
      {
        g_string_append_printf (text, "%s%s %zu", separator, kind_info ((Kind)kind)->label, counts[kind]);
        separator = ", ";
      }
  if (counts[KIND_NONE] > 0)
    g_string_append_printf (text, "%sshape without a kind %zu", separator, counts[KIND_NONE]);
}

static void
add_hole_summary (Check *check, const char *path, const Hole *hole)
{
  const HoleInfo *info = hole_info (hole);
  g_autoptr (GString) text = g_string_new ("hole");
  if (info->number > 0)
    g_string_append_printf (text, " %d", info->number);
  if (info->title != NULL)
    g_string_append_printf (text, " %s", info->title);
  if (info->par > 0)
    g_string_append_printf (text, ", par %d", info->par);
  append_lengths (text, hole, check->options->units);
  append_counts (text, hole);
  add_row (check, path, 1, FINDING_NOTE, text->str, "");
}

static void
check_hole (Check *check, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) read = NULL;
  g_autoptr (Hole) hole = svg_read_file (path, &read, &error);
  if (hole == NULL)
    {
      add_error (check, path, error);
      return;
    }
  add_hole_summary (check, path, hole);
  add_findings (check, path, read);
  g_autoptr (GPtrArray) suspect = svg_check_hole (hole);
  add_findings (check, path, suspect);
}

static void
check_bag (Check *check, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = bag_read_file (path, check->options->level, &error);
  if (bag == NULL)
    {
      add_error (check, path, error);
      return;
    }
  g_autofree char *what = g_strdup_printf ("bag of %zu clubs, %s to %s", bag_n_clubs (bag), bag_club (bag, 0)->name,
                                           bag_club (bag, bag_n_clubs (bag) - 1)->name);
  add_row (check, path, 1, FINDING_NOTE, what, "");
  for (const char *const *warning = bag_warnings (bag); *warning != NULL; warning++)
    add_row (check, path, 1, FINDING_WARNING, *warning, "");
}

static void
check_lies (Check *check, const char *path)
{
  g_autoptr (GError) error = NULL;
  LieTable lies;
  if (lie_table_read_file (path, &lies, &error))
    add_row (check, path, 1, FINDING_NOTE, "table of lies", "");
  else
    add_error (check, path, error);
}

static bool
is_lies (const char *path)
{
  g_autofree char *base = g_path_get_basename (path);
  return g_str_equal (base, BAG_LIES_FILE);
}

static void
check_course (Check *check, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = svg_read_course (path, &error);
  if (course == NULL)
    {
      add_error (check, path, error);
      return;
    }
  g_autofree char *what = g_strdup_printf ("course %s of %zu holes", course->name, course->n_holes);
  add_row (check, path, 1, FINDING_NOTE, what, "");
  g_autofree char *folder = g_file_test (path, G_FILE_TEST_IS_DIR) ? g_strdup (path) : g_path_get_dirname (path);
  for (size_t i = 0; i < course->n_holes; i++)
    {
      /* Named the way the golfer named the folder. */
      g_autofree char *base = g_path_get_basename (course->hole_files[i]);
      g_autofree char *file = g_build_filename (folder, base, NULL);
      check_hole (check, g_file_test (file, G_FILE_TEST_EXISTS) ? file : course->hole_files[i]);
    }
  g_autofree char *bag = g_build_filename (folder, "bag.csv", NULL);
  if (g_file_test (bag, G_FILE_TEST_EXISTS))
    check_bag (check, bag);
}

static bool
write_check (const Options *options, FILE *out, FILE *err, bool *is_usable, GError **error)
{
  g_autoptr (Table) table = table_new ("check", NULL, columns, G_N_ELEMENTS (columns));
  Check check = { options, table, err, true };
  for (char **file = options->files; *file != NULL; file++)
    if (input_is_course (*file))
      check_course (&check, *file);
    else if (is_lies (*file))
      check_lies (&check, *file);
    else if (g_str_has_suffix (*file, ".csv"))
      check_bag (&check, *file);
    else
      check_hole (&check, *file);
  *is_usable = check.is_usable;
  return tables_write (&table, 1, 0, options, out, error);
}

int
command_check (int argc, char **argv, FILE *out, FILE *err)
{
  g_autoptr (GError) error = NULL;
  Options options;
  bool is_usable = true;
  bool is_done = options_parse (&options, FOR_CHECK, argc, argv, &error);
  if (is_done && options.is_help)
    options_print_help (out, argv[0], "FILE|FOLDER...",
                        "Reads each document - a hole, a bag (.csv), a course folder with all its holes - and prints one row "
                        "for what is in it\n"
                        "and one for everything suspect. Exit status 1 if one cannot be used.",
                        FOR_CHECK);
  else if (is_done && options.n_files == 0)
    {
      g_set_error_literal (&error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                           "check needs a file or a folder; see 'holewright check --help'");
      is_done = false;
    }
  else if (is_done)
    is_done = write_check (&options, out, err, &is_usable, &error);
  options_clear (&options);
  if (!is_done)
    return message_fail (err, error);
  return is_usable ? STATUS_DONE : STATUS_INPUT;
}
