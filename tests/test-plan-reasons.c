// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan-reasons: why a shot, at what wind another club, how sure. */
#include "plan-reasons.h"
#include "plan-holes.h"
#include "suite.h"

#include <math.h>
#include <string.h>

static void
make (const PlanSolution *solution, Plan *plan, PlanReason *reason)
{
  GError *error = NULL;
  ck_assert_msg (plan_make (solution, PLAN_SUGGESTED, plan, &error), "%s", error != NULL ? error->message : "");
  ck_assert_msg (plan_reason (solution, &plan->shots[0], reason, &error), "%s", error != NULL ? error->message : "");
}

static double
sum_of (const PlanCauses *causes)
{
  double sum = 0;
  for (int i = 0; i < N_PLAN_CAUSES; i++)
    sum += causes->strokes[i];
  return sum;
}

/* ---- reasons ---- */

START_TEST (causes_add_up_to_the_strokes_and_to_the_differences)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  Plan plan;
  PlanReason reason;
  make (solution, &plan, &reason);
  ck_assert_double_eq_tol (1 + sum_of (&reason.causes), plan.shots[0].strokes, 1e-9);
  ck_assert_ptr_nonnull (reason.next.club);
  ck_assert_double_eq_tol (sum_of (&reason.next.causes), reason.next.costs, 1e-9);
  ck_assert_double_eq_tol (reason.next.costs, plan.shots[0].next_costs, 1e-9);
  ck_assert_ptr_nonnull (reason.straight.club);
  ck_assert_double_eq_tol (reason.straight.costs, plan.shots[0].straight_costs, 1e-9);
  ck_assert_double_eq_tol (sum_of (&reason.straight.causes), reason.straight.costs, 1e-9);
  ck_assert_double_ge (reason.next.costs, -5e-4);
}
END_TEST

/* Everything but out of bounds in a straight line: its cause is its share of balls, each the whole shot and a stroke again. */
START_TEST (the_cause_of_a_ball_out_of_bounds_is_the_shot_again_and_a_stroke)
{
  const Part *parts[] = { rectangle (KIND_OUT_OF_BOUNDS, (Box){ 12, -40, 200, 300 }),
                          rectangle (KIND_OUT_OF_BOUNDS, (Box){ -200, -40, -12, 300 }) };
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 150, parts, 2);
  g_autoptr (Bag) bag = bag_read (FIGURES, "5 iron,150,7,8,25\n");
  g_autoptr (PlanSolution) solution = solved (hole, bag, 3);
  g_autoptr (StrokesTable) table = strokes_table_new (LEVEL_SCRATCH_MEN);
  Plan plan;
  PlanReason reason;
  make (solution, &plan, &reason);
  const PlanShot *shot = &plan.shots[0];
  ck_assert_double_eq_tol (shot->penalty, 2 * normal_below (-12 / 8.0 / shot->shot.swing), 0.02);
  double least = shot->penalty * (1 + shot->strokes - strokes_to_hole (table, LIE_FAIRWAY, 60));
  double most = shot->penalty * (1 + shot->strokes - strokes_to_hole (table, LIE_FAIRWAY, 8));
  ck_assert_double_gt (reason.causes.strokes[PLAN_CAUSE_PENALTY], least);
  ck_assert_double_lt (reason.causes.strokes[PLAN_CAUSE_PENALTY], most);
  ck_assert_int_eq (reason.risk.lie, LIE_OUT_OF_BOUNDS);
  ck_assert_double_eq_tol (reason.risk.chance, shot->penalty, 1e-9);
}
END_TEST

