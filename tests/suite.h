// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * suite - what every test file shares: a main that runs its Check suite and speaks TAP to Meson, or prints Check's totals when
 * run by hand.
 */
#ifndef HOLEWRIGHT_SUITE_H
#define HOLEWRIGHT_SUITE_H

#include <check.h>

/* Check writes down every assertion that holds, to say of a test that dies in a process of its own where it last was. Ours run in one process, which says that by itself, and a write
   for each pixel of a picture takes longer than all else. */
#define _mark_point(file, line) ((void)0)

/* Each test file defines this: its name and its test cases. */
Suite *suite_make (void);

#endif
