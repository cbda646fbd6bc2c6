// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the terrain: a surface through measured heights, and the heights a hole shares between its edits. */
#include "hole.h"
#include "suite.h"
#include "units.h"

#define MM 0.001

/* ---- known answers ---- */

START_TEST (a_plane_comes_back_as_that_plane_between_its_heights)
{
  /* Duchon 1977: the spline reproduces polynomials of degree one. */
  SpotHeight heights[12];
  for (int i = 0; i < 12; i++)
    {
      Vec2 at = vec2 (37.0 * (i % 4) + i, 55.0 * (i / 4) - 2 * i);
      heights[i] = (SpotHeight){ at, 3 + 0.04 * at.x - 0.025 * at.y };
    }
  g_autoptr (Terrain) terrain = terrain_new (heights, 12);
  for (double x = 15; x < 90; x += 13)
    for (double y = 5; y < 70; y += 11)
      {
        ck_assert_double_eq_tol (terrain_height (terrain, vec2 (x, y)), 3 + 0.04 * x - 0.025 * y, 1e-9);
        Vec2 slope = terrain_slope (terrain, vec2 (x, y));
        ck_assert_double_eq_tol (slope.x, 0.04, 1e-9);
        ck_assert_double_eq_tol (slope.y, -0.025, 1e-9);
      }
}
END_TEST

START_TEST (the_spline_of_a_square_with_opposite_corners_raised_is_the_published_kernel)
{
  /* Weights +w, -w, +w, -w on the corners hold no plane, so the spline is sum w r^2 ln r: Duchon's kernel itself, worked out here by hand. */
  const Vec2 corners[] = { { 0, 0 }, { 100, 0 }, { 100, 100 }, { 0, 100 } };
  SpotHeight heights[4];
  for (int i = 0; i < 4; i++)
    heights[i] = (SpotHeight){ corners[i], i % 2 == 0 ? 2 : -2 };
  g_autoptr (Terrain) terrain = terrain_new (heights, 4);
  Vec2 places[] = { { 50, 50 }, { 30, 20 }, { 80, 65 } };
  for (int k = 0; k < 3; k++)
    {
      double sum = 0, corner = 0;
      for (int i = 0; i < 4; i++)
        {
          double r = vec2_distance (places[k], corners[i]), sign = i % 2 == 0 ? 1 : -1;
          sum += r > 0 ? sign * r * r * log (r) : 0;
          double side = vec2_distance (corners[0], corners[i]);
          corner += side > 0 ? sign * side * side * log (side) : 0;
        }
      ck_assert_double_eq_tol (terrain_height (terrain, places[k]), 2 * sum / corner, 1e-9);
    }
}
END_TEST

/* ---- invariants ---- */

static void
make_hilly (SpotHeight *heights, int n, unsigned seed)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  for (int i = 0; i < n; i++)
    {
      Vec2 at = vec2 (g_rand_double_range (random, -60, 80), g_rand_double_range (random, -20, 400));
      heights[i] = (SpotHeight){ at, 6 * sin (at.x / 40) + 0.03 * at.y + g_rand_double_range (random, -1, 1) };
    }
}

START_TEST (the_surface_meets_every_height)
{
  SpotHeight heights[60];
  make_hilly (heights, 60, 7);
  g_autoptr (Terrain) terrain = terrain_new (heights, 60);
  for (int i = 0; i < 60; i++)
    ck_assert_double_eq_tol (terrain_height (terrain, heights[i].at), heights[i].height_m, MM);
}
END_TEST

