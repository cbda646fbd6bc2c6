// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of bags as values: edits by number and as typed, writing that keeps what was not touched, levels, gaps between clubs. */
#include "bag.h"
#include "suite.h"
#include "units.h"

#include <math.h>
#include <string.h>

#define NAME "bag.csv"
/* Nine decimals of a yard are written. */
#define WRITTEN_M 1e-9

/* ---- building blocks ---- */

static Bag *
read_level (const char *text, Level level)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  Bag *bag = bag_read_bytes (bytes, NAME, level, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "no error");
  return bag;
}

static Bag *
read_text (const char *text)
{
  return read_level (text, LEVEL_SCRATCH_MEN);
}

static void
assert_written (const Bag *bag, const char *expected)
{
  g_autoptr (GBytes) bytes = bag_write_bytes (bag);
  g_autofree char *text = g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
  ck_assert_str_eq (text, expected);
}

static size_t
index_of (const Bag *bag, const char *name)
{
  size_t i = 0;
  while (i < bag_n_clubs (bag) && strcmp (bag_club (bag, i)->name, name) != 0)
    i++;
  ck_assert_msg (i < bag_n_clubs (bag), "there is no %s", name);
  return i;
}

/* The bag after one cell has been typed into. */
static Bag *
typed (const Bag *bag, const char *club, BagColumn column, const char *text, LengthUnit unit)
{
  g_autoptr (GError) error = NULL;
  Bag *after = bag_with_cell (bag, index_of (bag, club), column, text, unit, &error);
  ck_assert_msg (after != NULL, "%s", error != NULL ? error->message : "no error");
  return after;
}

static void
assert_typing_refused (const Bag *bag, const char *club, BagColumn column, const char *text, const char *message)
{
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (bag_with_cell (bag, index_of (bag, club), column, text, UNIT_YARDS, &error));
  ck_assert (g_error_matches (error, BAG_ERROR, BAG_ERROR_FORMAT));
  ck_assert_str_eq (error->message, message);
}

/* Everything that is hard to keep: a mark, CRLF, blank lines, odd quotes and spaces, unknown columns, short rows, no order, no last line end. */
static const char odd_text[] = "\xEF\xBB\xBF\r\nmade, Club ,CARRY_yd,\"side_sd_m\",notes\r\n"
                               "2019,\"9 \"\"iron\"\"\" , 126,,\"two\r\nlines\"\r\n\r\n"
                               ",driver,215 - 225,15.50,\"a, b\"\r\n  \r\n"
                               ",putting wedge,\"90\"";

/* ---- known answers ---- */

START_TEST (an_untouched_bag_gives_back_its_very_bytes)
{
  const char *const texts[]
      = { odd_text, "club,carry_m\n5 iron,150\n", "carry_m,club\r150,5 iron\r\r\r", "club,carry_m\n5 iron,150" };
  for (size_t i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (Bag) bag = read_text (texts[i]);
      assert_written (bag, texts[i]);
    }
}
END_TEST

START_TEST (one_edit_changes_one_cell_and_no_other_byte)
{
  g_autoptr (Bag) bag = read_text (odd_text);
  g_autoptr (Bag) after = typed (bag, "putting wedge", BAG_COLUMN_CARRY, "92", UNIT_YARDS);
  g_auto (GStrv) parts = g_strsplit (odd_text, "\"90\"", -1);
  g_autofree char *expected = g_strjoinv ("92", parts);
  assert_written (after, expected);
  assert_written (bag, odd_text);
}
END_TEST

START_TEST (a_range_typed_stays_a_range_in_the_file)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd\n5 wood,190\n");
  g_autoptr (Bag) after = typed (bag, "5 wood", BAG_COLUMN_CARRY, " 185-195 ", UNIT_YARDS);
  assert_written (after, "club,carry_yd\n5 wood,185-195\n");
  ck_assert_double_eq_tol (bag_club (after, 0)->carry_sd_m, 5 * METRES_PER_YARD / TWO_OF_THREE_LINE, WRITTEN_M);
}
END_TEST

