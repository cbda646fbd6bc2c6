// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * flight-many - impacts of many balls at once, several of them side by side in the machine's vectors.
 *
 * A pure function of its arguments; any thread may call it.
 */
#ifndef HOLEWRIGHT_FLIGHT_MANY_H
#define HOLEWRIGHT_FLIGHT_MANY_H

#include "flight.h"

/* Balls are taken in groups of so many; arrays have room for a whole number of groups, and what stands behind the last ball is anything finite. */
#define FLIGHT_GROUP 8

/* Number i of each array is ball i's. */
typedef struct
{
  double *vx_mps, *vy_mps, *vz_mps, *spin_radps; /* its motion: before, and afterwards after */
  const double *slope_x, *slope_y;               /* of the ground that it meets */
  const double *bounce, *friction, *crater;      /* as in Surface */
  double *off_mps;                               /* receives the speed off the ground afterwards */
} Impacts;

/* What bounce_off does, to 1e-7 of the speeds. */
void bounce_off_many (const Impacts *impacts, size_t n);

#endif
