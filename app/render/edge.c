// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * edge - the inked outlines of areas: a plain line, the stakes' colours of the Rules, or dashes with out-of-bounds posts.
 */
#include "painter-private.h"

/* A penalty area's dark outline is this much wider than its coloured line, design units. */
#define STAKES_OUTLINE 1.4
/* A rim is this much wider than the edge that it stands behind, design units. */
#define RIM 0.7
/* Out of bounds: dash and gap, post width and height, and the least room between two posts, design units. */
#define BOUNDS_DASH 14.0
#define BOUNDS_GAP 6.0
#define POST_WIDTH 5.0
#define POST_HEIGHT 10.0
#define POST_ROOM 70.0
/* A boundary closer than this to the drawing's extent only closes the shape there and is not inked. */
#define EXTENT_TOLERANCE_M 0.5

static void
stroke_path (Painter *painter, const Part *part, unsigned rgb, double width)
{
  cairo_t *cr = painter->cr;
  trace_path (cr, &part->path, painter->to_drawing);
  palette_use (cr, rgb, 1, painter->ink);
  cairo_set_line_width (cr, width * painter->unit_px);
  cairo_stroke (cr);
}

static void
stroke_stakes (Painter *painter, const Part *part, Stakes stakes)
{
  const StakesAppearance *look = stakes_appearance (stakes);
  double width = appearance_of (KIND_PENALTY_AREA)->edge_width;
  double dash[2] = { look->dash[0] * painter->unit_px, look->dash[1] * painter->unit_px };

  stroke_path (painter, part, look->outline, width + STAKES_OUTLINE);
  cairo_set_dash (painter->cr, dash, 2, 0);
  stroke_path (painter, part, look->colour, width);
  cairo_set_dash (painter->cr, NULL, 0, 0);
}

/* Does the boundary between these two points only close the shape along the drawing's extent? */
static bool
is_along_extent (Box extent, Vec2 a, Vec2 b)
{
  if (box_is_empty (extent))
    return false;
  Box inner = box_grown (extent, -EXTENT_TOLERANCE_M);
  return (a.x <= inner.x0 && b.x <= inner.x0) || (a.x >= inner.x1 && b.x >= inner.x1) || (a.y <= inner.y0 && b.y <= inner.y0)
         || (a.y >= inner.y1 && b.y >= inner.y1);
}

/* Distance between posts: the least of 10, 20, 50, 100, ... metres that leaves them room. */
static double
post_spacing_m (const Painter *painter)
{
  static const double steps[] = { 2, 2.5, 2 };
  double spacing_m = 10, room_m = POST_ROOM * painter->unit_px / painter->view->px_per_m;
  for (int i = 0; spacing_m < room_m; i++)
    spacing_m *= steps[i % 3];
  return spacing_m;
}

static void
paint_post (Painter *painter, Vec2 at_px)
{
  cairo_t *cr = painter->cr;
  double unit = painter->unit_px, width = POST_WIDTH * unit, height = POST_HEIGHT * unit;

  cairo_rectangle (cr, at_px.x - width / 2, at_px.y - height / 2, width, height);
  palette_use (cr, PALETTE_WHITE, 1, painter->ink);
  cairo_fill_preserve (cr);
  palette_use (cr, PALETTE_POST_OUTLINE, 1, painter->ink);
  cairo_set_line_width (cr, 1.1 * unit);
  cairo_stroke (cr);
}

/* Posts along one edge of the boundary; `*walked_m` is the distance since the boundary began. */
static void
paint_posts (Painter *painter, Vec2 a, Vec2 b, double spacing_m, double *walked_m)
{
  double length = vec2_distance (a, b);
  double next = ceil (*walked_m / spacing_m - 0.5) * spacing_m + spacing_m / 2 - *walked_m;

  for (; length > 0 && next < length; next += spacing_m)
    {
      Vec2 at = affine_apply (painter->to_drawing, vec2_lerp (a, b, next / length));
      if (box_contains (painter->visible_px, at))
        paint_post (painter, at);
    }
  *walked_m += length;
}

