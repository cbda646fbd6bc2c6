// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: the clubs beside one another, the number to play and the side to miss on. */
#include "drawn.h"
#include "plan.h"
#include "suite.h"

#include <string.h>

static StrokesTable *scratch;
static Bag *bag;

static Bag *
bag_of (const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (GError) error = NULL;
  Bag *read = bag_read_bytes (bytes, "bag", LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (read != NULL, "%s", error != NULL ? error->message : "");
  return read;
}

static void
set_up (void)
{
  scratch = strokes_table_new (LEVEL_SCRATCH_MEN);
  bag = bag_of (
      "club,carry_m,surfaces\ndriver,215,tee\n3 wood,190,\n5 iron,160,\n6 iron,150,\n7 iron,140,\n8 iron,130,\nwedge,100,\n");
}

static void
tear_down (void)
{
  strokes_table_free (scratch);
  bag_unref (bag);
}

/* A green 40 m deep about a hole 150 m away, and water: before it, behind it, left or right of it, or none. */
typedef enum
{
  DRY,
  BEFORE,
  BEHIND,
  LEFT,
  RIGHT
} Where;

static Hole *
green_with_water (Where where)
{
  Parts parts = { .ground = KIND_FIRST_CUT };
  add_box (&parts, KIND_GREEN, -18, 132, 18, 168);
  if (where == BEFORE)
    add_box (&parts, KIND_WATER, -60, 100, 60, 145);
  if (where == BEHIND)
    add_box (&parts, KIND_WATER, -60, 155, 60, 200);
  if (where == LEFT)
    add_box (&parts, KIND_WATER, -60, 100, -8, 200);
  if (where == RIGHT)
    add_box (&parts, KIND_WATER, 8, 100, 60, 200);
  add_hole (&parts, 0, 150);
  return hole_of (&parts);
}

static Approach
approach_to (const Hole *hole)
{
  PlanInput input = { .hole = hole, .table = scratch };
  Approach approach;
  g_autoptr (GError) error = NULL;
  ck_assert_msg (plan_approach (&input, bag, &approach, &error), "%s", error != NULL ? error->message : "");
  return approach;
}

/* ---- the number ---- */

START_TEST (with_water_in_front_the_number_is_past_the_hole_and_the_words_say_so)
{
  g_autoptr (Hole) hole = green_with_water (BEFORE);
  Approach approach = approach_to (hole);
  ck_assert_double_gt (approach.past_m, 2);
  ck_assert_int_eq (approach.dearest, MISS_SHORT);
  ck_assert_double_gt (approach.at_hole_strokes, approach.best.strokes + 0.01);
  g_autofree char *words = approach_words (&approach, UNIT_METRES, NULL);
  ck_assert_ptr_nonnull (strstr (words, "past the hole"));
  ck_assert_ptr_nonnull (strstr (words, "short costs"));
}
END_TEST

START_TEST (with_water_behind_the_number_is_short_of_the_hole_and_the_words_say_so)
{
  g_autoptr (Hole) hole = green_with_water (BEHIND);
  Approach approach = approach_to (hole);
  ck_assert_double_lt (approach.past_m, -2);
  ck_assert_int_eq (approach.dearest, MISS_LONG);
  g_autofree char *words = approach_words (&approach, UNIT_METRES, NULL);
  ck_assert_ptr_nonnull (strstr (words, "short of the hole"));
  ck_assert_ptr_nonnull (strstr (words, "long costs"));
}
END_TEST

START_TEST (water_on_one_side_moves_the_aim_to_the_other)
{
  g_autoptr (Hole) left = green_with_water (LEFT);
  g_autoptr (Hole) right = green_with_water (RIGHT);
  Approach one = approach_to (left), other = approach_to (right);
  ck_assert_double_gt (one.right_m, 2);
  ck_assert_double_lt (other.right_m, -2);
  ck_assert_double_eq_tol (one.right_m, -other.right_m, 1);
  ck_assert_double_eq_tol (one.best.strokes, other.best.strokes, 5e-3);
  ck_assert_int_eq (one.dearest, MISS_LEFT);
  ck_assert_int_eq (other.dearest, MISS_RIGHT);
  ck_assert_int_ne (one.safest, MISS_LEFT);
}
END_TEST

START_TEST (on_a_green_without_trouble_the_number_is_at_the_hole)
{
  g_autoptr (Hole) hole = green_with_water (DRY);
  Approach approach = approach_to (hole);
  ck_assert_double_lt (fabs (approach.past_m), 3);
  ck_assert_double_lt (fabs (approach.right_m), 1);
  ck_assert_double_lt (approach.at_hole_strokes - approach.best.strokes, 0.02);
  /* On the standard day over level ground a distance plays as it is, but for what the first cut takes off the carry. */
  double share = lie_table_usual ().effects[LIE_FIRST_CUT].carry_factor;
  ck_assert_double_eq_tol (approach.plays_m, vec2_length (approach.best.landing) / share, 0.01);
}
END_TEST

START_TEST (the_club_that_fits_stands_between_those_that_bracket_it)
{
  g_autoptr (Hole) hole = green_with_water (DRY);
  Approach approach = approach_to (hole);
  ck_assert_ptr_nonnull (approach.club);
  ck_assert_double_lt (fabs (approach.club->carry_m - approach.plays_m), 5);
  ck_assert_double_gt (approach.longer->carry_m, approach.club->carry_m);
  ck_assert_double_lt (approach.shorter->carry_m, approach.club->carry_m);
  /* A part swing with the longer one may cost a little less, but not so much that it were worth it. */
  ck_assert_double_ge (approach.longer_strokes + AIM_PART_SWING_STROKES, approach.club_strokes);
  ck_assert_double_ge (approach.shorter_strokes, approach.club_strokes);
}
END_TEST

START_TEST (words_are_handed_to_who_translates_them)
{
  Approach approach = { .plays_m = 150, .past_m = -4, .right_m = 3, .misses = { 3, 2.5, 2.5, 2.5 }, .safest = MISS_LONG };
  g_autofree char *metres = approach_words (&approach, UNIT_METRES, NULL);
  ck_assert_str_eq (
      metres,
      "Plays 150, finish 4 short of the hole, 3 right of it. Long is the side to miss on: short costs 0.5 strokes more.");
  approach = (Approach){ .plays_m = 150 * 0.9144, .past_m = 0.2, .right_m = -0.4, .misses = { 2.5, 2.5, 2.5, 2.5 } };
  g_autofree char *yards = approach_words (&approach, UNIT_YARDS, NULL);
  ck_assert_str_eq (yards, "Plays 150, finish at the hole. No side is better to miss on than another.");
}
END_TEST

/* ---- clubs beside one another ---- */

static ClubChoice *
choices_of (const Hole *hole, const Bag *from, size_t *n)
{
  PlanInput input = { .hole = hole, .table = scratch };
  g_autoptr (GError) error = NULL;
  ClubChoice *choices = plan_clubs (&input, from, n, &error);
  ck_assert_msg (choices != NULL, "%s", error != NULL ? error->message : "");
  return choices;
}

START_TEST (the_club_to_choose_comes_first_and_the_others_cost_more)
{
  g_autoptr (Hole) hole = green_with_water (BEFORE);
  size_t n;
  g_autofree ClubChoice *choices = choices_of (hole, bag, &n);
  ck_assert_uint_eq (n, 6); /* the driver is for the tee */
  ck_assert_double_eq (choices[0].over_best, 0);
  for (size_t i = 0; i < n; i++)
    {
      ck_assert_str_ne (choices[i].club->name, "driver");
      ck_assert_double_ge (choices[i].over_best, -AIM_PART_SWING_STROKES);
      ck_assert_double_eq_tol (choices[i].outcome.again_strokes, choices[0].outcome.again_strokes, 1e-12);
      ck_assert_uint_gt (choices[i].outcome.n_outcomes, 0);
      if (choices[i].best.swing == 1)
        ck_assert_double_eq_tol (choices[i].outcome.strokes, choices[i].best.strokes, 0.02);
    }
  ck_assert_double_gt (choices[n - 1].over_best, 0.2);
}
END_TEST

START_TEST (one_club_more_never_makes_the_bag_dearer)
{
  g_autoptr (Hole) hole = green_with_water (BEFORE);
  g_autoptr (Bag) few = bag_of ("club,carry_m\n3 wood,190\n7 iron,140\nwedge,100\n");
  g_autoptr (Bag) more = bag_of ("club,carry_m\n3 wood,190\n6 iron,150\n7 iron,140\nwedge,100\n");
  size_t n_few, n_more;
  g_autofree ClubChoice *of_few = choices_of (hole, few, &n_few);
  g_autofree ClubChoice *of_more = choices_of (hole, more, &n_more);
  double least_few = of_few[0].best.strokes + (of_few[0].best.swing < 1 ? AIM_PART_SWING_STROKES : 0);
  double least_more = of_more[0].best.strokes + (of_more[0].best.swing < 1 ? AIM_PART_SWING_STROKES : 0);
  ck_assert_double_le (least_more, least_few + 1e-9);
}
END_TEST

/* ---- edges ---- */

START_TEST (a_hole_that_no_club_reaches_is_told_so)
{
  Parts parts = { .ground = KIND_FIRST_CUT };
  add_hole (&parts, 0, 400);
  g_autoptr (Hole) hole = hole_of (&parts);
  PlanInput input = { .hole = hole, .table = scratch };
  Approach approach;
  g_autoptr (GError) error = NULL;
  ck_assert (!plan_approach (&input, bag, &approach, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_REACH));
}
END_TEST

START_TEST (a_bag_of_one_club_is_enough_and_one_for_the_tee_alone_is_not)
{
  g_autoptr (Hole) hole = green_with_water (DRY);
  g_autoptr (Bag) one = bag_of ("club,carry_m\n6 iron,150\n");
  g_autoptr (Bag) none = bag_of ("club,carry_m,surfaces\ndriver,200,tee\n");
  PlanInput input = { .hole = hole, .table = scratch };
  Approach approach;
  g_autoptr (GError) error = NULL;
  ck_assert (plan_approach (&input, one, &approach, NULL));
  ck_assert_ptr_null (approach.longer);
  ck_assert_ptr_null (approach.shorter);
  ck_assert (!plan_approach (&input, none, &approach, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CLUB));
  g_clear_error (&error);
  size_t n;
  ck_assert_ptr_null (plan_clubs (&input, none, &n, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CLUB));
}
END_TEST

START_TEST (a_pitch_from_beside_the_green_has_a_number_too)
{
  g_autoptr (Hole) hole = green_with_water (DRY);
  PlanInput input = { .hole = hole, .table = scratch, .ball = { 0, 110 } };
  Approach approach;
  ck_assert (plan_approach (&input, bag, &approach, NULL));
  ck_assert_str_eq (approach.club->name, "wedge");
  ck_assert_double_lt (fabs (approach.past_m), 4);
  ck_assert_double_lt (approach.plays_m, 41);
}
END_TEST

START_TEST (a_cancelled_comparison_ends)
{
  g_autoptr (Hole) hole = green_with_water (DRY);
  int cancelled = 1;
  PlanInput input = { .hole = hole, .table = scratch, .cancelled = &cancelled };
  Approach approach;
  size_t n;
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (plan_clubs (&input, bag, &n, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CANCELLED));
  ck_assert (!plan_approach (&input, bag, &approach, NULL));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-approach");
  TCase *tests = tcase_create ("approach");
  tcase_add_unchecked_fixture (tests, set_up, tear_down);
  tcase_add_test (tests, with_water_in_front_the_number_is_past_the_hole_and_the_words_say_so);
  tcase_add_test (tests, with_water_behind_the_number_is_short_of_the_hole_and_the_words_say_so);
  tcase_add_test (tests, water_on_one_side_moves_the_aim_to_the_other);
  tcase_add_test (tests, on_a_green_without_trouble_the_number_is_at_the_hole);
  tcase_add_test (tests, the_club_that_fits_stands_between_those_that_bracket_it);
  tcase_add_test (tests, words_are_handed_to_who_translates_them);
  tcase_add_test (tests, the_club_to_choose_comes_first_and_the_others_cost_more);
  tcase_add_test (tests, one_club_more_never_makes_the_bag_dearer);
  tcase_add_test (tests, a_hole_that_no_club_reaches_is_told_so);
  tcase_add_test (tests, a_bag_of_one_club_is_enough_and_one_for_the_tee_alone_is_not);
  tcase_add_test (tests, a_pitch_from_beside_the_green_has_a_number_too);
  tcase_add_test (tests, a_cancelled_comparison_ends);
  suite_add_tcase (suite, tests);
  return suite;
}
