// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solve-run-bounce-kernel-private - balls bounce side by side until all rest or roll. To be included once by a file that says for which machine, and how the function is called
 * (BOUNCE_BALLS). Loops over all balls are kept free of calls and branches, so that the compiler takes them in that machine's vectors.
 */
#include "solve-run-bounce-private.h"

/* As app/flight/run.c has them: what is no rebound, and how often a ball bounces at most. */
#define LEAST_REBOUND_MPS 0.3
#define MOST_BOUNCES 12

/* Where the balls come down again: how long that takes, the places, and where those stand among the grid's fine ones. */
typedef struct
{
  Column hop_s;
  float x[N_BALLS], y[N_BALLS];
  int fine[N_BALLS];
} Hops;

static inline float
between (float x, float least, float most)
{
  x = x > least ? x : least;
  return x < most ? x : most;
}

/* Straight between the middles of four cells, of which the first is to the left and below. */
static inline float
between_cells (const float *field, int at, int nx, float u, float v)
{
  float low = field[at] + u * (field[at + 1] - field[at]), high = field[at + nx] + u * (field[at + nx + 1] - field[at + nx]);
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
  if (grid->slope_x == NULL)
    return;
  const float *slope_x = grid->slope_x, *slope_y = grid->slope_y;
  float most_x = (float)grid->nx - 1.001f, most_y = (float)grid->ny - 1.001f;
  int nx = grid->nx;
  for (int i = 0; i < n; i++)
    {
      float x = between (balls->x[i], 0, most_x), y = between (balls->y[i], 0, most_y);
      int column = (int)x, row = (int)y, at = row * nx + column;
      float u = x - (float)column, v = y - (float)row;
      b->slope_x[i] = (double)between_cells (slope_x, at, nx, u, v);
      b->slope_y[i] = (double)between_cells (slope_y, at, nx, u, v);
    }
}

static void
find_hops (const SolveGrid *grid, const Balls *balls, int n, Hops *hops)
{
  const Bounces *b = &balls->bounces;
  double by_cell = 1 / grid->cell_m;
  float per = (float)grid->lies_per_cell;
  int lies_nx = grid->lies_nx;
  float most_x = (float)MIN (grid->nx * grid->lies_per_cell, grid->lies_nx) - 0.5f,
        most_y = (float)MIN (grid->ny * grid->lies_per_cell, grid->lies_ny) - 0.5f;
  for (int i = 0; i < n; i++)
    {
      double hop_s
          = 2 / GRAVITY_MPS2 * b->off[i] * __builtin_sqrt (1 + b->slope_x[i] * b->slope_x[i] + b->slope_y[i] * b->slope_y[i]);
      hops->hop_s[i] = hop_s;
      hops->x[i] = balls->x[i] + (float)(b->vx[i] * hop_s * by_cell);
      hops->y[i] = balls->y[i] + (float)(b->vy[i] * hop_s * by_cell);
    }
  /* As solve_grid_lie. */
  for (int i = 0; i < n; i++)
    hops->fine[i]
        = (int)between ((hops->y[i] + 0.5f) * per, 0, most_y) * lies_nx + (int)between ((hops->x[i] + 0.5f) * per, 0, most_x);
}

static inline void
note_place (Balls *balls, float x, float y)
{
  balls->least_x = x < balls->least_x ? x : balls->least_x;
  balls->least_y = y < balls->least_y ? y : balls->least_y;
  balls->most_x = x > balls->most_x ? x : balls->most_x;
  balls->most_y = y > balls->most_y ? y : balls->most_y;
}

static inline void
start_rolling (Balls *balls, int i)
{
  Rolling *rolling = &balls->rolling;
  int k = rolling->n++;
  rolling->x[k] = balls->x[i];
  rolling->y[k] = balls->y[i];
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
  Hops hops;
  look_under (runs, balls, n);
  Impacts impacts = { b->vx, b->vy, b->vz, b->spin, b->slope_x, b->slope_y, b->bounce, b->friction, b->crater, b->off };
  bounce_off_many (&impacts, (size_t)n);
  find_hops (grid, balls, n, &hops);
  int n_left = 0;
  for (int i = 0; i < n; i++)
    {
      if (!(b->off[i] > LEAST_REBOUND_MPS) || is_last)
        {
          start_rolling (balls, i);
          continue;
        }
      int lie = grid->lies[hops.fine[i]];
      note_place (balls, hops.x[i], hops.y[i]);
      if (runs->stays[lie])
        {
          balls->rest_x[balls->number[i]] = hops.x[i];
          balls->rest_y[balls->number[i]] = hops.y[i];
          continue;
        }
      int k = n_left++;
      balls->x[k] = hops.x[i];
      balls->y[k] = hops.y[i];
      balls->lie[k] = lie;
      balls->number[k] = balls->number[i];
      b->vx[k] = b->vx[i];
      b->vy[k] = b->vy[i];
      b->vz[k] = b->vz[i] - GRAVITY_MPS2 * hops.hop_s[i];
      b->spin[k] = b->spin[i];
    }
  return n_left;
}

void
BOUNCE_BALLS (const Runs *runs, Balls *balls, int n)
{
  for (int i = 0; n > 0; i++)
    n = bounce_once (runs, balls, n, i + 1 == MOST_BOUNCES);
}
