// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The mean of a blurred field over a pattern: nodes along what of the pattern the blur has left.
 */
#include "plan-private.h"

#include <math.h>

/* Between nodes of a trapezoid, in deviations of the blur: the blurred field has nothing finer (error below 1e-4 of a step). */
#define NODE_SPACING 1.5
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
  double sum = 1;
  nodes[half] = (Node){ 0, 1 };
  for (int i = 1; i <= half; i++)
    {
      double at = NODE_REACH * i / half, weight = exp (-0.5 * at * at);
      nodes[half + i] = (Node){ at, weight };
      nodes[half - i] = (Node){ -at, weight };
      sum += 2 * weight;
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
  double middle = 0.5 * (l2 + s2), apart = 0.5 * (l2 - s2), half = sqrt (apart * apart + both * both);
  /* Half the angle whose tangent is both / apart. */
  double turned = half > 0 ? apart / half : 1, c = sqrt (fmax (0, 0.5 * (1 + turned))),
         s = copysign (sqrt (fmax (0, 0.5 * (1 - turned))), both);
  *first = vec2_add (vec2_scale (along, c), vec2_scale (side, s));
  *second = vec2_add (vec2_scale (along, -s), vec2_scale (side, c));
  *first_sd = sqrt (fmax (0, middle + half - blur2));
  *second_sd = sqrt (fmax (0, middle - half - blur2));
}

static float
read_between (const float *row, int pitch, float u, float v)
{
  const float *next = row + pitch;
  float below = row[0] + u * (row[1] - row[0]), above = next[0] + u * (next[1] - next[0]);
  return below + v * (above - below);
}

/* A coordinate within 0 .. most; NaN is 0. */
static double
within (double x, double most)
{
  x = x > 0 ? x : 0;
  return x < most ? x : most;
}

static void
add_place (const Field *field, double x, double y, double weight, Value *sum)
{
  x = within (x, field->n_across - 1.001);
  y = within (y, field->n_along - 1.001);
  int i = (int)x, j = (int)y, cell = j * field->pitch + i;
  float u = (float)(x - i), v = (float)(y - j);
  sum->strokes += weight * (double)read_between (field->strokes + cell, field->pitch, u, v);
  if (field->again != NULL)
    sum->again += weight * (double)read_between (field->again + cell, field->pitch, u, v);
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
    {
      Vec2 at = vec2_add (middle, vec2_scale (a, firsts[i].at));
      for (int k = 0; k < n_seconds; k++)
        add_place (field, at.x + seconds[k].at * b.x, at.y + seconds[k].at * b.y, firsts[i].weight * seconds[k].weight, &sum);
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
