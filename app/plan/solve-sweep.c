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
/* A swing whose coarse aim comes this near the best is looked at more finely when certifying. */
#define CERTIFY_MARGIN 0.03
/* Deviations of a pattern over which a change is looked for that may make an aim beside it the best, another aim, and one that changes what the swing costs. */
#define NEAR_SDS 1.5
#define MOST_SDS 2.5
#define ALL_SDS 4.0
/* A state that costs so much more than when all was looked at is looked at all round again. */
#define MUCH_RISEN 3e-3
/* One that costs so much more is looked at as if nothing were known. */
#define FAR_RISEN 0.02
#define FAR_STEP 4
#define FAR_MARGIN 0.12
/* The aims beside one are better than it by no more. */
#define ABOUT_GAIN 0.2
/* A swing that was not nearly the best may cost so much less than what was roughly known of it. */
#define ROUGHLY_KNOWN 0.08
/* Balls come down no farther from the way that they are aimed than this many aims: 20 degrees. */
#define DRIFT_TURN 57
/* Of a state on which so little depends that nothing is certified there, swings and aims are looked at no wider than in the last sweeps: what it loses counts as little. */
#define LIGHT_MARGIN 0.06
#define LIGHT_STEP 2
/* States that a thread takes at a time. */
#define CHUNK 64
/* What a rough look may be wrong by in what tells aims of a swing apart. */
#define ROUGH 0.02
/* Coarse aims lie no closer. */
#define LEAST_COARSE_STEP 2

typedef struct
{
  PlanSolution *solution;
  SweepPlan plan;
  const gint *cancel;
} Sweep;

/* One state's view of a swing. */
typedef struct
{
  PlanSolution *solution;
  const SweepPlan *plan;
  const SwingAims *aims;
  Vec2 at;
  double hole_m;
  int straight; /* the aim that lies nearest to the hole */
  double height_m, value;
  double bound; /* no aim of this swing costs less */
  const FallsSeen *falls;
  double margin; /* as the plan's, or less where little depends on the state */
  int step;      /* likewise */
  double risen;  /* strokes since all was looked at: so much more than the best then may be the best now */
  double fallen; /* likewise: so much less */
  bool is_new;   /* nothing is known of it yet but what the tables say */
  double least;  /* of the swings looked at so far */
  int best;      /* aim of this swing */
  double cost;
} Look;

/* ---- what has changed ---- */

/* Has anything changed where these balls come down, aimed so or a little beside it, since the fields were of that version? */
static bool
is_stirred_under (const Look *look, const SwingAims *aims, const gint *versions, int i, int beside, gint since)
{
  const PlanSolution *solution = look->solution;
  const SwingAim *aim = &aims->aims[i];
  if (aim->run < 0)
    return false;
  Landing landing = solve_landing (solution, aims, i, look->at, look->height_m);
  double off = beside * (2 * PI / N_AIMS) * hypot ((double)aim->x_m, (double)aim->y_m) / solution->grid->cell_m;
  const Worth *worth = solution->worth;
  double sds = versions == worth->stirred ? ALL_SDS : (versions == worth->leapt ? NEAR_SDS : MOST_SDS);
  return worth_is_changed (worth, versions, &landing, solve_aim_unit (i), sds, off, since);
}

/* ... where the swing's good strikes or its poor ones do? */
static bool
is_stirred (const Look *look, const gint *versions, int i, int beside, gint since)
{
  const SwingAims *aims = look->aims;
  return is_stirred_under (look, aims, versions, i, beside, since)
         || (aims->poor != NULL && is_stirred_under (look, aims->poor, versions, i, beside, since));
}

/* ---- the best aim of a state ---- */

static int
wrapped (int aim)
{
  return ((aim % N_AIMS) + N_AIMS) % N_AIMS;
}

