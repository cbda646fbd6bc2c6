// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: strokes to hole out by lie and distance, for professionals and for the levels; relief under the Rules. */
#include "plan.h"
#include "suite.h"
#include "units.h"

#define STROKES 1e-9
#define YD METRES_PER_YARD
#define MOST_PARTS 16

static StrokesTable *tour, *levels[N_LEVELS];

static void
set_up (void)
{
  tour = strokes_table_new_tour ();
  for (int level = 0; level < N_LEVELS; level++)
    levels[level] = strokes_table_new ((Level)level);
}

static void
tear_down (void)
{
  strokes_table_free (tour);
  for (int level = 0; level < N_LEVELS; level++)
    strokes_table_free (levels[level]);
}

static double
at_yd (const StrokesTable *table, Lie lie, double yd)
{
  return strokes_to_hole (table, lie, yd * YD);
}

/* ---- holes to drop on ---- */

typedef struct
{
  const Part *parts[MOST_PARTS];
  size_t n;
} Parts;

static void
add_box (Parts *parts, Kind kind, Stakes stakes, double x0, double y0, double x1, double y1)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, (Box){ x0, y0, x1, y1 }, 0, 0);
  part->stakes = stakes;
  part->stakes_given = true;
  parts->parts[parts->n++] = part_seal (part);
}

static Hole *
hole_of (Parts *parts, Kind ground)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = ground;
  Hole *hole = hole_new (&info, parts->parts, parts->n, NULL);
  hole_info_clear (&info);
  return hole;
}

/* Fairway all over, the hole at (0, 300), a penalty area from 150 to 180 right of the line x = 10. */
static Hole *
lake_hole (Stakes stakes)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_PENALTY_AREA, stakes, 10, 150, 80, 180);
  return hole_of (&parts, KIND_FAIRWAY);
}

static const Vec2 target = { 0, 300 };

/* ---- known answers: the published table ---- */

START_TEST (the_table_is_the_published_one)
{
  /* Broadie 2012, Interfaces 42(2):146-165, Table B.1 and putting, as transcribed elsewhere. */
  const struct
  {
    Lie lie;
    double yd, strokes;
  } published[]
      = { { LIE_TEE, 100, 2.92 },       { LIE_TEE, 120, 2.99 },       { LIE_TEE, 140, 2.97 },     { LIE_TEE, 400, 3.99 },
          { LIE_TEE, 600, 4.82 },       { LIE_FAIRWAY, 10, 2.18 },    { LIE_FAIRWAY, 160, 2.98 }, { LIE_FAIRWAY, 500, 4.50 },
          { LIE_ROUGH, 80, 2.96 },      { LIE_ROUGH, 180, 3.31 },     { LIE_ROUGH, 600, 5.25 },   { LIE_SAND, 20, 2.53 },
          { LIE_SAND, 100, 3.23 },      { LIE_SAND, 600, 6.10 },      { LIE_TREES, 10, 3.45 },    { LIE_TREES, 600, 5.70 },
          { LIE_GREEN, 1. / 3, 1.001 }, { LIE_GREEN, 8. / 3, 1.515 }, { LIE_GREEN, 20, 2.218 },   { LIE_GREEN, 30, 2.379 } };
  for (size_t i = 0; i < G_N_ELEMENTS (published); i++)
    ck_assert_double_eq_tol (at_yd (tour, published[i].lie, published[i].yd), published[i].strokes, STROKES);
}
END_TEST

START_TEST (between_two_rows_the_table_is_straight)
{
  ck_assert_double_eq_tol (at_yd (tour, LIE_FAIRWAY, 170), (2.98 + 3.08) / 2, STROKES);
  ck_assert_double_eq_tol (at_yd (tour, LIE_ROUGH, 505), 4.77 + (4.87 - 4.77) / 4, STROKES);
  ck_assert_double_eq_tol (at_yd (tour, LIE_GREEN, 9. / 3), (1.515 + 1.626) / 2, STROKES);
}
END_TEST

START_TEST (a_professional_needs_two_putts_from_about_33_feet)
{
  /* Published beside the table: the average reaches 2.0 at about 33 ft. */
  ck_assert_double_eq_tol (at_yd (tour, LIE_GREEN, 11), 2.0, 0.005);
}
END_TEST

