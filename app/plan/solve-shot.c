// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One shot from any place: what it costs, cell by cell, and the best aim of every swing from there.
 */
#include "solve-run-private.h"

#include <math.h>
#include <stdlib.h>

/* Cells out to so many deviations are looked at. */
#define EXACT_SDS 4.5
#define WIDEST_RAD (100 * PI / 180)
/* Swings that come within this of the best by the fields are looked at exactly. */
#define EXACT_MARGIN 0.25

/* The pattern as it lies on the hole: its mean and covariance, m2. */
typedef struct
{
  Vec2 mean;
  double xx, xy, yy;
  double run;
  Vec2 way; /* on which it comes down */
} Spot;

/* `*further`: how much farther the good strikes fly than from level ground over such, by which all are wider spread; NAN: these are the good ones, it is found. */
static void
place_spot (const PlanSolution *solution, Vec2 ball, Vec2 way, Flown flown, double *further, Spot *spot)
{
  Vec2 u = way, right = vec2_scale (vec2_left (u), -1);
  Vec2 land = vec2_add (vec2_scale (u, flown.along_m), vec2_scale (right, flown.right_m));
  const SolveGrid *grid = solution->grid;
  double run_m = flown.run_m, level_m = vec2_length (land);
  if (grid->height_m != NULL)
    {
      int cell = solve_grid_cell (grid, ball);
      Vec2 slope = vec2 ((double)grid->slope_x[cell], (double)grid->slope_y[cell]);
      double up = vec2_dot (slope, u), side = vec2_dot (slope, right);
      land = vec2_add (land,
                       vec2_add (vec2_scale (u, up * (flown.up_along_m + up * flown.up_along_m2) + side * flown.side_along_m),
                                 vec2_scale (right, up * flown.up_right_m + side * flown.side_right_m)));
      Vec2 along = vec2_unit (land);
      double here_m = solve_grid_height (grid, ball), rise_m = 0, move_m = 0;
      for (int step = 0; step < 2; step++)
        {
          rise_m = solve_grid_height (grid, vec2_add (ball, vec2_add (land, vec2_scale (along, move_m)))) - here_m;
          move_m = (flown.rise_m1 + up * flown.up_rise_m1 + flown.rise_m2 * rise_m) * rise_m;
        }
      land = vec2_add (land, vec2_scale (along, move_m));
      run_m = fmax (0, run_m + up * flown.up_run_m + rise_m * flown.run_rise);
    }
  if (isnan (*further))
    *further = vec2_length (land) / level_m;
  double l = pow (*further * flown.long_sd_m, 2), s = pow (*further * flown.side_sd_m, 2);
  double both = flown.correlation * sqrt (l * s);
  spot->mean = vec2_add (ball, land);
  spot->xx = l * u.x * u.x + 2 * both * u.x * right.x + s * right.x * right.x;
  spot->xy = l * u.x * u.y + both * (u.x * right.y + u.y * right.x) + s * right.x * right.y;
  spot->yy = l * u.y * u.y + 2 * both * u.y * right.y + s * right.y * right.y;
  spot->run = worth_run (run_m);
  double c = cos (flown.drift_rad), s1 = sin (flown.drift_rad);
  spot->way = vec2_add (vec2_scale (u, c), vec2_scale (right, s1));
}

/* ---- exactly ---- */

typedef struct
{
  double share, strokes;
} PenaltyEnd;

/* What the shot's balls come to, those in penalty areas one by one: the golfer may always play again from where the shot was played. */
typedef struct
{
  EndingVisit visit;
  void *data;
  GArray *penalties; /* PenaltyEnd */
} Tally;

static void
tally_end (void *data, size_t cell, Lie lie, double share, double strokes)
{
  Tally *tally = data;
  if (lie == LIE_PENALTY)
    {
      PenaltyEnd end = { share, strokes };
      g_array_append_val (tally->penalties, end);
    }
  if (tally->visit != NULL)
    tally->visit (tally->data, cell, lie, share, strokes);
}

/* Q = 1 + open + sum of min (drop, 1 + Q) + lost (1 + Q): the right side grows with Q by less than Q does. */
#define MOST_TURNS 200

