// SPDX-License-Identifier: GPL-3.0-or-later
/* What is said about holes that read well but would not play well. */
#include "suite.h"
#include "svg.h"

#include <string.h>

/* A hole with nothing to say about: par 4 of 300 m, to be spoilt one thing at a time. */
#define ROOT(facts)                                                                                                            \
  "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' viewBox='-50 -350 100 400' " facts ">\n"
#define AREA_OF_TEE "<rect hw:kind='tee' x='-5' y='-5' width='10' height='10'/>"
#define TEE AREA_OF_TEE "<circle hw:kind='tee-marker' hw:name='white' r='0.5'/>"
#define GREEN "<circle hw:kind='green' cy='-300' r='12'/>"
#define FLAG "<circle hw:kind='hole-location' hw:name='front' cy='-298' r='0.5'/>"
#define LINE "<polyline hw:kind='line-of-play' points='0,0 0,-300'/>"
#define HOLE(more) ROOT ("hw:par='4'") TEE GREEN FLAG LINE more "</svg>"

static GPtrArray *
findings_of (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (Hole) hole = svg_read_bytes (bytes, "test.svg", NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "");
  return svg_check_hole (hole);
}

/* There is exactly one finding, of this severity, on this line (0: the whole document), and it says this. */
static void
finds (const char *text, FindingSeverity severity, unsigned line, const char *what)
{
  g_autoptr (GPtrArray) findings = findings_of (text);
  for (guint i = 1; i < findings->len; i++)
    ck_abort_msg ("also: %s", ((Finding *)findings->pdata[i])->what);
  ck_assert_msg (findings->len == 1, "nothing found for: %s", what);
  const Finding *finding = findings->pdata[0];
  ck_assert_msg (strstr (finding->what, what) != NULL, "%s", finding->what);
  ck_assert_int_eq (finding->severity, severity);
  ck_assert_uint_eq (finding->line, line);
  ck_assert_uint_gt (strlen (finding->mend), 0);
}

START_TEST (a_good_hole_gives_no_finding)
{
  g_autoptr (GPtrArray) findings = findings_of (HOLE (""));
  ck_assert_msg (findings->len == 0, "%s", findings->len ? ((Finding *)findings->pdata[0])->what : "");
}
END_TEST

START_TEST (what_a_hole_cannot_do_without_is_an_error)
{
  finds (ROOT ("hw:par='4'") TEE FLAG LINE "</svg>", FINDING_ERROR, 0, "no green");
  finds (ROOT ("hw:par='4'") GREEN FLAG LINE "</svg>", FINDING_ERROR, 0, "no tee marker");
  finds (ROOT ("hw:par='4'") AREA_OF_TEE GREEN FLAG LINE "</svg>", FINDING_ERROR, 2, "no tee marker");
  finds (ROOT ("hw:par='4'") TEE GREEN LINE "</svg>", FINDING_WARNING, 2, "no hole location");
  finds (ROOT ("hw:par='4'") TEE GREEN FLAG "</svg>", FINDING_NOTE, 0, "no line of play");
  finds (ROOT ("") TEE GREEN FLAG LINE "</svg>", FINDING_NOTE, 0, "no par");
}
END_TEST

