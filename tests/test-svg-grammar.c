// SPDX-License-Identifier: GPL-3.0-or-later
/* The small grammars of SVG: path data and transforms. Expected paths are written as the printer prints them. */
#include "suite.h"
#include "svg.h"

#include <stdlib.h>
#include <string.h>

/* Parses and prints again, or "at N" for a mistake at byte N. */
static char *
reprinted (const char *text)
{
  Path path = { 0 };
  size_t offset = 0;
  char *printed
      = svg_parse_path (text, &path, SVG_MOST_SEGMENTS, &offset) ? svg_print_path (&path) : g_strdup_printf ("at %zu", offset);
  path_clear (&path);
  return printed;
}

static void
reads_as (const char *text, const char *expected)
{
  g_autofree char *printed = reprinted (text);
  ck_assert_str_eq (printed, expected);
}

/* ---- known answers: the examples of SVG 1.1 (Second Edition), section 8.3 ---- */

START_TEST (the_triangle_of_section_8_3_1_is_read)
{
  reads_as ("M 100 100 L 300 100 L 200 300 z", "M100,100 L300,100 L200,300 Z");
}
END_TEST

START_TEST (the_smooth_cubic_of_section_8_3_6_mirrors_its_control_point)
{
  reads_as ("M100,200 C100,100 250,100 250,200 S400,300 400,200", "M100,200 C100,100 250,100 250,200 C250,300 400,300 400,200");
}
END_TEST

START_TEST (the_smooth_quadratic_of_section_8_3_7_mirrors_its_control_point)
{
  /* Controls (400,50) and (800,550), raised to cubics: a third of the way from the control to each end. */
  reads_as ("M200,300 Q400,50 600,300 T1000,300",
            "M200,300 C333.333,133.333 466.667,133.333 600,300 C733.333,466.667 866.667,466.667 1000,300");
}
END_TEST

START_TEST (the_numbers_of_section_8_3_9_need_no_separators)
{
  reads_as ("M 0.6.5", "M0.6,0.5");
  reads_as ("M 100-200", "M100,-200");
}
END_TEST

/* ---- what trips others ---- */

START_TEST (letters_may_be_left_out_and_pairs_after_a_move_are_lines)
{
  reads_as ("M1 2 3 4 5 6", "M1,2 L3,4 L5,6");
  reads_as ("m1 2 3 4 5 6", "M1,2 L4,6 L9,12");
  reads_as ("M0 0H1 2 3V4 5", "M0,0 L1,0 L2,0 L3,0 L3,4 L3,5");
  reads_as ("M0,0c1,1 2,2 3,3 1,1 2,2 3,3", "M0,0 C1,1 2,2 3,3 C4,4 5,5 6,6");
}
END_TEST

START_TEST (numbers_may_touch)
{
  reads_as ("M.5-.5L1.5.5", "M0.5,-0.5 L1.5,0.5");
  reads_as ("M1e1-1E-1L+.5+5.", "M10,-0.1 L0.5,5");
  reads_as ("\n M\t1\r2,3 , 4 ", "M1,2 L3,4");
}
END_TEST

START_TEST (arc_flags_need_no_separators)
{
  g_autofree char *spaced = reprinted ("M0 0 A 5 5 0 1 0 10 0");
  g_autofree char *tight = reprinted ("M0 0A5 5 0 1010 0");
  g_autofree char *tighter = reprinted ("M0 0a5,5,0,10,10,0");
  ck_assert_str_eq (spaced, tight);
  ck_assert_str_eq (spaced, tighter);
  ck_assert (g_str_has_suffix (spaced, " 10,0"));
}
END_TEST

START_TEST (an_arc_flag_is_zero_or_one)
{
  reads_as ("M0 0A5 5 0 2 0 10 0", "at 11");
}
END_TEST

