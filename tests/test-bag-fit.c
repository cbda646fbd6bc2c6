// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of what recorded shots tell: reading them, the fit of one club against figures worked out by hand and against simulated golfers. */
#include "bag.h"
#include "suite.h"
#include "units.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#define NAME "shots.csv"
#define EXACT 1e-12
/* Sums taken in another order differ by rounding. */
#define ROUNDING 1e-9
#define MOST_SHOTS 4000

/* ---- building blocks ---- */

static ShotLog *
read_log (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  ShotLog *log = shot_log_read_bytes (bytes, NAME, &error);
  ck_assert_msg (log != NULL, "%s", error != NULL ? error->message : "no error");
  return log;
}

static void
assert_refused (const char *text, const char *message)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  ck_assert_ptr_null (shot_log_read_bytes (bytes, NAME, &error));
  ck_assert (g_error_matches (error, BAG_ERROR, BAG_ERROR_FORMAT));
  ck_assert_str_eq (error->message, message);
}

static ClubFit
fit_of (const double *carry_m, const double *side_m, size_t n)
{
  ClubFit fit;
  club_fit (&(ClubShots){ "club", carry_m, side_m, n }, &fit);
  return fit;
}

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return ((double)(*state >> 11) + 0.5) * 0x1p-53;
}

/* A standard normal (Box and Muller 1958). */
static double
next_normal (uint64_t *state)
{
  double radius = sqrt (-2 * log (next_random (state)));
  return radius * cos (2 * acos (-1) * next_random (state));
}

/* A golfer with one club. */
typedef struct
{
  double carry_m, carry_sd_m, bias_m, side_sd_m, correlation;
  double poor_share, poor_carry_m, poor_carry_sd_m, poor_side_m, poor_side_sd_m;
} Golfer;

static void
hit (const Golfer *golfer, uint64_t *state, size_t n, double *carry_m, double *side_m)
{
  for (size_t i = 0; i < n; i++)
    {
      double u = next_normal (state), v = next_normal (state), r = golfer->correlation;
      bool is_poor = next_random (state) < golfer->poor_share;
      carry_m[i] = is_poor ? golfer->poor_carry_m + golfer->poor_carry_sd_m * u : golfer->carry_m + golfer->carry_sd_m * u;
      side_m[i] = is_poor ? golfer->poor_side_m + golfer->poor_side_sd_m * v
                          : golfer->bias_m + golfer->side_sd_m * (r * u + sqrt (1 - r * r) * v);
    }
}

static const Golfer steady = { 150, 6, -3, 9, 0.4, 0, 0, 0, 0, 0 };
static const Golfer mixed = { 150, 6, -3, 9, 0.4, 0.12, 105, 18, 2, 16 };
/* Poor strikes that many a good one looks like. */
static const Golfer blurred = { 150, 7, 2, 8, -0.3, 0.2, 130, 14, 0, 15 };

enum
{
  N_FIGURES = 7
};

static void
list_figures (const ClubFit *fit, Figure figures[N_FIGURES])
{
  const Figure list[N_FIGURES] = { fit->carry_m,     fit->carry_sd_m,    fit->side_bias_m,       fit->side_sd_m,
                                   fit->correlation, fit->mishit_chance, fit->mishit_carry_share };
  memcpy (figures, list, sizeof list);
}

/* ---- reading ---- */

START_TEST (shots_are_gathered_by_club_in_metres)
{
  g_autoptr (ShotLog) log = read_log ("note,Club,side_m,carry_yd,total_yd\n"
                                      "x,7 iron,-2.5,150,155\n,wedge,1,80,\n\"a, b\",7 IRON,3,160,161\n");
  ck_assert_uint_eq (shot_log_n_clubs (log), 2);
  ClubShots seven = shot_log_club (log, 0), wedge = shot_log_club (log, 1);
  ck_assert_str_eq (seven.club, "7 iron");
  ck_assert_uint_eq (seven.n_shots, 2);
  ck_assert_double_eq_tol (seven.carry_m[1], 160 * 0.9144, EXACT);
  ck_assert_double_eq (seven.side_m[0], -2.5);
  ck_assert_uint_eq (wedge.n_shots, 1);
}
END_TEST

