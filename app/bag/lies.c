// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a lie does to a shot: one table, a row a lie, read and written as a file of the bag's kind.
 */
#include "bag.h"
#include "sheet-private.h"
#include "units.h"

#include <math.h>

enum
{
  COLUMN_LIE,
  COLUMN_CARRY,
  COLUMN_LONG,
  COLUMN_SIDE,
  COLUMN_SPIN,
  COLUMN_LEAST_LOFT,
  COLUMN_LACKING,
  COLUMN_STANCE,
  N_COLUMNS
};

/* The limits only tell a slip of the pen from a number (common practice). */
static const ColumnInfo columns[N_COLUMNS] = {
  [COLUMN_LIE] = { "lie", .is_needed = true },
  [COLUMN_CARRY] = { "carry_pct", false, false, 10, 120, "from 10 to 120 per cent" },
  [COLUMN_LONG] = { "long_spread_pct", false, false, 10, 1000, "from 10 to 1000 per cent" },
  [COLUMN_SIDE] = { "side_spread_pct", false, false, 10, 1000, "from 10 to 1000 per cent" },
  [COLUMN_SPIN] = { "spin_pct", false, false, 10, 200, "from 10 to 200 per cent" },
  [COLUMN_LEAST_LOFT] = { "least_loft_deg", false, false, 0, 64, "from 0 to 64 degrees" },
  [COLUMN_LACKING] = { "lacking_loft_pct", false, false, 0, 20, "from 0 to 20 per cent a degree" },
  [COLUMN_STANCE] = { "stance_pct", false, false, 0, 100, "from 0 to 100 per cent" },
};

static const SheetInfo lie_sheet = { .noun = "table of lies",
                                     .rows = "lies",
                                     .row = "a lie a line",
                                     .header = "lie,carry_pct",
                                     .most_mib = 1,
                                     .columns = columns,
                                     .n_columns = N_COLUMNS };

typedef struct
{
  const char *token;
  double figures[N_COLUMNS - 1]; /* as the columns of the file */
} LieRow;

/*
 * As from the fairway, in per cent. Where nothing else is said these are common practice: a rounded judgement of what teachers and players expect of a
 * full swing, for the golfer to replace by their own.
 * rough: published tour approaches miss from the rough by about 4.3 per cent of the distance more than the 4.6 to 5.3 from the fairway at 100 to 200 yd
 * (James and Rees 2008, Int. J. Sports Sci. Coaching 3 suppl. 145-160): (4.95 + 4.3) / 4.95 = 1.87 times the spread. Grass between face and ball takes
 * spin, and a club's length or less of carry.
 * deep-rough: the club is slowed and turned; hardly more than a recovery.
 * sand, waste: ball first off firm footing; a heavy strike costs most of the shot, so the spread along the line grows most.
 * trees: the ball lies on bare or littered ground and the swing is rarely free.
 * penalty-area: played from it only where the ball can be played, as from deep rough.
 * The last three: a club of less loft than that digs or twists in the grass, or meets the lip of the bunker; so many per cent of its carry go for each degree that it
 * lacks, more than the 1.5 per cent that a degree of loft is worth on clean turf, so that the longer club goes no farther. The stance of a full swing turns with the ground
 * (teachers: shoulders along the slope); on a tee one stands level.
 * path, building: free relief is at hand (Rules of Golf, Rule 16.1), so as from the fairway. Out of bounds nothing is played; its row says nothing.
 */
static const LieRow usual[N_LIES] = {
  [LIE_NONE] = { NULL, { 100, 100, 100, 100, 0, 0, 100 } },
  [LIE_TEE] = { "tee", { 100, 100, 100, 100, 0, 0, 0 } },
  [LIE_FAIRWAY] = { "fairway", { 100, 100, 100, 100, 0, 0, 100 } },
  [LIE_FIRST_CUT] = { "first-cut", { 98, 115, 115, 90, 0, 0, 100 } },
  [LIE_ROUGH] = { "rough", { 93, 187, 187, 60, 20, 2, 100 } },
  [LIE_DEEP_ROUGH] = { "deep-rough", { 75, 260, 260, 45, 36, 3, 100 } },
  [LIE_FRINGE] = { "fringe", { 100, 105, 105, 95, 0, 0, 100 } },
  [LIE_GREEN] = { "green", { 100, 100, 100, 100, 0, 0, 100 } },
  [LIE_SAND] = { "sand", { 92, 170, 140, 90, 24, 3, 100 } },
  [LIE_WASTE] = { "waste", { 93, 160, 135, 90, 20, 2.5, 100 } },
  [LIE_PENALTY] = { "penalty-area", { 75, 260, 260, 45, 36, 3, 100 } },
  [LIE_OUT_OF_BOUNDS] = { NULL, { 100, 100, 100, 100, 0, 0, 100 } },
  [LIE_TREES] = { "trees", { 85, 220, 220, 70, 16, 2, 100 } },
  [LIE_PATH] = { "path", { 100, 100, 100, 100, 0, 0, 100 } },
  [LIE_BUILDING] = { "building", { 100, 100, 100, 100, 0, 0, 100 } },
};

