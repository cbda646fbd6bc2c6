// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-marks - distance marks along the shot line: a tick every 25, a number every 50, in the golfer's unit.
 */
#include "overlay-private.h"

#define MINOR_STEP 25
#define MAJOR_EVERY 2
/* Ticks closer than this, design units, are left out, and then the numbers too. */
#define LEAST_STEP 9.0
#define MINOR_HALF 3.5
#define MAJOR_HALF 6.0
#define NUMBER_GAP 9.0
/* The marks run on past the ball's landing for this many standard deviations. */
#define BEYOND_SDS 3.0

/* Where the marks end: beyond the landing, the aim and the trouble that a long one reaches; a whole number of major steps. */
static double
last_mark_m (const OverlaySheet *sheet, double major_m)
{
  const ShotResult *shot = sheet->shot;
  const CarryTable *carries = sheet->scene->carries;
  double last = fmax (shot->carry_m, shot->aim_m) + BEYOND_SDS * shot->pattern.long_sd_m;

  for (size_t i = 0; carries && i < carries->n_rows; i++)
    {
      const CarryRow *row = &carries->rows[i];
      bool is_trouble = kind_info (hole_part (sheet->scene->hole, row->part)->kind)->is_trouble;
      if (is_trouble && row->side == SIDE_ON && row->reach_m < last && row->carry_m < last + major_m)
        last = fmax (last, row->carry_m);
    }
  return ceil (last / major_m) * major_m;
}

void
overlay_marks (OverlaySheet *sheet)
{
  double step_m = unit_to_metres (sheet->view->units, MINOR_STEP), unit = sheet->unit_px;
  double from_m = 0, to_m = last_mark_m (sheet, step_m * MAJOR_EVERY);
  Vec2 right = sheet_right (sheet);
  char number[32];

  if (!isfinite (to_m) || step_m * sheet->view->px_per_m < LEAST_STEP * unit || !sheet_visible_stretch (sheet, &from_m, &to_m))
    return;
  int first = (int)fmax (ceil (from_m / step_m - 1e-9), 1), last = (int)floor (to_m / step_m + 1e-9);
  for (int i = first; i <= last; i++)
    {
      Vec2 at = sheet_on_line (sheet, i * step_m);
      bool is_major = i % MAJOR_EVERY == 0;
      Vec2 half = vec2_scale (right, (is_major ? MAJOR_HALF : MINOR_HALF) * unit);
      cairo_move_to (sheet->cr, at.x - half.x, at.y - half.y);
      cairo_line_to (sheet->cr, at.x + half.x, at.y + half.y);
      if (!is_major)
        continue;
      sheet_label_of (sheet, (size_t)i);
      sheet_label (sheet, RANK_MARK, PLATE_NONE, units_print_whole (i * step_m, sheet->view->units, number, sizeof number), at,
                   vec2_scale (right, -1), NUMBER_GAP * unit, false);
    }
  sheet_stroke_cased (sheet, PALETTE_INK, 1.1, 0.8);
}
