// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * An outline that touches or crosses itself, taken apart along its own edges by GEOS, and put together again from the pieces that its fill rule counts in.
 */
#include "faces-private.h"

#include <geos_c.h>
#include <math.h>
#include <stdlib.h>

/* Crossings of an outline with itself, and pairs of edges looked at for them, beyond which taking it apart takes seconds. Only hostile tangles have them. */
#define MOST_OWN_CROSSINGS 100000
#define MOST_OWN_LOOKS 50000000
/* An area of an edge's rounding: less is no piece but two edges that nearly coincide. */
#define SPECK_M2 1e-9
/* Corners are put on a grid that much finer than the drawing is large: a millionth of a millimetre on a hole. */
#define GRID_SHARE 1e-12

bool
cutter_refuse (GError **error, const Part *area, const char *what)
{
  char label[128];
  g_set_error (error, HOLE_ERROR, HOLE_ERROR_FACES, "%s: %s", part_label (area, label, sizeof label), what);
  return false;
}

/* ---- how tangled ---- */

typedef struct
{
  Vec2 a, b;
  double low_x, high_x;
} TangleEdge;

static int
compare_edges (const void *a, const void *b)
{
  double x = ((const TangleEdge *)a)->low_x, y = ((const TangleEdge *)b)->low_x;
  return x < y ? -1 : x > y ? 1 : 0;
}

static bool
edges_cross (const TangleEdge *e, const TangleEdge *f)
{
  Vec2 along = vec2_sub (e->b, e->a), across = vec2_sub (f->b, f->a);
  double f0 = vec2_cross (along, vec2_sub (f->a, e->a)), f1 = vec2_cross (along, vec2_sub (f->b, e->a));
  double e0 = vec2_cross (across, vec2_sub (e->a, f->a)), e1 = vec2_cross (across, vec2_sub (e->b, f->a));
  return (f0 > 0) != (f1 > 0) && (e0 > 0) != (e1 > 0);
}

/* May the outline be taken apart in a moment? */
static bool
is_tractable (const Outline *outline)
{
  g_autofree TangleEdge *edges = g_new (TangleEdge, outline->n_points + 1);
  size_t n = 0, n_looks = 0, n_crossings = 0;
  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t i = outline->ring_starts[r], last = outline->ring_starts[r + 1]; i < last; i++)
      {
        Vec2 a = outline->points[i], b = outline->points[i + 1 < last ? i + 1 : outline->ring_starts[r]];
        edges[n++] = (TangleEdge){ a, b, fmin (a.x, b.x), fmax (a.x, b.x) };
      }
  qsort (edges, n, sizeof *edges, compare_edges);
  for (size_t i = 0; i < n; i++)
    for (size_t j = i + 1; j < n && edges[j].low_x <= edges[i].high_x; j++)
      {
        n_crossings += edges_cross (&edges[i], &edges[j]);
        if (++n_looks > MOST_OWN_LOOKS || n_crossings > MOST_OWN_CROSSINGS)
          return false;
      }
  return true;
}

/* ---- back to outlines ---- */

typedef struct
{
  GArray *points; /* Vec2 */
  GArray *sizes;  /* size_t */
} Rings;

static double
twice_area (const Vec2 *points, size_t n)
{
  double twice = 0;
  for (size_t i = 1; i + 1 < n; i++)
    twice += vec2_cross (vec2_sub (points[i], points[0]), vec2_sub (points[i + 1], points[0]));
  return twice;
}

static void
add_ring (GEOSContextHandle_t geos, const GEOSGeometry *ring, bool is_hole, Rings *rings)
{
  const GEOSCoordSequence *from = GEOSGeom_getCoordSeq_r (geos, ring);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r (geos, from, &size);
  size_t first = rings->points->len, n = size > 0 ? size - 1 : 0;
  g_array_set_size (rings->points, (guint)(first + n));
  Vec2 *points = &g_array_index (rings->points, Vec2, first);
  for (unsigned i = 0; i < n; i++)
    GEOSCoordSeq_getXY_r (geos, from, i, &points[i].x, &points[i].y);
  if ((twice_area (points, n) > 0) == is_hole)
    for (size_t i = 0; i < n / 2; i++)
      {
        Vec2 point = points[i];
        points[i] = points[n - 1 - i];
        points[n - 1 - i] = point;
      }
  g_array_append_val (rings->sizes, n);
}

static void
add_polygon (GEOSContextHandle_t geos, const GEOSGeometry *polygon, Rings *rings)
{
  double area_m2 = 0;
  if (GEOSGeomTypeId_r (geos, polygon) != GEOS_POLYGON || GEOSArea_r (geos, polygon, &area_m2) != 1 || area_m2 < SPECK_M2)
    return;
  add_ring (geos, GEOSGetExteriorRing_r (geos, polygon), false, rings);
  for (int i = 0; i < GEOSGetNumInteriorRings_r (geos, polygon); i++)
    add_ring (geos, GEOSGetInteriorRingN_r (geos, polygon, i), true, rings);
}

