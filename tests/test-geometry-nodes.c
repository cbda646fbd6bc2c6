// SPDX-License-Identifier: GPL-3.0-or-later
/* Geometry of paths being edited: nodes and handles there and back, the nearest place, segments split. */
#include "geometry.h"
#include "suite.h"

#include <stdint.h>
#include <stdlib.h>

/* Rounding of sums of a few coordinates of a hundred metres. */
#define TINY_M 1e-12
/* What path_nearest promises. */
#define NEAREST_M 1e-9
#define N_RANDOM 300

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (double)(*state >> 11) * 0x1p-53;
}

static Vec2
random_point (uint64_t *state)
{
  double x = 100 * next_random (state);
  return vec2 (x - 50, 100 * next_random (state) - 50);
}

static void
assert_near (Vec2 a, Vec2 b, double tolerance_m)
{
  ck_assert_msg (vec2_distance (a, b) <= tolerance_m, "(%.17g, %.17g) is not (%.17g, %.17g)", a.x, a.y, b.x, b.y);
}

/* The point of a segment that starts at `pen`. */
static Vec2
segment_point (Vec2 pen, const PathSeg *seg, double t)
{
  if (seg->kind != SEG_CUBIC)
    return vec2_lerp (pen, seg->to, t);
  Vec2 a = vec2_lerp (pen, seg->c1, t), b = vec2_lerp (seg->c1, seg->c2, t), c = vec2_lerp (seg->c2, seg->to, t);
  return vec2_lerp (vec2_lerp (a, b, t), vec2_lerp (b, c, t), t);
}

/* Two or three subpaths of lines, curves and both, open, closed, closed by their last curve, and moves that draw nothing. */
static Path
random_path (uint64_t *state)
{
  Path path = { 0 };
  int n_subpaths = 1 + (int)(3 * next_random (state));
  for (int k = 0; k < n_subpaths; k++)
    {
      Vec2 start = random_point (state);
      path_move_to (&path, start);
      int n_segs = (int)(5 * next_random (state));
      bool comes_back = next_random (state) < 0.5;
      for (int i = 0; i < n_segs; i++)
        {
          Vec2 to = comes_back && i + 1 == n_segs ? start : random_point (state);
          double kind = next_random (state);
          if (kind < 0.4)
            path_line_to (&path, to);
          else if (kind < 0.5)
            path_cubic_to (&path, path_current (&path), to, to); /* straight, and a curve all the same */
          else
            path_cubic_to (&path, random_point (state), random_point (state), to);
        }
      if (next_random (state) < 0.6)
        path_close (&path);
    }
  return path;
}

/* ---- known answers ---- */

START_TEST (a_rectangle_has_four_nodes_and_no_handles)
{
  Path path = { 0 };
  path_add_rectangle (&path, (Box){ 0, 0, 20, 10 }, 0, 0);
  PathNode *nodes;
  ck_assert_uint_eq (path_nodes (&path, &nodes), 4);
  for (size_t i = 0; i < 4; i++)
    {
      assert_near (nodes[i].in, nodes[i].at, 0);
      assert_near (nodes[i].out, nodes[i].at, 0);
      ck_assert (!nodes[i].is_smooth && nodes[i].is_closed && nodes[i].starts == (i == 0));
    }
  free (nodes);
  path_clear (&path);
}
END_TEST

START_TEST (an_ellipse_has_eight_smooth_nodes_with_handles_along_its_tangents)
{
  Path path = { 0 };
  path_add_ellipse (&path, vec2 (3, -2), 10, 10);
  PathNode *nodes;
  size_t n = path_nodes (&path, &nodes);
  ck_assert_uint_eq (n, 8); /* pieces of an eighth of a turn */
  for (size_t i = 0; i < n; i++)
    {
      Vec2 radius = vec2_sub (nodes[i].at, vec2 (3, -2));
      ck_assert (nodes[i].is_smooth && nodes[i].is_closed);
      ck_assert_double_eq_tol (vec2_dot (vec2_sub (nodes[i].out, nodes[i].at), radius), 0, 1e-9);
      assert_near (vec2_add (nodes[i].in, nodes[i].out), vec2_scale (nodes[i].at, 2), 1e-9);
    }
  free (nodes);
  path_clear (&path);
}
END_TEST

