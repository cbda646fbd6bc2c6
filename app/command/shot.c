// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The shot that a command line asks about: hole, bag and day read, the ball flown, and the table that tells of it.
 */
#include "command-private.h"

static const Column shot_columns[] = {
  { "distance", COLUMN_LENGTH },   { "plays", COLUMN_LENGTH },     { "landing_x", COLUMN_PLACE },
  { "landing_y", COLUMN_PLACE },   { "rest_x", COLUMN_PLACE },     { "rest_y", COLUMN_PLACE },
  { "left_front", COLUMN_LENGTH }, { "left_hole", COLUMN_LENGTH }, { "left_back", COLUMN_LENGTH },
};

/* An impossible day is the options', unless the plan's own is impossible without them. */
static bool
refuse_day (const Options *options, const char *path, const Hole *hole, const GError *refused, GError **error)
{
  int plan = hole_plan (hole);
  const Part *part = plan >= 0 ? hole_part (hole, (size_t)plan) : NULL;
  Conditions own;
  g_autofree char *asked = input_day_options (options);
  if (asked != NULL && conditions_of_day (hole, part != NULL ? &part->day : NULL, &own, NULL))
    g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT, "%s with %s: %s", path, asked, refused->message);
  else
    g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT, "%s:%u: %s", path, part != NULL ? MAX (part->line, 1U) : 1U,
                 refused->message);
  return false;
}

bool
input_conditions (const Options *options, const char *path, const Hole *hole, Conditions *conditions, GError **error)
{
  Day day;
  g_autoptr (GError) refused = NULL;
  bool is_read = input_day (options, hole, &day, error);
  bool is_possible = is_read && conditions_of_day (hole, &day, conditions, &refused);
  day_clear (&day);
  return is_possible || (refused != NULL && refuse_day (options, path, hole, refused, error));
}

static bool
read_and_fly (AskedShot *asked, const Options *options, FILE *err, GError **error)
{
  const char *path = options->files[0];
  if ((asked->hole = input_hole (path, err, error)) == NULL
      || (asked->bag = input_bag (options, path, true, err, error)) == NULL
      || !input_conditions (options, path, asked->hole, &asked->conditions, error)
      || !input_shot (options, path, asked->hole, asked->bag, &asked->conditions, &asked->input, &asked->title, error))
    return false;
  if (odds_shot (asked->hole, options->hole, &asked->input, &asked->result, error))
    return true;
  g_prefix_error (error, "%s:1: ", path);
  return false;
}

bool
asked_shot_fly (AskedShot *asked, const Options *options, FILE *err, GError **error)
{
  *asked = (AskedShot){ 0 };
  bool is_flown = read_and_fly (asked, options, err, error);
  if (!is_flown)
    asked_shot_clear (asked);
  return is_flown;
}

void
asked_shot_clear (AskedShot *asked)
{
  g_clear_pointer (&asked->hole, hole_unref);
  g_clear_pointer (&asked->bag, bag_unref);
  g_clear_pointer (&asked->title, g_free);
}

Table *
asked_shot_table (const AskedShot *asked)
{
  const ShotResult *shot = &asked->result;
  Table *table = table_new ("shot", asked->title, shot_columns, G_N_ELEMENTS (shot_columns));
  table_add_number (table, shot->aim_m);
  table_add_number (table, shot->plays_m);
  table_add_number (table, shot->landing.x);
  table_add_number (table, shot->landing.y);
  table_add_number (table, shot->rest.x);
  table_add_number (table, shot->rest.y);
  table_add_number (table, shot->has_green ? shot->left.front_m : NAN);
  table_add_number (table, shot->left_m);
  table_add_number (table, shot->has_green ? shot->left.back_m : NAN);
  return table;
}
