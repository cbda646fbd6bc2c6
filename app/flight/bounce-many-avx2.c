// SPDX-License-Identifier: GPL-3.0-or-later
/* Impacts side by side on machines with AVX2: the same as on others but for their last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx2,fma")

#define N_LANES 4
#define ROOT_OF_LANES __builtin_ia32_sqrtpd256
#define BOUNCE_MANY bounce_many_avx2
#include "bounce-many-kernel-private.h"

#else
#include "bounce-many-private.h"

void
bounce_many_avx2 (const Impacts *impacts, size_t n)
{
  bounce_many (impacts, n);
}
#endif
