// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-blocks - the blocks made of words and numbers: title band, carry table, shots, notes, scale, day, caution.
 */
#include "card-private.h"
#include "overlay-private.h"

#include <string.h>

/* ---- lettering ---- */

void
card_ink (CardPen *pen, unsigned rgb)
{
  palette_use (pen->cr, rgb, 1, pen->ink);
}

void
card_rule (CardPen *pen, double x0, double y0, double x1, double y1)
{
  cairo_set_line_width (pen->cr, CARD_RULE_MM);
  cairo_move_to (pen->cr, x0, y0);
  cairo_line_to (pen->cr, x1, y1);
  cairo_stroke (pen->cr);
}

/* Baseline of the heading and of its rule below the top of the block. */
#define HEADING_BASELINE_MM 2.4
#define HEADING_RULE_MM 3.5

void
card_heading (CardPen *pen, const char *left)
{
  card_ink (pen, CARD_MUTED);
  text_draw (pen->text, left, card_style (CARD_TEXT_MM, TEXT_SEMIBOLD), pen->box.x0, pen->box.y0 + HEADING_BASELINE_MM,
             TEXT_LEFT);
  card_ink (pen, PALETTE_INK);
  card_rule (pen, pen->box.x0, pen->box.y0 + HEADING_RULE_MM, pen->box.x1, pen->box.y0 + HEADING_RULE_MM);
}

void
card_heading_right (CardPen *pen, const char *text, double right)
{
  card_ink (pen, CARD_MUTED);
  text_draw (pen->text, text, card_style (CARD_SMALL_MM, TEXT_REGULAR), right, pen->box.y0 + HEADING_BASELINE_MM, TEXT_RIGHT);
}

static CardHeight
fixed_height (double height_mm)
{
  return (CardHeight){ height_mm, height_mm };
}

/* ---- title band ---- */

#define TITLE_MM 14.5
#define TITLE_NUMBER_MM 11.0
#define TITLE_NAME_MM 4.4
#define TITLE_FACT_MM 2.9
#define TITLE_UPPER_MM 6.6  /* baseline of the name */
#define TITLE_LOWER_MM 11.2 /* baseline of course and lengths */
/* Words of second rank on the dark band: 9:1 against it. */
#define TITLE_PALE 0xd5dbe0

CardHeight
card_measure_title (const Card *card, double width_mm)
{
  return fixed_height (TITLE_MM);
}

/* "white 398 · yellow 371" */
static char *
length_words (const Card *card)
{
  g_autoptr (GString) words = g_string_new (NULL);
  char label[64], number[32];
  for (size_t i = 0; i < hole_n_parts (card->hole); i++)
    {
      const Part *part = hole_part (card->hole, i);
      double length_m;
      if (part->kind != KIND_TEE_MARKER || part->name == NULL || !hole_measured_length (card->hole, part->name, &length_m))
        continue;
      g_string_append_printf (words, "%s%s %s", words->len > 0 ? " · " : "", part_label (part, label, sizeof label),
                              units_print_whole (length_m, card->options.units, number, sizeof number));
    }
  if (words->len > 0)
    g_string_append_printf (words, " %s", unit_suffix (card->options.units));
  return g_strdup (words->str);
}

/* "par 4 · index 7" */
static char *
par_words (const Card *card)
{
  const HoleInfo *info = hole_info (card->hole);
  const Part *tee = card->tee >= 0 ? hole_part (card->hole, (size_t)card->tee) : NULL;
  int par = tee != NULL && tee->par > 0 ? tee->par : info->par;
  g_autofree char *par_text = par > 0 ? g_strdup_printf (card_word (card, N_ ("par %d")), par) : g_strdup ("");
  if (info->stroke_index <= 0)
    return g_strdup (par_text);
  g_autofree char *index_text = g_strdup_printf (card_word (card, N_ ("index %d")), info->stroke_index);
  return g_strconcat (par_text, par > 0 ? " · " : "", index_text, NULL);
}

