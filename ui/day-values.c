// SPDX-License-Identifier: GPL-3.0-or-later
/* day-values - one row for each fact of a day: its words, and how it is printed and read. */
#include "day-values.h"

#include "odds.h"

#include <gio/gio.h>
#include <glib/gi18n.h>
#include <string.h>

/* A mile an hour, exactly: 1609.344 m in 3600 s. */
#define MPS_PER_MPH 0.44704

typedef struct
{
  const char *caption, *name, *hint, *mistake;
  size_t field; /* offset in Day */
} DayRow;

static const DayRow day_rows[HW_N_DAY_VALUES] = {
  [HW_DAY_WIND] = { N_ ("Wind"), N_ ("Strength of the wind"), N_ ("calm"),
                    N_ ("“%s” is no wind; type a speed with its unit, such as 12 mph or 5 m/s."), offsetof (Day, wind_mps) },
  [HW_DAY_FROM] = { N_ ("From"), N_ ("Where the wind comes from"), "",
                    N_ ("“%s” is no bearing; type degrees from north, such as 270, or a point of the compass, such as SW."),
                    offsetof (Day, wind_from_deg) },
  [HW_DAY_TEMPERATURE]
  = { N_ ("Air"), N_ ("Temperature of the air"), N_ ("20 °C"),
      N_ ("“%s” is no temperature; type degrees Celsius, such as 12, or 54 F."), offsetof (Day, temperature_c) },
  [HW_DAY_ALTITUDE] = { N_ ("Altitude"), N_ ("Altitude above the sea"), N_ ("the hole’s"),
                        N_ ("“%s” is no altitude; type a height such as 500 ft or 150 m."), offsetof (Day, altitude_m) },
  [HW_DAY_GREENS] = { N_ ("Greens"), N_ ("Speed of the greens, as a stimpmeter reads it"), N_ ("9 ft"),
                      N_ ("“%s” is no green speed; type feet, such as 10 or 10 ft 6."), offsetof (Day, green_speed_ft) },
};

static const char *const compass_points[] = { "N", "NE", "E", "SE", "S", "SW", "W", "NW" };
static const char *const winds[]
    = { N_ ("from the north"), N_ ("from the north-east"), N_ ("from the east"), N_ ("from the south-east"),
        N_ ("from the south"), N_ ("from the south-west"), N_ ("from the west"), N_ ("from the north-west") };
#define EIGHTH_DEG 45.0

const char *
hw_day_value_caption (HwDayValue value)
{
  return _ (day_rows[value].caption);
}

const char *
hw_day_value_name (HwDayValue value)
{
  return _ (day_rows[value].name);
}

const char *
hw_day_value_hint (HwDayValue value)
{
  return day_rows[value].hint[0] != '\0' ? _ (day_rows[value].hint) : "";
}

static double *
field_of (Day *day, HwDayValue value)
{
  return (double *)(void *)((char *)day + day_rows[value].field);
}

/* ---- printing ---- */

static void
print_wind (double wind_mps, LengthUnit units, char *text, size_t size)
{
  char number[UNITS_TEXT_SIZE];
  bool is_yards = units == UNIT_YARDS;
  units_print_decimals (is_yards ? wind_mps / MPS_PER_MPH : wind_mps, is_yards ? 0 : 1, number, sizeof number);
  g_snprintf (text, size, is_yards ? "%s mph" : "%s m/s", number);
}

void
hw_day_value_print (const Day *day, HwDayValue value, LengthUnit units, char *text, size_t size)
{
  double number = *field_of ((Day *)day, value);
  char digits[UNITS_TEXT_SIZE];
  text[0] = '\0';
  if (isnan (number))
    return;
  if (value == HW_DAY_WIND)
    {
      print_wind (number, units, text, size);
      return;
    }
  bool is_feet = value == HW_DAY_ALTITUDE && units == UNIT_YARDS;
  units_print_decimals (is_feet ? number / METRES_PER_FOOT : number, value == HW_DAY_FROM ? 0 : 1, digits, sizeof digits);
  const char *suffix = value == HW_DAY_FROM          ? "°"
                       : value == HW_DAY_TEMPERATURE ? " °C"
                       : value == HW_DAY_ALTITUDE    ? (is_feet ? " ft" : " m")
                                                     : " ft";
  g_snprintf (text, size, "%s%s", digits, suffix);
}

double
hw_wind_step_mps (LengthUnit units)
{
  return units == UNIT_YARDS ? MPS_PER_MPH : 0.5;
}

char *
hw_wind_words (const Day *day, LengthUnit units)
{
  if (isnan (day->wind_mps) || !(day->wind_mps > 0))
    return g_strdup (_ ("calm"));
  char wind[HW_DAY_TEXT_SIZE];
  print_wind (day->wind_mps, units, wind, sizeof wind);
  if (isnan (day->wind_from_deg))
    return g_strdup (wind);
  double eighths = floor (day->wind_from_deg / EIGHTH_DEG + 0.5);
  return g_strdup_printf ("%s %s", wind, _ (winds[(size_t)(eighths - 8 * floor (eighths / 8))]));
}

/* ---- reading ---- */

static bool
read_bearing (const char *text, double *bearing_deg)
{
  for (size_t i = 0; i < G_N_ELEMENTS (compass_points); i++)
    if (g_ascii_strcasecmp (text, compass_points[i]) == 0)
      {
        *bearing_deg = EIGHTH_DEG * (double)i;
        return true;
      }
  double angle_rad;
  if (!units_parse_angle (text, &angle_rad))
    return false;
  double degrees = units_degrees (angle_rad);
  *bearing_deg = degrees - 360 * floor (degrees / 360);
  return true;
}

static bool
read_value (HwDayValue value, LengthUnit units, const char *text, double *number)
{
  double length_m;
  switch (value)
    {
    case HW_DAY_WIND:
      return units_parse_speed (text, number);
    case HW_DAY_FROM:
      return read_bearing (text, number);
    case HW_DAY_TEMPERATURE:
      return units_parse_temperature (text, number);
    case HW_DAY_ALTITUDE:
      return units_parse_height (text, units, number);
    case HW_DAY_GREENS:
      if (!units_parse_height (text, UNIT_YARDS, &length_m))
        return false;
      *number = length_m / METRES_PER_FOOT;
      return true;
    case HW_N_DAY_VALUES:
      break;
    }
  return false;
}

bool
hw_day_value_set (Day *day, HwDayValue value, LengthUnit units, double from_deg, const char *text, GError **error)
{
  g_autofree char *typed = g_strstrip (g_strdup (text));
  double number = NAN;
  if (typed[0] != '\0' && !read_value (value, units, typed, &number))
    {
      g_autofree char *words = g_strdup_printf (_ (day_rows[value].mistake), typed);
      g_set_error_literal (error, ODDS_ERROR, ODDS_ERROR_DAY, words);
      return false;
    }
  *field_of (day, value) = number;
  if (value == HW_DAY_WIND && !(number > 0))
    day->wind_mps = day->wind_from_deg = NAN;
  else if (value == HW_DAY_WIND && isnan (day->wind_from_deg))
    day->wind_from_deg = from_deg;
  return true;
}
