// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-columns - the table of columns, and what a bag's figures read like in it. */
#include "bag-columns.h"

#include "sentence.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

/* A text with more decimals than this is rounded for reading; the file keeps them. */
#define MOST_DECIMALS 2
#define LENGTH_DECIMALS 1

const HwBagColumn hw_bag_columns[] = {
  { BAG_COLUMN_CLUB, HW_BAG_ALWAYS, N_ ("Club"), N_ ("Name of the club"), N_ ("name"), N_ ("Name of %s"), 11 },
  { BAG_COLUMN_CARRY, HW_BAG_ALWAYS, N_ ("Carry"),
    N_ ("Mean carry in still air, or the range that holds two of three shots: 185-195"), N_ ("carry"), N_ ("Carry of %s"), 7 },
  { BAG_COLUMN_CARRY_SD, HW_BAG_SPREAD, N_ ("± long"), N_ ("Standard deviation of the carry; empty: as the level says"),
    N_ ("spread along the line"), N_ ("Spread along the line of %s"), 4 },
  { BAG_COLUMN_SIDE_SD, HW_BAG_SPREAD, N_ ("± side"), N_ ("Standard deviation across the line; empty: as the level says"),
    N_ ("spread across the line"), N_ ("Spread across the line of %s"), 4 },
  { BAG_COLUMN_SIDE_BIAS, HW_BAG_SPREAD, N_ ("Bias"), N_ ("Mean miss to the right of the line; a minus is left"), N_ ("bias"),
    N_ ("Bias to the right of %s"), 4 },
  { BAG_COLUMN_LOFT, HW_BAG_FLIGHT, N_ ("Loft"), N_ ("Loft in degrees"), N_ ("loft"), N_ ("Loft of %s"), 4 },
  { BAG_COLUMN_APEX, HW_BAG_FLIGHT, N_ ("Apex"), N_ ("Height of the ball at its highest; it wins over the loft"), N_ ("apex"),
    N_ ("Apex of %s"), 4 },
  { BAG_COLUMN_CURVE, HW_BAG_FLIGHT, N_ ("Curve"), N_ ("Usual curve to the right at full carry; a minus is left"), N_ ("curve"),
    N_ ("Curve to the right of %s"), 4 },
  { BAG_COLUMN_SURFACES, HW_BAG_FLIGHT, N_ ("Tee"), N_ ("Played off the tee only"), N_ ("tee only"),
    N_ ("%s is played off the tee only"), 0 },
  { BAG_COLUMN_MISHIT, HW_BAG_STRIKE, N_ ("Poor %"), N_ ("Share of poor strikes, per cent"), N_ ("poor strikes"),
    N_ ("Poor strikes with %s, per cent"), 4 },
  { BAG_COLUMN_MISHIT_CARRY, HW_BAG_STRIKE, N_ ("carry %"), N_ ("What poor strikes carry, per cent of the full carry"),
    N_ ("carry of poor strikes"), N_ ("Carry of poor strikes with %s, per cent"), 4 },
  { BAG_COLUMN_CORRELATION, HW_BAG_STRIKE, N_ ("Corr."), N_ ("Correlation, -1 to 1: above 0, long shots go right"),
    N_ ("correlation"), N_ ("Correlation of %s"), 4 },
};

static char *
number_text (double number, int decimals)
{
  char text[UNITS_TEXT_SIZE];
  return g_strdup (units_print_decimals (number, decimals, text, sizeof text));
}

char *
hw_bag_cell_text (const Bag *bag, size_t i, const HwBagColumn *column, LengthUnit unit)
{
  double number;
  g_autofree char *text = bag_cell (bag, i, column->column, unit);
  const char *point = strchr (text, '.');
  if (column->column != BAG_COLUMN_CLUB && point != NULL && strlen (point + 1) > MOST_DECIMALS
      && units_parse_number (text, &number))
    return number_text (number, column->column == BAG_COLUMN_CORRELATION ? MOST_DECIMALS : LENGTH_DECIMALS);
  return g_steal_pointer (&text);
}

char *
hw_bag_cell_hint (const Bag *bag, size_t i, const HwBagColumn *column, LengthUnit unit)
{
  const Club *club = bag_club (bag, i);
  if (column->column == BAG_COLUMN_SIDE_SD && club->side_sd_from_level)
    return number_text (unit_from_metres (unit, club->side_sd_m), LENGTH_DECIMALS);
  if (column->column == BAG_COLUMN_CARRY_SD)
    {
      /* From the level, or from the range that stands as the carry. */
      g_autofree char *written = bag_cell (bag, i, BAG_COLUMN_CARRY_SD, unit);
      return written[0] == '\0' ? number_text (unit_from_metres (unit, club->carry_sd_m), LENGTH_DECIMALS) : NULL;
    }
  bool is_nothing
      = column->column == BAG_COLUMN_SIDE_BIAS || column->column == BAG_COLUMN_CURVE || column->column == BAG_COLUMN_MISHIT;
  return is_nothing ? g_strdup ("0") : NULL;
}

