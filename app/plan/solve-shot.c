// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One shot from any place: what it costs, cell by cell, and the best aim of every swing from there.
 */
#include "solve-run-private.h"

#include <math.h>
#include <stdlib.h>

/* Cells out to so many deviations are looked at. */
#define EXACT_SDS 4.5
/* A pattern is no narrower than this share of a cell, else it would fall between them. */
#define LEAST_SD_CELLS 0.6
#define WIDEST_RAD (100 * PI / 180)
/* Swings that come within this of the best by the fields are looked at exactly. */
#define EXACT_MARGIN 0.25
#define MOST_LOST 0.98

/* The pattern as it lies on the hole: its mean and covariance, m2. */
typedef struct
{
  Vec2 mean;
  double xx, xy, yy;
  double run;
  Vec2 way; /* on which it comes down */
} Spot;

static void
place_spot (const PlanSolution *solution, Vec2 ball, Vec2 way, Flown flown, Spot *spot)
{
  Vec2 u = way, right = vec2_scale (vec2_left (u), -1);
  Vec2 land = vec2_add (vec2_scale (u, flown.along_m), vec2_scale (right, flown.right_m));
  const SolveGrid *grid = solution->grid;
  double run_m = flown.run_m;
  if (grid->height_m != NULL)
    {
      int cell = solve_grid_cell (grid, ball);
      Vec2 slope = vec2 ((double)grid->slope_x[cell], (double)grid->slope_y[cell]);
      double up = vec2_dot (slope, u), side = vec2_dot (slope, right);
      land = vec2_add (land,
                       vec2_add (vec2_scale (u, up * (flown.up_along_m + up * flown.up_along_m2) + side * flown.side_along_m),
                                 vec2_scale (right, up * flown.up_right_m + side * flown.side_right_m)));
      double rise_m = solve_grid_height (grid, vec2_add (ball, land)) - solve_grid_height (grid, ball);
      double move_m = (flown.rise_m1 + up * flown.up_rise_m1 + flown.rise_m2 * rise_m) * rise_m;
      land = vec2_add (land, vec2_scale (vec2_unit (land), move_m));
      run_m = fmax (0, run_m + up * flown.up_run_m + rise_m * flown.run_rise);
    }
  double l = flown.long_sd_m * flown.long_sd_m, s = flown.side_sd_m * flown.side_sd_m;
  double both = flown.correlation * flown.long_sd_m * flown.side_sd_m;
  spot->mean = vec2_add (ball, land);
  spot->xx = l * u.x * u.x + 2 * both * u.x * right.x + s * right.x * right.x;
  spot->xy = l * u.x * u.y + both * (u.x * right.y + u.y * right.x) + s * right.x * right.y;
  spot->yy = l * u.y * u.y + 2 * both * u.y * right.y + s * right.y * right.y;
  spot->run = worth_run (run_m);
  double c = cos (flown.drift_rad), s1 = sin (flown.drift_rad);
  spot->way = vec2_add (vec2_scale (u, c), vec2_scale (right, s1));
}

/* ---- exactly ---- */

static double
play_again (double value, double lost)
{
  return lost > MOST_LOST ? MOST_STROKES : fmin (MOST_STROKES, (1 + value + lost) / (1 - lost));
}

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
      double next = play_again (value, again);
      if (fabs (next - q) < 1e-12)
        return next;
      q = next;
    }
  return q;
}

