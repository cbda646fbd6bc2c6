// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One sweep of value iteration: each state's swings at the aims that may be best, by the fields of the values before it.
 */
#include "solve-look-private.h"

#include <math.h>

/* A swing that flies further than this past the hole is left out, but the shortest ones (common practice). */
#define PAST_HOLE_M 45.0
/* Of a state on which so little depends that nothing is certified there, swings and aims are looked at no wider than in the last sweeps once the others are certified: what it
   loses then counts as little. */
#define LIGHT_MARGIN 0.06
#define LIGHT_STEP 2
/* In fine cells, and in the larger ones, which only show where to begin, one of so many a side is looked at all round, and those beside it only at what was found from there. */
#define SQUARE 2
/* What was found there in the first sweep is looked at beside it as far as it comes this near the best. */
#define FIRST_BESIDE 0.3
/* States that a thread takes at a time. */
#define CHUNK 64

typedef struct
{
  PlanSolution *solution;
  SweepPlan plan;
  const gint *cancel;
  const int *leaders;     /* [state] the one that it follows, or itself; NULL: no state follows another */
  const guint8 *is_swept; /* [state] with leaders: it is one of those of the sweep */
  bool is_following;      /* those are visited that follow others */
} Sweep;

/* ---- the swings of a state ---- */

static bool
overshoots (const Look *look)
{
  double reach_m = look->aims->reach_m;
  return reach_m > look->hole_m + PAST_HOLE_M && reach_m > look->solution->least_reach_m + PAST_HOLE_M;
}

typedef struct
{
  double bound;
  size_t swing;
} Promise;

/* Swings that are played from a state, those that promise most first; not those that are known to be too far from the best. */
static size_t
order_swings (Look *look, Lie lie, size_t first, Promise *promises)
{
  const PlanSolution *solution = look->solution;
  const gint16 *aim = &solution->aim[first];
  const float *cost = &solution->cost[first];
  double most = look->value + look->plan->margin;
  size_t n = 0;
  for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
    {
      bool is_known = !look->is_new && aim[swing] >= 0;
      if (is_known && (double)cost[swing] > most)
        continue;
      look->aims = solution->aims[swing * N_LIES + (size_t)lie];
      if (look->aims == NULL || overshoots (look))
        continue;
      double bound = is_known ? (double)cost[swing] : solve_least_cost (solution, look->aims, look->straight, look->at);
      size_t i = n++;
      for (; i > 0 && promises[i - 1].bound > bound; i--)
        promises[i] = promises[i - 1];
      promises[i] = (Promise){ bound, swing };
    }
  return n;
}

/* Of the known swings that are left, and that were not looked at in this sweep, the cheapest; -1 where none comes near the best: the state's value, or `least` of those that were looked at. */
static int
next_left (Look *look, Lie lie, size_t first, const bool *is_done, double least)
{
  const PlanSolution *solution = look->solution;
  const float *cost = &solution->cost[first];
  double most = (isinf (least) ? look->value : fmax (look->value, least)) + look_left_margin (look);
  int next = -1;
  for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
    {
      if (is_done[swing] || solution->aim[first + swing] < 0 || (double)cost[swing] > most)
        continue;
      look->aims = solution->aims[swing * N_LIES + (size_t)lie];
      if (look->aims == NULL || overshoots (look))
        continue;
      next = (int)swing;
      most = (double)cost[swing];
    }
  return next;
}

static bool
is_any_known (const gint16 *aim, size_t n_swings)
{
  bool is_any = false;
  for (size_t swing = 0; swing < n_swings; swing++)
    is_any |= aim[swing] >= 0;
  return is_any;
}

static Look
look_from (PlanSolution *solution, const SweepPlan *plan, size_t state, double weight)
{
  bool is_light = weight < SOLVE_CERTIFY_WEIGHT && solution->certified > 0;
  const SolveGrid *grid = solution->grid;
  int cell = grid->state_cell[state];
  Vec2 at = solve_grid_centre (grid, cell), to_hole = vec2_sub (grid->target, at);
  return (Look){ .solution = solution,
                 .plan = plan,
                 .margin = is_light ? fmin (plan->margin, LIGHT_MARGIN) : plan->margin,
                 .step = is_light ? MIN (plan->step, LIGHT_STEP) : plan->step,
                 .value = solution->value[state],
                 .at = at,
                 .hole_m = vec2_length (to_hole),
                 .straight = solve_aim (to_hole),
                 .height_m = grid->height_m != NULL ? grid->height_m[cell] : 0 };
}

