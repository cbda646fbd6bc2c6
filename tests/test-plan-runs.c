// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: balls followed over a hole that has changed a little since others were. */
#include "../app/plan/solve-run-private.h"
#include "drawn.h"
#include "suite.h"

#include <math.h>

#define CELL_M 1.0
#define BANK_M 200.0
/* By so much it rises with every metre: a fairway does not hold a ball there, which rolls down again after it has rolled up a few metres. */
#define RISE 0.22
#define SAND_M 6.0

/* All of it is a bank that rises to +y, with a bunker all across from `sand_m` on; NAN: there is none. */
static Hole *
bank (double sand_m)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = KIND_FAIRWAY;
  info.view_box = (Box){ -40, 0, 40, BANK_M };
  const Part *parts[16];
  size_t n = 0;
  for (int k = 0; k < 6; k++)
    parts[n++] = spot (k % 2 ? 100 : -100, k / 2 * BANK_M / 2, k / 2 * RISE * BANK_M / 2);
  parts[n++] = rectangle (KIND_GREEN, (Box){ -10, BANK_M - 20, 10, BANK_M });
  parts[n++] = place (KIND_HOLE_LOCATION, vec2 (0, BANK_M - 10));
  if (!isnan (sand_m))
    parts[n++] = rectangle (KIND_BUNKER, (Box){ -100, sand_m, 100, sand_m + SAND_M });
  Hole *hole = hole_new (&info, parts, n, NULL);
  hole_info_clear (&info);
  return hole;
}

typedef struct
{
  Hole *hole;
  SolveGrid *grid;
  Runs *runs;
} Followed;

static Followed
follow_on (double sand_m)
{
  Followed followed = { .hole = bank (sand_m) };
  Conditions day = conditions_standard ();
  followed.grid = solve_grid_new (followed.hole, vec2 (0, BANK_M - 10), CELL_M, NULL, NULL, 1, NULL);
  RunSwings swings;
  run_swings_find (&day, &swings);
  followed.runs = runs_new (followed.grid, &day, &swings);
  return followed;
}

static void
forget (Followed *followed)
{
  runs_free (followed->runs);
  solve_grid_free (followed->grid);
  hole_unref (followed->hole);
}

/* A cell in the highest row of a tile. */
static size_t
last_of_a_tile (const SolveGrid *grid)
{
  return (size_t)((2 * TILE + TILE - 1) * grid->nx + 4 * TILE);
}

/* How far up the bank balls come to rest that come down in that cell, come in straight up, and would run 20 m on a level fairway; in cells. */
#define RUN_20_M 6
#define UP 0

static double
rest_up (const Followed *followed)
{
  RunRest rests[MOST_RESTS];
  runs_rest (followed->runs, RUN_20_M, UP, last_of_a_tile (followed->grid), rests);
  return rests[0].to.y;
}

START_TEST (a_ball_that_rolls_up_a_bank_and_back_finds_what_was_laid_up_there)
{
  Followed before = follow_on (NAN);
  double sand_m = solve_grid_centre (before.grid, (int)last_of_a_tile (before.grid)).y + 4;
  ck_assert_double_lt (rest_up (&before), -20);
  Followed again = follow_on (sand_m), afresh = follow_on (sand_m);
  runs_follow (again.runs, before.runs);
  double fresh = rest_up (&afresh), found = rest_up (&again);
  ck_assert_double_gt (fresh, 3);
  ck_assert_double_eq (found, fresh);
  forget (&again);
  forget (&afresh);
  forget (&before);
}
END_TEST

START_TEST (balls_that_come_nowhere_near_what_was_laid_are_not_followed_again)
{
  Followed before = follow_on (NAN), again = follow_on (BANK_M - 2 * SAND_M);
  double was = rest_up (&before);
  int tile = (int)(last_of_a_tile (before.grid) / (size_t)before.grid->nx) / TILE * ((before.grid->nx + TILE - 1) / TILE) + 4;
  runs_follow (again.runs, before.runs);
  ck_assert (runs_is_same (again.runs, RUN_20_M, UP, tile));
  ck_assert_double_eq (rest_up (&again), was);
  forget (&again);
  forget (&before);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-runs");
  TCase *again = tcase_create ("again");
  tcase_set_timeout (again, 0);
  tcase_add_test (again, a_ball_that_rolls_up_a_bank_and_back_finds_what_was_laid_up_there);
  tcase_add_test (again, balls_that_come_nowhere_near_what_was_laid_are_not_followed_again);
  suite_add_tcase (suite, again);
  return suite;
}
