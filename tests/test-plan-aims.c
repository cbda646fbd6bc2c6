// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: what one shot costs, and the map of a club's aims. */
#include "drawn.h"
#include "iron.h"
#include "plan.h"
#include "suite.h"
#include "units.h"

#define YD METRES_PER_YARD

static StrokesTable *scratch, *bogey;

static void
set_up (void)
{
  scratch = strokes_table_new (LEVEL_SCRATCH_MEN);
  bogey = strokes_table_new (LEVEL_BOGEY_MEN);
}

static void
tear_down (void)
{
  strokes_table_free (scratch);
  strokes_table_free (bogey);
}

/* ---- building blocks ---- */

static AimMap *
map_of (const Hole *hole, const StrokesTable *table, const Club *club)
{
  PlanInput input = { .hole = hole, .table = table };
  g_autoptr (GError) error = NULL;
  AimMap *map = aim_map_new (&input, club, &error);
  ck_assert_msg (map != NULL, "%s", error != NULL ? error->message : "");
  return map;
}

static ShotStrokes
shot_at (const Hole *hole, const StrokesTable *table, const Club *club, Vec2 aim, double swing, double again)
{
  PlanInput input = { .hole = hole, .table = table };
  ShotInput shot = { .aim = aim, .club = club, .swing = swing, .curve_m = NAN };
  ShotResult flown;
  ShotStrokes result;
  ck_assert (odds_shot (hole, NULL, &shot, &flown, NULL));
  ck_assert (plan_shot_strokes (&input, &flown, again, &result, NULL));
  return result;
}

static double
chance_of (const ShotStrokes *strokes, Lie lie)
{
  for (size_t i = 0; i < strokes->n_outcomes; i++)
    if (strokes->outcomes[i].lie == lie)
      return strokes->outcomes[i].chance;
  return 0;
}

/* A green 150 m away with sand before it, water to its left and a wood to its right. */
static Hole *
short_hole (double mirror, Kind ground)
{
  Parts parts = { .ground = ground };
  add_box (&parts, KIND_FAIRWAY, fmin (-15, 15), 60, 15, 130);
  add_box (&parts, KIND_GREEN, mirror > 0 ? -12 : -14, 138, mirror > 0 ? 14 : 12, 165);
  add_box (&parts, KIND_BUNKER, mirror > 0 ? 0 : -12, 130, mirror > 0 ? 12 : 0, 137);
  add_box (&parts, KIND_WATER, mirror > 0 ? -40 : 16, 120, mirror > 0 ? -16 : 40, 180);
  add_box (&parts, KIND_TREES, mirror > 0 ? 25 : -50, 120, mirror > 0 ? 50 : -25, 180);
  add_hole (&parts, mirror * 2, 152);
  return hole_of (&parts);
}

/* ---- known answers ---- */

START_TEST (a_club_that_never_scatters_costs_what_the_place_costs_where_it_stops)
{
  Parts parts = { .ground = KIND_BUNKER };
  add_hole (&parts, 10, 220);
  g_autoptr (Hole) hole = hole_of (&parts);
  Club exact = iron;
  exact.carry_sd_m = exact.side_sd_m = 0;
  double wanted = 1 + strokes_to_hole (scratch, LIE_SAND, hypot (10, 70));
  ck_assert_double_eq_tol (shot_at (hole, scratch, &exact, vec2 (0, 150), 1, NAN).strokes, wanted, 1e-6);
  g_autoptr (AimMap) map = map_of (hole, scratch, &exact);
  ck_assert_double_eq_tol (aim_map_strokes (map, vec2 (0, 150)), wanted, 0.01);
}
END_TEST

START_TEST (a_shot_over_sand_costs_the_mean_over_its_pattern)
{
  /* Balls stay in sand, so the answer is an integral: summed here over a fine grid. */
  Parts parts = { .ground = KIND_BUNKER };
  add_box (&parts, KIND_BUILDING, 5, 100, 60, 200);
  add_hole (&parts, 0, 180);
  g_autoptr (Hole) hole = hole_of (&parts);
  double sum = 0, weights = 0;
  for (int i = -500; i <= 500; i++)
    for (int j = -500; j <= 500; j++)
      {
        double u = (i + 0.5) / 100, v = (j + 0.5) / 100, weight = exp (-0.5 * (u * u + v * v));
        Vec2 at = vec2 (u * iron.side_sd_m, 150 + v * iron.carry_sd_m);
        sum += weight * strokes_to_hole (scratch, hole_lie_at (hole, at), vec2_distance (at, vec2 (0, 180)));
        weights += weight;
      }
  ShotStrokes shot = shot_at (hole, scratch, &iron, vec2 (0, 150), 1, NAN);
  ck_assert_double_eq_tol (shot.strokes, 1 + sum / weights, 0.005);
  /* Right of x = 5 with sd 7: Phi (-5/7) = 0.23753, Abramowitz and Stegun table 26.1. */
  ck_assert_double_eq_tol (chance_of (&shot, LIE_BUILDING), normal_below (-5.0 / 7), 0.005);
  g_autoptr (AimMap) map = map_of (hole, scratch, &iron);
  ck_assert_double_eq_tol (aim_map_strokes (map, vec2 (0, 150)), 1 + sum / weights, 0.02);
}
END_TEST

