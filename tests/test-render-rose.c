// SPDX-License-Identifier: GPL-3.0-or-later
/* render, the wind's rose: where the wind's tail stands, which wind a place means, and what is seen of it. */
#include "pixels.h"
#include "suite.h"

static RenderRose
plain_rose (void)
{
  return (RenderRose){ .centre_px = vec2 (60, 60),
                       .radius_px = 50,
                       .unit_px = 1,
                       .north_rad = PI / 2,
                       .wind_mps = NAN,
                       .from_deg = NAN,
                       .most_mps = 20 };
}

START_TEST (a_wind_from_the_west_has_its_tail_in_the_west)
{
  RenderRose rose = plain_rose ();
  rose.wind_mps = 10;
  rose.from_deg = 270;
  Vec2 tail = render_rose_tail (&rose);
  ck_assert_double_eq_tol (tail.x, 35, 1e-9);
  ck_assert_double_eq_tol (tail.y, 60, 1e-9);
}
END_TEST

START_TEST (on_a_drawing_turned_a_quarter_to_the_right_the_west_is_up)
{
  RenderRose rose = plain_rose ();
  rose.north_rad = 0;
  rose.wind_mps = 20;
  rose.from_deg = 270;
  Vec2 tail = render_rose_tail (&rose);
  ck_assert_double_eq_tol (tail.x, 60, 1e-9);
  ck_assert_double_eq_tol (tail.y, 10, 1e-9);
}
END_TEST

START_TEST (the_wind_picked_at_its_tail_is_that_wind)
{
  for (int i = 0; i < 72; i++)
    {
      RenderRose rose = plain_rose ();
      rose.north_rad = i * 0.31;
      rose.wind_mps = 0.5 + i * 0.2;
      rose.from_deg = i * 5;
      double wind_mps, from_deg;
      render_rose_pick (&rose, render_rose_tail (&rose), &wind_mps, &from_deg);
      ck_assert_double_eq_tol (wind_mps, rose.wind_mps, 1e-9);
      double turned = fabs (from_deg - rose.from_deg);
      ck_assert_double_lt (fmin (turned, 360 - turned), 1e-9);
      ck_assert (from_deg >= 0 && from_deg < 360);
    }
}
END_TEST

START_TEST (no_wind_is_stronger_than_the_rim_and_calm_is_the_middle)
{
  RenderRose rose = plain_rose ();
  double wind_mps, from_deg;
  render_rose_pick (&rose, vec2 (500, 60), &wind_mps, &from_deg);
  ck_assert_double_eq (wind_mps, 20);
  ck_assert_double_eq_tol (from_deg, 90, 1e-9);
  render_rose_pick (&rose, rose.centre_px, &wind_mps, &from_deg);
  ck_assert_double_eq (wind_mps, 0);
  ck_assert (isfinite (from_deg));
  ck_assert_double_eq (render_rose_tail (&rose).x, 60);
  rose.wind_mps = 500;
  rose.from_deg = 90;
  ck_assert_double_eq_tol (render_rose_tail (&rose).x, 110, 1e-9);
}
END_TEST

/* Accent pixels of the rose's left and of its right half. */
static void
count_accent (const RenderRose *rose, int *n_left, int *n_right)
{
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 120, 120);
  cairo_t *cr = cairo_create (picture);
  render_rose_disc (cr, rose);
  render_rose_wind (cr, rose);
  cairo_destroy (cr);
  cairo_surface_flush (picture);
  *n_left = *n_right = 0;
  for (int y = 0; y < 120; y++)
    for (int x = 0; x < 120; x++)
      if (is_near (pixel (picture, x, y), 0xff8a2f6bu, 30))
        ++*(x < 60 ? n_left : n_right);
  cairo_surface_destroy (picture);
}

START_TEST (the_wind_is_drawn_from_its_tail_over_the_middle)
{
  RenderRose rose = plain_rose ();
  int left, right, calm_left, calm_right;
  count_accent (&rose, &calm_left, &calm_right);
  rose.wind_mps = 15;
  rose.from_deg = 270;
  count_accent (&rose, &left, &right);
  ck_assert_int_gt (calm_left, 20);
  ck_assert_int_le (abs (calm_left - calm_right), 12);
  ck_assert_int_gt (left, calm_left + 30);
  ck_assert_int_gt (right, calm_right + 30);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-rose");
  TCase *rose = tcase_create ("rose");
  tcase_add_test (rose, a_wind_from_the_west_has_its_tail_in_the_west);
  tcase_add_test (rose, on_a_drawing_turned_a_quarter_to_the_right_the_west_is_up);
  tcase_add_test (rose, the_wind_picked_at_its_tail_is_that_wind);
  tcase_add_test (rose, no_wind_is_stronger_than_the_rim_and_calm_is_the_middle);
  tcase_add_test (rose, the_wind_is_drawn_from_its_tail_over_the_middle);
  suite_add_tcase (suite, rose);
  return suite;
}
