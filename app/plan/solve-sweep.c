// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One sweep of value iteration: each state's swings at the aims that may be best, by the fields of the values before it.
 */
#include "solve-private.h"

#include <math.h>

/* Aims of the first look go this far to either side of the way to the hole. */
#define WIDEST_RAD (80 * PI / 180)
/* A swing that flies further than this past the hole is left out, but the shortest ones (common practice). */
#define PAST_HOLE_M 45.0
/* So sure a loss is no plan. */
#define MOST_LOST 0.98
/* A swing whose coarse aim comes this near the best is looked at more finely when certifying. */
#define CERTIFY_MARGIN 0.03
/* What is thought to be the least that a swing may cost may be this much too high. */
#define BOUND_SLACK 0.03
/* States that a thread takes at a time. */
#define CHUNK 64

typedef struct
{
  PlanSolution *solution;
  SweepPlan plan;
  const gint *cancel;
} Sweep;

/* One state's view of a swing. */
typedef struct
{
  const PlanSolution *solution;
  const SweepPlan *plan;
  const SwingAims *aims;
  Vec2 at, to_hole;
  double height_m, value;
  bool is_new;  /* nothing is known of it yet but what the tables say */
  double least; /* of the swings looked at so far */
  int best;     /* aim of this swing */
  double cost;
} Look;

/* ---- what an aim costs ---- */

/* Strokes when what is lost is played again from here: Q = 1 + A + P (1 + Q). */
static double
play_again (double value, double lost)
{
  double strokes = lost > MOST_LOST ? MOST_STROKES : (1 + value + lost) / (1 - lost);
  return strokes < MOST_STROKES ? strokes : MOST_STROKES;
}

/* By how much the landing is moved along its way: the ground there is higher or lower than here. */
static double
rise_share (const SolveGrid *grid, const SwingAim *aim, Vec2 at, double height_m)
{
  double x = (at.x + aim->x_m - grid->origin.x) / grid->cell_m + 0.5,
         y = (at.y + aim->y_m - grid->origin.y) / grid->cell_m + 0.5;
  int i = (int)fmax (0, fmin (grid->nx - 1, x)), j = (int)fmax (0, fmin (grid->ny - 1, y));
  double rise_m = grid->height_m[j * grid->nx + i] - height_m;
  return (aim->rise1 + aim->rise2 * rise_m) * rise_m / sqrt (aim->x_m * aim->x_m + aim->y_m * aim->y_m);
}

double
solve_aim_cost (const PlanSolution *solution, const SwingAims *aims, int i, Vec2 at, double height_m)
{
  const SolveGrid *grid = solution->grid;
  const SwingAim *aim = &aims->aims[i];
  if (aim->run < 0)
    return INFINITY;
  double cell = 1 / grid->cell_m, more = grid->height_m != NULL ? 1 + rise_share (grid, aim, at, height_m) : 1;
  double area = cell * cell, add = fmax (solution->widen, solution->least_var - aims->least_variance * area);
  Landing landing = { .x = (float)((at.x - grid->origin.x + more * aim->x_m) * cell),
                      .y = (float)((at.y - grid->origin.y + more * aim->y_m) * cell),
                      .xx = (float)(aim->xx * area + add),
                      .xy = (float)(aim->xy * area),
                      .yy = (float)(aim->yy * area + add),
                      .run = aim->run,
                      .sector = solve_aim_sector (i),
                      .share = (float)solve_aim_share (i) };
  float value, lost;
  worth_mean (solution->worth, &landing, &value, &lost);
  return play_again (value, lost > 0 ? lost : 0);
}

/* ---- what no aim can be better than ---- */

/* A swing cannot do much better than a ball that always finds the best place as far from the hole as it comes to on average, within its own spread (three
   nodes of Gauss and Hermite). */
