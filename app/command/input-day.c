// SPDX-License-Identifier: GPL-3.0-or-later
/* input-day - the day that a command line asks for: its options over what the plan says. */
#include "command-private.h"
#include "flight.h"

#include <string.h>

static bool
usage (GError **error, const char *format, const char *value)
{
  g_autofree char *message = g_strdup_printf (format, value);
  g_set_error_literal (error, COMMAND_ERROR, COMMAND_ERROR_USAGE, message);
  return false;
}

/* "10mph@270"; "0mph" alone is no wind. */
static bool
parse_wind (const char *text, Day *day, GError **error)
{
  const char *at = strchr (text, '@');
  g_autofree char *speed = at != NULL ? g_strndup (text, (gsize)(at - text)) : g_strdup (text);
  double speed_mps, bearing_deg = NAN;
  if (!units_parse_speed (speed, &speed_mps) || (at != NULL && !units_parse_number (at + 1, &bearing_deg))
      || (at == NULL && speed_mps != 0))
    return usage (error,
                  "--wind '%s' is not a wind; give its speed with a unit, and the bearing it comes from, such as 10mph@270 or "
                  "4m/s@45",
                  text);
  day->wind_mps = speed_mps;
  day->wind_from_deg = bearing_deg;
  return true;
}

static bool
parse_ground (const Options *options, Day *day, GError **error)
{
  Firmness firmness;
  if (options->firmness != NULL && !firmness_from_token (options->firmness, &firmness))
    return usage (error, "--firmness '%s' is not known; give soft, medium or firm", options->firmness);
  if (options->firmness != NULL)
    {
      g_free (day->firmness);
      day->firmness = g_strdup (options->firmness);
    }
  if (options->green_speed != NULL && !units_parse_number (options->green_speed, &day->green_speed_ft))
    return usage (error, "--green-speed '%s' is not a number; give feet, such as 9.5", options->green_speed);
  return true;
}

static bool
parse_air (const Options *options, Day *day, GError **error)
{
  if (options->temperature != NULL && !units_parse_temperature (options->temperature, &day->temperature_c))
    return usage (error, "--temperature '%s' is not a temperature; give degrees Celsius such as 16, or 61F",
                  options->temperature);
  if (options->altitude != NULL && !units_parse_height (options->altitude, options->units, &day->altitude_m))
    return usage (error, "--altitude '%s' is not a height; give one such as 2000ft or 610m", options->altitude);
  if (options->altitude != NULL)
    day->pressure_pa = NAN; /* the plan's own pressure was that of another place */
  if (options->pressure != NULL && !units_parse_pressure (options->pressure, &day->pressure_pa))
    return usage (error, "--pressure '%s' is not a pressure; give hPa such as 1013, or 29.92inHg", options->pressure);
  if (options->humidity != NULL && !units_parse_share (options->humidity, &day->humidity))
    return usage (error, "--humidity '%s' is not a share; give 0 to 1, or a percentage such as 60%%", options->humidity);
  return true;
}

bool
input_day (const Options *options, const Hole *hole, Day *day, GError **error)
{
  int plan = hole_plan (hole);
  if (plan >= 0)
    day_copy (&hole_part (hole, (size_t)plan)->day, day);
  else
    day_init (day);
  return (options->wind == NULL || parse_wind (options->wind, day, error)) && parse_air (options, day, error)
         && parse_ground (options, day, error);
}

char *
input_day_options (const Options *options)
{
  const struct
  {
    const char *name, *value;
  } asked[] = {
    { "wind", options->wind },
    { "temperature", options->temperature },
    { "pressure", options->pressure },
    { "altitude", options->altitude },
    { "humidity", options->humidity },
    { "firmness", options->firmness },
    { "green-speed", options->green_speed },
  };
  GString *words = g_string_new (NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (asked); i++)
    if (asked[i].value != NULL)
      g_string_append_printf (words, "%s--%s %s", words->len > 0 ? " " : "", asked[i].name, asked[i].value);
  if (words->len > 0)
    return g_string_free (words, FALSE);
  g_string_free (words, TRUE);
  return NULL;
}
