// SPDX-License-Identifier: GPL-3.0-or-later
/* worker - a job is a GTask of its owner; it and what it tells hold the worker, which its owner may free meanwhile. */
#include "worker.h"

#include "urgency.h"

struct _HwWorker
{
  int ref_count; /* the owner's, one of each run, one of each thing told */
  const HwWork *work;
  GObject *owner; /* NULL: closed */
  guint timer;
  bool is_asked; /* another job is to follow */
  HwRun *running;
};

struct _HwRun
{
  HwWorker *worker;
  gpointer job;
  int cancelled; /* atomic */
};

typedef struct
{
  HwWorker *worker;
  const HwRun *run; /* may be gone: to be compared only */
  double share;
  gpointer draft;
} Told;

static void
worker_unref (HwWorker *self)
{
  if (g_atomic_int_dec_and_test (&self->ref_count))
    g_free (self);
}

static HwWorker *
worker_ref (HwWorker *self)
{
  g_atomic_int_inc (&self->ref_count);
  return self;
}

/* ---- in the thread ---- */

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  HwRun *run = data;
  hw_urgency_give_way ();
  run->worker->work->work (run->job, run);
  g_task_return_boolean (task, TRUE);
}

const int *
hw_run_cancelled (const HwRun *run)
{
  return &run->cancelled;
}

static gboolean
on_told_cb (gpointer data)
{
  Told *told = data;
  HwWorker *self = told->worker;
  if (self->owner != NULL && self->running == told->run && !g_atomic_int_get (&self->running->cancelled))
    self->work->told (self->owner, told->share, g_steal_pointer (&told->draft));
  return G_SOURCE_REMOVE;
}

static void
told_free (gpointer data)
{
  Told *told = data;
  if (told->draft != NULL)
    told->worker->work->free_draft (told->draft);
  worker_unref (told->worker);
  g_free (told);
}

void
hw_run_tell (HwRun *run, double share, gpointer draft)
{
  Told *told = g_new (Told, 1);
  *told = (Told){ worker_ref (run->worker), run, share, draft };
  g_idle_add_full (G_PRIORITY_DEFAULT, on_told_cb, told, told_free);
}

/* ---- before and after ---- */

static void begin_next (HwWorker *self);

/* The task keeps its owner until it is done with. */
static void
on_worked_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwRun *run = g_task_get_task_data (G_TASK (result));
  HwWorker *self = run->worker;
  self->running = NULL;
  if (self->owner == NULL || g_atomic_int_get (&run->cancelled))
    self->work->free_job (run->job);
  else
    self->work->done (self->owner, run->job);
  g_free (run);
  if (self->owner != NULL && self->is_asked && self->timer == 0)
    begin_next (self);
  worker_unref (self);
}

static void
begin_next (HwWorker *self)
{
  if (self->running != NULL)
    return; // asked again when it has stopped
  self->is_asked = false;
  gpointer job = self->work->make (self->owner);
  if (job == NULL)
    return;
  HwRun *run = g_new (HwRun, 1);
  *run = (HwRun){ worker_ref (self), job, 0 };
  self->running = run;
  g_autoptr (GTask) task = g_task_new (self->owner, NULL, on_worked_cb, NULL);
  g_task_set_task_data (task, run, NULL);
  g_task_run_in_thread (task, work);
}

static gboolean
on_rest_cb (gpointer worker)
{
  HwWorker *self = worker;
  self->timer = 0;
  begin_next (self);
  return G_SOURCE_REMOVE;
}

void
hw_worker_ask (HwWorker *self, guint rest_ms)
{
  hw_worker_stop (self);
  if (self->owner == NULL)
    return;
  self->is_asked = true;
  self->timer = g_timeout_add (rest_ms, on_rest_cb, self);
}

void
hw_worker_follow (HwWorker *self)
{
  if (self->owner == NULL)
    return;
  self->is_asked = true;
  if (self->timer == 0)
    begin_next (self);
}

void
hw_worker_stop (HwWorker *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  self->is_asked = false;
  if (self->running != NULL)
    g_atomic_int_set (&self->running->cancelled, 1);
}

bool
hw_worker_is_busy (const HwWorker *self)
{
  return self->is_asked || (self->running != NULL && !g_atomic_int_get (&self->running->cancelled));
}

/* ---- its life ---- */

HwWorker *
hw_worker_new (const HwWork *work, gpointer owner)
{
  HwWorker *self = g_new0 (HwWorker, 1);
  self->ref_count = 1;
  self->work = work;
  self->owner = owner;
  return self;
}

void
hw_worker_close (HwWorker *self)
{
  hw_worker_stop (self);
  self->owner = NULL;
}

void
hw_worker_free (HwWorker *self)
{
  hw_worker_close (self);
  worker_unref (self);
}
