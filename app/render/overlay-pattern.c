// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-pattern - where the club's balls land, as two contours: one holds half of them, the other nine in ten.
 */
#include "overlay-private.h"

/* Tints inside the contours; the inner lies on the outer. */
#define OUTER_TINT 0.10
#define INNER_TINT 0.14

/* The contour is the circle of that radius, stretched by the square root of the covariance (its Cholesky factor). */
void
sheet_trace_contour (OverlaySheet *sheet, const Pattern *pattern, double sds)
{
  double rho = CLAMP (pattern->correlation, -1, 1), rest = sqrt (1 - rho * rho);
  Vec2 along = pattern->along, right = vec2_scale (vec2_left (along), -1);
  Vec2 u = vec2_scale (along, sds * pattern->long_sd_m);
  u = vec2_add (u, vec2_scale (right, sds * pattern->side_sd_m * rho));
  Vec2 v = vec2_scale (right, sds * pattern->side_sd_m * rest);
  Affine t = { u.x, u.y, v.x, v.y, pattern->mean.x, pattern->mean.y };
  t = affine_then (t, view_to_drawing (sheet->view));
  cairo_matrix_t matrix, saved;

  if (!affine_is_finite (t) || !affine_invert (t, &(Affine){ 0 }))
    return;
  cairo_get_matrix (sheet->cr, &saved);
  cairo_matrix_init (&matrix, t.xx, t.yx, t.xy, t.yy, t.x0, t.y0);
  cairo_transform (sheet->cr, &matrix);
  cairo_new_sub_path (sheet->cr);
  cairo_arc (sheet->cr, 0, 0, 1, 0, 2 * PI);
  cairo_close_path (sheet->cr);
  cairo_set_matrix (sheet->cr, &saved);
}

void
overlay_pattern (OverlaySheet *sheet)
{
  const Pattern *pattern = &sheet->shot->pattern;
  cairo_t *cr = sheet->cr;

  /* Mitred: round joins between the short chords of a curve cost much and cannot be seen. */
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  sheet_trace_contour (sheet, pattern, PATTERN_NINE_IN_TEN_SDS);
  palette_use (cr, PALETTE_ACCENT, OUTER_TINT, sheet->ink);
  cairo_fill_preserve (cr);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, 1.2, 0);
  sheet_trace_contour (sheet, pattern, PATTERN_HALF_SDS);
  palette_use (cr, PALETTE_ACCENT, INNER_TINT, sheet->ink);
  cairo_fill_preserve (cr);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, 2.0, 0);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
}
