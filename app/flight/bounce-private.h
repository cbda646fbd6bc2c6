// SPDX-License-Identifier: GPL-3.0-or-later
/* The numbers of Penner 2002 for an impact on turf. */
#ifndef HOLEWRIGHT_FLIGHT_BOUNCE_PRIVATE_H
#define HOLEWRIGHT_FLIGHT_BOUNCE_PRIVATE_H

#include "flight-private.h"

#define DEGREE (PI / 180)
/* The dent's tilt: 15.4 degrees for a ball of 18.6 m/s that comes in at 44.4 degrees from the vertical, in proportion to both. */
#define DENT_RAD (15.4 * DEGREE)
#define DENT_SPEED_MPS 18.6
#define DENT_ANGLE_RAD (44.4 * DEGREE)
/* Restitution by the speed into the surface. */
#define RESTITUTION_0 0.510
#define RESTITUTION_1 -0.0375
#define RESTITUTION_2 0.000903
#define FAST_MPS 20.0
#define FAST_RESTITUTION 0.120
/* However hard the ground: about what a ball does on concrete (common practice). */
#define MOST_RESTITUTION 0.8

#endif
