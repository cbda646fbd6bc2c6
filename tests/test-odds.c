// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: one shot, the green's numbers, the carry table, a plan's shots. */
#include "odds.h"
#include "suite.h"
#include "units.h"

#include <stdlib.h>
#include <string.h>

#define MM 0.001
#define EXACT_M 1e-9
#define CHANCE 1e-6
#define MOST_PARTS 32

/* ---- building blocks ---- */

/* 180 m, give or take: 6 m along, 10 m across. */
static const Club iron = { .name = (char *)"iron", .carry_m = 180, .carry_sd_m = 6, .side_sd_m = 10 };

typedef struct
{
  const Part *parts[MOST_PARTS];
  size_t n;
} Parts;

static void
add (Parts *parts, const Part *part)
{
  g_assert (parts->n < MOST_PARTS);
  parts->parts[parts->n++] = part;
}

static void
add_polygon (Parts *parts, Kind kind, const Vec2 *points, size_t n_points)
{
  Part *part = part_new (kind);
  path_move_to (&part->path, points[0]);
  for (size_t i = 1; i < n_points; i++)
    path_line_to (&part->path, points[i]);
  path_close (&part->path);
  add (parts, part_seal (part));
}

static void
add_box (Parts *parts, Kind kind, double x0, double y0, double x1, double y1)
{
  const Vec2 corners[] = { { x0, y0 }, { x1, y0 }, { x1, y1 }, { x0, y1 } };
  add_polygon (parts, kind, corners, G_N_ELEMENTS (corners));
}

static void
add_point (Parts *parts, Kind kind, const char *name, double x, double y)
{
  Part *part = part_new (kind);
  part->name = g_strdup (name);
  part->at = vec2 (x, y);
  add (parts, part_seal (part));
}

static Hole *
hole_of (Parts *parts)
{
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts->parts, parts->n, NULL);
  hole_info_clear (&info);
  return hole;
}

/* The iron from the origin up the hole at an aim 200 m away. */
static ShotResult
fly (const Hole *hole, const Club *club)
{
  ShotInput input = { .aim = { 0, 200 }, .club = club, .swing = 1 };
  ShotResult shot;
  g_autoptr (GError) error = NULL;
  ck_assert (odds_shot (hole, NULL, &input, &shot, &error));
  return shot;
}

static CarryTable *
table_of (const Hole *hole, const Club *club)
{
  ShotResult shot = fly (hole, club);
  return carry_table_new (hole, &shot);
}

/* A table over one rectangle. */
static CarryTable *
table_over_box (const Club *club, double x0, double y0, double x1, double y1)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_BUNKER, x0, y0, x1, y1);
  g_autoptr (Hole) hole = hole_of (&parts);
  return table_of (hole, club);
}

/* Numbers from 0 to 1 that are the same in every run. */
static double
next_share (guint32 *state)
{
  *state = *state * 1664525u + 1013904223u; /* Knuth, Numerical Recipes' quick generator */
  return (*state >> 8) / (double)(1 << 24);
}

/* ---- known answers ---- */

START_TEST (a_normal_lies_below_its_deviations_as_often_as_the_tables_say)
{
  /* Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1. */
  ck_assert_double_eq_tol (normal_below (0), 0.5, 1e-15);
  ck_assert_double_eq_tol (normal_below (1), 0.841344746068543, 1e-14);
  ck_assert_double_eq_tol (normal_below (2), 0.977249868051821, 1e-14);
  ck_assert_double_eq_tol (normal_below (3), 0.998650101968370, 1e-14);
  ck_assert_double_eq_tol (normal_below (-1), 0.158655253931457, 1e-14);
}
END_TEST

START_TEST (a_full_swing_carries_what_the_club_carries_wherever_the_aim_is)
{
  Parts parts = { 0 };
  add_point (&parts, KIND_HOLE_LOCATION, "today", 30, 220);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotResult shot = fly (hole, &iron);
  ck_assert_double_eq_tol (shot.landing.x, 0, EXACT_M);
  ck_assert_double_eq_tol (shot.landing.y, 180, EXACT_M);
  ck_assert_double_eq_tol (shot.carry_m, 180, EXACT_M);
  ck_assert_double_eq_tol (shot.beyond_aim_m, -20, EXACT_M);
  ck_assert_double_eq_tol (shot.plays_m, 200, EXACT_M);
  /* What is left is told from where the ball comes to rest, further up the same line. */
  ck_assert_double_eq_tol (shot.rest.x, 0, MM);
  ck_assert_double_eq_tol (shot.run_m, shot.rest.y - 180, MM);
  ck_assert_double_eq_tol (shot.left_m, hypot (30, 220 - shot.rest.y), MM);
  ck_assert (!shot.has_green);
}
END_TEST

START_TEST (half_a_swing_halves_carry_bias_and_spread)
{
  Club club = iron;
  club.side_bias_m = 8;
  Parts parts = { 0 };
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotInput input = { .aim = { 0, 200 }, .club = &club, .swing = 0.5 };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  ck_assert_double_eq_tol (shot.landing.x, 4, EXACT_M);
  ck_assert_double_eq_tol (shot.landing.y, 90, EXACT_M);
  ck_assert_double_eq_tol (shot.pattern.long_sd_m, 3, EXACT_M);
  ck_assert_double_eq_tol (shot.pattern.side_sd_m, 5, EXACT_M);
  ck_assert (isnan (shot.left_m));
}
END_TEST

