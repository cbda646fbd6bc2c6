// SPDX-License-Identifier: GPL-3.0-or-later
/* whereabouts - where a point lies as golfers say it. */
#include "odds.h"

Whereabouts
odds_whereabouts (const Hole *hole, const char *hole_name, const ShotResult *shot, Vec2 at)
{
  Whereabouts where = { NAN, NAN, NAN };
  Vec2 target;
  if (hole_target (hole, hole_name, &target))
    where.to_hole_m = vec2_distance (at, target);
  if (shot == NULL)
    return where;
  Vec2 along = vec2_unit (vec2_sub (shot->landing, shot->ball));
  where.from_ball_m = vec2_distance (at, shot->ball);
  where.right_m = -vec2_cross (along, vec2_sub (at, shot->ball));
  return where;
}
