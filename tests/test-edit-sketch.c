// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: the first drawing from par, length and bend, and the empty sheet. */
#include "edit.h"
#include "suite.h"

/* What the golfer is promised. */
#define LENGTH_TOLERANCE_M 0.1

static size_t
count (const Hole *hole, Kind kind)
{
  size_t n = 0;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    n += hole_part (hole, i)->kind == kind;
  return n;
}

static const Part *
first (const Hole *hole, Kind kind)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (hole_part (hole, i)->kind == kind)
      return hole_part (hole, i);
  return NULL;
}

static Hole *
sketched (int par, double length_m, Bend bend)
{
  HoleSketch sketch;
  hole_sketch_init (&sketch);
  sketch.par = par;
  sketch.length_m = length_m;
  sketch.bend = bend;
  GError *error = NULL;
  Hole *hole = edit_sketch_hole (&sketch, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "no message");
  return hole;
}

START_TEST (the_sketch_measures_what_was_asked_for)
{
  const double lengths_m[] = { 50, 95.5, 137.2, 251, 366.66, 480, 613, 800 };
  for (int par = 3; par <= 6; par++)
    for (size_t i = 0; i < G_N_ELEMENTS (lengths_m); i++)
      for (int bend = BEND_NONE; bend <= BEND_RIGHT; bend++)
        {
          g_autoptr (Hole) hole = sketched (par, lengths_m[i], (Bend)bend);
          double length_m = 0;
          ck_assert (hole_measured_length (hole, NULL, &length_m));
          ck_assert_double_eq_tol (length_m, lengths_m[i], LENGTH_TOLERANCE_M);
        }
}
END_TEST

START_TEST (the_sketch_has_all_that_a_hole_needs)
{
  g_autoptr (Hole) hole = sketched (4, 350, BEND_LEFT);
  ck_assert_uint_eq (count (hole, KIND_GREEN), 1);
  ck_assert_uint_eq (count (hole, KIND_FRINGE), 1);
  ck_assert_uint_eq (count (hole, KIND_FAIRWAY), 1);
  ck_assert_uint_eq (count (hole, KIND_FIRST_CUT), 1);
  ck_assert_uint_eq (count (hole, KIND_LINE_OF_PLAY), 1);
  ck_assert_uint_eq (count (hole, KIND_HOLE_LOCATION), 1);
  ck_assert_uint_eq (count (hole, KIND_TEE), count (hole, KIND_TEE_MARKER));
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (hole_part (hole, i)->kind == KIND_TEE_MARKER)
      ck_assert_int_eq (hole_lie_at (hole, hole_part (hole, i)->at), LIE_TEE);
  ck_assert_int_eq (hole_lie_at (hole, first (hole, KIND_HOLE_LOCATION)->at), LIE_GREEN);
  ck_assert_int_eq (hole_lie_at (hole, vec2 (0, 200)), LIE_FAIRWAY);
  ck_assert_int_eq (hole_info (hole)->par, 4);
}
END_TEST

START_TEST (a_par_three_has_no_fairway)
{
  g_autoptr (Hole) hole = sketched (3, 150, BEND_NONE);
  ck_assert_uint_eq (count (hole, KIND_FAIRWAY) + count (hole, KIND_FIRST_CUT), 0);
  ck_assert_uint_eq (count (hole, KIND_GREEN), 1);
}
END_TEST

START_TEST (a_bend_to_the_left_is_the_mirror_image_of_one_to_the_right_in_its_line)
{
  g_autoptr (Hole) left = sketched (5, 480, BEND_LEFT), right = sketched (5, 480, BEND_RIGHT);
  const Path *a = &first (left, KIND_LINE_OF_PLAY)->path, *b = &first (right, KIND_LINE_OF_PLAY)->path;
  ck_assert_uint_eq (a->n_segs, 3);
  for (size_t i = 0; i < 3; i++)
    {
      ck_assert_double_eq (a->segs[i].to.x, -b->segs[i].to.x);
      ck_assert_double_eq (a->segs[i].to.y, b->segs[i].to.y);
    }
  ck_assert_double_lt (a->segs[2].to.x, -100);
}
END_TEST