static void
take_aim (const Look *look, size_t at)
{
  if (look->best < 0)
    return;
  look->solution->aim[at] = (gint16)look->best;
  look->solution->cost[at] = (float)look->cost;
}

typedef void (*LookAgain) (Look *look, size_t at, size_t swing, size_t leader);

/* At what is left of a state: a swing that turns out dearer than it was known to be gives way to the next ones. */
static void
look_left (Look *look, Lie lie, size_t first, size_t leader, LookAgain look_at)
{
  PlanSolution *solution = look->solution;
  bool is_done[MOST_SWINGS] = { false };
  double least = INFINITY;
  for (int swing; (swing = next_left (look, lie, first, is_done, least)) >= 0;)
    {
      size_t at = first + (size_t)swing;
      look->aims = solution->aims[(size_t)swing * N_LIES + (size_t)lie];
      look_at (look, at, (size_t)swing, leader);
      take_aim (look, at);
      is_done[swing] = true;
      least = fmin (least, (double)solution->cost[at]);
    }
}

static void
look_at_known (Look *look, size_t at, size_t swing, size_t leader)
{
  (void)swing, (void)leader;
  look_again (look, at, look->solution->aim[at]);
}

static void
visit (PlanSolution *solution, const SweepPlan *plan, size_t state, double weight)
{
  Lie lie = solution->grid->state_lie[state];
  size_t n_swings = solution->fleet->n_swings, first = state * n_swings;
  Look look = look_from (solution, plan, state, weight);
  Promise promises[MOST_SWINGS];
  look.is_new = plan->kind == SWEEP_FIRST || !is_any_known (&solution->aim[first], n_swings);
  look.least = look.is_new ? INFINITY : look.value;
  double risen = solution->certified > 0 ? look.value - (double)solution->certified_value[state] : 0;
  look.risen = fmax (0, risen);
  look.fallen = fmax (0, -risen);
  FallsSeen falls;
  look.falls = &falls;
  if (plan->kind == SWEEP_CERTIFY && solution->certified > 0)
    solve_find_falls_seen (solution, look.at, &falls);
  if (plan->kind == SWEEP_LEFT && !look.is_new)
    {
      look_left (&look, lie, first, state, look_at_known);
      return;
    }
  size_t n = order_swings (&look, lie, first, promises);
  for (size_t i = 0; i < n; i++)
    {
      size_t at = first + promises[i].swing;
      look.aims = solution->aims[promises[i].swing * N_LIES + (size_t)lie];
      look.bound = promises[i].bound;
      look_everywhere (&look, at, solution->aim[at], (double)solution->cost[at]);
      take_aim (&look, at);
    }
  /* All of it has been looked at now. */
  if (look.is_new && solution->certified > 0)
    solution->certified_value[state] = (float)look.least;
}

/* A state is looked at all round for the others of its lie in the same square of cells: the first of them that is swept; -1: none is. */
static int
leader_of_square (const SolveGrid *grid, const guint8 *is_swept, Lie lie, int column, int row)
{
  int x = column * SQUARE, y = row * SQUARE;
  for (int j = y; j < MIN (y + SQUARE, grid->ny); j++)
    for (int i = x; i < MIN (x + SQUARE, grid->nx); i++)
      {
        int state = grid->state_at[lie][j * grid->nx + i];
        if (state >= 0 && is_swept[state])
          return state;
      }
  return -1;
}

static double
risen_since (const PlanSolution *solution, size_t state)
{
  return solution->certified > 0 ? solution->value[state] - (double)solution->certified_value[state] : 0;
}

/* Is a state looked at all round itself? Where it has risen more than the one that it follows, too, and where nothing is known of it alone. */
static bool
leads (const PlanSolution *solution, SweepKind kind, size_t state, size_t leader)
{
  size_t n_swings = solution->fleet->n_swings;
  if (state == leader || kind == SWEEP_FIRST)
    return state == leader;
  return risen_since (solution, state) > fmax (0, risen_since (solution, leader)) + MUCH_RISEN
         || !is_any_known (&solution->aim[state * n_swings], n_swings);
}

static float
least_cost (const float *costs, size_t n_swings)
{
  float least = INFINITY;
  for (size_t swing = 0; swing < n_swings; swing++)
    least = costs[swing] < least ? costs[swing] : least;
  return least;
}

static int
turn_between (int aim, int other)
{
  int turn = look_wrapped (aim - other);
  return MIN (turn, N_AIMS - turn);
}

