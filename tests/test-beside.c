// SPDX-License-Identifier: GPL-3.0-or-later
/* Shares of a frame handed to a second thread: each is done once, whoever does it, and is over when the main thread comes back. */
#include "beside.h"
#include "suite.h"

#include <stdbool.h>

#define MANY 20000
/* Longer than a thread needs to begin. */
#define A_WHILE_US 2000

typedef struct
{
  int n_done;
  gulong rest_us; /* what a share takes */
  GThread *by;
  HwShare share;
} Work;

static void
do_work (gpointer data, gpointer unused)
{
  Work *work = data;
  if (work->rest_us > 0)
    g_usleep (work->rest_us);
  work->by = g_thread_self ();
  work->n_done++; /* not atomic: only one thread at a time */
}

START_TEST (a_share_is_done_once_when_it_is_finished)
{
  HwBeside *beside = hw_beside_new ();
  Work work = { 0 };
  hw_beside_begin (beside, &work.share, do_work, &work);
  hw_beside_finish (beside, &work.share);
  ck_assert_int_eq (work.n_done, 1);
  hw_beside_finish (beside, &work.share);
  ck_assert_int_eq (work.n_done, 1);
  hw_beside_free (beside);
}
END_TEST

START_TEST (what_is_handed_over_is_begun_while_the_main_thread_does_something_else)
{
  HwBeside *beside = hw_beside_new ();
  bool is_beside = false;
  for (int i = 0; i < 100 && !is_beside; i++) // on a machine that is busy with others it may come too late
    {
      Work work = { 0 };
      hw_beside_begin (beside, &work.share, do_work, &work);
      g_usleep (A_WHILE_US);
      hw_beside_finish (beside, &work.share);
      ck_assert_int_eq (work.n_done, 1);
      is_beside = work.by != g_thread_self ();
    }
  ck_assert (is_beside == (g_get_num_processors () > 1));
  hw_beside_free (beside);
}
END_TEST

START_TEST (the_main_thread_waits_for_a_share_that_takes_long)
{
  HwBeside *beside = hw_beside_new ();
  Work work = { .rest_us = 5 * A_WHILE_US };
  hw_beside_begin (beside, &work.share, do_work, &work);
  g_usleep (A_WHILE_US);
  hw_beside_finish (beside, &work.share);
  ck_assert_int_eq (work.n_done, 1);
  hw_beside_free (beside);
}
END_TEST

START_TEST (shares_are_done_in_the_order_they_were_handed_over)
{
  HwBeside *beside = hw_beside_new ();
  Work works[3] = { { .rest_us = A_WHILE_US }, { .rest_us = A_WHILE_US }, { 0 } };
  for (int i = 0; i < 3; i++)
    hw_beside_begin (beside, &works[i].share, do_work, &works[i]);
  for (int i = 0; i < 3; i++)
    {
      hw_beside_finish (beside, &works[i].share);
      for (int k = 0; k <= i; k++)
        ck_assert_int_eq (works[k].n_done, 1);
    }
  hw_beside_free (beside);
}
END_TEST

START_TEST (a_share_is_finished_while_the_one_before_it_is_still_at_work)
{
  HwBeside *beside = hw_beside_new ();
  Work first = { .rest_us = 5 * A_WHILE_US }, second = { 0 };
  hw_beside_begin (beside, &first.share, do_work, &first);
  g_usleep (A_WHILE_US);
  hw_beside_begin (beside, &second.share, do_work, &second);
  hw_beside_finish (beside, &second.share);
  ck_assert_int_eq (second.n_done, 1);
  hw_beside_finish (beside, &first.share);
  ck_assert_int_eq (first.n_done, 1);
  hw_beside_free (beside);
}
END_TEST

START_TEST (a_share_handed_over_anew_is_finished_before)
{
  HwBeside *beside = hw_beside_new ();
  Work work = { .rest_us = A_WHILE_US };
  hw_beside_begin (beside, &work.share, do_work, &work);
  hw_beside_begin (beside, &work.share, do_work, &work);
  ck_assert_int_ge (work.n_done, 1);
  hw_beside_finish (beside, &work.share);
  ck_assert_int_eq (work.n_done, 2);
  hw_beside_free (beside);
}
END_TEST

START_TEST (many_shares_in_a_row_are_each_done_once)
{
  HwBeside *beside = hw_beside_new ();
  Work work = { 0 };
  for (int i = 0; i < MANY; i++)
    {
      hw_beside_begin (beside, &work.share, do_work, &work);
      hw_beside_finish (beside, &work.share);
      ck_assert_int_eq (work.n_done, i + 1);
    }
  hw_beside_free (beside);
}
END_TEST

START_TEST (who_is_freed_has_done_what_was_handed_over)
{
  HwBeside *beside = hw_beside_new ();
  Work works[2] = { { .rest_us = A_WHILE_US }, { .rest_us = A_WHILE_US } };
  for (int i = 0; i < 2; i++)
    hw_beside_begin (beside, &works[i].share, do_work, &works[i]);
  hw_beside_free (beside);
  for (int i = 0; i < 2; i++)
    ck_assert_int_eq (works[i].n_done, 1);
}
END_TEST

START_TEST (nothing_handed_over_is_nothing_to_wait_for)
{
  HwBeside *beside = hw_beside_new ();
  HwShare none = { 0 };
  hw_beside_finish (beside, &none);
  hw_beside_free (beside);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("beside");
  TCase *shares = tcase_create ("shares");
  tcase_add_test (shares, a_share_is_done_once_when_it_is_finished);
  tcase_add_test (shares, what_is_handed_over_is_begun_while_the_main_thread_does_something_else);
  tcase_add_test (shares, the_main_thread_waits_for_a_share_that_takes_long);
  tcase_add_test (shares, shares_are_done_in_the_order_they_were_handed_over);
  tcase_add_test (shares, a_share_is_finished_while_the_one_before_it_is_still_at_work);
  tcase_add_test (shares, a_share_handed_over_anew_is_finished_before);
  tcase_add_test (shares, many_shares_in_a_row_are_each_done_once);
  tcase_add_test (shares, who_is_freed_has_done_what_was_handed_over);
  tcase_add_test (shares, nothing_handed_over_is_nothing_to_wait_for);
  suite_add_tcase (suite, shares);
  return suite;
}