START_TEST (water_and_its_margin_are_one_danger_by_the_shorter_name)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  Plan plan;
  PlanReason reason;
  make (solution, &plan, &reason);
  const PlanDanger *danger = &reason.straight.danger;
  ck_assert_int_eq (danger->lie, LIE_PENALTY);
  ck_assert_int_ge (danger->part, 0);
  ck_assert_str_eq (hole_part (hole, (size_t)danger->part)->name, "pond");
  ck_assert_double_eq_tol (danger->other_chance, reason.straight.penalty, 1e-9);
  ck_assert_double_eq_tol (danger->chance, plan.shots[0].penalty, 1e-9);
  ck_assert_double_lt (reason.right_m, -PLAN_STRAIGHT_M);
  g_autofree char *words = plan_reason_words (solution, &plan.shots[0], &reason, UNIT_YARDS, NULL);
  ck_assert_msg (strstr (words, "better than straight at the hole, which") != NULL && strstr (words, "the pond") != NULL, "%s",
                 words);
  ck_assert_msg (strstr (words, "margin") == NULL, "%s", words);
}
END_TEST

START_TEST (on_open_ground_the_aim_is_straight_and_no_trouble_is_told)
{
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 150, NULL, 0);
  g_autoptr (Bag) bag = bag_read (FIGURES, "5 iron,150,7,8,25\n");
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  Plan plan;
  PlanReason reason;
  make (solution, &plan, &reason);
  ck_assert_ptr_null (reason.next.club);
  ck_assert_ptr_null (reason.straight.club);
  ck_assert_int_eq (reason.risk.lie, LIE_NONE);
  ck_assert_double_eq_tol (reason.causes.strokes[PLAN_CAUSE_PENALTY] + reason.causes.strokes[PLAN_CAUSE_TROUBLE], 0, 1e-12);
  ck_assert_double_lt (reason.causes.strokes[PLAN_CAUSE_GREEN], 0);
  g_autofree char *words = plan_reason_words (solution, &plan.shots[0], &reason, UNIT_METRES, NULL);
  ck_assert_msg (strstr (words, ", at the flag (150 m). It finds the green ") != NULL, "%s", words);
  ck_assert_msg (strstr (words, "No trouble is in play.") != NULL, "%s", words);
}
END_TEST

START_TEST (what_a_shot_leaves_is_told_as_the_plan_shows_it)
{
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 300, NULL, 0);
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  Plan plan;
  PlanReason reason;
  char left[UNITS_TEXT_SIZE];
  make (solution, &plan, &reason);
  ck_assert_uint_gt (plan.n_shots, 1);
  units_print_length (plan.shots[0].shot.left_m, UNIT_YARDS, left, sizeof left);
  g_autofree char *words = plan_reason_words (solution, &plan.shots[0], &reason, UNIT_YARDS, NULL);
  g_autofree char *leaves = g_strdup_printf (" It leaves %s, from the fairway ", left);
  ck_assert_msg (strstr (words, leaves) != NULL, "not \"%s\": %s", leaves, words);
}
END_TEST

/* From so much dearer on, other clubs are looked at but roughly. */
#define ROUGHLY 0.25

