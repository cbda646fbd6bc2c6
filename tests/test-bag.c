// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of bag: reading a bag file, its errors in the golfer's words, filled-in spreads, choosing a club. */
#include "bag.h"
#include "suite.h"
#include "units.h"

#include <locale.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gstdio.h>

#define EXACT_M 1e-12
#define NAME "bag.csv"
#define COMMA_LOCALE "de_DE.UTF-8"

/* ---- building blocks ---- */

static Bag *
read_bytes (const char *data, size_t size, GError **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  return bag_read_bytes (bytes, NAME, LEVEL_SCRATCH_MEN, error);
}

static Bag *
read_text (const char *text)
{
  g_autoptr (GError) error = NULL;
  Bag *bag = read_bytes (text, strlen (text), &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "no error");
  return bag;
}

/* The whole message is compared, because the golfer reads it. */
static void
assert_refused (const char *text, const char *message)
{
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (read_bytes (text, strlen (text), &error));
  ck_assert (g_error_matches (error, BAG_ERROR, BAG_ERROR_FORMAT));
  ck_assert_str_eq (error->message, message);
}

/* One club under the two needed columns and one more. */
static void
assert_cell_refused (const char *column, const char *value, const char *message)
{
  g_autofree char *text = g_strdup_printf ("club,carry_m,%s\n5 iron,150,%s\n", column, value);
  assert_refused (text, message);
}

/* ---- known answers ---- */

START_TEST (yards_become_metres)
{
  g_autoptr (Bag) bag
      = read_text ("club,carry_yd,carry_sd_yd,side_sd_yd,side_bias_yd,apex_yd,curve_yd\n5 iron,170,5,8,-2,30,4\n");
  const Club *club = bag_club (bag, 0);
  ck_assert_str_eq (club->name, "5 iron");
  ck_assert_double_eq_tol (club->carry_m, 170 * 0.9144, EXACT_M);
  ck_assert_double_eq_tol (club->carry_sd_m, 5 * 0.9144, EXACT_M);
  ck_assert_double_eq_tol (club->side_sd_m, 8 * 0.9144, EXACT_M);
  ck_assert_double_eq_tol (club->side_bias_m, -2 * 0.9144, EXACT_M);
  ck_assert_double_eq_tol (club->apex_m, 30 * 0.9144, EXACT_M);
  ck_assert_double_eq_tol (club->curve_m, 4 * 0.9144, EXACT_M);
  ck_assert (!club->spread_from_level);
}
END_TEST

START_TEST (every_column_is_read_in_any_order_and_others_are_passed_over)
{
  g_autoptr (Bag) bag
      = read_text ("mishit_carry_pct,Surfaces,made,mishit_pct,correlation,CARRY_M,loft_deg,Club,side_sd_m,carry_sd_m\n"
                   "60,tee,2019,5,-0.25,210.5,10.5,driver,12,7\n");
  const Club *club = bag_club (bag, 0);
  ck_assert_str_eq (club->name, "driver");
  ck_assert_double_eq (club->carry_m, 210.5);
  ck_assert_double_eq (club->carry_sd_m, 7);
  ck_assert_double_eq (club->side_sd_m, 12);
  ck_assert_double_eq (club->correlation, -0.25);
  ck_assert_double_eq (club->loft_deg, 10.5);
  ck_assert_double_eq (club->mishit_chance, 0.05);
  ck_assert_double_eq (club->mishit_carry_share, 0.6);
  ck_assert (club->tee_only);
  ck_assert_ptr_null (bag_warnings (bag)[0]);
}
END_TEST

START_TEST (what_is_not_given_is_nothing_or_not_a_number)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m\n5 iron,150\n");
  const Club *club = bag_club (bag, 0);
  ck_assert_double_eq (club->correlation, 0);
  ck_assert_double_eq (club->side_bias_m, 0);
  ck_assert_double_eq (club->curve_m, 0);
  ck_assert_double_eq (club->mishit_chance, 0);
  ck_assert (isnan (club->loft_deg) && isnan (club->apex_m) && isnan (club->mishit_carry_share));
  ck_assert (!club->tee_only);
}
END_TEST

