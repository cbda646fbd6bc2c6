// SPDX-License-Identifier: GPL-3.0-or-later
/* The bounces of a tile's balls on any machine, and the choice of the widest vectors that this one has. */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#define BOUNCE_BALLS runs_bounce_plain
#include "solve-run-bounce-kernel-private.h"

void
runs_bounce_balls (const Runs *runs, Balls *balls, int n)
{
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    runs_bounce_avx512 (runs, balls, n);
  else if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    runs_bounce_avx2 (runs, balls, n);
  else
#endif
    runs_bounce_plain (runs, balls, n);
}
