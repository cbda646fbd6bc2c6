// SPDX-License-Identifier: GPL-3.0-or-later
/* Where a picture changed: every cell is held, by few rectangles that do not meet, and by no more than there need be. */
#include "patches.h"
#include "suite.h"

#include <glib.h>

#define COLUMNS 40
#define ROWS 25
#define MOST 12

typedef struct
{
  bool cells[ROWS * COLUMNS];
  HwPatch patches[MOST];
  size_t n;
} Stage;

static void
set_cells (Stage *stage, int x0, int y0, int x1, int y1)
{
  for (int y = y0; y < y1; y++)
    for (int x = x0; x < x1; x++)
      stage->cells[y * COLUMNS + x] = true;
}

static void
find (Stage *stage, int most)
{
  stage->n = hw_patches_find (stage->cells, COLUMNS, ROWS, most, stage->patches);
}

static int
n_holding (const Stage *stage, int x, int y)
{
  int n = 0;
  for (size_t i = 0; i < stage->n; i++)
    n += x >= stage->patches[i].x0 && x < stage->patches[i].x1 && y >= stage->patches[i].y0 && y < stage->patches[i].y1;
  return n;
}

/* Stretches and bands. */
static int
count (const Stage *stage)
{
  int n = (int)stage->n;
  for (size_t i = 0; i < stage->n; i++)
    n += i == 0 || stage->patches[i].y0 != stage->patches[i - 1].y0;
  return n;
}

static int
n_cells (const Stage *stage)
{
  int n = 0;
  for (size_t i = 0; i < stage->n; i++)
    n += (stage->patches[i].x1 - stage->patches[i].x0) * (stage->patches[i].y1 - stage->patches[i].y0);
  return n;
}

static void
is_held (const Stage *stage, int most)
{
  int n_left = 0, n_twice = 0;
  for (int y = 0; y < ROWS; y++)
    for (int x = 0; x < COLUMNS; x++)
      {
        int n = n_holding (stage, x, y);
        n_left += stage->cells[y * COLUMNS + x] && n == 0;
        n_twice += n > 1;
      }
  ck_assert_int_eq (n_left, 0);
  ck_assert_int_eq (n_twice, 0);
  ck_assert_int_le (count (stage), most);
}

START_TEST (where_nothing_changed_there_is_none)
{
  Stage stage = { 0 };
  find (&stage, MOST);
  ck_assert_uint_eq (stage.n, 0);
}
END_TEST

START_TEST (one_rectangle_is_told_as_it_is)
{
  Stage stage = { 0 };
  set_cells (&stage, 3, 4, 17, 9);
  find (&stage, MOST);
  ck_assert_uint_eq (stage.n, 1);
  ck_assert_int_eq (n_cells (&stage), 14 * 5);
  is_held (&stage, MOST);
}
END_TEST

START_TEST (two_beside_one_another_stay_two)
{
  Stage stage = { 0 };
  set_cells (&stage, 0, 4, 6, 9);
  set_cells (&stage, 30, 4, COLUMNS, 9);
  find (&stage, MOST);
  ck_assert_uint_eq (stage.n, 2);
  ck_assert_int_eq (n_cells (&stage), 6 * 5 + 10 * 5);
}
END_TEST

START_TEST (of_three_beside_one_another_the_nearest_are_joined)
{
  Stage stage = { 0 };
  set_cells (&stage, 0, 4, 2, 6);
  set_cells (&stage, 20, 4, 22, 6);
  set_cells (&stage, 25, 4, 27, 6);
  find (&stage, MOST);
  ck_assert_uint_eq (stage.n, 2);
  ck_assert_int_eq (n_cells (&stage), 2 * 2 + 7 * 2);
}
END_TEST

START_TEST (a_line_that_falls_away_is_followed_in_steps)
{
  Stage stage = { 0 };
  for (int y = 0; y < ROWS; y++)
    set_cells (&stage, y, y, y + 2, y + 1);
  find (&stage, MOST);
  is_held (&stage, MOST);
  ck_assert_uint_eq (stage.n, MOST / 2); // a stretch in each of six bands
  ck_assert_int_lt (n_cells (&stage), ROWS * (ROWS + 1) / 4);
}
END_TEST

START_TEST (all_that_changed_is_held_however_few_may_be_told)
{
  for (guint32 seed = 1; seed <= 200; seed++)
    {
      Stage stage = { 0 };
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      int n_set = g_rand_int_range (rand, 0, ROWS * COLUMNS / 4);
      for (int i = 0; i < n_set; i++)
        stage.cells[g_rand_int_range (rand, 0, ROWS * COLUMNS)] = true;
      for (int most = 2; most <= MOST; most++)
        {
          find (&stage, most);
          is_held (&stage, most);
        }
    }
}
END_TEST

START_TEST (more_rectangles_never_hold_more)
{
  for (guint32 seed = 1; seed <= 50; seed++)
    {
      Stage stage = { 0 };
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      for (int i = 0; i < 8; i++)
        {
          int x = g_rand_int_range (rand, 0, COLUMNS - 8), y = g_rand_int_range (rand, 0, ROWS - 3);
          set_cells (&stage, x, y, x + 8, y + 3);
        }
      find (&stage, 3);
      int few = n_cells (&stage);
      find (&stage, MOST);
      ck_assert_int_le (n_cells (&stage), few);
    }
}
END_TEST

START_TEST (everything_changed_is_one)
{
  Stage stage = { 0 };
  set_cells (&stage, 0, 0, COLUMNS, ROWS);
  find (&stage, 2);
  ck_assert_uint_eq (stage.n, 1);
  ck_assert_int_eq (n_cells (&stage), ROWS * COLUMNS);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("patches");
  TCase *few = tcase_create ("few");
  tcase_add_test (few, where_nothing_changed_there_is_none);
  tcase_add_test (few, one_rectangle_is_told_as_it_is);
  tcase_add_test (few, two_beside_one_another_stay_two);
  tcase_add_test (few, of_three_beside_one_another_the_nearest_are_joined);
  tcase_add_test (few, everything_changed_is_one);
  suite_add_tcase (suite, few);
  TCase *many = tcase_create ("many");
  tcase_add_test (many, a_line_that_falls_away_is_followed_in_steps);
  tcase_add_test (many, all_that_changed_is_held_however_few_may_be_told);
  tcase_add_test (many, more_rectangles_never_hold_more);
  suite_add_tcase (suite, many);
  return suite;
}
