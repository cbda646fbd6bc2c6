// SPDX-License-Identifier: GPL-3.0-or-later
/* sheet - opening and saving one hole file; whether it changed on disk is told by comparing bytes, not clocks. */
#include "sheet.h"

#include "svg.h"

HwSheet *
hw_sheet_open (const char *path, GPtrArray **findings, GError **error)
{
  g_autoptr (GBytes) bytes = svg_read_contents (path, error);
  if (bytes == NULL)
    return NULL;
  g_autoptr (Hole) hole = svg_read_bytes (bytes, path, findings, error);
  if (hole == NULL)
    return NULL;
  HwSheet *sheet = g_new0 (HwSheet, 1);
  sheet->path = g_strdup (path);
  sheet->history = history_new (hole);
  sheet->on_disk = g_steal_pointer (&bytes);
  return sheet;
}

HwSheet *
hw_sheet_new (Hole *hole)
{
  HwSheet *sheet = g_new0 (HwSheet, 1);
  sheet->history = history_new (hole);
  return sheet;
}

void
hw_sheet_free (HwSheet *sheet)
{
  if (sheet == NULL)
    return;
  g_free (sheet->path);
  history_free (sheet->history);
  g_clear_pointer (&sheet->on_disk, g_bytes_unref);
  g_free (sheet);
}

bool
hw_sheet_save (HwSheet *sheet, const char *path, GError **error)
{
  g_autoptr (GBytes) written = NULL;
  if (!svg_save_file (history_current (sheet->history), path, &written, error))
    return false;
  char *copy = g_strdup (path);
  g_free (sheet->path);
  sheet->path = copy;
  g_clear_pointer (&sheet->on_disk, g_bytes_unref);
  sheet->on_disk = g_steal_pointer (&written);
  history_mark_saved (sheet->history);
  return true;
}

bool
hw_sheet_is_modified (const HwSheet *sheet)
{
  return sheet->path == NULL || history_is_modified (sheet->history);
}

bool
hw_sheet_changed_on_disk (const HwSheet *sheet)
{
  if (sheet->path == NULL)
    return false;
  g_autoptr (GBytes) now = svg_read_contents (sheet->path, NULL);
  return now != NULL && !g_bytes_equal (now, sheet->on_disk);
}
