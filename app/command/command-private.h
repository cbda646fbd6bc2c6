// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * command-private - what the commands share: the options of the command line, messages and exit status, reading the inputs, writing the tables.
 */
#ifndef HOLEWRIGHT_COMMAND_PRIVATE_H
#define HOLEWRIGHT_COMMAND_PRIVATE_H

#include "bag.h"
#include "hole.h"
#include "odds.h"
#include "plan.h"
#include "render.h"
#include "units.h"

#include <stdio.h>

/* Exit status of every command. */
enum
{
  STATUS_DONE,
  STATUS_INPUT, /* the input cannot be used */
  STATUS_USAGE  /* wrong usage */
};

#define COMMAND_ERROR (command_error_quark ())
GQuark command_error_quark (void);
typedef enum
{
  COMMAND_ERROR_USAGE,
  COMMAND_ERROR_INPUT
} CommandError;

/* Prints "holewright: MESSAGE" and a line end; control characters of the message are made visible. */
void message_print (FILE *err, const char *message);
/* Prints the error and gives the exit status that belongs to it. */
int message_fail (FILE *err, const GError *error);

/* ---- options ---- */

/* The commands that take an option are a mask of these. */
enum
{
  FOR_CHECK = 1 << 0,
  FOR_CARRIES = 1 << 1,
  FOR_CARD = 1 << 2,
  FOR_BAG = 1 << 3,
  FOR_ODDS = 1 << 4,
  FOR_PLAN = 1 << 5
};

typedef enum
{
  FORMAT_TABLE,
  FORMAT_CSV,
  FORMAT_JSON
} TableFormat;

/* Everything the command line can say. Strings are borrowed from argv; NULL = not given. */
typedef struct
{
  char **files; /* borrowed pointers, NULL-terminated */
  size_t n_files;
  const char *from, *aim, *club, *bag, *tee, *hole, *rows, *output, *fit, *lies, *map;
  const char *wind, *temperature, *pressure, *altitude, *humidity, *firmness, *green_speed; /* of the day */
  double swing; /* share of a full swing; NAN: fit; 0: not given */
  Level level;  /* whose spread fills a gap in the bag */
  LengthUnit units;
  TableFormat format;
  CardPage page;
  int scale; /* 0: not given */
  bool is_grey;
  bool is_compared; /* of a plan */
  unsigned blocks;  /* of the card */
  bool is_help;
} Options;

/* Reads the arguments of one command (argv[0] its name). False with a usage error. */
bool options_parse (Options *options, unsigned command, int argc, char **argv, GError **error);
void options_clear (Options *options);
/* Usage of one command: its line, what it does, and every option it takes. */
void options_print_help (FILE *out, const char *name, const char *arguments, const char *summary, unsigned command);

/* ---- inputs ---- */

/* Hole of a file; messages of the bag's and the reader's doubts go to `err`. NULL with `error`. */
Hole *input_hole (const char *path, FILE *err, GError **error);
/* The bag that --bag names, else bag.csv beside the hole file. NULL with `error`; where it is not `needed` and is missing, NULL without. */
Bag *input_bag (const Options *options, const char *beside, bool needed, FILE *err, GError **error);
/* The bag with the table of lies that --lies names, a reference to the very bag without one. NULL with `error`. */
Bag *input_lies (const Options *options, Bag *bag, GError **error);
/* What the reader of a bag has to say of it, to `err`. */
void input_bag_warnings (const Bag *bag, FILE *err);
/* Is this path a folder or a course.xml? */
bool input_is_course (const char *path);
/* A hole without a tee marker, or without the tee marker or the hole location that the options name, is refused with those that it has. */
bool input_names (const Options *options, const char *path, const Hole *hole, GError **error);
/* The shot that the options describe on a day, which is borrowed. `*title` (free with g_free) says it in words. */
bool input_shot (const Options *options, const char *path, const Hole *hole, const Bag *bag, const Conditions *conditions,
                 ShotInput *shot, char **title, GError **error);