START_TEST (what_is_typed_in_the_other_unit_is_written_in_the_column_s)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd,side_bias_yd\n5 wood,190,\n");
  g_autoptr (Bag) range = typed (bag, "5 wood", BAG_COLUMN_CARRY, "91.44-182.88", UNIT_METRES);
  assert_written (range, "club,carry_yd,side_bias_yd\n5 wood,100-200,\n");
  g_autoptr (Bag) bias = typed (bag, "5 wood", BAG_COLUMN_SIDE_BIAS, "-9.144", UNIT_METRES);
  assert_written (bias, "club,carry_yd,side_bias_yd\n5 wood,190,-10\n");
  g_autoptr (Bag) named = typed (bag, "5 wood", BAG_COLUMN_SIDE_BIAS, "9.144 m", UNIT_YARDS);
  assert_written (named, "club,carry_yd,side_bias_yd\n5 wood,190,10\n");
}
END_TEST

START_TEST (a_cell_is_shown_as_written_or_in_the_other_unit)
{
  static const struct
  {
    const char *club;
    BagColumn column;
    LengthUnit unit;
    const char *shown;
  } known[] = {
    { "driver", BAG_COLUMN_CARRY, UNIT_YARDS, "215 - 225" },
    { "driver", BAG_COLUMN_CARRY, UNIT_METRES, "196.6-205.7" }, /* by 0.9144 */
    { "driver", BAG_COLUMN_SIDE_SD, UNIT_METRES, "15.50" },
    { "driver", BAG_COLUMN_SIDE_SD, UNIT_YARDS, "17" }, /* 16.951 */
    { "9 \"iron\"", BAG_COLUMN_CLUB, UNIT_YARDS, "9 \"iron\"" },
    { "9 \"iron\"", BAG_COLUMN_SIDE_SD, UNIT_YARDS, "" },
    { "putting wedge", BAG_COLUMN_SIDE_SD, UNIT_YARDS, "" }, /* its row ends before that column */
    { "putting wedge", BAG_COLUMN_LOFT, UNIT_YARDS, "" },    /* the file has no such column */
  };
  g_autoptr (Bag) bag = read_text (odd_text);
  for (size_t i = 0; i < G_N_ELEMENTS (known); i++)
    {
      g_autofree char *shown = bag_cell (bag, index_of (bag, known[i].club), known[i].column, known[i].unit);
      ck_assert_str_eq (shown, known[i].shown);
    }
}
END_TEST

START_TEST (a_column_that_the_file_lacks_is_added_in_the_unit_of_the_carry)
{
  g_autoptr (Bag) bag = read_text ("club,carry_m,mine\n5 iron,150,x\n6 iron,140\n");
  g_autoptr (Bag) after = typed (bag, "6 iron", BAG_COLUMN_APEX, "25", UNIT_METRES);
  assert_written (after, "club,carry_m,mine,apex_m\n5 iron,150,x\n6 iron,140,,25\n");
  g_autoptr (Bag) same = typed (bag, "6 iron", BAG_COLUMN_APEX, "", UNIT_METRES);
  assert_written (same, "club,carry_m,mine\n5 iron,150,x\n6 iron,140\n");
}
END_TEST

START_TEST (a_club_by_value_writes_what_differs)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = read_text ("club,carry_yd,side_sd_yd,notes\n5 iron,170.0,,\"a, b\"\n");
  Club club = *bag_club (bag, 0);
  club.tee_only = true;
  club.correlation = -0.25;
  club.mishit_chance = 0.07;
  club.loft_deg = 26;
  g_autoptr (Bag) after = bag_with_club (bag, 0, &club, &error);
  assert_written (after, "club,carry_yd,side_sd_yd,notes,correlation,loft_deg,surfaces,mishit_pct\n"
                         "5 iron,170.0,,\"a, b\",-0.25,26,tee,7\n");
  ck_assert (bag_club (after, 0)->spread_from_level);
  ck_assert_double_eq_tol (bag_club (after, 0)->mishit_chance, 0.07, 1e-12);
}
END_TEST