START_TEST (what_another_club_costs_is_told_as_the_plan_shows_it)
{
  const Part *parts[] = { rectangle (KIND_BUNKER, (Box){ -14, 108, 10, 118 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 132, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  Plan plan;
  PlanReason reason;
  make (solution, &plan, &reason);
  for (size_t i = 0; i < plan.n_shots; i++)
    {
      ck_assert (plan_reason (solution, &plan.shots[i], &reason, NULL));
      ck_assert_ptr_eq (reason.next.club, plan.shots[i].next_club);
      ck_assert_double_eq_tol (reason.next.costs, plan.shots[i].next_costs, 1e-9);
    }
  ck_assert_double_gt (plan.shots[0].next_costs, ROUGHLY);
}
END_TEST

/* ---- edges ---- */

/* A plan with its reasons, or one sentence. */
static void
expect_plan_or_sentence (const Hole *hole, const Bag *bag)
{
  GError *error = NULL;
  g_autoptr (PlanSolution) solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 8 }, &error);
  Plan plan;
  if (solution == NULL || !plan_make (solution, PLAN_SUGGESTED, &plan, &error))
    {
      ck_assert_ptr_nonnull (error);
      ck_assert_uint_gt (strlen (error->message), 10);
      g_error_free (error);
      return;
    }
  for (size_t i = 0; i < plan.n_shots; i++)
    {
      PlanReason reason;
      PlanSure sure;
      ck_assert (plan_reason (solution, &plan.shots[i], &reason, &error)
                 && plan_sureness (solution, &plan.shots[i], &sure, &error));
      ck_assert_double_eq_tol (1 + sum_of (&reason.causes), plan.shots[i].strokes, 1e-6);
      ck_assert (isfinite (reason.left_m) && isfinite (sure.ranks[0].chance));
      g_autofree char *why = plan_reason_words (solution, &plan.shots[i], &reason, UNIT_YARDS, NULL);
      g_autofree char *how_sure = plan_sureness_words (&sure, NULL);
      ck_assert_msg (strstr (why, "nan") == NULL && strstr (why, "inf") == NULL, "%s", why);
      ck_assert_uint_gt (strlen (how_sure), 10);
    }
}

START_TEST (hopeless_holes_and_bags_get_a_plan_with_its_reasons_or_a_sentence)
{
  static const Kind kinds[] = { KIND_PENALTY_AREA, KIND_OUT_OF_BOUNDS, KIND_TREES };
  g_autoptr (Bag) wedge = bag_read (FIGURES, "wedge,60,5,5,50\n"), few = bag_read (FIGURES, FEW_CLUBS);
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (Hole) hole = hole_with (kinds[i], 300, NULL, 0);
      expect_plan_or_sentence (hole, wedge); /* an island that no club reaches */
      expect_plan_or_sentence (hole, few);
    }
  const Part *greens[] = { rectangle (KIND_GREEN, (Box){ 30, 120, 55, 150 }) };
  g_autoptr (Hole) two_greens = hole_with (KIND_ROUGH, 150, greens, 1);
  expect_plan_or_sentence (two_greens, few);
  expect_plan_or_sentence (two_greens, wedge);
}
END_TEST

/* ---- wind ---- */

/* Water across the hole that the driver just reaches and the 5 iron does not: down the wind the shorter club is best. */
static Hole *
water_across (void)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -40, 20, 40, 320 }), rectangle (KIND_PENALTY_AREA, (Box){ -60, 236, 60, 262 }) };
  return hole_with (KIND_ROUGH, 330, parts, G_N_ELEMENTS (parts));
}

typedef struct
{
  int n_calls;
  double last;
} Heard;

static void
hear (double share, void *data)
{
  Heard *heard = data;
  ck_assert_double_gt (share, heard->last);
  ck_assert_double_le (share, 1);
  heard->last = share;
  heard->n_calls++;
}

START_TEST (another_club_becomes_best_where_the_wind_carries_the_ball_to_the_water)
{
  g_autoptr (Hole) hole = water_across ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 8);
  Heard heard = { 0, 0 };
  PlanWindQuestion question = { .progress = hear, .data = &heard };
  PlanWind wind;
  GError *error = NULL;
  ck_assert_msg (plan_wind (solution, PLAN_WIND_ALONG, &question, &wind, &error), "%s", error != NULL ? error->message : "");
  ck_assert_str_eq (wind.club->name, "driver");
  ck_assert_double_eq_tol (wind.now_mps, 0, 1e-12);
  ck_assert_ptr_null (wind.more.club);
  ck_assert_ptr_nonnull (wind.less.club);
  ck_assert_str_eq (wind.less.club->name, "5 iron");
  ck_assert_double_lt (wind.less.at_mps, 0);
  ck_assert_int_le (wind.n_solves, PLAN_MOST_WIND_SOLVES);
  ck_assert_int_eq (heard.n_calls, wind.n_solves);
  g_autofree char *words = plan_wind_words (&wind, UNIT_YARDS, NULL);
  ck_assert_msg (g_str_has_prefix (words, "driver until the tail wind reaches ")
                     && g_str_has_suffix (words, " mph, then the 5 iron."),
                 "%s", words);

  /* A mile per hour to either side of it the plan says the same. */
  for (int i = -1; i <= 1; i += 2)
    {
      Conditions day = conditions_standard ();
      day.wind.to_mps = vec2 (0, -wind.less.at_mps + i * 1.5 * PLAN_WIND_FINE_MPS);
      g_autoptr (PlanSolution) then = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 8, .conditions = &day }, NULL);
      Plan plan;
      ck_assert (plan_make (then, PLAN_SUGGESTED, &plan, NULL));
      ck_assert_str_eq (plan.shots[0].shot.club->name, i > 0 ? "5 iron" : "driver");
    }
}
END_TEST

