// SPDX-License-Identifier: GPL-3.0-or-later
/* From where balls land to where they rest. */
#ifndef HOLEWRIGHT_REST_PRIVATE_H
#define HOLEWRIGHT_REST_PRIVATE_H

#include "ground-private.h"

/*
 * Carries the landing chances of one strike - landing[k] of area k, the ground's last - through the run, and adds them, each times the strike's share, to `rest`. The mean
 * ball runs from strike->landing.
 */
void rest_add (const Ground *ground, const Strike *strike, const double *landing, double *rest);

/* The ground's slopes within a box, asked for once. A node not asked for yet is NAN. */
typedef struct
{
  const Ground *ground;
  Vec2 origin;
  int n_columns, n_rows;
  Vec2 *slopes; /* NULL: level ground, or too wide a box */
} SlopePatch;

void slope_patch_init (SlopePatch *patch, const Ground *ground, Box box);
void slope_patch_clear (SlopePatch *patch);
/* What a ball meets there; outside the box as well. */
Surface slope_patch_surface (const SlopePatch *patch, Lie lie, Vec2 at);

/*
 * The area on which the ball rests that comes down on `area`: part indices, -1 the ground. The model of run_solve in longer pieces: on the same ground it rests within
 * a few decimetres.
 */
int rest_run (const SlopePatch *patch, const FlightPoint *landing, int area);

#endif
