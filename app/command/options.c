// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * options - the one table of options that every command line is read by.
 *
 * Written by hand rather than with GOption because an aim such as -14,205 begins like an option, and because every mistake must
 * say what to do.
 */
#include "command-private.h"

#include <string.h>

typedef bool (*OptionParse) (void *field, const char *value, GError **error);

typedef struct
{
  const char *name;
  char letter;          /* 0: none */
  const char *argument; /* NULL: a switch */
  unsigned commands;    /* mask of those that take it */
  OptionParse parse;
  size_t field; /* offset in Options */
  const char *help;
} OptionRow;

static bool
usage_error (GError **error, const char *format, const char *value)
{
  g_autofree char *message = g_strdup_printf (format, value);
  g_set_error_literal (error, COMMAND_ERROR, COMMAND_ERROR_USAGE, message);
  return false;
}

static bool
parse_text (void *field, const char *value, GError **error)
{
  *(const char **)field = value;
  return *value != '\0' ? true : usage_error (error, "an option has an empty value%s; give it one or leave it out", "");
}

static bool
parse_switch (void *field, const char *value, GError **error)
{
  *(bool *)field = true;
  return true;
}

static bool
parse_swing (void *field, const char *value, GError **error)
{
  double share;
  if (strcmp (value, "fit") == 0)
    *(double *)field = NAN;
  else if (units_parse_number (value, &share) && share > 0 && share <= 1)
    *(double *)field = share;
  else
    return usage_error (error, "--swing '%s' is not a share of a full swing; give a number above 0 and up to 1, or 'fit'",
                        value);
  return true;
}

static bool
parse_units (void *field, const char *value, GError **error)
{
  return unit_parse (value, field) ? true : usage_error (error, "--units '%s' is not known; give yards or metres", value);
}

static bool
parse_format (void *field, const char *value, GError **error)
{
  static const char *const tokens[] = { "table", "csv", "json" };
  for (size_t i = 0; i < G_N_ELEMENTS (tokens); i++)
    if (strcmp (value, tokens[i]) == 0)
      {
        *(TableFormat *)field = (TableFormat)i;
        return true;
      }
  return usage_error (error, "--format '%s' is not known; give table, csv or json", value);
}

static bool
parse_level (void *field, const char *value, GError **error)
{
  if (level_from_token (value, field))
    return true;
  g_autoptr (GString) known = g_string_new ("--level '%s' is not known; give ");
  for (int level = 0; level < N_LEVELS; level++)
    g_string_append_printf (known, "%s%s", level == 0 ? "" : (level == N_LEVELS - 1 ? " or " : ", "),
                            level_token ((Level)level));
  return usage_error (error, known->str, value);
}

static bool
parse_page (void *field, const char *value, GError **error)
{
  if (card_page_from_token (value, field))
    return true;
  g_autoptr (GString) known = g_string_new ("--page '%s' is not known; give ");
  for (int page = 0; page < N_CARD_PAGES; page++)
    g_string_append_printf (known, "%s%s", page == 0 ? "" : (page == N_CARD_PAGES - 1 ? " or " : ", "),
                            card_page_info ((CardPage)page)->token);
  return usage_error (error, known->str, value);
}

/* Denominators a card can have: a stride on the page to the whole hole on a stamp. */
#define SMALLEST_SCALE 100
#define LARGEST_SCALE 100000

static bool
parse_scale (void *field, const char *value, GError **error)
{
  double scale;
  const char *number = g_str_has_prefix (value, "1:") ? value + 2 : value;
  if (!units_parse_number (number, &scale) || scale < SMALLEST_SCALE || scale > LARGEST_SCALE || scale != floor (scale))
    return usage_error (error, "--scale '%s' is not a scale; give a whole number such as 2500 for 1:2500", value);
  *(int *)field = (int)scale;
  return true;
}

/* The mask of a comma-separated list of blocks. */
static bool
parse_block_list (const char *value, unsigned *mask, GError **error)
{
  g_auto (GStrv) words = g_strsplit (value, ",", -1);
  *mask = 0;
  for (char **word = words; *word != NULL; word++)
    {
      size_t i = 0;
      while (card_block_table[i].name != NULL && strcmp (card_block_table[i].name, *word) != 0)
        i++;
      if (card_block_table[i].name == NULL)
        {
          g_autoptr (GString) known = g_string_new ("the card has no block '%s'; its blocks are ");
          for (size_t k = 0; card_block_table[k].name != NULL; k++)
            g_string_append_printf (known, "%s%s", k == 0 ? "" : ", ", card_block_table[k].name);
          return usage_error (error, known->str, *word);
        }
      *mask |= 1u << i;
    }
  return true;
}

