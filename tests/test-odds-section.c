// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: the section, a shot seen from its side. */
#include "drawn.h"
#include "odds-section.h"
#include "suite.h"

static const Club iron
    = { .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 6, .side_sd_m = 8, .loft_deg = 32, .apex_m = NAN };

/* A shot of the iron up the sheet from (0,0) to (0,140), and its section. */
typedef struct
{
  Hole *hole;
  ShotResult shot;
  CarryTable *carries;
  TreeTable *trees;
  Section *section;
} Stage;

static Stage
stage_of (const Part *const *parts, size_t n_parts, ShotShape shape, const Conditions *conditions)
{
  HoleInfo info;
  hole_info_init (&info);
  info.view_box = (Box){ -100, -40, 100, 260 };
  Stage stage = { .hole = hole_new (&info, parts, n_parts, NULL) };
  hole_info_clear (&info);
  ShotInput input = { .aim = { 0, 140 }, .club = &iron, .swing = 1, .shape = shape, .curve_m = NAN, .conditions = conditions };
  ck_assert (odds_shot (stage.hole, NULL, &input, &stage.shot, NULL));
  stage.carries = carry_table_new (stage.hole, &stage.shot);
  stage.trees = tree_table_new (stage.hole, &stage.shot);
  stage.section = section_new (stage.hole, NULL, &stage.shot, stage.carries, stage.trees);
  return stage;
}

static void
stage_clear (Stage *stage)
{
  section_free (stage->section);
  tree_table_free (stage->trees);
  carry_table_free (stage->carries);
  hole_unref (stage->hole);
}

static const Part *
across (Kind kind, double y0, double y1)
{
  return rectangle (kind, (Box){ -80, y0, 80, y1 });
}

/* Heights of a plane that rises by `slope` up the sheet, as spots about the hole. */
static size_t
plane_spots (const Part **parts, double slope)
{
  static const double places[][2] = { { -120, -60 }, { 120, -60 }, { -120, 300 }, { 120, 300 }, { 0, 100 } };
  for (size_t i = 0; i < G_N_ELEMENTS (places); i++)
    parts[i] = spot (places[i][0], places[i][1], slope * places[i][1]);
  return G_N_ELEMENTS (places);
}

/* ---- known answers ---- */

START_TEST (on_a_plane_the_ground_is_the_plane)
{
  const Part *parts[8];
  size_t n = plane_spots (parts, 0.05);
  Stage stage = stage_of (parts, n, SHOT_STRAIGHT, NULL);
  ck_assert_uint_gt (stage.section->n_ground, 90);
  for (size_t i = 0; i < stage.section->n_ground; i++)
    ck_assert_double_eq_tol (stage.section->ground[i].height_m, 0.05 * stage.section->ground[i].at_m, 0.01);
  ck_assert_double_eq_tol (section_ground (stage.section, 71.5), 0.05 * 71.5, 0.01);
  stage_clear (&stage);
}
END_TEST

START_TEST (it_reaches_from_one_edge_of_the_drawing_to_the_other)
{
  Stage stage = stage_of (NULL, 0, SHOT_STRAIGHT, NULL);
  ck_assert_double_eq_tol (stage.section->ground[0].at_m, -40, 1e-9);
  ck_assert_double_eq_tol (stage.section->ground[stage.section->n_ground - 1].at_m, 260, 1e-9);
  ck_assert_uint_eq (stage.section->n_ground, 2);
  stage_clear (&stage);
}
END_TEST

START_TEST (what_lies_on_top_follows_one_another_along_the_line)
{
  const Part *parts[] = { across (KIND_TEE, -10, 10), across (KIND_FAIRWAY, 60, 200), across (KIND_PENALTY_AREA, 100, 130),
                          across (KIND_WATER, 105, 125) };
  Stage stage = stage_of (parts, G_N_ELEMENTS (parts), SHOT_STRAIGHT, NULL);
  static const struct
  {
    double from_m;
    int part;
    Kind kind;
  } expected[] = { { -40, -1, KIND_ROUGH },       { -10, 0, KIND_TEE },          { 10, -1, KIND_ROUGH },
                   { 60, 1, KIND_FAIRWAY },       { 100, 2, KIND_PENALTY_AREA }, { 105, 3, KIND_WATER },
                   { 125, 2, KIND_PENALTY_AREA }, { 130, 1, KIND_FAIRWAY },      { 200, -1, KIND_ROUGH } };
  ck_assert_uint_eq (stage.section->n_stretches, G_N_ELEMENTS (expected));
  for (size_t i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      const SectionStretch *stretch = &stage.section->stretches[i];
      ck_assert_double_eq_tol (stretch->from_m, expected[i].from_m, 1e-6);
      ck_assert_int_eq (stretch->part, expected[i].part);
      ck_assert_int_eq (stretch->kind, expected[i].kind);
      ck_assert_double_eq (stretch->to_m, i + 1 < G_N_ELEMENTS (expected) ? stretch[1].from_m : 260);
    }
  stage_clear (&stage);
}
END_TEST

