// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Faces beside GEOS asked for the same: each area less the union of those on top of it. The drawings are random stacks that make it hard: corners on a coarse
 * lattice, so that edges coincide, corners touch edges and three edges meet in a point; the same turned, so that they only nearly do; and outlines that cross themselves.
 */
#include "hole.h"
#include "suite.h"

#include <geos_c.h>
#include <math.h>
#include <stdint.h>

#define N_CASES 400
#define N_AREAS 9
#define MOST_CORNERS 8
#define LATTICE 7
/* Rounding of corners that nearly coincide, along all edges of a case. */
#define ROUNDED_M2 1e-8
#define ROUNDED_CHANCE 1e-9

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

/* How a case is drawn: corners on the lattice or anywhere, then turned. */
typedef struct
{
  bool is_lattice;
  double turn_rad;
} Manner;

static Vec2
corner (uint64_t *state, Manner manner)
{
  double x = LATTICE * next_random (state), y = LATTICE * next_random (state);
  if (manner.is_lattice)
    {
      x = floor (x);
      y = floor (y);
    }
  double c = cos (manner.turn_rad), s = sin (manner.turn_rad);
  return vec2 (c * x - s * y, s * x + c * y);
}

/* Mostly boxes and triangles, some tangles, some of two rings. */
static const Part *
random_area (uint64_t *state, Manner manner)
{
  Part *part = part_new (KIND_BUNKER);
  part->even_odd = next_random (state) < 0.5;
  int n_rings = next_random (state) < 0.2 ? 2 : 1;
  for (int r = 0; r < n_rings; r++)
    {
      double shape = next_random (state);
      if (shape < 0.5)
        {
          Vec2 a = corner (state, (Manner){ manner.is_lattice, 0 }), b = corner (state, (Manner){ manner.is_lattice, 0 });
          double c = cos (manner.turn_rad), s = sin (manner.turn_rad);
          const Vec2 box[4] = { a, { b.x, a.y }, b, { a.x, b.y } };
          for (int i = 0; i < 4; i++)
            {
              Vec2 at = vec2 (c * box[i].x - s * box[i].y, s * box[i].x + c * box[i].y);
              (i == 0 ? path_move_to : path_line_to) (&part->path, at);
            }
        }
      else
        for (int i = 0, n = shape < 0.8 ? 3 : 4 + (int)(next_random (state) * (MOST_CORNERS - 3)); i < n; i++)
          (i == 0 ? path_move_to : path_line_to) (&part->path, corner (state, manner));
      path_close (&part->path);
    }
  return part_seal (part);
}

/* What is inside of the outline, as its fill rule says, by GEOS: cut along its own edges, the pieces kept whose middle is inside. */
static GEOSGeometry *
region_of (const Outline *outline)
{
  GEOSGeometry *rings[4], *inside[64];
  unsigned n_rings = 0, n_inside = 0;
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t first = outline->ring_starts[r], n = outline->ring_starts[r + 1] - first;
      GEOSCoordSequence *places = GEOSCoordSeq_create_r (geos, (unsigned)n + 1, 2);
      for (size_t i = 0; i <= n; i++)
        GEOSCoordSeq_setXY_r (geos, places, (unsigned)i, outline->points[first + i % n].x, outline->points[first + i % n].y);
      rings[n_rings++] = GEOSGeom_createLineString_r (geos, places);
    }
  GEOSGeometry *lines = GEOSGeom_createCollection_r (geos, GEOS_GEOMETRYCOLLECTION, rings, n_rings);
  GEOSGeometry *noded = GEOSUnaryUnion_r (geos, lines);
  GEOSGeometry *pieces = GEOSPolygonize_r (geos, (const GEOSGeometry *const *)&noded, 1);
  for (int i = 0; i < GEOSGetNumGeometries_r (geos, pieces); i++)
    {
      const GEOSGeometry *piece = GEOSGetGeometryN_r (geos, pieces, i);
      GEOSGeometry *middle = GEOSPointOnSurface_r (geos, piece);
      Vec2 at;
      if (GEOSGeomGetX_r (geos, middle, &at.x) == 1 && GEOSGeomGetY_r (geos, middle, &at.y) == 1
          && outline_contains (outline, at))
        inside[n_inside++] = GEOSGeom_clone_r (geos, piece);
      GEOSGeom_destroy_r (geos, middle);
      ck_assert_uint_lt (n_inside, G_N_ELEMENTS (inside));
    }
  GEOSGeometry *all = GEOSGeom_createCollection_r (geos, GEOS_GEOMETRYCOLLECTION, inside, n_inside);
  GEOSGeometry *region = GEOSUnaryUnion_r (geos, all);
  GEOSGeom_destroy_r (geos, all);
  GEOSGeom_destroy_r (geos, pieces);
  GEOSGeom_destroy_r (geos, noded);
  GEOSGeom_destroy_r (geos, lines);
  ck_assert_ptr_nonnull (region);
  return region;
}

static double
face_m2 (const Outline *face)
{
  double twice = 0;
  for (size_t r = 0; r < face->n_rings; r++)
    for (size_t i = face->ring_starts[r], end = face->ring_starts[r + 1]; i < end; i++)
      twice += vec2_cross (face->points[i], face->points[i + 1 < end ? i + 1 : face->ring_starts[r]]);
  return twice / 2;
}

