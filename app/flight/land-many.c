// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Many balls over level ground: flown side by side in the widest vectors that this machine has.
 */
#include "lanes-private.h"

#include <string.h>

static bool
fly (LanesQueue *queue)
{
#if defined __x86_64__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    return lanes_fly_avx512 (queue);
  if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    return lanes_fly_avx2 (queue);
#endif
  return lanes_fly (queue);
}

bool
flight_land_many (const FlightInput *inputs, size_t n_inputs, FlightPoint *landings, GError **error)
{
  if (n_inputs == 0)
    return true;
  g_autofree FlightPoint *found = g_new (FlightPoint, n_inputs);
  LanesQueue queue = { .inputs = inputs, .n_inputs = n_inputs, .landings = found, .error = error };
  if (!fly (&queue))
    return false;
  memcpy (landings, found, n_inputs * sizeof *found);
  return true;
}