START_TEST (handles_are_smooth_to_one_degree)
{
  const struct
  {
    double turn_deg;
    bool is_smooth;
  } rows[] = { { 0, true }, { 0.9, true }, { -0.9, true }, { 1.1, false }, { -1.1, false }, { 180, false } };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      Path path = { 0 };
      Vec2 out = vec2 (5 * cos (rows[i].turn_deg * PI / 180), 5 * sin (rows[i].turn_deg * PI / 180));
      path_move_to (&path, vec2 (-20, 0));
      path_cubic_to (&path, vec2 (-15, 9), vec2 (-5, 0), vec2 (0, 0));
      path_cubic_to (&path, out, vec2 (15, 9), vec2 (20, 0));
      PathNode *nodes;
      ck_assert_uint_eq (path_nodes (&path, &nodes), 3);
      ck_assert_msg (nodes[1].is_smooth == rows[i].is_smooth, "%g degrees", rows[i].turn_deg);
      ck_assert (!nodes[0].is_smooth && !nodes[2].is_smooth && !nodes[0].is_closed);
      free (nodes);
      path_clear (&path);
    }
}
END_TEST

START_TEST (a_node_tells_how_the_path_leaves_it)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (10, 0));
  path_cubic_to (&path, vec2 (12, 0), vec2 (20, 8), vec2 (20, 10));
  path_close (&path);
  path_move_to (&path, vec2 (30, 0));
  path_line_to (&path, vec2 (40, 0));
  PathNode *nodes;
  ck_assert_uint_eq (path_nodes (&path, &nodes), 5);
  const SegKind leaves[] = { SEG_LINE, SEG_CUBIC, SEG_CLOSE, SEG_LINE, SEG_MOVE };
  for (size_t i = 0; i < 5; i++)
    ck_assert_int_eq (nodes[i].leaves, leaves[i]);
  assert_near (nodes[1].out, vec2 (12, 0), 0);
  assert_near (nodes[2].in, vec2 (20, 8), 0);
  assert_near (nodes[1].in, nodes[1].at, 0);
  ck_assert (nodes[3].starts && !nodes[3].is_closed);
  free (nodes);
  path_clear (&path);
}
END_TEST

START_TEST (a_straight_node_given_a_handle_becomes_a_curve)
{
  Path path = { 0 }, curved = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (10, 0));
  path_line_to (&path, vec2 (10, 10));
  path_close (&path);
  PathNode *nodes;
  size_t n = path_nodes (&path, &nodes);
  nodes[2].out = vec2 (5, 15);
  path_add_nodes (&curved, nodes, n);
  ck_assert_uint_eq (curved.n_segs, 5);
  ck_assert_int_eq (curved.segs[3].kind, SEG_CUBIC);
  assert_near (curved.segs[3].c1, vec2 (5, 15), 0);
  assert_near (curved.segs[3].c2, vec2 (0, 0), 0);
  assert_near (curved.segs[3].to, vec2 (0, 0), 0);
  ck_assert_int_eq (curved.segs[4].kind, SEG_CLOSE);
  free (nodes);
  path_clear (&path);
  path_clear (&curved);
}
END_TEST