void
card_draw_title (const Card *card, CardPen *pen)
{
  const HoleInfo *info = hole_info (card->hole);
  double left = 4.5, right = pen->box.x1 - 4;
  cairo_rectangle (pen->cr, pen->box.x0, pen->box.y0, pen->box.x1 - pen->box.x0, TITLE_MM);
  card_ink (pen, PALETTE_INK);
  cairo_fill (pen->cr);
  card_ink (pen, PALETTE_WHITE);
  if (info->number > 0)
    {
      g_autofree char *number = g_strdup_printf ("%d", info->number);
      TextStyle style = card_running_style (TITLE_NUMBER_MM, TEXT_BOLD);
      text_draw_middle (pen->text, number, style, left, TITLE_MM / 2, TEXT_LEFT);
      left += text_width (pen->text, number, style) + 3;
    }
  g_autofree char *par = par_words (card);
  g_autofree char *lengths = length_words (card);
  TextStyle fact = card_running_style (TITLE_FACT_MM, TEXT_SEMIBOLD),
            length = card_running_style (TITLE_FACT_MM * 0.9, TEXT_REGULAR);
  double par_width = text_width (pen->text, par, fact), lengths_width = text_width (pen->text, lengths, length);
  text_draw (pen->text, par, fact, right, TITLE_UPPER_MM, TEXT_RIGHT);
  text_draw_fitted (pen->text, info->title != NULL ? info->title : "", card_running_style (TITLE_NAME_MM, TEXT_BOLD), left,
                    TITLE_UPPER_MM, right - par_width - 3 - left);
  card_ink (pen, TITLE_PALE);
  text_draw (pen->text, lengths, length, right, TITLE_LOWER_MM, TEXT_RIGHT);
  if (card->course != NULL && card->course->name != NULL)
    text_draw_fitted (pen->text, card->course->name, length, left, TITLE_LOWER_MM, fmax (right - lengths_width - 3 - left, 1));
}

/* ---- carry table ---- */

#define ROW_MM 3.9
#define ROW_BASELINE_MM 2.2
/* Between the tables of two shots. */
#define TABLE_GAP_MM 1.2
/* Columns of numbers: width of each, from the right. */
#define NUMBER_MM 6.6
#define CHANCE_MM 9.4
/* The headings of two columns keep this much apart. */
#define HEADING_SPARE_MM 0.7
/* A name ends no nearer to the number beside it. */
#define NAME_SPARE_MM 0.8

CardHeight
card_measure_carries (const Card *card, double width_mm)
{
  double height = 0;
  for (size_t i = 0; i < card->n_shots; i++)
    if (card->carries[i]->n_rows > 0)
      height += (height > 0 ? TABLE_GAP_MM : 0) + CARD_HEADING_MM + (double)card->carries[i]->n_rows * ROW_MM;
  return fixed_height (height);
}

/* "From white", "From ball 2" */
static char *
shot_origin (const Card *card, size_t shot)
{
  char label[64];
  if (shot == 0 && card->tee >= 0 && vec2_distance (card->shots[0].ball, hole_part (card->hole, (size_t)card->tee)->at) < 1)
    return g_strdup_printf (card_word (card, N_ ("From %s")),
                            part_label (hole_part (card->hole, (size_t)card->tee), label, sizeof label));
  return g_strdup_printf (card_word (card, N_ ("From ball %zu")), shot + 1);
}

/* "sand, right": the side is added where the golfer's own name does not say it. */
static char *
carry_name (const Card *card, const CarryRow *row)
{
  char label[64];
  const char *name = part_label (hole_part (card->hole, row->part), label, sizeof label);
  if (row->side == SIDE_ON || strstr (name, side_token (row->side)) != NULL)
    return g_strdup (name);
  return g_strdup_printf (card_word (card, row->side == SIDE_LEFT ? N_ ("%s, left") : N_ ("%s, right")), name);
}

/* What the shot does about the trouble, most likely. */
static const char *
pass_word (const Card *card, Pass pass)
{
  static const char *const words[] = { [PASS_OVER] = N_ ("over"), [PASS_SHORT] = N_ ("short"), [PASS_INTO] = N_ ("into") };
  return card_word (card, words[pass]);
}

