// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * follower - what takes some frames, found by a worker again and again while the aim is dragged: odds of a shot, where they are written, and its room for error.
 *
 * The solver waits until the pointer rests; the follower works out the newest shot that it was asked about whenever it is free. So what it knows is a few frames old while
 * something moves, and of the shot in hand soon after. Emits "found".
 */
#ifndef HW_FOLLOWER_H
#define HW_FOLLOWER_H

#include "odds-places.h"
#include "odds-room.h"

#include <glib-object.h>

#define HW_TYPE_FOLLOWER (hw_follower_get_type ())
G_DECLARE_FINAL_TYPE (HwFollower, hw_follower, HW, FOLLOWER, GObject)

#define HW_MOST_PLACES 8

/* What is known of one shot on one hole; what could not be found is not there. Immutable. */
typedef struct
{
  Hole *hole;
  Bag *bag;
  ShotResult shot; /* its club is the bag's */
  OddsPlace places[HW_MOST_PLACES];
  size_t n_places;
  bool has_room, has_shape;
  Room room;
  ShapeRoom shape;
} HwFound;

HwFollower *hw_follower_new (void);
/* Asks about a shot. One that was asked about before and is not being worked on yet is forgotten. */
void hw_follower_ask (HwFollower *self, Hole *hole, Bag *bag, const ShotResult *shot);
/* The newest that was found, of whichever shot; NULL before the first. Borrowed, until the next "found". */
const HwFound *hw_follower_get_found (HwFollower *self);
/*
 * Is what was found of one shot good enough for another until that is found: the same club of the same bag on the same areas, and, but for the while that something is
 * dragged, from the same ball on the same day?
 */
bool hw_found_holds (const HwFound *found, const Hole *hole, const Bag *bag, const ShotResult *shot, bool is_dragging);

#endif