START_TEST (a_range_moves_with_its_carry_and_gives_way_to_a_spread)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = read_text ("club,carry_m\n5 wood,185-195\n");
  Club moved = *bag_club (bag, 0), spread = moved;
  moved.carry_m += 3;
  spread.carry_sd_m = 7;
  g_autoptr (Bag) after_move = bag_with_club (bag, 0, &moved, &error);
  assert_written (after_move, "club,carry_m\n5 wood,188-198\n");
  g_autoptr (Bag) after_spread = bag_with_club (bag, 0, &spread, &error);
  assert_written (after_spread, "club,carry_m,carry_sd_m\n5 wood,190,7\n");
}
END_TEST

START_TEST (a_spread_of_nothing_comes_from_the_level_again)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = read_text ("club,carry_yd,side_sd_yd,carry_sd_yd\n8 iron,150,9,9\n");
  Club club = *bag_club (bag, 0);
  club.side_sd_m = club.carry_sd_m = NAN;
  g_autoptr (Bag) after = bag_with_club (bag, 0, &club, &error);
  assert_written (after, "club,carry_yd,side_sd_yd,carry_sd_yd\n8 iron,150,,\n");
  ck_assert (bag_club (after, 0)->spread_from_level);
  ck_assert_double_eq_tol (bag_club (after, 0)->side_sd_m / METRES_PER_YARD, 5.06, 0.005); /* as in the accuracy table's test */
}
END_TEST

START_TEST (a_new_club_is_written_behind_the_next_longer_one)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = read_text ("club,carry_m\r\ndriver,220\r\nwedge,80");
  Club club;
  club_init (&club);
  club.name = (char *)"the \"7\"";
  club.carry_m = 130;
  g_autoptr (Bag) between = bag_inserting_club (bag, &club, &error);
  assert_written (between, "club,carry_m\r\ndriver,220\r\n\"the \"\"7\"\"\",130\r\nwedge,80");
  club.carry_m = 60;
  g_autoptr (Bag) last = bag_inserting_club (bag, &club, &error);
  assert_written (last, "club,carry_m\r\ndriver,220\r\nwedge,80\r\n\"the \"\"7\"\"\",60");
  club.carry_m = 250;
  g_autoptr (Bag) first = bag_inserting_club (bag, &club, &error);
  ck_assert_str_eq (bag_club (first, 0)->name, "the \"7\"");
}
END_TEST

START_TEST (a_bag_is_made_of_nothing_club_by_club)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) empty = bag_new (NAME, UNIT_YARDS, LEVEL_BOGEY_MEN);
  ck_assert_uint_eq (bag_n_clubs (empty), 0);
  ck_assert_int_eq (bag_level (empty), LEVEL_BOGEY_MEN);
  assert_written (empty, "club,carry_yd,carry_sd_yd,side_sd_yd,loft_deg,surfaces\n");
  Club club;
  club_init (&club);
  club.name = (char *)"driver";
  club.carry_m = 200 * METRES_PER_YARD;
  club.tee_only = true;
  g_autoptr (Bag) one = bag_inserting_club (empty, &club, &error);
  assert_written (one, "club,carry_yd,carry_sd_yd,side_sd_yd,loft_deg,surfaces\ndriver,200,,,,tee\n");
  ck_assert_int_eq (bag_level (one), LEVEL_BOGEY_MEN);
  g_autoptr (Bag) none = bag_without_club (one, 0);
  assert_written (none, "club,carry_yd,carry_sd_yd,side_sd_yd,loft_deg,surfaces\n");
}
END_TEST

