// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Balls side by side on machines with AVX2 and FMA: landings differ from other machines' in their last bits only.
 */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx2,fma")

#define N_LANES 4
#define N_GROUPS 2
#define ROOT_OF_LANES __builtin_ia32_sqrtpd256
#define LANES_FLY lanes_fly_avx2
#include "lanes-kernel-private.h"

#else
#include "lanes-private.h"

bool
lanes_fly_avx2 (LanesQueue *queue)
{
  return lanes_fly (queue);
}
#endif
