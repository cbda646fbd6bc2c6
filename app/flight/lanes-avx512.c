// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Balls side by side on machines with AVX-512: landings differ from other machines' in their last bits only.
 */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx512f,avx512dq,avx512vl,fma")

#define N_LANES 8
#define N_GROUPS 2
/* All eight, rounded as the machine is set. */
#define ROOT_OF_LANES(a) __builtin_ia32_sqrtpd512_mask (a, a, -1, 4)
#define LANES_FLY lanes_fly_avx512
#include "lanes-kernel-private.h"

#else
#include "lanes-private.h"

bool
lanes_fly_avx512 (LanesQueue *queue)
{
  return lanes_fly (queue);
}
#endif