START_TEST (with_only_out_of_bounds_about_the_price_is_that_of_playing_on_and_on)
{
  /* Q = 1 + A + P (1 + Q), so Q = (1 + A + P) / (1 - P). */
  Parts parts = { .ground = KIND_OUT_OF_BOUNDS };
  add_box (&parts, KIND_FAIRWAY, -8, -10, 8, 400);
  add_hole (&parts, 0, 300);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotStrokes shot = shot_at (hole, scratch, &iron, vec2 (0, 150), 1, NAN);
  double a = 0, p = 0;
  for (size_t i = 0; i < shot.n_outcomes; i++)
    if (shot.outcomes[i].lie == LIE_OUT_OF_BOUNDS)
      p = shot.outcomes[i].chance;
    else
      a += shot.outcomes[i].chance * shot.outcomes[i].strokes;
  ck_assert_double_gt (p, 0.15);
  ck_assert_double_eq_tol (shot.strokes, (1 + a + p) / (1 - p), 1e-9);
}
END_TEST

START_TEST (aiming_away_from_out_of_bounds_lowers_the_score_of_two_golfers)
{
  /* A 400 yd par 4, out of bounds on the right: by simulation an 80-golfer gains about 0.1 and a 100-golfer 0.2 by aiming to the left (Broadie, as
     reported); the shape counts here, not the digits. Directions 5.3 and 7.5 degrees (Broadie 2014, from memory). */
  Parts parts = { .ground = KIND_ROUGH };
  add_box (&parts, KIND_FAIRWAY, -16, 100, 16, 330);
  add_box (&parts, KIND_OUT_OF_BOUNDS, 30, -50, 300, 500);
  add_box (&parts, KIND_GREEN, -12, 352, 12, 380);
  add_hole (&parts, 0, 400 * YD);
  g_autoptr (Hole) hole = hole_of (&parts);
  const double degree = PI / 180;
  Club eighty = { .name = (char *)"driver",
                  .carry_m = 205,
                  .carry_sd_m = 11,
                  .side_sd_m = 205 * 5.3 * degree,
                  .loft_deg = 10.5,
                  .apex_m = NAN,
                  .curve_m = NAN };
  Club hundred = { .name = (char *)"driver",
                   .carry_m = 170,
                   .carry_sd_m = 14,
                   .side_sd_m = 170 * 7.5 * degree,
                   .loft_deg = 12,
                   .apex_m = NAN,
                   .curve_m = NAN };
  g_autoptr (AimMap) good = map_of (hole, scratch, &eighty);
  g_autoptr (AimMap) poor = map_of (hole, bogey, &hundred);
  double good_gain = good->straight.strokes - good->best.strokes, poor_gain = poor->straight.strokes - poor->best.strokes;
  ck_assert_double_lt (good->best.aim.x, -3);
  ck_assert_double_lt (poor->best.aim.x, -3);
  ck_assert (good_gain > 0.03 && good_gain < 0.3);
  ck_assert (poor_gain > 0.03 && poor_gain < 0.5);
  ck_assert_double_lt (good->best.again_chance, good->straight.again_chance);
}
END_TEST

/* ---- the map agrees with the shot ---- */

START_TEST (every_full_swing_of_the_map_costs_what_the_shot_costs)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  g_autoptr (AimMap) map = map_of (hole, scratch, &iron);
  for (size_t t = 0; t < map->n_turns; t += 4)
    {
      double direction = map->first_rad + (double)t * map->turn_step_rad;
      Vec2 aim = vec2 (150 * cos (direction), 150 * sin (direction));
      double dense = shot_at (hole, scratch, &iron, aim, 1, map->again_strokes).strokes;
      ck_assert_double_eq_tol (map->strokes[(map->n_swings - 1) * map->n_turns + t], dense, 0.02);
    }
}
END_TEST

