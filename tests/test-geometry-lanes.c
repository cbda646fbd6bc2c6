// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the words of kernels: each does in all lanes what C does with one number. */
#define N_LANES 4
#include "geometry-lanes.h"

#include "suite.h"

#include <float.h>

static const double a[N_LANES] = { -3.5, 0, 2, 1e300 }, b[N_LANES] = { 1, -0.0, 2, -1e300 };

START_TEST (numbers_come_back_as_they_went_in_from_any_address)
{
  double places[N_LANES + 1] = { 0 };
  lanes_store (places + 1, lanes_load (a));
  ck_assert_mem_eq (places + 1, a, sizeof a);
  ck_assert_double_eq (places[0], 0);
}
END_TEST

START_TEST (each_lane_gets_what_one_number_would)
{
  Lanes x = lanes_load (a), y = lanes_load (b), low = lanes_least (x, y), high = lanes_most (x, y), size = lanes_size (x);
  for (int i = 0; i < N_LANES; i++)
    {
      ck_assert_double_eq (lanes_all (7.25)[i], 7.25);
      ck_assert_double_eq (low[i], fmin (a[i], b[i]));
      ck_assert_double_eq (high[i], fmax (a[i], b[i]));
      ck_assert_double_eq (size[i], fabs (a[i]));
      ck_assert_double_eq (lanes_either (x > y, x, y)[i], a[i] > b[i] ? a[i] : b[i]);
      ck_assert_double_eq (lanes_root (size)[i], sqrt (fabs (a[i])));
    }
}
END_TEST

START_TEST (logarithms_are_those_of_the_c_library)
{
  double worst = 0;
  for (double x = 2.5e-308; x < 1e308; x *= 1.00371)
    {
      const double four[N_LANES] = { x, fmin (DBL_MAX, 3 * x), 1 + x, 1 / (1 + fmin (1e300, x)) };
      Lanes logs = lanes_log (lanes_load (four));
      for (int i = 0; i < N_LANES; i++)
        worst = fmax (worst, fabs (logs[i] - log (four[i])) / (1 + fabs (log (four[i]))));
    }
  ck_assert_double_lt (worst, 4e-16);
  ck_assert_double_eq (lanes_log (lanes_all (1))[N_LANES - 1], 0);
}
END_TEST

START_TEST (any_is_told_of_the_first_and_of_the_last_lane_and_not_of_none)
{
  ck_assert (lanes_any (lanes_load (a) < -3));
  ck_assert (lanes_any (lanes_load (a) > 1e299));
  ck_assert (!lanes_any (lanes_load (a) > 1e301));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("geometry-lanes");
  TCase *lanes = tcase_create ("lanes");
  tcase_add_test (lanes, numbers_come_back_as_they_went_in_from_any_address);
  tcase_add_test (lanes, each_lane_gets_what_one_number_would);
  tcase_add_test (lanes, logarithms_are_those_of_the_c_library);
  tcase_add_test (lanes, any_is_told_of_the_first_and_of_the_last_lane_and_not_of_none);
  suite_add_tcase (suite, lanes);
  return suite;
}
