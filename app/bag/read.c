// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Reading a bag file: a club a line. A number's column is one row of the table with the range it may have.
 */
#include "bag-private.h"

#include <math.h>

/* The limits only tell a slip of the pen from a number (common practice). */
static const ColumnInfo columns[N_BAG_COLUMNS] = {
  [BAG_COLUMN_CLUB] = { "club", .is_needed = true },
  [BAG_COLUMN_CARRY] = { "carry", true, true, 1, BAG_LONGEST_CARRY_M, "more than 1 metre and at most 500 (547 yards)" },
  [BAG_COLUMN_CARRY_SD] = { "carry_sd", true, false, 0, 100, "0 or more and at most 100 metres (109 yards)" },
  [BAG_COLUMN_SIDE_SD] = { "side_sd", true, false, 0, 100, "0 or more and at most 100 metres (109 yards)" },
  [BAG_COLUMN_CORRELATION] = { "correlation", false, false, -1, 1, "from -1 to 1" },
  [BAG_COLUMN_SIDE_BIAS] = { "side_bias", true, false, -100, 100, "at most 100 metres (109 yards) to either side" },
  [BAG_COLUMN_LOFT] = { "loft_deg", false, false, 0, 90, "from 0 to 90 degrees" },
  [BAG_COLUMN_APEX] = { "apex", true, false, 0, 100, "0 or more and at most 100 metres (109 yards)" },
  [BAG_COLUMN_CURVE] = { "curve", true, false, -100, 100, "at most 100 metres (109 yards) to either side" },
  [BAG_COLUMN_SURFACES] = { "surfaces" },
  [BAG_COLUMN_MISHIT] = { "mishit_pct", false, false, 0, 100, "from 0 to 100 per cent" },
  [BAG_COLUMN_MISHIT_CARRY] = { "mishit_carry_pct", false, false, 0, 100, "from 0 to 100 per cent" },
  [BAG_COLUMN_SHOTS] = { "shots", false, false, 1, SHOT_LOG_MOST_SHOTS },
  [BAG_COLUMN_CARRY_SE] = { "carry_se", true, false, 0, 100 },
  [BAG_COLUMN_CARRY_SD_SE] = { "carry_sd_se", true, false, 0, 100 },
  [BAG_COLUMN_SIDE_SD_SE] = { "side_sd_se", true, false, 0, 100 },
  [BAG_COLUMN_CORRELATION_SE] = { "correlation_se", false, false, 0, 2 },
  [BAG_COLUMN_SIDE_BIAS_SE] = { "side_bias_se", true, false, 0, 100 },
  [BAG_COLUMN_MISHIT_SE] = { "mishit_se_pct", false, false, 0, 100 },
  [BAG_COLUMN_MISHIT_CARRY_SE] = { "mishit_carry_se_pct", false, false, 0, 100 },
};

/* A bag is fourteen lines; a larger file is something else (common practice). */
const SheetInfo bag_sheet
    = { "bag", "clubs", "a club a line", "club,carry_yd", .most_mib = 1, .columns = columns, .n_columns = N_BAG_COLUMNS };

typedef struct
{
  Level level;
  GPtrArray *rows;           /* what has been read */
  GHashTable *lines_by_name; /* folded name -> line, to find a club given twice */
} Reading;

/* The carry, and the spread of a range: `*long_sd_m` stays as it is for a single number. */
static bool
read_carry (const Sheet *sheet, const GPtrArray *record, unsigned line, Club *club, GError **error)
{
  const CsvField *field = sheet_cell (sheet, record, BAG_COLUMN_CARRY);
  const ColumnInfo *info = &columns[BAG_COLUMN_CARRY];
  double low_m, high_m;
  if (field == NULL)
    return sheet_fail (sheet, error, line, "%s has no carry; write how far it carries, such as 190 or 185-195", club->name);
  if (!units_parse_range (field->text, sheet->layout.unit[BAG_COLUMN_CARRY], &low_m, &high_m))
    return sheet_fail_cell (sheet, error, field, BAG_COLUMN_CARRY, "a number such as 190 or a range such as 185-195");
  if (!(low_m > info->least && high_m <= info->most))
    {
      g_autofree char *wanted = g_strconcat ("a carry of ", info->range, NULL);
      return sheet_fail_cell (sheet, error, field, BAG_COLUMN_CARRY, wanted);
    }
  club->carry_m = (low_m + high_m) / 2;
  if (high_m > low_m)
    club->carry_sd_m = (high_m - low_m) / 2 / TWO_OF_THREE_LINE;
  return true;
}

