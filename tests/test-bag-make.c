// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of bags that are made: a level's usual bag, clubs once more, sums and ranges typed, standard errors kept and lost, the bags of a folder. */
#include "bag.h"
#include "suite.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define NAME "bag.csv"
/* Nine decimals of a yard are written. */
#define WRITTEN_M 1e-9

/* ---- building blocks ---- */

static Bag *
read_text (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  Bag *bag = bag_read_bytes (bytes, NAME, LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "no error");
  return bag;
}

static void
assert_written (const Bag *bag, const char *expected)
{
  g_autoptr (GBytes) bytes = bag_write_bytes (bag);
  g_autofree char *text = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  ck_assert_str_eq (text, expected);
}

static Bag *
typed (const Bag *bag, BagColumn column, const char *text, LengthUnit unit)
{
  g_autoptr (GError) error = NULL;
  Bag *after = bag_with_cell (bag, 0, column, text, unit, &error);
  ck_assert_msg (after != NULL, "%s", error != NULL ? error->message : "no error");
  return after;
}

/* ---- a usual bag ---- */

START_TEST (the_drives_of_usual_bags_are_those_of_the_model_golfers)
{
  /* Course Rating System Manual: the model golfers drive 250, 210, 200 and 150 yd, 20 yd of which are roll. */
  const struct
  {
    Level level;
    double drive_yd;
  } models[]
      = { { LEVEL_SCRATCH_MEN, 250 }, { LEVEL_SCRATCH_WOMEN, 210 }, { LEVEL_BOGEY_MEN, 200 }, { LEVEL_BOGEY_WOMEN, 150 } };
  for (size_t i = 0; i < G_N_ELEMENTS (models); i++)
    {
      g_autoptr (Bag) bag = bag_new_usual (NAME, UNIT_YARDS, models[i].level);
      ck_assert_str_eq (bag_club (bag, 0)->name, "driver");
      ck_assert_double_eq_tol (bag_club (bag, 0)->carry_m / METRES_PER_YARD, models[i].drive_yd - 20, WRITTEN_M);
      ck_assert (bag_club (bag, 0)->tee_only && !bag_club (bag, 1)->tee_only);
    }
}
END_TEST

START_TEST (a_usual_bag_of_every_level_keeps_the_rules_and_has_no_narrow_gap)
{
  for (Level level = 0; level < N_LEVELS; level++)
    for (LengthUnit unit = UNIT_YARDS; unit <= UNIT_METRES; unit++)
      {
        BagGap gap;
        g_autoptr (Bag) bag = bag_new_usual (NAME, unit, level);
        ck_assert_uint_le (bag_n_clubs (bag), BAG_MOST_CLUBS);
        ck_assert_ptr_null (bag_warnings (bag)[0]);
        ck_assert_int_eq (bag_level (bag), level);
        for (size_t i = 0; i < bag_n_clubs (bag); i++)
          {
            double carry = unit_from_metres (unit, bag_club (bag, i)->carry_m);
            ck_assert_double_eq_tol (carry, round (carry), 1e-6);
            ck_assert (bag_club (bag, i)->spread_from_level);
            ck_assert (!bag_gap (bag, i, &gap) || gap.kind != GAP_NARROW);
          }
      }
}
END_TEST

/* ---- one club more ---- */

START_TEST (one_club_more_goes_into_the_middle_of_the_widest_gap)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd\na,200\nb,190\nc,150\nd,140\n");
  ck_assert_double_eq_tol (bag_propose_carry_m (bag, UNIT_YARDS) / METRES_PER_YARD, 170, WRITTEN_M);
  ck_assert_double_eq_tol (bag_propose_carry_m (bag, UNIT_METRES), 155, WRITTEN_M);
  g_autoptr (Bag) one = read_text ("club,carry_yd\na,200\n");
  ck_assert_double_eq_tol (bag_propose_carry_m (one, UNIT_YARDS) / METRES_PER_YARD, 180, WRITTEN_M);
  g_autoptr (Bag) none = bag_new (NAME, UNIT_YARDS, LEVEL_SCRATCH_MEN);
  ck_assert_double_eq_tol (bag_propose_carry_m (none, UNIT_YARDS) / METRES_PER_YARD, 150, WRITTEN_M);
}
END_TEST

