// SPDX-License-Identifier: GPL-3.0-or-later
/* From where balls land to where they rest. */
#ifndef HOLEWRIGHT_REST_PRIVATE_H
#define HOLEWRIGHT_REST_PRIVATE_H

#include "ground-private.h"
#include "odds-rests.h"
#include "tree-private.h"

#include <stdint.h>

/* ---- trees on the way ---- */

/* So many canopies are told of that one ball flies through; it is stopped by one of those, or the rest are not dense enough to count. */
#define MOST_STOPS 12
/* Canopies that a ball flies through, the nearest first, by their number. */
typedef struct
{
  uint32_t canopies[MOST_STOPS];
  size_t n;
} TreeStops;

/* The canopies that balls of a shot may fly into. What of the balls they meet is found for some lengths of the flight, each when it is first asked for. */
typedef struct _Woods Woods;
/* NULL: none. */
Woods *woods_new (const Ground *ground, const ShotResult *shot, const Strike *strikes, size_t n_strikes);
void woods_free (Woods *woods);
size_t woods_n_canopies (const Woods *woods);
/* Part index in the hole, and the share of the balls flying into it that it stops. */
size_t woods_canopy (const Woods *woods, size_t i, double *density);
/* Which canopies the ball flies through that comes down there. */
void woods_stops (Woods *woods, Vec2 landing, TreeStops *stops);
/* Where that ball flies into one of them. */
Vec2 woods_place (const Woods *woods, Vec2 landing, uint32_t canopy);

/* ---- the run ---- */

/* Where balls may end: areas of the hole by their order, the ground, then canopies that are no areas. */
typedef struct
{
  const Ground *ground;
  Woods *woods;           /* NULL: no trees on the way */
  size_t *end_of_canopy;  /* by its number */
  size_t *parts_of_trees; /* part indices of the single trees */
  size_t n_ends;
} Ends;
void ends_init (Ends *ends, const Ground *ground, const ShotResult *shot, const Strike *strikes, size_t n_strikes);
void ends_clear (Ends *ends);

/*
 * Carries the landing chances of one strike - landing[k] of area k, the ground's last - past the trees and through the run, and adds them, each times the strike's share, to
 * `rest`, which has room for all ends. The mean ball runs from strike->landing. `visit` (may be NULL) is told where they are.
 */
void rest_add (const Ends *ends, const Strike *strike, const double *landing, double *rest, RestVisit visit, void *data);

/* The ground's slopes within a box, asked for once. */
typedef struct
{
  const Ground *ground;
  int column, row; /* of its first node in the terrain's grid */
  int n_columns, n_rows;
  Vec2 *slopes;      /* NULL: level ground, or too wide a box */
  bool *is_by_arrow; /* of a cell: an arrow may speak for places in it. NULL: the hole has no arrows, or too wide a box */
  GArray *arrows;    /* of Arrow, with is_by_arrow */
  bool *is_known;    /* of a cell, by its first node: all its four nodes have been asked for */
  double *room;      /* for balls that run there, kept from one lot to the next, and how many numbers it has room for */
  size_t n_room;
} SlopePatch;

void slope_patch_init (SlopePatch *patch, const Ground *ground, Box box);
void slope_patch_clear (SlopePatch *patch);
/* The ground's slopes at places; outside the box as well. */
void slope_patch_slopes (const SlopePatch *patch, const double *x_m, const double *y_m, size_t n, double *slope_x,
                         double *slope_y);

/* Balls that come down at `places`, each as motions[i * step] says: all as the first with step 0, each as its own with 1. */
typedef struct
{
  const FlightPoint *motions;
  const Vec2 *places;
  size_t step, n;
} Falls;

/* A ball runs less far than it flies in this time at its speed over the ground when it comes down (common practice). */
#define RUN_SPEEDS_S 2.0

/*
 * The areas on which balls come down and rest: k of each area, -1 the ground. The model of run_solve in longer pieces: on the same ground they rest within a few decimetres.
 * `rest_places` (may be NULL) receives where.
 */
void rest_land_all (SlopePatch *patch, const Falls *falls, int *lands, int *rests, Vec2 *rest_places);

#endif
