// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What an aim costs by the fields of the values before a sweep, and what no aim can be better than.
 */
#include "solve-private.h"

#include <math.h>

/* What is thought to be the least that a swing may cost may be this much too high. */
#define BOUND_SLACK 0.03

/* ---- what an aim costs ---- */

/* Moves the landing as the ground under the ball and under the landing have it. Returns how much farther it flies than from level ground over such. */
static double
move_landing (const SolveGrid *grid, const SwingAims *aims, const SwingAim *aim, Vec2 at, double height_m, Landing *landing)
{
  double x = (double)aim->x_m, y = (double)aim->y_m, length = sqrt (x * x + y * y), by_cell = 1 / grid->cell_m;
  Vec2 along = vec2 (x / length, y / length), right = vec2 (along.y, -along.x);
  double ball_x = (at.x - grid->origin.x) * by_cell, ball_y = (at.y - grid->origin.y) * by_cell;
  size_t cell = solve_grid_cell_at (grid, ball_x, ball_y);
  Vec2 slope = vec2 ((double)grid->slope_x[cell], (double)grid->slope_y[cell]);
  double up = vec2_dot (slope, along), side = vec2_dot (slope, right);
  double off_m = up * aims->up_right_m + side * aims->side_right_m,
         far_m = length + up * (aims->up_along_m + up * aims->up_along_m2) + side * aims->side_along_m;
  Vec2 to = vec2_add (vec2_scale (along, far_m * by_cell), vec2_scale (right, off_m * by_cell));
  to = vec2_add (to, vec2 (ball_x, ball_y));
  /* How much higher or lower the ground is there than here, and then where the ball comes down because of it. */
  double by_m = (double)aim->rise1 + up * aims->up_rise1, rise_m = 0, longer_m = 0;
  for (int step = 0; step < 2; step++)
    {
      double x1 = to.x + along.x * longer_m * by_cell, y1 = to.y + along.y * longer_m * by_cell;
      rise_m = grid->height_m[solve_grid_cell_at (grid, x1, y1)] - height_m;
      longer_m = (by_m + (double)aim->rise2 * rise_m) * rise_m;
    }
  double run = (double)aim->run + up * aims->up_run + rise_m * (double)aim->run_rise;
  landing->x = (float)(to.x + along.x * longer_m * by_cell);
  landing->y = (float)(to.y + along.y * longer_m * by_cell);
  landing->run = (float)(run < 0 ? 0 : (run < N_RUNS - 1 ? run : N_RUNS - 1));
  double further = (far_m + longer_m) / length;
  return further > 0 ? further : 0;
}

/* The spread of an aim, which grows as the ball flies further. */
static void
spread_landing (const PlanSolution *solution, const SwingAims *aims, const SwingAim *aim, float further, Landing *landing)
{
  double cell = 1 / solution->grid->cell_m, area = cell * cell * (double)further * (double)further;
  double lacking = solution->least_var - (double)aims->least_variance * area, add = fmax (lacking, solution->widen);
  landing->further = further;
  landing->xx = (float)((double)aim->xx * area + add);
  landing->xy = (float)((double)aim->xy * area);
  landing->yy = (float)((double)aim->yy * area + add);
}

/* Where it comes down, and how much farther than over level ground. */
static double
place_landing (const PlanSolution *solution, const SwingAims *aims, const SwingAim *aim, Vec2 at, double height_m,
               Landing *landing)
{
  const SolveGrid *grid = solution->grid;
  double cell = 1 / grid->cell_m;
  *landing = (Landing){ .x = (float)((at.x - grid->origin.x + (double)aim->x_m) * cell),
                        .y = (float)((at.y - grid->origin.y + (double)aim->y_m) * cell),
                        .run = aim->run,
                        .sector = (int)aim->sector,
                        .share = aim->sector - (float)(int)aim->sector };
  return grid->height_m != NULL ? move_landing (grid, aims, aim, at, height_m, landing) : 1;
}

Landing
solve_landing (const PlanSolution *solution, const SwingAims *aims, int i, Vec2 at, double height_m)
{
  Landing landing;
  double further = place_landing (solution, aims, &aims->aims[i], at, height_m, &landing);
  spread_landing (solution, aims, &aims->aims[i], (float)further, &landing);
  return landing;
}

