// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-aims - what each aim of the club in hand costs more than its best one: stepped bands of the second accent, dear ones dark, each with its number, and a light line between any two: what shows through them has
 * dark edges only.
 */
#include "overlay-private.h"

#include <math.h>

/* Where the next band begins, strokes over the best aim (common practice: what a golfer would call nothing, little, some, much). */
static const double steps[] = { 0.05, 0.1, 0.2, 0.4, 0.8 };
#define N_STEPS G_N_ELEMENTS (steps)
/* The second accent by lightness alone, best first: apart in grey as well, and to eyes that see no red or green. */
static const unsigned band_colours[N_STEPS + 1] = { 0xfbeedd, 0xf3d2aa, 0xe2a76c, 0xc46a1b, 0x8f470e, 0x572806 };
#define BAND_TINT 0.62
#define BAND_LINE_TINT 0.9
/* Columns of the picture for each step of the map's directions. */
#define COLUMNS_A_STEP 10
/* Lines between bands go straight over so many parts of such a step. */
#define PARTS_A_STEP 2
#define COLUMNS_A_PART (COLUMNS_A_STEP / PARTS_A_STEP)
/* Design units of 1/96 inch. */
#define BAND_LINE 1.25
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

/* The least and the most that a column costs. */
typedef struct
{
  double low, high;
} Range;

