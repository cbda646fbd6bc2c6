// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: the day of a plan, the days kept with a hole, the shape of a shot. */
#include "edit.h"
#include "suite.h"

#include <string.h>

/* Runs north; its plan of one shot is part 1. */
static Hole *
small_hole (void)
{
  Part *tee = part_new (KIND_TEE_MARKER), *plan = part_new (KIND_PLAN);
  Shot shot = { .aim = { 0, 200 }, .shape = SHOT_STRAIGHT, .curve_m = NAN, .swing = 1 };
  part_add_shot (plan, &shot);
  const Part *parts[] = { part_seal (tee), part_seal (plan) };
  HoleInfo info;
  hole_info_init (&info);
  info.up_bearing_deg = 0;
  info.title = g_strdup ("Small");
  Hole *hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  return hole;
}

#define PLAN 1

static Day
west_wind (double speed_mps)
{
  Day day;
  day_init (&day);
  day.wind_mps = speed_mps;
  day.wind_from_deg = 270;
  day.firmness = (char *)"firm"; /* borrowed: never cleared */
  return day;
}

START_TEST (a_plan_is_made_for_the_day_it_is_given)
{
  g_autoptr (Hole) hole = small_hole ();
  Day day = west_wind (4);
  g_autoptr (Hole) made = edit_set_day (hole, PLAN, &day, NULL, NULL);
  ck_assert (day_equal (&hole_part (made, PLAN)->day, &day));
  ck_assert_msg (!day_is_given (&hole_part (hole, PLAN)->day), "the hole before is as it was");
  g_autoptr (Hole) again = edit_set_day (made, PLAN, &day, NULL, NULL);
  ck_assert_ptr_eq (again, made);
  Day none;
  day_init (&none);
  g_autoptr (Hole) back = edit_set_day (made, PLAN, &none, NULL, NULL);
  ck_assert (hole_equal (back, hole));
}
END_TEST

START_TEST (a_day_is_kept_under_its_name_and_forgotten_by_it)
{
  g_autoptr (Hole) hole = small_hole ();
  Day gentle = west_wind (2), strong = west_wind (9);
  g_autoptr (Hole) one = edit_keep_day (hole, "  west \n wind ", &gentle, NULL);
  g_autoptr (Hole) two = edit_keep_day (one, "Gale", &strong, NULL);
  const HoleInfo *info = hole_info (two);
  ck_assert_uint_eq (info->n_days, 2);
  ck_assert_str_eq (info->days[0].name, "west wind");
  ck_assert_str_eq (info->days[1].name, "Gale");
  ck_assert (day_equal (&info->days[1].day, &strong));
  ck_assert_str_eq (info->title, "Small");

  g_autoptr (Hole) less = edit_forget_day (two, "WEST WIND", NULL);
  ck_assert_uint_eq (hole_info (less)->n_days, 1);
  ck_assert_str_eq (hole_info (less)->days[0].name, "Gale");
  g_autoptr (Hole) none = edit_forget_day (less, "gale", NULL);
  ck_assert (hole_equal (none, hole));
}
END_TEST

START_TEST (a_day_kept_again_takes_the_place_of_the_old_one)
{
  g_autoptr (Hole) hole = small_hole ();
  Day gentle = west_wind (2), strong = west_wind (9);
  g_autoptr (Hole) one = edit_keep_day (hole, "west", &gentle, NULL);
  g_autoptr (Hole) two = edit_keep_day (one, "other", &gentle, NULL);
  g_autoptr (Hole) same = edit_keep_day (two, "west", &gentle, NULL);
  ck_assert_ptr_eq (same, two);
  g_autoptr (Hole) changed = edit_keep_day (two, "West", &strong, NULL);
  const HoleInfo *info = hole_info (changed);
  ck_assert_uint_eq (info->n_days, 2);
  ck_assert_str_eq (info->days[0].name, "West");
  ck_assert_double_eq (info->days[0].day.wind_mps, 9);
}
END_TEST

START_TEST (a_shot_keeps_the_shape_and_the_curve_it_is_given)
{
  g_autoptr (Hole) hole = small_hole ();
  g_autoptr (Hole) fade = edit_set_shape (hole, PLAN, 0, SHOT_FADE, 12.34567, NULL);
  const Shot *shot = &hole_part (fade, PLAN)->shots[0];
  ck_assert_int_eq (shot->shape, SHOT_FADE);
  ck_assert_double_eq_tol (shot->curve_m, 12.346, 1e-9);
  g_autoptr (Hole) back = edit_set_shape (fade, PLAN, 0, SHOT_STRAIGHT, NAN, NULL);
  ck_assert (hole_equal (back, hole));
}
END_TEST

static void
expect_refused (Hole *made, GError **error, GQuark domain, const char *words)
{
  ck_assert_ptr_null (made);
  ck_assert ((*error)->domain == domain);
  ck_assert_msg (strstr ((*error)->message, words) != NULL, "%s", (*error)->message);
  g_clear_error (error);
}

START_TEST (what_cannot_be_is_refused)
{
  g_autoptr (Hole) hole = small_hole ();
  Day gale = west_wind (200), lost = west_wind (3);
  lost.wind_from_deg = NAN;
  GError *error = NULL;
  expect_refused (edit_set_day (hole, PLAN, &gale, NULL, &error), &error, ODDS_ERROR, "such a wind");
  expect_refused (edit_keep_day (hole, "x", &lost, &error), &error, ODDS_ERROR, "no bearing");
  Day day = west_wind (3);
  expect_refused (edit_keep_day (hole, " \t", &day, &error), &error, EDIT_ERROR, "has no name");
  expect_refused (edit_forget_day (hole, "x", &error), &error, EDIT_ERROR, "no day of that name");
  expect_refused (edit_forget_day (hole, "", &error), &error, EDIT_ERROR, "no day of that name");
  expect_refused (edit_set_shape (hole, PLAN, 0, SHOT_DRAW, -201, &error), &error, EDIT_ERROR, "curves that far");
  expect_refused (edit_set_shape (hole, PLAN, 0, SHOT_DRAW, INFINITY, &error), &error, EDIT_ERROR, "curves that far");
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-day");
  TCase *all = tcase_create ("days and shapes");
  tcase_add_test (all, a_plan_is_made_for_the_day_it_is_given);
  tcase_add_test (all, a_day_is_kept_under_its_name_and_forgotten_by_it);
  tcase_add_test (all, a_day_kept_again_takes_the_place_of_the_old_one);
  tcase_add_test (all, a_shot_keeps_the_shape_and_the_curve_it_is_given);
  tcase_add_test (all, what_cannot_be_is_refused);
  suite_add_tcase (suite, all);
  return suite;
}
