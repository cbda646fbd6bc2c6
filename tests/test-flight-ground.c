// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of flight: where a ball comes down on ground that is not level. */
#include "flight.h"
#include "suite.h"

#define LANDING_M 1e-3

static FlightInput
drive_over (GroundHeight ground, const void *data)
{
  return (FlightInput){
    .direction = { 0, 1 }, .air = air_standard (), .launch = { 65, 0.22, 300, 0 }, .ground = ground, .ground_data = data
  };
}

static Flight
flown (const FlightInput *input)
{
  Flight flight;
  GError *error = NULL;
  ck_assert_msg (flight_solve (input, &flight, &error), "%s", error != NULL ? error->message : "");
  return flight;
}

static FlightPoint
landing_of (const FlightInput *input)
{
  Flight flight = flown (input);
  return flight_landing (&flight);
}

/* A ridge across the line like a knife's edge: where it stands, how high, how thick its foot. */
typedef struct
{
  double at_m, height_m, foot_m;
} Ridge;

static double
ridge_height (const void *data, Vec2 at)
{
  const Ridge *ridge = data;
  return fmax (0, ridge->height_m * (1 - fabs (at.y - ridge->at_m) / (0.5 * ridge->foot_m)));
}

/* Level, and from `at_m` on another height. */
typedef struct
{
  double at_m, height_m;
} Cliff;

static double
cliff_height (const void *data, Vec2 at)
{
  const Cliff *cliff = data;
  return at.y < cliff->at_m ? 0 : cliff->height_m;
}

static double
plane_height (const void *data, Vec2 at)
{
  return *(const double *)data * at.y;
}

static double
no_height (const void *data, Vec2 at)
{
  return at.y > 50 ? NAN : 0;
}

START_TEST (no_ridge_is_stepped_over_however_thin_its_top)
{
  FlightInput level = drive_over (NULL, NULL);
  Flight free = flown (&level);
  int n_hit = 0, n_missed = 0;
  /* Ridges a little lower and a little higher than the ball flies there, all along the way. */
  for (double at_m = 5; at_m < 190; at_m += 0.37)
    {
      double z_m = flight_at_distance (&free, vec2 (0, 1), at_m).z_m;
      Ridge low = { at_m, z_m - 0.05, 1.0 }, high = { at_m, z_m + 0.05, 1.0 };
      FlightInput over = drive_over (ridge_height, &low), into = drive_over (ridge_height, &high);
      n_missed += fabs (landing_of (&over).at.y - flight_landing (&free).at.y) < 0.01;
      FlightPoint hit = landing_of (&into);
      n_hit += fabs (hit.at.y - at_m) < 0.5;
      ck_assert_double_le (fabs (hit.z_m - ridge_height (&high, hit.at)), LANDING_M);
    }
  ck_assert_int_eq (n_hit, 500);
  ck_assert_int_eq (n_missed, 500);
}
END_TEST

START_TEST (a_known_rise_changes_no_landing)
{
  Ridge ridge = { 120, 18, 30 };
  FlightInput input = drive_over (ridge_height, &ridge);
  FlightPoint unknown = landing_of (&input);
  input.ground_rise_m = 18;
  FlightPoint known = landing_of (&input);
  ck_assert_double_eq_tol (unknown.at.y, known.at.y, LANDING_M);
}
END_TEST

START_TEST (a_cliff_is_met_in_its_face_and_a_drop_is_flown_over)
{
  Cliff up = { 150, 60 }, down = { 150, -30 };
  FlightInput into = drive_over (cliff_height, &up), over = drive_over (cliff_height, &down), level = drive_over (NULL, NULL);
  FlightPoint face = landing_of (&into);
  ck_assert_double_eq_tol (face.at.y, 150, LANDING_M);
  ck_assert (face.z_m > 10 && face.z_m < 60);
  FlightPoint below = landing_of (&over);
  ck_assert_double_eq_tol (below.z_m, -30, LANDING_M);
  ck_assert_double_gt (below.at.y, landing_of (&level).at.y + 20);
}
END_TEST

START_TEST (a_green_above_the_top_of_the_flight_is_not_reached)
{
  FlightInput level = drive_over (NULL, NULL);
  Flight free = flown (&level);
  Cliff green = { 100, free.apex_m + 1 };
  FlightInput into = drive_over (cliff_height, &green);
  ck_assert_double_eq_tol (landing_of (&into).at.y, 100, LANDING_M);
  double factor, side_m;
  GError *error = NULL;
  /* A harder swing of the same club does get up there, and past the edge. */
  ck_assert (flight_reach (&into, 150, &factor, &side_m, &error));
  ck_assert_double_gt (factor, 1);
}
END_TEST

START_TEST (uphill_is_shorter_and_downhill_longer)
{
  FlightInput level = drive_over (NULL, NULL);
  double flat_m = landing_of (&level).at.y, up = 0.05, down = -0.05;
  FlightInput uphill = drive_over (plane_height, &up), downhill = drive_over (plane_height, &down);
  FlightPoint high = landing_of (&uphill), low = landing_of (&downhill);
  ck_assert_double_lt (high.at.y, flat_m - 8);
  ck_assert_double_gt (low.at.y, flat_m + 8);
  ck_assert_double_eq_tol (high.z_m, up * high.at.y, LANDING_M);
  ck_assert_double_eq_tol (low.z_m, down * low.at.y, LANDING_M);
}
END_TEST

START_TEST (a_ball_against_a_bank_steeper_than_its_launch_stays_there)
{
  double bank = 2;
  FlightInput input = drive_over (plane_height, &bank);
  Flight flight = flown (&input);
  ck_assert_uint_ge (flight.n_points, 2);
  ck_assert_double_eq_tol (flight_landing (&flight).at.y, 0, LANDING_M);
}
END_TEST

START_TEST (ground_without_a_height_is_refused)
{
  FlightInput input = drive_over (no_height, NULL);
  Flight flight;
  GError *error = NULL;
  ck_assert (!flight_solve (&input, &flight, &error));
  ck_assert (g_error_matches (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE));
  g_clear_error (&error);
}
END_TEST

START_TEST (where_a_ridge_hides_the_target_the_shortest_swing_over_it_is_found)
{
  Ridge ridge = { 150, 25, 2 };
  FlightInput input = drive_over (ridge_height, &ridge);
  double factor, side_m;
  ck_assert (flight_reach (&input, 152, &factor, &side_m, NULL));
  input.launch = launch_scaled (&input.launch, factor);
  ck_assert_double_gt (landing_of (&input).at.y, 152);
  input.launch = launch_scaled (&input.launch, 0.999);
  ck_assert_double_lt (landing_of (&input).at.y, 152);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("flight-ground");
  TCase *ground = tcase_create ("ground");
  tcase_set_timeout (ground, 30);
  tcase_add_test (ground, uphill_is_shorter_and_downhill_longer);
  tcase_add_test (ground, a_known_rise_changes_no_landing);
  tcase_add_test (ground, no_ridge_is_stepped_over_however_thin_its_top);
  tcase_add_test (ground, a_cliff_is_met_in_its_face_and_a_drop_is_flown_over);
  tcase_add_test (ground, a_green_above_the_top_of_the_flight_is_not_reached);
  tcase_add_test (ground, a_ball_against_a_bank_steeper_than_its_launch_stays_there);
  tcase_add_test (ground, ground_without_a_height_is_refused);
  tcase_add_test (ground, where_a_ridge_hides_the_target_the_shortest_swing_over_it_is_found);
  suite_add_tcase (suite, ground);
  return suite;
}
