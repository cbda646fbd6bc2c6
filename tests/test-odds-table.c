// SPDX-License-Identifier: GPL-3.0-or-later
/* The odds of one shot: landing and rest by area and by kind. */
#include "drawn.h"
#include "odds.h"
#include "suite.h"

#include <string.h>

static const Part *
disc (Kind kind, double x, double y, double rx, double ry)
{
  Part *part = part_new (kind);
  path_add_ellipse (&part->path, vec2 (x, y), rx, ry);
  return part_seal (part);
}

/* Fairway with a bunker in it and one beside it, water on one side, trees beyond; everything turned about the line when `mirror` is -1. */
static Hole *
demo_hole (double mirror)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -16, 100, 16, 260 }), disc (KIND_BUNKER, mirror * 6, 205, 4, 7),
                          disc (KIND_WATER, mirror * 30, 190, 12, 40), rectangle (KIND_TREES, (Box){ -60, 250, 60, 290 }),
                          disc (KIND_BUNKER, mirror * -17, 215, 6, 6) };
  return hole_over (KIND_ROUGH, parts, 5);
}

static Club
club_of (double correlation)
{
  Club club;
  club_init (&club);
  club.name = (char *)"driver";
  club.carry_m = 200;
  club.carry_sd_m = 12;
  club.side_sd_m = 9;
  club.correlation = correlation;
  return club;
}

static ShotResult
fly (const Hole *hole, const Club *club)
{
  ShotInput input = { .aim = { 0, 200 }, .club = club, .swing = 1, .curve_m = NAN };
  ShotResult shot;
  GError *error = NULL;
  ck_assert_msg (odds_shot (hole, NULL, &input, &shot, &error), "%s", error != NULL ? error->message : "");
  return shot;
}

static OddsTable *
table_of (const Hole *hole, const ShotResult *shot)
{
  GError *error = NULL;
  OddsTable *table = odds_table_new (hole, shot, &error);
  ck_assert_msg (table != NULL, "%s", error != NULL ? error->message : "");
  double landing = 0, rest = 0, by_kind = 0;
  for (size_t i = 0; i < table->n_rows; i++)
    {
      ck_assert (table->rows[i].landing >= 0 && table->rows[i].rest >= 0);
      ck_assert (i == 0 || table->rows[i].rest <= table->rows[i - 1].rest);
      landing += table->rows[i].landing;
      rest += table->rows[i].rest;
    }
  for (int kind = 0; kind < N_KINDS; kind++)
    by_kind += table->rest[kind] + table->landing[kind];
  ck_assert_double_eq_tol (landing, 1, 1e-9);
  ck_assert_double_eq_tol (rest, 1, 1e-9);
  ck_assert_double_eq_tol (by_kind, 2, 1e-9);
  return table;
}

static OddsRow
row_of (const OddsTable *table, int part)
{
  for (size_t i = 0; i < table->n_rows; i++)
    if (table->rows[i].part == part)
      return table->rows[i];
  return (OddsRow){ .part = part };
}

static double
below (double z)
{
  return normal_below (z);
}

/* ---- known answers ---- */

START_TEST (a_fairway_s_landing_chance_is_the_product_of_two_lines)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -15, 180, 10, 230 }) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 1);
  Club club = club_of (0);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  double expected = (below (10 / 9.0) - below (-15 / 9.0)) * (below (30 / 12.0) - below (-20 / 12.0));
  ck_assert_double_eq_tol (row_of (table, 0).landing, expected, 1e-8);
  ck_assert_double_eq_tol (table->landing[KIND_FAIRWAY], expected, 1e-8);
  ck_assert_double_eq_tol (table->landing[KIND_ROUGH], 1 - expected, 1e-8);
}
END_TEST

START_TEST (a_biased_and_correlated_club_has_sheppard_s_quarter)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ 7, 200, 900, 1000 }) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 1);
  Club club = club_of (0.5);
  club.side_bias_m = 7;
  ShotInput input = { .aim = { 0, 200 }, .club = &club, .swing = 1, .curve_m = NAN };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  ck_assert_double_eq_tol (row_of (table, 0).landing, 1.0 / 3, 1e-6);
}
END_TEST

START_TEST (poor_strikes_are_a_second_shorter_and_wider_pattern)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -500, -500, 500, 160 }) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 1);
  Club club = club_of (0);
  club.mishit_chance = 0.2;
  club.mishit_carry_share = 0.75;
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  double expected = 0.8 * below (-40 / 12.0) + 0.2 * below (10 / (12 * MISHIT_SPREAD));
  ck_assert_double_eq_tol (row_of (table, 0).landing, expected, 1e-5);
}
END_TEST

