// SPDX-License-Identifier: GPL-3.0-or-later
/* Affine transforms of the plane, in the order of SVG's matrix(). */
#include "geometry.h"

Affine
affine_identity (void)
{
  return (Affine){ 1, 0, 0, 1, 0, 0 };
}

Affine
affine_translation (double x, double y)
{
  return (Affine){ 1, 0, 0, 1, x, y };
}

Affine
affine_scaling (double sx, double sy)
{
  return (Affine){ sx, 0, 0, sy, 0, 0 };
}

Affine
affine_rotation (double angle_rad)
{
  double c = cos (angle_rad), s = sin (angle_rad);
  return (Affine){ c, s, -s, c, 0, 0 };
}

Affine
affine_then (Affine first, Affine second)
{
  Vec2 x_axis = affine_apply_direction (second, vec2 (first.xx, first.yx));
  Vec2 y_axis = affine_apply_direction (second, vec2 (first.xy, first.yy));
  Vec2 origin = affine_apply (second, vec2 (first.x0, first.y0));
  return (Affine){ x_axis.x, x_axis.y, y_axis.x, y_axis.y, origin.x, origin.y };
}

Vec2
affine_apply (Affine t, Vec2 point)
{
  return vec2 (t.xx * point.x + t.xy * point.y + t.x0, t.yx * point.x + t.yy * point.y + t.y0);
}

Vec2
affine_apply_direction (Affine t, Vec2 direction)
{
  return vec2 (t.xx * direction.x + t.xy * direction.y, t.yx * direction.x + t.yy * direction.y);
}

bool
affine_invert (Affine t, Affine *inverse)
{
  double det = t.xx * t.yy - t.xy * t.yx;
  if (!affine_is_finite (t) || !isfinite (det) || det == 0)
    return false;
  Affine inv = { t.yy / det, -t.yx / det, -t.xy / det, t.xx / det, 0, 0 };
  Vec2 origin = affine_apply_direction (inv, vec2 (-t.x0, -t.y0));
  inv.x0 = origin.x;
  inv.y0 = origin.y;
  if (!affine_is_finite (inv))
    return false;
  *inverse = inv;
  return true;
}

/* The matrix is a turn with scale plus a mirrored turn with scale; their radii add up to the larger singular value. */
double
affine_largest_scale (Affine t)
{
  double turn = hypot (t.xx + t.yy, t.yx - t.xy);
  double mirror = hypot (t.xx - t.yy, t.yx + t.xy);
  return (turn + mirror) / 2;
}

bool
affine_is_finite (Affine t)
{
  return isfinite (t.xx) && isfinite (t.yx) && isfinite (t.xy) && isfinite (t.yy) && isfinite (t.x0) && isfinite (t.y0);
}