static double
least_cost (const Look *look, Vec2 left)
{
  const PlanSolution *solution = look->solution;
  double left_m = sqrt (vec2_dot (left, left)) - look->aims->run_m, sum = 0;
  for (int k = -1; k <= 1; k++)
    {
      double m = fabs (left_m + k * 1.7320508 * look->aims->long_sd_m);
      size_t i = (size_t)m;
      sum += (k == 0 ? 2 / 3.0 : 1 / 6.0) * solution->least_beyond[i < solution->n_beyond ? i : solution->n_beyond - 1];
    }
  return 1 + sum - BOUND_SLACK;
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

static int
wrapped (int aim)
{
  return ((aim % N_AIMS) + N_AIMS) % N_AIMS;
}

static void
try_aim (Look *look, int aim)
{
  double cost = solve_aim_cost (look->solution, look->aims, aim, look->at, look->height_m);
  if (cost < look->cost)
    {
      look->cost = cost;
      look->best = aim;
    }
}

static void
look_about (Look *look, int step)
{
  for (; step >= 1; step /= 2)
    {
      int middle = look->best;
      try_aim (look, wrapped (middle - step));
      try_aim (look, wrapped (middle + step));
    }
}

static void
look_coarsely (Look *look, double worst)
{
  const SwingAims *aims = look->aims;
  int middle = solve_aim (look->to_hole), step = aims->step, n = (int)(WIDEST_RAD / (2 * PI) * N_AIMS) / step;
  for (int i = -n; i <= n; i++)
    {
      int aim = wrapped (middle + i * step);
      Vec2 left = vec2 (look->to_hole.x - aims->aims[aim].x_m, look->to_hole.y - aims->aims[aim].y_m);
      if (least_cost (look, left) <= worst)
        try_aim (look, aim);
    }
}

static bool
overshoots (const Look *look)
{
  double reach_m = look->aims->reach_m;
  return reach_m > vec2_length (look->to_hole) + PAST_HOLE_M && reach_m > look->solution->least_reach_m + PAST_HOLE_M;
}

/* About the aim that was best before, if the swing came near the best then. */
static void
look_again (Look *look, int before, double known)
{
  look->best = -1;
  look->cost = INFINITY;
  if (before < 0 || known > look->value + look->plan->margin)
    return;
  try_aim (look, before);
  look_about (look, look->plan->step);
}

/* At all aims that may be better than what was found so far. */
static void
look_everywhere (Look *look, int before, double known)
{
  bool is_first = look->is_new;
  look->best = -1;
  look->cost = INFINITY;
  if (!is_first && before >= 0 && known > look->value + look->plan->margin)
    return;
  if (before >= 0)
    try_aim (look, before);
  look_coarsely (look, look->least + (is_first ? look->plan->margin : 0));
  if (look->best >= 0 && (is_first || look->cost < look->least + CERTIFY_MARGIN))
    look_about (look, look->aims->step / 2);
  look->least = fmin (look->least, look->cost);
}

typedef struct
{
  double bound;
  size_t swing;
} Promise;

/* Swings that are played from a state, those that promise most first. */
static size_t
order_swings (Look *look, Lie lie, Promise *promises)
{
  const PlanSolution *solution = look->solution;
  int straight = solve_aim (look->to_hole);
  size_t n = 0;
  for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
    {
      look->aims = solution->aims[swing * N_LIES + (size_t)lie];
      if (look->aims == NULL || overshoots (look))
        continue;
      const SwingAim *aim = &look->aims->aims[straight];
      double bound = least_cost (look, vec2 (look->to_hole.x - aim->x_m, look->to_hole.y - aim->y_m));
      size_t i = n++;
      for (; (look->is_new || look->plan->kind == SWEEP_CERTIFY) && i > 0 && promises[i - 1].bound > bound; i--)
        promises[i] = promises[i - 1];
      promises[i] = (Promise){ bound, swing };
    }
  return n;
}

static bool
is_any_known (const gint16 *aim, size_t n_swings)
{
  bool is_any = false;
  for (size_t swing = 0; swing < n_swings; swing++)
    is_any |= aim[swing] >= 0;
  return is_any;
}

static void
visit (PlanSolution *solution, const SweepPlan *plan, size_t state)
{
  const SolveGrid *grid = solution->grid;
  int cell = grid->state_cell[state];
  Lie lie = grid->state_lie[state];
  gint16 *aim = &solution->aim[state * solution->fleet->n_swings];
  float *cost = &solution->cost[state * solution->fleet->n_swings];
  Look look = { .solution = solution, .plan = plan, .value = solution->value[state] };
  Promise promises[MOST_SWINGS];
  look.at = solve_grid_centre (grid, cell);
  look.to_hole = vec2_sub (grid->target, look.at);
  look.height_m = grid->height_m != NULL ? grid->height_m[cell] : 0;
  look.is_new = plan->kind == SWEEP_FIRST || !is_any_known (aim, solution->fleet->n_swings);
  look.least = look.is_new ? INFINITY : look.value;
  size_t n = order_swings (&look, lie, promises);
  for (size_t i = 0; i < n; i++)
    {
      size_t swing = promises[i].swing;
      look.aims = solution->aims[swing * N_LIES + (size_t)lie];
      (plan->kind == SWEEP_LEFT && !look.is_new ? look_again : look_everywhere) (&look, aim[swing], cost[swing]);
      if (look.best >= 0)
        {
          aim[swing] = (gint16)look.best;
          cost[swing] = (float)look.cost;
        }
    }
}

static void
run_chunk (gpointer item, gpointer data)
{
  const Sweep *sweep = data;
  const PlanSolution *solution = sweep->solution;
  size_t first = (GPOINTER_TO_SIZE (item) - 1) * CHUNK;
  for (size_t i = first; i < first + CHUNK && i < solution->n_active && !g_atomic_int_get (sweep->cancel); i++)
    if (solution->weight == NULL || solution->weight[i] >= sweep->plan.weight)
      visit (sweep->solution, &sweep->plan, solution->active[i]);
}

/* ---- all of them ---- */

/* The cheapest swing of each state is its value. */
static double
take_best (PlanSolution *solution)
{
  double change = 0;
  size_t n_swings = solution->fleet->n_swings;
  for (size_t i = 0; i < solution->n_active; i++)
    {
      size_t state = solution->active[i];
      const float *cost = &solution->cost[state * n_swings];
      double least = INFINITY;
      for (size_t swing = 0; swing < n_swings; swing++)
        if (cost[swing] < least)
          {
            least = cost[swing];
            solution->best[state] = (guint8)swing;
          }
      if (isinf (least))
        continue;
      double weight = solution->weight != NULL ? solution->weight[i] : 1;
      change = fmax (change, weight * fabs (least - solution->value[state]));
      solution->value[state] = least;
    }
  return change;
}

double
solve_sweep (PlanSolution *solution, SweepPlan plan, const gint *cancel)
{
  static const gint never = 0;
  Sweep sweep = { solution, plan, cancel != NULL ? cancel : &never };
  worth_update (solution->worth, solution->value, false);
  find_least_beyond (solution);
  GThreadPool *pool = g_thread_pool_new (run_chunk, &sweep, solution->n_threads, FALSE, NULL);
  for (size_t i = 0; i * CHUNK < solution->n_active; i++)
    g_thread_pool_push (pool, GSIZE_TO_POINTER (i + 1), NULL);
  g_thread_pool_free (pool, FALSE, TRUE);
  if (g_atomic_int_get (sweep.cancel))
    return NAN;
  solution->n_sweeps++;
  return take_best (solution);
}
