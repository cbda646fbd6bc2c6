// SPDX-License-Identifier: GPL-3.0-or-later
/* Each kind of machine's bounce_off_many; those that do not know a machine are the plain one. */
#ifndef HOLEWRIGHT_FLIGHT_BOUNCE_MANY_PRIVATE_H
#define HOLEWRIGHT_FLIGHT_BOUNCE_MANY_PRIVATE_H

#include "flight-many.h"

void bounce_many (const Impacts *impacts, size_t n);
void bounce_many_avx2 (const Impacts *impacts, size_t n);
void bounce_many_avx512 (const Impacts *impacts, size_t n);

#endif
