// SPDX-License-Identifier: GPL-3.0-or-later
/* "Plays 147, finish 4 past the hole": the number to play and the side to miss on, in words that can be translated. */
#include "plan-number.h"

#include <glib/gi18n.h>

#include <math.h>

static const char *
as_written (const char *text)
{
  return text;
}

static const char *
safe_side (Miss miss)
{
  static const char *const texts[N_MISSES] = { [MISS_SHORT] = N_ ("Short is the side to miss on"),
                                               [MISS_LONG] = N_ ("Long is the side to miss on"),
                                               [MISS_LEFT] = N_ ("Left is the side to miss on"),
                                               [MISS_RIGHT] = N_ ("Right is the side to miss on") };
  return texts[miss];
}

static const char *
dear_side (Miss miss)
{
  static const char *const texts[N_MISSES] = { [MISS_SHORT] = N_ ("short costs %.1f strokes more"),
                                               [MISS_LONG] = N_ ("long costs %.1f strokes more"),
                                               [MISS_LEFT] = N_ ("left costs %.1f strokes more"),
                                               [MISS_RIGHT] = N_ ("right costs %.1f strokes more") };
  return texts[miss];
}

/* "4 past the hole, 3 left of it". Free with g_free. */
static char *
finish_words (const Approach *approach, LengthUnit unit, Translate translate)
{
  char along[UNITS_TEXT_SIZE], across[UNITS_TEXT_SIZE];
  units_print_whole (fabs (approach->past_m), unit, along, sizeof along);
  units_print_whole (fabs (approach->right_m), unit, across, sizeof across);
  bool is_off_along = fabs (approach->past_m) >= NUMBER_AT_HOLE_M, is_off_across = fabs (approach->right_m) >= NUMBER_AT_HOLE_M;
  const char *past = translate (approach->past_m > 0 ? N_ ("finish %s past the hole") : N_ ("finish %s short of the hole"));
  const char *beside = translate (approach->right_m > 0 ? N_ ("%s right of it") : N_ ("%s left of it"));
  if (!is_off_along && !is_off_across)
    return g_strdup (translate (N_ ("finish at the hole")));
  if (!is_off_along)
    {
      const char *level
          = translate (approach->right_m > 0 ? N_ ("finish %s right of the hole") : N_ ("finish %s left of the hole"));
      return g_strdup_printf (level, across);
    }
  g_autofree char *first = g_strdup_printf (past, along);
  if (!is_off_across)
    return g_steal_pointer (&first);
  g_autofree char *second = g_strdup_printf (beside, across);
  return g_strdup_printf (translate (N_ ("%s, %s")), first, second);
}

char *
approach_words (const Approach *approach, LengthUnit unit, Translate translate)
{
  char plays[UNITS_TEXT_SIZE];
  if (translate == NULL)
    translate = as_written;
  units_print_whole (approach->plays_m, unit, plays, sizeof plays);
  g_autofree char *finish = finish_words (approach, unit, translate);
  g_autofree char *number = g_strdup_printf (translate (N_ ("Plays %s, %s.")), plays, finish);
  double saved = approach->misses[approach->dearest] - approach->misses[approach->safest];
  if (saved < NUMBER_SAME_STROKES)
    return g_strdup_printf ("%s %s", number, translate (N_ ("No side is better to miss on than another.")));
  g_autofree char *dear = g_strdup_printf (translate (dear_side (approach->dearest)), saved);
  return g_strdup_printf (translate (N_ ("%s %s: %s.")), number, translate (safe_side (approach->safest)), dear);
}
