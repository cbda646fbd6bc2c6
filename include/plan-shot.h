// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-shot - a shot in hand beside the other aims of its club.
 *
 * A pure function of an immutable hole and of tables that never change; any thread may call it.
 */
#ifndef HOLEWRIGHT_PLAN_SHOT_H
#define HOLEWRIGHT_PLAN_SHOT_H

#include "plan.h"

/*
 * The map of the shot's club as aim_map_new, and what the shot itself costs as plan_shot_strokes where playing again costs what it does in the map; `*odds` (may be NULL) receives
 * what odds_table_new says of the shot, for odds_table_free. All at once, because its balls are followed only once. The ball and the day are the shot's. NULL with `error` as those
 * three, and nothing is received.
 */
AimMap *plan_shot_aims (const PlanInput *input, const ShotResult *shot, ShotStrokes *strokes, OddsTable **odds, GError **error);

#endif
