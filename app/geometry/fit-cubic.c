// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One cubic Bezier through a part of a stroke: Schneider's method. The points get parameters by their place along the stroke; the handles
 * that make the sum of squared distances least come from linear equations; Newton's method moves each parameter to the curve's nearest
 * place; and again.
 *
 * Schneider, "An algorithm for automatically fitting digitized curves", in Glassner (ed.), Graphics Gems, 1990. Beyond it, a handle at a
 * corner or an open end is free in direction as well as in length.
 */
#include "fit-private.h"

/* Rounds of parameters and handles; common practice is four to twenty. */
#define MOST_ROUNDS 12
/* Rounds before their gain tells whether more will help. */
#define TRIAL_ROUNDS 4
/*
 * In the first rounds an error counts alike in every direction; then little along the curve, where the parameter can make up for it. That
 * is a damped Gauss-Newton step on the distances themselves and converges where the alternation of parameters and handles creeps
 * ("tangent distance minimization": Wang, Pottmann and Liu, "Fitting B-spline curves to point clouds by curvature-based squared
 * distance minimization", 2006). Both numbers by trial.
 */
#define EVEN_ROUNDS 2
#define ALONG 0.05
/* Rounds on from where the curve has come near enough: what is near enough is seldom the nearest yet. */
#define POLISH_ROUNDS 3
/* A first curve this many tolerances off is not worth a second round. */
#define HOPELESS 50.0
/* Handles of nearly no length, or longer than the stroke, in parts of its length, bend the curve into cusps and loops. */
#define SHORTEST_HANDLE 0.01
#define LONGEST_HANDLE 0.8
/* Where the equations do not tell, a third of the length: the cubic then runs evenly (Wu and Barsky's heuristic, in Schneider). */
#define EVEN_HANDLE (1.0 / 3.0)
/* Fewer points between two joints than this leave a free handle undetermined, or bent by a single point. */
#define LEAST_POINTS_FOR_FREE 5
/* A straight side is drawn as a line unless the curve is so much nearer: ratio of the root mean squares, slack in tolerances. */
#define LINE_RATIO 1.5
#define LINE_SLACK 0.05
/* Pivots this small beside the largest coefficient mean that the equations say nothing. */
#define SINGULAR 1e-9

#define MOST_UNKNOWNS 4

/* A symmetric matrix of two rows: how much an error in each direction counts. */
typedef struct
{
  double xx, xy, yy;
} Weight;

/* The points to fit, and the sums of squares that the equations are made of: by weight of the first handle, of both, of the second. */
typedef struct
{
  const Vec2 *points;
  double *t;
  size_t n;
  double length_m;
  Weight first, both, second;
  Vec2 left_first, left_second; /* what is left to fit by either handle */
} Task;

static void
weight_add (Weight *sum, Weight weight, double factor)
{
  sum->xx += factor * weight.xx;
  sum->xy += factor * weight.xy;
  sum->yy += factor * weight.yy;
}

static Vec2
weight_apply (Weight weight, Vec2 v)
{
  return vec2 (weight.xx * v.x + weight.xy * v.y, weight.xy * v.x + weight.yy * v.y);
}

/* An error along the curve counts `along`, one across it 1. */
static Weight
weight_at (const Vec2 p[4], double t, double along)
{
  Vec2 slope = cubic_slope (p, t);
  double squared = vec2_dot (slope, slope);
  if (along >= 1 || !(squared > 0))
    return (Weight){ 1, 0, 1 };
  double part = (1 - along) / squared;
  return (Weight){ 1 - part * slope.x * slope.x, -part * slope.x * slope.y, 1 - part * slope.y * slope.y };
}

/* Makes the sums for handles of a curve between the ends of `p`, which is the last round's curve. */
static void
sum_up (Task *task, const Vec2 p[4], double along)
{
  task->first = task->both = task->second = (Weight){ 0, 0, 0 };
  task->left_first = task->left_second = vec2 (0, 0);
  for (size_t i = 0; i < task->n; i++)
    {
      double t = task->t[i], s = 1 - t;
      double w1 = 3 * s * s * t, w2 = 3 * s * t * t, w0 = s * s * s + w1, w3 = t * t * t + w2;
      Vec2 left = vec2_sub (task->points[i], vec2 (w0 * p[0].x + w3 * p[3].x, w0 * p[0].y + w3 * p[3].y));
      Weight weight = weight_at (p, t, along);
      weight_add (&task->first, weight, w1 * w1);
      weight_add (&task->both, weight, w1 * w2);
      weight_add (&task->second, weight, w2 * w2);
      left = weight_apply (weight, left);
      task->left_first = vec2_add (task->left_first, vec2_scale (left, w1));
      task->left_second = vec2_add (task->left_second, vec2_scale (left, w2));
    }
}

