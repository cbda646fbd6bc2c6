// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A few threads for as long as one piece of work takes, the caller's among them.
 */
#include "solve-private.h"

/* More are of no use. */
#define MOST_HELPERS 15

typedef struct
{
  size_t n;
  SolveWork work;
  void *data;
  const gint *cancel;
  gint next; /* atomic: the first piece that nobody has taken */
} Crew;

static gpointer
work_on (gpointer data)
{
  Crew *crew = data;
  for (;;)
    {
      gint i = g_atomic_int_add (&crew->next, 1);
      if (i < 0 || (size_t)i >= crew->n || solve_is_cancelled (crew->cancel))
        return NULL;
      crew->work (crew->data, (size_t)i);
    }
}

bool
solve_is_cancelled (const gint *cancel)
{
  return cancel != NULL && g_atomic_int_get (cancel) != 0;
}

bool
solve_crew (int n_threads, size_t n, SolveWork work, void *data, const gint *cancel)
{
  Crew crew = { n, work, data, cancel, 0 };
  GThread *helpers[MOST_HELPERS];
  size_t n_helpers = 0, wanted = (size_t)CLAMP (n_threads - 1, 0, MOST_HELPERS);
  /* Where the system gives no more threads, those that there are do it all. */
  while (n_helpers < wanted && n_helpers + 1 < n)
    {
      GThread *helper = g_thread_try_new ("solver", work_on, &crew, NULL);
      if (helper == NULL)
        break;
      helpers[n_helpers++] = helper;
    }
  work_on (&crew);
  for (size_t i = 0; i < n_helpers; i++)
    g_thread_join (helpers[i]);
  return !solve_is_cancelled (cancel);
}