START_TEST (a_range_is_its_middle_with_two_of_three_shots_between_its_ends)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m,side_sd_m\n5 wood,185-195,9\n");
  const Club *club = bag_club (bag, 0);
  ck_assert_double_eq_tol (club->carry_m, 190, EXACT_M);
  /* The upper end is Phi^-1 (5/6) deviations out; 0.967422 in tables of the normal distribution. */
  ck_assert_double_eq_tol (club->carry_sd_m, 5 / 0.967422, 1e-5);
  double z = 5 / club->carry_sd_m;
  ck_assert_double_eq_tol (erf (z / sqrt (2)), 2.0 / 3, 1e-14);
  ck_assert (!club->spread_from_level);
}
END_TEST

START_TEST (a_spread_column_wins_over_the_spread_of_a_range)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m,carry_sd_m\n5 wood,185-195,7\n7 wood,170 - 180,\n");
  ck_assert_double_eq_tol (bag_find (bag, "5 wood")->carry_sd_m, 7, EXACT_M);
  ck_assert_double_eq_tol (bag_find (bag, "7 wood")->carry_sd_m, 5 / TWO_OF_THREE_LINE, EXACT_M);
}
END_TEST

START_TEST (a_missing_spread_comes_from_the_level)
{
  /* Course Rating System Manual, section 4.4: a scratch man's 150 yd shot, 15 yd wide and 16 deep; as an ellipse 5.06 and 5.40. */
  g_autoptr (Bag) bag = read_text ("club,carry_yd,side_sd_yd\n8 iron,150,\n7 iron,150,4\n");
  const Club *both = bag_find (bag, "8 iron"), *one = bag_find (bag, "7 iron");
  ck_assert_double_eq_tol (both->side_sd_m / METRES_PER_YARD, 5.06, 0.005);
  ck_assert_double_eq_tol (both->carry_sd_m / METRES_PER_YARD, 5.40, 0.005);
  ck_assert (both->spread_from_level);
  ck_assert_double_eq_tol (one->side_sd_m / METRES_PER_YARD, 4, EXACT_M);
  ck_assert_double_eq_tol (one->carry_sd_m / METRES_PER_YARD, 5.40, 0.005);
  ck_assert (one->spread_from_level);
}
END_TEST

START_TEST (between_two_rows_the_table_is_straight_and_beyond_its_ends_in_proportion)
{
  double side_m, long_m, side_90_m, long_90_m;
  accuracy_spread (LEVEL_SCRATCH_MEN, 160 * METRES_PER_YARD, &side_m, &long_m);
  ck_assert_double_eq_tol (side_m / METRES_PER_YARD * 2 * TWO_OF_THREE_ELLIPSE, (15 + 18) / 2.0, 1e-9);
  ck_assert_double_eq_tol (long_m / METRES_PER_YARD * 2 * TWO_OF_THREE_ELLIPSE, (16 + 17) / 2.0, 1e-9);
  accuracy_spread (LEVEL_SCRATCH_MEN, 90 * METRES_PER_YARD, &side_90_m, &long_90_m);
  accuracy_spread (LEVEL_SCRATCH_MEN, 45 * METRES_PER_YARD, &side_m, &long_m);
  ck_assert_double_eq_tol (side_m, side_90_m / 2, EXACT_M);
  ck_assert_double_eq_tol (long_m, long_90_m / 2, EXACT_M);
  accuracy_spread (LEVEL_BOGEY_WOMEN, 300 * METRES_PER_YARD, &side_m, &long_m);
  ck_assert_double_eq_tol (side_m / METRES_PER_YARD * 2 * TWO_OF_THREE_ELLIPSE, 48, 1e-9);
  ck_assert_double_eq_tol (long_m / METRES_PER_YARD * 2 * TWO_OF_THREE_ELLIPSE, 60, 1e-9);
}
END_TEST

START_TEST (levels_are_known_by_their_words)
{
  const char *const words[] = { "scratch-men", "scratch-women", "bogey-men", "bogey-women" };
  for (int i = 0; i < N_LEVELS; i++)
    {
      Level level = N_LEVELS;
      ck_assert_str_eq (level_token ((Level)i), words[i]);
      ck_assert (level_from_token (words[i], &level));
      ck_assert_int_eq (level, i);
    }
  Level level = LEVEL_BOGEY_MEN;
  ck_assert (!level_from_token ("tour", &level));
  ck_assert (!level_from_token (NULL, &level));
  ck_assert_int_eq (level, LEVEL_BOGEY_MEN);
}
END_TEST

