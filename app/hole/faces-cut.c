// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The cutting of faces, by GEOS: an area less the union of those above it.
 */
#include "faces-private.h"

/* An area of an edge's rounding: less is no face but two edges that nearly coincide. */
#define SPECK_M2 1e-9
/* Beyond so many pairs of an area and one over it, or edges of those, cutting takes seconds; no drawing of a hole is near it. */
#define MOST_PAIRS 400000
#define MOST_EDGES 20000000

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

/* All that lies over area k and comes near it, united; an empty region for none. NULL with `error`. */
static GEOSGeometry *
cover_of (Cutter *cutter, size_t k, GError **error)
{
  const Part *area = cutter->areas[k];
  g_autoptr (GPtrArray) above = g_ptr_array_new ();
  for (size_t j = k + 1; j < cutter->n_areas; j++)
    {
      const Outline *over = cutter->areas[j]->outline;
      if (!box_overlaps (area->outline->bounds, over->bounds))
        continue;
      cutter->n_edges += over->n_points;
      const GEOSGeometry *region = NULL;
      if (++cutter->n_pairs > MOST_PAIRS || cutter->n_edges > MOST_EDGES)
        cutter_refuse (error, area, "too many areas lie over each other; unite those of a kind before asking for chances");
      else
        region = cutter_region (cutter, j, error);
      if (region == NULL)
        {
          for (guint i = 0; i < above->len; i++)
            cutter_destroy (cutter, g_ptr_array_index (above, i));
          return NULL;
        }
      g_ptr_array_add (above, GEOSGeom_clone_r (cutter->geos, region));
    }
  if (above->len == 0)
    return GEOSGeom_createEmptyPolygon_r (cutter->geos);
  GEOSGeometry *cover = cutter_unite (cutter, (GEOSGeometry **)above->pdata, above->len);
  if (cover == NULL)
    cutter_refuse (error, area, "what lies over it cannot be cut from it; move one of their outlines a little");
  return cover;
}

static Outline *
cut_one (Cutter *cutter, size_t k, GError **error)
{
  const GEOSGeometry *region = cutter_region (cutter, k, error);
  GEOSGeometry *cover = region != NULL ? cover_of (cutter, k, error) : NULL;
  if (cover == NULL)
    return NULL;
  Outline *outline = NULL;
  if (GEOSisEmpty_r (cutter->geos, cover) == 1)
    outline = to_outline (cutter, region);
  else
    {
      GEOSGeometry *seen = GEOSDifference_r (cutter->geos, region, cover);
      if (seen != NULL)
        outline = to_outline (cutter, seen);
      else
        cutter_refuse (error, cutter->areas[k], "what lies over it cannot be cut from it; move one of their outlines a little");
      cutter_destroy (cutter, seen);
    }
  cutter_destroy (cutter, cover);
  return outline;
}

bool
faces_cut (const Part *const *areas, size_t n_areas, const bool *is_wanted, Outline **cut, GError **error)
{
  Cutter cutter = { .geos = GEOS_init_r (), .areas = areas, .n_areas = n_areas };
  cutter.regions = g_new0 (GEOSGeometry *, n_areas + 1);
  bool is_done = true;
  for (size_t k = 0; k < n_areas && is_done; k++)
    if (is_wanted[k])
      is_done = (cut[k] = cut_one (&cutter, k, error)) != NULL;
  for (size_t k = 0; k < n_areas; k++)
    cutter_destroy (&cutter, cutter.regions[k]);
  g_free (cutter.regions);
  GEOS_finish_r (cutter.geos);
  return is_done;
}
