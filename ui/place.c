// SPDX-License-Identifier: GPL-3.0-or-later
/* place - by sched_setaffinity(2) of the one thread, among the processors that the calling thread may have. */
#define _GNU_SOURCE
#include "place.h"

#include <sched.h>
#include <unistd.h>

void
hw_place_take (HwPlace *place)
{
  g_atomic_int_set (&place->thread, gettid ());
}

void
hw_place_let_go (HwPlace *place)
{
  cpu_set_t may_have;
  if (place->kept_off == 0 || sched_getaffinity (0, sizeof may_have, &may_have) != 0)
    return;
  place->kept_off = 0;
  sched_setaffinity (place->thread, sizeof may_have, &may_have);
}

/* Where the system refuses, or has more processors than fit in a set, the thread stays where it is put. */
void
hw_place_keep_off (HwPlace *place)
{
  int here = sched_getcpu (), thread = g_atomic_int_get (&place->thread);
  cpu_set_t may_have;
  if (thread == 0 || here < 0 || place->kept_off == here + 1 || sched_getaffinity (0, sizeof may_have, &may_have) != 0)
    return;
  place->kept_off = here + 1;
  CPU_CLR (here, &may_have);
  if (CPU_COUNT (&may_have) > 0)
    sched_setaffinity (thread, sizeof may_have, &may_have);
}
