// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: what the lie of a ball and the ground under it do to a shot. */
#include "odds.h"
#include "suite.h"

#include <string.h>

#define EXACT_M 1e-9
/* What the flight's landings are true to, and a few of them added up. */
#define LANDING_M 5e-3
#define DEGREE (PI / 180)

static const Club driver
    = { .name = (char *)"driver", .carry_m = 210, .carry_sd_m = 7, .side_sd_m = 13, .loft_deg = 10.5, .apex_m = NAN };
static const Club iron = {
  .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 5, .side_sd_m = 6, .loft_deg = 32, .apex_m = NAN, .correlation = 0.3
};
static const Club wedge
    = { .name = (char *)"wedge", .carry_m = 80, .carry_sd_m = 4, .side_sd_m = 4, .loft_deg = 54, .apex_m = NAN };
static const Club *const clubs[] = { &driver, &iron, &wedge };

/* Ground of one kind, a plane that rises by so much for each metre to the right and up the hole. */
static Hole *
plane_of (Kind ground, double right, double up)
{
  const double far_m = 600;
  const Part *parts[4];
  for (int i = 0; i < 4; i++)
    {
      Part *part = part_new (KIND_SPOT_HEIGHT);
      part->at = vec2 (i % 2 ? far_m : -far_m, i / 2 ? far_m : -far_m);
      part->height_m = right * part->at.x + up * part->at.y;
      parts[i] = part_seal (part);
    }
  HoleInfo info;
  hole_info_init (&info);
  info.up_bearing_deg = 0;
  info.ground = ground;
  info.datum = g_strdup ("gate");
  Hole *hole = hole_new (&info, parts, right == 0 && up == 0 ? 0 : 4, NULL);
  for (int i = 0; right == 0 && up == 0 && i < 4; i++)
    part_unref (parts[i]);
  hole_info_clear (&info);
  return hole;
}

static ShotResult
fly_from (const Hole *hole, const Club *club, const LieTable *lies, const Conditions *conditions, double swing)
{
  ShotInput input = { .aim = { 0, 150 }, .club = club, .swing = swing, .curve_m = NAN, .conditions = conditions, .lies = lies };
  ShotResult shot;
  g_autoptr (GError) error = NULL;
  ck_assert_msg (odds_shot (hole, NULL, &input, &shot, &error), "%s", error != NULL ? error->message : "");
  return shot;
}

static ShotResult
fly_off (Kind ground, const Club *club)
{
  g_autoptr (Hole) hole = plane_of (ground, 0, 0);
  LieTable lies = lie_table_usual ();
  return fly_from (hole, club, &lies, NULL, 1);
}

static ShotResult
fly_on_slope (const Club *club, const LieTable *lies, double right, double up)
{
  g_autoptr (Hole) hole = plane_of (KIND_FAIRWAY, right, up);
  return fly_from (hole, club, lies, NULL, 1);
}

/* ---- known answers ---- */

START_TEST (on_a_still_level_day_the_carry_is_the_table_s_share_of_the_club_s_and_so_are_its_spreads)
{
  const Kind grounds[] = { KIND_FIRST_CUT, KIND_ROUGH, KIND_DEEP_ROUGH, KIND_BUNKER, KIND_WASTE, KIND_TREES };
  LieTable lies = lie_table_usual ();
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    for (size_t c = 0; c < G_N_ELEMENTS (clubs); c++)
      {
        ShotResult shot = fly_off (grounds[g], clubs[c]);
        LieEffect effect = lie_effect_on (&lies, kind_info (grounds[g])->lie, clubs[c]);
        ck_assert_int_eq (shot.lie, kind_info (grounds[g])->lie);
        ck_assert_mem_eq (&shot.effect, &effect, sizeof effect);
        ck_assert_double_eq_tol (shot.carry_m, effect.carry_factor * clubs[c]->carry_m, EXACT_M);
        ck_assert_double_eq_tol (flight_landing (&shot.flight).at.y, shot.carry_m, LANDING_M);
        ck_assert_double_eq_tol (shot.pattern.long_sd_m, effect.long_factor * clubs[c]->carry_sd_m, EXACT_M);
        ck_assert_double_eq_tol (shot.pattern.side_sd_m, effect.side_factor * clubs[c]->side_sd_m, EXACT_M);
        ck_assert_double_eq (shot.pattern.correlation, clubs[c]->correlation);
      }
}
END_TEST

