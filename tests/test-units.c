// SPDX-License-Identifier: GPL-3.0-or-later
/* Units: what golfers type is read, what is printed reads back, and the locale changes nothing. */
#include "suite.h"
#include "units.h"

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A hundredth of a micrometre: far below what anyone types. */
#define LENGTH_TOLERANCE_M 1e-8
#define HALF_TURN_RAD 3.14159265358979323846
#define N_RANDOM 20000
/* Built beside the tests out of the system's own description; numbers there have a decimal comma. */
#define COMMA_LOCALE "de_DE.UTF-8"

typedef struct
{
  const char *text;
  double value;
} TextValue;

/* A repeatable stream of bits (Marsaglia, "Xorshift RNGs", 2003). */
static uint64_t
next_bits (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return *state;
}

/* ---- known answers ---- */

START_TEST (yards_feet_and_inches_follow_the_agreement_of_1959)
{
  /* International yard and pound agreement, 1959: 1 yd = 0.9144 m, 3 ft to the yard, 12 in to the foot. */
  double length_m;
  ck_assert (units_parse_length ("1 yd", UNIT_METRES, &length_m));
  ck_assert_double_eq_tol (length_m, 0.9144, LENGTH_TOLERANCE_M);
  ck_assert (units_parse_length ("3 ft", UNIT_METRES, &length_m));
  ck_assert_double_eq_tol (length_m, 0.9144, LENGTH_TOLERANCE_M);
  ck_assert (units_parse_length ("36 in", UNIT_METRES, &length_m));
  ck_assert_double_eq_tol (length_m, 0.9144, LENGTH_TOLERANCE_M);
  ck_assert_double_eq (unit_to_metres (UNIT_YARDS, 100), 91.44);
  ck_assert_double_eq (unit_from_metres (UNIT_YARDS, 91.44), 100);
  ck_assert_double_eq (unit_to_metres (UNIT_METRES, 100), 100);
}
END_TEST

START_TEST (lengths_are_read_as_golfers_type_them)
{
  const TextValue rows[] = {
    { "152", 152 * 0.9144 },
    { "152 yd", 152 * 0.9144 },
    { "152yd", 152 * 0.9144 },
    { "152 yards", 152 * 0.9144 },
    { "152 YDS", 152 * 0.9144 },
    { "139 m", 139 },
    { " 139 metres ", 139 },
    { "30 ft", 9.144 },
    { "6 ft 3", 1.905 },
    { "6 ft 3 in", 1.905 },
    { "6ft3in", 1.905 },
    { "6'3\"", 1.905 },
    { "6' 3", 1.905 },
    { "6\xe2\x80\xb2"
      "3\xe2\x80\xb3",
      1.905 },
    { "8 in", 0.2032 },
    { "-6 ft 3", -1.905 },
    { "0", 0 },
    { ".5 m", 0.5 },
    { "6 feet", 1.8288 },
    { "1.5e2 m", 150 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double length_m = NAN;
      ck_assert_msg (units_parse_length (rows[i].text, UNIT_YARDS, &length_m), "\"%s\" was refused", rows[i].text);
      ck_assert_msg (fabs (length_m - rows[i].value) < LENGTH_TOLERANCE_M, "\"%s\" gave %g m", rows[i].text, length_m);
    }
}
END_TEST

START_TEST (a_bare_length_is_in_the_chosen_unit)
{
  double length_m;
  ck_assert (units_parse_length ("152", UNIT_METRES, &length_m));
  ck_assert_double_eq (length_m, 152);
}
END_TEST

START_TEST (what_is_no_length_is_refused_and_changes_nothing)
{
  const char *rows[]
      = { "",    " ",     "yd",    "152,5", "152 ydx", "152 yd 3", "6 ft 12", "6 ft -3", "6 ft 3 m", "0x10",   "inf",
          "nan", "1e999", "1 000", "--3",   "m",       "152 y d",  "6 3",     "1..5",    "5 mm",     "152 - ", "12 deg" };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double length_m = -99;
      ck_assert_msg (!units_parse_length (rows[i], UNIT_YARDS, &length_m), "\"%s\" gave %g m", rows[i], length_m);
      ck_assert_double_eq (length_m, -99);
    }
}
END_TEST

