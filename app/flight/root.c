// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The root of a rising function that is dear to ask: secants from a good guess, kept within a bracket that is halved when they do not help.
 */
#include "flight-private.h"

#include <math.h>

/* The second place asked, as a share of the guess. */
#define SECOND_SHARE 0.03
/* A bracket this small beside its place is a jump of the function. */
#define JUMP_SHARE 1e-10
#define MOST_QUESTIONS 120
/* Furthest to go at once where nobody has asked yet, as a share of where the last question was. */
#define LONGEST_RISE 1.2
#define LONGEST_FALL 0.5

typedef struct
{
  RootFunction function;
  void *data;
  double low, high;             /* the root is between them */
  double low_value, high_value; /* NAN: not asked yet */
} Bracket;

static double
ask (Bracket *bracket, double x)
{
  double value = bracket->function (bracket->data, x);
  if (value < 0)
    bracket->low = x, bracket->low_value = value;
  else if (value >= 0)
    bracket->high = x, bracket->high_value = value;
  return value;
}

/* The line through the last two answers. While one end has never been asked, steps towards it are kept small, so that a value that rises and falls again
   is not leapt over; between two answers half the bracket is taken when the line leads out of it or has stopped helping. */
static double
next_place (const Bracket *bracket, double x, double value, double last_x, double last_value, bool is_stuck)
{
  double secant = x - value * (x - last_x) / (value - last_value);
  if (isnan (bracket->high_value))
    return fmin (bracket->high, secant > x && secant < x * LONGEST_RISE ? secant : x * LONGEST_RISE);
  if (isnan (bracket->low_value))
    return fmax (bracket->low, secant < x && secant > x * LONGEST_FALL ? secant : x * LONGEST_FALL);
  if (!is_stuck && secant > bracket->low && secant < bracket->high)
    return secant;
  return sqrt (bracket->low) * sqrt (bracket->high);
}

/* The second place asked: where the line through a known value leads, else a little towards the root. */
static double
second_place (double last, double last_value, double known, double value)
{
  double step = -last_value * (last - known) / (last_value - value), longest = SECOND_SHARE * last;
  bool helps = step * last_value < 0 && fabs (step) < longest;
  return last + (helps ? step : last_value < 0 ? longest : -longest);
}

bool
root_find (RootFunction function, void *data, double low, double high, double tolerance, double *x)
{
  return root_find_beside (function, data, low, high, tolerance, NAN, NAN, x);
}

bool
root_find_beside (RootFunction function, void *data, double low, double high, double tolerance, double known,
                  double known_value, double *x)
{
  Bracket bracket = { function, data, low, high, NAN, NAN };
  double last = fmin (fmax (*x, low), high), last_value = ask (&bracket, last);
  if (fabs (last_value) <= tolerance)
    {
      *x = last;
      return true;
    }
  double at = fmin (fmax (second_place (last, last_value, known, known_value), low), high);
  for (int i = 0; i < MOST_QUESTIONS; i++)
    {
      double value = ask (&bracket, at);
      if (isnan (value) || isnan (last_value) || (at >= high && value < -tolerance) || (at <= low && value > tolerance))
        return false;
      if (fabs (value) <= tolerance || bracket.high - bracket.low <= JUMP_SHARE * bracket.high)
        {
          *x = fabs (value) <= tolerance ? at : bracket.high;
          return true;
        }
      double next = next_place (&bracket, at, value, last, last_value, i % 4 == 3);
      last = at, last_value = value;
      at = next;
    }
  return false;
}
