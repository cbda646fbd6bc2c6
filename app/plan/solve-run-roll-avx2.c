// SPDX-License-Identifier: GPL-3.0-or-later
/* The roll of a tile's balls on machines with AVX2: the same as on others but for its last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx2,fma")

#define N_LANES 8
#define ROOT_OF_LANES __builtin_ia32_sqrtps256
#define ROLL_BALLS runs_roll_avx2
#include "solve-run-roll-kernel-private.h"
#endif
