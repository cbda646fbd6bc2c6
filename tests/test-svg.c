// SPDX-License-Identifier: GPL-3.0-or-later
/* Reading hole documents and course folders: what is understood, what is noted, what is refused and in which words. */
#include "suite.h"
#include "svg.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <stdlib.h>
#include <string.h>

/* Built beside the tests out of the system's own description. */
#define COMMA_LOCALE "de_DE.UTF-8"
#define SVG_ATTRIBUTES                                                                                                         \
  "xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" xmlns:hw=\"urn:holewright:hole:1\""
/* A document of one drawing. */
#define DOCUMENT(content) "<svg " SVG_ATTRIBUTES " viewBox=\"-100 -400 200 500\">" content "</svg>"

static GBytes *
bytes_of (const char *text)
{
  return g_bytes_new (text, strlen (text));
}

static Hole *
read_text (const char *text, GPtrArray **findings)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = bytes_of (text);
  Hole *hole = svg_read_bytes (bytes, "test.svg", findings, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "");
  return hole;
}

/* The only part of a document, printed for comparing; "" if there is none. */
static char *
only_path (const char *text)
{
  g_autoptr (Hole) hole = read_text (text, NULL);
  ck_assert_uint_le (hole_n_parts (hole), 1);
  return hole_n_parts (hole) ? svg_print_path (&hole_part (hole, 0)->path) : g_strdup ("");
}

static void
draws (const char *text, const char *expected)
{
  g_autofree char *printed = only_path (text);
  ck_assert_str_eq (printed, expected);
}

static char *
data_path (const char *name)
{
  return g_build_filename (g_getenv ("HW_TEST_DATA"), "svg", name, NULL);
}

static Hole *
read_weir (GPtrArray **findings)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = data_path ("weir.svg");
  Hole *hole = svg_read_file (path, findings, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "");
  return hole;
}

static const Part *
named (const Hole *hole, const char *name)
{
  int i = hole_find (hole, name);
  ck_assert_msg (i >= 0, "%s is not there", name);
  return hole_part (hole, (size_t)i);
}

/* ---- a whole document ---- */

START_TEST (the_facts_of_the_hole_are_read_from_the_root)
{
  g_autoptr (Hole) hole = read_weir (NULL);
  const HoleInfo *info = hole_info (hole);
  ck_assert_str_eq (info->title, "The Weir");
  ck_assert_str_eq (info->desc, "Drive left of the weir, then over the stream.");
  ck_assert_int_eq (info->number, 4);
  ck_assert_int_eq (info->par, 4);
  ck_assert_int_eq (info->stroke_index, 7);
  ck_assert_double_eq (info->up_bearing_deg, 35);
  ck_assert (isnan (info->latitude_deg) && isnan (info->altitude_m));
  ck_assert_int_eq (info->ground, KIND_ROUGH);
  ck_assert_double_eq (info->view_box.x0, -60);
  ck_assert_double_eq (info->view_box.y0, -25);
  ck_assert_double_eq (info->view_box.x1, 80);
  ck_assert_double_eq (info->view_box.y1, 395);
}
END_TEST

