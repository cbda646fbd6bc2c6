// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: measuring and placing, snapping, picking. */
#include "edit.h"
#include "suite.h"

#include <stdlib.h>

#define MM 0.001

static const Part *
rectangle (Kind kind, double x0, double y0, double x1, double y1)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, (Box){ x0, y0, x1, y1 }, 0, 0);
  return part_seal (part);
}

static const Part *
point (Kind kind, double x, double y, double radius_m)
{
  Part *part = part_new (kind);
  part->at = vec2 (x, y);
  part->radius_m = radius_m;
  return part_seal (part);
}

enum
{
  FAIRWAY,
  GREEN,
  BUNKER,
  TEE,
  FLAG,
  TREE,
  LINE,
  N_SCENE
};

/* A dogleg: 200 m up, then 150 m to the right. */
static Hole *
scene (void)
{
  Part *line = part_new (KIND_LINE_OF_PLAY);
  path_move_to (&line->path, vec2 (0, 0));
  path_line_to (&line->path, vec2 (0, 200));
  path_line_to (&line->path, vec2 (150, 200));
  const Part *parts[] = { rectangle (KIND_FAIRWAY, -20, 100, 20, 220),
                          rectangle (KIND_GREEN, 140, 185, 160, 215),
                          rectangle (KIND_BUNKER, 15, 150, 25, 154),
                          point (KIND_TEE_MARKER, 0, 0, 1),
                          point (KIND_HOLE_LOCATION, 145, 200, 1),
                          point (KIND_TREE, 18, 158, 5),
                          part_seal (line) };
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
}

/* ---- measures ---- */

START_TEST (a_bunker_is_measured_from_the_tee_and_from_the_line)
{
  g_autoptr (Hole) hole = scene ();
  PartMeasures m = edit_measures (hole, BUNKER);
  ck_assert_double_eq_tol (m.from_tee_m, hypot (20, 152), MM);
  ck_assert_double_eq_tol (m.along_m, 152, MM);
  ck_assert_double_eq_tol (m.right_m, 20, MM);
  ck_assert_double_eq_tol (m.width_m, 10, MM);
  ck_assert_double_eq_tol (m.height_m, 4, MM);
  ck_assert_double_eq_tol (m.angle_rad, 0, 1e-9);
  ck_assert_double_eq_tol (m.area_m2, 40, MM);
}
END_TEST

START_TEST (past_the_pivot_the_line_turns_and_right_turns_with_it)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) made = edit_add_point (hole, KIND_MARK, vec2 (60, 190), NULL, NULL);
  PartMeasures m = edit_measures (made, edit_place_for (hole, KIND_MARK));
  ck_assert_double_eq_tol (m.along_m, 260, MM);
  ck_assert_double_eq_tol (m.right_m, 10, MM);
  ck_assert (isnan (m.width_m) && isnan (m.height_m) && isnan (m.angle_rad) && isnan (m.area_m2));
}
END_TEST

START_TEST (before_the_tee_and_past_the_green_the_line_goes_on)
{
  g_autoptr (Hole) hole = scene ();
  size_t part = 0;
  g_autoptr (Hole) behind = edit_add_point (hole, KIND_MARK, vec2 (-3, -40), &part, NULL);
  PartMeasures m = edit_measures (behind, part);
  ck_assert_double_eq_tol (m.along_m, -40, MM);
  ck_assert_double_eq_tol (m.right_m, -3, MM);
  g_autoptr (Hole) beyond = edit_add_point (hole, KIND_MARK, vec2 (190, 207), &part, NULL);
  m = edit_measures (beyond, part);
  ck_assert_double_eq_tol (m.along_m, 390, MM);
  ck_assert_double_eq_tol (m.right_m, -7, MM);
}
END_TEST

START_TEST (the_long_axis_turns_with_the_shape_and_a_circle_has_none)
{
  g_autoptr (Hole) hole = scene ();
  const size_t bunker[] = { BUNKER };
  for (int degrees = -170; degrees <= 180; degrees += 35)
    {
      double turn = degrees * PI / 180;
      g_autoptr (Hole) made = edit_transform (hole, bunker, 1, affine_rotation (turn), NULL);
      double angle = edit_measures (made, BUNKER).angle_rad;
      ck_assert (angle > -PI / 2 && angle <= PI / 2);
      ck_assert_double_eq_tol (remainder (angle - turn, PI), 0, 1e-3); /* a millimetre in some metres */
    }
  size_t part = 0;
  g_autoptr (Hole) round = edit_add_circle (hole, KIND_WATER, vec2 (0, 50), 7, &part, NULL);
  ck_assert (isnan (edit_measures (round, part).angle_rad));
  ck_assert_double_eq_tol (edit_measures (round, part).area_m2, PI * 49, 0.3);
}
END_TEST

