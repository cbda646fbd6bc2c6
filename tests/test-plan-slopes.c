// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: what a shot and its aims cost where the ground is not level. */
#include "drawn.h"
#include "example.h"
#include "iron.h"
#include "odds-rests.h"
#include "plan.h"
#include "suite.h"

static StrokesTable *scratch;

static void
set_up (void)
{
  scratch = strokes_table_new (LEVEL_SCRATCH_MEN);
}

static void
tear_down (void)
{
  strokes_table_free (scratch);
}

/* How a green falls: told by heights, or by an arrow. */
typedef enum
{
  LEVEL,
  HEIGHTS,
  ARROW
} Told;

#define FALL 0.05

/* A green about a hole 150 m away with water along its left side, or with `mirror` -1 along its right one, to which the ground falls. */
static Hole *
shedding_hole (double mirror, Told told)
{
  Parts parts = { .ground = KIND_FIRST_CUT };
  add_box (&parts, KIND_GREEN, -14, 134, 14, 168);
  add_box (&parts, KIND_WATER, mirror > 0 ? -50 : 15, 100, mirror > 0 ? -15 : 50, 200);
  for (int k = 0; k < 4 && told == HEIGHTS; k++)
    parts.parts[parts.n++] = spot (k % 2 ? 90 : -90, k / 2 ? 260 : 60, (k % 2 ? 90 : -90) * mirror * FALL);
  if (told == ARROW)
    {
      Part *arrow = part_new (KIND_SLOPE);
      path_move_to (&arrow->path, vec2 (mirror * 12, 150));
      path_line_to (&arrow->path, vec2 (mirror * -12, 150));
      arrow->percent = 100 * FALL;
      parts.parts[parts.n++] = part_seal (arrow);
    }
  add_hole (&parts, 0, 151);
  return hole_of (&parts);
}

static AimMap *
map_of (const Hole *hole)
{
  PlanInput input = { .hole = hole, .table = scratch };
  g_autoptr (GError) error = NULL;
  AimMap *map = aim_map_new (&input, &iron, &error);
  ck_assert_msg (map != NULL, "%s", error != NULL ? error->message : "");
  return map;
}

static ShotResult
fly (const Hole *hole, Vec2 aim)
{
  ShotInput input = { .aim = aim, .club = &iron, .swing = 1, .curve_m = NAN };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  return shot;
}

static ShotStrokes
strokes_of (const Hole *hole, const ShotResult *shot, const StrokesTable *table, double again)
{
  PlanInput input = { .hole = hole, .table = table };
  ShotStrokes strokes;
  g_autoptr (GError) error = NULL;
  ck_assert_msg (plan_shot_strokes (&input, shot, again, &strokes, &error), "%s", error != NULL ? error->message : "");
  return strokes;
}

/* ---- the shot is that of the odds ---- */

static void
assert_ends_as_the_odds (const Hole *hole, const ShotResult *shot, const StrokesTable *table)
{
  g_autoptr (OddsTable) odds = odds_table_new (hole, shot, NULL);
  ShotStrokes strokes = strokes_of (hole, shot, table, NAN);
  double by_lie[N_LIES] = { 0 };
  for (int kind = 0; kind < N_KINDS; kind++)
    by_lie[kind_info ((Kind)kind)->lie] += odds->rest[kind];
  for (size_t i = 0; i < strokes.n_outcomes; i++)
    {
      ck_assert_double_eq_tol (strokes.outcomes[i].chance, by_lie[strokes.outcomes[i].lie], 1e-9);
      by_lie[strokes.outcomes[i].lie] = 0;
    }
  for (int lie = 0; lie < N_LIES; lie++)
    ck_assert_double_eq_tol (by_lie[lie], 0, 1e-9);
}

START_TEST (on_every_shot_of_the_example_what_it_can_come_to_is_where_its_balls_rest)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = example_bag ();
  for (size_t i = 0; i < N_EXAMPLES; i++)
    {
      g_autoptr (Hole) hole = example_hole (i);
      int plan = hole_plan (hole);
      g_autofree ShotResult *shots = odds_plan (hole, (size_t)plan, bag, &error);
      for (size_t k = 0; k < hole_part (hole, (size_t)plan)->n_shots; k++)
        assert_ends_as_the_odds (hole, &shots[k], scratch);
    }
}
END_TEST

/* So many balls are drawn, and each may be so many deviations off what is expected of it. */
#define N_DRAWN 3000
#define FAR_OFF 4.0

/* Two independent standard normals (Box and Muller 1958, A note on the generation of random normal deviates). */
static Vec2
draw (GRand *rand)
{
  double radius = sqrt (-2 * log (1 - g_rand_double (rand))), angle = 2 * PI * g_rand_double (rand);
  return vec2 (radius * cos (angle), radius * sin (angle));
}

