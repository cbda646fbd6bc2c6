// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a ball at rest costs: the table's strokes, or the cheapest drop.
 */
#include "plan-private.h"

#include <math.h>

void
kept_drops_init (KeptDrops *kept)
{
  for (int i = 0; i < N_KEPT_DROPS; i++)
    kept->kept[i] = (KeptDrop){ INFINITY, -INFINITY, { 0, 0 } };
}

/* Playing again, and the stroke that it costs. */
static const Value again = { DROP_PENALTY_STROKES, 1 };

/* Relief from a penalty area, asked for once for all balls that went in on the same way at the same place. */
static Value
value_of_drop (const Place *place, KeptDrops *kept, Vec2 at)
{
  Vec2 ball = place->input.ball, way = vec2_sub (at, ball);
  double distance_m = length_of (way), turn = atan2 (way.y, way.x) / KEPT_DROP_RAD;
  KeptDrop *same = &kept->kept[((long)floor (turn) % N_KEPT_DROPS + N_KEPT_DROPS) % N_KEPT_DROPS];
  if (distance_m >= same->from_m && distance_m <= same->to_m)
    return same->value;
  Drop drops[N_DROP_RULES];
  size_t n = plan_drops (place->input.hole, place->input.table, place->target, ball, at, place->again_strokes, drops);
  if (n == 0)
    return again;
  Value value = drops[0].rule == DROP_AGAIN ? again : (Value){ drops[0].strokes, 0 };
  *same = (KeptDrop){ vec2_distance (ball, drops[0].crossing), distance_m, value };
  return value;
}

Value
value_at_rest (const Place *place, KeptDrops *kept, Vec2 at, Lie lie)
{
  if (lie == LIE_OUT_OF_BOUNDS)
    return again;
  if (lie == LIE_PENALTY)
    return value_of_drop (place, kept, at);
  Value found = { strokes_to_hole (place->input.table, lie, length_of (vec2_sub (at, place->target))), 0 };
  if (lie != LIE_TREES)
    return found;
  double lost = place->input.lost_chance;
  return (Value){ (1 - lost) * found.strokes + lost * again.strokes, lost * again.again };
}
