// SPDX-License-Identifier: GPL-3.0-or-later
/* Curves through strokes drawn by hand: shapes known beforehand found again, corners, seams, and strokes that are hardly any. */
#include "geometry.h"
#include "suite.h"

#include <stdint.h>
#include <stdlib.h>

/* Above this a turn of the stroke is a corner, as in drawing: 45 degrees. */
#define CORNER_RAD (PI / 4)
#define SMOOTH_RAD (PI / 180)
/* What path_fit's own measure promises. */
#define NEAREST_M 1e-9
/* Rounding of what is added up over a few hundred points of some metres, and passed through twelve rounds of equations. */
#define TURNED_M 1e-6
#define MOST_POINTS 2000
#define N_RANDOM 200

typedef struct
{
  Vec2 points[MOST_POINTS];
  size_t n;
} Drawn;

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (double)(*state >> 11) * 0x1p-53;
}

/* A shake of a hand: up to `most_m` either way across and up. */
static Vec2
shaken (Vec2 at, double most_m, uint64_t *state)
{
  double x = at.x + most_m * (2 * next_random (state) - 1);
  return vec2 (x, at.y + most_m * (2 * next_random (state) - 1));
}

/* An ellipse about the origin from angle 0 on, `rounds` times round, the last point not reached. */
static Drawn
draw_ellipse (size_t n, double rx, double ry, double rounds)
{
  Drawn drawn = { .n = n };
  for (size_t i = 0; i < n; i++)
    {
      double angle = 2 * PI * rounds * (double)i / (double)n;
      drawn.points[i] = vec2 (rx * cos (angle), ry * sin (angle));
    }
  return drawn;
}

/* A square with sides of 40 m about the origin, 40 points a side, beginning `first` points along its foot. */
static Drawn
draw_square (size_t first)
{
  static const Vec2 corners[] = { { -20, -20 }, { 20, -20 }, { 20, 20 }, { -20, 20 } };
  Drawn drawn = { .n = 160 };
  for (size_t i = 0; i < drawn.n; i++)
    {
      size_t k = (first + i) % drawn.n;
      drawn.points[i] = vec2_lerp (corners[k / 40], corners[(k / 40 + 1) % 4], (double)(k % 40) / 40);
    }
  return drawn;
}

/* A bay-and-headland shape about 60 m across. */
static Drawn
draw_bay (size_t n, double shake_m, uint64_t *state)
{
  Drawn drawn = { .n = n };
  for (size_t i = 0; i < n; i++)
    {
      double angle = 2 * PI * (double)i / (double)n, radius = 22 + 5 * sin (3 * angle + 1) + 3 * sin (5 * angle);
      drawn.points[i] = shaken (vec2 (radius * cos (angle), radius * sin (angle)), shake_m, state);
    }
  return drawn;
}

/* An open stroke that wanders: steps of 10 cm, its direction and its bend random. */
static Drawn
draw_wander (size_t n, uint64_t *state)
{
  Drawn drawn = { .n = n };
  Vec2 at = vec2 (0, 0);
  double direction_rad = 2 * PI * next_random (state), bend_rad = 0;
  for (size_t i = 0; i < n; i++)
    {
      bend_rad = 0.98 * bend_rad + 0.01 * (next_random (state) - 0.5);
      direction_rad += bend_rad;
      at = vec2_add (at, vec2 (0.1 * cos (direction_rad), 0.1 * sin (direction_rad)));
      drawn.points[i] = at;
    }
  return drawn;
}

static Path
fit (const Drawn *drawn, bool closed, double tolerance_m, double *largest_m)
{
  Path path = { 0 };
  ck_assert (path_fit (drawn->points, drawn->n, closed, tolerance_m, CORNER_RAD, &path, largest_m));
  ck_assert (path_is_finite (&path));
  return path;
}