START_TEST (quotes_commas_and_line_ends_inside_a_value_are_read_as_rfc_4180_says)
{
  g_autoptr (Bag) bag
      = read_text ("club,notes,carry_m\r\n\"the \"\"old\"\" 5, taped\",\"two\r\nlines\",150\r\n\"6 iron\",,\"140\"");
  ck_assert_uint_eq (bag_n_clubs (bag), 2);
  ck_assert_str_eq (bag_club (bag, 0)->name, "the \"old\" 5, taped");
  ck_assert_str_eq (bag_club (bag, 1)->name, "6 iron");
  ck_assert_double_eq (bag_club (bag, 1)->carry_m, 140);
}
END_TEST

START_TEST (a_byte_order_mark_blank_lines_and_every_line_end_are_accepted)
{
  const char *const ends[] = { "\n", "\r\n", "\r" };
  for (size_t i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      const char *e = ends[i];
      g_autofree char *text
          = g_strconcat ("\xEF\xBB\xBF", e, "club, carry_m", e, "  ", e, "5 iron , 150 ", e, e, "6 iron,140", NULL);
      g_autoptr (Bag) bag = read_text (text);
      ck_assert_uint_eq (bag_n_clubs (bag), 2);
      ck_assert_str_eq (bag_club (bag, 0)->name, "5 iron");
    }
}
END_TEST

START_TEST (clubs_are_listed_longest_first_and_those_alike_as_written)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m\nwedge,80\ndriver,220\na,150\nb,150\n");
  const char *const order[] = { "driver", "a", "b", "wedge" };
  for (size_t i = 0; i < G_N_ELEMENTS (order); i++)
    ck_assert_str_eq (bag_club (bag, i)->name, order[i]);
}
END_TEST

START_TEST (a_club_is_found_by_name_whatever_the_case)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m\nBr\303\274cke 5,150\n");
  ck_assert_ptr_eq (bag_find (bag, "BR\303\234CKE 5"), bag_club (bag, 0));
  ck_assert_ptr_null (bag_find (bag, "5"));
  ck_assert_ptr_null (bag_find (bag, NULL));
}
END_TEST

START_TEST (the_club_whose_carry_comes_nearest_is_chosen)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m,surfaces\ndriver,210,tee\n3 wood,190,\n5 iron,150,\nwedge,80,\n");
  double swing = 0;
  ck_assert_str_eq (bag_choose (bag, 250, true, &swing)->name, "driver");
  ck_assert_double_eq (swing, 1);
  ck_assert_str_eq (bag_choose (bag, 250, false, &swing)->name, "3 wood");
  ck_assert_str_eq (bag_choose (bag, 170, true, &swing)->name, "3 wood");
  ck_assert_str_eq (bag_choose (bag, 169, true, &swing)->name, "5 iron");
  ck_assert_str_eq (bag_choose (bag, 81, true, &swing)->name, "wedge");
  ck_assert_double_eq (swing, 1);
  ck_assert_str_eq (bag_choose (bag, 60, true, &swing)->name, "wedge");
  ck_assert_double_eq_tol (swing, 0.75, 1e-15);
}
END_TEST

START_TEST (a_bag_of_clubs_for_the_tee_only_has_none_off_it)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m,surfaces\ndriver,210,TEE\n");
  double swing = 0.3;
  ck_assert_ptr_null (bag_choose (bag, 200, false, &swing));
  ck_assert_double_eq (swing, 0.3);
}
END_TEST

START_TEST (more_than_fourteen_clubs_are_used_with_a_warning_that_cites_the_rule)
{
  g_autoptr (GString) text = g_string_new ("club,carry_m\n");
  for (int i = 1; i <= 14; i++)
    g_string_append_printf (text, "club %d,%d\n", i, 60 + 10 * i);
  g_autoptr (Bag) fourteen = read_text (text->str);
  ck_assert_ptr_null (bag_warnings (fourteen)[0]);
  g_string_append (text, "one more,50\n");
  g_autoptr (Bag) fifteen = read_text (text->str);
  ck_assert_uint_eq (bag_n_clubs (fifteen), 15);
  ck_assert_str_eq (bag_warnings (fifteen)[0],
                    "bag.csv: 15 clubs are in the bag; the Rules of Golf allow at most 14 (Rule 4.1b)");
  ck_assert_ptr_null (bag_warnings (fifteen)[1]);
}
END_TEST

