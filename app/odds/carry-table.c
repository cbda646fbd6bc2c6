// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The carry table: what one shot's line crosses, what its pattern touches beside the line, and how far each reaches.
 */
#include "fan-private.h"
#include "odds-private.h"

#include <stdlib.h>

/* Rays are taken up to 89.4 degrees off the shot line; a wider corridor (a pattern wider than its carry) ends there. */
#define STEEPEST_SLOPE 100.0
/* Intervals and pieces that share less of the shot line than this do not belong together: rounding. */
#define SHARED_M 1e-9

/* The shot in the frame of its line, as slopes of rays from the ball; left positive. */
typedef struct
{
  ShotLine line;
  double corridor_left, corridor_right; /* through the points CORRIDOR_SDS beside the landing point */
  double fan_left, fan_right;           /* round the TOUCH_SDS ellipse of the pattern */
  double stretch_m;                     /* that ellipse meets the shot line from landing - stretch to landing + stretch */
  double reach_m;                       /* no point of it is further from the landing point */
  double side_sd_m, long_sd_m;          /* of y, and of x at given y; both at least SAME_POINT_M */
} Aim;

typedef struct
{
  const Hole *hole;
  Aim aim;
  GArray *rows;      /* of CarryRow */
  IntervalList list; /* where the line crosses the area in hand */
  Fan fan;
} Search;

static double
slope_to (Vec2 point)
{
  return point.y / fmax (point.x, fabs (point.y) / STEEPEST_SLOPE);
}

static Aim
aim_of (const ShotResult *shot)
{
  Aim aim = { .line = shot_line (shot) };
  const ShotLine *line = &aim.line;
  Vec2 left = vec2_scale (vec2_left (shot->pattern.along), CORRIDOR_SDS * shot->pattern.side_sd_m);
  Vec2 offset = vec2 (vec2_dot (left, line->along), vec2_cross (line->along, left)), landing = vec2 (line->landing_m, 0);
  aim.corridor_left = slope_to (vec2_add (landing, offset));
  aim.corridor_right = slope_to (vec2_sub (landing, offset));

  /* A ray of slope s touches the ellipse of k deviations when (s d)^2 = k^2 var (y - s x), d being the distance to the landing point. */
  double k2 = TOUCH_SDS * TOUCH_SDS, d = line->landing_m, a = d * d - k2 * line->xx, b = k2 * line->xy;
  double root = sqrt (fmax (0, b * b + a * k2 * line->yy));
  bool ball_is_outside = a > 0;
  aim.fan_left = ball_is_outside ? (root - b) / a : STEEPEST_SLOPE;
  aim.fan_right = ball_is_outside ? (-root - b) / a : -STEEPEST_SLOPE;
  aim.fan_left = fmin (STEEPEST_SLOPE, fmax (aim.fan_left, aim.corridor_left));
  aim.fan_right = fmax (-STEEPEST_SLOPE, fmin (aim.fan_right, aim.corridor_right));

  aim.side_sd_m = fmax (sqrt (line->yy), SAME_POINT_M);
  aim.long_sd_m = fmax (sqrt (fmax (0, line->xx - line->xy * line->xy / (aim.side_sd_m * aim.side_sd_m))), SAME_POINT_M);
  aim.stretch_m = TOUCH_SDS * aim.long_sd_m;
  aim.reach_m = TOUCH_SDS * sqrt (line->xx + line->yy) + SAME_POINT_M;
  return aim;
}

/* ---- on the line ---- */

static CarryRow *
row (Search *search, size_t i)
{
  return &g_array_index (search->rows, CarryRow, i);
}

/*
 * Joins the pieces on one side of the line that share some of a row's stretch of it into one group each; `groups` holds a piece of
 * each row's group, or G_MAXSIZE. The pieces along the line come far ones first, the rows near ones first.
 */
