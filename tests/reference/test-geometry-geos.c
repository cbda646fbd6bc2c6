// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Geometry beside GEOS: thousands of random and degenerate rings. GEOS nodes a ring's edges and builds the faces between them; a
 * face belongs to the area when the angles under which the ring is seen from inside it add up to the right number of turns.
 * Neither shares anything with the sweep, the rays and the grid that are tried here.
 * Of some ten thousand lattice rings GEOS nodes one so badly that faces get lost; none of those that these seeds make.
 */
#include "geometry.h"
#include "suite.h"

#include <geos_c.h>
#include <stdint.h>
#include <stdlib.h>

#define N_RINGS 1500
#define N_LINES 12
#define N_POINTS 40
#define MOST_VERTICES 40
/* Side of the box that everything random lies in. */
#define SIDE_M 100.0
/* Points nearer to an edge may fall to either side. */
#define EDGE_M 1e-9
/* Rounding over a hundred metres, some dozens of crossings. */
#define LENGTH_TOLERANCE_M 1e-8
#define AREA_TOLERANCE_M2 1e-8
/* Noding an edge that is run along twice leaves slivers as wide as rounding, which are no faces of the exact ring. */
#define SLIVER_M2 1e-9
/*
 * Rounded crossings also part what runs along the line from the line. So GEOS gets the region thickened by a little where lines do;
 * the flattest angle between lattice lines, some 1/100, makes that a hundred times longer along the line, some dozens of times.
 */
#define THICKER_M 1e-7
#define THICKER_TOLERANCE_M 1e-4

typedef enum
{
  RING_STAR,    /* simple */
  RING_TANGLED, /* every edge anywhere */
  RING_LATTICE, /* few whole coordinates: doubled points and edges, vertices on edges, crossings in vertices */
  N_SHAPES
} Shape;

static GEOSContextHandle_t geos;

static void
open_geos (void)
{
  geos = GEOS_init_r ();
}

static void
close_geos (void)
{
  GEOS_finish_r (geos);
}

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (double)(*state >> 11) * 0x1p-53;
}

static Vec2
next_lattice (uint64_t *state)
{
  return vec2 (10 * floor (9 * next_random (state)), 10 * floor (9 * next_random (state)));
}

static Outline *
make_ring (uint64_t *state, Shape shape, bool even_odd)
{
  Vec2 points[MOST_VERTICES];
  size_t n = 3 + (size_t)(next_random (state) * (shape == RING_STAR ? MOST_VERTICES - 3 : 12));
  for (size_t i = 0; i < n; i++)
    {
      double radius = SIDE_M * (0.1 + 0.4 * next_random (state)), angle = 2 * PI * (double)i / (double)n;
      if (shape == RING_STAR)
        points[i] = vec2 (SIDE_M / 2 + radius * cos (angle), SIDE_M / 2 + radius * sin (angle));
      else if (shape == RING_TANGLED)
        points[i] = vec2 (SIDE_M * next_random (state), SIDE_M * next_random (state));
      else
        points[i] = next_lattice (state);
    }
  return outline_new (points, &n, 1, even_odd);
}

/* ---- the same in GEOS ---- */

static GEOSGeometry *
make_line (const Vec2 *points, size_t n_points, bool closed)
{
  unsigned n = (unsigned)n_points + closed;
  GEOSCoordSequence *coordinates = GEOSCoordSeq_create_r (geos, n, 2);
  for (unsigned i = 0; i < n; i++)
    GEOSCoordSeq_setXY_r (geos, coordinates, i, points[i % n_points].x, points[i % n_points].y);
  GEOSGeometry *line = GEOSGeom_createLineString_r (geos, coordinates);
  ck_assert_ptr_nonnull (line);
  return line;
}

/* Turns of the ring about a point, from the angles its edges are seen under. */
static int
count_turns (const Outline *outline, Vec2 point)
{
  double sum = 0;
  for (size_t i = 0; i < outline->n_points; i++)
    {
      Vec2 a = vec2_sub (outline->points[i], point);
      Vec2 b = vec2_sub (outline->points[(i + 1) % outline->n_points], point);
      sum += atan2 (vec2_cross (a, b), vec2_dot (a, b));
    }
  return (int)lround (sum / (2 * PI));
}

static bool
face_is_inside (const Outline *outline, const GEOSGeometry *face)
{
  double area = 0;
  ck_assert_int_eq (GEOSArea_r (geos, face, &area), 1);
  if (area < SLIVER_M2)
    return false;
  GEOSGeometry *place = GEOSPointOnSurface_r (geos, face);
  Vec2 point;
  ck_assert_int_eq (GEOSGeomGetX_r (geos, place, &point.x), 1);
  ck_assert_int_eq (GEOSGeomGetY_r (geos, place, &point.y), 1);
  GEOSGeom_destroy_r (geos, place);
  int turns = count_turns (outline, point);
  return outline->even_odd ? turns % 2 != 0 : turns != 0;
}