START_TEST (from_the_rough_the_ball_spins_less_and_runs_on_farther)
{
  g_autoptr (Hole) hole = plane_of (KIND_FAIRWAY, 0, 0);
  LieTable usual = lie_table_usual (), dull = usual;
  dull.effects[LIE_FAIRWAY].spin_factor = usual.effects[LIE_ROUGH].spin_factor;
  ShotResult clean = fly_from (hole, &iron, &usual, NULL, 1), grassy = fly_from (hole, &iron, &dull, NULL, 1);
  ck_assert_double_eq_tol (grassy.carry_m, clean.carry_m, EXACT_M);
  ck_assert_double_lt (flight_landing (&grassy.flight).spin_radps, 0.8 * flight_landing (&clean.flight).spin_radps);
  ck_assert_double_gt (grassy.run_m, clean.run_m + 1);
}
END_TEST

START_TEST (a_swing_turned_by_the_ground_turns_the_whole_flight)
{
  /* Uphill by s: the ball starts s higher. Beside it by s: a launch of angle a starts atan (tan a sin s) off, the same solid geometry as a face of that loft
     on a shaft leant by s; and its spin axis leans by s or a little less. */
  LieTable lies = lie_table_usual ();
  ShotResult level = fly_on_slope (&iron, &lies, 0, 0);
  FlightPoint from = level.flight.points[0];
  double angle_rad = atan2 (from.vz_mps, vec2_length (from.v_mps)), slope_rad = 6 * DEGREE;

  ShotResult up = fly_on_slope (&iron, &lies, 0, tan (slope_rad));
  FlightPoint raised = up.flight.points[0];
  ck_assert_double_eq_tol (up.stance_up_rad, slope_rad, 1e-6);
  ck_assert_double_eq_tol (up.stance_right_rad, 0, 1e-6);
  ck_assert_double_eq_tol (atan2 (raised.vz_mps, vec2_length (raised.v_mps)), angle_rad + slope_rad, 1e-6);

  ShotResult beside = fly_on_slope (&iron, &lies, tan (slope_rad), 0);
  FlightPoint turned = beside.flight.points[0];
  ck_assert_double_eq_tol (beside.stance_right_rad, slope_rad, 1e-6);
  ck_assert_double_eq_tol (atan2 (-turned.v_mps.x, turned.v_mps.y), atan (tan (angle_rad) * sin (slope_rad)), 1e-6);
  ck_assert_double_eq_tol (-beside.start.x, sin (atan (tan (angle_rad) * sin (slope_rad))), 1e-6);
  /* It curves on to the left of where it started. */
  ck_assert_double_lt (vec2_cross (beside.landing, beside.start), -1);
}
END_TEST

START_TEST (a_slope_does_to_the_ball_what_golfers_know)
{
  /* Common practice: from an upslope higher, from a downslope lower and running on; ball above a right-hander's feet goes left, below them right, a wedge
     more than a driver for its distance. */
  LieTable lies = lie_table_usual ();
  ShotResult level = fly_on_slope (&iron, &lies, 0, 0);
  double before = 0;
  for (int percent = -12; percent <= 12; percent += 4)
    {
      ShotResult shot = fly_on_slope (&iron, &lies, 0, percent / 100.0);
      ck_assert (percent == 0 || (percent > 0) == (shot.apex_m - shot.rise_m / 2 > level.apex_m));
      ck_assert_double_gt (shot.apex_m, before);
      before = shot.apex_m;
    }
  ShotResult above = fly_on_slope (&iron, &lies, 0.1, 0), below = fly_on_slope (&iron, &lies, -0.1, 0);
  ck_assert_double_lt (above.landing.x, -5);
  ck_assert_double_eq_tol (above.landing.x, -below.landing.x, LANDING_M);
  ShotResult short_one = fly_on_slope (&wedge, &lies, 0.1, 0), long_one = fly_on_slope (&driver, &lies, 0.1, 0);
  ck_assert_double_lt (short_one.start.x, long_one.start.x);
}
END_TEST

START_TEST (a_driver_from_sand_or_deep_rough_is_played_but_goes_no_farther_than_an_iron)
{
  ck_assert_double_lt (fly_off (KIND_BUNKER, &driver).carry_m, fly_off (KIND_BUNKER, &iron).carry_m);
  ck_assert_double_lt (fly_off (KIND_DEEP_ROUGH, &driver).carry_m, fly_off (KIND_DEEP_ROUGH, &iron).carry_m);
  ck_assert_double_gt (fly_off (KIND_DEEP_ROUGH, &driver).carry_m, 20);
}
END_TEST

