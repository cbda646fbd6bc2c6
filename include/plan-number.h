// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-number - the number to play and the side to miss on in a few words, as they fit on a drawing.
 */
#ifndef HOLEWRIGHT_PLAN_NUMBER_H
#define HOLEWRIGHT_PLAN_NUMBER_H

#include "plan.h"

/* Nearer to the hole than this a golfer says "at the hole"; a difference in strokes below this is none (common practice). */
#define NUMBER_AT_HOLE_M 1.0
#define NUMBER_SAME_STROKES 0.05

/* "plays 147, 4 past the hole". `translate` as for sight_words. Free with g_free. */
char *approach_number_words (const Approach *approach, LengthUnit unit, Translate translate);
/* "miss long"; NULL when no side is better than another. Borrowed. */
const char *approach_miss_words (const Approach *approach, Translate translate);

#endif
