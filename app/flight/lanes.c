// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Balls side by side in GCC's vectors of four, which need no particular machine.
 */
/* No root of a negative number is taken. */
#if defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno")
#endif

#define N_LANES 4
#define N_GROUPS 2
#define LANES_FLY lanes_fly
#include "lanes-kernel-private.h"
