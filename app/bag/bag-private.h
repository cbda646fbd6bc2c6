// SPDX-License-Identifier: GPL-3.0-or-later
/* What the reader of bag files needs to make a bag. */
#ifndef HOLEWRIGHT_BAG_PRIVATE_H
#define HOLEWRIGHT_BAG_PRIVATE_H

#include "bag.h"

void club_free (Club *club);
/* Takes over the array of Club pointers (freed with club_free) and the warnings, both possibly empty; sorts the clubs. */
Bag *bag_new_taking (GPtrArray *clubs, GPtrArray *warnings);

#endif
