// SPDX-License-Identifier: GPL-3.0-or-later
/* A club's aims while they are weighed: the field they are read from, and values without a price for playing again. */
#ifndef HOLEWRIGHT_PLAN_AIMS_PRIVATE_H
#define HOLEWRIGHT_PLAN_AIMS_PRIVATE_H

#include "plan-private.h"

typedef struct
{
  Value *items;
  size_t n;
} AimValues;

typedef struct
{
  Response response;
  Field field;
  AimValues values; /* as AimMap's strokes */
  AimMap *map;
  ShotStrokes outcome; /* of the best aim, once it is pinned */
} Aims;

/* Everything but what playing again costs. */
bool aims_init (Aims *aims, const Place *place, const Club *club, GError **error);
/* The map's strokes and its best aims at this price. */
void aims_finish (Aims *aims, const Place *place, double again_strokes);
/* The best aim is flown and its own balls are followed: it costs what the same shot costs, exactly. */
bool aims_pin (Aims *aims, const Place *place, GError **error);
void aims_clear (Aims *aims);
/* One aim, exactly. */
AimStrokes aims_look (const Aims *aims, double direction_rad, double swing);
/* What playing again costs when it is played with the best of all these aims: where these lose themselves a share P of their balls, (A + 1) / (1 - P). */
double aims_again_strokes (const AimValues *const *values, size_t n_values, double from_strokes);
/*
 * Weighs clubs `first` .. `end` - 1 of the bag at one price for playing again, without those that cannot be played from there; returns how many are in `aims`, in
 * the bag's order. 0 with `error` when there are none, and when cancelled.
 */
size_t aims_of_bag (const Place *place, const Bag *bag, size_t first, size_t end, Aims *aims, GError **error);
void aims_clear_all (Aims *aims, size_t n);
/* What counts in choosing among clubs' best aims: a part swing must save something. */
double aims_rank (const AimStrokes *best);

#endif
