// SPDX-License-Identifier: GPL-3.0-or-later
/* Hops and pieces of the roll on machines with AVX2: the same as on others but for their last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx2,fma")

#define N_LANES 4
#define ROOT_OF_LANES __builtin_ia32_sqrtpd256
#define REST_LANES rest_lanes_avx2
#include "rest-lanes-kernel-private.h"
#endif
