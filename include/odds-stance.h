// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-stance - the slope of the ground where an arrow tells it and no heights do.
 */
#ifndef HOLEWRIGHT_ODDS_STANCE_H
#define HOLEWRIGHT_ODDS_STANCE_H

#include "odds.h"

/* A slope's arrow speaks for the ground so far about its line (common practice: across a stance or a hole and a few steps beyond it). */
#define STANCE_ARROW_M 10.0

/*
 * The slope that the nearest arrow within STANCE_ARROW_M gives the ground at a place: `*slope` is its rise per metre towards +x and +y, so that it points against the
 * arrow of a slope that falls. False where there is none, and where the hole's heights lie round the place: what was measured is better known than an arrow.
 *
 * An arrow tells how the ground tilts, not how high it lies. So the tilt counts for whatever stands or comes down there: the golfer's stance, with which the swing turns as
 * ShotInput says, each bounce and the roll. Heights stay those of the spot heights, for the flight, for what it must clear and in the section: over the twenty metres that an
 * arrow of 5 % speaks for, half a metre either way. Beyond its reach a ball runs on over the ground as it is there.
 */
bool odds_stance_arrow (const Hole *hole, Vec2 at, Vec2 *slope);

#endif
