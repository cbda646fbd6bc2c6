// SPDX-License-Identifier: GPL-3.0-or-later
/* layer - pages of pixels that go round: drawn on, shown by their inked tiles, made bare again where they were inked, drawn on again. */
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
  bool is_fresh;        /* nothing was ever drawn on it, not even its ground */
  bool *is_inked;       /* by tile, as it was drawn on last */
  bool *is_like_before; /* by tile: it shows what the page before it does */
};

static void
page_unref (HwPage *page)
{
  if (!g_ref_count_dec (&page->refs))
    return;
  g_free (page->data);
  g_free (page->is_inked);
  g_free (page->is_like_before);
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
  page->is_like_before = g_new0 (bool, (size_t)(page->columns * page->rows));
  page->is_fresh = true;
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

static void
forget_nodes (HwLayer *layer)
{
  for (int i = 0; i < layer->n_tiles; i++)
    {
      gsk_render_node_unref (layer->bare[i]);
      gsk_render_node_unref (layer->shown[i]);
    }
  g_clear_pointer (&layer->bare, g_free);
  g_clear_pointer (&layer->shown, g_free);
  layer->n_tiles = 0;
}

void
hw_layer_clear (HwLayer *layer)
{
  forget_nodes (layer);
  for (int i = 0; i < HW_LAYER_PAGES; i++)
    g_clear_pointer (&layer->pages[i], page_drop);
  g_clear_pointer (&layer->ground, cairo_surface_destroy);
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

/* A line of a tile; `line` counts from the top of the page. */
static guchar *
tile_line (const HwPage *page, int column, int line)
{
  return page_at (page, column * TILE_PX, line);
}

/* The same line of the ground, which is as large as the page. */
static const guchar *
ground_line (cairo_surface_t *ground, int column, int line)
{
  return cairo_image_surface_get_data (ground) + (size_t)line * (size_t)cairo_image_surface_get_stride (ground)
         + (size_t)column * TILE_PX * BYTES_PER_PX;
}

/* Takes away what a tile shows but for the ground. */
static void
make_bare (HwPage *page, cairo_surface_t *ground, int column, int row)
{
  size_t n = (size_t)tile_width (page, column) * BYTES_PER_PX;
  for (int y = row * TILE_PX; y < row * TILE_PX + tile_height (page, row); y++)
    if (ground != NULL)
      memcpy (tile_line (page, column, y), ground_line (ground, column, y), n);
    else
      memset (tile_line (page, column, y), 0, n);
}

/* Of all tiles, or of those that were inked. */
static void
make_all_bare (HwPage *page, cairo_surface_t *ground, bool of_all)
{
  for (int row = 0; row < page->rows; row++)
    for (int column = 0; column < page->columns; column++)
      if (of_all || page->is_inked[row * page->columns + column])
        make_bare (page, ground, column, row);
}

static bool
is_of_size (const HwPage *page, int width, int height, int scale)
{
  return page != NULL && page->width == width && page->height == height && page->scale == scale;
}

/* Turns to the next page, of this size. One that a texture still shows, or of another size, gives way. */
static void
turn_page (HwLayer *layer, int width, int height, int scale)
{
  if (!layer->is_unseen)
    layer->turn = (layer->turn + 1) % HW_LAYER_PAGES;
  layer->is_unseen = true;
  HwPage **page = &layer->pages[layer->turn];
  if (is_of_size (*page, width, height, scale) && g_ref_count_compare (&(*page)->refs, 2)) // the layer's own, and the image's
    return;
  g_clear_pointer (page, page_drop);
  *page = page_new (width, height, scale);
}

/* What was shown on another ground, or in another size, is of no use any more. */
static void
use_ground (HwLayer *layer, cairo_surface_t *ground, int width, int height, int scale)
{
  if (ground == layer->ground && is_of_size (layer->pages[layer->turn], width, height, scale))
    return;
  forget_nodes (layer);
  for (int i = 0; i < HW_LAYER_PAGES; i++)
    g_clear_pointer (&layer->pages[i], page_drop);
  g_clear_pointer (&layer->ground, cairo_surface_destroy);
  layer->ground = ground != NULL ? cairo_surface_reference (ground) : NULL;
}

void
hw_layer_turn (HwLayer *layer, GtkWidget *widget, int width_px, int height_px, cairo_surface_t *ground)
{
  int scale = gtk_widget_get_scale_factor (widget), width = MAX (1, width_px) * scale, height = MAX (1, height_px) * scale;
  if (layer->words == NULL)
    layer->words = render_words_new_apart (); // whichever thread paints
  use_ground (layer, ground, width, height, scale);
  turn_page (layer, width, height, scale);
}

cairo_t *
hw_layer_open (HwLayer *layer)
{
  HwPage *page = layer->pages[layer->turn];
  if (!page->is_fresh || layer->ground != NULL) // a fresh one is clear
    make_all_bare (page, layer->ground, page->is_fresh);
  page->is_fresh = false;
  cairo_surface_t *image = page_image (page);
  cairo_t *cr = cairo_create (image);
  cairo_surface_destroy (image);
  return cr;
}

cairo_t *
hw_layer_begin (HwLayer *layer, GtkWidget *widget, int width_px, int height_px)
{
  if (layer->words == NULL)
    layer->words = render_words_new ();
  hw_layer_turn (layer, widget, width_px, height_px, NULL);
  return hw_layer_open (layer);
}

/* ---- the tiles ---- */

/* Is there anything on this tile, on no ground? */
static bool
has_ink (const HwPage *page, int column, int row)
{
  int n = tile_width (page, column);
  for (int y = row * TILE_PX; y < row * TILE_PX + tile_height (page, row); y++)
    {
      const guint32 *line = (const guint32 *)(const void *)tile_line (page, column, y);
      guint32 ink = 0;
      for (int x = 0; x < n; x++)
        ink |= line[x];
      if (ink != 0)
        return true;
    }
  return false;
}

/* Is there anything on it but the ground? */
static bool
tile_is_inked (const HwPage *page, cairo_surface_t *ground, int column, int row)
{
  if (ground == NULL)
    return has_ink (page, column, row);
  size_t n = (size_t)tile_width (page, column) * BYTES_PER_PX;
  for (int y = row * TILE_PX; y < row * TILE_PX + tile_height (page, row); y++)
    if (memcmp (tile_line (page, column, y), ground_line (ground, column, y), n) != 0)
      return true;
  return false;
}

static bool
is_same_tile (const HwPage *a, const HwPage *b, int column, int row)
{
  size_t n = (size_t)tile_width (a, column) * BYTES_PER_PX;
  for (int y = row * TILE_PX; y < row * TILE_PX + tile_height (a, row); y++)
    if (memcmp (tile_line (a, column, y), tile_line (b, column, y), n) != 0)
      return false;
  return true;
}

/* The tiles of a row from column `from` up to `to`, px. */
static graphene_rect_t
tiles_bounds (const HwPage *page, int row, int from, int to)
{
  int x = from * TILE_PX, y = row * TILE_PX, width = MIN (to * TILE_PX, page->width) - x, height = tile_height (page, row);
  float scale = (float)page->scale;
  return GRAPHENE_RECT_INIT ((float)x / scale, (float)y / scale, (float)width / scale, (float)height / scale);
}

static GskRenderNode *
tile_node (cairo_surface_t *image, const HwPage *page, int column, int row, bool is_opaque)
{
  graphene_rect_t bounds = tiles_bounds (page, row, column, column + 1);
  return hw_piece_node (image, &bounds, is_opaque);
}

static void
make_nodes (HwLayer *layer, const HwPage *page)
{
  layer->n_tiles = page->columns * page->rows;
  layer->bare = g_new (GskRenderNode *, layer->n_tiles);
  layer->shown = g_new (GskRenderNode *, layer->n_tiles);
  for (int i = 0; i < layer->n_tiles; i++)
    {
      layer->bare[i] = layer->ground != NULL ? tile_node (layer->ground, page, i % page->columns, i / page->columns, true)
                                             : gsk_container_node_new (NULL, 0);
      layer->shown[i] = gsk_render_node_ref (layer->bare[i]);
    }
}

/*
 * A node for each tile, the same as in the last frame where it shows the same. Such a node may be of an older page: when that is drawn on again, the tile gets a node
 * of another page or shows what it did.
 */
static void
add_nodes (HwLayer *layer, HwPage *page, GtkSnapshot *snapshot)
{
  if (layer->n_tiles == 0)
    make_nodes (layer, page);
  for (int i = 0; i < layer->n_tiles; i++)
    {
      if (page->is_like_before[i])
        continue;
      gsk_render_node_unref (layer->shown[i]);
      layer->shown[i] = page->is_inked[i]
                            ? tile_node (page->shown, page, i % page->columns, i / page->columns, layer->ground != NULL)
                            : gsk_render_node_ref (layer->bare[i]);
    }
  g_autoptr (GskRenderNode) all = gsk_container_node_new (layer->shown, (guint)layer->n_tiles);
  gtk_snapshot_append_node (snapshot, all);
}

/* A piece of the page as a texture. */
static void
add_texture (HwPage *page, int row, int from, int to, GtkSnapshot *snapshot)
{
  graphene_rect_t bounds = tiles_bounds (page, row, from, to);
  g_ref_count_inc (&page->refs);
  g_autoptr (GBytes) bytes
      = g_bytes_new_with_free_func (page_at (page, from * TILE_PX, row * TILE_PX),
                                    (size_t)tile_height (page, row) * page->stride, (GDestroyNotify)page_unref, page);
  g_autoptr (GdkTexture) texture = gdk_memory_texture_new (MIN (to * TILE_PX, page->width) - from * TILE_PX,
                                                           tile_height (page, row), GDK_MEMORY_DEFAULT, bytes, page->stride);
  g_autoptr (GskRenderNode) node = gsk_texture_node_new (texture, &bounds);
  gtk_snapshot_append_node (snapshot, node);
}

/* Inked tiles beside one another as one texture. */
static void
add_textures (HwPage *page, GtkSnapshot *snapshot)
{
  for (int row = 0; row < page->rows; row++)
    for (int column = 0, from = 0; column <= page->columns; column++)
      {
        if (column < page->columns && page->is_inked[row * page->columns + column])
          continue;
        if (column > from)
          add_texture (page, row, from, column, snapshot);
        from = column + 1;
      }
}

/* Looks at every tile: what there is on it, and whether the page before has the same there. */
static void
look_at_tiles (const HwLayer *layer, HwPage *page)
{
  const HwPage *before = layer->pages[(layer->turn + HW_LAYER_PAGES - 1) % HW_LAYER_PAGES];
  for (int i = 0; i < page->columns * page->rows; i++)
    {
      int column = i % page->columns, row = i / page->columns;
      bool is_inked = page->is_inked[i] = tile_is_inked (page, layer->ground, column, row);
      page->is_like_before[i] = is_inked && before != NULL && before->is_inked[i] && is_same_tile (page, before, column, row);
    }
}

void
hw_layer_close (HwLayer *layer, cairo_t *cr)
{
  cairo_surface_finish (cairo_get_target (cr));
  cairo_destroy (cr);
  look_at_tiles (layer, layer->pages[layer->turn]);
}

void
hw_layer_show (HwLayer *layer, GtkWidget *widget, GtkSnapshot *snapshot)
{
  layer->is_unseen = false;
  if (hw_is_drawn_by_cairo (widget))
    add_nodes (layer, layer->pages[layer->turn], snapshot);
  else
    add_textures (layer->pages[layer->turn], snapshot);
}

void
hw_layer_end (HwLayer *layer, cairo_t *cr, GtkWidget *widget, GtkSnapshot *snapshot)
{
  hw_layer_close (layer, cr);
  hw_layer_show (layer, widget, snapshot);
}
