// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * solve-run-roll-kernel-private - balls roll to their rest, N_LANES of them at a time: one that has come to rest makes room for the next. To be included once by a file that
 * says how wide vectors are and how the function is called (ROLL_BALLS), and where there is one the machine's own root of a vector (ROOT_OF_LANES).
 */
#include "solve-run-roll-private.h"

/* Pieces of the roll: so much of a cell's width, and of time. */
#define PIECE_CELLS 0.5
#define PIECE_S 0.4f
/* A piece that ends on other ground is halved so often. */
#define HALVINGS 3
/* A ball that still rolls after so many is where it is. */
#define MOST_PIECES 150
#define REST_MPS 1e-3f

typedef float Lane __attribute__ ((vector_size (4 * N_LANES)));
typedef int Whole __attribute__ ((vector_size (4 * N_LANES)));

/* Balls on their roll, places in cells. */
typedef struct
{
  Lane x, y, vx, vy;
  Whole lie;
  Whole idle;                            /* no ball */
  Lane least_x, least_y, most_x, most_y; /* of all places that balls came to */
  int number[N_LANES];                   /* -1: no ball */
  int pieces[N_LANES];
} Rollers;

/* What slows and draws balls in a piece of their roll. */
typedef struct
{
  Lane draw_x, draw_y, hold;
} Pull;

static inline Lane
pick (Whole which, Lane a, Lane b)
{
  return (Lane)((which & (Whole)a) | (~which & (Whole)b));
}

static inline Whole
pick_whole (Whole which, Whole a, Whole b)
{
  return (which & a) | (~which & b);
}

static inline Lane
root_of (Lane a)
{
#ifdef ROOT_OF_LANES
  return (Lane)ROOT_OF_LANES (a);
#else
  for (int i = 0; i < N_LANES; i++)
    a[i] = __builtin_sqrtf (a[i]);
  return a;
#endif
}

static inline Whole
within (Whole i, int most)
{
  i = pick_whole (i < 0, (Whole){ 0 }, i);
  return pick_whole (i > most, (Whole){ 0 } + most, i);
}

/* As solve_grid_lie. */
static inline Whole
lies_at (const SolveGrid *grid, Lane x, Lane y)
{
  float per = (float)grid->lies_per_cell;
  Whole i = within (__builtin_convertvector((x + 0.5f) * per, Whole), MIN (grid->nx * grid->lies_per_cell, grid->lies_nx) - 1);
  Whole j = within (__builtin_convertvector((y + 0.5f) * per, Whole), MIN (grid->ny * grid->lies_per_cell, grid->lies_ny) - 1);
  Whole at = j * grid->lies_nx + i, lies;
  for (int k = 0; k < N_LANES; k++)
    lies[k] = grid->lies[at[k]];
  return lies;
}

/* Straight between the middles of four cells, of which `at` is the one to the left and below. */
static inline Lane
between_cells (const float *field, int nx, Whole at, Lane u, Lane v)
{
  Lane below, below_next, above, above_next;
  for (int k = 0; k < N_LANES; k++)
    {
      const float *row = &field[at[k]];
      below[k] = row[0];
      below_next[k] = row[1];
      above[k] = row[nx];
      above_next[k] = row[nx + 1];
    }
  Lane low = below + u * (below_next - below), high = above + u * (above_next - above);
  return low + v * (high - low);
}

static inline Pull
pull_at (const Runs *runs, const Rollers *rollers)
{
  const SolveGrid *grid = runs->grid;
  Pull pull = { { 0 }, { 0 }, { 0 } };
  for (int k = 0; k < N_LANES; k++)
    pull.hold[k] = runs->hold[rollers->lie[k]];
  if (grid->slope_x == NULL)
    return pull;
  /* Between the middles of the four cells about the place; what lies beyond the edge is as at it. */
  float most_x = (float)grid->nx - 1.001f, most_y = (float)grid->ny - 1.001f;
  Lane x = pick (rollers->x > 0, rollers->x, (Lane){ 0 }), y = pick (rollers->y > 0, rollers->y, (Lane){ 0 });
  x = pick (x < most_x, x, (Lane){ 0 } + most_x);
  y = pick (y < most_y, y, (Lane){ 0 } + most_y);
  Whole i = __builtin_convertvector(x, Whole), j = __builtin_convertvector(y, Whole), at = j * grid->nx + i;
  Lane u = x - __builtin_convertvector(i, Lane), v = y - __builtin_convertvector(j, Lane);
  Lane sx = between_cells (grid->slope_x, grid->nx, at, u, v), sy = between_cells (grid->slope_y, grid->nx, at, u, v);
  Lane flat = 1 / (1 + sx * sx + sy * sy);
  return (Pull){ -(float)GRAVITY_MPS2 * flat * sx, -(float)GRAVITY_MPS2 * flat * sy, pull.hold * flat };
}