START_TEST (ranges_give_their_low_and_high_end)
{
  const struct
  {
    const char *text;
    double low_m, high_m;
  } rows[] = {
    { "185-195", 185 * 0.9144, 195 * 0.9144 },
    { "185 - 195 yd", 185 * 0.9144, 195 * 0.9144 },
    { "185\xe2\x80\x93"
      "195 m",
      185, 195 },
    { "185 m-195 m", 185, 195 },
    { "195-185 m", 185, 195 },
    { "150", 150 * 0.9144, 150 * 0.9144 },
    { "6 ft 3-7 ft", 1.905, 2.1336 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double low_m = NAN, high_m = NAN;
      ck_assert_msg (units_parse_range (rows[i].text, UNIT_YARDS, &low_m, &high_m), "\"%s\" was refused", rows[i].text);
      ck_assert_double_eq_tol (low_m, rows[i].low_m, LENGTH_TOLERANCE_M);
      ck_assert_double_eq_tol (high_m, rows[i].high_m, LENGTH_TOLERANCE_M);
    }
}
END_TEST

START_TEST (what_is_no_range_is_refused_and_changes_nothing)
{
  const char *rows[] = { "", "-", "185-", "185--195", "185-x", "185 195", "185-195-205", "yd-195" };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double low_m = -99, high_m = -99;
      ck_assert_msg (!units_parse_range (rows[i], UNIT_YARDS, &low_m, &high_m), "\"%s\" was read", rows[i]);
      ck_assert_double_eq (low_m, -99);
      ck_assert_double_eq (high_m, -99);
    }
}
END_TEST

START_TEST (sums_of_lengths_are_added_up)
{
  const TextValue rows[] = {
    { "140+12 yd", 152 * 0.9144 },
    { "152 yd - 3 ft", 151 * 0.9144 },
    { "152", 152 * 0.9144 },
    { " 152 yd ", 152 * 0.9144 },
    { "140 + 12", 152 * 0.9144 },
    { "140 m + 10", 140 + 10 * 0.9144 }, /* no unit behind the ten: the chosen one */
    { "1 + 2 ft + 3 + 4 m - 5", 3 * 0.3048 + 7 - 5 * 0.9144 },
    { "6 ft 3 + 9 in", 7 * 0.3048 },
    { "10 m - 6'3\"", 10 - 1.905 },
    { "6 ft - 3 in", 5.75 * 0.3048 },
    { "-3 + 5 m", 2 },
    { "-6 ft 3 + 6 ft 3", 0 },
    { "5\xe2\x88\x92"
      "7 m",
      -2 },
    { "1e2+.5 m", 100.5 },
    { "1-2-3-4 m", -8 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double length_m = NAN;
      ck_assert_msg (units_parse_sum (rows[i].text, UNIT_YARDS, &length_m), "\"%s\" was refused", rows[i].text);
      ck_assert_msg (fabs (length_m - rows[i].value) < LENGTH_TOLERANCE_M, "\"%s\" gave %.12g m", rows[i].text, length_m);
    }
}
END_TEST

START_TEST (a_bare_sum_is_in_the_chosen_unit)
{
  double length_m;
  ck_assert (units_parse_sum ("140+12", UNIT_METRES, &length_m));
  ck_assert_double_eq (length_m, 152);
}
END_TEST

START_TEST (bare_heights_are_feet_beside_yards_and_metres_beside_metres)
{
  static const struct
  {
    const char *text;
    LengthUnit unit;
    double height_m;
  } rows[] = {
    { "40", UNIT_YARDS, 12.192 },     { "40", UNIT_METRES, 40 },           { "12 m", UNIT_YARDS, 12 },
    { "6 ft 3", UNIT_METRES, 1.905 }, { "-3", UNIT_YARDS, -0.9144 },       { "40+2", UNIT_YARDS, 12.8016 },
    { "2 yd", UNIT_YARDS, 1.8288 },   { "12 m + 3", UNIT_YARDS, 12.9144 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      double height_m = NAN;
      ck_assert_msg (units_parse_height (rows[i].text, rows[i].unit, &height_m), "\"%s\" was refused", rows[i].text);
      ck_assert_msg (fabs (height_m - rows[i].height_m) < 1e-12, "\"%s\" gave %.17g m", rows[i].text, height_m);
    }
  double untouched_m = 7;
  ck_assert (!units_parse_height ("high", UNIT_YARDS, &untouched_m) && untouched_m == 7);
  ck_assert_str_eq (unit_height_suffix (UNIT_YARDS), "ft");
  ck_assert_str_eq (unit_height_suffix (UNIT_METRES), "m");
  ck_assert (fabs (unit_height_from_metres (UNIT_YARDS, 12.192) - 40) < 1e-12);
  ck_assert (unit_height_from_metres (UNIT_METRES, 12.192) == 12.192);
}
END_TEST

START_TEST (what_is_no_sum_is_refused_and_changes_nothing)
{
  const char *rows[]
      = { "",      " ",          "+",           "140+",       "140++12", "140+-12", "140--12",     "+ 12 yd",
          "1*2",   "12 parsecs", "1+2 parsecs", "1 yd 2 yd",  "140 12",  "(1+2)",   "1e308+1e308", "1e308+1e308 m",
          "1+nan", "1+0x10",     "1,5+2",       "140+12 yd+", "yd+1" };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double length_m = -99;
      ck_assert_msg (!units_parse_sum (rows[i], UNIT_YARDS, &length_m), "\"%s\" gave %g m", rows[i], length_m);
      ck_assert_double_eq (length_m, -99);
    }
}
END_TEST

START_TEST (angles_are_read_in_degrees)
{
  const TextValue rows[] = { { "12", 12 }, { "12 deg", 12 }, { "12\xc2\xb0", 12 }, { "-3.5", -3.5 }, { "90 degrees", 90 } };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double angle_rad = NAN;
      ck_assert_msg (units_parse_angle (rows[i].text, &angle_rad), "\"%s\" was refused", rows[i].text);
      ck_assert_double_eq_tol (angle_rad, rows[i].value * HALF_TURN_RAD / 180, 1e-15);
    }
  double angle_rad;
  ck_assert (!units_parse_angle ("12 rad", &angle_rad));
  ck_assert (!units_parse_angle ("", &angle_rad));
}
END_TEST

