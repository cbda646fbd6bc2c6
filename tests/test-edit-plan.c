// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: the edits of a plan. */
#include "edit.h"
#include "suite.h"

#include <string.h>

/* New coordinates are rounded to the grid: half of it, and the last bit of a sum. */
#define ROUNDED_M (0.5 * EDIT_GRID_M + 1e-9)

/* ---- building blocks ---- */

static const Part *
point (Kind kind, double x, double y)
{
  Part *part = part_new (kind);
  part->at = vec2 (x, y);
  return part_seal (part);
}

/* A tee, a hole 460 m on, and a plan of these shots, part 2. */
static Hole *
hole_with_shots (const Shot *shots, size_t n_shots)
{
  Part *plan = part_new (KIND_PLAN);
  for (size_t i = 0; i < n_shots; i++)
    part_add_shot (plan, &shots[i]);
  const Part *parts[] = { point (KIND_TEE_MARKER, 0, 0), point (KIND_HOLE_LOCATION, 0, 460), part_seal (plan) };
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  return hole;
}

#define PLAN 2

/* Three shots, each from where the one before lands - where plans of old had the balls: 210, 150 and 100 m with the bag below. */
static Hole *
three_shots (void)
{
  const Shot shots[] = { { .aim = { 0, 210 }, .curve_m = NAN, .swing = 1 },
                         { .from = { 0, 210 }, .aim = { 0, 380 }, .club = (char *)"5 iron", .curve_m = NAN, .swing = 1 },
                         { .from = { 0, 360 }, .aim = { 0, 460 }, .curve_m = NAN, .swing = 1 } };
  return hole_with_shots (shots, G_N_ELEMENTS (shots));
}

/* Of a golfer whom the rough does not trouble. */
static Bag *
small_bag (void)
{
  static const char csv[] = "club,carry_m,surfaces\ndriver,210,tee\n5 iron,150,\n9 iron,100,\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (csv, strlen (csv));
  g_autoptr (Bag) bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  LieTable lies = lie_table_usual ();
  lies.effects[LIE_ROUGH] = lies.effects[LIE_FAIRWAY];
  return bag_with_lies (bag, &lies);
}

static const Shot *
shot_of (const Hole *hole, size_t i)
{
  return &hole_part (hole, PLAN)->shots[i];
}

/* Where a shot of the plan comes to rest, which is not where it lands. */
static Vec2
rest_of (const Hole *hole, size_t i, const Bag *bag)
{
  ShotResult result;
  ck_assert (odds_plan_shot (hole, hole_part (hole, PLAN), i, bag, &result, NULL));
  ck_assert_double_gt (vec2_distance (result.landing, result.rest), 2);
  return result.rest;
}

static void
assert_at (Vec2 point, double x, double y)
{
  ck_assert_double_eq_tol (point.x, x, ROUNDED_M);
  ck_assert_double_eq_tol (point.y, y, ROUNDED_M);
}

/* The edit came to nothing and said so with these words in its sentence. */
static void
expect_refused (Hole *made, GError *error, const char *words)
{
  ck_assert_ptr_null (made);
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  ck_assert_msg (strstr (error->message, words) != NULL, "%s", error->message);
  g_error_free (error);
}

/* ---- known answers ---- */

START_TEST (a_plan_starts_from_the_tee_at_the_hole)
{
  g_autoptr (Hole) bare = hole_with_shots (NULL, 0), hole = edit_start_plan (bare, NULL);
  ck_assert_uint_eq (hole_n_parts (hole), hole_n_parts (bare) + 1);
  const Part *plan = hole_part (hole, hole_n_parts (hole) - 1);
  ck_assert_int_eq (plan->kind, KIND_PLAN);
  ck_assert_uint_eq (plan->n_shots, 1);
  assert_at (plan->shots[0].from, 0, 0);
  assert_at (plan->shots[0].aim, 0, 460);
}
END_TEST

