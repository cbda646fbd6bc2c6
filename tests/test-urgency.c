// SPDX-License-Identifier: GPL-3.0-or-later
/* Threads that give way do so by themselves: the one that started them, and those of the frame, get as much of the processor as before. */
#define _GNU_SOURCE
#include "urgency.h"
#include "suite.h"

#include <glib.h>
#include <sys/resource.h>
#include <unistd.h>

static int
own_niceness (void)
{
  return getpriority (PRIO_PROCESS, (id_t)gettid ());
}

static gpointer
niceness_of_a_thread (gpointer unused)
{
  return GINT_TO_POINTER (own_niceness ());
}

static gpointer
give_way (gpointer unused)
{
  hw_urgency_give_way ();
  int own = own_niceness (), started = GPOINTER_TO_INT (g_thread_join (g_thread_new ("started", niceness_of_a_thread, NULL)));
  return GINT_TO_POINTER (own == started ? own : -1);
}

static gpointer
be_prompt (gpointer unused)
{
  hw_urgency_be_prompt ();
  return GINT_TO_POINTER (own_niceness ());
}

static gpointer
be_steady (gpointer unused)
{
  hw_urgency_be_steady ();
  int steady = own_niceness ();
  hw_urgency_be_prompt ();
  return GINT_TO_POINTER (own_niceness () == steady ? steady : -1);
}

START_TEST (a_thread_that_gives_way_is_nicer_and_so_are_those_it_starts)
{
  int before = own_niceness ();
  int nice = GPOINTER_TO_INT (g_thread_join (g_thread_new ("way", give_way, NULL)));
  ck_assert_int_gt (nice, before);
  ck_assert_int_eq (own_niceness (), before);
}
END_TEST

START_TEST (a_prompt_thread_is_no_nicer_and_no_less_so)
{
  int before = own_niceness ();
  ck_assert_int_eq (GPOINTER_TO_INT (g_thread_join (g_thread_new ("prompt", be_prompt, NULL))), before);
  ck_assert_int_eq (own_niceness (), before);
}
END_TEST

START_TEST (a_steady_thread_is_no_nicer_and_no_less_so_even_afterwards)
{
  int before = own_niceness ();
  ck_assert_int_eq (GPOINTER_TO_INT (g_thread_join (g_thread_new ("steady", be_steady, NULL))), before);
  ck_assert_int_eq (own_niceness (), before);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("urgency");
  TCase *threads = tcase_create ("threads");
  tcase_add_test (threads, a_thread_that_gives_way_is_nicer_and_so_are_those_it_starts);
  tcase_add_test (threads, a_prompt_thread_is_no_nicer_and_no_less_so);
  tcase_add_test (threads, a_steady_thread_is_no_nicer_and_no_less_so_even_afterwards);
  suite_add_tcase (suite, threads);
  return suite;
}
