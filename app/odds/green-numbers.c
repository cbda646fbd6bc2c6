// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Front, hole and back of the green along the line from a ball to the hole, and the room to both sides at the hole.
 */
#include "odds-private.h"

double
area_far_end (const Outline *area, Vec2 origin)
{
  Box box = area->bounds;
  if (box_is_empty (box))
    return 0;
  double dx = fmax (fabs (box.x0 - origin.x), fabs (box.x1 - origin.x));
  double dy = fmax (fabs (box.y0 - origin.y), fabs (box.y1 - origin.y));
  return hypot (dx, dy) + SAME_POINT_M;
}

/* From the hole to where the green first ends in a direction; 0 when the hole is not on the green. */
static double
room (const Outline *green, Vec2 hole, Vec2 direction, IntervalList *list)
{
  outline_crossings (green, hole, direction, area_far_end (green, hole), list);
  return list->n_items > 0 && list->items[0].enter_m < SAME_POINT_M ? list->items[0].leave_m : 0;
}

bool
odds_green_numbers (const Hole *hole, const char *hole_name, Vec2 ball, GreenNumbers *numbers)
{
  Vec2 target;
  int green = hole_green (hole, hole_name);
  if (green < 0 || !hole_target (hole, hole_name, &target))
    return false;
  GreenNumbers found = { .hole_m = vec2_distance (ball, target) };
  if (!(found.hole_m >= SAME_POINT_M))
    return false;

  const Outline *outline = hole_part (hole, (size_t)green)->outline;
  Vec2 along = vec2_unit (vec2_sub (target, ball));
  IntervalList list = { 0 };
  outline_crossings (outline, ball, along, area_far_end (outline, ball), &list);
  bool is_met = list.n_items > 0;
  if (is_met)
    {
      found.front_m = list.items[0].enter_m;
      found.back_m = list.items[list.n_items - 1].leave_m;
      found.depth_m = found.back_m - found.front_m;
      found.left_m = room (outline, target, vec2_left (along), &list);
      found.right_m = room (outline, target, vec2_scale (vec2_left (along), -1), &list);
      *numbers = found;
    }
  interval_list_clear (&list);
  return is_met;
}
