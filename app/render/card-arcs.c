// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-arcs - distances on the diagram: arcs about the tee to the left of the line of play, about the middle of the green to its right.
 */
#include "card-private.h"

/* Distances between arcs, in the units of the card; the closer one at scales larger than the limit. */
#define ARC_STEP 50.0
#define ARC_CLOSE_STEP 25.0
#define ARC_CLOSE_SCALE 1600
/* Chord of the drawn arc. */
#define ARC_CHORD_MM 0.5
#define ARC_ALPHA 0.45
/* An arc sweeps at most this far from the line of play. */
#define ARC_MOST_RAD 1.1
/* Between an arc, its number and the edge; white round a number. */
#define ARC_GAP_MM 0.5
#define ARC_HALO_MM 0.45

typedef struct
{
  Vec2 centre;
  const Vec2 *line; /* from the centre outwards */
  size_t n_line;
  bool is_dashed;
} ArcFan;

/* The first point of the line that is `radius_m` from the centre. */
static bool
find_on_line (const ArcFan *fan, double radius_m, Vec2 *point)
{
  for (size_t i = 0; i + 1 < fan->n_line; i++)
    {
      Vec2 a = vec2_sub (fan->line[i], fan->centre), along = vec2_sub (fan->line[i + 1], fan->line[i]);
      double qa = vec2_dot (along, along), qb = vec2_dot (a, along), qc = vec2_dot (a, a) - radius_m * radius_m;
      double root = qb * qb - qa * qc;
      double t = qa > 0 && root >= 0 ? (-qb + sqrt (root)) / qa : -1;
      if (t < 0 || t > 1)
        continue;
      *point = vec2_add (fan->line[i], vec2_scale (along, t));
      return true;
    }
  return false;
}

/* Strokes the arc to the left of its outward line as far as the room for its number; `*end` receives where it stops. */
static void
trace_arc (const Card *card, CardPen *pen, const ArcFan *fan, Vec2 start, double room_mm, Vec2 *end)
{
  const RenderView *view = &card->view;
  Vec2 out = vec2_sub (start, fan->centre);
  double step = ARC_CHORD_MM / (vec2_length (out) * view->px_per_m);
  *end = view_point (view, start);
  cairo_move_to (pen->cr, end->x, end->y);
  for (double turn = step; turn < ARC_MOST_RAD; turn += step)
    {
      Vec2 p = view_point (view, vec2_add (fan->centre, affine_apply_direction (affine_rotation (turn), out)));
      if (p.x < room_mm || p.x > view->width_px - room_mm || p.y < 0 || p.y > view->height_px)
        break;
      *end = p;
      cairo_line_to (pen->cr, p.x, p.y);
    }
}

/* The number at the end of its arc; `avoid` receives the place it takes. */
static void
draw_number (const Card *card, CardPen *pen, const ArcFan *fan, const char *text, Vec2 end, GArray *avoid)
{
  TextStyle style = card_style (CARD_SMALL_MM, TEXT_MEDIUM);
  double width = text_width (pen->text, text, style), x = end.x + (fan->is_dashed ? ARC_GAP_MM : -ARC_GAP_MM);
  double y = fmin (fmax (end.y, CARD_SMALL_MM), card->view.height_px - CARD_SMALL_MM);
  TextAlign align = fan->is_dashed ? TEXT_LEFT : TEXT_RIGHT;
  double x0 = fan->is_dashed ? x : x - width;
  Box box = { x0, y - CARD_SMALL_MM / 2, x0 + width, y + CARD_SMALL_MM / 2 };
  card_ink (pen, PALETTE_WHITE);
  text_halo_middle (pen->text, text, style, x, y, align, ARC_HALO_MM);
  card_ink (pen, PALETTE_INK);
  text_draw_middle (pen->text, text, style, x, y, align);
  g_array_append_val (avoid, box);
}

static void
draw_arc (const Card *card, CardPen *pen, const ArcFan *fan, int number, Vec2 start, GArray *avoid)
{
  static const double dash[] = { 0.9, 0.7 };
  g_autofree char *text = g_strdup_printf ("%d", number);
  double room = text_width (pen->text, text, card_style (CARD_SMALL_MM, TEXT_MEDIUM)) + 2 * ARC_GAP_MM;
  Vec2 end;
  cairo_save (pen->cr);
  trace_arc (card, pen, fan, start, room, &end);
  palette_use (pen->cr, PALETTE_INK, ARC_ALPHA, pen->ink);
  cairo_set_line_width (pen->cr, CARD_RULE_MM * 0.8);
  if (fan->is_dashed)
    cairo_set_dash (pen->cr, dash, G_N_ELEMENTS (dash), 0);
  cairo_stroke (pen->cr);
  cairo_restore (pen->cr);
  draw_number (card, pen, fan, text, end, avoid);
}

static void
draw_fan (const Card *card, CardPen *pen, const ArcFan *fan, GArray *avoid)
{
  double step = card->scale < ARC_CLOSE_SCALE ? ARC_CLOSE_STEP : ARC_STEP;
  double end_m = vec2_distance (fan->line[0], fan->line[fan->n_line - 1]);
  Vec2 start;
  for (int i = 1; unit_to_metres (card->options.units, i * step) < end_m; i++)
    if (find_on_line (fan, unit_to_metres (card->options.units, i * step), &start))
      draw_arc (card, pen, fan, (int)(i * step), start, avoid);
}

/* What the two columns of numbers count, at the foot of the diagram. */
static void
draw_captions (const Card *card, CardPen *pen, GArray *avoid)
{
  static const char *const captions[] = { N_ ("from the tee"), N_ ("to the middle") };
  TextStyle style = card_style (CARD_LEAST_MM, TEXT_REGULAR);
  double y = card->view.height_px - CARD_LEAST_MM / 2;
  for (int is_right = 0; is_right < 2; is_right++)
    {
      double x = is_right ? card->view.width_px - ARC_GAP_MM : ARC_GAP_MM;
      const char *caption = card_word (card, captions[is_right]);
      double width = text_width (pen->text, caption, style);
      Box box = { is_right ? x - width : x, y - CARD_LEAST_MM / 2, is_right ? x : x + width, y + CARD_LEAST_MM / 2 };
      card_ink (pen, PALETTE_WHITE);
      text_halo_middle (pen->text, caption, style, x, y, is_right ? TEXT_RIGHT : TEXT_LEFT, ARC_HALO_MM);
      card_ink (pen, PALETTE_INK);
      text_draw_middle (pen->text, caption, style, x, y, is_right ? TEXT_RIGHT : TEXT_LEFT);
      g_array_append_val (avoid, box);
    }
}

void
card_draw_arcs (const Card *card, CardPen *pen, GArray *avoid)
{
  if (card->n_line < 2)
    return;
  size_t n = card->n_line;
  g_autofree Vec2 *back = g_new (Vec2, n);
  for (size_t i = 0; i < n; i++)
    back[i] = card->line[n - 1 - i];
  ArcFan from_tee = { card->line[0], card->line, n, false };
  ArcFan to_middle = { back[0], back, n, true };
  draw_fan (card, pen, &from_tee, avoid);
  draw_fan (card, pen, &to_middle, avoid);
  draw_captions (card, pen, avoid);
}
