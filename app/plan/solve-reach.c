// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where play that is near the best may come: chances carried forward from the tee, not only with the best shot from each place but with all that cost little
 * more.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* Shots from the tee that cost less than this over the best are followed: golfers ask what they would have cost. */
#define TEE_MARGIN 0.6
/* Shots after it that cost less than this more than the best. */
#define MARGIN 0.05
/* Balls less likely than this in one cell are followed no further. */
#define LEAST_CHANCE 1e-5
/* Shots that are followed. */
#define MOST_SHOTS 6

typedef struct
{
  const PlanSolution *solution;
  float *next; /* [state] */
  int sector;  /* of the shot */
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

static void
play (Reach *reach, const SolveShot *shot, double chance)
{
  reach->sector = solve_sector (shot->way);
  reach->chance = chance;
  solve_shot_exactly (reach->solution, shot, reach_end, reach);
}

static void
play_tee (Reach *reach)
{
  const PlanSolution *solution = reach->solution;
  size_t n = solution->fleet->n_swings;
  g_autofree SolveChoice *choices = g_new (SolveChoice, n);
  solve_choices (solution, solution->tee, LIE_TEE, choices);
  for (size_t i = 0; i < n && choices[i].strokes <= choices[0].strokes + TEE_MARGIN; i++)
    play (reach, &(SolveShot){ solution->tee, LIE_TEE, choices[i].swing, choices[i].way }, 1);
}

static void
play_state (Reach *reach, size_t state, double chance)
{
  const PlanSolution *solution = reach->solution;
  const SolveGrid *grid = solution->grid;
  size_t n_swings = solution->fleet->n_swings;
  SolveShot shot = { .ball = solve_grid_centre (grid, grid->state_cell[state]), .lie = grid->state_lie[state] };
  for (shot.swing = 0; shot.swing < n_swings; shot.swing++)
    {
      size_t i = state * n_swings + shot.swing;
      if (solution->aim[i] < 0 || solution->cost[i] > solution->value[state] + MARGIN)
        continue;
      shot.way = solve_aim_unit (solution->aim[i]);
      play (reach, &shot, chance);
    }
}

float *
solve_reach (const PlanSolution *solution, const gint *cancel)
{
  const SolveGrid *grid = solution->grid;
  float *chances = g_new0 (float, grid->n_states);
  g_autofree float *here = g_new0 (float, grid->n_states), *next = g_new0 (float, grid->n_states);
  Reach reach = { .solution = solution, .next = here };
  play_tee (&reach);
  reach.next = chances;
  reach_cell (&reach, (size_t)solve_grid_cell (grid, solution->tee), 1);
  for (int shot = 0; shot < MOST_SHOTS; shot++)
    {
      memset (next, 0, grid->n_states * sizeof *next);
      reach.next = next;
      for (size_t state = 0; state < grid->n_states; state++)
        {
          if (cancel != NULL && g_atomic_int_get (cancel))
            return chances;
          chances[state] += here[state];
          if (here[state] > LEAST_CHANCE && !grid->state_ends[state])
            play_state (&reach, state, here[state]);
        }
      memcpy (here, next, grid->n_states * sizeof *here);
    }
  return chances;
}
