// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the command plan: of a hole and of a course, in every format. */
#define _GNU_SOURCE /* open_memstream */

#include "command-runner.h"

START_TEST (a_plan_is_shots_in_order_and_the_chance_of_each_score)
{
  g_auto (Said) shots = run ("plan %s/hole.svg --units metres --format csv"),
                total = run ("plan %s/hole.svg --units metres --format csv --rows total");
  ck_assert_int_eq (shots.status, 0);
  ck_assert (g_str_has_prefix (shots.out, "shot,club,swing,aim_x_m,aim_y_m,distance_m,plays_m,left_m,fairway,green,trouble,"
                                          "penalty,expected,next_club,next_costs,straight_costs\r\n1,"));
  ck_assert (g_str_has_prefix (total.out, "score,chance,expected_score\r\nall,1,"));
  /* Each shot leaves fewer strokes than the one before, and the tee shot's are the expected score. */
  g_auto (GStrv) lines = g_strsplit (shots.out, "\r\n", -1), rows = g_strsplit (total.out, "\r\n", -1);
  double expected = csv_number (shots.out, 1, 12), sum = 0, mean = 0;
  for (int row = 2; row + 1 < (int)g_strv_length (lines); row++)
    ck_assert_double_lt (csv_number (shots.out, row, 12), csv_number (shots.out, row - 1, 12));
  ck_assert_double_eq_tol (csv_number (total.out, 1, 2), expected, 1e-9);
  for (int row = 2; row + 1 < (int)g_strv_length (rows); row++)
    {
      sum += csv_number (total.out, row, 1);
      mean += csv_number (total.out, row, 0) * csv_number (total.out, row, 1);
    }
  /* Scores rarer than 1 in 2 000 are not told. */
  ck_assert_double_eq_tol (sum, 1, 5e-3);
  ck_assert_double_eq_tol (mean / sum, expected, 0.05);
}
END_TEST

START_TEST (a_plan_s_alternatives_cost_no_less_than_the_plan)
{
  g_auto (Said) json = run ("plan %s/hole.svg --compare --format json"),
                csv = run ("plan %s/hole.svg --compare --format csv --rows alternatives");
  ck_assert_int_eq (json.status, 0);
  ck_assert (g_str_has_prefix (json.out, "{\n  \"shots\": [\n    {\"shot\": 1, "));
  ck_assert_ptr_nonnull (strstr (json.out, "\n  \"total\": [\n"));
  ck_assert_ptr_nonnull (strstr (json.out, "\n  \"alternatives\": [\n    {\"plan\": \"suggested\", "));
  g_auto (GStrv) lines = g_strsplit (csv.out, "\r\n", -1);
  ck_assert_double_eq (csv_number (csv.out, 1, 7), 0);
  for (int row = 2; row + 1 < (int)g_strv_length (lines); row++)
    ck_assert_double_ge (csv_number (csv.out, row, 7), 0);
}
END_TEST

/* Strokes stand under one another, no coordinate is among them, and a long sentence goes on under itself. */
START_TEST (a_plan_s_tables_are_for_people)
{
  g_auto (Said) plan = run ("plan %s/hole.svg --compare");
  ck_assert_int_eq (plan.status, 0);
  ck_assert_ptr_null (strstr (plan.out, "aim"));
  ck_assert_ptr_nonnull (strstr (plan.out, "\nHow sure the tee club is\n"));
  ck_assert_ptr_nonnull (strstr (plan.out, "\nIn other winds\n"));
  ck_assert_ptr_nonnull (strstr (plan.out, ", and the chance of each\nscore  chance\n"));
  g_auto (GStrv) lines = g_strsplit (plan.out, "\n", -1);
  for (char **line = lines; *line != NULL; line++)
    ck_assert_msg (g_utf8_strlen (*line, -1) <= 140, "%s", *line);
  const char *others = strstr (plan.out, "\nsuggested ");
  ck_assert_ptr_nonnull (others);
  g_auto (GStrv) rows = g_strsplit (others + 1, "\n", -1);
  size_t width = strlen (rows[0]);
  ck_assert (g_str_has_suffix (rows[0], "  0.00"));
  for (size_t row = 1; *rows[row] != '\0'; row++)
    ck_assert_msg (strlen (rows[row]) == width && rows[row][width - 3] == '.', "%s", rows[row]);
}
END_TEST

