// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: areas united, taken away, cut, split, joined and uncrossed, with their curves kept. */
#include "edit.h"
#include "suite.h"

#include <stdlib.h>

/* Outlines are flattened to a centimetre, along some ninety metres of edge. */
#define AREA_TOLERANCE_M2 0.9

static const Part *
rectangle (Kind kind, const char *id, double x0, double y0, double x1, double y1)
{
  Part *part = part_new (kind);
  part->id = g_strdup (id);
  part->name = g_strdup (id);
  path_add_rectangle (&part->path, (Box){ x0, y0, x1, y1 }, 0, 0);
  return part_seal (part);
}

static const Part *
disc (Kind kind, const char *id, double x, double y, double radius_m)
{
  Part *part = part_new (kind);
  part->id = g_strdup (id);
  path_add_ellipse (&part->path, vec2 (x, y), radius_m, radius_m);
  for (size_t i = 0; i < part->path.n_segs; i++)
    {
      PathSeg *seg = &part->path.segs[i];
      Vec2 *points[] = { &seg->c1, &seg->c2, &seg->to };
      for (int k = 0; k < 3; k++)
        *points[k] = vec2 (round (points[k]->x * 1000) / 1000, round (points[k]->y * 1000) / 1000);
    }
  return part_seal (part);
}

static Hole *
hole_of (const Part **parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, parts, n_parts, NULL);
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

/* Does the path hold this very segment, either way round? */
static bool
holds_curve (const Path *path, Vec2 from, const PathSeg *seg)
{
  Vec2 pen = vec2 (0, 0);
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *s = &path->segs[i];
      bool same = s->kind == SEG_CUBIC && vec2_distance (pen, from) == 0 && vec2_distance (s->c1, seg->c1) == 0
                  && vec2_distance (s->c2, seg->c2) == 0 && vec2_distance (s->to, seg->to) == 0;
      if (same)
        return true;
      pen = s->to;
    }
  return false;
}

static size_t
count_kept (const Part *before, const Part *after)
{
  size_t n = 0;
  for (size_t i = 1; i < before->path.n_segs; i++)
    n += before->path.segs[i].kind == SEG_CUBIC
         && holds_curve (&after->path, before->path.segs[i - 1].to, &before->path.segs[i]);
  return n;
}

/* Area of the lens that two discs of radius r whose middles are d apart have in common. */
static double
lens (double r, double d)
{
  return 2 * r * r * acos (d / (2 * r)) - d / 2 * sqrt (4 * r * r - d * d);
}

static const size_t both[] = { 0, 1 };

/* ---- unite ---- */

