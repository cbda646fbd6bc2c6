// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: where on the drawing the odds of a shot are written. */
#include "drawn.h"
#include "odds-places.h"
#include "suite.h"

/* A decimetre or two, as the header says, at ten metres or so. */
#define PLACE_M 0.4

static const Club iron
    = { .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 5, .side_sd_m = 6, .loft_deg = 32, .apex_m = NAN };

typedef struct
{
  Hole *hole;
  ShotResult shot;
  OddsTable *odds;
  OddsPlace places[8];
  size_t n;
} Stage;

static void
set_up (Stage *stage, const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  stage->hole = hole_new (&info, parts, n_parts, NULL);
  hole_info_clear (&info);
  ShotInput input = { .aim = { 0, 140 }, .club = &iron, .swing = 1 };
  ck_assert (odds_shot (stage->hole, NULL, &input, &stage->shot, NULL));
  stage->odds = odds_table_new (stage->hole, &stage->shot, NULL);
  ck_assert_ptr_nonnull (stage->odds);
  stage->n = odds_places (stage->hole, &stage->shot, stage->odds, stage->places, G_N_ELEMENTS (stage->places));
}

static void
tear_down (Stage *stage)
{
  odds_table_free (stage->odds);
  hole_unref (stage->hole);
}

static const OddsPlace *
place_on (const Stage *stage, int part)
{
  for (size_t i = 0; i < stage->n; i++)
    if (stage->places[i].part == part)
      return &stage->places[i];
  return NULL;
}

START_TEST (an_area_under_the_mean_is_written_there_and_one_beside_it_at_its_near_edge)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -40, 0, 40, 300 }), rectangle (KIND_BUNKER, (Box){ 8, 100, 30, 250 }) };
  Stage stage;
  set_up (&stage, parts, 2);
  const OddsPlace *fairway = place_on (&stage, 0), *sand = place_on (&stage, 1);
  ck_assert (fairway != NULL && sand != NULL);
  ck_assert_double_eq_tol (vec2_distance (fairway->at, stage.shot.rest_pattern.mean), 0, 1e-9);
  ck_assert_double_eq_tol (sand->at.x, 8, PLACE_M);
  ck_assert_int_eq (hole_area_at (stage.hole, sand->at), 1);
  tear_down (&stage);
}
END_TEST

START_TEST (trouble_comes_first_and_each_has_the_chance_of_the_odds)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -12, 0, 12, 300 }), rectangle (KIND_BUNKER, (Box){ 12, 100, 15, 250 }),
          rectangle (KIND_WATER, (Box){ -30, 100, -10, 250 }) };
  Stage stage;
  set_up (&stage, parts, 3);
  ck_assert_uint_ge (stage.n, 4); /* and the ground */
  ck_assert (place_on (&stage, -1) != NULL);
  for (size_t i = 0; i < stage.n; i++)
    {
      double rest = -1;
      for (size_t k = 0; k < stage.odds->n_rows; k++)
        if (stage.odds->rows[k].part == stage.places[i].part)
          rest = stage.odds->rows[k].rest;
      ck_assert_double_eq (stage.places[i].chance, rest);
      ck_assert_int_eq (hole_area_at (stage.hole, stage.places[i].at), stage.places[i].part);
    }
  ck_assert (kind_info (stage.places[0].kind)->is_trouble && kind_info (stage.places[1].kind)->is_trouble);
  ck_assert (!kind_info (stage.places[2].kind)->is_trouble);
  ck_assert_double_ge (stage.places[0].chance, stage.places[1].chance);
  tear_down (&stage);
}
END_TEST

START_TEST (the_place_follows_the_mirror)
{
  const Part *here[] = { rectangle (KIND_BUNKER, (Box){ 7, 100, 30, 139 }) },
             *there[] = { rectangle (KIND_BUNKER, (Box){ -30, 100, -7, 139 }) };
  Stage one, other;
  set_up (&one, here, 1);
  set_up (&other, there, 1);
  ck_assert (place_on (&one, 0) != NULL && place_on (&other, 0) != NULL);
  ck_assert_double_eq_tol (place_on (&one, 0)->at.x, -place_on (&other, 0)->at.x, PLACE_M);
  ck_assert_double_eq_tol (place_on (&one, 0)->at.y, place_on (&other, 0)->at.y, PLACE_M);
  tear_down (&one);
  tear_down (&other);
}
END_TEST

START_TEST (a_ditch_that_balls_stay_in_short_of_where_they_would_rest_has_its_place)
{
  /* Of balls that come down on a strip of water before the mean some stay; the pattern at rest lies beyond it, and is narrower. */
  const Part *parts[] = { rectangle (KIND_WATER, (Box){ -100, 128, 100, 131 }) };
  Stage stage;
  set_up (&stage, parts, 1);
  const OddsPlace *ditch = place_on (&stage, 0);
  ck_assert_ptr_nonnull (ditch);
  ck_assert_double_eq_tol (ditch->at.y, 131, PLACE_M);
  tear_down (&stage);
}
END_TEST

START_TEST (no_more_than_there_is_room_for_are_told_and_nothing_far_away)
{
  const Part *parts[]
      = { rectangle (KIND_BUNKER, (Box){ 8, 100, 30, 250 }), rectangle (KIND_WATER, (Box){ 300, 0, 400, 100 }) };
  Stage stage;
  set_up (&stage, parts, 2);
  ck_assert_ptr_null (place_on (&stage, 1));
  OddsPlace one[1];
  ck_assert_uint_eq (odds_places (stage.hole, &stage.shot, stage.odds, one, 1), 1);
  ck_assert_int_eq (one[0].part, 0);
  ck_assert_uint_eq (odds_places (stage.hole, &stage.shot, stage.odds, one, 0), 0);
  tear_down (&stage);
}
END_TEST

START_TEST (a_pattern_without_width_has_its_one_place)
{
  Stage stage;
  set_up (&stage, NULL, 0);
  stage.shot.rest_pattern.long_sd_m = stage.shot.rest_pattern.side_sd_m = 0;
  OddsPlace one[1];
  ck_assert_uint_eq (odds_places (stage.hole, &stage.shot, stage.odds, one, 1), 1);
  ck_assert_double_eq_tol (vec2_distance (one[0].at, stage.shot.rest_pattern.mean), 0, 1e-9);
  tear_down (&stage);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-places");
  TCase *tcase = tcase_create ("places");
  const TTest *const tests[] = { an_area_under_the_mean_is_written_there_and_one_beside_it_at_its_near_edge,
                                 trouble_comes_first_and_each_has_the_chance_of_the_odds,
                                 the_place_follows_the_mirror,
                                 a_ditch_that_balls_stay_in_short_of_where_they_would_rest_has_its_place,
                                 no_more_than_there_is_room_for_are_told_and_nothing_far_away,
                                 a_pattern_without_width_has_its_one_place };
  for (size_t i = 0; i < G_N_ELEMENTS (tests); i++)
    tcase_add_test (tcase, tests[i]);
  suite_add_tcase (suite, tcase);
  return suite;
}
