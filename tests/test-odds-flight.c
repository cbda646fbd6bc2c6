// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: shots in the wind, in thin air, on hills, and how they run. */
#include "example.h"
#include "odds.h"
#include "suite.h"
#include "units.h"

#include <string.h>

/* What the flight's landings are true to, and a few of them added up. */
#define LANDING_M 5e-3

static const Club driver
    = { .name = (char *)"driver", .carry_m = 228.6, .carry_sd_m = 7, .side_sd_m = 13, .loft_deg = 10.5, .apex_m = NAN };
static const Club iron = {
  .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 5, .side_sd_m = 6, .loft_deg = 32, .apex_m = NAN, .correlation = 0.3
};

/* Fairway everywhere and north at the top, with these heights on it: triples of x, y and height. */
static Hole *
hole_with_heights (Kind ground, const double (*heights)[3], size_t n_heights)
{
  const Part *parts[16];
  g_assert (n_heights <= G_N_ELEMENTS (parts));
  for (size_t i = 0; i < n_heights; i++)
    {
      Part *part = part_new (KIND_SPOT_HEIGHT);
      part->at = vec2 (heights[i][0], heights[i][1]);
      part->height_m = heights[i][2];
      parts[i] = part_seal (part);
    }
  HoleInfo info;
  hole_info_init (&info);
  info.up_bearing_deg = 0;
  info.ground = ground;
  info.datum = g_strdup ("gate");
  Hole *hole = hole_new (&info, parts, n_heights, NULL);
  hole_info_clear (&info);
  return hole;
}

static Hole *
level_hole (Kind ground)
{
  return hole_with_heights (ground, NULL, 0);
}

/* A plane that rises by `up` for each metre up the sheet and by `right` for each to the right. */
static Hole *
sloping_hole (double right, double up)
{
  const double corner_m = 600;
  const double heights[][3] = { { -corner_m, -corner_m, -corner_m * (right + up) },
                                { corner_m, -corner_m, corner_m * (right - up) },
                                { -corner_m, corner_m, corner_m * (up - right) },
                                { corner_m, corner_m, corner_m * (right + up) } };
  return hole_with_heights (KIND_FAIRWAY, heights, G_N_ELEMENTS (heights));
}

static Conditions
windy (Vec2 to_mps)
{
  Conditions conditions = conditions_standard ();
  conditions.wind = (Wind){ to_mps, ROUGHNESS_GRASS_M };
  return conditions;
}

static ShotResult
fly (const Hole *hole, const ShotInput *input)
{
  ShotResult shot;
  g_autoptr (GError) error = NULL;
  ck_assert_msg (odds_shot (hole, NULL, input, &shot, &error), "%s", error != NULL ? error->message : "");
  return shot;
}

/* Up the sheet from (0,0). */
static ShotResult
fly_up (const Hole *hole, const Club *club, const Conditions *conditions)
{
  ShotInput input = { .aim = { 0, 200 }, .club = club, .swing = 1, .curve_m = NAN, .conditions = conditions };
  return fly (hole, &input);
}

/* ---- known answers ---- */

START_TEST (model_golfers_roll_their_20_yards)
{
  /* Course Rating System: a scratch man drives 250 yd, a bogey man 200, of which 20 yd are roll (the split from a weak source), with the driver each
     would choose. */
  static const double drives[][3] = { { 230, 10.5, 5 }, { 180, 12, 10 } };
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  for (size_t i = 0; i < G_N_ELEMENTS (drives); i++)
    {
      Club club = driver;
      club.carry_m = drives[i][0] * METRES_PER_YARD;
      club.loft_deg = drives[i][1];
      ShotResult shot = fly_up (hole, &club, NULL);
      ck_assert_double_eq_tol (shot.run_m / METRES_PER_YARD, 20, drives[i][2]);
    }
}
END_TEST