START_TEST (without_a_tee_there_is_nothing_to_measure_from)
{
  g_autoptr (Hole) hole = scene ();
  const size_t tee[] = { TEE };
  g_autoptr (Hole) bare = edit_delete (hole, tee, 1, NULL);
  PartMeasures m = edit_measures (bare, BUNKER);
  ck_assert (isnan (m.from_tee_m) && isnan (m.along_m) && isnan (m.right_m));
  ck_assert_double_eq_tol (m.area_m2, 40, MM);
  GError *error = NULL;
  ck_assert_ptr_null (edit_place (bare, BUNKER, 100, 0, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
}
END_TEST

START_TEST (what_is_placed_measures_what_was_typed)
{
  g_autoptr (Hole) hole = scene ();
  /* Not near the inside of the bend, where two places of the line are equally near. */
  const double places[][2]
      = { { 140, -12 }, { 10, 30 }, { 260, 7.5 }, { 300, -20 }, { -5, 2 }, { 420, 1 }, { 200, -30 }, { 152, 0 } };
  for (size_t part = FAIRWAY; part < LINE; part++)
    for (size_t i = 0; i < G_N_ELEMENTS (places); i++)
      {
        if (part == GREEN || part == TEE)
          continue; /* they move the line itself */
        g_autoptr (Hole) made = edit_place (hole, part, places[i][0], places[i][1], NULL);
        PartMeasures m = edit_measures (made, part);
        ck_assert_double_eq_tol (m.along_m, places[i][0], 2 * MM);
        ck_assert_double_eq_tol (m.right_m, places[i][1], 2 * MM);
        g_autoptr (Hole) again = edit_place (made, part, m.along_m, m.right_m, NULL);
        ck_assert_ptr_eq (again, made);
      }
  GError *error = NULL;
  ck_assert_ptr_null (edit_place (hole, BUNKER, NAN, 0, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_NUMBER));
  g_clear_error (&error);
}
END_TEST

START_TEST (outside_a_bend_only_the_distance_off_changes)
{
  g_autoptr (Hole) hole = scene ();
  size_t part = 0;
  g_autoptr (Hole) made = edit_add_point (hole, KIND_MARK, vec2 (-6, 208), &part, NULL);
  PartMeasures m = edit_measures (made, part);
  ck_assert_double_eq_tol (m.along_m, 200, MM);
  ck_assert_double_eq_tol (m.right_m, -10, MM);
  g_autoptr (Hole) twice = edit_place (made, part, m.along_m, -20, NULL);
  ck_assert_double_eq_tol (hole_part (twice, part)->at.x, -12, MM);
  ck_assert_double_eq_tol (hole_part (twice, part)->at.y, 216, MM);
}
END_TEST

/* ---- snapping ---- */

START_TEST (points_come_before_the_line_before_edges_before_distances)
{
  g_autoptr (Hole) hole = scene ();
  Snap snap = edit_snap (hole, vec2 (15.4, 150.3), 2, 10, NULL, 0);
  ck_assert_int_eq (snap.kind, SNAP_POINT);
  ck_assert_int_eq (snap.part, BUNKER);
  ck_assert_double_eq (snap.at.x, 15);
  snap = edit_snap (hole, vec2 (0.7, 130), 2, 10, NULL, 0);
  ck_assert_int_eq (snap.kind, SNAP_LINE);
  ck_assert_int_eq (snap.part, LINE);
  ck_assert_double_eq_tol (snap.at.x, 0, MM);
  ck_assert_double_eq_tol (snap.at.y, 130, MM);
  snap = edit_snap (hole, vec2 (-19, 130), 2, 10, NULL, 0);
  ck_assert_int_eq (snap.kind, SNAP_EDGE);
  ck_assert_int_eq (snap.part, FAIRWAY);
  ck_assert_double_eq_tol (snap.at.x, -20, MM);
  snap = edit_snap (hole, vec2 (-60.6, 80.8), 2, 10, NULL, 0);
  ck_assert_int_eq (snap.kind, SNAP_DISTANCE);
  ck_assert_double_eq (snap.distance_m, 100);
  ck_assert_int_eq (snap.part, TEE);
  ck_assert_double_eq_tol (snap.at.x, -60, MM);
  ck_assert_double_eq_tol (snap.at.y, 80, MM);
}
END_TEST

START_TEST (out_of_reach_the_point_stays_where_it_is_on_the_grid)
{
  g_autoptr (Hole) hole = scene ();
  Snap snap = edit_snap (hole, vec2 (-60.12345, 83.98765), 0.5, 10, NULL, 0);
  ck_assert_int_eq (snap.kind, SNAP_NONE);
  ck_assert_int_eq (snap.part, -1);
  ck_assert_double_eq (snap.at.x, -60.123);
  ck_assert_double_eq (snap.at.y, 83.988);
  snap = edit_snap (hole, vec2 (0.1, 0.1), 0.01, 10, NULL, 0); /* no round distance of nothing */
  ck_assert_int_eq (snap.kind, SNAP_NONE);
}
END_TEST

START_TEST (what_is_dragged_does_not_snap_to_itself)
{
  g_autoptr (Hole) hole = scene ();
  const size_t dragged[] = { FAIRWAY, BUNKER, TREE };
  Snap snap = edit_snap (hole, vec2 (15.4, 150.3), 2, 0, dragged, G_N_ELEMENTS (dragged));
  ck_assert_int_eq (snap.kind, SNAP_NONE);
}
END_TEST

/* ---- picking ---- */

START_TEST (the_pointer_picks_what_is_painted_on_top)
{
  g_autoptr (Hole) hole = scene ();
  ck_assert_int_eq (edit_pick (hole, vec2 (-15, 120), 1, NULL, 0), FAIRWAY);
  ck_assert_int_eq (edit_pick (hole, vec2 (17, 152), 1, NULL, 0), BUNKER);
  ck_assert_int_eq (edit_pick (hole, vec2 (17, 153.9), 1, NULL, 0), TREE);
  ck_assert_int_eq (edit_pick (hole, vec2 (0.5, 120), 1, NULL, 0), LINE);
  ck_assert_int_eq (edit_pick (hole, vec2 (0.2, 0.1), 1, NULL, 0), TEE);
  ck_assert_int_eq (edit_pick (hole, vec2 (144.9, 200.2), 1, NULL, 0), FLAG);
  ck_assert_int_eq (edit_pick (hole, vec2 (140.8, 190), 1, NULL, 0), GREEN);
  ck_assert_int_eq (edit_pick (hole, vec2 (-20.9, 130), 1, NULL, 0), FAIRWAY); /* beside it, within reach */
  ck_assert_int_eq (edit_pick (hole, vec2 (-21.1, 130), 1, NULL, 0), -1);
}
END_TEST

START_TEST (picking_passes_over_what_is_locked)
{
  g_autoptr (Hole) hole = scene ();
  const size_t locked[] = { BUNKER, TREE };
  ck_assert_int_eq (edit_pick (hole, vec2 (17, 153.9), 1, locked, 2), FAIRWAY);
}
END_TEST

START_TEST (a_turned_photo_is_picked_by_its_own_frame)
{
  Part *photo = part_new (KIND_UNDERLAY);
  photo->image_box = (Box){ 0, 0, 10, 2 };
  photo->placement = affine_rotation (PI / 4);
  const Part *parts[] = { part_seal (photo) };
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, parts, 1, NULL);
  ck_assert_int_eq (edit_pick (hole, vec2 (3, 4), 0.1, NULL, 0), 0);
  ck_assert_int_eq (edit_pick (hole, vec2 (4, 1), 0.1, NULL, 0), -1); /* in its bounds, not in it */
}
END_TEST

START_TEST (a_box_takes_what_lies_wholly_in_it)
{
  g_autoptr (Hole) hole = scene ();
  g_autofree size_t *parts = NULL;
  size_t n = edit_pick_box (hole, (Box){ 0, 140, 200, 216 }, &parts);
  ck_assert_uint_eq (n, 4);
  ck_assert_uint_eq (parts[0], GREEN);
  ck_assert_uint_eq (parts[1], BUNKER);
  ck_assert_uint_eq (parts[2], FLAG);
  ck_assert_uint_eq (parts[3], TREE);
  g_autofree size_t *none = NULL;
  ck_assert_uint_eq (edit_pick_box (hole, (Box){ 300, 300, 310, 310 }, &none), 0);
}
END_TEST

static void
assert_struck (const Hole *hole, Vec2 a, Vec2 b, const size_t *without, size_t n_without, const char *expected)
{
  g_autofree size_t *parts = NULL;
  size_t n = edit_pick_struck (hole, a, b, 1, without, n_without, &parts);
  g_autoptr (GString) told = g_string_new (NULL);
  for (size_t i = 0; i < n; i++)
    g_string_append_printf (told, "%zu ", parts[i]);
  ck_assert_str_eq (told->str, expected);
}

START_TEST (an_eraser_strikes_out_what_it_passes_over_but_not_the_land_below)
{
  g_autoptr (Hole) hole = scene ();
  assert_struck (hole, vec2 (-15, 120), vec2 (-15, 130), NULL, 0, "");   /* within the fairway, far from its edge */
  assert_struck (hole, vec2 (-10, 165), vec2 (10, 165), NULL, 0, "6 ");  /* across the line of play */
  assert_struck (hole, vec2 (16, 149), vec2 (16, 165), NULL, 0, "2 5 "); /* over the bunker's edge and the tree beside it */
  assert_struck (hole, vec2 (-30, 120), vec2 (-15, 120), NULL, 0, "0 "); /* out of the rough over the fairway's edge */
  assert_struck (hole, vec2 (-2, 0), vec2 (0, 0), NULL, 0, "3 ");       /* the tee marker, not the line that begins under it */
  assert_struck (hole, vec2 (145, 200), vec2 (145, 200), NULL, 0, "4 "); /* at one place */
  assert_struck (hole, vec2 (300, 0), vec2 (300, 300), NULL, 0, "");     /* nothing there */
}
END_TEST

START_TEST (an_eraser_passes_over_what_is_locked)
{
  g_autoptr (Hole) hole = scene ();
  const size_t locked[] = { BUNKER, LINE };
  assert_struck (hole, vec2 (16, 149), vec2 (16, 165), locked, 2, "5 ");
  assert_struck (hole, vec2 (-10, 165), vec2 (10, 165), locked, 2, "");
}
END_TEST

START_TEST (a_long_way_is_struck_without_a_gap)
{
  g_autoptr (Hole) hole = scene ();
  assert_struck (hole, vec2 (0, -900), vec2 (0, 900), NULL, 0, "0 3 6 ");
  assert_struck (hole, vec2 (-1e9, 165), vec2 (1e9, 165), NULL, 0,
                 "6 "); /* through its middle, in as many places as are looked at */
}
END_TEST

START_TEST (a_photo_is_not_rubbed_out_in_passing)
{
  Part *photo = part_new (KIND_UNDERLAY);
  photo->image_box = (Box){ 0, 0, 10, 10 };
  photo->placement = affine_identity ();
  const Part *parts[] = { part_seal (photo) };
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, parts, 1, NULL);
  ck_assert_int_eq (edit_pick (hole, vec2 (5, 5), 1, NULL, 0), 0);
  assert_struck (hole, vec2 (-5, 5), vec2 (15, 5), NULL, 0, "");
}
END_TEST

