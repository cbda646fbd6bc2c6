// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-known - shots of a plan that were flown a moment ago, so that a drag, which asks about the same shots over and over, flies none of them twice.
 *
 * What is known is of one drawing and one bag, which it keeps; asked about others it begins anew. It belongs to one thread.
 */
#ifndef HOLEWRIGHT_ODDS_KNOWN_H
#define HOLEWRIGHT_ODDS_KNOWN_H

#include "odds.h"

typedef struct _KnownShots KnownShots;

KnownShots *known_shots_new (void);
void known_shots_free (KnownShots *known);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (KnownShots, known_shots_free)

/* As odds_plan_shot and odds_plan, to the last bit. `known` NULL: flown. */
bool known_shots_fly (KnownShots *known, const Hole *hole, const Part *plan, size_t i, const Bag *bag, ShotResult *result,
                      GError **error);
ShotResult *known_shots_plan (KnownShots *known, const Hole *hole, size_t plan, const Bag *bag, GError **error);

/* Do the two holes hold the same parts, but for their plans? */
bool odds_same_ground (const Hole *a, const Hole *b);

#endif
