// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where a closed stroke meets itself. A hand never ends where it began: it stops short, runs on over what it drew, or comes back beside
 * it. What crosses is cut at the crossing; what was drawn twice is cut off the end; and where the end then lies beside the start, both are
 * moved half the step aside, less and less with the distance from the seam. A corner is left as it is.
 */
#include "fit-private.h"

/* How much of the stroke at either end may be overlap, a choice: more than that was meant. */
#define MOST_OVERLAP (1.0 / 6.0)
/* Most points of either end that are looked at, so that a stroke of a hundred thousand takes no longer. */
#define MOST_POINTS_OVERLAP 512
/* Ends that run side by side within this angle draw the same thing twice, in radians (60 degrees, a choice). */
#define SAME_WAY_RAD (PI / 3)
/* A step aside fades over this many times its width either side: then it turns the stroke by at most 11 degrees. */
#define STEP_REACH 4.0
/* But over no more than this part of the stroke. */
#define MOST_STEP (1.0 / 8.0)

/* The stroke's points first .. last that are kept. */
typedef struct
{
  Vec2 *points;
  size_t first, last;
  double overlap_m; /* longest that may be cut off at either end */
  double reach_m;   /* over which the direction of an end is taken */
} Seam;

/* Index of the last point within `length_m` of the stroke's first point (`step` 1) or last (-1), at most `most` points on. */
static size_t
point_along (const Seam *seam, int step, double length_m, size_t most)
{
  size_t i = step > 0 ? seam->first : seam->last, other = step > 0 ? seam->last : seam->first;
  for (size_t k = 0; k < most && i != other; k++)
    {
      size_t next = step > 0 ? i + 1 : i - 1;
      length_m -= vec2_distance (seam->points[i], seam->points[next]);
      if (length_m < 0)
        break;
      i = next;
    }
  return i;
}

/* Where a-b and c-d cross, both ends included: the place along each. */
static bool
edges_cross (Vec2 a, Vec2 b, Vec2 c, Vec2 d, double *along_ab, double *along_cd)
{
  Vec2 ab = vec2_sub (b, a), cd = vec2_sub (d, c), ac = vec2_sub (c, a);
  double area = vec2_cross (ab, cd);
  *along_ab = vec2_cross (ac, cd) / area;
  *along_cd = vec2_cross (ac, ab) / area;
  return area != 0 && *along_ab >= 0 && *along_ab <= 1 && *along_cd >= 0 && *along_cd <= 1;
}

/* Cuts both ends where they cross, if they do: at the crossing that cuts off least. */
static bool
cut_crossing (Seam *seam)
{
  Vec2 *p = seam->points, at = vec2 (0, 0);
  size_t head_end = point_along (seam, 1, seam->overlap_m, MOST_POINTS_OVERLAP);
  size_t tail_end = point_along (seam, -1, seam->overlap_m, MOST_POINTS_OVERLAP), head = 0, tail = 0;
  double least_m = INFINITY, head_m = 0;
  for (size_t i = seam->first; i < head_end; head_m += vec2_distance (p[i], p[i + 1]), i++)
    {
      double tail_m = 0;
      for (size_t j = seam->last; j > tail_end && j > i + 2 && head_m + tail_m < least_m;
           tail_m += vec2_distance (p[j - 1], p[j]), j--)
        {
          double along_head, along_tail;
          if (!edges_cross (p[i], p[i + 1], p[j], p[j - 1], &along_head, &along_tail))
            continue;
          double cut_m
              = head_m + along_head * vec2_distance (p[i], p[i + 1]) + tail_m + along_tail * vec2_distance (p[j - 1], p[j]);
          if (cut_m < least_m)
            {
              least_m = cut_m;
              at = vec2_lerp (p[i], p[i + 1], along_head);
              head = i;
              tail = j - 1;
            }
        }
    }
  if (!(least_m < INFINITY))
    return false;
  seam->first = head;
  seam->last = tail;
  p[head] = at;
  return true;
}

