// SPDX-License-Identifier: GPL-3.0-or-later
/* frame - views made for a purpose: the one that shows the shot in hand, the one between two others, the step of an arrow key. */
#include "render.h"

/* Common practice: room past the farther of aim and landing, as a share of the shot, so that the run and the next trouble are seen. */
#define FRAME_BEYOND_SHARE 1.3
/* The hole is framed too when it is no farther than this many times the shot; else the shot would be drawn too small to drag. */
#define FRAME_HOLE_SHARE 2.3
/* Room behind the hole, metres: about a green's depth. */
#define FRAME_PAST_HOLE_M 25.0
/* Room for the tee's marker and label, and for the last distance mark, in design units of 1/96 inch. */
#define FRAME_LEFT_UNITS 64.0
#define FRAME_RIGHT_UNITS 36.0
/* Room above and below ball, aim and hole, in the same units. */
#define FRAME_MARGIN_UNITS 72.0

static double
frame_reach_m (const ShotResult *shot, bool has_target, Vec2 target)
{
  double shot_m = fmax (shot->aim_m, shot->carry_m);
  double reach_m = shot_m * FRAME_BEYOND_SHARE;
  if (has_target)
    {
      Vec2 along = vec2_unit (vec2_sub (shot->aim, shot->ball));
      double hole_m = vec2_dot (vec2_sub (target, shot->ball), along);
      if (hole_m <= shot_m * FRAME_HOLE_SHARE)
        reach_m = fmax (reach_m, hole_m + FRAME_PAST_HOLE_M);
    }
  return reach_m;
}

void
view_frame_shot (RenderView *view, const PlanScene *scene)
{
  const ShotResult *shot = &scene->shots[scene->current];
  Vec2 target = shot->aim;
  bool has_target = hole_target (scene->hole, NULL, &target);
  double reach_m = frame_reach_m (shot, has_target, target);
  view_along_shot (view, shot->ball, shot->aim, reach_m, FRAME_LEFT_UNITS * view->unit_px, FRAME_RIGHT_UNITS * view->unit_px);

  Box held = box_with_point (box_empty (), view_point (view, shot->ball));
  held = box_with_point (held, view_point (view, shot->landing));
  Vec2 target_px = view_point (view, target);
  if (target_px.x <= view->width_px)
    held = box_with_point (held, target_px);
  double most_px = fmax (0, view->height_px / 2 - FRAME_MARGIN_UNITS * view->unit_px);
  double off_px = view->height_px / 2 - box_centre (held).y;
  view_pan (view, vec2 (0, fmax (-most_px, fmin (most_px, off_px))));
}

Vec2
view_step (const RenderView *view, Vec2 direction_px, double length_m)
{
  Vec2 here = view_unproject (view, vec2 (0, 0));
  Vec2 there = view_unproject (view, direction_px);
  return vec2_scale (vec2_unit (vec2_sub (there, here)), length_m);
}

RenderView
view_between (const RenderView *from, const RenderView *to, double part)
{
  RenderView view = *to;
  view.centre = vec2_lerp (from->centre, to->centre, part);
  view.px_per_m = from->px_per_m * pow (to->px_per_m / from->px_per_m, part);
  double turn = remainder (to->turn_rad - from->turn_rad, 2 * PI);
  view.turn_rad = from->turn_rad + turn * part;
  return view;
}