START_TEST (a_shot_as_far_as_its_landing_is_the_beginning_of_the_shot)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_GREEN, -15, 170, 15, 210);
  add_point (&parts, KIND_HOLE_LOCATION, "today", 3, 190);
  g_autoptr (Hole) hole = hole_of (&parts);
  Conditions day = conditions_standard ();
  day.wind.to_mps = vec2 (3, -4);
  ShotInput input = { .aim = { 20, 180 }, .club = &iron, .swing = 0.9, .shape = SHOT_FADE, .curve_m = NAN, .conditions = &day };
  ShotResult whole, landing;
  ck_assert (odds_shot (hole, NULL, &input, &whole, NULL));
  ck_assert (odds_shot_landing (hole, &input, &landing, NULL));
  ck_assert_double_eq (landing.landing.x, whole.landing.x);
  ck_assert_double_eq (landing.landing.y, whole.landing.y);
  ck_assert_double_eq (landing.carry_m, whole.carry_m);
  ck_assert_double_eq (landing.apex_m, whole.apex_m);
  ck_assert_double_eq (landing.curve_m, whole.curve_m);
  ck_assert_double_eq (landing.pattern.long_sd_m, whole.pattern.long_sd_m);
  ck_assert_double_eq (landing.pattern.side_sd_m, whole.pattern.side_sd_m);
  ck_assert_uint_eq (landing.flight.n_points, whole.flight.n_points);
  ck_assert (landing.run_m == 0 && landing.plays_m == 0 && isnan (landing.left_m) && !landing.has_green);
  ck_assert (whole.run_m > 0 && whole.plays_m > 0 && whole.has_green);
  input.aim = input.ball;
  ck_assert (!odds_shot_landing (hole, &input, &landing, NULL));
}
END_TEST

START_TEST (a_fitted_swing_lands_on_the_aim_but_is_never_more_than_full)
{
  ck_assert_double_eq_tol (odds_fit_swing (&iron, 90), 0.5, 1e-15);
  ck_assert_double_eq_tol (odds_fit_swing (&iron, 180), 1, 1e-15);
  ck_assert_double_eq_tol (odds_fit_swing (&iron, 250), 1, 1e-15);
}
END_TEST

START_TEST (green_numbers_are_first_entry_hole_last_exit_and_the_room_across)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_GREEN, -8, 140, 12, 170);
  add_point (&parts, KIND_HOLE_LOCATION, "today", 0, 163);
  g_autoptr (Hole) hole = hole_of (&parts);
  GreenNumbers green;
  ck_assert (odds_green_numbers (hole, NULL, vec2 (0, 0), &green));
  ck_assert_double_eq_tol (green.front_m, 140, EXACT_M);
  ck_assert_double_eq_tol (green.hole_m, 163, EXACT_M);
  ck_assert_double_eq_tol (green.back_m, 170, EXACT_M);
  ck_assert_double_eq_tol (green.depth_m, 30, EXACT_M);
  ck_assert_double_eq_tol (green.left_m, 8, EXACT_M);
  ck_assert_double_eq_tol (green.right_m, 12, EXACT_M);

  /* From the right of the green, looking along -x. */
  ck_assert (odds_green_numbers (hole, NULL, vec2 (100, 163), &green));
  ck_assert_double_eq_tol (green.front_m, 88, EXACT_M);
  ck_assert_double_eq_tol (green.back_m, 108, EXACT_M);
  ck_assert_double_eq_tol (green.left_m, 23, EXACT_M);
  ck_assert_double_eq_tol (green.right_m, 7, EXACT_M);
}
END_TEST

START_TEST (a_bunker_on_the_line_is_reached_and_carried_where_the_line_crosses_it)
{
  /* Corridor at the landing point +-15 m: slope 1/12, so at 100 m it is +-8.3 m wide and the whole bunker lies within it. */
  g_autoptr (CarryTable) table = table_over_box (&iron, -5, 100, 5, 120);
  ck_assert_uint_eq (table->n_rows, 1);
  const CarryRow *row = &table->rows[0];
  ck_assert_int_eq (row->side, SIDE_ON);
  ck_assert_double_eq_tol (row->reach_m, 100, EXACT_M);
  ck_assert_double_eq_tol (row->carry_m, 120, EXACT_M);
  ck_assert_double_eq (row->gap_m, 0);
  ck_assert_double_eq_tol (row->corridor_reach_m, 100, EXACT_M);
  ck_assert_double_eq_tol (row->corridor_carry_m, hypot (5, 120), EXACT_M);
  ck_assert_double_eq_tol (row->clear, 1, CHANCE);
}
END_TEST

START_TEST (the_corridor_ends_where_its_edges_leave_a_wide_area)
{
  g_autoptr (CarryTable) table = table_over_box (&iron, -50, 100, 50, 120);
  ck_assert_double_eq_tol (table->rows[0].corridor_reach_m, 100, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].corridor_carry_m, 120 * sqrt (1 + 1 / 144.0), EXACT_M);
}
END_TEST

