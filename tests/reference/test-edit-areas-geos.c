// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Areas worked on together, beside GEOS asked for the same of their flattened outlines: areas agree within what flattening may take, and every
 * outline that comes out is valid to GEOS. The blobs are random; some of their outlines cross themselves.
 */
#include "edit.h"
#include "suite.h"

#include <geos_c.h>
#include <stdint.h>

#define N_CASES 300
#define MOST_NODES 14
/* Two flattenings, a crossing beside its chords and rounding, for each metre of edge; and what a sliver left out may have. */
#define DRIFT_M (2.5 * FLATTEN_TOLERANCE_M)
#define SLIVERS_M2 0.02
/* Two flattenings, a fit and rounding. */
#define APART_M (3.5 * FLATTEN_TOLERANCE_M)

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

/* A smooth closed curve about a place; `tangle` 0 gives a simple one, 1 puts its nodes anywhere. */
static const Part *
blob (uint64_t *state, Vec2 middle, double size_m, double tangle)
{
  Vec2 points[MOST_NODES];
  size_t n = 4 + (size_t)(next_random (state) * (MOST_NODES - 4));
  for (size_t i = 0; i < n; i++)
    {
      double angle = 2 * PI * ((double)i / (double)n + tangle * next_random (state));
      double r = size_m * (0.5 + 0.5 * next_random (state));
      points[i] = vec2 (middle.x + r * cos (angle), middle.y + r * sin (angle));
    }
  Part *part = part_new (KIND_BUNKER);
  part->even_odd = next_random (state) < 0.3;
  path_move_to (&part->path, points[0]);
  for (size_t i = 0; i < n; i++)
    {
      Vec2 before = points[(i + n - 1) % n], from = points[i], to = points[(i + 1) % n], after = points[(i + 2) % n];
      if (next_random (state) < 0.2)
        path_line_to (&part->path, to);
      else
        path_cubic_to (&part->path, vec2_add (from, vec2_scale (vec2_sub (to, before), 1.0 / 6)),
                       vec2_sub (to, vec2_scale (vec2_sub (after, from), 1.0 / 6)), to);
    }
  path_close (&part->path);
  return part_seal (part);
}

static Hole *
hole_of (const Part **parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, parts, n_parts, NULL);
}

/* Two blobs that mostly meet. */
static Hole *
pair (uint64_t *state, int i)
{
  double tangle = i % 3 == 2 ? 0.15 : 0;
  double right_m = 30 * next_random (state), up_m = 30 * next_random (state);
  const Part *parts[2];
  parts[0] = blob (state, vec2 (0, 0), 20, tangle);
  parts[1] = blob (state, vec2 (right_m, up_m), 20, 0);
  return hole_of (parts, 2);
}

/* ---- the same in GEOS ---- */

static GEOSGeometry *
ring_of (const Outline *outline, size_t r)
{
  size_t first = outline->ring_starts[r], n = outline->ring_starts[r + 1] - first;
  GEOSCoordSequence *coordinates = GEOSCoordSeq_create_r (geos, (unsigned)n + 1, 2);
  for (size_t i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (geos, coordinates, (unsigned)i, outline->points[first + i % n].x, outline->points[first + i % n].y);
  return GEOSGeom_createLinearRing_r (geos, coordinates);
}

/* Faces between the edges, those that the fill rule counts in, united. */
static GEOSGeometry *
region_of (const Part *part)
{
  const Outline *outline = part->outline;
  g_autofree GEOSGeometry **rings = g_new (GEOSGeometry *, outline->n_rings);
  for (size_t r = 0; r < outline->n_rings; r++)
    rings[r] = ring_of (outline, r);
  GEOSGeometry *lines = GEOSGeom_createCollection_r (geos, GEOS_MULTILINESTRING, rings, (unsigned)outline->n_rings);
  GEOSGeometry *noded = GEOSUnaryUnion_r (geos, lines),
               *faces = GEOSPolygonize_r (geos, (const GEOSGeometry *const *)&noded, 1);
  int n_faces = GEOSGetNumGeometries_r (geos, faces);
  unsigned n_inside = 0;
  g_autofree GEOSGeometry **inside = g_new (GEOSGeometry *, n_faces + 1);
  for (int i = 0; i < n_faces; i++)
    {
      GEOSGeometry *place = GEOSPointOnSurface_r (geos, GEOSGetGeometryN_r (geos, faces, i));
      Vec2 at;
      GEOSGeomGetX_r (geos, place, &at.x);
      GEOSGeomGetY_r (geos, place, &at.y);
      GEOSGeom_destroy_r (geos, place);
      if (outline_contains (outline, at))
        inside[n_inside++] = GEOSGeom_clone_r (geos, GEOSGetGeometryN_r (geos, faces, i));
    }
  GEOSGeometry *all = GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, inside, n_inside),
               *region = GEOSUnaryUnion_r (geos, all);
  GEOSGeometry *done[] = { lines, noded, faces, all };
  for (size_t i = 0; i < G_N_ELEMENTS (done); i++)
    GEOSGeom_destroy_r (geos, done[i]);
  return region;
}

