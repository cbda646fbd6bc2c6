// SPDX-License-Identifier: GPL-3.0-or-later
/* beside - a thread that waits for shares of work, and takes those that the main thread was not first to take. */
#include "beside.h"

#include "place.h"
#include "urgency.h"

#include <stdbool.h>

/* With fewer processors the main thread does all. */
#define LEAST_PROCESSORS 2
/* Waited for longer than this, the thread may have found another program where it runs. */
#define PATIENCE_US 1000

typedef enum
{
  SHARE_NONE, /* or done */
  SHARE_HANDED,
  SHARE_WORKING
} ShareState;

struct _HwBeside
{
  GMutex mutex; /* of the queue, of the shares' states and of `is_leaving` */
  GCond handed, done;
  GQueue queue; /* of HwShare, those that nobody has begun */
  bool is_leaving;
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
  while (!self->is_leaving)
    {
      HwShare *share = g_queue_pop_head (&self->queue);
      if (share == NULL)
        {
          g_cond_wait (&self->handed, &self->mutex);
          continue;
        }
      share->state = SHARE_WORKING;
      g_mutex_unlock (&self->mutex);
      share->work (share->data, NULL);
      g_mutex_lock (&self->mutex);
      share->state = SHARE_NONE;
      g_cond_signal (&self->done);
    }
  g_mutex_unlock (&self->mutex);
  return NULL;
}

HwBeside *
hw_beside_new (void)
{
  HwBeside *self = g_new0 (HwBeside, 1);
  g_mutex_init (&self->mutex);
  g_cond_init (&self->handed);
  g_cond_init (&self->done);
  g_queue_init (&self->queue);
  return self;
}

void
hw_beside_free (HwBeside *self)
{
  for (HwShare *share; (share = g_queue_peek_head (&self->queue)) != NULL;)
    hw_beside_finish (self, share);
  g_mutex_lock (&self->mutex);
  self->is_leaving = true;
  g_cond_signal (&self->handed);
  g_mutex_unlock (&self->mutex);
  g_clear_pointer (&self->thread, g_thread_join);
  g_mutex_clear (&self->mutex);
  g_cond_clear (&self->handed);
  g_cond_clear (&self->done);
  g_free (self);
}

void
hw_beside_begin (HwBeside *self, HwShare *share, GFunc work, gpointer data)
{
  hw_beside_finish (self, share);
  if (self->thread == NULL && g_get_num_processors () >= LEAST_PROCESSORS)
    self->thread = g_thread_try_new ("beside", beside_run, self, NULL);
  hw_place_keep_off (&self->place);
  g_mutex_lock (&self->mutex);
  *share = (HwShare){ .work = work, .data = data, .state = SHARE_HANDED };
  g_queue_push_tail (&self->queue, share);
  g_cond_signal (&self->handed);
  g_mutex_unlock (&self->mutex);
}

void
hw_beside_finish (HwBeside *self, HwShare *share)
{
  g_mutex_lock (&self->mutex);
  bool is_left = share->state == SHARE_HANDED;
  if (is_left)
    {
      g_queue_remove (&self->queue, share);
      share->state = SHARE_NONE;
    }
  gint64 patient_us = share->state == SHARE_WORKING ? g_get_monotonic_time () + PATIENCE_US : 0;
  while (share->state == SHARE_WORKING && g_cond_wait_until (&self->done, &self->mutex, patient_us))
    ;
  if (share->state == SHARE_WORKING)
    hw_place_let_go (&self->place);
  while (share->state == SHARE_WORKING)
    g_cond_wait (&self->done, &self->mutex);
  g_mutex_unlock (&self->mutex);
  if (is_left)
    share->work (share->data, NULL);
}
