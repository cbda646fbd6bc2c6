// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of this module share: the frame of a shot line and the pattern seen in it. */
#ifndef HOLEWRIGHT_ODDS_PRIVATE_H
#define HOLEWRIGHT_ODDS_PRIVATE_H

#include "odds.h"

/* Two points nearer than this are one point to a golfer; a ball is 43 mm wide. */
#define SAME_POINT_M 1e-3

/* The line from the ball through the landing point, and the pattern's moments in its frame: x along it, y to its left. */
typedef struct
{
  Vec2 ball, along;  /* unit vector */
  double landing_m;  /* ball to landing: the mean of x; the mean of y is 0 */
  double xx, xy, yy; /* covariance in m2 */
} ShotLine;

ShotLine shot_line (const ShotResult *shot);
/* Chance 0..1 that the carry along the line is more than `distance_m`. */
double shot_line_beyond (const ShotLine *line, double distance_m);

/* A length that a line from `origin` may have without leaving any of the area out. */
double area_far_end (const Outline *area, Vec2 origin);

#endif
