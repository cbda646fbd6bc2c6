// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * layer - drawn on one page, kept on another.
 *
 * GTK paints the window anew where the nodes of a frame are others than those of the frame before. For the cairo renderer the tiles' nodes stay the same, and what
 * changed on the page that they paint from is told by nodes that show nothing, laid over where it did. Elsewhere a tile that changed becomes another texture.
 */
#include "layer.h"

#include "drawing.h"
#include "page.h"
#include "patches.h"

#include <string.h>

/* Bands of a picture: one more for so many px of its height. With the panel beside it all of the window must stay below GTK's thirty rectangles. */
#define PX_FOR_A_BAND 120

/* Where the page kept is another than was shown, by cell; and the same told in few rectangles, for the main thread. */
struct _HwChanges
{
  bool *cells;
  int columns, rows;
  HwBands bands;
  HwPatch patches[HW_MOST_PATCHES];
  size_t n_patches;
};

static HwChanges *
changes_new (const HwPage *page)
{
  HwChanges *changes = g_new0 (HwChanges, 1);
  changes->columns = hw_page_cell_columns (page);
  changes->rows = hw_page_cell_rows (page);
  changes->cells = g_new0 (bool, (size_t)(changes->columns * changes->rows));
  return changes;
}

static void
changes_free (HwChanges *changes)
{
  g_free (changes->cells);
  g_free (changes);
}

static void
changes_forget (HwChanges *changes)
{
  memset (changes->cells, 0, (size_t)(changes->columns * changes->rows) * sizeof *changes->cells);
  changes->n_patches = 0;
}

static void
forget_nodes (HwLayer *layer)
{
  int n = layer->tiles != NULL ? layer->kept->columns * layer->kept->rows : 0;
  for (int i = 0; i < n; i++)
    gsk_render_node_unref (layer->tiles[i]);
  g_clear_pointer (&layer->tiles, g_free);
  g_clear_pointer (&layer->painted, gsk_render_node_unref);
  g_clear_pointer (&layer->shown, cairo_surface_destroy);
}

static void
forget_pages (HwLayer *layer)
{
  forget_nodes (layer);
  g_clear_pointer (&layer->drawn, hw_page_free);
  g_clear_pointer (&layer->kept, hw_page_free);
  g_clear_pointer (&layer->changes, changes_free);
  g_clear_pointer (&layer->ground, cairo_surface_destroy);
}

void
hw_layer_clear (HwLayer *layer)
{
  forget_pages (layer);
  g_clear_pointer (&layer->words, render_words_free);
}

void
hw_layer_turn (HwLayer *layer, GtkWidget *widget, int width_px, int height_px, cairo_surface_t *ground)
{
  int scale = gtk_widget_get_scale_factor (widget), width = MAX (1, width_px) * scale, height = MAX (1, height_px) * scale;
  if (layer->words == NULL)
    layer->words = render_words_new_apart (); // whichever thread paints
  if (!hw_page_is_of_size (layer->drawn, width, height, scale) || (ground == NULL) != (layer->ground == NULL))
    {
      forget_pages (layer);
      layer->drawn = hw_page_new (width, height, scale);
      layer->kept = hw_page_new (width, height, scale);
      layer->changes = changes_new (layer->kept);
    }
  if (ground == layer->ground)
    return;
  g_clear_pointer (&layer->ground, cairo_surface_destroy);
  layer->ground = cairo_surface_reference (ground);
  layer->drawn->is_bare = true;
}

cairo_t *
hw_layer_open (HwLayer *layer)
{
  layer->is_anew = layer->is_anew || layer->drawn->is_bare;
  hw_page_make_bare (layer->drawn, layer->ground);
  cairo_surface_t *image = hw_page_image (layer->drawn);
  cairo_t *cr = cairo_create (image);
  cairo_surface_destroy (image);
  return cr;
}

void
hw_layer_close (HwLayer *layer, cairo_t *cr)
{
  HwChanges *changes = layer->changes;
  cairo_surface_finish (cairo_get_target (cr));
  cairo_destroy (cr);
  hw_page_find_ink (layer->drawn, layer->ground);
  hw_page_take_over (layer->kept, layer->drawn, layer->is_anew, changes->cells);
  layer->is_anew = false;
  int most = layer->kept->height / layer->kept->scale / PX_FOR_A_BAND;
  changes->n_patches = hw_patches_find (changes->cells, changes->columns, changes->rows, most, &changes->bands, changes->patches);
}

cairo_t *
hw_layer_begin (HwLayer *layer, GtkWidget *widget, int width_px, int height_px)
{
  if (layer->words == NULL)
    layer->words = render_words_new ();
  hw_layer_turn (layer, widget, width_px, height_px, NULL);
  return hw_layer_open (layer);
}

/* ---- for the cairo renderer ---- */

/*
 * An image of what is kept, for nodes to paint from. It is never drawn on, so that cairo has no reason to copy it for them; when it is let go, nodes that are still
 * shown get a copy.
 */
