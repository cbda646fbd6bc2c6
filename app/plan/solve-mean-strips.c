// SPDX-License-Identifier: GPL-3.0-or-later
/* Cells under a pattern on any machine, and the choice of the widest vectors that this one has. */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#define N_LANES 8
#define ADD_STRIPS mean_add_strips_plain
#include "solve-mean-strips-kernel-private.h"

#include <math.h>

/* A strip's outermost column is no more deviations higher or lower than its first one: single precision holds the weights of both. */
#define MOST_TILT 7.0f

Sum
mean_sum (float x, float y, float xx, float xy, float yy, float sds)
{
  const float log2_e = 1.44269504f;
  float lean = xy / yy, rise = xy / xx, narrow = xx - xy * lean, upright = yy - xy * rise;
  Sum sum = { .x = x,
              .y = y,
              .lean = lean,
              .across = -0.5f * log2_e / narrow,
              .along = -0.5f * log2_e / yy,
              .half_x = sds * root (xx),
              .half_y = sds * root (yy),
              .highest_x = sds * xy / root (yy),
              .rise = rise,
              .upright2 = sds * sds * upright };
  sum.ratio_change = exp2f (2 * (sum.along + sum.across * lean * lean));
  float tilt = fabsf (rise), widest = MOST_TILT * root (upright);
  sum.widest = widest > MOST_LANES * tilt ? MOST_LANES : MAX (1, (int)(widest / tilt));
  return sum;
}

void
mean_add_strips (Sum *sum, bool is_lost)
{
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    mean_add_strips_avx512 (sum, is_lost);
  else if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    mean_add_strips_avx2 (sum, is_lost);
  else
#endif
    mean_add_strips_plain (sum, is_lost);
}
