// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of hole: kinds, parts, what lies underfoot, the measured length, edits that share, history. */
#include "hole.h"
#include "suite.h"
#include "units.h"

#include <stdlib.h>

#define MM 0.001

/* ---- building blocks ---- */

static const Part *
rectangle (Kind kind, const char *id, double x0, double y0, double x1, double y1)
{
  Part *part = part_new (kind);
  part->id = g_strdup (id);
  path_add_rectangle (&part->path, (Box){ x0, y0, x1, y1 }, 0, 0);
  return part_seal (part);
}

static const Part *
point (Kind kind, const char *name, double x, double y)
{
  Part *part = part_new (kind);
  part->name = g_strdup (name);
  part->at = vec2 (x, y);
  return part_seal (part);
}

static const Part *
line_of_play (const Vec2 *points, size_t n_points)
{
  Part *part = part_new (KIND_LINE_OF_PLAY);
  path_move_to (&part->path, points[0]);
  for (size_t i = 1; i < n_points; i++)
    path_line_to (&part->path, points[i]);
  return part_seal (part);
}

static Hole *
hole_of (const Part **parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, parts, n_parts, NULL);
}

/* A dogleg: 200 m up, then 150 m to the left; white tee at the origin, red tee 60 m on. */
static Hole *
dogleg (void)
{
  const Vec2 line[] = { { 0, 0 }, { 0, 200 }, { -150, 200 } };
  const Part *parts[] = { rectangle (KIND_FAIRWAY, "fairway", -20, 100, 20, 220),
                          rectangle (KIND_GREEN, "green", -165, 190, -135, 210),
                          rectangle (KIND_BUNKER, "deep-one", -140, 185, -130, 195),
                          point (KIND_TEE_MARKER, "white", 0, 0),
                          point (KIND_TEE_MARKER, "red", 0, 60),
                          point (KIND_HOLE_LOCATION, "front", -140, 200),
                          point (KIND_HOLE_LOCATION, "back", -160, 200),
                          line_of_play (line, G_N_ELEMENTS (line)) };
  return hole_of (parts, G_N_ELEMENTS (parts));
}

/* ---- known answers ---- */

START_TEST (measured_length_runs_straight_to_each_pivot_then_to_the_middle_of_the_green)
{
  /* Rules of Handicapping (World Handicap System), Appendix A: measured horizontally from the tee to each pivot and to the
     middle of the green. */
  g_autoptr (Hole) hole = dogleg ();
  double length_m = 0;
  ck_assert (hole_measured_length (hole, "white", &length_m));
  ck_assert_double_eq_tol (length_m, 350, MM);
  ck_assert (hole_measured_length (hole, "red", &length_m));
  ck_assert_double_eq_tol (length_m, 290, MM);
}
END_TEST

START_TEST (a_tee_past_the_pivot_is_measured_without_it)
{
  g_autoptr (Hole) hole = dogleg ();
  g_autoptr (Hole) forward = hole_with_part (hole, 4, point (KIND_TEE_MARKER, "red", -30, 190));
  double length_m = 0;
  ck_assert (hole_measured_length (forward, "red", &length_m));
  ck_assert_double_eq_tol (length_m, hypot (120, 10), MM);
}
END_TEST

START_TEST (without_a_line_of_play_the_hole_is_measured_straight)
{
  g_autoptr (Hole) hole = dogleg ();
  g_autoptr (Hole) plain = hole_without_part (hole, 7);
  double length_m = 0;
  ck_assert (hole_measured_length (plain, NULL, &length_m));
  ck_assert_double_eq_tol (length_m, 250, MM); /* 150, 200, 250 */
}
END_TEST

