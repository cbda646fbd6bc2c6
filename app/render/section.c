// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * section - the shot from its side: chooses how high heights are drawn, and has the layers painted over each other.
 */
#include "section-private.h"

/* Design units of 1/96 inch: room for words above the highest thing, and for the spreads below the ground. */
#define TOP_ROOM 22.0
#define FOOT_ROOM 28.0
/* Heights are never drawn for less room than this. */
#define LEAST_SKY 12.0
/* Heights below this span are drawn as if they had it: the flight of a chip is not blown up to a drive's. */
#define LEAST_SPAN_M 4.0

/* Round factors, so that a golfer can think back; no hill is drawn steeper than by the last. */
static const double factors[] = { 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.75, 1, 1.5, 2, 3, 4, 5 };

double
section_y (const SectionSheet *sheet, double height_m)
{
  return sheet->low_px - (height_m - sheet->low_m) * sheet->factor * sheet->axis->px_per_m;
}

Vec2
section_place (const SectionSheet *sheet, SectionPoint point)
{
  return vec2 (axis_x (sheet->axis, point.at_m), section_y (sheet, point.height_m));
}

void
section_trace_ground (const SectionSheet *sheet, double from_m, double to_m, double lift_px)
{
  const Section *section = sheet->section;
  cairo_line_to (sheet->cr, axis_x (sheet->axis, from_m), section_y (sheet, section_ground (section, from_m)) - lift_px);
  for (size_t i = 0; i < section->n_ground; i++)
    {
      SectionPoint point = section->ground[i];
      if (point.at_m > from_m && point.at_m < to_m)
        cairo_line_to (sheet->cr, axis_x (sheet->axis, point.at_m), section_y (sheet, point.height_m) - lift_px);
    }
  cairo_line_to (sheet->cr, axis_x (sheet->axis, to_m), section_y (sheet, section_ground (section, to_m)) - lift_px);
}

/* ---- how high heights are drawn ---- */

typedef struct
{
  double low_m, high_m;
} Heights;

static void
add_track (Heights *heights, const SectionPoint *track, double from_m, double to_m)
{
  for (int i = 0; i < SECTION_TRACK_STEPS; i++)
    if (track[i + 1].at_m > from_m && track[i].at_m < to_m)
      heights->high_m = fmax (heights->high_m, fmax (track[i].height_m, track[i + 1].height_m));
}

/* Of all that is in view; `low_m` of the ground alone. */
static Heights
heights_in_view (const Section *section, double from_m, double to_m)
{
  double ends_m[2] = { section_ground (section, from_m), section_ground (section, to_m) };
  Heights heights = { fmin (ends_m[0], ends_m[1]), fmax (ends_m[0], ends_m[1]) };
  for (size_t i = 0; i < section->n_ground; i++)
    if (section->ground[i].at_m > from_m && section->ground[i].at_m < to_m)
      {
        heights.low_m = fmin (heights.low_m, section->ground[i].height_m);
        heights.high_m = fmax (heights.high_m, section->ground[i].height_m);
      }
  add_track (&heights, section->track, from_m, to_m);
  add_track (&heights, section->nearest, from_m, to_m);
  add_track (&heights, section->farthest, from_m, to_m);
  for (size_t i = 0; i < section->n_trees; i++)
    if (section->trees[i].far_m > from_m && section->trees[i].near_m < to_m)
      {
        heights.low_m = fmin (heights.low_m, section->trees[i].base_m);
        heights.high_m = fmax (heights.high_m, section->trees[i].top_m);
      }
  heights.high_m = fmax (heights.high_m, heights.low_m + LEAST_SPAN_M);
  return heights;
}

static bool
is_drawable (const RenderAxis *axis, const Section *section, double height_px)
{
  return section && section->n_ground > 1 && axis->px_per_m > 0 && isfinite (axis->px_per_m) && isfinite (axis->zero_px)
         && axis->width_px > 0 && axis->unit_px > 0 && height_px > 0;
}

/* Fills in what of the sheet says where things stand. */
static void
lay_out (SectionSheet *sheet)
{
  const RenderAxis *axis = sheet->axis;
  double unit = axis->unit_px;
  sheet->unit_px = unit;
  sheet->from_m = -axis->zero_px / axis->px_per_m;
  sheet->to_m = (axis->width_px - axis->zero_px) / axis->px_per_m;
  Heights heights = heights_in_view (sheet->section, sheet->from_m, sheet->to_m);
  sheet->low_m = heights.low_m;
  sheet->foot_px = sheet->height_px - FOOT_ROOM * unit;
  sheet->low_px = sheet->foot_px - (SECTION_RIBBON + 2) * unit;
  double sky_px = fmax (LEAST_SKY * unit, sheet->low_px - TOP_ROOM * unit);
  double most = sky_px / ((heights.high_m - heights.low_m) * axis->px_per_m);
  sheet->factor = most; /* zoomed in further than any factor allows */
  for (size_t i = 0; i < G_N_ELEMENTS (factors); i++)
    if (factors[i] <= most)
      sheet->factor = factors[i];
}

double
render_section_factor (const RenderAxis *axis, const Section *section, double height_px)
{
  if (!is_drawable (axis, section, height_px))
    return 0;
  SectionSheet sheet = { .axis = axis, .section = section, .height_px = height_px };
  lay_out (&sheet);
  return sheet.factor;
}

void
render_section (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, const Section *section, double height_px)
{
  const ShotResult *shot = axis_shot (scene);
  if (!shot || !is_drawable (axis, section, height_px))
    return;
  SectionSheet sheet = { .cr = cr,
                         .axis = axis,
                         .scene = scene,
                         .shot = shot,
                         .section = section,
                         .colours = panel_colours (axis->is_dark),
                         .height_px = height_px };
  lay_out (&sheet);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, axis->width_px, height_px);
  cairo_clip (cr);
  palette_use (cr, sheet.colours->panel, 1, scene->ink);
  cairo_paint (cr);
  /* In half the time, and not told from the finest but where lines are nearly level, as the ground and the flight. */
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
  sheet.text = text_pen_new_keeping (cr, scene->words);
  axis_draw_columns (cr, axis, scene, 0, height_px);
  section_paint_heights (&sheet);
  section_paint_trees (&sheet);
  section_paint_spread (&sheet);
  section_paint_ground (&sheet);
  section_paint_ends (&sheet);
  axis_draw_carry (cr, axis, scene, 0, height_px);
  section_paint_flight (&sheet);
  section_paint_marks (&sheet);
  section_paint_words (&sheet);
  text_pen_free (sheet.text);
  cairo_restore (cr);
}
