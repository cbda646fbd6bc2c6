// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The header row, the lines below it, and the numbers in them. A cell left empty means "not given"; a column of another name is passed over.
 */
#include "bag.h"
#include "sheet-private.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define MIB ((size_t)1024 * 1024)
/* Letters of a wrong value repeated in a message. */
#define EXCERPT_LETTERS 30

bool
sheet_fail (const Sheet *sheet, GError **error, unsigned line, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_set_error (error, BAG_ERROR, BAG_ERROR_FORMAT, "%s:%u: %s", sheet->name, line, text);
  return false;
}

bool
sheet_fail_empty (const Sheet *sheet, GError **error)
{
  return sheet_fail (sheet, error, sheet->header_line, "there are no %s below the header; write %s", sheet->info->rows,
                     sheet->info->row);
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

char *
sheet_heading (const SheetInfo *info, int column, LengthUnit unit)
{
  const ColumnInfo *c = &info->columns[column];
  return c->is_length ? g_strconcat (c->name, "_", unit_suffix (unit), NULL) : g_strdup (c->name);
}

bool
sheet_fail_cell (const Sheet *sheet, GError **error, const CsvField *field, int column, const char *wanted)
{
  g_autofree char *text = excerpt (field->text), *heading = sheet_heading (sheet->info, column, sheet->layout.unit[column]);
  return sheet_fail (sheet, error, field->line, "%s is \"%s\"; write %s", heading, text, wanted);
}

/* ---- the header ---- */

/* The column that a heading names, -1 if none. `*unit` is set for a length. */
static int
column_named (const SheetInfo *info, const char *heading, LengthUnit *unit)
{
  for (int c = 0; c < info->n_columns; c++)
    {
      size_t length = strlen (info->columns[c].name);
      if (g_ascii_strncasecmp (heading, info->columns[c].name, length) != 0)
        continue;
      const char *rest = heading + length;
      if (!info->columns[c].is_length && *rest == '\0')
        return c;
      for (LengthUnit u = UNIT_YARDS; info->columns[c].is_length && u <= UNIT_METRES; u++)
        if (rest[0] == '_' && g_ascii_strcasecmp (rest + 1, unit_suffix (u)) == 0)
          {
            *unit = u;
            return c;
          }
    }
  return -1;
}

/* A heading that lacks only its unit would otherwise be passed over in silence. */
static void
warn_of_heading (const Sheet *sheet, const CsvField *field)
{
  for (int c = 0; sheet->warnings != NULL && c < sheet->info->n_columns; c++)
    {
      const char *name = sheet->info->columns[c].name;
      if (sheet->info->columns[c].is_length && g_ascii_strcasecmp (field->text, name) == 0)
        g_ptr_array_add (sheet->warnings,
                         g_strdup_printf ("%s:%u: the column %s has no unit and was not used; call it %s_yd or %s_m",
                                          sheet->name, field->line, name, name, name));
    }
}

static bool
place_heading (Sheet *sheet, const CsvField *field, int index, GError **error)
{
  LengthUnit unit = UNIT_YARDS;
  int c = column_named (sheet->info, field->text, &unit);
  if (c < 0)
    {
      warn_of_heading (sheet, field);
      return true;
    }
  const ColumnInfo *info = &sheet->info->columns[c];
  if (sheet->layout.field_of[c] >= 0 && info->is_length && sheet->layout.unit[c] != unit)
    return sheet_fail (sheet, error, field->line, "there is both %s_yd and %s_m; keep one of the two columns", info->name,
                       info->name);
  if (sheet->layout.field_of[c] >= 0)
    return sheet_fail (sheet, error, field->line, "the column %s is there twice; keep one of them", field->text);
  sheet->layout.field_of[c] = index;
  sheet->layout.unit[c] = unit;
  return true;
}

static bool
check_header (const Sheet *sheet, const GPtrArray *record, GError **error)
{
  const SheetInfo *info = sheet->info;
  const CsvField *first = record->pdata[0];
  int c = 0;
  while (c < info->n_columns && (!info->columns[c].is_needed || sheet->layout.field_of[c] >= 0))
    c++;
  if (c == info->n_columns)
    return true;
  if (record->len == 1 && strpbrk (first->text, ";\t") != NULL)
    return sheet_fail (sheet, error, first->line,
                       "the values are not separated by commas; save the file as comma-separated values");
  g_autofree char *yards = sheet_heading (info, c, UNIT_YARDS), *metres = sheet_heading (info, c, UNIT_METRES);
  return sheet_fail (sheet, error, first->line, "no column is called %s%s%s; name the columns in the first row, such as %s",
                     yards, info->columns[c].is_length ? " or " : "", info->columns[c].is_length ? metres : "", info->header);
}

static bool
read_header (Sheet *sheet, const GPtrArray *record, GError **error)
{
  sheet->header_line = ((const CsvField *)record->pdata[0])->line;
  sheet->n_fields = record->len;
  for (guint i = 0; i < record->len; i++)
    if (!place_heading (sheet, record->pdata[i], (int)i, error))
      return false;
  return check_header (sheet, record, error);
}

/* ---- the lines below it ---- */

const CsvField *
sheet_cell (const Sheet *sheet, const GPtrArray *record, int column)
{
  int i = sheet->layout.field_of[column];
  if (i < 0 || (guint)i >= record->len)
    return NULL;
  const CsvField *field = record->pdata[i];
  return *field->text == '\0' ? NULL : field;
}

bool
sheet_number (const Sheet *sheet, const GPtrArray *record, int column, double *value, GError **error)
{
  const ColumnInfo *info = &sheet->info->columns[column];
  const CsvField *field = sheet_cell (sheet, record, column);
  double number;
  if (field == NULL)
    return true;
  if (!units_parse_number (field->text, &number))
    return sheet_fail_cell (sheet, error, field, column, "a number with a decimal point");
  if (info->is_length)
    number = unit_to_metres (sheet->layout.unit[column], number);
  if (!(number >= info->least && number <= info->most))
    {
      g_autofree char *wanted = g_strconcat ("a number ", info->range, NULL);
      return sheet_fail_cell (sheet, error, field, column, wanted);
    }
  *value = number;
  return true;
}

static bool
read_record (Sheet *sheet, const GPtrArray *record, SheetTake take, void *data, size_t *n_rows, GError **error)
{
  unsigned line = ((const CsvField *)record->pdata[0])->line;
  if (sheet->n_fields == 0)
    return read_header (sheet, record, error);
  if (record->len > sheet->n_fields)
    return sheet_fail (
        sheet, error, line,
        "there are %u values under %zu headings; write decimals with a point and put a text with a comma in quotes",
        record->len, sheet->n_fields);
  ++*n_rows;
  return take (data, sheet, record, line, error);
}

/* ---- the file ---- */

/* The bytes as one string of UTF-8 without a byte order mark, or NULL. */
static char *
text_of (const Sheet *sheet, GBytes *bytes, GError **error)
{
  size_t size;
  const char *data = g_bytes_get_data (bytes, &size);
  const char *wrong = data;
  if (size > sheet->info->most_mib * MIB)
    {
      sheet_fail (sheet, error, 1, "the file is larger than %zu MiB and cannot be a %s; choose another file",
                  sheet->info->most_mib, sheet->info->noun);
      return NULL;
    }
  if (size > 0 && !g_utf8_validate_len (data, size, &wrong))
    {
      unsigned line = 1;
      for (const char *c = data; c < wrong; c++)
        line += *c == '\n';
      sheet_fail (sheet, error, line, "this is not UTF-8 text; save the %s as comma-separated values in UTF-8",
                  sheet->info->noun);
      return NULL;
    }
  size_t mark = size >= 3 && memcmp (data, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
  return size > 0 ? g_strndup (data + mark, size - mark) : g_strdup ("");
}

bool
sheet_read (Sheet *sheet, GBytes *bytes, SheetTake take, void *data, size_t *n_rows, GError **error)
{
  g_autofree char *text = text_of (sheet, bytes, error);
  if (text == NULL)
    return false;
  for (int c = 0; c < sheet->info->n_columns; c++)
    sheet->layout.field_of[c] = -1;
  *n_rows = 0;
  CsvReader reader = { text, 1 };
  const char *problem;
  unsigned problem_line = 0;
  GPtrArray *record;
  while ((record = csv_next (&reader, &problem, &problem_line)) != NULL)
    {
      bool is_good = read_record (sheet, record, take, data, n_rows, error);
      g_ptr_array_unref (record);
      if (!is_good)
        return false;
    }
  if (problem != NULL)
    return sheet_fail (sheet, error, problem_line, "%s", problem);
  if (sheet->n_fields == 0)
    return sheet_fail (sheet, error, 1, "the file is empty; write a header row such as %s and then %s", sheet->info->header,
                       sheet->info->row);
  return true;
}

static GBytes *
fail_file (const SheetInfo *info, const char *path, const char *reason, GError **error)
{
  g_set_error (error, BAG_ERROR, BAG_ERROR_READ, "%s: cannot be read (%s); choose a %s file", path, reason, info->noun);
  return NULL;
}

GBytes *
sheet_file_bytes (const SheetInfo *info, const char *path, GError **error)
{
  /* Asked before opening, which would wait for ever on a pipe. */
  GStatBuf status;
  if (g_stat (path, &status) != 0)
    return fail_file (info, path, g_strerror (errno), error);
  if (!S_ISREG (status.st_mode))
    return fail_file (info, path, S_ISDIR (status.st_mode) ? "it is a folder" : "it is not an ordinary file", error);
  FILE *file = g_fopen (path, "rb");
  if (file == NULL)
    return fail_file (info, path, g_strerror (errno), error);

  /* One byte more than allowed is enough to know that it is too large. */
  size_t room = info->most_mib * MIB + 1;
  char *data = g_malloc (room);
  size_t size = fread (data, 1, room, file);
  bool is_broken = ferror (file) != 0;
  fclose (file);
  g_autoptr (GBytes) bytes = g_bytes_new_take (g_realloc (data, MAX (size, 1)), size);
  return is_broken ? fail_file (info, path, g_strerror (EIO), error) : g_steal_pointer (&bytes);
}
