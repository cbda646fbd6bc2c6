// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: what to start a shot at and where it finishes, as landmarks and in words. */
#include "odds.h"
#include "suite.h"

#define EXACT_M 1e-9
#define DEGREE (PI / 180)

static const Club iron = { .name = (char *)"iron", .carry_m = 180, .carry_sd_m = 6, .side_sd_m = 10 };

static const Part *
point_of (Kind kind, const char *name, double x, double y)
{
  Part *part = part_new (kind);
  part->at = vec2 (x, y);
  part->name = g_strdup (name);
  return part_seal (part);
}

static const Part *
box_of (Kind kind, const char *name, Box box)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, box, 0, 0);
  part->name = g_strdup (name);
  return part_seal (part);
}

typedef struct
{
  Hole *hole;
  ShotResult shot;
  Sights sights;
} Seen;

/* From (0,0) towards (0,200), the start line turned so far to the left, the landing so far to the right of the line to the aim. */
static Seen
seen_with (const Part *const *parts, size_t n_parts, double start_left_rad, double landing_right_m)
{
  HoleInfo info;
  hole_info_init (&info);
  Seen seen = { .hole = hole_new (&info, parts, n_parts, NULL) };
  ShotInput input = { .aim = { 0, 200 }, .club = &iron, .swing = 1 };
  ck_assert (odds_shot (seen.hole, NULL, &input, &seen.shot, NULL));
  seen.shot.start = vec2 (-sin (start_left_rad), cos (start_left_rad));
  seen.shot.landing = vec2 (landing_right_m, 180);
  seen.sights = odds_sights (seen.hole, NULL, &seen.shot);
  return seen;
}

static void
assert_words (Seen *seen, const char *words)
{
  g_autofree char *said = sights_words (seen->hole, &seen->sights, UNIT_METRES, NULL);
  ck_assert_str_eq (said, words);
  hole_unref (seen->hole);
}

/* ---- known answers ---- */

START_TEST (a_line_past_a_tree_is_told_by_how_far_beside_it)
{
  const Part *parts[] = { point_of (KIND_TREE, "oak", 5, 150) };
  Seen seen = seen_with (parts, 1, 0, 0);
  ck_assert_int_eq (seen.sights.start.of, SIGHT_WHOLE);
  ck_assert_uint_eq (seen.sights.start.part, 0);
  ck_assert_double_eq_tol (seen.sights.start.distance_m, 150, EXACT_M);
  ck_assert_double_eq_tol (seen.sights.start.right_m, -5, EXACT_M);
  ck_assert (seen.sights.is_straight);
  assert_words (&seen, "Start it 5 m left of the oak (150 m)");
}
END_TEST

START_TEST (a_fade_starts_at_one_landmark_and_finishes_at_another)
{
  /* 3 degrees left at 150 m: 7.86 m. */
  const Part *parts[] = { point_of (KIND_MARK, "the white post", -7.9, 150), point_of (KIND_HOLE_LOCATION, "front", 4, 200) };
  Seen seen = seen_with (parts, 2, 3 * DEGREE, 0);
  ck_assert (!seen.sights.is_straight);
  assert_words (&seen, "Start it at the white post (150 m), finish 4 m left of the flag (200 m)");
}
END_TEST

START_TEST (an_area_that_looks_wide_is_told_by_its_edge_and_a_narrow_one_as_a_whole)
{
  const Part *wide[] = { box_of (KIND_BUNKER, NULL, (Box){ -20, 195, 1, 200 }) };
  Seen edge = seen_with (wide, 1, 0, 0);
  ck_assert_int_eq (edge.sights.start.of, SIGHT_RIGHT_EDGE);
  assert_words (&edge, "Start it at the right edge of the bunker (195 m)");
  const Part *other[] = { box_of (KIND_BUNKER, "Big Sand", (Box){ 4, 195, 30, 200 }) };
  Seen left = seen_with (other, 1, 0, 0);
  ck_assert_int_eq (left.sights.start.of, SIGHT_LEFT_EDGE);
  assert_words (&left, "Start it 4 m left of the left edge of Big Sand (200 m)");
  const Part *narrow[] = { box_of (KIND_BUILDING, NULL, (Box){ 3, 240, 7, 244 }) };
  Seen whole = seen_with (narrow, 1, 0, 0);
  assert_words (&whole, "Start it 5 m left of the building (242 m)");
  const Part *middle[] = { box_of (KIND_WATER, NULL, (Box){ -10, 200, 10, 210 }) };
  Seen between = seen_with (middle, 1, 0, 0);
  assert_words (&between, "Start it at the middle of the water (200 m)");
}
END_TEST

