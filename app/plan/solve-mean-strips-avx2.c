// SPDX-License-Identifier: GPL-3.0-or-later
/* Cells under a pattern on machines with AVX2: the same as on others but for its last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx2,fma")

#define N_LANES 8
#define ADD_STRIPS mean_add_strips_avx2
#include "solve-mean-strips-kernel-private.h"
#endif
