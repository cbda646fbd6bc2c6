// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan-losses: where strokes are lost on a hole. */
#include "plan-losses.h"
#include "plan-holes.h"
#include "suite.h"

#include <math.h>

static void
lose (const Hole *hole, PlanLosses *losses, Plan *plan)
{
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  GError *error = NULL;
  ck_assert_msg (plan_make (solution, PLAN_SUGGESTED, plan, &error), "%s", error != NULL ? error->message : "");
  ck_assert_msg (plan_losses (solution, plan, NULL, losses, &error), "%s", error != NULL ? error->message : "");
}

static double
sum_of (const PlanLosses *losses)
{
  double sum = losses->open_strokes;
  for (int loss = 0; loss < N_PLAN_LOSSES; loss++)
    sum += losses->lost[loss];
  return sum;
}

START_TEST (what_is_lost_and_an_open_hole_add_up_to_the_plans_score)
{
  g_autoptr (Hole) hole = pond_hole ();
  Plan plan;
  PlanLosses losses;
  lose (hole, &losses, &plan);
  ck_assert_double_eq_tol (losses.strokes, plan.strokes, 1e-6);
  ck_assert_double_eq_tol (sum_of (&losses), plan.strokes, 1e-6);
}
END_TEST

START_TEST (an_open_hole_is_what_the_table_says_from_a_tee_at_its_length)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (StrokesTable) table = strokes_table_new (LEVEL_SCRATCH_MEN);
  double length_m;
  Plan plan;
  PlanLosses losses;
  lose (hole, &losses, &plan);
  ck_assert (hole_measured_length (hole, NULL, &length_m));
  ck_assert_double_eq_tol (losses.open_strokes, strokes_to_hole (table, LIE_TEE, length_m), 1e-9);
}
END_TEST

/* On nothing but fairway and green there is nothing else to lose to. */
START_TEST (where_all_is_fairway_only_shots_from_good_lies_gain_or_lose)
{
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 330, NULL, 0);
  Plan plan;
  PlanLosses losses;
  lose (hole, &losses, &plan);
  for (int loss = 0; loss < PLAN_LOSS_GOOD_LIES; loss++)
    ck_assert_double_eq_tol (losses.lost[loss], 0, 1e-9);
  ck_assert_double_eq_tol (losses.lost[PLAN_LOSS_GOOD_LIES], plan.strokes - losses.open_strokes, 1e-6);
}
END_TEST

/* One kind of ground on both sides of a fairway, which every tee shot meets: it is what is lost to, and no other trouble is. */
static void
check_beside (Kind kind, PlanLoss expected)
{
  const Part *parts[] = { rectangle (kind, (Box){ -60, 60, 60, 300 }), rectangle (KIND_FAIRWAY, (Box){ -12, 0, 12, 320 }) };
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 330, parts, G_N_ELEMENTS (parts));
  Plan plan;
  PlanLosses losses;
  lose (hole, &losses, &plan);
  ck_assert_double_gt (losses.lost[expected], 0.01);
  for (int loss = 0; loss < PLAN_LOSS_GOOD_LIES; loss++)
    if (loss != (int)expected)
      ck_assert_double_eq_tol (losses.lost[loss], 0, 1e-9);
  ck_assert_double_eq_tol (sum_of (&losses), plan.strokes, 1e-6);
}

START_TEST (what_lies_beside_the_fairway_is_what_is_lost_to)
{
  check_beside (KIND_DEEP_ROUGH, PLAN_LOSS_ROUGH);
  check_beside (KIND_BUNKER, PLAN_LOSS_SAND);
  check_beside (KIND_TREES, PLAN_LOSS_TREES);
  check_beside (KIND_OUT_OF_BOUNDS, PLAN_LOSS_PENALTY);
}
END_TEST

START_TEST (a_pond_beside_the_fairway_makes_more_lost_to_penalties)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -22, 60, 16, 320 }) };
  g_autoptr (Hole) dry = hole_with (KIND_ROUGH, 330, parts, G_N_ELEMENTS (parts));
  g_autoptr (Hole) wet = pond_hole ();
  Plan plan;
  PlanLosses without, with;
  lose (dry, &without, &plan);
  lose (wet, &with, &plan);
  ck_assert_double_eq_tol (without.lost[PLAN_LOSS_PENALTY], 0, 1e-9);
  ck_assert_double_gt (with.lost[PLAN_LOSS_PENALTY], 0.001);
  ck_assert_double_eq_tol (with.open_strokes, without.open_strokes, 1e-9);
}
END_TEST

START_TEST (nothing_is_told_when_it_is_cancelled)
{
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 5);
  g_autoptr (GError) error = NULL;
  gint cancel = 1;
  Plan plan;
  PlanLosses losses;
  ck_assert (plan_make (solution, PLAN_SUGGESTED, &plan, NULL));
  ck_assert (!plan_losses (solution, &plan, &cancel, &losses, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CANCELLED));
}
END_TEST

START_TEST (every_loss_has_a_token_and_words_of_its_own)
{
  for (int i = 0; i < N_PLAN_LOSSES; i++)
    for (int k = 0; k < i; k++)
      {
        ck_assert_str_ne (plan_loss_token ((PlanLoss)i), plan_loss_token ((PlanLoss)k));
        ck_assert_str_ne (plan_loss_words ((PlanLoss)i, NULL), plan_loss_words ((PlanLoss)k, NULL));
      }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan losses");
  TCase *known = tcase_create ("known answers"), *invariants = tcase_create ("invariants"), *edges = tcase_create ("edges");
  tcase_set_timeout (known, 120);
  tcase_set_timeout (invariants, 120);
  tcase_set_timeout (edges, 120);
  tcase_add_test (known, an_open_hole_is_what_the_table_says_from_a_tee_at_its_length);
  tcase_add_test (known, where_all_is_fairway_only_shots_from_good_lies_gain_or_lose);
  tcase_add_test (known, what_lies_beside_the_fairway_is_what_is_lost_to);
  tcase_add_test (invariants, what_is_lost_and_an_open_hole_add_up_to_the_plans_score);
  tcase_add_test (invariants, a_pond_beside_the_fairway_makes_more_lost_to_penalties);
  tcase_add_test (edges, nothing_is_told_when_it_is_cancelled);
  tcase_add_test (edges, every_loss_has_a_token_and_words_of_its_own);
  suite_add_tcase (suite, known);
  suite_add_tcase (suite, invariants);
  suite_add_tcase (suite, edges);
  return suite;
}