char *
hw_bag_refusal (const HwBagColumn *column, const char *message)
{
  /* "bag.csv:7: carry_yd is "far"; write ...": the file and its line are of no use where the cell is. */
  g_autoptr (GRegex) place = g_regex_new ("^.*?:\\d+: ", G_REGEX_DOTALL, 0, NULL);
  g_autofree char *bare = g_regex_replace_literal (place, message, -1, 0, "", 0, NULL);
  const char *is = strstr (bare, " is \"");
  if (is == NULL || is != strchr (bare, ' '))
    return hw_sentence (bare);
  g_autofree char *named = g_strconcat (_ (column->word), is, NULL);
  return hw_sentence (named);
}

char *
hw_bag_figure_words (double value, double se, double scale, int decimals)
{
  if (!isfinite (value))
    return g_strdup ("–");
  g_autofree char *figure = number_text (value * scale, decimals);
  if (!isfinite (se))
    return g_steal_pointer (&figure);
  g_autofree char *error = number_text (se * scale, decimals);
  return g_strdup_printf ("%s\u00a0±\u00a0%s", figure, error);
}

/* Words that grow by one figure after another. */
typedef struct
{
  GString *words;
  bool is_brief;
} Telling;

static void
tell_figure (Telling *telling, const char *format, double value, double se, double scale, int decimals)
{
  if (!isfinite (value) || !isfinite (se))
    return;
  g_autofree char *error = number_text (se * scale, decimals);
  g_autofree char *figure
      = telling->is_brief ? g_strdup_printf ("±\u00a0%s", error) : hw_bag_figure_words (value, se, scale, decimals);
  g_string_append (telling->words, " · ");
  g_string_append_printf (telling->words, format, figure);
}

char *
hw_bag_errors_words (const Club *club, LengthUnit unit, bool is_brief)
{
  const ClubErrors *errors = &club->errors;
  double per_m = unit_from_metres (unit, 1);
  if (errors->n_shots == 0)
    return NULL;
  Telling telling = { g_string_new (NULL), is_brief };
  g_string_append_printf (telling.words, g_dngettext (NULL, "%zu shot", "%zu shots", errors->n_shots), errors->n_shots);
  tell_figure (&telling, _ ("carry %s"), club->carry_m, errors->carry_m, per_m, LENGTH_DECIMALS);
  tell_figure (&telling, _ ("long %s"), club->carry_sd_m, errors->carry_sd_m, per_m, LENGTH_DECIMALS);
  tell_figure (&telling, _ ("side %s"), club->side_sd_m, errors->side_sd_m, per_m, LENGTH_DECIMALS);
  tell_figure (&telling, _ ("bias %s"), club->side_bias_m, errors->side_bias_m, per_m, LENGTH_DECIMALS);
  tell_figure (&telling, _ ("poor %s %%"), club->mishit_chance, errors->mishit_chance, 100, 0);
  tell_figure (&telling, _ ("their carry %s %%"), club->mishit_carry_share, errors->mishit_carry_share, 100, 0);
  tell_figure (&telling, _ ("corr. %s"), club->correlation, errors->correlation, 1, MOST_DECIMALS);
  return g_string_free (telling.words, FALSE);
}

char *
hw_bag_range_words (const Club *club, LengthUnit unit)
{
  double low_m, high_m;
  char low[UNITS_TEXT_SIZE], high[UNITS_TEXT_SIZE];
  club_two_of_three (club, &low_m, &high_m);
  units_print_whole (low_m, unit, low, sizeof low);
  units_print_whole (high_m, unit, high, sizeof high);
  return club->carry_sd_from_level ? g_strdup_printf (_ ("%s–%s · level"), low, high)
                                   : g_strdup_printf (_ ("%s–%s"), low, high);
}

char *
hw_bag_gap_words (const Bag *bag, size_t i, LengthUnit unit)
{
  BagGap gap;
  char length[UNITS_TEXT_SIZE];
  if (!bag_gap (bag, i, &gap) || gap.kind == GAP_EVEN)
    return NULL;
  units_print_decimals (unit_from_metres (unit, gap.gap_m), LENGTH_DECIMALS, length, sizeof length);
  return g_strdup_printf (gap.kind == GAP_WIDE ? _ ("wide gap: %s %s") : _ ("narrow gap: %s %s"), length, unit_suffix (unit));
}

const char *
hw_bag_level_words (Level level)
{
  static const char *const words[N_LEVELS] = { [LEVEL_SCRATCH_MEN] = N_ ("scratch men"),
                                               [LEVEL_SCRATCH_WOMEN] = N_ ("scratch women"),
                                               [LEVEL_BOGEY_MEN] = N_ ("bogey men"),
                                               [LEVEL_BOGEY_WOMEN] = N_ ("bogey women") };
  return _ (words[level]);
}