START_TEST (the_slope_is_how_the_height_changes)
{
  SpotHeight heights[40];
  make_hilly (heights, 40, 11);
  g_autoptr (Terrain) terrain = terrain_new (heights, 40);
  for (double x = -90; x <= 110; x += 23)
    for (double y = -40; y <= 430; y += 31)
      {
        const double step = 1e-4;
        Vec2 slope = terrain_slope (terrain, vec2 (x, y));
        double rise_x = terrain_height (terrain, vec2 (x + step, y)) - terrain_height (terrain, vec2 (x - step, y));
        double rise_y = terrain_height (terrain, vec2 (x, y + step)) - terrain_height (terrain, vec2 (x, y - step));
        ck_assert_double_eq_tol (slope.x, rise_x / (2 * step), 1e-5);
        ck_assert_double_eq_tol (slope.y, rise_y / (2 * step), 1e-5);
      }
}
END_TEST

START_TEST (a_turned_and_moved_hole_has_the_turned_and_moved_surface)
{
  SpotHeight heights[30], turned[30];
  make_hilly (heights, 30, 3);
  Affine move = affine_then (affine_rotation (0.7), affine_translation (500, -300));
  for (int i = 0; i < 30; i++)
    turned[i] = (SpotHeight){ affine_apply (move, heights[i].at), heights[i].height_m };
  g_autoptr (Terrain) a = terrain_new (heights, 30);
  g_autoptr (Terrain) b = terrain_new (turned, 30);
  for (double y = -50; y < 450; y += 17)
    {
      Vec2 at = vec2 (y / 9 - 10, y);
      ck_assert_double_eq_tol (terrain_height (a, at), terrain_height (b, affine_apply (move, at)), 1e-7);
    }
}
END_TEST

START_TEST (beyond_the_heights_the_ground_goes_on_level)
{
  const SpotHeight heights[] = { { { 0, 0 }, 0 }, { { 100, 0 }, 10 }, { { 100, 100 }, 10 }, { { 0, 100 }, 0 } };
  g_autoptr (Terrain) terrain = terrain_new (heights, 4);
  ck_assert_double_eq_tol (terrain_height (terrain, vec2 (5000, 40)), 10, 1e-9);
  ck_assert_double_eq_tol (terrain_height (terrain, vec2 (-5000, 40)), 0, 1e-9);
  ck_assert_double_eq_tol (terrain_height (terrain, vec2 (50, -900)), 5, 1e-9);
  ck_assert_double_eq (terrain_slope (terrain, vec2 (5000, 5000)).x, 0);
}
END_TEST

/* ---- edges ---- */

START_TEST (without_heights_the_ground_is_level_at_nought)
{
  ck_assert_ptr_null (terrain_new (NULL, 0));
  SpotHeight lost = { { NAN, 0 }, 4 };
  ck_assert_ptr_null (terrain_new (&lost, 1));
  ck_assert_double_eq (terrain_height (NULL, vec2 (3, 4)), 0);
  ck_assert_double_eq (terrain_slope (NULL, vec2 (3, 4)).y, 0);
}
END_TEST

START_TEST (one_height_lifts_all_the_ground)
{
  SpotHeight one = { { 10, 10 }, 7 };
  g_autoptr (Terrain) terrain = terrain_new (&one, 1);
  ck_assert_double_eq_tol (terrain_height (terrain, vec2 (-40, 300)), 7, 1e-12);
}
END_TEST

START_TEST (heights_on_a_line_say_nothing_of_the_ground_across)
{
  SpotHeight heights[5];
  for (int i = 0; i < 5; i++)
    heights[i] = (SpotHeight){ { 30.0 * i, 40.0 * i }, 2.0 * i };
  g_autoptr (Terrain) terrain = terrain_new (heights, 5);
  ck_assert_double_eq_tol (terrain_height (terrain, vec2 (45, 60)), 3, 1e-9);
  ck_assert_double_eq_tol (terrain_height (terrain, vec2 (45 - 4, 60 + 3)), 3, 1e-9);
}
END_TEST

START_TEST (readings_of_one_place_are_their_mean)
{
  const SpotHeight heights[] = { { { 0, 0 }, 1 }, { { 0.01, 0 }, 2 }, { { 80, 0 }, 5 }, { { 0, 80 }, 5 } };
  g_autoptr (Terrain) terrain = terrain_new (heights, 4);
  ck_assert_double_eq_tol (terrain_height (terrain, vec2 (0, 0)), 1.5, 1e-9);
}
END_TEST