/* Solves n linear equations in place, the right side in column n: Gauss with pivots. False when they are singular. */
static bool
solve (double m[MOST_UNKNOWNS][MOST_UNKNOWNS + 1], int n, double *x)
{
  double largest = 0;
  for (int i = 0; i < n; i++)
    largest = fmax (largest, fabs (m[i][i]));
  for (int k = 0; k < n; k++)
    {
      int pivot = k;
      for (int i = k + 1; i < n; i++)
        if (fabs (m[i][k]) > fabs (m[pivot][k]))
          pivot = i;
      if (!(fabs (m[pivot][k]) > SINGULAR * largest))
        return false;
      for (int j = k; j <= n; j++)
        {
          double swapped = m[k][j];
          m[k][j] = m[pivot][j];
          m[pivot][j] = swapped;
        }
      for (int i = k + 1; i < n; i++)
        for (int j = n; j >= k; j--)
          m[i][j] -= m[i][k] / m[k][k] * m[k][j];
    }
  for (int k = n - 1; k >= 0; k--)
    {
      x[k] = m[k][n];
      for (int j = k + 1; j < n; j++)
        x[k] -= m[k][j] * x[j];
      x[k] /= m[k][k];
    }
  return true;
}

/* Adds the directions in which a joint's handle may grow. */
static int
add_unknowns (bool is_free, Vec2 tangent, bool at_end, Vec2 *directions, bool *of_end, int n)
{
  directions[n] = tangent;
  of_end[n++] = at_end;
  if (is_free)
    {
      directions[n] = vec2_left (tangent);
      of_end[n++] = at_end;
    }
  return n;
}

static bool
handle_is_sound (Vec2 handle, Vec2 tangent, bool is_free, double length_m)
{
  double reach_m = is_free ? vec2_length (handle) : vec2_dot (handle, tangent);
  return reach_m >= SHORTEST_HANDLE * length_m && reach_m <= LONGEST_HANDLE * length_m;
}

/* Handles from the sums: p[1] and p[2]. False when they would not be sound; they are then even ones. */
static bool
place_handles (const Task *task, const Joint *a, const Joint *b, bool may_free, Vec2 p[4])
{
  Vec2 directions[MOST_UNKNOWNS], forth = a->tangent, back = vec2_scale (b->tangent, -1);
  bool of_end[MOST_UNKNOWNS], a_free = may_free && a->is_free, b_free = may_free && b->is_free;
  int n = add_unknowns (a_free, forth, false, directions, of_end, 0);
  n = add_unknowns (b_free, back, true, directions, of_end, n);
  double m[MOST_UNKNOWNS][MOST_UNKNOWNS + 1], x[MOST_UNKNOWNS];
  for (int i = 0; i < n; i++)
    {
      for (int j = 0; j < n; j++)
        {
          Weight sum = of_end[i] != of_end[j] ? task->both : of_end[i] ? task->second : task->first;
          m[i][j] = vec2_dot (directions[i], weight_apply (sum, directions[j]));
        }
      m[i][n] = vec2_dot (directions[i], of_end[i] ? task->left_second : task->left_first);
    }
  Vec2 handles[2] = { vec2 (0, 0), vec2 (0, 0) };
  bool is_sound = solve (m, n, x);
  for (int i = 0; is_sound && i < n; i++)
    handles[of_end[i]] = vec2_add (handles[of_end[i]], vec2_scale (directions[i], x[i]));
  is_sound = is_sound && handle_is_sound (handles[0], forth, a_free, task->length_m)
             && handle_is_sound (handles[1], back, b_free, task->length_m);
  p[0] = a->at;
  p[1] = vec2_add (a->at, is_sound ? handles[0] : vec2_scale (forth, EVEN_HANDLE * task->length_m));
  p[2] = vec2_add (b->at, is_sound ? handles[1] : vec2_scale (back, EVEN_HANDLE * task->length_m));
  p[3] = b->at;
  return is_sound;
}