START_TEST (a_ball_in_sand_stays_and_its_pattern_with_it)
{
  g_autoptr (Hole) hole = level_hole (KIND_BUNKER);
  ShotResult shot = fly_up (hole, &iron, NULL);
  ck_assert_double_eq (shot.run_m, 0);
  ck_assert_double_eq_tol (vec2_distance (shot.rest, shot.landing), 0, 1e-9);
  ck_assert_double_eq_tol (shot.rest_pattern.long_sd_m, 5, 1e-9);
  ck_assert_double_eq_tol (shot.rest_pattern.side_sd_m, 6, 1e-9);
  ck_assert_double_eq_tol (shot.rest_pattern.correlation, 0.3, 1e-9);
}
END_TEST

START_TEST (on_a_plane_every_ball_runs_alike_so_the_pattern_is_moved_whole)
{
  g_autoptr (Hole) hole = sloping_hole (0.02, -0.03);
  ShotResult shot = fly_up (hole, &iron, NULL);
  ck_assert_double_gt (shot.run_m, 1);
  ck_assert_double_eq_tol (shot.rest_pattern.long_sd_m, shot.pattern.long_sd_m, 0.02);
  ck_assert_double_eq_tol (shot.rest_pattern.side_sd_m, shot.pattern.side_sd_m, 0.02);
  ck_assert_double_eq_tol (vec2_distance (shot.rest_pattern.mean, shot.rest), 0, 1e-9);
}
END_TEST

START_TEST (up_a_slope_a_ball_lands_where_its_still_level_track_meets_it)
{
  /* Up 1 in 20 the driver's landing is the root of z(y) = y / 20 along its own level track. */
  g_autoptr (Hole) level = level_hole (KIND_FAIRWAY), up = sloping_hole (0, 0.05);
  ShotResult plain = fly_up (level, &driver, NULL), hill = fly_up (up, &driver, NULL);
  FlightPoint met = flight_at_distance (&plain.flight, vec2 (0, 1), hill.landing.y);
  ck_assert_double_eq_tol (met.z_m, 0.05 * hill.landing.y, 0.02);
  ck_assert_double_eq_tol (hill.rise_m, 0.05 * hill.landing.y, 0.02);
}
END_TEST

/* ---- invariants ---- */

START_TEST (on_the_standard_day_a_ball_lands_where_the_bag_says_whatever_its_shape)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  Club hooker = iron;
  hooker.curve_m = -9;
  hooker.side_bias_m = 3;
  const Club *clubs[] = { &driver, &iron, &hooker };
  for (size_t c = 0; c < G_N_ELEMENTS (clubs); c++)
    for (int shape = SHOT_STRAIGHT; shape <= SHOT_FADE; shape++)
      {
        ShotInput input = { .aim = { 0, 200 }, .club = clubs[c], .swing = 1, .shape = (ShotShape)shape, .curve_m = NAN };
        ShotResult shot = fly (hole, &input);
        ck_assert_double_eq (shot.landing.y, clubs[c]->carry_m);
        ck_assert_double_eq (shot.landing.x, clubs[c]->side_bias_m);
        ck_assert_double_eq (shot.plays_m, 200);
        ck_assert_double_eq_tol (vec2_distance (flight_landing (&shot.flight).at, shot.landing), 0, 0.05);
        double sign = shape == SHOT_STRAIGHT ? (clubs[c] == &hooker ? -1 : 0) : shape == SHOT_FADE ? 1 : -1;
        ck_assert_msg (sign == 0 ? fabs (shot.curve_m) < LANDING_M : shot.curve_m * sign > 2, "curves %g m", shot.curve_m);
        /* It starts as far to the other side. */
        double start_m = vec2_cross (shot.start, vec2_sub (shot.landing, shot.ball));
        ck_assert_double_eq_tol (-start_m, shot.curve_m, 0.05);
      }
}
END_TEST

