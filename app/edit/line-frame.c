// SPDX-License-Identifier: GPL-3.0-or-later
/* Along and off the line of play: a polyline from the tee in use that goes on straight at both ends. */
#include "edit-private.h"

/* Two points of the line nearer than this are one. */
#define SAME_POINT_M EDIT_GRID_M

/* The line without points that repeat; false when fewer than two are left. */
static bool
drop_repeats (LineFrame *frame)
{
  size_t n = 0;
  for (size_t i = 0; i < frame->n_points; i++)
    if (n == 0 || vec2_distance (frame->points[n - 1], frame->points[i]) >= SAME_POINT_M)
      frame->points[n++] = frame->points[i];
  frame->n_points = n;
  return n >= 2;
}

bool
line_frame_init (LineFrame *frame, const Hole *hole)
{
  frame->n_points = hole_measured_line (hole, NULL, &frame->points);
  if (frame->n_points == 0)
    {
      Vec2 target;
      int tee = hole_tee (hole, NULL);
      if (tee < 0 || !hole_target (hole, NULL, &target))
        return false;
      frame->points = g_new (Vec2, 2);
      frame->points[0] = hole_part (hole, (size_t)tee)->at;
      frame->points[1] = target;
      frame->n_points = 2;
    }
  if (drop_repeats (frame))
    return true;
  line_frame_clear (frame);
  return false;
}

void
line_frame_clear (LineFrame *frame)
{
  g_clear_pointer (&frame->points, g_free);
  frame->n_points = 0;
}

void
line_frame_measure (const LineFrame *frame, Vec2 at, double *along_m, double *right_m, Vec2 *foot)
{
  double before_m = 0, nearest_m = INFINITY;
  for (size_t i = 0; i + 1 < frame->n_points; i++)
    {
      Vec2 a = frame->points[i], b = frame->points[i + 1];
      double length_m = vec2_distance (a, b);
      Vec2 direction = vec2_unit (vec2_sub (b, a)), from = vec2_sub (at, a);
      double along = vec2_dot (direction, from);
      if (i > 0)
        along = fmax (along, 0);
      if (i + 2 < frame->n_points)
        along = fmin (along, length_m);
      Vec2 place = vec2_add (a, vec2_scale (direction, along));
      double off_m = vec2_distance (place, at);
      if (off_m < nearest_m)
        {
          nearest_m = off_m;
          *along_m = before_m + along;
          *right_m = vec2_cross (direction, from) > 0 ? -off_m : off_m;
          if (foot)
            *foot = place;
        }
      before_m += length_m;
    }
}

Vec2
line_frame_point (const LineFrame *frame, double along_m, Vec2 *direction)
{
  size_t i = 0;
  double length_m = vec2_distance (frame->points[0], frame->points[1]);
  while (along_m > length_m && i + 2 < frame->n_points)
    {
      along_m -= length_m;
      i++;
      length_m = vec2_distance (frame->points[i], frame->points[i + 1]);
    }
  *direction = vec2_unit (vec2_sub (frame->points[i + 1], frame->points[i]));
  return vec2_add (frame->points[i], vec2_scale (*direction, along_m));
}