static void
gather_pieces (Search *search, size_t first_row, bool left, size_t *groups)
{
  Fan *fan = &search->fan;
  size_t end = search->rows->len;
  for (size_t i = 0; i < fan_n_pieces (fan); i++)
    {
      const FanPiece *p = fan_piece (fan, i);
      if ((left ? p->s0 : p->s1) != 0)
        continue;
      double near_m = left ? p->near0_m : p->near1_m, far_m = left ? p->far0_m : p->far1_m;
      while (end > first_row && row (search, end - 1)->reach_m >= far_m)
        end--;
      for (size_t r = end; r > first_row && row (search, r - 1)->carry_m > near_m; r--)
        {
          const CarryRow *on = row (search, r - 1);
          size_t *group = &groups[r - 1 - first_row];
          if (fmin (far_m, on->carry_m) - fmax (near_m, on->reach_m) <= SHARED_M)
            continue;
          if (*group != G_MAXSIZE)
            fan_join (fan, i, *group);
          *group = i;
        }
    }
}

/* Corridor of the rows from `first` on, which are of one area: extremes over what hangs together with each within the corridor. */
static void
set_corridors (Search *search, const Outline *outline, size_t first)
{
  const Aim *aim = &search->aim;
  double slopes[] = { aim->corridor_right, 0, aim->corridor_left };
  Fan *fan = &search->fan;
  fan_cut (fan, outline, aim->line.ball, aim->line.along, slopes, G_N_ELEMENTS (slopes));
  size_t n_rows = search->rows->len - first, n_pieces = fan_n_pieces (fan);
  g_autofree size_t *groups = g_new (size_t, n_rows);
  for (size_t r = 0; r < n_rows; r++)
    groups[r] = G_MAXSIZE;
  gather_pieces (search, first, false, groups);
  gather_pieces (search, first, true, groups);

  /* Squares of them. */
  g_autofree Interval *extremes = g_new (Interval, n_pieces + 1);
  for (size_t i = 0; i < n_pieces; i++)
    {
      /* A group's number is its first piece's, so its extremes are there before the others come. */
      const FanPiece *p = fan_piece (fan, i);
      Interval *of = &extremes[fan_group (fan, i)];
      *of = of == &extremes[i] ? (Interval){ p->nearest2, p->farthest2 }
                               : (Interval){ fmin (of->enter_m, p->nearest2), fmax (of->leave_m, p->farthest2) };
    }
  for (size_t r = 0; r < n_rows; r++)
    {
      CarryRow *on = row (search, first + r);
      Interval of = { on->reach_m, on->carry_m };
      if (groups[r] != G_MAXSIZE)
        {
          of = extremes[fan_group (fan, groups[r])];
          of = (Interval){ sqrt (of.enter_m), sqrt (of.leave_m) };
        }
      on->corridor_reach_m = fmin (on->reach_m, of.enter_m);
      on->corridor_carry_m = fmax (on->carry_m, of.leave_m);
    }
}

/* One row for each time the line crosses the area. True when it does so inside the pattern. */
static bool
add_rows_on (Search *search, size_t part, const Outline *outline)
{
  const Aim *aim = &search->aim;
  const ShotLine *line = &aim->line;
  size_t first = search->rows->len;
  bool is_in_pattern = false;
  outline_crossings (outline, line->ball, line->along, area_far_end (outline, line->ball), &search->list);
  for (size_t i = 0; i < search->list.n_items; i++)
    {
      Interval in = search->list.items[i];
      CarryRow on = { .part = part, .side = SIDE_ON, .reach_m = in.enter_m, .carry_m = in.leave_m };
      on.clear = shot_line_beyond (line, on.carry_m);
      is_in_pattern
          = is_in_pattern || (in.enter_m <= line->landing_m + aim->stretch_m && in.leave_m >= line->landing_m - aim->stretch_m);
      g_array_append_val (search->rows, on);
    }
  if (search->rows->len > first)
    set_corridors (search, outline, first);
  return is_in_pattern;
}

/* ---- beside the line ---- */

/* A point of the shot line's frame in deviations of the pattern from its centre, uncorrelated. */
static Vec2
whitened (const Aim *aim, double x, double y)
{
  double side = y / aim->side_sd_m;
  double expected_m = aim->line.xy / (aim->side_sd_m * aim->side_sd_m) * y;
  return vec2 ((x - aim->line.landing_m - expected_m) / aim->long_sd_m, side);
}