START_TEST (every_kind_of_thing_is_read_with_its_facts)
{
  g_autoptr (Hole) hole = read_weir (NULL);
  ck_assert_int_eq (named (hole, "stream")->stakes, STAKES_YELLOW);
  ck_assert (named (hole, "stream")->even_odd);
  ck_assert (!named (hole, "Weir pond")->stakes_given);
  ck_assert_double_eq (named (hole, "copse")->height_m, 17);
  ck_assert_double_eq (named (hole, "copse")->density, 0.5);
  ck_assert_int_eq (named (hole, "white")->par, 4);
  ck_assert_double_eq (named (hole, "yellow")->at.y, 18);
  ck_assert (named (hole, "back")->today && !named (hole, "front")->today);
  ck_assert (named (hole, "oak")->fixed);
  ck_assert_double_eq (named (hole, "photo")->opacity, 0.5);
  ck_assert_str_eq (named (hole, "photo")->href, "weir.png");
  ck_assert_int_eq (named (hole, "boundary")->kind, KIND_OUT_OF_BOUNDS);
  ck_assert_int_eq (named (hole, "Right-hand bunker")->kind, KIND_BUNKER);
  size_t seen[N_KINDS] = { 0 };
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    seen[hole_part (hole, i)->kind]++;
  ck_assert_uint_eq (seen[KIND_BUNKER], 3);
  ck_assert_uint_eq (seen[KIND_TREE], 1);
  ck_assert_uint_eq (seen[KIND_SPOT_HEIGHT], 1);
  ck_assert_uint_eq (seen[KIND_SLOPE], 1);
  ck_assert_uint_eq (seen[KIND_NOTE], 1);
  ck_assert_uint_eq (seen[KIND_LINE_OF_PLAY], 1);
  ck_assert_uint_eq (seen[KIND_NONE], 1);
}
END_TEST

START_TEST (a_plan_is_read_with_its_day_and_its_shots_in_order)
{
  g_autoptr (Hole) hole = read_weir (NULL);
  const Part *plan = hole_part (hole, (size_t)hole_plan (hole));
  ck_assert_str_eq (plan->name, "safe");
  ck_assert_str_eq (plan->tee, "white");
  ck_assert_str_eq (plan->hole_name, "back");
  ck_assert_double_eq (plan->day.wind_mps, 4);
  ck_assert_double_eq (plan->day.wind_from_deg, 250);
  ck_assert_str_eq (plan->day.firmness, "firm");
  ck_assert (isnan (plan->day.temperature_c));
  ck_assert_uint_eq (plan->n_shots, 2);
  ck_assert_str_eq (plan->shots[0].club, "driver");
  ck_assert_int_eq (plan->shots[0].shape, SHOT_DRAW);
  ck_assert_double_eq (plan->shots[0].aim.x, -6);
  ck_assert_double_eq (plan->shots[0].aim.y, 212);
  ck_assert (isnan (plan->shots[0].curve_m));
  ck_assert_double_eq (plan->shots[1].curve_m, -3);
  ck_assert_double_eq (plan->shots[1].swing, 0.9);
}
END_TEST

START_TEST (parts_know_their_element_and_its_line)
{
  g_autoptr (Hole) hole = read_weir (NULL);
  ck_assert_uint_eq (named (hole, "photo")->line, 16); /* its tag goes on over the next line */
  ck_assert_uint_eq (named (hole, "deep")->line, 19);
  ck_assert_uint_eq (named (hole, "photo")->node, 11);
  ck_assert_uint_eq (named (hole, "deep")->node, 13);
}
END_TEST

/* ---- shapes ---- */

START_TEST (every_closed_shape_is_an_area_in_a_frame_with_y_up)
{
  draws (DOCUMENT ("<path d='M1 2L3 2 3 4z'/>"), "M1,-2 L3,-2 L3,-4 Z");
  draws (DOCUMENT ("<polygon points='1,2 3,2 3,4'/>"), "M1,-2 L3,-2 L3,-4 Z");
  draws (DOCUMENT ("<polyline points='1 2 3 2 3 4 1 2'/>"), "M1,-2 L3,-2 L3,-4 L1,-2");
  draws (DOCUMENT ("<rect x='1' y='2' width='3' height='4'/>"), "M1,-2 L4,-2 L4,-6 L1,-6 Z");
}
END_TEST

START_TEST (shapes_that_draw_no_area_give_no_part)
{
  draws (DOCUMENT ("<polyline points='1 2 3 2 3 4'/>"), "");
  draws (DOCUMENT ("<line x2='3' y2='4'/>"), "");
  draws (DOCUMENT ("<rect width='3'/>"), "");
  draws (DOCUMENT ("<circle cx='3'/>"), "");
  draws (DOCUMENT ("<path d='M1 1'/>"), "");
  draws (DOCUMENT ("<path/>"), "");
  draws (DOCUMENT ("<text x='1'>words</text>"), "");
}
END_TEST

