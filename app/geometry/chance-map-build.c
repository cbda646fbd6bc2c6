// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Making a ChanceMap: an edge that two outlines share is kept once with a group on either side, one between two outlines of one group not at all; what is
 * left is cut into chains.
 */
#include "chance-private.h"

typedef struct
{
  Vec2 a, b;
  int left, right;
  bool is_gone;
} MapEdge;

typedef struct
{
  MapEdge *edges; /* ring after ring */
  size_t n_edges;
  size_t *starts; /* of rings among the edges, and their end */
  size_t n_starts, starts_capacity;
  uint32_t *slots; /* edge + 1 by hash of its ends; 0: free */
  size_t n_slots;
  ChanceMap *map;
  size_t n_points, points_capacity, chains_capacity;
} MapBuild;

/* ---- edges shared ---- */

static size_t
hash_ends (Vec2 a, Vec2 b)
{
  const double ends[4] = { a.x, a.y, b.x, b.y };
  uint64_t hash = 0;
  for (int i = 0; i < 4; i++)
    {
      uint64_t bits;
      double end = ends[i] + 0.0; /* -0 is 0 */
      memcpy (&bits, &end, sizeof bits);
      /* Steele and others 2014, Fast splittable pseudorandom number generators: its mixing step. */
      hash = (hash ^ bits) * UINT64_C (0xbf58476d1ce4e5b9);
      hash ^= hash >> 29;
    }
  return (size_t)hash;
}

/* Slot of an edge from `a` to `b` that nothing is beyond yet, or a free one. */
static uint32_t *
find_slot (const MapBuild *build, Vec2 a, Vec2 b)
{
  for (size_t i = hash_ends (a, b);; i++)
    {
      uint32_t *slot = &build->slots[i & (build->n_slots - 1)];
      const MapEdge *edge = *slot > 0 ? &build->edges[*slot - 1] : NULL;
      if (edge == NULL || (edge->right < 0 && !edge->is_gone && vec2_equal (edge->a, a) && vec2_equal (edge->b, b)))
        return slot;
    }
}

static void
add_edge (MapBuild *build, Vec2 a, Vec2 b, int group)
{
  build->edges[build->n_edges++] = (MapEdge){ a, b, group, -1, false };
}

static void
add_start (MapBuild *build)
{
  build->starts = geometry_make_room (build->starts, build->n_starts, &build->starts_capacity, sizeof *build->starts);
  build->starts[build->n_starts++] = build->n_edges;
}

static void
add_rings (MapBuild *build, const Outline *face, int group)
{
  for (size_t r = 0; r < face->n_rings; r++)
    {
      add_start (build);
      for (size_t i = face->ring_starts[r], last = face->ring_starts[r + 1]; i < last; i++)
        {
          Vec2 a = face->points[i], b = face->points[i + 1 < last ? i + 1 : face->ring_starts[r]];
          if (!vec2_equal (a, b))
            add_edge (build, a, b, group);
        }
    }
}

static void
pair_edges (MapBuild *build)
{
  for (build->n_slots = 16; build->n_slots < 2 * build->n_edges; build->n_slots *= 2)
    ;
  build->slots = geometry_resize (NULL, build->n_slots, sizeof *build->slots);
  memset (build->slots, 0, build->n_slots * sizeof *build->slots);
  for (size_t i = 0; i < build->n_edges; i++)
    {
      MapEdge *edge = &build->edges[i];
      size_t back = *find_slot (build, edge->b, edge->a);
      if (back > 0)
        {
          MapEdge *other = &build->edges[back - 1];
          edge->is_gone = true;
          other->right = edge->left;
          other->is_gone = other->left == other->right;
        }
      else
        *find_slot (build, edge->a, edge->b) = (uint32_t)(i + 1);
    }
}

/* ---- chains ---- */

static void
add_point (MapBuild *build, Vec2 at)
{
  ChanceMap *map = build->map;
  if (build->n_points == build->points_capacity)
    {
      build->points_capacity = 2 * build->points_capacity + 64;
      map->x = geometry_resize (map->x, build->points_capacity, sizeof *map->x);
      map->y = geometry_resize (map->y, build->points_capacity, sizeof *map->y);
    }
  map->x[build->n_points] = at.x;
  map->y[build->n_points++] = at.y;
}

static void
add_chain (MapBuild *build, const MapEdge *edges, size_t n_edges)
{
  ChanceMap *map = build->map;
  Chain chain = { .first = build->n_points, .n_edges = n_edges, .left = edges->left, .right = edges->right };
  Box box = box_with_point (box_empty (), edges->a);
  add_point (build, edges->a);
  for (size_t i = 0; i < n_edges; i++)
    {
      add_point (build, edges[i].b);
      box = box_with_point (box, edges[i].b);
      chain.longest_m = fmax (chain.longest_m, vec2_distance (edges[i].a, edges[i].b));
    }
  for (size_t i = n_edges; i % CHAIN_PAD != 0; i++)
    add_point (build, edges[n_edges - 1].b);
  chain.centre = box_centre (box);
  chain.half = vec2 ((box.x1 - box.x0) / 2, (box.y1 - box.y0) / 2);
  map->chains = geometry_make_room (map->chains, map->n_chains, &build->chains_capacity, sizeof *map->chains);
  map->chains[map->n_chains++] = chain;
}

static void
cut_into_chains (MapBuild *build)
{
  ChanceMap *map = build->map;
  add_start (build);
  build->points_capacity = build->n_edges + build->n_edges / 4 + CHAIN_PAD; /* mostly enough */
  map->x = geometry_resize (NULL, build->points_capacity, sizeof *map->x);
  map->y = geometry_resize (NULL, build->points_capacity, sizeof *map->y);
  for (size_t s = 0; s + 1 < build->n_starts; s++)
    for (size_t i = build->starts[s], n; i < build->starts[s + 1]; i += n)
      {
        const MapEdge *first = &build->edges[i];
        n = 1;
        if (first->is_gone)
          continue;
        while (i + n < build->starts[s + 1] && n < MOST_CHAIN_EDGES && !first[n].is_gone && first[n].right == first->right)
          n++;
        add_chain (build, first, n);
      }
}

ChanceMap *
chance_map_new (const Outline *const *faces, const size_t *groups, size_t n_faces, size_t n_groups)
{
  MapBuild build = { .map = geometry_resize (NULL, 1, sizeof *build.map) };
  *build.map = (ChanceMap){ .n_groups = n_groups };
  size_t n_most = 0;
  for (size_t k = 0; k < n_faces; k++)
    n_most += faces[k]->n_points;
  if (n_most >= UINT32_MAX / 4)
    abort ();
  build.edges = geometry_resize (NULL, n_most, sizeof *build.edges);
  for (size_t k = 0; k < n_faces; k++)
    add_rings (&build, faces[k], (int)(groups != NULL ? groups[k] : k));
  pair_edges (&build);
  cut_into_chains (&build);
  free (build.edges);
  free (build.starts);
  free (build.slots);
  return build.map;
}

void
chance_map_free (ChanceMap *map)
{
  if (map == NULL)
    return;
  free (map->chains);
  free (map->x);
  free (map->y);
  free (map);
}
