// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * How faces are made: what hole.c asks of faces.c, and that of the cutting.
 *
 *      areas ──► rings on whole numbers (faces-layout.c) ──► where they cross (faces-cross.c) ──► pieces of them that are seen, put together (faces-cut.c)
 *                          └── outlines that meet themselves, by GEOS (faces-region.c)
 */
#ifndef HOLEWRIGHT_FACES_PRIVATE_H
#define HOLEWRIGHT_FACES_PRIVATE_H

#include "hole-private.h"

#include <stdint.h>

/* An error that names the area; false. */
bool cutter_refuse (GError **error, const Part *area, const char *what);

/* Pairs of edges looked at, and their crossings kept, beyond which cutting takes seconds; no drawing of a hole is near it. */
#define MOST_LOOKS 100000000
#define MOST_CROSSINGS 2000000

/* ---- areas that meet themselves ---- */

/*
 * What is inside of an outline that touches or crosses itself, as its fill rule means it: new rings that may touch but do not cross, with the inside on their left. NULL with `error` where
 * that cannot be told.
 */
Outline *faces_untangle (const Part *area, GError **error);

/* ---- rings on whole numbers ---- */

/* A place in whole numbers of a length that is some 1e-15 of the drawing's extent: products of differences are exact in 128 bits. */
typedef struct
{
  int64_t x, y;
} Spot;

/* One area: its corners are those from `first` on, rings one after the other, none of them twice in a row. */
typedef struct
{
  const Part *part;
  size_t first, n_corners;
  Box box;
  /* As it was drawn, and not found to meet itself; else the rings have the inside on their left already. */
  bool is_raw, is_tangled;
} Shape;

/* Areas that take part, the last on top. Corner i is followed by corner next[i]. */
typedef struct
{
  Shape *shapes;
  size_t n_shapes, n_corners;
  Spot *spots;
  Vec2 *places; /* of the same corners, as drawn */
  uint32_t *next, *shape_of;
  int8_t *
      inside; /* of the edge from a corner: 1 the area is on its left, -1 on its right, 0 on both sides or neither, which is no edge of it */
} Layout;

/* `outlines[s]` is what faces_untangle gave, or NULL: as drawn. */
Layout *layout_new (const Part *const *parts, const Outline *const *outlines, size_t n_parts);
void layout_free (Layout *layout);
/* Finds out on which side of the rings of areas as drawn their inside is; none of them may meet itself. */
void layout_orient (Layout *layout);

/* Exact sign of the cross product of b - a and p - a: 1 where p lies left of the way from a to b. */
int layout_turn (Spot a, Spot b, Spot p);
/*
 * Where a corner of one area lies to an edge of another, from corner `edge` to the next: 1 left, -1 right. Never on it: each area is taken to lie a little further along one slanting
 * direction than the one below, by less than any length there is, so that edges that coincide and corners that touch answer like all others, and all answers fit together.
 */
int layout_side (const Layout *layout, uint32_t edge, uint32_t corner);
/* How often an area lies over a corner of another: 0 or 1 but for what rounding left of one that was untangled. */
int layout_cover (const Layout *layout, size_t shape, uint32_t corner);

/* ---- crossings ---- */

/* On the edge from `corner`, where it crosses the edge from another: step 1 from its right to its left, -1 back. */
typedef struct
{
  uint32_t corner, other;
  int step;
  double t; /* along the edge */
  Vec2 at;
} Meeting;

/* All meetings by corner and t, in an array of Meeting. Areas as drawn that meet themselves are marked, with no meetings of theirs to be relied on. NULL with `error` for too many. */
GArray *layout_meetings (Layout *layout, GError **error);

/* ---- faces ---- */

/* Faces of areas in document order; what an `earlier` state (or NULL) has of them is shared. NULL with `error`. */
Faces *faces_new (const Part *const *areas, size_t n_areas, const Faces *earlier, GError **error);
Faces *faces_ref (Faces *faces);
void faces_unref (Faces *faces);

/*
 * Cuts what is seen of each wanted area: cut[k] is a new outline, rings with the inside on their left. False with `error` when that is too much work;
 * what stands in `cut` then is the caller's all the same.
 */
bool faces_cut (const Part *const *areas, size_t n_areas, const bool *is_wanted, Outline **cut, GError **error);

#endif
