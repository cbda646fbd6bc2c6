// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: how much the curve, and the whole pattern, may be off before there is trouble. */
#include "drawn.h"
#include "odds-room.h"
#include "suite.h"

#include <string.h>

/* Halving goes down to 5 cm and 25 cm. */
#define SHAPE_M 0.06
#define ROOM_M 0.26
/* Flights about the mean one are not quite as long as it. */
#define CURVE_M 0.3

static const Club iron
    = { .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 5, .side_sd_m = 6, .loft_deg = 32, .apex_m = NAN };

static ShotResult
shot_on (const Hole *hole, double curve_m)
{
  ShotInput input = { .aim = { 0, 140 }, .club = &iron, .swing = 1, .curve_m = curve_m };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  return shot;
}

static ShapeRoom
shape_of (const Part *const *parts, size_t n_parts, double curve_m)
{
  g_autoptr (Hole) hole = hole_over (KIND_FAIRWAY, parts, n_parts);
  ShotResult shot = shot_on (hole, curve_m);
  ShapeRoom room;
  ck_assert (odds_shape_room (hole, &shot, &room, NULL));
  return room;
}

static Room
room_of (const Part *const *parts, size_t n_parts)
{
  g_autoptr (Hole) hole = hole_over (KIND_FAIRWAY, parts, n_parts);
  ShotResult shot = shot_on (hole, 0);
  Room room;
  ck_assert (odds_room (hole, &shot, &room, NULL));
  return room;
}

/* ---- the shape's room ---- */

START_TEST (a_ball_may_curve_until_it_comes_down_in_the_sand)
{
  const Part *parts[]
      = { rectangle (KIND_BUNKER, (Box){ 9, 100, 40, 200 }), rectangle (KIND_BUNKER, (Box){ -50, 100, -14, 200 }) };
  ShapeRoom room = shape_of (parts, 2, 0);
  ck_assert (room.is_clear);
  ck_assert_int_eq (room.right_part, 0);
  ck_assert_int_eq (room.left_part, 1);
  /* The ball runs on to the side as well, so that it is in the sand a little before it comes down there. */
  ck_assert (room.right_m <= 9 + SHAPE_M && room.right_m > 7);
  ck_assert (room.left_m <= 14 + SHAPE_M && room.left_m > 11);
  ck_assert_double_eq_tol (room.right_rad, atan2 (room.right_m, 140), 1e-12);
}
END_TEST

START_TEST (where_the_ball_stays_the_room_ends_at_the_edge_itself)
{
  /* Trees all round but for a lane of turf: no run carries a ball out of what it comes down in, and the lane is wide. */
  const Part *parts[] = { rectangle (KIND_WATER, (Box){ 9, 139, 60, 141 }) };
  g_autoptr (Hole) hole = hole_over (KIND_FAIRWAY, parts, 1);
  ShotResult shot = shot_on (hole, 0);
  ShapeRoom room;
  ck_assert (odds_shape_room (hole, &shot, &room, NULL));
  /* A curve of 9 m shortens the carry by less than a metre, so the ball comes down in the strip. */
  ck_assert_double_eq_tol (room.right_m, 9, SHAPE_M + CURVE_M);
  ck_assert_int_eq (room.left_part, -1);
  ck_assert_double_eq (room.left_m, SHAPE_ROOM_MOST_M);
}
END_TEST

START_TEST (a_ball_may_curve_until_it_flies_into_a_tree)
{
  /* High trees half way: the more it curves the nearer it comes; over low ones it flies. */
  const Part *high[] = { tree (8, 100, 4, 60) }, *low[] = { tree (8, 70, 4, 5) };
  ShapeRoom stopped = shape_of (high, 1, 0), over = shape_of (low, 1, 0);
  ck_assert_int_eq (stopped.right_part, 0);
  ck_assert (stopped.right_m > 4 && stopped.right_m < 14);
  ck_assert_int_eq (over.right_part, -1);
}
END_TEST

START_TEST (more_room_on_one_side_is_the_mirror_s_on_the_other)
{
  const Part *here[] = { rectangle (KIND_BUNKER, (Box){ 7, 100, 40, 200 }) },
             *there[] = { rectangle (KIND_BUNKER, (Box){ -40, 100, -7, 200 }) };
  ShapeRoom one = shape_of (here, 1, 6), other = shape_of (there, 1, -6);
  ck_assert_double_eq_tol (one.right_m, other.left_m, 2 * SHAPE_M);
  ck_assert_double_eq_tol (one.left_m, other.right_m, 2 * SHAPE_M);
}
END_TEST

