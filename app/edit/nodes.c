// SPDX-License-Identifier: GPL-3.0-or-later
/* Nodes: moved with their handles, added on an edge, deleted, smoothed or made corners. Coordinates not touched stay to the bit. */
#include "edit-private.h"

#include <stdlib.h>

/* A new node this near to one that is there would be hidden under it. */
#define SAME_NODE_M 0.01
/* Handles of a side that was straight reach a third of the way: then it is walked along evenly. */
#define HANDLE_SHARE (1.0 / 3)

/* ---- a part's nodes, to be changed and put back ---- */

typedef struct
{
  PathNode *nodes;
  size_t n_nodes;
} Nodes;

static void
nodes_clear (Nodes *nodes)
{
  free (nodes->nodes);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Nodes, nodes_clear)

/* False, with `error` set, when the part has no nodes. */
static bool
nodes_init (Nodes *nodes, const Part *part, size_t node, GError **error)
{
  PartShape shape = kind_info (part->kind)->shape;
  if (shape != SHAPE_AREA && shape != SHAPE_LINE)
    return refuse (error, EDIT_ERROR_SHAPE, "this has no nodes; move it as a whole") != NULL;
  nodes->n_nodes = path_nodes (&part->path, &nodes->nodes);
  g_assert (node < nodes->n_nodes);
  return true;
}

/* First node of the subpath that holds `node`, and how many it has. */
static size_t
subpath_of (const Nodes *nodes, size_t node, size_t *n_nodes)
{
  size_t first = node, end = node + 1;
  while (!nodes->nodes[first].starts)
    first--;
  while (end < nodes->n_nodes && !nodes->nodes[end].starts)
    end++;
  *n_nodes = end - first;
  return first;
}

/* The node before (-1) or after (+1) in its subpath; NULL past an open end. */
static PathNode *
neighbour (const Nodes *nodes, size_t node, int step)
{
  size_t n, first = subpath_of (nodes, node, &n), place = node - first;
  if (!nodes->nodes[node].is_closed && (step < 0 ? place == 0 : place + 1 == n))
    return NULL;
  return &nodes->nodes[first + (place + n + (size_t)step) % n];
}

/* The hole with a part whose path runs through the nodes. */
static Hole *
put_nodes (const Hole *hole, size_t part, const Nodes *nodes, GError **error)
{
  Part *changed = part_copy (hole_part (hole, part));
  path_clear (&changed->path);
  path_add_nodes (&changed->path, nodes->nodes, nodes->n_nodes);
  const Part *sealed = seal_checked (changed, error);
  return sealed ? replace_part (hole, part, sealed) : NULL;
}

static bool
is_same (Vec2 a, Vec2 b)
{
  return a.x == b.x && a.y == b.y;
}

static void
node_to_grid (PathNode *node)
{
  node->at = grid_point (node->at);
  node->in = grid_point (node->in);
  node->out = grid_point (node->out);
}

/* ---- moving ---- */

/* The other handle of a smooth node turns to stay opposite, as long as it was. */
static void
move_handle (PathNode *node, NodeGrip grip, Vec2 to)
{
  Vec2 *moved = grip == NODE_IN ? &node->in : &node->out, *other = grip == NODE_IN ? &node->out : &node->in;
  *moved = grid_point (to);
  Vec2 away = vec2_unit (vec2_sub (node->at, *moved));
  if (node->is_smooth && !is_same (*moved, node->at))
    *other = grid_point (vec2_add (node->at, vec2_scale (away, vec2_distance (node->at, *other))));
}

Hole *
edit_move_node (const Hole *hole, size_t part, size_t node, NodeGrip grip, Vec2 to, GError **error)
{
  g_auto (Nodes) nodes = { 0 };
  if (!nodes_init (&nodes, hole_part (hole, part), node, error))
    return NULL;
  if (!(fabs (to.x) <= FARTHEST_M && fabs (to.y) <= FARTHEST_M))
    return refuse (error, EDIT_ERROR_NUMBER, "a node cannot lie there; use smaller numbers");
  PathNode *moved = &nodes.nodes[node];
  if (grip != NODE_AT && !neighbour (&nodes, node, grip == NODE_IN ? -1 : 1))
    return refuse (error, EDIT_ERROR_SHAPE, "the line ends here; there is nothing to bend on that side");
  if (grip == NODE_AT)
    {
      Vec2 by = vec2_sub (grid_point (to), moved->at);
      moved->at = vec2_add (moved->at, by);
      moved->in = vec2_add (moved->in, by);
      moved->out = vec2_add (moved->out, by);
      node_to_grid (moved);
    }
  else
    move_handle (moved, grip, to);
  return put_nodes (hole, part, &nodes, error);
}

