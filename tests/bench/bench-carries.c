// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A whole carry table over 24 areas of 200 corners, beside GEOS asked for the same: where the line crosses each area, what of it lies in
 * the corridor and how near that comes; for areas not crossed whether the pattern touches them, and what of them lies in its fan.
 */
#include "bench.h"
#include "odds.h"

#include <geos_c.h>
#include <stdint.h>

#define N_AREAS 24
#define N_CORNERS 200
#define N_TABLES 20
#define FAR_M 1000.0
/* As ratios: the table is built at every frame of a drag, GEOS was not made for that. */
#define GOAL 10
#define LEAST 4

typedef struct
{
  Hole *hole;
  ShotResult shot;
  GEOSContextHandle_t geos;
  GEOSGeometry *areas[N_AREAS], *ball, *line, *corridor, *ellipse, *fans[2];
} Scene;

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (double)(*state >> 11) * 0x1p-53;
}

/* Bays and headlands: bunkers, ponds and woods of 5 to 30 m about a line of 380 m. */
static void
make_blob (uint64_t *state, Vec2 *corners)
{
  double x = -50 + 100 * next_random (state), y = 20 + 360 * next_random (state);
  double size = 5 + 25 * next_random (state), phase = 2 * PI * next_random (state);
  for (int i = 0; i < N_CORNERS; i++)
    {
      double angle = 2 * PI * i / N_CORNERS, r = size * (1 + 0.2 * sin (3 * angle + phase) + 0.1 * sin (5 * angle - phase));
      corners[i] = vec2 (x + r * cos (angle), y + r * sin (angle));
    }
}

static const Part *
make_part (const Vec2 *corners)
{
  Part *part = part_new (KIND_BUNKER);
  path_move_to (&part->path, corners[0]);
  for (int i = 1; i < N_CORNERS; i++)
    path_line_to (&part->path, corners[i]);
  path_close (&part->path);
  return part_seal (part);
}

static GEOSCoordSequence *
sequence (const Scene *scene, const Vec2 *points, unsigned n, bool closed)
{
  GEOSCoordSequence *made = GEOSCoordSeq_create_r (scene->geos, n + closed, 2);
  for (unsigned i = 0; i < n + closed; i++)
    GEOSCoordSeq_setXY_r (scene->geos, made, i, points[i % n].x, points[i % n].y);
  return made;
}

static GEOSGeometry *
make_polygon (const Scene *scene, const Vec2 *points, unsigned n)
{
  GEOSGeometry *ring = GEOSGeom_createLinearRing_r (scene->geos, sequence (scene, points, n, true));
  return GEOSGeom_createPolygon_r (scene->geos, ring, NULL, 0);
}

/* The line, the wedges of corridor and fan, and the ellipse of the pattern as GEOS takes them. */
static void
make_peers (Scene *scene, const Club *club)
{
  double corridor = CORRIDOR_SDS * club->side_sd_m / club->carry_m;
  double a = TOUCH_SDS * club->side_sd_m, b = TOUCH_SDS * club->carry_sd_m,
         fan = a / sqrt (club->carry_m * club->carry_m - b * b);
  const Vec2 line[] = { { 0, 0 }, { 0, FAR_M } },
             wedge[] = { { 0, 0 }, { corridor * FAR_M, FAR_M }, { -corridor * FAR_M, FAR_M } };
  const Vec2 left[] = { { 0, 0 }, { 0, FAR_M }, { -fan * FAR_M, FAR_M } },
             right[] = { { 0, 0 }, { fan * FAR_M, FAR_M }, { 0, FAR_M } };
  Vec2 ellipse[N_CORNERS];
  for (int i = 0; i < N_CORNERS; i++)
    ellipse[i] = vec2 (a * cos (2 * PI * i / N_CORNERS), club->carry_m + b * sin (2 * PI * i / N_CORNERS));
  scene->ball = GEOSGeom_createPointFromXY_r (scene->geos, 0, 0);
  scene->line = GEOSGeom_createLineString_r (scene->geos, sequence (scene, line, G_N_ELEMENTS (line), false));
  scene->corridor = make_polygon (scene, wedge, G_N_ELEMENTS (wedge));
  scene->ellipse = make_polygon (scene, ellipse, N_CORNERS);
  scene->fans[0] = make_polygon (scene, left, G_N_ELEMENTS (left));
  scene->fans[1] = make_polygon (scene, right, G_N_ELEMENTS (right));
}