START_TEST (a_shape_that_is_in_trouble_has_no_room)
{
  const Part *sand[] = { rectangle (KIND_BUNKER, (Box){ -20, 130, 20, 150 }) };
  ShapeRoom room = shape_of (sand, 1, 0);
  ck_assert (!room.is_clear);
  ck_assert_int_eq (room.left_part, 0);
  ck_assert (room.left_m == 0 && room.right_m == 0);
}
END_TEST

/* ---- room for error ---- */

START_TEST (the_pattern_may_move_until_one_ball_in_ten_is_in_the_water)
{
  /* Side deviation 6 m, water from 20 m right: one in ten lies beyond 1.2816 deviations (the normal's ninth decile). */
  const Part *parts[] = { rectangle (KIND_WATER, (Box){ 20, -50, 300, 400 }) };
  Room room = room_of (parts, 1);
  ck_assert_double_eq_tol (room.right_m, 20 - 1.2815515655446004 * 6, ROOM_M);
  ck_assert_double_eq (room.left_m, ROOM_MOST_M);
  ck_assert_double_eq (room.long_m, ROOM_MOST_M);
  ck_assert (room.start_is_clear && room.finish_is_clear);
  ck_assert_double_lt (room.trouble, 1e-3);
}
END_TEST

START_TEST (a_ball_that_runs_on_has_less_room_before_water_behind_and_as_much_as_its_carry_over_it_in_front)
{
  const Part *behind[] = { rectangle (KIND_WATER, (Box){ -200, 170, 200, 400 }) },
             *before[] = { rectangle (KIND_WATER, (Box){ -200, 60, 200, 120 }) };
  Room long_one = room_of (behind, 1), short_one = room_of (before, 1);
  ck_assert (long_one.long_m < 30 - 1.2815515655446004 * 5 - 1 && long_one.long_m > 5);
  ck_assert_double_eq_tol (short_one.short_m, 20 - 1.2815515655446004 * 5, ROOM_M);
}
END_TEST

/* Trouble at rest of the shot moved so far, by its odds. */
static double
trouble_of_moved (const Hole *hole, const ShotResult *shot, Vec2 by)
{
  ShotResult moved = *shot;
  double trouble = 0;
  moved.landing = moved.pattern.mean = vec2_add (shot->landing, by);
  g_autoptr (OddsTable) odds = odds_table_new (hole, &moved, NULL);
  ck_assert_ptr_nonnull (odds);
  for (int kind = 0; kind < N_KINDS; kind++)
    if (kind_info ((Kind)kind)->is_trouble)
      trouble += odds->rest[kind];
  return trouble;
}

START_TEST (a_pattern_moved_by_its_room_has_one_ball_in_ten_in_trouble_by_the_odds)
{
  /* Ground that falls to the right and ahead, into sand on one side, deep rough that balls run out of on the other, and a ditch behind. */
  const Part *parts[8]
      = { rectangle (KIND_DEEP_ROUGH, (Box){ -80, 60, -14, 240 }), rectangle (KIND_BUNKER, (Box){ 16, 90, 50, 200 }),
          rectangle (KIND_WATER, (Box){ -200, 171, 200, 180 }), rectangle (KIND_WATER, (Box){ -200, 96, 200, 104 }) };
  for (int i = 0; i < 4; i++)
    {
      Part *height = part_new (KIND_SPOT_HEIGHT);
      height->at = vec2 (i % 2 ? 400 : -400, i / 2 ? 400 : -400);
      height->height_m = -0.04 * height->at.x - 0.02 * height->at.y;
      parts[4 + i] = part_seal (height);
    }
  g_autoptr (Hole) hole = hole_over (KIND_FAIRWAY, parts, 8);
  for (int poor = 0; poor < 2; poor++)
    {
      Club club = iron;
      club.mishit_chance = poor ? 0.05 : 0;
      club.mishit_carry_share = 0.8;
      ShotInput input = { .aim = { 0, 140 }, .club = &club, .swing = 1 };
      ShotResult shot;
      Room room;
      ck_assert (odds_shot (hole, NULL, &input, &shot, NULL) && odds_room (hole, &shot, &room, NULL));
      Vec2 along = vec2_unit (vec2_sub (shot.landing, shot.ball)), left = vec2_left (along);
      const double rooms_m[] = { room.left_m, -room.right_m, room.long_m, -room.short_m };
      for (int way = 0; way < 4; way++)
        {
          ck_assert (fabs (rooms_m[way]) > 1 && fabs (rooms_m[way]) < ROOM_MOST_M - 1);
          double trouble = trouble_of_moved (hole, &shot, vec2_scale (way < 2 ? left : along, rooms_m[way]));
          /* A quarter of a metre, with up to 0.4 / 5 of the balls to each metre along. */
          ck_assert_double_eq_tol (trouble, ROOM_TROUBLE, ROOM_M * 0.4 / 5 + REST_ERROR);
        }
    }
}
END_TEST

