// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: strokes drawn by hand that become areas and lines. */
#include "edit.h"
#include "suite.h"

#include <string.h>

#define TOLERANCE_M 0.3
#define N_POINTS 300
/* A handle and an end, both rounded to the grid, move a curve by no more than that. */
#define ROUNDING_M EDIT_GRID_M
/* Rounding of a double at a kilometre. */
#define ON_GRID_M 1e-9

static Hole *
sheet (void)
{
  return edit_empty_hole (200, 400);
}

/* A round of a shaky hand, 12 m about (5, 100), that stops a little short of where it began. */
static void
draw_round (Vec2 points[N_POINTS])
{
  for (int i = 0; i < N_POINTS; i++)
    {
      double angle = 1.97 * PI * i / N_POINTS, radius_m = 12 + 0.1 * sin (61 * angle);
      points[i] = vec2 (5 + radius_m * cos (angle), 100 + radius_m * sin (angle));
    }
}

static void
expect_near (const Part *part, const Vec2 *points, size_t n_points, double within_m)
{
  for (size_t i = 0; i < n_points; i++)
    {
      size_t seg;
      double t, distance_m;
      ck_assert (path_nearest (&part->path, points[i], &seg, &t, &distance_m));
      ck_assert_double_le (distance_m, within_m);
    }
}

static void
expect_on_grid (Vec2 at)
{
  ck_assert_double_eq_tol (at.x, round (at.x / EDIT_GRID_M) * EDIT_GRID_M, ON_GRID_M);
  ck_assert_double_eq_tol (at.y, round (at.y / EDIT_GRID_M) * EDIT_GRID_M, ON_GRID_M);
}

static size_t
count_nodes (const Part *part)
{
  PathNode *nodes;
  size_t n = path_nodes (&part->path, &nodes);
  free (nodes);
  return n;
}

static void
expect_refused (const Hole *hole, Kind kind, const Vec2 *points, size_t n_points, double tolerance_m, EditError code)
{
  GError *error = NULL;
  size_t part = 77, n_parts = hole_n_parts (hole);
  ck_assert_ptr_null (edit_add_stroke (hole, kind, points, n_points, tolerance_m, &part, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, (int)code));
  ck_assert_uint_gt (strlen (error->message), 10);
  ck_assert_uint_eq (part, 77);
  ck_assert_uint_eq (hole_n_parts (hole), n_parts);
  g_error_free (error);
}

/* ---- known answers ---- */

START_TEST (a_round_by_a_shaky_hand_becomes_an_area_of_few_nodes)
{
  Vec2 points[N_POINTS];
  draw_round (points);
  g_autoptr (Hole) hole = sheet ();
  size_t part = 0;
  g_autoptr (Hole) made = edit_add_stroke (hole, KIND_GREEN, points, N_POINTS, TOLERANCE_M, &part, NULL);
  const Part *green = hole_part (made, part);
  ck_assert_int_eq (green->kind, KIND_GREEN);
  ck_assert_int_eq (green->path.segs[green->path.n_segs - 1].kind, SEG_CLOSE);
  ck_assert_uint_le (count_nodes (green), 8);
  double area_m2 = 0;
  ck_assert (outline_measure (green->outline, &area_m2, NULL));
  /* The tolerance, all round at its worst. */
  ck_assert_double_eq_tol (area_m2, PI * 12 * 12, TOLERANCE_M * 2 * PI * 12);
  expect_near (green, points, N_POINTS, TOLERANCE_M + ROUNDING_M);
}
END_TEST

START_TEST (a_box_drawn_by_hand_keeps_its_corners)
{
  const Vec2 corners[] = { { 10, 20 }, { 40, 20 }, { 40, 60 }, { 10, 60 } };
  Vec2 points[200];
  for (int i = 0; i < 200; i++)
    points[i] = vec2_lerp (corners[i / 50], corners[(i / 50 + 1) % 4], (i % 50) / 50.0);
  g_autoptr (Hole) hole = sheet ();
  size_t part = 0;
  g_autoptr (Hole) made = edit_add_stroke (hole, KIND_TEE, points, 200, TOLERANCE_M, &part, NULL);
  ck_assert_uint_eq (count_nodes (hole_part (made, part)), 4);
  double area_m2 = 0;
  ck_assert (outline_measure (hole_part (made, part)->outline, &area_m2, NULL));
  ck_assert_double_eq_tol (area_m2, 1200, 1e-6);
}
END_TEST

START_TEST (a_line_drawn_by_hand_stays_open_and_ends_where_the_hand_did)
{
  Vec2 points[N_POINTS];
  draw_round (points);
  g_autoptr (Hole) hole = sheet ();
  size_t part = 0;
  g_autoptr (Hole) made = edit_add_stroke (hole, KIND_LINE_OF_PLAY, points, N_POINTS, TOLERANCE_M, &part, NULL);
  const Path *line = &hole_part (made, part)->path;
  ck_assert_int_ne (line->segs[line->n_segs - 1].kind, SEG_CLOSE);
  ck_assert_double_le (vec2_distance (line->segs[0].to, points[0]), EDIT_GRID_M);
  ck_assert_double_le (vec2_distance (path_current (line), points[N_POINTS - 1]), EDIT_GRID_M);
  expect_near (hole_part (made, part), points, N_POINTS, TOLERANCE_M + ROUNDING_M);
}
END_TEST