START_TEST (the_finish_is_told_across_the_fairway_that_the_ball_comes_down_on)
{
  /* The fairway runs from beneath the ball to 300 m, so its ends are no landmarks, but its edges beside the landing are. */
  const Part *parts[] = { box_of (KIND_FAIRWAY, NULL, (Box){ -20, -5, 20, 300 }) };
  Seen right = seen_with (parts, 1, 3 * DEGREE, 17);
  ck_assert_int_eq (right.sights.finish.of, SIGHT_RIGHT_EDGE);
  hole_unref (right.hole);
  const Part *again[] = { box_of (KIND_FAIRWAY, NULL, (Box){ -20, -5, 20, 300 }) };
  Seen middle = seen_with (again, 1, 3 * DEGREE, 0);
  /* Nothing is near the start line: 3 degrees left of the aim at 200 m. */
  ck_assert_int_eq (middle.sights.start.of, SIGHT_AIM);
  ck_assert_double_eq_tol (middle.sights.start.right_m, -200 * sin (3 * DEGREE), EXACT_M);
  assert_words (&middle, "Start it 10 m left of the aim (200 m), finish at the middle of the fairway (180 m)");
}
END_TEST

START_TEST (a_landmark_with_a_name_wins_over_one_without_that_is_hardly_nearer)
{
  /* At 200 m half a degree is 1.7 m. */
  const Part *parts[] = { point_of (KIND_TREE, NULL, 2, 200), point_of (KIND_TREE, "oak", -3, 200) };
  Seen seen = seen_with (parts, 2, 0, 0);
  ck_assert_uint_eq (seen.sights.start.part, 1);
  hole_unref (seen.hole);
  const Part *far[] = { point_of (KIND_TREE, NULL, 2, 200), point_of (KIND_TREE, "oak", -5, 200) };
  Seen other = seen_with (far, 2, 0, 0);
  ck_assert_uint_eq (other.sights.start.part, 0);
  hole_unref (other.hole);
}
END_TEST

static const char *
shouting (const char *text)
{
  return g_str_equal (text, "the aim") ? "THE AIM" : text;
}

START_TEST (one_tree_without_a_name_is_told_by_its_distance_and_of_several_none)
{
  const Part *one[] = { point_of (KIND_TREE, NULL, -5, 150) };
  Seen alone = seen_with (one, 1, 0, 0);
  assert_words (&alone, "Start it 5 m right of the tree 150 m out");
  const Part *ahead[] = { point_of (KIND_TREE, NULL, 0, 180) };
  Seen straight = seen_with (ahead, 1, 0, 0);
  assert_words (&straight, "Start it at the tree 180 m out");
  /* One far to the side is no other that it could be taken for. */
  const Part *several[] = { point_of (KIND_TREE, NULL, 0, 180), point_of (KIND_TREE, NULL, 8, 150), point_of (KIND_TREE, "oak", 10, 170) },
             *aside[] = { point_of (KIND_TREE, NULL, 0, 180), point_of (KIND_TREE, NULL, 80, 150) };
  Seen many = seen_with (several, 3, 0, 0), two = seen_with (aside, 2, 0, 0);
  assert_words (&many, "Start it 10 m left of the oak (170 m)");
  assert_words (&two, "Start it at the tree 180 m out");
}
END_TEST

START_TEST (the_words_go_through_the_golfer_s_language_and_units)
{
  Seen seen = seen_with (NULL, 0, 0, 0);
  g_autofree char *said = sights_words (seen.hole, &seen.sights, UNIT_YARDS, shouting);
  ck_assert_str_eq (said, "Start it at THE AIM (219 yd)");
  hole_unref (seen.hole);
}
END_TEST

