// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds - how likely each area is for one shot: where the carry ends, and where the ball rests.
 */
#include "command-private.h"

static const Column area_columns[] = {
  { "area", COLUMN_TEXT },
  { "kind", COLUMN_TEXT },
  { "landing", COLUMN_CHANCE },
  { "rest", COLUMN_CHANCE },
};

static Table *
make_area_table (const Hole *hole, const OddsTable *odds)
{
  Table *table
      = table_new ("areas", "Where balls land, and where they rest after their run", area_columns, G_N_ELEMENTS (area_columns));
  for (size_t i = 0; i < odds->n_rows; i++)
    {
      const OddsRow *row = &odds->rows[i];
      const Part *part = row->part >= 0 ? hole_part (hole, (size_t)row->part) : NULL;
      char label[128];
      table_add_text (table, part == NULL ? "ground" : part->id != NULL ? part->id : part_label (part, label, sizeof label));
      table_add_text (table, kind_info (row->kind)->token);
      table_add_number (table, row->landing);
      table_add_number (table, row->rest);
    }
  return table;
}

static bool
check_map (const char *path, GError **error)
{
  if (path == NULL || g_str_has_suffix (path, ".csv") || g_str_has_suffix (path, ".png"))
    return true;
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
               "--map '%s' does not end in .csv or .png; the map of aims is written as a table or a picture", path);
  return false;
}

static bool
write_odds (const Options *options, FILE *out, FILE *err, GError **error)
{
  AskedShot asked;
  if (!asked_shot_fly (&asked, options, err, error))
    return false;
  g_autoptr (OddsTable) odds = NULL;
  Table *tables[2 + MOST_STROKES_TABLES];
  size_t n_strokes = 0;
  bool is_written = strokes_tables (&asked, options, tables + 2, &n_strokes, &odds, error);
  if (is_written && odds == NULL)
    {
      odds = odds_table_new (asked.hole, &asked.result, error);
      if (odds == NULL)
        g_prefix_error (error, "%s:1: ", options->files[0]);
      is_written = odds != NULL;
    }
  if (is_written)
    {
      g_autoptr (Table) shot_table = tables[0] = asked_shot_table (&asked);
      g_autoptr (Table) area_table = tables[1] = make_area_table (asked.hole, odds);
      is_written = tables_write (tables, 2 + n_strokes, 1, options, out, error);
    }
  for (size_t i = 0; i < n_strokes; i++)
    table_free (tables[2 + i]);
  asked_shot_clear (&asked);
  return is_written;
}

int
command_odds (int argc, char **argv, FILE *out, FILE *err)
{
  g_autoptr (GError) error = NULL;
  Options options;
  bool is_done = options_parse (&options, FOR_ODDS, argc, argv, &error);
  if (is_done && options.is_help)
    options_print_help (
        out, argv[0], "FILE",
        "Prints the odds of one shot: for each area the chance that the carry ends there, and the chance that the ball rests\n"
        "there after its run, largest first. 'ground' is where no area lies; at rest a tree or area of trees has the balls\n"
        "that it stops in the air. Both columns add up to 1, poor strikes included where the bag tells of them. Nothing is\n"
        "sampled.\n"
        "Then what the shot costs in strokes to hole out by a golfer of the level, beside the club's best aim, and what it "
        "can\n"
        "come to, dearest first: costs is the strokes that this end takes of every shot. --rows clubs tells every club at its\n"
        "own best aim, --rows number which distance to play to the hole and on which side to miss. CSV is one table, areas\n"
        "unless --rows names another; JSON holds all but clubs and number, each an array of rows.\n"
        "--map writes what every aim of the club costs, in strokes to hole out.",
        FOR_ODDS);
  else if (is_done && options.n_files != 1)
    {
      g_set_error_literal (&error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                           "odds takes one hole file; see 'holewright odds --help'");
      is_done = false;
    }
  else if (is_done)
    is_done = check_map (options.map, &error) && write_odds (&options, out, err, &error);
  options_clear (&options);
  return is_done ? STATUS_DONE : message_fail (err, error);
}
