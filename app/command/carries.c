// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * carries - the carry table of one shot, the shot itself, and the green from the ball.
 */
#include "command-private.h"

#include "odds-room.h"

static const Column area_columns[] = {
  { "area", COLUMN_TEXT },
  { "kind", COLUMN_TEXT },
  { "reach", COLUMN_LENGTH },
  { "carry", COLUMN_LENGTH },
  { "side", COLUMN_TEXT },
  { "gap", COLUMN_LENGTH },
  { "corridor_reach", COLUMN_LENGTH },
  { "corridor_carry", COLUMN_LENGTH },
  { "clear", COLUMN_CHANCE },
};

static const Column green_columns[] = {
  { "front", COLUMN_LENGTH }, { "hole", COLUMN_LENGTH },  { "back", COLUMN_LENGTH },
  { "left", COLUMN_LENGTH },  { "right", COLUMN_LENGTH }, { "depth", COLUMN_LENGTH },
};

static const Column sight_columns[] = {
  { "line", COLUMN_TEXT },       { "landmark", COLUMN_TEXT }, { "of", COLUMN_TEXT },
  { "distance", COLUMN_LENGTH }, { "right", COLUMN_LENGTH },
};

static const Column room_columns[] = {
  { "of", COLUMN_TEXT },     { "left", COLUMN_LENGTH },    { "right", COLUMN_LENGTH },    { "short", COLUMN_LENGTH },
  { "long", COLUMN_LENGTH }, { "trouble", COLUMN_CHANCE }, { "start_line", COLUMN_TEXT }, { "finish_line", COLUMN_TEXT },
};

static const Column club_columns[] = {
  { "club", COLUMN_TEXT },  { "standard", COLUMN_LENGTH }, { "carry", COLUMN_LENGTH },      { "change", COLUMN_LENGTH },
  { "run", COLUMN_LENGTH }, { "side", COLUMN_LENGTH },     { "run_change", COLUMN_LENGTH }, { "side_change", COLUMN_LENGTH },
};

static Table *
make_area_table (const Hole *hole, const CarryTable *carries, LengthUnit units)
{
  g_autofree char *title
      = g_strdup_printf ("Areas on the shot line and beside it, in %s from the ball", units == UNIT_YARDS ? "yards" : "metres");
  Table *table = table_new ("areas", title, area_columns, G_N_ELEMENTS (area_columns));
  for (size_t i = 0; i < carries->n_rows; i++)
    {
      const CarryRow *row = &carries->rows[i];
      const Part *part = hole_part (hole, row->part);
      char label[128];
      table_add_text (table, part->id != NULL ? part->id : part_label (part, label, sizeof label));
      table_add_text (table, kind_info (part->kind)->token);
      table_add_number (table, row->reach_m);
      table_add_number (table, row->carry_m);
      table_add_text (table, side_token (row->side));
      table_add_number (table, row->gap_m);
      table_add_number (table, row->corridor_reach_m);
      table_add_number (table, row->corridor_carry_m);
      table_add_number (table, row->clear);
    }
  return table;
}

/* One row, or none for a hole without a green. */
static Table *
make_green_table (const Hole *hole, const char *hole_name, Vec2 ball)
{
  Table *table = table_new ("green", "Green from the ball", green_columns, G_N_ELEMENTS (green_columns));
  GreenNumbers green;
  if (!odds_green_numbers (hole, hole_name, ball, &green))
    return table;
  const double cells[] = { green.front_m, green.hole_m, green.back_m, green.left_m, green.right_m, green.depth_m };
  for (size_t i = 0; i < G_N_ELEMENTS (cells); i++)
    table_add_number (table, cells[i]);
  return table;
}

static void
add_sight (Table *table, const Hole *hole, const char *line, const Sight *sight)
{
  char label[128];
  table_add_text (table, line);
  table_add_text (table, sight->of == SIGHT_AIM ? NULL : part_label (hole_part (hole, sight->part), label, sizeof label));
  table_add_text (table, sight_token (sight->of));
  table_add_number (table, sight->distance_m);
  table_add_number (table, sight->right_m);
}

/* Headed by the words. */
static Table *
make_sight_table (const Hole *hole, const char *hole_name, const ShotResult *shot, LengthUnit units)
{
  Sights sights = odds_sights (hole, hole_name, shot);
  g_autofree char *title = sights_words (hole, &sights, units, NULL);
  Table *table = table_new ("sights", title, sight_columns, G_N_ELEMENTS (sight_columns));
  add_sight (table, hole, "start", &sights.start);
  add_sight (table, hole, "finish", &sights.finish);
  return table;
}

static const char *
clear_word (bool is_clear)
{
  return is_clear ? "clear" : "trouble";
}