/* Mean direction of the kept stroke's first (`step` 1) or last (-1) length, an edge at least, along the stroke. */
static Vec2
end_direction (const Seam *seam, int step)
{
  const Vec2 *p = seam->points;
  size_t i = point_along (seam, step, seam->reach_m, SIZE_MAX);
  if (step > 0)
    return vec2_sub (p[i > seam->first ? i : seam->first + 1], p[seam->first]);
  return vec2_sub (p[seam->last], p[i < seam->last ? i : seam->last - 1]);
}

/* Cuts the end back to where it passes the start, if it goes on beside it the same way. */
static void
cut_overlap (Seam *seam)
{
  Vec2 start = seam->points[seam->first], head = end_direction (seam, 1);
  size_t tail_end = point_along (seam, -1, seam->overlap_m, MOST_POINTS_OVERLAP), nearest = seam->last;
  double least_m = vec2_distance (seam->points[seam->last], start);
  for (size_t j = seam->last; j > tail_end; j--)
    {
      double distance_m = segment_distance (seam->points[j - 1], seam->points[j], start, NULL);
      if (distance_m < least_m)
        {
          least_m = distance_m;
          nearest = j - 1;
        }
    }
  if (nearest == seam->last)
    return;
  Seam cut = *seam;
  cut.last = nearest;
  Vec2 tail = end_direction (&cut, -1);
  if (least_m < seam->overlap_m && fabs (turn_between (tail, head)) < SAME_WAY_RAD)
    *seam = cut;
}

/* Moves the kept stroke's first (`step` 1) or last (-1) point by `move`, those behind it less and less over `reach_m`. Returns how many. */
static size_t
fade_move (Seam *seam, int step, Vec2 move, double reach_m)
{
  Vec2 *p = seam->points;
  size_t i = step > 0 ? seam->first : seam->last, other = step > 0 ? seam->last : seam->first, n_moved = 0;
  for (double gone_m = 0; gone_m < reach_m && i != other; n_moved++)
    {
      double u = gone_m / reach_m;
      size_t next = step > 0 ? i + 1 : i - 1;
      gone_m += vec2_distance (p[i], p[next]);
      p[i] = vec2_add (p[i], vec2_scale (move, 1 - u * u * (3 - 2 * u)));
      i = next;
    }
  return n_moved;
}

/* Lets both ends give way to each other where the stroke goes on the same way, but beside where it began. */
static void
ease_step (Seam *seam, double length_m, double tolerance_m, double corner_rad, Closing *closing)
{
  Vec2 head = vec2_unit (end_direction (seam, 1)), tail = vec2_unit (end_direction (seam, -1));
  Vec2 gap = vec2_sub (seam->points[seam->first], seam->points[seam->last]), way = vec2_unit (vec2_add (head, tail));
  Vec2 aside = vec2_scale (vec2_left (way), vec2_cross (way, gap));
  double aside_m = vec2_length (aside);
  if (fabs (turn_between (tail, head)) > corner_rad || aside_m <= tolerance_m || aside_m > seam->overlap_m)
    return;
  double reach_m = fmin (STEP_REACH * aside_m, MOST_STEP * length_m);
  closing->n_eased_first = fade_move (seam, 1, vec2_scale (aside, -0.5), reach_m);
  closing->n_eased_last = fade_move (seam, -1, vec2_scale (aside, 0.5), reach_m);
}

Closing
seam_close (Vec2 *points, size_t n_points, double reach_m, double tolerance_m, double corner_rad)
{
  Seam seam = { .points = points, .last = n_points - 1 };
  Closing closing = { 0 };
  double length_m = 0;
  for (size_t i = 1; i < n_points; i++)
    length_m += vec2_distance (points[i - 1], points[i]);
  seam.overlap_m = MOST_OVERLAP * length_m;
  seam.reach_m = reach_m;
  if (cut_crossing (&seam))
    closing.n_eased_first = 1;
  else
    {
      cut_overlap (&seam);
      ease_step (&seam, length_m, tolerance_m, corner_rad, &closing);
    }
  closing.first = seam.first;
  closing.n_points = seam.last - seam.first + 1;
  return closing;
}
