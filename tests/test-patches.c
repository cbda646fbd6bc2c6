// SPDX-License-Identifier: GPL-3.0-or-later
/* Where a picture changed: every cell is held, by few rectangles in each band that do not meet. */
#include "patches.h"
#include "suite.h"

#include <glib.h>

#define COLUMNS 40
#define ROWS 25

typedef struct
{
  bool cells[ROWS * COLUMNS];
  HwBands bands;
  HwPatch patches[HW_MOST_PATCHES];
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
forget_cells (Stage *stage)
{
  for (int i = 0; i < ROWS * COLUMNS; i++)
    stage->cells[i] = false;
}

static void
find (Stage *stage, int most)
{
  stage->n = hw_patches_find (stage->cells, COLUMNS, ROWS, most, &stage->bands, stage->patches);
}

static int
n_holding (const Stage *stage, int x, int y)
{
  int n = 0;
  for (size_t i = 0; i < stage->n; i++)
    n += x >= stage->patches[i].x0 && x < stage->patches[i].x1 && y >= stage->patches[i].y0 && y < stage->patches[i].y1;
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

/* Every cell that is set lies in one rectangle, none in two, and each is as high as one of the bands, which lie from top to bottom. */
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
  ck_assert_int_le (stage->bands.n, most);
  ck_assert_int_eq (stage->bands.edges[0], 0);
  ck_assert_int_eq (stage->bands.edges[stage->bands.n], ROWS);
  for (size_t i = 0; i < stage->n; i++)
    {
      bool is_band = false;
      for (int k = 0; k < stage->bands.n; k++)
        is_band
            = is_band || (stage->patches[i].y0 == stage->bands.edges[k] && stage->patches[i].y1 == stage->bands.edges[k + 1]);
      ck_assert (is_band);
    }
}

START_TEST (where_nothing_changed_there_is_none)
{
  Stage stage = { 0 };
  find (&stage, HW_MOST_BANDS);
  ck_assert_uint_eq (stage.n, 0);
}
END_TEST

START_TEST (one_rectangle_is_told_as_it_is)
{
  Stage stage = { 0 };
  set_cells (&stage, 3, 4, 17, 9);
  find (&stage, 3);
  ck_assert_uint_eq (stage.n, 1);
  ck_assert_int_eq (n_cells (&stage), 14 * 5);
  is_held (&stage, 3);
}
END_TEST

START_TEST (two_beside_one_another_stay_two)
{
  Stage stage = { 0 };
  set_cells (&stage, 0, 4, 6, 9);
  set_cells (&stage, 30, 4, COLUMNS, 9);
  find (&stage, 3);
  ck_assert_uint_eq (stage.n, 2);
  ck_assert_int_eq (n_cells (&stage), 6 * 5 + 10 * 5);
}
END_TEST

START_TEST (two_that_nearly_touch_become_one)
{
  Stage stage = { 0 };
  set_cells (&stage, 0, 4, 6, 9);
  set_cells (&stage, 8, 4, 12, 9);
  find (&stage, 3);
  ck_assert_uint_eq (stage.n, 1);
  ck_assert_int_eq (n_cells (&stage), 12 * 5);
}
END_TEST

START_TEST (of_three_beside_one_another_the_nearest_are_joined)
{
  Stage stage = { 0 };
  set_cells (&stage, 0, 4, 2, 6);
  set_cells (&stage, 20, 4, 22, 6);
  set_cells (&stage, 30, 4, 32, 6);
  find (&stage, 3);
  ck_assert_uint_eq (stage.n, 2);
  ck_assert_int_eq (n_cells (&stage), 2 * 2 + 12 * 2);
}
END_TEST

START_TEST (a_line_that_falls_away_is_followed_in_steps)
{
  Stage stage = { 0 };
  for (int y = 0; y < ROWS; y++)
    set_cells (&stage, y, y, y + 2, y + 1);
  find (&stage, HW_MOST_BANDS);
  is_held (&stage, HW_MOST_BANDS);
  ck_assert_uint_eq (stage.n, HW_MOST_BANDS);
  ck_assert_int_lt (n_cells (&stage), ROWS * (ROWS + 1) / 3);
}
END_TEST

START_TEST (bands_stay_while_what_changes_moves_a_little)
{
  Stage stage = { 0 };
  set_cells (&stage, 3, 4, 30, 9);
  set_cells (&stage, 3, 15, 12, 20);
  find (&stage, HW_MOST_BANDS);
  HwBands before = stage.bands;
  forget_cells (&stage);
  set_cells (&stage, 4, 4, 31, 9);
  set_cells (&stage, 4, 15, 13, 19);
  find (&stage, HW_MOST_BANDS);
  is_held (&stage, HW_MOST_BANDS);
  ck_assert_int_eq (stage.bands.n, before.n);
  for (int i = 0; i <= before.n; i++)
    ck_assert_int_eq (stage.bands.edges[i], before.edges[i]);
}
END_TEST

START_TEST (bands_become_others_when_they_would_hold_much_more)
{
  Stage stage = { 0 };
  set_cells (&stage, 3, 2, 30, 14);
  find (&stage, 3);
  forget_cells (&stage);
  set_cells (&stage, 3, 10, 30, 12);
  find (&stage, 3);
  is_held (&stage, 3);
  ck_assert_int_eq (n_cells (&stage), 27 * 2);
}
END_TEST

START_TEST (all_that_changed_is_held_from_picture_to_picture)
{
  for (guint32 seed = 1; seed <= 60; seed++)
    {
      Stage stage = { 0 };
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      int most = g_rand_int_range (rand, 1, HW_MOST_BANDS + 1);
      for (int picture = 0; picture < 4; picture++)
        {
          forget_cells (&stage);
          int n_set = g_rand_int_range (rand, 0, ROWS * COLUMNS / 4);
          for (int i = 0; i < n_set; i++)
            stage.cells[g_rand_int_range (rand, 0, ROWS * COLUMNS)] = true;
          find (&stage, most);
          is_held (&stage, most);
        }
    }
}
END_TEST

START_TEST (everything_changed_is_one_in_each_band)
{
  Stage stage = { 0 };
  set_cells (&stage, 0, 0, COLUMNS, ROWS);
  find (&stage, 1);
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
  tcase_add_test (few, two_that_nearly_touch_become_one);
  tcase_add_test (few, of_three_beside_one_another_the_nearest_are_joined);
  tcase_add_test (few, everything_changed_is_one_in_each_band);
  suite_add_tcase (suite, few);
  TCase *many = tcase_create ("many");
  tcase_add_test (many, a_line_that_falls_away_is_followed_in_steps);
  tcase_add_test (many, bands_stay_while_what_changes_moves_a_little);
  tcase_add_test (many, bands_become_others_when_they_would_hold_much_more);
  tcase_add_test (many, all_that_changed_is_held_from_picture_to_picture);
  suite_add_tcase (suite, many);
  return suite;
}
