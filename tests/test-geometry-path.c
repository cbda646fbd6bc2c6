// SPDX-License-Identifier: GPL-3.0-or-later
/* Geometry of paths: transforms, arcs, bounds and flattening. */
#include "geometry.h"
#include "suite.h"

#include <stdlib.h>

/* Rounding of sums of a few coordinates of a hundred metres. */
#define TINY_M 1e-12

static void
assert_near (Vec2 a, Vec2 b, double tolerance_m)
{
  ck_assert_msg (vec2_distance (a, b) <= tolerance_m, "(%.17g, %.17g) is not (%.17g, %.17g)", a.x, a.y, b.x, b.y);
}

static Vec2
cubic_point (Vec2 p0, const PathSeg *seg, double t)
{
  Vec2 a = vec2_lerp (p0, seg->c1, t), b = vec2_lerp (seg->c1, seg->c2, t), c = vec2_lerp (seg->c2, seg->to, t);
  return vec2_lerp (vec2_lerp (a, b, t), vec2_lerp (b, c, t), t);
}

/* Largest | |p - centre| - radius | along all curves of a path. */
static double
most_off_circle (const Path *path, Vec2 centre, double radius)
{
  double most = 0;
  for (size_t i = 1; i < path->n_segs; i++)
    if (path->segs[i].kind == SEG_CUBIC)
      for (int k = 0; k <= 100; k++)
        {
          Vec2 p = cubic_point (path->segs[i - 1].to, &path->segs[i], k / 100.0);
          most = fmax (most, fabs (vec2_distance (p, centre) - radius));
        }
  return most;
}

/* A blob that bends every way, with a hole whose ends need closing. */
static Path
make_blob (void)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (10, 20));
  path_cubic_to (&path, vec2 (60, -30), vec2 (120, 90), vec2 (80, 110));
  path_quadratic_to (&path, vec2 (40, 140), vec2 (5, 80));
  path_arc_to (&path, 30, 12, 0.4, false, true, vec2 (-20, 60));
  path_close (&path);
  path_move_to (&path, vec2 (30, 50));
  path_line_to (&path, vec2 (60, 60));
  path_line_to (&path, vec2 (40, 75));
  return path;
}

/* ---- known answers ---- */

START_TEST (transforms_apply_in_the_order_of_svg)
{
  /* SVG 1.1, 7.4: transform="translate(50,90) rotate(-45) translate(130,160)" is matrix .707 -.707 .707 .707 255.03 111.21,
     worked there from .707. */
  Affine t = affine_then (affine_translation (130, 160), affine_rotation (-PI / 4));
  t = affine_then (t, affine_translation (50, 90));
  ck_assert_double_eq_tol (t.xx, 0.707, 5e-4);
  ck_assert_double_eq_tol (t.yx, -0.707, 5e-4);
  ck_assert_double_eq_tol (t.xy, 0.707, 5e-4);
  ck_assert_double_eq_tol (t.yy, 0.707, 5e-4);
  ck_assert_double_eq_tol (t.x0, 255.03, 5e-2);
  ck_assert_double_eq_tol (t.y0, 111.21, 5e-2);
}
END_TEST

START_TEST (largest_scale_is_the_larger_singular_value)
{
  ck_assert_double_eq_tol (affine_largest_scale (affine_then (affine_scaling (3, -5), affine_rotation (1))), 5, TINY_M);
  /* A shear by one stretches by the golden ratio: sqrt of the larger eigenvalue (3 + sqrt 5) / 2. */
  ck_assert_double_eq_tol (affine_largest_scale ((Affine){ 1, 0, 1, 1, 7, 8 }), (1 + sqrt (5)) / 2, TINY_M);
}
END_TEST

