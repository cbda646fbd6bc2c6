// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bag-row - a club as the bag's editor shows it: its carry, what scatters about it, how well that is known, and the gap to the next club.
 */
#include "axis-private.h"

/* Design units of 1/96 inch. */
#define ROW_BAR 12.0
#define ROW_TEXT 11.0
#define ROW_NAME_GAP 7.0
#define ROW_MARGIN 10.0
#define LEAST_ROW_BAR 6.0
#define MEAN_OVERHANG 2.5
#define MEAN_WIDTH 2.0
#define ERROR_BELOW 3.5
#define ERROR_CAP 2.0
#define BRACKET_CAP 3.5
/* The line of a gap is drawn at least this long, however near the clubs stand. */
#define LEAST_BRACKET 3.0
/* How much of the bar's colour is in a filled bar and in the grid. */
#define BAR_ALPHA 0.42
#define GRID_ALPHA 0.16
/* The axis begins and ends on multiples of this, in the axis's own unit. */
#define ROUND_UNITS 50.0

RenderAxis
render_bag_axis (const Bag *bag, double width_px, double unit_px, LengthUnit units)
{
  double low = 0, high = 4 * ROUND_UNITS, low_m, high_m;
  size_t n = bag_n_clubs (bag);
  for (size_t i = 0; i < n; i++)
    {
      club_two_of_three (bag_club (bag, i), &low_m, &high_m);
      low = i == 0 ? unit_from_metres (units, low_m) : fmin (low, unit_from_metres (units, low_m));
      high = i == 0 ? unit_from_metres (units, high_m) : fmax (high, unit_from_metres (units, high_m));
    }
  low = fmax (0, floor (low / ROUND_UNITS) * ROUND_UNITS);
  high = fmax (high, low + ROUND_UNITS);
  double margin_px = ROW_MARGIN * unit_px, room_px = fmax (1, width_px - 2 * margin_px);
  double px_per_m = room_px / unit_to_metres (units, high - low);
  return (RenderAxis){ .zero_px = margin_px - unit_to_metres (units, low) * px_per_m,
                       .px_per_m = px_per_m,
                       .width_px = width_px,
                       .unit_px = unit_px,
                       .units = units };
}

double
render_bag_row_height (const Bag *bag, size_t i)
{
  BagGap gap;
  return RENDER_BAG_BAR + (bag_gap (bag, i, &gap) && gap.kind != GAP_EVEN ? RENDER_BAG_GAP : 0);
}

/* Lines through all rows where the ruler above has its numbers. */
static void
draw_grid (cairo_t *cr, const RenderAxis *axis, double height_px, PaintInk ink)
{
  double px_per_unit = axis->px_per_m * unit_to_metres (axis->units, 1), minor;
  double major = axis_major_step (px_per_unit, axis->unit_px, &minor);
  double first = fmax (ceil (-axis->zero_px / px_per_unit / major), 0),
         last = floor ((axis->width_px - axis->zero_px) / px_per_unit / major);
  palette_use (cr, panel_colours (axis->is_dark)->hair, GRID_ALPHA, ink);
  for (double k = first; k <= last; k++)
    {
      cairo_rectangle (cr, axis->zero_px + k * major * px_per_unit, 0, axis->unit_px, height_px);
      cairo_fill (cr);
    }
}

static void
bar_path (cairo_t *cr, double x0, double x1, double middle, double bar)
{
  double r = fmin (bar, x1 - x0) / 2;
  cairo_new_sub_path (cr);
  cairo_arc (cr, x1 - r, middle - bar / 2 + r, r, -PI / 2, 0);
  cairo_arc (cr, x1 - r, middle + bar / 2 - r, r, 0, PI / 2);
  cairo_arc (cr, x0 + r, middle + bar / 2 - r, r, PI / 2, PI);
  cairo_arc (cr, x0 + r, middle - bar / 2 + r, r, PI, 3 * PI / 2);
  cairo_close_path (cr);
}

/* A stretch with a cap at each end. */
static void
draw_stretch (cairo_t *cr, double x0, double x1, double y, double cap_px)
{
  cairo_move_to (cr, x0, y);
  cairo_line_to (cr, x1, y);
  cairo_move_to (cr, x0, y - cap_px);
  cairo_line_to (cr, x0, y + cap_px);
  cairo_move_to (cr, x1, y - cap_px);
  cairo_line_to (cr, x1, y + cap_px);
  cairo_stroke (cr);
}

