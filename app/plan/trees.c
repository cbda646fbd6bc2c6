// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The trees on each way from a place. Edges are gone through once, each for the rays that it crosses, so that a wood of thousands of edges costs no more
 * than its outline.
 */
#include "plan-private.h"

#include <math.h>

/* Rays on which trees are looked for: half a degree is 2 m at a long drive's end, a branch or two. */
#define RAY_RAD (0.5 * PI / 180)
/* Balls go this far off the outermost aims. */
#define RAY_MARGIN_RAD (20 * PI / 180)

/* An edge of an area met on a ray: the winding number changes by `turn` there. */
typedef struct
{
  int ray, turn;
  double at_m;
} Crossing;

typedef struct
{
  int ray;
  Canopy canopy;
} RayCanopy;

typedef struct
{
  Place *place;
  GArray *found;     /* of RayCanopy */
  GArray *crossings; /* of Crossing: of one area */
} Search;

static int
compare (double a, double b)
{
  return (a > b) - (a < b);
}

static int
compare_crossings (const void *a, const void *b)
{
  const Crossing *one = a, *other = b;
  return one->ray != other->ray ? compare (one->ray, other->ray) : compare (one->at_m, other->at_m);
}

static int
compare_canopies (const void *a, const void *b)
{
  const RayCanopy *one = a, *other = b;
  return one->ray != other->ray ? compare (one->ray, other->ray) : compare (one->canopy.near_m, other->canopy.near_m);
}

/* Place among the rays of the way to somewhere; whole numbers are rays. */
static double
ray_of (const Place *place, Vec2 way)
{
  double turn_rad = atan2 (vec2_cross (place->middle_ray, way), vec2_dot (place->middle_ray, way));
  return turn_rad * (1 / RAY_RAD) + 0.5 * (double)(place->n_rays - 1);
}

static Vec2
along_ray (const Place *place, int ray)
{
  double direction = place->first_ray_rad + ray * RAY_RAD;
  return vec2 (cos (direction), sin (direction));
}

static void
add_canopy (Search *search, const Part *part, int ray, double near_m, double far_m)
{
  const Place *place = search->place;
  const Terrain *terrain = hole_terrain (place->input.hole);
  Vec2 at = vec2_add (place->input.ball, vec2_scale (along_ray (place, ray), near_m));
  double height_m = isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M;
  double rise_m = terrain_height (terrain, at) - terrain_height (terrain, place->input.ball);
  double density = part->kind == KIND_TREES ? part->density : TREES_DENSITY;
  RayCanopy canopy = { ray, { near_m, far_m, height_m + rise_m, fmax (0, fmin (1, density)) } };
  if (near_m > 0 && far_m > near_m)
    g_array_append_val (search->found, canopy);
}

/* ---- single trees: circles ---- */

static void
cross_tree (Search *search, const Part *tree)
{
  Vec2 to = vec2_sub (tree->at, search->place->input.ball);
  double distance_m = length_of (to), r = tree->radius_m;
  if (!(distance_m > r))
    return;
  double middle = ray_of (search->place, to), half = asin (r / distance_m) / RAY_RAD;
  int last = (int)fmin ((double)search->place->n_rays - 1, floor (middle + half));
  for (int ray = (int)fmax (0, ceil (middle - half)); ray <= last; ray++)
    {
      Vec2 along = along_ray (search->place, ray);
      double ahead_m = vec2_dot (to, along), beside_m = vec2_cross (along, to);
      double half_m = sqrt (fmax (0, r * r - beside_m * beside_m));
      add_canopy (search, tree, ray, ahead_m - half_m, ahead_m + half_m);
    }
}

/* ---- woods ---- */

/* The rays between two corners of an outline, the short way round. */
static void
cross_edge (Search *search, Vec2 a, Vec2 b, double ray_a, double ray_b)
{
  bool is_left = ray_b > ray_a;
  double low = is_left ? ray_a : ray_b, high = is_left ? ray_b : ray_a;
  if (high - low > PI / RAY_RAD) /* over the seam behind the ball, where no rays are */
    return;
  int last = (int)fmin ((double)search->place->n_rays - 1, ceil (high) - 1);
  for (int ray = (int)fmax (0, ceil (low)); ray <= last; ray++)
    {
      Vec2 along = along_ray (search->place, ray), edge = vec2_sub (b, a);
      double slant = vec2_cross (along, edge);
      Crossing crossing = { ray, is_left ? 1 : -1, slant != 0 ? vec2_cross (a, edge) / slant : length_of (a) };
      if (crossing.at_m > 0)
        g_array_append_val (search->crossings, crossing);
    }
}

