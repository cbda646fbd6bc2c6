// SPDX-License-Identifier: GPL-3.0-or-later
/* A stroke measured along its length: mean directions and places over any part of it. */
#include "fit-private.h"

void
trace_init (Trace *trace, const Vec2 *points, size_t n_points, bool closed)
{
  *trace = (Trace){ .points = points, .n_points = n_points, .closed = closed };
  trace->n_edges = closed ? n_points : n_points - 1;
  trace->arc_m = geometry_resize (NULL, trace->n_edges + 1, sizeof *trace->arc_m);
  trace->integral = geometry_resize (NULL, trace->n_edges + 1, sizeof *trace->integral);
  trace->arc_m[0] = 0;
  trace->integral[0] = vec2 (0, 0);
  for (size_t i = 0; i < trace->n_edges; i++)
    {
      Vec2 a = points[i], b = points[i + 1 < n_points ? i + 1 : 0];
      double edge_m = vec2_distance (a, b);
      Vec2 middle = vec2_sub (vec2_lerp (a, b, 0.5), points[0]);
      trace->arc_m[i + 1] = trace->arc_m[i] + edge_m;
      trace->integral[i + 1] = vec2_add (trace->integral[i], vec2_scale (middle, edge_m));
    }
  trace->length_m = trace->arc_m[trace->n_edges];
}

void
trace_clear (Trace *trace)
{
  free (trace->arc_m);
  free (trace->integral);
  *trace = (Trace){ 0 };
}

/* Edge that holds `at_m`, 0 <= at_m <= length_m. */
static size_t
find_edge (const Trace *trace, double at_m)
{
  size_t low = 0, high = trace->n_edges;
  while (high - low > 1)
    {
      size_t middle = (low + high) / 2;
      if (trace->arc_m[middle] <= at_m)
        low = middle;
      else
        high = middle;
    }
  return low;
}

/* The integral up to `at_m`; a closed stroke goes round and round. */
static Vec2
integral_at (const Trace *trace, double at_m)
{
  double rounds = trace->closed ? floor (at_m / trace->length_m) : 0;
  double within_m = fmin (fmax (at_m - rounds * trace->length_m, 0), trace->length_m);
  size_t i = find_edge (trace, within_m);
  Vec2 a = trace->points[i], b = trace->points[i + 1 < trace->n_points ? i + 1 : 0];
  double edge_m = trace->arc_m[i + 1] - trace->arc_m[i], along_m = within_m - trace->arc_m[i];
  Vec2 middle = vec2_sub (vec2_lerp (a, b, edge_m > 0 ? 0.5 * along_m / edge_m : 0), trace->points[0]);
  Vec2 whole = vec2_scale (trace->integral[trace->n_edges], rounds);
  return vec2_add (whole, vec2_add (trace->integral[i], vec2_scale (middle, along_m)));
}

Vec2
trace_direction (const Trace *trace, double from_m, double to_m)
{
  Vec2 ends = vec2_add (integral_at (trace, from_m), integral_at (trace, to_m));
  return vec2_sub (ends, vec2_scale (integral_at (trace, (from_m + to_m) / 2), 2));
}

/* Mean place over `reach_m` either side, less the first point. */
static Vec2
mean_place (const Trace *trace, double at_m, double reach_m)
{
  Vec2 sum = vec2_sub (integral_at (trace, at_m + reach_m), integral_at (trace, at_m - reach_m));
  return vec2_scale (sum, 1 / (2 * reach_m));
}

/* A mean over r lies r^2/6 of the second derivative beside the stroke, that over r/2 a quarter of it: Richardson's extrapolation. */
Vec2
trace_place (const Trace *trace, double at_m, double reach_m)
{
  Vec2 wide = mean_place (trace, at_m, reach_m), narrow = mean_place (trace, at_m, reach_m / 2);
  Vec2 offset = vec2_scale (vec2_sub (vec2_scale (narrow, 4), wide), 1.0 / 3.0);
  return vec2_add (trace->points[0], offset);
}

double
turn_between (Vec2 a, Vec2 b)
{
  return atan2 (vec2_cross (a, b), vec2_dot (a, b));
}