START_TEST (a_hole_without_a_tee_or_a_target_has_no_plan_to_start)
{
  HoleInfo info;
  hole_info_init (&info);
  for (int i = 0; i < 2; i++)
    {
      const Part *parts[] = { point (i == 0 ? KIND_TEE_MARKER : KIND_HOLE_LOCATION, 0, 0) };
      g_autoptr (Hole) hole = hole_new (&info, parts, 1, NULL);
      GError *error = NULL;
      Hole *made = edit_start_plan (hole, &error);
      expect_refused (made, error, i == 0 ? "nothing to aim at" : "no tee");
    }
  hole_info_clear (&info);
}
END_TEST

START_TEST (every_later_ball_that_lay_where_its_shot_ended_follows_a_moved_aim)
{
  g_autoptr (Hole) hole = three_shots ();
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (Hole) moved = edit_move_aim (hole, PLAN, 0, vec2 (210, 0), bag);
  assert_at (shot_of (moved, 0)->aim, 210, 0);
  Vec2 first = rest_of (moved, 0, bag), second = rest_of (moved, 1, bag);
  assert_at (shot_of (moved, 1)->from, first.x, first.y);
  ck_assert_double_gt (first.x, 210);
  assert_at (shot_of (moved, 2)->from, second.x, second.y);
  assert_at (shot_of (moved, 2)->aim, 0, 460);
  assert_at (shot_of (hole, 1)->from, 0, 210);

  g_autoptr (Hole) again = edit_move_aim (moved, PLAN, 0, vec2 (0, 210), bag);
  assert_at (shot_of (again, 1)->from, 0, first.x);
}
END_TEST

START_TEST (later_balls_follow_another_day_and_another_club)
{
  g_autoptr (Hole) old = three_shots ();
  g_autoptr (Bag) bag = small_bag ();
  Day day;
  day_init (&day);
  day.temperature_c = 2;
  g_autoptr (Hole) cold = edit_set_day (old, PLAN, &day, bag, NULL);
  Vec2 first = rest_of (cold, 0, bag), second = rest_of (cold, 1, bag);
  assert_at (shot_of (cold, 1)->from, first.x, first.y);
  assert_at (shot_of (cold, 2)->from, second.x, second.y);
  Vec2 mild = rest_of (old, 0, bag);
  ck_assert_double_lt (first.y, mild.y - 1);

  g_autoptr (Hole) shorter = edit_choose_club (cold, PLAN, 0, "9 iron", bag);
  first = rest_of (shorter, 0, bag);
  assert_at (shot_of (shorter, 1)->from, first.x, first.y);
  ck_assert_double_lt (first.y, 120);
  g_autoptr (Hole) alone = edit_choose_club (cold, PLAN, 0, "9 iron", NULL);
  assert_at (shot_of (alone, 1)->from, shot_of (cold, 1)->from.x, shot_of (cold, 1)->from.y);
}
END_TEST

START_TEST (a_ball_on_the_aim_goes_with_it_and_one_placed_elsewhere_stays)
{
  const Shot shots[] = { { .aim = { 0, 300 }, .curve_m = NAN, .swing = 1 },
                         { .from = { 0.5, 300 }, .aim = { 0, 400 }, .curve_m = NAN, .swing = 1 },
                         { .from = { 40, 350 }, .aim = { 0, 460 }, .curve_m = NAN, .swing = 1 } };
  g_autoptr (Hole) hole = hole_with_shots (shots, G_N_ELEMENTS (shots));
  g_autoptr (Bag) bag = small_bag ();
  Bag *bags[] = { bag, NULL };
  for (size_t i = 0; i < G_N_ELEMENTS (bags); i++)
    {
      g_autoptr (Hole) moved = edit_move_aim (hole, PLAN, 0, vec2 (20, 280), bags[i]);
      assert_at (shot_of (moved, 1)->from, 20, 280);
      assert_at (shot_of (moved, 2)->from, 40, 350);
    }
  g_autoptr (Hole) moved = edit_move_aim (hole, PLAN, 1, vec2 (20, 390), bag);
  assert_at (shot_of (moved, 2)->from, 40, 350);
}
END_TEST

