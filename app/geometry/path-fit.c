// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Curves through a stroke drawn by hand: its points thinned, its seam closed, its corners found, and the runs between them fitted with
 * cubics that are split until they come near enough and joined again where one does for two.
 */
#include "fit-private.h"

/* Points nearer to the last one kept than this part of the tolerance are passed over; the curves get what that leaves of it. */
#define THIN_PART 0.1
/* Edges this many times longer than the median one are straight and get points along them, this many at most, so that no curve bulges there. */
#define LONG_EDGE 4.0
#define MOST_EXTRA 16.0
/* Corners are looked for over this many tolerances of stroke either side: wiggles as small as the tolerance turn it little. */
#define CORNER_REACH 8.0
/* Joints take place and tangent from this many tolerances of stroke either side. */
#define JOINT_REACH 6.0
/* Neither from more than this part of the stroke's length, so that small shapes keep theirs. */
#define MOST_REACH (1.0 / 16.0)
/* A joint moves off its point, to where the smoothed stroke is, by no more than this part of the tolerance. */
#define JOINT_PART 0.5
/* Two curves become one only if that stays within this part of the tolerance, lest it cut every bend to the limit. By trial. */
#define JOIN_PART 0.8
/* Runs are split no nearer to their ends than this part of their points, so that each half is truly shorter. */
#define LEAST_SPLIT (1.0 / 8.0)
/* Steps of Newton's method from one drawn point's place on the curve to the next one's. */
#define FOLLOW_STEPS 2
/* Pieces that one point may lie on: that of the fitted point it belongs to, and those beside it. */
#define N_NEAR 3
/* As exact as path_nearest is, in metres: less than that from the curve is on it. */
#define NOTHING_M 1e-9
/* Points nearer than this to each other, in metres, are one: rounding, and far below any tolerance that is taken. */
#define APART_M 1e-12
/* Strokes that go further than this, in metres, are no drawing: far above the size of any course, far below where squares overflow. */
#define FURTHEST_M 1e9

/* One cubic or line, from points[first] to points[last] of the stroke. */
typedef struct
{
  size_t first, last;
  Joint a, b;
  Fit fit;
} Piece;

/* The drawn points that a fitted one stands for: itself and those passed over behind it; none where it was moved or put in. */
typedef struct
{
  size_t first, n;
} Drawn;

/* A stroke being fitted. The points of a closed one end with its first again. */
typedef struct
{
  Vec2 *points;
  size_t n_points;
  Drawn *drawn; /* of each point */
  bool closed;
  bool is_round; /* closed, and without a corner */
  Trace trace;
  double *t;
  double tolerance_m;
  double joint_reach_m;
  Piece *pieces;
  size_t n_pieces, capacity;
} Stroke;

