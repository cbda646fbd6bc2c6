// SPDX-License-Identifier: GPL-3.0-or-later
/* From parts to GEOS polygons and back: flattening with tags, regions under a fill rule, and paths that stay valid. */
#include "overlay-private.h"

/* Chords stay this near their curve: half of what outlines are flattened to. */
#define CHORD_TOLERANCE_M (FLATTEN_TOLERANCE_M / 2)
#define MOST_STEPS 1000
/* How far the area of restored curves may be from that of the polygons, for each metre of edge: both are flattened. */
#define DRIFT_M (3 * FLATTEN_TOLERANCE_M)

void
overlay_init (Overlay *overlay)
{
  *overlay = (Overlay){ .geos = GEOS_init_r (),
                        .curves = g_array_new (FALSE, FALSE, sizeof (Curve)),
                        .tags = g_array_new (FALSE, FALSE, sizeof (Tag)) };
}

void
overlay_clear (Overlay *overlay)
{
  g_array_unref (overlay->curves);
  g_array_unref (overlay->tags);
  GEOS_finish_r (overlay->geos);
}

/* ---- flattening ---- */

Vec2
curve_point (const Curve *curve, double t)
{
  const Vec2 *p = curve->p;
  Vec2 a = vec2_lerp (p[0], p[1], t), b = vec2_lerp (p[1], p[2], t), c = vec2_lerp (p[2], p[3], t);
  return vec2_lerp (vec2_lerp (a, b, t), vec2_lerp (b, c, t), t);
}

/* Wang's bound on the chords a cubic needs: sqrt (3/4 of its largest second difference over the tolerance). */
static unsigned
count_steps (const Vec2 p[4])
{
  Vec2 first = vec2_add (vec2_sub (p[0], vec2_scale (p[1], 2)), p[2]),
       second = vec2_add (vec2_sub (p[1], vec2_scale (p[2], 2)), p[3]);
  double bend = fmax (vec2_length (first), vec2_length (second));
  return (unsigned)fmin (fmax (1, ceil (sqrt (0.75 * bend / CHORD_TOLERANCE_M))), MOST_STEPS);
}

static void
add_tag (Overlay *overlay, guint curve, double t, Vec2 at)
{
  Tag tag = { llround (at.x / EDIT_GRID_M), llround (at.y / EDIT_GRID_M), curve, t };
  g_array_append_val (overlay->tags, tag);
  overlay->is_sorted = false;
}

/* Adds a curve and, to `points`, its flattened points without the first. */
static void
add_curve (Overlay *overlay, Vec2 from, const PathSeg *seg, GArray *points)
{
  Curve curve = { .p = { from, vec2_lerp (from, seg->to, 1.0 / 3), vec2_lerp (from, seg->to, 2.0 / 3), seg->to },
                  .is_line = seg->kind != SEG_CUBIC,
                  .n_steps = 1,
                  .bounds = box_with_point (box_empty (), from) };
  guint number = overlay->curves->len;
  if (!curve.is_line)
    {
      curve.p[1] = seg->c1;
      curve.p[2] = seg->c2;
      curve.n_steps = count_steps (curve.p);
    }
  add_tag (overlay, number, 0, from);
  for (unsigned k = 1; k <= curve.n_steps; k++)
    {
      double t = (double)k / curve.n_steps;
      Vec2 at = grid_point (k == curve.n_steps ? seg->to : curve_point (&curve, t));
      g_array_append_val (points, at);
      add_tag (overlay, number, t, at);
      curve.bounds = box_with_point (curve.bounds, at);
    }
  g_array_append_val (overlay->curves, curve);
}

/* Drops points that repeat the one before, the last when it repeats the first. */
static void
drop_repeats (GArray *points, guint first)
{
  guint n = first;
  for (guint i = first; i < points->len; i++)
    {
      Vec2 at = g_array_index (points, Vec2, i), before = n > first ? g_array_index (points, Vec2, n - 1) : vec2 (NAN, NAN);
      if (at.x != before.x || at.y != before.y)
        g_array_index (points, Vec2, n++) = at;
    }
  if (n > first + 1 && vec2_distance (g_array_index (points, Vec2, n - 1), g_array_index (points, Vec2, first)) == 0)
    n--;
  g_array_set_size (points, n);
}

