// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * symbols - single trees, tee markers, the flag, survey marks, heights and slopes: one row of a table per kind.
 */
#include "painter-private.h"

#include <string.h>

/* Sizes in design units of 1/96 inch. */
#define TEE_MARKER_RADIUS 3.8
#define HOLE_RADIUS 3.2
#define OTHER_HOLE_RADIUS 2.4
#define FLAG_HEIGHT 21.0
#define FLAG_LENGTH 12.5
#define FLAG_DROP 9.5
#define MARK_ARM 4.5
/* The level mark of a height, its tip on the spot (common practice in levelling). */
#define SPOT_WIDTH 6.4
#define SPOT_HEIGHT 5.0
#define ARROW_HEAD 5.0
/* An arrow is drawn no shorter than this. */
#define LEAST_ARROW 13.0
#define HALO_WIDTH 2.8
#define HALO_ALPHA 0.7
/* Heights and slopes are drawn from this many drawing units a metre, per design unit, and those that stand this far from any other always. */
#define HEIGHTS_FROM_UNITS_PER_M 4.0
#define HEIGHTS_APART 26.0
#define LEAST_TREE_RADIUS 2.0
/* The one arc in a crown: its radius is this share of the crown's, within these bounds. */
#define CROWN_ARC_SHARE 0.28
#define LEAST_CROWN_ARC 2.6
#define MOST_CROWN_ARC 8.0

static bool
is_height (const Part *part)
{
  return part->kind == KIND_SPOT_HEIGHT || (part->kind == KIND_SLOPE && part->path.n_segs > 1);
}

Vec2
height_place (const Part *part)
{
  if (part->kind != KIND_SLOPE)
    return part->at;
  return vec2_scale (vec2_add (part->path.segs[0].to, path_current (&part->path)), 0.5);
}

bool
shows_height (const Painter *painter, const Part *part)
{
  if (!is_height (part) || painter->omit & HOLE_WITHOUT_HEIGHTS)
    return false;
  if (painter->shows_each_height || painter->view->px_per_m >= HEIGHTS_FROM_UNITS_PER_M * painter->unit_px)
    return true;
  double apart_m = HEIGHTS_APART * painter->unit_px / painter->view->px_per_m;
  Vec2 at = height_place (part);
  for (size_t i = 0; i < hole_n_parts (painter->hole); i++)
    {
      const Part *other = hole_part (painter->hole, i);
      if (other != part && is_height (other) && vec2_distance (height_place (other), at) < apart_m)
        return false;
    }
  return true;
}

Box
flag_bounds (Vec2 at_px, double unit_px)
{
  return (Box){ at_px.x - HOLE_RADIUS * unit_px, at_px.y - (FLAG_HEIGHT + 1) * unit_px, at_px.x + (FLAG_LENGTH + 1) * unit_px,
                at_px.y + HOLE_RADIUS * unit_px };
}

Box
other_hole_bounds (Vec2 at_px, double unit_px)
{
  return box_grown (box_with_point (box_empty (), at_px), OTHER_HOLE_RADIUS * unit_px);
}

static void
use_edge (Painter *painter, Kind kind)
{
  const Appearance *look = appearance_of (kind);
  palette_use (painter->cr, look->edge, 1, painter->ink);
  cairo_set_line_width (painter->cr, look->edge_width * painter->unit_px);
}

static void
disc (Painter *painter, Vec2 at, double radius_px)
{
  cairo_new_sub_path (painter->cr);
  cairo_arc (painter->cr, at.x, at.y, radius_px, 0, 2 * PI);
  cairo_close_path (painter->cr);
}

static void
paint_tree (Painter *painter, const Part *part, Vec2 at)
{
  cairo_t *cr = painter->cr;
  double radius = fmax (part->radius_m * painter->view->px_per_m, LEAST_TREE_RADIUS * painter->unit_px);

  disc (painter, at, radius);
  palette_use (cr, appearance_of (KIND_TREE)->wash, 1, painter->ink);
  cairo_fill_preserve (cr);
  use_edge (painter, KIND_TREE);
  cairo_stroke (cr);
  double arc = CLAMP (CROWN_ARC_SHARE * radius, LEAST_CROWN_ARC * painter->unit_px, MOST_CROWN_ARC * painter->unit_px);
  if (radius < 2 * arc)
    return;
  cairo_new_sub_path (cr);
  cairo_arc (cr, at.x, at.y + arc / 2, arc, PI, 2 * PI);
  cairo_stroke (cr);
}