/* What the outline's only ring encloses under its fill rule. */
static GEOSGeometry *
make_region (const Outline *outline)
{
  GEOSGeometry *ring = make_line (outline->points, outline->n_points, true);
  GEOSGeometry *noded = GEOSUnaryUnion_r (geos, ring);
  ck_assert_ptr_nonnull (noded);
  GEOSGeometry *faces = GEOSPolygonize_r (geos, (const GEOSGeometry *const *)&noded, 1);
  ck_assert_ptr_nonnull (faces);
  int n_faces = GEOSGetNumGeometries_r (geos, faces), n_inside = 0;
  GEOSGeometry **inside = malloc ((size_t)(n_faces + 1) * sizeof *inside);
  for (int i = 0; i < n_faces; i++)
    if (face_is_inside (outline, GEOSGetGeometryN_r (geos, faces, i)))
      inside[n_inside++] = GEOSGeom_clone_r (geos, GEOSGetGeometryN_r (geos, faces, i));
  GEOSGeometry *all = GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, inside, (unsigned)n_inside);
  GEOSGeometry *region = GEOSUnaryUnion_r (geos, all);
  ck_assert_ptr_nonnull (region);
  free (inside);
  GEOSGeom_destroy_r (geos, all);
  GEOSGeom_destroy_r (geos, faces);
  GEOSGeom_destroy_r (geos, noded);
  GEOSGeom_destroy_r (geos, ring);
  return region;
}

static double
geos_crossing_length (const GEOSGeometry *region, Vec2 from, Vec2 to)
{
  GEOSGeometry *line = make_line ((Vec2[]){ from, to }, 2, false);
  GEOSGeometry *common = GEOSIntersection_r (geos, line, region);
  double length = 0;
  ck_assert_ptr_nonnull (common);
  ck_assert_int_eq (GEOSLength_r (geos, common, &length), 1);
  GEOSGeom_destroy_r (geos, common);
  GEOSGeom_destroy_r (geos, line);
  return length;
}

static double
crossing_length (const Outline *outline, Vec2 from, Vec2 to)
{
  IntervalList list = { 0 };
  outline_crossings (outline, from, vec2_unit (vec2_sub (to, from)), vec2_distance (from, to), &list);
  double length = 0;
  for (size_t i = 0; i < list.n_items; i++)
    length += list.items[i].leave_m - list.items[i].enter_m;
  interval_list_clear (&list);
  return length;
}

/* ---- tests ---- */

/* One ring of each shape and each fill rule in turn, and what GEOS makes of it. */
static Outline *
next_case (uint64_t *state, int i, GEOSGeometry **region)
{
  Outline *outline = make_ring (state, (Shape)(i % N_SHAPES), i / N_SHAPES % 2 == 0);
  *region = make_region (outline);
  return outline;
}

START_TEST (areas_and_centroids_are_those_of_geos)
{
  uint64_t state = 88172645463325252u;
  int n_empty = 0;
  for (int i = 0; i < N_RINGS; i++)
    {
      GEOSGeometry *region;
      Outline *outline = next_case (&state, i, &region);
      double expected, area = 0;
      Vec2 centroid;
      ck_assert_int_eq (GEOSArea_r (geos, region, &expected), 1);
      bool has_area = outline_measure (outline, &area, &centroid);
      ck_assert_msg (fabs (area - expected) < AREA_TOLERANCE_M2, "ring %d: %.12g m2, GEOS %.12g m2", i, area, expected);
      n_empty += !has_area;
      if (expected > 1)
        {
          GEOSGeometry *place = GEOSGetCentroid_r (geos, region);
          double x, y;
          GEOSGeomGetX_r (geos, place, &x);
          GEOSGeomGetY_r (geos, place, &y);
          ck_assert_msg (vec2_distance (centroid, vec2 (x, y)) < LENGTH_TOLERANCE_M, "ring %d: centroid", i);
          GEOSGeom_destroy_r (geos, place);
        }
      GEOSGeom_destroy_r (geos, region);
      outline_free (outline);
    }
  ck_assert_int_gt (n_empty, 0); /* the lattice holds rings without area */
  ck_assert_int_lt (n_empty, N_RINGS / 10);
}
END_TEST

START_TEST (points_lie_where_geos_says)
{
  uint64_t state = 362436069362436069u;
  int n_asked = 0;
  for (int i = 0; i < N_RINGS; i++)
    {
      GEOSGeometry *region;
      Outline *outline = next_case (&state, i, &region);
      AreaIndex *index = area_index_new ((const Outline *const *)&outline, 1);
      const GEOSPreparedGeometry *prepared = GEOSPrepare_r (geos, region);
      for (int k = 0; k < N_POINTS; k++)
        {
          Vec2 p = vec2 (SIDE_M * next_random (&state), SIDE_M * next_random (&state));
          if (k % 4 == 0) /* on the lines through the lattice's points */
            p.y = 10 * floor (p.y / 10);
          if (outline_distance (outline, p, NULL) < EDGE_M)
            continue;
          GEOSGeometry *point = GEOSGeom_createPointFromXY_r (geos, p.x, p.y);
          int expected = GEOSPreparedContains_r (geos, prepared, point);
          ck_assert_msg (outline_contains (outline, p) == (expected == 1), "ring %d, point (%.17g, %.17g)", i, p.x, p.y);
          ck_assert_int_eq (area_index_top (index, p), expected == 1 ? 0 : -1);
          GEOSGeom_destroy_r (geos, point);
          n_asked++;
        }
      GEOSPreparedGeom_destroy_r (geos, prepared);
      GEOSGeom_destroy_r (geos, region);
      area_index_free (index);
      outline_free (outline);
    }
  ck_assert_int_gt (n_asked, N_RINGS * N_POINTS * 9 / 10);
}
END_TEST