/* The area's subpaths as rings on the grid; what is no ring is left out. */
static Outline *
flatten_rings (Overlay *overlay, const Path *path, bool even_odd)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (Vec2)), sizes = g_array_new (FALSE, FALSE, sizeof (size_t));
  Vec2 pen = vec2 (0, 0), start = pen;
  guint first = 0;
  for (size_t i = 0; i <= path->n_segs; i++)
    {
      bool is_end = i == path->n_segs || path->segs[i].kind == SEG_MOVE;
      bool is_close = !is_end && path->segs[i].kind == SEG_CLOSE;
      if ((is_end || is_close) && points->len > first)
        {
          const PathSeg back = { .kind = SEG_LINE, .to = start };
          if (pen.x != start.x || pen.y != start.y)
            add_curve (overlay, pen, &back, points);
          drop_repeats (points, first);
          size_t n = points->len - first;
          if (n < 3)
            g_array_set_size (points, first);
          else
            g_array_append_val (sizes, n);
          first = points->len;
        }
      if (i == path->n_segs)
        break;
      if (is_end)
        start = path->segs[i].to;
      else if (!is_close)
        {
          if (points->len == first)
            start = pen;
          add_curve (overlay, pen, &path->segs[i], points);
        }
      pen = path->segs[i].to;
    }
  return outline_new ((const Vec2 *)points->data, (const size_t *)sizes->data, sizes->len, even_odd);
}

/* ---- points to GEOS and back ---- */

static GEOSCoordSequence *
sequence (const Overlay *overlay, const Vec2 *points, size_t n_points, bool is_closed)
{
  GEOSCoordSequence *made = GEOSCoordSeq_create_r (overlay->geos, (unsigned)n_points + is_closed, 2);
  for (size_t i = 0; i < n_points + is_closed; i++)
    GEOSCoordSeq_setXY_r (overlay->geos, made, (unsigned)i, points[i % n_points].x, points[i % n_points].y);
  return made;
}

GEOSGeometry *
overlay_ring (const Overlay *overlay, const Vec2 *points, size_t n_points)
{
  return GEOSGeom_createLinearRing_r (overlay->geos, sequence (overlay, points, n_points, true));
}

Vec2 *
overlay_ring_points (const Overlay *overlay, const GEOSGeometry *ring, size_t *n_points)
{
  const GEOSCoordSequence *from = GEOSGeom_getCoordSeq_r (overlay->geos, ring);
  unsigned size = 0;
  GEOSCoordSeq_getSize_r (overlay->geos, from, &size);
  *n_points = size > 0 ? size - 1 : 0;
  Vec2 *points = g_new (Vec2, *n_points + 1);
  for (unsigned i = 0; i < *n_points; i++)
    GEOSCoordSeq_getXY_r (overlay->geos, from, i, &points[i].x, &points[i].y);
  return points;
}

GEOSGeometry *
overlay_line (Overlay *overlay, Vec2 a, Vec2 b)
{
  const Vec2 ends[2] = { grid_point (a), grid_point (b) };
  const PathSeg seg = { .kind = SEG_LINE, .to = ends[1] };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (Vec2));
  add_curve (overlay, ends[0], &seg, points);
  return GEOSGeom_createLineString_r (overlay->geos, sequence (overlay, ends, 2, false));
}

/* ---- regions ---- */

GEOSGeometry *
overlay_unite (Overlay *overlay, GEOSGeometry **polygons, size_t n_polygons)
{
  GEOSGeometry *all = GEOSGeom_createCollection_r (overlay->geos, GEOS_GEOMETRYCOLLECTION, polygons, (unsigned)n_polygons);
  GEOSGeometry *united = all ? GEOSUnaryUnionPrec_r (overlay->geos, all, EDIT_GRID_M) : NULL;
  GEOSGeom_destroy_r (overlay->geos, all);
  return united;
}

GEOSGeometry *
overlay_faces (Overlay *overlay, GEOSGeometry *lines)
{
  GEOSGeometry *noded = GEOSUnaryUnionPrec_r (overlay->geos, lines, EDIT_GRID_M);
  GEOSGeometry *faces = noded ? GEOSPolygonize_r (overlay->geos, (const GEOSGeometry *const *)&noded, 1) : NULL;
  GEOSGeom_destroy_r (overlay->geos, lines);
  if (noded)
    GEOSGeom_destroy_r (overlay->geos, noded);
  return faces;
}

/* Somewhere inside a face. False when it has no inside to speak of. */
static bool
point_inside (const Overlay *overlay, const GEOSGeometry *face, Vec2 *point)
{
  double area_m2 = 0;
  if (!GEOSArea_r (overlay->geos, face, &area_m2) || !(area_m2 > 0))
    return false;
  GEOSGeometry *place = GEOSPointOnSurface_r (overlay->geos, face);
  bool is_known
      = place && GEOSGeomGetX_r (overlay->geos, place, &point->x) == 1 && GEOSGeomGetY_r (overlay->geos, place, &point->y) == 1;
  if (place)
    GEOSGeom_destroy_r (overlay->geos, place);
  return is_known;
}

