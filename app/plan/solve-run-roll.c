// SPDX-License-Identifier: GPL-3.0-or-later
/* The roll of a tile's balls on any machine, and the choice of the widest vectors that this one has. */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#define N_LANES 4
#define ROLL_BALLS runs_roll_plain
#include "solve-run-roll-kernel-private.h"

void
runs_roll_balls (const Runs *runs, Balls *balls)
{
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    runs_roll_avx512 (runs, balls);
  else if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    runs_roll_avx2 (runs, balls);
  else
#endif
    runs_roll_plain (runs, balls);
}