/* ---- invariants ---- */

START_TEST (a_mirrored_hole_gives_mirrored_sights)
{
  const double xs[] = { -9, -2, 6, 12 };
  for (int i = 0; i < 4; i++)
    {
      const Part *here[] = { point_of (KIND_TREE, "oak", xs[i], 170), box_of (KIND_BUNKER, NULL, (Box){ 8, 140, 30, 150 }) };
      const Part *there[]
          = { point_of (KIND_TREE, "oak", -xs[i], 170), box_of (KIND_BUNKER, NULL, (Box){ -30, 140, -8, 150 }) };
      Seen one = seen_with (here, 2, 2 * DEGREE, 4), other = seen_with (there, 2, -2 * DEGREE, -4);
      const Sight *pairs[][2] = { { &one.sights.start, &other.sights.start }, { &one.sights.finish, &other.sights.finish } };
      for (int k = 0; k < 2; k++)
        {
          ck_assert_uint_eq (pairs[k][0]->part, pairs[k][1]->part);
          ck_assert_double_eq_tol (pairs[k][0]->distance_m, pairs[k][1]->distance_m, EXACT_M);
          ck_assert_double_eq_tol (pairs[k][0]->right_m, -pairs[k][1]->right_m, EXACT_M);
        }
      hole_unref (one.hole);
      hole_unref (other.hole);
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (what_is_behind_beside_or_under_the_golfer_is_no_landmark)
{
  const Part *parts[]
      = { point_of (KIND_MARK, "behind", 0, -150),       point_of (KIND_MARK, "beside", 0, SIGHT_LEAST_M - 1),
          point_of (KIND_MARK, "far off", 30, 150),      point_of (KIND_MARK, NULL, 0, 150),
          point_of (KIND_SPOT_HEIGHT, "height", 0, 150), box_of (KIND_TREES, "wood", (Box){ -50, -50, 50, 100 }) };
  Seen seen = seen_with (parts, G_N_ELEMENTS (parts), 0, 0);
  ck_assert_int_eq (seen.sights.start.of, SIGHT_AIM);
  assert_words (&seen, "Start it at the aim (200 m)");
}
END_TEST

START_TEST (an_area_without_an_outline_and_the_other_hole_locations_are_passed_over)
{
  Part *nothing = part_new (KIND_BUNKER);
  const Part *parts[]
      = { part_seal (nothing), point_of (KIND_HOLE_LOCATION, "front", 12, 190), point_of (KIND_HOLE_LOCATION, "back", 0, 200) };
  Seen seen = seen_with (parts, G_N_ELEMENTS (parts), 0, 0);
  ck_assert_uint_eq (seen.sights.start.part, 1);
  Sights other = odds_sights (seen.hole, "back", &seen.shot);
  ck_assert_uint_eq (other.start.part, 2);
  hole_unref (seen.hole);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-sights");
  TCase *known = tcase_create ("known answers"), *edges = tcase_create ("edges");
  tcase_add_test (known, a_line_past_a_tree_is_told_by_how_far_beside_it);
  tcase_add_test (known, a_fade_starts_at_one_landmark_and_finishes_at_another);
  tcase_add_test (known, an_area_that_looks_wide_is_told_by_its_edge_and_a_narrow_one_as_a_whole);
  tcase_add_test (known, the_finish_is_told_across_the_fairway_that_the_ball_comes_down_on);
  tcase_add_test (known, a_landmark_with_a_name_wins_over_one_without_that_is_hardly_nearer);
  tcase_add_test (known, one_tree_without_a_name_is_told_by_its_distance_and_of_several_none);
  tcase_add_test (known, the_words_go_through_the_golfer_s_language_and_units);
  tcase_add_test (known, a_mirrored_hole_gives_mirrored_sights);
  tcase_add_test (edges, what_is_behind_beside_or_under_the_golfer_is_no_landmark);
  tcase_add_test (edges, an_area_without_an_outline_and_the_other_hole_locations_are_passed_over);
  suite_add_tcase (suite, known);
  suite_add_tcase (suite, edges);
  return suite;
}
