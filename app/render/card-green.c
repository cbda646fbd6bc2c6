// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-green - the green as it is approached, the way of approach up the page, with depth from its front every 5 and the numbers from the
 * ball. How a hole location is told: depth from the front, then from the nearer side (R&A, Guidance on Running a Competition, Appendix E).
 */
#include "card-private.h"
#include "heights-private.h"
#include "render-green.h"

/* Largest first; the first is the largest that the Rules allow for green detail (Rule 4.3a: 3/8 in to 5 yd). */
static const int green_scales[] = { 480, 500, 600, 700, 750, 800, 850, 900, 1000, 1100, 1200, 1300, 1500, 1750, 2000 };

/* Height of everything but the detail itself. */
#define NUMBERS_MM 9.0
#define SENTENCE_MM 3.0
#define DETAIL_LEAST_MM 18.0
/* Column of depth figures at the left of the detail. */
#define DEPTH_MM 5.0
/* Ground shown round the green. */
#define ROUND_GREEN_M 1.5

static const Part *
green_part (const Card *card)
{
  int green = hole_green (card->hole, NULL);
  return green >= 0 ? hole_part (card->hole, (size_t)green) : NULL;
}

/* Turn that brings the way of approach up the page. */
static double
approach_turn_rad (const Card *card)
{
  Vec2 target;
  if (!hole_target (card->hole, NULL, &target))
    return 0;
  Vec2 along = vec2_sub (target, card->approach);
  return vec2_length (along) > 0 ? PI / 2 - atan2 (along.y, along.x) : 0;
}

/* The green's extent as turned. */
static Box
turned_bounds (const Card *card)
{
  const Outline *outline = green_part (card)->outline;
  Affine turn = affine_rotation (approach_turn_rad (card));
  Box box = box_empty ();
  for (size_t i = 0; i < outline->n_points; i++)
    box = box_with_point (box, affine_apply (turn, outline->points[i]));
  return box_grown (box, ROUND_GREEN_M);
}

/* Scale at which the detail fits a width and height; the smallest there is if none does. */
static int
scale_for (const Card *card, double width_mm, double height_mm)
{
  Box bounds = turned_bounds (card);
  double least = 1000 * fmax ((bounds.x1 - bounds.x0) / width_mm, (bounds.y1 - bounds.y0) / height_mm);
  size_t i = 0;
  while (i + 1 < G_N_ELEMENTS (green_scales) && green_scales[i] < least)
    i++;
  return green_scales[i];
}

CardHeight
card_measure_green (const Card *card, double width_mm)
{
  if (!card->has_green || green_part (card) == NULL)
    return (CardHeight){ 0, 0 };
  Box bounds = turned_bounds (card);
  double words = CARD_HEADING_MM + NUMBERS_MM + SENTENCE_MM;
  int scale = scale_for (card, width_mm - DEPTH_MM, INFINITY);
  double most = 1000 * (bounds.y1 - bounds.y0) / scale;
  return (CardHeight){ words + fmin (DETAIL_LEAST_MM, most), words + most };
}

/* Where in the block the detail itself goes. */
static Box
detail_box (Box box)
{
  return (Box){ box.x0 + DEPTH_MM, box.y0 + CARD_HEADING_MM - 0.6, box.x1, box.y1 - NUMBERS_MM - SENTENCE_MM };
}

void
card_fit_green (Card *card, Box box)
{
  Box detail = detail_box (box);
  card->green_scale = scale_for (card, detail.x1 - detail.x0, detail.y1 - detail.y0 + 1e-6);
}

static RenderView
green_view (const Card *card, Box detail)
{
  Box bounds = turned_bounds (card);
  double turn = approach_turn_rad (card);
  Vec2 centre = affine_apply (affine_rotation (-turn), box_centre (bounds));
  return (RenderView){ centre,       1000.0 / card->green_scale, turn, detail.x1 - detail.x0, detail.y1 - detail.y0,
                       CARD_MARK_MM, card->options.units };
}

/* Dashed lines across the green every 5 from its front, with figures in the margin. */
static void
draw_depths (const Card *card, CardPen *pen, const RenderView *view, Box detail)
{
  static const double dash[] = { 0.8, 0.8 };
  Vec2 target;
  if (!hole_target (card->hole, NULL, &target))
    return;
  GreenDepth lines[GREEN_MOST_DEPTHS];
  size_t n = render_green_depths (&card->green, card->approach, target, card->options.units, lines, G_N_ELEMENTS (lines));
  for (size_t i = 0; i < n; i++)
    {
      g_autofree char *text = g_strdup_printf ("%d", lines[i].depth);
      double y = detail.y0 + view_point (view, lines[i].at).y;
      card_ink (pen, PALETTE_INK);
      text_draw_middle (pen->text, text, card_style (CARD_SMALL_MM, TEXT_REGULAR), detail.x0 - 1.4, y, TEXT_RIGHT);
      cairo_save (pen->cr);
      palette_use (pen->cr, PALETTE_INK, 0.55, pen->ink);
      cairo_set_dash (pen->cr, dash, G_N_ELEMENTS (dash), 0);
      cairo_set_line_width (pen->cr, CARD_RULE_MM * 0.6);
      cairo_move_to (pen->cr, detail.x0 - 0.8, y);
      cairo_line_to (pen->cr, detail.x1, y);
      cairo_stroke (pen->cr);
      cairo_restore (pen->cr);
    }
}

