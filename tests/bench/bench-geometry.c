// SPDX-License-Identifier: GPL-3.0-or-later
/* Point in area and lie of a point, beside GEOS's prepared geometries. */
#include "bench.h"
#include "geometry.h"

#include <geos_c.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#define N_POINTS 20000
#define N_AREAS 24
#define N_VERTICES 200

/* The same stack for both sides; GEOS's points are made beforehand, so that only the question is timed. */
typedef struct
{
  Vec2 points[N_POINTS];
  Outline *outlines[N_AREAS];
  AreaIndex *index;
  int n_areas;
  GEOSContextHandle_t geos;
  GEOSGeometry *geos_points[N_POINTS];
  GEOSGeometry *geos_areas[N_AREAS];
  const GEOSPreparedGeometry *prepared[N_AREAS];
} Stack;

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (double)(*state >> 11) * 0x1p-53;
}

/* A bay-and-headland shape such as a pond or a green: three waves on an ellipse. */
static Outline *
make_blob (uint64_t *state, Vec2 centre, double rx, double ry)
{
  Vec2 points[N_VERTICES];
  double phase[3], height[3];
  for (int k = 0; k < 3; k++)
    {
      phase[k] = 2 * PI * next_random (state);
      height[k] = 0.2 * next_random (state);
    }
  for (int i = 0; i < N_VERTICES; i++)
    {
      double angle = 2 * PI * i / N_VERTICES, radius = 1;
      for (int k = 0; k < 3; k++)
        radius += height[k] * sin ((2 * k + 2) * angle + phase[k]);
      points[i] = vec2 (centre.x + rx * radius * cos (angle), centre.y + ry * radius * sin (angle));
    }
  size_t n_points = N_VERTICES;
  return outline_new (points, &n_points, 1, false);
}

static GEOSGeometry *
make_geos_polygon (GEOSContextHandle_t geos, const Outline *outline)
{
  unsigned n = (unsigned)outline->n_points;
  GEOSCoordSequence *ring = GEOSCoordSeq_create_r (geos, n + 1, 2);
  for (unsigned i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (geos, ring, i, outline->points[i % n].x, outline->points[i % n].y);
  return GEOSGeom_createPolygon_r (geos, GEOSGeom_createLinearRing_r (geos, ring), NULL, 0);
}

/* Points spread over the bottom area's box; then everything as both sides want it. */
static void
prepare (Stack *stack, uint64_t *state)
{
  Box box = stack->outlines[0]->bounds;
  stack->geos = GEOS_init_r ();
  for (int i = 0; i < N_POINTS; i++)
    {
      Vec2 p = vec2 (box.x0 + (box.x1 - box.x0) * next_random (state), box.y0 + (box.y1 - box.y0) * next_random (state));
      stack->points[i] = p;
      stack->geos_points[i] = GEOSGeom_createPointFromXY_r (stack->geos, p.x, p.y);
    }
  for (int k = 0; k < stack->n_areas; k++)
    {
      stack->geos_areas[k] = make_geos_polygon (stack->geos, stack->outlines[k]);
      stack->prepared[k] = GEOSPrepare_r (stack->geos, stack->geos_areas[k]);
    }
  stack->index = area_index_new ((const Outline *const *)stack->outlines, (size_t)stack->n_areas);
}

static void
stack_free (Stack *stack)
{
  area_index_free (stack->index);
  for (int i = 0; i < N_POINTS; i++)
    GEOSGeom_destroy_r (stack->geos, stack->geos_points[i]);
  for (int k = 0; k < stack->n_areas; k++)
    {
      outline_free (stack->outlines[k]);
      GEOSPreparedGeom_destroy_r (stack->geos, stack->prepared[k]);
      GEOSGeom_destroy_r (stack->geos, stack->geos_areas[k]);
    }
  GEOS_finish_r (stack->geos);
  free (stack);
}

static double
run_index (void *data)
{
  const Stack *stack = data;
  long sum = 0;
  for (int i = 0; i < N_POINTS; i++)
    sum += area_index_top (stack->index, stack->points[i]);
  return (double)sum;
}

static double
run_geos (void *data)
{
  const Stack *stack = data;
  long sum = 0;
  for (int i = 0; i < N_POINTS; i++)
    {
      int k = stack->n_areas - 1;
      while (k >= 0
             && !(box_contains (stack->outlines[k]->bounds, stack->points[i])
                  && GEOSPreparedContains_r (stack->geos, stack->prepared[k], stack->geos_points[i]) == 1))
        k--;
      sum += k;
    }
  return (double)sum;
}

static void
bench_build (const Stack *stack)
{
  double least_s = INFINITY;
  for (int i = 0; i < 7; i++)
    {
      double start = bench_now_s ();
      area_index_free (area_index_new ((const Outline *const *)stack->outlines, (size_t)stack->n_areas));
      least_s = fmin (least_s, bench_now_s () - start);
    }
  printf ("building the index of %d areas: %.3g ms\n", stack->n_areas, 1000 * least_s);
}

static void
bench_one_area (uint64_t *state)
{
  Stack *stack = calloc (1, sizeof *stack);
  stack->n_areas = 1;
  stack->outlines[0] = make_blob (state, vec2 (30, 200), 40, 25);
  prepare (stack, state);
  BenchSide geos = { "GEOS prepared contains", run_geos, stack };
  bench_compare ("point in a 200-vertex area", (BenchSide){ "index", run_index, stack }, geos, N_POINTS, 25, 12);
  bench_build (stack);
  stack_free (stack);
}

/* Rough, fairway, green and tees, then bunkers, ponds and trees over a hole of 400 m. */
static void
bench_stack (uint64_t *state)
{
  Stack *stack = calloc (1, sizeof *stack);
  stack->n_areas = N_AREAS;
  stack->outlines[0] = make_blob (state, vec2 (0, 200), 100, 240);
  stack->outlines[1] = make_blob (state, vec2 (0, 220), 20, 120);
  stack->outlines[2] = make_blob (state, vec2 (5, 390), 12, 15);
  stack->outlines[3] = make_blob (state, vec2 (0, 0), 5, 8);
  for (int k = 4; k < N_AREAS; k++)
    {
      Vec2 centre = vec2 (140 * next_random (state) - 70, 420 * next_random (state));
      double size = 4 + 16 * next_random (state);
      stack->outlines[k] = make_blob (state, centre, size, size * (0.5 + next_random (state)));
    }
  prepare (stack, state);
  bench_compare ("lie of a point among 24 areas", (BenchSide){ "index", run_index, stack },
                 (BenchSide){ "GEOS prepared with box filter", run_geos, stack }, N_POINTS, 20, 8);
  bench_build (stack);
  stack_free (stack);
}

int
main (void)
{
  uint64_t state = 88172645463325252u;
  bench_one_area (&state);
  bench_stack (&state);
  return EXIT_SUCCESS;
}