START_TEST (a_shot_that_cannot_be_used_names_its_line)
{
  const char head[] = "club,carry_m,side_m\n7 iron,150,2\n";
  static const struct
  {
    const char *line, *message;
  } bad[] = {
    { "7 iron,far,2", "shots.csv:3: carry_m is \"far\"; write a number with a decimal point" },
    { "7 iron,nan,2", "shots.csv:3: carry_m is \"nan\"; write a number with a decimal point" },
    { "7 iron,-150,2", "shots.csv:3: carry_m is \"-150\"; write a number 0 or more and at most 500 metres (547 yards)" },
    { "7 iron,501,2", "shots.csv:3: carry_m is \"501\"; write a number 0 or more and at most 500 metres (547 yards)" },
    { "7 iron,150,2 right", "shots.csv:3: side_m is \"2 right\"; write a number with a decimal point" },
    { "7 iron,150,1e9", "shots.csv:3: side_m is \"1e9\"; write a number at most 200 metres (219 yards) to either side" },
    { ",150,2", "shots.csv:3: a shot has no club; name it in the column club" },
    { "7 iron,,2", "shots.csv:3: a shot has no carry; write how far it flew or leave the line out" },
    { "7 iron,150",
      "shots.csv:3: a shot has no side; write how far right or left (-) it came down, 0 on the line, or leave the "
      "line out" },
    { "7 iron,150,2,5", "shots.csv:3: there are 4 values under 3 headings; write decimals with a point and put a text with a "
                        "comma in quotes" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *text = g_strconcat (head, bad[i].line, "\n", NULL);
      assert_refused (text, bad[i].message);
    }
}
END_TEST

START_TEST (a_file_without_its_columns_or_shots_is_refused)
{
  assert_refused ("",
                  "shots.csv:1: the file is empty; write a header row such as club,carry_yd,side_yd and then a shot a line");
  assert_refused ("club,carry_m,side_m\n", "shots.csv:1: there are no shots below the header; write a shot a line");
  assert_refused ("club,carry,side_m\n7 iron,150,2\n",
                  "shots.csv:1: no column is called carry_yd or carry_m; name the columns in "
                  "the first row, such as club,carry_yd,side_yd");
  assert_refused ("club,carry_m\n7 iron,150\n",
                  "shots.csv:1: no column is called side_yd or side_m; name the columns in the first "
                  "row, such as club,carry_yd,side_yd");
  assert_refused ("driver,250,10\n", "shots.csv:1: no column is called club; name the columns in the first row, such as "
                                     "club,carry_yd,side_yd");
  assert_refused ("club,carry_m,carry_yd,side_m\n",
                  "shots.csv:1: there is both carry_yd and carry_m; keep one of the two columns");
}
END_TEST

START_TEST (a_million_shots_are_read_and_one_more_is_refused)
{
  g_autoptr (GString) text = g_string_new ("club,carry_m,side_m\n");
  for (int i = 0; i < SHOT_LOG_MOST_SHOTS; i++)
    g_string_append (text, i % 2 == 0 ? "a,150,2\n" : "b,140,-2\n");
  g_autoptr (ShotLog) log = read_log (text->str);
  ck_assert_uint_eq (shot_log_club (log, 1).n_shots, SHOT_LOG_MOST_SHOTS / 2);
  g_string_append (text, "a,150,2\n");
  assert_refused (text->str, "shots.csv:1000002: there are more than 1000000 shots in one file; leave the oldest out");
}
END_TEST

START_TEST (a_hundred_clubs_are_read_and_one_more_is_refused)
{
  g_autoptr (GString) text = g_string_new ("club,carry_m,side_m\n");
  for (int i = 0; i < SHOT_LOG_MOST_CLUBS; i++)
    g_string_append_printf (text, "%d,150,2\n", i);
  g_autoptr (ShotLog) log = read_log (text->str);
  ck_assert_uint_eq (shot_log_n_clubs (log), SHOT_LOG_MOST_CLUBS);
  g_string_append (text, "one more,150,2\n");
  assert_refused (text->str,
                  "shots.csv:102: there are more than 100 clubs in one file; name the club in the column club, nothing "
                  "else");
}
END_TEST

/* ---- known answers ---- */

START_TEST (without_poor_strikes_the_figures_are_the_textbook_s)
{
  /* By hand: means 150 and 2; squares 40, 90, products 30; n - 1 = 4. */
  const double carry_m[] = { 146, 148, 150, 152, 154 }, side_m[] = { -4, 2, -1, 8, 5 };
  ClubFit fit = fit_of (carry_m, side_m, 5);
  ck_assert (!fit.has_mishits);
  ck_assert_double_eq_tol (fit.carry_m.value, 150, EXACT);
  ck_assert_double_eq_tol (fit.carry_sd_m.value, sqrt (40 / 4.0), EXACT);
  ck_assert_double_eq_tol (fit.carry_m.se, sqrt (10) / sqrt (5), EXACT);
  ck_assert_double_eq_tol (fit.carry_sd_m.se, sqrt (10) / sqrt (2 * 4), EXACT);
  ck_assert_double_eq_tol (fit.side_bias_m.value, 2, EXACT);
  ck_assert_double_eq_tol (fit.side_sd_m.value, sqrt (90 / 4.0), EXACT);
  double r = 48 / sqrt (40 * 90.0); /* -4*-6 + -2*0 + 0*-3 + 2*6 + 4*3 = 48 */
  ck_assert_double_eq_tol (fit.correlation.value, r, EXACT);
  ck_assert_double_eq_tol (fit.correlation.se, (1 - r * r) / 2, EXACT);
  ck_assert (isnan (fit.mishit_chance.value) && isnan (fit.mishit_carry_share.value));
}
END_TEST

START_TEST (poor_strikes_far_off_leave_the_good_ones_as_if_they_were_alone)
{
  /* Twenty shots of the same five numbers over and over, and two topped. */
  double carry_m[22], side_m[22];
  const double carries[] = { 146, 148, 150, 152, 154 }, sides[] = { -6, 0, -3, 6, 3 };
  for (int i = 0; i < 20; i++)
    {
      carry_m[i] = carries[i % 5];
      side_m[i] = sides[i % 5];
    }
  carry_m[20] = 40;
  carry_m[21] = 50;
  side_m[20] = -9;
  side_m[21] = 5;
  ClubFit fit = fit_of (carry_m, side_m, 22);
  ck_assert (fit.has_mishits);
  ck_assert_double_eq_tol (fit.carry_m.value, 150, 1e-6);
  ck_assert_double_eq_tol (fit.carry_sd_m.value, sqrt (160 / 19.0), 1e-6);
  ck_assert_double_eq_tol (fit.mishit_chance.value, 2 / 22.0, 1e-6);
  ck_assert_double_eq_tol (fit.mishit_chance.se, sqrt (2 / 22.0 * 20 / 22.0 / 22), 1e-6); /* binomial */
  ck_assert_double_eq_tol (fit.mishit_carry_share.value, 45 / 150.0, 1e-6);
}
END_TEST

/* How many of a figure's values are within so many of its standard errors of the truth, over simulated golfers. */
static void
assert_honest (const Golfer *golfer, size_t n_shots, int n_golfers, bool is_mixed)
{
  const double truth[N_FIGURES] = { golfer->carry_m,
                                    golfer->carry_sd_m,
                                    golfer->bias_m,
                                    golfer->side_sd_m,
                                    golfer->correlation,
                                    golfer->poor_share,
                                    golfer->poor_carry_m / golfer->carry_m };
  double squares[N_FIGURES] = { 0 };
  int within_2[N_FIGURES] = { 0 }, n_right = 0;
  uint64_t state = 88172645463325252u; /* the paper's seed */
  static double carry_m[MOST_SHOTS], side_m[MOST_SHOTS];
  for (int g = 0; g < n_golfers; g++)
    {
      hit (golfer, &state, n_shots, carry_m, side_m);
      ClubFit fit = fit_of (carry_m, side_m, n_shots);
      n_right += fit.has_mishits == is_mixed;
      Figure figures[N_FIGURES];
      list_figures (&fit, figures);
      for (int f = 0; f < (is_mixed ? N_FIGURES : 5) && fit.has_mishits == is_mixed; f++)
        {
          double z = (figures[f].value - truth[f]) / figures[f].se;
          squares[f] += z * z;
          within_2[f] += fabs (z) < 2;
        }
    }
  ck_assert_msg (n_right >= 0.97 * n_golfers, "only %d of %d were told right", n_right, n_golfers);
  for (int f = 0; f < (is_mixed ? N_FIGURES : 5); f++)
    {
      /* A standard normal is within 2 with chance 0.9545; of 400 golfers 0.92..0.985 is three standard errors to each side. */
      double share = (double)within_2[f] / n_right, rms = sqrt (squares[f] / n_right);
      ck_assert_msg (share > 0.90 && share < 0.99, "figure %d is within 2 standard errors %.3f of the time", f, share);
      ck_assert_msg (rms > 0.85 && rms < 1.2, "figure %d is off by %.3f standard errors", f, rms);
    }
}

START_TEST (a_steady_golfer_is_found_within_the_stated_errors)
{
  assert_honest (&steady, 60, 400, false);
}
END_TEST

START_TEST (good_strikes_among_poor_ones_are_found_within_the_stated_errors)
{
  assert_honest (&mixed, 400, 400, true);
}
END_TEST

START_TEST (the_stated_errors_also_count_that_kinds_of_strikes_blur)
{
  assert_honest (&blurred, 3000, 200, true);
}
END_TEST

/* ---- invariants ---- */

START_TEST (the_order_of_the_shots_does_not_matter)
{
  static double carry_m[500], side_m[500], back_carry_m[500], back_side_m[500];
  uint64_t state = 7;
  hit (&mixed, &state, 500, carry_m, side_m);
  for (int i = 0; i < 500; i++)
    {
      back_carry_m[(i * 37 + 11) % 500] = carry_m[i];
      back_side_m[(i * 37 + 11) % 500] = side_m[i];
    }
  ClubFit there = fit_of (carry_m, side_m, 500), back = fit_of (back_carry_m, back_side_m, 500);
  Figure a[N_FIGURES], b[N_FIGURES];
  list_figures (&there, a);
  list_figures (&back, b);
  for (int f = 0; f < N_FIGURES; f++)
    ck_assert (a[f].value == b[f].value && a[f].se == b[f].se);
}
END_TEST

START_TEST (mirrored_sides_mirror_the_figures)
{
  static double carry_m[500], side_m[500], mirrored_m[500];
  for (int is_mixed = 0; is_mixed < 2; is_mixed++)
    {
      uint64_t state = 7;
      hit (is_mixed ? &mixed : &steady, &state, 500, carry_m, side_m);
      for (int i = 0; i < 500; i++)
        mirrored_m[i] = -side_m[i];
      ClubFit one = fit_of (carry_m, side_m, 500), other = fit_of (carry_m, mirrored_m, 500);
      Figure a[N_FIGURES], b[N_FIGURES];
      list_figures (&one, a);
      list_figures (&other, b);
      const double signs[N_FIGURES] = { 1, 1, -1, 1, -1, 1, 1 };
      for (int f = 0; f < (is_mixed ? N_FIGURES : 5); f++)
        {
          ck_assert_double_eq_tol (a[f].value, signs[f] * b[f].value, ROUNDING);
          ck_assert_double_eq_tol (a[f].se, b[f].se, ROUNDING);
        }
    }
}
END_TEST

START_TEST (more_of_the_same_shots_halve_the_error_and_keep_the_figures)
{
  static double carry_m[2000], side_m[2000];
  uint64_t state = 11;
  hit (&mixed, &state, 500, carry_m, side_m);
  for (int i = 500; i < 2000; i++)
    {
      carry_m[i] = carry_m[i - 500];
      side_m[i] = side_m[i - 500];
    }
  ClubFit few = fit_of (carry_m, side_m, 500), many = fit_of (carry_m, side_m, 2000);
  ck_assert_double_eq_tol (many.carry_m.value, few.carry_m.value, 0.01 * few.carry_m.se);
  ck_assert_double_eq_tol (many.carry_m.se, few.carry_m.se / 2, 0.01 * few.carry_m.se);
  ck_assert_double_eq_tol (many.mishit_chance.se, few.mishit_chance.se / 2, 0.01 * few.mishit_chance.se);
}
END_TEST

/* ---- edges ---- */

START_TEST (one_shot_tells_its_place_and_nothing_more)
{
  ClubFit fit = fit_of ((const double[]){ 150 }, (const double[]){ 3 }, 1);
  ck_assert_double_eq (fit.carry_m.value, 150);
  ck_assert_double_eq (fit.side_bias_m.value, 3);
  ck_assert (isnan (fit.carry_m.se) && isnan (fit.carry_sd_m.value) && isnan (fit.correlation.value));
}
END_TEST

START_TEST (identical_shots_have_no_spread_and_no_correlation)
{
  double carry_m[100], side_m[100];
  for (int i = 0; i < 100; i++)
    {
      carry_m[i] = 150.1;
      side_m[i] = -3.3;
    }
  ClubFit fit = fit_of (carry_m, side_m, 100);
  ck_assert (!fit.has_mishits);
  ck_assert_double_eq_tol (fit.carry_m.value, 150.1, ROUNDING);
  ck_assert_double_eq_tol (fit.carry_sd_m.value, 0, ROUNDING);
  ck_assert_double_eq_tol (fit.side_sd_m.value, 0, ROUNDING);
}
END_TEST

START_TEST (too_few_shots_are_never_parted)
{
  double carry_m[FIT_LEAST_MIXED], side_m[FIT_LEAST_MIXED];
  for (int i = 0; i < FIT_LEAST_MIXED; i++)
    {
      carry_m[i] = i == 0 ? 20 : 150 + i % 3;
      side_m[i] = i % 5;
    }
  ck_assert (!fit_of (carry_m, side_m, FIT_LEAST_MIXED - 1).has_mishits);
  ck_assert (fit_of (carry_m, side_m, FIT_LEAST_MIXED).has_mishits);
}
END_TEST

START_TEST (long_shots_are_no_poor_strikes)
{
  double carry_m[60], side_m[60];
  uint64_t state = 5;
  hit (&steady, &state, 60, carry_m, side_m);
  carry_m[10] = 230;
  carry_m[20] = 240;
  ck_assert (!fit_of (carry_m, side_m, 60).has_mishits);
}
END_TEST

/* ---- the bag of a fit ---- */

START_TEST (fitted_figures_come_into_a_bag_and_keep_what_else_it_has)
{
  g_autoptr (GError) error = NULL;
  const char text[] = "mine,club,carry_yd,side_sd_yd,carry_sd_yd\nx,7 Iron,150-160,9,\ny,wedge,90,,4\n";
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (Bag) bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, &error);
  g_autoptr (ShotLog) log
      = read_log ("club,carry_yd,side_yd\n7 iron,146,-4\n7 iron,148,2\n7 iron,150,-1\n7 iron,152,8\n7 iron,154,5\n"
                  "WEDGE,80,1\nwedge,90,1\n4 iron,170,0\n");
  g_autofree ClubFit *fits = bag_fit (log);
  ck_assert_str_eq (fits[0].club, "4 iron");
  g_autoptr (Bag) fitted = bag_with_fit (bag, fits, shot_log_n_clubs (log), &error);
  ck_assert_msg (fitted != NULL, "%s", error != NULL ? error->message : "");
  g_autoptr (GBytes) written = bag_write_bytes (fitted);
  g_autofree char *said = g_strndup (g_bytes_get_data (written, NULL), g_bytes_get_size (written));
  ck_assert_str_eq (said, "mine,club,carry_yd,side_sd_yd,carry_sd_yd,shots,correlation,side_bias_yd,"
                          "carry_se_yd,carry_sd_se_yd,side_sd_se_yd,correlation_se,side_bias_se_yd\n"
                          "x,7 Iron,150,4.74341649,3.16227766,5,0.8,2,1.414213562,1.118033989,1.677050983,0.18,2.121320344\n"
                          "y,wedge,85,,4,2,,1,5,,,,0\n"
                          ",4 iron,170,,,1\n");
  const ClubErrors *errors = &bag_find (fitted, "7 iron")->errors;
  ck_assert_uint_eq (errors->n_shots, 5);
  ck_assert_double_eq_tol (errors->carry_m, fits[1].carry_m.se, 1e-9);
  ck_assert_double_eq_tol (errors->side_sd_m, fits[1].side_sd_m.se, 1e-9);
  ck_assert_int_eq (club_fit_worth (&fits[0]), FIT_TELLS_NO_SPREAD);
  ck_assert_int_eq (club_fit_worth (&fits[1]), FIT_TELLS_NO_MISHITS);
  ck_assert (bag_find (fitted, "4 iron")->spread_from_level);
}
END_TEST

