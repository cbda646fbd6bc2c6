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
/* A landmark at the edge is seen whole, with so much of what it stands on round it. */
#define ROUND_MARK_M 4.0
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

/* The middle of a diagram of this size on the ground: that of what must be seen, unless it would cut a landmark in two for which there is room. */
static Vec2
find_middle (const Card *card, Box extent, double width_m, double height_m)
{
  Vec2 middle = box_centre (extent);
  for (size_t i = 0; i < hole_n_parts (card->hole); i++)
    {
      const Part *part = hole_part (card->hole, i);
      if (part->kind != KIND_MARK)
        continue;
      Box mark = box_grown (box_with_point (box_empty (), part->at), ROUND_MARK_M), both = box_union (extent, mark);
      Box seen = { middle.x - width_m / 2, middle.y - height_m / 2, middle.x + width_m / 2, middle.y + height_m / 2 };
      bool is_in_sight = mark.x0 < seen.x1 && mark.x1 > seen.x0 && mark.y0 < seen.y1 && mark.y1 > seen.y0;
      if (!is_in_sight || both.x1 - both.x0 > width_m || both.y1 - both.y0 > height_m)
        continue;
      extent = both;
      middle.x = fmin (fmax (middle.x, extent.x1 - width_m / 2), extent.x0 + width_m / 2);
      middle.y = fmin (fmax (middle.y, extent.y1 - height_m / 2), extent.y0 + height_m / 2);
    }
  return middle;
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
  Vec2 middle = find_middle (card, extent, width * card->scale / 1000, height * card->scale / 1000);
  card->view = (RenderView){ middle, 1000.0 / card->scale, 0, width, height, CARD_MARK_MM, card->options.units };
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