START_TEST (a_cubics_bounds_are_its_extrema_not_its_controls)
{
  /* y = 3 t (1 - t)^2 - 3 t^2 (1 - t) = 0.28868 at t = 1/2 - sqrt(3)/6: sqrt(3)/6. */
  Path path = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_cubic_to (&path, vec2 (0, 1), vec2 (1, -1), vec2 (1, 0));
  Box box = path_bounds (&path);
  ck_assert_double_eq_tol (box.x0, 0, TINY_M);
  ck_assert_double_eq_tol (box.x1, 1, TINY_M);
  ck_assert_double_eq_tol (box.y0, -sqrt (3) / 6, TINY_M);
  ck_assert_double_eq_tol (box.y1, sqrt (3) / 6, TINY_M);
  path_clear (&path);
}
END_TEST

START_TEST (a_quadratic_is_raised_to_the_same_curve)
{
  Path path = { 0 };
  Vec2 a = vec2 (1, 2), c = vec2 (5, 9), b = vec2 (-3, 4);
  path_move_to (&path, a);
  path_quadratic_to (&path, c, b);
  for (int i = 0; i <= 10; i++)
    {
      double t = i / 10.0;
      Vec2 expected = vec2_lerp (vec2_lerp (a, c, t), vec2_lerp (c, b, t), t);
      assert_near (cubic_point (a, &path.segs[1], t), expected, TINY_M);
    }
  path_clear (&path);
}
END_TEST

START_TEST (the_four_arcs_of_two_circles_go_the_right_way)
{
  /* From (0,0) to (5,5) with radius 5 the centres are (5,0) and (0,5); SVG 1.1, 8.3.8 names the flags. */
  const struct
  {
    bool large, sweep;
    Vec2 centre;
    Box bounds;
  } rows[] = {
    { false, true, { 0, 5 }, { 0, 0, 5, 5 } },
    { false, false, { 5, 0 }, { 0, 0, 5, 5 } },
    { true, true, { 5, 0 }, { 0, -5, 10, 5 } },
    { true, false, { 0, 5 }, { -5, 0, 5, 10 } },
  };
  for (size_t i = 0; i < 4; i++)
    {
      Path path = { 0 };
      path_move_to (&path, vec2 (0, 0));
      path_arc_to (&path, 5, 5, 0.3, rows[i].large, rows[i].sweep, vec2 (5, 5));
      Box box = path_bounds (&path);
      ck_assert_double_eq_tol (box.x0, rows[i].bounds.x0, 5 * 4.3e-6);
      ck_assert_double_eq_tol (box.y0, rows[i].bounds.y0, 5 * 4.3e-6);
      ck_assert_double_eq_tol (box.x1, rows[i].bounds.x1, 5 * 4.3e-6);
      ck_assert_double_eq_tol (box.y1, rows[i].bounds.y1, 5 * 4.3e-6);
      ck_assert_double_le (most_off_circle (&path, rows[i].centre, 5), 5 * 4.3e-6);
      ck_assert (path_current (&path).x == 5 && path_current (&path).y == 5);
      path_clear (&path);
    }
}
END_TEST

START_TEST (too_small_radii_are_scaled_up_until_they_reach)
{
  /* SVG 1.1, F.6.6: a half circle over the chord. */
  Path path = { 0 };
  path_move_to (&path, vec2 (-3, 0));
  path_arc_to (&path, 1, 1, 0, false, true, vec2 (3, 0));
  ck_assert_double_le (most_off_circle (&path, vec2 (0, 0), 3), 3 * 4.3e-6);
  ck_assert_double_eq_tol (path_bounds (&path).y0, -3, 3 * 4.3e-6);
  path_clear (&path);
}
END_TEST

START_TEST (an_arc_without_radius_is_a_line_and_without_length_nothing)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (1, 1));
  path_arc_to (&path, 0, 5, 0, false, true, vec2 (4, 5));
  ck_assert_uint_eq (path.n_segs, 2);
  ck_assert_int_eq (path.segs[1].kind, SEG_LINE);
  path_arc_to (&path, 3, 5, 0, true, true, vec2 (4, 5));
  ck_assert_uint_eq (path.n_segs, 2);
  path_clear (&path);
}
END_TEST

