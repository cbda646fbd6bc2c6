// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * table - results as rows and columns, written for people (aligned, whole units) or for programs (CSV after RFC 4180, JSON after
 * RFC 8259: full precision, a unit in every column name).
 */
#include "command-private.h"
#include "svg.h"

#include <errno.h>
#include <string.h>

typedef struct
{
  char *text;    /* text columns; NULL: empty */
  double number; /* others; NAN: empty */
} Cell;

struct _Table
{
  const char *name;
  char *title;
  const Column *columns;
  size_t n_columns;
  GArray *cells; /* Cell, row by row */
};

static void
clear_cell (gpointer cell)
{
  g_free (((Cell *)cell)->text);
}

Table *
table_new (const char *name, const char *title, const Column *columns, size_t n_columns)
{
  Table *table = g_new0 (Table, 1);
  *table = (Table){ name, g_strdup (title), columns, n_columns, g_array_new (FALSE, FALSE, sizeof (Cell)) };
  g_array_set_clear_func (table->cells, clear_cell);
  return table;
}

void
table_free (Table *table)
{
  if (table == NULL)
    return;
  g_array_unref (table->cells);
  g_free (table->title);
  g_free (table);
}

const char *
table_name (const Table *table)
{
  return table->name;
}

static ColumnKind
next_kind (const Table *table)
{
  return table->columns[table->cells->len % table->n_columns].kind;
}

void
table_add_text (Table *table, const char *text)
{
  g_assert (next_kind (table) == COLUMN_TEXT);
  Cell cell = { text != NULL ? g_utf8_make_valid (text, -1) : NULL, NAN };
  g_array_append_val (table->cells, cell);
}

void
table_add_number (Table *table, double number)
{
  g_assert (next_kind (table) != COLUMN_TEXT);
  Cell cell = { NULL, isfinite (number) ? number : NAN };
  g_array_append_val (table->cells, cell);
}

static size_t
n_rows (const Table *table)
{
  g_assert (table->cells->len % table->n_columns == 0);
  return table->cells->len / table->n_columns;
}

static const Cell *
cell_at (const Table *table, size_t row, size_t column)
{
  return &g_array_index (table->cells, Cell, row * table->n_columns + column);
}

static bool
is_empty (const Cell *cell)
{
  return cell->text == NULL && isnan (cell->number);
}

static bool
is_length (const Column *column)
{
  return column->kind == COLUMN_LENGTH || column->kind == COLUMN_FINE;
}

/* Column name with its unit, as files carry it. */
static void
append_name (GString *text, const Column *column, LengthUnit units)
{
  g_string_append (text, column->name);
  if (is_length (column) || column->kind == COLUMN_PLACE)
    g_string_append_printf (text, "_%s", unit_suffix (column->kind == COLUMN_PLACE ? UNIT_METRES : units));
}

static void
append_number (GString *text, const Column *column, double number, LengthUnit units)
{
  char buffer[64];
  g_string_append (text,
                   units_print_full (is_length (column) ? unit_from_metres (units, number) : number, buffer, sizeof buffer));
}

/* ---- CSV ---- */

static void
append_csv_text (GString *text, const char *field)
{
  if (strpbrk (field, ",\"\r\n") == NULL)
    {
      g_string_append (text, field);
      return;
    }
  g_string_append_c (text, '"');
  for (const char *c = field; *c != '\0'; c++)
    {
      if (*c == '"')
        g_string_append_c (text, '"');
      g_string_append_c (text, *c);
    }
  g_string_append_c (text, '"');
}

static void
append_csv (GString *text, const Table *table, LengthUnit units)
{
  for (size_t c = 0; c < table->n_columns; c++)
    {
      g_string_append (text, c == 0 ? "" : ",");
      append_name (text, &table->columns[c], units);
    }
  g_string_append (text, "\r\n");
  for (size_t r = 0; r < n_rows (table); r++)
    {
      for (size_t c = 0; c < table->n_columns; c++)
        {
          const Cell *cell = cell_at (table, r, c);
          g_string_append (text, c == 0 ? "" : ",");
          if (cell->text != NULL)
            append_csv_text (text, cell->text);
          else if (!is_empty (cell))
            append_number (text, &table->columns[c], cell->number, units);
        }
      g_string_append (text, "\r\n");
    }
}

/* ---- JSON ---- */

static void
append_json_text (GString *text, const char *value)
{
  g_string_append_c (text, '"');
  for (const char *c = value; *c != '\0'; c++)
    if (*c == '"' || *c == '\\')
      g_string_append_printf (text, "\\%c", *c);
    else if ((unsigned char)*c < 0x20 || *c == 0x7f)
      g_string_append_printf (text, "\\u%04x", (unsigned)(unsigned char)*c);
    else
      g_string_append_c (text, *c);
  g_string_append_c (text, '"');
}

