// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * flight-walk - the places of a flight at many times, one after the other: as flight_at has them to the last bit, without looking for each one's piece anew.
 */
#ifndef HOLEWRIGHT_FLIGHT_WALK_H
#define HOLEWRIGHT_FLIGHT_WALK_H

#include "flight.h"

typedef struct
{
  const Flight *flight; /* borrowed */
  size_t piece;         /* from this of its points to the next; begins with 0 */
} FlightWalk;

/* Times rise from one question to the next; clamped to the flight. */
void flight_walk_to (FlightWalk *walk, double t_s, Vec2 *at, double *z_m);

#endif
