// SPDX-License-Identifier: GPL-3.0-or-later
/* Areas together: united, taken away, cut, split, joined, uncrossed. */
#include "overlay-private.h"

bool
are_areas (const Hole *hole, const size_t *parts, size_t n_parts, size_t least, GError **error)
{
  for (size_t k = 0; k < n_parts; k++)
    if (kind_info (hole_part (hole, parts[k])->kind)->shape != SHAPE_AREA)
      return refuse (error, EDIT_ERROR_SHAPE, "this works on areas only; leave lines and points out") != NULL;
  if (n_parts < least)
    return refuse (error, EDIT_ERROR_EMPTY, least > 1 ? "select two areas or more" : "select an area first") != NULL;
  return true;
}

/* A piece that parts from an area: the same in all but its place in the document and its id. */
static const Part *
as_new (const Part *piece)
{
  Part *fresh = part_copy (piece);
  part_unref (piece);
  fresh->node = 0;
  fresh->line = 0;
  g_clear_pointer (&fresh->id, g_free);
  return part_seal (fresh);
}

static void
unref_part (gpointer part)
{
  part_unref (part);
}

/* The hole with these parts, whose references the array gives up. */
static Hole *
hole_of (const Hole *hole, GPtrArray *parts)
{
  g_ptr_array_set_free_func (parts, NULL);
  return hole_with_parts (hole, (const Part *const *)parts->pdata, parts->len);
}

/* ---- unite and join ---- */

static Hole *
unite_into_lowest (const Hole *hole, const size_t *parts, size_t n_parts, GError **error)
{
  g_auto (Overlay) overlay = { 0 };
  overlay_init (&overlay);
  g_autofree GEOSGeometry **regions = g_new0 (GEOSGeometry *, n_parts);
  bool is_good = true;
  for (size_t k = 0; k < n_parts; k++)
    {
      regions[k] = overlay_region (&overlay, hole_part (hole, parts[k]));
      if (!regions[k])
        {
          is_good = false;
          regions[k] = GEOSGeom_createEmptyPolygon_r (overlay.geos);
        }
    }
  GEOSGeometry *united = overlay_unite (&overlay, regions, n_parts);
  const Part *made
      = united && is_good ? overlay_part (&overlay, hole_part (hole, parts[0]), united, overlay_restore_ring) : NULL;
  if (united)
    GEOSGeom_destroy_r (overlay.geos, united);
  if (!made)
    return refuse (error, EDIT_ERROR_SHAPE, TOO_TANGLED);
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (unref_part);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (i == parts[0])
      g_ptr_array_add (all, (gpointer)made);
    else if (!selection_holds (parts, n_parts, i))
      g_ptr_array_add (all, (gpointer)part_ref (hole_part (hole, i)));
  return hole_of (hole, all);
}

Hole *
edit_unite (const Hole *hole, const size_t *parts, size_t n_parts, GError **error)
{
  return are_areas (hole, parts, n_parts, 2, error) ? unite_into_lowest (hole, parts, n_parts, error) : NULL;
}

Hole *
edit_join (const Hole *hole, const size_t *parts, size_t n_parts, GError **error)
{
  if (!are_areas (hole, parts, n_parts, 2, error))
    return NULL;
  for (size_t k = 1; k < n_parts; k++)
    if (hole_part (hole, parts[k])->kind != hole_part (hole, parts[0])->kind)
      return refuse (error, EDIT_ERROR_SHAPE, "only areas of one kind can be joined; give them one kind first");
  return unite_into_lowest (hole, parts, n_parts, error);
}

/* ---- subtract ---- */

/* What is left of an area without another; `*left` stays NULL when nothing is. False when that is beyond GEOS. */
static bool
take_away (const Part *area, const Part *taken, const Part **left)
{
  if (!box_overlaps (area->bounds, taken->bounds))
    {
      *left = part_ref (area);
      return true;
    }
  g_auto (Overlay) overlay = { 0 };
  overlay_init (&overlay);
  GEOSGeometry *region = overlay_region (&overlay, area), *hollow = overlay_region (&overlay, taken), *rest = NULL;
  bool meets = region && hollow && GEOSIntersects_r (overlay.geos, region, hollow) == 1;
  if (meets)
    rest = GEOSDifferencePrec_r (overlay.geos, region, hollow, EDIT_GRID_M);
  if (rest)
    *left = overlay_part (&overlay, area, rest, overlay_restore_ring);
  else if (region && hollow && !meets)
    *left = part_ref (area);
  bool is_good = rest || *left;
  GEOSGeometry *all[] = { region, hollow, rest };
  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    if (all[i])
      GEOSGeom_destroy_r (overlay.geos, all[i]);
  return is_good;
}