static Outline *
to_outline (GEOSContextHandle_t geos, const GEOSGeometry *region)
{
  Rings rings = { g_array_new (FALSE, FALSE, sizeof (Vec2)), g_array_new (FALSE, FALSE, sizeof (size_t)) };
  for (int i = 0; i < GEOSGetNumGeometries_r (geos, region); i++)
    add_polygon (geos, GEOSGetGeometryN_r (geos, region, i), &rings);
  Outline *outline = outline_new ((const Vec2 *)(const void *)rings.points->data,
                                  (const size_t *)(const void *)rings.sizes->data, rings.sizes->len, false);
  g_array_unref (rings.points);
  g_array_unref (rings.sizes);
  return outline;
}

/* ---- taking it apart ---- */

static void
destroy (GEOSContextHandle_t geos, GEOSGeometry *geometry)
{
  if (geometry != NULL)
    GEOSGeom_destroy_r (geos, geometry);
}

static GEOSGeometry *
make_ring (GEOSContextHandle_t geos, const Vec2 *points, size_t n_points)
{
  GEOSCoordSequence *made = GEOSCoordSeq_create_r (geos, (unsigned)n_points + 1, 2);
  for (size_t i = 0; i <= n_points; i++)
    GEOSCoordSeq_setXY_r (geos, made, (unsigned)i, points[i % n_points].x, points[i % n_points].y);
  return GEOSGeom_createLinearRing_r (geos, made);
}

/* The union of what is in a new collection of them, with corners put on a grid, for what only nearly touches to touch; of lines it cuts each where another crosses. */
static GEOSGeometry *
unite_all (GEOSContextHandle_t geos, GEOSGeometry **geometries, size_t n, double grid_m)
{
  GEOSGeometry *all = GEOSGeom_createCollection_r (geos, GEOS_GEOMETRYCOLLECTION, geometries, (unsigned)n);
  GEOSGeometry *united = all != NULL ? GEOSUnaryUnionPrec_r (geos, all, grid_m) : NULL;
  destroy (geos, all);
  return united;
}

static bool
is_inside (GEOSContextHandle_t geos, const Outline *outline, const GEOSGeometry *piece)
{
  Vec2 at;
  GEOSGeometry *place = GEOSPointOnSurface_r (geos, piece);
  bool is_known = place != NULL && GEOSGeomGetX_r (geos, place, &at.x) == 1 && GEOSGeomGetY_r (geos, place, &at.y) == 1;
  destroy (geos, place);
  return is_known && outline_contains (outline, at);
}

/* How far a box goes, also from where coordinates are 0. */
static double
extent_of (Box box)
{
  return fmax (fmax (fabs (box.x0), fabs (box.x1)), fmax (fabs (box.y0), fabs (box.y1)));
}

/* All pieces between the outline's edges that its fill rule counts in. */
static GEOSGeometry *
region_of (GEOSContextHandle_t geos, const Outline *outline)
{
  g_autofree GEOSGeometry **rings = g_new (GEOSGeometry *, outline->n_rings + 1);
  size_t n_rings = 0, n_inside = 0;
  double grid_m = GRID_SHARE * extent_of (outline->bounds);
  for (size_t r = 0; r < outline->n_rings; r++)
    if (outline->ring_starts[r + 1] - outline->ring_starts[r] >= 3)
      rings[n_rings++]
          = make_ring (geos, outline->points + outline->ring_starts[r], outline->ring_starts[r + 1] - outline->ring_starts[r]);
  if (n_rings == 0)
    return GEOSGeom_createEmptyPolygon_r (geos);
  GEOSGeometry *noded = unite_all (geos, rings, n_rings, grid_m);
  GEOSGeometry *pieces = noded != NULL ? GEOSPolygonize_r (geos, (const GEOSGeometry *const *)&noded, 1) : NULL;
  destroy (geos, noded);
  if (pieces == NULL)
    return NULL;
  int n_pieces = GEOSGetNumGeometries_r (geos, pieces);
  g_autofree GEOSGeometry **inside = g_new (GEOSGeometry *, (size_t)n_pieces + 1);
  for (int i = 0; i < n_pieces; i++)
    {
      const GEOSGeometry *piece = GEOSGetGeometryN_r (geos, pieces, i);
      if (is_inside (geos, outline, piece))
        inside[n_inside++] = GEOSGeom_clone_r (geos, piece);
    }
  destroy (geos, pieces);
  return n_inside > 0 ? unite_all (geos, inside, n_inside, grid_m) : GEOSGeom_createEmptyPolygon_r (geos);
}

Outline *
faces_untangle (const Part *area, GError **error)
{
  if (!is_tractable (area->outline))
    {
      cutter_refuse (error, area, "its outline crosses itself more often than can be taken apart; draw it as a simple outline");
      return NULL;
    }
  GEOSContextHandle_t geos = GEOS_init_r ();
  GEOSGeometry *region = region_of (geos, area->outline);
  Outline *outline = region != NULL ? to_outline (geos, region) : NULL;
  if (region == NULL)
    cutter_refuse (error, area, "what is inside its outline cannot be told; draw it anew as a simple outline");
  destroy (geos, region);
  GEOS_finish_r (geos);
  return outline;
}
