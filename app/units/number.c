// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Decimal numbers, read and printed with correct rounding and always with a point. What a double holds exactly is read right
 * here (Clinger, "How to read floating point numbers accurately", 1990); all else goes through the C library with the calling
 * thread in the "C" locale meanwhile.
 */
#define _POSIX_C_SOURCE 200809L

#include "number-private.h"

#include <assert.h>
#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

/* Whole numbers up to here are doubles, and so are the powers of ten up to 10^22: one operation on them rounds once. */
#define MOST_EXACT_MANTISSA (UINT64_C (1) << 53)
#define MOST_EXACT_POWER 22
/* Digits that fit 64 bits whatever they are. */
#define MOST_DIGITS 19
/* From here on fixed places would print digits that a double does not hold. */
#define LARGEST_FIXED 1e15

static const double powers_of_ten[MOST_EXACT_POWER + 1]
    = { 1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
        1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22 };

/* A number's text taken apart: sign, digits as one whole number (if they fit), and the power of ten behind them. */
typedef struct
{
  bool negative;
  bool fits; /* at most MOST_DIGITS digits, leading zeros not counted */
  uint64_t mantissa;
  long exponent;
} Scanned;

/* Enters the "C" locale on this thread; the "C" locale is built in, so this fails only without memory. */
static locale_t
enter_c_locale (locale_t *c_locale)
{
  *c_locale = newlocale (LC_ALL_MASK, "C", (locale_t)0);
  if (*c_locale == (locale_t)0)
    abort ();
  return uselocale (*c_locale);
}

static void
leave_c_locale (locale_t c_locale, locale_t before)
{
  uselocale (before);
  freelocale (c_locale);
}

static double
read_with_library (const char *text)
{
  locale_t c_locale, before = enter_c_locale (&c_locale);
  double value = strtod (text, NULL);
  leave_c_locale (c_locale, before);
  return value;
}

/* Digits at `text` into the mantissa; `*count` grows by the significant ones. Returns the text behind them. */
static const char *
scan_digits (const char *text, Scanned *scanned, int *count)
{
  for (; is_digit (*text); text++)
    {
      if (*count == 0 && *text == '0')
        continue;
      if (*count < MOST_DIGITS)
        scanned->mantissa = scanned->mantissa * 10 + (uint64_t)(*text - '0');
      else
        scanned->fits = false;
      if (*count < MOST_DIGITS + 1)
        ++*count;
    }
  return text;
}

/* An exponent at `text`, or `text` back when it is none. */
static const char *
scan_exponent (const char *text, Scanned *scanned)
{
  if (*text != 'e' && *text != 'E')
    return text;
  const char *p = text + 1;
  bool negative = *p == '-';
  if (*p == '-' || *p == '+')
    p++;
  if (!is_digit (*p))
    return text;
  long exponent = 0;
  for (; is_digit (*p); p++)
    if (exponent < 100000)
      exponent = exponent * 10 + (*p - '0');
  scanned->exponent += negative ? -exponent : exponent;
  return p;
}

size_t
units_scan_number (const char *text, double *value)
{
  Scanned scanned = { .fits = true };
  const char *p = text;
  scanned.negative = *p == '-';
  if (*p == '-' || *p == '+')
    p++;
  int count = 0;
  const char *whole = p;
  p = scan_digits (p, &scanned, &count);
  size_t n_digits = (size_t)(p - whole);
  if (*p == '.')
    {
      const char *fraction = p + 1;
      const char *end = scan_digits (fraction, &scanned, &count);
      n_digits += (size_t)(end - fraction);
      if (end - fraction > MOST_DIGITS)
        scanned.fits = false;
      scanned.exponent -= scanned.fits ? end - fraction : 0;
      p = end;
    }
  if (n_digits == 0)
    return 0;
  p = scan_exponent (p, &scanned);
  double number;
  if (scanned.fits && scanned.mantissa <= MOST_EXACT_MANTISSA && labs (scanned.exponent) <= MOST_EXACT_POWER)
    {
      double mantissa = (double)scanned.mantissa, power = powers_of_ten[labs (scanned.exponent)];
      number = scanned.exponent < 0 ? mantissa / power : mantissa * power;
      number = scanned.negative ? -number : number;
    }
  else
    number = read_with_library (text);
  if (!isfinite (number))
    return 0;
  *value = number;
  return (size_t)(p - text);
}

bool
units_parse_number (const char *text, double *value)
{
  const char *start = skip_blanks (text);
  double number;
  size_t used = units_scan_number (start, &number);
  if (used == 0 || *skip_blanks (start + used) != '\0')
    return false;
  *value = number;
  return true;
}

/* Digits enough for any double of ordinary size: what 15 digits say survives, so those that 15 cannot tell need 16 or 17. */
static int
least_digits (double value)
{
  return fabs (value) >= DBL_MIN ? DBL_DIG : 1;
}

char *
units_print_full (double value, char *buffer, size_t size)
{
  assert (size >= UNITS_TEXT_SIZE);
  if (!isfinite (value))
    {
      buffer[0] = '\0';
      return buffer;
    }
  if (value == 0)
    value = 0; /* no "-0" */
  locale_t c_locale, before = enter_c_locale (&c_locale);
  for (int digits = least_digits (value); digits <= DBL_DECIMAL_DIG; digits++)
    {
      snprintf (buffer, size, "%.*g", digits, value);
      if (strtod (buffer, NULL) == value)
        break;
    }
  leave_c_locale (c_locale, before);
  return buffer;
}

/* Trailing zeros behind the point, and a point that ends the text, go; so does the sign of a zero. */
static void
trim_decimals (char *text)
{
  char *point = text;
  while (*point != '\0' && *point != '.')
    point++;
  if (*point == '.')
    {
      char *end = point;
      while (*end != '\0')
        end++;
      while (end[-1] == '0')
        end--;
      if (end[-1] == '.')
        end--;
      *end = '\0';
    }
  if (text[0] == '-' && text[1] == '0' && text[2] == '\0')
    {
      text[0] = '0';
      text[1] = '\0';
    }
}

char *
units_print_decimals (double value, int decimals, char *buffer, size_t size)
{
  assert (decimals >= 0 && decimals <= 9);
  if (!(fabs (value) < LARGEST_FIXED))
    return units_print_full (value, buffer, size);
  assert (size >= UNITS_TEXT_SIZE);
  locale_t c_locale, before = enter_c_locale (&c_locale);
  snprintf (buffer, size, "%.*f", decimals, value);
  leave_c_locale (c_locale, before);
  trim_decimals (buffer);
  return buffer;
}
