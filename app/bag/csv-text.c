// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A file of comma-separated values taken apart so that single values can be changed: gaps and cells are kept as they stand, so what no edit
 * touches goes back byte by byte, quotes, spaces and line ends included.
 */
#include "csv-private.h"

#include <string.h>

#define BYTE_ORDER_MARK "\xEF\xBB\xBF"

static void
line_free (gpointer data)
{
  CsvLine *line = data;
  g_free (line->gap);
  g_ptr_array_unref (line->cells);
  g_free (line);
}

static CsvLine *
line_new (char *gap)
{
  CsvLine *line = g_new (CsvLine, 1);
  *line = (CsvLine){ gap, g_ptr_array_new_with_free_func (g_free) };
  return line;
}

static CsvLine *
line_at (const CsvText *text, size_t line)
{
  g_assert (line < text->lines->len);
  return text->lines->pdata[line];
}

/* The line end that the file uses first; "\n" in a file of a single line. */
static void
find_line_end (CsvText *text)
{
  const char *after_header = text->lines->len > 1 ? line_at (text, 1)->gap : text->tail;
  const char *end = after_header + strcspn (after_header, "\r\n");
  size_t size = end[0] == '\r' && end[1] == '\n' ? 2 : 1;
  g_strlcpy (text->line_end, *end != '\0' ? end : "\n", *end != '\0' ? size + 1 : 2);
}

CsvText *
csv_text_new (GBytes *bytes)
{
  size_t size;
  const char *data = g_bytes_get_data (bytes, &size);
  g_autofree char *whole = g_strndup (size > 0 ? data : "", size);
  CsvText *text = g_new0 (CsvText, 1);
  text->lines = g_ptr_array_new_with_free_func (line_free);
  CsvReader reader = { whole + (g_str_has_prefix (whole, BYTE_ORDER_MARK) ? strlen (BYTE_ORDER_MARK) : 0), 1 };
  const char *behind = whole, *problem;
  unsigned problem_line;
  GPtrArray *record;
  while ((record = csv_next (&reader, &problem, &problem_line)) != NULL)
    {
      const CsvField *first = record->pdata[0];
      CsvLine *line = line_new (g_strndup (behind, (size_t)(first->raw - behind)));
      for (guint i = 0; i < record->len; i++)
        {
          const CsvField *field = record->pdata[i];
          g_ptr_array_add (line->cells, g_strndup (field->raw, field->raw_size));
          behind = field->raw + field->raw_size;
        }
      g_ptr_array_add (text->lines, line);
      g_ptr_array_unref (record);
    }
  g_assert (problem == NULL);
  text->tail = g_strdup (behind);
  find_line_end (text);
  return text;
}

void
csv_text_free (CsvText *text)
{
  if (text == NULL)
    return;
  g_ptr_array_unref (text->lines);
  g_free (text->tail);
  g_free (text);
}

GBytes *
csv_text_print (const CsvText *text)
{
  GString *out = g_string_new (NULL);
  for (guint i = 0; i < text->lines->len; i++)
    {
      const CsvLine *line = line_at (text, i);
      g_string_append (out, line->gap);
      for (guint k = 0; k < line->cells->len; k++)
        g_string_append_printf (out, "%s%s", k == 0 ? "" : ",", (const char *)line->cells->pdata[k]);
    }
  g_string_append (out, text->tail);
  return g_string_free_to_bytes (out);
}

char *
csv_text_get (const CsvText *text, size_t line, size_t cell)
{
  const CsvLine *at = line_at (text, line);
  if (cell >= at->cells->len)
    return g_strdup ("");
  CsvReader reader = { at->cells->pdata[cell], 1 };
  const char *problem;
  unsigned problem_line;
  g_autoptr (GPtrArray) record = csv_next (&reader, &problem, &problem_line);
  return g_strdup (record != NULL ? ((const CsvField *)record->pdata[0])->text : "");
}

/* The value as it may stand in a file. */
static char *
quoted (const char *value)
{
  size_t length = strlen (value);
  bool is_spaced = length > 0 && (g_ascii_isspace (value[0]) || g_ascii_isspace (value[length - 1]));
  if (!is_spaced && strpbrk (value, ",\"\r\n") == NULL)
    return g_strdup (value);
  GString *text = g_string_new ("\"");
  for (const char *c = value; *c != '\0'; c++)
    g_string_append_printf (text, *c == '"' ? "\"\"" : "%c", *c);
  g_string_append_c (text, '"');
  return g_string_free (text, FALSE);
}

void
csv_text_set (CsvText *text, size_t line, size_t cell, const char *value)
{
  GPtrArray *cells = line_at (text, line)->cells;
  while (cells->len <= cell)
    g_ptr_array_add (cells, g_strdup (""));
  g_free (cells->pdata[cell]);
  cells->pdata[cell] = quoted (value);
}

size_t
csv_text_add_column (CsvText *text, const char *heading)
{
  size_t cell = line_at (text, 0)->cells->len;
  csv_text_set (text, 0, cell, heading);
  return cell;
}

void
csv_text_insert (CsvText *text, size_t at)
{
  g_assert (at > 0 && at <= text->lines->len);
  g_ptr_array_insert (text->lines, (gint)at, line_new (g_strdup (text->line_end)));
}

void
csv_text_remove (CsvText *text, size_t at)
{
  g_assert (at > 0 && at < text->lines->len);
  g_ptr_array_remove_index (text->lines, (guint)at);
}
