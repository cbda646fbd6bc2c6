// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Many balls over level ground, flown side by side: what is to be flown, and the function that does it for each kind of machine.
 */
#ifndef HOLEWRIGHT_LANES_PRIVATE_H
#define HOLEWRIGHT_LANES_PRIVATE_H

#include "flight-private.h"

#include <stdint.h>

#define MOST_BALLS 16

/* The inputs that are in the air, and those to come. */
typedef struct
{
  const FlightInput *inputs;
  size_t n_inputs, next;
  size_t n_up;              /* balls in the air */
  size_t flown[MOST_BALLS]; /* index of the input in each lane; n_inputs: none */
  FlightPoint *landings;
  GError **error;
} LanesQueue;

/* Vectors of four, on any machine. */
bool lanes_fly (LanesQueue *queue);
/* Registers of four with multiplication and addition in one; of eight. */
bool lanes_fly_avx2 (LanesQueue *queue);
bool lanes_fly_avx512 (LanesQueue *queue);

#endif
