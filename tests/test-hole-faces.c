// SPDX-License-Identifier: GPL-3.0-or-later
/* Faces: what is seen of each area from above. */
#include "hole.h"
#include "suite.h"

#include <stdlib.h>

static const Part *
area (Kind kind, const double *xy, size_t n, bool even_odd)
{
  Part *part = part_new (kind);
  part->even_odd = even_odd;
  path_move_to (&part->path, vec2 (xy[0], xy[1]));
  for (size_t i = 1; i < n; i++)
    path_line_to (&part->path, vec2 (xy[2 * i], xy[2 * i + 1]));
  path_close (&part->path);
  return part_seal (part);
}

static const Part *
box (Kind kind, double x0, double y0, double x1, double y1)
{
  const double corners[] = { x0, y0, x1, y0, x1, y1, x0, y1 };
  return area (kind, corners, 4, false);
}

static Hole *
hole_of (const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts, n_parts, NULL);
  hole_info_clear (&info);
  return hole;
}

static const Faces *
faces_of (const Hole *hole)
{
  GError *error = NULL;
  const Faces *faces = hole_faces (hole, &error);
  ck_assert_msg (faces != NULL, "%s", error != NULL ? error->message : "");
  return faces;
}

static double
face_m2 (const Faces *faces, size_t k)
{
  double area_m2 = 0;
  return outline_measure (faces_outline (faces, k), &area_m2, NULL) ? area_m2 : 0;
}

/* The face that a point lies on, having made sure that it is no more than one; -1 for none. */
static int
face_at (const Hole *hole, const Faces *faces, Vec2 at)
{
  int found = -1;
  for (size_t k = 0; k < hole_n_areas (hole); k++)
    {
      int winding = outline_winding (faces_outline (faces, k), at);
      ck_assert (winding == 0 || winding == 1);
      if (winding == 0)
        continue;
      ck_assert_int_eq (found, -1);
      found = (int)hole_area_part (hole, k);
    }
  return found;
}

/* Points over everything, at places that no edge of these tests runs through. */
static void
check_points (const Hole *hole, double x0, double y0, double x1, double y1)
{
  const Faces *faces = faces_of (hole);
  for (int i = 0; i < 80; i++)
    for (int j = 0; j < 80; j++)
      {
        Vec2 at = vec2 (x0 + (x1 - x0) * (i + 0.387) / 80, y0 + (y1 - y0) * (j + 0.613) / 80);
        ck_assert_int_eq (face_at (hole, faces, at), hole_area_at (hole, at));
      }
}

/* ---- known answers ---- */

START_TEST (what_lies_on_top_is_cut_from_what_lies_below)
{
  const Part *parts[] = { box (KIND_ROUGH, 0, 0, 10, 10), box (KIND_FAIRWAY, 2, 2, 8, 8), box (KIND_BUNKER, 6, 6, 12, 7) };
  g_autoptr (Hole) hole = hole_of (parts, 3);
  const Faces *faces = faces_of (hole);
  ck_assert_double_eq_tol (face_m2 (faces, 0), 100 - 36 - 2, 1e-12);
  ck_assert_double_eq_tol (face_m2 (faces, 1), 36 - 2, 1e-12);
  ck_assert_double_eq_tol (face_m2 (faces, 2), 6, 1e-12);
  check_points (hole, -1, -1, 13, 11);
}
END_TEST

START_TEST (parts_without_a_kind_or_an_area_have_no_face)
{
  Part *mark = part_new (KIND_MARK);
  const Part *parts[] = { box (KIND_NONE, 0, 0, 10, 10), part_seal (mark), box (KIND_GREEN, 2, 2, 8, 8) };
  g_autoptr (Hole) hole = hole_of (parts, 3);
  ck_assert_uint_eq (hole_n_areas (hole), 1);
  ck_assert_uint_eq (hole_area_part (hole, 0), 2);
  ck_assert_double_eq_tol (face_m2 (faces_of (hole), 0), 36, 1e-12);
}
END_TEST