Hole *
edit_subtract (const Hole *hole, const size_t *parts, size_t n_parts, GError **error)
{
  if (!are_areas (hole, parts, n_parts, 2, error))
    return NULL;
  size_t top = parts[n_parts - 1];
  bool is_changed = false;
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (unref_part);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i), *left = NULL;
      if (i == top || !selection_holds (parts, n_parts, i))
        left = part_ref (part);
      else if (!take_away (part, hole_part (hole, top), &left))
        return refuse (error, EDIT_ERROR_SHAPE, TOO_TANGLED);
      is_changed = is_changed || left != part;
      if (left)
        g_ptr_array_add (all, (gpointer)left);
    }
  return is_changed ? hole_of (hole, all) : hole_ref ((Hole *)hole);
}

/* ---- pieces ---- */

/* Puts each polygon of a collection into `pieces` as an area of its own, the largest first; it stays what the area was. */
static void
add_pieces (Overlay *overlay, const Part *area, const GEOSGeometry *polygons, GPtrArray *pieces)
{
  int n = GEOSGetNumGeometries_r (overlay->geos, polygons);
  guint first = pieces->len;
  double largest_m2 = 0;
  for (int i = 0; i < n; i++)
    {
      const GEOSGeometry *polygon = GEOSGetGeometryN_r (overlay->geos, polygons, i);
      const Part *piece = overlay_part (overlay, area, polygon, overlay_restore_ring);
      double area_m2 = 0;
      if (!piece)
        continue;
      GEOSArea_r (overlay->geos, polygon, &area_m2);
      g_ptr_array_insert (pieces, area_m2 > largest_m2 ? (int)first : -1, (gpointer)piece);
      largest_m2 = fmax (largest_m2, area_m2);
    }
  for (guint i = first + 1; i < pieces->len; i++)
    pieces->pdata[i] = (gpointer)as_new (pieces->pdata[i]);
}

/* The faces of a region parted by a line, those outside it left out. NULL when that is beyond GEOS. */
static GEOSGeometry *
part_region (Overlay *overlay, const GEOSGeometry *region, Vec2 a, Vec2 b)
{
  GEOSGeometry *lines[] = { GEOSBoundary_r (overlay->geos, region), overlay_line (overlay, a, b) };
  if (!lines[0] || !lines[1])
    {
      for (size_t i = 0; i < G_N_ELEMENTS (lines); i++)
        GEOSGeom_destroy_r (overlay->geos, lines[i]);
      return NULL;
    }
  GEOSGeometry *faces = overlay_faces (overlay, GEOSGeom_createCollection_r (overlay->geos, GEOS_GEOMETRYCOLLECTION, lines, 2));
  if (!faces)
    return NULL;
  int n = GEOSGetNumGeometries_r (overlay->geos, faces);
  g_autofree GEOSGeometry **inside = g_new (GEOSGeometry *, (size_t)n + 1);
  unsigned n_inside = 0;
  for (int i = 0; i < n; i++)
    {
      const GEOSGeometry *face = GEOSGetGeometryN_r (overlay->geos, faces, i);
      GEOSGeometry *place = GEOSPointOnSurface_r (overlay->geos, face);
      if (place && GEOSContains_r (overlay->geos, region, place) == 1)
        inside[n_inside++] = GEOSGeom_clone_r (overlay->geos, face);
      if (place)
        GEOSGeom_destroy_r (overlay->geos, place);
    }
  GEOSGeom_destroy_r (overlay->geos, faces);
  return GEOSGeom_createCollection_r (overlay->geos, GEOS_GEOMETRYCOLLECTION, inside, n_inside);
}