START_TEST (a_mirrored_shot_in_a_mirrored_wind_is_mirrored)
{
  g_autoptr (Hole) right_up = sloping_hole (0.03, 0.02), left_up = sloping_hole (-0.03, 0.02);
  Conditions from_left = windy (vec2 (4, -3)), from_right = windy (vec2 (-4, -3));
  ShotInput fade
      = { .aim = { 20, 200 }, .club = &driver, .swing = 0.9, .shape = SHOT_FADE, .curve_m = NAN, .conditions = &from_left };
  ShotInput draw
      = { .aim = { -20, 200 }, .club = &driver, .swing = 0.9, .shape = SHOT_DRAW, .curve_m = NAN, .conditions = &from_right };
  ShotResult one = fly (right_up, &fade), other = fly (left_up, &draw);
  ck_assert_double_eq_tol (one.landing.x, -other.landing.x, LANDING_M);
  ck_assert_double_eq_tol (one.landing.y, other.landing.y, LANDING_M);
  ck_assert_double_eq_tol (one.rest.x, -other.rest.x, 10 * LANDING_M);
  ck_assert_double_eq_tol (one.rest.y, other.rest.y, 10 * LANDING_M);
  ck_assert_double_eq_tol (one.curve_m, -other.curve_m, LANDING_M);
  ck_assert_double_eq_tol (one.plays_m, other.plays_m, 2 * LANDING_M);
  ck_assert_double_eq_tol (one.pattern.side_sd_m, other.pattern.side_sd_m, LANDING_M);
}
END_TEST

START_TEST (a_turned_hole_in_a_turned_wind_is_turned)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  Conditions up = windy (vec2 (2, -5)), across = windy (vec2 (-5, -2));
  ShotInput first = { .aim = { 0, 200 }, .club = &iron, .swing = 1, .curve_m = 6, .conditions = &up };
  ShotInput second = { .aim = { 200, 0 }, .club = &iron, .swing = 1, .curve_m = 6, .conditions = &across };
  ShotResult one = fly (hole, &first), other = fly (hole, &second);
  ck_assert_double_eq_tol (other.landing.x, one.landing.y, LANDING_M);
  ck_assert_double_eq_tol (other.landing.y, -one.landing.x, LANDING_M);
}
END_TEST

START_TEST (wind_air_and_hills_move_a_ball_the_way_golfers_know)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY), up = sloping_hole (0, 0.05), down = sloping_hole (0, -0.05);
  Conditions against = windy (vec2 (0, -5)), behind = windy (vec2 (0, 5)), across = windy (vec2 (5, 0)),
             thin = conditions_standard ();
  thin.air.density_kgm3 *= 0.8;
  ck_assert_double_lt (fly_up (hole, &driver, &against).carry_m, 222);
  ck_assert_double_gt (fly_up (hole, &driver, &behind).carry_m, 234);
  ck_assert_double_gt (fly_up (hole, &driver, &across).landing.x, 8);
  ck_assert_double_gt (fly_up (hole, &driver, &thin).carry_m, 234);
  ck_assert_double_lt (fly_up (up, &driver, NULL).carry_m, 222);
  ck_assert_double_gt (fly_up (down, &driver, NULL).carry_m, 235);
  ck_assert_double_gt (fly_up (hole, &iron, &against).plays_m, 205);
  ck_assert_double_lt (fly_up (hole, &iron, &behind).plays_m, 197);
  ck_assert_double_gt (fly_up (up, &iron, NULL).plays_m, 205);

  Conditions firm = conditions_standard (), soft = firm;
  firm.firmness = FIRMNESS_FIRM;
  soft.firmness = FIRMNESS_SOFT;
  double usual = fly_up (hole, &driver, NULL).run_m;
  ck_assert_double_gt (fly_up (hole, &driver, &firm).run_m, usual + 5);
  ck_assert_double_lt (fly_up (hole, &driver, &soft).run_m, usual - 5);
}
END_TEST

