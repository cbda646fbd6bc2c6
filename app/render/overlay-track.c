// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-track - a shot that curves: the line it starts on, and how far from that line it comes down.
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define LINE_WIDTH 1.3
#define TICK 4.0
#define LABEL_GAP 3.0
/* Curves that move the landing by less cannot be told from a straight line. */
#define LEAST_CURVE 9.0
/* Its words stand at this share of the start line, where that has parted from the track. */
#define WORDS_AT 0.62

void
overlay_track (OverlaySheet *sheet)
{
  const ShotResult *shot = sheet->shot;
  cairo_t *cr = sheet->cr;
  double unit = sheet->unit_px, dash[2] = { 1.5 * unit, 4 * unit };
  Vec2 flown = vec2_sub (shot->landing, shot->ball);
  double along_m = vec2_dot (flown, shot->start), right_m = -vec2_cross (shot->start, flown);
  if (!(along_m > 0) || fabs (right_m) * sheet->view->px_per_m < LEAST_CURVE * unit)
    return;
  Vec2 ball = view_point (sheet->view, shot->ball), landing = view_point (sheet->view, shot->landing);
  Vec2 end = view_point (sheet->view, vec2_add (shot->ball, vec2_scale (shot->start, along_m)));

  cairo_set_dash (cr, dash, 2, 0);
  cairo_move_to (cr, ball.x, ball.y);
  cairo_line_to (cr, end.x, end.y);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, LINE_WIDTH, 0.9);
  cairo_set_dash (cr, NULL, 0, 0);
  /* From the start line's end to the landing, as a dimension: what the ball curves. */
  Vec2 tick = vec2_scale (vec2_unit (vec2_sub (end, ball)), TICK * unit);
  cairo_move_to (cr, end.x - tick.x, end.y - tick.y);
  cairo_line_to (cr, end.x + tick.x, end.y + tick.y);
  cairo_move_to (cr, end.x, end.y);
  cairo_line_to (cr, landing.x, landing.y);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, LINE_WIDTH, 0.9);

  char curve[UNITS_TEXT_SIZE], text[LABEL_TEXT_SIZE];
  units_print_whole (fabs (right_m), sheet->view->units, curve, sizeof curve);
  g_snprintf (text, sizeof text, sheet_word (sheet, right_m > 0 ? N_ ("starts %s left") : N_ ("starts %s right")), curve);
  sheet_label (sheet, RANK_MARK, PLATE_NONE, text, vec2_lerp (ball, end, WORDS_AT), vec2_sub (end, landing), LABEL_GAP * unit,
               false);
}
