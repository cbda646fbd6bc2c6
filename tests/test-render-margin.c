// SPDX-License-Identifier: GPL-3.0-or-later
/* render, what goes with the painted hole: underlays, swatches, scale bar and north arrow, as pixels. */
#include "pixels.h"
#include "suite.h"

/* ---- underlays ---- */

/* A red square of 8 x 8 px as the bytes of a PNG. */
static GString *
red_png (void)
{
  GString *bytes = g_string_new (NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 8, 8);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  ck_assert_int_eq (cairo_surface_write_to_png_stream (surface, append_text, bytes), CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (surface);
  return bytes;
}

/* An underlay 100 m wide and 80 m high whose top left corner is at (-50, 40). */
static Hole *
hole_on_underlay (const char *href)
{
  Part *part = part_new (KIND_UNDERLAY);
  part->href = g_strdup (href);
  part->opacity = 1;
  part->image_box = (Box){ -50, -40, 50, 40 };
  part->placement = affine_scaling (1, -1);
  return hole_of (part_seal (part), NULL, NULL);
}

START_TEST (an_underlay_lies_where_its_calibration_says)
{
  g_autoptr (GString) png = red_png ();
  g_autofree char *base64 = g_base64_encode ((const guchar *)png->str, png->len);
  g_autofree char *href = g_strconcat ("data:image/png;base64,", base64, NULL);
  g_autoptr (Hole) hole = hole_on_underlay (href);
  RenderView view = plain_view ();
  cairo_surface_t *colour = picture_of (hole, &view, PAINT_COLOUR), *grey = picture_of (hole, &view, PAINT_GREY);
  ck_assert_int_eq (count_near (colour, 0xffff0000u, 2), 100 * 80);
  ck_assert (is_near (pixel (colour, WIDTH / 2 - 49, HEIGHT / 2 - 39), 0xffff0000u, 2));
  unsigned p = pixel (grey, WIDTH / 2, HEIGHT / 2);
  ck_assert ((p >> 16 & 0xff) == (p & 0xff) && (p >> 8 & 0xff) == (p & 0xff));
  cairo_surface_destroy (colour);
  cairo_surface_destroy (grey);
}
END_TEST

START_TEST (an_underlay_that_cannot_be_read_is_left_out)
{
  g_autoptr (GString) png = red_png ();
  g_autofree char *half = g_base64_encode ((const guchar *)png->str, png->len / 2);
  g_autofree char *cut = g_strconcat ("data:image/png;base64,", half, NULL);
  const char *hrefs[] = { cut,
                          "data:image/png;base64,",
                          "data:image/png;base64,AAAA",
                          "http://[::1]/photo.png",
                          "file:///nowhere/photo.png",
                          "/",
                          "photo.png",
                          "",
                          "data:image/jpeg;base64,AAAA" };
  for (size_t i = 0; i < G_N_ELEMENTS (hrefs); i++)
    {
      g_autoptr (Hole) hole = hole_on_underlay (hrefs[i]);
      RenderView view = plain_view ();
      cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
      ck_assert_int_eq (count_near (surface, opaque (render_kind_wash (KIND_ROUGH)), 1), WIDTH * HEIGHT);
      cairo_surface_destroy (surface);
    }
}
END_TEST

/* ---- swatches and margin ---- */

START_TEST (a_swatch_fills_its_rectangle_and_no_more)
{
  Kind kind = (Kind)_i;
  cairo_surface_t *surface = canvas (60, 40);
  cairo_t *cr = cairo_create (surface);
  render_swatch (cr, kind, STAKES_RED, 10, 8, 30, 20, 1);
  cairo_destroy (cr);
  Box ink = ink_box (surface);
  ck_assert (ink.x0 >= 9 && ink.y0 >= 7 && ink.x1 <= 41 && ink.y1 <= 29);
  ck_assert (ink.x1 - ink.x0 >= 29 && ink.y1 - ink.y0 >= 19);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (a_swatch_of_a_penalty_area_shows_the_colour_of_its_stakes)
{
  const Colour red = { 0xc6 / 255.0, 0x2f / 255.0, 0x2f / 255.0 }, yellow = { 0xe0 / 255.0, 0xb4 / 255.0, 0 };
  for (int i = 0; i < 2; i++)
    {
      cairo_surface_t *surface = canvas (60, 40);
      cairo_t *cr = cairo_create (surface);
      render_swatch (cr, KIND_PENALTY_AREA, i == 0 ? STAKES_RED : STAKES_YELLOW, 10, 8, 30, 20, 1);
      cairo_destroy (cr);
      int n_red = count_near (surface, opaque (red), 24), n_yellow = count_near (surface, opaque (yellow), 24);
      ck_assert_msg (i == 0 ? n_red > 10 && n_yellow == 0 : n_yellow > 10 && n_red == 0, "%d red, %d yellow", n_red, n_yellow);
      cairo_surface_destroy (surface);
    }
}
END_TEST

START_TEST (the_scale_bar_is_as_long_as_it_says)
{
  /* At 1 px a yard the longest round length within 150 px is 100 yd. */
  RenderView view = plain_view ();
  view.px_per_m = 1 / METRES_PER_YARD;
  view.units = UNIT_YARDS;
  cairo_surface_t *surface = canvas (WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  render_scale_bar (cr, &view, 20.5, 20);
  cairo_destroy (cr);
  /* Only the end ticks are dark 4 px above the bar. */
  int first = -1, last = -1;
  for (int x = 0; x < 124; x++)
    if (luminance (pixel (surface, x, 16)) < 0.2 && pixel (surface, x, 16) >> 24 == 0xff)
      {
        first = first < 0 ? x : first;
        last = x;
      }
  ck_assert_int_eq (first, 20);
  ck_assert_int_eq (last, 120);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (north_is_drawn_only_when_it_is_known)
{
  RenderView view = plain_view ();
  cairo_surface_t *surface = canvas (WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  render_north (cr, &view, NAN, vec2 (100, 100));
  ck_assert (box_is_empty (ink_box (surface)));
  render_north (cr, &view, 35, vec2 (100, 100));
  ck_assert (!box_is_empty (ink_box (surface)));
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-margin");
  TCase *underlay = tcase_create ("underlay"), *margin = tcase_create ("margin");
  tcase_add_test (underlay, an_underlay_lies_where_its_calibration_says);
  tcase_add_test (underlay, an_underlay_that_cannot_be_read_is_left_out);
  tcase_add_loop_test (margin, a_swatch_fills_its_rectangle_and_no_more, 0, N_KINDS);
  tcase_add_test (margin, a_swatch_of_a_penalty_area_shows_the_colour_of_its_stakes);
  tcase_add_test (margin, the_scale_bar_is_as_long_as_it_says);
  tcase_add_test (margin, north_is_drawn_only_when_it_is_known);
  suite_add_tcase (suite, underlay);
  suite_add_tcase (suite, margin);
  return suite;
}
