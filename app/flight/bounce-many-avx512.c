// SPDX-License-Identifier: GPL-3.0-or-later
/* Impacts side by side on machines with AVX-512: the same as on others but for their last bits. */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx512f,avx512dq,avx512vl,fma")

#define N_LANES 8
/* All eight, rounded as the machine is set. */
#define ROOT_OF_LANES(a) __builtin_ia32_sqrtpd512_mask (a, a, -1, 4)
#define INVERSE_ROOT_GUESS(a) __builtin_ia32_rsqrt14pd512_mask (a, a, -1)
#define BOUNCE_MANY bounce_many_avx512
#include "bounce-many-kernel-private.h"

#else
#include "bounce-many-private.h"

void
bounce_many_avx512 (const Impacts *impacts, size_t n)
{
  bounce_many (impacts, n);
}
#endif