START_TEST (a_search_of_the_wind_can_be_given_up)
{
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 150, NULL, 0);
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 8);
  gint is_cancelled = 1;
  PlanWind wind;
  GError *error = NULL;
  ck_assert (!plan_wind (solution, PLAN_WIND_ACROSS, &(PlanWindQuestion){ .cancel = &is_cancelled }, &wind, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CANCELLED));
  g_error_free (error);
}
END_TEST

START_TEST (the_wind_is_told_from_where_it_comes_and_whether_it_rises)
{
  Club driver = { .name = (char *)"driver" }, wood = { .name = (char *)"3 wood" }, iron = { .name = (char *)"5 iron" };
  const struct
  {
    PlanWind wind;
    LengthUnit unit;
    const char *words;
  } rows[] = {
    { { PLAN_WIND_ALONG, &driver, 0, { &wood, 12 * PLAN_MPS_PER_MPH }, { NULL, NAN }, 0 },
      UNIT_YARDS,
      "driver until the head wind reaches 12 mph, then the 3 wood." },
    { { PLAN_WIND_ALONG, &driver, 8, { NULL, NAN }, { &wood, 4 }, 0 },
      UNIT_METRES,
      "driver until the head wind drops to 4 m/s, then the 3 wood." },
    { { PLAN_WIND_ALONG, &driver, 0, { &wood, 5 }, { &iron, -3.2 }, 0 },
      UNIT_METRES,
      "driver until the head wind reaches 5 m/s, then the 3 wood; until the tail wind reaches 3.2 m/s, then the 5 iron." },
    { { PLAN_WIND_ALONG, &driver, -8, { &iron, -4 }, { NULL, NAN }, 0 },
      UNIT_METRES,
      "driver until the tail wind drops to 4 m/s, then the 5 iron." },
    { { PLAN_WIND_ACROSS, &driver, 0, { NULL, NAN }, { &iron, -4 }, 0 },
      UNIT_METRES,
      "driver until the wind from the right reaches 4 m/s, then the 5 iron." },
    { { PLAN_WIND_ACROSS, &driver, 0, { &iron, 4 }, { NULL, NAN }, 0 },
      UNIT_METRES,
      "driver until the wind from the left reaches 4 m/s, then the 5 iron." },
    { { PLAN_WIND_ACROSS, &driver, 0, { NULL, NAN }, { NULL, NAN }, 0 }, UNIT_YARDS, "driver in any cross wind up to 25 mph." },
    { { PLAN_WIND_ALONG, &driver, 0, { NULL, NAN }, { NULL, NAN }, 0 },
      UNIT_METRES,
      "driver in any head or tail wind up to 11.2 m/s." },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *words = plan_wind_words (&rows[i].wind, rows[i].unit, NULL);
      ck_assert_str_eq (words, rows[i].words);
    }
}
END_TEST

/* ---- sureness ---- */

/* The words, to be freed with g_free; clubs are gone afterwards. */
static char *
look_sure (const char *header, const char *rows, double length_m, PlanSure *sure)
{
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, length_m, NULL, 0);
  g_autoptr (Bag) bag = bag_read (header, rows);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  Plan plan;
  ck_assert (plan_make (solution, PLAN_SUGGESTED, &plan, NULL));
  ck_assert (plan_sureness (solution, &plan.shots[0], sure, NULL));
  double sum = 0;
  for (size_t i = 0; i < sure->n_ranks; i++)
    {
      sum += sure->ranks[i].chance;
      ck_assert_double_ge (sure->ranks[i].sd, 0);
    }
  ck_assert_double_eq_tol (sum, 1, 1e-12);
  ck_assert_ptr_eq (sure->ranks[0].club, plan.shots[0].shot.club);
  return plan_sureness_words (sure, NULL);
}