static double
cheapest_relief (double open, double lost, const GArray *penalties)
{
  double q = 0;
  for (int turn = 0; turn < MOST_TURNS; turn++)
    {
      double value = open, again = lost;
      for (guint i = 0; i < penalties->len; i++)
        {
          const PenaltyEnd *end = &g_array_index (penalties, PenaltyEnd, i);
          if (end->strokes <= 1 + q || turn == 0)
            value += end->share * end->strokes;
          else
            again += end->share;
        }
      double next = solve_play_again (value, again);
      if (fabs (next - q) < 1e-12)
        return next;
      q = next;
    }
  return q;
}

/* The normal over cells: its weight in each, and the cells that it reaches. */
typedef struct
{
  Vec2 mean; /* in cells from the middle of the first */
  double xx, xy, yy, determinant;
  int x0, x1, y0, y1;
  double total; /* of the weights */
} Bell;

static double
bell_weight (const Bell *bell, int x, int y)
{
  double dx = x - bell->mean.x, dy = y - bell->mean.y;
  double z2 = (bell->yy * dx * dx - 2 * bell->xy * dx * dy + bell->xx * dy * dy) / bell->determinant;
  return z2 > EXACT_SDS * EXACT_SDS ? 0 : exp (-0.5 * z2);
}

static Bell
bell_over (const PlanSolution *solution, const Spot *spot)
{
  double h = solution->grid->cell_m, area = h * h;
  Vec2 at = vec2_scale (vec2_sub (spot->mean, solution->grid->origin), 1 / h);
  double narrowest = (spot->xx + spot->yy) / 2 - hypot ((spot->xx - spot->yy) / 2, spot->xy);
  double add = fmax (solution->widen, solution->least_var - narrowest / area);
  Bell bell = { .mean = at, .xx = spot->xx / area + add, .xy = spot->xy / area, .yy = spot->yy / area + add };
  bell.determinant = bell.xx * bell.yy - bell.xy * bell.xy;
  bell.x0 = (int)floor (at.x - EXACT_SDS * sqrt (bell.xx));
  bell.x1 = (int)ceil (at.x + EXACT_SDS * sqrt (bell.xx));
  bell.y0 = (int)floor (at.y - EXACT_SDS * sqrt (bell.yy));
  bell.y1 = (int)ceil (at.y + EXACT_SDS * sqrt (bell.yy));
  for (int y = bell.y0; y <= bell.y1; y++)
    for (int x = bell.x0; x <= bell.x1; x++)
      bell.total += bell_weight (&bell, x, y);
  return bell;
}

/* What the runs are made of, from cell to cell. */
typedef struct
{
  int length, sector;
  double shorter, right;             /* shares in the middle */
  Vec2 shorter_change, right_change; /* by a cell */
} RunMix;

static RunMix
mix_runs (const SolveGrid *grid, const Spot *spot, const Bell *bell)
{
  double share, xx = bell->xx, xy = bell->xy, yy = bell->yy;
  RunMix mix = { .length = (int)fmin (N_RUNS - 2, spot->run), .sector = runs_sector (spot->way, &share) };
  RunMoves moves = worth_run_moves (grid->cell_m, spot->run, share, worth_least_variance (xx, xy, yy));
  mix.shorter = 1 - (spot->run - mix.length);
  mix.right = 1 - share;
  Vec2 u = spot->way, l = vec2_left (u);
  mix.shorter_change = vec2_scale (vec2 (yy * u.x - xy * u.y, xx * u.y - xy * u.x), moves.along / bell->determinant);
  mix.right_change = vec2_scale (vec2 (yy * l.x - xy * l.y, xx * l.y - xy * l.x), moves.left / bell->determinant);
  return mix;
}

/* In a cell so far off the middle: of nothing less than none. */
static void
share_runs (const RunMix *mix, Vec2 off, RunShare shares[4])
{
  double shorter = mix->shorter + vec2_dot (mix->shorter_change, off), right = mix->right + vec2_dot (mix->right_change, off);
  runs_between (mix->length, mix->sector, CLAMP (shorter, 0, 1), CLAMP (right, 0, 1), shares);
}

