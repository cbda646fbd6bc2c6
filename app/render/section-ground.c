// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * section-ground - the ground along the shot as a ribbon in the washes and hatches of what lies on it, stakes and posts at its edges, and ball, aim and hole.
 */
#include "section-private.h"

/* Design units of 1/96 inch. */
#define SURFACE_WIDTH 1.3
#define STAKE_WIDTH 3.0
#define STAKE_HEIGHT 11.0
#define STAKE_OUTLINE 1.0
#define FLAG_HEIGHT 21.0
#define FLAG_LENGTH 10.0
#define AIM_RADIUS 5.5
#define AIM_HAIR 9.0
#define BALL_WIDTH 1.5
/* A hole this far off the line, about half a green's width, is shown as one that lies beside it (common practice). */
#define ON_LINE_M 15.0
/* How strong soil and a hole beside the line are. */
#define SOIL_ALPHA 0.5
#define SOIL_ALPHA_DARK 0.12
#define BESIDE_ALPHA 0.45
/* The dark style dims what is drawn in the sheet's washes, by as much as the drawing itself. */
#define DARK_DIM 0.18

/* The polygon of one stretch's ribbon; false when it is not in view. */
static bool
trace_ribbon (const SectionSheet *sheet, const SectionStretch *stretch, bool is_first, bool is_last)
{
  double from_m = is_first ? sheet->from_m : fmax (stretch->from_m, sheet->from_m);
  double to_m = is_last ? sheet->to_m : fmin (stretch->to_m, sheet->to_m);
  if (!(to_m > from_m))
    return false;
  cairo_new_path (sheet->cr);
  section_trace_ground (sheet, from_m, to_m, 0);
  /* Back along the same ground, lower. */
  cairo_path_t *top = cairo_copy_path (sheet->cr);
  for (int i = top->num_data; i > 0;)
    {
      i -= 2; /* every element of this path is a header and one point */
      cairo_line_to (sheet->cr, top->data[i + 1].point.x, top->data[i + 1].point.y + SECTION_RIBBON * sheet->unit_px);
    }
  cairo_path_destroy (top);
  cairo_close_path (sheet->cr);
  return true;
}

static void
paint_soil (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  cairo_new_path (cr);
  section_trace_ground (sheet, sheet->from_m, sheet->to_m, 0);
  cairo_line_to (cr, sheet->axis->width_px, sheet->foot_px);
  cairo_line_to (cr, 0, sheet->foot_px);
  cairo_close_path (cr);
  /* Pale as if it were seen through, but nothing behind the ground is. */
  palette_use_over (cr, appearance_of (KIND_ROUGH)->wash, sheet->axis->is_dark ? SOIL_ALPHA_DARK : SOIL_ALPHA, sheet->colours->panel,
                    sheet->scene->ink);
  cairo_fill_preserve (cr);
  /* But trouble drops on through it. */
  cairo_save (cr);
  cairo_clip (cr);
  axis_draw_columns (cr, sheet->axis, sheet->scene, 0, sheet->foot_px);
  cairo_restore (cr);
}

static void
paint_ribbons (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  const Section *section = sheet->section;
  HatchPen hatch;
  hatch_pen_init (&hatch, cr, sheet->scene->ink, sheet->unit_px, vec2 (sheet->axis->zero_px, sheet->low_px));
  for (size_t i = 0; i < section->n_stretches; i++)
    {
      const SectionStretch *stretch = &section->stretches[i];
      const Appearance *look = appearance_of (stretch->kind);
      if (!trace_ribbon (sheet, stretch, i == 0, i + 1 == section->n_stretches))
        continue;
      palette_use (cr, look->wash, 1, sheet->scene->ink);
      cairo_fill_preserve (cr);
      hatch_fill (&hatch, look->hatch, look->hatch_ink);
      if (sheet->axis->is_dark && trace_ribbon (sheet, stretch, i == 0, i + 1 == section->n_stretches))
        {
          palette_use (cr, 0x000000, DARK_DIM, sheet->scene->ink);
          cairo_fill (cr);
        }
    }
  hatch_pen_clear (&hatch);
}

static void
paint_stake (const SectionSheet *sheet, double at_m, unsigned rgb, unsigned outline)
{
  cairo_t *cr = sheet->cr;
  double x = axis_x (sheet->axis, at_m), y = section_y (sheet, section_ground (sheet->section, at_m)), unit = sheet->unit_px;
  if (!(x >= -STAKE_WIDTH * unit) || !(x <= sheet->axis->width_px + STAKE_WIDTH * unit))
    return;
  cairo_rectangle (cr, x - STAKE_WIDTH / 2 * unit, y - STAKE_HEIGHT * unit, STAKE_WIDTH * unit, (STAKE_HEIGHT + 3) * unit);
  palette_use (cr, rgb, 1, sheet->scene->ink);
  cairo_fill_preserve (cr);
  palette_use (cr, outline, 1, sheet->scene->ink);
  cairo_set_line_width (cr, STAKE_OUTLINE * unit);
  cairo_stroke (cr);
}

