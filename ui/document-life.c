// SPDX-License-Identifier: GPL-3.0-or-later
/* document-life - recovery copies kept and taken over, and files that others change while they are open here. */
#include "document-private.h"

#include "trace.h"

#include <glib/gi18n.h>

/* ---- recovery copies ---- */

bool
hw_document_holds_begun (HwDocument *self)
{
  return self->begun != NULL && self->begun_on == hw_document_get_kept (self);
}

/* What of this sheet would be lost; NULL: nothing. Borrowed. */
static Hole *
unsaved_of (HwDocument *self, const HwSheet *sheet)
{
  if (self->dragged != NULL && sheet == hw_document_sheet (self))
    return self->dragged;
  if (sheet == hw_document_sheet (self) && hw_document_holds_begun (self))
    return self->begun;
  return hw_sheet_is_modified (sheet) ? history_current (sheet->history) : NULL;
}

/* What the hole in hand has come to, for tests that kill the program. */
static void
trace_change (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  Hole *unsaved = sheet != NULL ? unsaved_of (self, sheet) : NULL;
  if (!hw_trace_has_changes () || unsaved == self->traced)
    return;
  g_clear_pointer (&self->traced, hole_unref);
  self->traced = unsaved != NULL ? hole_ref (unsaved) : NULL;
  hw_trace_change (self->begun_us, unsaved);
  self->begun_us = 0;
}

void
hw_document_keep (HwDocument *self)
{
  trace_change (self);
  for (guint i = 0; i < self->sheets->len; i++)
    {
      HwSheet *sheet = g_ptr_array_index (self->sheets, i);
      Hole *unsaved = sheet != NULL ? unsaved_of (self, sheet) : NULL;
      if (unsaved != NULL && sheet->keeping == NULL)
        sheet->keeping = hw_keeping_new (self->keeper, &hw_kept_hole);
      if (sheet != NULL && sheet->keeping != NULL)
        hw_keeping_set (sheet->keeping, unsaved, sheet->path, sheet->on_disk);
    }
}

void
hw_document_forget_begun (HwDocument *self, gint64 since_us)
{
  g_clear_pointer (&self->begun, hole_unref);
  if (self->begun_us == 0)
    self->begun_us = since_us;
}

void
hw_document_keep_begun (HwDocument *self, Hole *hole, gint64 since_us)
{
  hw_document_forget_begun (self, since_us);
  self->begun = hole;
  g_clear_pointer (&self->begun_on, hole_unref);
  self->begun_on = hole != NULL ? hole_ref (hw_document_get_kept (self)) : NULL;
  hw_document_keep (self);
}

/* Index of the hole that belongs to this file, or -1. */
static int
document_find (HwDocument *self, const char *path)
{
  for (guint i = 0; i < self->sheets->len; i++)
    {
      HwSheet *sheet = g_ptr_array_index (self->sheets, i);
      if (sheet != NULL && g_strcmp0 (sheet->path, path) == 0)
        return (int)i;
    }
  return self->course != NULL ? hw_course_find (self->course, path) : -1;
}

bool
hw_document_holds (HwDocument *self, const char *path)
{
  return path != NULL && document_find (self, path) >= 0;
}

/* A sheet for work whose file is no longer there or cannot be read. */
static HwSheet *
sheet_without_file (Hole *hole, const char *path)
{
  HwSheet *sheet = hw_sheet_new (hole);
  sheet->path = g_strdup (path);
  sheet->is_apart = true;
  return sheet;
}

/* Puts `hole` on the table for a file that cannot be read, in its place in the course if that is open. */
static void
document_show_without_file (HwDocument *self, Hole *hole, const char *path)
{
  int i = document_find (self, path);
  if (i >= 0)
    {
      self->sheets->pdata[i] = sheet_without_file (hole, path);
      self->current = (size_t)i;
    }
  else
    hw_document_take (self, NULL, 0, sheet_without_file (hole, path));
  hw_document_opened (self);
}

/* Puts the file on the table as it is on the disk. False if that cannot be. */
static bool
document_show_file (HwDocument *self, const char *path)
{
  int i = document_find (self, path);
  return i >= 0 ? hw_document_open_hole (self, (size_t)i, NULL) : hw_document_open (self, path, NULL);
}

/* The recovered hole becomes a step on what the file holds. */
static void
document_push_recovered (HwDocument *self, Hole *hole, const RecoveryCopy *copy)
{
  HwSheet *sheet = hw_document_sheet (self);
  history_push (sheet->history, hole, _ ("recover unsaved work"));
  /* Saving asks first when another wrote the file after this was drawn. */
  if (sheet->on_disk != NULL && recovery_is_overtaken (copy, sheet->on_disk))
    {
      g_clear_pointer (&sheet->on_disk, g_bytes_unref);
      sheet->is_apart = true;
    }
  hw_document_emit (self, HW_DOCUMENT_OPENED);
  hw_document_refresh (self);
}

bool
hw_document_recover (HwDocument *self, const RecoveryCopy *copy, GError **error)
{
  g_autoptr (Hole) hole = recovery_read (copy, NULL, error);
  if (hole == NULL)
    return false;
  hw_document_drag_cancel (self);
  if (copy->original == NULL)
    hw_document_start (self, hole_ref (hole));
  else if (document_show_file (self, copy->original))
    document_push_recovered (self, hole, copy);
  else
    document_show_without_file (self, hole, copy->original);
  hw_keeping_take_over (hw_document_sheet (self)->keeping, copy->key);
  return true;
}

/* ---- files that others change ---- */

HwDisk
hw_document_look_at_disk (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  if (sheet == NULL)
    return HW_DISK_SAME;
  bool was_modified = hw_sheet_is_modified (sheet);
  HwDisk disk = hw_sheet_look_at_disk (sheet);
  if (was_modified != hw_sheet_is_modified (sheet))
    hw_document_emit (self, HW_DOCUMENT_HOLE_CHANGED);
  return disk;
}

bool
hw_document_load_again (HwDocument *self, GError **error)
{
  hw_document_drag_cancel (self);
  if (!hw_sheet_load_again (hw_document_sheet (self), _ ("load again"), error))
    return false;
  hw_document_refresh (self);
  return true;
}

void
hw_document_keep_mine (HwDocument *self)
{
  hw_sheet_keep_mine (hw_document_sheet (self));
  hw_document_emit (self, HW_DOCUMENT_HOLE_CHANGED);
}

void
hw_document_close (HwDocument *self)
{
  g_clear_pointer (&self->dragged, hole_unref);
  g_clear_pointer (&self->begun, hole_unref);
  g_ptr_array_set_size (self->sheets, 0);
  g_ptr_array_set_size (self->peeks, 0);
  g_clear_pointer (&self->keeper, hw_keeper_free);
}
