// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of this folder know of each other. */
#ifndef HOLEWRIGHT_HOLE_PRIVATE_H
#define HOLEWRIGHT_HOLE_PRIVATE_H

#include "hole.h"

typedef struct _HoleLayers HoleLayers;
typedef struct _HoleRelief HoleRelief;

struct _Hole
{
  HoleInfo info;
  const Part **parts;
  size_t n_parts;
  size_t *area_parts; /* part index of each area of a known kind, in document order */
  size_t n_areas;
  Lie *lies; /* the ground's, then each area's */
  HoleLayers *layers;
  HoleRelief *relief; /* NULL without spot heights */
  GBytes *source;
};

/* The hole's heights: those of an `earlier` state (which may be NULL) with a reference more when they are the same. */
HoleRelief *relief_for (const Hole *hole, HoleRelief *earlier);
void relief_unref (HoleRelief *relief);

#endif
