// SPDX-License-Identifier: GPL-3.0-or-later
/* How faces are made: what hole.c asks of faces.c, and that of the cutting. */
#ifndef HOLEWRIGHT_FACES_PRIVATE_H
#define HOLEWRIGHT_FACES_PRIVATE_H

#include "hole-private.h"

#include <geos_c.h>

/* One cutting: the areas, and each as its fill rule means it once somebody asked. */
typedef struct
{
  GEOSContextHandle_t geos;
  const Part *const *areas;
  size_t n_areas;
  GEOSGeometry **regions; /* of each area; NULL: not asked for yet */
  size_t n_edges;         /* gone over so far */
} Cutter;

/* The area as its fill rule means it, borrowed. NULL with `error` where that cannot be told. */
const GEOSGeometry *cutter_region (Cutter *cutter, size_t k, GError **error);
/* The union of `n` > 0 geometries that it takes over. NULL when there is none. */
GEOSGeometry *cutter_unite (const Cutter *cutter, GEOSGeometry **geometries, size_t n);
/* Also NULL. */
void cutter_destroy (const Cutter *cutter, GEOSGeometry *geometry);
/* An error that names the area; false. */
bool cutter_refuse (GError **error, const Part *area, const char *what);

/* Faces of areas in document order; what an `earlier` state (or NULL) has of them is shared. NULL with `error`. */
Faces *faces_new (const Part *const *areas, size_t n_areas, const Faces *earlier, GError **error);
Faces *faces_ref (Faces *faces);
void faces_unref (Faces *faces);

/*
 * Cuts what is seen of each wanted area: cut[k] is a new outline, rings with the inside on their left. False with `error` when that is too much work;
 * what stands in `cut` then is the caller's all the same.
 */
bool faces_cut (const Part *const *areas, size_t n_areas, const bool *is_wanted, Outline **cut, GError **error);

#endif