START_TEST (clear_is_the_chance_that_the_carry_exceeds_the_far_edge)
{
  /* Carry 180, deviation 6: far edges one deviation short, at the mean, one and two beyond. Abramowitz and Stegun, table 26.1. */
  const double far_m[] = { 174, 180, 186, 192 }, clear[] = { 0.841345, 0.5, 0.158655, 0.022750 };
  for (size_t i = 0; i < G_N_ELEMENTS (far_m); i++)
    {
      g_autoptr (CarryTable) table = table_over_box (&iron, -5, 150, 5, far_m[i]);
      ck_assert_double_eq_tol (table->rows[0].clear, clear[i], CHANCE);
    }
}
END_TEST

START_TEST (a_bunker_beside_the_landing_point_is_listed_with_its_side_and_gap)
{
  g_autoptr (CarryTable) right = table_over_box (&iron, 12, 175, 20, 190);
  ck_assert_uint_eq (right->n_rows, 1);
  ck_assert_int_eq (right->rows[0].side, SIDE_RIGHT);
  ck_assert_double_eq_tol (right->rows[0].gap_m, 12, EXACT_M);
  ck_assert_double_eq_tol (right->rows[0].reach_m, hypot (12, 175), EXACT_M);
  ck_assert_double_eq_tol (right->rows[0].carry_m, hypot (20, 190), EXACT_M);
  /* Within the corridor, y = 12 x: from its near left corner to where the corridor's edge leaves it at the top, (190 / 12, 190). */
  ck_assert_double_eq_tol (right->rows[0].corridor_reach_m, hypot (12, 175), EXACT_M);
  ck_assert_double_eq_tol (right->rows[0].corridor_carry_m, 190 * sqrt (1 + 1 / 144.0), EXACT_M);

  g_autoptr (CarryTable) left = table_over_box (&iron, -24, 175, -18, 190);
  ck_assert_int_eq (left->rows[0].side, SIDE_LEFT);
  ck_assert_double_eq_tol (left->rows[0].gap_m, 18, EXACT_M);
  ck_assert_msg (isnan (left->rows[0].corridor_reach_m), "18 m off at 190 m is outside the corridor");
  ck_assert_msg (isnan (left->rows[0].corridor_carry_m), "18 m off at 190 m is outside the corridor");
}
END_TEST

START_TEST (what_lies_beside_the_line_is_listed_up_to_two_and_a_half_deviations)
{
  g_autoptr (CarryTable) inside = table_over_box (&iron, 24.9, 175, 40, 185);
  g_autoptr (CarryTable) outside = table_over_box (&iron, 25.1, 175, 40, 185);
  g_autoptr (CarryTable) at_the_tee = table_over_box (&iron, 2, 5, 10, 20);
  ck_assert_uint_eq (inside->n_rows, 1);
  ck_assert_uint_eq (outside->n_rows, 0);
  ck_assert_uint_eq (at_the_tee->n_rows, 0);
}
END_TEST

START_TEST (trees_along_the_hole_begin_where_they_come_into_the_fan)
{
  /* The fan touches the ellipse with half axes 15 and 25 m about (0, 180): slope 25 / sqrt (180^2 - 15^2). */
  g_autoptr (CarryTable) table = table_over_box (&iron, -60, 10, -12, 400);
  double slope = 25 / sqrt (180 * 180 - 15 * 15);
  ck_assert_uint_eq (table->n_rows, 1);
  ck_assert_double_eq_tol (table->rows[0].gap_m, 12, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].reach_m, hypot (12, 12 / slope), 1e-6);
  ck_assert_double_eq_tol (table->rows[0].carry_m, 400 * hypot (1, slope), 1e-6);
}
END_TEST

START_TEST (an_area_crossed_twice_gives_two_rows_each_with_its_own_corridor)
{
  /* A comb lying across the line: two teeth joined 30 m to the right, out of the corridor. */
  const Vec2 comb[]
      = { { -20, 100 }, { 40, 100 }, { 40, 160 }, { -20, 160 }, { -20, 150 }, { 30, 150 }, { 30, 110 }, { -20, 110 } };
  Parts parts = { 0 };
  add_polygon (&parts, KIND_WATER, comb, G_N_ELEMENTS (comb));
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  double edge = sqrt (1 + 1 / 144.0);
  ck_assert_uint_eq (table->n_rows, 2);
  ck_assert_double_eq_tol (table->rows[0].reach_m, 100, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].carry_m, 110, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].corridor_reach_m, 100, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].corridor_carry_m, 110 * edge, EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].reach_m, 150, EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].carry_m, 160, EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].corridor_reach_m, 150, EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].corridor_carry_m, 160 * edge, EXACT_M);
}
END_TEST

START_TEST (crossings_joined_within_the_corridor_share_its_reach_and_carry)
{
  /* The same comb, joined 5 m to the right of the line: one body of water to the corridor. */
  const Vec2 comb[]
      = { { -20, 100 }, { 15, 100 }, { 15, 160 }, { -20, 160 }, { -20, 150 }, { 5, 150 }, { 5, 110 }, { -20, 110 } };
  Parts parts = { 0 };
  add_polygon (&parts, KIND_WATER, comb, G_N_ELEMENTS (comb));
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  ck_assert_uint_eq (table->n_rows, 2);
  for (size_t i = 0; i < 2; i++)
    {
      ck_assert_double_eq_tol (table->rows[i].corridor_reach_m, 100, EXACT_M);
      ck_assert_double_eq_tol (table->rows[i].corridor_carry_m, 160 * sqrt (1 + 1 / 144.0), EXACT_M);
    }
}
END_TEST