static void
append_json_row (GString *text, const Table *table, size_t row, LengthUnit units)
{
  g_string_append (text, "    {");
  for (size_t c = 0; c < table->n_columns; c++)
    {
      const Cell *cell = cell_at (table, row, c);
      g_string_append (text, c == 0 ? "\"" : ", \"");
      append_name (text, &table->columns[c], units);
      g_string_append (text, "\": ");
      if (cell->text != NULL)
        append_json_text (text, cell->text);
      else if (is_empty (cell))
        g_string_append (text, "null");
      else
        append_number (text, &table->columns[c], cell->number, units);
    }
  g_string_append (text, "}");
}

static void
append_json (GString *text, Table *const *tables, size_t n_tables, const Options *options)
{
  bool is_first = true;
  g_string_append (text, "{\n");
  for (size_t t = 0; t < n_tables; t++)
    {
      if (options->rows != NULL && strcmp (options->rows, tables[t]->name) != 0)
        continue;
      g_string_append_printf (text, "%s  \"%s\": [", is_first ? "" : ",\n", tables[t]->name);
      for (size_t r = 0; r < n_rows (tables[t]); r++)
        {
          g_string_append (text, r == 0 ? "\n" : ",\n");
          append_json_row (text, tables[t], r, options->units);
        }
      g_string_append (text, n_rows (tables[t]) > 0 ? "\n  ]" : "]");
      is_first = false;
    }
  g_string_append (text, "\n}\n");
}

/* ---- for people ---- */

char *
print_fixed (double number, int decimals)
{
  char buffer[64];
  units_print_decimals (number, decimals, buffer, sizeof buffer);
  GString *text = g_string_new (buffer);
  const char *point = strchr (buffer, '.');
  size_t n_places = point != NULL ? strlen (point + 1) : 0;
  if (point == NULL && decimals > 0 && text->len > 0)
    g_string_append_c (text, '.');
  for (size_t i = n_places; i < (size_t)decimals && text->len > 0; i++)
    g_string_append_c (text, '0');
  return g_string_free (text, FALSE);
}

/* What a reader sees in place of a number there is none of. */
#define NO_VALUE "-"