START_TEST (a_column_that_lacks_only_its_unit_is_pointed_out)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m,side_sd\n5 iron,150,8\n");
  ck_assert_str_eq (bag_warnings (bag)[0],
                    "bag.csv:1: the column side_sd has no unit and was not used; call it side_sd_yd or side_sd_m");
}
END_TEST

START_TEST (a_comma_locale_changes_nothing)
{
  ck_assert_msg (setlocale (LC_ALL, COMMA_LOCALE) != NULL, "the locale with a decimal comma was not built");
  g_autoptr (Bag) bag = read_text ("club,carry_m\n5 iron,150.25\n");
  assert_refused ("club,carry_m\n5 iron,\"150,25\"\n",
                  "bag.csv:2: carry_m is \"150,25\"; write a number such as 190 or a range such as 185-195");
  setlocale (LC_ALL, "C");
  ck_assert_double_eq (bag_club (bag, 0)->carry_m, 150.25);
}
END_TEST

START_TEST (a_club_s_launch_carries_and_curves_as_the_club_does)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m,loft_deg,apex_m,curve_m\ndriver,210,10.5,,8\n5 iron,150,26,,\n"
                                   "wedge,90,,22,-1\nutility,170,,,\n");
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      g_autoptr (GError) error = NULL;
      const Club *club = bag_club (bag, i);
      FlightInput input = { .direction = { 0, 1 }, .launch = club->launch, .air = air_standard () };
      Flight flight;
      ck_assert (flight_solve (&input, &flight, &error));
      Vec2 landing = flight_landing (&flight).at;
      ck_assert_double_eq_tol (vec2_length (landing), club->carry_m, 2e-3); /* solved to 1 mm, flown to 1 mm */
      ck_assert_double_eq_tol (landing.x, club->curve_m, 2e-3);
      ck_assert (club->lands.x == landing.x && club->lands.y == landing.y);
      if (!isnan (club->apex_m))
        ck_assert_double_eq_tol (flight.apex_m, club->apex_m, 0.01);
    }
}
END_TEST

/* ---- what cannot be used ---- */

START_TEST (a_club_that_no_ball_flies_like_names_its_line)
{
  assert_cell_refused (
      "loft_deg", "0",
      "bag.csv:2: 5 iron: a club's loft lies between 0 and 90 degrees; a driver has about 10, a wedge 45 to 64");
  assert_cell_refused (
      "loft_deg", "90",
      "bag.csv:2: 5 iron: a club's loft lies between 0 and 90 degrees; a driver has about 10, a wedge 45 to 64");
  assert_cell_refused ("apex_m", "99",
                       "bag.csv:2: 5 iron: no ball carries that far and rises that high; change the carry or the height of the "
                       "flight");
  assert_cell_refused ("curve_m", "100", "bag.csv:2: 5 iron: no ball of this carry curves that much; give less curve");
  assert_refused ("club,carry_m\n5 iron,150\ncannon,450\n",
                  "bag.csv:3: cannon: no club carries that; give a carry of 1 to 400 m (437 yd)");
}
END_TEST

START_TEST (a_file_without_content_says_what_to_write)
{
  const char *message = "bag.csv:1: the file is empty; write a header row such as club,carry_yd and then a club a line";
  assert_refused ("", message);
  assert_refused ("\xEF\xBB\xBF", message);
  assert_refused ("\n\r\n  \n", message);
  assert_refused ("\n\nclub,carry_yd\n", "bag.csv:3: there are no clubs below the header; write a club a line");
}
END_TEST

START_TEST (a_missing_column_is_named)
{
  assert_refused (
      "club,carry\ndriver,200\n",
      "bag.csv:1: no column is called carry_yd or carry_m; name the columns in the first row, such as club,carry_yd");
  assert_refused ("name,carry_m\ndriver,200\n",
                  "bag.csv:1: no column is called club; name the columns in the first row, such as club,carry_yd");
  assert_refused ("driver,200\n",
                  "bag.csv:1: no column is called club; name the columns in the first row, such as club,carry_yd");
}
END_TEST

