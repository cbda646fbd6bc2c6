// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One sweep of value iteration. A job is a swing from a lie: its fields are blurred once by sector, and each state looks its aims up in them.
 */
#include "solve-private.h"

#include <math.h>

/* Aims of the first look go this far to either side of the way to the hole. */
#define WIDEST_RAD (80 * PI / 180)
/* Aims per state and swing of the sweep that the others are measured by. */
#define N_MEASURED_AIMS 200
/* A swing that flies further than this past the hole is left out, but the shortest ones (common practice). */
#define PAST_HOLE_M 45.0
/* So sure a loss is no plan. */
#define MOST_LOST 0.98
/* A swing whose coarse aim comes this near the best is looked at more finely when certifying. */
#define CERTIFY_MARGIN 0.03
/* The values that the first sweep begins with may be so wrong. */
#define FIRST_SLACK 0.6

typedef struct
{
  PlanSolution *solution;
  SweepKind kind;
  int first_step;
  double margin;
  const gint *cancel;
} Sweep;

/* One job's view: the swing's aims, its blurred fields by sector as they are needed. */
typedef struct
{
  const Sweep *sweep;
  const PlanSolution *solution;
  const SwingAims *aims;
  BlurRoom room;
  Blur worth[N_SECTORS], lost[N_SECTORS];
  float *cost;
  gint16 *aim;
  /* The state in hand. */
  double x, y, height_m;
} Job;

/* ---- what an aim costs ---- */

static void
blur_sector (Job *job, int sector)
{
  const PlanSolution *solution = job->solution;
  int run = job->aims->run[sector];
  double sd_m = job->aims->sd_m[sector];
  job->worth[sector].coefficients = g_new (float, blur_size (solution->grid));
  blur_make (solution->grid, solution->worth->worth[run][sector], sd_m, &job->room, &job->worth[sector]);
  if (solution->worth->is_anything_lost)
    {
      job->lost[sector].coefficients = g_new (float, blur_size (solution->grid));
      blur_make (solution->grid, solution->worth->lost[run][sector], sd_m, &job->room, &job->lost[sector]);
    }
}

/* Strokes when what is lost is played again from here: Q = 1 + A + P (1 + Q). */
static double
play_again (double value, double lost)
{
  double strokes = lost > MOST_LOST ? MOST_STROKES : (1 + value + lost) / (1 - lost);
  return strokes < MOST_STROKES ? strokes : MOST_STROKES;
}

static double
aim_cost (Job *job, int aim)
{
  const SwingAims *aims = job->aims;
  const SolveGrid *grid = job->solution->grid;
  if (!aims->is_played[aim])
    return INFINITY;
  int sector = solve_aim_sector (aim), next = (sector + 1) % N_SECTORS;
  if (job->worth[sector].coefficients == NULL)
    blur_sector (job, sector);
  if (job->worth[next].coefficients == NULL)
    blur_sector (job, next);
  double x = job->x + aims->x[aim], y = job->y + aims->y[aim];
  if (grid->height_m != NULL)
    {
      int i = (int)fmax (0, fmin (grid->nx - 1, job->x + aims->land_x[aim] + 0.5));
      int j = (int)fmax (0, fmin (grid->ny - 1, job->y + aims->land_y[aim] + 0.5));
      double rise_m = grid->height_m[j * grid->nx + i] - job->height_m;
      double share = (aims->rise1[sector] + aims->rise2[sector] * rise_m) * rise_m
                     / (grid->cell_m * hypot (aims->land_x[aim], aims->land_y[aim]));
      x += share * aims->land_x[aim];
      y += share * aims->land_y[aim];
    }
  int n = aims->n_nodes[sector];
  const Node *nodes = solve_nodes (n);
  float value = 0, lost = 0, share = (float)solve_aim_share (aim);
  for (int k = 0; k < n; k++)
    {
      float at_x = (float)x + nodes[k].place * aims->node_x[aim], at_y = (float)y + nodes[k].place * aims->node_y[aim];
      float weight = nodes[k].weight, here = weight * (1 - share), there = weight * share;
      value += here * blur_at (&job->worth[sector], at_x, at_y) + there * blur_at (&job->worth[next], at_x, at_y);
      if (job->lost[sector].coefficients != NULL)
        lost += here * blur_at (&job->lost[sector], at_x, at_y) + there * blur_at (&job->lost[next], at_x, at_y);
    }
  return play_again (value, lost > 0 ? lost : 0);
}

