// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The chance of each score: the balls' chances are carried forward from the tee, cell by cell and shot by shot, with the best shot from each.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

/* Balls less likely than this in one cell are taken to need what is expected from there. */
#define LEAST_CHANCE 2e-4

/* Cells smaller than this are gathered by fours between shots. */
#define GATHER_M 3.0

typedef struct
{
  size_t state;
  double share;
} Stop;

/* One shot's ends, while it is played. */
typedef struct
{
  const SolveGrid *grid;
  GArray *stops;                           /* Stop */
  double after_drops[PLAN_MOST_SCORE + 1]; /* strokes after the shot, of balls dropped */
  double kept;
} Ends;

typedef struct
{
  const PlanSolution *solution;
  const Flown *flown; /* of the shot in hand; NULL: as the fleet flies it */
  double *next;       /* [state] */
  double *chances;
  int strokes; /* played so far, this shot included */
  GArray *stops;
} Walk;

/* The two whole numbers on either side of it. */
static void
add_score (double *chances, double strokes, double chance)
{
  int low = (int)floor (strokes);
  double share = strokes - low;
  chances[MIN (low, PLAN_MOST_SCORE)] += chance * (1 - share);
  chances[MIN (low + 1, PLAN_MOST_SCORE)] += chance * share;
}

static void
end_ball (void *data, size_t cell, Lie lie, double share, double strokes)
{
  Ends *ends = data;
  if (lie == LIE_OUT_OF_BOUNDS)
    return;
  ends->kept += share;
  if (lie == LIE_PENALTY)
    {
      add_score (ends->after_drops, strokes, share);
      return;
    }
  Stop stop = { (size_t)ends->grid->state_at[lie][cell], share };
  g_array_append_val (ends->stops, stop);
}

/* One shot of `chance` of all balls. What is lost is played again, two strokes later, as often as it takes. */
static void
play (Walk *walk, const SolveShot *shot, double chance)
{
  g_array_set_size (walk->stops, 0);
  Ends ends = { .grid = walk->solution->grid, .stops = walk->stops };
  if (walk->flown != NULL)
    solve_flown_exactly (walk->solution, shot->ball, shot->way, walk->flown, end_ball, &ends);
  else
    solve_shot_exactly (walk->solution, shot, end_ball, &ends);
  double lost = fmin (1, fmax (0, 1 - ends.kept)), again_chance = chance;
  for (int again = 0; again <= PLAN_MOST_SCORE && again_chance > LEAST_CHANCE * chance; again++, again_chance *= lost)
    {
      for (int i = 0; i <= PLAN_MOST_SCORE; i++)
        walk->chances[MIN (walk->strokes + i + 2 * again, PLAN_MOST_SCORE)] += again_chance * ends.after_drops[i];
      for (guint i = 0; i < walk->stops->len; i++)
        {
          const Stop *stop = &g_array_index (walk->stops, Stop, i);
          if (again == 0)
            walk->next[stop->state] += chance * stop->share;
          else
            add_score (walk->chances, walk->strokes + 2 * again + walk->solution->value[stop->state],
                       again_chance * stop->share);
        }
    }
  walk->chances[PLAN_MOST_SCORE] += again_chance > LEAST_CHANCE * chance ? again_chance : 0;
}

bool
solve_best_shot (const PlanSolution *solution, size_t state, SolveShot *shot)
{
  const SolveGrid *grid = solution->grid;
  size_t swing = solution->best[state];
  int aim = solution->aim[state * solution->fleet->n_swings + swing];
  if (aim < 0)
    return false;
  *shot = (SolveShot){ solve_grid_centre (grid, grid->state_cell[state]), grid->state_lie[state], swing, solve_aim_unit (aim) };
  return true;
}

static void
play_state (Walk *walk, size_t state, double chance)
{
  const PlanSolution *solution = walk->solution;
  const SolveGrid *grid = solution->grid;
  SolveShot shot;
  if (grid->state_ends[state] || chance < LEAST_CHANCE || !solve_best_shot (solution, state, &shot))
    {
      add_score (walk->chances, walk->strokes - 1 + solution->value[state], chance);
      return;
    }
  play (walk, &shot, chance);
}

/* Balls of one lie within two by two cells are played on from where most of them lie. */
static void
gather (const SolveGrid *grid, double *chances)
{
  int blocks_x = (grid->nx + 1) / 2, n_blocks = blocks_x * ((grid->ny + 1) / 2);
  for (int lie = 0; lie < N_LIES; lie++)
    for (int i = 0; grid->state_at[lie] != NULL && i < n_blocks; i++)
      {
        int x = i % blocks_x * 2, y = i / blocks_x * 2, most = -1;
        double sum = 0;
        for (int k = 0; k < 4; k++)
          {
            int column = x + k % 2, row = y + k / 2;
            int state = column < grid->nx && row < grid->ny ? grid->state_at[lie][row * grid->nx + column] : -1;
            if (state < 0 || grid->state_ends[state])
              continue;
            sum += chances[state];
            if (most < 0 || chances[state] > chances[most])
              {
                if (most >= 0)
                  chances[most] = 0;
                most = state;
              }
            else
              chances[state] = 0;
          }
        if (most >= 0)
          chances[most] = sum;
      }
}

void
solve_scores (const PlanSolution *solution, const SolveShot *tee_shot, const Flown *flown, double chances[PLAN_MOST_SCORE + 1])
{
  size_t n_states = solution->grid->n_states;
  g_autofree double *here = g_new0 (double, n_states), *next = g_new0 (double, n_states);
  g_autoptr (GArray) stops = g_array_new (FALSE, FALSE, sizeof (Stop));
  memset (chances, 0, (PLAN_MOST_SCORE + 1) * sizeof *chances);
  Walk walk = { solution, flown, here, chances, 1, stops };
  play (&walk, tee_shot, 1);
  walk.flown = NULL;
  bool is_any = true;
  for (walk.strokes = 2; walk.strokes <= PLAN_MOST_SCORE && is_any; walk.strokes++)
    {
      is_any = false;
      memset (next, 0, n_states * sizeof *next);
      walk.next = next;
      if (solution->grid->cell_m < GATHER_M)
        gather (solution->grid, here);
      for (size_t state = 0; state < n_states; state++)
        if (here[state] > 0)
          {
            play_state (&walk, state, here[state]);
            is_any = true;
          }
      memcpy (here, next, n_states * sizeof *here);
    }
  double sum = 0;
  for (size_t state = 0; state < n_states; state++)
    chances[PLAN_MOST_SCORE] += here[state];
  for (int i = 0; i <= PLAN_MOST_SCORE; i++)
    sum += chances[i];
  for (int i = 0; sum > 0 && i <= PLAN_MOST_SCORE; i++)
    chances[i] /= sum;
}
