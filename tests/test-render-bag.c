// SPDX-License-Identifier: GPL-3.0-or-later
/* render, the rows of a bag: one axis for all clubs, where carry, spread, standard error and gap stand on it, and how a spread of the level looks. */
#include "bag.h"
#include "pixels.h"
#include "suite.h"

#define ROW_WIDTH 400
#define ROW_HEIGHT 47
/* Middles of the lines that a row holds, px at one unit a pixel. */
#define BAR_Y 15
#define ERROR_Y 24
#define GAP_Y 38
#define INK_RGB 0xff22303cu
#define ACCENT_RGB 0xff8a2f6bu
#define SECOND_RGB 0xffc46a1bu

static Bag *
read_text (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "no error");
  return bag;
}

/* Two clubs 20 yd apart, the first with a spread of its own and fitted, the second with that of the level. */
static Bag *
plain_bag (void)
{
  return read_text ("club,carry_yd,carry_sd_yd,shots,carry_se_yd\na,200,15,20,5\nb,180,,,\n");
}

static cairo_surface_t *
row_picture (const RenderAxis *axis, const Bag *bag, size_t i)
{
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, ROW_WIDTH, ROW_HEIGHT);
  cairo_t *cr = cairo_create (picture);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  render_bag_row (cr, axis, bag, i, NULL, NULL, PAINT_COLOUR);
  cairo_destroy (cr);
  cairo_surface_flush (picture);
  return picture;
}

/* First and last pixel of a colour on a line; false if there is none. */
static bool
stretch_of (cairo_surface_t *picture, int y, unsigned rgb, int *x0, int *x1)
{
  *x0 = *x1 = -1;
  for (int x = 0; x < ROW_WIDTH; x++)
    if (is_near (pixel (picture, x, y), rgb, 40))
      {
        *x0 = *x0 < 0 ? x : *x0;
        *x1 = x;
      }
  return *x0 >= 0;
}

static double
place (const RenderAxis *axis, double carry_yd)
{
  return axis->zero_px + carry_yd * METRES_PER_YARD * axis->px_per_m;
}

START_TEST (every_club_with_its_spread_has_room_on_the_axis)
{
  g_autoptr (Bag) bag = read_text ("club,carry_yd,carry_sd_yd\ndriver,230,14\nwedge,62,6\n");
  RenderAxis axis = render_bag_axis (bag, ROW_WIDTH, 1, UNIT_YARDS);
  double low_m, high_m;
  club_two_of_three (bag_club (bag, 0), &low_m, &high_m);
  ck_assert_double_le (axis.zero_px + high_m * axis.px_per_m, ROW_WIDTH - 9);
  club_two_of_three (bag_club (bag, 1), &low_m, &high_m);
  ck_assert_double_ge (axis.zero_px + low_m * axis.px_per_m, 9);
  /* It begins at 50 yd. */
  ck_assert_double_eq_tol (place (&axis, 50), 10, 1e-9);
}
END_TEST

START_TEST (an_empty_bag_has_an_axis_too)
{
  g_autoptr (Bag) none = bag_new ("bag.csv", UNIT_METRES, LEVEL_SCRATCH_MEN);
  RenderAxis axis = render_bag_axis (none, 0, 1, UNIT_METRES);
  ck_assert (isfinite (axis.px_per_m) && axis.px_per_m > 0 && isfinite (axis.zero_px));
  cairo_surface_t *picture = row_picture (&axis, none, 0);
  ck_assert_int_eq (count_near (picture, 0xffffffu, 0), ROW_WIDTH * ROW_HEIGHT);
  cairo_surface_destroy (picture);
}
END_TEST

START_TEST (the_carry_stands_at_its_distance_with_its_error_to_both_sides)
{
  g_autoptr (Bag) bag = plain_bag ();
  RenderAxis axis = render_bag_axis (bag, ROW_WIDTH, 1, UNIT_YARDS);
  cairo_surface_t *picture = row_picture (&axis, bag, 0);
  int x0, x1;
  ck_assert (stretch_of (picture, BAR_Y, INK_RGB, &x0, &x1));
  ck_assert_double_eq_tol ((x0 + x1 + 1) / 2.0, place (&axis, 200), 1);
  ck_assert (stretch_of (picture, ERROR_Y, ACCENT_RGB, &x0, &x1));
  ck_assert_double_eq_tol (x0, place (&axis, 195), 1.5);
  ck_assert_double_eq_tol (x1 + 1, place (&axis, 205), 1.5);
  cairo_surface_destroy (picture);
  picture = row_picture (&axis, bag, 1);
  ck_assert (!stretch_of (picture, ERROR_Y, ACCENT_RGB, &x0, &x1));
  cairo_surface_destroy (picture);
}
END_TEST