static bool
parse_blocks (void *field, const char *value, GError **error)
{
  return parse_block_list (value, field, error);
}

static bool
parse_without (void *field, const char *value, GError **error)
{
  unsigned mask;
  if (!parse_block_list (value, &mask, error))
    return false;
  *(unsigned *)field &= ~mask;
  return true;
}

#define FIELD(name) G_STRUCT_OFFSET (Options, name)

static const OptionRow option_table[] = {
  { "from", 0, "NAME|X,Y", FOR_CARRIES | FOR_ODDS, parse_text, FIELD (from),
    "where the ball lies: a tee, a mark, any part by name, or metres in the hole frame, y up (default: the tee marker in "
    "use)" },
  { "aim", 0, "NAME|X,Y", FOR_CARRIES | FOR_ODDS, parse_text, FIELD (aim), "where it is aimed (default: the hole)" },
  { "club", 0, "NAME", FOR_CARRIES | FOR_ODDS, parse_text, FIELD (club),
    "club of the bag (default: the plan's club where the shot is the plan's first, else the club whose full carry comes "
    "nearest the aim)" },
  { "swing", 0, "SHARE|fit", FOR_CARRIES | FOR_ODDS, parse_swing, FIELD (swing),
    "share of a full swing, or 'fit' for the share that lands on the aim (default: 1)" },
  { "bag", 0, "FILE", FOR_CARRIES | FOR_ODDS | FOR_CARD | FOR_PLAN, parse_text, FIELD (bag),
    "the golfer's clubs (default: bag.csv beside the hole)" },
  { "lies", 0, "FILE", FOR_CARRIES | FOR_ODDS | FOR_CARD | FOR_BAG | FOR_PLAN, parse_text, FIELD (lies),
    "what rough, sand and the like do to a shot (default: lies.csv beside the bag, else common practice)" },
  { "level", 0, "LEVEL", FOR_CHECK | FOR_CARRIES | FOR_ODDS | FOR_CARD | FOR_BAG | FOR_PLAN, parse_level, FIELD (level),
    "whose published spread fills a gap in the bag: scratch-men (default), scratch-women, bogey-men or bogey-women" },
  { "tee", 0, "NAME", FOR_CARRIES | FOR_ODDS | FOR_CARD | FOR_PLAN, parse_text, FIELD (tee),
    "tee marker to play from (default: the plan's, else the first)" },
  { "hole", 0, "NAME", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (hole),
    "hole location (default: the plan's, else today's, else the first)" },
  { "wind", 0, "SPEED@BEARING", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (wind),
    "wind and the bearing it comes from, such as 10mph@270, 4m/s@45 or 0mph for none (default: the plan's, else none)" },
  { "temperature", 0, "DEGREES", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (temperature),
    "of the air, in degrees Celsius or such as 61F (default: the plan's, else 20)" },
  { "pressure", 0, "HPA", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (pressure),
    "of the air where the hole lies, in hPa or such as 29.92inHg (default: the plan's, else from the altitude)" },
  { "altitude", 0, "HEIGHT", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (altitude),
    "of the hole above the sea, such as 2000ft or 610m (default: the plan's, else the hole's, else 0)" },
  { "humidity", 0, "SHARE", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (humidity),
    "0 to 1, or such as 60% (default: the plan's, else 0.5)" },
  { "firmness", 0, "WORD", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (firmness),
    "of the ground: soft, medium or firm (default: the plan's, else medium)" },
  { "green-speed", 0, "FEET", FOR_CARRIES | FOR_ODDS | FOR_PLAN, parse_text, FIELD (green_speed),
    "as a stimpmeter reads it (default: the plan's, else 9)" },
  { "units", 0, "UNITS", FOR_CHECK | FOR_CARRIES | FOR_ODDS | FOR_CARD | FOR_BAG | FOR_PLAN, parse_units, FIELD (units),
    "yards (default) or metres" },
  { "format", 0, "FORMAT", FOR_CHECK | FOR_CARRIES | FOR_ODDS | FOR_BAG | FOR_PLAN, parse_format, FIELD (format),
    "table (default), csv or json" },
  { "rows", 0, "TABLE", FOR_CARRIES | FOR_ODDS | FOR_BAG | FOR_PLAN, parse_text, FIELD (rows),
    "only this table: areas (what csv gives without --rows) or shot; of carries also sights, room, clubs or green; of a bag clubs or "
    "lies; of odds also strokes, ends, clubs or number; of a plan shots, reasons, sureness or total, with --compare also alternatives, difference or wind" },
  { "map", 0, "OUT", FOR_ODDS, parse_text, FIELD (map),
    "also write what every aim of the club costs: OUT ends in .csv or .png" },
  { "fit", 0, "SHOTS", FOR_BAG, parse_text, FIELD (fit), "make the bag from these recorded shots, a CSV file" },
  { "page", 0, "PAGE", FOR_CARD, parse_page, FIELD (page), "pocket (108 x 178 mm, default), a6, a5 or half-letter" },
  { "scale", 0, "N", FOR_CARD, parse_scale, FIELD (scale),
    "draw the hole at 1:N (default: the largest round scale that fits)" },
  { "blocks", 0, "LIST", FOR_CARD, parse_blocks, FIELD (blocks),
    "only these blocks, such as title,diagram,carries (default: all)" },
  { "without", 0, "LIST", FOR_CARD, parse_without, FIELD (blocks), "all blocks but these" },
  { "compare", 0, NULL, FOR_PLAN, parse_switch, FIELD (is_compared),
    "also other plans, the drawing's own among them, and other winds" },
  { "grey", 0, NULL, FOR_CARD, parse_switch, FIELD (is_grey), "greys only, as a mono printer gives" },
  { "output", 'o', "OUT", FOR_CHECK | FOR_CARRIES | FOR_ODDS | FOR_CARD | FOR_BAG | FOR_PLAN, parse_text, FIELD (output),
    "write to this file, whole or not at all (default: standard output; a card needs it)" },
  { "help", 'h', NULL, FOR_CHECK | FOR_CARRIES | FOR_ODDS | FOR_CARD | FOR_BAG | FOR_PLAN, parse_switch, FIELD (is_help),
    "this text" },
};