static void
make_scene (Scene *scene, const Club *club)
{
  const Part *parts[N_AREAS];
  uint64_t state = 88172645463325252u; /* the paper's seed */
  scene->geos = GEOS_init_r ();
  for (int k = 0; k < N_AREAS; k++)
    {
      Vec2 corners[N_CORNERS];
      make_blob (&state, corners);
      parts[k] = make_part (corners);
      scene->areas[k] = make_polygon (scene, corners, N_CORNERS);
    }
  HoleInfo info;
  hole_info_init (&info);
  scene->hole = hole_new (&info, parts, N_AREAS, NULL);
  hole_info_clear (&info);
  ShotInput input = { .aim = { 0, 200 }, .club = club, .swing = 1 };
  GError *error = NULL;
  if (!odds_shot (scene->hole, NULL, &input, &scene->shot, &error))
    g_error ("%s", error->message);
  make_peers (scene, club);
}

static void
clear_scene (Scene *scene)
{
  for (int k = 0; k < N_AREAS; k++)
    GEOSGeom_destroy_r (scene->geos, scene->areas[k]);
  GEOSGeometry *others[] = { scene->ball, scene->line, scene->corridor, scene->ellipse, scene->fans[0], scene->fans[1] };
  for (size_t i = 0; i < G_N_ELEMENTS (others); i++)
    GEOSGeom_destroy_r (scene->geos, others[i]);
  GEOS_finish_r (scene->geos);
  hole_unref (scene->hole);
}

/* Both sides answer with the number of rows. */
static double
run_table (void *data)
{
  const Scene *scene = data;
  size_t n_rows = 0;
  for (int t = 0; t < N_TABLES; t++)
    {
      g_autoptr (CarryTable) table = carry_table_new (scene->hole, &scene->shot);
      n_rows += table->n_rows;
    }
  return (double)n_rows;
}

/* Is any of the area in this wedge? If so, how near it comes. */
static bool
measure_in (const Scene *scene, const GEOSGeometry *area, const GEOSGeometry *wedge)
{
  double near_m;
  GEOSGeometry *part = GEOSIntersection_r (scene->geos, area, wedge);
  bool any = !GEOSisEmpty_r (scene->geos, part) && GEOSDistance_r (scene->geos, part, scene->ball, &near_m) == 1;
  GEOSGeom_destroy_r (scene->geos, part);
  return any;
}

static double
run_geos (void *data)
{
  const Scene *scene = data;
  int n_rows = 0;
  for (int t = 0; t < N_TABLES; t++)
    for (int k = 0; k < N_AREAS; k++)
      {
        GEOSGeometry *crossings = GEOSIntersection_r (scene->geos, scene->areas[k], scene->line);
        if (!GEOSisEmpty_r (scene->geos, crossings))
          {
            n_rows += GEOSGetNumGeometries_r (scene->geos, crossings);
            measure_in (scene, scene->areas[k], scene->corridor);
          }
        else if (GEOSIntersects_r (scene->geos, scene->areas[k], scene->ellipse))
          for (int side = 0; side < 2; side++)
            n_rows += measure_in (scene, scene->areas[k], scene->fans[side]);
        GEOSGeom_destroy_r (scene->geos, crossings);
      }
  return n_rows;
}

int
main (void)
{
  const Club club = { .carry_m = 180, .carry_sd_m = 6, .side_sd_m = 10 };
  Scene scene;
  make_scene (&scene, &club);
  bench_compare ("carry table, 24 areas of 200 corners", (BenchSide){ "ours", run_table, &scene },
                 (BenchSide){ "GEOS", run_geos, &scene }, N_TABLES, GOAL, LEAST);
  clear_scene (&scene);
  return 0;
}
