// SPDX-License-Identifier: GPL-3.0-or-later
/* The sum over a chain in GCC's vectors of four, which need no particular machine. */
#define N_LANES 4
#define CHANCE_SUM chance_sum
#include "chance-kernel-private.h"