START_TEST (two_clubs_alike_are_as_good_as_even)
{
  PlanSure sure;
  g_autofree char *words = look_sure (FIGURES, "one,150,7,8,25\nother,150,7,8,25\n", 170, &sure);
  ck_assert_msg (g_str_has_prefix (words, "As good as even: "), "%s", words);
  ck_assert_uint_eq (sure.n_ranks, 2);
  ck_assert_double_eq_tol (sure.ranks[0].chance, 0.5, 1e-9);
  ck_assert_int_eq (sure.sureness, PLAN_SURENESS_EVEN);
  ck_assert (!sure.is_measured);
}
END_TEST

START_TEST (a_club_that_reaches_is_surely_better_than_one_that_does_not)
{
  PlanSure sure;
  g_autofree char *words = look_sure (FIGURES, "one,150,7,8,25\nother,110,7,8,25\n", 170, &sure);
  ck_assert_int_eq (sure.sureness, PLAN_SURENESS_SURE);
  ck_assert_msg (g_str_has_prefix (words, "Sure: ") && strstr (words, "the one") != NULL, "%s", words);
}
END_TEST

START_TEST (what_is_measured_well_is_ranked_more_surely)
{
  const char *header = FIGURES ",shots,carry_se_m,carry_sd_se_m,side_sd_se_m,side_bias_se_m";
  PlanSure well, badly;
  g_autofree char *first
      = look_sure (header, "one,150,7,8,25,400,0.3,0.2,0.2,0.4\nother,143,7,8,27,400,0.3,0.2,0.2,0.4\n", 170, &well);
  g_autofree char *second = look_sure (header, "one,150,7,8,25,6,6,3,3,6\nother,143,7,8,27,6,6,3,3,6\n", 170, &badly);
  ck_assert_str_ne (first, second);
  ck_assert (well.is_measured && badly.is_measured);
  ck_assert_double_gt (well.ranks[0].chance, badly.ranks[0].chance + 0.05);
  ck_assert_double_gt (badly.ranks[0].sd, 3 * well.ranks[0].sd);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-reasons");
  TCase *reasons = tcase_create ("reasons");
  tcase_set_timeout (reasons, 0);
  tcase_add_test (reasons, causes_add_up_to_the_strokes_and_to_the_differences);
  tcase_add_test (reasons, the_cause_of_a_ball_out_of_bounds_is_the_shot_again_and_a_stroke);
  tcase_add_test (reasons, water_and_its_margin_are_one_danger_by_the_shorter_name);
  tcase_add_test (reasons, on_open_ground_the_aim_is_straight_and_no_trouble_is_told);
  tcase_add_test (reasons, what_a_shot_leaves_is_told_as_the_plan_shows_it);
  tcase_add_test (reasons, what_another_club_costs_is_told_as_the_plan_shows_it);
  suite_add_tcase (suite, reasons);
  TCase *edges = tcase_create ("edges");
  tcase_set_timeout (edges, 0);
  tcase_add_test (edges, hopeless_holes_and_bags_get_a_plan_with_its_reasons_or_a_sentence);
  suite_add_tcase (suite, edges);
  TCase *wind = tcase_create ("wind");
  tcase_set_timeout (wind, 0);
  tcase_add_test (wind, another_club_becomes_best_where_the_wind_carries_the_ball_to_the_water);
  tcase_add_test (wind, a_search_of_the_wind_can_be_given_up);
  tcase_add_test (wind, the_wind_is_told_from_where_it_comes_and_whether_it_rises);
  suite_add_tcase (suite, wind);
  TCase *sure = tcase_create ("sureness");
  tcase_set_timeout (sure, 0);
  tcase_add_test (sure, two_clubs_alike_are_as_good_as_even);
  tcase_add_test (sure, a_club_that_reaches_is_surely_better_than_one_that_does_not);
  tcase_add_test (sure, what_is_measured_well_is_ranked_more_surely);
  suite_add_tcase (suite, sure);
  return suite;
}