Landing
solve_poor_landing (const PlanSolution *solution, const SwingAims *aims, int i, Vec2 at, double height_m, const Landing *good)
{
  Landing landing;
  place_landing (solution, aims->poor, &aims->poor->aims[i], at, height_m, &landing);
  spread_landing (solution, aims->poor, &aims->poor->aims[i], good->further, &landing);
  return landing;
}

typedef void (*TakeMean) (const Worth *worth, const Landing *landing, float *value, float *lost);

static double
cost_by (const PlanSolution *solution, const SwingAims *aims, int i, Vec2 at, double height_m, TakeMean take_mean)
{
  if (aims->aims[i].run < 0)
    return INFINITY;
  Landing landing = solve_landing (solution, aims, i, at, height_m);
  float value, lost;
  take_mean (solution->worth, &landing, &value, &lost);
  if (aims->poor != NULL)
    {
      float poor, poor_lost;
      landing = solve_poor_landing (solution, aims, i, at, height_m, &landing);
      take_mean (solution->worth, &landing, &poor, &poor_lost);
      value += aims->poor_share * (poor - value);
      lost += aims->poor_share * (poor_lost - lost);
    }
  return solve_play_again ((double)value, lost > 0 ? (double)lost : 0);
}

double
solve_aim_cost (const PlanSolution *solution, const SwingAims *aims, int i, Vec2 at, double height_m)
{
  return cost_by (solution, aims, i, at, height_m, worth_mean);
}

double
solve_rough_aim_cost (const PlanSolution *solution, const SwingAims *aims, int i, Vec2 at, double height_m)
{
  return cost_by (solution, aims, i, at, height_m, worth_rough_mean);
}

/* ---- what no aim can be better than ---- */

/* A swing cannot do much better than a ball that always finds the best place as far from the hole as it comes to on average, within its own spread (three
   nodes of Gauss and Hermite). */
static double
least_left (const PlanSolution *solution, const SwingAims *aims, Vec2 left)
{
  double left_m = sqrt (vec2_dot (left, left)) - aims->run_m, sum = 0;
  for (int k = -1; k <= 1; k++)
    {
      double m = fabs (left_m + k * 1.7320508 * aims->long_sd_m);
      size_t i = (size_t)m;
      sum += (k == 0 ? 2 / 3.0 : 1 / 6.0) * (double)solution->least_beyond[i < solution->n_beyond ? i : solution->n_beyond - 1];
    }
  return sum;
}

double
solve_least_cost (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball)
{
  Vec2 to_hole = vec2_sub (solution->grid->target, ball);
  aim = ((aim % N_AIMS) + N_AIMS) % N_AIMS;
  const SwingAim *at = &aims->aims[aim];
  double least = least_left (solution, aims, vec2 (to_hole.x - (double)at->x_m, to_hole.y - (double)at->y_m));
  if (aims->poor != NULL)
    {
      at = &aims->poor->aims[aim];
      double poor = least_left (solution, aims->poor, vec2 (to_hole.x - (double)at->x_m, to_hole.y - (double)at->y_m));
      least += (double)aims->poor_share * (poor - least);
    }
  return 1 + least - BOUND_SLACK;
}

void
solve_find_least_beyond (PlanSolution *solution)
{
  const SolveGrid *grid = solution->grid;
  for (size_t i = 0; i < solution->n_beyond; i++)
    solution->least_beyond[i] = MOST_STROKES;
  for (size_t state = 0; state < grid->n_states; state++)
    {
      size_t i = (size_t)vec2_distance (grid->target, solve_grid_centre (grid, grid->state_cell[state]));
      float *least = &solution->least_beyond[i < solution->n_beyond ? i : solution->n_beyond - 1];
      *least = fminf (*least, (float)solution->value[state]);
    }
  for (size_t i = solution->n_beyond - 1; i > 0; i--)
    solution->least_beyond[i - 1] = fminf (solution->least_beyond[i - 1], solution->least_beyond[i]);
}
