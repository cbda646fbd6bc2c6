// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What has come to be worth less strokes since all was looked at, by squares, and by how much that can make a swing better: so much need be looked at again.
 */
#include "solve-private.h"

#include <math.h>

/* Deviations of a pattern within which a swing comes down on what has changed. */
#define MET_SDS 4.0
/* Share of a carry by which slopes may move where it ends, and way before a canopy for each metre of its height. */
#define FALL_RISE 0.2
#define CANOPY_STEEP 2.0

void
worth_note_fall (Worth *worth, size_t cell, double strokes)
{
  int x = (int)(cell % (size_t)worth->grid->nx), y = (int)(cell / (size_t)worth->grid->nx);
  Fall *fall = &worth->falls[y / worth->fall_cells * worth->falls_x + x / worth->fall_cells];
  CellBox *box = &fall->box;
  *box = (CellBox){ MIN (box->x0, x), MIN (box->y0, y), MAX (box->x1, x), MAX (box->y1, y) };
  fall->strokes += strokes;
  fall->most = fmax (fall->most, strokes);
}

void
worth_gather_falls (Worth *worth)
{
  worth->n_fallen = 0;
  worth->most_fallen = worth->all_fallen = 0;
  for (int i = 0; i < worth->n_falls; i++)
    if (worth->falls[i].box.x1 >= worth->falls[i].box.x0)
      {
        worth->fallen[worth->n_fallen++] = &worth->falls[i];
        worth->most_fallen += worth->falls[i].most;
        worth->all_fallen += worth->falls[i].strokes;
      }
}

void
worth_forget_falls (Worth *worth)
{
  for (int i = 0; i < worth->n_falls; i++)
    worth->falls[i] = (Fall){ { G_MAXINT, G_MAXINT, -1, -1 }, 0, 0 };
  worth_gather_falls (worth);
}

/* Most of the balls that come down in one cell. */
static double
density_of (const SwingAim *aim, double cell_m)
{
  double determinant = (double)aim->xx * (double)aim->yy - (double)aim->xy * (double)aim->xy;
  return determinant > 0 ? fmin (1, cell_m * cell_m / (2 * PI * sqrt (determinant))) : 1;
}

void
solve_find_falls_seen (const PlanSolution *solution, Vec2 at, FallsSeen *seen)
{
  const Worth *worth = solution->worth;
  const SolveGrid *grid = solution->grid;
  double side_m = grid->cell_m, x = at.x - grid->origin.x, y = at.y - grid->origin.y;
  for (int i = 0; i < worth->n_fallen; i++)
    {
      const CellBox *box = &worth->fallen[i]->box;
      double x0 = box->x0 * side_m - x, y0 = box->y0 * side_m - y, x1 = box->x1 * side_m - x, y1 = box->y1 * side_m - y;
      double near_x = fmax (0, fmax (x0, -x1)), near_y = fmax (0, fmax (y0, -y1));
      double far_x = fmax (fabs (x0), fabs (x1)), far_y = fmax (fabs (y0), fabs (y1));
      seen->near_m[i] = (float)sqrt (near_x * near_x + near_y * near_y);
      seen->far_m[i] = (float)sqrt (far_x * far_x + far_y * far_y);
    }
}

/* How far from the ball a swing comes down, or runs on to. */
typedef struct
{
  float least_m, most_m;
} Ring;

static Ring
ring_of (const PlanSolution *solution, const SwingAims *aims)
{
  const SolveGrid *grid = solution->grid;
  double spread_m = MET_SDS * aims->long_sd_m + 2 * grid->cell_m, rise = grid->height_m != NULL ? FALL_RISE : 0;
  double ahead_m = grid->cell_m * worth_reach (solution->worth, worth_run (aims->run_m)),
         behind_m = CANOPY_STEEP * grid->highest_canopy_m;
  return (Ring){ (float)((aims->reach_m - aims->run_m) * (1 - rise) - spread_m - fmax (ahead_m, behind_m)),
                 (float)(aims->far_m * (1 + rise) + spread_m + ahead_m) };
}

static inline bool
is_within (const FallsSeen *seen, int i, Ring ring)
{
  return seen->near_m[i] <= ring.most_m && seen->far_m[i] >= ring.least_m;
}

