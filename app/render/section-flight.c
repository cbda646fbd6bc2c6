// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * section-flight - the mean ball's flight and run, the tracks that nine balls in ten keep between, and at the foot how landing and rest are spread.
 */
#include "section-private.h"

/* Design units of 1/96 inch. */
#define FLIGHT_WIDTH 2.4
#define RUN_WIDTH 1.6
#define END_WIDTH 1.2
#define REST_BALL 3.0
#define PEAK 24.0
#define SPREAD_ALPHA 0.16
#define SPREAD_ALPHA_DARK 0.24
#define END_ALPHA 0.28
/* A spread is drawn as far as this many deviations, in so many pieces to each. */
#define DRAWN_SDS 3.2
#define PIECES 5
/* A spread narrower than this many pixels is a line. */
#define LEAST_SD 0.7
/* A narrow spread of resting balls stands no higher than this many times that of landing ones. */
#define MOST_TALLER 1.0

static void
use_accent (const SectionSheet *sheet, double alpha)
{
  palette_use (sheet->cr, sheet->colours->accent, alpha, sheet->scene->ink);
}

static void
trace_track (const SectionSheet *sheet, const SectionPoint *track, bool is_backward)
{
  for (int i = 0; i <= SECTION_TRACK_STEPS; i++)
    {
      Vec2 at = section_place (sheet, track[is_backward ? SECTION_TRACK_STEPS - i : i]);
      cairo_line_to (sheet->cr, at.x, at.y);
    }
}

void
section_paint_spread (const SectionSheet *sheet)
{
  cairo_new_path (sheet->cr);
  trace_track (sheet, sheet->section->nearest, false);
  trace_track (sheet, sheet->section->farthest, true);
  cairo_close_path (sheet->cr);
  cairo_set_fill_rule (sheet->cr, CAIRO_FILL_RULE_WINDING);
  use_accent (sheet, sheet->axis->is_dark ? SPREAD_ALPHA_DARK : SPREAD_ALPHA);
  cairo_fill (sheet->cr);
}

static void
paint_run (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  const Section *section = sheet->section;
  double unit = sheet->unit_px, dash[2] = { 2 * unit, 3 * unit }, lift = 2 * unit, radius = REST_BALL * unit;
  double from_m = fmin (section->landing.mean_m, section->rest.mean_m),
         to_m = fmax (section->landing.mean_m, section->rest.mean_m);
  cairo_new_path (cr);
  if ((to_m - from_m) * sheet->axis->px_per_m > radius)
    {
      section_trace_ground (sheet, from_m, to_m, lift);
      use_accent (sheet, 1);
      cairo_set_dash (cr, dash, 2, 0);
      cairo_set_line_width (cr, RUN_WIDTH * unit);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
    }
  Vec2 rest = section_place (sheet, (SectionPoint){ section->rest.mean_m, section_ground (section, section->rest.mean_m) });
  cairo_new_sub_path (cr);
  cairo_arc (cr, rest.x, rest.y - radius, radius, 0, 2 * PI);
  palette_use (cr, PALETTE_WHITE, 1, sheet->scene->ink);
  cairo_fill_preserve (cr);
  use_accent (sheet, 1);
  cairo_set_line_width (cr, END_WIDTH * unit);
  cairo_stroke (cr);
}

void
section_paint_flight (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  cairo_new_path (cr);
  trace_track (sheet, sheet->section->track, false);
  use_accent (sheet, 1);
  cairo_set_line_width (cr, FLIGHT_WIDTH * sheet->unit_px);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_BEVEL);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_DEFAULT);
  cairo_stroke (cr);
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
  paint_run (sheet);
}

/* ---- how the ends are spread ---- */

/* The bell over its mean, `peak_px` high, open at the bottom. */
static void
trace_bell (const SectionSheet *sheet, SectionSpread spread, double peak_px)
{
  double base = sheet->height_px;
  cairo_new_path (sheet->cr);
  if (spread.sd_m * sheet->axis->px_per_m < LEAST_SD * sheet->unit_px)
    {
      cairo_move_to (sheet->cr, axis_x (sheet->axis, spread.mean_m), base);
      cairo_line_to (sheet->cr, axis_x (sheet->axis, spread.mean_m), base - peak_px);
      return;
    }
  int n = (int)(2 * DRAWN_SDS * PIECES);
  for (int i = 0; i <= n; i++)
    {
      double z = DRAWN_SDS * (2.0 * i / n - 1);
      cairo_line_to (sheet->cr, axis_x (sheet->axis, spread.mean_m + z * spread.sd_m), base - peak_px * exp (-z * z / 2));
    }
}

void
section_paint_ends (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  const Section *section = sheet->section;
  double unit = sheet->unit_px, dash[2] = { 4 * unit, 3 * unit };
  /* Equal areas, as chances are, but that a narrow spread is cut to fit. */
  double taller = section->rest.sd_m > 0 ? section->landing.sd_m / section->rest.sd_m : INFINITY;
  double rest_px = PEAK * unit * fmin (taller, MOST_TALLER);
  cairo_set_line_width (cr, END_WIDTH * unit);
  trace_bell (sheet, section->landing, PEAK * unit);
  use_accent (sheet, END_ALPHA);
  cairo_fill_preserve (cr);
  use_accent (sheet, 1);
  cairo_stroke (cr);
  trace_bell (sheet, section->rest, rest_px);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}
