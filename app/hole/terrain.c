// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A smooth surface through measured heights: thin-plate spline on scaled coordinates, solved once, and level ground beyond the heights' hull.
 */
#include "terrain-private.h"

#include <gsl/gsl_linalg.h>
#include <stdlib.h>

/* Heights nearer to each other than the ball is wide (42.67 mm, Equipment Rules) are readings of one place. */
#define SAME_PLACE_M 0.04267
/* Heights that stray from a line by less than this share of its length lie on it: nothing is known of the ground across. */
#define COLLINEAR_SHARE 1e-6

struct _Terrain
{
  /* Scaled coordinates: (at - centre) / scale. */
  Vec2 centre;
  double scale_m;
  size_t n_heights;
  double *x, *y, *weights; /* scaled, and of r^2 ln r about each place: of one array, padded */
  SplineHeights heights;   /* the same */
  TerrainSum sum;
  double level_m;
  Vec2 tilt;  /* metres per scaled unit */
  Vec2 *hull; /* metres, anticlockwise; one or two corners when the heights are one place or lie on a line */
  size_t n_hull;
  TerrainNodes *nodes;
};

/* ---- gathering ---- */

/* Copies the finite heights, one for each place, the mean of its readings. Returns how many. */
static size_t
gather (const SpotHeight *heights, size_t n_heights, SpotHeight *kept)
{
  size_t n = 0;
  g_autofree size_t *n_readings = g_new0 (size_t, n_heights + 1);
  for (size_t i = 0; i < n_heights; i++)
    {
      if (!isfinite (heights[i].at.x) || !isfinite (heights[i].at.y) || !isfinite (heights[i].height_m))
        continue;
      size_t k = 0;
      while (k < n && vec2_distance (kept[k].at, heights[i].at) > SAME_PLACE_M)
        k++;
      if (k == n)
        kept[n++] = (SpotHeight){ .at = heights[i].at };
      kept[k].height_m += heights[i].height_m;
      n_readings[k]++;
    }
  for (size_t k = 0; k < n; k++)
    kept[k].height_m /= (double)n_readings[k];
  return n;
}

/* Keeps those that lie farthest from the ones kept before, the first two being the farthest from the first. */
static size_t
thin_out (SpotHeight *heights, size_t n_heights, size_t n_most)
{
  if (n_heights <= n_most)
    return n_heights;
  g_autofree double *away_m = g_new (double, n_heights);
  for (size_t i = 0; i < n_heights; i++)
    away_m[i] = vec2_distance (heights[i].at, heights[0].at);
  for (size_t n = 1; n < n_most; n++)
    {
      size_t far = n;
      for (size_t i = n + 1; i < n_heights; i++)
        if (away_m[i] > away_m[far])
          far = i;
      SpotHeight swapped = heights[n];
      heights[n] = heights[far];
      heights[far] = swapped;
      away_m[far] = away_m[n];
      for (size_t i = n + 1; i < n_heights; i++)
        away_m[i] = fmin (away_m[i], vec2_distance (heights[i].at, heights[n].at));
    }
  return n_most;
}

/* ---- hull ---- */

static int
compare_places (const void *a, const void *b)
{
  const Vec2 *p = a, *q = b;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return p->y < q->y ? -1 : p->y > q->y;
}

/* Drops corners of a growing chain that the next place leaves inside. */
static size_t
chain_add (Vec2 *chain, size_t n, size_t n_least, Vec2 place)
{
  while (n >= n_least && vec2_cross (vec2_sub (chain[n - 1], chain[n - 2]), vec2_sub (place, chain[n - 1])) <= 0)
    n--;
  chain[n++] = place;
  return n;
}

/* Convex hull by monotone chains (Andrew 1979, Another efficient algorithm for convex hulls in two dimensions). */
static void
make_hull (Terrain *terrain, const SpotHeight *heights, size_t n_heights)
{
  g_autofree Vec2 *places = g_new (Vec2, n_heights);
  for (size_t i = 0; i < n_heights; i++)
    places[i] = heights[i].at;
  qsort (places, n_heights, sizeof *places, compare_places);
  Vec2 *hull = g_new (Vec2, 2 * n_heights + 1);
  size_t n = 0;
  for (size_t i = 0; i < n_heights; i++)
    n = chain_add (hull, n, 2, places[i]);
  size_t n_lower = n + 1;
  for (size_t i = n_heights - 1; i-- > 0;)
    n = chain_add (hull, n, n_lower, places[i]);
  terrain->hull = hull;
  terrain->n_hull = n > 1 ? n - 1 : n; /* the first corner came round again */
}