START_TEST (the_swing_that_a_shot_plays_for_lands_on_the_aim)
{
  g_autoptr (Hole) hole = sloping_hole (0.01, 0.04);
  Conditions conditions = windy (vec2 (-3, -4));
  ShotInput input = { .aim = { 10, 110 }, .club = &iron, .swing = 1, .curve_m = NAN, .conditions = &conditions };
  ShotResult full = fly (hole, &input);
  input.swing = odds_fit_swing (&iron, full.plays_m);
  ck_assert_double_lt (input.swing, 1);
  ck_assert_double_eq_tol (fly (hole, &input).carry_m, full.aim_m, 0.02);
}
END_TEST

START_TEST (the_pattern_grows_and_shrinks_with_the_carry_of_the_day)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  Conditions behind = windy (vec2 (0, 6));
  ShotResult shot = fly_up (hole, &driver, &behind);
  ck_assert_double_eq_tol (shot.pattern.long_sd_m, 7 * shot.carry_m / 228.6, 1e-3);
  ck_assert_double_eq_tol (shot.pattern.side_sd_m, 13 * shot.carry_m / 228.6, 1e-3);
}
END_TEST

/* ---- a bag on a day ---- */

static Bag *
small_bag (void)
{
  static const char csv[]
      = "club,carry_m,loft_deg,surfaces\ndriver,210,10.5,tee\n5 iron,160,26,\n7 iron,140,32,\n9 iron,120,42,\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (csv, strlen (csv));
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  return bag;
}

START_TEST (each_club_today_does_what_its_shot_does)
{
  g_autoptr (Hole) hole = sloping_hole (0.01, 0.03);
  g_autoptr (Bag) bag = small_bag ();
  Conditions conditions = windy (vec2 (3, -4));
  ClubToday clubs[4];
  odds_clubs_today (hole, vec2 (0, 0), vec2 (0, 200), bag, &conditions, clubs);
  for (size_t i = 0; i < G_N_ELEMENTS (clubs); i++)
    {
      ShotInput input = { .aim = { 0, 200 },
                          .club = bag_club (bag, i),
                          .swing = 1,
                          .curve_m = NAN,
                          .conditions = &conditions,
                          .lies = bag_lies (bag) };
      ShotResult shot = fly (hole, &input);
      ck_assert_ptr_eq (clubs[i].club, bag_club (bag, i));
      ck_assert_double_eq_tol (clubs[i].carry_m, shot.carry_m, LANDING_M);
      ck_assert_double_eq_tol (clubs[i].side_m, shot.landing.x, LANDING_M);
      ck_assert_double_eq_tol (clubs[i].run_m, shot.run_m, 20 * LANDING_M);
      ck_assert_double_eq_tol (clubs[i].high_m - clubs[i].low_m, 2 * TWO_OF_THREE_LINE * shot.pattern.long_sd_m, LANDING_M);
    }
}
END_TEST

START_TEST (what_the_day_does_to_a_club_is_today_less_the_standard_day_over_the_same_ground)
{
  g_autoptr (Hole) hole = sloping_hole (0, 0.03);
  g_autoptr (Bag) bag = small_bag ();
  Conditions against = windy (vec2 (3, -4)), standard = conditions_standard ();
  ClubDay days[4], same[4];
  ClubToday today[4], calm[4];
  odds_clubs_day (hole, vec2 (0, 0), vec2 (0, 200), bag, &against, days);
  odds_clubs_day (hole, vec2 (0, 0), vec2 (0, 200), bag, &standard, same);
  odds_clubs_today (hole, vec2 (0, 0), vec2 (0, 200), bag, &against, today);
  odds_clubs_today (hole, vec2 (0, 0), vec2 (0, 200), bag, NULL, calm);
  for (size_t i = 0; i < G_N_ELEMENTS (days); i++)
    {
      ck_assert_ptr_eq (days[i].today.club, bag_club (bag, i));
      ck_assert_double_eq (days[i].carry_change_m, today[i].carry_m - calm[i].carry_m);
      ck_assert_double_eq (days[i].run_change_m, today[i].run_m - calm[i].run_m);
      ck_assert_double_eq (days[i].side_change_m, today[i].side_m - calm[i].side_m);
      ck_assert (days[i].carry_change_m < -5 && days[i].side_change_m > 3);
      ck_assert_double_eq (same[i].carry_change_m, 0);
      ck_assert_double_eq (same[i].side_change_m, 0);
    }
}
END_TEST

