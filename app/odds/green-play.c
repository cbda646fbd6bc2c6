// SPDX-License-Identifier: GPL-3.0-or-later
/* Whether a club gets to the green from the ball, and the numbers from where it is played. */
#include "odds-green.h"

#include <math.h>

static double
farthest_m (const ShotResult *shot, const ClubToday *clubs, size_t n_clubs)
{
  double farthest = fmax (shot->carry_m, shot->carry_m + shot->run_m);
  for (size_t i = 0; clubs != NULL && i < n_clubs; i++)
    if (isfinite (clubs[i].carry_m) && (!clubs[i].club->tee_only || shot->lie == LIE_TEE))
      farthest = fmax (farthest, clubs[i].carry_m + (isfinite (clubs[i].run_m) ? clubs[i].run_m : 0));
  return farthest;
}

bool
odds_green_play (const Hole *hole, const char *hole_name, const ShotResult *shot, const ClubToday *clubs, size_t n_clubs,
                 GreenPlay *play)
{
  GreenPlay found = { .from = shot->ball };
  found.is_reached = odds_green_numbers (hole, hole_name, shot->ball, &found.numbers)
                     && farthest_m (shot, clubs, n_clubs) >= found.numbers.front_m;
  if (!found.is_reached)
    {
      found.from = shot->rest;
      if (!odds_green_numbers (hole, hole_name, shot->rest, &found.numbers))
        return false;
    }
  *play = found;
  return true;
}
