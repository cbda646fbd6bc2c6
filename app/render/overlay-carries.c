// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-carries - trouble and its numbers where it lies: a bracket along the shot line with reach and carry for what the line
 * crosses, a dimension line with the gap for what lies beside it.
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define BRACKET_NEAR 4.0
#define BRACKET_FAR 20.0
#define BRACKET_STEP 9.0
#define BRACKET_GAP 2.0
#define DIMENSION_TICK 4.0
#define DIMENSION_GAP 3.0
/* Out of bounds that ends this close to the drawing's extent is taken to go on. */
#define EXTENT_TOLERANCE_M 1.0
/* Crossings of one area whose labels are told apart. */
#define MOST_CROSSINGS 8
/* Brackets are stacked at most so deep. */
#define MOST_LEVELS 4

static const Part *
row_part (const OverlaySheet *sheet, const CarryRow *row)
{
  return hole_part (sheet->scene->hole, row->part);
}

/* Is this trouble only the inside of other trouble of the same lie, such as the water of a penalty area? Then one number will do. */
static bool
is_inside_other (const OverlaySheet *sheet, const CarryRow *row)
{
  const CarryTable *table = sheet->scene->carries;
  Lie lie = kind_info (row_part (sheet, row)->kind)->lie;
  for (size_t i = 0; i < table->n_rows; i++)
    {
      const CarryRow *other = &table->rows[i];
      if (other == row || other->side != row->side || kind_info (row_part (sheet, other)->kind)->lie != lie)
        continue;
      bool covers = other->reach_m <= row->reach_m && other->carry_m >= row->carry_m && other->gap_m <= row->gap_m;
      bool is_same = other->reach_m == row->reach_m && other->carry_m == row->carry_m && other->gap_m == row->gap_m;
      if (covers && (!is_same || other < row))
        return true;
    }
  return false;
}

bool
carry_runs_off (const Hole *hole, const ShotResult *shot, const CarryRow *row)
{
  Box sheet_box = hole_info (hole)->view_box;
  Box extent = box_is_empty (sheet_box) ? hole_extent (hole) : sheet_box;
  Vec2 along = vec2_unit (vec2_sub (shot->landing, shot->ball));
  return !box_contains (box_grown (extent, -EXTENT_TOLERANCE_M), vec2_add (shot->ball, vec2_scale (along, row->carry_m)));
}

/* "236–249"; "249" to get out of what the ball lies in; "236+" for what goes on beyond the drawing. */
static void
print_on_line (const OverlaySheet *sheet, const CarryRow *row, char *text, size_t size)
{
  char reach[32], carry[32];
  units_print_whole (row->reach_m, sheet->view->units, reach, sizeof reach);
  units_print_whole (row->carry_m, sheet->view->units, carry, sizeof carry);
  if (carry_runs_off (sheet->scene->hole, sheet->shot, row))
    g_snprintf (text, size, "%s+", reach);
  else if (row->reach_m <= 0)
    g_snprintf (text, size, "%s", carry);
  else
    g_snprintf (text, size, "%s–%s", reach, carry);
}

/* How many brackets already drawn this one would run into. */
static int
bracket_level (const OverlaySheet *sheet, size_t i)
{
  const CarryRow *rows = sheet->scene->carries->rows;
  int level = 0;
  for (size_t k = 0; k < i && level < MOST_LEVELS; k++)
    if (rows[k].side == SIDE_ON && kind_info (row_part (sheet, &rows[k])->kind)->is_trouble && rows[k].carry_m > rows[i].reach_m
        && !is_inside_other (sheet, &rows[k]))
      level++;
  return level;
}

static void
draw_on_line (OverlaySheet *sheet, size_t i)
{
  const CarryRow *row = &sheet->scene->carries->rows[i];
  cairo_t *cr = sheet->cr;
  double unit = sheet->unit_px, from_m = row->reach_m, to_m = row->carry_m;
  double far = (BRACKET_FAR + BRACKET_STEP * bracket_level (sheet, i)) * unit;
  Vec2 right = sheet_right (sheet), out = vec2_scale (right, far), near = vec2_scale (right, -BRACKET_NEAR * unit);
  char text[48];

  if (!sheet_visible_stretch (sheet, &from_m, &to_m))
    return;
  Vec2 a = sheet_on_line (sheet, from_m), b = sheet_on_line (sheet, to_m);
  if (from_m == row->reach_m && row->reach_m > 0)
    cairo_move_to (cr, a.x + near.x, a.y + near.y);
  else
    cairo_move_to (cr, a.x + out.x, a.y + out.y);
  cairo_line_to (cr, a.x + out.x, a.y + out.y);
  cairo_line_to (cr, b.x + out.x, b.y + out.y);
  if (to_m == row->carry_m && !carry_runs_off (sheet->scene->hole, sheet->shot, row))
    cairo_line_to (cr, b.x + near.x, b.y + near.y);
  sheet_stroke_cased (sheet, PALETTE_INK, 1.2, 0.9);

  print_on_line (sheet, row, text, sizeof text);
  Vec2 middle = vec2_add (vec2_lerp (a, b, 0.5), out);
  sheet_label (sheet, RANK_ON_LINE, PLATE_PAPER, text, middle, right, BRACKET_GAP * unit, true);
}

