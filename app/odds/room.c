// SPDX-License-Identifier: GPL-3.0-or-later
/* Room for error: how far the whole pattern may move from where it is and still leave nine balls in ten in play. */
#include "odds-room.h"
#include "room-private.h"

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

/* One question after the other about a pattern that moves. */
typedef struct
{
  RoomField *field;
  double share;  /* of the balls that move with it */
  double offset; /* what the others add, and what the field's sum is off where the pattern is */
} Mover;

static bool
trouble_moved (const Mover *mover, Vec2 by, double *trouble, GError **error)
{
  if (!room_field_trouble (mover->field, by, trouble))
    {
      g_set_error_literal (error, ODDS_ERROR, ODDS_ERROR_NUMBERS,
                           "the shot's spread is not a length; check the club's deviations in the bag");
      return false;
    }
  *trouble = mover->offset + mover->share * *trouble;
  return true;
}

static bool
room_towards (const Mover *mover, Vec2 direction, double *room_m, GError **error)
{
  double in_m = 0, out_m = NAN, trouble;
  for (double at_m = STEP_M; isnan (out_m) && at_m <= ROOM_MOST_M; at_m += STEP_M)
    {
      if (!trouble_moved (mover, vec2_scale (direction, at_m), &trouble, error))
        return false;
      if (trouble > ROOM_TROUBLE)
        out_m = at_m;
      else
        in_m = at_m;
    }
  while (out_m - in_m > FINE_M)
    {
      double middle_m = 0.5 * (in_m + out_m);
      if (!trouble_moved (mover, vec2_scale (direction, middle_m), &trouble, error))
        return false;
      if (trouble > ROOM_TROUBLE)
        out_m = middle_m;
      else
        in_m = middle_m;
    }
  *room_m = in_m;
  return true;
}

/* All four ways, for a pattern of which `trouble` is in trouble where it is. */
static bool
room_round (const Hole *hole, const ShotResult *shot, double trouble, Room *room, GError **error)
{
  Vec2 along = vec2_unit (vec2_sub (shot->landing, shot->ball)), left = vec2_left (along);
  Strike strikes[MOST_STRIKES];
  const Faces *faces = hole_faces (hole, error);
  if (faces == NULL || odds_strikes (hole, shot, strikes, error) == 0)
    return false;
  const struct
  {
    double *room_m;
    Vec2 direction;
  } ways[] = { { &room->left_m, left },
               { &room->right_m, vec2_scale (left, -1) },
               { &room->short_m, vec2_scale (along, -1) },
               { &room->long_m, along } };
  Ground ground;
  ground_init (&ground, hole, &shot->conditions);
  g_autoptr (RoomField) field = room_field_new (&ground, faces, &strikes[0], ROOM_MOST_M);
  Mover mover = { .field = field, .share = strikes[0].share };
  double as_it_is;
  bool is_found = trouble_moved (&mover, vec2 (0, 0), &as_it_is, error);
  mover.offset = trouble - as_it_is;
  for (size_t i = 0; i < G_N_ELEMENTS (ways) && is_found; i++)
    is_found = room_towards (&mover, ways[i].direction, ways[i].room_m, error);
  return is_found;
}

/* Does the ball that comes down there as the mean one does lie out of trouble, there and at rest? Else `*part` is what it lies in. */
static bool
is_clear (const Hole *hole, const ShotResult *shot, Vec2 at, int *part)
{
  FlightPoint landing = flight_landing (&shot->flight);
  Vec2 rest;
  landing.at = at;
  bool is_out = !kind_info (hole_kind_at (hole, at))->is_trouble;
  if (is_out && odds_rest_of (hole, &shot->conditions, &landing, &rest, NULL))
    at = rest;
  else
    is_out = false;
  bool is_trouble = kind_info (hole_kind_at (hole, at))->is_trouble;
  *part = is_trouble ? hole_area_at (hole, at) : -1;
  return is_out && !is_trouble;
}

bool
odds_room_of (const Hole *hole, const ShotResult *shot, const OddsTable *odds, Room *room, GError **error)
{
  Room found = { .left_m = NAN, .right_m = NAN, .short_m = NAN, .long_m = NAN, .trouble = trouble_of (odds) };
  if (found.trouble <= ROOM_TROUBLE && !room_round (hole, shot, found.trouble, &found, error))
    return false;
  Vec2 start = vec2_add (shot->ball, vec2_scale (shot->start, shot->carry_m));
  found.start_is_clear = is_clear (hole, shot, start, &found.start_part);
  found.finish_is_clear = is_clear (hole, shot, shot->landing, &found.finish_part);
  *room = found;
  return true;
}

bool
odds_room (const Hole *hole, const ShotResult *shot, Room *room, GError **error)
{
  g_autoptr (OddsTable) odds = odds_table_new (hole, shot, error);
  return odds != NULL && odds_room_of (hole, shot, odds, room, error);
}
