// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: the solver's swings come down as the odds' shots do, wherever they are played from. */
#include "example.h"
#include "solved.h"
#include "suite.h"

#include <math.h>

#define CELL_M 4.0
/* Of the states that are worked out, one in so many is looked at. */
#define EVERY 41
/* So far apart they come down on average, and at the most, where a wood flies over a slope that the solver takes in one step; by no more does any deviation differ. */
#define APART_M 0.4
#define MOST_APART_M 5.0
#define WIDER 0.03

typedef struct
{
  int n;
  double apart_m;     /* all of them together */
  double least, most; /* of how much farther a swing flies than from level ground over such */
} Seen;

static void
compare (const PlanSolution *solution, size_t state, Seen *seen)
{
  const SolveGrid *grid = solution->grid;
  SolveShot played;
  if (!solve_best_shot (solution, state, &played))
    return;
  ShotResult shot = shot_by_odds (solution, &played);
  const SwingAims *aims = solution->aims[played.swing * N_LIES + (size_t)played.lie];
  int cell = grid->state_cell[state], aim = solve_aim (played.way);
  Landing landing = solve_landing (solution, aims, aim, played.ball, grid->height_m != NULL ? grid->height_m[cell] : 0);
  Normal normal = pattern_normal (&shot.pattern);
  Vec2 middle = vec2_add (grid->origin, vec2_scale (vec2 ((double)landing.x, (double)landing.y), grid->cell_m));
  double apart_m = vec2_distance (middle, normal.mean);
  ck_assert_double_lt (apart_m, MOST_APART_M);
  double area = grid->cell_m * grid->cell_m;
  double found = ((double)landing.xx + (double)landing.yy - 2 * solution->widen) * area;
  double by_odds = vec2_dot (normal.a, normal.a) + vec2_dot (normal.b, normal.b);
  /* A narrow pattern is made wider on purpose. */
  if ((double)aims->least_variance > 2 * solution->least_var * area)
    ck_assert_double_eq_tol (sqrt (found / by_odds), 1, WIDER);
  seen->n++;
  seen->apart_m += apart_m;
  seen->least = fmin (seen->least, (double)landing.further);
  seen->most = fmax (seen->most, (double)landing.further);
}

/* Beacon, whose fairway rises 21 feet to the green; Boathouse, which falls by 29; Orchard, whose turf slopes. */
static const size_t hilly[] = { 6, 8, 1 };

START_TEST (swings_come_down_and_spread_as_the_odds_have_it)
{
  g_autoptr (Hole) hole = example_hole (hilly[_i]);
  g_autoptr (Bag) bag = example_bag ();
  GError *error = NULL;
  g_autoptr (PlanSolution) solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = CELL_M }, &error);
  ck_assert_msg (solution != NULL, "%s", error != NULL ? error->message : "");
  Seen seen = { .least = INFINITY };
  for (size_t i = 0; i < solution->n_active; i += EVERY)
    compare (solution, solution->active[i], &seen);
  ck_assert_int_gt (seen.n, 40);
  ck_assert_double_lt (seen.apart_m / seen.n, APART_M);
  /* Some are played up and some down. */
  ck_assert_double_lt (seen.least, 0.98);
  ck_assert_double_gt (seen.most, 1.005);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-landing");
  TCase *odds = tcase_create ("as the odds");
  tcase_set_timeout (odds, 0);
  tcase_add_loop_test (odds, swings_come_down_and_spread_as_the_odds_have_it, 0, G_N_ELEMENTS (hilly));
  suite_add_tcase (suite, odds);
  return suite;
}
