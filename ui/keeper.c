// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * keeper - jobs on immutable holes and bags, done one after the other by one thread, so that a removal always follows the writes before it.
 *
 * The first change after a copy starts a timer that later changes do not put off. While a copy is still being written, on a slow disk, none other
 * of that document is begun; what changed meanwhile follows at once.
 */
#include "keeper.h"

/* From a change to the beginning of its copy: leaves half of the promised three seconds for a slow disk and a busy machine. */
#define COPY_AFTER_MS 1500
/* After a copy that could not be written (a full disk, say) it is tried again without a change (common practice). */
#define RETRY_AFTER_MS 30000

struct _HwKeeper
{
  char *folder;
  GThreadPool *pool;
  HwKeeperTell tell;
  gpointer user_data;
  bool has_told;
};

struct _HwKeeping
{
  HwKeeper *keeper; /* NULL once it is closed */
  const HwKept *kind;
  char *key;
  gpointer wanted;  /* what a copy is to hold; NULL: none is needed */
  gpointer written; /* what the newest copy holds that was asked for; NULL: none that is good */
  char *original;
  GBytes *held;
  GPtrArray *inherited; /* keys of copies that the next one replaces; NULL: none */
  guint timer;
  bool has_copy;   /* one may be on the disk */
  bool is_writing; /* the thread has not said yet how it went */
  bool is_late;    /* a copy was due meanwhile */
};

typedef struct
{
  HwKeeping *keeping;
  char *folder, *key;
  gpointer work; /* NULL: the copy is removed */
  char *original;
  GBytes *held;
  GPtrArray *inherited;
  GError *error;
} Job;

static void keeping_write (HwKeeping *self);

/* ---- kinds of work ---- */

static gpointer
ref_hole (gpointer hole)
{
  return hole_ref (hole);
}

static void
unref_hole (gpointer hole)
{
  hole_unref (hole);
}

static bool
write_hole (const char *folder, const char *key, gconstpointer hole, const char *original, GBytes *held, GError **error)
{
  return recovery_write (folder, key, hole, original, held, error);
}

static gpointer
ref_bytes (gpointer bytes)
{
  return g_bytes_ref (bytes);
}

static void
unref_bytes (gpointer bytes)
{
  g_bytes_unref (bytes);
}

static bool
write_bag (const char *folder, const char *key, gconstpointer bytes, const char *original, GBytes *held, GError **error)
{
  return recovery_write_bag (folder, key, (GBytes *)bytes, original, held, error);
}

const HwKept hw_kept_hole = { ref_hole, unref_hole, write_hole };
const HwKept hw_kept_bag = { ref_bytes, unref_bytes, write_bag };

/* Puts another value of the kind, or none, in a place. */
static void
replace (const HwKept *kind, gpointer *place, gpointer work)
{
  gpointer old = *place;
  *place = work != NULL ? kind->ref (work) : NULL;
  if (old != NULL)
    kind->unref (old);
}

/* ---- one after the other, on the thread ---- */

static void
keeping_clear (gpointer keeping)
{
  HwKeeping *self = keeping;
  g_free (self->key);
  replace (self->kind, &self->wanted, NULL);
  replace (self->kind, &self->written, NULL);
  g_free (self->original);
  g_clear_pointer (&self->held, g_bytes_unref);
  g_clear_pointer (&self->inherited, g_ptr_array_unref);
}

static void
job_free (Job *job)
{
  replace (job->keeping->kind, &job->work, NULL);
  g_rc_box_release_full (job->keeping, keeping_clear);
  g_free (job->folder);
  g_free (job->key);
  g_free (job->original);
  g_clear_pointer (&job->held, g_bytes_unref);
  g_clear_pointer (&job->inherited, g_ptr_array_unref);
  g_clear_error (&job->error);
  g_free (job);
}

static gboolean
on_due_cb (gpointer keeping)
{
  HwKeeping *self = keeping;
  self->timer = 0;
  keeping_write (self);
  return G_SOURCE_REMOVE;
}

static void
keeper_tell (HwKeeper *self, const GError *error)
{
  if (error != NULL && !self->has_told)
    self->tell (error->message, self->user_data);
  self->has_told = error != NULL;
}

