// SPDX-License-Identifier: GPL-3.0-or-later
/* Paths as a person edits them: nodes with handles, there and back, and a segment split in two. */
#include "geometry-private.h"

#include <assert.h>

/*
 * A subpath that comes back this near to its start, in metres, has come back: relative coordinates in files add up to a
 * rounding beside it, and nothing is drawn finer than a millimetre.
 */
#define SAME_PLACE_M 1e-6
/* Handles that turn by less than this where they meet are in one line; the degree is a choice, common practice. */
#define SMOOTH_RAD (PI / 180)

/* Segments first .. end - 1 are one subpath: what its opening move (or the close before it) goes to, and all that it draws. */
typedef struct
{
  Vec2 start;
  size_t first, end; /* the segments drawn, SEG_CLOSE left out */
  size_t next;       /* segment where the next subpath is looked for */
  bool is_closed;
} Subpath;

static Subpath
find_subpath (const Path *path, size_t i)
{
  Subpath subpath = { .start = i > 0 ? path->segs[i - 1].to : vec2 (0, 0), .first = i };
  if (path->segs[i].kind == SEG_MOVE)
    {
      subpath.start = path->segs[i].to;
      subpath.first = i + 1;
    }
  size_t end = subpath.first;
  while (end < path->n_segs && path->segs[end].kind != SEG_MOVE && path->segs[end].kind != SEG_CLOSE)
    end++;
  subpath.is_closed = end < path->n_segs && path->segs[end].kind == SEG_CLOSE;
  subpath.end = end;
  subpath.next = subpath.is_closed ? end + 1 : end;
  return subpath;
}

static bool
handles_are_in_line (const PathNode *node)
{
  Vec2 in = vec2_sub (node->at, node->in), out = vec2_sub (node->out, node->at);
  if (vec2_equal (in, vec2 (0, 0)) || vec2_equal (out, vec2 (0, 0)))
    return false;
  return fabs (atan2 (vec2_cross (in, out), vec2_dot (in, out))) < SMOOTH_RAD;
}

/* The subpath's nodes; returns how many, at most one more than its segments. */
static size_t
add_subpath_nodes (const Path *path, const Subpath *subpath, PathNode *nodes)
{
  size_t n = 1, n_drawn = subpath->end - subpath->first;
  nodes[0] = (PathNode){ .at = subpath->start, .in = subpath->start, .out = subpath->start, .starts = true };
  for (size_t k = 0; k < n_drawn; k++)
    {
      const PathSeg *seg = &path->segs[subpath->first + k];
      bool comes_back = subpath->is_closed && k + 1 == n_drawn && vec2_distance (seg->to, subpath->start) <= SAME_PLACE_M;
      PathNode *from = &nodes[n - 1], *to = comes_back ? &nodes[0] : &nodes[n];
      if (!comes_back)
        nodes[n++] = (PathNode){ .at = seg->to, .in = seg->to, .out = seg->to };
      from->leaves = seg->kind;
      if (seg->kind == SEG_CUBIC)
        {
          from->out = seg->c1;
          to->in = seg->c2;
        }
      if (!comes_back)
        to->leaves = subpath->is_closed ? SEG_CLOSE : SEG_MOVE;
    }
  if (n_drawn == 0 && subpath->is_closed)
    nodes[0].leaves = SEG_CLOSE;
  for (size_t k = 0; k < n; k++)
    {
      nodes[k].is_closed = subpath->is_closed;
      nodes[k].is_smooth = handles_are_in_line (&nodes[k]);
    }
  return n;
}

size_t
path_nodes (const Path *path, PathNode **nodes)
{
  /* A subpath has a node more than segments that draw, and a move or a close besides those. */
  PathNode *found = geometry_resize (NULL, path->n_segs + 1, sizeof *found);
  size_t n = 0;
  for (size_t i = 0; i < path->n_segs;)
    {
      Subpath subpath = find_subpath (path, i);
      n += add_subpath_nodes (path, &subpath, found + n);
      i = subpath.next;
    }
  *nodes = found;
  return n;
}

/* True when a curve runs between the nodes. A handle away from its node says so, whatever the kind was. */
static bool
is_curved (const PathNode *from, const PathNode *to)
{
  return from->leaves == SEG_CUBIC || !vec2_equal (from->out, from->at) || !vec2_equal (to->in, to->at);
}

/* One subpath: nodes[0] and those behind it that start none. Returns how many. */
static size_t
add_subpath (Path *path, const PathNode *nodes, size_t n_nodes)
{
  size_t n = 1;
  path_move_to (path, nodes[0].at);
  for (; n < n_nodes && !nodes[n].starts; n++)
    if (is_curved (&nodes[n - 1], &nodes[n]))
      path_cubic_to (path, nodes[n - 1].out, nodes[n].in, nodes[n].at);
    else
      path_line_to (path, nodes[n].at);
  if (!nodes[0].is_closed)
    return n;
  const PathNode *last = &nodes[n - 1];
  if (is_curved (last, &nodes[0]))
    path_cubic_to (path, last->out, nodes[0].in, nodes[0].at);
  else if (last->leaves == SEG_LINE)
    path_line_to (path, nodes[0].at);
  path_close (path);
  return n;
}

void
path_add_nodes (Path *path, const PathNode *nodes, size_t n_nodes)
{
  for (size_t i = 0; i < n_nodes;)
    i += add_subpath (path, nodes + i, n_nodes - i);
}

void
path_seg_split (Vec2 from, PathSeg seg, double t, PathSeg *first, PathSeg *second)
{
  assert (seg.kind != SEG_MOVE && t >= 0 && t <= 1);
  if (seg.kind != SEG_CUBIC)
    {
      *first = (PathSeg){ .kind = SEG_LINE, .to = vec2_lerp (from, seg.to, t) };
      *second = seg;
      return;
    }
  Vec2 a = vec2_lerp (from, seg.c1, t), b = vec2_lerp (seg.c1, seg.c2, t), c = vec2_lerp (seg.c2, seg.to, t);
  Vec2 ab = vec2_lerp (a, b, t), bc = vec2_lerp (b, c, t);
  *first = (PathSeg){ .kind = SEG_CUBIC, .c1 = a, .c2 = ab, .to = vec2_lerp (ab, bc, t) };
  *second = (PathSeg){ .kind = SEG_CUBIC, .c1 = bc, .c2 = c, .to = seg.to };
}
