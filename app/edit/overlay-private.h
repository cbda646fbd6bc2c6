// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Outlines worked on together by GEOS, curves kept.
 *
 * Every curve that goes in is numbered and flattened into steps; the overlay runs on the 1 mm grid, so each vertex that comes out is recognised by its
 * grid coordinates as a place on a curve. Runs of such places are put back as the curve they were, whole or a part of it (de Casteljau).
 *
 *      Part --overlay_region--> GEOS polygons --unite, subtract, cut--> GEOS polygons --overlay_path--> Path
 */
#ifndef HOLEWRIGHT_EDIT_OVERLAY_PRIVATE_H
#define HOLEWRIGHT_EDIT_OVERLAY_PRIVATE_H

#include "edit-private.h"

#include <geos_c.h>

/* A piece or a gap smaller than this is where two drawn edges do not quite meet, not something drawn. */
#define SLIVER_M2 (SMALLEST_M * SMALLEST_M)

#define TOO_TANGLED "these outlines are too tangled to be worked out; make them simpler first"

/* One segment of a path that went in. */
typedef struct
{
  Vec2 p[4]; /* control points; a straight line's are its ends and thirds */
  bool is_line;
  unsigned n_steps; /* chords it is flattened to, evenly in its parameter */
  Box bounds;       /* of the chords */
} Curve;

/* A grid point that lies on a curve. */
typedef struct
{
  gint64 x, y; /* in steps of the grid */
  guint curve;
  double t;
} Tag;

typedef struct
{
  GEOSContextHandle_t geos;
  GArray *curves; /* Curve */
  GArray *tags;   /* Tag of each flattened vertex, sorted by place once all are there */
  bool is_sorted;
} Overlay;

void overlay_init (Overlay *overlay);
void overlay_clear (Overlay *overlay);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Overlay, overlay_clear)

/* What an area covers under its fill rule, as valid polygons. NULL when that is beyond GEOS. */
GEOSGeometry *overlay_region (Overlay *overlay, const Part *area);
/* A straight line as GEOS takes it, known as a curve. */
GEOSGeometry *overlay_line (Overlay *overlay, Vec2 a, Vec2 b);
/* The edges of geometries noded together and the faces between them: a collection of polygons. Takes over `lines`. NULL when that is beyond GEOS. */
GEOSGeometry *overlay_faces (Overlay *overlay, GEOSGeometry *lines);
/* A valid union of polygons on the grid. Takes over the array's geometries, not the array. */
GEOSGeometry *overlay_unite (Overlay *overlay, GEOSGeometry **polygons, size_t n_polygons);
/* Appends a ring, three points or more, as a subpath with coordinates on the grid. */
typedef void (*OverlayRing) (Overlay *overlay, const Vec2 *points, size_t n_points, Path *path);
/* With curves put back. */
void overlay_restore_ring (Overlay *overlay, const Vec2 *points, size_t n_points, Path *path);
/*
 * The polygons on the grid as one path, each ring a subpath written by `ring`; valid as flattened, if need be by leaving the corners. Slivers are left out;
 * `path`, empty before, stays so when nothing is left.
 */
void overlay_path (Overlay *overlay, const GEOSGeometry *polygons, OverlayRing ring, Path *path);
/* The area with another outline; NULL, without an error, when nothing is left of it. */
const Part *overlay_part (Overlay *overlay, const Part *area, const GEOSGeometry *polygons, OverlayRing ring);

/* ---- between the files of the overlay ---- */

/* Are they `least` or more, and all areas? Else false with `error` set. */
bool are_areas (const Hole *hole, const size_t *parts, size_t n_parts, size_t least, GError **error);

/* Points of a ring without its closing one; g_free. */
Vec2 *overlay_ring_points (const Overlay *overlay, const GEOSGeometry *ring, size_t *n_points);
GEOSGeometry *overlay_ring (const Overlay *overlay, const Vec2 *points, size_t n_points);
/* Of the ring's steps along curves, those in the curves' own sense less those against it. */
int overlay_ring_sense (Overlay *overlay, const Vec2 *points, size_t n_points);
/* The place on a curve. */
Vec2 curve_point (const Curve *curve, double t);

#endif
