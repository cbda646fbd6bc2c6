// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the table of lies: the usual one, reading a golfer's own, writing it back. */
#include "bag.h"
#include "suite.h"

#include <glib/gstdio.h>
#include <string.h>

#define NAME "lies.csv"

static LieTable
read_table (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  LieTable table;
  ck_assert_msg (lie_table_read_bytes (bytes, NAME, &table, &error), "%s", error != NULL ? error->message : "no error");
  return table;
}

static void
assert_refused (const char *text, const char *message)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  LieTable table = lie_table_usual (), before = table;
  ck_assert (!lie_table_read_bytes (bytes, NAME, &table, &error));
  ck_assert_str_eq (error->message, message);
  ck_assert_mem_eq (&table, &before, sizeof table);
}

static char *
written (const LieTable *table, const char *before)
{
  g_autoptr (GBytes) old = before != NULL ? g_bytes_new (before, strlen (before)) : NULL;
  g_autoptr (GBytes) bytes = lie_table_write_bytes (table, old);
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

/* ---- known answers ---- */

START_TEST (the_rough_widens_the_pattern_as_published_approaches_do)
{
  /* James and Rees 2008: at 100 to 200 yd tour players miss by 4.6 to 5.3 % from the fairway, from the rough by about 4.3 points more. */
  LieTable table = lie_table_usual ();
  double fairway = (4.6 + 5.3) / 2, rough = fairway + 4.3;
  ck_assert_double_eq_tol (table.effects[LIE_ROUGH].long_factor, rough / fairway, 0.005);
  ck_assert_double_eq_tol (table.effects[LIE_ROUGH].side_factor, rough / fairway, 0.005);
}
END_TEST

START_TEST (tee_fairway_and_places_of_free_relief_change_nothing)
{
  const Lie clean[] = { LIE_TEE, LIE_FAIRWAY, LIE_GREEN, LIE_PATH, LIE_BUILDING };
  LieTable table = lie_table_usual ();
  for (size_t i = 0; i < G_N_ELEMENTS (clean); i++)
    {
      LieEffect effect = table.effects[clean[i]];
      ck_assert (effect.carry_factor == 1 && effect.long_factor == 1 && effect.side_factor == 1 && effect.spin_factor == 1);
    }
}
END_TEST

START_TEST (a_golfer_s_own_figures_take_the_place_of_the_usual_ones)
{
  LieTable table = read_table ("mine,LIE,carry_pct,spin_pct\nx,Rough,90,\n,sand,,80.5\n"), usual = lie_table_usual ();
  ck_assert_double_eq (table.effects[LIE_ROUGH].carry_factor, 0.9);
  ck_assert_double_eq (table.effects[LIE_SAND].spin_factor, 0.805);
  ck_assert_double_eq (table.effects[LIE_ROUGH].spin_factor, usual.effects[LIE_ROUGH].spin_factor);
  ck_assert_mem_eq (&table.effects[LIE_TREES], &usual.effects[LIE_TREES], sizeof (LieEffect));
}
END_TEST

START_TEST (only_what_differs_is_written_and_all_else_stays)
{
  const char before[] = "mine, lie ,carry_pct\r\nx,\"rough\",90.0\r\n\r\n";
  LieTable table = read_table (before);
  g_autofree char *same = written (&table, before);
  ck_assert_str_eq (same, before);
  table.effects[LIE_ROUGH].carry_factor = 0.875;
  table.effects[LIE_SAND].side_factor = 1.5;
  g_autofree char *after = written (&table, before);
  ck_assert_str_eq (after, "mine, lie ,carry_pct,side_spread_pct\r\nx,\"rough\",87.5\r\n,sand,,150\r\n\r\n");
}
END_TEST

START_TEST (the_usual_table_is_written_whole_and_reads_back)
{
  LieTable usual = lie_table_usual ();
  g_autofree char *text = written (&usual, NULL);
  ck_assert (g_str_has_prefix (
      text, "lie,carry_pct,long_spread_pct,side_spread_pct,spin_pct,least_loft_deg,lacking_loft_pct,stance_pct\n"
            "tee,100,100,100,100,0,0,0\nfairway,100,100,100,100,0,0,100\n"));
  LieTable again = read_table (text);
  ck_assert_mem_eq (&again, &usual, sizeof usual);
  g_autofree char *in_place_of_rubbish = written (&usual, "no table");
  ck_assert_str_eq (in_place_of_rubbish, text);
}
END_TEST

static Club
club_of (double loft_deg, double carry_m)
{
  Club club;
  club_init (&club);
  club.loft_deg = loft_deg;
  club.carry_m = carry_m;
  return club;
}

START_TEST (a_club_that_lacks_loft_for_the_lie_carries_less_by_what_it_lacks)
{
  LieTable table = read_table ("lie,carry_pct,least_loft_deg,lacking_loft_pct\nsand,90,24,3\ntrees,100,64,20\n");
  Club driver = club_of (10, 220), iron = club_of (30, 150), plain = club_of (NAN, 150);
  /* 14 degrees are lacking: 42 per cent. */
  ck_assert_double_eq_tol (lie_effect_on (&table, LIE_SAND, &driver).carry_factor, 0.9 * (1 - 0.42), 1e-12);
  ck_assert_double_eq (lie_effect_on (&table, LIE_SAND, &iron).carry_factor, 0.9);
  /* 150 m without a loft is a club of 30 degrees. */
  ck_assert_double_eq (lie_effect_on (&table, LIE_SAND, &plain).carry_factor, 0.9);
  ck_assert_double_eq (lie_effect_on (&table, LIE_TREES, &driver).carry_factor, LEAST_LIE_CARRY);
}
END_TEST

START_TEST (a_bag_s_table_of_lies_stands_beside_it_and_goes_with_every_edit)
{
  g_autofree char *folder = g_dir_make_tmp ("hw-lies-XXXXXX", NULL);
  g_autofree char *bag_path = g_build_filename (folder, "bag.csv", NULL),
                  *lies_path = g_build_filename (folder, "lies.csv", NULL);
  ck_assert (g_file_set_contents (bag_path, "club,carry_m\n7 iron,140\n", -1, NULL));
  LieTable usual = lie_table_usual ();
  g_autoptr (Bag) without = bag_read_file (bag_path, LEVEL_SCRATCH_MEN, NULL);
  ck_assert_mem_eq (bag_lies (without), &usual, sizeof usual);
  ck_assert (g_file_set_contents (lies_path, "lie,carry_pct\nrough,90\n", -1, NULL));
  g_autoptr (Bag) with = bag_read_file (bag_path, LEVEL_SCRATCH_MEN, NULL);
  g_autoptr (Bag) edited = bag_with_cell (with, 0, BAG_COLUMN_CARRY, "150", UNIT_METRES, NULL);
  g_autoptr (Bag) filled = bag_with_level (edited, LEVEL_BOGEY_MEN);
  g_autoptr (Bag) other = bag_with_lies (filled, &usual);
  ck_assert_double_eq (bag_lies (with)->effects[LIE_ROUGH].carry_factor, 0.9);
  ck_assert_double_eq (bag_lies (filled)->effects[LIE_ROUGH].carry_factor, 0.9);
  ck_assert_mem_eq (bag_lies (other), &usual, sizeof usual);
  ck_assert_double_eq (bag_club (other, 0)->carry_m, 150);
  ck_assert (g_file_set_contents (lies_path, "lie,carry_pct\nrough,900\n", -1, NULL));
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (bag_read_file (bag_path, LEVEL_SCRATCH_MEN, &error));
  g_autofree char *sentence = g_strdup_printf ("%s:2: carry_pct is \"900\"; write a number from 10 to 120 per cent", lies_path);
  ck_assert_str_eq (error->message, sentence);
  g_remove (lies_path);
  g_remove (bag_path);
  g_rmdir (folder);
}
END_TEST

/* ---- what cannot be used ---- */

START_TEST (a_table_that_cannot_be_used_names_its_line)
{
  assert_refused ("", "lies.csv:1: the file is empty; write a header row such as lie,carry_pct and then a lie a line");
  assert_refused ("lie,carry_pct\n", "lies.csv:1: there are no lies below the header; write a lie a line");
  assert_refused ("carry_pct\n90\n",
                  "lies.csv:1: no column is called lie; name the columns in the first row, such as lie,carry_pct");
  assert_refused ("lie,carry_pct\nrough,90\nmud,80\n",
                  "lies.csv:3: lie is \"mud\"; write one of tee, fairway, first-cut, rough, deep-rough, fringe, green, sand, "
                  "waste, penalty-area, trees, path, building");
  assert_refused ("lie,carry_pct\nrough,90\nRough,80\n", "lies.csv:3: rough is there twice; give each lie one line");
  assert_refused ("lie,carry_pct\nrough,0\n", "lies.csv:2: carry_pct is \"0\"; write a number from 10 to 120 per cent");
  assert_refused ("lie,carry_pct\nrough,nan\n", "lies.csv:2: carry_pct is \"nan\"; write a number with a decimal point");
  assert_refused ("lie,carry_pct\n,90\n", "lies.csv:2: a line names no lie; write one in the column lie");
}
END_TEST

/* ---- invariants ---- */

START_TEST (no_trouble_lengthens_a_carry_or_narrows_a_pattern)
{
  LieTable table = lie_table_usual ();
  for (int lie = 0; lie < N_LIES; lie++)
    {
      LieEffect effect = table.effects[lie];
      ck_assert (effect.carry_factor <= 1 && effect.long_factor >= 1 && effect.side_factor >= 1 && effect.spin_factor <= 1);
    }
  /* A longer club from the same lie goes no farther than the one that gets out cleanly: a degree is worth 1.5 per cent of the carry. */
  for (int lie = 0; lie < N_LIES; lie++)
    ck_assert (table.effects[lie].least_loft_rad == 0 || table.effects[lie].lacking_loss * PI / 180 > 0.015);
  ck_assert_double_lt (table.effects[LIE_DEEP_ROUGH].carry_factor, table.effects[LIE_ROUGH].carry_factor);
  ck_assert_double_lt (table.effects[LIE_ROUGH].carry_factor, table.effects[LIE_FIRST_CUT].carry_factor);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("bag-lies");
  TCase *tcase = tcase_create ("lies");
  const TTest *const tests[] = { the_rough_widens_the_pattern_as_published_approaches_do,
                                 tee_fairway_and_places_of_free_relief_change_nothing,
                                 a_golfer_s_own_figures_take_the_place_of_the_usual_ones,
                                 only_what_differs_is_written_and_all_else_stays,
                                 a_club_that_lacks_loft_for_the_lie_carries_less_by_what_it_lacks,
                                 a_bag_s_table_of_lies_stands_beside_it_and_goes_with_every_edit,
                                 the_usual_table_is_written_whole_and_reads_back,
                                 a_table_that_cannot_be_used_names_its_line,
                                 no_trouble_lengthens_a_carry_or_narrows_a_pattern };
  for (size_t i = 0; i < G_N_ELEMENTS (tests); i++)
    tcase_add_test (tcase, tests[i]);
  suite_add_tcase (suite, tcase);
  return suite;
}
