// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: stance, bounce and roll on a slope that an arrow tells of. */
#include "odds-stance.h"
#include "suite.h"

#define EXACT 1e-12
/* What the flight's landings are true to, and a few of them added up. */
#define LANDING_M 5e-3

static const Club iron
    = { .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 5, .side_sd_m = 6, .loft_deg = 32, .apex_m = NAN };

static const Part *
arrow (Vec2 from, Vec2 to, double percent)
{
  Part *part = part_new (KIND_SLOPE);
  path_move_to (&part->path, from);
  path_line_to (&part->path, to);
  part->percent = percent;
  return part_seal (part);
}

static const Part *
height (double x, double y, double height_m)
{
  Part *part = part_new (KIND_SPOT_HEIGHT);
  part->at = vec2 (x, y);
  part->height_m = height_m;
  return part_seal (part);
}

static Hole *
hole_of (const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = KIND_FAIRWAY;
  info.datum = g_strdup ("gate");
  Hole *hole = hole_new (&info, parts, n_parts, NULL);
  hole_info_clear (&info);
  return hole;
}

static ShotResult
fly (const Hole *hole)
{
  LieTable lies = lie_table_usual ();
  ShotInput input = { .aim = { 0, 150 }, .club = &iron, .swing = 1, .curve_m = NAN, .lies = &lies };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  return shot;
}