START_TEST (an_ellipse_has_its_axes_and_its_area)
{
  Path path = { 0 };
  path_add_ellipse (&path, vec2 (3, -2), 20, 7);
  assert_near (path.segs[0].to, vec2 (23, -2), 0);
  Box box = path_bounds (&path);
  ck_assert_double_eq_tol (box.x0, -17, 1e-9);
  ck_assert_double_eq_tol (box.y1, 5, 1e-9);
  Outline *outline = path_flatten (&path, false, 1e-6);
  double area_m2;
  Vec2 centroid;
  ck_assert (outline_measure (outline, &area_m2, &centroid));
  ck_assert_double_eq_tol (area_m2, PI * 20 * 7, 1e-2);
  assert_near (centroid, vec2 (3, -2), 1e-9);
  outline_free (outline);
  path_clear (&path);
}
END_TEST

START_TEST (a_rectangle_has_the_area_its_corners_leave)
{
  const struct
  {
    double rx, ry, area_m2;
  } rows[] = {
    { 0, 0, 200 }, { 3, 0, 200 }, { 2, 3, 200 - (4 - PI) * 6 }, { 90, 90, PI * 50 }, /* cut to half the sides: an ellipse */
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      Path path = { 0 };
      path_add_rectangle (&path, (Box){ -4, 1, 16, 11 }, rows[i].rx, rows[i].ry);
      Outline *outline = path_flatten (&path, false, 1e-6);
      double area_m2;
      ck_assert (outline_measure (outline, &area_m2, NULL));
      ck_assert_double_eq_tol (area_m2, rows[i].area_m2, 3e-3);
      ck_assert_uint_eq (outline->n_rings, 1);
      outline_free (outline);
      path_clear (&path);
    }
}
END_TEST

START_TEST (subpaths_become_rings_closed_or_not)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (4, 0));
  path_line_to (&path, vec2 (4, 4));
  path_line_to (&path, vec2 (0, 0)); /* closed by hand: the point is not repeated */
  path_close (&path);
  path_line_to (&path, vec2 (-4, 0)); /* starts anew where the close went */
  path_line_to (&path, vec2 (-4, -4));
  path_move_to (&path, vec2 (9, 9)); /* one point is no ring */
  path_move_to (&path, vec2 (20, 0));
  path_line_to (&path, vec2 (20, 0));
  path_line_to (&path, vec2 (30, 0));
  path_line_to (&path, vec2 (30, 5));
  Outline *outline = path_flatten (&path, true, FLATTEN_TOLERANCE_M);
  ck_assert_uint_eq (outline->n_rings, 3);
  for (size_t r = 0; r <= 3; r++)
    ck_assert_uint_eq (outline->ring_starts[r], 3 * r);
  assert_near (outline->points[3], vec2 (0, 0), 0);
  ck_assert (outline->even_odd);
  outline_free (outline);
  path_clear (&path);
}
END_TEST

START_TEST (a_line_is_the_first_subpath_only)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (0, 100));
  path_cubic_to (&path, vec2 (0, 150), vec2 (20, 180), vec2 (50, 200));
  path_move_to (&path, vec2 (5, 5));
  path_line_to (&path, vec2 (6, 6));
  Vec2 *points;
  size_t n = path_flatten_line (&path, FLATTEN_TOLERANCE_M, &points);
  ck_assert_uint_gt (n, 5);
  assert_near (points[0], vec2 (0, 0), 0);
  assert_near (points[1], vec2 (0, 100), 0);
  assert_near (points[n - 1], vec2 (50, 200), 0);
  free (points);
  path_clear (&path);
}
END_TEST

/* ---- invariants ---- */

