// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * geometry - points, boxes, transforms, paths, outlines and the questions asked of them.
 *
 * Everything is in metres in the hole frame (x right, y up the hole) unless a name says otherwise; angles are radians,
 * anticlockwise from +x. Needs libc and libm only. Running out of memory aborts, as GLib does above; every
 * other failure is in the return value. No function here keeps state; all may be called from any thread.
 *
 *      SVG text --svg--> Path (exact curves) --path_flatten--> Outline (rings of points) --> AreaIndex (fast look-up)
 */
#ifndef HOLEWRIGHT_GEOMETRY_H
#define HOLEWRIGHT_GEOMETRY_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

/* C11 without extensions has no M_PI. */
#define PI 3.14159265358979323846

/* Largest distance in metres between a curve and its flattened outline used throughout the program. */
#define FLATTEN_TOLERANCE_M 0.01

/* ---- points ---- */

typedef struct
{
  double x, y;
} Vec2;

static inline Vec2
vec2 (double x, double y)
{
  return (Vec2){ x, y };
}
static inline Vec2
vec2_add (Vec2 a, Vec2 b)
{
  return vec2 (a.x + b.x, a.y + b.y);
}
static inline Vec2
vec2_sub (Vec2 a, Vec2 b)
{
  return vec2 (a.x - b.x, a.y - b.y);
}
static inline Vec2
vec2_scale (Vec2 a, double factor)
{
  return vec2 (a.x * factor, a.y * factor);
}
static inline double
vec2_dot (Vec2 a, Vec2 b)
{
  return a.x * b.x + a.y * b.y;
}
/* z of the cross product: positive when b lies to the left of a. */
static inline double
vec2_cross (Vec2 a, Vec2 b)
{
  return a.x * b.y - a.y * b.x;
}
static inline double
vec2_length (Vec2 a)
{
  return hypot (a.x, a.y);
}
static inline double
vec2_distance (Vec2 a, Vec2 b)
{
  return hypot (b.x - a.x, b.y - a.y);
}
/* a turned a quarter to the left. */
static inline Vec2
vec2_left (Vec2 a)
{
  return vec2 (-a.y, a.x);
}
static inline Vec2
vec2_lerp (Vec2 a, Vec2 b, double t)
{
  return vec2 (a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
}
/* Unit vector along a; (0,0) when a has no length. */
static inline Vec2
vec2_unit (Vec2 a)
{
  double length = vec2_length (a);
  return length > 0 ? vec2_scale (a, 1 / length) : vec2 (0, 0);
}

/* ---- boxes ---- */

/* Axis-aligned box; empty when x0 > x1. */
typedef struct
{
  double x0, y0, x1, y1;
} Box;

/* An empty box, ready to be grown. */
Box box_empty (void);
bool box_is_empty (Box box);
/* The box grown to hold `point` / the other box. */
static inline Box
box_with_point (Box box, Vec2 point)
{
  /* Comparisons, not fmin: this runs for every point of every outline. A NaN leaves the box as it is, too. */
  return (Box){ point.x < box.x0 ? point.x : box.x0, point.y < box.y0 ? point.y : box.y0, point.x > box.x1 ? point.x : box.x1,
                point.y > box.y1 ? point.y : box.y1 };
}
Box box_union (Box a, Box b);
/* Grown by `margin` on all four sides. */
Box box_grown (Box box, double margin);
static inline bool
box_contains (Box box, Vec2 point)
{
  return (point.x >= box.x0) & (point.x <= box.x1) & (point.y >= box.y0) & (point.y <= box.y1);
}
bool box_overlaps (Box a, Box b);
Vec2 box_centre (Box box);

/* ---- affine transforms ---- */

/* x' = xx x + xy y + x0,  y' = yx x + yy y + y0. In the order of SVG's matrix(): xx, yx, xy, yy, x0, y0. */
typedef struct
{
  double xx, yx, xy, yy, x0, y0;
} Affine;

Affine affine_identity (void);
Affine affine_translation (double x, double y);
Affine affine_scaling (double sx, double sy);
/* Anticlockwise when y points up. */
Affine affine_rotation (double angle_rad);
/* The transform that applies `first`, then `second`. */
Affine affine_then (Affine first, Affine second);
Vec2 affine_apply (Affine t, Vec2 point);
/* Turns and scales a direction, without the translation. */
Vec2 affine_apply_direction (Affine t, Vec2 direction);
/* False when `t` is singular or not finite; `*inverse` is then untouched. */
bool affine_invert (Affine t, Affine *inverse);
/* Largest factor by which `t` stretches a length (its larger singular value). */
double affine_largest_scale (Affine t);
bool affine_is_finite (Affine t);

/* ---- paths: exact curves ---- */

typedef enum
{
  SEG_MOVE,  /* starts a subpath at `to` */
  SEG_LINE,  /* straight to `to` */
  SEG_CUBIC, /* cubic Bezier by c1, c2 to `to` */
  SEG_CLOSE  /* straight back to the subpath's start; `to` repeats that start */
} SegKind;

typedef struct
{
  SegKind kind;
  Vec2 c1, c2; /* SEG_CUBIC only */
  Vec2 to;
} PathSeg;

/* A growable list of segments. `{0}` is an empty path. A drawing segment after a close starts a new subpath there. */
typedef struct
{
  PathSeg *segs;
  size_t n_segs, capacity;
} Path;

void path_clear (Path *path);
/* Deep copy; `*to` is overwritten. */
void path_copy (const Path *from, Path *to);
bool path_equal (const Path *a, const Path *b);
void path_move_to (Path *path, Vec2 to);
void path_line_to (Path *path, Vec2 to);
void path_cubic_to (Path *path, Vec2 c1, Vec2 c2, Vec2 to);
/* A quadratic, raised to the cubic that is exactly the same curve. */
void path_quadratic_to (Path *path, Vec2 c, Vec2 to);
/*
 * SVG's elliptical arc (SVG 1.1, appendix F.6: radii too small are scaled up, a zero radius is a line, equal ends draw nothing),
 * as cubics of at most 1/8 turn each: at most 4.3e-6 of the radius off the ellipse.
 * `x_axis_rad` turns the ellipse; `large` and `sweep` are SVG's flags (sweep = angles increasing).
 */
void path_arc_to (Path *path, double rx, double ry, double x_axis_rad, bool large, bool sweep, Vec2 to);
void path_close (Path *path);
/* Whole closed ellipse as one subpath, starting at (centre.x + rx, centre.y). */
void path_add_ellipse (Path *path, Vec2 centre, double rx, double ry);
/* Whole closed rectangle with corner radii (0 = sharp; cut to half the side), as SVG's rect. */
void path_add_rectangle (Path *path, Box box, double rx, double ry);
void path_transform (Path *path, Affine t);
/* Where the pen is: the end of the last segment, (0,0) for an empty path. */
Vec2 path_current (const Path *path);
/* Exact bounds of the curves (extrema solved, not the control points). */
Box path_bounds (const Path *path);
bool path_is_finite (const Path *path);

/* ---- nodes: a path as a person edits it ---- */

typedef struct
{
  Vec2 at;
  Vec2 in, out;   /* control points before and after it; equal to `at` where that side is straight */
  bool is_smooth; /* both sides curve and the handles lie in one line through the node, to 1 degree */
  bool starts;    /* first node of a subpath */
  bool is_closed; /* of the node's subpath */
  SegKind leaves; /* how the path goes on: SEG_LINE, SEG_CUBIC, SEG_CLOSE (by the close alone), SEG_MOVE (open end) */
} PathNode;

/*
 * The nodes of every subpath in order as a new array; free() it. Returns their count. A closed subpath's end that repeats
 * its start, to a micrometre, is no node of its own.
 */
size_t path_nodes (const Path *path, PathNode **nodes);
/*
 * The path through the nodes, appended to `path`: the inverse of path_nodes, but that every subpath gets a move of its own
 * and closes exactly. A side is a curve when a handle stands away from its node or `leaves` is SEG_CUBIC. What counts of a
 * subpath's first node is its `is_closed`; `is_smooth` tells and does nothing.
 */
void path_add_nodes (Path *path, const PathNode *nodes, size_t n_nodes);
/*
 * Nearest place of the curves to `point`: its segment and the parameter 0..1 along it, and the distance in metres, found by
 * bounding the curves, to a nanometre. The first of several alike. False for a path that draws nothing or is not finite.
 */
bool path_nearest (const Path *path, Vec2 point, size_t *seg, double *t, double *distance_m);
/*
 * Splits a drawing segment that starts at `from` in two at parameter t, 0..1 (de Casteljau): the same curve. The first half
 * of a SEG_CLOSE is a SEG_LINE.
 */
void path_seg_split (Vec2 from, PathSeg seg, double t, PathSeg *first, PathSeg *second);

/*
 * Lines and cubic Beziers through a stroke drawn by hand, appended to `path` as a subpath: points thinned, turns sharper than
 * `corner_rad` kept as corners, runs between them fitted by least squares and split until every drawn point is within `tolerance_m`.
 *
 * A closed stroke runs smoothly through its seam unless it meets at a corner. Ends that stop short are led together; what runs on over
 * the start, up to a sixth of the stroke at either end, is cut off, or, where the ends lie side by side, both are led to the middle.
 *
 * `*largest_m` (may be NULL) receives the largest distance of a drawn point from the curve, to a nanometre: from the piece fitted where it
 * lies and the two beside it, for that another part of the stroke comes by is no merit. Points that closing the seam cut off or moved
 * do not count; they may lie further off.
 *
 * False, and nothing written, when the stroke has no extent (closed: nor any beyond a tenth of the tolerance), has a point that is not
 * finite or further than 1e9 m from the origin, or when `tolerance_m` is less than a nanometre or not finite.
 * Method: Schneider, "An algorithm for automatically fitting digitized curves", Graphics Gems (1990).
 */
bool path_fit (const Vec2 *points, size_t n_points, bool closed, double tolerance_m, double corner_rad, Path *path, double *largest_m);

/* ---- outlines: flattened rings ---- */

/*
 * Closed rings of straight edges: ring r runs over points[ring_starts[r]] .. points[ring_starts[r + 1] - 1] and back to its first
 * point (which is not repeated); ring_starts has n_rings + 1 entries. Which points are inside follows the fill rule.
 * Immutable once made.
 */
typedef struct
{
  Vec2 *points;
  size_t n_points;
  size_t *ring_starts;
  size_t n_rings;
  bool even_odd; /* else nonzero winding */
  Box bounds;
} Outline;

/*
 * Flattens every subpath (closing open ones) so that no curve is further than `tolerance_m` from its chord. Never NULL. A path that
 * is not finite gives an empty outline; a subpath of a single point gives no ring.
 */
Outline *path_flatten (const Path *path, bool even_odd, double tolerance_m);
/* Flattens the first subpath as an open line: its points in a new array, `*points` (free() it); returns their count. */
size_t path_flatten_line (const Path *path, double tolerance_m, Vec2 **points);
/* Rings given directly: `n_rings` runs of `ring_sizes[r]` points, copied. A ring that is empty or not finite is left out. */
Outline *outline_new (const Vec2 *points, const size_t *ring_sizes, size_t n_rings, bool even_odd);
void outline_free (Outline *outline);
/* Winding number about `point` (anticlockwise positive). */
int outline_winding (const Outline *outline, Vec2 point);
/* Under the outline's own fill rule. A point on an edge may fall to either side. */
bool outline_contains (const Outline *outline, Vec2 point);
/*
 * Area in m2 and centroid (either may be NULL) of the region under the fill rule, crossings and overlaps counted once. False if it
 * has no area, or crosses itself so many million times that measuring would take seconds.
 */
bool outline_measure (const Outline *outline, double *area_m2, Vec2 *centroid);
/*
 * Distance in metres from `point` to the nearest edge (0 on it; also positive inside); `*nearest` (may be NULL) receives the
 * point. INFINITY if empty.
 */
double outline_distance (const Outline *outline, Vec2 point, Vec2 *nearest);

/* ---- lines through areas ---- */

typedef struct
{
  double enter_m, leave_m; /* distance along the line from its origin */
} Interval;

/* `{0}` is an empty list. */
typedef struct
{
  Interval *items;
  size_t n_items, capacity;
} IntervalList;

void interval_list_clear (IntervalList *list);
/*
 * The parts of positive length that a ray from `origin` along the unit vector `direction`, from 0 to `length_m`, has in common
 * with the closed area, sorted, disjoint, touching ones merged: touching a corner gives nothing, running along an edge counts;
 * within a nanometre is touching.
 * Same meaning as the length of GEOS's intersection of a segment and a polygon. Replaces the list's content.
 */
void outline_crossings (const Outline *outline, Vec2 origin, Vec2 direction, double length_m, IntervalList *list);

/* Distance from `point` to the segment a-b; `*t` (may be NULL) receives the place of the nearest point, 0 at a, 1 at b. */
double segment_distance (Vec2 a, Vec2 b, Vec2 point, double *t);

/* ---- the chance of a normal distribution over areas ---- */

/*
 * A bivariate normal distribution: what falls at mean + u a + v b, where u and v are independent standard normals. Of a pair of deviations and their correlation
 * a is the first with its share of the second, b the rest. Where a and b lie along one line, or are nothing, all of it falls on that line or on the mean.
 */
typedef struct
{
  Vec2 mean, a, b;
} Normal;

/* A distribution narrower than this is taken as having no width. */
#define THIN_M 1e-9

bool normal_is_finite (const Normal *normal);

/*
 * Areas prepared for the question how likely each is. `faces` do not overlap, and their rings run with the inside on their left: outer ones anticlockwise,
 * holes clockwise. groups[k] < n_groups says what face k is counted with; NULL: each is its own group, n_groups = n_faces. An edge that two of them share to the last bit is
 * integrated once. The outlines are copied as needed.
 */
typedef struct _ChanceMap ChanceMap;
ChanceMap *chance_map_new (const Outline *const *faces, const size_t *groups, size_t n_faces, size_t n_groups);
void chance_map_free (ChanceMap *map);
/*
 * chances[g], 0..1, for each group, and in chances[n_groups] what falls on none of them: `chances` has room for n_groups + 1, which add up to 1 to 1e-12 for
 * faces that do not overlap. By Green's theorem round the areas with Gauss-Legendre along each edge; every chance is good to 1e-9, whatever the distribution's size and shape,
 * and exact along the line for one without width. False, nothing written, for one that is not finite. Takes some nanoseconds for each edge
 * within seven deviations.
 */
bool chance_map_integrate (const ChanceMap *map, const Normal *normal, double *chances);

/* ---- which area is on top here ---- */

typedef struct _AreaIndex AreaIndex;

/* Index over a stack of outlines, the last on top. The outlines are copied as needed and may be freed. */
AreaIndex *area_index_new (const Outline *const *outlines, size_t n_outlines);
void area_index_free (AreaIndex *index);
/* Number of the topmost outline that contains `point`, or -1. Answers exactly as outline_contains does. */
int area_index_top (const AreaIndex *index, Vec2 point);
/* The same of many points: tops[i] for the one at x[i], y[i]. */
void area_index_tops (const AreaIndex *index, const double *x, const double *y, size_t n, int *tops);

#endif