/* ---- invariants ---- */

START_TEST (what_a_stroke_becomes_lies_on_the_millimetre_and_in_its_place)
{
  Vec2 points[N_POINTS];
  draw_round (points);
  g_autoptr (Hole) hole = sheet ();
  size_t part = 0;
  g_autoptr (Hole) marked = edit_add_point (hole, KIND_HOLE_LOCATION, vec2 (5, 100), &part, NULL);
  size_t place = edit_place_for (marked, KIND_BUNKER);
  g_autoptr (Hole) made = edit_add_stroke (marked, KIND_BUNKER, points, N_POINTS, TOLERANCE_M, &part, NULL);
  ck_assert_uint_eq (part, place);
  ck_assert_int_eq (hole_part (made, part + 1)->kind, KIND_HOLE_LOCATION);
  ck_assert_uint_eq (hole_n_parts (made), hole_n_parts (marked) + 1);
  const Path *path = &hole_part (made, part)->path;
  for (size_t i = 0; i < path->n_segs; i++)
    {
      expect_on_grid (path->segs[i].to);
      if (path->segs[i].kind == SEG_CUBIC)
        {
          expect_on_grid (path->segs[i].c1);
          expect_on_grid (path->segs[i].c2);
        }
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (a_stroke_that_crosses_itself_is_drawn_all_the_same)
{
  Vec2 points[N_POINTS];
  for (int i = 0; i < N_POINTS; i++)
    {
      double angle = 2 * PI * i / N_POINTS;
      points[i] = vec2 (25 * sin (angle + 0.5), 100 + 15 * sin (2 * (angle + 0.5)));
    }
  g_autoptr (Hole) hole = sheet ();
  size_t part = 0;
  g_autoptr (Hole) made = edit_add_stroke (hole, KIND_WATER, points, N_POINTS, TOLERANCE_M, &part, NULL);
  double area_m2 = 0;
  ck_assert (outline_measure (hole_part (made, part)->outline, &area_m2, NULL));
  /* Two lobes of 4/3 a b each: the integral of b sin 2u d(a sin u) over half a turn. */
  ck_assert_double_eq_tol (area_m2, 2 * 4.0 / 3 * 25 * 15, 0.02 * 1000);
}
END_TEST

START_TEST (a_slip_of_the_hand_draws_nothing_and_says_so)
{
  g_autoptr (Hole) hole = sheet ();
  const Vec2 click[] = { { 3, 3 }, { 3, 3 } }, back[] = { { 0, 0 }, { 9, 0 }, { 0, 0 } },
             speck[] = { { 0, 0 }, { 0.01, 0.01 } };
  expect_refused (hole, KIND_GREEN, NULL, 0, TOLERANCE_M, EDIT_ERROR_EMPTY);
  expect_refused (hole, KIND_GREEN, click, 1, TOLERANCE_M, EDIT_ERROR_EMPTY);
  expect_refused (hole, KIND_GREEN, click, 2, TOLERANCE_M, EDIT_ERROR_EMPTY);
  expect_refused (hole, KIND_LINE_OF_PLAY, click, 2, TOLERANCE_M, EDIT_ERROR_EMPTY);
  expect_refused (hole, KIND_LINE_OF_PLAY, speck, 2, TOLERANCE_M, EDIT_ERROR_EMPTY);
  expect_refused (hole, KIND_GREEN, back, 3, TOLERANCE_M, EDIT_ERROR_EMPTY);
}
END_TEST

START_TEST (nonsense_is_refused_in_a_sentence)
{
  g_autoptr (Hole) hole = sheet ();
  const Vec2 good[] = { { 0, 0 }, { 30, 0 }, { 30, 30 } };
  const double bad[] = { NAN, INFINITY, -INFINITY, 2e6 };
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      const Vec2 points[] = { { 0, 0 }, { 30, bad[i] }, { 30, 30 } };
      expect_refused (hole, KIND_GREEN, points, 3, TOLERANCE_M, EDIT_ERROR_NUMBER);
      expect_refused (hole, KIND_GREEN, good, 3, bad[i], EDIT_ERROR_NUMBER);
    }
  expect_refused (hole, KIND_GREEN, good, 3, 0, EDIT_ERROR_NUMBER);
  expect_refused (hole, KIND_TREE, good, 3, TOLERANCE_M, EDIT_ERROR_SHAPE);
  expect_refused (hole, KIND_MARK, good, 3, TOLERANCE_M, EDIT_ERROR_SHAPE);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-stroke");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_round_by_a_shaky_hand_becomes_an_area_of_few_nodes);
  tcase_add_test (known, a_box_drawn_by_hand_keeps_its_corners);
  tcase_add_test (known, a_line_drawn_by_hand_stays_open_and_ends_where_the_hand_did);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, what_a_stroke_becomes_lies_on_the_millimetre_and_in_its_place);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, a_stroke_that_crosses_itself_is_drawn_all_the_same);
  tcase_add_test (edges, a_slip_of_the_hand_draws_nothing_and_says_so);
  tcase_add_test (edges, nonsense_is_refused_in_a_sentence);
  suite_add_tcase (suite, edges);
  return suite;
}