/* Distance of the drawn point that is furthest from the path, over all of them. */
static double
furthest (const Path *path, const Drawn *drawn)
{
  double most_m = 0;
  for (size_t i = 0; i < drawn->n; i++)
    {
      size_t seg;
      double t, distance_m;
      ck_assert (path_nearest (path, drawn->points[i], &seg, &t, &distance_m));
      most_m = fmax (most_m, distance_m);
    }
  return most_m;
}

/* How far the path is from an ellipse about the origin, to first order: at its most, and the root mean square. */
static double
off_ellipse (const Path *path, double rx, double ry, double *mean_m)
{
  Outline *outline = path_flatten (path, false, 1e-4);
  double most_m = 0, sum_m2 = 0;
  for (size_t i = 0; i < outline->n_points; i++)
    {
      Vec2 p = outline->points[i], slope = vec2 (2 * p.x / (rx * rx), 2 * p.y / (ry * ry));
      double off_m = fabs (p.x * p.x / (rx * rx) + p.y * p.y / (ry * ry) - 1) / vec2_length (slope);
      most_m = fmax (most_m, off_m);
      sum_m2 += off_m * off_m;
    }
  if (mean_m != NULL)
    *mean_m = sqrt (sum_m2 / (double)outline->n_points);
  outline_free (outline);
  return most_m;
}

/* Sharpest turn at any node of a closed path, its seam among them. */
static double
sharpest_turn (const Path *path)
{
  PathNode *nodes;
  size_t n = path_nodes (path, &nodes);
  double most_rad = 0;
  for (size_t i = 0; i < n; i++)
    {
      const PathNode *before = &nodes[(i + n - 1) % n], *node = &nodes[i], *behind = &nodes[(i + 1) % n];
      Vec2 in = vec2_distance (node->at, node->in) > 0 ? vec2_sub (node->at, node->in) : vec2_sub (node->at, before->at);
      Vec2 out = vec2_distance (node->at, node->out) > 0 ? vec2_sub (node->out, node->at) : vec2_sub (behind->at, node->at);
      most_rad = fmax (most_rad, fabs (atan2 (vec2_cross (in, out), vec2_dot (in, out))));
    }
  free (nodes);
  return most_rad;
}

static size_t
count_nodes (const Path *path)
{
  PathNode *nodes;
  size_t n = path_nodes (path, &nodes);
  free (nodes);
  return n;
}

static double
area_of (const Path *path)
{
  Outline *outline = path_flatten (path, false, 1e-3);
  double area_m2 = 0;
  ck_assert (outline_measure (outline, &area_m2, NULL));
  outline_free (outline);
  return area_m2;
}

/* ---- known answers ---- */

START_TEST (a_sampled_circle_is_found_again_in_four_curves)
{
  Drawn drawn = draw_ellipse (200, 20, 20, 1);
  double largest_m;
  Path path = fit (&drawn, true, 0.1, &largest_m);
  ck_assert_uint_eq (count_nodes (&path), 4);
  ck_assert_double_le (largest_m, 0.1);
  ck_assert_double_le (off_ellipse (&path, 20, 20, NULL), 0.1);
  ck_assert_double_eq_tol (area_of (&path), PI * 400, 0.002 * PI * 400);
  path_clear (&path);
}
END_TEST

START_TEST (a_sampled_ellipse_is_found_again_in_few_curves)
{
  Drawn drawn = draw_ellipse (300, 30, 12, 1);
  double largest_m;
  Path path = fit (&drawn, true, 0.05, &largest_m);
  /* Two for a quarter. */
  ck_assert_uint_le (count_nodes (&path), 8);
  ck_assert_double_le (largest_m, 0.05);
  ck_assert_double_le (off_ellipse (&path, 30, 12, NULL), 0.05);
  path_clear (&path);
}
END_TEST

