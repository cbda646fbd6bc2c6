// SPDX-License-Identifier: GPL-3.0-or-later
/* What to start a shot at and where it finishes: the landmarks that a golfer sights by near a line from the ball. */
#include "odds-private.h"

#include <math.h>
#include <stdint.h>

#define DEGREE (PI / 180)
/* A step down in the table of kinds, and the lack of a name, weigh as much as standing this much further off the line (common practice). */
#define STEP_RAD (0.5 * DEGREE)
#define BEST_LANDMARK 3u
/* An area that looks narrower than this from the ball is one thing to aim at, not two edges (common practice). */
#define NARROW_RAD (1.5 * DEGREE)

/* A line from the ball, and the best landmark so far. */
typedef struct
{
  const Hole *hole;
  Vec2 ball, along; /* unit vector */
  Sight best;
  double cost_rad; /* of the best */
} Search;

const char *
sight_token (SightOf of)
{
  static const char *const tokens[] = { [SIGHT_WHOLE] = "whole",
                                        [SIGHT_LEFT_EDGE] = "left-edge",
                                        [SIGHT_MIDDLE] = "middle",
                                        [SIGHT_RIGHT_EDGE] = "right-edge",
                                        [SIGHT_AIM] = "aim" };
  return tokens[of];
}

static bool
is_nameless_tree (const Part *part)
{
  return part->kind == KIND_TREE && part->name == NULL;
}

/* Takes the place for the best when it stands less off the line than the best so far. */
static void
consider (Search *search, size_t part, SightOf of, Vec2 at)
{
  const Part *landmark = hole_part (search->hole, part);
  Vec2 from = vec2_sub (at, search->ball);
  double along_m = vec2_dot (from, search->along), left_m = vec2_cross (search->along, from);
  double off_rad = atan2 (fabs (left_m), along_m);
  if (!(along_m >= SIGHT_LEAST_M) || off_rad > SIGHT_MOST_OFF_RAD)
    return;
  double cost_rad = off_rad + (BEST_LANDMARK - kind_info (landmark->kind)->landmark + (landmark->name == NULL)) * STEP_RAD;
  if (cost_rad >= search->cost_rad)
    return;
  search->cost_rad = cost_rad;
  search->best = (Sight){ .of = of, .part = part, .at = at, .distance_m = along_m, .right_m = left_m };
}

/* ---- areas ---- */

/* The outermost corners of an area as seen from the ball. */
typedef struct
{
  double low, high; /* slopes to the left of the line; low > high: none of it lies before the golfer */
  Vec2 right, left; /* the corners there */
} Extremes;

static Extremes
extremes_of (const Search *search, const Outline *area)
{
  Extremes found = { .low = INFINITY, .high = -INFINITY };
  for (size_t i = 0; i < area->n_points; i++)
    {
      Vec2 from = vec2_sub (area->points[i], search->ball);
      double along_m = vec2_dot (from, search->along);
      if (along_m < SIGHT_LEAST_M)
        continue;
      double slope = vec2_cross (search->along, from) / along_m;
      if (slope < found.low)
        found.low = slope, found.right = area->points[i];
      if (slope > found.high)
        found.high = slope, found.left = area->points[i];
    }
  return found;
}

/* Does a box lie wholly to one side of all lines that count, or behind the golfer? A quick look, before its area is gone round. */
static bool
is_aside (const Search *search, Box box, double most)
{
  Vec2 middle = vec2_sub (box_centre (box), search->ball), along = search->along;
  double half_x = 0.5 * (box.x1 - box.x0), half_y = 0.5 * (box.y1 - box.y0);
  Vec2 from_left = vec2_sub (vec2_left (along), vec2_scale (along, most)), /* across the outermost lines, outwards */
      from_right = vec2_sub (vec2_scale (vec2_left (along), -1), vec2_scale (along, most));
  return vec2_dot (middle, along) + fabs (along.x) * half_x + fabs (along.y) * half_y < 0
         || vec2_dot (middle, from_left) - fabs (from_left.x) * half_x - fabs (from_left.y) * half_y > 0
         || vec2_dot (middle, from_right) - fabs (from_right.x) * half_x - fabs (from_right.y) * half_y > 0;
}

