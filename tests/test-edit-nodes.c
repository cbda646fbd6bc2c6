// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: nodes and their handles. */
#include "edit.h"
#include "suite.h"

#include <stdlib.h>

#define MM 0.001
/* Two roundings to the grid, each half a step either way. */
#define ROUNDING_M (2 * EDIT_GRID_M)

static Hole *
hole_of (const Part *part)
{
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, &part, 1, NULL);
}

/* A square of 10 m, its corners at whole metres. */
static Hole *
square (void)
{
  Part *part = part_new (KIND_BUNKER);
  path_add_rectangle (&part->path, (Box){ 0, 0, 10, 10 }, 0, 0);
  return hole_of (part_seal (part));
}

static Hole *
disc (void)
{
  Part *part = part_new (KIND_GREEN);
  path_add_ellipse (&part->path, vec2 (0, 0), 12, 12);
  return hole_of (part_seal (part));
}

static Hole *
line (void)
{
  Part *part = part_new (KIND_LINE_OF_PLAY);
  path_move_to (&part->path, vec2 (0, 0));
  path_line_to (&part->path, vec2 (0, 200));
  path_line_to (&part->path, vec2 (50, 380));
  return hole_of (part_seal (part));
}

static size_t
nodes_of (const Hole *hole, PathNode *nodes, size_t most)
{
  PathNode *found = NULL;
  size_t n = path_nodes (&hole_part (hole, 0)->path, &found);
  ck_assert_uint_le (n, most);
  for (size_t i = 0; i < n; i++)
    nodes[i] = found[i];
  free (found);
  return n;
}

static double
area_of (const Hole *hole)
{
  double area_m2 = 0;
  ck_assert (outline_measure (hole_part (hole, 0)->outline, &area_m2, NULL));
  return area_m2;
}

/* Largest distance of one outline's points from the other. */
static double
largest_distance (const Hole *a, const Hole *b)
{
  double largest_m = 0;
  const Outline *from = hole_part (a, 0)->outline, *to = hole_part (b, 0)->outline;
  for (size_t i = 0; i < from->n_points; i++)
    largest_m = fmax (largest_m, outline_distance (to, from->points[i], NULL));
  return largest_m;
}

#define MOST_NODES 16

START_TEST (a_moved_corner_pulls_its_two_sides)
{
  g_autoptr (Hole) hole = square ();
  PathNode nodes[MOST_NODES];
  ck_assert_uint_eq (nodes_of (hole, nodes, MOST_NODES), 4);
  g_autoptr (Hole) made = edit_move_node (hole, 0, 0, NODE_AT, vec2 (-10.0004, 0), NULL);
  ck_assert_uint_eq (nodes_of (made, nodes, MOST_NODES), 4);
  ck_assert_double_eq (nodes[0].at.x, -10);
  ck_assert_double_eq_tol (area_of (made), 150, 1e-9);
  g_autoptr (Hole) back = edit_move_node (made, 0, 0, NODE_AT, vec2 (0, 0), NULL);
  ck_assert (hole_equal (back, hole));
  g_autoptr (Hole) same = edit_move_node (hole, 0, 2, NODE_AT, vec2 (10, 10), NULL);
  ck_assert_ptr_eq (same, hole);
}
END_TEST

START_TEST (handles_go_with_their_node)
{
  g_autoptr (Hole) hole = disc ();
  PathNode before[MOST_NODES], after[MOST_NODES];
  size_t n = nodes_of (hole, before, MOST_NODES);
  g_autoptr (Hole) made = edit_move_node (hole, 0, 1, NODE_AT, vec2_add (before[1].at, vec2 (2, 3)), NULL);
  ck_assert_uint_eq (nodes_of (made, after, MOST_NODES), n);
  ck_assert_double_eq_tol (after[1].in.x, before[1].in.x + 2, ROUNDING_M);
  ck_assert_double_eq_tol (after[1].out.y, before[1].out.y + 3, ROUNDING_M);
  ck_assert_double_eq (after[0].out.x, before[0].out.x); /* others stay to the bit */
  ck_assert_double_eq (after[2].in.y, before[2].in.y);
}
END_TEST

