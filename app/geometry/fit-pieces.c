// SPDX-License-Identifier: GPL-3.0-or-later
/* Runs of a stroke between its corners, fitted with cubics that are split until they come near enough and joined again where one does for two. */
#include "fit-private.h"

/* Corners are looked for over this many tolerances of stroke either side: wiggles as small as the tolerance turn it little. */
#define CORNER_REACH 8.0
/* A joint moves off its point, to where the smoothed stroke is, by no more than this part of the tolerance. */
#define JOINT_PART 0.5
/* Two curves become one only if that stays within this part of the tolerance, lest it cut every bend to the limit. By trial. */
#define JOIN_PART 0.8
/* Runs are split no nearer to their ends than this part of their points, so that each half is truly shorter. */
#define LEAST_SPLIT (1.0 / 8.0)

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

void
stroke_fit (Stroke *stroke, double corner_rad)
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
    stroke_start_at (stroke, first);
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
