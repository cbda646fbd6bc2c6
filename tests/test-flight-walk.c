// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of flight-walk: against flight_at, which looks for each place anew. */
#include "flight-walk.h"
#include "suite.h"

#define N_LOOKS 997

static Flight
fly (double speed_mps, double angle_rad, Vec2 wind_mps)
{
  FlightInput input = { .from = { 3, -7 },
                        .direction = { 0.6, 0.8 },
                        .launch = { speed_mps, angle_rad, 400, 0.1 },
                        .air = air_standard (),
                        .wind = { wind_mps, ROUGHNESS_GRASS_M } };
  Flight flight;
  ck_assert (flight_solve (&input, &flight, NULL));
  return flight;
}

START_TEST (a_walk_comes_by_the_places_of_the_flight_to_the_last_bit)
{
  const Flight flights[] = { fly (70, 0.2, vec2 (0, 0)), fly (40, 0.7, vec2 (-5, 3)), fly (0.5, 0.3, vec2 (0, 0)) };
  for (size_t k = 0; k < G_N_ELEMENTS (flights); k++)
    {
      const Flight *flight = &flights[k];
      double ends_s = flight_landing (flight).t_s;
      FlightWalk walk = { .flight = flight };
      for (int i = 0; i <= N_LOOKS; i++)
        {
          FlightPoint point = flight_at (flight, ends_s * i / N_LOOKS);
          Vec2 at;
          double z_m;
          flight_walk_to (&walk, ends_s * i / N_LOOKS, &at, &z_m);
          ck_assert_msg (at.x == point.at.x && at.y == point.at.y && z_m == point.z_m, "flight %zu, look %d", k, i);
        }
    }
}
END_TEST

START_TEST (each_point_that_is_kept_is_passed)
{
  Flight flight = fly (60, 0.25, vec2 (2, -4));
  FlightWalk walk = { .flight = &flight };
  for (size_t i = 0; i < flight.n_points; i++)
    {
      Vec2 at;
      double z_m;
      flight_walk_to (&walk, flight.points[i].t_s, &at, &z_m);
      ck_assert (at.x == flight.points[i].at.x && at.y == flight.points[i].at.y && z_m == flight.points[i].z_m);
    }
}
END_TEST

START_TEST (before_the_launch_and_after_the_landing_a_walk_stays_at_the_ends)
{
  Flight flight = fly (60, 0.25, vec2 (0, 0));
  FlightWalk walk = { .flight = &flight };
  FlightPoint landing = flight_landing (&flight);
  Vec2 at;
  double z_m;
  flight_walk_to (&walk, -1, &at, &z_m);
  ck_assert (at.x == 3 && at.y == -7 && z_m == 0);
  flight_walk_to (&walk, NAN, &at, &z_m);
  ck_assert (at.x == 3 && at.y == -7 && z_m == 0);
  flight_walk_to (&walk, 1e9, &at, &z_m);
  ck_assert (at.x == landing.at.x && at.y == landing.at.y && z_m == landing.z_m);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("flight-walk");
  TCase *tcase = tcase_create ("walk");
  tcase_add_test (tcase, a_walk_comes_by_the_places_of_the_flight_to_the_last_bit);
  tcase_add_test (tcase, each_point_that_is_kept_is_passed);
  tcase_add_test (tcase, before_the_launch_and_after_the_landing_a_walk_stays_at_the_ends);
  suite_add_tcase (suite, tcase);
  return suite;
}