/* Does the piece come within TOUCH_SDS of the centre? It lies to one side of the line, so never round the centre. */
static bool
is_touched (const Aim *aim, const FanPiece *p)
{
  Vec2 corners[] = { whitened (aim, p->near0_m, p->near0_m * p->s0), whitened (aim, p->near1_m, p->near1_m * p->s1),
                     whitened (aim, p->far1_m, p->far1_m * p->s1), whitened (aim, p->far0_m, p->far0_m * p->s0) };
  for (size_t i = 0; i < G_N_ELEMENTS (corners); i++)
    if (segment_distance (corners[i], corners[(i + 1) % G_N_ELEMENTS (corners)], vec2 (0, 0), NULL) <= TOUCH_SDS)
      return true;
  return false;
}

/* Shortest distance of the area's edges on one side of the line from the line's stretch inside the pattern. */
static double
stretch_gap (const Aim *aim, const Outline *outline, double side)
{
  Vec2 start = vec2 (fmax (0, aim->line.landing_m - aim->stretch_m), 0), end = vec2 (aim->line.landing_m + aim->stretch_m, 0);
  double gap_m = INFINITY;
  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t i = outline->ring_starts[r], last = outline->ring_starts[r + 1]; i < last; i++)
      {
        Vec2 from = vec2_sub (outline->points[i], aim->line.ball);
        Vec2 to = vec2_sub (outline->points[i + 1 < last ? i + 1 : outline->ring_starts[r]], aim->line.ball);
        Vec2 a = vec2 (vec2_dot (aim->line.along, from), side * vec2_cross (aim->line.along, from));
        Vec2 b = vec2 (vec2_dot (aim->line.along, to), side * vec2_cross (aim->line.along, to));
        if (a.y < 0 && b.y < 0)
          continue;
        if (a.y < 0)
          a = vec2_lerp (a, b, a.y / (a.y - b.y));
        else if (b.y < 0)
          b = vec2_lerp (b, a, b.y / (b.y - a.y));
        gap_m = fmin (gap_m, fmin (segment_distance (start, end, a, NULL), segment_distance (start, end, b, NULL)));
        gap_m = fmin (gap_m, fmin (segment_distance (a, b, start, NULL), segment_distance (a, b, end, NULL)));
      }
  return gap_m;
}

/* Marks the groups of pieces that the pattern touches; false when there are none. */
static bool
mark_touched (const Search *search, bool *is_marked)
{
  const Fan *fan = &search->fan;
  bool any = false;
  for (size_t i = 0; i < fan_n_pieces (fan); i++)
    {
      size_t group = fan_group (fan, i);
      if (!is_marked[group] && is_touched (&search->aim, fan_piece (fan, i)))
        any = is_marked[group] = true;
    }
  return any;
}

/* One row for what the pattern touches of the area on one side: `side` is +1 for left, -1 for right. */
static void
add_row_beside (Search *search, size_t part, const Outline *outline, double side)
{
  const Aim *aim = &search->aim;
  Fan *fan = &search->fan;
  double corridor = side > 0 ? aim->corridor_left : aim->corridor_right;
  double slopes_left[] = { 0, aim->corridor_left, aim->fan_left }, slopes_right[] = { aim->fan_right, aim->corridor_right, 0 };
  fan_cut (fan, outline, aim->line.ball, aim->line.along, side > 0 ? slopes_left : slopes_right, G_N_ELEMENTS (slopes_left));
  g_autofree bool *is_marked = g_new0 (bool, fan_n_pieces (fan) + 1);
  if (!mark_touched (search, is_marked))
    return;

  CarryRow beside = { .part = part, .side = side > 0 ? SIDE_LEFT : SIDE_RIGHT };
  beside.reach_m = beside.gap_m = beside.corridor_reach_m = INFINITY;
  beside.corridor_carry_m = NAN;
  for (size_t i = 0; i < fan_n_pieces (fan); i++)
    {
      const FanPiece *p = fan_piece (fan, i);
      if (!is_marked[fan_group (fan, i)])
        continue;
      beside.reach_m = fmin (beside.reach_m, sqrt (p->nearest2));
      beside.carry_m = fmax (beside.carry_m, sqrt (p->farthest2));
      beside.gap_m = fmin (beside.gap_m, fmin (fabs (p->near0_m * p->s0), fabs (p->near1_m * p->s1)));
      if (fmax (fabs (p->s0), fabs (p->s1)) > fabs (corridor))
        continue;
      beside.corridor_reach_m = fmin (beside.corridor_reach_m, sqrt (p->nearest2));
      beside.corridor_carry_m = fmax (beside.corridor_carry_m, sqrt (p->farthest2));
    }
  if (isnan (beside.corridor_carry_m))
    beside.corridor_reach_m = NAN;
  if (beside.gap_m < SAME_POINT_M)
    beside.gap_m = stretch_gap (aim, outline, side);
  beside.clear = shot_line_beyond (&aim->line, beside.carry_m);
  g_array_append_val (search->rows, beside);
}

