// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Balls that bounce and roll over the cells of a grid, a tile of them at a time: the model of app/flight/run.c, as the odds follow theirs (app/odds/rest-run.c), with the ground as the
 * cells say.
 */
#include "solve-run-private.h"

#include "flight-many.h"

#include <math.h>
#include <string.h>

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
/* Places are kept in such parts of a cell, as the middles of those, so that none lies on an edge of cells. */
#define PARTS 64.0
/* In cells up to this size balls come down in every second cell only, and between them straight, but where the turf about them is not one. */
#define LATTICE_M 3.0
/* Balls of a tile and of the row beyond it each way. */
#define SIDE (TILE + 1)
/* So many swings, their shares added up, tell how balls come down. */
#define LEAST_COUNT 0.2
/* Tangent of the angle at which a ball comes down, at least. */
#define LEAST_DESCENT 0.05
/* ... nor where those about them come to rest farther apart than this, in cells. */
#define MOST_APART 1.0
#define N_BALLS (SIDE * SIDE)

struct _Runs
{
  const SolveGrid *grid;
  Impact landings[N_RUNS]; /* along +x */
  double stretch[N_RUNS], descents[N_RUNS];
  double friction, crater;
  float bounce[N_LIES], hold[N_LIES]; /* factor on the restitution; deceleration of a rolling ball */
  bool stays[N_LIES];                 /* what comes there is kept */
  /* [cell] where balls come down in it, in cells from its middle: in that part of it which keeps nothing, parted into its largest lie and the rest. */
  float *start_x[MOST_RESTS], *start_y[MOST_RESTS];
  float *second_share; /* [cell] of that rest */
  guint8 *is_mixed;    /* [cell] the turf is not the same all about it; NULL: every cell has its ball */
  int tiles_x, n_tiles;
  gint16 *rests[MOST_RESTS]; /* [run][sector][cell][x, y] */
  gint *made;                /* [run][sector][tile] 0, 1 while it is made, 2. Looked at atomically. */
  gint farthest[N_RUNS];
};

/* ---- the ground ---- */

static void
look_at_turf (Runs *runs, const Conditions *conditions)
{
  for (int lie = 0; lie < N_LIES; lie++)
    {
      Surface surface = odds_surface ((Lie)lie, conditions);
      runs->bounce[lie] = (float)surface.bounce;
      runs->hold[lie] = (float)surface.roll_decel_mps2;
      runs->stays[lie] = solve_lie_stops ((Lie)lie);
      runs->friction = surface.friction;
      runs->crater = surface.crater;
    }
}

/* A part of a cell: fine places, summed up. */
typedef struct
{
  double x, y;
  int n;
} Patch;

/* The cell's largest part of one lie that keeps nothing, and all else that keeps nothing. */
static void
look_at_patches (const Runs *runs, size_t cell, Patch patches[MOST_RESTS])
{
  const SolveGrid *grid = runs->grid;
  int n = grid->lies_per_cell, x = (int)(cell % (size_t)grid->nx), y = (int)(cell / (size_t)grid->nx), largest = 0;
  Patch by_lie[N_LIES] = { { 0, 0, 0 } };
  for (int k = 0; k < n * n; k++)
    {
      double off_x = (k % n + 0.5) / n - 0.5, off_y = (k / n + 0.5) / n - 0.5;
      Lie lie = solve_grid_lie (grid, x + off_x, y + off_y);
      if (runs->stays[lie])
        continue;
      by_lie[lie].x += off_x;
      by_lie[lie].y += off_y;
      by_lie[lie].n++;
      largest = by_lie[lie].n > by_lie[largest].n || (by_lie[lie].n == by_lie[largest].n && (int)lie < largest) ? (int)lie
                                                                                                                : largest;
    }
  for (int lie = 0; lie < N_LIES; lie++)
    {
      Patch *patch = &patches[lie != largest];
      patch->x += by_lie[lie].x;
      patch->y += by_lie[lie].y;
      patch->n += by_lie[lie].n;
    }
}

static bool
is_one_lie (const SolveGrid *grid, size_t cell)
{
  for (int lie = 0; lie < N_LIES; lie++)
    if (grid->cover[lie] != NULL && grid->cover[lie][cell] >= 1)
      return true;
  return false;
}