START_TEST (shots_that_make_no_club_are_refused_with_a_sentence)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = bag_new ("fitted", UNIT_METRES, LEVEL_SCRATCH_MEN);
  g_autoptr (ShotLog) log = read_log ("club,carry_m,side_m\nputter,0,0\n");
  g_autofree ClubFit *fits = bag_fit (log);
  ck_assert_ptr_null (bag_with_fit (bag, fits, 1, &error));
  ck_assert_str_eq (error->message, "fitted:2: carry_m is \"0\"; write a carry of more than 1 metre and at most 500 (547 yards)");
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
    { "reading",
      { shots_are_gathered_by_club_in_metres, a_shot_that_cannot_be_used_names_its_line,
        a_file_without_its_columns_or_shots_is_refused, a_million_shots_are_read_and_one_more_is_refused,
        a_hundred_clubs_are_read_and_one_more_is_refused } },
    { "known answers",
      { without_poor_strikes_the_figures_are_the_textbook_s, poor_strikes_far_off_leave_the_good_ones_as_if_they_were_alone,
        a_steady_golfer_is_found_within_the_stated_errors, good_strikes_among_poor_ones_are_found_within_the_stated_errors,
        the_stated_errors_also_count_that_kinds_of_strikes_blur } },
    { "invariants",
      { the_order_of_the_shots_does_not_matter, mirrored_sides_mirror_the_figures,
        more_of_the_same_shots_halve_the_error_and_keep_the_figures } },
    { "edges",
      { one_shot_tells_its_place_and_nothing_more, identical_shots_have_no_spread_and_no_correlation,
        too_few_shots_are_never_parted, long_shots_are_no_poor_strikes } },
    { "the bag of a fit",
      { fitted_figures_come_into_a_bag_and_keep_what_else_it_has, shots_that_make_no_club_are_refused_with_a_sentence } },
  };
  Suite *suite = suite_create ("bag-fit");
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TCase *tcase = tcase_create (cases[i].name);
      tcase_set_timeout (tcase, 60);
      for (size_t k = 0; k < G_N_ELEMENTS (cases[i].tests) && cases[i].tests[k] != NULL; k++)
        tcase_add_test (tcase, cases[i].tests[k]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
