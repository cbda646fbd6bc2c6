// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-shots - the shots on the diagram of a card: line and pattern of each with its number, and what it carries. The rows stand beside the
 * painter's own in its kind of table.
 */
#include "card-private.h"
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define LINE_WIDTH 2.4
#define CASING 1.0
#define DISC_RADIUS 8.0
#define DISC_SIZE 11.5
#define LANDING_RADIUS 3.0
/* An aim farther from the landing point than this is dotted to. */
#define APART 8.0
#define LABEL_GAP 6.0

static void
trace_line (OverlaySheet *sheet, Vec2 from, Vec2 to)
{
  cairo_move_to (sheet->cr, from.x, from.y);
  cairo_line_to (sheet->cr, to.x, to.y);
}

static void
trace_disc (OverlaySheet *sheet, Vec2 at, double radius)
{
  cairo_new_sub_path (sheet->cr);
  cairo_arc (sheet->cr, at.x, at.y, radius * sheet->unit_px, 0, 2 * PI);
  cairo_close_path (sheet->cr);
}

/* The line flown, and dots from the landing point to an aim that lies elsewhere. */
static void
draw_line (OverlaySheet *sheet)
{
  Vec2 ball = view_point (sheet->view, sheet->shot->ball), landing = view_point (sheet->view, sheet->shot->landing);
  Vec2 aim = view_point (sheet->view, sheet->shot->aim);
  double dots[2] = { 0.1 * sheet->unit_px, 5 * sheet->unit_px };
  trace_line (sheet, ball, landing);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, LINE_WIDTH, CASING);
  trace_disc (sheet, landing, LANDING_RADIUS);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, LINE_WIDTH, CASING);
  if (vec2_distance (landing, aim) > APART * sheet->unit_px)
    {
      cairo_set_dash (sheet->cr, dots, 2, 0);
      trace_line (sheet, landing, aim);
      sheet_stroke_cased (sheet, PALETTE_ACCENT, LINE_WIDTH, 0);
      cairo_set_dash (sheet->cr, NULL, 0, 0);
    }
  sheet_avoid (sheet, landing, LANDING_RADIUS * sheet->unit_px);
}

/* The number of the shot in a disc where its ball lies. */
static void
draw_disc (OverlaySheet *sheet)
{
  char number[16];
  Vec2 ball = view_point (sheet->view, sheet->shot->ball);
  g_snprintf (number, sizeof number, "%zu", sheet->scene->current + 1);
  trace_disc (sheet, ball, DISC_RADIUS);
  palette_use (sheet->cr, PALETTE_ACCENT, 1, sheet->ink);
  cairo_fill_preserve (sheet->cr);
  palette_use (sheet->cr, PALETTE_WHITE, 1, sheet->ink);
  cairo_set_line_width (sheet->cr, CASING * sheet->unit_px);
  cairo_stroke (sheet->cr);
  text_draw_middle (sheet->text, number, (TextStyle){ DISC_SIZE * sheet->unit_px, TEXT_BOLD }, ball.x, ball.y, TEXT_CENTRE);
  sheet_avoid (sheet, ball, DISC_RADIUS * sheet->unit_px);
}

/* How far the ball carries, beside where it lands. */
static void
label_landing (OverlaySheet *sheet)
{
  char text[32];
  Vec2 landing = view_point (sheet->view, sheet->shot->landing);
  units_print_whole (sheet->shot->carry_m, sheet->view->units, text, sizeof text);
  sheet_label (sheet, RANK_LEFT, PLATE_ACCENT, text, landing, vec2_scale (sheet_right (sheet), -1), LABEL_GAP * sheet->unit_px,
               false);
}

static const Overlay shot_rows[] = {
  { "pattern", NULL, true, overlay_pattern, 0 },
  { "line", NULL, true, draw_line, 0 },
  { "carries", NULL, true, overlay_carries, 0 },
  { "disc", NULL, true, draw_disc, 0 },
  { "landing", NULL, true, label_landing, 0 },
  { NULL, NULL, false, NULL, 0 },
};

/*
 * Carries for the diagram: all that the card lists, but of a shot at the green only what its line crosses. What lies beside the green stands
 * in the table, and here its labels would hide it.
 */
static CarryTable
diagram_rows (const Card *card, size_t shot)
{
  CarryTable table = *card->carries[shot];
  Kind aimed_at = hole_kind_at (card->hole, card->shots[shot].aim);
  if (aimed_at != KIND_GREEN && aimed_at != KIND_FRINGE)
    return table;
  size_t n_on = 0;
  while (n_on < table.n_rows && table.rows[n_on].side == SIDE_ON)
    n_on++;
  table.n_rows = n_on;
  return table;
}

void
card_draw_shots (const Card *card, CardPen *pen, const Box *avoid, size_t n_avoid)
{
  g_autofree PlanScene *scenes = g_new0 (PlanScene, card->n_shots + 1);
  g_autofree CarryTable *tables = g_new0 (CarryTable, card->n_shots + 1);
  for (size_t i = 0; i < card->n_shots; i++)
    {
      tables[i] = diagram_rows (card, i);
      scenes[i] = (PlanScene){
        .hole = card->hole, .shots = card->shots, .n_shots = card->n_shots, .current = i, .carries = &tables[i], .ink = pen->ink
      };
    }
  render_overlay_rows (pen->cr, scenes, card->n_shots, shot_rows, ~0u, &card->view, avoid, n_avoid);
}
