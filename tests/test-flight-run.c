// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of flight: bounces, and the run to rest. */
#include "flight.h"
#include "suite.h"

#define YARD_M 0.9144
#define DEGREE (PI / 180)
#define RADIUS_M (BALL_DIAMETER_M / 2)

/* Level turf everywhere, unless a test says otherwise. */
typedef struct
{
  Surface turf;
  double stops_from_m, stops_to_m; /* along y */
} Field;

static Surface
field_at (const void *data, Vec2 at)
{
  const Field *field = data;
  Surface surface = field->turf;
  surface.stops = at.y >= field->stops_from_m && at.y < field->stops_to_m;
  return surface;
}

static Surface
medium_turf (void)
{
  return surface_turf (FIRMNESS_MEDIUM);
}

static Run
run_of (const FlightPoint *landing, const Field *field)
{
  Run run;
  GError *error = NULL;
  ck_assert_msg (run_solve (landing, field_at, field, &run, &error), "%s", error != NULL ? error->message : "");
  return run;
}

static FlightPoint
driven (double carry_yd, double loft_degrees)
{
  FlightShape shape = { carry_yd * YARD_M, loft_degrees * DEGREE, NAN, NAN };
  FlightInput input = { .direction = { 0, 1 }, .air = air_standard () };
  Flight flight;
  ck_assert (flight_launch (&shape, &input.launch, NULL));
  ck_assert (flight_solve (&input, &flight, NULL));
  return flight_landing (&flight);
}

/* ---- known answers ---- */

START_TEST (a_ball_dropped_straight_rebounds_by_the_published_restitution)
{
  /* Speed into the ground, restitution: Penner 2002, as six papers reproduce it. */
  static const double rows[][2] = { { 5, 0.3451 }, { 10, 0.2253 }, { 15, 0.1507 }, { 20, 0.1212 }, { 25, 0.1200 } };
  Surface turf = medium_turf ();
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Impact out = bounce_off (&(Impact){ .vz_mps = -rows[i][0] }, &turf);
      ck_assert_double_eq_tol (out.vz_mps / rows[i][0], rows[i][1], 5e-5);
      ck_assert_double_eq_tol (vec2_length (out.v_mps), 0, 1e-12);
    }
}
END_TEST

START_TEST (landings_rebound_as_computed_by_another_program)
{
  /* Forward, down, backspin; rebound forward and up: Penner 2002's formulas by an independent program, checked twice. No usual landing slides; the last row
     is a spin that no club gives, to see the sliding branch. */
  static const double rows[][6] = { { 13.013617, 13.289216, 0, 5.6096, 3.8894, -301.90 },
                                    { 22, 16.6, 218, 5.0593, 5.9523, -338.49 },
                                    { 16, 18, 860, 0.5312, 2.9895, -68.50 },
                                    { 12, 6, 2500, 4.5842, 3.6046, 1971.92 } };
  Surface turf = medium_turf ();
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Impact out = bounce_off (&(Impact){ { 0, rows[i][0] }, -rows[i][1], rows[i][2] }, &turf);
      ck_assert_double_eq_tol (out.v_mps.y, rows[i][3], 2e-3);
      ck_assert_double_eq_tol (out.vz_mps, rows[i][4], 2e-3);
      ck_assert_double_eq_tol (out.spin_radps, rows[i][5], 0.1);
      ck_assert_double_eq_tol (out.v_mps.x, 0, 1e-12);
    }
}
END_TEST

START_TEST (the_model_golfers_drives_roll_about_twenty_yards)
{
  /* Course Rating System: default roll 20 yd; scratch man 230 + 20, bogey man 180 + 20 (the split from a weak source). */
  Field fairway = { .turf = medium_turf () };
  FlightPoint scratch = driven (230, 10.5), bogey = driven (180, 12);
  ck_assert_double_eq_tol (run_of (&scratch, &fairway).run_m / YARD_M, 20, 7);
  ck_assert_double_eq_tol (run_of (&bogey, &fairway).run_m / YARD_M, 20, 10);
}
END_TEST

START_TEST (a_rolling_ball_goes_as_far_as_its_speed_lasts)
{
  /* v^2 / 2a, exact. */
  Field fairway = { .turf = medium_turf () };
  FlightPoint landing = { .v_mps = { 0, 3 } };
  Run run = run_of (&landing, &fairway);
  ck_assert_double_eq_tol (run.run_m, 9 / (2 * fairway.turf.roll_decel_mps2), 1e-9);
  ck_assert_double_eq_tol (run.time_s, 3 / fairway.turf.roll_decel_mps2, 1e-9);
}
END_TEST

/* ---- invariants ---- */

/* Of a ball of one kilogram: flying and turning, inertia 2/5 r^2. */
static double
energy (const Impact *impact)
{
  double v2 = vec2_dot (impact->v_mps, impact->v_mps) + impact->vz_mps * impact->vz_mps;
  return 0.5 * v2 + 0.2 * RADIUS_M * RADIUS_M * impact->spin_radps * impact->spin_radps;
}