/* Takes over the points that are not too near to the one before, and notes which they stand for. */
static void
thin (Stroke *stroke, const Vec2 *points, size_t n_points, double apart_m)
{
  size_t n = 0;
  double most_m = 0;
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

/* Puts points along the edges that are much longer than most. */
static void
fill_long_edges (Stroke *stroke)
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

/* The joint at a point within a run: smoothed over as much of the run as lies on both sides. */
static Joint
make_joint (const Stroke *stroke, size_t i, size_t run_first, size_t run_last)
{
  const Trace *trace = &stroke->trace;
  double at_m = trace->arc_m[i];
  double room_m = stroke->is_round ? INFINITY : fmin (at_m - trace->arc_m[run_first], trace->arc_m[run_last] - at_m);
  double reach_m = fmin (stroke->joint_reach_m, room_m);
  Joint joint = { .at = stroke->points[i] };
  if (!(reach_m > 0))
    return joint;
  Vec2 smoothed = trace_place (trace, at_m, reach_m);
  double most_m = JOINT_PART * stroke->tolerance_m, move_m = vec2_distance (smoothed, joint.at);
  joint.at = vec2_lerp (joint.at, smoothed, move_m > most_m ? most_m / move_m : 1);
  joint.tangent = vec2_unit (trace_direction (trace, at_m - reach_m, at_m + reach_m));
  return joint;
}

/* The joint at a corner or an open end, with the tangent on the run's side. */
static Joint
make_end (const Stroke *stroke, size_t i, size_t run_first, size_t run_last)
{
  const Trace *trace = &stroke->trace;
  double reach_m = fmin (stroke->joint_reach_m, trace->arc_m[run_last] - trace->arc_m[run_first]);
  double at_m = trace->arc_m[i];
  Vec2 along = i == run_first ? trace_direction (trace, at_m, at_m + reach_m) : trace_direction (trace, at_m - reach_m, at_m);
  return (Joint){ .at = stroke->points[i], .tangent = vec2_unit (along), .is_free = true };
}

static bool
fit_piece (const Stroke *stroke, Piece *piece, double tolerance_m)
{
  return fit_cubic (stroke->points, stroke->trace.arc_m, stroke->t, piece->first, piece->last, &piece->a, &piece->b,
                    tolerance_m, &piece->fit);
}

/* Where a piece that does not fit is cut: at its worst point, kept off its ends. */
static size_t
split_place (const Piece *piece)
{
  size_t n = piece->last - piece->first, margin = (size_t)(LEAST_SPLIT * (double)n);
  margin = margin > 0 ? margin : 1;
  size_t low = piece->first + margin, high = piece->last - margin;
  return piece->fit.worst < low ? low : piece->fit.worst > high ? high : piece->fit.worst;
}

/* Fits points first .. last, between joints a and b, with as many pieces as it takes. */
static void
fit_run (Stroke *stroke, size_t first, size_t last, Joint a, Joint b)
{
  /* Ends of the pieces still to be fitted, the nearest on top. */
  Piece *ends = NULL;
  size_t n_ends = 0, capacity = 0;
  ends = geometry_make_room (ends, n_ends, &capacity, sizeof *ends);
  ends[n_ends++] = (Piece){ .last = last, .b = b };
  Piece piece = { .first = first, .a = a };
  while (n_ends > 0)
    {
      piece.last = ends[n_ends - 1].last;
      piece.b = ends[n_ends - 1].b;
      if (fit_piece (stroke, &piece, stroke->tolerance_m) || piece.last - piece.first < 2)
        {
          stroke->pieces = geometry_make_room (stroke->pieces, stroke->n_pieces, &stroke->capacity, sizeof *stroke->pieces);
          stroke->pieces[stroke->n_pieces++] = piece;
          piece.first = piece.last;
          piece.a = piece.b;
          n_ends--;
          continue;
        }
      size_t i = split_place (&piece);
      ends = geometry_make_room (ends, n_ends, &capacity, sizeof *ends);
      ends[n_ends++] = (Piece){ .last = i, .b = make_joint (stroke, i, first, last) };
    }
  free (ends);
}

/* Joins neighbouring pieces from `from` on wherever one curve does for both. */
static void
join_pieces (Stroke *stroke, size_t from)
{
  size_t n = from + 1;
  for (size_t i = from + 1; i < stroke->n_pieces; i++)
    {
      Piece both = stroke->pieces[n - 1];
      both.last = stroke->pieces[i].last;
      both.b = stroke->pieces[i].b;
      if (fit_piece (stroke, &both, JOIN_PART * stroke->tolerance_m))
        stroke->pieces[n - 1] = both;
      else
        stroke->pieces[n++] = stroke->pieces[i];
    }
  stroke->n_pieces = n;
}

/* Between two corners or ends. */
static void
fit_between (Stroke *stroke, size_t first, size_t last)
{
  size_t from = stroke->n_pieces;
  fit_run (stroke, first, last, make_end (stroke, first, first, last), make_end (stroke, last, first, last));
  join_pieces (stroke, from);
}

/* Point at which a closed stroke turns least over `reach_m` either side. */
static size_t
straightest (const Trace *trace, double reach_m)
{
  size_t best = 0;
  double least = INFINITY;
  for (size_t i = 0; i < trace->n_points; i++)
    {
      double at_m = trace->arc_m[i];
      double turn
          = fabs (turn_between (trace_direction (trace, at_m - reach_m, at_m), trace_direction (trace, at_m, at_m + reach_m)));
      if (turn < least)
        {
          least = turn;
          best = i;
        }
    }
  return best;
}

/* Turns a closed stroke so that it starts at point `first`, which is repeated at its end. */
static void
start_at (Stroke *stroke, size_t first)
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

/* Fits all of the stroke: run by run from corner to corner, or all round when it is closed without one. */
static void
fit_stroke (Stroke *stroke, double corner_rad)
{
  Trace *trace = &stroke->trace;
  trace_init (trace, stroke->points, stroke->n_points, stroke->closed);
  double most_reach_m = MOST_REACH * trace->length_m;
  stroke->joint_reach_m = fmin (JOINT_REACH * stroke->tolerance_m, most_reach_m);
  size_t *corners, from = 0;
  size_t n_corners = trace_corners (trace, fmin (CORNER_REACH * stroke->tolerance_m, most_reach_m), corner_rad, &corners);
  stroke->is_round = stroke->closed && n_corners == 0;
  size_t first = stroke->is_round ? straightest (trace, most_reach_m) : stroke->closed ? corners[0] : 0;
  if (stroke->closed)
    start_at (stroke, first);
  for (size_t i = 0; i < n_corners; i++)
    if (corners[i] - first > from && corners[i] - first < trace->n_edges)
      {
        fit_between (stroke, from, corners[i] - first);
        from = corners[i] - first;
      }
  if (!stroke->is_round)
    fit_between (stroke, from, trace->n_edges);
  else
    {
      Joint seam = make_joint (stroke, 0, 0, trace->n_edges);
      fit_run (stroke, 0, trace->n_edges, seam, seam);
      join_pieces (stroke, 0);
    }
  free (corners);
}

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

/* Closes the stroke where its ends meet; points that are moved for it no longer stand for what was drawn. */
static void
close_stroke (Stroke *stroke, double corner_rad)
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

static void
stroke_clear (Stroke *stroke)
{
  trace_clear (&stroke->trace);
  free (stroke->points);
  free (stroke->drawn);
  free (stroke->t);
  free (stroke->pieces);
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
  thin (&stroke, points, n_points, THIN_PART * tolerance_m);
  bool fits = stroke.n_points > 1;
  if (fits)
    {
      if (closed)
        close_stroke (&stroke, corner_rad);
      fill_long_edges (&stroke);
      fit_stroke (&stroke, corner_rad);
      if (largest_m != NULL)
        *largest_m = largest_distance (&stroke, points);
      add_pieces (&stroke, path);
    }
  stroke_clear (&stroke);
  return fits;
}
