// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The points of a stroke made ready for fitting: thinned, closed at the seam, put along long straight edges, turned to where a closed one
 * is to begin. Each keeps count of the drawn points it stands for.
 */
#include "fit-private.h"

/* Points nearer to the last one kept than this part of the tolerance are passed over; the curves get what that leaves of it. */
#define THIN_PART 0.1
/* Edges this many times longer than the median one are straight and get points along them, this many at most, so that no curve bulges there. */
#define LONG_EDGE 4.0
#define MOST_EXTRA 16.0
/* Points nearer than this to each other, in metres, are one: rounding, and far below any tolerance that is taken. */
#define APART_M 1e-12

void
stroke_thin (Stroke *stroke, const Vec2 *points, size_t n_points)
{
  double apart_m = THIN_PART * stroke->tolerance_m, most_m = 0;
  size_t n = 0;
  for (size_t i = 0; i < n_points; i++)
    {
      double distance_m = n > 0 ? vec2_distance (stroke->points[n - 1], points[i]) : INFINITY;
      bool is_end = i + 1 == n_points && !stroke->closed && distance_m > APART_M;
      if (distance_m <= apart_m && !is_end)
        {
          most_m = fmax (most_m, distance_m);
          stroke->drawn[n - 1].n++;
          continue;
        }
      stroke->drawn[n] = (Drawn){ i, 1 };
      stroke->points[n++] = points[i];
    }
  while (stroke->closed && n > 1 && vec2_distance (stroke->points[n - 1], stroke->points[0]) <= APART_M)
    {
      n--;
      stroke->drawn[n - 1].n += stroke->drawn[n].n;
    }
  stroke->n_points = n;
  stroke->tolerance_m -= most_m;
}

static int
compare_lengths (const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* How many pieces an edge is cut in. */
static size_t
edge_pieces (double edge_m, double median_m)
{
  return edge_m > LONG_EDGE * median_m ? (size_t)fmin (ceil (edge_m / median_m), MOST_EXTRA) : 1;
}

void
stroke_fill_long_edges (Stroke *stroke)
{
  size_t n = stroke->n_points, n_edges = stroke->closed ? n : n - 1, n_filled = 0;
  double *sorted = geometry_resize (NULL, n_edges, sizeof *sorted);
  for (size_t i = 0; i < n_edges; i++)
    sorted[i] = vec2_distance (stroke->points[i], stroke->points[(i + 1) % n]);
  qsort (sorted, n_edges, sizeof *sorted, compare_lengths);
  double median_m = sorted[n_edges / 2];
  free (sorted);
  Vec2 *filled = NULL;
  Drawn *drawn = NULL;
  size_t capacity = 0, drawn_capacity = 0;
  for (size_t i = 0; i < n; i++)
    {
      Vec2 a = stroke->points[i], b = stroke->points[(i + 1) % n];
      size_t n_pieces = i < n_edges ? edge_pieces (vec2_distance (a, b), median_m) : 1;
      for (size_t k = 0; k < n_pieces; k++)
        {
          filled = geometry_make_room (filled, n_filled + 1, &capacity, sizeof *filled);
          drawn = geometry_make_room (drawn, n_filled + 1, &drawn_capacity, sizeof *drawn);
          drawn[n_filled] = k == 0 ? stroke->drawn[i] : (Drawn){ 0, 0 };
          filled[n_filled++] = vec2_lerp (a, b, (double)k / (double)n_pieces);
        }
    }
  free (stroke->points);
  free (stroke->drawn);
  stroke->points = geometry_resize (filled, n_filled + 1, sizeof *filled);
  stroke->drawn = geometry_resize (drawn, n_filled + 1, sizeof *drawn);
  stroke->n_points = n_filled;
  stroke->t = geometry_resize (stroke->t, n_filled + 1, sizeof *stroke->t);
}

void
stroke_close (Stroke *stroke, double corner_rad)
{
  double length_m = 0;
  for (size_t i = 1; i < stroke->n_points; i++)
    length_m += vec2_distance (stroke->points[i - 1], stroke->points[i]);
  double reach_m = fmin (JOINT_REACH * stroke->tolerance_m, MOST_REACH * length_m);
  Closing closing = seam_close (stroke->points, stroke->n_points, reach_m, stroke->tolerance_m, corner_rad);
  for (size_t i = 0; i < closing.n_eased_first; i++)
    stroke->drawn[closing.first + i].n = 0;
  for (size_t i = 0; i < closing.n_eased_last; i++)
    stroke->drawn[closing.first + closing.n_points - 1 - i].n = 0;
  size_t n = 0;
  for (size_t i = closing.first; i < closing.first + closing.n_points; i++)
    if (n == 0 || vec2_distance (stroke->points[n - 1], stroke->points[i]) > APART_M)
      {
        stroke->drawn[n] = stroke->drawn[i];
        stroke->points[n++] = stroke->points[i];
      }
  while (n > 1 && vec2_distance (stroke->points[n - 1], stroke->points[0]) <= APART_M)
    n--;
  stroke->n_points = n;
}

void
stroke_start_at (Stroke *stroke, size_t first)
{
  size_t n = stroke->n_points;
  Vec2 *points = geometry_resize (NULL, n + 1, sizeof *points);
  Drawn *drawn = geometry_resize (NULL, n + 1, sizeof *drawn);
  for (size_t i = 0; i <= n; i++)
    {
      points[i] = stroke->points[(first + i) % n];
      drawn[i] = i < n ? stroke->drawn[(first + i) % n] : (Drawn){ 0, 0 };
    }
  trace_clear (&stroke->trace);
  free (stroke->points);
  free (stroke->drawn);
  stroke->points = points;
  stroke->drawn = drawn;
  trace_init (&stroke->trace, stroke->points, stroke->n_points, true);
}

void
stroke_clear (Stroke *stroke)
{
  trace_clear (&stroke->trace);
  free (stroke->points);
  free (stroke->drawn);
  free (stroke->t);
  free (stroke->pieces);
}
