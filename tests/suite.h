// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * suite - what every test file shares: a main that runs its Check suite and speaks TAP to Meson, or prints Check's totals when
 * run by hand.
 */
#ifndef HOLEWRIGHT_SUITE_H
#define HOLEWRIGHT_SUITE_H

#include <check.h>

/* Each test file defines this: its name and its test cases. */
Suite *suite_make (void);

#endif
