// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card - lays a hole out on one page: the table of blocks, the pages, and the fit that never shrinks anything silently.
 */
#include "card-private.h"

#include <glib/gi18n.h>
#include <string.h>

/* ---- tables ---- */

/* Rules of Golf, Rule 4.3a and its Clarification 4.3a/1 (2019): green-reading material is at most 4 1/4 x 7 in, a green at most 3/8 in to 5 yd. */
#define RULES_WIDTH_MM (4.25 * MM_PER_INCH)
#define RULES_HEIGHT_MM (7 * MM_PER_INCH)
#define RULES_GREEN_SCALE 480

static const CardPageInfo pages[N_CARD_PAGES] = {
  [CARD_POCKET] = { "pocket", N_ ("Pocket, 4¼ × 7 in (108 × 178 mm)"), RULES_WIDTH_MM, RULES_HEIGHT_MM },
  [CARD_A6] = { "a6", N_ ("A6, 105 × 148 mm"), 105, 148 }, /* ISO 216 */
  [CARD_A5] = { "a5", N_ ("A5, 148 × 210 mm"), 148, 210 }, /* ISO 216 */
  [CARD_HALF_LETTER]
  = { "half-letter", N_ ("Half letter, 5½ × 8½ in"), 5.5 * MM_PER_INCH, 8.5 * MM_PER_INCH }, /* ANSI/ASME Y14.1 */
};

const CardBlock card_block_table[] = {
  { "title", N_ ("Number, name, par and lengths"), CARD_TOP, card_measure_title, card_draw_title },
  { "diagram", N_ ("The hole to scale, with distances"), CARD_WIDE, card_measure_diagram, card_draw_diagram },
  { "carries", N_ ("Carry table"), CARD_NARROW, card_measure_carries, card_draw_carries },
  { "plan", N_ ("Shots of the plan"), CARD_NARROW, card_measure_plan, card_draw_plan },
  { "green", N_ ("Green detail"), CARD_NARROW, card_measure_green, card_draw_green },
  { "notes", N_ ("Lines for notes"), CARD_NARROW, card_measure_notes, card_draw_notes },
  { "scale", N_ ("Scale bar and check line"), CARD_FOOT, card_measure_scale, card_draw_scale },
  { "day", N_ ("Wind and day of the plan"), CARD_FOOT, card_measure_day, card_draw_day },
  { "caution", N_ ("Words of caution"), CARD_FOOT, card_measure_caution, card_draw_caution },
  { NULL, NULL, CARD_FOOT, NULL, NULL },
};
#define N_BLOCKS (G_N_ELEMENTS (card_block_table) - 1)
G_STATIC_ASSERT (N_BLOCKS <= CARD_MOST_BLOCKS);

/* Page margin, space between blocks, and the narrow column as a share of the page within limits. */
#define MARGIN_MM 4.0
#define GAP_MM 2.6
#define NARROW_SHARE 0.36
#define NARROW_LEAST_MM 36.0
#define NARROW_MOST_MM 52.0

G_DEFINE_QUARK (holewright - render - error - quark, render_error)

const CardPageInfo *
card_page_info (CardPage page)
{
  return &pages[page < N_CARD_PAGES ? page : CARD_POCKET];
}

bool
card_page_from_token (const char *token, CardPage *page)
{
  for (int i = 0; i < N_CARD_PAGES; i++)
    if (strcmp (token, pages[i].token) == 0)
      {
        *page = (CardPage)i;
        return true;
      }
  return false;
}

unsigned
card_all_blocks (void)
{
  return (1u << N_BLOCKS) - 1;
}

void
card_options_init (CardOptions *options)
{
  *options = (CardOptions){ CARD_POCKET, card_all_blocks (), UNIT_YARDS, 0, NULL, PAINT_COLOUR, NULL };
}

/* ---- layout ---- */

/* Blocks of one place with something to say, in order, and what they need. */
typedef struct
{
  size_t blocks[CARD_MOST_BLOCKS];
  CardHeight heights[CARD_MOST_BLOCKS];
  size_t n;
  double least_mm; /* of all, gaps included */
} Column;

static Column
measure_place (const Card *card, CardPlace place, double width_mm, double gap_mm)
{
  Column column = { .n = 0 };
  for (size_t i = 0; i < N_BLOCKS; i++)
    {
      if (card_block_table[i].place != place || !(card->options.blocks >> i & 1))
        continue;
      CardHeight height = card_block_table[i].measure (card, width_mm);
      if (!(height.most_mm > 0))
        continue;
      column.blocks[column.n] = i;
      column.heights[column.n] = height;
      column.least_mm += height.least_mm + (column.n > 0 ? gap_mm : 0);
      column.n++;
    }
  return column;
}

/* Stacks a column's blocks in a box; earlier blocks take the height to spare first. */
static void
stack (Card *card, const Column *column, Box box, double gap_mm)
{
  double spare = box.y1 - box.y0 - column->least_mm, y = box.y0;
  for (size_t k = 0; k < column->n; k++)
    {
      double more = fmin (fmax (spare, 0), column->heights[k].most_mm - column->heights[k].least_mm);
      double height = column->heights[k].least_mm + more;
      card->boxes[column->blocks[k]] = (Box){ box.x0, y, box.x1, y + height };
      spare -= more;
      y += height + gap_mm;
    }
}

static bool
fail_to_fit (const Card *card, const Column *column, double room_mm, GError **error)
{
  g_autoptr (GString) names = g_string_new (NULL);
  for (size_t k = 0; k < column->n; k++)
    g_string_append_printf (names, "%s%s", k == 0 ? "" : (k + 1 == column->n ? " and " : ", "),
                            card_block_table[column->blocks[k]].name);
  g_set_error (error, RENDER_ERROR, RENDER_ERROR_FIT,
               "%s need %.0f mm of height and the %s page has %.0f; leave one of them out or choose a larger page", names->str,
               ceil (column->least_mm), card_page_info (card->options.page)->token, floor (room_mm));
  return false;
}