const char *
lie_token (Lie lie)
{
  g_assert ((unsigned)lie < N_LIES);
  return usual[lie].token;
}

/* The figure of an effect that a column holds, and how many of what the file tells make 1 of it. */
static double *
figure_at (LieEffect *effect, int column, double *per_one)
{
  const double per_cent = 100, degrees = units_degrees (1);
  const struct
  {
    double *figure, per_one;
  } figures[N_COLUMNS] = { [COLUMN_CARRY] = { &effect->carry_factor, per_cent },
                           [COLUMN_LONG] = { &effect->long_factor, per_cent },
                           [COLUMN_SIDE] = { &effect->side_factor, per_cent },
                           [COLUMN_SPIN] = { &effect->spin_factor, per_cent },
                           [COLUMN_LEAST_LOFT] = { &effect->least_loft_rad, degrees },
                           [COLUMN_LACKING] = { &effect->lacking_loss, per_cent / degrees },
                           [COLUMN_STANCE] = { &effect->stance_share, per_cent } };
  *per_one = figures[column].per_one;
  return figures[column].figure;
}

static void
take_figure (LieEffect *effect, int column, double written)
{
  double per_one, *figure = figure_at (effect, column, &per_one);
  *figure = written / per_one;
}

LieTable
lie_table_usual (void)
{
  LieTable table;
  for (int lie = 0; lie < N_LIES; lie++)
    for (int c = COLUMN_CARRY; c < N_COLUMNS; c++)
      take_figure (&table.effects[lie], c, usual[lie].figures[c - 1]);
  return table;
}

bool
lie_effect_is_none (const LieEffect *effect)
{
  return effect->carry_factor == 1 && effect->long_factor == 1 && effect->side_factor == 1 && effect->spin_factor == 1
         && !(effect->least_loft_rad > 0 && effect->lacking_loss > 0);
}

LieEffect
lie_effect_on (const LieTable *table, Lie lie, const Club *club)
{
  LieEffect effect = table->effects[lie];
  double loft_rad = club->loft_deg > 0 ? units_radians (club->loft_deg) : flight_usual_loft (club->carry_m);
  double lacking_rad = fmax (0, effect.least_loft_rad - loft_rad);
  effect.carry_factor *= fmax (LEAST_LIE_CARRY, 1 - effect.lacking_loss * lacking_rad);
  return effect;
}

/* ---- reading ---- */

typedef struct
{
  LieTable table;
  size_t rows[N_LIES]; /* of CsvText, 0: the file has no such lie */
  size_t n_rows;
} Reading;

static bool
find_lie (const Sheet *sheet, const CsvField *field, Lie *lie, GError **error)
{
  g_autoptr (GString) known = g_string_new (NULL);
  for (int i = 0; i < N_LIES; i++)
    if (usual[i].token != NULL)
      {
        if (g_ascii_strcasecmp (usual[i].token, field->text) == 0)
          {
            *lie = (Lie)i;
            return true;
          }
        g_string_append_printf (known, "%s%s", known->len > 0 ? ", " : "", usual[i].token);
      }
  g_autofree char *wanted = g_strconcat ("one of ", known->str, NULL);
  return sheet_fail_cell (sheet, error, field, COLUMN_LIE, wanted);
}

