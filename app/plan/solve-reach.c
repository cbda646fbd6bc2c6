// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where play that is near the best may come: chances carried forward from the tee, not only with the best shot from each place but with all that cost little
 * more.
 */
#include "solve-run-private.h"

#include <math.h>
#include <string.h>

/* Shots from the tee that cost less than this over the best are followed: golfers ask what they would have cost. */
#define TEE_MARGIN 0.6
/* Shots after it that cost less than this more than the best. */
#define MARGIN 0.05
/* Balls less likely than this in one cell are followed no further. */
#define LEAST_CHANCE 1e-5
/* Shots that are followed: so many more than full swings take from tee to hole, and no fewer than LEAST_SHOTS. */
#define MORE_SHOTS 2
#define LEAST_SHOTS 6
#define MOST_SHOTS 60

/* Cells out to so many deviations count. */
#define REACH_SDS 4.0
/* Less than this of all balls comes down in a cell that is left out. */
#define LEAST_LANDED 3e-8f

typedef struct
{
  const PlanSolution *solution;
  float *next;   /* [state] */
  float *landed; /* [run][sector][cell] balls of the shot in hand that come down so, from everywhere */
  int sector;    /* of those that are followed */
  double chance;
} Reach;

static void
reach_cell (Reach *reach, size_t cell, double share)
{
  const SolveGrid *grid = reach->solution->grid;
  for (int lie = 0; lie < N_LIES; lie++)
    if (grid->state_at[lie] != NULL && grid->state_at[lie][cell] >= 0)
      reach->next[grid->state_at[lie][cell]] += (float)(share * grid->cover[lie][cell]);
}

static void
reach_end (void *data, size_t cell, Lie lie, double share, double strokes)
{
  Reach *reach = data;
  const SolveGrid *grid = reach->solution->grid;
  share *= reach->chance;
  if (lie == LIE_PENALTY)
    {
      const Relief *relief = &grid->reliefs[reach->sector][grid->penalty_of[cell]];
      for (int i = 0; i < relief->n_drops; i++)
        reach_cell (reach, (size_t)relief->drops[i], share);
    }
  else if (lie != LIE_OUT_OF_BOUNDS)
    reach->next[grid->state_at[lie][cell]] += (float)share;
}

/* ---- balls of many shots together ---- */

static float *
landed_at (const Reach *reach, int run, int sector)
{
  return &reach->landed[(size_t)(run * N_SECTORS + sector) * reach->solution->grid->n_cells];
}

/* A row of the normal: each weight from the one before it. */
static void
row_of_bell (const Landing *landing, float narrow, int x0, int x1, float dy, float *weights)
{
  float middle = landing->x + landing->xy / landing->yy * dy, by = 1 / narrow, first = (float)x0 - middle;
  float weight = expf (-0.5f * (dy * dy / landing->yy + first * first * by));
  float ratio = expf (-by * (first + 0.5f)), change = expf (-by);
  for (int x = x0; x <= x1; x++)
    {
      weights[x - x0] = weight;
      weight *= ratio;
      ratio *= change;
    }
}

/* `chance` of all balls comes down so. */
static void
land (Reach *reach, const Landing *landing, double chance)
{
  const SolveGrid *grid = reach->solution->grid;
  int run = MIN ((int)landing->run, N_RUNS - 2), next = (landing->sector + 1) % N_SECTORS;
  float further = landing->run - (float)run, narrow = landing->xx - landing->xy * landing->xy / landing->yy;
  float *const fields[4] = { landed_at (reach, run, landing->sector), landed_at (reach, run, next),
                             landed_at (reach, run + 1, landing->sector), landed_at (reach, run + 1, next) };
  const float shares[4] = { (1 - further) * (1 - landing->share), (1 - further) * landing->share,
                            further * (1 - landing->share), further * landing->share };
  float wide = REACH_SDS * sqrtf (landing->xx), high = REACH_SDS * sqrtf (landing->yy);
  int x0 = (int)floorf (landing->x - wide), x1 = (int)ceilf (landing->x + wide);
  int y0 = (int)floorf (landing->y - high), y1 = (int)ceilf (landing->y + high);
  float scale = (float)chance / (2 * (float)PI * sqrtf (narrow * landing->yy));
  g_autofree float *weights = g_new (float, (size_t)(x1 - x0 + 1));
  for (int y = y0; y <= y1; y++)
    {
      row_of_bell (landing, narrow, x0, x1, (float)y - landing->y, weights);
      size_t row = (size_t)CLAMP (y, 0, grid->ny - 1) * (size_t)grid->nx;
      for (int k = 0; k < 4; k++)
        for (int x = x0; shares[k] > 0 && x <= x1; x++)
          fields[k][row + (size_t)CLAMP (x, 0, grid->nx - 1)] += scale * shares[k] * weights[x - x0];
    }
}