START_TEST (a_topped_ball_stays_at_the_golfer_s_feet)
{
  const Part *parts[] = { rectangle (KIND_TEE, (Box){ -900, -900, 900, 100 }) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 1);
  Club club = club_of (0);
  club.mishit_chance = 1;
  club.mishit_carry_share = 0;
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  ck_assert_double_eq_tol (row_of (table, 0).rest, below (100 / (12 * MISHIT_SPREAD)), 1e-6);
}
END_TEST

/* ---- rest ---- */

START_TEST (where_nothing_runs_rest_is_landing)
{
  const Part *parts[]
      = { rectangle (KIND_WASTE, (Box){ -900, -900, 900, 900 }), rectangle (KIND_WATER, (Box){ -900, -900, 900, 200 }),
          rectangle (KIND_BUNKER, (Box){ -900, 200, 900, 1900 }) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 3);
  Club club = club_of (0.3);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  for (size_t i = 0; i < table->n_rows; i++)
    ck_assert_double_eq_tol (table->rows[i].rest, table->rows[i].landing, 1e-12);
}
END_TEST

START_TEST (on_one_turf_rest_is_landing_moved_on_by_the_run)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -900, -900, 900, 210 }), rectangle (KIND_FAIRWAY, (Box){ -900, 210, 900, 1900 }) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 2);
  Club club = club_of (0);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  ck_assert_double_gt (shot.run_m, 5);
  ck_assert_double_eq_tol (row_of (table, 0).rest, below ((210 - 200 - shot.run_m) / 12), REST_ERROR);
}
END_TEST

/* Share of the balls that rest in each part, every ball run as a shot is: a fine grid over the pattern. */
static void
run_every_ball (const Hole *hole, const ShotResult *shot, double *rest)
{
  enum
  {
    N = 160
  };
  for (int i = 0; i < N; i++)
    for (int j = 0; j < N; j++)
      {
        double u = 8.0 * (i + 0.5) / N - 4, v = 8.0 * (j + 0.5) / N - 4, cell = 8.0 / N;
        double weight = (below (u + cell / 2) - below (u - cell / 2)) * (below (v + cell / 2) - below (v - cell / 2));
        Normal normal = pattern_normal (&shot->pattern);
        FlightPoint landing = flight_landing (&shot->flight);
        landing.at = vec2_add (normal.mean, vec2_add (vec2_scale (normal.a, u), vec2_scale (normal.b, v)));
        Vec2 at;
        ck_assert (odds_rest_of (hole, &shot->conditions, &landing, &at, NULL));
        rest[hole_area_at (hole, at) + 1] += weight;
      }
}

START_TEST (rest_chances_are_those_of_running_every_ball)
{
  g_autoptr (Hole) hole = demo_hole (1);
  Club club = club_of (0.3);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  double rest[6] = { 0 };
  run_every_ball (hole, &shot, rest);
  for (int part = -1; part < 5; part++)
    ck_assert_double_eq_tol (row_of (table, part).rest, rest[part + 1], REST_ERROR);
  ck_assert_double_gt (row_of (table, 1).rest, row_of (table, 1).landing + 0.01);
}
END_TEST

/* ---- trees on the way ---- */

static const Part *
wood (double x0, double y0, double x1, double y1, double height_m, double density)
{
  Part *part = part_new (KIND_TREES);
  path_add_rectangle (&part->path, (Box){ x0, y0, x1, y1 }, 0, 0);
  part->height_m = height_m;
  part->density = density;
  return part_seal (part);
}

START_TEST (a_wood_across_the_line_keeps_the_balls_that_it_stops_in_the_air)
{
  for (int i = 0; i <= 4; i++)
    {
      double density = 0.25 * i;
      const Part *parts[]
          = { rectangle (KIND_FAIRWAY, (Box){ -900, -900, 900, 900 }), wood (-300, 100, 300, 110, 200, density) };
      g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 2);
      Club club = club_of (0.2);
      ShotResult shot = fly (hole, &club);
      g_autoptr (OddsTable) table = table_of (hole, &shot);
      ck_assert_double_eq_tol (row_of (table, 1).rest, density, 1e-6);
      ck_assert_double_eq_tol (table->rest[KIND_TREES], density, 1e-6);
      ck_assert_double_eq_tol (row_of (table, 0).landing, 1, 1e-6);
    }
}
END_TEST

