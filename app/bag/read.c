// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Reading a bag file: a header row that names the columns, then a club a line. The columns are a table; a number's column is one
 * row of it with the range it may have. A cell left empty means "not given".
 */
#include "bag-private.h"
#include "csv-private.h"
#include "units.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

/* A bag is fourteen lines; a file larger than this is something else (common practice). */
#define MOST_BYTES (1024 * 1024)
/* Letters of a wrong value repeated in a message. */
#define EXCERPT_LETTERS 30

typedef enum
{
  COLUMN_CLUB,
  COLUMN_CARRY,
  COLUMN_CARRY_SD,
  COLUMN_SIDE_SD,
  COLUMN_CORRELATION,
  COLUMN_SIDE_BIAS,
  COLUMN_LOFT,
  COLUMN_APEX,
  COLUMN_CURVE,
  COLUMN_SURFACES,
  COLUMN_MISHIT,
  COLUMN_MISHIT_CARRY,
  N_COLUMNS
} Column;

typedef struct
{
  const char *name;
  bool is_length;     /* its name ends in _yd or _m */
  double least, most; /* in metres for lengths, else as written */
  const char *range;  /* the two in words */
} ColumnInfo;

/* The limits only tell a slip of the pen from a number (common practice). */
static const ColumnInfo columns[N_COLUMNS] = {
  [COLUMN_CLUB] = { "club" },
  [COLUMN_CARRY] = { "carry", true, 1, BAG_LONGEST_CARRY_M, "more than 1 metre and at most 500" },
  [COLUMN_CARRY_SD] = { "carry_sd", true, 0, 100, "0 or more and at most 100 metres" },
  [COLUMN_SIDE_SD] = { "side_sd", true, 0, 100, "0 or more and at most 100 metres" },
  [COLUMN_CORRELATION] = { "correlation", false, -1, 1, "from -1 to 1" },
  [COLUMN_SIDE_BIAS] = { "side_bias", true, -100, 100, "at most 100 metres to either side" },
  [COLUMN_LOFT] = { "loft_deg", false, 0, 90, "from 0 to 90 degrees" },
  [COLUMN_APEX] = { "apex", true, 0, 100, "0 or more and at most 100 metres" },
  [COLUMN_CURVE] = { "curve", true, -100, 100, "at most 100 metres to either side" },
  [COLUMN_SURFACES] = { "surfaces" },
  [COLUMN_MISHIT] = { "mishit_pct", false, 0, 100, "from 0 to 100 per cent" },
  [COLUMN_MISHIT_CARRY] = { "mishit_carry_pct", false, 0, 100, "from 0 to 100 per cent" },
};

typedef struct
{
  const char *name; /* of the file, for messages */
  Level level;
  CsvReader csv;
  unsigned header_line;
  size_t n_fields;             /* of the header */
  int field_of[N_COLUMNS];     /* -1: the file has no such column */
  LengthUnit unit[N_COLUMNS];  /* of the columns that are lengths */
  GPtrArray *clubs, *warnings; /* what has been read */
  GHashTable *lines_by_name;   /* folded name -> line, to find a club given twice */
} Sheet;

static bool fail (const Sheet *sheet, GError **error, unsigned line, const char *format, ...) G_GNUC_PRINTF (4, 5);

static bool
fail (const Sheet *sheet, GError **error, unsigned line, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, BAG_ERROR, BAG_ERROR_FORMAT, "%s:%u: %s", sheet->name, line, text);
  return false;
}

