// SPDX-License-Identifier: GPL-3.0-or-later
/* How the cells of a field lie: of one lie, or crossed by an edge, and whether that matters. */
#include "field-land-private.h"

#include <math.h>

/* It matters on which of two lies a ball rests when they differ by so many strokes. */
#define MATTERS_STROKES 0.3

bool
lander_does_matter (const Lander *lander, Vec2 at, Lie one, Lie other)
{
  const Place *place = lander->build->place;
  double hole_m = length_of (vec2_sub (at, place->target));
  return one != other
         && fabs (strokes_to_hole (place->input.table, one, hole_m) - strokes_to_hole (place->input.table, other, hole_m))
                > MATTERS_STROKES;
}

static void
find_lies (Lander *lander)
{
  const Field *field = lander->build->field;
  const Hole *hole = lander->build->place->input.hole;
  size_t width = (size_t)field->n_across;
  g_autofree double *x = g_new (double, 2 * width);
  g_autofree int *areas = g_new (int, width);
  double *y = x + width;
  for (size_t first = 0; first < field_n_cells (field); first += width)
    {
      size_t n = 0;
      for (size_t i = 0; i < width; i++)
        {
          Vec2 at = field_cell_middle (field, first + i);
          lander->states[first + i] = field_is_in (lander->build, &lander->build->all, at) ? CELL_WANTED : CELL_OUT;
          if (lander->states[first + i] == CELL_OUT)
            continue;
          x[n] = at.x;
          y[n++] = at.y;
        }
      hole_areas_at (hole, x, y, n, areas);
      n = 0;
      for (size_t i = 0; i < width; i++)
        if (lander->states[first + i] != CELL_OUT)
          lander->lies[first + i] = (uint8_t)hole_area_lie (hole, areas[n++]);
    }
}

/* Do the neighbours lie alike? */
static bool
is_even (const Lander *lander, int i, int j)
{
  const Field *field = lander->build->field;
  uint8_t lie = lander->lies[j * field->n_across + i];
  for (int v = MAX (0, j - 1); v <= MIN (field->n_along - 1, j + 1); v++)
    for (int u = MAX (0, i - 1); u <= MIN (field->n_across - 1, i + 1); u++)
      if (lander->states[v * field->n_across + u] != CELL_OUT && lander->lies[v * field->n_across + u] != lie)
        return false;
  return true;
}

/* So many cells beside edges are looked at together, each at its corners. */
#define CORNERS 4
#define N_LOOKED 256

typedef struct
{
  size_t cells[N_LOOKED], n;
  double x[CORNERS * N_LOOKED], y[CORNERS * N_LOOKED];
} Looked;

/* An edge crosses those of which a corner lies otherwise than the middle. */
static void
look_at_corners (Lander *lander, Looked *looked)
{
  const Hole *hole = lander->build->place->input.hole;
  int areas[CORNERS * N_LOOKED];
  hole_areas_at (hole, looked->x, looked->y, CORNERS * looked->n, areas);
  for (size_t k = 0; k < CORNERS * looked->n; k++)
    {
      size_t cell = looked->cells[k / CORNERS];
      Lie lie = hole_area_lie (hole, areas[k]), middle = (Lie)lander->lies[cell];
      if (lie != middle && lander->states[cell] != CELL_SHARP)
        lander->states[cell]
            = lander_does_matter (lander, vec2 (looked->x[k], looked->y[k]), lie, middle) ? CELL_SHARP : CELL_EDGE;
    }
  looked->n = 0;
}

static void
look_closer (Lander *lander, Looked *looked, int i, int j)
{
  const Field *field = lander->build->field;
  for (int k = 0; k < CORNERS; k++)
    {
      Vec2 at = field_point (field, i + (k & 1) - 0.5, j + (k >> 1) - 0.5);
      looked->x[CORNERS * looked->n + (size_t)k] = at.x;
      looked->y[CORNERS * looked->n + (size_t)k] = at.y;
    }
  looked->cells[looked->n++] = (size_t)(j * field->n_across + i);
  if (looked->n == N_LOOKED)
    look_at_corners (lander, looked);
}

static void
find_states (Lander *lander)
{
  const Field *field = lander->build->field;
  Looked looked = { .n = 0 };
  for (int j = 0; j < field->n_along; j++)
    for (int i = 0; i < field->n_across; i++)
      {
        size_t cell = (size_t)(j * field->n_across + i);
        if (lander->states[cell] == CELL_OUT)
          continue;
        if (lander->build->place->stops[lander->lies[cell]])
          lander->states[cell] = CELL_STAYS;
        if (!is_even (lander, i, j) && lander_is_dense (lander, cell))
          look_closer (lander, &looked, i, j);
      }
  look_at_corners (lander, &looked);
}

void
lander_find_lies (Lander *lander)
{
  find_lies (lander);
  find_states (lander);
}
