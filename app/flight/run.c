// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * From the landing to rest: bounces with hops between them, then the roll.
 *
 * A hop is flown without air: at the 10 m/s and less of a first rebound drag takes some 0.2 m off it. It ends on the plane it began on. Rolling, the slope
 * draws the ball as it draws a point mass; a rolling sphere would feel five sevenths of it, but the slope on which putts no longer stop is published as
 * 2.4 degrees at 14 ft of green speed, and the point mass gives 2.3.
 */
#include "flight-private.h"

#include <math.h>

/* A rebound lower than 5 mm is none. */
#define LEAST_REBOUND_MPS 0.3
#define MOST_BOUNCES 12
/* The roll is followed in pieces this long in distance and time; the ground is looked at once in each. */
#define ROLL_PIECE_M 0.05
#define ROLL_PIECE_S 0.02
/* A ball slower than this is at rest unless the slope draws it on. */
#define REST_MPS 1e-6
/* Where sand or water begins, to a millimetre: halvings of a piece. */
#define EDGE_HALVINGS 6

/*
 * Turf of a fairway by firmness. Friction and everything of medium is Penner's; that soft ground returns a quarter less and dents more, firm
 * ground the other way, and all rolling decelerations are common practice, chosen so that the model golfers of the Course Rating System, 230 and 180 yd
 * of carry, roll their 20 yd on medium ground.
 */
static const struct
{
  const char *token;
  Surface turf;
} firmness_table[N_FIRMNESSES] = {
  [FIRMNESS_SOFT] = { "soft", { .bounce = 0.75, .friction = 0.40, .crater = 1.3, .roll_decel_mps2 = 2.8 } },
  [FIRMNESS_MEDIUM] = { "medium", { .bounce = 1, .friction = 0.40, .crater = 1, .roll_decel_mps2 = 2.0 } },
  [FIRMNESS_FIRM] = { "firm", { .bounce = 1.15, .friction = 0.40, .crater = 0.8, .roll_decel_mps2 = 1.5 } },
};

const char *
firmness_token (Firmness firmness)
{
  return firmness_table[firmness].token;
}

bool
firmness_from_token (const char *token, Firmness *firmness)
{
  for (int i = 0; i < N_FIRMNESSES; i++)
    if (g_strcmp0 (token, firmness_table[i].token) == 0)
      {
        *firmness = (Firmness)i;
        return true;
      }
  return false;
}

Surface
surface_turf (Firmness firmness)
{
  return firmness_table[firmness].turf;
}

/* ---- following the ball ---- */

typedef struct
{
  SurfaceAt surface;
  const void *data;
  bool is_level; /* and the same everywhere */
  Vec2 at;
  Impact motion;
  Run run;
} Roller;

static void
keep (Roller *roller)
{
  g_assert (roller->run.n_path < G_N_ELEMENTS (roller->run.path));
  roller->run.path[roller->run.n_path++] = roller->at;
}

/* Can a ball run on it? */
static bool
is_ground (const Surface *surface, GError **error)
{
  if (surface->stops)
    return true;
  bool is_sound = isfinite (surface->slope.x) && isfinite (surface->slope.y) && surface->bounce >= 0
                  && isfinite (surface->bounce) && surface->friction >= 0 && surface->crater >= 0 && isfinite (surface->crater)
                  && surface->roll_decel_mps2 > 0;
  if (!is_sound)
    g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE,
                         "the ground where the ball runs has no slope or firmness; check the heights drawn there");
  return is_sound;
}

/* Bounces until the rebound is none or the ball is where it stays; `stays` says which. */
static bool
bounce_on (Roller *roller, bool *stays, GError **error)
{
  for (int i = 0;; i++)
    {
      Surface surface = roller->surface (roller->data, roller->at);
      if (!is_ground (&surface, error))
        return false;
      keep (roller);
      *stays = surface.stops;
      if (surface.stops)
        return true;
      roller->motion = bounce_off (&roller->motion, &surface);
      Vec2 v = roller->motion.v_mps;
      double steep2 = 1 + vec2_dot (surface.slope, surface.slope);
      /* Speed off the plane, and that over the share of gravity that pulls back to it. */
      double off = (roller->motion.vz_mps - vec2_dot (v, surface.slope)) / sqrt (steep2);
      double hop_s = 2 * off * sqrt (steep2) / GRAVITY_MPS2;
      if (!(off > LEAST_REBOUND_MPS) || i + 1 == MOST_BOUNCES || roller->run.time_s + hop_s > RUN_LONGEST_S)
        return true;
      roller->at = vec2_add (roller->at, vec2_scale (v, hop_s));
      roller->motion.vz_mps -= GRAVITY_MPS2 * hop_s;
      roller->run.time_s += hop_s;
    }
}

/* Without the care that hypot takes of numbers no ball has. */
static inline double
length_of (Vec2 v)
{
  return sqrt (vec2_dot (v, v));
}

