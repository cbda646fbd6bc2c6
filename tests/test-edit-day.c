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
  g_autoptr (Hole) fade = edit_set_shape (hole, PLAN, 0, SHOT_FADE, 12.34567, NULL, NULL);
  const Shot *shot = &hole_part (fade, PLAN)->shots[0];
  ck_assert_int_eq (shot->shape, SHOT_FADE);
  ck_assert_double_eq_tol (shot->curve_m, 12.346, 1e-9);
  g_autoptr (Hole) back = edit_set_shape (fade, PLAN, 0, SHOT_STRAIGHT, NAN, NULL, NULL);
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

static Bag *
small_bag (void)
{
  static const char text[] = "club,carry_m\ndriver,200\n7 iron,130\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, sizeof text - 1);
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  return bag;
}

/* The small hole with a second shot from where the driver of the first comes to rest. */
static Hole *
two_shots (const Bag *bag)
{
  g_autoptr (Hole) hole = small_hole ();
  g_autoptr (Hole) chosen = edit_choose_club (hole, PLAN, 0, "driver", bag);
  ShotResult result;
  ck_assert (odds_plan_shot (chosen, hole_part (chosen, PLAN), 0, bag, &result, NULL));
  Part *changed = part_copy (hole_part (chosen, PLAN));
  part_add_shot (changed, &(Shot){ .from = result.rest, .aim = { 0, 400 }, .curve_m = NAN, .swing = 1 });
  return hole_with_part (chosen, PLAN, part_seal (changed));
}

static const Shot *
shot_of (const Hole *hole, size_t i)
{
  return &hole_part (hole, PLAN)->shots[i];
}

START_TEST (a_ball_that_follows_goes_where_the_shape_and_the_swing_take_it)
{
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (Hole) hole = two_shots (bag);
  g_autoptr (Hole) fade = edit_set_shape (hole, PLAN, 0, SHOT_FADE, 20, bag, NULL);
  ck_assert_ptr_nonnull (fade);
  ShotResult faded, half;
  ck_assert (odds_plan_shot (fade, hole_part (fade, PLAN), 0, bag, &faded, NULL));
  ck_assert_double_le (vec2_distance (shot_of (fade, 1)->from, faded.rest), 0.002);
  ck_assert_double_gt (vec2_distance (shot_of (fade, 1)->from, shot_of (hole, 1)->from), 0.1);
  g_autoptr (Hole) swung = edit_set_swing (hole, PLAN, 0, 0.5, bag, NULL);
  ck_assert (odds_plan_shot (swung, hole_part (swung, PLAN), 0, bag, &half, NULL));
  ck_assert_double_eq_tol (half.carry_m, 100, 0.01);
  ck_assert_double_le (vec2_distance (shot_of (swung, 1)->from, half.rest), 0.002);
}
END_TEST

START_TEST (a_fitted_swing_lands_as_far_away_as_the_aim_on_any_day)
{
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (Hole) hole = two_shots (bag);
  g_autoptr (Hole) short_aim = edit_move_aim (hole, PLAN, 0, vec2 (0, 150), bag);
  Day days[2] = { west_wind (0), west_wind (6) };
  for (int i = 0; i < 2; i++)
    {
      days[i].wind_from_deg = 0; /* against */
      g_autoptr (Hole) day = edit_set_day (short_aim, PLAN, &days[i], bag, NULL);
      g_autoptr (Hole) fitted = edit_fit_swing (day, PLAN, 0, bag, NULL);
      ShotResult result;
      ck_assert (odds_plan_shot (fitted, hole_part (fitted, PLAN), 0, bag, &result, NULL));
      /* A thousandth of a full swing, and the flight of the smaller swing which is solved anew. */
      ck_assert_double_eq_tol (result.carry_m, 150, 0.5);
      ck_assert_double_lt (shot_of (fitted, 0)->swing, 1);
    }
}
END_TEST

START_TEST (a_fitted_swing_is_a_full_one_where_the_aim_is_out_of_reach)
{
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (Hole) hole = two_shots (bag);
  g_autoptr (Hole) far = edit_move_aim (hole, PLAN, 0, vec2 (0, 260), bag);
  g_autoptr (Hole) fitted = edit_fit_swing (far, PLAN, 0, bag, NULL);
  ck_assert_double_eq (shot_of (fitted, 0)->swing, 1);
}
END_TEST

START_TEST (a_swing_that_is_no_share_of_a_full_one_is_refused)
{
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (Hole) hole = two_shots (bag);
  GError *error = NULL;
  const double swings[] = { 0, -0.5, 1.01, NAN, INFINITY };
  for (size_t i = 0; i < G_N_ELEMENTS (swings); i++)
    expect_refused (edit_set_swing (hole, PLAN, 0, swings[i], bag, &error), &error, EDIT_ERROR, "1 to 100 %");
  expect_refused (edit_fit_swing (hole, PLAN, 0, NULL, &error), &error, EDIT_ERROR, "no bag");
}
END_TEST

START_TEST (a_curve_that_the_club_cannot_fly_is_refused_and_leaves_the_plan)
{
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (Hole) hole = two_shots (bag);
  g_autoptr (Hole) iron = edit_choose_club (hole, PLAN, 0, "7 iron", bag);
  GError *error = NULL;
  expect_refused (edit_set_shape (iron, PLAN, 0, SHOT_DRAW, -125, bag, &error), &error, ODDS_ERROR, "give less curve");
}
END_TEST

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
  expect_refused (edit_set_shape (hole, PLAN, 0, SHOT_DRAW, -201, NULL, &error), &error, EDIT_ERROR, "curves that far");
  expect_refused (edit_set_shape (hole, PLAN, 0, SHOT_DRAW, INFINITY, NULL, &error), &error, EDIT_ERROR, "curves that far");
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
  tcase_add_test (all, a_ball_that_follows_goes_where_the_shape_and_the_swing_take_it);
  tcase_add_test (all, a_fitted_swing_lands_as_far_away_as_the_aim_on_any_day);
  tcase_add_test (all, a_fitted_swing_is_a_full_one_where_the_aim_is_out_of_reach);
  tcase_add_test (all, a_swing_that_is_no_share_of_a_full_one_is_refused);
  tcase_add_test (all, a_curve_that_the_club_cannot_fly_is_refused_and_leaves_the_plan);
  tcase_add_test (all, what_cannot_be_is_refused);
  suite_add_tcase (suite, all);
  return suite;
}