/* A point lies on the face of what is on top there, once, and on no other. */
static void
check_points (uint64_t *state, const Hole *hole, const Faces *faces, int number)
{
  for (int i = 0; i < 60; i++)
    {
      Vec2 at = vec2 (20 * next_random (state) - 10, 20 * next_random (state) - 10);
      int top = hole_area_at (hole, at);
      for (size_t k = 0; k < hole_n_areas (hole); k++)
        ck_assert_msg (outline_winding (faces_outline (faces, k), at) == (top == (int)k),
                       "case %d: %.17g %.17g lies on area %d, face %zu winds %d times about it", number, at.x, at.y, top, k,
                       outline_winding (faces_outline (faces, k), at));
    }
}

static void
check_chances (uint64_t *state, const Faces *faces, size_t n_areas, int number)
{
  double chances[N_AREAS + 1], sum = 0;
  Normal normal = { .mean = { 6 * next_random (state), 6 * next_random (state) }, .a = { 1.5, 0.2 }, .b = { -0.3, 2.5 } };
  ck_assert (faces_chances (faces, &normal, chances));
  for (size_t k = 0; k <= n_areas; k++)
    sum += chances[k];
  ck_assert_msg (fabs (sum - 1) < ROUNDED_CHANCE, "case %d: chances add up to %.17g", number, sum);
}

static Hole *
random_hole (uint64_t *state, Manner manner)
{
  const Part *parts[N_AREAS];
  for (int k = 0; k < N_AREAS; k++)
    parts[k] = random_area (state, manner);
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts, N_AREAS, NULL);
  hole_info_clear (&info);
  return hole;
}

/* What GEOS says is seen of each area. */
static void
measure_seen (const Hole *hole, double *seen_m2)
{
  GEOSGeometry *cover = GEOSGeom_createEmptyPolygon_r (geos);
  for (size_t k = N_AREAS; k-- > 0;)
    {
      GEOSGeometry *region = region_of (hole_part (hole, k)->outline), *seen = GEOSDifference_r (geos, region, cover);
      GEOSGeometry *more = GEOSUnion_r (geos, region, cover);
      ck_assert (seen != NULL && more != NULL);
      ck_assert_int_eq (GEOSArea_r (geos, seen, &seen_m2[k]), 1);
      GEOSGeom_destroy_r (geos, region);
      GEOSGeom_destroy_r (geos, seen);
      GEOSGeom_destroy_r (geos, cover);
      cover = more;
    }
  GEOSGeom_destroy_r (geos, cover);
}

/* GEOS is asked about the drawing before it is turned, which changes no area: of one where edges nearly coincide it cannot always tell. */
static void
check_case (uint64_t *state, Manner manner, int number)
{
  uint64_t same = *state;
  g_autoptr (Hole) straight = random_hole (&same, (Manner){ manner.is_lattice, 0 }), hole = random_hole (state, manner);
  g_autoptr (GError) error = NULL;
  const Faces *faces = hole_faces (hole, &error);
  ck_assert_msg (faces != NULL, "case %d: %s", number, error != NULL ? error->message : "");
  double seen_m2[N_AREAS];
  measure_seen (straight, seen_m2);
  for (size_t k = 0; k < N_AREAS; k++)
    {
      double area_m2 = face_m2 (faces_outline (faces, k));
      ck_assert_msg (fabs (area_m2 - seen_m2[k]) < ROUNDED_M2, "case %d, area %zu: %.12g m2, by GEOS %.12g", number, k, area_m2,
                     seen_m2[k]);
    }
  check_points (state, hole, faces, number);
  check_chances (state, faces, N_AREAS, number);
}

static void
check_cases (bool is_lattice, bool is_turned)
{
  uint64_t state = 88172645463325252u; /* the paper's seed */
  for (int i = 0; i < N_CASES; i++)
    check_case (&state, (Manner){ is_lattice, is_turned ? next_random (&state) : 0 }, i);
}

START_TEST (faces_of_areas_drawn_anywhere_are_those_of_geos)
{
  check_cases (false, false);
}
END_TEST

START_TEST (faces_of_areas_whose_edges_and_corners_coincide_are_those_of_geos)
{
  check_cases (true, false);
}
END_TEST

START_TEST (faces_of_areas_whose_edges_and_corners_nearly_coincide_are_those_of_geos)
{
  check_cases (true, true);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("faces-geos");
  TCase *stacks = tcase_create ("random stacks");
  tcase_set_timeout (stacks, 100);
  tcase_add_checked_fixture (stacks, open_geos, close_geos);
  tcase_add_test (stacks, faces_of_areas_drawn_anywhere_are_those_of_geos);
  tcase_add_test (stacks, faces_of_areas_whose_edges_and_corners_coincide_are_those_of_geos);
  tcase_add_test (stacks, faces_of_areas_whose_edges_and_corners_nearly_coincide_are_those_of_geos);
  suite_add_tcase (suite, stacks);
  return suite;
}