/* What becomes of `share` of the balls, which fly so. */
static void
end_strikes (const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown, double share, double *further,
             Ending *ending)
{
  const SolveGrid *grid = solution->grid;
  Spot spot;
  place_spot (solution, ball, way, *flown, further, &spot);
  Bell bell = bell_over (solution, &spot);
  ending->way = spot.way;
  ending->run = spot.run;
  RunMix mix = mix_runs (grid, &spot, &bell);
  for (int y = bell.y0; y <= bell.y1; y++)
    for (int x = bell.x0; x <= bell.x1; x++)
      {
        double weight = bell_weight (&bell, x, y);
        int i = CLAMP (x, 0, grid->nx - 1), j = CLAMP (y, 0, grid->ny - 1);
        if (!(weight > 0))
          continue;
        share_runs (&mix, vec2_sub (vec2 (x, y), bell.mean), ending->shares);
        worth_end_ball (ending, (size_t)(j * grid->nx + i), share * weight / bell.total);
      }
}

double
solve_flown_exactly (const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown, EndingVisit visit, void *data)
{
  g_autoptr (GArray) penalties = g_array_new (FALSE, FALSE, sizeof (PenaltyEnd));
  Tally tally = { visit, data, penalties };
  Ending ending
      = { .worth = solution->worth, .sector = -1, .drop_sector = solve_sector (way), .visit = tally_end, .data = &tally };
  double further = NAN;
  end_strikes (solution, ball, way, flown, 1 - flown->poor_share, &further, &ending);
  if (flown->poor_share > 0)
    {
      Flown poor = flown_poor (flown);
      end_strikes (solution, ball, way, &poor, flown->poor_share, &further, &ending);
    }
  double dropped = 0;
  for (guint i = 0; i < penalties->len; i++)
    dropped += g_array_index (penalties, PenaltyEnd, i).share * g_array_index (penalties, PenaltyEnd, i).strokes;
  return cheapest_relief (ending.value - dropped, ending.lost, penalties);
}

double
solve_shot_exactly (const PlanSolution *solution, const SolveShot *shot, EndingVisit visit, void *data)
{
  Flown flown;
  if (!fleet_flown (solution->fleet, shot->swing, shot->lie, shot->way, &flown))
    return INFINITY;
  return solve_flown_exactly (solution, shot->ball, shot->way, &flown, visit, data);
}

/* ---- the best aim of every swing ---- */

typedef struct
{
  const PlanSolution *solution;
  const SwingAims *aims;
  Vec2 ball;
  double height_m;
  int best;
  double cost;
} Search;

static void
try_aim (Search *search, int aim)
{
  aim = (aim + N_AIMS) % N_AIMS;
  double cost = solve_aim_cost (search->solution, search->aims, aim, search->ball, search->height_m);
  if (cost < search->cost)
    {
      search->cost = cost;
      search->best = aim;
    }
}

/* Coarse aims about the way to the hole, from the middle outwards, so that what cannot be better is soon known not to be. */
typedef struct
{
  int middle, step, n;
} CoarseAims;

static CoarseAims
coarse_aims (const PlanSolution *solution, const SwingAims *aims, Vec2 ball)
{
  int step = aims->step;
  return (CoarseAims){ solve_aim (vec2_sub (solution->grid->target, ball)), step,
                       2 * ((int)(WIDEST_RAD / (2 * PI) * N_AIMS) / step) + 1 };
}

static int
coarse_aim (const CoarseAims *coarse, int i)
{
  return coarse->middle + (i % 2 == 0 ? i / 2 : -(i / 2 + 1)) * coarse->step;
}

/* None of its coarse aims costs less. */
static double
least_of_swing (const PlanSolution *solution, const SwingAims *aims, Vec2 ball)
{
  double least = INFINITY;
  if (aims == NULL)
    return INFINITY;
  CoarseAims coarse = coarse_aims (solution, aims, ball);
  for (int i = 0; i < coarse.n; i++)
    least = fmin (least, solve_least_cost (solution, aims, coarse_aim (&coarse, i), ball));
  return least;
}

