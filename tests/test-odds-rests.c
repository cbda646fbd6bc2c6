// SPDX-License-Identifier: GPL-3.0-or-later
/* Where balls rest, place by place. */
#include "odds-rests.h"

#include "drawn.h"
#include "example.h"
#include "iron.h"
#include "suite.h"

#include <string.h>

static ShotResult
fly (const Hole *hole, const Club *club, Vec2 aim)
{
  ShotInput input = { .aim = aim, .club = club, .swing = 1, .curve_m = NAN };
  ShotResult shot;
  GError *error = NULL;
  ck_assert_msg (odds_shot (hole, NULL, &input, &shot, &error), "%s", error != NULL ? error->message : "");
  return shot;
}

/* ---- sums ---- */

typedef struct
{
  const Hole *hole;
  double *by_part; /* the ground's first */
  double share, most_off_m;
  Vec2 sum, squares;
  const Part *tree;
} Sums;

static void
add (void *data, const RestBalls *balls)
{
  Sums *sums = data;
  ck_assert (isfinite (balls->at.x) && isfinite (balls->at.y) && balls->share > 0);
  sums->by_part[balls->part + 1] += balls->share;
  sums->share += balls->share;
  sums->sum = vec2_add (sums->sum, vec2_scale (balls->at, balls->share));
  sums->squares
      = vec2_add (sums->squares, vec2_scale (vec2 (balls->at.x * balls->at.x, balls->at.y * balls->at.y), balls->share));
  const Part *part = balls->part >= 0 ? hole_part (sums->hole, (size_t)balls->part) : NULL;
  ck_assert_int_eq (
      balls->lie,
      kind_info (part != NULL ? part->kind == KIND_TREE ? KIND_TREES : part->kind : hole_info (sums->hole)->ground)->lie);
  if (part != NULL && part->kind == KIND_TREE)
    sums->most_off_m = fmax (sums->most_off_m, vec2_distance (balls->at, part->at) - part->radius_m);
}

/* Free by_part. */
static Sums
sum_up (const Hole *hole, const ShotResult *shot)
{
  Sums sums = { .hole = hole, .by_part = g_new0 (double, hole_n_parts (hole) + 1), .most_off_m = -INFINITY };
  g_autoptr (OddsTable) table = NULL;
  GError *error = NULL;
  ck_assert_msg (odds_rests (hole, shot, add, &sums, &table, &error), "%s", error != NULL ? error->message : "");
  g_autofree double *wanted = g_new0 (double, hole_n_parts (hole) + 1);
  g_autoptr (OddsTable) alone = odds_table_new (hole, shot, NULL);
  ck_assert_uint_eq (table->n_rows, alone->n_rows);
  for (size_t i = 0; i < table->n_rows; i++)
    {
      ck_assert_mem_eq (&table->rows[i], &alone->rows[i], sizeof (OddsRow));
      wanted[table->rows[i].part + 1] = table->rows[i].rest;
    }
  for (size_t i = 0; i <= hole_n_parts (hole); i++)
    ck_assert_double_eq_tol (sums.by_part[i], wanted[i], 1e-9);
  ck_assert_double_eq_tol (sums.share, 1, 1e-9);
  return sums;
}

/* ---- known answers ---- */

START_TEST (over_level_turf_of_one_kind_the_places_are_the_pattern_moved_by_the_run)
{
  Parts parts = { .ground = KIND_FAIRWAY };
  add_hole (&parts, 0, 200);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotResult shot = fly (hole, &iron, vec2 (0, 150));
  Sums sums = sum_up (hole, &shot);
  ck_assert_double_eq_tol (sums.sum.x, shot.rest.x, 0.01);
  ck_assert_double_eq_tol (sums.sum.y, shot.rest.y, 0.1);
  ck_assert_double_eq_tol (sqrt (sums.squares.x - sums.sum.x * sums.sum.x), shot.pattern.side_sd_m,
                           0.01 * shot.pattern.side_sd_m);
  ck_assert_double_eq_tol (sqrt (sums.squares.y - sums.sum.y * sums.sum.y), shot.pattern.long_sd_m,
                           0.01 * shot.pattern.long_sd_m);
  g_free (sums.by_part);
}
END_TEST

START_TEST (balls_that_a_tree_stops_lie_under_it)
{
  Parts parts = { .ground = KIND_FAIRWAY };
  parts.parts[parts.n++] = tree (2, 60, 4, 30);
  add_hole (&parts, 0, 200);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotResult shot = fly (hole, &iron, vec2 (0, 150));
  Sums sums = sum_up (hole, &shot);
  ck_assert_double_gt (sums.by_part[1], 0.2);
  /* A ball beside its rim is taken for one of the nearest of the lines on which canopies are looked at. */
  ck_assert_double_lt (sums.most_off_m, 2);
  g_free (sums.by_part);
}
END_TEST

