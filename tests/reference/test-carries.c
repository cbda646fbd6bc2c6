// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The carry table against GEOS: the same definitions, computed a second time with its intersections of lines and wedges with polygons.
 * Nothing of the module under test is used here but the shot itself.
 */
#include "odds.h"
#include "suite.h"

#include <geos_c.h>
#include <stdio.h>

/* Both engines compute in doubles; their intersections differ by rounding, magnified where edges meet at small angles. */
#define SAME_M 1e-5
#define FAR_M 5000.0
#define MOST_ROWS 64
#define N_HOLES 600
#define MOST_CORNERS 40

/* ---- making geometries ---- */

static GEOSGeometry *
polygon (GEOSContextHandle_t geos, const Vec2 *points, size_t n)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (geos, (unsigned)n + 1, 2);
  for (size_t i = 0; i <= n; i++)
    GEOSCoordSeq_setXY_r (geos, sequence, (unsigned)i, points[i % n].x, points[i % n].y);
  return GEOSGeom_createPolygon_r (geos, GEOSGeom_createLinearRing_r (geos, sequence), NULL, 0);
}

static GEOSGeometry *
segment (GEOSContextHandle_t geos, Vec2 a, Vec2 b)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (geos, 2, 2);
  GEOSCoordSeq_setXY_r (geos, sequence, 0, a.x, a.y);
  GEOSCoordSeq_setXY_r (geos, sequence, 1, b.x, b.y);
  return GEOSGeom_createLineString_r (geos, sequence);
}

static GEOSGeometry *
point (GEOSContextHandle_t geos, Vec2 at)
{
  return GEOSGeom_createPointFromXY_r (geos, at.x, at.y);
}

/* ---- asking them ---- */

static double
distance (GEOSContextHandle_t geos, const GEOSGeometry *a, const GEOSGeometry *b)
{
  double d = NAN;
  ck_assert_int_eq (GEOSDistance_r (geos, a, b, &d), 1);
  return d;
}

/* The corners of a polygon's outer ring. */
static Vec2 *
corners (GEOSContextHandle_t geos, const GEOSGeometry *shape, unsigned *n)
{
  const GEOSGeometry *ring = GEOSGeomTypeId_r (geos, shape) == GEOS_POLYGON ? GEOSGetExteriorRing_r (geos, shape) : shape;
  const GEOSCoordSequence *sequence = GEOSGeom_getCoordSeq_r (geos, ring);
  GEOSCoordSeq_getSize_r (geos, sequence, n);
  Vec2 *points = g_new (Vec2, *n);
  for (unsigned i = 0; i < *n; i++)
    GEOSCoordSeq_getXY_r (geos, sequence, i, &points[i].x, &points[i].y);
  return points;
}

static double
farthest (GEOSContextHandle_t geos, const GEOSGeometry *shape, Vec2 from)
{
  unsigned n;
  g_autofree Vec2 *points = corners (geos, shape, &n);
  double most = 0;
  for (unsigned i = 0; i < n; i++)
    most = fmax (most, vec2_distance (from, points[i]));
  return most;
}

/* ---- one shot in its own frame: the ball in the origin, the shot line along +x ---- */

typedef struct
{
  GEOSContextHandle_t geos;
  double landing_m;
  double xx, xy, yy;          /* covariance of the landing point */
  double corridor[2], fan[2]; /* slopes: left, right */
} Frame;

/* Slopes of the fan round the ellipse, by walking round it. */
static void
find_fan (Frame *frame)
{
  const int n_steps = 1 << 20;
  double a = sqrt (frame->xx), b = frame->xy / a, c = sqrt (frame->yy - b * b);
  for (int i = 0; i < n_steps; i++)
    {
      double angle = 2 * PI * i / n_steps;
      double x = frame->landing_m + TOUCH_SDS * a * cos (angle), y = TOUCH_SDS * (b * cos (angle) + c * sin (angle));
      frame->fan[0] = fmax (frame->fan[0], y / x);
      frame->fan[1] = fmin (frame->fan[1], y / x);
    }
}

