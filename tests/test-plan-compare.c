// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan-compare: the golfer's own plan, and where differences come from. */
#include "plan-compare.h"
#include "plan-holes.h"
#include "suite.h"

#include <math.h>

static Part *
plan_of (const char *const *clubs, const Vec2 *places, size_t n_shots)
{
  Part *plan = part_new (KIND_PLAN);
  for (size_t i = 0; i < n_shots; i++)
    part_add_shot (plan,
                   &(Shot){ .from = places[i], .aim = places[i + 1], .club = (char *)clubs[i], .curve_m = NAN, .swing = 1 });
  return plan;
}

/* The suggested shots as a golfer would have drawn them, so many of them. */
static Part *
drawn_as (const Plan *suggested, size_t n_shots)
{
  Part *plan = part_new (KIND_PLAN);
  for (size_t i = 0; i < n_shots; i++)
    {
      const ShotResult *shot = &suggested->shots[i].shot;
      part_add_shot (
          plan,
          &(Shot){ .from = shot->ball, .aim = shot->aim, .club = shot->club->name, .curve_m = NAN, .swing = shot->swing });
    }
  return plan;
}

static void
make_own (const PlanSolution *solution, const Part *plan, PlanOwn *own)
{
  GError *error = NULL;
  ck_assert_msg (plan_make_own (solution, plan, NULL, own, &error), "%s", error != NULL ? error->message : "");
}

static void
suggest (const PlanSolution *solution, Plan *plan)
{
  ck_assert (plan_make (solution, PLAN_SUGGESTED, plan, NULL));
}

START_TEST (the_suggested_tee_shot_drawn_is_the_suggested_plan)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  Plan suggested;
  PlanOwn own;
  suggest (solution, &suggested);
  Part *drawn = drawn_as (&suggested, 1);
  make_own (solution, drawn, &own);
  ck_assert_uint_eq (own.plan.n_shots, 1);
  ck_assert_double_eq_tol (own.plan.strokes, suggested.strokes, 1e-6);
  ck_assert_double_eq_tol (own.as_drawn, suggested.strokes, 1e-6);
  ck_assert_double_eq_tol (own.given_away[0], 0, 1e-6);
  ck_assert_double_eq_tol (own.plan.shots[0].next_costs, suggested.shots[0].next_costs, 1e-6);
  for (int score = 0; score <= PLAN_MOST_SCORE; score++)
    ck_assert_double_eq_tol (own.plan.chances[score], suggested.chances[score], 1e-6);
  PlanDifference difference;
  ck_assert (plan_difference (solution, &suggested, &own.plan, &difference, NULL));
  ck_assert_double_eq_tol (difference.strokes, 0, 1e-6);
  g_autofree char *words = plan_difference_words (&difference, NULL);
  ck_assert_str_eq (words, "no difference");
  /* A hundredth of a stroke of which no cause has its half. */
  PlanDifference little = { .strokes = 0.009 };
  little.causes.strokes[0] = little.causes.strokes[1] = 0.0045;
  g_autofree char *few = plan_difference_words (&little, NULL);
  ck_assert_str_eq (few, "hardly any difference");
  part_unref (drawn);
}
END_TEST

/* Best play may always play what is drawn, so that nothing drawn is cheaper; balls taken together cost a hundredth. */
START_TEST (what_is_drawn_costs_no_less_than_best_play_and_its_parts_add_up)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  Plan suggested;
  suggest (solution, &suggested);
  const char *const clubs[] = { "5 iron", "wedge", NULL };
  const Vec2 places[] = { { 0, 0 }, { 0, 150 }, { 4, 240 }, { 0, 330 } };
  Part *drawn = plan_of (clubs, places, 3);
  PlanOwn own;
  make_own (solution, drawn, &own);
  ck_assert_uint_eq (own.plan.n_shots, 3);
  ck_assert_double_ge (own.plan.strokes, suggested.strokes - 1e-6);
  ck_assert_double_gt (own.as_drawn, own.plan.strokes + 0.2); /* a wedge to nowhere */
  double sum = suggested.strokes;
  for (size_t i = 0; i < own.plan.n_shots; i++)
    {
      sum += own.given_away[i];
      ck_assert_msg (own.given_away[i] > -0.01, "shot %zu gives away %g", i + 1, own.given_away[i]);
    }
  ck_assert_double_eq_tol (sum, own.as_drawn, 1e-6);
  ck_assert_double_eq_tol (own.given_away[0], own.plan.strokes - suggested.strokes, 1e-6);
  ck_assert_double_gt (own.given_away[1], 0.2);
  part_unref (drawn);
}
END_TEST

/* All of a plan drawn as it is suggested: only the aim, which stays where it is drawn, costs a little from elsewhere. */
START_TEST (the_suggested_plan_drawn_as_a_whole_costs_little_more)
{
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 330, NULL, 0);
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  Plan suggested;
  PlanOwn own;
  suggest (solution, &suggested);
  ck_assert_uint_ge (suggested.n_shots, 2);
  Part *drawn = drawn_as (&suggested, suggested.n_shots);
  make_own (solution, drawn, &own);
  ck_assert_double_ge (own.as_drawn, suggested.strokes - 0.01);
  ck_assert_double_lt (own.as_drawn, suggested.strokes + 0.25);
  part_unref (drawn);
}
END_TEST