START_TEST (thousands_of_heights_give_a_surface_that_stays_near_all_of_them)
{
  enum
  {
    N = 3000
  };
  g_autofree SpotHeight *heights = g_new (SpotHeight, N);
  g_autoptr (GRand) random = g_rand_new_with_seed (5);
  for (int i = 0; i < N; i++)
    {
      Vec2 at = vec2 (g_rand_double_range (random, 0, 150), g_rand_double_range (random, 0, 500));
      heights[i] = (SpotHeight){ at, 5 * sin (at.x / 50) * cos (at.y / 90) };
    }
  g_autoptr (Terrain) terrain = terrain_new (heights, N);
  for (int i = 0; i < N; i++)
    ck_assert_double_eq_tol (terrain_height (terrain, heights[i].at), heights[i].height_m, 0.2);
}
END_TEST

START_TEST (cells_have_the_heights_and_slopes_of_their_corners)
{
  SpotHeight heights[30];
  make_hilly (heights, 30, 5);
  g_autoptr (Terrain) terrain = terrain_new (heights, 30);
  for (int again = 0; again < 2; again++)
    for (int column = -9; column < 40; column += 3)
      for (int row = -9; row < 80; row += 2)
        {
          TerrainNode corners[4];
          terrain_cell (terrain, column, row, corners);
          for (int k = 0; k < 4; k++)
            {
              Vec2 at = vec2 ((column + (k & 1)) * TERRAIN_NODE_M, (row + (k >> 1)) * TERRAIN_NODE_M);
              Vec2 slope = terrain_slope (terrain, at);
              ck_assert_double_eq (corners[k].height_m, terrain_height (terrain, at));
              ck_assert_double_eq (corners[k].slope.x, slope.x);
              ck_assert_double_eq (corners[k].slope.y, slope.y);
            }
        }
}
END_TEST

START_TEST (more_cells_than_are_kept_are_answered_as_well)
{
  const SpotHeight heights[] = { { { 0, 0 }, 1 }, { { 100, 0 }, 3 }, { { 0, 100 }, 5 } };
  g_autoptr (Terrain) terrain = terrain_new (heights, 3);
  for (int column = -200; column < 200; column += 4)
    for (int row = -100; row < 100; row += 4)
      {
        TerrainNode corners[4];
        terrain_cell (terrain, column, row, corners);
        ck_assert_double_eq (corners[0].height_m,
                             terrain_height (terrain, vec2 (column * TERRAIN_NODE_M, row * TERRAIN_NODE_M)));
      }
}
END_TEST

static gpointer
ask_cells (gpointer terrain)
{
  double *sum = g_new0 (double, 1);
  for (int column = -20; column < 20; column++)
    for (int row = -20; row < 20; row++)
      {
        TerrainNode corners[4];
        terrain_cell (terrain, column, row, corners);
        *sum += corners[3].height_m;
      }
  return sum;
}

START_TEST (threads_that_ask_at_once_are_told_the_same)
{
  SpotHeight heights[30];
  make_hilly (heights, 30, 6);
  for (int round = 0; round < 20; round++)
    {
      g_autoptr (Terrain) terrain = terrain_new (heights, 30);
      GThread *threads[4];
      for (int i = 0; i < 4; i++)
        threads[i] = g_thread_new ("cells", ask_cells, terrain);
      double first = NAN;
      for (int i = 0; i < 4; i++)
        {
          g_autofree double *sum = g_thread_join (threads[i]);
          ck_assert (i == 0 || *sum == first);
          first = *sum;
        }
    }
}
END_TEST

/* ---- the hole's own terrain ---- */

static const Part *
point_part (Kind kind, double x, double y, double height_m)
{
  Part *part = part_new (kind);
  part->at = vec2 (x, y);
  part->height_m = height_m;
  return part_seal (part);
}

