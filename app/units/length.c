// SPDX-License-Identifier: GPL-3.0-or-later
/* Lengths and ranges of lengths as golfers type and read them. */
#include "number-private.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define INCHES_PER_FOOT 12
/* A half typed in yards may come back from metres a hair below a half: this much, in the printed unit, still rounds up. */
#define HALF_SLACK 1e-9

/* Sign between the two ends of a range, besides the hyphen: U+2013 in UTF-8. */
#define EN_DASH "\xe2\x80\x93"
/* Minus in a sum, besides the hyphen: U+2212 in UTF-8. */
#define MINUS "\xe2\x88\x92"

static const UnitWord unit_words[] = {
  { "yards", METRES_PER_YARD },
  { "yard", METRES_PER_YARD },
  { "yds", METRES_PER_YARD },
  { "yd", METRES_PER_YARD },
  { "metres", 1 },
  { "metre", 1 },
  { "meters", 1 },
  { "meter", 1 },
  { "m", 1 },
  { "feet", METRES_PER_FOOT },
  { "foot", METRES_PER_FOOT },
  { "ft", METRES_PER_FOOT },
  { "'", METRES_PER_FOOT },
  { "\xe2\x80\xb2", METRES_PER_FOOT }, /* U+2032, prime */
  { "inches", METRES_PER_INCH },
  { "inch", METRES_PER_INCH },
  { "in", METRES_PER_INCH },
  { "\"", METRES_PER_INCH },
  { "\xe2\x80\xb3", METRES_PER_INCH }, /* U+2033, double prime */
  { NULL, 0 },
};