/* Colours by which sets of tee markers are commonly named. */
static const struct
{
  const char *word;
  unsigned rgb;
} tee_colours[] = {
  { "white", 0xffffff }, { "yellow", 0xe8c53a }, { "red", 0xc23b3b },    { "blue", 0x3a66a8 },   { "black", 0x26292c },
  { "green", 0x3f7d49 }, { "gold", 0xc9a227 },   { "orange", 0xd98324 }, { "silver", 0xc3c7ca }, { "purple", 0x6f4b94 },
};

static unsigned
tee_colour (const char *name)
{
  for (size_t i = 0; name && i < G_N_ELEMENTS (tee_colours); i++)
    if (g_ascii_strncasecmp (name, tee_colours[i].word, strlen (tee_colours[i].word)) == 0)
      return tee_colours[i].rgb;
  return appearance_of (KIND_TEE_MARKER)->wash;
}

static void
paint_tee_marker (Painter *painter, const Part *part, Vec2 at)
{
  disc (painter, at, TEE_MARKER_RADIUS * painter->unit_px);
  palette_use (painter->cr, tee_colour (part->name), 1, painter->ink);
  cairo_fill_preserve (painter->cr);
  use_edge (painter, KIND_TEE_MARKER);
  cairo_stroke (painter->cr);
}

/* The hole in use carries the flag, the others a ring. */
static void
paint_hole_location (Painter *painter, const Part *part, Vec2 at)
{
  cairo_t *cr = painter->cr;
  double unit = painter->unit_px;
  int in_use = hole_hole_location (painter->hole, NULL);

  use_edge (painter, KIND_HOLE_LOCATION);
  if (in_use < 0 || hole_part (painter->hole, (size_t)in_use) != part)
    {
      disc (painter, at, OTHER_HOLE_RADIUS * unit);
      cairo_stroke (cr);
      return;
    }
  disc (painter, at, HOLE_RADIUS * unit);
  cairo_fill (cr);
  cairo_move_to (cr, at.x, at.y);
  cairo_rel_line_to (cr, 0, -FLAG_HEIGHT * unit);
  cairo_rel_line_to (cr, FLAG_LENGTH * unit, FLAG_DROP / 2 * unit);
  cairo_rel_line_to (cr, -FLAG_LENGTH * unit, FLAG_DROP / 2 * unit);
  cairo_fill_preserve (cr);
  cairo_stroke (cr);
}

static void
paint_spot_height (Painter *painter, const Part *part, Vec2 at)
{
  cairo_t *cr = painter->cr;
  double unit = painter->unit_px;
  if (!shows_height (painter, part))
    return;
  cairo_move_to (cr, at.x, at.y);
  cairo_rel_line_to (cr, -SPOT_WIDTH / 2 * unit, -SPOT_HEIGHT * unit);
  cairo_rel_line_to (cr, SPOT_WIDTH * unit, 0);
  cairo_close_path (cr);
  palette_use (cr, PALETTE_PAPER, 1, painter->ink);
  cairo_fill_preserve (cr);
  use_edge (painter, KIND_SPOT_HEIGHT);
  cairo_stroke (cr);
}

static void
paint_mark (Painter *painter, const Part *part, Vec2 at)
{
  cairo_t *cr = painter->cr;
  double arm = MARK_ARM * painter->unit_px;

  disc (painter, at, arm);
  palette_use (cr, appearance_of (KIND_MARK)->wash, 1, painter->ink);
  cairo_fill (cr);
  use_edge (painter, KIND_MARK);
  disc (painter, at, arm);
  cairo_move_to (cr, at.x - arm, at.y);
  cairo_rel_line_to (cr, 2 * arm, 0);
  cairo_move_to (cr, at.x, at.y - arm);
  cairo_rel_line_to (cr, 0, 2 * arm);
  cairo_stroke (cr);
}