static Frame
frame_of (GEOSContextHandle_t geos, const ShotResult *shot)
{
  const Club *club = shot->club;
  Frame frame = { .geos = geos, .landing_m = hypot (club->carry_m, club->side_bias_m) };
  /* The shot line is turned right of the aim by the bias. */
  double turn = atan2 (club->side_bias_m, club->carry_m), c = cos (turn), s = sin (turn);
  Vec2 l = vec2 (c, s), r = vec2 (s, -c); /* the aim's direction and its right, seen from the line */
  double ll = club->carry_sd_m * club->carry_sd_m, rr = club->side_sd_m * club->side_sd_m;
  double lr = club->correlation * club->carry_sd_m * club->side_sd_m;
  frame.xx = ll * l.x * l.x + 2 * lr * l.x * r.x + rr * r.x * r.x;
  frame.xy = ll * l.x * l.y + lr * (l.x * r.y + l.y * r.x) + rr * r.x * r.y;
  frame.yy = ll * l.y * l.y + 2 * lr * l.y * r.y + rr * r.y * r.y;
  double side_m = CORRIDOR_SDS * club->side_sd_m;
  frame.corridor[0] = -side_m * r.y / (frame.landing_m - side_m * r.x);
  frame.corridor[1] = side_m * r.y / (frame.landing_m + side_m * r.x);
  find_fan (&frame);
  return frame;
}

/* The part of the area between two slopes. */
static GEOSGeometry *
between (const Frame *frame, const GEOSGeometry *area, double low, double high)
{
  const Vec2 triangle[] = { { 0, 0 }, { FAR_M, low * FAR_M }, { FAR_M, high * FAR_M } };
  GEOSGeometry *wedge = polygon (frame->geos, triangle, 3);
  GEOSGeometry *cut = GEOSIntersection_r (frame->geos, area, wedge);
  ck_assert_ptr_nonnull (cut);
  GEOSGeom_destroy_r (frame->geos, wedge);
  return cut;
}

/* Is any of the polygon within TOUCH_SDS of the pattern's centre? Measured where the pattern is a circle. */
static bool
is_touched (const Frame *frame, const GEOSGeometry *shape)
{
  unsigned n;
  g_autofree Vec2 *points = corners (frame->geos, shape, &n);
  double a = sqrt (frame->xx), b = frame->xy / a, c = sqrt (frame->yy - b * b);
  for (unsigned i = 0; i < n; i++)
    {
      double u = (points[i].x - frame->landing_m) / a;
      points[i] = vec2 (u, (points[i].y - b * u) / c);
    }
  GEOSGeometry *round = polygon (frame->geos, points, n - 1), *centre = point (frame->geos, vec2 (0, 0));
  bool touched = distance (frame->geos, round, centre) <= TOUCH_SDS;
  GEOSGeom_destroy_r (frame->geos, round);
  GEOSGeom_destroy_r (frame->geos, centre);
  return touched;
}

/* ---- the rows of one area ---- */

typedef struct
{
  CarryRow rows[MOST_ROWS];
  size_t n_rows;
} Rows;

static CarryRow *
new_row (Rows *rows, Side side)
{
  ck_assert_uint_lt (rows->n_rows, MOST_ROWS);
  CarryRow *row = &rows->rows[rows->n_rows++];
  *row = (CarryRow){ .side = side, .reach_m = INFINITY, .corridor_reach_m = NAN, .corridor_carry_m = NAN };
  return row;
}

/* Corridor of a row on the line: the parts of the area in the corridor that share some length of the crossing. */
static void
find_corridor (const Frame *frame, const GEOSGeometry *area, CarryRow *row)
{
  GEOSGeometry *cut = between (frame, area, frame->corridor[1], frame->corridor[0]), *ball = point (frame->geos, vec2 (0, 0));
  GEOSGeometry *crossing = segment (frame->geos, vec2 (row->reach_m, 0), vec2 (row->carry_m, 0));
  for (int i = 0; i < GEOSGetNumGeometries_r (frame->geos, cut); i++)
    {
      const GEOSGeometry *shape = GEOSGetGeometryN_r (frame->geos, cut, i);
      if (GEOSGeomTypeId_r (frame->geos, shape) != GEOS_POLYGON)
        continue;
      double length_m = 0;
      GEOSGeometry *shared = GEOSIntersection_r (frame->geos, shape, crossing);
      GEOSLength_r (frame->geos, shared, &length_m);
      GEOSGeom_destroy_r (frame->geos, shared);
      if (length_m < 1e-9)
        continue;
      row->corridor_reach_m = fmin (row->corridor_reach_m, distance (frame->geos, shape, ball)); /* fmin passes over NAN */
      row->corridor_carry_m = fmax (row->corridor_carry_m, farthest (frame->geos, shape, vec2 (0, 0)));
    }
  GEOSGeom_destroy_r (frame->geos, crossing);
  GEOSGeom_destroy_r (frame->geos, ball);
  GEOSGeom_destroy_r (frame->geos, cut);
}

