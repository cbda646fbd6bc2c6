// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Edits of a bag: each changes single cells of the file's text and reads it again. So whatever an edit makes can be read back, what is wrong with
 * it is said in the reader's own words, and all that was not touched stays as the golfer wrote it.
 */
#include "bag-private.h"

#include <math.h>
#include <string.h>

/* Decimal places of a number that an edit writes: lengths to a millionth of a millimetre. */
#define PLACES 9

/* Reads again what an edit made of the bag's file. */
static Bag *
read_again (const Bag *bag, const CsvText *text, GError **error)
{
  g_autoptr (GBytes) bytes = csv_text_print (text);
  Bag *edited = bag_read_edited (bytes, bag->name, bag->level, error);
  if (edited != NULL)
    edited->lies = bag->lies;
  return edited;
}

LengthUnit
bag_column_unit (const Bag *bag, BagColumn column)
{
  g_assert ((unsigned)column < N_BAG_COLUMNS);
  bool is_there = bag_sheet.columns[column].is_length && bag->layout.field_of[column] >= 0;
  return bag->layout.unit[is_there ? column : BAG_COLUMN_CARRY];
}

/* Writes a value into a club's cell; a column that the file lacks is added, but not for an empty value. */
static void
set_cell (const Bag *bag, CsvText *text, size_t line, BagColumn column, const char *value)
{
  int field = bag->layout.field_of[column];
  g_autofree char *heading = sheet_heading (&bag_sheet, column, bag_column_unit (bag, column));
  GPtrArray *header = ((const CsvLine *)text->lines->pdata[0])->cells;
  /* Columns that this same edit has added stand behind those of the file as read. */
  for (guint i = header->len; field < 0 && i > 0; i--)
    if (g_str_equal (header->pdata[i - 1], heading))
      field = (int)i - 1;
  if (field < 0 && *value == '\0')
    return;
  csv_text_set (text, line, field >= 0 ? (size_t)field : csv_text_add_column (text, heading), value);
}

static char *
print_number (double number)
{
  char buffer[UNITS_TEXT_SIZE];
  return g_strdup (units_print_decimals (number, PLACES, buffer, sizeof buffer));
}

/* Low and high of the carry as the file has it; false where it is a single number. */
static bool
written_range (const Bag *bag, const CsvText *text, size_t line, double *low_m, double *high_m)
{
  g_autofree char *carry = csv_text_get (text, line, (size_t)bag->layout.field_of[BAG_COLUMN_CARRY]);
  return units_parse_range (carry, bag_column_unit (bag, BAG_COLUMN_CARRY), low_m, high_m) && *high_m > *low_m;
}

/* The column of the standard error of a column's figures; N_BAG_COLUMNS for one without. */
static BagColumn
error_column (BagColumn column)
{
  static const struct
  {
    BagColumn figure, error;
  } pairs[] = { { BAG_COLUMN_CARRY, BAG_COLUMN_CARRY_SE },
                { BAG_COLUMN_CARRY_SD, BAG_COLUMN_CARRY_SD_SE },
                { BAG_COLUMN_SIDE_SD, BAG_COLUMN_SIDE_SD_SE },
                { BAG_COLUMN_CORRELATION, BAG_COLUMN_CORRELATION_SE },
                { BAG_COLUMN_SIDE_BIAS, BAG_COLUMN_SIDE_BIAS_SE },
                { BAG_COLUMN_MISHIT, BAG_COLUMN_MISHIT_SE },
                { BAG_COLUMN_MISHIT_CARRY, BAG_COLUMN_MISHIT_CARRY_SE } };
  for (size_t i = 0; i < G_N_ELEMENTS (pairs); i++)
    if (pairs[i].figure == column)
      return pairs[i].error;
  return N_BAG_COLUMNS;
}

