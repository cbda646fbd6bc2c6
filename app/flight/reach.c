// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * How much harder or softer the same club must be swung for the ball to land at a distance on this day and ground.
 */
#include "flight-private.h"

#include <math.h>

/* The landing found is this near the distance. */
#define REACH_TOLERANCE_M 1e-3
/* No swing is softer. */
#define LEAST_BALL_SPEED_MPS 0.1
/* A landing's distance grows with this power of the ball's speed, more or less: a first guess. */
#define DISTANCE_POWER 1.3

Launch
launch_scaled (const Launch *launch, double factor)
{
  Launch scaled = *launch;
  scaled.speed_mps *= factor;
  scaled.spin_radps = fmin (scaled.spin_radps * factor, MOST_SPIN_RADPS);
  return scaled;
}

typedef struct
{
  FlightInput input;
  Launch full;
  double distance_m;
  double factor, landed_m, side_m; /* of the last flight */
  GError *error;
} Reach;

/* How far beyond the distance a ball lands there; one that the wind blows back lands short. */
static double
land_at (Reach *reach, double factor, Vec2 at)
{
  Vec2 flown = vec2_sub (at, reach->input.from), along = reach->input.direction;
  reach->factor = factor;
  reach->landed_m = copysign (vec2_length (flown), vec2_dot (flown, along));
  reach->side_m = -vec2_cross (along, flown);
  return reach->landed_m - reach->distance_m;
}

static double
beyond (void *data, double factor)
{
  Reach *reach = data;
  FlightPoint landing;
  reach->input.launch = launch_scaled (&reach->full, factor);
  /* The hardest swing's speed comes out of a quotient and a product. */
  reach->input.launch.speed_mps = fmin (reach->input.launch.speed_mps, MOST_BALL_SPEED_MPS);
  g_clear_error (&reach->error);
  if (!flight_fly (&reach->input, NULL, &landing, NULL, &reach->error))
    return NAN;
  return land_at (reach, factor, landing.at);
}

static bool
is_reached (Reach *reach, const Vec2 *landing, double *factor)
{
  double speed = reach->full.speed_mps;
  double low = LEAST_BALL_SPEED_MPS / speed, high = MOST_BALL_SPEED_MPS / speed;
  double full = landing != NULL ? land_at (reach, 1, *landing) : beyond (reach, 1);
  if (isnan (full))
    return false;
  double guess = reach->landed_m > 0 ? pow (reach->distance_m / reach->landed_m, 1 / DISTANCE_POWER) : 1;
  if (!root_find_beside (beyond, reach, low, high, REACH_TOLERANCE_M, 1, full, &guess))
    return false;
  *factor = guess;
  return reach->factor == guess || !isnan (beyond (reach, guess));
}

static bool
find_reach (const FlightInput *input, const Vec2 *landing, double distance_m, double *factor, double *side_m, GError **error)
{
  if (!(distance_m > 0 && isfinite (distance_m)))
    {
      g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE, "the target is at no distance; put it away from the ball");
      return false;
    }
  Reach search = { .input = *input, .full = input->launch, .distance_m = distance_m };
  double found = 1;
  bool is_found = is_reached (&search, landing, &found);
  if (search.error != NULL)
    {
      g_propagate_error (error, search.error);
      return false;
    }
  if (!is_found)
    {
      g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_REACH,
                           "no swing of this club lands there; aim shorter or take another club");
      return false;
    }
  *factor = found;
  *side_m = search.side_m;
  return true;
}

bool
flight_reach (const FlightInput *input, double distance_m, double *factor, double *side_m, GError **error)
{
  return find_reach (input, NULL, distance_m, factor, side_m, error);
}

bool
flight_reach_from (const FlightInput *input, Vec2 landing, double distance_m, double *factor, double *side_m, GError **error)
{
  return find_reach (input, &landing, distance_m, factor, side_m, error);
}
