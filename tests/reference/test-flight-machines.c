// SPDX-License-Identifier: GPL-3.0-or-later
/* Flights as each kind of machine computes them: all must land the ball at the same place. */
#include "lanes-private.h"
#include "suite.h"

#define N_FLIGHTS 301
/* They may differ in the last bits, and so in where a step ends. */
#define SAME_M 1e-5

static void
draw (FlightInput inputs[N_FLIGHTS])
{
  GRand *random = g_rand_new_with_seed (11);
  for (int i = 0; i < N_FLIGHTS; i++)
    {
      double speed = g_rand_double_range (random, 3, 90);
      inputs[i] = (FlightInput){ .from = { i, 2 * i }, .direction = { 0.6, 0.8 }, .air = air_standard () };
      inputs[i].launch
          = (Launch){ speed, g_rand_double_range (random, 0.05, 1.0), fmin (g_rand_double_range (random, 0, 20) * speed, 1600),
                      g_rand_double_range (random, -0.6, 0.6) };
      inputs[i].wind = (Wind){ { g_rand_double_range (random, -9, 9), g_rand_double_range (random, -9, 9) },
                               i % 3 ? ROUGHNESS_GRASS_M : 0 };
      inputs[i].model = i % 10 == 9 ? FLIGHT_TUNNEL : FLIGHT_OUTDOOR;
    }
  g_rand_free (random);
}

static void
land (bool (*fly) (LanesQueue *queue), const FlightInput inputs[N_FLIGHTS], FlightPoint landings[N_FLIGHTS])
{
  GError *error = NULL;
  LanesQueue queue = { .inputs = inputs, .n_inputs = N_FLIGHTS, .landings = landings, .error = &error };
  ck_assert_msg (fly (&queue), "%s", error != NULL ? error->message : "");
}

static void
compare (const FlightPoint a[N_FLIGHTS], const FlightPoint b[N_FLIGHTS])
{
  for (int i = 0; i < N_FLIGHTS; i++)
    {
      ck_assert_double_le (vec2_distance (a[i].at, b[i].at), SAME_M);
      ck_assert_double_eq_tol (a[i].t_s, b[i].t_s, SAME_M);
      ck_assert_double_eq_tol (a[i].spin_radps, b[i].spin_radps, 1e-3);
    }
}

START_TEST (every_width_of_vector_lands_the_ball_at_the_same_place)
{
  static FlightInput inputs[N_FLIGHTS];
  static FlightPoint any[N_FLIGHTS], wide[N_FLIGHTS];
  draw (inputs);
  land (lanes_fly, inputs, any);
#if defined __x86_64__
  if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    {
      land (lanes_fly_avx2, inputs, wide);
      compare (any, wide);
    }
#endif
  ck_assert (flight_land_many (inputs, N_FLIGHTS, wide, NULL));
  compare (any, wide);
}
END_TEST

START_TEST (steps_are_the_same_with_and_without_multiplication_and_addition_in_one)
{
  static FlightInput inputs[N_FLIGHTS];
  draw (inputs);
  for (int i = 0; i < N_FLIGHTS; i++)
    {
      Medium medium;
      State state;
      ck_assert (flight_prepare (&inputs[i], &medium, &state, NULL));
      Step here, anywhere;
      double next_here = step_begin (&medium, &state, &here), next_anywhere = step_begin (&medium, &state, &anywhere);
      for (int k = 0; k < 6; k++)
        {
          ck_assert (step_take (&medium, &here, &next_here));
          ck_assert (step_take_anywhere (&medium, &anywhere, &next_anywhere));
          for (int item = 0; item < N_STATES; item++)
            ck_assert_double_eq_tol (here.to.item[item], anywhere.to.item[item], SAME_M);
        }
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("flight-machines");
  TCase *machines = tcase_create ("machines");
  tcase_add_test (machines, every_width_of_vector_lands_the_ball_at_the_same_place);
  tcase_add_test (machines, steps_are_the_same_with_and_without_multiplication_and_addition_in_one);
  suite_add_tcase (suite, machines);
  return suite;
}