START_TEST (the_worked_example_of_strokes_gained_comes_out)
{
  /* Published by the professionals' tour: tee 446 yd 4.100 to fairway 116 yd 2.825 gains 4.100 - 2.825 - 1 = +0.275, with a table of another year; this
     one gives 4.107 and 2.840. */
  double before = at_yd (tour, LIE_TEE, 446), after = at_yd (tour, LIE_FAIRWAY, 116);
  ck_assert_double_eq_tol (before, 4.107, 1e-3);
  ck_assert_double_eq_tol (before - after - 1, 0.275, 0.01);
  /* And on to 16 ft 11 in, 1.826: -0.001. */
  ck_assert_double_eq_tol (after - at_yd (tour, LIE_GREEN, (16 + 11. / 12) / 3) - 1, -0.001, 0.025);
}
END_TEST

START_TEST (beyond_its_last_row_the_table_goes_on_as_steeply)
{
  ck_assert_double_eq_tol (at_yd (tour, LIE_FAIRWAY, 700), 4.89 + (4.89 - 4.50), STROKES);
  /* A thousand yards and more: still straight on. */
  double kilometre = at_yd (tour, LIE_FAIRWAY, 1000);
  ck_assert_double_eq_tol (at_yd (tour, LIE_FAIRWAY, 3000), kilometre + 20 * (4.89 - 4.50), 1e-6);
}
END_TEST

/* ---- known answers: golfers ---- */

START_TEST (a_bogey_golfer_scores_the_yardage_rating_at_every_common_length)
{
  /* Course Rating System, yardage rating for eighteen holes, from memory: men yd / 160 + 50.7, women yd / 120 + 51.9. */
  const double holes_yd[] = { 140, 160, 175, 195, 310, 330, 350, 365, 380, 395, 405, 415, 430, 440, 480, 500, 520, 540 };
  const double lengths_yd[] = { 5000, 5600, 6200, 6800 };
  for (size_t l = 0; l < G_N_ELEMENTS (lengths_yd); l++)
    {
      double men = 0, women = 0;
      for (size_t i = 0; i < G_N_ELEMENTS (holes_yd); i++)
        {
          double yd = holes_yd[i] * lengths_yd[l] / 6530;
          men += at_yd (levels[LEVEL_BOGEY_MEN], LIE_TEE, yd);
          women += at_yd (levels[LEVEL_BOGEY_WOMEN], LIE_TEE, yd);
        }
      ck_assert_double_eq_tol (men, lengths_yd[l] / 160 + 50.7, 0.7);
      ck_assert_double_eq_tol (women, lengths_yd[l] / 120 + 51.9, 0.7);
    }
}
END_TEST

START_TEST (a_bogey_golfer_holes_one_of_two_where_it_is_published)
{
  /* A golfer who scores 90 holes half from 5 ft, a professional from 8 ft (published): what each needs from there is alike. */
  double ninety = at_yd (levels[LEVEL_BOGEY_MEN], LIE_GREEN, 5. / 3);
  ck_assert_double_eq_tol (ninety, 1.515, 0.02);
  /* One-putts 6 per cent and three-putts 8 of one who scores 90 from 20 ft: 1 + 0.94 + 0.08 (from memory). */
  ck_assert_double_eq_tol (at_yd (levels[LEVEL_BOGEY_MEN], LIE_GREEN, 20. / 3), 2.02, 0.05);
}
END_TEST

/* ---- invariants ---- */

START_TEST (nobody_does_better_than_a_better_golfer)
{
  for (int lie = LIE_TEE; lie < N_LIES; lie++)
    for (double yd = 0; yd <= 1200; yd += 0.5)
      {
        double men = at_yd (levels[LEVEL_SCRATCH_MEN], (Lie)lie, yd), bogey = at_yd (levels[LEVEL_BOGEY_MEN], (Lie)lie, yd);
        ck_assert_double_ge (men, at_yd (tour, (Lie)lie, yd) - 1e-9);
        ck_assert_double_ge (at_yd (levels[LEVEL_SCRATCH_WOMEN], (Lie)lie, yd), men - 1e-9);
        ck_assert_double_ge (bogey, men - 1e-9);
        ck_assert_double_ge (at_yd (levels[LEVEL_BOGEY_WOMEN], (Lie)lie, yd), bogey - 1e-9);
      }
}
END_TEST