START_TEST (a_sampled_cubic_is_one_curve_again)
{
  Drawn drawn = { .n = 200 };
  for (size_t i = 0; i < drawn.n; i++)
    {
      double t = (double)i / 199, s = 1 - t;
      drawn.points[i] = vec2 (120 * s * t * t + 40 * t * t * t, 120 * s * s * t + 90 * s * t * t);
    }
  double largest_m;
  Path path = fit (&drawn, false, 0.05, &largest_m);
  ck_assert_uint_eq (path.n_segs, 2);
  ck_assert_int_eq (path.segs[1].kind, SEG_CUBIC);
  ck_assert_double_le (largest_m, 0.05);
  ck_assert_double_le (furthest (&path, &drawn), 0.05);
  path_clear (&path);
}
END_TEST

START_TEST (a_square_keeps_its_four_corners_wherever_it_begins)
{
  for (size_t first = 0; first < 160; first += 7)
    {
      Drawn drawn = draw_square (first);
      double largest_m;
      Path path = fit (&drawn, true, 0.1, &largest_m);
      PathNode *nodes;
      size_t n = path_nodes (&path, &nodes);
      ck_assert_uint_eq (n, 4);
      for (size_t i = 0; i < n; i++)
        {
          ck_assert_double_eq_tol (fabs (nodes[i].at.x), 20, NEAREST_M);
          ck_assert_double_eq_tol (fabs (nodes[i].at.y), 20, NEAREST_M);
        }
      ck_assert_double_le (largest_m, NEAREST_M);
      ck_assert_double_eq_tol (area_of (&path), 1600, 1e-6);
      free (nodes);
      path_clear (&path);
    }
}
END_TEST

START_TEST (a_shaky_square_keeps_its_four_corners)
{
  uint64_t state = 88172645463325252u;
  for (int i = 0; i < 20; i++)
    {
      Drawn drawn = draw_square (17);
      for (size_t k = 0; k < drawn.n; k++)
        drawn.points[k] = shaken (drawn.points[k], 0.1, &state);
      Path path = fit (&drawn, true, 0.3, NULL);
      ck_assert_uint_eq (count_nodes (&path), 4);
      /* A shake of 10 cm along 160 m. */
      ck_assert_double_eq_tol (area_of (&path), 1600, 16);
      path_clear (&path);
    }
}
END_TEST

START_TEST (a_shaking_hand_averages_out)
{
  uint64_t state = 362436069u;
  double sum_m = 0;
  for (int i = 0; i < 20; i++)
    {
      Drawn drawn = draw_ellipse (400, 20, 20, 1);
      for (size_t k = 0; k < drawn.n; k++)
        drawn.points[k] = shaken (drawn.points[k], 0.3, &state);
      double largest_m;
      Path path = fit (&drawn, true, 0.6, &largest_m);
      ck_assert_uint_le (count_nodes (&path), 8);
      ck_assert_double_le (largest_m, 0.6);
      double mean_m;
      off_ellipse (&path, 20, 20, &mean_m);
      sum_m += mean_m;
      path_clear (&path);
    }
  /* The shake has a root mean square of 0.3 m / sqrt 3 in every direction; half of it at most is left. */
  ck_assert_double_le (sum_m / 20, 0.5 * 0.3 / sqrt (3));
}
END_TEST

/* ---- invariants ---- */

START_TEST (the_largest_distance_is_that_of_the_furthest_point)
{
  uint64_t state = 521288629u;
  for (int i = 0; i < 40; i++)
    {
      Drawn drawn = i % 2 == 0 ? draw_bay (600, 0, &state) : draw_wander (600, &state);
      double tolerance_m = 0.05 + 0.3 * next_random (&state), largest_m;
      Path path = fit (&drawn, i % 2 == 0, tolerance_m, &largest_m);
      double furthest_m = furthest (&path, &drawn);
      ck_assert_double_le (largest_m, tolerance_m);
      ck_assert_double_ge (largest_m, furthest_m - NEAREST_M);
      /* A wandering stroke may come by itself again; a bay does not. */
      if (i % 2 == 0)
        ck_assert_double_le (largest_m, furthest_m + NEAREST_M);
      path_clear (&path);
    }
}
END_TEST

