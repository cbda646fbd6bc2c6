// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-trees - the trees that the shot in hand may meet: by how much the ball flies over each, or into it, and the chance to get past.
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define RING_WIDTH 1.6
#define LABEL_GAP 3.0
/* The trees most likely to stop the ball are named, so many at most. */
#define MOST_NAMED 5

/* "12 ft over · 97 %", "4 ft into it · 40 %"; beside the ball's way only the chance. */
static void
print_row (const OverlaySheet *sheet, const TreeRow *row, char *text, size_t size)
{
  LengthUnit units = sheet->view->units;
  char height[UNITS_TEXT_SIZE];
  double chance = 100 * fmin (row->chance, MOST_CHANCE_SHOWN);
  units_print_decimals (unit_height_from_metres (units, fabs (row->clearance_m)), 0, height, sizeof height);
  if (isnan (row->clearance_m))
    g_snprintf (text, size, sheet_word (sheet, N_ ("past %.0f %%")), chance);
  else
    g_snprintf (text, size,
                sheet_word (sheet, row->clearance_m < 0 ? N_ ("%s %s into it · %.0f %%") : N_ ("%s %s over · %.0f %%")), height,
                unit_height_suffix (units), chance);
}

/* How many rows worth telling of are more likely to stop the ball; of two alike the nearer is. */
static size_t
n_before (const TreeTable *trees, size_t i)
{
  size_t n = 0;
  for (size_t k = 0; k < trees->n_rows; k++)
    if (k != i && tree_row_is_telling (&trees->rows[k])
        && (trees->rows[k].chance < trees->rows[i].chance || (trees->rows[k].chance == trees->rows[i].chance && k < i)))
      n++;
  return n;
}

/* The corner of an outline that lies nearest to a place. */
static Vec2
nearest_corner (const Outline *outline, Vec2 to)
{
  Vec2 nearest = to;
  double least_m = INFINITY;
  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t i = outline->ring_starts[r]; i < outline->ring_starts[r + 1]; i++)
      if (vec2_distance (outline->points[i], to) < least_m)
        {
          least_m = vec2_distance (outline->points[i], to);
          nearest = outline->points[i];
        }
  return nearest;
}

/* A single tree by a ring round its canopy; an area of trees where the line passes it, or where it comes nearest to the landing. */
static Vec2
ink_tree (OverlaySheet *sheet, const TreeRow *row)
{
  const Part *part = hole_part (sheet->scene->hole, row->part);
  if (kind_info (part->kind)->shape != SHAPE_POINT)
    return isnan (row->clearance_m) ? view_point (sheet->view, nearest_corner (part->outline, sheet->shot->landing))
                                    : sheet_on_line (sheet, (row->near_m + row->far_m) / 2);
  Vec2 at = view_point (sheet->view, part->at);
  cairo_new_sub_path (sheet->cr);
  cairo_arc (sheet->cr, at.x, at.y, part->radius_m * sheet->view->px_per_m, 0, 2 * PI);
  cairo_close_path (sheet->cr);
  sheet_stroke_cased (sheet, PALETTE_INK, RING_WIDTH, 0.9);
  return at;
}

void
overlay_trees (OverlaySheet *sheet)
{
  const TreeTable *trees = sheet->scene->trees;
  for (size_t i = 0; trees != NULL && i < trees->n_rows; i++)
    {
      const TreeRow *row = &trees->rows[i];
      char text[LABEL_TEXT_SIZE];
      if (!tree_row_is_telling (row) || n_before (trees, i) >= MOST_NAMED)
        continue;
      Vec2 at = ink_tree (sheet, row);
      bool is_shown = at.x >= 0 && at.y >= 0 && at.x <= sheet->view->width_px && at.y <= sheet->view->height_px;
      if (!is_shown)
        continue;
      print_row (sheet, row, text, sizeof text);
      sheet_label_of (sheet, row->part);
      sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, text, at, vec2_scale (sheet_right (sheet), -1), LABEL_GAP * sheet->unit_px,
                   true);
    }
}
