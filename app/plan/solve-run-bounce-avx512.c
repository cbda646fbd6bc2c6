// SPDX-License-Identifier: GPL-3.0-or-later
/* The bounces of a tile's balls on machines with AVX-512: the same as on others but for their last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "no-trapping-math", "fp-contract=fast")
#pragma GCC target("avx512f,avx512dq,avx512vl,fma")

#define BOUNCE_BALLS runs_bounce_avx512
#include "solve-run-bounce-kernel-private.h"
#endif