/* "over 98": per cent, what the shot does about the trouble; beside the line "19 R": how far off it lies. */
static char *
pass_words (const Card *card, size_t shot, const CarryRow *row)
{
  char number[32];
  double chance;
  if (row->side != SIDE_ON)
    return g_strdup_printf (card_word (card, row->side == SIDE_LEFT ? N_ ("%s L") : N_ ("%s R")),
                            units_print_whole (row->gap_m, card->options.units, number, sizeof number));
  const char *word = pass_word (card, carry_row_pass (&card->shots[shot], row, &chance));
  return g_strdup_printf ("%s %s", word,
                          units_print_decimals (100 * fmin (chance, MOST_CHANCE_SHOWN), 0, number, sizeof number));
}

static void
draw_carry_row (const Card *card, CardPen *pen, size_t shot, const CarryRow *row, double baseline)
{
  char number[32];
  TextStyle strong = card_style (CARD_TEXT_MM * 1.06, TEXT_SEMIBOLD), plain = card_style (CARD_TEXT_MM, TEXT_REGULAR);
  double carry_x = pen->box.x1 - CHANCE_MM, reach_x = carry_x - NUMBER_MM;
  g_autofree char *name = carry_name (card, row), *pass = pass_words (card, shot, row);
  units_print_whole (row->reach_m, card->options.units, number, sizeof number);
  double name_width = reach_x - text_width (pen->text, number, strong) - NAME_SPARE_MM - pen->box.x0;
  static const double smaller_mm[] = { CARD_SMALL_MM, CARD_LEAST_MM };
  for (size_t i = 0; i < G_N_ELEMENTS (smaller_mm) && text_width (pen->text, name, plain) > name_width; i++)
    plain.size_px = smaller_mm[i];
  card_ink (pen, PALETTE_INK);
  text_draw_fitted (pen->text, name, plain, pen->box.x0, baseline, name_width);
  text_draw (pen->text, number, strong, reach_x, baseline, TEXT_RIGHT);
  text_draw (pen->text, pass, card_style (CARD_SMALL_MM, TEXT_REGULAR), pen->box.x1, baseline, TEXT_RIGHT);
  /* What goes on beyond the drawing has no far side to state. */
  if (row->side == SIDE_ON && carry_runs_off (card->hole, &card->shots[shot], row))
    g_strlcpy (number, "·", sizeof number);
  else
    units_print_whole (row->carry_m, card->options.units, number, sizeof number);
  text_draw (pen->text, number, strong, carry_x, baseline, TEXT_RIGHT);
}

void
card_draw_carries (const Card *card, CardPen *pen)
{
  Box whole = pen->box;
  for (size_t shot = 0; shot < card->n_shots; shot++)
    {
      const CarryTable *table = card->carries[shot];
      if (table->n_rows == 0)
        continue;
      g_autofree char *origin = shot_origin (card, shot);
      card_heading (pen, origin);
      card_heading_right (pen, "%", pen->box.x1);
      card_heading_right (pen, card_word (card, N_ ("carry")), pen->box.x1 - CHANCE_MM);
      card_heading_right (pen, card_word (card, N_ ("reach")), pen->box.x1 - CHANCE_MM - NUMBER_MM - HEADING_SPARE_MM);
      double y = pen->box.y0 + CARD_HEADING_MM;
      for (size_t i = 0; i < table->n_rows; i++, y += ROW_MM)
        draw_carry_row (card, pen, shot, &table->rows[i], y + ROW_BASELINE_MM);
      pen->box.y0 = y + TABLE_GAP_MM;
    }
  pen->box = whole;
}

/* ---- shots of the plan ---- */

#define SHOT_LINE_MM 3.6
#define SHOT_GAP_MM 1.0
#define SHOT_DISC_MM 1.75
#define SHOT_INDENT_MM (2 * SHOT_DISC_MM + 1.2)
/* A ball this far from the aim is told of, and one this near the hole has arrived (common practice). */
#define OFF_AIM_M 2.5
#define ARRIVED_M 30.0