START_TEST (a_bar_holds_two_of_three_shots_and_is_empty_where_the_level_says_so)
{
  g_autoptr (Bag) bag = plain_bag ();
  RenderAxis axis = render_bag_axis (bag, ROW_WIDTH, 1, UNIT_YARDS);
  cairo_surface_t *own = row_picture (&axis, bag, 0), *level = row_picture (&axis, bag, 1);
  /* 15 yd of standard deviation: two of three within 14.5. */
  int inside = (int)place (&axis, 200 - 12), outside = (int)place (&axis, 200 - 17);
  ck_assert_uint_eq (pixel (own, outside, BAR_Y) & 0xffffff, 0xffffff);
  ck_assert_uint_ne (pixel (own, inside, BAR_Y) & 0xffffff, 0xffffff);
  ck_assert_uint_eq (pixel (level, (int)place (&axis, 180) - 4, BAR_Y) & 0xffffff, 0xffffff);
  cairo_surface_destroy (own);
  cairo_surface_destroy (level);
}
END_TEST

START_TEST (a_wide_gap_spans_from_carry_to_carry_and_an_even_one_is_not_drawn)
{
  g_autoptr (Bag) bag = plain_bag ();
  RenderAxis axis = render_bag_axis (bag, ROW_WIDTH, 1, UNIT_YARDS);
  cairo_surface_t *picture = row_picture (&axis, bag, 0);
  int x0, x1;
  ck_assert (stretch_of (picture, GAP_Y, SECOND_RGB, &x0, &x1));
  ck_assert_double_eq_tol (x0, place (&axis, 180), 2);
  ck_assert_double_eq_tol (x1 + 1, place (&axis, 200), 2);
  cairo_surface_destroy (picture);
  ck_assert_double_eq (render_bag_row_height (bag, 0), RENDER_BAG_BAR + RENDER_BAG_GAP);
  ck_assert_double_eq (render_bag_row_height (bag, 1), RENDER_BAG_BAR);
  g_autoptr (Bag) even = read_text ("club,carry_yd\na,200\nb,190\n");
  ck_assert_double_eq (render_bag_row_height (even, 0), RENDER_BAG_BAR);
}
END_TEST

START_TEST (words_that_would_run_over_the_end_stand_on_the_other_side)
{
  g_autoptr (Bag) bag = plain_bag ();
  RenderAxis axis = render_bag_axis (bag, ROW_WIDTH, 1, UNIT_YARDS);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, ROW_WIDTH + 200, ROW_HEIGHT);
  cairo_t *cr = cairo_create (picture);
  render_bag_row (cr, &axis, bag, 0, "185 to 215 yd, two of three", NULL, PAINT_COLOUR);
  cairo_destroy (cr);
  ck_assert_double_le (ink_box (picture).x1, ROW_WIDTH);
  int n_left = 0;
  for (int x = (int)place (&axis, 150); x < (int)place (&axis, 170); x++)
    for (int y = BAR_Y - 5; y < BAR_Y + 5; y++)
      n_left += (pixel (picture, x, y) >> 24) > 128;
  ck_assert_int_gt (n_left, 5);
  cairo_surface_destroy (picture);
}
END_TEST

Suite *
suite_make (void)
{
  const struct
  {
    const char *name;
    const TTest *tests[4];
  } cases[] = {
    { "axis", { every_club_with_its_spread_has_room_on_the_axis, an_empty_bag_has_an_axis_too } },
    { "row",
      { the_carry_stands_at_its_distance_with_its_error_to_both_sides,
        a_bar_holds_two_of_three_shots_and_is_empty_where_the_level_says_so,
        a_wide_gap_spans_from_carry_to_carry_and_an_even_one_is_not_drawn,
        words_that_would_run_over_the_end_stand_on_the_other_side } },
  };
  Suite *suite = suite_create ("render-bag");
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TCase *tcase = tcase_create (cases[i].name);
      for (size_t k = 0; k < G_N_ELEMENTS (cases[i].tests) && cases[i].tests[k] != NULL; k++)
        tcase_add_test (tcase, cases[i].tests[k]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
