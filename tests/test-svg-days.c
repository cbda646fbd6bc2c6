// SPDX-License-Identifier: GPL-3.0-or-later
/* Days kept with a hole: read, written, changed, and nothing else of the metadata touched. */
#include "suite.h"
#include "svg.h"

#include <string.h>

#define HEAD "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:hw=\"urn:holewright:hole:1\" hw:version=\"1\">"
#define TWO_DAYS                                                                                                               \
  HEAD "\n  <metadata>\n    <!-- kept -->\n    <hw:reading from=\"a\" to=\"b\" distance_m=\"12\"/>\n"                          \
       "    <hw:day name=\"Sunday\" wind_mps=\"5\" wind_from_deg=\"270\" firmness=\"firm\"/>\n"                                \
       "    <hw:day name=\"cold\" temperature_c=\"4\" pressure_pa=\"99000\" humidity=\"0.9\"/>\n  </metadata>\n</svg>\n"

static Hole *
read_text (const char *text, GPtrArray **findings)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (GError) error = NULL;
  Hole *hole = svg_read_bytes (bytes, "test.svg", findings, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "");
  return hole;
}

static char *
write_text (const Hole *hole)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = svg_write_bytes (hole, &error);
  ck_assert_msg (bytes != NULL, "%s", error ? error->message : "");
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

/* The hole with the days given, of which the first `n` count. */
static Hole *
with_days (const Hole *hole, const NamedDay *days, size_t n_days)
{
  HoleInfo info = *hole_info (hole);
  info.days = (NamedDay *)days;
  info.n_days = n_days;
  return hole_with_info (hole, &info);
}

START_TEST (the_days_of_a_document_are_read)
{
  g_autoptr (Hole) hole = read_text (TWO_DAYS, NULL);
  const HoleInfo *info = hole_info (hole);
  ck_assert_uint_eq (info->n_days, 2);
  ck_assert_str_eq (info->days[0].name, "Sunday");
  ck_assert_double_eq (info->days[0].day.wind_mps, 5);
  ck_assert_double_eq (info->days[0].day.wind_from_deg, 270);
  ck_assert_str_eq (info->days[0].day.firmness, "firm");
  ck_assert_double_nan (info->days[0].day.temperature_c);
  ck_assert_double_eq (info->days[1].day.temperature_c, 4);
  ck_assert_double_eq (info->days[1].day.pressure_pa, 99000);
  ck_assert_double_eq (info->days[1].day.humidity, 0.9);
}
END_TEST

START_TEST (an_untouched_document_comes_back_byte_for_byte)
{
  g_autoptr (Hole) hole = read_text (TWO_DAYS, NULL);
  g_autofree char *text = write_text (hole);
  ck_assert_str_eq (text, TWO_DAYS);
}
END_TEST

START_TEST (a_day_taken_out_leaves_the_rest_of_the_metadata)
{
  g_autoptr (Hole) hole = read_text (TWO_DAYS, NULL);
  g_autoptr (Hole) fewer = with_days (hole, hole_info (hole)->days, 1);
  g_autofree char *text = write_text (fewer);
  ck_assert_ptr_nonnull (strstr (text, "<!-- kept -->"));
  ck_assert_ptr_nonnull (strstr (text, "<hw:reading from=\"a\" to=\"b\" distance_m=\"12\"/>"));
  ck_assert_ptr_null (strstr (text, "cold"));
  g_autoptr (Hole) back = read_text (text, NULL);
  ck_assert (hole_equal (fewer, back));
}
END_TEST

START_TEST (a_day_is_kept_in_a_document_without_metadata)
{
  g_autoptr (Hole) hole = read_text (HEAD "<rect hw:kind=\"green\" width=\"5\" height=\"5\"/></svg>", NULL);
  NamedDay day = { .name = (char *)"a \"gale\" & rain" };
  day_init (&day.day);
  day.day.wind_mps = 14.5;
  day.day.firmness = (char *)"soft";
  g_autoptr (Hole) kept = with_days (hole, &day, 1);
  ck_assert (!hole_equal (hole, kept));
  g_autofree char *text = write_text (kept);
  g_autoptr (Hole) back = read_text (text, NULL);
  ck_assert (hole_equal (kept, back));
  g_autoptr (Hole) none = with_days (back, NULL, 0);
  g_autofree char *without = write_text (none);
  ck_assert_ptr_null (strstr (without, "gale"));
}
END_TEST

START_TEST (a_plan_has_the_air_of_its_day)
{
  g_autoptr (Hole) hole = read_text (HEAD "<g hw:kind=\"plan\" hw:pressure_pa=\"98000\" hw:humidity=\"0.25\"><line "
                                          "hw:kind=\"shot\" x2=\"0\" y2=\"-90\"/></g></svg>",
                                     NULL);
  const Day *day = &hole_part (hole, 0)->day;
  ck_assert_double_eq (day->pressure_pa, 98000);
  ck_assert_double_eq (day->humidity, 0.25);
}
END_TEST

START_TEST (a_day_without_a_name_or_with_a_wrong_number_is_named)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (Hole) hole = read_text (
      HEAD "\n<metadata><hw:day wind_mps=\"3\"/>\n<hw:day name=\"x\" wind_mps=\"900\" humidity=\"wet\"/></metadata></svg>",
      &findings);
  ck_assert_uint_eq (findings->len, 3);
  const Finding *first = g_ptr_array_index (findings, 0), *second = g_ptr_array_index (findings, 1);
  ck_assert_uint_eq (first->line, 2);
  ck_assert_uint_eq (second->line, 3);
  ck_assert_uint_eq (hole_info (hole)->n_days, 1);
  ck_assert (!day_is_given (&hole_info (hole)->days[0].day));
}
END_TEST

START_TEST (a_day_elsewhere_is_left_alone)
{
  const char *text = HEAD "<metadata/><g><metadata><hw:day name=\"x\" wind_mps=\"3\"/></metadata></g></svg>";
  g_autoptr (Hole) hole = read_text (text, NULL);
  ck_assert_uint_eq (hole_info (hole)->n_days, 0);
  g_autofree char *written = write_text (hole);
  ck_assert_str_eq (written, text);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg-days");
  TCase *days = tcase_create ("days");
  tcase_add_test (days, the_days_of_a_document_are_read);
  tcase_add_test (days, an_untouched_document_comes_back_byte_for_byte);
  tcase_add_test (days, a_day_taken_out_leaves_the_rest_of_the_metadata);
  tcase_add_test (days, a_day_is_kept_in_a_document_without_metadata);
  tcase_add_test (days, a_plan_has_the_air_of_its_day);
  tcase_add_test (days, a_day_without_a_name_or_with_a_wrong_number_is_named);
  tcase_add_test (days, a_day_elsewhere_is_left_alone);
  suite_add_tcase (suite, days);
  return suite;
}
