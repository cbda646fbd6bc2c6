// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * foreign - drawings in the manner of other programs as their parts and colours are read, against rsvg-convert's picture of the same file: at each
 * point away from an edge the topmost part there must have the colour that the picture shows.
 */
#include "suite.h"
#include "svg.h"

#include <cairo.h>
#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>

/* Pixels to and fro from one point looked at to the next, pixels to an edge or its line that blur it, and channel steps that are rounding. */
#define STEP_PX 3
#define EDGE_PX 4.0
#define CHANNEL_SLACK 2

typedef struct
{
  const char *name;
  double px_per_unit;
  Box without[2]; /* where the file has texts and open lines, which are no parts; file frame */
} Drawing;

static const Drawing drawings[] = {
  { "foreign-layers.svg", 3, { { 148, 238, 170, 248 }, { 0, 0, -1, -1 } } },
  { "foreign-classes.svg", 1.5, { { 10, 0, 80, 30 }, { 116, 216, 134, 554 } } },
};

static cairo_status_t
read_bytes (void *closure, unsigned char *to, unsigned int length)
{
  return g_input_stream_read_all (closure, to, length, &(gsize){ 0 }, NULL, NULL) ? CAIRO_STATUS_SUCCESS
                                                                                  : CAIRO_STATUS_READ_ERROR;
}

static cairo_surface_t *
their_picture (const char *path, double px_per_unit, const SvgFragment *fragment)
{
  g_autofree char *width = g_strdup_printf ("%d", (int)(fragment->sheet_width * px_per_unit));
  g_autofree char *height = g_strdup_printf ("%d", (int)(fragment->sheet_height * px_per_unit));
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) rsvg
      = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, "rsvg-convert", "--background-color=white", "-w", width, "-h",
                          height, "-f", "png", path, NULL);
  ck_assert_msg (rsvg != NULL, "rsvg-convert does not start: %s", error ? error->message : "");
  cairo_surface_t *png = cairo_image_surface_create_from_png_stream (read_bytes, g_subprocess_get_stdout_pipe (rsvg));
  ck_assert_int_eq (cairo_surface_status (png), CAIRO_STATUS_SUCCESS);
  ck_assert (g_subprocess_wait_check (rsvg, NULL, NULL));
  return png;
}

/* The colour of each part, borrowed: "none" for one that only has a line. */
static const char **
colours_of (const SvgFragment *fragment)
{
  const char **colours = g_new0 (const char *, fragment->n_parts);
  for (size_t c = 0; c < fragment->n_colours; c++)
    for (size_t i = 0; i < fragment->colours[c].n_parts; i++)
      colours[fragment->colours[c].parts[i]] = fragment->colours[c].is_stroke ? "none" : fragment->colours[c].colour;
  return colours;
}

/* What should be seen at a point, 0xRRGGBB; -1 too near to an edge, or no plain colour. */
static long
expected_at (const SvgFragment *fragment, const char *const *colours, Vec2 point, double edge)
{
  long seen = 0xffffff;
  for (size_t i = 0; i < fragment->n_parts; i++)
    {
      const Outline *outline = fragment->parts[i]->outline;
      if (outline_distance (outline, point, NULL) < edge)
        return -1;
      if (outline_contains (outline, point) && strcmp (colours[i], "none") != 0)
        seen = colours[i][0] == '#' ? strtol (colours[i] + 1, NULL, 16) : -1;
    }
  return seen;
}

static bool
is_left_out (const Drawing *drawing, Vec2 point)
{
  return box_contains (drawing->without[0], point) || box_contains (drawing->without[1], point);
}

static bool
is_near (guint32 a, guint32 b)
{
  for (int shift = 0; shift < 24; shift += 8)
    if (abs ((int)(a >> shift & 0xff) - (int)(b >> shift & 0xff)) > CHANNEL_SLACK)
      return false;
  return true;
}

START_TEST (parts_and_colours_are_where_another_renderer_draws_them)
{
  const Drawing *drawing = &drawings[_i];
  g_autofree char *path = g_build_filename (g_getenv ("HW_TEST_DATA"), "svg", drawing->name, NULL);
  g_autoptr (GBytes) bytes = svg_read_contents (path, NULL);
  g_autoptr (SvgFragment) fragment = svg_read_fragment (bytes, path, NULL, NULL);
  ck_assert_ptr_nonnull (fragment);
  g_autofree const char **colours = colours_of (fragment);
  cairo_surface_t *theirs = their_picture (path, drawing->px_per_unit, fragment);
  int width = cairo_image_surface_get_width (theirs), height = cairo_image_surface_get_height (theirs);
  size_t n_points = 0, n_compared = 0, n_coloured = 0;
  for (int y = STEP_PX; y < height; y += STEP_PX)
    for (int x = STEP_PX; x < width; x += STEP_PX, n_points++)
      {
        Vec2 file = vec2 ((x + 0.5) / drawing->px_per_unit, (y + 0.5) / drawing->px_per_unit);
        long expected = expected_at (fragment, colours, vec2 (file.x, -file.y), EDGE_PX / drawing->px_per_unit);
        if (expected < 0 || is_left_out (drawing, file))
          continue;
        guint32 pixel;
        memcpy (&pixel, cairo_image_surface_get_data (theirs) + y * cairo_image_surface_get_stride (theirs) + 4 * x, 4);
        ck_assert_msg (is_near (pixel, (guint32)expected), "%s at %g,%g: %06lx, but the picture shows %06x", drawing->name,
                       file.x, file.y, expected, pixel & 0xffffff);
        n_compared++;
        n_coloured += expected != 0xffffff;
      }
  g_printerr ("%s: %zu of %zu points compared, %zu of them coloured\n", drawing->name, n_compared, n_points, n_coloured);
  ck_assert_uint_gt (n_compared, n_points / 2);
  ck_assert_uint_gt (n_coloured, n_points / 50);
  cairo_surface_destroy (theirs);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("foreign");
  TCase *tcase = tcase_create ("drawings");
  tcase_add_loop_test (tcase, parts_and_colours_are_where_another_renderer_draws_them, 0, G_N_ELEMENTS (drawings));
  suite_add_tcase (suite, tcase);
  return suite;
}
