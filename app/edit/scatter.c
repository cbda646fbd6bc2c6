// SPDX-License-Identifier: GPL-3.0-or-later
/* Trees scattered along a stroke. */
#include "edit-private.h"

/* One stroke plants no more; closer than this no trees grow. Common practice. */
#define MOST_TREES 1000
#define CLOSEST_M 0.5
/* Largest distance off the stroke and largest canopy that make sense. */
#define WIDEST_SPREAD_M 200.0
#define LARGEST_CANOPY_M 50.0
/* How irregular a wood looks: places vary along the stroke by this share of the spacing, canopies by these shares of the mean. Common practice. */
#define PLACE_JITTER 0.35
#define LEAST_CANOPY 0.7
#define MOST_CANOPY 1.35

static double
stroke_length (const Vec2 *points, size_t n_points)
{
  double length_m = 0;
  for (size_t i = 0; i + 1 < n_points; i++)
    length_m += vec2_distance (points[i], points[i + 1]);
  return length_m;
}

/* Place at a distance along the stroke, and the unit vector along it. */
static Vec2
stroke_point (const Vec2 *points, size_t n_points, double along_m, Vec2 *direction)
{
  size_t i = 0;
  *direction = vec2 (0, 1);
  for (; i + 1 < n_points; i++)
    {
      double length_m = vec2_distance (points[i], points[i + 1]);
      if (length_m > 0)
        *direction = vec2_unit (vec2_sub (points[i + 1], points[i]));
      if (along_m <= length_m)
        return vec2_add (points[i], vec2_scale (*direction, along_m));
      along_m -= length_m;
    }
  return points[n_points - 1];
}

static const Part *
plant_tree (Vec2 at, double radius_m)
{
  Part *tree = part_new (KIND_TREE);
  tree->at = grid_point (at);
  tree->radius_m = grid_length (radius_m);
  return part_seal (tree);
}

static bool
check_scatter (const Vec2 *points, size_t n_points, double spacing_m, double spread_m, double radius_m, GError **error)
{
  const char *why = NULL;
  EditError code = EDIT_ERROR_NUMBER;
  for (size_t i = 0; i < n_points && !why; i++)
    if (!(fabs (points[i].x) <= FARTHEST_M && fabs (points[i].y) <= FARTHEST_M))
      why = "a coordinate is no number within reach; draw the stroke again";
  if (n_points == 0)
    code = EDIT_ERROR_EMPTY, why = "there is no stroke to plant along; drag one";
  else if (!(spacing_m >= CLOSEST_M && spacing_m <= FARTHEST_M))
    why = "trees stand half a metre apart at least; type a larger distance";
  else if (!(spread_m >= 0 && spread_m <= WIDEST_SPREAD_M))
    why = "trees are scattered up to 200 metres off the stroke; type a smaller distance";
  else if (!(radius_m >= SMALLEST_M && radius_m <= LARGEST_CANOPY_M))
    why = "a canopy is 0.05 to 50 metres in radius; type another";
  else if (!why && stroke_length (points, n_points) / spacing_m >= MOST_TREES)
    why = "that would be more than 1000 trees; draw an area of trees, or plant them further apart";
  if (why)
    refuse (error, code, why);
  return why == NULL;
}

Hole *
edit_scatter_trees (const Hole *hole, const Vec2 *points, size_t n_points, double spacing_m, double spread_m, double radius_m,
                    GRand *random, size_t *part, size_t *n_added, GError **error)
{
  if (!check_scatter (points, n_points, spacing_m, spread_m, radius_m, error))
    return NULL;
  size_t n = (size_t)floor (stroke_length (points, n_points) / spacing_m) + 1, place = edit_place_for (hole, KIND_TREE);
  g_autofree const Part **all = g_new (const Part *, hole_n_parts (hole) + n);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    all[i < place ? i : i + n] = part_ref (hole_part (hole, i));
  for (size_t i = 0; i < n; i++)
    {
      Vec2 direction;
      double along_m = ((double)i + g_rand_double_range (random, -PLACE_JITTER, PLACE_JITTER)) * spacing_m;
      Vec2 on_stroke = stroke_point (points, n_points, fmax (0, along_m), &direction);
      double aside_m = spread_m > 0 ? g_rand_double_range (random, -spread_m, spread_m) : 0;
      double canopy_m = fmax (SMALLEST_M, radius_m * g_rand_double_range (random, LEAST_CANOPY, MOST_CANOPY));
      all[place + i] = plant_tree (vec2_add (on_stroke, vec2_scale (vec2_left (direction), aside_m)), canopy_m);
    }
  if (part)
    *part = place;
  if (n_added)
    *n_added = n;
  return hole_with_parts (hole, all, hole_n_parts (hole) + n);
}
