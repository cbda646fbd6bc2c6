// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Air, drag and lift, spin, bounce and wind against figures from outside, each with its source. "Computed" is by an independent program from the formula
 * named; such figures are not published.
 */
#include "flight.h"
#include "suite.h"
#include "units.h"

#include <math.h>

#define MPH_MPS 0.44704
#define RPM_RADPS (2 * PI / 60)
#define DEGREE (PI / 180)

/* ---- drag and lift ---- */

START_TEST (the_outdoor_model_is_the_published_polynomial)
{
  /* Ferguson 2023, University of Waterloo thesis, eq. 3.15, as transcribed: valid from 0.02 to 0.75. */
  for (double s = 0.02; s <= 0.75; s += 0.01)
    {
      double drag, lift;
      flight_coefficients (FLIGHT_OUTDOOR, s, 1e5, &drag, &lift);
      ck_assert_double_eq_tol (drag, 0.1304 + 0.9287 * s - 0.8259 * s * s, 1e-12);
      ck_assert_double_eq_tol (lift, 0.0504 + 1.2031 * s - 1.1490 * s * s, 1e-12);
    }
}
END_TEST

START_TEST (the_tunnel_model_is_every_cell_of_the_reports_table)
{
  /* USGA/R&A 2006, Second Report on the Study of Spin Generation, Appendix C, as transcribed: spin ratio, drag, lift by Reynolds number. */
  static const double reynolds[] = { 0.2e5, 0.4e5, 0.7e5, 1e5, 1.5e5, 2e5 };
  static const double rows[][8] = { { 0, 0.066390, 0, 0, 0, 0, 0, 0 },
                                    { 0.05, 0.161926, 0, 0, 0.067034, 0.082402, 0.062542, 0.024363 },
                                    { 0.1, 0.215692, 0, 0.059667, 0.145721, 0.161089, 0.141229, 0.103050 },
                                    { 0.2, 0.285417, 0, 0.138744, 0.224799, 0.240167, 0.220307, 0.182128 },
                                    { 0.4, 0.361143, 0.008549, 0.220034, 0.306088, 0.321456, 0.301596, 0.263417 },
                                    { 0.8, 0.432701, 0.102349, 0.313834, 0.399889, 0.415256, 0.395397, 0.357218 },
                                    { 1.2, 0.498964, 0.180741, 0.392225, 0.478280, 0.493648, 0.473788, 0.435609 },
                                    { 1.8, 0.682582, 0.316036, 0.527521, 0.613575, 0.628943, 0.609083, 0.570904 } };
  /* The equations' four-digit constants against its six digits. */
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    for (size_t k = 0; k < G_N_ELEMENTS (reynolds); k++)
      {
        double drag, lift;
        flight_coefficients (FLIGHT_TUNNEL, rows[i][0], reynolds[k], &drag, &lift);
        ck_assert_double_eq_tol (drag, rows[i][1], 5e-5);
        ck_assert_double_eq_tol (lift, rows[i][2 + k], 5e-5);
      }
}
END_TEST

/* ---- air ---- */

START_TEST (the_standard_atmosphere_has_its_densities_in_feet_as_well)
{
  /* Computed from the formula of ISO 2533: altitude, temperature, pressure, density. */
  static const double rows[][4]
      = { { 304.8, 286.169, 97716.6, 1.18955 }, { 609.6, 284.188, 94212.9, 1.15490 }, { 1524, 278.244, 84307.3, 1.05555 } };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Air air;
      ck_assert_double_eq_tol (air_pressure_at (rows[i][0]), rows[i][2], 0.06);
      ck_assert (air_make (rows[i][1] - 273.15, air_pressure_at (rows[i][0]), 0, &air, NULL));
      ck_assert_double_eq_tol (air.density_kgm3, rows[i][3], 2e-5);
    }
}
END_TEST

/* ---- spin ---- */

START_TEST (a_ball_loses_spin_as_fast_as_published)
{
  /* A book citing Smits and Smith 1994: each second 0.0004 times the speed in mph times the spin, 340 rpm at 120 mph and 7097 rpm. So along its way a ball
     keeps exp (-0.0004 / 0.44704 each metre) of its spin. */
  const double loss_per_m = 0.0004 / MPH_MPS;
  ck_assert_double_eq_tol (loss_per_m * 120 * MPH_MPS * 7097, 340, 1);
  FlightInput input
      = { .direction = { 0, 1 }, .air = air_standard (), .launch = { 120 * MPH_MPS, 16.3 * DEGREE, 7097 * RPM_RADPS, 0 } };
  Flight flight;
  ck_assert (flight_solve (&input, &flight, NULL));
  FlightPoint landing = flight_landing (&flight), before = flight.points[0];
  double way_m = 0;
  const int n_looks = 2000;
  for (int i = 1; i <= n_looks; i++)
    {
      FlightPoint point = flight_at (&flight, landing.t_s * i / n_looks);
      way_m += hypot (vec2_distance (point.at, before.at), point.z_m - before.z_m);
      before = point;
    }
  ck_assert_double_eq_tol (landing.spin_radps / RPM_RADPS, 7097 * exp (-loss_per_m * way_m), 2);
}
END_TEST