/* A value as it may stand in a message: short and on one line. */
static char *
excerpt (const char *text)
{
  bool is_long = g_utf8_strlen (text, -1) > EXCERPT_LETTERS;
  g_autofree char *start = is_long ? g_utf8_substring (text, 0, EXCERPT_LETTERS) : g_strdup (text);
  for (char *c = start; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';
  return g_strconcat (start, is_long ? "..." : NULL, NULL);
}

/* ---- the header ---- */

/* The column that a heading names, N_COLUMNS if none. `*unit` is set for a length. */
static Column
column_named (const char *heading, LengthUnit *unit)
{
  for (Column c = 0; c < N_COLUMNS; c++)
    {
      size_t length = strlen (columns[c].name);
      if (g_ascii_strncasecmp (heading, columns[c].name, length) != 0)
        continue;
      const char *rest = heading + length;
      if (!columns[c].is_length && *rest == '\0')
        return c;
      for (LengthUnit u = UNIT_YARDS; columns[c].is_length && u <= UNIT_METRES; u++)
        if (rest[0] == '_' && g_ascii_strcasecmp (rest + 1, unit_suffix (u)) == 0)
          {
            *unit = u;
            return c;
          }
    }
  return N_COLUMNS;
}

/* A heading that lacks only its unit would otherwise be passed over in silence. */
static void
warn_of_heading (Sheet *sheet, const CsvField *field)
{
  for (Column c = 0; c < N_COLUMNS; c++)
    if (columns[c].is_length && g_ascii_strcasecmp (field->text, columns[c].name) == 0)
      g_ptr_array_add (sheet->warnings,
                       g_strdup_printf ("%s:%u: the column %s has no unit and was not used; call it %s_yd or %s_m", sheet->name,
                                        field->line, columns[c].name, columns[c].name, columns[c].name));
}

static bool
place_heading (Sheet *sheet, const CsvField *field, int index, GError **error)
{
  LengthUnit unit = UNIT_YARDS;
  Column c = column_named (field->text, &unit);
  if (c == N_COLUMNS)
    {
      warn_of_heading (sheet, field);
      return true;
    }
  if (sheet->field_of[c] >= 0 && columns[c].is_length && sheet->unit[c] != unit)
    return fail (sheet, error, field->line, "there is both %s_yd and %s_m; keep one of the two columns", columns[c].name,
                 columns[c].name);
  if (sheet->field_of[c] >= 0)
    return fail (sheet, error, field->line, "the column %s is there twice; keep one of them", field->text);
  sheet->field_of[c] = index;
  sheet->unit[c] = unit;
  return true;
}

static bool
check_header (const Sheet *sheet, const GPtrArray *record, GError **error)
{
  const CsvField *first = record->pdata[0];
  const char *missing = sheet->field_of[COLUMN_CLUB] < 0    ? "club"
                        : sheet->field_of[COLUMN_CARRY] < 0 ? "carry_yd or carry_m"
                                                            : NULL;
  if (missing == NULL)
    return true;
  if (record->len == 1 && strpbrk (first->text, ";\t") != NULL)
    return fail (sheet, error, first->line, "the values are not separated by commas; save the file as comma-separated values");
  return fail (sheet, error, first->line, "no column is called %s; name the columns in the first row, such as club,carry_yd",
               missing);
}

static bool
read_header (Sheet *sheet, const GPtrArray *record, GError **error)
{
  sheet->header_line = ((const CsvField *)record->pdata[0])->line;
  sheet->n_fields = record->len;
  for (int c = 0; c < N_COLUMNS; c++)
    sheet->field_of[c] = -1;
  for (guint i = 0; i < record->len; i++)
    if (!place_heading (sheet, record->pdata[i], (int)i, error))
      return false;
  return check_header (sheet, record, error);
}

/* ---- the clubs ---- */

/* NULL when the cell is empty or missing. */
static const CsvField *
cell (const Sheet *sheet, const GPtrArray *record, Column c)
{
  int i = sheet->field_of[c];
  if (i < 0 || (guint)i >= record->len)
    return NULL;
  const CsvField *field = record->pdata[i];
  return *field->text == '\0' ? NULL : field;
}

static bool
fail_cell (const Sheet *sheet, GError **error, const CsvField *field, Column c, const char *wanted)
{
  g_autofree char *text = excerpt (field->text);
  const char *unit = !columns[c].is_length ? "" : sheet->unit[c] == UNIT_YARDS ? "_yd" : "_m";
  return fail (sheet, error, field->line, "%s%s is \"%s\"; write %s", columns[c].name, unit, text, wanted);
}

/* Leaves `*value` alone when the cell is empty. Lengths arrive in metres. */
static bool
read_number (const Sheet *sheet, const GPtrArray *record, Column c, double *value, GError **error)
{
  const CsvField *field = cell (sheet, record, c);
  double number;
  if (field == NULL)
    return true;
  if (!units_parse_number (field->text, &number))
    return fail_cell (sheet, error, field, c, "a number with a decimal point");
  if (columns[c].is_length)
    number = unit_to_metres (sheet->unit[c], number);
  if (!(number >= columns[c].least && number <= columns[c].most))
    {
      g_autofree char *wanted = g_strconcat ("a number ", columns[c].range, NULL);
      return fail_cell (sheet, error, field, c, wanted);
    }
  *value = number;
  return true;
}

/* The carry, and the spread of a range: `*long_sd_m` stays as it is for a single number. */
static bool
read_carry (const Sheet *sheet, const GPtrArray *record, unsigned line, Club *club, GError **error)
{
  const CsvField *field = cell (sheet, record, COLUMN_CARRY);
  const ColumnInfo *info = &columns[COLUMN_CARRY];
  double low_m, high_m;
  if (field == NULL)
    return fail (sheet, error, line, "%s has no carry; write how far it carries, such as 190 or 185-195", club->name);
  if (!units_parse_range (field->text, sheet->unit[COLUMN_CARRY], &low_m, &high_m))
    return fail_cell (sheet, error, field, COLUMN_CARRY, "a number such as 190 or a range such as 185-195");
  if (!(low_m > info->least && high_m <= info->most))
    {
      g_autofree char *wanted = g_strconcat ("a carry of ", info->range, NULL);
      return fail_cell (sheet, error, field, COLUMN_CARRY, wanted);
    }
  club->carry_m = (low_m + high_m) / 2;
  if (high_m > low_m)
    club->carry_sd_m = (high_m - low_m) / 2 / TWO_OF_THREE_LINE;
  return true;
}

static bool
read_surfaces (const Sheet *sheet, const GPtrArray *record, Club *club, GError **error)
{
  const CsvField *field = cell (sheet, record, COLUMN_SURFACES);
  if (field == NULL)
    return true;
  club->tee_only = g_ascii_strcasecmp (field->text, "tee") == 0;
  return club->tee_only
         || fail_cell (sheet, error, field, COLUMN_SURFACES, "tee for a club played off the tee only, or leave it empty");
}

static bool
read_name (const Sheet *sheet, const GPtrArray *record, unsigned line, Club *club, GError **error)
{
  const CsvField *field = cell (sheet, record, COLUMN_CLUB);
  if (field == NULL)
    return fail (sheet, error, line, "a club has no name; write one in the column club");
  club->name = g_strdup (field->text);
  for (char *c = club->name; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';

  g_autofree char *folded = g_utf8_casefold (club->name, -1);
  gpointer earlier = g_hash_table_lookup (sheet->lines_by_name, folded);
  if (earlier != NULL)
    return fail (sheet, error, field->line, "%s is already on line %u; give each club one line and its own name", club->name,
                 GPOINTER_TO_UINT (earlier));
  g_hash_table_insert (sheet->lines_by_name, g_steal_pointer (&folded), GUINT_TO_POINTER (field->line));
  return true;
}

static bool
read_numbers (const Sheet *sheet, const GPtrArray *record, Club *club, GError **error)
{
  double mishit_pct = 0, mishit_carry_pct = NAN;
  if (!read_number (sheet, record, COLUMN_CARRY_SD, &club->carry_sd_m, error)
      || !read_number (sheet, record, COLUMN_SIDE_SD, &club->side_sd_m, error)
      || !read_number (sheet, record, COLUMN_CORRELATION, &club->correlation, error)
      || !read_number (sheet, record, COLUMN_SIDE_BIAS, &club->side_bias_m, error)
      || !read_number (sheet, record, COLUMN_LOFT, &club->loft_deg, error)
      || !read_number (sheet, record, COLUMN_APEX, &club->apex_m, error)
      || !read_number (sheet, record, COLUMN_CURVE, &club->curve_m, error)
      || !read_number (sheet, record, COLUMN_MISHIT, &mishit_pct, error)
      || !read_number (sheet, record, COLUMN_MISHIT_CARRY, &mishit_carry_pct, error))
    return false;
  club->mishit_chance = mishit_pct / 100;
  club->mishit_carry_share = mishit_carry_pct / 100;
  return true;
}

static void
fill_spread (Level level, Club *club)
{
  double side_sd_m, long_sd_m;
  accuracy_spread (level, club->carry_m, &side_sd_m, &long_sd_m);
  club->spread_from_level = isnan (club->side_sd_m) || isnan (club->carry_sd_m);
  if (isnan (club->side_sd_m))
    club->side_sd_m = side_sd_m;
  if (isnan (club->carry_sd_m))
    club->carry_sd_m = long_sd_m;
}

static bool
read_club (Sheet *sheet, const GPtrArray *record, GError **error)
{
  unsigned line = ((const CsvField *)record->pdata[0])->line;
  if (record->len > sheet->n_fields)
    return fail (sheet, error, line,
                 "there are %u values under %zu headings; write decimals with a point and put a text with a comma in quotes",
                 record->len, sheet->n_fields);
  Club *club = g_new0 (Club, 1);
  g_ptr_array_add (sheet->clubs, club);
  club->carry_sd_m = club->side_sd_m = club->loft_deg = club->apex_m = NAN;
  if (!read_name (sheet, record, line, club, error) || !read_carry (sheet, record, line, club, error)
      || !read_numbers (sheet, record, club, error) || !read_surfaces (sheet, record, club, error))
    return false;
  fill_spread (sheet->level, club);
  return true;
}

/* ---- the file ---- */

static bool
read_records (Sheet *sheet, GError **error)
{
  const char *problem;
  unsigned problem_line = 0;
  GPtrArray *record;
  bool good = true;
  while (good && (record = csv_next (&sheet->csv, &problem, &problem_line)) != NULL)
    {
      good = sheet->n_fields == 0 ? read_header (sheet, record, error) : read_club (sheet, record, error);
      g_ptr_array_unref (record);
    }
  if (!good)
    return false;
  if (problem != NULL)
    return fail (sheet, error, problem_line, "%s", problem);
  if (sheet->n_fields == 0)
    return fail (sheet, error, 1, "the file is empty; write a header row such as club,carry_yd and then a club a line");
  if (sheet->clubs->len == 0)
    return fail (sheet, error, sheet->header_line, "there are no clubs below the header; write a club a line");
  if (sheet->clubs->len > BAG_MOST_CLUBS)
    g_ptr_array_add (sheet->warnings,
                     g_strdup_printf ("%s: %u clubs are in the bag; the Rules of Golf allow at most %d (Rule 4.1b)",
                                      sheet->name, sheet->clubs->len, BAG_MOST_CLUBS));
  return true;
}

/* The bytes as one string of UTF-8 without a byte order mark, or NULL. */
static char *
text_of (GBytes *bytes, const Sheet *sheet, GError **error)
{
  size_t size;
  const char *data = g_bytes_get_data (bytes, &size);
  const char *wrong = data;
  if (size > MOST_BYTES)
    {
      fail (sheet, error, 1, "the file is larger than 1 MiB and cannot be a bag; choose another file");
      return NULL;
    }
  if (size > 0 && !g_utf8_validate_len (data, size, &wrong))
    {
      unsigned line = 1;
      for (const char *c = data; c < wrong; c++)
        line += *c == '\n';
      fail (sheet, error, line, "this is not UTF-8 text; save the bag as comma-separated values in UTF-8");
      return NULL;
    }
  size_t mark = size >= 3 && memcmp (data, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
  return size > 0 ? g_strndup (data + mark, size - mark) : g_strdup ("");
}

Bag *
bag_read_bytes (GBytes *bytes, const char *name, Level level, GError **error)
{
  Sheet sheet = { .name = name, .level = level };
  g_autofree char *text = text_of (bytes, &sheet, error);
  if (text == NULL)
    return NULL;
  sheet.csv = (CsvReader){ text, 1 };
  sheet.clubs = g_ptr_array_new_with_free_func ((GDestroyNotify)club_free);
  sheet.warnings = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GHashTable) lines_by_name = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  sheet.lines_by_name = lines_by_name;
  if (read_records (&sheet, error))
    return bag_new_taking (sheet.clubs, sheet.warnings);
  g_ptr_array_unref (sheet.clubs);
  g_ptr_array_unref (sheet.warnings);
  return NULL;
}

static Bag *
fail_file (const char *path, const char *reason, GError **error)
{
  g_set_error (error, BAG_ERROR, BAG_ERROR_READ, "%s: cannot be read (%s); choose a bag file", path, reason);
  return NULL;
}

Bag *
bag_read_file (const char *path, Level level, GError **error)
{
  /* Asked before opening, which would wait for ever on a pipe. */
  GStatBuf status;
  if (g_stat (path, &status) != 0)
    return fail_file (path, g_strerror (errno), error);
  if (!S_ISREG (status.st_mode))
    return fail_file (path, S_ISDIR (status.st_mode) ? "it is a folder" : "it is not an ordinary file", error);
  FILE *file = g_fopen (path, "rb");
  if (file == NULL)
    return fail_file (path, g_strerror (errno), error);

  /* One byte more than allowed is enough to know that it is too large. */
  char *data = g_malloc (MOST_BYTES + 1);
  size_t size = fread (data, 1, MOST_BYTES + 1, file);
  bool is_broken = ferror (file) != 0;
  fclose (file);
  g_autoptr (GBytes) bytes = g_bytes_new_take (data, size);
  return is_broken ? fail_file (path, g_strerror (EIO), error) : bag_read_bytes (bytes, path, level, error);
}
