// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Which files of a folder are bags: told by their headers, so that a bag with a mistake in it is still offered and then says what is wrong.
 */
#include "bag-private.h"

#include <string.h>

/* A header is somewhere in this much of a file, bytes; what is longer is no header of a bag (common practice). */
#define HEADER_BYTES 4096

/* Is the heading that of a length of this name, in either unit? */
static bool
is_length (const char *heading, const char *name)
{
  size_t length = strlen (name);
  if (g_ascii_strncasecmp (heading, name, length) != 0 || heading[length] != '_')
    return false;
  return g_ascii_strcasecmp (heading + length + 1, unit_suffix (UNIT_YARDS)) == 0
         || g_ascii_strcasecmp (heading + length + 1, unit_suffix (UNIT_METRES)) == 0;
}

static bool
is_bag_header (const char *text)
{
  bool has_club = false, has_carry = false, has_side = false;
  CsvReader reader = { text, 1 };
  const char *problem;
  unsigned problem_line;
  g_autoptr (GPtrArray) record = csv_next (&reader, &problem, &problem_line);
  for (guint i = 0; record != NULL && i < record->len; i++)
    {
      const char *heading = ((const CsvField *)record->pdata[i])->text;
      has_club |= g_ascii_strcasecmp (heading, "club") == 0;
      has_carry |= is_length (heading, "carry");
      has_side |= is_length (heading, "side");
    }
  return has_club && has_carry && !has_side;
}

bool
bag_is_bag_file (const char *path)
{
  g_autoptr (GBytes) bytes = sheet_file_bytes (&bag_sheet, path, NULL);
  if (bytes == NULL || g_bytes_get_size (bytes) == 0 || g_bytes_get_size (bytes) > bag_sheet.most_mib * 1024 * 1024)
    return false;
  const char *data = g_bytes_get_data (bytes, NULL);
  g_autofree char *start = g_utf8_make_valid (data, (gssize)MIN (g_bytes_get_size (bytes), HEADER_BYTES));
  return is_bag_header (g_str_has_prefix (start, "\xEF\xBB\xBF") ? start + 3 : start);
}

static gint
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

GPtrArray *
bag_list_folder (const char *folder)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *whole = g_canonicalize_filename (folder, NULL);
  g_autoptr (GDir) dir = g_dir_open (whole, 0, NULL);
  for (const char *name; dir != NULL && (name = g_dir_read_name (dir)) != NULL;)
    {
      size_t length = strlen (name);
      if (name[0] == '.' || length < 4 || g_ascii_strcasecmp (name + length - 4, ".csv") != 0)
        continue;
      g_autofree char *path = g_build_filename (whole, name, NULL);
      if (bag_is_bag_file (path))
        g_ptr_array_add (paths, g_steal_pointer (&path));
    }
  g_ptr_array_sort (paths, by_name);
  return paths;
}