START_TEST (no_curve_is_further_from_its_chords_than_the_tolerance)
{
  Path path = make_blob ();
  const double tolerances_m[] = { 1, 0.1, FLATTEN_TOLERANCE_M, 1e-3 };
  for (size_t k = 0; k < 4; k++)
    {
      Outline *outline = path_flatten (&path, false, tolerances_m[k]);
      double most = 0;
      for (size_t i = 1; i < path.n_segs; i++)
        for (int s = 0; path.segs[i].kind == SEG_CUBIC && s <= 500; s++)
          {
            Vec2 on_curve = cubic_point (path.segs[i - 1].to, &path.segs[i], s / 500.0);
            most = fmax (most, outline_distance (outline, on_curve, NULL));
          }
      ck_assert_double_le (most, tolerances_m[k]);
      ck_assert_double_ge (most, tolerances_m[k] / 20); /* and no needless points */
      outline_free (outline);
    }
  path_clear (&path);
}
END_TEST

START_TEST (an_inverse_brings_every_point_back)
{
  Affine t = { 1.5, -0.3, 0.8, 2.1, 40, -70 }, inverse;
  ck_assert (affine_invert (t, &inverse));
  for (int i = 0; i < 20; i++)
    {
      Vec2 p = vec2 (i * 13 - 100, 57 - i * i);
      assert_near (affine_apply (inverse, affine_apply (t, p)), p, 1e-11);
    }
}
END_TEST

START_TEST (transforming_the_path_is_transforming_its_points)
{
  Path path = make_blob (), moved;
  Affine t = affine_then (affine_rotation (0.7), affine_translation (1000, -500));
  path_copy (&path, &moved);
  ck_assert (path_equal (&path, &moved));
  path_transform (&moved, t);
  ck_assert (!path_equal (&path, &moved));
  Outline *before = path_flatten (&path, false, 0.1), *after = path_flatten (&moved, false, 0.1);
  ck_assert_uint_eq (before->n_points, after->n_points);
  for (size_t i = 0; i < before->n_points; i++)
    assert_near (affine_apply (t, before->points[i]), after->points[i], 1e-9);
  outline_free (before);
  outline_free (after);
  path_clear (&path);
  path_clear (&moved);
}
END_TEST

START_TEST (bounds_hold_the_flattened_curve_tightly)
{
  Path path = make_blob ();
  Outline *outline = path_flatten (&path, false, 1e-5);
  Box box = path_bounds (&path);
  ck_assert_double_eq_tol (box.x0, outline->bounds.x0, 1e-4);
  ck_assert_double_eq_tol (box.y0, outline->bounds.y0, 1e-4);
  ck_assert_double_eq_tol (box.x1, outline->bounds.x1, 1e-4);
  ck_assert_double_eq_tol (box.y1, outline->bounds.y1, 1e-4);
  outline_free (outline);
  path_clear (&path);
}
END_TEST

/* ---- edges ---- */

START_TEST (an_empty_path_is_empty_everywhere)
{
  Path path = { 0 }, copy;
  path_close (&path);
  ck_assert_uint_eq (path.n_segs, 0);
  ck_assert (box_is_empty (path_bounds (&path)));
  ck_assert (path_is_finite (&path));
  path_copy (&path, &copy);
  ck_assert (path_equal (&path, &copy));
  Outline *outline = path_flatten (&path, false, FLATTEN_TOLERANCE_M);
  ck_assert_uint_eq (outline->n_rings, 0);
  ck_assert_uint_eq (outline->ring_starts[0], 0);
  outline_free (outline);
  Vec2 *points;
  ck_assert_uint_eq (path_flatten_line (&path, FLATTEN_TOLERANCE_M, &points), 0);
  free (points);
  path_clear (&copy);
  path_clear (&path);
}
END_TEST

START_TEST (a_path_drawn_without_a_move_starts_at_the_origin)
{
  Path path = { 0 };
  path_line_to (&path, vec2 (1, 0));
  ck_assert_int_eq (path.segs[0].kind, SEG_MOVE);
  path_transform (&path, affine_translation (5, 0));
  assert_near (path.segs[0].to, vec2 (5, 0), 0);
  path_clear (&path);
}
END_TEST