START_TEST (a_finer_tolerance_takes_more_curves)
{
  uint64_t state = 7u;
  Drawn drawn = draw_bay (1000, 0, &state);
  size_t before = 0;
  for (double tolerance_m = 1; tolerance_m > 0.001; tolerance_m /= 4)
    {
      Path path = fit (&drawn, true, tolerance_m, NULL);
      ck_assert_uint_ge (count_nodes (&path) + 1, before);
      before = count_nodes (&path);
      ck_assert_double_le (furthest (&path, &drawn), tolerance_m + NEAREST_M);
      path_clear (&path);
    }
  ck_assert_uint_ge (before, 20);
  ck_assert_uint_le (before, 80);
}
END_TEST

START_TEST (a_closed_stroke_is_smooth_all_round_its_seam_too)
{
  uint64_t state = 1234567u;
  for (int i = 0; i < 20; i++)
    {
      Drawn drawn = draw_bay (800, 0.05, &state);
      Path path = fit (&drawn, true, 0.2, NULL);
      ck_assert_int_eq (path.segs[path.n_segs - 1].kind, SEG_CLOSE);
      ck_assert_double_lt (sharpest_turn (&path), SMOOTH_RAD);
      path_clear (&path);
    }
}
END_TEST

START_TEST (a_gap_is_led_together_smoothly)
{
  Drawn drawn = draw_ellipse (300, 20, 20, 0.95);
  double largest_m;
  Path path = fit (&drawn, true, 0.2, &largest_m);
  ck_assert_double_lt (sharpest_turn (&path), SMOOTH_RAD);
  ck_assert_double_le (furthest (&path, &drawn), 0.2 + NEAREST_M);
  ck_assert_double_eq_tol (area_of (&path), PI * 400, 10);
  path_clear (&path);
}
END_TEST

/* A round and a bit of a spiral that ends beside its start, and of one that crosses it. */
START_TEST (what_runs_on_over_the_start_is_cut_off)
{
  for (int crosses = 0; crosses <= 1; crosses++)
    {
      Drawn drawn = draw_ellipse (300, 1, 1, 1.08);
      for (size_t i = 0; i < drawn.n; i++)
        {
          double along = (double)i / (double)drawn.n, radius_m = crosses ? 20 + 2 * cos (1.08 * PI * along) : 20 - 1.5 * along;
          drawn.points[i] = vec2_scale (drawn.points[i], radius_m);
        }
      double largest_m;
      Path path = fit (&drawn, true, 0.2, &largest_m);
      ck_assert_double_le (largest_m, 0.2);
      ck_assert_double_lt (sharpest_turn (&path), SMOOTH_RAD);
      /* Once round and no loop: the length of the outline is that of a circle of its area, nearly. */
      Outline *outline = path_flatten (&path, false, 1e-3);
      double length_m = 0;
      for (size_t i = 0; i < outline->n_points; i++)
        length_m += vec2_distance (outline->points[i], outline->points[(i + 1) % outline->n_points]);
      outline_free (outline);
      ck_assert_double_eq_tol (length_m, 2 * sqrt (PI * area_of (&path)), 0.01 * length_m);
      path_clear (&path);
    }
}
END_TEST

/* A square begun 3 m before its corner and ended 3 m beyond it. */
START_TEST (ends_that_cross_are_cut_where_they_cross)
{
  static const Vec2 corners[] = { { -3, 0 }, { 40, 0 }, { 40, 40 }, { 0, 40 }, { 0, -3 } };
  Drawn drawn = { .n = 200 };
  for (size_t i = 0; i < drawn.n; i++)
    drawn.points[i] = vec2_lerp (corners[i / 50], corners[i / 50 + 1], (double)(i % 50) / 49);
  Path path = fit (&drawn, true, 0.1, NULL);
  size_t seg;
  double t, distance_m;
  ck_assert_uint_eq (count_nodes (&path), 4);
  ck_assert_double_eq_tol (area_of (&path), 1600, 1e-6);
  ck_assert (path_nearest (&path, vec2 (0, 0), &seg, &t, &distance_m));
  ck_assert_double_le (distance_m, NEAREST_M);
  path_clear (&path);
}
END_TEST