static double
area_and_edge (GEOSGeometry *geometry, double *edge_m)
{
  double area_m2 = 0, length_m = 0;
  ck_assert_ptr_nonnull (geometry);
  ck_assert_int_eq (GEOSArea_r (geos, geometry, &area_m2), 1);
  ck_assert_int_eq (GEOSLength_r (geos, geometry, &length_m), 1);
  *edge_m += length_m;
  GEOSGeom_destroy_r (geos, geometry);
  return area_m2;
}

/* Valid to GEOS: rings wound one way are shells, those wound the other way are holes of the shell before them. */
static void
expect_valid (const Part *part)
{
  const Outline *outline = part->outline;
  g_autofree GEOSGeometry **polygons = g_new (GEOSGeometry *, outline->n_rings + 1),
                          **holes = g_new (GEOSGeometry *, outline->n_rings + 1);
  unsigned n_polygons = 0;
  for (size_t r = 0; r < outline->n_rings;)
    {
      /* A hole lies in the ring before it and runs against it: a point inside the hole is outside the two together. */
      size_t shell = r++;
      unsigned n_holes = 0;
      for (; r < outline->n_rings; r++)
        {
          GEOSGeometry *hole = GEOSGeom_createPolygon_r (geos, ring_of (outline, r), NULL, 0),
                       *place = GEOSPointOnSurface_r (geos, hole);
          GEOSGeometry *around = GEOSGeom_createPolygon_r (geos, ring_of (outline, shell), NULL, 0);
          Vec2 at;
          GEOSGeomGetX_r (geos, place, &at.x);
          GEOSGeomGetY_r (geos, place, &at.y);
          bool is_hole = GEOSContains_r (geos, around, place) == 1 && !outline_contains (outline, at);
          GEOSGeom_destroy_r (geos, hole);
          GEOSGeom_destroy_r (geos, place);
          GEOSGeom_destroy_r (geos, around);
          if (!is_hole)
            break;
          holes[n_holes++] = ring_of (outline, r);
        }
      polygons[n_polygons++] = GEOSGeom_createPolygon_r (geos, ring_of (outline, shell), holes, n_holes);
    }
  GEOSGeometry *all = GEOSGeom_createCollection_r (geos, GEOS_MULTIPOLYGON, polygons, n_polygons);
  char *reason = GEOSisValidReason_r (geos, all);
  ck_assert_msg (GEOSisValid_r (geos, all) == 1, "%s", reason);
  GEOSFree_r (geos, reason);
  GEOSGeom_destroy_r (geos, all);
}

static double
area_of (const Part *part)
{
  double area_m2 = 0;
  ck_assert (outline_measure (part->outline, &area_m2, NULL));
  return area_m2;
}

static bool
has_curves (const Part *part)
{
  for (size_t i = 0; i < part->path.n_segs; i++)
    if (part->path.segs[i].kind == SEG_CUBIC)
      return true;
  return false;
}

/* ---- tests ---- */

static const size_t both[] = { 0, 1 };

START_TEST (united_areas_are_those_of_geos)
{
  uint64_t state = 88172645463325252u;
  int n_straight = 0;
  for (int i = 0; i < N_CASES; i++)
    {
      g_autoptr (Hole) hole = pair (&state, i);
      g_autoptr (Hole) made = edit_unite (hole, both, 2, NULL);
      ck_assert_ptr_nonnull (made);
      GEOSGeometry *a = region_of (hole_part (hole, 0)), *b = region_of (hole_part (hole, 1));
      double edge_m = 0, expected_m2 = area_and_edge (GEOSUnion_r (geos, a, b), &edge_m),
             area_m2 = area_of (hole_part (made, 0));
      expect_valid (hole_part (made, 0));
      n_straight += !has_curves (hole_part (made, 0));
      ck_assert_double_eq_tol (area_m2, expected_m2, DRIFT_M * edge_m + SLIVERS_M2);
      double a_m2 = area_and_edge (a, &edge_m), b_m2 = area_and_edge (b, &edge_m);
      ck_assert_double_ge (area_m2, fmax (a_m2, b_m2) - DRIFT_M * edge_m);
    }
  ck_assert_int_le (n_straight, N_CASES / 50); /* where curves put back would touch, corners remain; that is rare */
}
END_TEST

