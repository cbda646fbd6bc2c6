// SPDX-License-Identifier: GPL-3.0-or-later
/* Sums under a pattern and rolls over cells as each kind of machine computes them: all must come to the same. */
#include "solve-mean-strips-private.h"
#include "solve-run-roll-private.h"
#include "suite.h"

#include <math.h>
#include <string.h>

#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#define HAS_WIDER
static bool
has_avx2 (void)
{
  return __builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma");
}

static bool
has_avx512 (void)
{
  return __builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl");
}
#endif

/* ---- sums ---- */

#define NX 61
#define NY 47
/* Rows are read in whole vectors, beyond the last cell too. */
#define SPARE 32
#define N_SUMS 400
/* Beyond so many deviations lie 4e-6 of a pattern. */
#define SUM_SDS 5.0f
/* In single precision, of sums of a few hundred cells. */
#define SAME_SUM 2e-5

static float fields[MOST_FIELDS][NX * NY + SPARE];

static void
draw_fields (GRand *random)
{
  for (int k = 0; k < MOST_FIELDS; k++)
    for (int i = 0; i < NX * NY; i++)
      fields[k][i] = (float)g_rand_double_range (random, k < MOST_FIELDS / 2 ? 2 : 0, k < MOST_FIELDS / 2 ? 6 : 1);
}

/* One that grows one way or another over the pattern. */
static MeanShare
draw_share (GRand *random)
{
  return (MeanShare){ (float)g_rand_double (random), (float)g_rand_double_range (random, -0.02, 0.02),
                      (float)g_rand_double_range (random, -0.02, 0.02) };
}

static double
share_at (const MeanShare *share, double dx, double dy)
{
  return (double)share->middle + dx * (double)share->by_x + dy * (double)share->by_y;
}

/* A pattern anywhere on the sheet, over its edges too, or beside it. */
static Sum
draw_sum (GRand *random, int n_fields)
{
  double wide = g_rand_double_range (random, 0.6, 6), high = g_rand_double_range (random, 0.6, 6);
  double both = g_rand_double_range (random, -0.9, 0.9) * wide * high;
  Sum sum = mean_sum ((float)g_rand_double_range (random, -8, NX + 8), (float)g_rand_double_range (random, -8, NY + 8),
                      (float)(wide * wide), (float)both, (float)(high * high), SUM_SDS);
  sum.nx = NX;
  sum.ny = NY;
  sum.n_fields = n_fields;
  for (int k = 0; k < MOST_FIELDS; k++)
    sum.fields[k] = fields[k];
  sum.run = draw_share (random);
  sum.sector = draw_share (random);
  return sum;
}

/* The same in double precision, cell by cell, as the header says it, and a deviation further. */
static void
sum_plainly (const Sum *sum, bool is_lost, double total[3])
{
  double half_x = (double)sum->half_x * (SUM_SDS + 1) / SUM_SDS, half_y = (double)sum->half_y * (SUM_SDS + 1) / SUM_SDS;
  total[0] = total[1] = total[2] = 0;
  for (int y = (int)ceil ((double)sum->y - half_y); y <= (int)floor ((double)sum->y + half_y); y++)
    for (int x = (int)ceil ((double)sum->x - half_x); x <= (int)floor ((double)sum->x + half_x); x++)
      {
        int i = CLAMP (y, 0, NY - 1) * NX + CLAMP (x, 0, NX - 1);
        double dx = x - (double)sum->x, dy = y - (double)sum->y, off = dx - (double)sum->lean * dy;
        double weight = exp2 ((double)sum->along * dy * dy + (double)sum->across * off * off);
        total[0] += weight;
        for (int k = 0; k < sum->n_fields; k++)
          {
            double run = sum->n_fields > 2 ? share_at (&sum->run, dx, dy) : 1, sector = share_at (&sum->sector, dx, dy);
            double share = (k < 2 ? run : 1 - run) * (k % 2 == 0 ? sector : 1 - sector);
            total[1] += weight * share * (double)sum->fields[k][i];
            if (is_lost)
              total[2] += weight * share * (double)sum->fields[sum->n_fields + k][i];
          }
      }
}

static void
check_sums (void (*add) (Sum *sum, bool is_lost))
{
  GRand *random = g_rand_new_with_seed (11);
  double worst = 0;
  draw_fields (random);
  for (int i = 0; i < N_SUMS; i++)
    {
      bool is_lost = i % 2 == 1;
      Sum sum = draw_sum (random, i % 4 < 2 ? 4 : 2);
      double total[3];
      add (&sum, is_lost);
      sum_plainly (&sum, is_lost, total);
      ck_assert_double_gt (total[0], 0);
      worst = fmax (worst, fabs ((double)(sum.value / sum.weight) - total[1] / total[0]));
      worst = fmax (worst, fabs ((double)(sum.lost / sum.weight) - total[2] / total[0]));
    }
  g_rand_free (random);
  ck_assert_msg (worst < SAME_SUM, "off by %g", worst);
}