static bool
take_lie (void *data, const Sheet *sheet, const GPtrArray *record, unsigned line, GError **error)
{
  Reading *reading = data;
  const CsvField *field = sheet_cell (sheet, record, COLUMN_LIE);
  Lie lie = LIE_NONE;
  if (field == NULL)
    return sheet_fail (sheet, error, line, "a line names no lie; write one in the column lie");
  if (!find_lie (sheet, field, &lie, error))
    return false;
  if (reading->rows[lie] > 0)
    return sheet_fail (sheet, error, line, "%s is there twice; give each lie one line", usual[lie].token);
  reading->rows[lie] = ++reading->n_rows;
  for (int c = COLUMN_CARRY; c < N_COLUMNS; c++)
    {
      double written = NAN;
      if (!sheet_number (sheet, record, c, &written, error))
        return false;
      if (!isnan (written))
        take_figure (&reading->table.effects[lie], c, written);
    }
  return true;
}

static bool
read_table (GBytes *bytes, const char *name, Reading *reading, SheetLayout *layout, GError **error)
{
  *reading = (Reading){ .table = lie_table_usual () };
  Sheet sheet = { .info = &lie_sheet, .name = name };
  size_t n_lies;
  if (!sheet_read (&sheet, bytes, take_lie, reading, &n_lies, error))
    return false;
  *layout = sheet.layout;
  return n_lies > 0 || sheet_fail_empty (&sheet, error);
}

bool
lie_table_read_bytes (GBytes *bytes, const char *name, LieTable *table, GError **error)
{
  Reading reading;
  SheetLayout layout;
  if (!read_table (bytes, name, &reading, &layout, error))
    return false;
  *table = reading.table;
  return true;
}

bool
lie_table_read_file (const char *path, LieTable *table, GError **error)
{
  g_autoptr (GBytes) bytes = sheet_file_bytes (&lie_sheet, path, error);
  return bytes != NULL && lie_table_read_bytes (bytes, path, table, error);
}

/* ---- writing ---- */

/* A file of all lies that a shot can be played from, with the usual figures. */
static GBytes *
usual_bytes (void)
{
  char buffer[UNITS_TEXT_SIZE];
  g_autoptr (GString) text = g_string_new (columns[COLUMN_LIE].name);
  for (int c = COLUMN_CARRY; c < N_COLUMNS; c++)
    g_string_append_printf (text, ",%s", columns[c].name);
  g_string_append_c (text, '\n');
  for (int lie = 0; lie < N_LIES; lie++)
    if (usual[lie].token != NULL)
      {
        g_string_append (text, usual[lie].token);
        for (int c = COLUMN_CARRY; c < N_COLUMNS; c++)
          g_string_append_printf (text, ",%s", units_print_full (usual[lie].figures[c - 1], buffer, sizeof buffer));
        g_string_append_c (text, '\n');
      }
  return g_bytes_new (text->str, text->len);
}

/* Decimal places of a figure that is written. */
#define PLACES 9

/* Puts into the file what differs from what it says. */
static void
write_effect (CsvText *text, Reading *reading, SheetLayout *layout, Lie lie, LieEffect effect)
{
  for (int c = COLUMN_CARRY; c < N_COLUMNS; c++)
    {
      double per_one, figure = *figure_at (&effect, c, &per_one);
      if (figure == *figure_at (&reading->table.effects[lie], c, &per_one))
        continue;
      if (reading->rows[lie] == 0)
        {
          reading->rows[lie] = ++reading->n_rows;
          csv_text_insert (text, reading->rows[lie]);
          csv_text_set (text, reading->rows[lie], (size_t)layout->field_of[COLUMN_LIE], usual[lie].token);
        }
      if (layout->field_of[c] < 0)
        layout->field_of[c] = (int)csv_text_add_column (text, columns[c].name);
      char buffer[UNITS_TEXT_SIZE];
      csv_text_set (text, reading->rows[lie], (size_t)layout->field_of[c],
                    units_print_decimals (figure * per_one, PLACES, buffer, sizeof buffer));
    }
}

GBytes *
lie_table_write_bytes (const LieTable *table, GBytes *before)
{
  Reading reading;
  SheetLayout layout;
  g_autoptr (GBytes) file = before != NULL ? g_bytes_ref (before) : usual_bytes ();
  if (!read_table (file, "", &reading, &layout, NULL))
    {
      g_bytes_unref (file);
      file = usual_bytes ();
      read_table (file, "", &reading, &layout, NULL);
    }
  g_autoptr (CsvText) text = csv_text_new (file);
  for (int lie = 0; lie < N_LIES; lie++)
    if (usual[lie].token != NULL)
      write_effect (text, &reading, &layout, (Lie)lie, table->effects[lie]);
  return csv_text_print (text);
}
