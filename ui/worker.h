// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * worker - what takes longer than a frame, one job at a time in a thread of its own.
 *
 * A job owns all that it reads, so nothing has to be locked. Asking cancels the job in hand; the next is made once that has stopped and nothing more was
 * asked for a while, of what is then there. Each job is of its own generation: what an older one still has to tell is dropped. But for what HwWork says
 * of `work` and hw_run_tell, all of it is for the main thread.
 */
#ifndef HW_WORKER_H
#define HW_WORKER_H

#include <gio/gio.h>
#include <stdbool.h>

typedef struct _HwWorker HwWorker;
/* A job at work. */
typedef struct _HwRun HwRun;

/* What an owner has done for it. */
typedef struct
{
  gpointer (*make) (gpointer owner);                           /* a job; NULL: there is nothing to do */
  void (*work) (gpointer job, HwRun *run);                     /* in the thread; ends soon once hw_run_cancelled is not 0 */
  void (*told) (gpointer owner, double share, gpointer draft); /* takes what hw_run_tell was given; NULL where it never is */
  void (*done) (gpointer owner, gpointer job);                 /* takes the job, which came to its end */
  GDestroyNotify free_job, free_draft;
} HwWork;

/* Works for a GObject, which is kept while a job runs; it closes the worker when it is disposed of. */
HwWorker *hw_worker_new (const HwWork *work, gpointer owner);
/* Gives up what is being worked on; nothing is told any more. */
void hw_worker_close (HwWorker *self);
/* Frees it, closed; what still runs ends by itself. */
void hw_worker_free (HwWorker *self);

/* Gives up the job in hand and makes the next after `rest_ms` in which nothing was asked. */
void hw_worker_ask (HwWorker *self, guint rest_ms);
/*
 * Has the next job made as soon as the one in hand has come to its end, which is not given up: for what follows the pointer and would never be found if every
 * move began it again.
 */
void hw_worker_follow (HwWorker *self);
/* Gives up the job in hand, and the next. */
void hw_worker_stop (HwWorker *self);
/* Is a job asked for or at work? */
bool hw_worker_is_busy (const HwWorker *self);

/* Not 0 as soon as the job is given up; to be looked at atomically. */
const int *hw_run_cancelled (const HwRun *run);
/* From the thread: so much is done, 0..1, with a first answer or NULL; takes it. */
void hw_run_tell (HwRun *run, double share, gpointer draft);

#endif