START_TEST (a_shot_is_added_from_where_the_last_one_rests_while_something_is_left)
{
  g_autoptr (Hole) hole = three_shots ();
  g_autoptr (Bag) bag = small_bag ();
  Vec2 rest = rest_of (hole, 2, bag);
  g_autoptr (Hole) four = edit_add_shot (hole, PLAN, bag, NULL);
  ck_assert_uint_eq (hole_part (four, PLAN)->n_shots, 4);
  assert_at (shot_of (four, 3)->from, rest.x, rest.y);
  assert_at (shot_of (four, 3)->aim, 0, 460);

  /* Played from as much nearer the tee the third comes to rest at the hole. */
  g_autoptr (Hole) holed = edit_move_ball (hole, PLAN, 2, vec2 (0, 360 - (rest.y - 460)));
  GError *error = NULL;
  Hole *made = edit_add_shot (holed, PLAN, bag, &error);
  expect_refused (made, error, "nothing is left to play");
}
END_TEST

START_TEST (the_first_shot_of_an_empty_plan_is_added_from_the_tee)
{
  g_autoptr (Hole) hole = hole_with_shots (NULL, 0);
  g_autoptr (Hole) one = edit_add_shot (hole, PLAN, NULL, NULL);
  ck_assert_uint_eq (hole_part (one, PLAN)->n_shots, 1);
  assert_at (shot_of (one, 0)->from, 0, 0);
  assert_at (shot_of (one, 0)->aim, 0, 460);
  ck_assert_ptr_null (edit_remove_shot (hole, PLAN, 0, NULL));
}
END_TEST

START_TEST (the_shot_after_one_taken_out_is_played_from_its_ball_and_the_last_one_stays)
{
  g_autoptr (Hole) hole = three_shots ();
  g_autoptr (Hole) two = edit_remove_shot (hole, PLAN, 1, NULL), one = edit_remove_shot (two, PLAN, 0, NULL);
  assert_at (shot_of (two, 1)->from, 0, 210);
  assert_at (shot_of (two, 1)->aim, 0, 460);
  assert_at (shot_of (one, 0)->from, 0, 0);
  GError *error = NULL;
  Hole *made = edit_remove_shot (one, PLAN, 0, &error);
  expect_refused (made, error, "at least one shot");
  ck_assert_str_eq (shot_of (hole, 1)->club, "5 iron");
}
END_TEST

START_TEST (a_club_is_named_or_left_to_the_aim_with_a_full_swing)
{
  g_autoptr (Hole) hole = three_shots ();
  g_autoptr (Hole) named = edit_choose_club (hole, PLAN, 2, "5 iron", NULL),
                   free_again = edit_choose_club (named, PLAN, 2, NULL, NULL);
  ck_assert_str_eq (shot_of (named, 2)->club, "5 iron");
  ck_assert_ptr_null (shot_of (free_again, 2)->club);
  ck_assert (hole_equal (hole, free_again));
}
END_TEST

START_TEST (what_is_moved_stands_on_the_grid_and_what_stays_is_the_same_hole)
{
  g_autoptr (Hole) hole = three_shots ();
  g_autoptr (Hole) aimed = edit_move_aim (hole, PLAN, 2, vec2 (0.00049, 459.9996), NULL);
  ck_assert_ptr_eq (aimed, hole);
  g_autoptr (Hole) moved = edit_move_ball (hole, PLAN, 2, vec2 (1.23456, 359.99951));
  assert_at (shot_of (moved, 2)->from, 1.235, 360);
  g_autoptr (Hole) same = edit_choose_club (hole, PLAN, 1, "5 iron", NULL);
  ck_assert_ptr_eq (same, hole);
}
END_TEST

START_TEST (a_last_shot_that_cannot_be_flown_is_told_with_its_reason)
{
  const Shot shots[] = { { .aim = { 0, 300 }, .club = (char *)"7 wood", .curve_m = NAN, .swing = 1 } };
  g_autoptr (Hole) hole = hole_with_shots (shots, 1);
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (edit_add_shot (hole, PLAN, bag, &error));
  ck_assert (g_error_matches (error, ODDS_ERROR, ODDS_ERROR_CLUB));
  ck_assert_ptr_nonnull (strstr (error->message, "7 wood"));
  GError *no_bag = NULL;
  Hole *made = edit_add_shot (hole, PLAN, NULL, &no_bag);
  expect_refused (made, no_bag, "no bag");
}
END_TEST