START_TEST (trees_that_wrap_round_behind_are_still_seen_beside_the_landing_point)
{
  /* The line meets these trees at 300 m; on the way they stand 12 m to the left of the landing point. */
  const Vec2 hook[] = { { -12, 120 }, { -12, 300 }, { 60, 300 }, { 60, 330 }, { -40, 330 }, { -40, 120 } };
  Parts parts = { 0 };
  add_polygon (&parts, KIND_TREES, hook, G_N_ELEMENTS (hook));
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  ck_assert_uint_eq (table->n_rows, 2);
  ck_assert_int_eq (table->rows[0].side, SIDE_ON);
  ck_assert_double_eq_tol (table->rows[0].reach_m, 300, EXACT_M);
  ck_assert_int_eq (table->rows[1].side, SIDE_LEFT);
  ck_assert_double_eq_tol (table->rows[1].gap_m, 12, EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].reach_m, hypot (12, 120), EXACT_M);
}
END_TEST

START_TEST (an_island_is_not_part_of_its_water)
{
  /* Water 100..160 with an island 115..145: reached, left, reached, left; joined round the island outside the corridor. */
  Part *part = part_new (KIND_WATER);
  path_add_rectangle (&part->path, (Box){ -60, 100, 60, 160 }, 0, 0);
  path_add_rectangle (&part->path, (Box){ -30, 115, 30, 145 }, 0, 0);
  part->even_odd = true;
  Parts parts = { 0 };
  add (&parts, part_seal (part));
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  ck_assert_uint_eq (table->n_rows, 2);
  ck_assert_double_eq_tol (table->rows[0].carry_m, 115, EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].reach_m, 145, EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].corridor_reach_m, 145, EXACT_M);
}
END_TEST

START_TEST (a_plan_flies_every_shot_from_its_own_ball_with_its_own_club)
{
  static const char csv[] = "club,carry_m,surfaces\ndriver,210,tee\n5 iron,150,\n9 iron,100,\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (csv, strlen (csv));
  g_autoptr (Bag) bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  Part *plan = part_new (KIND_PLAN);
  const Shot shots[] = { { .aim = { 0, 205 }, .curve_m = NAN, .swing = 1 },
                         { .from = { 0, 210 }, .aim = { 0, 415 }, .curve_m = NAN, .swing = 1 },
                         { .from = { 0, 360 }, .aim = { 0, 420 }, .curve_m = NAN, .swing = 1 },
                         { .from = { 0, 360 }, .aim = { 0, 420 }, .club = (char *)"5 Iron", .curve_m = NAN, .swing = 0.4 } };
  for (size_t i = 0; i < G_N_ELEMENTS (shots); i++)
    part_add_shot (plan, &shots[i]);
  Parts parts = { 0 };
  add (&parts, part_seal (plan));
  add_box (&parts, KIND_FAIRWAY, -30, -10, 30, 430);
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (GError) error = NULL;
  g_autofree ShotResult *results = odds_plan (hole, 0, bag, &error);
  ck_assert_ptr_nonnull (results);
  ck_assert_str_eq (results[0].club->name, "driver");
  ck_assert_str_eq (results[1].club->name, "5 iron");
  ck_assert_str_eq (results[2].club->name, "9 iron");
  ck_assert_double_eq_tol (results[2].swing, 0.6, 1e-12);
  ck_assert_double_eq_tol (results[2].beyond_aim_m, 0, EXACT_M);
  ck_assert_double_eq_tol (results[3].landing.y, 420, EXACT_M);
}
END_TEST

START_TEST (a_point_lies_so_far_from_ball_and_hole_and_off_the_line)
{
  Parts parts = { 0 };
  add_point (&parts, KIND_HOLE_LOCATION, "today", 0, 460);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotResult shot = fly (hole, &iron);
  Whereabouts where = odds_whereabouts (hole, NULL, &shot, vec2 (-30, 420));
  ck_assert_double_eq_tol (where.from_ball_m, hypot (30, 420), EXACT_M);
  ck_assert_double_eq_tol (where.to_hole_m, 50, EXACT_M);
  ck_assert_double_eq_tol (where.right_m, -30, EXACT_M);
  where = odds_whereabouts (hole, NULL, NULL, vec2 (-30, 420));
  ck_assert (isnan (where.from_ball_m) && isnan (where.right_m));
}
END_TEST

/* ---- invariants ---- */

/* Star-shaped areas of all sizes about a shot of 200 m up the hole, some of them crossing themselves. */
static void
add_random_areas (Parts *parts, guint32 *seed, size_t n_areas, Affine placement)
{
  for (size_t k = 0; k < n_areas; k++)
    {
      Vec2 corners[24];
      double x = -80 + 160 * next_share (seed), y = -20 + 300 * next_share (seed);
      double size = 4 + 50 * next_share (seed), turns = next_share (seed) < 0.3 ? 2 : 1;
      for (size_t i = 0; i < G_N_ELEMENTS (corners); i++)
        {
          double angle = turns * 2 * PI * (double)i / G_N_ELEMENTS (corners), r = size * (0.3 + 0.7 * next_share (seed));
          corners[i] = affine_apply (placement, vec2 (x + r * cos (angle), y + r * sin (angle)));
        }
      add_polygon (parts, k % 2 == 0 ? KIND_BUNKER : KIND_TREES, corners, G_N_ELEMENTS (corners));
    }
}

