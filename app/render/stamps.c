// SPDX-License-Identifier: GPL-3.0-or-later
/* stamps - labels as small pictures: a plate with its edge and its words is put down in one go, at every frame of a drag, for as long as it says the same. */
#include "stamps-private.h"

#include <math.h>
#include <string.h>

/* More labels than some minutes of dragging bring up; one takes about 8 kB. */
#define MOST_STAMPS 512
/* A label as large as this, device px, is drawn afresh: nothing asks for one, and it would be a picture, not a stamp. */
#define MOST_SIDE_PX 4096

typedef struct
{
  StampKey key;      /* its text is its own */
  int width, height; /* of the box, device px */
  cairo_surface_t *image;
} Stamp;

struct _Stamps
{
  GHashTable *stamps; /* of Stamp by its key */
  double scale;       /* device px in a user unit, of all of them */
};

static guint
stamp_hash (gconstpointer data)
{
  const StampKey *key = data;
  return g_str_hash (key->text) ^ g_double_hash (&key->unit_px) ^ (key->look << 4);
}

static gboolean
stamp_equal (gconstpointer a, gconstpointer b)
{
  const StampKey *p = a, *q = b;
  return p->look == q->look && p->unit_px == q->unit_px && strcmp (p->text, q->text) == 0;
}

static void
stamp_free (gpointer data)
{
  Stamp *stamp = data;
  cairo_surface_destroy (stamp->image);
  g_free ((char *)stamp->key.text);
  g_free (stamp);
}

static Stamps *
stamps_new (void)
{
  Stamps *stamps = g_new0 (Stamps, 1);
  stamps->stamps = g_hash_table_new_full (stamp_hash, stamp_equal, NULL, stamp_free);
  return stamps;
}

void
stamps_free (Stamps *stamps)
{
  if (stamps == NULL)
    return;
  g_hash_table_unref (stamps->stamps);
  g_free (stamps);
}

static Stamp *
stamp_new (const StampKey *key, int width, int height, double scale, StampDraw draw, gconstpointer data)
{
  Stamp *stamp = g_new0 (Stamp, 1);
  stamp->key = *key;
  stamp->key.text = g_strdup (key->text);
  stamp->width = width;
  stamp->height = height;
  stamp->image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width + 2 * STAMP_ROOM_PX, height + 2 * STAMP_ROOM_PX);
  cairo_t *cr = cairo_create (stamp->image);
  cairo_scale (cr, scale, scale);
  double room = STAMP_ROOM_PX / scale;
  draw (cr, (Box){ room, room, room + width / scale, room + height / scale }, data);
  cairo_destroy (cr);
  cairo_surface_flush (stamp->image);
  return stamp;
}

/* The label that is kept, or is from now on. */
static const Stamp *
find_stamp (Stamps *stamps, const StampKey *key, int width, int height, StampDraw draw, gconstpointer data)
{
  Stamp *stamp = g_hash_table_lookup (stamps->stamps, key);
  if (stamp != NULL && stamp->width == width && stamp->height == height)
    return stamp;
  if (g_hash_table_size (stamps->stamps) >= MOST_STAMPS)
    g_hash_table_remove_all (stamps->stamps);
  stamp = stamp_new (key, width, height, stamps->scale, draw, data);
  g_hash_table_replace (stamps->stamps, &stamp->key, stamp);
  return stamp;
}

/* Pictures of another scale are of no use any more. */
static Stamps *
stamps_of_scale (RenderWords *words, double scale)
{
  Stamps **stamps = words_stamps (words);
  if (*stamps == NULL)
    *stamps = stamps_new ();
  if ((*stamps)->scale != scale)
    g_hash_table_remove_all ((*stamps)->stamps);
  (*stamps)->scale = scale;
  return *stamps;
}

/* The scale of the surface itself. */
static double
device_scale (cairo_t *cr)
{
  double across, down;
  cairo_surface_get_device_scale (cairo_get_group_target (cr), &across, &down);
  return across;
}

/* The user's place that is nearest to this one and on a corner of four device pixels. */
static Vec2
whole_px (cairo_t *cr, double x, double y)
{
  double device = device_scale (cr);
  cairo_user_to_device (cr, &x, &y);
  x = round (x * device) / device;
  y = round (y * device) / device;
  cairo_device_to_user (cr, &x, &y);
  return vec2 (x, y);
}

Box
stamp_box (cairo_t *cr, Box box)
{
  double scale = words_scale (cr);
  if (!(scale > 0))
    return box;
  Vec2 corner = whole_px (cr, box.x0, box.y0);
  return (Box){ corner.x, corner.y, corner.x + round ((box.x1 - box.x0) * scale) / scale,
                corner.y + round ((box.y1 - box.y0) * scale) / scale };
}

bool
stamp_draw (RenderWords *words, cairo_t *cr, const StampKey *key, Box box, StampDraw draw, gconstpointer data)
{
  double scale = words_scale (cr), device = device_scale (cr), x = box.x0, y = box.y0;
  double width = round ((box.x1 - box.x0) * scale), height = round ((box.y1 - box.y0) * scale);
  cairo_user_to_device (cr, &x, &y);
  if (!(scale > 0) || !(width >= 1 && width <= MOST_SIDE_PX) || !(height >= 1 && height <= MOST_SIDE_PX)
      || !words_is_near (x * device, y * device))
    return false;
  const Stamp *stamp = find_stamp (stamps_of_scale (words, scale), key, (int)width, (int)height, draw, data);
  cairo_matrix_t saved;
  cairo_get_matrix (cr, &saved);
  cairo_identity_matrix (cr);
  cairo_scale (cr, 1 / device, 1 / device);
  cairo_set_source_surface (cr, stamp->image, round (x * device) - STAMP_ROOM_PX, round (y * device) - STAMP_ROOM_PX);
  cairo_paint (cr);
  cairo_set_matrix (cr, &saved);
  return true;
}