START_TEST (a_finding_names_its_part)
{
  static const struct
  {
    const char *text;
    int part;
  } rows[] = {
    { ROOT ("hw:par='4'") TEE FLAG LINE "</svg>", -1 },                             /* no green */
    { ROOT ("hw:par='4'") AREA_OF_TEE GREEN FLAG LINE "</svg>", 0 },                /* the tee */
    { ROOT ("hw:par='4'") TEE GREEN LINE "</svg>", 2 },                             /* the green */
    { HOLE ("<circle hw:kind='bunker' id='far' cx='90' r='4'/>"), 5 },              /* outside */
    { HOLE ("<rect width='3' height='3'/><rect x='9' width='3' height='3'/>"), 5 }, /* no kind */
    { HOLE ("<circle hw:kind='tee-marker' hw:name='red' cy='-40'/>"), 5 },          /* off its tee */
    { HOLE ("<path hw:kind='bunker' d='M0-40h9l-9 9h9z'/>"), 5 },                   /* crosses itself */
    { HOLE ("<circle hw:kind='spot-height' cy='-40'/>"), 5 },                       /* no height */
    { HOLE ("<line hw:kind='slope' y1='-40' y2='-41'/>"), 5 },                      /* no steepness */
    { HOLE ("<g hw:kind='plan' hw:tee='blue'/>"), 5 },                              /* no such tee */
    { ROOT ("hw:par='5'") TEE GREEN FLAG LINE "</svg>", 1 },                        /* too short */
    { ROOT ("hw:par='4'") TEE GREEN FLAG "<polyline hw:kind='line-of-play' points='0,0 0,-250'/></svg>", 4 }, /* misses */
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) findings = findings_of (rows[i].text);
      ck_assert_uint_eq (findings->len, 1);
      const Finding *finding = findings->pdata[0];
      ck_assert_msg (finding->part == rows[i].part, "%s: part %d", finding->what, finding->part);
    }
}
END_TEST

START_TEST (a_finding_says_what_it_is_about)
{
  static const struct
  {
    const char *text;
    Found about;
  } rows[] = {
    { ROOT ("hw:par='4'") TEE FLAG LINE "</svg>", FOUND_NO_GREEN },
    { ROOT ("hw:par='4'") AREA_OF_TEE GREEN FLAG LINE "</svg>", FOUND_NO_TEE_MARKER },
    { ROOT ("hw:par='4'") TEE GREEN LINE "</svg>", FOUND_NO_HOLE_LOCATION },
    { ROOT ("hw:par='4'") TEE GREEN FLAG "</svg>", FOUND_NO_LINE_OF_PLAY },
    { ROOT ("") TEE GREEN FLAG LINE "</svg>", FOUND_NO_PAR },
    { HOLE ("<rect width='3' height='3'/>"), FOUND_NO_KIND },
    { HOLE ("<circle hw:kind='tee-marker' hw:name='red' cy='-40'/>"), FOUND_OFF_ITS_AREA },
    { HOLE ("<circle hw:kind='bunker' cx='90' r='4'/>"), FOUND_OFF_SHEET },
    { HOLE ("<path hw:kind='bunker' d='M0-40h9l-9 9h9z'/>"), FOUND_CROSSING },
    { HOLE ("<circle hw:kind='spot-height' cy='-40'/>"), FOUND_NO_HEIGHT },
    { HOLE ("<line hw:kind='slope' y1='-40' y2='-41'/>"), FOUND_NO_FALL },
    { HOLE ("<g hw:kind='plan' hw:tee='blue'/>"), FOUND_NO_SUCH_TEE },
    { HOLE ("<g hw:kind='plan' hw:hole='left'/>"), FOUND_NO_SUCH_HOLE },
    { ROOT ("hw:par='5'") TEE GREEN FLAG LINE "</svg>", FOUND_ODD_PAR },
    { ROOT ("hw:par='4'") TEE GREEN FLAG "<polyline hw:kind='line-of-play' points='0,0 0,-250'/></svg>", FOUND_LINE_OFF_GREEN },
    { ROOT ("hw:par='4'") TEE GREEN FLAG "<polyline hw:kind='line-of-play' points='0,-60 0,-300'/></svg>", FOUND_LINE_OFF_TEE },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) findings = findings_of (rows[i].text);
      ck_assert_uint_eq (findings->len, 1);
      const Finding *finding = findings->pdata[0];
      ck_assert_msg (finding->about == rows[i].about, "%s: %d", finding->what, finding->about);
    }
}
END_TEST