/* The table of a shot with correlation and bias over such areas, all placed by `placement`, which keeps lengths. */
static CarryTable *
random_table (guint32 seed, Affine placement, double hand)
{
  Club club = iron;
  club.correlation = 0.6 * hand;
  club.side_bias_m = 4 * hand;
  Parts parts = { 0 };
  add_random_areas (&parts, &seed, 12, placement);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotInput input = {
    .ball = affine_apply (placement, vec2 (0, 0)), .aim = affine_apply (placement, vec2 (0, 200)), .club = &club, .swing = 1
  };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  return carry_table_new (hole, &shot);
}

static void
assert_same_number (double a, double b)
{
  ck_assert ((isnan (a) && isnan (b)) || fabs (a - b) < 1e-6);
}

static void
assert_same_tables (const CarryTable *a, const CarryTable *b, bool mirrored)
{
  ck_assert_uint_eq (a->n_rows, b->n_rows);
  for (size_t i = 0; i < a->n_rows; i++)
    {
      const CarryRow *x = &a->rows[i], *y = &b->rows[i];
      Side side = !mirrored || x->side == SIDE_ON ? x->side : x->side == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
      ck_assert_uint_eq (x->part, y->part);
      ck_assert_int_eq (side, y->side);
      assert_same_number (x->reach_m, y->reach_m);
      assert_same_number (x->carry_m, y->carry_m);
      assert_same_number (x->gap_m, y->gap_m);
      assert_same_number (x->corridor_reach_m, y->corridor_reach_m);
      assert_same_number (x->corridor_carry_m, y->corridor_carry_m);
      assert_same_number (x->clear, y->clear);
    }
}

START_TEST (a_mirrored_hole_gives_the_same_table_with_left_and_right_exchanged)
{
  for (guint32 seed = 1; seed <= 100; seed++)
    {
      g_autoptr (CarryTable) straight = random_table (seed, affine_identity (), 1);
      g_autoptr (CarryTable) mirrored = random_table (seed, affine_scaling (-1, 1), -1);
      assert_same_tables (straight, mirrored, true);
    }
}
END_TEST

START_TEST (a_turned_and_moved_hole_gives_the_same_table)
{
  for (guint32 seed = 1; seed <= 100; seed++)
    {
      Affine placement = affine_then (affine_rotation (0.7 + seed), affine_translation (900 - 10.0 * seed, 333));
      g_autoptr (CarryTable) straight = random_table (seed, affine_identity (), 1);
      g_autoptr (CarryTable) turned = random_table (seed, placement, 1);
      assert_same_tables (straight, turned, false);
    }
}
END_TEST

START_TEST (rows_are_in_order_chances_are_chances_and_corridors_hold_their_rows)
{
  size_t n_on = 0, n_beside = 0;
  for (guint32 seed = 1; seed <= 200; seed++)
    {
      g_autoptr (CarryTable) table = random_table (seed, affine_identity (), 1);
      for (size_t i = 0; i < table->n_rows; i++)
        {
          const CarryRow *row = &table->rows[i], *before = i > 0 ? row - 1 : NULL;
          bool is_on = row->side == SIDE_ON;
          *(is_on ? &n_on : &n_beside) += 1;
          ck_assert (row->clear >= 0 && row->clear <= 1);
          ck_assert (row->reach_m >= 0 && row->reach_m < row->carry_m && isfinite (row->carry_m));
          ck_assert (is_on ? row->gap_m == 0 : row->gap_m > 0 && isfinite (row->gap_m));
          if (is_on)
            ck_assert (row->corridor_reach_m <= row->reach_m && row->corridor_carry_m >= row->carry_m);
          else if (!isnan (row->corridor_reach_m))
            ck_assert (row->corridor_reach_m >= row->reach_m && row->corridor_carry_m <= row->carry_m);
          if (before != NULL && (before->side == SIDE_ON) == is_on)
            ck_assert (before->reach_m <= row->reach_m);
          else if (before != NULL)
            ck_assert (before->side == SIDE_ON);
        }
    }
  ck_assert_uint_gt (n_on, 100);
  ck_assert_uint_gt (n_beside, 100);
}
END_TEST

START_TEST (a_wider_pattern_never_narrows_the_corridor)
{
  for (double y0 = 60; y0 < 200; y0 += 10)
    {
      Club wide = iron;
      wide.side_sd_m = 20;
      g_autoptr (CarryTable) narrow = table_over_box (&iron, -9, y0, 14, y0 + 25);
      g_autoptr (CarryTable) wider = table_over_box (&wide, -9, y0, 14, y0 + 25);
      ck_assert_double_le (wider->rows[0].corridor_reach_m, narrow->rows[0].corridor_reach_m);
      ck_assert_double_ge (wider->rows[0].corridor_carry_m, narrow->rows[0].corridor_carry_m);
    }
}
END_TEST

/* ---- edges ---- */

