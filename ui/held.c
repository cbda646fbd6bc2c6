// SPDX-License-Identifier: GPL-3.0-or-later
/* held - images of the things held, cut to where they leave ink on the drawing. */
#include "held.h"

#include "appearance.h"
#include "drawing.h"
#include "tool-draw.h"

/* Ink that a thing may leave outside its bounds: edges, symbols, names, px. */
#define INK_ROOM_PX 36.0
/* Stretches and turns, rad, that differ by less are alike: over any drawing that is less than a thousandth of a px. */
#define ALIKE 1e-9

void
hw_held_clear (HwHeld *held)
{
  g_clear_pointer (&held->node, gsk_render_node_unref);
  g_clear_pointer (&held->still, hole_unref);
}

Box
hw_ink_box (Box bounds, const RenderView *view)
{
  Box box = box_empty ();
  for (int corner = 0; corner < 4 && !box_is_empty (bounds); corner++)
    box = box_with_point (box,
                          view_point (view, vec2 (corner & 1 ? bounds.x1 : bounds.x0, corner & 2 ? bounds.y1 : bounds.y0)));
  if (box_is_empty (box))
    return box;
  box = box_grown (box, INK_ROOM_PX * view->unit_px);
  box = (Box){ fmax (0, floor (box.x0)), fmax (0, floor (box.y0)), fmin (ceil (view->width_px), ceil (box.x1)),
               fmin (ceil (view->height_px), ceil (box.y1)) };
  return box.x1 > box.x0 && box.y1 > box.y0 ? box : box_empty ();
}

/* The things held, and those over them, as they are now; NULL if none of it is on the drawing. */
static GskRenderNode *
paint (GtkWidget *widget, HwDesk *desk, const RenderView *view)
{
  Box bounds;
  g_autoptr (Hole) things = hw_desk_get_held (desk, &bounds);
  Box box = things != NULL ? hw_ink_box (bounds, view) : box_empty ();
  if (box_is_empty (box))
    return NULL;
  int scale = gtk_widget_get_scale_factor (widget), width = (int)(box.x1 - box.x0), height = (int)(box.y1 - box.y0);
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * scale, height * scale);
  cairo_surface_set_device_scale (image, scale, scale);
  cairo_t *cr = cairo_create (image);
  cairo_translate (cr, -box.x0, -box.y0);
  render_things (cr, things, view, PAINT_COLOUR);
  hw_draw_lines_of_play (cr, things, view);
  if (hw_appearance_is_dark (widget))
    {
      cairo_set_operator (cr, CAIRO_OPERATOR_ATOP);
      cairo_set_source_rgba (cr, 0, 0, 0, HW_DARK_DIM_SHARE);
      cairo_paint (cr);
    }
  cairo_destroy (cr);
  cairo_surface_flush (image);
  graphene_rect_t at = GRAPHENE_RECT_INIT ((float)box.x0, (float)box.y0, (float)width, (float)height);
  GskRenderNode *node = hw_image_node (widget, image, &at, false);
  cairo_surface_destroy (image);
  return node;
}

/* Is the kept picture that of what is held now, in this view? */
static bool
is_kept (const HwHeld *held, HwDesk *desk, const RenderView *view, int scale, bool is_dark)
{
  return held->still != NULL && held->still == hw_desk_get_still (desk) && hw_same_view (&held->view, view)
         && held->scale == scale && held->is_dark == is_dark;
}

/* On the drawing a move of the hole is a shift, a turn and a stretch along the picture's own axes; the cairo renderer draws these. */
static void
add_moved (GtkSnapshot *snapshot, GskRenderNode *node, const RenderView *view, Affine moved)
{
  Affine to_px = view_to_drawing (view), to_hole;
  if (!affine_invert (to_px, &to_hole))
    return;
  Affine t = affine_then (affine_then (to_hole, moved), to_px);
  double stretch_x = hypot (t.xx, t.yx), turn_rad = atan2 (t.yx, t.xx);
  double stretch_y = (t.xx * t.yy - t.xy * t.yx) / stretch_x;
  bool is_shift = fabs (turn_rad) < ALIKE && fabs (stretch_x - 1) < ALIKE && fabs (stretch_y - 1) < ALIKE;
  gtk_snapshot_save (snapshot);
  if (is_shift) /* by whole px: the picture is copied, not resampled */
    gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)round (t.x0), (float)round (t.y0)));
  else
    {
      gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float)t.x0, (float)t.y0));
      gtk_snapshot_rotate (snapshot, (float)units_degrees (turn_rad));
      gtk_snapshot_scale (snapshot, (float)stretch_x, (float)stretch_y);
    }
  gtk_snapshot_append_node (snapshot, node);
  gtk_snapshot_restore (snapshot);
}

void
hw_held_snapshot (HwHeld *held, GtkWidget *widget, GtkSnapshot *snapshot, HwDesk *desk, const RenderView *view,
                  const Affine *moved)
{
  int scale = gtk_widget_get_scale_factor (widget);
  bool is_dark = hw_appearance_is_dark (widget);
  if (moved == NULL || !hw_desk_is_holding (desk))
    {
      hw_held_clear (held);
      g_autoptr (GskRenderNode) node = paint (widget, desk, view);
      if (node != NULL)
        gtk_snapshot_append_node (snapshot, node);
      return;
    }
  if (!is_kept (held, desk, view, scale, is_dark))
    {
      hw_held_clear (held);
      *held = (HwHeld){ paint (widget, desk, view), hole_ref (hw_desk_get_still (desk)), *view, scale, is_dark };
    }
  if (held->node != NULL)
    add_moved (snapshot, held->node, view, *moved);
}
