// SPDX-License-Identifier: GPL-3.0-or-later
/* A thread kept off the processor of another: against what the system itself tells of it, sched_getaffinity(2). */
#define _GNU_SOURCE
#include "place.h"
#include "suite.h"

#include <sched.h>
#include <stdbool.h>

typedef struct
{
  HwPlace place;
  int is_taken, is_leaving;
  GThread *thread;
} Kept;

static gpointer
take_place (gpointer data)
{
  Kept *kept = data;
  hw_place_take (&kept->place);
  g_atomic_int_set (&kept->is_taken, true);
  while (!g_atomic_int_get (&kept->is_leaving))
    g_usleep (1000);
  return NULL;
}

/* A thread that has taken its place. */
static void
begin (Kept *kept)
{
  kept->thread = g_thread_new ("kept", take_place, kept);
  while (!g_atomic_int_get (&kept->is_taken))
    g_usleep (1000);
}

static void
end (Kept *kept)
{
  g_atomic_int_set (&kept->is_leaving, true);
  g_thread_join (kept->thread);
}

/* The calling thread may have this one alone. */
static void
go_to (int processor)
{
  cpu_set_t one;
  CPU_ZERO (&one);
  CPU_SET (processor, &one);
  ck_assert_int_eq (sched_setaffinity (0, sizeof one, &one), 0);
}

static cpu_set_t
processors_of (int thread)
{
  cpu_set_t set;
  ck_assert_int_eq (sched_getaffinity (thread, sizeof set, &set), 0);
  return set;
}

/* Its own processors are the caller's at the time, so those are put back before it is asked again. */
static void
check_kept_off (Kept *kept, int processor, const cpu_set_t *all)
{
  go_to (processor);
  ck_assert_int_eq (sched_setaffinity (0, sizeof *all, all), 0);
  int here = sched_getcpu ();
  hw_place_keep_off (&kept->place);
  if (sched_getcpu () != here)
    return; // moved in between
  cpu_set_t its = processors_of (kept->place.thread);
  ck_assert (CPU_COUNT (all) == 1 || !CPU_ISSET (here, &its));
  ck_assert_int_eq (CPU_COUNT (&its), MAX (1, CPU_COUNT (all) - 1));
}

START_TEST (a_thread_is_kept_off_the_processor_of_the_caller_wherever_that_is)
{
  Kept kept = { 0 };
  cpu_set_t all = processors_of (0);
  begin (&kept);
  for (int round = 0; round < 3; round++)
    for (int processor = 0; processor < CPU_SETSIZE; processor++)
      if (CPU_ISSET (processor, &all))
        check_kept_off (&kept, processor, &all);
  end (&kept);
}
END_TEST

START_TEST (a_thread_let_go_may_be_anywhere_and_is_kept_off_again)
{
  Kept kept = { 0 };
  cpu_set_t all = processors_of (0);
  begin (&kept);
  for (int round = 0; round < 3; round++)
    {
      hw_place_keep_off (&kept.place);
      cpu_set_t its = processors_of (kept.place.thread);
      ck_assert_int_eq (CPU_COUNT (&its), MAX (1, CPU_COUNT (&all) - 1));
      hw_place_let_go (&kept.place);
      its = processors_of (kept.place.thread);
      ck_assert (CPU_EQUAL (&its, &all));
    }
  end (&kept);
}
END_TEST

START_TEST (of_a_thread_that_has_not_begun_nothing_is_asked)
{
  HwPlace place = { 0 };
  cpu_set_t before = processors_of (0), after;
  hw_place_keep_off (&place);
  after = processors_of (0);
  ck_assert (CPU_EQUAL (&before, &after));
}
END_TEST

START_TEST (a_caller_of_one_processor_shares_it)
{
  Kept kept = { 0 };
  cpu_set_t all = processors_of (0);
  begin (&kept);
  go_to (sched_getcpu ());
  hw_place_keep_off (&kept.place);
  cpu_set_t its = processors_of (kept.place.thread);
  ck_assert (CPU_EQUAL (&its, &all));
  ck_assert_int_eq (sched_setaffinity (0, sizeof all, &all), 0);
  end (&kept);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("place");
  TCase *places = tcase_create ("places");
  tcase_add_test (places, a_thread_is_kept_off_the_processor_of_the_caller_wherever_that_is);
  tcase_add_test (places, a_thread_let_go_may_be_anywhere_and_is_kept_off_again);
  tcase_add_test (places, of_a_thread_that_has_not_begun_nothing_is_asked);
  tcase_add_test (places, a_caller_of_one_processor_shares_it);
  suite_add_tcase (suite, places);
  return suite;
}
