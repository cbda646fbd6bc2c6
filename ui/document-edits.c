// SPDX-License-Identifier: GPL-3.0-or-later
/* document-edits - every change of the plan: a new hole from the engine, pushed on the history under the name that undo shows. */
#include "document-private.h"

#include "edit.h"

#include <glib/gi18n.h>

/* Pushes `hole`, taking its reference. False for NULL: the engine had nothing to change. */
static bool
document_push (HwDocument *self, Hole *hole, const char *label, unsigned gesture)
{
  if (hole == NULL)
    return false;
  history_push_gesture (hw_document_sheet (self)->history, hole, label, gesture);
  hole_unref (hole);
  hw_document_refresh (self);
  return true;
}

static bool
document_has_plan (HwDocument *self)
{
  const Part *plan = hw_document_get_plan (self);
  return plan != NULL && plan->n_shots > 0;
}

static size_t
document_plan (HwDocument *self)
{
  return (size_t)hole_plan (self->shown);
}

/* Shot in hand of the plan as written, which may have become shorter by an undo. */
static size_t
document_shot (HwDocument *self)
{
  return MIN (hw_document_get_shot (self), hw_document_get_plan (self)->n_shots - 1);
}

void
hw_document_choose_club (HwDocument *self, const char *club)
{
  if (!document_has_plan (self))
    return;
  const Shot *shot = &hw_document_get_plan (self)->shots[document_shot (self)];
  if (g_strcmp0 (shot->club, club) != 0)
    document_push (self, edit_choose_club (self->shown, document_plan (self), document_shot (self), club, self->bag),
                   _ ("choose club"), 0);
}

/* Pushes what an edit made, unless that is what was. */
static bool
document_push_new (HwDocument *self, Hole *hole, const char *label, unsigned gesture)
{
  if (hole != self->shown)
    return document_push (self, hole, label, gesture);
  hole_unref (hole);
  return true;
}

bool
hw_document_set_shape (HwDocument *self, ShotShape shape, double curve_m, GError **error)
{
  if (!document_has_plan (self))
    return false;
  return document_push_new (
      self, edit_set_shape (self->shown, document_plan (self), document_shot (self), shape, curve_m, self->bag, error),
      _ ("change the shape"), 0);
}

bool
hw_document_set_swing (HwDocument *self, double swing, GError **error)
{
  if (!document_has_plan (self))
    return false;
  return document_push_new (self,
                            edit_set_swing (self->shown, document_plan (self), document_shot (self), swing, self->bag, error),
                            _ ("change the swing"), 0);
}

bool
hw_document_fit_swing (HwDocument *self, GError **error)
{
  if (!document_has_plan (self))
    return false;
  return document_push_new (self, edit_fit_swing (self->shown, document_plan (self), document_shot (self), self->bag, error),
                            _ ("fit the swing"), 0);
}

bool
hw_document_add_shot (HwDocument *self)
{
  if (!document_has_plan (self) || self->bag == NULL)
    return false;
  Hole *hole = edit_add_shot (self->shown, document_plan (self), self->bag, NULL);
  if (hole == NULL)
    return false;
  hw_document_sheet (self)->shot = hw_document_get_plan (self)->n_shots;
  return document_push (self, hole, _ ("add shot"), 0);
}

bool
hw_document_remove_shot (HwDocument *self)
{
  if (!document_has_plan (self))
    return false;
  return document_push (self, edit_remove_shot (self->shown, document_plan (self), document_shot (self), NULL),
                        _ ("remove shot"), 0);
}

bool
hw_document_take_plan (HwDocument *self, const Plan *plan, const char *label)
{
  if (!document_has_plan (self))
    return false;
  ShotResult shots[PLAN_MOST_SHOTS];
  for (size_t i = 0; i < plan->n_shots; i++)
    shots[i] = plan->shots[i].shot;
  hw_document_sheet (self)->shot = 0;
  return document_push_new (self, edit_take_shots (self->shown, document_plan (self), shots, plan->n_shots, NULL), label, 0);
}

void
hw_document_move_aim (HwDocument *self, Vec2 by_m, unsigned gesture)
{
  if (!document_has_plan (self))
    return;
  size_t shot = document_shot (self);
  Vec2 aim = vec2_add (hw_document_get_plan (self)->shots[shot].aim, by_m);
  document_push (self, edit_move_aim (self->shown, document_plan (self), shot, aim, self->bag), _ ("move aim"), gesture);
}

