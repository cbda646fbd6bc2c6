// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The field of what it costs to land anywhere that a club's patterns reach.
 *
 * First the ground: what resting in each cell costs, kept apart for what stays where it lands (sand, water, trees) and what runs on. Then landing: a ball
 * runs on from each cell by the run of its lie, and may be caught on the way. Then the field is blurred by the round part of the smallest pattern, so that few nodes read the mean
 * over any of the patterns.
 */
#include "plan-private.h"

#include <math.h>
#include <string.h>

/* Deviations that a pattern reaches: what lies beyond weighs 1 in 10 000. */
#define REACH_SDS 3.7
/* Cells a deviation of the smallest pattern, and their least and greatest width. */
#define CELLS_PER_SD 2.0
#define LEAST_STEP_M 0.6
#define MOST_STEP_M 3.0
/* No field has more cells (common practice: bounds the memory to some 100 MB). */
#define MOST_CELLS 2000000
/* Variance that averaging over a cell and reading straight between cells add, in squared cells: 1/12 + 1/6. */
#define CELL_VARIANCE 0.25
/* Places looked at in a cell that an edge crosses: no two in one row or column (N rooks; Shirley 1991). */
#define N_ROOKS 16
static const unsigned char rooks[N_ROOKS] = { 5, 12, 1, 9, 14, 3, 7, 11, 0, 13, 4, 8, 15, 2, 10, 6 };
/* Places looked at while a ball rolls. */
#define ROLL_STEPS 3

/* What resting in a cell costs. */
typedef struct
{
  Value stops, goes; /* weighed by the share of the cell in which a ball stays, and in which it runs on */
  double stop_share;
  Lie lie; /* of what runs on */
} Cell;

/* The same as it is kept: there are tens of thousands. */
typedef struct
{
  float stops, stops_again, goes, goes_again, stop_share;
  uint8_t lie;
} KeptCell;

static KeptCell
keep_cell (const Cell *cell)
{
  return (KeptCell){ (float)cell->stops.strokes, (float)cell->stops.again, (float)cell->goes.strokes,
                     (float)cell->goes.again,    (float)cell->stop_share,  (uint8_t)cell->lie };
}

typedef struct
{
  const Place *place;
  const Response *response;
  Field *field;
  uint8_t *lies;        /* NOT_REACHED where no ball comes */
  KeptCell *cells;      /* all 0 where no ball comes */
  double near_m, far_m; /* from the ball: between them lies every place that counts */
  Vec2 rightmost,
      leftmost; /* unit vectors from the ball; all counts that lies between them or no more than `margin_m` beside */
  double margin_m;
} Build;

#define NOT_REACHED 0xff

static Vec2
grid_point (const Field *field, double i, double j)
{
  return vec2_add (field->origin,
                   vec2_add (vec2_scale (field->across, i * field->step_m), vec2_scale (field->along, j * field->step_m)));
}

/* ---- where to look ---- */

static double
least_sd (const Response *response)
{
  double l2 = response->long_sd_m * response->long_sd_m, s2 = response->side_sd_m * response->side_sd_m;
  double both = response->correlation * response->long_sd_m * response->side_sd_m;
  double middle = 0.5 * (l2 + s2), half = hypot (0.5 * (l2 - s2), both);
  return sqrt (fmax (0, middle - half));
}

static bool
is_reached (const Build *build, Vec2 at)
{
  Vec2 to = vec2_sub (at, build->place->input.ball);
  double squared = vec2_dot (to, to);
  return squared >= build->near_m * build->near_m && squared <= build->far_m * build->far_m
         && vec2_cross (build->rightmost, to) >= -build->margin_m && vec2_cross (build->leftmost, to) <= build->margin_m;
}

static void
add_reach (Build *build, Box *box, const Pattern *pattern, double run_m)
{
  const Field *frame = build->field;
  Vec2 ball = build->place->input.ball;
  double reach_m = REACH_SDS * fmax (pattern->long_sd_m, pattern->side_sd_m);
  Vec2 to = vec2_sub (pattern->mean, ball);
  Vec2 at = vec2 (vec2_dot (to, frame->across), vec2_dot (to, frame->along));
  double ahead_m = reach_m + run_m, to_m = length_of (to);
  build->near_m = fmin (build->near_m, fmax (0, to_m - reach_m));
  build->far_m = fmax (build->far_m, to_m + ahead_m);
  build->margin_m = fmax (build->margin_m, ahead_m + fabs (vec2_cross (pattern->along, to)));
  *box = box_union (*box, (Box){ at.x - ahead_m, at.y - reach_m, at.x + ahead_m, at.y + ahead_m });
}