START_TEST (behind_one_wood_another_stops_what_is_left)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -900, -900, 900, 900 }), wood (-300, 130, 300, 140, 200, 0.5),
                          wood (-300, 100, 300, 110, 200, 0.4) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 3);
  Club club = club_of (0);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  ck_assert_double_eq_tol (row_of (table, 2).rest, 0.4, 1e-6);
  ck_assert_double_eq_tol (row_of (table, 1).rest, 0.6 * 0.5, 1e-6);
  ck_assert_double_eq_tol (row_of (table, 0).rest, 0.6 * 0.5, 1e-6);
}
END_TEST

START_TEST (what_trees_stop_is_what_their_table_says)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -900, -900, 900, 900 }), tree (4, 150, 6, 60), tree (-9, 60, 3, 60),
                          wood (8, 90, 60, 130, 80, 0.7) };
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, 4);
  Club club = club_of (0.3);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  g_autoptr (TreeTable) trees = tree_table_new (hole, &shot);
  ck_assert_double_lt (trees->chance, 0.8);
  ck_assert_double_eq_tol (table->rest[KIND_TREES], 1 - trees->chance, REST_ERROR);
  ck_assert_double_gt (row_of (table, 1).rest, 0.05);
  ck_assert_int_eq (row_of (table, 1).kind, KIND_TREES);
  ck_assert_double_eq (row_of (table, 1).landing, 0);
}
END_TEST

START_TEST (more_trees_than_a_ball_can_meet_still_add_up)
{
  enum
  {
    N = 300
  };
  const Part *parts[N];
  for (int i = 0; i < N; i++)
    parts[i] = i % 2 ? tree (-10 + i % 21, 20 + 0.5 * i, 3, 90) : wood (-40, 20 + 0.5 * i, 40, 21 + 0.5 * i, 90, 0.05);
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, N);
  Club club = club_of (0);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  ck_assert_double_gt (table->rest[KIND_TREES], 0.4);
}
END_TEST

/* ---- invariants ---- */

START_TEST (a_mirrored_hole_has_the_mirrored_odds)
{
  g_autoptr (Hole) hole = demo_hole (1), mirrored = demo_hole (-1);
  Club club = club_of (0.4), other = club_of (-0.4);
  ShotResult shot = fly (hole, &club), back = fly (mirrored, &other);
  g_autoptr (OddsTable) table = table_of (hole, &shot), reflected = table_of (mirrored, &back);
  for (int part = -1; part < 5; part++)
    {
      ck_assert_double_eq_tol (row_of (table, part).landing, row_of (reflected, part).landing, 1e-6);
      ck_assert_double_eq_tol (row_of (table, part).rest, row_of (reflected, part).rest, REST_ERROR);
    }
}
END_TEST

START_TEST (splitting_an_area_changes_no_sum)
{
  const Part *whole[] = { rectangle (KIND_FAIRWAY, (Box){ -20, 150, 20, 250 }), disc (KIND_BUNKER, 4, 200, 6, 6) };
  const Part *split[]
      = { rectangle (KIND_FAIRWAY, (Box){ -20, 150, 20, 197 }), rectangle (KIND_FAIRWAY, (Box){ -20, 197, 1, 250 }),
          rectangle (KIND_FAIRWAY, (Box){ 1, 197, 20, 250 }), disc (KIND_BUNKER, 4, 200, 6, 6) };
  g_autoptr (Hole) one = hole_over (KIND_ROUGH, whole, 2), many = hole_over (KIND_ROUGH, split, 4);
  Club club = club_of (0.2);
  ShotResult shot = fly (one, &club), same = fly (many, &club);
  g_autoptr (OddsTable) a = table_of (one, &shot), b = table_of (many, &same);
  for (int kind = 0; kind < N_KINDS; kind++)
    {
      ck_assert_double_eq_tol (a->landing[kind], b->landing[kind], 1e-10);
      ck_assert_double_eq_tol (a->rest[kind], b->rest[kind], REST_ERROR);
    }
}
END_TEST

