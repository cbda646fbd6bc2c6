// SPDX-License-Identifier: GPL-3.0-or-later
/* rose - the compass that lies as the drawing does, and the wind blown across it: the further out its tail, the stronger. */
#include "palette-private.h"
#include "text-private.h"

/* Design units of 1/96 inch. */
#define RING_WIDTH 1.0
#define TICK 5.0
#define LETTER 10.5
#define LETTER_IN 13.0 /* from the rim to the middle of a letter */
#define SHAFT_WIDTH 3.0
#define HEAD 9.0
#define GRIP 7.0
/* Ticks each 30 degrees, rings at each of these shares of the strongest wind. */
#define N_TICKS 12
static const double ring_shares[] = { 1.0 / 3, 2.0 / 3 };

/* Unit vector on the drawing (y down) towards a bearing. */
static Vec2
towards (const RenderRose *rose, double bearing_deg)
{
  double angle = rose->north_rad - units_radians (bearing_deg);
  return vec2 (cos (angle), -sin (angle));
}

static bool
has_wind (const RenderRose *rose)
{
  return isfinite (rose->wind_mps) && isfinite (rose->from_deg) && rose->wind_mps > 0;
}

static double
wind_share (const RenderRose *rose)
{
  return fmin (1, rose->wind_mps / rose->most_mps);
}

Vec2
render_rose_tail (const RenderRose *rose)
{
  if (!has_wind (rose))
    return rose->centre_px;
  return vec2_add (rose->centre_px, vec2_scale (towards (rose, rose->from_deg), wind_share (rose) * rose->radius_px));
}

void
render_rose_pick (const RenderRose *rose, Vec2 at_px, double *wind_mps, double *from_deg)
{
  Vec2 out = vec2_sub (at_px, rose->centre_px);
  double away = vec2_length (out) / rose->radius_px;
  double bearing = units_degrees (rose->north_rad - atan2 (-out.y, out.x));
  *wind_mps = fmin (1, away) * rose->most_mps;
  *from_deg = bearing - 360 * floor (bearing / 360);
}

static void
draw_disc (cairo_t *cr, const RenderRose *rose)
{
  Vec2 c = rose->centre_px;
  cairo_arc (cr, c.x, c.y, rose->radius_px, 0, 2 * PI);
  palette_use (cr, PALETTE_PAPER, 1, PAINT_COLOUR);
  cairo_fill_preserve (cr);
  cairo_set_line_width (cr, RING_WIDTH * rose->unit_px);
  palette_use (cr, PALETTE_INK, 0.5, PAINT_COLOUR);
  cairo_stroke (cr);
  for (size_t i = 0; i < G_N_ELEMENTS (ring_shares); i++)
    cairo_new_sub_path (cr), cairo_arc (cr, c.x, c.y, ring_shares[i] * rose->radius_px, 0, 2 * PI);
  palette_use (cr, PALETTE_INK, 0.16, PAINT_COLOUR);
  cairo_stroke (cr);
  for (int i = 0; i < N_TICKS; i++)
    {
      Vec2 out = towards (rose, i * 360.0 / N_TICKS), rim = vec2_add (c, vec2_scale (out, rose->radius_px));
      cairo_move_to (cr, rim.x, rim.y);
      cairo_line_to (cr, rim.x - TICK * rose->unit_px * out.x, rim.y - TICK * rose->unit_px * out.y);
    }
  palette_use (cr, PALETTE_INK, 0.5, PAINT_COLOUR);
  cairo_stroke (cr);
}

static void
draw_letters (cairo_t *cr, const RenderRose *rose)
{
  static const char *const letters[] = { "N", "E", "S", "W" };
  TextPen *pen = text_pen_new_keeping (cr, rose->words);
  for (int i = 0; i < 4; i++)
    {
      TextStyle style = { LETTER * rose->unit_px, i == 0 ? TEXT_BOLD : TEXT_MEDIUM };
      Vec2 at = vec2_add (rose->centre_px, vec2_scale (towards (rose, 90.0 * i), rose->radius_px - LETTER_IN * rose->unit_px));
      palette_use (cr, PALETTE_INK, i == 0 ? 1 : 0.7, PAINT_COLOUR);
      text_draw_middle (pen, letters[i], style, at.x, at.y, TEXT_CENTRE);
    }
  text_pen_free (pen);
}

/* From its grip, where it comes from, over the middle; the head stands as far beyond. */
static void
draw_wind (cairo_t *cr, const RenderRose *rose)
{
  double unit = rose->unit_px;
  Vec2 tail = render_rose_tail (rose), c = rose->centre_px;
  palette_use (cr, PALETTE_ACCENT, 1, PAINT_COLOUR);
  if (has_wind (rose))
    {
      Vec2 along = vec2_scale (towards (rose, rose->from_deg), -1), side = vec2_left (along);
      Vec2 tip = vec2_add (c, vec2_scale (along, fmax (HEAD * unit, wind_share (rose) * rose->radius_px)));
      Vec2 neck = vec2_sub (tip, vec2_scale (along, HEAD * unit)), barb = vec2_scale (side, HEAD / 2 * unit);
      cairo_move_to (cr, tail.x, tail.y);
      cairo_line_to (cr, neck.x, neck.y);
      cairo_set_line_width (cr, SHAFT_WIDTH * unit);
      cairo_stroke (cr);
      cairo_move_to (cr, tip.x, tip.y);
      cairo_line_to (cr, neck.x + barb.x, neck.y + barb.y);
      cairo_line_to (cr, neck.x - barb.x, neck.y - barb.y);
      cairo_close_path (cr);
      cairo_fill (cr);
    }
  cairo_arc (cr, tail.x, tail.y, GRIP * unit, 0, 2 * PI);
  palette_use (cr, PALETTE_PAPER, 1, PAINT_COLOUR);
  cairo_fill_preserve (cr);
  palette_use (cr, PALETTE_ACCENT, 1, PAINT_COLOUR);
  cairo_set_line_width (cr, SHAFT_WIDTH * unit);
  cairo_stroke (cr);
}

void
render_rose_disc (cairo_t *cr, const RenderRose *rose)
{
  if (!(rose->radius_px > 0))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  draw_disc (cr, rose);
  draw_letters (cr, rose);
  cairo_restore (cr);
}

void
render_rose_wind (cairo_t *cr, const RenderRose *rose)
{
  if (!(rose->radius_px > 0))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  draw_wind (cr, rose);
  cairo_restore (cr);
}
