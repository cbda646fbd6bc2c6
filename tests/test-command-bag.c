// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the command bag: the filled-in bag, a bag fitted to recorded shots, both as files that read back. */
#define _GNU_SOURCE /* open_memstream */

#include "bag.h"
#include "command-runner.h"

#include <math.h>

static const char shots_text[] = "club,carry_m,side_m,total_m,note\n"
                                 "five,146,-6,150,\nfive,148,0,151,\nfive,150,-3,,\nfive,152,6,,\nfive,154,3,,\"high, right\"\n"
                                 "wedge,80,1,,\nwedge,82,1,,\nwedge,84,4,,\n";

static char *
said_out (const char *line)
{
  g_auto (Said) said = run (line);
  ck_assert_msg (said.status == 0, "%s", said.err);
  ck_assert_str_eq (said.err, "");
  return g_strdup (said.out);
}

/* What the command wrote, read back as a bag. */
static Bag *
read_back (const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = path_of (name);
  Bag *bag = bag_read_file (path, LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
  return bag;
}

START_TEST (the_table_tells_carries_spreads_and_gaps)
{
  write_file ("own.csv", "club,carry_m,carry_sd_m,side_sd_m,surfaces\ndriver,200,10,12,tee\nfive,150,5,6,\nsix,147,5,6,\n");
  g_autofree char *out = said_out ("bag %s/own.csv --units metres");
  ck_assert_str_eq (out, "Bag of 3 clubs, in metres; two of three shots carry from low to high; gaps are to the next club\n"
                         "club    carry  low  high  long sd  side sd  bias   gap  remarks\n"
                         "driver    200  190   210     10.0     12.0   0.0  50.0  off the tee only, wide gap below\n"
                         "five      150  145   155      5.0      6.0   0.0   3.0  narrow gap below\n"
                         "six       147  142   152      5.0      6.0   0.0     -\n");
}
END_TEST

START_TEST (the_level_fills_what_the_bag_lacks_and_is_named)
{
  write_file ("own.csv", "club,carry_yd\neight,150\n");
  g_autofree char *out = said_out ("bag %s/own.csv --level bogey-men --format csv");
  /* Course Rating System Manual, section 4.4: 20 yd wide and 25 deep at 150 yd; as an ellipse 6.75 and 8.43. */
  ck_assert (g_str_has_prefix (out, "club,carry_yd,carry_sd_yd,side_sd_yd,correlation,side_bias_yd,"));
  ck_assert_ptr_nonnull (strstr (out, "\r\neight,150,8.43"));
  ck_assert_ptr_nonnull (strstr (out, ",6.74"));
  ck_assert_ptr_nonnull (strstr (out, ",bogey-men,"));
}
END_TEST

START_TEST (csv_of_a_bag_is_the_same_bag_with_its_gaps_filled)
{
  write_file ("own.csv",
              "club,carry_yd,correlation,side_bias_yd,loft_deg,apex_yd,curve_yd,surfaces,mishit_pct,mishit_carry_pct\n"
              "\"the \"\"1\"\"\",185-195,0.25,-3,11,30,4,tee,8,60\nfive,150,,,,,,,,\n");
  g_autofree char *out = said_out ("bag %s/own.csv --level scratch-women --format csv -o %s/full.csv");
  g_autoptr (Bag) full = read_back ("full.csv");
  g_autoptr (GError) error = NULL;
  g_autofree char *path = path_of ("own.csv");
  g_autoptr (Bag) own = bag_read_file (path, LEVEL_SCRATCH_WOMEN, &error);
  for (size_t i = 0; i < bag_n_clubs (own); i++)
    {
      const Club *a = bag_club (own, i), *b = bag_club (full, i);
      const double before[] = { a->carry_m,  a->carry_sd_m, a->side_sd_m, a->correlation,   a->side_bias_m,
                                a->loft_deg, a->apex_m,     a->curve_m,   a->mishit_chance, a->mishit_carry_share };
      const double after[] = { b->carry_m,  b->carry_sd_m, b->side_sd_m, b->correlation,   b->side_bias_m,
                               b->loft_deg, b->apex_m,     b->curve_m,   b->mishit_chance, b->mishit_carry_share };
      ck_assert_str_eq (a->name, b->name);
      ck_assert (a->tee_only == b->tee_only);
      for (size_t k = 0; k < G_N_ELEMENTS (before); k++)
        ck_assert_msg (fabs (before[k] - after[k]) < 1e-12 || (isnan (before[k]) && isnan (after[k])), "column %zu", k);
    }
}
END_TEST

START_TEST (a_fit_tells_each_figure_with_its_error_and_which_shots_are_few)
{
  write_file ("shots.csv", shots_text);
  g_autofree char *out = said_out ("bag --fit %s/shots.csv --units metres");
  /* five: by hand mean 150, sd sqrt (40/4), its error sd / sqrt (5) and sd / sqrt (8); side sd sqrt (90/4), r = 48/60. */
  ck_assert_str_eq (
      out, "Fitted to the shots, in metres; \u00b1 is the standard error\n"
           "club   shots  carry        long sd    bias       side sd    correlation  poor %  their carry %  remarks\n"
           "five       5  150.0 \u00b1 1.4  3.2 \u00b1 1.1  0.0 \u00b1 2.1  4.7 \u00b1 1.7  0.80 \u00b1 0.18  -       -        "
           "      5 "
           "shots: too few to tell poor strikes apart\n"
           "wedge      3  82.0 \u00b1 1.2   -          2.0 \u00b1 1.0  -          -            -       -              3 shots: "
           "too few to tell a spread\n");
}
END_TEST

START_TEST (csv_of_a_fit_is_a_bag_that_reads_back)
{
  write_file ("shots.csv", shots_text);
  g_autofree char *none = said_out ("bag --fit %s/shots.csv --format csv -o %s/fitted.csv");
  ck_assert_str_eq (none, "");
  g_autoptr (Bag) bag = read_back ("fitted.csv");
  const Club *five = bag_find (bag, "five"), *wedge = bag_find (bag, "wedge");
  ck_assert_double_eq_tol (five->carry_m, 150, 1e-9);
  ck_assert_double_eq_tol (five->carry_sd_m, sqrt (10), 1e-9);
  ck_assert_double_eq_tol (five->correlation, 0.8, 1e-9);
  ck_assert (!five->spread_from_level && wedge->spread_from_level);
  ck_assert_double_eq_tol (wedge->side_bias_m, 2, 1e-9);
  g_autofree char *shown = said_out ("bag %s/fitted.csv");
  ck_assert_ptr_nonnull (strstr (shown, "Bag of 2 clubs"));
}
END_TEST

START_TEST (json_holds_the_table_by_its_name)
{
  write_file ("shots.csv", shots_text);
  g_autofree char *fit = said_out ("bag --fit %s/shots.csv --units metres --format json");
  ck_assert (g_str_has_prefix (fit, "{\n  \"fit\": [\n    {\"club\": \"five\", \"carry_m\": 150, \"carry_sd_m\": 3.16"));
  ck_assert_ptr_nonnull (strstr (fit, "\"mishit_pct\": null"));
  g_autofree char *clubs = said_out ("bag %s/bag.csv --units metres --format json");
  ck_assert (g_str_has_prefix (clubs, "{\n  \"clubs\": [\n    {\"club\": \"five\", \"carry_m\": 200,"));
}
END_TEST

START_TEST (help_names_the_columns_of_a_file_of_shots)
{
  g_autofree char *out = said_out ("bag --help");
  ck_assert (strstr (out, "carry_yd or carry_m") && strstr (out, "side_yd or side_m") && strstr (out, "--fit SHOTS"));
}
END_TEST

START_TEST (a_bag_of_too_many_clubs_is_warned_of_once)
{
  g_autoptr (GString) text = g_string_new ("club,carry_m\n");
  for (int i = 0; i < 15; i++)
    g_string_append_printf (text, "%d,%d\n", i, 60 + 10 * i);
  write_file ("many.csv", text->str);
  g_auto (Said) said = run ("bag %s/many.csv");
  g_autofree char *expected = g_strdup_printf (
      "holewright: %s/many.csv: 15 clubs are in the bag; the Rules of Golf allow at most 14 (Rule 4.1b)\n", folder);
  ck_assert_int_eq (said.status, 0);
  ck_assert_str_eq (said.err, expected);
}
END_TEST

START_TEST (the_table_of_lies_in_force_is_shown_and_reads_back_as_one)
{
  g_autofree char *usual = said_out ("bag %s/bag.csv --rows lies --format csv");
  ck_assert (g_str_has_prefix (usual, "lie,carry_pct,long_spread_pct,side_spread_pct,spin_pct,least_loft_deg,lacking_loft_pct,"
                                      "stance_pct\r\ntee,100,100,100,100,0,0,0\r\n"));
  ck_assert_ptr_nonnull (strstr (usual, "\r\nrough,93,187,187,60,20,2,100\r\n"));
  write_file ("usual.csv", usual);
  g_autofree char *path = path_of ("usual.csv");
  LieTable table, expected = lie_table_usual ();
  ck_assert (lie_table_read_file (path, &table, NULL));
  ck_assert_mem_eq (&table, &expected, sizeof table);
  write_file ("lies.csv", "lie,carry_pct\nrough,80\n");
  g_autofree char *own = said_out ("bag %s/bag.csv --rows lies --format csv");
  ck_assert_ptr_nonnull (strstr (own, "\r\nrough,80,187,"));
  g_autofree char *named = said_out ("bag %s/bag.csv --lies %s/usual.csv --rows lies --format csv");
  ck_assert_str_eq (named, usual);
}
END_TEST

/* How far along the hole a seven from the grass beside the sand comes down, metres. */
static double
carry_from_the_rough_m (const char *options)
{
  g_autofree char *line = g_strconcat (
      "carries %s/hole.svg --from 0,40 --aim 0,200 --club seven --units metres --format csv --rows shot ", options, NULL);
  g_autofree char *out = said_out (line);
  g_auto (GStrv) rows = g_strsplit (out, "\r\n", -1), cells = g_strsplit (rows[1], ",", -1);
  return g_ascii_strtod (cells[3], NULL) - 40;
}

START_TEST (a_shot_from_the_rough_is_played_by_the_table_beside_the_bag_or_the_one_that_is_named)
{
  ck_assert_double_eq_tol (carry_from_the_rough_m (""), 0.93 * 120, 1e-6);
  write_file ("lies.csv", "lie,carry_pct\nrough,80\n");
  write_file ("own.csv", "lie,carry_pct\nrough,50\n");
  ck_assert_double_eq_tol (carry_from_the_rough_m (""), 0.8 * 120, 1e-6);
  ck_assert_double_eq_tol (carry_from_the_rough_m ("--lies %s/own.csv"), 0.5 * 120, 1e-6);
}
END_TEST

START_TEST (wrong_usage_gives_2_and_wrong_input_1)
{
  write_file ("text.csv", "club,carry_yd,side_yd\nfive,150,1\nfive,far,2\n");
  write_file ("negative.csv", "club,carry_yd,side_yd\nfive,-150,1\n");
  write_file ("columns.csv", "date,weather\nMonday,fine\n");
  write_file ("putts.csv", "club,carry_yd,side_yd\nputter,0,0\n");
  assert_fails ("bag", 2, "either one bag file or --fit SHOTS");
  assert_fails ("bag %s/bag.csv %s/bag.csv", 2, "either one bag file or --fit SHOTS");
  assert_fails ("bag %s/bag.csv --fit %s/text.csv", 2, "either one bag file or --fit SHOTS");
  assert_fails ("bag %s/bag.csv --club five", 2, "does not know the option '--club'");
  assert_fails ("carries %s/hole.svg --fit %s/text.csv", 2, "does not know the option '--fit'");
  assert_fails ("bag %s/none.csv", 1, "none.csv: cannot be read");
  assert_fails ("bag --fit %s/none.csv", 1, "none.csv: cannot be read");
  assert_fails ("bag --fit %s", 1, "it is a folder");
  assert_fails ("bag --fit %s/text.csv", 1, "text.csv:3: carry_yd is \"far\"");
  assert_fails ("bag --fit %s/negative.csv", 1, "negative.csv:2: carry_yd is \"-150\"");
  assert_fails ("bag --fit %s/columns.csv", 1, "columns.csv:1: no column is called club");
  assert_fails ("bag --fit %s/putts.csv", 1, "putts.csv:1: these shots make no bag");
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("command-bag");
  TCase *tcase = tcase_create ("bag");
  tcase_add_checked_fixture (tcase, set_up, tear_down);
  const TTest *const tests[] = { the_table_tells_carries_spreads_and_gaps,
                                 the_level_fills_what_the_bag_lacks_and_is_named,
                                 csv_of_a_bag_is_the_same_bag_with_its_gaps_filled,
                                 a_fit_tells_each_figure_with_its_error_and_which_shots_are_few,
                                 csv_of_a_fit_is_a_bag_that_reads_back,
                                 json_holds_the_table_by_its_name,
                                 help_names_the_columns_of_a_file_of_shots,
                                 a_bag_of_too_many_clubs_is_warned_of_once,
                                 the_table_of_lies_in_force_is_shown_and_reads_back_as_one,
                                 a_shot_from_the_rough_is_played_by_the_table_beside_the_bag_or_the_one_that_is_named,
                                 wrong_usage_gives_2_and_wrong_input_1 };
  for (size_t i = 0; i < G_N_ELEMENTS (tests); i++)
    tcase_add_test (tcase, tests[i]);
  suite_add_tcase (suite, tcase);
  return suite;
}