START_TEST (semicolons_and_tabs_are_recognised)
{
  const char *message = "bag.csv:1: the values are not separated by commas; save the file as comma-separated values";
  assert_refused ("club;carry_m\ndriver;200\n", message);
  assert_refused ("club\tcarry_m\ndriver\t200\n", message);
}
END_TEST

START_TEST (a_column_given_twice_is_refused)
{
  assert_refused ("club,carry_yd,carry_m\ndriver,220,200\n",
                  "bag.csv:1: there is both carry_yd and carry_m; keep one of the two columns");
  assert_refused ("club,carry_m,side_sd_m,side_sd_yd\ndriver,200,10,11\n",
                  "bag.csv:1: there is both side_sd_yd and side_sd_m; keep one of the two columns");
  assert_refused ("club,carry_m,Club\ndriver,200,x\n", "bag.csv:1: the column Club is there twice; keep one of them");
}
END_TEST

START_TEST (a_club_given_twice_names_both_lines)
{
  assert_refused ("club,carry_m\n5 iron,150\n6 iron,140\n5 Iron,152\n",
                  "bag.csv:4: 5 Iron is already on line 2; give each club one line and its own name");
}
END_TEST

START_TEST (a_carry_must_be_a_positive_number)
{
  const char *const words = "; write a number such as 190 or a range such as 185-195";
  const char *const range = "; write a carry of more than 1 metre and at most 500 (547 yards)";
  const struct
  {
    const char *value, *end;
  } cases[] = {
    { "far", words }, { "nan", words }, { "inf", words }, { "0x96", words }, { "1e999", words },
    { "0", range },   { "-5", range },  { "1e6", range }, { "501", range },  { "0-10", range },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = g_strdup_printf ("club,carry_m\n5 iron,150\n6 iron,%s\n", cases[i].value);
      g_autofree char *message = g_strdup_printf ("bag.csv:3: carry_m is \"%s\"%s", cases[i].value, cases[i].end);
      assert_refused (text, message);
    }
  assert_refused ("club,carry_m\n5 iron,\n",
                  "bag.csv:2: 5 iron has no carry; write how far it carries, such as 190 or 185-195");
  assert_refused ("carry_m,club\n150\n", "bag.csv:2: a club has no name; write one in the column club");
}
END_TEST

START_TEST (every_other_number_keeps_within_its_range)
{
  assert_cell_refused ("correlation", "1.01", "bag.csv:2: correlation is \"1.01\"; write a number from -1 to 1");
  assert_cell_refused ("correlation", "-2", "bag.csv:2: correlation is \"-2\"; write a number from -1 to 1");
  assert_cell_refused ("correlation", "some", "bag.csv:2: correlation is \"some\"; write a number with a decimal point");
  assert_cell_refused ("side_sd_yd", "-1", "bag.csv:2: side_sd_yd is \"-1\"; write a number 0 or more and at most 100 metres (109 yards)");
  assert_cell_refused ("carry_sd_m", "nan", "bag.csv:2: carry_sd_m is \"nan\"; write a number with a decimal point");
  assert_cell_refused ("mishit_pct", "101", "bag.csv:2: mishit_pct is \"101\"; write a number from 0 to 100 per cent");
  assert_cell_refused ("loft_deg", "95", "bag.csv:2: loft_deg is \"95\"; write a number from 0 to 90 degrees");
  assert_cell_refused ("surfaces", "grass",
                       "bag.csv:2: surfaces is \"grass\"; write tee for a club played off the tee only, or leave it empty");
}
END_TEST

START_TEST (more_values_than_headings_are_refused)
{
  assert_refused ("club,carry_m\n5 iron,150,5\n",
                  "bag.csv:2: there are 3 values under 2 headings; write decimals with a point and put "
                  "a text with a comma in quotes");
}
END_TEST

