// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * axis - the ruler under the drawing: distance from the ball, pixel for pixel below the shot, with the trouble dropping through it.
 */
#include "axis-private.h"

/* Design units of 1/96 inch. */
#define RULER_TEXT 11.0
#define MAJOR_TICK 9.0
#define MINOR_TICK 4.5
#define LEAST_MAJOR_STEP 44.0
#define LEAST_MINOR_STEP 7.0
#define CARRY_PAD 6.0
#define CARRY_CORNER 4.0
/* Tint of a column: low enough that names stand 4.5:1 on water in a penalty area, where two lie on each other. */
#define COLUMN_ALPHA 0.23
#define COLUMN_ALPHA_DARK 0.22

static const PanelColours light_colours = { 0xece8de, 0xfaf7f0, 0x22303c, 0x3c4a56, 0x22303c, 0x6b7a86, 0x8a2f6b, 0xffffff };
static const PanelColours dark_colours = { 0x2b3238, 0x22282d, 0xe9ecee, 0xb4bec6, 0xe9ecee, 0x93a1ac, 0xe08cc4, 0x22282d };

const PanelColours *
panel_colours (bool is_dark)
{
  return is_dark ? &dark_colours : &light_colours;
}

RenderAxis
axis_of_view (const RenderView *view, Vec2 ball)
{
  return (RenderAxis){ .zero_px = view_point (view, ball).x,
                       .px_per_m = view->px_per_m,
                       .width_px = view->width_px,
                       .unit_px = view->unit_px,
                       .units = view->units };
}

double
axis_x (const RenderAxis *axis, double distance_m)
{
  return axis->zero_px + distance_m * axis->px_per_m;
}

const ShotResult *
axis_shot (const PlanScene *scene)
{
  return scene && scene->shots && scene->current < scene->n_shots ? &scene->shots[scene->current] : NULL;
}

void
axis_draw_columns (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, double y0_px, double y1_px)
{
  const CarryTable *table = scene ? scene->carries : NULL;
  for (size_t i = 0; table && i < table->n_rows; i++)
    {
      const CarryRow *row = &table->rows[i];
      Kind kind = hole_part (scene->hole, row->part)->kind;
      double x0 = fmax (axis_x (axis, row->reach_m), 0), x1 = fmin (axis_x (axis, row->carry_m), axis->width_px);
      if (row->side != SIDE_ON || !kind_info (kind)->is_trouble || !(x1 > x0))
        continue;
      cairo_rectangle (cr, x0, y0_px, x1 - x0, y1_px - y0_px);
      palette_use (cr, appearance_of (kind)->hatch_ink, axis->is_dark ? COLUMN_ALPHA_DARK : COLUMN_ALPHA, scene->ink);
      cairo_fill (cr);
    }
}