/* Writes a figure, whose standard error was that of another. */
static void
set_figure (const Bag *bag, CsvText *text, size_t line, BagColumn column, const char *value)
{
  set_cell (bag, text, line, column, value);
  if (error_column (column) != N_BAG_COLUMNS)
    set_cell (bag, text, line, error_column (column), "");
}

static bool
is_same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

/* ---- by value ---- */

/* One edit by value: the club before and after, and where it is written. */
typedef struct
{
  const Bag *bag;
  CsvText *text;
  size_t line;
  const Club *before, *after;
} ClubEdit;

/* `before` and `after` in metres, or as the column has them. */
static void
write_number (const ClubEdit *edit, BagColumn column, double before, double after)
{
  if (is_same (before, after))
    return;
  double number = bag_sheet.columns[column].is_length ? unit_from_metres (bag_column_unit (edit->bag, column), after) : after;
  g_autofree char *value = print_number (number);
  set_figure (edit->bag, edit->text, edit->line, column, value);
}

/* A range moves with its carry; where its spread changes too, it becomes a number and the spread a column of its own. */
static void
write_carry (const ClubEdit *edit)
{
  double low_m, high_m;
  double change_m = edit->after->carry_m - edit->before->carry_m;
  bool is_spread_kept = is_same (edit->before->carry_sd_m, edit->after->carry_sd_m);
  bool is_range = written_range (edit->bag, edit->text, edit->line, &low_m, &high_m);
  if (is_range && is_spread_kept && change_m != 0 && isfinite (change_m))
    {
      LengthUnit unit = bag_column_unit (edit->bag, BAG_COLUMN_CARRY);
      g_autofree char *low = print_number (unit_from_metres (unit, low_m + change_m));
      g_autofree char *high = print_number (unit_from_metres (unit, high_m + change_m));
      g_autofree char *range = g_strconcat (low, "-", high, NULL);
      set_figure (edit->bag, edit->text, edit->line, BAG_COLUMN_CARRY, range);
    }
  else
    write_number (edit, BAG_COLUMN_CARRY, is_range && !is_spread_kept ? NAN : edit->before->carry_m, edit->after->carry_m);
  write_number (edit, BAG_COLUMN_CARRY_SD, edit->before->carry_sd_m, edit->after->carry_sd_m);
}

/* The standard errors after the figures, which take theirs away. */
static void
write_errors (const ClubEdit *edit)
{
  const ClubErrors *before = &edit->before->errors, *after = &edit->after->errors;
  if (before->n_shots != after->n_shots)
    write_number (edit, BAG_COLUMN_SHOTS, before->n_shots > 0 ? (double)before->n_shots : NAN,
                  after->n_shots > 0 ? (double)after->n_shots : NAN);
  if (after->n_shots == 0)
    return;
  bool was_there = before->n_shots > 0;
  write_number (edit, BAG_COLUMN_CARRY_SE, was_there ? before->carry_m : NAN, after->carry_m);
  write_number (edit, BAG_COLUMN_CARRY_SD_SE, was_there ? before->carry_sd_m : NAN, after->carry_sd_m);
  write_number (edit, BAG_COLUMN_SIDE_SD_SE, was_there ? before->side_sd_m : NAN, after->side_sd_m);
  write_number (edit, BAG_COLUMN_CORRELATION_SE, was_there ? before->correlation : NAN, after->correlation);
  write_number (edit, BAG_COLUMN_SIDE_BIAS_SE, was_there ? before->side_bias_m : NAN, after->side_bias_m);
  write_number (edit, BAG_COLUMN_MISHIT_SE, was_there ? 100 * before->mishit_chance : NAN, 100 * after->mishit_chance);
  write_number (edit, BAG_COLUMN_MISHIT_CARRY_SE, was_there ? 100 * before->mishit_carry_share : NAN,
                100 * after->mishit_carry_share);
}

