// SPDX-License-Identifier: GPL-3.0-or-later
/* Cells under a pattern on machines with AVX-512: the same as on others but for its last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx512f,avx512dq,avx512vl,fma")

#define N_LANES 16
/* Of all sixteen, rounded as the machine is set. */
#define WHOLE_OF_LANE(t) __builtin_ia32_rndscaleps_mask (t, 0, t, -1, 4)
#define SCALED_BY_POWER(a, t) __builtin_ia32_scalefps512_mask (a, t, a, -1, 4)
#define ADD_STRIPS mean_add_strips_avx512
#include "solve-mean-strips-kernel-private.h"
#endif
