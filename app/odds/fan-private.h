// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * fan - the part of an area that lies within a fan of rays from one point, cut into pieces between neighbouring rays. Exact for
 * outlines of straight edges, both fill rules, crossing outlines and a fan's point inside the area.
 *
 * In the fan's frame (x along its axis, y to the left) a ray is a slope s = y / x. With q = 1 / x every ray is a parallel of the
 * q axis while straight edges stay straight, so between the slopes of neighbouring corners the area is a stack of trapezoids:
 *
 *        q ^   s0      s1          near edge of a piece: larger q, nearer to the ball
 *          |    |\_____|
 *          |    |piece |           pieces that share more than a point of a ray are of one group
 *          |    |______/
 *          +-----------------> s
 */
#ifndef HOLEWRIGHT_FAN_PRIVATE_H
#define HOLEWRIGHT_FAN_PRIVATE_H

#include "geometry.h"

#include <glib.h>

typedef struct
{
  double s0, s1;              /* slopes of the rays between which it lies, s0 < s1 */
  double near0_m, near1_m;    /* x where those rays enter it; 0 when it reaches to the point of the fan */
  double far0_m, far1_m;      /* x where they leave it */
  double nearest2, farthest2; /* squares of the least and the greatest distance from the point of the fan, metres */
  size_t parent;              /* of the group; see fan_group */
} FanPiece;

/* Edges looked at in one cut; some 50 ms. An outline drawn by hand takes a few thousand (common practice). */
#define FAN_MOST_WORK 10000000

/* Room for one cut after another. `{0}` will do before the first. */
typedef struct
{
  struct _FanEdge *edges, **active;
  struct _FanStart *starts, *spare;
  size_t n_edges, n_active;
  size_t edge_room, list_room; /* in `edges`, and in each of the other three */
  FanPiece *pieces;            /* the result, by rising slope, the far ones of a step first */
  size_t n_pieces, piece_room;
  size_t work; /* edges looked at */
} Fan;

void fan_clear (Fan *fan);
/*
 * Cuts the area with the fan from `origin` about the unit vector `along`. `slopes` rise: the first and the last bound the fan, no
 * piece reaches across one between them. There are none when the fan has no width.
 *
 * An outline so tangled that its crossings take more than FAN_MOST_WORK is taken to fill the fan from its nearest point to its
 * farthest, as one group: never too little.
 */
void fan_cut (Fan *fan, const Outline *area, Vec2 origin, Vec2 along, const double *slopes, size_t n_slopes);

static inline size_t
fan_n_pieces (const Fan *fan)
{
  return fan->n_pieces;
}

static inline const FanPiece *
fan_piece (const Fan *fan, size_t i)
{
  return &fan->pieces[i];
}

/* The same number for all pieces that hang together. */
static inline size_t
fan_group (const Fan *fan, size_t i)
{
  while (fan_piece (fan, i)->parent != i)
    i = fan_piece (fan, i)->parent;
  return i;
}

/* Makes two groups one. */
void fan_join (Fan *fan, size_t i, size_t j);

#endif
