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

/* Height and slope together. */
void terrain_look (const Terrain *terrain, Vec2 at, double *height_m, Vec2 *slope);

#endif