static bool
is_inside (const Terrain *terrain, Vec2 at)
{
  bool is_left = terrain->n_hull > 2;
  for (size_t i = 0; i < terrain->n_hull && is_left; i++)
    {
      Vec2 a = terrain->hull[i], b = terrain->hull[i + 1 < terrain->n_hull ? i + 1 : 0];
      is_left = vec2_cross (vec2_sub (b, a), vec2_sub (at, a)) >= 0;
    }
  return is_left;
}

/* The nearest point of the hull; `*edge` is the unit direction of the edge it lies on, (0,0) at a corner. False when the place is inside. */
static bool
nearest_on_hull (const Terrain *terrain, Vec2 at, Vec2 *nearest, Vec2 *edge)
{
  if (is_inside (terrain, at))
    return false;
  double least = INFINITY; /* which all are, far enough away */
  *nearest = terrain->hull[0];
  *edge = vec2 (0, 0);
  for (size_t i = 0; i < terrain->n_hull; i++)
    {
      Vec2 a = terrain->hull[i], b = terrain->hull[(i + 1) % terrain->n_hull], ab = vec2_sub (b, a);
      double length2 = vec2_dot (ab, ab), t = length2 > 0 ? vec2_dot (vec2_sub (at, a), ab) / length2 : 0;
      bool is_corner = t <= 0 || t >= 1;
      Vec2 point = vec2_lerp (a, b, fmin (1, fmax (0, t))), from = vec2_sub (at, point);
      double distance2 = vec2_dot (from, from);
      if (distance2 < least)
        {
          least = distance2;
          *nearest = point;
          *edge = is_corner ? vec2 (0, 0) : vec2_scale (ab, 1 / sqrt (length2));
        }
    }
  return true;
}

/* ---- the spline ---- */

/* r^2 ln r from r^2. */
static double
kernel (double r2)
{
  return r2 > 0 ? 0.5 * r2 * log (r2) : 0;
}

static Vec2
to_scaled (const Terrain *terrain, Vec2 at)
{
  return vec2_scale (vec2_sub (at, terrain->centre), 1 / terrain->scale_m);
}

static Vec2
place_of (const Terrain *terrain, size_t i)
{
  return vec2 (terrain->x[i], terrain->y[i]);
}

/*
 * Directions in which the heights say how the ground tilts: two, one when they lie on a line, none for one place. Found as the principal
 * axes of the scaled places.
 */
static size_t
tilt_directions (const Terrain *terrain, Vec2 directions[2])
{
  double xx = 0, xy = 0, yy = 0;
  for (size_t i = 0; i < terrain->n_heights; i++)
    {
      Vec2 p = place_of (terrain, i);
      xx += p.x * p.x, xy += p.x * p.y, yy += p.y * p.y;
    }
  double angle = 0.5 * atan2 (2 * xy, xx - yy), mean = (xx + yy) / 2, half = hypot ((xx - yy) / 2, xy);
  directions[0] = vec2 (cos (angle), sin (angle));
  directions[1] = vec2_left (directions[0]);
  double most = mean + half, least = mean - half;
  return !(most > 0) ? 0 : least > most * COLLINEAR_SHARE * COLLINEAR_SHARE ? 2 : 1;
}

/* Solves for weights, level and tilt: the spline meets each height, and the weights hold no plane of their own. */
static void
solve (Terrain *terrain, const SpotHeight *heights)
{
  Vec2 directions[2];
  size_t n = terrain->n_heights, n_tilts = tilt_directions (terrain, directions), size = n + 1 + n_tilts;
  gsl_matrix *matrix = gsl_matrix_calloc (size, size);
  gsl_vector *right = gsl_vector_calloc (size), *solution = gsl_vector_calloc (size);
  gsl_permutation *order = gsl_permutation_alloc (size);
  for (size_t i = 0; i < n; i++)
    {
      Vec2 p = place_of (terrain, i);
      for (size_t k = 0; k < n; k++)
        {
          Vec2 d = vec2_sub (p, place_of (terrain, k));
          gsl_matrix_set (matrix, i, k, kernel (vec2_dot (d, d)));
        }
      gsl_matrix_set (matrix, i, n, 1);
      gsl_matrix_set (matrix, n, i, 1);
      for (size_t j = 0; j < n_tilts; j++)
        {
          gsl_matrix_set (matrix, i, n + 1 + j, vec2_dot (p, directions[j]));
          gsl_matrix_set (matrix, n + 1 + j, i, vec2_dot (p, directions[j]));
        }
      gsl_vector_set (right, i, heights[i].height_m);
    }
  int sign;
  gsl_linalg_LU_decomp (matrix, order, &sign);
  gsl_linalg_LU_solve (matrix, order, right, solution);
  for (size_t i = 0; i < n; i++)
    terrain->weights[i] = gsl_vector_get (solution, i);
  terrain->level_m = gsl_vector_get (solution, n);
  for (size_t j = 0; j < n_tilts; j++)
    terrain->tilt = vec2_add (terrain->tilt, vec2_scale (directions[j], gsl_vector_get (solution, n + 1 + j)));
  gsl_permutation_free (order);
  gsl_vector_free (right);
  gsl_vector_free (solution);
  gsl_matrix_free (matrix);
}

