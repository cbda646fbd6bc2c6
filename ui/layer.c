// SPDX-License-Identifier: GPL-3.0-or-later
/* layer - the image of one frame, its size guessed from the frame before, as a render node. */
#include "layer.h"

#include "drawing.h"

/* Room left round the picture: a drag seldom moves its edges by more before the next few frames are drawn. */
#define ROOM_PX 32.0

void
hw_layer_clear (HwLayer *layer)
{
  layer->room = (Box){ 0 };
  g_clear_pointer (&layer->image, cairo_surface_destroy);
  g_clear_pointer (&layer->words, render_words_free);
}

static Box
overlap (Box a, Box b)
{
  return (Box){ fmax (a.x0, b.x0), fmax (a.y0, b.y0), fmin (a.x1, b.x1), fmin (a.y1, b.y1) };
}

static Box
whole_px (Box box)
{
  return (Box){ floor (box.x0), floor (box.y0), ceil (box.x1), ceil (box.y1) };
}

static bool
holds (Box outer, Box inner)
{
  return outer.x0 <= inner.x0 && outer.y0 <= inner.y0 && outer.x1 >= inner.x1 && outer.y1 >= inner.y1;
}

cairo_t *
hw_layer_begin (HwLayer *layer, GtkWidget *widget, Box whole)
{
  int scale = gtk_widget_get_scale_factor (widget);
  if (layer->words == NULL)
    layer->words = render_words_new ();
  layer->room = overlap (layer->room, whole_px (whole));
  if (!(layer->room.x1 > layer->room.x0) || !(layer->room.y1 > layer->room.y0))
    layer->room = (Box){ 0, 0, 1, 1 };
  int width = (int)(layer->room.x1 - layer->room.x0), height = (int)(layer->room.y1 - layer->room.y0);
  layer->image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * scale, height * scale);
  cairo_surface_set_device_scale (layer->image, scale, scale);
  cairo_t *cr = cairo_create (layer->image);
  cairo_translate (cr, -layer->room.x0, -layer->room.y0);
  return cr;
}

bool
hw_layer_end (HwLayer *layer, cairo_t *cr, GtkWidget *widget, GtkSnapshot *snapshot, Box inked)
{
  Box room = layer->room;
  bool fits = box_is_empty (inked) || holds (room, inked);
  cairo_destroy (cr);
  cairo_surface_flush (layer->image);
  if (fits && !box_is_empty (inked))
    {
      graphene_rect_t bounds
          = GRAPHENE_RECT_INIT ((float)room.x0, (float)room.y0, (float)(room.x1 - room.x0), (float)(room.y1 - room.y0));
      GskRenderNode *node = hw_image_node (widget, layer->image, &bounds, false);
      gtk_snapshot_append_node (snapshot, node);
      gsk_render_node_unref (node);
    }
  /* The node takes the pixels over: cairo copies them only from an image that stays. */
  g_clear_pointer (&layer->image, cairo_surface_destroy);
  Box needed = whole_px (box_grown (inked, ROOM_PX));
  if (!fits || !holds (box_grown (needed, ROOM_PX), room))
    layer->room = needed;
  return fits;
}