static void
play (Reach *reach, const SwingAims *aims, int aim, Vec2 ball, double height_m, double chance)
{
  double poor = aims->poor != NULL ? (double)aims->poor_share : 0;
  Landing landing = solve_landing (reach->solution, aims, aim, ball, height_m);
  land (reach, &landing, chance * (1 - poor));
  if (aims->poor == NULL)
    return;
  landing = solve_poor_landing (reach->solution, aims, aim, ball, height_m, &landing);
  land (reach, &landing, chance * poor);
}

static void
play_tee (Reach *reach)
{
  const PlanSolution *solution = reach->solution;
  size_t n = solution->fleet->n_swings;
  g_autofree SolveChoice *choices = g_new (SolveChoice, n);
  double height_m = solve_grid_height (solution->grid, solution->tee);
  solve_rough_choices (solution, solution->tee, LIE_TEE, TEE_MARGIN, choices);
  for (size_t i = 0; i < n && choices[i].strokes <= choices[0].strokes + TEE_MARGIN; i++)
    {
      const SwingAims *aims = solution->aims[choices[i].swing * N_LIES + LIE_TEE];
      play (reach, aims, solve_aim (choices[i].way), solution->tee, height_m, 1);
    }
}

static void
play_state (Reach *reach, size_t state, double chance)
{
  const PlanSolution *solution = reach->solution;
  const SolveGrid *grid = solution->grid;
  size_t n_swings = solution->fleet->n_swings;
  int cell = grid->state_cell[state];
  Vec2 ball = solve_grid_centre (grid, cell);
  double height_m = grid->height_m != NULL ? grid->height_m[cell] : 0;
  for (size_t swing = 0; swing < n_swings; swing++)
    {
      int aim = solution->aim[state * n_swings + swing];
      if (aim < 0 || (double)solution->cost[state * n_swings + swing] > solution->value[state] + MARGIN)
        continue;
      const SwingAims *aims = solution->aims[swing * N_LIES + (size_t)grid->state_lie[state]];
      play (reach, aims, aim, ball, height_m, chance);
    }
}

/* What has come down runs on to where it rests. */
static void
follow_landed (Reach *reach)
{
  const PlanSolution *solution = reach->solution;
  size_t n_cells = solution->grid->n_cells;
  reach->chance = 1;
  for (int run = 0; run < N_RUNS; run++)
    for (int sector = 0; sector < N_SECTORS; sector++)
      {
        const float *landed = landed_at (reach, run, sector);
        Ending ending = { .worth = solution->worth,
                          .sector = -1,
                          .drop_sector = sector,
                          .way = solve_sector_unit (sector),
                          .run = run,
                          .shares = { { run, sector, 1 } },
                          .visit = reach_end,
                          .data = reach };
        reach->sector = sector;
        for (size_t cell = 0; cell < n_cells; cell++)
          if (landed[cell] > LEAST_LANDED)
            worth_end_ball (&ending, cell, (double)landed[cell]);
      }
}

static int
shots_followed (const PlanSolution *solution)
{
  double swings = ceil (vec2_distance (solution->tee, solution->grid->target) / solution->flights->most_reach_m);
  return (int)fmin (MOST_SHOTS, fmax (LEAST_SHOTS, swings + MORE_SHOTS));
}

float *
solve_reach (const PlanSolution *solution, const gint *cancel)
{
  const SolveGrid *grid = solution->grid;
  float *chances = g_new0 (float, grid->n_states);
  g_autofree float *here = g_new0 (float, grid->n_states), *next = g_new0 (float, grid->n_states);
  size_t n_landed = (size_t)N_RUNS * N_SECTORS * grid->n_cells;
  g_autofree float *landed = g_new (float, n_landed);
  Reach reach = { .solution = solution, .next = here, .landed = landed };
  memset (landed, 0, n_landed * sizeof *landed);
  play_tee (&reach);
  follow_landed (&reach);
  reach.next = chances;
  reach_cell (&reach, (size_t)solve_grid_cell (grid, solution->tee), 1);
  for (int shot = 0; shot < shots_followed (solution); shot++)
    {
      memset (next, 0, grid->n_states * sizeof *next);
      memset (landed, 0, n_landed * sizeof *landed);
      reach.next = next;
      for (size_t state = 0; state < grid->n_states; state++)
        {
          if (cancel != NULL && g_atomic_int_get (cancel))
            return chances;
          chances[state] += here[state];
          if (here[state] > LEAST_CHANCE && !grid->state_ends[state])
            play_state (&reach, state, (double)here[state]);
        }
      follow_landed (&reach);
      memcpy (here, next, grid->n_states * sizeof *here);
    }
  return chances;
}
