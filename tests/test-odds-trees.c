// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: the trees in a ball's way. */
#include "drawn.h"
#include "odds.h"
#include "suite.h"

static const Club iron
    = { .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 6, .side_sd_m = 8, .loft_deg = 32, .apex_m = NAN };

static const Part *
wood (Box box, double height_m, double density)
{
  Part *part = part_new (KIND_TREES);
  path_add_rectangle (&part->path, box, 0, 0);
  part->height_m = height_m;
  part->density = density;
  return part_seal (part);
}

/* The table of the iron up the sheet from (0,0) over these parts, whose references it takes. */
static TreeTable *
table_over (const Part *const *parts, size_t n_parts, ShotShape shape, ShotResult *shot)
{
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, parts, n_parts, NULL);
  hole_info_clear (&info);
  ShotInput input = { .aim = { 0, 140 }, .club = &iron, .swing = 1, .shape = shape, .curve_m = NAN };
  ck_assert (odds_shot (hole, NULL, &input, shot, NULL));
  return tree_table_new (hole, shot);
}

/* ---- known answers ---- */

START_TEST (a_wall_that_every_ball_meets_lets_through_what_its_density_leaves)
{
  const Part *parts[] = { wood ((Box){ -80, 60, 80, 70 }, 100, 0.6) };
  ShotResult shot;
  g_autoptr (TreeTable) table = table_over (parts, 1, SHOT_STRAIGHT, &shot);
  ck_assert_uint_eq (table->n_rows, 1);
  ck_assert_double_eq_tol (table->rows[0].chance, 0.4, 1e-4);
  ck_assert_double_eq_tol (table->rows[0].near_m, 60, 0.02);
  ck_assert_double_eq_tol (table->rows[0].far_m, 70, 0.02);
}
END_TEST

START_TEST (half_of_the_balls_meet_a_wall_on_one_side_of_the_line)
{
  const Part *parts[] = { wood ((Box){ 0, 60, 80, 70 }, 100, 1) };
  ShotResult shot;
  g_autoptr (TreeTable) table = table_over (parts, 1, SHOT_STRAIGHT, &shot);
  ck_assert_double_eq_tol (table->chance, 0.5, 1e-4);
}
END_TEST

START_TEST (clearance_is_the_least_height_of_the_track_over_the_top)
{
  const Part *parts[] = { wood ((Box){ -9, 110, 9, 125 }, 8, 0.7) };
  ShotResult shot;
  g_autoptr (TreeTable) table = table_over (parts, 1, SHOT_STRAIGHT, &shot);
  /* Coming down, it is lowest over the far edge. */
  double height_m = flight_at_distance (&shot.flight, vec2 (0, 1), 125).z_m;
  ck_assert_double_eq_tol (table->rows[0].clearance_m, height_m - 8, 0.05);
}
END_TEST

START_TEST (walls_one_behind_the_other_stop_balls_one_after_the_other)
{
  const Part *parts[] = { wood ((Box){ -80, 40, 80, 45 }, 100, 0.5), wood ((Box){ -80, 60, 80, 70 }, 100, 0.2) };
  ShotResult shot;
  g_autoptr (TreeTable) table = table_over (parts, 2, SHOT_STRAIGHT, &shot);
  ck_assert_double_eq_tol (table->chance, 0.5 * 0.8, 1e-4);
  ck_assert_double_eq_tol (table->rows[0].chance, 0.5, 1e-4);
  ck_assert_double_eq_tol (table->rows[1].chance, 0.8, 1e-4);
}
END_TEST

/* ---- invariants ---- */

