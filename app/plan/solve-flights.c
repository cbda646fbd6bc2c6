// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a bag's swings do on a day, with their aims: found once and shared by all solutions for that bag, day and table of lies.
 */
#include "solve-private.h"

#include <math.h>
#include <string.h>

static Flights *
flights_ref (Flights *flights)
{
  g_atomic_int_inc (&flights->ref_count);
  return flights;
}

void
flights_unref (Flights *flights)
{
  if (flights == NULL || !g_atomic_int_dec_and_test (&flights->ref_count))
    return;
  for (size_t i = 0; flights->aims != NULL && i < flights->fleet->n_swings * N_LIES; i++)
    swing_aims_free (flights->aims[i]);
  g_free (flights->aims);
  fleet_free (flights->fleet);
  g_free (flights);
}

static bool
serves (const PlanSolution *near, const PlanSolution *solution, const bool is_needed[N_LIES])
{
  for (int lie = 0; lie < N_LIES; lie++)
    if (is_needed[lie] && !near->flights->is_needed[lie])
      return false;
  return near->bag == solution->bag && conditions_equal (&near->conditions, &solution->conditions)
         && memcmp (&near->lies, &solution->lies, sizeof near->lies) == 0;
}

Flights *
flights_for (const PlanSolution *solution, const PlanSolution *near, const bool is_needed[N_LIES], const gint *cancel)
{
  if (near != NULL && serves (near, solution, is_needed))
    return flights_ref (near->flights);
  Flights *flights = g_new0 (Flights, 1);
  flights->ref_count = 1;
  memcpy (flights->is_needed, is_needed, sizeof flights->is_needed);
  flights->least_reach_m = INFINITY;
  flights->fleet = fleet_new (solution->bag, &solution->lies, &solution->conditions, is_needed, solution->n_threads, cancel);
  run_swings_find (&solution->conditions, &flights->runs);
  size_t n = flights->fleet->n_swings * N_LIES;
  flights->aims = g_new0 (SwingAims *, n);
  Vec2 units[N_AIMS];
  for (int aim = 0; aim < N_AIMS; aim++)
    units[aim] = solve_aim_unit (aim);
  for (size_t i = 0; i < n; i++)
    {
      Lie lie = (Lie)(i % N_LIES);
      if (solve_is_cancelled (cancel))
        {
          flights_unref (flights);
          return NULL;
        }
      if (!is_needed[lie] && lie != LIE_TEE)
        continue;
      SwingAims *aims = swing_aims_new (flights->fleet, i / N_LIES, lie, units);
      flights->aims[i] = aims;
      flights->n_played += aims != NULL;
      if (aims != NULL)
        flights->most_reach_m = fmax (flights->most_reach_m, aims->far_m + aims->run_m);
      if (aims != NULL && lie == LIE_FAIRWAY)
        flights->least_reach_m = fmin (flights->least_reach_m, aims->reach_m);
    }
  return flights;
}
