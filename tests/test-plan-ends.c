// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: where a shot may end, as a list. */
#include "plan-ends.h"
#include "suite.h"

static StrokesTable *table;

static void
set_up (void)
{
  table = strokes_table_new (LEVEL_SCRATCH_MEN);
}

static void
tear_down (void)
{
  strokes_table_free (table);
}

START_TEST (what_costs_most_comes_first_and_what_costs_nothing_by_its_chance)
{
  OddsTable odds = { 0 };
  odds.rest[KIND_FAIRWAY] = 0.6;
  odds.rest[KIND_ROUGH] = 0.15;
  odds.rest[KIND_WATER] = 0.1;
  odds.rest[KIND_TEE] = 0.05;
  odds.rest[KIND_TREES] = 0.1;
  ShotEnd ends[N_KINDS];
  size_t n = plan_ends (&odds, table, 130, ends);
  ck_assert_uint_eq (n, 5);
  ck_assert_int_eq (ends[0].kind, KIND_WATER);
  ck_assert_int_eq (ends[1].kind, KIND_TREES);
  ck_assert_int_eq (ends[2].kind, KIND_ROUGH);
  ck_assert_int_eq (ends[3].kind, KIND_FAIRWAY);
  ck_assert_int_eq (ends[4].kind, KIND_TEE);
  for (size_t i = 1; i < n; i++)
    ck_assert (ends[i].cost_strokes <= ends[i - 1].cost_strokes);
}
END_TEST

START_TEST (a_cost_is_the_chance_times_what_the_place_costs_over_the_fairway)
{
  OddsTable odds = { 0 };
  odds.rest[KIND_BUNKER] = 0.25;
  odds.rest[KIND_FAIRWAY] = 0.75;
  ShotEnd ends[N_KINDS];
  ck_assert_uint_eq (plan_ends (&odds, table, 100, ends), 2);
  double more = strokes_to_hole (table, LIE_SAND, 100) - strokes_to_hole (table, LIE_FAIRWAY, 100);
  ck_assert_int_eq (ends[0].kind, KIND_BUNKER);
  ck_assert_double_eq_tol (ends[0].cost_strokes, 0.25 * more, 1e-12);
  ck_assert_double_eq (ends[0].chance, 0.25);
  ck_assert_double_eq (ends[1].cost_strokes, 0);
}
END_TEST

START_TEST (what_hardly_happens_is_left_out)
{
  OddsTable odds = { 0 };
  odds.rest[KIND_GREEN] = 1 - ENDS_LEAST_CHANCE / 2;
  odds.rest[KIND_WATER] = ENDS_LEAST_CHANCE / 2;
  ShotEnd ends[N_KINDS];
  ck_assert_uint_eq (plan_ends (&odds, table, 10, ends), 1);
  ck_assert_int_eq (ends[0].kind, KIND_GREEN);
}
END_TEST

START_TEST (without_a_hole_to_play_to_the_list_is_told_all_the_same)
{
  OddsTable odds = { 0 };
  odds.rest[KIND_FAIRWAY] = 0.9;
  odds.rest[KIND_OUT_OF_BOUNDS] = 0.1;
  ShotEnd ends[N_KINDS];
  ck_assert_uint_eq (plan_ends (&odds, table, NAN, ends), 2);
  ck_assert_int_eq (ends[0].kind, KIND_OUT_OF_BOUNDS);
  ck_assert (isfinite (ends[0].cost_strokes));
}
END_TEST

START_TEST (odds_of_nothing_have_no_ends)
{
  OddsTable odds = { 0 };
  ShotEnd ends[N_KINDS];
  ck_assert_uint_eq (plan_ends (&odds, table, 100, ends), 0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-ends");
  TCase *list = tcase_create ("list");
  tcase_add_checked_fixture (list, set_up, tear_down);
  tcase_add_test (list, what_costs_most_comes_first_and_what_costs_nothing_by_its_chance);
  tcase_add_test (list, a_cost_is_the_chance_times_what_the_place_costs_over_the_fairway);
  tcase_add_test (list, what_hardly_happens_is_left_out);
  tcase_add_test (list, without_a_hole_to_play_to_the_list_is_told_all_the_same);
  tcase_add_test (list, odds_of_nothing_have_no_ends);
  suite_add_tcase (suite, list);
  return suite;
}
