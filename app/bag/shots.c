// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Reading recorded shots: a shot a line, kept club by club.
 */
#include "bag.h"
#include "sheet-private.h"

#include <string.h>

enum
{
  COLUMN_CLUB,
  COLUMN_CARRY,
  COLUMN_SIDE,
  N_COLUMNS
};

/* The limits only tell a slip of the pen from a number (common practice). A topped ball may carry nothing. */
static const ColumnInfo columns[N_COLUMNS] = {
  [COLUMN_CLUB] = { "club", .is_needed = true },
  [COLUMN_CARRY] = { "carry", true, true, 0, BAG_LONGEST_CARRY_M, "0 or more and at most 500 metres (547 yards)" },
  [COLUMN_SIDE] = { "side", true, true, -200, 200, "at most 200 metres (219 yards) to either side" },
};

static const SheetInfo shot_sheet
    = { "file of shots",       "shots", "a shot a line", "club,carry_yd,side_yd", .most_mib = 64, .columns = columns,
        .n_columns = N_COLUMNS };

typedef struct
{
  char *name;
  GArray *carry_m, *side_m; /* of double */
} LoggedClub;

struct _ShotLog
{
  GPtrArray *clubs;    /* of LoggedClub, as they first appear */
  GHashTable *by_name; /* folded name -> LoggedClub */
  LoggedClub *last;    /* that of the line before, which mostly is that of the next */
  size_t n_shots;
};

static void
logged_club_free (gpointer data)
{
  LoggedClub *club = data;
  g_free (club->name);
  g_array_unref (club->carry_m);
  g_array_unref (club->side_m);
  g_free (club);
}

void
shot_log_free (ShotLog *log)
{
  if (log == NULL)
    return;
  g_ptr_array_unref (log->clubs);
  g_hash_table_unref (log->by_name);
  g_free (log);
}

/* A name on one line, as the bag has it. */
static char *
clean_name (const char *text)
{
  char *name = g_strdup (text);
  for (char *c = name; *c != '\0'; c++)
    if (g_ascii_iscntrl (*c))
      *c = ' ';
  return name;
}

static LoggedClub *
club_of (ShotLog *log, const char *text)
{
  if (log->last != NULL && strcmp (log->last->name, text) == 0)
    return log->last;
  g_autofree char *name = clean_name (text), *folded = g_utf8_casefold (name, -1);
  log->last = g_hash_table_lookup (log->by_name, folded);
  if (log->last != NULL)
    return log->last;
  log->last = g_new (LoggedClub, 1);
  *log->last = (LoggedClub){ g_steal_pointer (&name), g_array_new (FALSE, FALSE, sizeof (double)),
                             g_array_new (FALSE, FALSE, sizeof (double)) };
  g_ptr_array_add (log->clubs, log->last);
  g_hash_table_insert (log->by_name, g_steal_pointer (&folded), log->last);
  return log->last;
}

static bool
take_shot (void *data, const Sheet *sheet, const GPtrArray *record, unsigned line, GError **error)
{
  ShotLog *log = data;
  static const char *const missing[N_COLUMNS] = {
    "a shot has no club; name it in the column club",
    "a shot has no carry; write how far it flew or leave the line out",
    "a shot has no side; write how far right or left (-) it came down, 0 on the line, or leave the line out",
  };
  for (int c = 0; c < N_COLUMNS; c++)
    if (sheet_cell (sheet, record, c) == NULL)
      return sheet_fail (sheet, error, line, "%s", missing[c]);
  if (++log->n_shots > SHOT_LOG_MOST_SHOTS)
    return sheet_fail (sheet, error, line, "there are more than %d shots in one file; leave the oldest out",
                       SHOT_LOG_MOST_SHOTS);
  double carry_m, side_m;
  if (!sheet_number (sheet, record, COLUMN_CARRY, &carry_m, error)
      || !sheet_number (sheet, record, COLUMN_SIDE, &side_m, error))
    return false;
  LoggedClub *club = club_of (log, sheet_cell (sheet, record, COLUMN_CLUB)->text);
  if (log->clubs->len > SHOT_LOG_MOST_CLUBS)
    return sheet_fail (sheet, error, line,
                       "there are more than %d clubs in one file; name the club in the column club, nothing else",
                       SHOT_LOG_MOST_CLUBS);
  g_array_append_val (club->carry_m, carry_m);
  g_array_append_val (club->side_m, side_m);
  return true;
}

ShotLog *
shot_log_read_bytes (GBytes *bytes, const char *name, GError **error)
{
  ShotLog *log = g_new0 (ShotLog, 1);
  log->clubs = g_ptr_array_new_with_free_func (logged_club_free);
  log->by_name = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  Sheet sheet = { .info = &shot_sheet, .name = name };
  size_t n_shots;
  if (sheet_read (&sheet, bytes, take_shot, log, &n_shots, error) && (n_shots > 0 || sheet_fail_empty (&sheet, error)))
    return log;
  shot_log_free (log);
  return NULL;
}

ShotLog *
shot_log_read_file (const char *path, GError **error)
{
  g_autoptr (GBytes) bytes = sheet_file_bytes (&shot_sheet, path, error);
  return bytes != NULL ? shot_log_read_bytes (bytes, path, error) : NULL;
}

size_t
shot_log_n_clubs (const ShotLog *log)
{
  return log->clubs->len;
}

ClubShots
shot_log_club (const ShotLog *log, size_t i)
{
  g_assert (i < log->clubs->len);
  const LoggedClub *club = log->clubs->pdata[i];
  return (ClubShots){ club->name, (const double *)(const void *)club->carry_m->data,
                      (const double *)(const void *)club->side_m->data, club->carry_m->len };
}
