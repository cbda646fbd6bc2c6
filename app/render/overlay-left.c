// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-left - what is left: a dashed line from where the ball lands to the hole, with its length.
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define LEFT_WIDTH 1.8
#define LABEL_GAP 4.0
#define FLAG_CLEAR 14.0
/* A leftover shorter than this on the drawing is not worth a line. */
#define LEAST_LENGTH 24.0

void
overlay_left (OverlaySheet *sheet)
{
  const ShotResult *shot = sheet->shot;
  Vec2 target;
  char number[32], text[LABEL_TEXT_SIZE];
  double dash[2] = { 7 * sheet->unit_px, 5 * sheet->unit_px };

  if (!isfinite (shot->left_m) || !sheet->scene->hole || !hole_target (sheet->scene->hole, NULL, &target))
    return;
  Vec2 from = view_point (sheet->view, shot->rest), to = view_point (sheet->view, target);
  if (vec2_distance (from, to) < LEAST_LENGTH * sheet->unit_px)
    return;
  cairo_set_dash (sheet->cr, dash, 2, 0);
  cairo_move_to (sheet->cr, from.x, from.y);
  cairo_line_to (sheet->cr, to.x, to.y);
  sheet_stroke_long (sheet, PALETTE_ACCENT, LEFT_WIDTH, 0);
  cairo_set_dash (sheet->cr, NULL, 0, 0);

  sheet_avoid (sheet, to, FLAG_CLEAR * sheet->unit_px);
  units_print_whole (shot->left_m, sheet->view->units, number, sizeof number);
  g_snprintf (text, sizeof text, sheet_word (sheet, N_ ("%s left")), number);
  double visible_from = 0, visible_to = 1;
  if (!sheet_cut (sheet, from, vec2_sub (to, from), &visible_from, &visible_to))
    return;
  Vec2 middle = vec2_lerp (from, to, (visible_from + visible_to) / 2);
  sheet_label (sheet, RANK_LEFT, PLATE_ACCENT, text, middle, vec2 (0, 0), LABEL_GAP * sheet->unit_px, false);
}
