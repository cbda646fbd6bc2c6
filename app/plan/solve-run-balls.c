// SPDX-License-Identifier: GPL-3.0-or-later
/* The balls of a tile: they bounce side by side, then each rolls to its rest. */
#include "solve-run-parts-private.h"

#include <math.h>

/* As app/flight/run.c has them: what is no rebound, and how often a ball bounces at most. */
#define LEAST_REBOUND_MPS 0.3
#define MOST_BOUNCES 12
/* Pieces of the roll: so much of a cell's width, and of time. */
#define PIECE_CELLS 0.5
#define PIECE_S 0.4
/* A piece that ends on other ground is halved so often. */
#define HALVINGS 3
/* A ball that still rolls after so many is where it is. */
#define MOST_PIECES 150
#define REST_MPS 1e-3f

static void
rest_at (Balls *balls, guint16 number, double x, double y)
{
  balls->rest_x[number] = (float)x;
  balls->rest_y[number] = (float)y;
}

/* One bounce of each; those that go on bouncing are left, the others roll. */
static int
bounce_once (const Runs *runs, Balls *balls, int n, bool is_last)
{
  const SolveGrid *grid = runs->grid;
  Bounces *b = &balls->bounces;
  for (int i = 0; i < n; i++)
    {
      size_t cell = solve_grid_cell_at (grid, balls->x[i], balls->y[i]);
      b->slope_x[i] = runs->grid->slope_x != NULL ? (double)runs->grid->slope_x[cell] : 0;
      b->slope_y[i] = runs->grid->slope_x != NULL ? (double)runs->grid->slope_y[cell] : 0;
      b->bounce[i] = (double)runs->bounce[solve_grid_lie (grid, balls->x[i], balls->y[i])];
      b->friction[i] = runs->friction;
      b->crater[i] = runs->crater;
    }
  Impacts impacts = { b->vx, b->vy, b->vz, b->spin, b->slope_x, b->slope_y, b->bounce, b->friction, b->crater, b->off };
  bounce_off_many (&impacts, (size_t)n);
  int n_left = 0;
  for (int i = 0; i < n; i++)
    {
      double hop_s = 2 * b->off[i] * sqrt (1 + b->slope_x[i] * b->slope_x[i] + b->slope_y[i] * b->slope_y[i]) / GRAVITY_MPS2;
      if (!(b->off[i] > LEAST_REBOUND_MPS) || is_last)
        {
          Rolling *rolling = &balls->rolling;
          int k = rolling->n++;
          rolling->x[k] = (float)balls->x[i];
          rolling->y[k] = (float)balls->y[i];
          rolling->vx[k] = (float)b->vx[i];
          rolling->vy[k] = (float)b->vy[i];
          rolling->number[k] = balls->number[i];
          continue;
        }
      double x = balls->x[i] + b->vx[i] * hop_s / grid->cell_m, y = balls->y[i] + b->vy[i] * hop_s / grid->cell_m;
      if (runs->stays[solve_grid_lie (grid, x, y)])
        {
          rest_at (balls, balls->number[i], x, y);
          continue;
        }
      int k = n_left++;
      balls->x[k] = x;
      balls->y[k] = y;
      balls->number[k] = balls->number[i];
      b->vx[k] = b->vx[i];
      b->vy[k] = b->vy[i];
      b->vz[k] = b->vz[i] - GRAVITY_MPS2 * hop_s;
      b->spin[k] = b->spin[i];
    }
  return n_left;
}

/* What slows and draws a ball in a piece of its roll. */
typedef struct
{
  float draw_x, draw_y, hold;
} Pull;

static inline void
accelerate (const Pull *pull, float vx, float vy, float *ax, float *ay)
{
  float speed = sqrtf (vx * vx + vy * vy);
  if (speed > REST_MPS)
    {
      *ax = pull->draw_x - pull->hold * vx / speed;
      *ay = pull->draw_y - pull->hold * vy / speed;
      return;
    }
  float draw = sqrtf (pull->draw_x * pull->draw_x + pull->draw_y * pull->draw_y);
  float left = draw > pull->hold ? 1 - pull->hold / draw : 0;
  *ax = left * pull->draw_x;
  *ay = left * pull->draw_y;
}

/* A ball on its roll, its place in cells. */
typedef struct
{
  float x, y, vx, vy;
} Roller;