START_TEST (a_club_taken_out_takes_its_row_along)
{
  g_autoptr (Bag) bag = read_text (odd_text);
  g_autoptr (Bag) after = bag_without_club (bag, index_of (bag, "driver"));
  const char *from = strstr (odd_text, "\r\n\r\n,driver"), *to = strstr (odd_text, "\r\n  \r\n");
  g_autofree char *before = g_strndup (odd_text, (size_t)(from - odd_text)), *expected = g_strconcat (before, to, NULL);
  assert_written (after, expected);
}
END_TEST

START_TEST (another_level_fills_the_gaps_anew_and_leaves_the_file_alone)
{
  const char text[] = "club,carry_yd,side_sd_yd\n8 iron,150,\n7 iron,160,6\n";
  g_autoptr (Bag) scratch = read_text (text);
  g_autoptr (Bag) bogey = bag_with_level (scratch, LEVEL_BOGEY_MEN);
  /* Course Rating System Manual, section 4.4: at 150 yd a bogey man's area is 20 yd wide, a scratch man's 15. */
  ck_assert_double_eq_tol (bag_find (bogey, "8 iron")->side_sd_m / bag_find (scratch, "8 iron")->side_sd_m, 20.0 / 15, 1e-12);
  ck_assert_double_eq (bag_find (bogey, "7 iron")->side_sd_m, bag_find (scratch, "7 iron")->side_sd_m);
  assert_written (bogey, text);
}
END_TEST

START_TEST (gaps_over_15_and_under_5_yards_are_named)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd\na,200\nb,184.9\nc,180\nd,165\ne,160.1\n");
  const GapKind kinds[] = { GAP_WIDE, GAP_NARROW, GAP_EVEN, GAP_NARROW };
  const double gaps_yd[] = { 15.1, 4.9, 15, 4.9 };
  BagGap gap;
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      ck_assert (bag_gap (bag, i, &gap));
      ck_assert_double_eq_tol (gap.gap_m / METRES_PER_YARD, gaps_yd[i], 1e-9);
      ck_assert_int_eq (gap.kind, kinds[i]);
    }
  ck_assert (!bag_gap (bag, 4, &gap));
  ck_assert_str_eq (gap_token (GAP_WIDE), "wide");
}
END_TEST

/* ---- what an edit cannot do ---- */

START_TEST (an_edit_that_the_reader_refuses_is_refused_in_its_words)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd\n5 iron,170\n6 iron,160\n");
  assert_typing_refused (bag, "6 iron", BAG_COLUMN_CARRY, "far",
                         "bag.csv:3: carry_yd is \"far\"; write a number such as 190 or a range such as 185-195");
  assert_typing_refused (bag, "6 iron", BAG_COLUMN_CARRY, "",
                         "bag.csv:3: 6 iron has no carry; write how far it carries, such as 190 or 185-195");
  assert_typing_refused (bag, "6 iron", BAG_COLUMN_CLUB, "5 Iron",
                         "bag.csv:3: 5 Iron is already on line 2; give each club one line and its own name");
  assert_typing_refused (bag, "6 iron", BAG_COLUMN_SIDE_SD, "-3",
                         "bag.csv:3: side_sd_yd is \"-3\"; write a number 0 or more and at most 100 metres (109 yards)");
  assert_typing_refused (bag, "5 iron", BAG_COLUMN_SURFACES, "grass",
                         "bag.csv:2: surfaces is \"grass\"; write tee for a club played off the tee only, or leave it empty");
}
END_TEST

