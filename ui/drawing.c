// SPDX-License-Identifier: GPL-3.0-or-later
/* drawing - the hole painted into an image, and the image as a render node. */
#include "drawing.h"

#include "held.h"

/* Where the scale bar and the north arrow stand, and the room they take, px. */
#define SCALE_BAR_X_PX 22.0
#define SCALE_BAR_Y_PX 24.0
#define SCALE_BAR_WIDTH_PX 260
#define SCALE_BAR_HEIGHT_PX 48
#define NORTH_FROM_EDGE_PX 40.0
#define NORTH_ROOM_PX 38

void
hw_drawing_clear (HwDrawing *drawing)
{
  g_clear_pointer (&drawing->node, gsk_render_node_unref);
  g_clear_pointer (&drawing->tiles, gsk_render_node_unref);
  g_clear_pointer (&drawing->image, cairo_surface_destroy);
  g_clear_pointer (&drawing->hole, hole_unref);
  g_clear_pointer (&drawing->words, g_array_unref);
}

/* Next part from *i on that is drawn by the painter of holes; plans are overlays. NULL at the end. */
static const Part *
next_drawn (const Hole *hole, size_t *i)
{
  while (*i < hole_n_parts (hole))
    {
      const Part *part = hole_part (hole, (*i)++);
      if (part->kind != KIND_PLAN)
        return part;
    }
  return NULL;
}

static bool
same_sheet (const Hole *a, const Hole *b)
{
  Box p = hole_info (a)->view_box, q = hole_info (b)->view_box;
  bool is_as_large = (box_is_empty (p) && box_is_empty (q)) || (p.x0 == q.x0 && p.y0 == q.y0 && p.x1 == q.x1 && p.y1 == q.y1);
  return is_as_large && hole_info (a)->ground == hole_info (b)->ground;
}

/* Edits share what they leave alone, so equal pointers tell equal parts. */
static bool
same_picture (const Hole *a, const Hole *b)
{
  if (a == b)
    return true;
  if (!same_sheet (a, b))
    return false;
  for (size_t i = 0, k = 0;;)
    {
      const Part *from_a = next_drawn (a, &i), *from_b = next_drawn (b, &k);
      if (from_a != from_b)
        return false;
      if (from_a == NULL)
        return true;
    }
}

bool
hw_same_view (const RenderView *a, const RenderView *b)
{
  return a->centre.x == b->centre.x && a->centre.y == b->centre.y && a->px_per_m == b->px_per_m && a->turn_rad == b->turn_rad
         && a->width_px == b->width_px && a->height_px == b->height_px && a->unit_px == b->unit_px && a->units == b->units;
}

bool
hw_drawing_is_stale (const HwDrawing *drawing, const Hole *hole, const RenderView *view, int scale, bool is_dark)
{
  return drawing->node == NULL || drawing->painted_more != drawing->more || drawing->scale != scale
         || drawing->is_dark != is_dark || !hw_same_view (&drawing->view, view) || !same_picture (drawing->hole, hole);
}

bool
hw_is_drawn_by_cairo (GtkWidget *widget)
{
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (widget));
  return g_strcmp0 (G_OBJECT_TYPE_NAME (renderer), "GskCairoRenderer") == 0;
}

/* A cairo node of an image whose origin lies at `at_x`, `at_y`. */
static GskRenderNode *
cairo_node (cairo_surface_t *image, double at_x, double at_y, const graphene_rect_t *bounds, bool is_opaque)
{
  GskRenderNode *node = gsk_cairo_node_new (bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);
  cairo_set_source_surface (cr, image, at_x, at_y);
  cairo_set_operator (cr, is_opaque ? CAIRO_OPERATOR_SOURCE : CAIRO_OPERATOR_OVER);
  cairo_rectangle (cr, bounds->origin.x, bounds->origin.y, bounds->size.width, bounds->size.height);
  cairo_fill (cr);
  cairo_destroy (cr);
  return node;
}

GskRenderNode *
hw_piece_node (cairo_surface_t *image, const graphene_rect_t *bounds, bool is_opaque)
{
  return cairo_node (image, 0, 0, bounds, is_opaque);
}

