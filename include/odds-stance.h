// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-stance - the slope that a golfer stands on where no heights tell it.
 */
#ifndef HOLEWRIGHT_ODDS_STANCE_H
#define HOLEWRIGHT_ODDS_STANCE_H

#include "odds.h"

/* A slope's arrow speaks for the ground so far about its line (common practice: across a stance and a few steps beyond it). */
#define STANCE_ARROW_M 10.0

/*
 * The slope that the nearest arrow within STANCE_ARROW_M gives the ground under a ball: `*slope` is its rise per metre towards +x and +y, so that it points against the
 * arrow of a slope that falls. False where there is none, and where the hole's heights lie round the place: what was measured is better known than an arrow.
 *
 * Only the stance follows it: how the swing turns with the ground, as ShotInput says. Balls fly and run over the ground of the heights.
 */
bool odds_stance_arrow (const Hole *hole, Vec2 ball, Vec2 *slope);

#endif