START_TEST (more_swing_more_carry_the_same_sum)
{
  g_autoptr (Hole) hole = demo_hole (1);
  Club club = club_of (0);
  for (int i = 1; i <= 10; i++)
    {
      ShotInput input = { .aim = { 3.0 * i, 150 }, .club = &club, .swing = 0.1 * i, .curve_m = NAN };
      ShotResult shot;
      ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
      odds_table_free (table_of (hole, &shot));
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (a_club_without_spread_lands_and_rests_in_one_place)
{
  g_autoptr (Hole) hole = demo_hole (1);
  Club club = club_of (0);
  club.carry_sd_m = club.side_sd_m = 0;
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  ck_assert_double_eq (row_of (table, hole_area_at (hole, shot.landing)).landing, 1);
  ck_assert_double_eq_tol (row_of (table, hole_area_at (hole, shot.rest)).rest, 1, 1e-12);
}
END_TEST

START_TEST (full_correlation_and_huge_spreads_still_add_up)
{
  g_autoptr (Hole) hole = demo_hole (1);
  const double spreads[][3]
      = { { 12, 9, 1 }, { 12, 9, -1 }, { 12, 0, 0 }, { 0, 9, 0 }, { 1e6, 1e6, 0 }, { 1e-7, 9, 0.5 }, { 12, 1e6, 1 } };
  for (size_t i = 0; i < G_N_ELEMENTS (spreads); i++)
    {
      Club club = club_of (spreads[i][2]);
      club.carry_sd_m = spreads[i][0];
      club.side_sd_m = spreads[i][1];
      ShotResult shot = fly (hole, &club);
      odds_table_free (table_of (hole, &shot));
    }
}
END_TEST

START_TEST (a_hole_with_nothing_on_it_is_all_ground)
{
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, NULL, 0);
  Club club = club_of (0);
  ShotResult shot = fly (hole, &club);
  g_autoptr (OddsTable) table = table_of (hole, &shot);
  ck_assert_uint_eq (table->n_rows, 1);
  ck_assert_int_eq (table->rows[0].part, -1);
  ck_assert_double_eq (table->rows[0].landing, 1);
}
END_TEST

START_TEST (a_pattern_that_is_not_finite_is_refused)
{
  g_autoptr (Hole) hole = demo_hole (1);
  Club club = club_of (0);
  ShotResult shot = fly (hole, &club);
  g_autoptr (GError) error = NULL;
  shot.pattern.side_sd_m = NAN;
  ck_assert_ptr_null (odds_table_new (hole, &shot, &error));
  ck_assert (g_error_matches (error, ODDS_ERROR, ODDS_ERROR_NUMBERS));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-table");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_fairway_s_landing_chance_is_the_product_of_two_lines);
  tcase_add_test (known, a_biased_and_correlated_club_has_sheppard_s_quarter);
  tcase_add_test (known, poor_strikes_are_a_second_shorter_and_wider_pattern);
  tcase_add_test (known, a_topped_ball_stays_at_the_golfer_s_feet);
  suite_add_tcase (suite, known);
  TCase *rest = tcase_create ("rest");
  tcase_set_timeout (rest, 60);
  tcase_add_test (rest, where_nothing_runs_rest_is_landing);
  tcase_add_test (rest, on_one_turf_rest_is_landing_moved_on_by_the_run);
  tcase_add_test (rest, rest_chances_are_those_of_running_every_ball);
  suite_add_tcase (suite, rest);
  TCase *trees = tcase_create ("trees");
  tcase_set_timeout (trees, 30);
  tcase_add_test (trees, a_wood_across_the_line_keeps_the_balls_that_it_stops_in_the_air);
  tcase_add_test (trees, behind_one_wood_another_stops_what_is_left);
  tcase_add_test (trees, what_trees_stop_is_what_their_table_says);
  tcase_add_test (trees, more_trees_than_a_ball_can_meet_still_add_up);
  suite_add_tcase (suite, trees);
  TCase *invariants = tcase_create ("invariants");
  tcase_set_timeout (invariants, 30);
  tcase_add_test (invariants, a_mirrored_hole_has_the_mirrored_odds);
  tcase_add_test (invariants, splitting_an_area_changes_no_sum);
  tcase_add_test (invariants, more_swing_more_carry_the_same_sum);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_set_timeout (edges, 30);
  tcase_add_test (edges, a_club_without_spread_lands_and_rests_in_one_place);
  tcase_add_test (edges, full_correlation_and_huge_spreads_still_add_up);
  tcase_add_test (edges, a_hole_with_nothing_on_it_is_all_ground);
  tcase_add_test (edges, a_pattern_that_is_not_finite_is_refused);
  suite_add_tcase (suite, edges);
  return suite;
}