START_TEST (no_bounce_wins_energy)
{
  GRand *random = g_rand_new_with_seed (3);
  for (int i = 0; i < 20000; i++)
    {
      Surface turf = surface_turf ((Firmness)(i % N_FIRMNESSES));
      turf.slope = vec2 (g_rand_double_range (random, -0.5, 0.5), g_rand_double_range (random, -0.5, 0.5));
      turf.bounce = g_rand_double_range (random, 0, 5);
      Impact in = { { g_rand_double_range (random, -30, 30), g_rand_double_range (random, -30, 30) },
                    g_rand_double_range (random, -40, 0),
                    g_rand_double_range (random, -1500, 1500) };
      Impact out = bounce_off (&in, &turf);
      ck_assert_double_le (energy (&out), energy (&in) * (1 + 1e-12));
      ck_assert (isfinite (out.spin_radps) && isfinite (out.vz_mps));
      /* And it leaves the plane. */
      ck_assert_double_ge (out.vz_mps - vec2_dot (out.v_mps, turf.slope), -1e-9);
    }
  g_rand_free (random);
}
END_TEST

START_TEST (a_slope_bounces_as_level_ground_tilted)
{
  /* The same impact, seen in a frame turned by the slope's angle about x. */
  double tilt = 0.2, c = cos (tilt), s = sin (tilt);
  Surface level = medium_turf (), slope = level;
  slope.slope = vec2 (0, tan (tilt));
  Impact in = { { 0, 15 }, -12, 300 };
  Impact out = bounce_off (&in, &level);
  Impact turned_in = { { 0, c * 15 + s * 12 }, s * 15 - c * 12, 300 };
  Impact turned_out = bounce_off (&turned_in, &slope);
  ck_assert_double_eq_tol (turned_out.v_mps.y, c * out.v_mps.y - s * out.vz_mps, 1e-12);
  ck_assert_double_eq_tol (turned_out.vz_mps, s * out.v_mps.y + c * out.vz_mps, 1e-12);
  ck_assert_double_eq_tol (turned_out.spin_radps, out.spin_radps, 1e-9);
}
END_TEST

START_TEST (the_mirrored_landing_runs_the_mirrored_way)
{
  Field field = { .turf = medium_turf () }, mirrored = field;
  field.turf.slope = vec2 (0.04, 0.01);
  mirrored.turf.slope = vec2 (-0.04, 0.01);
  FlightPoint landing = { .v_mps = { 2, 18 }, .vz_mps = -14, .spin_radps = 250 };
  Run run = run_of (&landing, &field);
  landing.v_mps.x = -2;
  Run other = run_of (&landing, &mirrored);
  ck_assert_double_eq_tol (run.rest.x, -other.rest.x, 1e-9);
  ck_assert_double_eq_tol (run.rest.y, other.rest.y, 1e-9);
}
END_TEST

START_TEST (on_level_ground_the_roll_in_one_is_the_roll_piece_by_piece)
{
  for (int firmness = 0; firmness < N_FIRMNESSES; firmness++)
    for (double loft = 12; loft < 60; loft += 8)
      {
        Field field = { .turf = surface_turf ((Firmness)firmness) };
        FlightPoint landing = driven (240 - 3 * loft, loft);
        Run run = run_of (&landing, &field), level;
        Surface tilted = field.turf;
        tilted.slope = vec2 (0.1, -0.2);
        ck_assert (run_solve_level (&landing, &tilted, &level, NULL));
        ck_assert_double_eq_tol (level.rest.x, run.rest.x, 1e-9);
        ck_assert_double_eq_tol (level.rest.y, run.rest.y, 1e-9);
        ck_assert_double_eq_tol (level.run_m, run.run_m, 1e-9);
        ck_assert_double_eq_tol (level.time_s, run.time_s, 1e-9);
        ck_assert_uint_eq (level.n_path, run.n_path);
      }
}
END_TEST

START_TEST (firmer_runs_further_and_downhill_further_than_uphill)
{
  FlightPoint landing = driven (230, 10.5);
  double before_m = 0;
  for (int firmness = 0; firmness < N_FIRMNESSES; firmness++)
    {
      Field field = { .turf = surface_turf ((Firmness)firmness) };
      double run_m = run_of (&landing, &field).run_m;
      ck_assert_double_gt (run_m, before_m + 3);
      before_m = run_m;
    }
  Field up = { .turf = medium_turf () }, down = up;
  up.turf.slope = vec2 (0, 0.05);
  down.turf.slope = vec2 (0, -0.05);
  ck_assert_double_lt (run_of (&landing, &up).run_m + 3, run_of (&landing, &down).run_m);
}
END_TEST

