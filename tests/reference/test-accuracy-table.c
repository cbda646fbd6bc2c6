// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The spreads of the levels against the published Accuracy Table: Course Rating System Manual, section 4.4.
 *
 * Published: the level, the length of the shot, and the width and depth in yards of the area that holds two of every three shots.
 * Computed from these, by an independent program, and not published: sigma across and along if that area is an ellipse (half width
 * over sqrt (2 ln 3)), the former as an angle, the latter as a share of the shot. The Manual does not say what shape the area has.
 */
#include "bag.h"
#include "suite.h"
#include "units.h"

#include <math.h>

typedef struct
{
  Level level;
  double shot_yd, width_yd, depth_yd;                /* published */
  double side_sd_yd, long_sd_yd, side_deg, long_pct; /* computed, to the digits shown */
} Row;

static const Row rows[] = {
  { LEVEL_SCRATCH_MEN, 90, 11, 14, 3.71, 4.72, 2.36, 5.25 },     { LEVEL_SCRATCH_MEN, 110, 12, 15, 4.05, 5.06, 2.11, 4.60 },
  { LEVEL_SCRATCH_MEN, 130, 13, 15, 4.39, 5.06, 1.93, 3.89 },    { LEVEL_SCRATCH_MEN, 150, 15, 16, 5.06, 5.40, 1.93, 3.60 },
  { LEVEL_SCRATCH_MEN, 170, 18, 17, 6.07, 5.73, 2.05, 3.37 },    { LEVEL_SCRATCH_MEN, 190, 23, 18, 7.76, 6.07, 2.34, 3.20 },
  { LEVEL_SCRATCH_MEN, 210, 29, 19, 9.78, 6.41, 2.67, 3.05 },    { LEVEL_SCRATCH_MEN, 230, 35, 20, 11.81, 6.75, 2.94, 2.93 },
  { LEVEL_SCRATCH_MEN, 250, 41, 21, 13.83, 7.08, 3.17, 2.83 },   { LEVEL_SCRATCH_WOMEN, 90, 12, 15, 4.05, 5.06, 2.58, 5.62 },
  { LEVEL_SCRATCH_WOMEN, 110, 14, 16, 4.72, 5.40, 2.46, 4.91 },  { LEVEL_SCRATCH_WOMEN, 130, 17, 17, 5.73, 5.73, 2.53, 4.41 },
  { LEVEL_SCRATCH_WOMEN, 150, 20, 18, 6.75, 6.07, 2.58, 4.05 },  { LEVEL_SCRATCH_WOMEN, 170, 26, 20, 8.77, 6.75, 2.95, 3.97 },
  { LEVEL_SCRATCH_WOMEN, 190, 30, 24, 10.12, 8.10, 3.05, 4.26 }, { LEVEL_SCRATCH_WOMEN, 210, 34, 28, 11.47, 9.44, 3.13, 4.50 },
  { LEVEL_BOGEY_MEN, 90, 16, 19, 5.40, 6.41, 3.43, 7.12 },       { LEVEL_BOGEY_MEN, 110, 17, 21, 5.73, 7.08, 2.98, 6.44 },
  { LEVEL_BOGEY_MEN, 130, 18, 23, 6.07, 7.76, 2.67, 5.97 },      { LEVEL_BOGEY_MEN, 150, 20, 25, 6.75, 8.43, 2.58, 5.62 },
  { LEVEL_BOGEY_MEN, 170, 24, 28, 8.10, 9.44, 2.73, 5.56 },      { LEVEL_BOGEY_MEN, 190, 29, 34, 9.78, 11.47, 2.95, 6.04 },
  { LEVEL_BOGEY_WOMEN, 90, 17, 22, 5.73, 7.42, 3.65, 8.25 },     { LEVEL_BOGEY_WOMEN, 110, 19, 24, 6.41, 8.10, 3.33, 7.36 },
  { LEVEL_BOGEY_WOMEN, 130, 21, 27, 7.08, 9.11, 3.12, 7.01 },    { LEVEL_BOGEY_WOMEN, 150, 24, 30, 8.10, 10.12, 3.09, 6.75 },
};

/* Half a unit of the last digit shown, and rounding. */
#define LAST_DIGIT 0.00501

START_TEST (two_of_three_shots_fall_in_the_published_width_and_depth)
{
  const Row *row = &rows[_i];
  double side_m, long_m;
  accuracy_spread (row->level, row->shot_yd * METRES_PER_YARD, &side_m, &long_m);
  /* The ellipse of these half axes, in deviations: a circular normal lies in a circle of radius k with chance 1 - exp (-k^2 / 2). */
  double across = row->width_yd * METRES_PER_YARD / 2 / side_m, along = row->depth_yd * METRES_PER_YARD / 2 / long_m;
  ck_assert_double_eq_tol (1 - exp (-across * across / 2), 2.0 / 3, 1e-12);
  ck_assert_double_eq_tol (1 - exp (-along * along / 2), 2.0 / 3, 1e-12);
}
END_TEST

START_TEST (the_deviations_are_those_computed_elsewhere)
{
  const Row *row = &rows[_i];
  double side_m, long_m;
  accuracy_spread (row->level, row->shot_yd * METRES_PER_YARD, &side_m, &long_m);
  double side_yd = side_m / METRES_PER_YARD, long_yd = long_m / METRES_PER_YARD;
  ck_assert_double_eq_tol (side_yd, row->side_sd_yd, LAST_DIGIT);
  ck_assert_double_eq_tol (long_yd, row->long_sd_yd, LAST_DIGIT);
  ck_assert_double_eq_tol (units_degrees (atan (side_yd / row->shot_yd)), row->side_deg, LAST_DIGIT);
  ck_assert_double_eq_tol (100 * long_yd / row->shot_yd, row->long_pct, LAST_DIGIT);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("accuracy table");
  TCase *table = tcase_create ("rows");
  tcase_add_loop_test (table, two_of_three_shots_fall_in_the_published_width_and_depth, 0, G_N_ELEMENTS (rows));
  tcase_add_loop_test (table, the_deviations_are_those_computed_elsewhere, 0, G_N_ELEMENTS (rows));
  suite_add_tcase (suite, table);
  return suite;
}
