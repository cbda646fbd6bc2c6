// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-map: the bands beside the values of the solution they are made of. */
#include "plan-map.h"
#include "drawn.h"
#include "suite.h"

#include <string.h>

/* A place between two cells may stand in either of their bands. */
#define ROUNDED 1e-6

/* A fairway 170 m up the sheet, a pond beside it, sand on the other side, out of bounds along the right edge. */
static Hole *
small_hole (void)
{
  HoleInfo info;
  hole_info_init (&info);
  info.view_box = (Box){ -40, -5, 40, 195 };
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -15, 20, 15, 150 }),
                          rectangle (KIND_PENALTY_AREA, (Box){ -35, 60, -18, 110 }),
                          rectangle (KIND_BUNKER, (Box){ 18, 60, 28, 110 }),
                          rectangle (KIND_OUT_OF_BOUNDS, (Box){ 32, -5, 40, 195 }),
                          rectangle (KIND_GREEN, (Box){ -12, 156, 12, 184 }),
                          place (KIND_HOLE_LOCATION, vec2 (0, 170)),
                          place (KIND_TEE_MARKER, vec2 (0, 0)) };
  Hole *hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  return hole;
}

static PlanSolution *
solution_of (const char *rows)
{
  g_autofree char *text = g_strconcat ("club,carry_m,carry_sd_m,side_sd_m,loft_deg\n", rows, NULL);
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (Bag) bag = bag_read_bytes (bytes, "bag", LEVEL_SCRATCH_MEN, NULL);
  g_autoptr (Hole) hole = small_hole ();
  GError *error = NULL;
  PlanSolution *solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 4 }, &error);
  ck_assert_msg (solution != NULL, "%s", error != NULL ? error->message : "");
  return solution;
}

#define FEW_CLUBS "5 iron,150,7,8,25\n8 iron,125,6,6,37\nwedge,90,5,5,50\n"

/* Band at a place, which is on the map. */
static guint8
band_at (const PlanMap *map, Vec2 at)
{
  int column = (int)round ((at.x - map->grid.origin.x) / map->grid.cell_m),
      row = (int)round ((at.y - map->grid.origin.y) / map->grid.cell_m);
  ck_assert (column >= 0 && column < map->grid.columns && row >= 0 && row < map->grid.rows);
  return map->bands[row * map->grid.columns + column];
}

START_TEST (each_cell_of_the_solution_stands_in_the_band_that_holds_its_strokes)
{
  g_autoptr (PlanSolution) solution = solution_of (FEW_CLUBS);
  g_autoptr (PlanMap) map = plan_map_new (solution);
  PlanGrid grid = plan_grid (solution);
  int n_none = 0, n_told = 0;
  for (int i = 0; i < grid.columns * grid.rows; i++)
    {
      Vec2 at = vec2_add (grid.origin, vec2 (grid.cell_m * (i % grid.columns), grid.cell_m * (int)(i / grid.columns)));
      double strokes = plan_strokes_at (solution, at);
      guint8 band = band_at (map, at);
      n_none += isnan (strokes);
      ck_assert_int_eq (isnan (strokes), band == PLAN_MAP_NONE);
      if (isnan (strokes))
        continue;
      n_told++;
      ck_assert_uint_lt (band, map->n_bands);
      ck_assert (band == 0 || strokes >= plan_map_strokes (map, band) - ROUNDED);
      ck_assert (band == map->n_bands - 1 || strokes < plan_map_strokes (map, band + 1u) + ROUNDED);
    }
  ck_assert_int_gt (n_none, 50); /* out of bounds and the pond */
  ck_assert_int_gt (n_told, 500);
}
END_TEST

START_TEST (bands_are_as_many_as_can_be_told_apart_and_all_used)
{
  g_autoptr (PlanSolution) solution = solution_of (FEW_CLUBS);
  g_autoptr (PlanMap) map = plan_map_new (solution);
  int used[PLAN_MAP_MOST_BANDS] = { 0 };
  ck_assert_uint_gt (map->n_bands, PLAN_MAP_MOST_BANDS / 3);
  ck_assert_uint_le (map->n_bands, PLAN_MAP_MOST_BANDS);
  for (int i = 0; i < map->grid.columns * map->grid.rows; i++)
    if (map->bands[i] != PLAN_MAP_NONE)
      used[map->bands[i]]++;
  for (size_t band = 0; band < map->n_bands; band++)
    ck_assert_msg (used[band] > 0, "no place stands in band %zu", band);
}
END_TEST

START_TEST (numbers_stand_where_their_band_has_the_room_that_is_told)
{
  g_autoptr (PlanSolution) solution = solution_of (FEW_CLUBS);
  g_autoptr (PlanMap) map = plan_map_new (solution);
  ck_assert_uint_gt (map->n_places, 2);
  for (size_t i = 0; i < map->n_places; i++)
    {
      const PlanMapPlace *place = &map->places[i];
      ck_assert_double_ge (place->room_m, PLAN_MAP_LEAST_ROOM_M);
      /* A chamfer of 3 and 4 tells a diagonal 6 per cent too long at most (Borgefors 1986). */
      for (int k = 0; k < 16; k++)
        {
          double reach_m = place->room_m / 1.06 - 2 * map->grid.cell_m;
          Vec2 at = vec2_add (place->at, vec2 (reach_m * cos (k * PI / 8), reach_m * sin (k * PI / 8)));
          ck_assert_uint_eq (band_at (map, at), place->band);
        }
      for (size_t k = 0; k < i; k++)
        ck_assert (map->places[k].band != place->band
                   || vec2_distance (map->places[k].at, place->at) >= PLAN_MAP_PLACES_APART_M);
    }
}
END_TEST

START_TEST (a_band_that_is_farther_off_on_the_fairway_is_dearer)
{
  g_autoptr (PlanSolution) solution = solution_of (FEW_CLUBS);
  g_autoptr (PlanMap) map = plan_map_new (solution);
  guint8 near = band_at (map, vec2 (0, 140)), middle = band_at (map, vec2 (0, 80)), far = band_at (map, vec2 (0, 22));
  ck_assert_msg (near < middle && middle < far, "30 m from the hole band %d, 90 m %d, 148 m %d", near, middle, far);
  ck_assert_uint_lt (band_at (map, vec2 (0, 168)), near);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan map");
  TCase *known = tcase_create ("known answers"), *invariants = tcase_create ("invariants");
  tcase_add_test (known, each_cell_of_the_solution_stands_in_the_band_that_holds_its_strokes);
  tcase_add_test (invariants, bands_are_as_many_as_can_be_told_apart_and_all_used);
  tcase_add_test (invariants, numbers_stand_where_their_band_has_the_room_that_is_told);
  tcase_add_test (invariants, a_band_that_is_farther_off_on_the_fairway_is_dearer);
  suite_add_tcase (suite, known);
  suite_add_tcase (suite, invariants);
  return suite;
}