START_TEST (an_area_that_is_wholly_covered_has_an_empty_face)
{
  const Part *parts[] = { box (KIND_BUNKER, 2, 2, 4, 4), box (KIND_GREEN, 0, 0, 10, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  ck_assert_uint_eq (faces_outline (faces_of (hole), 0)->n_points, 0);
}
END_TEST

START_TEST (outlines_that_cross_or_touch_themselves_are_as_their_fill_rule_says)
{
  /* A star of five points, once by either rule; a figure of eight; two squares that touch in a corner; a tail without width. */
  double star[10];
  for (int i = 0; i < 5; i++)
    {
      star[2 * i] = 10 * sin (4 * PI * i / 5);
      star[2 * i + 1] = 10 * cos (4 * PI * i / 5);
    }
  static const double eight[] = { 20, 0, 30, 10, 20, 10, 30, 0 };
  static const double corner[] = { 40, 0, 45, 0, 45, 5, 50, 5, 50, 10, 45, 10, 45, 5, 40, 5 };
  static const double tail[] = { 60, 0, 70, 0, 70, 5, 75, 5, 70, 5, 70, 10, 60, 10 };
  for (int even_odd = 0; even_odd < 2; even_odd++)
    {
      const Part *parts[]
          = { box (KIND_ROUGH, -20, -20, 80, 20), area (KIND_FAIRWAY, star, 5, even_odd), area (KIND_WATER, eight, 4, even_odd),
              area (KIND_BUNKER, corner, 8, even_odd), area (KIND_TREES, tail, 7, even_odd) };
      g_autoptr (Hole) hole = hole_of (parts, 5);
      check_points (hole, -21, -21, 81, 21);
      ck_assert_double_eq_tol (face_m2 (faces_of (hole), 2), 50, 1e-9);
      ck_assert_double_eq_tol (face_m2 (faces_of (hole), 3), 50, 1e-9);
      ck_assert_double_eq_tol (face_m2 (faces_of (hole), 4), 100, 1e-9);
    }
}
END_TEST

START_TEST (an_outline_that_only_nearly_touches_itself_keeps_all_of_its_inside)
{
  /* A quadrilateral that crosses itself just at its last corner; turned, the corner lies a rounding off the edge. */
  static const double crossed[] = { 5, 6, 2, 3, 5, 3, 3, 4 };
  for (int i = 0; i < 200; i++)
    {
      double turned[8], c = cos (0.01 * i), s = sin (0.01 * i);
      for (int k = 0; k < 4; k++)
        {
          turned[2 * k] = c * crossed[2 * k] - s * crossed[2 * k + 1];
          turned[2 * k + 1] = s * crossed[2 * k] + c * crossed[2 * k + 1];
        }
      const Part *parts[] = { area (KIND_BUNKER, turned, 4, true) };
      g_autoptr (Hole) hole = hole_of (parts, 1);
      ck_assert_double_eq_tol (face_m2 (faces_of (hole), 0), 1.5, 1e-9);
    }
}
END_TEST

START_TEST (chances_of_faces_are_those_of_what_is_seen)
{
  const Part *parts[] = { box (KIND_ROUGH, -1, -1, 1, 1), box (KIND_GREEN, 0, -5, 5, 5) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  Normal normal = { .a = { 1, 0 }, .b = { 0, 1 } };
  double chances[3], inside = erf (sqrt (0.5));
  ck_assert (faces_chances (faces_of (hole), &normal, chances));
  ck_assert_double_eq_tol (chances[0], inside * inside / 2, 1e-9);
  ck_assert_double_eq_tol (chances[1], 0.5, 1e-6);
  ck_assert_double_eq_tol (chances[0] + chances[1] + chances[2], 1, 1e-12);
}
END_TEST

/* ---- sharing ---- */

START_TEST (an_edit_cuts_anew_only_what_it_comes_near)
{
  const Part *parts[] = { box (KIND_FAIRWAY, 0, 0, 10, 10), box (KIND_BUNKER, 2, 2, 3, 3), box (KIND_GREEN, 50, 0, 60, 10),
                          box (KIND_BUNKER, 55, 5, 65, 6) };
  g_autoptr (Hole) hole = hole_of (parts, 4);
  const Faces *before = faces_of (hole);
  g_autoptr (Hole) edited = hole_with_part (hole, 1, box (KIND_BUNKER, 4, 4, 6, 6));
  const Faces *after = faces_of (edited);
  ck_assert_ptr_eq (faces_outline (before, 2), faces_outline (after, 2));
  ck_assert_ptr_eq (faces_outline (before, 3), faces_outline (after, 3));
  ck_assert_double_eq_tol (face_m2 (before, 0), 99, 1e-12);
  ck_assert_double_eq_tol (face_m2 (after, 0), 96, 1e-12);
  check_points (edited, -1, -1, 66, 11);
}
END_TEST

START_TEST (an_edit_that_moves_no_area_shares_all_faces)
{
  const Part *parts[] = { box (KIND_FAIRWAY, 0, 0, 10, 10), part_seal (part_new (KIND_MARK)) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  g_autoptr (Hole) edited = hole_without_part (hole, 1);
  const Faces *faces = faces_of (edited);
  ck_assert_ptr_eq (faces, faces_of (hole));
}
END_TEST

START_TEST (faces_after_many_edits_are_those_of_a_fresh_hole)
{
  uint64_t state = 88172645463325252u;
  const Part *first[] = { box (KIND_ROUGH, 0, 0, 100, 100) };
  Hole *hole = hole_of (first, 1);
  for (int i = 0; i < 120; i++)
    {
      double number[6];
      for (int n = 0; n < 6; n++)
        {
          /* Marsaglia, "Xorshift RNGs", 2003. */
          state ^= state << 13;
          state ^= state >> 7;
          state ^= state << 17;
          number[n] = (double)(state >> 11) * 0x1p-53;
        }
      size_t n = hole_n_parts (hole), at = (size_t)(number[4] * (double)n);
      double x = 90 * number[0], y = 90 * number[1];
      const Part *part = box (i % 2 ? KIND_BUNKER : KIND_GREEN, x, y, x + 1 + 20 * number[2], y + 1 + 20 * number[3]);
      Hole *edited = n > 12 && number[5] < 0.4 ? hole_without_part (hole, at)
                     : number[5] < 0.6         ? hole_with_part (hole, at, part)
                                               : hole_inserting_part (hole, at, part);
      if (n > 12 && number[5] < 0.4)
        part_unref (part);
      if (i % 3 != 0)
        faces_of (edited);
      hole_unref (hole);
      hole = edited;
    }
  size_t n = hole_n_parts (hole);
  g_autofree const Part **parts = g_new (const Part *, n);
  for (size_t i = 0; i < n; i++)
    parts[i] = part_ref (hole_part (hole, i));
  g_autoptr (Hole) fresh = hole_of (parts, n);
  for (size_t k = 0; k < n; k++)
    ck_assert_double_eq_tol (face_m2 (faces_of (hole), k), face_m2 (faces_of (fresh), k), 1e-9);
  check_points (hole, -1, -1, 120, 120);
  hole_unref (hole);
}
END_TEST

/* ---- edges ---- */

START_TEST (a_hole_without_areas_has_no_faces_and_everything_is_ground)
{
  g_autoptr (Hole) hole = hole_of (NULL, 0);
  Normal normal = { .a = { 1, 0 }, .b = { 0, 1 } };
  double chances[1];
  ck_assert (faces_chances (faces_of (hole), &normal, chances));
  ck_assert_double_eq (chances[0], 1);
}
END_TEST

START_TEST (thousands_of_areas_are_cut_in_a_moment)
{
  enum
  {
    N = 5000
  };
  g_autofree const Part **parts = g_new (const Part *, N);
  for (int i = 0; i < N; i++)
    parts[i] = box (KIND_BUNKER, 3 * (i % 71), 3 * (i / 71), 3 * (i % 71) + 5, 3 * (i / 71) + 4);
  g_autoptr (Hole) hole = hole_of (parts, N);
  Normal normal = { .mean = { 100, 100 }, .a = { 30, 0 }, .b = { 0, 20 } };
  g_autofree double *chances = g_new (double, N + 1);
  double sum = 0;
  ck_assert (faces_chances (faces_of (hole), &normal, chances));
  for (int k = 0; k <= N; k++)
    sum += chances[k];
  ck_assert_double_eq_tol (sum, 1, 1e-11);
  ck_assert_double_lt (chances[N], 0.01);
}
END_TEST

START_TEST (a_hostile_tangle_is_refused_by_name)
{
  enum
  {
    N = 4001
  };
  Part *part = part_new (KIND_WATER);
  part->name = g_strdup ("the tangle");
  for (int i = 0; i < N; i++)
    {
      double turn = 2 * PI * i * (N / 2) / N;
      Vec2 at = vec2 (100 * sin (turn), 100 * cos (turn));
      if (i == 0)
        path_move_to (&part->path, at);
      else
        path_line_to (&part->path, at);
    }
  path_close (&part->path);
  const Part *parts[] = { part_seal (part) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  for (int again = 0; again < 2; again++)
    {
      g_autoptr (GError) error = NULL;
      ck_assert_ptr_null (hole_faces (hole, &error));
      ck_assert (g_error_matches (error, HOLE_ERROR, HOLE_ERROR_FACES));
      ck_assert_ptr_nonnull (strstr (error->message, "the tangle"));
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("hole-faces");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, what_lies_on_top_is_cut_from_what_lies_below);
  tcase_add_test (known, parts_without_a_kind_or_an_area_have_no_face);
  tcase_add_test (known, an_area_that_is_wholly_covered_has_an_empty_face);
  tcase_add_test (known, outlines_that_cross_or_touch_themselves_are_as_their_fill_rule_says);
  tcase_add_test (known, an_outline_that_only_nearly_touches_itself_keeps_all_of_its_inside);
  tcase_add_test (known, chances_of_faces_are_those_of_what_is_seen);
  suite_add_tcase (suite, known);
  TCase *sharing = tcase_create ("sharing");
  tcase_add_test (sharing, an_edit_cuts_anew_only_what_it_comes_near);
  tcase_add_test (sharing, an_edit_that_moves_no_area_shares_all_faces);
  tcase_add_test (sharing, faces_after_many_edits_are_those_of_a_fresh_hole);
  suite_add_tcase (suite, sharing);
  TCase *edges = tcase_create ("edges");
  tcase_set_timeout (edges, 60);
  tcase_add_test (edges, a_hole_without_areas_has_no_faces_and_everything_is_ground);
  tcase_add_test (edges, thousands_of_areas_are_cut_in_a_moment);
  tcase_add_test (edges, a_hostile_tangle_is_refused_by_name);
  suite_add_tcase (suite, edges);
  return suite;
}
