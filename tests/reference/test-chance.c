// SPDX-License-Identifier: GPL-3.0-or-later
/* The chance of a normal distribution over an area: against the GNU Scientific Library's adaptive integration, and the sums of each kind of machine. */
#include "chance-private.h"
#include "suite.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#define MOST_CORNERS 200
#define N_POLYGONS 120
#define TOLERANCE 1e-9

/* ---- the same question asked otherwise: slab by slab, across all edges at once ---- */

typedef struct
{
  const Vec2 *corners; /* in deviations */
  size_t n;
} Peer;

/* phi (y) times the signed sum of Phi over all places where the line at height y crosses the outline. */
static double
slice (double y, void *data)
{
  const Peer *peer = data;
  double sum = 0;
  for (size_t i = 0; i < peer->n; i++)
    {
      Vec2 a = peer->corners[i], b = peer->corners[(i + 1) % peer->n];
      if ((a.y <= y) == (b.y <= y))
        continue;
      double x = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
      sum += (b.y > a.y ? 1 : -1) * gsl_cdf_ugaussian_P (x);
    }
  return sum * gsl_ran_ugaussian_pdf (y);
}

static int
compare_heights (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return x < y ? -1 : x > y ? 1 : 0;
}

static double
peer_chance (const Vec2 *points, size_t n, const Normal *normal, gsl_integration_workspace *work)
{
  Vec2 corners[MOST_CORNERS];
  double heights[MOST_CORNERS], sum = 0, det = vec2_cross (normal->a, normal->b);
  for (size_t i = 0; i < n; i++)
    {
      Vec2 from = vec2_sub (points[i], normal->mean);
      corners[i] = vec2 (vec2_cross (from, normal->b) / det, vec2_cross (normal->a, from) / det);
      heights[i] = fmax (-12, fmin (12, corners[i].y));
    }
  qsort (heights, n, sizeof *heights, compare_heights);
  Peer peer = { corners, n };
  gsl_function function = { slice, &peer };
  for (size_t i = 0; i + 1 < n; i++)
    {
      double part, error;
      if (!(heights[i] < heights[i + 1]))
        continue;
      ck_assert_int_eq (gsl_integration_qag (&function, heights[i], heights[i + 1], 1e-13, 1e-12, 1000, GSL_INTEG_GAUSS31, work,
                                             &part, &error),
                        0);
      sum += part;
    }
  return sum;
}

/* A star-shaped polygon: its corners go round its middle, at any distance from it. */
static size_t
draw_polygon (gsl_rng *rng, Vec2 *points)
{
  size_t n = 3 + gsl_rng_uniform_int (rng, MOST_CORNERS - 2);
  double size = 10 * pow (10, gsl_ran_flat (rng, -1, 1)), rough = gsl_rng_uniform (rng);
  Vec2 middle = { gsl_ran_flat (rng, -30, 30), gsl_ran_flat (rng, -30, 30) };
  for (size_t i = 0; i < n; i++)
    {
      double turn = 2 * PI * ((double)i + 0.9 * gsl_rng_uniform (rng)) / (double)n,
             r = size * (1 - rough * gsl_rng_uniform (rng));
      points[i] = vec2_add (middle, vec2 (r * cos (turn), r * sin (turn)));
    }
  return n;
}

START_TEST (random_polygons_have_the_chances_of_adaptive_integration)
{
  gsl_rng *rng = gsl_rng_alloc (gsl_rng_mt19937);
  gsl_integration_workspace *work = gsl_integration_workspace_alloc (1000);
  double worst = 0;
  for (int i = 0; i < N_POLYGONS; i++)
    {
      Vec2 points[MOST_CORNERS];
      size_t n = draw_polygon (rng, points);
      double sx = 10 * pow (10, gsl_ran_flat (rng, -1.3, 1)), sy = 10 * pow (10, gsl_ran_flat (rng, -1.3, 1)),
             r = gsl_ran_flat (rng, -0.99, 0.99);
      Normal normal = { .mean = { gsl_ran_flat (rng, -30, 30), gsl_ran_flat (rng, -30, 30) },
                        .a = { sx, r * sy },
                        .b = { 0, sqrt (1 - r * r) * sy } };
      Outline *outline = outline_new (points, &n, 1, false);
      ChanceMap *map = chance_map_new ((const Outline *const *)&outline, NULL, 1, 1);
      double chances[2];
      ck_assert (chance_map_integrate (map, &normal, chances));
      worst = fmax (worst, fabs (chances[0] - peer_chance (points, n, &normal, work)));
      chance_map_free (map);
      outline_free (outline);
    }
  gsl_integration_workspace_free (work);
  gsl_rng_free (rng);
  ck_assert_double_le (worst, TOLERANCE);
}
END_TEST

/* ---- machines ---- */

START_TEST (every_kind_of_machine_gives_the_same_sum)
{
  double u[MOST_CHAIN_EDGES + 1], v[MOST_CHAIN_EDGES + 1];
  for (double edge = 0.005; edge < LONGEST_EDGE_SDS; edge *= 1.7)
    for (int round = 0; round < 12; round++)
      {
        for (int i = 0; i <= MOST_CHAIN_EDGES; i++)
          {
            u[i] = 5 * cos (round) + edge * i * cos (round + 0.02 * i);
            v[i] = 3 * sin (2 * round) + edge * i * sin (round + 0.02 * i);
          }
        double longest = 0;
        for (int i = 0; i < MOST_CHAIN_EDGES; i++)
          longest = fmax (longest, hypot (u[i + 1] - u[i], v[i + 1] - v[i]));
        if (longest > LONGEST_EDGE_SDS)
          continue;
        double any = chance_sum (u, v, MOST_CHAIN_EDGES, longest);
#if defined __x86_64__
        if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
          ck_assert_double_eq_tol (chance_sum_avx2 (u, v, MOST_CHAIN_EDGES, longest), any, 1e-14);
        if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
          ck_assert_double_eq_tol (chance_sum_avx512 (u, v, MOST_CHAIN_EDGES, longest), any, 1e-14);
#endif
        ck_assert (isfinite (any));
      }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("chance");
  TCase *integration = tcase_create ("adaptive integration");
  tcase_set_timeout (integration, 100);
  tcase_add_test (integration, random_polygons_have_the_chances_of_adaptive_integration);
  suite_add_tcase (suite, integration);
  TCase *machines = tcase_create ("machines");
  tcase_add_test (machines, every_kind_of_machine_gives_the_same_sum);
  suite_add_tcase (suite, machines);
  return suite;
}