GskRenderNode *
hw_image_node (GtkWidget *widget, cairo_surface_t *image, const graphene_rect_t *bounds, bool is_opaque)
{
  if (hw_is_drawn_by_cairo (widget))
    return cairo_node (image, bounds->origin.x, bounds->origin.y, bounds, is_opaque);
  gsize stride = (gsize)cairo_image_surface_get_stride (image);
  int height = cairo_image_surface_get_height (image);
  g_autoptr (GBytes) bytes
      = g_bytes_new_with_free_func (cairo_image_surface_get_data (image), stride * (gsize)height,
                                    (GDestroyNotify)cairo_surface_destroy, cairo_surface_reference (image));
  g_autoptr (GdkTexture) texture
      = gdk_memory_texture_new (cairo_image_surface_get_width (image), height, GDK_MEMORY_DEFAULT, bytes, stride);
  return gsk_texture_node_new (texture, bounds);
}

/* A tile, px: what one takes to be painted fits the processor's cache, and is much more than what it takes to begin with one. */
#define TILE_WIDTH_PX 256
#define TILE_HEIGHT_PX 128

GskRenderNode *
hw_tiled_node (cairo_surface_t *image, Box part, bool is_opaque)
{
  g_autoptr (GPtrArray) tiles = g_ptr_array_new_with_free_func ((GDestroyNotify)gsk_render_node_unref);
  for (double y = part.y0; y < part.y1; y += TILE_HEIGHT_PX)
    for (double x = part.x0; x < part.x1; x += TILE_WIDTH_PX)
      {
        float width = (float)fmin (TILE_WIDTH_PX, part.x1 - x), height = (float)fmin (TILE_HEIGHT_PX, part.y1 - y);
        g_ptr_array_add (tiles, hw_piece_node (image, &GRAPHENE_RECT_INIT ((float)x, (float)y, width, height), is_opaque));
      }
  return gsk_container_node_new ((GskRenderNode **)tiles->pdata, tiles->len);
}

/* All of an image in tiles, or as one texture where cairo does not draw it. */
static GskRenderNode *
whole_node (GtkWidget *widget, cairo_surface_t *image, int width_px, int height_px)
{
  if (!hw_is_drawn_by_cairo (widget))
    return hw_image_node (widget, image, &GRAPHENE_RECT_INIT (0, 0, (float)width_px, (float)height_px), true);
  return hw_tiled_node (image, (Box){ 0, 0, width_px, height_px }, true);
}

/* ---- what changed ---- */

/* Nothing but these is painted otherwise for an area that changes: water and penalty areas take their stakes from one another. */
static bool
is_by_itself (const Part *part)
{
  const KindInfo *info = kind_info (part->kind);
  return part->kind == KIND_PLAN || (info->shape == SHAPE_AREA && info->lie != LIE_PENALTY);
}

/* Where parts of `hole` are none of `others`, added to `*box`; false if such a part changes more of the picture than where it lies. */
static bool
add_missing (const Hole *hole, GHashTable *others, Box *box)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (g_hash_table_contains (others, part))
        continue;
      if (!is_by_itself (part))
        return false;
      if (part->kind != KIND_PLAN)
        *box = box_union (*box, part->bounds);
    }
  return true;
}

static GHashTable *
parts_of (const Hole *hole)
{
  GHashTable *parts = g_hash_table_new (NULL, NULL);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    g_hash_table_add (parts, (gpointer)hole_part (hole, i));
  return parts;
}

/* Where the pictures of two holes differ; false if that is not known: parts in another order, or such as change what is painted elsewhere. */
static bool
find_changed (const Hole *a, const Hole *b, Box *box)
{
  g_autoptr (GHashTable) parts_a = parts_of (a), parts_b = parts_of (b);
  *box = box_empty ();
  if (!same_sheet (a, b) || !add_missing (a, parts_b, box) || !add_missing (b, parts_a, box))
    return false;
  size_t i = 0, k = 0;
  for (;;)
    {
      while (i < hole_n_parts (a) && !g_hash_table_contains (parts_b, hole_part (a, i)))
        i++;
      while (k < hole_n_parts (b) && !g_hash_table_contains (parts_a, hole_part (b, k)))
        k++;
      if (i == hole_n_parts (a) || k == hole_n_parts (b))
        return true;
      if (hole_part (a, i++) != hole_part (b, k++))
        return false;
    }
}

