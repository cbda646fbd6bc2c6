// SPDX-License-Identifier: GPL-3.0-or-later
/* The sum over a spline's heights on machines with AVX2: the same as on others but for its last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("fp-contract=fast")
#pragma GCC target("avx2,fma")

#define N_LANES 4
#define TERRAIN_SUM terrain_sum_avx2
#include "terrain-lanes-kernel-private.h"
#endif