/* Where play crosses into a penalty area or out of bounds, and out again. */
static void
paint_stakes (const SectionSheet *sheet)
{
  const Section *section = sheet->section;
  for (size_t i = 0; i + 1 < section->n_stretches; i++)
    {
      const SectionStretch *sides[2] = { &section->stretches[i], &section->stretches[i + 1] };
      Lie lies[2] = { kind_info (sides[0]->kind)->lie, kind_info (sides[1]->kind)->lie };
      for (int k = 0; k < 2; k++)
        if (lies[k] == LIE_OUT_OF_BOUNDS && lies[1 - k] != LIE_OUT_OF_BOUNDS)
          paint_stake (sheet, sides[0]->to_m, PALETTE_WHITE, PALETTE_POST_OUTLINE);
        else if (lies[k] == LIE_PENALTY && lies[1 - k] != LIE_PENALTY && lies[1 - k] != LIE_OUT_OF_BOUNDS
                 && sides[k]->part >= 0)
          {
            const StakesAppearance *look = stakes_appearance (hole_stakes (sheet->scene->hole, (size_t)sides[k]->part));
            paint_stake (sheet, sides[0]->to_m, look->colour, look->outline);
          }
    }
}

void
section_paint_ground (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  paint_soil (sheet);
  paint_ribbons (sheet);
  cairo_new_path (cr);
  section_trace_ground (sheet, sheet->from_m, sheet->to_m, 0);
  palette_use (cr, sheet->colours->quiet_ink, 1, sheet->scene->ink);
  cairo_set_line_width (cr, SURFACE_WIDTH * sheet->unit_px);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_DEFAULT);
  cairo_stroke (cr);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
  paint_stakes (sheet);
}

/* ---- ball, aim, hole ---- */

static Vec2
on_ground (const SectionSheet *sheet, double at_m)
{
  return section_place (sheet, (SectionPoint){ at_m, section_ground (sheet->section, at_m) });
}

static void
paint_flag (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  const Section *section = sheet->section;
  if (!isfinite (section->hole_m))
    return;
  Vec2 at = on_ground (sheet, section->hole_m);
  double unit = sheet->unit_px, alpha = fabs (section->hole_left_m) <= ON_LINE_M ? 1 : BESIDE_ALPHA;
  palette_use (cr, sheet->colours->ink, alpha, sheet->scene->ink);
  cairo_set_line_width (cr, 1.4 * unit);
  cairo_move_to (cr, at.x, at.y);
  cairo_line_to (cr, at.x, at.y - FLAG_HEIGHT * unit);
  cairo_stroke (cr);
  cairo_move_to (cr, at.x, at.y - FLAG_HEIGHT * unit);
  cairo_rel_line_to (cr, FLAG_LENGTH * unit, FLAG_LENGTH * 0.35 * unit);
  cairo_rel_line_to (cr, -FLAG_LENGTH * unit, FLAG_LENGTH * 0.35 * unit);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
paint_aim (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  Vec2 at = on_ground (sheet, sheet->section->aim_m);
  double unit = sheet->unit_px;
  palette_use (cr, sheet->colours->accent, 1, sheet->scene->ink);
  cairo_set_line_width (cr, 1.8 * unit);
  cairo_new_sub_path (cr);
  cairo_arc (cr, at.x, at.y, AIM_RADIUS * unit, 0, 2 * PI);
  for (int side = -1; side <= 1; side += 2)
    {
      cairo_move_to (cr, at.x + side * AIM_RADIUS * unit / 2, at.y);
      cairo_line_to (cr, at.x + side * AIM_HAIR * unit, at.y);
      cairo_move_to (cr, at.x, at.y + side * AIM_RADIUS * unit / 2);
      cairo_line_to (cr, at.x, at.y + side * AIM_HAIR * unit);
    }
  cairo_stroke (cr);
}

void
section_paint_marks (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  Vec2 ball = on_ground (sheet, 0);
  double unit = sheet->unit_px, radius = SECTION_BALL * unit;
  paint_flag (sheet);
  paint_aim (sheet);
  cairo_new_sub_path (cr);
  cairo_arc (cr, ball.x, ball.y - radius / 2, radius, 0, 2 * PI);
  palette_use (cr, PALETTE_WHITE, 1, sheet->scene->ink);
  cairo_fill_preserve (cr);
  palette_use (cr, PALETTE_INK, 1, sheet->scene->ink);
  cairo_set_line_width (cr, BALL_WIDTH * unit);
  cairo_stroke (cr);
}