/* Words to the right of a stretch, to its left where the axis ends. */
static void
write_beside (cairo_t *cr, const RenderAxis *axis, const char *words, double x0, double x1, double middle)
{
  if (words == NULL)
    return;
  TextPen *pen = text_pen_new (cr);
  TextStyle style = { ROW_TEXT * axis->unit_px, TEXT_REGULAR };
  double gap = ROW_NAME_GAP * axis->unit_px, width = text_width (pen, words, style);
  double x = x1 + gap + width <= axis->width_px ? x1 + gap : fmax (0, x0 - gap - width);
  text_draw_middle (pen, words, style, x, middle, TEXT_LEFT);
  text_pen_free (pen);
}

static void
draw_club (cairo_t *cr, const RenderAxis *axis, const Club *club, const char *range, PaintInk ink)
{
  const PanelColours *colours = panel_colours (axis->is_dark);
  double unit = axis->unit_px, middle = RENDER_BAG_BAR / 2 * unit, bar = ROW_BAR * unit, low_m, high_m;
  club_two_of_three (club, &low_m, &high_m);
  double mean = axis_x (axis, club->carry_m), x0 = fmin (axis_x (axis, low_m), mean - LEAST_ROW_BAR / 2 * unit),
         x1 = fmax (axis_x (axis, high_m), mean + LEAST_ROW_BAR / 2 * unit);
  palette_use (cr, colours->bar, BAR_ALPHA, ink);
  cairo_set_line_width (cr, unit);
  if (club->carry_sd_from_level)
    {
      double dash[2] = { 3 * unit, 2 * unit };
      palette_use (cr, colours->bar, 1, ink);
      bar_path (cr, x0 + unit / 2, x1 - unit / 2, middle, bar - unit);
      cairo_set_dash (cr, dash, 2, 0);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
    }
  else
    {
      bar_path (cr, x0, x1, middle, bar);
      cairo_fill (cr);
    }
  palette_use (cr, colours->ink, 1, ink);
  cairo_set_line_width (cr, MEAN_WIDTH * unit);
  cairo_move_to (cr, mean, middle - bar / 2 - MEAN_OVERHANG * unit);
  cairo_line_to (cr, mean, middle + bar / 2 + MEAN_OVERHANG * unit);
  cairo_stroke (cr);
  if (club->errors.n_shots > 0 && isfinite (club->errors.carry_m))
    {
      double error_px = club->errors.carry_m * axis->px_per_m;
      palette_use (cr, colours->accent, 1, ink);
      cairo_set_line_width (cr, 1.5 * unit);
      draw_stretch (cr, mean - error_px, mean + error_px, middle + bar / 2 + ERROR_BELOW * unit, ERROR_CAP * unit);
    }
  palette_use (cr, colours->quiet_ink, 1, ink);
  write_beside (cr, axis, range, x0, x1, middle);
}

static void
draw_gap (cairo_t *cr, const RenderAxis *axis, const Bag *bag, size_t i, const char *words, PaintInk ink)
{
  BagGap gap;
  double unit = axis->unit_px, middle = (RENDER_BAG_BAR + RENDER_BAG_GAP / 2) * unit;
  if (!bag_gap (bag, i, &gap) || gap.kind == GAP_EVEN)
    return;
  double x1 = axis_x (axis, bag_club (bag, i)->carry_m),
         x0 = fmin (axis_x (axis, bag_club (bag, i + 1)->carry_m), x1 - LEAST_BRACKET * unit);
  palette_use (cr, PALETTE_SECOND_ACCENT, 1, ink);
  cairo_set_line_width (cr, (gap.kind == GAP_WIDE ? 2 : 1.25) * unit);
  draw_stretch (cr, x0, x1, middle, BRACKET_CAP * unit);
  palette_use (cr, panel_colours (axis->is_dark)->ink, 1, ink);
  write_beside (cr, axis, words, x0, x1, middle);
}

void
render_bag_row (cairo_t *cr, const RenderAxis *axis, const Bag *bag, size_t i, const char *range, const char *gap, PaintInk ink)
{
  if (!axis_is_usable (axis) || i >= bag_n_clubs (bag))
    return;
  double height_px = render_bag_row_height (bag, i) * axis->unit_px;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, axis->width_px, height_px);
  cairo_clip (cr);
  draw_grid (cr, axis, height_px, ink);
  draw_club (cr, axis, bag_club (bag, i), range, ink);
  draw_gap (cr, axis, bag, i, gap, ink);
  cairo_restore (cr);
}