START_TEST (an_unmarked_penalty_area_is_red_and_water_takes_the_stakes_round_it)
{
  /* Rules of Golf, Rule 17.1a: a penalty area whose colour is not marked is treated as red. */
  Part *yellow = part_new (KIND_PENALTY_AREA);
  path_add_ellipse (&yellow->path, vec2 (0, 0), 30, 30);
  yellow->stakes = STAKES_YELLOW;
  yellow->stakes_given = true;
  const Part *parts[]
      = { part_seal (yellow), rectangle (KIND_WATER, "pond", -10, -10, 10, 10),
          rectangle (KIND_WATER, "ditch", 100, 0, 110, 10), rectangle (KIND_PENALTY_AREA, "wood", 200, 0, 210, 10) };
  g_autoptr (Hole) hole = hole_of (parts, G_N_ELEMENTS (parts));
  ck_assert_int_eq (hole_stakes (hole, 1), STAKES_YELLOW);
  ck_assert_int_eq (hole_stakes (hole, 2), STAKES_RED);
  ck_assert_int_eq (hole_stakes (hole, 3), STAKES_RED);
}
END_TEST

START_TEST (every_kind_of_the_file_is_found_by_its_word)
{
  for (int i = KIND_NONE + 1; i < N_KINDS; i++)
    {
      Kind kind = KIND_NONE;
      ck_assert (kind_from_token (kind_info ((Kind)i)->token, &kind));
      ck_assert_int_eq (kind, i);
    }
  Kind kind = KIND_TEE;
  ck_assert (!kind_from_token ("sand-trap", &kind));
  ck_assert_int_eq (kind, KIND_TEE);
}
END_TEST

/* ---- what is underfoot ---- */

START_TEST (the_topmost_area_is_the_lie)
{
  g_autoptr (Hole) hole = dogleg ();
  ck_assert_int_eq (hole_lie_at (hole, vec2 (0, 150)), LIE_FAIRWAY);
  ck_assert_int_eq (hole_lie_at (hole, vec2 (-137, 192)), LIE_SAND); /* the bunker cuts into the green */
  ck_assert_int_eq (hole_lie_at (hole, vec2 (-150, 200)), LIE_GREEN);
  ck_assert_int_eq (hole_lie_at (hole, vec2 (300, 300)), LIE_ROUGH); /* the ground */
  ck_assert_int_eq (hole_area_at (hole, vec2 (300, 300)), -1);
}
END_TEST

START_TEST (many_places_have_the_areas_that_each_has)
{
  g_autoptr (Hole) hole = dogleg ();
  const double x_m[] = { 0, -137, -150, 300, NAN }, y_m[] = { 150, 192, 200, 300, 0 };
  int areas[G_N_ELEMENTS (x_m)];
  hole_areas_at (hole, x_m, y_m, G_N_ELEMENTS (x_m), areas);
  for (size_t i = 0; i < G_N_ELEMENTS (x_m); i++)
    {
      Vec2 at = vec2 (x_m[i], y_m[i]);
      int part = areas[i] >= 0 ? (int)hole_area_part (hole, (size_t)areas[i]) : -1;
      ck_assert_int_eq (part, hole_area_at (hole, at));
      ck_assert_int_eq (hole_area_lie (hole, areas[i]), hole_lie_at (hole, at));
    }
}
END_TEST

START_TEST (a_shape_without_a_kind_covers_nothing)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, "fairway", 0, 0, 10, 10), rectangle (KIND_NONE, "blob", 0, 0, 10, 10) };
  g_autoptr (Hole) hole = hole_of (parts, G_N_ELEMENTS (parts));
  ck_assert_int_eq (hole_area_at (hole, vec2 (5, 5)), 0);
}
END_TEST

START_TEST (tee_and_hole_in_use_follow_the_plan_then_the_mark_then_the_order)
{
  g_autoptr (Hole) hole = dogleg ();
  ck_assert_int_eq (hole_tee (hole, NULL), 3);
  ck_assert_int_eq (hole_tee (hole, "RED"), 4);
  ck_assert_int_eq (hole_tee (hole, "gold"), -1);
  ck_assert_int_eq (hole_hole_location (hole, NULL), 5);
  Part *back = part_copy (hole_part (hole, 6));
  back->today = true;
  g_autoptr (Hole) today = hole_with_part (hole, 6, part_seal (back));
  ck_assert_int_eq (hole_hole_location (today, NULL), 6);
  Part *plan = part_new (KIND_PLAN);
  plan->tee = g_strdup ("red");
  plan->hole_name = g_strdup ("front");
  g_autoptr (Hole) planned = hole_inserting_part (today, hole_n_parts (today), part_seal (plan));
  ck_assert_int_eq (hole_tee (planned, NULL), 4);
  ck_assert_int_eq (hole_hole_location (planned, NULL), 5);
}
END_TEST

