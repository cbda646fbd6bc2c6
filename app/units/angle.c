// SPDX-License-Identifier: GPL-3.0-or-later
/* Angles and bearings. */
#include "number-private.h"

#include <math.h>

/* C11 without extensions has no M_PI; units stands beside geometry, not upon it. */
#define HALF_TURN_RAD 3.14159265358979323846
#define HALF_TURN_DEG 180.0
#define QUARTER_TURN_DEG 90.0
#define TURN_DEG 360.0

static const UnitWord degree_words[] = {
  { "degrees", 1 }, { "degree", 1 }, { "deg", 1 }, { "\xc2\xb0", 1 }, /* U+00B0, degree sign */
  { NULL, 0 },
};

bool
units_parse_angle (const char *text, double *angle_rad)
{
  const char *rest = skip_blanks (text);
  double degrees;
  size_t used = units_scan_number (rest, &degrees);
  if (used == 0)
    return false;
  rest = skip_blanks (rest + used);
  match_unit_word (degree_words, rest, &rest);
  if (*skip_blanks (rest) != '\0')
    return false;
  *angle_rad = units_radians (degrees);
  return true;
}

double
units_radians (double degrees)
{
  return degrees * (HALF_TURN_RAD / HALF_TURN_DEG);
}

double
units_degrees (double radians)
{
  return radians * (HALF_TURN_DEG / HALF_TURN_RAD);
}

double
units_bearing_deg (double direction_rad, double up_bearing_deg)
{
  double bearing = fmod (up_bearing_deg + QUARTER_TURN_DEG - units_degrees (direction_rad), TURN_DEG);
  if (bearing < 0)
    bearing += TURN_DEG;
  return bearing < TURN_DEG ? bearing : 0; /* the sum of a tiny negative and a turn is a turn */
}

double
units_direction_rad (double bearing_deg, double up_bearing_deg)
{
  double degrees = fmod (up_bearing_deg + QUARTER_TURN_DEG - bearing_deg, TURN_DEG);
  if (degrees <= -HALF_TURN_DEG)
    degrees += TURN_DEG;
  if (degrees > HALF_TURN_DEG)
    degrees -= TURN_DEG;
  return units_radians (degrees);
}