/* Mends the one thing found, in the way the finding says; what is found then is nothing. */
static void
mends (const char *text, Mend mend_kind)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (Hole) hole = svg_read_bytes (bytes, "test.svg", NULL, NULL);
  g_autoptr (GPtrArray) findings = svg_check_hole (hole);
  ck_assert_uint_eq (findings->len, 1);
  const Finding *finding = findings->pdata[0];
  ck_assert_msg (finding->mend_kind == mend_kind, "%s: %d", finding->what, finding->mend_kind);
  g_autoptr (Hole) mended = edit_mend (hole, finding->mend_kind, (size_t)MAX (finding->part, 0), &error);
  ck_assert_msg (mended != NULL, "%s: %s", finding->what, error ? error->message : "");
  g_autoptr (GPtrArray) left = svg_check_hole (mended);
  ck_assert_msg (left->len == 0, "%s", left->len ? ((Finding *)left->pdata[0])->what : "");
}

START_TEST (the_way_to_mend_a_finding_takes_it_away)
{
  mends (ROOT ("hw:par='4'") TEE GREEN LINE "</svg>", MEND_ADD_HOLE_LOCATION);
  mends (ROOT ("hw:par='4'") AREA_OF_TEE GREEN FLAG LINE "</svg>", MEND_ADD_TEE_MARKER);
  mends (HOLE ("<circle hw:kind='tee-marker' hw:name='red' cy='-40'/>"), MEND_MOVE_ONTO_AREA);
  mends (HOLE ("<circle hw:kind='hole-location' hw:name='back' cy='-320'/>"), MEND_MOVE_ONTO_AREA);
  mends (ROOT ("hw:par='4'") TEE GREEN FLAG "<polyline hw:kind='line-of-play' points='0,0 0,-250'/></svg>", MEND_LINE_TO_GREEN);
  mends (ROOT ("hw:par='4'") TEE GREEN FLAG "<polyline hw:kind='line-of-play' points='0,-60 0,-300'/></svg>",
         MEND_LINE_TO_GREEN);
  mends (HOLE ("<circle hw:kind='bunker' cx='90' r='4'/>"), MEND_GROW_SHEET);
  mends (HOLE ("<path hw:kind='bunker' d='M0-40h9l-9 9h9z'/>"), MEND_UNCROSS);
  mends (HOLE ("<path hw:kind='water' d='M0-40C30-70 -20-70 10-40z'/>"), MEND_UNCROSS);
  mends ("<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:par='4'>" TEE GREEN FLAG LINE "</svg>",
         MEND_GROW_SHEET);
}
END_TEST

START_TEST (what_has_no_way_to_mend_offers_none)
{
  static const char *const texts[] = {
    ROOT ("hw:par='4'") TEE FLAG LINE "</svg>",   /* no green to put anything on */
    ROOT ("hw:par='4'") GREEN FLAG LINE "</svg>", /* no tee to put a marker on */
    ROOT ("") TEE GREEN FLAG LINE "</svg>",
    HOLE ("<circle hw:kind='spot-height' cy='-40'/>"),
  };
  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GPtrArray) findings = findings_of (texts[i]);
      ck_assert_uint_eq (findings->len, 1);
      ck_assert_int_eq (((Finding *)findings->pdata[0])->mend_kind, MEND_NONE);
    }
}
END_TEST

START_TEST (markers_beside_their_areas_are_named)
{
  finds (HOLE ("\n<circle hw:kind='tee-marker' hw:name='red' cy='-40'/>"), FINDING_WARNING, 3,
         "\"red\" does not stand on a tee");
  finds (HOLE ("\n<circle hw:kind='hole-location' hw:name='back' cy='-320'/>"), FINDING_WARNING, 3,
         "\"back\" does not stand on a green");
  finds (HOLE ("<circle hw:kind='hole-location' hw:name='front' cx='2' cy='-300'/>"), FINDING_WARNING, 2, "called \"front\"");
}
END_TEST

START_TEST (a_line_of_play_joins_tee_and_green)
{
  finds (ROOT ("hw:par='4'") TEE GREEN FLAG "<polyline hw:kind='line-of-play' points='0,-60 0,-300'/></svg>", FINDING_WARNING,
         2, "does not begin at a tee");
  finds (ROOT ("hw:par='4'") TEE GREEN FLAG "<polyline hw:kind='line-of-play' points='0,0 0,-250'/></svg>", FINDING_WARNING, 2,
         "does not end on the green");
}
END_TEST