START_TEST (a_hole_without_tee_or_green_has_no_length_and_no_target)
{
  g_autoptr (Hole) empty = hole_of (NULL, 0);
  double length_m;
  Vec2 target;
  ck_assert (!hole_measured_length (empty, NULL, &length_m));
  ck_assert (!hole_target (empty, NULL, &target));
  ck_assert_int_eq (hole_green (empty, NULL), -1);
  ck_assert (!box_is_empty (hole_extent (empty)));
}
END_TEST

START_TEST (the_label_is_the_name_else_the_id_in_plain_words_else_the_kind)
{
  char buffer[64];
  const Part *named = point (KIND_MARK, "gate", 0, 0), *with_id = rectangle (KIND_WATER, "mill_pond-east", 0, 0, 1, 1);
  const Part *bare = rectangle (KIND_BUNKER, NULL, 0, 0, 1, 1);
  ck_assert_str_eq (part_label (named, buffer, sizeof buffer), "gate");
  ck_assert_str_eq (part_label (with_id, buffer, sizeof buffer), "mill pond east");
  ck_assert_str_eq (part_label (bare, buffer, sizeof buffer), "bunker");
  part_unref (named);
  part_unref (with_id);
  part_unref (bare);
}
END_TEST

/* ---- edits ---- */

START_TEST (an_edit_leaves_the_old_hole_alone_and_shares_the_rest)
{
  g_autoptr (Hole) hole = dogleg ();
  g_autoptr (Hole) moved = hole_with_part (hole, 2, rectangle (KIND_BUNKER, "deep-one", 0, 0, 5, 5));
  ck_assert_int_eq (hole_lie_at (hole, vec2 (2, 2)), LIE_ROUGH);
  ck_assert_int_eq (hole_lie_at (moved, vec2 (2, 2)), LIE_SAND);
  ck_assert_ptr_eq (hole_part (hole, 0), hole_part (moved, 0));
  ck_assert (!hole_equal (hole, moved));
  g_autoptr (Hole) back = hole_with_part (moved, 2, part_ref (hole_part (hole, 2)));
  ck_assert (hole_equal (hole, back));
}
END_TEST

START_TEST (a_copied_part_equals_its_model_until_changed)
{
  Part *plan = part_new (KIND_PLAN);
  plan->day.wind_mps = 3;
  plan->day.firmness = g_strdup ("soft");
  part_add_shot (plan, &(Shot){ 0, { 0, 0 }, { 0, 200 }, (char *)"driver", SHOT_DRAW, NAN, 1 });
  part_seal (plan);
  Part *copy = part_copy (plan);
  ck_assert (part_equal (plan, copy));
  copy->shots[0].aim.x = 1;
  ck_assert (!part_equal (plan, copy));
  part_unref (copy);
  part_unref (plan);
}
END_TEST

START_TEST (info_edits_keep_the_parts)
{
  g_autoptr (Hole) hole = dogleg ();
  HoleInfo info = *hole_info (hole);
  info.par = 5;
  g_autoptr (Hole) longer = hole_with_info (hole, &info);
  ck_assert_int_eq (hole_info (hole)->par, 0);
  ck_assert_int_eq (hole_info (longer)->par, 5);
  ck_assert_ptr_eq (hole_part (hole, 3), hole_part (longer, 3));
}
END_TEST

static gpointer
look_underfoot (gpointer data)
{
  const Hole *hole = data;
  int on_green = 0;
  for (int i = 0; i < 10000; i++)
    on_green += hole_lie_at (hole, vec2 (-170 + 0.004 * i, 200)) == LIE_GREEN;
  return GINT_TO_POINTER (on_green);
}

START_TEST (four_threads_may_ask_the_same_fresh_hole_at_once)
{
  g_autoptr (Hole) hole = dogleg ();
  GThread *threads[4];
  for (int i = 0; i < 4; i++)
    threads[i] = g_thread_new ("look", look_underfoot, hole);
  int first = GPOINTER_TO_INT (g_thread_join (threads[0]));
  ck_assert_int_gt (first, 0);
  for (int i = 1; i < 4; i++)
    ck_assert_int_eq (GPOINTER_TO_INT (g_thread_join (threads[i])), first);
}
END_TEST