static char *
human_cell (const Column *column, const Cell *cell, LengthUnit units)
{
  char buffer[64];
  if (is_empty (cell))
    return g_strdup (column->kind == COLUMN_TEXT ? "" : NO_VALUE);
  switch (column->kind)
    {
    case COLUMN_TEXT:
      break;
    case COLUMN_LENGTH:
      return g_strdup (units_print_whole (cell->number, units, buffer, sizeof buffer));
    case COLUMN_FINE:
      return print_fixed (unit_from_metres (units, cell->number), 1);
    case COLUMN_STROKES:
      return print_fixed (cell->number, 2);
    case COLUMN_NUMBER:
      return g_strdup (units_print_decimals (cell->number, 2, buffer, sizeof buffer));
    case COLUMN_PLACE:
      return g_strdup (units_print_decimals (cell->number, 1, buffer, sizeof buffer));
    case COLUMN_CHANCE:
      return g_strconcat (units_print_decimals (100 * cell->number, 0, buffer, sizeof buffer), " %", NULL);
    case COLUMN_COUNT:
      return g_strdup (units_print_decimals (cell->number, 0, buffer, sizeof buffer));
    }
  char *text = g_strdup (cell->text);
  for (char *c = text; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';
  return text;
}

static char *
human_name (const Column *column)
{
  if (column->label != NULL)
    return g_strdup (column->label);
  char *name = g_strdup (column->name);
  for (char *c = name; *c != '\0'; c++)
    if (*c == '_')
      *c = ' ';
  if (column->kind == COLUMN_PLACE)
    {
      char *with_unit = g_strconcat (name, " m", NULL);
      g_free (name);
      return with_unit;
    }
  return name;
}

static void
append_padded (GString *text, const char *cell, size_t width, bool is_left, bool is_last)
{
  size_t length = (size_t)g_utf8_strlen (cell, -1);
  size_t pad = width > length ? width - length : 0;
  if (is_left)
    g_string_append (text, cell);
  if (!is_left || !is_last)
    g_string_append_printf (text, "%*s", (int)pad, "");
  if (!is_left)
    g_string_append (text, cell);
  while (is_last && text->len > 0 && text->str[text->len - 1] == ' ')
    g_string_truncate (text, text->len - 1);
  g_string_append (text, is_last ? "\n" : "  ");
}

/* Words longer than this run on rather than widen their whole column; a sentence at the end of a row goes on in another line before it is so wide. */
#define WIDEST_WORDS 44
#define WIDEST_SENTENCE 100

/* The last cell of a row, begun at `indent`. */
static void
append_sentence (GString *text, const char *cell, size_t indent)
{
  g_auto (GStrv) words = g_strsplit (cell, " ", -1);
  size_t at = 0;
  for (char **word = words; *word != NULL; word++)
    {
      size_t length = (size_t)g_utf8_strlen (*word, -1);
      bool is_new_line = at > 0 && at + 1 + length > WIDEST_SENTENCE;
      if (is_new_line)
        g_string_append_printf (text, "\n%*s", (int)indent, "");
      else if (word > words)
        g_string_append_c (text, ' ');
      g_string_append (text, *word);
      at = is_new_line ? length : at + (word > words ? 1 : 0) + length;
    }
  g_string_append_c (text, '\n');
}

/* The columns that people see; how many. */
static size_t
human_columns (const Table *table, const Column **columns, size_t *places)
{
  size_t n = 0;
  for (size_t c = 0; c < table->n_columns; c++)
    if (table->columns[c].label == NULL || *table->columns[c].label != '\0')
      {
        columns[n] = &table->columns[c];
        places[n++] = c;
      }
  return n;
}

static void
append_human (GString *text, const Table *table, LengthUnit units)
{
  size_t rows = n_rows (table) + 1; /* the names and every row */
  g_autofree const Column **columns = g_new (const Column *, table->n_columns);
  g_autofree size_t *places = g_new (size_t, table->n_columns), *widths = g_new0 (size_t, table->n_columns);
  size_t n = human_columns (table, columns, places), indent = 0;
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  for (size_t r = 0; r < rows; r++)
    for (size_t c = 0; c < n; c++)
      {
        char *cell = r == 0 ? human_name (columns[c]) : human_cell (columns[c], cell_at (table, r - 1, places[c]), units);
        size_t length = (size_t)g_utf8_strlen (cell, -1);
        g_ptr_array_add (cells, cell);
        if (length <= WIDEST_WORDS)
          widths[c] = MAX (widths[c], length);
      }
  for (size_t c = 0; c + 1 < n; c++)
    indent += widths[c] + 2;
  if (table->title != NULL)
    g_string_append_printf (text, "%s\n", table->title);
  for (size_t r = 0; r < rows; r++)
    for (size_t c = 0; c < n; c++)
      {
        const char *cell = g_ptr_array_index (cells, r * n + c);
        if (c + 1 == n && g_utf8_strlen (cell, -1) > WIDEST_SENTENCE)
          append_sentence (text, cell, indent);
        else
          append_padded (text, cell, widths[c], columns[c]->kind == COLUMN_TEXT, c + 1 == n);
      }
}

/* ---- writing ---- */

static bool
check_rows (Table *const *tables, size_t n_tables, const char *rows, GError **error)
{
  if (rows == NULL)
    return true;
  g_autoptr (GString) known = g_string_new (NULL);
  for (size_t t = 0; t < n_tables; t++)
    {
      if (strcmp (tables[t]->name, rows) == 0)
        return true;
      g_string_append_printf (known, "%s%s", t == 0 ? "" : (t + 1 == n_tables ? " or " : ", "), tables[t]->name);
    }
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_USAGE, "--rows '%s' is not known; give %s", rows, known->str);
  return false;
}

static void
append_tables (GString *text, Table *const *tables, size_t n_tables, size_t first, const Options *options)
{
  if (options->format == FORMAT_JSON)
    {
      append_json (text, tables, n_tables, options);
      return;
    }
  for (size_t t = 0; t < n_tables; t++)
    {
      bool is_wanted = options->rows != NULL ? strcmp (tables[t]->name, options->rows) == 0
                                             : options->format == FORMAT_TABLE || t == first;
      if (!is_wanted)
        continue;
      if (options->format == FORMAT_CSV)
        append_csv (text, tables[t], options->units);
      else
        {
          g_string_append (text, text->len > 0 ? "\n" : "");
          append_human (text, tables[t], options->units);
        }
    }
}

bool
tables_write (Table *const *tables, size_t n_tables, size_t first, const Options *options, FILE *out, GError **error)
{
  if (!check_rows (tables, n_tables, options->rows, error))
    return false;
  g_autoptr (GString) text = g_string_new (NULL);
  append_tables (text, tables, n_tables, first, options);
  if (options->output != NULL)
    {
      g_autoptr (GBytes) bytes = g_bytes_new (text->str, text->len);
      return svg_save_bytes (bytes, options->output, error);
    }
  if (fwrite (text->str, 1, text->len, out) == text->len && fflush (out) == 0)
    return true;
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT,
               "standard output cannot be written (%s); free some space or use -o FILE", g_strerror (errno));
  return false;
}