START_TEST (a_half_circle_arc_bulges_to_its_sweep_side)
{
  for (int sweep = 0; sweep <= 1; sweep++)
    {
      Path path = { 0 };
      g_autofree char *text = g_strdup_printf ("M0 0A5 5 0 0 %d 10 0", sweep);
      ck_assert (svg_parse_path (text, &path, SVG_MOST_SEGMENTS, NULL));
      Box box = path_bounds (&path);
      ck_assert_double_eq_tol (box.y0, sweep ? -5 : 0, 1e-4);
      ck_assert_double_eq_tol (box.y1, sweep ? 0 : 5, 1e-4);
      path_clear (&path);
    }
}
END_TEST

START_TEST (after_closing_the_pen_is_back_at_the_start)
{
  reads_as ("m10 10 5 0 0 5z l1 1", "M10,10 L15,10 L15,15 Z L11,11");
  reads_as ("M10 10h5zm1 1h1", "M10,10 L15,10 Z M11,11 L12,11");
}
END_TEST

START_TEST (smooth_curves_without_a_curve_before_start_at_the_pen)
{
  reads_as ("M1 1S2 2 3 3", "M1,1 C1,1 2,2 3,3");
  reads_as ("M0 0T3 3", "M0,0 C0,0 1,1 3,3");
  /* A quadratic before S, or a cubic before T, does not count as a curve before. */
  reads_as ("M0 0Q3 0 3 3S9 9 6 6", "M0,0 C2,0 3,1 3,3 C3,3 9,9 6,6");
}
END_TEST

START_TEST (nothing_is_a_path_of_nothing)
{
  reads_as ("", "");
  reads_as (" \n", "");
}
END_TEST

