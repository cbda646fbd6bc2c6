// SPDX-License-Identifier: GPL-3.0-or-later
/* document-drawing - changes of the drawing itself: steps of undo, drags, and a drawing that has no file yet. */
#include "document-private.h"

#include <glib/gi18n.h>

Hole *
hw_document_get_kept (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL ? history_current (sheet->history) : NULL;
}

bool
hw_document_edit (HwDocument *self, Hole *hole, const char *label, unsigned gesture)
{
  if (hole == NULL)
    return false;
  bool is_new = hole != hw_document_get_kept (self);
  if (is_new)
    history_push_gesture (hw_document_sheet (self)->history, hole, label, gesture);
  hole_unref (hole);
  if (is_new)
    hw_document_refresh (self);
  return is_new;
}

unsigned
hw_document_new_gesture (HwDocument *self)
{
  return ++self->last_gesture;
}

void
hw_document_drag_hole (HwDocument *self, Hole *hole, const char *label)
{
  Hole *before = self->dragged;
  self->dragged = hole;
  self->dragging_label = g_intern_string (label);
  self->is_drawing = true;
  g_clear_pointer (&before, hole_unref);
  hw_document_refresh (self);
}

void
hw_document_start (HwDocument *self, Hole *hole)
{
  hw_document_drag_cancel (self);
  HwSheet *sheet = hw_sheet_new (hole);
  hole_unref (hole);
  hw_document_take (self, NULL, 0, sheet);
  hw_document_opened (self);
}

char *
hw_document_get_file_name (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL && sheet->path != NULL ? g_path_get_basename (sheet->path) : g_strdup (_ ("new-hole.svg"));
}
