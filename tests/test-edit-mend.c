// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: aligning, scattering trees, mending. */
#include "edit.h"
#include "suite.h"

#define MM 0.001

enum
{
  FAIRWAY,
  TEE,
  GREEN,
  LINE,
  N_SCENE
};

static const Part *
turned_rectangle (Kind kind, Vec2 middle, double width_m, double height_m, double angle_rad)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, (Box){ -width_m / 2, -height_m / 2, width_m / 2, height_m / 2 }, 0, 0);
  path_transform (&part->path, affine_then (affine_rotation (angle_rad), affine_translation (middle.x, middle.y)));
  return part_seal (part);
}

/* A hole that runs up and to the right, with a line of play that misses both ends. */
static Hole *
scene (void)
{
  Part *line = part_new (KIND_LINE_OF_PLAY);
  path_move_to (&line->path, vec2 (3, -2));
  path_line_to (&line->path, vec2 (0, 200));
  path_line_to (&line->path, vec2 (80, 250));
  const Part *parts[]
      = { turned_rectangle (KIND_FAIRWAY, vec2 (0, 150), 30, 90, 0.2), turned_rectangle (KIND_TEE, vec2 (0, 0), 8, 12, 0.5),
          turned_rectangle (KIND_GREEN, vec2 (150, 200), 20, 24, 0), part_seal (line) };
  HoleInfo info;
  hole_info_init (&info);
  info.view_box = (Box){ -50, -20, 100, 260 };
  return hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
}

static const Part *
last_of (const Hole *hole, Kind kind)
{
  for (size_t i = hole_n_parts (hole); i-- > 0;)
    if (hole_part (hole, i)->kind == kind)
      return hole_part (hole, i);
  return NULL;
}

