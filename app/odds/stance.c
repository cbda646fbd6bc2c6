// SPDX-License-Identifier: GPL-3.0-or-later
/* The slope of the ground from the arrows drawn on the hole. */
#include "ground-private.h"
#include "odds-stance.h"

#include <math.h>

bool
arrow_of (const Part *part, Arrow *arrow)
{
  if (part->kind != KIND_SLOPE || !isfinite (part->percent) || part->path.n_segs < 2)
    return false;
  Vec2 from = part->path.segs[0].to, along = vec2_sub (path_current (&part->path), from);
  double length_m = vec2_length (along);
  *arrow = (Arrow){ from, along, 1 / vec2_dot (along, along), vec2_scale (along, -part->percent / 100 / length_m) };
  return length_m > 0;
}

Box
arrow_reach (const Arrow *arrow)
{
  Box box = box_with_point (box_with_point (box_empty (), arrow->from), vec2_add (arrow->from, arrow->along));
  return box_grown (box, STANCE_ARROW_M);
}

bool
arrow_slope (const Hole *hole, ArrowRange range, Vec2 at, Vec2 *slope)
{
  double nearest2_m2 = STANCE_ARROW_M * STANCE_ARROW_M;
  Arrow arrow, found;
  bool is_found = false;
  for (size_t i = range.first; i < range.end; i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind != KIND_SLOPE || !box_contains (box_grown (part->bounds, STANCE_ARROW_M), at) || !arrow_of (part, &arrow)
          || !arrow_is_nearer (&arrow, at, &nearest2_m2))
        continue;
      found = arrow;
      is_found = true;
    }
  if (!is_found || terrain_covers (hole_terrain (hole), at))
    return false;
  *slope = found.slope;
  return true;
}

bool
odds_stance_arrow (const Hole *hole, Vec2 at, Vec2 *slope)
{
  return arrow_slope (hole, (ArrowRange){ 0, hole_n_parts (hole) }, at, slope);
}
