// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a shot costs in strokes: beside its club's best aim, by what it can come to, beside the other clubs; and the map of aims as a file.
 */
#include "command-private.h"
#include "plan-ends.h"
#include "plan-shot.h"
#include "svg.h"

#include <string.h>

/* Width of the map's picture. */
#define MAP_WIDTH_PX 900

static const Column strokes_columns[] = {
  { "strokes", COLUMN_STROKES }, { "best", COLUMN_STROKES }, { "costs", COLUMN_STROKES },
  { "best_x", COLUMN_PLACE },    { "best_y", COLUMN_PLACE }, { "best_swing", COLUMN_CHANCE },
};

static const Column end_columns[] = {
  { "lie", COLUMN_TEXT },
  { "chance", COLUMN_CHANCE },
  { "strokes", COLUMN_STROKES },
  { "costs", COLUMN_STROKES },
};

static const Column club_columns[] = {
  { "club", COLUMN_TEXT },     { "strokes", COLUMN_STROKES }, { "more", COLUMN_STROKES }, { "aim_x", COLUMN_PLACE },
  { "aim_y", COLUMN_PLACE },   { "swing", COLUMN_CHANCE },    { "left", COLUMN_LENGTH },  { "trouble", COLUMN_TEXT },
  { "chance", COLUMN_CHANCE }, { "costs", COLUMN_STROKES },
};

static const Column number_columns[] = {
  { "plays", COLUMN_LENGTH },
  { "past", COLUMN_LENGTH },
  { "right", COLUMN_LENGTH },
  { "strokes", COLUMN_STROKES },
  { "at_hole", COLUMN_STROKES },
  { "club", COLUMN_TEXT },
  { "club_strokes", COLUMN_STROKES },
  { "longer", COLUMN_TEXT },
  { "longer_strokes", COLUMN_STROKES },
  { "shorter", COLUMN_TEXT },
  { "shorter_strokes", COLUMN_STROKES },
  { "miss", COLUMN_TEXT },
  { "short", COLUMN_STROKES },
  { "long", COLUMN_STROKES },
  { "miss_left", COLUMN_STROKES },
  { "miss_right", COLUMN_STROKES },
};

static const Column map_columns[] = {
  { "aim_x", COLUMN_PLACE },
  { "aim_y", COLUMN_PLACE },
  { "swing", COLUMN_CHANCE },
  { "strokes", COLUMN_STROKES },
};

static const char *
lie_word (Lie lie)
{
  const char *token = lie_token (lie);
  return token != NULL ? token : lie == LIE_OUT_OF_BOUNDS ? kind_info (KIND_OUT_OF_BOUNDS)->token : "none";
}

static Table *
make_strokes_table (const ShotStrokes *shot, const AimMap *map, Level level)
{
  g_autofree char *title
      = g_strdup_printf ("Strokes to hole out, %s; what this aim costs more than the club's best", level_token (level));
  Table *table = table_new ("strokes", title, strokes_columns, G_N_ELEMENTS (strokes_columns));
  const double cells[] = { shot->strokes,   map->best.strokes, shot->strokes - map->best.strokes,
                           map->best.aim.x, map->best.aim.y,   map->best.swing };
  for (size_t i = 0; i < G_N_ELEMENTS (cells); i++)
    table_add_number (table, cells[i]);
  return table;
}

static Table *
make_end_table (const ShotStrokes *shot)
{
  Table *table = table_new ("ends", "What it can come to, dearest first", end_columns, G_N_ELEMENTS (end_columns));
  for (size_t i = 0; i < shot->n_outcomes; i++)
    {
      const Outcome *end = &shot->outcomes[i];
      table_add_text (table, lie_word (end->lie));
      table_add_number (table, end->chance);
      table_add_number (table, end->strokes);
      table_add_number (table, end->cost);
    }
  return table;
}

static Table *
make_club_table (const PlanInput *input, const Bag *bag, GError **error)
{
  size_t n;
  g_autofree ClubChoice *choices = plan_clubs (input, bag, &n, error);
  if (choices == NULL)
    return NULL;
  Table *table = table_new ("clubs", "Each club at its own best aim, the one to choose first, and its dearest end",
                            club_columns, G_N_ELEMENTS (club_columns));
  for (size_t i = 0; i < n; i++)
    {
      const ClubChoice *choice = &choices[i];
      const Outcome *worst = choice->outcome.n_outcomes > 0 ? &choice->outcome.outcomes[0] : NULL;
      table_add_text (table, choice->club->name);
      table_add_number (table, choice->best.strokes);
      table_add_number (table, choice->over_best);
      table_add_number (table, choice->best.aim.x);
      table_add_number (table, choice->best.aim.y);
      table_add_number (table, choice->best.swing);
      table_add_number (table, choice->outcome.left_m);
      table_add_text (table, worst != NULL ? lie_word (worst->lie) : NULL);
      table_add_number (table, worst != NULL ? worst->chance : NAN);
      table_add_number (table, worst != NULL ? worst->cost : NAN);
    }
  return table;
}

static void
add_club (Table *table, const Club *club, double strokes)
{
  table_add_text (table, club != NULL ? club->name : NULL);
  table_add_number (table, strokes);
}

