// SPDX-License-Identifier: GPL-3.0-or-later
/* The slope of the ground from the arrows drawn on the hole. */
#include "ground-private.h"
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

static bool
is_arrow (const Part *part, Vec2 *from, Vec2 *to)
{
  if (part->kind != KIND_SLOPE || !isfinite (part->percent) || part->path.n_segs < 2)
    return false;
  *from = part->path.segs[0].to;
  *to = path_current (&part->path);
  return vec2_distance (*from, *to) > 0;
}

ArrowRange
arrows_of (const Hole *hole)
{
  ArrowRange range = { 0, 0 };
  Vec2 from, to;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (is_arrow (hole_part (hole, i), &from, &to))
      range = (ArrowRange){ range.end == 0 ? i : range.first, i + 1 };
  return range;
}

bool
arrow_reach (const Hole *hole, size_t i, Box *reach)
{
  Vec2 from, to;
  if (!is_arrow (hole_part (hole, i), &from, &to))
    return false;
  *reach = box_grown (box_with_point (box_with_point (box_empty (), from), to), STANCE_ARROW_M);
  return true;
}

bool
arrow_slope (const Hole *hole, ArrowRange range, Vec2 at, Vec2 *slope)
{
  double nearest_m = STANCE_ARROW_M;
  Vec2 found = { 0, 0 }, from, to;
  bool is_found = false;
  for (size_t i = range.first; i < range.end; i++)
    {
      const Part *part = hole_part (hole, i);
      if (!is_arrow (part, &from, &to) || !(distance_to_arrow (at, from, to) <= nearest_m))
        continue;
      nearest_m = distance_to_arrow (at, from, to);
      found = vec2_scale (vec2_unit (vec2_sub (to, from)), -part->percent / 100);
      is_found = true;
    }
  if (!is_found || terrain_covers (hole_terrain (hole), at))
    return false;
  *slope = found;
  return true;
}

bool
odds_stance_arrow (const Hole *hole, Vec2 at, Vec2 *slope)
{
  return arrow_slope (hole, (ArrowRange){ 0, hole_n_parts (hole) }, at, slope);
}