/* The grid's frame, extent and step. */
static void
lay_out (Build *build, double least_swing, double most_swing)
{
  const Place *place = build->place;
  const Response *response = build->response;
  Field *field = build->field;
  Vec2 ball = place->input.ball;
  field->along = vec2 (cos (response->middle_rad), sin (response->middle_rad));
  field->across = vec2_scale (vec2_left (field->along), -1);
  double run_m = 0;
  for (int lie = 0; lie < N_LIES; lie++)
    run_m = fmax (run_m, fmax (response->full.run_m[lie], response->part.run_m[lie]));
  Box box = box_empty ();
  build->near_m = INFINITY;
  build->rightmost = vec2 (cos (place->first_rad), sin (place->first_rad));
  build->leftmost = vec2 (cos (place->last_rad), sin (place->last_rad));
  const int n_directions = 8;
  for (int i = 0; i <= n_directions; i++)
    for (int end = 0; end < 2; end++)
      {
        double direction = place->first_rad + (place->last_rad - place->first_rad) * i / n_directions;
        Pattern poor, good = response_pattern (response, ball, direction, end == 0 ? least_swing : most_swing);
        add_reach (build, &box, &good, run_m);
        if (poor_pattern (response->club, &good, ball, &poor))
          add_reach (build, &box, &poor, run_m);
      }
  double sd_m = least_swing * least_sd (response);
  field->step_m = fmin (MOST_STEP_M, fmax (LEAST_STEP_M, sd_m / CELLS_PER_SD));
  double width_m = box.x1 - box.x0, height_m = box.y1 - box.y0;
  field->step_m = fmax (field->step_m, sqrt (width_m * height_m / MOST_CELLS));
  field->n_across = 2 + (int)ceil (width_m / field->step_m);
  field->n_along = 2 + (int)ceil (height_m / field->step_m);
  double blur2 = sd_m * sd_m - CELL_VARIANCE * field->step_m * field->step_m;
  field->blur_m = sqrt (fmax (0, blur2));
  /* Nodes stand evenly about the line through the ball, so that a mirrored hole has a mirrored field. */
  double first = floor (box.x0 / field->step_m);
  if (fabs (box.x0 + box.x1) < field->step_m)
    {
      field->n_across |= 1;
      first = -(field->n_across - 1) / 2;
    }
  field->origin
      = vec2_add (ball, vec2_add (vec2_scale (field->across, first * field->step_m), vec2_scale (field->along, box.y0)));
}

/* ---- the ground ---- */

static void
find_lies (Build *build)
{
  const Field *field = build->field;
  for (int j = 0; j < field->n_along; j++)
    for (int i = 0; i < field->n_across; i++)
      {
        Vec2 at = grid_point (field, i, j);
        build->lies[j * field->n_across + i]
            = is_reached (build, at) ? (uint8_t)hole_lie_at (build->place->input.hole, at) : NOT_REACHED;
      }
}

/* Do the neighbours lie alike? */
static bool
is_even (const Build *build, int i, int j)
{
  const Field *field = build->field;
  uint8_t lie = build->lies[j * field->n_across + i];
  for (int v = MAX (0, j - 1); v <= MIN (field->n_along - 1, j + 1); v++)
    for (int u = MAX (0, i - 1); u <= MIN (field->n_across - 1, i + 1); u++)
      if (build->lies[v * field->n_across + u] != lie && build->lies[v * field->n_across + u] != NOT_REACHED)
        return false;
  return true;
}

static void
add_to_cell (const Build *build, Cell *cell, Vec2 at, Lie lie, double share)
{
  Value value = value_at_rest (build->place, at, lie);
  if (build->place->stops[lie])
    {
      cell->stops = value_add (cell->stops, share, value);
      cell->stop_share += share;
    }
  else
    cell->goes = value_add (cell->goes, share, value);
}

static Cell
look_at_cell (const Build *build, int i, int j)
{
  const Field *field = build->field;
  uint8_t here = build->lies[j * field->n_across + i];
  Cell cell = { .lie = (Lie)here };
  if (is_even (build, i, j))
    {
      add_to_cell (build, &cell, grid_point (field, i, j), cell.lie, 1);
      return cell;
    }
  /* Left of the middle the places are mirrored. */
  double side = 2 * i < field->n_across ? -1 : 1;
  int counts[N_LIES] = { 0 };
  for (int k = 0; k < N_ROOKS; k++)
    {
      Vec2 at = grid_point (field, i + side * ((k + 0.5) / N_ROOKS - 0.5), j + (rooks[k] + 0.5) / N_ROOKS - 0.5);
      Lie lie = hole_lie_at (build->place->input.hole, at);
      add_to_cell (build, &cell, at, lie, 1.0 / N_ROOKS);
      if (!build->place->stops[lie])
        counts[lie]++;
    }
  for (int lie = 0; lie < N_LIES; lie++)
    if (counts[lie] > counts[cell.lie])
      cell.lie = (Lie)lie;
  return cell;
}

