// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * hole - paints a hole in layers: paper, ground, areas in document order, symbols, words.
 */
#include "painter-private.h"

/* Farther than this from the drawing's origin a coordinate is cut: cairo counts in 24.8 bit fixed point and would wrap round. */
#define FARTHEST_PX 4e6
/* How much of the ground's wash lies beyond the drawing's extent. */
#define BEYOND_ALPHA 0.35

static double
within_cairo (double px)
{
  return px < -FARTHEST_PX ? -FARTHEST_PX : px > FARTHEST_PX ? FARTHEST_PX : px;
}

Vec2
to_cairo (Affine t, Vec2 point)
{
  Vec2 p = vec2 (t.xx * point.x + t.xy * point.y + t.x0, t.yx * point.x + t.yy * point.y + t.y0);
  return vec2 (within_cairo (p.x), within_cairo (p.y));
}

void
trace_path (cairo_t *cr, const Path *path, Affine t)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      Vec2 to = to_cairo (t, seg->to), c1, c2;
      switch (seg->kind)
        {
        case SEG_MOVE:
          cairo_move_to (cr, to.x, to.y);
          break;
        case SEG_LINE:
          cairo_line_to (cr, to.x, to.y);
          break;
        case SEG_CUBIC:
          c1 = to_cairo (t, seg->c1);
          c2 = to_cairo (t, seg->c2);
          cairo_curve_to (cr, c1.x, c1.y, c2.x, c2.y, to.x, to.y);
          break;
        case SEG_CLOSE:
          cairo_close_path (cr);
          break;
        }
    }
}

static bool
is_visible (const Painter *painter, Box bounds)
{
  if (box_is_empty (bounds) || box_is_empty (painter->clip_px))
    return false;
  Box on_drawing = box_empty ();
  for (int corner = 0; corner < 4; corner++)
    {
      Vec2 at = vec2 (corner & 1 ? bounds.x1 : bounds.x0, corner & 2 ? bounds.y1 : bounds.y0);
      on_drawing = box_with_point (on_drawing, affine_apply (painter->to_drawing, at));
    }
  return box_overlaps (on_drawing, painter->clip_px);
}

