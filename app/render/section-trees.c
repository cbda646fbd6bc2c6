// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * section-trees - the trees of the shot's fan at their heights: a tree as a trunk with its crown, an area of trees as a row of crowns. Those that stand
 * beside the line are pale, behind those on it.
 */
#include "section-private.h"

/* Design units of 1/96 inch. */
#define TREE_WIDTH 1.2
#define TRUNK_WIDTH 2.4
#define LEAST_CROWN 3.0
#define CROWN_WIDTH 12.0
/* Share of a tree's height below its crown (common practice). */
#define TRUNK_SHARE 0.22
#define BESIDE_ALPHA 0.35

static void
use_tree (const SectionSheet *sheet, bool is_edge, double alpha)
{
  const Appearance *look = appearance_of (KIND_TREE);
  palette_use (sheet->cr, is_edge ? look->edge : look->wash, alpha, sheet->scene->ink);
}

static void
paint_tree (const SectionSheet *sheet, const SectionTree *tree, double alpha)
{
  cairo_t *cr = sheet->cr;
  double unit = sheet->unit_px, x = axis_x (sheet->axis, 0.5 * (tree->near_m + tree->far_m));
  double half = fmax (LEAST_CROWN * unit, 0.5 * (tree->far_m - tree->near_m) * sheet->axis->px_per_m);
  double top = section_y (sheet, tree->top_m), base = section_y (sheet, tree->base_m);
  double crown = base - TRUNK_SHARE * (base - top), r = fmax ((crown - top) / 2, unit);
  cairo_matrix_t saved;

  use_tree (sheet, true, alpha);
  cairo_set_line_width (cr, TRUNK_WIDTH * unit);
  cairo_move_to (cr, x, base);
  cairo_line_to (cr, x, crown - unit);
  cairo_stroke (cr);
  cairo_get_matrix (cr, &saved);
  cairo_translate (cr, x, top + r);
  cairo_scale (cr, half, r);
  cairo_new_sub_path (cr);
  cairo_arc (cr, 0, 0, 1, 0, 2 * PI);
  cairo_close_path (cr);
  cairo_set_matrix (cr, &saved);
  use_tree (sheet, false, alpha);
  cairo_fill_preserve (cr);
  use_tree (sheet, true, alpha);
  cairo_set_line_width (cr, TREE_WIDTH * unit);
  cairo_stroke (cr);
}

/* Crowns side by side, their tops where the trees end; `ground` follows the line. */
static void
trace_crowns (const SectionSheet *sheet, double from_m, double to_m, double own_m)
{
  cairo_t *cr = sheet->cr;
  const Section *section = sheet->section;
  double crown_m = CROWN_WIDTH * sheet->unit_px / sheet->axis->px_per_m;
  int n_crowns = (int)fmax (1, round ((to_m - from_m) / crown_m));
  double each_m = (to_m - from_m) / n_crowns;
  cairo_new_path (cr);
  cairo_move_to (cr, axis_x (sheet->axis, from_m), section_y (sheet, section_ground (section, from_m)));
  for (int i = 0; i < n_crowns; i++)
    {
      double a_m = from_m + i * each_m, b_m = a_m + each_m, middle_m = 0.5 * (a_m + b_m);
      double x0 = axis_x (sheet->axis, a_m), x1 = axis_x (sheet->axis, b_m);
      double top = section_y (sheet, section_ground (section, middle_m) + own_m), dip = fmin (4 * sheet->unit_px, x1 - x0);
      cairo_line_to (cr, x0, top + dip);
      cairo_curve_to (cr, x0, top - dip / 3, x1, top - dip / 3, x1, top + dip);
    }
  cairo_line_to (cr, axis_x (sheet->axis, to_m), section_y (sheet, section_ground (section, to_m)));
  cairo_close_path (cr);
}

static void
paint_wood (const SectionSheet *sheet, const SectionTree *tree, HatchPen *hatch, double alpha)
{
  cairo_t *cr = sheet->cr;
  double own_m = tree->top_m - tree->base_m;
  double from_m = fmax (tree->near_m, sheet->from_m - own_m), to_m = fmin (tree->far_m, sheet->to_m + own_m);
  if (!(to_m > from_m))
    return;
  trace_crowns (sheet, from_m, to_m, own_m);
  use_tree (sheet, false, alpha);
  cairo_fill (cr);
  if (alpha == 1)
    {
      trace_crowns (sheet, from_m, to_m, own_m);
      hatch_fill (hatch, HATCH_ARCS, appearance_of (KIND_TREES)->hatch_ink);
    }
  trace_crowns (sheet, from_m, to_m, own_m);
  use_tree (sheet, true, alpha);
  cairo_set_line_width (cr, TREE_WIDTH * sheet->unit_px);
  cairo_stroke (cr);
}

void
section_paint_trees (const SectionSheet *sheet)
{
  const Section *section = sheet->section;
  HatchPen hatch;
  hatch_pen_init (&hatch, sheet->cr, sheet->scene->ink, sheet->unit_px, vec2 (sheet->axis->zero_px, sheet->low_px));
  for (int is_on = 0; is_on < 2; is_on++)
    for (size_t i = 0; i < section->n_trees; i++)
      {
        const SectionTree *tree = &section->trees[i];
        if (tree->is_on != is_on || tree->far_m < sheet->from_m || tree->near_m > sheet->to_m)
          continue;
        if (hole_part (sheet->scene->hole, tree->part)->kind == KIND_TREE)
          paint_tree (sheet, tree, is_on ? 1 : BESIDE_ALPHA);
        else
          paint_wood (sheet, tree, &hatch, is_on ? 1 : BESIDE_ALPHA);
      }
  hatch_pen_clear (&hatch);
}