START_TEST (what_is_aligned_lies_along_the_line_of_play_beside_it)
{
  g_autoptr (Hole) bare = scene ();
  g_autoptr (Hole) hole = edit_mend (bare, MEND_ADD_TEE_MARKER, 0, NULL);
  g_autoptr (Hole) led = edit_mend (hole, MEND_LINE_TO_GREEN, LINE, NULL);
  const size_t both[] = { FAIRWAY, TEE };
  g_autoptr (Hole) made = edit_align (led, both, 2, NULL);
  for (size_t k = 0; k < 2; k++)
    {
      ck_assert_double_eq_tol (edit_measures (made, both[k]).angle_rad, PI / 2, 2e-3);
      ck_assert_double_eq_tol (
          vec2_distance (part_position (hole_part (made, both[k])), part_position (hole_part (led, both[k]))), 0, 2 * MM);
    }
  g_autoptr (Hole) again = edit_align (made, both, 2, NULL);
  ck_assert_double_eq_tol (hole_part (again, TEE)->bounds.x1, hole_part (made, TEE)->bounds.x1, 5 * MM);
  GError *error = NULL;
  g_autoptr (Hole) round = edit_add_circle (led, KIND_BUNKER, vec2 (20, 100), 5, NULL, NULL);
  const size_t bunker[] = { edit_place_for (led, KIND_BUNKER) };
  ck_assert_ptr_null (edit_align (round, bunker, 1, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_align (bare, both, 2, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
}
END_TEST

START_TEST (trees_stand_along_the_stroke_within_the_spread)
{
  g_autoptr (Hole) hole = scene ();
  const Vec2 stroke[] = { { 0, 0 }, { 30, 0 }, { 30, 0 }, { 60, 0 } };
  g_autoptr (GRand) random = g_rand_new_with_seed (7);
  size_t first = 0, n = 0;
  g_autoptr (Hole) made = edit_scatter_trees (hole, stroke, 4, 5, 3, 2.5, random, &first, &n, NULL);
  ck_assert_uint_eq (n, 13);
  ck_assert_uint_eq (hole_n_parts (made), N_SCENE + n);
  ck_assert_uint_eq (first, edit_place_for (hole, KIND_TREE));
  for (size_t i = first; i < first + n; i++)
    {
      const Part *tree = hole_part (made, i);
      ck_assert_int_eq (tree->kind, KIND_TREE);
      ck_assert (fabs (tree->at.y) <= 3 + MM && tree->at.x >= -MM && tree->at.x <= 60 + MM);
      ck_assert (tree->radius_m > 1.5 && tree->radius_m < 3.5);
      if (i > first)
        ck_assert_double_gt (tree->at.x, hole_part (made, i - 1)->at.x);
    }
  ck_assert_ptr_eq (last_of (made, KIND_LINE_OF_PLAY), hole_part (hole, LINE));
}
END_TEST

START_TEST (one_seed_plants_one_wood)
{
  g_autoptr (Hole) hole = scene ();
  const Vec2 stroke[] = { { 0, 0 }, { 100, 40 } };
  g_autoptr (GRand) one = g_rand_new_with_seed (3), two = g_rand_new_with_seed (3);
  g_autoptr (Hole) a = edit_scatter_trees (hole, stroke, 2, 4, 6, 3, one, NULL, NULL, NULL);
  g_autoptr (Hole) b = edit_scatter_trees (hole, stroke, 2, 4, 6, 3, two, NULL, NULL, NULL);
  ck_assert (hole_equal (a, b));
}
END_TEST

START_TEST (a_click_plants_one_tree_and_nonsense_none)
{
  g_autoptr (Hole) hole = scene ();
  const Vec2 point = { 5, 5 }, nowhere = { NAN, 0 }, far[] = { { 0, 0 }, { 1000, 0 } };
  g_autoptr (GRand) random = g_rand_new_with_seed (1);
  size_t n = 0;
  g_autoptr (Hole) one = edit_scatter_trees (hole, &point, 1, 5, 0, 3, random, NULL, &n, NULL);
  ck_assert_uint_eq (n, 1);
  ck_assert_double_eq (last_of (one, KIND_TREE)->at.x, 5);
  ck_assert_ptr_null (edit_scatter_trees (hole, NULL, 0, 5, 0, 3, random, NULL, NULL, NULL));
  ck_assert_ptr_null (edit_scatter_trees (hole, &nowhere, 1, 5, 0, 3, random, NULL, NULL, NULL));
  ck_assert_ptr_null (edit_scatter_trees (hole, &point, 1, 0, 0, 3, random, NULL, NULL, NULL));
  ck_assert_ptr_null (edit_scatter_trees (hole, &point, 1, 5, NAN, 3, random, NULL, NULL, NULL));
  ck_assert_ptr_null (edit_scatter_trees (hole, &point, 1, 5, 0, -3, random, NULL, NULL, NULL));
  GError *error = NULL;
  ck_assert_ptr_null (edit_scatter_trees (hole, far, 2, 0.9, 0, 3, random, NULL, NULL, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_NUMBER));
  g_clear_error (&error);
}
END_TEST

START_TEST (a_green_gets_its_hole_location_and_a_tee_its_marker)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) flag = edit_mend (hole, MEND_ADD_HOLE_LOCATION, 0, NULL);
  const Part *location = last_of (flag, KIND_HOLE_LOCATION);
  ck_assert_str_eq (location->name, "middle");
  ck_assert_double_eq_tol (vec2_distance (location->at, vec2 (150, 200)), 0, MM);
  g_autoptr (Hole) tee = edit_mend (hole, MEND_ADD_TEE_MARKER, 0, NULL);
  ck_assert_double_eq_tol (vec2_length (last_of (tee, KIND_TEE_MARKER)->at), 0, MM);
  const size_t greens[] = { TEE, GREEN };
  g_autoptr (Hole) bare = edit_delete (hole, greens, 2, NULL);
  GError *error = NULL;
  ck_assert_ptr_null (edit_mend (bare, MEND_ADD_HOLE_LOCATION, 0, &error));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_mend (bare, MEND_ADD_TEE_MARKER, 0, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
}
END_TEST

START_TEST (a_stray_marker_moves_onto_the_nearest_tee)
{
  g_autoptr (Hole) hole = scene ();
  size_t marker = 0;
  g_autoptr (Hole) stray = edit_add_point (hole, KIND_TEE_MARKER, vec2 (40, 40), &marker, NULL);
  g_autoptr (Hole) made = edit_mend (stray, MEND_MOVE_ONTO_AREA, marker, NULL);
  ck_assert_int_eq (hole_lie_at (made, hole_part (made, marker)->at), LIE_TEE);
  GError *error = NULL;
  ck_assert_ptr_null (edit_mend (stray, MEND_MOVE_ONTO_AREA, FAIRWAY, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
}
END_TEST

START_TEST (a_line_of_play_that_misses_ends_on_the_green_and_keeps_its_pivots)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) teed = edit_mend (hole, MEND_ADD_TEE_MARKER, 0, NULL);
  g_autoptr (Hole) made = edit_mend (teed, MEND_LINE_TO_GREEN, LINE, NULL);
  const Path *path = &hole_part (made, LINE)->path;
  ck_assert_uint_eq (path->n_segs, 3);
  ck_assert_double_eq_tol (vec2_length (path->segs[0].to), 0, MM);
  ck_assert_double_eq (path->segs[1].to.y, 200);
  ck_assert_double_eq_tol (vec2_distance (path->segs[2].to, vec2 (150, 200)), 0, MM);
}
END_TEST

START_TEST (the_sheet_grows_only_where_it_has_to)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) made = edit_mend (hole, MEND_GROW_SHEET, 0, NULL);
  Box sheet = hole_info (made)->view_box;
  ck_assert_double_eq (sheet.x0, -50);
  ck_assert_double_eq (sheet.y1, 260);
  ck_assert_double_ge (sheet.x1, 180);
  g_autoptr (Hole) again = edit_mend (made, MEND_GROW_SHEET, 0, NULL);
  ck_assert_ptr_eq (again, made);
  GError *error = NULL;
  ck_assert_ptr_null (edit_mend (hole, MEND_NONE, 0, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-mend");
  TCase *align = tcase_create ("align");
  tcase_add_test (align, what_is_aligned_lies_along_the_line_of_play_beside_it);
  suite_add_tcase (suite, align);
  TCase *trees = tcase_create ("trees");
  tcase_add_test (trees, trees_stand_along_the_stroke_within_the_spread);
  tcase_add_test (trees, one_seed_plants_one_wood);
  tcase_add_test (trees, a_click_plants_one_tree_and_nonsense_none);
  suite_add_tcase (suite, trees);
  TCase *mend = tcase_create ("mend");
  tcase_add_test (mend, a_green_gets_its_hole_location_and_a_tee_its_marker);
  tcase_add_test (mend, a_stray_marker_moves_onto_the_nearest_tee);
  tcase_add_test (mend, a_line_of_play_that_misses_ends_on_the_green_and_keeps_its_pivots);
  tcase_add_test (mend, the_sheet_grows_only_where_it_has_to);
  suite_add_tcase (suite, mend);
  return suite;
}
