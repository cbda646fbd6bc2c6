// SPDX-License-Identifier: GPL-3.0-or-later
/* The day a plan is made for: wind, air, ground; each number may be missing. */
#include "hole.h"

/* The numbers of a day. */
static const size_t numbers[]
    = { offsetof (Day, wind_mps),    offsetof (Day, wind_from_deg), offsetof (Day, temperature_c), offsetof (Day, altitude_m),
        offsetof (Day, pressure_pa), offsetof (Day, humidity),      offsetof (Day, green_speed_ft) };

static double
number_of (const Day *day, size_t i)
{
  return *(const double *)(const void *)((const char *)day + numbers[i]);
}

void
day_init (Day *day)
{
  *day = (Day){ NAN, NAN, NAN, NAN, NAN, NAN, NAN, NULL };
}

void
day_clear (Day *day)
{
  g_clear_pointer (&day->firmness, g_free);
}

void
day_copy (const Day *from, Day *to)
{
  *to = *from;
  to->firmness = g_strdup (from->firmness);
}

bool
day_equal (const Day *a, const Day *b)
{
  for (size_t i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      double x = number_of (a, i), y = number_of (b, i);
      if (x != y && !(isnan (x) && isnan (y)))
        return false;
    }
  return g_strcmp0 (a->firmness, b->firmness) == 0;
}

bool
day_is_given (const Day *day)
{
  bool is_given = day->firmness != NULL;
  for (size_t i = 0; i < G_N_ELEMENTS (numbers); i++)
    is_given = is_given || !isnan (number_of (day, i));
  return is_given;
}
