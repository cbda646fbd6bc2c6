// SPDX-License-Identifier: GPL-3.0-or-later
/* The map of expected strokes: values between the cells, their bands, and how much room each place has to the next band. */
#include "plan-map.h"

#include <math.h>
#include <stdlib.h>

/* Share of the places at either end that may stand in a band with what is less rare. */
#define RAREST 0.01
/* Steps that read well. */
static const double steps[] = { 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5 };
/* To the side and to the corner of a cell, as far as it is worth telling (a chamfer of 3 and 4, Borgefors 1986). */
#define CHAMFER_SIDE 3
#define CHAMFER_CORNER 4

/* ---- bands ---- */

static int
compare_doubles (const void *a, const void *b)
{
  double p = *(const double *)a, q = *(const double *)b;
  return (p > q) - (p < q);
}

/* The step and where the first band begins, for these values. */
static void
choose_steps (PlanMap *map, const double *values, size_t n_cells)
{
  g_autofree double *sorted = g_new (double, n_cells);
  size_t n = 0;
  for (size_t i = 0; i < n_cells; i++)
    if (!isnan (values[i]))
      sorted[n++] = values[i];
  map->step = steps[0];
  map->n_bands = n > 0;
  if (n == 0)
    return;
  qsort (sorted, n, sizeof *sorted, compare_doubles);
  double low = sorted[(size_t)(RAREST * (double)(n - 1))], high = sorted[(size_t)((1 - RAREST) * (double)(n - 1))];
  for (size_t i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      map->step = steps[i];
      map->first = floor (low / map->step) * map->step;
      map->n_bands = (size_t)fmin (floor ((high - map->first) / map->step) + 1, PLAN_MAP_MOST_BANDS);
      if ((high - map->first) / map->step < PLAN_MAP_MOST_BANDS)
        return;
    }
}

/* Strokes at a place in cells of the solution, evenly between those of its four neighbours that have any; NAN where the nearest has none. */
static double
value_at (const double *values, const PlanGrid *grid, double x, double y)
{
  int nearest_x = CLAMP ((int)floor (x + 0.5), 0, grid->columns - 1),
      nearest_y = CLAMP ((int)floor (y + 0.5), 0, grid->rows - 1);
  if (isnan (values[(size_t)nearest_y * (size_t)grid->columns + (size_t)nearest_x]))
    return NAN;
  int x0 = (int)floor (x), y0 = (int)floor (y);
  double sum = 0, share = 0;
  for (int k = 0; k < 4; k++)
    {
      int at_x = CLAMP (x0 + k % 2, 0, grid->columns - 1), at_y = CLAMP (y0 + k / 2, 0, grid->rows - 1);
      double value = values[(size_t)at_y * (size_t)grid->columns + (size_t)at_x];
      double weight = (1 - fabs (x - (x0 + k % 2))) * (1 - fabs (y - (y0 + k / 2)));
      if (isnan (value))
        continue;
      sum += weight * value;
      share += weight;
    }
  return sum / share;
}

static void
fill_bands (PlanMap *map, const double *values, const PlanGrid *coarse)
{
  const PlanGrid *grid = &map->grid;
  for (int row = 0; row < grid->rows; row++)
    for (int column = 0; column < grid->columns; column++)
      {
        double x = (column - PLAN_MAP_PARTS / 2) / (double)PLAN_MAP_PARTS,
               y = (row - PLAN_MAP_PARTS / 2) / (double)PLAN_MAP_PARTS, value = value_at (values, coarse, x, y);
        double band = floor ((value - map->first) / map->step + 1e-9);
        map->bands[(size_t)row * (size_t)grid->columns + (size_t)column]
            = isnan (value) ? PLAN_MAP_NONE : (guint8)CLAMP (band, 0, (double)map->n_bands - 1);
      }
}

/* ---- places for numbers ---- */

/* What is near in a chamfer's pass, the steps back to it, and how far that is. */
typedef struct
{
  int dx, dy, far;
} Step;

static const Step back[]
    = { { -1, 0, CHAMFER_SIDE }, { -1, -1, CHAMFER_CORNER }, { 0, -1, CHAMFER_SIDE }, { 1, -1, CHAMFER_CORNER } };

static void
look_back (const PlanMap *map, int *room, int column, int row, int sign)
{
  const PlanGrid *grid = &map->grid;
  size_t i = (size_t)row * (size_t)grid->columns + (size_t)column;
  for (size_t k = 0; k < G_N_ELEMENTS (back); k++)
    {
      int x = column + sign * back[k].dx, y = row + sign * back[k].dy;
      if (x < 0 || y < 0 || x >= grid->columns || y >= grid->rows)
        {
          room[i] = MIN (room[i], back[k].far);
          continue;
        }
      size_t j = (size_t)y * (size_t)grid->columns + (size_t)x;
      room[i] = MIN (room[i], map->bands[j] == map->bands[i] ? room[j] + back[k].far : back[k].far);
    }
}