START_TEST (from_the_rough_an_aim_plays_longer_and_the_fitted_swing_lands_on_it)
{
  LieTable lies = lie_table_usual ();
  Conditions windy = conditions_standard ();
  windy.wind = (Wind){ { 2, -4 }, ROUGHNESS_GRASS_M };
  const Conditions *const days[] = { NULL, &windy };
  for (size_t d = 0; d < G_N_ELEMENTS (days); d++)
    {
      g_autoptr (Hole) hole = plane_of (KIND_ROUGH, 0, d * 0.02);
      ShotInput input = { .aim = { 0, 100 }, .club = &iron, .swing = 1, .curve_m = NAN, .conditions = days[d], .lies = &lies };
      ShotResult full, fitted;
      ck_assert (odds_shot (hole, NULL, &input, &full, NULL));
      if (d == 0)
        ck_assert_double_eq_tol (full.plays_m, 100 / lies.effects[LIE_ROUGH].carry_factor, EXACT_M);
      input.swing = odds_fit_swing (&iron, full.plays_m);
      ck_assert (odds_shot (hole, NULL, &input, &fitted, NULL));
      ck_assert_double_eq_tol (fitted.carry_m, 100, d == 0 ? EXACT_M : 1.0);
      ck_assert_double_eq_tol (fitted.plays_m, full.plays_m, 0.5);
    }
}
END_TEST

static Bag *
small_bag (void)
{
  static const char csv[]
      = "club,carry_m,loft_deg,surfaces\ndriver,210,10.5,tee\n3 wood,190,15,\n5 iron,160,26,\n7 iron,140,32,\n9 iron,120,42,\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (csv, strlen (csv));
  return bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
}

START_TEST (clubs_and_their_choice_know_the_lie)
{
  g_autoptr (Bag) bag = small_bag ();
  g_autoptr (Hole) rough = plane_of (KIND_ROUGH, 0, 0), mown = plane_of (KIND_FAIRWAY, 0, 0);
  ClubToday there[5], here[5];
  double swing;
  odds_clubs_today (rough, vec2 (0, 0), vec2 (0, 140), bag, NULL, there);
  odds_clubs_today (mown, vec2 (0, 0), vec2 (0, 140), bag, NULL, here);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      LieEffect effect = lie_effect_on (bag_lies (bag), LIE_ROUGH, bag_club (bag, i));
      ck_assert_double_eq_tol (here[i].carry_m, bag_club (bag, i)->carry_m, EXACT_M);
      ck_assert_double_eq_tol (there[i].carry_m, effect.carry_factor * here[i].carry_m, EXACT_M);
      ck_assert_double_eq_tol (there[i].high_m - there[i].low_m, effect.long_factor * (here[i].high_m - here[i].low_m),
                               EXACT_M);
    }
  ck_assert_str_eq (odds_choose_club (mown, vec2 (0, 0), vec2 (0, 145), bag, NULL, false, &swing)->name, "7 iron");
  ck_assert_str_eq (odds_choose_club (rough, vec2 (0, 0), vec2 (0, 145), bag, NULL, false, &swing)->name, "5 iron");
  LieTable clean = lie_table_usual ();
  clean.effects[LIE_ROUGH] = clean.effects[LIE_FAIRWAY];
  g_autoptr (Bag) strong = bag_with_lies (bag, &clean);
  ck_assert_str_eq (odds_choose_club (rough, vec2 (0, 0), vec2 (0, 145), strong, NULL, false, &swing)->name, "7 iron");
}
END_TEST

/* ---- invariants ---- */

static void
assert_same_shot (const ShotResult *a, const ShotResult *b)
{
  ck_assert_double_eq (a->carry_m, b->carry_m);
  ck_assert_double_eq (a->plays_m, b->plays_m);
  ck_assert_double_eq (a->rest.x, b->rest.x);
  ck_assert_double_eq (a->rest.y, b->rest.y);
  ck_assert_double_eq (a->pattern.long_sd_m, b->pattern.long_sd_m);
  ck_assert_double_eq (a->pattern.side_sd_m, b->pattern.side_sd_m);
}

START_TEST (from_the_tee_and_the_level_fairway_nothing_changes)
{
  LieTable lies = lie_table_usual ();
  Conditions windy = conditions_standard ();
  windy.wind = (Wind){ { 3, -4 }, ROUGHNESS_GRASS_M };
  for (size_t c = 0; c < G_N_ELEMENTS (clubs); c++)
    {
      g_autoptr (Hole) fairway = plane_of (KIND_FAIRWAY, 0, 0), tee = plane_of (KIND_TEE, 0.03, 0.05);
      ShotResult with = fly_from (fairway, clubs[c], &lies, &windy, 0.9),
                 without = fly_from (fairway, clubs[c], NULL, &windy, 0.9);
      assert_same_shot (&with, &without);
      with = fly_from (tee, clubs[c], &lies, &windy, 1), without = fly_from (tee, clubs[c], NULL, &windy, 1);
      assert_same_shot (&with, &without);
    }
}
END_TEST