/* ---- history ---- */

START_TEST (undo_walks_back_and_redo_forward_by_name)
{
  g_autoptr (Hole) a = dogleg ();
  g_autoptr (Hole) b = hole_without_part (a, 2);
  g_autoptr (Hole) c = hole_without_part (b, 0);
  g_autoptr (History) history = history_new (a);
  ck_assert_ptr_null (history_undo_label (history));
  ck_assert (!history_undo (history));
  history_push (history, b, "delete bunker");
  history_push (history, c, "delete fairway");
  ck_assert_str_eq (history_undo_label (history), "delete fairway");
  ck_assert (history_undo (history));
  ck_assert_ptr_eq (history_current (history), b);
  ck_assert_str_eq (history_redo_label (history), "delete fairway");
  ck_assert (history_undo (history));
  ck_assert_ptr_eq (history_current (history), a);
  ck_assert (!history_is_modified (history));
  ck_assert (history_redo (history));
  ck_assert (history_is_modified (history));
  history_push (history, c, "something else");
  ck_assert_ptr_null (history_redo_label (history));
}
END_TEST

START_TEST (one_gesture_is_one_step)
{
  g_autoptr (Hole) a = dogleg ();
  g_autoptr (History) history = history_new (a);
  for (int i = 0; i < 20; i++)
    {
      g_autoptr (Hole) moved = hole_with_part (a, 4, point (KIND_TEE_MARKER, "red", i, 60));
      history_push_gesture (history, moved, "move tee marker", 7);
    }
  ck_assert_double_eq (hole_part (history_current (history), 4)->at.x, 19);
  ck_assert (history_undo (history));
  ck_assert_ptr_eq (history_current (history), a);
  ck_assert (!history_undo (history));
}
END_TEST

START_TEST (saving_moves_the_unmodified_state)
{
  g_autoptr (Hole) a = dogleg ();
  g_autoptr (Hole) b = hole_without_part (a, 2);
  g_autoptr (History) history = history_new (a);
  history_push (history, b, "delete bunker");
  history_mark_saved (history);
  ck_assert (!history_is_modified (history));
  history_undo (history);
  ck_assert (history_is_modified (history));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("hole");
  TCase *places = tcase_create ("places");
  tcase_add_test (places, measured_length_runs_straight_to_each_pivot_then_to_the_middle_of_the_green);
  tcase_add_test (places, a_tee_past_the_pivot_is_measured_without_it);
  tcase_add_test (places, without_a_line_of_play_the_hole_is_measured_straight);
  tcase_add_test (places, an_unmarked_penalty_area_is_red_and_water_takes_the_stakes_round_it);
  tcase_add_test (places, every_kind_of_the_file_is_found_by_its_word);
  tcase_add_test (places, the_topmost_area_is_the_lie);
  tcase_add_test (places, many_places_have_the_areas_that_each_has);
  tcase_add_test (places, a_shape_without_a_kind_covers_nothing);
  tcase_add_test (places, tee_and_hole_in_use_follow_the_plan_then_the_mark_then_the_order);
  tcase_add_test (places, a_hole_without_tee_or_green_has_no_length_and_no_target);
  tcase_add_test (places, the_label_is_the_name_else_the_id_in_plain_words_else_the_kind);
  suite_add_tcase (suite, places);
  TCase *edits = tcase_create ("edits");
  tcase_add_test (edits, an_edit_leaves_the_old_hole_alone_and_shares_the_rest);
  tcase_add_test (edits, a_copied_part_equals_its_model_until_changed);
  tcase_add_test (edits, info_edits_keep_the_parts);
  tcase_add_test (edits, four_threads_may_ask_the_same_fresh_hole_at_once);
  suite_add_tcase (suite, edits);
  TCase *history = tcase_create ("history");
  tcase_add_test (history, undo_walks_back_and_redo_forward_by_name);
  tcase_add_test (history, one_gesture_is_one_step);
  tcase_add_test (history, saving_moves_the_unmodified_state);
  suite_add_tcase (suite, history);
  return suite;
}
