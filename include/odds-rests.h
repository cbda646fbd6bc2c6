// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-rests - where balls come to rest, place by place: those of one shot, of which odds_table_new tells the sums by areas, and any that come down anywhere.
 *
 * Pure functions of an immutable hole; any thread may call them. Places and lengths are metres in the hole frame.
 */
#ifndef HOLEWRIGHT_ODDS_RESTS_H
#define HOLEWRIGHT_ODDS_RESTS_H

#include "odds.h"

/* Balls that come to rest at one place. */
typedef struct
{
  Vec2 at;
  Lie lie;
  int part;     /* as in OddsRow: the area in which they lie, or the single tree that stopped them; -1: the ground */
  double share; /* 0..1 of all balls of the shot */
} RestBalls;

typedef void (*RestVisit) (void *data, const RestBalls *balls);

/*
 * Tells where all balls of a shot come to rest, some thousands of places in no order, their shares adding up to 1: the balls that odds_table_new follows. So those of one part add up to
 * its `rest` there. A mean over the places of what changes evenly from one to the next is good to a hundredth of its deviation. A ball that trees stop in the air lies where it flies
 * into them; an area on which too few balls come down to be followed has all of them at the place of it that is nearest to the landing point. `*odds` (may be NULL) receives the
 * table itself, for odds_table_free.
 *
 * False with `error`, and as odds_table_new.
 */
bool odds_rests (const Hole *hole, const ShotResult *shot, RestVisit visit, void *data, OddsTable **odds, GError **error);

/* ---- balls that come down anywhere ---- */

/* A part of a hole's ground on a day, made ready for thousands of balls; the slopes of it are looked up as they are asked for, so each thread has its own. */
typedef struct _RunGround RunGround;

/* Best for balls that come down and run within `box`; elsewhere they do as well, more slowly. The hole must outlive it. Free with run_ground_free. */
RunGround *run_ground_new (const Hole *hole, const Conditions *conditions, Box box);
void run_ground_free (RunGround *ground);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RunGround, run_ground_free)

/*
 * Where balls rest that come down so, ball i as landings[i], of which place, speed and spin count: rests[i], on area areas[i], k of the hole's or -1 for the ground; landed_on[i] is
 * that on which it comes down. Bounces and roll of odds_rest_of, in longer pieces: on the same ground they rest within a few decimetres of it. Numbers must be finite.
 */
void run_ground_follow (RunGround *ground, const FlightPoint *landings, size_t n, Vec2 *rests, int *landed_on,
                        int *areas);

#endif
