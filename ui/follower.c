// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * follower - one worker, one shot that waits. What is worked on owns all that it reads - the hole and the bag are immutable, the shot is a copy - so nothing has to be
 * locked.
 */
#include "follower.h"

#include "odds-known.h"
#include "urgency.h"

#include <gio/gio.h>

/* Between two shots the worker rests so long, that frames of a drag have the processor to themselves at times. */
#define PAUSE_MS 30

struct _HwFollower
{
  GObject parent_instance;
  HwFound *waiting; /* asked about last and not begun; NULL: nothing is */
  HwFound *found;   /* the newest that came to its end */
  bool is_working;
  guint pause; /* timer */
};

G_DEFINE_FINAL_TYPE (HwFollower, hw_follower, G_TYPE_OBJECT)

static guint found_signal;

static void
found_free (HwFound *found)
{
  hole_unref (found->hole);
  bag_unref (found->bag);
  g_free (found);
}

/* ---- in the worker ---- */

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  HwFound *found = data;
  hw_urgency_give_way ();
  g_autoptr (OddsTable) odds = odds_table_new (found->hole, &found->shot, NULL);
  if (odds != NULL)
    found->n_places = odds_places (found->hole, &found->shot, odds, found->places, HW_MOST_PLACES);
  found->has_room = odds != NULL && odds_room_of (found->hole, &found->shot, odds, &found->room, NULL);
  found->has_shape = odds_shape_room (found->hole, &found->shot, &found->shape, NULL);
  g_task_return_boolean (task, TRUE);
}

/* ---- before and after ---- */

static void begin (HwFollower *self);

static gboolean
on_paused_cb (gpointer follower)
{
  HwFollower *self = follower;
  self->pause = 0;
  begin (self);
  return G_SOURCE_REMOVE;
}

static void
on_worked_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwFollower *self = HW_FOLLOWER (source);
  g_clear_pointer (&self->found, found_free);
  self->found = g_task_get_task_data (G_TASK (result));
  self->is_working = false;
  if (self->pause == 0)
    self->pause = g_timeout_add (PAUSE_MS, on_paused_cb, self);
  g_signal_emit (self, found_signal, 0);
}

static void
begin (HwFollower *self)
{
  if (self->is_working || self->pause != 0 || self->waiting == NULL)
    return;
  self->is_working = true;
  g_autoptr (GTask) task = g_task_new (self, NULL, on_worked_cb, NULL);
  g_task_set_task_data (task, g_steal_pointer (&self->waiting), NULL);
  g_task_run_in_thread (task, work);
}

void
hw_follower_ask (HwFollower *self, Hole *hole, Bag *bag, const ShotResult *shot)
{
  g_clear_pointer (&self->waiting, found_free);
  self->waiting = g_new0 (HwFound, 1);
  self->waiting->hole = hole_ref (hole);
  self->waiting->bag = bag_ref (bag);
  self->waiting->shot = *shot;
  begin (self);
}

const HwFound *
hw_follower_get_found (HwFollower *self)
{
  return self->found;
}

bool
hw_found_holds (const HwFound *found, const Hole *hole, const Bag *bag, const ShotResult *shot, bool is_dragging)
{
  if (found == NULL || found->bag != bag || found->shot.club != shot->club || !odds_same_ground (found->hole, hole))
    return false;
  return is_dragging
         || (vec2_distance (found->shot.ball, shot->ball) == 0
             && conditions_equal (&found->shot.conditions, &shot->conditions));
}

/* ---- the object ---- */

static void
hw_follower_finalize (GObject *object)
{
  HwFollower *self = HW_FOLLOWER (object);
  g_clear_handle_id (&self->pause, g_source_remove);
  g_clear_pointer (&self->waiting, found_free);
  g_clear_pointer (&self->found, found_free);
  G_OBJECT_CLASS (hw_follower_parent_class)->finalize (object);
}

static void
hw_follower_class_init (HwFollowerClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_follower_finalize;
  found_signal = g_signal_new ("found", HW_TYPE_FOLLOWER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_follower_init (HwFollower *self)
{
}

HwFollower *
hw_follower_new (void)
{
  return g_object_new (HW_TYPE_FOLLOWER, NULL);
}