/* A row for the pattern and one for the curve; a row that cannot be told is left out with its reason on `err`. */
static Table *
make_room_table (const Hole *hole, const ShotResult *shot, FILE *err)
{
  Table *table
      = table_new ("room", "Room before more than one ball in ten is in trouble, and for the curve before the mean ball is",
                   room_columns, G_N_ELEMENTS (room_columns));
  g_autoptr (GError) no_room = NULL;
  Room room;
  ShapeRoom shape;
  if (odds_room (hole, shot, &room, &no_room))
    {
      const double cells[] = { room.left_m, room.right_m, room.short_m, room.long_m, room.trouble };
      table_add_text (table, "pattern");
      for (size_t c = 0; c < G_N_ELEMENTS (cells); c++)
        table_add_number (table, cells[c]);
      table_add_text (table, clear_word (room.start_is_clear));
      table_add_text (table, clear_word (room.finish_is_clear));
    }
  else
    message_print (err, no_room->message);
  if (odds_shape_room (hole, shot, &shape, NULL))
    {
      const double cells[] = { shape.left_m, shape.right_m, NAN, NAN, NAN };
      table_add_text (table, "curve");
      for (size_t c = 0; c < G_N_ELEMENTS (cells); c++)
        table_add_number (table, cells[c]);
      table_add_text (table, NULL);
      table_add_text (table, clear_word (shape.is_clear));
    }
  return table;
}

static Table *
make_club_table (const Hole *hole, const ShotResult *shot, const Bag *bag)
{
  size_t n_clubs = bag_n_clubs (bag);
  g_autofree ClubDay *clubs = g_new (ClubDay, n_clubs + 1);
  odds_clubs_day (hole, shot->ball, shot->aim, bag, &shot->conditions, clubs);
  Table *table = table_new ("clubs", "What the day does to each club from there", club_columns, G_N_ELEMENTS (club_columns));
  for (size_t i = 0; i < n_clubs; i++)
    {
      const double cells[] = { clubs[i].standard.carry_m, clubs[i].today.carry_m, clubs[i].carry_change_m, clubs[i].today.run_m,
                               clubs[i].today.side_m,     clubs[i].run_change_m,  clubs[i].side_change_m };
      table_add_text (table, clubs[i].today.club->name);
      for (size_t c = 0; c < G_N_ELEMENTS (cells); c++)
        table_add_number (table, cells[c]);
    }
  return table;
}

static bool
write_carries (const Options *options, FILE *out, FILE *err, GError **error)
{
  AskedShot asked;
  if (!asked_shot_fly (&asked, options, err, error))
    return false;
  const ShotResult *shot = &asked.result;
  if (hole_green (asked.hole, options->hole) < 0)
    {
      g_autofree char *message = g_strdup_printf (
          "%s:1: the hole has no green, so nothing is said of it; draw an area with hw:kind=\"green\"", options->files[0]);
      message_print (err, message);
    }
  g_autoptr (CarryTable) carries = carry_table_new (asked.hole, shot);
  g_autoptr (Table) shot_table = asked_shot_table (&asked);
  g_autoptr (Table) area_table = make_area_table (asked.hole, carries, options->units);
  g_autoptr (Table) green_table = make_green_table (asked.hole, options->hole, shot->ball);
  g_autoptr (Table) sight_table = make_sight_table (asked.hole, options->hole, shot, options->units);
  g_autoptr (Table) club_table = make_club_table (asked.hole, shot, asked.bag);
  g_autoptr (Table) room_table = make_room_table (asked.hole, shot, err);
  Table *tables[] = { shot_table, area_table, sight_table, room_table, green_table, green_table };
  size_t n_tables = G_N_ELEMENTS (tables) - 1;
  /* People find what the clubs do on the standard day in the bag. */
  Conditions standard = conditions_standard ();
  if (options->format != FORMAT_TABLE || options->rows != NULL || !conditions_equal (&asked.conditions, &standard))
    tables[n_tables++ - 1] = club_table;
  bool is_written = tables_write (tables, n_tables, 1, options, out, error);
  asked_shot_clear (&asked);
  return is_written;
}

int
command_carries (int argc, char **argv, FILE *out, FILE *err)
{
  g_autoptr (GError) error = NULL;
  Options options;
  bool is_done = options_parse (&options, FOR_CARRIES, argc, argv, &error);
  if (is_done && options.is_help)
    options_print_help (
        out, argv[0], "FILE",
        "Prints the carry table of one shot: for each area that its line crosses, where the line reaches it, the carry over\n"
        "it, and the chance that this shot carries past it; those that only the usual miss touches follow with their gap.\n"
        "The ball flies in the day's wind and air over the hole's heights, then runs on until it rests; what is left is told\n"
        "from there. 'plays' is the carry in still air on level ground whose swing lands at the distance of the aim.\n"
        "Landmarks say what to start the ball at and where it finishes: how far to the right (negative: left) of each the "
        "line\n"
        "passes. Room says how far the pattern, or the curve alone, may be off to each side and still be in play. The clubs "
        "are told as they carry, run and drift (+ right) from there, and what of it is the day's doing.\n"
        "Lengths are in the units asked for, places (X,Y) always in metres in the hole frame. CSV is one table, areas unless\n"
        "--rows names another (shot, sights, room, clubs, green); JSON holds all, each an array of rows.",
        FOR_CARRIES);
  else if (is_done && options.n_files != 1)
    {
      g_set_error_literal (&error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                           "carries takes one hole file; see 'holewright carries --help'");
      is_done = false;
    }
  else if (is_done)
    is_done = write_carries (&options, out, err, &error);
  options_clear (&options);
  return is_done ? STATUS_DONE : message_fail (err, error);
}