static int
compare_reach (const void *a, const void *b)
{
  double x = ((const CarryRow *)a)->reach_m, y = ((const CarryRow *)b)->reach_m;
  return x < y ? -1 : x > y;
}

/* GEOS splits a crossing where corners lie on the line; pieces that touch are one crossing. */
static void
merge_touching (Rows *rows)
{
  qsort (rows->rows, rows->n_rows, sizeof (CarryRow), compare_reach);
  size_t n = 0;
  for (size_t i = 0; i < rows->n_rows; i++)
    if (n > 0 && rows->rows[i].reach_m <= rows->rows[n - 1].carry_m + 1e-9)
      rows->rows[n - 1].carry_m = fmax (rows->rows[n - 1].carry_m, rows->rows[i].carry_m);
    else
      rows->rows[n++] = rows->rows[i];
  rows->n_rows = n;
}

/* True when one of the crossings meets the stretch of the line in the pattern. */
static bool
rows_on (const Frame *frame, const GEOSGeometry *area, double stretch_m, Rows *rows)
{
  GEOSGeometry *line = segment (frame->geos, vec2 (0, 0), vec2 (FAR_M, 0)), *cut = GEOSIntersection_r (frame->geos, area, line);
  for (int i = 0; i < GEOSGetNumGeometries_r (frame->geos, cut); i++)
    {
      const GEOSGeometry *piece = GEOSGetGeometryN_r (frame->geos, cut, i);
      if (GEOSGeomTypeId_r (frame->geos, piece) != GEOS_LINESTRING || GEOSisEmpty_r (frame->geos, piece))
        continue;
      unsigned n;
      g_autofree Vec2 *ends = corners (frame->geos, piece, &n);
      CarryRow *row = new_row (rows, SIDE_ON);
      row->reach_m = fmin (ends[0].x, ends[n - 1].x);
      row->carry_m = fmax (ends[0].x, ends[n - 1].x);
    }
  GEOSGeom_destroy_r (frame->geos, cut);
  GEOSGeom_destroy_r (frame->geos, line);
  merge_touching (rows);

  bool in_pattern = false;
  for (size_t i = 0; i < rows->n_rows; i++)
    {
      CarryRow *row = &rows->rows[i];
      in_pattern |= row->reach_m <= frame->landing_m + stretch_m && row->carry_m >= frame->landing_m - stretch_m;
      find_corridor (frame, area, row);
    }
  return in_pattern;
}

/* Widens the row by one touched part of the fan, and its corridor by what of that lies in the corridor. */
static void
widen_row (const Frame *frame, const GEOSGeometry *shape, int side, CarryRow *row)
{
  GEOSGeometry *ball = point (frame->geos, vec2 (0, 0));
  row->reach_m = fmin (row->reach_m, distance (frame->geos, shape, ball));
  row->carry_m = fmax (row->carry_m, farthest (frame->geos, shape, vec2 (0, 0)));
  GEOSGeometry *cut = between (frame, shape, fmin (0, frame->corridor[side]), fmax (0, frame->corridor[side]));
  for (int i = 0; i < GEOSGetNumGeometries_r (frame->geos, cut); i++)
    {
      const GEOSGeometry *inner = GEOSGetGeometryN_r (frame->geos, cut, i);
      if (GEOSGeomTypeId_r (frame->geos, inner) != GEOS_POLYGON || GEOSisEmpty_r (frame->geos, inner))
        continue;
      row->corridor_reach_m = fmin (row->corridor_reach_m, distance (frame->geos, inner, ball)); /* fmin passes over NAN */
      row->corridor_carry_m = fmax (row->corridor_carry_m, farthest (frame->geos, inner, vec2 (0, 0)));
    }
  GEOSGeom_destroy_r (frame->geos, cut);
  GEOSGeom_destroy_r (frame->geos, ball);
}