static Hole *
hole_of (const char *datum, const Part **parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  info.datum = g_strdup (datum);
  Hole *hole = hole_new (&info, parts, n_parts, NULL);
  hole_info_clear (&info);
  return hole;
}

START_TEST (heights_are_told_from_the_tee_in_use_unless_there_is_a_datum)
{
  for (int has_datum = 0; has_datum < 2; has_datum++)
    {
      const Part *parts[] = { point_part (KIND_TEE_MARKER, 0, 0, NAN), point_part (KIND_SPOT_HEIGHT, 0, 200, 8) };
      g_autoptr (Hole) hole = hole_of (has_datum ? "church step" : NULL, parts, 2);
      ck_assert_double_eq_tol (terrain_height (hole_terrain (hole), vec2 (0, 200)), 8, 1e-9);
      ck_assert_double_eq_tol (terrain_height (hole_terrain (hole), vec2 (0, 0)), has_datum ? 8 : 0, 1e-9);
    }
}
END_TEST

START_TEST (a_hole_without_spot_heights_is_level)
{
  const Part *parts[] = { point_part (KIND_TEE_MARKER, 0, 0, NAN), point_part (KIND_SPOT_HEIGHT, 0, 200, NAN) };
  g_autoptr (Hole) hole = hole_of (NULL, parts, 2);
  ck_assert_ptr_null (hole_terrain (hole));
}
END_TEST

START_TEST (edits_that_move_no_height_share_the_terrain)
{
  const Part *parts[] = { point_part (KIND_TEE_MARKER, 0, 0, NAN), point_part (KIND_SPOT_HEIGHT, 0, 200, 8),
                          point_part (KIND_MARK, 5, 5, NAN) };
  g_autoptr (Hole) hole = hole_of (NULL, parts, 3);
  g_autoptr (Hole) marked = hole_with_part (hole, 2, point_part (KIND_MARK, 6, 6, NAN));
  g_autoptr (Hole) raised = hole_with_part (hole, 1, point_part (KIND_SPOT_HEIGHT, 0, 200, 9));
  g_autoptr (Hole) lost = hole_without_part (hole, 1);
  ck_assert_ptr_eq (hole_terrain (marked), hole_terrain (hole));
  ck_assert_double_eq_tol (terrain_height (hole_terrain (raised), vec2 (0, 200)), 9, 1e-9);
  ck_assert_ptr_null (hole_terrain (lost));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("hole-terrain");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_plane_comes_back_as_that_plane_between_its_heights);
  tcase_add_test (known, the_spline_of_a_square_with_opposite_corners_raised_is_the_published_kernel);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, the_surface_meets_every_height);
  tcase_add_test (invariants, the_slope_is_how_the_height_changes);
  tcase_add_test (invariants, a_turned_and_moved_hole_has_the_turned_and_moved_surface);
  tcase_add_test (invariants, beyond_the_heights_the_ground_goes_on_level);
  tcase_add_test (invariants, cells_have_the_heights_and_slopes_of_their_corners);
  tcase_add_test (invariants, threads_that_ask_at_once_are_told_the_same);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, without_heights_the_ground_is_level_at_nought);
  tcase_add_test (edges, one_height_lifts_all_the_ground);
  tcase_add_test (edges, heights_on_a_line_say_nothing_of_the_ground_across);
  tcase_add_test (edges, readings_of_one_place_are_their_mean);
  tcase_add_test (edges, more_cells_than_are_kept_are_answered_as_well);
  tcase_add_test (edges, thousands_of_heights_give_a_surface_that_stays_near_all_of_them);
  suite_add_tcase (suite, edges);
  TCase *hole = tcase_create ("the hole's own");
  tcase_add_test (hole, heights_are_told_from_the_tee_in_use_unless_there_is_a_datum);
  tcase_add_test (hole, a_hole_without_spot_heights_is_level);
  tcase_add_test (hole, edits_that_move_no_height_share_the_terrain);
  suite_add_tcase (suite, hole);
  return suite;
}