START_TEST (a_topped_ball_lies_where_it_was_played_from)
{
  Parts parts = { .ground = KIND_ROUGH };
  add_box (&parts, KIND_FAIRWAY, -100, -100, 100, 100);
  add_hole (&parts, 0, 200);
  g_autoptr (Hole) hole = hole_of (&parts);
  Club club = iron;
  club.mishit_chance = 1;
  club.mishit_carry_share = 0;
  ShotResult shot = fly (hole, &club, vec2 (0, 150));
  Sums sums = sum_up (hole, &shot);
  ck_assert_double_lt (vec2_length (sums.sum), 0.1);
  ck_assert_double_gt (sums.by_part[1], 0.999);
  g_free (sums.by_part);
}
END_TEST

/* ---- invariants ---- */

START_TEST (on_every_shot_of_the_example_the_places_add_up_to_the_odds)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = example_bag ();
  size_t n_shots = 0;
  for (size_t i = 0; i < N_EXAMPLES; i++)
    {
      g_autoptr (Hole) hole = example_hole (i);
      int plan = hole_plan (hole);
      ck_assert_int_ge (plan, 0);
      g_autofree ShotResult *shots = odds_plan (hole, (size_t)plan, bag, &error);
      for (size_t k = 0; k < hole_part (hole, (size_t)plan)->n_shots; k++, n_shots++)
        g_free (sum_up (hole, &shots[k]).by_part);
    }
  ck_assert_uint_ge (n_shots, 18);
}
END_TEST

START_TEST (a_ball_that_comes_down_anywhere_rests_where_the_model_says)
{
  /* A plane that falls to the left, a fairway on it, and sand. */
  Parts parts = { .ground = KIND_ROUGH };
  add_box (&parts, KIND_FAIRWAY, -20, 0, 20, 300);
  add_box (&parts, KIND_BUNKER, -10, 155, -4, 175);
  for (int k = 0; k < 4; k++)
    parts.parts[parts.n++] = spot (k % 2 ? 80 : -80, k / 2 ? 320 : -20, k % 2 ? 4 : -4);
  add_hole (&parts, 0, 250);
  g_autoptr (Hole) hole = hole_of (&parts);
  Conditions day = conditions_standard ();
  ShotResult shot = fly (hole, &iron, vec2 (0, 150));
  FlightPoint landings[49];
  Vec2 rests[49];
  int lands[49], areas[49];
  for (int i = 0; i < 49; i++)
    {
      landings[i] = flight_landing (&shot.flight);
      landings[i].at = vec2 (-30 + 10 * (i % 7) + 0.3, 120 + 10 * (i / 7) + 0.7);
      landings[i].v_mps = vec2_scale (landings[i].v_mps, 0.7 + 0.01 * i);
    }
  /* The box holds some of them only. */
  g_autoptr (RunGround) ground = run_ground_new (hole, &day, (Box){ -15, 130, 40, 200 });
  run_ground_follow (ground, landings, 49, rests, lands, areas);
  for (int i = 0; i < 49; i++)
    {
      Vec2 wanted;
      ck_assert (odds_rest_of (hole, &day, &landings[i], &wanted, NULL));
      ck_assert_double_lt (vec2_distance (rests[i], wanted), 0.6);
      ck_assert_int_eq (lands[i], hole_area_at (hole, landings[i].at));
      ck_assert_int_eq (hole_area_lie (hole, areas[i]), hole_lie_at (hole, rests[i]));
    }
  run_ground_follow (ground, landings, 0, rests, lands, areas);
}
END_TEST

START_TEST (a_pattern_that_is_no_length_is_refused_in_a_sentence)
{
  Parts parts = { .ground = KIND_FAIRWAY };
  add_hole (&parts, 0, 200);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotResult shot = fly (hole, &iron, vec2 (0, 150));
  shot.pattern.long_sd_m = NAN;
  Sums sums = { .hole = hole };
  g_autoptr (GError) error = NULL;
  ck_assert (!odds_rests (hole, &shot, add, &sums, NULL, &error));
  ck_assert (g_error_matches (error, ODDS_ERROR, ODDS_ERROR_NUMBERS));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-rests");
  TCase *rests = tcase_create ("rests");
  tcase_add_test (rests, over_level_turf_of_one_kind_the_places_are_the_pattern_moved_by_the_run);
  tcase_add_test (rests, balls_that_a_tree_stops_lie_under_it);
  tcase_add_test (rests, a_topped_ball_lies_where_it_was_played_from);
  tcase_add_test (rests, on_every_shot_of_the_example_the_places_add_up_to_the_odds);
  tcase_add_test (rests, a_ball_that_comes_down_anywhere_rests_where_the_model_says);
  tcase_add_test (rests, a_pattern_that_is_no_length_is_refused_in_a_sentence);
  suite_add_tcase (suite, rests);
  return suite;
}
