// SPDX-License-Identifier: GPL-3.0-or-later
/* History: a list of holes, each with the name of the step that led to it. Undo moves a finger along the list. */
#include "hole.h"

typedef struct
{
  Hole *hole;
  char *label; /* of the step that led here; NULL for the first state */
  unsigned gesture;
} State;

struct _History
{
  GArray *states;
  guint current;
  Hole *saved; /* the state the file holds */
};

static void
state_clear (gpointer data)
{
  State *state = data;
  hole_unref (state->hole);
  g_free (state->label);
}

static State *
history_state (const History *history, guint i)
{
  return &g_array_index (history->states, State, i);
}

History *
history_new (Hole *hole)
{
  History *history = g_new0 (History, 1);
  history->states = g_array_new (FALSE, TRUE, sizeof (State));
  g_array_set_clear_func (history->states, state_clear);
  State first = { hole_ref (hole), NULL, 0 };
  g_array_append_val (history->states, first);
  history->saved = hole_ref (hole);
  return history;
}

void
history_free (History *history)
{
  if (!history)
    return;
  g_array_unref (history->states);
  hole_unref (history->saved);
  g_free (history);
}

Hole *
history_current (const History *history)
{
  return history_state (history, history->current)->hole;
}

void
history_push (History *history, Hole *hole, const char *label)
{
  history_push_gesture (history, hole, label, 0);
}

void
history_push_gesture (History *history, Hole *hole, const char *label, unsigned gesture)
{
  g_array_set_size (history->states, history->current + 1);
  State *newest = history_state (history, history->current);
  if (gesture != 0 && history->current > 0 && newest->gesture == gesture)
    {
      Hole *before = newest->hole;
      newest->hole = hole_ref (hole);
      hole_unref (before);
      return;
    }
  State state = { hole_ref (hole), g_strdup (label), gesture };
  g_array_append_val (history->states, state);
  history->current++;
}

bool
history_undo (History *history)
{
  if (history->current == 0)
    return false;
  history->current--;
  return true;
}

bool
history_redo (History *history)
{
  if (history->current + 1 >= history->states->len)
    return false;
  history->current++;
  return true;
}

const char *
history_undo_label (const History *history)
{
  return history_state (history, history->current)->label;
}

const char *
history_redo_label (const History *history)
{
  return history->current + 1 < history->states->len ? history_state (history, history->current + 1)->label : NULL;
}

void
history_mark_saved (History *history)
{
  hole_unref (history->saved);
  history->saved = hole_ref (history_current (history));
}

bool
history_is_modified (const History *history)
{
  return history->saved != history_current (history);
}