/* Where a state is looked at that is looked at all round for it, or is so for the next squares on its side: that, and the aims found there. */
#define MOST_LEADERS 4
static int
leaders_about (const Sweep *sweep, size_t state, size_t leaders[MOST_LEADERS])
{
  const SolveGrid *grid = sweep->solution->grid;
  int cell = grid->state_cell[state], x = cell % grid->nx, y = cell / grid->nx, n = 0;
  leaders[n++] = (size_t)sweep->leaders[state];
  for (int k = 1; k < MOST_LEADERS; k++)
    {
      int column = x / SQUARE + (k % 2 != 0), row = y / SQUARE + k / 2;
      if ((k % 2 != 0 && x % SQUARE == 0) || (k / 2 != 0 && y % SQUARE == 0))
        continue;
      int leader = leader_of_square (grid, sweep->is_swept, grid->state_lie[state], column, row);
      if (leader >= 0)
        leaders[n++] = (size_t)leader;
    }
  return n;
}

/* The aim at the same place from beside it. */
static int
aim_from_beside (const PlanSolution *solution, const SwingAims *aims, size_t from, int aim, Vec2 to)
{
  Vec2 landing = vec2 ((double)aims->aims[aim].x_m, (double)aims->aims[aim].y_m);
  Vec2 place = vec2_add (solve_grid_centre (solution->grid, solution->grid->state_cell[from]), landing);
  return look_wrapped (aim + solve_aim (vec2_sub (place, to)) - solve_aim (landing));
}

/* The aims of a swing at the places that were found from there, if the swing came near the best there: those that are others than this state's, and all where it is not near here. */
static int
aims_beside (const Look *look, size_t swing, size_t state, const size_t *leaders, int n_leaders, int aims[MOST_LEADERS])
{
  const PlanSolution *solution = look->solution;
  size_t n_swings = solution->fleet->n_swings;
  float margin = (float)(look->plan->kind == SWEEP_FIRST ? FIRST_BESIDE : CERTIFY_MARGIN);
  int before = solution->aim[state * n_swings + swing], n = 0;
  bool is_near = before >= 0 && (double)solution->cost[state * n_swings + swing] <= look->value + CERTIFY_MARGIN;
  for (int k = 0; k < n_leaders; k++)
    {
      size_t first = leaders[k] * n_swings;
      int there = solution->aim[first + swing];
      if (there < 0 || solution->cost[first + swing] > least_cost (&solution->cost[first], n_swings) + margin)
        continue;
      int aim = aim_from_beside (solution, look->aims, leaders[k], there, look->at);
      bool is_known = is_near && turn_between (before, aim) <= LOOK_BESIDE_STEP;
      for (int i = 0; i < n; i++)
        is_known |= turn_between (aims[i], aim) <= LOOK_BESIDE_STEP;
      if (!is_known)
        aims[n++] = aim;
    }
  return n;
}

static void
follow (const Sweep *sweep, size_t state, double weight)
{
  PlanSolution *solution = sweep->solution;
  size_t n_swings = solution->fleet->n_swings, first = state * n_swings, leaders[MOST_LEADERS];
  int n_leaders = leaders_about (sweep, state, leaders);
  Look look = look_from (solution, &sweep->plan, state, weight);
  for (size_t swing = 0; swing < n_swings; swing++)
    {
      int before = solution->aim[first + swing], aims[MOST_LEADERS];
      look.aims = solution->aims[swing * N_LIES + (size_t)solution->grid->state_lie[state]];
      int n = look.aims != NULL ? aims_beside (&look, swing, state, leaders, n_leaders, aims) : 0;
      bool is_best = weight >= 1 && before >= 0 && swing == solution->best[state];
      if (n > 0)
        look_where (&look, first + swing, before, aims, n, is_best);
      else if (is_best)
        look_beside (&look, first + swing, before);
      else
        continue;
      take_aim (&look, first + swing);
    }
}

/* At the best aim as it is, and at one that was just found beside it from the leader. */
static void
look_at_followed (Look *look, size_t at, size_t swing, size_t leader)
{
  PlanSolution *solution = look->solution;
  size_t there = leader * solution->fleet->n_swings + swing;
  look_again (look, at, solution->aim[at]);
  if (solution->aim[there] >= 0 && solution->looked[there] == (guint16)solution->worth->version)
    look_also (look, at, solution->aim[at], aim_from_beside (solution, look->aims, leader, solution->aim[there], look->at),
               (double)solution->cost[at]);
}

