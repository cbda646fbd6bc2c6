// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The place of a path nearest to a point, by halving and bounding: a piece of a curve lies no further from its chord than
 * Wang's bound (see path-flatten.c), so a piece whose chord is too far away for that is left out, and of those that stay
 * one is left at last. Nothing is guessed, so no dent of the curve is missed; Newton's steps then sharpen the place along
 * it.
 */
#include "geometry-private.h"

/* Pieces this flat, in metres, or in parts of the largest coordinate, are as good as their chords. */
#define FLAT_M 1e-9
#define FLAT_PART 1e-14
/* Halving a curve so often leaves nothing of it: each halving makes a piece four times flatter. */
#define MOST_HALVINGS 30
/* Newton's method doubles the digits with each step, from about five. */
#define NEWTON_STEPS 3

/* A piece of a cubic from parameter t0 to t1. */
typedef struct
{
  Vec2 p[4];
  double t0, t1;
  double least_m; /* no point of the piece is nearer than this */
  int halvings;
} Piece;

typedef struct
{
  Vec2 point;
  double flat_m;
  double distance_m, t;
} Search;

static double
cubic_flatness (const Vec2 p[4])
{
  Vec2 d1 = vec2_add (vec2_sub (p[0], vec2_scale (p[1], 2)), p[2]);
  Vec2 d2 = vec2_add (vec2_sub (p[1], vec2_scale (p[2], 2)), p[3]);
  return 0.75 * sqrt (fmax (vec2_dot (d1, d1), vec2_dot (d2, d2)));
}

/*
 * Notes the piece's chord as its distance's bound, and the piece's ends as places found. True when the piece may hold a
 * nearer one.
 */
static bool
bound_piece (Search *search, Piece *piece)
{
  double place, bend_m = cubic_flatness (piece->p);
  double chord_m = segment_distance (piece->p[0], piece->p[3], search->point, &place);
  piece->least_m = isfinite (bend_m) ? chord_m - bend_m : chord_m;
  if (!(piece->least_m < search->distance_m))
    return false;
  /* Beyond what a double can square there is no bound; the chord must do. */
  if (bend_m <= search->flat_m || piece->halvings == MOST_HALVINGS || !isfinite (bend_m))
    {
      if (chord_m < search->distance_m)
        {
          search->distance_m = chord_m;
          search->t = piece->t0 + (piece->t1 - piece->t0) * place;
        }
      return false;
    }
  double end_m = vec2_distance (piece->p[3], search->point);
  if (end_m < search->distance_m)
    {
      search->distance_m = end_m;
      search->t = piece->t1;
    }
  return true;
}

static void
halve_piece (const Piece *piece, Piece *first, Piece *second)
{
  double middle = (piece->t0 + piece->t1) / 2;
  PathSeg seg = { .kind = SEG_CUBIC, .c1 = piece->p[1], .c2 = piece->p[2], .to = piece->p[3] }, a, b;
  path_seg_split (piece->p[0], seg, 0.5, &a, &b);
  *first = (Piece){ { piece->p[0], a.c1, a.c2, a.to }, piece->t0, middle, 0, piece->halvings + 1 };
  *second = (Piece){ { a.to, b.c1, b.c2, b.to }, middle, piece->t1, 0, piece->halvings + 1 };
}

/* Narrows `search` down to what the cubic has nearer than was known. */
static void
search_cubic (Search *search, const Vec2 p[4])
{
  /* Each halving leaves one piece waiting and goes on with the other. */
  Piece waiting[MOST_HALVINGS + 2];
  int n = 0;
  waiting[n] = (Piece){ { p[0], p[1], p[2], p[3] }, 0, 1, 0, 0 };
  if (bound_piece (search, &waiting[n]))
    n++;
  while (n > 0)
    {
      Piece piece = waiting[--n], first, second;
      if (!(piece.least_m < search->distance_m))
        continue;
      halve_piece (&piece, &first, &second);
      bool try_first = bound_piece (search, &first), try_second = bound_piece (search, &second);
      bool second_is_nearer = second.least_m < first.least_m;
      if (try_first && second_is_nearer)
        waiting[n++] = first;
      if (try_second)
        waiting[n++] = second;
      if (try_first && !second_is_nearer)
        waiting[n++] = first;
    }
}

/* Newton's method on (B - point) . B' = 0, kept only where it comes nearer. */
static void
sharpen (Search *search, const Vec2 p[4])
{
  double t = search->t;
  for (int i = 0; i < NEWTON_STEPS; i++)
    {
      Vec2 off = vec2_sub (cubic_at (p, t), search->point), slope = cubic_slope (p, t);
      double steepness = vec2_dot (slope, slope) + vec2_dot (off, cubic_bend (p, t));
      if (!(steepness > 0))
        break;
      t = fmin (fmax (t - vec2_dot (off, slope) / steepness, 0), 1);
    }
  double distance_m = vec2_distance (cubic_at (p, t), search->point);
  double known_m = vec2_distance (cubic_at (p, search->t), search->point);
  search->distance_m = fmin (known_m, distance_m);
  if (distance_m < known_m)
    search->t = t;
}

static double
largest_coordinate (Vec2 pen, const PathSeg *seg, Vec2 point)
{
  double most = fmax (fmax (fabs (pen.x), fabs (pen.y)), fmax (fabs (seg->to.x), fabs (seg->to.y)));
  most = fmax (most, fmax (fabs (point.x), fabs (point.y)));
  if (seg->kind == SEG_CUBIC)
    most = fmax (most, fmax (fmax (fabs (seg->c1.x), fabs (seg->c1.y)), fmax (fabs (seg->c2.x), fabs (seg->c2.y))));
  return most;
}

/* Nearest place of one drawing segment, if nearer than `within_m`; else INFINITY. */
static double
search_segment (Vec2 pen, const PathSeg *seg, Vec2 point, double within_m, double *t)
{
  if (seg->kind != SEG_CUBIC)
    return segment_distance (pen, seg->to, point, t);
  Vec2 p[4] = { pen, seg->c1, seg->c2, seg->to };
  Search search = { .point = point, .distance_m = within_m, .t = -1 };
  search.flat_m = fmax (FLAT_M, FLAT_PART * largest_coordinate (pen, seg, point));
  double start_m = vec2_distance (pen, point);
  if (start_m < within_m)
    {
      search.distance_m = start_m;
      search.t = 0;
    }
  search_cubic (&search, p);
  if (search.t < 0)
    return INFINITY;
  sharpen (&search, p);
  *t = search.t;
  return search.distance_m;
}

bool
path_nearest (const Path *path, Vec2 point, size_t *seg, double *t, double *distance_m)
{
  if (!path_is_finite (path) || !vec2_is_finite (point))
    return false;
  double least_m = INFINITY, place = 0;
  size_t nearest = 0;
  Vec2 pen = vec2 (0, 0);
  for (size_t i = 0; i < path->n_segs; i++)
    {
      double at;
      if (path->segs[i].kind != SEG_MOVE)
        {
          double segment_m = search_segment (pen, &path->segs[i], point, least_m, &at);
          if (segment_m < least_m)
            {
              least_m = segment_m;
              place = at;
              nearest = i;
            }
        }
      pen = path->segs[i].to;
    }
  if (!(least_m < INFINITY))
    return false;
  *seg = nearest;
  *t = place;
  *distance_m = least_m;
  return true;
}