/* Sets two facts side by side where they fit, else one under the other. */
static char *
join_facts (TextPen *text, const char *first, const char *second, double width_mm)
{
  if (*second == '\0')
    return g_strdup (first);
  char *line = g_strdup_printf ("%s · %s", first, second);
  if (text_width (text, line, card_running_style (CARD_SMALL_MM, TEXT_REGULAR)) <= width_mm)
    return line;
  g_free (line);
  return g_strdup_printf ("%s\n%s", first, second);
}

/* "at the gate · leaves 156", "at the hole · 7 short of it" */
static char *
shot_words (const Card *card, TextPen *text, size_t index, double width_mm)
{
  const ShotResult *shot = &card->shots[index];
  g_autofree char *aim = card_aim_words (card, index);
  g_autoptr (GString) facts = g_string_new (NULL);
  char number[32];
  if (fabs (shot->beyond_aim_m) > OFF_AIM_M)
    g_string_append_printf (facts, card_word (card, shot->beyond_aim_m < 0 ? N_ ("%s short of it") : N_ ("%s past it")),
                            units_print_whole (fabs (shot->beyond_aim_m), card->options.units, number, sizeof number));
  if (isfinite (shot->left_m) && shot->left_m > ARRIVED_M)
    {
      g_string_append (facts, facts->len > 0 ? " · " : "");
      g_string_append_printf (facts, card_word (card, N_ ("leaves %s")),
                              units_print_whole (shot->left_m, card->options.units, number, sizeof number));
    }
  return join_facts (text, aim, facts->str, width_mm);
}

/* Ends that one line tells at most, its lettering and its height. */
#define MOST_ENDS 4
#define CHANCES_MM CARD_LEAST_MM
#define CHANCES_LINE_MM 2.8

/* As many of the shot's ends as fit beside each other; NULL for none. */
static char *
fitting_chances (const Card *card, TextPen *text, size_t index, double width_mm)
{
  for (size_t most = MOST_ENDS; most > 0; most--)
    {
      char *words = card_chance_words (card, index, most);
      if (words == NULL || text_width (text, words, card_running_style (CHANCES_MM, TEXT_REGULAR)) <= width_mm)
        return words;
      g_free (words);
    }
  return NULL;
}

/* Height of one shot: its club, and its words wrapped under it. */
static double
shot_height (const Card *card, TextPen *text, size_t index, double width_mm)
{
  g_autofree char *words = shot_words (card, text, index, width_mm - SHOT_INDENT_MM);
  return SHOT_LINE_MM + SHOT_GAP_MM
         + text_wrapped (text, words, card_running_style (CARD_SMALL_MM, TEXT_REGULAR), 0, 0, width_mm - SHOT_INDENT_MM, false);
}

CardHeight
card_measure_plan (const Card *card, double width_mm)
{
  if (!card->is_planned)
    return fixed_height (0);
  TextPen *text = text_pen_new (NULL);
  double height = CARD_HEADING_MM;
  for (size_t i = 0; i < card->n_shots; i++)
    height += shot_height (card, text, i, width_mm);
  text_pen_free (text);
  /* The chances are left out where the page is full. */
  return (CardHeight){ height, height + (card->ends != NULL ? (double)card->n_shots * CHANCES_LINE_MM : 0) };
}

/* "3 wood, draw" */
static char *
club_words (const Card *card, size_t index)
{
  const ShotResult *result = &card->shots[index];
  const Shot *shot = &hole_part (card->hole, (size_t)hole_plan (card->hole))->shots[index];
  static const char *const shapes[] = { [SHOT_STRAIGHT] = "", [SHOT_DRAW] = N_ (", draw"), [SHOT_FADE] = N_ (", fade") };
  const char *shape = *shapes[shot->shape] != '\0' ? card_word (card, shapes[shot->shape]) : "";
  char number[32];
  if (result->swing >= 1)
    return g_strconcat (result->club->name, shape, NULL);
  return g_strdup_printf ("%s, %s %%%s", result->club->name,
                          units_print_decimals (100 * result->swing, 0, number, sizeof number), shape);
}

