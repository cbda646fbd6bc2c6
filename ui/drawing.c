// SPDX-License-Identifier: GPL-3.0-or-later
/* drawing - the hole painted into an image, and the image as a render node. */
#include "drawing.h"

/* How much of the paper's light is taken away in the dark style. */
#define DARK_DIM_SHARE 0.22
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
  g_clear_pointer (&drawing->hole, hole_unref);
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

/* Edits share what they leave alone, so equal pointers tell equal parts. */
static bool
same_picture (const Hole *a, const Hole *b)
{
  if (a == b)
    return true;
  Box p = hole_info (a)->view_box, q = hole_info (b)->view_box;
  bool is_same_sheet = (box_is_empty (p) && box_is_empty (q)) || (p.x0 == q.x0 && p.y0 == q.y0 && p.x1 == q.x1 && p.y1 == q.y1);
  if (hole_info (a)->ground != hole_info (b)->ground || !is_same_sheet)
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
         && a->width_px == b->width_px && a->height_px == b->height_px && a->units == b->units;
}

bool
hw_drawing_is_stale (const HwDrawing *drawing, const Hole *hole, const RenderView *view, int scale, bool is_dark)
{
  return drawing->node == NULL || drawing->painted_more != drawing->more || drawing->scale != scale
         || drawing->is_dark != is_dark || !hw_same_view (&drawing->view, view) || !same_picture (drawing->hole, hole);
}

GskRenderNode *
hw_image_node (GtkWidget *widget, cairo_surface_t *image, const graphene_rect_t *bounds, bool is_opaque)
{
  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (widget));
  if (g_strcmp0 (G_OBJECT_TYPE_NAME (renderer), "GskCairoRenderer") == 0)
    {
      GskRenderNode *node = gsk_cairo_node_new (bounds);
      cairo_t *cr = gsk_cairo_node_get_draw_context (node);
      cairo_set_source_surface (cr, image, bounds->origin.x, bounds->origin.y);
      cairo_set_operator (cr, is_opaque ? CAIRO_OPERATOR_SOURCE : CAIRO_OPERATOR_OVER);
      cairo_rectangle (cr, bounds->origin.x, bounds->origin.y, bounds->size.width, bounds->size.height);
      cairo_fill (cr);
      cairo_destroy (cr);
      return node;
    }
  gsize stride = (gsize)cairo_image_surface_get_stride (image);
  int height = cairo_image_surface_get_height (image);
  g_autoptr (GBytes) bytes
      = g_bytes_new_with_free_func (cairo_image_surface_get_data (image), stride * (gsize)height,
                                    (GDestroyNotify)cairo_surface_destroy, cairo_surface_reference (image));
  g_autoptr (GdkTexture) texture
      = gdk_memory_texture_new (cairo_image_surface_get_width (image), height, GDK_MEMORY_DEFAULT, bytes, stride);
  return gsk_texture_node_new (texture, bounds);
}

void
hw_drawing_paint (HwDrawing *drawing, GtkWidget *widget, Hole *hole, const RenderView *view, bool is_dark)
{
  int scale = gtk_widget_get_scale_factor (widget);
  int width = (int)ceil (view->width_px), height = (int)ceil (view->height_px);
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, MAX (width * scale, 1), MAX (height * scale, 1));
  cairo_surface_set_device_scale (image, scale, scale);
  cairo_t *cr = cairo_create (image);
  render_hole (cr, hole, view, PAINT_COLOUR);
  if (drawing->more != NULL)
    drawing->more (cr, hole, view);
  if (is_dark)
    {
      cairo_set_source_rgba (cr, 0, 0, 0, DARK_DIM_SHARE);
      cairo_paint (cr);
    }
  cairo_destroy (cr);
  cairo_surface_flush (image);

  hw_drawing_clear (drawing);
  drawing->node = hw_image_node (widget, image, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height), true);
  drawing->hole = hole_ref (hole);
  drawing->view = *view;
  drawing->painted_more = drawing->more;
  drawing->scale = scale;
  drawing->is_dark = is_dark;
  drawing->n_redraws++;
  cairo_surface_destroy (image);
}

void
hw_drawing_snapshot (const HwDrawing *drawing, GtkSnapshot *snapshot, const RenderView *view)
{
  Affine to_hole;
  if (hw_same_view (&drawing->view, view) || !affine_invert (view_to_drawing (&drawing->view), &to_hole))
    {
      gtk_snapshot_append_node (snapshot, drawing->node);
      return;
    }
  Affine moved = affine_then (to_hole, view_to_drawing (view));
  /* Two views differ by a turn, a scale and a shift. The cairo renderer draws these, but no general matrix. */
  float turn_deg = (float)units_degrees (atan2 (moved.yx, moved.xx)), scale = (float)hypot (moved.xx, moved.yx);
  Colour ground = render_kind_wash (hole_info (drawing->hole)->ground);
  float light = drawing->is_dark ? (float)(1 - DARK_DIM_SHARE) : 1;
  GdkRGBA colour = { (float)ground.red * light, (float)ground.green * light, (float)ground.blue * light, 1 };
  gtk_snapshot_append_color (snapshot, &colour, &GRAPHENE_RECT_INIT (0, 0, (float)view->width_px, (float)view->height_px));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)moved.x0, (float)moved.y0));
  gtk_snapshot_rotate (snapshot, turn_deg);
  gtk_snapshot_scale (snapshot, scale, scale);
  gtk_snapshot_append_node (snapshot, drawing->node);
  gtk_snapshot_restore (snapshot);
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
  cairo_surface_t *image = margin_image (SCALE_BAR_WIDTH_PX, SCALE_BAR_HEIGHT_PX, scale);
  cairo_t *cr = cairo_create (image);
  render_scale_bar (cr, view, SCALE_BAR_X_PX, SCALE_BAR_Y_PX);
  cairo_destroy (cr);
  GskRenderNode *node
      = hw_image_node (widget, image, &GRAPHENE_RECT_INIT (0, 0, SCALE_BAR_WIDTH_PX, SCALE_BAR_HEIGHT_PX), false);
  cairo_surface_destroy (image);
  return node;
}

static GskRenderNode *
north_node (GtkWidget *widget, const RenderView *view, double bearing_deg, int scale)
{
  const int side_px = 2 * NORTH_ROOM_PX;
  cairo_surface_t *image = margin_image (side_px, side_px, scale);
  cairo_t *cr = cairo_create (image);
  render_north (cr, view, bearing_deg, vec2 (NORTH_ROOM_PX, NORTH_ROOM_PX));
  cairo_destroy (cr);
  float x = (float)(view->width_px - NORTH_FROM_EDGE_PX - NORTH_ROOM_PX), y = (float)(NORTH_FROM_EDGE_PX - NORTH_ROOM_PX);
  GskRenderNode *node = hw_image_node (widget, image, &GRAPHENE_RECT_INIT (x, y, (float)side_px, (float)side_px), false);
  cairo_surface_destroy (image);
  return node;
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
