// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Balls that bounce and roll over the cells of a grid, a tile of them at a time: the model of app/flight/run.c, as the odds follow theirs (app/odds/rest-run.c), with the ground as the
 * cells say.
 */
#include "solve-run-parts-private.h"

#include <math.h>
#include <string.h>

/* Places are kept in such parts of a cell, as the middles of those, so that none lies on an edge of cells. */
#define PARTS ((double)RUN_PARTS)
/* A cell goes without a ball of its own only where those about it rest no farther apart than this, in cells. */
#define MOST_APART 1.0

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

/* From the middle of a cell at such a place of the tile to its ball's rest. */
static Vec2
way_of (const Balls *balls, int x0, int y0, int i, int j)
{
  int number = j * SIDE + i;
  return vec2 ((double)balls->rest_x[number] - (x0 + i), (double)balls->rest_y[number] - (y0 + j));
}

/* Of a cell without a ball the mean of the two or four about it. False where those have not rested alike: near each other, and on one lie. */
static bool
way_between (const Runs *runs, const Balls *balls, int x0, int y0, int number, Vec2 *way)
{
  int i = number % SIDE, j = number / SIDE;
  Vec2 first = { 0, 0 }, sum = { 0, 0 };
  Lie lie = LIE_NONE;
  int n = 0;
  for (int row = j - j % 2; row <= j + j % 2; row += 2)
    for (int column = i - i % 2; column <= i + i % 2; column += 2)
      {
        Vec2 here = way_of (balls, x0, y0, column, row);
        Lie there = solve_grid_lie (runs->grid, x0 + column + here.x, y0 + row + here.y);
        if (n == 0)
          {
            first = here;
            lie = there;
          }
        Vec2 apart = vec2_sub (here, first);
        if (there != lie || !(vec2_dot (apart, apart) < MOST_APART * MOST_APART))
          return false;
        sum = vec2_add (sum, here);
        n++;
      }
  *way = vec2_scale (sum, 1.0 / n);
  return true;
}

static size_t
tile_index (const Runs *runs, int run, int sector, int tile)
{
  return (size_t)(run * N_SECTORS + sector) * (size_t)runs->n_tiles + (size_t)tile;
}

/* Another thread may be about the same. */
static void
note_farther (gint *extent, int sign, int far)
{
  gint known = g_atomic_int_get (extent);
  while (sign * far > sign * known && !g_atomic_int_compare_and_exchange (extent, known, far))
    known = g_atomic_int_get (extent);
}

void
runs_note_extent (Runs *runs, int run, int sector, CellBox far)
{
  gint *extent = runs->extents[run][sector];
  note_farther (&extent[0], -1, far.x0);
  note_farther (&extent[1], -1, far.y0);
  note_farther (&extent[2], 1, far.x1);
  note_farther (&extent[3], 1, far.y1);
}

static void
keep_rest (gint16 rest[2], Vec2 way)
{
  double most = G_MAXINT16 / PARTS;
  rest[0] = (gint16)floor (PARTS * fmax (-most, fmin (most, way.x)));
  rest[1] = (gint16)floor (PARTS * fmax (-most, fmin (most, way.y)));
}

