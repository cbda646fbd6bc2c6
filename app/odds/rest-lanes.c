// SPDX-License-Identifier: GPL-3.0-or-later
/* Hops and pieces of the roll on any machine, and the choice of the widest vectors that this one has. */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#define N_LANES 2
#define REST_LANES rest_lanes_plain
#include "rest-lanes-kernel-private.h"

const RestLanes *
rest_lanes (void)
{
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    return &rest_lanes_avx512;
  if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    return &rest_lanes_avx2;
#endif
  return &rest_lanes_plain;
}
