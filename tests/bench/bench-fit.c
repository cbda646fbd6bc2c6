// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Curves through a stroke of 2 000 points, beside GSL's least-squares cubic B-spline through the same stroke. GSL is given what ours finds out: how
 * many pieces it takes, and a stroke without corner or seam. It moves no parameter and measures nothing; both sides' times are for the curve alone.
 */
#include "bench.h"
#include "geometry.h"

#include <gsl/gsl_bspline.h>
#include <gsl/gsl_multifit.h>
#include <stdio.h>
#include <stdlib.h>

#define N_POINTS 2000
#define TOLERANCE_M 0.1
#define CORNER_RAD (PI / 4)
/* Cubic. */
#define ORDER 4
#define MOST_PIECES 256

typedef struct
{
  Vec2 points[N_POINTS];
  double along[N_POINTS]; /* 0 .. 1 by length */
  size_t n_pieces;        /* GSL's */
} Stroke;

/* Up a fairway's edge, 20 cm up between points: bays, and the shaking of a hand of 2 cm. */
static void
draw (Stroke *stroke)
{
  for (size_t i = 0; i < N_POINTS; i++)
    {
      double up_m = 0.2 * (double)i;
      stroke->points[i] = vec2 (12 * sin (up_m / 25) + 4 * sin (up_m / 9) + 0.02 * sin (37 * up_m), up_m);
      stroke->along[i] = i == 0 ? 0 : stroke->along[i - 1] + vec2_distance (stroke->points[i - 1], stroke->points[i]);
    }
  for (size_t i = 0; i < N_POINTS; i++)
    stroke->along[i] /= stroke->along[N_POINTS - 1];
}

/* 1 when the curve is near enough to every point. */
static double
run_fit (void *data)
{
  const Stroke *stroke = data;
  Path path = { 0 };
  double largest_m;
  bool fits = path_fit (stroke->points, N_POINTS, false, TOLERANCE_M, CORNER_RAD, &path, &largest_m);
  path_clear (&path);
  return fits && largest_m <= TOLERANCE_M;
}

/* One coordinate's least squares; adds the square of what each point is off to `squared`. */
static void
fit_coordinate (const gsl_matrix *basis, const gsl_vector *values, double squared[N_POINTS])
{
  size_t n = basis->size2;
  gsl_vector *found = gsl_vector_alloc (n), *left = gsl_vector_alloc (N_POINTS);
  gsl_matrix *covariance = gsl_matrix_alloc (n, n);
  gsl_multifit_linear_workspace *room = gsl_multifit_linear_alloc (N_POINTS, n);
  double sum;
  gsl_multifit_linear (basis, values, found, covariance, &sum, room);
  gsl_multifit_linear_residuals (basis, values, found, left);
  for (size_t i = 0; i < N_POINTS; i++)
    squared[i] += gsl_vector_get (left, i) * gsl_vector_get (left, i);
  gsl_multifit_linear_free (room);
  gsl_matrix_free (covariance);
  gsl_vector_free (left);
  gsl_vector_free (found);
}

static double
run_gsl (void *data)
{
  const Stroke *stroke = data;
  gsl_bspline_workspace *spline = gsl_bspline_alloc (ORDER, stroke->n_pieces + 1);
  gsl_bspline_knots_uniform (0, 1, spline);
  size_t n = gsl_bspline_ncoeffs (spline);
  gsl_matrix *basis = gsl_matrix_alloc (N_POINTS, n);
  gsl_vector *x = gsl_vector_alloc (N_POINTS), *y = gsl_vector_alloc (N_POINTS);
  for (size_t i = 0; i < N_POINTS; i++)
    {
      gsl_vector_view row = gsl_matrix_row (basis, i);
      gsl_bspline_eval (stroke->along[i], &row.vector, spline);
      gsl_vector_set (x, i, stroke->points[i].x);
      gsl_vector_set (y, i, stroke->points[i].y);
    }
  double squared[N_POINTS] = { 0 }, most = 0;
  fit_coordinate (basis, x, squared);
  fit_coordinate (basis, y, squared);
  for (size_t i = 0; i < N_POINTS; i++)
    most = fmax (most, squared[i]);
  gsl_vector_free (y);
  gsl_vector_free (x);
  gsl_matrix_free (basis);
  gsl_bspline_free (spline);
  return sqrt (most) <= TOLERANCE_M;
}

int
main (void)
{
  Stroke *stroke = calloc (1, sizeof *stroke);
  draw (stroke);
  for (stroke->n_pieces = 8; stroke->n_pieces < MOST_PIECES && run_gsl (stroke) < 1;)
    stroke->n_pieces += 4;
  Path path = { 0 };
  double largest_m;
  if (path_fit (stroke->points, N_POINTS, false, TOLERANCE_M, CORNER_RAD, &path, &largest_m))
    printf ("a stroke of %d points: %zu curves, at most %.3f m off; GSL's spline has %zu\n", N_POINTS, path.n_segs - 1,
            largest_m, stroke->n_pieces);
  path_clear (&path);
  bench_compare ("fitting a stroke of 2 000 points", (BenchSide){ "path_fit", run_fit, stroke },
                 (BenchSide){ "GSL B-spline with known pieces", run_gsl, stroke }, 1, 2, 1);
  free (stroke);
  return EXIT_SUCCESS;
}