START_TEST (further_off_no_golfer_needs_fewer)
{
  /* The professionals' own table does fall in places: its tees from 120 to 140 yd, its sand and its recoveries. */
  ck_assert_double_lt (at_yd (tour, LIE_TEE, 140), at_yd (tour, LIE_TEE, 120));
  for (int level = 0; level < N_LEVELS; level++)
    for (int lie = LIE_TEE; lie < N_LIES; lie++)
      for (double yd = 0; yd < 1200; yd += 0.5)
        ck_assert_double_ge (at_yd (levels[level], (Lie)lie, yd + 0.5), at_yd (levels[level], (Lie)lie, yd));
}
END_TEST

START_TEST (a_worse_lie_costs_more)
{
  const Lie order[] = { LIE_GREEN, LIE_FRINGE, LIE_FAIRWAY, LIE_FIRST_CUT, LIE_ROUGH, LIE_DEEP_ROUGH, LIE_TREES };
  for (int level = 0; level < N_LEVELS; level++)
    for (double yd = 1; yd <= 240; yd += 1)
      for (size_t i = 1; i < G_N_ELEMENTS (order); i++)
        ck_assert_double_ge (at_yd (levels[level], order[i], yd), at_yd (levels[level], order[i - 1], yd) - 1e-9);
}
END_TEST

START_TEST (every_lie_at_every_distance_has_a_number_of_at_least_one)
{
  const double far_m[] = { 0, 1e-9, 0.3, 1e3, 1e6, 1e9 };
  for (int lie = 0; lie < N_LIES; lie++)
    for (size_t i = 0; i < G_N_ELEMENTS (far_m); i++)
      {
        double strokes = strokes_to_hole (levels[LEVEL_BOGEY_WOMEN], (Lie)lie, far_m[i]);
        ck_assert (isfinite (strokes));
        ck_assert_double_ge (strokes, 1);
      }
}
END_TEST

/* ---- relief ---- */

START_TEST (a_ball_in_play_is_not_dropped)
{
  g_autoptr (Hole) hole = lake_hole (STAKES_RED);
  Drop drops[N_DROP_RULES];
  ck_assert_uint_eq (plan_drops (hole, tour, target, vec2 (0, 0), vec2 (0, 165), NAN, drops), 0);
}
END_TEST

START_TEST (red_stakes_allow_three_drops_and_the_cheapest_comes_first)
{
  g_autoptr (Hole) hole = lake_hole (STAKES_RED);
  Drop drops[N_DROP_RULES];
  /* From the tee at (0, 0) to (20, 170): over the near edge, y = 150, at x = 17.65. */
  size_t n = plan_drops (hole, tour, target, vec2 (0, 0), vec2 (20, 170), NAN, drops);
  ck_assert_uint_eq (n, 3);
  Vec2 crossing = vec2 (150 * 20 / 170., 150);
  double crossing_m = vec2_distance (crossing, target);
  for (size_t i = 0; i < n; i++)
    {
      ck_assert_double_lt (vec2_distance (drops[i].crossing, crossing), 0.02);
      ck_assert_int_eq (drops[i].lie, LIE_FAIRWAY);
      if (i > 0)
        ck_assert_double_le (drops[i - 1].strokes, drops[i].strokes);
    }
  const Drop *lateral = &drops[0];
  ck_assert_int_eq (lateral->rule, DROP_LATERAL);
  ck_assert_double_le (vec2_distance (lateral->at, lateral->crossing), DROP_LATERAL_M);
  ck_assert_double_ge (vec2_distance (lateral->at, target), crossing_m - 0.02);
  ck_assert_double_eq_tol (lateral->strokes, 1 + strokes_to_hole (tour, LIE_FAIRWAY, vec2_distance (lateral->at, target)),
                           STROKES);
  ck_assert_int_eq (drops[1].rule, DROP_BACK);
  ck_assert_int_eq (drops[2].rule, DROP_AGAIN);
  ck_assert_double_eq_tol (drops[2].strokes, 1 + strokes_to_hole (tour, LIE_FAIRWAY, 300), STROKES);
}
END_TEST