static void
assert_refused (Vec2 ball, Vec2 aim, const Club *club, double swing, OddsError code)
{
  Parts parts = { 0 };
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (GError) error = NULL;
  ShotInput input = { .ball = ball, .aim = aim, .club = club, .swing = swing };
  ShotResult shot = { .carry_m = 7 };
  ck_assert (!odds_shot (hole, NULL, &input, &shot, &error));
  ck_assert (g_error_matches (error, ODDS_ERROR, (gint)code));
  ck_assert_double_eq (shot.carry_m, 7);
}

START_TEST (an_aim_on_the_ball_no_club_and_no_swing_are_refused)
{
  Vec2 ball = vec2 (3, 4), aim = vec2 (0, 200);
  assert_refused (ball, ball, &iron, 1, ODDS_ERROR_AIM);
  assert_refused (ball, vec2 (3, 4.0001), &iron, 1, ODDS_ERROR_AIM);
  assert_refused (ball, vec2 (NAN, 0), &iron, 1, ODDS_ERROR_AIM);
  assert_refused (vec2 (INFINITY, 0), aim, &iron, 1, ODDS_ERROR_AIM);
  assert_refused (ball, aim, NULL, 1, ODDS_ERROR_CLUB);
  assert_refused (ball, aim, &iron, 0, ODDS_ERROR_CLUB);
  assert_refused (ball, aim, &iron, 1.01, ODDS_ERROR_CLUB);
  assert_refused (ball, aim, &iron, NAN, ODDS_ERROR_CLUB);
}
END_TEST

START_TEST (the_area_under_the_ball_is_reached_at_once)
{
  g_autoptr (CarryTable) table = table_over_box (&iron, -4, -6, 4, 6);
  ck_assert_uint_eq (table->n_rows, 1);
  ck_assert_double_eq_tol (table->rows[0].reach_m, 0, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].carry_m, 6, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].corridor_reach_m, 0, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].corridor_carry_m, 6 * sqrt (1 + 1 / 144.0), EXACT_M);
}
END_TEST

START_TEST (a_ball_on_an_edge_or_a_corner_of_an_area_is_no_special_case)
{
  g_autoptr (CarryTable) edge = table_over_box (&iron, -4, 0, 4, 6);
  g_autoptr (CarryTable) corner = table_over_box (&iron, 0, 0, 4, 6);
  ck_assert_uint_eq (edge->n_rows, 1);
  ck_assert_double_eq_tol (edge->rows[0].corridor_carry_m, 6 * sqrt (1 + 1 / 144.0), EXACT_M);
  ck_assert_uint_eq (corner->n_rows, 1);
  ck_assert_double_eq_tol (corner->rows[0].corridor_reach_m, 0, EXACT_M);
  ck_assert_double_eq_tol (corner->rows[0].corridor_carry_m, 6 * sqrt (1 + 1 / 144.0), EXACT_M);
}
END_TEST

START_TEST (a_pattern_without_width_has_a_corridor_of_one_line)
{
  Club sure = iron;
  sure.side_sd_m = sure.carry_sd_m = 0;
  g_autoptr (CarryTable) table = table_over_box (&sure, -5, 100, 5, 120);
  ck_assert_uint_eq (table->n_rows, 1);
  ck_assert_double_eq_tol (table->rows[0].corridor_reach_m, 100, EXACT_M);
  ck_assert_double_eq_tol (table->rows[0].corridor_carry_m, 120, EXACT_M);
  ck_assert_double_eq (table->rows[0].clear, 1);
  g_autoptr (CarryTable) beyond = table_over_box (&sure, -5, 170, 5, 190);
  ck_assert_double_eq (beyond->rows[0].clear, 0);
  g_autoptr (CarryTable) beside = table_over_box (&sure, 1, 170, 5, 190);
  ck_assert_uint_eq (beside->n_rows, 0);
}
END_TEST

START_TEST (a_pattern_that_is_one_slanting_line_and_one_wider_than_its_carry_give_finite_rows)
{
  Club clubs[] = { iron, iron, iron };
  clubs[0].correlation = 1;
  clubs[1].side_sd_m = clubs[1].carry_sd_m = 100;
  clubs[2].side_bias_m = 100;
  clubs[2].correlation = -1;
  for (size_t c = 0; c < G_N_ELEMENTS (clubs); c++)
    for (double x = -60; x <= 60; x += 7)
      {
        g_autoptr (CarryTable) table = table_over_box (&clubs[c], x, 150, x + 20, 210);
        for (size_t i = 0; i < table->n_rows; i++)
          {
            const CarryRow *row = &table->rows[i];
            ck_assert (isfinite (row->reach_m) && isfinite (row->carry_m) && isfinite (row->gap_m) && isfinite (row->clear));
            ck_assert (row->reach_m <= row->carry_m && row->clear >= 0 && row->clear <= 1);
          }
      }
}
END_TEST

START_TEST (a_hole_a_million_metres_away_is_still_measured)
{
  Parts parts = { 0 };
  double far = 1e6;
  add_box (&parts, KIND_BUNKER, far - 5, far + 100, far + 5, far + 120);
  g_autoptr (Hole) hole = hole_of (&parts);
  ShotInput input = { .ball = { far, far }, .aim = { far, far + 200 }, .club = &iron, .swing = 1 };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  g_autoptr (CarryTable) table = carry_table_new (hole, &shot);
  ck_assert_uint_eq (table->n_rows, 1);
  ck_assert_double_eq_tol (table->rows[0].reach_m, 100, 1e-6);
  ck_assert_double_eq_tol (table->rows[0].corridor_carry_m, hypot (5, 120), 1e-6);
}
END_TEST

