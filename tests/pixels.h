// SPDX-License-Identifier: GPL-3.0-or-later
/* pixels - pictures to ask questions of, and small holes to paint them from: what the tests of drawing share. */
#ifndef HOLEWRIGHT_PIXELS_H
#define HOLEWRIGHT_PIXELS_H

#include "render.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

/* Size of the pictures; the plain view shows 1 px a metre with (0, 0) in the middle. */
#define WIDTH 400
#define HEIGHT 300

static inline cairo_surface_t *
canvas (int width, int height)
{
  return cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
}

/* Premultiplied 0xAARRGGBB. */
static inline unsigned
pixel (cairo_surface_t *surface, int x, int y)
{
  guint32 value;
  cairo_surface_flush (surface);
  memcpy (&value, cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + 4 * x, 4);
  return value;
}

static inline unsigned
opaque (Colour colour)
{
  return 0xff000000u | (unsigned)lround (colour.red * 255) << 16 | (unsigned)lround (colour.green * 255) << 8
         | (unsigned)lround (colour.blue * 255);
}

/* Is each channel of `a` within `by` of `b`? */
static inline bool
is_near (unsigned a, unsigned b, int by)
{
  for (int shift = 0; shift < 24; shift += 8)
    if (abs ((int)(a >> shift & 0xff) - (int)(b >> shift & 0xff)) > by)
      return false;
  return true;
}

static inline int
count_near (cairo_surface_t *surface, unsigned rgb, int by)
{
  int n = 0;
  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      n += is_near (pixel (surface, x, y), rgb, by) && pixel (surface, x, y) >> 24 == 0xff;
  return n;
}

/* The row's pixels, of a surface that was flushed. */
static inline const guint32 *
row_of (cairo_surface_t *surface, int y)
{
  return (const guint32 *)(const void *)(cairo_image_surface_get_data (surface)
                                         + (ptrdiff_t)y * cairo_image_surface_get_stride (surface));
}

static inline Box
ink_box (cairo_surface_t *surface)
{
  Box box = box_empty ();
  int width = cairo_image_surface_get_width (surface);
  cairo_surface_flush (surface);
  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    {
      const guint32 *row = row_of (surface, y);
      int x0 = 0, x1 = width;
      while (x0 < width && row[x0] >> 24 == 0)
        x0++;
      while (x1 > x0 && row[x1 - 1] >> 24 == 0)
        x1--;
      if (x0 < x1)
        box = box_union (box, (Box){ x0, y, x1, y + 1 });
    }
  return box;
}

/* Linear light of an sRGB byte, IEC 61966-2-1. */
static inline double
light (unsigned byte)
{
  double v = (byte & 0xff) / 255.0;
  return v <= 0.04045 ? v / 12.92 : pow ((v + 0.055) / 1.055, 2.4);
}

static inline double
luminance (unsigned rgb)
{
  return 0.2126 * light (rgb >> 16) + 0.7152 * light (rgb >> 8) + 0.0722 * light (rgb);
}

/* ---- holes ---- */

static inline Part *
new_square (Kind kind, double half_m)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, (Box){ -half_m, -half_m, half_m, half_m }, 0, 0);
  return part;
}

static inline const Part *
square (Kind kind, double half_m)
{
  return part_seal (new_square (kind, half_m));
}

static inline Part *
new_point (Kind kind, Vec2 at)
{
  Part *part = part_new (kind);
  part->at = at;
  part->radius_m = 1;
  return part;
}

static inline const Part *
point (Kind kind, Vec2 at)
{
  return part_seal (new_point (kind, at));
}

static inline Hole *
hole_of (const Part *a, const Part *b, const Part *c)
{
  const Part *parts[] = { a, b, c };
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts, a ? b ? c ? 3 : 2 : 1 : 0, NULL);
  hole_info_clear (&info);
  return hole;
}

static inline RenderView
plain_view (void)
{
  return (RenderView){ .px_per_m = 1, .width_px = WIDTH, .height_px = HEIGHT, .unit_px = 1 };
}

static inline cairo_surface_t *
picture_of (Hole *hole, const RenderView *view, PaintInk ink)
{
  cairo_surface_t *surface = canvas ((int)view->width_px, (int)view->height_px);
  cairo_t *cr = cairo_create (surface);
  render_hole (cr, hole, view, ink);
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  return surface;
}

/* A cairo stream that ends in a GString. */
static inline cairo_status_t
append_text (void *closure, const unsigned char *data, unsigned int length)
{
  g_string_append_len (closure, (const char *)data, length);
  return CAIRO_STATUS_SUCCESS;
}

#endif
