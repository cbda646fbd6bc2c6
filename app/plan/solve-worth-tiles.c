// SPDX-License-Identifier: GPL-3.0-or-later
/* A field of what coming down is worth, tile by tile as it is looked at. */
#include "solve-run-private.h"

#include <math.h>
#include <string.h>

/* Of a tile: it is made of the values as they are, and some of it is lost. */
#define TILE_IS_READY 1
#define TILE_IS_LOST 2

float *
worth_blocks (const Worth *worth, int size, int run, int sector, bool is_lost)
{
  return worth->fields[size]
         + ((size_t)(run * N_SECTORS + sector) * 2 + is_lost) * (size_t)worth->width[size] * (size_t)worth->height[size];
}

/* Means of blocks of a tile, of the blocks of the size before; one over the edge is as the part of it within. */
static void
make_blocks (const Worth *worth, int size, int x0, int y0, const float *from, float *blocks)
{
  int width = worth->width[size - 1], height = worth->height[size - 1], side = TILE >> size;
  int x1 = MIN (x0 + side, worth->width[size]), y1 = MIN (y0 + side, worth->height[size]);
  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      {
        const float *row = from + 2 * y * width, *next = 2 * y + 1 < height ? row + width : row;
        int right = MIN (2 * x + 1, width - 1);
        blocks[y * worth->width[size] + x] = (row[2 * x] + row[right] + next[2 * x] + next[right]) / 4;
      }
}

static void
make_all_blocks (const Worth *worth, int run, int sector, bool is_lost, int x0, int y0)
{
  for (int size = 1; size <= N_BLOCKS; size++)
    make_blocks (worth, size, x0 >> size, y0 >> size, worth_blocks (worth, size - 1, run, sector, is_lost),
                 worth_blocks (worth, size, run, sector, is_lost));
}

/* One tile as it is filled. */
typedef struct
{
  const Worth *worth;
  Ending ending;
  int x0, y0;
  RestsOfTile rests[MOST_RESTS];
  const float *second_share; /* [cell] */
  const Caught *caught;      /* NULL: not known */
  Caught *finding;           /* NULL: no canopy is looked for */
  int to_canopy;             /* no canopy catches a ball that comes down no nearer to one than so many cells */
} Filling;

/* Does no canopy catch what comes down there? What is not known is not said. */
static inline bool
is_open (const Filling *filling, size_t cell, int within)
{
  if (filling->caught != NULL)
    return filling->caught[within].cell == CAUGHT_NOWHERE;
  return filling->finding == NULL || filling->worth->to_canopy[cell] > filling->to_canopy;
}

/* Where a ball rests that comes down in a cell: the cell to the left and below, and how far on the way to the next ones. */
typedef struct
{
  int x, y;
  size_t at;
  double u, v;
} Resting;

/* False where it comes too near the edge of the grid. */
static inline bool
find_rest (const SolveGrid *grid, int x, int y, const gint16 *rest, Resting *resting)
{
  const int whole = 2 * RUN_PARTS;
  int over_x = whole * x + 2 * rest[0] + 1, over_y = whole * y + 2 * rest[1] + 1;
  if (over_x < 0 || over_y < 0)
    return false;
  resting->x = over_x / whole;
  resting->y = over_y / whole;
  resting->at = (size_t)resting->y * (size_t)grid->nx + (size_t)resting->x;
  resting->u = (over_x % whole) / (double)whole;
  resting->v = (over_y % whole) / (double)whole;
  return resting->x + 1 < grid->nx && resting->y + 1 < grid->ny;
}