START_TEST (round_shapes_have_the_bounds_of_their_radii)
{
  static const struct
  {
    const char *text;
    Box box;
  } rows[] = {
    { DOCUMENT ("<circle cx='10' cy='-20' r='5'/>"), { 5, 15, 15, 25 } },
    { DOCUMENT ("<ellipse cx='10' cy='-20' rx='5' ry='3'/>"), { 5, 17, 15, 23 } },
    { DOCUMENT ("<rect x='-4' y='-8' width='8' height='6' rx='2'/>"), { -4, 2, 4, 8 } },
    { DOCUMENT ("<rect x='-4' y='-8' width='8' height='6' ry='99'/>"), { -4, 2, 4, 8 } },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Hole) hole = read_text (rows[i].text, NULL);
      Box box = hole_part (hole, 0)->bounds;
      ck_assert_double_eq_tol (box.x0, rows[i].box.x0, 1e-4);
      ck_assert_double_eq_tol (box.y0, rows[i].box.y0, 1e-4);
      ck_assert_double_eq_tol (box.x1, rows[i].box.x1, 1e-4);
      ck_assert_double_eq_tol (box.y1, rows[i].box.y1, 1e-4);
    }
}
END_TEST

START_TEST (transforms_of_groups_and_shapes_add_up)
{
  draws (
      DOCUMENT (
          "<g transform='translate(10 20)'><g transform='scale(2)'><path transform='rotate(90)' d='M1 0 2 0 2 1z'/></g></g>"),
      "M10,-22 L10,-24 L8,-24 Z");
  draws (DOCUMENT ("<a transform='translate(1 0)'><path d='M0 0 1 0 1 1z'/></a>"), "M1,0 L2,0 L2,-1 Z");
}
END_TEST

START_TEST (a_radius_grows_with_its_transform)
{
  g_autoptr (Hole) hole
      = read_text (DOCUMENT ("<g transform='scale(3)'><circle hw:kind='tree' transform='rotate(30)' r='2'/></g>"), NULL);
  ck_assert_double_eq_tol (hole_part (hole, 0)->radius_m, 6, 1e-12);
}
END_TEST

START_TEST (lengths_may_have_units_and_percentages)
{
  /* 96 px to the inch (CSS 2.1, section 4.3.2); percentages of the view box (SVG 1.1, section 7.10). */
  draws (DOCUMENT ("<rect x='1px' y='25.4mm' width='1in' height='72pt'/>"), "M1,-96 L97,-96 L97,-192 L1,-192 Z");
  draws (DOCUMENT ("<rect width='50%' height='10%'/>"), "M0,0 L100,0 L100,-50 L0,-50 Z");
}
END_TEST

/* ---- what is handed down ---- */

START_TEST (kinds_and_facts_come_from_the_nearest_group)
{
  g_autoptr (Hole) hole
      = read_text (DOCUMENT ("<g hw:kind='trees' hw:height_m='20'><g hw:density='0.25'>"
                             "<path d='M0 0 1 0 1 1z'/><path hw:height_m='5' d='M0 0 1 0 1 1z'/>"
                             "<path hw:kind='bunker' d='M0 0 1 0 1 1z'/><path hw:kind='' d='M0 0 1 0 1 1z'/></g></g>"
                             "<path d='M0 0 1 0 1 1z'/>"),
                   NULL);
  ck_assert_uint_eq (hole_n_parts (hole), 5);
  ck_assert_int_eq (hole_part (hole, 0)->kind, KIND_TREES);
  ck_assert_double_eq (hole_part (hole, 0)->height_m, 20);
  ck_assert_double_eq (hole_part (hole, 0)->density, 0.25);
  ck_assert_double_eq (hole_part (hole, 1)->height_m, 5);
  ck_assert_int_eq (hole_part (hole, 2)->kind, KIND_BUNKER);
  ck_assert_int_eq (hole_part (hole, 3)->kind, KIND_NONE);
  ck_assert_int_eq (hole_part (hole, 4)->kind, KIND_NONE);
}
END_TEST