START_TEST (lines_anywhere_cross_areas_as_long_as_geos_says)
{
  uint64_t state = 521288629521288629u;
  for (int i = 0; i < N_RINGS; i++)
    {
      GEOSGeometry *region;
      Outline *outline = next_case (&state, i, &region);
      for (int k = 0; k < N_LINES; k++)
        {
          Vec2 from = vec2 (SIDE_M * next_random (&state), SIDE_M * next_random (&state));
          Vec2 to = vec2 (SIDE_M * next_random (&state), SIDE_M * next_random (&state));
          double length = crossing_length (outline, from, to), expected = geos_crossing_length (region, from, to);
          ck_assert_msg (fabs (length - expected) < LENGTH_TOLERANCE_M, "ring %d, line %d: %.12g m, GEOS %.12g m", i, k, length,
                         expected);
        }
      GEOSGeom_destroy_r (geos, region);
      outline_free (outline);
    }
}
END_TEST

START_TEST (lines_through_vertices_and_along_edges_cross_as_long_as_geos_says)
{
  uint64_t state = 88675123088675123u;
  int n_along = 0;
  for (int i = 0; i < N_RINGS; i++)
    {
      Outline *outline = make_ring (&state, RING_LATTICE, i % 2);
      GEOSGeometry *exact = make_region (outline);
      GEOSGeometry *region = GEOSBuffer_r (geos, exact, THICKER_M, 2);
      ck_assert_ptr_nonnull (region);
      GEOSGeom_destroy_r (geos, exact);
      for (int k = 0; k < N_LINES; k++)
        {
          Vec2 from = next_lattice (&state), to = next_lattice (&state);
          if (k % 3 == 0) /* along an edge and on beyond it */
            {
              Vec2 a = outline->points[(size_t)k % outline->n_points], b = outline->points[(size_t)(k + 1) % outline->n_points];
              from = vec2_sub (a, vec2_sub (b, a));
              to = vec2_add (b, vec2_sub (b, a));
              n_along++;
            }
          if (vec2_distance (from, to) == 0)
            continue;
          double length = crossing_length (outline, from, to);
          double expected = geos_crossing_length (region, from, to);
          ck_assert_msg (fabs (length - expected) < THICKER_TOLERANCE_M,
                         "ring %d, line (%g, %g) to (%g, %g): %.12g m, GEOS %.12g m", i, from.x, from.y, to.x, to.y, length,
                         expected);
        }
      GEOSGeom_destroy_r (geos, region);
      outline_free (outline);
    }
  ck_assert_int_eq (n_along, N_RINGS * N_LINES / 3);
}
END_TEST

START_TEST (distances_to_the_edge_are_those_of_geos)
{
  uint64_t state = 1812433253u;
  for (int i = 0; i < N_RINGS; i++)
    {
      Outline *outline = make_ring (&state, (Shape)(i % N_SHAPES), false);
      GEOSGeometry *ring = make_line (outline->points, outline->n_points, true);
      for (int k = 0; k < 10; k++)
        {
          Vec2 p = vec2 (2 * SIDE_M * next_random (&state) - 50, 2 * SIDE_M * next_random (&state) - 50), nearest;
          GEOSGeometry *point = GEOSGeom_createPointFromXY_r (geos, p.x, p.y);
          double expected, distance = outline_distance (outline, p, &nearest);
          ck_assert_int_eq (GEOSDistance_r (geos, ring, point, &expected), 1);
          ck_assert_double_eq_tol (distance, expected, LENGTH_TOLERANCE_M);
          ck_assert_double_eq_tol (vec2_distance (p, nearest), distance, LENGTH_TOLERANCE_M);
          GEOSGeom_destroy_r (geos, point);
        }
      GEOSGeom_destroy_r (geos, ring);
      outline_free (outline);
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("geometry-geos");
  TCase *reference = tcase_create ("GEOS");
  tcase_add_unchecked_fixture (reference, open_geos, close_geos);
  tcase_add_test (reference, areas_and_centroids_are_those_of_geos);
  tcase_add_test (reference, points_lie_where_geos_says);
  tcase_add_test (reference, lines_anywhere_cross_areas_as_long_as_geos_says);
  tcase_add_test (reference, lines_through_vertices_and_along_edges_cross_as_long_as_geos_says);
  tcase_add_test (reference, distances_to_the_edge_are_those_of_geos);
  suite_add_tcase (suite, reference);
  return suite;
}