START_TEST (drawn_balls_followed_one_by_one_over_a_slope_cost_the_same)
{
  const Told tolds[] = { HEIGHTS, ARROW };
  for (size_t k = 0; k < G_N_ELEMENTS (tolds); k++)
    {
      g_autoptr (Hole) hole = shedding_hole (1, tolds[k]);
      ShotResult shot = fly (hole, vec2 (-5, 145));
      ShotStrokes strokes = strokes_of (hole, &shot, scratch, NAN);
      Normal normal = pattern_normal (&shot.pattern);
      GRand *rand = g_rand_new_with_seed (7);
      double wet = 0, sum = 0, squares = 0;
      for (int i = 0; i < N_DRAWN; i++)
        {
          FlightPoint landing = flight_landing (&shot.flight);
          Vec2 off = draw (rand), rest;
          landing.at = vec2_add (normal.mean, vec2_add (vec2_scale (normal.a, off.x), vec2_scale (normal.b, off.y)));
          ck_assert (odds_rest_of (hole, &shot.conditions, &landing, &rest, NULL));
          Drop drops[N_DROP_RULES];
          bool is_wet = hole_lie_at (hole, rest) == LIE_PENALTY;
          double cost = is_wet && plan_drops (hole, scratch, vec2 (0, 151), shot.ball, rest, NAN, drops) > 0
                            ? drops[0].strokes
                            : strokes_from (hole, scratch, vec2 (0, 151), rest);
          wet += is_wet;
          sum += cost;
          squares += cost * cost;
        }
      g_rand_free (rand);
      double mean = sum / N_DRAWN, sd = sqrt ((squares / N_DRAWN - mean * mean) / N_DRAWN), chance = wet / N_DRAWN, told = 0;
      for (size_t i = 0; i < strokes.n_outcomes; i++)
        if (strokes.outcomes[i].lie == LIE_PENALTY)
          told = strokes.outcomes[i].chance;
      ck_assert_double_eq_tol (strokes.strokes, 1 + mean, FAR_OFF * sd);
      ck_assert_double_eq_tol (told, chance, REST_ERROR + FAR_OFF * sqrt (chance * (1 - chance) / N_DRAWN));
      ck_assert_double_gt (chance, 0.05);
    }
}
END_TEST

/* ---- the map ---- */

START_TEST (every_full_swing_of_the_map_over_a_slope_costs_what_the_shot_costs)
{
  g_autoptr (Hole) hole = shedding_hole (1, HEIGHTS);
  g_autoptr (AimMap) map = map_of (hole);
  for (size_t t = 0; t < map->n_turns; t += 4)
    {
      double direction = map->first_rad + (double)t * map->turn_step_rad;
      ShotResult shot = fly (hole, vec2 (150 * cos (direction), 150 * sin (direction)));
      ck_assert_double_eq_tol (map->strokes[(map->n_swings - 1) * map->n_turns + t],
                               strokes_of (hole, &shot, scratch, map->again_strokes).strokes, 0.02);
    }
}
END_TEST

START_TEST (a_green_that_sheds_balls_into_water_moves_the_best_aim_up_the_slope)
{
  g_autoptr (Hole) level = shedding_hole (1, LEVEL);
  g_autoptr (Hole) heights = shedding_hole (1, HEIGHTS);
  g_autoptr (Hole) arrow = shedding_hole (1, ARROW);
  g_autoptr (AimMap) over_level = map_of (level);
  g_autoptr (AimMap) over_heights = map_of (heights);
  g_autoptr (AimMap) over_arrow = map_of (arrow);
  ck_assert_double_gt (over_heights->best.landing.x, over_level->best.landing.x + 1);
  ck_assert_double_gt (over_arrow->best.landing.x, over_level->best.landing.x + 1);
  ck_assert_double_gt (over_heights->best.strokes, over_level->best.strokes);
}
END_TEST

START_TEST (a_mirrored_slope_has_mirrored_aims)
{
  g_autoptr (Hole) left = shedding_hole (1, HEIGHTS);
  g_autoptr (Hole) right = shedding_hole (-1, HEIGHTS);
  g_autoptr (AimMap) one = map_of (left);
  g_autoptr (AimMap) other = map_of (right);
  ck_assert_double_eq_tol (one->best.strokes, other->best.strokes, 5e-3);
  ck_assert_double_eq_tol (one->best.landing.x, -other->best.landing.x, 1);
  for (size_t s = 0; s < one->n_swings; s++)
    for (size_t t = 0; t < one->n_turns; t++)
      ck_assert_double_eq_tol (one->strokes[s * one->n_turns + t], other->strokes[(s + 1) * one->n_turns - 1 - t], 0.02);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-slopes");
  TCase *slopes = tcase_create ("slopes");
  tcase_add_unchecked_fixture (slopes, set_up, tear_down);
  tcase_add_test (slopes, on_every_shot_of_the_example_what_it_can_come_to_is_where_its_balls_rest);
  tcase_add_test (slopes, drawn_balls_followed_one_by_one_over_a_slope_cost_the_same);
  tcase_add_test (slopes, every_full_swing_of_the_map_over_a_slope_costs_what_the_shot_costs);
  tcase_add_test (slopes, a_green_that_sheds_balls_into_water_moves_the_best_aim_up_the_slope);
  tcase_add_test (slopes, a_mirrored_slope_has_mirrored_aims);
  suite_add_tcase (suite, slopes);
  return suite;
}
