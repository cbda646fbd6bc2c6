// SPDX-License-Identifier: GPL-3.0-or-later
/* From where balls land to where they rest. */
#ifndef HOLEWRIGHT_REST_PRIVATE_H
#define HOLEWRIGHT_REST_PRIVATE_H

#include "ground-private.h"

/*
 * Carries the landing chances of one strike - landing[k] of area k, the ground's last - through the run, and adds them, each times the strike's share, to `rest`. The mean
 * ball runs from strike->landing. False with `error` for ground that has no slope.
 */
bool rest_add (const Ground *ground, const Strike *strike, const double *landing, double *rest, GError **error);

#endif
