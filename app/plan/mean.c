// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The mean of a blurred field over a pattern: nodes along what of the pattern the blur has left.
 */
#include "plan-private.h"

#include <math.h>

/* Between nodes of a trapezoid, in deviations of the blur: the blurred field has nothing finer (error below 1e-4 of a step). */
#define NODE_SPACING 1.2
/* Deviations that they reach. */
#define NODE_REACH 3.3
#define MOST_NODES 129

typedef struct
{
  double at, weight; /* standard deviations; weights add up to 1 */
} Node;

/* Gauss-Hermite for the standard normal, three and five nodes (Abramowitz and Stegun, table 25.10). */
static const Node three[3] = { { -1.7320508075688772, 1. / 6 }, { 0, 2. / 3 }, { 1.7320508075688772, 1. / 6 } };
static const Node five[5] = { { -2.8569700138728056, 0.011257411327720689 },
                              { -1.3556261799742659, 0.22207592200561265 },
                              { 0, 0.53333333333333333 },
                              { 1.3556261799742659, 0.22207592200561265 },
                              { 2.8569700138728056, 0.011257411327720689 } };

/* Nodes for an axis whose deviation is `sd` beside a blur of 1; `nodes` has room for MOST_NODES. */
static int
place_nodes (double sd, Node *nodes)
{
  if (sd < 1e-3)
    {
      nodes[0] = (Node){ 0, 1 };
      return 1;
    }
  if (sd < 1.2)
    {
      int n = sd < 0.7 ? 3 : 5;
      for (int i = 0; i < n; i++)
        nodes[i] = (sd < 0.7 ? three : five)[i];
      return n;
    }
  int half = (int)fmin ((MOST_NODES - 1) / 2, ceil (NODE_REACH * sd / NODE_SPACING));
  double sum = 0;
  for (int i = -half; i <= half; i++)
    {
      double at = NODE_REACH * i / half;
      nodes[i + half] = (Node){ at, exp (-0.5 * at * at) };
      sum += nodes[i + half].weight;
    }
  for (int i = 0; i <= 2 * half; i++)
    nodes[i].weight /= sum;
  return 2 * half + 1;
}

/* The axes of what of a covariance is left when `blur2` is taken off both ways. */
static void
left_axes (const Pattern *pattern, double blur2, Vec2 *first, Vec2 *second, double *first_sd, double *second_sd)
{
  Vec2 along = pattern->along, side = vec2_scale (vec2_left (along), -1);
  double l2 = pattern->long_sd_m * pattern->long_sd_m, s2 = pattern->side_sd_m * pattern->side_sd_m;
  double both = pattern->correlation * pattern->long_sd_m * pattern->side_sd_m;
  double angle = 0.5 * atan2 (2 * both, l2 - s2), c = cos (angle), s = sin (angle);
  double middle = 0.5 * (l2 + s2), half = hypot (0.5 * (l2 - s2), both);
  *first = vec2_add (vec2_scale (along, c), vec2_scale (side, s));
  *second = vec2_add (vec2_scale (along, -s), vec2_scale (side, c));
  *first_sd = sqrt (fmax (0, middle + half - blur2));
  *second_sd = sqrt (fmax (0, middle - half - blur2));
}

static double
read_between (const float *values, int pitch, int i, int j, double u, double v)
{
  const float *row = values + j * pitch + i, *next = row + pitch;
  return (1 - v) * ((1 - u) * (double)row[0] + u * (double)row[1]) + v * ((1 - u) * (double)next[0] + u * (double)next[1]);
}

static Value
read_field (const Field *field, double x, double y)
{
  x = x < 0 ? 0 : x > field->n_across - 1.001 ? field->n_across - 1.001 : x;
  y = y < 0 ? 0 : y > field->n_along - 1.001 ? field->n_along - 1.001 : y;
  int i = (int)x, j = (int)y;
  return (Value){ read_between (field->strokes, field->pitch, i, j, x - i, y - j),
                  field->again != NULL ? read_between (field->again, field->pitch, i, j, x - i, y - j) : 0 };
}

/* A direction in cells. */
static Vec2
in_cells (const Field *field, Vec2 direction)
{
  return vec2_scale (vec2 (vec2_dot (direction, field->across), vec2_dot (direction, field->along)), 1 / field->step_m);
}

Value
field_mean (const Field *field, const Pattern *pattern)
{
  /* Reading and averaging blur by a part of a cell, which the field's own blur has been lessened by. */
  double blur2 = field->blur_m * field->blur_m + (field->blur_m > 0 ? 0.25 * field->step_m * field->step_m : 0);
  double unit_m = fmax (sqrt (blur2), field->step_m);
  Vec2 first, second;
  double first_sd, second_sd;
  left_axes (pattern, blur2, &first, &second, &first_sd, &second_sd);
  Node firsts[MOST_NODES], seconds[MOST_NODES];
  int n_firsts = place_nodes (first_sd / unit_m, firsts), n_seconds = place_nodes (second_sd / unit_m, seconds);
  Vec2 middle = in_cells (field, vec2_sub (pattern->mean, field->origin));
  Vec2 a = vec2_scale (in_cells (field, first), first_sd), b = vec2_scale (in_cells (field, second), second_sd);
  Value sum = { 0, 0 };
  for (int i = 0; i < n_firsts; i++)
    for (int k = 0; k < n_seconds; k++)
      {
        double x = middle.x + firsts[i].at * a.x + seconds[k].at * b.x, y = middle.y + firsts[i].at * a.y + seconds[k].at * b.y;
        sum = value_add (sum, firsts[i].weight * seconds[k].weight, read_field (field, x, y));
      }
  return sum;
}

Value
aim_mean (const Field *field, const Response *response, Vec2 ball, double direction_rad, double swing)
{
  Pattern poor, good = response_pattern (response, ball, direction_rad, swing);
  Pattern read = response_narrowed (response, ball, &good);
  Value value = field_mean (field, &read);
  if (!poor_pattern (response->club, &good, ball, &poor))
    return value;
  double chance = response->club->mishit_chance;
  read = response_narrowed (response, ball, &poor);
  return value_add ((Value){ (1 - chance) * value.strokes, (1 - chance) * value.again }, chance, field_mean (field, &read));
}