static void
write_club (const ClubEdit *edit)
{
  const Club *before = edit->before, *after = edit->after;
  if (g_strcmp0 (before->name, after->name) != 0)
    set_cell (edit->bag, edit->text, edit->line, BAG_COLUMN_CLUB, after->name);
  write_carry (edit);
  write_number (edit, BAG_COLUMN_SIDE_SD, before->side_sd_m, after->side_sd_m);
  write_number (edit, BAG_COLUMN_CORRELATION, before->correlation, after->correlation);
  write_number (edit, BAG_COLUMN_SIDE_BIAS, before->side_bias_m, after->side_bias_m);
  write_number (edit, BAG_COLUMN_LOFT, before->loft_deg, after->loft_deg);
  write_number (edit, BAG_COLUMN_APEX, before->apex_m, after->apex_m);
  write_number (edit, BAG_COLUMN_CURVE, before->curve_m, after->curve_m);
  if (before->tee_only != after->tee_only)
    set_cell (edit->bag, edit->text, edit->line, BAG_COLUMN_SURFACES, after->tee_only ? "tee" : "");
  write_number (edit, BAG_COLUMN_MISHIT, 100 * before->mishit_chance, 100 * after->mishit_chance);
  write_number (edit, BAG_COLUMN_MISHIT_CARRY, 100 * before->mishit_carry_share, 100 * after->mishit_carry_share);
  write_errors (edit);
}

Bag *
bag_with_club (const Bag *bag, size_t i, const Club *club, GError **error)
{
  const BagRow *row = bag_row (bag, i);
  g_autoptr (CsvText) text = csv_text_new (bag->bytes);
  write_club (&(ClubEdit){ bag, text, row->line, &row->club, club });
  return read_again (bag, text, error);
}

Bag *
bag_inserting_club (const Bag *bag, const Club *club, GError **error)
{
  /* Behind the shortest of the longer clubs, so that a file in order stays in order. */
  size_t line = 1;
  for (size_t i = 0; i < bag_n_clubs (bag) && bag_club (bag, i)->carry_m >= club->carry_m; i++)
    line = bag_row (bag, i)->line + 1;
  Club nothing;
  club_init (&nothing);
  g_autoptr (CsvText) text = csv_text_new (bag->bytes);
  csv_text_insert (text, line);
  write_club (&(ClubEdit){ bag, text, line, &nothing, club });
  return read_again (bag, text, error);
}

Bag *
bag_with_clubs (const Bag *bag, const Club *clubs, size_t n_clubs, GError **error)
{
  Club nothing;
  club_init (&nothing);
  g_autoptr (CsvText) text = csv_text_new (bag->bytes);
  for (size_t i = 0; i < n_clubs; i++)
    {
      size_t k = 0;
      const Club *known = bag_find (bag, clubs[i].name);
      while (known != NULL && bag_club (bag, k) != known)
        k++;
      size_t line = known != NULL ? bag_row (bag, k)->line : text->lines->len;
      if (known == NULL)
        csv_text_insert (text, line);
      write_club (&(ClubEdit){ bag, text, line, known != NULL ? known : &nothing, &clubs[i] });
    }
  return read_again (bag, text, error);
}

Bag *
bag_without_club (const Bag *bag, size_t i)
{
  g_autoptr (CsvText) text = csv_text_new (bag->bytes);
  csv_text_remove (text, bag_row (bag, i)->line);
  Bag *shorter = read_again (bag, text, NULL);
  g_assert (shorter != NULL);
  return shorter;
}

/* ---- by what a golfer types ---- */