START_TEST (a_club_without_a_carry_or_a_name_cannot_be_put_in)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd\n5 iron,170\n");
  Club club;
  club_init (&club);
  club.name = (char *)"";
  club.carry_m = 100;
  g_autoptr (GError) nameless = NULL, aimless = NULL;
  ck_assert_ptr_null (bag_inserting_club (bag, &club, &nameless));
  ck_assert_str_eq (nameless->message, "bag.csv:3: a club has no name; write one in the column club");
  club.name = (char *)"mine";
  club.carry_m = NAN;
  ck_assert_ptr_null (bag_inserting_club (bag, &club, &aimless));
  ck_assert (g_str_has_suffix (aimless->message, "mine has no carry; write how far it carries, such as 190 or 185-195"));
}
END_TEST

/* ---- invariants ---- */

START_TEST (every_edit_reads_back_as_the_same_bag)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = read_text (odd_text);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      Club club = *bag_club (bag, i);
      club.name = (char *)" spaced, \"quoted\"\nname ";
      club.carry_m += 1.0 / 3;
      club.carry_sd_m = 5.0 / 7;
      club.side_bias_m = -2.0 / 3;
      club.curve_m = 1e-7;
      club.mishit_carry_share = 0.6;
      g_autoptr (Bag) after = bag_with_club (bag, i, &club, &error);
      ck_assert_msg (after != NULL, "%s", error != NULL ? error->message : "");
      g_autoptr (GBytes) bytes = bag_write_bytes (after);
      g_autoptr (Bag) again = bag_read_bytes (bytes, NAME, bag_level (bag), &error);
      ck_assert_uint_eq (bag_n_clubs (again), bag_n_clubs (bag));
      const Club *read = bag_find (again, "spaced, \"quoted\" name");
      ck_assert_ptr_nonnull (read);
      ck_assert_double_eq_tol (read->carry_m, club.carry_m, WRITTEN_M);
      ck_assert_double_eq_tol (read->carry_sd_m, club.carry_sd_m, WRITTEN_M);
      ck_assert_double_eq_tol (read->side_bias_m, club.side_bias_m, WRITTEN_M);
      ck_assert_double_eq_tol (read->curve_m, club.curve_m, WRITTEN_M);
      ck_assert_double_eq_tol (read->mishit_carry_share, 0.6, WRITTEN_M);
    }
}
END_TEST

START_TEST (a_club_put_back_as_it_was_changes_no_byte)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = read_text (odd_text);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      g_autoptr (Bag) same = bag_with_club (bag, i, bag_club (bag, i), &error);
      assert_written (same, odd_text);
    }
}
END_TEST

Suite *
suite_make (void)
{
  const struct
  {
    const char *name;
    const TTest *tests[16];
  } cases[] = {
    { "known answers",
      { an_untouched_bag_gives_back_its_very_bytes, one_edit_changes_one_cell_and_no_other_byte,
        a_range_typed_stays_a_range_in_the_file, what_is_typed_in_the_other_unit_is_written_in_the_column_s,
        a_cell_is_shown_as_written_or_in_the_other_unit, a_column_that_the_file_lacks_is_added_in_the_unit_of_the_carry,
        a_club_by_value_writes_what_differs, a_range_moves_with_its_carry_and_gives_way_to_a_spread,
        a_spread_of_nothing_comes_from_the_level_again, a_new_club_is_written_behind_the_next_longer_one,
        a_bag_is_made_of_nothing_club_by_club, a_club_taken_out_takes_its_row_along,
        another_level_fills_the_gaps_anew_and_leaves_the_file_alone, gaps_over_15_and_under_5_yards_are_named } },
    { "what an edit cannot do",
      { an_edit_that_the_reader_refuses_is_refused_in_its_words, a_club_without_a_carry_or_a_name_cannot_be_put_in } },
    { "invariants", { every_edit_reads_back_as_the_same_bag, a_club_put_back_as_it_was_changes_no_byte } },
  };
  Suite *suite = suite_create ("bag-edit");
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TCase *tcase = tcase_create (cases[i].name);
      for (size_t k = 0; k < G_N_ELEMENTS (cases[i].tests) && cases[i].tests[k] != NULL; k++)
        tcase_add_test (tcase, cases[i].tests[k]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