/* A simple ring as it is; NULL for anything else. */
static GEOSGeometry *
simple_region (const Overlay *overlay, const Outline *rings)
{
  if (rings->n_rings != 1)
    return NULL;
  GEOSGeometry *polygon
      = GEOSGeom_createPolygon_r (overlay->geos, overlay_ring (overlay, rings->points, rings->n_points), NULL, 0);
  if (polygon && GEOSisValid_r (overlay->geos, polygon) == 1)
    return polygon;
  GEOSGeom_destroy_r (overlay->geos, polygon);
  return NULL;
}

/* The faces between the rings' edges that the fill rule counts in, united. */
static GEOSGeometry *
tangled_region (Overlay *overlay, const Outline *rings)
{
  g_autofree GEOSGeometry **lines = g_new (GEOSGeometry *, rings->n_rings + 1);
  for (size_t r = 0; r < rings->n_rings; r++)
    lines[r] = overlay_ring (overlay, rings->points + rings->ring_starts[r], rings->ring_starts[r + 1] - rings->ring_starts[r]);
  GEOSGeometry *faces = overlay_faces (
      overlay, GEOSGeom_createCollection_r (overlay->geos, GEOS_GEOMETRYCOLLECTION, lines, (unsigned)rings->n_rings));
  if (!faces)
    return NULL;
  int n_faces = GEOSGetNumGeometries_r (overlay->geos, faces);
  size_t n_inside = 0;
  g_autofree GEOSGeometry **inside = g_new (GEOSGeometry *, (size_t)n_faces + 1);
  for (int i = 0; i < n_faces; i++)
    {
      const GEOSGeometry *face = GEOSGetGeometryN_r (overlay->geos, faces, i);
      Vec2 point;
      if (point_inside (overlay, face, &point) && outline_contains (rings, point))
        inside[n_inside++] = GEOSGeom_clone_r (overlay->geos, face);
    }
  GEOSGeom_destroy_r (overlay->geos, faces);
  return overlay_unite (overlay, inside, n_inside);
}

GEOSGeometry *
overlay_region (Overlay *overlay, const Part *area)
{
  Outline *rings = flatten_rings (overlay, &area->path, area->even_odd);
  GEOSGeometry *region = simple_region (overlay, rings);
  if (!region)
    region = tangled_region (overlay, rings);
  outline_free (rings);
  return region;
}

/* ---- back to paths ---- */

static double
signed_area (const Vec2 *points, size_t n_points)
{
  double twice = 0;
  for (size_t i = 0; i < n_points; i++)
    twice += vec2_cross (vec2_sub (points[i], points[0]), vec2_sub (points[(i + 1) % n_points], points[0]));
  return twice / 2;
}

static double
ring_length (const Vec2 *points, size_t n_points)
{
  double length_m = 0;
  for (size_t i = 0; i < n_points; i++)
    length_m += vec2_distance (points[i], points[(i + 1) % n_points]);
  return length_m;
}

static void
turn_round (Vec2 *points, size_t n_points)
{
  for (size_t i = 0; i < n_points / 2; i++)
    {
      Vec2 point = points[i];
      points[i] = points[n_points - 1 - i];
      points[n_points - 1 - i] = point;
    }
}

static void
plain_ring (Overlay *overlay, const Vec2 *points, size_t n_points, Path *path)
{
  (void)overlay;
  path_move_to (path, points[0]);
  for (size_t i = 1; i < n_points; i++)
    path_line_to (path, points[i]);
  path_close (path);
}

/* How polygons get into a path. */
typedef struct
{
  Overlay *overlay;
  OverlayRing ring;
  bool is_anticlockwise; /* the shell in hand; its holes go the other way */
  double drift_m2;       /* what the areas may differ by */
  GArray *is_shell;      /* bool of each ring written */
  Path *path;
} RingWriter;

static void
write_ring (RingWriter *writer, const GEOSGeometry *ring, bool is_shell)
{
  size_t n;
  g_autofree Vec2 *points = overlay_ring_points (writer->overlay, ring, &n);
  double area_m2 = n >= 3 ? signed_area (points, n) : 0;
  if (fabs (area_m2) < SLIVER_M2)
    return;
  bool turns = is_shell ? overlay_ring_sense (writer->overlay, points, n) < 0 : (area_m2 > 0) == writer->is_anticlockwise;
  if (turns)
    turn_round (points, n);
  if (is_shell)
    writer->is_anticlockwise = (area_m2 > 0) != turns;
  writer->drift_m2 += DRIFT_M * ring_length (points, n);
  g_array_append_val (writer->is_shell, is_shell);
  writer->ring (writer->overlay, points, n, writer->path);
}

