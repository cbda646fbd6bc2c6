// SPDX-License-Identifier: GPL-3.0-or-later
/* The normal distribution: against values from its formulas, the GNU Scientific Library, and `clear` against drawn shots. */
#include "odds.h"
#include "suite.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>

static double
within (double low, double high)
{
  return normal_below (high) - normal_below (low);
}

START_TEST (shares_within_deviations_are_the_tabulated_ones)
{
  /* Computed by an independent program from the error function; the first and third are in every table of the distribution. */
  ck_assert_double_eq_tol (within (-1, 1), 0.682689, 5e-7);
  ck_assert_double_eq_tol (within (-1.5, 1.5), 0.866386, 5e-7);
  ck_assert_double_eq_tol (within (-2, 2), 0.954500, 5e-7);
  ck_assert_double_eq_tol (within (-3, 3), 0.997300, 5e-7);
  ck_assert_double_eq_tol (within (-1, 1) * within (-1, 1), 0.466064943, 5e-10);
}
END_TEST

START_TEST (a_fairway_of_thirty_yards_is_held_as_often_as_computed)
{
  /* Deviation across 15 yd; aim at its centre and 5 yd off it. Computed by an independent program. */
  ck_assert_double_eq_tol (within (-15 / 15.0, 15 / 15.0), 0.682689, 5e-7);
  ck_assert_double_eq_tol (within (-20 / 15.0, 10 / 15.0), 0.656296, 5e-7);
}
END_TEST

START_TEST (two_of_three_are_within_both_factors)
{
  ck_assert_double_eq_tol (TWO_OF_THREE_ELLIPSE, 1.482304, 5e-7);
  ck_assert_double_eq_tol (1 - exp (-TWO_OF_THREE_ELLIPSE * TWO_OF_THREE_ELLIPSE / 2), 2.0 / 3, 1e-15);
  ck_assert_double_eq_tol (TWO_OF_THREE_LINE, gsl_cdf_ugaussian_Pinv (5.0 / 6), 1e-14);
}
END_TEST

/* Thirty deviations out the last bit of z alone is 2e-13 of the chance. */
#define TAIL_SHARE 1e-12

START_TEST (both_tails_agree_with_an_independent_library)
{
  for (int i = -3000; i <= 800; i++)
    {
      double z = i / 100.0, expected = gsl_cdf_ugaussian_P (z);
      ck_assert_double_le (fabs (normal_below (z) - expected), TAIL_SHARE * expected);
    }
}
END_TEST

/* How many of N_DRAWN shots, drawn from the club's own numbers, carry past a distance along the shot line. */
#define N_DRAWN 200000
/* A count this many of its own deviations off has a chance below 1e-5. */
#define FAR_OFF 4.5

static double
drawn_share (const ShotResult *shot, double distance_m, gsl_rng *generator)
{
  const Club *club = shot->club;
  Vec2 aim = vec2_unit (vec2_sub (shot->aim, shot->ball)), right = vec2 (aim.y, -aim.x);
  Vec2 line = vec2_unit (vec2_sub (shot->landing, shot->ball));
  int n_past = 0;
  for (int i = 0; i < N_DRAWN; i++)
    {
      double along, across;
      gsl_ran_bivariate_gaussian (generator, club->carry_sd_m, club->side_sd_m, club->correlation, &along, &across);
      Vec2 flown = vec2_add (vec2_scale (aim, club->carry_m + along), vec2_scale (right, club->side_bias_m + across));
      n_past += vec2_dot (flown, line) > distance_m;
    }
  return n_past / (double)N_DRAWN;
}

START_TEST (clear_is_the_share_of_drawn_shots_that_carry_the_area)
{
  Club club = { .carry_m = 150, .carry_sd_m = 7, .side_sd_m = 14, .correlation = 0.7, .side_bias_m = 40 };
  gsl_rng *generator = gsl_rng_alloc (gsl_rng_mt19937);
  gsl_rng_set (generator, 20);
  for (double far_m = 140; far_m <= 175; far_m += 5)
    {
      Part *part = part_new (KIND_BUNKER);
      path_add_rectangle (&part->path, (Box){ -200, -200, far_m, 200 }, 0, 0);
      const Part *parts[] = { part_seal (part) };
      HoleInfo info;
      hole_info_init (&info);
      g_autoptr (Hole) hole = hole_new (&info, parts, 1, NULL);
      hole_info_clear (&info);
      ShotInput input = { .ball = { 0, 0 }, .aim = { 200, 0 }, .club = &club, .swing = 1 };
      ShotResult shot;
      ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
      g_autoptr (CarryTable) table = carry_table_new (hole, &shot);
      ck_assert_uint_eq (table->n_rows, 1);
      double clear = table->rows[0].clear, drawn = drawn_share (&shot, table->rows[0].carry_m, generator);
      ck_assert_double_le (fabs (clear - drawn), FAR_OFF * sqrt (fmax (clear * (1 - clear), 1e-6) / N_DRAWN));
    }
  gsl_rng_free (generator);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("normal");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, shares_within_deviations_are_the_tabulated_ones);
  tcase_add_test (known, a_fairway_of_thirty_yards_is_held_as_often_as_computed);
  tcase_add_test (known, two_of_three_are_within_both_factors);
  suite_add_tcase (suite, known);
  TCase *engines = tcase_create ("independent engines");
  tcase_add_test (engines, both_tails_agree_with_an_independent_library);
  tcase_add_test (engines, clear_is_the_share_of_drawn_shots_that_carry_the_area);
  suite_add_tcase (suite, engines);
  return suite;
}