START_TEST (things_outside_the_drawing_are_named)
{
  finds (HOLE ("<path hw:kind='bunker' id='far-one' d='M90-90h9v9z'/>"), FINDING_WARNING, 2, "\"far one\" lies outside");
}
END_TEST

START_TEST (an_outline_that_crosses_itself_is_named)
{
  finds (HOLE ("<path hw:kind='bunker' d='M10-90l9 9v-9l-9 9z'/>"), FINDING_WARNING, 2, "crosses itself");
  g_autoptr (GPtrArray) touching
      = findings_of (HOLE ("<path hw:kind='bunker' d='M10-90l9 9h9l-9 0v9z M30-90h9v9h-9zm2 2h4v4h-4z'/>"));
  ck_assert_uint_eq (touching->len, 0);
}
END_TEST

START_TEST (shapes_without_a_kind_are_counted_once)
{
  finds (HOLE ("\n<rect width='3' height='3'/>"), FINDING_NOTE, 3, "a shape has no kind");
  finds (HOLE ("\n<rect width='3' height='3'/>\n<rect width='3' height='3'/>"), FINDING_NOTE, 3, "2 shapes have no kind");
}
END_TEST

START_TEST (readings_without_a_value_are_named)
{
  finds (HOLE ("<circle hw:kind='spot-height' cy='-20'/>"), FINDING_WARNING, 2, "no height");
  finds (HOLE ("<line hw:kind='slope' y1='-300' y2='-295'/>"), FINDING_WARNING, 2, "no steepness");
}
END_TEST

START_TEST (a_plan_names_what_is_there_and_aims_away_from_the_ball)
{
  finds (HOLE ("<g hw:kind='plan' hw:tee='blue'/>"), FINDING_WARNING, 2, "\"blue\"");
  finds (HOLE ("<g hw:kind='plan' hw:hole='blue'/>"), FINDING_WARNING, 2, "\"blue\"");
  finds (HOLE ("<g hw:kind='plan'><line hw:kind='shot' x1='1' x2='1'/></g>"), FINDING_WARNING, 2, "on the ball");
}
END_TEST

START_TEST (a_par_must_suit_the_length)
{
  /* 300 m: Rules of Handicapping, Appendix F has it as a 4 for men (220 to 450) and women (180 to 380). */
  finds (ROOT ("hw:par='3'") TEE GREEN FLAG LINE "</svg>", FINDING_WARNING, 2, "long for a par 3");
  finds (ROOT ("hw:par='5'") TEE GREEN FLAG LINE "</svg>", FINDING_WARNING, 2,
         "300 m (328 yd) from the tee marker \"white\" is short for a par 5");
  finds (ROOT ("hw:par='6'") TEE GREEN FLAG LINE "</svg>", FINDING_WARNING, 2, "short for a par 6");
}
END_TEST

START_TEST (no_more_is_told_than_anyone_reads)
{
  GString *text = g_string_new (ROOT ("hw:par='4'") TEE GREEN FLAG LINE);
  for (int i = 0; i < 1000; i++)
    g_string_append (text, "<circle hw:kind='spot-height' cy='-20'/>");
  g_string_append (text, "</svg>");
  g_autoptr (GPtrArray) findings = findings_of (text->str);
  ck_assert_uint_eq (findings->len, 201);
  ck_assert_ptr_nonnull (strstr (((Finding *)findings->pdata[200])->what, "more"));
  g_string_free (text, TRUE);
}
END_TEST

/* Rings by the thousand with thousands of edges each: comparing all pairs would take minutes. */
/* ---- courses ---- */

/* Plays from "white", straight; all of it but the facts is a good hole. */
static Hole *
course_hole (int number, int par, int stroke_index, double length_m, double altitude_m)
{
  HoleInfo info;
  hole_info_init (&info);
  info.number = number;
  info.par = par;
  info.stroke_index = stroke_index;
  info.altitude_m = altitude_m;
  Part *tee = part_new (KIND_TEE_MARKER), *green = part_new (KIND_GREEN);
  tee->name = g_strdup ("white");
  path_add_ellipse (&green->path, vec2 (0, length_m), 12, 12);
  const Part *parts[] = { part_seal (tee), part_seal (green) };
  return hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
}

