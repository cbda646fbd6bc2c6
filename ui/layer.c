// SPDX-License-Identifier: GPL-3.0-or-later
/* layer - pages of pixels that go round: drawn on, shown by their inked tiles, cleared where they were inked, drawn on again. */
#include "layer.h"

#include "drawing.h"

#include <string.h>

/* Side of a tile, device px: 64 kB. Smaller ones are more to handle, larger ones more to paint beside thin lines. */
#define TILE_PX 128
#define BYTES_PER_PX 4

static const cairo_user_data_key_t page_key;

/* Referenced by the layer, by the image that is shown, and by every texture of a piece of it. */
struct _HwPage
{
  grefcount refs;
  int width, height, scale; /* device px; device px in a px */
  int columns, rows;        /* of tiles */
  size_t stride;
  guchar *data;
  /* The same pixels, for nodes to paint from. It is never drawn on, so that cairo has no reason to copy it for the nodes of a frame that is over. */
  cairo_surface_t *shown;
  bool *is_inked; /* by tile, as it was shown last */
};

static void
page_unref (HwPage *page)
{
  if (!g_ref_count_dec (&page->refs))
    return;
  g_free (page->data);
  g_free (page->is_inked);
  g_free (page);
}

static cairo_surface_t *
page_image (const HwPage *page)
{
  cairo_surface_t *image
      = cairo_image_surface_create_for_data (page->data, CAIRO_FORMAT_ARGB32, page->width, page->height, (int)page->stride);
  cairo_surface_set_device_scale (image, page->scale, page->scale);
  return image;
}

static HwPage *
page_new (int width, int height, int scale)
{
  HwPage *page = g_new0 (HwPage, 1);
  g_ref_count_init (&page->refs);
  page->width = width;
  page->height = height;
  page->scale = scale;
  page->columns = (width + TILE_PX - 1) / TILE_PX;
  page->rows = (height + TILE_PX - 1) / TILE_PX;
  page->stride = (size_t)cairo_format_stride_for_width (CAIRO_FORMAT_ARGB32, width);
  /* A texture counts in whole lines from where it begins: one more than there are. */
  page->data = g_malloc0_n ((size_t)height + 1, page->stride);
  page->is_inked = g_new0 (bool, (size_t)(page->columns * page->rows));
  page->shown = page_image (page);
  g_ref_count_inc (&page->refs);
  cairo_surface_set_user_data (page->shown, &page_key, page, (cairo_destroy_func_t)page_unref);
  return page;
}

/* Nodes that still show it get a copy from cairo. */
static void
page_drop (HwPage *page)
{
  g_clear_pointer (&page->shown, cairo_surface_destroy);
  page_unref (page);
}

void
hw_layer_clear (HwLayer *layer)
{
  for (int i = 0; i < HW_LAYER_PAGES; i++)
    g_clear_pointer (&layer->pages[i], page_drop);
  g_clear_pointer (&layer->words, render_words_free);
}

static guchar *
page_at (const HwPage *page, int x, int y)
{
  return page->data + (size_t)y * page->stride + (size_t)x * BYTES_PER_PX;
}

/* Width of the tile in a column, height of one in a row: the last may be cut. */
static int
tile_width (const HwPage *page, int column)
{
  return MIN (TILE_PX, page->width - column * TILE_PX);
}

static int
tile_height (const HwPage *page, int row)
{
  return MIN (TILE_PX, page->height - row * TILE_PX);
}

static void
clear_inked (HwPage *page)
{
  for (int row = 0; row < page->rows; row++)
    for (int column = 0; column < page->columns; column++)
      for (int y = 0; page->is_inked[row * page->columns + column] && y < tile_height (page, row); y++)
        memset (page_at (page, column * TILE_PX, row * TILE_PX + y), 0, (size_t)tile_width (page, column) * BYTES_PER_PX);
}

/* The next page, of this size and clear. One that a texture still shows, or of another size, gives way. */
static HwPage *
next_page (HwLayer *layer, int width, int height, int scale)
{
  layer->turn = (layer->turn + 1) % HW_LAYER_PAGES;
  HwPage **page = &layer->pages[layer->turn];
  bool is_as_large = *page != NULL && (*page)->width == width && (*page)->height == height && (*page)->scale == scale;
  if (is_as_large && g_ref_count_compare (&(*page)->refs, 2)) // the layer's own, and the image's
    {
      clear_inked (*page);
      return *page;
    }
  g_clear_pointer (page, page_drop);
  return *page = page_new (width, height, scale);
}

cairo_t *
hw_layer_begin (HwLayer *layer, GtkWidget *widget, int width_px, int height_px)
{
  int scale = gtk_widget_get_scale_factor (widget);
  if (layer->words == NULL)
    layer->words = render_words_new ();
  cairo_surface_t *image = page_image (next_page (layer, MAX (1, width_px) * scale, MAX (1, height_px) * scale, scale));
  cairo_t *cr = cairo_create (image);
  cairo_surface_destroy (image);
  return cr;
}

/* Is there anything on this tile? */
static bool
tile_is_inked (const HwPage *page, int column, int row)
{
  int n = tile_width (page, column);
  for (int y = 0; y < tile_height (page, row); y++)
    {
      const guint32 *line = (const guint32 *)(const void *)page_at (page, column * TILE_PX, row * TILE_PX + y);
      guint32 ink = 0;
      for (int x = 0; x < n; x++)
        ink |= line[x];
      if (ink != 0)
        return true;
    }
  return false;
}

/* A piece of the page as a texture. */
static GskRenderNode *
texture_node (HwPage *page, int x, int y, int width, int height, const graphene_rect_t *bounds)
{
  g_ref_count_inc (&page->refs);
  g_autoptr (GBytes) bytes
      = g_bytes_new_with_free_func (page_at (page, x, y), (size_t)height * page->stride, (GDestroyNotify)page_unref, page);
  g_autoptr (GdkTexture) texture = gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, page->stride);
  return gsk_texture_node_new (texture, bounds);
}

/* Adds the tiles of a row from column `from` up to `to`. */
static void
add_tiles (HwPage *page, int row, int from, int to, bool by_cairo, GtkSnapshot *snapshot)
{
  int x = from * TILE_PX, y = row * TILE_PX, width = MIN (to * TILE_PX, page->width) - x, height = tile_height (page, row);
  float scale = (float)page->scale;
  graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float)x / scale, (float)y / scale, (float)width / scale, (float)height / scale);
  g_autoptr (GskRenderNode) node
      = by_cairo ? hw_piece_node (page->shown, &bounds, false) : texture_node (page, x, y, width, height, &bounds);
  gtk_snapshot_append_node (snapshot, node);
}

void
hw_layer_end (HwLayer *layer, cairo_t *cr, GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwPage *page = layer->pages[layer->turn];
  bool by_cairo = hw_is_drawn_by_cairo (widget);
  cairo_surface_finish (cairo_get_target (cr));
  cairo_destroy (cr);
  for (int row = 0; row < page->rows; row++)
    for (int column = 0, from = 0; column <= page->columns; column++)
      {
        bool *inked = &page->is_inked[row * page->columns + column];
        if (column < page->columns && (*inked = tile_is_inked (page, column, row)))
          continue;
        if (column > from)
          add_tiles (page, row, from, column, by_cairo, snapshot);
        from = column + 1;
      }
}
