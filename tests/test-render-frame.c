// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of render: the view that frames the shot in hand, the step of an arrow key, and the way from one view to another. */
#include "render.h"
#include "suite.h"

#include <string.h>

/* Views are exact but for rounding. */
#define EXACT_PX 1e-6
#define EXACT_M 1e-9
#define WIDTH_PX 900.0
#define HEIGHT_PX 500.0

static Hole *
hole_to (Vec2 target)
{
  Part *tee = part_new (KIND_TEE_MARKER), *pin = part_new (KIND_HOLE_LOCATION);
  pin->at = target;
  const Part *parts[] = { part_seal (tee), part_seal (pin) };
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  return hole;
}

/* A shot that lands on its aim. */
static ShotResult
shot_to (Vec2 aim)
{
  double length_m = vec2_length (aim);
  return (ShotResult){ .aim = aim, .landing = aim, .aim_m = length_m, .carry_m = length_m, .swing = 1 };
}

static RenderView
framed (const Hole *hole, const ShotResult *shot)
{
  RenderView view = { .px_per_m = 1, .unit_px = 1, .width_px = WIDTH_PX, .height_px = HEIGHT_PX };
  PlanScene scene = { .hole = hole, .shots = shot, .n_shots = 1 };
  view_frame_shot (&view, &scene);
  return view;
}

START_TEST (a_framed_shot_runs_level_from_left_to_right)
{
  g_autoptr (Hole) hole = hole_to (vec2 (90, 330));
  ShotResult shot = shot_to (vec2 (-40, 180));
  RenderView view = framed (hole, &shot);
  Vec2 ball = view_point (&view, shot.ball), aim = view_point (&view, shot.aim);
  ck_assert_double_eq_tol (ball.y, aim.y, EXACT_PX);
  ck_assert_double_lt (ball.x, aim.x);
  ck_assert_double_gt (ball.x, 0);
}
END_TEST

START_TEST (a_hole_near_enough_is_framed_with_the_shot)
{
  g_autoptr (Hole) hole = hole_to (vec2 (30, 330));
  ShotResult shot = shot_to (vec2 (0, 190));
  RenderView view = framed (hole, &shot);
  Vec2 pin = view_point (&view, vec2 (30, 330));
  ck_assert_double_lt (pin.x, WIDTH_PX);
  ck_assert_double_gt (pin.y, 0);
  ck_assert_double_lt (pin.y, HEIGHT_PX);
}
END_TEST

START_TEST (a_hole_far_beyond_leaves_the_shot_its_size)
{
  g_autoptr (Hole) near = hole_to (vec2 (0, 120)), far = hole_to (vec2 (0, 900));
  ShotResult shot = shot_to (vec2 (0, 100));
  RenderView beside_near = framed (near, &shot), beside_far = framed (far, &shot);
  ck_assert_double_gt (view_point (&beside_far, shot.aim).x, WIDTH_PX / 2);
  ck_assert_double_ge (beside_far.px_per_m, beside_near.px_per_m);
}
END_TEST

START_TEST (a_green_off_to_the_side_moves_the_shot_off_the_middle_and_keeps_it_on_the_drawing)
{
  g_autoptr (Hole) hole = hole_to (vec2 (400, 300));
  ShotResult shot = shot_to (vec2 (0, 200));
  RenderView view = framed (hole, &shot);
  Vec2 ball = view_point (&view, shot.ball);
  ck_assert_double_lt (ball.y, HEIGHT_PX / 2);
  ck_assert_double_gt (ball.y, 0);
}
END_TEST

START_TEST (a_hole_without_a_target_is_framed_by_the_shot_alone)
{
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  ShotResult shot = shot_to (vec2 (0, 150));
  RenderView view = framed (hole, &shot);
  ck_assert_double_eq_tol (view_point (&view, shot.aim).y, HEIGHT_PX / 2, EXACT_PX);
}
END_TEST

START_TEST (a_step_goes_the_way_of_the_key_and_as_far_as_asked_whatever_the_turn)
{
  static const double turns_rad[] = { 0, 0.7, -2.1, PI };
  for (size_t i = 0; i < G_N_ELEMENTS (turns_rad); i++)
    {
      RenderView view
          = { .centre = { 12, 80 }, .px_per_m = 3, .turn_rad = turns_rad[i], .unit_px = 1, .width_px = 400, .height_px = 300 };
      Vec2 from = vec2 (20, 60), right = view_step (&view, vec2 (1, 0), 9.144);
      ck_assert_double_eq_tol (vec2_length (right), 9.144, EXACT_M);
      Vec2 before = view_point (&view, from), after = view_point (&view, vec2_add (from, right));
      ck_assert_double_eq_tol (after.x - before.x, 9.144 * 3, EXACT_PX);
      ck_assert_double_eq_tol (after.y, before.y, EXACT_PX);
    }
}
END_TEST

START_TEST (the_way_between_two_views_starts_and_ends_at_them_and_turns_the_shorter_way)
{
  RenderView from = { .centre = { 0, 0 }, .px_per_m = 1, .turn_rad = 3, .unit_px = 1, .width_px = 400, .height_px = 300 };
  RenderView to = from;
  to.centre = vec2 (10, 20);
  to.px_per_m = 4;
  to.turn_rad = -3;
  RenderView start = view_between (&from, &to, 0), middle = view_between (&from, &to, 0.5), end = view_between (&from, &to, 1);
  ck_assert_double_eq_tol (start.px_per_m, 1, EXACT_M);
  ck_assert_double_eq_tol (start.turn_rad, 3, EXACT_M);
  ck_assert_double_eq_tol (middle.px_per_m, 2, EXACT_M);
  ck_assert_double_eq_tol (middle.turn_rad, PI, EXACT_M);
  ck_assert_double_eq_tol (middle.centre.y, 10, EXACT_M);
  ck_assert_double_eq_tol (end.px_per_m, 4, EXACT_M);
  ck_assert_double_eq_tol (remainder (end.turn_rad - to.turn_rad, 2 * PI), 0, EXACT_M);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-frame");
  TCase *frames = tcase_create ("frames");
  tcase_add_test (frames, a_framed_shot_runs_level_from_left_to_right);
  tcase_add_test (frames, a_hole_near_enough_is_framed_with_the_shot);
  tcase_add_test (frames, a_hole_far_beyond_leaves_the_shot_its_size);
  tcase_add_test (frames, a_green_off_to_the_side_moves_the_shot_off_the_middle_and_keeps_it_on_the_drawing);
  tcase_add_test (frames, a_hole_without_a_target_is_framed_by_the_shot_alone);
  suite_add_tcase (suite, frames);
  TCase *steps = tcase_create ("steps");
  tcase_add_test (steps, a_step_goes_the_way_of_the_key_and_as_far_as_asked_whatever_the_turn);
  tcase_add_test (steps, the_way_between_two_views_starts_and_ends_at_them_and_turns_the_shorter_way);
  suite_add_tcase (suite, steps);
  return suite;
}