/* Adds the dashed line of one ring, leaving out what only closes the shape along the extent. */
static void
trace_boundary (Painter *painter, const Outline *outline, size_t ring, Box extent)
{
  size_t first = outline->ring_starts[ring], end = outline->ring_starts[ring + 1];
  bool is_pen_down = false;
  for (size_t i = first; i < end; i++)
    {
      Vec2 a = outline->points[i], b = outline->points[i + 1 < end ? i + 1 : first];
      Vec2 p = to_cairo (painter->to_drawing, a), q = to_cairo (painter->to_drawing, b);
      bool is_ground = !is_along_extent (extent, a, b);
      if (is_ground && !is_pen_down)
        cairo_move_to (painter->cr, p.x, p.y);
      if (is_ground)
        cairo_line_to (painter->cr, q.x, q.y);
      is_pen_down = is_ground;
    }
}

static void
post_boundary (Painter *painter, const Outline *outline, size_t ring, Box extent)
{
  size_t first = outline->ring_starts[ring], end = outline->ring_starts[ring + 1];
  double spacing_m = post_spacing_m (painter), walked_m = 0;
  for (size_t i = first; i < end; i++)
    {
      Vec2 a = outline->points[i], b = outline->points[i + 1 < end ? i + 1 : first];
      if (is_along_extent (extent, a, b))
        walked_m = 0;
      else
        paint_posts (painter, a, b, spacing_m, &walked_m);
    }
}

static void
stroke_bounds (Painter *painter, const Part *part)
{
  cairo_t *cr = painter->cr;
  const Outline *outline = part->outline;
  const Appearance *look = appearance_of (part->kind);
  Box extent = hole_info (painter->hole)->view_box;
  double dash[2] = { BOUNDS_DASH * painter->unit_px, BOUNDS_GAP * painter->unit_px };

  for (size_t r = 0; r < outline->n_rings; r++)
    trace_boundary (painter, outline, r, extent);
  palette_use (cr, look->edge, 1, painter->ink);
  cairo_set_line_width (cr, look->edge_width * painter->unit_px);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  for (size_t r = 0; r < outline->n_rings; r++)
    post_boundary (painter, outline, r, extent);
}

/* Does the area hold most of the outline's points? */
static bool
surrounds (const Outline *area, const Outline *outline)
{
  size_t n_inside = 0;
  for (size_t i = 0; i < outline->n_points; i++)
    n_inside += outline_contains (area, outline->points[i]);
  return 2 * n_inside > outline->n_points;
}

/* Water that no penalty area surrounds is a penalty area by itself, and is edged like one. */
static bool
is_lone_water (const Painter *painter, size_t i)
{
  const Part *water = hole_part (painter->hole, i);
  if (water->kind != KIND_WATER)
    return false;
  for (size_t k = 0; k < hole_n_parts (painter->hole); k++)
    {
      const Part *part = hole_part (painter->hole, k);
      if (part->kind == KIND_PENALTY_AREA && surrounds (part->outline, water->outline))
        return false;
    }
  return true;
}

void
paint_edge (Painter *painter, size_t i)
{
  const Part *part = hole_part (painter->hole, i);
  const Appearance *look = appearance_of (part->kind);

  cairo_set_line_join (painter->cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (painter->cr, CAIRO_LINE_CAP_BUTT);
  if (look->edge_style == EDGE_STAKES || is_lone_water (painter, i))
    stroke_stakes (painter, part, hole_stakes (painter->hole, i));
  else if (look->edge_style == EDGE_POSTS)
    stroke_bounds (painter, part);
  else if (look->edge_style == EDGE_LINE)
    {
      if (look->rim)
        stroke_path (painter, part, look->rim, look->edge_width + RIM);
      stroke_path (painter, part, look->edge, look->edge_width);
    }
}