static void
row_beside (const Frame *frame, const GEOSGeometry *area, double stretch_m, int side, Rows *rows)
{
  GEOSGeometry *cut = between (frame, area, fmin (0, frame->fan[side]), fmax (0, frame->fan[side]));
  GEOSGeometry *line = segment (frame->geos, vec2 (0, 0), vec2 (FAR_M, 0));
  CarryRow *row = NULL;
  double gap_m = INFINITY;
  for (int i = 0; i < GEOSGetNumGeometries_r (frame->geos, cut); i++)
    {
      const GEOSGeometry *shape = GEOSGetGeometryN_r (frame->geos, cut, i);
      if (GEOSGeomTypeId_r (frame->geos, shape) != GEOS_POLYGON || GEOSisEmpty_r (frame->geos, shape)
          || !is_touched (frame, shape))
        continue;
      if (row == NULL)
        row = new_row (rows, side == 0 ? SIDE_LEFT : SIDE_RIGHT);
      widen_row (frame, shape, side, row);
      gap_m = fmin (gap_m, distance (frame->geos, shape, line));
    }
  if (row != NULL && gap_m < 1e-3)
    {
      /* Runs on to the line further off: the gap is measured where the pattern is. */
      double up = side == 0 ? FAR_M : -FAR_M;
      const Vec2 half[] = { { -FAR_M, 0 }, { FAR_M, 0 }, { FAR_M, up }, { -FAR_M, up } };
      GEOSGeometry *plane = polygon (frame->geos, half, 4), *on_side = GEOSIntersection_r (frame->geos, area, plane);
      GEOSGeometry *stretch
          = segment (frame->geos, vec2 (frame->landing_m - stretch_m, 0), vec2 (frame->landing_m + stretch_m, 0));
      gap_m = distance (frame->geos, on_side, stretch);
      GEOSGeom_destroy_r (frame->geos, stretch);
      GEOSGeom_destroy_r (frame->geos, on_side);
      GEOSGeom_destroy_r (frame->geos, plane);
    }
  if (row != NULL)
    row->gap_m = gap_m;
  GEOSGeom_destroy_r (frame->geos, line);
  GEOSGeom_destroy_r (frame->geos, cut);
}

static Rows
rows_of (const Frame *frame, const GEOSGeometry *area)
{
  Rows rows = { .n_rows = 0 };
  double stretch_m = TOUCH_SDS * sqrt (frame->xx - frame->xy * frame->xy / frame->yy);
  if (rows_on (frame, area, stretch_m, &rows))
    return rows;
  row_beside (frame, area, stretch_m, 0, &rows);
  row_beside (frame, area, stretch_m, 1, &rows);
  return rows;
}

/* ---- comparing ---- */

static bool
is_same (double a, double b)
{
  return (isnan (a) && isnan (b)) || fabs (a - b) < SAME_M;
}

static bool
is_same_row (const CarryRow *a, const CarryRow *b)
{
  return a->side == b->side && is_same (a->reach_m, b->reach_m) && is_same (a->carry_m, b->carry_m)
         && is_same (a->gap_m, b->gap_m) && is_same (a->corridor_reach_m, b->corridor_reach_m)
         && is_same (a->corridor_carry_m, b->corridor_carry_m);
}

static char *
describe (const CarryRow *row)
{
  return g_strdup_printf ("%s reach %.6f carry %.6f gap %.6f corridor %.6f..%.6f", side_token (row->side), row->reach_m,
                          row->carry_m, row->gap_m, row->corridor_reach_m, row->corridor_carry_m);
}

/* Every expected row stands once in the table, and nothing else. */
static void
assert_same_rows (const Rows *expected, const CarryTable *table, guint32 seed)
{
  for (size_t i = 0; i < MAX (expected->n_rows, table->n_rows); i++)
    {
      bool found = false;
      for (size_t k = 0; i < expected->n_rows && k < table->n_rows; k++)
        found = found || is_same_row (&expected->rows[i], &table->rows[k]);
      if (found)
        continue;
      for (size_t k = 0; k < expected->n_rows; k++)
        {
          g_autofree char *text = describe (&expected->rows[k]);
          fprintf (stderr, "hole %u GEOS:  %s\n", seed, text);
        }
      for (size_t k = 0; k < table->n_rows; k++)
        {
          g_autofree char *text = describe (&table->rows[k]);
          fprintf (stderr, "hole %u table: %s\n", seed, text);
        }
      ck_abort_msg ("hole %u: the two tables differ", seed);
    }
}

