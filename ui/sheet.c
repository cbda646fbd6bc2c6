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
  hw_keeping_free (sheet->keeping);
  g_free (sheet->path);
  history_free (sheet->history);
  g_clear_pointer (&sheet->on_disk, g_bytes_unref);
  g_clear_pointer (&sheet->refused, g_bytes_unref);
  g_free (sheet);
}

/* File and sheet hold the same, `bytes`, which are taken. */
static void
sheet_agree (HwSheet *sheet, GBytes *bytes)
{
  g_clear_pointer (&sheet->on_disk, g_bytes_unref);
  g_clear_pointer (&sheet->refused, g_bytes_unref);
  sheet->on_disk = bytes;
  sheet->is_apart = false;
  history_mark_saved (sheet->history);
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
  sheet_agree (sheet, g_steal_pointer (&written));
  return true;
}

bool
hw_sheet_is_modified (const HwSheet *sheet)
{
  return sheet->path == NULL || sheet->is_apart || history_is_modified (sheet->history);
}

bool
hw_sheet_changed_on_disk (const HwSheet *sheet)
{
  if (sheet->path == NULL)
    return false;
  g_autoptr (GBytes) now = svg_read_contents (sheet->path, NULL);
  return now != NULL && (sheet->on_disk == NULL || !g_bytes_equal (now, sheet->on_disk));
}

HwDisk
hw_sheet_look_at_disk (HwSheet *sheet)
{
  if (sheet->path == NULL)
    return HW_DISK_SAME;
  g_autoptr (GBytes) now = svg_read_contents (sheet->path, NULL);
  if (now == NULL)
    {
      if (g_file_test (sheet->path, G_FILE_TEST_EXISTS))
        return HW_DISK_SAME;
      sheet->is_apart = true;
      return HW_DISK_GONE;
    }
  if (sheet->on_disk != NULL && g_bytes_equal (now, sheet->on_disk))
    {
      sheet->is_apart = false;
      g_clear_pointer (&sheet->refused, g_bytes_unref);
      return HW_DISK_SAME;
    }
  return sheet->refused != NULL && g_bytes_equal (now, sheet->refused) ? HW_DISK_SAME : HW_DISK_CHANGED;
}

bool
hw_sheet_load_again (HwSheet *sheet, const char *label, GError **error)
{
  g_autoptr (GBytes) bytes = svg_read_contents (sheet->path, error);
  g_autoptr (Hole) hole = bytes != NULL ? svg_read_bytes (bytes, sheet->path, NULL, error) : NULL;
  if (hole == NULL)
    return false;
  history_push (sheet->history, hole, label);
  sheet_agree (sheet, g_steal_pointer (&bytes));
  return true;
}

void
hw_sheet_keep_mine (HwSheet *sheet)
{
  g_clear_pointer (&sheet->refused, g_bytes_unref);
  sheet->refused = svg_read_contents (sheet->path, NULL);
  sheet->is_apart = true;
}
