// SPDX-License-Identifier: GPL-3.0-or-later
/* Rows of cells under a pattern on machines with AVX-512: the same as on others but for its last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx512f,avx512dq,avx512vl,fma")

#define N_LANES 16
#define ADD_ROWS mean_add_rows_avx512
#include "solve-mean-rows-kernel-private.h"
#endif