/* ---- what no aim can be better than ---- */

/* Canopies catch balls this far before where they would have come down. */
#define BEFORE_CANOPY_M 20.0

/* A ball is a stroke, and what is left of it no less than the least that is left from so far off: of the nearest place that nearly all balls leave. */
static double
least_cost (const Job *job, double left_m)
{
  const PlanSolution *solution = job->solution;
  left_m -= job->aims->spread_m + (solution->grid->canopy != NULL ? BEFORE_CANOPY_M : 0);
  if (!(left_m > 0))
    return 0;
  size_t i = (size_t)left_m;
  return 1 + solution->least_beyond[i < solution->n_beyond ? i : solution->n_beyond - 1];
}

static void
find_least_beyond (PlanSolution *solution)
{
  const SolveGrid *grid = solution->grid;
  for (size_t i = 0; i < solution->n_beyond; i++)
    solution->least_beyond[i] = MOST_STROKES;
  for (size_t state = 0; state < grid->n_states; state++)
    {
      size_t i = (size_t)vec2_distance (grid->target, solve_grid_centre (grid, grid->state_cell[state]));
      float *least = &solution->least_beyond[i < solution->n_beyond ? i : solution->n_beyond - 1];
      *least = fminf (*least, (float)solution->value[state]);
    }
  for (size_t i = solution->n_beyond - 1; i > 0; i--)
    solution->least_beyond[i - 1] = fminf (solution->least_beyond[i - 1], solution->least_beyond[i]);
}

/* ---- the best aim of a state ---- */

static void
try_aim (Job *job, int aim, int *best, double *cost)
{
  double found = aim_cost (job, aim);
  if (found < *cost)
    {
      *cost = found;
      *best = aim;
    }
}

static int
wrapped (int aim)
{
  return ((aim % N_AIMS) + N_AIMS) % N_AIMS;
}

static void
look_about (Job *job, int step, int *best, double *cost)
{
  for (; step >= 1; step /= 2)
    {
      int middle = *best;
      try_aim (job, wrapped (middle - step), best, cost);
      try_aim (job, wrapped (middle + step), best, cost);
    }
}

static void
look_coarsely (Job *job, Vec2 to_hole, double worst, int *best, double *cost)
{
  const SwingAims *aims = job->aims;
  int middle = solve_aim (to_hole), step = aims->step, n = (int)(WIDEST_RAD / (2 * PI) * N_AIMS) / step;
  double cell_m = job->solution->grid->cell_m;
  if (least_cost (job, vec2_length (to_hole) - aims->farthest_m) > worst)
    return;
  for (int i = -n; i <= n; i++)
    {
      int aim = wrapped (middle + i * step);
      Vec2 left = vec2 (to_hole.x - cell_m * aims->land_x[aim], to_hole.y - cell_m * aims->land_y[aim]);
      if (least_cost (job, sqrt (vec2_dot (left, left))) <= worst)
        try_aim (job, aim, best, cost);
    }
}

static void
look_at_all (Job *job, int *best, double *cost)
{
  for (int i = 0; i < N_MEASURED_AIMS; i++)
    try_aim (job, i * N_AIMS / N_MEASURED_AIMS, best, cost);
}

/* The state of the cell that was looked at first, which stands for three others. */
static int
even_neighbour (const SolveGrid *grid, size_t state)
{
  int cell = grid->state_cell[state], x = cell % grid->nx & ~1, y = cell / grid->nx & ~1;
  return grid->state_at[grid->state_lie[state]][y * grid->nx + x];
}

static bool
overshoots (const Job *job, Vec2 to_hole)
{
  return job->aims->reach_m > vec2_length (to_hole) + PAST_HOLE_M
         && job->aims->reach_m > job->solution->least_reach_m + PAST_HOLE_M;
}

/* Swings that are left: known to be near the best here, or at the cell that stands for this one. */
static void
visit_left (Job *job, size_t state, Vec2 to_hole, int *best, double *cost)
{
  const Sweep *sweep = job->sweep;
  const double *value = job->solution->value;
  int step = sweep->first_step;
  *best = job->aim[state];
  if (*best < 0)
    {
      int like = even_neighbour (job->solution->grid, state);
      if (like >= 0 && (size_t)like != state && job->aim[like] >= 0)
        {
          if (job->cost[like] > value[like] + sweep->margin)
            return;
          *best = job->aim[like];
          step = job->aims->step;
        }
      else
        look_coarsely (job, to_hole, value[state] + FIRST_SLACK, best, cost);
      if (*best < 0)
        return;
    }
  else if (job->cost[state] > value[state] + sweep->margin)
    return;
  *cost = aim_cost (job, *best);
  look_about (job, step, best, cost);
}

