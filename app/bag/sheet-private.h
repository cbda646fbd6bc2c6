// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * sheet - what the files of this module share: comma-separated values under a header row that names the columns, the unit of a length in its
 * column's name; one table of columns a kind of file, and one sentence with file and line for whatever cannot be used.
 */
#ifndef HOLEWRIGHT_SHEET_PRIVATE_H
#define HOLEWRIGHT_SHEET_PRIVATE_H

#include "csv-private.h"
#include "units.h"

#define SHEET_MOST_COLUMNS 24

typedef struct
{
  const char *name;
  bool is_length; /* its name ends in _yd or _m */
  bool is_needed;
  double least, most; /* in metres for lengths, else as written */
  const char *range;  /* the two in words */
} ColumnInfo;

/* One kind of file. */
typedef struct
{
  const char *noun;   /* "bag" */
  const char *rows;   /* "clubs" */
  const char *row;    /* "a club a line" */
  const char *header; /* the shortest that can be used: "club,carry_yd" */
  size_t most_mib;    /* a file larger than this is something else */
  const ColumnInfo *columns;
  int n_columns;
} SheetInfo;

/* Where the columns stand in a file. */
typedef struct
{
  int field_of[SHEET_MOST_COLUMNS];    /* -1: the file has no such column */
  LengthUnit unit[SHEET_MOST_COLUMNS]; /* of the columns that are lengths */
} SheetLayout;

typedef struct
{
  const SheetInfo *info;
  const char *name;    /* of the file, for messages */
  GPtrArray *warnings; /* of char *; NULL: not wanted */
  unsigned header_line;
  size_t n_fields; /* of the header */
  SheetLayout layout;
} Sheet;

/* Takes one line below the header; `line` is its number. False stops the reading with `error` set. */
typedef bool (*SheetTake) (void *data, const Sheet *sheet, const GPtrArray *record, unsigned line, GError **error);

/* Reads the whole file. `*n_rows` counts the lines below the header; none is for the caller to judge. */
bool sheet_read (Sheet *sheet, GBytes *bytes, SheetTake take, void *data, size_t *n_rows, GError **error);
/* "there are no clubs below the header; ...". Always false. */
bool sheet_fail_empty (const Sheet *sheet, GError **error);
/* "NAME:LINE: ...". Always false. */
bool sheet_fail (const Sheet *sheet, GError **error, unsigned line, const char *format, ...) G_GNUC_PRINTF (4, 5);
/* "NAME:LINE: COLUMN is "VALUE"; write WANTED". Always false. */
bool sheet_fail_cell (const Sheet *sheet, GError **error, const CsvField *field, int column, const char *wanted);

/* NULL when the cell is empty or missing. */
const CsvField *sheet_cell (const Sheet *sheet, const GPtrArray *record, int column);
/* Leaves `*value` alone when the cell is empty. Lengths arrive in metres. */
bool sheet_number (const Sheet *sheet, const GPtrArray *record, int column, double *value, GError **error);
/* Name of a column as a header writes it: "carry_yd". Free with g_free. */
char *sheet_heading (const SheetInfo *info, int column, LengthUnit unit);

/* At most what the kind of file may have, and one byte more by which the reader knows that it is too large. NULL with a sentence. */
GBytes *sheet_file_bytes (const SheetInfo *info, const char *path, GError **error);

#endif
