// SPDX-License-Identifier: GPL-3.0-or-later
/* Putting curves back: runs of a ring's vertices that follow a curve become that curve again, or the part of it between the run's ends. */
#include "overlay-private.h"

/* On the grid both ends of a chord and a point beside it are each off by half a step's diagonal at most; this holds all three. */
#define BESIDE_M (2 * EDIT_GRID_M)
/* Parameters nearer than this are one. */
#define SAME_T 1e-9
/* Newton's method on two curves that cross: iterations, and when it has arrived. */
#define MOST_ROUNDS 20
#define ARRIVED_M 1e-9
/* A crossing of the curves is no farther than this from that of their chords, save at a touch. */
#define NEAR_CROSSING_M (3 * FLATTEN_TOLERANCE_M)

/* ---- which places on curves a vertex is ---- */

static int
compare_tags (gconstpointer a, gconstpointer b)
{
  const Tag *p = a, *q = b;
  if (p->x != q->x)
    return p->x < q->x ? -1 : 1;
  return p->y < q->y ? -1 : p->y > q->y;
}

static void
sort_tags (Overlay *overlay)
{
  if (!overlay->is_sorted)
    g_array_sort (overlay->tags, compare_tags);
  overlay->is_sorted = true;
}

/* Appends the tags that curves were given at a grid point when they were flattened. */
static void
find_tags (const Overlay *overlay, Vec2 at, GArray *found)
{
  Tag wanted = { .x = llround (at.x / EDIT_GRID_M), .y = llround (at.y / EDIT_GRID_M) };
  guint low = 0, high = overlay->tags->len;
  while (low < high)
    {
      guint middle = low + (high - low) / 2;
      if (compare_tags (&g_array_index (overlay->tags, Tag, middle), &wanted) < 0)
        low = middle + 1;
      else
        high = middle;
    }
  for (; low < overlay->tags->len && compare_tags (&g_array_index (overlay->tags, Tag, low), &wanted) == 0; low++)
    g_array_append_val (found, g_array_index (overlay->tags, Tag, low));
}

/* Appends a tag for every curve one of whose chords passes beside the point: where edges cross, and where snapping drew one to a vertex. */
static void
search_tags (const Overlay *overlay, Vec2 at, GArray *found)
{
  for (guint c = 0; c < overlay->curves->len; c++)
    {
      const Curve *curve = &g_array_index (overlay->curves, Curve, c);
      if (!box_contains (box_grown (curve->bounds, BESIDE_M), at))
        continue;
      Vec2 from = curve->p[0];
      for (unsigned k = 0; k < curve->n_steps; k++)
        {
          double along;
          Vec2 to = k + 1 == curve->n_steps ? curve->p[3] : curve_point (curve, (k + 1.0) / curve->n_steps);
          if (segment_distance (from, to, at, &along) <= BESIDE_M)
            {
              Tag tag = { .curve = c, .t = (k + along) / curve->n_steps };
              g_array_append_val (found, tag);
            }
          from = to;
        }
    }
}

/* ---- runs ---- */

/* A ring's edge, or several, along one curve. */
typedef struct
{
  int curve; /* -1: along none, straight */
  double t0, t1;
  Vec2 start; /* on the grid */
} Stretch;

/* Is a step from t0 to t1 along one of the curve's chords? */
static bool
is_step (const Curve *curve, double t0, double t1)
{
  double a = fmin (t0, t1) * curve->n_steps, b = fmax (t0, t1) * curve->n_steps;
  return b - a > SAME_T && b <= floor (a + 1e-6) + 1 + 1e-6;
}

/* Does a run go on with a step on this curve from t0 to t1? */
static bool
goes_on (const Stretch *run, guint curve, double t0, double t1)
{
  return run && run->curve == (int)curve && fabs (run->t1 - t0) < 1e-6 && (run->t1 > run->t0) == (t1 > t0);
}