/* Cuts the edge p-q, relative to the ball, to what lies between the row's reach and carry along the line; false if nothing does. */
static bool
cut_edge (Vec2 *p, Vec2 *q, Vec2 along, const CarryRow *row)
{
  double t0 = vec2_dot (*p, along), t1 = vec2_dot (*q, along), lo = 0, hi = 1;
  if (fabs (t1 - t0) > 1e-9)
    {
      double a = (row->reach_m - t0) / (t1 - t0), b = (row->carry_m - t0) / (t1 - t0);
      lo = fmax (0, fmin (a, b));
      hi = fmin (1, fmax (a, b));
    }
  else if (t0 < row->reach_m || t0 > row->carry_m)
    return false;
  if (!(lo <= hi))
    return false;
  Vec2 from = *p;
  *p = vec2_lerp (from, *q, lo);
  *q = vec2_lerp (from, *q, hi);
  return true;
}

/* The place of the area on the row's side that lies nearest to the line, within the row's stretch: x along the line, y to its right. */
static bool
nearest_beside (const OverlaySheet *sheet, const CarryRow *row, Vec2 *place_m)
{
  const ShotResult *shot = sheet->shot;
  const Outline *outline = row_part (sheet, row)->outline;
  Vec2 along = vec2_unit (vec2_sub (shot->landing, shot->ball)), right = vec2_scale (vec2_left (along), -1);
  double sign = row->side == SIDE_RIGHT ? 1 : -1, nearest = INFINITY;

  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t first = outline->ring_starts[r], end = outline->ring_starts[r + 1], i = first; i < end; i++)
      {
        Vec2 ends[2] = { vec2_sub (outline->points[i], shot->ball),
                         vec2_sub (outline->points[i + 1 < end ? i + 1 : first], shot->ball) };
        if (!cut_edge (&ends[0], &ends[1], along, row))
          continue;
        for (int k = 0; k < 2; k++)
          {
            double beside = sign * vec2_dot (ends[k], right);
            if (beside < 0 || beside >= nearest)
              continue;
            nearest = beside;
            *place_m = vec2 (vec2_dot (ends[k], along), sign * beside);
          }
      }
  return isfinite (nearest);
}

static void
draw_beside (OverlaySheet *sheet, const CarryRow *row)
{
  cairo_t *cr = sheet->cr;
  double unit = sheet->unit_px, lo = 0, hi = 1;
  Vec2 place_m = vec2 (0, 0);
  char number[32], text[48];

  if (!nearest_beside (sheet, row, &place_m))
    return;
  Vec2 foot = sheet_on_line (sheet, place_m.x);
  Vec2 out = vec2_scale (sheet_right (sheet), place_m.y * sheet->view->px_per_m), edge = vec2_add (foot, out);
  if (!sheet_cut (sheet, foot, out, &lo, &hi))
    return;
  Vec2 tick = vec2_scale (sheet_along (sheet), DIMENSION_TICK * unit);
  cairo_move_to (cr, foot.x, foot.y);
  cairo_line_to (cr, edge.x, edge.y);
  cairo_move_to (cr, edge.x - tick.x, edge.y - tick.y);
  cairo_line_to (cr, edge.x + tick.x, edge.y + tick.y);
  sheet_stroke_cased (sheet, PALETTE_INK, 1.1, 0.9);

  units_print_whole (row->gap_m, sheet->view->units, number, sizeof number);
  g_snprintf (text, sizeof text, sheet_word (sheet, row->side == SIDE_RIGHT ? N_ ("%s R") : N_ ("%s L")), number);
  /* Beside the dimension line, on the ball's side of it: the trouble itself stays in sight. */
  Vec2 back = vec2_scale (sheet_along (sheet), -1);
  sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, text, vec2_lerp (foot, edge, hi / 2), back, DIMENSION_GAP * unit, true);
}

/* An area that the line crosses is bracketed there; that it also lies beside the line elsewhere adds nothing. */
static bool
is_also_on_line (const OverlaySheet *sheet, const CarryRow *row)
{
  const CarryTable *table = sheet->scene->carries;
  for (size_t i = 0; row->side != SIDE_ON && i < table->n_rows; i++)
    if (table->rows[i].side == SIDE_ON && table->rows[i].part == row->part)
      return true;
  return false;
}

/* Rows of the same area before row `i`: one that the line crosses twice has two. */
static size_t
n_crossings_before (const CarryTable *table, size_t i)
{
  size_t n = 0;
  for (size_t k = 0; k < i; k++)
    n += table->rows[k].part == table->rows[i].part;
  return MIN (n, MOST_CROSSINGS - 1);
}

void
overlay_carries (OverlaySheet *sheet)
{
  const CarryTable *table = sheet->scene->carries;

  for (size_t i = 0; table && i < table->n_rows; i++)
    {
      const CarryRow *row = &table->rows[i];
      if (!kind_info (row_part (sheet, row)->kind)->is_trouble || is_inside_other (sheet, row) || is_also_on_line (sheet, row))
        continue;
      sheet_label_of (sheet, row->part * MOST_CROSSINGS + n_crossings_before (table, i));
      if (row->side == SIDE_ON)
        draw_on_line (sheet, i);
      else
        draw_beside (sheet, row);
    }
}
