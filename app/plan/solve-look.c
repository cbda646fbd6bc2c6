// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One state's look at a swing: the aims that may be the best, by the fields of the values before the sweep, and only where those are others than when it was looked at last.
 */
#include "solve-look-private.h"

#include <math.h>

/* Aims of the first look go this far to either side of the way to the hole. */
#define WIDEST_RAD (80 * PI / 180)
/* Deviations of a pattern over which a change is looked for that may make an aim beside it the best, another aim, and one that changes what the swing costs. */
#define NEAR_SDS 1.5
#define MOST_SDS 2.5
#define ALL_SDS 4.0
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
/* What a rough look may be wrong by in what tells aims of a swing apart. */
#define ROUGH 0.02
/* What comes down so far before the hole is nearest to it when it is played straight; wind, curve and slopes change what it may cost by no more. */
#define SHORT_M 20.0
#define SHORT_SLACK 0.05
/* The best swing of a state that counts in full is looked at once more from this many aims off: where it was roughly known it may have stopped on a slope. */
#define LAST_STEP 8
/* Coarse aims lie no closer. */
#define LEAST_COARSE_STEP 2

/* ---- what has changed ---- */

/* Has anything changed where these balls come down, aimed so or a little beside it, since the fields were of that version? */
static bool
is_stirred_under (const Look *look, const SwingAim *aim, const Landing *landing, const gint *versions, int beside, gint since)
{
  Vec2 to = vec2 ((double)aim->x_m, (double)aim->y_m);
  double far_m = sqrt (vec2_dot (to, to)), off = beside * (2 * PI / N_AIMS) * far_m / look->solution->grid->cell_m;
  const Worth *worth = look->solution->worth;
  double sds = versions == worth->stirred ? ALL_SDS : (versions == worth->leapt ? NEAR_SDS : MOST_SDS);
  return worth_is_changed (worth, versions, landing, vec2_scale (to, 1 / far_m), sds, off, since);
}

/* ... where the swing's good strikes or its poor ones do? */
static bool
is_stirred (const Look *look, const gint *versions, int i, int beside, gint since)
{
  const SwingAims *aims = look->aims;
  if (aims->aims[i].run < 0)
    return false;
  Landing good = solve_landing (look->solution, aims, i, look->at, look->height_m);
  if (is_stirred_under (look, &aims->aims[i], &good, versions, beside, since))
    return true;
  if (aims->poor == NULL || aims->poor->aims[i].run < 0)
    return false;
  Landing poor = solve_poor_landing (look->solution, aims, i, look->at, look->height_m, &good);
  return is_stirred_under (look, &aims->poor->aims[i], &poor, versions, beside, since);
}

/* ---- the best aim of a state ---- */

int
look_wrapped (int aim)
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
          int aim = look_wrapped (middle + side * step);
          double cost = rough_cost (look, aim);
          if (cost < least)
            best = aim;
          least = fmin (least, cost);
        }
    }
  if (best != look->best)
    try_aim (look, best);
  int middle = look->best;
  try_aim (look, look_wrapped (middle - 1));
  try_aim (look, look_wrapped (middle + 1));
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
      int side = k % 2, turn = (k + 1) / 2 * step, aim = look_wrapped (middle + (side == 0 ? turn : -turn));
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

/* So much has the state risen that swings and aims are looked at more widely. */
static bool
is_far_risen (const Look *look)
{
  return look->step > 0 && look->risen > FAR_RISEN;
}

double
look_left_margin (const Look *look)
{
  return is_far_risen (look) ? FAR_MARGIN : look->margin;
}

void
look_again (Look *look, size_t at, int before)
{
  PlanSolution *solution = look->solution;
  const Worth *worth = solution->worth;
  int step = is_far_risen (look) ? FAR_STEP : look->step;
  look->best = -1;
  look->cost = INFINITY;
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

void
look_also (Look *look, size_t at, int before, int aim, double known)
{
  if (aim == before)
    return;
  if (look->best < 0)
    look->cost = known;
  try_aim (look, aim);
  if (look->best == aim)
    look->solution->seen[at] = (guint16)look->solution->worth->version;
}

void
look_everywhere (Look *look, size_t at, int before, double known)
{
  PlanSolution *solution = look->solution;
  bool is_first = look->is_new, is_known = before >= 0;
  /* What was known then of the swing, not of its best aim alone; that of other aims may be less by as much as the state has risen. */
  bool is_as_then = is_known && solution->seen[at] <= solution->certified;
  double risen = is_known && !is_as_then ? look->risen : 0, slack = look->risen > FAR_RISEN ? ROUGHLY_KNOWN : MUCH_RISEN;
  /* No aim was better then than the best of all. */
  double least = fmax (look->bound - look->value - risen, look->fallen);
  gint since = is_first ? 0 : solution->certified;
  FallsMet met = { .n = 0 };
  look->best = -1;
  look->cost = INFINITY;
  if (since > 0 && least > slack + solution->worth->most_fallen)
    return;
  /* No swing that comes down before the hole comes nearer to it than straight. */
  if (!is_known && look->bound > look->least + (is_first ? look->plan->margin : 0) + SHORT_SLACK
      && look->aims->far_m + SHORT_M < look->hole_m)
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

void
look_beside (Look *look, size_t at, int before)
{
  PlanSolution *solution = look->solution;
  int step = MAX (LAST_STEP, look->aims->step / 2);
  look->best = -1;
  look->cost = INFINITY;
  if (solution->certified > 0 && !is_stirred (look, solution->worth->leapt, before, step, solution->looked[at]))
    return;
  try_aim (look, before);
  if (look->best >= 0)
    look_about (look, step);
  solution->seen[at] = solution->looked[at] = (guint16)solution->worth->version;
}

void
look_where (Look *look, size_t at, int before, const int *aims, int n_aims, bool is_best)
{
  PlanSolution *solution = look->solution;
  look->best = -1;
  look->cost = INFINITY;
  if (before >= 0)
    try_aim (look, before);
  for (int i = 0; i < n_aims; i++)
    try_aim (look, aims[i]);
  if (look->best >= 0 && (is_best || look->best != before))
    look_about (look, MAX (is_best ? LAST_STEP : LOOK_BESIDE_STEP, look->aims->step / 2));
  solution->seen[at] = solution->looked[at] = (guint16)solution->worth->version;
}