static void
draw_numbers (const Card *card, CardPen *pen, double top)
{
  const struct
  {
    const char *label;
    double length_m;
  } numbers[]
      = { { N_ ("front"), card->green.front_m }, { N_ ("hole"), card->green.hole_m }, { N_ ("back"), card->green.back_m } };
  double width = (pen->box.x1 - pen->box.x0) / G_N_ELEMENTS (numbers);
  char text[32];
  for (size_t i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      double x = pen->box.x0 + ((double)i + 0.5) * width;
      card_ink (pen, CARD_MUTED);
      text_draw (pen->text, card_word (card, numbers[i].label), card_style (CARD_SMALL_MM, TEXT_REGULAR), x, top + 2.6,
                 TEXT_CENTRE);
      card_ink (pen, PALETTE_INK);
      text_draw (pen->text, units_print_whole (numbers[i].length_m, card->options.units, text, sizeof text),
                 card_style (CARD_TEXT_MM * 1.6, TEXT_BOLD), x, top + 6.6, TEXT_CENTRE);
    }
}

/* "hole 17 on, 12 from left · depth 30" */
static char *
location_words (const Card *card)
{
  const GreenNumbers *green = &card->green;
  char on[32], side[32], depth[32];
  bool is_left = green->left_m <= green->right_m;
  const char *format = is_left ? N_ ("hole %s on, %s from left · depth %s") : N_ ("hole %s on, %s from right · depth %s");
  return g_strdup_printf (card_word (card, format),
                          units_print_whole (green->hole_m - green->front_m, card->options.units, on, sizeof on),
                          units_print_whole (is_left ? green->left_m : green->right_m, card->options.units, side, sizeof side),
                          units_print_whole (green->depth_m, card->options.units, depth, sizeof depth));
}

/* "Green from ball 2" */
static char *
heading_words (const Card *card)
{
  if (card->n_line > 0 && vec2_distance (card->approach, card->line[0]) < 1)
    return g_strdup (card_word (card, N_ ("Green from the tee")));
  for (size_t i = 0; i < card->n_shots; i++)
    if (vec2_distance (card->approach, card->shots[i].ball) < 1)
      return g_strdup_printf (card_word (card, N_ ("Green from ball %zu")), i + 1);
  if (card->n_shots == 0)
    return g_strdup (card_word (card, N_ ("Green from the bend")));
  return g_strdup_printf (card_word (card, N_ ("Green from ball %zu")),
                          card->n_shots + 1); /* where the last shot comes to rest */
}

/* What is nearer to it is shown rather: the hole, or the middle of the green. */
static Vec2
middle_of_interest (const Card *card)
{
  Vec2 target;
  return hole_target (card->hole, NULL, &target) ? target : box_centre (green_part (card)->bounds);
}

void
card_draw_green (const Card *card, CardPen *pen)
{
  cairo_t *cr = pen->cr;
  Box detail = detail_box (pen->box);
  RenderView view = green_view (card, detail);
  g_autofree char *heading = heading_words (card);
  g_autofree char *ratio = g_strdup_printf ("1:%d", card->green_scale);
  g_autofree char *location = location_words (card);
  card_heading (pen, heading);
  card_heading_right (pen, ratio, pen->box.x1);
  cairo_save (cr);
  cairo_translate (cr, detail.x0, detail.y0);
  render_hole_parts (cr, card->hole, &view, pen->ink, HOLE_WITHOUT_GROUND | HOLE_WITHOUT_NAMES | HOLE_WITHOUT_HEIGHTS);
  cairo_restore (cr);
  draw_depths (card, pen, &view, detail);
  cairo_save (cr);
  cairo_translate (cr, detail.x0, detail.y0);
  render_few_heights (cr, card->hole, &view, middle_of_interest (card), pen->ink);
  cairo_restore (cr);
  draw_numbers (card, pen, pen->box.y1 - NUMBERS_MM - SENTENCE_MM);
  card_ink (pen, CARD_MUTED);
  text_draw_fitted (pen->text, location, card_running_style (CARD_SMALL_MM, TEXT_REGULAR), pen->box.x0, pen->box.y1 - 0.8,
                    pen->box.x1 - pen->box.x0);
}
