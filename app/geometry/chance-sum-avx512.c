// SPDX-License-Identifier: GPL-3.0-or-later
/* The sum over a chain on machines with AVX-512: the same as on others but for its last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("fp-contract=fast")
#pragma GCC target("avx512f,avx512dq,avx512vl,fma")

#define N_LANES 8
#define CHANCE_SUM chance_sum_avx512
#include "chance-kernel-private.h"

#else
#include "chance-private.h"

double
chance_sum_avx512 (const double *u, const double *v, size_t n_edges, double longest_sds)
{
  return chance_sum (u, v, n_edges, longest_sds);
}
#endif
