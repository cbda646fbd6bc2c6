// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Corners of a stroke drawn by hand. Four lengths of stroke in a row, two before a point and two behind it, have directions
 *
 *         d0 ____ d1 ____ . ____ d2 ____ d3          turn here: d1 to d2;  turns beside it: d0 to d1, d2 to d3
 *
 * A bend turns as much beside the point as at it; a corner turns at it alone. So what counts is how much more the stroke turns here
 * than beside here, where that is the same way. A corner does so over a long reach, which a shaking hand does not, and over a short one,
 * which a narrow bend does not. Near where this is most, the corner is the point furthest out.
 */
#include "fit-private.h"

/* The short reach, in parts of the long one, by trial. */
#define SHORT_REACH 0.5
/* Where in the long reach the short one is tried, and the point furthest out looked for, on either side. */
#define NEAR_REACH 0.5

/* How much more, in radians, the stroke turns at `at_m` than `reach_m` beside it. 0 where an open stroke is too near its end. */
static double
excess_turn (const Trace *trace, double at_m, double reach_m)
{
  if (!trace->closed && (at_m < reach_m || at_m > trace->length_m - reach_m))
    return 0;
  Vec2 before = trace_direction (trace, at_m - reach_m, at_m), behind = trace_direction (trace, at_m, at_m + reach_m);
  double turn = turn_between (before, behind), beside = 0;
  bool has_left = trace->closed || at_m >= 2 * reach_m, has_right = trace->closed || at_m <= trace->length_m - 2 * reach_m;
  if (has_left)
    beside += turn_between (trace_direction (trace, at_m - 2 * reach_m, at_m - reach_m), before);
  if (has_right)
    beside += turn_between (behind, trace_direction (trace, at_m + reach_m, at_m + 2 * reach_m));
  if (has_left && has_right)
    beside /= 2;
  beside = copysign (1, turn) * beside;
  return fabs (turn) - fmax (beside, 0);
}

/* Steps along the stroke's points from point i on (`step` 1) or back (-1) while within `reach_m`. False at the end. */
static bool
walk (const Trace *trace, size_t *i, int step, double *reach_m)
{
  size_t n = trace->n_points;
  if (!trace->closed && *i == (step > 0 ? n - 1 : 0))
    return false;
  size_t next = step > 0 ? (*i + 1) % n : (*i + n - 1) % n;
  *reach_m -= vec2_distance (trace->points[*i], trace->points[next]);
  *i = next;
  return *reach_m >= 0;
}

/* True when no point within `reach_m` along the stroke has a larger excess; the first of several alike. */
static bool
is_peak (const Trace *trace, const double *excess, size_t i, double reach_m)
{
  double left_m = reach_m;
  for (size_t j = i; walk (trace, &j, -1, &left_m) && j != i;)
    if (excess[j] >= excess[i])
      return false;
  left_m = reach_m;
  for (size_t j = i; walk (trace, &j, 1, &left_m) && j != i;)
    if (excess[j] > excess[i])
      return false;
  return true;
}

/* The corner near point i: the point furthest from the line across. False when the stroke nowhere near turns within the short reach. */
static bool
find_corner (const Trace *trace, size_t i, double reach_m, double corner_rad, size_t *corner)
{
  size_t from = i, to = i;
  double left_m = reach_m;
  while (walk (trace, &from, -1, &left_m) && from != i)
    ;
  left_m = reach_m;
  while (walk (trace, &to, 1, &left_m) && to != i)
    ;
  Vec2 a = trace->points[from], across = vec2_sub (trace->points[to], a);
  double most = -1;
  bool turns = false;
  *corner = i;
  for (int step = -1; step <= 1; step += 2)
    {
      size_t j = i;
      left_m = NEAR_REACH * reach_m;
      do
        {
          double out = fabs (vec2_cross (across, vec2_sub (trace->points[j], a)));
          turns = turns || excess_turn (trace, trace->arc_m[j], SHORT_REACH * reach_m) > corner_rad;
          if (out > most)
            {
              most = out;
              *corner = j;
            }
        }
      while (walk (trace, &j, step, &left_m) && j != i);
    }
  return turns;
}

static int
compare_indices (const void *a, const void *b)
{
  size_t i = *(const size_t *)a, j = *(const size_t *)b;
  return (i > j) - (i < j);
}

size_t
trace_corners (const Trace *trace, double reach_m, double corner_rad, size_t **corners)
{
  size_t n = trace->n_points, n_corners = 0;
  double *excess = geometry_resize (NULL, n, sizeof *excess);
  size_t *found = geometry_resize (NULL, n, sizeof *found);
  for (size_t i = 0; i < n; i++)
    excess[i] = excess_turn (trace, trace->arc_m[i], reach_m);
  for (size_t i = 0; i < n; i++)
    if (excess[i] > corner_rad && is_peak (trace, excess, i, reach_m)
        && find_corner (trace, i, reach_m, corner_rad, &found[n_corners]))
      n_corners++;
  qsort (found, n_corners, sizeof *found, compare_indices);
  free (excess);
  *corners = found;
  return n_corners;
}