/* Acceleration over the level: what the slope draws and the turf holds. A ball at rest is held unless the slope draws more. */
static Vec2
roll_acceleration (Vec2 v, const Surface *surface)
{
  double flat = 1 / (1 + vec2_dot (surface->slope, surface->slope));
  Vec2 draw = vec2_scale (surface->slope, -GRAVITY_MPS2 * flat);
  double hold = surface->roll_decel_mps2 * flat, speed = length_of (v);
  if (speed > REST_MPS)
    return vec2_sub (draw, vec2_scale (v, hold / speed));
  Vec2 against = vec2_unit (draw);
  if (length_of (draw) <= hold)
    return vec2 (0, 0);
  return vec2_sub (draw, vec2_scale (against, hold));
}

/* The ball has come from `from` onto ground where it stays: put it on the edge. */
static void
stay_at_edge (Roller *roller, Vec2 from)
{
  Vec2 outside = from, inside = roller->at;
  for (int i = 0; i < EDGE_HALVINGS; i++)
    {
      Vec2 middle = vec2_lerp (outside, inside, 0.5);
      if (roller->surface (roller->data, middle).stops)
        inside = middle;
      else
        outside = middle;
    }
  roller->at = inside;
}

/* One piece of the roll; `rests` when the ball has come to rest. */
static void
roll_piece (Roller *roller, const Surface *surface, bool *rests)
{
  Vec2 v = roller->motion.v_mps, a = roll_acceleration (v, surface);
  double speed = length_of (v), pull = length_of (a);
  *rests = !(speed > REST_MPS) && !(pull > 0);
  if (*rests)
    return;
  double piece_s = smaller (ROLL_PIECE_S, ROLL_PIECE_M / larger (speed, ROLL_PIECE_M / ROLL_PIECE_S));
  /* Turf alone turns no ball round: it stops half way, and the next piece asks whether the slope draws it on. */
  double slowing = -vec2_dot (v, a);
  if (slowing > 0 && speed * speed <= slowing * piece_s)
    {
      piece_s = speed * speed / slowing;
      roller->at = vec2_add (roller->at, vec2_scale (v, 0.5 * piece_s));
      roller->motion.v_mps = vec2 (0, 0);
    }
  else
    {
      Vec2 middle = roll_acceleration (vec2_add (v, vec2_scale (a, 0.5 * piece_s)), surface);
      roller->at = vec2_add (roller->at, vec2_add (vec2_scale (v, piece_s), vec2_scale (middle, 0.5 * piece_s * piece_s)));
      roller->motion.v_mps = vec2_add (v, vec2_scale (middle, piece_s));
    }
  roller->run.time_s += piece_s;
}

/* On level turf the deceleration is the same to the end. */
static void
roll_level (Roller *roller, const Surface *surface)
{
  Vec2 v = roller->motion.v_mps;
  double speed = length_of (v), decel = surface->roll_decel_mps2;
  double roll_s = smaller (speed / decel, RUN_LONGEST_S - roller->run.time_s), last = speed - decel * roll_s;
  if (!(speed > REST_MPS))
    return;
  roller->at = vec2_add (roller->at, vec2_scale (v, 0.5 * (speed + last) / speed * roll_s));
  roller->motion.v_mps = vec2_scale (v, last / speed);
  roller->run.time_s += roll_s;
}

static bool
roll_on (Roller *roller, GError **error)
{
  keep (roller);
  Surface surface = roller->surface (roller->data, roller->at);
  if (roller->is_level)
    {
      roll_level (roller, &surface);
      return true;
    }
  while (roller->run.time_s < RUN_LONGEST_S)
    {
      Vec2 from = roller->at;
      if (!is_ground (&surface, error))
        return false;
      bool rests;
      roll_piece (roller, &surface, &rests);
      if (rests)
        return true;
      surface = roller->surface (roller->data, roller->at);
      if (surface.stops)
        {
          stay_at_edge (roller, from);
          return true;
        }
    }
  return true;
}

static bool
follow (Roller *roller, const FlightPoint *landing, Run *run, GError **error)
{
  bool is_finite = isfinite (landing->at.x) && isfinite (landing->at.y) && isfinite (landing->v_mps.x)
                   && isfinite (landing->v_mps.y) && isfinite (landing->vz_mps) && isfinite (landing->spin_radps);
  if (!is_finite)
    {
      g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE,
                           "the ball comes down nowhere; put it and its aim on the drawing");
      return false;
    }
  roller->at = landing->at;
  roller->motion = (Impact){ landing->v_mps, landing->vz_mps, landing->spin_radps };
  bool stays;
  if (!bounce_on (roller, &stays, error) || (!stays && !roll_on (roller, error)))
    return false;
  keep (roller);
  roller->run.rest = roller->at;
  roller->run.run_m = vec2_distance (landing->at, roller->at);
  *run = roller->run;
  return true;
}

bool
run_solve (const FlightPoint *landing, SurfaceAt surface, const void *data, Run *run, GError **error)
{
  Roller roller = { .surface = surface, .data = data };
  return follow (&roller, landing, run, error);
}

static Surface
same_everywhere (const void *data, Vec2 at)
{
  (void)at;
  return *(const Surface *)data;
}

bool
run_solve_level (const FlightPoint *landing, const Surface *ground, Run *run, GError **error)
{
  Surface level = *ground;
  level.slope = vec2 (0, 0);
  Roller roller = { .surface = same_everywhere, .data = &level, .is_level = true };
  return follow (&roller, landing, run, error);
}
