// SPDX-License-Identifier: GPL-3.0-or-later
/* The roll of a tile's balls on machines with AVX-512: the same as on others but for its last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx512f,avx512dq,avx512vl,fma")

#define N_LANES 16
/* All sixteen, rounded as the machine is set. */
#define ROOT_OF_LANES(a) __builtin_ia32_sqrtps512_mask (a, a, -1, 4)
#define ROLL_BALLS runs_roll_avx512
#include "solve-run-roll-kernel-private.h"
#endif