/* The cells of a tile without balls of their own that cannot do without; the rests of the others. */
static bool
choose_again (const Runs *runs, Balls *balls, int x0, int y0, const Chosen chosen, Chosen again)
{
  const SolveGrid *grid = runs->grid;
  bool is_any = false;
  for (int number = 0; number < N_BALLS; number++)
    {
      Vec2 way;
      int i = number % SIDE, j = number / SIDE;
      again[number] = false;
      if (i >= TILE || j >= TILE || x0 + i >= grid->nx || y0 + j >= grid->ny || chosen[number])
        continue;
      again[number] = !way_between (runs, balls, x0, y0, number, &way);
      is_any |= again[number];
      if (again[number])
        continue;
      balls->rest_x[number] = (float)(x0 + i + way.x);
      balls->rest_y[number] = (float)(y0 + j + way.y);
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
keep_tile (const Runs *runs, int run, int x0, int y0, int part, const Chosen kept, const Balls *balls, RestTile *rests)
{
  const SolveGrid *grid = runs->grid;
  for (int number = 0; number < N_BALLS; number++)
    {
      int i = number % SIDE, j = number / SIDE;
      if (i < TILE && j < TILE && x0 + i < grid->nx && y0 + j < grid->ny && (kept == NULL || kept[number]))
        keep_rest (rests->rests[part][j * TILE + i], vec2_scale (way_of (balls, x0, y0, i, j), runs->swings.stretch[run]));
    }
}

static CellBox
box_around (CellBox box, int x, int y)
{
  return (CellBox){ MIN (box.x0, x), MIN (box.y0, y), MAX (box.x1, x + 1), MAX (box.y1, y + 1) };
}

/* The tile's cells, those between which its balls rest, and those that they came to. */
static void
note_rests (Runs *runs, int run, int sector, int tile, const Balls *balls, RestTile *rests)
{
  const SolveGrid *grid = runs->grid;
  CellBox cells = cell_box_of_tile (grid, tile), box = cells, far = { 0, 0, 0, 0 };
  rests->way = (CellBox){ MIN (cells.x0, (int)floorf (balls->least_x)), MIN (cells.y0, (int)floorf (balls->least_y)),
                          MAX (cells.x1, (int)ceilf (balls->most_x)), MAX (cells.y1, (int)ceilf (balls->most_y)) };
  for (int y = cells.y0; y <= cells.y1; y++)
    for (int x = cells.x0; x <= cells.x1; x++)
      {
        size_t cell = (size_t)y * (size_t)grid->nx + (size_t)x;
        int within = (y - cells.y0) * TILE + x - cells.x0;
        for (int part = 0; part < (runs->second_share[cell] > 0 ? MOST_RESTS : 1); part++)
          {
            const gint16 *rest = rests->rests[part][within];
            int i = (int)floor (rest[0] / PARTS), j = (int)floor (rest[1] / PARTS);
            far = box_around (far, i, j);
            box = box_around (box, x + i, y + j);
          }
      }
  rests->box = box;
  runs_note_extent (runs, run, sector, far);
}

/* Where no cell has a second rest there is no room for any. */
static RestTile *
rest_tile_new (bool is_split)
{
  return g_atomic_rc_box_alloc0 (is_split ? sizeof (RestTile) : offsetof (RestTile, rests[1]));
}

/* All that is read beyond the last ball is a number. */
static void
begin_balls (Balls *balls, int x0, int y0)
{
  memset (&balls->bounces, 0, sizeof balls->bounces);
  balls->least_x = balls->most_x = (float)x0;
  balls->least_y = balls->most_y = (float)y0;
}

/* Of a level tile about which the turf is one as far as its balls come: those all go the same way, so one is followed. NULL: it is no such tile. */
static RestTile *
follow_one (Runs *runs, int run, int sector, int tile, Balls *balls)
{
  const Chosen first = { true };
  CellBox cells = cell_box_of_tile (runs->grid, tile), way = cells;
  if (runs->edges == NULL || marked_any (runs->edges, cells))
    return NULL;
  runs_follow_balls (runs, run, solve_sector_unit (sector), cells.x0, cells.y0, first, 0, balls);
  way.x0 += MIN (0, (int)floorf (balls->least_x) - cells.x0);
  way.y0 += MIN (0, (int)floorf (balls->least_y) - cells.y0);
  way.x1 += MAX (0, (int)ceilf (balls->most_x) - cells.x0);
  way.y1 += MAX (0, (int)ceilf (balls->most_y) - cells.y0);
  if (marked_any (runs->edges, (CellBox){ way.x0 - 1, way.y0 - 1, way.x1 + 1, way.y1 + 1 }))
    return NULL;
  RestTile *rests = rest_tile_new (runs->second_share[(size_t)cells.y0 * (size_t)runs->grid->nx + (size_t)cells.x0] > 0);
  gint16 rest[2];
  keep_rest (rest, vec2_scale (way_of (balls, cells.x0, cells.y0, 0, 0), runs->swings.stretch[run]));
  for (int within = 0; within < TILE * TILE; within++)
    memcpy (rests->rests[0][within], rest, sizeof rest);
  int x = (int)floor (rest[0] / PARTS), y = (int)floor (rest[1] / PARTS);
  rests->way = way;
  rests->box = (CellBox){ cells.x0 + MIN (0, x), cells.y0 + MIN (0, y), cells.x1 + MAX (0, x + 1), cells.y1 + MAX (0, y + 1) };
  runs_note_extent (runs, run, sector, box_around ((CellBox){ 0, 0, 0, 0 }, x, y));
  return rests;
}

static RestTile *
follow_tile (Runs *runs, int run, int sector, int tile)
{
  Balls balls;
  Chosen chosen, again, split;
  Vec2 unit = solve_sector_unit (sector);
  int x0 = tile % runs->tiles_x * TILE, y0 = tile / runs->tiles_x * TILE;
  begin_balls (&balls, x0, y0);
  RestTile *one = follow_one (runs, run, sector, tile, &balls);
  if (one != NULL)
    return one;
  bool is_split = choose_split (runs, x0, y0, split);
  RestTile *rests = rest_tile_new (is_split);
  begin_balls (&balls, x0, y0);
  choose_first (runs, x0, y0, chosen);
  runs_follow_balls (runs, run, unit, x0, y0, chosen, 0, &balls);
  if (choose_again (runs, &balls, x0, y0, chosen, again))
    runs_follow_balls (runs, run, unit, x0, y0, again, 0, &balls);
  keep_tile (runs, run, x0, y0, 0, NULL, &balls, rests);
  if (is_split)
    {
      runs_follow_balls (runs, run, unit, x0, y0, split, 1, &balls);
      keep_tile (runs, run, x0, y0, 1, split, &balls, rests);
    }
  note_rests (runs, run, sector, tile, &balls, rests);
  return rests;
}

/* One thread makes it, the others wait. */
static void
have_tile (Runs *runs, int run, int sector, int tile)
{
  gint *made = &runs->made[tile_index (runs, run, sector, tile)];
  while (g_atomic_int_get (made) != TILE_IS_MADE)
    if (g_atomic_int_compare_and_exchange (made, 0, 1))
      {
        RestTile *taken = runs_take_tile (runs, run, sector, tile);
        runs->tiles[tile_index (runs, run, sector, tile)] = taken != NULL ? taken : follow_tile (runs, run, sector, tile);
        g_atomic_int_set (made, TILE_IS_MADE);
      }
    else
      g_thread_yield ();
}

int
runs_rest (Runs *runs, int run, int sector, size_t cell, RunRest rests[MOST_RESTS])
{
  int x = (int)(cell % (size_t)runs->grid->nx), y = (int)(cell / (size_t)runs->grid->nx);
  int tile = y / TILE * runs->tiles_x + x / TILE;
  have_tile (runs, run, sector, tile);
  const RestTile *made = runs->tiles[tile_index (runs, run, sector, tile)];
  double second = (double)runs->second_share[cell];
  int n = second > 0 ? MOST_RESTS : 1;
  for (int part = 0; part < n; part++)
    {
      const gint16 *rest = made->rests[part][y % TILE * TILE + x % TILE];
      rests[part] = (RunRest){ vec2 ((rest[0] + 0.5) / PARTS, (rest[1] + 0.5) / PARTS), part == 0 ? 1 - second : second };
    }
  return n;
}

void
runs_rests (Runs *runs, int run, int sector, int tile, RestsOfTile rests[MOST_RESTS], const float **second_share)
{
  have_tile (runs, run, sector, tile);
  for (int part = 0; part < MOST_RESTS; part++)
    rests[part] = (RestsOfTile)runs->tiles[tile_index (runs, run, sector, tile)]->rests[part];
  *second_share = runs->second_share;
}

int
runs_sector (Vec2 way, double *share)
{
  double turn = (atan2 (way.y, way.x) - PI / 2) / (2 * PI / N_SECTORS), whole = floor (turn);
  *share = turn - whole;
  return ((int)whole + 2 * N_SECTORS) % N_SECTORS;
}

void
runs_between (int length, int sector, double shorter, double right, RunShare shares[4])
{
  for (int k = 0; k < 4; k++)
    shares[k] = (RunShare){ length + k / 2, (sector + k % 2) % N_SECTORS,
                            (k % 2 ? 1 - right : right) * (k / 2 ? 1 - shorter : shorter) };
}

int
runs_farthest (const Runs *runs, int run)
{
  int farthest = 0;
  for (int sector = 0; sector < N_SECTORS; sector++)
    {
      CellBox extent = runs_extent (runs, run, sector);
      farthest = MAX (farthest, MAX (MAX (-extent.x0, extent.x1), MAX (-extent.y0, extent.y1)));
    }
  return farthest;
}

CellBox
runs_extent (const Runs *runs, int run, int sector)
{
  const gint *extent = runs->extents[run][sector];
  return (CellBox){ g_atomic_int_get (&extent[0]), g_atomic_int_get (&extent[1]), g_atomic_int_get (&extent[2]),
                    g_atomic_int_get (&extent[3]) };
}

CellBox
runs_rest_box (const Runs *runs, int run, int sector, int tile)
{
  return runs->tiles[tile_index (runs, run, sector, tile)]->box;
}

Impact
runs_impact (const Runs *runs, int run)
{
  return runs->swings.landings[run];
}

double
runs_descent (const Runs *runs, double run)
{
  int first = (int)fmin (N_RUNS - 2, run);
  return runs->swings.descents[first] + (run - first) * (runs->swings.descents[first + 1] - runs->swings.descents[first]);
}

Runs *
runs_new (const SolveGrid *grid, const Conditions *conditions, const RunSwings *swings)
{
  Runs *runs = g_new0 (Runs, 1);
  size_t n_fields = (size_t)N_RUNS * N_SECTORS;
  runs->grid = grid;
  runs->swings = *swings;
  runs_look_at_ground (runs, conditions);
  runs->tiles_x = (grid->nx + TILE - 1) / TILE;
  runs->n_tiles = runs->tiles_x * ((grid->ny + TILE - 1) / TILE);
  runs->made = g_new0 (gint, n_fields * (size_t)runs->n_tiles);
  runs->tiles = g_new0 (RestTile *, n_fields * (size_t)runs->n_tiles);
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
    }
  g_free (runs->second_share);
  g_free (runs->is_mixed);
  g_free (runs->made);
  for (size_t i = 0; i < (size_t)N_RUNS * N_SECTORS * (size_t)runs->n_tiles; i++)
    if (runs->tiles[i] != NULL)
      g_atomic_rc_box_release (runs->tiles[i]);
  g_free (runs->tiles);
  marked_free (runs->others);
  marked_free (runs->edges);
  g_free (runs);
}
