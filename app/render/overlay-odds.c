// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-odds - how likely the ball ends on each area, written where it would.
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define DOT_RADIUS 2.4
#define LABEL_GAP 5.0

static void
print_chance (const OverlaySheet *sheet, double chance, char *text, size_t size)
{
  if (chance < CHANCE_NEAR_NONE)
    g_strlcpy (text, sheet_word (sheet, N_ ("under 1 %")), size);
  else if (chance > CHANCE_NEAR_ALL)
    g_strlcpy (text, sheet_word (sheet, N_ ("over 99 %")), size);
  else
    g_snprintf (text, size, "%.0f %%", 100 * chance);
}

void
overlay_odds (OverlaySheet *sheet)
{
  Vec2 rest = view_point (sheet->view, sheet->shot->rest);
  for (size_t i = 0; i < sheet->scene->n_places; i++)
    {
      const OddsPlace *place = &sheet->scene->places[i];
      Vec2 at = view_point (sheet->view, place->at), away = vec2_sub (at, rest);
      char text[LABEL_TEXT_SIZE];
      if (at.x < 0 || at.y < 0 || at.x > sheet->view->width_px || at.y > sheet->view->height_px)
        continue;
      cairo_new_sub_path (sheet->cr);
      cairo_arc (sheet->cr, at.x, at.y, DOT_RADIUS * sheet->unit_px, 0, 2 * PI);
      cairo_close_path (sheet->cr);
      sheet_stroke_cased (sheet, PALETTE_INK, DOT_RADIUS, 1);
      print_chance (sheet, place->chance, text, sizeof text);
      /* What lies under the ball itself is told short of it on its left, where least is written. */
      if (vec2_length (away) < LABEL_GAP * sheet->unit_px)
        away = vec2_scale (vec2_add (sheet_along (sheet), sheet_right (sheet)), -1);
      sheet_label_of (sheet, (size_t)(place->part + 1));
      sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, text, at, away, LABEL_GAP * sheet->unit_px, true);
    }
}