/* How far each place is from the next band or the edge, in thirds of a cell. */
static int *
find_room (const PlanMap *map)
{
  const PlanGrid *grid = &map->grid;
  size_t n = (size_t)grid->columns * (size_t)grid->rows;
  int *room = g_new (int, n);
  for (size_t i = 0; i < n; i++)
    room[i] = G_MAXINT / 2;
  for (int row = 0; row < grid->rows; row++)
    for (int column = 0; column < grid->columns; column++)
      look_back (map, room, column, row, 1);
  for (int row = grid->rows - 1; row >= 0; row--)
    for (int column = grid->columns - 1; column >= 0; column--)
      look_back (map, room, column, row, -1);
  return room;
}

static Vec2
cell_place (const PlanGrid *grid, size_t i)
{
  return vec2_add (grid->origin, vec2 (grid->cell_m * (double)(i % (size_t)grid->columns),
                                       grid->cell_m * (double)(i / (size_t)grid->columns)));
}

static bool
is_far_from_all (const GArray *places, guint first, Vec2 at)
{
  for (guint i = first; i < places->len; i++)
    if (vec2_distance (g_array_index (places, PlanMapPlace, i).at, at) < PLAN_MAP_PLACES_APART_M)
      return false;
  return true;
}

static void
add_places (const PlanMap *map, const int *room, guint8 band, GArray *places)
{
  size_t n = (size_t)map->grid.columns * (size_t)map->grid.rows;
  double third_m = map->grid.cell_m / CHAMFER_SIDE;
  guint first = places->len;
  while (places->len - first < PLAN_MAP_MOST_PLACES)
    {
      PlanMapPlace widest = { .room_m = 0, .band = band };
      for (size_t i = 0; i < n; i++)
        if (map->bands[i] == band && third_m * room[i] > widest.room_m
            && is_far_from_all (places, first, cell_place (&map->grid, i)))
          {
            widest.room_m = third_m * room[i];
            widest.at = cell_place (&map->grid, i);
          }
      if (widest.room_m < PLAN_MAP_LEAST_ROOM_M)
        return;
      g_array_append_val (places, widest);
    }
}

/* ---- the map ---- */

static double *
all_values (const PlanSolution *solution, const PlanGrid *grid)
{
  double *values = g_new (double, (size_t)grid->columns *(size_t)grid->rows);
  for (size_t i = 0; i < (size_t)grid->columns * (size_t)grid->rows; i++)
    values[i] = plan_strokes_at (solution, cell_place (grid, i));
  return values;
}

PlanMap *
plan_map_new (const PlanSolution *solution)
{
  PlanGrid coarse = plan_grid (solution);
  g_autofree double *values = all_values (solution, &coarse);
  PlanMap *map = g_atomic_rc_box_new0 (PlanMap);
  double part_m = coarse.cell_m / PLAN_MAP_PARTS, back_m = PLAN_MAP_PARTS / 2 * part_m;
  map->grid = (PlanGrid){ vec2_sub (coarse.origin, vec2 (back_m, back_m)), part_m, PLAN_MAP_PARTS * coarse.columns,
                          PLAN_MAP_PARTS * coarse.rows };
  choose_steps (map, values, (size_t)coarse.columns * (size_t)coarse.rows);
  map->bands = g_new (guint8, (size_t)map->grid.columns * (size_t)map->grid.rows);
  fill_bands (map, values, &coarse);
  g_autofree int *room = find_room (map);
  GArray *places = g_array_new (FALSE, FALSE, sizeof (PlanMapPlace));
  for (size_t band = 0; band < map->n_bands; band++)
    add_places (map, room, (guint8)band, places);
  map->n_places = places->len;
  map->places = (PlanMapPlace *)(void *)g_array_free (places, FALSE);
  return map;
}

PlanMap *
plan_map_ref (PlanMap *map)
{
  return g_atomic_rc_box_acquire (map);
}

static void
map_clear (gpointer data)
{
  PlanMap *map = data;
  g_free (map->bands);
  g_free (map->places);
}

void
plan_map_unref (PlanMap *map)
{
  if (map != NULL)
    g_atomic_rc_box_release_full (map, map_clear);
}

double
plan_map_strokes (const PlanMap *map, size_t band)
{
  return map->first + (double)band * map->step;
}