void
hw_document_move_ball (HwDocument *self, Vec2 by_m, unsigned gesture)
{
  if (!document_has_plan (self))
    return;
  size_t shot = document_shot (self);
  Vec2 ball = vec2_add (hw_document_get_plan (self)->shots[shot].from, by_m);
  document_push (self, edit_move_ball (self->shown, document_plan (self), shot, ball), _ ("move ball"), gesture);
}

bool
hw_document_set_day (HwDocument *self, const Day *day, unsigned gesture, GError **error)
{
  if (!document_has_plan (self))
    return false;
  return document_push_new (self, edit_set_day (self->shown, document_plan (self), day, self->bag, error), _ ("change the day"),
                            gesture);
}

bool
hw_document_keep_day (HwDocument *self, const char *name, GError **error)
{
  if (!document_has_plan (self))
    return false;
  return document_push_new (self, edit_keep_day (self->shown, name, &hw_document_get_plan (self)->day, error),
                            _ ("keep the day"), 0);
}

bool
hw_document_forget_day (HwDocument *self, const char *name, GError **error)
{
  return self->shown != NULL && document_push_new (self, edit_forget_day (self->shown, name, error), _ ("forget the day"), 0);
}

bool
hw_document_undo (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  hw_document_drag_cancel (self);
  if (sheet == NULL || !history_undo (sheet->history))
    return false;
  hw_document_refresh (self);
  return true;
}

bool
hw_document_redo (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  hw_document_drag_cancel (self);
  if (sheet == NULL || !history_redo (sheet->history))
    return false;
  hw_document_refresh (self);
  return true;
}

const char *
hw_document_undo_label (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL ? history_undo_label (sheet->history) : NULL;
}

const char *
hw_document_redo_label (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL ? history_redo_label (sheet->history) : NULL;
}

/* ---- a drag ---- */

/* The hole as it was before the drag began, with its plan. New reference; NULL without a plan. */
static Hole *
document_drag_base (HwDocument *self)
{
  Hole *kept = history_current (hw_document_sheet (self)->history);
  return hole_plan (kept) >= 0 ? hole_ref (kept) : edit_start_plan (kept, NULL);
}

static void
document_drag_to (HwDocument *self, Hole *dragged)
{
  Hole *before = self->dragged;
  self->dragged = dragged;
  g_clear_pointer (&before, hole_unref);
  hw_document_refresh (self);
}

void
hw_document_drag_aim (HwDocument *self, Vec2 aim)
{
  if (!document_has_plan (self))
    return;
  g_autoptr (Hole) base = document_drag_base (self);
  size_t plan = (size_t)hole_plan (base), shot = document_shot (self);
  g_autoptr (Hole) alone = edit_move_aim (base, plan, shot, aim, NULL); // no ball moves without a bag
  hw_document_fly_ahead (self, alone);
  document_drag_to (self, edit_drag_aim (base, plan, shot, aim, self->bag, self->known));
  self->dragging_label = _ ("move aim");
}

void
hw_document_drag_ball (HwDocument *self, Vec2 ball)
{
  if (!document_has_plan (self))
    return;
  g_autoptr (Hole) base = document_drag_base (self);
  size_t plan = (size_t)hole_plan (base);
  document_drag_to (self, edit_move_ball (base, plan, document_shot (self), ball));
  self->dragging_label = _ ("move ball");
}

void
hw_document_drag_day (HwDocument *self, const Day *day)
{
  if (!document_has_plan (self) || (self->dragged != NULL && day_equal (day, &hw_document_get_plan (self)->day)))
    return; // the pointer moved within one step of the rose
  g_autoptr (Hole) base = document_drag_base (self);
  size_t plan = (size_t)hole_plan (base);
  g_autoptr (Hole) alone = edit_set_day (base, plan, day, NULL, NULL); // no ball moves without a bag
  if (alone == NULL)
    return;
  if (document_shot (self) == 0) // the balls of the others are moved by those before them
    hw_document_fly_ahead (self, alone);
  document_drag_to (self, edit_drag_day (base, plan, day, self->bag, self->known, NULL));
  self->dragging_label = _ ("change the day");
}

bool
hw_document_is_dragging (HwDocument *self)
{
  return self->dragged != NULL;
}

void
hw_document_drag_end (HwDocument *self)
{
  Hole *hole = g_steal_pointer (&self->dragged);
  self->is_drawing = false;
  document_push (self, hole, self->dragging_label, 0);
}

void
hw_document_drag_cancel (HwDocument *self)
{
  if (self->dragged == NULL)
    return;
  g_clear_pointer (&self->dragged, hole_unref);
  self->is_drawing = false;
  hw_document_refresh (self);
}