START_TEST (differences_are_those_of_geos_and_add_up)
{
  uint64_t state = 362436069362436069u;
  for (int i = 0; i < N_CASES; i++)
    {
      g_autoptr (Hole) hole = pair (&state, i);
      g_autoptr (Hole) made = edit_subtract (hole, both, 2, NULL);
      ck_assert_ptr_nonnull (made);
      GEOSGeometry *a = region_of (hole_part (hole, 0)), *b = region_of (hole_part (hole, 1));
      double edge_m = 0, left_m2 = area_and_edge (GEOSDifference_r (geos, a, b), &edge_m);
      double common_m2 = area_and_edge (GEOSIntersection_r (geos, a, b), &edge_m), area_m2 = 0;
      if (hole_n_parts (made) == 2)
        {
          if (hole_part (made, 0) != hole_part (hole, 0)) /* not met at all: as it was */
            expect_valid (hole_part (made, 0));
          area_m2 = area_of (hole_part (made, 0));
        }
      ck_assert_double_eq_tol (area_m2, left_m2, DRIFT_M * edge_m + SLIVERS_M2);
      ck_assert_double_eq_tol (area_m2 + common_m2, area_and_edge (a, &edge_m), DRIFT_M * edge_m + SLIVERS_M2);
      GEOSGeom_destroy_r (geos, b);
    }
}
END_TEST

START_TEST (cut_pieces_are_valid_and_add_up_to_the_whole)
{
  uint64_t state = 521288629521288629u;
  int n_cut = 0;
  for (int i = 0; i < N_CASES; i++)
    {
      g_autoptr (Hole) hole = pair (&state, i);
      double from_y = 60 * next_random (&state) - 30, to_y = 60 * next_random (&state) - 30;
      g_autoptr (Hole) made = edit_cut (hole, both, 2, vec2 (-60, from_y), vec2 (60, to_y), NULL);
      if (!made)
        continue;
      n_cut++;
      double edge_m = 0, sum_m2 = 0, whole_m2 = 0;
      for (size_t k = 0; k < 2; k++)
        whole_m2 += area_and_edge (region_of (hole_part (hole, k)), &edge_m);
      for (size_t k = 0; k < hole_n_parts (made); k++)
        {
          if (hole_part (made, k) != hole_part (hole, 0) && hole_part (made, k) != hole_part (hole, 1))
            expect_valid (hole_part (made, k));
          sum_m2 += area_of (hole_part (made, k));
        }
      ck_assert_double_eq_tol (sum_m2, whole_m2, DRIFT_M * (edge_m + 4 * 120) + SLIVERS_M2);
    }
  ck_assert_int_gt (n_cut, N_CASES / 2);
}
END_TEST

START_TEST (tangled_outlines_are_uncrossed_into_what_they_cover)
{
  uint64_t state = 123456789123456789u;
  for (int i = 0; i < N_CASES; i++)
    {
      const Part *parts[] = { blob (&state, vec2 (0, 0), 30, 0.5) };
      g_autoptr (Hole) hole = hole_of (parts, 1);
      GError *error = NULL;
      g_autoptr (Hole) made = edit_mend (hole, MEND_UNCROSS, 0, &error);
      ck_assert_msg (made != NULL, "%s", error ? error->message : "no message");
      double edge_m = 0, expected_m2 = area_and_edge (region_of (parts[0]), &edge_m);
      expect_valid (hole_part (made, 0));
      ck_assert_double_eq_tol (area_of (hole_part (made, 0)), expected_m2, DRIFT_M * edge_m + SLIVERS_M2);
    }
}
END_TEST

