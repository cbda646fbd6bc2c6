// SPDX-License-Identifier: GPL-3.0-or-later
/* The sum over a spline's heights on any machine, and the choice of what this one has. */
#define N_LANES 2
#define TERRAIN_SUM terrain_sum_plain
#include "terrain-lanes-kernel-private.h"

TerrainSum
terrain_sum (void)
{
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
  if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    return terrain_sum_avx2;
#endif
  return terrain_sum_plain;
}