START_TEST (the_mown_areas_lie_in_one_another_and_are_as_wide_as_asked_for)
{
  for (double width_m = 10; width_m <= 100; width_m += 30)
    for (double angle = 10; angle <= 90; angle += 20)
      {
        HoleSketch sketch;
        hole_sketch_init (&sketch);
        sketch.length_m = 450;
        sketch.bend = BEND_RIGHT;
        sketch.bend_angle_rad = angle * PI / 180;
        sketch.fairway_width_m = width_m;
        g_autoptr (Hole) hole = edit_sketch_hole (&sketch, NULL);
        ck_assert_ptr_nonnull (hole);
        const Outline *fairway = first (hole, KIND_FAIRWAY)->outline, *cut = first (hole, KIND_FIRST_CUT)->outline;
        for (size_t i = 0; i < fairway->n_points; i++)
          ck_assert (outline_contains (cut, fairway->points[i]));
        const Outline *green = first (hole, KIND_GREEN)->outline, *fringe = first (hole, KIND_FRINGE)->outline;
        for (size_t i = 0; i < green->n_points; i++)
          ck_assert (outline_contains (fringe, green->points[i]));
        double area_m2 = 0;
        ck_assert (outline_measure (fairway, &area_m2, NULL));
        /* 310 m long, its ends rounded off over a quarter of it and swinging by an eighth. */
        ck_assert_double_eq_tol (area_m2 / 310, width_m, 0.2 * width_m);
      }
}
END_TEST

START_TEST (the_sheet_takes_in_everything_with_room_round_it)
{
  for (int bend = BEND_NONE; bend <= BEND_RIGHT; bend++)
    {
      g_autoptr (Hole) hole = sketched (5, 510, (Bend)bend);
      Box sheet = hole_info (hole)->view_box, inked = box_empty ();
      for (size_t i = 0; i < hole_n_parts (hole); i++)
        inked = box_union (inked, hole_part (hole, i)->bounds);
      ck_assert (inked.x0 - sheet.x0 >= 20 && inked.y0 - sheet.y0 >= 20 && sheet.x1 - inked.x1 >= 20
                 && sheet.y1 - inked.y1 >= 20);
    }
}
END_TEST

START_TEST (what_no_hole_can_be_is_refused_in_a_sentence)
{
  const HoleSketch wrong[]
      = { { .par = 4, .length_m = 49, .fairway_width_m = NAN },  { .par = 4, .length_m = NAN, .fairway_width_m = NAN },
          { .par = 4, .length_m = 801, .fairway_width_m = NAN }, { .par = 2, .length_m = 100, .fairway_width_m = NAN },
          { .par = 4, .length_m = 350, .fairway_width_m = 9 },   { .par = 4, .length_m = 350, .fairway_width_m = INFINITY },
          { NULL, 0, 4, 350, BEND_LEFT, 340, NAN, NAN },         { NULL, 0, 4, 350, BEND_LEFT, NAN, 2, NAN },
          { NULL, 0, 4, 350, BEND_LEFT, NAN, -0.5, NAN } };
  for (size_t i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      GError *error = NULL;
      ck_assert_ptr_null (edit_sketch_hole (&wrong[i], &error));
      ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_NUMBER));
      g_error_free (error);
    }
}
END_TEST

START_TEST (an_empty_sheet_has_the_size_asked_for_with_the_tee_near_its_foot)
{
  g_autoptr (Hole) hole = edit_empty_hole (150, 400);
  Box sheet = hole_info (hole)->view_box;
  ck_assert_uint_eq (hole_n_parts (hole), 0);
  ck_assert_double_eq_tol (sheet.x1 - sheet.x0, 150, 1e-9);
  ck_assert_double_eq_tol (sheet.y1 - sheet.y0, 400, 1e-9);
  ck_assert (box_contains (sheet, vec2 (0, 0)) && box_contains (sheet, vec2 (0, 350)));
  g_autoptr (Hole) wild = edit_empty_hole (NAN, INFINITY);
  sheet = hole_info (wild)->view_box;
  ck_assert (isfinite (sheet.x0) && isfinite (sheet.y0) && sheet.x1 > sheet.x0 && sheet.y1 > sheet.y0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-sketch");
  TCase *sketch = tcase_create ("sketch");
  tcase_add_test (sketch, the_sketch_measures_what_was_asked_for);
  tcase_add_test (sketch, the_sketch_has_all_that_a_hole_needs);
  tcase_add_test (sketch, a_par_three_has_no_fairway);
  tcase_add_test (sketch, a_bend_to_the_left_is_the_mirror_image_of_one_to_the_right_in_its_line);
  tcase_add_test (sketch, the_mown_areas_lie_in_one_another_and_are_as_wide_as_asked_for);
  tcase_add_test (sketch, the_sheet_takes_in_everything_with_room_round_it);
  tcase_add_test (sketch, what_no_hole_can_be_is_refused_in_a_sentence);
  tcase_add_test (sketch, an_empty_sheet_has_the_size_asked_for_with_the_tee_near_its_foot);
  suite_add_tcase (suite, sketch);
  return suite;
}