START_TEST (a_name_that_is_taken_gets_a_number)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd\nWedge,90\nwedge 2,80\n");
  g_autofree char *third = bag_free_name (bag, "wedge"), *own = bag_free_name (bag, "putter");
  ck_assert_str_eq (third, "wedge 3");
  ck_assert_str_eq (own, "putter");
}
END_TEST

START_TEST (a_club_once_more_has_all_that_its_row_holds)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = read_text ("mine,club,carry_yd,notes\r\nx,driver,220,\"a, b\"\r\n,wedge,80-90");
  g_autoptr (Bag) first = bag_duplicating_club (bag, 0, &error);
  assert_written (first, "mine,club,carry_yd,notes\r\nx,driver,220,\"a, b\"\r\nx,driver 2,220,\"a, b\"\r\n,wedge,80-90");
  g_autoptr (Bag) last = bag_duplicating_club (bag, 1, &error);
  assert_written (last, "mine,club,carry_yd,notes\r\nx,driver,220,\"a, b\"\r\n,wedge,80-90\r\n,wedge 2,80-90");
}
END_TEST

/* ---- typing ---- */

START_TEST (sums_are_taken_wherever_a_length_is)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd,side_bias_yd\nwedge,90,1\n");
  g_autoptr (Bag) carry = typed (bag, BAG_COLUMN_CARRY, "140+12", UNIT_YARDS);
  assert_written (carry, "club,carry_yd,side_bias_yd\nwedge,152,1\n");
  g_autoptr (Bag) mixed = typed (bag, BAG_COLUMN_CARRY, "140 yd + 3 ft", UNIT_METRES);
  assert_written (mixed, "club,carry_yd,side_bias_yd\nwedge,141,1\n");
  g_autoptr (Bag) bias = typed (bag, BAG_COLUMN_SIDE_BIAS, "2 - 5", UNIT_YARDS);
  assert_written (bias, "club,carry_yd,side_bias_yd\nwedge,90,-3\n");
}
END_TEST

START_TEST (a_range_typed_takes_the_place_of_a_spread_of_its_own)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd,carry_sd_yd,carry_sd_se_yd,shots\nwedge,90,12,2,20\n");
  g_autoptr (Bag) after = typed (bag, BAG_COLUMN_CARRY, "85-95", UNIT_YARDS);
  assert_written (after, "club,carry_yd,carry_sd_yd,carry_sd_se_yd,shots\nwedge,85-95,,,20\n");
  ck_assert_double_eq_tol (bag_club (after, 0)->carry_sd_m / METRES_PER_YARD, 5 / TWO_OF_THREE_LINE, WRITTEN_M);
  ck_assert (!bag_club (after, 0)->carry_sd_from_level && bag_club (after, 0)->side_sd_from_level);
}
END_TEST

/* ---- standard errors ---- */

START_TEST (standard_errors_are_read_with_the_figures)
{
  g_autoptr (Bag) bag
      = read_text ("club,carry_yd,carry_se_yd,side_bias_se_m,correlation_se,mishit_se_pct,shots\nwedge,90,1.5,2,0.2,4,20\n");
  const ClubErrors *errors = &bag_club (bag, 0)->errors;
  ck_assert_uint_eq (errors->n_shots, 20);
  ck_assert_double_eq_tol (errors->carry_m, 1.5 * METRES_PER_YARD, WRITTEN_M);
  ck_assert_double_eq (errors->side_bias_m, 2);
  ck_assert_double_eq (errors->correlation, 0.2);
  ck_assert_double_eq (errors->mishit_chance, 0.04);
  ck_assert (isnan (errors->carry_sd_m) && isnan (errors->side_sd_m) && isnan (errors->mishit_carry_share));
}
END_TEST

START_TEST (a_column_of_the_golfer_s_own_that_is_called_shots_is_passed_over)
{
  const char *const own[] = { "many", "-3", "2.5", "", "1e30" };
  for (size_t i = 0; i < G_N_ELEMENTS (own); i++)
    {
      g_autofree char *text = g_strdup_printf ("club,carry_yd,carry_se_yd,shots\nwedge,90,1,%s\n", own[i]);
      g_autoptr (Bag) bag = read_text (text);
      ck_assert_uint_eq (bag_club (bag, 0)->errors.n_shots, 0);
      assert_written (bag, text);
    }
}
END_TEST