double
solve_flown_exactly (const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown, EndingVisit visit, void *data)
{
  Spot spot;
  place_spot (solution, ball, way, *flown, &spot);
  const SolveGrid *grid = solution->grid;
  double h = grid->cell_m, least = LEAST_SD_CELLS * h;
  /* The field runs straight between the cells' middles: a tent, whose variance is a sixth of a cell's square. */
  double xx = fmax (spot.xx, least * least) + h * h / 6, yy = fmax (spot.yy, least * least) + h * h / 6, xy = spot.xy;
  double determinant = xx * yy - xy * xy;
  int x0 = (int)floor ((spot.mean.x - EXACT_SDS * sqrt (xx) - grid->origin.x) / h),
      x1 = (int)ceil ((spot.mean.x + EXACT_SDS * sqrt (xx) - grid->origin.x) / h);
  int y0 = (int)floor ((spot.mean.y - EXACT_SDS * sqrt (yy) - grid->origin.y) / h),
      y1 = (int)ceil ((spot.mean.y + EXACT_SDS * sqrt (yy) - grid->origin.y) / h);
  double total = 0;
  for (int pass = 0; pass < 2; pass++)
    {
      Tally tally = { visit, data, NULL };
      Ending ending = { .worth = solution->worth,
                        .sector = -1,
                        .drop_sector = solve_sector (way),
                        .way = spot.way,
                        .run = spot.run,
                        .visit = tally_end,
                        .data = &tally };
      runs_between (spot.run, spot.way, ending.shares);
      g_autoptr (GArray) penalties = g_array_new (FALSE, FALSE, sizeof (PenaltyEnd));
      tally.penalties = penalties;
      for (int y = y0; y <= y1; y++)
        for (int x = x0; x <= x1; x++)
          {
            double dx = grid->origin.x + x * h - spot.mean.x, dy = grid->origin.y + y * h - spot.mean.y;
            double z2 = (yy * dx * dx - 2 * xy * dx * dy + xx * dy * dy) / determinant;
            if (z2 > EXACT_SDS * EXACT_SDS)
              continue;
            double weight = exp (-0.5 * z2);
            if (pass == 0)
              {
                total += weight;
                continue;
              }
            int i = x < 0 ? 0 : (x >= grid->nx ? grid->nx - 1 : x), j = y < 0 ? 0 : (y >= grid->ny ? grid->ny - 1 : y);
            worth_end_ball (&ending, (size_t)(j * grid->nx + i), weight / total);
          }
      if (pass == 1)
        {
          double dropped = 0;
          for (guint i = 0; i < penalties->len; i++)
            dropped += g_array_index (penalties, PenaltyEnd, i).share * g_array_index (penalties, PenaltyEnd, i).strokes;
          return cheapest_relief (ending.value - dropped, ending.lost, penalties);
        }
    }
  return INFINITY;
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

/* About the way to the hole first, then finer about the best. */
static void
choose_aim (const PlanSolution *solution, Vec2 ball, Lie lie, SolveChoice *choice)
{
  Search search
      = { solution, solution->aims[choice->swing * N_LIES + (size_t)lie], ball, solve_grid_height (solution->grid, ball), -1,
          INFINITY };
  choice->strokes = INFINITY;
  if (search.aims == NULL)
    return;
  int middle = solve_aim (vec2_sub (solution->grid->target, ball)), step = search.aims->step;
  int n = (int)(WIDEST_RAD / (2 * PI) * N_AIMS) / step;
  /* From the middle outwards, so that what cannot be better is soon known not to be. */
  for (int i = 0; i <= 2 * n; i++)
    {
      int aim = middle + (i % 2 == 0 ? i / 2 : -(i / 2 + 1)) * step;
      if (solve_least_cost (solution, search.aims, aim, ball) <= search.cost)
        try_aim (&search, aim);
    }
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

void
solve_choices (const PlanSolution *solution, Vec2 ball, Lie lie, SolveChoice *choices)
{
  size_t n = solution->fleet->n_swings;
  for (size_t i = 0; i < n; i++)
    {
      choices[i].swing = i;
      choose_aim (solution, ball, lie, &choices[i]);
    }
  qsort (choices, n, sizeof *choices, compare_choices);
  double limit = n > 0 ? choices[0].strokes + EXACT_MARGIN : 0;
  for (size_t i = 0; i < n && choices[i].strokes <= limit; i++)
    refine_choice (solution, ball, lie, &choices[i]);
  qsort (choices, n, sizeof *choices, compare_choices);
}