START_TEST (more_backspin_runs_less)
{
  Field field = { .turf = medium_turf () };
  FlightPoint landing = { .v_mps = { 0, 16 }, .vz_mps = -18, .spin_radps = 200 };
  double little = run_of (&landing, &field).rest.y;
  landing.spin_radps = 900;
  ck_assert_double_lt (run_of (&landing, &field).rest.y, little - 1);
}
END_TEST

/* ---- edges ---- */

START_TEST (a_ball_stays_where_the_ground_keeps_it)
{
  FlightPoint landing = driven (230, 10.5);
  Field sand = { .turf = medium_turf (), .stops_from_m = landing.at.y - 1, .stops_to_m = landing.at.y + 1 };
  Run run = run_of (&landing, &sand);
  ck_assert_double_eq (run.run_m, 0);
  ck_assert_uint_eq (run.n_path, 2);
  /* Water that a rolling ball comes to takes it at its edge. */
  FlightPoint rolling = { .v_mps = { 0, 3 } };
  Field water = { .turf = medium_turf (), .stops_from_m = 1, .stops_to_m = 5 };
  ck_assert_double_eq_tol (run_of (&rolling, &water).rest.y, 1, 2e-3);
  /* A hop flies over what is narrower. */
  Field ditch = { .turf = medium_turf (), .stops_from_m = landing.at.y + 1, .stops_to_m = landing.at.y + 2 };
  ck_assert_double_gt (run_of (&landing, &ditch).run_m, 5);
}
END_TEST

START_TEST (on_a_steep_bank_the_ball_comes_back_down_and_never_rolls_for_ever)
{
  Field bank = { .turf = medium_turf () };
  bank.turf.slope = vec2 (0, 0.5);
  FlightPoint rolling = { .v_mps = { 0, 3 } };
  Run run = run_of (&rolling, &bank);
  ck_assert_double_lt (run.rest.y, -1);
  ck_assert_double_le (run.time_s, RUN_LONGEST_S + 0.1);
}
END_TEST

START_TEST (numbers_that_are_none_are_refused)
{
  FlightPoint landing = driven (150, 30);
  Field wrong[4];
  for (size_t i = 0; i < G_N_ELEMENTS (wrong); i++)
    wrong[i] = (Field){ .turf = medium_turf () };
  wrong[0].turf.slope.x = NAN;
  wrong[1].turf.bounce = NAN;
  wrong[2].turf.roll_decel_mps2 = 0;
  wrong[3].turf.friction = -1;
  for (size_t i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      Run run;
      GError *error = NULL;
      ck_assert (!run_solve (&landing, field_at, &wrong[i], &run, &error));
      ck_assert (g_error_matches (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE));
      g_clear_error (&error);
    }
  for (size_t i = 1; i < G_N_ELEMENTS (wrong); i++)
    ck_assert (!run_solve_level (&landing, &wrong[i].turf, &(Run){ 0 }, NULL));
  Field fairway = { .turf = medium_turf () };
  Run run;
  landing.v_mps.x = NAN;
  ck_assert (!run_solve (&landing, field_at, &fairway, &run, NULL));
  ck_assert (!run_solve_level (&landing, &fairway.turf, &run, NULL));
}
END_TEST

START_TEST (firmness_reads_and_prints_its_word)
{
  for (int i = 0; i < N_FIRMNESSES; i++)
    {
      Firmness firmness = N_FIRMNESSES;
      ck_assert (firmness_from_token (firmness_token ((Firmness)i), &firmness));
      ck_assert_int_eq (firmness, i);
    }
  Firmness firmness;
  ck_assert (!firmness_from_token ("rock", &firmness) && !firmness_from_token (NULL, &firmness));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("flight-run");
  TCase *known = tcase_create ("known");
  tcase_add_test (known, a_ball_dropped_straight_rebounds_by_the_published_restitution);
  tcase_add_test (known, landings_rebound_as_computed_by_another_program);
  tcase_add_test (known, the_model_golfers_drives_roll_about_twenty_yards);
  tcase_add_test (known, a_rolling_ball_goes_as_far_as_its_speed_lasts);
  suite_add_tcase (suite, known);
  TCase *always = tcase_create ("always");
  tcase_add_test (always, no_bounce_wins_energy);
  tcase_add_test (always, a_slope_bounces_as_level_ground_tilted);
  tcase_add_test (always, the_mirrored_landing_runs_the_mirrored_way);
  tcase_add_test (always, on_level_ground_the_roll_in_one_is_the_roll_piece_by_piece);
  tcase_add_test (always, firmer_runs_further_and_downhill_further_than_uphill);
  tcase_add_test (always, more_backspin_runs_less);
  suite_add_tcase (suite, always);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, a_ball_stays_where_the_ground_keeps_it);
  tcase_add_test (edges, on_a_steep_bank_the_ball_comes_back_down_and_never_rolls_for_ever);
  tcase_add_test (edges, numbers_that_are_none_are_refused);
  tcase_add_test (edges, firmness_reads_and_prints_its_word);
  suite_add_tcase (suite, edges);
  return suite;
}
