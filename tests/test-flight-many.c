// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of flight: impacts of many balls at once. */
#include "flight-many.h"
#include "suite.h"

#include <stdint.h>
#include <string.h>

#define N 203
#define N_PADDED (N + FLIGHT_GROUP)
/* Of speeds up to 60 m/s and of spins up to 600 rad/s. */
#define SPEED_MPS 5e-6
#define SPIN_RADPS 5e-4

typedef struct
{
  double vx[N_PADDED], vy[N_PADDED], vz[N_PADDED], spin[N_PADDED], sx[N_PADDED], sy[N_PADDED], bounce[N_PADDED],
      friction[N_PADDED], crater[N_PADDED], off[N_PADDED];
} Balls;

static Impacts
impacts_of (Balls *balls)
{
  return (Impacts){ balls->vx, balls->vy,     balls->vz,       balls->spin,   balls->sx,
                    balls->sy, balls->bounce, balls->friction, balls->crater, balls->off };
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

static void
check_ball (const Balls *before, const Balls *after, size_t i)
{
  Surface surface = { .slope = { before->sx[i], before->sy[i] },
                      .bounce = before->bounce[i],
                      .friction = before->friction[i],
                      .crater = before->crater[i] };
  Impact impact = { { before->vx[i], before->vy[i] }, before->vz[i], before->spin[i] }, alone = bounce_off (&impact, &surface);
  double off = (alone.vz_mps - vec2_dot (alone.v_mps, surface.slope)) / sqrt (1 + vec2_dot (surface.slope, surface.slope));
  ck_assert_double_eq_tol (after->vx[i], alone.v_mps.x, SPEED_MPS);
  ck_assert_double_eq_tol (after->vy[i], alone.v_mps.y, SPEED_MPS);
  ck_assert_double_eq_tol (after->vz[i], alone.vz_mps, SPEED_MPS);
  ck_assert_double_eq_tol (after->spin[i], alone.spin_radps, SPIN_RADPS);
  ck_assert_double_eq_tol (after->off[i], off, SPEED_MPS);
}

START_TEST (many_balls_bounce_as_each_does_alone)
{
  static Balls before, after;
  uint64_t state = 88172645463325252u;
  for (int round = 0; round < 50; round++)
    {
      memset (&before, 0, sizeof before);
      for (size_t i = 0; i < N; i++)
        {
          before.vx[i] = 60 * next_random (&state) - 30;
          before.vy[i] = 60 * next_random (&state) - 30;
          before.vz[i] = -40 * next_random (&state);
          before.spin[i] = 1000 * next_random (&state) - 400;
          before.sx[i] = 0.6 * next_random (&state) - 0.3;
          before.sy[i] = 0.6 * next_random (&state) - 0.3;
          before.bounce[i] = 1.6 * next_random (&state);
          before.friction[i] = 0.2 + 0.4 * next_random (&state);
          before.crater[i] = 1.5 * next_random (&state);
        }
      after = before;
      Impacts impacts = impacts_of (&after);
      bounce_off_many (&impacts, N);
      for (size_t i = 0; i < N; i++)
        check_ball (&before, &after, i);
    }
}
END_TEST

START_TEST (straight_down_on_level_ground_and_up_the_slope_are_answered)
{
  static Balls before, after;
  static const double balls[][6] = { { 0, 0, -5, 100, 0, 0 }, { 0, 0, -5, 0, 0.1, 0 }, { -3, 0, -0.1, 50, -0.3, 0 },
                                     { 2, 0, 1, 30, 0, 0 },   { 2, 0, 0, 30, 0, 0 },   { 9, 1, -20, -80, 0.2, -0.1 } };
  memset (&before, 0, sizeof before);
  for (size_t i = 0; i < G_N_ELEMENTS (balls); i++)
    {
      before.vx[i] = balls[i][0];
      before.vy[i] = balls[i][1];
      before.vz[i] = balls[i][2];
      before.spin[i] = balls[i][3];
      before.sx[i] = balls[i][4];
      before.sy[i] = balls[i][5];
      before.bounce[i] = before.crater[i] = 1;
      before.friction[i] = 0.4;
    }
  after = before;
  Impacts impacts = impacts_of (&after);
  bounce_off_many (&impacts, G_N_ELEMENTS (balls));
  for (size_t i = 0; i < G_N_ELEMENTS (balls); i++)
    check_ball (&before, &after, i);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("flight-many");
  TCase *impacts = tcase_create ("impacts");
  tcase_add_test (impacts, many_balls_bounce_as_each_does_alone);
  tcase_add_test (impacts, straight_down_on_level_ground_and_up_the_slope_are_answered);
  suite_add_tcase (suite, impacts);
  return suite;
}
