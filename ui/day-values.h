// SPDX-License-Identifier: GPL-3.0-or-later
/* day-values - what the golfer types and reads of a day: wind, air, ground. */
#ifndef HW_DAY_VALUES_H
#define HW_DAY_VALUES_H

#include "hole.h"
#include "units.h"

typedef enum
{
  HW_DAY_WIND,
  HW_DAY_FROM,
  HW_DAY_TEMPERATURE,
  HW_DAY_ALTITUDE,
  HW_DAY_GREENS,
  HW_N_DAY_VALUES
} HwDayValue;

/* Bytes that hold any value as text. */
#define HW_DAY_TEXT_SIZE 64

/* What stands beside its entry; what a screen reader calls it; what an empty entry means. */
const char *hw_day_value_caption (HwDayValue value);
const char *hw_day_value_name (HwDayValue value);
const char *hw_day_value_hint (HwDayValue value);
/* Empty for what is not given. */
void hw_day_value_print (const Day *day, HwDayValue value, LengthUnit units, char *text, size_t size);
/* Sets what was typed, nothing for an empty text; a wind that had no bearing comes from `from_deg`. False with a sentence in `error`. */
bool hw_day_value_set (Day *day, HwDayValue value, LengthUnit units, double from_deg, const char *text, GError **error);

/* One unit of a wind's strength as it is read: a mile an hour beside yards, half a metre a second beside metres. */
double hw_wind_step_mps (LengthUnit units);
/* "calm", "12 mph from the west". Free with g_free. */
char *hw_wind_words (const Day *day, LengthUnit units);

#endif
