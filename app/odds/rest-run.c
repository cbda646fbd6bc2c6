// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A ball's run followed quickly, for thousands of them: the model of run_solve, but that it rolls in longer pieces, which are halved where the ground changes. All that is
 * asked is the area where it ends.
 */
#include "rest-private.h"

#include <math.h>

/* As app/flight/run.c has them: what is no rebound, and how often a ball bounces at most. */
#define LEAST_REBOUND_MPS 0.3
#define MOST_BOUNCES 12
/* Pieces of the roll in distance and time. One that ends on other ground is halved down to the shortest. */
#define PIECE_M 0.6
#define PIECE_S 0.4
#define SHORTEST_PIECE 0.125 /* of a whole one */
#define REST_MPS 1e-6

typedef struct
{
  const SlopePatch *patch;
  int area;        /* part index under the ball, -1: the ground */
  Surface surface; /* of that area's lie; its slope that of the place last looked at */
  Vec2 at;
  Impact motion;
  double time_s;
} Quick;

static void
enter (Quick *quick, int area)
{
  const Hole *hole = quick->patch->ground->hole;
  quick->area = area;
  quick->surface = quick->patch->ground
                       ->surfaces[kind_info (area >= 0 ? hole_part (hole, (size_t)area)->kind : hole_info (hole)->ground)->lie];
}

static void
move_to (Quick *quick, Vec2 at)
{
  int area = hole_area_at (quick->patch->ground->hole, at);
  if (area != quick->area)
    enter (quick, area);
  quick->at = at;
}

/* Bounces until the rebound is none; false when it stays where it came down. */
static bool
bounce (Quick *quick)
{
  for (int i = 0;; i++)
    {
      if (quick->surface.stops)
        return false;
      Vec2 slope = quick->surface.slope = slope_patch_slope (quick->patch, quick->at);
      quick->motion = bounce_off (&quick->motion, &quick->surface);
      Vec2 v = quick->motion.v_mps;
      double steep = sqrt (1 + vec2_dot (slope, slope));
      double off = (quick->motion.vz_mps - vec2_dot (v, slope)) / steep, hop_s = 2 * off * steep / GRAVITY_MPS2;
      if (!(off > LEAST_REBOUND_MPS) || i + 1 == MOST_BOUNCES || quick->time_s + hop_s > RUN_LONGEST_S)
        return true;
      move_to (quick, vec2_add (quick->at, vec2_scale (v, hop_s)));
      quick->motion.vz_mps -= GRAVITY_MPS2 * hop_s;
      quick->time_s += hop_s;
    }
}

/* What the slope draws and the turf holds, over the level. */
static Vec2
acceleration (Vec2 v, const Surface *surface)
{
  double flat = 1 / (1 + vec2_dot (surface->slope, surface->slope)), hold = surface->roll_decel_mps2 * flat;
  Vec2 draw = vec2_scale (surface->slope, -GRAVITY_MPS2 * flat);
  double speed2 = vec2_dot (v, v);
  if (speed2 > REST_MPS * REST_MPS)
    return vec2_sub (draw, vec2_scale (v, hold / sqrt (speed2)));
  return vec2_length (draw) <= hold ? vec2 (0, 0) : vec2_sub (draw, vec2_scale (vec2_unit (draw), hold));
}

/* Where a piece that long in time ends; `*v` the speed there. */
static Vec2
piece_end (const Quick *quick, const Surface *surface, Vec2 a, double piece_s, Vec2 *v)
{
  Vec2 v0 = quick->motion.v_mps;
  double speed2 = vec2_dot (v0, v0), slowing = -vec2_dot (v0, a);
  if (slowing > 0 && speed2 <= slowing * piece_s)
    {
      *v = vec2 (0, 0);
      return vec2_add (quick->at, vec2_scale (v0, 0.5 * speed2 / slowing));
    }
  Vec2 middle = acceleration (vec2_add (v0, vec2_scale (a, 0.5 * piece_s)), surface);
  *v = vec2_add (v0, vec2_scale (middle, piece_s));
  return vec2_add (quick->at, vec2_add (vec2_scale (v0, piece_s), vec2_scale (middle, 0.5 * piece_s * piece_s)));
}

static void
roll (Quick *quick)
{
  const Hole *hole = quick->patch->ground->hole;
  while (quick->time_s < RUN_LONGEST_S && !quick->surface.stops)
    {
      quick->surface.slope = slope_patch_slope (quick->patch, quick->at);
      Vec2 v = quick->motion.v_mps, a = acceleration (v, &quick->surface), at;
      double speed = sqrt (vec2_dot (v, v));
      if (!(speed > REST_MPS) && a.x == 0 && a.y == 0)
        return;
      double whole_s = speed * PIECE_S > PIECE_M ? PIECE_M / speed : PIECE_S, piece_s = whole_s;
      int area;
      for (;; piece_s /= 2)
        {
          at = piece_end (quick, &quick->surface, a, piece_s, &quick->motion.v_mps);
          area = hole_area_at (hole, at);
          if (piece_s <= SHORTEST_PIECE * whole_s || area == quick->area)
            break;
          quick->motion.v_mps = v;
        }
      if (area != quick->area)
        enter (quick, area);
      quick->at = at;
      quick->time_s += piece_s;
    }
}

int
rest_run (const SlopePatch *patch, const FlightPoint *landing, int area)
{
  Quick quick = { .patch = patch, .at = landing->at, .motion = { landing->v_mps, landing->vz_mps, landing->spin_radps } };
  enter (&quick, area);
  if (bounce (&quick))
    roll (&quick);
  return quick.area;
}
