// SPDX-License-Identifier: GPL-3.0-or-later
/* beside - a thread that waits for a piece of work, and takes it unless the main thread was first. */
#include "beside.h"

#include "place.h"
#include "urgency.h"

#include <stdbool.h>

/* With fewer processors the main thread does all. */
#define LEAST_PROCESSORS 2

typedef enum
{
  BESIDE_FREE,
  BESIDE_HANDED, /* nobody has begun it yet */
  BESIDE_WORKING,
  BESIDE_LEAVING
} BesideState;

struct _HwBeside
{
  GMutex mutex; /* of what follows but `thread` */
  GCond turned; /* the state is another */
  BesideState state;
  GFunc work;
  gpointer data;
  GThread *thread; /* NULL: not started */
  HwPlace place;   /* where that runs */
};

static gpointer
beside_run (gpointer data)
{
  HwBeside *self = data;
  hw_urgency_be_prompt ();
  hw_place_take (&self->place);
  g_mutex_lock (&self->mutex);
  while (self->state != BESIDE_LEAVING)
    {
      if (self->state != BESIDE_HANDED)
        {
          g_cond_wait (&self->turned, &self->mutex);
          continue;
        }
      self->state = BESIDE_WORKING;
      g_mutex_unlock (&self->mutex);
      self->work (self->data, NULL);
      g_mutex_lock (&self->mutex);
      self->state = BESIDE_FREE;
      g_cond_broadcast (&self->turned);
    }
  g_mutex_unlock (&self->mutex);
  return NULL;
}

static void
turn_to (HwBeside *self, BesideState state)
{
  g_mutex_lock (&self->mutex);
  self->state = state;
  g_cond_broadcast (&self->turned);
  g_mutex_unlock (&self->mutex);
}

HwBeside *
hw_beside_new (void)
{
  HwBeside *self = g_new0 (HwBeside, 1);
  g_mutex_init (&self->mutex);
  g_cond_init (&self->turned);
  return self;
}

void
hw_beside_free (HwBeside *self)
{
  hw_beside_finish (self);
  turn_to (self, BESIDE_LEAVING);
  g_clear_pointer (&self->thread, g_thread_join);
  g_mutex_clear (&self->mutex);
  g_cond_clear (&self->turned);
  g_free (self);
}

void
hw_beside_begin (HwBeside *self, GFunc work, gpointer data)
{
  hw_beside_finish (self);
  self->work = work;
  self->data = data;
  if (self->thread == NULL && g_get_num_processors () >= LEAST_PROCESSORS)
    self->thread = g_thread_try_new ("beside", beside_run, self, NULL);
  hw_place_keep_off (&self->place);
  turn_to (self, BESIDE_HANDED);
}

void
hw_beside_finish (HwBeside *self)
{
  g_mutex_lock (&self->mutex);
  bool is_left = self->state == BESIDE_HANDED;
  if (is_left)
    self->state = BESIDE_FREE;
  while (self->state == BESIDE_WORKING)
    g_cond_wait (&self->turned, &self->mutex);
  g_mutex_unlock (&self->mutex);
  if (is_left)
    self->work (self->data, NULL);
}