static Table *
make_number_table (const PlanInput *input, const Bag *bag, LengthUnit units, GError **error)
{
  Approach approach;
  if (!plan_approach (input, bag, &approach, error))
    return NULL;
  g_autofree char *title = approach_words (&approach, units, NULL);
  Table *table = table_new ("number", title, number_columns, G_N_ELEMENTS (number_columns));
  const double cells[]
      = { approach.plays_m, approach.past_m, approach.right_m, approach.best.strokes, approach.at_hole_strokes };
  for (size_t i = 0; i < G_N_ELEMENTS (cells); i++)
    table_add_number (table, cells[i]);
  add_club (table, approach.club, approach.club_strokes);
  add_club (table, approach.longer, approach.longer_strokes);
  add_club (table, approach.shorter, approach.shorter_strokes);
  table_add_text (table, miss_token (approach.safest));
  for (int miss = 0; miss < N_MISSES; miss++)
    table_add_number (table, approach.misses[miss]);
  return table;
}

/* ---- the map as a file ---- */

static bool
write_map_rows (const AimMap *map, const Options *options, GError **error)
{
  g_autoptr (Table) table = table_new ("map", "Strokes by aim", map_columns, G_N_ELEMENTS (map_columns));
  for (size_t s = 0; s < map->n_swings; s++)
    for (size_t t = 0; t < map->n_turns; t++)
      {
        double direction = map->first_rad + (double)t * map->turn_step_rad,
               swing = map->first_swing + (double)s * map->swing_step;
        double strokes = map->strokes[s * map->n_turns + t];
        table_add_number (table, map->ball.x + swing * map->carry_m * cos (direction));
        table_add_number (table, map->ball.y + swing * map->carry_m * sin (direction));
        table_add_number (table, swing);
        table_add_number (table, strokes);
      }
  Options file = *options;
  file.output = options->map;
  file.format = FORMAT_CSV;
  file.rows = NULL;
  return tables_write (&table, 1, 0, &file, NULL, error);
}

static bool
write_map_picture (const AskedShot *asked, const AimMap *map, const Options *options, GError **error)
{
  PlanScene scene = { .hole = asked->hole, .shots = &asked->result, .n_shots = 1, .aims = map };
  g_autoptr (GBytes) bytes = render_aims_png (&scene, options->units, MAP_WIDTH_PX, error);
  return bytes != NULL && svg_save_bytes (bytes, options->map, error);
}

static bool
write_map (const AskedShot *asked, const AimMap *map, const Options *options, GError **error)
{
  return g_str_has_suffix (options->map, ".png") ? write_map_picture (asked, map, options, error)
                                                 : write_map_rows (map, options, error);
}

/* ---- all of it ---- */

static bool
fill_tables (const AskedShot *asked, const PlanInput *input, const Options *options, Table **tables, size_t *n_tables,
             OddsTable **odds, GError **error)
{
  ShotStrokes shot;
  g_autoptr (AimMap) map = plan_shot_aims (input, &asked->result, &shot, odds, error);
  if (map == NULL || (options->map != NULL && !write_map (asked, map, options, error)))
    return false;
  tables[(*n_tables)++] = make_strokes_table (&shot, map, options->level);
  tables[(*n_tables)++] = make_end_table (&shot);
  Table *asked_for = NULL;
  bool are_clubs = g_strcmp0 (options->rows, "clubs") == 0, is_number = g_strcmp0 (options->rows, "number") == 0;
  if (are_clubs)
    asked_for = make_club_table (input, asked->bag, error);
  else if (is_number)
    asked_for = make_number_table (input, asked->bag, options->units, error);
  if (asked_for != NULL)
    tables[(*n_tables)++] = asked_for;
  return asked_for != NULL || (!are_clubs && !is_number);
}

/* Is anything asked for that is counted in strokes? CSV is the areas unless other rows are named. */
static bool
are_strokes_asked_for (const Options *options)
{
  if (options->map != NULL)
    return true;
  if (options->rows == NULL)
    return options->format != FORMAT_CSV;
  return strcmp (options->rows, "areas") != 0 && strcmp (options->rows, "shot") != 0;
}

bool
strokes_tables (const AskedShot *asked, const Options *options, Table **tables, size_t *n_tables, OddsTable **odds,
                GError **error)
{
  if (!are_strokes_asked_for (options))
    return true;
  g_autoptr (StrokesTable) table = strokes_table_new (options->level);
  PlanInput input = { .hole = asked->hole,
                      .hole_name = options->hole,
                      .ball = asked->result.ball,
                      .table = table,
                      .lies = asked->input.lies,
                      .conditions = &asked->conditions,
                      .lost_chance = PLAN_LOST_CHANCE };
  GError *refused = NULL;
  if (fill_tables (asked, &input, options, tables, n_tables, odds, &refused))
    return true;
  /* Without anything to play to there is no cost; the odds are told all the same. */
  if (g_error_matches (refused, PLAN_ERROR, PLAN_ERROR_TARGET) && options->map == NULL && options->rows == NULL)
    {
      g_error_free (refused);
      return true;
    }
  if (refused->domain != COMMAND_ERROR)
    g_prefix_error (&refused, "%s:1: ", options->files[0]);
  g_propagate_error (error, refused);
  return false;
}
