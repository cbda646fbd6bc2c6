// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: shots that were flown a moment ago, and drags that ask about them. */
#include "edit.h"
#include "odds-known.h"
#include "suite.h"

#include <string.h>

#define PLAN 2
#define N_SHOTS 3

static const Part *
point (Kind kind, double x, double y)
{
  Part *part = part_new (kind);
  part->at = vec2 (x, y);
  return part_seal (part);
}

/* A hole that runs north with a hole location `far_m` on, and a plan of three shots that follow one another. */
static Hole *
make_hole (double far_m, const Bag *bag)
{
  Part *plan = part_new (KIND_PLAN);
  const Shot first = { .aim = { 0, 210 }, .curve_m = NAN, .swing = 1 };
  part_add_shot (plan, &first);
  const Part *parts[] = { point (KIND_TEE_MARKER, 0, 0), point (KIND_HOLE_LOCATION, 0, far_m), part_seal (plan) };
  HoleInfo info;
  hole_info_init (&info);
  info.up_bearing_deg = 0;
  g_autoptr (Hole) one = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  g_autoptr (Hole) two = edit_add_shot (one, PLAN, bag, NULL);
  Hole *three = edit_add_shot (two, PLAN, bag, NULL);
  ck_assert_ptr_nonnull (three);
  return three;
}

static Bag *
make_bag (double driver_m)
{
  g_autofree char *csv = g_strdup_printf ("club,carry_m,surfaces\ndriver,%g,tee\n5 iron,150,\n9 iron,100,\n", driver_m);
  g_autoptr (GBytes) bytes = g_bytes_new (csv, strlen (csv));
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  return bag;
}

static void
assert_same (const ShotResult *a, const ShotResult *b)
{
  ck_assert_ptr_eq (a->club, b->club);
  ck_assert_double_eq (a->landing.x, b->landing.x);
  ck_assert_double_eq (a->landing.y, b->landing.y);
  ck_assert_double_eq (a->rest.x, b->rest.x);
  ck_assert_double_eq (a->rest.y, b->rest.y);
  ck_assert_double_eq (a->plays_m, b->plays_m);
  ck_assert_double_eq (a->swing, b->swing);
  ck_assert (conditions_equal (&a->conditions, &b->conditions));
  ck_assert_mem_eq (&a->flight.points, &b->flight.points, a->flight.n_points * sizeof a->flight.points[0]);
}

/* All shots of a hole, known or not, are those that are flown. */
static void
assert_flown (KnownShots *known, const Hole *hole, const Bag *bag)
{
  g_autofree ShotResult *found = known_shots_plan (known, hole, PLAN, bag, NULL), *flown = odds_plan (hole, PLAN, bag, NULL);
  ck_assert_ptr_nonnull (found);
  for (size_t i = 0; i < hole_part (hole, PLAN)->n_shots; i++)
    assert_same (&found[i], &flown[i]);
}

START_TEST (a_dragged_aim_gives_the_plan_that_is_given_when_every_shot_is_flown)
{
  g_autoptr (Bag) bag = make_bag (210);
  g_autoptr (Hole) hole = make_hole (460, bag);
  g_autoptr (KnownShots) known = known_shots_new ();
  ck_assert_uint_eq (hole_part (hole, PLAN)->n_shots, N_SHOTS);
  for (int step = 0; step < 30; step++)
    {
      Vec2 aim = vec2 (step % 7 - 3, 150 + 3 * (step % 20)); /* there and back, so that what gave way is asked for again */
      g_autoptr (Hole) dragged = edit_drag_aim (hole, PLAN, 0, aim, bag, known);
      g_autoptr (Hole) moved = edit_move_aim (hole, PLAN, 0, aim, bag);
      ck_assert (part_equal (hole_part (dragged, PLAN), hole_part (moved, PLAN)));
      assert_flown (known, dragged, bag);
    }
}
END_TEST

START_TEST (a_turned_wind_gives_the_plan_that_is_given_when_every_shot_is_flown)
{
  g_autoptr (Bag) bag = make_bag (210);
  g_autoptr (Hole) hole = make_hole (460, bag);
  g_autoptr (KnownShots) known = known_shots_new ();
  for (int step = 0; step < 24; step++)
    {
      Day day;
      day_init (&day);
      day.wind_mps = 1 + step % 5;
      day.wind_from_deg = 15 * step;
      g_autoptr (Hole) dragged = edit_drag_day (hole, PLAN, &day, bag, known, NULL);
      g_autoptr (Hole) set = edit_set_day (hole, PLAN, &day, bag, NULL);
      ck_assert_ptr_nonnull (dragged);
      ck_assert (part_equal (hole_part (dragged, PLAN), hole_part (set, PLAN)));
      assert_flown (known, dragged, bag);
    }
}
END_TEST

START_TEST (another_bag_or_another_drawing_is_begun_anew)
{
  g_autoptr (Bag) bag = make_bag (210), longer = make_bag (230);
  g_autoptr (Hole) hole = make_hole (460, bag), farther = make_hole (480, bag);
  g_autoptr (KnownShots) known = known_shots_new ();
  assert_flown (known, hole, bag);
  assert_flown (known, hole, longer);
  assert_flown (known, farther, longer);
  assert_flown (known, hole, bag);
}
END_TEST

START_TEST (a_shot_that_cannot_be_flown_is_refused_each_time)
{
  g_autoptr (Bag) bag = make_bag (210);
  g_autoptr (Hole) hole = make_hole (460, bag);
  g_autoptr (KnownShots) known = known_shots_new ();
  g_autoptr (Hole) onto_the_ball = edit_drag_aim (hole, PLAN, 0, vec2 (0, 0), bag, known);
  for (int i = 0; i < 2; i++)
    {
      g_autoptr (GError) error = NULL;
      ck_assert_ptr_null (known_shots_plan (known, onto_the_ball, PLAN, bag, &error));
      ck_assert (g_error_matches (error, ODDS_ERROR, ODDS_ERROR_AIM));
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-known");
  TCase *known = tcase_create ("known");
  tcase_add_test (known, a_dragged_aim_gives_the_plan_that_is_given_when_every_shot_is_flown);
  tcase_add_test (known, a_turned_wind_gives_the_plan_that_is_given_when_every_shot_is_flown);
  tcase_add_test (known, another_bag_or_another_drawing_is_begun_anew);
  tcase_add_test (known, a_shot_that_cannot_be_flown_is_refused_each_time);
  suite_add_tcase (suite, known);
  return suite;
}