typedef struct
{
  const OverlaySheet *sheet;
  const AimMap *map;
  Affine to_drawing;
  bool is_inked; /* else the bands are measured only */
  size_t n_columns;
  Vec2 ball_px, *ways_px; /* of a full swing along each edge of a column: one more */
  double *over;           /* strokes over the best of each column at every row of the map */
  Range *ranges;          /* of each column */
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

static double
band_low (size_t band)
{
  return band > 0 ? steps[band - 1] : -INFINITY;
}

static double
band_high (size_t band)
{
  return band < N_STEPS ? steps[band] : INFINITY;
}

/* The middle of a column in steps of the map's directions. */
static double
column_turn (size_t column)
{
  return ((double)column + 0.5) / COLUMNS_A_STEP;
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

static void
way_point (const Fan *fan, Vec2 way_px, double swing, bool is_first)
{
  Vec2 at = vec2_add (fan->ball_px, vec2_scale (way_px, swing));
  if (is_first)
    cairo_move_to (fan->sheet->cr, at.x, at.y);
  else
    cairo_line_to (fan->sheet->cr, at.x, at.y);
}

/* One piece of a column from swing `a` to `b`. */
static void
add_piece (Fan *fan, size_t column, double a, double b, size_t band)
{
  const AimMap *map = fan->map;
  if (fan->is_inked)
    {
      const Vec2 *ways = fan->ways_px + column;
      way_point (fan, ways[0], a, true);
      way_point (fan, ways[0], b, false);
      way_point (fan, ways[1], b, false);
      way_point (fan, ways[1], a, false);
      cairo_close_path (fan->sheet->cr);
    }
  double length_m = (b - a) * map->carry_m;
  if (length_m > fan->widest[band].length_m)
    fan->widest[band]
        = (Widest){ length_m, fan_place (fan, map->first_rad + column_turn (column) * map->turn_step_rad, 0.5 * (a + b)) };
}

/* The stretches of a column that lie in a band: between two rows the strokes go straight. */
static void
add_column (Fan *fan, size_t column, size_t band)
{
  const AimMap *map = fan->map;
  const double *over = fan->over + column * map->n_swings;
  double low = band_low (band), high = band_high (band);
  double from = NAN, to = NAN;
  for (size_t row = 0; row + 1 < map->n_swings; row++)
    {
      double a = over[row], b = over[row + 1];
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
            add_piece (fan, column, from, to, band);
          from = swing + t0 * map->swing_step;
          to = swing + t1 * map->swing_step;
        }
    }
  if (!isnan (from))
    add_piece (fan, column, from, to, band);
}

static void
add_band (Fan *fan, size_t band)
{
  double low = band_low (band), high = band_high (band);
  for (size_t column = 0; column < fan->n_columns; column++)
    if (fan->ranges[column].high >= low && fan->ranges[column].low <= high)
      add_column (fan, column, band);
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

/* ---- the lines between bands ---- */

/* A piece of the map between two of its rows, and the strokes over the best at its corners: two of the nearer row, two of the farther. */
typedef struct
{
  const Vec2 *ways; /* along the first of its columns' edges */
  double swing;
  double over[4];
} Piece;

/* Where a line of this cost leaves the piece by its side 0 to 3: near, towards the next direction, far, towards the one before. */
static void
line_point (const Fan *fan, const Piece *piece, int side, double cost, bool is_first)
{
  static const int ends[4][2] = { { 0, 1 }, { 1, 3 }, { 2, 3 }, { 0, 2 } };
  const AimMap *map = fan->map;
  double from = piece->over[ends[side][0]], to = piece->over[ends[side][1]], share = (cost - from) / (to - from);
  double turn = side % 2 == 0 ? share : side == 1, swing = side % 2 == 1 ? share : side == 2;
  way_point (fan, vec2_lerp (piece->ways[0], piece->ways[COLUMNS_A_PART], turn), piece->swing + swing * map->swing_step,
             is_first);
}

/* A line between what costs less and what costs as much or more (marching squares; Lorensen and Cline 1987 in the plane). */
static void
add_line (const Fan *fan, const Piece *piece, double cost)
{
  const double *over = piece->over;
  const bool is_dear[4] = { over[0] >= cost, over[1] >= cost, over[2] >= cost, over[3] >= cost };
  const bool is_cut[4]
      = { is_dear[0] != is_dear[1], is_dear[1] != is_dear[3], is_dear[2] != is_dear[3], is_dear[0] != is_dear[2] };
  int n_cut = is_cut[0] + is_cut[1] + is_cut[2] + is_cut[3], n = 0;
  /* Two lines: the one or the other two corners lie alone, as the middle has it. */
  int first = n_cut == 4 && (over[0] + over[1] + over[2] + over[3] >= 4 * cost) != is_dear[0] ? 3 : 0;
  for (int k = 0; k < 4 && n_cut > 0; k++)
    if (is_cut[(first + k) % 4])
      line_point (fan, piece, (first + k) % 4, cost, n++ % 2 == 0);
}

static void
add_row_lines (const Fan *fan, size_t row)
{
  const AimMap *map = fan->map;
  Piece piece = { .ways = fan->ways_px, .swing = map->first_swing + (double)row * map->swing_step };
  piece.over[1] = over_best (map, row, 0);
  piece.over[3] = over_best (map, row + 1, 0);
  for (size_t i = 1; i <= PARTS_A_STEP * (map->n_turns - 1); i++)
    {
      piece.over[0] = piece.over[1];
      piece.over[2] = piece.over[3];
      piece.over[1] = over_best (map, row, (double)i / PARTS_A_STEP);
      piece.over[3] = over_best (map, row + 1, (double)i / PARTS_A_STEP);
      double low = fmin (fmin (piece.over[0], piece.over[1]), fmin (piece.over[2], piece.over[3]));
      double high = fmax (fmax (piece.over[0], piece.over[1]), fmax (piece.over[2], piece.over[3]));
      for (size_t k = 0; k < N_STEPS; k++)
        if (low < steps[k] && high >= steps[k])
          add_line (fan, &piece, steps[k]);
      piece.ways += COLUMNS_A_PART;
    }
}

static void
ink_lines (const Fan *fan, OverlaySheet *sheet)
{
  cairo_new_path (sheet->cr);
  for (size_t row = 0; row + 1 < fan->map->n_swings; row++)
    add_row_lines (fan, row);
  if (!cairo_has_current_point (sheet->cr))
    return;
  sheet_will_ink (sheet, BAND_LINE);
  palette_use (sheet->cr, PALETTE_WHITE, BAND_LINE_TINT, sheet->ink);
  cairo_set_line_width (sheet->cr, BAND_LINE * sheet->unit_px);
  cairo_stroke (sheet->cr);
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

static void
look_at_columns (Fan *fan)
{
  const AimMap *map = fan->map;
  for (size_t column = 0; column < fan->n_columns; column++)
    {
      double *over = fan->over + column * map->n_swings;
      Range range = { INFINITY, -INFINITY };
      for (size_t row = 0; row < map->n_swings; row++)
        {
          over[row] = over_best (map, row, column_turn (column));
          range.low = fmin (range.low, over[row]);
          range.high = fmax (range.high, over[row]);
        }
      fan->ranges[column] = range;
    }
}

static bool
fan_init (Fan *fan, const OverlaySheet *sheet)
{
  const AimMap *map = sheet->scene->aims;
  if (map == NULL || map->n_turns < 2 || map->n_swings < 2)
    return false;
  *fan = (Fan){ .sheet = sheet, .map = map, .to_drawing = view_to_drawing (sheet->view) };
  fan->n_columns = COLUMNS_A_STEP * (map->n_turns - 1);
  fan->over = g_new (double, fan->n_columns * map->n_swings);
  fan->ranges = g_new (Range, fan->n_columns);
  look_at_columns (fan);
  return true;
}

static void
fan_ink (Fan *fan)
{
  const AimMap *map = fan->map;
  fan->is_inked = true;
  fan->ball_px = affine_apply (fan->to_drawing, map->ball);
  fan->ways_px = g_new (Vec2, fan->n_columns + 1);
  for (size_t i = 0; i <= fan->n_columns; i++)
    {
      double direction_rad = map->first_rad + (double)i / COLUMNS_A_STEP * map->turn_step_rad;
      fan->ways_px[i] = vec2_sub (affine_apply (fan->to_drawing, fan_place (fan, direction_rad, 1)), fan->ball_px);
    }
}

static void
fan_clear (Fan *fan)
{
  g_free (fan->over);
  g_free (fan->ranges);
  g_free (fan->ways_px);
}

void
overlay_aims_still (OverlaySheet *sheet)
{
  Fan fan;
  if (!fan_init (&fan, sheet))
    return;
  fan_ink (&fan);
  cairo_antialias_t antialias = cairo_get_antialias (sheet->cr);
  cairo_set_antialias (sheet->cr, CAIRO_ANTIALIAS_NONE); /* no seams between pieces */
  for (size_t band = 0; band <= N_STEPS; band++)
    ink_band (&fan, sheet, band);
  cairo_set_antialias (sheet->cr, antialias);
  ink_lines (&fan, sheet);
  ink_edge (&fan, sheet);
  fan_clear (&fan);
}

void
overlay_aims (OverlaySheet *sheet)
{
  Fan fan;
  if (!fan_init (&fan, sheet))
    return;
  mark_best (&fan, sheet);
  number_bands (&fan, sheet);
  fan_clear (&fan);
}