static bool
is_letter (char c)
{
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

const UnitWord *
match_unit_word (const UnitWord *table, const char *text, const char **rest)
{
  for (const UnitWord *row = table; row->word != NULL; row++)
    {
      size_t i = 0;
      while (row->word[i] != '\0' && (text[i] == row->word[i] || (is_letter (text[i]) && (text[i] | 0x20) == row->word[i])))
        i++;
      if (row->word[i] == '\0' && !(is_letter (row->word[0]) && is_letter (text[i])))
        {
          *rest = text + i;
          return row;
        }
    }
  return NULL;
}

/* Inches behind feet: "3", "3 in", "3\"". Returns the text behind them, or `text` back when there are none. */
static const char *
scan_inches (const char *text, double *inches)
{
  const char *start = skip_blanks (text);
  double number;
  size_t used = is_digit (*start) || *start == '.' ? units_scan_number (start, &number) : 0;
  if (used == 0 || number >= INCHES_PER_FOOT)
    return text;
  const char *rest = start + used;
  const UnitWord *word = match_unit_word (unit_words, skip_blanks (rest), &rest);
  if (word != NULL && word->factor != METRES_PER_INCH)
    return text;
  *inches = number;
  return rest;
}

/* One length at `text` after spaces: `*factor` is metres per what was typed, 0 when no unit was. NULL when there is none. */
static const char *
scan_length (const char *text, double *value, double *factor)
{
  text = skip_blanks (text);
  size_t used = units_scan_number (text, value);
  if (used == 0)
    return NULL;
  bool negative = text[0] == '-';
  text += used;
  const UnitWord *word = match_unit_word (unit_words, skip_blanks (text), &text);
  *factor = word != NULL ? word->factor : 0;
  if (*factor == METRES_PER_FOOT)
    {
      double inches = 0;
      text = scan_inches (text, &inches);
      *value += (negative ? -inches : inches) / INCHES_PER_FOOT;
    }
  return text;
}

const char *
unit_suffix (LengthUnit unit)
{
  return unit == UNIT_YARDS ? "yd" : "m";
}

bool
unit_parse (const char *text, LengthUnit *unit)
{
  if (strcmp (text, "yards") == 0)
    *unit = UNIT_YARDS;
  else if (strcmp (text, "metres") == 0)
    *unit = UNIT_METRES;
  else
    return false;
  return true;
}

double
unit_from_metres (LengthUnit unit, double length_m)
{
  return unit == UNIT_YARDS ? length_m / METRES_PER_YARD : length_m;
}

double
unit_to_metres (LengthUnit unit, double value)
{
  return unit == UNIT_YARDS ? value * METRES_PER_YARD : value;
}

const char *
unit_height_suffix (LengthUnit unit)
{
  return unit == UNIT_YARDS ? "ft" : "m";
}

/* Metres that one of the unit of heights is. */
static double
height_unit_m (LengthUnit unit)
{
  return unit == UNIT_YARDS ? METRES_PER_FOOT : 1;
}

double
unit_height_from_metres (LengthUnit unit, double height_m)
{
  return height_m / height_unit_m (unit);
}

bool
units_parse_length (const char *text, LengthUnit unit, double *length_m)
{
  double value, factor;
  const char *rest = scan_length (text, &value, &factor);
  if (rest == NULL || *skip_blanks (rest) != '\0')
    return false;
  *length_m = value * (factor > 0 ? factor : unit_to_metres (unit, 1));
  return true;
}

bool
units_parse_range (const char *text, LengthUnit unit, double *low_m, double *high_m)
{
  double a, b, a_factor, b_factor;
  const char *rest = scan_length (text, &a, &a_factor);
  if (rest == NULL)
    return false;
  rest = skip_blanks (rest);
  if (*rest == '\0')
    {
      *low_m = *high_m = a * (a_factor > 0 ? a_factor : unit_to_metres (unit, 1));
      return true;
    }
  size_t dash = *rest == '-' ? 1 : strncmp (rest, EN_DASH, strlen (EN_DASH)) == 0 ? strlen (EN_DASH) : 0;
  if (dash == 0)
    return false;
  rest = skip_blanks (rest + dash);
  if (!is_digit (*rest) && *rest != '.')
    return false;
  rest = scan_length (rest, &b, &b_factor);
  if (rest == NULL || *skip_blanks (rest) != '\0')
    return false;
  b *= b_factor > 0 ? b_factor : unit_to_metres (unit, 1);
  a *= a_factor > 0 ? a_factor : b_factor > 0 ? b_factor : unit_to_metres (unit, 1);
  *low_m = fmin (a, b);
  *high_m = fmax (a, b);
  return true;
}

/* Behind the sign between two terms of a sum: 1 or -1 in `*sign`. NULL when neither plus nor minus stands there. */
static const char *
scan_operator (const char *text, double *sign)
{
  *sign = *text == '+' ? 1 : -1;
  if (*text == '+' || *text == '-')
    return text + 1;
  return strncmp (text, MINUS, strlen (MINUS)) == 0 ? text + strlen (MINUS) : NULL;
}

/* The sum of the terms; those that no unit follows are of `bare_m` metres each. */
static bool
parse_sum (const char *text, double bare_m, double *length_m)
{
  double sum_m = 0, sign = 1;
  double waiting = 0; /* terms whose unit has not been read yet */
  for (bool is_first = true;; is_first = false)
    {
      double value, factor;
      text = skip_blanks (text);
      if (!is_first && !is_digit (*text) && *text != '.')
        return false;
      text = scan_length (text, &value, &factor);
      if (text == NULL)
        return false;
      waiting += sign * value;
      if (factor > 0)
        {
          sum_m += waiting * factor;
          waiting = 0;
        }
      text = skip_blanks (text);
      if (*text == '\0')
        break;
      text = scan_operator (text, &sign);
      if (text == NULL)
        return false;
    }
  sum_m += waiting * bare_m;
  if (!isfinite (sum_m))
    return false;
  *length_m = sum_m;
  return true;
}

bool
units_parse_sum (const char *text, LengthUnit unit, double *length_m)
{
  return parse_sum (text, unit_to_metres (unit, 1), length_m);
}

bool
units_parse_height (const char *text, LengthUnit unit, double *height_m)
{
  return parse_sum (text, height_unit_m (unit), height_m);
}

/* Half away from zero, forgiving what conversion took off a half. */
static double
round_to_whole (double value)
{
  return round (value + copysign (HALF_SLACK, value));
}

char *
units_print_whole (double length_m, LengthUnit unit, char *buffer, size_t size)
{
  return units_print_decimals (round_to_whole (unit_from_metres (unit, length_m)), 0, buffer, size);
}

char *
units_print_length (double length_m, LengthUnit unit, char *buffer, size_t size)
{
  units_print_whole (length_m, unit, buffer, size);
  size_t used = strlen (buffer);
  if (used > 0)
    snprintf (buffer + used, size - used, " %s", unit_suffix (unit));
  return buffer;
}

char *
units_print_feet (double length_m, char *buffer, size_t size)
{
  double inches = round_to_whole (fabs (length_m) / METRES_PER_INCH);
  double feet = floor (inches / INCHES_PER_FOOT);
  inches -= feet * INCHES_PER_FOOT;
  bool nothing = feet == 0 && inches == 0;
  units_print_decimals (length_m < 0 && !nothing ? -feet : feet, 0, buffer, size);
  size_t used = strlen (buffer);
  if (feet == 0 && inches > 0)
    snprintf (buffer, size, "%s%d in", length_m < 0 ? "-" : "", (int)inches);
  else if (used > 0 && inches > 0)
    snprintf (buffer + used, size - used, " ft %d", (int)inches);
  else if (used > 0)
    snprintf (buffer + used, size - used, " ft");
  return buffer;
}