START_TEST (the_fill_rule_comes_from_attribute_style_or_group)
{
  static const struct
  {
    const char *text;
    bool even_odd;
  } rows[] = {
    { DOCUMENT ("<path d='M0 0 1 0 1 1z'/>"), false },
    { DOCUMENT ("<path fill-rule='evenodd' d='M0 0 1 0 1 1z'/>"), true },
    { DOCUMENT ("<path style='fill:red; fill-rule : evenodd' d='M0 0 1 0 1 1z'/>"), true },
    { DOCUMENT ("<path style='fill-rule:nonzero' fill-rule='evenodd' d='M0 0 1 0 1 1z'/>"), false },
    { DOCUMENT ("<g fill-rule='evenodd'><path d='M0 0 1 0 1 1z'/></g>"), true },
    { DOCUMENT ("<g fill-rule='evenodd'><path fill-rule='nonzero' d='M0 0 1 0 1 1z'/></g>"), false },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Hole) hole = read_text (rows[i].text, NULL);
      ck_assert_msg (hole_part (hole, 0)->even_odd == rows[i].even_odd, "%s", rows[i].text);
    }
}
END_TEST

START_TEST (definitions_and_foreign_elements_are_no_part_of_the_hole)
{
  draws (DOCUMENT ("<defs><path d='M0 0 1 0 1 1z'/></defs><symbol><rect width='1' height='1'/></symbol>"
                   "<clipPath><rect width='1' height='1'/></clipPath><pattern><rect width='1' height='1'/></pattern>"
                   "<mask><rect width='1' height='1'/></mask><marker><rect width='1' height='1'/></marker>"
                   "<x:y xmlns:x='urn:x'><rect width='1' height='1'/></x:y>"),
         "");
}
END_TEST

/* ---- findings ---- */

/* Exactly one finding, and it says this. */
static void
notes (const char *text, FindingSeverity severity, const char *what)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (Hole) hole = read_text (text, &findings);
  ck_assert_uint_eq (findings->len, 1);
  const Finding *finding = g_ptr_array_index (findings, 0);
  ck_assert_int_eq (finding->severity, severity);
  ck_assert_uint_eq (finding->line, 1);
  ck_assert_msg (strstr (finding->what, what) != NULL, "%s", finding->what);
  ck_assert_uint_gt (strlen (finding->mend), 0);
}

START_TEST (what_can_be_lived_with_is_noted)
{
  notes (DOCUMENT ("<path hw:kind='lava' d='M0 0 1 0 1 1z'/>"), FINDING_WARNING, "\"lava\" is not known");
  notes (DOCUMENT ("<path hw:kind='tree' d='M0 0 1 0 1 1z'/>"), FINDING_WARNING, "a path cannot be a tree");
  notes (DOCUMENT ("<line hw:kind='shot' x2='3'/>"), FINDING_WARNING, "outside a plan");
  notes (DOCUMENT ("<g hw:kind='plan'><circle hw:kind='shot' r='3'/></g>"), FINDING_WARNING, "a circle cannot be a shot");
  notes (DOCUMENT ("<path hw:kind='trees' hw:density='2' d='M0 0 1 0 1 1z'/>"), FINDING_ERROR, "hw:density is \"2\"");
  notes (DOCUMENT ("<use id='a' xlink:href='#a'/>"), FINDING_NOTE, "use");
  notes (DOCUMENT ("<rect hw:kind='tee' width='3'/>"), FINDING_WARNING, "a tee has no size");
}
END_TEST

