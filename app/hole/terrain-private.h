// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of the terrain know of each other. */
#ifndef HOLEWRIGHT_TERRAIN_PRIVATE_H
#define HOLEWRIGHT_TERRAIN_PRIVATE_H

#include "hole.h"

/* The nodes that were asked for. */
typedef struct _TerrainNodes TerrainNodes;
TerrainNodes *terrain_nodes_new (void);
void terrain_nodes_free (TerrainNodes *nodes);
/* Those of a terrain, which are kept behind a pointer, for that the questions are asked through const data. */
TerrainNodes *terrain_nodes (const Terrain *terrain);

/* ---- the sum over a spline's heights ---- */

/* Rows are padded to a whole number of groups, with places of no weight. */
#define SPLINE_GROUP 4

/* Places in scaled coordinates, and the weights of r^2 ln r about each. */
typedef struct
{
  const double *x, *y, *weights;
  size_t n_padded;
} SplineHeights;

/* Of weight r^2 ln r, and how it changes with the place. */
typedef struct
{
  double height;
  Vec2 slope;
} SplineSum;

typedef SplineSum (*TerrainSum) (const SplineHeights *heights, Vec2 at);
SplineSum terrain_sum_plain (const SplineHeights *heights, Vec2 at);
SplineSum terrain_sum_avx2 (const SplineHeights *heights, Vec2 at);
/* That of this machine. */
TerrainSum terrain_sum (void);

/* Height and slope together. */
void terrain_look (const Terrain *terrain, Vec2 at, double *height_m, Vec2 *slope);

#endif