START_TEST (the_nearest_place_of_a_parabola_is_where_calculus_puts_it)
{
  /*
   * y = x^2 from -2 to 2 as one quadratic with its control at (0,-4). From (0,h), h > 1/2, the nearest x is sqrt (h - 1/2),
   * at a distance      of sqrt (h - 1/4); below that it is the bottom.
   */
  Path path = { 0 };
  path_move_to (&path, vec2 (-2, 4));
  path_quadratic_to (&path, vec2 (0, -4), vec2 (2, 4));
  const double heights[] = { 0.6, 1, 2, 3.5 };
  for (size_t i = 0; i < 4; i++)
    {
      size_t seg;
      double t, distance_m;
      ck_assert (path_nearest (&path, vec2 (0.001, heights[i]), &seg, &t, &distance_m));
      ck_assert_uint_eq (seg, 1);
      ck_assert (t > 0.5); /* the nearer of the two sides */
      ck_assert (path_nearest (&path, vec2 (0, heights[i]), &seg, &t, &distance_m));
      ck_assert_double_eq_tol (distance_m, sqrt (heights[i] - 0.25), NEAREST_M);
      ck_assert_double_eq_tol (fabs (4 * t - 2), sqrt (heights[i] - 0.5), 1e-7);
    }
  size_t seg;
  double t, distance_m;
  ck_assert (path_nearest (&path, vec2 (0, 0.25), &seg, &t, &distance_m));
  ck_assert_double_eq_tol (distance_m, 0.25, NEAREST_M);
  ck_assert_double_eq_tol (t, 0.5, 1e-7);
  path_clear (&path);
}
END_TEST

START_TEST (the_nearest_place_may_lie_on_the_line_of_the_close)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (10, 0));
  path_line_to (&path, vec2 (10, 10));
  path_close (&path);
  size_t seg;
  double t, distance_m;
  ck_assert (path_nearest (&path, vec2 (0, 5), &seg, &t, &distance_m));
  ck_assert_uint_eq (seg, 3);
  ck_assert_double_eq_tol (t, 0.75, TINY_M);
  ck_assert_double_eq_tol (distance_m, 2.5 * sqrt (2), TINY_M);
  path_clear (&path);
}
END_TEST

START_TEST (from_the_middle_of_a_circle_every_place_is_a_radius_away)
{
  /* Nothing can be left out early here: all of the curve is within 4.3e-6 of the radius of being nearest. */
  Path path = { 0 };
  path_add_ellipse (&path, vec2 (7, 7), 25, 25);
  size_t seg;
  double t, distance_m;
  ck_assert (path_nearest (&path, vec2 (7, 7), &seg, &t, &distance_m));
  ck_assert_double_eq_tol (distance_m, 25, 25 * 4.3e-6);
  path_clear (&path);
}
END_TEST

/* ---- invariants ---- */

START_TEST (nodes_there_and_back_are_the_same_path)
{
  uint64_t state = 88172645463325252u;
  for (int i = 0; i < N_RANDOM; i++)
    {
      Path path = random_path (&state), back = { 0 };
      PathNode *nodes;
      size_t n = path_nodes (&path, &nodes);
      path_add_nodes (&back, nodes, n);
      ck_assert_msg (path_equal (&path, &back), "path %d came back as another", i);
      free (nodes);
      path_clear (&path);
      path_clear (&back);
    }
}
END_TEST

START_TEST (the_nearest_place_beats_every_one_of_ten_thousand)
{
  uint64_t state = 362436069u;
  for (int i = 0; i < 60; i++)
    {
      Path path = random_path (&state);
      Vec2 point = random_point (&state), pen = vec2 (0, 0);
      size_t nearest;
      double place, distance_m, sampled_m = INFINITY;
      bool draws = path_nearest (&path, point, &nearest, &place, &distance_m);
      for (size_t k = 0; k < path.n_segs; k++)
        {
          for (int j = 0; path.segs[k].kind != SEG_MOVE && j <= 10000; j++)
            sampled_m = fmin (sampled_m, vec2_distance (segment_point (pen, &path.segs[k], j / 1e4), point));
          pen = path.segs[k].to;
        }
      ck_assert (draws == isfinite (sampled_m));
      if (draws)
        {
          /* Samples lie 0.05 m apart at most, so theirs is at most half of that longer, and longer it must be. */
          ck_assert_msg (distance_m <= sampled_m + NEAREST_M && distance_m >= sampled_m - 0.025, "%.12g, sampled %.12g",
                         distance_m, sampled_m);
          Vec2 at = segment_point (path.segs[nearest - 1].to, &path.segs[nearest], place);
          ck_assert_double_eq_tol (vec2_distance (at, point), distance_m, NEAREST_M);
        }
      path_clear (&path);
    }
}
END_TEST