/*
 * The day to fly in: what the options say of it over what the plan's own day says. The caller clears `*day` with day_clear. False with a usage error for
 * what cannot be read.
 */
bool input_day (const Options *options, const Hole *hole, Day *day, GError **error);
/* The day's options as they were given, "--wind 5mph@90 --altitude 2000ft"; NULL if there are none. Free with g_free. */
char *input_day_options (const Options *options);

/* ---- the shot asked about ---- */

typedef struct
{
  Hole *hole;
  Bag *bag;
  Conditions conditions;
  ShotInput input;
  char *title; /* says it in words */
  ShotResult result;
} AskedShot;

/* Reads hole, bag and day, and flies the shot. The caller clears `*asked`, which is not to be moved. False with `error`, nothing to clear. */
bool asked_shot_fly (AskedShot *asked, const Options *options, FILE *err, GError **error);
void asked_shot_clear (AskedShot *asked);

/* The day that the options and the plan describe, as it is on the hole of the file `path`. */
bool input_conditions (const Options *options, const char *path, const Hole *hole, Conditions *conditions, GError **error);

/* ---- tables ---- */

typedef enum
{
  COLUMN_TEXT,
  COLUMN_COUNT,   /* whole number */
  COLUMN_LENGTH,  /* metres; written in the units asked for, which join the column's name */
  COLUMN_FINE,    /* length that people read to a tenth */
  COLUMN_PLACE,   /* coordinate in the hole frame: always metres, as --from and --aim take it */
  COLUMN_CHANCE,  /* 0..1 */
  COLUMN_STROKES, /* people read them to a hundredth, its zeros too */
  COLUMN_NUMBER   /* any other, which has its unit in its name if it has one; people read it to a hundredth */
} ColumnKind;

typedef struct
{
  const char *name; /* without its unit */
  ColumnKind kind;
  const char *label; /* what people read over it; NULL: its name; FOR_PROGRAMS: they do not see it */
} Column;
#define FOR_PROGRAMS ""

typedef struct _Table Table;

/* `name` and `columns` are borrowed; `title` (copied) heads the table where people read it. */
Table *table_new (const char *name, const char *title, const Column *columns, size_t n_columns);
void table_free (Table *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Table, table_free)
/* The shot in one row. */
Table *asked_shot_table (const AskedShot *asked);
/*
 * What the shot costs in strokes: adds the tables "strokes" and "ends", where --rows asks for them "clubs" and "number", to `tables`, which has room for
 * MOST_STROKES_TABLES; writes --map. `*odds` receives the shot's odds, which are found with them, or is left alone. Of a hole without anything to play to it tells nothing. False with
 * `error`.
 */
#define MOST_STROKES_TABLES 3
bool strokes_tables (const AskedShot *asked, const Options *options, Table **tables, size_t *n_tables, OddsTable **odds,
                     GError **error);
const char *table_name (const Table *table);
/* The next cell of the row in hand; a row is full when it has a cell for every column. NULL and NAN are empty cells. */
void table_add_text (Table *table, const char *text);
void table_add_number (Table *table, double number);
/* As people read it: so many decimals, also where they are 0. Free with g_free. */
char *print_fixed (double number, int decimals);

/*
 * Writes the tables as the options ask: `tables[first]` is the one CSV shows without --rows. To standard output, or safely to the file of -o.
 */
bool tables_write (Table *const *tables, size_t n_tables, size_t first, const Options *options, FILE *out, GError **error);

/* ---- the commands ---- */

int command_check (int argc, char **argv, FILE *out, FILE *err);
int command_odds (int argc, char **argv, FILE *out, FILE *err);
int command_plan (int argc, char **argv, FILE *out, FILE *err);
int command_carries (int argc, char **argv, FILE *out, FILE *err);
int command_bag (int argc, char **argv, FILE *out, FILE *err);
int command_card (int argc, char **argv, FILE *out, FILE *err);

#endif
