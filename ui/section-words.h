// SPDX-License-Identifier: GPL-3.0-or-later
/* section-words - a shot seen from its side, told in one sentence: what a screen reader says of the section. */
#ifndef HW_SECTION_WORDS_H
#define HW_SECTION_WORDS_H

#include "odds-section.h"
#include "units.h"

/*
 * "Carries 214 yd, 5 ft up, clears the oak by 4 ft, lands on fairway, runs 20 yd, stops on fairway, 12 yd short of the bunker". `carries` is the table
 * that the section was made with. Free with g_free.
 */
char *hw_section_words (const Hole *hole, const ShotResult *shot, const CarryTable *carries, const Section *section,
                        LengthUnit units);

#endif
