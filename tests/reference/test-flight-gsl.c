// SPDX-License-Identifier: GPL-3.0-or-later
/* Flights against the GNU Scientific Library's rk8pd at 1e-10, with forces written down anew from their publications. */
#include "flight.h"
#include "suite.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

#define GSL_TOLERANCE 1e-10
/* What a landing may be off by. */
#define LANDING_M 1e-3
#define N_FLIGHTS 1500

typedef struct
{
  Air air;
  Wind wind;
  double axis[3];
} World;

/* Place, velocity, spin: dy/dt. Drag and lift of Ferguson 2023, eq. 3.15. */
static int
forces (double t_s, const double y[], double rates[], void *data)
{
  const World *world = data;
  double rough = world->wind.roughness_m,
         share = rough > 0 ? log (sqrt (y[2] * y[2] + 4) / rough) / log (sqrt (104) / rough) : 1;
  double u[3] = { y[3] - share * world->wind.to_mps.x, y[4] - share * world->wind.to_mps.y, y[5] };
  double v = sqrt (u[0] * u[0] + u[1] * u[1] + u[2] * u[2]), s = fmin (0.75, y[6] * 0.021335 / v), h = fmax (s, 0.02);
  double cd = 0.1304 + 0.9287 * h - 0.8259 * h * h;
  double cl = (0.0504 + 1.2031 * h - 1.1490 * h * h) * (s < 0.02 ? s / 0.02 : 1);
  double k = 0.5 * world->air.density_kgm3 * PI * 0.021335 * 0.021335 / 0.04593 * v;
  for (int i = 0; i < 3; i++)
    {
      int j = (i + 1) % 3, l = (i + 2) % 3;
      rates[i] = y[3 + i];
      rates[3 + i] = k * (cl * (world->axis[j] * u[l] - world->axis[l] * u[j]) - cd * u[i]) - (i == 2 ? 9.80665 : 0);
    }
  rates[6] = -8.948e-4 * v * y[6];
  return GSL_SUCCESS;
}

/* Where GSL has the ball at a time. */
static void
gsl_flight (const FlightInput *input, double until_s, double y[7])
{
  const Launch *launch = &input->launch;
  double c = cos (launch->angle_rad), s = sin (launch->angle_rad);
  Vec2 d = input->direction;
  /* The axis is the ball's right, turned about its first direction f by Rodrigues' formula. */
  double f[3] = { c * d.x, c * d.y, s }, right[3] = { d.y, -d.x, 0 };
  World world = { .air = input->air, .wind = input->wind };
  for (int i = 0; i < 3; i++)
    {
      int j = (i + 1) % 3, l = (i + 2) % 3;
      world.axis[i] = right[i] * cos (launch->tilt_rad) - (right[j] * f[l] - right[l] * f[j]) * sin (launch->tilt_rad);
      y[i] = i == 0 ? input->from.x : i == 1 ? input->from.y : 0;
      y[3 + i] = launch->speed_mps * f[i];
    }
  y[6] = launch->spin_radps;
  gsl_odeiv2_system system = { forces, NULL, 7, &world };
  gsl_odeiv2_driver *driver
      = gsl_odeiv2_driver_alloc_y_new (&system, gsl_odeiv2_step_rk8pd, 1e-3, GSL_TOLERANCE, GSL_TOLERANCE);
  double t_s = 0;
  ck_assert_int_eq (gsl_odeiv2_driver_apply (driver, &t_s, until_s, y), GSL_SUCCESS);
  gsl_odeiv2_driver_free (driver);
}

START_TEST (landings_are_those_of_an_independent_integrator)
{
  GRand *random = g_rand_new_with_seed (8);
  for (int i = 0; i < N_FLIGHTS; i++)
    {
      /* Up to the steepest wedges and the hardest drives that golf sees, in winds up to a gale. */
      double speed = g_rand_double_range (random, 5, 85), turn = g_rand_double_range (random, 0, 2 * PI);
      FlightInput input = { .from = { 30, -20 }, .direction = { cos (turn), sin (turn) }, .air = air_standard () };
      input.launch
          = (Launch){ speed, g_rand_double_range (random, 0.1, 0.9), g_rand_double_range (random, 0, 0.5) * speed / 0.021335,
                      g_rand_double_range (random, -0.6, 0.6) };
      input.launch.spin_radps = fmin (input.launch.spin_radps, MOST_SPIN_RADPS);
      input.wind = (Wind){ { g_rand_double_range (random, -9, 9), g_rand_double_range (random, -9, 9) },
                           i % 3 == 0 ? 0 : ROUGHNESS_GRASS_M };
      Flight flight;
      ck_assert (flight_solve (&input, &flight, NULL));
      FlightPoint landing = flight_landing (&flight);
      double y[7];
      gsl_flight (&input, landing.t_s, y);
      double off_m = hypot (hypot (y[0] - landing.at.x, y[1] - landing.at.y), y[2] - landing.z_m);
      ck_assert_msg (off_m <= LANDING_M, "flight %d: %g m off", i, off_m);
      ck_assert_double_le (fabs (landing.z_m), LANDING_M);
      /* Batched, as tables of clubs and winds are. */
      ck_assert (flight_land_many (&input, 1, &landing, NULL));
      gsl_flight (&input, landing.t_s, y);
      off_m = hypot (hypot (y[0] - landing.at.x, y[1] - landing.at.y), y[2] - landing.z_m);
      ck_assert_msg (off_m <= LANDING_M, "batched flight %d: %g m off", i, off_m);
      /* And on the way: the track that is kept. */
      double t_s = g_rand_double_range (random, 0, landing.t_s);
      FlightPoint at = flight_at (&flight, t_s);
      gsl_flight (&input, t_s, y);
      ck_assert_double_le (hypot (hypot (y[0] - at.at.x, y[1] - at.at.y), y[2] - at.z_m), 0.01);
    }
  g_rand_free (random);
}
END_TEST

/* A lofted ball slows down towards its top, beyond the spin ratios that the coefficients were fitted to, and may be back among them within one step. */
START_TEST (lobs_that_leave_the_fitted_spin_ratios_for_a_moment_land_true)
{
  int n_flown = 0;
  for (double speed = 18; speed <= 40; speed += 1)
    for (double share = 0.30; share < 0.48; share += 0.012)
      {
        FlightInput input
            = { .direction = { 0, 1 }, .air = air_standard (), .launch = { speed, 0.68, share * speed / 0.021335, 0.1 } };
        input.wind = (Wind){ { 1, speed - 30 < 9 ? 5 : -5 }, ROUGHNESS_GRASS_M };
        Flight flight;
        ck_assert (flight_solve (&input, &flight, NULL));
        FlightPoint landing = flight_landing (&flight);
        double y[7];
        gsl_flight (&input, landing.t_s, y);
        double off_m = hypot (hypot (y[0] - landing.at.x, y[1] - landing.at.y), y[2] - landing.z_m);
        ck_assert_msg (off_m <= LANDING_M, "%g m/s, spin ratio %g: %g m off", speed, share, off_m);
        n_flown++;
      }
  ck_assert_int_gt (n_flown, 300);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("flight-gsl");
  TCase *landings = tcase_create ("landings");
  tcase_set_timeout (landings, 60);
  tcase_add_test (landings, landings_are_those_of_an_independent_integrator);
  tcase_add_test (landings, lobs_that_leave_the_fitted_spin_ratios_for_a_moment_land_true);
  suite_add_tcase (suite, landings);
  return suite;
}
