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
  card->view = (RenderView){ box_centre (extent), 1000.0 / card->scale, 0, width, height, CARD_MARK_MM, card->options.units };
  return true;
}

void
card_draw_diagram (const Card *card, CardPen *pen)
{
  cairo_t *cr = pen->cr;
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (Box));
  cairo_translate (cr, pen->box.x0, pen->box.y0);
  cairo_rectangle (cr, 0, 0, card->view.width_px, card->view.height_px);
  cairo_clip (cr);
  render_hole_parts (cr, card->hole, &card->view, pen->ink, HOLE_WITHOUT_GROUND | HOLE_WITHOUT_NAMES | HOLE_WITHOUT_HEIGHTS);
  card_draw_arcs (card, pen, numbers);
  card_draw_shots (card, pen, (const Box *)(void *)numbers->data, numbers->len);
}
