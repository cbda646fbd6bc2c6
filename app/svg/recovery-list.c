// SPDX-License-Identifier: GPL-3.0-or-later
/* Recovery copies found and read. A copy whose facts are missing or broken is offered all the same: the document is what counts. */
#include "recovery-private.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>

void
recovery_copy_free (RecoveryCopy *copy)
{
  if (!copy)
    return;
  g_free (copy->key);
  g_free (copy->path);
  g_free (copy->original);
  g_free (copy->held);
  g_free (copy->title);
  g_free (copy);
}

/* Time of the last change of the copy's document. */
static gint64
time_of_file (const char *path)
{
  GStatBuf status;
  return g_stat (path, &status) == 0 ? (gint64)status.st_mtime : 0;
}

static char *
path_of_uri (GKeyFile *facts)
{
  g_autofree char *uri = g_key_file_get_string (facts, RECOVERY_GROUP, RECOVERY_ORIGINAL, NULL);
  return uri ? g_filename_from_uri (uri, NULL, NULL) : NULL;
}

static void
take_facts (const char *folder, RecoveryCopy *copy, char **boot)
{
  g_autoptr (GKeyFile) facts = g_key_file_new ();
  g_autofree char *path = recovery_file (folder, copy->key, RECOVERY_FACTS);
  copy->time_s = time_of_file (copy->path);
  if (!g_key_file_load_from_file (facts, path, G_KEY_FILE_NONE, NULL))
    return;
  copy->original = path_of_uri (facts);
  copy->held = g_key_file_get_string (facts, RECOVERY_GROUP, RECOVERY_HELD, NULL);
  copy->title = g_key_file_get_string (facts, RECOVERY_GROUP, RECOVERY_TITLE, NULL);
  *boot = g_key_file_get_string (facts, RECOVERY_GROUP, RECOVERY_BOOT, NULL);
  g_autofree char *time = g_key_file_get_string (facts, RECOVERY_GROUP, RECOVERY_TIME, NULL);
  g_autoptr (GDateTime) written = time ? g_date_time_new_from_iso8601 (time, NULL) : NULL;
  if (written)
    copy->time_s = g_date_time_to_unix (written);
}

/* Does the file it belongs to hold the very same bytes? */
static bool
is_saved (const RecoveryCopy *copy)
{
  if (!copy->original)
    return false;
  g_autoptr (GBytes) one = svg_read_contents (copy->path, NULL), other = svg_read_contents (copy->original, NULL);
  return one && other && g_bytes_equal (one, other);
}

/* The copy whose document has this file name; NULL for other files and copies of living processes. */
static RecoveryCopy *
look_at (const char *folder, const char *name)
{
  ProcessName process;
  bool is_bag = g_str_has_suffix (name, RECOVERY_BAG);
  const char *ending = is_bag ? RECOVERY_BAG : RECOVERY_DOCUMENT;
  if (!g_str_has_suffix (name, ending))
    return NULL;
  g_autofree char *key = g_strndup (name, strlen (name) - strlen (ending)), *boot = NULL;
  if (!recovery_parse_key (key, &process))
    return NULL;
  RecoveryCopy *copy = g_new0 (RecoveryCopy, 1);
  copy->is_bag = is_bag;
  copy->path = recovery_file (folder, key, ending);
  copy->key = g_steal_pointer (&key);
  take_facts (folder, copy, &boot);
  if (process_is_alive (process, boot))
    g_clear_pointer (&copy, recovery_copy_free);
  else if (is_saved (copy))
    {
      recovery_discard (folder, copy->key, NULL); /* if that fails it is removed another time */
      g_clear_pointer (&copy, recovery_copy_free);
    }
  return copy;
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  const RecoveryCopy *one = *(RecoveryCopy *const *)a, *other = *(RecoveryCopy *const *)b;
  if (one->time_s != other->time_s)
    return one->time_s > other->time_s ? -1 : 1;
  return strcmp (one->key, other->key);
}

GPtrArray *
recovery_list (const char *folder, GError **error)
{
  g_autoptr (GError) problem = NULL;
  g_autoptr (GPtrArray) copies = g_ptr_array_new_with_free_func ((GDestroyNotify)recovery_copy_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &problem);
  if (!dir && g_error_matches (problem, G_FILE_ERROR, G_FILE_ERROR_NOENT))
    return g_steal_pointer (&copies);
  if (!dir)
    {
      document_fault (folder, 0, SVG_ERROR_READ, error, "recovery copies cannot be looked for (%s); mend its permissions",
                      problem->message);
      return NULL;
    }
  for (const char *name = g_dir_read_name (dir); name; name = g_dir_read_name (dir))
    {
      RecoveryCopy *copy = look_at (folder, name);
      if (copy)
        g_ptr_array_add (copies, copy);
    }
  g_ptr_array_sort (copies, newest_first);
  return g_steal_pointer (&copies);
}

Hole *
recovery_read (const RecoveryCopy *copy, GPtrArray **findings, GError **error)
{
  return svg_read_file (copy->path, findings, error);
}

bool
recovery_is_overtaken (const RecoveryCopy *copy, GBytes *now)
{
  if (!copy->held)
    return false;
  g_autofree char *sum = g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, now);
  return strcmp (sum, copy->held) != 0;
}