static void
look_for_starts (Runs *runs)
{
  const SolveGrid *grid = runs->grid;
  for (int k = 0; k < MOST_RESTS; k++)
    {
      runs->start_x[k] = g_new0 (float, grid->n_cells);
      runs->start_y[k] = g_new0 (float, grid->n_cells);
    }
  runs->second_share = g_new0 (float, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    {
      Patch patches[MOST_RESTS] = { { 0, 0, 0 } };
      if (is_one_lie (grid, cell))
        continue;
      look_at_patches (runs, cell, patches);
      int n = patches[0].n + patches[1].n;
      runs->second_share[cell] = (float)(n > 0 ? (double)patches[1].n / n : 0);
      for (int k = 0; k < MOST_RESTS && patches[k].n > 0; k++)
        {
          runs->start_x[k][cell] = (float)(patches[k].x / patches[k].n);
          runs->start_y[k][cell] = (float)(patches[k].y / patches[k].n);
        }
    }
}

/* Is all of the cell one lie, and the same as in another cell? */
static bool
is_same_turf (const SolveGrid *grid, int x, int y, size_t cell)
{
  size_t other = (size_t)(CLAMP (y, 0, grid->ny - 1) * grid->nx + CLAMP (x, 0, grid->nx - 1));
  for (int lie = 0; lie < N_LIES; lie++)
    if (grid->cover[lie] != NULL && grid->cover[lie][cell] >= 1)
      return grid->cover[lie][other] >= 1;
  return false;
}

static void
look_for_mixed (Runs *runs)
{
  const SolveGrid *grid = runs->grid;
  if (grid->cell_m > LATTICE_M)
    return;
  runs->is_mixed = g_new0 (guint8, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    for (int k = 0; k < 9 && !runs->is_mixed[cell]; k++)
      runs->is_mixed[cell]
          = !is_same_turf (grid, (int)(cell % (size_t)grid->nx) + k % 3 - 1, (int)(cell / (size_t)grid->nx) + k / 3 - 1, cell);
}

/* ---- how balls come down ---- */

static Surface
level_fairway (const void *data, Vec2 at)
{
  (void)at;
  return *(const Surface *)data;
}

static bool
run_level (const Surface *fairway, const Impact *impact, Run *run)
{
  FlightPoint landing = { .v_mps = impact->v_mps, .vz_mps = impact->vz_mps, .spin_radps = impact->spin_radps };
  return run_solve (&landing, level_fairway, fairway, run, NULL);
}

/* How far the ball runs that is so much faster over the ground. */
static double
run_of (const Surface *fairway, const Impact *impact, double faster)
{
  Impact other = { vec2_scale (impact->v_mps, faster), impact->vz_mps, impact->spin_radps };
  Run run;
  return run_level (fairway, &other, &run) ? run.rest.x : 0;
}

/* A ball that is a little slower or faster over the ground runs less far or farther; much faster, it digs in. */
#define LEAST_FASTER 0.8
#define MOST_FASTER 1.25
#define MOST_HALVINGS 20
/* What is still lacking is made up for by stretching the way that it runs, so much at most. */
#define MOST_STRETCH 2.5
#define NEAR_ENOUGH 0.01

/* Makes the ball run just so far on a level fairway. Returns what its way is still to be multiplied by. */
static double
fit_impact (const Surface *fairway, double run_m, Impact *impact)
{
  double slow = LEAST_FASTER, fast = MOST_FASTER;
  if (!(run_m > 0))
    return 1;
  for (int i = 0; i < MOST_HALVINGS; i++)
    {
      double middle = (slow + fast) / 2;
      if (run_of (fairway, impact, middle) < run_m)
        slow = middle;
      else
        fast = middle;
    }
  double fitted_m = run_of (fairway, impact, slow), found_m = run_of (fairway, impact, 1);
  if (fabs (fitted_m - run_m) < fabs (found_m - run_m))
    {
      impact->v_mps = vec2_scale (impact->v_mps, slow);
      found_m = fitted_m;
    }
  double stretch = found_m > 0 ? run_m / found_m : 1;
  return fabs (stretch - 1) < NEAR_ENOUGH ? 1 : fmin (MOST_STRETCH, fmax (1 / MOST_STRETCH, stretch));
}

/* The mean of swings that run about so far. */
typedef struct
{
  double count, run_m;
  Impact impact;
} Mean;

static void
add_flown (Mean *means, const Flown *flown)
{
  if (!(flown->along_m > 0))
    return;
  double at = worth_run (flown->run_m);
  int run = (int)fmin (N_RUNS - 2, at);
  for (int k = 0; k < 2; k++)
    {
      double share = k == 0 ? 1 - (at - run) : at - run;
      Mean *mean = &means[run + k];
      mean->count += share;
      mean->run_m += share * flown->run_m;
      mean->impact.v_mps.x += share * flown->land_mps;
      mean->impact.vz_mps -= share * flown->fall_mps;
      mean->impact.spin_radps += share * flown->spin_radps;
    }
}

static double
mixed (double a, double b, double share)
{
  return a + share * (b - a);
}

/* Between the two means on either side of a run; beyond them the last one. `means` are divided by their counts. */
static Impact
impact_at (const Mean *means, int n, double run_m)
{
  int i = 0;
  while (i + 2 < n && means[i + 1].run_m < run_m)
    i++;
  const Mean *a = &means[i], *b = &means[MIN (i + 1, n - 1)];
  double width_m = b->run_m - a->run_m, share = width_m > 0 ? fmin (1, fmax (0, (run_m - a->run_m) / width_m)) : 0;
  return (Impact){ vec2 (mixed (a->impact.v_mps.x, b->impact.v_mps.x, share), 0),
                   mixed (a->impact.vz_mps, b->impact.vz_mps, share),
                   mixed (a->impact.spin_radps, b->impact.spin_radps, share) };
}

/* How balls come down: as full swings of a usual bag do in such air without wind, so that it is not another thing for another bag. */
static void
look_at_swings (Runs *runs, const Conditions *conditions, const Surface *fairway)
{
  Mean sums[N_RUNS] = { 0 }, means[N_RUNS];
  g_autoptr (Bag) usual = bag_new_usual ("usual", UNIT_METRES, LEVEL_SCRATCH_MEN);
  LieTable lies = lie_table_usual ();
  Conditions still = *conditions;
  still.wind.to_mps = vec2 (0, 0);
  for (size_t i = 0; i < bag_n_clubs (usual); i++)
    {
      ShotInput swing = { .club = bag_club (usual, i), .swing = 1, .curve_m = NAN, .conditions = &still };
      Flown flown;
      if (fleet_fly (&swing, &lies, LIE_TEE, vec2 (0, 1), &flown))
        add_flown (sums, &flown);
    }
  int n = 0;
  for (int run = 0; run < N_RUNS; run++)
    {
      const Mean *sum = &sums[run];
      double share = 1 / sum->count;
      if (sum->count > LEAST_COUNT)
        means[n++]
            = (Mean){ 1,
                      share * sum->run_m,
                      { vec2_scale (sum->impact.v_mps, share), share * sum->impact.vz_mps, share * sum->impact.spin_radps } };
    }
  for (int run = 0; run < N_RUNS && n > 0; run++)
    {
      Impact *landing = &runs->landings[run];
      *landing = impact_at (means, n, worth_runs_m[run]);
      runs->stretch[run] = fit_impact (fairway, worth_runs_m[run], landing);
      runs->descents[run] = landing->v_mps.x > 0 ? fmax (LEAST_DESCENT, -landing->vz_mps / landing->v_mps.x) : 1;
    }
}

/* ---- the balls of a tile ---- */

typedef double Column[N_BALLS + FLIGHT_GROUP];

typedef struct
{
  Column vx, vy, vz, spin, slope_x, slope_y, bounce, friction, crater, off;
} Bounces;

typedef struct
{
  float x[N_BALLS], y[N_BALLS], vx[N_BALLS], vy[N_BALLS]; /* cells, metres by second */
  guint16 number[N_BALLS];
  int n;
} Rolling;

typedef struct
{
  Bounces bounces;
  double x[N_BALLS], y[N_BALLS];
  guint16 number[N_BALLS];
  Rolling rolling;
  float rest_x[N_BALLS], rest_y[N_BALLS]; /* by number */
} Balls;

static inline size_t
cell_at (const SolveGrid *grid, double x, double y)
{
  int i = x < 0 ? 0 : (int)(x + 0.5), j = y < 0 ? 0 : (int)(y + 0.5);
  i = i < grid->nx ? i : grid->nx - 1;
  j = j < grid->ny ? j : grid->ny - 1;
  return (size_t)j * (size_t)grid->nx + (size_t)i;
}

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
      size_t cell = cell_at (grid, balls->x[i], balls->y[i]);
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
      size_t cell = cell_at (grid, (double)roller->x, (double)roller->y);
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

/* Which cells of a tile, and of the row beyond it, have balls of their own. */
typedef bool Chosen[N_BALLS];

/* Every second one first, and all where the turf is mixed. */
static void
choose_first (const Runs *runs, int x0, int y0, Chosen chosen)
{
  const SolveGrid *grid = runs->grid;
  for (int number = 0; number < N_BALLS; number++)
    {
      int i = number % SIDE, j = number / SIDE;
      bool is_within = i < TILE && j < TILE && x0 + i < grid->nx && y0 + j < grid->ny;
      chosen[number] = runs->is_mixed == NULL
                           ? is_within
                           : (i % 2 == 0 && j % 2 == 0)
                                 || (is_within && runs->is_mixed[(size_t)(y0 + j) * (size_t)grid->nx + (size_t)(x0 + i)]);
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
      size_t cell = cell_at (grid, balls->x[n], balls->y[n]);
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

/* From the middle of a cell at such a place of the tile to its ball's rest. */
static Vec2
way_of (const Balls *balls, int x0, int y0, int i, int j)
{
  int number = j * SIDE + i;
  return vec2 ((double)balls->rest_x[number] - (x0 + i), (double)balls->rest_y[number] - (y0 + j));
}

/* Two balls that came down near each other have rested alike. */
static bool
is_alike (const Runs *runs, int number, Vec2 way, int other, Vec2 other_way, int x0, int y0)
{
  const SolveGrid *grid = runs->grid;
  Vec2 apart = vec2_sub (way, other_way);
  return vec2_dot (apart, apart) < MOST_APART * MOST_APART
         && solve_grid_lie (grid, x0 + number % SIDE + way.x, y0 + number / SIDE + way.y)
                == solve_grid_lie (grid, x0 + other % SIDE + other_way.x, y0 + other / SIDE + other_way.y);
}

/* Of a cell without a ball the mean of the two or four about it. False where those are not alike. */
static bool
way_between (const Runs *runs, const Balls *balls, int x0, int y0, int number, Vec2 *way)
{
  int i = number % SIDE, j = number / SIDE, about[4];
  Vec2 ways[4];
  *way = vec2 (0, 0);
  for (int k = 0; k < 4; k++)
    {
      int column = i + i % 2 * (k % 2 * 2 - 1), row = j + j % 2 * (k / 2 * 2 - 1);
      about[k] = row * SIDE + column;
      ways[k] = way_of (balls, x0, y0, column, row);
      *way = vec2_add (*way, vec2_scale (ways[k], 0.25));
    }
  for (int k = 1; k < 4; k++)
    if (!is_alike (runs, about[0], ways[0], about[k], ways[k], x0, y0))
      return false;
  return true;
}

static size_t
tile_index (const Runs *runs, int run, int sector, int tile)
{
  return (size_t)(run * N_SECTORS + sector) * (size_t)runs->n_tiles + (size_t)tile;
}

static void
note_farthest (gint *farthest, gint far)
{
  gint known = g_atomic_int_get (farthest);
  while (far > known && !g_atomic_int_compare_and_exchange (farthest, known, far))
    known = g_atomic_int_get (farthest);
}

static gint16 *
rest_of (const Runs *runs, int run, int sector, int part, size_t cell)
{
  return &runs->rests[part][((size_t)(run * N_SECTORS + sector) * runs->grid->n_cells + cell) * 2];
}

static void
keep_rest (const Runs *runs, int run, int sector, int part, size_t cell, Vec2 way)
{
  gint16 *rest = rest_of (runs, run, sector, part, cell);
  double most = G_MAXINT16 / PARTS;
  rest[0] = (gint16)floor (PARTS * fmax (-most, fmin (most, way.x)));
  rest[1] = (gint16)floor (PARTS * fmax (-most, fmin (most, way.y)));
}

/* Balls come down in the chosen cells, or in such parts of them, and are followed. */
static void
follow_chosen (const Runs *runs, int run, Vec2 way, int x0, int y0, const Chosen chosen, int part, Balls *balls)
{
  int n = start_balls (runs, &runs->landings[run], way, x0, y0, chosen, part, balls);
  for (int i = 0; n > 0; i++)
    n = bounce_once (runs, balls, n, i + 1 == MOST_BOUNCES);
  roll_all (runs, balls);
}

/* The cells of a tile without balls of their own that cannot do without. */
static bool
choose_again (const Runs *runs, const Balls *balls, int x0, int y0, const Chosen chosen, Chosen again)
{
  const SolveGrid *grid = runs->grid;
  bool is_any = false;
  for (int number = 0; number < N_BALLS; number++)
    {
      Vec2 way;
      bool is_within
          = number % SIDE < TILE && number / SIDE < TILE && x0 + number % SIDE < grid->nx && y0 + number / SIDE < grid->ny;
      again[number] = is_within && !chosen[number] && !way_between (runs, balls, x0, y0, number, &way);
      is_any |= again[number];
    }
  return is_any;
}

/* Cells of a tile that have a second ball. */
static bool
choose_split (const Runs *runs, int x0, int y0, Chosen chosen)
{
  const SolveGrid *grid = runs->grid;
  bool is_any = false;
  for (int number = 0; number < N_BALLS; number++)
    {
      int x = x0 + number % SIDE, y = y0 + number / SIDE;
      chosen[number] = number % SIDE < TILE && number / SIDE < TILE && x < grid->nx && y < grid->ny
                       && runs->second_share[(size_t)y * (size_t)grid->nx + (size_t)x] > 0;
      is_any |= chosen[number];
    }
  return is_any;
}

static void
keep_tile (Runs *runs, int run, int sector, int x0, int y0, int part, const Chosen own, const Chosen kept, const Balls *balls)
{
  const SolveGrid *grid = runs->grid;
  double far = 0;
  for (int number = 0; number < N_BALLS; number++)
    {
      int i = number % SIDE, j = number / SIDE;
      Vec2 way;
      if (i >= TILE || j >= TILE || x0 + i >= grid->nx || y0 + j >= grid->ny || (kept != NULL && !kept[number]))
        continue;
      if (own[number])
        way = way_of (balls, x0, y0, i, j);
      else
        way_between (runs, balls, x0, y0, number, &way);
      way = vec2_scale (way, runs->stretch[run]);
      keep_rest (runs, run, sector, part, (size_t)((y0 + j) * grid->nx + x0 + i), way);
      far = fmax (far, fmax (fabs (way.x), fabs (way.y)));
    }
  note_farthest (&runs->farthest[run], (gint)ceil (far));
}

static void
follow_tile (Runs *runs, int run, int sector, int x0, int y0)
{
  Balls balls;
  Chosen chosen, again;
  Vec2 unit = solve_sector_unit (sector);
  memset (&balls.bounces, 0, sizeof balls.bounces);
  choose_first (runs, x0, y0, chosen);
  follow_chosen (runs, run, unit, x0, y0, chosen, 0, &balls);
  if (choose_again (runs, &balls, x0, y0, chosen, again))
    follow_chosen (runs, run, unit, x0, y0, again, 0, &balls);
  for (int number = 0; number < N_BALLS; number++)
    chosen[number] |= again[number];
  keep_tile (runs, run, sector, x0, y0, 0, chosen, NULL, &balls);
  if (!choose_split (runs, x0, y0, chosen))
    return;
  follow_chosen (runs, run, unit, x0, y0, chosen, 1, &balls);
  keep_tile (runs, run, sector, x0, y0, 1, chosen, chosen, &balls);
}

static void
make_tile (Runs *runs, int run, int sector, int tile)
{
  follow_tile (runs, run, sector, tile % runs->tiles_x * TILE, tile / runs->tiles_x * TILE);
}

/* One thread makes it, the others wait. */
static void
have_tile (Runs *runs, int run, int sector, int tile)
{
  gint *made = &runs->made[tile_index (runs, run, sector, tile)];
  while (g_atomic_int_get (made) != 2)
    if (g_atomic_int_compare_and_exchange (made, 0, 1))
      {
        make_tile (runs, run, sector, tile);
        g_atomic_int_set (made, 2);
      }
    else
      g_thread_yield ();
}

int
runs_rest (Runs *runs, int run, int sector, size_t cell, RunRest rests[MOST_RESTS])
{
  int x = (int)(cell % (size_t)runs->grid->nx), y = (int)(cell / (size_t)runs->grid->nx);
  have_tile (runs, run, sector, y / TILE * runs->tiles_x + x / TILE);
  double second = (double)runs->second_share[cell];
  int n = second > 0 ? MOST_RESTS : 1;
  for (int part = 0; part < n; part++)
    {
      const gint16 *rest = rest_of (runs, run, sector, part, cell);
      rests[part] = (RunRest){ vec2 ((rest[0] + 0.5) / PARTS, (rest[1] + 0.5) / PARTS), part == 0 ? 1 - second : second };
    }
  return n;
}

void
runs_between (double run, Vec2 way, RunShare shares[4])
{
  double turn = (atan2 (way.y, way.x) - PI / 2) / (2 * PI / N_SECTORS), whole = floor (turn), share = turn - whole;
  int first = ((int)whole + 2 * N_SECTORS) % N_SECTORS, length = (int)fmin (N_RUNS - 2, run);
  for (int k = 0; k < 4; k++)
    shares[k] = (RunShare){ length + k / 2, (first + k % 2) % N_SECTORS,
                            (k % 2 ? share : 1 - share) * (k / 2 ? run - length : 1 - (run - length)) };
}

void
runs_follow (Runs *runs, const Runs *before)
{
  for (int run = 0; run < N_RUNS; run++)
    note_farthest (&runs->farthest[run], runs_farthest (before, run));
}

int
runs_farthest (const Runs *runs, int run)
{
  return g_atomic_int_get (&runs->farthest[run]);
}

Impact
runs_impact (const Runs *runs, int run)
{
  return runs->landings[run];
}

double
runs_descent (const Runs *runs, double run)
{
  int first = (int)fmin (N_RUNS - 2, run);
  return runs->descents[first] + (run - first) * (runs->descents[first + 1] - runs->descents[first]);
}

Runs *
runs_new (const SolveGrid *grid, const Conditions *conditions)
{
  Runs *runs = g_new0 (Runs, 1);
  size_t n_fields = (size_t)N_RUNS * N_SECTORS;
  Surface fairway = odds_surface (LIE_FAIRWAY, conditions);
  runs->grid = grid;
  look_at_turf (runs, conditions);
  look_for_starts (runs);
  look_for_mixed (runs);
  look_at_swings (runs, conditions, &fairway);
  runs->tiles_x = (grid->nx + TILE - 1) / TILE;
  runs->n_tiles = runs->tiles_x * ((grid->ny + TILE - 1) / TILE);
  /* Of one piece, which the system gives page by page as tiles are written. */
  for (int part = 0; part < MOST_RESTS; part++)
    runs->rests[part] = g_malloc0 (n_fields * grid->n_cells * 2 * sizeof (gint16));
  runs->made = g_new0 (gint, n_fields * (size_t)runs->n_tiles);
  return runs;
}

void
runs_free (Runs *runs)
{
  if (runs == NULL)
    return;
  for (int part = 0; part < MOST_RESTS; part++)
    {
      g_free (runs->start_x[part]);
      g_free (runs->start_y[part]);
      g_free (runs->rests[part]);
    }
  g_free (runs->second_share);
  g_free (runs->is_mixed);
  g_free (runs->made);
  g_free (runs);
}
