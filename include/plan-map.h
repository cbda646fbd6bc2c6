// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-map - what it costs to hole out from everywhere on the hole, in steps: the values of a solution as bands, and places for their numbers.
 *
 * A pure function of a solution; any thread may call it. Places and lengths are metres in the hole frame.
 */
#ifndef HOLEWRIGHT_PLAN_MAP_H
#define HOLEWRIGHT_PLAN_MAP_H

#include "plan.h"

/* More bands than this cannot be told apart. */
#define PLAN_MAP_MOST_BANDS 12
/* The band of a place that no ball is played from: out of bounds, penalty areas, beyond the drawing. */
#define PLAN_MAP_NONE 255
/* Each cell of the solution is parted into so many by so many, so that bands have smooth edges. Odd: the middle one lies where the solution's does. */
#define PLAN_MAP_PARTS 5

/* A wide place of a band, for its number. */
typedef struct
{
  Vec2 at;
  double room_m; /* the band reaches as far to all sides */
  guint8 band;
} PlanMapPlace;

/*
 * Bands of equal steps: band i holds what costs at least first + i * step strokes and less than the next band's; the first also what costs less, the last also what
 * costs more. The step is the smallest round one that needs no more than PLAN_MAP_MOST_BANDS for all but the rarest hundredth at either end.
 */
typedef struct
{
  PlanGrid grid; /* finer than the solution's */
  guint8 *bands; /* [row * columns + column], from the bottom left */
  size_t n_bands;
  double first, step;
  PlanMapPlace *places; /* the widest first, band by band */
  size_t n_places;
} PlanMap;

/* Places of one band, at most so many, not nearer to one another, none narrower. */
#define PLAN_MAP_MOST_PLACES 3
#define PLAN_MAP_PLACES_APART_M 60.0
#define PLAN_MAP_LEAST_ROOM_M 5.0

/* Between the solution's cells strokes are taken to change evenly. A map is never changed; free with plan_map_unref. */
PlanMap *plan_map_new (const PlanSolution *solution);
/* Counted, from any thread. */
PlanMap *plan_map_ref (PlanMap *map);
void plan_map_unref (PlanMap *map);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PlanMap, plan_map_unref)

/* The least that a place of the band costs, as its number has it. */
double plan_map_strokes (const PlanMap *map, size_t band);

#endif
