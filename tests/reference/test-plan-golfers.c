// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Plans of whole holes against what is published of golfers: the model golfers of the Course Rating System on the example course, and what added length is worth.
 */
#include "example.h"
#include "plan-reasons.h"
#include "solved.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The comparison needs no finer cells, and nine holes by four bags are many. */
#define CELL_M 8.0

/* ---- holes and bags ---- */

static PlanSolution *
solved (const Hole *hole, const Bag *bag, double cell_m)
{
  GError *error = NULL;
  PlanSolution *solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = cell_m }, &error);
  ck_assert_msg (solution != NULL, "%s", error != NULL ? error->message : "");
  return solution;
}

static double
score (const Hole *hole, const Bag *bag)
{
  g_autoptr (PlanSolution) solution = solved (hole, bag, CELL_M);
  return from_tee (solution);
}

/* The usual bag of a level, every club so much longer in proportion as makes the longest `more_m` longer; its spreads stay angles and shares. */
static Bag *
longer_bag (Level level, double more_m)
{
  g_autoptr (Bag) bag = bag_new_usual ("bag", UNIT_METRES, level);
  double factor = 1 + more_m / bag_club (bag, 0)->carry_m;
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      Club club = *bag_club (bag, i);
      GError *error = NULL;
      club.carry_m *= factor;
      club.carry_sd_m = bag_club (bag, i)->carry_sd_m;
      club.side_sd_m = factor * bag_club (bag, i)->side_sd_m;
      club.spread_from_level = club.carry_sd_from_level = club.side_sd_from_level = false;
      Bag *next = bag_with_club (bag, i, &club, &error);
      ck_assert_msg (next != NULL, "%s", error != NULL ? error->message : "");
      bag_unref (bag);
      bag = next;
    }
  return g_steal_pointer (&bag);
}

/* ---- every golfer on every hole, once for all tests ---- */

static const Level levels[] = { LEVEL_SCRATCH_MEN, LEVEL_BOGEY_MEN };
#define N_LEVELS 2
#define ADDED_M (20 * METRES_PER_YARD)

static double usual[N_LEVELS][N_EXAMPLES], longer[N_LEVELS][N_EXAMPLES], length_yd[N_EXAMPLES];

static void
play_all (void)
{
  for (size_t i = 0; i < N_EXAMPLES; i++)
    {
      g_autoptr (Hole) hole = example_hole (i);
      double length_m = 0;
      ck_assert (hole_measured_length (hole, NULL, &length_m));
      length_yd[i] = length_m / METRES_PER_YARD;
      for (int k = 0; k < N_LEVELS; k++)
        {
          g_autoptr (Bag) bag = longer_bag (levels[k], 0), more = longer_bag (levels[k], ADDED_M);
          usual[k][i] = score (hole, bag);
          longer[k][i] = score (hole, more);
        }
      printf ("# hole %zu, %.0f yd: scratch %.2f, bogey %.2f; 20 yd longer %.2f, %.2f\n", i + 1, length_yd[i], usual[0][i],
              usual[1][i], longer[0][i], longer[1][i]);
      fflush (stdout);
    }
}

/* ---- the model golfers ---- */

/*
 * Scratch and bogey men of the Course Rating System on the nine holes: the bogey golfer takes more on each. The yardage rating for eighteen holes is yd / 220 + 40.9 and
 * yd / 160 + 50.7 (Course Rating System; the formulas from memory), to which obstacles add up to a few strokes. The scratch golfer comes out near it. The bogey golfer comes
 * out some strokes below: the Accuracy Table tells of two shots of three, the usual bag has no poor strikes, and every club and aim is chosen best.
 */
static const double least_over_rating[] = { -2, -6.5 }, most_over_rating[] = { 4, 4 };