START_TEST (yellow_stakes_allow_no_lateral_drop)
{
  g_autoptr (Hole) hole = lake_hole (STAKES_YELLOW);
  Drop drops[N_DROP_RULES];
  ck_assert_uint_eq (plan_drops (hole, tour, target, vec2 (0, 0), vec2 (20, 170), NAN, drops), 2);
  ck_assert_int_eq (drops[0].rule, DROP_BACK);
  /* On the line from the hole through the crossing, further from the hole. */
  Vec2 from_hole = vec2_sub (drops[0].at, target), to_crossing = vec2_sub (drops[0].crossing, target);
  ck_assert_double_eq_tol (vec2_cross (vec2_unit (from_hole), vec2_unit (to_crossing)), 0, 1e-9);
  ck_assert_double_gt (vec2_length (from_hole), vec2_length (to_crossing));
}
END_TEST

START_TEST (a_drop_back_on_the_line_goes_round_sand_when_that_is_cheaper)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_PENALTY_AREA, STAKES_YELLOW, -50, 150, 50, 180);
  add_box (&parts, KIND_BUNKER, STAKES_RED, -50, 142, 50, 150);
  g_autoptr (Hole) hole = hole_of (&parts, KIND_FAIRWAY);
  Drop drops[N_DROP_RULES];
  plan_drops (hole, tour, target, vec2 (0, 0), vec2 (0, 170), NAN, drops);
  ck_assert_int_eq (drops[0].rule, DROP_BACK);
  ck_assert_int_eq (drops[0].lie, LIE_FAIRWAY);
  ck_assert_double_eq_tol (drops[0].at.y, 141.5, 0.6);
}
END_TEST

START_TEST (out_of_bounds_is_stroke_and_distance)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_OUT_OF_BOUNDS, STAKES_RED, 10, -10, 80, 400);
  g_autoptr (Hole) hole = hole_of (&parts, KIND_FAIRWAY);
  Drop drops[N_DROP_RULES];
  ck_assert_uint_eq (plan_drops (hole, tour, target, vec2 (0, 0), vec2 (20, 200), 4.5, drops), 1);
  ck_assert_int_eq (drops[0].rule, DROP_AGAIN);
  ck_assert_double_eq (drops[0].strokes, 5.5);
  ck_assert_double_eq (vec2_distance (drops[0].at, vec2 (0, 0)), 0);
  ck_assert_double_lt (vec2_distance (drops[0].crossing, vec2 (10, 100)), 0.02);
}
END_TEST

