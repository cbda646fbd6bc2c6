// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: the day as it is on a hole. */
#include "odds.h"
#include "suite.h"

#include <string.h>

#define EXACT 1e-9

/* A hole without parts whose top lies at this bearing, at this altitude. */
static Hole *
hole_with (double up_bearing_deg, double altitude_m)
{
  HoleInfo info;
  hole_info_init (&info);
  info.up_bearing_deg = up_bearing_deg;
  info.altitude_m = altitude_m;
  Hole *hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  return hole;
}

static Conditions
conditions_for (const Hole *hole, const Day *day)
{
  Conditions conditions;
  g_autoptr (GError) error = NULL;
  ck_assert_msg (conditions_of_day (hole, day, &conditions, &error), "%s", error != NULL ? error->message : "");
  return conditions;
}

static Vec2
wind_on (double up_bearing_deg, double from_deg)
{
  g_autoptr (Hole) hole = hole_with (up_bearing_deg, NAN);
  Day day;
  day_init (&day);
  day.wind_mps = 5;
  day.wind_from_deg = from_deg;
  return conditions_for (hole, &day).wind.to_mps;
}

static void
assert_along (Vec2 wind, double x, double y)
{
  ck_assert_double_eq_tol (wind.x, x, EXACT);
  ck_assert_double_eq_tol (wind.y, y, EXACT);
}

/* ---- known answers ---- */

START_TEST (a_wind_blows_from_its_bearing_whichever_way_the_hole_runs)
{
  assert_along (wind_on (0, 0), 0, -5);   /* a north wind down a hole that runs north */
  assert_along (wind_on (0, 180), 0, 5);  /* a south wind behind it */
  assert_along (wind_on (0, 270), 5, 0);  /* a west wind from the left */
  assert_along (wind_on (90, 90), 0, -5); /* an east wind against a hole that runs east */
  assert_along (wind_on (90, 0), 5, 0);   /* a north wind from the left of it */
  assert_along (wind_on (45, 225), 0, 5);
  assert_along (wind_on (350, -10), 0, -5);
}
END_TEST

START_TEST (air_thins_with_altitude_as_in_the_standard_atmosphere)
{
  /* International Standard Atmosphere, ISO 2533: 89874.6 Pa at 1000 m; at one temperature the density of dry air goes with the pressure. */
  g_autoptr (Hole) hole = hole_with (NAN, NAN);
  Day low, high, pressed;
  day_init (&low);
  low.humidity = 0;
  high = pressed = low;
  high.altitude_m = 1000;
  pressed.pressure_pa = 89874.6;
  double at_sea = conditions_for (hole, &low).air.density_kgm3;
  ck_assert_double_eq_tol (conditions_for (hole, &high).air.density_kgm3 / at_sea, 89874.6 / 101325, 1e-5);
  ck_assert_double_eq_tol (conditions_for (hole, &pressed).air.density_kgm3 / at_sea, 89874.6 / 101325, 1e-9);
}
END_TEST

/* ---- invariants ---- */

START_TEST (a_day_that_says_nothing_is_the_standard_day)
{
  g_autoptr (Hole) hole = hole_with (NAN, NAN);
  Day day;
  day_init (&day);
  Conditions standard = conditions_standard (), none = conditions_for (hole, NULL), empty = conditions_for (hole, &day);
  ck_assert (conditions_equal (&standard, &none));
  ck_assert (conditions_equal (&standard, &empty));
  ck_assert_double_eq (standard.green_speed_ft, 9);
  ck_assert_int_eq (standard.firmness, FIRMNESS_MEDIUM);
}
END_TEST

START_TEST (the_hole_s_altitude_counts_where_the_day_gives_none)
{
  g_autoptr (Hole) low = hole_with (NAN, NAN), high = hole_with (NAN, 1000);
  Day given, pressed;
  day_init (&given);
  given.altitude_m = 1000;
  Conditions by_day = conditions_for (low, &given), by_hole = conditions_for (high, NULL);
  ck_assert (conditions_equal (&by_day, &by_hole));
  given.altitude_m = 0;
  Conditions standard = conditions_standard (), told = conditions_for (high, &given);
  ck_assert (conditions_equal (&told, &standard));
  day_init (&pressed);
  pressed.pressure_pa = STANDARD_PRESSURE_PA;
  pressed.altitude_m = 3000;
  told = conditions_for (high, &pressed);
  ck_assert_msg (conditions_equal (&told, &standard), "a pressure wins over altitudes");
}
END_TEST