START_TEST (a_pattern_without_width_may_move_until_its_one_ball_is_in_the_water)
{
  const Part *parts[] = { rectangle (KIND_WATER, (Box){ 10, -50, 300, 400 }) };
  g_autoptr (Hole) hole = hole_over (KIND_FAIRWAY, parts, 1);
  Club sure = iron;
  sure.carry_sd_m = sure.side_sd_m = 0;
  ShotInput input = { .aim = { 0, 140 }, .club = &sure, .swing = 1 };
  ShotResult shot;
  Room room;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL) && odds_room (hole, &shot, &room, NULL));
  ck_assert_double_eq_tol (room.right_m, 10, ROOM_M + 0.3);
  ck_assert_double_eq (room.left_m, ROOM_MOST_M);
}
END_TEST

START_TEST (where_more_than_one_in_ten_is_in_trouble_already_there_is_no_room)
{
  const Part *parts[] = { rectangle (KIND_WATER, (Box){ 3, -50, 300, 400 }) };
  Room room = room_of (parts, 1);
  ck_assert_double_gt (room.trouble, ROOM_TROUBLE);
  ck_assert (isnan (room.left_m) && isnan (room.right_m) && isnan (room.short_m) && isnan (room.long_m));
  ck_assert (room.finish_is_clear);
}
END_TEST

START_TEST (a_fade_that_does_not_fade_is_wet_where_its_start_line_ends_in_water)
{
  const Part *parts[] = { rectangle (KIND_WATER, (Box){ -60, 100, -8, 200 }) };
  g_autoptr (Hole) hole = hole_over (KIND_FAIRWAY, parts, 1);
  ShotResult straight = shot_on (hole, 0), fade = shot_on (hole, 12);
  Room of_straight, of_fade;
  ck_assert (odds_room (hole, &straight, &of_straight, NULL) && odds_room (hole, &fade, &of_fade, NULL));
  ck_assert (of_straight.start_is_clear && of_straight.finish_is_clear);
  ck_assert (!of_fade.start_is_clear && of_fade.finish_is_clear);
  ck_assert_int_eq (of_fade.start_part, 0);
  ck_assert (of_fade.finish_part == -1 && of_straight.start_part == -1);
}
END_TEST

/* ---- in words ---- */

static void
check_words (char *words, const char *expected)
{
  ck_assert_str_eq (words, expected);
  g_free (words);
}

START_TEST (room_is_told_in_the_golfer_s_unit_and_in_words)
{
  /* 1 yd = 0.9144 m exactly. */
  Room room = { .left_m = 12.8016, .right_m = 8.2296, .short_m = 0, .long_m = ROOM_MOST_M, .trouble = 0.04 };
  check_words (room_words (&room, UNIT_YARDS, NULL), "14 left, 9 right, 0 short, 44+ long");
  check_words (room_words (&room, UNIT_METRES, NULL), "13 left, 8 right, 0 short, 40+ long");
  room.left_m = room.right_m = room.short_m = room.long_m = NAN;
  room.trouble = 0.234;
  check_words (room_words (&room, UNIT_YARDS, NULL), "none: 23 % end in trouble as it is");
}
END_TEST

static const Part *
water_called (const char *name, Box box)
{
  Part *part = part_new (KIND_WATER);
  part->name = g_strdup (name);
  path_add_rectangle (&part->path, box, 0, 0);
  return part_seal (part);
}

static Hole *
hole_of_names (void)
{
  const Part *parts[]
      = { water_called ("pond", (Box){ 9, 100, 40, 200 }), water_called ("Long Mere", (Box){ -40, 100, -9, 200 }),
          rectangle (KIND_BUNKER, (Box){ -5, 300, 5, 310 }) };
  return hole_over (KIND_FAIRWAY, parts, 3);
}

