// SPDX-License-Identifier: GPL-3.0-or-later
/* The edges of an area as a fan sees them: clipped to it, and in the order in which a sweep across it meets them. */
#ifndef HOLEWRIGHT_FAN_EDGES_PRIVATE_H
#define HOLEWRIGHT_FAN_EDGES_PRIVATE_H

#include "fan-private.h"

typedef struct _FanEdge
{
  double s0, s1;       /* slopes at its ends, s0 < s1 */
  double x0, x1;       /* x at its ends */
  double q0, rise;     /* 1 / x at s0, and how much that grows with each unit of slope */
  Vec2 p, d;           /* where the whole edge begins, and from there to its end */
  double q_from, q_to; /* 1 / x at both sides of the step in hand */
  int turn;            /* +1 when the outline runs towards s1, else -1 */
} FanEdge;

/* Where edge number `edge` begins. */
typedef struct _FanStart
{
  double s0;
  guint edge;
} FanStart;

/* fmin and fmax are calls into the library for the sake of NANs, of which there are none here. */
static inline double
smaller (double a, double b)
{
  return a < b ? a : b;
}

static inline double
larger (double a, double b)
{
  return a > b ? a : b;
}

/* Fills fan->edges with the area's edges between the slopes `low` and `high`. */
void fan_add_edges (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, double low, double high);
/* The edges' starts by rising slope, valid until the next call. */
const FanStart *fan_sorted_starts (Fan *fan);

#endif
