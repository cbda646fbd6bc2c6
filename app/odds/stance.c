// SPDX-License-Identifier: GPL-3.0-or-later
/* The slope under a golfer from the arrows drawn on the hole. */
#include "odds-stance.h"

#include <math.h>

/* Between the two points of an arrow. */
static double
distance_to_arrow (Vec2 at, Vec2 from, Vec2 to)
{
  Vec2 along = vec2_sub (to, from);
  double length2 = vec2_dot (along, along), t = vec2_dot (vec2_sub (at, from), along) / length2;
  return vec2_distance (at, vec2_lerp (from, to, fmin (1, fmax (0, t))));
}

bool
odds_stance_arrow (const Hole *hole, Vec2 ball, Vec2 *slope)
{
  double nearest_m = STANCE_ARROW_M;
  Vec2 found = { 0, 0 };
  bool is_found = false;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind != KIND_SLOPE || !isfinite (part->percent) || part->path.n_segs < 2)
        continue;
      Vec2 from = part->path.segs[0].to, to = path_current (&part->path);
      if (vec2_distance (from, to) <= 0 || !(distance_to_arrow (ball, from, to) <= nearest_m))
        continue;
      nearest_m = distance_to_arrow (ball, from, to);
      found = vec2_scale (vec2_unit (vec2_sub (to, from)), -part->percent / 100);
      is_found = true;
    }
  if (!is_found || terrain_covers (hole_terrain (hole), ball))
    return false;
  *slope = found;
  return true;
}