static void
hole_unref_or_null (gpointer hole)
{
  if (hole)
    hole_unref (hole);
}

/* What the check says of these holes, one a line; each is a note. */
static char *
said_of (GPtrArray *holes)
{
  g_autoptr (GPtrArray) findings = svg_check_course ((const Hole *const *)holes->pdata, holes->len);
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < findings->len; i++)
    {
      const Finding *finding = findings->pdata[i];
      ck_assert_int_eq (finding->severity, FINDING_NOTE);
      ck_assert_uint_gt (strlen (finding->mend), 0);
      ck_assert_int_lt (finding->part, (int)holes->len);
      g_string_append_printf (text, "%s\n", finding->what);
    }
  return g_string_free (text, FALSE);
}

/* Holes of 350 m, par 4, with these numbers and stroke indices; -1 for a hole that cannot be read. */
static void
numbers_say (int (*numbers)[2], size_t n, const char *expected)
{
  g_autoptr (GPtrArray) holes = g_ptr_array_new_with_free_func (hole_unref_or_null);
  for (size_t i = 0; i < n; i++)
    g_ptr_array_add (holes, numbers[i][0] < 0 ? NULL : course_hole (numbers[i][0], 4, numbers[i][1], 350, NAN));
  g_autofree char *said = said_of (holes);
  ck_assert_str_eq (said, expected);
}
#define NUMBERS_SAY(expected, ...)                                                                                             \
  do                                                                                                                           \
    {                                                                                                                          \
      int numbers[][2] = { __VA_ARGS__ };                                                                                      \
      numbers_say (numbers, G_N_ELEMENTS (numbers), expected);                                                                 \
    }                                                                                                                          \
  while (0)

START_TEST (a_par_outside_appendix_f_is_noted_at_its_bounds)
{
  /* Rules of Handicapping (World Handicap System, 2024), Appendix F: women's least and men's most, metres. */
  static const struct
  {
    int par;
    double least_m, most_m;
  } rows[] = { { 3, 20, 240 }, { 4, 180, 450 }, { 5, 340, 650 }, { 6, 520, 900 } };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    for (int out = -1; out <= 1; out++)
      {
        g_autoptr (GPtrArray) holes = g_ptr_array_new_with_free_func (hole_unref_or_null);
        double length_m = out < 0 ? rows[i].least_m - 1 : out > 0 ? rows[i].most_m + 1 : (rows[i].least_m + rows[i].most_m) / 2;
        g_ptr_array_add (holes, course_hole (1, rows[i].par, 1, length_m, NAN));
        g_autofree char *said = said_of (holes);
        bool has_bound = out != 0 && !(out < 0 && rows[i].par == 3) && !(out > 0 && rows[i].par == 6);
        ck_assert_msg (!has_bound ? *said == '\0' : strstr (said, out < 0 ? "short" : "long") != NULL, "par %d, %g m: %s",
                       rows[i].par, length_m, said);
      }
}
END_TEST

START_TEST (high_up_the_table_of_pars_says_nothing)
{
  g_autoptr (GPtrArray) holes = g_ptr_array_new_with_free_func (hole_unref_or_null);
  g_ptr_array_add (holes, course_hole (1, 4, 1, 470, 700));
  g_autofree char *said = said_of (holes);
  ck_assert_str_eq (said, "");
}
END_TEST

START_TEST (a_course_in_order_gives_no_note)
{
  NUMBERS_SAY ("", { 1, 2 }, { 2, 1 }, { 3, 3 });
  /* a second nine, with the even stroke indices of the round */
  NUMBERS_SAY ("", { 10, 2 }, { 11, 18 }, { 12, 4 }, { 13, 6 }, { 14, 8 }, { 15, 10 }, { 16, 12 }, { 17, 14 }, { 18, 16 });
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  g_autofree char *said = said_of (none);
  ck_assert_str_eq (said, "");
}
END_TEST

