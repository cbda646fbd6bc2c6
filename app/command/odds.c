// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds - how likely each area is for one shot: where the carry ends, and where the ball rests.
 */
#include "command-private.h"
#include "plan.h"

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

/* ---- the map of aims ---- */

static const Column map_columns[] = {
  { "aim_x", COLUMN_PLACE },
  { "aim_y", COLUMN_PLACE },
  { "swing", COLUMN_NUMBER },
  { "strokes", COLUMN_NUMBER },
};

/* Every aim of the map that has a number, turn by turn from the shortest swing on. */
static Table *
make_map_table (const AimMap *map)
{
  Table *table = table_new ("map", "What every aim of the club costs", map_columns, G_N_ELEMENTS (map_columns));
  for (size_t s = 0; s < map->n_swings; s++)
    for (size_t t = 0; t < map->n_turns; t++)
      {
        double strokes = map->strokes[s * map->n_turns + t], swing = map->first_swing + (double)s * map->swing_step;
        double turn_rad = map->first_rad + (double)t * map->turn_step_rad;
        if (!isfinite (strokes))
          continue;
        table_add_number (table, map->ball.x + swing * map->carry_m * cos (turn_rad));
        table_add_number (table, map->ball.y + swing * map->carry_m * sin (turn_rad));
        table_add_number (table, swing);
        table_add_number (table, strokes);
      }
  return table;
}

/* The map of aims for the shot's club into the file of --map, for a golfer of the bag's level. */
static bool
write_map (const Options *options, const AskedShot *asked, GError **error)
{
  g_autoptr (StrokesTable) strokes = strokes_table_new (options->level);
  const PlanInput input = { .hole = asked->hole,
                            .hole_name = options->hole,
                            .ball = asked->result.ball,
                            .table = strokes,
                            .conditions = &asked->conditions };
  g_autoptr (AimMap) map = aim_map_new (&input, asked->result.club, error);
  if (map == NULL)
    {
      g_prefix_error (error, "%s:1: ", options->files[0]);
      return false;
    }
  g_autoptr (Table) table = make_map_table (map);
  Options to_file = *options;
  to_file.output = options->map;
  to_file.rows = NULL;
  to_file.format = FORMAT_CSV;
  return tables_write (&table, 1, 0, &to_file, NULL, error);
}

static bool
check_map (const char *path, GError **error)
{
  if (path == NULL || g_str_has_suffix (path, ".csv"))
    return true;
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_USAGE, "--map '%s' does not end in .csv; the map of aims is written as CSV",
               path);
  return false;
}

static bool
write_odds (const Options *options, FILE *out, FILE *err, GError **error)
{
  AskedShot asked;
  if (!check_map (options->map, error) || !asked_shot_fly (&asked, options, err, error))
    return false;
  bool is_written = false;
  g_autoptr (OddsTable) odds = odds_table_new (asked.hole, &asked.result, error);
  if (odds == NULL)
    g_prefix_error (error, "%s:1: ", options->files[0]);
  else if (options->map == NULL || write_map (options, &asked, error))
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
        "both, each an array of rows. --map writes what every aim of the club costs, in strokes to hole out.",
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