/* Does the picture kept do where `*px` is not, empty if everywhere? */
static bool
find_stale (const HwDrawing *drawing, const Hole *hole, const RenderView *view, int scale, bool is_dark, Box *px)
{
  Box changed;
  if (drawing->node == NULL || drawing->painted_more != drawing->more || drawing->scale != scale || drawing->is_dark != is_dark
      || !hw_same_view (&drawing->view, view) || !find_changed (drawing->hole, hole, &changed))
    return false;
  *px = hw_ink_box (changed, view);
  return true;
}

/* ---- painting ---- */

static void
paint_on (cairo_t *cr, const HwDrawing *drawing, const Hole *hole, const RenderView *view, bool is_dark)
{
  render_hole (cr, hole, view, PAINT_COLOUR);
  if (drawing->more != NULL)
    drawing->more (cr, hole, view);
  if (is_dark)
    {
      cairo_set_source_rgba (cr, 0, 0, 0, HW_DARK_DIM_SHARE);
      cairo_paint (cr);
    }
}

void
hw_drawing_paint (HwDrawing *drawing, GtkWidget *widget, Hole *hole, const RenderView *view, bool is_dark)
{
  int scale = gtk_widget_get_scale_factor (widget);
  int width = (int)ceil (view->width_px), height = (int)ceil (view->height_px);
  Box stale;
  bool is_patch = find_stale (drawing, hole, view, scale, is_dark, &stale);
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, MAX (width * scale, 1), MAX (height * scale, 1));
  cairo_surface_set_device_scale (image, scale, scale);
  cairo_t *cr = cairo_create (image);
  if (is_patch)
    {
      cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
      cairo_set_source_surface (cr, drawing->image, 0, 0);
      cairo_paint (cr);
      cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
      if (!box_is_empty (stale))
        cairo_rectangle (cr, stale.x0, stale.y0, stale.x1 - stale.x0, stale.y1 - stale.y0);
      cairo_clip (cr);
    }
  paint_on (cr, drawing, hole, view, is_dark);
  cairo_destroy (cr);
  cairo_surface_flush (image);

  hw_drawing_clear (drawing);
  drawing->node = hw_image_node (widget, image, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height), true);
  drawing->tiles = whole_node (widget, image, width, height);
  drawing->image = image;
  drawing->hole = hole_ref (hole);
  drawing->view = *view;
  drawing->painted_more = drawing->more;
  drawing->scale = scale;
  drawing->is_dark = is_dark;
  drawing->n_redraws += !is_patch;
}

void
hw_drawing_snapshot (const HwDrawing *drawing, GtkSnapshot *snapshot, const RenderView *view)
{
  Affine to_hole;
  if (hw_same_view (&drawing->view, view) || !affine_invert (view_to_drawing (&drawing->view), &to_hole))
    {
      gtk_snapshot_append_node (snapshot, drawing->tiles);
      return;
    }
  Affine moved = affine_then (to_hole, view_to_drawing (view));
  /* Two views differ by a turn, a scale and a shift. The cairo renderer draws these, but no general matrix. */
  float turn_deg = (float)units_degrees (atan2 (moved.yx, moved.xx)), scale = (float)hypot (moved.xx, moved.yx);
  Colour ground = render_kind_wash (hole_info (drawing->hole)->ground);
  float light = drawing->is_dark ? (float)(1 - HW_DARK_DIM_SHARE) : 1;
  GdkRGBA colour = { (float)ground.red * light, (float)ground.green * light, (float)ground.blue * light, 1 };
  gtk_snapshot_append_color (snapshot, &colour, &GRAPHENE_RECT_INIT (0, 0, (float)view->width_px, (float)view->height_px));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)moved.x0, (float)moved.y0));
  gtk_snapshot_rotate (snapshot, turn_deg);
  gtk_snapshot_scale (snapshot, scale, scale);
  gtk_snapshot_append_node (snapshot, drawing->node);
  gtk_snapshot_restore (snapshot);
}

/* ---- what is written on it ---- */

