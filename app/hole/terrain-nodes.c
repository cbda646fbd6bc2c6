// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Heights and slopes at the nodes of a grid, found when they are first asked for and kept with the terrain: a spline through fifty heights is dear to ask thousands of times for every
 * shot. Nodes are found a block at a time. A block once in the table stays until the terrain goes, so threads read without a lock; of two that find the same block at once, one throws
 * its own away.
 */
#include "terrain-private.h"

/* Cells of a block each way; it has the nodes at their corners, those of its rim as its neighbours have. */
#define BLOCK 4
#define N_ACROSS (BLOCK + 1)
/* Slots of the table, a power of two: a large hole's blocks some times over. Beyond three quarters of them no more are kept. */
#define N_SLOTS 4096
#define MOST_BLOCKS (N_SLOTS * 3 / 4)

typedef struct
{
  int column, row; /* of the block */
  TerrainNode nodes[N_ACROSS * N_ACROSS];
} Block;

struct _TerrainNodes
{
  Block *slots[N_SLOTS]; /* read and set as atomics */
  int n_blocks;          /* the same */
};

TerrainNodes *
terrain_nodes_new (void)
{
  return g_new0 (TerrainNodes, 1);
}

void
terrain_nodes_free (TerrainNodes *nodes)
{
  for (size_t i = 0; i < N_SLOTS; i++)
    g_free (nodes->slots[i]);
  g_free (nodes);
}

static TerrainNode
find_node (const Terrain *terrain, int column, int row)
{
  TerrainNode node;
  terrain_look (terrain, vec2 (column * TERRAIN_NODE_M, row * TERRAIN_NODE_M), &node.height_m, &node.slope);
  return node;
}

static Block *
block_new (const Terrain *terrain, int column, int row)
{
  Block *block = g_new (Block, 1);
  block->column = column;
  block->row = row;
  for (int i = 0; i < N_ACROSS * N_ACROSS; i++)
    block->nodes[i] = find_node (terrain, column * BLOCK + i % N_ACROSS, row * BLOCK + i / N_ACROSS);
  return block;
}

/* Mixes column and row so that neighbours fall apart (Teschner and others 2003, Optimized spatial hashing for collision detection). */
static size_t
slot_of (int column, int row)
{
  return (((unsigned)column * 73856093u) ^ ((unsigned)row * 19349663u)) % N_SLOTS;
}

/* NULL when the table is as full as it may be. */
static const Block *
block_at (const Terrain *terrain, int column, int row)
{
  TerrainNodes *nodes = terrain_nodes (terrain);
  Block *made = NULL;
  for (size_t slot = slot_of (column, row);; slot = (slot + 1) % N_SLOTS)
    {
      Block *block = g_atomic_pointer_get (&nodes->slots[slot]);
      if (block == NULL)
        {
          if (made == NULL && g_atomic_int_add (&nodes->n_blocks, 1) >= MOST_BLOCKS)
            {
              g_atomic_int_add (&nodes->n_blocks, -1);
              return NULL;
            }
          if (made == NULL)
            made = block_new (terrain, column, row);
          if (g_atomic_pointer_compare_and_exchange (&nodes->slots[slot], NULL, made))
            return made;
          block = g_atomic_pointer_get (&nodes->slots[slot]); /* another thread was faster */
        }
      if (block->column == column && block->row == row)
        {
          if (made != NULL)
            g_atomic_int_add (&nodes->n_blocks, -1);
          g_free (made);
          return block;
        }
    }
}

/* The block of a cell, and the cell's place in it, rounded down for negative numbers as well. */
static int
block_of (int number, int *within)
{
  int block = number >= 0 ? number / BLOCK : -((BLOCK - 1 - number) / BLOCK);
  *within = number - block * BLOCK;
  return block;
}

TerrainCell
terrain_cell_at (const Terrain *terrain, int column, int row, TerrainNode room[4])
{
  int i, j, block_column = block_of (column, &i), block_row = block_of (row, &j);
  const Block *block = block_at (terrain, block_column, block_row);
  if (block != NULL)
    return (TerrainCell){ &block->nodes[j * N_ACROSS + i], &block->nodes[(j + 1) * N_ACROSS + i] };
  for (int k = 0; k < 4; k++)
    room[k] = find_node (terrain, column + (k & 1), row + (k >> 1));
  return (TerrainCell){ room, room + 2 };
}

void
terrain_cell (const Terrain *terrain, int column, int row, TerrainNode corners[4])
{
  TerrainCell cell = terrain_cell_at (terrain, column, row, corners);
  if (cell.below == corners)
    return;
  for (int k = 0; k < 2; k++)
    {
      corners[k] = cell.below[k];
      corners[2 + k] = cell.above[k];
    }
}