START_TEST (every_width_of_vector_sums_up_the_same_pattern)
{
  check_sums (mean_add_strips_plain);
#ifdef HAS_WIDER
  if (has_avx2 ())
    check_sums (mean_add_strips_avx2);
  if (has_avx512 ())
    check_sums (mean_add_strips_avx512);
#endif
  check_sums (mean_add_strips);
}
END_TEST

/* ---- rolls ---- */

#define SIDE_CELLS 60
#define LIES_PER_CELL 2
#define LIES_SIDE (SIDE_CELLS * LIES_PER_CELL)
/* So many of a hundred balls may meet an edge of turf on another side and end elsewhere, no farther than a piece of the roll. */
#define MOST_APART 0.02
#define APART_CELLS 0.6
#define SAME_CELLS 2e-3

typedef struct
{
  guint8 lies[LIES_SIDE * LIES_SIDE];
  float slope_x[SIDE_CELLS * SIDE_CELLS], slope_y[SIDE_CELLS * SIDE_CELLS];
  SolveGrid grid;
  Runs runs;
} Ground;

/* Fairway and rough in broad strips with a bunker in the middle, on a slope that turns over the sheet. */
static void
lay_ground (Ground *ground)
{
  memset (ground, 0, sizeof *ground);
  for (int y = 0; y < LIES_SIDE; y++)
    for (int x = 0; x < LIES_SIDE; x++)
      ground->lies[y * LIES_SIDE + x] = (guint8)(hypot (x - 60, y - 60) < 9 ? LIE_SAND
                                                 : x / 24 % 2 == 0          ? LIE_FAIRWAY
                                                                            : LIE_ROUGH);
  for (int y = 0; y < SIDE_CELLS; y++)
    for (int x = 0; x < SIDE_CELLS; x++)
      {
        ground->slope_x[y * SIDE_CELLS + x] = (float)(0.05 * sin (0.11 * x));
        ground->slope_y[y * SIDE_CELLS + x] = (float)(0.05 * cos (0.07 * y));
      }
  ground->grid = (SolveGrid){ .cell_m = 2,
                              .nx = SIDE_CELLS,
                              .ny = SIDE_CELLS,
                              .lies = ground->lies,
                              .lies_per_cell = LIES_PER_CELL,
                              .lies_nx = LIES_SIDE,
                              .lies_ny = LIES_SIDE,
                              .slope_x = ground->slope_x,
                              .slope_y = ground->slope_y };
  ground->runs.grid = &ground->grid;
  for (int lie = 0; lie < N_LIES; lie++)
    ground->runs.hold[lie] = lie == LIE_FAIRWAY ? 1.1f : 2.4f;
  ground->runs.stays[LIE_SAND] = true;
}

static void
draw_balls (Balls *balls)
{
  GRand *random = g_rand_new_with_seed (5);
  Rolling *rolling = &balls->rolling;
  memset (balls, 0, sizeof *balls);
  for (rolling->n = 0; rolling->n < N_BALLS; rolling->n++)
    {
      int i = rolling->n;
      rolling->x[i] = (float)g_rand_double_range (random, 5, SIDE_CELLS - 5);
      rolling->y[i] = (float)g_rand_double_range (random, 5, SIDE_CELLS - 5);
      rolling->vx[i] = (float)g_rand_double_range (random, -6, 6);
      rolling->vy[i] = (float)g_rand_double_range (random, -6, 6);
      rolling->number[i] = (guint16)i;
    }
  g_rand_free (random);
}

static void
check_rolls (void (*roll) (const Runs *runs, Balls *balls))
{
  static Ground ground;
  static Balls plain, wide;
  int n_apart = 0;
  double far = 0;
  lay_ground (&ground);
  draw_balls (&plain);
  draw_balls (&wide);
  runs_roll_plain (&ground.runs, &plain);
  roll (&ground.runs, &wide);
  for (int i = 0; i < N_BALLS; i++)
    {
      double apart = hypot ((double)(plain.rest_x[i] - wide.rest_x[i]), (double)(plain.rest_y[i] - wide.rest_y[i]));
      ck_assert_msg (apart < APART_CELLS, "ball %d ends %g cells apart", i, apart);
      n_apart += apart > SAME_CELLS;
      far = fmax (far, hypot ((double)(plain.rest_x[i] - plain.rolling.x[i]), (double)(plain.rest_y[i] - plain.rolling.y[i])));
    }
  ck_assert_double_gt (far, 5);
  ck_assert_msg (n_apart <= MOST_APART * N_BALLS, "%d of %d balls end apart", n_apart, N_BALLS);
}

START_TEST (every_width_of_vector_rolls_the_balls_alike)
{
#ifdef HAS_WIDER
  if (has_avx2 ())
    check_rolls (runs_roll_avx2);
  if (has_avx512 ())
    check_rolls (runs_roll_avx512);
#endif
  check_rolls (runs_roll_balls);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-machines");
  TCase *machines = tcase_create ("machines");
  tcase_add_test (machines, every_width_of_vector_sums_up_the_same_pattern);
  tcase_add_test (machines, every_width_of_vector_rolls_the_balls_alike);
  suite_add_tcase (suite, machines);
  return suite;
}