/* ---- adding ---- */

/* A copy of the path in which segment `seg` is two, split at t, the new coordinates on the grid. */
static void
split_path (const Path *from, size_t seg, double t, Path *to)
{
  PathSeg halves[2];
  path_seg_split (from->segs[seg - 1].to, from->segs[seg], t, &halves[0], &halves[1]);
  Path split = { halves, 2, 2 };
  Vec2 end = halves[1].to;
  grid_path (&split);
  halves[1].to = end; /* was there before */
  for (size_t i = 0; i < from->n_segs; i++)
    for (size_t k = 0; k < (i == seg ? 2u : 1u); k++)
      {
        const PathSeg *next = i == seg ? &halves[k] : &from->segs[i];
        switch (next->kind)
          {
          case SEG_MOVE:
            path_move_to (to, next->to);
            break;
          case SEG_LINE:
            path_line_to (to, next->to);
            break;
          case SEG_CUBIC:
            path_cubic_to (to, next->c1, next->c2, next->to);
            break;
          case SEG_CLOSE:
            path_close (to);
            break;
          }
      }
}

/* Number of the node in which segment `seg` ends. */
static size_t
node_ending (const Path *path, size_t seg)
{
  const Path up_to = { path->segs, seg + 1, seg + 1 };
  PathNode *nodes = NULL;
  size_t n = path_nodes (&up_to, &nodes);
  free (nodes);
  return n - 1;
}

Hole *
edit_add_node (const Hole *hole, size_t part, Vec2 near, size_t *node, GError **error)
{
  const Part *old = hole_part (hole, part);
  PartShape shape = kind_info (old->kind)->shape;
  size_t seg;
  double t, distance_m;
  if (shape != SHAPE_AREA && shape != SHAPE_LINE)
    return refuse (error, EDIT_ERROR_SHAPE, "this has no outline; a node can be added to an area or a line");
  if (!isfinite (near.x) || !isfinite (near.y) || !path_nearest (&old->path, near, &seg, &t, &distance_m))
    return refuse (error, EDIT_ERROR_EMPTY, "there is no edge to put a node on; draw it first");
  Part *changed = part_copy (old);
  path_clear (&changed->path);
  split_path (&old->path, seg, t, &changed->path);
  Vec2 at = changed->path.segs[seg].to, from = changed->path.segs[seg - 1].to, to = changed->path.segs[seg + 1].to;
  if (vec2_distance (at, from) < SAME_NODE_M || vec2_distance (at, to) < SAME_NODE_M)
    {
      part_unref (changed);
      return refuse (error, EDIT_ERROR_EMPTY, "there is a node already; point between two nodes");
    }
  size_t added = node_ending (&changed->path, seg);
  const Part *sealed = seal_checked (changed, error);
  if (sealed && node)
    *node = added;
  return sealed ? replace_part (hole, part, sealed) : NULL;
}

/* ---- deleting ---- */

/*
 * The handles beside a smooth node that goes: as long as those of the curve of which its two sides would be the halves, so that a node just added
 * goes without a trace.
 */
static void
bridge (PathNode *before, const PathNode *gone, PathNode *after)
{
  double in_m = vec2_distance (gone->in, gone->at), out_m = vec2_distance (gone->at, gone->out), t = in_m / (in_m + out_m);
  before->out = grid_point (vec2_add (before->at, vec2_scale (vec2_sub (before->out, before->at), 1 / t)));
  after->in = grid_point (vec2_add (after->at, vec2_scale (vec2_sub (after->in, after->at), 1 / (1 - t))));
}

static void
drop_nodes (Nodes *nodes, size_t first, size_t n_dropped)
{
  for (size_t i = first + n_dropped; i < nodes->n_nodes; i++)
    nodes->nodes[i - n_dropped] = nodes->nodes[i];
  nodes->n_nodes -= n_dropped;
}