static void
draw_disc (CardPen *pen, double x, double y, size_t number)
{
  g_autofree char *text = g_strdup_printf ("%zu", number);
  card_ink (pen, PALETTE_ACCENT);
  cairo_new_sub_path (pen->cr);
  cairo_arc (pen->cr, x, y, SHOT_DISC_MM, 0, 2 * PI);
  cairo_fill (pen->cr);
  card_ink (pen, PALETTE_WHITE);
  text_draw_middle (pen->text, text, card_style (CARD_SMALL_MM, TEXT_BOLD), x, y, TEXT_CENTRE);
}

static void
draw_shot (const Card *card, CardPen *pen, size_t index, double y, bool has_chances)
{
  char number[32];
  double x = pen->box.x0 + SHOT_INDENT_MM, baseline = y + 2.2;
  TextStyle strong = card_style (CARD_TEXT_MM * 1.1, TEXT_SEMIBOLD);
  g_autofree char *club = club_words (card, index);
  g_autofree char *words = shot_words (card, pen->text, index, pen->box.x1 - x);
  draw_disc (pen, pen->box.x0 + SHOT_DISC_MM, baseline - TEXT_CAP_HEIGHT * strong.size_px / 2, index + 1);
  card_ink (pen, PALETTE_INK);
  units_print_whole (card->shots[index].carry_m, card->options.units, number, sizeof number);
  text_draw (pen->text, number, strong, pen->box.x1, baseline, TEXT_RIGHT);
  text_draw_fitted (pen->text, club, strong, x, baseline, pen->box.x1 - x - NUMBER_MM);
  card_ink (pen, CARD_MUTED);
  TextStyle running = card_running_style (CARD_SMALL_MM, TEXT_REGULAR);
  double below = y + SHOT_LINE_MM - 0.5;
  below += text_wrapped (pen->text, words, running, x, below, pen->box.x1 - x, true);
  g_autofree char *chances = has_chances ? fitting_chances (card, pen->text, index, pen->box.x1 - x) : NULL;
  if (chances != NULL)
    text_wrapped (pen->text, chances, card_running_style (CHANCES_MM, TEXT_REGULAR), x, below, pen->box.x1 - x, true);
}

void
card_draw_plan (const Card *card, CardPen *pen)
{
  double y = pen->box.y0 + CARD_HEADING_MM, width_mm = pen->box.x1 - pen->box.x0;
  CardHeight height = card_measure_plan (card, width_mm);
  bool has_chances = pen->box.y1 - pen->box.y0 > height.most_mm - CHANCES_LINE_MM / 2 && height.most_mm > height.least_mm;
  card_heading (pen, card_word (card, N_ ("Plan")));
  card_heading_right (pen, card_word (card, N_ ("carries")), pen->box.x1);
  for (size_t i = 0; i < card->n_shots; i++)
    {
      draw_shot (card, pen, i, y, has_chances);
      y += shot_height (card, pen->text, i, width_mm) + (has_chances ? CHANCES_LINE_MM : 0);
    }
}

/* ---- notes ---- */

/* Room for a line of handwriting (common practice: 5 mm feint). */
#define NOTE_LINE_MM 5.0
#define NOTE_LINES_LEAST 1
#define NOTE_LINES_MOST 40

CardHeight
card_measure_notes (const Card *card, double width_mm)
{
  return (CardHeight){ CARD_HEADING_MM + NOTE_LINES_LEAST * NOTE_LINE_MM, CARD_HEADING_MM + NOTE_LINES_MOST * NOTE_LINE_MM };
}

void
card_draw_notes (const Card *card, CardPen *pen)
{
  card_heading (pen, card_word (card, N_ ("Notes")));
  card_ink (pen, CARD_MUTED);
  cairo_set_line_width (pen->cr, CARD_RULE_MM / 2);
  for (double y = pen->box.y0 + CARD_HEADING_MM + NOTE_LINE_MM; y <= pen->box.y1 + 1e-6; y += NOTE_LINE_MM)
    {
      cairo_move_to (pen->cr, pen->box.x0, y - 0.5);
      cairo_line_to (pen->cr, pen->box.x1, y - 0.5);
      cairo_stroke (pen->cr);
    }
}
