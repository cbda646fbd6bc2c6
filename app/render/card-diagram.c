// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-diagram - the hole at a stated round scale, with arcs of equal distance: from the tee to the left of the line of play, to the middle
 * of the green to its right, so that every point of an arc is as far as its number says.
 */
#include "card-private.h"
#include "painter-private.h"

/* Room round what must be seen, in metres on the ground: beside the line of play and the shots, behind the tee, behind the green. */
#define BESIDE_LINE_M 22.0
#define BEHIND_TEE_M 8.0
#define ROUND_GREEN_M 8.0
/* A diagram lower than this says nothing. */
#define DIAGRAM_LEAST_MM 40.0

/* Round denominators, the largest scale first. */
static const int scales[]
    = { 500, 600, 750, 800, 1000, 1250, 1500, 1750, 2000, 2500, 2800, 3200, 3500, 4000, 4500, 5000, 6000, 7500, 10000 };

CardHeight
card_measure_diagram (const Card *card, double width_mm)
{
  return (CardHeight){ DIAGRAM_LEAST_MM, card->height_mm };
}

Box
card_diagram_extent (const Card *card)
{
  Box extent = box_empty ();
  int green = hole_green (card->hole, NULL);
  for (size_t i = 0; i < card->n_line; i++)
    {
      Vec2 p = card->line[i];
      double behind = i == 0 ? BEHIND_TEE_M : 0;
      extent = box_union (extent, (Box){ p.x - BESIDE_LINE_M, p.y - behind, p.x + BESIDE_LINE_M, p.y });
    }
  for (size_t i = 0; i < card->n_shots; i++)
    {
      Vec2 p = card->shots[i].landing;
      extent = box_union (extent, (Box){ p.x - BESIDE_LINE_M, p.y, p.x + BESIDE_LINE_M, p.y });
      extent = box_with_point (extent, card->shots[i].ball);
      extent = box_with_point (extent, card->shots[i].aim);
    }
  if (green >= 0)
    extent = box_union (extent, box_grown (hole_part (card->hole, (size_t)green)->bounds, ROUND_GREEN_M));
  return box_is_empty (extent) ? hole_extent (card->hole) : extent;
}

bool
card_fit_diagram (Card *card, Box box, GError **error)
{
  Box extent = card_diagram_extent (card);
  double width = box.x1 - box.x0, height = box.y1 - box.y0;
  double least = 1000 * fmax ((extent.x1 - extent.x0) / width, (extent.y1 - extent.y0) / height);
  int next = 0;
  for (size_t i = 0; i < G_N_ELEMENTS (scales) && next == 0; i++)
    if (scales[i] >= least)
      next = scales[i];
  if (next == 0)
    {
      g_set_error (error, RENDER_ERROR, RENDER_ERROR_FIT, "the hole does not fit on the page at 1:%d; choose a larger page",
                   scales[G_N_ELEMENTS (scales) - 1]);
      return false;
    }
  if (card->options.scale > 0 && card->options.scale < least)
    {
      g_set_error (error, RENDER_ERROR, RENDER_ERROR_FIT, "the hole does not fit at 1:%d; next scale 1:%d", card->options.scale,
                   next);
      return false;
    }
  card->scale = card->options.scale > 0 ? card->options.scale : next;
  card->view = (RenderView){ box_centre (extent), 1000.0 / card->scale, 0, width, height, CARD_UNIT_MM, card->options.units };
  return true;
}

/* ---- distance arcs ---- */

/* Distances between arcs, in the units of the card; the closer one at scales larger than the limit. */
#define ARC_STEP 50.0
#define ARC_CLOSE_STEP 25.0
#define ARC_CLOSE_SCALE 1600
/* Chord of the drawn arc. */
#define ARC_CHORD_MM 0.5
#define ARC_ALPHA 0.45
/* An arc sweeps at most this far from the line of play. */
#define ARC_MOST_RAD 1.45

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

