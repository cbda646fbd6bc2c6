// SPDX-License-Identifier: GPL-3.0-or-later
/* The roll of a tile's balls, in vectors of one machine or another. */
#ifndef HOLEWRIGHT_SOLVE_RUN_ROLL_PRIVATE_H
#define HOLEWRIGHT_SOLVE_RUN_ROLL_PRIVATE_H

#include "solve-run-parts-private.h"

void runs_roll_plain (const Runs *runs, Balls *balls);
void runs_roll_avx2 (const Runs *runs, Balls *balls);
void runs_roll_avx512 (const Runs *runs, Balls *balls);

#endif