START_TEST (an_area_without_extent_and_a_shape_without_a_kind_give_no_row)
{
  const Vec2 needle[] = { { -5, 100 }, { 5, 100 } }, dot[] = { { 0, 120 } };
  Parts parts = { 0 };
  add_polygon (&parts, KIND_BUNKER, needle, G_N_ELEMENTS (needle));
  add_polygon (&parts, KIND_BUNKER, dot, G_N_ELEMENTS (dot));
  add (&parts, part_seal (part_new (KIND_BUNKER)));
  add_box (&parts, KIND_NONE, -5, 100, 5, 120);
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  ck_assert_uint_eq (table->n_rows, 0);
}
END_TEST

START_TEST (an_outline_that_crosses_itself_millions_of_times_is_bounded_without_being_followed)
{
  /* A star of 4001 points, each joined to the one almost opposite, of radius 40 m about (0, 180). */
  const size_t n = 4001;
  g_autofree Vec2 *corners = g_new (Vec2, n);
  for (size_t i = 0; i < n; i++)
    {
      double angle = 2 * PI * (double)(i * (n / 2) % n) / (double)n;
      corners[i] = vec2 (40 * sin (angle), 180 + 40 * cos (angle));
    }
  Parts parts = { 0 };
  add_polygon (&parts, KIND_TREES, corners, n);
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  ck_assert_uint_ge (table->n_rows, 1);
  ck_assert_double_eq_tol (table->rows[0].corridor_reach_m, 140, 0.01);
  ck_assert_double_eq_tol (table->rows[0].corridor_carry_m, 220, 0.01);
}
END_TEST

START_TEST (thousands_of_crossings_each_keep_their_own_row)
{
  /* 2000 teeth from the left across the line and back, joined 50 m to the left. */
  const size_t n_teeth = 2000;
  g_autofree Vec2 *corners = g_new (Vec2, 4 * n_teeth);
  for (size_t i = 0; i < n_teeth; i++)
    {
      double y = 100 + 0.05 * (double)i;
      corners[4 * i] = vec2 (-50, y);
      corners[4 * i + 1] = vec2 (30, y);
      corners[4 * i + 2] = vec2 (30, y + 0.02);
      corners[4 * i + 3] = vec2 (-50, y + 0.02);
    }
  Parts parts = { 0 };
  add_polygon (&parts, KIND_TREES, corners, 4 * n_teeth);
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  ck_assert_uint_eq (table->n_rows, n_teeth);
  for (size_t i = 0; i < n_teeth; i++)
    {
      double y = 100 + 0.05 * (double)i;
      ck_assert_double_eq_tol (table->rows[i].reach_m, y, 1e-6);
      ck_assert_double_eq_tol (table->rows[i].corridor_reach_m, y, 1e-6);
      ck_assert_double_eq_tol (table->rows[i].corridor_carry_m, (y + 0.02) * sqrt (1 + 1 / 144.0), 1e-6);
    }
}
END_TEST

START_TEST (no_green_a_ball_on_the_hole_and_a_missed_green_give_no_green_numbers)
{
  Parts none = { 0 }, off = { 0 };
  add_point (&none, KIND_HOLE_LOCATION, "today", 0, 163);
  g_autoptr (Hole) without = hole_of (&none);
  GreenNumbers green;
  ck_assert (!odds_green_numbers (without, NULL, vec2 (0, 0), &green));

  add_box (&off, KIND_GREEN, 50, 140, 70, 170);
  add_point (&off, KIND_HOLE_LOCATION, "today", 0, 163);
  g_autoptr (Hole) missed = hole_of (&off);
  ck_assert (!odds_green_numbers (missed, NULL, vec2 (0, 0), &green));
  ck_assert (!odds_green_numbers (missed, NULL, vec2 (0, 163), &green));
}
END_TEST

START_TEST (a_ball_on_the_green_stands_at_its_front)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_GREEN, -8, 140, 12, 170);
  g_autoptr (Hole) hole = hole_of (&parts);
  GreenNumbers green;
  ck_assert (odds_green_numbers (hole, NULL, vec2 (2, 142), &green));
  ck_assert_double_eq_tol (green.front_m, 0, EXACT_M);
  ck_assert_double_eq_tol (green.hole_m, 13, EXACT_M);
  ck_assert_double_eq_tol (green.back_m, 28, EXACT_M);
}
END_TEST

START_TEST (a_plan_with_a_club_that_is_not_in_the_bag_names_the_shot)
{
  static const char csv[] = "club,carry_m,surfaces\ndriver,210,tee\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (csv, strlen (csv));
  g_autoptr (Bag) bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  const Shot first = { .aim = { 0, 205 }, .curve_m = NAN, .swing = 1 };
  Shot second = { .from = { 0, 210 }, .aim = { 0, 415 }, .club = (char *)"spoon", .curve_m = NAN, .swing = 1 };
  for (int i = 0; i < 2; i++)
    {
      Part *plan = part_new (KIND_PLAN);
      part_add_shot (plan, &first);
      part_add_shot (plan, &second);
      Parts parts = { 0 };
      add (&parts, part_seal (plan));
      g_autoptr (Hole) hole = hole_of (&parts);
      g_autoptr (GError) error = NULL;
      ck_assert_ptr_null (odds_plan (hole, 0, bag, &error));
      ck_assert_str_eq (error->message, i == 0
                                            ? "shot 2: the bag has no club called spoon; choose one of its clubs"
                                            : "shot 2: the bag has no club for this lie; add one that is not for the tee only");
      second.club = NULL;
    }
}
END_TEST

