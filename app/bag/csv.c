// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Comma-separated values after RFC 4180, one record at a time. Quotes anywhere but round a whole value are refused, because whatever
 * they were meant to be, guessing would read a wrong number.
 */
#include "csv-private.h"

#include <string.h>

static void
field_free (gpointer data)
{
  CsvField *field = data;
  g_free (field->text);
  g_free (field);
}

static bool
at_line_end (const char *text)
{
  return *text == '\n' || *text == '\r';
}

static void
skip_line_end (CsvReader *reader)
{
  reader->text += reader->text[0] == '\r' && reader->text[1] == '\n' ? 2 : 1;
  reader->line++;
}

/* Step by step: a checked strspn or strcspn would look at all that follows, for each value anew. */
static const char *
after_blanks (const char *text)
{
  while (*text == ' ' || *text == '\t')
    text++;
  return text;
}

/* A value in quotes, the reader standing on the opening one. */
static const char *
read_quoted (CsvReader *reader, GString *value)
{
  reader->text++;
  for (;;)
    {
      if (*reader->text == '\0')
        return "a quotation mark is never closed; close it, or double it where it belongs to the value";
      if (*reader->text == '"' && reader->text[1] != '"')
        break;
      if (*reader->text == '"')
        reader->text++;
      if (at_line_end (reader->text))
        {
          skip_line_end (reader);
          g_string_append_c (value, '\n');
        }
      else
        g_string_append_c (value, *reader->text++);
    }
  reader->text = after_blanks (reader->text + 1);
  if (*reader->text != ',' && *reader->text != '\0' && !at_line_end (reader->text))
    return "text follows a closing quotation mark; put the whole value in quotes and double the marks inside it";
  return NULL;
}

static const char *
read_bare (CsvReader *reader, GString *value)
{
  const char *end = reader->text;
  while (*end != '\0' && *end != ',' && *end != '\r' && *end != '\n' && *end != '"')
    end++;
  if (*end == '"')
    return "a quotation mark stands inside a value; put the whole value in quotes and double the marks inside it";
  g_string_append_len (value, reader->text, end - reader->text);
  reader->text = end;
  return NULL;
}

static const char *
read_field (CsvReader *reader, GPtrArray *record)
{
  GString *value = g_string_new (NULL);
  unsigned line = reader->line;
  const char *raw = reader->text;
  reader->text = after_blanks (reader->text);
  const char *problem = *reader->text == '"' ? read_quoted (reader, value) : read_bare (reader, value);
  CsvField *field = g_new (CsvField, 1);
  *field = (CsvField){ g_strstrip (g_string_free (value, FALSE)), line, raw, (size_t)(reader->text - raw) };
  g_ptr_array_add (record, field);
  return problem;
}

/* Passes over lines that hold nothing but spaces. */
static void
skip_blank_lines (CsvReader *reader)
{
  for (;;)
    {
      const char *end = after_blanks (reader->text);
      if (!at_line_end (end))
        return;
      reader->text = end;
      skip_line_end (reader);
    }
}

GPtrArray *
csv_next (CsvReader *reader, const char **problem, unsigned *problem_line)
{
  *problem = NULL;
  skip_blank_lines (reader);
  if (*after_blanks (reader->text) == '\0')
    return NULL;

  GPtrArray *record = g_ptr_array_new_with_free_func (field_free);
  for (;;)
    {
      unsigned line = reader->line;
      *problem = read_field (reader, record);
      if (*problem != NULL)
        {
          *problem_line = line;
          g_ptr_array_unref (record);
          return NULL;
        }
      if (*reader->text != ',')
        break;
      reader->text++;
    }
  if (at_line_end (reader->text))
    skip_line_end (reader);
  return record;
}