/* The stretches of the rays inside an area, from its crossings in order. */
static void
add_stretches (Search *search, const Part *trees)
{
  const Crossing *crossings = (const Crossing *)(const void *)search->crossings->data;
  int from = outline_winding (trees->outline, search->place->input.ball), winding = from, bits = trees->even_odd ? 1 : -1;
  for (guint i = 0; i < search->crossings->len; i++)
    {
      if (i == 0 || crossings[i].ray != crossings[i - 1].ray)
        winding = from;
      winding -= crossings[i].turn;
      bool goes_on = i + 1 < search->crossings->len && crossings[i + 1].ray == crossings[i].ray;
      if ((winding & bits) != 0 && goes_on)
        add_canopy (search, trees, crossings[i].ray, crossings[i].at_m, crossings[i + 1].at_m);
    }
}

static void
cross_trees (Search *search, const Part *trees)
{
  const Outline *outline = trees->outline;
  const Place *place = search->place;
  g_array_set_size (search->crossings, 0);
  for (size_t ring = 0; ring < outline->n_rings; ring++)
    {
      size_t first = outline->ring_starts[ring], end = outline->ring_starts[ring + 1];
      Vec2 before = vec2_sub (outline->points[end - 1], place->input.ball);
      double ray_before = ray_of (place, before);
      for (size_t i = first; i < end; i++)
        {
          Vec2 here = vec2_sub (outline->points[i], place->input.ball);
          double ray_here = ray_of (place, here);
          cross_edge (search, before, here, ray_before, ray_here);
          before = here;
          ray_before = ray_here;
        }
    }
  if (search->crossings->len > 0) /* else it may have no memory at all */
    qsort (search->crossings->data, search->crossings->len, sizeof (Crossing), compare_crossings);
  add_stretches (search, trees);
}

/* ---- all of them ---- */

static void
keep_canopies (Place *place, GArray *found)
{
  qsort (found->data, found->len, sizeof (RayCanopy), compare_canopies);
  place->ray_starts = g_new (size_t, place->n_rays + 1);
  place->canopies = g_new (Canopy, found->len);
  size_t ray = 0;
  for (guint i = 0; i < found->len; i++)
    {
      const RayCanopy *canopy = &g_array_index (found, RayCanopy, i);
      while (ray <= (size_t)canopy->ray)
        place->ray_starts[ray++] = i;
      place->canopies[i] = canopy->canopy;
    }
  while (ray <= place->n_rays)
    place->ray_starts[ray++] = found->len;
}

void
place_find_trees (Place *place)
{
  place->first_ray_rad = place->first_rad - RAY_MARGIN_RAD;
  place->n_rays = 1 + (size_t)ceil ((place->last_rad + RAY_MARGIN_RAD - place->first_ray_rad) / RAY_RAD);
  double middle_rad = place->first_ray_rad + 0.5 * (double)(place->n_rays - 1) * RAY_RAD;
  place->middle_ray = vec2 (cos (middle_rad), sin (middle_rad));
  Search search = { place, g_array_new (FALSE, FALSE, sizeof (RayCanopy)), g_array_new (FALSE, FALSE, sizeof (Crossing)) };
  for (size_t i = 0; i < hole_n_parts (place->input.hole); i++)
    {
      const Part *part = hole_part (place->input.hole, i);
      if (part->kind == KIND_TREE)
        cross_tree (&search, part);
      else if (part->kind == KIND_TREES && part->outline->n_points > 0)
        cross_trees (&search, part);
    }
  if (search.found->len > 0)
    keep_canopies (place, search.found);
  g_array_unref (search.found);
  g_array_unref (search.crossings);
}

/* The ray nearest to a way from the ball: which half degree it is in, for balls by the thousand. */
static double
nearest_ray (const Place *place, Vec2 way)
{
  double ahead = vec2_dot (place->middle_ray, way), beside = vec2_cross (place->middle_ray, way);
  if (!(fabs (beside) <= ahead))
    return floor (ray_of (place, way) + 0.5);
  /* The arc tangent of up to 45 degrees, to 1e-5 (Abramowitz and Stegun, Handbook of Mathematical Functions, 4.4.47). */
  double t = beside / ahead, t2 = t * t;
  double turn_rad = t * (0.9998660 + t2 * (-0.3302995 + t2 * (0.1801410 + t2 * (-0.0851330 + t2 * 0.0208351))));
  return floor (turn_rad * (1 / RAY_RAD) + 0.5 * (double)(place->n_rays - 1) + 0.5);
}

size_t
place_canopies (const Place *place, Vec2 way, const Canopy **canopies)
{
  if (place->ray_starts == NULL)
    return 0;
  double ray = nearest_ray (place, way);
  if (!(ray >= 0 && ray < (double)place->n_rays))
    return 0;
  *canopies = place->canopies + place->ray_starts[(size_t)ray];
  return place->ray_starts[(size_t)ray + 1] - place->ray_starts[(size_t)ray];
}