/* A ball at rest goes down where the slope draws it more than the turf holds it. */
static inline void
accelerate (const Pull *pull, Lane vx, Lane vy, Lane *ax, Lane *ay)
{
  Lane speed = root_of (vx * vx + vy * vy), draw2 = pull->draw_x * pull->draw_x + pull->draw_y * pull->draw_y;
  Whole moves = speed > REST_MPS, slides = draw2 > pull->hold * pull->hold;
  Lane slowing = pull->hold / pick (moves, speed, (Lane){ 0 } + 1);
  Lane left = (Lane)(slides & (Whole)(1 - pull->hold / root_of (pick (slides, draw2, (Lane){ 0 } + 1))));
  *ax = pick (moves, pull->draw_x - slowing * vx, left * pull->draw_x);
  *ay = pick (moves, pull->draw_y - slowing * vy, left * pull->draw_y);
}

/* Where pieces that long in time end. */
static inline void
roll_piece (const Rollers *from, const Pull *pull, Lane ax, Lane ay, Lane piece_s, float per_m, Rollers *to)
{
  Lane vx = from->vx, vy = from->vy, speed2 = vx * vx + vy * vy, slowing = -(vx * ax + vy * ay), mx, my;
  Whole stops = (slowing > 0) & (speed2 <= slowing * piece_s);
  Lane to_stop = per_m * 0.5f * speed2 / pick (stops, slowing, (Lane){ 0 } + 1);
  accelerate (pull, vx + 0.5f * piece_s * ax, vy + 0.5f * piece_s * ay, &mx, &my);
  Lane along = per_m * piece_s;
  to->x = from->x + pick (stops, to_stop * vx, along * (vx + 0.5f * piece_s * mx));
  to->y = from->y + pick (stops, to_stop * vy, along * (vy + 0.5f * piece_s * my));
  to->vx = (Lane)(~stops & (Whole)(vx + piece_s * mx));
  to->vy = (Lane)(~stops & (Whole)(vy + piece_s * my));
}

/* A ball may come back from farther away than where it rests. */
static inline void
note_places (Rollers *rollers)
{
  Lane x = rollers->x, y = rollers->y;
  rollers->least_x = pick (~rollers->idle & (x < rollers->least_x), x, rollers->least_x);
  rollers->least_y = pick (~rollers->idle & (y < rollers->least_y), y, rollers->least_y);
  rollers->most_x = pick (~rollers->idle & (x > rollers->most_x), x, rollers->most_x);
  rollers->most_y = pick (~rollers->idle & (y > rollers->most_y), y, rollers->most_y);
}

static inline bool
is_any (Whole which)
{
  int any = 0;
  for (int k = 0; k < N_LANES; k++)
    any |= which[k];
  return any != 0;
}

