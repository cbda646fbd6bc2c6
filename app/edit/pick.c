// SPDX-License-Identifier: GPL-3.0-or-later
/* Picking: what the pointer means, in the order in which things are painted over each other. */
#include "edit-private.h"

#include <stdlib.h>

/* An eraser's way is looked at in places half a reach apart, in so many at most. */
#define MOST_PLACES 10000

static bool
is_in_reach (const Part *part, Vec2 point, double reach_m)
{
  return !box_is_empty (part->bounds) && box_contains (box_grown (part->bounds, reach_m), point);
}

static bool
image_holds (const Part *image, Vec2 point)
{
  Affine inverse;
  return affine_invert (image->placement, &inverse) && box_contains (image->image_box, affine_apply (inverse, point));
}

/* How far a mark or a note is from the point; INFINITY for what is neither. */
static double
mark_distance (const Part *part, Vec2 point)
{
  PartShape shape = kind_info (part->kind)->shape;
  bool is_mark = (shape == SHAPE_POINT && part->kind != KIND_TREE) || shape == SHAPE_TEXT;
  return is_mark ? vec2_distance (part->at, point) : INFINITY;
}

static double
line_distance (const Part *part, Vec2 point)
{
  double nearest_m = INFINITY;
  Vec2 *points = NULL;
  if (kind_info (part->kind)->shape != SHAPE_LINE)
    return INFINITY;
  size_t n = path_flatten_line (&part->path, FLATTEN_TOLERANCE_M, &points);
  for (size_t i = 0; i + 1 < n; i++)
    nearest_m = fmin (nearest_m, segment_distance (points[i], points[i + 1], point, NULL));
  free (points);
  return nearest_m;
}

static bool
tree_is_at (const Part *part, Vec2 point, double reach_m)
{
  return part->kind == KIND_TREE && vec2_distance (part->at, point) <= fmax (part->radius_m, reach_m);
}

static bool
land_is_at (const Part *part, Vec2 point, double reach_m)
{
  PartShape shape = kind_info (part->kind)->shape;
  if (shape == SHAPE_IMAGE)
    return image_holds (part, point);
  return shape == SHAPE_AREA
         && (outline_contains (part->outline, point) || outline_distance (part->outline, point, NULL) <= reach_m);
}

/* What is pointed at: where, how near, and what is passed over. */
typedef struct
{
  const Hole *hole;
  Vec2 point;
  double reach_m;
  const size_t *without;
  size_t n_without;
} Pointer;

static bool
may_be_picked (const Pointer *pointer, size_t i)
{
  return is_in_reach (hole_part (pointer->hole, i), pointer->point, pointer->reach_m)
         && !selection_holds (pointer->without, pointer->n_without, i);
}

/* The nearest part within reach, of two equally near the upper; -1 for none. */
static int
pick_nearest (const Pointer *pointer, double (*distance) (const Part *, Vec2))
{
  int nearest = -1;
  double nearest_m = pointer->reach_m;
  for (size_t i = 0; i < hole_n_parts (pointer->hole); i++)
    {
      double distance_m = may_be_picked (pointer, i) ? distance (hole_part (pointer->hole, i), pointer->point) : INFINITY;
      if (distance_m <= nearest_m)
        {
          nearest_m = distance_m;
          nearest = (int)i;
        }
    }
  return nearest;
}

static int
pick_topmost (const Pointer *pointer, bool (*is_at) (const Part *, Vec2, double))
{
  for (size_t i = hole_n_parts (pointer->hole); i-- > 0;)
    if (may_be_picked (pointer, i) && is_at (hole_part (pointer->hole, i), pointer->point, pointer->reach_m))
      return (int)i;
  return -1;
}

int
edit_pick (const Hole *hole, Vec2 point, double reach_m, const size_t *without, size_t n_without)
{
  Pointer pointer = { hole, point, reach_m, without, n_without };
  int picked = pick_nearest (&pointer, mark_distance);
  if (picked < 0)
    picked = pick_nearest (&pointer, line_distance);
  if (picked < 0)
    picked = pick_topmost (&pointer, tree_is_at);
  if (picked < 0)
    picked = pick_topmost (&pointer, land_is_at);
  return picked;
}

size_t
edit_pick_box (const Hole *hole, Box box, size_t **parts)
{
  size_t *picked = g_new (size_t, hole_n_parts (hole) + 1), n = 0;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      Box bounds = part->bounds;
      if (part->kind != KIND_PLAN && !box_is_empty (bounds) && box_contains (box, vec2 (bounds.x0, bounds.y0))
          && box_contains (box, vec2 (bounds.x1, bounds.y1)))
        picked[n++] = i;
    }
  *parts = picked;
  return n;
}

/* Does an eraser that passes here strike the part out? */
static bool
is_struck (const Part *part, Vec2 point, double reach_m)
{
  PartShape shape = kind_info (part->kind)->shape;
  return shape != SHAPE_IMAGE && (shape != SHAPE_AREA || outline_distance (part->outline, point, NULL) <= reach_m);
}

size_t
edit_pick_struck (const Hole *hole, Vec2 a, Vec2 b, double reach_m, const size_t *without, size_t n_without, size_t **parts)
{
  size_t *struck = g_new (size_t, hole_n_parts (hole) + 1), n = 0;
  g_autofree bool *is_out = g_new0 (bool, hole_n_parts (hole) + 1);
  double steps = ceil (vec2_distance (a, b) / (reach_m / 2));
  int n_steps = isfinite (steps) ? (int)fmin (fmax (steps, 1), MOST_PLACES) : -1;
  for (int i = 0; i <= n_steps; i++)
    {
      Vec2 at = vec2_lerp (a, b, (double)i / n_steps);
      int part = edit_pick (hole, at, reach_m, without, n_without);
      if (part >= 0 && is_struck (hole_part (hole, (size_t)part), at, reach_m))
        is_out[part] = true;
    }
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (is_out[i])
      struck[n++] = i;
  *parts = struck;
  return n;
}