static void
draw_arc (const Card *card, CardPen *pen, const ArcFan *fan, int number, Vec2 start)
{
  static const double dash[] = { 0.9, 0.7 };
  TextStyle style = card_style (CARD_SMALL_MM, TEXT_MEDIUM);
  g_autofree char *text = g_strdup_printf ("%d", number);
  double width = text_width (pen->text, text, style), room = width + 1.2;
  Vec2 end;
  cairo_save (pen->cr);
  trace_arc (card, pen, fan, start, room, &end);
  palette_use (pen->cr, PALETTE_INK, ARC_ALPHA, pen->ink);
  cairo_set_line_width (pen->cr, CARD_RULE_MM * 0.8);
  if (fan->is_dashed)
    cairo_set_dash (pen->cr, dash, G_N_ELEMENTS (dash), 0);
  cairo_stroke (pen->cr);
  cairo_restore (pen->cr);
  bool is_left = end.x < card->view.width_px / 2;
  double x = is_left ? fmin (end.x - 0.5, room - 0.5) : fmax (end.x + 0.5, card->view.width_px - room + 0.5);
  double y = fmin (fmax (end.y, CARD_SMALL_MM), card->view.height_px - CARD_SMALL_MM);
  card_ink (pen, PALETTE_WHITE);
  text_halo_middle (pen->text, text, style, x, y, is_left ? TEXT_RIGHT : TEXT_LEFT, 0.45);
  card_ink (pen, PALETTE_INK);
  text_draw_middle (pen->text, text, style, x, y, is_left ? TEXT_RIGHT : TEXT_LEFT);
}

static void
draw_fan (const Card *card, CardPen *pen, const ArcFan *fan)
{
  double step = card->scale < ARC_CLOSE_SCALE ? ARC_CLOSE_STEP : ARC_STEP;
  double end_m = vec2_distance (fan->line[0], fan->line[fan->n_line - 1]);
  Vec2 start;
  for (int i = 1; unit_to_metres (card->options.units, i * step) < end_m; i++)
    if (find_on_line (fan, unit_to_metres (card->options.units, i * step), &start))
      draw_arc (card, pen, fan, (int)(i * step), start);
}

static void
draw_arcs (const Card *card, CardPen *pen)
{
  if (card->n_line < 2)
    return;
  size_t n = card->n_line;
  g_autofree Vec2 *back = g_new (Vec2, n);
  for (size_t i = 0; i < n; i++)
    back[i] = card->line[n - 1 - i];
  ArcFan from_tee = { card->line[0], card->line, n, false };
  ArcFan to_middle = { back[0], back, n, true };
  draw_fan (card, pen, &from_tee);
  draw_fan (card, pen, &to_middle);
}

/* What the two columns of numbers count, at the foot of the diagram. */
static void
draw_arc_captions (const Card *card, CardPen *pen)
{
  TextStyle style = card_style (CARD_LEAST_MM, TEXT_REGULAR);
  double y = card->view.height_px - 1.2;
  if (card->n_line < 2)
    return;
  static const struct
  {
    const char *text;
    TextAlign align;
  } captions[] = { { "from the tee", TEXT_LEFT }, { "to the middle", TEXT_RIGHT } };
  for (size_t i = 0; i < G_N_ELEMENTS (captions); i++)
    {
      double x = captions[i].align == TEXT_LEFT ? 0.5 : card->view.width_px - 0.5;
      card_ink (pen, PALETTE_WHITE);
      text_halo_middle (pen->text, captions[i].text, style, x, y, captions[i].align, 0.45);
      card_ink (pen, PALETTE_INK);
      text_draw_middle (pen->text, captions[i].text, style, x, y, captions[i].align);
    }
}

void
card_draw_diagram (const Card *card, CardPen *pen)
{
  cairo_t *cr = pen->cr;
  cairo_translate (cr, pen->box.x0, pen->box.y0);
  cairo_rectangle (cr, 0, 0, card->view.width_px, card->view.height_px);
  cairo_clip (cr);
  render_hole_parts (cr, card->hole, &card->view, pen->ink, HOLE_WITHOUT_GROUND | HOLE_WITHOUT_NAMES);
  draw_arcs (card, pen);
  draw_arc_captions (card, pen);
}
