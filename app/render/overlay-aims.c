// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-aims - what each aim of the club in hand costs more than its best one: stepped bands of the second accent, dear ones dark, each with its number.
 */
#include "overlay-private.h"

#include <math.h>

/* Where the next band begins, strokes over the best aim (common practice: what a golfer would call nothing, little, some, much). */
static const double steps[] = { 0.05, 0.1, 0.2, 0.4, 0.8 };
#define N_STEPS G_N_ELEMENTS (steps)
/* The second accent by lightness alone, best first: apart in grey as well, and to eyes that see no red or green. */
static const unsigned band_colours[N_STEPS + 1] = { 0xfbeedd, 0xf3d2aa, 0xe2a76c, 0xc46a1b, 0x8f470e, 0x572806 };
#define BAND_TINT 0.62
/* Columns of the picture for each step of the map's directions. */
#define COLUMNS_A_STEP 10
/* Design units of 1/96 inch. */
#define FAN_LINE 1.0
#define BEST_RING 6.0
#define BEST_LINE 2.0
#define BEST_CASING 2.0
#define BEST_GAP 6.0
/* A band whose widest place is narrower than this along the fan gets no number. */
#define LEAST_LABELLED_M 3.0

/* The widest stretch of a band along one direction: where its number stands. */
typedef struct
{
  double length_m;
  Vec2 middle;
} Widest;

typedef struct
{
  const OverlaySheet *sheet;
  const AimMap *map;
  Affine to_drawing;
  bool is_inked; /* else the bands are measured only */
  Widest widest[N_STEPS + 1];
} Fan;

static size_t
band_of (double over)
{
  size_t band = 0;
  while (band < N_STEPS && over >= steps[band])
    band++;
  return band;
}

static Vec2
fan_place (const Fan *fan, double direction_rad, double swing)
{
  double distance_m = swing * fan->map->carry_m;
  return vec2_add (fan->map->ball, vec2 (distance_m * cos (direction_rad), distance_m * sin (direction_rad)));
}

static void
fan_point (const Fan *fan, double direction_rad, double swing, bool is_first)
{
  Vec2 at = affine_apply (fan->to_drawing, fan_place (fan, direction_rad, swing));
  if (is_first)
    cairo_move_to (fan->sheet->cr, at.x, at.y);
  else
    cairo_line_to (fan->sheet->cr, at.x, at.y);
}

/* Strokes over the best at a row of the map, between two of its directions. */
static double
over_best (const AimMap *map, size_t row, double turn)
{
  size_t i = MIN ((size_t)turn, map->n_turns - 2);
  const double *strokes = map->strokes + row * map->n_turns + i;
  double share = turn - (double)i;
  return (1 - share) * strokes[0] + share * strokes[1] - map->best.strokes;
}

/* One piece of a column from swing `a` to `b`. */
static void
add_piece (Fan *fan, double turn, double half, double a, double b, size_t band)
{
  const AimMap *map = fan->map;
  double left = map->first_rad + (turn + half) * map->turn_step_rad,
         right = map->first_rad + (turn - half) * map->turn_step_rad;
  if (fan->is_inked)
    {
      fan_point (fan, right, a, true);
      fan_point (fan, right, b, false);
      fan_point (fan, left, b, false);
      fan_point (fan, left, a, false);
      cairo_close_path (fan->sheet->cr);
    }
  double length_m = (b - a) * map->carry_m;
  if (length_m > fan->widest[band].length_m)
    fan->widest[band] = (Widest){ length_m, fan_place (fan, 0.5 * (left + right), 0.5 * (a + b)) };
}

/* The stretches of a column that lie in a band: between two rows the strokes go straight. */
static void
add_column (Fan *fan, double turn, double half, size_t band)
{
  const AimMap *map = fan->map;
  double low = band > 0 ? steps[band - 1] : -INFINITY, high = band < N_STEPS ? steps[band] : INFINITY;
  double from = NAN, to = NAN, a, b = over_best (map, 0, turn);
  for (size_t row = 0; row + 1 < map->n_swings; row++)
    {
      a = b;
      b = over_best (map, row + 1, turn);
      if ((a < low && b < low) || (a > high && b > high)) // as most are, for each band
        continue;
      double t0 = 0, t1 = 1;
      if (a != b)
        {
          double x = (low - a) / (b - a), y = (high - a) / (b - a);
          t0 = fmax (0, fmin (x, y));
          t1 = fmin (1, fmax (x, y));
        }
      else if (band_of (a) != band)
        t1 = -1;
      double swing = map->first_swing + (double)row * map->swing_step;
      if (t1 > t0 && t0 == 0 && !isnan (to) && to >= swing - 1e-9)
        to = swing + t1 * map->swing_step;
      else if (t1 > t0)
        {
          if (!isnan (from))
            add_piece (fan, turn, half, from, to, band);
          from = swing + t0 * map->swing_step;
          to = swing + t1 * map->swing_step;
        }
    }
  if (!isnan (from))
    add_piece (fan, turn, half, from, to, band);
}

