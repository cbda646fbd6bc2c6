// SPDX-License-Identifier: GPL-3.0-or-later
/* What a weather report says, as golfers type it: wind, temperature, pressure, humidity. */
#include "number-private.h"

#define SECONDS_PER_HOUR 3600.0
#define METRES_PER_MILE 1609.344          /* international yard and pound agreement, 1959 */
#define METRES_PER_NAUTICAL_MILE 1852.0   /* First International Extraordinary Hydrographic Conference, 1929 */
#define PASCALS_PER_INCH_MERCURY 3386.389 /* at 0 C: ISO 80000-4's conventional millimetre, 133.3224 Pa, times 25.4 */

static const UnitWord speed_words[] = {
  { "mph", METRES_PER_MILE / SECONDS_PER_HOUR },
  { "km/h", 1000 / SECONDS_PER_HOUR },
  { "kmh", 1000 / SECONDS_PER_HOUR },
  { "kph", 1000 / SECONDS_PER_HOUR },
  { "m/s", 1 },
  { "mps", 1 },
  { "knots", METRES_PER_NAUTICAL_MILE / SECONDS_PER_HOUR },
  { "knot", METRES_PER_NAUTICAL_MILE / SECONDS_PER_HOUR },
  { "kn", METRES_PER_NAUTICAL_MILE / SECONDS_PER_HOUR },
  { "kt", METRES_PER_NAUTICAL_MILE / SECONDS_PER_HOUR },
  { NULL, 0 },
};

/* Pascals in one; the first is meant where there is none. */
static const UnitWord pressure_words[] = {
  { "hpa", 100 }, { "mbar", 100 }, { "pa", 1 }, { "inhg", PASCALS_PER_INCH_MERCURY }, { NULL, 0 },
};

static const UnitWord share_words[] = {
  { "percent", 0.01 },
  { "%", 0.01 },
  { NULL, 0 },
};

#define DEGREE "\xc2\xb0" /* U+00B0, degree sign */
#define KELVIN_PER_FAHRENHEIT (5.0 / 9)
#define FREEZING_F 32.0

/* Size of one degree in kelvin. */
static const UnitWord temperature_words[] = {
  { DEGREE " c", 1 }, { DEGREE "c", 1 }, { DEGREE " f", KELVIN_PER_FAHRENHEIT }, { DEGREE "f", KELVIN_PER_FAHRENHEIT },
  { DEGREE, 1 },      { "c", 1 },        { "f", KELVIN_PER_FAHRENHEIT },         { NULL, 0 },
};

/* The whole text: a number and one of the words; `*row` is NULL without a word. */
static bool
parse_with_word (const char *text, const UnitWord *words, double *number, const UnitWord **row)
{
  const char *rest = skip_blanks (text);
  size_t used = units_scan_number (rest, number);
  if (used == 0)
    return false;
  rest = skip_blanks (rest + used);
  *row = match_unit_word (words, rest, &rest);
  return *skip_blanks (rest) == '\0';
}

bool
units_parse_speed (const char *text, double *speed_mps)
{
  double number;
  const UnitWord *unit;
  if (!parse_with_word (text, speed_words, &number, &unit) || unit == NULL)
    return false;
  *speed_mps = number * unit->factor;
  return true;
}

bool
units_parse_temperature (const char *text, double *temperature_c)
{
  double number;
  const UnitWord *unit;
  if (!parse_with_word (text, temperature_words, &number, &unit))
    return false;
  *temperature_c = unit == NULL || unit->factor == 1 ? number : (number - FREEZING_F) * unit->factor;
  return true;
}

bool
units_parse_pressure (const char *text, double *pressure_pa)
{
  double number;
  const UnitWord *unit;
  if (!parse_with_word (text, pressure_words, &number, &unit))
    return false;
  *pressure_pa = number * (unit != NULL ? unit->factor : pressure_words[0].factor);
  return true;
}

bool
units_parse_share (const char *text, double *share)
{
  double number;
  const UnitWord *unit;
  if (!parse_with_word (text, share_words, &number, &unit))
    return false;
  *share = unit != NULL ? number * unit->factor : number;
  return true;
}