/* Where a piece that long in time ends. */
static inline Roller
roll_piece (const Roller *from, const Pull *pull, float ax, float ay, float piece_s, float per_m)
{
  float vx = from->vx, vy = from->vy, speed2 = vx * vx + vy * vy, slowing = -(vx * ax + vy * ay);
  if (slowing > 0 && speed2 <= slowing * piece_s)
    {
      float to_stop = per_m * 0.5f * speed2 / slowing;
      return (Roller){ from->x + to_stop * vx, from->y + to_stop * vy, 0, 0 };
    }
  float mx, my;
  accelerate (pull, vx + 0.5f * piece_s * ax, vy + 0.5f * piece_s * ay, &mx, &my);
  return (Roller){ from->x + per_m * piece_s * (vx + 0.5f * piece_s * mx),
                   from->y + per_m * piece_s * (vy + 0.5f * piece_s * my), vx + piece_s * mx, vy + piece_s * my };
}

/* One piece of a ball's roll, halved where the ground changes; false when it is at rest. */
static inline bool
roll_once (const Runs *runs, Roller *roller, Lie *lie, float piece_m, float per_m)
{
  const SolveGrid *grid = runs->grid;
  Pull pull = { 0, 0, runs->hold[*lie] };
  float ax, ay;
  if (grid->slope_x != NULL)
    {
      size_t cell = solve_grid_cell_at (grid, (double)roller->x, (double)roller->y);
      float sx = grid->slope_x[cell], sy = grid->slope_y[cell], flat = 1 / (1 + sx * sx + sy * sy);
      pull = (Pull){ -(float)GRAVITY_MPS2 * flat * sx, -(float)GRAVITY_MPS2 * flat * sy, pull.hold * flat };
    }
  accelerate (&pull, roller->vx, roller->vy, &ax, &ay);
  float speed = sqrtf (roller->vx * roller->vx + roller->vy * roller->vy);
  if (!(speed > REST_MPS) && ax == 0 && ay == 0)
    return false;
  float piece_s = speed * (float)PIECE_S > piece_m ? piece_m / speed : (float)PIECE_S;
  Roller to = roll_piece (roller, &pull, ax, ay, piece_s, per_m);
  Lie then = solve_grid_lie (grid, (double)to.x, (double)to.y);
  for (int i = 0; i < HALVINGS && then != *lie; i++)
    {
      piece_s /= 2;
      to = roll_piece (roller, &pull, ax, ay, piece_s, per_m);
      then = solve_grid_lie (grid, (double)to.x, (double)to.y);
    }
  *roller = to;
  *lie = then;
  return !runs->stays[then];
}

static void
roll_all (const Runs *runs, Balls *balls)
{
  Rolling *rolling = &balls->rolling;
  float piece_m = (float)(PIECE_CELLS * runs->grid->cell_m), per_m = (float)(1 / runs->grid->cell_m);
  for (int i = 0; i < rolling->n; i++)
    {
      Roller roller = { rolling->x[i], rolling->y[i], rolling->vx[i], rolling->vy[i] };
      Lie lie = solve_grid_lie (runs->grid, (double)roller.x, (double)roller.y);
      for (int piece = 0; piece < MOST_PIECES && !runs->stays[lie]; piece++)
        if (!roll_once (runs, &roller, &lie, piece_m, per_m))
          break;
      rest_at (balls, rolling->number[i], (double)roller.x, (double)roller.y);
    }
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
      balls->number[n] = (guint16)number;
      balls->bounces.vx[n] = landing->v_mps.x * way.x;
      balls->bounces.vy[n] = landing->v_mps.x * way.y;
      balls->bounces.vz[n] = landing->vz_mps;
      balls->bounces.spin[n] = landing->spin_radps;
      n++;
    }
  balls->rolling.n = 0;
  return n;
}

void
runs_follow_balls (const Runs *runs, int run, Vec2 way, int x0, int y0, const Chosen chosen, int part, Balls *balls)
{
  int n = start_balls (runs, &runs->landings[run], way, x0, y0, chosen, part, balls);
  for (int i = 0; n > 0; i++)
    n = bounce_once (runs, balls, n, i + 1 == MOST_BOUNCES);
  roll_all (runs, balls);
}