START_TEST (an_arrow_points_down_and_tells_the_rise_against_it)
{
  const Part *parts[] = { arrow (vec2 (-2, 0), vec2 (2, 0), 5) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  Vec2 slope;
  ck_assert (odds_stance_arrow (hole, vec2 (0, 0), &slope));
  ck_assert_double_eq_tol (slope.x, -0.05, EXACT);
  ck_assert_double_eq_tol (slope.y, 0, EXACT);
}
END_TEST

START_TEST (the_nearest_arrow_within_reach_counts)
{
  const Part *parts[] = { arrow (vec2 (0, 4), vec2 (0, 6), 3), arrow (vec2 (-3, -1), vec2 (-3, 1), 8) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  Vec2 slope;
  ck_assert (odds_stance_arrow (hole, vec2 (0, 0), &slope));
  ck_assert_double_eq_tol (slope.y, -0.08, EXACT);
  ck_assert (odds_stance_arrow (hole, vec2 (0, 6 + STANCE_ARROW_M - 0.01), &slope));
  ck_assert_double_eq_tol (slope.y, -0.03, EXACT);
  ck_assert (!odds_stance_arrow (hole, vec2 (0, 6 + STANCE_ARROW_M + 0.01), &slope));
}
END_TEST

START_TEST (a_shot_from_an_arrow_s_slope_leaves_as_from_the_same_slope_of_heights)
{
  /* The ground beyond is level with the arrow and goes on as a plane with the heights: the first direction tells the stance alone. */
  const Part *told[] = { arrow (vec2 (-2, 0), vec2 (2, 0), 6) };
  const Part *measured[] = { height (-400, -400, 24), height (400, -400, -24), height (-400, 400, 24), height (400, 400, -24) };
  g_autoptr (Hole) arrows = hole_of (told, 1), heights = hole_of (measured, 4), level = hole_of (NULL, 0);
  ShotResult by_arrow = fly (arrows), by_height = fly (heights), flat = fly (level);
  ck_assert_double_eq_tol (by_arrow.stance_right_rad, atan (-0.06), 1e-9);
  ck_assert_double_eq_tol (by_arrow.stance_right_rad, by_height.stance_right_rad, 1e-6);
  ck_assert_double_eq_tol (by_arrow.start.x, by_height.start.x, 1e-6);
  ck_assert_double_eq_tol (by_arrow.flight.points[0].vz_mps, by_height.flight.points[0].vz_mps, 1e-4);
  /* Ball below a right-hander's feet: it goes right. */
  ck_assert_double_gt (by_arrow.landing.x, flat.landing.x + 1);
}
END_TEST

START_TEST (uphill_and_downhill_arrows_send_the_ball_higher_and_lower)
{
  const Part *up[] = { arrow (vec2 (0, 1), vec2 (0, -1), 8) }, *down[] = { arrow (vec2 (0, -1), vec2 (0, 1), 8) };
  g_autoptr (Hole) uphill = hole_of (up, 1), downhill = hole_of (down, 1), level = hole_of (NULL, 0);
  ShotResult high = fly (uphill), low = fly (downhill), flat = fly (level);
  ck_assert_double_gt (high.stance_up_rad, 0);
  ck_assert_double_gt (high.apex_m, flat.apex_m + 1);
  ck_assert_double_lt (low.apex_m, flat.apex_m - 1);
}
END_TEST

START_TEST (an_arrow_and_its_opposite_with_a_negative_fall_are_the_same_slope)
{
  const Part *one[] = { arrow (vec2 (-2, 0), vec2 (2, 1), 5) }, *other[] = { arrow (vec2 (2, 1), vec2 (-2, 0), -5) };
  g_autoptr (Hole) a = hole_of (one, 1), b = hole_of (other, 1);
  Vec2 p, q;
  ck_assert (odds_stance_arrow (a, vec2 (0, 0), &p) && odds_stance_arrow (b, vec2 (0, 0), &q));
  ck_assert_double_eq_tol (p.x, q.x, EXACT);
  ck_assert_double_eq_tol (p.y, q.y, EXACT);
}
END_TEST

START_TEST (measured_heights_round_the_ball_count_before_an_arrow_and_beyond_them_the_arrow_does)
{
  const Part *parts[] = {
    arrow (vec2 (-1, 0), vec2 (1, 0), 9),    height (-50, -50, 1), height (50, -50, 1), height (-50, 50, 1), height (50, 50, 1),
    arrow (vec2 (-1, 100), vec2 (1, 100), 9)
  };
  g_autoptr (Hole) hole = hole_of (parts, 6);
  Vec2 slope;
  ck_assert (!odds_stance_arrow (hole, vec2 (0, 0), &slope));
  ck_assert (odds_stance_arrow (hole, vec2 (0, 100), &slope));
  ShotResult shot = fly (hole);
  ck_assert_double_eq_tol (shot.stance_right_rad, 0, 1e-9);
}
END_TEST

/* An arrow across the landing of the 7 iron, and a plane of heights that falls the same way. */
static Hole *
hole_with_arrow_at (Vec2 at, double percent)
{
  const Part *parts[] = { arrow (vec2 (at.x - 2, at.y), vec2 (at.x + 2, at.y), percent) };
  return hole_of (parts, 1);
}

START_TEST (a_ball_that_comes_down_by_an_arrow_bounces_and_rolls_downhill)
{
  g_autoptr (Hole) level = hole_of (NULL, 0);
  ShotResult flat = fly (level);
  g_autoptr (Hole) tilted = hole_with_arrow_at (flat.landing, 4), away = hole_with_arrow_at (vec2 (60, 150), 4);
  ShotResult shot = fly (tilted), other = fly (away);
  /* Its flight and height are as before; its run turns down the slope, to the right. */
  ck_assert_double_eq_tol (vec2_distance (shot.landing, flat.landing), 0, LANDING_M);
  ck_assert_double_gt (shot.rest.x - shot.landing.x, flat.rest.x - flat.landing.x + 0.2);
  ck_assert_double_eq_tol (vec2_distance (other.rest, flat.rest), 0, LANDING_M);
}
END_TEST

START_TEST (a_run_by_an_arrow_is_that_on_the_same_slope_of_heights)
{
  /* The plane falls 5 m to the right and holds the landing at the height of the ball: the same impact, and the arrow reaches as far as the ball runs. */
  const Part *told[] = { arrow (vec2 (-2, 100), vec2 (2, 100), 2.5) };
  const Part *measured[]
      = { height (-100, -100, 2.5), height (100, -100, -2.5), height (-100, 300, 2.5), height (100, 300, -2.5) };
  g_autoptr (Hole) arrows = hole_of (told, 1), heights = hole_of (measured, 4);
  FlightPoint landing = { .at = { 0, 95 }, .v_mps = { 0, 12 }, .vz_mps = -14, .spin_radps = 400 };
  Vec2 by_arrow, by_height;
  Conditions standard = conditions_standard ();
  ck_assert (odds_rest_of (arrows, &standard, &landing, &by_arrow, NULL));
  ck_assert (odds_rest_of (heights, &standard, &landing, &by_height, NULL));
  ck_assert_double_eq_tol (vec2_distance (by_arrow, by_height), 0, 0.01);
  ck_assert_double_gt (by_arrow.x, 0.05);
}
END_TEST

START_TEST (an_arrow_tells_a_run_the_same_among_many_others)
{
  enum
  {
    N_ARROWS = 40
  };
  const Part *few[] = { arrow (vec2 (-2, 100), vec2 (2, 100), 2.5) }, *many[N_ARROWS];
  for (int i = 0; i < N_ARROWS; i++)
    many[i] = i == N_ARROWS - 1 ? arrow (vec2 (-2, 100), vec2 (2, 100), 2.5) : arrow (vec2 (200 + i, 0), vec2 (200 + i, 2), 9);
  g_autoptr (Hole) one = hole_of (few, 1), all = hole_of (many, N_ARROWS);
  FlightPoint landing = { .at = { 0, 95 }, .v_mps = { 0, 12 }, .vz_mps = -14, .spin_radps = 400 };
  Vec2 by_one, by_all;
  Conditions standard = conditions_standard ();
  ck_assert (odds_rest_of (one, &standard, &landing, &by_one, NULL));
  ck_assert (odds_rest_of (all, &standard, &landing, &by_all, NULL));
  ck_assert (by_one.x == by_all.x && by_one.y == by_all.y);
  ck_assert_double_gt (by_one.x, 0.05);
}
END_TEST

/* How likely the 7 iron's ball ends up in a bunker just right of where it comes down, with these arrows on the hole. */
static double
chance_of_sand (const Part *slope)
{
  Part *sand = part_new (KIND_BUNKER);
  path_add_rectangle (&sand->path, (Box){ 5, 120, 60, 190 }, 0, 0);
  const Part *parts[] = { part_seal (sand), slope };
  g_autoptr (Hole) hole = hole_of (parts, slope != NULL ? 2 : 1);
  ShotResult shot = fly (hole);
  OddsTable *table = odds_table_new (hole, &shot, NULL);
  ck_assert_ptr_nonnull (table);
  double chance = table->rest[KIND_BUNKER];
  odds_table_free (table);
  return chance;
}

START_TEST (the_chances_follow_an_arrow_as_the_mean_ball_does)
{
  double level = chance_of_sand (NULL);
  double towards = chance_of_sand (arrow (vec2 (-2, 140), vec2 (2, 140), 6)),
         from = chance_of_sand (arrow (vec2 (2, 140), vec2 (-2, 140), 6));
  double far = chance_of_sand (arrow (vec2 (-80, 140), vec2 (-82, 140), 6));
  ck_assert_double_gt (towards, level + 0.01);
  /* Away from the sand nothing more runs into it; on the level only what comes down in it is in it. */
  ck_assert_double_le (from, level + REST_ERROR);
  ck_assert_double_eq_tol (far, level, REST_ERROR);
}
END_TEST

START_TEST (an_arrow_without_a_length_or_a_number_says_nothing)
{
  const Part *parts[] = { arrow (vec2 (0, 0), vec2 (0, 0), 5), arrow (vec2 (-1, 0), vec2 (1, 0), NAN) };
  g_autoptr (Hole) hole = hole_of (parts, 2), empty = hole_of (NULL, 0);
  Vec2 slope;
  ck_assert (!odds_stance_arrow (hole, vec2 (0, 0), &slope));
  ck_assert (!odds_stance_arrow (empty, vec2 (0, 0), &slope));
  ck_assert (!odds_stance_arrow (hole, vec2 (NAN, 0), &slope));
  ShotResult with = fly (hole), without = fly (empty);
  ck_assert_double_eq_tol (vec2_distance (with.landing, without.landing), 0, LANDING_M);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-stance");
  TCase *tcase = tcase_create ("stance");
  const TTest *const tests[] = { an_arrow_points_down_and_tells_the_rise_against_it,
                                 the_nearest_arrow_within_reach_counts,
                                 a_shot_from_an_arrow_s_slope_leaves_as_from_the_same_slope_of_heights,
                                 uphill_and_downhill_arrows_send_the_ball_higher_and_lower,
                                 an_arrow_and_its_opposite_with_a_negative_fall_are_the_same_slope,
                                 measured_heights_round_the_ball_count_before_an_arrow_and_beyond_them_the_arrow_does,
                                 a_ball_that_comes_down_by_an_arrow_bounces_and_rolls_downhill,
                                 a_run_by_an_arrow_is_that_on_the_same_slope_of_heights,
                                 an_arrow_tells_a_run_the_same_among_many_others,
                                 the_chances_follow_an_arrow_as_the_mean_ball_does,
                                 an_arrow_without_a_length_or_a_number_says_nothing };
  for (size_t i = 0; i < G_N_ELEMENTS (tests); i++)
    tcase_add_test (tcase, tests[i]);
  suite_add_tcase (suite, tcase);
  return suite;
}