static bool
lay_out (Card *card, GError **error)
{
  double width = card->width_mm, inner = width - 2 * MARGIN_MM;
  double narrow_width = fmin (fmax (NARROW_SHARE * width, NARROW_LEAST_MM), NARROW_MOST_MM);
  Column top = measure_place (card, CARD_TOP, width, 0);
  Column foot = measure_place (card, CARD_FOOT, inner, GAP_MM / 2);
  Column wide = measure_place (card, CARD_WIDE, inner, GAP_MM);
  if (wide.n == 0)
    narrow_width = inner;
  Column narrow = measure_place (card, CARD_NARROW, narrow_width, GAP_MM);
  double y0 = top.least_mm + GAP_MM, y1 = card->height_mm - MARGIN_MM / 2 - (foot.n > 0 ? foot.least_mm + GAP_MM / 2 : 0);
  double room = y1 - y0;
  if (wide.least_mm > room)
    return fail_to_fit (card, &wide, room, error);
  if (narrow.least_mm > room)
    return fail_to_fit (card, &narrow, room, error);
  double x1 = narrow.n > 0 ? width - MARGIN_MM - narrow_width - GAP_MM : width - MARGIN_MM;
  stack (card, &top, (Box){ 0, 0, width, top.least_mm }, 0);
  stack (card, &wide, (Box){ MARGIN_MM / 2, y0, x1, y1 }, GAP_MM);
  stack (card, &narrow, (Box){ width - MARGIN_MM - narrow_width, y0, width - MARGIN_MM, y1 }, GAP_MM);
  stack (card, &foot, (Box){ MARGIN_MM, y1 + GAP_MM / 2, width - MARGIN_MM, card->height_mm - MARGIN_MM / 2 }, GAP_MM / 2);
  return true;
}

static Box
box_of (const Card *card, const char *name)
{
  for (size_t i = 0; i < N_BLOCKS; i++)
    if (strcmp (card_block_table[i].name, name) == 0)
      return card->boxes[i];
  return box_empty ();
}

bool
card_has_block (const Card *card, const char *name)
{
  return !box_is_empty (box_of (card, name));
}

static bool
fit (Card *card, GError **error)
{
  Box diagram = box_of (card, "diagram"), green = box_of (card, "green");
  if (!box_is_empty (diagram) && !card_fit_diagram (card, diagram, error))
    return false;
  if (!box_is_empty (green))
    card_fit_green (card, green);
  return true;
}

/* What keeps the card from being used as green-reading material during a round. */
static void
check_rules (Card *card)
{
  if (card_has_block (card, "diagram") && card->scale < RULES_GREEN_SCALE && card->has_green)
    card_warn (card, "the diagram shows the green at 1:%d; the Rules allow at most 1:%d (Rule 4.3a)", card->scale,
               RULES_GREEN_SCALE);
  if (!card_has_block (card, "green"))
    return;
  if (card->green_scale < RULES_GREEN_SCALE)
    card_warn (card, "the green detail is drawn at 1:%d; the Rules allow at most 1:%d (Rule 4.3a)", card->green_scale,
               RULES_GREEN_SCALE);
  if (card->width_mm > RULES_WIDTH_MM + 1e-6 || card->height_mm > RULES_HEIGHT_MM + 1e-6)
    card_warn (card, "the page is larger than the 4¼ × 7 in that the Rules allow for green detail (Rule 4.3a); use the pocket "
                     "page or leave the green out");
}

Card *
card_new (const CardContent *content, const CardOptions *options, GError **error)
{
  Card *card = g_new0 (Card, 1);
  card->hole = content->hole;
  card->course = content->course;
  card->bag = content->bag;
  card->options = *options;
  card->width_mm = card_page_info (options->page)->width_mm;
  card->height_mm = card_page_info (options->page)->height_mm;
  card->warnings = g_ptr_array_new_with_free_func (g_free);
  for (size_t i = 0; i < CARD_MOST_BLOCKS; i++)
    card->boxes[i] = box_empty ();
  card_facts_gather (card);
  if (!lay_out (card, error) || !fit (card, error))
    {
      card_free (card);
      return NULL;
    }
  check_rules (card);
  g_ptr_array_add (card->warnings, NULL);
  return card;
}

void
card_free (Card *card)
{
  if (card == NULL)
    return;
  card_facts_clear (card);
  g_ptr_array_unref (card->warnings);
  g_free (card);
}

void
card_size_mm (const Card *card, double *width_mm, double *height_mm)
{
  *width_mm = card->width_mm;
  *height_mm = card->height_mm;
}

int
card_scale (const Card *card)
{
  return card->scale;
}

const char *const *
card_warnings (const Card *card)
{
  return (const char *const *)card->warnings->pdata;
}

void
card_draw (const Card *card, cairo_t *cr, double px_per_mm)
{
  cairo_save (cr);
  cairo_scale (cr, px_per_mm, px_per_mm);
  cairo_rectangle (cr, 0, 0, card->width_mm, card->height_mm);
  cairo_clip (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  CardPen pen = { cr, text_pen_new (cr), card->options.ink, box_empty () };
  for (size_t i = 0; i < N_BLOCKS; i++)
    if (!box_is_empty (card->boxes[i]))
      {
        pen.box = card->boxes[i];
        cairo_save (cr);
        cairo_new_path (cr);
        card_block_table[i].draw (card, &pen);
        cairo_restore (cr);
      }
  text_pen_free (pen.text);
  cairo_restore (cr);
}