/* ---- bounce ---- */

START_TEST (a_ball_that_hardly_moves_keeps_half_its_speed)
{
  /* Penner 2002, Can. J. Phys. 80:931, as reproduced elsewhere: 0.510 at no speed at all, 0.120 beyond 20 m/s. */
  static const double rows[][2]
      = { { 1e-6, 0.510 }, { 5, 0.3451 }, { 10, 0.2253 }, { 15, 0.1507 }, { 20, 0.1212 }, { 20.001, 0.120 } };
  Surface turf = surface_turf (FIRMNESS_MEDIUM);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Impact out = bounce_off (&(Impact){ .vz_mps = -rows[i][0] }, &turf);
      ck_assert_double_eq_tol (out.vz_mps / rows[i][0], rows[i][1], 1e-4);
    }
}
END_TEST

/* ---- rules of thumb: the golf press ---- */

static double
carry_of (double speed_mps, double degrees, double rpm, double wind_mph)
{
  FlightInput input = { .direction = { 0, 1 },
                        .air = { 1.225, air_standard ().viscosity_pas },
                        .launch = { speed_mps, degrees * DEGREE, rpm * RPM_RADPS, 0 },
                        .wind = { { 0, wind_mph * MPH_MPS }, 0 } };
  Flight flight;
  ck_assert (flight_solve (&input, &flight, NULL));
  return flight_landing (&flight).at.y;
}

START_TEST (a_middle_iron_loses_about_one_per_cent_for_each_mile_an_hour_against_it)
{
  /* 1 % each mph against, half a per cent behind: rules of thumb, told for no club; a point of ten either way, and more where the wind helps. */
  double still_m = carry_of (50, 20, 7000, 0);
  ck_assert_double_eq_tol (100 * (1 - carry_of (50, 20, 7000, -10) / still_m), 10, 1);
  ck_assert_double_eq_tol (100 * (carry_of (50, 20, 7000, 10) / still_m - 1), 5, 3);
}
END_TEST

START_TEST (up_and_down_a_slope_a_ball_lands_a_height_over_the_tangent_of_its_fall_from_the_level)
{
  /* Geometry; the rule of thumb, a yard a yard (from memory), is that for a fall of 45 degrees, which a middle iron's 47 nearly is. */
  FlightInput input = { .direction = { 0, 1 }, .air = air_standard (), .launch = { 50, 20 * DEGREE, 7000 * RPM_RADPS, 0 } };
  Flight flight;
  ck_assert (flight_solve (&input, &flight, NULL));
  FlightPoint landing = flight_landing (&flight);
  const double rise_m = 5;
  double at_m = 0;
  for (double t_s = landing.t_s; at_m == 0; t_s -= 1e-4)
    if (flight_at (&flight, t_s).z_m >= rise_m)
      at_m = flight_at (&flight, t_s).at.y;
  double shorter_m = landing.at.y - at_m;
  ck_assert_double_eq_tol (shorter_m, rise_m / tan (atan2 (-landing.vz_mps, landing.v_mps.y)), 0.2);
  ck_assert_double_eq_tol (shorter_m, rise_m, 0.5);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("flight-published");
  TCase *tcase = tcase_create ("published");
  const TTest *const tests[] = { the_outdoor_model_is_the_published_polynomial,
                                 the_tunnel_model_is_every_cell_of_the_reports_table,
                                 the_standard_atmosphere_has_its_densities_in_feet_as_well,
                                 a_ball_loses_spin_as_fast_as_published,
                                 a_ball_that_hardly_moves_keeps_half_its_speed,
                                 a_middle_iron_loses_about_one_per_cent_for_each_mile_an_hour_against_it,
                                 up_and_down_a_slope_a_ball_lands_a_height_over_the_tangent_of_its_fall_from_the_level };
  for (size_t i = 0; i < G_N_ELEMENTS (tests); i++)
    tcase_add_test (tcase, tests[i]);
  suite_add_tcase (suite, tcase);
  return suite;
}