START_TEST (reading_stops_at_the_first_mistake_and_says_where)
{
  static const struct
  {
    const char *text, *where;
  } rows[] = {
    { "L1 1", "at 0" },
    { "M", "at 1" },
    { "M1", "at 2" },
    { "M1 1,", "at 5" },
    { "M,1 1", "at 1" },
    { "M1 1L nan 1", "at 6" },
    { "M1 1L inf 1", "at 6" },
    { "M1 1L0x10 1", "at 6" },
    { "M1 1 2", "at 6" },
    { "M1 1Z5 5", "at 5" },
    { "M1 1,,2 2", "at 5" },
    { "M1 1B2 2", "at 4" },
    { "M1 1L1e 1", "at 6" },
    { "M1 1L- 1", "at 5" },
    { "M1e400 1", "at 1" },
    { "M1 1;2 2", "at 4" },
    { "M1 1L2 2\xc3\xa9", "at 8" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    reads_as (rows[i].text, rows[i].where);
}
END_TEST

START_TEST (no_more_segments_are_read_than_allowed)
{
  Path path = { 0 };
  ck_assert (svg_parse_path ("M0 0 1 1 2 2", &path, 3, NULL));
  path_clear (&path);
  ck_assert (!svg_parse_path ("M0 0 1 1 2 2 3 3", &path, 3, NULL));
  path_clear (&path);
}
END_TEST

/* ---- invariants ---- */

/* One random segment, both as text in a random manner and drawn. */
static void
add_random_segment (GRand *random, GString *text, Path *path)
{
  static const char letters[] = "LHVCQ";
  Vec2 at = path_current (path), points[3];
  bool relative = g_rand_boolean (random);
  char letter = letters[g_rand_int_range (random, 0, 5)];
  const char *glue = g_rand_boolean (random) ? " " : ",";
  for (int i = 0; i < 3; i++)
    points[i] = vec2 (g_rand_int_range (random, -99999, 99999) / 1000.0, g_rand_int_range (random, -99999, 99999) / 1000.0);
  g_string_append_c (text, relative ? (char)g_ascii_tolower (letter) : letter);
  int n = letter == 'C' ? 3 : letter == 'Q' ? 2 : 1;
  for (int i = 0; i < n; i++)
    {
      if (letter != 'V')
        g_string_append_printf (text, "%s%.3f", i > 0 ? glue : "", points[i].x);
      if (letter != 'H')
        g_string_append_printf (text, "%s%.3f", letter != 'V' ? glue : "", points[i].y);
      if (relative)
        points[i] = vec2_add (points[i], at);
    }
  if (letter == 'C')
    path_cubic_to (path, points[0], points[1], points[2]);
  else if (letter == 'Q')
    path_quadratic_to (path, points[0], points[1]);
  else
    path_line_to (path, vec2 (letter == 'V' ? at.x : points[0].x, letter == 'H' ? at.y : points[0].y));
}

static bool
is_near (Vec2 a, Vec2 b, double tolerance)
{
  return fabs (a.x - b.x) <= tolerance && fabs (a.y - b.y) <= tolerance;
}

static void
assert_paths_near (const Path *a, const Path *b, double tolerance)
{
  ck_assert_uint_eq (a->n_segs, b->n_segs);
  for (size_t i = 0; i < a->n_segs; i++)
    {
      ck_assert_int_eq (a->segs[i].kind, b->segs[i].kind);
      ck_assert (is_near (a->segs[i].to, b->segs[i].to, tolerance));
      if (a->segs[i].kind == SEG_CUBIC)
        ck_assert (is_near (a->segs[i].c1, b->segs[i].c1, tolerance) && is_near (a->segs[i].c2, b->segs[i].c2, tolerance));
    }
}

START_TEST (random_paths_mean_what_was_drawn_and_survive_printing)
{
  GRand *random = g_rand_new_with_seed (20240611);
  for (int round = 0; round < 500; round++)
    {
      Path drawn = { 0 }, read = { 0 }, again = { 0 };
      GString *text = g_string_new ("M1,2");
      path_move_to (&drawn, vec2 (1, 2));
      for (int i = g_rand_int_range (random, 1, 20); i > 0; i--)
        add_random_segment (random, text, &drawn);
      path_close (&drawn);
      g_string_append (text, "z");
      ck_assert_msg (svg_parse_path (text->str, &read, SVG_MOST_SEGMENTS, NULL), "%s", text->str);
      assert_paths_near (&drawn, &read, 1e-9);
      g_autofree char *printed = svg_print_path (&read);
      ck_assert (svg_parse_path (printed, &again, SVG_MOST_SEGMENTS, NULL));
      assert_paths_near (&read, &again, 0.0005 + 1e-9);
      g_autofree char *reprint = svg_print_path (&again);
      ck_assert_str_eq (printed, reprint);
      path_clear (&drawn);
      path_clear (&read);
      path_clear (&again);
      g_string_free (text, TRUE);
    }
  g_rand_free (random);
}
END_TEST

START_TEST (random_bytes_are_read_or_refused_within_the_text)
{
  static const char alphabet[] = "MmLlHhVvCcSsQqTtAaZz0123456789.,-+eE \n\tnx%";
  GRand *random = g_rand_new_with_seed (7);
  for (int round = 0; round < 5000; round++)
    {
      char text[24] = { 0 };
      int length = g_rand_int_range (random, 0, (int)sizeof text);
      for (int i = 0; i < length; i++)
        text[i] = alphabet[g_rand_int_range (random, 0, (int)sizeof alphabet - 1)];
      Path path = { 0 };
      size_t offset = 0;
      if (!svg_parse_path (text, &path, 100, &offset))
        ck_assert_uint_le (offset, strlen (text));
      ck_assert (path_is_finite (&path));
      path_clear (&path);
    }
  g_rand_free (random);
}
END_TEST

/* ---- transforms ---- */

static void
moves (const char *text, Vec2 from, Vec2 to)
{
  Affine t;
  ck_assert_msg (svg_parse_transform (text, &t), "%s", text);
  Vec2 moved = affine_apply (t, from);
  ck_assert_msg (is_near (moved, to, 1e-9), "%s moves to %.12g, %.12g", text, moved.x, moved.y);
}

START_TEST (each_transform_does_what_section_7_6_says)
{
  moves ("matrix(1 2 3 4 5 6)", vec2 (10, 100), vec2 (1 * 10 + 3 * 100 + 5, 2 * 10 + 4 * 100 + 6));
  moves ("translate(3)", vec2 (1, 1), vec2 (4, 1));
  moves ("translate(3,4)", vec2 (1, 1), vec2 (4, 5));
  moves ("scale(2)", vec2 (1, 3), vec2 (2, 6));
  moves ("scale(2 -1)", vec2 (1, 3), vec2 (2, -3));
  moves ("rotate(90)", vec2 (1, 0), vec2 (0, 1));
  moves ("rotate(90 1 1)", vec2 (2, 1), vec2 (1, 2));
  moves ("skewX(45)", vec2 (0, 2), vec2 (2, 2));
  moves ("skewY(45)", vec2 (2, 0), vec2 (2, 2));
}
END_TEST

START_TEST (the_last_transform_of_a_list_is_applied_first)
{
  /* The nested systems of SVG 1.1, section 7.5, in one list: translate(50,90) rotate(-45) translate(130,160). */
  double half = sqrt (0.5);
  moves ("translate(50,90), rotate(-45)translate( 130 160 )", vec2 (0, 0),
         vec2 (50 + half * (130 + 160), 90 + half * (160 - 130)));
  moves ("  ", vec2 (1, 2), vec2 (1, 2));
}
END_TEST

START_TEST (broken_transforms_are_refused)
{
  static const char *const rows[]
      = { "translate",  "translate()",       "translate(1,)", "translate(1 2 3)", "rotate(1 2)",
          "scale(nan)", "matrix(1 2 3 4 5)", "spin(3)",       "translate(1",      "translate 1)",
          "skewX(1 2)", "TRANSLATE(1)",      "translate(1)x", "scale(,1)",        "matrix(1 2 3 4 5 6 7)" };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Affine t = affine_identity ();
      ck_assert_msg (!svg_parse_transform (rows[i], &t), "%s", rows[i]);
      ck_assert (t.xx == 1 && t.x0 == 0);
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg grammar");
  TCase *paths = tcase_create ("paths"), *transforms = tcase_create ("transforms");
  suite_add_tcase (suite, paths);
  suite_add_tcase (suite, transforms);
  tcase_add_test (paths, the_triangle_of_section_8_3_1_is_read);
  tcase_add_test (paths, the_smooth_cubic_of_section_8_3_6_mirrors_its_control_point);
  tcase_add_test (paths, the_smooth_quadratic_of_section_8_3_7_mirrors_its_control_point);
  tcase_add_test (paths, the_numbers_of_section_8_3_9_need_no_separators);
  tcase_add_test (paths, letters_may_be_left_out_and_pairs_after_a_move_are_lines);
  tcase_add_test (paths, numbers_may_touch);
  tcase_add_test (paths, arc_flags_need_no_separators);
  tcase_add_test (paths, an_arc_flag_is_zero_or_one);
  tcase_add_test (paths, a_half_circle_arc_bulges_to_its_sweep_side);
  tcase_add_test (paths, after_closing_the_pen_is_back_at_the_start);
  tcase_add_test (paths, smooth_curves_without_a_curve_before_start_at_the_pen);
  tcase_add_test (paths, nothing_is_a_path_of_nothing);
  tcase_add_test (paths, reading_stops_at_the_first_mistake_and_says_where);
  tcase_add_test (paths, no_more_segments_are_read_than_allowed);
  tcase_add_test (paths, random_paths_mean_what_was_drawn_and_survive_printing);
  tcase_add_test (paths, random_bytes_are_read_or_refused_within_the_text);
  tcase_add_test (transforms, each_transform_does_what_section_7_6_says);
  tcase_add_test (transforms, the_last_transform_of_a_list_is_applied_first);
  tcase_add_test (transforms, broken_transforms_are_refused);
  return suite;
}
