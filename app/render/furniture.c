// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * furniture - what every survey sheet carries in its margin: a scale bar and a north arrow.
 */
#include "palette-private.h"
#include "render-labels.h"
#include "text-private.h"

/* Design units of 1/96 inch. */
#define BAR_ROOM 150.0
#define BAR_TICK 4.0
#define BAR_WIDTH 1.4
#define BAR_TEXT 11.5
#define BAR_TEXT_GAP 8.0
#define NORTH_RADIUS 22.0
#define NORTH_TEXT 10.5
#define HALO 2.0

/* The longest of 1, 2, 5, 10, 20, 50, ... units that is not longer than `most`. */
static double
round_length (double most)
{
  double power = pow (10, floor (log10 (most))), lead = most / power;
  return power * (lead >= 5 ? 5 : lead >= 2 ? 2 : 1);
}

static void
trace_bar (cairo_t *cr, double x, double y, double length, double tick)
{
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + length, y);
  cairo_move_to (cr, x, y - tick);
  cairo_line_to (cr, x, y + tick);
  cairo_move_to (cr, x + length / 2, y - 0.75 * tick);
  cairo_line_to (cr, x + length / 2, y + 0.75 * tick);
  cairo_move_to (cr, x + length, y - tick);
  cairo_line_to (cr, x + length, y + tick);
}

/* The length of the bar in units of the view, and the words beside it; false for a view without a scale. */
static bool
bar_length (const RenderView *view, double *length, char *text, size_t size)
{
  double px_per_unit = view->px_per_m * unit_to_metres (view->units, 1);
  char number[32];
  if (!(px_per_unit > 0) || !isfinite (px_per_unit))
    return false;
  *length = round_length (BAR_ROOM * view->unit_px / px_per_unit);
  units_print_decimals (*length, 6, number, sizeof number);
  g_snprintf (text, size, "%s %s", number, unit_suffix (view->units));
  return true;
}

Box
render_scale_bar_box (const RenderView *view, double x_px, double y_px)
{
  double length, unit = view->unit_px, half = (BAR_TEXT / 2 + HALO) * unit;
  char text[48];
  if (!bar_length (view, &length, text, sizeof text))
    return box_empty ();
  TextPen *pen = text_pen_new (NULL);
  double width = text_width (pen, text, (TextStyle){ BAR_TEXT * unit, TEXT_MEDIUM });
  text_pen_free (pen);
  double end = x_px + length * view->px_per_m * unit_to_metres (view->units, 1) + BAR_TEXT_GAP * unit + width;
  return (Box){ x_px - HALO * unit, y_px - half, end + HALO * unit, y_px + half };
}

Box
render_north_box (const RenderView *view, Vec2 centre_px)
{
  double radius = NORTH_RADIUS * view->unit_px;
  return (Box){ centre_px.x - radius, centre_px.y - radius, centre_px.x + radius, centre_px.y + radius };
}

void
render_scale_bar (cairo_t *cr, const RenderView *view, double x_px, double y_px)
{
  double unit = view->unit_px, px_per_unit = view->px_per_m * unit_to_metres (view->units, 1), length;
  char text[48];
  TextStyle style = { BAR_TEXT * unit, TEXT_MEDIUM };

  if (!bar_length (view, &length, text, sizeof text))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_SQUARE);
  trace_bar (cr, x_px, y_px, length * px_per_unit, BAR_TICK * unit);
  palette_use (cr, PALETTE_PAPER, 0.75, PAINT_COLOUR);
  cairo_set_line_width (cr, (BAR_WIDTH + 2 * HALO) * unit);
  cairo_stroke_preserve (cr);
  palette_use (cr, PALETTE_INK, 1, PAINT_COLOUR);
  cairo_set_line_width (cr, BAR_WIDTH * unit);
  cairo_stroke (cr);

  TextPen *pen = text_pen_new (cr);
  double text_x = x_px + length * px_per_unit + BAR_TEXT_GAP * unit;
  palette_use (cr, PALETTE_PAPER, 0.75, PAINT_COLOUR);
  text_halo_middle (pen, text, style, text_x, y_px, TEXT_LEFT, HALO * unit);
  palette_use (cr, PALETTE_INK, 1, PAINT_COLOUR);
  text_draw_middle (pen, text, style, text_x, y_px, TEXT_LEFT);
  text_pen_free (pen);
  cairo_restore (cr);
}

/* A slim needle, its north half inked. */
static void
draw_needle (cairo_t *cr, Vec2 centre, Vec2 north, double length, double unit)
{
  Vec2 side = vec2_scale (vec2_left (north), 0.26 * length), tip = vec2_scale (north, length);

  palette_use (cr, PALETTE_INK, 1, PAINT_COLOUR);
  cairo_set_line_width (cr, 1.2 * unit);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_move_to (cr, centre.x + side.x, centre.y + side.y);
  cairo_line_to (cr, centre.x + tip.x, centre.y + tip.y);
  cairo_line_to (cr, centre.x - side.x, centre.y - side.y);
  cairo_close_path (cr);
  cairo_fill_preserve (cr);
  cairo_stroke (cr);
  cairo_move_to (cr, centre.x + side.x, centre.y + side.y);
  cairo_line_to (cr, centre.x - tip.x, centre.y - tip.y);
  cairo_line_to (cr, centre.x - side.x, centre.y - side.y);
  cairo_stroke (cr);
}

void
render_north (cairo_t *cr, const RenderView *view, double up_bearing_deg, Vec2 centre_px)
{
  double unit = view->unit_px, radius = NORTH_RADIUS * unit;
  TextStyle style = { NORTH_TEXT * unit, TEXT_SEMIBOLD };

  if (!isfinite (up_bearing_deg))
    return;
  double direction = units_direction_rad (0, up_bearing_deg) + view->turn_rad;
  Vec2 north = vec2 (cos (direction), -sin (direction));
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_arc (cr, centre_px.x, centre_px.y, radius, 0, 2 * PI);
  palette_use (cr, PALETTE_PAPER, 0.92, PAINT_COLOUR);
  cairo_fill_preserve (cr);
  palette_use (cr, PALETTE_INK, 0.35, PAINT_COLOUR);
  cairo_set_line_width (cr, unit);
  cairo_stroke (cr);
  Vec2 hub = vec2_sub (centre_px, vec2_scale (north, 0.22 * radius));
  draw_needle (cr, hub, north, 0.6 * radius, unit);

  TextPen *pen = text_pen_new (cr);
  Vec2 letter = vec2_add (centre_px, vec2_scale (north, 0.68 * radius));
  text_draw_middle (pen, "N", style, letter.x, letter.y, TEXT_CENTRE);
  text_pen_free (pen);
  cairo_restore (cr);
}