/* ---- areas ---- */

static double
next_share (guint32 *state)
{
  *state = *state * 1664525u + 1013904223u; /* Knuth, Numerical Recipes' quick generator */
  return (*state >> 8) / (double)(1 << 24);
}

/* A ragged star, now and then one whose waist the ball stands in. */
static size_t
star (guint32 *seed, Vec2 *points)
{
  size_t n = 5 + (size_t)(next_share (seed) * (MOST_CORNERS - 5));
  double x = -40 + 300 * next_share (seed), y = -60 + 120 * next_share (seed);
  double size = 5 + 70 * next_share (seed);
  for (size_t i = 0; i < n; i++)
    {
      double angle = 2 * PI * (double)i / (double)n, r = size * (0.15 + 0.85 * next_share (seed));
      points[i] = vec2 (x + r * cos (angle), y + r * sin (angle));
    }
  return n;
}

/* A comb: teeth of uneven length across the line, joined on one side. */
static size_t
comb (guint32 *seed, Vec2 *points)
{
  size_t n = 0, n_teeth = 2 + (size_t)(next_share (seed) * 6);
  double x = 20 + 100 * next_share (seed), back = 5 + 50 * next_share (seed), hand = next_share (seed) < 0.5 ? 1 : -1;
  points[n++] = vec2 (x, hand * (back + 10));
  for (size_t i = 0; i < n_teeth; i++)
    {
      double tip = -40 + (back + 38) * next_share (seed);
      points[n++] = vec2 (x, hand * tip);
      x += 2 + 20 * next_share (seed);
      points[n++] = vec2 (x, hand * tip);
      points[n++] = vec2 (x, hand * back);
      x += 2 + 20 * next_share (seed);
      points[n++] = vec2 (x, hand * back);
    }
  points[n++] = vec2 (x, hand * (back + 10));
  return n;
}

/* A line that goes round twice and crosses itself, so that parts of what it encloses are left out by the even-odd rule. */
static size_t
pretzel (guint32 *seed, Vec2 *points)
{
  size_t n = 9 + (size_t)(next_share (seed) * 24);
  double x = -20 + 250 * next_share (seed), y = -40 + 80 * next_share (seed);
  double size = 10 + 60 * next_share (seed);
  for (size_t i = 0; i < n; i++)
    {
      double angle = 4 * PI * (double)i / (double)n, r = size * (0.2 + 0.8 * next_share (seed));
      points[i] = vec2 (x + r * cos (angle), y + r * sin (angle));
    }
  return n;
}

/*
 * The same on a grid of 5 m, so that corners lie on the line, on the corridor's edges and in the ball, and edges run along all of them:
 * the corridor of the first club rises 1 in 12.
 */
static size_t
grid (guint32 *seed, Vec2 *points)
{
  size_t n = 4 + (size_t)(next_share (seed) * 4);
  double x = 60 * floor (4 * next_share (seed)), wide = next_share (seed) < 0.3 ? 20 : 5;
  for (size_t i = 0; i < n; i++)
    {
      points[i].x = x + 60 * floor (3 * next_share (seed));
      points[i].y = wide * floor (-2 + 5 * next_share (seed));
    }
  return n;
}

/* Filled by the even-odd rule, which for areas that do not cross themselves is every rule. */
static CarryTable *
table_of (const Vec2 *points, size_t n, const ShotResult *shot)
{
  Part *part = part_new (KIND_WATER);
  part->even_odd = true;
  path_move_to (&part->path, points[0]);
  for (size_t i = 1; i < n; i++)
    path_line_to (&part->path, points[i]);
  path_close (&part->path);
  const Part *parts[] = { part_seal (part) };
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, parts, 1, NULL);
  hole_info_clear (&info);
  return carry_table_new (hole, shot);
}

typedef size_t (*MakeArea) (guint32 *seed, Vec2 *points);

/* An empty hole is enough to fly the shot over; the aim lies so that the shot line is the x axis. */
static ShotResult
fly (const Club *club)
{
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  double turn = atan2 (club->side_bias_m, club->carry_m);
  ShotInput input = { .aim = { 200 * cos (turn), 200 * sin (turn) }, .club = club, .swing = 1 };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  ck_assert_double_eq_tol (shot.landing.y, 0, 1e-9);
  return shot;
}