Terrain *
terrain_new (const SpotHeight *heights, size_t n_heights)
{
  g_autofree SpotHeight *kept = g_new (SpotHeight, n_heights + 1);
  size_t n = thin_out (kept, gather (heights, n_heights, kept), TERRAIN_MOST_HEIGHTS);
  if (n == 0)
    return NULL;
  Terrain *terrain = g_new0 (Terrain, 1);
  terrain->nodes = terrain_nodes_new ();
  terrain->n_heights = n;
  size_t n_padded = (n + SPLINE_GROUP - 1) / SPLINE_GROUP * SPLINE_GROUP;
  terrain->x = g_new0 (double, 3 * n_padded);
  terrain->y = terrain->x + n_padded;
  terrain->weights = terrain->y + n_padded;
  terrain->heights = (SplineHeights){ terrain->x, terrain->y, terrain->weights, n_padded };
  terrain->sum = terrain_sum ();
  for (size_t i = 0; i < n; i++)
    terrain->centre = vec2_add (terrain->centre, vec2_scale (kept[i].at, 1 / (double)n));
  for (size_t i = 0; i < n; i++)
    terrain->scale_m = fmax (terrain->scale_m, vec2_distance (kept[i].at, terrain->centre));
  if (!(terrain->scale_m > 0))
    terrain->scale_m = 1;
  for (size_t i = 0; i < n; i++)
    {
      Vec2 place = to_scaled (terrain, kept[i].at);
      terrain->x[i] = place.x;
      terrain->y[i] = place.y;
    }
  make_hull (terrain, kept, n);
  solve (terrain, kept);
  return terrain;
}

void
terrain_free (Terrain *terrain)
{
  if (terrain == NULL)
    return;
  g_free (terrain->x);
  g_free (terrain->hull);
  terrain_nodes_free (terrain->nodes);
  g_free (terrain);
}

/* Height, and the slope in metres per scaled unit, of the spline itself at a scaled place. */
static double
spline_at (const Terrain *terrain, Vec2 p, Vec2 *slope)
{
  SplineSum sum = terrain->sum (&terrain->heights, p);
  *slope = vec2_add (terrain->tilt, sum.slope);
  return terrain->level_m + vec2_dot (terrain->tilt, p) + sum.height;
}

void
terrain_look (const Terrain *terrain, Vec2 at, double *height_m, Vec2 *slope)
{
  Vec2 nearest = at, edge = { 0, 0 };
  bool is_outside = nearest_on_hull (terrain, at, &nearest, &edge);
  *height_m = spline_at (terrain, to_scaled (terrain, nearest), slope);
  *slope = vec2_scale (*slope, 1 / terrain->scale_m);
  if (is_outside)
    *slope = vec2_scale (edge, vec2_dot (*slope, edge));
}

double
terrain_height (const Terrain *terrain, Vec2 at)
{
  double height_m = 0;
  Vec2 slope;
  if (terrain != NULL)
    terrain_look (terrain, at, &height_m, &slope);
  return height_m;
}

Vec2
terrain_slope (const Terrain *terrain, Vec2 at)
{
  double height_m;
  Vec2 slope = { 0, 0 };
  if (terrain != NULL)
    terrain_look (terrain, at, &height_m, &slope);
  return slope;
}

bool
terrain_covers (const Terrain *terrain, Vec2 at)
{
  return terrain != NULL && is_inside (terrain, at);
}

TerrainNodes *
terrain_nodes (const Terrain *terrain)
{
  return terrain->nodes;
}
