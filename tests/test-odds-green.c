// SPDX-License-Identifier: GPL-3.0-or-later
/* odds, from where the green is played next: from the ball where a club gets there, else from where the shot stops. */
#include "drawn.h"
#include "odds-green.h"
#include "suite.h"

#include <string.h>

/* The green lies from 140 m to 170 m, 24 m wide, its hole 155 m away and 4 m right of its middle. */
#define FRONT_M 140.0
#define HOLE_M 155.0
#define BACK_M 170.0

static Hole *
make_hole (bool has_green)
{
  Parts parts = { .ground = KIND_ROUGH };
  add_hole (&parts, 0, HOLE_M);
  if (has_green)
    add_box (&parts, KIND_GREEN, -16, FRONT_M, 8, BACK_M);
  return hole_of (&parts);
}

static Bag *
make_bag (const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, strlen (text));
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  return bag;
}

/* A shot with the first club of the bag, 100 m up the hole, and all clubs from its ball. */
static ShotResult
fly (const Hole *hole, const Bag *bag, ClubToday *clubs)
{
  ShotResult shot;
  Conditions conditions;
  ck_assert (conditions_of_day (hole, NULL, &conditions, NULL));
  ShotInput input = {
    .ball = vec2 (0, 0), .aim = vec2 (0, 100), .club = bag_club (bag, 0), .swing = 1, .curve_m = NAN, .conditions = &conditions
  };
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  odds_clubs_today (hole, shot.ball, vec2 (0, HOLE_M), bag, &conditions, clubs);
  return shot;
}

START_TEST (a_ball_that_a_club_gets_to_the_green_from_plays_to_it_from_there)
{
  g_autoptr (Hole) hole = make_hole (true);
  g_autoptr (Bag) bag = make_bag ("club,carry_m\nsand wedge,80\n7 iron,150\n");
  ClubToday clubs[2];
  ShotResult shot = fly (hole, bag, clubs);
  GreenPlay play;
  ck_assert (odds_green_play (hole, NULL, &shot, clubs, 2, &play));
  ck_assert (play.is_reached);
  ck_assert_double_eq_tol (play.numbers.front_m, FRONT_M, 0.01);
  ck_assert_double_eq_tol (play.numbers.hole_m, HOLE_M, 1e-9);
  ck_assert_double_eq_tol (play.numbers.back_m, BACK_M, 0.01);
  ck_assert_double_eq_tol (play.numbers.left_m, 16, 0.01);
  ck_assert_double_eq_tol (play.numbers.right_m, 8, 0.01);
  ck_assert_double_eq_tol (play.numbers.depth_m, BACK_M - FRONT_M, 0.02);
}
END_TEST

START_TEST (a_green_out_of_reach_is_played_from_where_the_shot_stops)
{
  g_autoptr (Hole) hole = make_hole (true);
  g_autoptr (Bag) bag = make_bag ("club,carry_m\nsand wedge,80\ngap wedge,90\n");
  ClubToday clubs[2];
  ShotResult shot = fly (hole, bag, clubs);
  GreenPlay play;
  ck_assert (odds_green_play (hole, NULL, &shot, clubs, 2, &play));
  ck_assert (!play.is_reached);
  ck_assert_double_eq (vec2_distance (play.from, shot.rest), 0);
  ck_assert_double_eq_tol (play.numbers.hole_m, vec2_distance (shot.rest, vec2 (0, HOLE_M)), 1e-9);
}
END_TEST

START_TEST (a_club_for_the_tee_only_gets_nowhere_from_elsewhere)
{
  g_autoptr (Hole) hole = make_hole (true);
  g_autoptr (Bag) bag = make_bag ("club,carry_m,surfaces\nsand wedge,80,\ndriver,220,tee\n");
  ClubToday clubs[2];
  GreenPlay play;
  ShotResult shot = fly (hole, bag, clubs);
  for (int i = 0; i < 2; i++) /* the bag may stand longest first */
    if (clubs[i].club->tee_only)
      clubs[i].carry_m = 220;
  shot.carry_m = 80;
  shot.run_m = 0;
  ck_assert (odds_green_play (hole, NULL, &shot, clubs, 2, &play));
  ck_assert (!play.is_reached);
  shot.lie = LIE_TEE;
  ck_assert (odds_green_play (hole, NULL, &shot, clubs, 2, &play));
  ck_assert (play.is_reached);
}
END_TEST

START_TEST (without_a_green_there_is_nothing_to_play_to)
{
  g_autoptr (Hole) hole = make_hole (false);
  g_autoptr (Bag) bag = make_bag ("club,carry_m\nsand wedge,80\n");
  ClubToday clubs[1];
  ShotResult shot = fly (hole, bag, clubs);
  GreenPlay play;
  ck_assert (!odds_green_play (hole, NULL, &shot, clubs, 1, &play));
  ck_assert (!odds_green_play (hole, NULL, &shot, NULL, 0, &play));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-green");
  TCase *play = tcase_create ("play");
  tcase_add_test (play, a_ball_that_a_club_gets_to_the_green_from_plays_to_it_from_there);
  tcase_add_test (play, a_green_out_of_reach_is_played_from_where_the_shot_stops);
  tcase_add_test (play, a_club_for_the_tee_only_gets_nowhere_from_elsewhere);
  tcase_add_test (play, without_a_green_there_is_nothing_to_play_to);
  suite_add_tcase (suite, play);
  return suite;
}