START_TEST (a_weather_report_is_read_in_every_usual_unit)
{
  static const struct
  {
    bool (*parse) (const char *text, double *value);
    const char *text;
    double value; /* by the exact definitions: mile 1609.344 m, knot 1852 m an hour, 32 F = 0 C, inch of mercury 3386.389 Pa */
  } rows[] = {
    { units_parse_speed, "10 mph", 4.4704 },
    { units_parse_speed, "10MPH", 4.4704 },
    { units_parse_speed, " 4.5 m/s ", 4.5 },
    { units_parse_speed, "18km/h", 5 },
    { units_parse_speed, "18 kn", 9.26 },
    { units_parse_temperature, "16", 16 },
    { units_parse_temperature, "-3.5 C", -3.5 },
    { units_parse_temperature,
      "16 \xc2\xb0"
      "C",
      16 },
    { units_parse_temperature, "16\xc2\xb0", 16 },
    { units_parse_temperature, "61F", 29 / 1.8 },
    { units_parse_temperature, "-40 \xc2\xb0 f", -40 },
    { units_parse_pressure, "1013.25", 101325 },
    { units_parse_pressure, "1013.25 hPa", 101325 },
    { units_parse_pressure, "101325 Pa", 101325 },
    { units_parse_pressure, "29.92 inHg", 101320.76 },
    { units_parse_share, "0.6", 0.6 },
    { units_parse_share, "60%", 0.6 },
    { units_parse_share, "60 percent", 0.6 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
    {
      double value = NAN;
      ck_assert_msg (rows[i].parse (rows[i].text, &value), "\"%s\" was refused", rows[i].text);
      ck_assert_msg (fabs (value - rows[i].value) <= 1e-6 * fabs (rows[i].value), "\"%s\" gave %g", rows[i].text, value);
    }
  static const char *const speeds[] = { "", "10", "mph", "10 mph x", "1e400 mph", "10 mphs", "10,5 mph" };
  for (size_t i = 0; i < sizeof speeds / sizeof speeds[0]; i++)
    {
      double value = 7;
      ck_assert_msg (!units_parse_speed (speeds[i], &value), "\"%s\" was read", speeds[i]);
      ck_assert_double_eq (value, 7);
    }
  double value;
  ck_assert (!units_parse_temperature ("16 K", &value));
  ck_assert (!units_parse_pressure ("1 atm", &value));
  ck_assert (!units_parse_share ("half", &value));
}
END_TEST

START_TEST (unit_words_are_those_of_the_command_line)
{
  LengthUnit unit = UNIT_METRES;
  ck_assert (unit_parse ("yards", &unit) && unit == UNIT_YARDS);
  ck_assert (unit_parse ("metres", &unit) && unit == UNIT_METRES);
  ck_assert (!unit_parse ("furlongs", &unit) && unit == UNIT_METRES);
  ck_assert_str_eq (unit_suffix (UNIT_YARDS), "yd");
  ck_assert_str_eq (unit_suffix (UNIT_METRES), "m");
}
END_TEST

START_TEST (lengths_are_printed_whole_with_halves_away_from_zero)
{
  char text[UNITS_TEXT_SIZE];
  ck_assert_str_eq (units_print_whole (138.98880, UNIT_YARDS, text, sizeof text), "152");
  ck_assert_str_eq (units_print_length (138.98880, UNIT_YARDS, text, sizeof text), "152 yd");
  ck_assert_str_eq (units_print_length (139, UNIT_METRES, text, sizeof text), "139 m");
  ck_assert_str_eq (units_print_whole (0.5, UNIT_METRES, text, sizeof text), "1");
  ck_assert_str_eq (units_print_whole (-0.5, UNIT_METRES, text, sizeof text), "-1");
  ck_assert_str_eq (units_print_whole (2.5, UNIT_METRES, text, sizeof text), "3");
  ck_assert_str_eq (units_print_whole (-0.4, UNIT_METRES, text, sizeof text), "0");
}
END_TEST

START_TEST (every_half_yard_rounds_up)
{
  for (int yards = 0; yards < 700; yards++)
    {
      char text[UNITS_TEXT_SIZE];
      units_print_whole (unit_to_metres (UNIT_YARDS, yards + 0.5), UNIT_YARDS, text, sizeof text);
      ck_assert_int_eq (atoi (text), yards + 1);
    }
}
END_TEST

START_TEST (putts_are_printed_in_feet_and_inches)
{
  char text[UNITS_TEXT_SIZE];
  ck_assert_str_eq (units_print_feet (1.905, text, sizeof text), "6 ft 3");
  ck_assert_str_eq (units_print_feet (1.8288, text, sizeof text), "6 ft");
  ck_assert_str_eq (units_print_feet (0.2032, text, sizeof text), "8 in");
  ck_assert_str_eq (units_print_feet (0, text, sizeof text), "0 ft");
  ck_assert_str_eq (units_print_feet (-1.905, text, sizeof text), "-6 ft 3");
  /* 11.6 in round to a foot, not to "12 in". */
  ck_assert_str_eq (units_print_feet (11.6 * 0.0254, text, sizeof text), "1 ft");
}
END_TEST

START_TEST (decimals_are_trimmed_and_zero_has_no_sign)
{
  char text[UNITS_TEXT_SIZE];
  ck_assert_str_eq (units_print_decimals (1.25, 3, text, sizeof text), "1.25");
  ck_assert_str_eq (units_print_decimals (100, 3, text, sizeof text), "100");
  ck_assert_str_eq (units_print_decimals (100, 0, text, sizeof text), "100");
  ck_assert_str_eq (units_print_decimals (-0.0004, 3, text, sizeof text), "0");
  ck_assert_str_eq (units_print_decimals (-0.0006, 3, text, sizeof text), "-0.001");
  ck_assert_str_eq (units_print_decimals (1e20, 3, text, sizeof text), "1e+20");
  ck_assert_str_eq (units_print_decimals (-999999999999999.0, 9, text, sizeof text), "-999999999999999");
}
END_TEST

START_TEST (full_prints_are_short_where_short_is_enough)
{
  char text[UNITS_TEXT_SIZE];
  ck_assert_str_eq (units_print_full (0.1, text, sizeof text), "0.1");
  ck_assert_str_eq (units_print_full (152.5, text, sizeof text), "152.5");
  ck_assert_str_eq (units_print_full (-0.0, text, sizeof text), "0");
  ck_assert_str_eq (units_print_full (1.0 / 3.0, text, sizeof text), "0.3333333333333333");
  ck_assert_str_eq (units_print_full (DBL_MAX, text, sizeof text), "1.7976931348623157e+308");
  ck_assert_str_eq (units_print_full (DBL_TRUE_MIN, text, sizeof text), "5e-324");
}
END_TEST

START_TEST (hard_numbers_are_read_with_correct_rounding)
{
  /* Halfway and boundary cases; the doubles are given in hexadecimal, worked out with exact integers. */
  const TextValue rows[] = {
    { "9007199254740993", 0x1p53 },                                    /* 2^53 + 1, a tie to even */
    { "9007199254740993.00000000000000000001", 0x1.0000000000001p53 }, /* a hair above the tie */
    { "0.000000000000000000000000000000000001e36", 1 },
    { "100000000000000000000000000000000000000e-38", 1 },
    { "2.2250738585072014e-308", 0x1p-1022 },
    { "4.9406564584124654e-324", 0x1p-1074 },
    { "1e-400", 0 },
    { "1e22", 1e22 },
    { "1e23", 0x1.52d02c7e14af6p+76 },
    { "-123456789012345678901234567890", -0x1.8ee90ff6c373ep+96 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double value = NAN;
      ck_assert_msg (units_parse_number (rows[i].text, &value), "\"%s\" was refused", rows[i].text);
      ck_assert_msg (value == rows[i].value, "\"%s\" gave %a", rows[i].text, value);
    }
}
END_TEST

START_TEST (scanning_stops_where_the_number_does)
{
  const struct
  {
    const char *text;
    size_t used;
    double value;
  } rows[] = {
    { "1.5.5", 3, 1.5 }, { ".5-.5", 2, 0.5 }, { "1e", 1, 1 },
    { "1e+", 1, 1 },     { "1e5x", 3, 1e5 },  { "0x10", 1, 0 },
    { "12,5", 2, 12 },   { "-1-2", 2, -1 },   { "+7", 2, 7 },
    { "3.", 2, 3 },      { "", 0, -99 },      { "-", 0, -99 },
    { ".", 0, -99 },     { " 1", 0, -99 },    { "e5", 0, -99 },
    { "inf", 0, -99 },   { "nan", 0, -99 },   { "1e999", 0, -99 },
    { "+-1", 0, -99 },   { "-.e1", 0, -99 },  { "1e-99999999999999999999", 23, 0 },
  };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      double value = -99;
      ck_assert_msg (units_scan_number (rows[i].text, &value) == rows[i].used, "\"%s\"", rows[i].text);
      ck_assert_msg (value == rows[i].value, "\"%s\" gave %g", rows[i].text, value);
    }
}
END_TEST

START_TEST (bearings_turn_clockwise_from_north)
{
  /* With +y up the hole to the north, +x is east: 90 degrees. */
  ck_assert_double_eq_tol (units_bearing_deg (0, 0), 90, 1e-12);
  ck_assert_double_eq_tol (units_bearing_deg (HALF_TURN_RAD / 2, 0), 0, 1e-12);
  ck_assert_double_eq_tol (units_bearing_deg (HALF_TURN_RAD / 2, 214), 214, 1e-12);
  ck_assert_double_eq_tol (units_bearing_deg (0, 300), 30, 1e-12);
  ck_assert_double_eq_tol (units_direction_rad (214, 214), HALF_TURN_RAD / 2, 1e-12);
}
END_TEST

/* ---- invariants ---- */

START_TEST (full_prints_read_back_as_the_same_double)
{
  uint64_t state = 88172645463325252u;
  for (int i = 0; i < N_RANDOM; i++)
    {
      uint64_t bits = next_bits (&state);
      double value, back = NAN;
      if (i % 2 == 0)
        memcpy (&value, &bits, sizeof value); /* any double at all */
      else
        value = (double)(bits % 2000000000) / 1000 - 1e6; /* a coordinate in millimetres */
      if (!isfinite (value))
        continue;
      char text[UNITS_TEXT_SIZE];
      units_print_full (value, text, sizeof text);
      ck_assert_msg (units_parse_number (text, &back) && back == value, "%a came back from %s as %a", value, text, back);
      ck_assert_msg (strtod (text, NULL) == value, "%s is another number to the C library", text);
    }
}
END_TEST

START_TEST (numbers_are_read_as_the_c_library_reads_them)
{
  uint64_t state = 362436069u;
  for (int i = 0; i < N_RANDOM; i++)
    {
      char text[64];
      uint64_t bits = next_bits (&state), more = next_bits (&state);
      snprintf (text, sizeof text, "%s%llu.%0*lluE%d", bits & 1 ? "-" : "", (unsigned long long)(bits >> (bits % 64)),
                (int)(more % 20), (unsigned long long)(more >> (more % 60)), (int)(bits % 80) - 40);
      double value = NAN;
      ck_assert_msg (units_parse_number (text, &value) && value == strtod (text, NULL), "%s gave %a", text, value);
    }
}
END_TEST

START_TEST (bearings_and_directions_are_each_others_inverse)
{
  for (double up = 0; up < 360; up += 37)
    for (double bearing = 0; bearing < 360; bearing += 13)
      {
        double direction = units_direction_rad (bearing, up);
        ck_assert (direction > -HALF_TURN_RAD && direction <= HALF_TURN_RAD);
        double off = fabs (units_bearing_deg (direction, up) - bearing);
        ck_assert_double_le (fmin (off, 360 - off), 1e-10);
      }
}
END_TEST

START_TEST (a_bearing_is_never_a_whole_turn)
{
  for (int i = -50; i <= 50; i++)
    {
      double bearing = units_bearing_deg (HALF_TURN_RAD / 2 + i * 1e-16, i * 1e-15);
      ck_assert (bearing >= 0 && bearing < 360);
    }
}
END_TEST

START_TEST (a_single_length_is_a_sum_of_one)
{
  uint64_t state = 521288629u;
  for (int i = 0; i < N_RANDOM; i++)
    {
      static const char *const units[] = { "", " yd", " m", " ft", " in" };
      char text[64];
      double alone_m = NAN, sum_m = NAN;
      uint64_t bits = next_bits (&state);
      snprintf (text, sizeof text, "%s%llu.%llu%s", bits & 1 ? "-" : "", (unsigned long long)(bits >> 50),
                (unsigned long long)(bits >> 40) % 1000, units[bits % 5]);
      ck_assert (units_parse_length (text, UNIT_YARDS, &alone_m) && units_parse_sum (text, UNIT_YARDS, &sum_m));
      ck_assert_msg (alone_m == sum_m, "%s", text);
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (a_comma_locale_changes_nothing)
{
  ck_assert_msg (setlocale (LC_ALL, COMMA_LOCALE) != NULL, "the locale with a decimal comma was not built");
  ck_assert_str_eq (localeconv ()->decimal_point, ",");
  char full[UNITS_TEXT_SIZE], decimals[UNITS_TEXT_SIZE];
  double value = NAN, hard = NAN, length_m = NAN, unread = -99;
  units_print_full (1.5, full, sizeof full);
  units_print_decimals (-1234.5678, 2, decimals, sizeof decimals);
  bool read = units_parse_number ("1.5", &value) && units_parse_number ("0.1234567890123456789012345", &hard)
              && units_parse_length ("1.5 m", UNIT_YARDS, &length_m);
  bool comma = units_parse_number ("1,5", &unread);
  bool still_there = strcmp (localeconv ()->decimal_point, ",") == 0;
  setlocale (LC_ALL, "C");
  ck_assert_str_eq (full, "1.5");
  ck_assert_str_eq (decimals, "-1234.57");
  ck_assert (read && !comma && still_there);
  ck_assert_double_eq (value, 1.5);
  ck_assert_double_eq (hard, 0.1234567890123456789012345);
  ck_assert_double_eq (length_m, 1.5);
}
END_TEST

START_TEST (what_is_not_finite_prints_as_nothing)
{
  const double rows[] = { NAN, INFINITY, -INFINITY };
  for (size_t i = 0; i < 3; i++)
    {
      char text[UNITS_TEXT_SIZE];
      ck_assert_str_eq (units_print_full (rows[i], text, sizeof text), "");
      ck_assert_str_eq (units_print_decimals (rows[i], 3, text, sizeof text), "");
      ck_assert_str_eq (units_print_length (rows[i], UNIT_YARDS, text, sizeof text), "");
      ck_assert_str_eq (units_print_feet (rows[i], text, sizeof text), "");
    }
}
END_TEST

START_TEST (a_thousand_digits_are_read)
{
  char text[1200] = "1.";
  memset (text + 2, '0', 1000);
  strcpy (text + 1002, "1e2");
  double value = NAN;
  ck_assert (units_parse_number (text, &value));
  ck_assert_double_eq (value, 100);
}
END_TEST

START_TEST (the_largest_numbers_fit_their_buffer)
{
  const double rows[] = { -DBL_MAX, DBL_MAX, -DBL_MIN, -1.2345678901234567e-300, 999999999999999.9, -999999999999999.9 };
  for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
    {
      char text[UNITS_TEXT_SIZE];
      ck_assert_uint_lt (strlen (units_print_full (rows[i], text, sizeof text)), sizeof text - 1);
      ck_assert_uint_lt (strlen (units_print_decimals (rows[i], 9, text, sizeof text)), sizeof text - 1);
      ck_assert_uint_lt (strlen (units_print_length (rows[i], UNIT_YARDS, text, sizeof text)), sizeof text - 1);
      ck_assert_uint_lt (strlen (units_print_feet (rows[i], text, sizeof text)), sizeof text - 1);
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("units");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, yards_feet_and_inches_follow_the_agreement_of_1959);
  tcase_add_test (known, lengths_are_read_as_golfers_type_them);
  tcase_add_test (known, a_bare_length_is_in_the_chosen_unit);
  tcase_add_test (known, what_is_no_length_is_refused_and_changes_nothing);
  tcase_add_test (known, ranges_give_their_low_and_high_end);
  tcase_add_test (known, what_is_no_range_is_refused_and_changes_nothing);
  tcase_add_test (known, sums_of_lengths_are_added_up);
  tcase_add_test (known, a_bare_sum_is_in_the_chosen_unit);
  tcase_add_test (known, bare_heights_are_feet_beside_yards_and_metres_beside_metres);
  tcase_add_test (known, what_is_no_sum_is_refused_and_changes_nothing);
  tcase_add_test (known, angles_are_read_in_degrees);
  tcase_add_test (known, a_weather_report_is_read_in_every_usual_unit);
  tcase_add_test (known, unit_words_are_those_of_the_command_line);
  tcase_add_test (known, lengths_are_printed_whole_with_halves_away_from_zero);
  tcase_add_test (known, every_half_yard_rounds_up);
  tcase_add_test (known, putts_are_printed_in_feet_and_inches);
  tcase_add_test (known, decimals_are_trimmed_and_zero_has_no_sign);
  tcase_add_test (known, full_prints_are_short_where_short_is_enough);
  tcase_add_test (known, hard_numbers_are_read_with_correct_rounding);
  tcase_add_test (known, scanning_stops_where_the_number_does);
  tcase_add_test (known, bearings_turn_clockwise_from_north);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, full_prints_read_back_as_the_same_double);
  tcase_add_test (invariants, numbers_are_read_as_the_c_library_reads_them);
  tcase_add_test (invariants, bearings_and_directions_are_each_others_inverse);
  tcase_add_test (invariants, a_single_length_is_a_sum_of_one);
  tcase_add_test (invariants, a_bearing_is_never_a_whole_turn);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, a_comma_locale_changes_nothing);
  tcase_add_test (edges, what_is_not_finite_prints_as_nothing);
  tcase_add_test (edges, a_thousand_digits_are_read);
  tcase_add_test (edges, the_largest_numbers_fit_their_buffer);
  suite_add_tcase (suite, edges);
  return suite;
}
