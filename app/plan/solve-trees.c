// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a ball costs that lies among trees. No shot is worked out from there: it is got out to open ground, the cheapest way. How much dearer that is than a fairway the table says, and the
 * solution as it stands what it costs from there on.
 */
#include "solve-private.h"

#include <math.h>

/* A value that is another by less is left: it is not worth another look at all that flies over the trees. */
#define LEAST_MOVE 1e-3

/* Open ground beside trees or between them. */
typedef struct
{
  size_t state;
  double lie_adds; /* strokes that its lie costs more than a fairway as far from the hole, by the table */
} Rim;

struct _Thicket
{
  GArray *rims; /* Rim */
  size_t first; /* state among trees */
  size_t n;     /* of them */
  double *adds; /* [state - first] strokes that trees cost more than a fairway; INFINITY: the value stands */
  double *
      out; /* [cell] what a ball costs that comes out there on a fairway, or whose way out leads through there; INFINITY: none does */
  double by_cell; /* strokes for a cell of the way */
};

static double
hole_m (const PlanSolution *solution, size_t state)
{
  return vec2_distance (solve_grid_centre (solution->grid, solution->grid->state_cell[state]), solution->grid->target);
}

/* Strokes that the state's lie costs more than a fairway as far from the hole. */
static double
lie_adds (const PlanSolution *solution, size_t state)
{
  double far_m = hole_m (solution, state);
  return strokes_to_hole (solution->table, solution->grid->state_lie[state], far_m)
         - strokes_to_hole (solution->table, LIE_FAIRWAY, far_m);
}

/* How far the longest swing goes from among trees; 0: none is played there. */
static double
reach_m (const PlanSolution *solution)
{
  double most_m = 0;
  for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
    {
      const SwingAims *aims = solution->aims[swing * N_LIES + LIE_TREES];
      if (aims != NULL)
        most_m = fmax (most_m, aims->far_m + aims->run_m);
    }
  return most_m;
}

/* ---- the way out ---- */

static CellBox
cells_about (const SolveGrid *grid, int cell)
{
  int x = cell % grid->nx, y = cell / grid->nx;
  return (CellBox){ MAX (x - 1, 0), MAX (y - 1, 0), MIN (x + 1, grid->nx - 1), MIN (y + 1, grid->ny - 1) };
}

static bool
is_by_trees (const SolveGrid *grid, int cell)
{
  CellBox box = cells_about (grid, cell);
  for (int y = box.y0; y <= box.y1; y++)
    for (int x = box.x0; x <= box.x1; x++)
      if (grid->state_at[LIE_TREES][y * grid->nx + x] >= 0)
        return true;
  return false;
}

/* Is a way cheaper that goes on by one of the cells about it? */
static bool
go_on (const SolveGrid *grid, Thicket *thicket, size_t state)
{
  int cell = grid->state_cell[state], column = cell % grid->nx, row = cell / grid->nx;
  CellBox box = cells_about (grid, cell);
  double least = thicket->out[cell];
  for (int y = box.y0; y <= box.y1; y++)
    for (int x = box.x0; x <= box.x1; x++)
      least = fmin (least, thicket->out[y * grid->nx + x] + thicket->by_cell * (x != column && y != row ? sqrt (2) : 1));
  bool is_cheaper = least < thicket->out[cell];
  thicket->out[cell] = least;
  return is_cheaper;
}

/* From open ground into the trees, to and fro until no way is cheaper (Rosenfeld and Pfaltz 1966, J. ACM 13:471). */
static void
find_ways_out (const PlanSolution *solution, Thicket *thicket)
{
  const SolveGrid *grid = solution->grid;
  for (size_t i = 0; i < thicket->n; i++)
    thicket->out[grid->state_cell[thicket->first + i]] = INFINITY;
  for (guint i = 0; i < thicket->rims->len; i++)
    thicket->out[grid->state_cell[g_array_index (thicket->rims, Rim, i).state]] = INFINITY;
  for (guint i = 0; i < thicket->rims->len; i++)
    {
      const Rim *rim = &g_array_index (thicket->rims, Rim, i);
      double *out = &thicket->out[grid->state_cell[rim->state]];
      *out = fmin (*out, solution->value[rim->state] - rim->lie_adds);
    }
  for (bool is_cheaper = true; is_cheaper;)
    {
      is_cheaper = false;
      for (size_t i = 0; i < thicket->n; i++)
        is_cheaper |= go_on (grid, thicket, thicket->first + i);
      for (size_t i = thicket->n; i > 0 && is_cheaper; i--)
        go_on (grid, thicket, thicket->first + i - 1);
    }
}

/* ---- values ---- */

Thicket *
thicket_new (const PlanSolution *solution)
{
  const SolveGrid *grid = solution->grid;
  double most_m = grid->state_at[LIE_TREES] != NULL ? reach_m (solution) : 0;
  if (!(most_m > 0))
    return NULL;
  Thicket *thicket = g_new0 (Thicket, 1);
  thicket->first = grid->lie_begins[LIE_TREES];
  thicket->n = grid->lie_begins[LIE_TREES + 1] - thicket->first;
  thicket->by_cell = grid->cell_m / most_m;
  thicket->rims = g_array_new (FALSE, FALSE, sizeof (Rim));
  thicket->adds = g_new (double, thicket->n);
  thicket->out = g_new (double, grid->n_cells);
  for (size_t cell = 0; cell < grid->n_cells; cell++)
    thicket->out[cell] = INFINITY;
  for (size_t state = 0; state < grid->n_states; state++)
    if (!solve_lie_stops (grid->state_lie[state]) && is_by_trees (grid, grid->state_cell[state]))
      {
        Rim rim = { state, lie_adds (solution, state) };
        g_array_append_val (thicket->rims, rim);
      }
  for (size_t i = 0; i < thicket->n; i++)
    thicket->adds[i]
        = hole_m (solution, thicket->first + i) > PLAN_TABLE_M ? lie_adds (solution, thicket->first + i) : INFINITY;
  return thicket;
}

void
thicket_free (Thicket *thicket)
{
  if (thicket == NULL)
    return;
  g_array_unref (thicket->rims);
  g_free (thicket->adds);
  g_free (thicket->out);
  g_free (thicket);
}

/* What a ball costs once it is out. Where no open ground lies beside the trees: as from a fairway, and a stroke for each full swing's length to where the table serves every bag. */
static double
once_out (const PlanSolution *solution, size_t state)
{
  double out = solution->thicket->out[solution->grid->state_cell[state]], far_m = hole_m (solution, state);
  if (isfinite (out))
    return out;
  double swings = (far_m - PLAN_TABLE_M) / solution->flights->most_reach_m;
  return fmax (strokes_to_hole (solution->table, LIE_FAIRWAY, far_m),
               strokes_to_hole (solution->table, LIE_FAIRWAY, PLAN_TABLE_M) + swings);
}

void
solve_value_trees (PlanSolution *solution)
{
  Thicket *thicket = solution->thicket;
  if (thicket == NULL)
    return;
  find_ways_out (solution, thicket);
  for (size_t i = 0; i < thicket->n; i++)
    {
      double *value = &solution->value[thicket->first + i];
      double now = thicket->adds[i] + once_out (solution, thicket->first + i);
      if (isfinite (now) && fabs (now - *value) > LEAST_MOVE)
        *value = fmin (now, MOST_STROKES);
    }
}