START_TEST (the_model_golfers_score_in_order_and_near_the_yardage_rating)
{
  double sums[N_LEVELS] = { 0 }, all_yd = 0;
  for (size_t i = 0; i < N_EXAMPLES; i++)
    {
      double first = usual[0][i], second = usual[1][i];
      ck_assert_msg (second > first + 0.2 && second < first + 3, "hole %zu: scratch %g, bogey %g", i + 1, first, second);
      sums[0] += first;
      sums[1] += second;
      all_yd += length_yd[i];
    }
  double ratings[] = { (all_yd * 2 / 220 + 40.9) / 2, (all_yd * 2 / 160 + 50.7) / 2 };
  for (int k = 0; k < N_LEVELS; k++)
    {
      printf ("# %s: %.2f, yardage rating %.2f\n", k == 0 ? "scratch" : "bogey", sums[k], ratings[k]);
      fflush (stdout);
      ck_assert_msg (sums[k] - ratings[k] > least_over_rating[k] && sums[k] - ratings[k] < most_over_rating[k],
                     "%s: %g strokes, yardage rating %g", k == 0 ? "scratch" : "bogey", sums[k], ratings[k]);
    }
}
END_TEST

/*
 * Twenty yards more are worth about 3 strokes a round to a high handicap and under 1 to a professional (Ko 2012, thesis): the bogey golfer gains more than the
 * scratch golfer, and both something. On all nine, held to eighteen.
 *
 * Length is worth most where it brings a green within reach in one shot less, and there are few such holes: four fifths of the 0.8 strokes that the scratch golfer gains on the nine are those of
 * the par fives of 520 and 527 yd. The scratch man of the Course Rating System reaches 470 yd with two shots, 508 yd and their run when all are so much longer; on the other seven
 * holes he gains 0.14 together. The bogey golfer gains something on each, most on the par four that comes within reach of two shots. So fewer holes will not do: on holes 2, 3 and 7
 * alone the par five makes the scratch golfer gain as much as the other. Where a longer club costs 0.02, on holes 5 and 7, that is within what cells of 8 m tell.
 */
START_TEST (added_length_is_worth_more_to_the_bogey_golfer)
{
  double gains[N_LEVELS] = { 0 };
  for (int k = 0; k < N_LEVELS; k++)
    for (size_t i = 0; i < N_EXAMPLES; i++)
      gains[k] += (usual[k][i] - longer[k][i]) * 18 / N_EXAMPLES;
  printf ("# 20 yd more a round: scratch %.2f strokes, bogey %.2f\n", gains[0], gains[1]);
  fflush (stdout);
  ck_assert_double_gt (gains[0], 0);
  ck_assert_double_gt (gains[1], gains[0]);
  ck_assert_double_gt (gains[1], 1.5);
  ck_assert_double_lt (gains[1], 6);
}
END_TEST

/* ---- wind ---- */

/* A short hole from an exposed tee: a wind of 10 mph against a shot of 170 yd is a club or more, and so is it behind (common practice). */
START_TEST (the_wind_changes_the_club_of_the_short_hole_on_the_crest)
{
  g_autoptr (Hole) hole = example_hole (7);
  g_autoptr (Bag) bag = bag_new_usual ("bag", UNIT_METRES, LEVEL_SCRATCH_MEN);
  g_autoptr (PlanSolution) solution = solved (hole, bag, CELL_M);
  PlanWind wind;
  ck_assert (plan_wind (solution, PLAN_WIND_ALONG, &(PlanWindQuestion){ 0 }, &wind, NULL));
  g_autofree char *words = plan_wind_words (&wind, UNIT_YARDS, NULL);
  printf ("# %s\n", words);
  fflush (stdout);
  ck_assert (wind.more.club != NULL && wind.less.club != NULL);
  ck_assert_double_gt (wind.more.club->carry_m, wind.club->carry_m);
  ck_assert_double_lt (wind.less.club->carry_m, wind.club->carry_m);
  ck_assert (wind.more.at_mps > 0 && wind.less.at_mps < 0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-golfers");
  TCase *golfers = tcase_create ("golfers");
  tcase_set_timeout (golfers, 0);
  tcase_add_unchecked_fixture (golfers, play_all, NULL);
  tcase_add_test (golfers, the_model_golfers_score_in_order_and_near_the_yardage_rating);
  tcase_add_test (golfers, added_length_is_worth_more_to_the_bogey_golfer);
  suite_add_tcase (suite, golfers);
  TCase *wind = tcase_create ("wind");
  tcase_set_timeout (wind, 0);
  tcase_add_test (wind, the_wind_changes_the_club_of_the_short_hole_on_the_crest);
  suite_add_tcase (suite, wind);
  return suite;
}
