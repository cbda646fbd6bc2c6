// SPDX-License-Identifier: GPL-3.0-or-later
/* The parts of a shot's balls: good strikes and poor ones. */
#include "fly-private.h"

#include <math.h>

Normal
pattern_normal (const Pattern *pattern)
{
  Vec2 side = vec2_scale (vec2_left (pattern->along), -1);
  double r = fmax (-1, fmin (1, pattern->correlation)), side_sd_m = pattern->side_sd_m;
  return (Normal){ .mean = pattern->mean,
                   .a = vec2_add (vec2_scale (pattern->along, pattern->long_sd_m), vec2_scale (side, r * side_sd_m)),
                   .b = vec2_scale (side, sqrt (1 - r * r) * side_sd_m) };
}

/* The same swing, of which the club meets only a part. */
static bool
fly_poor (const Hole *hole, const ShotResult *shot, double carry_share, Strike *poor, GError **error)
{
  Sendoff sendoff;
  Ground ground;
  Flight flight;
  double swing = shot->swing * carry_share,
         curve_m = shot->curve_m / (shot->swing * shot->effect.carry_factor * shot->effect.spin_factor);
  Vec2 along = vec2_unit (vec2_sub (shot->aim, shot->ball));
  if (!sendoff_make (shot->club, &shot->effect, swing, shot->ball, along, curve_m, &sendoff, error))
    return false;
  ground_init (&ground, hole, &shot->conditions);
  bool is_flown = sendoff_fly (&sendoff, &shot->conditions, &ground, &flight, &poor->pattern.mean, error);
  if (!is_flown)
    return false;
  poor->landing = flight_landing (&flight);
  poor->landing.at = poor->pattern.mean;
  return true;
}

size_t
odds_strikes (const Hole *hole, const ShotResult *shot, Strike strikes[MOST_STRIKES], GError **error)
{
  double chance = shot->club->mishit_chance, carry_share = shot->club->mishit_carry_share;
  strikes[0] = (Strike){ .share = 1, .pattern = shot->pattern, .landing = flight_landing (&shot->flight) };
  strikes[0].landing.at = shot->landing;
  if (!(chance > 0))
    return 1;
  if (isnan (carry_share))
    carry_share = MISHIT_CARRY_SHARE;
  strikes[1] = (Strike){ .share = fmin (1, chance), .pattern = shot->pattern };
  strikes[1].pattern.long_sd_m *= MISHIT_SPREAD;
  strikes[1].pattern.side_sd_m *= MISHIT_SPREAD;
  strikes[1].pattern.correlation = 0;
  strikes[0].share = 1 - strikes[1].share;
  if (!(carry_share > 0))
    {
      /* Topped: it stays at the golfer's feet. */
      strikes[1].pattern.mean = shot->ball;
      strikes[1].landing = (FlightPoint){ .at = shot->ball };
      return 2;
    }
  return fly_poor (hole, shot, fmin (1, carry_share), &strikes[1], error) ? 2 : 0;
}
