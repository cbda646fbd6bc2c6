// SPDX-License-Identifier: GPL-3.0-or-later
/* First answers about foreign drawings: what a shape is by its name or its colour, and how large the drawing is. */
#include "suite.h"
#include "svg.h"

#include <string.h>

static SvgFragment *
read_text (const char *root, const char *shapes)
{
  g_autofree char *text = g_strdup_printf ("<svg xmlns='http://www.w3.org/2000/svg' %s>%s</svg>", root, shapes);
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (GError) error = NULL;
  SvgFragment *fragment = svg_read_fragment (bytes, "clipboard", NULL, &error);
  ck_assert_msg (fragment != NULL, "%s", error ? error->message : "");
  return fragment;
}

START_TEST (a_name_says_what_a_shape_is)
{
  static const struct
  {
    const char *id;
    Kind kind;
  } rows[] = {
    { "left-bunker", KIND_BUNKER },  { "Bunkers_3", KIND_BUNKER },
    { "GREEN", KIND_GREEN },         { "tee.white", KIND_TEE },
    { "teeth", KIND_NONE },          { "greenhouse", KIND_NONE },
    { "first_cut", KIND_FIRST_CUT }, { "deep rough 2", KIND_DEEP_ROUGH },
    { "rough", KIND_ROUGH },         { "layer7", KIND_NONE },
    { "mill-pond", KIND_WATER },     { "tree12", KIND_TREE },
    { "trees12", KIND_TREES },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *shape = g_strdup_printf ("<rect id='%s' width='3' height='3'/>", rows[i].id);
      g_autoptr (SvgFragment) fragment = read_text ("", shape);
      ck_assert_msg (svg_guess_part (fragment, 0) == rows[i].kind, "%s: %d", rows[i].id, svg_guess_part (fragment, 0));
    }
}
END_TEST

START_TEST (a_colour_says_what_maps_use_it_for)
{
  static const struct
  {
    const char *colour;
    Kind kind;
  } rows[] = {
    { "#3f7f9c", KIND_WATER }, { "#0000ff", KIND_WATER },   { "#efe2bd", KIND_BUNKER },  { "#f4e4a0", KIND_BUNKER },
    { "#9cc79b", KIND_GREEN }, { "#b9cf96", KIND_FAIRWAY }, { "#1f4d20", KIND_TREES },   { "#808080", KIND_NONE },
    { "#000000", KIND_NONE },  { "#ff0000", KIND_NONE },    { "url(#fade)", KIND_NONE },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *shape = g_strdup_printf ("<rect fill='%s' width='3' height='3'/>", rows[i].colour);
      g_autoptr (SvgFragment) fragment = read_text ("", shape);
      ck_assert_msg (svg_guess_colour (fragment, 0) == rows[i].kind, "%s: %d", rows[i].colour, svg_guess_colour (fragment, 0));
    }
}
END_TEST

START_TEST (names_go_before_colours_and_lines_say_nothing)
{
  g_autoptr (SvgFragment) named = read_text (
      "", "<g fill='#0000ff'><rect id='green' width='3' height='3'/><rect id='back-green' width='3' height='3'/></g>");
  ck_assert_int_eq (svg_guess_colour (named, 0), KIND_GREEN);
  g_autoptr (SvgFragment) mixed
      = read_text ("", "<g fill='#0000ff'><rect id='green' width='3' height='3'/><rect id='b' width='3' height='3'/></g>");
  ck_assert_int_eq (svg_guess_colour (mixed, 0), KIND_WATER);
  g_autoptr (SvgFragment) line = read_text ("", "<rect fill='none' stroke='#0000ff' width='3' height='3'/>");
  ck_assert_int_eq (svg_guess_colour (line, 0), KIND_NONE);
}
END_TEST

static void
scale_is (const char *root, double expected)
{
  const Box sheet = { -100, 0, 100, 450 };
  g_autoptr (SvgFragment) fragment = read_text (root, "<rect width='154' height='210'/>");
  double scale = svg_guess_scale (fragment, sheet);
  ck_assert_msg (fabs (scale - expected) < 1e-9 * expected, "%s: %g, not %g", root, scale, expected);
}

START_TEST (a_drawing_is_taken_for_a_plan_of_a_usual_scale)
{
  /* By hand: 154 mm across at 1:1000 is 154 m; at the next usual scale, 1:2000, 308 m, which 200 m do not hold. */
  scale_is ("width='210mm' height='297mm' viewBox='0 0 210 297'", 1);
  /* Ten times as large on paper: 1.54 m, at 1:100. */
  scale_is ("width='2100mm' height='2970mm' viewBox='0 0 210 297'", 1);
  /* 15.4 mm at 1:10 000. */
  scale_is ("width='21mm' height='29.7mm' viewBox='0 0 210 297'", 1);
  /* A quarter inch to the unit: 154 units are 977.9 mm, at 1:200 195.58 m. */
  scale_is ("width='52.5in' height='74.25in' viewBox='0 0 210 297'", 0.00635 * 200);
  /* No ruler: 200 / 154 = 1.29... metres to the unit, rounded down. */
  scale_is ("", 1);
}
END_TEST

START_TEST (a_scale_is_found_for_what_has_no_size_in_one_direction_or_in_both)
{
  const Box sheet = { 0, 0, 200, 400 };
  g_autoptr (SvgFragment) line = read_text ("", "<path d='M0 0L0-100Z'/>");
  ck_assert_double_eq_tol (svg_guess_scale (line, sheet), 2.5, 1e-9);
  SvgFragment nothing = { .extent = box_empty (), .unit_mm = NAN };
  ck_assert_double_eq (svg_guess_scale (&nothing, sheet), 1);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg-guess");
  TCase *kinds = tcase_create ("kinds");
  tcase_add_test (kinds, a_name_says_what_a_shape_is);
  tcase_add_test (kinds, a_colour_says_what_maps_use_it_for);
  tcase_add_test (kinds, names_go_before_colours_and_lines_say_nothing);
  suite_add_tcase (suite, kinds);
  TCase *scales = tcase_create ("scales");
  tcase_add_test (scales, a_drawing_is_taken_for_a_plan_of_a_usual_scale);
  tcase_add_test (scales, a_scale_is_found_for_what_has_no_size_in_one_direction_or_in_both);
  suite_add_tcase (suite, scales);
  return suite;
}
