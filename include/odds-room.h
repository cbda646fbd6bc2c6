// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-room - room for error: how far a shot may be off and still be in play.
 */
#ifndef HOLEWRIGHT_ODDS_ROOM_H
#define HOLEWRIGHT_ODDS_ROOM_H

#include "odds.h"

/*
 * How much less or more than planned a ball may curve. It leaves on the planned line at the planned speed, its spin axis turned; the room is how far beside the planned landing the mean
 * ball comes down, across its line, just before it comes down in trouble, comes to rest in it, or flies into a tree or trees. Trouble narrower than 2 m across the line may be
 * passed over. Some 40 flights.
 */
typedef struct
{
  double left_m, right_m;     /* at most SHAPE_ROOM_MOST_M */
  double left_rad, right_rad; /* the same as seen from the ball */
  int left_part,
      right_part; /* the area or tree that ends it; -1: nothing within SHAPE_ROOM_MOST_M, or ground that is trouble */
  bool is_clear;    /* false: the planned ball itself meets trouble, which both parts name; the rest is 0 */
} ShapeRoom;
#define SHAPE_ROOM_MOST_M 30.0
/* False with `error` for a shot that cannot be flown again. */
bool odds_shape_room (const Hole *hole, const ShotResult *shot, ShapeRoom *room, GError **error);

/*
 * Room for error of the aim in hand: how far to each side, seen along the line to the landing, the whole landing pattern may move before more than ROOM_TROUBLE of its balls are in
 * trouble at rest, as odds_table_new tells, trees stopping as many of them as where the pattern is; every smaller way in steps of 4 m is in play as well. Poor strikes that the bag tells of do not move with it. What becomes
 * of balls is found once for all the ways: milliseconds to some tens of them, for a worker.
 */
#define ROOM_TROUBLE 0.1
#define ROOM_MOST_M 40.0
typedef struct
{
  double left_m, right_m, short_m, long_m; /* at most ROOM_MOST_M; NAN: too many are in trouble as it is */
  double trouble;                          /* chance 0..1 of trouble at rest as it is */
  bool
      start_is_clear; /* the ball that does not curve, down on the start line at the shot's distance, is out of trouble there and at rest */
  bool finish_is_clear; /* the mean ball is */
  int start_part, finish_part; /* the area in which that ball lies; -1: it is out of trouble, or in ground that is trouble */
} Room;
/* False with `error` where odds_table_new has none. */
bool odds_room (const Hole *hole, const ShotResult *shot, Room *room, GError **error);
/* The same where the shot's odds are known already. */
bool odds_room_of (const Hole *hole, const ShotResult *shot, const OddsTable *odds, Room *room, GError **error);

/*
 * In words; `translate` NULL: English. Lengths are whole numbers of `unit`, without its name; "44+" is as much as was looked for. Free with g_free.
 *
 *   room_words         "14 left, 9 right, 22 short, 18 long", "none: 23 % end in trouble as it is"
 *   room_line_words    "Start line stays out of trouble, finish line ends in the pond"
 *   shape_room_words   "out of trouble if it curves 12 (the pond) less or 33+ more", of a straight shot "... left or ... right", "as planned it meets the oak"
 */
char *room_words (const Room *room, LengthUnit unit, Translate translate);
char *room_line_words (const Hole *hole, const Room *room, Translate translate);
char *shape_room_words (const Hole *hole, const ShotResult *shot, const ShapeRoom *room, LengthUnit unit, Translate translate);

#endif
