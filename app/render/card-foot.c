// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-foot - the foot of the card: scale bar, ratio and check line, the day, the words of caution.
 */
#include "card-private.h"

#include <string.h>

/* ---- scale bar and check line ---- */

#define SCALE_MM 6.2
#define CHECK_LINE_MM 50.0
/* The bar is the longest of these, in the units of the card, that stays under the limit. */
#define BAR_MOST_MM 26.0
static const double bar_lengths[] = { 200, 100, 50, 25, 20, 10, 5 };
#define TICK_MM 1.6

CardHeight
card_measure_scale (const Card *card, double width_mm)
{
  return (CardHeight){ SCALE_MM, SCALE_MM };
}

/* A line with a tick at each end, from x0 to x1 at y. */
static void
draw_measure (CardPen *pen, double x0, double x1, double y)
{
  card_ink (pen, PALETTE_INK);
  card_rule (pen, x0, y, x1, y);
  card_rule (pen, x0, y - TICK_MM / 2, x0, y + TICK_MM / 2);
  card_rule (pen, x1, y - TICK_MM / 2, x1, y + TICK_MM / 2);
}

static void
draw_scale_bar (const Card *card, CardPen *pen, double y)
{
  size_t i = 0;
  double mm_per_unit = 1000 * unit_to_metres (card->options.units, 1) / card->scale;
  while (i + 1 < G_N_ELEMENTS (bar_lengths) && bar_lengths[i] * mm_per_unit > BAR_MOST_MM)
    i++;
  double x1 = pen->box.x0 + bar_lengths[i] * mm_per_unit;
  draw_measure (pen, pen->box.x0, x1, y);
  card_rule (pen, (pen->box.x0 + x1) / 2, y, (pen->box.x0 + x1) / 2, y - TICK_MM / 2);
  g_autofree char *words = g_strdup_printf ("%.0f %s · 1:%d", bar_lengths[i], unit_suffix (card->options.units), card->scale);
  text_draw_middle (pen->text, words, card_running_style (CARD_TEXT_MM, TEXT_MEDIUM), x1 + 1.8, y, TEXT_LEFT);
}

void
card_draw_scale (const Card *card, CardPen *pen)
{
  double y = pen->box.y0 + 2;
  card_ink (pen, PALETTE_INK);
  card_rule (pen, pen->box.x0, pen->box.y0, pen->box.x1, pen->box.y0);
  if (card_has_block (card, "diagram"))
    draw_scale_bar (card, pen, y);
  draw_measure (pen, pen->box.x1 - CHECK_LINE_MM, pen->box.x1, y);
  card_ink (pen, CARD_MUTED);
  text_draw (pen->text, card_word (card, N_ ("50 mm check: print at 100 %")), card_running_style (CARD_SMALL_MM, TEXT_REGULAR),
             pen->box.x1 - CHECK_LINE_MM / 2, y + 3.3, TEXT_CENTRE);
}

/* ---- the day ---- */

#define DAY_MM 3.0
#define METRES_PER_MILE 1609.344
#define SECONDS_PER_HOUR 3600.0

/* The words for a wind from the eighth of the compass that a bearing lies in. */
static const char *
wind_format (double bearing_deg)
{
  static const char *const winds[]
      = { N_ ("wind %s %s from the north"),      N_ ("wind %s %s from the north-east"), N_ ("wind %s %s from the east"),
          N_ ("wind %s %s from the south-east"), N_ ("wind %s %s from the south"),      N_ ("wind %s %s from the south-west"),
          N_ ("wind %s %s from the west"),       N_ ("wind %s %s from the north-west") };
  double turned = fmod (fmod (bearing_deg, 360) + 360 + 22.5, 360);
  return winds[(size_t)(turned / 45)];
}

static void
append_wind (GString *words, const Card *card, const Day *day)
{
  bool is_yards = card->options.units == UNIT_YARDS;
  char number[32];
  if (!isfinite (day->wind_mps))
    return;
  units_print_decimals (is_yards ? day->wind_mps * SECONDS_PER_HOUR / METRES_PER_MILE : day->wind_mps, is_yards ? 0 : 1, number,
                        sizeof number);
  const char *format = isfinite (day->wind_from_deg) ? wind_format (day->wind_from_deg) : N_ ("wind %s %s");
  g_string_append_printf (words, card_word (card, format), number, is_yards ? "mph" : "m/s");
}

char *
card_day_words (const Card *card)
{
  GString *words = g_string_new (NULL);
  int plan = hole_plan (card->hole);
  char number[32];
  if (plan >= 0)
    {
      const Day *day = &hole_part (card->hole, (size_t)plan)->day;
      append_wind (words, card, day);
      if (isfinite (day->temperature_c))
        g_string_append_printf (words, "%s%s °C", words->len > 0 ? " · " : "",
                                units_print_decimals (day->temperature_c, 0, number, sizeof number));
      if (day->firmness != NULL)
        g_string_append_printf (words, "%s%s", words->len > 0 ? " · " : "", card_word (card, day->firmness));
    }
  if (words->len > 0 && card->n_shots > 0)
    g_string_append (words, card_word (card, N_ (" (carries are for this day)")));
  return g_string_free (words, FALSE);
}

CardHeight
card_measure_day (const Card *card, double width_mm)
{
  g_autofree char *words = card_day_words (card);
  double height = *words != '\0' ? DAY_MM : 0;
  return (CardHeight){ height, height };
}

void
card_draw_day (const Card *card, CardPen *pen)
{
  g_autofree char *words = card_day_words (card);
  card_ink (pen, PALETTE_INK);
  text_draw_fitted (pen->text, words, card_running_style (CARD_TEXT_MM, TEXT_REGULAR), pen->box.x0, pen->box.y0 + 2.1,
                    pen->box.x1 - pen->box.x0);
}

/* ---- caution ---- */

static const char *const caution
    = N_ ("Make sure no one is in reach before you play, and call “Fore”. Leave the course when lightning threatens. "
          "Never point a laser at people or the sun. Distances are as good as the readings behind them. "
          "The Committee’s Local Rules decide what may be used during a round.");

CardHeight
card_measure_caution (const Card *card, double width_mm)
{
  TextPen *text = text_pen_new (NULL);
  double height
      = text_wrapped (text, card_word (card, caution), card_running_style (CARD_LEAST_MM, TEXT_REGULAR), 0, 0, width_mm, false);
  text_pen_free (text);
  return (CardHeight){ height, height };
}

void
card_draw_caution (const Card *card, CardPen *pen)
{
  card_ink (pen, CARD_MUTED);
  text_wrapped (pen->text, card_word (card, caution), card_running_style (CARD_LEAST_MM, TEXT_REGULAR), pen->box.x0,
                pen->box.y0, pen->box.x1 - pen->box.x0, true);
}