START_TEST (a_drawing_without_facts_opens_with_shapes_without_kind)
{
  g_autoptr (Hole) hole = read_text ("<svg xmlns='http://www.w3.org/2000/svg'><rect width='3' height='4'/></svg>", NULL);
  ck_assert_uint_eq (hole_n_parts (hole), 1);
  ck_assert_int_eq (hole_part (hole, 0)->kind, KIND_NONE);
  gsize size;
  const char *source = g_bytes_get_data (hole_source (hole), &size);
  g_autofree char *text = g_strndup (source, size);
  ck_assert_str_eq (text, "<svg xmlns='http://www.w3.org/2000/svg'><rect width='3' height='4'/></svg>");
}
END_TEST

START_TEST (use_elements_in_a_circle_do_no_harm)
{
  g_autoptr (Hole) hole
      = read_text (DOCUMENT ("<g id='a'><use xlink:href='#b'/></g><g id='b'><use xlink:href='#a'/></g>"), NULL);
  ck_assert_uint_eq (hole_n_parts (hole), 0);
}
END_TEST

START_TEST (numbers_have_a_point_whatever_the_locale)
{
  ck_assert_msg (setlocale (LC_ALL, COMMA_LOCALE) != NULL, "the locale with a decimal comma was not built");
  draws (DOCUMENT ("<path transform='translate(.5)' d='M1.25 2.5L3 2 3 4z'/>"), "M1.75,-2.5 L3.5,-2 L3.5,-4 Z");
  setlocale (LC_ALL, "C");
}
END_TEST

/* ---- courses ---- */

/* A course folder with two empty hole files; free and remove with remove_folder. */
static char *
make_course (const char *content)
{
  char *folder = g_dir_make_tmp ("holewright-course-XXXXXX", NULL);
  const char *const names[] = { "course.xml", "01.svg", "02.svg" };
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);
      ck_assert (g_file_set_contents (path, i == 0 ? content : "<svg/>", -1, NULL));
    }
  return folder;
}

static void
remove_folder (char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  for (const char *name = g_dir_read_name (dir); name; name = g_dir_read_name (dir))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_remove (path);
    }
  g_rmdir (folder);
  g_free (folder);
}

#define COURSE(content) "<course xmlns='urn:holewright:course:1' name='Fenwhistle'>\n" content "</course>"

START_TEST (a_course_folder_names_its_tees_and_its_holes)
{
  char *folder = make_course (
      COURSE ("<tee name='white' colour='#ffffff' rating='71.4' slope='128'/><tee name='red' rating='' slope=''/>"
              "<hole file='01.svg'/><other/><hole file='02.svg'/>"));
  g_autoptr (GError) error = NULL;
  g_autofree char *file = g_build_filename (folder, "course.xml", NULL);
  g_autoptr (Course) course = svg_read_course (folder, &error);
  g_autoptr (Course) same = svg_read_course (file, &error);
  ck_assert_msg (course && same, "%s", error ? error->message : "");
  ck_assert_str_eq (course->name, "Fenwhistle");
  ck_assert_str_eq (course->folder, same->folder);
  ck_assert_uint_eq (course->n_tees, 2);
  ck_assert_str_eq (course->tees[0].colour, "#ffffff");
  ck_assert_double_eq (course->tees[0].rating, 71.4);
  ck_assert_int_eq (course->tees[0].slope, 128);
  ck_assert (isnan (course->tees[1].rating) && course->tees[1].slope == 0);
  ck_assert_uint_eq (course->n_holes, 2);
  ck_assert (g_str_has_suffix (course->hole_files[1], "/02.svg") && g_path_is_absolute (course->hole_files[1]));
  ck_assert_ptr_null (course->hole_files[2]);
  remove_folder (folder);
}
END_TEST

