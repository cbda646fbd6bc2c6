// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: areas grown and shrunk by a distance. */
#include "edit.h"
#include "suite.h"

#include <stdlib.h>

/* An edge is fitted to a centimetre, flattened to one, and rounded. */
#define EDGE_M (2.5 * FLATTEN_TOLERANCE_M)

static Part *
rectangle (Kind kind, double width_m, double height_m)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, (Box){ 0, 0, width_m, height_m }, 0, 0);
  return part;
}

static Part *
disc (Kind kind, double radius_m)
{
  Part *part = part_new (kind);
  path_add_ellipse (&part->path, vec2 (0, 0), radius_m, radius_m);
  return part;
}

static Hole *
hole_of (Part *first, Part *second)
{
  const Part *parts[2] = { part_seal (first), second ? part_seal (second) : NULL };
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, parts, second ? 2 : 1, NULL);
}

static const size_t both[] = { 0, 1 };

static Hole *
grown (const Hole *hole, double distance_m)
{
  GError *error = NULL;
  Hole *made = edit_offset (hole, both, hole_n_parts (hole), distance_m, &error);
  ck_assert_msg (made != NULL, "%s", error ? error->message : "no message");
  return made;
}

static double
area_of (const Part *part)
{
  double area_m2 = 0;
  ck_assert (outline_measure (part->outline, &area_m2, NULL));
  return area_m2;
}

static size_t
count_curves (const Part *part)
{
  size_t n = 0;
  for (size_t i = 0; i < part->path.n_segs; i++)
    n += part->path.segs[i].kind == SEG_CUBIC;
  return n;
}

static void
expect_bounds (const Part *part, double x0, double y0, double x1, double y1)
{
  ck_assert_double_eq_tol (part->bounds.x0, x0, EDGE_M);
  ck_assert_double_eq_tol (part->bounds.y0, y0, EDGE_M);
  ck_assert_double_eq_tol (part->bounds.x1, x1, EDGE_M);
  ck_assert_double_eq_tol (part->bounds.y1, y1, EDGE_M);
}

/* ---- known answers: the formula of Steiner, area + edge d + pi d^2 of a convex area grown by d ---- */

START_TEST (a_disc_grows_and_shrinks_to_discs_of_few_curves)
{
  static const double distances_m[] = { 2, 0.5, -0.5, -7 };
  g_autoptr (Hole) hole = hole_of (disc (KIND_BUNKER, 10), NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (distances_m); i++)
    {
      double radius_m = 10 + distances_m[i];
      g_autoptr (Hole) made = grown (hole, distances_m[i]);
      const Part *part = hole_part (made, 0);
      expect_bounds (part, -radius_m, -radius_m, radius_m, radius_m);
      ck_assert_double_eq_tol (area_of (part), PI * radius_m * radius_m, 2 * PI * radius_m * EDGE_M);
      ck_assert_uint_ge (count_curves (part), 2);
      ck_assert_uint_le (count_curves (part), 12);
    }
}
END_TEST

START_TEST (a_grown_rectangle_is_round_at_its_corners_and_straight_between)
{
  g_autoptr (Hole) hole = hole_of (rectangle (KIND_TEE, 10, 20), NULL), made = grown (hole, 3);
  const Part *part = hole_part (made, 0);
  expect_bounds (part, -3, -3, 13, 23);
  ck_assert_double_eq_tol (area_of (part), 10 * 20 + 3 * 60 + PI * 9, 80 * EDGE_M);
  for (int x = 0; x <= 10; x++)
    ck_assert_double_eq_tol (outline_distance (part->outline, vec2 (x, -3), NULL), 0, EDGE_M);
}
END_TEST

START_TEST (a_shrunk_rectangle_keeps_its_four_corners)
{
  g_autoptr (Hole) hole = hole_of (rectangle (KIND_TEE, 10, 20), NULL), made = grown (hole, -2);
  const Part *part = hole_part (made, 0);
  expect_bounds (part, 2, 2, 8, 18);
  ck_assert_double_eq_tol (area_of (part), 6 * 16, 44 * EDGE_M);
  PathNode *nodes = NULL;
  size_t n_nodes = path_nodes (&part->path, &nodes);
  free (nodes);
  ck_assert_uint_eq (n_nodes, 4);
}
END_TEST

/* ---- what goes in and what stays ---- */

START_TEST (a_hole_in_an_area_shrinks_when_the_area_grows_and_closes_at_last)
{
  Part *ring = disc (KIND_WATER, 20);
  ring->even_odd = true;
  path_add_ellipse (&ring->path, vec2 (0, 0), 5, 5);
  g_autoptr (Hole) hole = hole_of (ring, NULL), wider = grown (hole, 2), closed = grown (hole, 6);
  ck_assert (!outline_contains (hole_part (wider, 0)->outline, vec2 (0, 2.9)));
  ck_assert (outline_contains (hole_part (wider, 0)->outline, vec2 (0, 3.1)));
  ck_assert (outline_contains (hole_part (closed, 0)->outline, vec2 (0, 0)));
  ck_assert_double_eq_tol (area_of (hole_part (wider, 0)), PI * (22 * 22 - 3 * 3), 2 * PI * 25 * EDGE_M);
}
END_TEST