START_TEST (a_point_of_the_curve_is_found_on_it)
{
  uint64_t state = 521288629u;
  for (int i = 0; i < N_RANDOM; i++)
    {
      Path path = { 0 };
      path_move_to (&path, random_point (&state));
      path_cubic_to (&path, random_point (&state), random_point (&state), random_point (&state));
      Vec2 point = segment_point (path.segs[0].to, &path.segs[1], next_random (&state));
      size_t seg;
      double t, distance_m;
      ck_assert (path_nearest (&path, point, &seg, &t, &distance_m));
      ck_assert_double_le (distance_m, NEAREST_M);
      path_clear (&path);
    }
}
END_TEST

START_TEST (both_halves_of_a_segment_lie_on_it)
{
  uint64_t state = 2463534242u;
  const SegKind kinds[] = { SEG_CUBIC, SEG_LINE, SEG_CLOSE };
  for (int i = 0; i < N_RANDOM; i++)
    {
      Vec2 from = random_point (&state);
      PathSeg seg = { kinds[i % 3], random_point (&state), random_point (&state), random_point (&state) }, first, second;
      double t = i < 6 ? i / 3 : next_random (&state); /* both ends too */
      path_seg_split (from, seg, t, &first, &second);
      ck_assert_int_eq (second.kind, seg.kind);
      ck_assert_int_eq (first.kind, seg.kind == SEG_CLOSE ? SEG_LINE : seg.kind);
      for (double u = 0; u <= 1; u += 0.125)
        {
          assert_near (segment_point (from, &first, u), segment_point (from, &seg, t * u), 1e-11);
          assert_near (segment_point (first.to, &second, u), segment_point (from, &seg, t + (1 - t) * u), 1e-11);
        }
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (nothing_has_no_nodes_and_no_nearest_place)
{
  Path path = { 0 };
  PathNode *nodes;
  size_t seg = 99;
  double t = -1, distance_m = -1;
  ck_assert_uint_eq (path_nodes (&path, &nodes), 0);
  free (nodes);
  path_add_nodes (&path, NULL, 0);
  ck_assert_uint_eq (path.n_segs, 0);
  ck_assert (!path_nearest (&path, vec2 (0, 0), &seg, &t, &distance_m));
  path_move_to (&path, vec2 (1, 1));
  ck_assert (!path_nearest (&path, vec2 (0, 0), &seg, &t, &distance_m));
  ck_assert (seg == 99 && t == -1 && distance_m == -1);
  path_clear (&path);
}
END_TEST

START_TEST (what_is_not_finite_has_no_nearest_place)
{
  Path path = { 0 };
  size_t seg;
  double t, distance_m;
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (10, 0));
  ck_assert (!path_nearest (&path, vec2 (NAN, 0), &seg, &t, &distance_m));
  ck_assert (!path_nearest (&path, vec2 (0, INFINITY), &seg, &t, &distance_m));
  path_cubic_to (&path, vec2 (NAN, 0), vec2 (1, 1), vec2 (2, 2));
  ck_assert (!path_nearest (&path, vec2 (0, 0), &seg, &t, &distance_m));
  path_clear (&path);
}
END_TEST

START_TEST (a_curve_without_length_is_a_point)
{
  Path path = { 0 };
  Vec2 at = vec2 (3, 4);
  path_move_to (&path, at);
  path_cubic_to (&path, at, at, at);
  size_t seg;
  double t, distance_m;
  ck_assert (path_nearest (&path, vec2 (0, 0), &seg, &t, &distance_m));
  ck_assert_double_eq (distance_m, 5);
  path_clear (&path);
}
END_TEST

START_TEST (enormous_coordinates_are_answered_at_once)
{
  const double sizes[] = { 1e6, 1e100, 1e200, 1e308 };
  for (size_t i = 0; i < 4; i++)
    {
      double size = sizes[i];
      Path path = { 0 };
      path_move_to (&path, vec2 (-size, 0));
      path_cubic_to (&path, vec2 (-size, size), vec2 (size, -size), vec2 (size, size));
      size_t seg = 0;
      double t = 0, distance_m = 0;
      if (path_nearest (&path, vec2 (size / 3, size / 7), &seg, &t, &distance_m))
        ck_assert (isfinite (distance_m) && t >= 0 && t <= 1);
      path_clear (&path);
    }
}
END_TEST

START_TEST (an_end_a_rounding_beside_the_start_is_no_node_of_its_own)
{
  Path path = { 0 }, back = { 0 };
  path_move_to (&path, vec2 (0.1, 0.2));
  path_line_to (&path, vec2 (10, 0));
  path_cubic_to (&path, vec2 (10, 5), vec2 (5, 10), vec2 (0.1 + 1e-12, 0.2));
  path_close (&path);
  PathNode *nodes;
  size_t n = path_nodes (&path, &nodes);
  ck_assert_uint_eq (n, 2);
  path_add_nodes (&back, nodes, n);
  ck_assert_uint_eq (back.n_segs, 4);
  assert_near (back.segs[2].to, vec2 (0.1, 0.2), 0);
  free (nodes);
  path_clear (&path);
  path_clear (&back);
}
END_TEST

START_TEST (drawing_on_after_a_close_starts_a_subpath_there)
{
  Path path = { 0 }, back = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (10, 0));
  path_line_to (&path, vec2 (10, 10));
  path_close (&path);
  path_line_to (&path, vec2 (-5, -5));
  path_close (&path);
  PathNode *nodes;
  size_t n = path_nodes (&path, &nodes);
  ck_assert_uint_eq (n, 5);
  ck_assert (nodes[3].starts && nodes[3].is_closed);
  assert_near (nodes[3].at, vec2 (0, 0), 0);
  path_add_nodes (&back, nodes, n);
  ck_assert_uint_eq (back.n_segs, path.n_segs + 1); /* a move of its own */
  ck_assert_int_eq (back.segs[4].kind, SEG_MOVE);
  free (nodes);
  path_clear (&path);
  path_clear (&back);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("geometry: nodes");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_rectangle_has_four_nodes_and_no_handles);
  tcase_add_test (known, an_ellipse_has_eight_smooth_nodes_with_handles_along_its_tangents);
  tcase_add_test (known, handles_are_smooth_to_one_degree);
  tcase_add_test (known, a_node_tells_how_the_path_leaves_it);
  tcase_add_test (known, a_straight_node_given_a_handle_becomes_a_curve);
  tcase_add_test (known, the_nearest_place_of_a_parabola_is_where_calculus_puts_it);
  tcase_add_test (known, the_nearest_place_may_lie_on_the_line_of_the_close);
  tcase_add_test (known, from_the_middle_of_a_circle_every_place_is_a_radius_away);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, nodes_there_and_back_are_the_same_path);
  tcase_add_test (invariants, the_nearest_place_beats_every_one_of_ten_thousand);
  tcase_add_test (invariants, a_point_of_the_curve_is_found_on_it);
  tcase_add_test (invariants, both_halves_of_a_segment_lie_on_it);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, nothing_has_no_nodes_and_no_nearest_place);
  tcase_add_test (edges, what_is_not_finite_has_no_nearest_place);
  tcase_add_test (edges, a_curve_without_length_is_a_point);
  tcase_add_test (edges, enormous_coordinates_are_answered_at_once);
  tcase_add_test (edges, an_end_a_rounding_beside_the_start_is_no_node_of_its_own);
  tcase_add_test (edges, drawing_on_after_a_close_starts_a_subpath_there);
  suite_add_tcase (suite, edges);
  return suite;
}