/* One piece of each ball's roll, halved where the ground changes. Returns which of them are at rest where they were. */
static inline Whole
roll_once (const Runs *runs, Rollers *rollers, float piece_m, float per_m)
{
  const SolveGrid *grid = runs->grid;
  Pull pull = pull_at (runs, rollers);
  Lane ax, ay;
  accelerate (&pull, rollers->vx, rollers->vy, &ax, &ay);
  Lane speed = root_of (rollers->vx * rollers->vx + rollers->vy * rollers->vy);
  Whole rests = ~(speed > REST_MPS) & (ax == 0) & (ay == 0), is_fast = speed * PIECE_S > piece_m;
  Lane piece_s = pick (is_fast, piece_m / pick (is_fast, speed, (Lane){ 0 } + 1), (Lane){ 0 } + PIECE_S);
  Rollers to = *rollers;
  roll_piece (rollers, &pull, ax, ay, piece_s, per_m, &to);
  to.lie = lies_at (grid, to.x, to.y);
  for (int i = 0; i < HALVINGS; i++)
    {
      Whole is_other = (to.lie != rollers->lie) & ~rests;
      if (!is_any (is_other))
        break;
      piece_s = pick (is_other, piece_s / 2, piece_s);
      roll_piece (rollers, &pull, ax, ay, piece_s, per_m, &to);
      to.lie = lies_at (grid, to.x, to.y);
    }
  rollers->x = pick (rests, rollers->x, to.x);
  rollers->y = pick (rests, rollers->y, to.y);
  rollers->vx = to.vx;
  rollers->vy = to.vy;
  rollers->lie = pick_whole (rests, rollers->lie, to.lie);
  return rests;
}

/* The next ball that rolls at all takes the lane; none is left where its number is -1. Returns the first of those that were not looked at. */
static int
take_next (const Runs *runs, Balls *balls, int next, Rollers *rollers, int k)
{
  const Rolling *rolling = &balls->rolling;
  rollers->number[k] = -1;
  rollers->idle[k] = -1;
  rollers->pieces[k] = 0;
  rollers->vx[k] = rollers->vy[k] = 0;
  for (; next < rolling->n; next++)
    {
      Lie lie = solve_grid_lie (runs->grid, (double)rolling->x[next], (double)rolling->y[next]);
      int number = rolling->number[next];
      balls->rest_x[number] = rolling->x[next];
      balls->rest_y[number] = rolling->y[next];
      if (runs->stays[lie])
        continue;
      rollers->x[k] = rolling->x[next];
      rollers->y[k] = rolling->y[next];
      rollers->vx[k] = rolling->vx[next];
      rollers->vy[k] = rolling->vy[next];
      rollers->lie[k] = (int)lie;
      rollers->number[k] = number;
      rollers->idle[k] = 0;
      return next + 1;
    }
  return next;
}

static inline void
begin_places (Rollers *rollers, const Balls *balls)
{
  rollers->least_x = (Lane){ 0 } + balls->least_x;
  rollers->least_y = (Lane){ 0 } + balls->least_y;
  rollers->most_x = (Lane){ 0 } + balls->most_x;
  rollers->most_y = (Lane){ 0 } + balls->most_y;
}

static inline void
keep_places (const Rollers *rollers, Balls *balls)
{
  for (int k = 0; k < N_LANES; k++)
    {
      balls->least_x = rollers->least_x[k] < balls->least_x ? rollers->least_x[k] : balls->least_x;
      balls->least_y = rollers->least_y[k] < balls->least_y ? rollers->least_y[k] : balls->least_y;
      balls->most_x = rollers->most_x[k] > balls->most_x ? rollers->most_x[k] : balls->most_x;
      balls->most_y = rollers->most_y[k] > balls->most_y ? rollers->most_y[k] : balls->most_y;
    }
}

void
ROLL_BALLS (const Runs *runs, Balls *balls)
{
  float piece_m = (float)(PIECE_CELLS * runs->grid->cell_m), per_m = (float)(1 / runs->grid->cell_m);
  Rollers rollers = { .number = { 0 } };
  int next = 0, n = 0;
  begin_places (&rollers, balls);
  for (int k = 0; k < N_LANES; k++)
    {
      next = take_next (runs, balls, next, &rollers, k);
      n += rollers.number[k] >= 0;
    }
  while (n > 0)
    {
      Whole rests = roll_once (runs, &rollers, piece_m, per_m);
      note_places (&rollers);
      for (int k = 0; k < N_LANES; k++)
        {
          int number = rollers.number[k];
          if (number < 0 || (!rests[k] && !runs->stays[rollers.lie[k]] && ++rollers.pieces[k] < MOST_PIECES))
            continue;
          balls->rest_x[number] = rollers.x[k];
          balls->rest_y[number] = rollers.y[k];
          next = take_next (runs, balls, next, &rollers, k);
          n -= rollers.number[k] < 0;
        }
    }
  keep_places (&rollers, balls);
}
