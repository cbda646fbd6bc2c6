// SPDX-License-Identifier: GPL-3.0-or-later
/* thing-values - what is exact about one thing: its name, where it stands, how large it is; as text and as what was typed. */
#ifndef HW_THING_VALUES_H
#define HW_THING_VALUES_H

#include "edit.h"
#include "units.h"

typedef enum
{
  HW_VALUE_NAME,
  HW_VALUE_ALONG,
  HW_VALUE_RIGHT,
  HW_VALUE_WIDTH,
  HW_VALUE_HEIGHT,
  HW_VALUE_ANGLE,
  HW_N_VALUES
} HwThingValue;

/* Bytes that hold any value as text. */
#define HW_VALUE_TEXT_SIZE 256

/* What stands beside its entry, and what the entry is called. Of the name of a thing: "Words" of a note, "Colour" of a tee marker. */
const char *hw_thing_value_caption (HwThingValue value, Kind kind);
const char *hw_thing_value_name (HwThingValue value);
/* False when the part has no such value. */
bool hw_thing_value_print (const Hole *hole, size_t part, HwThingValue value, LengthUnit units, char *text, size_t size);
/* The hole with the part as was typed, and in `*step` what to call that, with one %s. NULL with a sentence in `error`. */
Hole *hw_thing_value_set (const Hole *hole, size_t part, HwThingValue value, LengthUnit units, const char *text,
                          const char **step, GError **error);

#endif