START_TEST (the_spread_holds_nine_balls_in_ten)
{
  Stage stage = stage_of (NULL, 0, SHOT_STRAIGHT, NULL);
  const Section *section = stage.section;
  double near_m = section->nearest[SECTION_TRACK_STEPS].at_m, far_m = section->farthest[SECTION_TRACK_STEPS].at_m;
  double mean_m = section->landing.mean_m, sd_m = section->landing.sd_m;
  ck_assert_double_eq_tol (mean_m, 140, 1e-6);
  ck_assert_double_eq_tol (sd_m, 6, 1e-9);
  ck_assert_double_eq_tol (normal_below ((far_m - mean_m) / sd_m) - normal_below ((near_m - mean_m) / sd_m), 0.9, 1e-9);
  stage_clear (&stage);
}
END_TEST

START_TEST (the_track_is_that_of_the_flight)
{
  Stage stage = stage_of (NULL, 0, SHOT_STRAIGHT, NULL);
  for (int i = 0; i <= SECTION_TRACK_STEPS; i++)
    {
      SectionPoint point = stage.section->track[i];
      ck_assert_double_eq_tol (point.height_m, flight_at_distance (&stage.shot.flight, vec2 (0, 1), point.at_m).z_m, 0.05);
    }
  ck_assert_double_eq (stage.section->apex.height_m, stage.shot.apex_m);
  ck_assert_double_eq_tol (flight_at_distance (&stage.shot.flight, vec2 (0, 1), stage.section->apex.at_m).z_m,
                           stage.shot.apex_m, 0.05);
  stage_clear (&stage);
}
END_TEST

START_TEST (a_tree_is_passed_lowest_where_its_clearance_says)
{
  const Part *parts[] = { tree (0, 118, 4, 9), rectangle (KIND_TREES, (Box){ -20, 60, 20, 70 }) };
  Stage stage = stage_of (parts, G_N_ELEMENTS (parts), SHOT_STRAIGHT, NULL);
  ck_assert_uint_eq (stage.section->n_trees, 2);
  for (size_t i = 0; i < 2; i++)
    {
      const SectionTree *trees = &stage.section->trees[i];
      ck_assert (trees->is_on);
      double height_m = flight_at_distance (&stage.shot.flight, vec2 (0, 1), trees->tight_m).z_m;
      ck_assert_double_eq_tol (height_m - trees->top_m, trees->clearance_m, 0.1);
      ck_assert_double_eq (trees->base_m, 0);
    }
  /* Rising, it is lowest over the near edge; falling, over the far one. */
  ck_assert_double_eq_tol (stage.section->trees[0].tight_m, 60, 0.5);
  ck_assert_double_eq_tol (stage.section->trees[1].tight_m, 122, 0.5);
  ck_assert_double_eq (stage.section->trees[0].top_m, TREES_HEIGHT_M);
  ck_assert_double_eq (stage.section->trees[1].top_m, 9);
  stage_clear (&stage);
}
END_TEST

START_TEST (the_first_trouble_ahead_of_the_ball_is_named)
{
  const Part *parts[] = { across (KIND_FAIRWAY, 60, 200), across (KIND_BUNKER, 90, 95), across (KIND_BUNKER, 163, 168) };
  Stage stage = stage_of (parts, G_N_ELEMENTS (parts), SHOT_STRAIGHT, NULL);
  ck_assert_int_ge (stage.section->ahead, 0);
  ck_assert_uint_eq (stage.carries->rows[stage.section->ahead].part, 2);
  ck_assert_double_eq_tol (stage.section->ahead_m, 163 - vec2_distance (stage.shot.ball, stage.shot.rest), 1e-6);
  ck_assert_int_eq (stage.section->lands_on, KIND_FAIRWAY);
  ck_assert_int_eq (stage.section->rests_on, KIND_FAIRWAY);
  stage_clear (&stage);
}
END_TEST

START_TEST (the_hole_is_dropped_onto_the_line_to_the_aim)
{
  Part *pin = part_new (KIND_HOLE_LOCATION);
  pin->at = vec2 (-30, 220);
  const Part *parts[] = { part_seal (pin) };
  Stage stage = stage_of (parts, 1, SHOT_STRAIGHT, NULL);
  ck_assert_double_eq_tol (stage.section->hole_m, 220, 1e-9);
  ck_assert_double_eq_tol (stage.section->hole_left_m, 30, 1e-9);
  ck_assert_double_eq (stage.section->aim_m, 140);
  stage_clear (&stage);
}
END_TEST

