// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of odds: which rows of a carry table a golfer is told of, and whether the shot flies over or stays short. */
#include "odds.h"
#include "suite.h"

/* 180 m, give or take: 6 m along, 10 m across. */
static const Club iron = { .name = (char *)"iron", .carry_m = 180, .carry_sd_m = 6, .side_sd_m = 10 };

static const Part *
box_of (Kind kind, double y0, double y1)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, (Box){ -30, y0, 30, y1 }, 0, 0);
  return part_seal (part);
}

typedef struct
{
  Hole *hole;
  ShotResult shot;
  CarryTable *table;
} Told;

static Told
told_of (const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  Told told = { .hole = hole_new (&info, parts, n_parts, NULL) };
  ShotInput input = { .aim = { 0, 200 }, .club = &iron, .swing = 1 };
  ck_assert (odds_shot (told.hole, NULL, &input, &told.shot, NULL));
  told.table = carry_table_new (told.hole, &told.shot);
  return told;
}

static void
told_clear (Told *told)
{
  carry_table_free (told->table);
  hole_unref (told->hole);
}

static int
telling_rows_of (const Told *told, Kind kind)
{
  int n = 0;
  for (size_t i = 0; i < told->table->n_rows; i++)
    if (hole_part (told->hole, told->table->rows[i].part)->kind == kind)
      n += carry_row_is_telling (told->hole, &told->shot, told->table, i);
  return n;
}

START_TEST (trouble_is_told_of_and_mown_ground_is_not)
{
  const Part *parts[] = { box_of (KIND_FAIRWAY, 100, 200), box_of (KIND_BUNKER, 120, 130) };
  Told told = told_of (parts, G_N_ELEMENTS (parts));
  ck_assert_int_eq (told.table->n_rows, 2);
  ck_assert_int_eq (telling_rows_of (&told, KIND_FAIRWAY), 0);
  ck_assert_int_eq (telling_rows_of (&told, KIND_BUNKER), 1);
  told_clear (&told);
}
END_TEST

START_TEST (trouble_far_beyond_the_longest_ball_is_not_told_of)
{
  /* The pattern's longest ball flies 180 + 2.5 x 6 = 195 m; a club and a half more is 215 m. */
  const Part *parts[] = { box_of (KIND_BUNKER, 214, 220), box_of (KIND_WATER, 216, 230) };
  Told told = told_of (parts, G_N_ELEMENTS (parts));
  ck_assert_int_eq (telling_rows_of (&told, KIND_BUNKER), 1);
  ck_assert_int_eq (telling_rows_of (&told, KIND_WATER), 0);
  told_clear (&told);
}
END_TEST

START_TEST (water_within_its_penalty_area_is_told_of_once)
{
  const Part *round[] = { box_of (KIND_PENALTY_AREA, 100, 140), box_of (KIND_WATER, 105, 135) };
  Told inside = told_of (round, G_N_ELEMENTS (round));
  ck_assert_int_eq (telling_rows_of (&inside, KIND_PENALTY_AREA), 1);
  ck_assert_int_eq (telling_rows_of (&inside, KIND_WATER), 0);
  told_clear (&inside);
  const Part *apart[] = { box_of (KIND_PENALTY_AREA, 100, 110), box_of (KIND_WATER, 105, 135) };
  Told beyond = told_of (apart, G_N_ELEMENTS (apart));
  ck_assert_int_eq (telling_rows_of (&beyond, KIND_WATER), 1);
  told_clear (&beyond);
}
END_TEST

START_TEST (a_shot_is_said_to_do_the_likelier_of_flying_over_and_staying_short)
{
  /* One sd is 6 m: 0.841345 of a normal lie beyond one sd short of the mean, 0.977250 within two sd above it (Abramowitz and
     Stegun, table 26.1). */
  const Part *parts[] = { box_of (KIND_BUNKER, 160, 174), box_of (KIND_WATER, 192, 250) };
  Told told = told_of (parts, G_N_ELEMENTS (parts));
  double chance = 0;
  ck_assert_int_eq (carry_row_pass (&told.shot, &told.table->rows[0], &chance), PASS_OVER);
  ck_assert_double_eq_tol (chance, 0.841345, 1e-6);
  ck_assert_int_eq (carry_row_pass (&told.shot, &told.table->rows[1], &chance), PASS_SHORT);
  ck_assert_double_eq_tol (chance, 0.977250, 1e-6);
  told_clear (&told);
}
END_TEST

START_TEST (a_shot_that_mostly_pitches_in_trouble_is_said_to)
{
  /* From two sd short of the mean, 180 m, to one sd beyond it: 0.977250 - 0.158655 = 0.818595 (Abramowitz and Stegun, table 26.1). */
  const Part *parts[] = { box_of (KIND_BUNKER, 168, 186) };
  Told told = told_of (parts, G_N_ELEMENTS (parts));
  double chance = 0;
  ck_assert_int_eq (carry_row_pass (&told.shot, &told.table->rows[0], &chance), PASS_INTO);
  ck_assert_double_eq_tol (chance, 0.818595, 1e-6);
  ck_assert_str_eq (pass_token (PASS_INTO), "into");
  told_clear (&told);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-telling");
  TCase *rows = tcase_create ("rows");
  tcase_add_test (rows, trouble_is_told_of_and_mown_ground_is_not);
  tcase_add_test (rows, trouble_far_beyond_the_longest_ball_is_not_told_of);
  tcase_add_test (rows, water_within_its_penalty_area_is_told_of_once);
  tcase_add_test (rows, a_shot_is_said_to_do_the_likelier_of_flying_over_and_staying_short);
  tcase_add_test (rows, a_shot_that_mostly_pitches_in_trouble_is_said_to);
  suite_add_tcase (suite, rows);
  return suite;
}