START_TEST (an_area_that_parts_by_shrinking_stays_one_area_of_two_pieces)
{
  Part *bell = rectangle (KIND_FAIRWAY, 30, 30);
  path_add_rectangle (&bell->path, (Box){ 29, 13, 61, 17 }, 0, 0);
  path_add_rectangle (&bell->path, (Box){ 60, 0, 90, 30 }, 0, 0);
  g_autoptr (Hole) hole = hole_of (bell, NULL), made = grown (hole, -3);
  ck_assert_uint_eq (hole_n_parts (made), 1);
  ck_assert_double_eq_tol (area_of (hole_part (made, 0)), 2 * 24 * 24, 200 * EDGE_M);
  size_t n_pieces = 0;
  g_autoptr (Hole) split = edit_split (made, 0, &n_pieces, NULL);
  ck_assert_uint_eq (n_pieces, 2);
}
END_TEST

START_TEST (growing_keeps_kind_name_id_and_facts_and_what_is_not_selected)
{
  Part *trees = disc (KIND_TREES, 12);
  trees->id = g_strdup ("copse");
  trees->name = g_strdup ("Copse");
  trees->height_m = 11;
  g_autoptr (Hole) hole = hole_of (trees, disc (KIND_BUNKER, 3)), made = edit_offset (hole, both, 1, 1.5, NULL);
  const Part *part = hole_part (made, 0);
  ck_assert_int_eq (part->kind, KIND_TREES);
  ck_assert_str_eq (part->id, "copse");
  ck_assert_str_eq (part->name, "Copse");
  ck_assert_double_eq (part->height_m, 11);
  ck_assert_ptr_eq (hole_part (made, 1), hole_part (hole, 1));
}
END_TEST

START_TEST (coordinates_are_on_the_grid)
{
  g_autoptr (Hole) hole = hole_of (disc (KIND_BUNKER, 7), NULL), made = grown (hole, 0.7);
  const Path *path = &hole_part (made, 0)->path;
  for (size_t i = 0; i < path->n_segs; i++)
    if (path->segs[i].kind != SEG_CLOSE)
      {
        ck_assert_double_eq_tol (remainder (path->segs[i].to.x, EDIT_GRID_M), 0, 1e-9);
        ck_assert_double_eq_tol (remainder (path->segs[i].to.y, EDIT_GRID_M), 0, 1e-9);
      }
}
END_TEST

/* ---- edges ---- */

static void
expect_refused (const Hole *hole, double distance_m, EditError code)
{
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (edit_offset (hole, both, hole_n_parts (hole), distance_m, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, (int)code));
}

START_TEST (what_would_vanish_is_no_area_or_no_distance_is_refused)
{
  g_autoptr (Hole) hole = hole_of (disc (KIND_BUNKER, 10), disc (KIND_BUNKER, 1));
  expect_refused (hole, -1.5, EDIT_ERROR_EMPTY);
  expect_refused (hole, NAN, EDIT_ERROR_NUMBER);
  expect_refused (hole, INFINITY, EDIT_ERROR_NUMBER);
  expect_refused (hole, -101, EDIT_ERROR_NUMBER);
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (edit_offset (hole, both, 0, 1, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  Part *tee = part_new (KIND_TEE_MARKER);
  g_autoptr (Hole) mixed = hole_of (disc (KIND_BUNKER, 10), tee);
  expect_refused (mixed, 1, EDIT_ERROR_SHAPE);
}
END_TEST

START_TEST (no_distance_and_less_than_the_grid_change_nothing)
{
  g_autoptr (Hole) hole = hole_of (disc (KIND_BUNKER, 10), NULL), same = grown (hole, 0), still = grown (hole, -0.0004);
  ck_assert_ptr_eq (same, hole);
  ck_assert_ptr_eq (still, hole);
}
END_TEST

START_TEST (an_outline_that_crosses_itself_grows_as_what_it_covers)
{
  Part *bow = part_new (KIND_BUNKER);
  const Vec2 corners[] = { { 0, 0 }, { 20, 20 }, { 20, 0 }, { 0, 20 } };
  path_move_to (&bow->path, corners[0]);
  for (int i = 1; i < 4; i++)
    path_line_to (&bow->path, corners[i]);
  path_close (&bow->path);
  g_autoptr (Hole) hole = hole_of (bow, NULL), made = grown (hole, 1);
  expect_bounds (hole_part (made, 0), -1, -1, 21, 21);
  ck_assert (outline_contains (hole_part (made, 0)->outline, vec2 (-0.9, 10)));
  ck_assert (!outline_contains (hole_part (made, 0)->outline, vec2 (10, 18)));
  ck_assert (outline_contains (hole_part (made, 0)->outline, vec2 (20.9, 10)));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-offset");
  TCase *known = tcase_create ("known answers"), *kept = tcase_create ("kept"), *edges = tcase_create ("edges");
  tcase_add_test (known, a_disc_grows_and_shrinks_to_discs_of_few_curves);
  tcase_add_test (known, a_grown_rectangle_is_round_at_its_corners_and_straight_between);
  tcase_add_test (known, a_shrunk_rectangle_keeps_its_four_corners);
  suite_add_tcase (suite, known);
  tcase_add_test (kept, a_hole_in_an_area_shrinks_when_the_area_grows_and_closes_at_last);
  tcase_add_test (kept, an_area_that_parts_by_shrinking_stays_one_area_of_two_pieces);
  tcase_add_test (kept, growing_keeps_kind_name_id_and_facts_and_what_is_not_selected);
  tcase_add_test (kept, coordinates_are_on_the_grid);
  suite_add_tcase (suite, kept);
  tcase_add_test (edges, what_would_vanish_is_no_area_or_no_distance_is_refused);
  tcase_add_test (edges, no_distance_and_less_than_the_grid_change_nothing);
  tcase_add_test (edges, an_outline_that_crosses_itself_grows_as_what_it_covers);
  suite_add_tcase (suite, edges);
  return suite;
}