/* The curve that the edge between two tagged vertices follows: the one of the run before if it can be. False for none. */
static bool
match_edge (const Overlay *overlay, const GArray *from, const GArray *to, const Stretch *before, Stretch *edge)
{
  bool is_found = false;
  for (guint i = 0; i < from->len; i++)
    for (guint k = 0; k < to->len; k++)
      {
        const Tag *a = &g_array_index (from, Tag, i), *b = &g_array_index (to, Tag, k);
        if (a->curve != b->curve || !is_step (&g_array_index (overlay->curves, Curve, a->curve), a->t, b->t))
          continue;
        if (goes_on (before, a->curve, a->t, b->t))
          {
            *edge = (Stretch){ (int)a->curve, a->t, b->t, edge->start };
            return true;
          }
        if (!is_found)
          *edge = (Stretch){ (int)a->curve, a->t, b->t, edge->start };
        is_found = true;
      }
  return is_found;
}

/* The run that an edge of the ring makes by itself. */
static Stretch
edge_run (const Overlay *overlay, Vec2 from, Vec2 to, const Stretch *before)
{
  Stretch edge = { .curve = -1, .start = from };
  g_autoptr (GArray) a = g_array_new (FALSE, FALSE, sizeof (Tag)), b = g_array_new (FALSE, FALSE, sizeof (Tag));
  find_tags (overlay, from, a);
  find_tags (overlay, to, b);
  if (match_edge (overlay, a, b, before, &edge))
    return edge;
  search_tags (overlay, from, a);
  search_tags (overlay, to, b);
  match_edge (overlay, a, b, before, &edge);
  return edge;
}

static GArray *
ring_runs (Overlay *overlay, const Vec2 *points, size_t n_points)
{
  GArray *runs = g_array_new (FALSE, FALSE, sizeof (Stretch));
  sort_tags (overlay);
  for (size_t i = 0; i < n_points; i++)
    {
      Stretch *before = runs->len > 0 ? &g_array_index (runs, Stretch, runs->len - 1) : NULL;
      Stretch edge = edge_run (overlay, points[i], points[(i + 1) % n_points], before);
      if (edge.curve >= 0 && goes_on (before, (guint)edge.curve, edge.t0, edge.t1))
        before->t1 = edge.t1;
      else
        g_array_append_val (runs, edge);
    }
  /* The ring may begin amid a run. */
  Stretch *first = &g_array_index (runs, Stretch, 0), *last = &g_array_index (runs, Stretch, runs->len - 1);
  if (runs->len > 1 && last->curve >= 0 && first->curve >= 0 && goes_on (last, (guint)first->curve, first->t0, first->t1))
    {
      first->t0 = last->t0;
      first->start = last->start;
      g_array_set_size (runs, runs->len - 1);
    }
  return runs;
}

int
overlay_ring_sense (Overlay *overlay, const Vec2 *points, size_t n_points)
{
  g_autoptr (GArray) runs = ring_runs (overlay, points, n_points);
  int sense = 0;
  for (guint i = 0; i < runs->len; i++)
    {
      const Stretch *run = &g_array_index (runs, Stretch, i);
      sense += run->curve < 0 ? 0 : run->t1 > run->t0 ? 1 : -1;
    }
  return sense;
}

/* ---- where runs meet ---- */

static Vec2
curve_slope (const Curve *curve, double t)
{
  const Vec2 *p = curve->p;
  Vec2 a = vec2_sub (p[1], p[0]), b = vec2_sub (p[2], p[1]), c = vec2_sub (p[3], p[2]);
  return vec2_scale (vec2_lerp (vec2_lerp (a, b, t), vec2_lerp (b, c, t), t), 3);
}

static bool
is_curve_end (double t)
{
  return t < SAME_T || t > 1 - SAME_T;
}

/* The crossing of two curves next to parameters s and u, by Newton's method; false when there is none so near. */
static bool
find_crossing (const Curve *a, const Curve *b, double *s, double *u)
{
  double at_s = *s, at_u = *u;
  Vec2 start = curve_point (a, at_s);
  for (int i = 0; i < MOST_ROUNDS; i++)
    {
      Vec2 gap = vec2_sub (curve_point (b, at_u), curve_point (a, at_s)), da = curve_slope (a, at_s),
           db = curve_slope (b, at_u);
      if (vec2_length (gap) < ARRIVED_M)
        {
          bool is_near = vec2_distance (start, curve_point (a, at_s)) <= NEAR_CROSSING_M;
          *s = at_s;
          *u = at_u;
          return is_near;
        }
      double across = vec2_cross (da, db);
      if (across == 0)
        return false;
      at_s += vec2_cross (gap, db) / across;
      at_u += vec2_cross (gap, da) / across;
      if (!(at_s >= 0 && at_s <= 1 && at_u >= 0 && at_u <= 1))
        return false;
    }
  return false;
}

