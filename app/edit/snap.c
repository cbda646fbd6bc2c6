// SPDX-License-Identifier: GPL-3.0-or-later
/* Snapping: points before the line of play before outlines before round distances from the tee. */
#include "edit-private.h"

#include <stdlib.h>

/* The search so far: the nearest of one kind of thing. */
typedef struct
{
  Vec2 point;
  double nearest_m;
  Snap snap;
} Search;

static void
offer (Search *search, SnapKind kind, Vec2 at, int part)
{
  double distance_m = vec2_distance (search->point, at);
  if (!(distance_m <= search->nearest_m) || (search->snap.kind == kind && distance_m == search->nearest_m))
    return;
  search->nearest_m = distance_m;
  search->snap.kind = kind;
  search->snap.at = at;
  search->snap.part = part;
}

static bool
is_in_reach (const Search *search, const Part *part)
{
  return !box_is_empty (part->bounds) && box_contains (box_grown (part->bounds, search->nearest_m), search->point);
}

static void
search_points (Search *search, const Part *part, int index)
{
  PartShape shape = kind_info (part->kind)->shape;
  if (shape == SHAPE_POINT || shape == SHAPE_TEXT)
    offer (search, SNAP_POINT, part->at, index);
  if ((shape == SHAPE_AREA || shape == SHAPE_LINE) && is_in_reach (search, part))
    for (size_t i = 0; i < part->path.n_segs; i++)
      offer (search, SNAP_POINT, part->path.segs[i].to, index);
}

static void
search_line (Search *search, const Part *part, int index)
{
  Vec2 *points = NULL;
  if (part->kind != KIND_LINE_OF_PLAY || !is_in_reach (search, part))
    return;
  size_t n = path_flatten_line (&part->path, FLATTEN_TOLERANCE_M, &points);
  for (size_t i = 0; i + 1 < n; i++)
    {
      double t = 0;
      segment_distance (points[i], points[i + 1], search->point, &t);
      offer (search, SNAP_LINE, vec2_lerp (points[i], points[i + 1], t), index);
    }
  free (points);
}

static void
search_edges (Search *search, const Part *part, int index)
{
  Vec2 nearest;
  if (part->outline && is_in_reach (search, part) && outline_distance (part->outline, search->point, &nearest) < INFINITY)
    offer (search, SNAP_EDGE, nearest, index);
}

static void
search_distance (Search *search, const Hole *hole, double round_m)
{
  int tee = hole_tee (hole, NULL);
  if (tee < 0 || !(round_m > 0) || !isfinite (round_m))
    return;
  Vec2 from = hole_part (hole, (size_t)tee)->at, away = vec2_sub (search->point, from);
  double distance_m = round (vec2_length (away) / round_m) * round_m;
  if (!(distance_m > 0))
    return;
  offer (search, SNAP_DISTANCE, vec2_add (from, vec2_scale (vec2_unit (away), distance_m)), tee);
  if (search->snap.kind == SNAP_DISTANCE)
    search->snap.distance_m = distance_m;
}

Snap
edit_snap (const Hole *hole, Vec2 point, double reach_m, double round_m, const size_t *without, size_t n_without)
{
  static void (*const searches[]) (Search *, const Part *, int) = { search_points, search_line, search_edges };
  Search search = { .point = point, .nearest_m = reach_m, .snap = { SNAP_NONE, point, -1, NAN } };
  for (size_t k = 0; k < G_N_ELEMENTS (searches) && search.snap.kind == SNAP_NONE; k++)
    for (size_t i = 0; i < hole_n_parts (hole); i++)
      if (!selection_holds (without, n_without, i))
        searches[k](&search, hole_part (hole, i), (int)i);
  if (search.snap.kind == SNAP_NONE)
    search_distance (&search, hole, round_m);
  search.snap.at = grid_point (search.snap.at);
  return search.snap;
}