START_TEST (how_a_ball_passes_a_tree_goes_by_its_clearance)
{
  static const struct
  {
    double clearance_m;
    TreePass pass;
  } expected[]
      = { { 30, TREE_FAR_BELOW },   { 11, TREE_CLEARED }, { 1, TREE_CLEARED }, { 0.3, TREE_BRUSHED }, { -0.3, TREE_BRUSHED },
          { -2, TREE_THROUGH_TOP }, { -8, TREE_INTO },    { -40, TREE_INTO },  { NAN, TREE_BESIDE } };
  for (size_t i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      SectionTree ten_high = { .base_m = 3, .top_m = 13, .clearance_m = expected[i].clearance_m };
      ck_assert_int_eq (section_tree_pass (&ten_high), expected[i].pass);
    }
}
END_TEST

/* ---- invariants ---- */

START_TEST (every_track_comes_down_on_the_ground)
{
  for (int slope = -10; slope <= 10; slope += 5)
    {
      const Part *parts[8];
      size_t n = plane_spots (parts, slope / 100.0);
      Stage stage = stage_of (parts, n, SHOT_STRAIGHT, NULL);
      const SectionPoint *const tracks[] = { stage.section->track, stage.section->nearest, stage.section->farthest };
      for (size_t i = 0; i < G_N_ELEMENTS (tracks); i++)
        {
          SectionPoint end = tracks[i][SECTION_TRACK_STEPS];
          ck_assert_double_eq_tol (end.height_m, section_ground (stage.section, end.at_m), 0.1);
          ck_assert_double_eq (tracks[i][0].at_m, 0);
          ck_assert_double_eq_tol (tracks[i][0].height_m, 0, 1e-9);
        }
      stage_clear (&stage);
    }
}
END_TEST

START_TEST (a_mirrored_hole_gives_the_same_section)
{
  const Part *right[] = { tree (6, 120, 4, 14), rectangle (KIND_BUNKER, (Box){ -3, 150, 30, 160 }) };
  const Part *left[] = { tree (-6, 120, 4, 14), rectangle (KIND_BUNKER, (Box){ -30, 150, 3, 160 }) };
  Stage one = stage_of (right, 2, SHOT_FADE, NULL), other = stage_of (left, 2, SHOT_DRAW, NULL);
  ck_assert_uint_eq (one.section->n_stretches, other.section->n_stretches);
  for (size_t i = 0; i < one.section->n_stretches; i++)
    ck_assert_double_eq_tol (one.section->stretches[i].to_m, other.section->stretches[i].to_m, 1e-3);
  for (int i = 0; i <= SECTION_TRACK_STEPS; i++)
    ck_assert_double_eq_tol (one.section->track[i].height_m, other.section->track[i].height_m, 1e-3);
  ck_assert_uint_eq (one.section->n_trees, other.section->n_trees);
  stage_clear (&one);
  stage_clear (&other);
}
END_TEST

START_TEST (landing_and_rest_are_the_patterns_along_the_line)
{
  /* Blown aside by 8 m/s, the line to the landing is not the long axis of the pattern. */
  Conditions blown = conditions_standard ();
  blown.wind.to_mps = vec2 (8, 0);
  Stage stage = stage_of (NULL, 0, SHOT_STRAIGHT, &blown);
  const Section *section = stage.section;
  Vec2 along = vec2_unit (vec2_sub (stage.shot.landing, stage.shot.ball));
  ck_assert_double_eq_tol (section->landing.mean_m, stage.shot.carry_m, 1e-9);
  ck_assert_double_eq_tol (section->rest.mean_m, vec2_dot (along, stage.shot.rest), 1e-9);
  double most_m = fmax (stage.shot.pattern.long_sd_m, stage.shot.pattern.side_sd_m);
  double least_m = fmin (stage.shot.pattern.long_sd_m, stage.shot.pattern.side_sd_m);
  ck_assert (section->landing.sd_m > least_m && section->landing.sd_m < most_m);
  stage_clear (&stage);
}
END_TEST

/* ---- edges ---- */