START_TEST (a_figure_that_is_typed_over_loses_its_standard_error)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd,carry_se_yd,side_sd_yd,side_sd_se_yd,shots\nwedge,90,1.5,6,2,20\n");
  g_autoptr (Bag) carry = typed (bag, BAG_COLUMN_CARRY, "92", UNIT_YARDS);
  assert_written (carry, "club,carry_yd,carry_se_yd,side_sd_yd,side_sd_se_yd,shots\nwedge,92,,6,2,20\n");
  Club club = *bag_club (bag, 0);
  club.side_sd_m = 5 * METRES_PER_YARD;
  g_autoptr (Bag) side = bag_with_club (bag, 0, &club, NULL);
  assert_written (side, "club,carry_yd,carry_se_yd,side_sd_yd,side_sd_se_yd,shots\nwedge,90,1.5,5,,20\n");
}
END_TEST

/* ---- the bags of a folder ---- */

static void
put (const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  ck_assert (g_file_set_contents (path, text, -1, NULL));
}

START_TEST (the_bags_of_a_folder_are_told_by_their_headers)
{
  g_autofree char *folder = g_dir_make_tmp ("bags-XXXXXX", NULL);
  ck_assert_ptr_nonnull (folder);
  const char *const files[][2] = { { "partner.csv", "carry_m,Club\n200,driver\n" },
                                   { "cold day.CSV", "\xEF\xBB\xBF\n\nclub,CARRY_yd\nmistake,far\n" },
                                   { "shots.csv", "club,carry_yd,side_yd\ndriver,200,3\n" },
                                   { "lies.csv", "lie,carry_pct\nrough,90\n" },
                                   { "empty.csv", "" },
                                   { "notes.txt", "club,carry_yd\ndriver,200\n" },
                                   { ".hidden.csv", "club,carry_yd\ndriver,200\n" } };
  for (size_t i = 0; i < G_N_ELEMENTS (files); i++)
    put (folder, files[i][0], files[i][1]);
  g_autoptr (GPtrArray) bags = bag_list_folder (folder);
  ck_assert_uint_eq (bags->len, 2);
  ck_assert (g_path_is_absolute (bags->pdata[0]));
  ck_assert (g_str_has_suffix (bags->pdata[0], "/cold day.CSV"));
  ck_assert (g_str_has_suffix (bags->pdata[1], "/partner.csv"));
  for (size_t i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *path = g_build_filename (folder, files[i][0], NULL);
      g_remove (path);
    }
  g_rmdir (folder);
}
END_TEST

START_TEST (a_folder_that_is_not_there_has_no_bags_and_a_device_is_none)
{
  g_autoptr (GPtrArray) bags = bag_list_folder ("/no/such/folder");
  ck_assert_uint_eq (bags->len, 0);
  ck_assert (!bag_is_bag_file ("/dev/zero"));
  ck_assert (!bag_is_bag_file ("/no/such/file.csv"));
}
END_TEST

Suite *
suite_make (void)
{
  const struct
  {
    const char *name;
    const TTest *tests[8];
  } cases[] = {
    { "a usual bag",
      { the_drives_of_usual_bags_are_those_of_the_model_golfers,
        a_usual_bag_of_every_level_keeps_the_rules_and_has_no_narrow_gap } },
    { "one club more",
      { one_club_more_goes_into_the_middle_of_the_widest_gap, a_name_that_is_taken_gets_a_number,
        a_club_once_more_has_all_that_its_row_holds } },
    { "typing", { sums_are_taken_wherever_a_length_is, a_range_typed_takes_the_place_of_a_spread_of_its_own } },
    { "standard errors",
      { standard_errors_are_read_with_the_figures, a_column_of_the_golfer_s_own_that_is_called_shots_is_passed_over,
        a_figure_that_is_typed_over_loses_its_standard_error } },
    { "the bags of a folder",
      { the_bags_of_a_folder_are_told_by_their_headers, a_folder_that_is_not_there_has_no_bags_and_a_device_is_none } },
  };
  Suite *suite = suite_create ("bag-make");
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TCase *tcase = tcase_create (cases[i].name);
      for (size_t k = 0; k < G_N_ELEMENTS (cases[i].tests) && cases[i].tests[k] != NULL; k++)
        tcase_add_test (tcase, cases[i].tests[k]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