/* The row that `argument` names; `*value` is what follows its "=", or NULL. */
static const OptionRow *
find_row (const char *argument, const char **value)
{
  *value = NULL;
  for (size_t i = 0; i < G_N_ELEMENTS (option_table); i++)
    {
      const OptionRow *row = &option_table[i];
      if (argument[1] != '-')
        {
          if (row->letter == 0 || argument[1] != row->letter)
            continue;
          *value = argument[2] != '\0' ? argument + 2 : NULL;
          return row;
        }
      size_t length = strlen (row->name);
      if (strncmp (argument + 2, row->name, length) != 0)
        continue;
      if (argument[2 + length] == '=')
        *value = argument + 3 + length;
      if (argument[2 + length] == '=' || argument[2 + length] == '\0')
        return row;
    }
  return NULL;
}

static bool
parse_option (Options *options, unsigned command, int argc, char **argv, int *i, GError **error)
{
  const char *value;
  const OptionRow *row = find_row (argv[*i], &value);
  if (row == NULL || (row->commands & command) == 0)
    {
      g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_USAGE, "%s does not know the option '%s'; see 'holewright %s --help'",
                   argv[0], argv[*i], argv[0]);
      return false;
    }
  if (row->argument == NULL && value != NULL)
    return usage_error (error, "'%s' takes no value; leave it out", argv[*i]);
  if (row->argument != NULL && value == NULL)
    {
      if (*i + 1 >= argc)
        {
          g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_USAGE, "'%s' needs a value; write --%s %s", argv[*i], row->name,
                       row->argument);
          return false;
        }
      value = argv[++*i];
    }
  return row->parse ((char *)options + row->field, value, error);
}

bool
options_parse (Options *options, unsigned command, int argc, char **argv, GError **error)
{
  *options = (Options){ .level = LEVEL_DEFAULT, .units = UNIT_YARDS, .blocks = card_all_blocks () };
  options->files = g_new0 (char *, (size_t)argc + 1);
  bool are_options_over = false;
  for (int i = 1; i < argc; i++)
    if (!are_options_over && strcmp (argv[i], "--") == 0)
      are_options_over = true;
    else if (are_options_over || argv[i][0] != '-' || argv[i][1] == '\0')
      options->files[options->n_files++] = argv[i];
    else if (!parse_option (options, command, argc, argv, &i, error))
      return false;
  return true;
}

void
options_clear (Options *options)
{
  g_clear_pointer (&options->files, g_free);
}

void
options_print_help (FILE *out, const char *name, const char *arguments, const char *summary, unsigned command)
{
  fprintf (out, "Usage: holewright %s %s [options]\n%s\n\n", name, arguments, summary);
  for (size_t i = 0; i < G_N_ELEMENTS (option_table); i++)
    {
      const OptionRow *row = &option_table[i];
      if ((row->commands & command) == 0)
        continue;
      g_autofree char *left
          = g_strdup_printf ("%c%c%s--%s %s", row->letter != 0 ? '-' : ' ', row->letter != 0 ? row->letter : ' ',
                             row->letter != 0 ? ", " : "  ", row->name, row->argument != NULL ? row->argument : "");
      fprintf (out, "  %-22s %s\n", left, row->help);
    }
}