/* Coarse aims first, such as may cost no more than `most`, then finer about the best. */
static void
choose_aim (const PlanSolution *solution, Vec2 ball, const SwingAims *aims, double most, SolveChoice *choice)
{
  Search search = { solution, aims, ball, solve_grid_height (solution->grid, ball), -1, INFINITY };
  CoarseAims coarse = coarse_aims (solution, aims, ball);
  for (int i = 0; i < coarse.n; i++)
    {
      int aim = coarse_aim (&coarse, i);
      if (solve_least_cost (solution, aims, aim, ball) <= fmin (most, search.cost))
        try_aim (&search, aim);
    }
  int step = coarse.step, middle = coarse.middle;
  for (step /= 2; step >= 1; step /= 2)
    {
      int from = search.best < 0 ? middle : search.best;
      try_aim (&search, from - step);
      try_aim (&search, from + step);
    }
  if (search.best < 0)
    return;
  choice->way = solve_aim_unit (search.best);
  choice->strokes = search.cost;
}

/* The best of the swings that were looked at, and the best with another club. */
typedef struct
{
  const Club *club;
  double best, next;
} Leaders;

static void
note_choice (Leaders *leaders, const Club *club, double strokes)
{
  if (strokes < leaders->best)
    {
      if (club != leaders->club)
        leaders->next = leaders->best;
      leaders->club = club;
      leaders->best = strokes;
    }
  else if (club != leaders->club)
    leaders->next = fmin (leaders->next, strokes);
}

static int
compare_choices (const void *a, const void *b)
{
  const SolveChoice *first = a, *second = b;
  if (first->strokes != second->strokes)
    return first->strokes < second->strokes ? -1 : 1;
  return (first->swing > second->swing) - (first->swing < second->swing);
}

/* Exactly, with the aims next to it. */
static void
refine_choice (const PlanSolution *solution, Vec2 ball, Lie lie, SolveChoice *choice)
{
  SolveShot shot = { .ball = ball, .lie = lie, .swing = choice->swing };
  int middle = solve_aim (choice->way);
  choice->strokes = INFINITY;
  for (int i = -1; i <= 1; i++)
    {
      shot.way = solve_aim_unit (middle + i);
      double strokes = solve_shot_exactly (solution, &shot, NULL, NULL);
      if (strokes < choice->strokes)
        {
          choice->strokes = strokes;
          choice->way = shot.way;
        }
    }
}

static const SwingAims *
aims_of (const PlanSolution *solution, size_t swing, Lie lie)
{
  return solution->aims[swing * N_LIES + (size_t)lie];
}

void
solve_rough_choices (const PlanSolution *solution, Vec2 ball, Lie lie, double margin, SolveChoice *choices)
{
  size_t n = solution->fleet->n_swings;
  Leaders leaders = { NULL, INFINITY, INFINITY };
  for (size_t i = 0; i < n; i++)
    choices[i] = (SolveChoice){ .swing = i, .strokes = least_of_swing (solution, aims_of (solution, i, lie), ball) };
  /* Those that may be the best first. */
  qsort (choices, n, sizeof *choices, compare_choices);
  for (size_t i = 0; i < n; i++)
    {
      SolveChoice *choice = &choices[i];
      double least = choice->strokes, most = fmax (leaders.best + margin, leaders.next);
      choice->strokes = INFINITY;
      if (!isfinite (least) || least > most)
        continue;
      choose_aim (solution, ball, aims_of (solution, choice->swing, lie), most, choice);
      note_choice (&leaders, solution->fleet->swings[choice->swing].club, choice->strokes);
    }
  qsort (choices, n, sizeof *choices, compare_choices);
}

void
solve_choices (const PlanSolution *solution, Vec2 ball, Lie lie, double margin, SolveChoice *choices)
{
  size_t n = solution->fleet->n_swings;
  solve_rough_choices (solution, ball, lie, fmax (margin, EXACT_MARGIN), choices);
  double limit = n > 0 ? choices[0].strokes + EXACT_MARGIN : 0;
  for (size_t i = 0; i < n && choices[i].strokes <= limit; i++)
    refine_choice (solution, ball, lie, &choices[i]);
  qsort (choices, n, sizeof *choices, compare_choices);
}
