// SPDX-License-Identifier: GPL-3.0-or-later
/* The number to play and the side to miss on in a few words. */
#include "plan-number.h"

#include <glib/gi18n.h>

#include <math.h>

static const char *
as_written (const char *text)
{
  return text;
}

/* The sentence for balls that rest off the hole along the line and across it, by sign; both formats take the number to play first. */
static const char *
number_format (int past, int right)
{
  static const char *const formats[3][3] = {
    { N_ ("plays %s, %s short of the hole, %s left"), N_ ("plays %s, %s short of the hole"),
      N_ ("plays %s, %s short of the hole, %s right") },
    { N_ ("plays %s, %s left of the hole"), N_ ("plays %s, at the hole"), N_ ("plays %s, %s right of the hole") },
    { N_ ("plays %s, %s past the hole, %s left"), N_ ("plays %s, %s past the hole"),
      N_ ("plays %s, %s past the hole, %s right") },
  };
  return formats[past + 1][right + 1];
}

static int
side_of (double off_m)
{
  return off_m >= NUMBER_AT_HOLE_M ? 1 : off_m <= -NUMBER_AT_HOLE_M ? -1 : 0;
}

char *
approach_number_words (const Approach *approach, LengthUnit unit, Translate translate)
{
  char plays[UNITS_TEXT_SIZE], along[UNITS_TEXT_SIZE], across[UNITS_TEXT_SIZE];
  int past = side_of (approach->past_m), right = side_of (approach->right_m);
  const char *format = (translate != NULL ? translate : as_written) (number_format (past, right));
  units_print_whole (approach->plays_m, unit, plays, sizeof plays);
  units_print_whole (fabs (approach->past_m), unit, along, sizeof along);
  units_print_whole (fabs (approach->right_m), unit, across, sizeof across);
  return past != 0 ? g_strdup_printf (format, plays, along, across) : g_strdup_printf (format, plays, across);
}

const char *
approach_miss_words (const Approach *approach, Translate translate)
{
  static const char *const texts[N_MISSES] = { [MISS_SHORT] = N_ ("miss short"),
                                               [MISS_LONG] = N_ ("miss long"),
                                               [MISS_LEFT] = N_ ("miss left"),
                                               [MISS_RIGHT] = N_ ("miss right") };
  if (!(approach->misses[approach->dearest] - approach->misses[approach->safest] >= NUMBER_SAME_STROKES))
    return NULL;
  return (translate != NULL ? translate : as_written) (texts[approach->safest]);
}