void
hw_drawing_add_words (HwDrawing *drawing, const RenderView *view, GArray *taken)
{
  if (drawing->hole == NULL)
    return;
  if (drawing->words == NULL)
    {
      drawing->words = g_array_new (FALSE, FALSE, sizeof (Box));
      render_hole_words (drawing->hole, &drawing->view, drawing->words);
    }
  bool is_moved = !hw_same_view (&drawing->view, view);
  for (guint i = 0; i < drawing->words->len; i++)
    {
      Box box = g_array_index (drawing->words, Box, i);
      if (is_moved)
        box = render_box_moved (box, &drawing->view, view);
      g_array_append_val (taken, box);
    }
}

/* ---- the margin ---- */

void
hw_margin_clear (HwMargin *margin)
{
  g_clear_pointer (&margin->node, gsk_render_node_unref);
}

static cairo_surface_t *
margin_image (int width_px, int height_px, int scale)
{
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width_px * scale, height_px * scale);
  cairo_surface_set_device_scale (image, scale, scale);
  return image;
}

static GskRenderNode *
scale_bar_node (GtkWidget *widget, const RenderView *view, int scale)
{
  int width_px = (int)ceil (SCALE_BAR_WIDTH_PX * view->unit_px), height_px = (int)ceil (SCALE_BAR_HEIGHT_PX * view->unit_px);
  cairo_surface_t *image = margin_image (width_px, height_px, scale);
  cairo_t *cr = cairo_create (image);
  render_scale_bar (cr, view, SCALE_BAR_X_PX, SCALE_BAR_Y_PX * view->unit_px);
  cairo_destroy (cr);
  GskRenderNode *node = hw_image_node (widget, image, &GRAPHENE_RECT_INIT (0, 0, (float)width_px, (float)height_px), false);
  cairo_surface_destroy (image);
  return node;
}

static GskRenderNode *
north_node (GtkWidget *widget, const RenderView *view, double bearing_deg, int scale)
{
  const double room_px = ceil (NORTH_ROOM_PX * view->unit_px), from_edge_px = ceil (NORTH_FROM_EDGE_PX * view->unit_px);
  const int side_px = (int)(2 * room_px);
  cairo_surface_t *image = margin_image (side_px, side_px, scale);
  cairo_t *cr = cairo_create (image);
  render_north (cr, view, bearing_deg, vec2 (room_px, room_px));
  cairo_destroy (cr);
  float x = (float)(view->width_px - from_edge_px - room_px), y = (float)(from_edge_px - room_px);
  GskRenderNode *node = hw_image_node (widget, image, &GRAPHENE_RECT_INIT (x, y, (float)side_px, (float)side_px), false);
  cairo_surface_destroy (image);
  return node;
}

void
hw_margin_add_boxes (const RenderView *view, double bearing_deg, GArray *taken)
{
  double from_edge_px = ceil (NORTH_FROM_EDGE_PX * view->unit_px);
  Box boxes[] = { render_scale_bar_box (view, SCALE_BAR_X_PX, SCALE_BAR_Y_PX * view->unit_px),
                  render_north_box (view, vec2 (view->width_px - from_edge_px, from_edge_px)) };
  g_array_append_vals (taken, boxes, isnan (bearing_deg) ? 1 : G_N_ELEMENTS (boxes));
}

void
hw_margin_snapshot (HwMargin *margin, GtkWidget *widget, GtkSnapshot *snapshot, const RenderView *view, double bearing_deg)
{
  int scale = gtk_widget_get_scale_factor (widget);
  bool same_bearing = margin->bearing_deg == bearing_deg || (isnan (margin->bearing_deg) && isnan (bearing_deg));
  if (margin->node == NULL || margin->scale != scale || !same_bearing || !hw_same_view (&margin->view, view))
    {
      GskRenderNode *nodes[2] = { scale_bar_node (widget, view, scale), NULL };
      if (!isnan (bearing_deg))
        nodes[1] = north_node (widget, view, bearing_deg, scale);
      hw_margin_clear (margin);
      *margin = (HwMargin){ gsk_container_node_new (nodes, nodes[1] != NULL ? 2 : 1), *view, bearing_deg, scale };
      g_clear_pointer (&nodes[0], gsk_render_node_unref);
      g_clear_pointer (&nodes[1], gsk_render_node_unref);
    }
  gtk_snapshot_append_node (snapshot, margin->node);
}
