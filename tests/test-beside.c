// SPDX-License-Identifier: GPL-3.0-or-later
/* Pieces of a frame handed to a second thread: each is done once, whoever does it, and is over when the main thread comes back. */
#include "beside.h"
#include "suite.h"

#include <stdbool.h>

#define MANY 20000
/* Longer than a thread needs to begin. */
#define A_WHILE_US 2000

typedef struct
{
  int n_done;
  gulong rest_us; /* what a piece takes */
  GThread *by;
} Piece;

static void
do_piece (gpointer data, gpointer unused)
{
  Piece *piece = data;
  if (piece->rest_us > 0)
    g_usleep (piece->rest_us);
  piece->by = g_thread_self ();
  piece->n_done++; /* not atomic: only one thread at a time */
}

START_TEST (a_piece_is_done_once_when_it_is_finished)
{
  HwBeside *beside = hw_beside_new ();
  Piece piece = { 0 };
  hw_beside_begin (beside, do_piece, &piece);
  hw_beside_finish (beside);
  ck_assert_int_eq (piece.n_done, 1);
  hw_beside_finish (beside);
  ck_assert_int_eq (piece.n_done, 1);
  hw_beside_free (beside);
}
END_TEST

START_TEST (what_is_handed_over_is_begun_while_the_main_thread_does_something_else)
{
  HwBeside *beside = hw_beside_new ();
  bool is_beside = false;
  for (int i = 0; i < 100 && !is_beside; i++) // on a machine that is busy with others it may come too late
    {
      Piece piece = { 0 };
      hw_beside_begin (beside, do_piece, &piece);
      g_usleep (A_WHILE_US);
      hw_beside_finish (beside);
      ck_assert_int_eq (piece.n_done, 1);
      is_beside = piece.by != g_thread_self ();
    }
  ck_assert (is_beside == (g_get_num_processors () > 1));
  hw_beside_free (beside);
}
END_TEST

START_TEST (the_main_thread_waits_for_a_piece_that_takes_long)
{
  HwBeside *beside = hw_beside_new ();
  Piece piece = { .rest_us = 5 * A_WHILE_US };
  hw_beside_begin (beside, do_piece, &piece);
  g_usleep (A_WHILE_US);
  hw_beside_finish (beside);
  ck_assert_int_eq (piece.n_done, 1);
  hw_beside_free (beside);
}
END_TEST

START_TEST (a_piece_follows_the_one_before_it)
{
  HwBeside *beside = hw_beside_new ();
  Piece first = { .rest_us = A_WHILE_US }, second = { 0 };
  hw_beside_begin (beside, do_piece, &first);
  hw_beside_begin (beside, do_piece, &second);
  ck_assert_int_eq (first.n_done, 1);
  hw_beside_finish (beside);
  ck_assert_int_eq (second.n_done, 1);
  hw_beside_free (beside);
}
END_TEST

START_TEST (many_pieces_in_a_row_are_each_done_once)
{
  HwBeside *beside = hw_beside_new ();
  Piece piece = { 0 };
  for (int i = 0; i < MANY; i++)
    {
      hw_beside_begin (beside, do_piece, &piece);
      hw_beside_finish (beside);
      ck_assert_int_eq (piece.n_done, i + 1);
    }
  hw_beside_free (beside);
}
END_TEST

START_TEST (who_is_freed_has_done_what_was_handed_over)
{
  HwBeside *beside = hw_beside_new ();
  Piece piece = { .rest_us = A_WHILE_US };
  hw_beside_begin (beside, do_piece, &piece);
  hw_beside_free (beside);
  ck_assert_int_eq (piece.n_done, 1);
}
END_TEST

START_TEST (nothing_handed_over_is_nothing_to_wait_for)
{
  HwBeside *beside = hw_beside_new ();
  hw_beside_finish (beside);
  hw_beside_free (beside);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("beside");
  TCase *pieces = tcase_create ("pieces");
  tcase_add_test (pieces, a_piece_is_done_once_when_it_is_finished);
  tcase_add_test (pieces, what_is_handed_over_is_begun_while_the_main_thread_does_something_else);
  tcase_add_test (pieces, the_main_thread_waits_for_a_piece_that_takes_long);
  tcase_add_test (pieces, a_piece_follows_the_one_before_it);
  tcase_add_test (pieces, many_pieces_in_a_row_are_each_done_once);
  tcase_add_test (pieces, who_is_freed_has_done_what_was_handed_over);
  tcase_add_test (pieces, nothing_handed_over_is_nothing_to_wait_for);
  suite_add_tcase (suite, pieces);
  return suite;
}