/* One step of Newton's method for each parameter, kept where it comes nearer. Returns the sum of the squared distances. */
static double
move_parameters (Task *task, const Vec2 p[4], double *largest_m, size_t *worst)
{
  double sum = 0, most = -1;
  for (size_t i = 0; i < task->n; i++)
    {
      double t = task->t[i];
      Vec2 off = vec2_sub (cubic_at (p, t), task->points[i]);
      Vec2 slope = cubic_slope (p, t);
      double steepness = vec2_dot (slope, slope) + vec2_dot (off, cubic_bend (p, t)), squared = vec2_dot (off, off);
      if (steepness > 0)
        {
          double moved = fmin (fmax (t - vec2_dot (off, slope) / steepness, 0), 1);
          Vec2 moved_off = vec2_sub (cubic_at (p, moved), task->points[i]);
          double moved_squared = vec2_dot (moved_off, moved_off);
          if (moved_squared < squared)
            {
              squared = moved_squared;
              task->t[i] = moved;
            }
        }
      sum += squared;
      if (squared > most)
        {
          most = squared;
          *worst = i;
        }
    }
  *largest_m = sqrt (most);
  return sum;
}

/* The straight line when it does as well as the curve, whose squared distances add up to `curve_sum`. */
static bool
try_line (const Task *task, double curve_sum, double tolerance_m, Fit *fit)
{
  double sum = 0, largest_m = 0;
  for (size_t i = 0; i < task->n; i++)
    {
      double distance_m = segment_distance (fit->p[0], fit->p[3], task->points[i], NULL);
      sum += distance_m * distance_m;
      largest_m = fmax (largest_m, distance_m);
    }
  double n = (double)task->n;
  if (largest_m > tolerance_m || sqrt (sum / n) > LINE_RATIO * sqrt (curve_sum / n) + LINE_SLACK * tolerance_m)
    return false;
  fit->is_line = true;
  fit->largest_m = largest_m;
  return true;
}

/* Whether going on as from `before_m` to `now_m` would reach the tolerance in the rounds that are left. */
static bool
has_hope (int round, double before_m, double now_m, double tolerance_m)
{
  if (round == 0)
    return now_m <= HOPELESS * tolerance_m;
  return round < TRIAL_ROUNDS || now_m * pow (now_m / before_m, MOST_ROUNDS - 1 - round) <= tolerance_m;
}

bool
fit_cubic (const Vec2 *points, const double *arc_m, double *t, size_t first, size_t last, const Joint *a, const Joint *b,
           double tolerance_m, Fit *fit)
{
  Task task = { .points = points + first, .t = t, .n = last - first + 1, .length_m = arc_m[last] - arc_m[first] };
  for (size_t i = 0; i < task.n; i++)
    t[i] = task.length_m > 0 ? (arc_m[first + i] - arc_m[first]) / task.length_m : 0;
  bool may_free = task.n >= LEAST_POINTS_FOR_FREE + 2;
  double before_m = INFINITY, sum = 0;
  Fit tried = { .p = { a->at, a->at, b->at, b->at } };
  *fit = (Fit){ .p = { a->at, a->at, b->at, b->at }, .largest_m = INFINITY };
  for (int round = 0, good_rounds = 0; round < MOST_ROUNDS && good_rounds <= POLISH_ROUNDS; round++)
    {
      sum_up (&task, tried.p, round < EVEN_ROUNDS ? 1 : ALONG);
      place_handles (&task, a, b, may_free, tried.p);
      double tried_sum = move_parameters (&task, tried.p, &tried.largest_m, &tried.worst);
      if (tried.largest_m < fit->largest_m)
        {
          *fit = tried;
          sum = tried_sum;
        }
      good_rounds += fit->largest_m <= tolerance_m;
      if (good_rounds == 0 && !has_hope (round, before_m, tried.largest_m, tolerance_m))
        break;
      before_m = tried.largest_m;
    }
  fit->worst += first;
  if (a->is_free && b->is_free && try_line (&task, sum, tolerance_m, fit))
    return true;
  return fit->largest_m <= tolerance_m;
}
