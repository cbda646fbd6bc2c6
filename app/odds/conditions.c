// SPDX-License-Identifier: GPL-3.0-or-later
/* The air, the wind and the ground of a day, as they are on one hole. */
#include "odds-private.h"
#include "units.h"

#include <math.h>

/* A day that says nothing of them has turf of medium firmness and greens of 9 ft: the middle of what clubs keep (common practice). */
#define USUAL_GREEN_SPEED_FT 9.0

Conditions
conditions_standard (void)
{
  return (Conditions){ .air = air_standard (), .firmness = FIRMNESS_MEDIUM, .green_speed_ft = USUAL_GREEN_SPEED_FT };
}

bool
conditions_equal (const Conditions *a, const Conditions *b)
{
  return a->air.density_kgm3 == b->air.density_kgm3 && a->air.viscosity_pas == b->air.viscosity_pas
         && a->wind.to_mps.x == b->wind.to_mps.x && a->wind.to_mps.y == b->wind.to_mps.y
         && a->wind.roughness_m == b->wind.roughness_m && a->firmness == b->firmness && a->green_speed_ft == b->green_speed_ft;
}

static bool
refuse (GError **error, const char *sentence)
{
  g_set_error_literal (error, ODDS_ERROR, ODDS_ERROR_DAY, sentence);
  return false;
}

/* ---- the numbers of a day, each within what golf is played in ---- */

typedef struct
{
  size_t field; /* in Day */
  double low, high;
  const char *wrong;
} Range;

static const Range ranges[] = {
  { offsetof (Day, wind_mps), 0, MOST_WIND_MPS, "nobody plays golf in such a wind; give 0 to 30 m/s (67 mph)" },
  { offsetof (Day, wind_from_deg), -360, 360, "the wind comes from no such bearing; give 0 to 360 degrees, 0 being north" },
  { offsetof (Day, temperature_c), LEAST_TEMPERATURE_C, MOST_TEMPERATURE_C,
    "nobody plays golf at such a temperature; give -20 to 50 °C (-4 to 122 °F)" },
  { offsetof (Day, altitude_m), LEAST_ALTITUDE_M, MOST_ALTITUDE_M,
    "no course lies at such an altitude; give -430 to 5000 m (-1400 to 16400 ft)" },
  { offsetof (Day, pressure_pa), LEAST_PRESSURE_PA, MOST_PRESSURE_PA,
    "the air has no such pressure; give 500 to 1100 hPa, as it is where the course lies" },
  { offsetof (Day, humidity), 0, 1, "the humidity is not a share of what air can hold; give 0 to 1, or 0 % to 100 %" },
  { offsetof (Day, green_speed_ft), LEAST_GREEN_SPEED_FT, MOST_GREEN_SPEED_FT,
    "no green is that slow or that fast; give 3 to 20 ft" },
};

static bool
check_ranges (const Day *day, GError **error)
{
  for (size_t i = 0; i < G_N_ELEMENTS (ranges); i++)
    {
      double number = *(const double *)(const void *)((const char *)day + ranges[i].field);
      if (!isnan (number) && !(number >= ranges[i].low && number <= ranges[i].high))
        return refuse (error, ranges[i].wrong);
    }
  return true;
}

static double
given (double number, double otherwise)
{
  return isnan (number) ? otherwise : number;
}

/* ---- onto the hole ---- */

static bool
make_air (const Hole *hole, const Day *day, Air *air, GError **error)
{
  double pressure_pa = day->pressure_pa;
  if (isnan (pressure_pa))
    {
      double altitude_m = given (day->altitude_m, given (hole_info (hole)->altitude_m, 0));
      if (!(altitude_m >= LEAST_ALTITUDE_M && altitude_m <= MOST_ALTITUDE_M))
        return refuse (error, "no course lies at the hole's altitude; give one of -430 to 5000 m (-1400 to 16400 ft)");
      pressure_pa = air_pressure_at (altitude_m);
    }
  return air_make (given (day->temperature_c, STANDARD_TEMPERATURE_C), pressure_pa, given (day->humidity, STANDARD_HUMIDITY),
                   air, error);
}

static bool
make_wind (const Hole *hole, const Day *day, Wind *wind, GError **error)
{
  *wind = (Wind){ 0 };
  if (!(given (day->wind_mps, 0) > 0))
    return true;
  double up_deg = hole_info (hole)->up_bearing_deg;
  if (isnan (day->wind_from_deg))
    return refuse (error, "the wind has no bearing; say where it comes from, 0 to 360 degrees");
  if (isnan (up_deg))
    return refuse (error, "the hole does not say where north is, so the wind cannot be turned onto it; give the bearing of the "
                          "top of its drawing (hw:up-bearing)");
  double from_rad = units_direction_rad (day->wind_from_deg, up_deg);
  wind->to_mps = vec2_scale (vec2 (cos (from_rad), sin (from_rad)), -day->wind_mps);
  wind->roughness_m = ROUGHNESS_GRASS_M;
  return true;
}

bool
conditions_of_day (const Hole *hole, const Day *day, Conditions *conditions, GError **error)
{
  Day nothing;
  day_init (&nothing);
  if (day == NULL)
    day = &nothing;
  Conditions made = conditions_standard ();
  if (!check_ranges (day, error) || !make_air (hole, day, &made.air, error) || !make_wind (hole, day, &made.wind, error))
    return false;
  if (day->firmness != NULL && !firmness_from_token (day->firmness, &made.firmness))
    return refuse (error, "the ground's firmness is not known; give soft, medium or firm");
  made.green_speed_ft = given (day->green_speed_ft, made.green_speed_ft);
  *conditions = made;
  return true;
}