/* In a later sweep. */
static void
follow_again (const Sweep *sweep, size_t state, size_t leader, double weight)
{
  PlanSolution *solution = sweep->solution;
  Look look = look_from (solution, &sweep->plan, state, weight);
  look.step = 0;
  look_left (&look, solution->grid->state_lie[state], state * solution->fleet->n_swings, leader, look_at_followed);
}

static void
sweep_state (const Sweep *sweep, size_t state, double weight)
{
  PlanSolution *solution = sweep->solution;
  size_t leader = sweep->leaders != NULL ? (size_t)sweep->leaders[state] : state;
  if (sweep->is_following && leader != state && sweep->plan.kind == SWEEP_LEFT)
    follow_again (sweep, state, leader, weight);
  else if (sweep->is_following && leader != state)
    follow (sweep, state, weight);
  else if (!sweep->is_following && leader == state)
    visit (solution, &sweep->plan, state, weight);
}

static void
run_chunk (void *data, size_t chunk)
{
  const Sweep *sweep = data;
  PlanSolution *solution = sweep->solution;
  for (size_t i = chunk * CHUNK; i < (chunk + 1) * CHUNK && i < solution->n_active; i++)
    {
      if (solve_is_cancelled (sweep->cancel))
        return;
      double weight = solution->weight != NULL ? (double)solution->weight[i] : 1;
      if (weight >= sweep->plan.weight)
        sweep_state (sweep, solution->active[i], weight);
    }
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

static void
note_certified (PlanSolution *solution)
{
  bool is_first = solution->certified == 0;
  solution->certified = solution->worth->version;
  for (size_t state = 0; state < solution->grid->n_states; state++)
    {
      /* What rose too little to be looked at all round is remembered, so that much of it is. */
      double risen = solution->value[state] - (double)solution->certified_value[state];
      if (is_first || !(risen > 0 && risen <= MUCH_RISEN))
        solution->certified_value[state] = (float)solution->value[state];
    }
  worth_forget_falls (solution->worth);
}

/* The states that are swept: [state], free with g_free. */
static guint8 *
mark_swept (const PlanSolution *solution, const SweepPlan *plan)
{
  guint8 *is_swept = g_new0 (guint8, solution->grid->n_states);
  for (size_t i = 0; i < solution->n_active; i++)
    is_swept[solution->active[i]] = solution->weight == NULL || (double)solution->weight[i] >= plan->weight;
  return is_swept;
}

/* Which state each of those follows, itself where none: [state], free with g_free. */
static int *
find_leaders (const PlanSolution *solution, SweepKind kind, const guint8 *is_swept)
{
  const SolveGrid *grid = solution->grid;
  int *leaders = g_new0 (int, grid->n_states);
  for (size_t state = 0; state < grid->n_states; state++)
    if (is_swept[state])
      {
        int cell = grid->state_cell[state], x = cell % grid->nx, y = cell / grid->nx;
        int leader = leader_of_square (grid, is_swept, grid->state_lie[state], x / SQUARE, y / SQUARE);
        leaders[state] = leads (solution, kind, state, (size_t)leader) ? (int)state : leader;
      }
  return leaders;
}

/* Threads that there are just now. */
static int
n_threads_now (const PlanSolution *solution)
{
  return solution->n_threads + (solution->n_helpers != NULL ? g_atomic_int_get (solution->n_helpers) : 0);
}

double
solve_sweep (PlanSolution *solution, SweepPlan plan, const gint *cancel)
{
  bool is_again = plan.kind == SWEEP_LEFT && plan.step > 0 && solution->worth->before != NULL;
  bool is_led
      = solution->grid->cell_m < FINE_M ? plan.kind == SWEEP_CERTIFY || is_again : solution->is_part && plan.kind != SWEEP_LEFT;
  g_autofree guint8 *is_swept = is_led ? mark_swept (solution, &plan) : NULL;
  g_autofree int *leaders = is_led ? find_leaders (solution, plan.kind, is_swept) : NULL;
  Sweep sweep = { solution, plan, cancel, leaders, is_swept, false };
  size_t n_chunks = (solution->n_active + CHUNK - 1) / CHUNK;
  solve_value_trees (solution);
  worth_update (solution->worth, solution->value, false);
  solve_find_least_beyond (solution);
  if (!solve_crew (n_threads_now (solution), n_chunks, run_chunk, &sweep, cancel))
    return NAN;
  sweep.is_following = true;
  if (is_led && !solve_crew (n_threads_now (solution), n_chunks, run_chunk, &sweep, cancel))
    return NAN;
  solution->n_sweeps++;
  double change = take_best (solution);
  if (plan.kind == SWEEP_CERTIFY)
    note_certified (solution);
  return change;
}