/* Back in the program's own thread. */
static gboolean
on_done_cb (gpointer user_data)
{
  Job *job = user_data;
  HwKeeping *self = job->keeping;
  if (self->keeper == NULL)
    {
      job_free (job);
      return G_SOURCE_REMOVE;
    }
  keeper_tell (self->keeper, job->error);
  if (job->work != NULL)
    {
      self->is_writing = false;
      if (job->error != NULL && self->written == job->work)
        replace (self->kind, &self->written, NULL);
      if (job->error != NULL && self->wanted != NULL && self->timer == 0)
        self->timer = g_timeout_add (RETRY_AFTER_MS, on_due_cb, self);
      else if (self->is_late)
        keeping_write (self);
    }
  job_free (job);
  return G_SOURCE_REMOVE;
}

static void
do_job (gpointer data, gpointer user_data)
{
  Job *job = data;
  bool good = job->work != NULL
                  ? job->keeping->kind->write (job->folder, job->key, job->work, job->original, job->held, &job->error)
                  : recovery_discard (job->folder, job->key, &job->error);
  for (guint i = 0; good && job->inherited != NULL && i < job->inherited->len; i++)
    good = recovery_discard (job->folder, job->inherited->pdata[i], &job->error);
  g_idle_add_full (G_PRIORITY_DEFAULT, on_done_cb, job, NULL);
}

static void
push_job (HwKeeping *self, gpointer work)
{
  Job *job = g_new0 (Job, 1);
  job->keeping = g_rc_box_acquire (self);
  job->folder = g_strdup (self->keeper->folder);
  job->key = g_strdup (self->key);
  replace (self->kind, &job->work, work);
  job->original = g_strdup (self->original);
  job->held = self->held != NULL ? g_bytes_ref (self->held) : NULL;
  if (work != NULL)
    job->inherited = g_steal_pointer (&self->inherited);
  g_thread_pool_push (self->keeper->pool, job, NULL);
}

/* ---- one document ---- */

static void
keeping_write (HwKeeping *self)
{
  self->is_late = self->is_writing;
  if (self->wanted == NULL || self->is_late)
    return;
  push_job (self, self->wanted);
  self->is_writing = self->has_copy = true;
  replace (self->kind, &self->written, self->wanted);
}

static void
keeping_stop (HwKeeping *self)
{
  g_clear_handle_id (&self->timer, g_source_remove);
  self->is_late = false;
}

static void
keeping_remove (HwKeeping *self)
{
  keeping_stop (self);
  replace (self->kind, &self->wanted, NULL);
  replace (self->kind, &self->written, NULL);
  if (self->has_copy)
    push_job (self, NULL);
  self->has_copy = false;
}

/* Takes down where the document belongs. Is that news? */
static bool
keeping_place (HwKeeping *self, const char *original, GBytes *held)
{
  if (g_strcmp0 (self->original, original) == 0 && self->held == held)
    return false;
  char *copy = g_strdup (original);
  g_free (self->original);
  self->original = copy;
  g_clear_pointer (&self->held, g_bytes_unref);
  self->held = held != NULL ? g_bytes_ref (held) : NULL;
  return true;
}

void
hw_keeping_set (HwKeeping *self, gpointer work, const char *original, GBytes *held)
{
  if (keeping_place (self, original, held))
    replace (self->kind, &self->written, NULL);
  if (work == NULL)
    {
      keeping_remove (self);
      return;
    }
  replace (self->kind, &self->wanted, work);
  if (self->written == work)
    keeping_stop (self);
  else if (self->timer == 0 && !self->is_late)
    self->timer = g_timeout_add (COPY_AFTER_MS, on_due_cb, self);
}

void
hw_keeping_take_over (HwKeeping *self, const char *key)
{
  if (self->inherited == NULL)
    self->inherited = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (self->inherited, g_strdup (key));
  keeping_stop (self);
  keeping_write (self);
}

HwKeeping *
hw_keeping_new (HwKeeper *keeper, const HwKept *kind)
{
  HwKeeping *self = g_rc_box_new0 (HwKeeping);
  self->keeper = keeper;
  self->kind = kind;
  self->key = recovery_new_key ();
  return self;
}

void
hw_keeping_free (HwKeeping *self)
{
  if (self == NULL)
    return;
  keeping_remove (self);
  self->keeper = NULL;
  g_rc_box_release_full (self, keeping_clear);
}

/* ---- the keeper ---- */

HwKeeper *
hw_keeper_new (HwKeeperTell tell, gpointer user_data)
{
  HwKeeper *self = g_new0 (HwKeeper, 1);
  self->folder = recovery_folder ();
  self->pool = g_thread_pool_new (do_job, NULL, 1, FALSE, NULL);
  self->tell = tell;
  self->user_data = user_data;
  return self;
}

void
hw_keeper_free (HwKeeper *self)
{
  g_thread_pool_free (self->pool, FALSE, TRUE);
  g_free (self->folder);
  g_free (self);
}