static bool
read_surfaces (const Sheet *sheet, const GPtrArray *record, Club *club, GError **error)
{
  const CsvField *field = sheet_cell (sheet, record, BAG_COLUMN_SURFACES);
  if (field == NULL)
    return true;
  club->tee_only = g_ascii_strcasecmp (field->text, "tee") == 0;
  return club->tee_only
         || sheet_fail_cell (sheet, error, field, BAG_COLUMN_SURFACES,
                             "tee for a club played off the tee only, or leave it empty");
}

static bool
read_name (Reading *reading, const Sheet *sheet, const GPtrArray *record, unsigned line, Club *club, GError **error)
{
  const CsvField *field = sheet_cell (sheet, record, BAG_COLUMN_CLUB);
  if (field == NULL)
    return sheet_fail (sheet, error, line, "a club has no name; write one in the column club");
  club->name = g_strdup (field->text);
  for (char *c = club->name; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';

  g_autofree char *folded = g_utf8_casefold (club->name, -1);
  gpointer earlier = g_hash_table_lookup (reading->lines_by_name, folded);
  if (earlier != NULL)
    return sheet_fail (sheet, error, field->line, "%s is already on line %u; give each club one line and its own name",
                       club->name, GPOINTER_TO_UINT (earlier));
  g_hash_table_insert (reading->lines_by_name, g_steal_pointer (&folded), GUINT_TO_POINTER (field->line));
  return true;
}

static bool
read_numbers (const Sheet *sheet, const GPtrArray *record, Club *club, GError **error)
{
  double mishit_pct = 0, mishit_carry_pct = NAN;
  if (!sheet_number (sheet, record, BAG_COLUMN_CARRY_SD, &club->carry_sd_m, error)
      || !sheet_number (sheet, record, BAG_COLUMN_SIDE_SD, &club->side_sd_m, error)
      || !sheet_number (sheet, record, BAG_COLUMN_CORRELATION, &club->correlation, error)
      || !sheet_number (sheet, record, BAG_COLUMN_SIDE_BIAS, &club->side_bias_m, error)
      || !sheet_number (sheet, record, BAG_COLUMN_LOFT, &club->loft_deg, error)
      || !sheet_number (sheet, record, BAG_COLUMN_APEX, &club->apex_m, error)
      || !sheet_number (sheet, record, BAG_COLUMN_CURVE, &club->curve_m, error)
      || !sheet_number (sheet, record, BAG_COLUMN_MISHIT, &mishit_pct, error)
      || !sheet_number (sheet, record, BAG_COLUMN_MISHIT_CARRY, &mishit_carry_pct, error))
    return false;
  club->mishit_chance = mishit_pct / 100;
  club->mishit_carry_share = mishit_carry_pct / 100;
  return true;
}

/* A figure about a figure: NAN where it is missing or makes no sense, for a column of that name may be the golfer's own. */
static double
read_error (const Sheet *sheet, const GPtrArray *record, BagColumn column)
{
  const CsvField *field = sheet_cell (sheet, record, column);
  const ColumnInfo *info = &columns[column];
  double number;
  if (field == NULL || !units_parse_number (field->text, &number))
    return NAN;
  number = info->is_length ? unit_to_metres (sheet->layout.unit[column], number) : number;
  return number >= info->least && number <= info->most ? number : NAN;
}

static void
read_errors (const Sheet *sheet, const GPtrArray *record, ClubErrors *errors)
{
  double n_shots = read_error (sheet, record, BAG_COLUMN_SHOTS);
  if (isnan (n_shots) || n_shots != floor (n_shots))
    return;
  *errors = (ClubErrors){ .n_shots = (size_t)n_shots,
                          .carry_m = read_error (sheet, record, BAG_COLUMN_CARRY_SE),
                          .carry_sd_m = read_error (sheet, record, BAG_COLUMN_CARRY_SD_SE),
                          .side_sd_m = read_error (sheet, record, BAG_COLUMN_SIDE_SD_SE),
                          .correlation = read_error (sheet, record, BAG_COLUMN_CORRELATION_SE),
                          .side_bias_m = read_error (sheet, record, BAG_COLUMN_SIDE_BIAS_SE),
                          .mishit_chance = read_error (sheet, record, BAG_COLUMN_MISHIT_SE) / 100,
                          .mishit_carry_share = read_error (sheet, record, BAG_COLUMN_MISHIT_CARRY_SE) / 100 };
}

static void
fill_spread (Level level, Club *club)
{
  double side_sd_m, long_sd_m;
  accuracy_spread (level, club->carry_m, &side_sd_m, &long_sd_m);
  club->side_sd_from_level = isnan (club->side_sd_m);
  club->carry_sd_from_level = isnan (club->carry_sd_m);
  club->spread_from_level = club->side_sd_from_level || club->carry_sd_from_level;
  if (isnan (club->side_sd_m))
    club->side_sd_m = side_sd_m;
  if (isnan (club->carry_sd_m))
    club->carry_sd_m = long_sd_m;
}

/* How the ball leaves the club, or the reader's sentence why none flies like that. */
static bool
solve_launch (const Sheet *sheet, unsigned line, Club *club, GError **error)
{
  g_autoptr (GError) refusal = NULL;
  FlightShape shape = { club->carry_m, units_radians (club->loft_deg), club->apex_m, club->curve_m };
  Flight flight;
  FlightInput standard = { .direction = { 0, 1 }, .air = air_standard () };
  bool is_solved = flight_launch (&shape, &club->launch, &refusal);
  standard.launch = club->launch;
  if (is_solved && flight_solve (&standard, &flight, &refusal))
    {
      club->lands = flight_landing (&flight).at;
      return true;
    }
  return sheet_fail (sheet, error, line, "%s: %s", club->name, refusal->message);
}

static bool
take_club (void *data, const Sheet *sheet, const GPtrArray *record, unsigned line, GError **error)
{
  Reading *reading = data;
  BagRow *row = g_new0 (BagRow, 1);
  Club *club = &row->club;
  g_ptr_array_add (reading->rows, row);
  row->line = reading->rows->len;
  club_init (club);
  if (!read_name (reading, sheet, record, line, club, error) || !read_carry (sheet, record, line, club, error)
      || !read_numbers (sheet, record, club, error) || !read_surfaces (sheet, record, club, error)
      || !solve_launch (sheet, line, club, error))
    return false;
  read_errors (sheet, record, &club->errors);
  fill_spread (reading->level, club);
  return true;
}

Bag *
bag_read_edited (GBytes *bytes, const char *name, Level level, GError **error)
{
  g_autoptr (GHashTable) lines_by_name = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Bag *bag = bag_new_reading (bytes, name, level);
  Reading reading = { level, bag->rows, lines_by_name };
  Sheet sheet = { .info = &bag_sheet, .name = name, .warnings = bag->warnings };
  size_t n_clubs;
  if (!sheet_read (&sheet, bytes, take_club, &reading, &n_clubs, error))
    {
      bag_unref (bag);
      return NULL;
    }
  bag->header_line = sheet.header_line;
  if (n_clubs > BAG_MOST_CLUBS)
    g_ptr_array_add (bag->warnings,
                     g_strdup_printf ("%s: %zu clubs are in the bag; the Rules of Golf allow at most %d (Rule 4.1b)", name,
                                      n_clubs, BAG_MOST_CLUBS));
  bag_seal (bag, &sheet.layout);
  return bag;
}

Bag *
bag_read_bytes (GBytes *bytes, const char *name, Level level, GError **error)
{
  g_autoptr (Bag) bag = bag_read_edited (bytes, name, level, error);
  if (bag == NULL || bag_n_clubs (bag) > 0)
    return g_steal_pointer (&bag);
  Sheet sheet = { .info = &bag_sheet, .name = name, .header_line = bag->header_line };
  sheet_fail_empty (&sheet, error);
  return NULL;
}

/* The table of lies beside the bag, where there is one. */
static bool
read_lies_beside (const char *path, LieTable *lies, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path), *file = g_build_filename (folder, BAG_LIES_FILE, NULL);
  return !g_file_test (file, G_FILE_TEST_EXISTS) || lie_table_read_file (file, lies, error);
}

Bag *
bag_read_file (const char *path, Level level, GError **error)
{
  g_autoptr (GBytes) bytes = sheet_file_bytes (&bag_sheet, path, error);
  g_autoptr (Bag) bag = bytes != NULL ? bag_read_bytes (bytes, path, level, error) : NULL;
  if (bag == NULL || !read_lies_beside (path, &bag->lies, error))
    return NULL;
  return g_steal_pointer (&bag);
}
