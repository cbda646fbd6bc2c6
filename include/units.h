// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * units - what golfers type and read, to and from SI. Needs libc and libm only; never looks at the locale.
 *
 * 1 yd = 0.9144 m, 1 ft = 0.3048 m, 1 in = 0.0254 m exactly (international yard and pound agreement, 1959).
 * A bearing is degrees clockwise from true north, 0 <= bearing < 360.
 */
#ifndef HOLEWRIGHT_UNITS_H
#define HOLEWRIGHT_UNITS_H

#include <stdbool.h>
#include <stddef.h>

#define METRES_PER_YARD 0.9144
#define METRES_PER_FOOT 0.3048
#define METRES_PER_INCH 0.0254

/* Bytes that hold any text printed here. A buffer must have no fewer. A value that is not finite prints as nothing at all. */
#define UNITS_TEXT_SIZE 32

typedef enum
{
  UNIT_YARDS,
  UNIT_METRES
} LengthUnit;

/* "yd" or "m": the suffix in labels and in CSV column names. */
const char *unit_suffix (LengthUnit unit);
/* "yards" or "metres", as typed on the command line; false for any other word. */
bool unit_parse (const char *text, LengthUnit *unit);
double unit_from_metres (LengthUnit unit, double length_m);
double unit_to_metres (LengthUnit unit, double value);
/* Heights of the ground and of trees are read in feet beside yards, in metres beside metres (common practice): "ft" or "m". */
const char *unit_height_suffix (LengthUnit unit);
double unit_height_from_metres (LengthUnit unit, double height_m);

/*
 * Plain decimal number, the whole text (spaces around allowed): digits, one point, optional sign and exponent. No hex, inf, nan,
 * thousands separator or decimal comma, whatever the locale. False when it is anything else or not finite.
 */
bool units_parse_number (const char *text, double *value);
/* Reads a number at the start of `text`; returns the characters used, 0 for none. Same grammar, leading space not skipped. */
size_t units_scan_number (const char *text, double *value);

/*
 * Length: "152" (in `unit`), "152 yd", "152 yards", "139 m", "30 ft", "6 ft 3", "6 ft 3 in", "6'3\"", "8 in". False if
 * not a length.
 */
bool units_parse_length (const char *text, LengthUnit unit, double *length_m);
/*
 * Also a range "185-195", "185 - 195 yd", with hyphen or en dash: low and high in metres, low <= high whichever was typed first. A
 * single length gives both alike.
 */
bool units_parse_range (const char *text, LengthUnit unit, double *low_m, double *high_m);
/*
 * A sum of lengths: "140+12 yd", "152 yd - 3 ft". A term without a unit takes that of the next term that has one, else
 * `unit`. Also a single length. False for anything else, such as two signs in a row, or a sum that is not finite.
 */
bool units_parse_sum (const char *text, LengthUnit unit, double *length_m);
/* A height: the same grammar, but what has no unit at all is in feet beside yards. */
bool units_parse_height (const char *text, LengthUnit unit, double *height_m);
/* Speed of a wind: "10 mph", "4.5 m/s", "16 km/h", "9 kn"; its unit is needed, because golfers use all of them. */
bool units_parse_speed (const char *text, double *speed_mps);
/* Degrees Celsius: "16", "16 C", "16 °C", "61 F". */
bool units_parse_temperature (const char *text, double *temperature_c);
/* Air pressure in pascals: "1013" and "1013 hPa" alike, "1013 mbar", "101300 Pa", "29.92 inHg". */
bool units_parse_pressure (const char *text, double *pressure_pa);
/* Share 0..1 of a whole, or a percentage: "0.6", "60 %", "60 percent". Any size; the caller knows its range. */
bool units_parse_share (const char *text, double *share);
/* Angle in radians: "12", "12 deg", "12°", "-3.5". */
bool units_parse_angle (const char *text, double *angle_rad);

/* "152" - rounded half away from zero, never "-0"; no suffix. Returns `buffer`. */
char *units_print_whole (double length_m, LengthUnit unit, char *buffer, size_t size);
/* "152 yd". */
char *units_print_length (double length_m, LengthUnit unit, char *buffer, size_t size);
/* "6 ft 3", "6 ft", "8 in": feet and whole inches, for putts. */
char *units_print_feet (double length_m, char *buffer, size_t size);
/* Rounded to the fewest digits (17 at most) that read back as the same double, with a point; a power of ten as "1e+20". */
char *units_print_full (double value, char *buffer, size_t size);
/* Fixed `decimals` places (0..9), trailing zeros dropped, never "-0", with a point. */
char *units_print_decimals (double value, int decimals, char *buffer, size_t size);

double units_radians (double degrees);
double units_degrees (double radians);
/*
 * Direction in the hole frame (radians anticlockwise from +x) to a bearing in degrees, and back, where `up_bearing_deg` is the
 * bearing of +y.
 */
double units_bearing_deg (double direction_rad, double up_bearing_deg);
double units_direction_rad (double bearing_deg, double up_bearing_deg);

#endif
