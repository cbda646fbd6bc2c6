// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Air and wind: density and viscosity of moist air, the standard atmosphere's pressure, and the wind's growth with height.
 */
#include "flight-private.h"

#include <math.h>

G_DEFINE_QUARK (holewright - flight - error, flight_error)

#define ZERO_CELSIUS_K 273.15
/* Specific gas constants: dry air as ISO 2533 has it, water vapour from R = 8.314472 J/(mol K) and 18.01528 g/mol. */
#define DRY_AIR_JPKGK 287.05287
#define VAPOUR_JPKGK 461.523
/* Vapour pressure over water, Magnus form: Sonntag 1990, Zeitschrift fuer Meteorologie 70:340. */
#define MAGNUS_PA 611.2
#define MAGNUS_FACTOR 17.62
#define MAGNUS_C 243.12
/* Sutherland's formula for air with the constants of ISO 2533. */
#define SUTHERLAND_PAS_PER_ROOT_K 1.458e-6
#define SUTHERLAND_K 110.4
/* The International Standard Atmosphere below 11 km, ISO 2533. */
#define ISA_SEA_LEVEL_K 288.15
#define ISA_LAPSE_KPM 0.0065

static double
saturation_pa (double temperature_c)
{
  return MAGNUS_PA * exp (MAGNUS_FACTOR * temperature_c / (MAGNUS_C + temperature_c));
}

static Air
air_of (double temperature_c, double pressure_pa, double humidity)
{
  double t_k = temperature_c + ZERO_CELSIUS_K;
  double vapour_pa = humidity * saturation_pa (temperature_c);
  return (Air){ .density_kgm3 = (pressure_pa - vapour_pa) / (DRY_AIR_JPKGK * t_k) + vapour_pa / (VAPOUR_JPKGK * t_k),
                .viscosity_pas = SUTHERLAND_PAS_PER_ROOT_K * t_k * sqrt (t_k) / (t_k + SUTHERLAND_K) };
}

bool
air_make (double temperature_c, double pressure_pa, double humidity, Air *air, GError **error)
{
  const char *wrong = NULL;
  if (!(temperature_c >= LEAST_TEMPERATURE_C && temperature_c <= MOST_TEMPERATURE_C))
    wrong = "the temperature is not one golf is played in; give one from -20 to 50 \302\260C";
  else if (!(pressure_pa >= LEAST_PRESSURE_PA && pressure_pa <= MOST_PRESSURE_PA))
    wrong = "the air pressure is not one golf is played in; give one from 500 to 1100 hPa";
  else if (!(humidity >= 0 && humidity <= 1))
    wrong = "the humidity is not a share of what the air can hold; give one from 0 to 100 %";
  if (wrong != NULL)
    g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE, wrong);
  else
    *air = air_of (temperature_c, pressure_pa, humidity);
  return wrong == NULL;
}

Air
air_standard (void)
{
  return air_of (STANDARD_TEMPERATURE_C, STANDARD_PRESSURE_PA, STANDARD_HUMIDITY);
}

double
air_pressure_at (double altitude_m)
{
  double held_m = altitude_m >= LEAST_ALTITUDE_M ? fmin (altitude_m, MOST_ALTITUDE_M) : LEAST_ALTITUDE_M;
  double exponent = GRAVITY_MPS2 / (DRY_AIR_JPKGK * ISA_LAPSE_KPM);
  return STANDARD_PRESSURE_PA * pow (1 - ISA_LAPSE_KPM * held_m / ISA_SEA_LEVEL_K, exponent);
}

#define LEAST_HEIGHT_SQUARED (WIND_LEAST_HEIGHT_M * WIND_LEAST_HEIGHT_M)

void
wind_profile (double roughness_m, double *base, double *by_log)
{
  double at_height = 0.5 * log (WIND_HEIGHT_M * WIND_HEIGHT_M + LEAST_HEIGHT_SQUARED);
  *base = 1;
  *by_log = 0;
  if (roughness_m > 0)
    {
      double scale = 1 / (at_height - log (roughness_m));
      *base = -scale * log (roughness_m);
      *by_log = 0.5 * scale;
    }
}

Vec2
wind_at (const Wind *wind, double height_m)
{
  double base, by_log;
  wind_profile (wind->roughness_m, &base, &by_log);
  return vec2_scale (wind->to_mps, base + by_log * log (height_m * height_m + LEAST_HEIGHT_SQUARED));
}