static void
consider_area (Search *search, size_t part)
{
  const Outline *area = hole_part (search->hole, part)->outline;
  double most = tan (SIGHT_MOST_OFF_RAD);
  if (is_aside (search, area->bounds, most) || outline_contains (area, search->ball))
    return;
  Extremes seen = extremes_of (search, area);
  if (!(seen.low <= seen.high) || seen.low > most || seen.high < -most)
    return;
  Vec2 middle = vec2_lerp (seen.left, seen.right, 0.5);
  if (seen.high - seen.low < tan (NARROW_RAD))
    {
      consider (search, part, SIGHT_WHOLE, middle);
      return;
    }
  consider (search, part, SIGHT_LEFT_EDGE, seen.left);
  consider (search, part, SIGHT_RIGHT_EDGE, seen.right);
  consider (search, part, SIGHT_MIDDLE, middle);
}

/* The fairway or green that the ball comes down on, across the line. */
static void
consider_across (Search *search, Vec2 landing)
{
  int part = hole_area_at (search->hole, landing);
  if (part < 0)
    return;
  const KindInfo *kind = kind_info (hole_part (search->hole, (size_t)part)->kind);
  if (kind->landmark == 0 || kind->is_trouble)
    return;
  const Outline *area = hole_part (search->hole, (size_t)part)->outline;
  Vec2 edge[2], left = vec2_left (search->along);
  for (int i = 0; i < 2; i++)
    {
      Vec2 direction = vec2_scale (left, i == 0 ? 1 : -1);
      IntervalList list = { 0 };
      outline_crossings (area, landing, direction, area_far_end (area, landing), &list);
      double room_m = list.n_items > 0 && list.items[0].enter_m < SAME_POINT_M ? list.items[0].leave_m : 0;
      edge[i] = vec2_add (landing, vec2_scale (direction, room_m));
      interval_list_clear (&list);
    }
  consider (search, (size_t)part, SIGHT_LEFT_EDGE, edge[0]);
  consider (search, (size_t)part, SIGHT_RIGHT_EDGE, edge[1]);
  consider (search, (size_t)part, SIGHT_MIDDLE, vec2_lerp (edge[0], edge[1], 0.5));
}

/* ---- a line ---- */

/* One tree without a name among several is none that a golfer finds again. */
static bool
has_many_nameless_trees (const Search *search)
{
  int n = 0;
  for (size_t i = 0; i < hole_n_parts (search->hole); i++)
    {
      const Part *part = hole_part (search->hole, i);
      if (!is_nameless_tree (part))
        continue;
      Vec2 from = vec2_sub (part->at, search->ball);
      double along_m = vec2_dot (from, search->along);
      n += along_m >= SIGHT_LEAST_M && fabs (atan2 (vec2_cross (search->along, from), along_m)) <= SIGHT_MOST_OFF_RAD;
    }
  return n > 1;
}

static Search
search_begin (const Hole *hole, Vec2 ball, Vec2 along, Vec2 aim)
{
  Vec2 from = vec2_sub (aim, ball);
  Sight sight = {
    .of = SIGHT_AIM, .part = SIZE_MAX, .at = aim, .distance_m = vec2_dot (from, along), .right_m = vec2_cross (along, from)
  };
  return (Search){ hole, ball, along, sight, INFINITY };
}

static void
search_hole (Search *search, int hole_location)
{
  bool has_many = has_many_nameless_trees (search);
  for (size_t i = 0; i < hole_n_parts (search->hole); i++)
    {
      const Part *part = hole_part (search->hole, i);
      if (kind_info (part->kind)->landmark == 0 || (part->kind == KIND_MARK && part->name == NULL)
          || (has_many && is_nameless_tree (part)) || (part->kind == KIND_HOLE_LOCATION && (int)i != hole_location))
        continue;
      if (part->outline != NULL)
        consider_area (search, i);
      else
        consider (search, i, SIGHT_WHOLE, part->at);
    }
}

Sights
odds_sights (const Hole *hole, const char *hole_name, const ShotResult *shot)
{
  Vec2 flown = vec2_sub (shot->landing, shot->ball), towards = vec2_unit (flown);
  int hole_location = hole_hole_location (hole, hole_name);
  Search start = search_begin (hole, shot->ball, shot->start, shot->aim);
  Search finish = search_begin (hole, shot->ball, towards, shot->aim);
  search_hole (&start, hole_location);
  search_hole (&finish, hole_location);
  consider_across (&finish, shot->landing);
  double between_rad = fabs (atan2 (vec2_cross (shot->start, towards), vec2_dot (shot->start, towards)));
  return (Sights){ start.best, finish.best, between_rad < SIGHT_AT_RAD };
}