char *
bag_cell (const Bag *bag, size_t i, BagColumn column, LengthUnit unit)
{
  double low_m, high_m;
  int field = bag->layout.field_of[column];
  if (field < 0)
    return g_strdup ("");
  LengthUnit own = bag_column_unit (bag, column);
  g_autoptr (CsvText) text = csv_text_new (bag->bytes);
  g_autofree char *written = csv_text_get (text, bag_row (bag, i)->line, (size_t)field);
  bool is_length = bag_sheet.columns[column].is_length && *written != '\0';
  if (!is_length || own == unit)
    return g_steal_pointer (&written);
  /* What was read once can be read again; only a carry may be a range. */
  char low[UNITS_TEXT_SIZE], high[UNITS_TEXT_SIZE];
  if (column != BAG_COLUMN_CARRY && units_parse_number (written, &low_m))
    low_m = high_m = unit_to_metres (own, low_m);
  else if (!units_parse_range (written, own, &low_m, &high_m))
    g_assert_not_reached ();
  units_print_decimals (unit_from_metres (unit, low_m), BAG_TEXT_PLACES, low, sizeof low);
  units_print_decimals (unit_from_metres (unit, high_m), BAG_TEXT_PLACES, high, sizeof high);
  return high_m > low_m ? g_strconcat (low, "-", high, NULL) : g_strdup (low);
}

/* What was typed, as it may stand in the column; as it was typed where it is no length, for the reader to say so. */
static char *
column_text (const Bag *bag, BagColumn column, const char *typed, LengthUnit unit)
{
  double low_m, high_m, number;
  LengthUnit own = bag_column_unit (bag, column);
  bool is_carry = column == BAG_COLUMN_CARRY;
  bool is_own
      = own == unit && (units_parse_number (typed, &number) || (is_carry && units_parse_range (typed, unit, &low_m, &high_m)));
  if (!bag_sheet.columns[column].is_length || is_own)
    return g_strdup (typed);
  if (!is_carry || !units_parse_range (typed, unit, &low_m, &high_m))
    {
      if (!units_parse_sum (typed, unit, &low_m))
        return g_strdup (typed);
      high_m = low_m;
    }
  char *low = print_number (unit_from_metres (own, low_m));
  if (!is_carry || low_m == high_m)
    return low;
  g_autofree char *first = low, *high = print_number (unit_from_metres (own, high_m));
  return g_strconcat (first, "-", high, NULL);
}

Bag *
bag_with_cell (const Bag *bag, size_t i, BagColumn column, const char *typed, LengthUnit unit, GError **error)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (typed));
  g_autofree char *value = column_text (bag, column, trimmed, unit);
  g_autoptr (CsvText) text = csv_text_new (bag->bytes);
  size_t line = bag_row (bag, i)->line;
  double low_m, high_m;
  set_figure (bag, text, line, column, value);
  if (column == BAG_COLUMN_CARRY && written_range (bag, text, line, &low_m, &high_m))
    set_figure (bag, text, line, BAG_COLUMN_CARRY_SD, "");
  return read_again (bag, text, error);
}

/* ---- the bag as a whole ---- */

Bag *
bag_new (const char *name, LengthUnit unit, Level level)
{
  static const BagColumn first[]
      = { BAG_COLUMN_CLUB, BAG_COLUMN_CARRY, BAG_COLUMN_CARRY_SD, BAG_COLUMN_SIDE_SD, BAG_COLUMN_LOFT, BAG_COLUMN_SURFACES };
  g_autoptr (GString) header = g_string_new (NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (first); i++)
    {
      g_autofree char *heading = sheet_heading (&bag_sheet, first[i], unit);
      g_string_append_printf (header, "%s%s", i == 0 ? "" : ",", heading);
    }
  g_string_append_c (header, '\n');
  g_autoptr (GBytes) bytes = g_bytes_new (header->str, header->len);
  Bag *bag = bag_read_edited (bytes, name, level, NULL);
  g_assert (bag != NULL);
  return bag;
}

Bag *
bag_with_level (const Bag *bag, Level level)
{
  Bag *filled = bag_read_edited (bag->bytes, bag->name, level, NULL);
  g_assert (filled != NULL);
  filled->lies = bag->lies;
  return filled;
}

Bag *
bag_with_lies (const Bag *bag, const LieTable *lies)
{
  Bag *other = bag_with_level (bag, bag->level);
  other->lies = *lies;
  return other;
}

GBytes *
bag_write_bytes (const Bag *bag)
{
  return g_bytes_ref (bag->bytes);
}