START_TEST (the_ground_is_as_the_day_says)
{
  g_autoptr (Hole) hole = hole_with (NAN, NAN);
  Day day;
  day_init (&day);
  day.firmness = (char *)"firm";
  day.green_speed_ft = 11;
  Conditions told = conditions_for (hole, &day);
  ck_assert_int_eq (told.firmness, FIRMNESS_FIRM);
  ck_assert_double_eq (told.green_speed_ft, 11);
}
END_TEST

/* ---- edges ---- */

START_TEST (a_calm_needs_neither_bearing_nor_north)
{
  g_autoptr (Hole) hole = hole_with (NAN, NAN);
  Day day;
  day_init (&day);
  day.wind_mps = 0;
  Conditions calm = conditions_for (hole, &day), standard = conditions_standard ();
  ck_assert (conditions_equal (&calm, &standard));
  day.wind_mps = NAN;
  day.wind_from_deg = 200;
  calm = conditions_for (hole, &day);
  ck_assert (conditions_equal (&calm, &standard));
}
END_TEST

static void
assert_refused (const Hole *hole, const Day *day, const char *words)
{
  Conditions conditions = conditions_standard (), before = conditions;
  g_autoptr (GError) error = NULL;
  ck_assert (!conditions_of_day (hole, day, &conditions, &error));
  ck_assert (g_error_matches (error, ODDS_ERROR, ODDS_ERROR_DAY));
  ck_assert_msg (strstr (error->message, words) != NULL, "%s", error->message);
  ck_assert (conditions_equal (&conditions, &before));
}

START_TEST (a_wind_that_cannot_be_turned_onto_the_hole_is_refused)
{
  g_autoptr (Hole) lost = hole_with (NAN, NAN), north = hole_with (0, NAN);
  Day day;
  day_init (&day);
  day.wind_mps = 4;
  assert_refused (north, &day, "the wind has no bearing");
  day.wind_from_deg = 90;
  assert_refused (lost, &day, "where north is");
}
END_TEST

START_TEST (numbers_golf_is_not_played_in_are_refused_with_their_range)
{
  static const struct
  {
    size_t field;
    double number;
    const char *words;
  } bad[] = {
    { offsetof (Day, wind_mps), 134.112, "30 m/s (67 mph)" }, /* 300 mph */
    { offsetof (Day, wind_mps), -1, "30 m/s" },
    { offsetof (Day, wind_mps), INFINITY, "30 m/s" },
    { offsetof (Day, wind_from_deg), 400, "360 degrees" },
    { offsetof (Day, temperature_c), 80, "-20 to 50" },
    { offsetof (Day, temperature_c), -40, "-20 to 50" },
    { offsetof (Day, altitude_m), 9000, "5000 m" },
    { offsetof (Day, pressure_pa), -101325, "500 to 1100 hPa" },
    { offsetof (Day, pressure_pa), 1013, "500 to 1100 hPa" },
    { offsetof (Day, humidity), 60, "0 to 1" },
    { offsetof (Day, green_speed_ft), 0, "3 to 20 ft" },
  };
  g_autoptr (Hole) hole = hole_with (0, NAN);
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      Day day;
      day_init (&day);
      *(double *)(void *)((char *)&day + bad[i].field) = bad[i].number;
      assert_refused (hole, &day, bad[i].words);
    }
  Day day;
  day_init (&day);
  day.firmness = (char *)"baked";
  assert_refused (hole, &day, "soft, medium or firm");
  g_autoptr (Hole) aloft = hole_with (0, 8848);
  assert_refused (aloft, NULL, "hole's altitude");
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-day");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_wind_blows_from_its_bearing_whichever_way_the_hole_runs);
  tcase_add_test (known, air_thins_with_altitude_as_in_the_standard_atmosphere);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, a_day_that_says_nothing_is_the_standard_day);
  tcase_add_test (invariants, the_hole_s_altitude_counts_where_the_day_gives_none);
  tcase_add_test (invariants, the_ground_is_as_the_day_says);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, a_calm_needs_neither_bearing_nor_north);
  tcase_add_test (edges, a_wind_that_cannot_be_turned_onto_the_hole_is_refused);
  tcase_add_test (edges, numbers_golf_is_not_played_in_are_refused_with_their_range);
  suite_add_tcase (suite, edges);
  return suite;
}