START_TEST (trees_beside_the_line_and_beyond_the_fan_are_told_apart)
{
  const Part *parts[] = { tree (9, 130, 5, 12), tree (1, 200, 4, 10), rectangle (KIND_TREES, (Box){ -50, 230, 50, 250 }),
                          tree (0, -20, 4, 10), tree (40, 200, 5, 10) };
  Stage stage = stage_of (parts, G_N_ELEMENTS (parts), SHOT_STRAIGHT, NULL);
  const SectionTree *trees = stage.section->trees;
  ck_assert_uint_eq (stage.section->n_trees, 3);
  ck_assert_uint_eq (trees[0].part, 0);
  ck_assert (!trees[0].is_on && isnan (trees[0].clearance_m) && trees[0].chance < 1);
  ck_assert_uint_eq (trees[1].part, 1);
  ck_assert (trees[1].is_on && isnan (trees[1].clearance_m) && trees[1].chance == 1);
  ck_assert_double_eq_tol (trees[1].far_m - trees[1].near_m, 2 * sqrt (15), 1e-6);
  ck_assert_uint_eq (trees[2].part, 2);
  ck_assert (trees[2].is_on);
  ck_assert_double_eq_tol (trees[2].near_m, 230, 1e-6);
  stage_clear (&stage);
}
END_TEST

START_TEST (without_a_hole_trees_or_trouble_it_says_so)
{
  Stage stage = stage_of (NULL, 0, SHOT_STRAIGHT, NULL);
  g_autoptr (Section) bare = section_new (stage.hole, NULL, &stage.shot, stage.carries, NULL);
  ck_assert_uint_eq (bare->n_trees, 0);
  ck_assert_int_eq (bare->ahead, -1);
  ck_assert (isnan (bare->ahead_m) && isnan (bare->hole_m) && isnan (bare->hole_left_m));
  ck_assert_uint_eq (bare->n_stretches, 1);
  ck_assert_int_eq (bare->lands_on, KIND_ROUGH);
  stage_clear (&stage);
}
END_TEST

START_TEST (a_club_without_spread_has_one_track)
{
  Stage stage = stage_of (NULL, 0, SHOT_STRAIGHT, NULL);
  ShotResult sure = stage.shot;
  sure.pattern.long_sd_m = sure.pattern.side_sd_m = sure.rest_pattern.long_sd_m = sure.rest_pattern.side_sd_m = NAN;
  g_autoptr (Section) section = section_new (stage.hole, NULL, &sure, stage.carries, NULL);
  ck_assert_double_eq (section->landing.sd_m, 0);
  ck_assert_double_eq (section->rest.sd_m, 0);
  for (int i = 0; i <= SECTION_TRACK_STEPS; i++)
    ck_assert (section->nearest[i].at_m == section->track[i].at_m && section->farthest[i].at_m == section->track[i].at_m);
  stage_clear (&stage);
}
END_TEST

START_TEST (a_ball_off_the_drawing_still_has_a_section)
{
  HoleInfo info;
  hole_info_init (&info);
  info.view_box = (Box){ 500, 500, 600, 600 };
  g_autoptr (Hole) hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  ShotInput input = { .aim = { 0, 140 }, .club = &iron, .swing = 1 };
  ShotResult shot;
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  g_autoptr (CarryTable) carries = carry_table_new (hole, &shot);
  g_autoptr (Section) section = section_new (hole, NULL, &shot, carries, NULL);
  ck_assert_double_lt (section->ground[0].at_m, 0);
  ck_assert_double_gt (section->ground[section->n_ground - 1].at_m, section->rest.mean_m);
  ck_assert_double_eq (section_ground (section, -1e9), 0);
  ck_assert_double_eq (section_ground (section, 1e9), 0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-section");
  TCase *known = tcase_create ("known answers"), *invariants = tcase_create ("invariants"), *edges = tcase_create ("edges");
  tcase_add_test (known, on_a_plane_the_ground_is_the_plane);
  tcase_add_test (known, it_reaches_from_one_edge_of_the_drawing_to_the_other);
  tcase_add_test (known, what_lies_on_top_follows_one_another_along_the_line);
  tcase_add_test (known, the_spread_holds_nine_balls_in_ten);
  tcase_add_test (known, the_track_is_that_of_the_flight);
  tcase_add_test (known, a_tree_is_passed_lowest_where_its_clearance_says);
  tcase_add_test (known, how_a_ball_passes_a_tree_goes_by_its_clearance);
  tcase_add_test (known, the_first_trouble_ahead_of_the_ball_is_named);
  tcase_add_test (known, the_hole_is_dropped_onto_the_line_to_the_aim);
  tcase_add_test (invariants, every_track_comes_down_on_the_ground);
  tcase_add_test (invariants, a_mirrored_hole_gives_the_same_section);
  tcase_add_test (invariants, landing_and_rest_are_the_patterns_along_the_line);
  tcase_add_test (edges, trees_beside_the_line_and_beyond_the_fan_are_told_apart);
  tcase_add_test (edges, without_a_hole_trees_or_trouble_it_says_so);
  tcase_add_test (edges, a_club_without_spread_has_one_track);
  tcase_add_test (edges, a_ball_off_the_drawing_still_has_a_section);
  suite_add_tcase (suite, known);
  suite_add_tcase (suite, invariants);
  suite_add_tcase (suite, edges);
  return suite;
}