START_TEST (a_path_that_is_not_finite_flattens_to_nothing)
{
  const double rows[] = { NAN, INFINITY };
  for (size_t i = 0; i < 2; i++)
    {
      Path path = { 0 };
      path_move_to (&path, vec2 (0, 0));
      path_cubic_to (&path, vec2 (rows[i], 1), vec2 (1, 1), vec2 (2, 0));
      ck_assert (!path_is_finite (&path));
      Outline *outline = path_flatten (&path, false, FLATTEN_TOLERANCE_M);
      ck_assert_uint_eq (outline->n_points, 0);
      outline_free (outline);
      path_clear (&path);
    }
}
END_TEST

START_TEST (huge_curves_do_not_eat_the_memory)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (0, 0));
  for (int i = 0; i < 100; i++)
    path_cubic_to (&path, vec2 (1e300, 0), vec2 (-1e300, 1e300), vec2 (i, 1));
  Outline *outline = path_flatten (&path, false, FLATTEN_TOLERANCE_M);
  ck_assert_uint_le (outline->n_points, 1u << 22);
  outline_free (outline);
  path_clear (&path);
}
END_TEST

START_TEST (what_cannot_be_inverted_is_refused)
{
  Affine inverse = affine_identity ();
  ck_assert (!affine_invert ((Affine){ 1, 2, 2, 4, 0, 0 }, &inverse));
  ck_assert (!affine_invert ((Affine){ NAN, 0, 0, 1, 0, 0 }, &inverse));
  ck_assert (!affine_invert ((Affine){ 1, 0, 0, 1, INFINITY, 0 }, &inverse));
  ck_assert (!affine_invert (affine_scaling (1e-200, 1e-200), &inverse));
  ck_assert_double_eq (inverse.xx, 1);
  ck_assert (!affine_is_finite ((Affine){ 1, 0, 0, 1, NAN, 0 }));
}
END_TEST

START_TEST (shapes_without_size_draw_nothing)
{
  Path path = { 0 };
  path_add_ellipse (&path, vec2 (1, 1), 0, 5);
  path_add_ellipse (&path, vec2 (1, 1), 5, -1);
  path_add_rectangle (&path, (Box){ 0, 0, 0, 5 }, 0, 0);
  path_add_rectangle (&path, box_empty (), 1, 1);
  ck_assert_uint_eq (path.n_segs, 0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("geometry-path");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, transforms_apply_in_the_order_of_svg);
  tcase_add_test (known, largest_scale_is_the_larger_singular_value);
  tcase_add_test (known, a_cubics_bounds_are_its_extrema_not_its_controls);
  tcase_add_test (known, a_quadratic_is_raised_to_the_same_curve);
  tcase_add_test (known, the_four_arcs_of_two_circles_go_the_right_way);
  tcase_add_test (known, too_small_radii_are_scaled_up_until_they_reach);
  tcase_add_test (known, an_arc_without_radius_is_a_line_and_without_length_nothing);
  tcase_add_test (known, an_ellipse_has_its_axes_and_its_area);
  tcase_add_test (known, a_rectangle_has_the_area_its_corners_leave);
  tcase_add_test (known, subpaths_become_rings_closed_or_not);
  tcase_add_test (known, a_line_is_the_first_subpath_only);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, no_curve_is_further_from_its_chords_than_the_tolerance);
  tcase_add_test (invariants, an_inverse_brings_every_point_back);
  tcase_add_test (invariants, transforming_the_path_is_transforming_its_points);
  tcase_add_test (invariants, bounds_hold_the_flattened_curve_tightly);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, an_empty_path_is_empty_everywhere);
  tcase_add_test (edges, a_path_drawn_without_a_move_starts_at_the_origin);
  tcase_add_test (edges, a_path_that_is_not_finite_flattens_to_nothing);
  tcase_add_test (edges, huge_curves_do_not_eat_the_memory);
  tcase_add_test (edges, what_cannot_be_inverted_is_refused);
  tcase_add_test (edges, shapes_without_size_draw_nothing);
  suite_add_tcase (suite, edges);
  return suite;
}
