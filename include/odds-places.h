// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-places - where on the drawing the odds of a shot are written: at the areas that its balls come to rest on.
 */
#ifndef HOLEWRIGHT_ODDS_PLACES_H
#define HOLEWRIGHT_ODDS_PLACES_H

#include "odds.h"

typedef struct
{
  int part; /* index of the area in the hole; -1: the ground, where no area lies */
  Kind kind;
  double chance; /* 0..1 that the ball rests there */
  Vec2 at;       /* of the places on it the one where most balls come to rest */
} OddsPlace;

/* Chances nearer to none or to all are told as "under 1 %" and "over 99 %": no figure is more certain than the model. */
#define CHANCE_NEAR_NONE 0.01
#define CHANCE_NEAR_ALL 0.995

/* Areas with less are not told of; trouble is down to the second. */
#define PLACE_LEAST_CHANCE 0.005
#define PLACE_LEAST_TROUBLE 0.0005

/*
 * The areas of a shot's odds that are worth telling of, trouble first, then by chance: `places` has room for `most`; returns how many. `at` is where the density of the
 * pattern at rest is greatest on what is seen of the area, to a decimetre or two; where that pattern does not reach the area - balls stay in it that would have run on
 * through it - of the pattern at landing. Areas that neither reaches within PLACE_SDS are left out. A thousand questions for the area under a point: tenths of a
 * millisecond.
 */
#define PLACE_SDS 3.5
size_t odds_places (const Hole *hole, const ShotResult *shot, const OddsTable *odds, OddsPlace *places, size_t most);

#endif
