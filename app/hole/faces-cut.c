// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The cutting of faces, by GEOS: an area less the union of those above it.
 */
#include "faces-private.h"

/* An area of an edge's rounding: less is no face but two edges that nearly coincide. */
#define SPECK_M2 1e-9
/* Beyond so many edges lying over others cutting takes seconds; no drawing of a hole is near it. */
#define MOST_EDGES 5000000
/* Where more pieces than that come near an area they are united with it while they have no more points: that hides what they cover of each other. For the few of an ordinary hole it
   costs more than it saves. */
#define MANY_PIECES 40
#define MOST_PIECE_POINTS 4000

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
add_ring (const Cutter *cutter, const GEOSGeometry *ring, bool is_hole, Rings *rings)
{
  const GEOSCoordSequence *from = GEOSGeom_getCoordSeq_r (cutter->geos, ring);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r (cutter->geos, from, &size);
  size_t first = rings->points->len, n = size > 0 ? size - 1 : 0;
  g_array_set_size (rings->points, (guint)(first + n));
  Vec2 *points = &g_array_index (rings->points, Vec2, first);
  for (unsigned i = 0; i < n; i++)
    GEOSCoordSeq_getXY_r (cutter->geos, from, i, &points[i].x, &points[i].y);
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
add_polygon (const Cutter *cutter, const GEOSGeometry *polygon, Rings *rings)
{
  double area_m2 = 0;
  if (GEOSGeomTypeId_r (cutter->geos, polygon) != GEOS_POLYGON || GEOSArea_r (cutter->geos, polygon, &area_m2) != 1
      || area_m2 < SPECK_M2)
    return;
  add_ring (cutter, GEOSGetExteriorRing_r (cutter->geos, polygon), false, rings);
  for (int i = 0; i < GEOSGetNumInteriorRings_r (cutter->geos, polygon); i++)
    add_ring (cutter, GEOSGetInteriorRingN_r (cutter->geos, polygon, i), true, rings);
}

static Outline *
to_outline (const Cutter *cutter, const GEOSGeometry *region)
{
  Rings rings = { g_array_new (FALSE, FALSE, sizeof (Vec2)), g_array_new (FALSE, FALSE, sizeof (size_t)) };
  for (int i = 0; i < GEOSGetNumGeometries_r (cutter->geos, region); i++)
    add_polygon (cutter, GEOSGetGeometryN_r (cutter->geos, region, i), &rings);
  Outline *outline = outline_new ((const Vec2 *)(const void *)rings.points->data,
                                  (const size_t *)(const void *)rings.sizes->data, rings.sizes->len, false);
  g_array_unref (rings.points);
  g_array_unref (rings.sizes);
  return outline;
}

/* ---- cutting ---- */

/* A region that areas already gone over cover, from the top down. Those of one cutting may overlap; together they are all that lies over the next area. */
typedef struct
{
  GEOSGeometry *region;
  Box box;
  size_t n_points;
} Piece;

static void
add_piece (const Cutter *cutter, GArray *pieces, GEOSGeometry *region, Box box)
{
  Piece piece = { region, box, (size_t)MAX (0, GEOSGetNumCoordinates_r (cutter->geos, region)) };
  g_array_append_val (pieces, piece);
}

/* Where two pieces are apart they are left apart: the union is that of what comes near the area. An empty region for none; NULL with `error`. */
static GEOSGeometry *
cover_of (Cutter *cutter, const GArray *pieces, const GArray *near, const Part *area, GError **error)
{
  g_autofree GEOSGeometry **regions = g_new (GEOSGeometry *, near->len + 1);
  if (near->len == 0)
    return GEOSGeom_createEmptyPolygon_r (cutter->geos);
  for (guint i = 0; i < near->len; i++)
    {
      const Piece *piece = &g_array_index (pieces, Piece, g_array_index (near, guint, i));
      cutter->n_edges += piece->n_points;
      regions[i] = GEOSGeom_clone_r (cutter->geos, piece->region);
    }
  if (cutter->n_edges > MOST_EDGES)
    {
      for (guint i = 0; i < near->len; i++)
        cutter_destroy (cutter, regions[i]);
      cutter_refuse (error, area, "too many areas lie over each other there; unite those of a kind before asking for chances");
      return NULL;
    }
  GEOSGeometry *cover = cutter_unite (cutter, regions, near->len);
  if (cover == NULL)
    cutter_refuse (error, area, "what lies over it cannot be cut from it; move one of their outlines a little");
  return cover;
}

static Outline *
cut_one (const Cutter *cutter, const Part *area, const GEOSGeometry *region, const GEOSGeometry *cover, GError **error)
{
  if (GEOSisEmpty_r (cutter->geos, cover) == 1)
    return to_outline (cutter, region);
  GEOSGeometry *seen = GEOSDifference_r (cutter->geos, region, cover);
  Outline *outline = seen != NULL ? to_outline (cutter, seen) : NULL;
  if (outline == NULL)
    cutter_refuse (error, area, "what lies over it cannot be cut from it; move one of their outlines a little");
  cutter_destroy (cutter, seen);
  return outline;
}

/* Puts the area among the pieces, or makes it one with those near it. Takes over `cover`. */
static void
cover_more (const Cutter *cutter, GArray *pieces, const GArray *near, const Part *area, const GEOSGeometry *region,
            GEOSGeometry *cover)
{
  GEOSGeometry *whole = NULL;
  int n_points = GEOSGetNumCoordinates_r (cutter->geos, cover) + GEOSGetNumCoordinates_r (cutter->geos, region);
  if (near->len > MANY_PIECES && n_points <= MOST_PIECE_POINTS)
    whole = GEOSUnion_r (cutter->geos, cover, region);
  cutter_destroy (cutter, cover);
  Box box = area->outline->bounds;
  for (guint i = near->len; whole != NULL && i-- > 0;)
    {
      guint number = g_array_index (near, guint, i);
      Piece *piece = &g_array_index (pieces, Piece, number);
      box = box_union (box, piece->box);
      cutter_destroy (cutter, piece->region);
      g_array_remove_index_fast (pieces, number);
    }
  add_piece (cutter, pieces, whole != NULL ? whole : GEOSGeom_clone_r (cutter->geos, region), box);
}

/* Which areas have to be gone over: those wanted, and what comes near one of them from above. */
static bool *
find_needed (const Part *const *areas, size_t n_areas, const bool *is_wanted)
{
  bool *needed = g_new0 (bool, n_areas + 1);
  for (size_t k = 0; k < n_areas; k++)
    {
      needed[k] = needed[k] || is_wanted[k];
      for (size_t j = k + 1; is_wanted[k] && j < n_areas; j++)
        needed[j] = needed[j] || box_overlaps (areas[k]->outline->bounds, areas[j]->outline->bounds);
    }
  return needed;
}

/* Goes over area k. */
static bool
go_over (Cutter *cutter, size_t k, bool is_wanted, GArray *pieces, Outline **cut, GError **error)
{
  const Part *area = cutter->areas[k];
  const GEOSGeometry *region = cutter_region (cutter, k, error);
  if (region == NULL)
    return false;
  g_autoptr (GArray) near = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < pieces->len; i++)
    if (box_overlaps (area->outline->bounds, g_array_index (pieces, Piece, i).box))
      g_array_append_val (near, i);
  GEOSGeometry *cover = cover_of (cutter, pieces, near, area, error);
  if (cover == NULL)
    return false;
  if (is_wanted && (*cut = cut_one (cutter, area, region, cover, error)) == NULL)
    {
      cutter_destroy (cutter, cover);
      return false;
    }
  cover_more (cutter, pieces, near, area, region, cover);
  return true;
}

bool
faces_cut (const Part *const *areas, size_t n_areas, const bool *is_wanted, Outline **cut, GError **error)
{
  Cutter cutter = { .geos = GEOS_init_r (), .areas = areas, .n_areas = n_areas };
  cutter.regions = g_new0 (GEOSGeometry *, n_areas + 1);
  g_autofree bool *needed = find_needed (areas, n_areas, is_wanted);
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
  bool is_done = true;
  for (size_t k = n_areas; k-- > 0 && is_done;)
    if (needed[k])
      is_done = go_over (&cutter, k, is_wanted[k], pieces, &cut[k], error);
  for (size_t k = 0; k < n_areas; k++)
    cutter_destroy (&cutter, cutter.regions[k]);
  for (guint i = 0; i < pieces->len; i++)
    cutter_destroy (&cutter, g_array_index (pieces, Piece, i).region);
  g_free (cutter.regions);
  GEOS_finish_r (cutter.geos);
  return is_done;
}