START_TEST (lines_say_what_they_end_in)
{
  g_autoptr (Hole) hole = hole_of_names ();
  Room room = { .start_is_clear = true, .finish_is_clear = true, .start_part = -1, .finish_part = -1 };
  check_words (room_line_words (hole, &room, NULL), "Start and finish line stay out of trouble");
  room.finish_is_clear = false;
  room.finish_part = 0;
  check_words (room_line_words (hole, &room, NULL), "Start line stays out of trouble, finish line ends in the pond");
  room.finish_part = 2; /* sand is no less trouble for being dry */
  check_words (room_line_words (hole, &room, NULL), "Start line stays out of trouble, finish line ends in the bunker");
  room.finish_part = 0;
  room.start_is_clear = false;
  check_words (room_line_words (hole, &room, NULL), "Start line ends in trouble, finish line in the pond");
  room.start_part = 0;
  check_words (room_line_words (hole, &room, NULL), "Start and finish line end in the pond");
  room.start_part = 1;
  room.finish_is_clear = true;
  check_words (room_line_words (hole, &room, NULL), "Start line ends in Long Mere, finish line stays out of trouble");
}
END_TEST

START_TEST (the_curve_s_room_is_less_and_more_of_a_shape_and_left_and_right_of_a_straight_shot)
{
  g_autoptr (Hole) hole = hole_of_names ();
  ShotResult straight = shot_on (hole, 0), fade = shot_on (hole, 5), draw = shot_on (hole, -5);
  ShapeRoom room = { .left_m = 10, .right_m = SHAPE_ROOM_MOST_M, .left_part = 2, .right_part = -1, .is_clear = true };
  check_words (shape_room_words (hole, &straight, &room, UNIT_METRES, NULL),
               "out of trouble if it curves 10 (the bunker) left or 30+ right");
  check_words (shape_room_words (hole, &fade, &room, UNIT_METRES, NULL),
               "out of trouble if it curves 10 (the bunker) less or 30+ more");
  check_words (shape_room_words (hole, &draw, &room, UNIT_METRES, NULL),
               "out of trouble if it curves 30+ less or 10 (the bunker) more");
  room.is_clear = false;
  room.left_part = room.right_part = 1;
  check_words (shape_room_words (hole, &fade, &room, UNIT_METRES, NULL), "as planned it meets Long Mere");
}
END_TEST

START_TEST (a_hole_without_areas_has_all_the_room)
{
  Room room = room_of (NULL, 0);
  ShapeRoom shape = shape_of (NULL, 0, NAN);
  ck_assert (room.left_m == ROOM_MOST_M && room.right_m == ROOM_MOST_M && room.short_m == ROOM_MOST_M
             && room.long_m == ROOM_MOST_M);
  ck_assert (shape.is_clear && shape.left_m == SHAPE_ROOM_MOST_M && shape.right_m == SHAPE_ROOM_MOST_M);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-room");
  TCase *tcase = tcase_create ("room");
  const TTest *const tests[]
      = { a_ball_may_curve_until_it_comes_down_in_the_sand,
          where_the_ball_stays_the_room_ends_at_the_edge_itself,
          a_ball_may_curve_until_it_flies_into_a_tree,
          more_room_on_one_side_is_the_mirror_s_on_the_other,
          a_shape_that_is_in_trouble_has_no_room,
          the_pattern_may_move_until_one_ball_in_ten_is_in_the_water,
          a_ball_that_runs_on_has_less_room_before_water_behind_and_as_much_as_its_carry_over_it_in_front,
          a_pattern_moved_by_its_room_has_one_ball_in_ten_in_trouble_by_the_odds,
          a_pattern_without_width_may_move_until_its_one_ball_is_in_the_water,
          where_more_than_one_in_ten_is_in_trouble_already_there_is_no_room,
          a_fade_that_does_not_fade_is_wet_where_its_start_line_ends_in_water,
          room_is_told_in_the_golfer_s_unit_and_in_words,
          lines_say_what_they_end_in,
          the_curve_s_room_is_less_and_more_of_a_shape_and_left_and_right_of_a_straight_shot,
          a_hole_without_areas_has_all_the_room };
  for (size_t i = 0; i < G_N_ELEMENTS (tests); i++)
    tcase_add_test (tcase, tests[i]);
  suite_add_tcase (suite, tcase);
  return suite;
}
