// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * csv - comma-separated values after RFC 4180: quotes, doubled quotes, line ends inside quotes, CRLF, LF or CR.
 */
#ifndef HOLEWRIGHT_CSV_PRIVATE_H
#define HOLEWRIGHT_CSV_PRIVATE_H

#include <glib.h>
#include <stdbool.h>

typedef struct
{
  char *text;    /* without its quotes and without spaces at the ends */
  unsigned line; /* on which it begins, from 1 */
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

#endif
