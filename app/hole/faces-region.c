// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * An area as GEOS takes it. An outline that touches or crosses itself is first taken apart along its own edges, and put together again from the pieces that
 * its fill rule counts in.
 */
#include "faces-private.h"

#include <stdlib.h>

/* Crossings of an outline with itself, and pairs of edges looked at for them, beyond which taking it apart takes seconds. Only hostile tangles have them. */
#define MOST_CROSSINGS 100000
#define MOST_LOOKS 50000000

bool
cutter_refuse (GError **error, const Part *area, const char *what)
{
  char label[128];
  g_set_error (error, HOLE_ERROR, HOLE_ERROR_FACES, "%s: %s", part_label (area, label, sizeof label), what);
  return false;
}

static GEOSGeometry *
make_ring (const Cutter *cutter, const Vec2 *points, size_t n_points)
{
  GEOSCoordSequence *made = GEOSCoordSeq_create_r (cutter->geos, (unsigned)n_points + 1, 2);
  for (size_t i = 0; i <= n_points; i++)
    GEOSCoordSeq_setXY_r (cutter->geos, made, (unsigned)i, points[i % n_points].x, points[i % n_points].y);
  return GEOSGeom_createLinearRing_r (cutter->geos, made);
}

void
cutter_destroy (const Cutter *cutter, GEOSGeometry *geometry)
{
  if (geometry != NULL)
    GEOSGeom_destroy_r (cutter->geos, geometry);
}

/* The union of what is in a new collection of them; of lines it cuts each where another crosses. */
static GEOSGeometry *
unite_all (const Cutter *cutter, GEOSGeometry **geometries, size_t n)
{
  GEOSGeometry *all = GEOSGeom_createCollection_r (cutter->geos, GEOS_GEOMETRYCOLLECTION, geometries, (unsigned)n);
  GEOSGeometry *united = all != NULL ? GEOSUnaryUnion_r (cutter->geos, all) : NULL;
  cutter_destroy (cutter, all);
  return united;
}

GEOSGeometry *
cutter_unite (const Cutter *cutter, GEOSGeometry **geometries, size_t n)
{
  return n == 1 ? geometries[0] : unite_all (cutter, geometries, n);
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
        if (++n_looks > MOST_LOOKS || n_crossings > MOST_CROSSINGS)
          return false;
      }
  return true;
}

/* ---- regions ---- */

/* One ring that does not touch itself. */
static GEOSGeometry *
simple_region (const Cutter *cutter, const Outline *outline)
{
  if (outline->n_rings != 1)
    return NULL;
  GEOSGeometry *polygon
      = GEOSGeom_createPolygon_r (cutter->geos, make_ring (cutter, outline->points, outline->n_points), NULL, 0);
  if (polygon != NULL && GEOSisValid_r (cutter->geos, polygon) == 1)
    return polygon;
  cutter_destroy (cutter, polygon);
  return NULL;
}

static bool
is_inside (const Cutter *cutter, const Outline *outline, const GEOSGeometry *piece)
{
  Vec2 at;
  GEOSGeometry *place = GEOSPointOnSurface_r (cutter->geos, piece);
  bool is_known
      = place != NULL && GEOSGeomGetX_r (cutter->geos, place, &at.x) == 1 && GEOSGeomGetY_r (cutter->geos, place, &at.y) == 1;
  cutter_destroy (cutter, place);
  return is_known && outline_contains (outline, at);
}

/* All pieces between the outline's edges that its fill rule counts in. */
static GEOSGeometry *
tangled_region (const Cutter *cutter, const Outline *outline)
{
  g_autofree GEOSGeometry **rings = g_new (GEOSGeometry *, outline->n_rings + 1);
  size_t n_rings = 0, n_inside = 0;
  for (size_t r = 0; r < outline->n_rings; r++)
    if (outline->ring_starts[r + 1] - outline->ring_starts[r] >= 3)
      rings[n_rings++] = make_ring (cutter, outline->points + outline->ring_starts[r],
                                    outline->ring_starts[r + 1] - outline->ring_starts[r]);
  if (n_rings == 0)
    return GEOSGeom_createEmptyPolygon_r (cutter->geos);
  GEOSGeometry *noded = unite_all (cutter, rings, n_rings);
  GEOSGeometry *pieces = noded != NULL ? GEOSPolygonize_r (cutter->geos, (const GEOSGeometry *const *)&noded, 1) : NULL;
  cutter_destroy (cutter, noded);
  if (pieces == NULL)
    return NULL;
  int n_pieces = GEOSGetNumGeometries_r (cutter->geos, pieces);
  g_autofree GEOSGeometry **inside = g_new (GEOSGeometry *, (size_t)n_pieces + 1);
  for (int i = 0; i < n_pieces; i++)
    {
      const GEOSGeometry *piece = GEOSGetGeometryN_r (cutter->geos, pieces, i);
      if (is_inside (cutter, outline, piece))
        inside[n_inside++] = GEOSGeom_clone_r (cutter->geos, piece);
    }
  cutter_destroy (cutter, pieces);
  return n_inside > 0 ? cutter_unite (cutter, inside, n_inside) : GEOSGeom_createEmptyPolygon_r (cutter->geos);
}

const GEOSGeometry *
cutter_region (Cutter *cutter, size_t k, GError **error)
{
  const Part *area = cutter->areas[k];
  const Outline *outline = area->outline;
  if (cutter->regions[k] != NULL)
    return cutter->regions[k];
  GEOSGeometry *region = outline->n_points < 3 ? GEOSGeom_createEmptyPolygon_r (cutter->geos) : simple_region (cutter, outline);
  if (region == NULL && !is_tractable (outline))
    {
      cutter_refuse (error, area, "its outline crosses itself more often than can be taken apart; draw it as a simple outline");
      return NULL;
    }
  if (region == NULL)
    region = tangled_region (cutter, outline);
  if (region == NULL)
    cutter_refuse (error, area, "what is inside its outline cannot be told; draw it anew as a simple outline");
  cutter->regions[k] = region;
  return region;
}