START_TEST (a_plan_says_why_and_how_sure_it_is)
{
  g_auto (Said) people = run ("plan %s/hole.svg"), reasons = run ("plan %s/hole.svg --format csv --rows reasons"),
                sure = run ("plan %s/hole.svg --format csv --rows sureness"), shots = run ("plan %s/hole.svg --format csv");
  ck_assert_int_eq (people.status, 0);
  const char *why = strstr (people.out, "\nWhy these shots\nshot  why\n   1  ");
  ck_assert_ptr_nonnull (why);
  ck_assert_ptr_nonnull (strstr (why, " better than the "));
  ck_assert_ptr_nonnull (strstr (people.out, " best with a chance of "));
  ck_assert (g_str_has_prefix (reasons.out, "shot,why,aim_right_yd,mean_left_yd,risk,risk_chance,next_club,next_costs,"));
  ck_assert (g_str_has_prefix (sure.out, "club,expected,sd,best_chance,sureness\r\n"));
  ck_assert_double_eq_tol (csv_number (sure.out, 1, 1), csv_number (shots.out, 1, 12), 1e-6);
  ck_assert_str_eq (people.err, "");
}
END_TEST

/* The table of differences holds, line by line, what the table of plans says they cost. */
START_TEST (the_drawing_s_own_plan_is_compared_and_the_difference_adds_up)
{
  g_auto (Said) plans = run ("plan %s/hole.svg --compare --format csv --rows alternatives"),
                parts = run ("plan %s/hole.svg --compare --format csv --rows difference"),
                wind = run ("plan %s/hole.svg --compare --format csv --rows wind");
  ck_assert_int_eq (plans.status, 0);
  ck_assert_ptr_nonnull (strstr (plans.out, "\r\nown,"));
  ck_assert_ptr_nonnull (strstr (plans.out, "\r\nown-as-drawn,"));
  g_auto (GStrv) lines = g_strsplit (parts.out, "\r\n", -1);
  ck_assert_str_eq (lines[0], "plan,costs,penalty,trouble,rough,distance,green,next_shot,later_shots");
  for (int row = 1; row + 1 < (int)g_strv_length (lines); row++)
    {
      double sum = 0;
      for (int column = 2; column <= 8; column++)
        sum += csv_number (parts.out, row, column);
      ck_assert_double_eq_tol (sum, csv_number (parts.out, row, 1), 1e-9);
      ck_assert_double_eq_tol (sum, csv_number (plans.out, row + 1, 7), 1e-6);
    }
  ck_assert (g_str_has_prefix (wind.out, "axis,club,wind_mps,more_club,more_mps,less_club,less_mps\r\nhead,"));
  ck_assert_ptr_nonnull (strstr (wind.out, "\r\nfrom-left,"));
}
END_TEST

START_TEST (a_course_s_plan_adds_up_its_holes)
{
  write_file ("course.xml", COURSE_TEXT);
  write_file ("other.svg", hole_text);
  g_auto (Said) said = run ("plan %s --format csv");
  ck_assert_int_eq (said.status, 0);
  ck_assert (
      g_str_has_prefix (said.out, "hole,par,club,expected_score,over_par,length,penalty,sand,trees,rough,good_lies\r\n"));
  ck_assert_double_eq_tol (csv_number (said.out, 1, 3) + csv_number (said.out, 2, 3), csv_number (said.out, 3, 3), 1e-9);
  for (int row = 1; row <= 3; row++)
    {
      double lost = 0;
      for (int column = 5; column <= 10; column++)
        lost += csv_number (said.out, row, column);
      ck_assert_double_eq_tol (lost, csv_number (said.out, row, 4), 1e-6);
    }
}
END_TEST

START_TEST (a_course_s_plan_names_the_hole_that_has_none_and_tells_the_others)
{
  write_file ("course.xml", COURSE_TEXT);
  write_file ("other.svg", "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1' "
                           "viewBox='-50 -250 100 260'><rect hw:kind='green' x='-10' y='-210' width='20' height='20'/></svg>");
  g_auto (Said) said = run ("plan %s --format csv");
  ck_assert_int_ne (said.status, 0);
  ck_assert_ptr_nonnull (strstr (said.err, "other.svg:1: "));
  ck_assert_ptr_nonnull (strstr (said.err, "1 of 2 holes have no plan and are not in the sum"));
  ck_assert_double_eq_tol (csv_number (said.out, 1, 3), csv_number (said.out, 2, 3), 1e-9);
}
END_TEST

Suite *
suite_make (void)
{
  const TTest *const tests[] = { a_plan_is_shots_in_order_and_the_chance_of_each_score,
                                 a_plan_s_alternatives_cost_no_less_than_the_plan,
                                 a_plan_s_tables_are_for_people,
                                 a_plan_says_why_and_how_sure_it_is,
                                 the_drawing_s_own_plan_is_compared_and_the_difference_adds_up,
                                 a_course_s_plan_adds_up_its_holes,
                                 a_course_s_plan_names_the_hole_that_has_none_and_tells_the_others };
  Suite *suite = suite_create ("command-plan");
  TCase *plans = tcase_create ("plans");
  tcase_add_checked_fixture (plans, set_up, tear_down);
  tcase_set_timeout (plans, 60);
  for (size_t i = 0; i < G_N_ELEMENTS (tests); i++)
    tcase_add_test (plans, tests[i]);
  suite_add_tcase (suite, plans);
  return suite;
}