/* Value at the rest, between the states of the lie there in the cells about it. False where it is none to be played from, or no cell has it. */
static inline bool
value_at_rest (const Worth *worth, const Resting *resting, double *value)
{
  const SolveGrid *grid = worth->grid;
  size_t at = resting->at, nx = (size_t)grid->nx;
  double u = resting->u, v = resting->v;
  const double weights[4] = { (1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v };
  if ((worth->plain[at] & WORTH_RESTS_ALIKE) != 0)
    {
      const double *row = &worth->open[at], *above = row + nx;
      *value = weights[0] * row[0] + weights[1] * row[1] + weights[2] * above[0] + weights[3] * above[1];
      return true;
    }
  Lie lie = solve_grid_lie (grid, resting->x + u, resting->y + v);
  const int *state_at = grid->state_at[lie];
  if (state_at == NULL || lie == LIE_OUT_OF_BOUNDS || lie == LIE_PENALTY)
    return false;
  const int states[4] = { state_at[at], state_at[at + 1], state_at[at + nx], state_at[at + nx + 1] };
  double sum = 0, all = 0;
  for (int k = 0; k < 4; k++)
    if (states[k] >= 0)
      {
        all += weights[k];
        sum += weights[k] * worth->value[states[k]];
      }
  *value = sum / all;
  return all > 0;
}

/* What is worth_end_ball's where no canopy catches balls, none stays where it comes down and all rest where they are played from. False where there is more to it. */
static inline bool
end_plainly (const Filling *filling, int x, int y, size_t cell, int within, float *value)
{
  const Worth *worth = filling->worth;
  Resting resting;
  double first, second;
  if ((worth->plain[cell] & WORTH_KEEPS_NONE) == 0 || !is_open (filling, cell, within)
      || !find_rest (worth->grid, x, y, filling->rests[0][within], &resting) || !value_at_rest (worth, &resting, &first))
    return false;
  *value = (float)first;
  double share = (double)filling->second_share[cell];
  if (!(share > 0))
    return true;
  if (!find_rest (worth->grid, x, y, filling->rests[1][within], &resting) || !value_at_rest (worth, &resting, &second))
    return false;
  *value = (float)((1 - share) * first + share * second);
  return true;
}

/* `share` of the balls runs on to one of their rests. */
static void
end_at_rest (Filling *filling, int x, int y, const gint16 *rest, double share)
{
  Resting resting;
  double value;
  if (find_rest (filling->worth->grid, x, y, rest, &resting) && value_at_rest (filling->worth, &resting, &value))
    filling->ending.value += share * value;
  else
    worth_end_at (&filling->ending, x + (rest[0] + 0.5) / RUN_PARTS, y + (rest[1] + 0.5) / RUN_PARTS, share);
}

/* All of worth_end_ball's. */
static void
end_with_all (Filling *filling, int x, int y, size_t cell, int within)
{
  const Worth *worth = filling->worth;
  Ending *ending = &filling->ending;
  double stays = worth->staying_share[cell], second = (double)filling->second_share[cell], share = 1;
  ending->caught = filling->caught != NULL ? &filling->caught[within] : NULL;
  ending->finding = filling->finding != NULL ? &filling->finding[within] : NULL;
  ending->value = ending->lost = 0;
  if (!is_open (filling, cell, within))
    share -= worth_end_in_canopies (ending, x, y, 1);
  if (stays > 0)
    worth_end_kept (ending, cell, share * stays);
  share *= 1 - stays;
  if (!(share > 0))
    return;
  end_at_rest (filling, x, y, filling->rests[0][within], second > 0 ? (1 - second) * share : share);
  if (second > 0)
    end_at_rest (filling, x, y, filling->rests[1][within], second * share);
}

/* Worth and loss of the tile's cells. Returns whether anything is lost. What is lost is the same at all times, and where nothing is, that stands there already. */
static bool
fill_tile (Filling *filling, int run)
{
  const Worth *worth = filling->worth;
  const SolveGrid *grid = worth->grid;
  int sector = filling->ending.sector;
  float *values = worth_blocks (worth, 0, run, sector, false), *losses = worth_blocks (worth, 0, run, sector, true);
  bool is_lost = false;
  for (int y = filling->y0; y < filling->y0 + TILE && y < grid->ny; y++)
    for (int x = filling->x0; x < filling->x0 + TILE && x < grid->nx; x++)
      {
        size_t cell = (size_t)y * (size_t)grid->nx + (size_t)x;
        int within = (y - filling->y0) * TILE + x - filling->x0;
        double lost = 0;
        if (!end_plainly (filling, x, y, cell, within, &values[cell]))
          {
            end_with_all (filling, x, y, cell, within);
            values[cell] = (float)filling->ending.value;
            lost = filling->ending.lost;
          }
        if (lost > 0)
          {
            losses[cell] = (float)lost;
            is_lost = true;
          }
      }
  make_all_blocks (worth, run, sector, false, filling->x0, filling->y0);
  if (is_lost)
    make_all_blocks (worth, run, sector, true, filling->x0, filling->y0);
  return is_lost;
}

/* Of tiles near which no canopy stands. */
static const Caught nothing_caught[TILE * TILE];

/* What canopies catch of a tile's balls is kept, unless that is nothing. */
static void
keep_caught (const Caught *finding, const Caught **kept)
{
  bool is_any = false;
  for (int i = 0; i < TILE * TILE; i++)
    is_any |= finding[i].cell != CAUGHT_NOWHERE;
  *kept = is_any ? g_memdup2 (finding, TILE * TILE * sizeof *finding) : nothing_caught;
}

static void
copy_rows (const float *from, float *to, int width, int x0, int x1, int y0, int y1)
{
  for (int y = y0; y < y1; y++)
    memcpy (&to[y * width + x0], &from[y * width + x0], (size_t)(x1 - x0) * sizeof *to);
}

static size_t
row_of_tiles (const Worth *worth, int run, int sector, int row)
{
  return (size_t)(run * N_SECTORS + sector) * (size_t)worth->tiles_y + (size_t)row;
}

static void
tell_ready (const Worth *worth, int run, int sector, int tile, guint8 ready)
{
  __atomic_store_n (&worth->ready[(size_t)(run * N_SECTORS + sector) * worth->n_tiles + (size_t)tile], ready, __ATOMIC_RELEASE);
  if (worth->ready_rows == NULL)
    return;
  size_t row = row_of_tiles (worth, run, sector, tile / worth->tiles_x);
  guint64 bit = (guint64)1 << (tile % worth->tiles_x);
  if ((ready & TILE_IS_LOST) != 0)
    __atomic_fetch_or (&worth->lost_rows[row], bit, __ATOMIC_RELAXED);
  __atomic_fetch_or (&worth->ready_rows[row], bit, __ATOMIC_RELEASE);
}

void
worth_drop_tile (Worth *worth, int run, int sector, int tile)
{
  worth->ready[(size_t)(run * N_SECTORS + sector) * worth->n_tiles + (size_t)tile] = 0;
  if (worth->ready_rows != NULL)
    worth->ready_rows[row_of_tiles (worth, run, sector, tile / worth->tiles_x)] &= ~((guint64)1 << (tile % worth->tiles_x));
}

/* A tile that is as it was in the fields from before. False where it is not, or was not made there. */
static bool
take_tile (const Worth *worth, int run, int sector, int tile)
{
  const Worth *before = worth->before;
  size_t at = (size_t)(run * N_SECTORS + sector) * worth->n_tiles + (size_t)tile;
  guint8 ready = before != NULL ? __atomic_load_n (&before->ready[at], __ATOMIC_ACQUIRE) : 0;
  if (ready == 0 || !worth_is_as_before (worth, run, sector, tile))
    return false;
  for (int size = 0; size <= N_BLOCKS; size++)
    {
      int side = TILE >> size, x0 = tile % worth->tiles_x * side, y0 = tile / worth->tiles_x * side;
      int x1 = MIN (x0 + side, worth->width[size]), y1 = MIN (y0 + side, worth->height[size]);
      for (int is_lost = 0; is_lost <= ((ready & TILE_IS_LOST) != 0); is_lost++)
        copy_rows (worth_blocks (before, size, run, sector, is_lost), worth_blocks (worth, size, run, sector, is_lost),
                   worth->width[size], x0, x1, y0, y1);
    }
  /* It is asked where its balls rest when values change. */
  RestsOfTile rests[MOST_RESTS];
  const float *second_share;
  runs_rests (worth->runs, run, sector, tile, rests, &second_share);
  tell_ready (worth, run, sector, tile, ready);
  return true;
}

/* What canopies catch is as it was before, where none of them nor the ground has changed. */
static void
take_caught (const Worth *worth, size_t at)
{
  const Worth *before = worth->before;
  if (worth->caught[at] != NULL || !worth->is_same_above || __atomic_load_n (&before->ready[at], __ATOMIC_ACQUIRE) == 0)
    return;
  const Caught *caught = before->caught[at];
  worth->caught[at] = caught == NULL || caught == nothing_caught ? caught : g_memdup2 (caught, TILE * TILE * sizeof *caught);
}

/* How far behind the place where they come down canopies may catch such balls, in cells and one more. */
static int
canopies_reach (const Worth *worth, int run)
{
  const SolveGrid *grid = worth->grid;
  return (int)ceil (grid->highest_canopy_m / (runs_descent (worth->runs, run) * grid->cell_m)) + 1;
}

static void
make_tile (const Worth *worth, int run, int sector, int tile)
{
  size_t at = (size_t)(run * N_SECTORS + sector) * worth->n_tiles + (size_t)tile;
  Caught finding[TILE * TILE];
  take_caught (worth, at);
  const Caught *known = worth->caught[at] != nothing_caught ? worth->caught[at] : NULL;
  bool has_canopy = worth->grid->canopy != NULL && worth->caught[at] != nothing_caught, is_new = has_canopy && known == NULL;
  for (int i = 0; i < TILE * TILE && is_new; i++)
    finding[i] = (Caught){ CAUGHT_NOWHERE, 0 };
  Filling filling = { .worth = worth,
                      .ending = { .worth = worth, .sector = sector, .way = solve_sector_unit (sector), .run = run },
                      .x0 = tile % worth->tiles_x * TILE,
                      .y0 = tile / worth->tiles_x * TILE,
                      .caught = known,
                      .finding = is_new ? finding : NULL,
                      .to_canopy = is_new ? canopies_reach (worth, run) : 0 };
  runs_rests (worth->runs, run, sector, tile, filling.rests, &filling.second_share);
  bool is_lost = fill_tile (&filling, run);
  if (is_new)
    keep_caught (finding, &worth->caught[at]);
  tell_ready (worth, run, sector, tile, (guint8)(TILE_IS_READY | (is_lost ? TILE_IS_LOST : 0)));
}

/* One thread makes it, the others wait for the microseconds that it takes. */
static void
have_tile (const Worth *worth, int run, int sector, int tile)
{
  size_t at = (size_t)(run * N_SECTORS + sector) * worth->n_tiles + (size_t)tile;
  while (__atomic_load_n (&worth->ready[at], __ATOMIC_ACQUIRE) == 0)
    {
      if (!g_atomic_int_compare_and_exchange (&worth->making[at], 0, 1))
        {
          g_thread_yield ();
          continue;
        }
      if (__atomic_load_n (&worth->ready[at], __ATOMIC_ACQUIRE) == 0 && !take_tile (worth, run, sector, tile))
        make_tile (worth, run, sector, tile);
      g_atomic_int_set (&worth->making[at], 0);
    }
}

CellBox
worth_tiles_of (const Worth *worth, CellBox cells)
{
  const SolveGrid *grid = worth->grid;
  return (CellBox){ CLAMP (cells.x0, 0, grid->nx - 1) / TILE, CLAMP (cells.y0, 0, grid->ny - 1) / TILE,
                    CLAMP (cells.x1, 0, grid->nx - 1) / TILE, CLAMP (cells.y1, 0, grid->ny - 1) / TILE };
}

/* One row of them, tile by tile. */
static bool
look_at_row (const Worth *worth, int run, int sector, int x0, int x1, int y)
{
  size_t first = (size_t)(run * N_SECTORS + sector) * worth->n_tiles;
  guint8 all = 0;
  for (int x = x0; x <= x1; x++)
    {
      have_tile (worth, run, sector, y * worth->tiles_x + x);
      all |= __atomic_load_n (&worth->ready[first + (size_t)(y * worth->tiles_x + x)], __ATOMIC_ACQUIRE);
    }
  return (all & TILE_IS_LOST) != 0;
}

bool
worth_look (const Worth *worth, int run, int sector, CellBox tiles)
{
  bool is_lost = false;
  if (worth->ready_rows == NULL)
    {
      for (int y = tiles.y0; y <= tiles.y1; y++)
        is_lost |= look_at_row (worth, run, sector, tiles.x0, tiles.x1, y);
      return is_lost;
    }
  guint64 wanted = ~(guint64)0 >> (63 - (tiles.x1 - tiles.x0)) << tiles.x0;
  size_t row = row_of_tiles (worth, run, sector, tiles.y0);
  for (int y = tiles.y0; y <= tiles.y1; y++, row++)
    if ((wanted & ~__atomic_load_n (&worth->ready_rows[row], __ATOMIC_ACQUIRE)) != 0)
      is_lost |= look_at_row (worth, run, sector, tiles.x0, tiles.x1, y);
    else
      is_lost |= (wanted & __atomic_load_n (&worth->lost_rows[row], __ATOMIC_RELAXED)) != 0;
  return is_lost;
}

void
worth_free_caught (Worth *worth)
{
  for (size_t i = 0; i < N_RUNS * N_SECTORS * worth->n_tiles; i++)
    if (worth->caught[i] != nothing_caught)
      g_free ((Caught *)worth->caught[i]);
  g_free (worth->caught);
}
