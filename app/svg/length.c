// SPDX-License-Identifier: GPL-3.0-or-later
/* Lengths with units (SVG 1.1, section 7.10) in user units. */
#include "number-private.h"
#include "read-private.h"

#include <string.h>

typedef struct
{
  const char *suffix;
  double user_units;
  bool is_physical;
} LengthRow;

/* CSS 2.1, section 4.3.2: 1 in = 96 px = 2.54 cm = 72 pt = 6 pc, and a user unit is a px. */
static const LengthRow length_rows[] = {
  { "px", 1, false },        { "in", 96, true },        { "cm", 96 / 2.54, true },
  { "mm", 96 / 25.4, true }, { "pt", 96.0 / 72, true }, { "pc", 96.0 / 6, true },
};

static const LengthRow *
find_unit (const char *text)
{
  for (size_t i = 0; i < G_N_ELEMENTS (length_rows); i++)
    if (g_str_has_prefix (text, length_rows[i].suffix))
      return &length_rows[i];
  return NULL;
}

/* SVG 1.1, section 7.10: a percentage is of the view box's side, or of its diagonal over root 2. */
static double
percent_of (const Box *view_box, Axis axis)
{
  double width = view_box->x1 - view_box->x0, height = view_box->y1 - view_box->y0;
  return axis == AXIS_X ? width : axis == AXIS_Y ? height : sqrt ((width * width + height * height) / 2);
}

bool
length_read (const char *text, const Box *view_box, Axis axis, double *value, bool *is_physical)
{
  double number, unit = 1;
  bool physical = false;
  number_skip_space (&text);
  if (!number_scan (&text, &number))
    return false;
  const LengthRow *row = find_unit (text);
  if (row)
    {
      unit = row->user_units;
      physical = row->is_physical;
      text += strlen (row->suffix);
    }
  else if (*text == '%' && !box_is_empty (*view_box))
    {
      unit = percent_of (view_box, axis) / 100;
      text++;
    }
  number_skip_space (&text);
  if (*text != '\0')
    return false;
  *value = number * unit;
  if (is_physical)
    *is_physical = physical;
  return true;
}