START_TEST (more_grass_never_carries_farther_and_never_scatters_less)
{
  const Kind growing[] = { KIND_FAIRWAY, KIND_FIRST_CUT, KIND_ROUGH, KIND_DEEP_ROUGH };
  for (size_t c = 0; c < G_N_ELEMENTS (clubs); c++)
    for (size_t g = 1; g < G_N_ELEMENTS (growing); g++)
      {
        ShotResult thin = fly_off (growing[g - 1], clubs[c]), thick = fly_off (growing[g], clubs[c]);
        ck_assert_double_lt (thick.carry_m, thin.carry_m);
        ck_assert_double_gt (thick.pattern.long_sd_m, thin.pattern.long_sd_m);
        ck_assert_double_gt (thick.pattern.side_sd_m, thin.pattern.side_sd_m);
        ck_assert_double_gt (thick.plays_m, thin.plays_m);
      }
}
END_TEST

START_TEST (the_carry_grows_with_the_table_s_share)
{
  g_autoptr (Hole) hole = plane_of (KIND_ROUGH, 0.02, 0.01);
  LieTable lies = lie_table_usual ();
  double before = 0;
  for (double share = 0.3; share <= 1.2; share += 0.1)
    {
      lies.effects[LIE_ROUGH].carry_factor = share;
      ShotResult shot = fly_from (hole, &iron, &lies, NULL, 1);
      ck_assert_double_gt (shot.carry_m, before);
      before = shot.carry_m;
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (on_a_cliff_the_swing_turns_no_farther_than_anyone_can_stand)
{
  LieTable lies = lie_table_usual ();
  const double slopes[][2] = { { 0, 3 }, { 0, -3 }, { 3, 0 }, { -3, 0 }, { -2, -2 } };
  for (size_t i = 0; i < G_N_ELEMENTS (slopes); i++)
    for (size_t c = 0; c < G_N_ELEMENTS (clubs); c++)
      {
        g_autoptr (Hole) hole = plane_of (KIND_FAIRWAY, slopes[i][0], slopes[i][1]);
        ShotInput input = { .aim = { 0, 150 }, .club = clubs[c], .swing = 1, .curve_m = NAN, .lies = &lies };
        ShotResult shot;
        g_autoptr (GError) error = NULL;
        if (!odds_shot (hole, NULL, &input, &shot, &error))
          ck_assert_ptr_nonnull (error);
        else
          ck_assert (isfinite (shot.carry_m) && isfinite (shot.rest.x) && isfinite (shot.rest.y) && isfinite (shot.plays_m));
      }
}
END_TEST

START_TEST (the_worst_figures_that_a_table_takes_still_make_a_shot)
{
  g_autoptr (Hole) hole = plane_of (KIND_ROUGH, 0, 0);
  LieTable lies = lie_table_usual ();
  lies.effects[LIE_ROUGH] = (LieEffect){ .carry_factor = 0.1,
                                         .long_factor = 10,
                                         .side_factor = 10,
                                         .spin_factor = 0.1,
                                         .least_loft_rad = 64 * DEGREE,
                                         .lacking_loss = 0.2 / DEGREE,
                                         .stance_share = 1 };
  for (size_t c = 0; c < G_N_ELEMENTS (clubs); c++)
    {
      double factor = lie_effect_on (&lies, LIE_ROUGH, clubs[c]).carry_factor;
      ShotResult shot = fly_from (hole, clubs[c], &lies, NULL, 1);
      ck_assert_double_eq_tol (shot.carry_m, factor * clubs[c]->carry_m, EXACT_M);
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-lies");
  const struct
  {
    const char *name;
    const TTest *tests[8];
  } cases[] = {
    { "known answers",
      { on_a_still_level_day_the_carry_is_the_table_s_share_of_the_club_s_and_so_are_its_spreads,
        from_the_rough_the_ball_spins_less_and_runs_on_farther, a_swing_turned_by_the_ground_turns_the_whole_flight,
        a_slope_does_to_the_ball_what_golfers_know, a_driver_from_sand_or_deep_rough_is_played_but_goes_no_farther_than_an_iron,
        from_the_rough_an_aim_plays_longer_and_the_fitted_swing_lands_on_it, clubs_and_their_choice_know_the_lie } },
    { "invariants",
      { from_the_tee_and_the_level_fairway_nothing_changes, more_grass_never_carries_farther_and_never_scatters_less,
        the_carry_grows_with_the_table_s_share } },
    { "edges",
      { on_a_cliff_the_swing_turns_no_farther_than_anyone_can_stand, the_worst_figures_that_a_table_takes_still_make_a_shot } },
  };
  for (size_t c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      TCase *tcase = tcase_create (cases[c].name);
      for (size_t t = 0; t < G_N_ELEMENTS (cases[c].tests) && cases[c].tests[t] != NULL; t++)
        tcase_add_test (tcase, cases[c].tests[t]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