START_TEST (into_the_wind_a_longer_club_is_chosen_and_the_tee_s_clubs_stay_on_it)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  g_autoptr (Bag) bag = small_bag ();
  Conditions against = windy (vec2 (0, -8)), calm = conditions_standard ();
  double swing;
  ck_assert_str_eq (odds_choose_club (hole, vec2 (0, 0), vec2 (0, 140), bag, &calm, true, &swing)->name, "7 iron");
  ck_assert_str_eq (odds_choose_club (hole, vec2 (0, 0), vec2 (0, 140), bag, &against, true, &swing)->name, "5 iron");
  ck_assert_double_eq (swing, 1);
  ck_assert_str_eq (odds_choose_club (hole, vec2 (0, 0), vec2 (0, 210), bag, &against, false, &swing)->name, "5 iron");
  const Club *club = odds_choose_club (hole, vec2 (0, 0), vec2 (0, 60), bag, &against, false, &swing);
  ck_assert_str_eq (club->name, "9 iron");
  ck_assert (swing > 0.4 && swing < 0.8);
}
END_TEST

START_TEST (the_club_chosen_is_the_nearest_of_all_whatever_wind_and_lie)
{
  static const Kind lies[] = { KIND_FAIRWAY, KIND_ROUGH, KIND_DEEP_ROUGH };
  g_autoptr (Bag) bag = example_bag ();
  size_t n_clubs = bag_n_clubs (bag);
  g_autofree ClubToday *clubs = g_new (ClubToday, n_clubs);
  for (size_t lie = 0; lie < G_N_ELEMENTS (lies); lie++)
    for (double wind_mps = -16; wind_mps <= 16; wind_mps += 8)
      {
        g_autoptr (Hole) hole = level_hole (lies[lie]);
        Conditions conditions = windy (vec2 (wind_mps / 2, wind_mps));
        odds_clubs_today (hole, vec2 (0, 0), vec2 (0, 100), bag, &conditions, clubs);
        for (double distance_m = 10; distance_m < 300; distance_m += 7)
          {
            double swing, least_m = INFINITY, chosen_m = NAN;
            const Club *chosen = odds_choose_club (hole, vec2 (0, 0), vec2 (0, distance_m), bag, &conditions, true, &swing);
            for (size_t i = 0; i < n_clubs; i++)
              {
                double off_m = fabs (clubs[i].carry_m - distance_m);
                least_m = fmin (least_m, off_m);
                chosen_m = clubs[i].club == chosen ? off_m : chosen_m;
              }
            ck_assert_double_eq (chosen_m, least_m);
          }
      }
}
END_TEST

/* ---- edges ---- */

START_TEST (whatever_the_wind_a_farther_aim_never_plays_shorter_and_beyond_the_hardest_swing_in_proportion)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  const Club *const some[] = { &driver, &iron };
  for (size_t c = 0; c < G_N_ELEMENTS (some); c++)
    for (double wind_mps = -20; wind_mps <= 20; wind_mps += 4)
      {
        Conditions conditions = windy (vec2 (0, wind_mps));
        double before_m = 0;
        for (double aim_m = 60; aim_m <= 320; aim_m += 4)
          {
            ShotInput input = { .aim = { 0, aim_m }, .club = some[c], .swing = 1, .curve_m = NAN, .conditions = &conditions };
            ShotResult shot = fly (hole, &input);
            /* 1.15 of the club's carry, and then as much longer as the aim is farther than a ball of the day. */
            double most_m = 1.15 * some[c]->carry_m * fmax (1, aim_m / (0.9 * shot.carry_m));
            ck_assert_msg (shot.plays_m >= before_m && shot.plays_m <= most_m + 0.01,
                           "%s, %g m/s, %g m: %g after %g, at most %g", some[c]->name, wind_mps, aim_m, shot.plays_m, before_m,
                           most_m);
            before_m = shot.plays_m;
          }
      }
}
END_TEST

