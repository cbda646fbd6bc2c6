// SPDX-License-Identifier: GPL-3.0-or-later
/* The bounces of a tile's balls on machines with AVX2: the same as on others but for their last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "no-trapping-math", "fp-contract=fast")
#pragma GCC target("avx2,fma")

#define BOUNCE_BALLS runs_bounce_avx2
#include "solve-run-bounce-kernel-private.h"
#endif
