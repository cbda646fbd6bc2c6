// SPDX-License-Identifier: GPL-3.0-or-later
/* What is said about holes that read well but would not play well. */
#include "suite.h"
#include "svg.h"

#include <string.h>

/* A hole with nothing to say about: par 4 of 300 m, to be spoilt one thing at a time. */
#define ROOT(facts)                                                                                                            \
  "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' viewBox='-50 -350 100 400' " facts ">\n"
#define TEE "<rect hw:kind='tee' x='-5' y='-5' width='10' height='10'/><circle hw:kind='tee-marker' hw:name='white' r='0.5'/>"
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
  finds (ROOT ("hw:par='4'") TEE GREEN LINE "</svg>", FINDING_WARNING, 0, "no hole location");
  finds (ROOT ("hw:par='4'") TEE GREEN FLAG "</svg>", FINDING_NOTE, 0, "no line of play");
  finds (ROOT ("") TEE GREEN FLAG LINE "</svg>", FINDING_NOTE, 0, "no par");
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
  return suite;
}
