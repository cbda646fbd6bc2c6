// SPDX-License-Identifier: GPL-3.0-or-later
/* A club of round figures: 150 m, 6 m along and 7 m across. */
#ifndef HOLEWRIGHT_IRON_H
#define HOLEWRIGHT_IRON_H

#include "bag.h"

#include <math.h>

static const Club iron = {
  .name = (char *)"iron", .carry_m = 150, .carry_sd_m = 6, .side_sd_m = 7, .loft_deg = 34, .apex_m = NAN, .curve_m = NAN
};

#endif