START_TEST (nothing_that_is_no_number_is_picked_or_snapped_to)
{
  g_autoptr (Hole) hole = scene ();
  ck_assert_int_eq (edit_pick (hole, vec2 (NAN, 100), 1, NULL, 0), -1);
  assert_struck (hole, vec2 (0, NAN), vec2 (0, 100), NULL, 0, "");
  assert_struck (hole, vec2 (0, 0), vec2 (INFINITY, 0), NULL, 0, "");
  ck_assert_int_eq (edit_snap (hole, vec2 (NAN, 100), 1, 10, NULL, 0).kind, SNAP_NONE);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-places");
  TCase *measures = tcase_create ("measures");
  tcase_add_test (measures, a_bunker_is_measured_from_the_tee_and_from_the_line);
  tcase_add_test (measures, past_the_pivot_the_line_turns_and_right_turns_with_it);
  tcase_add_test (measures, before_the_tee_and_past_the_green_the_line_goes_on);
  tcase_add_test (measures, the_long_axis_turns_with_the_shape_and_a_circle_has_none);
  tcase_add_test (measures, without_a_tee_there_is_nothing_to_measure_from);
  tcase_add_test (measures, what_is_placed_measures_what_was_typed);
  tcase_add_test (measures, outside_a_bend_only_the_distance_off_changes);
  suite_add_tcase (suite, measures);
  TCase *snapping = tcase_create ("snapping");
  tcase_add_test (snapping, points_come_before_the_line_before_edges_before_distances);
  tcase_add_test (snapping, out_of_reach_the_point_stays_where_it_is_on_the_grid);
  tcase_add_test (snapping, what_is_dragged_does_not_snap_to_itself);
  suite_add_tcase (suite, snapping);
  TCase *picking = tcase_create ("picking");
  tcase_add_test (picking, the_pointer_picks_what_is_painted_on_top);
  tcase_add_test (picking, picking_passes_over_what_is_locked);
  tcase_add_test (picking, a_turned_photo_is_picked_by_its_own_frame);
  tcase_add_test (picking, a_box_takes_what_lies_wholly_in_it);
  tcase_add_test (picking, an_eraser_strikes_out_what_it_passes_over_but_not_the_land_below);
  tcase_add_test (picking, an_eraser_passes_over_what_is_locked);
  tcase_add_test (picking, a_long_way_is_struck_without_a_gap);
  tcase_add_test (picking, a_photo_is_not_rubbed_out_in_passing);
  tcase_add_test (picking, nothing_that_is_no_number_is_picked_or_snapped_to);
  suite_add_tcase (suite, picking);
  return suite;
}
