// SPDX-License-Identifier: GPL-3.0-or-later
/* The map of aims as a picture file. */
#include "render-labels.h"

#include <string.h>

/* No picture is higher than this many times its width; design units about the hole. */
#define MOST_HEIGHT 3.0
#define MARGIN_PX 16.0

static cairo_status_t
append_bytes (void *bytes, const unsigned char *data, unsigned length)
{
  g_byte_array_append (bytes, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* What there is to see: the hole and every aim. */
static Box
extent_of (const PlanScene *scene)
{
  const AimMap *map = scene->aims;
  Box box = hole_extent (scene->hole);
  for (size_t t = 0; map != NULL && t < map->n_turns; t++)
    {
      double direction = map->first_rad + (double)t * map->turn_step_rad;
      box = box_with_point (box, vec2_add (map->ball, vec2_scale (vec2 (cos (direction), sin (direction)), map->carry_m)));
    }
  return box;
}

static unsigned
mask_of (const char *const *names)
{
  unsigned mask = 0;
  for (int i = 0; overlay_table[i].name != NULL; i++)
    if (g_strv_contains (names, overlay_table[i].name))
      mask |= 1u << i;
  return mask;
}

GBytes *
render_aims_png (const PlanScene *scene, LengthUnit units, int width_px, GError **error)
{
  static const char *const shown[] = { "aims", "pattern", "shot", NULL };
  Box box = extent_of (scene);
  double shape = (box.y1 - box.y0) / fmax (box.x1 - box.x0, 1);
  int height_px = (int)(width_px * fmin (MOST_HEIGHT, fmax (1, shape)));
  RenderView view = { .px_per_m = 1, .width_px = width_px, .height_px = height_px, .unit_px = 1, .units = units };
  view_fit (&view, box, MARGIN_PX);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width_px, height_px);
  cairo_t *cr = cairo_create (surface);
  render_hole (cr, scene->hole, &view, scene->ink);
  g_autoptr (GArray) words = g_array_new (FALSE, FALSE, sizeof (Box));
  render_hole_words (scene->hole, &view, words);
  PlanScene clear = *scene;
  clear.taken = (const Box *)(void *)words->data;
  clear.n_taken = words->len;
  render_overlays (cr, &clear, &view, mask_of (shown));
  cairo_status_t status = cairo_status (cr);
  cairo_destroy (cr);
  GByteArray *bytes = g_byte_array_new ();
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, append_bytes, bytes);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    return g_byte_array_free_to_bytes (bytes);
  g_byte_array_unref (bytes);
  g_set_error (error, RENDER_ERROR, RENDER_ERROR_WRITE, "the picture cannot be made: %s", cairo_status_to_string (status));
  return NULL;
}