START_TEST (a_mirrored_hole_mirrors_the_drops)
{
  Parts right = { 0 }, left = { 0 };
  add_box (&right, KIND_WATER, STAKES_RED, 10, 150, 80, 180);
  add_box (&left, KIND_WATER, STAKES_RED, -80, 150, -10, 180);
  g_autoptr (Hole) one = hole_of (&right, KIND_ROUGH);
  g_autoptr (Hole) other = hole_of (&left, KIND_ROUGH);
  Drop a[N_DROP_RULES], b[N_DROP_RULES];
  ck_assert_uint_eq (plan_drops (one, tour, target, vec2 (0, 0), vec2 (20, 170), NAN, a), 3);
  ck_assert_uint_eq (plan_drops (other, tour, target, vec2 (0, 0), vec2 (-20, 170), NAN, b), 3);
  for (int i = 0; i < 3; i++)
    {
      ck_assert_int_eq (a[i].rule, b[i].rule);
      ck_assert_double_eq_tol (a[i].at.x, -b[i].at.x, 1e-6);
      ck_assert_double_eq_tol (a[i].at.y, b[i].at.y, 1e-6);
      ck_assert_double_eq_tol (a[i].strokes, b[i].strokes, STROKES);
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (on_a_hole_that_is_all_water_a_ball_is_played_again)
{
  Parts parts = { 0 };
  g_autoptr (Hole) hole = hole_of (&parts, KIND_WATER);
  Drop drops[N_DROP_RULES];
  ck_assert_uint_eq (plan_drops (hole, tour, target, vec2 (0, 0), vec2 (0, 170), 4, drops), 1);
  ck_assert_int_eq (drops[0].rule, DROP_AGAIN);
  ck_assert_double_eq (drops[0].strokes, 5);
}
END_TEST

START_TEST (an_island_in_a_penalty_area_is_dropped_on_from_where_the_ball_left_it)
{
  Parts parts = { 0 };
  add_box (&parts, KIND_FAIRWAY, STAKES_RED, -20, -20, 20, 20);
  g_autoptr (Hole) hole = hole_of (&parts, KIND_WATER);
  Drop drops[N_DROP_RULES];
  size_t n = plan_drops (hole, tour, target, vec2 (0, 0), vec2 (0, 170), NAN, drops);
  ck_assert_uint_eq (n, 3);
  for (size_t i = 0; i < n; i++)
    ck_assert_int_eq (drops[i].lie, LIE_FAIRWAY);
  ck_assert_double_eq_tol (drops[0].crossing.y, 20, 0.02);
}
END_TEST

START_TEST (a_ball_that_ends_on_itself_or_a_million_metres_off_is_answered)
{
  g_autoptr (Hole) hole = lake_hole (STAKES_RED);
  Drop drops[N_DROP_RULES];
  ck_assert_uint_eq (plan_drops (hole, tour, target, vec2 (20, 170), vec2 (20, 170), NAN, drops), 1);
  ck_assert_uint_ge (plan_drops (hole, tour, target, vec2 (-1e6, 165), vec2 (20, 170), NAN, drops), 1);
  ck_assert_uint_ge (plan_drops (hole, tour, vec2 (10, 150), vec2 (0, 0), vec2 (20, 170), NAN, drops), 1);
  for (size_t i = 0; i < N_DROP_RULES; i++)
    ck_assert_str_ne (drop_rule_token ((DropRule)i), "");
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan");
  TCase *answers = tcase_create ("strokes");
  tcase_add_unchecked_fixture (answers, set_up, tear_down);
  tcase_add_test (answers, the_table_is_the_published_one);
  tcase_add_test (answers, between_two_rows_the_table_is_straight);
  tcase_add_test (answers, a_professional_needs_two_putts_from_about_33_feet);
  tcase_add_test (answers, the_worked_example_of_strokes_gained_comes_out);
  tcase_add_test (answers, beyond_its_last_row_the_table_goes_on_as_steeply);
  tcase_add_test (answers, a_bogey_golfer_scores_the_yardage_rating_at_every_common_length);
  tcase_add_test (answers, a_bogey_golfer_holes_one_of_two_where_it_is_published);
  tcase_add_test (answers, nobody_does_better_than_a_better_golfer);
  tcase_add_test (answers, further_off_no_golfer_needs_fewer);
  tcase_add_test (answers, a_worse_lie_costs_more);
  tcase_add_test (answers, every_lie_at_every_distance_has_a_number_of_at_least_one);
  suite_add_tcase (suite, answers);

  TCase *drops = tcase_create ("drops");
  tcase_add_unchecked_fixture (drops, set_up, tear_down);
  tcase_add_test (drops, a_ball_in_play_is_not_dropped);
  tcase_add_test (drops, red_stakes_allow_three_drops_and_the_cheapest_comes_first);
  tcase_add_test (drops, yellow_stakes_allow_no_lateral_drop);
  tcase_add_test (drops, a_drop_back_on_the_line_goes_round_sand_when_that_is_cheaper);
  tcase_add_test (drops, out_of_bounds_is_stroke_and_distance);
  tcase_add_test (drops, a_mirrored_hole_mirrors_the_drops);
  tcase_add_test (drops, on_a_hole_that_is_all_water_a_ball_is_played_again);
  tcase_add_test (drops, an_island_in_a_penalty_area_is_dropped_on_from_where_the_ball_left_it);
  tcase_add_test (drops, a_ball_that_ends_on_itself_or_a_million_metres_off_is_answered);
  suite_add_tcase (suite, drops);
  return suite;
}