/* ---- regressions ---- */

START_TEST (a_spike_without_width_does_not_lengthen_an_area)
{
  /* A bunker on the line and one beside it, each with a line drawn out of a corner and back, past the landing point. */
  const Vec2 on[] = { { -5, 150 }, { -5, 170 }, { 5, 170 }, { 8, 210 }, { 5, 170 }, { 5, 150 } };
  const Vec2 beside[] = { { 12, 150 }, { 12, 170 }, { 20, 170 }, { 20, 200 }, { 20, 170 }, { 20, 150 } };
  Parts parts = { 0 };
  add_polygon (&parts, KIND_BUNKER, on, G_N_ELEMENTS (on));
  add_polygon (&parts, KIND_BUNKER, beside, G_N_ELEMENTS (beside));
  g_autoptr (Hole) hole = hole_of (&parts);
  g_autoptr (CarryTable) table = table_of (hole, &iron);
  ck_assert_uint_eq (table->n_rows, 2);
  ck_assert_double_eq_tol (table->rows[0].corridor_carry_m, hypot (5, 170), EXACT_M);
  ck_assert_double_eq_tol (table->rows[1].carry_m, hypot (20, 170), EXACT_M);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds");

  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_normal_lies_below_its_deviations_as_often_as_the_tables_say);
  tcase_add_test (known, a_full_swing_carries_what_the_club_carries_wherever_the_aim_is);
  tcase_add_test (known, half_a_swing_halves_carry_bias_and_spread);
  tcase_add_test (known, a_shot_as_far_as_its_landing_is_the_beginning_of_the_shot);
  tcase_add_test (known, a_fitted_swing_lands_on_the_aim_but_is_never_more_than_full);
  tcase_add_test (known, green_numbers_are_first_entry_hole_last_exit_and_the_room_across);
  tcase_add_test (known, a_bunker_on_the_line_is_reached_and_carried_where_the_line_crosses_it);
  tcase_add_test (known, the_corridor_ends_where_its_edges_leave_a_wide_area);
  tcase_add_test (known, clear_is_the_chance_that_the_carry_exceeds_the_far_edge);
  tcase_add_test (known, a_bunker_beside_the_landing_point_is_listed_with_its_side_and_gap);
  tcase_add_test (known, what_lies_beside_the_line_is_listed_up_to_two_and_a_half_deviations);
  tcase_add_test (known, trees_along_the_hole_begin_where_they_come_into_the_fan);
  tcase_add_test (known, an_area_crossed_twice_gives_two_rows_each_with_its_own_corridor);
  tcase_add_test (known, crossings_joined_within_the_corridor_share_its_reach_and_carry);
  tcase_add_test (known, trees_that_wrap_round_behind_are_still_seen_beside_the_landing_point);
  tcase_add_test (known, an_island_is_not_part_of_its_water);
  tcase_add_test (known, a_plan_flies_every_shot_from_its_own_ball_with_its_own_club);
  tcase_add_test (known, a_point_lies_so_far_from_ball_and_hole_and_off_the_line);
  suite_add_tcase (suite, known);

  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, a_mirrored_hole_gives_the_same_table_with_left_and_right_exchanged);
  tcase_add_test (invariants, a_turned_and_moved_hole_gives_the_same_table);
  tcase_add_test (invariants, rows_are_in_order_chances_are_chances_and_corridors_hold_their_rows);
  tcase_add_test (invariants, a_wider_pattern_never_narrows_the_corridor);
  suite_add_tcase (suite, invariants);

  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, an_aim_on_the_ball_no_club_and_no_swing_are_refused);
  tcase_add_test (edges, the_area_under_the_ball_is_reached_at_once);
  tcase_add_test (edges, a_ball_on_an_edge_or_a_corner_of_an_area_is_no_special_case);
  tcase_add_test (edges, a_pattern_without_width_has_a_corridor_of_one_line);
  tcase_add_test (edges, a_pattern_that_is_one_slanting_line_and_one_wider_than_its_carry_give_finite_rows);
  tcase_add_test (edges, a_hole_a_million_metres_away_is_still_measured);
  tcase_add_test (edges, an_area_without_extent_and_a_shape_without_a_kind_give_no_row);
  tcase_add_test (edges, an_outline_that_crosses_itself_millions_of_times_is_bounded_without_being_followed);
  tcase_add_test (edges, thousands_of_crossings_each_keep_their_own_row);
  tcase_add_test (edges, no_green_a_ball_on_the_hole_and_a_missed_green_give_no_green_numbers);
  tcase_add_test (edges, a_ball_on_the_green_stands_at_its_front);
  tcase_add_test (edges, a_plan_with_a_club_that_is_not_in_the_bag_names_the_shot);
  suite_add_tcase (suite, edges);

  TCase *regressions = tcase_create ("regressions");
  tcase_add_test (regressions, a_spike_without_width_does_not_lengthen_an_area);
  suite_add_tcase (suite, regressions);
  return suite;
}