/* Far cells first, so that drops found for them serve the nearer ones. */
static bool
look_at_ground (Build *build, GError **error)
{
  const Field *field = build->field;
  find_lies (build);
  for (int j = field->n_along; j-- > 0;)
    {
      if (place_is_cancelled (build->place, error))
        return false;
      for (int i = 0; i < field->n_across; i++)
        if (build->lies[j * field->n_across + i] != NOT_REACHED)
          {
            Cell cell = look_at_cell (build, i, j);
            build->cells[j * field->n_across + i] = keep_cell (&cell);
          }
    }
  return true;
}

/* ---- landing ---- */

/* The ground between cells; off the grid as at its edge. */
static Cell
ground_at (const Build *build, Vec2 at)
{
  const Field *field = build->field;
  Vec2 to = vec2_scale (vec2_sub (at, field->origin), 1 / field->step_m);
  double x = fmin (field->n_across - 1.001, fmax (0, vec2_dot (to, field->across)));
  double y = fmin (field->n_along - 1.001, fmax (0, vec2_dot (to, field->along)));
  int i = (int)x, j = (int)y;
  double u = x - i, v = y - j;
  const KeptCell *row = &build->cells[j * field->n_across + i], *next = row + field->n_across;
  const KeptCell *corners[4] = { row, row + 1, next, next + 1 };
  const double weights[4] = { (1 - u) * (1 - v), u * (1 - v), (1 - u) * v, u * v };
  Cell mixed = { 0 };
  for (int k = 0; k < 4; k++)
    {
      mixed.stops = value_add (mixed.stops, weights[k], (Value){ (double)corners[k]->stops, (double)corners[k]->stops_again });
      mixed.goes = value_add (mixed.goes, weights[k], (Value){ (double)corners[k]->goes, (double)corners[k]->goes_again });
      mixed.stop_share += weights[k] * (double)corners[k]->stop_share;
    }
  return mixed;
}

/* A ball that runs on from a cell: caught by what it rolls into, else at rest at the end of its run. */
static Value
run_on (const Build *build, Lie lie, Vec2 at)
{
  const Response *response = build->response;
  Vec2 way = vec2_sub (at, build->place->input.ball);
  double landing_m = length_of (way), run_m, roll_m;
  Vec2 along = vec2_scale (way, 1 / landing_m);
  response_run (response, landing_m, lie, &run_m, &roll_m);
  if (!(landing_m > 0))
    along = build->field->along;
  Value value = { 0, 0 };
  double left = 1;
  for (int k = 0; k < ROLL_STEPS && run_m - roll_m > build->field->step_m; k++)
    {
      Cell passed = ground_at (build, vec2_add (at, vec2_scale (along, roll_m + (run_m - roll_m) * k / ROLL_STEPS)));
      if (passed.stop_share <= 0)
        continue;
      value = value_add (value, left, passed.stops);
      left *= 1 - fmin (1, passed.stop_share);
    }
  Cell rest = ground_at (build, vec2_add (at, vec2_scale (along, run_m)));
  value = value_add (value, left, rest.stops);
  return value_add (value, left, rest.goes);
}

static Value
land_on_cell (const Build *build, int i, int j)
{
  const Field *field = build->field;
  const KeptCell *cell = &build->cells[j * field->n_across + i];
  Vec2 at = grid_point (field, i, j);
  Value value = { (double)cell->stops, (double)cell->stops_again };
  if (cell->stop_share < 1)
    value = value_add (value, 1 - (double)cell->stop_share, run_on (build, (Lie)cell->lie, at));
  Value stopped;
  double passed = pass_trees (build->place, build->response, at, &stopped);
  return passed < 1 ? value_add (stopped, passed, value) : value;
}