/* The ends of a slope's arrow, which points downhill. */
static void
find_arrow (const Painter *painter, const Part *part, Vec2 *from, Vec2 *to)
{
  *from = affine_apply (painter->to_drawing, part->path.segs[0].to);
  *to = affine_apply (painter->to_drawing, path_current (&part->path));
  Vec2 middle = vec2_scale (vec2_add (*from, *to), 0.5), along = vec2_unit (vec2_sub (*to, *from));
  Vec2 half = vec2_scale (along, fmax (vec2_distance (*from, *to), LEAST_ARROW * painter->unit_px) / 2);
  if (part->percent < 0)
    half = vec2_scale (half, -1);
  *from = vec2_sub (middle, half);
  *to = vec2_add (middle, half);
}

size_t
height_boxes (const Painter *painter, const Part *part, Box boxes[HEIGHT_BOXES])
{
  double unit = painter->unit_px;
  if (part->kind != KIND_SLOPE)
    {
      Vec2 at = affine_apply (painter->to_drawing, part->at);
      boxes[0] = (Box){ at.x - SPOT_WIDTH / 2 * unit, at.y - SPOT_HEIGHT * unit, at.x + SPOT_WIDTH / 2 * unit, at.y };
      return 1;
    }
  Vec2 from, to;
  find_arrow (painter, part, &from, &to);
  for (size_t i = 0; i < HEIGHT_BOXES; i++)
    {
      Vec2 at = vec2_lerp (from, to, (double)i / HEIGHT_BOXES), next = vec2_lerp (from, to, (double)(i + 1) / HEIGHT_BOXES);
      double wide = (i + 1 < HEIGHT_BOXES ? HALO_WIDTH : ARROW_HEAD) / 2;
      boxes[i] = box_grown (box_with_point (box_with_point (box_empty (), at), next), wide * unit);
    }
  return HEIGHT_BOXES;
}

/* On paper so that it is seen on any wash. */
static void
paint_slope (Painter *painter, const Part *part, Vec2 at)
{
  cairo_t *cr = painter->cr;
  Vec2 from, to;
  if (!shows_height (painter, part))
    return;
  find_arrow (painter, part, &from, &to);
  Vec2 back = vec2_scale (vec2_unit (vec2_sub (to, from)), -ARROW_HEAD * painter->unit_px),
       side = vec2_scale (vec2_left (back), 0.5);

  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, to.x, to.y);
  cairo_move_to (cr, to.x + back.x + side.x, to.y + back.y + side.y);
  cairo_line_to (cr, to.x, to.y);
  cairo_line_to (cr, to.x + back.x - side.x, to.y + back.y - side.y);
  palette_use (cr, PALETTE_PAPER, HALO_ALPHA, painter->ink);
  cairo_set_line_width (cr, HALO_WIDTH * painter->unit_px);
  cairo_stroke_preserve (cr);
  use_edge (painter, KIND_SLOPE);
  cairo_stroke (cr);
}

/* A kind without a row leaves no symbol: the line of play is what is measured, not something on the ground. */
static void (*const symbol_painters[N_KINDS]) (Painter *painter, const Part *part, Vec2 at_px) = {
  [KIND_TREE] = paint_tree,
  [KIND_TEE_MARKER] = paint_tee_marker,
  [KIND_HOLE_LOCATION] = paint_hole_location,
  [KIND_SPOT_HEIGHT] = paint_spot_height,
  [KIND_MARK] = paint_mark,
  [KIND_SLOPE] = paint_slope,
};

void
paint_symbol (Painter *painter, size_t i)
{
  const Part *part = hole_part (painter->hole, i);
  Vec2 at = affine_apply (painter->to_drawing, part->at);
  bool is_line = kind_info (part->kind)->shape == SHAPE_LINE;

  if (!symbol_painters[part->kind])
    return;
  double reach = part->radius_m * painter->view->px_per_m;
  if (!is_line && !box_contains (box_grown (painter->visible_px, reach), at))
    return;
  cairo_set_line_cap (painter->cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join (painter->cr, CAIRO_LINE_JOIN_ROUND);
  symbol_painters[part->kind](painter, part, at);
}