static int
count_polygons (const Overlay *overlay, const GEOSGeometry *polygons)
{
  int n_real = 0;
  for (int i = 0; i < GEOSGetNumGeometries_r (overlay->geos, polygons); i++)
    {
      double area_m2 = 0;
      GEOSArea_r (overlay->geos, GEOSGetGeometryN_r (overlay->geos, polygons, i), &area_m2);
      n_real += area_m2 >= SLIVER_M2;
    }
  return n_real;
}

/* The area's pieces on either side of the line; the area itself when the line does not part it. False when that is beyond GEOS. */
static bool
cut_area (const Part *area, Vec2 a, Vec2 b, GPtrArray *pieces)
{
  g_auto (Overlay) overlay = { 0 };
  overlay_init (&overlay);
  GEOSGeometry *region = overlay_region (&overlay, area);
  bool is_empty = region && GEOSisEmpty_r (overlay.geos, region) == 1;
  GEOSGeometry *faces = region && !is_empty ? part_region (&overlay, region, a, b) : NULL;
  bool is_parted = faces && count_polygons (&overlay, faces) > count_polygons (&overlay, region);
  if (is_parted)
    add_pieces (&overlay, area, faces, pieces);
  else if (faces || is_empty)
    g_ptr_array_add (pieces, (gpointer)part_ref (area));
  bool is_good = faces || is_empty;
  if (faces)
    GEOSGeom_destroy_r (overlay.geos, faces);
  if (region)
    GEOSGeom_destroy_r (overlay.geos, region);
  return is_good;
}

Hole *
edit_cut (const Hole *hole, const size_t *parts, size_t n_parts, Vec2 a, Vec2 b, GError **error)
{
  if (!are_areas (hole, parts, n_parts, 1, error))
    return NULL;
  if (!(fabs (a.x) <= FARTHEST_M && fabs (a.y) <= FARTHEST_M && fabs (b.x) <= FARTHEST_M && fabs (b.y) <= FARTHEST_M))
    return refuse (error, EDIT_ERROR_NUMBER, "the line goes too far; drag a shorter one");
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (unref_part);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (!selection_holds (parts, n_parts, i))
      g_ptr_array_add (all, (gpointer)part_ref (hole_part (hole, i)));
    else if (!cut_area (hole_part (hole, i), a, b, all))
      return refuse (error, EDIT_ERROR_SHAPE, TOO_TANGLED);
  if (all->len == hole_n_parts (hole))
    return refuse (error, EDIT_ERROR_EMPTY, "the line cuts nothing; drag it right across an area");
  return hole_of (hole, all);
}

Hole *
edit_split (const Hole *hole, size_t part, size_t *n_pieces, GError **error)
{
  const Part *area = hole_part (hole, part);
  if (!are_areas (hole, &part, 1, 1, error))
    return NULL;
  g_auto (Overlay) overlay = { 0 };
  overlay_init (&overlay);
  g_autoptr (GPtrArray) pieces = g_ptr_array_new ();
  GEOSGeometry *region = overlay_region (&overlay, area);
  if (!region)
    return refuse (error, EDIT_ERROR_SHAPE, TOO_TANGLED);
  if (count_polygons (&overlay, region) > 1)
    add_pieces (&overlay, area, region, pieces);
  GEOSGeom_destroy_r (overlay.geos, region);
  if (pieces->len == 0)
    return refuse (error, EDIT_ERROR_EMPTY, "this is in one piece already");
  g_autoptr (GPtrArray) all = g_ptr_array_new ();
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (i == part)
      g_ptr_array_extend (all, pieces, NULL, NULL);
    else
      g_ptr_array_add (all, (gpointer)part_ref (hole_part (hole, i)));
  if (n_pieces)
    *n_pieces = pieces->len;
  return hole_of (hole, all);
}

/* ---- uncrossing ---- */

const Part *
uncross_area (const Part *area, GError **error)
{
  g_auto (Overlay) overlay = { 0 };
  overlay_init (&overlay);
  GEOSGeometry *region = overlay_region (&overlay, area);
  const Part *made = region ? overlay_part (&overlay, area, region, overlay_restore_ring) : NULL;
  if (region)
    GEOSGeom_destroy_r (overlay.geos, region);
  return made ? made : refuse (error, EDIT_ERROR_EMPTY, "the outline encloses nothing; draw a loop");
}