/* Fits the stroke and its image, which must have the image of the curve. */
static void
assert_goes_with (const Drawn *drawn, bool closed, double tolerance_m, Affine change)
{
  Path path = fit (drawn, closed, tolerance_m, NULL);
  path_transform (&path, change);
  Drawn image = { .n = drawn->n };
  for (size_t i = 0; i < drawn->n; i++)
    image.points[i] = affine_apply (change, drawn->points[i]);
  Path fitted = fit (&image, closed, tolerance_m, NULL);
  ck_assert_uint_eq (path.n_segs, fitted.n_segs);
  for (size_t i = 0; i < path.n_segs; i++)
    {
      ck_assert_int_eq (path.segs[i].kind, fitted.segs[i].kind);
      ck_assert_double_le (vec2_distance (path.segs[i].to, fitted.segs[i].to), TURNED_M);
      if (path.segs[i].kind != SEG_CUBIC)
        continue;
      ck_assert_double_le (vec2_distance (path.segs[i].c1, fitted.segs[i].c1), TURNED_M);
      ck_assert_double_le (vec2_distance (path.segs[i].c2, fitted.segs[i].c2), TURNED_M);
    }
  path_clear (&path);
  path_clear (&fitted);
}

START_TEST (the_curve_turns_and_mirrors_with_the_stroke)
{
  uint64_t state = 42u;
  for (int i = 0; i < 20; i++)
    {
      Affine turn = affine_then (affine_rotation (2 * PI * next_random (&state)), affine_translation (100, -30));
      Drawn wander = draw_wander (400, &state), bay = draw_bay (400, 0.05, &state);
      assert_goes_with (&wander, false, 0.1, turn);
      assert_goes_with (&wander, false, 0.1, affine_scaling (-1, 1));
      assert_goes_with (&bay, true, 0.15, turn);
      assert_goes_with (&bay, true, 0.15, affine_scaling (1, -1));
    }
}
END_TEST

START_TEST (a_fitted_stroke_is_appended_to_the_path)
{
  Drawn drawn = draw_ellipse (100, 10, 10, 1);
  Path path = { 0 };
  path_move_to (&path, vec2 (1, 2));
  ck_assert (path_fit (drawn.points, drawn.n, true, 0.1, CORNER_RAD, &path, NULL));
  ck_assert (path.segs[0].to.x == 1 && path.segs[0].to.y == 2);
  ck_assert_uint_gt (path.n_segs, 4);
  path_clear (&path);
}
END_TEST

/* ---- edges ---- */

START_TEST (two_points_are_a_line)
{
  Drawn drawn = { .points = { { 1, 2 }, { 4, 6 } }, .n = 2 };
  double largest_m;
  Path path = fit (&drawn, false, 0.1, &largest_m);
  ck_assert_uint_eq (path.n_segs, 2);
  ck_assert_int_eq (path.segs[1].kind, SEG_LINE);
  ck_assert_double_le (largest_m, NEAREST_M);
  path_clear (&path);
  path = fit (&drawn, true, 0.1, &largest_m);
  ck_assert_double_le (furthest (&path, &drawn), 0.1);
  path_clear (&path);
}
END_TEST

