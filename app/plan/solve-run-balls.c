// SPDX-License-Identifier: GPL-3.0-or-later
/* The balls of a tile: they bounce side by side, then roll to their rests. */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#include "solve-run-parts-private.h"

#include <math.h>

/* As app/flight/run.c has them: what is no rebound, and how often a ball bounces at most. */
#define LEAST_REBOUND_MPS 0.3
#define MOST_BOUNCES 12

static void
rest_at (Balls *balls, guint16 number, double x, double y)
{
  balls->rest_x[number] = (float)x;
  balls->rest_y[number] = (float)y;
}

static void
note_place (Balls *balls, double x, double y)
{
  float at_x = (float)x, at_y = (float)y;
  balls->least_x = at_x < balls->least_x ? at_x : balls->least_x;
  balls->least_y = at_y < balls->least_y ? at_y : balls->least_y;
  balls->most_x = at_x > balls->most_x ? at_x : balls->most_x;
  balls->most_y = at_y > balls->most_y ? at_y : balls->most_y;
}

/* Straight between the middles of four cells, of which the first is to the left and below. */
static double
between_cells (const float *first, int nx, double u, double v)
{
  const float *above = first + nx;
  double low = (double)first[0] + u * (double)(first[1] - first[0]),
         high = (double)above[0] + u * (double)(above[1] - above[0]);
  return low + v * (high - low);
}

/* The ground under each ball, and that turf of it on which it is known to lie. */
static void
look_under (const Runs *runs, Balls *balls, int n)
{
  const SolveGrid *grid = runs->grid;
  Bounces *b = &balls->bounces;
  for (int i = 0; i < n; i++)
    b->bounce[i] = (double)runs->bounce[balls->lie[i]];
  for (int i = 0; i < n && grid->slope_x != NULL; i++)
    {
      double x = fmax (0, fmin (grid->nx - 1.001, balls->x[i])), y = fmax (0, fmin (grid->ny - 1.001, balls->y[i]));
      size_t column = (size_t)x, row = (size_t)y, at = row * (size_t)grid->nx + column;
      b->slope_x[i] = between_cells (&grid->slope_x[at], grid->nx, x - (double)column, y - (double)row);
      b->slope_y[i] = between_cells (&grid->slope_y[at], grid->nx, x - (double)column, y - (double)row);
    }
}

/* How long the hops are. */
static void
time_hops (const Bounces *b, int n, double *hop_s)
{
  for (int i = 0; i < n; i++)
    hop_s[i]
        = 2 / GRAVITY_MPS2 * b->off[i] * __builtin_sqrt (1 + b->slope_x[i] * b->slope_x[i] + b->slope_y[i] * b->slope_y[i]);
}

static void
start_rolling (Balls *balls, int i)
{
  Rolling *rolling = &balls->rolling;
  int k = rolling->n++;
  rolling->x[k] = (float)balls->x[i];
  rolling->y[k] = (float)balls->y[i];
  rolling->vx[k] = (float)balls->bounces.vx[i];
  rolling->vy[k] = (float)balls->bounces.vy[i];
  rolling->number[k] = balls->number[i];
}

/* One bounce of each; those that go on bouncing are left, the others roll. */
static int
bounce_once (const Runs *runs, Balls *balls, int n, bool is_last)
{
  const SolveGrid *grid = runs->grid;
  Bounces *b = &balls->bounces;
  Column hop_s;
  double by_cell = 1 / grid->cell_m;
  look_under (runs, balls, n);
  Impacts impacts = { b->vx, b->vy, b->vz, b->spin, b->slope_x, b->slope_y, b->bounce, b->friction, b->crater, b->off };
  bounce_off_many (&impacts, (size_t)n);
  time_hops (b, n, hop_s);
  int n_left = 0;
  for (int i = 0; i < n; i++)
    {
      if (!(b->off[i] > LEAST_REBOUND_MPS) || is_last)
        {
          start_rolling (balls, i);
          continue;
        }
      double x = balls->x[i] + b->vx[i] * hop_s[i] * by_cell, y = balls->y[i] + b->vy[i] * hop_s[i] * by_cell;
      Lie lie = solve_grid_lie (grid, x, y);
      note_place (balls, x, y);
      if (runs->stays[lie])
        {
          rest_at (balls, balls->number[i], x, y);
          continue;
        }
      int k = n_left++;
      balls->x[k] = x;
      balls->y[k] = y;
      balls->lie[k] = (guint8)lie;
      balls->number[k] = balls->number[i];
      b->vx[k] = b->vx[i];
      b->vy[k] = b->vy[i];
      b->vz[k] = b->vz[i] - GRAVITY_MPS2 * hop_s[i];
      b->spin[k] = b->spin[i];
    }
  return n_left;
}

static int
start_balls (const Runs *runs, const Impact *landing, Vec2 way, int x0, int y0, const Chosen chosen, int part, Balls *balls)
{
  const SolveGrid *grid = runs->grid;
  int n = 0;
  for (int number = 0; number < N_BALLS; number++)
    {
      if (!chosen[number])
        continue;
      balls->x[n] = x0 + number % SIDE;
      balls->y[n] = y0 + number / SIDE;
      size_t cell = solve_grid_cell_at (grid, balls->x[n], balls->y[n]);
      balls->x[n] += (double)runs->start_x[part][cell];
      balls->y[n] += (double)runs->start_y[part][cell];
      balls->lie[n] = (guint8)solve_grid_lie (grid, balls->x[n], balls->y[n]);
      balls->number[n] = (guint16)number;
      balls->bounces.vx[n] = landing->v_mps.x * way.x;
      balls->bounces.vy[n] = landing->v_mps.x * way.y;
      balls->bounces.vz[n] = landing->vz_mps;
      balls->bounces.spin[n] = landing->spin_radps;
      balls->bounces.friction[n] = runs->friction;
      balls->bounces.crater[n] = runs->crater;
      n++;
    }
  balls->rolling.n = 0;
  return n;
}

void
runs_follow_balls (const Runs *runs, int run, Vec2 way, int x0, int y0, const Chosen chosen, int part, Balls *balls)
{
  int n = start_balls (runs, &runs->swings.landings[run], way, x0, y0, chosen, part, balls);
  for (int i = 0; n > 0; i++)
    n = bounce_once (runs, balls, n, i + 1 == MOST_BOUNCES);
  runs_roll_balls (runs, balls);
}
