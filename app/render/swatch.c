// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * swatch - a small rectangle of a kind's wash, hatch and edge, for legends, palettes and tables.
 */
#include "painter-private.h"

/* Corner radius, design units. */
#define SWATCH_CORNER 2.5

static void
trace_swatch (cairo_t *cr, double x, double y, double width, double height, double corner)
{
  double r = fmin (corner, fmin (width, height) / 2);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x + width - r, y + r, r, -PI / 2, 0);
  cairo_arc (cr, x + width - r, y + height - r, r, 0, PI / 2);
  cairo_arc (cr, x + r, y + height - r, r, PI / 2, PI);
  cairo_arc (cr, x + r, y + r, r, PI, 3 * PI / 2);
  cairo_close_path (cr);
}

static void
stroke_swatch (cairo_t *cr, const Appearance *look, const StakesAppearance *stakes, double unit)
{
  double dash[2] = { stakes->dash[0] * unit / 2, stakes->dash[1] * unit / 2 };

  cairo_set_line_width (cr, look->edge_width * unit);
  if (look->edge_style == EDGE_STAKES)
    {
      palette_use (cr, stakes->outline, 1, PAINT_COLOUR);
      cairo_stroke_preserve (cr);
      cairo_set_dash (cr, dash, 2, 0);
      palette_use (cr, stakes->colour, 1, PAINT_COLOUR);
    }
  else
    palette_use (cr, look->edge, look->edge_style == EDGE_NONE ? 0.6 : 1, PAINT_COLOUR);
  cairo_stroke (cr);
}

void
render_swatch (cairo_t *cr, Kind kind, Stakes stakes, double x_px, double y_px, double width_px, double height_px, double unit_px)
{
  const Appearance *look = appearance_of (kind);
  double inset = look->edge_width * unit_px / 2;
  double x = x_px + inset, y = y_px + inset, width = width_px - 2 * inset, height = height_px - 2 * inset;
  HatchPen hatch;

  if (!(width > 0) || !(height > 0))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  hatch_pen_init (&hatch, cr, PAINT_COLOUR, unit_px, vec2 (x_px, y_px));
  trace_swatch (cr, x, y, width, height, SWATCH_CORNER * unit_px);
  palette_use (cr, look->wash, 1, PAINT_COLOUR);
  cairo_fill_preserve (cr);
  hatch_fill (&hatch, look->hatch, look->hatch_ink);
  trace_swatch (cr, x, y, width, height, SWATCH_CORNER * unit_px);
  stroke_swatch (cr, look, stakes_appearance (stakes), unit_px);
  hatch_pen_clear (&hatch);
  cairo_restore (cr);
}