/* ---- the table ---- */

/* How far the area's bounds reach to the left of the line, and how far to the right as a negative number. */
static void
sides_of (const ShotLine *line, Box bounds, double *leftmost, double *rightmost)
{
  const Vec2 corners[]
      = { { bounds.x0, bounds.y0 }, { bounds.x1, bounds.y0 }, { bounds.x1, bounds.y1 }, { bounds.x0, bounds.y1 } };
  *leftmost = -INFINITY;
  *rightmost = INFINITY;
  for (size_t i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      double left = vec2_cross (line->along, vec2_sub (corners[i], line->ball));
      *leftmost = fmax (*leftmost, left);
      *rightmost = fmin (*rightmost, left);
    }
}

static void
search_area (Search *search, size_t i, const Part *part)
{
  const ShotLine *line = &search->aim.line;
  Vec2 landing = vec2_add (line->ball, vec2_scale (line->along, line->landing_m));
  double leftmost, rightmost;
  sides_of (line, part->outline->bounds, &leftmost, &rightmost);
  if (leftmost >= 0 && rightmost <= 0 && add_rows_on (search, i, part->outline))
    return;
  if (!box_contains (box_grown (part->outline->bounds, search->aim.reach_m), landing))
    return;
  if (leftmost > 0)
    add_row_beside (search, i, part->outline, 1);
  if (rightmost < 0)
    add_row_beside (search, i, part->outline, -1);
}

static int
compare_numbers (double a, double b)
{
  return a < b ? -1 : a > b ? 1 : 0;
}

static gint
compare_rows (gconstpointer a, gconstpointer b)
{
  const CarryRow *x = a, *y = b;
  if ((x->side == SIDE_ON) != (y->side == SIDE_ON))
    return x->side == SIDE_ON ? -1 : 1;
  int order = compare_numbers (x->reach_m, y->reach_m);
  if (order == 0)
    order = compare_numbers (x->carry_m, y->carry_m);
  return order != 0 ? order : x->part < y->part ? -1 : x->part > y->part;
}

CarryTable *
carry_table_new (const Hole *hole, const ShotResult *shot)
{
  Search search = { .hole = hole, .aim = aim_of (shot), .rows = g_array_new (FALSE, FALSE, sizeof (CarryRow)) };
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (kind_info (part->kind)->shape == SHAPE_AREA && part->kind != KIND_NONE && !box_is_empty (part->outline->bounds))
        search_area (&search, i, part);
    }
  interval_list_clear (&search.list);
  fan_clear (&search.fan);
  g_array_sort (search.rows, compare_rows);

  CarryTable *table = g_new (CarryTable, 1);
  table->n_rows = search.rows->len;
  table->rows = (CarryRow *)(void *)g_array_free (search.rows, FALSE);
  return table;
}

void
carry_table_free (CarryTable *table)
{
  if (table == NULL)
    return;
  g_free (table->rows);
  g_free (table);
}

const char *
side_token (Side side)
{
  static const char *const tokens[] = { [SIDE_ON] = "on", [SIDE_LEFT] = "left", [SIDE_RIGHT] = "right" };
  g_assert ((unsigned)side < G_N_ELEMENTS (tokens));
  return tokens[side];
}
