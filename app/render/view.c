// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * view - where the hole lies on the drawing: a turn, a scale and a centre, and the few ways to choose them.
 */
#include "render.h"

/* Closest and farthest looks, drawing units per metre: a kilometre in 200 px, and a ball that fills 8 px. */
#define LEAST_PX_PER_M 0.2
#define MOST_PX_PER_M 200.0

static double
clamp_scale (double px_per_m)
{
  if (!(px_per_m > LEAST_PX_PER_M))
    return LEAST_PX_PER_M;
  return px_per_m < MOST_PX_PER_M ? px_per_m : MOST_PX_PER_M;
}

Affine
view_to_drawing (const RenderView *view)
{
  double s = view->px_per_m, c = s * cos (view->turn_rad), n = s * sin (view->turn_rad);
  Affine t = { .xx = c, .yx = -n, .xy = -n, .yy = -c };
  t.x0 = view->width_px / 2 - t.xx * view->centre.x - t.xy * view->centre.y;
  t.y0 = view->height_px / 2 - t.yx * view->centre.x - t.yy * view->centre.y;
  return t;
}

Vec2
view_point (const RenderView *view, Vec2 point_m)
{
  Affine t = view_to_drawing (view);
  return vec2 (t.xx * point_m.x + t.xy * point_m.y + t.x0, t.yx * point_m.x + t.yy * point_m.y + t.y0);
}

/* Drawing offset to hole frame: the inverse of turn, scale and flip, without a general matrix inverse. */
static Vec2
unproject_offset (const RenderView *view, Vec2 by_px)
{
  double c = cos (view->turn_rad) / view->px_per_m, n = sin (view->turn_rad) / view->px_per_m;
  return vec2 (c * by_px.x - n * by_px.y, -n * by_px.x - c * by_px.y);
}

Vec2
view_unproject (const RenderView *view, Vec2 point_px)
{
  Vec2 offset = vec2 (point_px.x - view->width_px / 2, point_px.y - view->height_px / 2);
  return vec2_add (view->centre, unproject_offset (view, offset));
}

void
view_fit (RenderView *view, Box box, double margin_px)
{
  if (box_is_empty (box))
    return;
  double width = box.x1 - box.x0, height = box.y1 - box.y0;
  double c = fabs (cos (view->turn_rad)), n = fabs (sin (view->turn_rad));
  double across = c * width + n * height, up = n * width + c * height;
  double room_x = fmax (view->width_px - 2 * margin_px, 1), room_y = fmax (view->height_px - 2 * margin_px, 1);
  view->centre = vec2 ((box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2);
  view->px_per_m = clamp_scale (fmin (room_x / fmax (across, 1e-6), room_y / fmax (up, 1e-6)));
}

void
view_zoom (RenderView *view, double factor, Vec2 about_px)
{
  if (!isfinite (factor) || factor <= 0)
    return;
  Vec2 fixed = view_unproject (view, about_px);
  view->px_per_m = clamp_scale (view->px_per_m * factor);
  Vec2 slipped = view_unproject (view, about_px);
  view->centre = vec2_add (view->centre, vec2_sub (fixed, slipped));
}

void
view_pan (RenderView *view, Vec2 by_px)
{
  view->centre = vec2_sub (view->centre, unproject_offset (view, by_px));
}

double
view_turn_along (Vec2 ball, Vec2 aim)
{
  Vec2 shot = vec2_sub (aim, ball);
  if (!(vec2_length (shot) > 0))
    return -PI / 2;
  return -atan2 (shot.y, shot.x);
}

void
view_along_shot (RenderView *view, Vec2 ball, Vec2 aim, double reach_m, double left_px, double right_px)
{
  double room = fmax (view->width_px - left_px - right_px, 1);
  view->turn_rad = view_turn_along (ball, aim);
  view->px_per_m = clamp_scale (room / fmax (reach_m, 1e-6));
  view->centre = vec2_add (ball, unproject_offset (view, vec2 (view->width_px / 2 - left_px, 0)));
}