START_TEST (points_in_one_line_are_one_line)
{
  Drawn drawn = { .n = 300 };
  for (size_t i = 0; i < drawn.n; i++)
    drawn.points[i] = vec2 (3 * (double)i / 10, 4 * (double)i / 10);
  Path path = fit (&drawn, false, 0.1, NULL);
  ck_assert_uint_eq (path.n_segs, 2);
  ck_assert_int_eq (path.segs[1].kind, SEG_LINE);
  path_clear (&path);
  path = fit (&drawn, true, 0.1, NULL);
  ck_assert_double_le (furthest (&path, &drawn), 0.1);
  path_clear (&path);
}
END_TEST

START_TEST (repeated_points_change_nothing)
{
  Drawn once = draw_ellipse (200, 20, 20, 1), often = { .n = 800 };
  for (size_t i = 0; i < often.n; i++)
    often.points[i] = once.points[i / 4];
  double once_m, often_m;
  Path a = fit (&once, true, 0.1, &once_m), b = fit (&often, true, 0.1, &often_m);
  ck_assert (path_equal (&a, &b));
  ck_assert_double_eq (once_m, often_m);
  path_clear (&a);
  path_clear (&b);
}
END_TEST

static void
assert_refused (const Vec2 *points, size_t n_points, double tolerance_m, double corner_rad)
{
  for (int closed = 0; closed <= 1; closed++)
    {
      Path path = { 0 };
      double largest_m = 7;
      ck_assert (!path_fit (points, n_points, closed, tolerance_m, corner_rad, &path, &largest_m));
      ck_assert_uint_eq (path.n_segs, 0);
      ck_assert_double_eq (largest_m, 7);
    }
}

START_TEST (what_has_no_extent_or_is_no_number_is_refused)
{
  const Vec2 good[] = { { 0, 0 }, { 10, 0 }, { 10, 10 } }, same[] = { { 3, 4 }, { 3, 4 }, { 3, 4 } };
  assert_refused (NULL, 0, 0.1, CORNER_RAD);
  assert_refused (good, 1, 0.1, CORNER_RAD);
  assert_refused (same, 3, 0.1, CORNER_RAD);
  assert_refused (good, 3, 0, CORNER_RAD);
  assert_refused (good, 3, -1, CORNER_RAD);
  assert_refused (good, 3, NAN, CORNER_RAD);
  assert_refused (good, 3, INFINITY, CORNER_RAD);
  assert_refused (good, 3, 0.1, NAN);
  const double bad[] = { NAN, INFINITY, -INFINITY, 1.1e9, -1e300 };
  for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
    {
      assert_refused ((Vec2[]){ { 0, 0 }, { bad[i], 0 }, { 10, 10 } }, 3, 0.1, CORNER_RAD);
      assert_refused ((Vec2[]){ { 0, 0 }, { 1, 1 }, { 10, bad[i] } }, 3, 0.1, CORNER_RAD);
    }
}
END_TEST

/* Points from a few places, so that they repeat, double back and cross; sizes, tolerances and corners of every order. */
START_TEST (any_stroke_is_fitted_within_the_tolerance)
{
  uint64_t state = 987654321u;
  for (int i = 0; i < 20 * N_RANDOM; i++)
    {
      Drawn drawn = { .n = 2 + (size_t)(30 * next_random (&state)) };
      double size_m = pow (10, 12 * next_random (&state) - 4), tolerance_m = pow (10, 13 * next_random (&state) - 9);
      double places = 2 + floor (10 * next_random (&state));
      bool closed = next_random (&state) < 0.5;
      for (size_t k = 0; k < drawn.n; k++)
        {
          double x = floor (places * next_random (&state)) / places - 0.5;
          drawn.points[k] = vec2 (size_m * x, size_m * (floor (places * next_random (&state)) / places - 0.5));
        }
      Path path = { 0 };
      double largest_m = 0, corner_rad = 4 * next_random (&state) - 0.2;
      if (!path_fit (drawn.points, drawn.n, closed, tolerance_m, corner_rad, &path, &largest_m))
        continue;
      ck_assert (path_is_finite (&path));
      /* Rounding at this size on top. */
      ck_assert_double_le (largest_m, tolerance_m + 1e-9 + 1e-12 * size_m);
      if (!closed)
        ck_assert_double_le (furthest (&path, &drawn), largest_m + 1e-9 + 1e-12 * size_m);
      path_clear (&path);
    }
}
END_TEST