static void
compare_areas (const Club *club, MakeArea make, size_t *n_on, size_t *n_beside)
{
  GEOSContextHandle_t geos = GEOS_init_r ();
  ShotResult shot = fly (club);
  Frame frame = frame_of (geos, &shot);
  for (guint32 number = 1; number <= N_HOLES; number++)
    {
      guint32 seed = number;
      Vec2 points[MOST_CORNERS];
      size_t n = make (&seed, points);
      GEOSGeometry *drawn = polygon (geos, points, n);
      if (make == grid && GEOSisValid_r (geos, drawn) != 1)
        {
          /* Where edges lie upon each other GEOS's repair keeps one of them, which is no fill rule. */
          GEOSGeom_destroy_r (geos, drawn);
          continue;
        }
      GEOSGeometry *area = GEOSMakeValid_r (geos, drawn);
      ck_assert_ptr_nonnull (area);
      Rows expected = rows_of (&frame, area);
      g_autoptr (CarryTable) table = table_of (points, n, &shot);
      assert_same_rows (&expected, table, number);
      for (size_t i = 0; i < expected.n_rows; i++)
        *(expected.rows[i].side == SIDE_ON ? n_on : n_beside) += 1;
      GEOSGeom_destroy_r (geos, area);
      GEOSGeom_destroy_r (geos, drawn);
    }
  GEOS_finish_r (geos);
}

/* Straight and true, then one that pushes its long balls to the right, then one that does the other thing and scatters widely. */
static const Club clubs[] = {
  { .carry_m = 180, .carry_sd_m = 6, .side_sd_m = 10 },
  { .carry_m = 160, .carry_sd_m = 9, .side_sd_m = 12, .correlation = 0.6, .side_bias_m = 6 },
  { .carry_m = 120, .carry_sd_m = 14, .side_sd_m = 20, .correlation = -0.8, .side_bias_m = -15 },
};

START_TEST (ragged_areas_are_reached_carried_and_passed_as_geos_finds)
{
  size_t n_on = 0, n_beside = 0;
  compare_areas (&clubs[_i], star, &n_on, &n_beside);
  ck_assert_uint_gt (n_on, N_HOLES / 4);
  ck_assert_uint_gt (n_beside, N_HOLES / 40);
}
END_TEST

START_TEST (combs_across_and_beside_the_line_are_reached_carried_and_passed_as_geos_finds)
{
  size_t n_on = 0, n_beside = 0;
  compare_areas (&clubs[_i], comb, &n_on, &n_beside);
  ck_assert_uint_gt (n_on, N_HOLES);
  ck_assert_uint_gt (n_beside, N_HOLES / 40);
}
END_TEST

START_TEST (areas_that_cross_themselves_are_reached_carried_and_passed_as_geos_finds)
{
  size_t n_on = 0, n_beside = 0;
  compare_areas (&clubs[_i], pretzel, &n_on, &n_beside);
  ck_assert_uint_gt (n_on, N_HOLES);
  ck_assert_uint_gt (n_beside, N_HOLES / 40);
}
END_TEST

START_TEST (corners_and_edges_on_the_line_and_on_the_corridors_edges_are_no_special_case)
{
  size_t n_on = 0, n_beside = 0;
  compare_areas (&clubs[0], grid, &n_on, &n_beside);
  ck_assert_uint_gt (n_on, N_HOLES / 8);
  ck_assert_uint_gt (n_beside, N_HOLES / 40);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("carries");
  TCase *geos = tcase_create ("against GEOS");
  tcase_set_timeout (geos, 60);
  tcase_add_loop_test (geos, ragged_areas_are_reached_carried_and_passed_as_geos_finds, 0, G_N_ELEMENTS (clubs));
  tcase_add_loop_test (geos, combs_across_and_beside_the_line_are_reached_carried_and_passed_as_geos_finds, 0,
                       G_N_ELEMENTS (clubs));
  tcase_add_loop_test (geos, areas_that_cross_themselves_are_reached_carried_and_passed_as_geos_finds, 0, G_N_ELEMENTS (clubs));
  tcase_add_test (geos, corners_and_edges_on_the_line_and_on_the_corridors_edges_are_no_special_case);
  suite_add_tcase (suite, geos);
  return suite;
}