START_TEST (a_mirrored_wood_in_the_way_of_a_mirrored_shape_stops_as_many)
{
  const Part *right[] = { wood ((Box){ 2, 90, 60, 130 }, 22, 0.7), tree (-4, 125, 4, 12) };
  const Part *left[] = { wood ((Box){ -60, 90, -2, 130 }, 22, 0.7), tree (4, 125, 4, 12) };
  ShotResult shot;
  g_autoptr (TreeTable) one = table_over (right, 2, SHOT_FADE, &shot);
  g_autoptr (TreeTable) other = table_over (left, 2, SHOT_DRAW, &shot);
  ck_assert_uint_eq (one->n_rows, 2);
  ck_assert_uint_eq (other->n_rows, 2);
  ck_assert_double_eq_tol (one->chance, other->chance, 1e-3);
  ck_assert (one->chance > 0.05 && one->chance < 0.95);
  for (size_t i = 0; i < 2; i++)
    ck_assert_double_eq_tol (one->rows[i].chance, other->rows[i].chance, 1e-3);
}
END_TEST

START_TEST (higher_trees_stop_more)
{
  double before = 1;
  for (int height = 2; height <= 30; height += 4)
    {
      const Part *parts[] = { wood ((Box){ -5, 100, 40, 128 }, height, 0.7) };
      ShotResult shot;
      g_autoptr (TreeTable) table = table_over (parts, 1, SHOT_STRAIGHT, &shot);
      ck_assert_double_le (table->chance, before + 1e-4);
      before = table->chance;
    }
  ck_assert_double_lt (before, 0.6);
}
END_TEST

/* ---- edges ---- */

START_TEST (trees_out_of_the_fan_and_behind_the_ball_are_no_rows)
{
  const Part *parts[]
      = { wood ((Box){ 60, 60, 90, 120 }, 12, 0.7), tree (0, -5, 4, 12), tree (0, 250, 6, 12), tree (3, 3, 0, 5) };
  ShotResult shot;
  g_autoptr (TreeTable) table = table_over (parts, 4, SHOT_STRAIGHT, &shot);
  ck_assert_uint_eq (table->n_rows, 0);
  ck_assert_double_eq (table->chance, 1);
}
END_TEST

START_TEST (a_tree_that_the_line_passes_beside_has_a_chance_but_no_clearance)
{
  const Part *parts[] = { tree (9, 130, 5, 12) };
  ShotResult shot;
  g_autoptr (TreeTable) table = table_over (parts, 1, SHOT_STRAIGHT, &shot);
  ck_assert_uint_eq (table->n_rows, 1);
  ck_assert (isnan (table->rows[0].clearance_m));
  ck_assert (table->rows[0].chance > 0.5 && table->rows[0].chance < 0.95);
  ck_assert_double_eq_tol (table->rows[0].near_m, 125, 0.2);
}
END_TEST

START_TEST (a_ball_played_from_among_trees_meets_them_at_once)
{
  const Part *parts[] = { wood ((Box){ -20, -20, 20, 30 }, 12, 0.7) };
  ShotResult shot;
  g_autoptr (TreeTable) table = table_over (parts, 1, SHOT_STRAIGHT, &shot);
  ck_assert_double_eq_tol (table->chance, 0.3, 1e-3);
  ck_assert_double_lt (table->rows[0].clearance_m, -11);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-trees");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_wall_that_every_ball_meets_lets_through_what_its_density_leaves);
  tcase_add_test (known, half_of_the_balls_meet_a_wall_on_one_side_of_the_line);
  tcase_add_test (known, clearance_is_the_least_height_of_the_track_over_the_top);
  tcase_add_test (known, walls_one_behind_the_other_stop_balls_one_after_the_other);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, a_mirrored_wood_in_the_way_of_a_mirrored_shape_stops_as_many);
  tcase_add_test (invariants, higher_trees_stop_more);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, trees_out_of_the_fan_and_behind_the_ball_are_no_rows);
  tcase_add_test (edges, a_tree_that_the_line_passes_beside_has_a_chance_but_no_clearance);
  tcase_add_test (edges, a_ball_played_from_among_trees_meets_them_at_once);
  suite_add_tcase (suite, edges);
  return suite;
}
