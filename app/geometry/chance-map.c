// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The chance of a normal distribution over areas.
 *
 * Seen in deviations from the mean, u along the distribution's first vector and v along its second, the distribution is the round one, and by Green's
 * theorem the chance of an area is the integral of Phi(u) phi(v) dv round it. A chain of edges is left out where phi(v) or Phi(u) is nothing, and where Phi(u) is 1 what counts of
 * it are its ends alone; else its edges are integrated one by one. An edge that is long in deviations is first cut to where the distribution is.
 */
#include "chance-private.h"

/* Beyond so many deviations there is nothing: 1e-11 of the distribution in all. */
#define NOTHING_BEYOND_SDS 7.0
/* Pieces that one long edge is cut into: it has at most the diagonal of what is left. */
#define MOST_PIECES 32

/* The way into deviations. */
typedef struct
{
  Vec2 mean, to_u, to_v;
  double stretch_per_m; /* by which a length grows at most */
  ChanceSum sum;
} Whitening;

static ChanceSum
choose_sum (void)
{
#if defined __x86_64__
  if (__builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("avx512vl"))
    return chance_sum_avx512;
  if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    return chance_sum_avx2;
#endif
  return chance_sum;
}

static inline Vec2
whiten (const Whitening *way, Vec2 at)
{
  Vec2 from = vec2_sub (at, way->mean);
  return vec2 (vec2_dot (way->to_u, from), vec2_dot (way->to_v, from));
}

static double
normal_cdf (double z)
{
  return 0.5 * erfc (-z * sqrt (0.5));
}

/* ---- long edges ---- */

/* The part of a-b, both in deviations, with its first coordinate (`axis` 0) or second between two ends; false when there is none. */
static bool
clip (Vec2 *a, Vec2 *b, int axis, double low, double high)
{
  double from = axis == 0 ? a->x : a->y, to = axis == 0 ? b->x : b->y, t0 = 0, t1 = 1;
  if (from == to)
    return from >= low && from <= high;
  double at_low = (low - from) / (to - from), at_high = (high - from) / (to - from);
  t0 = fmax (t0, fmin (at_low, at_high));
  t1 = fmin (t1, fmax (at_low, at_high));
  if (!(t0 < t1))
    return false;
  Vec2 start = *a, end = *b;
  *a = t0 > 0 ? vec2_lerp (start, end, t0) : start;
  *b = t1 < 1 ? vec2_lerp (start, end, t1) : end;
  return true;
}

static double
integrate_long (const Whitening *way, Vec2 a, Vec2 b)
{
  double whole = 0;
  if (!clip (&a, &b, 1, -NOTHING_BEYOND_SDS, NOTHING_BEYOND_SDS))
    return 0;
  Vec2 right_a = a, right_b = b;
  if (clip (&right_a, &right_b, 0, NOTHING_BEYOND_SDS, INFINITY))
    whole = normal_cdf (right_b.y) - normal_cdf (right_a.y);
  if (!clip (&a, &b, 0, -NOTHING_BEYOND_SDS, NOTHING_BEYOND_SDS))
    return whole;
  double u[MOST_PIECES + 1], v[MOST_PIECES + 1], length = vec2_distance (a, b);
  size_t n = (size_t)fmin (MOST_PIECES, CHAIN_PAD * ceil (fmax (1, length / LONGEST_EDGE_SDS) / CHAIN_PAD));
  for (size_t i = 0; i <= n; i++)
    {
      Vec2 at = i == n ? b : vec2_lerp (a, b, (double)i / (double)n);
      u[i] = at.x;
      v[i] = at.y;
    }
  return whole + way->sum (u, v, n, length / (double)n);
}

/* ---- chains ---- */

static double
integrate_chain (const Whitening *way, const ChanceMap *map, const Chain *chain)
{
  Vec2 centre = whiten (way, chain->centre);
  double half_u = fabs (way->to_u.x) * chain->half.x + fabs (way->to_u.y) * chain->half.y;
  double half_v = fabs (way->to_v.x) * chain->half.x + fabs (way->to_v.y) * chain->half.y;
  if (fabs (centre.y) - half_v > NOTHING_BEYOND_SDS || centre.x + half_u < -NOTHING_BEYOND_SDS)
    return 0;
  const double *x = map->x + chain->first, *y = map->y + chain->first;
  size_t n = chain->n_edges;
  if (centre.x - half_u > NOTHING_BEYOND_SDS)
    return normal_cdf (whiten (way, vec2 (x[n], y[n])).y) - normal_cdf (whiten (way, vec2 (x[0], y[0])).y);
  double longest_sds = chain->longest_m * way->stretch_per_m;
  if (longest_sds > LONGEST_EDGE_SDS)
    {
      double sum = 0;
      for (size_t i = 0; i < n; i++)
        sum += integrate_long (way, whiten (way, vec2 (x[i], y[i])), whiten (way, vec2 (x[i + 1], y[i + 1])));
      return sum;
    }
  double u[MOST_CHAIN_EDGES + 1], v[MOST_CHAIN_EDGES + 1];
  n = (n + CHAIN_PAD - 1) / CHAIN_PAD * CHAIN_PAD;
  for (size_t i = 0; i <= n; i++)
    {
      Vec2 at = whiten (way, vec2 (x[i], y[i]));
      u[i] = at.x;
      v[i] = at.y;
    }
  return way->sum (u, v, n, longest_sds);
}

bool
normal_is_finite (const Normal *normal)
{
  return vec2_is_finite (normal->mean) && vec2_is_finite (normal->a) && vec2_is_finite (normal->b);
}

bool
chance_map_integrate (const ChanceMap *map, const Normal *normal, double *chances)
{
  double area = vec2_cross (normal->a, normal->b), long2 = vec2_dot (normal->a, normal->a) + vec2_dot (normal->b, normal->b);
  if (!normal_is_finite (normal) || !isfinite (long2))
    return false;
  for (size_t g = 0; g <= map->n_groups; g++)
    chances[g] = 0;
  /* The narrower deviation is about area over the wider one. */
  if (!(fabs (area) > THIN_M * sqrt (long2)))
    chance_map_add_thin (map, normal, chances);
  else
    {
      Whitening way = { .mean = normal->mean,
                        .to_u = vec2_scale (vec2 (normal->b.y, -normal->b.x), 1 / area),
                        .to_v = vec2_scale (vec2 (-normal->a.y, normal->a.x), 1 / area),
                        .stretch_per_m = sqrt (long2) / fabs (area),
                        .sum = choose_sum () };
      double sign = area > 0 ? 1 : -1; /* mirrored, an area lies on the other side of its edges */
      for (size_t c = 0; c < map->n_chains; c++)
        {
          const Chain *chain = &map->chains[c];
          double value = sign * integrate_chain (&way, map, chain);
          chances[chain->left] += value;
          if (chain->right >= 0)
            chances[chain->right] -= value;
        }
    }
  double covered = 0;
  for (size_t g = 0; g < map->n_groups; g++)
    covered += chances[g] = fmax (0, chances[g]);
  chances[map->n_groups] = fmax (0, 1 - covered);
  return true;
}
