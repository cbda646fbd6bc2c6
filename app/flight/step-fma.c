// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The steps of a flight on machines that multiply and add in one: they differ from others' in their last bits only.
 */
#if defined __x86_64__ && defined __GNUC__ && !defined __clang__
#pragma GCC optimize("no-math-errno", "fp-contract=fast")
#pragma GCC target("avx2,fma")
#define STEP_TAKE step_take_fma
#include "step-kernel-private.h"

#else
#include "step-private.h"

bool
step_take_fma (const Medium *medium, Step *step, double *next_length_s)
{
  return step_take_anywhere (medium, step, next_length_s);
}
#endif