/* Where two runs that meet within their curves truly meet: the chords cross a little beside the curves. */
static void
refine_meeting (const Overlay *overlay, Stretch *before, Stretch *after)
{
  if (before->curve < 0 || after->curve < 0 || (is_curve_end (before->t1) && is_curve_end (after->t0)))
    return;
  const Curve *a = &g_array_index (overlay->curves, Curve, before->curve),
              *b = &g_array_index (overlay->curves, Curve, after->curve);
  double s = before->t1, u = after->t0;
  if ((a->is_line && b->is_line) || before->curve == after->curve || !find_crossing (a, b, &s, &u))
    return;
  if ((s > before->t0) != (before->t1 > before->t0) || (u < after->t1) != (after->t0 < after->t1))
    return;
  before->t1 = s;
  after->t0 = u;
  after->start = grid_point (curve_point (a, s));
}

/* ---- runs to segments ---- */

/* The curve between two parameters, backwards when t0 > t1. */
static PathSeg
curve_between (const Curve *curve, double t0, double t1, Vec2 *from)
{
  PathSeg whole = { SEG_CUBIC, curve->p[1], curve->p[2], curve->p[3] }, head, tail, seg;
  double low = fmin (t0, t1), high = fmax (t0, t1);
  path_seg_split (curve->p[0], whole, high, &head, &tail);
  path_seg_split (curve->p[0], head, high > 0 ? fmin (low / high, 1) : 0, &seg, &tail);
  Vec2 start = seg.to;
  seg = tail;
  if (is_curve_end (low))
    {
      start = curve->p[0];
      seg = is_curve_end (high) ? whole : head;
    }
  *from = start;
  if (t0 <= t1)
    return seg;
  *from = seg.to;
  return (PathSeg){ SEG_CUBIC, seg.c2, seg.c1, start };
}

/* A handle goes along when its end is moved to where the neighbour meets it. */
static void
add_run (const Overlay *overlay, const Stretch *run, Vec2 to, bool is_last, Path *path)
{
  const Curve *curve = run->curve >= 0 ? &g_array_index (overlay->curves, Curve, run->curve) : NULL;
  if (!curve || curve->is_line)
    {
      if (!is_last && (run->start.x != to.x || run->start.y != to.y))
        path_line_to (path, to);
      return;
    }
  Vec2 from;
  PathSeg seg = curve_between (curve, run->t0, run->t1, &from);
  Vec2 c1 = vec2_add (seg.c1, vec2_sub (run->start, grid_point (from))),
       c2 = vec2_add (seg.c2, vec2_sub (to, grid_point (seg.to)));
  path_cubic_to (path, grid_point (c1), grid_point (c2), to);
}

/* The run a ring best begins with: where a path that went in began, as far as that can be told by the lowest curve begun at its start. */
static guint
first_run (const GArray *runs)
{
  guint best = 0;
  for (guint i = 1; i < runs->len; i++)
    {
      const Stretch *run = &g_array_index (runs, Stretch, i), *so_far = &g_array_index (runs, Stretch, best);
      bool is_whole = run->curve >= 0 && run->t0 < SAME_T, was_whole = so_far->curve >= 0 && so_far->t0 < SAME_T;
      if (is_whole && (!was_whole || run->curve < so_far->curve))
        best = i;
    }
  return best;
}

void
overlay_restore_ring (Overlay *overlay, const Vec2 *points, size_t n_points, Path *path)
{
  g_autoptr (GArray) runs = ring_runs (overlay, points, n_points);
  guint n = runs->len, first = first_run (runs);
  for (guint i = 0; i < n && n > 1; i++)
    refine_meeting (overlay, &g_array_index (runs, Stretch, i), &g_array_index (runs, Stretch, (i + 1) % n));
  path_move_to (path, g_array_index (runs, Stretch, first).start);
  for (guint i = 0; i < n; i++)
    {
      const Stretch *run = &g_array_index (runs, Stretch, (first + i) % n),
                    *next = &g_array_index (runs, Stretch, (first + i + 1) % n);
      add_run (overlay, run, next->start, i + 1 == n, path);
    }
  path_close (path);
}