void
axis_draw_carry (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, double y0_px, double y1_px)
{
  const ShotResult *shot = axis_shot (scene);
  double dash[2] = { 3 * axis->unit_px, 3 * axis->unit_px };
  if (!shot)
    return;
  double x = axis_x (axis, shot->carry_m);
  if (!(x >= 0) || !(x <= axis->width_px))
    return;
  cairo_set_dash (cr, dash, 2, 0);
  cairo_set_line_width (cr, axis->unit_px);
  palette_use (cr, panel_colours (axis->is_dark)->accent, 1, scene->ink);
  cairo_move_to (cr, x, y0_px);
  cairo_line_to (cr, x, y1_px);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

bool
axis_is_usable (const RenderAxis *axis)
{
  return axis->px_per_m > 0 && isfinite (axis->px_per_m) && isfinite (axis->zero_px) && axis->unit_px > 0;
}

double
axis_major_step (double px_per_unit, double unit_px, double *minor)
{
  static const double leads[] = { 1, 2, 5 };
  for (double power = 1;; power *= 10)
    for (int i = 0; i < 3; i++)
      {
        double step = leads[i] * power;
        if (step * px_per_unit < LEAST_MAJOR_STEP * unit_px)
          continue;
        double fine = leads[i] == 2 ? step / 4 : step / 5;
        *minor = fine * px_per_unit >= LEAST_MINOR_STEP * unit_px ? fine : step;
        return step;
      }
}

/* Draws the number of the carry on a plate; returns the stretch that other numbers keep clear of. */
static Interval
draw_carry_number (cairo_t *cr, TextPen *pen, const RenderAxis *axis, const PlanScene *scene, double middle_px)
{
  const ShotResult *shot = axis_shot (scene);
  const PanelColours *colours = panel_colours (axis->is_dark);
  double unit = axis->unit_px;
  TextStyle style = { RULER_TEXT * unit, TEXT_BOLD };
  char number[32];

  if (!shot || !(axis_x (axis, shot->carry_m) >= 0) || !(axis_x (axis, shot->carry_m) <= axis->width_px))
    return (Interval){ INFINITY, -INFINITY };
  units_print_whole (shot->carry_m, axis->units, number, sizeof number);
  double width = text_width (pen, number, style) + 2 * CARRY_PAD * unit, height = RULER_TEXT * 1.45 * unit;
  double x0 = axis_x (axis, shot->carry_m) - width / 2, y0 = middle_px - height / 2, r = CARRY_CORNER * unit;
  cairo_new_sub_path (cr);
  cairo_arc (cr, x0 + width - r, y0 + r, r, -PI / 2, 0);
  cairo_arc (cr, x0 + width - r, y0 + height - r, r, 0, PI / 2);
  cairo_arc (cr, x0 + r, y0 + height - r, r, PI / 2, PI);
  cairo_arc (cr, x0 + r, y0 + r, r, PI, 3 * PI / 2);
  cairo_close_path (cr);
  palette_use (cr, colours->accent, 1, scene->ink);
  cairo_fill (cr);
  palette_use (cr, colours->on_accent, 1, scene->ink);
  text_draw_middle (pen, number, style, x0 + width / 2, middle_px, TEXT_CENTRE);
  return (Interval){ x0 - CARRY_PAD / 2 * unit, x0 + width + CARRY_PAD / 2 * unit };
}

static void
draw_scale (cairo_t *cr, TextPen *pen, const RenderAxis *axis, Interval taken, double middle_px, PaintInk ink)
{
  double px_per_unit = axis->px_per_m * unit_to_metres (axis->units, 1), unit = axis->unit_px, minor;
  double major = axis_major_step (px_per_unit, unit, &minor);
  double first = fmax (ceil (-axis->zero_px / px_per_unit / minor), 0),
         last = floor ((axis->width_px - axis->zero_px) / px_per_unit / minor);
  const PanelColours *colours = panel_colours (axis->is_dark);
  TextStyle style = { RULER_TEXT * unit, TEXT_REGULAR };
  char number[32];

  for (double k = first; k <= last; k++)
    {
      double value = k * minor, x = axis->zero_px + value * px_per_unit;
      bool is_major = fabs (remainder (value, major)) < minor / 2;
      palette_use (cr, colours->ink, 0.6, ink);
      cairo_set_line_width (cr, unit);
      cairo_move_to (cr, x, 0);
      cairo_line_to (cr, x, (is_major ? MAJOR_TICK : MINOR_TICK) * unit);
      cairo_stroke (cr);
      if (!is_major)
        continue;
      units_print_decimals (value, 3, number, sizeof number);
      double half = text_width (pen, number, style) / 2;
      if ((x + half > taken.enter_m && x - half < taken.leave_m) || x + half > axis->width_px)
        continue;
      palette_use (cr, colours->ink, 1, ink);
      text_draw_middle (pen, number, style, x, middle_px, TEXT_CENTRE);
    }
}

void
render_ruler (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, double height_px)
{
  const PanelColours *colours = panel_colours (axis->is_dark);
  PaintInk ink = scene ? scene->ink : PAINT_COLOUR;
  double unit = axis->unit_px, middle = (MAJOR_TICK * unit + height_px) / 2;

  if (!(axis->px_per_m > 0) || !isfinite (axis->px_per_m) || !isfinite (axis->zero_px) || !(height_px > 0))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, axis->width_px, height_px);
  cairo_clip (cr);
  palette_use (cr, colours->band, 1, ink);
  cairo_paint (cr);
  axis_draw_columns (cr, axis, scene, 0, height_px);
  palette_use (cr, colours->hair, 0.25, ink);
  cairo_rectangle (cr, 0, 0, axis->width_px, unit);
  cairo_rectangle (cr, 0, height_px - unit, axis->width_px, unit);
  cairo_fill (cr);

  TextPen *pen = text_pen_new_keeping (cr, scene ? scene->words : NULL);
  axis_draw_carry (cr, axis, scene, 0, height_px);
  Interval taken = draw_carry_number (cr, pen, axis, scene, middle);
  draw_scale (cr, pen, axis, taken, middle, ink);
  text_pen_free (pen);
  cairo_restore (cr);
}