START_TEST (beside_the_best_aim_the_map_costs_what_the_shots_do)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  const StrokesTable *tables[] = { scratch, bogey };
  for (size_t k = 0; k < G_N_ELEMENTS (tables); k++)
    {
      g_autoptr (AimMap) map = map_of (hole, tables[k], &iron);
      size_t turn = (size_t)round ((atan2 (map->best.aim.y, map->best.aim.x) - map->first_rad) / map->turn_step_rad);
      for (size_t t = turn - 1; t <= turn + 1; t++)
        {
          double direction = map->first_rad + (double)t * map->turn_step_rad;
          Vec2 aim = vec2 (map->carry_m * cos (direction), map->carry_m * sin (direction));
          ShotStrokes shot = shot_at (hole, tables[k], &iron, aim, 1, map->again_strokes);
          ck_assert_double_eq_tol (map->strokes[(map->n_swings - 1) * map->n_turns + t], shot.strokes, 0.01);
        }
    }
}
END_TEST

START_TEST (the_best_aim_is_no_dearer_than_any_full_swing_of_the_map)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  g_autoptr (AimMap) map = map_of (hole, scratch, &iron);
  for (size_t t = 0; t < map->n_turns; t++)
    ck_assert_double_ge (map->strokes[(map->n_swings - 1) * map->n_turns + t], map->best.strokes - 1e-9);
  ck_assert_double_ge (map->straight.strokes, map->best.strokes - 1e-9);
  ck_assert_double_eq_tol (aim_map_strokes (map, map->best.aim), map->best.strokes, 0.02);
}
END_TEST

/* ---- invariants ---- */

START_TEST (a_mirrored_hole_has_mirrored_aims)
{
  g_autoptr (Hole) right = short_hole (1, KIND_ROUGH);
  g_autoptr (Hole) left = short_hole (-1, KIND_ROUGH);
  g_autoptr (AimMap) one = map_of (right, scratch, &iron);
  g_autoptr (AimMap) other = map_of (left, scratch, &iron);
  ck_assert_uint_eq (one->n_turns, other->n_turns);
  ck_assert_double_eq_tol (one->best.strokes, other->best.strokes, 5e-3);
  ck_assert_double_eq_tol (one->best.aim.x, -other->best.aim.x, 1.5);
  for (size_t t = 0; t < one->n_turns; t++)
    ck_assert_double_eq_tol (one->strokes[t], other->strokes[one->n_turns - 1 - t], 0.02);
}
END_TEST

START_TEST (more_trouble_never_makes_a_club_cheaper)
{
  Parts open = { .ground = KIND_ROUGH }, wet = { .ground = KIND_ROUGH };
  for (int i = 0; i < 2; i++)
    {
      Parts *parts = i == 0 ? &open : &wet;
      add_box (parts, KIND_FAIRWAY, -15, 60, 15, 130);
      add_box (parts, KIND_GREEN, -12, 138, 14, 165);
      if (parts == &wet)
        add_box (parts, KIND_WATER, -12, 120, 12, 136);
      add_hole (parts, 2, 152);
    }
  g_autoptr (Hole) without = hole_of (&open);
  g_autoptr (Hole) with = hole_of (&wet);
  g_autoptr (AimMap) dry = map_of (without, scratch, &iron);
  g_autoptr (AimMap) pond = map_of (with, scratch, &iron);
  ck_assert_double_gt (pond->best.strokes, dry->best.strokes - 1e-3);
  for (size_t i = 0; i < dry->n_turns * dry->n_swings; i++)
    ck_assert_double_ge (pond->strokes[i], dry->strokes[i] - 0.01);
}
END_TEST

START_TEST (what_can_become_of_a_shot_adds_up_to_one_and_begins_with_what_costs_most)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  ShotStrokes shot = shot_at (hole, scratch, &iron, vec2 (-8, 150), 1, NAN);
  double sum = 0, strokes = 1;
  for (size_t i = 0; i < shot.n_outcomes; i++)
    {
      sum += shot.outcomes[i].chance;
      strokes += shot.outcomes[i].chance * shot.outcomes[i].strokes;
      if (i > 0)
        ck_assert_double_le (shot.outcomes[i].cost, shot.outcomes[i - 1].cost);
    }
  ck_assert_double_eq_tol (sum, 1, 1e-9);
  ck_assert_double_eq_tol (strokes, shot.strokes, 1e-9);
  ck_assert_int_eq (shot.outcomes[0].lie, LIE_PENALTY);
  ck_assert (shot.left_m > 0 && shot.left_m < 30);
}
END_TEST

START_TEST (poor_strikes_cost)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  Club club = iron;
  club.mishit_chance = 0.2;
  club.mishit_carry_share = 0.6;
  g_autoptr (AimMap) clean = map_of (hole, scratch, &iron);
  g_autoptr (AimMap) mixed = map_of (hole, scratch, &club);
  ck_assert_double_gt (mixed->best.strokes, clean->best.strokes + 0.05);
  ck_assert_double_eq_tol (mixed->best.strokes,
                           shot_at (hole, scratch, &club, mixed->best.aim, 1, mixed->again_strokes).strokes, 0.02);
}
END_TEST

/* ---- edges ---- */