START_TEST (shots_that_were_worked_out_take_the_place_of_the_plans_own_and_fly_as_they_did)
{
  g_autoptr (Hole) hole = three_shots ();
  g_autoptr (Bag) bag = small_bag ();
  ShotResult shots[2];
  const ShotInput first = { .ball = { 0, 0 }, .aim = { 40, 190.00011 }, .club = bag_find (bag, "driver"), .swing = 1, .curve_m = NAN };
  ck_assert (odds_shot (hole, NULL, &first, &shots[0], NULL));
  const ShotInput second = {
    .ball = shots[0].rest, .aim = { 0, 300 }, .club = bag_find (bag, "9 iron"), .swing = 0.87, .curve_m = NAN
  };
  ck_assert (odds_shot (hole, NULL, &second, &shots[1], NULL));
  g_autoptr (Hole) made = edit_take_shots (hole, PLAN, shots, 2, NULL);
  ck_assert_uint_eq (hole_part (made, PLAN)->n_shots, 2);
  assert_at (shot_of (made, 0)->aim, 40, 190);
  assert_at (shot_of (made, 1)->from, shots[0].rest.x, shots[0].rest.y);
  for (size_t i = 0; i < 2; i++)
    {
      ShotResult flown;
      ck_assert (odds_plan_shot (made, hole_part (made, PLAN), i, bag, &flown, NULL));
      ck_assert_str_eq (shot_of (made, i)->club, shots[i].club->name);
      ck_assert_double_lt (vec2_distance (flown.landing, shots[i].landing), 2 * ROUNDED_M);
    }
  ck_assert_uint_eq (hole_part (hole, PLAN)->n_shots, 3);
}
END_TEST

START_TEST (no_shots_take_no_plans_place_and_its_own_shots_change_nothing)
{
  const Shot shots[] = { { .aim = { 0, 200 }, .club = (char *)"driver", .curve_m = NAN, .swing = 1 } };
  g_autoptr (Hole) hole = hole_with_shots (shots, 1);
  g_autoptr (Bag) bag = small_bag ();
  GError *error = NULL;
  Hole *none = edit_take_shots (hole, PLAN, NULL, 0, &error);
  expect_refused (none, error, "at least one shot");
  ShotResult own;
  ck_assert (odds_plan_shot (hole, hole_part (hole, PLAN), 0, bag, &own, NULL));
  g_autoptr (Hole) same = edit_take_shots (hole, PLAN, &own, 1, NULL);
  ck_assert_ptr_eq (same, hole);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit plan");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_plan_starts_from_the_tee_at_the_hole);
  tcase_add_test (known, a_hole_without_a_tee_or_a_target_has_no_plan_to_start);
  tcase_add_test (known, every_later_ball_that_lay_where_its_shot_ended_follows_a_moved_aim);
  tcase_add_test (known, later_balls_follow_another_day_and_another_club);
  tcase_add_test (known, a_ball_on_the_aim_goes_with_it_and_one_placed_elsewhere_stays);
  tcase_add_test (known, a_shot_is_added_from_where_the_last_one_rests_while_something_is_left);
  tcase_add_test (known, the_first_shot_of_an_empty_plan_is_added_from_the_tee);
  tcase_add_test (known, the_shot_after_one_taken_out_is_played_from_its_ball_and_the_last_one_stays);
  tcase_add_test (known, a_club_is_named_or_left_to_the_aim_with_a_full_swing);
  tcase_add_test (known, what_is_moved_stands_on_the_grid_and_what_stays_is_the_same_hole);
  tcase_add_test (known, a_last_shot_that_cannot_be_flown_is_told_with_its_reason);
  tcase_add_test (known, shots_that_were_worked_out_take_the_place_of_the_plans_own_and_fly_as_they_did);
  tcase_add_test (known, no_shots_take_no_plans_place_and_its_own_shots_change_nothing);
  suite_add_tcase (suite, known);
  return suite;
}