START_TEST (an_aim_that_no_swing_reaches_still_plays_some_distance)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  Conditions against = windy (vec2 (0, -20));
  ShotInput input = { .aim = { 0, 900 }, .club = &iron, .swing = 1, .curve_m = NAN, .conditions = &against };
  ShotResult shot = fly (hole, &input);
  ck_assert (isfinite (shot.plays_m) && shot.plays_m > 900);
}
END_TEST

START_TEST (a_curve_that_no_ball_has_is_refused_with_the_club)
{
  g_autoptr (Hole) hole = level_hole (KIND_FAIRWAY);
  static const double curves_m[] = { 130, -500, INFINITY };
  for (size_t i = 0; i < G_N_ELEMENTS (curves_m); i++)
    {
      ShotInput input = { .aim = { 0, 200 }, .club = &iron, .swing = 1, .curve_m = curves_m[i] };
      ShotResult shot;
      g_autoptr (GError) error = NULL;
      ck_assert (!odds_shot (hole, NULL, &input, &shot, &error));
      ck_assert (g_error_matches (error, ODDS_ERROR, ODDS_ERROR_CLUB));
      ck_assert_msg (strstr (error->message, "curve") != NULL, "%s", error->message);
    }
}
END_TEST

START_TEST (a_ball_lies_on_a_tee_beside_its_marker_and_else_where_it_is)
{
  Part *marker = part_new (KIND_TEE_MARKER);
  const Part *parts[] = { part_seal (marker) };
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, parts, 1, NULL);
  hole_info_clear (&info);
  ck_assert_int_eq (odds_lie (hole, vec2 (0, -2)), LIE_TEE);
  ck_assert_int_eq (odds_lie (hole, vec2 (0, -3)), LIE_ROUGH);
}
END_TEST

Suite *
suite_make (void)
{
  const struct
  {
    const char *name;
    const TTest *tests[12];
  } cases[] = {
    { "known answers",
      { model_golfers_roll_their_20_yards, a_ball_in_sand_stays_and_its_pattern_with_it,
        on_a_plane_every_ball_runs_alike_so_the_pattern_is_moved_whole,
        up_a_slope_a_ball_lands_where_its_still_level_track_meets_it } },
    { "invariants",
      { on_the_standard_day_a_ball_lands_where_the_bag_says_whatever_its_shape, a_mirrored_shot_in_a_mirrored_wind_is_mirrored,
        a_turned_hole_in_a_turned_wind_is_turned, wind_air_and_hills_move_a_ball_the_way_golfers_know,
        the_swing_that_a_shot_plays_for_lands_on_the_aim, the_pattern_grows_and_shrinks_with_the_carry_of_the_day } },
    { "bag",
      { each_club_today_does_what_its_shot_does,
        what_the_day_does_to_a_club_is_today_less_the_standard_day_over_the_same_ground,
        into_the_wind_a_longer_club_is_chosen_and_the_tee_s_clubs_stay_on_it,
        the_club_chosen_is_the_nearest_of_all_whatever_wind_and_lie } },
    { "edges",
      { whatever_the_wind_a_farther_aim_never_plays_shorter_and_beyond_the_hardest_swing_in_proportion,
        an_aim_that_no_swing_reaches_still_plays_some_distance, a_curve_that_no_ball_has_is_refused_with_the_club,
        a_ball_lies_on_a_tee_beside_its_marker_and_else_where_it_is } },
  };
  Suite *suite = suite_create ("odds-flight");
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TCase *tcase = tcase_create (cases[i].name);
      for (size_t k = 0; k < G_N_ELEMENTS (cases[i].tests) && cases[i].tests[k] != NULL; k++)
        tcase_add_test (tcase, cases[i].tests[k]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