void
paint_area (Painter *painter, size_t i)
{
  const Part *part = hole_part (painter->hole, i);
  const Appearance *look = appearance_of (part->kind);
  cairo_t *cr = painter->cr;

  if (look->is_washed)
    {
      cairo_set_fill_rule (cr, part->even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
      trace_path (cr, &part->path, painter->to_drawing);
      palette_use (cr, look->wash, 1, painter->ink);
      cairo_fill_preserve (cr);
      hatch_fill (&painter->hatch, look->hatch, look->hatch_ink);
    }
  paint_edge (painter, i);
}

/* Adds the drawing's extent, a turned rectangle; nothing when the document gives none. */
static bool
trace_extent (const Painter *painter)
{
  Box extent = hole_info (painter->hole)->view_box;
  if (box_is_empty (extent))
    return false;
  for (int corner = 0; corner < 4; corner++)
    {
      Vec2 at = vec2 (corner == 1 || corner == 2 ? extent.x1 : extent.x0, corner >= 2 ? extent.y1 : extent.y0);
      Vec2 p = to_cairo (painter->to_drawing, at);
      cairo_line_to (painter->cr, p.x, p.y);
    }
  cairo_close_path (painter->cr);
  return true;
}

/* Paper, and the ground on it: pale where the drawing ends, as nobody has surveyed that. */
static void
paint_ground (Painter *painter)
{
  cairo_t *cr = painter->cr;
  const Appearance *look = appearance_of (hole_info (painter->hole)->ground);

  palette_use (cr, PALETTE_PAPER, 1, painter->ink);
  cairo_paint (cr);
  if (!look->is_washed)
    return;
  palette_use (cr, look->wash, BEYOND_ALPHA, painter->ink);
  cairo_paint (cr);
  palette_use (cr, look->wash, 1, painter->ink);
  if (!trace_extent (painter))
    cairo_rectangle (cr, 0, 0, painter->view->width_px, painter->view->height_px);
  cairo_fill_preserve (cr);
  hatch_fill (&painter->hatch, look->hatch, look->hatch_ink);
}

/* What is painted together, from the ground up. */
enum
{
  LAYER_LAND,
  LAYER_TREES,
  LAYER_MARKS
};

unsigned
render_layer (Kind kind)
{
  PartShape shape = kind_info (kind)->shape;
  if (shape == SHAPE_AREA || shape == SHAPE_IMAGE)
    return LAYER_LAND;
  return kind == KIND_TREE ? LAYER_TREES : LAYER_MARKS;
}

/* What grows or lies on the ground, as the document stacks it, single trees above it all; cut where the drawing ends. */
static void
paint_land (Painter *painter)
{
  size_t n = hole_n_parts (painter->hole);

  cairo_save (painter->cr);
  if (trace_extent (painter))
    cairo_clip (painter->cr);
  for (size_t i = 0; i < n; i++)
    {
      const Part *part = hole_part (painter->hole, i);
      PartShape shape = kind_info (part->kind)->shape;
      if (shape == SHAPE_AREA && is_visible (painter, part->bounds))
        paint_area (painter, i);
      else if (shape == SHAPE_IMAGE)
        paint_underlay (painter, i);
    }
  for (size_t i = 0; i < n; i++)
    if (render_layer (hole_part (painter->hole, i)->kind) == LAYER_TREES)
      paint_symbol (painter, i);
  cairo_restore (painter->cr);
}

/* What is marked or measured; never cut. */
static void
paint_marks (Painter *painter)
{
  for (size_t i = 0; i < hole_n_parts (painter->hole); i++)
    {
      Kind kind = hole_part (painter->hole, i)->kind;
      PartShape shape = kind_info (kind)->shape;
      if (render_layer (kind) == LAYER_MARKS && (shape == SHAPE_POINT || shape == SHAPE_LINE))
        paint_symbol (painter, i);
    }
}

/* What of the drawing is painted at all: the clip that the caller set, with room for strokes. */
static Box
clip_of (const Painter *painter)
{
  Box clip, visible = painter->visible_px;
  cairo_clip_extents (painter->cr, &clip.x0, &clip.y0, &clip.x1, &clip.y1);
  clip = box_grown (clip, STROKE_ROOM * painter->unit_px);
  return (Box){ fmax (clip.x0, visible.x0), fmax (clip.y0, visible.y0), fmin (clip.x1, visible.x1),
                fmin (clip.y1, visible.y1) };
}

void
render_hole_parts (cairo_t *cr, const Hole *hole, const RenderView *view, PaintInk ink, unsigned omit)
{
  Painter painter = { .cr = cr, .hole = hole, .view = view, .unit_px = view->unit_px, .ink = ink, .omit = omit };

  painter.to_drawing = view_to_drawing (view);
  if (!affine_is_finite (painter.to_drawing) || !(view->width_px > 0) || !(view->height_px > 0))
    return;
  painter.visible_px = box_grown ((Box){ 0, 0, view->width_px, view->height_px }, STROKE_ROOM * view->unit_px);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, view->width_px, view->height_px);
  cairo_clip (cr);
  painter.clip_px = clip_of (&painter);
  painter.text = text_pen_new (cr);
  hatch_pen_init (&painter.hatch, cr, ink, view->unit_px, view_point (view, vec2 (0, 0)));

  if (!(omit & HOLE_WITHOUT_GROUND))
    paint_ground (&painter);
  paint_land (&painter);
  paint_marks (&painter);
  if ((omit & (HOLE_WITHOUT_NAMES | HOLE_WITHOUT_HEIGHTS)) != (HOLE_WITHOUT_NAMES | HOLE_WITHOUT_HEIGHTS))
    paint_names (&painter);

  hatch_pen_clear (&painter.hatch);
  text_pen_free (painter.text);
  cairo_restore (cr);
}

void
render_hole (cairo_t *cr, const Hole *hole, const RenderView *view, PaintInk ink)
{
  render_hole_parts (cr, hole, view, ink, 0);
}

void
render_things (cairo_t *cr, const Hole *hole, const RenderView *view, PaintInk ink)
{
  render_hole_parts (cr, hole, view, ink, HOLE_WITHOUT_GROUND);
}
