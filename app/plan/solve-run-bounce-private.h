// SPDX-License-Identifier: GPL-3.0-or-later
/* The bounces of a tile's balls, in vectors of one machine or another. */
#ifndef HOLEWRIGHT_SOLVE_RUN_BOUNCE_PRIVATE_H
#define HOLEWRIGHT_SOLVE_RUN_BOUNCE_PRIVATE_H

#include "solve-run-parts-private.h"

void runs_bounce_plain (const Runs *runs, Balls *balls, int n);
void runs_bounce_avx2 (const Runs *runs, Balls *balls, int n);
void runs_bounce_avx512 (const Runs *runs, Balls *balls, int n);

#endif