static void
visit (Job *job, size_t state)
{
  const SolveGrid *grid = job->solution->grid;
  int cell = grid->state_cell[state];
  Vec2 to_hole = vec2_sub (grid->target, solve_grid_centre (grid, cell));
  job->x = cell % grid->nx;
  job->y = cell / grid->nx;
  job->height_m = grid->height_m != NULL ? grid->height_m[cell] : 0;
  SweepKind kind = job->sweep->kind;
  if (overshoots (job, to_hole) || (kind == SWEEP_FIRST && even_neighbour (grid, state) != (int)state))
    return;
  int best = -1;
  double cost = INFINITY;
  if (kind == SWEEP_LEFT)
    visit_left (job, state, to_hole, &best, &cost);
  else if (kind == SWEEP_ALL)
    look_at_all (job, &best, &cost);
  else
    {
      if (kind == SWEEP_CERTIFY && job->aim[state] >= 0)
        try_aim (job, job->aim[state], &best, &cost);
      look_coarsely (job, to_hole, job->solution->value[state] + (kind == SWEEP_FIRST ? FIRST_SLACK : 0), &best, &cost);
      if (best >= 0 && (kind == SWEEP_FIRST || cost < job->solution->value[state] + CERTIFY_MARGIN))
        look_about (job, job->aims->step / 2, &best, &cost);
    }
  if (best >= 0)
    {
      job->aim[state] = (gint16)best;
      job->cost[state] = (float)cost;
    }
}

static void
run_job (gpointer item, gpointer data)
{
  const Sweep *sweep = data;
  PlanSolution *solution = sweep->solution;
  const SolveGrid *grid = solution->grid;
  size_t i = GPOINTER_TO_SIZE (item) - 1, swing = i / N_LIES, lie = i % N_LIES;
  Job job = { .sweep = sweep, .solution = solution, .aims = solution->aims[i] };
  job.cost = &solution->cost[swing * grid->n_states];
  job.aim = &solution->aim[swing * grid->n_states];
  blur_room_init (&job.room, grid);
  for (size_t state = grid->lie_begins[lie]; state < grid->lie_begins[lie + 1]; state++)
    {
      if (g_atomic_int_get (sweep->cancel))
        break;
      if (!grid->state_ends[state])
        visit (&job, state);
    }
  for (int sector = 0; sector < N_SECTORS; sector++)
    {
      g_free (job.worth[sector].coefficients);
      g_free (job.lost[sector].coefficients);
    }
  blur_room_clear (&job.room);
}

/* ---- all of them ---- */

/* The cheapest swing of each state is its value. */
static double
take_best (PlanSolution *solution)
{
  const SolveGrid *grid = solution->grid;
  double change = 0;
  for (size_t state = 0; state < grid->n_states; state++)
    {
      if (grid->state_ends[state])
        continue;
      double least = INFINITY;
      for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
        if (solution->cost[swing * grid->n_states + state] < least)
          {
            least = solution->cost[swing * grid->n_states + state];
            solution->best[state] = (guint8)swing;
          }
      if (isinf (least))
        continue;
      change = fmax (change, fabs (least - solution->value[state]));
      solution->value[state] = least;
    }
  return change;
}

double
solve_sweep (PlanSolution *solution, SweepKind kind, int first_step, double margin, const gint *cancel)
{
  static const gint never = 0;
  Sweep sweep = { solution, kind, first_step, margin, cancel != NULL ? cancel : &never };
  worth_update (solution->worth, solution->value, solution->n_threads);
  find_least_beyond (solution);
  GThreadPool *pool = g_thread_pool_new (run_job, &sweep, solution->n_threads, FALSE, NULL);
  const SolveGrid *grid = solution->grid;
  for (size_t i = 0; i < solution->fleet->n_swings * N_LIES; i++)
    if (solution->aims[i] != NULL && grid->lie_begins[i % N_LIES] < grid->lie_begins[i % N_LIES + 1])
      g_thread_pool_push (pool, GSIZE_TO_POINTER (i + 1), NULL);
  g_thread_pool_free (pool, FALSE, TRUE);
  if (g_atomic_int_get (sweep.cancel))
    return NAN;
  solution->n_sweeps++;
  return take_best (solution);
}