START_TEST (a_broken_course_says_line_and_remedy)
{
  static const struct
  {
    const char *content, *where, *what;
  } rows[] = {
    { COURSE (""), "course.xml:1: ", "no holes" },
    { COURSE ("<hole file='../01.svg'/>"), "course.xml:2: ", "outside" },
    { COURSE ("<hole file='/etc/hostname'/>"), "course.xml:2: ", "outside" },
    { COURSE ("<hole/>"), "course.xml:2: ", "no file" },
    { COURSE ("<tee/><hole file='01.svg'/>"), "course.xml:2: ", "no name" },
    { COURSE ("<tee name='white' slope='300'/><hole file='01.svg'/>"), "course.xml:2: ", "slope=\"300\"" },
    { "<svg xmlns='http://www.w3.org/2000/svg'/>", "course.xml:1: ", "not a course" },
    { "", "course.xml:1: ", "empty" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      char *folder = make_course (rows[i].content);
      g_autoptr (GError) error = NULL;
      g_autoptr (Course) course = svg_read_course (folder, &error);
      ck_assert_ptr_null (course);
      ck_assert_msg (strstr (error->message, rows[i].where) && strstr (error->message, rows[i].what), "%s", error->message);
      remove_folder (folder);
    }
}
END_TEST

START_TEST (a_course_with_a_missing_file_can_be_read)
{
  char *folder = make_course (COURSE ("<hole file='03.svg'/><hole file='01.svg'/>"));
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = svg_read_course (folder, &error);
  ck_assert_msg (course && course->n_holes == 2, "%s", error ? error->message : "");
  ck_assert (g_str_has_suffix (course->hole_files[0], "/03.svg"));
  ck_assert_ptr_null (svg_read_file (course->hole_files[0], NULL, &error));
  ck_assert_msg (strstr (error->message, "03.svg") && strstr (error->message, "; "), "%s", error->message);
  remove_folder (folder);
}
END_TEST

START_TEST (a_folder_without_a_course_is_refused)
{
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (svg_read_course ("/nonexistent", &error));
  ck_assert (g_error_matches (error, SVG_ERROR, SVG_ERROR_READ));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg");
  TCase *reading = tcase_create ("reading"), *courses = tcase_create ("courses");
  suite_add_tcase (suite, reading);
  suite_add_tcase (suite, courses);
  tcase_add_test (reading, the_facts_of_the_hole_are_read_from_the_root);
  tcase_add_test (reading, every_kind_of_thing_is_read_with_its_facts);
  tcase_add_test (reading, a_plan_is_read_with_its_day_and_its_shots_in_order);
  tcase_add_test (reading, parts_know_their_element_and_its_line);
  tcase_add_test (reading, every_closed_shape_is_an_area_in_a_frame_with_y_up);
  tcase_add_test (reading, shapes_that_draw_no_area_give_no_part);
  tcase_add_test (reading, round_shapes_have_the_bounds_of_their_radii);
  tcase_add_test (reading, transforms_of_groups_and_shapes_add_up);
  tcase_add_test (reading, a_radius_grows_with_its_transform);
  tcase_add_test (reading, lengths_may_have_units_and_percentages);
  tcase_add_test (reading, kinds_and_facts_come_from_the_nearest_group);
  tcase_add_test (reading, the_fill_rule_comes_from_attribute_style_or_group);
  tcase_add_test (reading, definitions_and_foreign_elements_are_no_part_of_the_hole);
  tcase_add_test (reading, what_can_be_lived_with_is_noted);
  tcase_add_test (reading, a_drawing_without_facts_opens_with_shapes_without_kind);
  tcase_add_test (reading, use_elements_in_a_circle_do_no_harm);
  tcase_add_test (reading, numbers_have_a_point_whatever_the_locale);
  tcase_add_test (courses, a_course_folder_names_its_tees_and_its_holes);
  tcase_add_test (courses, a_broken_course_says_line_and_remedy);
  tcase_add_test (courses, a_course_with_a_missing_file_can_be_read);
  tcase_add_test (courses, a_folder_without_a_course_is_refused);
  return suite;
}
