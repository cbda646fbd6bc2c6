// SPDX-License-Identifier: GPL-3.0-or-later
/* Room for error: how far the whole pattern may move from where it is and still leave nine balls in ten in play. */
#include "odds-private.h"

#include <math.h>

/* Patterns this far apart are looked at; where one is in play and the next is not, between them down to the finer step. */
#define STEP_M 4.0
#define FINE_M 0.25

static double
trouble_of (const OddsTable *table)
{
  double trouble = 0;
  for (int kind = 0; kind < N_KINDS; kind++)
    if (kind_info ((Kind)kind)->is_trouble)
      trouble += table->rest[kind];
  return fmin (1, trouble);
}

/* Chance of trouble at rest of the pattern moved by this. */
static bool
trouble_moved (const Hole *hole, const ShotResult *shot, Vec2 by, double *trouble, GError **error)
{
  ShotResult moved = *shot;
  moved.landing = moved.pattern.mean = vec2_add (shot->landing, by);
  g_autoptr (OddsTable) table = odds_table_new (hole, &moved, error);
  if (table == NULL)
    return false;
  *trouble = trouble_of (table);
  return true;
}

static bool
room_towards (const Hole *hole, const ShotResult *shot, Vec2 direction, double *room_m, GError **error)
{
  double in_m = 0, out_m = NAN, trouble;
  for (double at_m = STEP_M; isnan (out_m) && at_m <= ROOM_MOST_M; at_m += STEP_M)
    {
      if (!trouble_moved (hole, shot, vec2_scale (direction, at_m), &trouble, error))
        return false;
      if (trouble > ROOM_TROUBLE)
        out_m = at_m;
      else
        in_m = at_m;
    }
  while (out_m - in_m > FINE_M)
    {
      double middle_m = 0.5 * (in_m + out_m);
      if (!trouble_moved (hole, shot, vec2_scale (direction, middle_m), &trouble, error))
        return false;
      if (trouble > ROOM_TROUBLE)
        out_m = middle_m;
      else
        in_m = middle_m;
    }
  *room_m = in_m;
  return true;
}

/* Does the ball that comes down there as the mean one does lie out of trouble, there and at rest? */
static bool
is_dry (const Hole *hole, const ShotResult *shot, Vec2 at)
{
  FlightPoint landing = flight_landing (&shot->flight);
  Vec2 rest;
  landing.at = at;
  return !kind_info (hole_kind_at (hole, at))->is_trouble && odds_rest_of (hole, &shot->conditions, &landing, &rest, NULL)
         && !kind_info (hole_kind_at (hole, rest))->is_trouble;
}

bool
odds_room (const Hole *hole, const ShotResult *shot, Room *room, GError **error)
{
  Vec2 along = vec2_unit (vec2_sub (shot->landing, shot->ball)), left = vec2_left (along);
  Room found = { .left_m = NAN, .right_m = NAN, .short_m = NAN, .long_m = NAN };
  if (!trouble_moved (hole, shot, vec2 (0, 0), &found.trouble, error))
    return false;
  const struct
  {
    double *room_m;
    Vec2 direction;
  } ways[] = { { &found.left_m, left },
               { &found.right_m, vec2_scale (left, -1) },
               { &found.short_m, vec2_scale (along, -1) },
               { &found.long_m, along } };
  for (size_t i = 0; i < G_N_ELEMENTS (ways) && found.trouble <= ROOM_TROUBLE; i++)
    if (!room_towards (hole, shot, ways[i].direction, ways[i].room_m, error))
      return false;
  found.start_is_dry = is_dry (hole, shot, vec2_add (shot->ball, vec2_scale (shot->start, shot->carry_m)));
  found.finish_is_dry = is_dry (hole, shot, shot->landing);
  *room = found;
  return true;
}
