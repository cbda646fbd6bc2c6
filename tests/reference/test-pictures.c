// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * pictures - shape files as this program reads and traces them, against rsvg-convert's picture of the same file.
 *
 * Every shape is filled flat black on white, so what is compared is geometry: shape elements, path commands, transforms, fill rules.
 */
#include "painter-private.h"
#include "suite.h"
#include "svg.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>

/* Most the pictures may differ, as a mean over all pixels of the share of full scale. Two good rasterisers differ along edges only. */
#define MOST_DIFFERENCE 0.005
/* No pixel deep inside or outside a shape may differ: this share of pixels may be off by more than half of full scale. */
#define MOST_FLIPPED 0.0005
#define WIDTH_PX 480

static const char *const files[] = {
  "rectangles", "rounds", "polygons", "lines", "curves", "arcs", "numbers", "transforms", "fill-rules",
};

static cairo_surface_t *
blank (int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_destroy (cr);
  return surface;
}

/* Every area as read, in the order of the document, on white. */
static cairo_surface_t *
our_picture (const char *path)
{
  g_autoptr (Hole) hole = svg_read_file (path, NULL, NULL);
  ck_assert_msg (hole != NULL, "%s cannot be read", path);
  Box box = hole_info (hole)->view_box;
  double scale = WIDTH_PX / (box.x1 - box.x0);
  cairo_surface_t *surface = blank (WIDTH_PX, (int)round ((box.y1 - box.y0) * scale));
  cairo_t *cr = cairo_create (surface);
  Affine to_picture = { scale, 0, 0, -scale, -scale * box.x0, scale * box.y1 };

  ck_assert_uint_gt (hole_n_parts (hole), 0);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      cairo_set_fill_rule (cr, part->even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
      trace_path (cr, &part->path, to_picture);
      cairo_fill (cr);
    }
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static cairo_status_t
read_bytes (void *closure, unsigned char *to, unsigned int length)
{
  return g_input_stream_read_all (closure, to, length, &(gsize){ 0 }, NULL, NULL) ? CAIRO_STATUS_SUCCESS
                                                                                  : CAIRO_STATUS_READ_ERROR;
}

static cairo_surface_t *
their_picture (const char *path, int width, int height)
{
  g_autofree char *width_text = g_strdup_printf ("%d", width), *height_text = g_strdup_printf ("%d", height);
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) rsvg
      = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, "rsvg-convert", "--background-color=white", "-w", width_text,
                          "-h", height_text, "-f", "png", path, NULL);
  ck_assert_msg (rsvg != NULL, "rsvg-convert does not start: %s", error ? error->message : "");
  cairo_surface_t *png = cairo_image_surface_create_from_png_stream (read_bytes, g_subprocess_get_stdout_pipe (rsvg));
  ck_assert_int_eq (cairo_surface_status (png), CAIRO_STATUS_SUCCESS);
  ck_assert (g_subprocess_wait_check (rsvg, NULL, NULL));
  ck_assert_int_eq (cairo_image_surface_get_width (png), width);
  ck_assert_int_eq (cairo_image_surface_get_height (png), height);

  cairo_surface_t *surface = blank (width, height);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_surface (cr, png, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (png);
  cairo_surface_flush (surface);
  return surface;
}

/* Green channel 0..255: the pictures are grey. */
static int
grey_at (cairo_surface_t *surface, int x, int y)
{
  guint32 pixel;
  memcpy (&pixel, cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + 4 * x, 4);
  return (int)(pixel >> 8 & 0xff);
}

START_TEST (drawn_shapes_look_as_another_renderer_draws_them)
{
  const char *name = files[_i];
  g_autofree char *file = g_strconcat (name, ".svg", NULL);
  g_autofree char *path = g_build_filename (g_getenv ("HW_TEST_DATA"), "render", file, NULL);
  cairo_surface_t *ours = our_picture (path);
  int width = cairo_image_surface_get_width (ours), height = cairo_image_surface_get_height (ours), n_flipped = 0;
  cairo_surface_t *theirs = their_picture (path, width, height);
  double difference = 0, inked = 0;

  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        int off = abs (grey_at (ours, x, y) - grey_at (theirs, x, y));
        difference += off / 255.0;
        n_flipped += off > 127;
        inked += grey_at (theirs, x, y) < 128;
      }
  double n_pixels = (double)width * height;
  g_printerr ("%-12s mean difference %.4f %%, %d pixels flipped, %.1f %% inked\n", name, 100 * difference / n_pixels, n_flipped,
              100 * inked / n_pixels);
  ck_assert_msg (inked > 0.1 * n_pixels && inked < 0.9 * n_pixels, "%s shows nothing to compare", name);
  ck_assert_msg (difference / n_pixels < MOST_DIFFERENCE, "%s differs by %.3f %%", name, 100 * difference / n_pixels);
  ck_assert_msg (n_flipped <= MOST_FLIPPED * n_pixels, "%s: %d pixels are black in one and white in the other", name,
                 n_flipped);
  cairo_surface_destroy (ours);
  cairo_surface_destroy (theirs);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("pictures");
  TCase *tcase = tcase_create ("shapes");
  tcase_add_loop_test (tcase, drawn_shapes_look_as_another_renderer_draws_them, 0, G_N_ELEMENTS (files));
  suite_add_tcase (suite, tcase);
  return suite;
}