Hole *
edit_delete_node (const Hole *hole, size_t part, size_t node, GError **error)
{
  g_auto (Nodes) nodes = { 0 };
  const Part *old = hole_part (hole, part);
  if (!nodes_init (&nodes, old, node, error))
    return NULL;
  size_t n, first = subpath_of (&nodes, node, &n);
  PathNode gone = nodes.nodes[node], *before = neighbour (&nodes, node, -1), *after = neighbour (&nodes, node, 1);
  if (n <= 2)
    drop_nodes (&nodes, first, n); /* what is left of the subpath is a point */
  else
    {
      if (gone.is_smooth && before && after)
        bridge (before, &gone, after);
      if (before && !after)
        before->out = before->at;
      if (after && !before)
        after->in = after->at;
      drop_nodes (&nodes, node, 1);
      nodes.nodes[first].starts = true;
    }
  if (nodes.n_nodes == 0)
    return refuse (error, EDIT_ERROR_EMPTY, "nothing would be left; delete the whole thing instead");
  Hole *made = put_nodes (hole, part, &nodes, error);
  if (made && old->outline && !encloses_something (hole_part (made, part)))
    {
      hole_unref (made);
      return refuse (error, EDIT_ERROR_EMPTY, "nothing would be left; delete the whole thing instead");
    }
  return made;
}

/* ---- smooth or corner ---- */

/* The tangent a node gets: between its handles where it has both, else along its neighbours. */
static Vec2
tangent_at (const PathNode *node, Vec2 before, Vec2 after)
{
  Vec2 in = vec2_unit (vec2_sub (node->at, node->in)), out = vec2_unit (vec2_sub (node->out, node->at));
  Vec2 along = vec2_add (in, out);
  if (is_same (node->in, node->at) || is_same (node->out, node->at) || is_same (along, vec2 (0, 0)))
    along = vec2_sub (after, before);
  if (is_same (along, vec2 (0, 0)))
    along = vec2_left (vec2_sub (after, node->at)); /* both neighbours are one */
  return vec2_unit (along);
}

static double
handle_length (Vec2 at, Vec2 handle, Vec2 neighbour_at)
{
  return is_same (at, handle) ? HANDLE_SHARE * vec2_distance (at, neighbour_at) : vec2_distance (at, handle);
}

static void
make_corner (PathNode *node, PathNode *before)
{
  node->in = node->out = node->at;
  node->leaves = SEG_LINE; /* a side stays a curve while a handle at its other end says so */
  if (before)
    before->leaves = SEG_LINE;
}

Hole *
edit_smooth_node (const Hole *hole, size_t part, size_t node, bool smooth, GError **error)
{
  g_auto (Nodes) nodes = { 0 };
  if (!nodes_init (&nodes, hole_part (hole, part), node, error))
    return NULL;
  PathNode *made = &nodes.nodes[node], *before = neighbour (&nodes, node, -1), *after = neighbour (&nodes, node, 1);
  if (smooth && (!before || !after || before == made))
    return refuse (error, EDIT_ERROR_SHAPE, "the line ends here; only a node between two others can be smooth");
  if (!smooth)
    make_corner (made, before);
  else if (!made->is_smooth)
    {
      Vec2 along = tangent_at (made, before->at, after->at);
      double in_m = handle_length (made->at, made->in, before->at), out_m = handle_length (made->at, made->out, after->at);
      made->in = grid_point (vec2_sub (made->at, vec2_scale (along, in_m)));
      made->out = grid_point (vec2_add (made->at, vec2_scale (along, out_m)));
    }
  return put_nodes (hole, part, &nodes, error);
}

/* ---- picking ---- */

bool
edit_pick_node (const Hole *hole, size_t part, Vec2 point, double reach_m, size_t *node, NodeGrip *grip)
{
  const Part *picked = hole_part (hole, part);
  PartShape shape = kind_info (picked->kind)->shape;
  if (shape != SHAPE_AREA && shape != SHAPE_LINE)
    return false;
  PathNode *nodes = NULL;
  size_t n = path_nodes (&picked->path, &nodes);
  double nearest_m = reach_m;
  bool is_found = false;
  for (int g = NODE_AT; g <= NODE_OUT; g++)
    for (size_t i = 0; i < n; i++)
      {
        Vec2 at = g == NODE_AT ? nodes[i].at : g == NODE_IN ? nodes[i].in : nodes[i].out;
        double distance_m = vec2_distance (at, point);
        bool is_there = g == NODE_AT || !is_same (at, nodes[i].at);
        if (!is_there || !(is_found ? distance_m < nearest_m : distance_m <= nearest_m))
          continue;
        nearest_m = distance_m;
        is_found = true;
        *node = i;
        *grip = (NodeGrip)g;
      }
  free (nodes);
  return is_found;
}
