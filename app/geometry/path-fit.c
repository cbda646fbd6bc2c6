// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Curves through strokes drawn by hand: its points are made ready (fit-points.c), its runs fitted (fit-pieces.c); here it becomes a path, and
 * how far the drawn points are from that is measured.
 */
#include "fit-private.h"

/* Steps of Newton's method from one drawn point's place on the curve to the next one's. */
#define FOLLOW_STEPS 2
/* Pieces that one point may lie on: that of the fitted point it belongs to, and those beside it. */
#define N_NEAR 3
/* As exact as path_nearest is, in metres: less than that from the curve is on it. */
#define NOTHING_M 1e-9
/* Strokes that go further than this, in metres, are no drawing: far above the size of any course, far below where squares overflow. */
#define FURTHEST_M 1e9

static void
add_pieces (const Stroke *stroke, Path *path)
{
  path_move_to (path, stroke->pieces[0].fit.p[0]);
  for (size_t i = 0; i < stroke->n_pieces; i++)
    {
      const Fit *fit = &stroke->pieces[i].fit;
      bool comes_back = stroke->closed && i + 1 == stroke->n_pieces;
      if (!fit->is_line)
        path_cubic_to (path, fit->p[1], fit->p[2], fit->p[3]);
      else if (!comes_back)
        path_line_to (path, fit->p[3]);
    }
  if (stroke->closed)
    path_close (path);
}

/* Newton's method on a piece from parameter `*t`: a place near `point`, perhaps not the nearest. Returns its distance. */
static double
follow (const Fit *fit, Vec2 point, double *t)
{
  if (fit->is_line)
    return segment_distance (fit->p[0], fit->p[3], point, t);
  for (int i = 0; i < FOLLOW_STEPS; i++)
    {
      Vec2 off = vec2_sub (cubic_at (fit->p, *t), point), slope = cubic_slope (fit->p, *t);
      double steepness = vec2_dot (slope, slope) + vec2_dot (off, cubic_bend (fit->p, *t));
      if (steepness > 0)
        *t = fmin (fmax (*t - vec2_dot (off, slope) / steepness, 0), 1);
    }
  return vec2_distance (cubic_at (fit->p, *t), point);
}

/* Piece k, and those before and behind it, as a path of their own. */
static Path
pieces_near (const Stroke *stroke, size_t k, PathSeg segs[2 * N_NEAR])
{
  Path near = { .segs = segs };
  for (size_t i = 0; i < N_NEAR; i++)
    {
      bool is_beyond = !stroke->closed && (k + i < 1 || k + i > stroke->n_pieces);
      if (is_beyond)
        continue;
      const Fit *fit = &stroke->pieces[(k + i + stroke->n_pieces - 1) % stroke->n_pieces].fit;
      segs[near.n_segs++] = (PathSeg){ .kind = SEG_MOVE, .to = fit->p[0] };
      segs[near.n_segs++]
          = (PathSeg){ .kind = fit->is_line ? SEG_LINE : SEG_CUBIC, .c1 = fit->p[1], .c2 = fit->p[2], .to = fit->p[3] };
    }
  return near;
}

/*
 * Largest distance of a drawn point from the pieces fitted to where it lies. A point that is no further than that from any place of its
 * piece cannot raise it; so places are followed from point to point, and only where that is not enough is the nearest one looked for.
 */
static double
largest_distance (const Stroke *stroke, const Vec2 *points)
{
  double largest_m = 0;
  for (size_t k = 0; k < stroke->n_pieces; k++)
    {
      const Piece *piece = &stroke->pieces[k];
      PathSeg segs[2 * N_NEAR];
      Path near = pieces_near (stroke, k, segs);
      size_t own = !stroke->closed && k == 0 ? 1 : 3;
      double t = 0;
      bool is_last = k + 1 == stroke->n_pieces;
      for (size_t j = piece->first; j < piece->last + is_last; j++)
        for (size_t i = stroke->drawn[j].first; i < stroke->drawn[j].first + stroke->drawn[j].n; i++)
          {
            size_t seg;
            double distance_m = follow (&piece->fit, points[i], &t), at;
            if (distance_m <= fmax (largest_m, NOTHING_M) || !path_nearest (&near, points[i], &seg, &at, &distance_m))
              continue;
            largest_m = fmax (largest_m, distance_m);
            if (seg == own)
              t = at;
          }
    }
  return largest_m;
}

static bool
can_be_fitted (const Vec2 *points, size_t n_points, double tolerance_m, double corner_rad)
{
  for (size_t i = 0; i < n_points; i++)
    if (!(fabs (points[i].x) <= FURTHEST_M && fabs (points[i].y) <= FURTHEST_M))
      return false;
  return n_points > 1 && tolerance_m >= NOTHING_M && isfinite (tolerance_m) && !isnan (corner_rad);
}

bool
path_fit (const Vec2 *points, size_t n_points, bool closed, double tolerance_m, double corner_rad, Path *path,
          double *largest_m)
{
  if (!can_be_fitted (points, n_points, tolerance_m, corner_rad))
    return false;
  Stroke stroke = { .closed = closed, .tolerance_m = tolerance_m };
  stroke.points = geometry_resize (NULL, n_points + 1, sizeof *stroke.points);
  stroke.drawn = geometry_resize (NULL, n_points + 1, sizeof *stroke.drawn);
  stroke_thin (&stroke, points, n_points);
  bool fits = stroke.n_points > 1;
  if (fits)
    {
      if (closed)
        stroke_close (&stroke, corner_rad);
      stroke_fill_long_edges (&stroke);
      stroke_fit (&stroke, corner_rad);
      if (largest_m != NULL)
        *largest_m = largest_distance (&stroke, points);
      add_pieces (&stroke, path);
    }
  stroke_clear (&stroke);
  return fits;
}
