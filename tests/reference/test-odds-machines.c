// SPDX-License-Identifier: GPL-3.0-or-later
/* Hops and pieces of the roll, and impacts, as each kind of machine computes them: all must move the balls alike. */
#include "bounce-many-private.h"
#include "rest-lanes-private.h"
#include "suite.h"

#include <string.h>

#define N 200
/* They may differ in the last bits. */
#define SAME 1e-9

typedef struct
{
  double room[N_BALL_COLUMNS][N + FLIGHT_GROUP];
  double *columns[N_BALL_COLUMNS];
} Balls;

static void
draw (Balls *balls)
{
  static const double ranges[N_BALL_COLUMNS][2] = {
    [BALL_X] = { -200, 200 },       [BALL_Y] = { 0, 400 },       [BALL_VX] = { -12, 12 },   [BALL_VY] = { -12, 12 },
    [BALL_VZ] = { -30, -0.1 },      [BALL_SPIN] = { -300, 600 }, [BALL_TIME] = { 0, 61 },   [BALL_BOUNCE] = { 0.4, 1.5 },
    [BALL_FRICTION] = { 0.2, 1 },   [BALL_CRATER] = { 0, 1.3 },  [BALL_HOLD] = { 0.3, 16 }, [BALL_SLOPE_X] = { -0.4, 0.4 },
    [BALL_SLOPE_Y] = { -0.4, 0.4 }, [BALL_OFF] = { 0, 3 }
  };
  GRand *random = g_rand_new_with_seed (7);
  memset (balls, 0, sizeof *balls);
  for (int column = 0; column < N_BALL_COLUMNS; column++)
    {
      balls->columns[column] = balls->room[column];
      for (int i = 0; i < N && ranges[column][0] < ranges[column][1]; i++)
        balls->room[column][i] = g_rand_double_range (random, ranges[column][0], ranges[column][1]);
    }
  /* At rest on a slope that holds it, and on one that does not. */
  balls->room[BALL_VX][3] = balls->room[BALL_VY][3] = balls->room[BALL_VX][4] = balls->room[BALL_VY][4] = 0;
  balls->room[BALL_SLOPE_X][3] = balls->room[BALL_SLOPE_Y][3] = 0.001;
  balls->room[BALL_SLOPE_X][4] = 0.4;
  balls->room[BALL_HOLD][4] = 0.3;
  g_rand_free (random);
}

static void
compare (const Balls *a, const Balls *b)
{
  for (int column = 0; column < N_BALL_COLUMNS; column++)
    for (int i = 0; i < N; i++)
      ck_assert_double_eq_tol (a->room[column][i], b->room[column][i], SAME * (1 + fabs (a->room[column][i])));
}

static void
check_lanes (const RestLanes *lanes, void (*impact) (const Impacts *impacts, size_t n))
{
  static Balls plain, wide;
  draw (&plain);
  draw (&wide);
  rest_lanes_plain.hop (plain.columns, N);
  lanes->hop (wide.columns, N);
  compare (&plain, &wide);
  rest_lanes_plain.roll (plain.columns, N);
  lanes->roll (wide.columns, N);
  compare (&plain, &wide);
  ck_assert_double_eq (plain.room[BALL_OUT][3], 0);
  ck_assert_double_gt (plain.room[BALL_OUT][4], 0);
  draw (&plain);
  draw (&wide);
  double **a = plain.columns, **b = wide.columns;
  const Impacts one = { a[BALL_VX],      a[BALL_VY],     a[BALL_VZ],       a[BALL_SPIN],   a[BALL_SLOPE_X],
                        a[BALL_SLOPE_Y], a[BALL_BOUNCE], a[BALL_FRICTION], a[BALL_CRATER], a[BALL_OFF] },
                other = { b[BALL_VX],      b[BALL_VY],     b[BALL_VZ],       b[BALL_SPIN],   b[BALL_SLOPE_X],
                          b[BALL_SLOPE_Y], b[BALL_BOUNCE], b[BALL_FRICTION], b[BALL_CRATER], b[BALL_OFF] };
  bounce_many (&one, N);
  impact (&other, N);
  compare (&plain, &wide);
}

START_TEST (every_width_of_vector_moves_the_balls_alike)
{
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
  if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    check_lanes (&rest_lanes_avx2, bounce_many_avx2);
#endif
  check_lanes (rest_lanes (), bounce_off_many);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-machines");
  TCase *machines = tcase_create ("machines");
  tcase_add_test (machines, every_width_of_vector_moves_the_balls_alike);
  suite_add_tcase (suite, machines);
  return suite;
}