START_TEST (the_parts_of_a_difference_add_up_to_it)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  Plan suggested;
  PlanOwn own;
  suggest (solution, &suggested);
  const char *const clubs[] = { "driver" };
  const Vec2 places[] = { { 0, 0 }, { 20, 200 } }; /* at the pond */
  Part *drawn = plan_of (clubs, places, 1);
  make_own (solution, drawn, &own);
  PlanDifference difference, back;
  ck_assert (plan_difference (solution, &suggested, &own.plan, &difference, NULL));
  ck_assert (plan_difference (solution, &own.plan, &suggested, &back, NULL));
  double sum = 0;
  for (int cause = 0; cause < N_PLAN_CAUSES; cause++)
    {
      sum += difference.causes.strokes[cause];
      ck_assert_double_eq_tol (difference.causes.strokes[cause], -back.causes.strokes[cause], 1e-12);
    }
  ck_assert_double_eq_tol (sum, difference.strokes, 1e-9);
  ck_assert_double_eq_tol (difference.strokes, own.plan.strokes - suggested.strokes, 1e-6);
  for (int cause = PLAN_CAUSE_PENALTY + 1; cause < N_PLAN_CAUSES; cause++)
    ck_assert_double_lt (difference.causes.strokes[cause], difference.causes.strokes[PLAN_CAUSE_PENALTY]);
  g_autofree char *words = plan_difference_words (&difference, NULL);
  ck_assert_msg (strstr (words, " more: penalties +") != NULL, "%s", words);
  part_unref (drawn);
}
END_TEST

START_TEST (the_longest_club_is_no_plan_where_it_carries_past_the_hole)
{
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  double lengths_m[] = { 400, 110 };
  for (size_t i = 0; i < G_N_ELEMENTS (lengths_m); i++)
    {
      g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, lengths_m[i], NULL, 0);
      g_autoptr (PlanSolution) solution = solved (hole, bag, 8);
      Plan suggested, lay_up, longest;
      suggest (solution, &suggested);
      ck_assert (!plan_is_apart (solution, &suggested, &suggested));
      ck_assert (plan_make (solution, PLAN_ALL_OUT, &longest, NULL));
      ck_assert_int_eq (longest.shots[0].shot.carry_m > PLAN_PAST_THE_HOLE * lengths_m[i], i == 1);
      bool is_other = longest.shots[0].shot.club != suggested.shots[0].shot.club;
      ck_assert_int_eq (plan_is_apart (solution, &suggested, &longest), i == 0 && is_other);
      if (i == 0)
        ck_assert (plan_make (solution, PLAN_LAY_UP, &lay_up, NULL) && plan_is_apart (solution, &suggested, &lay_up));
    }
}
END_TEST

START_TEST (a_shape_of_the_golfer_s_own_is_flown_as_drawn)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  Plan suggested;
  PlanOwn own;
  suggest (solution, &suggested);
  Part *drawn = part_new (KIND_PLAN);
  part_add_shot (
      drawn,
      &(Shot){
          .from = { 0, 0 }, .aim = { -6, 190 }, .club = (char *)"driver", .shape = SHOT_DRAW, .curve_m = NAN, .swing = 0.9 });
  make_own (solution, drawn, &own);
  ck_assert_int_eq (own.plan.shots[0].shot.shape, SHOT_DRAW);
  ck_assert_double_gt (own.plan.strokes, suggested.strokes);
  ck_assert_double_lt (own.plan.strokes, suggested.strokes + 1);
  part_unref (drawn);
}
END_TEST

static void
expect_refusal (const PlanSolution *solution, Part *plan, const gint *cancel, PlanError code)
{
  PlanOwn own;
  GError *error = NULL;
  ck_assert (!plan_make_own (solution, plan, cancel, &own, &error));
  ck_assert_msg (g_error_matches (error, PLAN_ERROR, code), "%s", error->message);
  g_error_free (error);
  part_unref (plan);
}

START_TEST (a_plan_that_cannot_be_valued_is_refused_in_a_sentence)
{
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 150, NULL, 0);
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 8);
  const char *const clubs[] = { "broom" }, *const iron[] = { "5 iron" };
  const Vec2 places[] = { { 0, 0 }, { 0, 150 } };
  gint is_cancelled = 1;
  expect_refusal (solution, part_new (KIND_PLAN), NULL, PLAN_ERROR_TARGET);
  expect_refusal (solution, plan_of (clubs, places, 1), NULL, PLAN_ERROR_CLUB);
  expect_refusal (solution, plan_of (iron, places, 1), &is_cancelled, PLAN_ERROR_CANCELLED);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-compare");
  TCase *own = tcase_create ("own plan");
  tcase_set_timeout (own, 0);
  tcase_add_test (own, the_suggested_tee_shot_drawn_is_the_suggested_plan);
  tcase_add_test (own, what_is_drawn_costs_no_less_than_best_play_and_its_parts_add_up);
  tcase_add_test (own, the_suggested_plan_drawn_as_a_whole_costs_little_more);
  tcase_add_test (own, the_parts_of_a_difference_add_up_to_it);
  tcase_add_test (own, the_longest_club_is_no_plan_where_it_carries_past_the_hole);
  tcase_add_test (own, a_shape_of_the_golfer_s_own_is_flown_as_drawn);
  tcase_add_test (own, a_plan_that_cannot_be_valued_is_refused_in_a_sentence);
  suite_add_tcase (suite, own);
  return suite;
}
