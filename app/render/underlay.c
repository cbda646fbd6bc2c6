// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * underlay - a photo or scan under the drawing: PNG, inside the document or a local file; anything else is left out. The network is
 * never asked.
 */
#include "painter-private.h"

#include <string.h>

/* Largest image read, bytes of PNG and pixels, so that a drawing never takes long. */
#define MOST_PNG_BYTES (32u * 1024 * 1024)
#define MOST_PIXELS (40.0 * 1000 * 1000)
/* Where the header chunk of a PNG holds its size (PNG specification, second edition, 11.2.2). */
#define PNG_WIDTH_AT 16
#define PNG_HEADER_BYTES 24

typedef struct
{
  const guchar *bytes;
  gsize size, at;
} PngSource;

static cairo_status_t
read_png (void *closure, unsigned char *to, unsigned int length)
{
  PngSource *source = closure;
  if (length > source->size - source->at)
    return CAIRO_STATUS_READ_ERROR;
  memcpy (to, source->bytes + source->at, length);
  source->at += length;
  return CAIRO_STATUS_SUCCESS;
}

static guint32
big_endian (const guchar *bytes)
{
  return (guint32)bytes[0] << 24 | (guint32)bytes[1] << 16 | (guint32)bytes[2] << 8 | bytes[3];
}

/* The image's bytes: decoded from a data URI or read from an absolute path or file URI. NULL if it is anything else. */
static GBytes *
load_bytes (const char *href)
{
  static const char embedded[] = "data:image/png;base64,";
  gsize size;

  if (g_ascii_strncasecmp (href, embedded, strlen (embedded)) == 0)
    {
      guchar *decoded = g_base64_decode (href + strlen (embedded), &size);
      return g_bytes_new_take (decoded, size);
    }
  g_autofree char *path = g_path_is_absolute (href) ? g_strdup (href) : g_filename_from_uri (href, NULL, NULL);
  g_autoptr (GMappedFile) file
      = path && g_file_test (path, G_FILE_TEST_IS_REGULAR) ? g_mapped_file_new (path, FALSE, NULL) : NULL;
  return file ? g_mapped_file_get_bytes (file) : NULL;
}

static cairo_surface_t *
load_image (const char *href)
{
  g_autoptr (GBytes) bytes = load_bytes (href);
  PngSource source = { 0 };

  if (!bytes)
    return NULL;
  source.bytes = g_bytes_get_data (bytes, &source.size);
  if (source.size < PNG_HEADER_BYTES || source.size > MOST_PNG_BYTES
      || (double)big_endian (source.bytes + PNG_WIDTH_AT) * big_endian (source.bytes + PNG_WIDTH_AT + 4) > MOST_PIXELS)
    return NULL;
  cairo_surface_t *image = cairo_image_surface_create_from_png_stream (read_png, &source);
  if (cairo_surface_status (image) == CAIRO_STATUS_SUCCESS)
    return image;
  cairo_surface_destroy (image);
  return NULL;
}

/* Image pixels to the drawing: into the image's box, by its calibration to the hole frame, by the view. */
static void
draw_image (Painter *painter, const Part *part, cairo_surface_t *image)
{
  cairo_t *cr = painter->cr;
  Box box = part->image_box;
  double width = cairo_image_surface_get_width (image), height = cairo_image_surface_get_height (image);
  Affine into_box = { (box.x1 - box.x0) / width, 0, 0, (box.y1 - box.y0) / height, box.x0, box.y0 };
  Affine t = affine_then (affine_then (into_box, part->placement), painter->to_drawing), inverse;
  cairo_matrix_t matrix;

  if (!affine_is_finite (t) || !affine_invert (t, &inverse))
    return;
  cairo_matrix_init (&matrix, t.xx, t.yx, t.xy, t.yy, t.x0, t.y0);
  cairo_save (cr);
  cairo_transform (cr, &matrix);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_clip (cr);
  cairo_set_source_surface (cr, image, 0, 0);
  cairo_pattern_set_extend (cairo_get_source (cr), CAIRO_EXTEND_PAD);
  cairo_paint_with_alpha (cr, isfinite (part->opacity) ? CLAMP (part->opacity, 0, 1) : 1);
  if (painter->ink == PAINT_GREY)
    {
      cairo_set_operator (cr, CAIRO_OPERATOR_HSL_SATURATION);
      cairo_set_source_rgb (cr, 0.5, 0.5, 0.5);
      cairo_paint (cr);
    }
  cairo_restore (cr);
}

void
paint_underlay (Painter *painter, size_t i)
{
  const Part *part = hole_part (painter->hole, i);
  cairo_surface_t *image = part->href ? load_image (part->href) : NULL;

  if (!image)
    return;
  draw_image (painter, part, image);
  cairo_surface_destroy (image);
}
