// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of path_fit share: the stroke as it is measured along its length, its seam, its corners, and one cubic through a part
 * of it.
 *
 *      points --seam--> points to fit --trace--> arc lengths --corners--> runs --cubics--> Path
 */
#ifndef HOLEWRIGHT_FIT_PRIVATE_H
#define HOLEWRIGHT_FIT_PRIVATE_H

#include "geometry-private.h"

/*
 * A stroke and what can be asked of it in constant time. Directions and places are means over a length of stroke, not differences of
 * neighbours, so that a shaking hand averages out; they come from the running integral of the place along the stroke.
 */
typedef struct
{
  const Vec2 *points; /* borrowed, without repeats */
  size_t n_points;
  bool closed;    /* then the last point leads back to the first, which is not repeated */
  size_t n_edges; /* n_points when closed, else one less */
  double *arc_m;  /* n_edges + 1: length up to each point, and all of it */
  Vec2 *integral; /* n_edges + 1: of the place less the first point, along the length, in m2 */
  double length_m;
} Trace;

void trace_init (Trace *trace, const Vec2 *points, size_t n_points, bool closed);
void trace_clear (Trace *trace);
/* Direction from the mean place of the first half to that of the second half of a length of stroke, not of unit length. */
Vec2 trace_direction (const Trace *trace, double from_m, double to_m);
/* Where the stroke is at `at_m`, the shaking of `reach_m` either side smoothed; a smooth stroke is left where it is, to fourth order. */
Vec2 trace_place (const Trace *trace, double at_m, double reach_m);
/* Turn in radians from direction a to direction b, anticlockwise positive. */
double turn_between (Vec2 a, Vec2 b);

/*
 * Points of the stroke at which it turns by more than `corner_rad` at once; their indices in a new array, ascending. `reach_m` is the
 * length on either side that is looked at. Returns their count.
 */
size_t trace_corners (const Trace *trace, double reach_m, double corner_rad, size_t **corners);

/* What is left of a closed stroke's points, and how many of those at either end are no longer where they were drawn. */
typedef struct
{
  size_t first, n_points;
  size_t n_eased_first, n_eased_last;
} Closing;

/*
 * Readies the points of a closed stroke for closing, in place: cuts off what the hand drew twice or beyond the start, and leads an end
 * that comes in beside the start gently to it. The directions of the ends are taken over `reach_m`.
 */
Closing seam_close (Vec2 *points, size_t n_points, double reach_m, double tolerance_m, double corner_rad);

/* Where cubics meet or end. */
typedef struct
{
  Vec2 at;
  Vec2 tangent; /* unit vector along the stroke */
  bool is_free; /* the curve may leave in any direction: a corner or an open end */
} Joint;

typedef struct
{
  Vec2 p[4];
  bool is_line;
  double largest_m; /* of the fitted points' distances */
  size_t worst;     /* that point's index */
} Fit;

/*
 * Least-squares cubic from joint `a` to joint `b` for points[first] .. points[last], which lie arc_m[] along the stroke; `t` is room for
 * as many parameters. True when no point is further than `tolerance_m`.
 */
bool fit_cubic (const Vec2 *points, const double *arc_m, double *t, size_t first, size_t last, const Joint *a, const Joint *b,
                double tolerance_m, Fit *fit);

/* ---- the stroke as it goes through all of this ---- */

/* Joints take place and tangent from this many tolerances of stroke either side. */
#define JOINT_REACH 6.0
/* Neither from more than this part of the stroke's length, so that small shapes keep theirs. */
#define MOST_REACH (1.0 / 16.0)

/* One cubic or line, from points[first] to points[last] of the stroke. */
typedef struct
{
  size_t first, last;
  Joint a, b;
  Fit fit;
} Piece;

/* The drawn points that a fitted one stands for: itself and those passed over behind it; none where it was moved or put in. */
typedef struct
{
  size_t first, n;
} Drawn;

/* A stroke being fitted. The points of a closed one end with its first again. */
typedef struct
{
  Vec2 *points;
  size_t n_points;
  Drawn *drawn; /* of each point */
  bool closed;
  bool is_round; /* closed, and without a corner */
  Trace trace;
  double *t;
  double tolerance_m;
  double joint_reach_m;
  Piece *pieces;
  size_t n_pieces, capacity;
} Stroke;

/* Takes over the points that are not too near to the one before, for which there is room; the tolerance shrinks by what that cost. */
void stroke_thin (Stroke *stroke, const Vec2 *points, size_t n_points);
/* Closes the stroke where its ends meet; points that are moved for it no longer stand for what was drawn. */
void stroke_close (Stroke *stroke, double corner_rad);
/* Puts points along the edges that are much longer than most. */
void stroke_fill_long_edges (Stroke *stroke);
/* Turns a closed stroke so that it starts at point `first`, which is repeated at its end. */
void stroke_start_at (Stroke *stroke, size_t first);
/* Fits all of the stroke: run by run from corner to corner, or all round when it is closed without one. */
void stroke_fit (Stroke *stroke, double corner_rad);
void stroke_clear (Stroke *stroke);

#endif