static void
add_band (Fan *fan, size_t band)
{
  size_t n_columns = COLUMNS_A_STEP * (fan->map->n_turns - 1);
  double half = 0.5 / COLUMNS_A_STEP;
  for (size_t column = 0; column < n_columns; column++)
    add_column (fan, ((double)column + 0.5) / COLUMNS_A_STEP, half, band);
}

static void
ink_band (Fan *fan, OverlaySheet *sheet, size_t band)
{
  cairo_new_path (sheet->cr);
  add_band (fan, band);
  if (!cairo_has_current_point (sheet->cr))
    return;
  sheet_will_ink (sheet, 0);
  palette_use (sheet->cr, band_colours[band], BAND_TINT, sheet->ink);
  cairo_fill (sheet->cr);
}

static void
ink_edge (const Fan *fan, OverlaySheet *sheet)
{
  const AimMap *map = fan->map;
  cairo_new_path (sheet->cr);
  for (size_t t = 0; t < map->n_turns; t++)
    fan_point (fan, map->first_rad + (double)t * map->turn_step_rad, map->first_swing, t == 0);
  for (size_t t = map->n_turns; t-- > 0;)
    fan_point (fan, map->first_rad + (double)t * map->turn_step_rad, 1, false);
  cairo_close_path (sheet->cr);
  sheet_stroke_cased (sheet, PALETTE_SECOND_ACCENT, FAN_LINE, 0);
}

static void
mark_best (const Fan *fan, OverlaySheet *sheet)
{
  const AimMap *map = fan->map;
  double unit = sheet->unit_px;
  Vec2 at = affine_apply (fan->to_drawing, map->best.aim);
  cairo_new_path (sheet->cr);
  cairo_arc (sheet->cr, at.x, at.y, BEST_RING * unit, 0, 2 * PI);
  /* Ink on paper: on the middle bands the accent itself would be lost in grey and to eyes that see no red or green. */
  sheet_stroke_cased (sheet, PALETTE_INK, BEST_LINE, BEST_CASING);
  sheet_avoid (sheet, at, BEST_RING * unit);
  char text[UNITS_TEXT_SIZE];
  units_print_decimals (map->best.strokes, 2, text, sizeof text);
  Vec2 right = sheet_right (sheet);
  sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, text, at, vec2_scale (right, -1), (BEST_RING + BEST_GAP) * unit, true);
}

static void
number_bands (Fan *fan, OverlaySheet *sheet)
{
  for (size_t band = 1; band <= N_STEPS; band++)
    {
      add_band (fan, band);
      if (fan->widest[band].length_m < LEAST_LABELLED_M)
        continue;
      char number[UNITS_TEXT_SIZE], text[UNITS_TEXT_SIZE + 4];
      units_print_decimals (steps[band - 1], band == 1 ? 2 : 1, number, sizeof number);
      g_snprintf (text, sizeof text, "+%s", number);
      sheet_label (sheet, RANK_MARK, PLATE_NONE, text, affine_apply (fan->to_drawing, fan->widest[band].middle), vec2 (0, 0), 0,
                   false);
    }
}

static bool
fan_init (Fan *fan, const OverlaySheet *sheet)
{
  const AimMap *map = sheet->scene->aims;
  if (map == NULL || map->n_turns < 2 || map->n_swings < 2)
    return false;
  *fan = (Fan){ .sheet = sheet, .map = map, .to_drawing = view_to_drawing (sheet->view) };
  return true;
}

void
overlay_aims_still (OverlaySheet *sheet)
{
  Fan fan;
  if (!fan_init (&fan, sheet))
    return;
  fan.is_inked = true;
  cairo_antialias_t antialias = cairo_get_antialias (sheet->cr);
  cairo_set_antialias (sheet->cr, CAIRO_ANTIALIAS_NONE); /* no seams between pieces */
  for (size_t band = 0; band <= N_STEPS; band++)
    ink_band (&fan, sheet, band);
  cairo_set_antialias (sheet->cr, antialias);
  ink_edge (&fan, sheet);
}

void
overlay_aims (OverlaySheet *sheet)
{
  Fan fan;
  if (!fan_init (&fan, sheet))
    return;
  mark_best (&fan, sheet);
  number_bands (&fan, sheet);
}
