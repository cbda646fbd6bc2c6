// SPDX-License-Identifier: GPL-3.0-or-later
/* SVG's numbers, on top of the program's one reader of decimal numbers. */
#include "number-private.h"
#include "units.h"

#include <math.h>

bool
number_is_space (char c)
{
  return c == ' ' || c == '\n' || c == '\t' || c == '\r';
}

void
number_skip_space (const char **cursor)
{
  while (number_is_space (**cursor))
    ++*cursor;
}

void
number_skip_comma (const char **cursor)
{
  number_skip_space (cursor);
  if (**cursor == ',')
    {
      ++*cursor;
      number_skip_space (cursor);
    }
}

bool
number_scan (const char **cursor, double *value)
{
  double read;
  size_t used = units_scan_number (*cursor, &read);
  if (used == 0 || !(fabs (read) <= NUMBER_LARGEST))
    return false;
  *value = read;
  *cursor += used;
  return true;
}

bool
number_read (const char *text, double *value)
{
  double read;
  number_skip_space (&text);
  if (!number_scan (&text, &read))
    return false;
  number_skip_space (&text);
  if (*text != '\0')
    return false;
  *value = read;
  return true;
}