START_TEST (two_squares_unite_into_what_they_cover)
{
  const Part *parts[] = { rectangle (KIND_GREEN, "low", 0, 0, 10, 10), rectangle (KIND_BUNKER, "high", 5, 5, 15, 15) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  g_autoptr (Hole) made = edit_unite (hole, both, 2, NULL);
  ck_assert_uint_eq (hole_n_parts (made), 1);
  ck_assert_int_eq (hole_part (made, 0)->kind, KIND_GREEN);
  ck_assert_str_eq (hole_part (made, 0)->id, "low");
  ck_assert_double_eq_tol (area_of (hole_part (made, 0)), 175, 1e-9);
  ck_assert_uint_eq (hole_part (made, 0)->path.n_segs, 9); /* eight corners, closed */
}
END_TEST

START_TEST (two_discs_unite_and_keep_the_curves_that_are_not_cut)
{
  const Part *parts[] = { disc (KIND_BUNKER, "one", 0, 0, 10), disc (KIND_BUNKER, "two", 12, 1, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  g_autoptr (Hole) made = edit_unite (hole, both, 2, NULL);
  const Part *united = hole_part (made, 0);
  ck_assert_double_eq_tol (area_of (united), 2 * PI * 100 - lens (10, hypot (12, 1)), AREA_TOLERANCE_M2);
  /* Of eight arcs each, those on the inside go and one at either crossing is cut. */
  ck_assert_uint_ge (count_kept (parts[0], united), 4);
  ck_assert_uint_ge (count_kept (parts[1], united), 4);
  ck_assert_uint_le (count_curves (united), 16);
  ck_assert_uint_eq (united->path.n_segs, count_curves (united) + 2);
}
END_TEST

START_TEST (the_cut_ends_of_curves_stay_on_the_curves)
{
  const Part *parts[] = { disc (KIND_BUNKER, "one", 0, 0, 10), disc (KIND_BUNKER, "two", 12, 1, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  g_autoptr (Hole) made = edit_unite (hole, both, 2, NULL);
  Outline *fine = path_flatten (&hole_part (made, 0)->path, false, 1e-4);
  for (size_t i = 0; i < fine->n_points; i++)
    {
      Vec2 p = fine->points[i];
      double off_one = fabs (vec2_length (p) - 10), off_two = fabs (vec2_distance (p, vec2 (12, 1)) - 10);
      ck_assert_double_le (fmin (off_one, off_two), 2e-3);
    }
  outline_free (fine);
}
END_TEST

START_TEST (areas_apart_unite_into_one_part_of_two_pieces_and_split_again)
{
  const Part *parts[] = { disc (KIND_TREES, "one", 0, 0, 10), disc (KIND_TREES, "two", 50, 0, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  g_autoptr (Hole) joined = edit_join (hole, both, 2, NULL);
  ck_assert_uint_eq (hole_n_parts (joined), 1);
  ck_assert_uint_eq (count_kept (parts[0], hole_part (joined, 0)) + count_kept (parts[1], hole_part (joined, 0)), 16);
  size_t n = 0;
  g_autoptr (Hole) split = edit_split (joined, 0, &n, NULL);
  ck_assert_uint_eq (n, 2);
  ck_assert_uint_eq (hole_n_parts (split), 2);
  ck_assert_double_eq_tol (area_of (hole_part (split, 0)), area_of (parts[0]), 1e-6);
  ck_assert_str_eq (hole_part (split, 0)->id, "one");
  ck_assert_ptr_null (hole_part (split, 1)->id);
  GError *error = NULL;
  ck_assert_ptr_null (edit_split (split, 0, &n, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
}
END_TEST

START_TEST (only_one_kind_can_be_joined_and_only_areas)
{
  Part *tree = part_new (KIND_TREE);
  tree->radius_m = 3;
  const Part *parts[] = { disc (KIND_TREES, "one", 0, 0, 10), disc (KIND_BUNKER, "two", 5, 0, 10), part_seal (tree) };
  g_autoptr (Hole) hole = hole_of (parts, 3);
  const size_t with_tree[] = { 0, 2 };
  GError *error = NULL;
  ck_assert_ptr_null (edit_join (hole, both, 2, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_unite (hole, with_tree, 2, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_unite (hole, both, 1, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
}
END_TEST

/* ---- subtract ---- */

START_TEST (the_topmost_is_taken_away_and_stays)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, "fairway", 0, 0, 20, 20), disc (KIND_BUNKER, "bunker", 10, 10, 5) };
  g_autoptr (Hole) hole = hole_of (parts, 2);
  g_autoptr (Hole) made = edit_subtract (hole, both, 2, NULL);
  ck_assert_uint_eq (hole_n_parts (made), 2);
  ck_assert_ptr_eq (hole_part (made, 1), parts[1]);
  ck_assert_double_eq_tol (area_of (hole_part (made, 0)), 400 - area_of (parts[1]), 0.02);
  ck_assert_uint_eq (count_kept (parts[1], hole_part (made, 0)), 0); /* round the hole it runs the other way */
  ck_assert_uint_eq (count_curves (hole_part (made, 0)), 8);
  ck_assert_int_eq (hole_area_at (made, vec2 (10, 10)), 1);
  g_autoptr (Hole) bare = edit_delete (made, &both[1], 1, NULL);
  ck_assert_int_eq (hole_area_at (bare, vec2 (10, 10)), -1);
}
END_TEST

START_TEST (what_is_wholly_covered_goes_and_what_is_apart_stays_shared)
{
  const Part *parts[] = { rectangle (KIND_BUNKER, "covered", 4, 4, 6, 6), rectangle (KIND_BUNKER, "apart", 40, 4, 46, 6),
                          rectangle (KIND_GREEN, "green", 0, 0, 10, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 3);
  const size_t all[] = { 0, 1, 2 }, apart[] = { 1, 2 };
  g_autoptr (Hole) made = edit_subtract (hole, all, 3, NULL);
  ck_assert_uint_eq (hole_n_parts (made), 2);
  ck_assert_ptr_eq (hole_part (made, 0), parts[1]);
  g_autoptr (Hole) same = edit_subtract (hole, apart, 2, NULL);
  ck_assert_ptr_eq (same, hole);
}
END_TEST

/* ---- cut ---- */

START_TEST (a_cut_disc_adds_up_to_the_whole)
{
  const Part *parts[] = { disc (KIND_WATER, "pond", 0, 0, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  g_autoptr (Hole) made = edit_cut (hole, both, 1, vec2 (-20, 3), vec2 (20, 5), NULL);
  ck_assert_uint_eq (hole_n_parts (made), 2);
  double a = area_of (hole_part (made, 0)), b = area_of (hole_part (made, 1));
  ck_assert_double_eq_tol (a + b, area_of (parts[0]), 0.02);
  ck_assert_double_gt (a, b);
  ck_assert_str_eq (hole_part (made, 0)->id, "pond");
  ck_assert_ptr_null (hole_part (made, 1)->id);
  /* Eight arcs, two of them in halves. */
  ck_assert_uint_eq (count_curves (hole_part (made, 0)) + count_curves (hole_part (made, 1)), 10);
  ck_assert_uint_eq (count_kept (parts[0], hole_part (made, 0)) + count_kept (parts[0], hole_part (made, 1)), 6);
}
END_TEST

START_TEST (a_bay_is_cut_into_as_many_pieces_as_there_are)
{
  Part *comb = part_new (KIND_FAIRWAY); /* three teeth on a back */
  const Vec2 corners[] = { { 0, 0 },   { 50, 0 },  { 50, 30 }, { 40, 30 }, { 40, 10 }, { 30, 10 },
                           { 30, 30 }, { 20, 30 }, { 20, 10 }, { 10, 10 }, { 10, 30 }, { 0, 30 } };
  path_move_to (&comb->path, corners[0]);
  for (size_t i = 1; i < G_N_ELEMENTS (corners); i++)
    path_line_to (&comb->path, corners[i]);
  path_close (&comb->path);
  const Part *parts[] = { part_seal (comb) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  g_autoptr (Hole) made = edit_cut (hole, both, 1, vec2 (-5, 20), vec2 (55, 20), NULL);
  ck_assert_uint_eq (hole_n_parts (made), 4);
  ck_assert_double_eq_tol (area_of (hole_part (made, 0)), 800, 1e-6);
  for (size_t i = 1; i < 4; i++)
    ck_assert_double_eq_tol (area_of (hole_part (made, i)), 100, 1e-6);
}
END_TEST

START_TEST (a_line_that_ends_inside_or_misses_cuts_nothing)
{
  const Part *parts[] = { disc (KIND_WATER, "pond", 0, 0, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  GError *error = NULL;
  const Vec2 lines[][2] = { { { -20, 0 }, { 3, 0 } }, { { -20, 30 }, { 20, 30 } }, { { 1, 1 }, { 1, 1 } } };
  for (size_t i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      ck_assert_ptr_null (edit_cut (hole, both, 1, lines[i][0], lines[i][1], &error));
      ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
      g_clear_error (&error);
    }
  ck_assert_ptr_null (edit_cut (hole, both, 1, vec2 (NAN, 0), vec2 (1, 1), &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_NUMBER));
  g_clear_error (&error);
}
END_TEST

/* ---- uncross ---- */

START_TEST (an_area_that_encloses_nothing_is_not_cut)
{
  Part *spike = part_new (KIND_BUNKER);
  path_move_to (&spike->path, vec2 (0, 0));
  path_line_to (&spike->path, vec2 (10, 0));
  path_close (&spike->path);
  const Part *parts[] = { part_seal (spike) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  g_autoptr (GError) error = NULL;
  size_t part = 0;
  ck_assert_ptr_null (edit_cut (hole, &part, 1, vec2 (5, -5), vec2 (5, 5), &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
}
END_TEST

START_TEST (a_figure_of_eight_becomes_its_two_loops)
{
  Part *eight = part_new (KIND_BUNKER);
  path_move_to (&eight->path, vec2 (0, 0));
  path_line_to (&eight->path, vec2 (10, 10));
  path_line_to (&eight->path, vec2 (10, 0));
  path_line_to (&eight->path, vec2 (0, 10));
  path_close (&eight->path);
  const Part *parts[] = { part_seal (eight) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  g_autoptr (Hole) made = edit_mend (hole, MEND_UNCROSS, 0, NULL);
  ck_assert_double_eq_tol (area_of (hole_part (made, 0)), 50, 1e-6);
  ck_assert_uint_eq (hole_part (made, 0)->outline->n_rings, 2);
  size_t n = 0;
  g_autoptr (Hole) split = edit_split (hole, 0, &n, NULL);
  ck_assert_uint_eq (n, 2);
}
END_TEST

START_TEST (an_outline_that_does_not_cross_itself_stays_as_it_is)
{
  const Part *parts[] = { disc (KIND_BUNKER, "one", 3, 4, 10) };
  g_autoptr (Hole) hole = hole_of (parts, 1);
  g_autoptr (Hole) made = edit_mend (hole, MEND_UNCROSS, 0, NULL);
  ck_assert_ptr_eq (made, hole);
}
END_TEST

START_TEST (the_fill_rule_says_what_is_covered)
{
  for (int even_odd = 0; even_odd < 2; even_odd++)
    {
      Part *part = part_new (KIND_FAIRWAY);
      part->even_odd = even_odd;
      path_add_rectangle (&part->path, (Box){ 0, 0, 30, 30 }, 0, 0);
      path_add_rectangle (&part->path, (Box){ 10, 10, 20, 20 }, 0, 0);
      const Part *parts[] = { part_seal (part) };
      g_autoptr (Hole) hole = hole_of (parts, 1);
      g_autoptr (Hole) made = edit_cut (hole, both, 1, vec2 (-1, 5), vec2 (31, 5), NULL);
      ck_assert_uint_eq (hole_n_parts (made), 2);
      ck_assert_double_eq_tol (area_of (hole_part (made, 0)) + area_of (hole_part (made, 1)), even_odd ? 800 : 900, 1e-6);
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-areas");
  TCase *unite = tcase_create ("unite");
  tcase_add_test (unite, two_squares_unite_into_what_they_cover);
  tcase_add_test (unite, two_discs_unite_and_keep_the_curves_that_are_not_cut);
  tcase_add_test (unite, the_cut_ends_of_curves_stay_on_the_curves);
  tcase_add_test (unite, areas_apart_unite_into_one_part_of_two_pieces_and_split_again);
  tcase_add_test (unite, only_one_kind_can_be_joined_and_only_areas);
  suite_add_tcase (suite, unite);
  TCase *subtract = tcase_create ("subtract");
  tcase_add_test (subtract, the_topmost_is_taken_away_and_stays);
  tcase_add_test (subtract, what_is_wholly_covered_goes_and_what_is_apart_stays_shared);
  suite_add_tcase (suite, subtract);
  TCase *cut = tcase_create ("cut");
  tcase_add_test (cut, a_cut_disc_adds_up_to_the_whole);
  tcase_add_test (cut, a_bay_is_cut_into_as_many_pieces_as_there_are);
  tcase_add_test (cut, a_line_that_ends_inside_or_misses_cuts_nothing);
  tcase_add_test (cut, an_area_that_encloses_nothing_is_not_cut);
  suite_add_tcase (suite, cut);
  TCase *uncross = tcase_create ("uncross");
  tcase_add_test (uncross, a_figure_of_eight_becomes_its_two_loops);
  tcase_add_test (uncross, an_outline_that_does_not_cross_itself_stays_as_it_is);
  tcase_add_test (uncross, the_fill_rule_says_what_is_covered);
  suite_add_tcase (suite, uncross);
  return suite;
}