/* Returns the area written. */
static double
write_polygon (RingWriter *writer, const GEOSGeometry *polygon)
{
  GEOSContextHandle_t geos = writer->overlay->geos;
  double area_m2 = 0;
  if (GEOSGeomTypeId_r (geos, polygon) != GEOS_POLYGON || !GEOSArea_r (geos, polygon, &area_m2) || area_m2 < SLIVER_M2)
    return 0;
  write_ring (writer, GEOSGetExteriorRing_r (geos, polygon), true);
  for (int i = 0; i < GEOSGetNumInteriorRings_r (geos, polygon); i++)
    write_ring (writer, GEOSGetInteriorRingN_r (geos, polygon, i), false);
  return area_m2;
}

/* The rings as polygons: each shell with the holes behind it. */
static GEOSGeometry *
outline_polygons (const Overlay *overlay, const Outline *rings, const bool *is_shell)
{
  g_autofree GEOSGeometry **polygons = g_new (GEOSGeometry *, rings->n_rings + 1),
                          **holes = g_new (GEOSGeometry *, rings->n_rings + 1);
  size_t n_polygons = 0;
  for (size_t r = 0; r < rings->n_rings;)
    {
      unsigned n_holes = 0;
      size_t shell = r++;
      for (; r < rings->n_rings && !is_shell[r]; r++)
        holes[n_holes++]
            = overlay_ring (overlay, rings->points + rings->ring_starts[r], rings->ring_starts[r + 1] - rings->ring_starts[r]);
      polygons[n_polygons++]
          = GEOSGeom_createPolygon_r (overlay->geos,
                                      overlay_ring (overlay, rings->points + rings->ring_starts[shell],
                                                    rings->ring_starts[shell + 1] - rings->ring_starts[shell]),
                                      holes, n_holes);
    }
  return GEOSGeom_createCollection_r (overlay->geos, GEOS_MULTIPOLYGON, polygons, (unsigned)n_polygons);
}

/* Is what was written valid as flattened, and as large as it should be? */
static bool
is_sound (const RingWriter *writer, double area_m2)
{
  Outline *rings = path_flatten (writer->path, false, FLATTEN_TOLERANCE_M);
  double written_m2 = 0;
  bool is_sound = rings->n_rings == writer->is_shell->len;
  for (size_t r = 0; is_sound && r < rings->n_rings; r++)
    is_sound = rings->ring_starts[r + 1] - rings->ring_starts[r] >= 3;
  GEOSGeometry *polygons = is_sound ? outline_polygons (writer->overlay, rings, (const bool *)writer->is_shell->data) : NULL;
  if (polygons)
    {
      is_sound = GEOSisValid_r (writer->overlay->geos, polygons) == 1
                 && GEOSArea_r (writer->overlay->geos, polygons, &written_m2) == 1
                 && fabs (written_m2 - area_m2) <= writer->drift_m2;
      GEOSGeom_destroy_r (writer->overlay->geos, polygons);
    }
  outline_free (rings);
  return is_sound;
}

static bool
write_path (Overlay *overlay, const GEOSGeometry *polygons, OverlayRing ring, Path *path)
{
  RingWriter writer = { .overlay = overlay, .ring = ring, .path = path };
  double area_m2 = 0;
  writer.is_shell = g_array_new (FALSE, FALSE, sizeof (bool));
  for (int i = 0; i < GEOSGetNumGeometries_r (overlay->geos, polygons); i++)
    area_m2 += write_polygon (&writer, GEOSGetGeometryN_r (overlay->geos, polygons, i));
  bool is_good = is_sound (&writer, area_m2);
  g_array_unref (writer.is_shell);
  return is_good;
}

void
overlay_path (Overlay *overlay, const GEOSGeometry *polygons, OverlayRing ring, Path *path)
{
  if (write_path (overlay, polygons, ring, path))
    return;
  /* Curves came too near each other: the corners they were flattened to are valid on the grid. */
  path_clear (path);
  write_path (overlay, polygons, plain_ring, path);
}

const Part *
overlay_part (Overlay *overlay, const Part *area, const GEOSGeometry *polygons, OverlayRing ring)
{
  Part *changed = part_copy (area);
  path_clear (&changed->path);
  overlay_path (overlay, polygons, ring, &changed->path);
  if (changed->path.n_segs > 0)
    return part_seal (changed);
  part_unref (changed);
  return NULL;
}