/* To ROUGH strokes. */
static double
rough_cost (const Look *look, int aim)
{
  return solve_rough_aim_cost (look->solution, look->aims, aim, look->at, look->height_m);
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

/* Roughly, until the next aims are meant. */
static void
look_about (Look *look, int step)
{
  int best = look->best;
  double least = step > 1 ? rough_cost (look, best) : 0;
  for (; step > 1; step /= 2)
    {
      int middle = best;
      for (int side = -1; side <= 1; side += 2)
        {
          int aim = wrapped (middle + side * step);
          double cost = rough_cost (look, aim);
          if (cost < least)
            best = aim;
          least = fmin (least, cost);
        }
    }
  if (best != look->best)
    try_aim (look, best);
  int middle = look->best;
  try_aim (look, wrapped (middle - 1));
  try_aim (look, wrapped (middle + 1));
}

/* Larger cells only show the smaller ones where to begin, and are looked at all round once more. */
static int
coarse_step (const Look *look)
{
  return look->plan->kind == SWEEP_FIRST && look->solution->is_part ? 2 * look->aims->step : look->aims->step;
}

/* The coarse aims of a swing, and what they cost roughly. */
typedef struct
{
  int aims[N_AIMS / LEAST_COARSE_STEP];
  double costs[N_AIMS / LEAST_COARSE_STEP];
  int n;
  double least;
  int best;
} Coarse;

/* `since`: aims that have come to be no better since then by `gain` are left out. */
static void
look_roughly (const Look *look, double worst, gint since, const FallsMet *met, double gain, Coarse *coarse)
{
  const SwingAims *aims = look->aims;
  int middle = look->straight, step = coarse_step (look), n = (int)(WIDEST_RAD / (2 * PI) * N_AIMS) / step;
  coarse->n = 0;
  coarse->least = INFINITY;
  bool is_beyond[2] = { false, false };
  /* From the way to the hole outwards: what comes down farther from the hole than an aim that cannot be the best is not, either. */
  for (int k = 0; k <= 2 * n; k++)
    {
      int side = k % 2, turn = (k + 1) / 2 * step, aim = wrapped (middle + (side == 0 ? turn : -turn));
      if (is_beyond[side])
        continue;
      if (solve_least_cost (look->solution, aims, aim, look->at) > worst)
        {
          is_beyond[side] = turn > DRIFT_TURN;
          continue;
        }
      if ((since != 0 && solve_gain (look->solution, aims, met, aim, look->at, gain) < gain)
          || (since != 0 && !is_stirred (look, look->solution->worth->fell, aim, 0, since)))
        continue;
      double cost = rough_cost (look, aim);
      if (cost < coarse->least)
        coarse->best = aim;
      coarse->least = fmin (coarse->least, cost);
      coarse->aims[coarse->n] = aim;
      coarse->costs[coarse->n++] = cost;
    }
}

/* Roughly first, then those more carefully that may be the best of them. One that is not nearly the best of its state is as good as roughly known. */
static void
look_coarsely (Look *look, double worst, gint since, const FallsMet *met, double gain)
{
  Coarse coarse;
  look_roughly (look, worst, since, met, gain, &coarse);
  if (coarse.n == 0 || coarse.least > look->cost + ROUGH)
    return;
  if (look->best < 0 && isinf (look->cost) && coarse.least > look->least + CERTIFY_MARGIN + ROUGH)
    {
      look->best = coarse.best;
      look->cost = coarse.least;
      return;
    }
  for (int i = 0; i < coarse.n; i++)
    if (coarse.costs[i] <= coarse.least + ROUGH)
      try_aim (look, coarse.aims[i]);
}

static bool
overshoots (const Look *look)
{
  double reach_m = look->aims->reach_m;
  return reach_m > look->hole_m + PAST_HOLE_M && reach_m > look->solution->least_reach_m + PAST_HOLE_M;
}

/* About the aim that was best before, if the swing came near the best then: at the aims beside it where what they come down on is another thing now. */
static void
look_again (Look *look, size_t at, int before, double known)
{
  PlanSolution *solution = look->solution;
  const Worth *worth = solution->worth;
  bool is_far = look->step > 0 && look->risen > FAR_RISEN;
  int step = is_far ? FAR_STEP : look->step;
  look->best = -1;
  look->cost = INFINITY;
  if (before < 0 || known > look->value + (is_far ? FAR_MARGIN : look->margin))
    return;
  bool is_wide = step > 0 && is_stirred (look, worth->leapt, before, step, solution->looked[at]);
  if (!is_wide && !is_stirred (look, worth->stirred, before, 0, solution->seen[at]))
    return;
  try_aim (look, before);
  solution->seen[at] = (guint16)worth->version;
  if (!is_wide)
    return;
  if (look->cost < look->value + ABOUT_GAIN)
    look_about (look, step);
  solution->looked[at] = (guint16)worth->version;
}

/* At all aims that may be better than what was found so far. */
static void
look_everywhere (Look *look, size_t at, int before, double known)
{
  PlanSolution *solution = look->solution;
  bool is_first = look->is_new, is_known = before >= 0;
  /* What was known then of the swing, not of its best aim alone; that of other aims may be less by as much as the state has risen. */
  bool is_as_then = is_known && solution->seen[at] <= solution->certified;
  double risen = is_known && !is_as_then ? look->risen : 0, slack = look->risen > FAR_RISEN ? ROUGHLY_KNOWN : MUCH_RISEN;
  /* No aim was better then than the best of all. */
  double least = fmax ((is_known ? known : look->bound) - look->value - risen, look->fallen);
  gint since = is_first ? 0 : solution->certified;
  FallsMet met = { .n = 0 };
  look->best = -1;
  look->cost = INFINITY;
  if (!is_first && is_known && known > look->value + look->plan->margin)
    return;
  if (since > 0 && least > slack + solution->worth->most_fallen)
    return;
  double density = since > 0 ? solve_density (solution, look->aims, look->straight) : 0;
  if (since > 0 && least > slack + density * solution->worth->all_fallen)
    return;
  if (since > 0)
    solve_find_falls_met (solution, look->aims, density, look->falls, &met);
  if (since > 0 && least > slack + met.most_gain)
    return;
  bool is_again = since > 0 && is_known && look->risen <= FAR_RISEN;
  if (look->risen > (is_as_then ? FAR_RISEN : MUCH_RISEN))
    since = 0;
  if (since > 0 && met.n == 0)
    return;
  /* Sweeps keep the best aim and those beside it. */
  if (is_again)
    look->cost = known;
  else if (is_known)
    try_aim (look, before);
  look_coarsely (look, look->least + (is_first ? look->plan->margin : 0), since, &met,
                 MUCH_RISEN + fmax (0, is_known ? least : look->fallen));
  if (look->best >= 0 && (is_first || look->cost < look->least + CERTIFY_MARGIN))
    look_about (look, coarse_step (look) / 2);
  look->least = fmin (look->least, look->cost);
  if (look->best >= 0)
    solution->seen[at] = solution->looked[at] = (guint16)solution->worth->version;
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
  size_t n = 0;
  for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
    {
      look->aims = solution->aims[swing * N_LIES + (size_t)lie];
      if (look->aims == NULL || overshoots (look))
        continue;
      if (look->plan->kind == SWEEP_LEFT && !look->is_new)
        {
          promises[n++] = (Promise){ 0, swing };
          continue;
        }
      double bound = solve_least_cost (solution, look->aims, look->straight, look->at);
      size_t i = n++;
      for (; i > 0 && promises[i - 1].bound > bound; i--)
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

static Look
look_from (PlanSolution *solution, const SweepPlan *plan, size_t state, double weight)
{
  bool is_light = weight < SOLVE_CERTIFY_WEIGHT;
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
  size_t n = order_swings (&look, lie, promises);
  for (size_t i = 0; i < n; i++)
    {
      size_t at = first + promises[i].swing;
      look.aims = solution->aims[promises[i].swing * N_LIES + (size_t)lie];
      look.bound = promises[i].bound;
      (plan->kind == SWEEP_LEFT && !look.is_new ? look_again : look_everywhere) (&look, at, solution->aim[at],
                                                                                 (double)solution->cost[at]);
      take_aim (&look, at);
    }
  /* All of it has been looked at now. */
  if (look.is_new && solution->certified > 0)
    solution->certified_value[state] = (float)look.least;
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
        visit (solution, &sweep->plan, solution->active[i], weight);
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

double
solve_sweep (PlanSolution *solution, SweepPlan plan, const gint *cancel)
{
  Sweep sweep = { solution, plan, cancel };
  size_t n_chunks = (solution->n_active + CHUNK - 1) / CHUNK;
  worth_update (solution->worth, solution->value, false);
  solve_find_least_beyond (solution);
  if (!solve_crew (solution->n_threads, n_chunks, run_chunk, &sweep, cancel))
    return NAN;
  solution->n_sweeps++;
  double change = take_best (solution);
  if (plan.kind == SWEEP_CERTIFY)
    note_certified (solution);
  return change;
}