START_TEST (the_other_handle_of_a_smooth_node_turns_with_the_dragged_one)
{
  g_autoptr (Hole) hole = disc ();
  PathNode before[MOST_NODES], after[MOST_NODES];
  nodes_of (hole, before, MOST_NODES);
  Vec2 to = vec2_add (before[1].at, vec2 (-3, 4));
  g_autoptr (Hole) made = edit_move_node (hole, 0, 1, NODE_OUT, to, NULL);
  nodes_of (made, after, MOST_NODES);
  ck_assert_double_eq_tol (vec2_distance (after[1].out, to), 0, MM);
  ck_assert (after[1].is_smooth);
  ck_assert_double_eq_tol (vec2_distance (after[1].at, after[1].in), vec2_distance (before[1].at, before[1].in), ROUNDING_M);
}
END_TEST

START_TEST (the_handles_of_a_corner_move_alone)
{
  g_autoptr (Hole) hole = square ();
  g_autoptr (Hole) bent = edit_move_node (hole, 0, 1, NODE_OUT, vec2 (15, 5), NULL);
  PathNode nodes[MOST_NODES];
  nodes_of (bent, nodes, MOST_NODES);
  ck_assert_double_eq (nodes[1].out.x, 15);
  ck_assert_double_eq (nodes[1].in.x, nodes[1].at.x);
  ck_assert_double_gt (area_of (bent), 100);
  GError *error = NULL;
  g_autoptr (Hole) played = line ();
  ck_assert_ptr_null (edit_move_node (played, 0, 0, NODE_IN, vec2 (5, 5), &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_move_node (played, 0, 0, NODE_AT, vec2 (NAN, 5), &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_NUMBER));
  g_clear_error (&error);
}
END_TEST

START_TEST (an_added_node_leaves_the_outline_where_it_was)
{
  for (int i = 0; i < 12; i++)
    {
      g_autoptr (Hole) hole = disc ();
      double angle = 0.1 + i * 0.5;
      size_t node = 99;
      g_autoptr (Hole) made = edit_add_node (hole, 0, vec2 (14 * cos (angle), 14 * sin (angle)), &node, NULL);
      ck_assert_ptr_nonnull (made);
      PathNode nodes[MOST_NODES];
      size_t n = nodes_of (hole, nodes, MOST_NODES);
      ck_assert_uint_eq (nodes_of (made, nodes, MOST_NODES), n + 1);
      ck_assert_double_eq_tol (vec2_distance (nodes[node].at, vec2 (12 * cos (angle), 12 * sin (angle))), 0, 0.01);
      ck_assert (nodes[node].is_smooth);
      ck_assert_double_le (largest_distance (made, hole), FLATTEN_TOLERANCE_M + ROUNDING_M);
    }
}
END_TEST

START_TEST (a_node_just_added_goes_without_a_trace)
{
  g_autoptr (Hole) hole = disc ();
  size_t node = 0;
  g_autoptr (Hole) made = edit_add_node (hole, 0, vec2 (20, 11), &node, NULL);
  g_autoptr (Hole) back = edit_delete_node (made, 0, node, NULL);
  PathNode before[MOST_NODES], after[MOST_NODES];
  size_t n = nodes_of (hole, before, MOST_NODES);
  ck_assert_uint_eq (nodes_of (back, after, MOST_NODES), n);
  for (size_t i = 0; i < n; i++)
    {
      /* Rounded handles, made longer by some times. */
      ck_assert_double_eq_tol (vec2_distance (before[i].in, after[i].in), 0, 10 * MM);
      ck_assert_double_eq_tol (vec2_distance (before[i].out, after[i].out), 0, 10 * MM);
    }
}
END_TEST

START_TEST (a_node_on_the_side_that_the_close_draws_is_found_again)
{
  g_autoptr (Hole) hole = square ();
  size_t node = 99;
  g_autoptr (Hole) made = edit_add_node (hole, 0, vec2 (-1, 4), &node, NULL);
  PathNode nodes[MOST_NODES];
  ck_assert_uint_eq (nodes_of (made, nodes, MOST_NODES), 5);
  ck_assert_double_eq_tol (nodes[node].at.x, 0, MM);
  ck_assert_double_eq_tol (nodes[node].at.y, 4, MM);
  ck_assert_double_eq_tol (area_of (made), 100, 1e-9);
  GError *error = NULL;
  ck_assert_ptr_null (edit_add_node (made, 0, vec2 (-1, 4.001), &node, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
}
END_TEST

START_TEST (deleting_a_corner_cuts_it_off_and_the_last_ones_are_refused)
{
  g_autoptr (Hole) hole = square ();
  for (size_t node = 0; node < 4; node++)
    {
      g_autoptr (Hole) triangle = edit_delete_node (hole, 0, node, NULL);
      ck_assert_double_eq_tol (area_of (triangle), 50, 1e-9);
      GError *error = NULL;
      ck_assert_ptr_null (edit_delete_node (triangle, 0, 0, &error));
      ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
      g_clear_error (&error);
    }
}
END_TEST

START_TEST (a_line_of_play_loses_its_pivot_or_its_end)
{
  g_autoptr (Hole) hole = line ();
  PathNode nodes[MOST_NODES];
  g_autoptr (Hole) straight = edit_delete_node (hole, 0, 1, NULL);
  ck_assert_uint_eq (nodes_of (straight, nodes, MOST_NODES), 2);
  ck_assert_double_eq (nodes[1].at.y, 380);
  g_autoptr (Hole) forward = edit_delete_node (hole, 0, 0, NULL);
  ck_assert_uint_eq (nodes_of (forward, nodes, MOST_NODES), 2);
  ck_assert (nodes[0].starts && !nodes[0].is_closed);
  ck_assert_double_eq (nodes[0].at.y, 200);
  GError *error = NULL;
  ck_assert_ptr_null (edit_delete_node (straight, 0, 1, &error));
  g_clear_error (&error);
}
END_TEST

START_TEST (a_corner_made_smooth_rounds_and_a_smooth_node_made_a_corner_points)
{
  g_autoptr (Hole) hole = square ();
  PathNode nodes[MOST_NODES];
  g_autoptr (Hole) round = edit_smooth_node (hole, 0, 1, true, NULL);
  nodes_of (round, nodes, MOST_NODES);
  ck_assert (nodes[1].is_smooth && !nodes[0].is_smooth);
  g_autoptr (Hole) again = edit_smooth_node (round, 0, 1, true, NULL);
  ck_assert_ptr_eq (again, round);
  g_autoptr (Hole) corner = edit_smooth_node (round, 0, 1, false, NULL);
  nodes_of (corner, nodes, MOST_NODES);
  ck_assert_double_eq_tol (area_of (corner), 100, 1e-9);
  ck_assert_int_eq (nodes[1].leaves, SEG_LINE);
  g_autoptr (Hole) all = hole_ref (hole);
  for (size_t i = 0; i < 4; i++)
    {
      Hole *next = edit_smooth_node (all, 0, i, true, NULL);
      hole_unref (all);
      all = next;
    }
  ck_assert_double_gt (area_of (all), 120); /* near the circle through the corners, of 157 */
  ck_assert_double_lt (area_of (all), 160);
  g_autoptr (Hole) played = line ();
  GError *error = NULL;
  ck_assert_ptr_null (edit_smooth_node (played, 0, 2, true, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
}
END_TEST

START_TEST (nodes_and_handles_are_picked_within_reach_and_a_node_before_its_handle)
{
  g_autoptr (Hole) hole = disc ();
  PathNode nodes[MOST_NODES];
  size_t n = nodes_of (hole, nodes, MOST_NODES), node = 99;
  NodeGrip grip = NODE_IN;
  for (size_t i = 0; i < n; i++)
    {
      ck_assert (edit_pick_node (hole, 0, vec2_add (nodes[i].at, vec2 (0.3, 0.3)), 0.5, &node, &grip));
      ck_assert_uint_eq (node, i);
      ck_assert_int_eq (grip, NODE_AT);
      ck_assert (edit_pick_node (hole, 0, vec2_add (nodes[i].out, vec2 (0.3, 0.3)), 0.5, &node, &grip));
      ck_assert_uint_eq (node, i);
      ck_assert_int_eq (grip, NODE_OUT);
    }
  ck_assert (!edit_pick_node (hole, 0, vec2 (0, 0), 0.5, &node, &grip));
  g_autoptr (Hole) plain = square ();
  ck_assert (edit_pick_node (plain, 0, vec2 (10, 10), 0.5, &node, &grip));
  ck_assert_int_eq (grip, NODE_AT);
}
END_TEST

START_TEST (what_has_no_nodes_says_so)
{
  Part *tree = part_new (KIND_TREE);
  tree->radius_m = 3;
  g_autoptr (Hole) hole = hole_of (part_seal (tree));
  size_t node;
  NodeGrip grip;
  GError *error = NULL;
  ck_assert (!edit_pick_node (hole, 0, vec2 (0, 0), 1, &node, &grip));
  ck_assert_ptr_null (edit_add_node (hole, 0, vec2 (0, 0), &node, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_move_node (hole, 0, 0, NODE_AT, vec2 (0, 0), &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
}
END_TEST

START_TEST (an_outline_with_a_hole_loses_the_hole_with_its_last_nodes)
{
  Part *part = part_new (KIND_FAIRWAY);
  path_add_rectangle (&part->path, (Box){ 0, 0, 30, 30 }, 0, 0);
  path_move_to (&part->path, vec2 (10, 10));
  path_line_to (&part->path, vec2 (10, 20));
  path_line_to (&part->path, vec2 (20, 20));
  path_close (&part->path);
  g_autoptr (Hole) hole = hole_of (part_seal (part));
  ck_assert_double_eq_tol (area_of (hole), 850, 1e-9);
  g_autoptr (Hole) thin = edit_delete_node (hole, 0, 5, NULL);
  g_autoptr (Hole) whole = edit_delete_node (thin, 0, 4, NULL);
  PathNode nodes[MOST_NODES];
  ck_assert_uint_eq (nodes_of (whole, nodes, MOST_NODES), 4);
  ck_assert_double_eq_tol (area_of (whole), 900, 1e-9);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-nodes");
  TCase *nodes = tcase_create ("nodes");
  tcase_add_test (nodes, a_moved_corner_pulls_its_two_sides);
  tcase_add_test (nodes, handles_go_with_their_node);
  tcase_add_test (nodes, the_other_handle_of_a_smooth_node_turns_with_the_dragged_one);
  tcase_add_test (nodes, the_handles_of_a_corner_move_alone);
  tcase_add_test (nodes, an_added_node_leaves_the_outline_where_it_was);
  tcase_add_test (nodes, a_node_just_added_goes_without_a_trace);
  tcase_add_test (nodes, a_node_on_the_side_that_the_close_draws_is_found_again);
  tcase_add_test (nodes, deleting_a_corner_cuts_it_off_and_the_last_ones_are_refused);
  tcase_add_test (nodes, a_line_of_play_loses_its_pivot_or_its_end);
  tcase_add_test (nodes, a_corner_made_smooth_rounds_and_a_smooth_node_made_a_corner_points);
  tcase_add_test (nodes, nodes_and_handles_are_picked_within_reach_and_a_node_before_its_handle);
  tcase_add_test (nodes, what_has_no_nodes_says_so);
  tcase_add_test (nodes, an_outline_with_a_hole_loses_the_hole_with_its_last_nodes);
  suite_add_tcase (suite, nodes);
  return suite;
}