START_TEST (two_rounds_have_each_their_stroke_indices)
{
  int numbers[36][2];
  for (int i = 0; i < 36; i++)
    {
      numbers[i][0] = i + 1;
      numbers[i][1] = i % 18 + 1;
    }
  numbers_say (numbers, 36, "");
  numbers_say (numbers, 27, "");
  numbers[35][1] = 1;
  numbers_say (numbers, 36, "the holes at places 19 and 36 have the same stroke index, 1\nno hole has the stroke index 18\n");
}
END_TEST

START_TEST (numbers_twice_and_left_out_are_named)
{
  NUMBERS_SAY ("the holes at places 1, 2 and 3 have the same number, 1\n", { 1, 1 }, { 1, 2 }, { 1, 3 });
  NUMBERS_SAY ("no hole has the number 2\n", { 1, 1 }, { 3, 2 }, { 4, 3 });
  NUMBERS_SAY ("no hole has the stroke index 1 and 2\n", { 1, 3 }, { 2, 4 }, { 3, 5 });
  NUMBERS_SAY ("the hole at place 2 has no stroke index\n", { 1, 1 }, { 2, 0 }, { 3, 3 });
  NUMBERS_SAY ("no hole has a stroke index\n", { 1, 0 }, { 2, 0 });
  NUMBERS_SAY ("no hole has the number 2\n", { 1, 1 }, { 999, 2 });
}
END_TEST

START_TEST (a_hole_that_cannot_be_read_is_passed_over)
{
  NUMBERS_SAY ("", { 1, 1 }, { -1, 0 }, { 3, 3 });
}
END_TEST

START_TEST (the_search_for_crossings_ends_soon)
{
  GString *text = g_string_new (ROOT ("hw:par='4'") TEE GREEN FLAG LINE "<path hw:kind='rough' d='");
  for (int i = 0; i < 40; i++)
    {
      g_string_append (text, "M0-100");
      for (int k = 1; k < 4000; k++)
        g_string_append_printf (text, " %d-%d", k % 2 ? k % 40 : 0, 100 + k % 100);
      g_string_append (text, "z");
    }
  g_string_append (text, "'/></svg>");
  g_autoptr (GPtrArray) findings = findings_of (text->str);
  ck_assert_uint_le (findings->len, 1);
  g_string_free (text, TRUE);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg check");
  TCase *findings = tcase_create ("findings");
  suite_add_tcase (suite, findings);
  tcase_add_test (findings, a_good_hole_gives_no_finding);
  tcase_add_test (findings, what_a_hole_cannot_do_without_is_an_error);
  tcase_add_test (findings, a_finding_names_its_part);
  tcase_add_test (findings, a_finding_says_what_it_is_about);
  tcase_add_test (findings, the_way_to_mend_a_finding_takes_it_away);
  tcase_add_test (findings, what_has_no_way_to_mend_offers_none);
  tcase_add_test (findings, markers_beside_their_areas_are_named);
  tcase_add_test (findings, a_line_of_play_joins_tee_and_green);
  tcase_add_test (findings, things_outside_the_drawing_are_named);
  tcase_add_test (findings, an_outline_that_crosses_itself_is_named);
  tcase_add_test (findings, shapes_without_a_kind_are_counted_once);
  tcase_add_test (findings, readings_without_a_value_are_named);
  tcase_add_test (findings, a_plan_names_what_is_there_and_aims_away_from_the_ball);
  tcase_add_test (findings, a_par_must_suit_the_length);
  tcase_add_test (findings, no_more_is_told_than_anyone_reads);
  tcase_add_test (findings, the_search_for_crossings_ends_soon);
  TCase *course = tcase_create ("courses");
  suite_add_tcase (suite, course);
  tcase_add_test (course, a_par_outside_appendix_f_is_noted_at_its_bounds);
  tcase_add_test (course, high_up_the_table_of_pars_says_nothing);
  tcase_add_test (course, a_course_in_order_gives_no_note);
  tcase_add_test (course, two_rounds_have_each_their_stroke_indices);
  tcase_add_test (course, numbers_twice_and_left_out_are_named);
  tcase_add_test (course, a_hole_that_cannot_be_read_is_passed_over);
  return suite;
}
