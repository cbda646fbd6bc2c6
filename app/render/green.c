// SPDX-License-Identifier: GPL-3.0-or-later
/* green - the view of the green by itself, and the depths that card and overlay mark on it. */
#include "render-green.h"

#define DEPTH_STEP 5
/* Ground shown about the green, m: a shot that misses by so much is still seen. */
#define ROUND_GREEN_M 9.0
/* An aim no farther from the green than this is shown with it, m. */
#define NEAR_AIM_M 30.0
/* Room for labels at the edges, design units of 1/96 inch. */
#define MARGIN_UNITS 26.0

size_t
render_green_depths (const GreenNumbers *numbers, Vec2 from, Vec2 hole, LengthUnit units, GreenDepth *lines, size_t most)
{
  Vec2 along = vec2_unit (vec2_sub (hole, from)), front = vec2_add (from, vec2_scale (along, numbers->front_m));
  double last = unit_from_metres (units, numbers->depth_m);
  size_t n = 0;
  for (int depth = 0; depth <= last && n < most; depth += DEPTH_STEP)
    lines[n++] = (GreenDepth){ depth, vec2_add (front, vec2_scale (along, unit_to_metres (units, depth))) };
  return n;
}

/* Bounds on a drawing of 1 px a metre that is turned as the view is. */
static Box
bounds_of (const Outline *outline, double turn_rad)
{
  Affine turn = affine_rotation (turn_rad);
  Box box = box_empty ();
  for (size_t i = 0; i < outline->n_points; i++)
    box = box_with_point (box, affine_apply (turn, outline->points[i]));
  return box_grown (box, ROUND_GREEN_M);
}

void
view_frame_green (RenderView *view, const PlanScene *scene)
{
  const ShotResult *shot = &scene->shots[scene->current];
  const GreenPlay *play = &scene->green->play;
  int green = hole_green (scene->hole, NULL);
  Vec2 target;
  if (green < 0 || !hole_target (scene->hole, NULL, &target))
    return;
  const Outline *outline = hole_part (scene->hole, (size_t)green)->outline;
  view->turn_rad = play->is_reached ? view_turn_along (shot->ball, shot->aim) : view_turn_along (play->from, target);
  Box box = bounds_of (outline, view->turn_rad);
  if (play->is_reached && outline_distance (outline, shot->aim, NULL) <= NEAR_AIM_M)
    box = box_with_point (box, affine_apply (affine_rotation (view->turn_rad), shot->aim));
  double margin = 2 * MARGIN_UNITS * view->unit_px;
  double room_x = fmax (view->width_px - margin, 1), room_y = fmax (view->height_px - margin, 1);
  view->px_per_m = fmin (room_x / (box.x1 - box.x0), room_y / (box.y1 - box.y0));
  view->centre = affine_apply (affine_rotation (-view->turn_rad), box_centre (box));
}
