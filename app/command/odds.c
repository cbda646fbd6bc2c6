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
write_odds (const Options *options, FILE *out, FILE *err, GError **error)
{
  AskedShot asked;
  if (!asked_shot_fly (&asked, options, err, error))
    return false;
  bool is_written = false;
  g_autoptr (OddsTable) odds = odds_table_new (asked.hole, &asked.result, error);
  if (odds == NULL)
    g_prefix_error (error, "%s:1: ", options->files[0]);
  else
    {
      g_autoptr (Table) shot_table = asked_shot_table (&asked);
      g_autoptr (Table) area_table = make_area_table (asked.hole, odds);
      Table *tables[] = { shot_table, area_table };
      is_written = tables_write (tables, G_N_ELEMENTS (tables), 1, options, out, error);
    }
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
        "there after its run, largest first. 'ground' is where no area lies. Both columns add up to 1, poor strikes included\n"
        "where the bag tells of them. Nothing is sampled. CSV is one table, areas unless --rows names another; JSON holds\n"
        "both, each an array of rows.",
        FOR_ODDS);
  else if (is_done && options.n_files != 1)
    {
      g_set_error_literal (&error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                           "odds takes one hole file; see 'holewright odds --help'");
      is_done = false;
    }
  else if (is_done)
    is_done = write_odds (&options, out, err, &error);
  options_clear (&options);
  return is_done ? STATUS_DONE : message_fail (err, error);
}