START_TEST (a_hole_with_nothing_to_play_to_is_refused_in_a_sentence)
{
  Parts parts = { .ground = KIND_ROUGH };
  g_autoptr (Hole) hole = hole_of (&parts);
  PlanInput input = { .hole = hole, .table = scratch };
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (aim_map_new (&input, &iron, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_TARGET));
  ck_assert_ptr_nonnull (strstr (error->message, "draw a green"));
}
END_TEST

START_TEST (a_ball_in_the_hole_or_nowhere_is_refused)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  const Vec2 balls[] = { { 2, 152 }, { NAN, 0 }, { 0, INFINITY } };
  for (size_t i = 0; i < G_N_ELEMENTS (balls); i++)
    {
      PlanInput input = { .hole = hole, .table = scratch, .ball = balls[i] };
      g_autoptr (GError) error = NULL;
      ck_assert_ptr_null (aim_map_new (&input, &iron, &error));
      ck_assert_int_eq (error->code, i == 0 ? PLAN_ERROR_TARGET : PLAN_ERROR_BALL);
    }
}
END_TEST

START_TEST (work_that_nobody_wants_any_more_ends)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  int cancelled = 1;
  PlanInput input = { .hole = hole, .table = scratch, .cancelled = &cancelled };
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (aim_map_new (&input, &iron, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CANCELLED));
}
END_TEST

START_TEST (an_aim_outside_everything_costs_nothing_that_is_known)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  g_autoptr (AimMap) map = map_of (hole, scratch, &iron);
  ck_assert (isnan (aim_map_strokes (map, vec2 (0, -100))));
  ck_assert (isnan (aim_map_strokes (map, vec2 (0, 10))));
  /* Beyond a full swing it is a full swing. */
  ck_assert_double_eq_tol (aim_map_strokes (map, vec2 (0, 500)), aim_map_strokes (map, vec2 (0, map->carry_m)), 1e-9);
}
END_TEST

START_TEST (where_every_ball_is_lost_the_price_ends_somewhere)
{
  Parts parts = { .ground = KIND_OUT_OF_BOUNDS };
  add_hole (&parts, 0, 152);
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (AimMap) map = map_of (hole, scratch, &iron);
  for (size_t i = 0; i < map->n_turns * map->n_swings; i++)
    ck_assert_double_eq_tol (map->strokes[i], PLAN_MOST_STROKES, 1e-9);
}
END_TEST

START_TEST (a_club_as_wide_as_a_county_is_answered_within_bounds)
{
  g_autoptr (Hole) hole = short_hole (1, KIND_ROUGH);
  Club wild = iron;
  wild.carry_sd_m = 1e4;
  wild.side_sd_m = 1e4;
  wild.correlation = 1;
  g_autoptr (AimMap) map = map_of (hole, scratch, &wild);
  for (size_t i = 0; i < map->n_turns * map->n_swings; i++)
    ck_assert (isfinite (map->strokes[i]));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-aims");
  TCase *aims = tcase_create ("aims");
  tcase_add_unchecked_fixture (aims, set_up, tear_down);
  tcase_add_test (aims, a_club_that_never_scatters_costs_what_the_place_costs_where_it_stops);
  tcase_add_test (aims, a_shot_over_sand_costs_the_mean_over_its_pattern);
  tcase_add_test (aims, with_only_out_of_bounds_about_the_price_is_that_of_playing_on_and_on);
  tcase_add_test (aims, aiming_away_from_out_of_bounds_lowers_the_score_of_two_golfers);
  tcase_add_test (aims, every_full_swing_of_the_map_costs_what_the_shot_costs);
  tcase_add_test (aims, beside_the_best_aim_the_map_costs_what_the_shots_do);
  tcase_add_test (aims, the_best_aim_is_no_dearer_than_any_full_swing_of_the_map);
  tcase_add_test (aims, a_mirrored_hole_has_mirrored_aims);
  tcase_add_test (aims, more_trouble_never_makes_a_club_cheaper);
  tcase_add_test (aims, what_can_become_of_a_shot_adds_up_to_one_and_begins_with_what_costs_most);
  tcase_add_test (aims, poor_strikes_cost);
  tcase_add_test (aims, a_hole_with_nothing_to_play_to_is_refused_in_a_sentence);
  tcase_add_test (aims, a_ball_in_the_hole_or_nowhere_is_refused);
  tcase_add_test (aims, work_that_nobody_wants_any_more_ends);
  tcase_add_test (aims, an_aim_outside_everything_costs_nothing_that_is_known);
  tcase_add_test (aims, where_every_ball_is_lost_the_price_ends_somewhere);
  tcase_add_test (aims, a_club_as_wide_as_a_county_is_answered_within_bounds);
  suite_add_tcase (suite, aims);
  return suite;
}
