// SPDX-License-Identifier: GPL-3.0-or-later
/* Impacts side by side on any machine, and the choice of the widest vectors that this one has. */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#define N_LANES 2
#define BOUNCE_MANY bounce_many
#include "bounce-many-kernel-private.h"

void
bounce_off_many (const Impacts *impacts, size_t n)
{
#if defined __x86_64__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    bounce_many_avx512 (impacts, n);
  else if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    bounce_many_avx2 (impacts, n);
  else
#endif
    bounce_many (impacts, n);
}