/* How far the outlines' corners are from each other's edges where they are farthest. */
static double
farthest_apart (const Part *part, const GEOSGeometry *region)
{
  GEOSGeometry *edge = GEOSBoundary_r (geos, region);
  double farthest_m = 0, distance_m = NAN;
  for (size_t i = 0; i < part->outline->n_points; i++)
    {
      GEOSGeometry *place = GEOSGeom_createPointFromXY_r (geos, part->outline->points[i].x, part->outline->points[i].y);
      ck_assert_int_eq (GEOSDistance_r (geos, edge, place, &distance_m), 1);
      farthest_m = fmax (farthest_m, distance_m);
      GEOSGeom_destroy_r (geos, place);
    }
  for (int k = 0; k < GEOSGetNumGeometries_r (geos, edge); k++)
    {
      const GEOSCoordSequence *corners = GEOSGeom_getCoordSeq_r (geos, GEOSGetGeometryN_r (geos, edge, k));
      unsigned n = 0;
      GEOSCoordSeq_getSize_r (geos, corners, &n);
      for (unsigned i = 0; i < n; i++)
        {
          Vec2 at;
          GEOSCoordSeq_getXY_r (geos, corners, i, &at.x, &at.y);
          farthest_m = fmax (farthest_m, outline_distance (part->outline, at, NULL));
        }
    }
  GEOSGeom_destroy_r (geos, edge);
  return farthest_m;
}

START_TEST (grown_and_shrunk_areas_are_the_buffers_of_geos)
{
  uint64_t state = 123456789123456789u;
  int n_made = 0, n_straight = 0, n_apart = 0;
  for (int i = 0; i < N_CASES; i++)
    {
      const Part *part = blob (&state, vec2 (0, 0), 20, i % 3 == 2 ? 0.15 : 0);
      g_autoptr (Hole) hole = hole_of (&part, 1);
      double distance_m = 16 * next_random (&state) - 8, edge_m = 0, expected_m2 = 0;
      g_autoptr (Hole) made = edit_offset (hole, both, 1, distance_m, NULL);
      GEOSGeometry *region = region_of (hole_part (hole, 0)), *buffer = GEOSBuffer_r (geos, region, distance_m, 60);
      GEOSGeom_destroy_r (geos, region);
      if (!made) /* nothing is left */
        {
          ck_assert_double_lt (area_and_edge (buffer, &edge_m), SLIVERS_M2 + DRIFT_M * edge_m);
          continue;
        }
      const Part *moved = hole_part (made, 0);
      n_made++;
      n_straight += !has_curves (moved);
      n_apart += farthest_apart (moved, buffer) > APART_M;
      expect_valid (moved);
      expected_m2 = area_and_edge (buffer, &edge_m);
      ck_assert_double_eq_tol (area_of (moved), expected_m2, DRIFT_M * edge_m + SLIVERS_M2);
    }
  ck_assert_int_ge (n_made, N_CASES * 3 / 4);
  ck_assert_int_le (n_straight, n_made / 50);
  ck_assert_int_le (n_apart, n_made / 100); /* a piece or a gap that is a sliver is left out, however long it is */
}
END_TEST

START_TEST (every_sketch_is_valid)
{
  for (double length_m = 60; length_m <= 800; length_m += 74)
    for (double angle = 5; angle <= 90; angle += 17)
      for (double width_m = 10; width_m <= 100; width_m += 22.5)
        {
          HoleSketch sketch;
          hole_sketch_init (&sketch);
          sketch.length_m = length_m;
          sketch.bend = BEND_LEFT;
          sketch.bend_angle_rad = angle * PI / 180;
          sketch.fairway_width_m = width_m;
          g_autoptr (Hole) hole = edit_sketch_hole (&sketch, NULL);
          ck_assert_ptr_nonnull (hole);
          for (size_t i = 0; i < hole_n_parts (hole); i++)
            if (hole_part (hole, i)->outline)
              expect_valid (hole_part (hole, i));
        }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-areas-geos");
  TCase *areas = tcase_create ("areas");
  tcase_add_unchecked_fixture (areas, open_geos, close_geos);
  tcase_set_timeout (areas, 120);
  tcase_add_test (areas, united_areas_are_those_of_geos);
  tcase_add_test (areas, differences_are_those_of_geos_and_add_up);
  tcase_add_test (areas, cut_pieces_are_valid_and_add_up_to_the_whole);
  tcase_add_test (areas, tangled_outlines_are_uncrossed_into_what_they_cover);
  tcase_add_test (areas, grown_and_shrunk_areas_are_the_buffers_of_geos);
  tcase_add_test (areas, every_sketch_is_valid);
  suite_add_tcase (suite, areas);
  return suite;
}
