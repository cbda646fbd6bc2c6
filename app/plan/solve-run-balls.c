// SPDX-License-Identifier: GPL-3.0-or-later
/* The balls of a tile: they bounce side by side, then roll to their rests. */
#include "solve-run-parts-private.h"

static int
start_balls (const Runs *runs, const Impact *landing, Vec2 way, int x0, int y0, const Chosen chosen, int part, Balls *balls)
{
  const SolveGrid *grid = runs->grid;
  int n = 0;
  for (int number = 0; number < N_BALLS; number++)
    {
      if (!chosen[number])
        continue;
      int x = x0 + number % SIDE, y = y0 + number / SIDE;
      size_t cell = solve_grid_cell_at (grid, x, y);
      balls->x[n] = (float)x + runs->start_x[part][cell];
      balls->y[n] = (float)y + runs->start_y[part][cell];
      balls->lie[n] = (int)solve_grid_lie (grid, (double)balls->x[n], (double)balls->y[n]);
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
  runs_bounce_balls (runs, balls, n);
  runs_roll_balls (runs, balls);
}