static void
make_tiles (HwLayer *layer)
{
  HwPage *page = layer->kept;
  layer->shown = hw_page_image (page);
  layer->tiles = g_new (GskRenderNode *, page->columns * page->rows);
  for (int i = 0; i < page->columns * page->rows; i++)
    {
      graphene_rect_t bounds = hw_page_tile_bounds (page, i % page->columns, i / page->columns);
      layer->tiles[i] = hw_piece_node (layer->shown, &bounds, layer->ground != NULL);
    }
}

/* Nothing is to be seen of it, but that it is another than the one before it. */
static GskRenderNode *
patch_node (const HwLayer *layer, const HwPatch *patch)
{
  const HwPage *page = layer->kept;
  float side = (float)HW_CELL_PX / (float)page->scale, scale = (float)page->scale;
  GdkRGBA nothing = { .red = (float)(layer->n_changes % 2), .alpha = 0 };
  graphene_rect_t bounds = GRAPHENE_RECT_INIT ((float)patch->x0 * side, (float)patch->y0 * side,
                                               (float)(patch->x1 - patch->x0) * side, (float)(patch->y1 - patch->y0) * side);
  graphene_rect_intersection (&bounds, &GRAPHENE_RECT_INIT (0, 0, (float)page->width / scale, (float)page->height / scale), &bounds);
  return gsk_color_node_new (&nothing, &bounds);
}

static GskRenderNode *
painted_node (const HwLayer *layer)
{
  const HwChanges *changes = layer->changes;
  g_autoptr (GskRenderNode) tiles = gsk_container_node_new (layer->tiles, (guint)(layer->kept->columns * layer->kept->rows));
  GskRenderNode *nodes[1 + HW_MOST_PATCHES] = { tiles };
  for (size_t i = 0; i < changes->n_patches; i++)
    nodes[1 + i] = patch_node (layer, &changes->patches[i]);
  GskRenderNode *all = gsk_container_node_new (nodes, (guint)(1 + changes->n_patches));
  for (size_t i = 0; i < changes->n_patches; i++)
    gsk_render_node_unref (nodes[1 + i]);
  return all;
}

static void
show_painted (HwLayer *layer, GtkSnapshot *snapshot)
{
  if (layer->tiles == NULL)
    make_tiles (layer);
  if (layer->painted == NULL || layer->changes->n_patches > 0)
    {
      layer->n_changes++;
      g_clear_pointer (&layer->painted, gsk_render_node_unref);
      layer->painted = painted_node (layer);
    }
  gtk_snapshot_append_node (snapshot, layer->painted);
}

/* ---- for the others ---- */

static GskRenderNode *
texture_node (const HwPage *page, int column, int row)
{
  if (!page->is_inked[row * page->columns + column])
    return gsk_container_node_new (NULL, 0);
  graphene_rect_t bounds = hw_page_tile_bounds (page, column, row);
  int width = MIN (HW_TILE_PX, page->width - column * HW_TILE_PX), height = MIN (HW_TILE_PX, page->height - row * HW_TILE_PX);
  g_autoptr (GBytes) bytes = hw_page_copy_tile (page, column, row);
  g_autoptr (GdkTexture) texture
      = gdk_memory_texture_new (width, height, GDK_MEMORY_DEFAULT, bytes, g_bytes_get_size (bytes) / (gsize)height);
  return gsk_texture_node_new (texture, &bounds);
}

static bool
is_changed (const HwLayer *layer, int column, int row)
{
  const HwChanges *changes = layer->changes;
  int side = HW_TILE_PX / HW_CELL_PX;
  for (int y = row * side; y < MIN ((row + 1) * side, changes->rows); y++)
    for (int x = column * side; x < MIN ((column + 1) * side, changes->columns); x++)
      if (changes->cells[y * changes->columns + x])
        return true;
  return false;
}

static void
show_textures (HwLayer *layer, GtkSnapshot *snapshot)
{
  const HwPage *page = layer->kept;
  int n = page->columns * page->rows;
  bool is_first = layer->tiles == NULL;
  if (is_first)
    layer->tiles = g_new0 (GskRenderNode *, n);
  for (int i = 0; i < n; i++)
    {
      int column = i % page->columns, row = i / page->columns;
      if (!is_first && !is_changed (layer, column, row))
        continue;
      g_clear_pointer (&layer->tiles[i], gsk_render_node_unref);
      layer->tiles[i] = texture_node (page, column, row);
    }
  g_autoptr (GskRenderNode) all = gsk_container_node_new (layer->tiles, (guint)n);
  gtk_snapshot_append_node (snapshot, all);
}

void
hw_layer_show (HwLayer *layer, GtkWidget *widget, GtkSnapshot *snapshot)
{
  if (hw_is_drawn_by_cairo (widget))
    show_painted (layer, snapshot);
  else
    show_textures (layer, snapshot);
  changes_forget (layer->changes);
}

void
hw_layer_end (HwLayer *layer, cairo_t *cr, GtkWidget *widget, GtkSnapshot *snapshot)
{
  hw_layer_close (layer, cr);
  hw_layer_show (layer, widget, snapshot);
}
