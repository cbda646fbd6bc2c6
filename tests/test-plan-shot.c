// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan-shot: a shot in hand beside the other aims of its club. */
#include "drawn.h"
#include "iron.h"
#include "plan-shot.h"
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

/* A green 150 m away with water to its left, sand before it and a wood to its right. */
static Hole *
short_hole (void)
{
  Parts parts = { .ground = KIND_ROUGH };
  add_box (&parts, KIND_GREEN, -12, 138, 14, 165);
  add_box (&parts, KIND_BUNKER, 0, 130, 12, 137);
  add_box (&parts, KIND_WATER, -40, 120, -16, 180);
  add_box (&parts, KIND_TREES, 25, 120, 50, 180);
  add_hole (&parts, 2, 152);
  return hole_of (&parts);
}

static ShotResult
fly (const Hole *hole, Vec2 ball)
{
  ShotInput shot = { .ball = ball, .aim = vec2 (4, 149), .club = &iron, .swing = 1, .curve_m = NAN };
  ShotResult flown;
  ck_assert (odds_shot (hole, NULL, &shot, &flown, NULL));
  return flown;
}

START_TEST (a_shot_and_its_aims_found_together_are_those_found_apart)
{
  g_autoptr (Hole) hole = short_hole ();
  ShotResult flown = fly (hole, vec2 (-6, -2));
  PlanInput input = { .hole = hole, .ball = flown.ball, .table = scratch, .lost_chance = 0.2 };
  g_autoptr (AimMap) map = aim_map_new (&input, &iron, NULL);
  g_autoptr (OddsTable) odds = odds_table_new (hole, &flown, NULL);
  ShotStrokes strokes, together;
  ck_assert (plan_shot_strokes (&input, &flown, map->again_strokes, &strokes, NULL));
  g_autoptr (OddsTable) table = NULL;
  /* The ball is the shot's, whatever the place says. */
  input.ball = vec2 (70, 70);
  g_autoptr (AimMap) aims = plan_shot_aims (&input, &flown, &together, &table, NULL);
  ck_assert_ptr_nonnull (aims);
  ck_assert_uint_eq (aims->n_turns * aims->n_swings, map->n_turns * map->n_swings);
  for (size_t i = 0; i < map->n_turns * map->n_swings; i++)
    ck_assert_double_eq_tol (aims->strokes[i], map->strokes[i], 1e-9);
  ck_assert_double_eq_tol (aims->best.strokes, map->best.strokes, 1e-9);
  ck_assert_double_eq_tol (together.strokes, strokes.strokes, 1e-9);
  ck_assert_uint_eq (together.n_outcomes, strokes.n_outcomes);
  ck_assert_uint_eq (table->n_rows, odds->n_rows);
  for (size_t i = 0; i < odds->n_rows; i++)
    {
      ck_assert_int_eq (table->rows[i].part, odds->rows[i].part);
      ck_assert_double_eq_tol (table->rows[i].landing, odds->rows[i].landing, 1e-12);
      ck_assert_double_eq_tol (table->rows[i].rest, odds->rows[i].rest, 1e-12);
    }
}
END_TEST

START_TEST (nobody_has_to_ask_for_the_odds)
{
  g_autoptr (Hole) hole = short_hole ();
  ShotResult flown = fly (hole, vec2 (0, 0));
  PlanInput input = { .hole = hole, .table = scratch };
  ShotStrokes strokes;
  g_autoptr (AimMap) aims = plan_shot_aims (&input, &flown, &strokes, NULL, NULL);
  ck_assert_ptr_nonnull (aims);
  ck_assert_double_ge (strokes.strokes, aims->best.strokes - 1e-9);
}
END_TEST

START_TEST (what_is_refused_tells_nothing)
{
  Parts parts = { .ground = KIND_ROUGH };
  add_box (&parts, KIND_FAIRWAY, -20, 50, 20, 250);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotResult flown = fly (hole, vec2 (0, 0));
  PlanInput input = { .hole = hole, .table = scratch };
  ShotStrokes strokes;
  OddsTable *odds = NULL;
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (plan_shot_aims (&input, &flown, &strokes, &odds, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_TARGET));
  ck_assert_ptr_null (odds);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-shot");
  TCase *aims = tcase_create ("aims");
  tcase_add_unchecked_fixture (aims, set_up, tear_down);
  tcase_add_test (aims, a_shot_and_its_aims_found_together_are_those_found_apart);
  tcase_add_test (aims, nobody_has_to_ask_for_the_odds);
  tcase_add_test (aims, what_is_refused_tells_nothing);
  suite_add_tcase (suite, aims);
  return suite;
}
