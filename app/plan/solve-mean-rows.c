// SPDX-License-Identifier: GPL-3.0-or-later
/* Rows of cells under a pattern on any machine, and the choice of the widest vectors that this one has. */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#define N_LANES 8
#define ADD_ROWS mean_add_rows_plain
#include "solve-mean-rows-kernel-private.h"

void
mean_add_rows (Sum *sum, bool is_lost)
{
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    mean_add_rows_avx512 (sum, is_lost);
  else if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    mean_add_rows_avx2 (sum, is_lost);
  else
#endif
    mean_add_rows_plain (sum, is_lost);
}