START_TEST (broken_quotes_name_the_line_where_they_begin)
{
  assert_refused ("club,carry_m\n\"5 iron,150\n6 iron,140\n",
                  "bag.csv:2: a quotation mark is never closed; close it, or double it where it belongs to the value");
  assert_refused (
      "club,carry_m\n5 \"iron\",150\n",
      "bag.csv:2: a quotation mark stands inside a value; put the whole value in quotes and double the marks inside it");
  assert_refused (
      "club,carry_m\n\"5\" iron,150\n",
      "bag.csv:2: text follows a closing quotation mark; put the whole value in quotes and double the marks inside it");
}
END_TEST

START_TEST (lines_are_counted_through_values_of_several_lines)
{
  assert_refused ("club,notes,carry_m\n5 iron,\"a\nb\nc\",150\n6 iron,,far\n",
                  "bag.csv:5: carry_m is \"far\"; write a number such as 190 or a range such as 185-195");
}
END_TEST

START_TEST (a_long_wrong_value_is_cut_short_in_the_message)
{
  assert_refused (
      "club,carry_m\n5 iron,\"as far as the old oak by the\nthird bend of the stream\"\n",
      "bag.csv:2: carry_m is \"as far as the old oak by the t...\"; write a number such as 190 or a range such as 185-195");
}
END_TEST

static void
assert_bytes_refused (const char *data, size_t size, const char *message)
{
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (read_bytes (data, size, &error));
  ck_assert_str_eq (error->message, message);
}

START_TEST (what_is_not_utf8_text_is_refused)
{
  const char zero[] = "club,carry_m\n5 iron\0,150\n",
             latin[] = "club,carry_m\n\nBr\xFC"
                       "cke,150\n",
             wide[] = "\xFF\xFE"
                      "c\0l\0u\0b\0";
  assert_bytes_refused (zero, sizeof zero - 1,
                        "bag.csv:2: this is not UTF-8 text; save the bag as comma-separated values in UTF-8");
  assert_bytes_refused (latin, sizeof latin - 1,
                        "bag.csv:3: this is not UTF-8 text; save the bag as comma-separated values in UTF-8");
  assert_bytes_refused (wide, sizeof wide - 1,
                        "bag.csv:1: this is not UTF-8 text; save the bag as comma-separated values in UTF-8");
}
END_TEST

START_TEST (a_file_too_large_for_a_bag_is_refused)
{
  size_t size = 1024 * 1024 + 1;
  g_autofree char *data = g_malloc (size);
  memset (data, '\n', size);
  assert_bytes_refused (data, size, "bag.csv:1: the file is larger than 1 MiB and cannot be a bag; choose another file");
}
END_TEST

START_TEST (files_are_read_and_those_that_cannot_be_say_why)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_dir_make_tmp ("bag-XXXXXX", &error);
  ck_assert_ptr_nonnull (folder);
  g_autofree char *path = g_build_filename (folder, "mine.csv", NULL), *missing = g_build_filename (folder, "none.csv", NULL);
  ck_assert (g_file_set_contents (path, "club,carry_m\n5 iron,150\n", -1, &error));
  g_autoptr (Bag) bag = bag_read_file (path, LEVEL_BOGEY_MEN, &error);
  ck_assert_ptr_nonnull (bag);
  ck_assert_uint_eq (bag_n_clubs (bag), 1);

  const char *const unreadable[] = { missing, folder, "/dev/zero" };
  const char *const reasons[] = { NULL, "it is a folder", "it is not an ordinary file" };
  for (size_t i = 0; i < G_N_ELEMENTS (unreadable); i++)
    {
      g_autoptr (GError) refusal = NULL;
      ck_assert_ptr_null (bag_read_file (unreadable[i], LEVEL_BOGEY_MEN, &refusal));
      ck_assert (g_error_matches (refusal, BAG_ERROR, BAG_ERROR_READ));
      ck_assert (g_str_has_prefix (refusal->message, unreadable[i]));
      ck_assert (reasons[i] == NULL || strstr (refusal->message, reasons[i]) != NULL);
    }
  g_remove (path);
  g_rmdir (folder);
}
END_TEST

/* ---- invariants ---- */

