// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * csv - comma-separated values after RFC 4180: quotes, doubled quotes, line ends inside quotes, CRLF, LF or CR.
 */
#ifndef HOLEWRIGHT_CSV_PRIVATE_H
#define HOLEWRIGHT_CSV_PRIVATE_H

#include <glib.h>
#include <stdbool.h>
#include <stddef.h>

typedef struct
{
  char *text;      /* without its quotes and without spaces at the ends */
  unsigned line;   /* on which it begins, from 1 */
  const char *raw; /* where it begins in what is read, quotes and spaces included */
  size_t raw_size;
} CsvField;

/* Reads on from `text`, which is valid UTF-8 without a byte order mark; `line` is the line of that character. */
typedef struct
{
  const char *text;
  unsigned line;
} CsvReader;

/*
 * Next record as an array of CsvField, blank lines passed over; NULL at the end, or with `*problem` (a sentence) and `*problem_line`
 * set when the text is not CSV. Free with g_ptr_array_unref.
 */
GPtrArray *csv_next (CsvReader *reader, const char **problem, unsigned *problem_line);

/* A file that is being edited: what is not touched keeps its very text. The lines are records, however many lines of text they take. */
typedef struct
{
  char *gap;        /* what stands before it: line end, blank lines, a byte order mark */
  GPtrArray *cells; /* of char *, as they stand in the file */
} CsvLine;

typedef struct
{
  GPtrArray *lines; /* of CsvLine; the header is the first */
  char *tail;       /* what follows the last */
  char line_end[3];
} CsvText;

/* Takes apart what csv_next has read through without a problem. */
CsvText *csv_text_new (GBytes *bytes);
void csv_text_free (CsvText *text);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CsvText, csv_text_free)
GBytes *csv_text_print (const CsvText *text);
/* A value without its quotes; empty where the line has no such cell. Free with g_free. */
char *csv_text_get (const CsvText *text, size_t line, size_t cell);
/* Puts a value into a cell, in quotes where it needs them; a line too short for it grows. */
void csv_text_set (CsvText *text, size_t line, size_t cell, const char *value);
/* A new column behind the last; returns its index. */
size_t csv_text_add_column (CsvText *text, const char *heading);
/* An empty line that becomes line number `at`. */
void csv_text_insert (CsvText *text, size_t at);
void csv_text_remove (CsvText *text, size_t at);

#endif
