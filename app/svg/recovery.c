// SPDX-License-Identifier: GPL-3.0-or-later
/* Recovery copies written and discarded, and the processes they belong to. */
#define _POSIX_C_SOURCE 200809L
#include "recovery-private.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <inttypes.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

/* The user alone may look at copies. */
#define FOLDER_MODE 0700
/* Process id, its start, a random number. */
#define KEY_FORMAT "%" PRId64 "-%" PRIu64 "-%08x"

/* ---- processes ---- */

/*
 * Field 22 of /proc/PID/stat (proc(5)): the start in clock ticks after the boot. 0 if there is no /proc, no such process, or only what is left of one
 * that died (field 3, Z or X).
 */
static guint64
start_of (gint64 id)
{
  enum
  {
    STATE = 3,
    STARTTIME = 22
  };
  g_autofree char *path = g_strdup_printf ("/proc/%" PRId64 "/stat", id), *text = NULL;
  if (!g_file_get_contents (path, &text, NULL, NULL))
    return 0;
  const char *name_end = strrchr (text, ')');                               /* the name before it may hold anything */
  g_auto (GStrv) fields = name_end ? g_strsplit (name_end, " ", -1) : NULL; /* the first is the end of field 2 */
  if (!fields || g_strv_length (fields) <= STARTTIME - STATE + 1 || strchr ("ZXx", fields[1][0]))
    return 0;
  return g_ascii_strtoull (fields[STARTTIME - STATE + 1], NULL, 10);
}

ProcessName
process_self (void)
{
  gint64 id = getpid ();
  return (ProcessName){ id, start_of (id) };
}

char *
process_boot (void)
{
  char *text = NULL;
  return g_file_get_contents ("/proc/sys/kernel/random/boot_id", &text, NULL, NULL) ? g_strstrip (text) : NULL;
}

bool
process_is_alive (ProcessName process, const char *boot)
{
  g_autofree char *now = process_boot ();
  if (boot && now && strcmp (boot, now) != 0)
    return false;
  if (process.started > 0 && start_of (getpid ()) > 0)
    return start_of (process.id) == process.started;
  /* Where the system does not tell starts, any process of that id counts. */
  return process.id > 0 && (kill ((pid_t)process.id, 0) == 0 || errno == EPERM);
}

/* ---- names ---- */

char *
recovery_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "holewright", "recovery", NULL);
}

char *
recovery_new_key (void)
{
  ProcessName self = process_self ();
  return g_strdup_printf (KEY_FORMAT, self.id, self.started, g_random_int ());
}

bool
recovery_parse_key (const char *key, ProcessName *process)
{
  char *end;
  gint64 id = g_ascii_strtoll (key, &end, 10);
  if (!g_ascii_isdigit (*key) || *end != '-' || id <= 0 || id > G_MAXINT32 || !g_ascii_isdigit (end[1]))
    return false;
  guint64 started = g_ascii_strtoull (end + 1, &end, 10);
  if (*end != '-' || strlen (end + 1) != 8 || strspn (end + 1, "0123456789abcdef") != 8)
    return false;
  *process = (ProcessName){ id, started };
  return true;
}

char *
recovery_file (const char *folder, const char *key, const char *ending)
{
  g_autofree char *name = g_strconcat (key, ending, NULL);
  return g_build_filename (folder, name, NULL);
}

/* ---- writing ---- */

static GBytes *
print_facts (const char *title, const char *original, GBytes *held)
{
  g_autoptr (GKeyFile) facts = g_key_file_new ();
  g_autofree char *absolute = original ? g_canonicalize_filename (original, NULL) : NULL;
  g_autofree char *uri = absolute ? g_filename_to_uri (absolute, NULL, NULL) : NULL, *boot = process_boot ();
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  g_autofree char *time = g_date_time_format_iso8601 (now);
  g_key_file_set_string (facts, RECOVERY_GROUP, RECOVERY_TIME, time);
  if (uri)
    g_key_file_set_string (facts, RECOVERY_GROUP, RECOVERY_ORIGINAL, uri);
  if (uri && held)
    {
      g_autofree char *sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, held);
      g_key_file_set_string (facts, RECOVERY_GROUP, RECOVERY_HELD, sum);
    }
  if (title)
    g_key_file_set_string (facts, RECOVERY_GROUP, RECOVERY_TITLE, title);
  if (boot)
    g_key_file_set_string (facts, RECOVERY_GROUP, RECOVERY_BOOT, boot);
  gsize size;
  char *text = g_key_file_to_data (facts, &size, NULL);
  return g_bytes_new_take (text, size);
}

/* What the golfer has to know is the same for every reason; the file on disk that saving speaks of is none of theirs. */
static bool
save_copy (const char *folder, GBytes *bytes, const char *path, GError **error)
{
  if (svg_save_bytes (bytes, path, NULL))
    return true;
  document_fault (folder, 0, SVG_ERROR_WRITE, error,
                  "no recovery copy can be kept here; make room or mend its permissions, and save often");
  return false;
}

static bool
refuse_folder (const char *folder, GError **error)
{
  document_fault (folder, 0, SVG_ERROR_WRITE, error,
                  "no recovery copy can be kept here (%s); make room or mend its permissions, and save often",
                  g_strerror (errno));
  return false;
}

/* Saves a copy's document and its facts. */
static bool
write_copy (const char *folder, const char *key, const char *ending, GBytes *bytes, GBytes *printed, GError **error)
{
  g_autofree char *document = recovery_file (folder, key, ending), *facts = recovery_file (folder, key, RECOVERY_FACTS);
  if (g_mkdir_with_parents (folder, FOLDER_MODE) != 0)
    return refuse_folder (folder, error);
  /* Last what makes it a copy: a program killed in between leaves no copy without its facts, which nobody would be offered. */
  return save_copy (folder, printed, facts, error) && save_copy (folder, bytes, document, error);
}

bool
recovery_write (const char *folder, const char *key, const Hole *hole, const char *original, GBytes *held, GError **error)
{
  ProcessName process;
  g_return_val_if_fail (recovery_parse_key (key, &process), false);
  g_autoptr (GBytes) bytes = svg_write_bytes (hole, error);
  g_autoptr (Hole) back = bytes ? svg_read_bytes (bytes, "the recovery copy", NULL, error) : NULL;
  if (!back)
    return false;
  g_autoptr (GBytes) printed = print_facts (hole_info (hole)->title, original, held);
  return write_copy (folder, key, RECOVERY_DOCUMENT, bytes, printed, error);
}

bool
recovery_write_bag (const char *folder, const char *key, GBytes *bag, const char *original, GBytes *held, GError **error)
{
  ProcessName process;
  g_return_val_if_fail (recovery_parse_key (key, &process), false);
  g_autoptr (GBytes) printed = print_facts (NULL, original, held);
  return write_copy (folder, key, RECOVERY_BAG, bag, printed, error);
}

static bool
remove_file (const char *path, GError **error)
{
  if (g_unlink (path) == 0 || errno == ENOENT)
    return true;
  document_fault (path, 0, SVG_ERROR_WRITE, error, "the recovery copy cannot be removed (%s); delete it by hand",
                  g_strerror (errno));
  return false;
}

bool
recovery_discard (const char *folder, const char *key, GError **error)
{
  ProcessName process;
  g_return_val_if_fail (recovery_parse_key (key, &process), false);
  static const char *const endings[] = { RECOVERY_DOCUMENT, RECOVERY_BAG, RECOVERY_FACTS };
  for (size_t i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *path = recovery_file (folder, key, endings[i]);
      if (!remove_file (path, error))
        return false;
    }
  return true;
}