START_TEST (a_hundred_thousand_points_are_fitted)
{
  enum
  {
    N = 100000
  };
  Vec2 *points = calloc (N, sizeof *points);
  uint64_t state = 5u;
  for (int shape = 0; shape < 3; shape++)
    {
      for (size_t i = 0; i < N; i++)
        {
          double angle = 2 * PI * (double)i / N, x = 50 * next_random (&state);
          points[i] = shape == 0   ? vec2 (20 * cos (angle), 20 * sin (angle))
                      : shape == 1 ? vec2 (x, 50 * next_random (&state))
                                   : vec2 (0.01 * (double)(i % 2), 1e-3 * (double)i);
        }
      Path path = { 0 };
      double largest_m = INFINITY;
      ck_assert (path_fit (points, N, true, 0.05, CORNER_RAD, &path, &largest_m));
      ck_assert (path_is_finite (&path));
      ck_assert_double_le (largest_m, 0.05 + NEAREST_M);
      if (shape == 0)
        ck_assert_uint_le (count_nodes (&path), 8);
      path_clear (&path);
    }
  free (points);
}
END_TEST

/* ---- regressions ---- */

/* 100 m of stroke at 10 cm, twenty times: split alone it takes 286 curves, joined again where one does for two 253 (measured). */
START_TEST (two_curves_become_one_where_one_will_do)
{
  uint64_t state = 521288629u;
  size_t n_curves = 0;
  for (int i = 0; i < 20; i++)
    {
      Drawn drawn = draw_wander (1000, &state);
      Path path = fit (&drawn, false, 0.1, NULL);
      n_curves += path.n_segs - 1;
      path_clear (&path);
    }
  ck_assert_uint_le (n_curves, 265);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("geometry-fit");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_sampled_circle_is_found_again_in_four_curves);
  tcase_add_test (known, a_sampled_ellipse_is_found_again_in_few_curves);
  tcase_add_test (known, a_sampled_cubic_is_one_curve_again);
  tcase_add_test (known, a_square_keeps_its_four_corners_wherever_it_begins);
  tcase_add_test (known, a_shaky_square_keeps_its_four_corners);
  tcase_add_test (known, a_shaking_hand_averages_out);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, the_largest_distance_is_that_of_the_furthest_point);
  tcase_add_test (invariants, a_finer_tolerance_takes_more_curves);
  tcase_add_test (invariants, a_closed_stroke_is_smooth_all_round_its_seam_too);
  tcase_add_test (invariants, a_gap_is_led_together_smoothly);
  tcase_add_test (invariants, what_runs_on_over_the_start_is_cut_off);
  tcase_add_test (invariants, ends_that_cross_are_cut_where_they_cross);
  tcase_add_test (invariants, the_curve_turns_and_mirrors_with_the_stroke);
  tcase_add_test (invariants, a_fitted_stroke_is_appended_to_the_path);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_set_timeout (edges, 50);
  tcase_add_test (edges, two_points_are_a_line);
  tcase_add_test (edges, points_in_one_line_are_one_line);
  tcase_add_test (edges, repeated_points_change_nothing);
  tcase_add_test (edges, what_has_no_extent_or_is_no_number_is_refused);
  tcase_add_test (edges, any_stroke_is_fitted_within_the_tolerance);
  tcase_add_test (edges, a_hundred_thousand_points_are_fitted);
  suite_add_tcase (suite, edges);
  TCase *regressions = tcase_create ("regressions");
  tcase_add_test (regressions, two_curves_become_one_where_one_will_do);
  suite_add_tcase (suite, regressions);
  return suite;
}