double
solve_density (const PlanSolution *solution, const SwingAims *aims, int aim)
{
  double density = density_of (&aims->aims[aim], solution->grid->cell_m);
  if (aims->poor != NULL)
    density += (double)aims->poor_share * density_of (&aims->poor->aims[aim], solution->grid->cell_m);
  return density;
}

void
solve_find_falls_met (const PlanSolution *solution, const SwingAims *aims, double density, const FallsSeen *seen, FallsMet *met)
{
  const Worth *worth = solution->worth;
  const SwingAims *poor = aims->poor;
  Ring ring = ring_of (solution, aims), poor_ring = poor != NULL ? ring_of (solution, poor) : ring;
  met->n = 0;
  met->most_gain = 0;
  met->box = (CellBox){ G_MAXINT, G_MAXINT, -1, -1 };
  for (int i = 0; i < worth->n_fallen; i++)
    {
      const Fall *fall = worth->fallen[i];
      if (!is_within (seen, i, ring) && (poor == NULL || !is_within (seen, i, poor_ring)))
        continue;
      met->falls[met->n++] = fall;
      met->box = (CellBox){ MIN (met->box.x0, fall->box.x0), MIN (met->box.y0, fall->box.y0), MAX (met->box.x1, fall->box.x1),
                            MAX (met->box.y1, fall->box.y1) };
      met->most_gain += fmin (fall->most, density * fall->strokes);
    }
}

static inline double
more_than_0 (double a, double b)
{
  double more = a > b ? a : b;
  return more > 0 ? more : 0;
}

/* One aim's pattern over what has fallen. */
typedef struct
{
  double x, y; /* where it comes down, from the first cell's middle */
  double cell_m, beside_m;
  CellBox extent;          /* how far balls run on */
  double widest, farthest; /* the widest variance, and the square of how far the pattern reaches */
} Over;

/* Square of how far a pattern lies from a box, and from where its balls may run on into it. */
static inline double
square_to (const Over *over, const CellBox *box)
{
  double dx
      = more_than_0 ((box->x0 - over->extent.x1) * over->cell_m - over->x, over->x - (box->x1 - over->extent.x0) * over->cell_m)
        - over->beside_m;
  double dy
      = more_than_0 ((box->y0 - over->extent.y1) * over->cell_m - over->y, over->y - (box->y1 - over->extent.y0) * over->cell_m)
        - over->beside_m;
  return (dx > 0 ? dx * dx : 0) + (dy > 0 ? dy * dy : 0);
}

/* As much as if what fell in each square lay together where the pattern is closest to it. */
static double
gain_under (const PlanSolution *solution, const FallsMet *met, const SwingAim *aim, Vec2 at, double enough)
{
  const SolveGrid *grid = solution->grid;
  double xx = (double)aim->xx, xy = (double)aim->xy, yy = (double)aim->yy, gain = 0;
  /* Never more than by the widest deviation. */
  double widest = (xx + yy) / 2 + sqrt ((xx - yy) * (xx - yy) / 4 + xy * xy);
  Over over = { .x = at.x + (double)aim->x_m - grid->origin.x,
                .y = at.y + (double)aim->y_m - grid->origin.y,
                .cell_m = grid->cell_m,
                .beside_m = CANOPY_STEEP * grid->highest_canopy_m + 2 * grid->cell_m,
                .extent = worth_extent (solution->worth, (double)aim->run, (int)aim->sector),
                .widest = widest,
                .farthest = MET_SDS * MET_SDS * widest };
  if (square_to (&over, &met->box) >= over.farthest)
    return 0;
  double density = density_of (aim, grid->cell_m);
  for (int i = 0; i < met->n && gain < enough; i++)
    {
      double square = square_to (&over, &met->falls[i]->box);
      if (square >= over.farthest)
        continue;
      /* Little more than exp (-h). */
      double h = square / over.widest / 2, grows = 1 + h * (1 + h / 2 * (1 + h / 3 * (1 + h / 4 * (1 + h / 5))));
      double more = density * met->falls[i]->strokes / grows;
      gain += more < met->falls[i]->most ? more : met->falls[i]->most;
    }
  return gain;
}

double
solve_gain (const PlanSolution *solution, const SwingAims *aims, const FallsMet *met, int aim, Vec2 at, double enough)
{
  double gain = gain_under (solution, met, &aims->aims[aim], at, enough);
  if (aims->poor == NULL || gain >= enough)
    return gain;
  return gain + (double)aims->poor_share * gain_under (solution, met, &aims->poor->aims[aim], at, INFINITY);
}