static bool
land (Build *build, GError **error)
{
  Field *field = build->field;
  bool has_again = false;
  for (int j = 0; j < field->n_along; j++)
    {
      if (place_is_cancelled (build->place, error))
        return false;
      for (int i = 0; i < field->n_across; i++)
        {
          if (build->lies[j * field->n_across + i] == NOT_REACHED)
            continue;
          Value value = land_on_cell (build, i, j);
          field->strokes[j * field->pitch + i] = (float)value.strokes;
          field->again[j * field->pitch + i] = (float)value.again;
          has_again = has_again || value.again > 0;
        }
    }
  if (!has_again)
    g_clear_pointer (&field->again, g_free);
  return true;
}

/* ---- blur ---- */

typedef float Floats __attribute__ ((vector_size (16), aligned (4)));
#define LANES 4
/* Deviations that the blur reaches; the rest is 1 in 10 000. */
#define KERNEL_SDS 4.0

/* to[x] = sum over k of weights[|k|] from[x + k * stride], x in whole vectors. */
static void
add_taps (float *to, const float *from, ptrdiff_t stride, const float *weights, int n_taps, int n)
{
  for (int x = 0; x < n; x += LANES)
    {
      Floats sum = *(const Floats *)(from + x) * weights[0];
      for (int k = 1; k < n_taps; k++)
        sum += (*(const Floats *)(from + x + k * stride) + *(const Floats *)(from + x - k * stride)) * weights[k];
      *(Floats *)(to + x) = sum;
    }
}

/* Gaussian, one axis after the other; beyond its edge the field goes on as at the edge. */
static void
blur (const Field *field, float *values, const float *weights, int n_taps)
{
  int pad = (n_taps + LANES - 1) / LANES * LANES, width = field->pitch + 2 * pad, height = field->n_along + 2 * n_taps;
  g_autofree float *padded = g_new0 (float, (gsize)width *(gsize)height);
  g_autofree float *row = g_new (float, (gsize)width);
  for (int j = 0; j < field->n_along; j++)
    {
      float *from = values + j * field->pitch, last = from[field->n_across - 1];
      memcpy (row + pad, from, sizeof (float) * (size_t)field->n_across);
      for (int x = 0; x < pad; x++)
        row[x] = from[0];
      for (int x = pad + field->n_across; x < width; x++)
        row[x] = last;
      add_taps (padded + (j + n_taps) * width + pad, row + pad, 1, weights, n_taps, field->pitch);
    }
  for (int j = 0; j < n_taps; j++)
    {
      memcpy (padded + j * width, padded + n_taps * width, sizeof (float) * (size_t)width);
      memcpy (padded + (height - 1 - j) * width, padded + (height - 1 - n_taps) * width, sizeof (float) * (size_t)width);
    }
  for (int j = 0; j < field->n_along; j++)
    add_taps (values + j * field->pitch, padded + (j + n_taps) * width + pad, width, weights, n_taps, field->pitch);
}

static void
blur_field (Field *field)
{
  double sd = field->blur_m / field->step_m;
  int n_taps = 1 + (int)ceil (KERNEL_SDS * sd);
  if (n_taps <= 1)
    return;
  g_autofree float *weights = g_new (float, (gsize)n_taps);
  double sum = 0;
  for (int k = 0; k < n_taps; k++)
    sum += (k == 0 ? 1 : 2) * exp (-0.5 * k * k / (sd * sd));
  for (int k = 0; k < n_taps; k++)
    weights[k] = (float)(exp (-0.5 * k * k / (sd * sd)) / sum);
  blur (field, field->strokes, weights, n_taps);
  if (field->again != NULL)
    blur (field, field->again, weights, n_taps);
}

/* ---- all of it ---- */

bool
field_init (Field *field, const Place *place, const Response *response, double least_swing, double most_swing, GError **error)
{
  *field = (Field){ 0 };
  Build build = { .place = place, .response = response, .field = field };
  lay_out (&build, least_swing, most_swing);
  field->pitch = (field->n_across + LANES - 1) / LANES * LANES;
  size_t n = (size_t)field->n_across * (size_t)field->n_along, n_padded = (size_t)field->pitch * (size_t)field->n_along;
  field->strokes = g_new0 (float, n_padded);
  field->again = g_new0 (float, n_padded);
  g_autofree uint8_t *lies = g_new (uint8_t, n);
  g_autofree KeptCell *cells = g_new0 (KeptCell, n);
  build.lies = lies;
  build.cells = cells;
  if (!look_at_ground (&build, error) || !land (&build, error))
    {
      field_clear (field);
      return false;
    }
  blur_field (field);
  return true;
}

void
field_clear (Field *field)
{
  g_clear_pointer (&field->strokes, g_free);
  g_clear_pointer (&field->again, g_free);
}