START_TEST (no_file_cut_short_and_no_byte_changed_crashes_the_reader)
{
  const char whole[]
      = "\xEF\xBB\xBF"
        "club,carry_yd,notes,side_sd_m,correlation\r\n\"dri\"\"ver\",215-225,\"a\r\nb\",12,0.3\r\n5 iron,170,,,-.5\n";
  size_t size = sizeof whole - 1, n_read = 0;
  for (size_t i = 0; i <= size; i++)
    for (int c = -1; c < 256; c += c < 0 ? 1 : 5)
      {
        g_autofree char *data = g_memdup2 (whole, sizeof whole);
        if (i < size && c >= 0)
          data[i] = (char)c;
        g_autoptr (GError) error = NULL;
        g_autoptr (Bag) bag = read_bytes (data, c < 0 ? i : size, &error);
        ck_assert ((bag == NULL) == (error != NULL));
        n_read += bag != NULL;
        for (size_t k = 0; bag != NULL && k < bag_n_clubs (bag); k++)
          {
            const Club *club = bag_club (bag, k);
            ck_assert (isfinite (club->carry_m) && isfinite (club->carry_sd_m) && isfinite (club->side_sd_m));
            ck_assert (club->carry_m > 0 && club->carry_sd_m >= 0 && club->side_sd_m >= 0 && fabs (club->correlation) <= 1);
          }
      }
  ck_assert_uint_gt (n_read, 1000);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("bag");

  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, yards_become_metres);
  tcase_add_test (known, every_column_is_read_in_any_order_and_others_are_passed_over);
  tcase_add_test (known, what_is_not_given_is_nothing_or_not_a_number);
  tcase_add_test (known, a_range_is_its_middle_with_two_of_three_shots_between_its_ends);
  tcase_add_test (known, a_spread_column_wins_over_the_spread_of_a_range);
  tcase_add_test (known, a_missing_spread_comes_from_the_level);
  tcase_add_test (known, between_two_rows_the_table_is_straight_and_beyond_its_ends_in_proportion);
  tcase_add_test (known, levels_are_known_by_their_words);
  tcase_add_test (known, quotes_commas_and_line_ends_inside_a_value_are_read_as_rfc_4180_says);
  tcase_add_test (known, a_byte_order_mark_blank_lines_and_every_line_end_are_accepted);
  tcase_add_test (known, clubs_are_listed_longest_first_and_those_alike_as_written);
  tcase_add_test (known, a_club_is_found_by_name_whatever_the_case);
  tcase_add_test (known, the_club_whose_carry_comes_nearest_is_chosen);
  tcase_add_test (known, a_bag_of_clubs_for_the_tee_only_has_none_off_it);
  tcase_add_test (known, more_than_fourteen_clubs_are_used_with_a_warning_that_cites_the_rule);
  tcase_add_test (known, a_column_that_lacks_only_its_unit_is_pointed_out);
  tcase_add_test (known, a_comma_locale_changes_nothing);
  tcase_add_test (known, a_club_s_launch_carries_and_curves_as_the_club_does);
  suite_add_tcase (suite, known);

  TCase *refused = tcase_create ("what cannot be used");
  tcase_add_test (refused, a_file_without_content_says_what_to_write);
  tcase_add_test (refused, a_missing_column_is_named);
  tcase_add_test (refused, semicolons_and_tabs_are_recognised);
  tcase_add_test (refused, a_column_given_twice_is_refused);
  tcase_add_test (refused, a_club_given_twice_names_both_lines);
  tcase_add_test (refused, a_carry_must_be_a_positive_number);
  tcase_add_test (refused, every_other_number_keeps_within_its_range);
  tcase_add_test (refused, more_values_than_headings_are_refused);
  tcase_add_test (refused, broken_quotes_name_the_line_where_they_begin);
  tcase_add_test (refused, lines_are_counted_through_values_of_several_lines);
  tcase_add_test (refused, a_long_wrong_value_is_cut_short_in_the_message);
  tcase_add_test (refused, what_is_not_utf8_text_is_refused);
  tcase_add_test (refused, a_file_too_large_for_a_bag_is_refused);
  tcase_add_test (refused, files_are_read_and_those_that_cannot_be_say_why);
  tcase_add_test (refused, a_club_that_no_ball_flies_like_names_its_line);
  suite_add_tcase (suite, refused);

  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, no_file_cut_short_and_no_byte_changed_crashes_the_reader);
  suite_add_tcase (suite, invariants);
  return suite;
}
